//! A sheet of paper as lines, areas and lettering, before anybody asks whether it becomes a PDF or an SVG.
//!
//! All numbers are millimetres on paper, from the lower left corner of the sheet, y upwards, angles in degrees
//! counter-clockwise. Everything is black on white.

pub mod annotation;
pub mod area;
pub mod arrange;
pub mod content;
pub mod detail;
pub mod flow;
pub mod font;
pub mod geometric;
pub mod hatch;
pub mod label;
pub mod landing_pictures;
pub mod leader;

pub mod layout;
pub mod of_design;
pub mod outlines;
pub mod path;
pub mod pictures;
pub mod place;
pub mod scale;
pub mod spans;
pub mod symbols;
pub mod table;
pub mod template;
pub mod title_block;
pub mod trace;
pub mod view;

pub use area::{Area, Point};
pub use path::{Contour, Path, Step};

/// Kinds of line: ISO 128-2:2020 clause 4 (line types 01, 02, 04, 05 and widths in the ratio 2:1).
/// The numbers of dash and gap are from memory of that standard.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Line {
    /// Visible edges and outlines.
    Wide,
    /// Dimension, extension and leader lines, hatching, rules of a table.
    Narrow,
    /// Edges behind the surface.
    Hidden,
    /// Axes and lines of symmetry.
    Centre,
    /// The outline of a neighbouring part.
    Adjacent,
    /// The frame of the sheet.
    Frame,
}

/// Smallest height of lettering on any sheet, mm.
pub const SMALL: f64 = 2.5;
/// Width of narrow lines, mm.
pub const NARROW: f64 = 0.25;
/// Width of wide lines, mm.
pub const WIDE: f64 = 0.5;

impl Line {
    /// Width, mm.
    pub fn width(self) -> f64 {
        match self {
            Self::Wide => WIDE,
            Self::Frame => 0.7,
            _ => NARROW,
        }
    }

    /// Lengths of dash and gap in turn, mm; empty for a continuous line.
    pub fn pattern(self) -> &'static [f64] {
        match self {
            Self::Hidden => &[3.0, 0.75],
            Self::Centre => &[6.0, 0.75, 0.5, 0.75],
            Self::Adjacent => &[6.0, 0.75, 0.5, 0.75, 0.5, 0.75],
            _ => &[],
        }
    }
}

/// How an area is filled.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Shade {
    /// Black.
    Black,
    /// Paper; covers what was drawn before.
    White,
    /// A light grey that survives a photocopier.
    Grey,
}

impl Shade {
    /// From 0 for black to 1 for white.
    pub fn level(self) -> f32 {
        match self {
            Self::Black => 0.0,
            Self::White => 1.0,
            Self::Grey => 0.85,
        }
    }
}

/// Which point of a line of lettering is placed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Anchor {
    /// Its beginning.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// One line of lettering.
#[derive(Clone, PartialEq, Debug)]
pub struct Text {
    /// Where the anchor lies, on the base line.
    pub at: Point,
    /// Height of a capital letter, mm.
    pub height: f64,
    /// Which point of the line is placed.
    pub anchor: Anchor,
    /// Turned by, degrees counter-clockwise.
    pub turn: f64,
    /// The words.
    pub words: String,
}

impl Text {
    /// Level lettering that begins at a point.
    pub fn new(at: Point, height: f64, words: impl Into<String>) -> Self {
        Self { at, height, anchor: Anchor::Start, turn: 0.0, words: font::printable(words) }
    }

    /// The same with another anchor.
    pub fn anchored(mut self, anchor: Anchor) -> Self {
        self.anchor = anchor;
        self
    }

    /// The same, turned.
    pub fn turned(mut self, turn: f64) -> Self {
        self.turn = turn;
        self
    }

    /// Length of the line, mm.
    pub fn width(&self) -> f64 {
        font::width(&self.words, self.height)
    }

    /// Where the lettering begins on the base line.
    pub fn start(&self) -> Point {
        let back = match self.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => self.width() / 2.0,
            Anchor::End => self.width(),
        };
        self.at.along(self.turn, -back)
    }

    /// The upright rectangle round the letters, tails included.
    pub fn area(&self) -> Area {
        let start = self.start();
        let end = start.along(self.turn, self.width());
        let (up, down) = (self.height * font::ABOVE, self.height * font::BELOW);
        let corners = [(start, up), (start, -down), (end, up), (end, -down)];
        Area::around(corners.iter().map(|(p, across)| p.along(self.turn + 90.0, *across)))
    }
}

