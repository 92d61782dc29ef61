//! Volumes, areas and centroids against formulas of handbooks, and faulty shapes against their sentences.

use std::f64::consts::PI;

use approx::assert_relative_eq;
use setdown::shape::{
    Body, Bored, Circle, Contour, Cutting, Flat, FlatHole, Mark, Path, Point, RadialHole, Segment, ShapeError, Solid,
    Turn, Turned,
};
use setdown::units::{Angle, Length};

use crate::parts;

fn mm(x: f64) -> Length {
    Length::mm(x)
}

/// Frustum of a cone V = πh(D² + Dd + d²)/12, cylinder V = πd²h/4 (Machinery's Handbook, "Volumes of solids").
/// The sum was also measured once in two other geometry kernels: 58 729.0087 mm³.
#[test]
fn cone_frustum_on_a_foot_with_a_bore() {
    let rise = 20.0 / Angle::degrees(30.0).tan();
    let body = parts::cone(60.0, 20.0, 6.0 + rise, 6.0, 13.0, 0.0).unwrap();
    let frustum = PI * rise * (60.0 * 60.0 + 60.0 * 20.0 + 20.0 * 20.0) / 12.0;
    let (foot, bore) = (PI * 900.0 * 6.0, PI * 6.5 * 6.5 * (6.0 + rise));
    assert_relative_eq!(body.volume().as_mm3(), frustum + foot - bore, max_relative = 1e-14);
    assert!((body.volume().as_mm3() - 58_729.0087).abs() < 1e-4);
}

/// Torus V = 2π²Rr², A = 4π²Rr; ball V = 4πr³/3, A = 4πr² (Machinery's Handbook, "Volumes of solids").
#[test]
fn torus_and_ball() {
    let ring = Contour::circle(Circle::new(Point::mm(20.0, 5.0), mm(8.0)).unwrap()).unwrap();
    let torus = Turned::from_profile(ring.segments().to_vec()).unwrap();
    assert_relative_eq!(torus.volume().as_mm3(), 2.0 * PI * PI * 20.0 * 16.0, max_relative = 1e-14);
    assert_relative_eq!(torus.surface().as_mm2(), 4.0 * PI * PI * 20.0 * 4.0, max_relative = 1e-14);
    assert_relative_eq!(torus.centroid_height().as_mm(), 5.0, max_relative = 1e-13);
    let half = Path::start(Point::mm(0.0, 0.0)).arc_to(Point::mm(0.0, 14.0), Point::mm(0.0, 7.0), Turn::Anticlockwise);
    let ball = Turned::from_profile(half.closed_edges().unwrap()).unwrap();
    assert_relative_eq!(ball.volume().as_mm3(), 4.0 * PI * 343.0 / 3.0, max_relative = 1e-14);
    assert_relative_eq!(ball.surface().as_mm2(), 4.0 * PI * 49.0, max_relative = 1e-14);
    assert_relative_eq!(ball.centroid_height().as_mm(), 7.0, max_relative = 1e-13);
}

/// Centroid of a cone above its base h/4, of a half ball 3r/8 (Machinery's Handbook, "Centers of gravity").
#[test]
fn centroids_of_cone_and_half_ball() {
    let cone = [Point::mm(0.0, 0.0), Point::mm(9.0, 0.0), Point::mm(0.0, 12.0)];
    assert_relative_eq!(Turned::from_corners(&cone).unwrap().centroid_height().as_mm(), 3.0, max_relative = 1e-14);
    let half = Path::start(Point::mm(0.0, 0.0)).line_to(Point::mm(8.0, 0.0));
    let half = half.arc_to(Point::mm(0.0, 8.0), Point::ORIGIN, Turn::Anticlockwise).closed_edges().unwrap();
    assert_relative_eq!(Turned::from_profile(half).unwrap().centroid_height().as_mm(), 3.0, max_relative = 1e-14);
}

