//! Shapes, their meshes and their files, against closed forms, another kernel and other readers.

#[path = "geometry/closed_forms.rs"]
mod closed_forms;
#[path = "geometry/counts.rs"]
mod counts;
#[path = "geometry/files.rs"]
mod files;
#[path = "geometry/parts.rs"]
mod parts;
#[path = "geometry/second_opinion.rs"]
mod second_opinion;
#[path = "geometry/truth.rs"]
mod truth;

use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use setdown::mesh::{self, Faults, faults};
use setdown::shape::Body;
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

/// A nose of 1.5 mm radius meshed to 0.19 mm: the tolerance is an eighth of the radius, and the estimate of the facets'
/// deviation is at its worst.
#[test]
fn a_small_nose_meshed_coarsely() {
    judge(&parts::random(6_164_540_255_007_617_882), 0.186_425_622_653_174_4).unwrap();
}

#[test]
fn tolerance_outside_its_range_is_refused() {
    let body = parts::plate().unwrap();
    for t in [f64::NAN, 0.0, -1.0, 9e-5, 1.01, f64::INFINITY] {
        let refused = mesh::mesh(&body, Length::mm(t)).unwrap_err().to_string();
        assert!(refused.contains("outside the range 0.0001 mm to 1 mm"), "{refused}");
    }
}
