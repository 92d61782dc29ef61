//! Inch fits: locational clearance fits LC1 to LC11.
//!
//! ANSI/ASME B4.1-1967. Columns: size over, up to and including (in); least and greatest clearance as
//! printed; hole upper deviation (lower is 0); shaft upper and lower deviation, all in thousandths of an inch.

use super::{InchRow, MEMORY, WEB, inch};
use crate::source::Confirmed::{Memory as M, One as O};

/// LC1: hole H6, shaft h5.
#[rustfmt::skip]
pub(crate) const LC1: &[InchRow] = &[
    inch(    0.,   0.12,     0.,   0.45,   0.25,     0.,   -0.2, M, MEMORY),
    inch(  0.12,   0.24,     0.,    0.5,    0.3,     0.,   -0.2, M, MEMORY),
    inch(  0.24,    0.4,     0.,   0.65,    0.4,     0.,  -0.25, M, MEMORY),
    inch(   0.4,   0.71,     0.,    0.7,    0.4,     0.,   -0.3, M, MEMORY),
    inch(  0.71,   1.19,     0.,    0.9,    0.5,     0.,   -0.4, M, MEMORY),
    inch(  1.19,   1.97,     0.,     1.,    0.6,     0.,   -0.4, M, MEMORY),
    inch(  1.97,   3.15,     0.,    1.2,    0.7,     0.,   -0.5, M, MEMORY),
    inch(  3.15,   4.73,     0.,    1.5,    0.9,     0.,   -0.6, M, MEMORY),
    inch(  4.73,   7.09,     0.,    1.7,     1.,     0.,   -0.7, M, MEMORY),
    inch(  7.09,   9.85,     0.,     2.,    1.2,     0.,   -0.8, M, MEMORY),
    inch(  9.85,  12.41,     0.,    2.1,    1.2,     0.,   -0.9, M, MEMORY),
    inch( 12.41,  15.75,     0.,    2.4,    1.4,     0.,    -1., M, MEMORY),
    inch( 15.75,  19.69,     0.,    2.6,    1.6,     0.,    -1., M, MEMORY),
];

/// LC2: hole H7, shaft h6.
#[rustfmt::skip]
pub(crate) const LC2: &[InchRow] = &[
    inch(    0.,   0.12,     0.,   0.65,    0.4,     0.,  -0.25, M, MEMORY),
    inch(  0.12,   0.24,     0.,    0.8,    0.5,     0.,   -0.3, M, MEMORY),
    inch(  0.24,    0.4,     0.,     1.,    0.6,     0.,   -0.4, M, MEMORY),
    inch(   0.4,   0.71,     0.,    1.1,    0.7,     0.,   -0.4, M, MEMORY),
    inch(  0.71,   1.19,     0.,    1.3,    0.8,     0.,   -0.5, M, MEMORY),
    inch(  1.19,   1.97,     0.,    1.6,     1.,     0.,   -0.6, M, MEMORY),
    inch(  1.97,   3.15,     0.,    1.9,    1.2,     0.,   -0.7, M, MEMORY),
    inch(  3.15,   4.73,     0.,    2.3,    1.4,     0.,   -0.9, M, MEMORY),
    inch(  4.73,   7.09,     0.,    2.6,    1.6,     0.,    -1., M, MEMORY),
    inch(  7.09,   9.85,     0.,     3.,    1.8,     0.,   -1.2, M, MEMORY),
    inch(  9.85,  12.41,     0.,    3.2,     2.,     0.,   -1.2, M, MEMORY),
    inch( 12.41,  15.75,     0.,    3.6,    2.2,     0.,   -1.4, M, MEMORY),
    inch( 15.75,  19.69,     0.,    4.1,    2.5,     0.,   -1.6, M, MEMORY),
];

/// LC3: hole H8, shaft h7.
#[rustfmt::skip]
pub(crate) const LC3: &[InchRow] = &[
    inch(    0.,   0.12,     0.,     1.,    0.6,     0.,   -0.4, M, MEMORY),
    inch(  0.12,   0.24,     0.,    1.2,    0.7,     0.,   -0.5, M, MEMORY),
    inch(  0.24,    0.4,     0.,    1.5,    0.9,     0.,   -0.6, M, MEMORY),
    inch(   0.4,   0.71,     0.,    1.7,     1.,     0.,   -0.7, M, MEMORY),
    inch(  0.71,   1.19,     0.,     2.,    1.2,     0.,   -0.8, M, MEMORY),
    inch(  1.19,   1.97,     0.,    2.6,    1.6,     0.,    -1., M, MEMORY),
    inch(  1.97,   3.15,     0.,     3.,    1.8,     0.,   -1.2, M, MEMORY),
    inch(  3.15,   4.73,     0.,    3.6,    2.2,     0.,   -1.4, M, MEMORY),
    inch(  4.73,   7.09,     0.,    4.1,    2.5,     0.,   -1.6, M, MEMORY),
    inch(  7.09,   9.85,     0.,    4.6,    2.8,     0.,   -1.8, M, MEMORY),
    inch(  9.85,  12.41,     0.,     5.,     3.,     0.,    -2., M, MEMORY),
    inch( 12.41,  15.75,     0.,    5.7,    3.5,     0.,   -2.2, M, MEMORY),
    inch( 15.75,  19.69,     0.,    6.5,     4.,     0.,   -2.5, M, MEMORY),
];

