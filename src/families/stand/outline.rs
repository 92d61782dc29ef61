//! The plates of a stand as geometry: each with its outline, what is cut out of it and its number; as it is to come from the cutter, and
//! as the cutter's lines have to be drawn.

use crate::shape::{Beside, Circle, Contour, Corner, Corners, Cutting, Flat, FlatHole, Mark, Point, ShapeError};
use crate::standards::processes::can_be_cut;
use crate::units::Length;

use super::form::{BoltSlot, Form, Locked, Wedge};
use super::read::{Lock, Spec};

/// Size of the crosses that mark drilled centres.
const CROSS: Length = Length::mm(4.0);

/// The kinds of plate, by the number that is engraved on them.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Kind {
    End,
    Rail,
    Top,
    Wedge,
}

impl Kind {
    pub const fn number(self) -> u32 {
        match self {
            Self::End => 1,
            Self::Rail => 2,
            Self::Top => 3,
            Self::Wedge => 4,
        }
    }
    /// Suffix of its files.
    pub const fn suffix(self) -> &'static str {
        match self {
            Self::End => "1-end",
            Self::Rail => "2-rail",
            Self::Top => "3-top",
            Self::Wedge => "4-wedge",
        }
    }
    pub const fn words(self) -> &'static str {
        match self {
            Self::End => "end plate",
            Self::Rail => "rail",
            Self::Top => "top plate",
            Self::Wedge => "wedge",
        }
    }
    /// So many in one stand.
    pub const fn each(self) -> u32 {
        match self {
            Self::End | Self::Rail => 2,
            Self::Top => 1,
            Self::Wedge => 4,
        }
    }
}

/// A plate before it is solid or drawing.
pub struct Piece {
    pub kind: Kind,
    outer: Corners,
    holes: Vec<Corners>,
    round: Vec<(Point, Length)>,
    marks: Vec<Mark>,
}

impl Piece {
    /// The finished plate.
    pub fn flat(&self, thickness: Length) -> Result<Flat, ShapeError> {
        let holes = self.contours(Length::ZERO, &self.round)?.into_iter().map(FlatHole::Cut).collect();
        Flat::new(self.outer.contour()?, thickness, holes)
    }

    /// What the cutter gets: the lines moved into the waste by half of what his beam takes, where he does not allow for it.
    /// A round hole that is too small for the plate is a cross, and is drilled.
    pub fn cutting(&self, kerf: Length, thickness: Length) -> Result<Cutting, ShapeError> {
        let outer = if kerf > Length::ZERO { self.outer.grown(kerf / 2.0)? } else { self.outer.clone() };
        let (cut, drilled): (Vec<_>, Vec<_>) =
            self.round.iter().copied().partition(|(_, d)| can_be_cut(*d - kerf, thickness));
        let crosses = drilled.into_iter().map(|(centre, _)| Mark::Cross { centre, size: CROSS });
        let marks = self.marks.iter().cloned().chain(crosses).collect();
        Cutting::new(outer.contour()?, self.contours(kerf, &cut)?, marks)
    }

    fn contours(&self, kerf: Length, round: &[(Point, Length)]) -> Result<Vec<Contour>, ShapeError> {
        let cut = |hole: &Corners| match kerf > Length::ZERO {
            true => hole.grown(kerf / -2.0)?.contour(),
            false => hole.contour(),
        };
        let drilled = round.iter().map(|(at, d)| Contour::circle(Circle::new(*at, *d - kerf)?));
        self.holes.iter().map(cut).chain(drilled).collect()
    }
}

fn at(x: Length, y: Length) -> Point {
    Point::new(x, y)
}

/// All kinds of plate of a stand.
pub fn pieces(s: &Spec, f: &Form) -> Vec<Piece> {
    let mut all = vec![end(s, f), rail(f), top(f)];
    if let Locked::Wedge(wedge, _) = &f.locked {
        all.push(self::wedge(f, wedge));
    }
    all
}

/// An end plate as it stands, the floor at y = 0, its middle at x = 0.
fn end(s: &Spec, f: &Form) -> Piece {
    let (half, top, high, zero) = (f.width / 2.0, f.top / 2.0, f.end_height, Length::ZERO);
    let inner = half - f.foot;
    let bend = Corner::Round(f.round.min(f.arch * 0.8));
    let outer = vec![
        (at(-half, zero), Corner::Sharp),
        (at(-inner, zero), Corner::Sharp),
        (at(-inner + f.arch, f.arch), bend),
        (at(inner - f.arch, f.arch), bend),
        (at(inner, zero), Corner::Sharp),
        (at(half, zero), Corner::Sharp),
        (at(top, high), Corner::Sharp),
        (at(-top, high), Corner::Sharp),
    ];
    let mut holes = Vec::new();
    if let Some([(foot, low), (head, up)]) = f.opening() {
        let corner = |x: Length, z: Length| (at(x, z), Corner::Round(f.round));
        holes.push(Corners::hole(vec![corner(-foot, low), corner(foot, low), corner(head, up), corner(-head, up)]));
    }
    let mut round = Vec::new();
    for side in [-0.5, 0.5] {
        let x = f.rails_apart * side;
        for tab in &f.tabs_at {
            let middle = at(x, f.rail_foot() + *tab);
            holes.push(Corners::slot(middle, f.slot_wide, f.slot_high, f.relief, true));
        }
        if let Lock::Bolts { hole, .. } = &s.lock {
            round.push((at(x, f.rail_foot() + f.rail_depth / 2.0), *hole));
        }
    }
    let figure = f.rail_depth * 0.3;
    let marks = Mark::figure(Kind::End.number(), at(zero, f.rail_foot() + f.rail_depth / 2.0), figure);
    Piece { kind: Kind::End, outer: Corners::outer(outer), holes, round, marks }
}

