//! Ruled tables: columns of given width, cells of one or more lines.

use crate::sheet::SMALL;
use crate::sheet::area::{Area, Point};
use crate::sheet::label::SIZE;
use crate::sheet::{Anchor, Line, Mark, Path, Text, font};

/// Distance of lettering from the rules, mm.
const INSET: f64 = 1.5;
/// The same above and below it, mm.
const ABOVE: f64 = 1.1;
/// What a column leaves beside its lettering, against rounding, mm.
const SLACK: f64 = 0.01;
/// Free height between two lines of a cell, in heights of the lettering.
const LEADING: f64 = 0.7;

/// A column.
#[derive(Clone, PartialEq, Debug)]
pub struct Column {
    /// Width, mm.
    pub width: f64,
    /// Where lettering is set.
    pub anchor: Anchor,
    /// How far the decimal point of its figures stands from its left edge, mm, where all of it are figures.
    point: Option<f64>,
}

impl Column {
    /// Lettering at the left.
    pub fn left(width: f64) -> Self {
        Self { width, anchor: Anchor::Start, point: None }
    }
    /// Lettering in the middle.
    pub fn middle(width: f64) -> Self {
        Self { width, anchor: Anchor::Middle, point: None }
    }
}

/// Columns of figures with their decimal points under each other; what begins with no figure is left as it is.
pub fn on_the_point(columns: &mut [Column], rows: &[Vec<Cell>]) {
    for (i, column) in columns.iter_mut().enumerate() {
        let cells = || rows.iter().filter_map(|row| row.get(i));
        // Nothing to measure, or nothing found.
        let told = |(words, _): &&(String, f64)| !words.is_empty() && words != "-" && words != "–";
        let mut firsts = cells().filter_map(|cell| cell.0.first()).filter(told);
        if !firsts.all(|(words, height)| halves(words, *height).is_some()) {
            continue;
        }
        let lines = cells().flat_map(|cell| &cell.0).filter(told);
        let parts: Vec<(f64, f64)> = lines.filter_map(|(words, height)| halves(words, *height)).collect();
        if parts.len() < 2 {
            continue;
        }
        let most = |of: fn(&(f64, f64)) -> f64| parts.iter().map(of).fold(0.0, f64::max);
        let (before, behind) = (most(|p| p.0), most(|p| p.1));
        let free = column.width - 2.0 * INSET - before - behind;
        if free >= 0.0 {
            let left = if column.anchor == Anchor::Middle { free / 2.0 } else { 0.0 };
            column.point = Some(INSET + left + before);
        }
    }
}

/// Widths of a figure before its decimal point and of all that stands from the point on.
fn halves(words: &str, height: f64) -> Option<(f64, f64)> {
    let first = words.split(' ').next().unwrap_or_default();
    let digits = first.trim_end_matches(|c: char| !c.is_ascii_digit()).replace('−', "-");
    digits.parse::<f64>().ok()?;
    let end = words.find(|c: char| !c.is_ascii_digit() && c != '-' && c != '−' && c != '+').unwrap_or(words.len());
    let (before, behind) = words.split_at_checked(end)?;
    Some((font::width(before, height), font::width(behind, height)))
}

/// The lines of a cell with the height of their capitals.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Cell(pub Vec<(String, f64)>);

impl Cell {
    /// One text, broken into lines later.
    pub fn new(words: impl Into<String>, height: f64) -> Self {
        Self(vec![(words.into(), height)])
    }

    /// The same with one more text under it.
    pub fn and(mut self, words: impl Into<String>, height: f64) -> Self {
        let words = words.into();
        if !words.is_empty() {
            self.0.push((words, height));
        }
        self
    }

    /// Width of its longest text on one line, mm.
    fn whole(&self) -> f64 {
        self.0.iter().map(|(words, height)| font::width(words, *height)).fold(0.0, f64::max)
    }

    /// Width of a column that holds it unbroken, mm.
    pub fn width(&self) -> f64 {
        self.whole() + 2.0 * INSET + SLACK
    }

    /// Width of what cannot be broken, mm.
    fn least(&self) -> f64 {
        self.0.iter().map(|(words, height)| widest_piece(words, *height)).fold(0.0, f64::max)
    }

