//! The handles of what is recorded of a try-out.

use crate::record::key::{Size, sizes, sizes_of_keys};

use super::read;

sizes_of_keys! {
    THICKNESS = read::THICKNESS;
    LENGTH = read::LENGTH;
    HALF_ANGLE = read::HALF_ANGLE;
}

sizes! {
    GO = "go_diameter", "go end";
    NOT_GO = "not_go_diameter", "not-go end";
    GO_RING = "go_bore", "go ring";
    NOT_GO_RING = "not_go_bore", "not-go ring";
    RING_OUTSIDE = "outside_diameter", "outside of the rings";
    RING_THICK = "ring_thickness", "thickness of the rings";
    GO_LENGTH = "go_length", "length of the go end";
    NOT_GO_LENGTH = "not_go_length", "length of the not-go end";
    EDGE = "edge_length", "length of the gauging edge";
    SEEN = "angle_seen", "angle that light under the edge shows";
    OVERALL = "overall_length", "length overall";
    ACROSS = "overall_width", "width overall";
}

/// One rung of a ladder of those.
pub fn rung(kind: read::Ladder, index: usize) -> Size {
    let number = index + 1;
    let (name, words) = match kind {
        read::Ladder::Holes => (format!("hole_{number}"), format!("hole {number}")),
        read::Ladder::Pins => (format!("pin_{number}_diameter"), format!("pin {number}")),
        read::Ladder::Slots => (format!("slot_{number}"), format!("slot {number}")),
        read::Ladder::Treads => (format!("tread_{number}_thickness"), format!("tread {number}")),
    };
    Size::one_of(name, words)
}
