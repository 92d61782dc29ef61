//! The sizes and tables that parts of several families have: every name that is recorded, spoken once.

use crate::record::key::{Size, sizes, tables};

sizes! {
    BOLT_CLASS = "bolt_class", "class of the bolt";
    BOLT_BEYOND_WALL = "bolt_beyond_wall", "length of the bolts beyond the wall";
    BOLT_ENGAGED = "bolt_engaged", "thread that takes the bolt";
    BOLT_GRIP = "bolt_grip", "clamped between head and nut or thread";
    BOLT_LENGTH = "bolt_length", "length of the bolts, under the head";
    BOLT_OUT_OF_NUT = "bolt_out_of_nut", "bolt out of its nut";
    BOLT_PULL = "bolt_pull", "pull of one bolt when it is tight";
    COATING_GROWTH = "coating_growth", "each coated surface grows by";
    DOWEL_HOLE = "dowel_hole", "dowel hole, plate and frame";
    DOWEL_PIN = "dowel_pin", "dowel pin";
    HARDNESS = "hardness", "hardness";
    MASS = "mass", "mass of one";
    MASS_ALL = "mass_all", "mass of all";
    REGISTER_BORE = "register_bore", "recess that takes the foot";
    TAPPED_INSTEAD = "tapped_instead", "full thread wanted where the frame is tapped in place of nuts";
    THREAD_CLOSES = "thread_closes", "pitch diameter of the tapped thread would close by";
    THREAD_OVERSIZE = "thread_oversize", "tap oversize for a hot-dipped bolt";
    VOLUME = "volume", "volume";
    WANDER = "wander", "may come back off its place by, each way";
    WELD_LEG = "weld_leg", "leg of the weld all round";
    WELD_METAL = "weld_metal", "metal in the weld";
    WELD_THROAT = "weld_throat", "throat of the weld all round";
}

tables! {
    TIGHTENING_TABLE = "tightening";
    COATED_TABLE = "coated";
}

/// How far the readings of an instrument can be trusted: its kind, and what the shop calls it.
pub fn u_of(kind: &str, called: &str) -> Size {
    Size::one_of(format!("u_{}", kind.replace(' ', "_")), format!("U of the {called} (k = 2)"))
}
