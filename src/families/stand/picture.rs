//! The stand seen from a corner above, put together or drawn apart: its plates as they stand in space, edges that are hidden behind a
//! plate left out.

use crate::record::drawing::{Edge, View};
use crate::shape::{Point, Segment};
use crate::units::{Angle, Length};

use super::Made;
use super::form::{Form, Locked};
use super::outline::Kind;

/// Edges are looked at in pieces of this share of the stand's size.
const PIECES: f64 = 90.0;

/// A place or a direction in space, mm: along the rails, across them, up.
type Space = [f64; 3];

fn plus(a: Space, b: Space, k: f64) -> Space {
    let ([x, y, z], [u, v, w]) = (a, b);
    [x + u * k, y + v * k, z + w * k]
}

fn dot(a: Space, b: Space) -> f64 {
    let ([x, y, z], [u, v, w]) = (a, b);
    x * u + y * v + z * w
}

/// From where it is seen: to the right, up, and towards the eye.
struct Eye {
    right: Space,
    up: Space,
    to: Space,
}

impl Eye {
    /// From a corner, 35 degrees off the rails and 25 degrees over the floor.
    fn corner() -> Self {
        let (turn, over) = (Angle::degrees(-55.0), Angle::degrees(25.0));
        let (c, s, high, low) = (turn.cos(), turn.sin(), over.sin(), over.cos());
        Self { right: [-s, c, 0.0], up: [-c * high, -s * high, low], to: [c * low, s * low, high] }
    }
    fn sees(&self, p: Space) -> Point {
        Point::mm(dot(p, self.right), dot(p, self.up))
    }
}

/// A face of a plate in space: its outline, its holes, where they lie.
struct Face {
    outlines: Vec<Vec<(f64, f64)>>,
    origin: Space,
    x: Space,
    y: Space,
    out: Space,
}

impl Face {
    fn place(&self, (a, b): (f64, f64)) -> Space {
        plus(plus(self.origin, self.x, a), self.y, b)
    }

    /// Whether it lies between a place and the eye.
    fn hides(&self, place: Space, eye: &Eye) -> bool {
        let facing = dot(self.out, eye.to);
        if facing.abs() < 1e-9 {
            return false;
        }
        let away = dot(plus(self.origin, place, -1.0), self.out) / facing;
        if away < 0.05 {
            return false;
        }
        let at = plus(plus(place, eye.to, away), self.origin, -1.0);
        let (a, b) = (dot(at, self.x), dot(at, self.y));
        // Inside an odd number of outlines: in the metal.
        self.outlines.iter().filter(|outline| holds(outline, a, b)).count() % 2 == 1
    }
}

fn holds(outline: &[(f64, f64)], a: f64, b: f64) -> bool {
    let next = outline.iter().cycle().skip(1);
    let crossed =
        |((x, y), (u, v)): (&(f64, f64), &(f64, f64))| (*y > b) != (*v > b) && a < x + (b - y) / (v - y) * (u - x);
    outline.iter().zip(next).filter(|pair| crossed(*pair)).count() % 2 == 1
}

/// A plate in space: its lower face and its upper one.
struct Solid {
    faces: [Face; 2],
    up: Space,
}

impl Solid {
    fn new(made: &Made, thick: f64, (origin, x, y, out): (Space, Space, Space, Space)) -> Self {
        let flat = &made.cutting;
        let corners = |c: &crate::shape::Contour| -> Vec<(f64, f64)> {
            c.segments().iter().map(|s| (s.from().x().as_mm(), s.from().y().as_mm())).collect()
        };
        let outlines: Vec<_> = [flat.outer()].into_iter().chain(flat.holes()).map(corners).collect();
        let face = |at: f64| Face { outlines: outlines.clone(), origin: plus(origin, out, at), x, y, out };
        Self { faces: [face(0.0), face(thick)], up: out.map(|c| c * thick) }
    }

    /// Its edges.
    fn edges(&self) -> Vec<(Space, Space)> {
        let mut all = Vec::new();
        let [low, _] = &self.faces;
        for face in &self.faces {
            for outline in &face.outlines {
                let next = outline.iter().cycle().skip(1);
                all.extend(outline.iter().zip(next).map(|(a, b)| (face.place(*a), face.place(*b))));
            }
        }
        for outline in &low.outlines {
            all.extend(outline.iter().map(|c| {
                let at = low.place(*c);
                (at, plus(at, self.up, 1.0))
            }));
        }
        all
    }
}

