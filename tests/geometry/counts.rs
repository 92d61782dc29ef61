//! Triangle counts against the least possible at the tolerance.
//!
//! Least: a circle needs n = ⌈π / acos(1 − tol/R)⌉ chords (the sagitta R(1 − cos(π/n)) must not exceed the
//! tolerance); a face between two rings n₁ + n₂ triangles, a flat face with b boundary points and k holes
//! b + 2k − 2 (Euler's formula for plane graphs).

use std::f64::consts::PI;

use setdown::export::mesh::mesh;
use setdown::units::Length;

use crate::parts;

pub fn chords(r: f64, tol: f64) -> usize {
    (PI / (1.0 - tol / r).acos()).ceil() as usize
}

fn triangles(body: &setdown::shape::Body, tol: f64) -> usize {
    mesh(body, Length::mm(tol)).unwrap().triangles().len()
}

#[test]
fn cone_sleeve_and_plate_need_no_more_than_a_tenth_above_the_least() {
    for tol in [0.1, 0.01, 0.001] {
        let n = |r: f64| chords(r, tol);
        let cone = parts::cone(60.0, 20.0, 40.0, 6.0, 13.0, 0.0).unwrap();
        // Strips: flank, foot, bore, and two flat rings; every ring belongs to two of them.
        let least = 2 * (n(30.0) + n(30.0) + n(10.0) + n(6.5) + n(6.5));
        assert!(triangles(&cone, tol) <= least + least / 10, "cone {} of {least}", triangles(&cone, tol));
        let sleeve = parts::plain_sleeve(40.0, 52.0, 30.0, 0.8).unwrap();
        // Both chamfers, outside, bore and the two ends: eight rings, each in two strips.
        let least = 4 * (n(26.0) + n(25.2) + n(20.8) + n(20.0));
        assert!(triangles(&sleeve, tol) <= least + least / 10, "sleeve {} of {least}", triangles(&sleeve, tol));
        let plate = parts::plate().unwrap();
        let quarter = (PI / 2.0 / (2.0 * (1.0 - tol / 8.0).acos())).ceil() as usize;
        let half = (PI / (2.0 * (1.0 - tol / 4.0).acos())).ceil() as usize;
        let (outline, slot, bolts) = (4 * (quarter + 1), 2 * (half + 1), 4 * n(4.5));
        let (wide, middle, small) = (n(16.0), n(14.0), n(12.0));
        let walls =
            2 * (outline + slot + bolts) + 2 * wide + (wide + middle) + 2 * middle + (middle + small) + 2 * small;
        let top = outline + slot + bolts + wide + 2 * 6 - 2;
        let bottom = outline + slot + bolts + small + 2 * 6 - 2;
        let least = walls + top + bottom;
        let made = triangles(&plate, tol);
        assert!(made <= least + least / 10, "plate {made} of {least}");
    }
}
