//! What every target asks of an outline.

use stickleaf_outline::Outline;

/// Panics unless the outline keeps its promises: the strict maker takes it back unchanged, and it has an area.
pub fn assert_sound(outline: &Outline) {
    let again = Outline::new(outline.points().iter().copied());
    assert_eq!(again.as_ref(), Ok(outline), "an outline that came out is not one that goes in");
    assert!(outline.area() > 0.0);
}
