//! A plate: an outline, holes through it or into it, one thickness.
//!
//! The plate lies on z = 0; its top face at z = thickness is the one that meets the mating part, and the depths
//! of bored holes are measured from it.

use std::f64::consts::TAU;

use super::contour::positive;
use super::{CLOSEST_EDGES, Circle, Contour, CrossHole, Extents, Path, Point, Segment, ShapeError, meeting};
use crate::units::{Angle, Area, Length, Volume};

/// A round hole with any profile: plain, stepped, countersunk, a cone seat, a rounded rim, blind from either face or through;
/// or a middle that is turned: a spigot over a face, a groove in it.
#[derive(Clone, PartialEq, Debug)]
pub struct Bored {
    centre: Point,
    /// Edges in (radius, depth below the top face), from the top face down.
    profile: Vec<Segment>,
    /// It runs up and down as well, and may stand over the faces.
    turned: bool,
}

impl Bored {
    /// From the corners of its profile as (depth below the top face, diameter), top first. Diameter nought ends a
    /// blind hole; equal depths make a flat land.
    pub fn from_corners(centre: Point, corners: &[(Length, Length)]) -> Result<Self, ShapeError> {
        let at = |(depth, diameter): &(Length, Length)| Point::new(*diameter / 2.0, *depth);
        let mut corners = corners.iter();
        let first = corners.next().ok_or(ShapeError::HoleDepth(centre))?;
        Self::from_profile(centre, corners.fold(Path::start(at(first)), |path, c| path.line_to(at(c))).open()?)
    }

    /// From the edges of its profile in (radius, depth below the top face), top first.
    pub fn from_profile(centre: Point, profile: Vec<Segment>) -> Result<Self, ShapeError> {
        let fault = Err(ShapeError::HoleDepth(centre.check()?));
        let Some(first) = profile.first() else { return fault };
        let joined = profile.iter().zip(profile.iter().skip(1)).all(|(a, b)| a.to == b.from);
        let falls = profile.iter().all(|s| {
            let (lo, hi) = s.bounds();
            s.to.y >= s.from.y && lo.y >= s.from.y - 1e-9 && hi.y <= s.to.y + 1e-9 && lo.x >= -1e-9
        });
        let off_axis = profile.iter().all(|s| s.from.x >= CLOSEST_EDGES);
        let ends = profile.iter().skip(1).all(|s| s.from.y > 0.0) && first.from.y == 0.0;
        if joined && falls && off_axis && ends { Ok(Self { centre, profile, turned: false }) } else { fault }
    }

    /// A middle as it is turned: from its widest edge in the top face over spigots, grooves and recesses to its widest edge in the
    /// bottom face, as corners (depth below the top face, diameter); or to its axis, or from its axis, where nothing goes through.
    /// Nothing of it reaches beyond those edges within the plate.
    pub fn turned(centre: Point, corners: &[(Length, Length)]) -> Result<Self, ShapeError> {
        let at = |(depth, diameter): &(Length, Length)| Point::new(*diameter / 2.0, *depth);
        let mut corners = corners.iter();
        let first = corners.next().ok_or(ShapeError::HoleDepth(centre))?;
        let profile = corners.fold(Path::start(at(first)), |path, c| path.line_to(at(c))).open()?;
        let off_axis = |p: &Point| p.x >= CLOSEST_EDGES;
        let (first, last) = (profile.first().map(|s| s.from), profile.last().map(|s| s.to));
        // One end may lie on the axis, where nothing goes through.
        let ends = first.into_iter().chain(last).filter(|p| p.x != 0.0).collect::<Vec<_>>();
        let within = profile.iter().skip(1).all(|s| off_axis(&s.from)) && ends.iter().all(off_axis);
        let begins = first.is_some_and(|p| p.x == 0.0 || p.y == 0.0);
        if begins && within && !ends.is_empty() {
            Ok(Self { centre: centre.check()?, profile, turned: true })
        } else {
            Err(ShapeError::HoleDepth(centre))
        }
    }

