//! A sleeve pressed into its hub, or shrunk onto its shaft: pressure, stress, force, heat, and what to machine before.

use crate::description::Fields;
use crate::families::common;
use crate::families::common::gauged;
use crate::formulas::press_fit::{COLDEST, HARD_RING_LIMIT, Part, Press, Pressed, WallStress, roughness_loss};
use crate::formulas::shares;
use crate::formulas::uncertainty::Instrument;
use crate::formulas::{MechanicsError, Range};
use crate::record::design::{Check, Design, Limit, Limits, Value, Verdict};
use crate::record::key::Size;
use crate::record::show;
use crate::slip;
use crate::source::{Confirmed, Source};
use crate::standards::friction::{self, Body, Condition, Motion};
use crate::standards::iso286::{self, Grade};
use crate::standards::processes::{self, Process};
use crate::units::{Force, Length, LengthUnit, Stress, Temperature, TemperatureChange};

use super::fit::{Joint, other, press};
use super::press::{FRICTION, GAP, HUB_OUTSIDE, OTHER_ROUGHNESS, Pressing, ROOM, ROUGHNESS, SHAFT_BORE, Secured, Way};
use super::read::Ring;
use super::remedy::remedy;
use super::service::{self, Service, State};
use super::sizes::{self, Surface};
use super::weighed::{Grown, NEAR_YIELD, Weighed, least_known};
use super::{pictures, surface};

/// Play for assembly where nothing is said. Source: common practice, no source.
pub const USUAL_GAP: Length = Length::mm(0.03);

/// A hub wider than this, in outside diameters of the sleeve, is a slip if a tenth or an inch the less would not be.
/// Source: common practice, no source.
const WIDEST_HUB: f64 = 10.0;

/// The surface that a press fit changes.
fn changes(way: Way) -> &'static Surface {
    match way {
        Way::In => &sizes::AT_BORE,
        Way::On => &sizes::AT_OUTSIDE,
    }
}

const HOLDS: Check = Check {
    key: "press_holds",
    what: "least interference that is left to hold",
    worst: Verdict::Fail,
    source: Source::Derived(
        "limits of both parts (ISO 286-1), smoothing taken off (DIN 7190-1, from memory), both parts grown by heat and water; at least what two readings by micrometer leave open, root of the sum of squares (JCGM 100)",
    ),
};
const PLAY: Check = Check {
    key: "play_taken_up",
    what: "play of the loosest pair, against what holds it beside the press",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};
const HUB_YIELD: Check = Check {
    key: "outer_part_yields",
    what: "equivalent stress in the outer part at its bore",
    worst: Verdict::Fail,
    source: Source::Published("Boresi & Schmidt, Advanced Mechanics of Materials, chapter 11; von Mises"),
};
const SLEEVE_YIELD: Check = Check {
    key: "inner_part_yields",
    what: "equivalent stress in the inner part at its bore",
    worst: Verdict::Fail,
    source: Source::Published("Boresi & Schmidt, Advanced Mechanics of Materials, chapter 11; von Mises"),
};
const HEAT_HARD: Check = Check {
    key: "heating",
    what: "temperature to which the outer part is heated",
    worst: Verdict::Caution,
    source: Source::Published(HARD_RING_LIMIT.source),
};
const HEAT_SOFT: Check = Check { source: Source::CommonPractice, ..HEAT_HARD };
const BEFORE: Check = Check {
    key: "machine_before_pressing",
    what: "tolerance left to machine to before pressing",
    worst: Verdict::Fail,
    source: Source::Derived(
        "thick cylinders after Lame; finest grade of the process by handbook charts of machining processes",
    ),
};
const AFTER: Check = Check {
    key: "finish_after_pressing",
    what: "left on the diameter to finish after pressing, least and greatest",
    worst: Verdict::Fail,
    source: Source::Derived(
        "thick cylinders after Lame, both ends of the interference and of the size before; stock by common practice",
    ),
};
const SMOOTHED: Check = Check {
    key: "smoothing",
    what: "interference lost because peaks are flattened",
    worst: Verdict::Ok,
    source: Source::Memory("DIN 7190-1: 0.8 (Rz1 + Rz2), Rz taken as 5 Ra"),
};

