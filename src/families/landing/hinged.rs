//! One end set down first, the other swung down about it: whether the cones of both ends are still caught while the frame is
//! pitched, and which end had better come first.

use serde_json::json;

use crate::formulas::frame::{Landing, Plan, SeatKind, hinged};
use crate::record::design::{Check, Design, Value, Verdict};
use crate::record::show::Say;
use crate::source::Source;
use crate::units::{Angle, Length};

use super::degrees;
use super::heights::Heights;
use super::read::{self, SeatSpec, Spec};
use super::results::{CAPTURE_MARGIN, Results};
use super::sizes;

const FIRST: Check = Check {
    key: "hinged_first",
    what: "capture of the first end, the frame pitched, against hoist swing and what is kept in hand",
    worst: Verdict::Fail,
    source: Source::Derived("capture - d/2 (1 - cos) - t sin of the pitch, mismatch taken off"),
};
const SECOND: Check = Check {
    key: "hinged_second",
    what: "capture of the second end as its noses meet their holes, against the hoist swing",
    worst: Verdict::Fail,
    source: Source::Derived(
        "arc about the first end: L (1 - cos) and d/2 tan a sin of the pitch taken off, and the room of the first end",
    ),
};
const OVER: Check = Check {
    key: "hinged_over",
    what: "pitch while it is hung by the second end",
    worst: Verdict::Fail,
    source: Source::Derived("the centre of mass must not come to stand over the hinge: atan(a/h); half of it wanted"),
};

/// Pitch where none is written. Source: common practice, no source.
const USUAL_PITCH: Angle = Angle::degrees(3.0);

/// One way of setting it down.
struct Way {
    end: &'static str,
    other: &'static str,
    /// Capture left at the first end, and the seat.
    first: (usize, Length),
    /// Capture left at the second end as the nose enters, and the seat.
    second: (usize, Length),
    /// Steepest pitch at which a nose of the second end meets its hole.
    entry: Angle,
    /// How far the holes of the second end are drawn back then.
    drawn_back: Length,
    /// How far the first end may have slid in its slots and clear holes; endless where nothing holds it.
    loose: Length,
    /// Its noses meet their holes at a pitch as steep as a flank of the first end.
    jams: bool,
    /// Share of the weight on the first end at the stated pitch, the other hung.
    share: f64,
    over: Angle,
}

impl Way {
    fn least(&self) -> Length {
        self.first.1.min(self.second.1)
    }
}

fn pitch(s: &Spec) -> Angle {
    s.pitch.as_ref().map_or(USUAL_PITCH, |p| p.value)
}

/// Direction in plan of an end, and its opposite.
fn direction(end: &str) -> Option<(&'static str, &'static str, Plan)> {
    let ends = [
        ("front", "rear", Plan::mm(1.0, 0.0)),
        ("rear", "front", Plan::mm(-1.0, 0.0)),
        ("left", "right", Plan::mm(0.0, 1.0)),
        ("right", "left", Plan::mm(0.0, -1.0)),
    ];
    ends.into_iter().find(|e| e.0 == end)
}

fn along(p: Plan, towards: Plan) -> Length {
    p.x * towards.x.as_mm() + p.y * towards.y.as_mm()
}

/// Diameter of the hole that meets the cone, and thickness of its plate.
pub fn ring(seat: &SeatSpec, heights: &Heights) -> (Length, Length) {
    (heights.hole(seat), seat.cup.as_ref().map_or(Length::ZERO, |cup| cup.thickness.value))
}

/// How far the nose stands over the entry face when seated.
fn nose(seat: &SeatSpec, heights: &Heights) -> Length {
    let cup = seat.cup.as_ref().filter(|_| !super::heights::on_pad(seat));
    let entry = cup.map_or_else(|| heights.entry(seat), |cup| super::heights::seat_height(seat, cup));
    (seat.cone.height - entry).max(Length::ZERO)
}

/// How far the frame may lie off at a seat of the first end.
fn room(kind: &SeatKind) -> Length {
    match kind {
        SeatKind::Round => Length::ZERO,
        SeatKind::Slot { travel, .. } => *travel,
        SeatKind::Clear { clearance, .. } => *clearance,
        SeatKind::Pad => Length::mm(f64::INFINITY),
    }
}

/// The seat that has the least of something.
pub fn least_of(all: impl Iterator<Item = (usize, Length)>) -> Option<(usize, Length)> {
    // A pad has nothing to catch.
    all.filter(|(_, left)| left.as_mm() < f64::INFINITY).min_by(|a, b| a.1.as_mm().total_cmp(&b.1.as_mm()))
}

