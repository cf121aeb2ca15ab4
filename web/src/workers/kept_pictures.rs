//! The pictures that came along with a layout, decoded when they are asked for.

use std::collections::HashMap;
use std::sync::Arc;

use js_sys::{ArrayBuffer, Uint8Array};
use stickleaf_press::{NoPicture, Picture, Pictures, SvgDrawing, read_png};

/// The pictures that came along, by the names by which the layout knows them.
pub struct KeptPictures {
    bytes: HashMap<String, ArrayBuffer>,
    known: HashMap<String, Picture>,
}

impl KeptPictures {
    /// The pictures of these names, whose bytes are in the buffers, in the same order.
    pub fn new(names: Vec<String>, buffers: &[ArrayBuffer]) -> KeptPictures {
        KeptPictures {
            bytes: names.into_iter().zip(buffers.iter().cloned()).collect(),
            known: HashMap::new(),
        }
    }
}

impl KeptPictures {
    /// The bytes of a picture as they came; nothing if it did not come, or was decoded already.
    pub fn bytes(&self, file: &str) -> Option<Vec<u8>> {
        self.bytes.get(file).map(|buffer| Uint8Array::new(buffer).to_vec())
    }
}

impl Pictures for KeptPictures {
    fn picture(&mut self, file: &str) -> Result<Picture, NoPicture> {
        if let Some(picture) = self.known.get(file) {
            return Ok(picture.clone());
        }
        // The file's bytes are not needed any more once they are decoded.
        let Some(buffer) = self.bytes.remove(file) else {
            return Err(NoPicture::Missing("is not on this device".to_owned()));
        };
        let picture = read(&Uint8Array::new(&buffer).to_vec()).map_err(NoPicture::Damaged)?;
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
