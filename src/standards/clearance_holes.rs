//! How large to drill so that a bolt goes through: ISO 273:1979 for metric, ASME B18.2.8 for inch.

use std::fmt;

use super::threads::{Thread, ThreadKind};
use crate::source::Cited;
use crate::source::Confirmed::{self, One as O, TwoOrMore as T};
use crate::units::Length;

/// How much room the bolt gets.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Series {
    /// ISO 273 fine (H12), inch close.
    Fine,
    /// ISO 273 medium (H13), inch normal.
    Medium,
    /// ISO 273 coarse (H14), inch loose.
    Coarse,
}

/// A row: thread diameter, three holes; mm for metric, inches for unified.
struct Hole {
    thread: f64,
    holes: [f64; 3],
    confirmed: Confirmed,
}

const fn hole(thread: f64, fine: f64, medium: f64, coarse: f64, confirmed: Confirmed) -> Hole {
    Hole { thread, holes: [fine, medium, coarse], confirmed }
}

const ISO_273: &str = "ISO 273:1979 (two reprints)";
const ISO_273_ONE: &str = "ISO 273:1979 (one reprint)";
const B18_2_8: &str = "ASME B18.2.8-1999 (two reprints)";

/// ISO 273:1979, mm: thread, fine, medium, coarse. T: two reprints agree, O: one.
#[rustfmt::skip]
const METRIC: &[Hole] = &[
    hole(  1.,   1.1,   1.2,   1.3, T),
    hole( 1.2,   1.3,   1.4,   1.5, T),
    hole( 1.4,   1.5,   1.6,   1.8, T),
    hole( 1.6,   1.7,   1.8,    2., T),
    hole( 1.8,    2.,   2.1,   2.2, T),
    hole(  2.,   2.2,   2.4,   2.6, T),
    hole( 2.5,   2.7,   2.9,   3.1, T),
    hole(  3.,   3.2,   3.4,   3.6, T),
    hole( 3.5,   3.7,   3.9,   4.2, T),
    hole(  4.,   4.3,   4.5,   4.8, T),
    hole( 4.5,   4.8,    5.,   5.3, O),
    hole(  5.,   5.3,   5.5,   5.8, T),
    hole(  6.,   6.4,   6.6,    7., T),
    hole(  7.,   7.4,   7.6,    8., T),
    hole(  8.,   8.4,    9.,   10., T),
    hole( 10.,  10.5,   11.,   12., T),
    hole( 12.,   13.,  13.5,  14.5, O), // another reprint gives 13/14/15
    hole( 14.,   15.,  15.5,  16.5, O), // another reprint gives 15/16/17
    hole( 16.,   17.,  17.5,  18.5, O), // another reprint gives 17/18/19
    hole( 18.,   19.,   20.,   21., T),
    hole( 20.,   21.,   22.,   24., T),
    hole( 22.,   23.,   24.,   26., T),
    hole( 24.,   25.,   26.,   28., T),
    hole( 27.,   28.,   30.,   32., T),
    hole( 30.,   31.,   33.,   35., T),
    hole( 33.,   34.,   36.,   38., T),
    hole( 36.,   37.,   39.,   42., T),
    hole( 39.,   40.,   42.,   45., T),
    hole( 42.,   43.,   45.,   48., T),
    hole( 45.,   46.,   48.,   52., T),
    hole( 48.,   50.,   52.,   56., T),
    hole( 52.,   54.,   56.,   62., T),
    hole( 56.,   58.,   62.,   66., T),
    hole( 60.,   62.,   66.,   70., T),
    hole( 64.,   66.,   70.,   74., T),
];

