//! A little further than the start, so that the loop closes although the blade trails behind.

use kurbo::{BezPath, ParamCurve, ParamCurveArclen, PathEl, PathSeg};

/// How nearly lengths are measured, in millimetres.
const LENGTH_WITHIN: f64 = 1e-4;

/// The closed path gone on along itself for so many millimetres, at most once round; for 0 as it is.
pub(crate) fn overrun(path: &BezPath, millimetres: f64) -> BezPath {
    let mut longer = path.clone();
    let mut left = millimetres;
    for segment in path.segments() {
        if left <= LENGTH_WITHIN {
            break;
        }
        let length = segment.arclen(LENGTH_WITHIN);
        let piece = if length <= left {
            segment
        } else {
            segment.subsegment(0.0..segment.inv_arclen(left, LENGTH_WITHIN))
        };
        left -= length;
        longer.push(match piece {
            PathSeg::Line(line) => PathEl::LineTo(line.p1),
            PathSeg::Quad(quad) => PathEl::QuadTo(quad.p1, quad.p2),
            PathSeg::Cubic(cubic) => PathEl::CurveTo(cubic.p1, cubic.p2, cubic.p3),
        });
    }
    longer
}

#[cfg(test)]
mod tests {
    use kurbo::Shape;

    use super::*;

    #[test]
    fn the_line_goes_on_along_itself() {
        let square = BezPath::from_svg("M0 0L10 0L10 10L0 10L0 0").unwrap();
        assert_eq!(overrun(&square, 0.0), square);
        assert_eq!(overrun(&square, 1.5).elements().last(), Some(&PathEl::LineTo((1.5, 0.0).into())));
        assert!((overrun(&square, 12.5).perimeter(1e-6) - 52.5).abs() < 1e-3);
        assert!((overrun(&square, 400.0).perimeter(1e-6) - 80.0).abs() < 1e-9);
    }
}
