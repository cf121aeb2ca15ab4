//! Zones under the hand: chosen, moved, sized, removed, duplicated.
//!
//! A zone is chosen like a piece, and only a chosen one follows the hand: what lies under a finger by chance stays where
//! it is. It is held anywhere for a move, and by its corners and sides to be sized.

use kurbo::{Point, Rect, Vec2};
use stickleaf_outline::depth;
use stickleaf_sheet::{Layout, Sheet, Zone};

use crate::editor::{Editor, Nudged};
use crate::input::Key;
use crate::label::{Label, ZoneWork};
use crate::view::View;

/// A zone is never made smaller than this by hand, in millimetres.
const SMALLEST: f64 = 2.0;

/// Nearer to the card's edge than this a zone under the hand goes right to it, in pixels.
const EDGE_PX: f64 = 8.0;

/// How far outside the zone its handles stand, in pixels, so that a small one can still be held in its middle.
const HANDLE_AWAY_PX: f64 = 12.0;

/// How near to the canvas's edge a handle may stand, in pixels.
const HANDLE_ROOM_PX: f64 = 22.0;

/// A side shorter than this has handles at its ends only, in pixels.
const SIDE_PX: f64 = 110.0;

/// By what a zone is held: which of its sides follow the hand.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct ZoneGrip {
    /// -1 for the left side, 1 for the right one, 0 for neither.
    pub across: i8,
    /// -1 for the upper side, 1 for the lower one, 0 for neither.
    pub down: i8,
}

impl ZoneGrip {
    /// All of it.
    pub const WHOLE: ZoneGrip = ZoneGrip { across: 0, down: 0 };

    /// Whether the whole zone is moved.
    pub fn is_whole(self) -> bool {
        self == ZoneGrip::WHOLE
    }
}

/// A handle by which the chosen zone is sized.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ZoneHandle {
    /// Which sides it carries.
    pub grip: ZoneGrip,
    /// Its middle, in pixels of the canvas.
    pub at: Point,
}

/// The zone in the hand, and the layout as it was before.
#[derive(Clone, Debug)]
pub(crate) struct HeldZone {
    before: Layout,
    zone: usize,
    grip: ZoneGrip,
}

/// The zone in which the point lies, else the nearest within `slop` millimetres; the chosen one first, then the last drawn.
pub(crate) fn zone_at(layout: &Layout, chosen: Option<usize>, point: Point, slop: f64) -> Option<usize> {
    let zones = layout.zones();
    let on = |zone: &usize| zones[*zone].outline.contains(point);
    let near = |zone: &usize| {
        let outline = &zones[*zone].outline;
        outline.bounds().inflate(slop, slop).contains(point) && -depth(outline, point) <= slop
    };
    let order = || chosen.into_iter().chain((0..zones.len()).rev());
    order().find(on).or_else(|| order().find(near))
}

/// The handles of a zone: at its corners, and at the middle of sides that are long enough on the canvas.
///
/// They stand a little outside its bounds; where the canvas ends there, at the edge of the canvas.
pub(crate) fn zone_handles(zone: &Zone, view: &View) -> Vec<ZoneHandle> {
    let bounds = zone.outline.bounds();
    let seen =
        Rect::from_points(view.to_canvas(bounds.origin()), view.to_canvas(Point::new(bounds.x1, bounds.y1)));
    let room = view.canvas.to_rect().inset(-HANDLE_ROOM_PX);
    let stand = seen.inflate(HANDLE_AWAY_PX, HANDLE_AWAY_PX).intersect(room);
    if seen.intersect(view.canvas.to_rect()).is_zero_area() || stand.is_zero_area() {
        return Vec::new();
    }
    let mut handles = Vec::with_capacity(8);
    for down in -1..=1_i8 {
        for across in -1..=1_i8 {
            let is_side = (across == 0) != (down == 0);
            let side_px = if across == 0 { stand.width() } else { stand.height() };
            if (across, down) == (0, 0) || (is_side && side_px < SIDE_PX) {
                continue;
            }
            let middle = stand.center();
            let at = Point::new(
                middle.x + f64::from(across) * stand.width() / 2.0,
                middle.y + f64::from(down) * stand.height() / 2.0,
            );
            handles.push(ZoneHandle { grip: ZoneGrip { across, down }, at });
        }
    }
    handles
}

/// The handle nearest to a pixel, if one is within reach.
pub(crate) fn handle_at(handles: &[ZoneHandle], pixel: Point, reach_px: f64) -> Option<ZoneGrip> {
    let away = |handle: &ZoneHandle| (handle.at - pixel).hypot2();
    let within = handles.iter().filter(|handle| away(handle) <= reach_px * reach_px);
    within.min_by(|a, b| away(a).total_cmp(&away(b))).map(|handle| handle.grip)
}

