//! A turned part as STEP faces, cross holes with their spline edges included.

use std::f64::consts::TAU;

use super::brep::{Axis, Corner, corner, swept_face};
use super::writer::Writer;
use crate::export::plain;
use crate::shape::{Point, RadialHole, Turned, Wall};

/// Spline pieces of the edge curve of a cross hole.
const PIECES: u32 = 128;

#[allow(clippy::indexing_slicing, reason = "corners are numbered modulo the profile's length")]
pub(super) fn faces(w: &mut Writer, turned: &Turned) -> Vec<u32> {
    let axis = Axis { at: Point::ORIGIN, seam: Point::ORIGIN.polar(1.0, seam_angle(turned)) };
    let profile = turned.profile().segments();
    let corners: Vec<Corner> = profile.iter().map(|s| corner(w, &axis, s.from)).collect();
    let holes: Vec<Hole> = turned.holes().iter().map(|(h, wall)| Hole::new(w, h, wall)).collect();
    let mut out = Vec::new();
    for (k, s) in profile.iter().enumerate() {
        let loops: Vec<u32> = holes.iter().filter_map(|h| h.loop_in(w, k)).collect();
        out.extend(swept_face(w, &axis, s, (corners[k], corners[(k + 1) % corners.len()]), &loops));
    }
    out.extend(holes.iter().map(|h| h.face(w)));
    out
}

/// The middle of the widest gap between the directions of the cross holes, radians.
fn seam_angle(turned: &Turned) -> f64 {
    let mut around: Vec<f64> = turned.radial_holes().map(|h| h.around.as_radians().rem_euclid(TAU)).collect();
    around.sort_by(f64::total_cmp);
    let Some(first) = around.first().copied() else { return 0.0 };
    let next = around.iter().skip(1).copied().chain([first + TAU]);
    let gaps = around.iter().zip(next).map(|(a, b)| (b - a, (a + b) / 2.0));
    gaps.fold((0.0, 0.0), |best, gap| if gap.0 > best.0 + 1e-9 { gap } else { best }).1
}

/// A cross hole: both edges and their vertices.
struct Hole {
    hole: RadialHole,
    wall: Wall,
    outer: (u32, u32),
    inner: (u32, u32),
}

impl Hole {
    fn new(w: &mut Writer, hole: &RadialHole, wall: &Wall) -> Self {
        let rim = |w: &mut Writer, r: f64| {
            let vertex = w.vertex(rim_point(hole, r, 0.0).0);
            let curve = rim_curve(w, hole, r);
            (vertex, w.edge(vertex, vertex, curve, true))
        };
        let (outer, inner) = (rim(w, wall.outer), rim(w, wall.inner));
        Self { hole: *hole, wall: *wall, outer, inner }
    }

    /// Its loop in the face of profile edge `k`, if it breaks through that one.
    fn loop_in(&self, w: &mut Writer, k: usize) -> Option<u32> {
        match k {
            _ if k == self.wall.outer_edge => Some(w.loop_of(&[(self.outer.1, false)])),
            _ if k == self.wall.inner_edge => Some(w.loop_of(&[(self.inner.1, true)])),
            _ => None,
        }
    }

    /// Its own wall: a cylinder along the hole, the material outside it.
    fn face(&self, w: &mut Writer) -> u32 {
        let (s, c) = (self.hole.around.sin(), self.hole.around.cos());
        let frame = w.axes([0.0, 0.0, self.hole.along], [c, s, 0.0], [-s, c, 0.0]);
        let surface = w.add(format_args!("CYLINDRICAL_SURFACE('',#{frame},{})", plain(self.hole.radius())));
        let start = rim_point(&self.hole, self.wall.outer, 0.0).0;
        let line = w.line(start, [-c, -s, 0.0]);
        let seam = w.edge(self.outer.0, self.inner.0, line, true);
        let edges = [(self.outer.1, true), (seam, true), (self.inner.1, false), (seam, false)];
        let wall = w.loop_of(&edges);
        w.face(surface, false, &[wall])
    }
}

/// A point of the edge curve on radius `r`, `t` radians about the hole's axis, and the derivative by t.
///
/// Across x = a cos t, along z = z₀ + a sin t, out y = √(r² − x²); dy/dt = a² sin t cos t / y.
fn rim_point(hole: &RadialHole, r: f64, t: f64) -> ([f64; 3], [f64; 3]) {
    let (a, st, ct) = (hole.radius(), libm::sin(t), libm::cos(t));
    let (s, c) = (hole.around.sin(), hole.around.cos());
    let (x, z) = (a * ct, hole.along + a * st);
    let y = (r * r - x * x).sqrt();
    let (dx, dy, dz) = (-a * st, a * a * st * ct / y, a * ct);
    ([y * c - x * s, y * s + x * c, z], [dy * c - dx * s, dy * s + dx * c, dz])
}

/// The edge curve as a closed cubic spline: on each piece the cubic with the exact ends and end tangents.
fn rim_curve(w: &mut Writer, hole: &RadialHole, r: f64) -> u32 {
    let step = TAU / f64::from(PIECES);
    let mut poles = Vec::new();
    for k in 0..=PIECES {
        let t = if k == PIECES { 0.0 } else { step * f64::from(k) };
        let (p, d) = rim_point(hole, r, t);
        let lean = |sign: f64| [0, 1, 2].map(|i| axis_of(&p, i) + sign * axis_of(&d, i) * step / 3.0);
        match k {
            0 => poles.extend([p, lean(1.0)]),
            PIECES => poles.extend([lean(-1.0), p]),
            _ => poles.extend([lean(-1.0), lean(1.0)]),
        }
    }
    let points: Vec<u32> = poles.into_iter().map(|p| w.point(p)).collect();
    let inner = |ends: &'static str, middle: String| format!("{ends},{middle}{ends}");
    let times = inner("4", "2,".repeat(PIECES as usize - 1));
    let knots: Vec<String> = (0..=PIECES).map(|k| plain(f64::from(k))).collect();
    w.add(format_args!(
        "B_SPLINE_CURVE_WITH_KNOTS('',3,({}),.UNSPECIFIED.,.T.,.F.,({times}),({}),.UNSPECIFIED.)",
        super::writer::list(&points),
        knots.join(",")
    ))
}

fn axis_of(p: &[f64; 3], i: usize) -> f64 {
    p.get(i).copied().unwrap_or_default()
}
