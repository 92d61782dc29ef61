//! Where the tolerance zone of a shaft lies: fundamental deviations a to zc by size step.
//!
//! Hole tables are the mirror of these with the exceptions in [`super::holes`], so the sources of a row
//! are the reprints of either table.

use super::class::{ClassError, Feature, Grade, Letter, Name};
use super::{Position, Side, SizedValue, step_size};
use crate::source::Confirmed;
use crate::standards::steps::Cell::{Memory as M, Nil as X, One as O, TwoOrMore as T};
use crate::standards::steps::{Column, Found, Row, row};
use crate::units::Length;

// In all tables: T seen in two or more reprints, O in one, M from memory, X not defined.
// Steps "over, up to and including" in mm. The end of a source's name is its reprints: N Narayana, B BS 4500,
// G GOST, J JIS, C GB/T, S a rolling-bearing catalogue, D a mould-base catalogue, W a web reprint.
const A_G_BGJCSD: &str = "ISO 286-1:2010 tables 2 and 4 (reprinted in BS 4500:1969; GOST 25346; JIS B 0401:1999; GB/T 1800; a \
    rolling-bearing catalogue; a mould-base catalogue)";
const A_G_BJCSD: &str = "ISO 286-1:2010 tables 2 and 4 (reprinted in BS 4500:1969; JIS B 0401:1999; GB/T 1800; a \
    rolling-bearing catalogue; a mould-base catalogue)";
const A_G_NBJCSD: &str = "ISO 286-1:2010 tables 2 and 4 (reprinted in Narayana, Machine Drawing, table 15.2; BS 4500:1969; JIS \
    B 0401:1999; GB/T 1800; a rolling-bearing catalogue; a mould-base catalogue)";
const A_G_NJCSD: &str = "ISO 286-1:2010 tables 2 and 4 (reprinted in Narayana, Machine Drawing, table 15.2; JIS B 0401:1999; \
    GB/T 1800; a rolling-bearing catalogue; a mould-base catalogue)";
const A_G_NCSD: &str = "ISO 286-1:2010 tables 2 and 4 (reprinted in Narayana, Machine Drawing, table 15.2; GB/T 1800; a \
    rolling-bearing catalogue; a mould-base catalogue)";
const A_G_NCD: &str = "ISO 286-1:2010 tables 2 and 4 (reprinted in Narayana, Machine Drawing, table 15.2; GB/T 1800; a \
    mould-base catalogue)";
const A_G_D: &str = "ISO 286-1:2010 tables 2 and 4 (reprinted in a mould-base catalogue)";
const A_G_SD: &str = "ISO 286-1:2010 tables 2 and 4 (reprinted in a rolling-bearing catalogue; a mould-base catalogue)";
const J_GS: &str = "ISO 286-1:2010 table 5 (reprinted in GOST 25346; a rolling-bearing catalogue)";
const J_S: &str = "ISO 286-1:2010 table 5 (reprinted in a rolling-bearing catalogue)";
const J_MEMORY: &str = "ISO 286-1:2010 table 5, from memory";
const J_N: &str = "ISO 286-1:2010 table 5 (reprinted in Narayana, Machine Drawing, table 15.2)";
const K_U_NGJCSDW: &str = "ISO 286-1:2010 tables 3 and 5 (reprinted in Narayana, Machine Drawing, table 15.2; GOST 25346; JIS B \
    0401:1999; GB/T 1800; a rolling-bearing catalogue; a mould-base catalogue; a web reprint)";
const K_U_NBGJCSDW: &str = "ISO 286-1:2010 tables 3 and 5 (reprinted in Narayana, Machine Drawing, table 15.2; BS 4500:1969; \
    GOST 25346; JIS B 0401:1999; GB/T 1800; a rolling-bearing catalogue; a mould-base catalogue; a web \
    reprint)";
const K_U_NCSDW: &str = "ISO 286-1:2010 tables 3 and 5 (reprinted in Narayana, Machine Drawing, table 15.2; GB/T 1800; a \
    rolling-bearing catalogue; a mould-base catalogue; a web reprint)";
const K_U_NCSD: &str = "ISO 286-1:2010 tables 3 and 5 (reprinted in Narayana, Machine Drawing, table 15.2; GB/T 1800; a \
    rolling-bearing catalogue; a mould-base catalogue)";
