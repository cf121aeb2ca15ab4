//! `export`: the placement, the table and the cut lines for other programs.

use std::path::{Path, PathBuf};

use stickleaf_files::report::{self, ExportReport};
use stickleaf_files::{cut_file, placement_file, table};
use stickleaf_sheet::{Finding, check};

use crate::check::{outcome, summary};
use crate::options::ExportCommand;
use crate::{Outcome, Trouble, disk, output};

/// Writes what is asked for; lacking if a hard rule is broken in it, which is said.
pub fn run(typed: &ExportCommand) -> Result<Outcome, Trouble> {
    let targets = [&typed.placement, &typed.table, &typed.cut];
    let paths: Vec<&Path> = targets.into_iter().flatten().map(|path| &**path).collect();
    let on_standard = paths.iter().filter(|path| disk::is_standard(path)).count();
    if on_standard > 1 || (on_standard == 1 && typed.report.is_json()) {
        return Err(Trouble::OutputTwice);
    }
    for (i, path) in paths.iter().enumerate() {
        disk::can_write(path, &[&typed.layout])?;
        if paths[..i].iter().any(|other| other == path && !disk::is_standard(path)) {
            return Err(Trouble::WouldOverwrite { file: disk::shown(path) });
        }
    }
    let layout = disk::read_layout(&typed.layout)?;
    let findings = check(&layout);
    let write = |path: &Option<PathBuf>, text: &dyn Fn() -> String| match path {
        Some(path) => disk::write(path, &text()),
        None => Ok(()),
    };
    write(&typed.placement, &|| placement_file::write(&layout, env!("CARGO_PKG_VERSION")))?;
    write(&typed.table, &|| table::write(&layout))?;
    write(&typed.cut, &|| cut_file::write(&layout))?;
    let outcome = outcome(&findings);
    if typed.report.is_json() {
        let broken = findings.iter().filter(|finding| finding.is_broken()).count();
        let name = |path: &Option<PathBuf>| path.as_deref().map(disk::shown);
        output::print(&report::text(&ExportReport {
            placement: name(&typed.placement),
            table: name(&typed.table),
            cut: name(&typed.cut),
            broken,
            warnings: findings.len() - broken,
        }));
    } else {
        for path in paths.iter().filter(|path| !disk::is_standard(path)) {
            output::tell(&format!("wrote {}", path.display()));
        }
        if findings.iter().any(Finding::is_broken) {
            output::tell(&format!(
                "{}; see `stickleaf check {}`",
                summary(&findings),
                typed.layout.display()
            ));
        }
    }
    Ok(outcome)
}
