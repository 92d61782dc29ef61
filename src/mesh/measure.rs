//! What could be wrong with a mesh: open edges, wrong sides, triangles of no area.

use std::collections::BTreeMap;

use super::{Mesh, norm};

/// The faults of a mesh; all nought for a sound one.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Faults {
    /// Directed edges without a partner that runs the other way.
    pub unpaired_edges: usize,
    /// Directed edges that are there more than once.
    pub repeated_edges: usize,
    /// Triangles of no area.
    pub degenerate: usize,
    /// Corners that no triangle uses.
    pub unused_corners: usize,
    /// Corners less edges plus triangles, less twice the number of separate bodies: even; nought for a ball, −2 for
    /// each hole through.
    pub euler: i64,
}

/// Counts the faults of a mesh (and its Euler number, for one body).
pub fn faults(mesh: &Mesh) -> Faults {
    let mut edges: BTreeMap<(u32, u32), usize> = BTreeMap::new();
    let mut used = vec![false; mesh.points.len()];
    for [a, b, c] in &mesh.triangles {
        for (from, to) in [(a, b), (b, c), (c, a)] {
            *edges.entry((*from, *to)).or_default() += 1;
            used.iter_mut().skip(*from as usize).take(1).for_each(|u| *u = true);
        }
    }
    let unpaired = edges.keys().filter(|(a, b)| !edges.contains_key(&(*b, *a))).count();
    let (v, e, f) = (mesh.points.len() as i64, edges.len() as i64 / 2, mesh.triangles.len() as i64);
    Faults {
        unpaired_edges: unpaired,
        repeated_edges: edges.values().filter(|n| **n > 1).count(),
        degenerate: mesh.triangles.iter().filter(|t| norm(mesh.normal(t)) <= 0.0).count(),
        unused_corners: used.iter().filter(|u| !**u).count(),
        euler: v - e + f - 2,
    }
}