/// Works out and records the press fit; `None` when a problem was noted.
pub fn work(design: &mut Design, s: &Ring, p: &Pressing, joint: &Joint, table: &Fields) -> Option<()> {
    let (what, goes, beside) = match p.way {
        Way::In => ("the hub", (s.outside.value * 1.02, s.outside.value * WIDEST_HUB), "the sleeve inside it"),
        Way::On => ("the bore of the shaft", (Length::ZERO, s.bore.value * 0.98), "the shaft"),
    };
    common::slip(design, Verdict::Caution, what, p.far.value, goes, beside);
    let written = Range { min: -joint.range.max_clearance, max: -joint.range.min_clearance };
    if let Some(secured) = &p.secured {
        secured.record(design, joint.nominal, s.length.value);
    }
    if written.max <= Length::ZERO {
        loose(design, p, joint);
        return Some(());
    }
    let wrong = |error: MechanicsError| {
        let meant = slip::likely(p.far.value, goes.0, goes.1).map(|x| x.question(p.far.value, s.common.header.unit));
        let key = if p.way == Way::In { &HUB_OUTSIDE } else { &SHAFT_BORE };
        match meant {
            Some(meant) => table.problem_at(key, error.to_string(), Some(meant)),
            None => table.problem_here(error.to_string()),
        }
    };
    pressed(design, s, p, written).map_err(wrong).ok()
}

/// A fit that always leaves play holds nothing in a hub, unless a screw or a compound does; it is what is wanted for a sleeve
/// that only slides on.
fn loose(design: &mut Design, p: &Pressing, joint: &Joint) {
    if let Some(secured) = &p.secured {
        let (most, takes_up) = (joint.range.max_clearance, secured.takes_up(joint.nominal));
        let because =
            format!("nothing is pressed: {} holds it, and takes up so much play on the diameter", secured.said());
        design.at_most(&PLAY, Value::Length(most), Value::Length(takes_up.rounded()), None, because);
        return;
    }
    let (verdict, because) = match p.way {
        Way::In => (Verdict::Fail, "the fit leaves play at both ends of its tolerance: nothing holds it in its hub"),
        Way::On => (
            Verdict::Ok,
            "the fit leaves play at both ends of its tolerance: the sleeve slides on and is held by its ends",
        ),
    };
    design.finding(&HOLDS, verdict, None, None, because);
}

fn pressed(design: &mut Design, s: &Ring, p: &Pressing, written: Range<Length>) -> Result<(), MechanicsError> {
    let press = press(s, p);
    let (own, other) = p.roughness.unwrap_or_else(|| surface::of_the_joint(design, p.way));
    let loss = roughness_loss(other, own)?;
    taken(design, s, p, [own, other]);
    // The tightest pair is taken as it is, the loosest with its peaks flattened: stress and grip both err to the safe side.
    let effective = Range { min: written.min - loss, max: written.max };
    let range = press.pressed_range(effective)?;
    design.computed_length(&sizes::INTERFERENCE_MIN, written.min, "least shaft - greatest hole; negative: play");
    design.computed_length(&sizes::INTERFERENCE_MAX, written.max, "greatest shaft - least hole");
    design.computed_length(&sizes::SMOOTHING, loss, "0.8 (Rz1 + Rz2), Rz = 5 Ra");
    from_what(design, p, written);
    let asked = if p.roughness.is_some() { "written" } else { "this sheet asks for" };
    design.note(
        &SMOOTHED,
        format!(
            "{} and {}, as {asked}; it is taken off the least interference only: measure the roughness where the grip decides",
            show::roughness(own, design.header.unit),
            show::roughness(other, design.header.unit)
        ),
    );
    let least = match range.min {
        Some(least) => least,
        None => press.pressed(Length::ZERO)?,
    };
    record(design, p, &least, &range.max);
    grip(design, p, &press, &least, &range.max)?;
    heat(design, s, p, &press, effective)?;
    at_service(design, s, p, &press, effective)?;
    let weighed = Weighed::new(s, p, press, loss)?;
    let meant =
        if weighed.in_order(written, loss, p.secured.as_ref())? { None } else { Some(remedy(design, s, p, &weighed)?) };
    holds(design, &weighed, written, meant.as_deref());
    yielding(design, &weighed, written, meant.as_deref())?;
    before(design, s, p, &press, effective)?;
    pictures::stress(design, &press, effective.max)
}

/// Interference, and with it the pressure, which is proportional to it, spreads by the limits of both parts, each even between them.
fn from_what(design: &mut Design, p: &Pressing, written: Range<Length>) {
    let (own, names) = match p.way {
        Way::In => (&sizes::OUTSIDE_DIAMETER, ["outside of the sleeve", "bore of the hub"]),
        Way::On => (&sizes::BORE, ["bore of the sleeve", "outside of the shaft"]),
    };
    let width = design.dimension(own).and_then(|d| d.limits.as_ref()).map_or(Length::ZERO, |l| l.upper - l.lower);
    let other = (written.max - written.min - width).max(Length::ZERO);
    let parts = shares::of_a_sum(&[width.as_mm(), other.as_mm()]);
    let named = names.map(str::to_string).into_iter().zip(parts);
    design.comes_from(&sizes::INTERFERENCE_MIN, named);
}

