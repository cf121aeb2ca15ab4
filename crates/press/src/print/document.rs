//! The document: one page, the sheets on it, and all that the page refers to.

use kurbo::{Affine, Rect};
use pdf_writer::types::{OutputIntentSubtype, OverprintMode};
use pdf_writer::writers::Resources;
use pdf_writer::{Content, Filter, Finish, Name, Pdf, Ref, TextStr};
use stickleaf_sheet::{Correction, Layout};

use crate::compose::ComposeOptions;
use crate::cut::CutPlan;
use crate::picture::Pictures;
use crate::print::content::{matrix, path, ruler, ruler_place};
use crate::print::icc;
use crate::print::layers::{self, Layer};
use crate::print::picture::{PackedPicture, packed};
use crate::print::place::{PlacedSheet, UNITS_PER_MM, printed_areas, to_units};
use crate::progress::Progress;
use crate::trouble::PressError;

/// Who gets the print.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Profile {
    /// A print shop that cuts too: the cut lines are on layers of their own, in spot colours.
    Shop,
    /// The artist's own printer: no cut lines, which would be printed.
    Home,
}

/// How the print is made. Lengths in millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct PrintOptions {
    /// Who gets it.
    pub profile: Profile,
    /// The page's width.
    pub page_width: f64,
    /// The page's height.
    pub page_height: f64,
    /// What the printer leaves free at every edge; the ruler keeps to it.
    pub printer_margin: f64,
    /// Where the sheets lie.
    pub sheets: Vec<PlacedSheet>,
    /// How far the ground runs past a card's edge, where no other card is in the way.
    pub bleed: f64,
    /// Pixels to the inch of the composed sheet.
    pub resolution_ppi: f64,
    /// The colour of the ground below the background picture.
    pub ground: [u8; 3],
    /// How all colours are shifted for the printer.
    pub correction: Correction,
}

/// What was printed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Printed {
    /// How many sheets lie on the page.
    pub sheets: usize,
    /// Whether there was room for a ruler of 100 mm beside them.
    pub has_ruler: bool,
}

/// The objects of the document.
struct Ids {
    catalog: Ref,
    pages: Ref,
    page: Ref,
    content: Ref,
    info: Ref,
    profile: Ref,
    image: Ref,
    mask: Ref,
    overprint: Ref,
    /// For each layer: itself, and the form with its lines.
    layers: [(Ref, Ref); 2],
}

impl Ids {
    fn new() -> Ids {
        let mut next = Ref::new(1);
        let mut id = || next.bump();
        Ids {
            catalog: id(),
            pages: id(),
            page: id(),
            content: id(),
            info: id(),
            profile: id(),
            image: id(),
            mask: id(),
            overprint: id(),
            layers: [(id(), id()), (id(), id())],
        }
    }
}

const IMAGE: Name<'static> = Name(b"Sheet");
const OVERPRINT: Name<'static> = Name(b"Overprint");

/// The width of cut lines in the print, in millimetres.
const LINE: f32 = 0.1;

