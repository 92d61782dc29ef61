//! What is checked on a plate: holes and webs against the thickness, edges against the bolts, corners, and the load.

use crate::families::common::bolt_length::Stack;
use crate::families::common::bolted::{self, Bolted};
use crate::families::common::{self, Head};
use crate::formulas::bracket;
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::shape::{Contour, Flat, Point, least_metal, narrowest};
use crate::source::Source;
use crate::standards::processes;
use crate::standards::threads::Thread;
use crate::units::{Angle, Force, Length};

use super::outline::{cut_width, kept};
use super::read::{self, Holes, Load, Made, Shape, Spec};
use super::sizes;

const LASER_HOLE: Check = Check {
    key: "laser_hole",
    what: "smallest cut hole against the plate's thickness",
    worst: Verdict::Fail,
    source: Source::Published(
        "public design guides of laser cutting services: hole at least the plate's thickness, 0.7 of it the hard limit",
    ),
};
const WEB: Check = Check {
    key: "web",
    what: "least metal between two cut edges",
    worst: Verdict::Fail,
    source: Source::Published("public design guides of laser cutting services: at least the plate's thickness"),
};
const PRINTED_WEB: Check = Check { what: "least plastic between two edges", source: Source::CommonPractice, ..WEB };
const EDGE: Check = Check {
    key: "edge_distance",
    what: "bolt's hole, centre to the nearest edge over its diameter",
    worst: Verdict::Fail,
    source: Source::Published("EN 1993-1-8 table 3.3: at least 1.2 hole diameters; twice is design practice"),
};
const PASSES: Check = Check {
    key: "bolt_passes",
    what: "hole against the bolt that goes through it",
    worst: Verdict::Fail,
    source: Source::Derived("a hole is larger than the thread that goes through it"),
};
const CORNER: Check = Check {
    key: "inner_corner",
    what: "sharpest inner corner of outline and holes, its radius",
    worst: Verdict::Caution,
    source: Source::CommonPractice,
};
const READ: Check = Check {
    key: "outline_read",
    what: "outline as it was read",
    worst: Verdict::Ok,
    source: Source::Derived("the drawing, joined within the stated gap"),
};
const GROUP: Check = Check {
    key: "bolt_group",
    what: "shear of the bolt that takes most, against what it carries",
    worst: Verdict::Fail,
    source: Source::Published(
        "Shigley, Mechanical Engineering Design (eccentrically loaded bolts); EN 1993-1-8 table 3.4 (shear through the thread)",
    ),
};
const BEARING: Check = Check {
    key: "bearing",
    what: "bearing and tear-out of its hole",
    worst: Verdict::Fail,
    source: Source::Published("EN 1993-1-8 tables 3.3 and 3.4"),
};
const BENDING: Check = Check {
    key: "section_bending",
    what: "bending stress of the section through the bolts next to the load",
    worst: Verdict::Fail,
    source: Source::Published("Shigley, Mechanical Engineering Design: M c/I of the section less its holes"),
};
/// Yield strength over stress that is wanted. Source: common practice, no source.
const MARGIN: f64 = 1.5;

/// A corner that turns by more is sharp. Source: common practice, no source.
const SHARP: Angle = Angle::degrees(45.0);

/// All checks of a plate.
pub fn checks(design: &mut Design, s: &Spec, flat: &Flat) {
    if !s.common.material.printed {
        holes(design, s);
    }
    let edges = Edges::of(flat);
    webs(design, s, &edges);
    bolts(design, s, &edges);
    corners(design, s, &edges);
    if let Shape::Drawn { from, .. } = &s.shape {
        if !from.mended.is_empty() {
            design.note(&READ, from.mended.join("; "));
        }
        if from.left_out > 0 {
            design.note(&READ, "engraved lines and lines to bend along are not taken over from the drawing");
        }
    }
    if let Some(load) = &s.load {
        loaded(design, s, load, &edges, flat);
        common::printed_under_load(design, &[&s.common.material]);
        design.caution(&["bench"], "The load is one at rest: shock, vibration and people under it want more.", "The figures hold for the stated load in the plane of the plate, at rest. Shock, vibration and people under it want more; local codes and licensed practice rule.");
    }
    if let Some(frame) = &s.frame {
        common::dissimilar(design, &s.common, frame, common::Meets::Frame, false);
    }
    common::checks(design, &s.common);
    let e = flat.extents();
    common::swells(design, &s.common, e.width().max(e.height()));
    common::at_machines(design);
}

