//! setdown: sizes, fits and checks for the parts that locate a heavy rig, and the files to make them.
//!
//! One way through the house: part file -> `Fields` -> a family's private spec -> `Design` -> outputs.
//! A dimension, a finding or a caution is computed once, recorded in the design, and shown from there.

pub mod drawing;
pub mod export;
pub mod page;
pub mod shape;
pub mod source;
pub mod units;
