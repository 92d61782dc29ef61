//! The sizes and tables of a stand: every name that is recorded, spoken once.

use crate::record::key::{sizes, sizes_of_keys, tables};

use super::read;

sizes! {
    ARCH = "arch", "hollow between the feet, upwards";
    ARM = "tipping_arm", "what tips it acts so high over the floor";
    BOLT_HOLE = "bolt_hole", "hole for a bolt";
    BOLT_SLOT = "bolt_slot", "slot for a bolt in a rail";
    CRITICAL = "leg_buckles_at", "load at which a leg buckles";
    CUT_LENGTH = "cut_length", "length of all cuts of one stand";
    END_HEIGHT = "end_height", "height of an end plate";
    FLOOR_BEARS = "floor_bears", "pressure that the floor bears";
    FOOT = "foot_length", "length of a foot";
    FOOT_LOAD = "foot_load", "load on one foot, at most";
    JOINT_LEAST = "joint_play_least", "play of a plate in its slot, least";
    JOINT_MOST = "joint_play_most", "play of a plate in its slot, greatest";
    JOINT_PULL = "joint_pull", "pull on the end of a rail by the push along";
    LEG_LOAD = "leg_load", "load of one leg, at most";
    LEG_STRESS = "leg_stress", "stress of a leg, pressed and bent by the push";
    NUT_SLOT_LONG = "nut_slot_wide", "slot for its nut, along the rail";
    NUT_SLOT_HIGH = "nut_slot_high", "slot for its nut, across";
    OPENING_HEAD = "opening_head", "opening between the legs, its head";
    OPENING_HIGH = "opening_high", "opening between the legs, its height";
    PACKED_HEIGHT = "packed_height", "height of all plates laid flat on each other";
    PACKED_LENGTH = "packed_length", "length of the stack";
    PACKED_WIDTH = "packed_width", "width of the stack";
    PIERCES = "pierces", "pierces of one stand";
    RAILS_APART = "rails_apart", "rails apart, middle to middle";
    RAIL_BODY = "rail_length", "length of a rail between its shoulders";
    RAIL_OVERALL = "rail_overall", "length of a rail over its tabs";
    RAIL_SAG = "rail_sag", "rail goes down in its middle by";
    RAIL_STRESS = "rail_stress", "bending stress of a rail";
    RELIEF = "relief_radius", "radius of the relief at the corners of slots and tabs";
    SHARE = "stand_load", "load of the most loaded stand";
    SILL = "sill", "depth of the sill under the opening";
    SLOT_HIGH = "slot_high", "slot in an end plate, height";
    SLOT_WIDE = "slot_wide", "slots, width for a plate";
    SLOT_DRAWN = "slot_wide_drawn", "slots, width as it is drawn for that kerf";
    TAB_DRAWN = "tab_height_drawn", "tab of a rail, height as it is drawn for that kerf";
    TAB_HIGH = "tab_height", "tab of a rail, height";
    TAB_LOAD = "tab_load", "load on one tab, at most";
    TAB_LONG = "tab_length", "tab of a rail, length";
    TABS_APART = "tabs_apart", "tabs apart, middle to middle";
    THICKNESS_LEAST = "thickness_least", "thinnest plate";
    THICKNESS_MOST = "thickness_most", "thickest plate";
    TIPS_AT = "tips_at", "slope at which it tips without a push";
    TOP_SLOT = "top_slot_long", "slot in the top plate, length";
    TOP_SLOTS_APART = "top_slots_apart", "slots in the top plate along it, middle to middle";
    TOP_STRESS = "top_stress", "bending stress of the top plate between the rails";
    TOP_TAB_HIGH = "top_tab_height", "tab into the top plate, height";
    TOP_TAB_LONG = "top_tab_length", "tab into the top plate, length";
    WEDGE_BROAD = "wedge_broad", "wedge, broad end";
    WEDGE_DRIVEN = "wedge_driven", "force that drives a wedge out again, for each of its pull";
    WEDGE_HOLE = "wedge_hole_long", "hole for a wedge, along the tab";
    WEDGE_HOLE_AT = "wedge_hole_at", "hole for a wedge begins, from the shoulder";
    WEDGE_HOLE_HIGH = "wedge_hole_high", "hole for a wedge, height";
    WEDGE_LONG = "wedge_length", "wedge, length";
    WEDGE_NARROW = "wedge_narrow", "wedge, narrow end";
    WEDGE_TRAVEL = "wedge_travel", "wedge goes further from the thickest plate to the thinnest";
}

sizes_of_keys! {
    LEG_WIDTH = read::LEG_WIDTH;
    LENGTH = read::LENGTH;
    RAIL_DEPTH = read::RAIL_DEPTH;
    THICKNESS = read::THICKNESS;
    TOP_WIDTH = read::TOP_WIDTH;
    WIDTH = read::WIDTH;
    WEDGE_ANGLE = read::WEDGE_ANGLE;
}

tables! {
    PLATES_TABLE = "plates";
}
