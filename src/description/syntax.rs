//! Faults of the TOML itself, in words of the bench where the parser's own would not help.

use std::ops::Range;

use toml::de::Error;

use super::Problem;
use super::problem::MOST_OF_A_KIND;

/// Marks of the shop that are quotes of TOML as well.
const MARKS: [(char, &str, &str); 2] = [
    (
        '"',
        "an inch mark inside double quotes ends the text too early",
        "put single quotes around it, such as '3/8\"', or write 3/8 in",
    ),
    (
        '\'',
        "a foot or minute mark inside single quotes ends the text too early",
        "put double quotes around it, such as \"8°30'\", or write 2 ft",
    ),
];

/// All faults of the TOML in the order of their places, none twice; beyond a hundred only their number.
pub(super) fn problems(file: &str, text: &str, errors: &[Error]) -> Vec<Problem> {
    let mut faults: Vec<(usize, usize, &str)> = errors.iter().map(|e| place(e, text)).collect();
    faults.sort_unstable();
    faults.dedup();
    let listed = faults.iter().take(MOST_OF_A_KIND);
    let mut problems: Vec<Problem> = listed.map(|(start, end, what)| problem(file, text, *start..*end, what)).collect();
    problems.dedup();
    if let Some((start, end, _)) = faults.get(MOST_OF_A_KIND) {
        let message = format!("from here on there are {} more faults of the TOML", faults.len() - MOST_OF_A_KIND);
        problems.push(Problem::at(file, *start..*end, &message, None));
    }
    problems
}

fn place<'e>(error: &'e Error, text: &str) -> (usize, usize, &'e str) {
    let span = error.span().unwrap_or(text.len()..text.len());
    (span.start, span.end, error.message())
}

fn problem(file: &str, text: &str, span: Range<usize>, message: &str) -> Problem {
    let start = text.get(..span.start).and_then(|t| t.rfind('\n')).map_or(0, |i| i + 1);
    // A line that nobody writes by hand is not worth a closer look.
    let line = text.get(start..).and_then(|t| t.lines().next()).filter(|l| l.len() < 1000).unwrap_or_default();
    let at = |part: &str| {
        let begin = start + line.rfind(part).unwrap_or(0);
        begin..begin + part.len()
    };
    for (quote, what, help) in MARKS {
        if let Some(value) = cut_short(line, quote) {
            return Problem::at(file, at(value), what, Some(help));
        }
    }
    if let Some(value) = printers_quotes(line) {
        let what = "these are a printer's quotes; TOML knows the straight ones only";
        return Problem::at(file, at(value), what, Some("\"6 mm\"  or  '6 mm'"));
    }
    if let Some(value) = unquoted(line) {
        let help = format!("put quotes around it: {}", quoted(value));
        return Problem::at(file, at(value), "a size with its unit stands in quotes", Some(&help));
    }
    Problem::at(file, span, &format!("this is not TOML: {message}"), None)
}

/// The value of `key = "3/8""` or of a list that holds such a text: a mark behind a number that is the quote as well.
fn cut_short(line: &str, quote: char) -> Option<&str> {
    let value = line.split_once('=')?.1.trim();
    let pieces: Vec<&str> = value.split(quote).collect();
    let number = |text: &&str| text.ends_with(char::is_numeric);
    let doubled = pieces.windows(3).any(|three| matches!(three, [a, b, _] if number(a) && b.is_empty()));
    let tripled = value.contains(&String::from_iter([quote; 3]));
    let single = value.starts_with(quote) && pieces.len().is_multiple_of(2) && pieces.get(1).is_some_and(number);
    (single || (doubled && !tripled)).then_some(value)
}

/// The value of `key = “6 mm”`, as a word processor makes it.
fn printers_quotes(line: &str) -> Option<&str> {
    let value = line.split_once('=')?.1.trim();
    value.starts_with(['“', '”', '„', '‘', '’', '«']).then_some(value)
}

/// The value of `key = 6 mm` or `key = 30°`, without a remark behind it.
fn unquoted(line: &str) -> Option<&str> {
    let value = line.split_once('=')?.1;
    let value = value.split('#').next().unwrap_or_default().trim();
    let size = value.starts_with(|c: char| c.is_numeric() || matches!(c, '-' | '+' | '.'));
    let more = value.chars().any(|c| !matches!(c, '0'..='9' | '_' | '-' | '+' | '.' | ',' | ' '));
    (size && more).then_some(value)
}

/// In quotes that do not occur in it.
fn quoted(value: &str) -> String {
    match (value.contains('"'), value.contains('\'')) {
        (false, _) => format!("\"{value}\""),
        (true, false) => format!("'{value}'"),
        (true, true) => format!("'''{value}''', or write ft and in for the marks"),
    }
}
