//! The values of a table, read key by key; every fault is noted in its place.

use toml::de::DeValue;

use super::Fields;
use super::fields::{Item, did_you_mean, shortened};
use crate::record::key::{Bounds, Given, Key, Kind, LEAST};
use crate::units::date::Date;
use crate::units::text::{self, TextError};
use crate::units::{Acceleration, Angle, Force, Length, Mass, Stress, Temperature, show};

/// What an instrument shows.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Measure {
    /// A length.
    Length(Length),
    /// An angle.
    Angle(Angle),
}

impl<'d> Fields<'d> {
    /// Notes a fault inside a text, at its very characters where the file holds them unchanged.
    fn note_text(&self, item: Item, inner: &str, error: &TextError) {
        let span = item.span();
        let raw = self.document.text.get(span.clone()).unwrap_or_default();
        let unchanged = raw.get(1..raw.len().saturating_sub(1)).is_some_and(|r| r == inner);
        let start = span.start + 1;
        let exact = unchanged && !error.at.is_empty();
        let place = if exact { start + error.at.start..start + error.at.end } else { span };
        self.document.note(place, &error.what, error.help.as_deref());
    }

    /// Reads a text with a unit by the given reader.
    fn quantity<T>(
        &self,
        item: Item,
        key: &Key,
        wanted: &str,
        read: impl Fn(&str) -> Result<T, TextError>,
    ) -> Option<Given<T>> {
        let DeValue::String(text) = item.get_ref() else {
            self.not_this(item, key, wanted);
            return None;
        };
        match read(text) {
            Ok(value) => Some(self.given(item, value)),
            Err(error) => {
                self.note_text(item, text, &error);
                None
            }
        }
    }

    /// A text with a unit, by the given reader; `wanted` says what is.
    pub fn by<T>(&self, key: &Key, wanted: &str, read: impl Fn(&str) -> Result<T, TextError>) -> Option<Given<T>> {
        self.quantity(self.item(key)?, key, wanted, read)
    }

    /// Passes on what lies in the range and notes what does not.
    fn within<T>(&self, given: Given<T>, key: &Key, inside: bool, range: &str) -> Option<Given<T>> {
        if inside {
            return Some(given);
        }
        let message = format!("{} must {range}", self.subject(&given.span, key));
        self.document.note(given.span, &message, Some(key.help));
        None
    }

    fn one_length(&self, item: Item, key: &Key, bounds: Bounds) -> Option<Given<Length>> {
        let given = match number(item) {
            Some(n) => self.bare_length(item, key, n)?,
            None => {
                let read = |t: &str| text::length_with_default(t, self.document.unit);
                self.quantity(item, key, "a length such as \"12 mm\" or \"1/2 in\"", read)?
            }
        };
        let length = given.value;
        match bounds {
            Bounds::Positive => {
                self.within(given, key, length > Length::ZERO, "be greater than 0").and_then(|g| self.made(g, key))
            }
            Bounds::NotNegative => {
                self.within(given, key, length >= Length::ZERO, "be 0 or more").and_then(|g| self.made(g, key))
            }
            Bounds::Fine => self.within(given, key, length >= Length::ZERO, "be 0 or more"),
            Bounds::Any => Some(given),
        }
    }

    /// Passes on what is 0 or large enough to be made, and notes what is not.
    fn made(&self, given: Given<Length>, key: &Key) -> Option<Given<Length>> {
        if given.value == Length::ZERO || given.value >= LEAST {
            return Some(given);
        }
        let message = format!(
            "{} of {} is smaller than anything that can be made or measured",
            self.subject(&given.span, key),
            given.text
        );
        self.document.note(given.span, &message, Some("1 um or more; is that the unit which was meant?"));
        None
    }

    /// A length written as a bare number: right only where the file states its unit.
    fn bare_length(&self, item: Item, key: &Key, number: f64) -> Option<Given<Length>> {
        let Some(unit) = self.document.unit else {
            let n = if number.abs() < 1e6 { show::trimmed(number, 6) } else { "12".into() };
            let help = format!("\"{n} mm\"  or  \"{n} in\", or state units = \"mm\" at the top of the file");
            let message = format!("{} is a bare number; its unit is missing", self.subject(&item.span(), key));
            self.document.note(item.span(), &message, Some(&help));
            return None;
        };
        match text::length_from_number(number, unit) {
            Ok(value) => Some(self.given(item, value)),
            Err(error) => {
                self.document.note(item.span(), &error.what, error.help.as_deref());
                None
            }
        }
    }

