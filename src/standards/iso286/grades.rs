//! How wide each tolerance grade is: IT01 to IT18 by size step.

use super::class::{ClassError, Grade};
use super::{SizedValue, step_size};
use crate::standards::steps::Cell::{Memory as M, Nil as X, One as O, TwoOrMore as T};
use crate::standards::steps::{Row, row, step_for};
use crate::units::Length;

const TO_500: &str = "ISO 286-1:2010 table 1 (reprinted in Narayana, Machine Drawing, table 15.1; GOST 25346; two web \
    reprints)";
const TO_3150: &str = "ISO 286-1:2010 table 1 (reprinted in Narayana, Machine Drawing, table 15.1; a web reprint)";

/// ISO 286-1:2010 table 1, widths in µm. Steps "over, up to and including" in mm.
/// T: seen in two or more reprints, O: in one, M: from memory, agrees with the generating formula, X: not defined.
#[rustfmt::skip]
pub(crate) const WIDTHS: &[Row<20>] = &[
    //                      IT01       IT0       IT1       IT2       IT3       IT4       IT5       IT6       IT7       IT8       IT9      IT10      IT11      IT12      IT13      IT14      IT15      IT16      IT17      IT18
    row(   0.,    3., [  O(0.3),   O(0.5),   T(0.8),   T(1.2),    T(2.),    T(3.),    T(4.),    T(6.),   T(10.),   T(14.),   T(25.),   T(40.),   T(60.),  T(100.),  T(140.),  T(250.),  T(400.),  T(600.), O(1000.), O(1400.)], TO_500),
    row(   3.,    6., [  O(0.4),   O(0.6),    T(1.),   T(1.5),   T(2.5),    T(4.),    T(5.),    T(8.),   T(12.),   T(18.),   T(30.),   T(48.),   T(75.),  T(120.),  T(180.),  T(300.),  T(480.),  T(750.), O(1200.), O(1800.)], TO_500),
    row(   6.,   10., [  O(0.4),   O(0.6),    T(1.),   T(1.5),   T(2.5),    T(4.),    T(6.),    T(9.),   T(15.),   T(22.),   T(36.),   T(58.),   T(90.),  T(150.),  T(220.),  T(360.),  T(580.),  T(900.), T(1500.), O(2200.)], TO_500),
    row(  10.,   18., [  O(0.5),   O(0.8),   T(1.2),    T(2.),    T(3.),    T(5.),    T(8.),   T(11.),   T(18.),   T(27.),   T(43.),   T(70.),  T(110.),  T(180.),  T(270.),  T(430.),  T(700.), T(1100.), T(1800.), T(2700.)], TO_500),
    row(  18.,   30., [  O(0.6),    O(1.),   T(1.5),   T(2.5),    T(4.),    T(6.),    T(9.),   T(13.),   T(21.),   T(33.),   T(52.),   T(84.),  T(130.),  T(210.),  T(330.),  T(520.),  T(840.), T(1300.), T(2100.), T(3300.)], TO_500),
    row(  30.,   50., [  O(0.6),    O(1.),   T(1.5),   T(2.5),    T(4.),    T(7.),   T(11.),   T(16.),   T(25.),   T(39.),   T(62.),  T(100.),  T(160.),  T(250.),  T(390.),  T(620.), T(1000.), T(1600.), T(2500.), T(3900.)], TO_500),
    row(  50.,   80., [  O(0.8),   O(1.2),    T(2.),    T(3.),    T(5.),    T(8.),   T(13.),   T(19.),   T(30.),   T(46.),   T(74.),  T(120.),  T(190.),  T(300.),  T(460.),  T(740.), T(1200.), T(1900.), T(3000.), T(4600.)], TO_500),
    row(  80.,  120., [   O(1.),   O(1.5),   T(2.5),    T(4.),    T(6.),   T(10.),   T(15.),   T(22.),   T(35.),   T(54.),   T(87.),  T(140.),  T(220.),  T(350.),  T(540.),  T(870.), T(1400.), T(2200.), T(3500.), T(5400.)], TO_500),
    row( 120.,  180., [  O(1.2),    O(2.),   T(3.5),    T(5.),    T(8.),   T(12.),   T(18.),   T(25.),   T(40.),   T(63.),  T(100.),  T(160.),  T(250.),  T(400.),  T(630.), T(1000.), T(1600.), T(2500.), T(4000.), T(6300.)], TO_500),
    row( 180.,  250., [   O(2.),    O(3.),   T(4.5),    T(7.),   T(10.),   T(14.),   T(20.),   T(29.),   T(46.),   T(72.),  T(115.),  T(185.),  T(290.),  T(460.),  T(720.), T(1150.), T(1850.), T(2900.), T(4600.), T(7200.)], TO_500),
    row( 250.,  315., [  O(2.5),    O(4.),    T(6.),    T(8.),   T(12.),   T(16.),   T(23.),   T(32.),   T(52.),   T(81.),  T(130.),  T(210.),  T(320.),  T(520.),  T(810.), T(1300.), T(2100.), T(3200.), T(5200.), T(8100.)], TO_500),
    row( 315.,  400., [   O(3.),    O(5.),    O(7.),    O(9.),   O(13.),   O(18.),   T(25.),   T(36.),   T(57.),   T(89.),  T(140.),  T(230.),  T(360.),  T(570.),  T(890.), T(1400.), T(2300.), T(3600.), T(5700.), T(8900.)], TO_500),
    row( 400.,  500., [   O(4.),    O(6.),    O(8.),   O(10.),   O(15.),   O(20.),   T(27.),   T(40.),   T(63.),   T(97.),  T(155.),  T(250.),  T(400.),  T(630.),  T(970.), T(1550.), T(2500.), T(4000.), T(6300.), T(9700.)], TO_500),
    row( 500.,  630., [       X,        X,    M(9.),   M(11.),   M(16.),   M(22.),   O(32.),   O(44.),   O(70.),  O(110.),  O(175.),  O(280.),  O(440.),  O(700.), O(1100.), O(1750.), O(2800.), O(4400.), O(7000.), O(11000.)], TO_3150),
    row( 630.,  800., [       X,        X,   M(10.),   M(13.),   M(18.),   M(25.),   O(36.),   T(50.),   O(80.),  O(125.),  O(200.),  O(320.),  O(500.),  O(800.), O(1250.), O(2000.), O(3200.), O(5000.), O(8000.), O(12500.)], TO_3150),
    row( 800., 1000., [       X,        X,   M(11.),   M(15.),   M(21.),   M(28.),   O(40.),   T(56.),   T(90.),  O(140.),  O(230.),  O(360.),  O(560.),  O(900.), O(1400.), O(2300.), O(3600.), O(5600.), O(9000.), O(14000.)], TO_3150),
    row(1000., 1250., [       X,        X,   M(13.),   M(18.),   M(24.),   M(33.),   O(47.),   T(66.),  T(105.),  O(165.),  O(260.),  O(420.),  O(660.), O(1050.), O(1650.), O(2600.), O(4200.), O(6600.), O(10500.), O(16500.)], TO_3150),
    row(1250., 1600., [       X,        X,   M(15.),   M(21.),   M(29.),   M(39.),   O(55.),   T(78.),  T(125.),  O(195.),  O(310.),  O(500.),  O(780.), O(1250.), O(1950.), O(3100.), O(5000.), O(7800.), O(12500.), O(19500.)], TO_3150),
    row(1600., 2000., [       X,        X,   M(18.),   M(25.),   M(35.),   M(46.),   O(65.),   T(92.),  T(150.),  O(230.),  O(370.),  O(600.),  O(920.), O(1500.), O(2300.), O(3700.), O(6000.), O(9200.), O(15000.), O(23000.)], TO_3150),
    row(2000., 2500., [       X,        X,   M(22.),   M(30.),   M(41.),   M(55.),   O(78.),  T(110.),  T(175.),  O(280.),  O(440.),  O(700.), O(1100.), M(1750.), M(2800.), M(4400.), M(7000.), M(11000.), M(17500.), M(28000.)], TO_3150),
    row(2500., 3150., [       X,        X,   M(26.),   M(36.),   M(50.),   M(68.),   O(96.),  O(135.),  O(210.),  O(330.),  O(540.),  O(860.), O(1350.), M(2100.), M(3300.), M(5400.), M(8600.), M(13500.), M(21000.), M(33000.)], TO_3150),
];