/// A rail, its lower edge at y = 0, its middle at x = 0.
fn rail(f: &Form) -> Piece {
    let (end, depth, zero) = (f.rail_body / 2.0, f.rail_depth, Length::ZERO);
    let relieved = |beside| Corner::Relieved(f.relief, beside);
    let nose = Corner::Round(f.relief);
    // The right end from below: for each tab the shoulder, out, up, in; between two tabs the slot of the bolt.
    let mut right = Vec::new();
    for (i, tab) in f.tabs_at.iter().enumerate() {
        if let (1, Locked::Bolt(slot)) = (i, &f.locked) {
            right.extend(bolt_slot(f, slot, end));
        }
        let (low, high, out) = (*tab - f.tab_high / 2.0, *tab + f.tab_high / 2.0, end + f.tab_long);
        right.push((at(end, low), relieved(Beside::Before)));
        right.push((at(out, low), nose));
        right.push((at(out, high), nose));
        right.push((at(end, high), relieved(Beside::After)));
    }
    let mirrored = |(p, corner): &(Point, Corner)| {
        let corner = match corner {
            Corner::Relieved(r, Beside::Before) => Corner::Relieved(*r, Beside::After),
            Corner::Relieved(r, Beside::After) => Corner::Relieved(*r, Beside::Before),
            other => *other,
        };
        (at(-p.x(), p.y()), corner)
    };
    let left: Vec<(Point, Corner)> = right.iter().rev().map(mirrored).collect();
    let mut outer = vec![(at(-end, zero), Corner::Sharp), (at(end, zero), Corner::Sharp)];
    outer.extend(right);
    outer.push((at(end, depth), Corner::Sharp));
    for side in [1.0, -1.0] {
        let (from, to) = (f.pad_tab_at * side + f.pad_tab_long / 2.0, f.pad_tab_at * side - f.pad_tab_long / 2.0);
        let up = depth + f.pad_tab_high;
        outer.push((at(from, depth), relieved(Beside::Before)));
        outer.push((at(from, up), Corner::Sharp));
        outer.push((at(to, up), Corner::Sharp));
        outer.push((at(to, depth), relieved(Beside::After)));
    }
    outer.push((at(-end, depth), Corner::Sharp));
    outer.extend(left);
    let mut holes = Vec::new();
    if let Locked::Wedge(_, hole) = &f.locked {
        for side in [1.0, -1.0] {
            for tab in &f.tabs_at {
                let middle = at((end + hole.from + hole.long / 2.0) * side, *tab);
                holes.push(Corners::slot(middle, hole.long, hole.high, f.relief, false));
            }
        }
    }
    let marks = Mark::figure(Kind::Rail.number(), at(zero, depth / 2.0), depth * 0.3);
    Piece { kind: Kind::Rail, outer: Corners::outer(outer), holes, round: Vec::new(), marks }
}

/// The slot for bolt and nut in the end of a rail, from below, between its tabs.
fn bolt_slot(f: &Form, slot: &BoltSlot, end: Length) -> Vec<(Point, Corner)> {
    let middle = f.rail_depth / 2.0;
    let (w, h) = (slot.wide / 2.0, slot.nut_high / 2.0);
    let (nut, past, bottom) = (end - slot.to_nut, end - slot.to_nut - slot.nut_long, end - slot.deep);
    let corners = [
        (end, -w),
        (nut, -w),
        (nut, -h),
        (past, -h),
        (past, -w),
        (bottom, -w),
        (bottom, w),
        (past, w),
        (past, h),
        (nut, h),
        (nut, w),
        (end, w),
    ];
    corners.map(|(x, y)| (at(x, middle + y), Corner::Sharp)).to_vec()
}

/// The top plate about its middle, along x as the rails run.
fn top(f: &Form) -> Piece {
    let (l, w) = (f.length / 2.0, f.top / 2.0);
    let corner = |x: Length, y: Length| (at(x, y), Corner::Round(f.round));
    let outer = Corners::outer(vec![corner(-l, -w), corner(l, -w), corner(l, w), corner(-l, w)]);
    let mut holes = Vec::new();
    for x in [-1.0, 1.0] {
        for y in [-0.5, 0.5] {
            let middle = at(f.pad_tab_at * x, f.rails_apart * y);
            holes.push(Corners::slot(middle, f.pad_slot_long, f.slot_wide, f.relief, false));
        }
    }
    let marks = Mark::figure(Kind::Top.number(), Point::ORIGIN, f.rail_depth * 0.3);
    Piece { kind: Kind::Top, outer, holes, round: Vec::new(), marks }
}

/// A wedge: its straight edge, which lies against the end plate, along x at y = 0.
fn wedge(f: &Form, wedge: &Wedge) -> Piece {
    let corner = |x: Length, y: Length| (at(x, y), Corner::Round(f.relief));
    let zero = Length::ZERO;
    let outer = Corners::outer(vec![
        corner(zero, zero),
        corner(wedge.long, zero),
        (at(wedge.long, wedge.broad), Corner::Sharp),
        corner(zero, wedge.narrow),
    ]);
    let marks =
        Mark::figure(Kind::Wedge.number(), at(wedge.long - wedge.broad, wedge.narrow / 2.0), wedge.narrow * 0.6);
    Piece { kind: Kind::Wedge, outer, holes: Vec::new(), round: Vec::new(), marks }
}