const K_U_NCS: &str = "ISO 286-1:2010 tables 3 and 5 (reprinted in Narayana, Machine Drawing, table 15.2; GB/T 1800; a \
    rolling-bearing catalogue)";
const K_U_SD: &str = "ISO 286-1:2010 tables 3 and 5 (reprinted in a rolling-bearing catalogue; a mould-base catalogue)";
const K_U_D: &str = "ISO 286-1:2010 tables 3 and 5 (reprinted in a mould-base catalogue)";
const V_ZC_NJW: &str = "ISO 286-1:2010 tables 3 and 5 (reprinted in Narayana, Machine Drawing, table 15.2; JIS B 0401:1999; \
    a web reprint)";
const V_ZC_NW: &str =
    "ISO 286-1:2010 tables 3 and 5 (reprinted in Narayana, Machine Drawing, table 15.2; a web reprint)";
const V_ZC_N: &str = "ISO 286-1:2010 tables 3 and 5 (reprinted in Narayana, Machine Drawing, table 15.2)";

/// Shafts a to g: upper deviation es in µm, all grades (ISO 286-1:2010 table 4). h is 0 by definition.
#[rustfmt::skip]
pub(crate) const A_TO_G: &[Row<10>] = &[
    //                      a         b         c        cd         d         e        ef         f        fg         g
    row(   0.,    3., [T(-270.), T(-140.),  T(-60.),  T(-34.),  T(-20.),  T(-14.),  T(-10.),   T(-6.),   T(-4.),   T(-2.)], A_G_BGJCSD),
    row(   3.,    6., [T(-270.), T(-140.),  T(-70.),  T(-46.),  T(-30.),  T(-20.),  T(-14.),  T(-10.),   T(-6.),   T(-4.)], A_G_BGJCSD),
    row(   6.,   10., [T(-280.), T(-150.),  T(-80.),  T(-56.),  T(-40.),  T(-25.),  T(-18.),  T(-13.),   T(-8.),   T(-5.)], A_G_BGJCSD),
    row(  10.,   14., [T(-290.), T(-150.),  T(-95.),  M(-70.),  T(-50.),  T(-32.),  M(-23.),  T(-16.),  M(-10.),   T(-6.)], A_G_BGJCSD),
    row(  14.,   18., [T(-290.), T(-150.),  T(-95.),  M(-70.),  T(-50.),  T(-32.),  M(-23.),  T(-16.),  M(-10.),   T(-6.)], A_G_BGJCSD),
    row(  18.,   24., [T(-300.), T(-160.), T(-110.),  M(-85.),  T(-65.),  T(-40.),  M(-28.),  T(-20.),  M(-12.),   T(-7.)], A_G_BGJCSD),
    row(  24.,   30., [T(-300.), T(-160.), T(-110.),  M(-85.),  T(-65.),  T(-40.),  M(-28.),  T(-20.),  M(-12.),   T(-7.)], A_G_BGJCSD),
    row(  30.,   40., [T(-310.), T(-170.), T(-120.), M(-100.),  T(-80.),  T(-50.),  M(-35.),  T(-25.),  M(-15.),   T(-9.)], A_G_BGJCSD),
    row(  40.,   50., [T(-320.), T(-180.), T(-130.), M(-100.),  T(-80.),  T(-50.),  M(-35.),  T(-25.),  M(-15.),   T(-9.)], A_G_BGJCSD),
    row(  50.,   65., [T(-340.), T(-190.), T(-140.),        X, T(-100.),  T(-60.),        X,  T(-30.),        X,  T(-10.)], A_G_BJCSD),
    row(  65.,   80., [T(-360.), T(-200.), T(-150.),        X, T(-100.),  T(-60.),        X,  T(-30.),        X,  T(-10.)], A_G_BJCSD),
    row(  80.,  100., [O(-380.), T(-220.), T(-170.),        X, T(-120.),  T(-72.),        X,  T(-36.),        X,  T(-12.)], A_G_BJCSD),
    row( 100.,  120., [O(-410.), T(-240.), T(-180.),        X, T(-120.),  T(-72.),        X,  T(-36.),        X,  T(-12.)], A_G_BJCSD),
    row( 120.,  140., [T(-460.), T(-260.), T(-200.),        X, T(-145.),  T(-85.),        X,  T(-43.),        X,  T(-14.)], A_G_NBJCSD),
    row( 140.,  160., [T(-520.), T(-280.), T(-210.),        X, T(-145.),  T(-85.),        X,  T(-43.),        X,  T(-14.)], A_G_NBJCSD),
    row( 160.,  180., [T(-580.), T(-310.), T(-230.),        X, T(-145.),  T(-85.),        X,  T(-43.),        X,  T(-14.)], A_G_NBJCSD),
    row( 180.,  200., [T(-660.), T(-340.), T(-240.),        X, T(-170.), T(-100.),        X,  T(-50.),        X,  T(-15.)], A_G_NBJCSD),
    row( 200.,  225., [T(-740.), T(-380.), T(-260.),        X, T(-170.), T(-100.),        X,  T(-50.),        X,  T(-15.)], A_G_NBJCSD),
    row( 225.,  250., [O(-820.), T(-420.), T(-280.),        X, T(-170.), T(-100.),        X,  T(-50.),        X,  T(-15.)], A_G_NJCSD),
    row( 250.,  280., [O(-920.), T(-480.), T(-300.),        X, T(-190.), T(-110.),        X,  T(-56.),        X,  T(-17.)], A_G_NJCSD),
    row( 280.,  315., [O(-1050.), T(-540.), T(-330.),        X, T(-190.), T(-110.),        X,  T(-56.),        X,  T(-17.)], A_G_NCSD),
    row( 315.,  355., [O(-1200.), T(-600.), T(-360.),        X, T(-210.), T(-125.),        X,  T(-62.),        X,  T(-18.)], A_G_NCD),
    row( 355.,  400., [O(-1350.), T(-680.), T(-400.),        X, T(-210.), T(-125.),        X,  T(-62.),        X,  T(-18.)], A_G_NCD),
    row( 400.,  450., [O(-1500.), T(-760.), T(-440.),        X, T(-230.), T(-135.),        X,  T(-68.),        X,  T(-20.)], A_G_NCD),
    row( 450.,  500., [O(-1650.), T(-840.), T(-480.),        X, T(-230.), T(-135.),        X,  T(-68.),        X,  T(-20.)], A_G_NCD),
    row( 500.,  560., [       X,        X,        X,        X, O(-260.), O(-145.),        X,  O(-76.),        X,  O(-22.)], A_G_D),
    row( 560.,  630., [       X,        X,        X,        X, O(-260.), O(-145.),        X,  O(-76.),        X,  O(-22.)], A_G_D),
    row( 630.,  710., [       X,        X,        X,        X, O(-290.), O(-160.),        X,  T(-80.),        X,  T(-24.)], A_G_SD),
    row( 710.,  800., [       X,        X,        X,        X, O(-290.), O(-160.),        X,  T(-80.),        X,  T(-24.)], A_G_SD),
    row( 800.,  900., [       X,        X,        X,        X, O(-320.), O(-170.),        X,  T(-86.),        X,  T(-26.)], A_G_SD),
    row( 900., 1000., [       X,        X,        X,        X, O(-320.), O(-170.),        X,  T(-86.),        X,  T(-26.)], A_G_SD),
    row(1000., 1120., [       X,        X,        X,        X, O(-350.), O(-195.),        X,  T(-98.),        X,  T(-28.)], A_G_SD),
    row(1120., 1250., [       X,        X,        X,        X, O(-350.), O(-195.),        X,  T(-98.),        X,  T(-28.)], A_G_SD),
    row(1250., 1400., [       X,        X,        X,        X, O(-390.), O(-220.),        X, T(-110.),        X,  T(-30.)], A_G_SD),
    row(1400., 1600., [       X,        X,        X,        X, O(-390.), O(-220.),        X, T(-110.),        X,  T(-30.)], A_G_SD),
    row(1600., 1800., [       X,        X,        X,        X, O(-430.), O(-240.),        X, T(-120.),        X,  T(-32.)], A_G_SD),
    row(1800., 2000., [       X,        X,        X,        X, O(-430.), O(-240.),        X, T(-120.),        X,  T(-32.)], A_G_SD),
    row(2000., 2240., [       X,        X,        X,        X, O(-480.), O(-260.),        X, T(-130.),        X,  T(-34.)], A_G_SD),
    row(2240., 2500., [       X,        X,        X,        X, O(-480.), O(-260.),        X, T(-130.),        X,  T(-34.)], A_G_SD),
    row(2500., 2800., [       X,        X,        X,        X, O(-520.), O(-290.),        X, O(-145.),        X,  O(-38.)], A_G_D),
    row(2800., 3150., [       X,        X,        X,        X, O(-520.), O(-290.),        X, O(-145.),        X,  O(-38.)], A_G_D),
];

