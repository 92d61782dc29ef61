//! Lines and arcs joined end to end, on paper.

use crate::sheet::area::{Area, Point};

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

    fn shift(&mut self, by: Point) {
        match self {
            Self::Line(to) => *to = *to + by,
            Self::Arc { centre, to, .. } => (*centre, *to) = (*centre + by, *to + by),
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

    /// The smallest upright rectangle round the points along it.
    fn area(&self, chord: f64) -> Area {
        self.pieces().fold(Area::around([self.start]), |area, (from, step)| {
            let area = area.with(Area::around([step.to()]));
            match step {
                Step::Line(_) => area,
                Step::Arc { centre, sweep, .. } => {
                    area.with(Area::around(Chords::of(from, centre, sweep, chord).outermost()))
                }
            }
        })
    }

    /// Points along it, arcs cut into chords of at most `chord` degrees; closed contours end where they began.
    pub fn points(&self, chord: f64) -> Vec<Point> {
        let mut points = vec![self.start];
        for (from, step) in self.pieces() {
            match step {
                Step::Line(to) => points.push(to),
                Step::Arc { centre, sweep, to } => {
                    points.extend(Chords::of(from, centre, sweep, chord).inner());
                    points.push(to);
                }
            }
        }
        if self.closed && points.last() != Some(&self.start) {
            points.push(self.start);
        }
        points
    }
}

/// The circle of an arc cut into equal chords.
struct Chords {
    centre: Point,
    radius: f64,
    start: f64,
    sweep: f64,
    count: usize,
}

impl Chords {
    /// Chords of at most `chord` degrees.
    fn of(from: Point, centre: Point, sweep: f64, chord: f64) -> Self {
        let count = (sweep.abs() / chord).ceil().clamp(1.0, 720.0) as usize;
        Self { centre, radius: centre.distance(from), start: centre.direction(from), sweep, count }
    }

    /// The end of one of them.
    fn end(&self, i: usize) -> Point {
        self.centre.along(self.start + self.sweep * i as f64 / self.count as f64, self.radius)
    }

    /// The ends between both ends of the arc.
    fn inner(&self) -> impl Iterator<Item = Point> + '_ {
        (1..self.count).map(|i| self.end(i))
    }

    /// Those of the inner ends that may lie farthest to a side: the two round each place where the arc runs level or
    /// upright.
    fn outermost(&self) -> impl Iterator<Item = Point> + '_ {
        let (a, b) = (self.start / 90.0, (self.start + self.sweep) / 90.0);
        let quarters = a.min(b).floor() as i64..=a.max(b).ceil() as i64;
        let before = |q: i64| (q as f64 * 90.0 - self.start) / self.sweep * self.count as f64;
        let round = quarters.flat_map(move |q| [before(q).floor(), before(q).floor() + 1.0]);
        round.filter(|i| (1.0..self.count as f64).contains(i)).map(|i| self.end(i as usize))
    }
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
        self.contours.iter().fold(Area::EMPTY, |area, c| area.with(c.area(1.5)))
    }

    /// Moves it.
    pub fn shift(&mut self, by: Point) {
        for contour in &mut self.contours {
            contour.start = contour.start + by;
            contour.steps.iter_mut().for_each(|step| step.shift(by));
        }
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_rectangle_of_an_arc_is_that_of_all_its_chords() {
        let centre = Point::new(12.5, -3.25);
        for (start, sweep) in
            (0..72).flat_map(|i| [-360.0, -181.0, -90.0, -3.0, 1.0, 44.7, 180.0, 359.0].map(|s| (i, s)))
        {
            let start = centre.along(f64::from(start) * 5.0 + 0.1, 17.3);
            let contour = Contour { start, steps: vec![Step::arc(start, centre, sweep)], closed: false };
            assert_eq!(contour.area(1.5), Area::around(contour.points(1.5)));
        }
    }
}