/// Where bounds come to lie whose grip was carried this far; `reach` millimetres from the card's edge they go right to it.
///
/// Sides that are carried lie on whole tenths of a millimetre.
fn carried(bounds: Rect, grip: ZoneGrip, travel: Vec2, sheet: &Sheet, reach: f64) -> Rect {
    let (x0, x1) =
        carried_sides((bounds.x0, bounds.x1), grip.across, grip.is_whole(), travel.x, sheet.width, reach);
    let (y0, y1) =
        carried_sides((bounds.y0, bounds.y1), grip.down, grip.is_whole(), travel.y, sheet.height, reach);
    Rect::new(x0, y0, x1, y1)
}

/// The same for the two sides across one direction; the card reaches from 0 to `length`.
fn carried_sides(
    (low, high): (f64, f64),
    side: i8,
    is_whole: bool,
    travel: f64,
    length: f64,
    reach: f64,
) -> (f64, f64) {
    // Not further off the card than it is long: a zone is not lost.
    let settled = |mm: f64| {
        let tenths = ((mm.clamp(-length, 2.0 * length)) * 10.0).round() / 10.0;
        let edge = [0.0, length].into_iter().find(|edge| (mm - edge).abs() <= reach);
        edge.unwrap_or(tenths)
    };
    let size = high - low;
    match side {
        _ if is_whole => {
            let (from, to) = (settled(low + travel), settled(high + travel));
            let is_at_far_edge = to == length && from != 0.0;
            let low = if is_at_far_edge { length - size } else { from };
            (low, low + size)
        }
        -1 => (settled(low + travel).min(high - SMALLEST), high),
        1 => (low, settled(high + travel).max(low + SMALLEST)),
        _ => (low, high),
    }
}

impl Editor {
    /// The chosen zone of the background in force, by its position.
    pub fn chosen_zone(&self) -> Option<usize> {
        self.zone
    }

    /// Chooses a zone and no piece; with nothing, no zone. A position that is not there is passed over.
    pub fn choose_zone(&mut self, zone: Option<usize>) {
        self.finish_gesture();
        self.select(Vec::new());
        self.zone = zone.filter(|&zone| zone < self.layout().zones().len());
    }

    /// The same for a tap: the hand has finished already.
    pub(crate) fn choose_zone_in_hand(&mut self, zone: Option<usize>) {
        self.select(Vec::new());
        self.zone = zone;
    }

    /// The handles by which the chosen zone is sized; none while it is in the hand or packing is previewed.
    pub fn zone_handles(&self) -> Vec<ZoneHandle> {
        let is_free = self.held_zone.is_none() && !self.is_previewing();
        let chosen = self.zone.filter(|_| is_free).and_then(|zone| self.layout().zones().get(zone));
        chosen.map(|zone| zone_handles(zone, &self.view)).unwrap_or_default()
    }

    /// Whether a zone is in the hand.
    pub fn is_carrying_zone(&self) -> bool {
        self.held_zone.is_some()
    }

    /// Gives a zone these bounds, in sheet millimetres, as one undo step; no side is made shorter than 2 mm.
    ///
    /// False if there is no such zone, or the layout would make no sense: then it stays, and the notice says why.
    pub fn fit_zone(&mut self, zone: usize, bounds: Rect) -> bool {
        let bounds = Rect::new(
            bounds.x0,
            bounds.y0,
            bounds.x1.max(bounds.x0 + SMALLEST),
            bounds.y1.max(bounds.y0 + SMALLEST),
        );
        let old = self.layout().zones().get(zone).map(|zone| zone.outline.bounds());
        let work =
            if old.is_some_and(|old| old.size() == bounds.size()) { ZoneWork::Move } else { ZoneWork::Size };
        bounds.is_finite() && self.change_zone(zone, work, |zone| zone.fitted(bounds))
    }

    /// Takes a zone off its background, as one undo step.
    pub fn remove_zone(&mut self, zone: usize) {
        let Some(name) = self.zone_name(zone) else { return };
        let removed = self.change(Label::Zone(ZoneWork::Remove, name), |layout| {
            layout.zones_mut().map(|zones| zones.remove(zone));
        });
        self.zone = None;
        self.tell(removed);
    }

