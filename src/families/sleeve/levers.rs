//! What may be moved to clear a finding of a sleeve.

use crate::families::common::levers::{FINE, SHAFTS, SIZE, SLEEVES, SMALL};
use crate::record::lever::{Grid, Lever, Remedy};

const OUTSIDE: Lever = Lever::free("outside_class", SHAFTS);
const SHAFT_CLASS: Lever = Lever::free("shaft.class", SHAFTS);
const LENGTH: Lever = Lever::free("length", SIZE);
const STEEL: Lever = Lever::bought("material", SLEEVES);
const ROLLERS: Lever = Lever::bought("runs_under.rollers", Grid::Count(4, 80));
const ROLLER_LENGTH: Lever = Lever::bought("runs_under.roller_length", Grid::Length(0.5, 0.0625, 2.0, 100.0));
const ROLLER: Lever = Lever::bought("runs_under.roller_diameter", Grid::Length(0.5, 0.03125, 1.0, 20.0));
const SEGMENT_STEEL: Lever = Lever::bought("segment.*.material", SLEEVES);
const CLEARANCE: Lever = Lever::free("runs_under.clearance", Grid::Words(&["small", "normal", "large"]));
const NEEDLE_BORE: Lever = Lever::free("runs_under.needle_bore_class", Grid::Words(&["F6", "G5", "G6", "H5", "H6"]));
const ROLLER_PLACE: Lever = Lever::free("runs_under.position", SIZE);
const SEGMENT_LENGTH: Lever = Lever::free("segment.*.length", SIZE);
const SEGMENT_OUTSIDE: Lever = Lever::free("segment.*.outside_diameter", SIZE);

/// Remedies by check.
pub const REMEDIES: &[Remedy] = &[
    Remedy {
        checks: &["grease_path", "grease_to_rollers", "water"],
        levers: &[
            Lever::free("grease_hole.position", SIZE),
            Lever::free("grease_hole.diameter", SMALL),
            Lever::free("groove.width", SMALL),
            Lever::bought("runs_under.sealed", Grid::Flag),
        ],
        otherwise: "lead the grease to where it is wanted, and keep the water out",
    },
    Remedy {
        checks: &["spacer_clear", "spacer_limits"],
        levers: &[SEGMENT_OUTSIDE],
        otherwise: "spacers a little smaller than the raceway",
    },
    Remedy {
        checks: &["raceway_dents", "static_safety", "load_factor"],
        levers: &[
            STEEL,
            SEGMENT_STEEL,
            CLEARANCE,
            Lever::free("runs_under.load_factor", Grid::Number(0.1, 1.0, 50.0)),
            ROLLERS,
            ROLLER_LENGTH,
            ROLLER,
        ],
        otherwise: "harder, or more rollers under the load",
    },
    Remedy {
        checks: &["raceway_hardness", "case_depth"],
        levers: &[STEEL, SEGMENT_STEEL, Lever::free("runs_under.case_depth", Grid::Length(0.1, 0.005, 0.1, 10.0))],
        otherwise: "a steel that hardens through",
    },
    Remedy {
        checks: &["hardness_made"],
        levers: &[STEEL, SEGMENT_STEEL],
        otherwise: "a steel that is hardened here, or no hardness written",
    },
    Remedy {
        checks: &["swing_renews_grease"],
        levers: &[ROLLERS],
        otherwise: "grease it more often, and turn it right round now and then",
    },
    Remedy {
        checks: &["raceway_class", "running_clearance", "clearance_in_service"],
        levers: &[OUTSIDE, NEEDLE_BORE, CLEARANCE, SHAFT_CLASS],
        otherwise: "grind the raceway to the rollers as measured",
    },
    Remedy {
        checks: &["raceway_length", "joints_clear", "chain_fills"],
        levers: &[SEGMENT_LENGTH, ROLLER_PLACE, LENGTH, Lever::free("runs_under.end_float", FINE)],
        otherwise: "a longer raceway",
    },
];
