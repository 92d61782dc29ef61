//! What is checked on a sleeve.

use crate::families::common;
use crate::families::common::ring::checks as ring;
use crate::families::common::ring::fit::Joint;
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::key::Size;
use crate::source::Source;
use crate::standards::galvanic::Environment;
use crate::units::Length;

use super::read::{self, Spec};
use super::rollers::{Running, raceway_piece};
use super::sizes;

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

/// All checks of a sleeve.
pub fn checks(design: &mut Design, s: &Spec, joints: &[Joint], running: Option<&Running>) {
    ring::checks(design, &s.ring, &read::all_along(s), joints);
    if let (Some(rollers), Some(running)) = (&s.rollers, running) {
        grease_to_rollers(design, s, running, rollers.sealed);
    }
    spacers(design, s);
    ring::touches(design, &s.ring);
    if s.rollers.is_some() || s.ring.pressed_in.is_some() || s.ring.slid_on.is_some() {
        common::printed_under_load(design, &[&s.ring.common.material]);
    }
    common::checks(design, &s.ring.common);
    common::at_the_lathe(design);
}

/// From where to where a hole or a groove reaches at most: its place and its width at the ends of their limits.
fn reaches(design: &Design, (position, width): (&Size, &Size)) -> Option<(Length, Length)> {
    let ends = |size: &Size| {
        let found = design.dimension(size)?;
        let Value::Length(nominal) = found.value else { return None };
        Some(found.limits.as_ref().map_or((nominal, nominal), |l| (l.lower, l.upper)))
    };
    let ((from, to), (_, widest)) = (ends(position)?, ends(width)?);
    Some((from - widest / 2.0, to + widest / 2.0))
}

/// Whether grease gets to the rollers, and whether water does.
fn grease_to_rollers(design: &mut Design, s: &Spec, running: &Running, sealed: bool) {
    let groove = reaches(design, (&sizes::GROOVE_POSITION, &sizes::GROOVE_WIDTH));
    let hole = reaches(design, (&sizes::GREASE_HOLE_POSITION, &sizes::GREASE_HOLE_DIAMETER));
    let in_track = |reach: Option<(Length, Length)>| reach.is_some_and(|reach| running.in_track(reach));
    let outer_groove = s.ring.groove.as_ref().filter(|g| !g.inside && in_track(groove));
    let in_track = s.ring.grease_hole.as_ref().filter(|_| in_track(hole));
    let (verdict, because) = match (&s.ring.grease_hole, in_track, outer_groove) {
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
    design.finding(
        &ROLLER_GREASE,
        verdict,
        s.ring.grease_hole.as_ref().map(|h| Value::Length(h.position)),
        None,
        because,
    );
    let wet = s.ring.common.environment == Environment::Harsh;
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
    let Some(least) = spacers.map(|g| (s.ring.outside.value - g.outside).rounded()).reduce(Length::min) else { return };
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
