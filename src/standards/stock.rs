//! What the rack holds: plate and shim thicknesses and round bar that can be bought as they are.

use crate::units::{Length, LengthUnit};

const fn mm(value: f64) -> Length {
    Length::mm(value)
}
const fn inch(value: f64) -> Length {
    Length::inches(value)
}

/// Hot-rolled steel plate from so thick, less than so thick: lower and upper limit deviation, mm. Class A of EN 10029:1991.
const PLATE_LIMITS: &[(f64, f64, f64, f64)] = &[
    (3.0, 5.0, -0.4, 0.8),
    (5.0, 8.0, -0.4, 1.1),
    (8.0, 15.0, -0.5, 1.2),
    (15.0, 25.0, -0.6, 1.3),
    (25.0, 40.0, -0.8, 1.4),
    (40.0, 80.0, -1.0, 1.8),
];

/// Lower and upper limit deviation of the thickness of steel plate as it is rolled; `None` below 3 mm and from 80 mm.
/// Source: EN 10029:1991, class A (two printed copies agree).
pub fn plate_limits(thickness: Length) -> Option<(Length, Length)> {
    let t = thickness.as_mm();
    let row = PLATE_LIMITS.iter().find(|(from, to, ..)| t >= *from && t < *to)?;
    Some((mm(row.2), mm(row.3)))
}

/// Hot-rolled strip, and plate cut from it, over so thick, up to and including: limit deviation either way, mm. EN 10051:2010, steels to
/// 300 MPa of yield strength (category A), widths over 1200 to 1500 mm.
const STRIP_LIMITS: &[(f64, f64, f64)] = &[
    (0.0, 2.0, 0.19),
    (2.0, 2.5, 0.21),
    (2.5, 3.0, 0.22),
    (3.0, 4.0, 0.24),
    (4.0, 5.0, 0.26),
    (5.0, 6.0, 0.28),
    (6.0, 8.0, 0.30),
    (8.0, 10.0, 0.33),
    (10.0, 12.5, 0.36),
    (12.5, 15.0, 0.38),
    (15.0, 25.0, 0.42),
];

/// How far plate that is cut from hot-rolled strip may be off its thickness, either way; `None` below 1 mm and over 25 mm.
/// Source: EN 10051:2010, category A, widths over 1200 to 1500 mm (a maker's tables and a dealer's reprint agree).
pub fn strip_limits(thickness: Length) -> Option<Length> {
    let t = thickness.as_mm();
    STRIP_LIMITS.iter().find(|(over, to, _)| t >= 1.0 && t > *over && t <= *to).map(|row| mm(row.2))
}

/// Cold-rolled sheet over so thick, up to and including: limit deviation either way, mm. EN 10131, widths to 1200 mm, from memory.
const SHEET_LIMITS: &[(f64, f64, f64)] =
    &[(1.0, 1.2, 0.06), (1.2, 1.6, 0.08), (1.6, 2.0, 0.10), (2.0, 2.5, 0.12), (2.5, 3.0, 0.15)];

/// How far sheet or plate may be off its thickness, the greater way, as it is rolled; `None` to 1 mm, where shim stock is rolled
/// closer, and from 80 mm.
/// Source: EN 10131 from memory below 3 mm; EN 10029:1991, class A, from there.
pub fn sheet_limits(thickness: Length) -> Option<Length> {
    let t = thickness.as_mm();
    let sheet = SHEET_LIMITS.iter().find(|(over, to, _)| t > *over && t <= *to).map(|row| mm(row.2));
    sheet.or_else(|| plate_limits(thickness).map(|(lower, upper)| upper.max(-lower)))
}

/// Plate and sheet, metric.
#[rustfmt::skip]
const PLATE_MM: &[Length] = &[
    mm(0.5), mm(0.8), mm(1.), mm(1.2), mm(1.5), mm(2.), mm(2.5), mm(3.), mm(4.), mm(5.), mm(6.), mm(8.), mm(10.),
    mm(12.), mm(15.), mm(16.), mm(20.), mm(25.), mm(30.), mm(40.), mm(50.),
];

