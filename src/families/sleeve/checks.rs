//! What is checked on a sleeve.

use crate::families::common;
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::key::Size;
use crate::source::{Confirmed, Source};
use crate::standards::fit::FitKind;
use crate::standards::galvanic::Environment;
use crate::units::Length;

use super::fit::{Joint, kind_word};
use super::read::{self, Spec};
use super::rollers::{Running, raceway_piece};
use super::service::{self, Service};
use super::sizes;

const WALL: Check =
    Check { key: "wall", what: "wall of the sleeve", worst: Verdict::Fail, source: Source::CommonPractice };
const BORING: Check = Check {
    key: "bore_depth",
    what: "depth of the bore, in bores, against what a boring bar reaches from both ends",
    worst: Verdict::Fail,
    source: Source::Memory("makers of boring bars: steel bars to 4 of their diameters; a bar of 0.7 of the bore"),
};
const GROOVE_WALL: Check = Check {
    key: "wall_at_groove",
    what: "wall left under the groove",
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
const ROLLER_GREASE: Check = Check {
    key: "grease_to_rollers",
    what: "way of the grease to the rollers",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};
const WATER: Check =
    Check { key: "water", what: "water at the ends", worst: Verdict::Caution, source: Source::CommonPractice };
const SPACER: Check = Check {
    key: "spacer_clear",
    what: "spacers below the raceway",
    worst: Verdict::Caution,
    source: Source::CommonPractice,
};
const STANDS_OUT: Check = Check {
    key: "spacer_limits",
    what: "smallest raceway less largest spacer",
    worst: Verdict::Fail,
    source: Source::Derived("limits of both outside diameters"),
};
const UNCONFIRMED: Check = Check {
    key: "table_value",
    what: "table values behind the limits",
    worst: Verdict::Ok,
    source: Source::Memory("at least one value was not seen in print"),
};

/// All checks of a sleeve.
pub fn checks(design: &mut Design, s: &Spec, joints: &[Joint], running: Option<&Running>) {
    walls(design, s);
    boring(design, s);
    for joint in joints {
        fit(design, s, joint);
    }
    service::judge(design, s, &Service::of(s), joints);
    grease(design, s);
    if let (Some(rollers), Some(running)) = (&s.rollers, running) {
        grease_to_rollers(design, s, running, rollers.sealed);
    }
    spacers(design, s);
    if let Some(shaft) = &s.shaft {
        common::dissimilar(design, &s.common, &shaft.material, common::Meets::Shaft, s.slid_on.is_some());
    }
    if let Some(housing) = &s.housing {
        common::dissimilar(design, &s.common, &housing.material, common::Meets::Housing, s.pressed_in.is_some());
    }
    if s.rollers.is_some() || s.pressed_in.is_some() || s.slid_on.is_some() {
        common::printed_under_load(design, &[&s.common.material]);
    }
    common::checks(design, &s.common);
    common::at_the_lathe(design);
}

/// Wall that stands jaws, hardening and pressing: 0.08 of the bore, at least 2 mm. Source: common practice, no source.
pub fn wanted_wall(bore: Length) -> Length {
    (bore * 0.08).max(Length::mm(2.0))
}

/// How many bores deep a steel boring bar of 0.7 of the bore works at four of its own diameters, from one end.
pub const ONE_END: f64 = 0.7 * 4.0;

/// The longest piece against what a boring bar reaches.
fn boring(design: &mut Design, s: &Spec) {
    if s.from_tube {
        return;
    }
    let longest = read::pieces(s).into_iter().map(|(from, to)| to - from).fold(Length::ZERO, Length::max);
    let deep = longest / s.bore.value;
    design.at_most(
        &BORING,
        Value::Number((deep * 100.0).round() / 100.0),
        Value::Number(2.0 * ONE_END),
        None,
        "a longer bar chatters and the bore runs out: buy honed tube with this bore and write stock = \"tube\", or have it bored elsewhere",
    );
}

fn walls(design: &mut Design, s: &Spec) {
    let narrowest = s.segments.iter().map(|g| g.outside).fold(s.outside.value, Length::min);
    let wall = ((narrowest - s.bore.value) / 2.0).rounded();
    let wanted = wanted_wall(s.bore.value).rounded();
    design.at_least(
        &WALL,
        Value::Length(wall),
        Value::Length(Length::mm(0.8)),
        Some(Value::Length(wanted)),
        "a thinner wall goes out of round in the chuck, in hardening and under a press fit",
    );
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

fn fit(design: &mut Design, s: &Spec, joint: &Joint) {
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

fn grease(design: &mut Design, s: &Spec) {
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

/// Whether grease gets to the rollers, and whether water does.
fn grease_to_rollers(design: &mut Design, s: &Spec, running: &Running, sealed: bool) {
    let outer_groove = s.groove.as_ref().filter(|g| !g.inside && running.in_track(g.position, g.width.value));
    let in_track = s.grease_hole.as_ref().filter(|h| running.in_track(h.position, h.diameter.value));
    let (verdict, because) = match (&s.grease_hole, in_track, outer_groove) {
        (_, _, Some(_)) => (
            Verdict::Fail,
            "the groove on the outside lies under the rollers: they drop into it and break its edges; put it beside the track or into the bore",
        ),
        (None, ..) => (
            Verdict::Caution,
            "no hole leads grease to the rollers: they keep what was packed in on assembly; add a grease_hole, or strip and pack them every season",
        ),
        (Some(_), Some(_), _) => (
            Verdict::Caution,
            "the hole opens under the rollers, where grease is wanted but its edge is rolled: turn it to the unloaded side, break and polish the edge, or move it beside the track",
        ),
        (Some(_), None, _) => {
            (Verdict::Ok, "the hole opens beside the roller track and grease can get in from the end of the rollers")
        }
    };
    design.finding(&ROLLER_GREASE, verdict, s.grease_hole.as_ref().map(|h| Value::Length(h.position)), None, because);
    let wet = s.common.environment == Environment::Harsh;
    let (verdict, because) = match (sealed, wet) {
        (true, _) => (Verdict::Ok, "both ends are sealed"),
        (false, true) => (
            Verdict::Caution,
            "outdoors water gets in at both ends and rusts the track in one winter: fit seals, or grease until clean grease comes out after every wet trip",
        ),
        (false, false) => (Verdict::Ok, "it stands dry; wipe the ends before greasing"),
    };
    design.finding(&WATER, verdict, None, None, because);
}

fn spacers(design: &mut Design, s: &Spec) {
    let (raceway, ..) = raceway_piece(s);
    let Some(hard) = raceway.and_then(|i| s.segments.get(i)) else { return };
    let spacers = s.segments.iter().filter(|g| g.material.name != hard.material.name);
    let Some(least) = spacers.map(|g| (s.outside.value - g.outside).rounded()).reduce(Length::min) else { return };
    let verdict = if least < Length::mm(0.2) { Verdict::Caution } else { Verdict::Ok };
    design.finding(
        &SPACER,
        verdict,
        Some(Value::Length(least)),
        Limit::AtLeast(Value::Length(Length::mm(0.2))),
        format!(
            "spacers {} to {} smaller than the raceway keep the rollers off the joint",
            design.say().length(Length::mm(0.2)),
            design.say().length(Length::mm(0.5))
        ),
    );
    spacers_within_their_limits(design, s);
}

/// The largest spacer against the smallest raceway: one that stands out carries the rollers.
fn spacers_within_their_limits(design: &mut Design, s: &Spec) {
    let limits = |d: &Design, size: &Size| d.dimension(size).and_then(|d| d.limits.clone());
    let Some(raceway) = limits(design, &sizes::OUTSIDE_DIAMETER) else { return };
    let spacers = (0..s.segments.len()).filter_map(|i| limits(design, &sizes::segment_outside(i)));
    let Some(largest) = spacers.map(|l| l.upper).reduce(Length::max) else { return };
    let left = (raceway.lower - largest).rounded();
    let stands_out = left <= Length::ZERO;
    let because = if stands_out {
        "a spacer at its greatest stands level with a raceway at its least, or out of it, and carries the rollers: turn it smaller, or ask for a finer general tolerance"
    } else {
        "even the largest spacer stays below the smallest raceway"
    };
    let verdict = if stands_out { Verdict::Caution } else { Verdict::Ok };
    let limit = Limit::AtLeast(Value::Length(Length::ZERO));
    design.finding(&STANDS_OUT, verdict, Some(Value::Length(left)), limit, because);
}
