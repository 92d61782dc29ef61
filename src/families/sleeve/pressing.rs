//! A sleeve pressed into its hub, or shrunk onto its shaft: pressure, stress, force, heat, and what to machine before.

use crate::description::Fields;
use crate::families::Workplace;
use crate::families::common;
use crate::formulas::press_fit::{HARD_RING_LIMIT, Part, Press, Pressed, WallStress, roughness_loss};
use crate::formulas::{MechanicsError, Range};
use crate::record::design::{Check, Design, Limit, Limits, Value, Verdict};
use crate::record::key::{Given, Key, Kind};
use crate::record::show;
use crate::shop::Material;
use crate::slip;
use crate::source::{Confirmed, Source};
use crate::standards::friction::{self, Body, Condition, Motion};
use crate::standards::iso286::{self, Grade, ToleranceClass};
use crate::standards::processes::{self, Process};
use crate::units::{Force, Length, LengthUnit, Stress, Temperature};

use super::fit::Joint;
use super::read::Spec;
use super::service::{self, Service, State};
use super::{pictures, surface};

pub const HUB_OUTSIDE: Key =
    Key::new("hub_outside", "outside diameter of the hub", Kind::POSITIVE, "metal round the hole, such as \"60 mm\"");
pub const SHAFT_BORE: Key =
    Key::new("shaft_bore", "bore of the shaft", Kind::NOT_NEGATIVE, "of a hollow shaft; solid if left out");
pub const MATERIAL: Key =
    Key::new("material", "material of the other part", Kind::Text, "that of [housing] or [shaft] if left out");
pub const FRICTION: Key =
    Key::new("friction", "coefficient of friction", Kind::Number(0.01, 1.0), "such as 0.12; 0.08 to 0.16 if left out");
pub const ROUGHNESS: Key = Key::new(
    "roughness",
    "roughness of the sleeve, Ra",
    Kind::FINE,
    "such as \"0.8 um\"; what the sheet asks for if left out",
);
pub const OTHER_ROUGHNESS: Key = Key::new(
    "other_roughness",
    "roughness of the other part, Ra",
    Kind::FINE,
    "such as \"1.6 um\"; as the sleeve if left out",
);
pub const GAP: Key =
    Key::new("assembly_gap", "play wanted while the hot part goes on", Kind::NOT_NEGATIVE, "such as \"0.03 mm\"");
pub const ROOM: Key = Key::new("room", "temperature of the shop", Kind::Temperature, "such as \"20 C\"");

/// Keys of `[pressed_in]`.
pub const IN_KEYS: &[Key] = &[HUB_OUTSIDE, MATERIAL, FRICTION, ROUGHNESS, OTHER_ROUGHNESS, GAP, ROOM];
/// Keys of `[slid_on]`.
pub const ON_KEYS: &[Key] = &[SHAFT_BORE, MATERIAL, FRICTION, ROUGHNESS, OTHER_ROUGHNESS, GAP, ROOM];

/// Play for assembly where nothing is said. Source: common practice, no source.
const USUAL_GAP: Length = Length::mm(0.03);
/// Share of the yield strength from which a press fit is called near. Source: common practice, no source.
const NEAR_YIELD: f64 = 0.9;

/// A hub wider than this, in outside diameters of the sleeve, is a slip if a tenth or an inch the less would not be.
/// Source: common practice, no source.
const WIDEST_HUB: f64 = 10.0;

/// Which way the sleeve is held.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Way {
    /// In a hub around it.
    In,
    /// On a shaft inside it.
    On,
}

/// What the file says about the press fit.
pub struct Pressing {
    pub way: Way,
    /// Hub's outside, or the shaft's bore.
    pub far: Given<Length>,
    pub material: Option<Material>,
    pub friction: Option<Given<f64>>,
    pub roughness: Option<(Length, Length)>,
    pub gap: Length,
    pub room: Temperature,
}

impl Pressing {
    /// Key of the size that the press fit changes.
    const fn own(&self) -> &'static str {
        match self.way {
            Way::In => "bore",
            Way::On => "outside_diameter",
        }
    }

    /// Key and label of that size before pressing.
    const fn before(&self) -> (&'static str, &'static str) {
        match self.way {
            Way::In => ("bore_before_pressing", "bore to machine, before pressing"),
            Way::On => ("outside_before_pressing", "outside to machine, before it goes on"),
        }
    }
}

