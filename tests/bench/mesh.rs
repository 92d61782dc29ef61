//! Triangles of cone, sleeve and plate against the least possible, and the time they take.
//!
//! Run: cargo bench --bench mesh

#[path = "../geometry/parts.rs"]
#[allow(dead_code, reason = "shared with the tests, which use all of it")]
mod parts;

use std::f64::consts::PI;
use std::time::Instant;

use setdown::export::mesh::mesh;
use setdown::shape::{Body, Segment};
use setdown::units::Length;

/// Triangles over the least possible, and ms, at the usual tolerance of 0.01 mm.
const AIMS: (f64, f64) = (1.05, 1.0);

/// ⌈π / acos(1 − tol/R)⌉.
fn chords(r: f64, tol: f64) -> usize {
    (PI / (1.0 - tol / r).acos()).ceil() as usize
}

/// Least for a turned part: n₁ + n₂ for each straight face; for a doubly curved one the area in the metric of its
/// curvatures over that of the largest equal-sided triangle, (3√3/4)·2·tol (squared circumradius 2·tol).
fn least_turned(profile: &[Segment], tol: f64) -> f64 {
    let n = |r: f64| if r > 0.0 { chords(r, tol) as f64 } else { 0.0 };
    profile.iter().map(|s| curved_or_straight(s, tol, &n)).sum()
}

fn curved_or_straight(s: &Segment, tol: f64, n: &impl Fn(f64) -> f64) -> f64 {
    let ends = [s.from().x().as_mm(), s.to().x().as_mm()];
    let Some(arc) = s.arc() else {
        return if ends == [0.0, 0.0] { 0.0 } else { n(ends[0]) + n(ends[1]) };
    };
    let (centre, rho) = (arc.centre().x().as_mm(), arc.radius().as_mm());
    let steps = 1000;
    let slice = |k: usize| {
        let t = arc.start().as_radians() + arc.sweep().as_radians() * (k as f64 + 0.5) / steps as f64;
        let r = centre + rho * t.cos();
        let (along, around) = (1.0 / rho, t.cos().abs() / r);
        2.0 * PI * r * rho * arc.sweep().as_radians().abs() / steps as f64 * (along * around).sqrt()
    };
    (0..steps).map(slice).sum::<f64>() / (0.75 * 3f64.sqrt() * 2.0 * tol)
}

/// Least for the plate of the tests, face by face.
fn least_plate(tol: f64) -> f64 {
    let n = |r: f64| chords(r, tol);
    let pieces = |r: f64, sweep: f64| (sweep / (2.0 * (1.0 - tol / r).acos())).ceil() as usize;
    let (outline, slot, bolts) = (4 * (pieces(8.0, PI / 2.0) + 1), 2 * (pieces(4.0, PI) + 1), 4 * n(4.5));
    let (wide, middle, small) = (n(16.0), n(14.0), n(12.0));
    let walls = 2 * (outline + slot + bolts) + 3 * wide + 4 * middle + 3 * small;
    let caps = 2 * (outline + slot + bolts) + wide + small + 2 * (2 * 6 - 2);
    (walls + caps) as f64
}

fn main() {
    println!("aims at 0.01 mm: ratio {}, {} ms", AIMS.0, AIMS.1);
    println!("{:<28} {:>8} {:>10} {:>10} {:>7} {:>10}", "part", "tol mm", "triangles", "least", "ratio", "ms");
    for tol in [0.1, 0.01, 0.001] {
        let named = [
            ("cone", parts::cone(60.0, 20.0, 40.0, 6.0, 13.0, 0.0)),
            ("cone, tip radius 3", parts::cone(60.0, 20.0, 40.0, 6.0, 13.0, 3.0)),
            ("sleeve", parts::plain_sleeve(40.0, 52.0, 30.0, 0.8)),
            ("sleeve with groove", parts::sleeve(40.0, 52.0, 30.0, 0.8, None)),
            ("sleeve with cross hole", parts::sleeve(40.0, 52.0, 30.0, 0.8, Some(4.0))),
            ("plate", parts::plate()),
        ];
        for (name, body) in named {
            let Ok(body) = body else { continue };
            report(name, &body, tol);
        }
    }
}

fn report(name: &str, body: &Body, tol: f64) {
    let least = match body {
        Body::Turned(t) => least_turned(t.profile().segments(), tol),
        Body::Flat(_) => least_plate(tol),
    };
    let (mut count, mut ms) = (0, f64::INFINITY);
    for _ in 0..20 {
        let start = Instant::now();
        count = mesh(body, Length::mm(tol)).map_or(0, |m| m.triangles().len());
        ms = ms.min(start.elapsed().as_secs_f64() * 1e3);
    }
    println!("{name:<28} {tol:>8} {count:>10} {least:>10.0} {:>7.3} {ms:>10.3}", count as f64 / least);
}
