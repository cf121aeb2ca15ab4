//! files
