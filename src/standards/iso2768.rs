//! How exact a dimension without a class has to be: ISO 2768-1:1989 general tolerances.

use std::fmt;

use super::steps::Cell::{Nil as X, One as O, TwoOrMore as T};
use super::steps::{Column, Found, Row, row};
use crate::source::Cited;
use crate::units::{Angle, Length};

/// Where the tables are printed.
pub const SOURCE: &str = "ISO 2768-1:1989 (reprinted as DIN ISO 2768-1, two copies)";

/// Tolerance class of ISO 2768-1.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum GeneralClass {
    /// f
    Fine,
    /// m
    Medium,
    /// c
    Coarse,
    /// v
    VeryCoarse,
}

impl GeneralClass {
    /// Reads "f", "m", "c", "v" or the words.
    pub fn parse(text: &str) -> Result<Self, GeneralError> {
        match text.trim().to_lowercase().as_str() {
            "f" | "fine" => Ok(Self::Fine),
            "m" | "medium" => Ok(Self::Medium),
            "c" | "coarse" => Ok(Self::Coarse),
            "v" | "very coarse" => Ok(Self::VeryCoarse),
            _ => Err(GeneralError::UnknownClass(text.trim().to_owned())),
        }
    }
}

impl fmt::Display for GeneralClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Fine => "f",
            Self::Medium => "m",
            Self::Coarse => "c",
            Self::VeryCoarse => "v",
        })
    }
}

/// Why there is no general tolerance.
#[derive(Clone, PartialEq, Debug)]
pub enum GeneralError {
    /// Not one of f, m, c, v.
    UnknownClass(String),
    /// Below where the class begins; the tolerance goes beside the dimension.
    Below(GeneralClass, Length),
    /// Above where the class ends.
    Above(GeneralClass, Length),
}

impl fmt::Display for GeneralError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::UnknownClass(text) => {
                write!(
                    f,
                    "\"{text}\" is no class of ISO 2768-1: write f, m, c or v (fine, medium, coarse, very coarse)"
                )
            }
            Self::Below(class, size) => write!(
                f,
                "ISO 2768-1 class {class} begins at {} mm: write the tolerance beside the dimension",
                size.as_mm()
            ),
            Self::Above(class, size) => write!(f, "ISO 2768-1 class {class} ends at {} mm", size.as_mm()),
        }
    }
}

impl std::error::Error for GeneralError {}

// T seen in two or more reprints, O in one, X no value in the standard. Columns f, m, c, v. "Over, up to and
// including" in mm; only the first step of lengths, 0.5 up to 3, includes its lower end.

/// ISO 2768-1:1989 table 1, linear dimensions, ± mm.
#[rustfmt::skip]
pub(crate) const LINEAR: &[Row<4>] = &[
    row(  0.5,    3., [ T(0.05),   T(0.1),   T(0.2),        X], SOURCE),
    row(   3.,    6., [ T(0.05),   T(0.1),   T(0.3),   T(0.5)], SOURCE),
    row(   6.,   30., [  T(0.1),   T(0.2),   T(0.5),    T(1.)], SOURCE),
    row(  30.,  120., [ T(0.15),   T(0.3),   T(0.8),   T(1.5)], SOURCE),
    row( 120.,  400., [  T(0.2),   T(0.5),   T(1.2),   T(2.5)], SOURCE),
    row( 400., 1000., [  T(0.3),   T(0.8),    T(2.),    T(4.)], SOURCE),
    row(1000., 2000., [  T(0.5),   T(1.2),    T(3.),    T(6.)], SOURCE),
    row(2000., 4000., [       X,    T(2.),    T(4.),    T(8.)], SOURCE),
];

/// ISO 2768-1:1989 table 2, external radii and chamfer heights, ± mm.
#[rustfmt::skip]
pub(crate) const RADII: &[Row<4>] = &[
    row(  0.5,    3., [  T(0.2),   T(0.2),   T(0.4),   T(0.4)], SOURCE),
    row(   3.,    6., [  T(0.5),   T(0.5),    T(1.),    T(1.)], SOURCE),
    row(   6., f64::INFINITY, [   T(1.),    T(1.),    T(2.),    T(2.)], SOURCE),
];

