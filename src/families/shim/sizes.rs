//! The sizes and tables of a shim: every name that is recorded, spoken once.

use crate::record::key::{Size, sizes, sizes_of_keys, tables};

use super::read;

sizes! {
    BENCH_FLOAT = "bench_float", "float to be reached at 20 °C";
    BORE_CUT = "bore_cut", "bore as drawn for the cutter";
    CHAIN_GAP = "chain_gap", "gap by the chain of sizes";
    EFFECTIVE_STACK = "effective_stack", "what the old stack took up";
    FILM = "film", "film, burr and curl at each joint";
    FLOAT_MAX = "float_max", "greatest float that can result";
    FLOAT_MIN = "float_min", "least float that can result";
    FLOAT_NOMINAL = "float_nominal", "float that results";
    GRIND_OFF = "grind_off", "to grind off, both faces together";
    MEASURING_UNCERTAINTY = "measuring_uncertainty", "measuring uncertainty of the total, U";
    PARALLEL = "parallel", "faces parallel within";
    REPLACED_SUM = "replaced_sum", "sum of the shims replaced";
    STOCK_THICKNESS = "stock_thickness", "nearest stock";
    TOTAL = "total", "all shims together";
    WIDTH = "width", "width of the shim";
    WIDTH_BEFORE = "width_before", "width before coating";
    WIDTH_LEFT = "width_left", "width of the left shim";
    WIDTH_LEFT_BEFORE = "width_left_before", "width of the left shim before coating";
    WIDTH_READING = "width_reading", "reading that proves the width";
    WIDTH_RIGHT = "width_right", "width of the right shim";
    WIDTH_RIGHT_BEFORE = "width_right_before", "width of the right shim before coating";
    WIDTHS = "widths", "width of the rings";
}

sizes_of_keys! {
    BORE = read::BORE;
    OUTSIDE_DIAMETER = read::OUTSIDE_DIAMETER;
    REPLACES = read::REPLACES;
    SIDES = read::SIDES;
}

/// A width of the ladder, from 1 on.
pub fn rung(number: usize) -> Size {
    Size::one_of(format!("width_{number}"), "width")
}

tables! {
    MEMBERS_TABLE = "members";
    FLOAT_SPREAD_TABLE = "float_spread";
    FLOAT_BY_TEMPERATURE_TABLE = "float_by_temperature";
    CLASSES_TABLE = "classes";
    INSTRUMENTS_TABLE = "instruments";
    AT_HAND_TABLE = "at_hand";
}
