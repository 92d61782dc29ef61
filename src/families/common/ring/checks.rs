//! What is judged of every ring: its wall, its fits, its grease.

use crate::families::common;
use crate::families::common::overhang::Reach;
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::key::{Given, Size};
use crate::source::{Confirmed, Source};
use crate::standards::fit::FitKind;
use crate::standards::iso286::ToleranceClass;
use crate::units::Length;

use super::fit::{Joint, kind_word};
use super::read::{self, Along, Mating, Ring};
use super::service::{self, Service};
use super::sizes;

const WALL: Check =
    Check { key: "wall", what: "wall between bore and outside", worst: Verdict::Fail, source: Source::CommonPractice };
const HUB_WALL: Check = Check {
    key: "hub_wall",
    what: "wall of the hub round it",
    worst: Verdict::Caution,
    source: Source::CommonPractice,
};
const GROOVE_WALL: Check = Check {
    key: "wall_at_groove",
    what: "wall left under the groove",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};
const HOLE_EDGE: Check = Check {
    key: "grease_hole_edge",
    what: "metal between the grease hole and the edge of its piece, at the limits",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};
const GROOVE_EDGE: Check = Check {
    key: "groove_edge",
    what: "metal between the groove and the edge of its piece, at the limits",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};
const BORE_FIT: Check = Check {
    key: "bore_fit",
    what: "fit on the shaft",
    worst: Verdict::Caution,
    source: Source::Published("ISO 286-1:2010, 3.3: kinds of fit"),
};
const OUTSIDE_FIT: Check = Check {
    key: "outside_fit",
    what: "fit in the housing",
    worst: Verdict::Caution,
    source: Source::Published("ISO 286-1:2010, 3.3: kinds of fit"),
};
const GRADES: Check = Check {
    key: "bore_grade",
    what: "grades between the bore and its shaft",
    worst: Verdict::Caution,
    source: Source::Published("ISO 286-1:2010, preferred fits: hole and shaft of one grade, or the hole one coarser"),
};
const OUTSIDE_GRADES: Check =
    Check { key: "outside_grade", what: "grades between the outside and its housing", ..GRADES };
const COATED: Check = Check {
    key: "coating_clearance",
    what: "clearance left by the coating",
    worst: Verdict::Fail,
    source: Source::Derived("a film on one surface takes twice its thickness off the clearance on the diameter"),
};
const PRESSED: Check = Check {
    key: "press_fit_not_worked",
    what: "press fit worked out",
    worst: Verdict::Caution,
    source: Source::Derived("a thick ring under pressure: the bore closes, the outside grows"),
};
const GREASE: Check = Check {
    key: "grease_path",
    what: "grease hole and groove",
    worst: Verdict::Caution,
    source: Source::CommonPractice,
};
const UNCONFIRMED: Check = Check {
    key: "table_value",
    what: "table values behind the limits",
    worst: Verdict::Ok,
    source: Source::Memory("at least one value was not seen in print"),
};

/// Walls, fits and grease of a ring, of the pieces that it is made in.
pub fn checks(design: &mut Design, s: &Ring, pieces: &[Along], joints: &[Joint]) {
    walls(design, s, pieces);
    boring(design, s, pieces);
    edges(design, s, pieces);
    for joint in joints {
        fit(design, s, joint);
    }
    paired(design, &GRADES, &s.bore_class, s.shaft.as_ref());
    paired(design, &OUTSIDE_GRADES, &s.outside_class, s.housing.as_ref());
    service::judge(design, s, &Service::of(s), joints);
    grease(design, s);
}

/// Grades that two surfaces of a fit may lie apart: preferred fits have one at most, and one more is let pass.
const APART: u32 = 2;
/// All grades that there are.
const ALL: u32 = 20;

/// Whether both surfaces of a fit are about as close: the coarser one throws away what the finer one costs.
fn paired(design: &mut Design, check: &Check, own: &Option<Given<String>>, partner: Option<&Mating>) {
    let grade = |class: &str| ToleranceClass::parse(class).ok().map(|c| c.grade.number());
    let (Some(own), Some(other)) = (own, partner.and_then(|p| p.class.as_ref())) else { return };
    let (Some(a), Some(b)) = (grade(&own.value), grade(&other.value)) else { return };
    let apart = u32::from((a - b).unsigned_abs());
    let because = format!("{} with {}: what the finer one costs, the coarser one throws away", own.value, other.value);
    design.at_most(check, Value::Count(apart), Value::Count(ALL), Some(Value::Count(APART)), because);
}

