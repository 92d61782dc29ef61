//! Inch fits: locational transition fits LT1 to LT6, locational interference fits LN1 to LN3.
//!
//! ANSI/ASME B4.1-1967. Columns: size over, up to and including (in); least and greatest clearance (LN: interference) as
//! printed; hole upper deviation (lower is 0); shaft upper and lower deviation, all in thousandths of an inch.

use super::{HANDBOOK_31, InchRow, MEMORY, inch};
use crate::source::Confirmed::{Memory as M, One as O};

/// LT1: hole H7, shaft js6.
#[rustfmt::skip]
pub(crate) const LT1: &[InchRow] = &[
    inch(    0.,   0.12,  -0.12,   0.52,    0.4,   0.12,  -0.12, O, HANDBOOK_31), // js6 +-0.12 (rounded from 0.125)
    inch(  0.12,   0.24,  -0.15,   0.65,    0.5,   0.15,  -0.15, O, HANDBOOK_31),
    inch(  0.24,    0.4,   -0.2,    0.8,    0.6,    0.2,   -0.2, O, HANDBOOK_31),
    inch(   0.4,   0.71,   -0.2,    0.9,    0.7,    0.2,   -0.2, O, HANDBOOK_31),
    inch(  0.71,   1.19,  -0.25,   1.05,    0.8,   0.25,  -0.25, O, HANDBOOK_31),
    inch(  1.19,   1.97,   -0.3,    1.3,     1.,    0.3,   -0.3, O, HANDBOOK_31),
    inch(  1.97,   3.15,   -0.3,    1.5,    1.2,    0.3,   -0.3, O, HANDBOOK_31),
    inch(  3.15,   4.73,   -0.4,    1.8,    1.4,    0.4,   -0.4, M, MEMORY),
    inch(  4.73,   7.09,   -0.5,    2.1,    1.6,    0.5,   -0.5, M, MEMORY),
    inch(  7.09,   9.85,   -0.6,    2.4,    1.8,    0.6,   -0.6, M, MEMORY),
    inch(  9.85,  12.41,   -0.6,    2.6,     2.,    0.6,   -0.6, M, MEMORY),
    inch( 12.41,  15.75,   -0.7,    2.9,    2.2,    0.7,   -0.7, M, MEMORY),
    inch( 15.75,  19.69,   -0.8,    3.3,    2.5,    0.8,   -0.8, M, MEMORY),
];

/// LT2: hole H8, shaft js7.
#[rustfmt::skip]
pub(crate) const LT2: &[InchRow] = &[
    inch(    0.,   0.12,   -0.2,    0.8,    0.6,    0.2,   -0.2, O, HANDBOOK_31),
    inch(  0.12,   0.24,  -0.25,   0.95,    0.7,   0.25,  -0.25, O, HANDBOOK_31),
    inch(  0.24,    0.4,   -0.3,    1.2,    0.9,    0.3,   -0.3, O, HANDBOOK_31),
    inch(   0.4,   0.71,  -0.35,   1.35,     1.,   0.35,  -0.35, O, HANDBOOK_31),
    inch(  0.71,   1.19,   -0.4,    1.6,    1.2,    0.4,   -0.4, O, HANDBOOK_31),
    inch(  1.19,   1.97,   -0.5,    2.1,    1.6,    0.5,   -0.5, O, HANDBOOK_31),
    inch(  1.97,   3.15,   -0.6,    2.4,    1.8,    0.6,   -0.6, O, HANDBOOK_31),
    inch(  3.15,   4.73,   -0.7,    2.9,    2.2,    0.7,   -0.7, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: fit); the rest follows from hole/shaft arithmetic
    inch(  4.73,   7.09,   -0.8,    3.3,    2.5,    0.8,   -0.8, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: fit); the rest follows from hole/shaft arithmetic
    inch(  7.09,   9.85,   -0.9,    3.7,    2.8,    0.9,   -0.9, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: fit); the rest follows from hole/shaft arithmetic
    inch(  9.85,  12.41,    -1.,     4.,     3.,     1.,    -1., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: fit); the rest follows from hole/shaft arithmetic
    inch( 12.41,  15.75,    -1.,    4.5,    3.5,     1.,    -1., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: fit); the rest follows from hole/shaft arithmetic
    inch( 15.75,  19.69,   -1.2,    5.2,     4.,    1.2,   -1.2, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: fit); the rest follows from hole/shaft arithmetic
];

