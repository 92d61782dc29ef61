//! The sizes and tables of a cup: every name that is recorded, spoken once.

use crate::record::key::{sizes, sizes_of_keys, tables};

use super::read;

sizes! {
    CONE_ANGLE_MADE = "cone_angle_made", "half-angle of its cone as made";
    CONE_BASE_MADE = "cone_base_made", "base diameter of its cone as made";
    BEDDING_LEAST = "bedding_least", "first loads bed the rim in by at least";
    BEDDING_MOST = "bedding_most", "first loads bed the rim in by at most";
    CAPTURE_RADIUS = "capture_radius", "capture radius";
    COATED_SEAT_HEIGHT = "coated_seat_height", "seat height, coated";
    COATING_RISE = "coating_rise", "the film lifts this cup on its cone by";
    CONTACT_DIAMETER = "contact_diameter", "contact diameter";
    CONTACT_EDGE = "contact_edge", "where the cone touches";
    CUT_AREA = "cut_area", "area of the blank as cut";
    CUT_DIAMETER = "cut_diameter", "hole as the laser cuts it";
    ENVELOPE_HALF_ANGLE = "envelope_half_angle", "half-angle of the steps' envelope";
    GAP_TO_CROSSBAR = "gap_to_crossbar", "gap to the face that the cone stands on";
    HEIGHT_PER_TENTH = "height_per_tenth", "seat height for so much more hole";
    HOLE_DIAMETER = "hole_diameter", "hole diameter";
    MOUNTING_HOLE = "mounting_hole", "mounting hole";
    MOUNTING_POSITION = "mounting_position", "place of the mounting holes about the hole, zone across";
    MOUNTING_SPACING_X = "mounting_spacing_x", "hole spacing along x";
    MOUNTING_SPACING_Y = "mounting_spacing_y", "hole spacing along y";
    NOSE_ABOVE_PLATE = "nose_above_plate", "nose beyond the far face";
    REACH = "reach", "room for the drill below the entry face";
    RIM_DROP = "rim_drop", "lower than with a sharp rim by";
    SEAT_HEIGHT = "seat_height", "seat height over the cone's base";
    SEAT_MOUTH = "seat_mouth", "seat diameter, entry face, held";
    SEAT_PRESSURE = "seat_pressure", "mean pressure on the seat";
    SIDE_PLAY = "side_play", "side play at that lift, in total";
    SLOT_DIRECTION = "slot_direction", "slot direction from x, from above in use";
    SLOT_LENGTH = "slot_length", "slot length, overall";
    SLOT_ON_FACE = "slot_on_face", "slot direction from x, on the entry face as drawn";
    SLOT_TRAVEL = "slot_travel", "free travel along the slot";
    THROUGH_DIAMETER = "through_diameter", "diameter right through";
    TIP_LENGTH = "tip_length", "length of the drill's tip";
}

sizes_of_keys! {
    CHAMFER = read::CHAMFER;
    CIRCLE = read::CIRCLE;
    CORNER_RADIUS = read::CORNER_RADIUS;
    DIAMETER = read::DIAMETER;
    DOWEL_SPACING = read::DOWEL_SPACING;
    FIRST_ANGLE = read::FIRST_ANGLE;
    HALF_ANGLE = read::SEAT_HALF_ANGLE;
    LENGTH = read::LENGTH;
    NUMBER = read::NUMBER;
    RIM_RADIUS = read::RIM_RADIUS;
    STEPS = read::STEPS;
    STOP_DEPTH = read::STOP_DEPTH;
    THICKNESS = read::THICKNESS;
    TIP_ANGLE = read::TIP_ANGLE;
    WIDTH = read::WIDTH;
}

tables! {
    LANDS_TABLE = "lands";
    FRICTION_TABLE = "friction";
}