/// LC4: hole H10, shaft h9.
#[rustfmt::skip]
pub(crate) const LC4: &[InchRow] = &[
    inch(    0.,   0.12,     0.,    2.6,    1.6,     0.,    -1., M, MEMORY),
    inch(  0.12,   0.24,     0.,     3.,    1.8,     0.,   -1.2, M, MEMORY),
    inch(  0.24,    0.4,     0.,    3.6,    2.2,     0.,   -1.4, M, MEMORY),
    inch(   0.4,   0.71,     0.,    4.4,    2.8,     0.,   -1.6, M, MEMORY),
    inch(  0.71,   1.19,     0.,    5.5,    3.5,     0.,    -2., M, MEMORY),
    inch(  1.19,   1.97,     0.,    6.5,     4.,     0.,   -2.5, M, MEMORY),
    inch(  1.97,   3.15,     0.,    7.5,    4.5,     0.,    -3., M, MEMORY),
    inch(  3.15,   4.73,     0.,    8.5,     5.,     0.,   -3.5, M, MEMORY),
    inch(  4.73,   7.09,     0.,    10.,     6.,     0.,    -4., M, MEMORY),
    inch(  7.09,   9.85,     0.,   11.5,     7.,     0.,   -4.5, M, MEMORY),
    inch(  9.85,  12.41,     0.,    13.,     8.,     0.,    -5., M, MEMORY),
    inch( 12.41,  15.75,     0.,    15.,     9.,     0.,    -6., M, MEMORY),
    inch( 15.75,  19.69,     0.,    16.,    10.,     0.,    -6., M, MEMORY),
];

/// LC5: hole H7, shaft g6.
#[rustfmt::skip]
pub(crate) const LC5: &[InchRow] = &[
    inch(    0.,   0.12,    0.1,   0.75,    0.4,   -0.1,  -0.35, M, MEMORY),
    inch(  0.12,   0.24,   0.15,   0.95,    0.5,  -0.15,  -0.45, M, MEMORY),
    inch(  0.24,    0.4,    0.2,    1.2,    0.6,   -0.2,   -0.6, M, MEMORY),
    inch(   0.4,   0.71,   0.25,   1.35,    0.7,  -0.25,  -0.65, M, MEMORY),
    inch(  0.71,   1.19,    0.3,    1.6,    0.8,   -0.3,   -0.8, M, MEMORY),
    inch(  1.19,   1.97,    0.4,     2.,     1.,   -0.4,    -1., M, MEMORY),
    inch(  1.97,   3.15,    0.4,    2.3,    1.2,   -0.4,   -1.1, M, MEMORY),
    inch(  3.15,   4.73,    0.5,    2.8,    1.4,   -0.5,   -1.4, M, MEMORY),
    inch(  4.73,   7.09,    0.6,    3.2,    1.6,   -0.6,   -1.6, M, MEMORY),
    inch(  7.09,   9.85,    0.6,    3.6,    1.8,   -0.6,   -1.8, M, MEMORY),
    inch(  9.85,  12.41,    0.7,    3.9,     2.,   -0.7,   -1.9, M, MEMORY),
    inch( 12.41,  15.75,    0.7,    4.3,    2.2,   -0.7,   -2.1, M, MEMORY),
    inch( 15.75,  19.69,    0.8,    4.9,    2.5,   -0.8,   -2.4, M, MEMORY),
];

