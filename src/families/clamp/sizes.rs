//! The sizes and tables of a clamp: every name that is recorded, spoken once.

use crate::record::key::{sizes, sizes_of_keys, tables};

use super::read;

sizes! {
    ASKED = "force_asked", "force at the surface of the tube that is asked for";
    BORE_AT_MOST = "bore_at_most", "bore at most for that grip";
    BORE_BEFORE = "bore_before", "bore of the clamp at hand";
    CLEARANCE_MAX = "clearance_max", "greatest clearance over the tube";
    CLEARANCE_MIN = "clearance_min", "least clearance over the tube";
    DRILL_STEP = "drill_step", "step of the drill that makes the bore";
    EAR_FLAT = "ear_flat", "flat of an ear begins, from the axis";
    EAR_STRESS = "ear_stress", "bending stress of an ear";
    FAR_HOLE = "far_hole", "hole in the far ear";
    GAP_LEFT = "gap_left", "least gap that is left when it is tight";
    LINER_BORE = "liner_bore", "bore of the liner";
    LINER_OUTSIDE = "liner_outside", "outside of the liner";
    LINER_WALL = "liner_wall", "wall of the liner";
    PRESSED = "pressed", "force that presses each side on the tube, at least";
    PULL_TO_CLOSE = "pull_to_close", "pull that closes the ring on the tube";
    RING_STRESS = "ring_stress", "stress in the ring opposite to its slit";
    SCREW_DISTANCE = "screw_distance", "screws from the axis of the tube";
    SCREW_HOLE = "screw_hole", "hole in the near ear";
    SCREW_PITCH = "screw_pitch", "screws from each other";
    SCREW_THREAD = "screw_thread", "screws";
    SKIPPED = "steps_skipped", "steps that run idle in the bore";
    SLIPS_ALONG = "slips_along", "force along the tube that slips it, at least";
    SLIPS_ROUND = "slips_round", "torque that slips it, at least";
    SLIPS_ROUND_MOST = "slips_round_most", "torque that slips it, at most";
    TUBE_DIAMETER = "tube_diameter", "diameter of the tube";
    TUBE_MATERIAL = "tube_material", "material of the tube";
    TUBE_STRESS = "tube_stress", "squeeze of the tube, hoop stress";
    TUBE_WALL = "tube_wall", "wall of the tube";
    WALL_LEFT = "wall_left", "wall of the ring";
}

sizes_of_keys! {
    BORE = read::BORE;
    EAR_HEIGHT = read::EAR_HEIGHT;
    EAR_THICKNESS = read::EAR_THICKNESS;
    GAP = read::GAP;
    OUTSIDE_DIAMETER = read::OUTSIDE_DIAMETER;
    WIDTH = read::WIDTH;
}

tables! {
    LIES_TABLE = "lies";
    STEPS_TABLE = "steps";
}
