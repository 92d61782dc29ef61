//! What runs in a bush: pressure, speed, clearance cold and warm, friction and wear.

use crate::description::Fields;
use crate::families::common;
use crate::families::common::ring::fit::Joint;
use crate::families::common::ring::service::{Service, Worked};
use crate::formulas::plain_bearing::{self, Motion};
use crate::formulas::{MechanicsError, Range};
use crate::record::design::{Design, Value};
use crate::shop::by_unit;
use crate::standards::bushings::{self, Bushing};
use crate::units::{CuttingSpeed, Force, Length, Stress};

use super::read::{self, Spec, Washer};
use super::sizes;

/// The worked answer, for the findings that come after all sizes are recorded.
pub struct Running {
    /// What the material bears, where it is known as a bush.
    pub material: Option<&'static Bushing>,
    pub load: Force,
    pub pressure: Stress,
    pub allowed: Option<Stress>,
    pub speed: Option<CuttingSpeed>,
    pub pressure_speed: Option<f64>,
    pub pressure_speed_allowed: Option<f64>,
    /// Running clearance at 20 °C.
    pub clearance: Range<Length>,
    /// The least of it over all temperatures.
    pub least: Length,
    pub friction: Option<(f64, f64)>,
    /// Hours until it is worn, where it is known.
    pub life: Option<f64>,
    pub shaft_hv: Option<f64>,
    pub washer: Option<Thrust>,
}

/// What the washer bears.
pub struct Thrust {
    pub pressure: Stress,
    pub pressure_speed: Option<f64>,
}

/// What dirt does to the wear factor, the worse end of the printed range.
/// Source: Shigley, Mechanical Engineering Design, table 12-7, foreign matter: 3 to 6, from memory.
pub const DIRT: f64 = 6.0;

/// Works out and records everything that runs; `None` when a problem was noted.
pub fn work(design: &mut Design, s: &Spec, fits: &[Joint], fields: &Fields) -> Option<Running> {
    let running = worked(design, s, fits);
    running.map_err(|error| fields.problem_at(&read::RUNS, error.to_string(), None)).ok()?
}

fn worked(design: &mut Design, s: &Spec, fits: &[Joint]) -> Result<Option<Running>, MechanicsError> {
    let (ring, r) = (&s.ring, &s.runs);
    let material = bushings::bushing(&ring.common.material.name);
    let shock = r.shock.as_ref().map_or(1.0, |k| k.value);
    given(design, s);
    let load = r.load.value * shock;
    let bears =
        design.computed_length(&sizes::BEARING_LENGTH, bears(s), "length - chamfers of the bore - groove in it");
    let pressure = plain_bearing::pressure(load, ring.bore.value, bears)?;
    design.computed(&sizes::BEARING_PRESSURE, Value::Stress(pressure), "load x shock/(bore x length that bears)");
    let ratio = ring.length.value / ring.bore.value;
    design.computed(&sizes::LENGTH_TO_BORE, Value::Number((ratio * 100.0).round() / 100.0), "L/d");
    let allowed = allowed_pressure(design, s, material);
    let motion = r.motion();
    let speed = motion.map(|m| m.speed(ring.bore.value)).transpose()?;
    let pressure_speed = speed.map(|v| plain_bearing::pressure_speed(pressure, v));
    if let (Some(v), Some(pv)) = (speed, pressure_speed) {
        let formula = if matches!(motion, Some(Motion::Turns(_))) { "pi d n" } else { "swing x d x swings a minute" };
        design.computed(&sizes::SLIDING_SPEED, Value::Number(thousandth(v.as_m_per_min())), formula);
        design.computed(&sizes::PRESSURE_SPEED, Value::Number(ten_thousandth(pv)), "p v");
    }
    let pressure_speed_allowed = allowed_pressure_speed(design, s, material);
    let Some((clearance, least)) = clearances(design, s, fits) else { return Ok(None) };
    let friction = friction(design, s, material, load, speed);
    let life = life(design, s, material, (pressure, speed), clearance)?;
    let shaft_hv = shaft(design, s);
    let washer = washer(design, s, motion)?;
    Ok(Some(Running {
        material,
        load,
        pressure,
        allowed,
        speed,
        pressure_speed,
        pressure_speed_allowed,
        clearance,
        least,
        friction,
        life,
        shaft_hv,
        washer,
    }))
}

fn thousandth(x: f64) -> f64 {
    (x * 1e3).round() / 1e3
}

fn ten_thousandth(x: f64) -> f64 {
    (x * 1e4).round() / 1e4
}

