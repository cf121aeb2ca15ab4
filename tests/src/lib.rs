//! What the outside checks share: published values, generated shapes, a picture drawn exactly, and real art.
//!
//! Nothing here is asked of the crates under test: areas, pictures and distances that a test compares with come from
//! closed formulae, from published tables, or from other libraries.

pub mod art;
pub mod data;
pub mod picture;
pub mod shapes;