/// The plates as they stand, drawn apart by that share.
fn standing(f: &Form, made: &[Made], apart: f64) -> Vec<(Kind, Solid)> {
    let mm = Length::as_mm;
    let (t, half, high) = (mm(f.t), mm(f.length) / 2.0, mm(f.end_height));
    let (out, lift) = (apart * mm(f.length) * 0.45, apart * high * 0.35);
    let (along, across, up) = ([1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]);
    let side = mm(f.rails_apart) / 2.0;
    let mut all = Vec::new();
    for m in made {
        let mut put = |place| all.push((m.kind, Solid::new(m, t, place)));
        match m.kind {
            Kind::End => {
                put(([half - t + out, 0.0, 0.0], across, up, along));
                put(([-half - out, 0.0, 0.0], across, up, along));
            }
            Kind::Rail => {
                for y in [side, -side] {
                    put(([0.0, y + t / 2.0, mm(f.rail_foot())], along, up, [0.0, -1.0, 0.0]));
                }
            }
            Kind::Top => put(([0.0, 0.0, high + lift], along, across, up)),
            Kind::Wedge => {
                let Locked::Wedge(wedge, hole) = &f.locked else { continue };
                let low = mm(f.rail_foot()) + f.tabs_at.first().map_or(0.0, |tab| mm(*tab)) - mm(hole.high) / 2.0;
                let (reach, pulled) = (mm(wedge.long) / 2.0, apart * mm(wedge.long) * 0.8);
                for y in [1.0, -1.0] {
                    for x in [1.0, -1.0] {
                        // The straight edge against the end plate, the narrow end inwards.
                        let start = [x * (half + out * 1.4), y * (side - reach + pulled), low];
                        put((start, [0.0, y, 0.0], [x, 0.0, 0.0], up));
                    }
                }
            }
        }
    }
    all
}

/// The view.
pub fn view(title: &str, f: &Form, made: &[Made], apart: f64) -> View {
    let (eye, solids) = (Eye::corner(), standing(f, made, apart));
    let piece = f.length.max(f.height).max(f.width).as_mm() / PIECES;
    let mut view = View::new(title);
    for (_, solid) in &solids {
        for (from, to) in solid.edges() {
            seen(&mut view, &eye, &solids, (from, to), piece);
        }
    }
    label(view, &eye, &solids)
}

/// The runs of an edge that nothing hides.
fn seen(view: &mut View, eye: &Eye, solids: &[(Kind, Solid)], (from, to): (Space, Space), piece: f64) {
    let way = plus(to, from, -1.0);
    let n = (libm::sqrt(dot(way, way)) / piece).ceil().clamp(1.0, 400.0);
    let hidden = |i: f64| {
        let middle = plus(plus(from, way, (i + 0.5) / n), eye.to, 0.1);
        solids.iter().flat_map(|(_, s)| &s.faces).any(|face| face.hides(middle, eye))
    };
    let mut start = None;
    let mut i = 0.0;
    while i <= n {
        let open = i < n && !hidden(i);
        match (start, open) {
            (None, true) => start = Some(i),
            (Some(begun), false) => {
                let at = |k: f64| eye.sees(plus(from, way, k / n));
                if let Ok(line) = Segment::line(at(begun), at(i)) {
                    view.edges.push((Edge::Visible, vec![line]));
                }
                start = None;
            }
            _ => {}
        }
        i += 1.0;
    }
}

/// The number of each plate, at the first of its kind.
fn label(mut view: View, eye: &Eye, solids: &[(Kind, Solid)]) -> View {
    for kind in [Kind::End, Kind::Rail, Kind::Top, Kind::Wedge] {
        let Some((_, solid)) = solids.iter().find(|(k, _)| *k == kind) else { continue };
        let [low, high] = &solid.faces;
        let face = if dot(high.out, eye.to) > 0.0 { high } else { low };
        let Some(corner) = face.outlines.first().and_then(|outline| outline.first()) else { continue };
        let words = format!("{} {}, {} x", kind.number(), kind.words(), kind.each());
        view = view.note(eye.sees(face.place(*corner)), &words);
    }
    view
}
