//! setdown: sizes, fits and checks for the parts that locate a heavy rig, and the files to make them.
//!
//! One way through the house: part file -> `Fields` -> a family's private spec -> [`record::design::Design`] -> outputs.
//! A dimension, a finding or a caution is computed once, recorded in the design, and shown from there.
//!
//! From outside there is one way in, [`run`]. So the compiler sees what nothing in the program uses, and refuses it.

#![forbid(unsafe_code)]

/// The rooms of the house; their files lie beside this one.
#[path = ""]
mod rooms {
    pub mod cli;
    pub mod description;
    pub mod export;
    pub mod families;
    pub mod folder;
    pub mod formulas;
    pub mod job;
    pub mod outline;
    pub mod printable;
    pub mod record;
    pub mod remedy;
    pub mod shape;
    pub mod sheet;
    pub mod shop;
    pub mod slip;
    pub mod source;
    pub mod standards;
    pub mod suggest;
    pub mod units;
    pub mod whole;
}

#[cfg(not(feature = "door"))]
use rooms::*;
/// What the tests and benches of this crate reach into.
#[cfg(feature = "door")]
#[doc(hidden)]
pub use rooms::*;

pub use rooms::cli::run;
