//! A chain put together a million times with sizes drawn at random.
//!
//! Draws are counted into fine cells and never stored: percentiles come from the cells, good to a small part of a
//! cell width (1/8192 of the whole spread), far below the sampling error. Same seed, same result, whatever the threads.

use rayon::prelude::*;

use super::draws::{LANES, Lanes, Row};
use super::normal::NormalTable;
use super::wide::wide;
use super::{Chain, Distribution, Member, Size, check_limits};
use crate::formulas::{MechanicsError, Range};
use crate::units::Length;

/// Most trials in one run.
pub const MOST_TRIALS: u32 = 1_000_000_000;
/// Trials of one block, which has its own generators.
const BLOCK: u64 = 1 << 15;
/// Rows of lanes worked at a time; small enough to stay next to the processor.
const ROWS: usize = 64;
const CELLS: usize = 8192;
/// Standard deviations counted on each side; beyond lies less than 1e-16 of a normal member.
const NORMAL_REACH: f64 = 8.5;

/// How often, and which sequence.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Trials {
    /// Seed; the same seed gives the same result.
    pub seed: u64,
    /// Number of assemblies drawn.
    pub count: u32,
}

impl Default for Trials {
    /// A million, seed 1.
    fn default() -> Self {
        Self { seed: 1, count: 1_000_000 }
    }
}

/// One bar of a histogram.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Bin {
    /// Lower end.
    pub from: Length,
    /// Upper end.
    pub to: Length,
    /// Draws in it.
    pub count: u64,
}

/// What came out.
#[derive(Clone, PartialEq, Debug)]
pub struct Simulated {
    /// Draws made.
    pub count: u64,
    /// Mean float.
    pub mean: Length,
    /// Standard deviation of the float.
    pub standard_deviation: Length,
    /// Smallest float drawn.
    pub smallest: Length,
    /// Largest float drawn.
    pub largest: Length,
    /// Share of draws below the lower limit.
    pub share_below: f64,
    /// Share of draws above the upper limit.
    pub share_above: f64,
    /// Where cell 0 begins, mm.
    start: f64,
    /// Width of a cell, mm.
    cell: f64,
    counts: Vec<u64>,
}

/// How a member is drawn, worked out once.
#[derive(Clone, Copy)]
enum Draw {
    Fixed,
    Uniform(f64),
    Triangular(f64),
    Normal(f64),
}

impl Draw {
    fn of(member: &Member) -> Self {
        let half = member.half_width().as_mm();
        match member.size {
            _ if half == 0.0 => Self::Fixed,
            Size::Toleranced { distribution: Distribution::Uniform, .. } => Self::Uniform(half),
            Size::Toleranced { distribution: Distribution::Triangular, .. } => Self::Triangular(half),
            _ => Self::Normal(member.standard_deviation().as_mm()),
        }
    }

    /// How far from its middle it is counted.
    fn reach(self) -> f64 {
        match self {
            Self::Fixed => 0.0,
            Self::Uniform(half) | Self::Triangular(half) => half,
            Self::Normal(deviation) => NORMAL_REACH * deviation,
        }
    }
}

/// The work order of every block. Floats are taken from the chain's middle, in mm.
struct Plan {
    draws: Vec<Draw>,
    reach: f64,
    lower: f64,
    upper: f64,
    trials: Trials,
}

/// The count of one block.
struct Tally {
    sum: f64,
    squares: f64,
    smallest: f64,
    largest: f64,
    below: u64,
    above: u64,
    counts: Vec<u32>,
}

/// Draws the chain's float `trials.count` times; shares are those outside `limits`.
///
/// Members are independent. Normal members have their limits at ±3 standard deviations and are not cut off there.
pub fn simulate(chain: &Chain, limits: Range<Length>, trials: Trials) -> Result<Simulated, MechanicsError> {
    check_limits(limits)?;
    if trials.count == 0 || trials.count > MOST_TRIALS {
        return Err(MechanicsError::OutOfRange { what: "the number of trials", range: "1 to 1000 million" });
    }
    let middle = chain.middle();
    let draws: Vec<Draw> = chain.members().iter().map(Draw::of).collect();
    // A chain in which nothing varies still gets cells of some width.
    let reach = draws.iter().map(|d| d.reach()).sum::<f64>().max(1e-9);
    let plan =
        Plan { draws, reach, lower: (limits.min - middle).as_mm(), upper: (limits.max - middle).as_mm(), trials };
    let blocks = u64::from(trials.count).div_ceil(BLOCK);
    let tallies: Vec<Tally> = (0..blocks).into_par_iter().map(|block| plan.block(block)).collect();
    Ok(plan.gather(middle, &tallies))
}

