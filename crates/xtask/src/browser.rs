//! The browser stories: build the page, serve it, and let node drive Chromium through them.

use std::process::Command;

use crate::options::Profile;
use crate::site::Site;
use crate::trouble::Trouble;
use crate::workspace::Workspace;
use crate::{build, install, programs, serve};

/// Runs the stories whose file names hold one of the given words; all of them if no words are given.
///
/// The page is served below a path of its own, as a static host may do, so a reference that only works at the root
/// of a host shows up here.
pub fn stories(workspace: &Workspace, words: &[String]) -> Result<(), Trouble> {
    let folder = workspace.root.join("tests/browser");
    install::node()?;
    install::npm_packages(&folder)?;
    let chromium = install::chromium()?;
    let dist = build::build(workspace, Profile::Page)?;
    let running = serve::start(Site { folder: dist, base: "/a/shelf/".to_owned() }, 0)?;
    println!("the stories' page is at {}", running.url);
    programs::run(
        Command::new("node")
            .arg(folder.join("run.mjs"))
            .args(words)
            .current_dir(&workspace.root)
            .env("STICKLEAF_URL", &running.url)
            .env("STICKLEAF_CHROMIUM", chromium),
    )
}
