//! The pictures that a layout names, read from beside it.

use std::collections::HashMap;
use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use stickleaf_press::{NoPicture, Picture, Pictures, SvgDrawing, read_png};

use crate::disk;

/// The pictures in the folder of a layout. Each is read once.
pub struct FolderPictures {
    folder: PathBuf,
    known: HashMap<String, Picture>,
}

impl FolderPictures {
    /// The pictures beside this layout file.
    pub fn beside(layout: &Path) -> FolderPictures {
        FolderPictures { folder: disk::folder_of(layout).to_owned(), known: HashMap::new() }
    }
}

impl Pictures for FolderPictures {
    fn picture(&mut self, file: &str) -> Result<Picture, NoPicture> {
        if let Some(picture) = self.known.get(file) {
            return Ok(picture.clone());
        }
        let place = self.folder.join(file);
        let bytes = fs::read(&place).map_err(|error| {
            let what = match error.kind() {
                ErrorKind::NotFound => "is not there".to_owned(),
                _ => error.to_string(),
            };
            NoPicture::Missing(format!("{what} (looked for as {})", place.display()))
        })?;
        let picture = read(&bytes).map_err(NoPicture::Damaged)?;
        self.known.insert(file.to_owned(), picture.clone());
        Ok(picture)
    }
}

fn read(bytes: &[u8]) -> Result<Picture, String> {
    if bytes.starts_with(b"\x89PNG") {
        return read_png(bytes).map(|pixels| Picture::Pixels(Arc::new(pixels)));
    }
    SvgDrawing::read(bytes).map(|drawing| Picture::Drawing(Arc::new(drawing)))
}
