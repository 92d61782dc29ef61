//! Views made from the shape itself: the section of a turned part, plan and section of a flat one.

use crate::record::drawing::{Cut, Drawn, Edge, How, Side, Stands, View};
use crate::shape::{Bored, Contour, Flat, FlatHole, Point, RadialHole, Segment, Turn, Turned};
use crate::units::{Angle, Length};

/// A point with both coordinates changed by a rule, and whether the rule mirrors.
type Placing = (fn(Point, Point) -> Point, bool);

const AXIS_LEVEL: Placing = (|p, o| Point::new(o.x() + p.y(), o.y() + p.x()), true);
const AXIS_LEVEL_BELOW: Placing = (|p, o| Point::new(o.x() + p.y(), o.y() - p.x()), false);
const AXIS_UPRIGHT: Placing = (|p, o| Point::new(o.x() + p.x(), o.y() + p.y()), false);
const AXIS_UPRIGHT_LEFT: Placing = (|p, o| Point::new(o.x() - p.x(), o.y() + p.y()), true);

fn placed(segments: &[Segment], (rule, mirrors): Placing, origin: Point) -> Vec<Segment> {
    let bulge = |s: &Segment| if mirrors { -s.bulge() } else { s.bulge() };
    segments
        .iter()
        .filter_map(|s| Segment::bulged(rule(s.from(), origin), rule(s.to(), origin), bulge(s)).ok())
        .collect()
}

/// Every place along the axis is full up to the axis.
fn is_solid(profile: &[Segment]) -> bool {
    let on_axis = |s: &&Segment| s.from().x() < Length::um(1.0) && s.to().x() < Length::um(1.0);
    let along: Length = profile.iter().filter(on_axis).map(|s| (s.to().y() - s.from().y()).abs()).sum();
    let ends = profile.iter().flat_map(|s| [s.from().y(), s.to().y()]);
    let (low, high) =
        ends.fold((Length::mm(f64::INFINITY), Length::mm(f64::NEG_INFINITY)), |(l, h), y| (l.min(y), h.max(y)));
    along > high - low - Length::um(1.0)
}

/// Outline and holes are circles about one centre.
fn is_round(flat: &Flat) -> bool {
    let Some(outer) = flat.outer().as_circle() else { return false };
    flat.holes().all(|h| matches!(h, FlatHole::Bored(b) if b.centre().distance(outer.centre()) < Length::um(1.0)))
}

fn line(a: Point, b: Point) -> Vec<Segment> {
    Segment::line(a, b).into_iter().collect()
}

impl View {
    /// This view for another one as well, where both show the very same.
    pub fn stands_for(&mut self, other: &Self) -> bool {
        let alike = self.edges == other.edges
            && self.textures == other.textures
            && self.frames == other.frames
            && self.dimensions.len() == other.dimensions.len()
            && self.dimensions.iter().zip(&other.dimensions).all(|(a, b)| a.how == b.how && a.behind == b.behind);
        if alike {
            self.title = format!("{}; {} alike", self.title, other.title);
            self.alike.extend(other.dimensions.iter().map(|d| d.key.clone()));
        }
        alike
    }

    /// The section of a turned part on its axis, which lies level from left to right: as it sits in the lathe.
    pub fn section(title: &str, turned: &Turned) -> Self {
        let seen = is_solid(turned.profile().segments()) && turned.holes().is_empty();
        let title = if seen { title.replace("Section on the axis", "Seen from the side") } else { title.into() };
        Self::new(&title).with_turned(turned, 0, Point::ORIGIN, AXIS_LEVEL, AXIS_LEVEL_BELOW)
    }

    /// A turned part with its axis upright through `origin`, added to a picture of several parts.
    pub fn with_upright(self, turned: &Turned, part: usize, origin: Point) -> Self {
        self.with_turned(turned, part, origin, AXIS_UPRIGHT, AXIS_UPRIGHT_LEFT)
    }

