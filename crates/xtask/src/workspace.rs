//! Where things lie, and what cargo knows about the workspace.

use std::env;
use std::path::{Path, PathBuf};

use serde_json::Value;

use crate::programs;
use crate::trouble::Trouble;

/// The folders that tasks work in.
#[derive(Debug)]
pub struct Workspace {
    /// The checkout: the folder of the workspace's manifest.
    pub root: PathBuf,
    /// Where cargo puts what it builds.
    pub target: PathBuf,
    /// All benches, as pairs of package and bench.
    pub benches: Vec<(String, String)>,
}

impl Workspace {
    /// The workspace that this program belongs to, wherever it is called from. Asks cargo.
    pub fn find() -> Result<Workspace, Trouble> {
        // Cargo sets the variable for `cargo run`; the compiled-in path serves a program that is started by hand.
        let own = env::var_os("CARGO_MANIFEST_DIR").unwrap_or_else(|| env!("CARGO_MANIFEST_DIR").into());
        let root = Path::new(&own).join("../..");
        let root = root.canonicalize().map_err(Trouble::file("find", &root))?;
        let text =
            programs::output(programs::cargo(&root).args(["metadata", "--no-deps", "--format-version=1"]))?;
        let metadata: Value =
            serde_json::from_slice(&text).map_err(|_| Trouble::Metadata { field: "valid JSON" })?;
        let target =
            metadata["target_directory"].as_str().ok_or(Trouble::Metadata { field: "target_directory" })?;
        Ok(Workspace { target: target.into(), benches: benches(&metadata)?, root })
    }

    /// The folder that a static host serves.
    pub fn dist(&self) -> PathBuf {
        self.root.join("dist")
    }
}

fn benches(metadata: &Value) -> Result<Vec<(String, String)>, Trouble> {
    let packages = metadata["packages"].as_array().ok_or(Trouble::Metadata { field: "packages" })?;
    let mut benches = Vec::new();
    for package in packages {
        let targets = package["targets"].as_array().ok_or(Trouble::Metadata { field: "targets" })?;
        for target in targets {
            let is_bench =
                target["kind"].as_array().is_some_and(|kinds| kinds.iter().any(|kind| kind == "bench"));
            if let (true, Some(package), Some(bench)) =
                (is_bench, package["name"].as_str(), target["name"].as_str())
            {
                benches.push((package.to_owned(), bench.to_owned()));
            }
        }
    }
    Ok(benches)
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn benches_are_found_among_the_targets() {
        let metadata = json!({"packages": [
            {"name": "leaf", "targets": [{"name": "leaf", "kind": ["lib"]}, {"name": "fold", "kind": ["bench"]}]},
            {"name": "stem", "targets": [{"name": "stem", "kind": ["bin"]}]},
        ]});
        assert_eq!(benches(&metadata).unwrap(), [("leaf".to_owned(), "fold".to_owned())]);
        assert!(benches(&json!({})).is_err());
    }
}
