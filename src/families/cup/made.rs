//! A cup as it was drilled or bored: how high it seats now, what is left to take out, or which shim brings it back.

use crate::description::Fields;
use crate::families::Workplace;
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::key::Size;
use crate::record::reading::{Decision, Reading};
use crate::record::show::Say;
use crate::source::Source;
use crate::units::Length;

use super::read::{self, Hole, Spec};
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
    let drawn_hole = dimension.value.number();
    let readings: Vec<Reading> = dimension.measured().into_iter().cloned().collect();
    let Some(Value::Length(drawn)) = design.dimension(&sizes::SEAT_HEIGHT).map(|d| d.value.clone()) else { return };
    for r in readings {
        let at = |hole: f64| seat::with_hole(&s, &mate.cone, Length::mm(hole));
        let (hole, u) = (r.value.number(), r.u.number());
        let (Some(height), Some(low), Some(high)) = (at(hole), at(hole + u), at(hole - u)) else { continue };
        let open = ((high - low) / 2.0).abs();
        let say = Say(design.header.unit);
        let (verdict, next) = asks(&say, &r, (drawn_hole, hole), drawn - height);
        let how = if height < drawn { "lower" } else { "higher" };
        let said = next.clone().unwrap_or_else(|| "the hole is as it should be".into());
        let because = format!(
            "on this hole it seats at {} ± {} (k = 2, of the hole alone), {} {how} than drawn: {said}",
            say.length(height),
            say.length(open),
            say.length((drawn - height).abs())
        );
        let several = design.header.count > 1;
        let what = if several { format!("{}, piece {}", SEAT.what, r.piece) } else { SEAT.what.to_string() };
        let value = (Value::Length(height.rounded()), Limit::Against(Value::Length(drawn)));
        design.told(&SEAT, what, verdict, value, because, next);
    }
}

/// What a hole asks for, drawn and as measured, and the plate that sits so much lower than drawn.
fn asks(say: &Say, r: &Reading, (drawn, hole): (f64, f64), lower: Length) -> (Verdict, Option<String>) {
    let small = hole < drawn;
    match r.decision {
        Some(Decision::Reject) if small => {
            let left = say.length(Length::mm(drawn - hole));
            (
                Verdict::Caution,
                Some(format!(
                    "{left} is left to take out of the hole, {} on each side",
                    say.length(Length::mm((drawn - hole) / 2.0))
                )),
            )
        }
        Some(Decision::Reject) => {
            let text = format!(
                "put a shim of {} between plate and what it carries, and it stands as drawn; or make the plate anew",
                say.length(lower)
            );
            (Verdict::Caution, Some(text))
        }
        _ => (Verdict::Ok, None),
    }
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