    fn with_turned(mut self, turned: &Turned, part: usize, origin: Point, here: Placing, there: Placing) -> Self {
        let profile = turned.profile().segments();
        let solid = is_solid(profile) && turned.holes().is_empty();
        for (placing, side) in [(here, 0.0), (there, 180.0)] {
            let drilled = drilled(turned, Angle::degrees(side));
            let drilled = drilled.iter().map(|walls| placed(walls, placing, origin));
            let outlines = std::iter::once(placed(profile, placing, origin)).chain(drilled).collect();
            self.cuts.push(Cut { outlines, part, solid });
            let off_axis: Vec<Vec<Segment>> = runs_off_axis(profile);
            self.edges.extend(off_axis.iter().map(|run| (Edge::Visible, placed(run, placing, origin))));
        }
        let across = |p: Point| line((here.0)(p, origin), (there.0)(p, origin));
        self.edges.extend(seen_across(turned.profile()).into_iter().map(|p| (Edge::Visible, across(p))));
        let (low, high) = (turned.profile().extents().least().y(), turned.profile().extents().greatest().y());
        let end = |y: Length| (here.0)(Point::new(Length::ZERO, y), origin);
        self.edges.push((Edge::Axis, line(end(low), end(high))));
        for (placing, side) in [(here, 0.0), (there, 180.0)] {
            for (hole, inner, outer) in radial(turned, Angle::degrees(side)) {
                let across = |along: Length| {
                    let at = |r: Length| (placing.0)(Point::new(r, along), origin);
                    line(at(inner), at(outer))
                };
                let reach = hole.diameter() * 0.5;
                self.edges.push((Edge::Axis, across(hole.along())));
                self.edges.extend([-reach, reach].map(|r| (Edge::Visible, across(hole.along() + r))));
            }
        }
        self
    }

    /// A thread inside a part whose axis lies level: its root from one place along the axis to another, and the edge
    /// where it ends (ISO 6410-1:1993, 3.1 and 3.2.4); `open` says that it does not end there but runs out of the part.
    pub fn thread_inside(mut self, from: Length, to: Length, major: Length, open: bool) -> Self {
        for side in [0.5, -0.5] {
            let at = |along: Length| Point::new(along, major * side);
            self.edges.push((Edge::Thread, line(at(from), at(to))));
        }
        if !open {
            let end = |side: f64| Point::new(to, major * side);
            self.edges.push((Edge::Visible, line(end(-0.5), end(0.5))));
        }
        self
    }

    /// A thread seen from its end: its root as three quarters of a circle (ISO 6410-1:1993, 3.1), open at the upper right.
    pub fn thread_seen(mut self, centre: Point, major: Length) -> Self {
        let at = |degrees: f64| {
            let a = Angle::degrees(degrees);
            Point::new(centre.x() + major * 0.5 * a.cos(), centre.y() + major * 0.5 * a.sin())
        };
        let quarters = [(95.0, 220.0), (220.0, 355.0)];
        let arc = |(from, to): (f64, f64)| Segment::arc_about(at(from), at(to), centre, Turn::Anticlockwise);
        self.edges.push((Edge::Thread, quarters.into_iter().filter_map(|part| arc(part).ok()).collect()));
        self
    }

    /// A flat part seen from above.
    pub fn plan(title: &str, flat: &Flat) -> Self {
        let mut view = Self { stands: Stands::Above { round: is_round(flat) }, ..Self::new(title) };
        view.edges.push((Edge::Visible, flat.outer().segments().to_vec()));
        for hole in flat.holes() {
            view = view.with_hole_seen(hole);
        }
        view
    }

    fn with_hole_seen(mut self, hole: &FlatHole) -> Self {
        if let FlatHole::Bored(bored) = hole
            && bored.top().x() <= Length::ZERO
        {
            // Blind from below: its axes are all that is seen of it.
            return self.cross(bored.centre(), bored.largest_diameter());
        }
        if let FlatHole::Bored(bored) = hole
            && bored.is_turned()
        {
            let seen = seen_from_above(bored);
            self.edges.extend(seen.iter().map(|d| (Edge::Visible, circle(bored.centre(), *d))));
            return self.cross(bored.centre(), bored.top_diameter());
        }
        let outline = hole.widest();
        self.edges.extend(outline.iter().map(|c| (Edge::Visible, c.segments().to_vec())));
        if let FlatHole::Bored(bored) = hole {
            for d in corner_diameters(bored) {
                self.edges.push((Edge::Visible, circle(bored.centre(), d)));
            }
            self = self.cross(bored.centre(), bored.largest_diameter());
        }
        if let FlatHole::Slot { centre, width, length, direction } = hole {
            // Its two axes, so that the slant is seen.
            for (reach, turn) in [(*length * 0.5, *direction), (*width * 0.5, *direction + Angle::degrees(90.0))] {
                let arm = |r: Length| Point::new(centre.x() + r * turn.cos(), centre.y() + r * turn.sin());
                self.edges.push((Edge::Axis, line(arm(-reach), arm(reach))));
            }
        }
        self
    }

