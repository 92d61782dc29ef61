//! A part from the lathe: a profile of lines and arcs turned about the axis, with cross holes if wanted.

use std::f64::consts::{PI, TAU};

use super::contour::positive;
use super::{CLOSEST_EDGES, Contour, Path, Point, Segment, ShapeError, quadrature};
use crate::units::{Angle, Area, Length, Volume};

/// A hole square to the axis through one wall, such as a grease hole.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct RadialHole {
    /// Diameter, mm.
    pub(crate) diameter: f64,
    /// Where its centre line crosses the axis, mm.
    pub(crate) along: f64,
    /// Direction about the axis, degrees from x towards y.
    pub(crate) around: Angle,
}

impl RadialHole {
    /// Diameter, position of its centre line along the axis, and direction about it.
    pub fn new(diameter: Length, along: Length, around: Angle) -> Result<Self, ShapeError> {
        if !along.is_finite() || !around.is_finite() {
            return Err(ShapeError::NotFinite);
        }
        Ok(Self { diameter: positive(diameter, "diameter of the cross hole")?, along: along.as_mm(), around })
    }
    /// Diameter.
    pub fn diameter(&self) -> Length {
        Length::mm(self.diameter)
    }
    /// Where its centre line crosses the axis.
    pub fn along(&self) -> Length {
        Length::mm(self.along)
    }
    /// Direction about the axis.
    pub fn around(&self) -> Angle {
        self.around
    }
    pub(crate) fn radius(&self) -> f64 {
        self.diameter / 2.0
    }
}

/// The wall that a radial hole goes through: bore and outside radius, and the profile edges that make them.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Wall {
    pub inner: f64,
    pub outer: f64,
    pub inner_edge: usize,
    pub outer_edge: usize,
}

/// A body of revolution about the z axis.
#[derive(Clone, PartialEq, Debug)]
pub struct Turned {
    profile: Contour,
    holes: Vec<(RadialHole, Wall)>,
}

impl Turned {
    /// From the edges of a closed profile in (radius, distance along the axis).
    pub fn from_profile(segments: Vec<Segment>) -> Result<Self, ShapeError> {
        let profile = Contour::from_segments(segments)?;
        check_axis(profile.segments())?;
        Ok(Self { profile, holes: Vec::new() })
    }

    /// From the corners of a profile with straight edges, as (radius, distance along the axis).
    #[allow(dead_code, reason = "tests measure with it")]
    pub fn from_corners(corners: &[Point]) -> Result<Self, ShapeError> {
        let mut corners = corners.iter();
        let first = corners.next().ok_or(ShapeError::TooFewSegments)?;
        Self::from_profile(corners.fold(Path::start(*first), |path, p| path.line_to(*p)).closed_edges()?)
    }

    /// A plain ring or tube standing on z = 0.
    #[allow(dead_code, reason = "tests measure with it")]
    pub fn ring(bore: Length, outside_diameter: Length, length: Length) -> Result<Self, ShapeError> {
        let (d, l) = (positive(outside_diameter, "outside diameter")?, positive(length, "length")?);
        let b = positive(bore, "bore")?;
        if b >= d {
            return Err(ShapeError::RingWithoutWall);
        }
        let at = |d: f64, z: f64| Point::mm(d / 2.0, z);
        Self::from_corners(&[at(b, 0.0), at(d, 0.0), at(d, l), at(b, l)])
    }

    /// The same part with a radial hole more.
    pub fn with_radial_hole(mut self, hole: RadialHole) -> Result<Self, ShapeError> {
        let wall = self.wall_at(&hole)?;
        if hole.radius() > 0.9 * wall.inner {
            return Err(ShapeError::RadialHoleTooWide);
        }
        if self.holes.iter().any(|(other, _)| holes_meet(&hole, other, wall.inner)) {
            return Err(ShapeError::RadialHolesMeet);
        }
        self.holes.push((hole, wall));
        Ok(self)
    }

    /// The single wall that the hole goes through: exactly two profile edges within its width, both cylindrical.
    fn wall_at(&self, hole: &RadialHole) -> Result<Wall, ShapeError> {
        let off = ShapeError::RadialHoleOffWall(hole.along());
        let (lo, hi) = (hole.along - hole.radius() - CLOSEST_EDGES, hole.along + hole.radius() + CLOSEST_EDGES);
        let touched = self.profile.segments().iter().enumerate().filter(|(_, s)| {
            let (a, b) = s.bounds();
            b.y > lo && a.y < hi
        });
        let straight = |s: &Segment| s.bulge == 0.0 && s.from.x == s.to.x && s.from.x > 0.0;
        let covers = |s: &Segment| s.from.y.min(s.to.y) < lo && s.from.y.max(s.to.y) > hi;
        let mut walls: Vec<(usize, &Segment)> = touched.collect();
        walls.sort_by(|a, b| a.1.from.x.total_cmp(&b.1.from.x));
        match walls.as_slice() {
            [(i, a), (j, b)] if straight(a) && straight(b) && covers(a) && covers(b) => {
                Ok(Wall { inner: a.from.x, outer: b.from.x, inner_edge: *i, outer_edge: *j })
            }
            _ => Err(off),
        }
    }