/// Plate, inch.
#[rustfmt::skip]
const PLATE_INCH: &[Length] = &[
    inch(0.0625), inch(0.09375), inch(0.125), inch(0.1875), inch(0.25), inch(0.3125), inch(0.375), inch(0.5),
    inch(0.625), inch(0.75), inch(0.875), inch(1.), inch(1.25), inch(1.5), inch(2.),
];

/// Shim stock, metric, from memory.
#[rustfmt::skip]
const SHIM_MM: &[Length] = &[
    mm(0.01), mm(0.02), mm(0.03), mm(0.04), mm(0.05), mm(0.06), mm(0.07), mm(0.08), mm(0.09), mm(0.1), mm(0.12),
    mm(0.15), mm(0.2), mm(0.25), mm(0.3), mm(0.35), mm(0.4), mm(0.5), mm(0.6), mm(0.7), mm(0.8), mm(0.9), mm(1.),
];

/// Shim stock, inch, from memory.
#[rustfmt::skip]
const SHIM_INCH: &[Length] = &[
    inch(0.001), inch(0.0015), inch(0.002), inch(0.003), inch(0.004), inch(0.005), inch(0.006), inch(0.007),
    inch(0.008), inch(0.009), inch(0.01), inch(0.012), inch(0.015), inch(0.018), inch(0.02), inch(0.025), inch(0.031),
    inch(0.032),
];

/// Shim ring thicknesses of DIN 988, from memory.
#[rustfmt::skip]
const SHIM_RINGS_MM: &[Length] = &[
    mm(0.1), mm(0.15), mm(0.2), mm(0.3), mm(0.5), mm(1.),
];

/// Round bar, metric (common practice, no source).
#[rustfmt::skip]
const BARS_MM: &[Length] = &[
    mm(6.), mm(8.), mm(10.), mm(12.), mm(14.), mm(16.), mm(18.), mm(20.), mm(22.), mm(25.), mm(28.), mm(30.), mm(32.),
    mm(35.), mm(36.), mm(38.), mm(40.), mm(42.), mm(45.), mm(50.), mm(55.), mm(60.), mm(65.), mm(70.), mm(75.),
    mm(80.), mm(85.), mm(90.), mm(95.), mm(100.), mm(110.), mm(120.), mm(130.), mm(140.), mm(150.), mm(160.),
    mm(180.), mm(200.),
];

/// Round bar, inch (common practice, no source).
#[rustfmt::skip]
const BARS_INCH: &[Length] = &[
    inch(0.25), inch(0.3125), inch(0.375), inch(0.4375), inch(0.5), inch(0.5625), inch(0.625), inch(0.75),
    inch(0.875), inch(1.), inch(1.125), inch(1.25), inch(1.375), inch(1.5), inch(1.625), inch(1.75), inch(1.875),
    inch(2.), inch(2.25), inch(2.5), inch(2.75), inch(3.), inch(3.25), inch(3.5), inch(4.), inch(4.5), inch(5.),
    inch(6.), inch(7.), inch(8.),
];

/// Hardened dowels, metric: ISO 8734, from memory.
#[rustfmt::skip]
const DOWELS_MM: &[Length] = &[
    mm(3.), mm(4.), mm(5.), mm(6.), mm(8.), mm(10.), mm(12.), mm(16.), mm(20.),
];

/// Hardened dowels, inch: ASME B18.8.2, from memory.
#[rustfmt::skip]
const DOWELS_INCH: &[Length] = &[
    inch(0.125), inch(0.1875), inch(0.25), inch(0.3125), inch(0.375), inch(0.5), inch(0.625), inch(0.75),
];

/// Dowels in stock, thinnest first.
pub const fn dowel_diameters(unit: LengthUnit) -> &'static [Length] {
    match unit {
        LengthUnit::Mm => DOWELS_MM,
        LengthUnit::Inch => DOWELS_INCH,
    }
}

/// Plate thicknesses in stock, thinnest first.
pub const fn plate_thicknesses(unit: LengthUnit) -> &'static [Length] {
    match unit {
        LengthUnit::Mm => PLATE_MM,
        LengthUnit::Inch => PLATE_INCH,
    }
}