/// Shaft j: lower deviation ei in µm (ISO 286-1:2010 table 5).
#[rustfmt::skip]
pub(crate) const J: &[Row<3>] = &[
    //                5 and 6         7         8
    row(   0.,    3., [  T(-2.),   O(-4.),   O(-6.)], J_GS),
    row(   3.,    6., [  T(-2.),   O(-4.),        X], J_GS),
    row(   6.,   10., [  T(-2.),   O(-5.),        X], J_GS),
    row(  10.,   14., [  T(-3.),   O(-6.),        X], J_GS),
    row(  14.,   18., [  T(-3.),   O(-6.),        X], J_GS),
    row(  18.,   24., [  T(-4.),   O(-8.),        X], J_GS),
    row(  24.,   30., [  T(-4.),   O(-8.),        X], J_GS),
    row(  30.,   40., [  T(-5.),  O(-10.),        X], J_GS),
    row(  40.,   50., [  T(-5.),  O(-10.),        X], J_GS),
    row(  50.,   65., [  O(-7.),  M(-12.),        X], J_S),
    row(  65.,   80., [  O(-7.),  M(-12.),        X], J_S),
    row(  80.,  100., [  M(-9.),  M(-15.),        X], J_MEMORY),
    row( 100.,  120., [  M(-9.),  M(-15.),        X], J_MEMORY),
    row( 120.,  140., [ M(-11.),  M(-18.),        X], J_MEMORY),
    row( 140.,  160., [ M(-11.),  M(-18.),        X], J_MEMORY),
    row( 160.,  180., [ M(-11.),  M(-18.),        X], J_MEMORY),
    row( 180.,  200., [ O(-13.),  O(-21.),        X], J_N),
    row( 200.,  225., [ O(-13.),  O(-21.),        X], J_N),
    row( 225.,  250., [ O(-13.),  O(-21.),        X], J_N),
    row( 250.,  280., [ O(-16.),  O(-26.),        X], J_N),
    row( 280.,  315., [ O(-16.),  O(-26.),        X], J_N),
    row( 315.,  355., [ O(-18.),  O(-28.),        X], J_N),
    row( 355.,  400., [ O(-18.),  O(-28.),        X], J_N),
    row( 400.,  450., [ O(-20.),  O(-32.),        X], J_N),
    row( 450.,  500., [ O(-20.),  O(-32.),        X], J_N),
];

