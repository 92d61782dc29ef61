//! What may be moved to clear a finding of a plate.

use crate::families::common::levers::{BOLTS, GRADES, PLATE, PLATE_STEELS, ROUGH, SIZE, SMALL, THREADS};
use crate::record::lever::{Lever, Remedy};

const THICK: Lever = Lever::bought("thickness", PLATE);
const STEEL: Lever = Lever::bought("material", PLATE_STEELS);
const LENGTH: Lever = Lever::free("length", ROUGH);
const WIDTH: Lever = Lever::free("width", ROUGH);
const DISC: Lever = Lever::free("diameter", ROUGH);
const BORE: Lever = Lever::free("bore", ROUGH);
const LEG: Lever = Lever::free("leg", ROUGH);
const HOLE: Lever = Lever::free("hole.*.diameter", SIZE);
const SLOT: Lever = Lever::free("hole.*.length", SIZE);
const CIRCLE: Lever = Lever::free("hole.*.circle", ROUGH);
const THREAD: Lever = Lever::bought("hole.*.thread", THREADS);
const CLASS: Lever = Lever::bought("hole.*.class", BOLTS);
const GRADE: Lever = Lever::bought("hole.*.class", GRADES);
const CORNER: Lever = Lever::free("inner_radius", SMALL);

/// Remedies by check.
pub const REMEDIES: &[Remedy] = &[
    Remedy {
        checks: &["laser_hole", "bolt_passes"],
        levers: &[HOLE, SLOT, THICK, THREAD],
        otherwise: "a larger hole or a thinner plate, or drill it from a mark",
    },
    Remedy {
        checks: &["web", "edge_distance"],
        levers: &[LENGTH, WIDTH, DISC, BORE, LEG, HOLE, SLOT, CIRCLE, THREAD],
        otherwise: "a larger plate, or the holes further apart and further from the edge",
    },
    Remedy {
        checks: &["thread_strips"],
        levers: &[THICK, THREAD, CLASS, GRADE, STEEL],
        otherwise: "a thicker plate, a nut behind it, a softer bolt with its own torque",
    },
    Remedy {
        checks: &["inner_corner"],
        levers: &[CORNER],
        otherwise: "round the corner in the drawing by half the thickness at least",
    },
    Remedy {
        checks: &["bolt_group", "bearing", "section_bending"],
        levers: &[THREAD, CLASS, GRADE, THICK, WIDTH, LEG, STEEL],
        otherwise: "more bolts, or further apart; the load nearer to them; a thicker plate",
    },
];
