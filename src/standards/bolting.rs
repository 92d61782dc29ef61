//! What goes with a bolt: the lengths in which bolts are sold, nuts and washers.

use super::iso286::{Grade, it_width};
use super::threads::{Thread, ThreadKind};
use crate::source::Cited;
use crate::source::Confirmed::{self, Memory, TwoOrMore};
use crate::units::Length;
use crate::units::show::{inch_fraction, trimmed};

/// Nominal lengths of hexagon head bolts and screws, mm: ISO 4014, ISO 4017 and ISO 4762 take them from ISO 888.
#[rustfmt::skip]
const METRIC_LENGTHS: &[f64] = &[
    6., 8., 10., 12., 16., 20., 25., 30., 35., 40., 45., 50., 55., 60., 65., 70., 80., 90., 100., 110., 120., 130., 140.,
    150., 160., 180., 200., 220., 240., 260., 280., 300.,
];

/// Lengths of inch bolts and socket screws as they are stocked: by eighths to 1 in, by quarters to 5 in, by halves to 12 in.
/// Source: common practice, no source.
fn inch_lengths() -> impl Iterator<Item = f64> {
    let eighths = (3..8).map(|n| f64::from(n) / 8.0);
    let quarters = (4..20).map(|n| f64::from(n) / 4.0);
    eighths.chain(quarters).chain((10..=24).map(|n| f64::from(n) / 2.0))
}

/// What a hexagon key turns.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Socketed {
    /// A cylinder head.
    Cylinder,
    /// A countersunk head.
    Countersunk,
    /// A screw without a head.
    Grub,
}

/// Keys of ISO 4762, ISO 10642 and ISO 4026 to 4029 by thread, mm; all from memory.
#[rustfmt::skip]
const METRIC_KEYS: &[(f64, [f64; 3])] = &[
    ( 3., [ 2.5,  2.0,  1.5]), ( 4., [ 3.0,  2.5,  2.0]), ( 5., [ 4.0,  3.0,  2.5]), ( 6., [ 5.0,  4.0,  3.0]),
    ( 8., [ 6.0,  5.0,  4.0]), (10., [ 8.0,  6.0,  5.0]), (12., [10.0,  8.0,  6.0]), (16., [14.0, 10.0,  8.0]),
    (20., [17.0, 12.0, 10.0]), (24., [19.0, 14.0, 12.0]),
];

/// Keys of ASME B18.3 by thread, inches; all from memory.
#[rustfmt::skip]
const UNIFIED_KEYS: &[(f64, [f64; 3])] = &[
    (0.164, [9./64., 3./32., 5./64.]), (0.190, [5./32., 1./8., 3./32.]), (0.250, [3./16., 5./32., 1./8.]),
    (0.3125, [1./4., 3./16., 5./32.]), (0.375, [5./16., 7./32., 3./16.]), (0.500, [3./8., 5./16., 1./4.]),
    (0.625, [1./2., 3./8., 5./16.]), (0.750, [5./8., 1./2., 3./8.]), (1.000, [3./4., 5./8., 9./16.]),
];

/// The hexagon key for a screw; `None` beyond the tables.
pub fn hexagon_key(thread: &Thread, of: Socketed) -> Option<Cited<Length>> {
    let (rows, major, unit): (_, _, fn(f64) -> Length) = match thread.kind {
        ThreadKind::Metric => (METRIC_KEYS, thread.major.as_mm(), Length::mm),
        ThreadKind::Unified => (UNIFIED_KEYS, thread.major.as_inches(), Length::inches),
    };
    let (_, keys) = rows.iter().find(|(d, _)| (d - major).abs() < 1e-3)?;
    let [cylinder, countersunk, grub] = *keys;
    let key = match of {
        Socketed::Cylinder => cylinder,
        Socketed::Countersunk => countersunk,
        Socketed::Grub => grub,
    };
    Some(Cited { value: unit(key), confirmed: Memory, source: "ISO 4762, ISO 10642, ISO 4029; ASME B18.3" })
}

fn lengths(thread: &Thread) -> Vec<Length> {
    match thread.kind {
        ThreadKind::Metric => METRIC_LENGTHS.iter().map(|l| Length::mm(*l)).collect(),
        ThreadKind::Unified => inch_lengths().map(Length::inches).collect(),
    }
}

/// The shortest that is sold of at least that length.
pub fn sold_from(thread: &Thread, least: Length) -> Option<Length> {
    lengths(thread).into_iter().find(|l| *l >= least - Length::um(1.0))
}

/// The longest that is sold, at its greatest no longer than that.
pub fn sold_to(thread: &Thread, most: Length) -> Option<Length> {
    lengths(thread).into_iter().rev().find(|l| *l + over(thread, *l) <= most + Length::um(1.0))
}

/// By how much a bolt may be longer than it is called.
/// Source: ISO 4759-1, product grade A, length js15, half the width of IT15; ASME B18.2.1, hex cap screws, only shorter: from
/// memory.
pub fn over(thread: &Thread, length: Length) -> Length {
    match thread.kind {
        ThreadKind::Metric => {
            let width = Grade::new(15).and_then(|js| it_width(length, js).ok());
            width.map_or(Length::ZERO, |w| w / 2.0)
        }
        ThreadKind::Unified => Length::ZERO,
    }
}

/// A bolt of that length as it is ordered: `M10 × 35`, `3/8-16 × 1-1/2 in`.
pub fn ordered(thread: &Thread, length: Length) -> String {
    match thread.kind {
        ThreadKind::Metric => format!("{thread} × {}", trimmed(length.as_mm(), 1)),
        ThreadKind::Unified => format!("{thread} × {}", inch_fraction(length).unwrap_or_default()),
    }
}