/// Shafts k to u: lower deviation ei in µm (ISO 286-1:2010 table 5). k: grades 4 to 7 only up to 500 mm.
#[rustfmt::skip]
pub(crate) const K_TO_U: &[Row<8>] = &[
    //                      k         m         n         p         r         s         t         u
    row(   0.,    3., [   T(0.),    T(2.),    T(4.),    T(6.),   T(10.),   T(14.),        X,   T(18.)], K_U_NGJCSDW),
    row(   3.,    6., [   T(1.),    T(4.),    T(8.),   T(12.),   T(15.),   T(19.),        X,   T(23.)], K_U_NBGJCSDW),
    row(   6.,   10., [   T(1.),    T(6.),   T(10.),   T(15.),   T(19.),   T(23.),        X,   T(28.)], K_U_NBGJCSDW),
    row(  10.,   14., [   T(1.),    T(7.),   T(12.),   T(18.),   T(23.),   T(28.),        X,   T(33.)], K_U_NBGJCSDW),
    row(  14.,   18., [   T(1.),    T(7.),   T(12.),   T(18.),   T(23.),   T(28.),        X,   T(33.)], K_U_NBGJCSDW),
    row(  18.,   24., [   T(2.),    T(8.),   T(15.),   T(22.),   T(28.),   T(35.),        X,   T(41.)], K_U_NBGJCSDW),
    row(  24.,   30., [   T(2.),    T(8.),   T(15.),   T(22.),   T(28.),   T(35.),   T(41.),   T(48.)], K_U_NBGJCSDW),
    row(  30.,   40., [   T(2.),    T(9.),   T(17.),   T(26.),   T(34.),   T(43.),   T(48.),   T(60.)], K_U_NBGJCSDW),
    row(  40.,   50., [   T(2.),    T(9.),   T(17.),   T(26.),   T(34.),   T(43.),   T(54.),   T(70.)], K_U_NBGJCSDW),
    row(  50.,   65., [   T(2.),   T(11.),   T(20.),   T(32.),   T(41.),   T(53.),   T(66.),   T(87.)], K_U_NGJCSDW),
    row(  65.,   80., [   T(2.),   T(11.),   T(20.),   T(32.),   T(43.),   T(59.),   T(75.),  T(102.)], K_U_NCSDW),
    row(  80.,  100., [   T(3.),   T(13.),   T(23.),   T(37.),   T(51.),   T(71.),   T(91.),  T(124.)], K_U_NCSDW),
    row( 100.,  120., [   T(3.),   T(13.),   T(23.),   T(37.),   T(54.),   T(79.),  T(104.),  T(144.)], K_U_NCSDW),
    row( 120.,  140., [   T(3.),   T(15.),   T(27.),   T(43.),   T(63.),   T(92.),  T(122.),  T(170.)], K_U_NCSDW),
    row( 140.,  160., [   T(3.),   T(15.),   T(27.),   T(43.),   T(65.),  T(100.),  T(134.),  T(190.)], K_U_NCSDW),
    row( 160.,  180., [   T(3.),   T(15.),   T(27.),   T(43.),   T(68.),  T(108.),  T(146.),  T(210.)], K_U_NCSDW),
    row( 180.,  200., [   T(4.),   T(17.),   T(31.),   T(50.),   T(77.),  T(122.),  T(166.),  T(236.)], K_U_NCSDW),
    row( 200.,  225., [   T(4.),   T(17.),   T(31.),   T(50.),   T(80.),  T(130.),  T(180.),  O(258.)], K_U_NCSDW),
    row( 225.,  250., [   T(4.),   T(17.),   T(31.),   T(50.),   T(84.),  T(140.),  O(196.),  O(284.)], K_U_NCSDW),
    row( 250.,  280., [   T(4.),   O(20.),   T(34.),   T(56.),   T(94.),  T(158.),  O(218.),  O(315.)], K_U_NCSD),
    row( 280.,  315., [   T(4.),   O(20.),   T(34.),   T(56.),   T(98.),  T(170.),  O(240.),  O(350.)], K_U_NCS),
    row( 315.,  355., [   T(4.),   O(21.),   T(37.),   O(62.),  T(108.),  T(190.),  O(268.),  O(390.)], K_U_NCS),
    row( 355.,  400., [   T(4.),   O(21.),   T(37.),   O(62.),  T(114.),  T(208.),  O(294.),  O(435.)], K_U_NCS),
    row( 400.,  450., [   T(5.),   O(23.),   T(40.),   O(68.),  T(126.),  T(232.),  O(330.),  O(490.)], K_U_NCS),
    row( 450.,  500., [   T(5.),   O(23.),   T(40.),   O(68.),  T(132.),  T(252.),  O(360.),  O(540.)], K_U_NCS),
    row( 500.,  560., [   O(0.),   O(26.),   O(44.),   O(78.),  T(150.),  O(280.),  O(400.),  O(600.)], K_U_SD),
    row( 560.,  630., [   O(0.),   O(26.),   O(44.),   O(78.),  T(155.),  O(310.),  O(450.),  O(660.)], K_U_SD),
    row( 630.,  710., [   O(0.),   O(30.),   O(50.),   O(88.),  T(175.),  O(340.),  O(500.),  O(740.)], K_U_SD),
    row( 710.,  800., [   O(0.),   O(30.),   O(50.),   O(88.),  T(185.),  O(380.),  O(560.),  O(840.)], K_U_SD),
    row( 800.,  900., [   O(0.),   O(34.),   O(56.),  O(100.),  T(210.),  O(430.),  O(620.),  O(940.)], K_U_SD),
    row( 900., 1000., [   O(0.),   O(34.),   O(56.),  O(100.),  T(220.),  O(470.),  O(680.), O(1050.)], K_U_SD),
    row(1000., 1120., [   O(0.),   O(40.),   O(66.),  O(120.),  T(250.),  O(520.),  O(780.), O(1150.)], K_U_SD),
    row(1120., 1250., [   O(0.),   O(40.),   O(66.),  O(120.),  T(260.),  O(580.),  O(840.), O(1300.)], K_U_SD),
    row(1250., 1400., [   O(0.),   O(48.),   O(78.),  O(140.),  T(300.),  O(640.),  O(960.), O(1450.)], K_U_SD),
    row(1400., 1600., [   O(0.),   O(48.),   O(78.),  O(140.),  T(330.),  O(720.), O(1050.), O(1600.)], K_U_SD),
    row(1600., 1800., [   O(0.),   O(58.),   O(92.),  O(170.),  T(370.),  O(820.), O(1200.), O(1850.)], K_U_SD),
    row(1800., 2000., [   O(0.),   O(58.),   O(92.),  O(170.),  T(400.),  O(920.), O(1350.), O(2000.)], K_U_SD),
    row(2000., 2240., [   O(0.),   O(68.),  O(110.),  O(195.),  O(440.), O(1000.), O(1500.), O(2300.)], K_U_D),
    row(2240., 2500., [   O(0.),   O(68.),  O(110.),  O(195.),  O(460.), O(1100.), O(1650.), O(2500.)], K_U_D),
    row(2500., 2800., [   O(0.),   O(76.),  O(135.),  O(240.),  O(550.), O(1250.), O(1900.), O(2900.)], K_U_D),
    row(2800., 3150., [   O(0.),   O(76.),  O(135.),  O(240.),  O(580.), O(1400.), O(2100.), O(3200.)], K_U_D),
];

