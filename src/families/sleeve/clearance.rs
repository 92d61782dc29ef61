//! What cold and heat do to the clearance of rollers: their hub, the rollers and the raceway grow each by its own.

use crate::formulas::Range;
use crate::formulas::raceway::{self, BEARING_STEEL};
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::shop::Material;
use crate::source::Source;
use crate::units::Length;

use super::read::Spec;
use super::runs_under::{HUB_MATERIAL, Rollers};
use super::sizes;
use crate::families::common::ring::service::{Service, State};

const SERVICE: Check = Check {
    key: "clearance_in_service",
    what: "least running clearance of the rollers, cold or warm",
    worst: Verdict::Fail,
    source: Source::Derived(
        "linear expansion from 20 C (ISO 1): (F + 2 Dw) of the hub less 2 Dw of the rollers less F of the raceway; a thin outer ring follows its hub",
    ),
};

/// What is less is no change: a tenth of the finest limit. Source: common practice, no source.
const SEEN: Length = Length::um(0.5);

/// Least and greatest change of the clearance in one state.
fn change(s: &Spec, r: &Rollers, raceway: &Material, service: &Service, state: State) -> Range<Length> {
    let rollers = BEARING_STEEL.expansion * state.at().above_reference();
    let hub = r.hub.as_ref().map_or(rollers, |hub| service.strain(hub, state));
    let own = service.strain(raceway, state);
    // A ring that is tight on its shaft grows by its own or by the shaft's, as the fit has it.
    let shaft =
        s.ring.slid_on.as_ref().and(s.ring.shaft.as_ref()).map_or(own, |shaft| service.strain(&shaft.material, state));
    let with = |ring: f64| {
        raceway::clearance_change(s.ring.outside.value, r.roller_diameter.value, hub, rollers, ring).rounded()
    };
    Range { min: with(own.max(shaft)), max: with(own.min(shaft)) }
}

/// Records the change at both ends and judges what is left; gives back the range over all of them.
pub fn over_temperature(
    design: &mut Design,
    s: &Spec,
    r: &Rollers,
    raceway: &Material,
    at_room: Option<Range<Length>>,
) -> Option<Range<Length>> {
    let service = Service::of(&s.ring);
    if let Some(hub) = &r.hub {
        design.computed(&HUB_MATERIAL.size(), Value::Text(hub.name.clone()), "as written");
    }
    let states: Vec<(State, Range<Length>)> =
        service.states().map(|state| (state, change(s, r, raceway, &service, state))).collect();
    let seen = states.iter().any(|(_, c)| c.min.abs() > SEEN || c.max.abs() > SEEN);
    if seen {
        let coldest = service.states().next().map(State::at);
        // Dry and wet of one end are one size: what changes it most.
        for (size, cold) in [(&sizes::CLEARANCE_COLD, true), (&sizes::CLEARANCE_WARM, false)] {
            let of_end = states.iter().filter(|(state, _)| (Some(state.at()) == coldest) == cold);
            let ends = of_end.flat_map(|(_, c)| [c.min, c.max]);
            let Some(by) = ends.reduce(|a, b| if b.abs() > a.abs() { b } else { a }) else { continue };
            design.computed_length(
                size,
                by,
                "(F + 2 Dw) e_hub - 2 Dw e_rollers - F e_raceway, e = expansion x (t - 20 C)",
            );
        }
    }
    let least = states.iter().map(|(state, c)| (*state, c.min)).reduce(|a, b| if b.1 < a.1 { b } else { a })?;
    let most = states.iter().map(|(_, c)| c.max).fold(Length::ZERO, Length::max);
    let Some(at_room) = at_room else {
        if seen {
            told(design, &service, least);
        }
        return None;
    };
    judge(design, r, raceway, &service, (least.0, at_room.min + least.1.min(Length::ZERO)));
    Some(Range { min: at_room.min, max: at_room.max + most })
}

/// Where no class of the circle inside the rollers is written, only the change can be told.
fn told(design: &mut Design, service: &Service, (state, least): (State, Length)) {
    let by = design.say().length(least);
    let text = format!(
        "{} by {by} against the shop; write needle_bore_class, and what is left is judged",
        service.when(state)
    );
    design.note(&SERVICE, format!("it changes {text}"));
}

fn judge(design: &mut Design, r: &Rollers, raceway: &Material, service: &Service, (state, least): (State, Length)) {
    let hub = r.hub.as_ref().map_or("a steel hub", |hub| hub.name.as_str());
    let pair = format!("{hub} around the rollers, {} under them, {}", raceway.name, service.said());
    let (verdict, because) = if least <= Length::ZERO {
        let when = service.when(state);
        let grow = "materials that grow alike, a looser class, or a hub that is warmed before it turns";
        (Verdict::Fail, format!("{pair}: the tightest pair has nothing left {when}, and the rollers jam: {grow}"))
    } else {
        (Verdict::Ok, format!("{pair}: so much is left of the tightest pair"))
    };
    let zero = Limit::AtLeast(Value::Length(Length::ZERO));
    design.finding(&SERVICE, verdict, Some(Value::Length(least.rounded())), zero, because);
}