/// ASME B18.2.8, inches: thread diameter, close, normal, loose; the drill of each beside it.
#[rustfmt::skip]
const UNIFIED: &[Hole] = &[
    hole(   0.06,  0.067,  0.076, 0.0938, T), // #0: #51, #48, 3/32
    hole(  0.073,  0.081,  0.089,  0.104, T), // #1: #46, #43, #37
    hole(  0.086, 0.0938, 0.1015,  0.116, T), // #2: 3/32, #38, #32
    hole(  0.099, 0.1065,  0.116, 0.1285, T), // #3: #36, #32, #30
    hole(  0.112,   0.12, 0.1285,  0.144, T), // #4: #31, #30, #27
    hole(  0.125, 0.1406, 0.1562, 0.1719, T), // #5: 9/64, 5/32, 11/64
    hole(  0.138,  0.154, 0.1695,  0.185, T), // #6: #23, #18, #13
    hole(  0.164,   0.18,  0.196,  0.213, T), // #8: #15, #9, #3
    hole(   0.19, 0.2055,  0.221,  0.238, T), // #10: #5, #2, B
    hole(   0.25, 0.2656, 0.2812, 0.2969, T), // 1/4: 17/64, 9/32, 19/64
    hole( 0.3125, 0.3281, 0.3438, 0.3594, T), // 5/16: 21/64, 11/32, 23/64
    hole(  0.375, 0.3906, 0.4062, 0.4219, T), // 3/8: 25/64, 13/32, 27/64
    hole( 0.4375, 0.4531, 0.4688, 0.4844, T), // 7/16: 29/64, 15/32, 31/64
    hole(    0.5, 0.5312, 0.5625, 0.6094, T), // 1/2: 17/32, 9/16, 39/64
    hole(  0.625, 0.6562, 0.6875, 0.7344, T), // 5/8: 21/32, 11/16, 47/64
    hole(   0.75, 0.7812, 0.8125, 0.9062, T), // 3/4: 25/32, 13/16, 29/32
    hole(  0.875, 0.9062, 0.9375, 1.0312, T), // 7/8: 29/32, 15/16, 1 1/32
    hole(     1., 1.0312, 1.0938, 1.1562, T), // 1: 1 1/32, 1 3/32, 1 5/32
    hole(  1.125, 1.1562, 1.2188, 1.3125, T), // 1 1/8: 1 5/32, 1 7/32, 1 5/16
    hole(   1.25, 1.2812, 1.3438, 1.4375, T), // 1 1/4: 1 9/32, 1 11/32, 1 7/16
    hole(  1.375, 1.4375,    1.5, 1.6094, T), // 1 3/8: 1 7/16, 1 1/2, 1 39/64
    hole(    1.5, 1.5625,  1.625, 1.7344, T), // 1 1/2: 1 9/16, 1 5/8, 1 47/64
];

/// There is no clearance hole for the thread in the table.
#[derive(Clone, PartialEq, Debug)]
pub struct NoClearanceHole(pub Thread);

impl fmt::Display for NoClearanceHole {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0.kind {
            ThreadKind::Metric => write!(f, "ISO 273 has no clearance hole for {} (M1 to M64)", self.0),
            ThreadKind::Unified => write!(f, "ASME B18.2.8 has no clearance hole for {} (#0 to 1-1/2 in)", self.0),
        }
    }
}

impl std::error::Error for NoClearanceHole {}

/// Diameter of the clearance hole for a bolt. The pitch of the thread does not matter.
///
/// M12 medium: 13.5 mm. 3/8 normal: 13/32 in.
pub fn clearance_hole(thread: Thread, series: Series) -> Result<Cited<Length>, NoClearanceHole> {
    let (rows, size) = match thread.kind {
        ThreadKind::Metric => (METRIC, thread.major.as_mm()),
        ThreadKind::Unified => (UNIFIED, thread.major.as_inches()),
    };
    let row = rows.iter().find(|row| (row.thread - size).abs() < 1e-6).ok_or(NoClearanceHole(thread))?;
    let [fine, medium, coarse] = row.holes;
    let hole = match series {
        Series::Fine => fine,
        Series::Medium => medium,
        Series::Coarse => coarse,
    };
    let value = if thread.kind == ThreadKind::Metric { Length::mm(hole) } else { Length::inches(hole) };
    let source = match (thread.kind, row.confirmed) {
        (ThreadKind::Unified, _) => B18_2_8,
        (_, Confirmed::TwoOrMore) => ISO_273,
        _ => ISO_273_ONE,
    };
    Ok(Cited { value, confirmed: row.confirmed, source })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(thread: &str, series: Series) -> f64 {
        clearance_hole(Thread::parse(thread).unwrap(), series).unwrap().value.as_mm()
    }

    /// ISO 273:1979.
    #[test]
    fn metric_rows() {
        assert_eq!(mm("M12", Series::Medium), 13.5);
        assert_eq!(mm("M10x1.25", Series::Fine), 10.5);
        assert_eq!(mm("M20", Series::Coarse), 24.0);
    }

    /// ASME B18.2.8: 3/8 close 25/64, normal 13/32, loose 27/64, printed to four places.
    #[test]
    fn inch_rows() {
        for (series, drill) in
            [(Series::Fine, 25.0 / 64.0), (Series::Medium, 13.0 / 32.0), (Series::Coarse, 27.0 / 64.0)]
        {
            assert!((mm("3/8", series) / 25.4 - drill).abs() <= 0.00005001);
        }
    }

    #[test]
    fn larger_threads_and_wider_series_have_larger_holes() {
        for rows in [METRIC, UNIFIED] {
            assert!(rows.iter().all(|row| row.thread < row.holes[0] && row.holes.is_sorted()));
            assert!(rows.windows(2).all(|pair| pair[0].thread < pair[1].thread && pair[0].holes[0] < pair[1].holes[0]));
        }
    }

    #[test]
    fn a_thread_without_a_row_is_refused() {
        let thread = Thread::parse("M9").unwrap();
        let error = clearance_hole(thread, Series::Medium).unwrap_err();
        assert_eq!(error.to_string(), "ISO 273 has no clearance hole for M9 (M1 to M64)");
    }
}