/// ISO 2768-1:1989 table 3, angles by the length of the shorter side, ± minutes of arc.
#[rustfmt::skip]
pub(crate) const ANGLES: &[Row<4>] = &[
    row(   0.,   10., [  T(60.),   T(60.),   T(90.),  O(180.)], SOURCE),
    row(  10.,   50., [  T(30.),   T(30.),   T(60.),  O(120.)], SOURCE),
    row(  50.,  120., [  T(20.),   T(20.),   T(30.),   O(60.)], SOURCE),
    row( 120.,  400., [  T(10.),   T(10.),   T(15.),   O(30.)], SOURCE),
    row( 400., f64::INFINITY, [   T(5.),    T(5.),   T(10.),   O(20.)], SOURCE),
];

/// Smallest dimension with a general tolerance, included in the first step.
const SMALLEST: f64 = 0.5;

fn tolerance(rows: &[Row<4>], class: GeneralClass, size: f64) -> Result<Cited<f64>, GeneralError> {
    // 0.5 mm itself belongs to the first step, which the table bounds by "over"
    let size = if size == SMALLEST { 0.5001 } else { size };
    match (Column { rows, at: class as usize }).find(size) {
        Found::Value(value, confirmed, source) => Ok(Cited { value, confirmed, source }),
        Found::StartsAbove(end) => Err(GeneralError::Below(class, Length::mm(end))),
        Found::EndsAt(end) => Err(GeneralError::Above(class, Length::mm(end))),
    }
}

fn length(found: Cited<f64>) -> Cited<Length> {
    Cited { value: Length::mm(found.value), confirmed: found.confirmed, source: found.source }
}

/// ± tolerance of a length, diameter or distance (ISO 2768-1:1989 table 1), from 0.5 mm.
///
/// 25 mm class m: ±0.2 mm.
pub fn general_tolerance(class: GeneralClass, size: Length) -> Result<Cited<Length>, GeneralError> {
    tolerance(LINEAR, class, size.as_mm()).map(length)
}

/// ± tolerance of an external radius or chamfer height (ISO 2768-1:1989 table 2), from 0.5 mm.
pub fn general_radius_tolerance(class: GeneralClass, size: Length) -> Result<Cited<Length>, GeneralError> {
    tolerance(RADII, class, size.as_mm()).map(length)
}

/// ± tolerance of an angle by the length of its shorter side (ISO 2768-1:1989 table 3).
///
/// 25 mm side, class m: ±0°30'.
pub fn general_angle_tolerance(class: GeneralClass, shorter_side: Length) -> Result<Cited<Angle>, GeneralError> {
    let found = tolerance(ANGLES, class, shorter_side.as_mm())?;
    Ok(Cited { value: Angle::degrees(found.value / 60.0), confirmed: found.confirmed, source: found.source })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ends_of_the_tables() {
        let text = |class, size| general_tolerance(class, Length::mm(size)).unwrap_err().to_string();
        assert_eq!(
            text(GeneralClass::Medium, 0.4),
            "ISO 2768-1 class m begins at 0.5 mm: write the tolerance beside the dimension"
        );
        assert_eq!(
            text(GeneralClass::VeryCoarse, 3.0),
            "ISO 2768-1 class v begins at 3 mm: write the tolerance beside the dimension"
        );
        assert_eq!(text(GeneralClass::Fine, 2500.0), "ISO 2768-1 class f ends at 2000 mm");
        assert_eq!(general_tolerance(GeneralClass::Medium, Length::mm(0.5)).unwrap().value, Length::mm(0.1));
        assert!(GeneralClass::parse("x").unwrap_err().to_string().contains("f, m, c or v"));
    }

    #[test]
    fn coarser_classes_and_larger_sizes_are_never_tighter() {
        for table in [LINEAR, RADII] {
            let value = |row: &Row<4>, at: usize| row.cells[at].value().map(|(v, _)| v);
            for row in table {
                let known: Vec<f64> = (0..4).filter_map(|at| value(row, at)).collect();
                assert!(known.is_sorted());
            }
            for at in 0..4 {
                let known: Vec<f64> = table.iter().filter_map(|row| value(row, at)).collect();
                assert!(known.is_sorted());
            }
        }
    }
}
