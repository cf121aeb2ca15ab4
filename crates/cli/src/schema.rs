//! `schema`: JSON Schema of our files.

use stickleaf_files::schema;

use crate::options::{SchemaCommand, SchemaOf};
use crate::{Outcome, Trouble, output};

/// Prints the schema asked for, or both in one object. It is JSON already, so `--report json` changes nothing.
pub fn run(typed: &SchemaCommand) -> Result<Outcome, Trouble> {
    let text = match typed.file {
        Some(SchemaOf::Layout) => schema::layout(),
        Some(SchemaOf::Placement) => schema::placement(),
        None => schema::both(),
    };
    output::print(&text);
    Ok(Outcome::Done)
}
