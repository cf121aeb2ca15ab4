//! Names of copies.

use crate::words;

/// What a copy of a project is called, so that no other of these names is the same.
///
/// A copy of a copy counts on: "Tide pool copy", "Tide pool copy 2", "Tide pool copy 3".
pub fn copy_name(name: &str, taken: &[String]) -> String {
    let stem = words::copy_of(original(name));
    let numbered = (2..).map(|number| format!("{stem} {number}"));
    let is_free = |name: &String| !taken.contains(name);
    // There are more numbers than names.
    std::iter::once(stem.clone()).chain(numbered).find(is_free).unwrap_or(stem)
}

/// The name without what makes it that of a copy.
fn original(name: &str) -> &str {
    let is_number = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    let bare = name.rsplit_once(' ').filter(|(_, number)| is_number(number)).map_or(name, |(bare, _)| bare);
    bare.strip_suffix(words::copy_ending()).unwrap_or(name)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn name_of_copy(name: &str, taken: &[&str]) -> String {
        copy_name(name, &taken.iter().map(|&name| name.to_owned()).collect::<Vec<_>>())
    }

    #[test]
    fn copies_are_counted() {
        assert_eq!(name_of_copy("Tide pool", &["Tide pool"]), "Tide pool copy");
        assert_eq!(name_of_copy("Tide pool", &["Tide pool", "Tide pool copy"]), "Tide pool copy 2");
        assert_eq!(name_of_copy("Tide pool", &["Tide pool copy", "Tide pool copy 2"]), "Tide pool copy 3");
    }

    #[test]
    fn a_copy_of_a_copy_counts_on() {
        assert_eq!(name_of_copy("Tide pool copy", &["Tide pool copy"]), "Tide pool copy 2");
        assert_eq!(
            name_of_copy("Tide pool copy 2", &["Tide pool copy", "Tide pool copy 2"]),
            "Tide pool copy 3"
        );
    }

    #[test]
    fn a_number_in_a_name_stays() {
        assert_eq!(name_of_copy("Cards 2", &["Cards 2"]), "Cards 2 copy");
    }

    #[test]
    fn a_sheet_without_a_name_has_copies_too() {
        assert_eq!(name_of_copy("", &[]), "Untitled copy");
    }
}