    /// A pair of axes through the centre of something round.
    pub fn cross(mut self, centre: Point, diameter: Length) -> Self {
        let reach = diameter * 0.5;
        let at = |x: Length, y: Length| Point::new(centre.x() + x, centre.y() + y);
        self.edges.push((Edge::Axis, line(at(-reach, Length::ZERO), at(reach, Length::ZERO))));
        self.edges.push((Edge::Axis, line(at(Length::ZERO, -reach), at(Length::ZERO, reach))));
        self
    }

    /// The same view upside down and moved: a plate that lands on its entry face. Dimensions and notes stay behind.
    pub fn upside_down(self, by: Point) -> Self {
        let flip = |segments: &[Segment]| placed(segments, (|p, o| Point::new(o.x() + p.x(), o.y() - p.y()), true), by);
        let cut =
            |c: &Cut| Cut { outlines: c.outlines.iter().map(|o| flip(o)).collect(), part: c.part, solid: c.solid };
        let edges = self.edges.iter().map(|(edge, s)| (*edge, flip(s))).collect();
        Self { title: self.title, cuts: self.cuts.iter().map(cut).collect(), edges, ..Self::default() }
    }

    /// A cone in its cup, axis upright: the cup's entry face lies `seat_height` over the base of the cone, and the ring
    /// on which they touch is marked.
    pub fn seated(title: &str, cone: &Turned, cup: &Flat, hole: Point, seat_height: Length, contact: Length) -> Self {
        let slot = cup.holes().find_map(|h| match h {
            FlatHole::Slot { centre, direction, .. } if centre.distance(hole) < Length::um(1.0) => Some(*direction),
            _ => None,
        });
        // A cone touches a slot across its length only.
        let (plane, x) = match slot {
            Some(direction) => ((hole, direction + Angle::degrees(90.0)), Length::ZERO),
            None => ((Point::new(Length::ZERO, hole.y()), Angle::ZERO), hole.x()),
        };
        let by = Point::new(-x, seat_height + cup.thickness());
        let mut plate = Self::cut_along(title, cup, plane).of_part(1);
        plate.edges = plate.edges.iter().flat_map(|(edge, s)| opened(*edge, s, cup, (hole, x), plane)).collect();
        let plate = plate.upside_down(by);
        let (left, right) = (Point::new(contact * -0.5, seat_height), Point::new(contact * 0.5, seat_height));
        let mut view = plate.with_upright(cone, 0, Point::ORIGIN);
        for at in [left, right] {
            view.edges.push((Edge::Visible, circle(at, contact * 0.04)));
        }
        view
    }

    /// The same view turned by a quarter with all that is said of it: the section of a ring whose axis lies level.
    pub fn lying(self, clockwise: bool) -> Self {
        let (rule, by): (fn(Point, Point) -> Point, f64) = if clockwise {
            (|p, o| Point::new(o.x() + p.y(), o.y() - p.x()), -90.0)
        } else {
            (|p, o| Point::new(o.x() - p.y(), o.y() + p.x()), 90.0)
        };
        let (at, by) = (|p: Point| rule(p, Point::ORIGIN), Angle::degrees(by));
        let turn = |segments: &[Segment]| placed(segments, (rule, false), Point::ORIGIN);
        let cut = |c: Cut| Cut { outlines: c.outlines.iter().map(|o| turn(o)).collect(), ..c };
        let side = |s: Side| if clockwise { s.next() } else { s.next().next().next() };
        let how = |how: How| match how {
            How::Across { from, to, side: s, diameter } => {
                How::Across { from: at(from), to: at(to), side: side(s), diameter }
            }
            How::Corner { vertex, from, to } => How::Corner { vertex: at(vertex), from: from + by, to: to + by },
            How::Hole { centre, diameter, count } => How::Hole { centre: at(centre), diameter, count },
            How::Radius { centre, radius, direction } => {
                How::Radius { centre: at(centre), radius, direction: direction + by }
            }
            How::Taper { at: point, to_left } => How::Taper { at: at(point), to_left },
            How::Note { at: point, kind } => How::Note { at: at(point), kind },
        };
        Self {
            title: self.title,
            alike: Vec::new(),
            stands: Stands::Alone,
            cuts: self.cuts.into_iter().map(cut).collect(),
            edges: self.edges.iter().map(|(edge, s)| (*edge, turn(s))).collect(),
            dimensions: self.dimensions.into_iter().map(|d| Drawn { how: how(d.how.clone()), ..d }).collect(),
            notes: self.notes.into_iter().map(|(p, words)| (at(p), words)).collect(),
            textures: self.textures.into_iter().map(|(p, off, words)| (at(p), off + by, words)).collect(),
            frames: self.frames.into_iter().map(|(p, off, frame)| (at(p), off + by, frame)).collect(),
            datums: self.datums.into_iter().map(|(p, off, letter)| (at(p), off + by, letter)).collect(),
        }
    }

