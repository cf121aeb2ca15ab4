//! The layout file: the saved work, and what goes to the worker and back.

use stickleaf_sheet::Layout;

use crate::convert::{layout_of, shape_of};
use crate::header::{self, Format};
use crate::placement_file;
use crate::pretty::pretty;
use crate::read_error::ReadError;
use crate::shape::LayoutShape;

/// The layout in the text of a layout file, or of a placement file.
///
/// What is left out gets its default. Fields that this version does not know are kept and written back by [`write()`];
/// what a placement file works out from the layout is dropped, since it is worked out anew when one is written.
///
/// Errors name the place in the file. A layout that breaks rules is read all the same; one that makes no sense is not.
pub fn read(text: &str) -> Result<Layout, ReadError> {
    // Some programs begin a text file with a byte order mark.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let format = header::format_of(text)?;
    let mut json = serde_json::Deserializer::from_str(text);
    let mut shape: LayoutShape =
        serde_path_to_error::deserialize(&mut json).map_err(|error| misfit(&error))?;
    if format == Format::Placement {
        placement_file::drop_what_is_worked_out(&mut shape);
    }
    let layout = layout_of(shape)?;
    layout.validate()?;
    Ok(layout)
}

/// As [`read`], from the bytes of the file.
pub fn read_bytes(bytes: &[u8]) -> Result<Layout, ReadError> {
    let text = std::str::from_utf8(bytes).map_err(|error| ReadError::NotText { at: error.valid_up_to() })?;
    read(text)
}

/// The text of the layout file of a [valid](Layout::validate) layout.
///
/// Reading it gives an equal layout. An outline that was read from a file and not changed since is written as it was.
pub fn write(layout: &Layout) -> String {
    // A struct of texts, numbers and lists always makes JSON.
    pretty(&serde_json::to_value(shape_of(layout)).unwrap_or_default())
}

fn misfit(error: &serde_path_to_error::Error<serde_json::Error>) -> ReadError {
    let place = error.path().to_string();
    ReadError::Misfit {
        line: error.inner().line(),
        column: error.inner().column(),
        place: if place == "." { "the file".to_owned() } else { place },
        what: header::without_place(error.inner()),
    }
}