fn record(design: &mut Design, p: &Pressing, least: &Pressed, most: &Pressed) {
    let stress = |d: &mut Design, [loosest, tightest]: [&Size; 2], a: Stress, b: Stress, formula: &'static str| {
        d.computed(loosest, Value::Stress(a), formula);
        d.computed(tightest, Value::Stress(b), formula);
    };
    stress(
        design,
        [&sizes::PRESSURE_MIN, &sizes::PRESSURE_MAX],
        least.pressure,
        most.pressure,
        "Lame, interference on the diameter",
    );
    type At = fn(&Pressed) -> &WallStress;
    let pairs: [([&Size; 2], [&Size; 2], At); 2] = [
        (
            [&sizes::OUTER_HOOP_MIN, &sizes::OUTER_HOOP_MAX],
            [&sizes::OUTER_EQUIVALENT_MIN, &sizes::OUTER_EQUIVALENT_MAX],
            |x| &x.hub_at_joint,
        ),
        (
            [&sizes::INNER_HOOP_MIN, &sizes::INNER_HOOP_MAX],
            [&sizes::INNER_EQUIVALENT_MIN, &sizes::INNER_EQUIVALENT_MAX],
            |x| &x.sleeve_at_bore,
        ),
    ];
    for (hoop, equivalent, at) in pairs {
        stress(design, hoop, at(least).hoop, at(most).hoop, "p (Do^2 + D^2)/(Do^2 - D^2), or -2 p D^2/(D^2 - d^2)");
        stress(design, equivalent, at(least).mises, at(most).mises, "von Mises");
    }
    let [(loosest, a), (tightest, b)] = match p.way {
        Way::In => [(&sizes::BORE_CLOSES_MIN, least.bore_closes), (&sizes::BORE_CLOSES_MAX, most.bore_closes)],
        Way::On => [(&sizes::OUTSIDE_GROWS_MIN, least.outside_grows), (&sizes::OUTSIDE_GROWS_MAX, most.outside_grows)],
    };
    design.computed_length(loosest, a, "hoop stress x diameter/E");
    design.computed_length(tightest, b, "hoop stress x diameter/E");
}

/// What is taken for hub or shaft and for both surfaces where nothing is written.
fn taken(design: &mut Design, s: &Ring, p: &Pressing, [own, rough]: [Length; 2]) {
    let why = "what such a fit is turned or bored to: nothing is written";
    if p.roughness.is_none() {
        let unit = design.header.unit;
        for (key, ra) in [(&ROUGHNESS, own), (&OTHER_ROUGHNESS, rough)] {
            design.assumed(&key.size(), Value::Text(show::roughness(ra.rounded(), unit)), why);
        }
    }
    if p.material.is_none() {
        let name = Value::Text(other(s, p).name.clone());
        design.assumed(&sizes::JOINT_MATERIAL, name, "as the part that it is pressed with: nothing is written");
    }
    if p.friction.is_none() {
        let (low, high) = friction_range(p);
        let range = format!("{} to {}", show::trimmed(low, 2), show::trimmed(high, 2));
        let why = match &p.secured {
            Some(by) if by.fills() => {
                "printed for pressing steel into steel, oiled; the compound wets the joint as oil does, and what it holds once cured is told beside it"
            }
            _ if [&s.common.material, other(s, p)].iter().all(|m| m.rubs_as(Body::Steel)) => {
                "printed for pressing steel into steel, oiled"
            }
            _ => "printed for pressing steel into steel, oiled; nothing is printed for this pair, which may hold less",
        };
        design.assumed(&FRICTION.size(), Value::Text(range), why);
    }
}

/// Friction as written, or the range that is printed for pressing steel into steel.
pub fn friction_range(p: &Pressing) -> (f64, f64) {
    let usual = friction::friction(Body::Steel, Body::Steel, Motion::PressFit, Condition::Lubricated);
    match &p.friction {
        Some(mu) => (mu.value, mu.value),
        None => usual.map_or((0.08, 0.16), |f| f.range),
    }
}

