//! The sizes and tables of a bush, beside those of every ring: every name that is recorded, spoken once.

pub use crate::families::common::ring::sizes::*;
use crate::record::key::{sizes, sizes_of_keys, tables};

use super::read;

sizes! {
    BEARING_LENGTH = "bearing_length", "length that bears";
    BEARING_PRESSURE = "bearing_pressure", "pressure on the projected area";
    CLEARANCE_COLDEST_MAX = "clearance_coldest_max", "greatest running clearance when coldest";
    CLEARANCE_COLDEST_MIN = "clearance_coldest_min", "least running clearance when coldest";
    CLEARANCE_WARMEST_MAX = "clearance_warmest_max", "greatest running clearance when warmest";
    CLEARANCE_WARMEST_MIN = "clearance_warmest_min", "least running clearance when warmest";
    FRICTION_HEAT = "friction_heat", "heat of friction at most, watts";
    FRICTION_TORQUE_MAX = "friction_torque_max", "torque of friction, at most";
    FRICTION_TORQUE_MIN = "friction_torque_min", "torque of friction, at least";
    LENGTH_TO_BORE = "length_to_bore", "length over bore";
    PRESSURE_ALLOWED = "pressure_allowed", "pressure that the material bears";
    PRESSURE_SPEED = "pressure_speed", "pressure times speed, MPa m/s";
    PRESSURE_SPEED_ALLOWED = "pressure_speed_allowed", "pressure times speed that the material bears, MPa m/s";
    SHAFT_HARDNESS_HV = "shaft_hardness_hv", "hardness of the shaft, HV";
    SLIDING_SPEED = "sliding_speed", "mean sliding speed, m/min";
    STRAIGHT_GROOVE_LENGTH = "straight_groove_length", "length of the straight groove";
    WASHER_BORE = "washer_bore", "bore of the washer";
    WASHER_LOAD = "washer_load", "load on the washer, along the axis";
    WASHER_OUTSIDE = "washer_outside", "outside of the washer";
    WASHER_PRESSURE = "washer_pressure", "pressure on the washer";
    WASHER_PRESSURE_SPEED = "washer_pressure_speed", "pressure times speed on the washer, MPa m/s";
    WASHER_THICKNESS = "washer_thickness", "thickness of the washer";
    WEAR_FACTOR = "wear_factor", "wear factor, 1e-6 mm³/(N m)";
    WEAR_LIFE = "wear_life", "hours of motion until it is worn";
}

sizes_of_keys! {
    STRAIGHT_GROOVE = read::STRAIGHT_GROOVE;
}

tables! {
    NEEDLES_TABLE = "needles";
}
