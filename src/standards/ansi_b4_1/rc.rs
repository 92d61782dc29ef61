//! Inch fits: running and sliding fits RC1 to RC9.
//!
//! ANSI/ASME B4.1-1967. Columns: size over, up to and including (in); least and greatest clearance as
//! printed; hole upper deviation (lower is 0); shaft upper and lower deviation, all in thousandths of an inch.

use super::{HANDBOOK_31, InchRow, MEMORY, THREE, TWO, inch};
use crate::source::Confirmed::{Memory as M, One as O, TwoOrMore as T};

/// RC1: hole H5, shaft g4.
#[rustfmt::skip]
pub(crate) const RC1: &[InchRow] = &[
    inch(    0.,   0.12,    0.1,   0.45,    0.2,   -0.1,  -0.25, O, THREE),
    inch(  0.12,   0.24,   0.15,    0.5,    0.2,  -0.15,   -0.3, O, THREE),
    inch(  0.24,    0.4,    0.2,    0.6,   0.25,   -0.2,  -0.35, O, THREE),
    inch(   0.4,   0.71,   0.25,   0.75,    0.3,  -0.25,  -0.45, O, THREE),
    inch(  0.71,   1.19,    0.3,   0.95,    0.4,   -0.3,  -0.55, O, THREE),
    inch(  1.19,   1.97,    0.4,    1.1,    0.4,   -0.4,   -0.7, T, THREE),
    inch(  1.97,   3.15,    0.4,    1.2,    0.5,   -0.4,   -0.7, O, THREE),
    inch(  3.15,   4.73,    0.5,    1.5,    0.6,   -0.5,   -0.9, O, THREE),
    inch(  4.73,   7.09,    0.6,    1.8,    0.7,   -0.6,   -1.1, O, THREE),
    inch(  7.09,   9.85,    0.6,     2.,    0.8,   -0.6,   -1.2, O, TWO),
    inch(  9.85,  12.41,    0.8,    2.3,    0.9,   -0.8,   -1.4, T, TWO),
    inch( 12.41,  15.75,     1.,    2.7,     1.,    -1.,   -1.7, T, TWO),
    inch( 15.75,  19.69,    1.2,     3.,     1.,   -1.2,    -2., T, TWO),
];

/// RC2: hole H6, shaft g5.
#[rustfmt::skip]
pub(crate) const RC2: &[InchRow] = &[
    inch(    0.,   0.12,    0.1,   0.55,   0.25,   -0.1,   -0.3, O, TWO),
    inch(  0.12,   0.24,   0.15,   0.65,    0.3,  -0.15,  -0.35, O, THREE),
    inch(  0.24,    0.4,    0.2,   0.85,    0.4,   -0.2,  -0.45, O, THREE),
    inch(   0.4,   0.71,   0.25,   0.95,    0.4,  -0.25,  -0.55, O, THREE),
    inch(  0.71,   1.19,    0.3,    1.2,    0.5,   -0.3,   -0.7, T, THREE),
    inch(  1.19,   1.97,    0.4,    1.4,    0.6,   -0.4,   -0.8, T, THREE),
    inch(  1.97,   3.15,    0.4,    1.6,    0.7,   -0.4,   -0.9, T, THREE),
    inch(  3.15,   4.73,    0.5,     2.,    0.9,   -0.5,   -1.1, T, THREE),
    inch(  4.73,   7.09,    0.6,    2.3,     1.,   -0.6,   -1.3, T, THREE),
    inch(  7.09,   9.85,    0.6,    2.6,    1.2,   -0.6,   -1.4, T, TWO),
    inch(  9.85,  12.41,    0.8,    2.9,    1.2,   -0.8,   -1.7, O, TWO), // the university appendix prints another shaft here: -0.7/-1.6
    inch( 12.41,  15.75,     1.,    3.4,    1.4,    -1.,    -2., O, TWO), // the university appendix prints another shaft here: -0.7/-1.7
    inch( 15.75,  19.69,    1.2,    3.8,    1.6,   -1.2,   -2.2, O, TWO), // the university appendix prints another shaft here: -0.8/-1.8
];

