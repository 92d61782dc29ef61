//! Writing quantities for people: fixed decimals, inch fractions, both units side by side.

use super::Length;

/// Widest gap to a 64th of an inch at which a length is still called that fraction.
const FRACTION_GAP: f64 = 1e-6;

/// `x` with that many decimals; never a minus in front of nothing but noughts.
pub fn fixed(x: f64, decimals: usize) -> String {
    let text = format!("{x:.decimals$}");
    match text.strip_prefix('-') {
        Some(rest) if rest.chars().all(|c| matches!(c, '0' | '.')) => rest.to_string(),
        _ => text,
    }
}

/// `x` with at most that many decimals, without noughts at the end.
pub fn trimmed(x: f64, decimals: usize) -> String {
    let text = fixed(x, decimals);
    if !text.contains('.') {
        return text;
    }
    text.trim_end_matches('0').trim_end_matches('.').to_string()
}

/// `1-1/4 in` when the length is a whole number of 64ths of an inch, to a millionth of an inch.
pub fn inch_fraction(length: Length) -> Option<String> {
    let sixty_fourths = (length.as_inches() * 64.0).round();
    let gap = (length.as_inches() - sixty_fourths / 64.0).abs();
    if gap.is_nan() || gap > FRACTION_GAP || sixty_fourths.abs() > 1e9 {
        return None;
    }
    let count = sixty_fourths.abs() as u64;
    let shift = count.trailing_zeros().min(6);
    let (over, under) = (count >> shift, 64_u64 >> shift);
    let size = match (over / under, over % under) {
        (whole, 0) => format!("{whole}"),
        (0, part) => format!("{part}/{under}"),
        (whole, part) => format!("{whole}-{part}/{under}"),
    };
    Some(format!("{}{size} in", if sixty_fourths < 0.0 { "-" } else { "" }))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use proptest::test_runner::RngSeed;

    use super::super::text;
    use super::*;

    #[test]
    fn nought_never_has_a_sign() {
        for (x, decimals, wanted) in [(-0.0, 0, "0"), (-0.0004, 3, "0.000"), (-0.0006, 3, "-0.001"), (-1.5, 1, "-1.5")]
        {
            assert_eq!(fixed(x, decimals), wanted);
        }
        assert_eq!(trimmed(-0.0004, 3), "0");
        assert_eq!(trimmed(100.0, 0), "100");
        assert_eq!(trimmed(2.50, 3), "2.5");
    }

    #[test]
    fn inch_fractions() {
        let rows = [
            (1.25, "1-1/4 in"),
            (0.375, "3/8 in"),
            (2.0, "2 in"),
            (0.0, "0 in"),
            (-0.375, "-3/8 in"),
            (0.015625, "1/64 in"),
            (0.984375, "63/64 in"),
            (0.4999995, "1/2 in"),
        ];
        for (inches, wanted) in rows {
            assert_eq!(inch_fraction(Length::inches(inches)).as_deref(), Some(wanted));
        }
        for none in [0.4999, 0.333, f64::NAN, f64::INFINITY, 1e300] {
            assert_eq!(inch_fraction(Length::inches(none)), None);
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig {
            failure_persistence: None,
            rng_seed: RngSeed::Fixed(22),
            ..ProptestConfig::default()
        })]
        #[test]
        fn fractions_are_read_back(n in -9_999_i32..9_999) {
            let size = Length::inches(f64::from(n) / 64.0);
            let read = text::length(&inch_fraction(size).unwrap()).unwrap();
            prop_assert!((read - size).abs() <= Length::inches(1e-9));
        }
    }
}