    /// A blind hole from the bottom face of a plate so thick: the corners of its profile as (depth below the bottom face, diameter),
    /// bottom face first; its end is flat, or a point where the last diameter is nought.
    pub fn from_below(centre: Point, corners: &[(Length, Length)], thickness: Length) -> Result<Self, ShapeError> {
        let depths: Vec<_> = corners.iter().map(|(depth, diameter)| (thickness - *depth, *diameter)).collect();
        let at = |(depth, diameter): &(Length, Length)| Point::new(*diameter / 2.0, *depth);
        let last = depths.last().ok_or(ShapeError::HoleDepth(centre))?;
        let start = Point::new(Length::ZERO, last.0);
        let path = depths.iter().rev().fold(Path::start(start), |path, c| path.line_or_nothing(at(c)));
        let profile = path.open()?;
        let falls = profile.iter().all(|s| s.to.y >= s.from.y);
        let off_axis = profile.iter().skip(1).all(|s| s.from.x >= CLOSEST_EDGES);
        if falls && off_axis && profile.first().is_some_and(|s| s.to.x > 0.0 && s.from.y > 0.0) {
            Ok(Self { centre: centre.check()?, profile, turned: false })
        } else {
            Err(ShapeError::HoleDepth(centre))
        }
    }

    /// Whether it is a turned middle.
    pub(crate) fn is_turned(&self) -> bool {
        self.turned
    }
    /// Where it begins: in the top face, or on its axis where it is blind from below.
    pub(crate) fn top(&self) -> Point {
        self.profile.first().map_or(Point::ORIGIN, |s| s.from)
    }
    /// The metal of a plate so thick beside it, in (radius, height over the bottom face), as far out as `reach` beyond the widest of it.
    pub(crate) fn half_section(&self, thickness: f64, reach: f64) -> Result<Contour, ShapeError> {
        let wide = self.profile.iter().map(|s| s.bounds().1.x).fold(0.0, f64::max) + reach;
        let up = |p: Point| Point::mm(p.x, thickness - p.y);
        let start = Path::start(Point::mm(wide, thickness));
        // Beside a middle that nothing goes through the metal reaches to the axis on the other face.
        let axis =
            |path: Path, on: Point, z: f64| if on.x == 0.0 { path.line_or_nothing(Point::mm(0.0, z)) } else { path };
        let path = axis(start, self.top(), thickness).line_or_nothing(up(self.top()));
        let path = self.profile.iter().fold(path, |path, s| path.line_to(up(s.to)));
        axis(path, self.bottom(), 0.0).line_or_nothing(Point::mm(wide, 0.0)).close()
    }

    /// A plain hole through a plate of the given thickness.
    pub fn through(centre: Point, diameter: Length, thickness: Length) -> Result<Self, ShapeError> {
        positive(diameter, "hole diameter")?;
        Self::from_corners(centre, &[(Length::ZERO, diameter), (thickness, diameter)])
    }

    /// Centre.
    pub fn centre(&self) -> Point {
        self.centre
    }
    /// Edges of the profile in (radius, depth below the top face).
    pub fn profile(&self) -> &[Segment] {
        &self.profile
    }
    /// Diameter at the top face.
    pub fn top_diameter(&self) -> Length {
        self.profile.first().map_or(Length::ZERO, |s| s.from.x() * 2.0)
    }
    /// Diameter and depth at its lower end; diameter nought for a blind hole.
    pub(crate) fn bottom(&self) -> Point {
        self.profile.last().map_or(Point::ORIGIN, |s| s.to)
    }
    /// Smallest diameter along it: what may be cut through before the rest is machined; nought for a blind hole.
    pub fn smallest_diameter(&self) -> Length {
        let least = self.profile.iter().map(|s| s.bounds().0.x).fold(f64::INFINITY, f64::min);
        Length::mm(2.0 * least.max(0.0))
    }
    /// Largest diameter along it.
    pub fn largest_diameter(&self) -> Length {
        Length::mm(2.0 * self.profile.iter().map(|s| s.bounds().1.x).fold(0.0, f64::max))
    }
    /// Volume taken out: π∫r² d(depth) (half the moment is ½∮x² dy).
    fn volume(&self) -> f64 {
        TAU * self.profile.iter().map(Segment::moment).sum::<f64>()
    }
    /// π∫r² · depth d(depth), mm⁴.
    fn depth_moment(&self) -> f64 {
        TAU * self.profile.iter().map(Segment::axial_moment).sum::<f64>()
    }
    fn surface(&self) -> f64 {
        TAU * self.profile.iter().map(Segment::swept).sum::<f64>()
    }
}

