//! The mesh of a plate: two faces over the very points of the rims, edges straight up, holes as rings.

use super::cap::{Corner, between};
use super::profile::{match_near, rings};
use super::ring::{Placed, chords, disc, half_step, strip};
use super::turned::thinnest;
use super::{Mesh, MeshError, finer};
use crate::shape::{Bored, Contour, CrossHole, Flat, FlatHole, Point, Segment};

pub(super) fn mesh(flat: &Flat, tol: f64) -> Result<Mesh, MeshError> {
    let tol = tol.min(0.45 * closest(flat).min(thinnest_middle(flat)));
    // Chords of near rims may cross at a coarse tolerance; a finer one parts them.
    finer(tol, |tol| try_mesh(flat, tol)).ok_or(MeshError::TooThin)
}

/// Smallest gap between any two outlines of the plate, mm.
fn closest(flat: &Flat) -> f64 {
    let loops: Vec<&Contour> = std::iter::once(flat.outer()).chain(flat.openings().iter().map(|o| &o.widest)).collect();
    let pairs = loops.iter().enumerate().flat_map(|(i, a)| loops.iter().skip(i + 1).map(|b| a.gap_to(b)));
    pairs.fold(f64::INFINITY, f64::min)
}

/// Thinnest wall of a turned middle, mm.
fn thinnest_middle(flat: &Flat) -> f64 {
    let middles = flat.holes().filter_map(|h| match h {
        FlatHole::Bored(b) if b.is_turned() => b.half_section(flat.thickness().as_mm(), 1.0).ok(),
        _ => None,
    });
    middles.map(|section| thinnest(section.segments())).fold(f64::INFINITY, f64::min)
}

/// One rim on each face: outline or hole.
#[derive(Default)]
struct Faces {
    top: Vec<Vec<Corner>>,
    bottom: Vec<Vec<Corner>>,
}

fn try_mesh(flat: &Flat, tol: f64) -> Option<Mesh> {
    let (mut mesh, mut faces) = (Mesh::default(), Faces::default());
    if flat.across().is_empty() {
        wall(&mut mesh, &mut faces, flat.outer(), flat, tol, true);
    } else {
        holed_wall(&mut mesh, &mut faces, flat, tol)?;
    }
    for o in flat.openings() {
        match &o.hole {
            FlatHole::Bored(b) => bore(&mut mesh, &mut faces, b, flat, tol),
            _ => wall(&mut mesh, &mut faces, &o.widest, flat, tol, false),
        }
    }
    mesh.triangles.extend(between(&faces.top)?);
    mesh.triangles.extend(between(&faces.bottom)?.into_iter().map(|[a, b, c]| [c, b, a]));
    Some(mesh)
}

/// Points of an outline whose chords stay within the tolerance.
fn outline(contour: &Contour, tol: f64) -> Vec<Point> {
    if let Some(circle) = contour.as_circle() {
        let r = circle.diameter / 2.0;
        let n = chords(r, tol);
        let at = |k: u32| circle.centre.polar(r, std::f64::consts::TAU * f64::from(k) / f64::from(n));
        return (0..n).map(at).collect();
    }
    contour.segments().iter().flat_map(|s| edge_points(s, tol)).collect()
}

/// Points of an edge without its end.
fn edge_points(s: &Segment, tol: f64) -> impl Iterator<Item = Point> + '_ {
    let pieces = s.arc().map_or(1.0, |a| (a.sweep.abs() / (2.0 * half_step(a.radius, tol)) - 1e-9).ceil().max(1.0));
    (0..pieces as u32).map(move |k| s.at(f64::from(k) / pieces))
}

/// A wall straight down along an outline.
#[allow(clippy::indexing_slicing, reason = "both rims have the same number of corners, indices modulo that")]
fn wall(mesh: &mut Mesh, faces: &mut Faces, contour: &Contour, flat: &Flat, tol: f64, outside: bool) {
    let points = outline(contour, tol);
    let mut rim = |z: f64| -> Vec<Corner> {
        points.iter().map(|p| Corner { at: *p, number: mesh.add_point([p.x, p.y, z]) }).collect()
    };
    let (top, bottom) = (rim(flat.thickness().as_mm()), rim(0.0));
    let n = points.len();
    for k in 0..n {
        let [a, b] = [k, (k + 1) % n].map(|i| bottom[i].number);
        let [c, d] = [k, (k + 1) % n].map(|i| top[i].number);
        let pair = if outside { [[a, b, c], [b, d, c]] } else { [[b, a, c], [d, b, c]] };
        mesh.triangles.extend(pair);
    }
    faces.top.push(top);
    faces.bottom.push(bottom);
}

