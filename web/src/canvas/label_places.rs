//! Where labels go, so that none covers another one.

use kurbo::{Point, Rect, Size, Vec2};

/// How near a label may come to the canvas's edge, in pixels.
const EDGE_PX: f64 = 6.0;

/// Room between a point and its label, in pixels.
const AWAY_PX: f64 = 12.0;

/// How far a label may go from its point, in times of the nearest place.
const TIMES: [f64; 5] = [1.0, 1.8, 2.6, 3.4, 4.2];

/// The places that labels have taken so far.
pub struct Places {
    room: Rect,
    marks: Vec<Rect>,
    taken: Vec<Rect>,
}

impl Places {
    /// None taken, on a canvas of this size. Labels keep away from the marks where they can.
    pub fn new(canvas: Size, marks: Vec<Rect>) -> Places {
        Places { room: canvas.to_rect().inset(-EDGE_PX), marks, taken: Vec::new() }
    }

    /// Takes a place for a label near a point, on the canvas and free of all labels: the first that is free of marks too,
    /// near before far and on the side `side` before the others; else the first that is not. Nothing if there is none.
    pub fn take(&mut self, size: Size, near: Point, side: Vec2) -> Option<Rect> {
        let other = Vec2::new(-side.y, side.x);
        let ways = [side, -side, other, -other, side + other, side - other, other - side, -side - other];
        let away = |way: Vec2| size.width / 2.0 * way.x.abs() + size.height / 2.0 * way.y.abs() + AWAY_PX;
        let tries = TIMES.into_iter().flat_map(|times| ways.map(|way| near + way * (away(way) * times)));
        let is_free =
            |place: &Rect, of: &[Rect]| of.iter().all(|taken| taken.intersect(*place).is_zero_area());
        let places: Vec<Rect> = tries
            .map(|middle| self.on_canvas(middle, size))
            .filter(|place| is_free(place, &self.taken))
            .collect();
        let place = places.iter().find(|place| is_free(place, &self.marks)).or(places.first()).copied()?;
        self.taken.push(place);
        Some(place)
    }

    /// A label with its middle as near to this point as the canvas lets it.
    fn on_canvas(&self, middle: Point, size: Size) -> Rect {
        let kept =
            |at: f64, low: f64, high: f64, half: f64| at.clamp(low + half, (high - half).max(low + half));
        let x = kept(middle.x, self.room.x0, self.room.x1, size.width / 2.0);
        let y = kept(middle.y, self.room.y0, self.room.y1, size.height / 2.0);
        Rect::from_center_size((x, y), size)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const UP: Vec2 = Vec2::new(0.0, -1.0);
    const LABEL: Size = Size::new(150.0, 24.0);
    const NARROW: Size = Size::new(390.0, 500.0);

    fn apart(places: &[Rect]) -> bool {
        places.iter().enumerate().all(|(i, a)| places[..i].iter().all(|b| a.intersect(*b).is_zero_area()))
    }

    #[test]
    fn a_label_goes_to_its_own_side_first() {
        let mut places = Places::new(NARROW, vec![]);
        let place = places.take(LABEL, Point::new(200.0, 200.0), UP).unwrap();
        assert_eq!((place.center(), place.y1), (Point::new(200.0, 176.0), 188.0));
    }

    #[test]
    fn six_labels_at_one_piece_of_a_narrow_page_do_not_overlap() {
        for (x, y) in [(195.0, 250.0), (8.0, 8.0), (382.0, 250.0), (200.0, 495.0)] {
            let near = |i: u32| Point::new(x + f64::from(i % 3) * 4.0, y - f64::from(i / 3) * 5.0);
            let marks = (0..6).map(|i| Rect::from_center_size(near(i), (22.0, 22.0))).collect();
            let mut places = Places::new(NARROW, marks);
            let taken: Vec<Rect> = (0..6).filter_map(|i| places.take(LABEL, near(i), UP)).collect();
            assert_eq!(taken.len(), 6, "at {x}, {y}");
            assert!(apart(&taken), "{taken:?}");
            let room = NARROW.to_rect().inset(-EDGE_PX);
            assert!(taken.iter().all(|place| room.contains_rect(*place)), "{taken:?}");
        }
    }

    #[test]
    fn what_has_no_room_is_left_out() {
        let mut places = Places::new(Size::new(170.0, 64.0), vec![]);
        let taken: Vec<Rect> =
            (0..6).filter_map(|_| places.take(LABEL, Point::new(80.0, 30.0), UP)).collect();
        assert!((1..=2).contains(&taken.len()) && apart(&taken), "{taken:?}");
    }

    #[test]
    fn a_mark_is_covered_only_where_there_is_no_other_place() {
        let mark = Rect::new(0.0, 0.0, 170.0, 64.0);
        let mut places = Places::new(Size::new(170.0, 64.0), vec![mark]);
        assert!(places.take(LABEL, Point::new(80.0, 30.0), UP).is_some());
        let mut places = Places::new(NARROW, vec![Rect::new(100.0, 0.0, 300.0, 200.0)]);
        let place = places.take(LABEL, Point::new(200.0, 200.0), UP).unwrap();
        assert!(place.y0 >= 200.0, "{place:?}");
    }
}
