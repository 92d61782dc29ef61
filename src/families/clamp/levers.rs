//! What may be moved to clear a finding of a clamp.

use crate::families::common::levers::{BOLTS, HOLES, PLATE, PLATE_STEELS, ROUGH, SIZE, SMALL, THREADS};
use crate::record::lever::{Grid, Lever, Remedy};

const BORE: Lever = Lever::free("bore", SIZE);
const BORE_CLASS: Lever = Lever::free("bore_class", HOLES);
/// What a boring tool, a step drill and a printer hold, from the coarse end.
const COARSER: Lever = Lever::free("bore_class", Grid::Words(&["H15", "H14", "H13", "H12", "H11", "H10", "H9", "H8"]));
const OUTSIDE: Lever = Lever::free("outside_diameter", SIZE);
/// It is cut from plate: up to what is stocked. The tube is as it is, its wall and its tolerance no lever.
const WIDTH: Lever = Lever::bought("width", PLATE);
const GAP: Lever = Lever::free("gap", SMALL);
const EAR: Lever = Lever::free("ear_thickness", SIZE);
const EAR_HEIGHT: Lever = Lever::free("ear_height", SIZE);
const DISTANCE: Lever = Lever::free("screw.distance", SIZE);
const THREAD: Lever = Lever::bought("screw.thread", THREADS);
const CLASS: Lever = Lever::bought("screw.class", BOLTS);
const NUMBER: Lever = Lever::free("screw.number", Grid::Count(1, 6));
const STEEL: Lever = Lever::bought("material", PLATE_STEELS);
const LINER: Lever = Lever::free("liner.wall", SMALL);

/// Remedies by check.
pub const REMEDIES: &[Remedy] = &[
    Remedy {
        checks: &["clamp_goes_over"],
        levers: &[BORE, LINER],
        otherwise: "a larger bore, or measure the tube and write its tolerance",
    },
    Remedy {
        checks: &["clamp_gap"],
        levers: &[BORE_CLASS, BORE, GAP, LINER],
        otherwise: "a wider gap, a closer bore, or a liner: [liner] in the file",
    },
    Remedy {
        checks: &["clamp_slips"],
        levers: &[BORE_CLASS, BORE, NUMBER, CLASS, THREAD, EAR_HEIGHT, DISTANCE],
        otherwise: "more pull, a closer bore, less load, or a pin through both",
    },
    Remedy {
        checks: &["clamp_pull_to_close", "clamp_ring", "clamp_stiff"],
        levers: &[BORE_CLASS, BORE, OUTSIDE, LINER, STEEL],
        otherwise: "a closer bore, or two halves",
    },
    Remedy {
        checks: &["clamp_ear"],
        levers: &[EAR, DISTANCE, WIDTH, CLASS, STEEL],
        otherwise: "thicker ears, the screws closer to the ring, or weaker screws",
    },
    Remedy {
        checks: &["clamp_squeezes"],
        levers: &[WIDTH, CLASS, THREAD, NUMBER],
        otherwise: "a wider clamp, less torque, or a plug in the tube",
    },
    Remedy {
        checks: &["clamp_wall"],
        levers: &[OUTSIDE, BORE],
        otherwise: "a ring of a larger outside, or a smaller bore",
    },
    Remedy {
        checks: &["clamp_screw_hole", "clamp_head_seats"],
        levers: &[DISTANCE, EAR_HEIGHT, THREAD, EAR],
        otherwise: "screws further out on taller ears, or smaller ones",
    },
    Remedy {
        checks: &["step_drill_reaches"],
        levers: &[WIDTH, Lever::bought("opened.step_height", ROUGH)],
        otherwise: "bore it on the lathe: leave [opened] out",
    },
    Remedy {
        checks: &["step_drill_guided"],
        levers: &[],
        otherwise: "a drill whose first steps go into the bore at hand, all its steps listed, or bore it: leave [opened] out",
    },
    Remedy {
        checks: &["bore_process"],
        levers: &[COARSER],
        otherwise: "a coarser class, or bore it on the lathe: leave [opened] out",
    },
    Remedy {
        checks: &["grip_as_made", "gap_as_made"],
        levers: &[THREAD, CLASS],
        otherwise: "a liner, another tube, or larger screws; where metal is left, a cut to the size of the tube",
    },
    Remedy {
        checks: &["goes_over_as_made", "ring_as_made"],
        levers: &[],
        otherwise: "open the bore to the tube as it is; a ring whose back yields takes a closer tube, or a liner",
    },
    Remedy {
        checks: &["bore_depth", "hold_out"],
        levers: &[WIDTH],
        otherwise: "a narrower clamp, or two of them side by side",
    },
    Remedy { checks: &["clamp_liner"], levers: &[LINER, BORE], otherwise: "roll it from sheet of that thickness" },
    Remedy {
        checks: &["thread_strips"],
        levers: &[EAR, CLASS, Lever::free("screw.into", Grid::Words(&["nut"])), THREAD],
        otherwise: "a thicker ear, a nut instead of the thread, or weaker screws",
    },
    Remedy {
        checks: &["coated_hole", "coated_thread", "thread_sold"],
        levers: &[THREAD, Lever::free("coating_thickness", Grid::Length(0.005, 0.0002, 0.0, 0.2))],
        otherwise: "plug the holes when it is plated, or a standard thread",
    },
];
