//! What may be moved to clear a finding of a cup plate.

use crate::families::common::levers::{
    BOLTS, GRADES, HALF_ANGLE, HARDER_BOLTED_ON, HOLES, PLATE, PLATE_STEELS, ROUGH, SIZE, SMALL, STEELS, THREADS,
};
use crate::record::lever::{Grid, Lever, Remedy};

const HOLE: Lever = Lever::free("hole.diameter", SIZE);
const SLOT: Lever = Lever::free("hole.length", SIZE);
const CHAMFER: Lever = Lever::free("hole.chamfer", SMALL);
const RIM: Lever = Lever::free("hole.rim_radius", Grid::Length(0.5, 0.02, 0.5, 20.0));
const SEAT_ANGLE: Lever = Lever::free("hole.half_angle", HALF_ANGLE);
const THICK: Lever = Lever::bought("thickness", PLATE);
const STEEL: Lever = Lever::bought("material", PLATE_STEELS);
const LENGTH: Lever = Lever::free("length", ROUGH);
const WIDTH: Lever = Lever::free("width", ROUGH);
const DISC: Lever = Lever::free("diameter", ROUGH);
const CORNER: Lever = Lever::free("corner_radius", SMALL);
const ALONG: Lever = Lever::free("mounting.spacing.0", ROUGH);
const ACROSS: Lever = Lever::free("mounting.spacing.1", ROUGH);
const CIRCLE: Lever = Lever::free("mounting.circle", ROUGH);
const NUMBER: Lever = Lever::free("mounting.number", Grid::Count(3, 12));
const BOLT_HOLE: Lever = Lever::free("mounting.diameter", SIZE);
const THREAD: Lever = Lever::bought("mounting.thread", THREADS);
const STOP: Lever = Lever::free("hole.stop_depth", SMALL);
/// A cone carries other cups too, and seats that stand clear of it.
const OTHERS: &str = "then check what else is made to that cone";
const CONE_ANGLE: Lever = Lever::of_mate("mates", "half_angle", HALF_ANGLE).then(OTHERS);
const CONE_TIP: Lever = Lever::of_mate("mates", "tip_diameter", SIZE).then(OTHERS);
const CONE_BASE: Lever = Lever::of_mate("mates", "base_diameter", SIZE).then(OTHERS);
const CONE_HEIGHT: Lever = Lever::of_mate("mates", "height", SIZE).then(OTHERS);
const CONE_NOSE: Lever = Lever::of_mate("mates", "tip_radius", SMALL).then(OTHERS);
const CONE_STEEL: Lever = Lever::bought_for_mate("mates", "material", STEELS);
/// Of a cone that was welded on.
const HARDER: [Lever; 8] = [
    HARDER_BOLTED_ON[0].for_mate("mates"),
    HARDER_BOLTED_ON[1].for_mate("mates"),
    HARDER_BOLTED_ON[2].for_mate("mates"),
    HARDER_BOLTED_ON[3].for_mate("mates"),
    HARDER_BOLTED_ON[4].for_mate("mates"),
    HARDER_BOLTED_ON[5].for_mate("mates"),
    HARDER_BOLTED_ON[6].for_mate("mates"),
    HARDER_BOLTED_ON[7].for_mate("mates"),
];

