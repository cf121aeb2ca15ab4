//! Stickers from drawings by other people; `tests/art/README.md` says whose they are.

use std::path::{Path, PathBuf};

use stickleaf_art::{ImportOptions, TrueSize, import};
use stickleaf_outline::Outline;
use stickleaf_sheet::{Layout, Rules, Sheet, Sticker, Turns, Wanted};

use crate::output;
use crate::themes::{LEAN, Motif, Theme};
use crate::trouble::Trouble;

/// The folder with the drawings: in `STICKLEAF_ART`, or in `tests/art/node_modules` of this workspace.
pub fn folder() -> PathBuf {
    let beside = || Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/art/node_modules");
    std::env::var_os("STICKLEAF_ART").map_or_else(beside, PathBuf::from).join("openmoji/color/svg")
}

/// An A6 card with a theme's stickers, at least one of each wanted, and its background; nothing placed.
pub fn layout(theme: &Theme, folder: &Path) -> Result<Layout, Trouble> {
    let (sheet, rules) = (Sheet::default(), Rules::default());
    let stickers = theme.motifs.iter().map(|motif| sticker(motif, folder));
    let background = theme.style.background(&sheet, &rules);
    Ok(Layout {
        name: theme.name.to_owned(),
        sheet,
        rules,
        background: Some(background.name.clone()),
        backgrounds: vec![background],
        stickers: stickers.collect::<Result<Vec<Sticker>, Trouble>>()?,
        ..Layout::default()
    })
}

fn sticker(motif: &Motif, folder: &Path) -> Result<Sticker, Trouble> {
    let path = folder.join(format!("{}.svg", motif.code));
    let svg = output::read(&path)?;
    let art = |what| Trouble::Art { path: path.clone(), what };
    // The canvas is wider than what is drawn on it: the first look tells by how much.
    let first = largest(&svg, motif.size).map_err(art)?;
    let outline = largest(&svg, motif.size * motif.size / longer_side(&first)).map_err(art)?;
    let mut sticker = Sticker::new(motif.code.to_lowercase(), motif.name, outline);
    sticker.wanted = Wanted::AtLeast(1);
    sticker.turns = if motif.is_upright { Turns::Within(LEAN) } else { Turns::Any };
    Ok(sticker)
}

/// The largest separate drawing on a canvas of this width.
fn largest(svg: &str, width: f64) -> Result<Outline, String> {
    let options = ImportOptions { size: TrueSize::WidthMm(width), ..ImportOptions::default() };
    let found = import(svg.as_bytes(), &options).map_err(|error| error.to_string())?;
    let largest = found.drawings.into_iter().max_by(|a, b| a.outline.area().total_cmp(&b.outline.area()));
    largest.map(|drawing| drawing.outline).ok_or_else(|| "nothing is drawn in it".to_owned())
}

fn longer_side(outline: &Outline) -> f64 {
    outline.bounds().width().max(outline.bounds().height())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drawing_becomes_a_sticker_of_the_size_asked() {
        let folder = tempfile::tempdir().unwrap();
        let svg = r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 72 72">
            <rect x="6" y="30" width="60" height="20"/><circle cx="36" cy="8" r="3"/></svg>"#;
        std::fs::write(folder.path().join("bar.svg"), svg).unwrap();
        let motif = Motif { code: "bar", name: "Bar", size: 30.0, is_upright: true };
        let sticker = sticker(&motif, folder.path()).unwrap();
        let bounds = sticker.outline.bounds();
        assert!((bounds.width() - 30.0).abs() < 0.02 && (bounds.height() - 10.0).abs() < 0.02, "{bounds:?}");
        assert_eq!(sticker.turns, Turns::Within(15.0));
        let missing = super::sticker(&Motif { code: "none", ..motif }, folder.path()).unwrap_err();
        assert!(missing.to_string().contains("none.svg"));
    }
}
