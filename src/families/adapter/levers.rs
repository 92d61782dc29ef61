//! What may be moved to clear a finding of an adapter.

use crate::families::common::levers::{BOLTS, GRADES, HOLES, PLATE, ROUGH, SHAFTS, SIZE, SMALL, STEELS, THREADS};
use crate::record::lever::{Grid, Lever, Remedy};

const OUTSIDE: Lever = Lever::free("outside_diameter", ROUGH);
const THICK: Lever = Lever::bought("thickness", PLATE);
const BORE: Lever = Lever::free("bore", SIZE);
const BORE_BELOW: Lever = Lever::free("bore_below", SIZE);
const STEEL: Lever = Lever::bought("material", STEELS);
const SINK: Grid = Grid::Words(&["counterbored"]);
const TURN: Grid = Grid::Angle(0.5, -180.0, 180.0);
const MANY: Grid = Grid::Count(3, 24);

/// Remedies by check.
pub const REMEDIES: &[Remedy] = &[
    Remedy {
        checks: &["adapter_web", "edge_distance", "head_seats", "tool_room", "bearing"],
        levers: &[
            Lever::free("upper.first_angle", TURN),
            Lever::free("lower.first_angle", TURN),
            Lever::free("upper.circle", ROUGH),
            Lever::free("lower.circle", ROUGH),
            OUTSIDE,
            Lever::free("upper.thread_depth", ROUGH),
            Lever::free("lower.thread_depth", ROUGH),
            Lever::free("upper.number", MANY),
            Lever::free("lower.number", MANY),
            Lever::bought("upper.thread", THREADS),
            Lever::bought("lower.thread", THREADS),
            Lever::free("upper.mate_diameter", ROUGH),
            Lever::free("lower.mate_diameter", ROUGH),
            BORE,
            BORE_BELOW,
            THICK,
        ],
        otherwise: "turn one pattern by half its pitch, move its circle, or take smaller or fewer bolts",
    },
    Remedy {
        checks: &["bore_depth"],
        levers: &[BORE, BORE_BELOW, Lever::free("thickness", ROUGH)],
        otherwise: "two adapters one on the other, or have it bored elsewhere",
    },
    Remedy {
        checks: &["hold_out"],
        levers: &[OUTSIDE, Lever::free("thickness", ROUGH)],
        otherwise: "a thicker or a shorter spacer, or bar that is bought ground to size",
    },
    Remedy {
        checks: &["head_under_mate"],
        levers: &[
            Lever::free("upper.hole", SINK),
            Lever::free("lower.hole", SINK),
            Lever::free("upper.circle", ROUGH),
            Lever::free("lower.circle", ROUGH),
        ],
        otherwise: "sink the heads, tap the pattern, or put it on a circle beyond the mate",
    },
    Remedy {
        checks: &["metal_under_head"],
        levers: &[THICK, Lever::bought("upper.thread", THREADS), Lever::bought("lower.thread", THREADS)],
        otherwise: "a thicker adapter or smaller bolts",
    },
    Remedy {
        checks: &["thread_strips"],
        levers: &[
            Lever::free("upper.thread_depth", ROUGH),
            Lever::free("lower.thread_depth", ROUGH),
            THICK,
            Lever::bought("upper.class", BOLTS),
            Lever::bought("lower.class", BOLTS),
            Lever::bought("upper.class", GRADES),
            Lever::bought("lower.class", GRADES),
            Lever::bought("upper.thread", THREADS),
            Lever::bought("lower.thread", THREADS),
        ],
        otherwise: "more thread, weaker bolts drawn with their torque, or nuts instead of the thread",
    },
    Remedy {
        checks: &["face_opens", "face_slides", "flange_bends"],
        levers: &[
            Lever::bought("upper.thread", THREADS),
            Lever::bought("lower.thread", THREADS),
            Lever::bought("upper.class", BOLTS),
            Lever::bought("lower.class", BOLTS),
            Lever::bought("upper.class", GRADES),
            Lever::bought("lower.class", GRADES),
            Lever::free("upper.number", MANY),
            Lever::free("lower.number", MANY),
            Lever::free("upper.circle", ROUGH),
            Lever::free("lower.circle", ROUGH),
            THICK,
            STEEL,
            Lever::free("load.lever", ROUGH),
            Lever::free("load.friction", Grid::Number(0.05, 0.1, 0.5)),
        ],
        otherwise: "more or larger bolts on larger circles, a thicker adapter, a register, or less load",
    },
    Remedy {
        checks: &["register_goes_in"],
        levers: &[
            Lever::free("upper.register_class", SHAFTS),
            Lever::free("upper.register_class", HOLES),
            Lever::free("lower.register_class", SHAFTS),
            Lever::free("lower.register_class", HOLES),
            Lever::free("upper.mate_class", SHAFTS),
            Lever::free("upper.mate_class", HOLES),
            Lever::free("lower.mate_class", SHAFTS),
            Lever::free("lower.mate_class", HOLES),
        ],
        otherwise: "a looser class, such as g6 in H7",
    },
    Remedy {
        checks: &["register_catches"],
        levers: &[
            Lever::free("upper.register_height", SMALL),
            Lever::free("lower.register_height", SMALL),
            Lever::bought("upper.gasket", SMALL),
            Lever::bought("lower.gasket", SMALL),
        ],
        otherwise: "a higher register or a thinner gasket",
    },
    Remedy {
        checks: &["ring_squeeze_least", "ring_squeeze_most", "ring_fill"],
        levers: &[
            Lever::free("upper.groove_depth", SMALL),
            Lever::free("lower.groove_depth", SMALL),
            Lever::free("upper.groove_width", SMALL),
            Lever::free("lower.groove_width", SMALL),
        ],
        otherwise: "leave depth and width of the groove out: the table's are taken",
    },
    Remedy {
        checks: &["ring_stretch", "ring_upset"],
        levers: &[
            Lever::free("upper.groove_diameter", SIZE),
            Lever::free("lower.groove_diameter", SIZE),
            Lever::bought("upper.ring_inside", SIZE),
            Lever::bought("lower.ring_inside", SIZE),
        ],
        otherwise: "a ring that goes with the groove, or leave groove_diameter out",
    },
    Remedy {
        checks: &["flow_half_angle"],
        levers: &[BORE_BELOW, BORE, THICK],
        otherwise: "a longer adapter, or bores nearer to each other",
    },
    Remedy {
        checks: &["coated_hole", "coated_thread", "thread_sold"],
        levers: &[
            Lever::bought("upper.thread", THREADS),
            Lever::bought("lower.thread", THREADS),
            Lever::free("upper.clearance", Grid::Words(&["medium", "coarse"])),
            Lever::free("lower.clearance", Grid::Words(&["medium", "coarse"])),
            Lever::free("coating_thickness", Grid::Length(0.005, 0.0002, 0.0, 0.2)),
        ],
        otherwise: "plug the holes when it is plated, wider clearance holes, or a standard thread",
    },
];
