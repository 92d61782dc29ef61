//! Closed triangle meshes of shapes, for printing and for milling programs that read nothing else.
//!
//! Every corner of a triangle lies on the true surface: outside diameters come out inscribed, bores too (the flats
//! of a bored circle stand into the hole by at most the chord tolerance). The corners are shared by index, never
//! matched by distance, so that a mesh cannot have cracks.
//!
//! Counts stay next to the least possible: a circle of radius R needs n = ⌈π / acos(1 − tol/R)⌉ chords, a turned
//! face between rings of n₁ and n₂ chords n₁ + n₂ triangles, a flat face with b boundary points and k holes
//! b + 2k − 2.

mod cap;
mod facet;
mod flat;
mod measure;
mod profile;
mod radial;
mod ring;
mod turned;

use std::fmt;

#[allow(unused_imports, reason = "tests measure with it")]
pub use measure::{Faults, faults};

use crate::shape::Body;
use crate::units::{Area, Length, Volume};

/// The finest chord tolerance.
pub const FINEST_TOLERANCE: Length = Length::mm(1e-4);
/// The coarsest chord tolerance.
pub const COARSEST_TOLERANCE: Length = Length::mm(1.0);

/// How often a tolerance is cut to a quarter where chords cross or a round shrinks to nothing.
const FINER_TRIES: i32 = 7;

/// Why a mesh cannot be made.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum MeshError {
    /// The tolerance lies outside 0.0001 to 1 mm.
    Tolerance(Length),
    /// Two outlines come so near to each other that their chords cross at any allowed tolerance.
    TooThin,
    /// More corners than an index can count.
    TooLarge,
}

impl fmt::Display for MeshError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Tolerance(t) => {
                write!(f, "a chord tolerance of {} mm is outside the range 0.0001 mm to 1 mm", t.as_mm())
            }
            Self::TooThin => f.write_str("two edges are too near to each other to be meshed"),
            Self::TooLarge => f.write_str("the mesh would have too many triangles"),
        }
    }
}

impl std::error::Error for MeshError {}

/// A closed surface of triangles that share their corners; normals point out of the material.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Mesh {
    pub(crate) points: Vec<[f64; 3]>,
    pub(crate) triangles: Vec<[u32; 3]>,
}

impl Mesh {
    /// Corner positions in millimetres.
    #[allow(dead_code, reason = "tests measure with it")]
    pub fn points_mm(&self) -> &[[f64; 3]] {
        &self.points
    }
    /// Triangles as corner numbers, anticlockwise seen from outside.
    #[allow(dead_code, reason = "tests measure with it")]
    pub fn triangles(&self) -> &[[u32; 3]] {
        &self.triangles
    }
    /// The three corners of a triangle, mm.
    #[allow(clippy::indexing_slicing, reason = "triangles only hold numbers of points that were pushed before")]
    pub fn corners(&self, triangle: &[u32; 3]) -> [[f64; 3]; 3] {
        triangle.map(|i| self.points[i as usize])
    }
    /// Enclosed volume: Σ a·(b × c)/6.
    #[allow(dead_code, reason = "tests measure with it")]
    pub fn volume(&self) -> Volume {
        let sixth = |t: &[u32; 3]| {
            let [a, b, c] = self.corners(t);
            dot(a, cross(b, c))
        };
        Volume::mm3(self.triangles.iter().map(sixth).sum::<f64>() / 6.0)
    }
    /// Centre of mass of what it encloses: Σ (a + b + c)/4 of the tetrahedra to the origin, weighted by their volumes.
    pub fn centre(&self) -> [f64; 3] {
        let (mut volume, mut moment) = (0.0, [0.0; 3]);
        for triangle in &self.triangles {
            let [a, b, c] = self.corners(triangle);
            let part = dot(a, cross(b, c));
            volume += part;
            for (sum, (x, (y, z))) in moment.iter_mut().zip(a.iter().zip(b.iter().zip(&c))) {
                *sum += part * (x + y + z) / 4.0;
            }
        }
        moment.map(|m| if volume > 0.0 { m / volume } else { 0.0 })
    }
    /// Surface.
    #[allow(dead_code, reason = "tests measure with it")]
    pub fn surface(&self) -> Area {
        Area::mm2(self.triangles.iter().map(|t| norm(self.normal(t))).sum::<f64>() / 2.0)
    }
    /// Normal of a triangle, of twice its area.
    pub(crate) fn normal(&self, triangle: &[u32; 3]) -> [f64; 3] {
        let [a, b, c] = self.corners(triangle);
        cross(minus(b, a), minus(c, a))
    }
    pub(crate) fn add_point(&mut self, p: [f64; 3]) -> u32 {
        self.points.push(p);
        u32::try_from(self.points.len() - 1).unwrap_or(u32::MAX)
    }
}

pub(crate) fn minus(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}
pub(crate) fn cross(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}
pub(crate) fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}
pub(crate) fn norm(a: [f64; 3]) -> f64 {
    dot(a, a).sqrt()
}

/// The first of ever finer tolerances that works.
fn finer<T>(tol: f64, attempt: impl Fn(f64) -> Option<T>) -> Option<T> {
    (0..FINER_TRIES).find_map(|k| attempt(tol / 4f64.powi(k)))
}

/// The mesh of a body: no point of it further than `tolerance` from the true surface. Where the tolerance is coarse beside
/// the part's own features and the facets would fold over each other, a finer one is taken; what comes out is sound.
pub fn mesh(body: &Body, tolerance: Length) -> Result<Mesh, MeshError> {
    if !(FINEST_TOLERANCE..=COARSEST_TOLERANCE).contains(&tolerance) {
        return Err(MeshError::Tolerance(tolerance));
    }
    let mut tried = tolerance.as_mm();
    while tried >= FINEST_TOLERANCE.as_mm() {
        let mesh = match body {
            Body::Turned(t) => turned::mesh(t, tried)?,
            Body::Flat(f) => flat::mesh(f, tried)?,
        };
        if mesh.points.len() >= u32::MAX as usize {
            return Err(MeshError::TooLarge);
        }
        if measure::is_sound(&mesh) {
            return Ok(mesh);
        }
        tried /= 2.0;
    }
    Err(MeshError::TooThin)
}