/// Reads `[pressed_in]` or `[slid_on]`; `None` when a problem was noted.
pub fn read(table: &Fields, place: &Workplace, way: Way) -> Option<Pressing> {
    let far = match way {
        Way::In => table.required_length(&HUB_OUTSIDE),
        Way::On if table.has(&SHAFT_BORE) => table.length(&SHAFT_BORE),
        Way::On => Some(Given { value: Length::ZERO, text: "solid".into(), span: 0..0 }),
    };
    let material =
        if table.has(&MATERIAL) { common::material(table, place, &MATERIAL, "").map(Some) } else { Some(None) };
    let own = table.length(&ROUGHNESS).map(|l| l.value);
    let other = table.length(&OTHER_ROUGHNESS).map(|l| l.value);
    Some(Pressing {
        way,
        far: far?,
        material: material?,
        friction: table.number(&FRICTION),
        roughness: own.or(other).map(|any| (own.unwrap_or(any), other.unwrap_or(any))),
        gap: table.length(&GAP).map_or(USUAL_GAP, |g| g.value),
        room: table.temperature(&ROOM).map_or(Temperature::REFERENCE, |t| t.value),
    })
}

const HOLDS: Check = Check {
    key: "press_holds",
    what: "least interference that is left to hold",
    worst: Verdict::Fail,
    source: Source::Derived(
        "limits of both parts (ISO 286-1), smoothing taken off (DIN 7190-1, from memory), both parts grown by heat and water",
    ),
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
pub fn work(design: &mut Design, s: &Spec, p: &Pressing, joint: &Joint, table: &Fields) -> Option<()> {
    let (what, goes, beside) = match p.way {
        Way::In => ("the hub", (s.outside.value * 1.02, s.outside.value * WIDEST_HUB), "the sleeve inside it"),
        Way::On => ("the bore of the shaft", (Length::ZERO, s.bore.value * 0.98), "the shaft"),
    };
    common::slip(design, Verdict::Caution, what, p.far.value, goes, beside);
    let written = Range { min: -joint.range.max_clearance, max: -joint.range.min_clearance };
    if written.max <= Length::ZERO {
        loose(design, p);
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

/// A fit that always leaves play holds nothing in a hub, and is what is wanted for a sleeve that only slides on.
fn loose(design: &mut Design, p: &Pressing) {
    let (verdict, because) = match p.way {
        Way::In => {
            (Verdict::Fail, "the fit leaves play at both ends of its tolerance: nothing holds the sleeve in its hub")
        }
        Way::On => (
            Verdict::Ok,
            "the fit leaves play at both ends of its tolerance: the sleeve slides on and is held by its ends",
        ),
    };
    design.finding(&HOLDS, verdict, None, None, because);
}

/// Outer part, inner part, and the joint.
pub fn press(s: &Spec, p: &Pressing) -> Press {
    let other = other(s, p).elastic;
    let (bore, outside) = (s.bore.value.rounded(), s.outside.value.rounded());
    let sleeve = s.common.material.elastic;
    let length = s.length.value.rounded();
    match p.way {
        Way::In => {
            Press { interface: outside, hub_outside: p.far.value, sleeve_bore: bore, length, hub: other, sleeve }
        }
        Way::On => Press {
            interface: bore,
            hub_outside: outside,
            sleeve_bore: p.far.value,
            length,
            hub: sleeve,
            sleeve: other,
        },
    }
}

/// Material of hub or shaft.
fn other<'s>(s: &'s Spec, p: &'s Pressing) -> &'s Material {
    let mating = match p.way {
        Way::In => s.housing.as_ref(),
        Way::On => s.shaft.as_ref(),
    };
    p.material.as_ref().or(mating.map(|m| &m.material)).unwrap_or(&s.common.material)
}

fn pressed(design: &mut Design, s: &Spec, p: &Pressing, written: Range<Length>) -> Result<(), MechanicsError> {
    let press = press(s, p);
    let (own, other) = p.roughness.unwrap_or_else(|| surface::of_the_joint(design, p.way));
    let loss = roughness_loss(other, own)?;
    // The tightest pair is taken as it is, the loosest with its peaks flattened: stress and grip both err to the safe side.
    let effective = Range { min: written.min - loss, max: written.max };
    let range = press.pressed_range(effective)?;
    design.computed_length(
        "interference_min",
        "least interference",
        written.min,
        "least shaft - greatest hole; negative: play",
    );
    design.computed_length("interference_max", "greatest interference", written.max, "greatest shaft - least hole");
    design.computed_length("smoothing", "interference lost by smoothing", loss, "0.8 (Rz1 + Rz2), Rz = 5 Ra");
    let asked = if p.roughness.is_some() { "written" } else { "this sheet asks for" };
    design.note(
        &SMOOTHED,
        format!(
            "Ra {} and {} µm, as {asked}; it is taken off the least interference only: measure the roughness where the grip decides",
            show::trimmed(own.as_um(), 2),
            show::trimmed(other.as_um(), 2)
        ),
    );
    let least = match range.min {
        Some(least) => least,
        None => press.pressed(Length::ZERO)?,
    };
    record(design, p, &least, &range.max);
    grip(design, p, &press, &least, &range.max)?;
    heat(design, s, p, &press, effective)?;
    service(design, s, p, &press, effective)?;
    yielding(design, s, p, &press, effective)?;
    before(design, s, p, &press, effective)?;
    pictures::stress(design, &press, effective.max)
}

fn record(design: &mut Design, p: &Pressing, least: &Pressed, most: &Pressed) {
    let stress = |d: &mut Design, key: &str, label: &str, a: Stress, b: Stress, formula: &'static str| {
        d.computed(&format!("{key}_min"), &format!("{label}, loosest pair"), Value::Stress(a), formula);
        d.computed(&format!("{key}_max"), &format!("{label}, tightest pair"), Value::Stress(b), formula);
    };
    stress(
        design,
        "pressure",
        "pressure in the joint",
        least.pressure,
        most.pressure,
        "Lame, interference on the diameter",
    );
    type At = fn(&Pressed) -> &WallStress;
    let pairs: [(&str, &str, At); 2] =
        [("outer", "outer part", |x| &x.hub_at_joint), ("inner", "inner part", |x| &x.sleeve_at_bore)];
    for (key, label, at) in pairs {
        stress(
            design,
            &format!("{key}_hoop"),
            &format!("hoop stress, {label} at its bore"),
            at(least).hoop,
            at(most).hoop,
            "p (Do^2 + D^2)/(Do^2 - D^2), or -2 p D^2/(D^2 - d^2)",
        );
        stress(
            design,
            &format!("{key}_equivalent"),
            &format!("equivalent stress, {label}"),
            at(least).mises,
            at(most).mises,
            "von Mises",
        );
    }
    let (key, label, a, b) = match p.way {
        Way::In => ("bore_closes", "bore closes by", least.bore_closes, most.bore_closes),
        Way::On => ("outside_grows", "outside grows by", least.outside_grows, most.outside_grows),
    };
    design.computed_length(&format!("{key}_min"), &format!("{label}, loosest pair"), a, "hoop stress x diameter/E");
    design.computed_length(&format!("{key}_max"), &format!("{label}, tightest pair"), b, "hoop stress x diameter/E");
}

/// Friction as written, or the range that is printed for pressing steel into steel.
fn friction_range(p: &Pressing) -> (f64, f64) {
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
    design.computed(
        "press_force",
        "force to press it, at most",
        Value::Force(force),
        "mu pi D L p, greatest friction and interference",
    );
    design.computed(
        "holding_force",
        "force that pushes it out, at least",
        Value::Force(press.axial_force(least.pressure, low)?),
        "mu pi D L p, least friction and interference",
    );
    design.computed(
        "holding_torque",
        "torque that slips it, at least",
        Value::Torque(press.torque(least.pressure, low)?),
        "mu pi D^2 L p/2, least friction and interference",
    );
    Ok(())
}

fn heat(
    design: &mut Design,
    s: &Spec,
    p: &Pressing,
    press: &Press,
    effective: Range<Length>,
) -> Result<(), MechanicsError> {
    let outer = if p.way == Way::In { other(s, p) } else { &s.common.material };
    let limit = outer.heat_limit();
    let heating = press.heat_hub(effective.max, p.gap, p.room, limit)?;
    let heated = if heating.beyond_limit { limit } else { heating.temperature };
    design.computed(
        "heat_to",
        "heat the outer part to",
        Value::Temperature(heated),
        "room + (interference + gap)/(expansion x D), no more than it stands",
    );
    // What the heat of the outer part leaves is taken from the inner one.
    let opened = press.interface * (press.hub.expansion * (heated - p.room));
    let left = if heating.beyond_limit { effective.max + p.gap - opened } else { effective.max + p.gap };
    let (key, label) = if heating.beyond_limit {
        ("cool_as_well_to", "and cool the inner part to")
    } else {
        ("cool_to", "or cool the inner part to")
    };
    if let Ok(cold) = press.cool_sleeve(left, Length::ZERO, p.room)
        && cold >= COLDEST
    {
        design.computed(key, label, Value::Temperature(cold), "room - what is left/(expansion x D)");
    }
    let because = match (heating.beyond_limit, outer.hardened) {
        (true, true) => {
            "so hot it would slip on, but a hard ring loses hardness when it is heated more: the steps cool the inner part as well, or press"
        }
        (true, false) => {
            "so hot it would slip on, but a hub heated more scales and distorts: the steps cool the inner part as well, or press"
        }
        (false, _) => "within what the outer part stands",
    };
    let verdict = if heating.beyond_limit { Verdict::Caution } else { Verdict::Ok };
    design.finding(
        if outer.hardened { &HEAT_HARD } else { &HEAT_SOFT },
        verdict,
        Some(Value::Temperature(heating.temperature)),
        Limit::AtMost(Value::Temperature(limit)),
        because,
    );
    Ok(())
}

/// The press fit in service: how much each part grows, inner and outer, in that state.
fn grown(press: &Press, s: &Spec, p: &Pressing, service: &Service, interference: Length, state: State) -> Length {
    let [own, far] = [&s.common.material, other(s, p)].map(|m| service.strain(m, state));
    match p.way {
        Way::In => press.interference_grown(interference, own, far),
        Way::On => press.interference_grown(interference, far, own),
    }
}

/// What is left to hold at 20 °C and in service: least of the loosest pair, where its peaks are flattened, and where.
fn service(
    design: &mut Design,
    s: &Spec,
    p: &Pressing,
    press: &Press,
    effective: Range<Length>,
) -> Result<(), MechanicsError> {
    let service = Service::of(s);
    let at = |interference, state| grown(press, s, p, &service, interference, state);
    if let Some(t) = &s.service {
        let state = service::dry(t.value);
        for (key, label, interference) in [
            ("interference_at_service_min", "least interference at the service temperature", effective.min),
            ("interference_at_service_max", "greatest interference at the service temperature", effective.max),
        ] {
            let formula = "interference + D (a_inner - a_outer)(t - 20 C)";
            design.computed_length(key, label, at(interference, state), formula);
        }
    }
    let looses = if effective.min > Length::ZERO { press.loose_at(effective.min)? } else { None };
    if let Some(loose) = looses {
        design.computed(
            "loose_at",
            "temperature at which the loosest pair comes loose",
            Value::Temperature(loose),
            "20 C + least interference left/(D (a_outer - a_inner))",
        );
    }
    let states = || service.states().chain([service::dry(Temperature::REFERENCE)]);
    let least = |interference| {
        let all = states().map(|state| (at(interference, state), state));
        all.reduce(|a, b| if b.0 < a.0 { b } else { a })
    };
    let (Some((left, state)), Some((most, _))) = (least(effective.min), least(effective.max)) else { return Ok(()) };
    let verdict = match (most <= Length::ZERO, left.rounded() <= Length::ZERO) {
        (true, _) => Verdict::Fail,
        (false, true) => Verdict::Caution,
        (false, false) => Verdict::Ok,
    };
    let because = held(&service, verdict, effective.min, state);
    design.finding(
        &HOLDS,
        verdict,
        Some(Value::Length(left.rounded())),
        Limit::AtLeast(Value::Length(Length::ZERO)),
        because,
    );
    Ok(())
}

/// Whether it holds, in words.
fn held(service: &Service, verdict: Verdict, least: Length, state: State) -> String {
    const SECURE: &str = "measure both and pair them, make the joint smoother, choose a tighter class, or secure the sleeve with a screw or retaining compound";
    let (said, when) = (service.said(), service.when(state));
    match verdict {
        Verdict::Ok => format!("even the loosest pair stays tight {said}"),
        Verdict::Fail => {
            format!("even the tightest pair of parts comes loose {when}, where it must hold {said}: a tighter class")
        }
        Verdict::Caution if least <= Length::ZERO => {
            format!("the loosest pair of parts is not held once its peaks are flattened: {SECURE}")
        }
        Verdict::Caution => {
            format!("the loosest pair of parts comes loose {when}, where it must hold {said}: {SECURE}")
        }
    }
}

/// Equivalent stresses against the yield strengths, at the worst of 20 °C and service.
fn yielding(
    design: &mut Design,
    s: &Spec,
    p: &Pressing,
    press: &Press,
    effective: Range<Length>,
) -> Result<(), MechanicsError> {
    let service = Service::of(s);
    let tightest = service
        .states()
        .map(|state| grown(press, s, p, &service, effective.max, state))
        .fold(effective.max, Length::max);
    let worst = press.pressed(tightest)?;
    let (hub, sleeve) = match p.way {
        Way::In => (other(s, p), &s.common.material),
        Way::On => (&s.common.material, other(s, p)),
    };
    let parts = [
        (&HUB_YIELD, Part::Hub, hub, worst.hub_at_joint.mises),
        (&SLEEVE_YIELD, Part::Sleeve, sleeve, worst.sleeve_at_bore.mises),
    ];
    for (check, part, material, stress) in parts {
        let Some(limit) = material.yield_strength else {
            let because = format!("no yield strength is known for {}: write it into shop.toml", material.name);
            design.finding(check, Verdict::Caution, Some(Value::Stress(stress)), None, because);
            continue;
        };
        let because = if stress > limit {
            // What heat adds is taken off: classes are compared at 20 °C.
            let stands = press.interference_at_yield(part, limit)? - (tightest - effective.max);
            format!(
                "tightest pair {}, against the yield strength of {}: it yields, the interference is not kept and the sizes given here no longer hold. {}",
                service.said(),
                material.name,
                remedy(design, s, p, stands, stress)
            )
        } else {
            format!(
                "tightest pair {}, against the yield strength of {}; where it yields the interference is not kept and the sizes given here no longer hold",
                service.said(),
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

/// What would keep a part from yielding: a looser class of the sleeve against the same partner, or a stronger material.
fn remedy(design: &Design, s: &Spec, p: &Pressing, stands: Length, stress: Stress) -> String {
    let unit = s.common.header.unit;
    let text = |l: Length| show::length_both(l.rounded(), unit);
    let stronger = format!("a material that yields above {}", show::value(&Value::Stress(stress), unit));
    let looser = looser_class(design, p, stands).map(|(class, tight)| {
        let smoothed = match design.dimension("smoothing").map(|d| &d.value) {
            Some(Value::Length(l)) => *l,
            _ => Length::ZERO,
        };
        let held = if tight.min > smoothed {
            ""
        } else {
            ", but its loosest pair is not held by the fit: add a screw or retaining compound"
        };
        format!("{class} (at most {}{held}), ", text(tight.max))
    });
    format!(
        "It stands {} of interference: {}or {stronger}, or a thicker wall",
        text(stands),
        looser.unwrap_or_default()
    )
}

/// The tightest usual class of the sleeve's pressed surface whose greatest interference with the partner as it is stays
/// within `stands`, and the interference that it gives.
fn looser_class(design: &Design, p: &Pressing, stands: Length) -> Option<(String, Range<Length>)> {
    let (own, partner, letters, grade) = match p.way {
        Way::In => ("outside_diameter", "housing_diameter", ["s", "r", "p", "n", "m", "k"], 6),
        Way::On => ("bore", "shaft_diameter", ["S", "R", "P", "N", "M", "K"], 7),
    };
    let length = |d: &crate::record::design::Dimension| match d.value {
        Value::Length(l) => Some(l),
        _ => None,
    };
    let nominal = length(design.dimension(own)?)?;
    let other = design.dimension(partner)?;
    let other = match &other.limits {
        Some(l) => Range { min: l.lower, max: l.upper },
        None => length(other).map(|l| Range { min: l, max: l })?,
    };
    letters.iter().find_map(|letter| {
        let class = format!("{letter}{grade}");
        let l = ToleranceClass::parse(&class).ok().and_then(|c| iso286::limits(nominal, c).ok())?;
        let (lower, upper) = (nominal + l.lower, nominal + l.upper);
        let tight = match p.way {
            Way::In => Range { min: lower - other.max, max: upper - other.min },
            Way::On => Range { min: other.min - upper, max: other.max - lower },
        };
        (tight.max <= stands && tight.max > Length::ZERO).then_some((class, tight))
    })
}

/// Stock left for finishing after pressing on the diameter, at least, and the grade to which is machined before:
/// reamed or bored where soft, honed or ground where hard. Source: common practice, no source.
const STOCK_SOFT: (Length, i8) = (Length::mm(0.1), 9);
const STOCK_HARD: (Length, i8) = (Length::mm(0.03), 7);

/// Bore or outside to machine before pressing: so that it ends inside its limits, where what is left of its tolerance
/// can be held; else so that it can be finished after pressing.
fn before(
    design: &mut Design,
    s: &Spec,
    p: &Pressing,
    press: &Press,
    effective: Range<Length>,
) -> Result<(), MechanicsError> {
    let Some(finished) = limits_of(design, p.own()) else { return Ok(()) };
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
    s: &Spec,
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
    design.computed_length(LEFT.0, "to take off after pressing, at least", least, "common practice, no source");
    let formula = "finished size - size before + what the press fit closes, or grows, at most";
    design.computed_length(LEFT.1, "to take off after pressing, at most", most, formula);
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

/// Keys of what is left to take off after pressing, least and greatest.
const LEFT: (&str, &str) = ("finish_after_pressing_min", "finish_after_pressing_max");

fn limits_of(design: &Design, key: &str) -> Option<Range<Length>> {
    design.dimension(key).and_then(|d| d.limits.as_ref()).map(|l| Range { min: l.lower, max: l.upper })
}

fn record_before(design: &mut Design, p: &Pressing, limits: Range<Length>, by: String) {
    let (key, label) = p.before();
    design.computed_length(
        key,
        label,
        (limits.min + limits.max) / 2.0,
        "finished size corrected by what the press fit closes or grows",
    );
    let (lower, upper) = (limits.min.rounded(), limits.max.rounded());
    design.limit(key, Limits { lower, upper, by, confirmed: Confirmed::TwoOrMore });
    design.principal(&[key]);
    design.relabel(p.own(), if p.way == Way::In { "bore, after pressing" } else { "outside diameter, after it is on" });
}

/// The coldest that an inner part is made: liquid nitrogen. Source: common practice, no source.
const COLDEST: Temperature = Temperature::celsius(-190.0);

/// Whether heat alone would have to be more than the outer part stands.
fn beyond(design: &Design) -> bool {
    design.findings.iter().any(|f| f.key == HEAT_HARD.key && f.verdict != Verdict::Ok)
}

/// The steps that put it together.
pub fn steps(design: &mut Design, s: &Spec, p: &Pressing) {
    let unit = s.common.header.unit;
    let said = |d: &Design, key: &str| d.dimension(key).map(|x| show::value(&x.value, unit));
    let (Some(heat), Some(force)) = (said(design, "heat_to"), said(design, "press_force")) else { return };
    let left = [LEFT.0, LEFT.1].map(|key| match design.dimension(key).map(|d| &d.value) {
        Some(Value::Length(l)) => Some(show::length_both(*l, unit)),
        _ => None,
    });
    let warm = match (said(design, "cool_as_well_to"), said(design, "cool_to")) {
        (Some(cold), _) => {
            design.caution(
                "Dry ice and liquid gases burn skin and drive the air out of a room: gloves, goggles, an open door.",
            );
            format!(
                "Heat the outer part to {heat}, no more, cool the inner part to {cold} as well and drop it together"
            )
        }
        (None, _) if beyond(design) => "No heat that the outer part stands lets it drop together".to_string(),
        (None, _) => format!("Heat the outer part to {heat} and drop it together"),
    };
    let together = format!(
        "Lead-in chamfer on both parts, oil the joint. {warm}, or press with up to {force}; straight, in one go."
    );
    let (own, with) = (p.own(), if p.way == Way::In { "bore gauge" } else { "micrometer" });
    match left {
        [Some(least), Some(most)] => {
            design.step("bench", format!("{together} Let it get cold before anything is measured."));
            let hard = s.common.material.hardened;
            let (at, how) = match (hard, p.way) {
                (true, Way::In) => ("grinder", "hone or grind the bore"),
                (true, Way::On) => ("grinder", "grind the outside"),
                (false, Way::In) => ("bench", "ream or bore the bore"),
                (false, Way::On) => ("lathe", "turn the outside"),
            };
            let between = common::between(design, own);
            design.step(at, format!("After pressing: {how} to size, {between}; {least} to {most} is left on the diameter. Break the edge again and wash the chips out.")).measure(own, with);
        }
        _ => {
            let ended = if limits_of(design, p.before().0).is_some() {
                " Measure again when it is cold: machined to its limits before, it has ended inside these."
            } else {
                ""
            };
            design.step("bench", format!("{together}{ended}")).measure(own, with);
        }
    }
    design.caution("Hot metal looks like cold metal: gloves and tongs, and a mark on it. Stand beside a press, not in front of it; a part that cocks flies.");
}
