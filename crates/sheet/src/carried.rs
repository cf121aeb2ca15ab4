//! What a file holds that this version does not know.

/// Fields of a file that are not understood here, carried along so that they can be written back.
///
/// Pairs of a field's name and its value as text, in the order of the file. Nothing in the core looks inside.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Carried(pub Vec<(String, String)>);
