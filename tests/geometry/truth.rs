//! How far a mesh is from the true surface, worked from the shape's edges alone.

use setdown::export::mesh::Mesh;
use setdown::shape::{Body, Bored, Flat, FlatHole, Point, RadialHole, Segment, Turned};

fn xy(p: Point) -> (f64, f64) {
    (p.x().as_mm(), p.y().as_mm())
}

/// Distance from a point to an edge: to the line, or to the circle where the arc is, else to the nearer end.
fn to_edge(s: &Segment, (x, y): (f64, f64)) -> f64 {
    let ((ax, ay), (bx, by)) = (xy(s.from()), xy(s.to()));
    let ends = (x - ax).hypot(y - ay).min((x - bx).hypot(y - by));
    match s.arc() {
        None => {
            let (dx, dy) = (bx - ax, by - ay);
            let t = (((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)).clamp(0.0, 1.0);
            (x - ax - t * dx).hypot(y - ay - t * dy)
        }
        Some(arc) => {
            let (cx, cy) = xy(arc.centre());
            let sweep = arc.sweep().as_radians();
            let start = arc.start().as_radians();
            let turn = ((y - cy).atan2(x - cx) - start) * sweep.signum();
            let on = turn.rem_euclid(std::f64::consts::TAU) <= sweep.abs();
            if on { ((x - cx).hypot(y - cy) - arc.radius().as_mm()).abs().min(ends) } else { ends }
        }
    }
}

fn to_edges(edges: &[Segment], at: (f64, f64)) -> f64 {
    edges.iter().map(|s| to_edge(s, at)).fold(f64::INFINITY, f64::min)
}

fn to_cross_hole(hole: &RadialHole, [x, y, z]: [f64; 3]) -> f64 {
    let (s, c) = hole.around().as_radians().sin_cos();
    if x * c + y * s <= 0.0 {
        return f64::INFINITY;
    }
    ((y * c - x * s).hypot(z - hole.along().as_mm()) - hole.diameter().as_mm() / 2.0).abs()
}

fn to_turned(t: &Turned, p: [f64; 3]) -> f64 {
    let body = to_edges(t.profile().segments(), (p[0].hypot(p[1]), p[2]));
    t.radial_holes().map(|h| to_cross_hole(h, p)).fold(body, f64::min)
}

fn to_bored(b: &Bored, thickness: f64, [x, y, z]: [f64; 3]) -> f64 {
    let (cx, cy) = xy(b.centre());
    to_edges(b.profile(), ((x - cx).hypot(y - cy), thickness - z))
}

fn to_flat(f: &Flat, p: [f64; 3]) -> f64 {
    let t = f.thickness().as_mm();
    let faces = p[2].abs().min((p[2] - t).abs());
    let outer = to_edges(f.outer().segments(), (p[0], p[1]));
    let hole = |h: &FlatHole| match h {
        FlatHole::Bored(b) => to_bored(b, t, p),
        other => to_edges(other.widest().unwrap().segments(), (p[0], p[1])),
    };
    f.holes().map(hole).fold(faces.min(outer), f64::min)
}

/// Distance from a point to the true surface, mm.
pub fn distance(body: &Body, p: [f64; 3]) -> f64 {
    match body {
        Body::Turned(t) => to_turned(t, p),
        Body::Flat(f) => to_flat(f, p),
    }
}

/// Largest distance of any sampled facet point from the true surface: each facet on a grid of `fine` parts.
pub fn deviation(body: &Body, mesh: &Mesh, fine: usize) -> f64 {
    let mut worst = 0.0f64;
    for t in mesh.triangles() {
        let c = mesh.corners(t);
        for i in 0..=fine {
            for j in 0..=fine - i {
                let (u, v) = (i as f64 / fine as f64, j as f64 / fine as f64);
                let p = [0, 1, 2].map(|k| c[0][k] * (1.0 - u - v) + c[1][k] * u + c[2][k] * v);
                worst = worst.max(distance(body, p));
            }
        }
    }
    worst
}
