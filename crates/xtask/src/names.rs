//! File names that change with their content, and the references to them.
//!
//! A browser may keep an old file of a page for as long as it likes. When the name holds a hash of the content, an
//! old script can never meet a new wasm: whoever loads today's `index.html` loads today's files.

use std::fs;
use std::hash::{DefaultHasher, Hasher};
use std::path::Path;

use crate::trouble::Trouble;

/// Renames `folder/name` after its content and gives the new name.
pub fn rename_after_content(folder: &Path, name: &str) -> Result<String, Trouble> {
    let old = folder.join(name);
    let content = fs::read(&old).map_err(Trouble::file("read", &old))?;
    let new = name_after_content(name, &content);
    fs::rename(&old, folder.join(&new)).map_err(Trouble::file("rename", &old))?;
    Ok(new)
}

/// Makes every mention of `name` in `folder/file` a mention of `new`.
///
/// It is an error if there is none: the page would not find the renamed file.
pub fn point_to(folder: &Path, file: &str, name: &str, new: &str) -> Result<(), Trouble> {
    let path = folder.join(file);
    let text = fs::read_to_string(&path).map_err(Trouble::file("read", &path))?;
    let text = with_reference(&text, name, new)
        .ok_or_else(|| Trouble::Unreferenced { file: file.to_owned(), name: name.to_owned() })?;
    fs::write(&path, text).map_err(Trouble::file("write", &path))
}

/// `name` with 16 hexadecimal digits of hash before its last dot. The hash only has to differ when the content does.
fn name_after_content(name: &str, content: &[u8]) -> String {
    let mut hasher = DefaultHasher::new();
    hasher.write(content);
    let hash = hasher.finish();
    match name.rsplit_once('.') {
        Some((stem, ending)) => format!("{stem}-{hash:016x}.{ending}"),
        None => format!("{name}-{hash:016x}"),
    }
}

/// `text` with every quoted `name` or `./name` replaced, or `None` if there is none.
///
/// Only a whole quoted reference counts, so that `page.js` is not found within `homepage.js` or in a comment.
fn with_reference(text: &str, name: &str, new: &str) -> Option<String> {
    let mut changed = text.to_owned();
    for quote in ['"', '\''] {
        for start in ["", "./"] {
            changed = changed
                .replace(&format!("{quote}{start}{name}{quote}"), &format!("{quote}{start}{new}{quote}"));
        }
    }
    (changed != text).then_some(changed)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_name_follows_the_content_alone() {
        let name = name_after_content("page_bg.wasm", b"leaf");
        assert!(name.starts_with("page_bg-") && name.ends_with(".wasm"), "{name}");
        assert_eq!(name.len(), "page_bg-.wasm".len() + 16);
        assert_eq!(name, name_after_content("page_bg.wasm", b"leaf"));
        assert_ne!(name, name_after_content("page_bg.wasm", b"leaves"));
    }

    #[test]
    fn every_quoted_reference_is_replaced() {
        let html = r#"<link rel="modulepreload" href="./page.js"><script>import('page.js')</script>"#;
        let expected = r#"<link rel="modulepreload" href="./page-1.js"><script>import('page-1.js')</script>"#;
        assert_eq!(with_reference(html, "page.js", "page-1.js").unwrap(), expected);
    }

    #[test]
    fn other_names_and_prose_stay_as_they_are() {
        for text in [r#"<script src="homepage.js">"#, "<!-- see page.js -->", r#"<a href="old/page.js">"#, ""]
        {
            assert_eq!(with_reference(text, "page.js", "page-1.js"), None, "{text}");
        }
    }

    #[test]
    fn files_are_renamed_and_found_again() {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("page.js"), "export {}").unwrap();
        fs::write(folder.path().join("worker.js"), "import './page.js'").unwrap();
        let new = rename_after_content(folder.path(), "page.js").unwrap();
        point_to(folder.path(), "worker.js", "page.js", &new).unwrap();
        assert_eq!(fs::read_to_string(folder.path().join(&new)).unwrap(), "export {}");
        let worker = fs::read_to_string(folder.path().join("worker.js")).unwrap();
        assert_eq!(worker, format!("import './{new}'"));
        let lost = point_to(folder.path(), "worker.js", "page.js", &new).unwrap_err();
        assert!(lost.to_string().contains("worker.js does not mention \"page.js\""), "{lost}");
    }
}
