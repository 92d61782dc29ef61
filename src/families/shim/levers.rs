//! What may be moved to clear a finding of a shim.

use crate::families::common::levers::{FINE, SIZE};
use crate::record::lever::{Grid, Lever, Remedy};

/// Instruments from coarse to fine.
const INSTRUMENTS: Grid = Grid::Words(&["calliper", "micrometer"]);
/// What a float is read with, from coarse to fine.
const FLOATS: Grid = Grid::Words(&["feeler gauge", "dial indicator"]);
const INSTRUMENT: Lever = Lever::free("instrument", INSTRUMENTS);
const FLOAT_INSTRUMENT: Lever = Lever::free("float_instrument", FLOATS);
const LEAST_FLOAT: Lever = Lever::free("target_float.0", FINE);
const MOST_FLOAT: Lever = Lever::free("target_float.1", FINE);
const MEMBER_TOLERANCE: Lever = Lever::free("member.*.tolerance", Grid::Length(0.01, 0.0005, 0.0, 5.0));
const MEMBER_INSTRUMENT: Lever = Lever::free("member.*.instrument", Grid::Words(&["calliper", "micrometer"]));

/// Remedies by check.
pub const REMEDIES: &[Remedy] = &[
    Remedy {
        checks: &["next_shim"],
        levers: &[],
        otherwise: "cut, shim or measure as it says, and record the new size",
    },
    Remedy {
        checks: &["float", "measuring_uncertainty", "width_instrument", "stock_as_it_is"],
        levers: &[INSTRUMENT, FLOAT_INSTRUMENT, MEMBER_INSTRUMENT, MOST_FLOAT, LEAST_FLOAT],
        otherwise: "measure better, or permit more float",
    },
    Remedy {
        checks: &["members_left_open", "float_draws", "float_in_service", "float_swollen"],
        levers: &[MEMBER_INSTRUMENT, MEMBER_TOLERANCE, MOST_FLOAT, LEAST_FLOAT],
        otherwise: "measure the members and write what they are, or permit more float",
    },
    Remedy {
        checks: &["chain_agrees", "chain_slip", "stack_took_up", "loose_shims"],
        levers: &[],
        otherwise: "a reading does not go with the others: measure them again, pressed together, and write what you find",
    },
    Remedy {
        checks: &["at_hand"],
        levers: &[MOST_FLOAT, LEAST_FLOAT],
        otherwise: "make one shim of the width above instead of a set of those at hand",
    },
    Remedy {
        checks: &["stock", "thin_shim"],
        levers: &[Lever::free("offset", Grid::Length(0.1, 0.005, -20.0, 20.0))],
        otherwise: "write the stock that you have: stock = [\"1.5 mm\", \"2 mm\"]",
    },
    Remedy {
        checks: &["ring_wall"],
        levers: &[Lever::free("outside_diameter", SIZE), Lever::free("bore", SIZE)],
        otherwise: "a wider ring",
    },
];
