//! What is judged of an adapter: metal, heads and the room to turn them, threads, registers, seals, and the load.

use crate::families::common::overhang::Reach;
use crate::families::common::{self, bolted};
use crate::formulas::bolts::{self, SCATTER};
use crate::formulas::{bracket, flange, o_ring};
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::shape::Point;
use crate::shop::by_unit;
use crate::source::Source;
use crate::standards::bolting;
use crate::standards::o_rings;
use crate::units::{Angle, Force, Length};

use super::bolting::{self as own, Asked};
use super::read::{self, Face, Spec, Way, widest};
use super::{shape, sizes};

const WEB: Check = Check {
    key: "adapter_web",
    what: "least metal between holes, grooves and edges",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};
const EDGE: Check = Check {
    key: "edge_distance",
    what: "bolt's hole, centre to the nearest edge over its diameter",
    worst: Verdict::Fail,
    source: Source::Published(
        "EN 1993-1-8 table 3.3: at least 1.2 hole diameters; half as much again is common practice",
    ),
};
const UNDER: Check = Check {
    key: "head_under_mate",
    what: "room between the heads on the other face and the mate there",
    worst: Verdict::Fail,
    source: Source::Derived("half of the circle less half of a washer and half of the mate"),
};
const SEAT: Check = Check {
    key: "head_seats",
    what: "face under a head, from its middle to the nearest edge",
    worst: Verdict::Fail,
    source: Source::Memory("ISO 4014: width across flats; ISO 7089: a washer is about twice its thread across"),
};
const TOOL: Check = Check {
    key: "tool_room",
    what: "room round a head for its socket, from its middle",
    worst: Verdict::Fail,
    source: Source::Memory("ISO 2725-1: a socket is about 1.25 of the width across flats and 3.5 mm wide"),
};
const HEAD_METAL: Check = Check {
    key: "metal_under_head",
    what: "metal under a sunk head, in threads",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};
const OPENS: Check = Check {
    key: "face_opens",
    what: "pull of the load on one bolt, of what it is drawn to at least",
    worst: Verdict::Fail,
    source: Source::Derived("P/n + 4 M/(n D) of a face that stays flat; the pull of a tight bolt less its scatter"),
};
const SLIDES: Check = Check {
    key: "face_slides",
    what: "force across, against what the bolts hold by friction",
    worst: Verdict::Caution,
    source: Source::Published("EN 1993-1-8, 3.9.1 and 3.9.2; the least pull of a tight bolt"),
};
const BEARING: Check = Check {
    key: "bearing",
    what: "force across on one bolt, against its hole",
    worst: Verdict::Fail,
    source: Source::Published("EN 1993-1-8 tables 3.3 and 3.4: bearing and tear-out"),
};
const BENDS: Check = Check {
    key: "flange_bends",
    what: "bending stress between the two patterns",
    worst: Verdict::Fail,
    source: Source::Derived("a strip from bolt to bolt, without the help of the ring beside it: 6 F e/(w t²)"),
};
const GOES_IN: Check = Check {
    key: "register_goes_in",
    what: "least clearance of the register",
    worst: Verdict::Fail,
    source: Source::Published("ISO 286-1: limits of spigot and recess"),
};
const CATCHES: Check = Check {
    key: "register_catches",
    what: "register beyond a gasket",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};