impl Plan {
    /// Draws of one block; only the last one is shorter.
    fn block(&self, block: u64) -> Tally {
        let mut lanes = Lanes::new(self.trials.seed, block);
        let mut left = (u64::from(self.trials.count) - block * BLOCK).min(BLOCK) as usize;
        let mut tally = Tally::new();
        let mut sums = [[0.0; LANES]; ROWS];
        while left > 0 {
            self.fill(&mut lanes, &mut sums);
            let take = left.min(ROWS * LANES);
            if take == ROWS * LANES {
                self.count(&mut tally, &sums)
            } else {
                self.count_some(&mut tally, &sums, take)
            }
            left -= take;
        }
        tally
    }

    fn fill(&self, lanes: &mut Lanes, sums: &mut [Row; ROWS]) {
        *sums = [[0.0; LANES]; ROWS];
        for draw in &self.draws {
            match *draw {
                Draw::Fixed => {}
                Draw::Uniform(half) => lanes.add_uniform(sums, half),
                Draw::Triangular(half) => lanes.add_triangular(sums, half),
                Draw::Normal(deviation) => lanes.add_normal(sums, deviation, NormalTable::get()),
            }
        }
    }

    fn count(&self, tally: &mut Tally, sums: &[Row]) {
        tally.moments(sums, self.lower, self.upper);
        tally.cells(sums, self.reach);
    }

    /// The rest of a block: `take` draws, by padding-free rows and then one by one.
    fn count_some(&self, tally: &mut Tally, sums: &[Row], take: usize) {
        let (whole, rest) = (take / LANES, take % LANES);
        self.count(tally, sums.get(..whole).unwrap_or_default());
        for value in sums.get(whole).iter().flat_map(|row| row.iter()).take(rest) {
            tally.one(*value, self.lower, self.upper, self.reach);
        }
    }

    /// Adds the blocks up in their order, so that rounding is the same for any number of threads.
    fn gather(&self, middle: Length, tallies: &[Tally]) -> Simulated {
        let n = f64::from(self.trials.count);
        let mut all = Tally::new();
        let mut counts = vec![0_u64; CELLS];
        for tally in tallies {
            all.add(tally);
            counts.iter_mut().zip(&tally.counts).for_each(|(sum, count)| *sum += u64::from(*count));
        }
        let mean = all.sum / n;
        let variance = (all.squares / n - mean * mean).max(0.0) * n / (n - 1.0).max(1.0);
        Simulated {
            count: u64::from(self.trials.count),
            mean: middle + Length::mm(mean),
            standard_deviation: Length::mm(variance.sqrt()),
            smallest: middle + Length::mm(all.smallest),
            largest: middle + Length::mm(all.largest),
            share_below: all.below as f64 / n,
            share_above: all.above as f64 / n,
            start: middle.as_mm() - self.reach,
            cell: 2.0 * self.reach / CELLS as f64,
            counts,
        }
    }
}

impl Tally {
    fn new() -> Self {
        Self {
            sum: 0.0,
            squares: 0.0,
            smallest: f64::INFINITY,
            largest: f64::NEG_INFINITY,
            below: 0,
            above: 0,
            counts: vec![0; CELLS],
        }
    }

    fn add(&mut self, other: &Self) {
        self.sum += other.sum;
        self.squares += other.squares;
        self.smallest = self.smallest.min(other.smallest);
        self.largest = self.largest.max(other.largest);
        self.below += other.below;
        self.above += other.above;
    }

    /// Sums, extremes and draws outside.
    #[inline(never)]
    fn moments(&mut self, sums: &[Row], lower: f64, upper: f64) {
        let lanes = wide(
            #[inline(always)]
            || Moments::of(sums, lower, upper),
        );
        self.sum += lanes.sum.iter().sum::<f64>();
        self.squares += lanes.squares.iter().sum::<f64>();
        self.smallest = lanes.smallest.into_iter().fold(self.smallest, f64::min);
        self.largest = lanes.largest.into_iter().fold(self.largest, f64::max);
        self.below += lanes.below.iter().sum::<u64>();
        self.above += lanes.above.iter().sum::<u64>();
    }

