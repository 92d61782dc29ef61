//! What may be moved to clear a finding of a stand.

use crate::families::common::levers::{BOLTS, PLATE, PLATE_STEELS, ROUGH, SMALL, THREADS};
use crate::record::lever::{Grid, Lever, Remedy};

const THICKNESS: Lever = Lever::bought("thickness", PLATE);
const STEEL: Lever = Lever::bought("material", PLATE_STEELS);
const RAIL: Lever = Lever::free("rail_depth", ROUGH);
const LEG: Lever = Lever::free("leg_width", ROUGH);
const TOP: Lever = Lever::free("top_width", ROUGH);
const WIDTH: Lever = Lever::free("width", ROUGH);
const LENGTH: Lever = Lever::free("length", ROUGH);
const HEIGHT: Lever = Lever::free("height", ROUGH);
const CLEARANCE: Lever = Lever::free("joint_clearance", SMALL);
const STRIP: Lever = Lever::bought("rolled", Grid::Words(&["strip"]));
const TAPER: Lever = Lever::free("wedge_angle", Grid::Angle(0.5, 1.0, 29.0));

/// Remedies by check.
pub const REMEDIES: &[Remedy] = &[
    Remedy {
        checks: &["stand_rail_bends", "stand_tab_shear", "stand_under_slot"],
        levers: &[RAIL, THICKNESS, LENGTH, STEEL],
        otherwise: "deeper rails, thicker plates, more stands under the load",
    },
    Remedy {
        checks: &["stand_tab_bears"],
        levers: &[THICKNESS, STEEL],
        otherwise: "thicker plates, or more stands under the load",
    },
    Remedy {
        checks: &["stand_top_bends"],
        levers: &[THICKNESS, TOP, STEEL],
        otherwise: "thicker plates, or lay a beam over both rails",
    },
    Remedy {
        checks: &["stand_leg_buckles", "stand_leg_bends"],
        levers: &[RAIL, LEG, THICKNESS, HEIGHT, STEEL],
        otherwise: "thicker plates, broader legs, deeper rails, or more stands under the load",
    },
    Remedy {
        checks: &["stand_tab_pulled"],
        levers: &[RAIL, THICKNESS, STEEL],
        otherwise: "deeper rails, or tie the load back",
    },
    Remedy {
        checks: &["stand_bolt_pulled"],
        levers: &[RAIL, Lever::bought("class", BOLTS), Lever::bought("thread", THREADS)],
        otherwise: "deeper rails, stronger bolts, or tie the load back",
    },
    Remedy {
        checks: &["stand_tips"],
        levers: &[WIDTH, LENGTH, HEIGHT],
        otherwise: "wider feet, a lower stand, or tie the load back",
    },
    Remedy {
        checks: &["stand_whole_tips"],
        levers: &[Lever::free("apart", ROUGH), HEIGHT],
        otherwise: "put the stands farther apart, or tie the load back",
    },
    Remedy {
        checks: &["stand_floor"],
        levers: &[Lever::free("sole", Grid::Length(10.0, 0.5, 40.0, 1000.0))],
        otherwise: "lay a board or a plate under each foot",
    },
    Remedy { checks: &["stand_wedge_holds"], levers: &[TAPER], otherwise: "a slighter taper, dry faces, or bolts" },
    Remedy {
        checks: &["stand_wedge_reserve", "stand_wedges_meet"],
        levers: &[TAPER, TOP, STRIP],
        otherwise: "measure the plate and write measured_thickness, or lock it with bolts",
    },
    Remedy { checks: &["stand_joint_goes_in"], levers: &[CLEARANCE], otherwise: "more clearance in the slots" },
    Remedy {
        checks: &["stand_joint_slack"],
        levers: &[STRIP, CLEARANCE],
        otherwise: "measure the plate at the cutter and write measured_thickness",
    },
    Remedy {
        checks: &["stand_web"],
        levers: &[LEG, RAIL, TOP, LENGTH, THICKNESS],
        otherwise: "thinner plates, or a larger stand",
    },
    Remedy {
        checks: &["stand_fits_sheet"],
        levers: &[HEIGHT, WIDTH, LENGTH],
        otherwise: "a smaller stand, or a cutter with larger sheets: cutter_sheet",
    },
    Remedy {
        checks: &["thread_sold"],
        levers: &[Lever::bought("thread", THREADS)],
        otherwise: "take a thread of a standard pitch",
    },
];
