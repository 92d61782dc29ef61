//! Discs with a turned middle: spigots, recesses, grooves, blind holes from both faces; against closed forms of cylinders.

use std::f64::consts::PI;

use setdown::export::{mesh, step};
use setdown::shape::{Body, Bored, Flat, FlatHole, Point, ShapeError};
use setdown::units::Length;

fn mm(x: f64) -> Length {
    Length::mm(x)
}

fn corners(of: &[(f64, f64)]) -> Vec<(Length, Length)> {
    of.iter().map(|(depth, diameter)| (mm(*depth), mm(*diameter))).collect()
}

fn cylinder(diameter: f64, height: f64) -> f64 {
    PI / 4.0 * diameter * diameter * height
}

fn middle(of: &[(f64, f64)]) -> Result<FlatHole, ShapeError> {
    Bored::turned(Point::ORIGIN, &corners(of)).map(FlatHole::Bored)
}

/// Groove 90/80 x 2 and a spigot of 60 x 4 on the upper face, a recess of 70 x 3 in the lower one, bore 40; or the same without a bore.
fn bodies() -> Vec<(Body, f64, f64)> {
    let disc = cylinder(120.0, 10.0);
    let ring = cylinder(90.0, 2.0) - cylinder(80.0, 2.0);
    let through = [
        (0.0, 90.0),
        (2.0, 90.0),
        (2.0, 80.0),
        (0.0, 80.0),
        (0.0, 60.0),
        (-4.0, 60.0),
        (-4.0, 40.0),
        (7.0, 40.0),
        (7.0, 70.0),
        (10.0, 70.0),
    ];
    let bore = cylinder(40.0, 4.0 + 7.0) + cylinder(70.0, 3.0);
    let above = [(0.0, 90.0), (2.0, 90.0), (2.0, 80.0), (0.0, 80.0), (0.0, 60.0), (-4.0, 60.0), (-4.0, 0.0)];
    let below = [(7.0, 0.0), (7.0, 70.0), (10.0, 70.0)];
    let blind = |at: f64| {
        let from_above = Bored::from_corners(Point::mm(at, 0.0), &corners(&[(0.0, 6.0), (4.0, 6.0), (4.0, 0.0)]));
        let from_below =
            Bored::from_below(Point::mm(at, 0.0), &corners(&[(0.0, 5.0), (3.0, 5.0), (4.5, 0.0)]), mm(10.0));
        [from_above.unwrap(), from_below.unwrap()].map(FlatHole::Bored)
    };
    let small = cylinder(6.0, 4.0) + cylinder(5.0, 3.0) + cylinder(5.0, 1.5) / 3.0;
    let spigot = cylinder(60.0, 4.0);
    let faces = |of: f64| PI / 4.0 * of * of;
    // Outside, both faces whole, walls of groove, spigot, recess and bore: flat parts of a middle take and give the same area.
    let walls = PI * (120.0 * 10.0 + 90.0 * 2.0 + 80.0 * 2.0 + 60.0 * 4.0 + 70.0 * 3.0);
    let holes = PI * (6.0 * 4.0 + 5.0 * 3.0 + 2.5 * 2.5_f64.hypot(1.5)) - faces(5.0);
    let one = Flat::disc(mm(120.0), mm(10.0), std::iter::once(middle(&through).unwrap()).chain(blind(52.0)).collect());
    let two = [middle(&above).unwrap(), middle(&below).unwrap()].into_iter().chain(blind(52.0)).collect();
    let two = Flat::disc(mm(120.0), mm(10.0), two);
    let outer = 2.0 * faces(120.0);
    vec![
        (
            Body::Flat(one.unwrap()),
            disc - ring + spigot - bore - small,
            outer + walls + PI * 40.0 * 11.0 - 2.0 * faces(40.0) + holes,
        ),
        (Body::Flat(two.unwrap()), disc - ring + spigot - cylinder(70.0, 3.0) - small, outer + walls + holes),
    ]
}

#[test]
fn volumes_and_surfaces_by_cylinders() {
    for (body, volume, surface) in bodies() {
        assert!((body.volume().as_mm3() - volume).abs() < 1e-8 * volume, "{:?} against {volume}", body.volume());
        assert!((body.surface().as_mm2() - surface).abs() < 1e-8 * surface, "{:?} against {surface}", body.surface());
        for tolerance in [0.01, 0.2, 0.8] {
            let mesh = super::judge(&body, tolerance).unwrap();
            let top = mesh.triangles().iter().flat_map(|t| mesh.corners(t)).map(|p| p[2]).fold(0.0, f64::max);
            assert!((top - 14.0).abs() < 1e-9, "{top}");
        }
        let text = String::from_utf8(step::step("adapter", &body)).unwrap();
        assert!(text.matches("CYLINDRICAL_SURFACE").count() >= 7);
    }
}

/// What cannot be turned: a groove that leaves the plate, one that meets another, a spigot wider than the edge that it stands on; blind
/// holes that meet.
#[test]
fn faulty_middles_are_refused() {
    let disc = |of: &[(f64, f64)]| Flat::disc(mm(120.0), mm(10.0), vec![middle(of)?]);
    let deep = [(0.0, 90.0), (11.0, 90.0), (11.0, 80.0), (0.0, 80.0), (0.0, 40.0), (10.0, 40.0)];
    let meets =
        [(0.0, 90.0), (6.0, 90.0), (6.0, 60.0), (0.0, 60.0), (0.0, 40.0), (5.0, 40.0), (5.0, 80.0), (10.0, 80.0)];
    let back = [(0.0, 40.0), (5.0, 40.0), (2.0, 60.0), (10.0, 60.0), (10.0, 40.0), (7.0, 40.0)];
    for faulty in [deep.as_slice(), &meets, &back] {
        assert!(disc(faulty).is_err(), "{faulty:?}");
    }
    assert!(disc(&[(0.0, 40.0), (10.0, 60.0)]).is_ok());
    let hole = |deep: f64| {
        FlatHole::Bored(Bored::from_corners(Point::ORIGIN, &corners(&[(0.0, 6.0), (deep, 6.0), (deep, 0.0)])).unwrap())
    };
    let under = FlatHole::Bored(
        Bored::from_below(Point::ORIGIN, &corners(&[(0.0, 6.0), (5.0, 6.0), (5.0, 0.0)]), mm(10.0)).unwrap(),
    );
    assert!(Flat::disc(mm(40.0), mm(10.0), vec![hole(4.0), under.clone()]).is_ok());
    assert!(Flat::disc(mm(40.0), mm(10.0), vec![hole(5.5), under.clone()]).is_err());
    assert!(mesh::mesh(&Body::Flat(Flat::disc(mm(40.0), mm(10.0), vec![under]).unwrap()), mm(0.1)).is_ok());
}
