//! STL, binary: bare triangles in millimetres (the format carries no unit).

use std::fmt;

use stl_io::{Normal, Triangle, Vertex};

use crate::export::mesh::{Mesh, norm};

/// What stands in the head of the file.
const HEAD: &[u8] = b"binary STL by setdown, unit: mm";

/// Why a mesh cannot be written as STL.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum StlError {
    /// Two corners fall together when their places are rounded to the format's 24 binary digits.
    CornersFallTogether,
}

impl fmt::Display for StlError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("the part is too large for its finest detail: corners fall together in the digits of an STL file")
    }
}

impl std::error::Error for StlError {}

/// Bytes of a binary STL file. Every triangle is written; a mesh whose corners would fall together is refused.
pub fn stl(mesh: &Mesh) -> Result<Vec<u8>, StlError> {
    let mut places: Vec<[u32; 3]> = mesh.points.iter().map(|p| p.map(|x| (x as f32 + 0.0).to_bits())).collect();
    places.sort_unstable();
    if places.windows(2).any(|pair| matches!(pair, [a, b] if a == b)) {
        return Err(StlError::CornersFallTogether);
    }
    let mut out = Vec::new();
    let triangles: Vec<Triangle> = mesh.triangles.iter().map(|t| triangle(mesh, t)).collect();
    // Writing into memory cannot fail.
    let _ = stl_io::write_stl(&mut out, triangles.iter());
    // The head of 80 bytes is free words; it must not begin with `solid`, which means the format in letters.
    for (byte, word) in out.iter_mut().zip(HEAD) {
        *byte = *word;
    }
    Ok(out)
}

fn triangle(mesh: &Mesh, t: &[u32; 3]) -> Triangle {
    let n = mesh.normal(t);
    let length = norm(n).max(f64::MIN_POSITIVE);
    Triangle {
        normal: Normal::new(n.map(|x| (x / length) as f32)),
        vertices: mesh.corners(t).map(|p| Vertex::new(p.map(|x| x as f32 + 0.0))),
    }
}
