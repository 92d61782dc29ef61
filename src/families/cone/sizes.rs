//! The sizes and tables of a cone: every name that is recorded, spoken once.

use crate::record::key::{Size, sizes, sizes_of_keys, tables};

use super::read;

sizes! {
    BOLT_HOLE = "bolt_hole", "bolt hole";
    COATING_RISE = "coating_rise", "the film lifts a cup on this cone by";
    COMPOUND_ANGLE = "compound_angle", "compound slide from the axis";
    COMPOUND_FROM_SQUARE = "compound_from_square", "compound slide from square";
    COUNTERBORE_DEPTH = "counterbore_depth", "counterbore depth";
    COUNTERBORE_DIAMETER = "counterbore_diameter", "counterbore diameter";
    COUNTERSINK_ANGLE = "countersink_angle", "countersink included angle";
    COUNTERSINK_DIAMETER = "countersink_diameter", "countersink diameter";
    CROSSBAR_HOLE = "crossbar_hole", "hole for the bolt in the crossbar";
    DIAL_ON_FLANK = "dial_on_flank", "dial on the flank";
    DRILL_DEPTH = "drill_depth", "depth of the tap drill";
    FINISHING_SPEED = "finishing_speed", "spindle speed, finishing";
    FLANK_DIAL = "flank_dial", "dial on the finished flank";
    FLANK_DIAL_TRAVEL = "flank_dial_travel", "carriage travel of the proof by dial";
    FLANK_GROWTH = "flank_growth", "diameters of the flank grow by";
    HALF_ANGLE_DOUBT = "half_angle_doubt", "half-angle left open by the two sizes";
    HOLD_OUT = "hold_out", "length out of the chuck";
    INCLUDED_ANGLE = "included_angle", "included angle";
    NOSE_FLAT = "nose_flat", "flat on the nose";
    OVER_ROLLERS = "over_rollers", "size over two rollers";
    OVER_ROLLERS_RAISED = "over_rollers_raised", "size over the raised rollers";
    OVERALL_HEIGHT = "overall_height", "overall height";
    RING_HEIGHT = "ring_height", "height of the ring over the face that the cone stands on";
    ROLLER_LENGTH = "roller_length", "length of the rollers at least";
    ROLLER_RISE = "roller_rise", "blocks under the rollers";
    ROUGHING_SPEED = "roughing_speed", "spindle speed, roughing";
    SLANT = "slant", "slant of the flank";
    STOCK_DIAMETER = "stock_diameter", "stock diameter";
    STOCK_LENGTH = "stock_length", "stock length";
    TAILSTOCK_SETOVER = "tailstock_setover", "tailstock set-over";
    TAP_DRILL = "tap_drill", "tap drill";
    TAP_DRILL_NAME = "tap_drill_name", "tap drill as sold";
    TAPER = "taper", "taper";
    TAPER_PER_FOOT = "taper_per_foot", "taper per foot";
    TAPER_RATIO = "taper_ratio", "taper ratio";
    THICKEST_LEFT = "thickest_left", "thickest metal left by the steps";
    THREAD_CALLOUT = "thread_callout", "thread and hole";
    THREAD_DEPTH = "thread_depth", "depth of full thread";
    THREAD_SHARE = "thread_share", "share of full thread that it leaves";
}

sizes_of_keys! {
    CHECK_ROLLER = read::CHECK_ROLLER;
    BASE_DIAMETER = read::BASE_DIAMETER;
    FOOT = read::FOOT;
    FOOT_DIAMETER = read::FOOT_DIAMETER;
    HALF_ANGLE = read::HALF_ANGLE;
    HEIGHT = read::HEIGHT;
    THREAD = read::THREAD;
    TIP_DIAMETER = read::TIP_DIAMETER;
    TIP_RADIUS = read::TIP_RADIUS;
}

/// The size from the base of the foot, or of the cone where it has none, to the tip.
pub fn overall(s: &read::Spec) -> &'static Size {
    if s.foot.is_some() { &OVERALL_HEIGHT } else { &HEIGHT }
}

tables! {
    ROUGHING_STEPS_TABLE = "roughing_steps";
    FLANK_PROOF_TABLE = "flank_proof";
}

/// The compound slide as its scale showed when the flank was cut.
pub fn compound_setting() -> Size {
    Size::one_of("compound_setting".into(), "compound slide as its scale showed")
}

/// The compound slide by the scale of the shop's own lathe.
pub fn compound_shows() -> Size {
    Size::one_of("compound_shows".into(), "compound slide by this lathe's own scale")
}

/// The cylinder on which it stands: its foot, or the base where it has none of its own.
pub fn widest(s: &read::Spec) -> &'static Size {
    if s.foot_diameter.is_some() { &FOOT_DIAMETER } else { &BASE_DIAMETER }
}
