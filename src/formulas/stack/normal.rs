//! Normally distributed numbers by inversion: the quantile function as a table of cubics.
//!
//! A probability u below ½ is cut into octaves, each octave into 32 parts, so that the cubics are as good far out in
//! the tail as in the middle: the quantile is off by less than 1e-7 everywhere down to 2⁻⁵⁴ (8.3 standard deviations),
//! which no sampling error of a billion draws can see.

use std::sync::OnceLock;

/// Parts of an octave, as a power of two.
const PART_BITS: u32 = 5;
const PARTS: usize = 1 << PART_BITS;
/// 64 octaves below ½, more than the 53 that are used, so that a mask can stand for a bound.
const CELLS: usize = 1 << (6 + PART_BITS);

/// One cubic per cell.
pub(super) struct NormalTable {
    cells: Box<[[f64; 4]; CELLS]>,
}

impl NormalTable {
    /// The table, made once.
    pub(super) fn get() -> &'static Self {
        static TABLE: OnceLock<NormalTable> = OnceLock::new();
        TABLE.get_or_init(Self::make)
    }

    /// Walks from the middle into the tail, so that each quantile starts the search for the next.
    fn make() -> Self {
        let mut cells = Box::new([[0.0; 4]; CELLS]);
        let (mut upper, mut upper_z) = (0.5, 0.0);
        for (cell, slot) in cells.iter_mut().enumerate() {
            let lower = cell_lower_end(cell);
            let lower_z = quantile(lower, upper_z);
            *slot = hermite((lower, lower_z), (upper, upper_z));
            (upper, upper_z) = (lower, lower_z);
        }
        Self { cells }
    }

    /// The number above 0 at a [`place`].
    #[inline(always)]
    #[allow(clippy::indexing_slicing, reason = "the mask keeps the cell inside the table")]
    pub(super) fn half_normal(&self, cell: u64, part: f64) -> f64 {
        let [c0, c1, c2, c3] = self.cells[cell as usize & (CELLS - 1)];
        c0 + part * (c1 + part * (c2 + part * c3))
    }
}

/// The cell of 64 random bits, and the part of it, 0 to 1; the upper 52 bits are the probability.
#[inline(always)]
pub(super) fn place(word: u64) -> (u64, f64) {
    let bits = probability(word).to_bits();
    let cell = TOP_CELL.wrapping_sub(bits >> (52 - PART_BITS));
    // The remaining mantissa bits behind the leading 1.
    (cell, f64::from_bits((bits << PART_BITS & 0x000f_ffff_ffff_ffff) | 0x3ff0_0000_0000_0000) - 1.0)
}

/// `number` with its sign turned if the lowest of the random bits says so.
#[inline(always)]
pub(super) fn signed(number: f64, word: u64) -> f64 {
    f64::from_bits(number.to_bits() ^ (word << 63))
}

/// (r + ½) 2⁻⁵³ with r the upper 52 bits: above 0, below ½, exact.
#[inline(always)]
fn probability(word: u64) -> f64 {
    let whole = f64::from_bits((word >> 12) | 0x3ff0_0000_0000_0000) - 1.0;
    0.5 * (whole + 0.5 * f64::EPSILON)
}

/// Exponent and leading mantissa bits of the cell just below ½.
const TOP_CELL: u64 = ((1022 - 1) << PART_BITS) | (PARTS as u64 - 1);

/// Lower end of a cell; cell 0 ends at ½.
fn cell_lower_end(cell: usize) -> f64 {
    f64::from_bits((TOP_CELL - cell as u64) << (52 - PART_BITS))
}

/// Density of the standard normal at z.
fn density(z: f64) -> f64 {
    libm::exp(-0.5 * z * z) * 0.398_942_280_401_432_7
}

/// The z above 0 with probability u beyond it, by Newton's method on ln u from a `start` nearer the middle.
fn quantile(u: f64, start: f64) -> f64 {
    let mut z = start;
    for _ in 0..50 {
        let beyond = 0.5 * libm::erfc(z / std::f64::consts::SQRT_2);
        let step = libm::log(beyond / u) * beyond / density(z);
        z += step;
        if step.abs() < 1e-14 {
            break;
        }
    }
    z
}

/// Cubic through both ends with their slopes, in t = 0 at the lower end, 1 at the upper: z' = -1/density.
fn hermite(lower: (f64, f64), upper: (f64, f64)) -> [f64; 4] {
    let width = upper.0 - lower.0;
    let (s0, s1) = (-width / density(lower.1), -width / density(upper.1));
    let rise = upper.1 - lower.1;
    [lower.1, s0, 3.0 * rise - 2.0 * s0 - s1, s0 + s1 - 2.0 * rise]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn normal(table: &NormalTable, word: u64) -> f64 {
        let (cell, part) = place(word);
        signed(table.half_normal(cell, part), word)
    }

    /// The table against the complementary error function, in 97 places of each octave.
    #[test]
    fn the_table_inverts_the_error_function() {
        let table = NormalTable::get();
        for shift in 0..52 {
            for part in 0..97_u64 {
                let word = (1 << 63 | (part * (u64::MAX / 2 / 97))) >> shift & !1;
                let u = probability(word);
                let z = normal(table, word);
                let back = 0.5 * libm::erfc(z / std::f64::consts::SQRT_2);
                let error = (back - u).abs() / density(z);
                assert!(error < 1e-7, "u {u:e}: z {z} is off by {error:e}");
                assert_eq!(normal(table, word | 1), -z);
            }
        }
        assert!(probability(u64::MAX) < 0.5 && probability(0) > 0.0);
    }

    /// Values of any printed table of the normal distribution.
    #[test]
    fn known_quantiles() {
        for (u, z) in [(0.025, 1.959964), (0.001349898, 3.0), (0.15865525, 1.0)] {
            let word = (u * libm::exp2(65.0)) as u64 & !1;
            let got = normal(NormalTable::get(), word);
            assert!((got - z).abs() < 1e-6, "{u}: {got}");
        }
    }
}