    /// Counts each draw into its cell; those beyond the reach go to the end cells.
    #[inline(never)]
    #[allow(clippy::indexing_slicing, reason = "the mask keeps the cell inside the counts, whose length is CELLS")]
    fn cells(&mut self, sums: &[Row], reach: f64) {
        // Adding 2^52 leaves the whole number in the low bits; ½ off, because it rounds to the nearest.
        const WHOLE: f64 = 4_503_599_627_370_496.0;
        let scale = CELLS as f64 / (2.0 * reach);
        let Ok(counts) = <&mut [u32; CELLS]>::try_from(self.counts.as_mut_slice()) else { return };
        let mut cells = [[0_u64; LANES]; ROWS];
        wide(
            #[inline(always)]
            || {
                for (row, cells) in sums.iter().zip(&mut cells) {
                    for i in 0..LANES {
                        let at = (row[i] + reach) * scale - 0.5;
                        let at = if at > 0.0 { at } else { 0.0 };
                        let at = if at < CELLS as f64 - 1.0 { at } else { CELLS as f64 - 1.0 };
                        cells[i] = (at + WHOLE).to_bits();
                    }
                }
            },
        );
        for cell in cells.iter().take(sums.len()).flatten() {
            counts[*cell as usize & (CELLS - 1)] += 1;
        }
    }

    /// One draw by itself.
    fn one(&mut self, value: f64, lower: f64, upper: f64, reach: f64) {
        self.sum += value;
        self.squares += value * value;
        self.smallest = self.smallest.min(value);
        self.largest = self.largest.max(value);
        self.below += u64::from(value < lower);
        self.above += u64::from(value > upper);
        let at = ((value + reach) * CELLS as f64 / (2.0 * reach)).clamp(0.0, CELLS as f64 - 1.0);
        if let Some(count) = self.counts.get_mut(at as usize) {
            *count += 1;
        }
    }
}

/// What [`Tally`] sums up, lane by lane.
struct Moments {
    sum: Row,
    squares: Row,
    smallest: Row,
    largest: Row,
    below: [u64; LANES],
    above: [u64; LANES],
}

impl Moments {
    #[inline(always)]
    #[allow(clippy::indexing_slicing, reason = "i runs over the lanes, the length of every array")]
    fn of(sums: &[Row], lower: f64, upper: f64) -> Self {
        let mut m = Self {
            sum: [0.0; LANES],
            squares: [0.0; LANES],
            smallest: [f64::INFINITY; LANES],
            largest: [f64::NEG_INFINITY; LANES],
            below: [0; LANES],
            above: [0; LANES],
        };
        for row in sums {
            for (i, &v) in row.iter().enumerate() {
                m.sum[i] += v;
                m.squares[i] += v * v;
                m.smallest[i] = if v < m.smallest[i] { v } else { m.smallest[i] };
                m.largest[i] = if v > m.largest[i] { v } else { m.largest[i] };
                m.below[i] += u64::from(v < lower);
                m.above[i] += u64::from(v > upper);
            }
        }
        m
    }
}

impl Simulated {
    /// The float below which the share `p` (0 to 1) of all draws lies.
    pub fn percentile(&self, p: f64) -> Result<Length, MechanicsError> {
        if !(0.0..=1.0).contains(&p) {
            return Err(MechanicsError::OutOfRange { what: "a percentile", range: "between 0 and 1" });
        }
        let wanted = p * self.count as f64;
        let mut below = 0.0;
        for (cell, &count) in self.counts.iter().enumerate() {
            let next = below + count as f64;
            if next >= wanted && count > 0 {
                let at = self.start + self.cell * (cell as f64 + (wanted - below) / count as f64);
                return Ok(Length::mm(at).max(self.smallest).min(self.largest));
            }
            below = next;
        }
        Ok(self.largest)
    }

    /// Share of all draws below `float`; within a cell in proportion.
    pub fn share_under(&self, float: Length) -> f64 {
        let place = (float.as_mm() - self.start) / self.cell;
        let part = |(i, count): (usize, &u64)| *count as f64 * (place - i as f64).clamp(0.0, 1.0);
        self.counts.iter().enumerate().map(part).sum::<f64>() / self.count as f64
    }

    /// Bars for a picture, from the smallest to the largest draw; each bar a whole number of cells wide, at most
    /// `bars` of them.
    pub fn histogram(&self, bars: usize) -> Vec<Bin> {
        let first = self.counts.iter().position(|&c| c > 0).unwrap_or(0);
        let last = self.counts.iter().rposition(|&c| c > 0).unwrap_or(0);
        let wide = (last + 1 - first).div_ceil(bars.max(1)).max(1);
        let used = self.counts.get(first..=last).unwrap_or_default();
        let edge = |cell: usize| Length::mm(self.start + self.cell * cell as f64);
        let bin = |(i, part): (usize, &[u64])| Bin {
            from: edge(first + i * wide),
            to: edge(first + (i + 1) * wide),
            count: part.iter().sum(),
        };
        used.chunks(wide).enumerate().map(bin).collect()
    }
}
