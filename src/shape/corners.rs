//! An outline told by its corners: sharp, rounded, or relieved so that a square corner goes right into it. It can be drawn parallel to
//! itself, as the beam of a cutter wants it.

use super::{Contour, Path, Point, ShapeError};
use crate::units::Length;

/// Along which of a corner's two edges its relief lies.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Beside {
    /// The edge that leads to the corner.
    Before,
    /// The edge that leaves it.
    After,
}

/// How a corner is made.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Corner {
    /// As it is.
    Sharp,
    /// Rounded with that radius.
    Round(Length),
    /// A half circle of that radius cut into the metal from the corner along one of its edges, which bears nothing; the other edge
    /// stays whole.
    Relieved(Length, Beside),
}

/// A closed outline by its corners, anticlockwise.
#[derive(Clone, PartialEq, Debug)]
pub struct Corners {
    corners: Vec<(Point, Corner)>,
    hole: bool,
}

impl Corners {
    /// Of a piece: the metal lies inside.
    pub fn outer(corners: Vec<(Point, Corner)>) -> Self {
        Self { corners, hole: false }
    }

    /// Of a hole: the metal lies outside.
    pub fn hole(corners: Vec<(Point, Corner)>) -> Self {
        Self { corners, hole: true }
    }

    /// A hole with four square corners about a middle, as a tab goes into: its edges along y are whole, those along x relieved, or the
    /// other way.
    pub fn slot(middle: Point, along_x: Length, along_y: Length, relief: Length, whole_along_x: bool) -> Self {
        let (x, y) = (along_x / 2.0, along_y / 2.0);
        let at = |i: f64, j: f64| Point::new(middle.x() + x * i, middle.y() + y * j);
        let (a, b) = if whole_along_x { (Beside::Before, Beside::After) } else { (Beside::After, Beside::Before) };
        let made = |beside| Corner::Relieved(relief, beside);
        let corners = vec![
            (at(-1.0, -1.0), made(a)),
            (at(1.0, -1.0), made(b)),
            (at(1.0, 1.0), made(a)),
            (at(-1.0, 1.0), made(b)),
        ];
        Self::hole(corners)
    }

    /// Each corner with the directions of the edge that leads to it and of the one that leaves it.
    fn with_edges(&self) -> Result<Vec<(Point, Corner, Point, Point)>, ShapeError> {
        let n = self.corners.len();
        if n < 3 {
            return Err(ShapeError::TooFewSegments);
        }
        let way = |from: Point, to: Point| {
            let long = from.to(to);
            if long > 1e-3 { Ok(to.minus(from).times(1.0 / long)) } else { Err(ShapeError::ShortSegment(from)) }
        };
        let before = self.corners.iter().cycle().skip(n - 1);
        let after = self.corners.iter().cycle().skip(1);
        let around = self.corners.iter().zip(before).zip(after);
        around.map(|((here, last), next)| Ok((here.0, here.1, way(last.0, here.0)?, way(here.0, next.0)?))).collect()
    }

    /// The outline at a distance outwards; inwards where that is below nought. A hole of so much smaller, a piece so much larger, is what a
    /// beam leaves that follows the line and takes twice the distance. Radii follow; what vanishes is sharp.
    pub fn grown(&self, by: Length) -> Result<Self, ShapeError> {
        let d = by.as_mm();
        let moved = |(at, corner, u, v): (Point, Corner, Point, Point)| {
            let (a, b) = (Point::mm(u.y, -u.x), Point::mm(v.y, -v.x));
            let place = at.plus(a.plus(b).times(d / (1.0 + a.dot(b))));
            let left = |r: Length, change: f64| {
                let r = Length::mm(r.as_mm() + change);
                (r > super::SHORTEST_SEGMENT).then_some(r)
            };
            let corner = match corner {
                Corner::Sharp => Corner::Sharp,
                Corner::Round(r) => left(r, d * u.cross(v).signum()).map_or(Corner::Sharp, Corner::Round),
                Corner::Relieved(r, beside) => {
                    let change = if self.hole { d } else { -d };
                    left(r, change).map_or(Corner::Sharp, |r| Corner::Relieved(r, beside))
                }
            };
            (place, corner)
        };
        Ok(Self { corners: self.with_edges()?.into_iter().map(moved).collect(), hole: self.hole })
    }

