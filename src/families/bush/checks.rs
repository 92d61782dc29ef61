//! What is judged of a bush: pressure, speed, clearance, wear, grease, the shaft in it.

use crate::families::common;
use crate::families::common::ring::checks as ring;
use crate::families::common::ring::fit::Joint;
use crate::families::common::ring::service::Service;
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::show;
use crate::source::{Confirmed, Source};
use crate::units::Length;

use super::read::Spec;
use super::runs::Running;
use super::sizes;

const PRESSURE: Check = Check {
    key: "bush_pressure",
    what: "pressure in the bush",
    worst: Verdict::Fail,
    source: Source::Published(
        "Mott, Machine Elements in Mechanical Design, section 16-4; limit by the table of bushes",
    ),
};
const SPEED: Check = Check {
    key: "bush_speed",
    what: "mean sliding speed, m/min",
    worst: Verdict::Fail,
    source: Source::Published("limit by the table of bushes: sellers of bearing bronze and plastic"),
};
const PRESSURE_SPEED: Check = Check {
    key: "bush_pressure_speed",
    what: "pressure times speed, MPa m/s",
    worst: Verdict::Fail,
    source: Source::Published(
        "Mott, Machine Elements in Mechanical Design, section 16-4: twice what runs is designed for",
    ),
};
const CLEARANCE: Check = Check {
    key: "bush_clearance",
    what: "least running clearance over all temperatures",
    worst: Verdict::Fail,
    source: Source::Derived(
        "limits of bore and shaft, expansion of all three parts; bush makers: 0.001 to 0.0015 of the bore, plastic 0.4 % and more",
    ),
};
const RATTLES: Check = Check {
    key: "bush_rattles",
    what: "greatest running clearance at 20 °C",
    worst: Verdict::Caution,
    source: Source::CommonPractice,
};
const SHORT: Check = Check {
    key: "bush_length",
    what: "length of the bush over its bore",
    worst: Verdict::Caution,
    source: Source::Memory("Shigley, Mechanical Engineering Design, bushes at the border of lubrication: 0.5 to 2"),
};
const LIFE: Check = Check {
    key: "bush_wear",
    what: "hours of motion until it is worn",
    worst: Verdict::Fail,
    source: Source::Published("Shigley, Mechanical Engineering Design, section 12-15: w = k (4/pi) p v t"),
};
const WEARS: Check = Check {
    key: "bush_wear_not_told",
    what: "wear of the bush",
    worst: Verdict::Ok,
    source: Source::Derived("no wear factor of this material is known"),
};
const WARM: Check = Check {
    key: "bush_warm",
    what: "as warm as it gets in service",
    worst: Verdict::Fail,
    source: Source::Published("limit by the table of bushes"),
};
const SHAFT: Check = Check {
    key: "bush_shaft_hardness",
    what: "hardness of the shaft, HV",
    worst: Verdict::Caution,
    source: Source::CommonPractice,
};
const GREASED: Check = Check {
    key: "bush_grease",
    what: "way of the grease to the shaft",
    worst: Verdict::Caution,
    source: Source::CommonPractice,
};
const NO_BUSH: Check = Check {
    key: "bush_material",
    what: "what this material bears as a bush",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};
const WASHER: Check = Check { key: "washer_pressure", what: "pressure on the thrust washer", ..PRESSURE };
const WASHER_RUNS: Check = Check {
    key: "washer_pressure_speed",
    what: "pressure times speed on the thrust washer, MPa m/s",
    ..PRESSURE_SPEED
};
const FIGURES: Check = Check {
    key: "bush_figures",
    what: "what the bush was held against",
    worst: Verdict::Ok,
    source: Source::Memory("at least one of these figures was not seen in print"),
};

/// Greatest clearance over the least that is wanted, from which a bush rattles. Source: common practice, no source.
const LOOSE: f64 = 5.0;
/// Share of the bore that a swinging shaft is content with. Source: common practice: bush makers fit swinging shafts close.
const SWINGING: f64 = 0.25;
/// Share of the table's clearance for a turning shaft that is left in the worst heat or cold. Source: common practice, no source.
const WORST: f64 = 0.5;

/// All of them.
pub fn checks(design: &mut Design, s: &Spec, fits: &[Joint], running: &Running) {
    ring::checks(design, &s.ring, &[s.ring.whole()], fits);
    ring::touches(design, &s.ring);
    known(design, s, running);
    pressure(design, running);
    moving(design, s, running);
    clearance(design, s, running);
    length(design, s);
    warm(design, s, running);
    shaft(design, s, running);
    grease(design, s, running);
    wear(design, s, running);
    washer(design, running);
    figures(design, s, running);
    common::printed_under_load(design, &[&s.ring.common.material]);
    common::checks(design, &s.ring.common);
    common::swells(design, &s.ring.common, s.ring.outside.value);
    common::at_the_lathe(design);
}