/// LT3: hole H7, shaft k6.
#[rustfmt::skip]
pub(crate) const LT3: &[InchRow] = &[
    inch(  0.24,    0.4,   -0.5,    0.5,    0.6,    0.5,    0.1, O, HANDBOOK_31),
    inch(   0.4,   0.71,   -0.5,    0.6,    0.7,    0.5,    0.1, O, HANDBOOK_31),
    inch(  0.71,   1.19,   -0.6,    0.7,    0.8,    0.6,    0.1, O, HANDBOOK_31),
    inch(  1.19,   1.97,   -0.7,    0.9,     1.,    0.7,    0.1, O, HANDBOOK_31),
    inch(  1.97,   3.15,   -0.8,    1.1,    1.2,    0.8,    0.1, O, HANDBOOK_31),
    inch(  3.15,   4.73,    -1.,    1.3,    1.4,     1.,    0.1, M, MEMORY),
    inch(  4.73,   7.09,   -1.1,    1.5,    1.6,    1.1,    0.1, M, MEMORY),
    inch(  7.09,   9.85,   -1.4,    1.6,    1.8,    1.4,    0.2, M, MEMORY),
    inch(  9.85,  12.41,   -1.4,    1.8,     2.,    1.4,    0.2, M, MEMORY),
    inch( 12.41,  15.75,   -1.6,     2.,    2.2,    1.6,    0.2, M, MEMORY),
    inch( 15.75,  19.69,   -1.8,    2.3,    2.5,    1.8,    0.2, M, MEMORY),
];

