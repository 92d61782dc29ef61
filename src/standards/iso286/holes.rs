//! Where the tolerance zone of a hole lies: the mirror of the shaft table, and the exceptions to that.

use super::class::{ClassError, Feature, Grade, Letter, Name};
use super::{Position, Side, SizedValue, grades, shafts, step_size};
use crate::source::Confirmed;
use crate::standards::steps::Cell::{One as O, TwoOrMore as T};
use crate::standards::steps::{Column, Row, row};
use crate::units::Length;

// T seen in two or more reprints, O in one. Steps "over, up to and including" in mm. Source names as in shafts.
const J_BD: &str = "ISO 286-1:2010 table 2 (reprinted in BS 4500:1969; a mould-base catalogue)";
const J_BSD: &str = "ISO 286-1:2010 table 2 (reprinted in BS 4500:1969; a rolling-bearing catalogue; a mould-base \
    catalogue)";
const J_NBSD: &str = "ISO 286-1:2010 table 2 (reprinted in Narayana, Machine Drawing, table 15.3; BS 4500:1969; a \
    rolling-bearing catalogue; a mould-base catalogue)";
const J_NB: &str = "ISO 286-1:2010 table 2 (reprinted in Narayana, Machine Drawing, table 15.3; BS 4500:1969)";
const J_N: &str = "ISO 286-1:2010 table 2 (reprinted in Narayana, Machine Drawing, table 15.3)";

/// Hole J: upper deviation ES in µm, grades 6, 7, 8 (ISO 286-1:2010 table 2).
#[rustfmt::skip]
pub(crate) const J: &[Row<3>] = &[
    //                      6         7         8
    row(   0.,    3., [   T(2.),    T(4.),    T(6.)], J_BD),
    row(   3.,    6., [   T(5.),    T(6.),   T(10.)], J_BD),
    row(   6.,   10., [   T(5.),    T(8.),   T(12.)], J_BSD),
    row(  10.,   14., [   T(6.),   T(10.),   T(15.)], J_BSD),
    row(  14.,   18., [   T(6.),   T(10.),   T(15.)], J_BSD),
    row(  18.,   24., [   T(8.),   T(12.),   T(20.)], J_BSD),
    row(  24.,   30., [   T(8.),   T(12.),   T(20.)], J_BSD),
    row(  30.,   40., [  T(10.),   T(14.),   T(24.)], J_BSD),
    row(  40.,   50., [  T(10.),   T(14.),   T(24.)], J_BSD),
    row(  50.,   65., [  T(13.),   T(18.),   T(28.)], J_BSD),
    row(  65.,   80., [  T(13.),   T(18.),   T(28.)], J_BSD),
    row(  80.,  100., [  T(16.),   T(22.),   T(34.)], J_BSD),
    row( 100.,  120., [  T(16.),   T(22.),   T(34.)], J_BSD),
    row( 120.,  140., [  T(18.),   T(26.),   T(41.)], J_NBSD),
    row( 140.,  160., [  T(18.),   T(26.),   T(41.)], J_NBSD),
    row( 160.,  180., [  T(18.),   T(26.),   T(41.)], J_NBSD),
    row( 180.,  200., [  T(22.),   T(30.),   T(47.)], J_NBSD),
    row( 200.,  225., [  T(22.),   T(30.),   T(47.)], J_NBSD),
    row( 225.,  250., [  T(22.),   T(30.),   T(47.)], J_NBSD),
    row( 250.,  280., [  T(25.),   T(36.),   T(55.)], J_NB),
    row( 280.,  315., [  T(25.),   T(36.),   T(55.)], J_NB),
    row( 315.,  355., [  T(29.),   T(39.),   T(60.)], J_NB),
    row( 355.,  400., [  T(29.),   T(39.),   T(60.)], J_NB),
    row( 400.,  450., [  O(33.),   O(43.),   O(66.)], J_N),
    row( 450.,  500., [  O(33.),   O(43.),   O(66.)], J_N),
];

