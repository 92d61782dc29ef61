//! What may be moved to clear a finding of a tube sleeve.

use crate::families::common::levers::{BOLTS, GRADES, ROUGH, SIZE, SMALL, STEELS, THREADS};
use crate::record::lever::{Grid, Lever, Remedy};

const OUTSIDE: Lever = Lever::free("outside_diameter", SIZE);
const BORE: Lever = Lever::free("bore", SIZE);
const WALL: Lever = Lever::bought("tube.wall", SMALL);
const THREAD: Lever = Lever::bought("bolt.thread", THREADS);

/// Remedies by check.
pub const REMEDIES: &[Remedy] = &[
    Remedy {
        checks: &["sleeve_crushed", "sleeve_buckles"],
        levers: &[
            OUTSIDE,
            BORE,
            Lever::bought("material", STEELS),
            Lever::bought("bolt.class", BOLTS),
            Lever::bought("bolt.class", GRADES),
            THREAD,
        ],
        otherwise: "a thicker sleeve, or a weaker bolt with less torque",
    },
    Remedy {
        checks: &["hold_out"],
        levers: &[OUTSIDE],
        otherwise: "a thicker sleeve, or tube that is bought of this outside and bore",
    },
    Remedy {
        checks: &["bore_depth"],
        levers: &[BORE],
        otherwise: "buy tube of this outside and bore: it is sawn to length and faced only",
    },
    Remedy {
        checks: &["bolt_goes_through", "bolt_head_bears"],
        levers: &[BORE, OUTSIDE, THREAD],
        otherwise: "a bore that lets the bolt through and carries its washer",
    },
    Remedy {
        checks: &["bolt_seats_square"],
        levers: &[Lever::free("ends", Grid::Words(&["straight"]))],
        otherwise: "leave the ends straight",
    },
    Remedy {
        checks: &["hole_in_wall", "weld_on_flat"],
        levers: &[
            OUTSIDE,
            Lever::free("hole", SIZE),
            Lever::bought("tube.width", ROUGH),
            Lever::bought("tube.through", ROUGH),
        ],
        otherwise: "a thinner sleeve, or a wider tube",
    },
    Remedy {
        checks: &["gap_to_weld"],
        levers: &[Lever::free("hole", SIZE), OUTSIDE],
        otherwise: "a hole closer to the sleeve",
    },
    Remedy {
        checks: &["fillet_stands", "groove_throat"],
        levers: &[Lever::free("proud", SMALL), OUTSIDE, BORE, WALL],
        otherwise: "let the sleeve stand out by the leg of its fillet, or carry less on it",
    },
    Remedy {
        checks: &["tube_drains"],
        levers: &[Lever::free("tube.drain", SIZE)],
        otherwise: "drill a drain at the lowest place",
    },
    Remedy {
        checks: &["weld_throat", "welded_wall"],
        levers: &[OUTSIDE, BORE, WALL],
        otherwise: "a larger sleeve or a thicker wall carries more; have the weld worked out",
    },
];
