//! The sizes and tables of a tube sleeve: every name that is recorded, spoken once.

use crate::record::key::{sizes, sizes_of_keys, tables};

use super::read;

sizes! {
    BOLT_THREAD = "bolt_thread", "bolt";
    CLEARANCE_WELDED = "clearance_welded", "room round the bolt after welding";
    HOLE_SHARE = "hole_share", "hole over the width of the pierced wall";
    LEFT_SIDEWAYS = "left_sideways", "bending stiffness left, sideways";
    LEFT_TOWARDS = "left_towards", "bending stiffness left, towards the openings";
    LENGTH = "length", "length";
    MARKS_APART = "marks_apart", "marks of the two walls from each other, along the tube";
    SLEEVE_STRESS = "sleeve_stress", "stress in the sleeve under the tight bolt";
    SLEEVE_WALL = "sleeve_wall", "wall of the sleeve";
    TUBE_MATERIAL = "tube_material", "material of the tube";
    TUBE_THROUGH = "tube_through", "tube from outside to outside";
    TUBE_WALL = "tube_wall", "wall of the tube";
    TUBE_WIDTH = "tube_width", "width of the pierced wall";
    TUBE_DRAIN = "tube_drain", "drain hole";
    WALL_YIELDS_FROM = "wall_yields_from", "pull that the tube bears without a sleeve";
    WELD_CHAMFER = "weld_chamfer", "chamfer of the sleeve's ends for the weld, 45°";
}

sizes_of_keys! {
    BORE = read::BORE;
    HOLE = read::HOLE;
    OUTSIDE_DIAMETER = read::OUTSIDE_DIAMETER;
}

tables! {
    ENDS_TABLE = "ends";
}
