//! A day of the calendar as ISO 8601 writes it: `2026-05-02`.

use std::fmt;

/// A day.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Date {
    year: u16,
    month: u8,
    day: u8,
}

impl Date {
    /// The day of that year, month and day; none where the calendar has no such day, or the year has not four figures.
    ///
    /// A leap year is one that 4 divides, but 100 does not unless 400 does (the rule of 1582, which ISO 8601 takes).
    pub fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        let leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
        let days = match month {
            2 if leap => 29,
            2 => 28,
            4 | 6 | 9 | 11 => 30,
            1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
            _ => return None,
        };
        ((1000..=9999).contains(&year) && (1..=days).contains(&day)).then_some(Self { year, month, day })
    }

    /// The day behind a text such as `2026-05-02`; none where it is no day.
    pub fn parse(text: &str) -> Option<Self> {
        let parts: Vec<&str> = text.split('-').collect();
        let [year, month, day] = parts.as_slice() else { return None };
        let plain = |part: &str, figures: usize| part.len() == figures && part.bytes().all(|b| b.is_ascii_digit());
        if !plain(year, 4) || !plain(month, 2) || !plain(day, 2) {
            return None;
        }
        Self::new(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?)
    }

    /// Days since 1 January 1970, before it below nought.
    ///
    /// Days of whole 400-year cycles of 146 097 days, then of years counted from 1 March, so that a leap day is the last.
    /// Source: derived from the rule of leap years.
    pub fn days(self) -> i32 {
        let (month, day) = (i32::from(self.month), i32::from(self.day));
        let year = i32::from(self.year) - i32::from(month <= 2);
        let (cycle, in_cycle) = (year.div_euclid(400), year.rem_euclid(400));
        let of_year = (153 * ((month + 9) % 12) + 2) / 5 + day - 1;
        cycle * 146_097 + in_cycle * 365 + in_cycle / 4 - in_cycle / 100 + of_year - 719_468
    }
}

impl Date {
    /// The day so many days after 1 January 1970; none outside the years of four figures.
    /// The way of [`Date::days`] backwards.
    pub fn from_days(days: i32) -> Option<Self> {
        let from_march = days.checked_add(719_468)?;
        let (cycle, in_cycle) = (from_march.div_euclid(146_097), from_march.rem_euclid(146_097));
        let of_cycle = (in_cycle - in_cycle / 1460 + in_cycle / 36_524 - in_cycle / 146_096) / 365;
        let of_year = in_cycle - (365 * of_cycle + of_cycle / 4 - of_cycle / 100);
        let from = (5 * of_year + 2) / 153;
        let (month, day) = ((from + 2) % 12 + 1, of_year - (153 * from + 2) / 5 + 1);
        let year = cycle * 400 + of_cycle + i32::from(month <= 2);
        Self::new(u16::try_from(year).ok()?, u8::try_from(month).ok()?, u8::try_from(day).ok()?)
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_of_the_calendar_and_no_others() {
        for text in ["2026-05-02", "2024-02-29", "2000-02-29", "1999-12-31"] {
            assert_eq!(Date::parse(text).map(|d| d.to_string()).as_deref(), Some(text));
        }
        for text in [
            "2026-02-29",
            "1900-02-29",
            "2026-13-01",
            "2026-00-10",
            "2026-04-31",
            "26-05-02",
            "2026-5-2",
            "yesterday",
            "2026-05-02T10:00",
            "+026-05-02",
        ] {
            assert_eq!(Date::parse(text), None, "{text}");
        }
    }

    /// 1 January 1970 is day 0 and 1 January 2000 day 10 957 of the clocks that count from there (POSIX.1, seconds since the
    /// Epoch: 946 684 800 s / 86 400 s).
    #[test]
    fn days_are_counted_as_clocks_do() {
        let days = |text| Date::parse(text).map(Date::days);
        assert_eq!(days("1970-01-01"), Some(0));
        assert_eq!(days("2000-01-01"), Some(10_957));
        assert_eq!(days("2024-03-01").zip(days("2024-02-28")).map(|(a, b)| a - b), Some(2));
        assert_eq!(days("1969-12-31"), Some(-1));
        for day in (-350_000..2_900_000).step_by(97) {
            assert_eq!(Date::from_days(day).map(Date::days), Some(day));
        }
        assert_eq!(Date::from_days(i32::MAX), None);
    }
}