fn given(design: &mut Design, s: &Spec) {
    let r = &s.runs;
    design.given(&read::LOAD, &r.load, Value::Force);
    if let Some(shock) = &r.shock {
        design.given(&read::SHOCK, shock, Value::Number);
    }
    if let Some(turns) = &r.turns {
        design.given(&read::TURNS, turns, Value::Number);
    }
    if let Some((swing, often)) = &r.swing {
        design.given(&read::SWING, swing, Value::Angle);
        design.given(&read::SWINGS, often, Value::Number);
    }
    if let Some(width) = &s.straight {
        design.given_length(&read::STRAIGHT_GROOVE, width);
        let formula = "three quarters of the bush: it stops short of both ends; common practice, no source";
        design.computed_length(&sizes::STRAIGHT_GROOVE_LENGTH, s.ring.length.value * 0.75, formula);
    }
}

/// The length that bears: less the edges and a groove in the bore.
fn bears(s: &Spec) -> Length {
    let edges = s.ring.bore_chamfer.as_ref().map_or(Length::ZERO, |c| c.value) * 2.0;
    let groove = s.ring.groove.as_ref().filter(|g| g.inside).map_or(Length::ZERO, |g| g.width.value);
    s.ring.length.value - edges - groove
}

fn allowed_pressure(design: &mut Design, s: &Spec, material: Option<&Bushing>) -> Option<Stress> {
    if let Some(given) = &s.runs.pressure {
        design.computed(&sizes::PRESSURE_ALLOWED, Value::Stress(given.value), "as written");
        return Some(given.value);
    }
    let (pressure, _, source) = material?.pressure;
    design.assumed(&sizes::PRESSURE_ALLOWED, Value::Stress(pressure), source);
    Some(pressure)
}

fn allowed_pressure_speed(design: &mut Design, s: &Spec, material: Option<&Bushing>) -> Option<f64> {
    if let Some(given) = &s.runs.pressure_speed {
        design.computed(&sizes::PRESSURE_SPEED_ALLOWED, Value::Number(given.value), "as written");
        return Some(given.value);
    }
    let (pv, _, source) = material?.pressure_speed;
    design.assumed(&sizes::PRESSURE_SPEED_ALLOWED, Value::Number(thousandth(pv)), source);
    Some(thousandth(pv))
}

/// Running clearance at 20 °C, and the least of it over all temperatures; `None` where the fit could not be told.
fn clearances(design: &mut Design, s: &Spec, fits: &[Joint]) -> Option<(Range<Length>, Length)> {
    let joint = fits.iter().find(|j| j.at_bore())?;
    let service = Service::of(&s.ring);
    let worked = Worked::of(&s.ring, &service, joint, fits)?;
    let [cold, warm] = worked.ends();
    let formula = "clearance at 20 C + D (a_bush - a_shaft)(t - 20 C), less what the housing holds back";
    for (size, length) in [
        (&sizes::CLEARANCE_COLDEST_MIN, cold.0),
        (&sizes::CLEARANCE_COLDEST_MAX, cold.1),
        (&sizes::CLEARANCE_WARMEST_MIN, warm.0),
        (&sizes::CLEARANCE_WARMEST_MAX, warm.1),
    ] {
        design.computed_length(size, length, formula);
    }
    let range = Range { min: joint.range.min_clearance, max: joint.range.max_clearance };
    Some((range, cold.0.min(warm.0).min(range.min).rounded()))
}

fn friction(
    design: &mut Design,
    s: &Spec,
    material: Option<&Bushing>,
    load: Force,
    speed: Option<CuttingSpeed>,
) -> Option<(f64, f64)> {
    let written = s.runs.friction.as_ref().map(|f| (f.value, f.value));
    let (least, most) = written.or_else(|| material.map(|m| m.friction.0))?;
    let source = if written.is_some() { "mu F d/2, mu as written" } else { "mu F d/2, mu of the material" };
    for (size, mu) in [(&sizes::FRICTION_TORQUE_MIN, least), (&sizes::FRICTION_TORQUE_MAX, most)] {
        let torque = plain_bearing::friction_torque(load, mu, s.ring.bore.value);
        design.computed(size, Value::Torque(torque), source);
    }
    if let Some(speed) = speed {
        let watts = plain_bearing::friction_watts(load, most, speed);
        design.computed(&sizes::FRICTION_HEAT, Value::Number((watts * 100.0).round() / 100.0), "mu F v");
    }
    Some((least, most))
}

