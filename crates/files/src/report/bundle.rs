//! What a bundle holds, as facts for programs.

use serde::Serialize;

/// What a bundle holds.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct BundleFacts {
    /// How many stickers have a part of a picture of their own.
    pub with_parts: usize,
    /// The pictures that stayed behind, since their stickers have their parts; what no sticker has of them is not in it.
    pub left: Vec<String>,
    /// The pictures that are missing.
    pub missing: Vec<String>,
    /// How large it is.
    pub bytes: usize,
}
