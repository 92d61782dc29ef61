//! Cross holes through a tube wall, meshed exactly: the two edge curves share their points with the bore, the
//! outside and the hole's own wall.
//!
//! Each cylinder is laid out flat in columns, one per chord of its rings. The edge curve of a hole gets a point
//! wherever it crosses a column line, so that no triangle is wider than one chord and none leaves the tolerance.

use std::f64::consts::{PI, TAU};

use super::Mesh;
use super::cap::{Corner, all, triangulate};
use super::ring::{FEWEST_CHORDS, Placed, Ring, half_step, stitch};
use crate::shape::{Point, RadialHole, Turned};

/// A cylindrical face with holes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Side {
    pub r: f64,
    pub low: f64,
    pub high: f64,
    outside: bool,
}

impl Side {
    /// Is the strip between two rings this face?
    pub(super) fn spans(&self, a: &Ring, b: &Ring) -> bool {
        a.r == self.r && b.r == self.r && a.z.min(b.z) == self.low && a.z.max(b.z) == self.high
    }
}

/// The cylindrical faces that have cross holes, each once.
#[allow(clippy::indexing_slicing, reason = "a wall holds numbers of edges of this very profile")]
pub(super) fn sides(turned: &Turned) -> Vec<Side> {
    let mut out: Vec<Side> = Vec::new();
    for (_, wall) in turned.holes() {
        for (edge, outside) in [(wall.inner_edge, false), (wall.outer_edge, true)] {
            let s = &turned.profile().segments()[edge];
            let side = Side { r: s.from.x, low: s.from.y.min(s.to.y), high: s.from.y.max(s.to.y), outside };
            if !out.contains(&side) {
                out.push(side);
            }
        }
    }
    out
}

fn is_on(side: &Side, hole: &RadialHole, turned: &Turned) -> bool {
    let radius = if side.outside { |w: &crate::shape::Wall| w.outer } else { |w: &crate::shape::Wall| w.inner };
    let here = |h: &RadialHole| h == hole && side.low < h.along && h.along < side.high;
    turned.holes().iter().any(|(h, w)| here(h) && radius(w) == side.r)
}

/// Turns all rings so that no column line grazes a hole's edge: the best of some fixed angles.
pub(super) fn phase(turned: &Turned, plan: &[Ring]) -> f64 {
    const TRIES: u32 = 64;
    let mut edges: Vec<(f64, f64)> = Vec::new();
    for side in sides(turned) {
        let Some(ring) = plan.iter().find(|ring| ring.r == side.r && ring.z == side.low) else { continue };
        let step = TAU / f64::from(ring.n);
        for hole in turned.radial_holes().filter(|h| is_on(&side, h, turned)) {
            let reach = libm::asin(hole.radius() / side.r);
            let around = hole.around.as_radians();
            edges.extend([(around - reach, step), (around + reach, step)]);
        }
    }
    let widest = edges.iter().map(|(_, step)| *step).fold(0.0, f64::max);
    let room = |phase: f64| {
        let off = |(angle, step): &(f64, f64)| {
            let part = ((angle - phase) / step).rem_euclid(1.0);
            part.min(1.0 - part)
        };
        edges.iter().map(off).fold(f64::INFINITY, f64::min)
    };
    let candidates = (0..TRIES).map(|k| widest * f64::from(k) / f64::from(TRIES));
    candidates.fold((0.0, -1.0), |best, p| if room(p) > best.1 { (p, room(p)) } else { best }).0
}

/// A point on the edge curve of a hole: direction about the hole's axis, number in the mesh, and where it lies in
/// the columns of its cylinder.
#[derive(Clone, Copy)]
struct RimPoint {
    turn: f64,
    number: u32,
    /// Column line (whole) or position between lines, in columns.
    column: f64,
    z: f64,
}

/// One cylinder with its rings.
struct Cylinder<'a> {
    side: Side,
    low: &'a [u32],
    high: &'a [u32],
    phase: f64,
    tol: f64,
}

