//! The drawing of a stand: how it goes together, and its plates with their sizes.

use crate::record::drawing::{Drawing, Edge, Picture, Side, View};
use crate::shape::{Mark, Point, Segment};
use crate::units::Length;

use super::Made;
use super::form::{Form, Locked};
use super::outline::Kind;
use super::{picture, sizes};

/// All views; without the one in space where nobody looks.
pub fn drawing(f: &Form, made: &[Made], pictured: bool) -> Drawing {
    let apart = pictured.then(|| picture::view("Drawn apart", f, made, 1.0));
    Drawing { views: apart.into_iter().chain([end(f, made), others(f, made)]).collect() }
}

/// The stand put together.
pub fn whole(f: &Form, made: &[Made]) -> Picture {
    Picture::Section { title: "Put together".into(), view: picture::view("Put together", f, made, 0.0) }
}

fn at(x: Length, y: Length) -> Point {
    Point::new(x, y)
}

/// Adds a plate with what is cut out of it and engraved on it, its origin at a place of the view.
fn with(mut view: View, made: &[Made], kind: Kind, origin: Point) -> View {
    let Some(m) = made.iter().find(|m| m.kind == kind) else { return view };
    let moved = |p: Point| at(p.x() + origin.x(), p.y() + origin.y());
    let plan = View::plan("", &m.flat);
    for (edge, segments) in plan.edges {
        let run = segments.iter().filter_map(|s| Segment::bulged(moved(s.from()), moved(s.to()), s.bulge()).ok());
        view.edges.push((edge, run.collect()));
    }
    for mark in m.cutting.marks() {
        if let Mark::Line { from, to } = mark {
            view.edges.push((Edge::Visible, Segment::line(moved(*from), moved(*to)).into_iter().collect()));
        }
    }
    view
}

fn end(f: &Form, made: &[Made]) -> View {
    let (half, top, high, zero) = (f.width / 2.0, f.top / 2.0, f.end_height, Length::ZERO);
    let slots: Vec<Length> = f.tabs_at.iter().map(|tab| f.rail_foot() + *tab).collect();
    let up = slots.last().copied().unwrap_or(high);
    let side = f.rails_apart / 2.0;
    let legs = f.opening().map(|[(_, low), (_, head)]| (low + head) / 2.0).unwrap_or(f.arch);
    let view = with(View::new("1 end plate, 2 in one stand"), made, Kind::End, Point::ORIGIN)
        .distance(&sizes::WIDTH, at(-half, zero), at(half, zero), Side::Below)
        .distance(&sizes::TOP_WIDTH, at(-top, high), at(top, high), Side::Above)
        .distance(&sizes::RAILS_APART, at(-side, up), at(side, up), Side::Above)
        .distance(&sizes::END_HEIGHT, at(-half, zero), at(-top, high), Side::Left)
        .pointed(&sizes::SLOT_WIDE, at(side + f.slot_wide / 2.0, up))
        .also(" × ", &sizes::SLOT_HIGH)
        .pointed(&sizes::LEG_WIDTH, at(f.half_at(legs), legs))
        .also(" leg; plate ", &sizes::THICKNESS);
    match (&f.locked, slots.as_slice()) {
        (Locked::Bolt(slot), [low, high]) => view
            .distance(&sizes::TABS_APART, at(-side, *low), at(-side, *high), Side::Left)
            .hole(&sizes::BOLT_HOLE, at(side, (*low + *high) / 2.0), slot.wide, 2),
        _ => view,
    }
}

/// Top plate, rail over it, wedge between them.
fn others(f: &Form, made: &[Made]) -> View {
    let wedge = match &f.locked {
        Locked::Wedge(wedge, _) => Some(*wedge),
        Locked::Bolt(_) => None,
    };
    let gap = (f.length / 6.0).max(f.t * 4.0);
    let room = wedge.map_or(Length::ZERO, |w| w.broad + gap);
    let (l, w) = (f.length / 2.0, f.top / 2.0);
    // The rail's lower edge.
    let up = (w + gap + room).rounded();
    let title = if wedge.is_some() {
        "2 rail, 2 in one stand; 4 wedge, 4 in one stand; 3 top plate"
    } else {
        "2 rail, 2 in one stand; 3 top plate"
    };
    let view = with(View::new(title), made, Kind::Top, Point::ORIGIN);
    let view = with(view, made, Kind::Rail, at(Length::ZERO, up));
    let (body, depth) = (f.rail_body / 2.0, f.rail_depth);
    let out = body + f.tab_long;
    let tab = up + f.tabs_at.first().copied().unwrap_or(depth / 2.0);
    let (low, high) = (tab - f.tab_high / 2.0, tab + f.tab_high / 2.0);
    let (near, long) = (f.pad_tab_at, f.pad_tab_long / 2.0);
    let side = f.rails_apart / 2.0;
    let view = view
        .distance(&sizes::LENGTH, at(-l, -w), at(l, -w), Side::Below)
        .distance(&sizes::TOP_WIDTH, at(-l, -w), at(-l, w), Side::Left)
        .pointed(&sizes::TOP_SLOT, at(near + f.pad_slot_long / 2.0, side))
        .also(" × ", &sizes::SLOT_WIDE)
        .distance(&sizes::RAIL_BODY, at(-body, up + depth), at(body, up + depth), Side::Above)
        .distance(&sizes::RAIL_DEPTH, at(-body, up), at(-body, up + depth), Side::Left)
        .distance(&sizes::TAB_HIGH, at(out, low), at(out, high), Side::Right)
        .distance(
            &sizes::TOP_TAB_HIGH,
            at(near + long, up + depth),
            at(near + long, up + depth + f.pad_tab_high),
            Side::Right,
        )
        .distance(
            &sizes::TOP_SLOTS_APART,
            at(-near, up + depth + f.pad_tab_high),
            at(near, up + depth + f.pad_tab_high),
            Side::Above,
        );
    match (&f.locked, wedge) {
        (Locked::Wedge(_, hole), Some(wedge)) => {
            let start = at(wedge.long / -2.0, (w + gap / 2.0).rounded());
            let view = with(view, made, Kind::Wedge, start);
            let end = at(start.x() + wedge.long, start.y() + wedge.broad / 2.0);
            view.pointed(&sizes::WEDGE_HOLE, at(-(body + hole.from + hole.long / 2.0), tab - hole.high / 2.0))
                .also(" × ", &sizes::WEDGE_HOLE_HIGH)
                .pointed(&sizes::WEDGE_NARROW, at(start.x(), start.y() + wedge.narrow / 2.0))
                .also(" to ", &sizes::WEDGE_BROAD)
                .pointed(&sizes::WEDGE_LONG, end)
                .also(" long, taper ", &sizes::WEDGE_ANGLE)
        }
        (Locked::Bolt(slot), _) => view
            .pointed(&sizes::BOLT_SLOT, at(slot.deep - body, up + depth / 2.0))
            .also(" wide; for the nut ", &sizes::NUT_SLOT_LONG)
            .also(" × ", &sizes::NUT_SLOT_HIGH),
        _ => view,
    }
}
