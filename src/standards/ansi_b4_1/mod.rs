//! Inch fits by name: RC running, LC locational clearance, LT transition, LN locational interference, FN force.
//!
//! ANSI/ASME B4.1-1967. A row that is only from memory says so in its `confirmed`.

mod force;
mod lc;
mod lt_ln;
mod rc;

use std::fmt;

use super::fit::{FitKind, FitRange, Limits, fit_of};
use super::nearest_names;
use super::steps::{Step, step_for};
use crate::source::Confirmed;
use crate::units::Length;

/// A row as printed: sizes in inches, the rest in thousandths.
#[derive(Debug)]
pub(crate) struct InchRow {
    over: f64,
    up_to: f64,
    /// Least and greatest clearance as printed (interference for LN and FN). Kept to prove the row against.
    #[cfg_attr(not(test), allow(dead_code, reason = "the printed check column of the row"))]
    printed_fit: (f64, f64),
    hole_upper: f64,
    shaft: (f64, f64),
    confirmed: Confirmed,
    source: &'static str,
}

#[allow(clippy::too_many_arguments, reason = "the columns of the printed table")]
const fn inch(
    over: f64,
    up_to: f64,
    fit_min: f64,
    fit_max: f64,
    hole_upper: f64,
    shaft_upper: f64,
    shaft_lower: f64,
    confirmed: Confirmed,
    source: &'static str,
) -> InchRow {
    let (printed_fit, shaft) = ((fit_min, fit_max), (shaft_lower, shaft_upper));
    InchRow { over, up_to, printed_fit, hole_upper, shaft, confirmed, source }
}

impl Step for InchRow {
    fn over(&self) -> f64 {
        self.over
    }
    fn up_to(&self) -> f64 {
        self.up_to
    }
}

const HANDBOOK_31: &str = "ANSI/ASME B4.1-1967 (reprinted in Machinery's Handbook, 31st ed.)";
const HANDBOOK_27: &str = "ANSI/ASME B4.1-1967 (reprinted in Machinery's Handbook, 27th ed.)";
const TWO: &str = "ANSI/ASME B4.1-1967 (reprinted in Machinery's Handbook, 31st ed.; a university appendix)";
const THREE: &str =
    "ANSI/ASME B4.1-1967 (reprinted in Machinery's Handbook, 31st ed.; a university appendix; ASA B4.1-1955)";
const WEB: &str = "ANSI/ASME B4.1-1967 (one web reprint)";
const MEMORY: &str = "ANSI/ASME B4.1-1967, from memory, unconfirmed";

/// A class with its table.
struct InchClass {
    name: &'static str,
    /// Symbol of the hole as printed.
    hole: &'static str,
    /// Symbol of the shaft as printed, empty where the standard gives none.
    shaft: &'static str,
    kind: FitKind,
    rows: &'static [InchRow],
}

