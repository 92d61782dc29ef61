//! What lies in the entry face: how a slot runs there, and how far the hole reaches.

use crate::record::key::Given;
use crate::units::{Angle, Length};

use super::read::{Hole, Spec};

/// The slot's direction as the entry face shows it. The file says how it runs seen from above, where the plate sits on
/// its cone with that face underneath; turned up about the x axis, it runs the other way.
pub fn on_entry_face(direction: Option<&Given<Angle>>) -> Angle {
    direction.map_or(Angle::ZERO, |d| -d.value)
}

/// How far the hole reaches from the middle of the plate in a direction on the entry face.
pub fn hole_reach(s: &Spec, a: Angle) -> Length {
    let Hole::Slot { width, length, direction, edge } = &s.hole else { return hole_extent(s).0 / 2.0 };
    let off = a - on_entry_face(direction.as_ref());
    (length.value - width.value) / 2.0 * off.cos().abs() + width.value / 2.0 + edge.reach()
}

/// How far the hole reaches along x and y.
pub fn hole_extent(s: &Spec) -> (Length, Length) {
    match &s.hole {
        Hole::Round { diameter, edge, .. } => {
            let d = diameter.value + edge.reach() * 2.0;
            (d, d)
        }
        Hole::Slot { width, length, direction, edge } => {
            let (travel, angle) = (length.value - width.value, direction.as_ref().map_or(Angle::ZERO, |a| a.value));
            let across = width.value + edge.reach() * 2.0;
            (travel * angle.cos().abs() + across, travel * angle.sin().abs() + across)
        }
        Hole::Stepped { drill, .. } => {
            let d = drill.steps.last().copied().unwrap_or(Length::ZERO);
            (d, d)
        }
        Hole::Turned { small, half_angle, .. } => {
            let d = super::seat_mouth(small.value, half_angle.value, s.thickness.value);
            (d, d)
        }
    }
}