/// LC6: hole H9, shaft f8.
#[rustfmt::skip]
pub(crate) const LC6: &[InchRow] = &[
    inch(    0.,   0.12,    0.3,    1.9,     1.,   -0.3,   -0.9, O, WEB),
    inch(  0.12,   0.24,    0.4,    2.3,    1.2,   -0.4,   -1.1, O, WEB),
    inch(  0.24,    0.4,    0.5,    2.8,    1.4,   -0.5,   -1.4, O, WEB),
    inch(   0.4,   0.71,    0.6,    3.2,    1.6,   -0.6,   -1.6, O, WEB),
    inch(  0.71,   1.19,    0.8,     4.,     2.,   -0.8,    -2., O, WEB),
    inch(  1.19,   1.97,     1.,    5.1,    2.5,    -1.,   -2.6, O, WEB),
    inch(  1.97,   3.15,    1.2,     6.,     3.,   -1.2,    -3., M, MEMORY),
    inch(  3.15,   4.73,    1.4,    7.1,    3.5,   -1.4,   -3.6, M, MEMORY),
    inch(  4.73,   7.09,    1.6,    8.1,     4.,   -1.6,   -4.1, M, MEMORY),
    inch(  7.09,   9.85,     2.,    9.3,    4.5,    -2.,   -4.8, M, MEMORY),
    inch(  9.85,  12.41,    2.2,   10.2,     5.,   -2.2,   -5.2, M, MEMORY),
    inch( 12.41,  15.75,    2.5,    12.,     6.,   -2.5,    -6., M, MEMORY),
    inch( 15.75,  19.69,    2.8,   12.8,     6.,   -2.8,   -6.8, M, MEMORY),
];

/// LC7: hole H10, shaft e9.
#[rustfmt::skip]
pub(crate) const LC7: &[InchRow] = &[
    inch(    0.,   0.12,    0.6,    3.2,    1.6,   -0.6,   -1.6, O, WEB),
    inch(  0.12,   0.24,    0.8,    3.8,    1.8,   -0.8,    -2., O, WEB),
    inch(  0.24,    0.4,     1.,    4.6,    2.2,    -1.,   -2.4, O, WEB),
    inch(   0.4,   0.71,    1.2,    5.6,    2.8,   -1.2,   -2.8, O, WEB),
    inch(  0.71,   1.19,    1.6,    7.1,    3.5,   -1.6,   -3.6, O, WEB),
    inch(  1.19,   1.97,     2.,    8.5,     4.,    -2.,   -4.5, O, WEB),
    inch(  1.97,   3.15,    2.5,    10.,    4.5,   -2.5,   -5.5, M, MEMORY),
    inch(  3.15,   4.73,     3.,   11.5,     5.,    -3.,   -6.5, M, MEMORY),
    inch(  4.73,   7.09,    3.5,   13.5,     6.,   -3.5,   -7.5, M, MEMORY),
    inch(  7.09,   9.85,     4.,   15.5,     7.,    -4.,   -8.5, M, MEMORY),
    inch(  9.85,  12.41,    4.5,   17.5,     8.,   -4.5,   -9.5, M, MEMORY),
    inch( 12.41,  15.75,     5.,    20.,     9.,    -5.,   -11., M, MEMORY),
    inch( 15.75,  19.69,     5.,    21.,    10.,    -5.,   -11., M, MEMORY),
];

/// LC8: hole H10, shaft d9.
#[rustfmt::skip]
pub(crate) const LC8: &[InchRow] = &[
    inch(    0.,   0.12,     1.,    3.6,    1.6,    -1.,    -2., O, WEB),
    inch(  0.12,   0.24,    1.2,    4.2,    1.8,   -1.2,   -2.4, O, WEB),
    inch(  0.24,    0.4,    1.6,    5.2,    2.2,   -1.6,    -3., O, WEB),
    inch(   0.4,   0.71,     2.,    6.4,    2.8,    -2.,   -3.6, O, WEB),
    inch(  0.71,   1.19,    2.5,     8.,    3.5,   -2.5,   -4.5, O, WEB),
    inch(  1.19,   1.97,     3.,    9.5,     4.,    -3.,   -5.5, O, WEB), // only part of the row seen (the web reprint: hole); the rest follows from hole/shaft arithmetic
    inch(  1.97,   3.15,     4.,   11.5,    4.5,    -4.,    -7., M, MEMORY),
    inch(  3.15,   4.73,     5.,   13.5,     5.,    -5.,   -8.5, M, MEMORY),
    inch(  4.73,   7.09,     6.,    16.,     6.,    -6.,   -10., M, MEMORY),
    inch(  7.09,   9.85,     7.,   18.5,     7.,    -7.,  -11.5, M, MEMORY),
    inch(  9.85,  12.41,     7.,    20.,     8.,    -7.,   -12., M, MEMORY),
    inch( 12.41,  15.75,     8.,    23.,     9.,    -8.,   -14., M, MEMORY),
    inch( 15.75,  19.69,     9.,    25.,    10.,    -9.,   -15., M, MEMORY),
];