const SQUEEZE_LEAST: Check = Check {
    key: "ring_squeeze_least",
    what: "squeeze of the O-ring, at least",
    worst: Verdict::Fail,
    source: Source::Published("public guides to grooves for O-rings: from 10 % on; it touches from 0"),
};
const SQUEEZE_MOST: Check = Check {
    key: "ring_squeeze_most",
    what: "squeeze of the O-ring, at most",
    worst: Verdict::Fail,
    source: Source::Published("public charts of static face seals: up to 32 %; beyond 40 % it is crushed"),
};
const FILL: Check = Check {
    key: "ring_fill",
    what: "groove that the O-ring fills, at most",
    worst: Verdict::Fail,
    source: Source::Published("public guides to grooves for O-rings: up to 85 %, never over 90 %"),
};
const STRETCH: Check = Check {
    key: "ring_stretch",
    what: "stretch of the least O-ring of its tolerance",
    worst: Verdict::Fail,
    source: Source::Published("public guides to grooves for O-rings: up to 5 %, never over 10 %"),
};
const SHRINKS: Check = Check {
    key: "ring_upset",
    what: "stretch of the largest O-ring of its tolerance, below nought pressed together",
    worst: Verdict::Fail,
    source: Source::Memory("up to 3 % it lies in the groove without waves"),
};
const FLOW: Check = Check {
    key: "flow_half_angle",
    what: "half-angle in which the bore runs",
    worst: Verdict::Caution,
    source: Source::Memory("diffusers: flow leaves the wall from about 7 degrees of half-angle on"),
};
const SETTLES: Check =
    Check { key: "gasket_settles", what: "gasket", worst: Verdict::Ok, source: Source::CommonPractice };
/// Yield strength over stress that is wanted. Source: common practice, no source.
const MARGIN: f64 = 1.5;
/// Slip factor where nothing is written. Source: EN 1993-1-8 table 3.7, class D.
const SLIP: f64 = 0.2;
const DIFFUSER: Angle = Angle::degrees(7.0);

/// All checks of an adapter.
pub fn checks(design: &mut Design, s: &Spec) {
    webs(design, s);
    for face in s.faces() {
        heads(design, s, face);
        threads(design, s, face);
        register(design, s, face);
        ring(design, face);
        if face.gasket.is_some() {
            design.note(&SETTLES, "a gasket settles: draw the bolts again after an hour and after the first day; what the bolts hold by friction and at what pull the faces open is told for faces of metal");
        }
        if let Some((_, mate)) = &face.onto {
            common::dissimilar(design, &s.common, mate, common::Meets::Frame, false);
        }
    }
    flow(design, s);
    reach(design, s);
    if s.load.is_some() {
        loaded(design, s);
    }
    common::checks(design, &s.common);
    common::swells(design, &s.common, s.outside.value);
    common::at_machines(design);
}

/// Whether a boring bar reaches through what is turned.
fn reach(design: &mut Design, s: &Spec) {
    let Some(bore) = s.bore.as_ref().filter(|_| s.is_turned() && !s.common.material.printed) else { return };
    let narrow = s.bore_below.as_ref().map_or(bore.value, |below| below.value.min(bore.value));
    if s.bore_below.is_some() {
        let because = "a bore that widens is made from one end, and a longer bar chatters: wider bores, a shorter adapter, or have it bored elsewhere";
        return Reach::BoredFromOne.judge(design, s.bore_length(), narrow, because);
    }
    let because = "a longer bar chatters and the bore runs out: a wider bore, two adapters one on the other, or have it bored elsewhere";
    Reach::BoredFromBoth.judge(design, s.bore_length(), narrow, because);
}

/// A round thing in plan, between two heights over the lower face.
struct Round {
    at: Point,
    radius: Length,
    from: Length,
    to: Length,
}

/// Holes and middles.
fn rounds(s: &Spec) -> Vec<Round> {
    let (t, none) = (s.thickness.value, Length::ZERO);
    let mut all = Vec::new();
    for face in s.faces() {
        let upper = face.which == read::Which::Upper;
        let deep = face.drilled().map_or(t, |d| d + face.hole * 0.31);
        let (from, to) = if upper { (t - deep, t) } else { (none, deep) };
        // A tapped hole is as wide as its thread.
        let wide = if face.tapped() { face.thread.major } else { widest(face) };
        all.extend(shape::centres(face).into_iter().map(|at| Round { at, radius: wide / 2.0, from, to }));
    }
    let middle = s.faces().into_iter().map(|f| edge_of_middle(s, f)).fold(none, Length::max);
    if middle > none {
        all.push(Round { at: Point::ORIGIN, radius: middle, from: none, to: t });
    }
    all
}

