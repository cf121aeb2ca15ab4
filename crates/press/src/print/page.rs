//! A page of the document: the sheets on it, their lines in layers, and the ruler.

use kurbo::{Point, Rect};
use pdf_writer::{Content, Filter, Finish, Name, Pdf, Ref};
use stickleaf_sheet::Layout;

use crate::frame::Frame;
use crate::print::content::{matrix, ruler, ruler_place};
use crate::print::design::{DesignIds, DesignToPrint, fill};
use crate::print::document::{PrintOptions, packed_stream};
use crate::print::layers::Layer;
use crate::print::place::{UNITS_PER_MM, printed_areas, to_units};
use crate::sheet_on_page::SheetOnPage;
use crate::trouble::PressError;

/// A design as a page paints it.
pub(crate) struct Painted<'a> {
    pub(crate) layout: &'a Layout,
    pub(crate) frame: Frame,
    pub(crate) ids: &'a DesignIds,
}

/// The boxes of a page in its millimetres, and where its ruler lies, if there is room for one.
pub(crate) struct Bounds {
    cards: Vec<Rect>,
    page: Rect,
    bleed: Rect,
    trim: Rect,
    ruler: Option<Point>,
}

impl Bounds {
    /// Those of a page with these sheets of these designs.
    ///
    /// Errors: no sheet at all, or one that reaches past the page.
    pub(crate) fn new(
        sheets: &[SheetOnPage],
        designs: &[DesignToPrint<'_>],
        options: &PrintOptions,
    ) -> Result<Bounds, PressError> {
        let page = Rect::new(0.0, 0.0, options.page_width, options.page_height);
        let card = |sheet: &SheetOnPage| sheet.card(&designs[sheet.design].layout.sheet);
        let cards: Vec<Rect> = sheets.iter().map(card).collect();
        let Some(trim) = cards.iter().copied().reduce(|a, b| a.union(b)) else {
            return Err(PressError::Unwritten("there is no sheet on the page".to_owned()));
        };
        if let Some((sheet, _)) =
            sheets.iter().zip(&cards).find(|(_, card)| !page.inflate(1e-6, 1e-6).contains_rect(**card))
        {
            let size = &designs[sheet.design].layout.sheet;
            return Err(PressError::SheetTooLarge {
                width: size.width,
                height: size.height,
                page_width: options.page_width,
                page_height: options.page_height,
                margin: 0.0,
                what: "the sheets as they are laid",
            });
        }
        let bleed = trim.inflate(options.bleed, options.bleed).intersect(page);
        let ruler = ruler_place(page, options.printer_margin, &cards);
        Ok(Bounds { cards, page, bleed, trim, ruler })
    }

    /// Whether there is room for a ruler.
    pub(crate) fn has_ruler(&self) -> bool {
        self.ruler.is_some()
    }
}

/// The numbers of what a page refers to.
pub(crate) struct PageIds<'a> {
    /// The page itself.
    pub(crate) page: Ref,
    /// What is painted on it.
    pub(crate) content: Ref,
    /// All pages.
    pub(crate) pages: Ref,
    /// The layers of cut lines, if there are any.
    pub(crate) groups: Option<&'a [Ref; 2]>,
}

/// Writes a page. Its TrimBox goes round all cards, its BleedBox past it by the bleed.
pub(crate) fn write_page(
    pdf: &mut Pdf,
    ids: &PageIds<'_>,
    sheets: &[SheetOnPage],
    bounds: &Bounds,
    designs: &[Painted<'_>],
    options: &PrintOptions,
) {
    let has_layers = ids.groups.is_some();
    let bytes = packed_stream(&content(sheets, designs, has_layers, options, bounds));
    pdf.stream(ids.content, &bytes).filter(Filter::FlateDecode);
    let units = |rect: Rect| {
        let y = |mm: f64| ((options.page_height - mm) * UNITS_PER_MM) as f32;
        let x = |mm: f64| (mm * UNITS_PER_MM) as f32;
        pdf_writer::Rect::new(x(rect.x0), y(rect.y1), x(rect.x1), y(rect.y0))
    };
    let [media, bleed, trim] = [bounds.page, bounds.bleed, bounds.trim].map(units);
    let mut page = pdf.page(ids.page);
    page.parent(ids.pages).contents(ids.content);
    page.media_box(media).crop_box(media).bleed_box(bleed).trim_box(trim);
    let mut resources = page.resources();
    let mut objects = resources.x_objects();
    let is_here = |index: usize| sheets.iter().any(|sheet| sheet.design == index);
    for (_, design) in designs.iter().enumerate().filter(|&(index, _)| is_here(index)) {
        for (name, id) in design.ids.objects(has_layers) {
            objects.pair(name, id);
        }
    }
    objects.finish();
    if let Some(groups) = ids.groups {
        let mut properties = resources.insert(Name(b"Properties")).dict();
        for layer in Layer::ALL {
            properties.pair(layer.resource(), groups[layer.index()]);
        }
    }
    resources.finish();
    page.finish();
}

fn content(
    sheets: &[SheetOnPage],
    designs: &[Painted<'_>],
    has_layers: bool,
    options: &PrintOptions,
    bounds: &Bounds,
) -> Vec<u8> {
    let mut content = Content::new();
    let units = to_units(options.page_height);
    for (sheet, area) in sheets.iter().zip(printed_areas(&bounds.cards, options.bleed, bounds.page)) {
        let Painted { layout, frame, ids } = &designs[sheet.design];
        content.save_state();
        content.transform(matrix(units));
        content.rect(area.x0 as f32, area.y0 as f32, area.width() as f32, area.height() as f32);
        content.clip_nonzero().end_path();
        content.transform(matrix(sheet.to_page(&layout.sheet) * fill(frame)));
        content.x_object(ids.picture());
        content.restore_state();
    }
    // The lines of every card, each depth within its layer.
    for layer in Layer::ALL.into_iter().filter(|_| has_layers) {
        content.begin_marked_content_with_properties(Name(b"OC")).properties_named(layer.resource());
        for sheet in sheets {
            let Painted { layout, ids, .. } = &designs[sheet.design];
            content.save_state();
            content.transform(matrix(units * sheet.to_page(&layout.sheet)));
            content.x_object(ids.lines(layer));
            content.restore_state();
        }
        content.end_marked_content();
    }
    if let Some(at) = bounds.ruler {
        content.save_state().transform(matrix(units));
        ruler(&mut content, at);
        content.restore_state();
    }
    content.finish().to_vec()
}
