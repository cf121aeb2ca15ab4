//! The folder that a static host serves: filled beside the old one, then put in its place.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use flate2::Compression;
use flate2::write::GzEncoder;

use crate::trouble::Trouble;

/// Makes an empty folder to fill, beside `dist` and on the same disk. What an earlier build left there goes.
pub fn begin(dist: &Path) -> Result<PathBuf, Trouble> {
    let new = dist.with_extension("new");
    remove(&new)?;
    fs::create_dir_all(&new).map_err(Trouble::file("make", &new))?;
    Ok(new)
}

/// Puts the filled folder in the place of `dist`.
///
/// Two renames: a server sees the old folder, for an instant none, then the new one, never a mixture.
pub fn finish(new: &Path, dist: &Path) -> Result<(), Trouble> {
    let old = dist.with_extension("old");
    remove(&old)?;
    if dist.exists() {
        fs::rename(dist, &old).map_err(Trouble::file("move", dist))?;
    }
    fs::rename(new, dist).map_err(Trouble::file("move", new))?;
    remove(&old)
}

/// Copies the files below `from` whose name is wanted to the same places below `to`.
///
/// Folders without a wanted file are not made. Does nothing if `from` is not there.
pub fn copy_tree(from: &Path, to: &Path, is_wanted: impl Fn(&Path) -> bool) -> Result<(), Trouble> {
    for file in files(from)? {
        if !is_wanted(&file) {
            continue;
        }
        let target = to.join(&file);
        if let Some(folder) = target.parent() {
            fs::create_dir_all(folder).map_err(Trouble::file("make", folder))?;
        }
        fs::copy(from.join(&file), &target).map_err(Trouble::file("write", &target))?;
    }
    Ok(())
}

/// A table of sizes, plain and as most hosts send them (gzip): each file, each folder as one row, and the sum. Largest
/// first.
pub fn sizes(dist: &Path) -> Result<String, Trouble> {
    let mut rows: Vec<(usize, usize, String)> = Vec::new();
    for file in files(dist)? {
        let path = dist.join(&file);
        let content = fs::read(&path).map_err(Trouble::file("read", &path))?;
        let packed = gzip_size(&content).map_err(Trouble::file("compress", &path))?;
        let row = row_name(&file);
        match rows.iter_mut().find(|(_, _, name)| *name == row) {
            Some(known) => {
                known.0 += content.len();
                known.1 += packed;
            }
            None => rows.push((content.len(), packed, row)),
        }
    }
    rows.sort_by(|a, b| b.cmp(a));
    let sum = rows.iter().fold((0, 0), |sum, row| (sum.0 + row.0, sum.1 + row.1));
    rows.push((sum.0, sum.1, "in all".to_owned()));
    let mut table = format!("{:>12} {:>12}  file\n", "bytes", "gzip");
    for (plain, packed, name) in rows {
        table.push_str(&format!("{plain:>12} {packed:>12}  {name}\n"));
    }
    Ok(table)
}

/// The file's own name, or that of its outermost folder.
fn row_name(file: &Path) -> String {
    let mut names = file.iter();
    let first = names.next().unwrap_or_default().to_string_lossy();
    if names.next().is_some() { format!("{first}/") } else { first.into_owned() }
}

fn gzip_size(content: &[u8]) -> io::Result<usize> {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::default());
    encoder.write_all(content)?;
    Ok(encoder.finish()?.len())
}

/// All files below a folder, relative to it, in order of their names. None if the folder is not there.
pub fn files(folder: &Path) -> Result<Vec<PathBuf>, Trouble> {
    let mut found = Vec::new();
    let mut waiting = vec![PathBuf::new()];
    while let Some(within) = waiting.pop() {
        let here = folder.join(&within);
        let entries = match fs::read_dir(&here) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => continue,
            entries => entries.map_err(Trouble::file("read", &here))?,
        };
        for entry in entries {
            let entry = entry.map_err(Trouble::file("read", &here))?;
            let name = within.join(entry.file_name());
            if entry.path().is_dir() {
                waiting.push(name);
            } else {
                found.push(name);
            }
        }
    }
    found.sort();
    Ok(found)
}

fn remove(folder: &Path) -> Result<(), Trouble> {
    match fs::remove_dir_all(folder) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => Err(Trouble::file("remove", folder)(error)),
        _ => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn write(path: &Path, content: &str) {
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, content).unwrap();
    }

    #[test]
    fn a_new_folder_takes_the_old_ones_place_whole() {
        let folder = tempfile::tempdir().unwrap();
        let dist = folder.path().join("dist");
        write(&dist.join("index.html"), "old");
        write(&dist.join("gone.js"), "old");
        let new = begin(&dist).unwrap();
        write(&new.join("index.html"), "new");
        assert_eq!(fs::read_to_string(dist.join("index.html")).unwrap(), "old");
        finish(&new, &dist).unwrap();
        assert_eq!(fs::read_to_string(dist.join("index.html")).unwrap(), "new");
        assert_eq!(files(folder.path()).unwrap(), [PathBuf::from("dist/index.html")]);
    }

    #[test]
    fn the_first_build_needs_no_old_folder_and_clears_away_a_broken_one() {
        let folder = tempfile::tempdir().unwrap();
        let dist = folder.path().join("dist");
        write(&folder.path().join("dist.new/half.js"), "half");
        let new = begin(&dist).unwrap();
        write(&new.join("index.html"), "new");
        finish(&new, &dist).unwrap();
        assert_eq!(files(&dist).unwrap(), [PathBuf::from("index.html")]);
    }

    #[test]
    fn only_wanted_files_are_copied_and_a_missing_folder_is_no_trouble() {
        let folder = tempfile::tempdir().unwrap();
        let (from, to) = (folder.path().join("from"), folder.path().join("to"));
        write(&from.join("pool/layout.json"), "{}");
        write(&from.join("notes/why.md"), "why");
        copy_tree(&from, &to, |file| file.extension().is_some_and(|ending| ending == "json")).unwrap();
        assert_eq!(files(&to).unwrap(), [PathBuf::from("pool/layout.json")]);
        assert!(!to.join("notes").exists());
        copy_tree(&folder.path().join("nowhere"), &to, |_| true).unwrap();
    }

    #[test]
    fn sizes_are_summed_by_folder_and_in_all() {
        let folder = tempfile::tempdir().unwrap();
        write(&folder.path().join("a.js"), &"a".repeat(1000));
        write(&folder.path().join("pool/b.json"), "{}");
        write(&folder.path().join("pool/art/c.svg"), "<svg/>");
        let table = sizes(folder.path()).unwrap();
        let rows: Vec<Vec<&str>> = table.lines().map(|line| line.split_whitespace().collect()).collect();
        assert_eq!([rows[1][0], rows[1][2]], ["1000", "a.js"]);
        assert_eq!([rows[2][0], rows[2][2]], ["8", "pool/"]);
        assert_eq!(rows[3][0], "1008");
        assert!(rows[1][1].parse::<usize>().unwrap() < 100, "a thousand equal letters pack well: {table}");
    }
}