/// Outline and holes as edges.
struct Edges {
    outer: Contour,
    holes: Vec<Contour>,
}

impl Edges {
    fn of(flat: &Flat) -> Self {
        let holes = flat.holes().filter_map(|h| h.widest().ok()).collect();
        Self { outer: flat.outer().clone(), holes }
    }
    fn all(&self) -> impl Iterator<Item = &Contour> {
        [&self.outer].into_iter().chain(&self.holes)
    }
    /// From a hole's centre to the nearest edge of the outline or of another hole.
    fn nearest_to(&self, centre: Point) -> Length {
        let others = self.all().filter(|c| c.as_circle().is_none_or(|c| c.centre().distance(centre) > Length::um(1.0)));
        others.map(|c| c.distance_to(centre)).fold(Length::mm(f64::INFINITY), Length::min)
    }
}

fn holes(design: &mut Design, s: &Spec) {
    let t = s.thickness.value;
    let written = s.holes.iter().filter_map(|row| cut_width(s, row));
    let drawn = match &s.shape {
        Shape::Drawn { from, .. } => kept(s, from).map(|h| Length::mm(narrowest(h.segments()))).collect(),
        _ => Vec::new(),
    };
    if let Some(least) = written.chain(drawn).reduce(Length::min) {
        design.at_least(
            &LASER_HOLE,
            Value::Length(least.rounded()),
            Value::Length(processes::burnt_below(t).rounded()),
            Some(Value::Length(processes::least_cut_hole(t))),
            "a smaller hole is burnt rather than cut: drill it, or take a thinner plate",
        );
    }
}

fn webs(design: &mut Design, s: &Spec, edges: &Edges) {
    let t = s.thickness.value;
    if s.common.material.printed {
        return printed_webs(design, s, edges);
    }
    if let Some(least) = least_metal(&edges.outer, &edges.holes) {
        design.at_least(
            &WEB,
            Value::Length(least.rounded()),
            Value::Length((t * 0.5).rounded()),
            Some(Value::Length(processes::least_web(t))),
            "a narrow web warps in cutting and tears under load",
        );
    }
}

/// A printed web is two lines at least, one for each edge.
fn printed_webs(design: &mut Design, s: &Spec, edges: &Edges) {
    let line = s.common.printer.line;
    if let Some(least) = least_metal(&edges.outer, &edges.holes) {
        design.at_least(
            &PRINTED_WEB,
            Value::Length(least.rounded()),
            Value::Length((line * 2.0).rounded()),
            Some(Value::Length((line * 4.0).rounded())),
            "less than two lines are not printed as drawn, less than four tear",
        );
    }
}

fn bolts(design: &mut Design, s: &Spec, edges: &Edges) {
    let mut least: Option<f64> = None;
    for row in &s.holes {
        let Some(bolt) = row.bolt() else { continue };
        common::standard_thread(design, &bolt);
        if row.diameter <= bolt.major {
            let because = "a bolt does not pass a hole that is no larger than its thread";
            design.at_least(&PASSES, Value::Length(row.diameter), Value::Length(bolt.major), None, because);
        }
        for centre in &row.centres {
            let share = edges.outer.distance_to(*centre) / row.diameter;
            least = Some(least.map_or(share, |l| l.min(share)));
        }
    }
    let kinds = kinds_of_bolts(s);
    kinds.iter().for_each(|(kind, _)| bolted::bought(design, kind));
    bolted::torques(design, &kinds.iter().map(|(kind, _)| kind).collect::<Vec<_>>());
    tapped(design, s);
    if let Some(share) = least {
        design.at_least(
            &EDGE,
            Value::Number((share * 1e4).round() / 1e4),
            Value::Number(1.2),
            Some(Value::Number(2.0)),
            "a bolt too near the edge tears out",
        );
    }
}

