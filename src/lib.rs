//! setdown: sizes, fits and checks for the parts that locate a heavy rig, and the files to make them.
//!
//! One way through the house: part file -> `Fields` -> a family's private spec -> [`design::Design`] -> outputs.
//! A dimension, a finding or a caution is computed once, recorded in the design, and shown from there.

#![forbid(unsafe_code)]

pub mod cli;
pub mod description;
pub mod design;
pub mod drawing;
pub mod export;
pub mod families;
pub mod fitting;
pub mod folder;
pub mod job;
pub mod key;
pub mod landing;
pub mod mechanics;
pub mod mesh;
pub mod page;
pub mod printable;
pub mod seating;
pub mod shape;
pub mod shop;
pub mod show;
pub mod slip;
pub mod source;
pub mod standards;
pub mod step_drill;
pub mod suggest;
pub mod turning;
pub mod units;