fn grip(
    design: &mut Design,
    p: &Pressing,
    press: &Press,
    least: &Pressed,
    most: &Pressed,
) -> Result<(), MechanicsError> {
    let (low, high) = friction_range(p);
    let force: Force = press.axial_force(most.pressure, high)?;
    design.computed(&sizes::PRESS_FORCE, Value::Force(force), "mu pi D L p, greatest friction and interference");
    design.computed(
        &sizes::HOLDING_FORCE,
        Value::Force(press.axial_force(least.pressure, low)?),
        "mu pi D L p, least friction and interference",
    );
    design.computed(
        &sizes::HOLDING_TORQUE,
        Value::Torque(press.torque(least.pressure, low)?),
        "mu pi D^2 L p/2, least friction and interference",
    );
    Ok(())
}

/// The least play with which a hot part is dropped on: the lower end of the usual 0.02 to 0.05 mm. Source: common practice, no source.
const LEAST_GAP: Length = Length::mm(0.02);
/// What an inner part is cooled with, mildest first. Source: common practice, no source.
const COLD: [(Temperature, &str); 3] = [
    (Temperature::celsius(-18.0), "in a freezer"),
    (Temperature::celsius(-70.0), "in dry ice"),
    (COLDEST, "in liquid nitrogen"),
];
/// Less than so much is no step of warming or cooling: drafts and hands do as much. Source: common practice, no source.
const A_STEP: TemperatureChange = TemperatureChange::kelvin(20.0);

/// To what each part is brought: the outer one heated, no more than it stands and no more than is needed; the inner one cooled
/// as well where that is not enough.
fn heat(
    design: &mut Design,
    s: &Ring,
    p: &Pressing,
    press: &Press,
    effective: Range<Length>,
) -> Result<(), MechanicsError> {
    let gap = design.length_or(&GAP, p.gap.as_ref(), USUAL_GAP, "usual play to drop it on");
    let usual = "the reference temperature of sizes";
    let room = design.given_or(&ROOM, p.room.as_ref(), Temperature::REFERENCE, Value::Temperature, usual);
    let outer = if p.way == Way::In { other(s, p) } else { &s.common.material };
    let limit = outer.heat_limit();
    let heating = press.heat_hub(effective.max, gap, room, limit)?;
    let opens = |to: Temperature| press.interface * (press.hub.expansion * (to - room));
    let play = opens(limit) - effective.max;
    let enough = !heating.beyond_limit || play >= gap.min(LEAST_GAP);
    let warm = |needed: Temperature| {
        let step = room + A_STEP;
        let at_least = if needed < step { step } else { needed };
        if at_least > limit { limit } else { at_least }
    };
    let formula = "room + (interference + gap)/(expansion x D), no more than it stands";
    let heat_to = |design: &mut Design, to: Temperature| {
        design.computed(&sizes::HEAT_TO, Value::Temperature(to), formula);
    };
    if enough {
        heat_to(design, warm(heating.temperature));
        if let Ok(cold) = press.cool_sleeve(effective.max + gap, Length::ZERO, room)
            && cold >= COLDEST
            && cold <= room + -A_STEP
        {
            let formula = "room - (interference + gap)/(expansion x D)";
            design.computed(&sizes::COOL_TO, Value::Temperature(cold), formula);
        }
        let because = if heating.beyond_limit {
            format!(
                "at what the outer part stands it slips on with {} of play: in one go",
                show::length_both(play.rounded(), s.common.header.unit)
            )
        } else {
            "within what the outer part stands".into()
        };
        let at = if heating.beyond_limit { limit } else { heating.temperature };
        return heat_told(design, outer.hardened, Verdict::Ok, at, limit, &because);
    }
    let shrinks = |to: Temperature| press.interface * (press.sleeve.expansion * (room - to));
    let cooled = COLD.into_iter().find(|(to, _)| opens(limit) + shrinks(*to) >= effective.max + gap);
    let because = match cooled {
        Some((to, how)) => {
            let needed = press.heat_hub((effective.max - shrinks(to)).max(Length::ZERO), gap, room, limit)?;
            heat_to(design, warm(needed.temperature));
            design.computed(&sizes::COOL_AS_WELL_TO, Value::Temperature(to), how);
            "so hot it would slip on by itself, and so hot it is not made: the inner part is cooled as well, or it is pressed"
        }
        None => {
            heat_to(design, limit);
            "so hot it would slip on, and no cooling of the inner part makes up for it: it is pressed"
        }
    };
    heat_told(design, outer.hardened, Verdict::Caution, heating.temperature, limit, because)
}

