//! The SVG as text: ids for what has none, names, and what is there but cannot be cut.

use std::collections::HashMap;

use usvg::roxmltree::{self, Document, Node, ParsingOptions};

use crate::svg::SvgError;

const SVG: &str = "http://www.w3.org/2000/svg";

/// Elements whose ids matter: each paints something or holds what does.
const PAINTING: [&str; 11] =
    ["g", "a", "use", "svg", "path", "rect", "circle", "ellipse", "line", "polyline", "polygon"];

/// Elements whose content is painted only where something refers to it.
const STORED: [&str; 9] =
    ["defs", "symbol", "clipPath", "mask", "pattern", "marker", "filter", "linearGradient", "radialGradient"];

/// The deepest that elements may lie within each other; the same as the limit of the library that resolves them.
const MOST_DEPTH: u32 = 1024;

/// What the text of an SVG says beside its shapes.
pub(crate) struct Source {
    /// The text, with an id given to every painting element that had none.
    pub text: String,
    /// What elements are called, by id; generated ids and names give nothing.
    pub names: HashMap<String, String>,
    /// How many visible text elements there are.
    pub texts: usize,
    /// How many visible picture elements there are.
    pub pictures: usize,
    /// Whether width or height is given as a length.
    pub says_size: bool,
}

/// Reads the text as plain XML.
pub(crate) fn source(text: &str) -> Result<Source, SvgError> {
    let options = ParsingOptions { allow_dtd: true, ..ParsingOptions::default() };
    let document = Document::parse_with_options(text, options).map_err(|error| malformed(&error))?;
    let root = document.root_element();
    if !root.has_tag_name((SVG, "svg")) {
        return Err(SvgError::NotSvg { found: root.tag_name().name().to_owned() });
    }
    let says_size = ["width", "height"]
        .iter()
        .any(|side| root.attribute(*side).is_some_and(|length| !length.trim().ends_with('%')));
    let mut found = Source { text: String::new(), names: HashMap::new(), texts: 0, pictures: 0, says_size };
    let prefix = unused_prefix(text);
    let mut added: Vec<(usize, String)> = Vec::new();
    // By the number of a node: how deep it lies, and whether it is hidden. Parents come before their children.
    let mut state: HashMap<roxmltree::NodeId, (u32, bool)> = HashMap::new();
    for node in root.descendants().filter(Node::is_element) {
        let (depth, hidden) =
            node.parent().and_then(|parent| state.get(&parent.id()).copied()).unwrap_or_default();
        if depth > MOST_DEPTH {
            return Err(SvgError::TooComplex);
        }
        let hidden = hidden || is_hidden(node);
        state.insert(node.id(), (depth + 1, hidden));
        if node.tag_name().namespace() != Some(SVG) {
            continue;
        }
        let tag = node.tag_name().name();
        match tag {
            "text" if !hidden => found.texts += 1,
            "image" if !hidden => found.pictures += 1,
            _ if PAINTING.contains(&tag) => {
                let id = match node.attribute("id") {
                    Some(id) => id.to_owned(),
                    None => {
                        let id = format!("{prefix}{}", added.len());
                        // An element out of an entity stands before the root; it keeps having no id.
                        if let Some(place) = place_for_id(text, node, root) {
                            added.push((place, id.clone()));
                        }
                        id
                    }
                };
                if let Some(name) = name(node).filter(|_| node != root) {
                    found.names.entry(id).or_insert(name);
                }
            }
            _ => {}
        }
    }
    added.sort_unstable();
    added.dedup_by_key(|(place, _)| *place);
    found.text = with_ids(text, &added);
    Ok(found)
}

/// The error of the XML parser in our words.
pub(crate) fn malformed(error: &roxmltree::Error) -> SvgError {
    let position = error.pos();
    let reason = error.to_string();
    let suffix = format!(" at {position}");
    let reason = reason.strip_suffix(&suffix).unwrap_or(&reason).to_owned();
    SvgError::Malformed { row: position.row, column: position.col, reason }
}

fn is_hidden(node: Node<'_, '_>) -> bool {
    let by_style = || {
        let style = node.attribute("style")?;
        Some(style.split(';').any(|rule| {
            rule.split_once(':').is_some_and(|(key, value)| key.trim() == "display" && value.trim() == "none")
        }))
    };
    STORED.contains(&node.tag_name().name())
        || node.attribute("display").is_some_and(|value| value.trim() == "none")
        || by_style().unwrap_or(false)
}

