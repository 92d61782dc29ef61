//! The same three parts built in truck: closed there as here, and of the same volume.

use setdown::shape::{Body, Bored, Contour, Flat, FlatHole, Point, Turned};
use setdown::units::Length;
use truck_meshalgo::prelude::*;
use truck_modeling::{Edge, Point3, Rad, Shell, Solid, Vector3, Vertex, Wire, builder};

const TOLERANCE: f64 = 0.01;

/// truck's volume of a solid, from its own mesh; its curved faces may be off by up to 1.6 of the tolerance.
fn truck_volume(solid: &Solid) -> f64 {
    for shell in solid.boundaries() {
        assert_eq!(shell.shell_condition(), truck_modeling::ShellCondition::Closed);
    }
    solid.robust_triangulation(TOLERANCE).to_polygon().volume().abs()
}

fn compare(body: &Body, truck: f64) {
    let mesh = setdown::export::mesh::mesh(body, Length::mm(TOLERANCE)).unwrap();
    let bound = body.surface().as_mm2() * TOLERANCE;
    assert!((truck - body.volume().as_mm3()).abs() < 1.6 * bound, "{truck} against {:?}", body.volume());
    assert!((truck - mesh.volume().as_mm3()).abs() < 1.6 * bound, "{truck} against {:?}", mesh.volume());
}

fn turned(corners: &[(f64, f64)]) {
    let ours: Vec<Point> = corners.iter().map(|(r, z)| Point::mm(*r, *z)).collect();
    // truck's profile must run clockwise in the xz plane to come out right side out.
    let vertices: Vec<Vertex> = corners.iter().rev().map(|(r, z)| builder::vertex(Point3::new(*r, 0.0, *z))).collect();
    let next = vertices.iter().cycle().skip(1);
    let wire: Wire = vertices.iter().zip(next).map(|(a, b)| -> Edge { builder::line(a, b) }).collect();
    let shell: Shell = builder::rsweep(&wire, Point3::new(0.0, 0.0, 0.0), Vector3::new(0.0, 0.0, 1.0), Rad(7.0));
    let solid = Solid::new(vec![shell]);
    compare(&Body::Turned(Turned::from_corners(&ours).unwrap()), truck_volume(&solid));
}

#[test]
fn cone() {
    turned(&[(6.5, 0.0), (30.0, 0.0), (30.0, 6.0), (10.0, 40.641), (6.5, 40.641)]);
}

#[test]
fn sleeve() {
    turned(&[
        (21.0, 0.0),
        (25.0, 0.0),
        (26.0, 1.0),
        (26.0, 29.0),
        (25.0, 30.0),
        (21.0, 30.0),
        (20.0, 29.0),
        (20.0, 1.0),
    ]);
}

#[test]
fn plate_with_five_holes() {
    let corners = [(-60.0, -40.0), (60.0, -40.0), (60.0, 40.0), (-60.0, 40.0)];
    let places = [(0.0, 0.0, 13.0), (45.0, 25.0, 4.5), (-45.0, 25.0, 4.5), (-45.0, -25.0, 4.5), (45.0, -25.0, 4.5)];
    let vertices: Vec<Vertex> = corners.iter().map(|(x, y)| builder::vertex(Point3::new(*x, *y, 0.0))).collect();
    let next = vertices.iter().cycle().skip(1);
    let mut wires: Vec<Wire> = vec![vertices.iter().zip(next).map(|(a, b)| -> Edge { builder::line(a, b) }).collect()];
    for (x, y, r) in places {
        let start = builder::vertex(Point3::new(x + r, y, 0.0));
        let rim: Wire = builder::rsweep(&start, Point3::new(x, y, 0.0), Vector3::new(0.0, 0.0, 1.0), Rad(7.0));
        wires.push(rim.inverse());
    }
    let face = builder::try_attach_plane(&wires).unwrap();
    let solid: Solid = builder::tsweep(&face, Vector3::new(0.0, 0.0, 6.0));
    let hole = |(x, y, r): &(f64, f64, f64)| {
        FlatHole::Bored(Bored::through(Point::mm(*x, *y), Length::mm(2.0 * r), Length::mm(6.0)).unwrap())
    };
    let outer = Contour::rectangle(Length::mm(120.0), Length::mm(80.0), Length::ZERO).unwrap();
    let flat = Flat::new(outer, Length::mm(6.0), places.iter().map(hole).collect()).unwrap();
    compare(&Body::Flat(flat), truck_volume(&solid));
}