/// Shafts v to zc: lower deviation ei in µm, all grades (ISO 286-1:2010 table 5).
#[rustfmt::skip]
pub(crate) const V_TO_ZC: &[Row<7>] = &[
    //                      v         x         y         z        za        zb        zc
    row(   0.,    3., [       X,   T(20.),        X,   T(26.),   T(32.),   T(40.),   T(60.)], V_ZC_NJW),
    row(   3.,    6., [       X,   T(28.),        X,   T(35.),   T(42.),   T(50.),   T(80.)], V_ZC_NJW),
    row(   6.,   10., [       X,   T(34.),        X,   T(42.),   T(52.),   T(67.),   T(97.)], V_ZC_NJW),
    row(  10.,   14., [       X,   T(40.),        X,   T(50.),   T(64.),   T(90.),  T(130.)], V_ZC_NJW),
    row(  14.,   18., [  T(39.),   T(45.),        X,   T(60.),   T(77.),  T(108.),  T(150.)], V_ZC_NJW),
    row(  18.,   24., [  T(47.),   T(54.),   T(63.),   T(73.),   T(98.),  T(136.),  T(188.)], V_ZC_NJW),
    row(  24.,   30., [  T(55.),   T(64.),   T(75.),   T(88.),  T(118.),  T(160.),  T(218.)], V_ZC_NJW),
    row(  30.,   40., [  T(68.),   T(80.),   T(94.),  T(112.),  T(148.),  T(200.),  T(274.)], V_ZC_NW),
    row(  40.,   50., [  T(81.),   T(97.),  T(114.),  T(136.),  T(180.),  T(242.),  T(325.)], V_ZC_NW),
    row(  50.,   65., [ T(102.),  T(122.),  T(144.),  T(172.),  T(226.),  T(300.),  T(405.)], V_ZC_NW),
    row(  65.,   80., [ T(120.),  T(146.),  T(174.),  T(210.),  T(274.),  T(360.),  T(480.)], V_ZC_NW),
    row(  80.,  100., [ T(146.),  T(178.),  T(214.),  T(258.),  T(335.),  T(445.),  T(585.)], V_ZC_NW),
    row( 100.,  120., [ T(172.),  T(210.),  T(254.),  T(310.),  T(400.),  T(525.),  T(690.)], V_ZC_NW),
    row( 120.,  140., [ T(202.),  T(248.),  T(300.),  T(365.),  T(470.),  T(620.),  T(800.)], V_ZC_NW),
    row( 140.,  160., [ T(228.),  T(280.),  T(340.),  T(415.),  T(535.),  T(700.),  T(900.)], V_ZC_NW),
    row( 160.,  180., [ T(252.),  T(310.),  T(380.),  T(465.),  T(600.),  T(780.), T(1000.)], V_ZC_NW),
    row( 180.,  200., [ T(284.),  T(350.),  T(425.),  T(520.),  T(670.),  T(880.), T(1150.)], V_ZC_NW),
    row( 200.,  225., [ T(310.),  T(385.),  T(470.),  T(575.),  T(740.),  T(960.), T(1250.)], V_ZC_NW),
    row( 225.,  250., [ O(340.),  O(425.),  O(520.),  O(640.),  O(820.), O(1050.), O(1350.)], V_ZC_N),
    row( 250.,  280., [ O(385.),  O(475.),  O(580.),  O(710.),  O(920.), O(1200.), O(1550.)], V_ZC_N),
    row( 280.,  315., [ O(425.),  O(525.),  O(650.),  O(790.), O(1000.), O(1300.), O(1700.)], V_ZC_N),
    row( 315.,  355., [ O(475.),  O(590.),  O(730.),  O(900.), O(1150.), O(1500.), O(1900.)], V_ZC_N),
    row( 355.,  400., [ O(530.),  M(660.),  O(820.), O(1000.), O(1300.), O(1650.), O(2100.)], V_ZC_N),
    row( 400.,  450., [ O(595.),  O(740.),  O(920.), O(1100.), O(1450.), O(1850.), O(2400.)], V_ZC_N),
    row( 450.,  500., [ O(660.),  O(820.), O(1000.), O(1250.), O(1600.), O(2100.), O(2600.)], V_ZC_N),
];

