//! Keys and checks that every family has: name, count, material, coating, environment, general tolerances.

pub mod bolt_length;
pub mod bolted;
mod cautions;
pub mod coated;
mod fasteners;
pub mod gauged;
pub mod gripped;
pub mod hardening;
pub mod levers;
mod limits;
pub mod location;
mod machines;
mod materials;
pub mod measured;
pub mod ordered;
pub mod overhang;
pub mod packed;
pub mod printed;
mod reading;
pub mod ring;
pub mod sizes;
pub mod welded;

pub use cautions::*;
pub use fasteners::*;
pub use limits::*;
pub use machines::*;
pub use materials::*;
pub use measured::MEASURED;
pub use reading::*;
