//! What may be moved to clear a finding of a try-out.

use crate::families::common::levers::{PLATE, ROUGH, SMALL};
use crate::record::lever::{Grid, Lever, Remedy};

/// Remedies by check.
pub const REMEDIES: &[Remedy] = &[
    Remedy {
        checks: &["ladder_step", "whole_layers"],
        levers: &[Lever::free("step", SMALL), Lever::free("nominal", SMALL)],
        otherwise: "a coarser step, or rungs in whole layers",
    },
    Remedy {
        checks: &["laser_rung"],
        levers: &[
            Lever::bought("thickness", PLATE),
            Lever::free("nominal", ROUGH),
            Lever::free("number", Grid::Count(2, 25)),
        ],
        otherwise: "a thinner plate, or print it",
    },
    Remedy {
        checks: &["printer_bed"],
        levers: &[Lever::free("number", Grid::Count(2, 25)), Lever::free("thickness", PLATE)],
        otherwise: "fewer rungs, or print it in pieces",
    },
    Remedy {
        checks: &["hold_out"],
        levers: &[Lever::free("length", ROUGH)],
        otherwise: "shorter pieces, or bar that is bought ground to size",
    },
    Remedy {
        checks: &["gauge_tolerance"],
        levers: &[],
        otherwise: "a gauge for that class is bought; in this shop a micrometer or a bore gauge tells it",
    },
    Remedy { checks: &["edge_tells", "offset_found"], levers: &[], otherwise: "write it into shop.toml" },
];
