//! Flat faces with holes, and any plane region, filled with triangles over exactly the given boundary points.

use spade::handles::FixedFaceHandle;
use spade::{ConstrainedDelaunayTriangulation, HasPosition, Point2, Triangulation};

use crate::shape::Point;

/// A corner on a plane with its number in the mesh.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Corner {
    pub at: Point,
    pub number: u32,
}

impl HasPosition for Corner {
    type Scalar = f64;
    fn position(&self) -> Point2<f64> {
        Point2::new(self.at.x, self.at.y)
    }
}

type Plane = ConstrainedDelaunayTriangulation<Corner>;

/// Triangulates corners with edges that must appear; `None` when two edges cross or two corners coincide.
pub(crate) fn triangulate(corners: Vec<Corner>, edges: Vec<[usize; 2]>) -> Option<Plane> {
    let (count, mut crossed) = (corners.len(), false);
    let plane = Plane::try_bulk_load_cdt(corners, edges, |_| crossed = true).ok()?;
    (!crossed && plane.num_vertices() == count).then_some(plane)
}

/// Corner numbers of a triangle, anticlockwise.
fn numbers(plane: &Plane, face: FixedFaceHandle<spade::handles::InnerTag>) -> [u32; 3] {
    plane.face(face).vertices().map(|v| v.data().number)
}

/// All triangles.
pub(crate) fn all(plane: &Plane) -> impl Iterator<Item = [u32; 3]> + '_ {
    plane.inner_faces().map(|f| numbers(plane, f.fix()))
}

/// Triangles between closed loops: inside the first, outside the others (any nesting: odd depth is inside).
/// `None` when loops cross or touch, or one has shrunk to a line.
pub(crate) fn between(loops: &[Vec<Corner>]) -> Option<Vec<[u32; 3]>> {
    if loops.iter().any(|ring| ring.len() < 3) {
        return None;
    }
    filled(loops, nudged).or_else(|| filled(loops, |at| at))
}

/// The nearest point of a grid far finer than any tolerance. Corners on one circle are ties for the triangulation, which
/// it decides in exact numbers; those take most of the time, and on the grid no ties are left.
fn nudged(at: Point) -> Point {
    const PER_MM: f64 = (1 << 20) as f64;
    let near = |x: f64| (x * PER_MM).round() / PER_MM;
    Point::mm(near(at.x), near(at.y))
}

fn filled(loops: &[Vec<Corner>], place: impl Fn(Point) -> Point) -> Option<Vec<[u32; 3]>> {
    let (mut corners, mut edges) = (Vec::new(), Vec::new());
    for ring in loops {
        let (first, n) = (corners.len(), ring.len());
        edges.extend((0..n).map(|k| [first + k, first + (k + 1) % n]));
        corners.extend(ring.iter().map(|corner| Corner { at: place(corner.at), ..*corner }));
    }
    let plane = triangulate(corners, edges)?;
    let inside = odd_faces(&plane);
    let faces = plane.inner_faces().filter(|f| inside.get(f.fix().index()).copied().flatten() == Some(true));
    Some(faces.map(|f| numbers(&plane, f.fix())).collect())
}

/// For each face whether an odd number of constraint edges parts it from the outside (flood from the outer face).
#[allow(clippy::indexing_slicing, reason = "one slot per face; face numbers are below their count")]
fn odd_faces(plane: &Plane) -> Vec<Option<bool>> {
    let mut odd = vec![None; plane.num_all_faces()];
    let outer = plane.outer_face();
    odd[outer.fix().index()] = Some(false);
    let mut open: Vec<_> = plane.convex_hull().flat_map(|e| [e, e.rev()]).collect();
    while let Some(here) = open.pop() {
        let (Some(side), next) = (odd[here.face().fix().index()], here.rev().face()) else { continue };
        if odd[next.fix().index()].is_some() {
            continue;
        }
        odd[next.fix().index()] = Some(side ^ here.is_constraint_edge());
        if let Some(inner) = next.as_inner() {
            open.extend(inner.adjacent_edges());
        }
    }
    odd
}
