//! How much room there is about every point of a square grid.

use kurbo::{Point, Rect};
use stickleaf_outline::Outline;

use super::obstacles::Obstacles;
use crate::layout::Layout;

/// The room about the points of a square grid over a part of the sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct RoomChart {
    /// The grid's first point, in sheet millimetres.
    pub origin: Point,
    /// The distance of neighbours in a row or column, in millimetres.
    pub step: f64,
    /// Points in a row.
    pub columns: usize,
    /// Rows.
    pub rows: usize,
    /// The room at each point, row by row; negative where there is none.
    pub values: Vec<f32>,
}

/// A part of the grid is no longer split when so few points are in a row of it.
const FEW: usize = 6;

/// The room about the points of a grid with this step over a part of the sheet. The placed cut lines are given.
///
/// Inside a piece or a zone it is minus what a point would have to move to have some. Cost: some dozen distances a point.
/// An empty chart comes back for a part without an area or a step that is not above zero.
pub fn room_chart(layout: &Layout, lines: &[Outline], part: Rect, step: f64) -> RoomChart {
    let count = |length: f64| (length / step).ceil() as usize + 1;
    if !(part.width() > 0.0 && part.height() > 0.0 && step > 0.0) {
        return RoomChart { origin: part.origin(), step, columns: 0, rows: 0, values: Vec::new() };
    }
    let (columns, rows) = (count(part.width()), count(part.height()));
    let mut chart = RoomChart {
        origin: part.origin(),
        step,
        columns,
        rows,
        values: vec![f32::NEG_INFINITY; columns * rows],
    };
    let obstacles = Obstacles::new(layout, lines);
    let all: Vec<u32> = (0..obstacles.list.len() as u32).collect();
    fill(&mut chart, &obstacles, (0, columns), (0, rows), &all);
    chart
}

/// Fills in a part of the grid; the obstacles that can matter to it are `among`.
fn fill(
    chart: &mut RoomChart,
    obstacles: &Obstacles,
    (left, right): (usize, usize),
    (top, bottom): (usize, usize),
    among: &[u32],
) {
    if left >= right || top >= bottom {
        return;
    }
    let place = |column: usize, row: usize| {
        Point::new(chart.origin.x + column as f64 * chart.step, chart.origin.y + row as f64 * chart.step)
    };
    let (first, last) = (place(left, top), place(right - 1, bottom - 1));
    let middle = first.midpoint(last);
    let reach = (last - first).hypot2().sqrt() / 2.0;
    let distances: Vec<f64> =
        among.iter().map(|&index| obstacles.list[index as usize].distance(middle)).collect();
    let room = |(&index, &distance): (&u32, &f64)| obstacles.list[index as usize].room_at(distance);
    let limit = among.iter().zip(&distances).map(room).fold(f64::INFINITY, f64::min) + 2.0 * reach;
    let near: Vec<u32> =
        among.iter().zip(&distances).filter(|&each| room(each) <= limit).map(|(&index, _)| index).collect();
    if right - left > FEW || bottom - top > FEW {
        let (across, down) = (left.midpoint(right), top.midpoint(bottom));
        for columns in [(left, across), (across, right)] {
            for rows in [(top, down), (down, bottom)] {
                fill(chart, obstacles, columns, rows, &near);
            }
        }
        return;
    }
    // Where no line runs through, all points lie in something or none does.
    let is_cut = distances.iter().any(|&distance| distance <= reach);
    let is_middle_covered = !is_cut && obstacles.is_covered(middle);
    for row in top..bottom {
        for column in left..right {
            let point = place(column, row);
            let to_edge = obstacles.room_to_edge(point);
            let list = near.iter().map(|&index| &obstacles.list[index as usize]);
            let room = if is_middle_covered || (is_cut && obstacles.is_covered(point)) {
                let inside = list.map(|obstacle| obstacle.room_inside(point));
                to_edge.min(inside.fold(f64::NEG_INFINITY, f64::max))
            } else {
                list.map(|obstacle| obstacle.room(point)).fold(to_edge, f64::min)
            };
            chart.values[row * chart.columns + column] = room as f32;
        }
    }
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, shapes};

    use super::*;
    use crate::{Piece, Rules, Sticker, placed_cut_lines};

    #[test]
    fn the_chart_says_what_the_obstacles_say() {
        let mut layout = Layout {
            rules: Rules { border: 0.0, ..Rules::default() },
            stickers: vec![Sticker::new("s", "S", shapes::star(5, 12.0, 5.0))],
            ..Layout::default()
        };
        layout.pieces = [(30.0, 40.0), (62.0, 50.0), (40.0, 90.0)]
            .map(|(x, y)| Piece::new("s".into(), Placement::turned(x, y, x)))
            .to_vec();
        let lines = placed_cut_lines(&layout);
        let chart = room_chart(&layout, &lines, Rect::new(-3.0, 10.0, 80.0, 101.0), 0.7);
        assert_eq!(chart.values.len(), chart.columns * chart.rows);
        let obstacles = Obstacles::new(&layout, &lines);
        let mut covered = 0;
        for row in 0..chart.rows {
            for column in 0..chart.columns {
                let point = chart.origin + kurbo::Vec2::new(column as f64, row as f64) * chart.step;
                let value = f64::from(chart.values[row * chart.columns + column]);
                if obstacles.is_covered(point) {
                    covered += 1;
                    assert!(value <= -2.0, "{value} at {point:?}");
                } else {
                    assert!((value - obstacles.room(point)).abs() < 1e-4, "{value} at {point:?}");
                }
            }
        }
        assert!(covered > 500, "{covered}");
        assert!(room_chart(&layout, &lines, Rect::ZERO, 0.7).values.is_empty());
    }
}