fn heat_told(
    design: &mut Design,
    hard: bool,
    verdict: Verdict,
    at: Temperature,
    limit: Temperature,
    because: &str,
) -> Result<(), MechanicsError> {
    let check = if hard { &HEAT_HARD } else { &HEAT_SOFT };
    let why = match (verdict, hard) {
        (Verdict::Ok, _) => "",
        (_, true) => "; a hard ring loses hardness when it is heated more",
        (_, false) => "; a hub heated more scales and distorts",
    };
    let limit = Limit::AtMost(Value::Temperature(limit));
    design.finding(check, verdict, Some(Value::Temperature(at)), limit, format!("{because}{why}"));
    Ok(())
}

/// What the service temperature and the cold or heat at which it comes loose are.
fn at_service(
    design: &mut Design,
    s: &Ring,
    p: &Pressing,
    press: &Press,
    effective: Range<Length>,
) -> Result<(), MechanicsError> {
    let service = Service::of(s);
    if let Some(t) = &s.service {
        let grown = Grown::of(s, p, &service, service::dry(t.value))?;
        for (size, interference) in
            [(&sizes::INTERFERENCE_AT_SERVICE_MIN, effective.min), (&sizes::INTERFERENCE_AT_SERVICE_MAX, effective.max)]
        {
            let formula = "interference + D (a_inner - a_outer)(t - 20 C)";
            let left = press.interference_grown(interference, grown.inner, grown.outer);
            design.computed_length(size, left, formula);
        }
    }
    let looses = if effective.min > Length::ZERO { press.loose_at(effective.min)? } else { None };
    if let Some(loose) = looses {
        design.computed(
            &sizes::LOOSE_AT,
            Value::Temperature(loose),
            "20 C + least interference left/(D (a_outer - a_inner))",
        );
    }
    Ok(())
}

/// Whether even the loosest pair holds, by the press or by what secures it.
fn holds(design: &mut Design, w: &Weighed<'_>, fit: Range<Length>, meant: Option<&str>) {
    let secured = w.p.secured.as_ref();
    let (loosest, least) = w.loosest(fit, w.loss, secured);
    let (left, state) = w.least(loosest);
    let left = left.rounded();
    if let Some(by) = secured.filter(|_| left < Length::ZERO) {
        let because = format!(
            "the loosest pair has so much play {}; {} holds it, and takes up so much",
            w.service.when(state),
            by.said()
        );
        design.at_most(&PLAY, Value::Length(-left), Value::Length((-least).rounded()), None, because);
        return;
    }
    let (most, _) = w.least(fit.max);
    gauged::rests_on(design, &w.s.common, Instrument::Micrometer);
    let known = least_known(&w.s.common).rounded();
    let verdict = match (most <= Length::ZERO, left < known) {
        (true, _) => Verdict::Fail,
        (false, true) => Verdict::Caution,
        (false, false) => Verdict::Ok,
    };
    let because = held(w, verdict, left, state, meant);
    design.finding(&HOLDS, verdict, Some(Value::Length(left)), Limit::AtLeast(Value::Length(known)), because);
}

/// Whether it holds, in words.
fn held(w: &Weighed<'_>, verdict: Verdict, left: Length, state: State, meant: Option<&str>) -> String {
    let (said, when) = (w.service.said(), w.service.when(state));
    let meant = meant.map_or_else(String::new, |m| format!(": {m}"));
    match verdict {
        Verdict::Ok => format!("even the loosest pair stays tight {said}"),
        Verdict::Fail => {
            format!("even the tightest pair of parts comes loose {when}, where it must hold {said}{meant}")
        }
        Verdict::Caution if left > Length::ZERO => {
            format!("the loosest pair keeps so little {when} that two micrometers cannot tell it from none{meant}")
        }
        Verdict::Caution => {
            format!(
                "the loosest pair of parts, its peaks flattened, comes loose {when}, where it must hold {said}{meant}"
            )
        }
    }
}

/// Equivalent stresses against the yield strengths, at the worst of 20 °C and service.
fn yielding(
    design: &mut Design,
    w: &Weighed<'_>,
    fit: Range<Length>,
    meant: Option<&str>,
) -> Result<(), MechanicsError> {
    for (part, material, stress) in w.stresses(fit.max)? {
        let check = if part == Part::Hub { &HUB_YIELD } else { &SLEEVE_YIELD };
        let Some(limit) = material.yield_strength else {
            let because = format!("no yield strength is known for {}: write it into shop.toml", material.name);
            design.finding(check, Verdict::Caution, Some(Value::Stress(stress)), None, because);
            continue;
        };
        let because = if stress > limit {
            format!(
                "tightest pair {}, against the yield strength of {}: it yields, the interference is not kept and the sizes given here no longer hold: {}",
                w.service.said(),
                material.name,
                meant.unwrap_or("a looser class")
            )
        } else {
            format!(
                "tightest pair {}, against the yield strength of {}; where it yields the interference is not kept and the sizes given here no longer hold",
                w.service.said(),
                material.name
            )
        };
        design.at_most(
            check,
            Value::Stress(stress),
            Value::Stress(limit),
            Some(Value::Stress(NEAR_YIELD * limit)),
            because,
        );
        common::doubtful_strength(design, material);
    }
    Ok(())
}