/// Radius of what goes through in the middle: the wider end of the bore.
fn edge_of_bore(s: &Spec) -> Length {
    let ends = [read::Which::Upper, read::Which::Lower].into_iter().filter_map(|which| s.bore_at(which));
    ends.fold(Length::ZERO, Length::max) / 2.0
}

/// Radius of the outermost of bore, register and groove in a face; nought where there is none.
fn edge_of_middle(s: &Spec, face: &Face) -> Length {
    let bore = s.bore_at(face.which).unwrap_or(Length::ZERO);
    let register = face.register.as_ref().map_or(Length::ZERO, |r| r.diameter.value);
    let groove = face.ring.as_ref().map_or(Length::ZERO, |r| r.walls().1);
    bore.max(register).max(groove) / 2.0
}

fn webs(design: &mut Design, s: &Spec) {
    let all = rounds(s);
    let rim = s.outside.value / 2.0;
    let mut least = rim;
    for (i, a) in all.iter().enumerate() {
        least = least.min(rim - a.at.distance(Point::ORIGIN) - a.radius);
        for b in all.iter().skip(i + 1) {
            // One blind hole over the other: what lies between their ends.
            let over = (b.from - a.to).max(a.from - b.to);
            let beside = a.at.distance(b.at) - a.radius - b.radius;
            least = least.min(beside.max(over));
        }
    }
    let unit = design.header.unit;
    let line = s.common.printer.line;
    let (must, wanted) = if s.common.material.printed {
        (line * 2.0, line * 4.0)
    } else {
        (by_unit(unit, 1.0, 0.04), by_unit(unit, 3.0, 0.12))
    };
    let because = "thin metal between two edges gives way under the drill and under load: turn one pattern by half its pitch, or another circle";
    design.at_least(&WEB, length(least), length(must), Some(length(wanted)), because);
    let of_face = |face: &Face| {
        let r = face.circle.value / 2.0;
        let inner = r - edge_of_bore(s);
        (rim - r).min(inner) / face.hole
    };
    let share = s.faces().into_iter().map(of_face).fold(f64::INFINITY, f64::min);
    let share = Value::Number((share * 1e4).round() / 1e4);
    let because = "a bolt too near the edge tears out";
    design.at_least(&EDGE, share, Value::Number(1.2), Some(Value::Number(1.5)), because);
}

fn length(l: Length) -> Value {
    Value::Length(l.rounded())
}

/// Width across flats, or what a hexagon of that thread would have.
fn across_flats(face: &Face) -> Length {
    bolting::across_flats(&face.thread).map_or(face.thread.major * 1.6, |f| f.value)
}

/// Heads that lie on the other face, and those on the mate.
fn heads(design: &mut Design, s: &Spec, face: &Face) {
    if let Way::Counterbored(head) = face.way {
        let left = (s.thickness.value - head.seat_depth) / face.thread.major;
        let left = Value::Number((left * 1e3).round() / 1e3);
        let because = "the head shears out of thin metal under it: a thicker adapter, or smaller bolts";
        design.at_least(&HEAD_METAL, left, Value::Number(0.5), Some(Value::Number(0.8)), because);
        return;
    }
    let d = face.thread.major;
    let flats = across_flats(face);
    let (corner, socket) = (flats * 0.577_35, flats * 0.625 + Length::mm(1.75));
    let chord = bolts::chord(face.circle.value, face.number.value);
    let mut room = chord - corner;
    if face.way == Way::Clearance {
        let other = s.other(face);
        let r = face.circle.value / 2.0;
        let over = r - d - other.mate() / 2.0;
        let because = "the mate of the other face lies on the heads: sink them (hole = \"counterbored\"), tap this pattern, or a circle beyond that mate";
        design.at_least(&UNDER, length(over), length(Length::ZERO), None, because);
        room = room.min(r - other.mate() / 2.0);
        let holes = shape::centres(other)
            .into_iter()
            .flat_map(|at| shape::centres(face).into_iter().map(move |b| at.distance(b)));
        let to_hole = holes.fold(Length::mm(f64::INFINITY), Length::min) - widest(other) / 2.0;
        let seat = (s.outside.value / 2.0 - r).min(r - edge_of_middle(s, other)).min(to_hole);
        let because =
            "a head that hangs over an edge bends its bolt: a larger outside, another circle, or smaller bolts";
        design.at_least(&SEAT, length(seat), length(flats / 2.0), Some(length(d)), because);
    }
    let because = "a socket does not go on, a ring spanner at best: fewer bolts, a larger circle, or socket heads";
    design.at_least(&TOOL, length(room), length(corner), Some(length(socket)), because);
}

