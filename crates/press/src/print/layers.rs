//! The layers of the cut: what they are called, in which spot colour, and what they say of themselves.
//!
//! Source for the metadata: ISO 19593-1:2018 (processing steps), keys as in the Ghent Workgroup's public description: the
//! layer's dictionary holds `GTS_Metadata` with `GTS_ProcStepsGroup` and `GTS_ProcStepsType`.

use pdf_writer::{Chunk, Dict, Name, Ref, TextStr};

/// A depth of cut as a layer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Layer {
    /// Through the face only.
    Kiss,
    /// Through face and backing.
    Through,
}

impl Layer {
    pub(crate) const ALL: [Layer; 2] = [Layer::Kiss, Layer::Through];

    /// What the layer is called.
    pub(crate) fn title(self) -> &'static str {
        match self {
            Layer::Kiss => "Kiss lines",
            Layer::Through => "Through line",
        }
    }

    /// The spot colour's name.
    pub(crate) fn colorant(self) -> Name<'static> {
        match self {
            Layer::Kiss => Name(b"Kiss line"),
            Layer::Through => Name(b"Through line"),
        }
    }

    /// How the spot colour is shown where there is no such ink: cyan, magenta, yellow and black.
    pub(crate) fn shown_as(self) -> [f32; 4] {
        match self {
            Layer::Kiss => [0.85, 0.0, 0.45, 0.1],
            Layer::Through => [0.0, 0.85, 0.6, 0.1],
        }
    }

    /// The processing step.
    fn step(self) -> Name<'static> {
        match self {
            Layer::Kiss => Name(b"PartialCutting"),
            Layer::Through => Name(b"Cutting"),
        }
    }

    /// Its place among all.
    pub(crate) fn index(self) -> usize {
        self as usize
    }

    /// A short name for what belongs to it.
    pub(crate) fn word(self) -> &'static str {
        match self {
            Layer::Kiss => "Kiss",
            Layer::Through => "Through",
        }
    }

    /// The name of its properties in a page's resources, and of its colour in a form's.
    pub(crate) fn resource(self) -> Name<'static> {
        Name(self.word().as_bytes())
    }

    /// Writes the layer's own dictionary.
    pub(crate) fn write(self, chunk: &mut Chunk, id: Ref) {
        let mut group = chunk.indirect(id).dict();
        group.pair(Name(b"Type"), Name(b"OCG"));
        group.pair(Name(b"Name"), TextStr(self.title()));
        let mut metadata = group.insert(Name(b"GTS_Metadata")).dict();
        metadata.pair(Name(b"GTS_ProcStepsGroup"), Name(b"Structural"));
        metadata.pair(Name(b"GTS_ProcStepsType"), self.step());
    }
}

/// Tells the document that these layers are there, all of them shown.
pub(crate) fn list(mut properties: Dict<'_>, layers: &[Ref]) {
    properties.insert(Name(b"OCGs")).array().items(layers.iter().copied());
    let mut usual = properties.insert(Name(b"D")).dict();
    usual.pair(Name(b"Name"), TextStr("Print and cut"));
    usual.insert(Name(b"ON")).array().items(layers.iter().copied());
    usual.insert(Name(b"Order")).array().items(layers.iter().copied());
}
