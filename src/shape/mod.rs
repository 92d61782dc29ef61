//! The finished part as geometry: turned from a profile, or flat with holes. No names of families, no file formats.
//!
//! Everything is built through checked constructors, so that a mesher or an exporter never meets a crossing
//! outline, a hole outside its plate or an edge of no length. Volumes and areas are closed forms.

mod across;
mod contour;
mod corners;
mod cutting;
mod error;
mod flat;
pub(crate) mod meeting;
pub(crate) mod near;
mod number;
pub(crate) mod quadrature;
mod segment;
mod turned;
mod web;

pub use across::CrossHole;
pub use contour::{Circle, Contour, Extents, Path};
pub use corners::{Beside, Corner, Corners};
pub use cutting::{Cutting, Mark};
pub use error::ShapeError;
pub use flat::{Bored, Flat, FlatHole};
pub(crate) use segment::HypotMm;
pub use segment::{Arc, Point, Segment, Turn};
pub(crate) use turned::Wall;
pub use turned::{RadialHole, Turned};
pub use web::least_metal;
pub(crate) use web::narrowest;

use crate::units::{Area, Length, Volume};

/// Shortest edge that a shape may have: far below what a shop makes, far above the rounding of an STL file.
pub const SHORTEST_SEGMENT: Length = Length::um(1.0);
/// Largest distance from the origin: 10 m, beyond any part of this kind.
pub const LARGEST_COORDINATE: Length = Length::mm(10_000.0);
/// Largest radius of an arc: 100 m; a flatter arc is a line to every machine in the shop.
pub const LARGEST_RADIUS: Length = Length::mm(100_000.0);
/// Edges that are not neighbours keep at least this distance, mm: half of the shortest edge.
pub(crate) const CLOSEST_EDGES: f64 = 5e-4;

/// The shape of one solid.
#[derive(Clone, PartialEq, Debug)]
pub enum Body {
    /// From the lathe.
    Turned(Turned),
    /// From plate.
    Flat(Flat),
}

impl Body {
    /// Volume.
    pub fn volume(&self) -> Volume {
        match self {
            Self::Turned(t) => t.volume(),
            Self::Flat(f) => f.volume(),
        }
    }
    /// Whole surface.
    #[allow(dead_code, reason = "tests measure with it")]
    pub fn surface(&self) -> Area {
        match self {
            Self::Turned(t) => t.surface(),
            Self::Flat(f) => f.surface(),
        }
    }
}

/// One solid of a part; a part of several solids tells them apart by a suffix to its name.
#[derive(Clone, PartialEq, Debug)]
pub struct Solid {
    /// Added to the part's name for its files, e.g. `segment-2`.
    pub name_suffix: Option<String>,
    /// The shape.
    pub body: Body,
}

impl Solid {
    /// The only solid of a part.
    pub fn only(body: Body) -> Self {
        Self { name_suffix: None, body }
    }
    /// One solid of several.
    pub fn named(suffix: &str, body: Body) -> Self {
        Self { name_suffix: Some(suffix.to_owned()), body }
    }
}