fn threads(design: &mut Design, s: &Spec, face: &Face) {
    common::standard_thread(design, &face.thread);
    let b = own::bolted(s, face);
    bolted::bought(design, &b);
    if let (true, Some(pull)) = (face.tapped(), bolted::pull(&b)) {
        bolted::engaged(design, &b, pull);
    }
}

/// Fit and height of a register, from what is recorded.
fn register(design: &mut Design, s: &Spec, face: &Face) {
    let Some(register) = &face.register else { return };
    let limits = |design: &Design, size| design.dimension(&size).and_then(|d| d.limits.clone());
    let both = (limits(design, sizes::register(face.which)), limits(design, sizes::mate_register(face.which)));
    if let (Some(own), Some(mate)) = both {
        let (hole, shaft) = if register.spigot { (mate, own) } else { (own, mate) };
        let because = "a register that is pressed in does not come off again: a looser class, such as g6 in H7";
        design.at_least(&GOES_IN, length(hole.lower - shaft.upper), length(Length::ZERO), None, because);
    }
    let gasket = face.gasket.as_ref().map_or(Length::ZERO, |g| g.value);
    let unit = s.common.header.unit;
    let (must, wanted) = (by_unit(unit, 1.0, 0.04), by_unit(unit, 2.0, 0.08));
    let because = "chamfers and a gasket leave nothing that centres the mate: a higher register";
    design.at_least(&CATCHES, length(register.height.value - gasket), length(must), Some(length(wanted)), because);
}

fn per_cent(share: f64) -> Value {
    Value::Share((share * 1e4).round() / 1e4)
}

fn ring(design: &mut Design, face: &Face) {
    let Some(r) = &face.ring else { return };
    let row = &r.row;
    let (depth, width) = (r.depth(), r.width());
    let (thin, thick) = (r.section.value - row.section_tolerance, r.section.value + row.section_tolerance);
    let squeeze = (o_ring::squeeze(thin, depth + row.depth_over), o_ring::squeeze(thick, depth));
    let fill = o_ring::fill(thick, width, depth);
    let (inner, outer) = r.walls();
    let outside = r.inside.value + r.section.value * 2.0;
    let off = o_rings::inside_tolerance(r.inside.value);
    let (wall, own, off) =
        if r.from_inside { (outer, outside, off + row.section_tolerance * 2.0) } else { (inner, r.inside.value, off) };
    let long = o_ring::stretch(wall, own);
    let worst = (o_ring::stretch(wall, own + off), o_ring::stretch(wall, own - off));
    let (Ok(least), Ok(most), Ok(fill), Ok(long)) = (squeeze.0, squeeze.1, fill, long) else { return };
    let (Ok(shortest), Ok(longest)) = worst else { return };
    let which = face.which;
    design.computed(&sizes::squeeze_least(which), per_cent(least), "thinnest ring, deepest groove: (s - h)/s");
    design.computed(&sizes::squeeze_most(which), per_cent(most), "thickest ring, shallowest groove: (s - h)/s");
    design.computed(&sizes::ring_fill(which), per_cent(fill), "thickest ring: (pi s²/4)/(w h)");
    design.computed(&sizes::ring_stretch(which), per_cent(long), "(d - d1)/d1 at the wall where it lies");
    let number = Value::Share;
    let because = "a ring that is hardly pressed lets by what it is to keep out: a shallower groove";
    design.at_least(&SQUEEZE_LEAST, per_cent(least), number(0.0), Some(number(0.1)), because);
    let because = "a ring that is crushed sets and cracks, and the bolts pull against it: a deeper groove";
    design.at_most(&SQUEEZE_MOST, per_cent(most), number(0.4), Some(number(0.32)), because);
    let because = "rubber does not give way in a full groove: it swells and grows with heat; a wider groove";
    design.at_most(&FILL, per_cent(fill), number(0.9), Some(number(0.85)), because);
    let because = "a ring that is stretched far gets thin and ages: a larger ring, or a smaller wall";
    design.at_most(&STRETCH, per_cent(longest), number(0.1), Some(number(0.05)), because);
    let because = "a ring that is too long for its groove lies in waves: a smaller ring, or a larger wall";
    design.at_least(&SHRINKS, per_cent(shortest), number(-0.05), Some(number(-0.03)), because);
}