/// J exists in these grades.
const J_GRADES: &str = "grades 6 to 8";
/// Δ is printed for grades 3 to 8 only, so a hole that needs it exists in no finer grade.
const FROM_GRADE_3: &str = "grades 3 and coarser over 3 mm";
/// What the standard says of K above grade 8.
const K_GRADES: &str = "grades up to 8 over 3 mm";
/// What the standard says of N above grade 8.
const N_GRADES: &str = "grades up to 8 at or below 1 mm";
/// The one printed cell that does not follow the Δ rule.
const M6_EXCEPTION: &str = "ISO 286-1:2010 table 2, note on M6 (reprinted in Narayana, Machine Drawing, table 15.3)";

/// Where the zone of a hole lies (ISO 286-1:2010 tables 2 and 3).
///
/// A to H: EI = −es of the shaft letter. J: ES from its own table. K to ZC: ES = −ei of the shaft letter,
/// with the exceptions in [`upper_deviation`].
pub(super) fn position(nominal: Length, letter: Letter, grade: Grade) -> Result<Position, ClassError> {
    Ok(match letter.0 {
        Name::Js => Position::Middle,
        Name::J => Position::End(Side::Upper, j_deviation(nominal, letter, grade)?),
        Name::H => Position::End(Side::Lower, shafts::ZERO),
        name if name < Name::H => Position::End(Side::Lower, mirrored(nominal, letter)?),
        _ => Position::End(Side::Upper, upper_deviation(nominal, letter, grade)?),
    })
}

fn j_deviation(nominal: Length, letter: Letter, grade: Grade) -> Result<SizedValue, ClassError> {
    let wrong = ClassError::GradesOnly("J", J_GRADES);
    let at = usize::try_from(grade.number() - 6).ok().filter(|at| *at <= 2).ok_or(wrong)?;
    shafts::in_column(Column { rows: J, at }, nominal, letter.text(Feature::Hole))
}

/// The deviation of the same shaft letter with the sign turned (general rule of ISO 286-1).
fn mirrored(nominal: Length, letter: Letter) -> Result<SizedValue, ClassError> {
    let shaft = shafts::tabulated(nominal, letter, Feature::Hole)?;
    Ok(SizedValue { um: 0.0 - shaft.um, ..shaft })
}

/// ES in µm of holes K to ZC: ES = −ei + Δ, where Δ = IT(n) − IT(n−1) counts over 3 up to 500 mm for
/// K, M, N up to grade 8 and for P to ZC up to grade 7, and is 0 elsewhere.
///
/// 25 mm P7: −22 + 8 = −14 µm (Narayana, Machine Drawing, table 15.3).
fn upper_deviation(nominal: Length, letter: Letter, grade: Grade) -> Result<SizedValue, ClassError> {
    let size = step_size(nominal)?;
    if let Some(special) = exception(size, letter.0, grade.number()) {
        return special;
    }
    let mirror = mirrored(nominal, letter)?;
    let delta_up_to = if letter.0 <= Name::N { 8 } else { 7 };
    if size <= 3.0 || size > 500.0 || grade.number() > delta_up_to {
        return Ok(mirror);
    }
    if grade.number() < 3 {
        return Err(ClassError::GradesOnly(letter.text(Feature::Hole), FROM_GRADE_3));
    }
    Ok(SizedValue { um: mirror.um + grades::delta_um(nominal, grade)?, ..mirror })
}

/// The classes that neither the mirror nor Δ gives (ISO 286-1:2010 tables 2 and 3 with their notes).
///
/// K above grade 8 ends at 3 mm (over 500 mm the table prints one 0 for all grades); N above grade 8 has
/// ES = 0 over 3 mm and is not used at or below 1 mm; M6 has ES = −9 µm over 250 up to 315 mm.
fn exception(size: f64, letter: Name, grade: i8) -> Option<Result<SizedValue, ClassError>> {
    let delta_sizes = size > 3.0 && size <= 500.0;
    match (letter, grade) {
        (Name::K, 9..) if delta_sizes => Some(Err(ClassError::GradesOnly("K", K_GRADES))),
        (Name::N, 9..) if size <= 1.0 => Some(Err(ClassError::GradesOnly("N", N_GRADES))),
        (Name::N, 9..) if delta_sizes => Some(Ok(shafts::ZERO)),
        (Name::M, 6) if size > 250.0 && size <= 315.0 => {
            Some(Ok(SizedValue { um: -9.0, confirmed: Confirmed::One, source: M6_EXCEPTION }))
        }
        _ => None,
    }
}
