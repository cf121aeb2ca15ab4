//! Outside checks.