    /// Lines and arcs.
    pub fn contour(&self) -> Result<Contour, ShapeError> {
        let mut path: Option<Path> = None;
        let mut put = |to: Point, bulge: f64| {
            let next = match path.take() {
                None => Path::start(to),
                Some(path) if bulge == 0.0 => path.line_or_nothing(to),
                Some(path) => path.bulge_to(to, bulge),
            };
            path = Some(next);
        };
        for (at, corner, u, v) in self.with_edges()? {
            match corner {
                Corner::Sharp => put(at, 0.0),
                Corner::Round(r) => {
                    let turn = libm::atan2(u.cross(v), u.dot(v));
                    let reach = r.as_mm() * libm::tan(turn.abs() / 2.0);
                    put(at.minus(u.times(reach)), 0.0);
                    put(at.plus(v.times(reach)), libm::tan(turn / 4.0));
                }
                Corner::Relieved(r, beside) => {
                    let across = 2.0 * r.as_mm();
                    let bulge = if self.hole { 1.0 } else { -1.0 };
                    let (from, to) = match beside {
                        Beside::Before => (at.minus(u.times(across)), at),
                        Beside::After => (at, at.plus(v.times(across))),
                    };
                    put(from, 0.0);
                    put(to, bulge);
                }
            }
        }
        path.ok_or(ShapeError::TooFewSegments)?.close()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    fn square(corner: Corner) -> Vec<(Point, Corner)> {
        [(0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (0.0, 20.0)].map(|(x, y)| (Point::mm(x, y), corner)).to_vec()
    }

    fn area(c: &Corners) -> f64 {
        c.contour().unwrap().area().as_mm2()
    }

    /// Plane geometry: a rounded rectangle has (4 − π) r² less, and grows by its perimeter and a circle.
    #[test]
    fn rounded_corners_and_a_parallel_outline() {
        let round = Corners::outer(square(Corner::Round(Length::mm(3.0))));
        let all = 800.0 - (4.0 - PI) * 9.0;
        assert!((area(&round) - all).abs() < 1e-9);
        let grown = round.grown(Length::mm(0.5)).unwrap();
        let around = 120.0 - 24.0 + 2.0 * PI * 3.0;
        assert!((area(&grown) - (all + around * 0.5 + PI * 0.25)).abs() < 1e-9);
        let sharp = Corners::outer(square(Corner::Sharp)).grown(Length::mm(-1.0)).unwrap();
        assert!((area(&sharp) - 38.0 * 18.0).abs() < 1e-9);
    }

    /// Four half circles more in a slot, less in a piece; the edges that bear stay as long as they were.
    #[test]
    fn relief_leaves_the_edges_that_bear() {
        let r = Length::mm(2.0);
        for whole in [true, false] {
            let slot = Corners::slot(Point::mm(5.0, 5.0), Length::mm(40.0), Length::mm(20.0), r, whole);
            assert!((area(&slot) - (800.0 + 8.0 * PI)).abs() < 1e-9);
            let long: Vec<f64> = slot.contour().unwrap().segments().iter().map(|s| s.length().as_mm()).collect();
            let bears = if whole { 40.0 } else { 20.0 };
            assert_eq!(long.iter().filter(|l| (**l - bears).abs() < 1e-9).count(), 2, "{long:?}");
            let less = slot.grown(Length::mm(-0.1)).unwrap();
            assert!((area(&less) - (39.8 * 19.8 + 2.0 * PI * 1.9 * 1.9)).abs() < 1e-9);
        }
        // In a step of an outline the half circle is cut beside the corner that goes in.
        let step = [(0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (20.0, 20.0), (20.0, 10.0), (0.0, 10.0)];
        let mut corners = step.map(|(x, y)| (Point::mm(x, y), Corner::Sharp)).to_vec();
        corners[4].1 = Corner::Relieved(r, Beside::Before);
        assert!((area(&Corners::outer(corners)) - (600.0 - 2.0 * PI)).abs() < 1e-9);
    }

    #[test]
    fn what_is_none_is_refused() {
        assert!(Corners::outer(square(Corner::Round(Length::mm(11.0)))).contour().is_err());
        assert!(Corners::outer(square(Corner::Sharp)[..2].to_vec()).contour().is_err());
        let twice = [square(Corner::Sharp), square(Corner::Sharp)[3..].to_vec()].concat();
        assert!(Corners::outer(twice).contour().is_err());
    }
}