/// Meshes every cylinder that has holes, and the walls of the holes.
pub(super) fn walls(mesh: &mut Mesh, turned: &Turned, placed: &[Placed], phase: f64, tol: f64) -> Option<()> {
    let mut rims: Vec<(RadialHole, Side, Vec<RimPoint>)> = Vec::new();
    for side in sides(turned) {
        let next = placed.iter().cycle().skip(1);
        let (a, b) = placed.iter().zip(next).find(|(a, b)| side.spans(&a.ring, &b.ring))?;
        let (low, high) = if a.ring.z < b.ring.z { (a, b) } else { (b, a) };
        let cylinder = Cylinder { side, low: &low.points, high: &high.points, phase, tol };
        let holes = turned.radial_holes().filter(|h| is_on(&side, h, turned));
        let here: Vec<(RadialHole, Side, Vec<RimPoint>)> = holes.map(|h| (*h, side, cylinder.rim(mesh, h))).collect();
        cylinder.fill(mesh, &here)?;
        rims.extend(here);
    }
    for hole in turned.radial_holes() {
        let rim = |outside: bool| rims.iter().find(|(h, s, _)| h == hole && s.outside == outside).map(|(.., r)| r);
        hole_wall(mesh, rim(true)?, rim(false)?);
    }
    Some(())
}

impl Cylinder<'_> {
    fn columns(&self) -> f64 {
        self.low.len() as f64
    }

    /// Directions about the hole's axis where its edge curve needs a point: both ends across, every crossing of a
    /// column line, and between them as many as the tolerance asks.
    fn turns(&self, hole: &RadialHole) -> Vec<(f64, Option<f64>)> {
        let (a, step) = (hole.radius(), TAU / self.columns());
        let reach = libm::asin(a / self.side.r);
        let middle = hole.around.as_radians() - self.phase;
        let (first, last) = (((middle - reach) / step).ceil(), ((middle + reach) / step).floor());
        let mut fixed = vec![(0.0, None), (PI, None), (TAU, None)];
        for k in 0..=((last - first).max(-1.0) as i64) {
            let line = first + k as f64;
            let turn = libm::acos((self.side.r * libm::sin(line * step - middle) / a).clamp(-1.0, 1.0));
            fixed.extend([(turn, Some(line)), (TAU - turn, Some(line))]);
        }
        fixed.sort_by(|p, q| p.0.total_cmp(&q.0));
        let longest = (2.0 * half_step(a, self.tol)).min(TAU / f64::from(FEWEST_CHORDS));
        type Turn = (f64, Option<f64>);
        let gap = |((from, line), (to, _)): (&Turn, &Turn)| {
            let pieces = ((to - from) / longest - 1e-9).ceil().max(1.0);
            let (from, to, line) = (*from, *to, *line);
            (0..pieces as u32).map(move |k| (from + (to - from) * f64::from(k) / pieces, line.filter(|_| k == 0)))
        };
        fixed.iter().zip(fixed.iter().skip(1)).flat_map(gap).collect()
    }

    /// Puts the edge curve of a hole into the mesh.
    fn rim(&self, mesh: &mut Mesh, hole: &RadialHole) -> Vec<RimPoint> {
        let (a, middle) = (hole.radius(), hole.around.as_radians());
        let place = |(turn, line): (f64, Option<f64>)| {
            let z = hole.along + a * libm::sin(turn);
            let off = libm::asin(a * libm::cos(turn) / self.side.r);
            let column = line.unwrap_or((middle + off - self.phase) / TAU * self.columns());
            let angle = line.map_or(middle + off, |k| k * TAU / self.columns() + self.phase);
            let p = Point::ORIGIN.polar(self.side.r, angle);
            RimPoint { turn, number: mesh.add_point([p.x, p.y, z]), column, z }
        };
        self.turns(hole).into_iter().map(place).collect()
    }

    /// Fills the cylinder column by column.
    #[allow(clippy::indexing_slicing, reason = "columns are numbered modulo the ring's length, equal for both rings")]
    fn fill(&self, mesh: &mut Mesh, holes: &[(RadialHole, Side, Vec<RimPoint>)]) -> Option<()> {
        let n = self.low.len();
        for k in 0..n {
            let [a, b] = [self.low[k], self.low[(k + 1) % n]];
            let [c, d] = [self.high[k], self.high[(k + 1) % n]];
            let width = TAU * self.side.r / self.columns();
            let at = |x: f64, z: f64, number: u32| Corner { at: Point::mm(x, z), number };
            let (low, high) = (self.side.low, self.side.high);
            let mut corners = vec![at(0.0, low, a), at(width, low, b), at(width, high, d), at(0.0, high, c)];
            let mut edges = vec![[0, 1], [2, 3]];
            let rims: Vec<&[RimPoint]> = holes.iter().map(|(.., rim)| rim.as_slice()).collect();
            let owners = add_rims(&mut corners, &mut edges, &rims, k as f64, self.columns(), width);
            let plane = triangulate(corners, edges)?;
            let in_hole = |t: &[u32; 3]| owners.iter().any(|own| t.iter().all(|p| own.contains(p)));
            let out = |t: [u32; 3]| if self.side.outside { t } else { [t[2], t[1], t[0]] };
            mesh.triangles.extend(all(&plane).filter(|t| !in_hole(t)).map(out));
        }
        Some(())
    }
}