/// A hole of radius a through a wall from r to R: πa²R(1 − a²/8R² − a⁴/64R⁴ − 5a⁶/1024R⁶ − …) less the same with r,
/// the binomial series of √(R² − x²) averaged over the hole's disc (worked here from ⟨x²⟩ = a²/4, ⟨x⁴⟩ = a⁴/8,
/// ⟨x⁶⟩ = 5a⁶/64; the next term is below 1e-8 of the whole for a/r = 1/8).
#[test]
fn cross_hole_by_series() {
    let (a, r, big) = (2.0, 16.0, 24.0);
    let whole = Turned::ring(mm(2.0 * r), mm(2.0 * big), mm(20.0)).unwrap();
    let hole = RadialHole::new(mm(2.0 * a), mm(9.0), Angle::degrees(70.0)).unwrap();
    let drilled = whole.clone().with_radial_hole(hole).unwrap();
    let depth = |r: f64| {
        let q = (a / r).powi(2);
        PI * a * a * r * (1.0 - q / 8.0 - q * q / 64.0 - 5.0 * q.powi(3) / 1024.0)
    };
    let taken = whole.volume().as_mm3() - drilled.volume().as_mm3();
    assert_relative_eq!(taken, depth(big) - depth(r), max_relative = 1e-7);
}

/// Rectangle with round corners A = lw − (4 − π)r²; slot A = (L − w)w + πw²/4 (Machinery's Handbook, "Areas").
#[test]
fn flat_outlines() {
    let plate = Contour::rectangle(mm(120.0), mm(80.0), mm(8.0)).unwrap();
    assert_relative_eq!(plate.area().as_mm2(), 9600.0 - (4.0 - PI) * 64.0, max_relative = 1e-14);
    assert_relative_eq!(plate.perimeter().as_mm(), 2.0 * (104.0 + 64.0) + PI * 16.0, max_relative = 1e-14);
    let slot = Contour::slot(Point::mm(5.0, 7.0), mm(10.0), mm(30.0), Angle::degrees(30.0)).unwrap();
    assert_relative_eq!(slot.area().as_mm2(), 200.0 + PI * 25.0, max_relative = 1e-13);
    assert_relative_eq!(slot.centroid().distance(Point::mm(5.0, 7.0)).as_mm(), 0.0, epsilon = 1e-12);
    let e = slot.extents();
    assert_relative_eq!(e.width().as_mm(), 10.0 + 20.0 * Angle::degrees(30.0).cos(), max_relative = 1e-14);
    assert_relative_eq!(e.height().as_mm(), 10.0 + 20.0 * Angle::degrees(30.0).sin(), max_relative = 1e-14);
    let pill = Contour::rectangle(mm(30.0), mm(10.0), mm(5.0)).unwrap();
    assert_eq!(pill.segments().len(), 6);
    assert_relative_eq!(pill.area().as_mm2(), 200.0 + PI * 25.0, max_relative = 1e-14);
}

/// Half disc: centroid 4r/3π from the straight side (Machinery's Handbook, "Centers of gravity").
#[test]
fn centroid_of_a_half_disc() {
    let half = Path::start(Point::mm(3.0, 0.0)).bulge_to(Point::mm(-3.0, 0.0), 1.0).close().unwrap();
    let c = half.centroid();
    assert_relative_eq!(c.x().as_mm(), 0.0, epsilon = 1e-14);
    assert_relative_eq!(c.y().as_mm(), 4.0 / PI, max_relative = 1e-14);
}