/// Remedies by check.
pub const REMEDIES: &[Remedy] = &[
    Remedy {
        checks: &["seat_as_made"],
        levers: &[],
        otherwise: "cut, shim or measure as it says, and record the new size",
    },
    Remedy { checks: &["slot_is_hole"], levers: &[SLOT, HOLE], otherwise: "make the slot longer, or the hole round" },
    Remedy {
        checks: &["laser_hole", "bolt_passes"],
        levers: &[BOLT_HOLE, HOLE, THICK, THREAD],
        otherwise: "drill the hole: a mark on MARK in place of the cut",
    },
    Remedy {
        checks: &["edge_distance", "web", "wall_at_hole", "corner_radius"],
        levers: &[LENGTH, WIDTH, DISC, CORNER, ALONG, ACROSS, CIRCLE, NUMBER, HOLE, SLOT, BOLT_HOLE, THREAD],
        otherwise: "a larger plate, or the holes further apart",
    },
    Remedy {
        checks: &["step_drill_plate", "step_stop", "step_envelope", "other_edge"],
        levers: &[STOP, Lever::free("hole.step_height", SMALL), THICK, CONE_ANGLE, HOLE, CHAMFER, SEAT_ANGLE],
        otherwise: "bore the hole instead: kind = \"turned\", or measure the plate and the drill and write what they are",
    },
    Remedy {
        checks: &["bottoms_out"],
        levers: &[HOLE, STOP, CHAMFER, CONE_BASE, CONE_HEIGHT, CONE_ANGLE],
        otherwise: "a smaller hole sits higher on the cone",
    },
    Remedy {
        checks: &["cone_enters"],
        levers: &[HOLE, CHAMFER, STOP, CONE_TIP, CONE_NOSE],
        otherwise: "a larger hole, or a cone with a smaller nose",
    },
    Remedy {
        checks: &["seat_angle"],
        levers: &[SEAT_ANGLE, CONE_ANGLE],
        otherwise: "cut both at one setting of the compound slide",
    },
    Remedy {
        checks: &["capture"],
        levers: &[HOLE, CHAMFER, CONE_TIP, CONE_HEIGHT, CONE_NOSE, CONE_ANGLE],
        otherwise: "a larger hole or a slimmer nose takes in more",
    },
    Remedy {
        checks: &["slides_home", "comes_free"],
        levers: &[CONE_ANGLE, SEAT_ANGLE],
        otherwise: "a half-angle of 20 to 45 degrees slides home and comes free",
    },
    Remedy {
        checks: &["bedding_in", "seat_pressure"],
        levers: &[CHAMFER, RIM, HOLE, STEEL, CONE_STEEL],
        otherwise: "less load on this cup; a round hole may get a turned seat that carries on its whole flank, a slot edges in an insert of hardened steel under a cone as hard; a rim that settles and is not crushed: set the frame down several times, measure, and shim after that",
    },
    Remedy {
        checks: &["compound_travel"],
        levers: &[THICK, SEAT_ANGLE],
        otherwise: "bore the seat in two settings of the slide; what is counted is compound_travel of shop.toml",
    },
    Remedy {
        checks: &["coating_rise"],
        levers: &[
            Lever::free("seat_masked", Grid::Flag),
            Lever::of_mate("mates", "seat_masked", Grid::Flag),
            Lever::free("coating_thickness", Grid::Length(0.005, 0.0002, 0.0, 0.2)),
        ],
        otherwise: "mask the seat when it is coated: seat_masked = true in the files of cone and cup",
    },
    Remedy {
        checks: &["hole_process"],
        levers: &[Lever::free("hole.class", HOLES), Lever::free("general_tolerance", Grid::Words(&["m", "c"])), THICK],
        otherwise: "bore the hole after cutting, or widen its limits",
    },
    Remedy {
        checks: &["cup_bolts"],
        levers: &[
            THREAD,
            NUMBER,
            Lever::bought("mounting.class", BOLTS),
            Lever::bought("mounting.class", GRADES),
            Lever::free("mounting.packing", SMALL),
            Lever::free("mounting.packed", Grid::Words(&["all over"])),
            BOLT_HOLE,
        ],
        otherwise: "more or larger bolts, a thinner packing as wide as the plate; dowels take the push across",
    },
    Remedy {
        checks: &["cone_root", "cone_shear"],
        levers: &[
            CONE_BASE,
            CONE_TIP,
            CONE_HEIGHT,
            CONE_STEEL,
            HARDER[0],
            HARDER[1],
            HARDER[2],
            HARDER[3],
            HARDER[4],
            HARDER[5],
            HARDER[6],
            HARDER[7],
        ],
        otherwise: "a thicker or a lower cone, or a harder steel; a hard steel is not welded but bolted on",
    },
    Remedy {
        checks: &["cone_bolt"],
        levers: &[
            Lever::bought_for_mate("mates", "bolt.thread", THREADS),
            Lever::bought_for_mate("mates", "bolt.class", BOLTS),
            Lever::bought_for_mate("mates", "bolt.class", GRADES),
            Lever::of_mate("mates", "foot_diameter", ROUGH),
            CONE_BASE,
            Lever::of_mate("mates", "bolt.packing", SMALL),
            Lever::of_mate("mates", "bolt.register", Grid::Words(&["foot"])),
        ],
        otherwise: "a larger or stronger screw in the cone, a foot under it in a register (register = \"foot\" in its [bolt], beside foot), or weld it on",
    },
    Remedy {
        checks: &["crossbar_wall"],
        levers: &[
            Lever::bought_for_mate("mates", "crossbar_wall", PLATE),
            Lever::bought_for_mate("mates", "crossbar_material", STEELS),
            CONE_BASE,
            Lever::of_mate("mates", "foot_diameter", ROUGH),
        ],
        otherwise: "a backing plate under the cone spreads its load",
    },
    Remedy {
        checks: &["hole_spread", "rim_shear", "plate_bending"],
        levers: &[THICK, STEEL, LENGTH, WIDTH, DISC, ALONG, ACROSS, CIRCLE, NUMBER],
        otherwise: "a thicker plate, a harder one, or bolts nearer to the hole",
    },
    Remedy { checks: &["load_unjudged"], levers: &[], otherwise: "name the cone: mates = \"cone.toml\"" },
];