/// Sets it down by that end; `None` where all seats stand in one line across.
fn way(s: &Spec, heights: &Heights, landing: &Landing, r: &Results, end: &str) -> Option<Way> {
    let (end, other, towards) = direction(end)?;
    let places: Vec<Length> = landing.seats().iter().map(|seat| along(seat.at, towards)).collect();
    let (near, far) = (places.iter().copied().reduce(Length::max)?, places.iter().copied().reduce(Length::min)?);
    let middle = (near + far) / 2.0;
    let (first, second): (Vec<usize>, Vec<usize>) =
        (0..places.len()).partition(|i| places.get(*i).is_some_and(|at| *at > middle));
    let mean =
        |of: &[usize]| of.iter().filter_map(|i| places.get(*i)).copied().sum::<Length>() / of.len().max(1) as f64;
    let (hinge, base) = (mean(&first), mean(&first) - mean(&second));
    if first.is_empty() || second.is_empty() || base <= Length::mm(1.0) {
        return None;
    }
    let seat = |i: usize| Some((s.seats.get(i)?, landing.seats().get(i)?, r.catches.get(i)?));
    let first_left = |i: &usize| {
        let (spec, _, catch) = seat(*i)?;
        let (ring, thick) = ring(spec, heights);
        Some((*i, hinged::pitched_capture(catch.capture, ring, thick, pitch(s)) - catch.mismatch.length()))
    };
    let rooms = first.iter().filter_map(|i| Some(room(&seat(*i)?.1.kind)));
    let loose = rooms.fold(Length::mm(f64::INFINITY), Length::min);
    let shift = |at: Angle| {
        let each = first.iter().filter_map(|i| seat(*i)).filter(|(_, found, _)| found.kind == SeatKind::Round);
        let mut each = each.map(|(spec, found, _)| hinged::pitched_shift(ring(spec, heights).0, found.half_angle, at));
        each.try_fold(Length::ZERO, |most, one| Some(most.max(one?)))
    };
    let entry = |i: usize| {
        let (spec, ..) = seat(i)?;
        Some(hinged::entry_pitch(nose(spec, heights), hinge - *places.get(i)?))
    };
    let back = |i: usize| Some(hinged::shortening(hinge - *places.get(i)?, entry(i)?) + shift(entry(i)?)?);
    let second_left = |i: &usize| {
        let (spec, found, catch) = seat(*i)?;
        let (ring, thick) = ring(spec, heights);
        let catches = hinged::pitched_capture(catch.capture, ring, thick, entry(*i)?);
        // The cups lie towards the first end by what is drawn back, or by what it may have slid as well, either way.
        let off = |by: Length| {
            let mismatch = found.mismatch + towards * by.as_mm();
            if matches!(found.kind, SeatKind::Slot { .. }) { found.off_rim(mismatch) } else { mismatch }.length()
        };
        // Steeper than a flank of the first end it jams before its noses meet the holes.
        let Some(back) = back(*i) else { return Some((*i, Length::mm(f64::NEG_INFINITY))) };
        let farthest = if loose.is_finite() { off(back + loose).max(off(back - loose)) } else { loose };
        Some((*i, catches - farthest))
    };
    let (inside, height) = (hinge - along(s.centre.0, towards), s.centre.1);
    Some(Way {
        end,
        other,
        first: least_of(first.iter().filter_map(first_left))?,
        second: least_of(second.iter().filter_map(second_left))?,
        entry: second.iter().filter_map(|i| entry(*i)).fold(Angle::ZERO, Angle::max),
        drawn_back: second.iter().filter_map(|i| back(*i)).fold(Length::ZERO, Length::max),
        jams: second.iter().any(|i| back(*i).is_none()),
        loose,
        share: hinged::share_on_hinge(inside, height, base, pitch(s)),
        over: hinged::overbalance(inside, height),
    })
}

/// Records, judges and puts into the order of work; nothing where it is set down level, all at once.
pub fn record(design: &mut Design, s: &Spec, heights: &Heights, landing: &Landing, r: &Results) {
    let key = &read::FIRST_END;
    let Some(end) = &s.first_end else {
        design.assumed(&key.size(), Value::Text("level, all at once".into()), "nothing is written");
        return;
    };
    design.computed(&key.size(), Value::Text(end.value.into()), "as written");
    design.given_or(&read::PITCH, s.pitch.as_ref(), USUAL_PITCH, Value::Angle, "common practice");
    let Some(found) = way(s, heights, landing, r, end.value) else {
        design.note(&FIRST, "all seats stand in one line across: there is no second end to swing down");
        return;
    };
    let other = way(s, heights, landing, r, found.other);
    figures(design, s, &found);
    judge(design, s, &found, other.as_ref());
    step(design, s, &found);
}