/// RC3: hole H7, shaft f6.
#[rustfmt::skip]
pub(crate) const RC3: &[InchRow] = &[
    inch(    0.,   0.12,    0.3,   0.95,    0.4,   -0.3,  -0.55, O, TWO),
    inch(  0.12,   0.24,    0.4,    1.2,    0.5,   -0.4,   -0.7, O, THREE),
    inch(  0.24,    0.4,    0.5,    1.5,    0.6,   -0.5,   -0.9, T, THREE),
    inch(   0.4,   0.71,    0.6,    1.7,    0.7,   -0.6,    -1., T, THREE),
    inch(  0.71,   1.19,    0.8,    2.1,    0.8,   -0.8,   -1.3, T, THREE),
    inch(  1.19,   1.97,     1.,    2.6,     1.,    -1.,   -1.6, T, THREE),
    inch(  1.97,   3.15,    1.2,    3.1,    1.2,   -1.2,   -1.9, T, THREE),
    inch(  3.15,   4.73,    1.4,    3.7,    1.4,   -1.4,   -2.3, O, THREE),
    inch(  4.73,   7.09,    1.6,    4.2,    1.6,   -1.6,   -2.6, T, THREE),
    inch(  7.09,   9.85,     2.,     5.,    1.8,    -2.,   -3.2, T, THREE),
    inch(  9.85,  12.41,    2.5,    5.7,     2.,   -2.5,   -3.7, T, TWO),
    inch( 12.41,  15.75,     3.,    6.6,    2.2,    -3.,   -4.4, T, TWO),
    inch( 15.75,  19.69,     4.,    8.1,    2.5,    -4.,   -5.6, T, TWO),
];

/// RC4: hole H8, shaft f7.
#[rustfmt::skip]
pub(crate) const RC4: &[InchRow] = &[
    inch(    0.,   0.12,    0.3,    1.3,    0.6,   -0.3,   -0.7, T, TWO),
    inch(  0.12,   0.24,    0.4,    1.6,    0.7,   -0.4,   -0.9, T, TWO),
    inch(  0.24,    0.4,    0.5,     2.,    0.9,   -0.5,   -1.1, T, TWO),
    inch(   0.4,   0.71,    0.6,    2.3,     1.,   -0.6,   -1.3, T, TWO),
    inch(  0.71,   1.19,    0.8,    2.8,    1.2,   -0.8,   -1.6, T, TWO),
    inch(  1.19,   1.97,     1.,    3.6,    1.6,    -1.,    -2., T, TWO),
    inch(  1.97,   3.15,    1.2,    4.2,    1.8,   -1.2,   -2.4, T, TWO),
    inch(  3.15,   4.73,    1.4,     5.,    2.2,   -1.4,   -2.8, T, TWO),
    inch(  4.73,   7.09,    1.6,    5.7,    2.5,   -1.6,   -3.2, T, TWO),
    inch(  7.09,   9.85,     2.,    6.6,    2.8,    -2.,   -3.8, T, TWO),
    inch(  9.85,  12.41,    2.5,    7.5,     3.,   -2.5,   -4.5, O, TWO), // the university appendix prints another shaft here: -2.2/-4.2
    inch( 12.41,  15.75,     3.,    8.7,    3.5,    -3.,   -5.2, O, TWO), // the university appendix prints another shaft here: -2.5/-4.7
    inch( 15.75,  19.69,     4.,   10.5,     4.,    -4.,   -6.5, O, TWO), // only part of the row seen (the university appendix: hole, the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic the university appendix prints another shaft here: -2.8/-5.3
];

