//! JSON that is good to read: short things on one line, long things one entry to a line.

use serde_json::Value;

/// Nothing is put on one line that makes it longer than this many characters.
const LINE: usize = 118;

/// The value as JSON text, ending with a line break.
///
/// An object or list stands on one line if it fits there; the outermost object is always spread out. Fields keep
/// their order.
pub fn pretty(value: &Value) -> String {
    let mut text = String::new();
    spread(value, 0, &mut text);
    text.push('\n');
    text
}

/// Writes the value with every entry on lines of its own, entries themselves on one line where they fit.
fn spread(value: &Value, indent: usize, text: &mut String) {
    match value {
        Value::Object(fields) if !fields.is_empty() => {
            text.push('{');
            for (i, (name, field)) in fields.iter().enumerate() {
                start_line(i, indent + 2, text);
                text.push_str(&Value::from(name.as_str()).to_string());
                text.push_str(": ");
                entry(field, indent + 2, name.chars().count() + 4, text);
            }
            end_lines(indent, '}', text);
        }
        Value::Array(entries) if !entries.is_empty() => {
            text.push('[');
            for (i, one) in entries.iter().enumerate() {
                start_line(i, indent + 2, text);
                entry(one, indent + 2, 0, text);
            }
            end_lines(indent, ']', text);
        }
        other => text.push_str(&other.to_string()),
    }
}

/// Writes an entry on the line begun if there is room for it, otherwise spread out.
fn entry(value: &Value, indent: usize, used: usize, text: &mut String) {
    let mut line = String::new();
    if on_one_line(value, LINE.saturating_sub(indent + used + 1), &mut line) {
        text.push_str(&line);
    } else {
        spread(value, indent, text);
    }
}

/// Writes the value on one line; false as soon as it grows longer than `room`.
fn on_one_line(value: &Value, room: usize, line: &mut String) -> bool {
    match value {
        Value::Object(fields) => {
            line.push('{');
            for (i, (name, field)) in fields.iter().enumerate() {
                line.push_str(if i == 0 { "" } else { ", " });
                line.push_str(&Value::from(name.as_str()).to_string());
                line.push_str(": ");
                if !on_one_line(field, room, line) {
                    return false;
                }
            }
            line.push('}');
        }
        Value::Array(entries) => {
            line.push('[');
            for (i, one) in entries.iter().enumerate() {
                line.push_str(if i == 0 { "" } else { ", " });
                if !on_one_line(one, room, line) {
                    return false;
                }
            }
            line.push(']');
        }
        other => line.push_str(&other.to_string()),
    }
    line.len() <= room
}

fn start_line(index: usize, indent: usize, text: &mut String) {
    text.push_str(if index == 0 { "\n" } else { ",\n" });
    text.extend(std::iter::repeat_n(' ', indent));
}

fn end_lines(indent: usize, close: char, text: &mut String) {
    text.push('\n');
    text.extend(std::iter::repeat_n(' ', indent));
    text.push(close);
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn short_things_share_a_line_and_long_ones_do_not() {
        let value =
            json!({"sheet": {"width_mm": 105, "tags": ["a", "b"]}, "empty": [], "text": "x".repeat(150)});
        let expected = format!(
            "{{\n  \"sheet\": {{\"width_mm\": 105, \"tags\": [\"a\", \"b\"]}},\n  \"empty\": [],\n  \"text\": \"{}\"\n}}\n",
            "x".repeat(150)
        );
        assert_eq!(pretty(&value), expected);
    }

    #[test]
    fn no_line_that_can_be_broken_is_too_long() {
        let row: Vec<u32> = (0..100).collect();
        let text = pretty(&json!({"rows": [row], "say": "\"quoted\" line"}));
        assert!(text.lines().all(|line| line.len() <= LINE));
        assert_eq!(serde_json::from_str::<Value>(&text).unwrap()["rows"][0][99], 99);
    }
}
