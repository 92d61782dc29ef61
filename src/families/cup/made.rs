//! A cup as it was drilled or bored: how high it seats now, what is left to take out, or which shim brings it back.

use crate::description::Fields;
use crate::families::Workplace;
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::key::Size;
use crate::record::reading::{Decision, Reading};
use crate::record::show::Say;
use crate::source::Source;
use crate::units::Length;

use super::read::{self, Edge, Hole, Spec};
use super::{seat, sizes};

const SEAT: Check = Check {
    key: "seat_as_made",
    what: "seat height with the hole as measured, and as drawn",
    worst: Verdict::Caution,
    source: Source::Derived(
        "the ring that asks for the greatest height carries; a hole wider by x seats x/(2 tan a) lower",
    ),
};

/// The size of the hole that decides.
fn deciding(s: &Spec) -> &'static Size {
    if matches!(s.hole, Hole::Turned { .. }) { &sizes::SEAT_MOUTH } else { &sizes::HOLE_DIAMETER }
}

/// Says of each piece how high it seats as it is.
pub fn findings(design: &mut Design, fields: &Fields, place: &Workplace) {
    let Some(s) = read::read(fields, place) else { return };
    let Some(mate) = &s.mate else { return };
    let Some(dimension) = design.dimension(deciding(&s)) else { return };
    // A cut goes to the middle of the limits, as the reading of the hole itself is told.
    let limits = dimension.limits.as_ref();
    let wanted = limits.map_or(dimension.value.number(), |l| f64::midpoint(l.lower.as_mm(), l.upper.as_mm()));
    let readings: Vec<Reading> = dimension.measured().into_iter().cloned().collect();
    let Some(drawn) = seat::as_drawn(&s, &mate.cone) else { return };
    for r in readings {
        let broken = (of_piece(design, rim(&s), r.piece), of_piece(design, &sizes::STOP_DEPTH, r.piece));
        let at = |hole: f64| seat::lower_with_hole(&s, &mate.cone, Length::mm(hole), broken);
        let (hole, u) = (r.value.number(), r.u.number());
        let (Some(lower), Some(low), Some(high)) = (at(hole), at(hole + u), at(hole - u)) else { continue };
        let (height, open) = (drawn - lower, ((high - low) / 2.0).abs());
        let say = Say(design.header.unit);
        let (verdict, next) = asks(&s, &say, &r, (wanted, hole), lower);
        let how = if height < drawn { "lower" } else { "higher" };
        let said = next.clone().unwrap_or_else(|| "the hole is as it should be".into());
        let because = format!(
            "on this hole it seats at {} ± {} (k = 2, of the hole alone), {} {how} than drawn: {said}",
            say.length(height),
            say.length(open),
            say.length(lower.abs())
        );
        let several = design.header.count > 1;
        let what = if several { format!("{}, piece {}", SEAT.what, r.piece) } else { SEAT.what.to_string() };
        let value = (Value::Length(height.rounded()), Limit::Against(Value::Length(drawn)));
        design.told(&SEAT, what, verdict, value, because, next);
    }
}

/// What the break of the entry rim is called.
fn rim(s: &Spec) -> &'static Size {
    match &s.hole {
        Hole::Round { edge: Edge::Radius(_), .. } | Hole::Slot { edge: Edge::Radius(_), .. } => &sizes::RIM_RADIUS,
        _ => &sizes::CHAMFER,
    }
}

/// A size of a piece as it was measured.
fn of_piece(design: &Design, size: &Size, piece: u32) -> Option<Length> {
    let found = design.dimension(size)?.measured().into_iter().find(|r| r.piece == piece)?;
    Some(Length::mm(found.value.number()))
}

/// What a hole asks for, as wanted and as measured, and the plate that sits so much lower than drawn.
fn asks(s: &Spec, say: &Say, r: &Reading, (wanted, hole): (f64, f64), lower: Length) -> (Verdict, Option<String>) {
    if r.decision != Some(Decision::Reject) {
        return (Verdict::Ok, None);
    }
    let left = Length::mm(wanted - hole);
    let text = match &s.hole {
        // A step drill makes its own sizes: nothing between two of its steps can be set.
        Hole::Stepped { drill, .. } if left > Length::ZERO => {
            let next = drill.steps.iter().find(|step| **step > Length::mm(hole + r.u.number()));
            next.map_or_else(
                || "the drill has no further step: see that its largest went in to the stop".into(),
                |step| format!("go on to the next step of the drill, {}", say.length(*step)),
            )
        }
        _ if left > Length::ZERO => {
            format!("{} is left to take out of the hole, {} on each side", say.length(left), say.length(left / 2.0))
        }
        _ if lower > Length::ZERO => format!(
            "put a shim of {} between plate and what it carries, and it stands as drawn; or make the plate anew",
            say.length(lower)
        ),
        _ => "the hole is too large, yet its cone lifts it as much or more: leave it, or make the plate anew to the cone as drawn".into(),
    };
    (Verdict::Caution, Some(text))
}

/// The cup for what is made to it: its hole as measured where every piece was and nothing is left to take out, else as drawn.
pub fn as_made(mut s: Spec, design: &Design) -> Spec {
    if let Some(hole) = middle(design, &sizes::HOLE_DIAMETER)
        && let Hole::Round { diameter, .. } | Hole::Slot { width: diameter, .. } = &mut s.hole
    {
        diameter.value = hole;
    }
    if let Some(thick) = middle(design, &sizes::THICKNESS) {
        s.thickness.value = thick;
    }
    let foot = s.mate.as_ref().map_or(Length::ZERO, |mate| mate.cone.foot_height());
    let seat = middle(design, &sizes::SEAT_HEIGHT).map(|height| height + foot);
    s.gap_made = middle(design, &sizes::GAP_TO_CROSSBAR).or(seat);
    s
}

/// The middle of a size as all pieces were measured; none where one was not, or is still to be cut.
fn middle(design: &Design, size: &Size) -> Option<Length> {
    let dimension = design.dimension(size)?;
    let readings = dimension.measured();
    let small = |r: &Reading| r.value.number() < dimension.value.number();
    let to_cut = |r: &&Reading| r.decision == Some(Decision::Reject) && size.is(&sizes::HOLE_DIAMETER) && small(r);
    if readings.is_empty() || readings.len() != design.header.count as usize || readings.iter().any(to_cut) {
        return None;
    }
    Some(Length::mm(readings.iter().map(|r| r.value.number()).sum::<f64>() / readings.len() as f64).rounded())
}
