//! Which file answers a request, and of which type it is.

use std::path::{Path, PathBuf};

/// A folder that is served below a path.
#[derive(Clone, Debug)]
pub struct Site {
    /// The folder.
    pub folder: PathBuf,
    /// The path below which it is served; begins and ends with a slash.
    pub base: String,
}

/// The file that a request asks for, or `None` if there is no such file within the site's folder.
///
/// `target` is the request line's second word: a path, perhaps with a query, percent-encoded. A folder answers with
/// its `index.html`. Nothing outside the folder is ever given: not by dots, not by encoded dots or slashes, not by a
/// link that leads out.
pub fn requested_file(site: &Site, target: &str) -> Option<PathBuf> {
    let path = target.split(['?', '#']).next()?;
    let path = percent_decoded(path.strip_prefix(site.base.as_str())?)?;
    let mut file = site.folder.clone();
    for name in path.split('/').filter(|name| !name.is_empty()) {
        // A colon or backslash would name a drive or a folder on some systems; our files have neither.
        if name.starts_with('.') || name.contains(['\\', ':', '\0']) {
            return None;
        }
        file.push(name);
    }
    if file.is_dir() {
        file.push("index.html");
    }
    let file = file.canonicalize().ok()?;
    let is_within = file.starts_with(site.folder.canonicalize().ok()?);
    (is_within && file.is_file()).then_some(file)
}

/// The media type for a file, by the ending of its name; bytes without a type if the ending is not one of ours.
///
/// Source: IANA media types registry; for JavaScript RFC 9239, for web app manifests the W3C's "Web Application
/// Manifest". Browsers compile wasm while it arrives only if the type is exactly this one.
pub fn media_type(file: &Path) -> &'static str {
    match file.extension().and_then(|ending| ending.to_str()).unwrap_or_default() {
        "html" => "text/html; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "json" => "application/json",
        "webmanifest" => "application/manifest+json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "ico" => "image/vnd.microsoft.icon",
        "woff2" => "font/woff2",
        "pdf" => "application/pdf",
        "zip" => "application/zip",
        "csv" => "text/csv; charset=utf-8",
        "txt" | "md" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

/// The text that a percent-encoded path stands for; `None` if a code is cut short or the bytes are not UTF-8.
///
/// Source: RFC 3986, section 2.1.
fn percent_decoded(path: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(path.len());
    let mut rest = path.bytes();
    while let Some(byte) = rest.next() {
        if byte == b'%' {
            let high = char::from(rest.next()?).to_digit(16)?;
            let low = char::from(rest.next()?).to_digit(16)?;
            bytes.push(u8::try_from(high * 16 + low).ok()?);
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;
    use tempfile::TempDir;

    fn sample() -> (TempDir, Site) {
        let outer = tempfile::tempdir().unwrap();
        let folder = outer.path().join("site");
        fs::create_dir_all(folder.join("pool")).unwrap();
        fs::write(outer.path().join("private.txt"), "private").unwrap();
        fs::write(folder.join("index.html"), "home").unwrap();
        fs::write(folder.join("pool/tide pool.json"), "{}").unwrap();
        fs::write(folder.join(".hidden"), "hidden").unwrap();
        (outer, Site { folder, base: "/".to_owned() })
    }

    #[test]
    fn files_and_folders_answer() {
        let (_outer, site) = sample();
        let home = site.folder.canonicalize().unwrap().join("index.html");
        for target in ["/", "/index.html", "/?seed=7", "//index.html", "/index%2Ehtml"] {
            assert_eq!(requested_file(&site, target).as_ref(), Some(&home), "{target}");
        }
        assert!(requested_file(&site, "/pool/tide%20pool.json").is_some());
    }

    #[test]
    fn nothing_outside_the_folder_answers() {
        let (_outer, site) = sample();
        assert!(site.folder.join("../private.txt").is_file(), "there is something to escape to");
        for target in [
            "/../private.txt",
            "/pool/../../private.txt",
            "/%2e%2e/private.txt",
            "/..%2fprivate.txt",
            "/%2e%2e%2fprivate.txt",
            "/..\\private.txt",
            "/..%5cprivate.txt",
            "/C:/private.txt",
            "//etc/passwd",
            "/%2fetc/passwd",
            "../private.txt",
            "http://127.0.0.1/index.html",
            "",
        ] {
            assert_eq!(requested_file(&site, target), None, "{target}");
        }
    }

    #[cfg(unix)]
    #[test]
    fn a_link_that_leads_out_does_not_answer() {
        let (outer, site) = sample();
        std::os::unix::fs::symlink(outer.path().join("private.txt"), site.folder.join("link.txt")).unwrap();
        assert_eq!(requested_file(&site, "/link.txt"), None);
    }

    #[test]
    fn what_is_not_there_hidden_or_wrongly_written_does_not_answer() {
        let (_outer, site) = sample();
        for target in ["/none.js", "/pool", "/pool/", "/.hidden", "/%zz", "/%4", "/%ff", "/index.html%00"] {
            assert_eq!(requested_file(&site, target), None, "{target}");
        }
    }

    #[test]
    fn a_site_below_a_path_answers_there_only() {
        let (_outer, site) = sample();
        let site = Site { base: "/a/shelf/".to_owned(), ..site };
        assert!(requested_file(&site, "/a/shelf/").is_some());
        assert!(requested_file(&site, "/a/shelf/index.html").is_some());
        for target in ["/", "/index.html", "/a/shelf", "/a/shelf/../index.html", "/a/shelf/a/shelf/"] {
            assert_eq!(requested_file(&site, target), None, "{target}");
        }
    }

    #[test]
    fn media_types_are_those_that_browsers_insist_on() {
        for (file, media) in [
            ("page_bg-1.wasm", "application/wasm"),
            ("page.js", "text/javascript; charset=utf-8"),
            ("layout.json", "application/json"),
            ("crab.svg", "image/svg+xml"),
            ("crab.png", "image/png"),
            ("app.webmanifest", "application/manifest+json"),
            ("no-ending", "application/octet-stream"),
        ] {
            assert_eq!(media_type(Path::new(file)), media, "{file}");
        }
    }
}
