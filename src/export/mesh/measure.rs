//! What could be wrong with a mesh: open edges, wrong sides, triangles of no area.

use std::collections::BTreeMap;

use super::{Mesh, norm};

/// The faults of a mesh; all nought for a sound one.
#[allow(dead_code, reason = "tests measure with it")]
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
#[allow(dead_code, reason = "tests measure with it")]
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

/// Whether every edge is there once in each direction, no corner is idle and no triangle without area. The same as no
/// [`faults`] but for the Euler number, and quick enough for every mesh that is made.
pub(super) fn is_sound(mesh: &Mesh) -> bool {
    let ends = Ends::of(mesh);
    let once = |from: usize| {
        let to = ends.from(from);
        !to.is_empty() && to.iter().enumerate().all(|(i, a)| !to.iter().skip(i + 1).any(|b| a == b))
    };
    let paired = |from: usize| ends.from(from).iter().all(|to| ends.from(*to as usize).contains(&(from as u32)));
    let full = mesh.triangles.iter().all(|t| norm(mesh.normal(t)) > 0.0);
    full && (0..mesh.points.len()).all(|from| once(from) && paired(from))
}

/// Where the edges that begin at each corner end.
struct Ends {
    /// Where in `to` the edges of a corner begin; those of the next follow.
    begin: Vec<usize>,
    to: Vec<u32>,
}

impl Ends {
    fn of(mesh: &Mesh) -> Self {
        let edges = || mesh.triangles.iter().flat_map(|[a, b, c]| [(*a, *b), (*b, *c), (*c, *a)]);
        let mut begin = vec![0; mesh.points.len() + 1];
        edges().for_each(|(from, _)| begin.iter_mut().skip(from as usize + 1).take(1).for_each(|n| *n += 1));
        let mut sum = 0;
        begin.iter_mut().for_each(|n| {
            sum += *n;
            *n = sum;
        });
        let (mut next, mut to) = (begin.clone(), vec![0; sum]);
        for (from, end) in edges() {
            if let Some(place) = next.get_mut(from as usize) {
                to.iter_mut().skip(*place).take(1).for_each(|t| *t = end);
                *place += 1;
            }
        }
        Self { begin, to }
    }

    fn from(&self, corner: usize) -> &[u32] {
        let range = self.begin.get(corner).zip(self.begin.get(corner + 1)).map(|(from, to)| *from..*to);
        range.and_then(|r| self.to.get(r)).unwrap_or_default()
    }
}