/// A row: thread diameter, nut height at most, washer; mm for metric, inches for unified.
struct Row {
    thread: f64,
    nut: f64,
    washer: f64,
}

const fn row(thread: f64, nut: f64, washer: f64) -> Row {
    Row { thread, nut, washer }
}

/// ISO 4032 (two reprints) and ISO 7089 (from memory), mm.
#[rustfmt::skip]
const METRIC: &[Row] = &[
    row( 3.,  2.4, 0.5), row( 4.,  3.2, 0.8), row( 5.,  4.7, 1.0), row( 6.,  5.2, 1.6), row( 8.,  6.8, 1.6),
    row(10.,  8.4, 2.0), row(12., 10.8, 2.5), row(14., 12.8, 2.5), row(16., 14.8, 3.0), row(18., 15.8, 3.0),
    row(20., 18.0, 3.0), row(22., 19.4, 3.0), row(24., 21.5, 4.0), row(27., 23.8, 4.0), row(30., 25.6, 4.0),
    row(33., 28.7, 5.0), row(36., 31.0, 5.0),
];

/// Hexagon nuts of ASME B18.2.2 and narrow plain washers of ASME B18.21.1, inches, both from memory.
#[rustfmt::skip]
const UNIFIED: &[Row] = &[
    row( 0.25, 0.226, 0.065), row(0.3125, 0.273, 0.065), row(0.375, 0.337, 0.065), row(0.4375, 0.385, 0.065),
    row(  0.5, 0.448, 0.095), row(0.5625, 0.496, 0.095), row(0.625, 0.559, 0.095), row(  0.75, 0.665, 0.134),
    row(0.875, 0.776, 0.134), row(    1., 0.887, 0.134), row(1.125, 0.999, 0.134), row(  1.25, 1.094, 0.165),
    row(  1.5, 1.308, 0.165),
];

/// Nut height and washer of a thread that has a row.
fn found(thread: &Thread) -> Option<[Length; 2]> {
    let at = |rows: &'static [Row], major: f64| rows.iter().find(|row| (row.thread - major).abs() < 1e-9);
    match thread.kind {
        ThreadKind::Metric => at(METRIC, thread.major.as_mm()).map(|row| [row.nut, row.washer].map(Length::mm)),
        ThreadKind::Unified => {
            at(UNIFIED, thread.major.as_inches()).map(|row| [row.nut, row.washer].map(Length::inches))
        }
    }
}

/// Height of a hexagon nut, at most. M12: 10.8 mm. A size of no row takes one diameter, which no nut exceeds.
pub fn nut_height(thread: &Thread) -> Cited<Length> {
    match found(thread) {
        Some([nut, _]) if thread.kind == ThreadKind::Metric => cited(nut, TwoOrMore, "ISO 4032, at most"),
        Some([nut, _]) => cited(nut, Memory, "ASME B18.2.2, at most"),
        None => cited(thread.major, Memory, "one diameter, common practice, no source"),
    }
}

/// Thickness of a plain washer. M12: 2.5 mm. A size of no row takes a fifth of its diameter.
pub fn washer(thread: &Thread) -> Cited<Length> {
    match found(thread) {
        Some([_, washer]) if thread.kind == ThreadKind::Metric => cited(washer, Memory, "ISO 7089"),
        Some([_, washer]) => cited(washer, Memory, "ASME B18.21.1, narrow"),
        None => cited(thread.major / 5.0, Memory, "a fifth of the diameter, common practice, no source"),
    }
}

/// Width across flats of a hexagon head and its nut: ISO 4014 and ISO 4032, mm; ASME B18.2.1, inches; both from memory.
#[rustfmt::skip]
const FLATS: &[(&[(f64, f64)], ThreadKind)] = &[
    (&[
        (3., 5.5), (4., 7.), (5., 8.), (6., 10.), (8., 13.), (10., 16.), (12., 18.), (14., 21.), (16., 24.), (18., 27.),
        (20., 30.), (22., 34.), (24., 36.), (27., 41.), (30., 46.), (33., 50.), (36., 55.),
    ], ThreadKind::Metric),
    (&[
        (0.25, 0.4375), (0.3125, 0.5), (0.375, 0.5625), (0.4375, 0.625), (0.5, 0.75), (0.5625, 0.8125), (0.625, 0.9375),
        (0.75, 1.125), (0.875, 1.3125), (1., 1.5), (1.125, 1.6875), (1.25, 1.875), (1.5, 2.25),
    ], ThreadKind::Unified),
];

/// The spanner for a hexagon bolt of that thread: M12: 18 mm, 3/8: 9/16 in. None for a thread of no row.
pub fn across_flats(thread: &Thread) -> Option<Cited<Length>> {
    let (rows, _) = FLATS.iter().find(|(_, kind)| *kind == thread.kind)?;
    let (major, unit): (f64, fn(f64) -> Length) = match thread.kind {
        ThreadKind::Metric => (thread.major.as_mm(), Length::mm),
        ThreadKind::Unified => (thread.major.as_inches(), Length::inches),
    };
    let (_, flats) = rows.iter().find(|(of, _)| (of - major).abs() < 1e-9)?;
    Some(cited(unit(*flats), Memory, "ISO 4014; ASME B18.2.1"))
}

const fn cited(value: Length, confirmed: Confirmed, source: &'static str) -> Cited<Length> {
    Cited { value, confirmed, source }
}
