//! What an earlier version of the page kept in another place becomes a project.

use serde::Deserialize;
use stickleaf_sheet::Layout;

use super::records::{Art, ArtPlace, Project};
use super::store::{Relying, Store};
use crate::browser::{digest, keep, time};

/// The name under which the last sheet was kept.
const LAST_SHEET: &str = "stickleaf-last-sheet";

/// What was kept.
#[derive(Deserialize)]
struct LastSheet {
    /// The text of the layout file.
    layout: String,
    /// Picture files that lie beside the page, and in which folder.
    #[serde(default)]
    lent: Vec<(String, String)>,
}

/// Makes a project of what an earlier version kept, and lets go of it there once it is one.
pub(super) async fn adopt(store: &Store) {
    let Some(text) = keep::kept(LAST_SHEET) else { return };
    let is_adopted = match read(&text) {
        Some((project, layout)) => {
            let project = Project { id: digest::by_chance(), changed_ms: time::date_ms(), ..project };
            match store.save(&project, &layout, Relying::On(0)) {
                Ok(writing) => writing.end().await.is_ok(),
                Err(_) => false,
            }
        }
        // Nobody can make anything of it.
        None => true,
    };
    if is_adopted {
        keep::forget(LAST_SHEET);
    }
}

/// The project that was kept, without an id yet, and the text of its layout.
fn read(text: &str) -> Option<(Project, String)> {
    let LastSheet { layout: text, lent } = serde_json::from_str(text).ok()?;
    let layout: Layout = stickleaf_files::read(&text).ok()?;
    let art = lent.into_iter().map(|(file, folder)| Art { file, place: ArtPlace::Lent(folder) }).collect();
    let project = Project {
        revision: 1,
        stickers: layout.stickers.len(),
        pieces: layout.pieces.len(),
        name: layout.name,
        art,
        ..Project::default()
    };
    Some((project, text))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_kept_is_a_project() {
        let layout = Layout { name: "Tide pool".to_owned(), ..crate::samples::built_in() };
        let kept = serde_json::json!({
            "layout": stickleaf_files::write(&layout),
            "lent": [["owl.png", "sample-layouts/"]],
        });
        let (project, text) = read(&kept.to_string()).unwrap();
        assert_eq!(stickleaf_files::read(&text).unwrap(), layout);
        assert_eq!((project.name.as_str(), project.stickers, project.pieces), ("Tide pool", 4, 6));
        let lent = Art { file: "owl.png".to_owned(), place: ArtPlace::Lent("sample-layouts/".to_owned()) };
        assert_eq!(project.art, [lent]);
    }

    #[test]
    fn what_makes_no_sense_is_none() {
        assert!(read("").is_none() && read(r#"{"layout": "{}"}"#).is_none());
    }
}
