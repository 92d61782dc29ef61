//! What stands on a dimension line: the size in large figures, its deviations in smaller ones behind it.

use crate::page::area::{Area, Point};
use crate::page::{Mark, Text, font};

/// Height of the figures of a size, mm (ISO 3098 series 2.5, 3.5, 5, 7).
pub const SIZE: f64 = 3.5;
/// Smallest height of lettering on any sheet, mm.
pub const SMALL: f64 = 2.5;
/// Distance between two pieces of one line, and between lettering and the line under it, mm.
pub const GAP: f64 = 1.0;

/// Lettering of one or more lines, each of pieces that may differ in height.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Label {
    /// The lines from top to bottom; each piece with the height of its capitals.
    pub lines: Vec<Vec<(String, f64)>>,
}

impl Label {
    /// One line: the size large and, where it is not empty, what follows in small.
    pub fn new(size: &str, tail: &str) -> Self {
        let mut line = vec![(font::printable(size), SIZE)];
        if !tail.is_empty() {
            line.push((font::printable(tail), SMALL));
        }
        Self { lines: vec![line] }
    }

    /// The same with one more line in small lettering.
    pub fn and(mut self, words: &str) -> Self {
        self.lines.push(vec![(font::printable(words), SMALL)]);
        self
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

    /// The lettering in a frame with its origin at the lower left corner of the label, turned by `turn` degrees:
    /// `corner` is that corner on paper.
    pub fn marks(&self, corner: Point, turn: f64) -> Vec<Mark> {
        let mut marks = Vec::new();
        let mut up = self.height();
        for line in &self.lines {
            up -= line_height(line) * font::ABOVE;
            let mut along = 0.0;
            for (words, height) in line {
                let at = corner.along(turn, along).along(turn + 90.0, up);
                marks.push(Mark::Text(Text::new(at, *height, words.as_str()).turned(turn)));
                along += font::width(words, *height) + GAP;
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

fn line_width(line: &[(String, f64)]) -> f64 {
    let gaps = GAP * line.len().saturating_sub(1) as f64;
    line.iter().map(|(words, height)| font::width(words, *height)).sum::<f64>() + gaps
}

fn line_height(line: &[(String, f64)]) -> f64 {
    line.iter().map(|(_, height)| *height).fold(0.0, f64::max)
}
