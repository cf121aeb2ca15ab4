//! The document: pages, the sheets on them, and all that the pages refer to.

use pdf_writer::types::OutputIntentSubtype;
use pdf_writer::{Filter, Finish, Name, Pdf, Ref, TextStr};

use crate::compose::ComposeOptions;
use crate::print::design::{DesignIds, DesignToPrint, write_overprint};
use crate::print::icc;
use crate::print::layers::{self, Layer};
use crate::print::page::{Bounds, PageIds, Painted, write_page};
use crate::print::picture::packed;
use crate::progress::Progress;
use crate::sheet_on_page::SheetOnPage;
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
    /// How far the ground runs past a card's edge, where no other card is in the way.
    pub bleed: f64,
    /// The colour of the ground below the background picture.
    pub ground: [u8; 3],
}

/// What was printed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Printed {
    /// How many sheets lie on all pages.
    pub sheets: usize,
    /// Whether there was room for a ruler of 100 mm beside them, on every page.
    pub has_ruler: bool,
}

/// The PDF of pages with sheets of designs on them, and what is on it. Each sheet's design is one of them, and the first one gives the
/// PDF its title.
///
/// Each page's TrimBox goes round all its cards, its BleedBox past it by the bleed. The composed sheet of a design is embedded once,
/// at its own resolution, in sRGB, and used for every card. The same layouts give the same bytes: there is no date in it.
///
/// Errors: a page without a sheet, a sheet that reaches past its page, a picture that is missing or cannot be read, a stop.
pub fn write(
    designs: &mut [DesignToPrint<'_>],
    pages: &[Vec<SheetOnPage>],
    options: &PrintOptions,
    progress: &mut Progress<'_>,
) -> Result<(Vec<u8>, Printed), PressError> {
    let bounds: Vec<Bounds> =
        pages.iter().map(|sheets| Bounds::new(sheets, designs, options)).collect::<Result<_, _>>()?;
    let mut next = Ref::new(1);
    let mut id = || next.bump();
    let (catalog, tree, info, profile, overprint) = (id(), id(), id(), id(), id());
    let groups = Layer::ALL.map(|_| id());
    let groups = (options.profile == Profile::Shop).then_some(&groups);
    let page_ids: Vec<(Ref, Ref)> = pages.iter().map(|_| (id(), id())).collect();
    let design_ids: Vec<DesignIds> = (0..designs.len()).map(|index| DesignIds::new(index, &mut id)).collect();
    let mut pdf = Pdf::new();
    write_catalog(&mut pdf, catalog, tree, profile, groups);
    pdf.pages(tree).kids(page_ids.iter().map(|ids| ids.0)).count(page_ids.len() as i32);
    if let Some(groups) = groups {
        write_overprint(&mut pdf, overprint);
        for (layer, &group) in Layer::ALL.into_iter().zip(groups) {
            layer.write(&mut pdf, group);
        }
    }
    let count = designs.len();
    let mut painted = Vec::with_capacity(count);
    for ((index, design), ids) in designs.iter_mut().enumerate().zip(&design_ids) {
        let mut tell = |share: f64| progress.tell((index as f64 + share) / count as f64).is_ok();
        let compose = ComposeOptions {
            resolution_ppi: design.resolution_ppi,
            bleed: options.bleed,
            ground: options.ground,
            correction: design.correction,
        };
        let picture = packed(design.layout, design.pictures, &compose, &mut Progress::new(&mut tell))?;
        ids.write_picture(&mut pdf, profile, &picture);
        if groups.is_some() {
            ids.write_lines(&mut pdf, overprint, design.layout, design.plan);
        }
        painted.push(Painted { layout: design.layout, frame: picture.frame, ids });
    }
    for ((sheets, bounds), &(page, content)) in pages.iter().zip(&bounds).zip(&page_ids) {
        let ids = PageIds { page, content, pages: tree, groups };
        write_page(&mut pdf, &ids, sheets, bounds, &painted, options);
    }
    let title = painted.first().map_or("", |design| &design.layout.name);
    let mut about = pdf.document_info(info);
    about.title(TextStr(title)).producer(TextStr("Stickleaf"));
    about.finish();
    let has_ruler = bounds.iter().all(Bounds::has_ruler);
    Ok((pdf.finish(), Printed { sheets: pages.iter().map(Vec::len).sum(), has_ruler }))
}

pub(crate) fn packed_stream(bytes: &[u8]) -> Vec<u8> {
    miniz_oxide::deflate::compress_to_vec_zlib(bytes, 6)
}

fn write_catalog(pdf: &mut Pdf, id: Ref, pages: Ref, profile: Ref, groups: Option<&[Ref; 2]>) {
    let bytes = packed_stream(&icc::srgb());
    pdf.icc_profile(profile, &bytes).n(3).filter(Filter::FlateDecode);
    let mut catalog = pdf.catalog(id);
    catalog.pages(pages);
    if let Some(groups) = groups {
        layers::list(catalog.insert(Name(b"OCProperties")).dict(), groups);
    }
    let mut intents = catalog.output_intents();
    let mut intent = intents.push();
    intent.subtype(OutputIntentSubtype::PDFX);
    intent.output_condition_identifier(TextStr("sRGB"));
    intent.info(TextStr("sRGB, IEC 61966-2-1"));
    intent.dest_output_profile(profile);
    intent.finish();
    intents.finish();
    catalog.finish();
}
