//! `raceway`: will these rollers dent the sleeve they run on?

use std::io::{self, Write};
use std::path::PathBuf;

use clap::Args;
use serde_json::json;

use super::{Exit, read, reading, rounded, wrong};
use crate::export::json::to_text;
use crate::export::text::aligned;
use crate::formulas::hardness::Hardness;
use crate::formulas::raceway::{BEARING_STEEL, RacewayLoad, RollerRow, USUAL_LOAD_FACTOR};
use crate::record::design::Value;
use crate::record::show;
use crate::units::{Force, Length, LengthUnit};

/// Arguments of `raceway`.
#[derive(Args)]
#[command(
    after_help = "Example:\n  setdown raceway --rollers 24 --roller-diameter 2.5mm --roller-length 12mm --raceway 25mm --load '6 kN' --hardness '130 HV'"
)]
pub struct RacewayCall {
    /// Number of rollers
    #[arg(long)]
    rollers: u32,
    /// Diameter of a roller
    #[arg(long, value_parser = read::size)]
    roller_diameter: Length,
    /// Effective length of a roller, without its rounded ends
    #[arg(long, value_parser = read::size)]
    roller_length: Length,
    /// Diameter of the raceway inside the rollers
    #[arg(long, value_parser = read::size)]
    raceway: Length,
    /// Radial load: a force such as '6 kN', or a mass whose weight is meant
    #[arg(long, value_parser = read::load)]
    load: Force,
    /// Hardness of the raceway, such as '130 HV' or '60 HRC'
    #[arg(long, value_parser = read::hardness)]
    hardness: Hardness,
    /// Running clearance on the diameter, from which the share of the most loaded roller follows
    #[arg(long, value_parser = read::not_negative, conflicts_with = "factor")]
    clearance: Option<Length>,
    /// How many times its equal share the most loaded roller carries; from the clearance, or 5, if left out
    #[arg(long)]
    factor: Option<f64>,
    /// Material of the raceway; steel with E 206 GPa and Poisson's ratio 0.3 if left out
    #[arg(long)]
    material: Option<String>,
    /// Shop file with materials of your own
    #[arg(long)]
    shop: Option<PathBuf>,
    /// Print JSON
    #[arg(long)]
    json: bool,
}

/// `raceway`.
pub fn raceway(call: &RacewayCall, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    let shop = match reading::shop_or_usual(call.shop.as_deref(), err)? {
        Ok(shop) => shop,
        Err(exit) => return Ok(exit),
    };
    let material = call.material.as_ref().map(|name| shop.material(name)).transpose();
    let answer = material.and_then(|material| {
        let row = RollerRow {
            roller_diameter: call.roller_diameter,
            effective_length: call.roller_length,
            count: call.rollers,
            track: call.raceway,
            roller: BEARING_STEEL,
            raceway: material.map_or(BEARING_STEEL, |m| m.elastic),
        };
        let factor = match (call.factor, call.clearance) {
            (Some(factor), _) => Ok((factor, "as called")),
            (None, Some(c)) => row.load_factor(call.load, c).map(|(k, _)| (k, "of the clearance")),
            (None, None) => Ok((USUAL_LOAD_FACTOR, "assumed, of a usual small clearance; another with --clearance")),
        };
        let worked = factor.and_then(|(k, how)| Ok((row.under(call.load, k, call.hardness)?, k, how)));
        worked.map_err(|error| error.to_string())
    });
    let (load, factor, how) = match answer {
        Ok(answer) => answer,
        Err(message) => return wrong(err, message),
    };
    let dents = call.load > load.dents_from;
    let exit = if dents { Exit::Fails } else { Exit::Fine };
    if call.json {
        return write!(out, "{}", to_text(&as_json(call, &load, factor))).map(|()| exit);
    }
    for line in aligned(&rows(&load)) {
        writeln!(out, "{line}")?;
    }
    writeln!(out, "load factor of the most loaded roller {}, {how}", show::trimmed(factor, 2))?;
    let text = |v: Value| show::value(&v, LengthUnit::Mm);
    if dents {
        let (from, is) = (text(Value::Force(load.dents_from)), text(Value::Force(call.load)));
        writeln!(out, "fail: the rollers dent this raceway from a radial load of {from}; the load is {is}")?;
    }
    Ok(exit)
}

fn as_json(call: &RacewayCall, a: &RacewayLoad, factor: f64) -> serde_json::Value {
    json!({
        "load_factor": rounded(factor),
        "roller_load_n": rounded(a.roller_load.as_newtons()),
        "pressure_mpa": rounded(a.pressure.as_mpa()),
        "half_width_um": rounded(a.contact.half_width().as_um()),
        "shear_depth_um": rounded(a.contact.shear_depth().as_um()),
        "shear_mpa": rounded(a.contact.largest_shear().as_mpa()),
        "allowed_mpa": rounded(a.allowed_pressure.as_mpa()),
        "dents_from_load_n": rounded(a.dents_from.as_newtons()),
        "dents": call.load > a.dents_from,
        "needed_hv": a.needed.ok().and_then(|h| h.vickers().ok()).map(rounded),
    })
}

fn rows(a: &RacewayLoad) -> Vec<Vec<String>> {
    let row = |what: &str, value: Value| {
        vec![what.to_string(), show::value(&value, LengthUnit::Mm), show::value_other(&value, LengthUnit::Mm)]
    };
    let fine = |what: &str, l: Length| {
        let thou = format!("{} thou", show::trimmed(l.as_thou(), 2));
        vec![what.to_string(), format!("{} µm", show::trimmed(l.as_um(), 1)), thou]
    };
    let needed = match a.needed {
        Ok(hardness) => hardness.vickers().map_or_else(|e| e.to_string(), |hv| format!("{} HV", show::trimmed(hv, 0))),
        Err(error) => error.to_string(),
    };
    vec![
        row("load on the most loaded roller", Value::Force(a.roller_load)),
        row("contact pressure", Value::Stress(a.pressure)),
        fine("half-width of the contact", a.contact.half_width()),
        row("largest shear below the skin", Value::Stress(a.contact.largest_shear())),
        fine("  at a depth of", a.contact.shear_depth()),
        row("pressure at which this hardness begins to dent", Value::Stress(a.allowed_pressure)),
        row("radial load at which denting begins", Value::Force(a.dents_from)),
        vec!["hardness needed under this load".into(), needed, String::new()],
    ]
}