    /// The profile in (radius, distance along the axis), anticlockwise.
    pub fn profile(&self) -> &Contour {
        &self.profile
    }
    /// The radial holes.
    pub fn radial_holes(&self) -> impl Iterator<Item = &RadialHole> {
        self.holes.iter().map(|(hole, _)| hole)
    }
    pub(crate) fn holes(&self) -> &[(RadialHole, Wall)] {
        &self.holes
    }

    /// Volume: V = 2π · ½∮r² dz (Pappus), less each radial hole (by quadrature, about 1e-13 of the hole).
    pub fn volume(&self) -> Volume {
        let turned = TAU * self.profile.moments().x;
        Volume::mm3(turned - self.holes.iter().map(|(h, w)| hole_volume(h.radius(), w)).sum::<f64>())
    }

    /// Surface: A = 2π∫r ds (Pappus), each radial hole taking two patches and adding its wall.
    #[allow(dead_code, reason = "tests measure with it")]
    pub fn surface(&self) -> Area {
        let turned = TAU * self.profile.segments().iter().map(Segment::swept).sum::<f64>();
        Area::mm2(turned + self.holes.iter().map(|(h, w)| hole_surface(h.radius(), w)).sum::<f64>())
    }

    /// Height of the centre of gravity along the axis: 2π · ½∮r² z dz / V, the radial holes taken off.
    /// With radial holes it lies off the axis as well; only the height is given.
    #[allow(dead_code, reason = "tests measure with it")]
    pub fn centroid_height(&self) -> Length {
        let turned = TAU * self.profile.segments().iter().map(Segment::axial_moment).sum::<f64>();
        let holes: f64 = self.holes.iter().map(|(h, w)| h.along * hole_volume(h.radius(), w)).sum();
        Length::mm((turned - holes) / self.volume().as_mm3())
    }
}

/// Volume of a hole of radius a through the wall from r to R:
/// ∫ 2√(a² − x²) (√(R² − x²) − √(r² − x²)) dx over −a to a, with x = a sin t.
fn hole_volume(a: f64, wall: &Wall) -> f64 {
    let depth = |x: f64| (wall.outer.powi(2) - x * x).sqrt() - (wall.inner.powi(2) - x * x).sqrt();
    let slice = |t: f64| (a * libm::cos(t)).powi(2) * depth(a * libm::sin(t));
    4.0 * quadrature::integrate(0.0, PI / 2.0, 12, slice)
}

/// Surface gained by a hole: its wall a∫(√(R² − a²cos²φ) − √(r² − a²cos²φ)) dφ, less the two patches
/// ∫2√(a² − x²) R/√(R² − x²) dx that it takes from outside and bore.
#[allow(dead_code, reason = "tests measure with it")]
fn hole_surface(a: f64, wall: &Wall) -> f64 {
    let reach = |r: f64, x: f64| (r * r - x * x).sqrt();
    let wall_strip = |t: f64| a * (reach(wall.outer, a * libm::sin(t)) - reach(wall.inner, a * libm::sin(t)));
    let patch = |r: f64, t: f64| (a * libm::cos(t)).powi(2) * r / reach(r, a * libm::sin(t));
    let quarter = |t: f64| wall_strip(t) - patch(wall.outer, t) - patch(wall.inner, t);
    4.0 * quadrature::integrate(0.0, PI / 2.0, 12, quarter)
}

/// Do two radial holes touch where they are nearest, at the bore of radius `inner`?
fn holes_meet(a: &RadialHole, b: &RadialHole, inner: f64) -> bool {
    let between = (a.around - b.around).as_degrees().rem_euclid(360.0);
    let turn = between.min(360.0 - between).to_radians();
    let room = turn - libm::asin(a.radius() / inner).max(0.0) - libm::asin(b.radius() / inner).max(0.0);
    let apart = (a.along - b.along).abs() - a.radius() - b.radius();
    !(room * inner > CLOSEST_EDGES || apart > CLOSEST_EDGES)
}

/// r ≥ 0 everywhere, and the axis is only met along straight runs on it.
fn check_axis(profile: &[Segment]) -> Result<(), ShapeError> {
    for s in profile {
        if s.bounds().0.x < -1e-9 || s.from.x < 0.0 {
            return Err(ShapeError::AcrossAxis(s.from));
        }
    }
    let on_axis = |s: &Segment| s.bulge == 0.0 && s.from.x == 0.0 && s.to.x == 0.0;
    for (a, b) in profile.iter().zip(profile.iter().cycle().skip(1)) {
        if b.from.x == 0.0 && !on_axis(a) && !on_axis(b) {
            return Err(ShapeError::PinchedAtAxis(b.from));
        }
    }
    let runs = profile.iter().filter(|s| on_axis(s)).count();
    let near = |s: &&Segment| s.bounds().0.x < CLOSEST_EDGES && s.from.x > 0.0 && s.to.x > 0.0;
    match profile.iter().find(near) {
        Some(s) => Err(ShapeError::PinchedAtAxis(s.from)),
        None if runs > 1 => Err(ShapeError::PinchedAtAxis(Point::ORIGIN)),
        None => Ok(()),
    }
}
