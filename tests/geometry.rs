//! Shapes, their meshes and their files, against closed forms, another kernel and other readers.

#[path = "geometry/closed_forms.rs"]
mod closed_forms;
#[path = "geometry/counts.rs"]
mod counts;
#[path = "geometry/files.rs"]
mod files;
#[path = "geometry/middles.rs"]
mod middles;
#[path = "geometry/parts.rs"]
mod parts;
#[path = "geometry/second_opinion.rs"]
mod second_opinion;
#[path = "geometry/truth.rs"]
mod truth;

use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use setdown::export::mesh::{self, Faults, faults};
use setdown::shape::{Body, Contour, Flat, FlatHole, Path, Point, Turned};
use setdown::units::Length;

/// Sound mesh: every edge twice and opposite, no empty triangle, even Euler number, volume within surface ×
/// tolerance, every facet within the tolerance.
fn judge(body: &Body, tolerance: f64) -> Result<mesh::Mesh, String> {
    let mesh = mesh::mesh(body, Length::mm(tolerance)).map_err(|e| e.to_string())?;
    let f = faults(&mesh);
    if f != (Faults { euler: f.euler, ..Faults::default() }) || f.euler % 2 != 0 {
        return Err(format!("{f:?}"));
    }
    let (v, exact) = (mesh.volume().as_mm3(), body.volume().as_mm3());
    let bound = body.surface().as_mm2() * tolerance;
    if (v - exact).abs() > bound {
        return Err(format!("volume {v} against {exact}, bound {bound}"));
    }
    let off = truth::deviation(body, &mesh, 4);
    if off > tolerance * (1.0 + 1e-6) {
        return Err(format!("deviation {off} over {tolerance}"));
    }
    Ok(mesh)
}

#[test]
fn hundreds_of_random_parts_mesh_soundly() {
    let judged = (0..200u64).map(|seed| {
        let tolerance = [0.2, 0.05, 0.02][seed as usize % 3];
        judge(&parts::random(seed), tolerance).map_err(|why| format!("seed {seed}, tolerance {tolerance}: {why}"))
    });
    let bad: Vec<String> = judged.filter_map(Result::err).collect();
    assert!(bad.is_empty(), "{} bad:\n{}", bad.len(), bad.join("\n"));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, rng_seed: RngSeed::Fixed(7), failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn any_part_meshes_soundly(seed in any::<u64>(), tolerance in 0.02f64..0.8) {
        let body = parts::random(seed);
        let judged = judge(&body, tolerance);
        prop_assert!(judged.is_ok(), "{:?}", judged.err());
    }
}

/// Tolerances coarse beside the part. A tip radius of 1.5 mm and a groove: facets deeper than the curvature at their
/// corners foretells. A cross hole narrower than twice the tolerance, between two columns of the wall: two points only
/// on its edge.
#[test]
fn rounds_and_small_holes_at_coarse_tolerances() {
    let found = [
        (6_164_540_255_007_617_882, 0.1864256226531744),
        (7_831_684_484_809_970_035, 0.3628790212647263),
        (18_257_199_826_964_549_687, 0.6856449616383625),
        (872_317_951_481_170_534, 0.6370578305176319),
        (13_753_711_131_241_343_416, 0.6268224191259143),
    ];
    for (seed, tolerance) in found {
        let judged = judge(&parts::random(seed), tolerance);
        assert!(judged.is_ok(), "seed {seed}, tolerance {tolerance}: {:?}", judged.err());
    }
}

/// Shapes of two edges, an arc and its chord, whose sagitta is below the tolerance: a lens and a half-moon cut out of
/// a plate, a lens-shaped ring, a spindle.
#[test]
fn shallow_arcs_do_not_shrink_to_nothing() {
    let shallow =
        |from: Point, to: Point, back: f64| Path::start(from).bulge_to(to, 0.05).bulge_to(from, back).open().unwrap();
    let plate = |back: f64| {
        let hole = Contour::from_segments(shallow(Point::mm(-2.0, 0.0), Point::mm(2.0, 0.0), back)).unwrap();
        let outer = Contour::rectangle(Length::mm(20.0), Length::mm(10.0), Length::ZERO).unwrap();
        Body::Flat(Flat::new(outer, Length::mm(3.0), vec![FlatHole::Cut(hole)]).unwrap())
    };
    let turned = |r: f64, back: f64| {
        let profile = shallow(Point::mm(r, 0.0), Point::mm(r, 6.0), back);
        Body::Turned(Turned::from_profile(profile).unwrap())
    };
    for body in [plate(0.04), plate(0.0), turned(9.0, 0.04), turned(9.0, 0.0), turned(0.0, 0.0)] {
        let mesh = judge(&body, 0.9).unwrap();
        assert!(mesh.volume().as_mm3() > 0.5 * body.volume().as_mm3(), "{:?}", mesh.volume());
    }
}

#[test]
fn tolerance_outside_its_range_is_refused() {
    let body = parts::plate().unwrap();
    for t in [f64::NAN, 0.0, -1.0, 9e-5, 1.01, f64::INFINITY] {
        let refused = mesh::mesh(&body, Length::mm(t)).unwrap_err().to_string();
        assert!(refused.contains("outside the range 0.0001 mm to 1 mm"), "{refused}");
    }
}
