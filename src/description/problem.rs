//! What is wrong in a part file, where, and what would be right.

use std::ops::Range;

/// Faults of one kind in one place that are listed; the rest are counted and named as one.
pub(super) const MOST_OF_A_KIND: usize = 100;

use annotate_snippets::{AnnotationKind, Level, Origin, Renderer, Snippet};

use crate::printable::printable;

/// Most problems of one file that are shown.
const MOST_SHOWN: usize = 20;
/// Most characters that are marked; more would not show the place any better.
const MOST_MARKED: usize = 80;
/// Most characters of the line that are shown on each side of the mark.
const MOST_AROUND: usize = 70;
/// Mark that some editors put before the first character.
const BYTE_ORDER_MARK: char = '\u{feff}';

/// One fault of a part file.
#[derive(Clone, PartialEq, Debug)]
pub struct Problem {
    /// The file.
    pub file: String,
    /// The bytes it is about; `None` for the whole file.
    pub span: Option<Range<usize>>,
    /// What is wrong.
    pub message: String,
    /// What would be right.
    pub help: Option<String>,
}

impl Problem {
    /// A fault of the file as a whole.
    pub fn whole_file(file: &str, message: impl Into<String>) -> Self {
        Self { file: printable(file), span: None, message: printable(&message.into()), help: None }
    }

    /// A fault at a place. Control characters, which a terminal would obey, are replaced.
    pub(super) fn at(file: &str, span: Range<usize>, message: &str, help: Option<&str>) -> Self {
        Self { file: printable(file), span: Some(span), message: printable(message), help: help.map(printable) }
    }
}

/// Line and column, both from 1, the column in characters.
pub fn position(text: &str, offset: usize) -> (usize, usize) {
    let before = text.get(..boundary(text, offset)).unwrap_or(text);
    let before = before.strip_prefix(BYTE_ORDER_MARK).unwrap_or(before);
    let line = before.matches('\n').count() + 1;
    (line, before.rsplit('\n').next().unwrap_or_default().chars().count() + 1)
}

/// The nearest place at or before `offset` where a character begins.
fn boundary(text: &str, offset: usize) -> usize {
    let mut place = offset.min(text.len());
    while !text.is_char_boundary(place) {
        place -= 1;
    }
    place
}

/// All problems as plain text, each with its line; at most twenty, then their number.
pub fn render_all(problems: &[Problem], text: &str) -> String {
    render_with(problems, text, false)
}

/// All problems as text, with colour if the reader's terminal is to have it.
pub fn render_with(problems: &[Problem], text: &str, colour: bool) -> String {
    let mut shown: Vec<String> = problems.iter().take(MOST_SHOWN).map(|p| render(p, text, colour)).collect();
    if let Some(more) = problems.len().checked_sub(MOST_SHOWN).filter(|n| *n > 0) {
        let file = problems.first().map_or("", |p| &p.file);
        shown.push(format!("and {more} more problem{} in {file}", if more == 1 { "" } else { "s" }));
    }
    if shown.is_empty() { String::new() } else { shown.join("\n\n") + "\n" }
}

fn render(problem: &Problem, text: &str, colour: bool) -> String {
    let title = Level::ERROR.primary_title(problem.message.as_str());
    let Some(span) = &problem.span else {
        let help = problem.help.as_ref().map_or_else(String::new, |h| format!("\n  = help: {h}"));
        return format!("error: {}: {}{help}", problem.file, problem.message);
    };
    let excerpt = excerpt(text, span);
    let mark = AnnotationKind::Primary.span(excerpt.mark);
    let snippet = Snippet::source(excerpt.source).line_start(excerpt.line).annotation(mark);
    let group = if excerpt.cut {
        let place = Origin::path(problem.file.as_str()).line(excerpt.line).char_column(excerpt.column);
        title.element(place).element(snippet)
    } else {
        title.element(snippet.path(problem.file.as_str()))
    };
    let group = match &problem.help {
        Some(help) => group.element(Level::HELP.message(help.as_str())),
        None => group,
    };
    let renderer = if colour { Renderer::styled() } else { Renderer::plain() };
    renderer.render(&[group])
}

/// The line where a span begins, or as much of it as fits on a screen.
struct Excerpt {
    source: String,
    line: usize,
    column: usize,
    mark: Range<usize>,
    /// The beginning of the line is left out, so that the column cannot be counted from what is shown.
    cut: bool,
}

