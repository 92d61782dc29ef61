//! Points and upright rectangles on paper, mm.

use std::ops::{Add, Mul, Sub};

use crate::sheet::Mark;
use crate::units::Angle;

/// A point on paper, mm from the lower left corner.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Upwards.
    pub y: f64,
}

impl Point {
    /// From both coordinates.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The point at that distance in that direction (degrees from the x axis).
    pub fn along(self, direction: f64, distance: f64) -> Self {
        self.towards(Self::unit(direction), distance)
    }

    /// The point one millimetre from the corner of the paper in a direction (degrees from the x axis).
    pub fn unit(direction: f64) -> Self {
        let angle = Angle::degrees(direction);
        Self::new(angle.cos(), angle.sin())
    }

    /// The point at that distance in the direction of a [`Point::unit`].
    pub fn towards(self, unit: Self, distance: f64) -> Self {
        Self::new(self.x + distance * unit.x, self.y + distance * unit.y)
    }

    /// Distance to another point.
    pub fn distance(self, to: Self) -> f64 {
        let d = to - self;
        (d.x * d.x + d.y * d.y).sqrt()
    }

    /// Direction to another point, degrees from -180 to 180.
    pub fn direction(self, to: Self) -> f64 {
        let d = to - self;
        Angle::atan2(d.y, d.x).as_degrees()
    }

    /// Halfway to another point.
    #[allow(dead_code, reason = "tests look over pages with it")]
    pub fn middle(self, to: Self) -> Self {
        (self + to) * 0.5
    }
}

impl Add for Point {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        Self::new(self.x + o.x, self.y + o.y)
    }
}
impl Sub for Point {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        Self::new(self.x - o.x, self.y - o.y)
    }
}
impl Mul<f64> for Point {
    type Output = Self;
    fn mul(self, k: f64) -> Self {
        Self::new(self.x * k, self.y * k)
    }
}

/// An upright rectangle.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Area {
    /// Least x.
    pub left: f64,
    /// Least y.
    pub bottom: f64,
    /// Greatest x.
    pub right: f64,
    /// Greatest y.
    pub top: f64,
}

impl Area {
    /// Holds nothing; grows by [`Area::with`].
    pub const EMPTY: Self =
        Self { left: f64::INFINITY, bottom: f64::INFINITY, right: f64::NEG_INFINITY, top: f64::NEG_INFINITY };

    /// From its lower left corner and its size.
    pub fn new(left: f64, bottom: f64, width: f64, height: f64) -> Self {
        Self { left, bottom, right: left + width, top: bottom + height }
    }

    /// Round all those points.
    pub fn around(points: impl IntoIterator<Item = Point>) -> Self {
        points.into_iter().fold(Self::EMPTY, |a, p| a.with(Self { left: p.x, bottom: p.y, right: p.x, top: p.y }))
    }

    /// Round all those marks.
    pub fn of<'a>(marks: impl IntoIterator<Item = &'a Mark>) -> Self {
        marks.into_iter().fold(Self::EMPTY, |a, m| a.with(m.area()))
    }

    /// Round both.
    pub fn with(self, o: Self) -> Self {
        Self {
            left: self.left.min(o.left),
            bottom: self.bottom.min(o.bottom),
            right: self.right.max(o.right),
            top: self.top.max(o.top),
        }
    }

    /// Wider by `by` on all sides.
    pub fn grown(self, by: f64) -> Self {
        Self { left: self.left - by, bottom: self.bottom - by, right: self.right + by, top: self.top + by }
    }

    /// The same, moved.
    pub fn moved(self, by: Point) -> Self {
        Self { left: self.left + by.x, bottom: self.bottom + by.y, right: self.right + by.x, top: self.top + by.y }
    }

    /// From left to right; nought when empty.
    pub fn width(self) -> f64 {
        (self.right - self.left).max(0.0)
    }

    /// From bottom to top; nought when empty.
    pub fn height(self) -> f64 {
        (self.top - self.bottom).max(0.0)
    }

    /// Its middle.
    pub fn centre(self) -> Point {
        Point::new((self.left + self.right) / 2.0, (self.bottom + self.top) / 2.0)
    }

    /// The same, wider at both sides.
    pub fn widened(self, by: f64) -> Self {
        Self { left: self.left - by, right: self.right + by, ..self }
    }

    /// Both share more than an edge.
    pub fn overlaps(self, o: Self) -> bool {
        self.left < o.right && o.left < self.right && self.bottom < o.top && o.bottom < self.top
    }

    /// The other lies within this one.
    #[allow(dead_code, reason = "tests look over pages with it")]
    pub fn holds(self, o: Self) -> bool {
        self.left <= o.left && self.bottom <= o.bottom && self.right >= o.right && self.top >= o.top
    }

    /// The straight line from `a` to `b` passes through the inside (separating axes: x, y and across the line).
    pub fn is_cut_by(self, a: Point, b: Point) -> bool {
        let apart = |low: f64, high: f64, p: f64, q: f64| low >= p.max(q) + 1e-9 || p.min(q) - 1e-9 >= high;
        if apart(self.left, self.right, a.x, b.x) || apart(self.bottom, self.top, a.y, b.y) {
            return false;
        }
        let across = |p: Point| (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
        let sides = self.corners().map(across);
        sides.iter().any(|s| *s > 0.0) && sides.iter().any(|s| *s < 0.0)
    }

    /// The four corners, counter-clockwise from the lower left.
    pub fn corners(self) -> [Point; 4] {
        [
            Point::new(self.left, self.bottom),
            Point::new(self.right, self.bottom),
            Point::new(self.right, self.top),
            Point::new(self.left, self.top),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_past_the_corner_does_not_cut() {
        let area = Area::new(0.0, 0.0, 10.0, 10.0);
        assert!(area.is_cut_by(Point::new(-1.0, 5.0), Point::new(11.0, 6.0)));
        assert!(area.is_cut_by(Point::new(5.0, -5.0), Point::new(5.0, 5.0)));
        assert!(!area.is_cut_by(Point::new(-5.0, 8.0), Point::new(5.0, 18.0)));
        assert!(!area.is_cut_by(Point::new(-5.0, 20.0), Point::new(15.0, 20.0)));
    }
}