/// The PDF of a page with sheets of a layout on it, and what is on it.
///
/// The page's TrimBox goes round all cards, its BleedBox past it by the bleed. The composed sheet is embedded once, at its
/// own resolution, in sRGB, and used for every card. The same layout gives the same bytes: there is no date in it.
pub fn write(
    layout: &Layout,
    plan: &CutPlan,
    pictures: &mut dyn Pictures,
    options: &PrintOptions,
    progress: &mut Progress<'_>,
) -> Result<(Vec<u8>, Printed), PressError> {
    let page = Rect::new(0.0, 0.0, options.page_width, options.page_height);
    let cards: Vec<Rect> = options.sheets.iter().map(|sheet| sheet.card(&layout.sheet)).collect();
    let Some(trimmed) = cards.iter().copied().reduce(|a, b| a.union(b)) else {
        return Err(PressError::Unwritten("there is no sheet on the page".to_owned()));
    };
    if !page.inflate(1e-6, 1e-6).contains_rect(trimmed) {
        return Err(PressError::SheetTooLarge {
            width: layout.sheet.width,
            height: layout.sheet.height,
            page_width: options.page_width,
            page_height: options.page_height,
            margin: 0.0,
            what: "the sheets as they are laid",
        });
    }
    let compose = ComposeOptions {
        resolution_ppi: options.resolution_ppi,
        bleed: options.bleed,
        ground: options.ground,
        correction: options.correction,
    };
    let picture = packed(layout, pictures, &compose, progress)?;
    let ids = Ids::new();
    let mut pdf = Pdf::new();
    let has_layers = options.profile == Profile::Shop;
    write_catalog(&mut pdf, &ids, has_layers);
    write_picture(&mut pdf, &ids, &picture);
    if has_layers {
        write_layers(&mut pdf, &ids, layout, plan);
    }
    let ruler_at = ruler_place(page, options.printer_margin, &cards);
    let mut content = Content::new();
    let areas = printed_areas(&cards, options.bleed, page);
    for (sheet, area) in options.sheets.iter().zip(areas) {
        paint_sheet(&mut content, layout, options, sheet, &area, &picture);
    }
    if has_layers {
        paint_layers(&mut content, layout, options);
    }
    if let Some(at) = ruler_at {
        content.save_state().transform(matrix(to_units(options.page_height)));
        ruler(&mut content, at);
        content.restore_state();
    }
    let bytes = packed_stream(&content.finish());
    pdf.stream(ids.content, &bytes).filter(Filter::FlateDecode);
    let boxes = [page, trimmed.inflate(options.bleed, options.bleed).intersect(page), trimmed];
    write_page(&mut pdf, &ids, options, boxes, has_layers);
    let mut info = pdf.document_info(ids.info);
    info.title(TextStr(&layout.name)).producer(TextStr("Stickleaf"));
    info.finish();
    Ok((pdf.finish(), Printed { sheets: options.sheets.len(), has_ruler: ruler_at.is_some() }))
}

pub(crate) fn packed_stream(bytes: &[u8]) -> Vec<u8> {
    miniz_oxide::deflate::compress_to_vec_zlib(bytes, 6)
}

fn write_catalog(pdf: &mut Pdf, ids: &Ids, has_layers: bool) {
    let profile = packed_stream(&icc::srgb());
    pdf.icc_profile(ids.profile, &profile).n(3).filter(Filter::FlateDecode);
    let mut catalog = pdf.catalog(ids.catalog);
    catalog.pages(ids.pages);
    if has_layers {
        let groups = ids.layers.map(|(group, _)| group);
        layers::list(catalog.insert(Name(b"OCProperties")).dict(), &groups);
    }
    let mut intents = catalog.output_intents();
    let mut intent = intents.push();
    intent.subtype(OutputIntentSubtype::PDFX);
    intent.output_condition_identifier(TextStr("sRGB"));
    intent.info(TextStr("sRGB, IEC 61966-2-1"));
    intent.dest_output_profile(ids.profile);
    intent.finish();
    intents.finish();
    catalog.finish();
    pdf.pages(ids.pages).kids([ids.page]).count(1);
}

fn write_picture(pdf: &mut Pdf, ids: &Ids, picture: &PackedPicture) {
    let (width, height) = (picture.frame.width_px as i32, picture.frame.height_px as i32);
    let mut image = pdf.image_xobject(ids.image, &picture.rgb);
    image.filter(Filter::FlateDecode);
    image.width(width).height(height).bits_per_component(8);
    image.color_space().icc_based(ids.profile);
    image.s_mask(ids.mask);
    image.finish();
    let mut mask = pdf.image_xobject(ids.mask, &picture.alpha);
    mask.filter(Filter::FlateDecode);
    mask.width(width).height(height).bits_per_component(8);
    mask.color_space().device_gray();
}