/// The thread in the plate is held against the bolt that is drawn tight in it: the weakest of each thread.
fn tapped(design: &mut Design, s: &Spec) {
    for row in &s.holes {
        let Made::Tapped(thread) = &row.made else { continue };
        let into = Some((&s.common.material, s.thickness.value));
        let bolt = Bolted { into, ..through(s, row, *thread) };
        if let Some(pull) = bolted::pull(&bolt) {
            bolted::engaged(design, &bolt, pull);
        }
    }
}

/// The bolts that go through it, those of one kind together, with the numbers of their rows of holes.
pub fn kinds_of_bolts(s: &Spec) -> Vec<(Bolted<'_>, Vec<String>)> {
    let mut kinds: Vec<(Bolted<'_>, Vec<String>)> = Vec::new();
    for (i, row) in s.holes.iter().enumerate() {
        let Some(thread) = row.bolt() else { continue };
        let (bolts, hole) = (through(s, row, thread), (i + 1).to_string());
        let same = |b: &Bolted<'_>| b.thread == bolts.thread && b.class.name == bolts.class.name;
        match kinds.iter_mut().find(|(b, _)| same(b)) {
            Some((b, holes)) => {
                b.count += bolts.count;
                holes.push(hole);
            }
            None => kinds.push((bolts, vec![hole])),
        }
    }
    kinds
}

/// What goes through a row of holes, drawn tight against what the plate is bolted to.
fn through<'a>(s: &'a Spec, row: &Holes, thread: Thread) -> Bolted<'a> {
    let stack = Stack {
        part: s.thickness.value,
        wall: s.onto_thickness.as_ref().map(|t| t.value),
        wall_is: ("wall that it is bolted to", read::ONTO_THICKNESS.name),
        washers: 2,
        thread: None,
    };
    let count = row.centres.len();
    Bolted {
        class: row.steel.class,
        thread,
        count,
        into: None,
        stack,
        head: Head::Hex,
        tapped_instead: s.frame.as_ref(),
    }
}

/// Corners that look into the metal: a crack begins there, and the beam dwells.
fn corners(design: &mut Design, s: &Spec, edges: &Edges) {
    let t = s.thickness.value;
    let into_metal =
        |contour: &Contour, hole: bool| contour.turns().any(|turn| if hole { turn > SHARP } else { turn < -SHARP });
    if let Shape::Angle { inner: Some(radius), .. } = &s.shape
        && radius.value > Length::ZERO
    {
        let because = "a crack begins in a tight inner corner: half the thickness is enough";
        let wanted = Some(Value::Length((t * 0.5).rounded()));
        design.at_least(&CORNER, Value::Length(radius.value), Value::Length(Length::ZERO), wanted, because);
    }
    let sharp = into_metal(&edges.outer, false) || edges.holes.iter().any(|h| into_metal(h, true));
    if sharp {
        design.finding(
            &CORNER,
            Verdict::Caution,
            Some(Value::Length(Length::ZERO)),
            Limit::AtLeast(Value::Length((t * 0.5).rounded())),
            "a crack begins in a sharp inner corner, and a folded or loaded plate tears there: round it by half the thickness",
        );
    }
}

