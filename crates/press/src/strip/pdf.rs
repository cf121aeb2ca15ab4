//! The strip as PDF: a page of its size, patches as vectors in sRGB.

use pdf_writer::types::LineCapStyle;
use pdf_writer::{Content, Filter, Finish, Name, Pdf, Rect, Ref, TextStr};

use crate::print::{UNITS_PER_MM, matrix, packed_stream, path, srgb_profile, to_units};
use crate::strip::Strip;

const SRGB: Name<'static> = Name(b"sRGB");

impl Strip {
    /// The strip as PDF. The same strip gives the same bytes.
    pub fn pdf(&self) -> Vec<u8> {
        let [catalog, pages, page_id, content_id, profile, info] = [1, 2, 3, 4, 5, 6].map(Ref::new);
        let mut pdf = Pdf::new();
        pdf.catalog(catalog).pages(pages);
        pdf.pages(pages).kids([page_id]).count(1);
        pdf.icc_profile(profile, &packed_stream(&srgb_profile())).n(3).filter(Filter::FlateDecode);
        let size = [self.width, self.height].map(|mm| (mm * UNITS_PER_MM) as f32);
        let mut page = pdf.page(page_id);
        page.parent(pages).contents(content_id).media_box(Rect::new(0.0, 0.0, size[0], size[1]));
        page.resources()
            .color_spaces()
            .insert(SRGB)
            .start::<pdf_writer::writers::ColorSpace<'_>>()
            .icc_based(profile);
        page.finish();
        pdf.stream(content_id, &packed_stream(&self.content())).filter(Filter::FlateDecode);
        pdf.document_info(info).title(TextStr("Colour strip")).producer(TextStr("Stickleaf"));
        pdf.finish()
    }

    fn content(&self) -> Vec<u8> {
        let mut content = Content::new();
        content.transform(matrix(to_units(self.height)));
        content.set_fill_color_space(SRGB);
        for patch in &self.patches {
            let area = patch.area;
            content.set_fill_color(patch.rgb.map(|value| f32::from(value) / 255.0));
            content.rect(area.x0 as f32, area.y0 as f32, area.width() as f32, area.height() as f32);
            content.fill_nonzero();
        }
        content.set_stroke_gray(0.0).set_line_width(0.3).set_line_cap(LineCapStyle::RoundCap);
        for strokes in &self.numbers {
            path(&mut content, strokes);
            content.stroke();
        }
        content.finish().to_vec()
    }
}
