//! Where answers go: a table to standard output and, if wanted, to a file; pictures to a folder.

use std::fs;
use std::path::{Path, PathBuf};

use crate::options::{OutputOptions, TableOption};
use crate::picture::{Panel, svg};
use crate::trouble::Trouble;

/// Writes what is known so far to the file that was asked for, so that a long run that is stopped leaves something.
pub fn keep(options: &TableOption, text: &str) -> Result<(), Trouble> {
    match &options.output {
        Some(path) => fs::write(path, text).map_err(Trouble::file("write", path)),
        None => Ok(()),
    }
}

/// Writes the finished text to the file, and prints it.
pub fn finish(options: &TableOption, text: &str) -> Result<(), Trouble> {
    keep(options, text)?;
    print!("{text}");
    Ok(())
}

/// Writes a picture of these sheets to the folder that was asked for, which is made if it is not there.
pub fn picture(options: &OutputOptions, name: &str, panels: &[Panel]) -> Result<(), Trouble> {
    let Some(folder) = &options.pictures else { return Ok(()) };
    fs::create_dir_all(folder).map_err(Trouble::file("make the folder", folder))?;
    let path = folder.join(format!("{name}.svg"));
    fs::write(&path, svg(panels)).map_err(Trouble::file("write", &path))
}

/// The text of a file.
pub fn read(path: &Path) -> Result<String, Trouble> {
    fs::read_to_string(path).map_err(Trouble::file("read", path))
}

/// The files of a folder whose names end like this, by name.
pub fn files(folder: &Path, extension: &str) -> Result<Vec<PathBuf>, Trouble> {
    let entries = fs::read_dir(folder).map_err(Trouble::file("read", folder))?;
    let mut files = Vec::new();
    for entry in entries {
        let path = entry.map_err(Trouble::file("read", folder))?.path();
        if path.extension().is_some_and(|found| found == extension) {
            files.push(path);
        }
    }
    files.sort();
    Ok(files)
}

/// The machine that the figures come from, as far as it tells.
pub fn machine() -> String {
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    // Linux only; elsewhere the number of threads has to do.
    let model = fs::read_to_string("/proc/cpuinfo").ok().and_then(|text| {
        let line = text.lines().find(|line| line.starts_with("model name"))?;
        Some(line.split_once(':')?.1.trim().to_owned())
    });
    format!("{}, {threads} threads", model.as_deref().unwrap_or("a processor that does not tell its name"))
}
