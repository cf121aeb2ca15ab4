//! The composed sheet against tiny-skia, which knows nothing of it but where the lines and the pictures lie.

use kurbo::{Point, Shape};
use resvg::tiny_skia::{
    Color, FillRule, FilterQuality, Mask, Paint, Path, PathBuilder, Pixmap, PixmapPaint,
    PremultipliedColorU8, Transform,
};
use stickleaf_outline::Placement;
use stickleaf_press::Pixels;
use stickleaf_sheet::{Layout, placed_cut_lines};

use crate::pictures::{Grey, difference};
use crate::sheets::{Drawn, composed_png, sample};

const RESOLUTION_PPI: f64 = 300.0;

/// The most that the two may differ by, in levels of 255 of light: in the mean, and in the mean of any square of 5 x 5 pixels.
///
/// Both mix light and not stored values, so what is left is that between pixels each looks them up with a filter of its
/// own. An edge between black and white that lay half a pixel off, 0.04 mm, would show as 25 levels in a square that it runs
/// through.
const MEAN: f64 = 1.0;
const SQUARE: f64 = 24.0;

#[test]
fn sample_sheets_look_as_another_renderer_paints_them() {
    for file in ["title-and-corners.json", "plain.json"] {
        let (layout, mut drawn) = sample(file, RESOLUTION_PPI);
        let theirs = painted(&layout, &drawn);
        let (mean, square) = difference(&composed(&layout, &mut drawn), &theirs);
        println!("{file}: {mean:.3} levels in the mean, {square:.1} in the worst square");
        assert!(mean <= MEAN, "{file}: {mean} levels in the mean");
        assert!(square <= SQUARE, "{file}: {square} levels in the worst square");
    }
}

fn composed(layout: &Layout, drawn: &mut Drawn) -> Grey {
    Grey::of_values(&composed_png(layout, drawn, RESOLUTION_PPI), light)
}

/// The light of a stored value of sRGB, both 0 to 255. Source: IEC 61966-2-1.
fn light(stored: u8) -> u8 {
    let value = f64::from(stored) / 255.0;
    let light = if value <= 0.04045 { value / 12.92 } else { libm::pow((value + 0.055) / 1.055, 2.4) };
    (light * 255.0).round() as u8
}

/// The same sheet painted by tiny-skia in light: ground, then for each piece its white cut line and its art within.
fn painted(layout: &Layout, drawn: &Drawn) -> Grey {
    let per_mm = RESOLUTION_PPI / 25.4;
    let (width, height) = layout.sheet.pixels(RESOLUTION_PPI);
    let mut canvas = Pixmap::new(width, height).expect("a canvas");
    canvas.fill(Color::WHITE);
    let to_pixels = Transform::from_scale(per_mm as f32, per_mm as f32);
    let style = layout.background.as_ref();
    let background = layout.backgrounds.iter().find(|background| Some(&background.name) == style);
    if let Some(file) = background.and_then(|background| background.picture.as_ref()) {
        let paint = PixmapPaint::default();
        canvas.draw_pixmap(0, 0, pixmap(&drawn.0[file]).as_ref(), &paint, Transform::identity(), None);
    }
    for (piece, line) in layout.pieces.iter().zip(placed_cut_lines(layout)) {
        let line = closed(line.points());
        let mut white = Paint::default();
        white.set_color(Color::WHITE);
        white.anti_alias = true;
        canvas.fill_path(&line, &white, FillRule::Winding, to_pixels, None);
        let art = layout.sticker(&piece.sticker).and_then(|sticker| sticker.art.as_ref()).expect("art");
        let mut within = Mask::new(width, height).expect("a mask");
        within.fill_path(&line, FillRule::Winding, true, to_pixels);
        let way = turn(&piece.placement, per_mm)
            .pre_translate((art.at.x * per_mm) as f32, (art.at.y * per_mm) as f32);
        let paint = PixmapPaint { quality: FilterQuality::Bicubic, ..PixmapPaint::default() };
        canvas.draw_pixmap(0, 0, pixmap(&drawn.0[&art.file]).as_ref(), &paint, way, Some(&within));
    }
    let mut card = Mask::new(width, height).expect("a mask");
    let edge = layout.sheet.bounds().to_rounded_rect(layout.sheet.corner_radius);
    let mut edge_points = Vec::new();
    kurbo::flatten(edge.path_elements(0.001), 0.001, |element| edge_points.extend(element.end_point()));
    card.fill_path(&closed(&edge_points), FillRule::Winding, true, to_pixels);
    canvas.apply_mask(&card);
    Grey::read(&canvas.encode_png().expect("a PNG"))
}

/// The way from a sticker's own pixels to the sheet's: turned clockwise as seen, y down, then moved.
///
/// By a ten thousandth of a degree more than it is, too little to see: what is not turned tiny-skia puts on whole pixels.
fn turn(placement: &Placement, per_mm: f64) -> Transform {
    let (sine, cosine) = libm::sincos((placement.turn.to_degrees() + 1e-4).to_radians());
    let flip = if placement.mirrored { -1.0 } else { 1.0 };
    Transform::from_row(
        (flip * cosine) as f32,
        (flip * sine) as f32,
        -sine as f32,
        cosine as f32,
        (placement.at.x * per_mm) as f32,
        (placement.at.y * per_mm) as f32,
    )
}

fn closed(points: &[Point]) -> Path {
    let mut path = PathBuilder::new();
    path.move_to(points[0].x as f32, points[0].y as f32);
    for point in &points[1..] {
        path.line_to(point.x as f32, point.y as f32);
    }
    path.close();
    path.finish().expect("a path")
}

fn pixmap(pixels: &Pixels) -> Pixmap {
    let mut pixmap = Pixmap::new(pixels.width_px, pixels.height_px).expect("a picture");
    for (to, from) in pixmap.pixels_mut().iter_mut().zip(pixels.rgba.chunks_exact(4)) {
        let part = |value: u8| ((u32::from(light(value)) * u32::from(from[3]) + 127) / 255) as u8;
        *to = PremultipliedColorU8::from_rgba(part(from[0]), part(from[1]), part(from[2]), from[3])
            .expect("premultiplied");
    }
    pixmap
}