/// Sums of cylinders and frusta, as above. A quarter-round rim of radius ρ on a hole of radius r takes the block
/// π((r + ρ)² − r²)ρ less the quarter torus 2π·(πρ²/4)·(r + ρ − 4ρ/3π) (Pappus; centroid of a quarter disc).
#[test]
fn bored_holes() {
    let t = 10.0;
    let block = |hole: Bored| {
        let plain = 100.0 * 100.0 * t;
        let outer = Contour::rectangle(mm(100.0), mm(100.0), mm(0.0)).unwrap();
        plain - Flat::new(outer, mm(t), vec![FlatHole::Bored(hole)]).unwrap().volume().as_mm3()
    };
    let at = |d: f64, w: f64| (mm(d), mm(w));
    let stepped = [at(0.0, 40.0), at(3.0, 40.0), at(3.0, 30.0), at(10.0, 30.0)];
    let taken = block(Bored::from_corners(Point::ORIGIN, &stepped).unwrap());
    assert_relative_eq!(taken, PI * (400.0 * 3.0 + 225.0 * 7.0), max_relative = 1e-12);
    let seat = block(Bored::from_corners(Point::ORIGIN, &[at(0.0, 40.0), at(10.0, 30.0)]).unwrap());
    assert_relative_eq!(seat, PI * 10.0 * (1600.0 + 1200.0 + 900.0) / 12.0, max_relative = 1e-12);
    let (r, p) = (15.0, 4.0);
    let rim = Path::start(Point::mm(r + p, 0.0)).arc_to(Point::mm(r, p), Point::mm(r + p, p), Turn::Clockwise);
    let rounded = Bored::from_profile(Point::ORIGIN, rim.line_to(Point::mm(r, t)).open().unwrap());
    let torus = 2.0 * PI * (PI * p * p / 4.0) * (r + p - 4.0 * p / (3.0 * PI));
    let expected = PI * r * r * t + PI * ((r + p) * (r + p) - r * r) * p - torus;
    assert_relative_eq!(block(rounded.unwrap()), expected, max_relative = 1e-12);
}

/// Moments of the parts' areas about an edge (composition of rectangles and discs).
#[test]
fn centroid_of_a_plate_with_a_blind_hole() {
    let hole =
        Bored::from_corners(Point::mm(20.0, 0.0), &[(mm(0.0), mm(20.0)), (mm(6.0), mm(20.0)), (mm(6.0), mm(0.0))]);
    let outer = Contour::rectangle(mm(100.0), mm(60.0), mm(0.0)).unwrap();
    let plate = Flat::new(outer, mm(10.0), vec![FlatHole::Bored(hole.unwrap())]).unwrap();
    let (whole, gone) = (60_000.0, PI * 100.0 * 6.0);
    let (c, z) = plate.centroid();
    assert_relative_eq!(c.x().as_mm(), -20.0 * gone / (whole - gone), max_relative = 1e-12);
    assert_relative_eq!(z.as_mm(), (whole * 5.0 - gone * 7.0) / (whole - gone), max_relative = 1e-12);
    let surface = 2.0 * 6000.0 + 320.0 * 10.0 + PI * 20.0 * 6.0;
    assert_relative_eq!(plate.surface().as_mm2(), surface, max_relative = 1e-12);
}

#[test]
fn what_the_laser_cuts_is_the_smallest_through_width() {
    let Body::Flat(plate) = parts::plate().unwrap() else { unreachable!() };
    let cutting = Cutting::of_flat(&plate).unwrap();
    let holes: f64 = PI * 144.0 + 4.0 * PI * 4.5 * 4.5 + (16.0 * 8.0 + PI * 16.0);
    assert_relative_eq!(cutting.area().as_mm2(), 9600.0 - (4.0 - PI) * 64.0 - holes, max_relative = 1e-12);
    assert_eq!(Solid::only(Body::Flat(plate)).name_suffix, None);
}