/// A hole in a plate.
#[derive(Clone, PartialEq, Debug)]
pub enum FlatHole {
    /// Round, with a profile.
    Bored(Bored),
    /// A slot with round ends, through.
    Slot {
        /// Middle of the slot.
        centre: Point,
        /// Width.
        width: Length,
        /// Overall length.
        length: Length,
        /// Direction of the long axis.
        direction: Angle,
    },
    /// A cut-out of any outline, through.
    Cut(Contour),
}

impl FlatHole {
    /// The widest outline of the hole, seen from above.
    pub fn widest(&self) -> Result<Contour, ShapeError> {
        match self {
            Self::Bored(b) => Contour::circle(Circle::new(b.centre, b.largest_diameter())?),
            Self::Slot { centre, width, length, direction } => Contour::slot(*centre, *width, *length, *direction),
            Self::Cut(contour) => Ok(contour.clone()),
        }
    }
}

/// A hole with its outline worked out once.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Opening {
    pub hole: FlatHole,
    pub widest: Contour,
}

impl Opening {
    fn centre(&self) -> Point {
        match &self.hole {
            FlatHole::Bored(b) => b.centre,
            FlatHole::Slot { centre, .. } => *centre,
            FlatHole::Cut(c) => c.centroid(),
        }
    }
    /// Volume taken out of a plate `t` thick, the height of its centroid times it, and the wall it adds.
    fn taken(&self, t: f64) -> (f64, f64, f64) {
        match &self.hole {
            FlatHole::Bored(b) => (b.volume(), t * b.volume() - b.depth_moment(), b.surface()),
            _ => {
                let v = self.widest.area_mm2() * t;
                (v, v * t / 2.0, self.widest.perimeter().as_mm() * t)
            }
        }
    }
    /// Between which depths it lies, mm: all of them unless it is blind.
    fn depths(&self, t: f64) -> (f64, f64) {
        match &self.hole {
            FlatHole::Bored(b) => {
                let deep = b.profile.iter().flat_map(|s| [s.from.y, s.to.y]);
                let (low, high) =
                    deep.fold((f64::INFINITY, 0.0), |(low, high): (f64, f64), y| (low.min(y), high.max(y)));
                (low.clamp(0.0, t), high.clamp(0.0, t))
            }
            _ => (0.0, t),
        }
    }
    /// Area that it takes from top and bottom face.
    fn faces_taken(&self, t: f64) -> f64 {
        let round = |d: f64| TAU / 8.0 * d * d;
        match &self.hole {
            FlatHole::Bored(b) if b.bottom().y < t => round(b.top_diameter().as_mm()),
            FlatHole::Bored(b) => round(b.top_diameter().as_mm()) + round(2.0 * b.bottom().x),
            _ => 2.0 * self.widest.area_mm2(),
        }
    }
}

/// A plate.
#[derive(Clone, PartialEq, Debug)]
pub struct Flat {
    outer: Contour,
    openings: Vec<Opening>,
    /// Holes from edge to edge.
    across: Vec<CrossHole>,
    /// Thickness, mm.
    thickness: f64,
}

