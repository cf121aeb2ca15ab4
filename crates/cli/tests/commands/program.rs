//! Running the real program in a folder of its own.

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use serde_json::Value;
use tempfile::TempDir;

/// A fresh folder in which the program is run; gone at the end of the test.
pub struct Folder(TempDir);

/// What became of a run.
#[derive(Debug)]
pub struct Ended {
    /// The exit status.
    pub status: i32,
    /// What was printed.
    pub out: String,
    /// What was said beside it.
    pub err: String,
}

impl Ended {
    /// The one JSON object that was printed.
    pub fn json(&self) -> Value {
        serde_json::from_str(&self.out).unwrap_or_else(|error| panic!("{error}: {self:?}"))
    }

    /// Fails the test unless the run ended like this.
    #[track_caller]
    pub fn with_status(self, status: i32) -> Ended {
        assert_eq!(self.status, status, "{self:?}");
        self
    }
}

impl Folder {
    /// A folder with nothing in it.
    pub fn new() -> Folder {
        Folder(tempfile::tempdir().unwrap())
    }

    /// A folder with these files in it.
    pub fn with(files: &[(&str, &str)]) -> Folder {
        let folder = Folder::new();
        for (name, text) in files {
            folder.put(name, text.as_bytes());
        }
        folder
    }

    /// The folder's place.
    pub fn path(&self) -> &Path {
        self.0.path()
    }

    /// Puts a file there.
    pub fn put(&self, name: &str, bytes: &[u8]) {
        let file = self.path().join(name);
        std::fs::create_dir_all(file.parent().unwrap()).unwrap();
        std::fs::write(file, bytes).unwrap();
    }

    /// The text of a file there.
    pub fn text(&self, name: &str) -> String {
        std::fs::read_to_string(self.path().join(name)).unwrap()
    }

    /// The JSON of a file there.
    pub fn json(&self, name: &str) -> Value {
        serde_json::from_str(&self.text(name)).unwrap()
    }

    /// The names of all files there, sorted.
    pub fn names(&self) -> Vec<String> {
        let entries = std::fs::read_dir(self.path()).unwrap();
        let mut names: Vec<String> =
            entries.map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect();
        names.sort();
        names
    }

    /// The program, about to be run there with these words.
    pub fn program(&self, words: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_stickleaf"));
        command.current_dir(self.path()).args(words);
        command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
        command
    }

    /// Runs the program there with the words of this line.
    pub fn run(&self, line: &str) -> Ended {
        self.run_with(line, "")
    }

    /// Runs the program there with the words of this line, which it has to refuse with a message that holds this word.
    pub fn refuses(&self, line: &str, word: &str) {
        let ended = self.run(line).with_status(2);
        assert!(ended.err.contains(word), "{ended:?}");
    }

    /// Runs the program there with the words of this line and this text as its standard input.
    pub fn run_with(&self, line: &str, input: &str) -> Ended {
        let words: Vec<&str> = line.split_whitespace().collect();
        let mut child = self.program(&words).stdin(Stdio::piped()).spawn().unwrap();
        // A program that does not read its input may have ended already.
        let _ = child.stdin.take().unwrap().write_all(input.as_bytes());
        let output = child.wait_with_output().unwrap();
        Ended {
            status: output.status.code().unwrap_or(-1),
            out: String::from_utf8(output.stdout).unwrap(),
            err: String::from_utf8(output.stderr).unwrap(),
        }
    }
}

/// A file of the sample layouts.
pub fn sample(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sample-layouts").join(name)
}

/// The text of a layout file on a sheet of 60 x 40 mm with sharp corners, spacing 2 mm, margin 4 mm, no border: one
/// sticker `box` of 10 x 10 mm with its origin in the middle, wanted as said, pieces at these places.
pub fn boxes(wanted: &str, places: &[(f64, f64)]) -> String {
    let pieces: Vec<String> = places
        .iter()
        .map(|(x, y)| format!("{{\"sticker\": \"box\", \"x_mm\": {x}, \"y_mm\": {y}}}"))
        .collect();
    format!(
        r#"{{"format": "stickleaf-layout", "version": 1,
            "sheet": {{"width_mm": 60, "height_mm": 40, "corner_radius_mm": 0}}, "rules": {{"border_mm": 0}},
            "stickers": [{{"id": "box", "name": "Box", "outline": "M-5 -5H5V5H-5Z", "wanted": {wanted}}}],
            "pieces": [{}]}}"#,
        pieces.join(", ")
    )
}
