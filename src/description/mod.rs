//! Reading part files: TOML with units, every fault found at once and shown in its place.

mod document;
mod fields;
mod gate;
mod problem;
mod syntax;
mod values;

pub use document::{Document, MAX_BYTES, decode};
pub use fields::Fields;
pub use problem::{Problem, position, render_all};