/// Shim stock thicknesses, thinnest first.
pub const fn shim_stock(unit: LengthUnit) -> &'static [Length] {
    match unit {
        LengthUnit::Mm => SHIM_MM,
        LengthUnit::Inch => SHIM_INCH,
    }
}

/// Shim ring thicknesses of DIN 988, thinnest first.
pub const fn shim_rings() -> &'static [Length] {
    SHIM_RINGS_MM
}

/// Round bar diameters in stock, thinnest first.
pub const fn bar_diameters(unit: LengthUnit) -> &'static [Length] {
    match unit {
        LengthUnit::Mm => BARS_MM,
        LengthUnit::Inch => BARS_INCH,
    }
}

/// The smallest stock size that is not below `wanted` (to 1 nm); none if it is beyond the largest.
fn next_up(sizes: &'static [Length], wanted: Length) -> Option<Length> {
    sizes.iter().copied().find(|size| *size >= wanted - Length::um(0.001))
}

/// The smallest round bar that holds a diameter.
pub fn next_bar(diameter: Length, unit: LengthUnit) -> Option<Length> {
    next_up(bar_diameters(unit), diameter)
}

/// The plate from which a thickness is turned; beyond those that are stocked one in whole steps of 10 mm or 1/2 in.
/// Common practice, no source.
pub fn plate_to_turn(thickness: Length, unit: LengthUnit) -> Length {
    next_up(plate_thicknesses(unit), thickness).unwrap_or_else(|| thickness.up_to(forged(unit)))
}

/// Steps in which what is thicker than any stock is forged or cut. Common practice, no source.
fn forged(unit: LengthUnit) -> Length {
    match unit {
        LengthUnit::Mm => mm(10.0),
        LengthUnit::Inch => inch(0.5),
    }
}

/// What comes off the diameter of a bar at least, so that its skin is gone. Source: common practice, no source.
pub fn to_turn_off(unit: LengthUnit) -> Length {
    match unit {
        LengthUnit::Mm => mm(1.0),
        LengthUnit::Inch => inch(0.04),
    }
}

/// The round from which a diameter is turned: the next bar with 1 mm (0.04 in) to come off, so that its skin goes; beyond
/// the bars that are stocked, a forged or cut round in whole steps of 10 mm or 1/2 in. Common practice, no source.
pub fn round_to_turn(finished: Length, unit: LengthUnit) -> Length {
    let over = to_turn_off(unit);
    next_bar(finished + over, unit).unwrap_or_else(|| (finished + over).up_to(forged(unit)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn next_sizes() {
        assert_eq!(next_bar(Length::mm(60.0), LengthUnit::Mm), Some(Length::mm(60.0)));
        assert_eq!(next_bar(Length::mm(60.1), LengthUnit::Mm), Some(Length::mm(65.0)));
        assert_eq!(next_bar(Length::mm(60.0), LengthUnit::Inch), Some(Length::inches(2.5)));
        assert_eq!(next_bar(Length::mm(201.0), LengthUnit::Mm), None);
        assert_eq!(next_bar(Length::mm(f64::NAN), LengthUnit::Mm), None);
        let close = |a: Length, b: Length| assert!((a - b).abs() < Length::um(0.01), "{a:?} {b:?}");
        close(round_to_turn(Length::mm(60.0), LengthUnit::Mm), Length::mm(65.0));
        close(round_to_turn(Length::mm(199.5), LengthUnit::Mm), Length::mm(210.0));
        close(plate_to_turn(Length::mm(21.0), LengthUnit::Mm), Length::mm(25.0));
        close(plate_to_turn(Length::mm(51.0), LengthUnit::Mm), Length::mm(60.0));
        close(round_to_turn(Length::inches(8.0), LengthUnit::Inch), Length::inches(8.5));
    }

    #[test]
    fn sizes_rise() {
        for unit in [LengthUnit::Mm, LengthUnit::Inch] {
            for sizes in
                [plate_thicknesses(unit), shim_stock(unit), bar_diameters(unit), dowel_diameters(unit), shim_rings()]
            {
                assert!(sizes.windows(2).all(|pair| pair[0] < pair[1]));
            }
        }
    }
}
