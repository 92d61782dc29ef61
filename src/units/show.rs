//! Writing quantities for people: fixed decimals, inch fractions, both units side by side.

use super::{Angle, Length, LengthUnit};

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

/// `31.750 mm`.
pub fn length_mm(length: Length, decimals: usize) -> String {
    format!("{} mm", fixed(length.as_mm(), decimals))
}

/// `1.2500 in`.
pub fn length_in(length: Length, decimals: usize) -> String {
    format!("{} in", fixed(length.as_inches(), decimals))
}

/// `31.750 mm (1.2500 in)`, or the inches first.
pub fn both(length: Length, first: LengthUnit) -> String {
    let (mm, inch) = (length_mm(length, 3), length_in(length, 4));
    match first {
        LengthUnit::Mm => format!("{mm} ({inch})"),
        LengthUnit::Inch => format!("{inch} ({mm})"),
    }
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

/// `8.5°`: degrees with at most four decimals.
pub fn degrees(angle: Angle) -> String {
    format!("{}°", trimmed(angle.as_degrees(), 4))
}

/// `8°30'`: degrees and minutes, minutes to a tenth where they are not whole.
pub fn degrees_minutes(angle: Angle) -> String {
    let (minus, degrees, minutes) = angle.as_degrees_minutes();
    let sign = if minus && (degrees > 0 || minutes > 0.0) { "-" } else { "" };
    format!("{sign}{degrees}°{}'", trimmed(minutes, 1))
}

/// `30°`, or `8.5° (8°30')` when it is not a whole number of degrees.
pub fn angle(angle: Angle) -> String {
    let decimal = degrees(angle);
    if decimal.contains('.') { format!("{decimal} ({})", degrees_minutes(angle)) } else { decimal }
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
        assert_eq!(degrees_minutes(Angle::degrees(-0.0001)), "0°0'");
    }

    /// 1-1/4 in is 31.75 mm by the definition of the inch.
    #[test]
    fn lengths_in_both_units() {
        let size = Length::mm(31.75);
        assert_eq!(length_mm(size, 3), "31.750 mm");
        assert_eq!(length_in(size, 4), "1.2500 in");
        assert_eq!(both(size, LengthUnit::Mm), "31.750 mm (1.2500 in)");
        assert_eq!(both(size, LengthUnit::Inch), "1.2500 in (31.750 mm)");
        assert_eq!(both(Length::mm(-0.0001), LengthUnit::Mm), "0.000 mm (0.0000 in)");
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

    #[test]
    fn angles_with_minutes() {
        assert_eq!(angle(Angle::degrees(30.0)), "30°");
        assert_eq!(angle(Angle::degrees(8.5)), "8.5° (8°30')");
        assert_eq!(angle(Angle::degrees(-8.5)), "-8.5° (-8°30')");
        assert_eq!(angle(Angle::degrees(14.0362)), "14.0362° (14°2.2')");
        assert_eq!(angle(Angle::degrees(7.99999)), "8°");
    }

    proptest! {
        #![proptest_config(ProptestConfig {
            failure_persistence: None,
            rng_seed: RngSeed::Fixed(22),
            ..ProptestConfig::default()
        })]
        #[test]
        fn millimetres_are_read_back(um in -99_999_999_i32..99_999_999) {
            let size = Length::mm(f64::from(um) / 1000.0);
            prop_assert_eq!(text::length(&length_mm(size, 3)).unwrap(), size);
        }

        #[test]
        fn inches_are_read_back_to_the_shown_figures(mm in -9_999.0..9_999.0_f64) {
            let read = text::length(&length_in(Length::mm(mm), 4)).unwrap();
            prop_assert!((read.as_inches() - Length::mm(mm).as_inches()).abs() <= 0.5e-4 + 1e-12);
        }

        #[test]
        fn fractions_are_read_back(n in -9_999_i32..9_999) {
            let size = Length::inches(f64::from(n) / 64.0);
            let read = text::length(&inch_fraction(size).unwrap()).unwrap();
            prop_assert!((read - size).abs() <= Length::inches(1e-9));
        }

        #[test]
        fn angles_are_read_back(a in -360.0..360.0_f64) {
            let shown = Angle::degrees(a);
            prop_assert!((text::angle(&degrees(shown)).unwrap() - shown).abs() <= Angle::degrees(0.500_001e-4));
            let minutes = text::angle(&degrees_minutes(shown)).unwrap();
            prop_assert!((minutes - shown).abs() <= Angle::degrees(0.050_001 / 60.0));
        }
    }
}
