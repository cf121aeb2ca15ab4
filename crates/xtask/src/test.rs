//! Everything that must hold, cheap things first.

use std::time::{Duration, Instant};

use crate::trouble::Trouble;
use crate::workspace::Workspace;
use crate::{browser, install, options, programs};

/// The crates that go into the page, and so must suit wasm.
const PAGE_CRATES: [&str; 7] = [
    "stickleaf-outline",
    "stickleaf-sheet",
    "stickleaf-packer",
    "stickleaf-editor",
    "stickleaf-art",
    "stickleaf-files",
    "stickleaf-web",
];

/// One step of the tests.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Part {
    /// The code is laid out as rustfmt does.
    Fmt,
    /// Clippy has nothing to say, for this machine.
    Lint,
    /// Clippy has nothing to say about the page's crates, for the browser.
    WasmLint,
    /// The documentation builds without a broken link.
    Docs,
    /// All Rust tests.
    Unit,
    /// The fuzz targets still compile.
    Fuzz,
    /// The page builds, and the stories of an artist at work come out well in a real browser.
    Browser,
}

impl Part {
    /// All parts, in the order they run.
    pub const ALL: [Part; 7] =
        [Part::Fmt, Part::Lint, Part::WasmLint, Part::Docs, Part::Unit, Part::Fuzz, Part::Browser];

    /// The part's name on the command line.
    pub fn name(self) -> &'static str {
        match self {
            Part::Fmt => "fmt",
            Part::Lint => "lint",
            Part::WasmLint => "wasm-lint",
            Part::Docs => "docs",
            Part::Unit => "unit",
            Part::Fuzz => "fuzz",
            Part::Browser => "browser",
        }
    }

    /// Whether the part belongs to a quick look between two edits.
    pub fn is_quick(self) -> bool {
        !matches!(self, Part::Docs | Part::Fuzz | Part::Browser)
    }
}

/// Runs the asked parts and stops at the first that fails. What ran, and how long it took, stands at the end.
pub fn test(workspace: &Workspace, how: &options::Test) -> Result<(), Trouble> {
    let mut done: Vec<(Part, Duration)> = Vec::new();
    for (number, &part) in how.parts.iter().enumerate() {
        println!("\n== {} ({} of {})", part.name(), number + 1, how.parts.len());
        let start = Instant::now();
        let outcome = run(workspace, part, &how.stories);
        done.push((part, start.elapsed()));
        if let Err(reason) = outcome {
            print!("{}", summary(&how.parts, &done, true));
            return Err(Trouble::Step { step: part.name(), reason: Box::new(reason) });
        }
    }
    print!("{}", summary(&how.parts, &done, false));
    Ok(())
}

fn run(workspace: &Workspace, part: Part, stories: &[String]) -> Result<(), Trouble> {
    let mut cargo = programs::cargo(&workspace.root);
    match part {
        Part::Fmt => programs::run(cargo.args(["fmt", "--all", "--check"])),
        Part::Lint => {
            programs::run(cargo.args(["clippy", "--workspace", "--all-targets", "--", "-D", "warnings"]))
        }
        Part::WasmLint => {
            install::wasm_target()?;
            cargo.args(["clippy", "--target", install::WASM_TARGET]);
            cargo.args(PAGE_CRATES.iter().flat_map(|name| ["--package", name]));
            programs::run(cargo.args(["--", "-D", "warnings"]))
        }
        Part::Docs => {
            programs::run(cargo.env("RUSTDOCFLAGS", "-D warnings").args(["doc", "--workspace", "--no-deps"]))
        }
        Part::Unit => {
            let art = workspace.root.join("tests/art");
            install::npm_packages(&art)?;
            install::pdf_readers()?;
            cargo.env("STICKLEAF_ART", art.join("node_modules"));
            programs::run(cargo.args(["test", "--workspace"]))
        }
        Part::Fuzz => check_fuzz_targets(workspace),
        Part::Browser => browser::stories(workspace, stories),
    }
}

/// The fuzz targets are a workspace of their own, so that their runner is no dependency of ours. They are only
/// compiled here, with the flags of everything else: to run them is a matter of hours and of another compiler.
fn check_fuzz_targets(workspace: &Workspace) -> Result<(), Trouble> {
    let manifest = workspace.root.join("tests/fuzz/Cargo.toml");
    if !manifest.exists() {
        println!("there are no fuzz targets yet");
        return Ok(());
    }
    let mut cargo = programs::cargo(&workspace.root);
    cargo.arg("check").arg("--manifest-path").arg(manifest);
    programs::run(cargo.arg("--target-dir").arg(workspace.target.join("fuzz")))
}

fn summary(asked: &[Part], done: &[(Part, Duration)], has_failed: bool) -> String {
    let mut text = String::from("\n== summary\n");
    for (number, part) in asked.iter().enumerate() {
        let outcome = match done.get(number) {
            None => "not run".to_owned(),
            Some((_, time)) => {
                let word = if has_failed && number + 1 == done.len() { "FAILED" } else { "ok" };
                format!("{word:<6} {:>7.1} s", time.as_secs_f64())
            }
        };
        text.push_str(&format!("{:<10} {outcome}\n", part.name()));
    }
    let total: Duration = done.iter().map(|(_, time)| time).sum();
    text.push_str(&format!("{:<10} {:<6} {:>7.1} s\n", "in all", "", total.as_secs_f64()));
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_summary_tells_what_held_what_failed_and_what_was_not_run() {
        let parts = [Part::Fmt, Part::Lint, Part::Unit];
        let done = [(Part::Fmt, Duration::from_millis(500)), (Part::Lint, Duration::from_millis(2000))];
        let text = summary(&parts, &done, true);
        let rows: Vec<Vec<&str>> =
            text.lines().skip(2).map(|line| line.split_whitespace().collect()).collect();
        assert_eq!(rows[0], ["fmt", "ok", "0.5", "s"]);
        assert_eq!(rows[1], ["lint", "FAILED", "2.0", "s"]);
        assert_eq!(rows[2], ["unit", "not", "run"]);
        assert_eq!(rows[3], ["in", "all", "2.5", "s"]);
    }

    #[test]
    fn names_of_parts_differ() {
        for (number, part) in Part::ALL.iter().enumerate() {
            assert!(Part::ALL[..number].iter().all(|other| other.name() != part.name()));
        }
    }
}
