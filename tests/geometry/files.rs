//! Writes random parts in every format with what they should hold, for the independent readers of tests/oracle,
//! and reads the DXF files back with the dxf crate.

use std::path::{Path, PathBuf};

use serde_json::{Value, json};
use setdown::export::dxf::{Options, Release, dxf};
use setdown::export::mesh::mesh;
use setdown::export::{step::step, stl::stl, threemf::threemf};
use setdown::shape::{Body, Bored, Circle, Contour, Cutting, Flat, FlatHole, Mark, Point};
use setdown::units::{Length, LengthUnit};

use crate::parts;

const TOLERANCE: f64 = 0.02;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_TARGET_TMPDIR")).join("geometry")
}

fn write(name: &str, bytes: &[u8]) {
    std::fs::create_dir_all(folder()).unwrap();
    std::fs::write(folder().join(name), bytes).unwrap();
}

fn options(seed: u64) -> Options {
    let release = if seed % 3 == 2 { Release::R12 } else { Release::R2000 };
    let unit = if seed % 2 == 1 { LengthUnit::Inch } else { LengthUnit::Mm };
    Options { release, unit }
}

/// The DXF of a plate with some marks, and its entry in the list.
fn write_dxf(seed: u64) -> Value {
    let flat = parts::random_flat(seed);
    let plain = Cutting::of_flat(&flat).unwrap();
    let centre = plain.outer().centroid();
    let mut marks = plain.marks().to_vec();
    let mark = Circle::new(centre, Length::mm(1.5)).unwrap();
    marks.extend([Mark::Circle(mark), Mark::Line { from: centre, to: Point::mm(1.0, 9.0) }]);
    let cutting = Cutting::new(plain.outer().clone(), plain.holes().to_vec(), marks).unwrap();
    let (name, options) = (format!("plate{seed:03}.dxf"), options(seed));
    let bytes = dxf(&cutting, options);
    assert_eq!(bytes, dxf(&cutting, options), "the same bytes twice");
    write(&name, &bytes);
    read_back(&cutting, &bytes, options);
    let e = cutting.outer().extents();
    json!({
        "file": name, "unit": if options.unit == LengthUnit::Mm { "mm" } else { "inch" }, "tolerance_mm": 0.0,
        "area_mm2": cutting.area().as_mm2(), "width_mm": e.width().as_mm(), "height_mm": e.height().as_mm(),
    })
}

/// Kinds and numbers of entities, and closedness, as the dxf crate reads them.
fn read_back(cutting: &Cutting, bytes: &[u8], options: Options) {
    let drawing = dxf::Drawing::load(&mut &bytes[..]).unwrap();
    let contours: Vec<&Contour> = std::iter::once(cutting.outer()).chain(cutting.holes()).collect();
    let (mut closed, mut circles, mut lines, mut bulges) = (0, 0, 0, 0);
    for entity in drawing.entities() {
        match &entity.specific {
            dxf::entities::EntityType::LwPolyline(p) => {
                closed += usize::from(p.is_closed());
                bulges += p.vertices.iter().filter(|v| v.bulge != 0.0).count();
            }
            dxf::entities::EntityType::Polyline(p) => {
                closed += usize::from(p.is_closed());
                bulges += p.vertices().filter(|v| v.bulge != 0.0).count();
            }
            dxf::entities::EntityType::Circle(_) => circles += 1,
            dxf::entities::EntityType::Line(_) => lines += 1,
            other => panic!("{other:?}"),
        }
    }
    let round = contours.iter().filter(|c| c.as_circle().is_some()).count();
    let arcs = |c: &&&Contour| c.segments().iter().filter(|s| s.bulge() != 0.0).count();
    let expected_bulges: usize = contours.iter().filter(|c| c.as_circle().is_none()).map(|c| arcs(&c)).sum();
    let crosses = cutting.marks().iter().filter(|m| matches!(m, Mark::Cross { .. })).count();
    assert_eq!((closed, circles, bulges), (contours.len() - round, round + 1, expected_bulges));
    assert_eq!(lines, 1 + 2 * crosses);
    if options.release == Release::R2000 {
        let unit =
            if options.unit == LengthUnit::Mm { dxf::enums::Units::Millimeters } else { dxf::enums::Units::Inches };
        assert_eq!(drawing.header.default_drawing_units, unit);
    }
}

fn entry(name: &str, body: &Body, tolerance: f64) -> Value {
    json!({
        "file": name, "unit": "mm", "tolerance_mm": tolerance,
        "volume_mm3": body.volume().as_mm3(), "surface_mm2": body.surface().as_mm2(),
    })
}

/// STL for every part, STEP and 3MF for every third.
fn write_solid(seed: u64) -> Vec<Value> {
    let body = parts::random(seed);
    let mesh = mesh(&body, Length::mm(TOLERANCE)).unwrap();
    let name = format!("solid{seed:03}");
    let mut files = vec![(".stl", stl(&mesh).unwrap(), TOLERANCE)];
    if seed.is_multiple_of(3) {
        files.push((".3mf", threemf(&name, &mesh), TOLERANCE));
        files.push((".step", step(&name, &body), 0.0));
        assert_eq!(step(&name, &body), step(&name, &body), "the same bytes twice");
    }
    let save = |(suffix, bytes, tolerance): (&str, Vec<u8>, f64)| {
        write(&(name.clone() + suffix), &bytes);
        entry(&(name.clone() + suffix), &body, tolerance)
    };
    files.into_iter().map(save).collect()
}

#[test]
fn two_hundred_parts_are_written_for_the_readers() {
    let _ = std::fs::remove_dir_all(folder());
    let mut list: Vec<Value> = (0..200).map(write_dxf).collect();
    list.extend((0..200).flat_map(write_solid));
    write("expected.json", serde_json::to_string_pretty(&list).unwrap().as_bytes());
    assert_eq!(list.len(), 200 + 200 + 2 * 67);
}

#[test]
fn stl_refuses_what_its_digits_cannot_hold() {
    let pinhole = Bored::through(Point::mm(9000.0, 0.0), Length::mm(0.0012), Length::mm(10.0)).unwrap();
    let sheet = Flat::disc(Length::mm(19_000.0), Length::mm(10.0), vec![FlatHole::Bored(pinhole)]).unwrap();
    let made = mesh(&Body::Flat(sheet), Length::mm(1.0)).unwrap();
    let said = stl(&made).map(|_| ()).unwrap_err().to_string();
    assert!(said.contains("corners fall together"), "{said}");
}

#[test]
fn stl_rounding_neither_opens_nor_empties_a_mesh() {
    for seed in 0..60 {
        let made = mesh(&parts::random(seed), Length::mm(TOLERANCE)).unwrap();
        let bytes = stl(&made).unwrap();
        let read = stl_io::read_stl(&mut std::io::Cursor::new(&bytes)).unwrap();
        assert_eq!(read.faces.len(), made.triangles().len(), "seed {seed}");
        assert_eq!(read.vertices.len(), made.points_mm().len(), "seed {seed}");
    }
}
