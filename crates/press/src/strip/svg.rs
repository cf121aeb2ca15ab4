//! The strip as SVG at true size, one user unit to the millimetre.

use std::fmt::Write as _;

use crate::cut::number;
use crate::strip::Strip;

impl Strip {
    /// The strip as SVG. Patches carry their names as titles.
    pub fn svg(&self) -> String {
        let (width, height) = (number(self.width), number(self.height));
        let mut svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" \
             viewBox=\"0 0 {width} {height}\">\n  <rect width=\"{width}\" height=\"{height}\" fill=\"#FFFFFF\"/>\n"
        );
        // Without soft edges no paper shines through between patches.
        svg.push_str("  <g shape-rendering=\"crispEdges\">\n");
        // Writing to a String cannot fail.
        for patch in &self.patches {
            let [red, green, blue] = patch.rgb;
            let (area, name) = (patch.area, patch.name);
            let (x, y, width, height) =
                (number(area.x0), number(area.y0), number(area.width()), number(area.height()));
            let _ = writeln!(
                svg,
                "    <rect x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\" \
                 fill=\"#{red:02X}{green:02X}{blue:02X}\"><title>{name}</title></rect>"
            );
        }
        svg.push_str(
            "  </g>\n  <g fill=\"none\" stroke=\"#000000\" stroke-width=\"0.3\" stroke-linecap=\"round\">\n",
        );
        for strokes in &self.numbers {
            let _ = writeln!(svg, "    <path d=\"{}\"/>", strokes.to_svg());
        }
        svg.push_str("  </g>\n</svg>\n");
        svg
    }
}