impl Flat {
    /// A plate with its holes; all of them inside the outline and clear of each other.
    pub fn new(outer: Contour, thickness: Length, holes: Vec<FlatHole>) -> Result<Self, ShapeError> {
        let t = positive(thickness, "thickness")?;
        let open = |hole: FlatHole| {
            if let FlatHole::Bored(b) = &hole {
                check_depth(b, t)?;
            }
            Ok(Opening { widest: hole.widest()?, hole })
        };
        let openings: Vec<Opening> = holes.into_iter().map(open).collect::<Result<_, ShapeError>>()?;
        check_apart(&outer, &openings, t)?;
        Ok(Self { outer, openings, across: Vec::new(), thickness: t })
    }

    /// The same plate with a hole more across it: through the metal at a point, in a direction, its axis at a height over the lower face.
    pub fn with_cross_hole(
        mut self,
        at: Point,
        direction: Angle,
        height: Length,
        diameter: Length,
    ) -> Result<Self, ShapeError> {
        let hole = CrossHole::through(&self.outer, self.thickness, (at, direction), height, diameter)?;
        let plan = hole.plan()?;
        let within = |o: &Opening| {
            let inside = o.widest.segments().first().is_some_and(|s| plan.holds(s.from));
            plan.gap_to(&o.widest) < CLOSEST_EDGES || inside
        };
        if self.openings.iter().any(within) {
            return Err(ShapeError::CrossHoleOffWall(at));
        }
        for other in &self.across {
            if hole.meets(other)? {
                return Err(ShapeError::CrossHolesMeet);
            }
        }
        self.across.push(hole);
        Ok(self)
    }

    /// A round plate about the origin.
    pub fn disc(diameter: Length, thickness: Length, holes: Vec<FlatHole>) -> Result<Self, ShapeError> {
        Self::new(Contour::circle(Circle::new(Point::ORIGIN, diameter)?)?, thickness, holes)
    }

    /// A flat ring about the origin.
    pub fn ring(bore: Length, outside_diameter: Length, thickness: Length) -> Result<Self, ShapeError> {
        if bore.as_mm() >= outside_diameter.as_mm() {
            return Err(ShapeError::RingWithoutWall);
        }
        let hole = Bored::through(Point::ORIGIN, bore, thickness)?;
        Self::disc(outside_diameter, thickness, vec![FlatHole::Bored(hole)])
    }

    /// Outline.
    pub fn outer(&self) -> &Contour {
        &self.outer
    }
    /// Holes.
    pub fn holes(&self) -> impl Iterator<Item = &FlatHole> {
        self.openings.iter().map(|o| &o.hole)
    }
    pub(crate) fn across(&self) -> &[CrossHole] {
        &self.across
    }
    pub(crate) fn openings(&self) -> &[Opening] {
        &self.openings
    }
    /// Thickness.
    pub fn thickness(&self) -> Length {
        Length::mm(self.thickness)
    }
    /// The box around the plate, seen from above.
    pub fn extents(&self) -> Extents {
        self.outer.extents()
    }

    /// The strips of metal that an upright line at `x` runs through, from and to along y, lowest first.
    pub fn strips_at(&self, x: Length) -> Vec<(Length, Length)> {
        let e = self.extents();
        // A hair beside, so that no corner lies on the line.
        let at = x.as_mm() + 7e-7;
        let (from, to) = (Point::mm(at, e.least.y - 1.0), Point::mm(at, e.greatest.y + 1.0));
        let line = Segment { from, to, bulge: 0.0 };
        let outlines = [&self.outer].into_iter().chain(self.openings.iter().map(|o| &o.widest));
        let meets = outlines.flat_map(|c| c.segments().iter().flat_map(|s| meeting::crossings(&line, s)));
        let mut levels: Vec<f64> = meets.map(|p| p.y).collect();
        levels.sort_by(f64::total_cmp);
        let pair = |pair: &[f64]| match pair {
            [a, b] => Some((Length::mm(*a), Length::mm(*b))),
            _ => None,
        };
        levels.chunks(2).filter_map(pair).collect()
    }

