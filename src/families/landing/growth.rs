//! By how much the frame outgrows what carries the cones when both grow warmer.

use crate::formulas::frame::{Landing, Plan, Seat, SeatKind};
use crate::units::{Angle, Expansion, Length, TemperatureChange};

use super::read::Spec;

/// Change of temperature where none is written: a cold night against a hot day, from the day of fitting.
/// Source: common practice, no source.
pub const USUAL_CHANGE: TemperatureChange = TemperatureChange::kelvin(40.0);

/// Change of temperature of frame and trailer together, either way from the day of fitting.
pub fn change(s: &Spec) -> TemperatureChange {
    s.temperature_change.as_ref().map_or(USUAL_CHANGE, |t| TemperatureChange::kelvin(t.value))
}

/// By how much more the frame grows than what carries the cones; negative: less.
pub fn difference(s: &Spec) -> Expansion {
    s.common.material.elastic.expansion - s.trailer.elastic.expansion
}

/// How far the frame outgrows the trailer between two places that are `apart`.
pub fn growth(s: &Spec, apart: Plan) -> Plan {
    apart * (difference(s) * change(s))
}

/// The part of a plan distance along a direction.
pub fn along(plan: Plan, direction: Angle) -> Length {
    plan.x * direction.cos() + plan.y * direction.sin()
}

/// Place from which growth is counted: the round cup where there is one, else the middle.
pub fn held(landing: &Landing) -> Plan {
    let rounds: Vec<&Seat> = landing.seats().iter().filter(|seat| seat.kind == SeatKind::Round).collect();
    match rounds.as_slice() {
        [one] => one.at,
        _ => super::middle(&landing.seats().iter().map(|seat| seat.at).collect::<Vec<_>>()),
    }
}
