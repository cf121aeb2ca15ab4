//! The page in a real browser: built, served, and driven by node in Chromium.

use std::path::PathBuf;
use std::process::Command;

use crate::options::Profile;
use crate::serve::Running;
use crate::site::Site;
use crate::trouble::Trouble;
use crate::workspace::Workspace;
use crate::{build, install, programs, serve};

/// The page of this checkout, served as long as this lives, and a browser for it.
pub struct Stage {
    running: Running,
    chromium: PathBuf,
}

impl Stage {
    /// Sees to node, its packages and Chromium, builds the page and serves it.
    ///
    /// The page is served below a path of its own, as a static host may do, so a reference that only works at the root
    /// of a host shows up here.
    pub fn set_up(workspace: &Workspace) -> Result<Stage, Trouble> {
        install::node()?;
        install::npm_packages(&workspace.root.join("tests/browser"))?;
        let chromium = install::chromium()?;
        let dist = build::build(workspace, Profile::Page)?;
        let running = serve::start(Site { folder: dist, base: "/a/shelf/".to_owned() }, 0)?;
        Ok(Stage { running, chromium })
    }

    /// Tells a command where page and browser are.
    pub fn tell<'a>(&self, command: &'a mut Command) -> &'a mut Command {
        command.env("STICKLEAF_URL", &self.running.url).env("STICKLEAF_CHROMIUM", &self.chromium)
    }
}

/// Runs the stories whose file names hold one of the given words; all of them if no words are given.
pub fn stories(workspace: &Workspace, words: &[String]) -> Result<(), Trouble> {
    let stage = Stage::set_up(workspace)?;
    println!("the stories' page is at {}", stage.running.url);
    let mut command = Command::new("node");
    command.arg(workspace.root.join("tests/browser/run.mjs")).args(words).current_dir(&workspace.root);
    programs::run(stage.tell(&mut command))
}