/// One thing drawn.
#[derive(Clone, PartialEq, Debug)]
pub enum Mark {
    /// A line along a path; the pattern is stretched by the factor so that it ends on a dash.
    Stroke(Path, Line, f64),
    /// A filled path; holes by the even-odd rule.
    Fill(Path, Shade),
    /// Lettering.
    Text(Text),
}

impl Mark {
    /// A straight line; a centre line is fitted so that a dash lies at both ends and in the middle.
    pub fn line(from: Point, to: Point, line: Line) -> Self {
        let (fitted, stretch) = fit_pattern(from.distance(to), line);
        Self::Stroke(Path::open(from, vec![Step::Line(to)]), fitted, stretch)
    }

    /// A stroked path.
    pub fn stroke(path: Path, line: Line) -> Self {
        Self::Stroke(path, line, 1.0)
    }

    /// The smallest upright rectangle that holds the mark (lines without their width).
    pub fn area(&self) -> Area {
        match self {
            Self::Stroke(path, ..) | Self::Fill(path, _) => path.area(),
            Self::Text(text) => text.area(),
        }
    }

    /// The same mark moved.
    pub fn moved(&self, by: Point) -> Self {
        let mut moved = self.clone();
        moved.shift(by);
        moved
    }

    /// Moves it.
    pub fn shift(&mut self, by: Point) {
        match self {
            Self::Stroke(path, ..) | Self::Fill(path, _) => path.shift(by),
            Self::Text(text) => text.at = text.at + by,
        }
    }
}

/// A dashed line ends on a dash, and a centre line has a dash in its middle: the pattern is stretched to an even
/// number of repeats and one dash. A line too short for that is drawn continuous.
fn fit_pattern(length: f64, line: Line) -> (Line, f64) {
    let pattern = line.pattern();
    let (Some(dash), repeat) = (pattern.first(), pattern.iter().sum::<f64>()) else { return (line, 1.0) };
    let repeats = ((length - dash) / repeat / 2.0).round() * 2.0;
    if repeats < 2.0 { (Line::Narrow, 1.0) } else { (line, length / (repeats * repeat + dash)) }
}

/// One sheet.
#[derive(Clone, PartialEq, Debug)]
pub struct Page {
    /// Width of the paper, mm.
    pub width: f64,
    /// Height of the paper, mm.
    pub height: f64,
    /// What the sheet is, for readers that show a title.
    pub title: String,
    /// Everything on it, in the order of drawing.
    pub marks: Vec<Mark>,
}

impl Page {
    /// An empty sheet.
    pub fn new(width: f64, height: f64, title: impl Into<String>) -> Self {
        Self { width, height, title: font::printable(title), marks: Vec::new() }
    }

    /// The lines of lettering.
    pub fn texts(&self) -> impl Iterator<Item = &Text> {
        self.marks.iter().filter_map(|m| if let Mark::Text(t) = m { Some(t) } else { None })
    }

    /// A sheet cut to what is drawn on it, with a margin: for pictures that stand alone.
    #[allow(dead_code, reason = "tests make theirs with it")]
    pub fn cut_to(marks: &[Mark], margin: f64, title: &str) -> Self {
        let area = Area::of(marks).grown(margin);
        let by = Point::new(-area.left, -area.bottom);
        let mut page = Self::new(area.width(), area.height(), title);
        page.marks = marks.iter().map(|m| m.moved(by)).collect();
        page
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn centre_lines_end_on_a_dash_and_cross_on_a_dash() {
        for length in [9.0, 20.0, 33.3, 147.0] {
            let (line, stretch) = fit_pattern(length, Line::Centre);
            let repeat = 8.0 * stretch;
            if line == Line::Centre {
                let repeats = (length - 6.0 * stretch) / repeat;
                assert!((repeats - repeats.round()).abs() < 1e-9 && repeats.round() % 2.0 == 0.0, "{length}");
                assert!((0.6..1.7).contains(&stretch), "{length} {stretch}");
            } else {
                assert!(length < 15.0);
            }
        }
    }

    #[test]
    fn letters_turned_upwards_stand_left_of_their_base_line() {
        let area = Text::new(Point::new(50.0, 50.0), 3.5, "Ø25 H7").turned(90.0).area();
        assert!((area.left - (50.0 - 3.5 * font::ABOVE)).abs() < 1e-9, "{area:?}");
        assert!((area.right - (50.0 + 3.5 * font::BELOW)).abs() < 1e-9, "{area:?}");
        assert!((area.bottom - 50.0).abs() < 1e-9, "{area:?}");
    }
}