    fn of_part(mut self, part: usize) -> Self {
        self.cuts.iter_mut().for_each(|c| c.part = part);
        self
    }

    /// A pitch circle.
    pub fn pitch_circle(mut self, centre: Point, diameter: Length) -> Self {
        self.edges.push((Edge::Axis, circle(centre, diameter)));
        self
    }

    /// The section of a flat part along the level line at `y`; the top face lies at the top, its height from 0 to the
    /// thickness.
    pub fn through(title: &str, flat: &Flat, y: Length) -> Self {
        let mut view = Self::cut_along(title, flat, (Point::new(Length::ZERO, y), Angle::ZERO));
        view.stands = Stands::Front;
        for hole in flat.holes() {
            view = view.with_bore_edges(hole, y, flat.thickness());
        }
        view
    }

    fn cut_along(title: &str, flat: &Flat, plane: Plane) -> Self {
        let mut view = Self::new(title);
        let t = flat.thickness();
        let middles = turned_middles(flat, plane);
        for (a, b) in crossed_along(flat.outer(), plane) {
            if !middles.is_empty() {
                let pieces = round_middles(&middles, (a, b), t);
                view.edges.extend(pieces.iter().map(|p| (Edge::Visible, p.clone())));
                view.cuts.push(Cut { outlines: pieces, part: 0, solid: false });
                continue;
            }
            let outline = rectangle(a, Length::ZERO, b, t);
            view.edges.push((Edge::Visible, outline.clone()));
            view.cuts.push(Cut { outlines: vec![outline], part: 0, solid: false });
        }
        let drawn = |h: &&FlatHole| !matches!(h, FlatHole::Bored(b) if b.is_turned() && !middles.is_empty());
        let openings: Vec<Vec<Segment>> = flat.holes().filter(drawn).flat_map(|h| opening(h, plane, t)).collect();
        view.edges.extend(openings.iter().map(|o| (Edge::Visible, o.clone())));
        if let Some(cut) = view.cuts.first_mut() {
            cut.outlines.extend(openings);
        }
        view
    }

    fn with_bore_edges(mut self, hole: &FlatHole, y: Length, t: Length) -> Self {
        let FlatHole::Bored(bored) = hole else { return self };
        if (bored.centre().y() - y).abs() > Length::um(1.0) {
            return self;
        }
        let x = bored.centre().x();
        if bored.is_turned() {
            let across = |p: Point| line(Point::new(x - p.x(), p.y()), Point::new(x + p.x(), p.y()));
            if let Ok(section) = bored.half_section(t.as_mm(), 1.0) {
                self.edges.extend(seen_across(&section).into_iter().map(|p| (Edge::Visible, across(p))));
                let (low, high) = (section.extents().least().y(), section.extents().greatest().y());
                self.edges.push((Edge::Axis, line(Point::new(x, low), Point::new(x, high))));
            }
            return self;
        }
        for p in bored.profile().iter().map(Segment::to) {
            let level = t - p.y();
            self.edges.push((Edge::Visible, line(Point::new(x - p.x(), level), Point::new(x + p.x(), level))));
        }
        self.edges.push((Edge::Axis, line(Point::new(x, Length::ZERO), Point::new(x, t))));
        self
    }
}