    /// Volume.
    pub fn volume(&self) -> Volume {
        let holes: f64 = self.openings.iter().map(|o| o.taken(self.thickness).0).sum();
        let across: f64 = self.across.iter().map(|h| section(h) * h.length_mm()).sum();
        Volume::mm3(self.outer.area_mm2() * self.thickness - holes - across)
    }

    /// Whole surface: faces, edges and hole walls.
    #[allow(dead_code, reason = "tests measure with it")]
    pub fn surface(&self) -> Area {
        let t = self.thickness;
        let plain = 2.0 * self.outer.area_mm2() + self.outer.perimeter().as_mm() * t;
        let holed = self.openings.iter().fold(plain, |sum, o| sum + o.taken(t).2 - o.faces_taken(t));
        let across = |h: &CrossHole| TAU * h.radius() * h.length_mm() - 2.0 * section(h);
        Area::mm2(holed + self.across.iter().map(across).sum::<f64>())
    }

    /// Centre of gravity seen from above, and its height over the lower face.
    #[allow(dead_code, reason = "tests measure with it")]
    pub fn centroid(&self) -> (Point, Length) {
        let t = self.thickness;
        let mut flat = self.outer.moments().times(t);
        let mut high = self.outer.area_mm2() * t * t / 2.0;
        for o in &self.openings {
            let (volume, height, _) = o.taken(t);
            flat = flat.minus(o.centre().times(volume));
            high -= height;
        }
        for h in &self.across {
            let [out, into] = h.ends.map(|(_, p)| p);
            let volume = section(h) * h.length_mm();
            flat = flat.minus(out.plus(into).times(volume / 2.0));
            high -= volume * h.height_mm();
        }
        let v = self.volume().as_mm3();
        (flat.times(1.0 / v), Length::mm(high / v))
    }
}

/// Area across a hole from edge to edge, mm².
fn section(h: &CrossHole) -> f64 {
    TAU / 2.0 * h.radius() * h.radius()
}

/// A bored hole ends exactly at the lower face, or on its own axis above it; a turned middle leaves the metal beside it whole.
fn check_depth(b: &Bored, t: f64) -> Result<(), ShapeError> {
    let end = b.bottom();
    let through = end.y == t && end.x >= CLOSEST_EDGES;
    if b.turned {
        let whole = (through || end.x == 0.0) && b.half_section(t, 1.0).is_ok();
        return if whole { Ok(()) } else { Err(ShapeError::HoleDepth(b.centre)) };
    }
    let blind = end.x == 0.0 && b.top().x > 0.0 && end.y < t - CLOSEST_EDGES;
    let inside = b.profile.iter().rev().skip(1).all(|s| s.to.y < t);
    if inside && (through || blind) { Ok(()) } else { Err(ShapeError::HoleDepth(b.centre)) }
}

/// All within the outline, and clear of each other; two blind holes one over the other by their depths.
pub(crate) fn check_apart(outer: &Contour, openings: &[Opening], t: f64) -> Result<(), ShapeError> {
    for (i, o) in openings.iter().enumerate() {
        let start = o.widest.segments().first().map_or(Point::ORIGIN, |s| s.from);
        if outer.gap_to(&o.widest) < CLOSEST_EDGES || !outer.holds(start) {
            return Err(ShapeError::HoleOutside(o.centre()));
        }
        for other in openings.iter().skip(i + 1) {
            let ((a, b), (c, d)) = (o.depths(t), other.depths(t));
            if b < c - CLOSEST_EDGES || d < a - CLOSEST_EDGES {
                continue;
            }
            let inside = other.widest.segments().first().is_some_and(|s| o.widest.holds(s.from));
            if o.widest.gap_to(&other.widest) < CLOSEST_EDGES || inside || other.widest.holds(start) {
                return Err(ShapeError::HolesMeet(o.centre(), other.centre()));
            }
        }
    }
    Ok(())
}