    /// A length.
    pub fn length(&self, key: &Key) -> Option<Given<Length>> {
        let bounds = match key.kind {
            Kind::Length(bounds) => bounds,
            _ => Bounds::Any,
        };
        self.one_length(self.item(key)?, key, bounds)
    }

    /// A length that must be there.
    pub fn required_length(&self, key: &Key) -> Option<Given<Length>> {
        self.need(key, self.length(key))
    }

    /// A list of lengths.
    pub fn lengths(&self, key: &Key) -> Option<Given<Vec<Length>>> {
        let item = self.item(key)?;
        let bounds = match key.kind {
            Kind::Lengths(bounds) => bounds,
            _ => Bounds::Any,
        };
        let DeValue::Array(array) = item.get_ref() else {
            self.not_this(item, key, "a list of lengths such as [\"1 mm\", \"2 mm\"]");
            return None;
        };
        let values = self.all(array, |i| self.one_length(i, key, bounds).map(|g| g.value))?;
        Some(self.given(item, values))
    }

    /// A list of lengths that must be there.
    pub fn required_lengths(&self, key: &Key) -> Option<Given<Vec<Length>>> {
        self.need(key, self.lengths(key))
    }

    /// A list of two in order, or a note that says `wanted`.
    fn two<T: Copy>(
        &self,
        (item, values): (Item, Vec<T>),
        key: &Key,
        in_order: impl Fn(&T, &T) -> bool,
        wanted: &str,
    ) -> Option<Given<(T, T)>> {
        if let [first, second] = values.as_slice()
            && in_order(first, second)
        {
            return Some(self.given(item, (*first, *second)));
        }
        self.document.note(item.span(), &format!("`{}` {wanted}", key.name), Some(key.help));
        None
    }

    /// One length (least and greatest alike) or a list of two, least first.
    pub fn length_range(&self, key: &Key) -> Option<Given<(Length, Length)>> {
        let item = self.item(key)?;
        let one = |item| self.one_length(item, key, Bounds::NotNegative);
        let DeValue::Array(array) = item.get_ref() else {
            return one(item).map(|g| g.map(|l| (l, l)));
        };
        let values = self.all(array, |i| one(i).map(|g| g.value))?;
        self.two((item, values), key, |a, b| a < b, "as a list is two lengths, the least first")
    }

    /// A range of lengths that must be there.
    pub fn required_length_range(&self, key: &Key) -> Option<Given<(Length, Length)>> {
        self.need(key, self.length_range(key))
    }

    /// Deviations from a nominal size: one length t for ±t, or a list of two, lower first.
    pub fn deviations(&self, key: &Key) -> Option<Given<(Length, Length)>> {
        let item = self.item(key)?;
        let DeValue::Array(array) = item.get_ref() else {
            return self.one_length(item, key, Bounds::Fine).map(|g| g.map(|t| (-t, t)));
        };
        let values = self.all(array, |i| self.one_length(i, key, Bounds::Any).map(|g| g.value))?;
        self.two((item, values), key, |a, b| a <= b, "as a list is two deviations, the lower first")
    }

    /// An angle.
    pub fn angle(&self, key: &Key) -> Option<Given<Angle>> {
        let given = self.by(key, "an angle such as \"30 deg\"", text::angle)?;
        let Kind::Angle(above, below) = key.kind else { return Some(given) };
        let a = given.value.as_degrees();
        let range = format!("lie between {} and {} degrees", show::fixed(above, 0), show::fixed(below, 0));
        self.within(given, key, a > above && a < below, &range)
    }

    /// An angle that must be there.
    pub fn required_angle(&self, key: &Key) -> Option<Given<Angle>> {
        self.need(key, self.angle(key))
    }

