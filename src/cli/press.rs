//! `press`: a sleeve in a hub or a ring on a shaft, from sizes and interference.

use std::io::{self, Write};
use std::path::PathBuf;

use clap::Args;
use serde_json::{Value as Json, json};

use super::{Exit, read, reading, rounded, wrong};
use crate::export::json::to_text;
use crate::export::text::aligned;
use crate::formulas::press_fit::{COLDEST, Press, Pressed, roughness_loss};
use crate::formulas::{Elastic, Range};
use crate::record::design::Value;
use crate::record::show;
use crate::shop::{Material, Shop};
use crate::standards::fitting;
use crate::units::{Force, Length, LengthUnit, Stress, Temperature, Torque};

/// Arguments of `press`.
#[derive(Args)]
#[command(
    after_help = "Examples:\n  setdown press --interface 40mm --hub-outside 70mm --bore 25mm --length 30mm --interference 20um 45um\n  setdown press --interface 30mm --hub-outside 60mm --bore 25mm --length 20mm --fit H7/p6 --sleeve-material 'bronze C93200'\n\nThe first figure of each pair belongs to the least interference, the second to the greatest."
)]
pub struct PressCall {
    /// Diameter of the joint
    #[arg(long, value_parser = read::size)]
    interface: Length,
    /// Outside diameter of the outer part
    #[arg(long, value_parser = read::size)]
    hub_outside: Length,
    /// Bore of the inner part; 0 for a solid shaft
    #[arg(long, default_value = "0 mm", value_parser = read::not_negative)]
    bore: Length,
    /// Length of the joint
    #[arg(long, value_parser = read::size)]
    length: Length,
    /// Interference on the diameter: one figure, or least and greatest (0 where it may just touch)
    #[arg(long, num_args = 1..=2, value_parser = read::not_negative, conflicts_with = "fit", required_unless_present = "fit")]
    interference: Vec<Length>,
    /// Classes of hole and shaft, such as H7/p6, instead of the interference
    #[arg(long)]
    fit: Option<String>,
    /// Coefficient of friction
    #[arg(long, default_value_t = 0.12)]
    friction: f64,
    /// Material of the outer part
    #[arg(long, default_value = "steel S235")]
    hub_material: String,
    /// Material of the inner part
    #[arg(long, default_value = "steel S235")]
    sleeve_material: String,
    /// Young's modulus of the outer part, such as '206 GPa', instead of its material's
    #[arg(long, value_parser = read::stress)]
    hub_modulus: Option<Stress>,
    /// Poisson's ratio of the outer part
    #[arg(long)]
    hub_poisson: Option<f64>,
    /// Young's modulus of the inner part
    #[arg(long, value_parser = read::stress)]
    sleeve_modulus: Option<Stress>,
    /// Poisson's ratio of the inner part
    #[arg(long)]
    sleeve_poisson: Option<f64>,
    /// Roughness Ra of both parts, outer one first, such as '1.6 um' '0.8 um'; one figure for both. The peaks are flattened
    /// and the least interference shrinks
    #[arg(long, num_args = 1..=2, value_parser = read::not_negative)]
    roughness: Vec<Length>,
    /// Play wanted while the hot part goes on
    #[arg(long, default_value = "0.03 mm", value_parser = read::not_negative)]
    gap: Length,
    /// Temperature of the room, from which the outer part is heated
    #[arg(long, default_value = "20 C", value_parser = read::temperature, allow_hyphen_values = true)]
    room: Temperature,
    /// Shop file with materials of your own
    #[arg(long)]
    shop: Option<PathBuf>,
    /// Print JSON
    #[arg(long)]
    json: bool,
}

/// What is printed, at the least and at the greatest interference.
struct Answer {
    interference: Range<Length>,
    /// What flattened peaks take off the least interference; `None` where no roughness was told.
    smoothing: Option<Length>,
    ends: [End; 2],
    heat_to: Temperature,
    /// To what the inner part is cooled beside a hub as hot as it may be; `None` where that is not needed or not enough.
    cool_as_well: Option<Temperature>,
    friction: f64,
    hub: Material,
    sleeve: Material,
}

/// Everything at one interference.
struct End {
    pressed: Pressed,
    force: Force,
    torque: Torque,
}

/// `press`.
pub fn press(call: &PressCall, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    let shop = match reading::shop_or_usual(call.shop.as_deref(), err)? {
        Ok(shop) => shop,
        Err(exit) => return Ok(exit),
    };
    let answer = match answer(call, &shop) {
        Ok(answer) => answer,
        Err(message) => return wrong(err, message),
    };
    let exit = if fails(&answer) { Exit::Fails } else { Exit::Fine };
    if call.json {
        return write!(out, "{}", to_text(&as_json(&answer))).map(|()| exit);
    }
    for line in aligned(&rows(&answer)) {
        writeln!(out, "{line}")?;
    }
    for line in remarks(&answer) {
        writeln!(out, "{line}")?;
    }
    Ok(exit)
}