#[rustfmt::skip]
const CLASSES: &[InchClass] = &[
    InchClass { name: "RC1", hole: "H5", shaft: "g4", kind: FitKind::Clearance, rows: rc::RC1 },
    InchClass { name: "RC2", hole: "H6", shaft: "g5", kind: FitKind::Clearance, rows: rc::RC2 },
    InchClass { name: "RC3", hole: "H7", shaft: "f6", kind: FitKind::Clearance, rows: rc::RC3 },
    InchClass { name: "RC4", hole: "H8", shaft: "f7", kind: FitKind::Clearance, rows: rc::RC4 },
    InchClass { name: "RC5", hole: "H8", shaft: "e7", kind: FitKind::Clearance, rows: rc::RC5 },
    InchClass { name: "RC6", hole: "H9", shaft: "e8", kind: FitKind::Clearance, rows: rc::RC6 },
    InchClass { name: "RC7", hole: "H9", shaft: "d8", kind: FitKind::Clearance, rows: rc::RC7 },
    InchClass { name: "RC8", hole: "H10", shaft: "c9", kind: FitKind::Clearance, rows: rc::RC8 },
    InchClass { name: "RC9", hole: "H11", shaft: "", kind: FitKind::Clearance, rows: rc::RC9 },
    InchClass { name: "LC1", hole: "H6", shaft: "h5", kind: FitKind::Clearance, rows: lc::LC1 },
    InchClass { name: "LC2", hole: "H7", shaft: "h6", kind: FitKind::Clearance, rows: lc::LC2 },
    InchClass { name: "LC3", hole: "H8", shaft: "h7", kind: FitKind::Clearance, rows: lc::LC3 },
    InchClass { name: "LC4", hole: "H10", shaft: "h9", kind: FitKind::Clearance, rows: lc::LC4 },
    InchClass { name: "LC5", hole: "H7", shaft: "g6", kind: FitKind::Clearance, rows: lc::LC5 },
    InchClass { name: "LC6", hole: "H9", shaft: "f8", kind: FitKind::Clearance, rows: lc::LC6 },
    InchClass { name: "LC7", hole: "H10", shaft: "e9", kind: FitKind::Clearance, rows: lc::LC7 },
    InchClass { name: "LC8", hole: "H10", shaft: "d9", kind: FitKind::Clearance, rows: lc::LC8 },
    InchClass { name: "LC9", hole: "H11", shaft: "c10", kind: FitKind::Clearance, rows: lc::LC9 },
    InchClass { name: "LC10", hole: "H12", shaft: "", kind: FitKind::Clearance, rows: lc::LC10 },
    InchClass { name: "LC11", hole: "H13", shaft: "", kind: FitKind::Clearance, rows: lc::LC11 },
    InchClass { name: "LT1", hole: "H7", shaft: "js6", kind: FitKind::Transition, rows: lt_ln::LT1 },
    InchClass { name: "LT2", hole: "H8", shaft: "js7", kind: FitKind::Transition, rows: lt_ln::LT2 },
    InchClass { name: "LT3", hole: "H7", shaft: "k6", kind: FitKind::Transition, rows: lt_ln::LT3 },
    InchClass { name: "LT4", hole: "H8", shaft: "k7", kind: FitKind::Transition, rows: lt_ln::LT4 },
    InchClass { name: "LT5", hole: "H7", shaft: "n6", kind: FitKind::Transition, rows: lt_ln::LT5 },
    InchClass { name: "LT6", hole: "H7", shaft: "n7", kind: FitKind::Transition, rows: lt_ln::LT6 },
    InchClass { name: "LN1", hole: "H6", shaft: "n5", kind: FitKind::Interference, rows: lt_ln::LN1 },
    InchClass { name: "LN2", hole: "H7", shaft: "p6", kind: FitKind::Interference, rows: lt_ln::LN2 },
    InchClass { name: "LN3", hole: "H7", shaft: "r6", kind: FitKind::Interference, rows: lt_ln::LN3 },
    InchClass { name: "FN1", hole: "H6", shaft: "", kind: FitKind::Interference, rows: force::FN1 },
    InchClass { name: "FN2", hole: "H7", shaft: "s6", kind: FitKind::Interference, rows: force::FN2 },
    InchClass { name: "FN3", hole: "H7", shaft: "t6", kind: FitKind::Interference, rows: force::FN3 },
    InchClass { name: "FN4", hole: "H7", shaft: "u6", kind: FitKind::Interference, rows: force::FN4 },
    InchClass { name: "FN5", hole: "H8", shaft: "x7", kind: FitKind::Interference, rows: force::FN5 },
];

/// Limits of an inch fit at a size.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct InchFit {
    /// Name, such as RC4.
    pub name: &'static str,
    /// Deviations of the hole; the lower is 0.
    pub hole: Limits,
    /// Deviations of the shaft.
    pub shaft: Limits,
    /// Symbol printed for the hole; its widths are the inch table's own, not those of ISO 286.
    pub hole_symbol: &'static str,
    /// Symbol printed for the shaft, empty where there is none.
    pub shaft_symbol: &'static str,
    /// Clearances; interference is negative.
    pub range: FitRange,
    /// Kind as the standard groups the class.
    pub kind: FitKind,
    /// How well the row is confirmed.
    pub confirmed: Confirmed,
    /// Where the row was read.
    pub source: &'static str,
}

