//! A plate as STEP faces.

use super::brep::{Axis, Corner, corner, swept_face};
use super::writer::Writer;
use crate::export::plain;
use crate::shape::{Bored, Contour, CrossHole, Flat, FlatHole, Point, Segment};

/// Loops of the two large faces, the outline first.
#[derive(Default)]
struct Rims {
    top: Vec<u32>,
    bottom: Vec<u32>,
}

pub(super) fn faces(w: &mut Writer, flat: &Flat) -> Vec<u32> {
    let (t, mut rims, mut out) = (flat.thickness().as_mm(), Rims::default(), Vec::new());
    let holes: Vec<Hole> = flat.across().iter().map(|h| Hole::new(w, h)).collect();
    out.extend(wall(w, &mut rims, flat.outer().segments(), t, &holes));
    out.extend(holes.iter().map(|h| h.face(w)));
    for opening in flat.openings() {
        match &opening.hole {
            FlatHole::Bored(b) => out.extend(bore(w, &mut rims, b, t)),
            _ => out.extend(wall(w, &mut rims, &backwards(&opening.widest), t, &[])),
        }
    }
    for (z, up, loops) in [(t, 1.0, &rims.top), (0.0, -1.0, &rims.bottom)] {
        let frame = w.axes([0.0, 0.0, z], [0.0, 0.0, up], [1.0, 0.0, 0.0]);
        let plane = w.add(format_args!("PLANE('',#{frame})"));
        out.push(w.face(plane, true, loops));
    }
    out
}

/// A cut-out's edges with the material on their left.
fn backwards(contour: &Contour) -> Vec<Segment> {
    contour.segments().iter().rev().map(Segment::reversed).collect()
}

/// Edges and faces straight up along closed edges with the material on their left.
#[allow(clippy::indexing_slicing, reason = "indices are taken modulo the number of edges")]
fn wall(w: &mut Writer, rims: &mut Rims, segments: &[Segment], t: f64, holes: &[Hole]) -> Vec<u32> {
    let n = segments.len();
    let at = |s: &Segment, z: f64| [s.from.x, s.from.y, z];
    let low: Vec<u32> = segments.iter().map(|s| w.vertex(at(s, 0.0))).collect();
    let high: Vec<u32> = segments.iter().map(|s| w.vertex(at(s, t))).collect();
    let along = |w: &mut Writer, corners: &[u32], z: f64| -> Vec<u32> {
        let edge = |(k, s): (usize, &Segment)| {
            let curve = curve(w, s, z);
            w.edge(corners[k], corners[(k + 1) % n], curve, s.bulge >= 0.0)
        };
        segments.iter().enumerate().map(edge).collect()
    };
    let (bottom, top) = (along(w, &low, 0.0), along(w, &high, t));
    let upright: Vec<u32> = (0..n)
        .map(|k| {
            let line = w.line(at(&segments[k], 0.0), [0.0, 0.0, 1.0]);
            w.edge(low[k], high[k], line, true)
        })
        .collect();
    let forward: Vec<(u32, bool)> = top.iter().map(|e| (*e, true)).collect();
    let back: Vec<(u32, bool)> = bottom.iter().rev().map(|e| (*e, false)).collect();
    rims.top.push(w.loop_of(&forward));
    rims.bottom.push(w.loop_of(&back));
    (0..n)
        .map(|k| {
            let next = (k + 1) % n;
            let edges = [(bottom[k], true), (upright[next], true), (top[k], false), (upright[k], false)];
            let rim = w.loop_of(&edges);
            let (surface, outward) = surface(w, &segments[k]);
            let loops: Vec<u32> = std::iter::once(rim).chain(holes.iter().filter_map(|h| h.loop_in(w, k))).collect();
            w.face(surface, outward, &loops)
        })
        .collect()
}

/// A hole from edge to edge: its two circles, where it comes out first, each with its corner on the seam.
struct Hole<'a> {
    hole: &'a CrossHole,
    ends: [(u32, u32); 2],
}

impl<'a> Hole<'a> {
    fn new(w: &mut Writer, hole: &'a CrossHole) -> Self {
        let ends = [0, 1].map(|end| {
            let [x, y, z] = at(hole, end);
            let vertex = w.vertex([x, y, z + hole.radius()]);
            let frame = frame(w, hole, end);
            let circle = w.circle(frame, hole.radius());
            (w.edge(vertex, vertex, circle, true), vertex)
        });
        Self { hole, ends }
    }

