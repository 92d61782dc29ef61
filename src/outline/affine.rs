//! How a block is placed: moved, turned, scaled, mirrored.

use crate::shape::Point;
use crate::units::Angle;

/// x' = a x + c y + e, y' = b x + d y + f.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Affine {
    a: f64,
    b: f64,
    c: f64,
    d: f64,
    e: f64,
    f: f64,
}

/// So much may two numbers differ that count as the same, as a share of the larger.
const SAME: f64 = 1e-9;

impl Affine {
    /// Scaled alike in both directions.
    pub const fn scale(k: f64) -> Self {
        Self { a: k, b: 0.0, c: 0.0, d: k, e: 0.0, f: 0.0 }
    }

    /// Scaled along x and along y.
    pub const fn scales(x: f64, y: f64) -> Self {
        Self { a: x, b: 0.0, c: 0.0, d: y, e: 0.0, f: 0.0 }
    }

    /// Moved.
    pub const fn shift(p: Point) -> Self {
        Self { a: 1.0, b: 0.0, c: 0.0, d: 1.0, e: p.x, f: p.y }
    }

    /// Turned about the origin, anticlockwise.
    pub fn turn(angle: Angle) -> Self {
        let (s, c) = (angle.sin(), angle.cos());
        Self { a: c, b: s, c: -s, d: c, e: 0.0, f: 0.0 }
    }

    /// Plane coordinates of an entity whose normal looks down: x runs the other way.
    pub const fn seen_from_below() -> Self {
        Self::scales(-1.0, 1.0)
    }

    /// First `inner`, then this.
    pub fn after(&self, inner: &Self) -> Self {
        let o = self.vector(Point::mm(inner.a, inner.b));
        let p = self.vector(Point::mm(inner.c, inner.d));
        let q = self.point(Point::mm(inner.e, inner.f));
        Self { a: o.x, b: o.y, c: p.x, d: p.y, e: q.x, f: q.y }
    }

    /// Where a point goes.
    pub fn point(&self, p: Point) -> Point {
        self.vector(p).plus(Point::mm(self.e, self.f))
    }

    /// Where a direction with its length goes.
    pub fn vector(&self, p: Point) -> Point {
        Point::mm(self.a * p.x + self.c * p.y, self.b * p.x + self.d * p.y)
    }

    /// By how much an area grows; negative where it is mirrored.
    pub fn growth(&self) -> f64 {
        self.a * self.d - self.b * self.c
    }

    /// Whether a circle stays a circle.
    pub fn keeps_circles(&self) -> bool {
        let (u, v) = (Point::mm(self.a, self.b), Point::mm(self.c, self.d));
        round(u, v)
    }
}

/// Whether two half axes are those of a circle: as long as each other and square.
pub fn round(u: Point, v: Point) -> bool {
    let (uu, vv) = (u.dot(u), v.dot(v));
    let most = uu.max(vv);
    (uu - vv).abs() <= 2.0 * SAME * most && u.dot(v).abs() <= SAME * most
}
