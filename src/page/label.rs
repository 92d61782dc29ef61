//! What stands on a dimension line: the size in large figures, its deviations in smaller ones behind it.

use crate::page::area::{Area, Point};
use crate::page::symbols::Sign;
use crate::page::{Mark, Text, font};

/// Height of the figures of a size, mm (ISO 3098 series 2.5, 3.5, 5, 7).
pub const SIZE: f64 = 3.5;
/// Smallest height of lettering on any sheet, mm.
pub const SMALL: f64 = 2.5;
/// Distance between two pieces of one line, and between lettering and the line under it, mm.
pub const GAP: f64 = 1.0;

/// A piece of a line of a label.
#[derive(Clone, PartialEq, Debug)]
pub enum Piece {
    /// Words, with the height of their capitals in mm.
    Words(String, f64),
    /// A drawn sign, with its height.
    Sign(Sign, f64),
}

impl Piece {
    fn width(&self) -> f64 {
        match self {
            Self::Words(words, height) => font::width(words, *height),
            Self::Sign(sign, height) => sign.width() * height,
        }
    }

    fn height(&self) -> f64 {
        match self {
            Self::Words(_, height) | Self::Sign(_, height) => *height,
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

    /// The same with one more line in small lettering.
    pub fn and(mut self, words: &str) -> Self {
        self.lines.push(vec![Piece::Words(font::printable(words), SMALL)]);
        self
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
        self.lines.iter().map(|l| line_height(l) * (font::ABOVE + font::BELOW)).sum::<f64>() + gaps
    }

    /// The lettering with the lower left corner of the label (in its own frame) at a point, turned by `turn` degrees.
    pub fn marks(&self, corner: Point, turn: f64) -> Vec<Mark> {
        let mut marks = Vec::new();
        let mut up = self.height();
        for line in &self.lines {
            up -= line_height(line) * font::ABOVE;
            let mut along = 0.0;
            for piece in line {
                let at = corner.along(turn, along).along(turn + 90.0, up);
                match piece {
                    Piece::Words(words, height) => {
                        marks.push(Mark::Text(Text::new(at, *height, words.as_str()).turned(turn)));
                    }
                    Piece::Sign(sign, height) => marks.extend(sign.marks(at, *height, turn)),
                }
                along += piece.width() + GAP;
            }
            up -= line_height(line) * font::BELOW + GAP;
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

fn line_height(line: &[Piece]) -> f64 {
    line.iter().map(Piece::height).fold(0.0, f64::max)
}