/// Stock left for finishing after pressing on the diameter, at least, and the grade to which is machined before:
/// reamed or bored where soft, honed or ground where hard. Source: common practice, no source.
const STOCK_SOFT: (Length, i8) = (Length::mm(0.1), 9);
const STOCK_HARD: (Length, i8) = (Length::mm(0.03), 7);

/// Bore or outside to machine before pressing: so that it ends inside its limits, where what is left of its tolerance
/// can be held; else so that it can be finished after pressing.
fn before(
    design: &mut Design,
    s: &Ring,
    p: &Pressing,
    press: &Press,
    effective: Range<Length>,
) -> Result<(), MechanicsError> {
    let Some(finished) = limits_of(design, changes(p.way).own) else { return Ok(()) };
    let tight = Range { min: effective.min.max(Length::ZERO), max: effective.max };
    let window = match p.way {
        Way::In => press.bore_limits_before(finished, tight),
        Way::On => press.outside_limits_before(finished, tight),
    };
    let hard = s.common.material.hardened;
    let process = match (hard, p.way) {
        (true, _) => Process::CylindricallyGround,
        (false, Way::In) => Process::Bored,
        (false, Way::On) => Process::Turned,
    };
    let held = processes::at_best(process, finished.max, s.length.value).map_or(Length::ZERO, |h| h.value);
    let unit = s.common.header.unit;
    let text = |l: Length| show::length_both(l.rounded(), unit);
    if let Some(window) = window.ok().filter(|w| w.max - w.min >= held) {
        record_before(design, p, window, "so that it ends inside its limits".into());
        let (least, most) = (text(window.min), text(window.max));
        let because = format!(
            "between {least} and {most} before pressing it ends inside its limits with every pair; drawing and solids show it so, as machined"
        );
        design.finding(
            &BEFORE,
            Verdict::Ok,
            Some(Value::Length((window.max - window.min).rounded())),
            Limit::AtLeast(Value::Length(held.rounded())),
            because,
        );
        return Ok(());
    }
    finish_after(design, s, p, press, finished, tight, process)
}

/// Bore or outside to machine before pressing where it is finished afterwards, and what is left to take off.
fn finish_after(
    design: &mut Design,
    s: &Ring,
    p: &Pressing,
    press: &Press,
    finished: Range<Length>,
    tight: Range<Length>,
    process: Process,
) -> Result<(), MechanicsError> {
    let (hard, unit) = (s.common.material.hardened, s.common.header.unit);
    let (stock, grade) = if hard { STOCK_HARD } else { STOCK_SOFT };
    let tolerance = Grade::new(grade).and_then(|g| iso286::it_width(finished.max, g).ok()).unwrap_or(stock);
    let after = |stock, tolerance| match p.way {
        Way::In => press.bore_to_finish_after(finished, tight, stock, tolerance),
        Way::On => press.outside_to_finish_after(finished, tight, stock, tolerance),
    };
    // Limits that can be read off an instrument: a little more stock, whole steps of tolerance.
    let step = readable(unit, hard);
    let exact = after(stock, tolerance)?.before;
    let spare = match p.way {
        Way::In => exact.max - step * (exact.max / step).floor(),
        Way::On => step * (exact.min / step).ceil() - exact.min,
    };
    let after = after(stock + spare, step * (tolerance / step).floor().max(1.0))?;
    record_before(design, p, after.before, "finished after pressing".into());
    let (least, most) = (after.left.min, after.left.max);
    design.computed_length(&sizes::FINISH_AFTER_PRESSING_MIN, least, "common practice, no source");
    let formula = "finished size - size before + what the press fit closes, or grows, at most";
    design.computed_length(&sizes::FINISH_AFTER_PRESSING_MAX, most, formula);
    let class = show::length_both((finished.max - finished.min).rounded(), unit);
    let changes = if p.way == Way::In { "closes the bore" } else { "makes the outside grow" };
    let because = format!(
        "the fit {changes} more in the tightest pair than in the loosest, and what that leaves of its tolerance of {class} cannot be held when {process}: it is finished after pressing; drawing and solids show it as machined before"
    );
    let limit = Limit::To(Value::Length(most.rounded()));
    design.finding(&AFTER, Verdict::Ok, Some(Value::Length(least.rounded())), limit, because);
    Ok(())
}