/// The radial holes in one direction about the axis, with bore and outside radius of their wall.
fn radial(turned: &Turned, side: Angle) -> Vec<(RadialHole, Length, Length)> {
    let here = |hole: &RadialHole| (hole.around() - side).as_degrees().rem_euclid(360.0).abs() < 1e-6;
    let holes = turned.holes().iter().filter(|(hole, _)| here(hole));
    holes.map(|(hole, wall)| (*hole, Length::mm(wall.inner), Length::mm(wall.outer))).collect()
}

/// What those holes take from the profile, in (radius, distance along the axis).
fn drilled(turned: &Turned, side: Angle) -> Vec<Vec<Segment>> {
    let cut = |(hole, inner, outer): (RadialHole, Length, Length)| {
        let reach = hole.diameter() * 0.5;
        rectangle(inner, hole.along() - reach, outer, hole.along() + reach)
    };
    radial(turned, side).into_iter().map(cut).collect()
}

/// Edges of a plate in section without the lines that a cone in the hole hides.
fn opened(
    edge: Edge,
    segments: &[Segment],
    cup: &Flat,
    at: (Point, Length),
    plane: Plane,
) -> Vec<(Edge, Vec<Segment>)> {
    let (hole, middle) = at;
    let bored = cup.holes().find_map(|h| match h {
        FlatHole::Bored(b) if b.centre().distance(hole) < Length::um(1.0) => Some(b),
        _ => None,
    });
    // A slot or cut-out has one width for the whole thickness.
    let plain = || {
        let outlines = cup.holes().filter_map(|h| h.widest().ok());
        let mut spans = outlines.flat_map(|outline| crossed_along(&outline, plane));
        spans.find(|(a, b)| *a < middle && middle < *b).map(|(a, b)| (b - a) * 0.5)
    };
    let radius_at = |level: Length| match bored {
        Some(b) if (level - cup.thickness()).abs() < Length::um(1.0) => b.top_diameter() * 0.5,
        Some(b) if level.abs() < Length::um(1.0) => b.bottom().x(),
        Some(_) => Length::mm(f64::INFINITY),
        None => plain().unwrap_or(Length::mm(f64::INFINITY)),
    };
    let pieces = segments.iter().flat_map(|s| {
        let (from, to) = (s.from(), s.to());
        let (low, high) = (from.x().min(to.x()), from.x().max(to.x()));
        if (from.y() - to.y()).abs() > Length::um(1.0) || low >= middle || high <= middle {
            return vec![vec![*s]];
        }
        let (y, r) = (from.y(), radius_at(from.y()));
        let at = |x: Length| Point::new(x, y);
        let sides = [(low, middle - r), (middle + r, high)];
        sides.into_iter().filter(|(a, b)| a < b).map(|(a, b)| line(at(a), at(b))).collect()
    });
    pieces.map(|p| (edge, p)).collect()
}

fn circle(centre: Point, diameter: Length) -> Vec<Segment> {
    let r = diameter * 0.5;
    let (a, b) = (Point::new(centre.x() - r, centre.y()), Point::new(centre.x() + r, centre.y()));
    [Segment::bulged(a, b, 1.0), Segment::bulged(b, a, 1.0)].into_iter().filter_map(Result::ok).collect()
}

fn rectangle(x0: Length, y0: Length, x1: Length, y1: Length) -> Vec<Segment> {
    let corners = [Point::new(x0, y0), Point::new(x1, y0), Point::new(x1, y1), Point::new(x0, y1)];
    let next = corners.iter().cycle().skip(1);
    corners.iter().zip(next).filter_map(|(a, b)| Segment::line(*a, *b).ok()).collect()
}

/// The edges of a profile without those that lie on the axis, joined edges together.
fn runs_off_axis(profile: &[Segment]) -> Vec<Vec<Segment>> {
    let on_axis = |s: &Segment| s.from().x() < Length::um(1.0) && s.to().x() < Length::um(1.0);
    profile.split(on_axis).filter(|run| !run.is_empty()).map(<[Segment]>::to_vec).collect()
}

