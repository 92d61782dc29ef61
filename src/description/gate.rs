//! The gate through which every text of a part file goes, whatever its key: no unseen character comes past it.

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::document::Document;
use super::problem::MOST_OF_A_KIND;
use crate::printable::first_unseen;

/// A text of the file with its place, keys included.
type Text<'t> = (&'t str, Range<usize>);

/// Notes every text of the table that holds an unseen character; beyond a hundred only their number.
pub(super) fn guard(document: &Document, table: &DeTable) {
    let mut texts = Vec::new();
    in_table(table, &mut texts);
    texts.retain(|(text, _)| first_unseen(text).is_some());
    texts.sort_by_key(|(_, span)| span.start);
    for (text, span) in texts.iter().take(MOST_OF_A_KIND) {
        let Some((_, c, why)) = first_unseen(text) else { continue };
        let raw = document.text.get(span.clone()).unwrap_or_default();
        let place = place_in(raw, c).map_or(span.clone(), |r| span.start + r.start..span.start + r.end);
        let (what, help) = why.said();
        document.note(place, &format!("{what}: U+{:04X}", u32::from(c)), Some(help));
    }
    if let Some((_, span)) = texts.get(MOST_OF_A_KIND) {
        let message =
            format!("from here on there are {} more texts with unseen characters", texts.len() - MOST_OF_A_KIND);
        document.note(span.clone(), &message, None);
    }
}

fn in_table<'t>(table: &'t DeTable, texts: &mut Vec<Text<'t>>) {
    for (key, value) in table {
        texts.push((key.get_ref(), key.span()));
        in_value(value, texts);
    }
}

fn in_value<'t>(value: &'t Spanned<DeValue>, texts: &mut Vec<Text<'t>>) {
    match value.get_ref() {
        DeValue::String(text) => texts.push((text, value.span())),
        DeValue::Array(array) => array.iter().for_each(|item| in_value(item, texts)),
        DeValue::Table(table) => in_table(table, texts),
        DeValue::Integer(_) | DeValue::Float(_) | DeValue::Boolean(_) | DeValue::Datetime(_) => {}
    }
}

/// Where the character stands in the text as it is written in the file: itself, or the escape that makes it.
fn place_in(raw: &str, wanted: char) -> Option<Range<usize>> {
    let mut at = 0;
    while let Some(c) = raw.get(at..).and_then(|rest| rest.chars().next()) {
        let (made, length) = if c == '\\' { escape(raw.get(at..)?) } else { (Some(c), c.len_utf8()) };
        if made == Some(wanted) {
            return Some(at..at + length);
        }
        at += length;
    }
    None
}

/// The character that an escape of TOML makes, and the length of the escape.
fn escape(text: &str) -> (Option<char>, usize) {
    let letter = text.chars().nth(1);
    let digits = match letter {
        Some('x') => 2,
        Some('u') => 4,
        Some('U') => 8,
        Some(other) => return (plain_escape(other), 1 + other.len_utf8()),
        None => return (None, 1),
    };
    let made = text.get(2..2 + digits).and_then(|hex| u32::from_str_radix(hex, 16).ok()).and_then(char::from_u32);
    (made, if made.is_some() { 2 + digits } else { 2 })
}

fn plain_escape(letter: char) -> Option<char> {
    match letter {
        'n' => Some('\n'),
        't' => Some('\t'),
        'r' => Some('\r'),
        'b' => Some('\u{8}'),
        'f' => Some('\u{c}'),
        'e' => Some('\u{1b}'),
        _ => None,
    }
}
