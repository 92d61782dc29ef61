//! What the laser cutter gets: the outline, the holes that are cut, and the marks, each apart.
//!
//! Separate from the finished plate, because a hole that is drilled or turned later is cut as a smaller pilot
//! or only marked.

use super::flat::{Opening, check_apart};
use super::{Circle, Contour, Flat, FlatHole, Point, ShapeError};
use crate::units::{Area, Length};

/// Something engraved, never cut through.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Mark {
    /// A circle.
    Circle(Circle),
    /// Two crossing lines, `size` long each: where to centre-punch.
    Cross {
        /// Where the lines cross.
        centre: Point,
        /// Length of each line.
        size: Length,
    },
    /// A line.
    Line {
        /// One end.
        from: Point,
        /// The other end.
        to: Point,
    },
}

/// Strokes of the figures 0 to 9, each from corner to corner of two squares, one over the other: 0 left and 1 right, 0 foot, 1 middle, 2
/// head.
type Stroke = ((u8, u8), (u8, u8));
const HEAD: Stroke = ((0, 2), (1, 2));
const MIDDLE: Stroke = ((0, 1), (1, 1));
const FOOT: Stroke = ((0, 0), (1, 0));
const UP_LEFT: Stroke = ((0, 1), (0, 2));
const UP_RIGHT: Stroke = ((1, 1), (1, 2));
const LOW_LEFT: Stroke = ((0, 0), (0, 1));
const LOW_RIGHT: Stroke = ((1, 0), (1, 1));
const FIGURES: [&[Stroke]; 10] = [
    &[HEAD, UP_RIGHT, LOW_RIGHT, FOOT, LOW_LEFT, UP_LEFT],
    &[UP_RIGHT, LOW_RIGHT],
    &[HEAD, UP_RIGHT, MIDDLE, LOW_LEFT, FOOT],
    &[HEAD, UP_RIGHT, MIDDLE, LOW_RIGHT, FOOT],
    &[UP_LEFT, MIDDLE, UP_RIGHT, LOW_RIGHT],
    &[HEAD, UP_LEFT, MIDDLE, LOW_RIGHT, FOOT],
    &[HEAD, UP_LEFT, LOW_LEFT, FOOT, LOW_RIGHT, MIDDLE],
    &[HEAD, UP_RIGHT, LOW_RIGHT],
    &[HEAD, MIDDLE, FOOT, UP_LEFT, UP_RIGHT, LOW_LEFT, LOW_RIGHT],
    &[MIDDLE, UP_LEFT, HEAD, UP_RIGHT, LOW_RIGHT, FOOT],
];

impl Mark {
    /// A figure from 0 to 9 about a middle, so high and half as wide, as lines; none for another number.
    pub fn figure(number: u32, middle: Point, height: Length) -> Vec<Self> {
        let half = height.as_mm() / 2.0;
        let at = |(x, y): (u8, u8)| {
            Point::mm(middle.x + half * (f64::from(x) - 0.5), middle.y + half * (f64::from(y) - 1.0))
        };
        let strokes = usize::try_from(number).ok().and_then(|n| FIGURES.get(n)).copied().unwrap_or_default();
        strokes.iter().map(|(from, to)| Self::Line { from: at(*from), to: at(*to) }).collect()
    }

    fn place(&self) -> Point {
        match self {
            Self::Circle(c) => c.centre,
            Self::Cross { centre, .. } => *centre,
            Self::Line { from, .. } => *from,
        }
    }
    fn has_size(&self) -> bool {
        match self {
            Self::Circle(c) => c.diameter > 0.0,
            Self::Cross { centre, size } => centre.check().is_ok() && size.is_finite() && size.as_mm() > 1e-3,
            Self::Line { from, to } => from.check().is_ok() && to.check().is_ok() && from.to(*to) > 1e-3,
        }
    }
}

/// A drawing for the laser.
#[derive(Clone, PartialEq, Debug)]
pub struct Cutting {
    outer: Contour,
    holes: Vec<Contour>,
    marks: Vec<Mark>,
}

impl Cutting {
    /// Checked: holes inside the outline and clear of each other, no mark twice.
    pub fn new(outer: Contour, cut_holes: Vec<Contour>, marks: Vec<Mark>) -> Result<Self, ShapeError> {
        let open = |c: &Contour| Opening { hole: FlatHole::Cut(c.clone()), widest: c.clone() };
        check_apart(&outer, &cut_holes.iter().map(open).collect::<Vec<_>>(), 1.0)?;
        for (i, mark) in marks.iter().enumerate() {
            if !mark.has_size() || marks.iter().take(i).any(|m| m == mark) {
                return Err(ShapeError::Mark(mark.place()));
            }
        }
        Ok(Self { outer, holes: cut_holes, marks })
    }

    /// Everything of a plate that goes straight through is cut at its smallest width; the centres of blind holes
    /// are marked with a cross of 3 mm.
    pub fn of_flat(flat: &Flat) -> Result<Self, ShapeError> {
        let (mut holes, mut marks) = (Vec::new(), Vec::new());
        for o in flat.openings() {
            match &o.hole {
                FlatHole::Bored(b) if b.smallest_diameter() > Length::ZERO => {
                    holes.push(Contour::circle(Circle::new(b.centre(), b.smallest_diameter())?)?);
                }
                FlatHole::Bored(b) => marks.push(Mark::Cross { centre: b.centre(), size: Length::mm(3.0) }),
                _ => holes.push(o.widest.clone()),
            }
        }
        Self::new(flat.outer().clone(), holes, marks)
    }

    /// The same with more to engrave.
    pub(super) fn with_marks(mut self, marks: Vec<Mark>) -> Self {
        self.marks.extend(marks);
        self
    }

    /// Outline to cut.
    pub fn outer(&self) -> &Contour {
        &self.outer
    }
    /// Holes to cut.
    pub fn holes(&self) -> &[Contour] {
        &self.holes
    }
    /// Marks to engrave.
    pub fn marks(&self) -> &[Mark] {
        &self.marks
    }
    /// Area that is left of the sheet: outline less cut holes.
    pub fn area(&self) -> Area {
        self.outer.area() - self.holes.iter().map(Contour::area).sum()
    }
}