/// Step to which limits are set where there is room: 0.01 mm or 0.0005 in at the lathe, a tenth of it at the grinder.
/// Source: common practice, no source.
fn readable(unit: LengthUnit, hard: bool) -> Length {
    let step = if unit == LengthUnit::Mm { Length::mm(0.01) } else { Length::inches(0.0005) };
    if hard { step * 0.1 } else { step }
}

fn limits_of(design: &Design, size: &Size) -> Option<Range<Length>> {
    design.dimension(size).and_then(|d| d.limits.as_ref()).map(|l| Range { min: l.lower, max: l.upper })
}

fn record_before(design: &mut Design, p: &Pressing, limits: Range<Length>, by: String) {
    let Surface { own, before, .. } = changes(p.way);
    design.computed_length(
        before,
        (limits.min + limits.max) / 2.0,
        "finished size corrected by what the press fit closes or grows",
    );
    let (lower, upper) = (limits.min.rounded(), limits.max.rounded());
    design.limit(before, Limits { lower, upper, by, confirmed: Confirmed::TwoOrMore });
    design.principal(&[before]);
    design.relabel(own, if p.way == Way::In { "bore, after pressing" } else { "outside diameter, after it is on" });
}

/// Whether heat alone would have to be more than the outer part stands.
fn beyond(design: &Design) -> bool {
    design.findings.iter().any(|f| f.key == HEAT_HARD.key && f.verdict != Verdict::Ok)
}

/// The warmest part that a retaining compound is spread against. Source: common practice, no source; makers state their own.
const COMPOUND_BEARS: Temperature = Temperature::celsius(120.0);

/// The temperature to which the outer part is heated, where one was recorded.
fn heat_of(design: &Design) -> Option<Temperature> {
    match design.dimension(&sizes::HEAT_TO).map(|d| &d.value) {
        Some(Value::Temperature(to)) => Some(*to),
        _ => None,
    }
}

/// The steps that put it together: what is coated is coated before.
pub fn steps(design: &mut Design, s: &Ring, p: &Pressing) {
    let first = design.operations.len();
    together(design, s, p);
    design.fixed_from(first);
}

/// How it is put together: by cold, by heat or by the press, the joint as that wants it.
fn goes_together(design: &mut Design, p: &Pressing, heat: &str, force: &str) -> String {
    let unit = design.header.unit;
    let said = |d: &Design, size: &Size| d.dimension(size).map(|x| show::value(&x.value, unit));
    let filled = p.secured.as_ref().is_some_and(Secured::fills);
    let warm = match (said(design, &sizes::COOL_AS_WELL_TO), said(design, &sizes::COOL_TO)) {
        (Some(cold), _) => {
            design.caution(
                &["drop it together", "bench"],
                "Dry ice and liquid gases: gloves, goggles, an open door.",
                "Dry ice and liquid gases burn skin and drive the air out of a room: gloves, goggles, an open door.",
            );
            format!(
                "Cool the inner part to {cold}, heat the outer part to {heat}, no more, and drop it together, or press"
            )
        }
        (None, _) if filled && heat_of(design).is_some_and(|to| to > COMPOUND_BEARS) => {
            format!("Not by heat: {heat} would set or spoil the compound before the part is home; press")
        }
        (None, _) if beyond(design) => "No heat that the outer part stands lets it drop together; press".to_string(),
        (None, _) => format!("Heat the outer part to {heat} and drop it together dry, or press"),
    };
    used_up(design, p);
    if filled {
        format!(
            "Lead-in chamfer on both parts, degrease the joint and spread retaining compound on the cold part: no oil; let it cure as its maker says before it is loaded. {warm} with up to {force}; straight, in one go."
        )
    } else {
        // What is heated goes together dry: oil on it smokes and may flash.
        format!(
            "Lead-in chamfer on both parts, the joint clean. {warm} with up to {force}, the joint oiled then; straight, in one go."
        )
    }
}

/// How it lies round its axis: pressed in it turns no more.
const fn turned(s: &Ring) -> &'static str {
    if s.grease_hole.is_some() {
        " Mark both ends first, and lay it as it is to stand: its grease hole over the passage in the other part, which is drilled before, its groove away from the load; once in, it turns no more."
    } else {
        ""
    }
}