/// Where it is said that h, js and k (outside grades 4 to 7) have the deviation 0, and N above grade 8 over 3 mm.
const BY_DEFINITION: &str = "ISO 286-1:2010, by definition of the letter";
/// The deviation of those letters.
pub(super) const ZERO: SizedValue = SizedValue { um: 0.0, confirmed: Confirmed::TwoOrMore, source: BY_DEFINITION };
/// j exists in these grades; j8 only up to 3 mm.
const J_GRADES: &str = "grades 5 to 8";

/// Where the zone of a shaft lies (ISO 286-1:2010 tables 4 and 5): es for a to h, ei for j to zc.
pub(super) fn position(nominal: Length, letter: Letter, grade: Grade) -> Result<Position, ClassError> {
    let side = if letter.0 <= Name::H { Side::Upper } else { Side::Lower };
    Ok(match letter.0 {
        Name::Js => Position::Middle,
        Name::H => Position::End(side, ZERO),
        Name::K if !(4..=7).contains(&grade.number()) => Position::End(side, ZERO),
        Name::J => Position::End(side, j_deviation(nominal, letter, grade)?),
        _ => Position::End(side, tabulated(nominal, letter, Feature::Shaft)?),
    })
}

/// Shaft j: grades 5 and 6 share a column, 7 and 8 have their own.
fn j_deviation(nominal: Length, letter: Letter, grade: Grade) -> Result<SizedValue, ClassError> {
    let at = match grade.number() {
        5 | 6 => 0,
        7 => 1,
        8 => 2,
        _ => return Err(ClassError::GradesOnly("j", J_GRADES)),
    };
    in_column(Column { rows: J, at }, nominal, letter.text(Feature::Shaft))
}

