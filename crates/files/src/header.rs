//! The first look at a file: whose it is, and whether this version can read it.

use serde_json::Value;

use crate::read_error::ReadError;

/// What a layout file calls itself.
pub(crate) const LAYOUT: &str = "stickleaf-layout";
/// What a placement file calls itself.
pub(crate) const PLACEMENT: &str = "stickleaf-placement";

/// Which of our two JSON files a text is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Format {
    Layout,
    Placement,
}

/// Which file the text is; an error unless it is JSON, ours, and of a version that can be read.
///
/// Version 1 and every 1.x can: a smaller step only adds fields, and those are kept.
pub(crate) fn format_of(text: &str) -> Result<Format, ReadError> {
    if text.trim().is_empty() {
        return Err(ReadError::Empty);
    }
    let value: Value = serde_json::from_str(text).map_err(|error| not_json(&error))?;
    let format = match value.get("format") {
        Some(Value::String(name)) if name == LAYOUT => Format::Layout,
        Some(Value::String(name)) if name == PLACEMENT => Format::Placement,
        Some(other) => return Err(ReadError::NotOurs { found: shortened(&other.to_string()) }),
        None => return Err(ReadError::NotOurs { found: "missing".to_owned() }),
    };
    check_version(value.get("version"))?;
    Ok(format)
}

fn check_version(version: Option<&Value>) -> Result<(), ReadError> {
    let text = match version {
        None => "missing".to_owned(),
        Some(Value::String(text)) => text.clone(),
        Some(other) => other.to_string(),
    };
    let number = text.parse::<f64>().unwrap_or(0.0);
    let version = shortened(&text);
    if number >= 2.0 {
        Err(ReadError::Newer { version })
    } else if number >= 1.0 {
        Ok(())
    } else {
        Err(ReadError::NoSuchVersion { version })
    }
}

fn shortened(text: &str) -> String {
    const MOST: usize = 40;
    if text.chars().count() <= MOST {
        return text.to_owned();
    }
    text.chars().take(MOST).chain(['…']).collect()
}

/// The reader's error without the place that its text repeats.
pub(crate) fn not_json(error: &serde_json::Error) -> ReadError {
    let what = if error.is_eof() { "it ends too early".to_owned() } else { without_place(error) };
    ReadError::NotJson { line: error.line(), column: error.column(), what }
}

/// What the reader says, without the line and column at its end.
pub(crate) fn without_place(error: &serde_json::Error) -> String {
    let text = error.to_string();
    match text.rfind(" at line ") {
        Some(end) if error.line() > 0 => text[..end].to_owned(),
        _ => text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refused(text: &str) -> String {
        format_of(text).unwrap_err().to_string()
    }

    #[test]
    fn versions_one_point_something_can_be_read() {
        for version in ["1", "1.0", "1.7", "\"1\"", "\"1.2\""] {
            let text = format!("{{\"format\": \"stickleaf-layout\", \"version\": {version}}}");
            assert_eq!(format_of(&text), Ok(Format::Layout), "{version}");
        }
        assert_eq!(format_of(r#"{"format": "stickleaf-placement", "version": 1}"#), Ok(Format::Placement));
    }

    #[test]
    fn a_newer_file_is_sent_to_the_newer_program() {
        let text = refused(r#"{"version": 2, "format": "stickleaf-layout", "sheet": "something new"}"#);
        assert!(text.contains("version 2") && text.contains("newer Stickleaf"), "{text}");
    }

    #[test]
    fn other_files_are_named_for_what_they_are() {
        assert!(refused("").contains("empty"));
        assert!(refused(" \n").contains("empty"));
        let cut_off = refused("[1, 2");
        assert!(cut_off.starts_with("line 1, column 5: this is not JSON: it ends too early"), "{cut_off}");
        assert!(refused("[]").contains("\"format\" is missing"));
        assert!(refused(r#"{"format": 3}"#).contains("\"format\" is 3"));
        assert!(refused(r#"{"format": "stickleaf-layout"}"#).contains("\"version\" is missing"));
        assert!(refused(r#"{"format": "stickleaf-layout", "version": 0}"#).contains("\"version\" is 0"));
        assert!(
            refused(r#"{"format": "stickleaf-layout", "version": "new"}"#).contains("\"version\" is new")
        );
    }
}
