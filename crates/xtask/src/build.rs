//! From `web/` to `dist/`: compile, write the JavaScript side, optimise, name, list for offline use, put in place.

use std::fs::{self, File};
use std::path::{Path, PathBuf};

use wasm_bindgen_cli_support::Bindgen;

use crate::options::Profile;
use crate::trouble::Trouble;
use crate::workspace::Workspace;
use crate::{dist, install, names, offline, optimise, programs, samples};

/// A program of the page: compiled, and with its JavaScript side.
struct Program {
    /// What cargo calls it.
    bin: &'static str,
    /// What its files are called before they are named after their content.
    name: &'static str,
}

impl Program {
    fn wasm(&self) -> String {
        format!("{}_bg.wasm", self.name)
    }

    fn script(&self) -> String {
        format!("{}.js", self.name)
    }

    /// What the script is called that loads it into a worker.
    fn loader(&self) -> String {
        format!("{}-worker.js", self.name)
    }
}

/// The page itself, which `index.html` loads.
const PAGE: Program = Program { bin: "stickleaf-page", name: "page" };

/// What its workers run.
const WORKERS: [Program; 2] = [
    Program { bin: "stickleaf-search", name: "search" },
    Program { bin: "stickleaf-pictures", name: "pictures" },
];

/// The script that loads a worker's program, and what it calls that program.
const LOADER: &str = "web/worker.js";
const LOADED: &str = "./program.js";

/// Builds the page and gives the folder that holds it: `dist/`, which any static host can serve from any path.
///
/// The folder is replaced only when everything is there, so a failed build leaves the last good one, and a running
/// server goes on with whole pages. Two builds at once wait for each other.
pub fn build(workspace: &Workspace, profile: Profile) -> Result<PathBuf, Trouble> {
    install::wasm_target()?;
    let compiled = compile(workspace, profile)?;
    let _lock = lock(&workspace.target)?;
    let dist = workspace.dist();
    let new = dist::begin(&dist)?;
    for program in [PAGE].iter().chain(&WORKERS) {
        write_script(&compiled, program, &new, profile)?;
        if profile == Profile::Page {
            optimise::optimise(&new.join(program.wasm()))?;
        }
    }
    copy_sources(workspace, &new)?;
    name_after_content(&new)?;
    offline::list_files(&new)?;
    dist::finish(&new, &dist)?;
    print!("{}", dist::sizes(&dist)?);
    Ok(dist)
}

/// Compiles the check of a carried piece as the page is compiled, for measuring, and gives the wasm.
pub fn carried_check(workspace: &Workspace) -> Result<PathBuf, Trouble> {
    programs::run(programs::cargo(&workspace.root).args([
        "build",
        "--quiet",
        "--package=stickleaf-carried",
        "--target",
        install::WASM_TARGET,
        "--profile=page",
    ]))?;
    Ok(workspace.target.join(install::WASM_TARGET).join("page/stickleaf_carried.wasm"))
}

/// Compiles all programs and gives the folder that holds them.
fn compile(workspace: &Workspace, profile: Profile) -> Result<PathBuf, Trouble> {
    let (name, folder) = match profile {
        Profile::Page => ("page", "page"),
        Profile::Debug => ("dev", "debug"),
    };
    programs::run(programs::cargo(&workspace.root).args([
        "build",
        "--package=stickleaf-web",
        "--bins",
        "--target",
        install::WASM_TARGET,
        "--profile",
        name,
    ]))?;
    Ok(workspace.target.join(install::WASM_TARGET).join(folder))
}

/// Held until the returned file is dropped. Waits for another build that holds it.
fn lock(target: &Path) -> Result<File, Trouble> {
    let path = target.join("page-build.lock");
    let file = File::create(&path).map_err(Trouble::file("write", &path))?;
    file.lock().map_err(Trouble::file("lock", &path))?;
    Ok(file)
}

