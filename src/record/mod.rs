//! What a worked part is: its sizes, findings, steps, pictures and solids, and the texts of its numbers. All that outputs may see.

pub mod design;
pub mod drawing;
pub mod key;
pub mod lever;
pub mod look;
pub mod reading;
pub mod show;
pub mod tools;
pub mod value;
pub mod wants;