/// RC5: hole H8, shaft e7.
#[rustfmt::skip]
pub(crate) const RC5: &[InchRow] = &[
    inch(    0.,   0.12,    0.6,    1.6,    0.6,   -0.6,    -1., O, HANDBOOK_31),
    inch(  0.12,   0.24,    0.8,     2.,    0.7,   -0.8,   -1.3, O, HANDBOOK_31),
    inch(  0.24,    0.4,     1.,    2.5,    0.9,    -1.,   -1.6, O, HANDBOOK_31),
    inch(   0.4,   0.71,    1.2,    2.9,     1.,   -1.2,   -1.9, O, HANDBOOK_31),
    inch(  0.71,   1.19,    1.6,    3.6,    1.2,   -1.6,   -2.4, O, HANDBOOK_31),
    inch(  1.19,   1.97,     2.,    4.6,    1.6,    -2.,    -3., O, HANDBOOK_31),
    inch(  1.97,   3.15,    2.5,    5.5,    1.8,   -2.5,   -3.7, O, HANDBOOK_31),
    inch(  3.15,   4.73,     3.,    6.6,    2.2,    -3.,   -4.4, O, HANDBOOK_31),
    inch(  4.73,   7.09,    3.5,    7.6,    2.5,   -3.5,   -5.1, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: fit); the rest follows from hole/shaft arithmetic
    inch(  7.09,   9.85,     4.,    8.6,    2.8,    -4.,   -5.8, O, HANDBOOK_31),
    inch(  9.85,  12.41,     5.,    10.,     3.,    -5.,    -7., M, MEMORY),
    inch( 12.41,  15.75,     6.,   11.7,    3.5,    -6.,   -8.2, M, MEMORY),
    inch( 15.75,  19.69,     8.,   14.5,     4.,    -8.,  -10.5, M, MEMORY),
];