/// Every faulty shape is refused with its own sentence.
#[test]
fn faulty_shapes_say_what_is_wrong() {
    let p = Point::mm;
    let square = || Contour::rectangle(mm(10.0), mm(10.0), mm(0.0)).unwrap();
    let hole = |x: f64, d: f64| FlatHole::Bored(Bored::through(p(x, 0.0), mm(d), mm(2.0)).unwrap());
    let plate = |holes: Vec<FlatHole>| Flat::new(square(), mm(2.0), holes).map(|_| ());
    let poly = |corners: &[Point]| Contour::polygon(corners).map(|_| ());
    let turned = |corners: &[Point]| Turned::from_corners(corners).map(|_| ());
    let cross = |d: f64, z: f64| {
        let ring = Turned::ring(mm(20.0), mm(30.0), mm(10.0)).unwrap();
        ring.with_radial_hole(RadialHole::new(mm(d), mm(z), Angle::ZERO).unwrap())
    };
    let bore = |corners: &[(f64, f64)]| {
        let corners: Vec<_> = corners.iter().map(|(a, b)| (mm(*a), mm(*b))).collect();
        plate(vec![FlatHole::Bored(Bored::from_corners(Point::ORIGIN, &corners)?)])
    };
    let arc = Segment::arc_about(p(0.0, 0.0), p(4.0, 0.0), p(1.0, 0.0), Turn::Clockwise).map(|_| ());
    let twice = Mark::Cross { centre: p(0.0, 0.0), size: mm(3.0) };
    let cases: Vec<(Result<(), ShapeError>, &str)> = vec![
        (poly(&[p(0.0, 0.0), p(f64::NAN, 1.0), p(1.0, 1.0)]), "not a number"),
        (poly(&[p(0.0, 0.0), p(20_000.0, 0.0), p(1.0, 1.0)]), "further than 10 m"),
        (poly(&[p(0.0, 0.0), p(1.0, 0.0)]), "at least three lines"),
        (poly(&[p(0.0, 0.0), p(0.0, 0.0), p(1.0, 1.0)]), "shorter than 0.001 mm"),
        (poly(&[p(0.0, 0.0), p(4.0, 4.0), p(4.0, 0.0), p(0.0, 3.0)]), "crosses or touches itself"),
        (poly(&[p(0.0, 0.0), p(4.0, 0.0), p(2.0, 0.0), p(2.0, 3.0)]), "straight back on itself"),
        (Segment::bulged(p(0.0, 0.0), p(1.0, 0.0), 1e-7).map(|_| ()), "flatter than 100 m"),
        (arc, "different distances from its centre"),
        (turned(&[p(-1.0, 0.0), p(4.0, 0.0), p(4.0, 4.0)]), "across the axis"),
        (turned(&[p(0.0, 0.0), p(4.0, 0.0), p(4.0, 4.0)]), "only just touches the axis"),
        (Contour::rectangle(mm(0.0), mm(1.0), mm(0.0)).map(|_| ()), "the length must be more than nought"),
        (Contour::rectangle(mm(9.0), mm(4.0), mm(2.1)).map(|_| ()), "more than half the shorter side"),
        (Contour::slot(Point::ORIGIN, mm(4.0), mm(4.0), Angle::ZERO).map(|_| ()), "longer than it is wide"),
        (Turned::ring(mm(20.0), mm(20.0), mm(5.0)).map(|_| ()), "bore must be smaller"),
        (plate(vec![hole(4.0, 2.0)]), "breaks through the outline"),
        (plate(vec![hole(40.0, 2.0)]), "lies outside"),
        (plate(vec![hole(-1.0, 3.0), hole(1.0, 3.0)]), "run into each other"),
        (plate(vec![hole(0.0, 5.0), hole(0.0, 3.0)]), "run into each other"),
        (bore(&[(0.0, 5.0), (3.0, 5.0)]), "must begin at the top face"),
        (bore(&[(0.0, 5.0), (1.0, 5.0)]), "must begin at the top face"),
        (bore(&[(0.0, 5.0), (1.5, 4.0), (1.0, 3.0), (2.0, 3.0)]), "must begin at the top face"),
        (cross(4.0, 1.0).map(|_| ()), "does not pass through one wall"),
        (
            Turned::ring(mm(4.0), mm(30.0), mm(10.0))
                .unwrap()
                .with_radial_hole(RadialHole::new(mm(4.0), mm(5.0), Angle::ZERO).unwrap())
                .map(|_| ()),
            "at most 0.9 of the bore",
        ),
        (
            cross(4.0, 5.0)
                .unwrap()
                .with_radial_hole(RadialHole::new(mm(4.0), mm(5.0), Angle::degrees(10.0)).unwrap())
                .map(|_| ()),
            "cross holes run into each other",
        ),
        (Cutting::new(square(), vec![], vec![twice, twice]).map(|_| ()), "there twice"),
    ];
    for (result, sentence) in cases {
        let said = result.expect_err(sentence).to_string();
        assert!(said.contains(sentence), "{said:?} lacks {sentence:?}");
    }
}
