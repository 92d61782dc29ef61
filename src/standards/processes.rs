//! What each process of a shop holds: the width of tolerance, how square a cut edge is, how rough the surface.

use std::fmt;

use super::iso286::{self, Grade};
use super::steps::Cell::{Nil as X, One as O};
use super::steps::{Row, row, step_for};
use crate::source::{Cited, Confirmed};
use crate::units::Length;

/// A way of making a size.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Process {
    /// Contour cut from plate by laser.
    LaserCut,
    /// Drilled with a twist drill.
    Drilled,
    /// Reamed.
    Reamed,
    /// Turned outside, or faced.
    Turned,
    /// Bored with a single point.
    Bored,
    /// Ground on or in a cylinder.
    CylindricallyGround,
    /// Printed from a thread of plastic.
    Printed,
}

impl Process {
    /// Finest and coarsest grade of ISO 286 that it gives; none where it goes by the table of cut edges.
    /// Source: machinery handbooks, tolerance grades of machining processes (two printed charts agree); of prints common
    /// practice, no source: a tenth of a millimetre either way with care on small parts, two or three without.
    pub const fn grades(self) -> Option<(i8, i8)> {
        Some(match self {
            Self::LaserCut => return None,
            Self::Drilled => (10, 13),
            Self::Bored => (8, 13),
            Self::Turned => (7, 13),
            Self::Reamed => (6, 10),
            Self::CylindricallyGround => (5, 7),
            Self::Printed => (12, 15),
        })
    }

    /// The grade within that range that a small shop holds without further care.
    /// Source: common practice, no source.
    const fn usual_grade(self) -> Option<i8> {
        Some(match self {
            Self::LaserCut => return None,
            Self::Drilled => 12,
            Self::Bored | Self::Turned => 9,
            Self::Reamed => 7,
            Self::CylindricallyGround => 6,
            Self::Printed => 14,
        })
    }
}

impl fmt::Display for Process {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::LaserCut => "cut by laser",
            Self::Drilled => "drilled",
            Self::Reamed => "reamed",
            Self::Turned => "turned",
            Self::Bored => "bored",
            Self::CylindricallyGround => "ground",
            Self::Printed => "printed",
        })
    }
}

/// Thickest plate that is ordered cut by laser; a thicker one goes to the water jet.
/// Source: ISO 9013:2017, scope: laser beam cutting of 0.5 to 32 mm, from memory.
pub const LASER_TO: Length = Length::mm(32.0);

/// Which beam cuts plate of that thickness.
pub fn beam(thickness: Length) -> &'static str {
    if thickness > LASER_TO { "water jet" } else { "laser" }
}

/// The least hole that a laser cuts well: as wide as the plate is thick.
/// Source: public design guides of laser cutting services.
pub const fn least_cut_hole(thickness: Length) -> Length {
    thickness
}

/// Whether the laser can cut a hole of that diameter through the plate.
pub fn can_be_cut(diameter: Length, thickness: Length) -> bool {
    diameter >= least_cut_hole(thickness)
}

/// Below this a hole is burnt rather than cut. Source: public design guides of laser cutting services.
pub fn burnt_below(thickness: Length) -> Length {
    thickness * 0.7
}

/// The least metal between two cut edges that does not warp: as wide as the plate is thick.
/// Source: public design guides of laser cutting services.
pub const fn least_web(thickness: Length) -> Length {
    thickness
}

/// Below this the metal between two edges burns away. Source: common practice, no source.
pub fn burnt_web(thickness: Length) -> Length {
    thickness * 0.5
}

/// Width of tolerance (whole, not either way) that a process holds at its best: the finest grade of its range.
/// `thickness` is that of the plate, for cut edges. `None` outside the tables.
pub fn at_best(process: Process, size: Length, thickness: Length) -> Option<Cited<Length>> {
    width(process.grades().map(|(finest, _)| finest), size, thickness)
}

/// Width of tolerance (whole) that a process holds without further care. `None` outside the tables.
pub fn usually(process: Process, size: Length, thickness: Length) -> Option<Cited<Length>> {
    width(process.usual_grade(), size, thickness)
}

/// Of a grade, or of a cut edge where there is none.
fn width(grade: Option<i8>, size: Length, thickness: Length) -> Option<Cited<Length>> {
    let Some(grade) = grade else {
        let cut = cut_deviation(size, thickness)?;
        return Some(Cited { value: cut.value * 2.0, ..cut });
    };
    let width = iso286::it_width(size, Grade::new(grade)?).ok()?;
    Some(Cited { value: width, confirmed: Confirmed::TwoOrMore, source: "tolerance grades of machining processes" })
}

const CUT: &str = "ISO 9013:2017, limit deviations, tolerance class 1";