fn answer(call: &PressCall, shop: &Shop) -> Result<Answer, String> {
    let (hub, sleeve) = (shop.material(&call.hub_material)?, shop.material(&call.sleeve_material)?);
    let own = |m: &Material, modulus: Option<Stress>, poisson: Option<f64>| Elastic {
        youngs_modulus: modulus.unwrap_or(m.elastic.youngs_modulus),
        poisson: poisson.unwrap_or(m.elastic.poisson),
        expansion: m.elastic.expansion,
    };
    let press = Press {
        interface: call.interface,
        hub_outside: call.hub_outside,
        sleeve_bore: call.bore,
        length: call.length,
        hub: own(&hub, call.hub_modulus, call.hub_poisson),
        sleeve: own(&sleeve, call.sleeve_modulus, call.sleeve_poisson),
    };
    let interference = interference(call)?;
    let said = |error: crate::formulas::MechanicsError| error.to_string();
    let smoothing = match call.roughness.as_slice() {
        [] => None,
        [hub, rest @ ..] => {
            let sleeve = rest.first().unwrap_or(hub);
            Some(roughness_loss(*hub, *sleeve).map_err(said)?)
        }
    };
    let left = Range { min: interference.min - smoothing.unwrap_or(Length::ZERO), max: interference.max };
    let range = press.pressed_range(left).map_err(said)?;
    let least = range.min.map_or_else(|| press.pressed(Length::ZERO), Ok).map_err(said)?;
    let end = |pressed: Pressed| -> Result<End, String> {
        let force = press.axial_force(pressed.pressure, call.friction).map_err(said)?;
        let torque = press.torque(pressed.pressure, call.friction).map_err(said)?;
        Ok(End { pressed, force, torque })
    };
    let heating = press.heat_hub(interference.max, call.gap, call.room, hub.heat_limit()).map_err(said)?;
    let limit = hub.heat_limit();
    let opens = call.interface * (press.hub.expansion * (limit - call.room));
    let lacking = interference.max + call.gap - opens;
    let cold = press.cool_sleeve(lacking.max(Length::ZERO), Length::ZERO, call.room).ok();
    Ok(Answer {
        cool_as_well: cold.filter(|cold| heating.beyond_limit && *cold >= COLDEST),
        interference,
        smoothing,
        ends: [end(least)?, end(range.max)?],
        heat_to: heating.temperature,
        friction: call.friction,
        hub,
        sleeve,
    })
}

/// As measured or wanted, or what the classes give.
fn interference(call: &PressCall) -> Result<Range<Length>, String> {
    if let Some(fit) = &call.fit {
        let range = fitting::by_class(call.interface, fit)?
            .range
            .ok_or("a fit has a hole and a shaft, such as H7/p6".to_string())?;
        if range.min_clearance >= Length::ZERO {
            return Err(format!("the fit {fit} always leaves play: nothing is pressed"));
        }
        return Ok(Range { min: -range.max_clearance, max: -range.min_clearance });
    }
    match call.interference.as_slice() {
        [one] => Ok(Range { min: *one, max: *one }),
        [least, greatest] => Ok(Range { min: *least, max: *greatest }),
        _ => Err("an interference or a fit is missing, such as --interference 20um 45um or --fit H7/p6".into()),
    }
}

fn as_json(a: &Answer) -> Json {
    let [least, greatest] = &a.ends;
    let [(_, hub, hub_stress), (_, sleeve, sleeve_stress)] = parts_at_most(a);
    let pair = |of: &dyn Fn(&End) -> f64| json!({ "min": rounded(of(least)), "max": rounded(of(greatest)) });
    json!({
        "interference_um": { "min": rounded(a.interference.min.as_um()), "max": rounded(a.interference.max.as_um()) },
        "smoothing_um": a.smoothing.map(|l| rounded(l.as_um())),
        "pressure_mpa": pair(&|e| e.pressed.pressure.as_mpa()),
        "hub_hoop_mpa": pair(&|e| e.pressed.hub_at_joint.hoop.as_mpa()),
        "sleeve_hoop_mpa": pair(&|e| e.pressed.sleeve_at_bore.hoop.as_mpa()),
        "hub_equivalent_mpa": pair(&|e| e.pressed.hub_at_joint.mises.as_mpa()),
        "sleeve_equivalent_mpa": pair(&|e| e.pressed.sleeve_at_bore.mises.as_mpa()),
        "bore_closes_um": pair(&|e| e.pressed.bore_closes.as_um()),
        "outside_grows_um": pair(&|e| e.pressed.outside_grows.as_um()),
        "force_n": pair(&|e| e.force.as_newtons()),
        "torque_nm": pair(&|e| e.torque.as_newton_metres()),
        "heat_to_c": rounded(a.heat_to.as_celsius()),
        "cool_as_well_to_c": a.cool_as_well.map(|t| rounded(t.as_celsius())),
        "hub_yields": yields(hub, hub_stress),
        "sleeve_yields": yields(sleeve, sleeve_stress),
    })
}