/// Writes a program's JavaScript side, and beside it the wasm that goes with it.
fn write_script(compiled: &Path, program: &Program, folder: &Path, profile: Profile) -> Result<(), Trouble> {
    let wasm = compiled.join(program.bin).with_extension("wasm");
    let debug = profile == Profile::Debug;
    let mut bindgen = Bindgen::new();
    bindgen
        .input_path(&wasm)
        .out_name(program.name)
        .typescript(false)
        .debug(debug)
        .keep_debug(debug)
        .remove_name_section(!debug)
        .omit_default_module_path(false)
        .web(true)
        .and_then(|bindgen| bindgen.generate(folder))
        .map_err(|error| Trouble::Bindgen { path: wasm, reason: format!("{error:#}") })
}

/// Copies what is served as it was written.
fn copy_sources(workspace: &Workspace, folder: &Path) -> Result<(), Trouble> {
    for file in ["index.html", "web/service-worker.js"] {
        let from = workspace.root.join(file);
        let name = from.file_name().unwrap_or_default();
        fs::copy(&from, folder.join(name)).map_err(Trouble::file("copy", &from))?;
    }
    let style = folder.join("style.css");
    fs::write(&style, style_sheet(&workspace.root)?).map_err(Trouble::file("write", &style))?;
    write_loaders(&workspace.root, folder)?;
    dist::copy_tree(&workspace.root.join("web/static"), folder, |_| true)?;
    let from = workspace.root.join("sample-layouts");
    let samples = samples::files(&from)?;
    dist::copy_tree(&from, &folder.join("sample-layouts"), |file| samples.contains(file))
}

/// The style sheet: the files of `web/styles` one after the other, by their names, for later rules go before earlier ones.
fn style_sheet(root: &Path) -> Result<String, Trouble> {
    let folder = root.join("web/styles");
    let entries = fs::read_dir(&folder).map_err(Trouble::file("read", &folder))?;
    let mut files: Vec<PathBuf> = entries.filter_map(|entry| Some(entry.ok()?.path())).collect();
    files.retain(|file| file.extension().is_some_and(|ending| ending == "css"));
    files.sort();
    let text = |file: &PathBuf| fs::read_to_string(file).map_err(Trouble::file("read", file));
    Ok(files.iter().map(text).collect::<Result<Vec<String>, Trouble>>()?.join("\n"))
}

/// Writes the script that loads a worker's program, for each of them.
fn write_loaders(root: &Path, folder: &Path) -> Result<(), Trouble> {
    let from = root.join(LOADER);
    for program in &WORKERS {
        let to = folder.join(program.loader());
        fs::copy(&from, &to).map_err(Trouble::file("copy", &from))?;
        names::point_to(folder, &program.loader(), LOADED, &format!("./{}", program.script()))?;
    }
    Ok(())
}