/// A material that nobody knows as a bush is told by its maker, or it is none.
fn known(design: &mut Design, s: &Spec, running: &Running) {
    let told = running.allowed.is_some() && (running.speed.is_none() || running.pressure_speed_allowed.is_some());
    let name = &s.ring.common.material.name;
    let (verdict, because) = match (running.material, told) {
        (Some(_), _) => (Verdict::Ok, format!("{name} stands in the table of bushes")),
        (None, true) => (Verdict::Ok, format!("what {name} bears is written")),
        (None, false) => (
            Verdict::Fail,
            format!(
                "{name} is not known as a bush: steel on steel galls; take bronze or a bearing plastic, or write allowed_pressure and allowed_pressure_speed as its maker states them"
            ),
        ),
    };
    design.finding(&NO_BUSH, verdict, None, None, because);
}

fn pressure(design: &mut Design, running: &Running) {
    let Some(allowed) = running.allowed else { return };
    let because = "the mean over bore times length; beyond it the bush is squeezed out: longer, or a wider shaft";
    design.at_most(&PRESSURE, Value::Stress(running.pressure), Value::Stress(allowed), None, because);
}

fn moving(design: &mut Design, s: &Spec, running: &Running) {
    let hundredth = |x: f64| (x * 100.0).round() / 100.0;
    if let (Some(speed), Some(m)) = (running.speed, running.material) {
        let (is, most) = (hundredth(speed.as_m_per_min()), hundredth(m.speed.0.as_m_per_min()));
        let because = "faster than that it runs hot whatever it carries: rollers, or a smaller shaft";
        design.at_most(&SPEED, Value::Number(is), Value::Number(most), None, because);
    }
    if let (Some(pv), Some(allowed)) = (running.pressure_speed, running.pressure_speed_allowed) {
        let because = "the heat of friction on each area; half of what the material bears leaves room for poor grease and a warm day: a longer bush, less load, or slower";
        let pv = Value::Number((pv * 1e4).round() / 1e4);
        // What a maker states of his bush is taken whole.
        let wanted = s.runs.pressure_speed.is_none().then(|| Value::Number((allowed / 2.0 * 1e4).round() / 1e4));
        design.at_most(&PRESSURE_SPEED, pv, Value::Number(allowed), wanted, because);
    }
}

/// Clearance that the rule of the trade wants.
fn wanted(s: &Spec, running: &Running) -> Option<Length> {
    let (share, ..) = running.material?.clearance;
    let slow = if s.runs.turns.is_some() { 1.0 } else { SWINGING };
    Some((s.ring.bore.value * (share * slow)).rounded())
}

fn clearance(design: &mut Design, s: &Spec, running: &Running) {
    let service = Service::of(&s.ring);
    let wanted = wanted(s, running);
    let least = wanted.map(|w| Value::Length((w * WORST).rounded()));
    let because = format!(
        "the tightest pair {}: without play the shaft wipes off its grease and seizes; bore after pressing, not before, is meant",
        service.said()
    );
    design.at_least(&CLEARANCE, Value::Length(running.least), Value::Length(Length::ZERO), least, because);
    let Some(wanted) = wanted else { return };
    let most = running.clearance.max.rounded();
    let allowed = (s.ring.bore.value * (running.material.map_or(0.001, |m| m.clearance.0) * LOOSE)).rounded();
    let rule = design.say().length(wanted);
    let because = format!(
        "the rule asks for {rule} at least; five times that for a turning shaft is felt as a knock, and grease runs out"
    );
    let verdict = if most > allowed { Verdict::Caution } else { Verdict::Ok };
    design.finding(&RATTLES, verdict, Some(Value::Length(most)), Limit::AtMost(Value::Length(allowed)), because);
}

fn length(design: &mut Design, s: &Spec) {
    let ratio = ((s.ring.length.value / s.ring.bore.value) * 100.0).round() / 100.0;
    let (verdict, limit, because) = match ratio {
        r if r < 0.5 => (Verdict::Caution, 0.5, "so short a bush cocks, and its edges carry"),
        r if r > 2.0 => {
            (Verdict::Caution, 2.0, "in so long a bush a shaft that bends bears on the ends only: two short ones")
        }
        _ => (Verdict::Ok, 0.5, "between half and twice the bore"),
    };
    let value = Value::Number(limit);
    let limit = if limit > 1.0 { Limit::AtMost(value) } else { Limit::AtLeast(value) };
    design.finding(&SHORT, verdict, Some(Value::Number(ratio)), limit, because);
}

fn warm(design: &mut Design, s: &Spec, running: &Running) {
    let Some(m) = running.material else { return };
    let warmest = Service::of(&s.ring).warmest();
    let because = "beside that comes the heat of its own friction: see the pressure times speed";
    design.at_most(&WARM, Value::Temperature(warmest), Value::Temperature(m.warmest.0), None, because);
}

