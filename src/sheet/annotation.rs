//! What dimensions leave on a view: lines, arrows and labels, and the room that they take.

use crate::sheet::area::{Area, Point};
use crate::sheet::label::Label;
use crate::sheet::{Line, Mark, Path, Shade};

/// Length of an arrow head, mm; three times its width (ISO 129-1).
pub const HEAD: f64 = 3.5;

/// An arrow: its tip, and the far end of the straight line that carries it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Arrow {
    /// The point.
    pub tip: Point,
    /// End of the line behind it.
    pub from: Point,
}

impl Arrow {
    /// The filled head.
    pub fn head(&self) -> Path {
        let back = self.tip.direction(self.from);
        let heel = self.tip.along(back, HEAD);
        Path::polygon(&[self.tip, heel.along(back + 90.0, HEAD / 6.0), heel.along(back - 90.0, HEAD / 6.0)])
    }
}

/// Dimensions as drawn, with what is needed to keep others clear of them.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Annotation {
    /// What is drawn.
    pub marks: Vec<Mark>,
    /// The rectangle of each label.
    pub labels: Vec<Area>,
    /// The arrows.
    pub arrows: Vec<Arrow>,
    /// Straight lines (arcs as chords).
    pub lines: Vec<(Point, Point)>,
    /// Those of them that carry the arrows of a size: nothing is to cross them.
    pub dimension_lines: Vec<(Point, Point)>,
    /// Names of the dimensions and notes that found no room.
    pub left_out: Vec<String>,
}

impl Annotation {
    /// Adds a narrow line.
    pub fn line(&mut self, from: Point, to: Point) {
        self.marks.push(narrow(from, to));
        self.lines.push((from, to));
    }

    /// Adds a line that carries the arrows of a size.
    pub fn dimension_line(&mut self, from: Point, to: Point) {
        self.line(from, to);
        self.dimension_lines.push((from, to));
    }

    /// Adds an arrow head; the line is drawn apart.
    pub fn arrow(&mut self, arrow: Arrow) {
        self.marks.push(Mark::Fill(arrow.head(), Shade::Black));
        self.arrows.push(arrow);
    }

    /// Adds the triangle of a datum in place of a head, its base on the surface.
    pub fn triangle(&mut self, arrow: Arrow) {
        let away = arrow.tip.direction(arrow.from);
        let side = |turn: f64| arrow.tip.along(away + turn, HEAD / 2.0);
        let corners = [side(90.0), side(-90.0), arrow.tip.along(away, HEAD * 0.8)];
        self.marks.push(Mark::Fill(Path::polygon(&corners), Shade::Black));
        self.arrows.push(arrow);
    }

    /// Adds a label with its lower left corner (in the label's own frame) at a point.
    pub fn label(&mut self, label: &Label, corner: Point, turn: f64) {
        // A line ends at the side of boxes, which is no line through them.
        let within = if label.is_boxed() { -0.05 } else { 0.0 };
        self.labels.push(label.area(corner, turn).grown(within));
        self.marks.extend(label.marks(corner, turn));
    }

    pub(super) fn append(&mut self, mut other: Self) {
        self.marks.append(&mut other.marks);
        self.labels.append(&mut other.labels);
        self.arrows.append(&mut other.arrows);
        self.lines.append(&mut other.lines);
        self.dimension_lines.append(&mut other.dimension_lines);
        self.left_out.append(&mut other.left_out);
    }

    pub(super) fn heads(&self) -> Vec<Area> {
        self.arrows.iter().map(|a| a.head().area()).collect()
    }

    pub(super) fn taken(&self) -> Vec<Area> {
        self.labels.iter().copied().chain(self.heads()).collect()
    }
}

/// A narrow line as a mark.
pub fn narrow(from: Point, to: Point) -> Mark {
    Mark::line(from, to, Line::Narrow)
}