fn flow(design: &mut Design, s: &Spec) {
    let (Some(above), Some(below)) = (s.bore_at(read::Which::Upper), s.bore_at(read::Which::Lower)) else { return };
    if s.bore_below.is_none() {
        return;
    }
    let (Ok(a), Ok(b)) = (flange::flow_area(above), flange::flow_area(below)) else { return };
    let Ok(half) = flange::half_angle(above, below, s.bore_length()) else { return };
    design.computed(&sizes::FLOW_ABOVE, Value::Area(a), "pi d²/4");
    design.computed(&sizes::FLOW_BELOW, Value::Area(b), "pi d²/4");
    design.computed(&sizes::FLOW_RATIO, Value::Number((b / a * 1e4).round() / 1e4), "area below over area above");
    design.computed(&sizes::FLOW_HALF_ANGLE, Value::Angle(half), "atan((D - d)/(2 l))");
    let verdict = if half > DIFFUSER { Verdict::Caution } else { Verdict::Ok };
    let because = "where it widens along the flow, the flow leaves a wall that leans further; the other way round it does no harm: a longer one, or diameters nearer to each other";
    design.finding(&FLOW, verdict, Some(Value::Angle(half)), Limit::AtMost(Value::Angle(DIFFUSER)), because);
}

fn loaded(design: &mut Design, s: &Spec) {
    common::printed_under_load(design, &[&s.common.material]);
    design.caution(&["bench"], "The load is one at rest: shock, vibration and people under it want more.", "The figures hold for the stated load at rest. Shock, vibration and people under it want more; local codes and licensed practice rule.");
    for face in s.faces() {
        let (Some(asked), Some(pull)) = (own::asked(s, face), bolted::pull(&own::bolted(s, face))) else { continue };
        design.computed(&sizes::moment(face.which), Value::Torque(asked.moment), "force across x lever to the face");
        opens(design, face, &asked, pull * (1.0 - SCATTER));
        slides(design, s, face, &asked, pull * (1.0 - SCATTER));
    }
    bends(design, s);
}

fn opens(design: &mut Design, face: &Face, asked: &Asked, least: Force) {
    let Some(pull) = asked.pull else {
        let because = "two bolts hold no moment about the line through them: three or more";
        return design.finding(&OPENS, Verdict::Fail, None, None, because);
    };
    design.computed(&sizes::bolt_pull(face.which), Value::Force(pull), "P/n + 4 M/(n D)");
    let because = "where the load pulls more than the bolts press, the face opens, rocks and loosens them: a larger circle, more or larger bolts, a shorter lever";
    design.at_most(&OPENS, Value::Force(pull), Value::Force(least), Some(Value::Force(least * 0.5)), because);
}

