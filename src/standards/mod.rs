//! Tables of published standards, and the questions a part asks of them.
//!
//! Every table is compile-time data in the order of the printed page, with source and confirmation beside each
//! row. Nothing is read at run time and nothing here knows of part files, reports or files on disk.

pub mod ansi_b4_1;
pub mod bolting;
pub mod bushings;
pub mod clearance_holes;
pub mod coatings;
pub mod drills;
pub mod fit;
pub mod fitting;
pub mod friction;
pub mod galvanic;
pub mod iso1119;
pub mod iso2768;
pub mod iso286;
pub mod materials;
pub mod o_rings;
pub mod processes;
pub(crate) mod steps;
pub mod stock;
pub mod threads;
pub mod welding;

pub(crate) use crate::suggest::nearest_names;