/// The wall along the outline of a plate with holes across it: what a hole goes through is filled round it.
#[allow(clippy::indexing_slicing, reason = "both rims have the same number of corners, indices modulo that")]
fn holed_wall(mesh: &mut Mesh, faces: &mut Faces, flat: &Flat, tol: f64) -> Option<()> {
    let holes: Vec<[(usize, Vec<Corner>); 2]> =
        flat.across().iter().map(|h| bored_across(mesh, h, flat, tol)).collect();
    let pieces = flat.outer().segments().iter().enumerate();
    let points: Vec<(Point, usize)> = pieces.flat_map(|(k, s)| edge_points(s, tol).map(move |p| (p, k))).collect();
    let mut rim = |z: f64| -> Vec<Corner> {
        points.iter().map(|(p, _)| Corner { at: *p, number: mesh.add_point([p.x, p.y, z]) }).collect()
    };
    let (top, bottom) = (rim(flat.thickness().as_mm()), rim(0.0));
    let n = points.len();
    for k in 0..n {
        let next = (k + 1) % n;
        let edge = points[k].1;
        let rims: Vec<&Vec<Corner>> = holes.iter().flatten().filter(|(e, _)| *e == edge).map(|(_, rim)| rim).collect();
        let ([a, b], [c, d]) = ([k, next].map(|i| bottom[i].number), [k, next].map(|i| top[i].number));
        if rims.is_empty() {
            mesh.triangles.extend([[a, b, c], [b, d, c]]);
            continue;
        }
        let (long, high) = (points[k].0.to(points[next].0), flat.thickness().as_mm());
        let corner = |x: f64, z: f64, number: u32| Corner { at: Point::mm(x, z), number };
        let outline = vec![corner(0.0, 0.0, a), corner(long, 0.0, b), corner(long, high, d), corner(0.0, high, c)];
        let loops: Vec<Vec<Corner>> = std::iter::once(outline).chain(rims.into_iter().cloned()).collect();
        mesh.triangles.extend(between(&loops)?);
    }
    faces.top.push(top);
    faces.bottom.push(bottom);
    Some(())
}

/// The wall of a hole across; its rims in the planes of the two edges, as (way along the edge, height).
#[allow(clippy::indexing_slicing, reason = "both rims have the same number of corners; the edges are of the outline")]
fn bored_across(mesh: &mut Mesh, hole: &CrossHole, flat: &Flat, tol: f64) -> [(usize, Vec<Corner>); 2] {
    let (r, n) = (hole.radius(), chords(hole.radius(), tol));
    let a = hole.axis();
    // Square to the axis and level, so that it, the upright and the axis are a right-handed frame.
    let level = Point::mm(-a.y, a.x);
    let rims = hole.ends.map(|(edge, centre)| {
        let s = &flat.outer().segments()[edge];
        let d = s.to.minus(s.from).times(1.0 / s.from.to(s.to));
        let corner = |k: u32| {
            let turn = std::f64::consts::TAU * f64::from(k) / f64::from(n);
            let (x, z) = (r * libm::cos(turn), hole.height_mm() + r * libm::sin(turn));
            let p = centre.plus(level.times(x));
            Corner { at: Point::mm(p.minus(s.from).dot(d), z), number: mesh.add_point([p.x, p.y, z]) }
        };
        (edge, (0..n).map(corner).collect::<Vec<_>>())
    });
    let count = n as usize;
    for k in 0..count {
        let next = (k + 1) % count;
        let [p, q] = [0, 1].map(|end: usize| [rims[end].1[k].number, rims[end].1[next].number]);
        mesh.triangles.extend([[q[0], p[1], q[1]], [q[0], p[0], p[1]]]);
    }
    rims
}

/// A bored hole: rings from the top rim down.
#[allow(clippy::indexing_slicing, reason = "a bored hole has at least two rings; points by their own numbers")]
fn bore(mesh: &mut Mesh, faces: &mut Faces, bored: &Bored, flat: &Flat, tol: f64) {
    let t = flat.thickness().as_mm();
    let up = |p: Point| Point::mm(p.x, t - p.y);
    let turned = |s: &Segment| Segment { from: up(s.from), to: up(s.to), bulge: -s.bulge };
    let profile: Vec<Segment> = bored.profile().iter().map(turned).collect();
    let mut plan = rings(&profile, false, tol);
    match_near(&mut plan, false, tol, |_, _| false);
    // The end of a hole that is blind from below.
    let flat_start = profile.first().is_some_and(|s| s.from.x == 0.0 && s.from.y == s.to.y && s.bulge == 0.0);
    if flat_start {
        plan.remove(0);
    }
    let flat_end = profile.last().is_some_and(|s| s.to.x == 0.0 && s.from.y == s.to.y && s.bulge == 0.0);
    if flat_end {
        plan.pop();
    }
    let place = |mesh: &mut Mesh, ring: &super::ring::Ring| Placed {
        ring: *ring,
        points: ring.place(mesh, bored.centre(), 0.0),
    };
    let placed: Vec<Placed> = plan.iter().map(|r| place(mesh, r)).collect();
    placed.windows(2).for_each(|pair| strip(mesh, &pair[0], &pair[1]));
    let rim = |p: &Placed, mesh: &Mesh| -> Vec<Corner> {
        let at = |n: &u32| Point::mm(mesh.points[*n as usize][0], mesh.points[*n as usize][1]);
        p.points.iter().map(|n| Corner { at: at(n), number: *n }).collect()
    };
    if flat_start {
        placed.first().into_iter().for_each(|p| disc(mesh, &p.points, false));
    } else if bored.top().x > 0.0 {
        faces.top.extend(placed.first().map(|p| rim(p, mesh)));
    }
    if flat_end {
        placed.last().into_iter().for_each(|p| disc(mesh, &p.points, true));
    } else if bored.bottom().x > 0.0 {
        faces.bottom.extend(placed.last().map(|p| rim(p, mesh)));
    }
}
