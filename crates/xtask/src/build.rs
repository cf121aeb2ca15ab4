//! From `web/` to `dist/`: compile, write the JavaScript side, optimise, name, put in place.

use std::fs::{self, File};
use std::path::{Path, PathBuf};

use wasm_bindgen_cli_support::Bindgen;

use crate::options::Profile;
use crate::trouble::Trouble;
use crate::workspace::Workspace;
use crate::{dist, install, names, optimise, programs};

/// The compiled page and its JavaScript side, as `index.html` and `worker.js` call them before they are named after
/// their content.
const WASM: &str = "page_bg.wasm";
const SCRIPT: &str = "page.js";

/// Builds the page and gives the folder that holds it: `dist/`, which any static host can serve from any path.
///
/// The folder is replaced only when everything is there, so a failed build leaves the last good one, and a running
/// server goes on with whole pages. Two builds at once wait for each other.
pub fn build(workspace: &Workspace, profile: Profile) -> Result<PathBuf, Trouble> {
    install::wasm_target()?;
    let wasm = compile(workspace, profile)?;
    let _lock = lock(&workspace.target)?;
    let dist = workspace.dist();
    let new = dist::begin(&dist)?;
    write_script(&wasm, &new, profile)?;
    if profile == Profile::Page {
        optimise::optimise(&new.join(WASM))?;
    }
    copy_sources(workspace, &new)?;
    name_after_content(&new)?;
    dist::finish(&new, &dist)?;
    print!("{}", dist::sizes(&dist)?);
    Ok(dist)
}

fn compile(workspace: &Workspace, profile: Profile) -> Result<PathBuf, Trouble> {
    let (name, folder) = match profile {
        Profile::Page => ("page", "page"),
        Profile::Debug => ("dev", "debug"),
    };
    programs::run(programs::cargo(&workspace.root).args([
        "build",
        "--package=stickleaf-web",
        "--lib",
        "--target",
        install::WASM_TARGET,
        "--profile",
        name,
    ]))?;
    Ok(workspace.target.join(install::WASM_TARGET).join(folder).join("stickleaf_web.wasm"))
}

/// Held until the returned file is dropped. Waits for another build that holds it.
fn lock(target: &Path) -> Result<File, Trouble> {
    let path = target.join("page-build.lock");
    let file = File::create(&path).map_err(Trouble::file("write", &path))?;
    file.lock().map_err(Trouble::file("lock", &path))?;
    Ok(file)
}

fn write_script(wasm: &Path, folder: &Path, profile: Profile) -> Result<(), Trouble> {
    let debug = profile == Profile::Debug;
    let mut bindgen = Bindgen::new();
    bindgen
        .input_path(wasm)
        .out_name("page")
        .typescript(false)
        .debug(debug)
        .keep_debug(debug)
        .remove_name_section(!debug)
        .omit_default_module_path(false)
        .web(true)
        .and_then(|bindgen| bindgen.generate(folder))
        .map_err(|error| Trouble::Bindgen { path: wasm.to_owned(), reason: format!("{error:#}") })
}

/// Copies what is served as it was written.
fn copy_sources(workspace: &Workspace, folder: &Path) -> Result<(), Trouble> {
    for file in ["index.html", "web/worker.js", "web/style.css"] {
        let from = workspace.root.join(file);
        let name = from.file_name().unwrap_or_default();
        fs::copy(&from, folder.join(name)).map_err(Trouble::file("copy", &from))?;
    }
    dist::copy_tree(&workspace.root.join("web/static"), folder, |_| true)?;
    dist::copy_tree(&workspace.root.join("sample-layouts"), &folder.join("sample-layouts"), is_sample)
}

fn is_sample(file: &Path) -> bool {
    file.extension().is_some_and(|ending| ending == "json" || ending == "png" || ending == "svg")
}

/// Names the heavy files after their content. `worker.js` keeps its name, since compiled code asks for it; it is
/// small, and holds nothing but the way to the script of the same build.
fn name_after_content(folder: &Path) -> Result<(), Trouble> {
    let wasm = names::rename_after_content(folder, WASM)?;
    names::point_to(folder, SCRIPT, WASM, &wasm)?;
    names::point_to(folder, "index.html", WASM, &wasm)?;
    let script = names::rename_after_content(folder, SCRIPT)?;
    names::point_to(folder, "index.html", SCRIPT, &script)?;
    names::point_to(folder, "worker.js", SCRIPT, &script)?;
    let style = names::rename_after_content(folder, "style.css")?;
    names::point_to(folder, "index.html", "style.css", &style)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn source(file: &str) -> String {
        fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").join(file)).unwrap()
    }

    /// What stands between the quotes after `href=`, `src=`, `import(` and `from`, unless it is its own content.
    fn references(text: &str) -> Vec<&str> {
        let starts = ["href=\"", "src=\"", "import(\"", "from \""];
        let after = |start| text.split(start).skip(1).filter_map(|rest| rest.split('"').next());
        starts.into_iter().flat_map(after).filter(|reference| !reference.starts_with("data:")).collect()
    }

    #[test]
    fn the_page_and_the_worker_refer_to_their_own_folder_only() {
        for file in ["index.html", "web/worker.js"] {
            let text = source(file);
            let found = references(&text);
            assert!(!found.is_empty(), "{file} refers to something");
            for reference in found {
                let leaves =
                    reference.starts_with('/') || reference.contains("..") || reference.contains(':');
                assert!(!leaves, "{file} refers to {reference}, which a page below another path cannot find");
            }
        }
    }

    #[test]
    fn the_page_and_the_worker_agree_on_names() {
        let folder = tempfile::tempdir().unwrap();
        for (name, content) in [
            ("index.html", source("index.html").as_str()),
            ("worker.js", source("web/worker.js").as_str()),
            (SCRIPT, "new URL('page_bg.wasm', import.meta.url)"),
            (WASM, "wasm"),
            ("style.css", "css"),
        ] {
            fs::write(folder.path().join(name), content).unwrap();
        }
        name_after_content(folder.path()).unwrap();
        for file in ["index.html", "worker.js"] {
            let text = fs::read_to_string(folder.path().join(file)).unwrap();
            for reference in references(&text) {
                assert!(folder.path().join(reference).is_file(), "{file} refers to {reference}");
            }
        }
    }

    #[test]
    fn samples_are_layouts_and_pictures() {
        assert!(is_sample(Path::new("pool/layout.json")) && is_sample(Path::new("crab.svg")));
        assert!(!is_sample(Path::new("README.md")) && !is_sample(Path::new("json")));
    }
}