/// Width of grade `grade` at `nominal`, exact in µm (ISO 286-1:2010 table 1; no formula, the printed value).
///
/// Valid above 0 up to 3150 mm; IT01 and IT0 up to 500 mm; IT14 to IT18 above 1 mm.
pub(crate) fn width_um(nominal: Length, grade: Grade) -> Result<SizedValue, ClassError> {
    let size = step_size(nominal)?;
    if size <= 1.0 && grade >= Grade::IT14 {
        return Err(ClassError::CoarseGradeAtTinySize(grade));
    }
    let missing = ClassError::FineGradeAbove500(grade);
    let step = step_for(WIDTHS, size).ok_or(ClassError::SizeOutOfRange(nominal))?;
    let cell = step.cells.get(grade.column()).ok_or(missing.clone())?;
    let (um, confirmed) = cell.value().ok_or(missing)?;
    Ok(SizedValue { um, confirmed, source: step.source })
}

/// Δ = IT(n) − IT(n−1) in µm of hole grade n: what a K to ZC hole is raised over the mirror of the shaft
/// (ISO 286-1:2010, right-hand columns of tables 2 and 3). Tabulated over 3 up to 500 mm, grades 3 to 8.
///
/// At 25 mm grade 7: 21 − 13 = 8 µm.
pub(crate) fn delta_um(nominal: Length, grade: Grade) -> Result<f64, ClassError> {
    Ok(width_um(nominal, grade)?.um - width_um(nominal, grade.finer())?.um)
}
