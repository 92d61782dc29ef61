//! Reading part files: TOML with units, every fault found at once and shown in its place.

mod document;
mod fields;
mod gate;
mod parse;
mod problem;
mod syntax;
mod values;

pub use document::{Document, LeftOut, Taken};
pub use fields::Fields;
pub use parse::{MAX_BYTES, decode};
pub use problem::{Problem, position, render_all};
pub use values::Measure;
