//! Lines and arcs joined end to end, on paper.

use crate::page::area::{Area, Point};

/// The next piece of a contour.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Step {
    /// Straight to a point.
    Line(Point),
    /// Along a circle round `centre`, by `sweep` degrees (positive: counter-clockwise), to the point `to`.
    Arc {
        /// Centre of the circle.
        centre: Point,
        /// Degrees turned through.
        sweep: f64,
        /// Where it ends.
        to: Point,
    },
}

impl Step {
    /// Where it ends.
    pub fn to(&self) -> Point {
        match self {
            Self::Line(to) | Self::Arc { to, .. } => *to,
        }
    }

    /// An arc from a point round a centre.
    pub fn arc(from: Point, centre: Point, sweep: f64) -> Self {
        let start = centre.direction(from);
        Self::Arc { centre, sweep, to: centre.along(start + sweep, centre.distance(from)) }
    }

    fn moved(self, by: Point) -> Self {
        match self {
            Self::Line(to) => Self::Line(to + by),
            Self::Arc { centre, sweep, to } => Self::Arc { centre: centre + by, sweep, to: to + by },
        }
    }
}

/// Pieces joined end to end.
#[derive(Clone, PartialEq, Debug)]
pub struct Contour {
    /// Where it begins.
    pub start: Point,
    /// The pieces.
    pub steps: Vec<Step>,
    /// The end is joined to the beginning.
    pub closed: bool,
}

impl Contour {
    /// Straight pieces through points, open or closed.
    pub fn through(points: &[Point], closed: bool) -> Option<Self> {
        let (start, rest) = points.split_first()?;
        Some(Self { start: *start, steps: rest.iter().map(|p| Step::Line(*p)).collect(), closed })
    }

    /// A whole circle.
    pub fn circle(centre: Point, radius: f64) -> Self {
        let start = centre + Point::new(radius, 0.0);
        let half = centre - Point::new(radius, 0.0);
        let steps = vec![Step::Arc { centre, sweep: 180.0, to: half }, Step::Arc { centre, sweep: 180.0, to: start }];
        Self { start, steps, closed: true }
    }

    /// Each piece with the point from which it begins; a closing line is not among them.
    pub fn pieces(&self) -> impl Iterator<Item = (Point, Step)> + '_ {
        let starts = std::iter::once(self.start).chain(self.steps.iter().map(Step::to));
        starts.zip(self.steps.iter().copied())
    }

    /// Points along it, arcs cut into chords of at most `chord` degrees; closed contours end where they began.
    pub fn points(&self, chord: f64) -> Vec<Point> {
        let mut points = vec![self.start];
        for (from, step) in self.pieces() {
            match step {
                Step::Line(to) => points.push(to),
                Step::Arc { centre, sweep, to } => points.extend(chords(from, centre, sweep, to, chord)),
            }
        }
        if self.closed && points.last() != Some(&self.start) {
            points.push(self.start);
        }
        points
    }
}

fn chords(from: Point, centre: Point, sweep: f64, to: Point, chord: f64) -> Vec<Point> {
    let count = (sweep.abs() / chord).ceil().clamp(1.0, 720.0) as usize;
    let (start, radius) = (centre.direction(from), centre.distance(from));
    let inner = (1..count).map(|i| centre.along(start + sweep * i as f64 / count as f64, radius));
    inner.chain(std::iter::once(to)).collect()
}

/// Several contours that are drawn or filled together.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Path {
    /// The contours.
    pub contours: Vec<Contour>,
}

impl Path {
    /// One open contour.
    pub fn open(start: Point, steps: Vec<Step>) -> Self {
        Self { contours: vec![Contour { start, steps, closed: false }] }
    }

    /// One closed contour through points.
    pub fn polygon(points: &[Point]) -> Self {
        Self { contours: Contour::through(points, true).into_iter().collect() }
    }

    /// One open contour through points.
    pub fn polyline(points: &[Point]) -> Self {
        Self { contours: Contour::through(points, false).into_iter().collect() }
    }

    /// A circle.
    pub fn circle(centre: Point, radius: f64) -> Self {
        Self { contours: vec![Contour::circle(centre, radius)] }
    }

    /// A rectangle.
    pub fn rectangle(area: Area) -> Self {
        Self::polygon(&area.corners())
    }

    /// The smallest upright rectangle round it (arcs to a hundredth of a percent of their radius).
    pub fn area(&self) -> Area {
        Area::around(self.contours.iter().flat_map(|c| c.points(1.5)))
    }

    /// The same, moved.
    pub fn moved(&self, by: Point) -> Self {
        let moved = |c: &Contour| Contour {
            start: c.start + by,
            steps: c.steps.iter().map(|s| s.moved(by)).collect(),
            closed: c.closed,
        };
        Self { contours: self.contours.iter().map(moved).collect() }
    }

    /// Its edges as straight chords.
    pub fn chords(&self, chord: f64) -> Vec<(Point, Point)> {
        let mut edges = Vec::new();
        for contour in &self.contours {
            let points = contour.points(chord);
            edges.extend(points.iter().copied().zip(points.iter().skip(1).copied()));
        }
        edges
    }
}