/// The metals that it touches.
pub fn touches(design: &mut Design, s: &Ring) {
    if let Some(shaft) = &s.shaft {
        common::dissimilar(design, &s.common, &shaft.material, common::Meets::Shaft, s.slid_on.is_some());
    }
    if let Some(housing) = &s.housing {
        common::dissimilar(design, &s.common, &housing.material, common::Meets::Housing, s.pressed_in.is_some());
    }
}

/// Wall that stands jaws, hardening and pressing: 0.08 of the bore, at least 2 mm. Source: common practice, no source.
pub fn wanted_wall(bore: Length) -> Length {
    (bore * 0.08).max(Length::mm(2.0))
}

/// The longest piece against what a boring bar reaches.
fn boring(design: &mut Design, s: &Ring, pieces: &[Along]) {
    if s.from_tube {
        return;
    }
    let longest = pieces.iter().map(|p| p.to - p.from).fold(Length::ZERO, Length::max);
    Reach::BoredFromBoth.judge(
        design,
        longest,
        s.bore.value,
        "a longer bar chatters and the bore runs out: buy honed tube with this bore and write stock = \"tube\", or have it bored elsewhere",
    );
}

/// What lies in a piece: its middle, how wide it is, and the size that says where it lies.
struct Within {
    position: Length,
    width: Length,
    place: &'static Size,
}

/// What is left between something in a piece and the nearer edge of that, both at their limits.
fn left_to_edge(design: &Design, s: &Ring, pieces: &[Along], within: &Within) -> Option<Length> {
    let piece = pieces.iter().find(|p| within.position > p.from && within.position < p.to)?;
    let off = |size: &Size| {
        let limits = design.dimension(size).and_then(|d| d.limits.as_ref());
        limits.map_or(Length::ZERO, |l| (l.upper - l.lower) / 2.0)
    };
    // Of a stack the place is held on the loose piece, whose length has limits of its own.
    let shorter = if pieces.len() > 1 { Length::ZERO } else { off(&sizes::LENGTH) };
    let nearer = (within.position - piece.from).min(piece.to - shorter - within.position) - off(within.place);
    let edge = read::chamfer(&s.chamfer).max(read::chamfer(&s.bore_chamfer));
    Some((nearer - within.width / 2.0 - edge).rounded())
}

/// Of the hole's diameter, and of the groove's depth, what still holds together. Source: common practice, no source.
const LEAST_EDGE: f64 = 0.25;

/// Holes and grooves that come too near to an end.
fn edges(design: &mut Design, s: &Ring, pieces: &[Along]) {
    if let Some(h) = &s.grease_hole {
        let place = if pieces.len() > 1 { &sizes::GREASE_HOLE_ON_PIECE } else { &sizes::GREASE_HOLE_POSITION };
        let within = Within { position: h.position, width: h.diameter.value, place };
        if let Some(left) = left_to_edge(design, s, pieces, &within) {
            let [least, wanted] = [h.diameter.value * LEAST_EDGE, h.diameter.value].map(|l| Value::Length(l.rounded()));
            let because = "with less than the hole's own diameter beside it the edge breaks out or cracks, in hardening and under a press fit: further in, a smaller hole, or a longer piece";
            design.at_least(&HOLE_EDGE, Value::Length(left), least, Some(wanted), because);
        }
    }
    if let Some(g) = &s.groove {
        let within = Within { position: g.position, width: g.width.value, place: &sizes::GROOVE_POSITION };
        if let Some(left) = left_to_edge(design, s, pieces, &within) {
            let [least, wanted] = [g.depth.value * LEAST_EDGE, g.depth.value].map(|l| Value::Length(l.rounded()));
            let because =
                "a rim beside the groove that is thinner than the groove is deep breaks off: further in, or narrower";
            design.at_least(&GROOVE_EDGE, Value::Length(left), least, Some(wanted), because);
        }
    }
}

