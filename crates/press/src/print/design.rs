//! A design in the document: its composed sheet and its lines, each there once, however many pages use them.

use kurbo::Affine;
use pdf_writer::types::OverprintMode;
use pdf_writer::writers::{ColorSpace, Resources};
use pdf_writer::{Content, Filter, Finish, Name, Pdf, Ref};
use stickleaf_sheet::{Correction, Layout};

use crate::cut::CutPlan;
use crate::frame::Frame;
use crate::picture::Pictures;
use crate::print::content::path;
use crate::print::document::packed_stream;
use crate::print::layers::Layer;
use crate::print::picture::PackedPicture;

/// A layout to be printed.
pub struct DesignToPrint<'a> {
    /// The layout.
    pub layout: &'a Layout,
    /// Its cut lines.
    pub plan: &'a CutPlan,
    /// Its pictures.
    pub pictures: &'a mut dyn Pictures,
    /// Pixels to the inch of the composed sheet.
    pub resolution_ppi: f64,
    /// How its colours are shifted for the printer.
    pub correction: Correction,
}

/// The width of cut lines in the print, in millimetres.
const LINE: f32 = 0.1;

const OVERPRINT: Name<'static> = Name(b"Overprint");

/// What the document holds of a design, by its numbers.
pub(crate) struct DesignIds {
    /// The name by which pages paint the composed sheet.
    name: String,
    /// For each layer, the name by which pages paint its lines.
    line_names: [String; 2],
    image: Ref,
    mask: Ref,
    /// For each layer, the form with its lines.
    forms: [Ref; 2],
}

impl DesignIds {
    /// Those of the design at this position.
    pub(crate) fn new(index: usize, mut id: impl FnMut() -> Ref) -> DesignIds {
        let number = index + 1;
        DesignIds {
            name: format!("Sheet{number}"),
            line_names: Layer::ALL.map(|layer| format!("{}{number}", layer.word())),
            image: id(),
            mask: id(),
            forms: [id(), id()],
        }
    }

    /// The name of the composed sheet among a page's objects.
    pub(crate) fn picture(&self) -> Name<'_> {
        Name(self.name.as_bytes())
    }

    /// The name of a layer's lines among a page's objects.
    pub(crate) fn lines(&self, layer: Layer) -> Name<'_> {
        Name(self.line_names[layer.index()].as_bytes())
    }

    /// All that a page may paint of it, with or without its lines.
    pub(crate) fn objects(&self, has_layers: bool) -> impl Iterator<Item = (Name<'_>, Ref)> {
        let lines = Layer::ALL.into_iter().filter(move |_| has_layers);
        let lines = lines.map(|layer| (self.lines(layer), self.forms[layer.index()]));
        [(self.picture(), self.image)].into_iter().chain(lines)
    }

    /// Writes the composed sheet, its colours in this profile.
    pub(crate) fn write_picture(&self, pdf: &mut Pdf, profile: Ref, picture: &PackedPicture) {
        let (width, height) = (picture.frame.width_px as i32, picture.frame.height_px as i32);
        let mut image = pdf.image_xobject(self.image, &picture.rgb);
        image.filter(Filter::FlateDecode);
        image.width(width).height(height).bits_per_component(8);
        image.color_space().icc_based(profile);
        image.s_mask(self.mask);
        image.finish();
        let mut mask = pdf.image_xobject(self.mask, &picture.alpha);
        mask.filter(Filter::FlateDecode);
        mask.width(width).height(height).bits_per_component(8);
        mask.color_space().device_gray();
    }

    /// Writes, for each layer, a form with the lines in the sheet's millimetres.
    pub(crate) fn write_lines(&self, pdf: &mut Pdf, overprint: Ref, layout: &Layout, plan: &CutPlan) {
        for layer in Layer::ALL {
            let mut content = Content::new();
            content.set_parameters(OVERPRINT);
            content.set_stroke_color_space(layer.resource()).set_stroke_color([1.0]);
            content.set_line_width(LINE);
            match layer {
                Layer::Kiss => plan.kiss.iter().for_each(|cut| path(&mut content, &cut.line.path)),
                Layer::Through => path(&mut content, &plan.through),
            }
            content.stroke();
            let bytes = packed_stream(&content.finish());
            let mut object = pdf.form_xobject(self.forms[layer.index()], &bytes);
            object.filter(Filter::FlateDecode);
            let (width, height) = (layout.sheet.width as f32, layout.sheet.height as f32);
            object.bbox(pdf_writer::Rect::new(-1.0, -1.0, width + 1.0, height + 1.0));
            let mut resources = object.resources();
            resources.ext_g_states().pair(OVERPRINT, overprint);
            spot_colour(&mut resources, layer);
            resources.finish();
            object.finish();
        }
    }
}

/// Writes how lines are printed: over what lies below, which stays.
pub(crate) fn write_overprint(pdf: &mut Pdf, id: Ref) {
    let mut overprint = pdf.ext_graphics(id);
    overprint.overprint(true).overprint_fill(true);
    overprint.overprint_mode(OverprintMode::IgnoreZeroChannel);
}

fn spot_colour(resources: &mut Resources<'_>, layer: Layer) {
    let mut spaces = resources.color_spaces();
    let mut spot = spaces.insert(layer.resource()).start::<ColorSpace<'_>>().separation(layer.colorant());
    spot.alternate_color_space().device_cmyk();
    let mut tint = spot.tint_exponential();
    tint.domain([0.0, 1.0]).c0([0.0; 4]).c1(layer.shown_as()).n(1.0);
}

/// The way from the unit square that a picture fills, its foot at 0, to the sheet's millimetres: pixels are exact parts of
/// them.
pub(crate) fn fill(frame: &Frame) -> Affine {
    let per_mm = frame.per_mm();
    let (width, height) = (f64::from(frame.width_px) / per_mm, f64::from(frame.height_px) / per_mm);
    let bleed = f64::from(frame.bleed_px) / per_mm;
    Affine::new([width, 0.0, 0.0, -height, -bleed, height - bleed])
}