    /// The lines that fit a width. Large figures stay on one line, and a single word that is too long is set smaller,
    /// down to the smallest height.
    fn lines(&self, room: f64) -> Vec<(String, f64)> {
        let fitted = self.0.iter().filter(|(words, _)| !words.is_empty()).map(|(words, height)| {
            let whole = font::width(words, *height);
            let widest = if *height > SIZE || whole <= room { whole } else { widest_piece(words, *height) };
            (words, if widest > room { (height * (room - SLACK) / widest).max(SMALL) } else { *height })
        });
        fitted.flat_map(|(words, h)| font::wrap(words, h, room).into_iter().map(move |l| (l, h))).collect()
    }
}

/// One row, laid out to its columns.
pub struct Row {
    cells: Vec<(Vec<(String, f64)>, Column)>,
    /// Height, mm.
    pub height: f64,
}

impl Row {
    /// A row at least `least` high.
    pub fn new(columns: &[Column], cells: &[Cell], least: f64) -> Self {
        let lines = |(cell, column): (&Cell, &Column)| (cell.lines(column.width - 2.0 * INSET), column.clone());
        let cells: Vec<_> = cells.iter().zip(columns).map(lines).collect();
        let height = cells.iter().map(|(l, _)| stack_height(l) + 2.0 * ABOVE).fold(least, f64::max);
        Self { cells, height }
    }

    /// The row with its upper left corner at a point.
    pub fn marks(&self, corner: Point) -> Vec<Mark> {
        let mut marks = Vec::new();
        let mut x = corner.x;
        for (lines, column) in &self.cells {
            let cell = Area::new(x, corner.y - self.height, column.width, self.height);
            marks.push(Mark::stroke(Path::rectangle(cell), Line::Narrow));
            marks.extend(set_lines(lines, cell, column));
            x += column.width;
        }
        marks
    }
}

fn stack_height(lines: &[(String, f64)]) -> f64 {
    let all: f64 = lines.iter().map(|(_, h)| h * (1.0 + LEADING)).sum();
    all - lines.last().map_or(0.0, |(_, h)| h * (LEADING - font::BELOW))
}

fn set_lines(lines: &[(String, f64)], cell: Area, column: &Column) -> Vec<Mark> {
    let x = match column.anchor {
        Anchor::Start => cell.left + INSET,
        Anchor::Middle => cell.centre().x,
        Anchor::End => cell.right - INSET,
    };
    let mut y = cell.centre().y + stack_height(lines) / 2.0;
    let mut marks = Vec::new();
    for (words, height) in lines {
        let pointed =
            column.point.and_then(|point| Some((cell.left + point - halves(words, *height)?.0, Anchor::Start)));
        let (x, anchor) = pointed.unwrap_or((x, column.anchor));
        marks.push(Mark::Text(Text::new(Point::new(x, y - height), *height, words.as_str()).anchored(anchor)));
        y -= height * (1.0 + LEADING);
    }
    marks
}

/// Width of the longest piece that is not broken over two lines, mm.
fn widest_piece(words: &str, height: f64) -> f64 {
    font::pieces(words).iter().map(|w| font::width(w, height)).fold(0.0, f64::max)
}

/// Widths for columns of text so that together they fill `room`: each as wide as its longest word or its longest
/// number with its unit, and the rest shared out to those that would still have to break their lines.
pub fn widths(header: &[Cell], rows: &[Vec<Cell>], room: f64) -> Vec<Column> {
    let of = |i: usize, width: fn(&Cell) -> f64| {
        let cells = rows.iter().filter_map(|r| r.get(i)).chain(header.get(i));
        cells.map(width).fold(6.0, f64::max) + 2.0 * INSET + SLACK
    };
    let least: Vec<f64> = (0..header.len()).map(|i| of(i, Cell::least).min(room * 0.35)).collect();
    let asked: Vec<f64> = (0..header.len()).map(|i| of(i, Cell::whole).min(room * 0.6)).collect();
    let (needed, wanted): (f64, f64) = (least.iter().sum(), asked.iter().sum());
    let share = ((room - needed) / (wanted - needed).max(1e-9)).clamp(0.0, 1.0);
    let given: Vec<f64> = least.iter().zip(&asked).map(|(l, a)| l + (a - l).max(0.0) * share).collect();
    let total: f64 = given.iter().sum();
    given.iter().map(|w| Column::left(w * room / total)).collect()
}