    /// The loop in the wall of edge `k`, if it goes through that: with the metal on its left.
    fn loop_in(&self, w: &mut Writer, k: usize) -> Option<u32> {
        let [(out, _), (into, _)] = self.hole.ends;
        let [(there, _), (here, _)] = self.ends;
        match k {
            k if k == out => Some(w.loop_of(&[(there, false)])),
            k if k == into => Some(w.loop_of(&[(here, true)])),
            _ => None,
        }
    }

    /// Its wall: round where it comes out, along the seam, back round where it goes in, back along the seam.
    fn face(&self, w: &mut Writer) -> u32 {
        let [(out, from), (into, to)] = self.ends;
        let [x, y, z] = at(self.hole, 0);
        let a = self.hole.axis();
        let line = w.line([x, y, z + self.hole.radius()], [-a.x, -a.y, 0.0]);
        let seam = w.edge(from, to, line, true);
        let rim = w.loop_of(&[(out, true), (seam, true), (into, false), (seam, false)]);
        let frame = frame(w, self.hole, 0);
        let surface = w.add(format_args!("CYLINDRICAL_SURFACE('',#{frame},{})", plain(self.hole.radius())));
        w.face(surface, false, &[rim])
    }
}

/// The middle of an end, where it comes out first.
fn at(hole: &CrossHole, end: usize) -> [f64; 3] {
    let [out, into] = hole.ends;
    let p = if end == 0 { out.1 } else { into.1 };
    [p.x, p.y, hole.height_mm()]
}

/// A frame on its axis, towards where it comes out, its cross direction up.
fn frame(w: &mut Writer, hole: &CrossHole, end: usize) -> u32 {
    let a = hole.axis();
    w.axes(at(hole, end), [a.x, a.y, 0.0], [0.0, 0.0, 1.0])
}

/// A plan edge at height `z`; circles run anticlockwise.
fn curve(w: &mut Writer, s: &Segment, z: f64) -> u32 {
    let Some(arc) = s.arc() else {
        let d = s.to.minus(s.from).times(1.0 / s.from.to(s.to));
        return w.line([s.from.x, s.from.y, z], [d.x, d.y, 0.0]);
    };
    let frame = w.axes([arc.centre.x, arc.centre.y, z], [0.0, 0.0, 1.0], [1.0, 0.0, 0.0]);
    w.circle(frame, arc.radius)
}

/// The upright surface through a plan edge, and whether its own normal points out of the material.
fn surface(w: &mut Writer, s: &Segment) -> (u32, bool) {
    if let Some(arc) = s.arc() {
        let frame = w.axes([arc.centre.x, arc.centre.y, 0.0], [0.0, 0.0, 1.0], [1.0, 0.0, 0.0]);
        return (w.add(format_args!("CYLINDRICAL_SURFACE('',#{frame},{})", plain(arc.radius))), s.bulge > 0.0);
    }
    let d = s.to.minus(s.from).times(1.0 / s.from.to(s.to));
    let frame = w.axes([s.from.x, s.from.y, 0.0], [d.y, -d.x, 0.0], [d.x, d.y, 0.0]);
    (w.add(format_args!("PLANE('',#{frame})")), true)
}

/// A bored hole from the top face down.
fn bore(w: &mut Writer, rims: &mut Rims, b: &Bored, t: f64) -> Vec<u32> {
    let axis = Axis { at: b.centre(), seam: Point::mm(1.0, 0.0) };
    let up = |p: Point| Point::mm(p.x, t - p.y);
    let turned = |s: &Segment| Segment { from: up(s.from), to: up(s.to), bulge: -s.bulge };
    let profile: Vec<Segment> = b.profile().iter().map(turned).collect();
    let mut corners: Vec<Corner> = profile.iter().map(|s| corner(w, &axis, s.from)).collect();
    corners.extend(profile.last().map(|s| corner(w, &axis, s.to)));
    let ends = corners.iter().zip(corners.iter().skip(1));
    let out = profile.iter().zip(ends).filter_map(|(s, (a, b))| swept_face(w, &axis, s, (*a, *b), &[])).collect();
    if let Some(top) = corners.first().and_then(|c| c.circle) {
        rims.top.push(w.loop_of(&[(top, false)]));
    }
    if let Some(bottom) = corners.last().and_then(|c| c.circle) {
        rims.bottom.push(w.loop_of(&[(bottom, true)]));
    }
    out
}
