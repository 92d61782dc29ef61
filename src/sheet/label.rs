//! What stands on a dimension line: the size in large figures, its deviations in smaller ones behind it.

use crate::record::drawing::Characteristic;
use crate::sheet::area::{Area, Point};
use crate::sheet::symbols::Sign;
use crate::sheet::{Line, Mark, Path, SMALL, Text, font, geometric};

/// Height of the figures of a size, mm (ISO 3098 series 2.5, 3.5, 5, 7).
pub const SIZE: f64 = 3.5;
/// Distance between two pieces of one line, and between lettering and the line under it, mm.
pub const GAP: f64 = 1.0;

/// A piece of a line of a label.
#[derive(Clone, PartialEq, Debug)]
pub enum Piece {
    /// Words, with the height of their capitals in mm.
    Words(String, f64),
    /// A drawn sign, with its height.
    Sign(Sign, f64),
    /// Fields in a row, each in a box: a tolerance frame (ISO 1101), the letter of a datum (ISO 5459).
    Boxed(Vec<Field>),
}

/// One box of a row.
#[derive(Clone, PartialEq, Debug)]
pub enum Field {
    /// What is held.
    Sign(Characteristic),
    /// Words.
    Words(String),
}

/// Height of a box, mm: twice the height of its letters (ISO 7083, from memory).
pub const BOX: f64 = 2.0 * SMALL;

impl Field {
    fn width(&self) -> f64 {
        match self {
            Self::Sign(_) => BOX,
            Self::Words(words) => (font::width(words, SMALL) + 2.0 * GAP).max(BOX),
        }
    }

    fn marks(&self, corner: Point, turn: f64) -> Vec<Mark> {
        let p = |x: f64, y: f64| corner.along(turn, x).along(turn + 90.0, y);
        let (w, inset) = (self.width(), (BOX - SMALL) / 2.0);
        let mut marks =
            vec![Mark::stroke(Path::polygon(&[p(0.0, 0.0), p(w, 0.0), p(w, BOX), p(0.0, BOX)]), Line::Narrow)];
        match self {
            Self::Sign(what) => marks.extend(geometric::sign(*what, p(inset, inset), SMALL, turn)),
            Self::Words(words) => {
                let start = (w - font::width(words, SMALL)) / 2.0;
                marks.push(Mark::Text(Text::new(p(start, inset), SMALL, words.as_str()).turned(turn)));
            }
        }
        marks
    }
}

impl Piece {
    fn width(&self) -> f64 {
        match self {
            Self::Words(words, height) => font::width(words, *height),
            Self::Sign(sign, height) => sign.width() * height,
            Self::Boxed(fields) => fields.iter().map(Field::width).sum(),
        }
    }

    /// What it needs over its base line, mm.
    fn above(&self) -> f64 {
        match self {
            Self::Words(_, height) | Self::Sign(_, height) => *height * font::ABOVE,
            Self::Boxed(_) => BOX,
        }
    }

    /// What it needs under its base line, mm.
    fn below(&self) -> f64 {
        match self {
            Self::Words(_, height) | Self::Sign(_, height) => *height * font::BELOW,
            Self::Boxed(_) => 0.0,
        }
    }
}

/// Lettering of one or more lines, each of pieces that may differ in height.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Label {
    /// The lines from top to bottom.
    pub lines: Vec<Vec<Piece>>,
}

impl Label {
    /// One line: the size large and, where it is not empty, what follows in small.
    pub fn new(size: &str, tail: &str) -> Self {
        let mut line = vec![Piece::Words(font::printable(size), SIZE)];
        if !tail.is_empty() {
            line.push(Piece::Words(font::printable(tail), SMALL));
        }
        Self { lines: vec![line] }
    }

    /// One line of small words.
    pub fn small(words: &str) -> Self {
        Self { lines: vec![vec![Piece::Words(font::printable(words), SMALL)]] }
    }

    /// The same with words set before it, without a gap: `Ø`, `R`, `4× Ø`.
    pub fn after(mut self, before: &str) -> Self {
        if let Some(Piece::Words(words, _)) = self.lines.first_mut().and_then(|l| l.first_mut()) {
            words.insert_str(0, before);
        }
        self
    }

    /// The same with words set behind its size, without a gap: ` × 45°`.
    pub fn before(mut self, behind: &str) -> Self {
        if let Some(Piece::Words(words, _)) = self.lines.first_mut().and_then(|l| l.first_mut()) {
            words.push_str(behind);
        }
        self
    }

