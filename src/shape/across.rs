//! A hole through one wall of a plate, square to two straight edges of its outline, such as that of a screw through an ear.

use super::contour::positive;
use super::{CLOSEST_EDGES, Contour, Point, Segment, ShapeError, meeting};
use crate::units::{Angle, Length};

/// A hole across a plate.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct CrossHole {
    /// Diameter, mm.
    diameter: f64,
    /// Height of its axis over the lower face, mm.
    height: f64,
    /// The edge of the outline that it comes out of, and where; the edge that it goes in by.
    pub(crate) ends: [(usize, Point); 2],
}

impl CrossHole {
    /// Through the metal at a point of the outline's inside, in a direction, at a height over the lower face of a plate so thick. Both
    /// edges that it meets are straight, square to it, and reach beyond it.
    pub(crate) fn through(
        outer: &Contour,
        thickness: f64,
        (at, direction): (Point, Angle),
        height: Length,
        diameter: Length,
    ) -> Result<Self, ShapeError> {
        let diameter = positive(diameter, "diameter of the cross hole")?;
        let off = ShapeError::CrossHoleOffWall(at.check()?);
        if !height.is_finite() || !direction.is_finite() {
            return Err(ShapeError::NotFinite);
        }
        let (height, radius) = (height.as_mm(), diameter / 2.0);
        if height - radius < CLOSEST_EDGES || thickness - height - radius < CLOSEST_EDGES || !outer.holds(at) {
            return Err(off);
        }
        let along = Point::mm(direction.cos(), direction.sin());
        let end =
            |sense: f64| nearest(outer, at, along.times(sense)).filter(|(k, p)| square(outer, *k, *p, along, radius));
        match (end(1.0), end(-1.0)) {
            (Some(out), Some(into)) => Ok(Self { diameter, height, ends: [out, into] }),
            _ => Err(off),
        }
    }

    /// Radius, mm.
    pub(crate) fn radius(&self) -> f64 {
        self.diameter / 2.0
    }
    /// Height of its axis over the lower face, mm.
    pub(crate) fn height_mm(&self) -> f64 {
        self.height
    }
    /// Its length, mm.
    pub(crate) fn length_mm(&self) -> f64 {
        let [out, into] = self.ends;
        out.1.to(into.1)
    }
    /// Unit vector along it, towards where it comes out.
    pub(crate) fn axis(&self) -> Point {
        let [out, into] = self.ends;
        out.1.minus(into.1).times(1.0 / self.length_mm())
    }
    /// Seen from above.
    pub(crate) fn plan(&self) -> Result<Contour, ShapeError> {
        let a = self.axis();
        let side = Point::mm(-a.y, a.x).times(self.radius());
        let [out, into] = self.ends.map(|(_, p)| p);
        Contour::polygon(&[into.minus(side), out.minus(side), out.plus(side), into.plus(side)])
    }
    /// Whether two of them meet.
    pub(crate) fn meets(&self, other: &Self) -> Result<bool, ShapeError> {
        let apart = (self.height - other.height).abs() - self.radius() - other.radius();
        if apart > CLOSEST_EDGES {
            return Ok(false);
        }
        let (a, b) = (self.plan()?, other.plan()?);
        let within = |one: &Contour, of: &Contour| of.segments().first().is_some_and(|s| one.holds(s.from));
        Ok(a.gap_to(&b) < CLOSEST_EDGES || within(&a, &b) || within(&b, &a))
    }
}

/// The first edge that a ray meets, and where.
fn nearest(outer: &Contour, at: Point, along: Point) -> Option<(usize, Point)> {
    let far = at.plus(along.times(4.0 * super::LARGEST_COORDINATE.as_mm()));
    let ray = Segment { from: at, to: far, bulge: 0.0 };
    let meets = outer.segments().iter().enumerate();
    let all = meets.flat_map(|(k, s)| meeting::crossings(&ray, s).into_iter().map(move |p| (k, p)));
    all.min_by(|a, b| at.to(a.1).total_cmp(&at.to(b.1)))
}

/// Whether an edge is straight, square to the hole, and reaches beyond it on both sides.
fn square(outer: &Contour, k: usize, at: Point, along: Point, radius: f64) -> bool {
    let Some(edge) = outer.segments().get(k).filter(|s| s.bulge == 0.0) else { return false };
    let d = edge.to.minus(edge.from).times(1.0 / edge.from.to(edge.to));
    let room = edge.from.to(at).min(edge.to.to(at));
    d.dot(along).abs() < 1e-9 && room > radius + CLOSEST_EDGES
}
