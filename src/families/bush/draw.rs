//! The drawing of a bush: its section as it is machined, and that of its washer.

use crate::families::common::ring::draw::whole;
use crate::families::common::ring::make::Machined;
use crate::record::design::Design;
use crate::record::drawing::{Drawing, Side, View};
use crate::shape::{Point, Turned};
use crate::units::Length;

use super::read::Spec;
use super::{runs, sizes};

/// The section with its dimensions; beside it the washer's.
pub fn drawing(design: &Design, s: &Spec, m: &Machined, solid: &Turned, washer: Option<&Turned>) -> Drawing {
    let pressed = !m.bore.0.is(&sizes::BORE) || !m.outside.0.is(&sizes::OUTSIDE_DIAMETER);
    let title = if pressed { "Section, as machined before pressing" } else { "Section on the axis" };
    let mut view = whole(design, &s.ring, m, View::section(title, solid));
    if s.straight.is_some() {
        // On the far side of the hole, which the section cannot show.
        let at = Point::new(s.ring.length.value * 0.75, m.bore.1 / 2.0);
        view = view
            .pointed(&sizes::STRAIGHT_GROOVE, at)
            .also(" wide, straight groove, long ", &sizes::STRAIGHT_GROOVE_LENGTH);
    }
    let mut views = vec![view];
    if let Some((w, turned)) = s.washer.as_ref().zip(washer) {
        let (outside, thickness) = (w.outside.value, w.thickness.value);
        let bore = runs::washer_bore(s, w);
        views.push(
            View::section("Washer, section on the axis", turned)
                .diameter(&sizes::WASHER_BORE, Length::ZERO, bore, Side::Left)
                .diameter(&sizes::WASHER_OUTSIDE, thickness, outside, Side::Right)
                .axial(&sizes::WASHER_THICKNESS, (Length::ZERO, outside), (thickness, outside), Side::Above),
        );
    }
    Drawing { views }
}