// Limit deviations ± mm. Rows: over, up to and including thickness, mm. Columns: nominal size from 0, 3, 10, 35, 125,
// 315 and 1000 mm on, to 2000 mm. Class 1 is what laser cuts up to 32 mm thick hold.
#[rustfmt::skip]
const CUT_EDGES: &[Row<7>] = &[
    row(   0.,   1., [O(0.075), O(0.10), O(0.10), O(0.20), O(0.20), O(0.30), O(0.40)], CUT),
    row(   1., 3.15, [ O(0.10), O(0.15), O(0.20), O(0.25), O(0.25), O(0.35), O(0.40)], CUT),
    row( 3.15,  6.3, [ O(0.20), O(0.20), O(0.25), O(0.25), O(0.30), O(0.40), O(0.45)], CUT),
    row(  6.3,  10., [       X, O(0.25), O(0.30), O(0.30), O(0.35), O(0.45), O(0.55)], CUT),
    row(  10.,  15., [       X, O(0.30), O(0.35), O(0.40), O(0.45), O(0.55), O(0.65)], CUT),
    row(  15.,  20., [       X, O(0.40), O(0.40), O(0.45), O(0.55), O(0.75), O(0.85)], CUT),
    row(  20.,  25., [       X, O(0.45), O(0.50), O(0.60), O(0.70), O(0.90),  O(1.1)], CUT),
    row(  25.,  32., [       X,       X, O(0.70), O(0.70), O(0.80),  O(1.0),  O(1.6)], CUT),
];

/// Where the columns of [`CUT_EDGES`] begin, mm.
const CUT_COLUMNS: [f64; 7] = [0.0, 3.0, 10.0, 35.0, 125.0, 315.0, 1000.0];

/// By how much a size cut by laser may differ either way. `None`: no value (too small for the plate, too large, thicker
/// than 32 mm). Source: ISO 9013:2017, tolerance class 1.
pub fn cut_deviation(size: Length, thickness: Length) -> Option<Cited<Length>> {
    let size = size.as_mm();
    if !(size > 0.0 && size < 2000.0) {
        return None;
    }
    let row = step_for(CUT_EDGES, thickness.as_mm())?;
    let column = CUT_COLUMNS.iter().rposition(|from| size >= *from)?;
    let (value, confirmed) = row.cells.get(column)?.value()?;
    Some(Cited { value: Length::mm(value), confirmed, source: row.source })
}

/// By how much a cut edge may lean or belly over the thickness of the plate, beyond the deviation of its size:
/// u = 0.15 mm + 0.007 a. Source: ISO 9013:2017, perpendicularity, range 2 (from memory); 0.5 to 32 mm.
pub fn cut_squareness(thickness: Length) -> Option<Cited<Length>> {
    let known = thickness >= Length::mm(0.5) && thickness <= Length::mm(32.0);
    known.then(|| Cited {
        value: Length::mm(0.15) + thickness * 0.007,
        confirmed: Confirmed::Memory,
        source: "ISO 9013:2017, range 2",
    })
}

// Steel on a usual fibre laser of some kilowatts: thickness mm, speed m/min, time of a pierce s. From memory, rounded; machines
// differ by half and more.
const LASER: &[(f64, f64, f64)] = &[
    (0.5, 15.0, 0.1),
    (1.0, 10.0, 0.1),
    (2.0, 6.0, 0.3),
    (3.0, 4.0, 0.4),
    (4.0, 3.3, 0.5),
    (5.0, 2.8, 0.7),
    (6.0, 2.4, 0.9),
    (8.0, 2.0, 1.2),
    (10.0, 1.5, 1.6),
    (12.0, 1.2, 2.2),
    (15.0, 0.9, 3.0),
    (20.0, 0.6, 5.0),
];
/// From one cut to the beginning of the next, s. Common practice, no source.
const TRAVEL: f64 = 0.6;

/// How long a laser takes to cut so many outlines of that length together in steel, in minutes: length over speed, a pierce and a
/// way to the next for each. Valid from 0.5 to 20 mm of thickness; between the rows of the table in a straight line.
pub fn laser_minutes(length: Length, pierces: usize, thickness: Length) -> Option<Cited<f64>> {
    let t = thickness.as_mm();
    let between = LASER.iter().zip(LASER.iter().skip(1)).find(|(a, b)| a.0 <= t && t <= b.0)?;
    let share = (t - between.0.0) / (between.1.0 - between.0.0);
    let mixed = |a: f64, b: f64| a + (b - a) * share;
    let (speed, pierce) = (mixed(between.0.1, between.1.1), mixed(between.0.2, between.1.2));
    let value = length.as_mm() / 1000.0 / speed + pierces as f64 * (pierce + TRAVEL) / 60.0;
    Some(Cited { value, confirmed: Confirmed::Memory, source: "usual speeds of fibre lasers in steel" })
}