/// RC6: hole H9, shaft e8.
#[rustfmt::skip]
pub(crate) const RC6: &[InchRow] = &[
    inch(    0.,   0.12,    0.6,    2.2,     1.,   -0.6,   -1.2, O, HANDBOOK_31),
    inch(  0.12,   0.24,    0.8,    2.7,    1.2,   -0.8,   -1.5, O, HANDBOOK_31),
    inch(  0.24,    0.4,     1.,    3.3,    1.4,    -1.,   -1.9, O, HANDBOOK_31),
    inch(   0.4,   0.71,    1.2,    3.8,    1.6,   -1.2,   -2.2, O, HANDBOOK_31),
    inch(  0.71,   1.19,    1.6,    4.8,     2.,   -1.6,   -2.8, O, HANDBOOK_31),
    inch(  1.19,   1.97,     2.,    6.1,    2.5,    -2.,   -3.6, O, HANDBOOK_31),
    inch(  1.97,   3.15,    2.5,    7.3,     3.,   -2.5,   -4.3, O, HANDBOOK_31),
    inch(  3.15,   4.73,     3.,    8.7,    3.5,    -3.,   -5.2, O, HANDBOOK_31),
    inch(  4.73,   7.09,    3.5,    10.,     4.,   -3.5,    -6., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch(  7.09,   9.85,     4.,   11.3,    4.5,    -4.,   -6.8, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch(  9.85,  12.41,     5.,    13.,     5.,    -5.,    -8., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch( 12.41,  15.75,     6.,   15.5,     6.,    -6.,   -9.5, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch( 15.75,  19.69,     8.,    18.,     6.,    -8.,   -12., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
];

/// RC7: hole H9, shaft d8.
#[rustfmt::skip]
pub(crate) const RC7: &[InchRow] = &[
    inch(    0.,   0.12,     1.,    2.6,     1.,    -1.,   -1.6, O, HANDBOOK_31),
    inch(  0.12,   0.24,    1.2,    3.1,    1.2,   -1.2,   -1.9, O, HANDBOOK_31),
    inch(  0.24,    0.4,    1.6,    3.9,    1.4,   -1.6,   -2.5, O, HANDBOOK_31),
    inch(   0.4,   0.71,     2.,    4.6,    1.6,    -2.,    -3., O, HANDBOOK_31),
    inch(  0.71,   1.19,    2.5,    5.7,     2.,   -2.5,   -3.7, O, HANDBOOK_31),
    inch(  1.19,   1.97,     3.,    7.1,    2.5,    -3.,   -4.6, O, HANDBOOK_31),
    inch(  1.97,   3.15,     4.,    8.8,     3.,    -4.,   -5.8, O, HANDBOOK_31),
    inch(  3.15,   4.73,     5.,   10.7,    3.5,    -5.,   -7.2, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch(  4.73,   7.09,     6.,   12.5,     4.,    -6.,   -8.5, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch(  7.09,   9.85,     7.,   14.3,    4.5,    -7.,   -9.8, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch(  9.85,  12.41,     8.,    16.,     5.,    -8.,   -11., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch( 12.41,  15.75,    10.,   19.5,     6.,   -10.,  -13.5, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch( 15.75,  19.69,    12.,    22.,     6.,   -12.,   -16., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
];

/// RC8: hole H10, shaft c9.
#[rustfmt::skip]
pub(crate) const RC8: &[InchRow] = &[
    inch(    0.,   0.12,    2.5,    5.1,    1.6,   -2.5,   -3.5, O, HANDBOOK_31),
    inch(  0.12,   0.24,    2.8,    5.8,    1.8,   -2.8,    -4., O, HANDBOOK_31),
    inch(  0.24,    0.4,     3.,    6.6,    2.2,    -3.,   -4.4, O, HANDBOOK_31),
    inch(   0.4,   0.71,    3.5,    7.9,    2.8,   -3.5,   -5.1, O, HANDBOOK_31),
    inch(  0.71,   1.19,    4.5,    10.,    3.5,   -4.5,   -6.5, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch(  1.19,   1.97,     5.,   11.5,     4.,    -5.,   -7.5, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch(  1.97,   3.15,     6.,   13.5,    4.5,    -6.,    -9., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch(  3.15,   4.73,     7.,   15.5,     5.,    -7.,  -10.5, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch(  4.73,   7.09,     8.,    18.,     6.,    -8.,   -12., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch(  7.09,   9.85,    10.,   21.5,     7.,   -10.,  -14.5, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch(  9.85,  12.41,    12.,    25.,     8.,   -12.,   -17., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch( 12.41,  15.75,    14.,    29.,     9.,   -14.,   -20., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch( 15.75,  19.69,    16.,    32.,    10.,   -16.,   -22., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
];

/// RC9: hole H11, shaft without an ISO symbol.
#[rustfmt::skip]
pub(crate) const RC9: &[InchRow] = &[
    inch(    0.,   0.12,     4.,    8.1,    2.5,    -4.,   -5.6, O, HANDBOOK_31),
    inch(  0.12,   0.24,    4.5,     9.,     3.,   -4.5,    -6., O, HANDBOOK_31), // shaft width 1.5 breaks the grade-10 pattern (1.8) but limits and clearance 4.5-9.0 agree in the handbook, 31st ed.
    inch(  0.24,    0.4,     5.,   10.7,    3.5,    -5.,   -7.2, O, HANDBOOK_31),
    inch(   0.4,   0.71,     6.,   12.8,     4.,    -6.,   -8.8, O, HANDBOOK_31),
    inch(  0.71,   1.19,     7.,   15.5,     5.,    -7.,  -10.5, O, HANDBOOK_31),
    inch(  1.19,   1.97,     8.,    18.,     6.,    -8.,   -12., O, HANDBOOK_31),
    inch(  1.97,   3.15,     9.,   20.5,     7.,    -9.,  -13.5, O, HANDBOOK_31),
    inch(  3.15,   4.73,    10.,    24.,     9.,   -10.,   -15., O, HANDBOOK_31),
    inch(  4.73,   7.09,    12.,    28.,    10.,   -12.,   -18., O, HANDBOOK_31),
    inch(  7.09,   9.85,    15.,    34.,    12.,   -15.,   -22., O, HANDBOOK_31),
    inch(  9.85,  12.41,    18.,    38.,    12.,   -18.,   -26., O, HANDBOOK_31),
    inch( 12.41,  15.75,    22.,    45.,    14.,   -22.,   -31., O, HANDBOOK_31),
    inch( 15.75,  19.69,    25.,    51.,    16.,   -25.,   -35., O, HANDBOOK_31),
];