fn excerpt(text: &str, span: &Range<usize>) -> Excerpt {
    let start = boundary(text, span.start);
    let line_start = text.get(..start).and_then(|t| t.rfind('\n')).map_or(0, |i| i + 1);
    let source = text.get(line_start..).and_then(|t| t.split('\n').next()).unwrap_or_default().trim_end_matches('\r');
    let hidden = if line_start == 0 && source.starts_with(BYTE_ORDER_MARK) { BYTE_ORDER_MARK.len_utf8() } else { 0 };
    let source = source.get(hidden..).unwrap_or_default();
    let within = |place: usize| boundary(source, boundary(text, place).saturating_sub(line_start + hidden));
    let from = within(start);
    let to = within(span.end).clamp(from, forward(source, from, MOST_MARKED));
    let (begin, end) = (back(source, from, MOST_AROUND), forward(source, to, MOST_AROUND));
    let (left, right) = (if begin > 0 { "..." } else { "" }, if end < source.len() { "..." } else { "" });
    let (line, column) = position(text, start);
    let [before, marked, after] = [begin..from, from..to, to..end].map(|r| quoted(source.get(r).unwrap_or_default()));
    let mark = left.len() + before.len()..left.len() + before.len() + marked.len();
    Excerpt { source: format!("{left}{before}{marked}{after}{right}"), line, column, mark, cut: begin > 0 }
}

/// A piece of a source line, character for character; a tab stays what it is, the renderer widens it.
fn quoted(piece: &str) -> String {
    piece.split('\t').map(printable).collect::<Vec<_>>().join("\t")
}

/// The place `count` characters after `from`, or the end.
fn forward(text: &str, from: usize, count: usize) -> usize {
    let rest = text.get(from..).unwrap_or_default();
    rest.char_indices().nth(count).map_or(text.len(), |(i, _)| from + i)
}

/// The place `count` characters before `from`, or the beginning.
fn back(text: &str, from: usize, count: usize) -> usize {
    let before = text.get(..from).unwrap_or_default();
    before.char_indices().rev().nth(count).map_or(0, |(i, c)| i + c.len_utf8())
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use proptest::test_runner::RngSeed;

    use super::*;

    #[test]
    fn columns_are_counted_in_characters() {
        let text = "\u{feff}a = 1\r\n\tb = '30°' x\n";
        assert_eq!(position(text, 0), (1, 1));
        assert_eq!(position(text, text.find('1').unwrap()), (1, 5));
        assert_eq!(position(text, text.find('x').unwrap()), (2, 12));
        assert_eq!(position(text, text.find('°').unwrap() + 1), (2, 9), "inside a character: its beginning");
        assert_eq!(position(text, 10_000), (3, 1));
    }

    #[test]
    fn colour_only_when_asked() {
        let problems = [Problem::at("a.toml", 0..1, "no", None)];
        assert!(!render_all(&problems, "a = 1").contains('\u{1b}'));
        assert!(render_with(&problems, "a = 1", true).contains('\u{1b}'));
    }

    #[test]
    fn control_characters_are_replaced() {
        let problem = Problem::at("a\u{1b}[2J.toml", 0..1, "key `\u{7}`", Some("\n"));
        assert_eq!((problem.file.as_str(), problem.message.as_str()), ("a\u{fffd}[2J.toml", "key `\u{fffd}`"));
        assert!(!render_all(&[problem], "\u{1b}[31m = 1").contains('\u{1b}'));
    }

    proptest! {
        #![proptest_config(ProptestConfig {
            failure_persistence: None,
            rng_seed: RngSeed::Fixed(41),
            ..ProptestConfig::default()
        })]
        /// Any place in any text: no panic, and the place printed is the place asked for.
        #[test]
        fn the_printed_place_is_the_place(text in "[a-z°’\t\r\n\u{feff}\"= ]{0,40}", start in 0_usize..60, length in 0_usize..60) {
            let (line, column) = position(&text, start);
            let shown = render_all(&[Problem::at("f.toml", start..start + length, "m", None)], &text);
            let place = format!("f.toml:{line}:{column}\n");
            let after_return = text.get(..boundary(&text, start)).is_some_and(|t| t.ends_with('\r'));
            prop_assert!(after_return || shown.contains(&place), "{place:?} {shown:?}");
        }
    }
}
