//! Random sizes in bulk: sixteen generators side by side, so that the compiler can work on several at once.
//!
//! Generator: xoshiro256++ (D. Blackman, S. Vigna, Scrambled linear pseudorandom number generators, ACM TOMS 47,
//! 2021), state filled by SplitMix64. Every block of draws has a state of its own, made from seed and block number, so
//! the draws do not depend on how many threads share the work.

use super::normal::{NormalTable, place, signed};
use super::wide::wide;
use crate::formulas::random::SplitMix;

/// Generators side by side: enough for two of the widest registers, so that none waits for the other.
pub(super) const LANES: usize = 16;
/// One number from each generator.
pub(super) type Row = [f64; LANES];

/// Rows of words made at a time for normal numbers.
const CHUNK: usize = 16;

/// The xoshiro256++ generators.
pub(super) struct Lanes {
    a: [u64; LANES],
    b: [u64; LANES],
    c: [u64; LANES],
    d: [u64; LANES],
}

impl Lanes {
    /// The generators of one block.
    pub(super) fn new(seed: u64, block: u64) -> Self {
        // Two rounds of mixing keep the sequences of neighbouring blocks and seeds apart.
        let mixed = SplitMix::new(seed).next_u64() ^ block.wrapping_mul(0xd134_2543_de82_ef95);
        let mut state = SplitMix::new(SplitMix::new(mixed).next_u64());
        let mut words = || std::array::from_fn(|_| state.next_u64());
        Self { a: words(), b: words(), c: words(), d: words() }
    }

    /// One word from each generator. In place, so that the compiler keeps the lanes side by side.
    #[inline(always)]
    #[allow(clippy::indexing_slicing, clippy::needless_range_loop, reason = "i runs over the lanes of five arrays")]
    fn next(&mut self, out: &mut [u64; LANES]) {
        for i in 0..LANES {
            let (a, b, c, d) = (self.a[i], self.b[i], self.c[i], self.d[i]);
            out[i] = a.wrapping_add(d).rotate_left(23).wrapping_add(a);
            let (c, d) = (c ^ a, d ^ b);
            self.b[i] = b ^ c;
            self.a[i] = a ^ d;
            self.c[i] = c ^ (b << 17);
            self.d[i] = d.rotate_left(45);
        }
    }

    /// Adds `half` × uniform(-1, 1) to each sum. 32 bits cut a tolerance of a tenth into steps of 0.05 pm, so one word
    /// serves two rows.
    #[inline(never)]
    pub(super) fn add_uniform(&mut self, sums: &mut [Row], half: f64) {
        let scale = half / 2_147_483_648.0;
        let add = |row: &mut Row, words: &[u64; LANES], shift: u32| {
            for (sum, word) in row.iter_mut().zip(words) {
                *sum += (whole(word >> shift & LOW) - 2_147_483_647.5) * scale;
            }
        };
        wide(
            #[inline(always)]
            || {
                let mut words = [0; LANES];
                for pair in sums.chunks_mut(2) {
                    self.next(&mut words);
                    for (row, shift) in pair.iter_mut().zip([32, 0]) {
                        add(row, &words, shift);
                    }
                }
            },
        );
    }

    /// Adds `half` × triangular(-1, 1): the sum of the two halves of a word, 32 bits each.
    #[inline(never)]
    pub(super) fn add_triangular(&mut self, sums: &mut [Row], half: f64) {
        let scale = half / 4_294_967_296.0;
        let add = |row: &mut Row, words: &[u64; LANES]| {
            for (sum, word) in row.iter_mut().zip(words) {
                *sum += (whole((word >> 32) + (word & LOW)) - 4_294_967_295.0) * scale;
            }
        };
        wide(
            #[inline(always)]
            || {
                let mut words = [0; LANES];
                for row in sums {
                    self.next(&mut words);
                    add(row, &words);
                }
            },
        );
    }

    /// Adds `deviation` × standard normal. Words first, then places in the table, then numbers: the first two are simple
    /// enough to be worked side by side, and the last is quicker one by one than by gathering from the table.
    #[inline(never)]
    pub(super) fn add_normal(&mut self, sums: &mut [Row], deviation: f64, table: &NormalTable) {
        let mut words = [[0; LANES]; CHUNK];
        let mut places = Places::default();
        for chunk in sums.chunks_mut(CHUNK) {
            self.fill(&mut words);
            places.find(&words, deviation);
            let found = places.cells.iter().zip(&places.parts).zip(&places.factors);
            for (row, ((cells, parts), factors)) in chunk.iter_mut().zip(found) {
                for (sum, ((cell, part), factor)) in row.iter_mut().zip(cells.iter().zip(parts).zip(factors)) {
                    *sum += factor * table.half_normal(*cell, *part);
                }
            }
        }
    }

    fn fill(&mut self, words: &mut [[u64; LANES]; CHUNK]) {
        wide(
            #[inline(always)]
            || words.iter_mut().for_each(|row| self.next(row)),
        );
    }
}

/// Where in the table of the normal distribution a chunk of words lies.
#[derive(Default)]
struct Places {
    cells: [[u64; LANES]; CHUNK],
    parts: [Row; CHUNK],
    /// The deviation with the sign of the number.
    factors: [Row; CHUNK],
}

impl Places {
    #[allow(clippy::indexing_slicing, reason = "i runs over the lanes, the length of every array")]
    fn find(&mut self, words: &[[u64; LANES]; CHUNK], deviation: f64) {
        let rows = self.cells.iter_mut().zip(&mut self.parts).zip(&mut self.factors).zip(words);
        wide(
            #[inline(always)]
            || {
                for (((cells, parts), factors), words) in rows {
                    for i in 0..LANES {
                        (cells[i], parts[i]) = place(words[i]);
                        factors[i] = signed(deviation, words[i]);
                    }
                }
            },
        );
    }
}

/// The lower half of a word.
const LOW: u64 = 0xffff_ffff;

/// A whole number below 2^52 as a float: the exponent of 2^52 makes it one without a conversion.
#[inline(always)]
fn whole(number: u64) -> f64 {
    f64::from_bits(number | 0x4330_0000_0000_0000) - 4_503_599_627_370_496.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The first words of xoshiro256++ from the state 1, 2, 3, 4. Source: the reference implementation
    /// (prng.di.unimi.it, xoshiro256plusplus.c), whose words the tests of the crate rand_xoshiro repeat; from memory.
    #[test]
    fn every_lane_is_the_published_generator() {
        let mut lanes = Lanes { a: [1; LANES], b: [2; LANES], c: [3; LANES], d: [4; LANES] };
        let wanted: [u64; 10] = [
            41943041,
            58720359,
            3588806011781223,
            3591011842654386,
            9228616714210784205,
            9973669472204895162,
            14011001112246962877,
            12406186145184390807,
            15849039046786891736,
            10450023813501588000,
        ];
        let mut words = [0; LANES];
        for word in wanted {
            lanes.next(&mut words);
            assert_eq!(words, [word; LANES]);
        }
    }
}