    /// Puts another zone like this one on the background, a little further down and to the right, and chooses it.
    pub fn duplicate_zone(&mut self, zone: usize) {
        let (Some(name), Some(old)) = (self.zone_name(zone), self.layout().zones().get(zone).cloned()) else {
            return;
        };
        let by = Vec2::new(4.0, 4.0);
        let Some(copy) = old.fitted(old.outline.bounds() + by) else { return };
        let new_name = self.free_zone_name();
        let added = self.change(Label::Zone(ZoneWork::Duplicate, name), |layout| {
            if let Some(zones) = layout.zones_mut() {
                zones.push(Zone { name: new_name, ..copy });
            }
        });
        if added.is_ok() {
            let last = self.layout().zones().len() - 1;
            self.choose_zone(Some(last));
        }
        self.tell(added);
    }

    /// A name that no zone of the background in force has.
    pub(crate) fn free_zone_name(&self) -> String {
        let zones = self.layout().zones();
        let numbered = (1..).map(|number| format!("{} {number}", self.names.zone));
        let is_free = |name: &String| zones.iter().all(|zone| zone.name != *name);
        { numbered }.find(is_free).unwrap_or_default()
    }

    /// What a key does to the chosen zone; false if it has nothing to do with zones.
    pub(crate) fn zone_key(&mut self, key: Key, step: f64, time_ms: f64) -> bool {
        let Some(zone) = self.zone.filter(|_| self.selection.is_empty()) else { return false };
        match key {
            Key::Left => self.nudge_zone(zone, Vec2::new(-step, 0.0), time_ms),
            Key::Right => self.nudge_zone(zone, Vec2::new(step, 0.0), time_ms),
            Key::Up => self.nudge_zone(zone, Vec2::new(0.0, -step), time_ms),
            Key::Down => self.nudge_zone(zone, Vec2::new(0.0, step), time_ms),
            Key::TurnLeft => self.grow_zone(zone, -step, time_ms),
            Key::TurnRight => self.grow_zone(zone, step, time_ms),
            Key::Remove => self.remove_zone(zone),
            Key::Duplicate => self.duplicate_zone(zone),
            _ => return false,
        }
        true
    }

    /// Moves a zone by so many millimetres; steps that follow each other quickly are one undo step.
    pub(crate) fn nudge_zone(&mut self, zone: usize, by: Vec2, time_ms: f64) {
        self.step_zone(zone, ZoneWork::Move, time_ms, |zone| zone.fitted(zone.outline.bounds() + by));
    }

    /// Moves the right and the lower side of a zone outward by so many millimetres.
    pub(crate) fn grow_zone(&mut self, zone: usize, by: f64, time_ms: f64) {
        self.step_zone(zone, ZoneWork::Size, time_ms, |zone| {
            let old = zone.outline.bounds();
            let (width, height) = ((old.width() + by).max(SMALLEST), (old.height() + by).max(SMALLEST));
            zone.fitted(Rect::from_origin_size(old.origin(), (width, height)))
        });
    }

    fn step_zone(
        &mut self,
        zone: usize,
        work: ZoneWork,
        time_ms: f64,
        edit: impl FnOnce(&Zone) -> Option<Zone>,
    ) {
        let what = Nudged::Zone(zone, work);
        let joins = self.joins_last_nudge(&what, time_ms);
        if joins {
            let mut layout = self.layout().clone();
            if let Some(place) = layout.zones_mut().and_then(|zones| zones.get_mut(zone))
                && let Some(new) = edit(place)
            {
                *place = new;
                match layout.validate() {
                    Ok(()) => self.show(layout),
                    Err(error) => self.notice = Some(error.into()),
                }
            }
        } else {
            self.change_zone(zone, work, edit);
        }
        self.remember_nudge(what, time_ms);
    }

    /// Changes one zone as one undo step. False if nothing was changed.
    fn change_zone(&mut self, zone: usize, work: ZoneWork, edit: impl FnOnce(&Zone) -> Option<Zone>) -> bool {
        self.finish_gesture();
        if self.is_previewing() {
            return false;
        }
        let Some(name) = self.zone_name(zone) else { return false };
        let Some(new) = edit(&self.layout().zones()[zone]) else { return false };
        let before = self.layout_revision;
        let changed = self.change(Label::Zone(work, name), |layout| {
            if let Some(place) = layout.zones_mut().and_then(|zones| zones.get_mut(zone)) {
                *place = new;
            }
        });
        self.tell(changed);
        self.layout_revision != before
    }

    fn zone_name(&self, zone: usize) -> Option<String> {
        self.layout().zones().get(zone).map(|zone| zone.name.clone())
    }

