//! The files that are handed out.

pub mod pdf;
pub mod svg;
