//! What the page keeps on the device: every file of the build, listed with its hash in the service worker.

use std::fs;
use std::path::Path;

use base64::prelude::{BASE64_STANDARD, Engine};
use serde_json::{Map, Value};
use sha2::{Digest, Sha256};

use crate::dist;
use crate::trouble::Trouble;

/// The service worker's script. It is not in its own list: the browser looks after that one itself.
const WORKER: &str = "service-worker.js";

/// The lines of the script that are filled in.
const NO_BUILD: &str = "const BUILD = \"\";";
const NO_FILES: &str = "const FILES = {};";

/// Writes into the service worker of a finished folder which files there are, and the name of the build.
///
/// The name is a hash over names and contents of all files, the worker's own text with them: the same files give the
/// same worker, byte for byte, and a browser that has it sees nothing new. Names of files are taken to mean themselves
/// in an address, so none may hold `%`, `?` or `#`.
pub fn list_files(folder: &Path) -> Result<(), Trouble> {
    let path = folder.join(WORKER);
    let text = fs::read_to_string(&path).map_err(Trouble::file("read", &path))?;
    let files = serde_json::to_string_pretty(&hashes(folder)?).expect("a map of texts is JSON");
    let text = fill_in(&text, NO_FILES, &format!("const FILES = {files};"))?;
    let build = name_of(&text);
    let text = fill_in(&text, NO_BUILD, &format!("const BUILD = \"{build}\";"))?;
    fs::write(&path, text).map_err(Trouble::file("write", &path))
}

/// The address of every file, relative to the page, with the hash that the browser shall check it by.
///
/// Source of the hash's form: W3C, "Subresource Integrity", section 3.1.
fn hashes(folder: &Path) -> Result<Map<String, Value>, Trouble> {
    let mut hashes = Map::new();
    for file in dist::files(folder)? {
        let address = address(&file);
        if address != WORKER {
            let path = folder.join(&file);
            let content = fs::read(&path).map_err(Trouble::file("read", &path))?;
            let hash = BASE64_STANDARD.encode(Sha256::digest(&content));
            hashes.insert(address, format!("sha256-{hash}").into());
        }
    }
    Ok(hashes)
}

/// How the page asks for a file; the page itself is asked for by its folder, and hosts answer so without a detour.
fn address(file: &Path) -> String {
    if file == Path::new("index.html") {
        return "./".to_owned();
    }
    file.iter().map(|name| name.to_string_lossy()).collect::<Vec<_>>().join("/")
}

/// 16 hexadecimal digits that follow from the text.
fn name_of(text: &str) -> String {
    Sha256::digest(text).iter().take(8).map(|byte| format!("{byte:02x}")).collect()
}

fn fill_in(text: &str, blank: &'static str, filled: &str) -> Result<String, Trouble> {
    if text.contains(blank) {
        Ok(text.replacen(blank, filled, 1))
    } else {
        Err(Trouble::NoBlank { file: WORKER, blank })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use tempfile::TempDir;

    fn page(files: &[(&str, &str)]) -> TempDir {
        let folder = tempfile::tempdir().unwrap();
        for (name, content) in files {
            let path = folder.path().join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, content).unwrap();
        }
        folder
    }

    /// The filled-in worker of a page that consists of these files.
    fn worker(files: &[(&str, &str)]) -> String {
        let folder = page(files);
        let own = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../web").join(WORKER);
        if !folder.path().join(WORKER).exists() {
            fs::copy(own, folder.path().join(WORKER)).unwrap();
        }
        list_files(folder.path()).unwrap();
        fs::read_to_string(folder.path().join(WORKER)).unwrap()
    }

    fn build(worker: &str) -> &str {
        worker.split("const BUILD = \"").nth(1).unwrap().split('"').next().unwrap()
    }

    fn files(worker: &str) -> Map<String, Value> {
        let list = worker.split("const FILES = ").nth(1).unwrap().split(';').next().unwrap();
        serde_json::from_str(list).unwrap()
    }

    #[test]
    fn every_file_but_the_worker_is_listed_and_the_page_by_its_folder() {
        let worker =
            worker(&[("index.html", "<p>leaf"), ("page-1.js", "leaf"), ("pool/art/crab.svg", "<svg/>")]);
        let listed: Vec<String> = files(&worker).into_iter().map(|(name, _)| name).collect();
        assert_eq!(listed, ["./", "page-1.js", "pool/art/crab.svg"]);
        assert_eq!(build(&worker).len(), 16);
    }

    #[test]
    fn hashes_are_those_that_browsers_check() {
        // FIPS 180-4's example "abc", in base64: ba7816bf … f20015ad.
        let worker = worker(&[("index.html", "abc")]);
        assert_eq!(files(&worker)["./"], "sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=");
    }

    #[test]
    fn the_same_files_give_the_same_worker() {
        let files = [("index.html", "<p>leaf"), ("style.css", "p {}")];
        assert_eq!(worker(&files), worker(&files));
    }

    #[test]
    fn another_content_another_name_and_another_worker_are_another_build() {
        let plain = worker(&[("index.html", "leaf"), ("a.css", "p {}")]);
        let own = "const BUILD = \"\";\nconst FILES = {};\n";
        let others = [
            worker(&[("index.html", "leaves"), ("a.css", "p {}")]),
            worker(&[("index.html", "leaf"), ("b.css", "p {}")]),
            worker(&[("index.html", "leaf")]),
            worker(&[("index.html", "leaf"), ("a.css", "p {}"), (WORKER, own)]),
        ];
        for (number, other) in others.iter().enumerate() {
            assert_ne!(build(&plain), build(other), "number {number}");
        }
    }

    #[test]
    fn a_worker_without_the_lines_is_an_error_that_names_them() {
        for (text, missing) in [("const FILES = {};", NO_BUILD), ("const BUILD = \"\";", NO_FILES)] {
            let folder = page(&[("index.html", "leaf"), (WORKER, text)]);
            let trouble = list_files(folder.path()).unwrap_err().to_string();
            assert!(trouble.contains(WORKER) && trouble.contains(missing), "{trouble}");
        }
    }
}
