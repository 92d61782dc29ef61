//! Twist drills that can be bought: metric, fraction, number and letter sizes.

use crate::units::show::inch_fraction;
use crate::units::{Length, LengthUnit};

/// A drill as it is ordered.
#[derive(Clone, PartialEq, Debug)]
pub struct Drill {
    /// Diameter.
    pub diameter: Length,
    /// What is stamped on it: `27/64 in`, `#7`, `letter U`, `10.8 mm`.
    pub name: String,
}

/// Number drills 1 to 60, inches.
#[rustfmt::skip]
const NUMBERS: [f64; 60] = [
    0.2280, 0.2210, 0.2130, 0.2090, 0.2055, 0.2040, 0.2010, 0.1990, 0.1960, 0.1935,
    0.1910, 0.1890, 0.1850, 0.1820, 0.1800, 0.1770, 0.1730, 0.1695, 0.1660, 0.1610,
    0.1590, 0.1570, 0.1540, 0.1520, 0.1495, 0.1470, 0.1440, 0.1405, 0.1360, 0.1285,
    0.1200, 0.1160, 0.1130, 0.1110, 0.1100, 0.1065, 0.1040, 0.1015, 0.0995, 0.0980,
    0.0960, 0.0935, 0.0890, 0.0860, 0.0820, 0.0810, 0.0785, 0.0760, 0.0730, 0.0700,
    0.0670, 0.0635, 0.0595, 0.0550, 0.0520, 0.0465, 0.0430, 0.0420, 0.0410, 0.0400,
];

/// Letter drills A to Z, inches.
#[rustfmt::skip]
const LETTERS: [f64; 26] = [
    0.234, 0.238, 0.242, 0.246, 0.250, 0.257, 0.261, 0.266, 0.272, 0.277, 0.281, 0.290, 0.295,
    0.302, 0.316, 0.323, 0.332, 0.339, 0.348, 0.358, 0.368, 0.377, 0.386, 0.397, 0.404, 0.413,
];

/// Fractions by 64ths up to 1-1/2 in.
const FRACTIONS: u32 = 96;

/// Of which series a drill is: its name is made up only when it is wanted.
#[derive(Clone, Copy)]
enum Series {
    Fraction,
    Number(u32),
    Letter(char),
    Metric,
}

impl Series {
    fn drill(self, diameter: Length) -> Drill {
        let name = match self {
            Self::Fraction => inch_fraction(diameter).unwrap_or_default(),
            Self::Number(n) => format!("#{n}"),
            Self::Letter(c) => format!("letter {c}"),
            Self::Metric => crate::units::show::trimmed(diameter.as_mm(), 2) + " mm",
        };
        Drill { diameter, name }
    }
}

/// Inch drills, fractions first, so that 1/4 in is not called letter E.
fn inch() -> impl Iterator<Item = (Length, Series)> {
    let fractions = (1..=FRACTIONS).map(|n| (Length::inches(f64::from(n) / 64.0), Series::Fraction));
    let numbers = (1..).zip(NUMBERS).map(|(n, d)| (Length::inches(d), Series::Number(n)));
    let letters = ('A'..='Z').zip(LETTERS).map(|(c, d)| (Length::inches(d), Series::Letter(c)));
    fractions.chain(numbers).chain(letters)
}

/// Metric drills: 0.5 to 3 mm by 0.05, to 14 mm by 0.1, to 32 mm by 0.25, to 50 mm by 0.5.
/// Source: the sizes of BS 328 as an encyclopedia's article on drill sizes prints them, to 25 mm; beyond, from memory.
fn metric() -> impl Iterator<Item = (Length, Series)> {
    let by = |from: u32, to: u32, step: usize| (from..=to).step_by(step).map(|n| Length::mm(f64::from(n) / 100.0));
    let all = by(50, 300, 5).chain(by(310, 1390, 10)).chain(by(1400, 3200, 25)).chain(by(3250, 5000, 50));
    all.map(|diameter| (diameter, Series::Metric))
}

/// The drill of that unit nearest to a diameter.
pub fn nearest(diameter: Length, unit: LengthUnit) -> Option<Drill> {
    best(unit, |drill| (drill - diameter).abs().as_mm())
}

/// The thinnest drill of that unit from one diameter to another.
pub fn least_between(least: Length, most: Length, unit: LengthUnit) -> Option<Drill> {
    best(unit, |drill| if drill < least { f64::INFINITY } else { drill.as_mm() })
        .filter(|drill| drill.diameter >= least && drill.diameter <= most)
}

/// How far a printed diameter may lie beside the drill that it means: four decimals of an inch.
pub const SAME: Length = Length::inches(0.000_1);

/// The drill whose diameter has the least error, the first of equals.
pub(crate) fn best(unit: LengthUnit, error: impl Fn(Length) -> f64) -> Option<Drill> {
    type Sold = (Length, Series);
    let least = |drills: &mut dyn Iterator<Item = Sold>| drills.min_by(|a, b| error(a.0).total_cmp(&error(b.0)));
    let found = match unit {
        LengthUnit::Mm => least(&mut metric()),
        LengthUnit::Inch => least(&mut inch()),
    };
    found.map(|(diameter, series)| series.drill(diameter))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// BS 328: from 3.0 to 13.9 by 0.1, from 14 to 25 by 0.25 (an encyclopedia's article on drill sizes): no drill of 14.1 or 18.6 mm
    /// is sold.
    #[test]
    fn metric_sizes_that_are_sold() {
        let sold = |mm: f64| metric().any(|(d, _)| (d.as_mm() - mm).abs() < 1e-9);
        assert!([2.95, 3.0, 13.9, 14.0, 14.25, 18.5, 18.75, 24.75, 25.0].into_iter().all(sold));
        assert!(![3.05, 14.1, 18.6, 24.9].into_iter().any(sold));
        assert_eq!(nearest(Length::mm(18.6), LengthUnit::Mm).unwrap().name, "18.5 mm");
        assert_eq!(least_between(Length::mm(18.5), Length::mm(18.9), LengthUnit::Mm).unwrap().name, "18.5 mm");
        assert!(least_between(Length::mm(18.55), Length::mm(18.7), LengthUnit::Mm).is_none());
    }

    /// Millimetres beside the sizes as a tool maker's table prints them (ASME B94.11M sizes).
    #[test]
    fn printed_millimetres() {
        for (name, mm) in [
            ("#45", 2.08),
            ("#29", 3.45),
            ("#7", 5.11),
            ("#3", 5.41),
            ("#1", 5.79),
            ("letter A", 5.94),
            ("letter F", 6.53),
            ("letter I", 6.91),
            ("letter N", 7.67),
            ("letter O", 8.03),
            ("31/64 in", 12.30),
            ("27/64 in", 10.72),
        ] {
            let found = inch().map(|(d, series)| series.drill(d)).find(|d| d.name == name).unwrap();
            assert!((found.diameter.as_mm() - mm).abs() < 0.0051, "{name}");
        }
    }
}