/// Diameters of the edges of a turned middle that are seen from above: each nearer to the axis than all before it.
fn seen_from_above(bored: &Bored) -> Vec<Length> {
    let mut seen: Vec<Length> = vec![bored.top_diameter()];
    for d in bored.profile().iter().map(|s| s.to().x() * 2.0) {
        let nearer = seen.last().is_some_and(|last| d < *last - Length::um(2.0));
        if nearer && d > Length::um(2.0) {
            seen.push(d);
        }
    }
    seen
}

/// Diameters of a bore at the corners of its profile, apart from the widest.
fn corner_diameters(bored: &Bored) -> Vec<Length> {
    let widest = bored.largest_diameter();
    let mut all: Vec<Length> =
        bored.profile().iter().flat_map(|s| [s.from().x() * 2.0, s.to().x() * 2.0]).filter(|d| *d < widest).collect();
    all.sort_by(|a, b| a.as_mm().total_cmp(&b.as_mm()));
    all.dedup_by(|a, b| (*a - *b).abs() < Length::um(2.0));
    all.retain(|d| *d > Length::um(2.0));
    all
}

/// The outlines that a hole leaves in the section along a plane.
fn opening(hole: &FlatHole, plane: Plane, t: Length) -> Vec<Vec<Segment>> {
    let (at, direction) = plane;
    let on_level = |b: &Bored| direction == Angle::ZERO && (b.centre().y() - at.y()).abs() <= Length::um(1.0);
    match hole {
        FlatHole::Bored(b) if on_level(b) => vec![bore_outline(b, t)],
        _ => {
            let contour = hole.widest().ok();
            let crossings = contour.iter().flat_map(|c| crossed_along(c, plane));
            crossings.map(|(a, b)| rectangle(a, Length::ZERO, b, t)).collect()
        }
    }
}

/// The turned middles whose axis lies in the plane of a level section.
fn turned_middles(flat: &Flat, (at, direction): Plane) -> Vec<&Bored> {
    let here =
        |b: &&Bored| b.is_turned() && direction == Angle::ZERO && (b.centre().y() - at.y()).abs() <= Length::um(1.0);
    let bored = flat.holes().filter_map(|h| match h {
        FlatHole::Bored(b) => Some(b),
        _ => None,
    });
    bored.filter(here).collect()
}

/// The metal beside turned middles in section, from one edge of the plate to the other: two pieces where one goes through, else one.
fn round_middles(middles: &[&Bored], (a, b): (Length, Length), t: Length) -> Vec<Vec<Segment>> {
    let none = Length::ZERO;
    let place = |m: &Bored, side: f64, p: Point| Point::new(m.centre().x() + p.x() * side, t - p.y());
    let points =
        |m: &&Bored| -> Vec<Point> { std::iter::once(m.top()).chain(m.profile().iter().map(Segment::to)).collect() };
    let closed = |corners: Vec<Point>| {
        let next = corners.iter().cycle().skip(1);
        corners.iter().zip(next).filter_map(|(p, q)| Segment::line(*p, *q).ok()).collect()
    };
    if let Some(through) = middles.iter().find(|m| m.top().x() > none && m.bottom().x() > none) {
        let side = |end: Length, side: f64| {
            let edge = [Point::new(end, none), Point::new(end, t)];
            closed(edge.into_iter().chain(points(through).into_iter().map(|p| place(through, side, p))).collect())
        };
        return vec![side(b, 1.0), side(a, -1.0)];
    }
    let mut corners = vec![Point::new(b, none), Point::new(b, t)];
    for m in middles.iter().filter(|m| m.top().x() > none) {
        corners.extend(points(m).into_iter().map(|p| place(m, 1.0, p)));
        corners.extend(points(m).into_iter().rev().skip(1).map(|p| place(m, -1.0, p)));
    }
    corners.extend([Point::new(a, t), Point::new(a, none)]);
    for m in middles.iter().filter(|m| m.top().x() <= none) {
        corners.extend(points(m).into_iter().rev().map(|p| place(m, -1.0, p)));
        corners.extend(points(m).into_iter().skip(1).map(|p| place(m, 1.0, p)));
    }
    vec![closed(corners)]
}

