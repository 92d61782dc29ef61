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

impl Mark {
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
        check_apart(&outer, &cut_holes.iter().map(open).collect::<Vec<_>>())?;
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