fn figures(design: &mut Design, s: &Spec, w: &Way) {
    design.computed(&sizes::ENTRY_PITCH, Value::Angle(w.entry), "asin(H/L)");
    design.computed_length(&sizes::DRAWN_BACK, w.drawn_back, "L (1 - cos) + d/2 tan a sin of that pitch");
    design.computed(
        &sizes::HINGE_LOAD,
        Value::Force(s.mass.value.weight() * w.share.max(0.0)),
        "weight x (1 - (a - h tan)/L)",
    );
    design.figures.insert(
        "hinged",
        json!({
            "first_end": w.end, "first_left_mm": w.first.1.as_mm(), "second_left_mm": w.second.1.is_finite().then(|| w.second.1.as_mm()),
            "entry_pitch_deg": w.entry.as_degrees(), "drawn_back_mm": w.drawn_back.as_mm(),
            "hinge_share": w.share, "overbalance_deg": w.over.as_degrees(),
        }),
    );
}

fn judge(design: &mut Design, s: &Spec, w: &Way, other: Option<&Way>) {
    let say = design.say();
    let name = |i: usize| s.seats.get(i).map_or("", |seat| seat.name.as_str());
    let swing = s.swing();
    let better = other.map_or_else(String::new, |other| which_is_better(say, w, other));
    design.at_least(
        &FIRST,
        Value::Length(w.first.1.rounded()),
        Value::Length(swing),
        Some(Value::Length(swing + CAPTURE_MARGIN)),
        format!(
            "{} is the first to miss, the {} end down first, pitched by {}{better}",
            name(w.first.0),
            w.end,
            degrees(pitch(s))
        ),
    );
    let slid = if w.jams {
        format!("; the {} end jams on its cones before: their flanks are no steeper than that pitch", w.end)
    } else if w.loose > Length::ZERO {
        format!(
            "; no round cup holds the {} end, which may have slid by {}: set the end with the round cup down first, or steer it",
            w.end,
            say.length(w.loose)
        )
    } else {
        String::new()
    };
    // A first end that nothing holds leaves nothing.
    let left = if w.second.1.is_finite() { w.second.1.rounded() } else { -CAPTURE_MARGIN };
    design.at_least(
        &SECOND,
        Value::Length(left),
        Value::Length(Length::ZERO),
        Some(Value::Length(swing)),
        format!(
            "{} is the first to miss: its nose meets the hole at {}, drawn back by {} with the arc{slid}",
            name(w.second.0),
            degrees(w.entry),
            say.length(w.drawn_back)
        ),
    );
    design.at_most(
        &OVER,
        Value::Angle(pitch(s)),
        Value::Angle(w.over),
        Some(Value::Angle(w.over / 2.0)),
        format!("from {} on it falls over its {} end", degrees(w.over), w.end),
    );
}

/// The end that leaves more room comes first; of equals, the one that a round cup holds.
fn which_is_better(say: Say, w: &Way, other: &Way) -> String {
    let (own, that) = (w.least(), other.least());
    let alike = (own - that).abs() <= Length::mm(0.5);
    let held = |w: &Way| w.loose == Length::ZERO;
    let better = if alike && held(w) != held(other) { held(other) } else { that > own && !alike };
    if better {
        format!(
            "; the {} end first is better: it leaves {} where this leaves {}",
            other.end,
            say.length(that),
            say.length(own)
        )
    } else if alike && held(w) == held(other) {
        format!("; either end may come first, the {} leaves {}", other.end, say.length(that))
    } else {
        format!("; this end first is the better one, the {} leaves {}", other.end, say.length(that))
    }
}

fn step(design: &mut Design, s: &Spec, w: &Way) {
    let say = design.say();
    design.step(
        "hoist",
        format!(
            "Set the {} end down first, the frame hung no steeper than {}: its cones home, nobody between or under the ends, hand lines only. A clear seat of that end stands on the edge of its pad until the frame lies level.",
            w.end,
            degrees(pitch(s))
        ),
    );
    design.step(
        "hoist",
        format!(
            "Swing the {} end down slowly about it. At {} its noses meet their holes, which still lie {} towards the {} end: look, do not reach in. Keep the rope upright: it must not drag the {} end off its cones.",
            w.other,
            degrees(w.entry),
            say.length(w.drawn_back),
            w.end,
            w.end
        ),
    );
}