    /// What was read on an instrument: a length, or an angle. In a part that states its unit a bare number is a length.
    pub fn reading(&self, key: &Key) -> Option<Given<Measure>> {
        let item = self.item(key)?;
        if number(item).is_some() {
            return self.one_length(item, key, Bounds::Any).map(|g| g.map(Measure::Length));
        }
        let read = |t: &str| {
            let angle = || text::angle(t).map(Measure::Angle);
            let of_angle = ["deg", "°", "rad"].iter().any(|unit| t.contains(unit));
            match text::length_with_default(t, self.document.unit) {
                Ok(length) => Ok(Measure::Length(length)),
                Err(_) if of_angle => angle(),
                Err(error) => angle().map_err(|_| error),
            }
        };
        self.quantity(item, key, "what was read, such as \"25.013 mm\" or \"29.7 deg\"", read)
    }

    /// A reading that must be there.
    pub fn required_reading(&self, key: &Key) -> Option<Given<Measure>> {
        self.need(key, self.reading(key))
    }

    /// A day such as `2026-05-02`, in quotes or without.
    pub fn date(&self, key: &Key) -> Option<Given<Date>> {
        let item = self.item(key)?;
        let written = match item.get_ref() {
            DeValue::String(_) | DeValue::Datetime(_) => self.written(item),
            _ => {
                self.not_this(item, key, "a day such as \"2026-05-02\"");
                return None;
            }
        };
        let Some(date) = Date::parse(&written) else {
            let message = format!("`{}` is no day of the calendar", shortened(&written));
            self.document.note(item.span(), &message, Some("year, month and day, such as \"2026-05-02\""));
            return None;
        };
        Some(self.given(item, date))
    }

    /// A mass above 0.
    pub fn mass(&self, key: &Key) -> Option<Given<Mass>> {
        let given = self.by(key, "a mass such as \"640 kg\"", text::mass)?;
        let inside = given.value > Mass::ZERO;
        self.within(given, key, inside, "be greater than 0")
    }

    /// A force, not below 0.
    pub fn force(&self, key: &Key) -> Option<Given<Force>> {
        let given = self.by(key, "a force such as \"2.5 kN\"", text::force)?;
        let inside = given.value >= Force::ZERO;
        self.within(given, key, inside, "be 0 or more")
    }

    /// A force, or a mass whose weight is meant; above 0.
    pub fn load(&self, key: &Key) -> Option<Given<Force>> {
        let given = self.by(key, "a load such as \"160 kg\" or \"1.6 kN\"", text::load)?;
        let inside = given.value > Force::ZERO;
        self.within(given, key, inside, "be greater than 0")
    }

    /// A stress above 0.
    pub fn stress(&self, key: &Key) -> Option<Given<Stress>> {
        let given = self.by(key, "a stress such as \"250 MPa\"", text::stress)?;
        let inside = given.value > Stress::ZERO;
        self.within(given, key, inside, "be greater than 0")
    }

    /// A temperature; below absolute zero is refused.
    pub fn temperature(&self, key: &Key) -> Option<Given<Temperature>> {
        self.by(key, "a temperature such as \"60 C\"", text::temperature)
    }

    /// Two temperatures, the lower first; below absolute zero is refused.
    pub fn temperature_range(&self, key: &Key) -> Option<Given<(Temperature, Temperature)>> {
        let item = self.item(key)?;
        let DeValue::Array(array) = item.get_ref() else {
            self.not_this(item, key, "a list of two temperatures such as [\"-20 C\", \"45 C\"]");
            return None;
        };
        let one = |i| self.quantity(i, key, "a temperature such as \"60 C\"", text::temperature).map(|g| g.value);
        self.two((item, self.all(array, one)?), key, |a, b| a < b, "is two temperatures, the lower first")
    }

    /// An acceleration, not below 0.
    pub fn acceleration(&self, key: &Key) -> Option<Given<Acceleration>> {
        let given = self.by(key, "an acceleration such as \"0.8 g\"", text::acceleration)?;
        let inside = given.value >= Acceleration::ZERO;
        self.within(given, key, inside, "be 0 or more")
    }

    fn one_number(
        &self,
        item: Item,
        key: &Key,
        (least, most): (f64, f64),
        read: impl Fn(&str) -> Result<f64, TextError>,
    ) -> Option<Given<f64>> {
        let given = match number(item) {
            Some(value) => self.given(item, value),
            None => self.quantity(item, key, "a pure number such as 0.3", read)?,
        };
        let inside = given.value >= least && given.value <= most;
        self.within(given, key, inside, &format!("lie between {least} and {most}"))
    }