/// Hours until it is worn; `None` where it does not move or no wear factor is known.
fn life(
    design: &mut Design,
    s: &Spec,
    material: Option<&Bushing>,
    (pressure, speed): (Stress, Option<CuttingSpeed>),
    clearance: Range<Length>,
) -> Result<Option<f64>, MechanicsError> {
    let Some(speed) = speed else { return Ok(None) };
    let written = s.runs.wear_factor.as_ref().map(|k| (k.value, "as written"));
    let known = material.and_then(|m| m.wear_factor).map(|(k, _, source)| (k, source));
    if let Some(hours) = &s.runs.hours {
        design.given(&read::HOURS, hours, Value::Number);
    }
    let Some((factor, source)) = written.or(known) else { return Ok(None) };
    let shown = Value::Number(thousandth(factor * 1e6));
    match written {
        Some(_) => design.computed(&sizes::WEAR_FACTOR, shown, source),
        None => design.assumed(&sizes::WEAR_FACTOR, shown, source),
    }
    let usual = clearance.max.max(Length::um(1.0));
    let wear = design.length_or(&read::WEAR, s.runs.wear.as_ref(), usual, "as much as the greatest clearance is new");
    let dirt = if s.runs.dirt { DIRT } else { 1.0 };
    let hours = plain_bearing::wear_life(wear, factor * dirt, pressure, speed)?;
    let formula = if s.runs.dirt { "w/(6 k (4/pi) p v)" } else { "w/(k (4/pi) p v)" };
    let hours = whole_hours(hours);
    design.computed(&sizes::WEAR_LIFE, Value::Number(hours), formula);
    Ok(Some(hours))
}

/// Three figures are more than anybody knows of wear.
fn whole_hours(hours: f64) -> f64 {
    let step = libm::pow(10.0, libm::floor(libm::log10(hours)) - 2.0);
    (hours / step).round() * step
}

fn shaft(design: &mut Design, s: &Spec) -> Option<f64> {
    let shaft = s.ring.shaft.as_ref()?;
    let written = s.runs.shaft_hardness.as_ref().and_then(|h| h.value.vickers().ok());
    let hv = written.or(shaft.material.hardness_hv)?.round();
    match written {
        Some(_) => design.computed(&sizes::SHAFT_HARDNESS_HV, Value::Number(hv), "as measured"),
        None => design.assumed(&sizes::SHAFT_HARDNESS_HV, Value::Number(hv), "the material's: nothing is measured"),
    }
    Some(hv)
}

/// Bore of the washer: as written, or half a millimetre over the bore of the bush, so that it clears the shaft.
pub fn washer_bore(s: &Spec, w: &Washer) -> Length {
    let over = by_unit(s.ring.common.header.unit, 0.5, 0.02);
    w.bore.as_ref().map_or(s.ring.bore.value + over, |b| b.value)
}

fn washer(design: &mut Design, s: &Spec, motion: Option<Motion>) -> Result<Option<Thrust>, MechanicsError> {
    let Some(w) = &s.washer else { return Ok(None) };
    design.written_length(&sizes::WASHER_OUTSIDE, &w.outside);
    let bore = match &w.bore {
        Some(given) => {
            design.written_length(&sizes::WASHER_BORE, given);
            given.value
        }
        None => design.computed_length(&sizes::WASHER_BORE, washer_bore(s, w), "bore of the bush + 0.5 mm (0.02 in)"),
    };
    design.written_length(&sizes::WASHER_THICKNESS, &w.thickness);
    common::general_limits(
        design,
        &s.ring.common,
        &[&sizes::WASHER_OUTSIDE, &sizes::WASHER_BORE, &sizes::WASHER_THICKNESS],
    );
    let Some(load) = &w.load else { return Ok(None) };
    design.computed(&sizes::WASHER_LOAD, Value::Force(load.value), "as written");
    let pressure = plain_bearing::thrust_pressure(load.value, bore, w.outside.value)?;
    design.computed(&sizes::WASHER_PRESSURE, Value::Stress(pressure), "4 F/(pi (D^2 - d^2))");
    let rubs = plain_bearing::rubbing_diameter(bore, w.outside.value)?;
    let speed = motion.map(|m| m.speed(rubs)).transpose()?;
    let pressure_speed = speed.map(|v| ten_thousandth(plain_bearing::pressure_speed(pressure, v)));
    if let Some(pv) = pressure_speed {
        let formula = "p v at (2/3)(D^3 - d^3)/(D^2 - d^2)";
        design.computed(&sizes::WASHER_PRESSURE_SPEED, Value::Number(pv), formula);
    }
    Ok(Some(Thrust { pressure, pressure_speed }))
}