fn shaft(design: &mut Design, s: &Spec, running: &Running) {
    let Some((least, ..)) = running.material.and_then(|m| m.shaft) else { return };
    let name = s.ring.shaft.as_ref().map_or("the shaft", |shaft| shaft.material.name.as_str());
    let Some(is) = running.shaft_hv else {
        let because = format!("the hardness of {name} is not known: measure it and write shaft_hardness in [runs]");
        design.finding(&SHAFT, Verdict::Caution, None, None, because);
        return;
    };
    let because =
        format!("{name}: the bush is to wear, not the shaft; a softer shaft is scored by what beds in the bush");
    let verdict = if is < least { Verdict::Caution } else { Verdict::Ok };
    design.finding(&SHAFT, verdict, Some(Value::Number(is)), Limit::AtLeast(Value::Number(least)), because);
}

fn grease(design: &mut Design, s: &Spec, running: &Running) {
    if !running.material.is_some_and(|m| m.greased) {
        return;
    }
    let spread = s.ring.groove.as_ref().is_some_and(|g| g.inside) || s.straight.is_some();
    let (verdict, because) = match (&s.ring.grease_hole, spread) {
        (Some(_), true) => (Verdict::Ok, "the hole leads into a groove, and the groove along or round the shaft"),
        (Some(_), false) => {
            (Verdict::Caution, "a hole without a groove greases a line: add straight_groove, or a groove inside")
        }
        (None, _) => (
            Verdict::Caution,
            "no hole leads grease in: it keeps what it was built with, and runs dry in a season; add [grease_hole] with a groove",
        ),
    };
    design.finding(&GREASED, verdict, None, None, because);
}

fn wear(design: &mut Design, s: &Spec, running: &Running) {
    let Some(life) = running.life else {
        if running.speed.is_some() {
            design.note(&WEARS, "greased bronze wears by its grease and its dirt, not by a figure: measure the play each season with a feeler gauge and note it; a maker's wear factor goes into wear_factor");
        }
        return;
    };
    let dirt = if s.runs.dirt {
        "dirt counted as six times the wear"
    } else {
        "clean: dirt makes it three to six times as fast"
    };
    let because = format!("wear goes with pressure and way, within a factor of two or three: {dirt}");
    match &s.runs.hours {
        Some(hours) => {
            let wanted = Some(Value::Number(hours.value * 2.0));
            design.at_least(&LIFE, Value::Number(life), Value::Number(hours.value), wanted, because);
        }
        None => design.finding(&LIFE, Verdict::Ok, Some(Value::Number(life)), Limit::None, because),
    }
}

fn washer(design: &mut Design, running: &Running) {
    let Some(w) = &running.washer else { return };
    if let Some(allowed) = running.allowed {
        let because = "the whole ring bears, where its faces are flat and square to the shaft";
        design.at_most(&WASHER, Value::Stress(w.pressure), Value::Stress(allowed), None, because);
    }
    if let (Some(pv), Some(allowed)) = (w.pressure_speed, running.pressure_speed_allowed) {
        let because = "a flat ring is greased worse than a bush: half of what the material bears";
        let wanted = Some(Value::Number((allowed / 2.0 * 1e4).round() / 1e4));
        design.at_most(&WASHER_RUNS, Value::Number(pv), Value::Number(allowed), wanted, because);
    }
}

/// Where the figures of the material come from.
fn figures(design: &mut Design, s: &Spec, running: &Running) {
    let Some(m) = running.material else { return };
    let all = [
        ("pressure", m.pressure.1, m.pressure.2),
        ("speed", m.speed.1, m.speed.2),
        ("pressure times speed", m.pressure_speed.1, m.pressure_speed.2),
        ("warmth", m.warmest.1, m.warmest.2),
        ("friction", m.friction.1, m.friction.2),
        ("clearance", m.clearance.1, m.clearance.2),
    ];
    let wear = m.wear_factor.map(|(_, confirmed, source)| ("wear", confirmed, source));
    let doubtful = all.into_iter().chain(wear).filter(|(_, confirmed, _)| *confirmed == Confirmed::Memory);
    let told: Vec<String> = doubtful.map(|(what, _, source)| format!("{what}: {source}")).collect();
    if !told.is_empty() {
        let text = format!("{}: {}", s.ring.common.material.name, told.join("; "));
        design.note(&FIGURES, text);
    }
    let torque = [&sizes::FRICTION_TORQUE_MIN, &sizes::FRICTION_TORQUE_MAX];
    let told = torque.iter().all(|size| design.dimension(size).is_some());
    if told {
        let unit = design.header.unit;
        let words = torque.map(|size| design.dimension(size).map_or_else(String::new, |d| show::value(&d.value, unit)));
        let [least, most] = words;
        design.note(&TURNS_BY, format!("{least} to {most} turn it under the full load, more when it has stood: that is what a latch or a handle has to be sprung against"));
    }
}

const TURNS_BY: Check =
    Check { key: "bush_torque", what: "torque that turns it", worst: Verdict::Ok, source: Source::Derived("mu F d/2") };