/// LC9: hole H11, shaft c10.
#[rustfmt::skip]
pub(crate) const LC9: &[InchRow] = &[
    inch(    0.,   0.12,    2.5,    6.6,    2.5,   -2.5,   -4.1, O, WEB),
    inch(  0.12,   0.24,    2.8,    7.6,     3.,   -2.8,   -4.6, O, WEB),
    inch(  0.24,    0.4,     3.,    8.7,    3.5,    -3.,   -5.2, O, WEB),
    inch(   0.4,   0.71,    3.5,   10.3,     4.,   -3.5,   -6.3, O, WEB),
    inch(  0.71,   1.19,    4.5,    13.,     5.,   -4.5,    -8., O, WEB),
    inch(  1.19,   1.97,     5.,    15.,     6.,    -5.,    -9., M, MEMORY),
    inch(  1.97,   3.15,     6.,   17.5,     7.,    -6.,  -10.5, M, MEMORY),
    inch(  3.15,   4.73,     7.,    21.,     9.,    -7.,   -12., M, MEMORY),
    inch(  4.73,   7.09,     8.,    24.,    10.,    -8.,   -14., M, MEMORY),
    inch(  7.09,   9.85,    10.,    29.,    12.,   -10.,   -17., M, MEMORY),
    inch(  9.85,  12.41,    12.,    32.,    12.,   -12.,   -20., M, MEMORY),
    inch( 12.41,  15.75,    14.,    37.,    14.,   -14.,   -23., M, MEMORY),
    inch( 15.75,  19.69,    16.,    42.,    16.,   -16.,   -26., M, MEMORY),
];

/// LC10: hole H12, shaft without an ISO symbol.
#[rustfmt::skip]
pub(crate) const LC10: &[InchRow] = &[
    inch(    0.,   0.12,     4.,    12.,     4.,    -4.,    -8., O, WEB),
    inch(  0.12,   0.24,    4.5,   14.5,     5.,   -4.5,   -9.5, O, WEB),
    inch(  0.24,    0.4,     5.,    17.,     6.,    -5.,   -11., O, WEB),
    inch(   0.4,   0.71,     6.,    20.,     7.,    -6.,   -13., O, WEB),
    inch(  0.71,   1.19,     7.,    23.,     8.,    -7.,   -15., O, WEB),
    inch(  1.19,   1.97,     8.,    28.,    10.,    -8.,   -18., M, MEMORY),
    inch(  1.97,   3.15,    10.,    34.,    12.,   -10.,   -22., M, MEMORY),
    inch(  3.15,   4.73,    11.,    39.,    14.,   -11.,   -25., M, MEMORY),
    inch(  4.73,   7.09,    12.,    44.,    16.,   -12.,   -28., M, MEMORY),
    inch(  7.09,   9.85,    16.,    52.,    18.,   -16.,   -34., M, MEMORY),
    inch(  9.85,  12.41,    20.,    60.,    20.,   -20.,   -40., M, MEMORY),
    inch( 12.41,  15.75,    22.,    66.,    22.,   -22.,   -44., M, MEMORY),
    inch( 15.75,  19.69,    25.,    75.,    25.,   -25.,   -50., M, MEMORY),
];

/// LC11: hole H13, shaft without an ISO symbol.
#[rustfmt::skip]
pub(crate) const LC11: &[InchRow] = &[
    inch(    0.,   0.12,     5.,    17.,     6.,    -5.,   -11., O, WEB),
    inch(  0.12,   0.24,     6.,    20.,     7.,    -6.,   -13., O, WEB),
    inch(  0.24,    0.4,     7.,    25.,     9.,    -7.,   -16., O, WEB),
    inch(   0.4,   0.71,     8.,    28.,    10.,    -8.,   -18., O, WEB),
    inch(  0.71,   1.19,    10.,    34.,    12.,   -10.,   -22., O, WEB),
    inch(  1.19,   1.97,    12.,    44.,    16.,   -12.,   -28., M, MEMORY),
    inch(  1.97,   3.15,    14.,    50.,    18.,   -14.,   -32., M, MEMORY),
    inch(  3.15,   4.73,    16.,    60.,    22.,   -16.,   -38., M, MEMORY),
    inch(  4.73,   7.09,    18.,    68.,    25.,   -18.,   -43., M, MEMORY),
    inch(  7.09,   9.85,    22.,    78.,    28.,   -22.,   -50., M, MEMORY),
    inch(  9.85,  12.41,    28.,    88.,    30.,   -28.,   -58., M, MEMORY),
    inch( 12.41,  15.75,    30.,   100.,    35.,   -30.,   -65., M, MEMORY),
    inch( 15.75,  19.69,    35.,   115.,    40.,   -35.,   -75., M, MEMORY),
];
