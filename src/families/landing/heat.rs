//! What a change of temperature does: how far the cups move against their cones, by the materials of frame and trailer,
//! and how the landing that stands takes it at both ends of the range.

use crate::formulas::frame::rest::{NoRest, Rest, rest};
use crate::formulas::frame::{InputError, Landing, Plan, Seat, SeatKind};
use crate::record::design::{Check, Design, Limit, Table, Value, Verdict};
use crate::record::show;
use crate::source::Source;
use crate::units::{Length, TemperatureChange};

use super::growth;
use super::read::{self, Spec};
use super::seated::SEATED_WITHIN;
use super::sizes;

const HEAT: Check = Check {
    key: "heat",
    what: "greatest lift at rest over the range of temperature",
    worst: Verdict::Fail,
    source: Source::Derived("growth of frame against base, length x difference of expansion x change, both ways"),
};

const NO_PLACE: Check =
    Check { key: "heat_no_place", what: "what the temperature does where it finds no place at all", ..HEAT };

/// A cup that stands higher than this over its seating at rest does not work.
/// Source: common practice, no source.
pub const RISES: Length = Length::mm(1.0);

/// The landing at one end of the range.
pub struct Heated {
    /// +1: warmer by the whole change; −1: colder.
    pub way: f64,
    pub landing: Landing,
    pub rest: Result<Rest, NoRest>,
}

impl Heated {
    /// Change of temperature, signed.
    pub fn kelvin(&self, s: &Spec) -> f64 {
        self.way * growth::change(s).as_kelvin()
    }

    fn word(&self) -> &'static str {
        if self.way > 0.0 { "warmer" } else { "colder" }
    }
}

/// The landing that stands, colder and warmer by the whole change.
pub fn heated(s: &Spec, landing: &Landing) -> Result<Vec<Heated>, InputError> {
    let from = growth::held(landing);
    let at = |way: f64| {
        let grown = |seat: &Seat| seat.clone().with_mismatch(seat.mismatch + growth::growth(s, seat.at - from) * way);
        let landing = Landing::new(landing.seats().iter().map(grown).collect(), landing.load().clone())?;
        Ok(Heated { way, rest: rest(&landing), landing })
    };
    [-1.0, 1.0].into_iter().map(at).collect()
}

/// Records what the growth is reckoned from.
pub fn record(design: &mut Design, s: &Spec) {
    design.given_or(
        &read::TEMPERATURE_CHANGE,
        s.temperature_change.as_ref(),
        growth::USUAL_CHANGE.as_kelvin(),
        |kelvin| Value::TemperatureChange(TemperatureChange::kelvin(kelvin)),
        "a cold night against a hot day, either way from the day of fitting",
    );
    design.computed(
        &sizes::GROWTH_PER_METRE,
        Value::Length(Length::mm(1000.0) * (growth::difference(s) * growth::change(s))),
        "1 m x difference of expansion x change, both alike in temperature",
    );
}

/// Room that is left of a slot or clear hole at an offset.
fn room_left(seat: &Seat, offset: Plan) -> Option<Length> {
    match seat.kind {
        SeatKind::Slot { direction, travel } if travel.is_finite() => {
            Some(travel - growth::along(offset, direction).abs())
        }
        SeatKind::Clear { clearance, .. } => Some(clearance - offset.length()),
        _ => None,
    }
}

/// Growth and what it does at each seat, colder and warmer.
pub fn table(design: &mut Design, s: &Spec, landing: &Landing, ends: &[Heated]) {
    let from = growth::held(landing);
    let row = |(i, seat): (usize, &Seat)| {
        let found: Vec<_> = ends.iter().filter_map(|e| e.rest.as_ref().ok()?.seats.get(i)).collect();
        let lifts = ends.iter().map(|e| {
            let at = e.rest.as_ref().ok().and_then(|r| r.seats.get(i));
            at.map_or_else(|| Value::Text("-".into()), |at| Value::Length(at.lift.rounded()))
        });
        let left = found.iter().filter_map(|at| room_left(seat, at.offset)).reduce(Length::min);
        let mut row =
            vec![Value::Text(seat.name.clone()), Value::Length(growth::growth(s, seat.at - from).length().rounded())];
        row.extend(lifts);
        row.push(left.map_or_else(|| Value::Text("-".into()), |l| Value::Length(l.rounded())));
        row
    };
    design.tables.push(Table::new(sizes::HEAT_TABLE, format!(
            "At rest, colder and warmer by {} K; growth of the frame against the {} from the seat that holds it, or from the middle",
            show::trimmed(growth::change(s).as_kelvin(), 1),
            s.base().word()
        ), &["seat", "growth", "lift, colder", "lift, warmer", "least room left"], landing.seats().iter().enumerate().map(row)));
}

/// Judges the landing that stands at both ends of the range. One that finds no place at the temperature of fitting either
/// does not fail by heat, and room for growth is no help.
pub fn judge(design: &mut Design, s: &Spec, stands: bool, ends: &[Heated]) {
    if let (false, Some(why)) = (stands, ends.iter().find_map(|e| e.rest.as_ref().err())) {
        let because = format!("it finds no place at any temperature: {why}; that first, and heat after it");
        design.finding(&NO_PLACE, Verdict::Fail, None, None, because);
        return;
    }
    if let Some((end, why)) = ends.iter().find_map(|e| Some((e, e.rest.as_ref().err()?))) {
        let kelvin = show::trimmed(growth::change(s).as_kelvin(), 1);
        let because = format!("{kelvin} K {} the frame finds no place: {why}", end.word());
        design.finding(&HEAT, Verdict::Fail, None, None, because);
        return;
    }
    let lifted = ends.iter().filter_map(|e| {
        let found = e.rest.as_ref().ok()?;
        let (name, lift) = super::seated::highest(&e.landing, found);
        Some((lift.rounded(), name, e.word()))
    });
    let Some((lift, name, word)) = lifted.reduce(|a, b| if b.0 > a.0 { b } else { a }) else { return };
    let kelvin = show::trimmed(growth::change(s).as_kelvin(), 1);
    let because = if growth::difference(s).as_per_million_kelvin().abs() < 1e-3 {
        format!("frame and {} grow alike; a frame that alone stands in the sun is not reckoned here", s.base().word())
    } else if lift > Length::ZERO {
        format!("{kelvin} K {word} {name} stands that much over full seating: growth has nowhere to go")
    } else {
        format!("{kelvin} K colder or warmer it stays seated: growth finds room")
    };
    let verdict = match lift {
        lift if lift > RISES => Verdict::Fail,
        lift if lift > SEATED_WITHIN => Verdict::Caution,
        _ => Verdict::Ok,
    };
    design.finding(&HEAT, verdict, Some(Value::Length(lift)), Limit::AtMost(Value::Length(SEATED_WITHIN)), because);
}
