//! What is written to the device: projects, their earlier states, and where their pictures are.

use serde::{Deserialize, Serialize};

/// Everything about a project but the layout itself, which is kept beside it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Project {
    /// Names it for good.
    pub id: String,
    /// The layout's name; may be empty.
    pub name: String,
    /// When it was last changed, in milliseconds since 1970.
    pub changed_ms: f64,
    /// Grows with every write, so that an older state is known as such.
    pub revision: u64,
    /// How many stickers it has.
    pub stickers: usize,
    /// How many pieces lie on its sheet.
    pub pieces: usize,
    /// The sheet in small, as the address of a picture that holds its own data; may be empty.
    pub thumbnail: String,
    /// Where its pictures are.
    pub art: Vec<Art>,
    /// When it was deleted; it can be had back for a while.
    #[serde(default)]
    pub deleted_ms: Option<f64>,
}

/// Where a picture that a layout names is.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Art {
    /// The file's name, as the layout says it.
    pub file: String,
    /// Where it is.
    pub place: ArtPlace,
}

/// Where a picture is.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum ArtPlace {
    /// On the device.
    Kept(KeptPicture),
    /// Beside the page, in this folder; the name ends with a slash.
    Lent(String),
}

/// A picture on the device.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct KeptPicture {
    /// The name of its bytes.
    pub key: String,
    /// Its width in pixels, CSS pixels for a drawing without pixels; nothing to believe the file.
    pub size_px: Option<(f64, f64)>,
    /// Whether it is a drawing without pixels.
    pub is_drawing: bool,
}

/// An earlier state of a project.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Version {
    /// When it was kept, in milliseconds since 1970. No two of a project have the same.
    pub at_ms: f64,
    /// On what occasion.
    pub occasion: Occasion,
    /// How many pieces lay on the sheet.
    pub pieces: usize,
    /// The text of the layout file.
    pub layout: String,
    /// Where its pictures are.
    pub art: Vec<Art>,
}

/// On what occasion an earlier state was kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Occasion {
    /// The project was opened.
    Opening,
    /// Packing was about to begin.
    Packing,
    /// Some minutes of work had passed.
    Meanwhile,
    /// The artist was about to go back to an earlier state.
    GoingBack,
    /// This tab's state gave way to that of another tab.
    OtherTab,
}

/// The names of the stored pictures in these lists, each once, in order.
pub fn picture_keys<'a>(art: impl Iterator<Item = &'a Art>) -> Vec<String> {
    let mut keys: Vec<String> = art
        .filter_map(|art| match &art.place {
            ArtPlace::Kept(picture) => Some(picture.key.clone()),
            ArtPlace::Lent(_) => None,
        })
        .collect();
    keys.sort();
    keys.dedup();
    keys
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kept(file: &str, key: &str) -> Art {
        let picture = KeptPicture { key: key.to_owned(), size_px: Some((40.0, 30.0)), is_drawing: false };
        Art { file: file.to_owned(), place: ArtPlace::Kept(picture) }
    }

    #[test]
    fn one_picture_under_two_names_is_counted_once() {
        let lent = Art { file: "moon.png".to_owned(), place: ArtPlace::Lent("samples/".to_owned()) };
        let art = [kept("owl.png", "b"), lent, kept("cat.png", "a"), kept("2 owl.png", "b")];
        assert_eq!(picture_keys(art.iter()), ["a", "b"]);
    }

    #[test]
    fn what_is_written_reads_back() {
        let project = Project {
            id: "p".to_owned(),
            name: "Tide \"pool\"".to_owned(),
            changed_ms: 1_764_142_000_123.0,
            art: vec![kept("owl.png", "b")],
            ..Project::default()
        };
        let text = serde_json::to_string(&project).unwrap();
        assert_eq!(serde_json::from_str::<Project>(&text).unwrap(), project);
    }

    #[test]
    fn a_record_without_a_later_field_is_read() {
        let text = r#"{"id": "p", "name": "", "changed_ms": 1, "revision": 1, "stickers": 0, "pieces": 0,
            "thumbnail": "", "art": []}"#;
        assert_eq!(serde_json::from_str::<Project>(text).unwrap().deleted_ms, None);
    }
}
