//! Files that cannot be read: each is refused with the place and with what to do.

use stickleaf_files::{ReadError, read};

const SQUARE: &str = "M0 0H9V9H0Z";

/// A layout file with these fields besides the ones that must be there.
fn file(fields: &str) -> String {
    format!(
        "{{\"format\": \"stickleaf-layout\", \"version\": 1,\n\"sheet\": {{\"width_mm\": 105, \"height_mm\": 148}},\n{fields}}}"
    )
}

/// A layout file with one sticker that has these fields besides id and outline.
fn sticker(fields: &str) -> String {
    file(&format!("\"stickers\": [{{\"id\": \"dot\", \"outline\": \"{SQUARE}\"{fields}}}]"))
}

fn refused(text: &str) -> String {
    read(text).unwrap_err().to_string()
}

#[test]
fn the_files_that_the_others_are_made_from_can_be_read() {
    assert!(read(&file("\"stickers\": []")).is_ok());
    assert!(read(&sticker("")).is_ok());
}

#[test]
fn a_wrong_value_is_named_with_line_and_place() {
    let cases = [
        (
            sticker(", \"border_mm\": \"wide\""),
            "line 3, column",
            "stickers[0].border_mm",
            "expected a number",
        ),
        (sticker(", \"wanted\": \"two\""), "line 3, column", "stickers[0].wanted", "{\"exactly\": n}"),
        (sticker(", \"wanted\": {\"exactly\": -1}"), "line 3", "stickers[0].wanted.exactly", "-1"),
        (sticker(", \"turns\": \"some\""), "line 3", "stickers[0].turns", "\"none\", \"any\""),
        (sticker(", \"art\": {}"), "line 3", "stickers[0].art", "missing field `file`"),
        (file("\"stickers\": [{\"id\": \"dot\"}]"), "line 3", "stickers[0]", "missing field `outline`"),
        (file("\"stickers\": [7]"), "line 3", "stickers[0]", "an object such as"),
        (file("\"stickers\": [], \"pieces\": [{}]"), "line 3", "pieces[0]", "missing field `sticker`"),
        (file("\"name\": \"no stickers\""), "line 3", "the file", "missing field `stickers`"),
        (
            file("\"stickers\": [], \"rules\": {\"spacing_mm\": null}"),
            "line 3",
            "rules.spacing_mm",
            "a number",
        ),
    ];
    for (text, line, place, what) in cases {
        let message = refused(&text);
        for part in [line, place, what] {
            assert!(message.contains(part), "{message:?} lacks {part:?}");
        }
    }
}

#[test]
fn broken_json_is_named_with_its_line() {
    let message = refused("{\n  \"format\": \"stickleaf-layout\",\n  \"version\" 1\n}");
    assert!(message.starts_with("line 3, column 13: this is not JSON"), "{message}");
    assert!(matches!(read(&"[".repeat(100_000)), Err(ReadError::NotJson { .. })));
    assert!(matches!(read(&file("\"name\": 1e999")), Err(ReadError::NotJson { .. })));
}

#[test]
fn a_bad_outline_is_named_with_its_place() {
    let path =
        |d: &str| refused(&file(&format!("\"stickers\": [{{\"id\": \"dot\", \"outline\": \"{d}\"}}]")));
    for (d, what) in [
        ("M0 0L10 NaN", "not SVG path data"),
        ("", "encloses no area"),
        ("M0 0L5 0L10 0Z", "encloses no area"),
        ("M0 0H10V10H0Z M20 0H30V10H20Z", "2 separate parts"),
        ("M0 0L10 10L10 0L0 8Z", "crosses or touches itself"),
        ("M0 0H1e6V5Z", "more than 10 m"),
    ] {
        let message = path(d);
        assert!(message.starts_with("stickers[0].outline: ") && message.contains(what), "{d}: {message}");
    }
    let zone =
        file("\"stickers\": [], \"backgrounds\": [{\"name\": \"a\", \"zones\": [{\"outline\": \"M0\"}]}]");
    assert!(refused(&zone).starts_with("backgrounds[0].zones[0].outline: "));
}

#[test]
fn values_that_cannot_be_are_named_with_their_place() {
    for (text, what) in [
        (sticker(", \"wanted\": {}"), "stickers[0].wanted: say either"),
        (sticker(", \"wanted\": {\"exactly\": 1, \"at_least\": 1}"), "stickers[0].wanted: say either"),
        (sticker(", \"border_mm\": 1e300"), "stickers[0].border_mm: this is more than 10 m"),
        (
            sticker(", \"art\": {\"file\": \"a\", \"pixels_per_mm\": 0}"),
            "art.pixels_per_mm: this must be above 0",
        ),
        (sticker(", \"border_mm\": -1"), "the border of sticker \"dot\" is -1; it must be 0 or more"),
        (file("\"stickers\": [], \"rules\": {\"margin_mm\": 60}"), "no usable part"),
        (file("\"stickers\": [], \"rules\": {\"spacing_mm\": -2}"), "the spacing is -2"),
        (file("\"stickers\": [], \"background\": \"Sea\""), "background \"Sea\""),
        (
            file("\"stickers\": [], \"pieces\": [{\"sticker\": \"cat\", \"x_mm\": 1, \"y_mm\": 1}]"),
            "piece 1 is a copy of sticker \"cat\"",
        ),
    ] {
        let message = refused(&text);
        assert!(message.contains(what), "{message:?} lacks {what:?}");
    }
}