fn walls(design: &mut Design, s: &Ring, pieces: &[Along]) {
    let narrowest = pieces.iter().map(|p| p.outside).fold(s.outside.value, Length::min);
    let wall = ((narrowest - s.bore.value) / 2.0).rounded();
    let wanted = wanted_wall(s.bore.value).rounded();
    design.at_least(
        &WALL,
        Value::Length(wall),
        Value::Length(Length::mm(0.8)),
        Some(Value::Length(wanted)),
        "a thinner wall goes out of round in the chuck, in hardening and under a press fit",
    );
    if let Some(p) = &s.pressed_in {
        let wall = ((p.far.value - s.outside.value) / 2.0).rounded();
        let because = "a thinner hub is pressed out of round, and what it is welded or bolted to decides how it gives way, which is not reckoned";
        let wanted = wanted_wall(s.outside.value).rounded();
        let verdict = if wall < wanted { Verdict::Caution } else { Verdict::Ok };
        design.finding(&HUB_WALL, verdict, Some(Value::Length(wall)), Limit::AtLeast(Value::Length(wanted)), because);
    }
    if let Some(g) = &s.groove {
        design.at_least(
            &GROOVE_WALL,
            Value::Length((wall - g.depth.value).rounded()),
            Value::Length(Length::mm(0.5)),
            Some(Value::Length((wall * 0.5).rounded())),
            "a groove deeper than half the wall breaks there",
        );
    }
}

fn fit(design: &mut Design, s: &Ring, joint: &Joint) {
    let check = if joint.at_bore() { &BORE_FIT } else { &OUTSIDE_FIT };
    let (min, max) = (joint.range.min_clearance, joint.range.max_clearance);
    let beyond = joint.beyond_any_class(design.header.unit);
    let press = if joint.at_bore() { &s.slid_on } else { &s.pressed_in };
    let secured = press.as_ref().is_some_and(|p| p.secured.is_some());
    let verdict = match joint.range.kind {
        _ if beyond.is_some() => Verdict::Fail,
        FitKind::Transition if secured => Verdict::Ok,
        FitKind::Transition => Verdict::Caution,
        FitKind::Clearance | FitKind::Interference => Verdict::Ok,
    };
    let kind = match joint.range.kind {
        FitKind::Transition if secured => {
            "play or interference, as the two sizes fall; what secures it holds it either way"
        }
        kind => kind_word(kind),
    };
    let because = beyond.unwrap_or_else(|| kind.into());
    design.finding(
        check,
        verdict,
        Some(Value::Length(min)),
        Limit::To(Value::Length(max)),
        format!("least and greatest clearance on the diameter (negative: interference); {because}"),
    );
    let (told, table) = if joint.at_bore() {
        (s.slid_on.is_some(), "[slid_on]")
    } else {
        (s.pressed_in.is_some(), "[pressed_in] with hub_outside")
    };
    if max < Length::ZERO {
        let (verdict, because) = if told {
            (Verdict::Ok, format!("what it does to the other diameter and to both parts is worked out from {table}"))
        } else {
            (
                Verdict::Caution,
                format!(
                    "an interference fit changes the other diameter and stresses both parts, and nothing here accounts for it: add {table}"
                ),
            )
        };
        design.finding(&PRESSED, verdict, None, None, because);
    }
    if joint.confirmed == Confirmed::Memory {
        design.note(
            &UNCONFIRMED,
            format!(
                "the limits on the side of the {} rest on a value from memory: check them in a printed table",
                joint.partner
            ),
        );
    }
    if let Some(coating) = s.common.coating.as_ref().filter(|c| c.growth > Length::ZERO) {
        let left = (min - coating.growth * 2.0).rounded();
        let verdict = if min >= Length::ZERO && left < Length::ZERO {
            Verdict::Fail
        } else if left < min / 2.0 {
            Verdict::Caution
        } else {
            Verdict::Ok
        };
        design.finding(&COATED, verdict, Some(Value::Length(left)), Limit::AtLeast(Value::Length(Length::ZERO)), format!("{} ({}) grows every surface by its film: make the size before coating smaller, or mask the fit on the {}", coating.name, coating.by, joint.partner));
    }
}

fn grease(design: &mut Design, s: &Ring) {
    match (&s.groove, &s.grease_hole) {
        (Some(g), Some(h)) if (g.position - h.position).abs() >= g.width.value / 2.0 => {
            design.finding(
                &GREASE,
                Verdict::Caution,
                Some(Value::Length(h.position)),
                Some(Value::Length(g.position)),
                "the hole does not end in the groove: grease cannot spread round",
            );
        }
        (Some(_), None) => design.finding(
            &GREASE,
            Verdict::Caution,
            None,
            None,
            "a groove without a hole keeps the grease of the day it was built and gets no more",
        ),
        (Some(_), Some(_)) => design.finding(&GREASE, Verdict::Ok, None, None, "the hole ends in the groove"),
        _ => {}
    }
}
