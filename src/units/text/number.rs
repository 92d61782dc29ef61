//! A number as written, kept as an exact fraction, so that a size is rounded once and not twice.

/// A whole number over a whole number, lowest terms, denominator above nought.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Exact {
    over: i128,
    under: i128,
}

/// Largest denominator for which [`Exact::value`] is correctly rounded.
const EXACT_UNDER: u128 = 1 << 72;

impl Exact {
    /// `over / under`; `None` if `under` is not above nought.
    pub fn new(over: i128, under: i128) -> Option<Self> {
        let divisor = common_divisor(over.unsigned_abs(), under.unsigned_abs());
        let divisor = i128::try_from(divisor).ok().filter(|d| *d > 0 && under > 0)?;
        Some(Self { over: over / divisor, under: under / divisor })
    }

    /// A whole number.
    pub const fn whole(over: i128) -> Self {
        Self { over, under: 1 }
    }

    /// Sum; `None` beyond 38 digits.
    pub fn plus(self, other: Self) -> Option<Self> {
        let a = self.over.checked_mul(other.under)?;
        let b = other.over.checked_mul(self.under)?;
        Self::new(a.checked_add(b)?, self.under.checked_mul(other.under)?)
    }

    /// Product; `None` beyond 38 digits.
    pub fn times(self, other: Self) -> Option<Self> {
        Self::new(self.over.checked_mul(other.over)?, self.under.checked_mul(other.under)?)
    }

    /// One over it; `None` for nought and below.
    pub fn inverse(self) -> Option<Self> {
        Self::new(self.under, self.over)
    }

    /// The same with the other sign.
    pub fn negated(self) -> Self {
        Self { over: -self.over, ..self }
    }

    /// Written without a fraction.
    pub fn is_whole(self) -> bool {
        self.under == 1
    }

    /// At least the whole number `limit`.
    pub fn reaches(self, limit: i128) -> bool {
        self.under.checked_mul(limit).is_some_and(|l| self.over >= l)
    }

    /// The nearest `f64`. Long division with the remainder folded into the last bit, so that the one
    /// rounding is the conversion of the quotient.
    pub fn value(self) -> f64 {
        let (over, under) = (self.over.unsigned_abs(), self.under.unsigned_abs());
        if over == 0 {
            return 0.0;
        }
        if under > EXACT_UNDER {
            return self.over as f64 / self.under as f64;
        }
        let shift = over.leading_zeros();
        let scaled = over << shift;
        let quotient = (scaled / under) | u128::from(scaled % under != 0);
        let magnitude = quotient as f64 * f64::from_bits((1023 - u64::from(shift)) << 52);
        if self.over < 0 { -magnitude } else { magnitude }
    }
}

/// Greatest common divisor after Euclid.
fn common_divisor(mut a: u128, mut b: u128) -> u128 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use proptest::test_runner::RngSeed;

    fn value(over: i128, under: i128) -> f64 {
        Exact::new(over, under).unwrap().value()
    }

    #[test]
    fn refuses_what_is_no_number() {
        assert_eq!(Exact::new(1, 0), None);
        assert_eq!(Exact::new(0, 0), None);
        assert_eq!(Exact::whole(i128::MAX).plus(Exact::whole(1)), None);
        assert_eq!(Exact::whole(i128::MAX).times(Exact::whole(2)), None);
    }

    /// Both parts and the quotient are rounded: three half units in the last place.
    #[test]
    fn huge_denominators_stay_close() {
        assert!((value(1, 10_i128.pow(30)) / 1e-30 - 1.0).abs() <= 1.5 * f64::EPSILON);
    }

    proptest! {
        #![proptest_config(ProptestConfig {
            failure_persistence: None,
            rng_seed: RngSeed::Fixed(21),
            ..ProptestConfig::default()
        })]
        /// Against the standard library's correctly rounded reading of decimal digits.
        #[test]
        fn rounds_as_the_standard_library_reads(digits in 0_i64..=i64::MAX, decimals in 0_u32..=21) {
            let wanted: f64 = format!("{digits}e-{decimals}").parse().unwrap();
            prop_assert_eq!(value(i128::from(digits), 10_i128.pow(decimals)), wanted);
            prop_assert_eq!(value(-i128::from(digits), 10_i128.pow(decimals)), -wanted);
        }

        /// Whole numbers below 2^53 divide with one rounding in hardware (IEEE 754).
        #[test]
        fn rounds_as_hardware_divides(over in 0_i64..1 << 53, under in 1_i64..1 << 53) {
            prop_assert_eq!(value(i128::from(over), i128::from(under)), over as f64 / under as f64);
        }
    }
}