fn slides(design: &mut Design, s: &Spec, face: &Face, asked: &Asked, least: Force) {
    let Some(load) = s.load.as_ref().filter(|l| l.across.is_some()) else { return };
    let n = f64::from(face.number.value);
    let slip = load.friction.as_ref().map_or(SLIP, |f| f.value);
    let off = load.pull.as_ref().map_or(Force::ZERO, |p| p.value * (1.0 / n));
    let holds = bolts::held_by_friction(least, off, 1.0, slip) * n;
    let one = asked.across * (1.0 / n);
    design.computed(&sizes::bolt_shear(face.which), Value::Force(one), "F/n");
    if face.register.is_some() {
        let because = "the register takes it where friction does not";
        design.finding(&SLIDES, Verdict::Ok, Some(Value::Force(asked.across)), Limit::None, because);
        return;
    }
    let verdict = if asked.across > holds { Verdict::Caution } else { Verdict::Ok };
    let because = "beyond friction it slides until the bolts lie in their holes, and its place is lost: a register, more or larger bolts, cleaner faces";
    design.finding(&SLIDES, verdict, Some(Value::Force(asked.across)), Limit::AtMost(Value::Force(holds)), because);
    bears(design, s, face, one);
}

fn bears(design: &mut Design, s: &Spec, face: &Face, one: Force) {
    let Some(tensile) = s.common.material.tensile_strength else {
        let because = "cannot be judged: no tensile strength is known of this material; give it in shop.toml";
        return design.finding(&BEARING, Verdict::Caution, None, None, because);
    };
    let r = face.circle.value / 2.0;
    let edge = (s.outside.value / 2.0 - r).min(r - edge_of_bore(s));
    let pitch = bolts::chord(face.circle.value, face.number.value);
    let hole = face.hole.max(face.thread.major);
    let strengths = (tensile, face.steel.class.tensile);
    let deep = own::full_thread(s, face).min(s.thickness.value);
    let carries = bracket::bearing(hole, face.thread.major, deep, edge, Some(pitch), strengths);
    let Some(carries) = carries else {
        let because = "nearer to an edge than 1.2 or to each other than 2.4 hole diameters no bearing is reckoned with";
        return design.finding(&BEARING, Verdict::Fail, None, None, because);
    };
    let because = "the wall of the hole is pressed and torn towards the nearest edge";
    design.at_most(&BEARING, Value::Force(one), Value::Force(carries), None, because);
}

/// The strip between the two patterns, by the pattern whose bolts pull most.
fn bends(design: &mut Design, s: &Spec) {
    let pairs = shape::centres(&s.upper)
        .into_iter()
        .flat_map(|a| shape::centres(&s.lower).into_iter().map(move |b| a.distance(b)));
    let arm = pairs.fold(Length::mm(f64::INFINITY), Length::min);
    let arm = design.computed_length(&sizes::BOLT_TO_BOLT, arm, "least distance of their centres");
    let small = s.upper.circle.value.min(s.lower.circle.value);
    let stress = s.faces().into_iter().filter_map(|face| {
        let pull = own::asked(s, face)?.pull?;
        let width = small * (std::f64::consts::PI / f64::from(face.number.value)) - face.hole;
        flange::strip_bending(pull, arm, width, s.thickness.value).ok()
    });
    let stress = stress.reduce(|a, b| if b > a { b } else { a });
    let (Some(stress), Some(strength)) = (stress, s.common.material.yield_strength) else {
        let because =
            "cannot be judged: no yield strength of this material is known, or no strip is left; give it in shop.toml";
        return design.finding(&BENDS, Verdict::Caution, None, None, because);
    };
    design.computed(
        &sizes::STRIP_STRESS,
        Value::Stress(stress),
        "6 F e/(w t²), w the pitch of the smaller circle less a hole",
    );
    let wanted = Some(Value::Stress(strength / MARGIN));
    let because = "a flange that bends lets its bolts go slack: thicker, circles nearer to each other, more bolts";
    design.at_most(&BENDS, Value::Stress(stress), Value::Stress(strength), wanted, because);
    common::strength_of_plate(design, &s.common.material);
}
