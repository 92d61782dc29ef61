//! `materials`: what the tool knows of each material, how well it is confirmed, and from where.

use std::io::{self, Write};
use std::path::PathBuf;

use clap::Args;
use serde_json::{Value as Json, json};

use super::{Exit, reading, wrong};
use crate::export::json::to_text;
use crate::export::text::aligned;
use crate::record::show::{significant, trimmed};
use crate::shop;
use crate::source::{Cited, Confirmed};
use crate::standards::materials as table;
use crate::standards::materials::swelling::{Swelling, swelling};

/// Arguments of `materials`.
#[derive(Args)]
#[command(after_help = "Examples:\n  setdown materials\n  setdown materials 'steel 1045'")]
pub struct MaterialsCall {
    /// One material only, each figure with its source
    name: Option<String>,
    /// Shop file with materials of your own
    #[arg(long)]
    shop: Option<PathBuf>,
    /// Print JSON
    #[arg(long)]
    json: bool,
}

/// One figure of one material.
struct Figure {
    key: &'static str,
    label: &'static str,
    unit: &'static str,
    value: f64,
    confirmed: Confirmed,
    source: &'static str,
}

/// `materials`.
pub fn materials(call: &MaterialsCall, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    let shop = match reading::shop_or_usual(call.shop.as_deref(), err)? {
        Ok(shop) => shop,
        Err(exit) => return Ok(exit),
    };
    let mut known: Vec<(String, Vec<Figure>)> = shop.own().iter().map(|m| (m.name.clone(), own_figures(m))).collect();
    let is_own = |name: &str| shop.own().iter().any(|m| m.name.eq_ignore_ascii_case(name));
    known.extend(table::materials().iter().filter(|m| !is_own(m.name)).map(|m| (m.name.to_string(), figures(m))));
    if let Some(name) = &call.name {
        let found = match shop.material(name) {
            Ok(found) => found.name,
            Err(message) => return wrong(err, message),
        };
        known.retain(|(n, _)| *n == found);
    }
    if call.json {
        let all: Vec<Json> = known.iter().map(|(name, figures)| as_json(name, figures)).collect();
        return write!(out, "{}", to_text(&Json::Array(all))).map(|()| Exit::Fine);
    }
    let rows = if call.name.is_some() { detail(&known) } else { overview(&known) };
    for line in aligned(&rows) {
        writeln!(out, "{}", line.trim_end())?;
    }
    if call.name.is_none() {
        writeln!(
            out,
            "\n? from memory, not confirmed in print. `setdown materials NAME` gives the source of each figure."
        )?;
    }
    Ok(Exit::Fine)
}

fn figures(m: &table::Material) -> Vec<Figure> {
    let figure = |key, label, unit, value, (confirmed, source)| Figure { key, label, unit, value, confirmed, source };
    fn by<T>(cited: &Cited<T>) -> (Confirmed, &'static str) {
        (cited.confirmed, cited.source)
    }
    let mut list = vec![
        figure("density_kg_m3", "density", "kg/m³", m.density.value.as_kg_per_m3(), by(&m.density)),
        figure("youngs_modulus_gpa", "E", "GPa", m.youngs_modulus.value.as_gpa(), by(&m.youngs_modulus)),
        figure("poisson", "ν", "", m.poisson.value, by(&m.poisson)),
        figure(
            "expansion_per_million_k",
            "expansion",
            "1e-6/K",
            m.expansion.value.as_per_million_kelvin(),
            by(&m.expansion),
        ),
    ];
    list.extend(m.yield_strength.as_ref().map(|y| figure("yield_mpa", "yield", "MPa", y.value.as_mpa(), by(y))));
    list.extend(m.hardness.as_ref().map(|h| {
        let (key, unit) = match h.value.scale {
            table::HardnessScale::Brinell => ("hardness_hb", "HB"),
            table::HardnessScale::RockwellB => ("hardness_hrb", "HRB"),
            table::HardnessScale::RockwellC => ("hardness_hrc", "HRC"),
            table::HardnessScale::RockwellM => ("hardness_hrm", "HRM"),
            table::HardnessScale::RockwellR => ("hardness_hrr", "HRR"),
        };
        figure(key, "hardness", unit, h.value.value, by(h))
    }));
    list.extend(swelling(m.name).into_iter().flat_map(swells));
    list
}

