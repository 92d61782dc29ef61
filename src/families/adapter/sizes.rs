//! The sizes and tables of an adapter: every name that is recorded, spoken once.

use crate::record::key::{Size, sizes, sizes_of_keys, tables};

use super::read::{self, Which};

sizes_of_keys! {
    OUTSIDE_DIAMETER = read::OUTSIDE_DIAMETER;
    THICKNESS = read::THICKNESS;
    BORE = read::BORE;
    BORE_BELOW = read::BORE_BELOW;
}

sizes! {
    BLANK_THICKNESS = "blank_thickness", "thickness of the plate that is ordered";
    BOLT_TO_BOLT = "bolt_to_bolt", "from a bolt to the nearest of the other pattern";
    CUT_AREA = "cut_area", "area as cut";
    CUT_LENGTH = "cut_length", "length of cut";
    FLOW_ABOVE = "flow_above", "area of flow at the upper face";
    FLOW_BELOW = "flow_below", "area of flow at the lower face";
    FLOW_RATIO = "flow_ratio", "speed at the upper face over that at the lower";
    FLOW_HALF_ANGLE = "flow_half_angle", "half-angle in which the bore runs";
    PIERCES = "pierces", "cuts begun";
    STRIP_STRESS = "strip_stress", "bending stress between the patterns";
}

tables! {
    PATTERNS_TABLE = "patterns";
    BOLTS_TABLE = "bolts";
}

macro_rules! of_face {
    ($($name:ident = $text:literal, $label:literal;)*) => {
        $(#[doc = $label] pub fn $name(which: Which) -> Size {
            Size::one_of(format!(concat!($text, "_{}"), which.word()), format!(concat!($label, ", {} face"), which.word()))
        })*
    };
}

of_face! {
    hole = "hole", "holes of the bolts";
    chord = "chord", "dividers that step the circle";
    counterbore = "counterbore", "counterbores of the heads";
    counterbore_depth = "counterbore_depth", "depth of the counterbores";
    thread = "thread", "thread of the tapped holes";
    thread_depth = "thread_depth", "full thread";
    drill_depth = "drill_depth", "tap drill to its corner";
    register = "register", "register";
    register_height = "register_height", "height of the register";
    mate_register = "mate_register", "register of the mate";
    register_play = "register_play", "mate may sit off its place by, each way";
    groove_inner = "groove_inner", "inner wall of the groove";
    groove_outer = "groove_outer", "outer wall of the groove";
    squeeze_least = "squeeze_least", "squeeze of the O-ring, at least";
    squeeze_most = "squeeze_most", "squeeze of the O-ring, at most";
    ring_fill = "ring_fill", "groove that the O-ring fills, at most";
    ring_stretch = "ring_stretch", "stretch of the O-ring";
    gasket_outside = "gasket_outside", "outside of the gasket";
    gasket_bore = "gasket_bore", "hole in the middle of the gasket";
    gasket_hole = "gasket_hole", "bolt holes of the gasket";
    bolt_pull = "pull_asked", "pull of the load on one bolt";
    bolt_shear = "slides_by", "force across on one bolt";
    moment = "moment", "moment of the load";
}

/// Depth of the groove.
pub fn groove_depth(which: Which) -> Size {
    which.size(&read::GROOVE_DEPTH)
}

/// Width of the groove.
pub fn groove_width(which: Which) -> Size {
    which.size(&read::GROOVE_WIDTH)
}