/// LT4: hole H8, shaft k7.
#[rustfmt::skip]
pub(crate) const LT4: &[InchRow] = &[
    inch(  0.24,    0.4,   -0.7,    0.8,    0.9,    0.7,    0.1, O, HANDBOOK_31),
    inch(   0.4,   0.71,   -0.8,    0.9,     1.,    0.8,    0.1, O, HANDBOOK_31),
    inch(  0.71,   1.19,   -0.9,    1.1,    1.2,    0.9,    0.1, O, HANDBOOK_31),
    inch(  1.19,   1.97,   -1.1,    1.5,    1.6,    1.1,    0.1, O, HANDBOOK_31),
    inch(  1.97,   3.15,   -1.3,    1.7,    1.8,    1.3,    0.1, O, HANDBOOK_31),
    inch(  3.15,   4.73,   -1.5,    2.1,    2.2,    1.5,    0.1, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch(  4.73,   7.09,   -1.7,    2.4,    2.5,    1.7,    0.1, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch(  7.09,   9.85,    -2.,    2.6,    2.8,     2.,    0.2, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch(  9.85,  12.41,   -2.2,    2.8,     3.,    2.2,    0.2, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch( 12.41,  15.75,   -2.4,    3.3,    3.5,    2.4,    0.2, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
    inch( 15.75,  19.69,   -2.7,    3.8,     4.,    2.7,    0.2, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: shaft); the rest follows from hole/shaft arithmetic
];

/// LT5: hole H7, shaft n6.
#[rustfmt::skip]
pub(crate) const LT5: &[InchRow] = &[
    inch(    0.,   0.12,   -0.5,   0.15,    0.4,    0.5,   0.25, O, HANDBOOK_31),
    inch(  0.12,   0.24,   -0.6,    0.2,    0.5,    0.6,    0.3, O, HANDBOOK_31),
    inch(  0.24,    0.4,   -0.8,    0.2,    0.6,    0.8,    0.4, O, HANDBOOK_31),
    inch(   0.4,   0.71,   -0.9,    0.2,    0.7,    0.9,    0.5, O, HANDBOOK_31),
    inch(  0.71,   1.19,   -1.1,    0.2,    0.8,    1.1,    0.6, O, HANDBOOK_31),
    inch(  1.19,   1.97,   -1.3,    0.3,     1.,    1.3,    0.7, O, HANDBOOK_31),
    inch(  1.97,   3.15,   -1.5,    0.4,    1.2,    1.5,    0.8, O, HANDBOOK_31),
    inch(  3.15,   4.73,   -1.9,    0.4,    1.4,    1.9,     1., O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: fit); the rest follows from hole/shaft arithmetic
    inch(  4.73,   7.09,   -2.2,    0.4,    1.6,    2.2,    1.2, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: fit); the rest follows from hole/shaft arithmetic
    inch(  7.09,   9.85,   -2.6,    0.4,    1.8,    2.6,    1.4, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: fit); the rest follows from hole/shaft arithmetic
    inch(  9.85,  12.41,   -2.6,    0.6,     2.,    2.6,    1.4, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: fit); the rest follows from hole/shaft arithmetic
    inch( 12.41,  15.75,    -3.,    0.6,    2.2,     3.,    1.6, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: fit); the rest follows from hole/shaft arithmetic
    inch( 15.75,  19.69,   -3.4,    0.7,    2.5,    3.4,    1.8, O, HANDBOOK_31), // only part of the row seen (the handbook, 31st ed.: fit); the rest follows from hole/shaft arithmetic
];

/// LT6: hole H7, shaft n7.
#[rustfmt::skip]
pub(crate) const LT6: &[InchRow] = &[
    inch(    0.,   0.12,  -0.65,   0.15,    0.4,   0.65,   0.25, O, HANDBOOK_31),
    inch(  0.12,   0.24,   -0.8,    0.2,    0.5,    0.8,    0.3, O, HANDBOOK_31),
    inch(  0.24,    0.4,    -1.,    0.2,    0.6,     1.,    0.4, O, HANDBOOK_31),
    inch(   0.4,   0.71,   -1.2,    0.2,    0.7,    1.2,    0.5, O, HANDBOOK_31),
    inch(  0.71,   1.19,   -1.4,    0.2,    0.8,    1.4,    0.6, O, HANDBOOK_31),
    inch(  1.19,   1.97,   -1.7,    0.3,     1.,    1.7,    0.7, O, HANDBOOK_31),
    inch(  1.97,   3.15,    -2.,    0.4,    1.2,     2.,    0.8, O, HANDBOOK_31),
    inch(  3.15,   4.73,   -2.4,    0.4,    1.4,    2.4,     1., M, MEMORY),
    inch(  4.73,   7.09,   -2.8,    0.4,    1.6,    2.8,    1.2, M, MEMORY),
    inch(  7.09,   9.85,   -3.2,    0.4,    1.8,    3.2,    1.4, M, MEMORY),
    inch(  9.85,  12.41,   -3.4,    0.6,     2.,    3.4,    1.4, M, MEMORY),
    inch( 12.41,  15.75,   -3.8,    0.6,    2.2,    3.8,    1.6, M, MEMORY),
    inch( 15.75,  19.69,   -4.3,    0.7,    2.5,    4.3,    1.8, M, MEMORY),
];

/// LN1: hole H6, shaft n5.
#[rustfmt::skip]
pub(crate) const LN1: &[InchRow] = &[
    inch(    0.,   0.12,     0.,   0.45,   0.25,   0.45,   0.25, O, HANDBOOK_31),
    inch(  0.12,   0.24,     0.,    0.5,    0.3,    0.5,    0.3, O, HANDBOOK_31),
    inch(  0.24,    0.4,     0.,   0.65,    0.4,   0.65,    0.4, O, HANDBOOK_31),
    inch(   0.4,   0.71,     0.,    0.8,    0.4,    0.8,    0.4, O, HANDBOOK_31),
    inch(  0.71,   1.19,     0.,     1.,    0.5,     1.,    0.5, O, HANDBOOK_31),
    inch(  1.19,   1.97,     0.,    1.1,    0.6,    1.1,    0.6, O, HANDBOOK_31),
    inch(  1.97,   3.15,    0.1,    1.3,    0.7,    1.3,    0.8, O, HANDBOOK_31),
    inch(  3.15,   4.73,    0.1,    1.6,    0.9,    1.6,     1., O, HANDBOOK_31),
    inch(  4.73,   7.09,    0.2,    1.9,     1.,    1.9,    1.2, O, HANDBOOK_31),
    inch(  7.09,   9.85,    0.2,    2.2,    1.2,    2.2,    1.4, O, HANDBOOK_31),
    inch(  9.85,  12.41,    0.2,    2.3,    1.2,    2.3,    1.4, O, HANDBOOK_31),
    inch( 12.41,  15.75,    0.2,    2.6,    1.4,    2.6,    1.6, O, HANDBOOK_31),
    inch( 15.75,  19.69,    0.2,    2.8,    1.6,    2.8,    1.8, O, HANDBOOK_31),
];

/// LN2: hole H7, shaft p6.
#[rustfmt::skip]
pub(crate) const LN2: &[InchRow] = &[
    inch(    0.,   0.12,     0.,   0.65,    0.4,   0.65,    0.4, O, HANDBOOK_31),
    inch(  0.12,   0.24,     0.,    0.8,    0.5,    0.8,    0.5, O, HANDBOOK_31),
    inch(  0.24,    0.4,     0.,     1.,    0.6,     1.,    0.6, O, HANDBOOK_31),
    inch(   0.4,   0.71,     0.,    1.1,    0.7,    1.1,    0.7, O, HANDBOOK_31),
    inch(  0.71,   1.19,     0.,    1.3,    0.8,    1.3,    0.8, O, HANDBOOK_31),
    inch(  1.19,   1.97,     0.,    1.6,     1.,    1.6,     1., O, HANDBOOK_31),
    inch(  1.97,   3.15,    0.2,    2.1,    1.2,    2.1,    1.4, O, HANDBOOK_31),
    inch(  3.15,   4.73,    0.2,    2.5,    1.4,    2.5,    1.6, O, HANDBOOK_31),
    inch(  4.73,   7.09,    0.2,    2.8,    1.6,    2.8,    1.8, O, HANDBOOK_31),
    inch(  7.09,   9.85,    0.2,    3.2,    1.8,    3.2,     2., O, HANDBOOK_31),
    inch(  9.85,  12.41,    0.2,    3.4,     2.,    3.4,    2.2, O, HANDBOOK_31),
    inch( 12.41,  15.75,    0.3,    3.9,    2.2,    3.9,    2.5, O, HANDBOOK_31),
    inch( 15.75,  19.69,    0.3,    4.4,    2.5,    4.4,    2.8, O, HANDBOOK_31),
];

/// LN3: hole H7, shaft r6.
#[rustfmt::skip]
pub(crate) const LN3: &[InchRow] = &[
    inch(    0.,   0.12,    0.1,   0.75,    0.4,   0.75,    0.5, O, HANDBOOK_31),
    inch(  0.12,   0.24,    0.1,    0.9,    0.5,    0.9,    0.6, O, HANDBOOK_31),
    inch(  0.24,    0.4,    0.2,    1.2,    0.6,    1.2,    0.8, O, HANDBOOK_31),
    inch(   0.4,   0.71,    0.3,    1.4,    0.7,    1.4,     1., O, HANDBOOK_31),
    inch(  0.71,   1.19,    0.4,    1.7,    0.8,    1.7,    1.2, O, HANDBOOK_31),
    inch(  1.19,   1.97,    0.4,     2.,     1.,     2.,    1.4, O, HANDBOOK_31),
    inch(  1.97,   3.15,    0.4,    2.3,    1.2,    2.3,    1.6, O, HANDBOOK_31),
    inch(  3.15,   4.73,    0.6,    2.9,    1.4,    2.9,     2., O, HANDBOOK_31),
    inch(  4.73,   7.09,    0.9,    3.5,    1.6,    3.5,    2.5, O, HANDBOOK_31),
    inch(  7.09,   9.85,    1.2,    4.2,    1.8,    4.2,     3., O, HANDBOOK_31),
    inch(  9.85,  12.41,    1.5,    4.7,     2.,    4.7,    3.5, O, HANDBOOK_31),
    inch( 12.41,  15.75,    2.3,    5.9,    2.2,    5.9,    4.5, O, HANDBOOK_31),
    inch( 15.75,  19.69,    2.5,    6.6,    2.5,    6.6,     5., O, HANDBOOK_31),
];
