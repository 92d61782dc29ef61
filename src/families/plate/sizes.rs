//! The handles of what is recorded of a plate.

use crate::record::key::{Size, sizes, sizes_of_keys, tables};

use super::read;

sizes_of_keys! {
    LENGTH = read::LENGTH;
    WIDTH = read::WIDTH;
    DIAMETER = read::DIAMETER;
    BORE = read::BORE;
    CORNER_RADIUS = read::CORNER_RADIUS;
    LEG = read::LEG;
    INNER_RADIUS = read::INNER_RADIUS;
    BLUNT = read::BLUNT;
    THICKNESS = read::THICKNESS;
}

sizes! {
    EXTENT_X = "extent_x", "overall along x";
    EXTENT_Y = "extent_y", "overall along y";
    CUT_AREA = "cut_area", "area as cut";
    CUT_LENGTH = "cut_length", "length of cut";
    PIERCES = "pierces", "cuts begun";
    LOAD_X = "load_x", "load acts at x";
    LOAD_Y = "load_y", "load acts at y";
    BOLT_SHEAR = "bolt_shear", "shear of the bolt that takes most";
    BENDING = "bending", "bending stress beside the bolts";
}

tables! {
    HOLES_TABLE = "holes";
}

/// Thread of a row of tapped holes.
pub fn thread(index: usize) -> Size {
    Size::one_of(format!("hole_{}_thread", index + 1), format!("hole {}, thread", index + 1))
}

/// Diameter or width of a row of holes.
pub fn hole(index: usize) -> Size {
    Size::one_of(format!("hole_{}", index + 1), format!("hole {}", index + 1))
}
