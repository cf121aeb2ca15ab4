//! What has to be on the machine beside cargo: found, fetched where that is usual, or asked for in plain words.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::programs;
use crate::trouble::Trouble;

/// The compiler's name for what a browser runs.
pub const WASM_TARGET: &str = "wasm32-unknown-unknown";

/// The least version of node that the browser stories' library runs on.
const NODE: u32 = 20;

/// The names under which Chromium goes, ours first.
const CHROMIUM: [&str; 3] = ["chromium", "chromium-browser", "google-chrome"];

/// The programs that read the printed page in the tests.
const PDF_READERS: [&str; 4] = ["pdftoppm", "pdfinfo", "mutool", "qpdf"];

/// Sees to it that the compiler can make wasm.
pub fn wasm_target() -> Result<(), Trouble> {
    let sysroot = programs::output(Command::new("rustc").args(["--print", "sysroot"]))?;
    let sysroot = PathBuf::from(String::from_utf8_lossy(&sysroot).trim());
    if sysroot.join("lib/rustlib").join(WASM_TARGET).is_dir() {
        return Ok(());
    }
    if programs::find(&["rustup"]).is_none() {
        return Err(Trouble::Missing {
            what: "the Rust target wasm32-unknown-unknown",
            remedy: "install Rust with rustup (https://rustup.rs), which adds it by itself, \
                     or your system's package of it (Debian: libstd-rust-dev-wasm32)",
        });
    }
    programs::run(Command::new("rustup").args(["target", "add", WASM_TARGET]))
}

/// Sees to it that node and npm are there and new enough.
pub fn node() -> Result<(), Trouble> {
    if programs::find(&["node"]).is_none() || programs::find(&["npm"]).is_none() {
        if may_install() {
            apt_install(&["nodejs", "npm"])?;
        } else {
            return Err(Trouble::Missing {
                what: "node 20 or later with npm",
                remedy: "install them (Debian: apt-get install nodejs npm)",
            });
        }
    }
    let version = programs::output(Command::new("node").arg("--version"))?;
    match major_version(&String::from_utf8_lossy(&version)) {
        Some(major) if major >= NODE => Ok(()),
        _ => Err(Trouble::Missing {
            what: "node 20 or later",
            remedy: "the one that is installed is older; install a newer one from your system or https://nodejs.org",
        }),
    }
}

/// Sees to it that a folder's npm packages are there, exactly as its lock file names them.
///
/// Nothing is fetched if the packages in the folder came from the same lock file.
pub fn npm_packages(folder: &Path) -> Result<(), Trouble> {
    let lock = folder.join("package-lock.json");
    let wanted = fs::read(&lock).map_err(Trouble::file("read", &lock))?;
    let stamp = folder.join("node_modules/.installed-from");
    if fs::read(&stamp).is_ok_and(|installed| installed == wanted) {
        return Ok(());
    }
    node()?;
    let npm = programs::find(&["npm", "npm.cmd"]).unwrap_or_else(|| "npm".into());
    programs::run(Command::new(npm).arg("ci").arg("--prefix").arg(folder).args(["--no-audit", "--no-fund"]))?;
    fs::write(&stamp, wanted).map_err(Trouble::file("write", &stamp))
}

/// Where Chromium is, after seeing to it that there is one. `STICKLEAF_CHROMIUM` names another one.
pub fn chromium() -> Result<PathBuf, Trouble> {
    if let Some(chosen) = std::env::var_os("STICKLEAF_CHROMIUM") {
        return Ok(chosen.into());
    }
    if let Some(found) = programs::find(&CHROMIUM) {
        return Ok(found);
    }
    if may_install() {
        // The driver lets wasm-bindgen's own test runner use the same browser; the font gives text its usual widths.
        apt_install(&["chromium", "chromium-driver", "fonts-dejavu-core"])?;
        if let Err(trouble) = apt_install(&["binaryen"]) {
            println!("note: going on without wasm-opt: {trouble}");
        }
    }
    programs::find(&CHROMIUM).ok_or(Trouble::Missing {
        what: "Chromium",
        remedy: "install it (Debian: apt-get install chromium), \
                 or let STICKLEAF_CHROMIUM name the program of another one, such as Chrome",
    })
}

/// Sees to it that the programs are there that read our PDF in the tests: poppler's, MuPDF's and qpdf.
pub fn pdf_readers() -> Result<(), Trouble> {
    let are_there = || PDF_READERS.iter().all(|name| programs::find(&[name]).is_some());
    if !are_there() && may_install() {
        apt_install(&["poppler-utils", "mupdf-tools", "qpdf"])?;
    }
    if are_there() {
        return Ok(());
    }
    Err(Trouble::Missing {
        what: "pdftoppm, pdfinfo, mutool or qpdf",
        remedy: "install them (Debian: apt-get install poppler-utils mupdf-tools qpdf)",
    })
}

/// Whether packages may be added: on Debian, by its administrator. Elsewhere a task does not touch the system.
fn may_install() -> bool {
    let is_debian = fs::read_to_string("/etc/os-release").is_ok_and(|text| is_debian(&text));
    is_debian && Command::new("id").arg("-u").output().is_ok_and(|output| output.stdout.trim_ascii() == b"0")
}

/// Source: os-release(5), field `ID`. Derived systems name themselves otherwise and may package Chromium differently.
fn is_debian(os_release: &str) -> bool {
    os_release.lines().any(|line| line.trim() == "ID=debian")
}

fn apt_install(packages: &[&str]) -> Result<(), Trouble> {
    programs::run(Command::new("apt-get").args(["update", "-q"]))?;
    let mut command = Command::new("apt-get");
    command.env("DEBIAN_FRONTEND", "noninteractive").args(["install", "-y", "-q", "--no-install-recommends"]);
    programs::run(command.args(packages))
}

/// 20 for "v20.11.0".
fn major_version(version: &str) -> Option<u32> {
    version.trim().trim_start_matches('v').split('.').next()?.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn versions_are_read_as_node_prints_them() {
        assert_eq!(major_version("v20.11.0\n"), Some(20));
        assert_eq!(major_version("18.1"), Some(18));
        assert_eq!(major_version("unknown"), None);
    }

    #[test]
    fn only_debian_itself_is_debian() {
        assert!(is_debian("PRETTY_NAME=\"Debian GNU/Linux 12\"\nID=debian\n"));
        assert!(!is_debian("ID=ubuntu\nID_LIKE=debian\n"));
    }

    #[test]
    fn packages_from_the_same_lock_file_are_not_fetched_again() {
        let folder = tempfile::tempdir().unwrap();
        fs::create_dir(folder.path().join("node_modules")).unwrap();
        fs::write(folder.path().join("package-lock.json"), "{}").unwrap();
        fs::write(folder.path().join("node_modules/.installed-from"), "{}").unwrap();
        npm_packages(folder.path()).unwrap();
        assert!(npm_packages(&folder.path().join("nowhere")).is_err());
    }
}
