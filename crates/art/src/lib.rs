//! art