/// The tabulated deviation of any letter but h, js and j, in µm with the sign of the shaft.
///
/// `feature` only chooses how the letter is written when it has to be refused.
pub(super) fn tabulated(nominal: Length, letter: Letter, feature: Feature) -> Result<SizedValue, ClassError> {
    let (text, at) = (letter.text(feature), letter.0 as usize);
    match letter.0 {
        Name::A | Name::B if step_size(nominal)? <= 1.0 => Err(ClassError::LetterAtTinySize(text)),
        name if name >= Name::V => in_column(Column { rows: V_TO_ZC, at: at - Name::V as usize }, nominal, text),
        name if name >= Name::K => in_column(Column { rows: K_TO_U, at: at - Name::K as usize }, nominal, text),
        _ => in_column(Column { rows: A_TO_G, at }, nominal, text),
    }
}

/// The value of one column at a size, or why it has none.
pub(super) fn in_column<const N: usize>(
    column: Column<'_, N>,
    nominal: Length,
    letter: &'static str,
) -> Result<SizedValue, ClassError> {
    match column.find(step_size(nominal)?) {
        Found::Value(um, confirmed, source) => Ok(SizedValue { um, confirmed, source }),
        Found::StartsAbove(size) => Err(ClassError::StartsAbove(letter, Length::mm(size))),
        Found::EndsAt(size) => Err(ClassError::EndsAt(letter, Length::mm(size))),
    }
}