/// Adds the parts of the holes' edge curves that lie in column `k`; returns each hole's point numbers there.
/// An edge curve bulges outwards all round, so a triangle with all corners on it lies in the hole.
#[allow(clippy::indexing_slicing, reason = "indices are taken modulo the length")]
fn add_rims(
    corners: &mut Vec<Corner>,
    edges: &mut Vec<[usize; 2]>,
    rims: &[&[RimPoint]],
    k: f64,
    columns: f64,
    width: f64,
) -> Vec<Vec<u32>> {
    let mut owners = Vec::new();
    for rim in rims {
        let local: Vec<Option<f64>> = rim.iter().map(|p| within(p.column - k, columns)).collect();
        let mut slots = vec![None; rim.len()];
        for (i, p) in rim.iter().enumerate() {
            if let Some(x) = local[i] {
                slots[i] = Some(corners.len());
                corners.push(Corner { at: Point::mm(x * width, p.z), number: p.number });
            }
        }
        for i in 0..rim.len() {
            if let (Some(a), Some(b)) = (slots[i], slots[(i + 1) % rim.len()]) {
                edges.push([a, b]);
            }
        }
        owners.push(rim.iter().zip(&slots).filter(|(_, s)| s.is_some()).map(|(p, _)| p.number).collect());
    }
    owners
}

/// Position within a column, 0 to 1, of a point `x` columns from its left line on a cylinder of `columns`.
fn within(x: f64, columns: f64) -> Option<f64> {
    let turned = x.rem_euclid(columns);
    if turned <= 1.0 { Some(turned) } else { None }
}

/// The wall of the hole between its two edge curves; edges in the order of their middles.
#[allow(clippy::indexing_slicing, reason = "only asked for edges that exist")]
fn hole_wall(mesh: &mut Mesh, outer: &[RimPoint], inner: &[RimPoint]) {
    let middles = |rim: &[RimPoint]| -> Vec<f64> {
        let ends = rim.iter().skip(1).map(|p| p.turn).chain([TAU]);
        rim.iter().zip(ends).map(|(p, end)| p.turn + end).collect()
    };
    let numbers = |rim: &[RimPoint]| -> Vec<u32> { rim.iter().map(|p| p.number).collect() };
    let (a, b) = (middles(outer), middles(inner));
    stitch(mesh, &numbers(outer), &numbers(inner), |i, j| a[i] <= b[j]);
}
