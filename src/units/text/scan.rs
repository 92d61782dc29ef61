//! Walks along the text of a quantity: signs, numbers with fractions, and the refusals that belong to numbers.

use std::ops::Range;

use super::TextError;
use super::number::Exact;

/// Most figures in one number; more than any drawing or computer print-out carries.
const MOST_FIGURES: usize = 20;

/// Fractions that have a character of their own.
#[rustfmt::skip]
const FRACTIONS: [(char, i128, i128); 18] = [
    ('½', 1, 2), ('⅓', 1, 3), ('⅔', 2, 3), ('¼', 1, 4), ('¾', 3, 4), ('⅕', 1, 5), ('⅖', 2, 5), ('⅗', 3, 5), ('⅘', 4, 5),
    ('⅙', 1, 6), ('⅚', 5, 6), ('⅐', 1, 7), ('⅛', 1, 8), ('⅜', 3, 8), ('⅝', 5, 8), ('⅞', 7, 8), ('⅑', 1, 9), ('⅒', 1, 10),
];

/// A place in a text; always on a character boundary.
#[derive(Clone)]
pub(super) struct Scan<'a> {
    pub text: &'a str,
    pub at: usize,
}

impl<'a> Scan<'a> {
    /// What is left.
    pub fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or("")
    }

    pub fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    /// Takes characters while they pass.
    pub fn take(&mut self, pass: impl Fn(char) -> bool) -> &'a str {
        let rest = self.rest();
        let end = rest.find(|c| !pass(c)).unwrap_or(rest.len());
        self.at += end;
        rest.get(..end).unwrap_or("")
    }

    /// Takes one character if it passes.
    pub fn eat(&mut self, pass: impl Fn(char) -> bool) -> bool {
        let taken = self.peek().filter(|c| pass(*c)).map_or(0, char::len_utf8);
        self.at += taken;
        taken > 0
    }

    /// Skips spaces of any kind; tells whether there were some.
    pub fn spaces(&mut self) -> bool {
        !self.take(char::is_whitespace).is_empty()
    }

    /// The text from `start` to here.
    pub fn since(&self, start: usize) -> &'a str {
        self.text.get(start..self.at).unwrap_or("")
    }

    /// The whole text with the part at `range` written otherwise.
    pub fn with(&self, range: &Range<usize>, instead: &str) -> String {
        let before = self.text.get(..range.start).unwrap_or("");
        let after = self.text.get(range.end..).unwrap_or("");
        format!("{before}{instead}{after}").trim().to_string()
    }

    /// A sign in front of the first number: true for minus.
    pub fn minus(&mut self) -> bool {
        self.spaces();
        let minus = self.eat(|c| matches!(c, '-' | '−' | '–'));
        if !minus {
            self.eat(|c| c == '+');
        }
        self.spaces();
        minus
    }

    /// A number without sign: `25.4`, `.5`, `3/8`, `1-1/4`, `1 1/4`, `1¼`.
    pub fn number(&mut self) -> Result<Exact, TextError> {
        let start = self.at;
        if let Some(fraction) = self.own_character() {
            return Ok(fraction);
        }
        let run = self.numeric_run();
        if run.contains(',') {
            return Err(self.comma(start, run));
        }
        let figures = self.take(|c| c.is_ascii_digit());
        let number = match self.peek() {
            Some('.') => self.decimals(start, figures)?,
            Some('/' | '⁄') if !figures.is_empty() => self.fraction_after(start, figures)?,
            _ if figures.is_empty() => return Err(self.no_number()),
            _ => self.with_fraction(start, figures)?,
        };
        self.number_ends(start)?;
        Ok(number)
    }

    /// Figures, points, commas and fraction bars from here on.
    fn numeric_run(&self) -> &'a str {
        self.clone().take(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | '/' | '⁄'))
    }

    fn own_character(&mut self) -> Option<Exact> {
        let c = self.peek()?;
        let (_, over, under) = FRACTIONS.iter().find(|f| f.0 == c)?;
        self.at += c.len_utf8();
        Exact::new(*over, *under)
    }

    fn decimals(&mut self, start: usize, whole: &str) -> Result<Exact, TextError> {
        let point = self.at;
        self.eat(|c| c == '.');
        let decimals = self.take(|c| c.is_ascii_digit());
        if decimals.is_empty() {
            let help = if whole.is_empty() { None } else { Some(self.with(&(point..self.at), "")) };
            return Err(TextError::new("a decimal point needs a figure after it", point..self.at, help));
        }
        let places = u32::try_from(decimals.len()).unwrap_or(u32::MAX);
        let over = self.figures(start, &format!("{whole}{decimals}"))?;
        let under = 10_i128.checked_pow(places).ok_or_else(|| self.too_many(start))?;
        Exact::new(over, under).ok_or_else(|| self.too_many(start))
    }

    fn figures(&self, start: usize, figures: &str) -> Result<i128, TextError> {
        if figures.len() > MOST_FIGURES {
            return Err(self.too_many(start));
        }
        figures.parse().map_err(|_| self.too_many(start))
    }

    /// The error for a number from `start` to here that is too long.
    pub fn too_many(&self, start: usize) -> TextError {
        TextError::new("this number has too many figures", start..self.at, None)
    }

    fn fraction_after(&mut self, start: usize, over: &str) -> Result<Exact, TextError> {
        self.eat(|c| matches!(c, '/' | '⁄'));
        let under = self.take(|c| c.is_ascii_digit());
        let range = start..self.at;
        if under.is_empty() {
            return Err(TextError::new("this fraction has nothing under the bar", range, Some("3/8 in".into())));
        }
        let (over, under) = (self.figures(start, over)?, self.figures(start, under)?);
        Exact::new(over, under).ok_or_else(|| TextError::new("a fraction cannot have 0 under the bar", range, None))
    }

    /// A whole number, perhaps followed by a fraction: `1`, `1-1/4`, `1 1/4`, `1¼`, `1 ¼`.
    fn with_fraction(&mut self, start: usize, whole: &str) -> Result<Exact, TextError> {
        let number = Exact::whole(self.figures(start, whole)?);
        let mut ahead = self.clone();
        let dash = ahead.eat(is_dash);
        let gap = dash || ahead.spaces();
        let begin = ahead.at;
        let fraction = match ahead.own_character() {
            Some(fraction) => fraction,
            None if gap => {
                let over = ahead.take(|c| c.is_ascii_digit());
                if over.is_empty() {
                    return Ok(number);
                }
                if !ahead.peek().is_some_and(|c| matches!(c, '/' | '⁄')) {
                    return Err(ahead.two_numbers(start, whole, dash));
                }
                ahead.fraction_after(begin, over)?
            }
            None => return Ok(number),
        };
        if fraction.reaches(1) {
            let what = "the fraction after a whole number must be less than 1";
            return Err(TextError::new(what, begin..ahead.at, None));
        }
        self.at = ahead.at;
        number.plus(fraction).ok_or_else(|| self.too_many(start))
    }

    /// `1-4 mm` or `1 250 mm`.
    fn two_numbers(&self, start: usize, whole: &str, dash: bool) -> TextError {
        let range = start..self.at;
        if dash {
            let what = format!("`{}` is not one number", self.since(start));
            return TextError::new(what, range, Some("one and a quarter is written 1-1/4".into()));
        }
        let second = self.since(start).trim_start_matches(whole).trim();
        let joined = self.with(&range, &format!("{whole}{second}"));
        TextError::new("a number is written without spaces", range, (second.len() == 3).then_some(joined))
    }

    /// Refuses what sticks to a number without being a unit: an exponent, a second point, a lone bar.
    fn number_ends(&self, start: usize) -> Result<(), TextError> {
        let mut ahead = self.clone();
        if ahead.eat(|c| matches!(c, 'e' | 'E')) {
            ahead.eat(|c| matches!(c, '-' | '+'));
            if !ahead.take(|c| c.is_ascii_digit()).is_empty() {
                let what = "a number is written out here, without a power of ten";
                return Err(TextError::new(what, start..ahead.at, Some("0.001 rather than 1e-3".into())));
            }
            return Ok(());
        }
        let spaced = ahead.spaces();
        let more = ahead.eat(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | '/' | '⁄'));
        let dash = !more && ahead.eat(is_dash) && {
            ahead.spaces();
            ahead.eat(|c| c.is_ascii_digit())
        };
        if !more && !dash {
            return Ok(());
        }
        ahead.take(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | '/' | '⁄'));
        let what = format!("`{}` is not one number", ahead.since(start));
        let help = (spaced || dash).then(|| "a fraction is written without spaces, such as 3/8 or 1-1/4".into());
        Err(TextError::new(what, start..ahead.at, help))
    }

    /// A comma in the number `run`, which begins at `start`: refused with the spelling that would be right.
    fn comma(&self, start: usize, run: &str) -> TextError {
        let range = start..start + run.len();
        let (before, after) = run.rsplit_once(',').unwrap_or((run, ""));
        let decimal = self.with(&range, &format!("{}.{after}", before.replace([',', '.'], "")));
        let whole = self.with(&range, &run.replace(',', ""));
        let plain = run.len() == before.len() + 1 + after.len() && !before.contains([',', '.']);
        let help = match after {
            _ if after.contains(['.', '/', '⁄']) || after.is_empty() => whole,
            _ if before.contains(',') => whole,
            _ if plain && after.len() == 3 => format!("{decimal}  or  {whole}"),
            _ => decimal,
        };
        TextError::new("a number is written with a decimal point, not with a comma", range, Some(help))
    }

    /// Nothing that begins a number stands here.
    fn no_number(&self) -> TextError {
        let mut ahead = self.clone();
        let word = ahead.take(|c| !c.is_whitespace());
        let range = self.at..ahead.at;
        let lower = word.to_lowercase();
        if word.is_empty() {
            return TextError::new("a number is missing here", range, None);
        }
        if lower.starts_with("nan") || lower.starts_with("inf") || lower.starts_with('∞') {
            return TextError::new(format!("`{word}` is not a size that can be made"), range, None);
        }
        TextError::new(format!("a number is wanted first, not `{word}`"), range, None)
    }
}

/// A figure, a point or a fraction character.
pub(super) fn begins_number(c: char) -> bool {
    c.is_ascii_digit() || c == '.' || FRACTIONS.iter().any(|f| f.0 == c)
}

/// The dashes that may join a whole number and its fraction.
pub(super) fn is_dash(c: char) -> bool {
    matches!(c, '-' | '‐' | '‑' | '–')
}