/// Names after their content what has to be of one build, so that a page never meets a worker, a script or a wasm of
/// another one. `index.html` leads to all of them; compiled code learns from it where its worker is.
fn name_after_content(folder: &Path) -> Result<(), Trouble> {
    let wasm = names::rename_after_content(folder, &PAGE.wasm())?;
    names::point_to(folder, &PAGE.script(), &PAGE.wasm(), &wasm)?;
    names::point_to(folder, "index.html", &PAGE.wasm(), &wasm)?;
    let script = names::rename_after_content(folder, &PAGE.script())?;
    names::point_to(folder, "index.html", &PAGE.script(), &script)?;
    for program in &WORKERS {
        let wasm = names::rename_after_content(folder, &program.wasm())?;
        names::point_to(folder, &program.script(), &program.wasm(), &wasm)?;
        let script = names::rename_after_content(folder, &program.script())?;
        names::point_to(folder, &program.loader(), &program.script(), &script)?;
        let loader = names::rename_after_content(folder, &program.loader())?;
        names::point_to(folder, "index.html", &program.loader(), &loader)?;
    }
    let style = names::rename_after_content(folder, "style.css")?;
    names::point_to(folder, "index.html", "style.css", &style)
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::Value;
    use std::collections::BTreeSet;

    fn source(file: &str) -> String {
        fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").join(file)).unwrap()
    }

    /// What stands between the quotes after these words, unless it is its own content.
    fn references(text: &str) -> Vec<&str> {
        let starts = ["href=\"", "src=\"", "import(\"", "from \"", "-worker=\"", "\"src\": \"", "new URL('"];
        let after = |start| text.split(start).skip(1).filter_map(|rest| rest.split(['"', '\'']).next());
        starts.into_iter().flat_map(after).filter(|reference| !reference.starts_with("data:")).collect()
    }

    #[test]
    fn the_page_and_the_worker_refer_to_their_own_folder_only() {
        for file in ["index.html", "web/worker.js", "web/static/stickleaf.webmanifest"] {
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
    fn the_style_sheet_begins_with_the_tokens_and_is_whole() {
        let style = style_sheet(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")).unwrap();
        assert!(style.starts_with("/* The look of the page") && style.contains(":root"));
        assert_eq!(style.matches('{').count(), style.matches('}').count());
    }

    #[test]
    fn the_page_and_the_worker_agree_on_names() {
        let folder = tempfile::tempdir().unwrap();
        for (name, content) in [
            ("index.html", source("index.html").as_str()),
            ("service-worker.js", source("web/service-worker.js").as_str()),
            ("page.js", "new URL('page_bg.wasm', import.meta.url)"),
            ("page_bg.wasm", "wasm"),
            ("search.js", "new URL('search_bg.wasm', import.meta.url)"),
            ("search_bg.wasm", "more wasm"),
            ("pictures.js", "new URL('pictures_bg.wasm', import.meta.url)"),
            ("pictures_bg.wasm", "most wasm"),
            ("style.css", "css"),
        ] {
            fs::write(folder.path().join(name), content).unwrap();
        }
        let own = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../web/static");
        dist::copy_tree(&own, folder.path(), |_| true).unwrap();
        write_loaders(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../.."), folder.path()).unwrap();
        name_after_content(folder.path()).unwrap();
        offline::list_files(folder.path()).unwrap();

        let listed = fs::read_to_string(folder.path().join("service-worker.js")).unwrap();
        let (mut there, mut led_to) = (BTreeSet::new(), BTreeSet::from(["index.html".to_owned()]));
        for file in dist::files(folder.path()).unwrap() {
            let file = file.to_string_lossy().into_owned();
            let is_leading = [".html", ".webmanifest", ".js"].iter().any(|ending| file.ends_with(ending));
            let text = if is_leading {
                fs::read_to_string(folder.path().join(&file)).unwrap()
            } else {
                String::new()
            };
            led_to.extend(references(&text).iter().map(|name| name.trim_start_matches("./").to_owned()));
            there.insert(file);
        }
        assert!(there.remove("service-worker.js"), "the page registers it by this name");
        assert_eq!(there, led_to, "every file is there, and there for something");
        for file in there.iter().filter(|file| *file != "index.html") {
            assert!(listed.contains(&format!("\"{file}\": \"sha256-")), "{file} is kept on the device");
        }
    }

    #[test]
    fn the_icons_are_as_large_as_the_manifest_says() {
        let manifest: Value = serde_json::from_str(&source("web/static/stickleaf.webmanifest")).unwrap();
        let icons = manifest["icons"].as_array().unwrap();
        for icon in icons.iter().filter(|icon| icon["type"] == "image/png") {
            let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../web/static");
            let png = fs::read(path.join(icon["src"].as_str().unwrap())).unwrap();
            // PNG specification, 11.2.1: width and height are the first two numbers of the header chunk.
            let number = |at: usize| u32::from_be_bytes(png[at..at + 4].try_into().unwrap());
            assert_eq!(icon["sizes"], format!("{}x{}", number(16), number(20)), "{icon}");
        }
    }
}