    /// The same with a sign before it.
    pub fn signed(mut self, sign: Sign) -> Self {
        if let Some(line) = self.lines.first_mut() {
            line.insert(0, Piece::Sign(sign, SIZE));
        }
        self
    }

    /// Fields in boxes.
    pub fn boxed(fields: Vec<Field>) -> Self {
        Self { lines: vec![vec![Piece::Boxed(fields)]] }
    }

    /// It consists of boxes only, which a leader meets at their side.
    pub fn is_boxed(&self) -> bool {
        self.lines.iter().flatten().all(|p| matches!(p, Piece::Boxed(_)))
    }

    /// The same with the lines of another under it.
    pub fn over(mut self, other: Self) -> Self {
        self.lines.extend(other.lines);
        self
    }

    /// The same with words and the first line of another behind its last; words that begin with a line feed begin a new
    /// line.
    pub fn with(mut self, words: &str, other: &Self) -> Self {
        let mut more = other.lines.first().cloned().unwrap_or_default();
        if let Some(Piece::Words(first, _)) = more.first_mut() {
            // Pieces of a line stand apart as it is.
            first.insert_str(0, words.trim_start());
        }
        match self.lines.last_mut() {
            Some(line) if !words.starts_with('\n') => line.extend(more),
            _ => self.lines.push(more),
        }
        self
    }

    /// The same in brackets.
    pub fn bracketed(mut self) -> Self {
        if let Some(Piece::Words(words, _)) = self.lines.last_mut().and_then(|l| l.last_mut()) {
            words.push(')');
        }
        self.after("(")
    }

    /// The size alone, without what follows in small.
    pub fn figure(&self) -> Option<&str> {
        match self.lines.first().and_then(|l| l.first()) {
            Some(Piece::Words(words, _)) => Some(words),
            _ => None,
        }
    }

    /// The same with every piece on a line of its own, where there is only one line of words.
    pub fn stacked(&self) -> Self {
        match self.lines.as_slice() {
            [line] if line.iter().all(|p| matches!(p, Piece::Words(..))) => {
                Self { lines: line.iter().map(|p| vec![p.clone()]).collect() }
            }
            _ => self.clone(),
        }
    }

    /// Width, mm.
    pub fn width(&self) -> f64 {
        self.lines.iter().map(|l| line_width(l)).fold(0.0, f64::max)
    }

    /// Height from the tails of the lowest line to the top of the highest, mm.
    pub fn height(&self) -> f64 {
        let gaps = GAP * self.lines.len().saturating_sub(1) as f64;
        self.lines.iter().map(|l| line_above(l) + line_below(l)).sum::<f64>() + gaps
    }

    /// The lettering with the lower left corner of the label (in its own frame) at a point, turned by `turn` degrees.
    pub fn marks(&self, corner: Point, turn: f64) -> Vec<Mark> {
        let mut marks = Vec::new();
        let mut up = self.height();
        for line in &self.lines {
            up -= line_above(line);
            let mut along = 0.0;
            for piece in line {
                let at = corner.along(turn, along).along(turn + 90.0, up);
                match piece {
                    Piece::Words(words, height) => {
                        marks.push(Mark::Text(Text::new(at, *height, words.as_str()).turned(turn)));
                    }
                    Piece::Sign(sign, height) => marks.extend(sign.marks(at, *height, turn)),
                    Piece::Boxed(fields) => {
                        let mut corner = at;
                        for field in fields {
                            marks.extend(field.marks(corner, turn));
                            corner = corner.along(turn, field.width());
                        }
                    }
                }
                along += piece.width() + GAP;
            }
            up -= line_below(line) + GAP;
        }
        marks
    }

    /// The rectangle it covers, for a turn of 0 or 90 degrees.
    pub fn area(&self, corner: Point, turn: f64) -> Area {
        let far = corner.along(turn, self.width()).along(turn + 90.0, self.height());
        Area::around([corner, far])
    }
}

fn line_width(line: &[Piece]) -> f64 {
    let gaps = GAP * line.len().saturating_sub(1) as f64;
    line.iter().map(Piece::width).sum::<f64>() + gaps
}

fn line_above(line: &[Piece]) -> f64 {
    line.iter().map(Piece::above).fold(0.0, f64::max)
}

fn line_below(line: &[Piece]) -> f64 {
    line.iter().map(Piece::below).fold(0.0, f64::max)
}