/// The profile of a bore, left and right of its axis, as one closed outline.
fn bore_outline(bored: &Bored, t: Length) -> Vec<Segment> {
    let x = bored.centre().x();
    let right = |p: Point| Point::new(x + p.x(), t - p.y());
    let left = |p: Point| Point::new(x - p.x(), t - p.y());
    let profile = bored.profile();
    let down = profile.iter().filter_map(|s| Segment::bulged(right(s.from()), right(s.to()), -s.bulge()).ok());
    let up = profile.iter().rev().filter_map(|s| Segment::bulged(left(s.to()), left(s.from()), -s.bulge()).ok());
    let mut outline: Vec<Segment> = down.collect();
    let (first, last) = (profile.first().map(Segment::from), profile.last().map(Segment::to));
    outline.extend(last.and_then(|p| Segment::line(right(p), left(p)).ok()));
    outline.extend(up);
    outline.extend(first.and_then(|p| Segment::line(left(p), right(p)).ok()));
    outline
}

/// A plane square to a flat part: a point on it, which lies at nought along it, and its direction.
type Plane = (Point, Angle);

/// Where the level line at `y` runs inside a contour, from left to right.
fn crossed(contour: &Contour, y: Length) -> Vec<(Length, Length)> {
    crossed_along(contour, (Point::new(Length::ZERO, y), Angle::ZERO))
}

/// Where a plane runs inside a contour, from its point along its direction.
fn crossed_along(contour: &Contour, plane: Plane) -> Vec<(Length, Length)> {
    let mut at: Vec<f64> = contour.segments().iter().flat_map(|s| crossings(s, plane)).collect();
    at.sort_by(f64::total_cmp);
    at.chunks_exact(2).filter_map(|c| Some((Length::mm(*c.first()?), Length::mm(*c.get(1)?)))).collect()
}

/// Where one edge crosses the plane, arcs by chords of 1.5°.
fn crossings(segment: &Segment, (at, direction): Plane) -> Vec<f64> {
    let (cos, sin) = (direction.cos(), direction.sin());
    let seen = |p: &Point| {
        let (x, y) = ((p.x() - at.x()).as_mm(), (p.y() - at.y()).as_mm());
        (x * cos + y * sin, y * cos - x * sin)
    };
    let points: Vec<(f64, f64)> = points_along(segment).iter().map(seen).collect();
    let pairs = points.iter().zip(points.iter().skip(1));
    let crossing = |((ax, ay), (bx, by)): (&(f64, f64), &(f64, f64))| {
        ((*ay <= 0.0) != (*by <= 0.0)).then(|| ax - (bx - ax) * ay / (by - ay))
    };
    pairs.filter_map(crossing).collect()
}

fn points_along(segment: &Segment) -> Vec<Point> {
    let Some(arc) = segment.arc() else { return vec![segment.from(), segment.to()] };
    let count = (arc.sweep().as_degrees().abs() / 1.5).ceil().max(1.0) as u32;
    let at = |i: u32| {
        let angle = arc.start() + arc.sweep() * (f64::from(i) / f64::from(count));
        let (c, r) = (arc.centre(), arc.radius());
        Point::new(c.x() + r * angle.cos(), c.y() + r * angle.sin())
    };
    let inner = (1..count).map(at);
    std::iter::once(segment.from()).chain(inner).chain(std::iter::once(segment.to())).collect()
}

/// Corners of a turned profile whose circle is seen behind the cut: nothing lies between it and the axis.
fn seen_across(profile: &Contour) -> Vec<Point> {
    let angle = |s: &Segment| Angle::atan2((s.to().y() - s.from().y()).as_mm(), (s.to().x() - s.from().x()).as_mm());
    let segments = profile.segments();
    let pairs = segments.iter().zip(segments.iter().cycle().skip(1));
    let sharp = pairs.filter(|(a, b)| (angle(a) - angle(b)).abs() > Angle::degrees(0.5));
    sharp.map(|(a, _)| a.to()).filter(|p| p.x() > Length::um(1.0) && is_open_inwards(profile, *p)).collect()
}

/// No material between a corner and the axis, a little to either side of its plane along the axis.
fn is_open_inwards(profile: &Contour, p: Point) -> bool {
    let open = |y: Length| {
        let inner = crossed(profile, y).into_iter().map(|(from, _)| from).fold(p.x(), Length::min);
        inner >= p.x() - Length::um(50.0)
    };
    open(p.y() + Length::um(20.0)) && open(p.y() - Length::um(20.0))
}
