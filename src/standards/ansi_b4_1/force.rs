//! Inch fits: force and shrink fits FN1 to FN5.
//!
//! ANSI/ASME B4.1-1967. Columns: size over, up to and including (in); least and greatest interference as
//! printed; hole upper deviation (lower is 0); shaft upper and lower deviation, all in thousandths of an inch.

use super::{HANDBOOK_27, HANDBOOK_31, InchRow, MEMORY, inch};
use crate::source::Confirmed::{Memory as M, One as O};

/// FN1: hole H6, shaft without an ISO symbol.
#[rustfmt::skip]
pub(crate) const FN1: &[InchRow] = &[
    inch(    0.,   0.12,   0.05,    0.5,   0.25,    0.5,    0.3, O, HANDBOOK_27),
    inch(  0.12,   0.24,    0.1,    0.6,    0.3,    0.6,    0.4, O, HANDBOOK_27),
    inch(  0.24,    0.4,    0.1,   0.75,    0.4,   0.75,    0.5, O, HANDBOOK_27),
    inch(   0.4,   0.56,    0.1,    0.8,    0.4,    0.8,    0.5, O, HANDBOOK_27),
    inch(  0.56,   0.71,    0.2,    0.9,    0.4,    0.9,    0.6, O, HANDBOOK_27),
    inch(  0.71,   0.95,    0.2,    1.1,    0.5,    1.1,    0.7, O, HANDBOOK_27),
    inch(  0.95,   1.19,    0.3,    1.2,    0.5,    1.2,    0.8, O, HANDBOOK_27),
    inch(  1.19,   1.58,    0.3,    1.3,    0.6,    1.3,    0.9, O, HANDBOOK_27),
    inch(  1.58,   1.97,    0.4,    1.4,    0.6,    1.4,     1., O, HANDBOOK_27),
    inch(  1.97,   2.56,    0.6,    1.8,    0.7,    1.8,    1.3, O, HANDBOOK_27),
    inch(  2.56,   3.15,    0.7,    1.9,    0.7,    1.9,    1.4, O, HANDBOOK_27),
    inch(  3.15,   3.94,    0.9,    2.4,    0.9,    2.4,    1.8, O, HANDBOOK_27),
    inch(  3.94,   4.73,    1.1,    2.6,    0.9,    2.6,     2., M, MEMORY),
    inch(  4.73,   5.52,    1.2,    2.9,     1.,    2.9,    2.2, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: fit); the rest follows from hole/shaft arithmetic
    inch(  5.52,    6.3,    1.5,    3.2,     1.,    3.2,    2.5, O, HANDBOOK_31),
    inch(   6.3,   7.09,    1.8,    3.5,     1.,    3.5,    2.8, O, HANDBOOK_31),
    inch(  7.09,   7.88,    1.8,    3.8,    1.2,    3.8,     3., O, HANDBOOK_31),
    inch(  7.88,   8.86,    2.3,    4.3,    1.2,    4.3,    3.5, O, HANDBOOK_31),
    inch(  8.86,   9.85,    2.3,    4.3,    1.2,    4.3,    3.5, O, HANDBOOK_31),
    inch(  9.85,  11.03,    2.8,    4.9,    1.2,    4.9,     4., O, HANDBOOK_31),
    inch( 11.03,  12.41,    2.8,    4.9,    1.2,    4.9,     4., O, HANDBOOK_31),
    inch( 12.41,  13.98,    3.1,    5.5,    1.4,    5.5,    4.5, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch( 13.98,  15.75,    3.6,    6.1,    1.4,    6.1,     5., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch( 15.75,  17.72,    4.4,     7.,    1.6,     7.,     6., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch( 17.72,  19.69,    4.4,     7.,    1.6,     7.,     6., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
];

/// FN2: hole H7, shaft s6.
#[rustfmt::skip]
pub(crate) const FN2: &[InchRow] = &[
    inch(    0.,   0.12,    0.2,   0.85,    0.4,   0.85,    0.6, O, HANDBOOK_27),
    inch(  0.12,   0.24,    0.2,     1.,    0.5,     1.,    0.7, O, HANDBOOK_27),
    inch(  0.24,    0.4,    0.4,    1.4,    0.6,    1.4,     1., O, HANDBOOK_27),
    inch(   0.4,   0.56,    0.5,    1.6,    0.7,    1.6,    1.2, O, HANDBOOK_27),
    inch(  0.56,   0.71,    0.5,    1.6,    0.7,    1.6,    1.2, O, HANDBOOK_27),
    inch(  0.71,   0.95,    0.6,    1.9,    0.8,    1.9,    1.4, O, HANDBOOK_27),
    inch(  0.95,   1.19,    0.6,    1.9,    0.8,    1.9,    1.4, O, HANDBOOK_27),
    inch(  1.19,   1.58,    0.8,    2.4,     1.,    2.4,    1.8, O, HANDBOOK_27),
    inch(  1.58,   1.97,    0.8,    2.4,     1.,    2.4,    1.8, O, HANDBOOK_27),
    inch(  1.97,   2.56,    0.8,    2.7,    1.2,    2.7,     2., O, HANDBOOK_27),
    inch(  2.56,   3.15,     1.,    2.9,    1.2,    2.9,    2.2, O, HANDBOOK_27),
    inch(  3.15,   3.94,    1.4,    3.7,    1.4,    3.7,    2.8, O, HANDBOOK_27), // only part of the row seen (the handbook, 27th ed.: fit+hole); the rest follows from hole/shaft arithmetic
    inch(  3.94,   4.73,    1.6,    3.9,    1.4,    3.9,     3., M, MEMORY),
    inch(  4.73,   5.52,    1.9,    4.5,    1.6,    4.5,    3.5, O, HANDBOOK_31),
    inch(  5.52,    6.3,    2.4,     5.,    1.6,     5.,     4., O, HANDBOOK_31),
    inch(   6.3,   7.09,    2.9,    5.5,    1.6,    5.5,    4.5, O, HANDBOOK_31),
    inch(  7.09,   7.88,    3.2,    6.2,    1.8,    6.2,     5., O, HANDBOOK_31),
    inch(  7.88,   8.86,    3.2,    6.2,    1.8,    6.2,     5., O, HANDBOOK_31),
    inch(  8.86,   9.85,    4.2,    7.2,    1.8,    7.2,     6., O, HANDBOOK_31),
    inch(  9.85,  11.03,     4.,    7.2,     2.,    7.2,     6., O, HANDBOOK_31),
    inch( 11.03,  12.41,     5.,    8.2,     2.,    8.2,     7., O, HANDBOOK_31),
    inch( 12.41,  13.98,    5.8,    9.4,    2.2,    9.4,     8., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch( 13.98,  15.75,    5.8,    9.4,    2.2,    9.4,     8., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch( 15.75,  17.72,    6.5,   10.6,    2.5,   10.6,     9., M, MEMORY),
    inch( 17.72,  19.69,    7.5,   11.6,    2.5,   11.6,    10., M, MEMORY),
];

/// FN3: hole H7, shaft t6.
#[rustfmt::skip]
pub(crate) const FN3: &[InchRow] = &[
    inch(  0.95,   1.19,    0.8,    2.1,    0.8,    2.1,    1.6, O, HANDBOOK_27),
    inch(  1.19,   1.58,     1.,    2.6,     1.,    2.6,     2., O, HANDBOOK_27),
    inch(  1.58,   1.97,    1.2,    2.8,     1.,    2.8,    2.2, O, HANDBOOK_27),
    inch(  1.97,   2.56,    1.3,    3.2,    1.2,    3.2,    2.5, O, HANDBOOK_27),
    inch(  2.56,   3.15,    1.8,    3.7,    1.2,    3.7,     3., O, HANDBOOK_27),
    inch(  3.15,   3.94,    2.1,    4.4,    1.4,    4.4,    3.5, O, HANDBOOK_27), // only part of the row seen (the handbook, 27th ed.: fit); the rest follows from hole/shaft arithmetic
    inch(  3.94,   4.73,    2.6,    4.9,    1.4,    4.9,     4., M, MEMORY),
    inch(  4.73,   5.52,    3.4,     6.,    1.6,     6.,     5., O, HANDBOOK_31),
    inch(  5.52,    6.3,    3.4,     6.,    1.6,     6.,     5., O, HANDBOOK_31),
    inch(   6.3,   7.09,    4.4,     7.,    1.6,     7.,     6., O, HANDBOOK_31),
    inch(  7.09,   7.88,    5.2,    8.2,    1.8,    8.2,     7., O, HANDBOOK_31),
    inch(  7.88,   8.86,    5.2,    8.2,    1.8,    8.2,     7., O, HANDBOOK_31),
    inch(  8.86,   9.85,    6.2,    9.2,    1.8,    9.2,     8., O, HANDBOOK_31),
    inch(  9.85,  11.03,     7.,   10.2,     2.,   10.2,     9., O, HANDBOOK_31),
    inch( 11.03,  12.41,     7.,   10.2,     2.,   10.2,     9., O, HANDBOOK_31),
    inch( 12.41,  13.98,    7.8,   11.4,    2.2,   11.4,    10., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch( 13.98,  15.75,    9.8,   13.4,    2.2,   13.4,    12., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch( 15.75,  17.72,    9.5,   13.6,    2.5,   13.6,    12., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch( 17.72,  19.69,   11.5,   15.6,    2.5,   15.6,    14., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
];

/// FN4: hole H7, shaft u6.
#[rustfmt::skip]
pub(crate) const FN4: &[InchRow] = &[
    inch(    0.,   0.12,    0.3,   0.95,    0.4,   0.95,    0.7, O, HANDBOOK_27),
    inch(  0.12,   0.24,    0.4,    1.2,    0.5,    1.2,    0.9, O, HANDBOOK_27),
    inch(  0.24,    0.4,    0.6,    1.6,    0.6,    1.6,    1.2, O, HANDBOOK_27),
    inch(   0.4,   0.56,    0.7,    1.8,    0.7,    1.8,    1.4, O, HANDBOOK_27),
    inch(  0.56,   0.71,    0.7,    1.8,    0.7,    1.8,    1.4, O, HANDBOOK_27),
    inch(  0.71,   0.95,    0.8,    2.1,    0.8,    2.1,    1.6, O, HANDBOOK_27),
    inch(  0.95,   1.19,     1.,    2.3,    0.8,    2.3,    1.8, O, HANDBOOK_27),
    inch(  1.19,   1.58,    1.5,    3.1,     1.,    3.1,    2.5, O, HANDBOOK_27),
    inch(  1.58,   1.97,    1.8,    3.4,     1.,    3.4,    2.8, O, HANDBOOK_27),
    inch(  1.97,   2.56,    2.3,    4.2,    1.2,    4.2,    3.5, O, HANDBOOK_27),
    inch(  2.56,   3.15,    2.8,    4.7,    1.2,    4.7,     4., O, HANDBOOK_27),
    inch(  3.15,   3.94,    3.6,    5.9,    1.4,    5.9,     5., O, HANDBOOK_27), // only part of the row seen (the handbook, 27th ed.: fit); the rest follows from hole/shaft arithmetic
    inch(  3.94,   4.73,    4.6,    6.9,    1.4,    6.9,     6., M, MEMORY),
    inch(  4.73,   5.52,    5.4,     8.,    1.6,     8.,     7., O, HANDBOOK_31),
    inch(  5.52,    6.3,    5.4,     8.,    1.6,     8.,     7., O, HANDBOOK_31),
    inch(   6.3,   7.09,    6.4,     9.,    1.6,     9.,     8., O, HANDBOOK_31),
    inch(  7.09,   7.88,    7.2,   10.2,    1.8,   10.2,     9., O, HANDBOOK_31),
    inch(  7.88,   8.86,    8.2,   11.2,    1.8,   11.2,    10., O, HANDBOOK_31),
    inch(  8.86,   9.85,   10.2,   13.2,    1.8,   13.2,    12., O, HANDBOOK_31),
    inch(  9.85,  11.03,    10.,   13.2,     2.,   13.2,    12., O, HANDBOOK_31),
    inch( 11.03,  12.41,    12.,   15.2,     2.,   15.2,    14., O, HANDBOOK_31),
    inch( 12.41,  13.98,   13.8,   17.4,    2.2,   17.4,    16., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch( 13.98,  15.75,   15.8,   19.4,    2.2,   19.4,    18., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch( 15.75,  17.72,   17.5,   21.6,    2.5,   21.6,    20., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch( 17.72,  19.69,   19.5,   23.6,    2.5,   23.6,    22., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
];

/// FN5: hole H8, shaft x7.
#[rustfmt::skip]
pub(crate) const FN5: &[InchRow] = &[
    inch(    0.,   0.12,    0.3,    1.3,    0.6,    1.3,    0.9, O, HANDBOOK_27),
    inch(  0.12,   0.24,    0.5,    1.7,    0.7,    1.7,    1.2, O, HANDBOOK_27),
    inch(  0.24,    0.4,    0.5,     2.,    0.9,     2.,    1.4, O, HANDBOOK_27),
    inch(   0.4,   0.56,    0.6,    2.3,     1.,    2.3,    1.6, O, HANDBOOK_27),
    inch(  0.56,   0.71,    0.8,    2.5,     1.,    2.5,    1.8, O, HANDBOOK_27),
    inch(  0.71,   0.95,     1.,     3.,    1.2,     3.,    2.2, O, HANDBOOK_27),
    inch(  0.95,   1.19,    1.3,    3.3,    1.2,    3.3,    2.5, O, HANDBOOK_27),
    inch(  1.19,   1.58,    1.4,     4.,    1.6,     4.,     3., O, HANDBOOK_27),
    inch(  1.58,   1.97,    2.4,     5.,    1.6,     5.,     4., O, HANDBOOK_27),
    inch(  1.97,   2.56,    3.2,    6.2,    1.8,    6.2,     5., O, HANDBOOK_27),
    inch(  2.56,   3.15,    4.2,    7.2,    1.8,    7.2,     6., O, HANDBOOK_27),
    inch(  3.15,   3.94,    4.8,    8.4,    2.2,    8.4,     7., O, HANDBOOK_27), // only part of the row seen (the handbook, 27th ed.: fit+hole); the rest follows from hole/shaft arithmetic
    inch(  3.94,   4.73,    5.8,    9.4,    2.2,    9.4,     8., M, MEMORY),
    inch(  4.73,   5.52,    7.5,   11.6,    2.5,   11.6,    10., O, HANDBOOK_31),
    inch(  5.52,    6.3,    9.5,   13.6,    2.5,   13.6,    12., O, HANDBOOK_31),
    inch(   6.3,   7.09,    9.5,   13.6,    2.5,   13.6,    12., O, HANDBOOK_31),
    inch(  7.09,   7.88,   11.2,   15.8,    2.8,   15.8,    14., O, HANDBOOK_31),
    inch(  7.88,   8.86,   13.2,   17.8,    2.8,   17.8,    16., O, HANDBOOK_31),
    inch(  8.86,   9.85,   13.2,   17.8,    2.8,   17.8,    16., O, HANDBOOK_31),
    inch(  9.85,  11.03,    15.,    20.,     3.,    20.,    18., O, HANDBOOK_31),
    inch( 11.03,  12.41,    17.,    22.,     3.,    22.,    20., O, HANDBOOK_31),
    inch( 12.41,  13.98,   18.5,   24.2,    3.5,   24.2,    22., O, HANDBOOK_31),
    inch( 13.98,  15.75,   21.5,   27.2,    3.5,   27.2,    25., O, HANDBOOK_31),
    inch( 15.75,  17.72,    24.,   30.5,     4.,   30.5,    28., O, HANDBOOK_31),
    inch( 17.72,  19.69,    26.,   32.5,     4.,   32.5,    30., O, HANDBOOK_31),
];
