//! Random numbers: the one generator from which every draw comes, so that the same seed gives the same draws everywhere.

/// SplitMix64 (Steele, Lea, Flood, OOPSLA 2014): the whole generator.
#[derive(Clone, Copy, Debug)]
pub struct SplitMix(u64);

impl SplitMix {
    /// The generator of one draw.
    pub fn for_draw(seed: u64, draw: u64) -> Self {
        let mut first = Self(seed);
        Self(first.next_u64() ^ draw.wrapping_mul(0xD1B5_4A32_D192_ED03))
    }
    /// From a state.
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }
    /// The next 64 bits.
    pub const fn next_u64(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }
    /// Uniform in (0, 1).
    pub fn uniform(&mut self) -> f64 {
        ((self.next_u64() >> 11) as f64 + 0.5) / (1_u64 << 53) as f64
    }
    /// Two independent standard normal numbers (polar method of Marsaglia).
    pub fn normals(&mut self) -> [f64; 2] {
        loop {
            let (a, b) = (2.0 * self.uniform() - 1.0, 2.0 * self.uniform() - 1.0);
            let s = a * a + b * b;
            if s > 0.0 && s < 1.0 {
                let k = (-2.0 * libm::log(s) / s).sqrt();
                return [k * a, k * b];
            }
        }
    }
}
