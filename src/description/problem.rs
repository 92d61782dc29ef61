//! What is wrong in a part file, where, and what would be right.

use std::ops::Range;

use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet};

/// Most problems of one file that are shown.
const MOST_SHOWN: usize = 20;

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
        Self { file: file.into(), span: None, message: message.into(), help: None }
    }
}

/// Line and column, both from 1, the column in characters.
pub fn position(text: &str, offset: usize) -> (usize, usize) {
    let before = text.get(..text.floor_char_boundary(offset)).unwrap_or(text);
    let line = before.matches('\n').count() + 1;
    let column = before.rsplit('\n').next().unwrap_or_default().chars().filter(|c| *c != '\u{feff}').count() + 1;
    (line, column)
}

/// All problems as text, each with its line; at most twenty, then their number.
pub fn render_all(problems: &[Problem], text: &str) -> String {
    let mut shown: Vec<String> = problems.iter().take(MOST_SHOWN).map(|p| render(p, text)).collect();
    if problems.len() > MOST_SHOWN {
        shown.push(format!(
            "and {} more problems in {}",
            problems.len() - MOST_SHOWN,
            problems.first().map_or("", |p| &p.file)
        ));
    }
    shown.join("\n\n") + "\n"
}

fn render(problem: &Problem, text: &str) -> String {
    let title = Level::ERROR.primary_title(problem.message.as_str());
    let Some(span) = &problem.span else {
        let help = problem.help.as_ref().map_or_else(String::new, |h| format!("\n  = help: {h}"));
        return format!("error: {}: {}{help}", problem.file, problem.message);
    };
    let (source, first_line, span) = excerpt(text, span);
    let snippet = Snippet::source(source)
        .path(problem.file.as_str())
        .line_start(first_line)
        .annotation(AnnotationKind::Primary.span(span));
    let group = title.element(snippet);
    let group = match &problem.help {
        Some(help) => group.element(Level::HELP.message(help.as_str())),
        None => group,
    };
    Renderer::plain().render(&[group])
}

/// The lines that the span touches (the first only, if many), the number of the first, and the span within them.
/// Handing over one line keeps a file of a megabyte as quick to show as a short one.
fn excerpt<'t>(text: &'t str, span: &Range<usize>) -> (&'t str, usize, Range<usize>) {
    let start = text.floor_char_boundary(span.start.min(text.len()));
    let end = text.floor_char_boundary(span.end.clamp(start, text.len()));
    let line_start = text.get(..start).and_then(|t| t.rfind('\n')).map_or(0, |i| i + 1);
    let line_end = text.get(start..).and_then(|t| t.find('\n')).map_or(text.len(), |i| start + i);
    let line = text.get(line_start..line_end).unwrap_or_default().trim_end_matches('\r');
    let (from, to) = (start - line_start, (end.min(line_start + line.len())).saturating_sub(line_start));
    let (line_number, _) = position(text, line_start);
    let bom = if line_start == 0 && line.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
    let line = line.get(bom..).unwrap_or_default();
    let from = from.saturating_sub(bom).min(line.len());
    (line, line_number, from..to.saturating_sub(bom).clamp(from, line.len()))
}
