//! A drawing of any origin (DXF) as outlines: what is in it, what a cutter would send it back for, and the same made sound.
//!
//! `scan` looks the file through and copies what has outlines, `entities` takes them from the reader with their blocks
//! taken apart, `curve` makes lines and arcs of them, `doubled` leaves out what lies over something else, `join` puts the
//! pieces end to end, `judge` looks at what came of it, `fault` says it. All lengths are mm.

mod affine;
mod curve;
mod doubled;
mod entities;
mod fault;
mod join;
mod judge;
mod layer;
mod nested;
mod scan;

pub use fault::Fault;
pub use judge::{Ask, Inspected, Least, inspect};
pub use layer::Purpose;
pub use scan::{MOST_BYTES, Refusal};
