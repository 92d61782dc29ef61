//! Needle rollers at the place of the bush, for comparison: what they bear on this shaft, and what they ask of it.

use crate::description::Fields;
use crate::formulas::hardness::Hardness;
use crate::formulas::plain_bearing;
use crate::formulas::raceway::{BEARING_STEEL, RollerRow, USUAL_LOAD_FACTOR};
use crate::record::design::{Check, Design, Table, Value, Verdict};
use crate::record::show;
use crate::source::Source;
use crate::units::Force;

use super::read::{self, Needles, Spec};
use super::runs::Running;
use super::sizes;

const INSTEAD: Check = Check {
    key: "needles_instead",
    what: "needle rollers at the same place",
    worst: Verdict::Ok,
    source: Source::Published(
        "Johnson, Contact Mechanics, section 6.1: first yield of the shaft under the most loaded roller",
    ),
};

/// Friction of needle rollers. Source: needle bearing catalogues: 0.002 to 0.003, from memory.
const ROLLING: (f64, f64) = (0.002, 0.003);

/// Tables the bush beside the rollers; `None` when a problem was noted.
pub fn compare(design: &mut Design, s: &Spec, running: &Running, fields: &Fields) -> Option<()> {
    let Some(needles) = &s.needles else { return Some(()) };
    let row = row(s, needles);
    if let Err(error) = row.check() {
        fields.problem_at(&read::NEEDLES, error.to_string(), Some("fewer or thinner rollers".into()));
        return None;
    }
    let shaft = running.shaft_hv.unwrap_or(SOFT);
    let worked = row.under(running.load, USUAL_LOAD_FACTOR, Hardness::Vickers(shaft));
    let worked = worked.map_err(|error| fields.problem_at(&read::NEEDLES, error.to_string(), None)).ok()?;
    table(design, s, running, &row, worked.dents_from);
    let unit = design.header.unit;
    let force = |f: Force| show::value(&Value::Force(f), unit);
    let needed = worked.needed.ok().and_then(|h| h.vickers().ok());
    let needed = needed.map_or_else(
        || "no steel is hard enough for this load under so few rollers".to_string(),
        |hv| format!("this load asks for a shaft of {} HV", show::trimmed(hv.ceil(), 0)),
    );
    let text = if worked.dents_from >= running.load {
        format!(
            "they run on this shaft of {} HV up to {}, with a hundredth of the friction; they want seals, and room outside",
            show::trimmed(shaft, 0),
            force(worked.dents_from)
        )
    } else {
        format!(
            "they dent this shaft of {} HV from {}: {needed}, ground, or a hard sleeve on it; the bush spares that",
            show::trimmed(shaft, 0),
            force(worked.dents_from)
        )
    };
    design.note(&INSTEAD, text);
    Some(())
}

/// A shaft of which nothing is known. Source: common practice, no source; structural steel.
const SOFT: f64 = 120.0;

fn row(s: &Spec, needles: &Needles) -> RollerRow {
    let shaft = s.ring.shaft.as_ref().map_or(BEARING_STEEL, |shaft| shaft.material.elastic);
    RollerRow {
        roller_diameter: needles.diameter.value,
        effective_length: needles.length.value,
        count: needles.count.value,
        track: s.ring.bore.value,
        roller: BEARING_STEEL,
        raceway: shaft,
    }
}

fn table(design: &mut Design, s: &Spec, running: &Running, row: &RollerRow, dents_from: Force) {
    let unit = design.header.unit;
    let text = |t: &str| Value::Text(t.into());
    let torque = |(least, most): (f64, f64)| {
        let at =
            |mu| show::value(&Value::Torque(plain_bearing::friction_torque(running.load, mu, s.ring.bore.value)), unit);
        Value::Text(format!("{} to {}", at(least), at(most)))
    };
    let bears = running.allowed.and_then(|p| {
        let bears = match design.dimension(&sizes::BEARING_LENGTH)?.value {
            Value::Length(l) => l,
            _ => return None,
        };
        Some(Value::Force(p * (s.ring.bore.value * bears)))
    });
    let hard = running
        .material
        .and_then(|m| m.shaft)
        .map_or_else(|| text("any steel"), |(hv, ..)| Value::Text(format!("{} HV", show::trimmed(hv, 0))));
    let rows = vec![
        vec![
            text("outside"),
            Value::Length(s.ring.outside.value.rounded()),
            Value::Text(format!(
                "{} and their shell",
                show::length((row.track + row.roller_diameter * 2.0).rounded(), unit)
            )),
        ],
        vec![
            text("length that bears"),
            design.dimension(&sizes::BEARING_LENGTH).map_or_else(|| text("-"), |d| d.value.clone()),
            Value::Length(row.effective_length.rounded()),
        ],
        vec![text("bears on this shaft"), bears.unwrap_or_else(|| text("not known")), Value::Force(dents_from)],
        vec![text("hardness of the shaft"), hard, text("58 HRC and more for the full rating")],
        vec![text("torque of friction"), running.friction.map_or_else(|| text("not known"), torque), torque(ROLLING)],
        vec![text("water and dirt"), text("bears some, wears faster"), text("seals, or they rust in one winter")],
        vec![text("end of its life"), text("play grows, and is felt"), text("track and rollers flake")],
    ];
    design.tabulate(Table::new(
        sizes::NEEDLES_TABLE,
        "The bush beside needle rollers at the same place",
        &["", "bush", "needle rollers"],
        rows,
    ));
}
