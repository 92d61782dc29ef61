//! Random sizes in bulk: four generators side by side, so that the compiler can work on several at once.
//!
//! Generator: xoshiro256++ (D. Blackman, S. Vigna, Scrambled linear pseudorandom number generators, ACM TOMS 47,
//! 2021), state filled by SplitMix64. Every block of draws has a state of its own, made from seed and block number, so
//! the draws do not depend on how many threads share the work.

use super::normal::NormalTable;

/// Generators side by side.
pub(super) const LANES: usize = 4;

/// Rows of words made at a time for normal numbers.
const CHUNK: usize = 32;

/// SplitMix64: the next word of a sequence over `state` (Vigna, public domain reference).
fn split_mix(state: &mut u64) -> u64 {
    *state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let z = (*state ^ (*state >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// Four xoshiro256++ generators.
pub(super) struct Lanes {
    a: [u64; LANES],
    b: [u64; LANES],
    c: [u64; LANES],
    d: [u64; LANES],
}

impl Lanes {
    /// The generators of one block.
    pub(super) fn new(seed: u64, block: u64) -> Self {
        let mut state = seed;
        // Two rounds of mixing keep the sequences of neighbouring blocks and seeds apart.
        let mut mixed = split_mix(&mut state) ^ block.wrapping_mul(0xd134_2543_de82_ef95);
        let mut state = split_mix(&mut mixed);
        let mut words = || std::array::from_fn(|_| split_mix(&mut state));
        Self { a: words(), b: words(), c: words(), d: words() }
    }

    /// One word from each generator.
    #[inline(always)]
    #[allow(clippy::indexing_slicing, clippy::needless_range_loop, reason = "i runs over the lanes of five arrays")]
    fn next(&mut self) -> [u64; LANES] {
        let mut out = [0; LANES];
        for i in 0..LANES {
            out[i] = self.a[i].wrapping_add(self.d[i]).rotate_left(23).wrapping_add(self.a[i]);
            let t = self.b[i] << 17;
            self.c[i] ^= self.a[i];
            self.d[i] ^= self.b[i];
            self.b[i] ^= self.c[i];
            self.a[i] ^= self.d[i];
            self.c[i] ^= t;
            self.d[i] = self.d[i].rotate_left(45);
        }
        out
    }

    /// Adds `half` × uniform(-1, 1) to each sum.
    #[inline(never)]
    pub(super) fn add_uniform(&mut self, sums: &mut [[f64; LANES]], half: f64) {
        let (scale, shift) = (2.0 * half, -3.0 * half);
        for row in sums {
            let words = self.next();
            for (sum, word) in row.iter_mut().zip(words) {
                // 52 bits behind the leading 1: a number from 1 to 2.
                let unit = f64::from_bits((word >> 12) | 0x3ff0_0000_0000_0000);
                *sum += unit * scale + shift;
            }
        }
    }

    /// Adds `half` × triangular(-1, 1): the sum of the two halves of a word, 32 bits each.
    #[inline(never)]
    pub(super) fn add_triangular(&mut self, sums: &mut [[f64; LANES]], half: f64) {
        // The exponent of 2^52 makes the 33-bit sum a number without a conversion.
        const WHOLE: f64 = 4_503_599_627_370_496.0;
        let scale = half / 4_294_967_296.0;
        for row in sums {
            let words = self.next();
            for (sum, word) in row.iter_mut().zip(words) {
                let both = (word >> 32) + (word & 0xffff_ffff);
                let whole = f64::from_bits(both | 0x4330_0000_0000_0000) - WHOLE;
                *sum += (whole - 4_294_967_295.0) * scale;
            }
        }
    }

    /// Adds `deviation` × standard normal. Words first, numbers second: each loop alone is simple enough to vectorise.
    pub(super) fn add_normal(&mut self, sums: &mut [[f64; LANES]], deviation: f64, table: &NormalTable) {
        let mut words = [[0; LANES]; CHUNK];
        for chunk in sums.chunks_mut(CHUNK) {
            self.fill(&mut words);
            for (row, words) in chunk.iter_mut().zip(&words) {
                for (sum, word) in row.iter_mut().zip(words) {
                    *sum += deviation * table.normal(*word);
                }
            }
        }
    }

    #[inline(never)]
    fn fill(&mut self, words: &mut [[u64; LANES]]) {
        for row in words {
            *row = self.next();
        }
    }
}
