//! Faces swept by profile edges: around an axis, for turned parts and bored holes.

use super::writer::Writer;
use crate::export::plain;
use crate::shape::{HypotMm, Point, Segment};

/// An upright axis, and the direction in which the seams of its faces lie.
#[derive(Clone, Copy)]
pub(super) struct Axis {
    pub at: Point,
    /// Unit vector of the seam.
    pub seam: Point,
}

impl Axis {
    /// The point of the seam plane at radius and height of `p`.
    pub fn place(&self, p: Point) -> [f64; 3] {
        let xy = self.at.plus(self.seam.times(p.x));
        [xy.x, xy.y, p.y]
    }
    fn on_axis(&self, z: f64) -> [f64; 3] {
        [self.at.x, self.at.y, z]
    }
    fn seam3(&self) -> [f64; 3] {
        [self.seam.x, self.seam.y, 0.0]
    }
    /// A frame on the axis, its main direction up or down.
    pub fn frame(&self, w: &mut Writer, z: f64, up: bool) -> u32 {
        w.axes(self.on_axis(z), [0.0, 0.0, if up { 1.0 } else { -1.0 }], self.seam3())
    }
    /// A direction (radial, axial) in the seam plane.
    fn lean(&self, d: Point) -> [f64; 3] {
        [self.seam.x * d.x, self.seam.y * d.x, d.y]
    }
}

/// A profile corner: its vertex on the seam, and its circle unless it lies on the axis.
#[derive(Clone, Copy)]
pub(super) struct Corner {
    pub vertex: u32,
    pub circle: Option<u32>,
}

/// The corner at `p`, (radius, height).
pub(super) fn corner(w: &mut Writer, axis: &Axis, p: Point) -> Corner {
    let vertex = w.vertex(axis.place(p));
    let circle = (p.x > 0.0).then(|| {
        let frame = axis.frame(w, p.y, true);
        let circle = w.circle(frame, p.x);
        w.edge(vertex, vertex, circle, true)
    });
    Corner { vertex, circle }
}

/// The face swept by one profile edge with the material on its left. `more` are loops of holes in it.
pub(super) fn swept_face(
    w: &mut Writer,
    axis: &Axis,
    s: &Segment,
    ends: (Corner, Corner),
    more: &[u32],
) -> Option<u32> {
    if s.bulge == 0.0 && s.from.x == 0.0 && s.to.x == 0.0 {
        return None;
    }
    let (surface, along) = surface(w, axis, s);
    let flat = s.bulge == 0.0 && s.from.y == s.to.y;
    let mut loops = if flat { flat_loops(w, s, ends) } else { vec![seamed_loop(w, axis, s, ends)] };
    loops.extend(more);
    Some(w.face(surface, along, &loops))
}

/// Circles of a flat face, the larger first.
fn flat_loops(w: &mut Writer, s: &Segment, (a, b): (Corner, Corner)) -> Vec<u32> {
    let mut rims: Vec<(u32, bool)> = a.circle.map(|c| (c, true)).into_iter().collect();
    rims.extend(b.circle.map(|c| (c, false)));
    if s.to.x > s.from.x {
        rims.reverse();
    }
    rims.into_iter().map(|rim| w.loop_of(&[rim])).collect()
}

/// Round one end, along the seam, back round the other end, back along the seam.
fn seamed_loop(w: &mut Writer, axis: &Axis, s: &Segment, (a, b): (Corner, Corner)) -> u32 {
    let curve = seam_curve(w, axis, s);
    let seam = w.edge(a.vertex, b.vertex, curve, s.bulge >= 0.0);
    let mut edges: Vec<(u32, bool)> = a.circle.map(|c| (c, true)).into_iter().collect();
    edges.push((seam, true));
    edges.extend(b.circle.map(|c| (c, false)));
    edges.push((seam, false));
    w.loop_of(&edges)
}

/// The profile edge's own curve in the seam plane; circles run anticlockwise in (radius, height).
fn seam_curve(w: &mut Writer, axis: &Axis, s: &Segment) -> u32 {
    let Some(arc) = s.arc() else {
        let d = s.to.minus(s.from).times(1.0 / s.from.to(s.to));
        return w.line(axis.place(s.from), axis.lean(d));
    };
    let frame = w.axes(axis.place(arc.centre), [axis.seam.y, -axis.seam.x, 0.0], axis.seam3());
    w.circle(frame, arc.radius)
}

/// The surface, and whether its own normal (away from the axis or the arc's centre) points out of the material.
fn surface(w: &mut Writer, axis: &Axis, s: &Segment) -> (u32, bool) {
    let d = s.to.minus(s.from);
    if s.bulge != 0.0 {
        return (round_surface(w, axis, s), s.bulge > 0.0);
    }
    if d.y == 0.0 {
        let frame = axis.frame(w, s.from.y, d.x < 0.0);
        return (w.add(format_args!("PLANE('',#{frame})")), true);
    }
    if d.x == 0.0 {
        let frame = axis.frame(w, s.from.y, true);
        return (w.add(format_args!("CYLINDRICAL_SURFACE('',#{frame},{})", plain(s.from.x))), d.y > 0.0);
    }
    let wide = if d.x > 0.0 { s.to } else { s.from };
    let frame = axis.frame(w, wide.y, (d.x > 0.0) == (d.y > 0.0));
    let half_angle = plain(libm::atan((d.x / d.y).abs()));
    (w.add(format_args!("CONICAL_SURFACE('',#{frame},{},{half_angle})", plain(wide.x))), d.y > 0.0)
}

/// Sphere, torus, or for an arc whose circle reaches over the axis a general surface of revolution.
fn round_surface(w: &mut Writer, axis: &Axis, s: &Segment) -> u32 {
    let Some(arc) = s.arc() else { return 0 };
    let (centre, radius) = (arc.centre, plain(arc.radius));
    if centre.x.abs() < 1e-9 * arc.radius.hypot_mm(1.0) {
        let frame = axis.frame(w, centre.y, true);
        return w.add(format_args!("SPHERICAL_SURFACE('',#{frame},{radius})"));
    }
    if centre.x > arc.radius {
        let frame = axis.frame(w, centre.y, true);
        return w.add(format_args!("TOROIDAL_SURFACE('',#{frame},{},{radius})", plain(centre.x)));
    }
    let circle = seam_curve(w, axis, s);
    let (p, up) = (w.point(axis.on_axis(0.0)), w.direction([0.0, 0.0, 1.0]));
    let line = w.add(format_args!("AXIS1_PLACEMENT('',#{p},#{up})"));
    w.add(format_args!("SURFACE_OF_REVOLUTION('',#{circle},#{line})"))
}