fn loaded(design: &mut Design, s: &Spec, load: &Load, edges: &Edges, flat: &Flat) {
    design.given(&read::LOAD, &load.force, Value::Force);
    design.computed_length(&sizes::LOAD_X, load.at.x(), "as written");
    design.computed_length(&sizes::LOAD_Y, load.at.y(), "as written");
    let rows: Vec<&Holes> = s.holes.iter().filter(|row| row.bolt().is_some()).collect();
    let places: Vec<Point> = rows.iter().flat_map(|row| row.centres.iter().copied()).collect();
    let group: Vec<(Length, Length)> = places.iter().map(|p| (p.x(), p.y())).collect();
    let force = load.force.value;
    let shear = bracket::group_shear(&group, (Force::ZERO, -force), (load.at.x(), load.at.y()));
    let Some(shear) = shear else {
        let because =
            "one bolt holds no load beside it: the plate turns about it; a second bolt, as far away as there is room";
        return design.finding(&GROUP, Verdict::Fail, None, None, because);
    };
    design.computed(&sizes::BOLT_SHEAR, Value::Force(shear), "F/n and M r/sum of r², as vectors");
    // The weakest of the bolts is held against the shear that the most loaded takes.
    let strength = rows.iter().filter_map(|row| Some(row.steel.class.shear(row.bolt()?.stress_area())));
    let Some(carries) = strength.reduce(Force::min) else { return };
    design.at_most(
        &GROUP,
        Value::Force(shear),
        Value::Force(carries),
        None,
        "the load turns the plate about the middle of its bolts: those farthest out take most",
    );
    bears(design, s, shear, &rows, &places, edges);
    bends(design, s, load, &places, flat);
}

fn bears(design: &mut Design, s: &Spec, shear: Force, rows: &[&Holes], places: &[Point], edges: &Edges) {
    let Some(tensile) = s.common.material.tensile_strength else {
        let because = "cannot be judged: no tensile strength is known of this material; give it in shop.toml";
        return design.finding(&BEARING, Verdict::Caution, None, None, because);
    };
    let mut least: Option<Force> = None;
    for row in rows {
        let Some(bolt) = row.bolt() else { continue };
        for centre in &row.centres {
            let next = places.iter().map(|p| p.distance(*centre)).filter(|d| *d > Length::um(1.0));
            let pitch = next.reduce(Length::min);
            let edge = edges.outer.distance_to(*centre).min(edges.nearest_to(*centre));
            let carries = bracket::bearing(
                row.diameter,
                bolt.major,
                s.thickness.value,
                edge,
                pitch,
                (tensile, row.steel.class.tensile),
            );
            let Some(carries) = carries else {
                let because =
                    "nearer to an edge than 1.2 or to each other than 2.4 hole diameters no bearing is reckoned with";
                return design.finding(&BEARING, Verdict::Fail, None, None, because);
            };
            least = Some(least.map_or(carries, |l: Force| l.min(carries)));
        }
    }
    if let Some(least) = least {
        let because = "the wall of the hole is pressed and torn towards the nearest edge";
        design.at_most(&BEARING, Value::Force(shear), Value::Force(least), None, because);
    }
}

/// Bending in the section through the bolts that are next to the load.
fn bends(design: &mut Design, s: &Spec, load: &Load, places: &[Point], flat: &Flat) {
    let arm = |p: &Point| (load.at.x() - p.x()).abs();
    let Some(nearest) = places.iter().min_by(|a, b| arm(a).as_mm().total_cmp(&arm(b).as_mm())) else { return };
    let strips = flat.strips_at(nearest.x());
    let stress = bracket::section_bending(load.force.value, arm(nearest), &strips, s.thickness.value);
    let (Some(stress), Some(strength)) = (stress, s.common.material.yield_strength) else {
        let because =
            "cannot be judged: no section, or no yield strength of this material is known; give it in shop.toml";
        return design.finding(&BENDING, Verdict::Caution, None, None, because);
    };
    design.computed(&sizes::BENDING, Value::Stress(stress), "F a c/I, the section less its holes");
    design.at_most(
        &BENDING,
        Value::Stress(stress),
        Value::Stress(strength),
        Some(Value::Stress(strength / MARGIN)),
        "a plate on edge bends most beside its bolts; it must be kept from tipping over sideways",
    );
    common::strength_of_plate(design, &s.common.material);
}