/// Why there is no inch fit.
#[derive(Clone, PartialEq, Debug)]
pub enum InchFitError {
    /// No such class; names that are near.
    UnknownClass(String, Vec<String>),
    /// The class has no row for the size: name, over, up to.
    NotAtThisSize(&'static str, Length, Length),
}

impl fmt::Display for InchFitError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::UnknownClass(text, near) => {
                write!(
                    f,
                    "\"{text}\" is no inch fit: known are RC1 to RC9, LC1 to LC11, LT1 to LT6, LN1 to LN3, FN1 to FN5"
                )?;
                if near.is_empty() { Ok(()) } else { write!(f, "; did you mean {}?", near.join(" or ")) }
            }
            Self::NotAtThisSize(name, over, up_to) => write!(
                f,
                "{name} is defined over {} in up to {} in only",
                (over.as_inches() * 1e4).round() / 1e4,
                (up_to.as_inches() * 1e4).round() / 1e4
            ),
        }
    }
}

impl std::error::Error for InchFitError {}

/// Names of all inch fits.
pub fn inch_fit_names() -> impl Iterator<Item = &'static str> {
    CLASSES.iter().map(|class| class.name)
}

/// Limits of an inch fit (ANSI/ASME B4.1-1967): hole from 0 up, shaft as tabulated. Case does not matter.
///
/// 1 in RC4: hole 0/+1.2, shaft −0.8/−1.6 thousandths, clearance 0.8 to 2.8.
pub fn inch_fit(nominal: Length, name: &str) -> Result<InchFit, InchFitError> {
    let wanted = name.trim();
    let class = CLASSES.iter().find(|class| class.name.eq_ignore_ascii_case(wanted));
    let class =
        class.ok_or_else(|| InchFitError::UnknownClass(wanted.to_owned(), nearest_names(wanted, inch_fit_names())))?;
    // to a billionth of an inch: 1.19 in that came through millimetres stays in its step
    let size = (nominal.as_inches() * 1e9).round() / 1e9;
    let row = step_for(class.rows, size).ok_or_else(|| beyond(class))?;
    let side = |(lower, upper)| Limits {
        lower: Length::thou(lower),
        upper: Length::thou(upper),
        confirmed: row.confirmed,
        source: row.source,
    };
    let (hole, shaft) = (side((0.0, row.hole_upper)), side(row.shaft));
    Ok(InchFit {
        name: class.name,
        hole,
        shaft,
        hole_symbol: class.hole,
        shaft_symbol: class.shaft,
        range: fit_of(&hole, &shaft),
        kind: class.kind,
        confirmed: row.confirmed,
        source: row.source,
    })
}

fn beyond(class: &InchClass) -> InchFitError {
    let over = class.rows.first().map_or(0.0, Step::over);
    let up_to = class.rows.last().map_or(0.0, Step::up_to);
    InchFitError::NotAtThisSize(class.name, Length::inches(over), Length::inches(up_to))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Printed fit columns against the printed limits, every row of every class.
    #[test]
    fn rows_add_up() {
        for class in CLASSES {
            for row in class.rows {
                let clearance = (-row.shaft.1, row.hole_upper - row.shaft.0);
                let printed = match class.kind {
                    FitKind::Interference => (-row.printed_fit.1, -row.printed_fit.0),
                    _ => row.printed_fit,
                };
                let off = (clearance.0 - printed.0).abs().max((clearance.1 - printed.1).abs());
                assert!(off < 1e-9, "{} {}: {clearance:?} {printed:?}", class.name, row.over);
            }
        }
    }

    #[test]
    fn steps_join_and_end_at_the_last_size() {
        for class in CLASSES {
            assert!(class.rows.windows(2).all(|pair| pair[0].up_to == pair[1].over), "{}", class.name);
            assert_eq!(class.rows.last().map(Step::up_to), Some(19.69), "{}", class.name);
        }
        assert_eq!(CLASSES.iter().map(|class| class.rows.len()).sum::<usize>(), 492);
    }

    #[test]
    fn refusals() {
        let text = |size, name| inch_fit(Length::inches(size), name).unwrap_err().to_string();
        assert_eq!(text(0.5, "FN3"), "FN3 is defined over 0.95 in up to 19.69 in only");
        assert_eq!(text(20.0, "rc4"), "RC4 is defined over 0 in up to 19.69 in only");
        assert!(text(1.0, "RC0").contains("did you mean RC1"));
        assert_eq!(inch_fit(Length::inches(1.0), "lc2").unwrap().confirmed, Confirmed::Memory);
    }
}
