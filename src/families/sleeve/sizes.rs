//! The sizes and tables of a sleeve, beside those of every ring: every name that is recorded, spoken once.

pub use crate::families::common::ring::sizes::*;
use crate::record::key::{Size, sizes, sizes_of_keys, tables};

use super::runs_under;

sizes! {
    ALLOWED_PRESSURE = "allowed_pressure", "pressure at which this hardness begins to dent";
    CASE_DEPTH_NEEDED = "case_depth_needed", "case depth needed after grinding";
    CHAIN_TOLERANCE = "chain_tolerance", "tolerance of all pieces together";
    CONTACT_HALF_WIDTH = "contact_half_width", "half-width of the contact";
    CONTACT_PRESSURE = "contact_pressure", "contact pressure";
    CORE_HARDNESS = "core_hardness", "hardness of the core, HV";
    DENTS_FROM = "dents_from", "radial load at which denting begins";
    HARDNESS_NEEDED = "hardness_needed", "hardness that stays elastic under this load, HV";
    LARGEST_SHEAR = "largest_shear", "largest shear below the skin";
    LOAD_FACTOR_LEAST = "load_factor_least", "load factor at the least clearance";
    NEEDLE_BORE = "needle_bore", "circle inside the rollers";
    OVERLAP_SWING = "overlap_swing", "swing at which the tracks of the rollers overlap";
    RACEWAY_CLASS = "raceway_class", "class of the raceway for this clearance";
    ROLLER_POSITION = "roller_position", "middle of the row of rollers from the end";
    RACEWAY_HARDNESS = "raceway_hardness", "hardness of the raceway, HV";
    RACEWAY_LENGTH_NEEDED = "raceway_length_needed", "length that the raceway needs";
    ROLLER_LOAD = "roller_load", "load on the most loaded roller";
    CLEARANCE_COLD = "clearance_cold", "running clearance changes, when coldest, by";
    CLEARANCE_WARM = "clearance_warm", "running clearance changes, when warmest, by";
    RUNNING_CLEARANCE_MAX = "running_clearance_max", "greatest running clearance";
    RUNNING_CLEARANCE_MIN = "running_clearance_min", "least running clearance";
    SHEAR_DEPTH = "shear_depth", "depth of the largest shear";
    STATIC_RATING = "static_rating", "static rating of the rollers on a hard raceway";
    STATIC_RATING_LEFT = "static_rating_left", "share of the static rating left at this hardness";
    STATIC_SAFETY = "static_safety", "static safety";
}

sizes_of_keys! {
    LOAD_FACTOR = runs_under::LOAD_FACTOR;
    MOTION = runs_under::MOTION;
    SHOCK = runs_under::SHOCK;
    SWING = runs_under::SWING;
}

tables! {
    PIECES_TABLE = "pieces";
}

/// Length of the piece of that index.
pub fn segment_length(index: usize) -> Size {
    Size::one_of(format!("segment_{}_length", index + 1), "length of the piece")
}

/// Outside of the piece of that index, where it is smaller than the sleeve's.
pub fn segment_outside(index: usize) -> Size {
    Size::one_of(format!("segment_{}_outside", index + 1), "outside of the piece")
}

/// Hardness of the piece of that index.
pub fn segment_hardness(index: usize) -> Size {
    Size::one_of(format!("segment_{}_hardness", index + 1), "hardness of the piece")
}