/// How far it grows by water, in per cent of length: as a whole part that has stood so for weeks.
fn swells(s: Swelling) -> [Figure; 2] {
    [("swelling_in_a_room_percent", "swells in a room", s.in_a_room), ("swelling_soaked_percent", "soaked", s.soaked)]
        .map(|(key, label, share)| Figure {
            key,
            label,
            unit: "%",
            value: share * 100.0,
            confirmed: Confirmed::Memory,
            source: "a quarter of the water by weight, as nylon makers print it",
        })
}

fn own_figures(m: &shop::Material) -> Vec<Figure> {
    let source = "shop file, or the material it is like";
    let confirmed = if m.unconfirmed { Confirmed::Memory } else { Confirmed::One };
    let figure = |key, label, unit, value| Figure { key, label, unit, value, confirmed, source };
    let mut list = vec![
        figure("density_kg_m3", "density", "kg/m³", m.density.as_kg_per_m3()),
        figure("youngs_modulus_gpa", "E", "GPa", m.elastic.youngs_modulus.as_gpa()),
        figure("poisson", "ν", "", m.elastic.poisson),
        figure("expansion_per_million_k", "expansion", "1e-6/K", m.elastic.expansion.as_per_million_kelvin()),
    ];
    list.extend(m.yield_strength.map(|y| figure("yield_mpa", "yield", "MPa", y.as_mpa())));
    list.extend(m.hardness_hv.map(|hv| figure("hardness_hv", "hardness", "HV", hv)));
    list.extend(m.swelling().into_iter().flat_map(swells));
    list
}

fn word(confirmed: Confirmed) -> &'static str {
    match confirmed {
        Confirmed::Memory => "memory",
        Confirmed::One => "one publication",
        Confirmed::TwoOrMore => "two or more publications",
    }
}

fn as_json(name: &str, figures: &[Figure]) -> Json {
    let mut object = serde_json::Map::new();
    object.insert("name".into(), json!(name));
    for f in figures {
        let value = (f.value * 1e6).round() / 1e6;
        object.insert(
            f.key.into(),
            json!({ "value": value, "confirmed": f.confirmed != Confirmed::Memory, "by": word(f.confirmed), "source": f.source }),
        );
    }
    Json::Object(object)
}

fn text(f: &Figure) -> String {
    let mark = if f.confirmed == Confirmed::Memory { " ?" } else { "" };
    let value = if f.key == "density_kg_m3" { trimmed(f.value, 0) } else { significant(f.value, 4) };
    format!("{value} {}{mark}", f.unit).replace("  ", " ").trim_end().to_string()
}

const COLUMNS: [&str; 8] = ["density", "E", "ν", "expansion", "yield", "hardness", "swells in a room", "soaked"];

fn overview(known: &[(String, Vec<Figure>)]) -> Vec<Vec<String>> {
    let head = std::iter::once("material").chain(COLUMNS).map(String::from).collect();
    let row = |(name, figures): &(String, Vec<Figure>)| {
        let cell = |label: &&str| figures.iter().find(|f| f.label == *label).map_or_else(String::new, text);
        std::iter::once(name.clone()).chain(COLUMNS.iter().map(cell)).collect()
    };
    std::iter::once(head).chain(known.iter().map(row)).collect()
}

fn detail(known: &[(String, Vec<Figure>)]) -> Vec<Vec<String>> {
    let mut rows = Vec::new();
    for (name, figures) in known {
        rows.push(vec![name.clone()]);
        for f in figures {
            let value = text(f).trim_end_matches(" ?").to_string();
            rows.push(vec![format!("  {}", f.label), value, word(f.confirmed).into(), f.source.into()]);
        }
    }
    rows
}