    fn tell(&mut self, outcome: Result<(), stickleaf_sheet::LayoutError>) {
        if let Err(error) = outcome {
            self.notice = Some(error.into());
        }
    }

    /// Takes the chosen zone into the hand.
    pub(crate) fn hold_zone(&mut self, grip: ZoneGrip) {
        if let Some(zone) = self.zone {
            self.held_zone = Some(HeldZone { before: self.layout().clone(), zone, grip });
            self.revision += 1;
        }
    }

    /// Carries the held zone, or the sides that are held, so far from where they were. What would leave no room for any
    /// sticker is not followed.
    pub(crate) fn carry_zone(&mut self, travel: Vec2) {
        let Some(held) = &self.held_zone else { return };
        let before = &held.before.zones()[held.zone];
        let reach = self.view.length(EDGE_PX);
        let bounds = carried(before.outline.bounds(), held.grip, travel, &held.before.sheet, reach);
        let (index, moved) = (held.zone, before.fitted(bounds));
        if let Some(moved) = moved {
            self.document.carry_zone(index, moved);
            self.refresh();
        }
    }

    /// Lets the held zone go: one undo step, if it was moved.
    pub(crate) fn let_zone_go(&mut self, held: HeldZone) {
        let HeldZone { before, zone, grip } = held;
        let layout = self.layout().clone();
        if layout == before {
            self.document.set(layout);
            self.refresh();
            return;
        }
        let work = if grip.is_whole() { ZoneWork::Move } else { ZoneWork::Size };
        let label = Label::Zone(work, layout.zones()[zone].name.clone());
        self.show(layout);
        self.zone = Some(zone);
        self.history.remember(label, before);
    }

    /// Puts the held zone back where it was.
    pub(crate) fn put_zone_back(&mut self, held: HeldZone) {
        self.document.set(held.before);
        self.refresh();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SHEET: Sheet = Sheet { width: 100.0, height: 150.0, corner_radius: 4.0, resolution_ppi: 300.0 };

    fn corner(across: i8, down: i8) -> ZoneGrip {
        ZoneGrip { across, down }
    }

    #[test]
    fn a_moved_zone_lies_on_tenths_and_goes_to_the_edge() {
        let bounds = Rect::new(20.0, 20.0, 50.0, 40.0);
        let moved = |x, y| carried(bounds, ZoneGrip::WHOLE, Vec2::new(x, y), &SHEET, 1.0);
        assert_eq!(moved(3.06, -2.71), Rect::new(23.1, 17.3, 53.1, 37.3));
        assert_eq!(moved(-19.3, 109.5), Rect::new(0.0, 130.0, 30.0, 150.0));
        assert_eq!(moved(-1e9, 0.0).x0, -100.0, "it is not lost");
    }

    #[test]
    fn a_corner_carries_two_sides_and_a_side_one() {
        let bounds = Rect::new(20.0, 20.0, 50.0, 40.0);
        let sized = |grip, x, y| carried(bounds, grip, Vec2::new(x, y), &SHEET, 1.0);
        assert_eq!(sized(corner(1, 1), 5.04, 6.0), Rect::new(20.0, 20.0, 55.0, 46.0));
        assert_eq!(sized(corner(-1, 0), -19.5, 99.0), Rect::new(0.0, 20.0, 50.0, 40.0));
        assert_eq!(sized(corner(0, -1), 99.0, 30.0), Rect::new(20.0, 38.0, 50.0, 40.0), "2 mm are left");
    }

    #[test]
    fn handles_stand_outside_a_small_zone_and_within_the_canvas() {
        let view = View::fitted(&SHEET, kurbo::Size::new(800.0, 900.0));
        let zone = |data: &str| Zone::new("z", stickleaf_outline::path::parse(data).unwrap(), 1.0);
        let small = zone_handles(&zone("M40 40H46V46H40Z"), &view);
        assert_eq!(small.len(), 4, "too short for handles in the middle of its sides");
        let seen = view.to_canvas(Point::new(40.0, 40.0));
        assert_eq!(small[0].at, seen - Vec2::new(HANDLE_AWAY_PX, HANDLE_AWAY_PX));
        let past = zone_handles(&zone("M-500 -500H600V700H-500Z"), &view);
        assert_eq!(past.len(), 8);
        assert!(past.iter().all(|handle| view.canvas.to_rect().contains(handle.at)));
        assert_eq!(handle_at(&small, seen - Vec2::new(14.0, 10.0), 22.0), Some(corner(-1, -1)));
        assert_eq!(handle_at(&small, view.to_canvas(Point::new(43.0, 70.0)), 22.0), None);
    }
}