/// Whether the equivalent stress is beyond the yield strength; `None` where that is not known.
fn yields(material: &Material, equivalent: Stress) -> Option<bool> {
    material.yield_strength.map(|limit| equivalent > limit)
}

/// Both parts with their equivalent stress at the greatest interference, the outer one first.
fn parts_at_most(a: &Answer) -> [(&'static str, &Material, Stress); 2] {
    let [_, greatest] = &a.ends;
    [
        ("outer", &a.hub, greatest.pressed.hub_at_joint.mises),
        ("inner", &a.sleeve, greatest.pressed.sleeve_at_bore.mises),
    ]
}

/// Whether a part yields at the greatest interference.
fn fails(a: &Answer) -> bool {
    parts_at_most(a).into_iter().any(|(_, material, equivalent)| yields(material, equivalent) == Some(true))
}

fn micrometres(length: Length) -> String {
    format!("{} µm", show::trimmed(length.as_um(), 1))
}

fn rows(a: &Answer) -> Vec<Vec<String>> {
    let [least, greatest] = &a.ends;
    let text = |v: Value| show::value(&v, LengthUnit::Mm);
    let row = |what: &str, of: &dyn Fn(&End) -> Value| vec![what.to_string(), text(of(least)), text(of(greatest))];
    let fine = |what: &str, least: Length, most: Length| vec![what.to_string(), micrometres(least), micrometres(most)];
    vec![
        fine("interference", a.interference.min, a.interference.max),
        row("pressure in the joint", &|e| Value::Stress(e.pressed.pressure)),
        row("outer part: hoop stress at the joint", &|e| Value::Stress(e.pressed.hub_at_joint.hoop)),
        row("outer part: equivalent stress (von Mises)", &|e| Value::Stress(e.pressed.hub_at_joint.mises)),
        row("inner part: hoop stress at the bore", &|e| Value::Stress(e.pressed.sleeve_at_bore.hoop)),
        row("inner part: equivalent stress (von Mises)", &|e| Value::Stress(e.pressed.sleeve_at_bore.mises)),
        fine("bore closes by", least.pressed.bore_closes, greatest.pressed.bore_closes),
        fine("outside grows by", least.pressed.outside_grows, greatest.pressed.outside_grows),
        row("force to press, and to push out", &|e| Value::Force(e.force)),
        row("torque that slips it", &|e| Value::Torque(e.torque)),
    ]
}

fn remarks(a: &Answer) -> Vec<String> {
    let mut lines = Vec::new();
    let heat = show::value(&Value::Temperature(a.heat_to), LengthUnit::Mm);
    lines.push(match a.smoothing {
        Some(loss) => format!(
            "{} is taken off the least interference for flattened peaks, 0.8 (Rz + Rz), Rz = 5 Ra (DIN 7190-1, from memory)",
            micrometres(loss)
        ),
        None => "no roughness was told: both surfaces count as smooth, so that the least figures are the most that can be hoped for; --roughness takes it off".into(),
    });
    lines.push(format!("force and torque at friction {}; another with --friction", a.friction));
    if a.heat_to > a.hub.heat_limit() {
        let why =
            if a.hub.hardened { "a hard ring loses its hardness above" } else { "a hub scales and distorts above" };
        let limit = show::value(&Value::Temperature(a.hub.heat_limit()), LengthUnit::Mm);
        let then = match a.cool_as_well {
            Some(cold) => {
                let cold = show::value(&Value::Temperature(cold), LengthUnit::Mm);
                format!("and cool the inner part to {cold} as well, or press")
            }
            None => "no cooling of the inner part makes up for the rest: press".into(),
        };
        lines.push(format!(
            "caution: only at {heat} would it slip on, and {why} {limit}: heat it to {limit}, no more, {then}"
        ));
    } else {
        lines.push(format!("heat the outer part to {heat}, and it slips on"));
    }
    if a.interference.min < a.smoothing.unwrap_or(Length::ZERO) {
        lines.push("caution: at its loosest this fit leaves play and holds nothing".into());
    }
    for (which, material, stress) in parts_at_most(a) {
        match material.yield_strength {
            Some(limit) if stress > limit => lines.push(format!(
                "fail: the {which} part yields: {} against {} of {}; the figures above no longer hold",
                show::value(&Value::Stress(stress), LengthUnit::Mm),
                show::value(&Value::Stress(limit), LengthUnit::Mm),
                material.name
            )),
            None => lines.push(format!("caution: no yield strength is known for {}", material.name)),
            Some(_) => {}
        }
        if let Some(doubt) = material.strength_in_doubt {
            let name = &material.name;
            lines.push(format!("caution: the strength of {name} that this was held against is {doubt}"));
        }
    }
    lines
}