/// Writes the layers and, for each, a form with its lines in the sheet's millimetres.
fn write_layers(pdf: &mut Pdf, ids: &Ids, layout: &Layout, plan: &CutPlan) {
    let mut overprint = pdf.ext_graphics(ids.overprint);
    overprint.overprint(true).overprint_fill(true);
    overprint.overprint_mode(OverprintMode::IgnoreZeroChannel);
    overprint.finish();
    for (layer, (group, form)) in Layer::ALL.into_iter().zip(ids.layers) {
        layer.write(pdf, group);
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
        let mut object = pdf.form_xobject(form, &bytes);
        object.filter(Filter::FlateDecode);
        let (width, height) = (layout.sheet.width as f32, layout.sheet.height as f32);
        object.bbox(pdf_writer::Rect::new(-1.0, -1.0, width + 1.0, height + 1.0));
        let mut resources = object.resources();
        resources.ext_g_states().pair(OVERPRINT, ids.overprint);
        spot_colour(&mut resources, layer);
        resources.finish();
        object.finish();
    }
}

fn spot_colour(resources: &mut Resources<'_>, layer: Layer) {
    let mut spaces = resources.color_spaces();
    let mut spot = spaces
        .insert(layer.resource())
        .start::<pdf_writer::writers::ColorSpace<'_>>()
        .separation(layer.colorant());
    spot.alternate_color_space().device_cmyk();
    let mut tint = spot.tint_exponential();
    tint.domain([0.0, 1.0]).c0([0.0; 4]).c1(layer.shown_as()).n(1.0);
}

/// Paints the composed sheet where this card lies, as far as it may run past the edge.
fn paint_sheet(
    content: &mut Content,
    layout: &Layout,
    options: &PrintOptions,
    sheet: &PlacedSheet,
    area: &Rect,
    picture: &PackedPicture,
) {
    let units = to_units(options.page_height);
    content.save_state();
    content.transform(matrix(units));
    content.rect(area.x0 as f32, area.y0 as f32, area.width() as f32, area.height() as f32);
    content.clip_nonzero().end_path();
    // A picture fills the unit square, its foot at 0: pixels are exact parts of a millimetre.
    let frame = &picture.frame;
    let per_mm = frame.per_mm();
    let (width, height) = (f64::from(frame.width_px) / per_mm, f64::from(frame.height_px) / per_mm);
    let bleed = f64::from(frame.bleed_px) / per_mm;
    let fill = Affine::new([width, 0.0, 0.0, -height, -bleed, height - bleed]);
    content.transform(matrix(sheet.to_page(&layout.sheet) * fill));
    content.x_object(IMAGE);
    content.restore_state();
}

/// Paints the lines of every card, each depth within its layer.
fn paint_layers(content: &mut Content, layout: &Layout, options: &PrintOptions) {
    for layer in Layer::ALL {
        content.begin_marked_content_with_properties(Name(b"OC")).properties_named(layer.resource());
        for sheet in &options.sheets {
            content.save_state();
            content.transform(matrix(to_units(options.page_height) * sheet.to_page(&layout.sheet)));
            content.x_object(layer.resource());
            content.restore_state();
        }
        content.end_marked_content();
    }
}

fn write_page(pdf: &mut Pdf, ids: &Ids, options: &PrintOptions, boxes: [Rect; 3], has_layers: bool) {
    let units = |rect: Rect| {
        let y = |mm: f64| ((options.page_height - mm) * UNITS_PER_MM) as f32;
        let x = |mm: f64| (mm * UNITS_PER_MM) as f32;
        pdf_writer::Rect::new(x(rect.x0), y(rect.y1), x(rect.x1), y(rect.y0))
    };
    let [media, bleed, trim] = boxes.map(units);
    let mut page = pdf.page(ids.page);
    page.parent(ids.pages).contents(ids.content);
    page.media_box(media).crop_box(media).bleed_box(bleed).trim_box(trim);
    let mut resources = page.resources();
    let mut objects = resources.x_objects();
    objects.pair(IMAGE, ids.image);
    if has_layers {
        for (layer, (_, form)) in Layer::ALL.into_iter().zip(ids.layers) {
            objects.pair(layer.resource(), form);
        }
    }
    objects.finish();
    if has_layers {
        let mut properties = resources.insert(Name(b"Properties")).dict();
        for (layer, (group, _)) in Layer::ALL.into_iter().zip(ids.layers) {
            properties.pair(layer.resource(), group);
        }
    }
    resources.finish();
    page.finish();
}
