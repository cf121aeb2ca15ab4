//! The pictures that a layout names, read from beside it or from its bundle.

use std::collections::HashMap;
use std::fs;
use std::io::ErrorKind;
use std::path::Path;
use std::sync::Arc;

use stickleaf_press::{NoPicture, Picture, Pictures, SvgDrawing, read_png};

use crate::layouts::Source;
use crate::{Trouble, disk};

/// The pictures of a layout. Each is decoded once.
pub struct LayoutPictures<'a> {
    source: Source<'a>,
    known: HashMap<String, Picture>,
}

impl LayoutPictures<'_> {
    /// The pictures of the layout in this file.
    pub fn of(layout: &Path) -> Result<LayoutPictures<'_>, Trouble> {
        Ok(LayoutPictures { source: Source::of(layout)?, known: HashMap::new() })
    }

    fn bytes(&self, file: &str) -> Result<Vec<u8>, NoPicture> {
        match &self.source {
            Source::Beside(layout) => {
                let place = disk::folder_of(layout).join(file);
                fs::read(&place).map_err(|error| {
                    let what = match error.kind() {
                        ErrorKind::NotFound => "is not there".to_owned(),
                        _ => error.to_string(),
                    };
                    NoPicture::Missing(format!("{what} (looked for as {})", place.display()))
                })
            }
            Source::Within(pictures) => {
                let bytes = pictures.get(file).cloned();
                bytes.ok_or_else(|| NoPicture::Missing("is not in the bundle".to_owned()))
            }
        }
    }
}

impl Pictures for LayoutPictures<'_> {
    fn picture(&mut self, file: &str) -> Result<Picture, NoPicture> {
        if let Some(picture) = self.known.get(file) {
            return Ok(picture.clone());
        }
        let picture = read(&self.bytes(file)?).map_err(NoPicture::Damaged)?;
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
