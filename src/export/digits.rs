//! Numbers in files as digits. A part's files hold some fifty thousand of them; those of few decimals are whole numbers
//! of tenths, thousandths or millionths, whose digits are written out with a point between.

use std::fmt::Write;

/// Numbers at the end of a text.
pub(super) trait Digits {
    /// A whole number.
    fn whole(&mut self, value: u32);
    /// So many units of the last of some decimals, without noughts at the end: `1250` of three is `1.25`.
    fn units(&mut self, units: i64, decimals: usize);
    /// A number rounded to some decimals, without noughts at the end and without `-0`.
    fn fixed(&mut self, value: f64, decimals: usize);
}

/// Of numbers up to here, the units of the last decimal are counted to well within [`CERTAIN`].
const COUNTED: f64 = 1e10;
/// So near to a half, the count of units does not say to which side it is rounded.
const CERTAIN: f64 = 1e-4;

impl Digits for String {
    fn whole(&mut self, value: u32) {
        self.push_str(itoa::Buffer::new().format(value));
    }

    fn units(&mut self, units: i64, decimals: usize) {
        let mut buffer = itoa::Buffer::new();
        let digits = buffer.format(units.unsigned_abs());
        if units < 0 {
            self.push('-');
        }
        let (whole, part) = digits.split_at(digits.len().saturating_sub(decimals));
        self.push_str(if whole.is_empty() { "0" } else { whole });
        let short = part.trim_end_matches('0');
        if !short.is_empty() {
            self.push('.');
            (part.len()..decimals).for_each(|_| self.push('0'));
            self.push_str(short);
        }
    }

    fn fixed(&mut self, value: f64, decimals: usize) {
        let units = value * 10_f64.powi(decimals as i32);
        if units.abs() < COUNTED && (units.fract().abs() - 0.5).abs() > CERTAIN {
            return self.units(units.round() as i64, decimals);
        }
        let begin = self.len();
        let _ = write!(self, "{value:.decimals$}");
        let written = self.get(begin..).unwrap_or_default();
        let short = if decimals > 0 { written.trim_end_matches('0').trim_end_matches('.') } else { written };
        let end = begin + short.len();
        self.truncate(end);
        if self.get(begin..) == Some("-0") {
            self.replace_range(begin.., "0");
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Digits;
    use proptest::prelude::*;

    fn fixed(value: f64, decimals: usize) -> String {
        let mut text = String::from("x");
        text.fixed(value, decimals);
        text.split_off(1)
    }

    /// What the standard library writes, which rounds the exact value of a number, halves to even.
    fn library(value: f64, decimals: usize) -> String {
        let text = format!("{value:.decimals$}");
        let short = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
        if short == "-0" { "0".into() } else { short.into() }
    }

    #[test]
    fn few_digits_are_those_of_the_library() {
        let odd = [0.0, -0.0, 0.00005, -0.00005, 0.5, 1.5, -2.5, 0.12345, 99.99995, 100.0, 1e9, 1e17, -1e-9, 0.00015];
        for (value, decimals) in odd.iter().flat_map(|v| [0, 1, 4, 7].map(|d| (*v, d))) {
            assert_eq!(fixed(value, decimals), library(value, decimals), "{value:e} {decimals}");
        }
    }

    proptest! {
        #[test]
        fn any_digits_are_those_of_the_library(value in -1e4..1e4f64, tenths in -20_000_000i64..20_000_000, decimals in 0usize..8) {
            // Plain numbers, and numbers halfway between two that can be written.
            for value in [value, tenths as f64 / 20_000.0] {
                prop_assert_eq!(fixed(value, decimals), library(value, decimals));
            }
            let mut text = String::new();
            text.units(tenths, 6);
            prop_assert_eq!(text, format!("{}", tenths as f64 / 1e6));
        }
    }
}
