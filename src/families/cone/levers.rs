//! What may be moved to clear a finding of a cone.

use crate::families::common::levers::{
    BOLTS, GRADES, HALF_ANGLE, HARDER_BOLTED_ON as HARDER, PLATE, ROUGH, SIZE, SMALL, STEELS, THREADS,
};
use crate::record::lever::{Grid, Lever, Remedy};

const HALF: Lever = Lever::free("half_angle", HALF_ANGLE);
const BASE: Lever = Lever::free("base_diameter", SIZE);
const TIP: Lever = Lever::free("tip_diameter", SIZE);
const HEIGHT: Lever = Lever::free("height", SIZE);
const FOOT: Lever = Lever::free("foot", SIZE);
const STEEL: Lever = Lever::bought("material", STEELS);
const THREAD: Lever = Lever::bought("bolt.thread", THREADS);
const DEPTH: Lever = Lever::free("bolt.depth", Grid::Length(0.5, 0.02, 1.0, 200.0));

const PACKING: Lever = Lever::free("bolt.packing", SMALL);
const ALL_OVER: Lever = Lever::free("bolt.packed", Grid::Words(&["all over"]));

/// Remedies by check.
pub const REMEDIES: &[Remedy] = &[
    Remedy {
        checks: &["flank_as_made", "base_as_made", "readings_agree", "compound_zero"],
        levers: &[],
        otherwise: "cut, shim or measure as it says, and record the new size",
    },
    Remedy {
        checks: &["self_holding", "slides_home"],
        levers: &[HALF, BASE, TIP, HEIGHT],
        otherwise: "a half-angle of 20 to 45 degrees slides home and comes free; grease helps while it lasts",
    },
    Remedy {
        checks: &["wall_at_bolt", "nose_width", "stub_arbor"],
        levers: &[
            TIP,
            BASE,
            HEIGHT,
            Lever::free("tip_radius", SMALL),
            THREAD,
            Lever::free("bolt.way", Grid::Words(&["from below"])),
        ],
        otherwise: "a smaller screw, or a screw from below",
    },
    Remedy {
        checks: &["thread_engagement", "thread_strips"],
        levers: &[DEPTH, HEIGHT, FOOT, THREAD],
        otherwise: "tap it deeper, or take a smaller thread",
    },
    Remedy {
        checks: &["over_tapped_hole"],
        levers: &[DEPTH, HEIGHT, FOOT, THREAD],
        otherwise: "tap it less deep, or make the cone higher",
    },
    Remedy {
        checks: &["hold_out", "lathe_route"],
        levers: &[HEIGHT, FOOT, BASE, HALF],
        otherwise: "steady the bar, hold it on an arbor, or have it turned elsewhere",
    },
    Remedy {
        checks: &["compound_travel"],
        levers: &[HEIGHT, BASE, TIP, HALF],
        otherwise: "use a taper attachment, or cut the flank in two settings; what is counted is compound_travel of shop.toml",
    },
    Remedy {
        checks: &["cone_root", "cone_shear"],
        levers: &[
            BASE, TIP, HEIGHT, HALF, STEEL, HARDER[0], HARDER[1], HARDER[2], HARDER[3], HARDER[4], HARDER[5],
            HARDER[6], HARDER[7],
        ],
        otherwise: "a thicker or a lower cone, or a harder steel; a hard steel is not welded but bolted on",
    },
    Remedy {
        checks: &["cone_bolt"],
        levers: &[
            THREAD,
            Lever::bought("bolt.class", BOLTS),
            Lever::bought("bolt.class", GRADES),
            Lever::free("foot_diameter", ROUGH),
            BASE,
            PACKING,
            ALL_OVER,
            Lever::free("bolt.register", Grid::Words(&["foot"])),
        ],
        otherwise: "a larger or stronger screw, a thinner packing as wide as the foot, or weld it on",
    },
    Remedy {
        checks: &["crossbar_wall"],
        levers: &[
            Lever::bought("crossbar_wall", PLATE),
            Lever::bought("crossbar_material", STEELS),
            BASE,
            Lever::free("foot_diameter", ROUGH),
        ],
        otherwise: "a backing plate under the cone spreads its load",
    },
];