fn together(design: &mut Design, s: &Ring, p: &Pressing) {
    let unit = s.common.header.unit;
    let said = |d: &Design, size: &Size| d.dimension(size).map(|x| show::value(&x.value, unit));
    let wall = (s.outside.value - s.bore.value) / 2.0;
    let (Some(heat), Some(force)) = (said(design, &sizes::HEAT_TO), said(design, &sizes::PRESS_FORCE)) else {
        return put_together(design, s, p, wall);
    };
    let left = [&sizes::FINISH_AFTER_PRESSING_MIN, &sizes::FINISH_AFTER_PRESSING_MAX];
    let left = left.map(|size| match design.dimension(size).map(|d| &d.value) {
        Some(Value::Length(l)) => Some(show::length_both(*l, unit)),
        _ => None,
    });
    let together = format!("{}{}", goes_together(design, p, &heat, &force), turned(s));
    let (own, with) = (changes(p.way).own, if p.way == Way::In { "bore gauge" } else { "micrometer" });
    match left {
        [Some(least), Some(most)] => {
            design.step("bench", format!("{together} Let it get cold before anything is measured."));
            // The spot of a screw bulges the bore: it comes before the last cut.
            secure(design, s, p, wall);
            let hard = s.common.material.hardened;
            let (at, how) = match (hard, p.way) {
                (true, Way::In) => ("grinder", "hone or grind the bore"),
                (true, Way::On) => ("grinder", "grind the outside"),
                (false, Way::In) => ("bench", "ream or bore the bore"),
                (false, Way::On) => ("lathe", "turn the outside"),
            };
            let between = common::between(design, own);
            let pace = finishing(design, s, p, at);
            let reamer = common::reamer(design, own, s.bore.value);
            let step = design.step(at, format!("After pressing: {how} to size, {between}{pace}; {least} to {most} is left on the diameter. Break the edge again and wash the chips out.")).measure(own, with);
            if at == "bench" {
                step.tool(format!("{reamer}, or boring bar"));
            }
            if design.dimension(&sizes::FINISHED_TRUE).is_some() {
                let with = "dial indicator, turned about the surface that the other part was bored or turned from";
                design.operations.last_mut().into_iter().for_each(|step| {
                    step.measure(&sizes::FINISHED_TRUE, with);
                });
            }
        }
        _ => {
            let ended = if limits_of(design, changes(p.way).before).is_some() {
                " Measure again when it is cold: machined to its limits before, it has ended inside these."
            } else {
                ""
            };
            design.step("bench", format!("{together}{ended}")).measure(own, with);
            secure(design, s, p, wall);
        }
    }
    design.caution(&["straight, in one go", "bench"], "Gloves and tongs for hot metal; stand beside a press, not in front of it.", "Hot metal looks like cold metal: gloves and tongs, and a mark on it. Stand beside a press, not in front of it; a part that cocks flies.");
}

/// The speed of the last cut, where a lathe makes it.
fn finishing(design: &mut Design, s: &Ring, p: &Pressing, at: &str) -> String {
    if at != "lathe" {
        return String::new();
    }
    let across = if p.way == Way::In { s.bore.value } else { s.outside.value };
    let setting = s.common.machines.turn(s.common.machines.cutting(&s.common.material).finish, across);
    let cut = common::Cut::point(&s.common.machines, &s.common.material);
    format!(" at {}", common::spindle(design, "finishing after pressing", setting, cut))
}

/// Records what goes into the joint.
fn used_up(design: &mut Design, p: &Pressing) {
    if p.secured.as_ref().is_some_and(Secured::fills) {
        design.wants.uses("retaining compound", "the joint, spread on the cold part");
    } else {
        design.wants.uses("oil", "the press fit");
    }
}

/// The step of a fit that is not pressed, where something else holds it.
fn put_together(design: &mut Design, s: &Ring, p: &Pressing, wall: Length) {
    if p.secured.as_ref().is_some_and(Secured::fills) {
        design.wants.uses("retaining compound", "the joint, all round both parts");
        design.step("bench", "Degrease both parts, spread retaining compound all round both, put them together with a turn, wipe the ends. Let it cure as its maker says before it is loaded.");
    }
    secure(design, s, p, wall);
}

/// The step of what holds it beside the press.
fn secure(design: &mut Design, s: &Ring, p: &Pressing, wall: Length) {
    let Some(by) = &p.secured else { return };
    let (across, outer, outer_wall) = match p.way {
        Way::In => (s.outside.value, other(s, p), (p.far.value - s.outside.value) / 2.0),
        Way::On => (s.bore.value, &s.common.material, wall),
    };
    let outer_wall = Some(outer_wall).filter(|wall| *wall > Length::ZERO);
    by.step(design, &s.common.machines, (outer, outer_wall), across, wall);
}