/// What the artist calls an element: its label (an attribute of that name in a drawing app's namespace), its title, or
/// its id, whichever comes first and does not look generated.
fn name(node: Node<'_, '_>) -> Option<String> {
    let label = node
        .attributes()
        .find(|attribute| attribute.name() == "label" && attribute.namespace().is_some())
        .map(|attribute| attribute.value());
    let title =
        node.children().find(|child| child.has_tag_name((SVG, "title"))).and_then(|child| child.text());
    [label, title, node.attribute("id")]
        .into_iter()
        .flatten()
        .map(str::trim)
        .find(|name| !name.is_empty() && !is_generated(name))
        .map(str::to_owned)
}

/// Whether a name is a kind of element with or without a number, as drawing apps give by themselves: `path12`, `Layer 1`.
fn is_generated(name: &str) -> bool {
    const KINDS: [&str; 8] =
        ["layer", "group", "shape", "object", "artboard", "compound-path", "text", "image"];
    let kind = name.trim_end_matches(|letter: char| letter.is_ascii_digit() || "-_ .".contains(letter));
    let kind = kind.to_ascii_lowercase();
    kind.is_empty() || KINDS.contains(&kind.as_str()) || PAINTING.contains(&kind.as_str())
}

/// A start for ids that no id in the text has.
fn unused_prefix(text: &str) -> String {
    let mut prefix = String::from("part-");
    while text.contains(&prefix) {
        prefix.insert(0, '-');
        prefix.insert(0, 'p');
    }
    prefix
}

/// Where in the text an attribute of the element can be put in: right behind its name.
fn place_for_id(text: &str, node: Node<'_, '_>, root: Node<'_, '_>) -> Option<usize> {
    let start = node.range().start;
    if start < root.range().start {
        return None;
    }
    let tag = text.get(start..)?.strip_prefix('<')?;
    let length = tag.find(|letter: char| letter.is_whitespace() || letter == '/' || letter == '>')?;
    Some(start + 1 + length)
}

fn with_ids(text: &str, added: &[(usize, String)]) -> String {
    let mut whole = String::with_capacity(text.len() + added.len() * 24);
    let mut from = 0;
    for (place, id) in added {
        whole.push_str(&text[from..*place]);
        whole.push_str(" id=\"");
        whole.push_str(id);
        whole.push('"');
        from = *place;
    }
    whole.push_str(&text[from..]);
    whole
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_are_given_to_what_has_none() {
        let text = r#"<svg xmlns="http://www.w3.org/2000/svg"><g><path id="tail"/><rect/></g><title>x</title></svg>"#;
        let found = source(text).unwrap();
        assert!(found.text.contains(r#"<g id="part-1"><path id="tail"/><rect id="part-2"/></g><title>"#));
        assert_eq!(found.names.get("tail").map(String::as_str), Some("tail"));
        assert_eq!(found.names.len(), 1);
    }

    #[test]
    fn a_label_comes_before_a_title_before_an_id() {
        let text = r#"<svg xmlns="http://www.w3.org/2000/svg" xmlns:a="http://example.org/app">
            <g id="x" a:label="Fox"><title>Animal</title></g><g id="y"><title>Owl</title></g>
            <g id="z" a:label="Layer 2"/><g id="g-17"/></svg>"#;
        let names = source(text).unwrap().names;
        assert_eq!(names["x"], "Fox");
        assert_eq!(names["y"], "Owl");
        assert_eq!(names["z"], "z");
        assert!(!names.contains_key("g-17"));
    }

    #[test]
    fn text_and_pictures_are_counted_unless_hidden() {
        let text = r#"<svg xmlns="http://www.w3.org/2000/svg"><text>a</text><defs><text>b</text></defs>
            <g style="fill: red; display : none"><image/></g><g><image/><image/></g></svg>"#;
        let found = source(text).unwrap();
        assert_eq!((found.texts, found.pictures), (1, 2));
    }

    #[test]
    fn trouble_is_named_with_its_place() {
        let error = source("<svg xmlns='http://www.w3.org/2000/svg'>\n  <g></svg>").err().unwrap();
        assert!(matches!(error, SvgError::Malformed { row: 2, .. }), "{error:?}");
        assert!(error.to_string().contains("at 2:"), "{error}");
        assert_eq!(source("<html/>").err(), Some(SvgError::NotSvg { found: "html".into() }));
    }

    #[test]
    fn depth_without_end_is_refused() {
        let deep = format!("<svg xmlns='{SVG}'>{}{}</svg>", "<g>".repeat(3000), "</g>".repeat(3000));
        assert_eq!(source(&deep).err(), Some(SvgError::TooComplex));
    }
}