    /// A pure number.
    pub fn number(&self, key: &Key) -> Option<Given<f64>> {
        let Kind::Number(least, most) = key.kind else { return None };
        self.one_number(self.item(key)?, key, (least, most), text::bare_number)
    }

    /// A list of pure numbers.
    pub fn numbers(&self, key: &Key) -> Option<Given<Vec<f64>>> {
        let item = self.item(key)?;
        let (Kind::Numbers(least, most), DeValue::Array(array)) = (key.kind, item.get_ref()) else {
            self.not_this(item, key, "a list of numbers such as [0.1, 0.3]");
            return None;
        };
        let one = |i| self.one_number(i, key, (least, most), text::bare_number);
        let values = self.all(array, |i| one(i).map(|g| g.value))?;
        Some(self.given(item, values))
    }

    /// A whole number.
    pub fn count(&self, key: &Key) -> Option<Given<u32>> {
        let item = self.item(key)?;
        let Kind::Count { min, max } = key.kind else { return None };
        let DeValue::Integer(integer) = item.get_ref() else {
            self.not_this(item, key, "a whole number without quotes");
            return None;
        };
        let value = u32::from_str_radix(integer.as_str(), integer.radix()).ok().filter(|n| (min..=max).contains(n));
        let given = self.within(self.given(item, value), key, value.is_some(), &format!("lie between {min} and {max}"));
        given.map(|g| g.map(Option::unwrap_or_default))
    }

    /// `true` or `false`.
    pub fn flag(&self, key: &Key) -> Option<Given<bool>> {
        let item = self.item(key)?;
        match item.get_ref() {
            DeValue::Boolean(value) => Some(self.given(item, *value)),
            _ => {
                self.not_this(item, key, "true or false without quotes");
                None
            }
        }
    }

    fn one_text(&self, item: Item, key: &Key) -> Option<String> {
        match item.get_ref() {
            DeValue::String(value) => Some(value.to_string()),
            _ => {
                self.not_this(item, key, "a text in quotes");
                None
            }
        }
    }

    /// A text.
    pub fn text(&self, key: &Key) -> Option<Given<String>> {
        let item = self.item(key)?;
        self.one_text(item, key).map(|value| self.given(item, value))
    }

    /// A text that must be there.
    pub fn required_text(&self, key: &Key) -> Option<Given<String>> {
        self.need(key, self.text(key))
    }

    /// One of the words of the key.
    pub fn choice(&self, key: &Key) -> Option<Given<&'static str>> {
        let text = self.text(key)?;
        let Kind::Choice(words) = key.kind else { return None };
        if let Some(word) = words.iter().find(|w| **w == text.value) {
            return Some(text.map(|_| *word));
        }
        let help = did_you_mean(&text.value, words).unwrap_or_else(|| format!("one of {}", words.join(", ")));
        self.problem_at(key, format!("`{}` cannot be `{}`", key.name, shortened(&text.value)), Some(help));
        None
    }

    /// One of the words of the key, which must be there.
    pub fn required_choice(&self, key: &Key) -> Option<Given<&'static str>> {
        self.need(key, self.choice(key))
    }

    /// The rows of a list of lists of texts, such as tape readings, each with its place.
    pub fn text_rows(&self, key: &Key) -> Option<Vec<Given<Vec<String>>>> {
        let item = self.item(key)?;
        let DeValue::Array(array) = item.get_ref() else {
            self.not_this(item, key, "a list");
            return None;
        };
        self.all(array, |row| match row.get_ref() {
            DeValue::Array(cells) => Some(self.given(row, cells.iter().map(|c| self.written(c)).collect())),
            _ => {
                self.not_this(row, key, "a list of lists");
                None
            }
        })
    }
}

/// The number of a TOML integer or float, whatever its size.
fn number(item: Item) -> Option<f64> {
    match item.get_ref() {
        DeValue::Integer(i) if i.radix() == 10 => i.as_str().parse().ok(),
        DeValue::Integer(i) => u128::from_str_radix(i.as_str(), i.radix()).ok().map(|n| n as f64),
        DeValue::Float(f) => f.as_str().parse().ok(),
        _ => None,
    }
}
