//! Two programs that make pixels of a PDF, each with code of its own: poppler and MuPDF.

use std::fs;
use std::path::Path;
use std::process::Command;

use crate::pictures::Grey;

/// The first page of a PDF as both programs see it, at so many pixels to the inch.
pub fn rasterised(pdf: &[u8], resolution_ppi: u32) -> [(&'static str, Grey); 2] {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("page.pdf");
    fs::write(&file, pdf).expect("a file");
    let resolution = resolution_ppi.to_string();
    let poppler = folder.path().join("poppler.png");
    let mut command = Command::new("pdftoppm");
    command.args(["-r", &resolution, "-png", "-gray", "-singlefile"]);
    run(command.arg(&file).arg(poppler.with_extension("")));
    let mupdf = folder.path().join("mupdf.png");
    run(Command::new("mutool")
        .args(["draw", "-q", "-r", &resolution, "-c", "gray", "-o"])
        .arg(&mupdf)
        .arg(&file));
    [("poppler", read(&poppler)), ("MuPDF", read(&mupdf))]
}

/// What qpdf complains of in a PDF: nothing, if all is well.
pub fn complaints(pdf: &[u8]) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("page.pdf");
    fs::write(&file, pdf).expect("a file");
    let output = started(Command::new("qpdf").arg("--check").arg(&file));
    if output.status.success() { String::new() } else { String::from_utf8_lossy(&output.stderr).into_owned() }
}

/// What pdfinfo says of each box of the first page, in points: left, bottom, right, top.
pub fn boxes(pdf: &[u8]) -> Vec<(String, [f64; 4])> {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("page.pdf");
    fs::write(&file, pdf).expect("a file");
    let output = started(Command::new("pdfinfo").args(["-box", "-f", "1", "-l", "1"]).arg(&file));
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    let lines = text.lines().filter_map(|line| {
        let (name, numbers) = line.rsplit_once(':')?;
        let name = name.split_whitespace().last()?.to_owned();
        let numbers: Vec<f64> = numbers.split_whitespace().map_while(|number| number.parse().ok()).collect();
        Some((name, numbers.try_into().ok()?))
    });
    lines.filter(|(name, _)| name.ends_with("Box")).collect()
}

fn read(file: &Path) -> Grey {
    Grey::read(&fs::read(file).unwrap_or_else(|error| panic!("{}: {error}", file.display())))
}

fn run(command: &mut Command) {
    let output = started(command);
    assert!(output.status.success(), "{command:?}: {}", String::from_utf8_lossy(&output.stderr));
}

fn started(command: &mut Command) -> std::process::Output {
    command.output().unwrap_or_else(|error| {
        panic!(
            "{command:?} does not start ({error}); run the tests with `cargo xtask test`, which installs it, or install \
             it (Debian: apt-get install poppler-utils mupdf-tools qpdf)"
        )
    })
}
