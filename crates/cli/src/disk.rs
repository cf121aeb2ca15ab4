//! Files: reading them, and writing them so that nothing is lost.

use std::fs;
use std::io::{self, Read, Write};
use std::path::{Component, Path, PathBuf};

use crate::trouble::Trouble;

/// What stands for standard input or output.
const STANDARD: &str = "-";

/// Whether the path stands for standard input or output.
pub fn is_standard(path: &Path) -> bool {
    path == Path::new(STANDARD)
}

/// The file's name as it is shown.
pub fn shown(path: &Path) -> String {
    path.display().to_string()
}

/// The bytes of the file, or of standard input.
pub fn read(path: &Path) -> Result<Vec<u8>, Trouble> {
    let bytes = if is_standard(path) {
        let mut bytes = Vec::new();
        io::stdin().lock().read_to_end(&mut bytes).map(|_| bytes)
    } else {
        fs::read(path)
    };
    bytes.map_err(|source| Trouble::Read { file: shown(path), source })
}

/// Looks whether the file can be written and is none of those that must stay as they are.
///
/// To be asked before the work, so that a slip of the hand costs no waiting.
pub fn can_write(path: &Path, keep: &[&Path]) -> Result<(), Trouble> {
    if is_standard(path) {
        return Ok(());
    }
    let folder = folder_of(path);
    let trouble = |source| Trouble::Write { file: shown(path), source };
    if path.is_dir() || path.file_name().is_none() {
        return Err(trouble(io::Error::new(io::ErrorKind::IsADirectory, "this is a folder, not a file")));
    }
    if !folder.is_dir() {
        let what = format!("there is no folder {}", folder.display());
        return Err(trouble(io::Error::new(io::ErrorKind::NotFound, what)));
    }
    match keep.iter().any(|other| !is_standard(other) && is_same_file(path, other)) {
        true => Err(Trouble::WouldOverwrite { file: shown(path) }),
        false => Ok(()),
    }
}

/// Writes the text to the file, or to standard output.
///
/// A file is first written whole beside its place and then moved there: whatever happens, either the old or the new one
/// is there.
pub fn write(path: &Path, text: &str) -> Result<(), Trouble> {
    if is_standard(path) {
        crate::output::print(text);
        return Ok(());
    }
    write_bytes(path, text.as_bytes())
}

/// Writes the bytes to the file, whole or not at all, or to standard output.
pub fn write_bytes(path: &Path, bytes: &[u8]) -> Result<(), Trouble> {
    let written = if is_standard(path) {
        let mut out = io::stdout().lock();
        out.write_all(bytes).and_then(|()| out.flush())
    } else {
        write_file(path, bytes)
    };
    written.map_err(|source| Trouble::Write { file: shown(path), source })
}

fn write_file(path: &Path, bytes: &[u8]) -> io::Result<()> {
    // Through a link, what it points to is written.
    let target = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    if target.exists() && !target.is_file() {
        // A device or a pipe cannot be replaced.
        return fs::write(&target, bytes);
    }
    let name = target.file_name().unwrap_or_default().to_string_lossy();
    let beside = target.with_file_name(format!(".{name}.{}.part", std::process::id()));
    let written = fs::File::create(&beside)
        .and_then(|mut file| file.write_all(bytes).and_then(|()| file.sync_all()))
        .and_then(|()| fs::rename(&beside, &target));
    if written.is_err() {
        let _ = fs::remove_file(&beside);
    }
    written
}

fn is_same_file(a: &Path, b: &Path) -> bool {
    match (fs::canonicalize(a), fs::canonicalize(b)) {
        (Ok(a), Ok(b)) => a == b,
        _ => false,
    }
}

/// The folder that a file lies in.
pub fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    }
}

/// The way from the folder of one file to another file, with `/` on every system; the whole path if there is none.
pub fn relative_to_folder_of(file: &Path, target: &Path) -> String {
    let from = if is_standard(file) { Path::new(".") } else { folder_of(file) };
    let way = match (fs::canonicalize(from), fs::canonicalize(target)) {
        (Ok(from), Ok(target)) => way_between(&from, &target),
        _ => target.to_owned(),
    };
    let parts = way.components().map(|part| part.as_os_str().to_string_lossy().into_owned());
    if way.is_absolute() { way.to_string_lossy().into_owned() } else { parts.collect::<Vec<_>>().join("/") }
}

fn way_between(from: &Path, target: &Path) -> PathBuf {
    let shared = from.components().zip(target.components()).take_while(|(a, b)| a == b).count();
    let is_root = |part: Component<'_>| matches!(part, Component::Prefix(_) | Component::RootDir);
    if from.components().skip(shared).any(is_root) {
        return target.to_owned();
    }
    let up = from.components().skip(shared).map(|_| Component::ParentDir);
    up.chain(target.components().skip(shared)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_way_goes_up_and_down() {
        let way = |from: &str, to: &str| way_between(Path::new(from), Path::new(to));
        assert_eq!(way("/a/b", "/a/b/art/x.png"), Path::new("art/x.png"));
        assert_eq!(way("/a/b/c", "/a/d/x.png"), Path::new("../../d/x.png"));
        assert_eq!(way("/", "/x.png"), Path::new("x.png"));
    }

    #[test]
    fn a_file_is_replaced_whole_and_nothing_is_left_beside_it() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("sheet.json");
        write(&file, "old").unwrap();
        write(&file, "new").unwrap();
        assert_eq!(fs::read_to_string(&file).unwrap(), "new");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[test]
    fn what_is_read_is_not_written_over_under_another_name_either() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("sheet.json");
        fs::write(&file, "old").unwrap();
        let other_name = folder.path().join(".").join("sheet.json");
        assert!(matches!(can_write(&other_name, &[&file]), Err(Trouble::WouldOverwrite { .. })));
        assert!(can_write(&folder.path().join("new.json"), &[&file]).is_ok());
        assert!(matches!(can_write(&folder.path().join("no/new.json"), &[]), Err(Trouble::Write { .. })));
        assert!(matches!(can_write(folder.path(), &[]), Err(Trouble::Write { .. })));
    }
}
