//! `check` of the shop's file: what it is, what is in force, whether it is sound.

use std::io::{self, Write};
use std::path::Path;

use serde_json::{Value as Json, json};

use super::reading::{self, SHOP_FILE};
use super::{Exit, reading::shown};
use crate::export::text::aligned;
use crate::record::design::Value;
use crate::record::show;
use crate::shop::instruments::{Expanded, Gauge};
use crate::shop::{Shop, Speeds};
use crate::units::{Length, LengthUnit};

/// A shop's file to begin with.
pub const TEMPLATE: &str = include_str!("shop.toml");

/// Whether the path is the shop's file.
pub fn is_shop(path: &Path) -> bool {
    path.file_name().is_some_and(|name| name == SHOP_FILE)
}

/// Key, words and what is in force.
type Line = (&'static str, &'static str, String);

/// Reads the shop's file: what is in force, or what is wrong with it.
pub fn check(path: &Path, json: bool, err: &mut dyn Write) -> io::Result<Result<String, Exit>> {
    let shop = match reading::shop_at(path, err)? {
        Ok(shop) => shop,
        Err(exit) => return Ok(Err(exit)),
    };
    let file = shown(path);
    if json {
        return Ok(Ok(as_json(&file, &shop).to_string()));
    }
    let rows: Vec<Vec<String>> = lines(&shop)
        .into_iter()
        .map(|(key, what, said)| {
            let from = if shop.has_written(key) { "as written" } else { "not written: usual" };
            vec![what.to_string(), key.to_string(), from.to_string(), said]
        })
        .collect();
    let mut text = format!("{file}: the shop's file, no part; it is sound. In force for the part files beside it:\n");
    for line in aligned(&rows) {
        text += &format!("  {line}\n");
    }
    Ok(Ok(text))
}

fn as_json(file: &str, shop: &Shop) -> Json {
    let row =
        |(key, what, said): Line| json!({ "key": key, "label": what, "text": said, "written": shop.has_written(key) });
    json!({ "file": file, "family": "shop", "in_force": lines(shop).into_iter().map(row).collect::<Vec<_>>() })
}

fn lines(shop: &Shop) -> Vec<Line> {
    let unit = shop.unit;
    let length = |l: Length| show::length_both(l.rounded(), unit);
    let machines = &shop.machines;
    let taper = shop.taper_attachment.map_or_else(
        || ("none".to_string(), "none".to_string()),
        |(long, angle)| (length(long), show::value(&Value::Angle(angle), unit)),
    );
    let own: Vec<&str> = shop.own().iter().map(|m| m.name.as_str()).collect();
    let lathe = match &machines.lathe {
        Speeds::Stepless(..) => "min_speed_rpm",
        Speeds::Steps(_) if shop.has_written("max_speed_rpm") => "max_speed_rpm",
        Speeds::Steps(_) => "lathe_speeds_rpm",
    };
    vec![
        ("units", "unit shown first", if unit == LengthUnit::Mm { "mm" } else { "in" }.into()),
        ("tool", "turning tool", shop.tool.into()),
        ("general_tolerance", "general tolerance", format!("ISO 2768-{}", shop.general_tolerance)),
        ("paper", "paper of the sheets", shop.paper.into()),
        ("projection", "projection of the views", format!("{} angle", shop.projection)),
        ("owner", "owner of the drawings", written(&shop.owner)),
        ("drawing_date", "date of the drawings", written(&shop.drawing_date)),
        (lathe, "speeds of the lathe", speeds(&machines.lathe)),
        ("drill_press_speeds_rpm", "speeds of the drill press", speeds(&machines.drill_press)),
        ("compound_travel", "travel of the compound slide", length(shop.compound_travel)),
        ("compound_swivel", "rim of its swivel", length(shop.compound_swivel)),
        ("compound_zero", "zero of its scale", zero(shop)),
        ("taper_attachment_length", "length of the taper attachment", taper.0),
        ("taper_attachment_angle", "its greatest half-angle", taper.1),
        ("depth_of_cut", "roughing cut per side", length(shop.depth_of_cut(unit))),
        ("finish_allowance", "metal left square to a flank", length(shop.finish_allowance(unit))),
        ("check_roller", "check rollers", length(shop.check_roller(unit))),
        ("printer", "3D printer", printer(shop)),
        ("saw_kerf", "kerf of the saw", length(shop.saw_kerf())),
        ("rack", "bars of the rack", rack(shop)),
        ("print_rate", "printer lays down", format!("{} cm³ an hour", show::trimmed(shop.print_rate(), 1))),
        ("tape", "its tape", tape(shop)),
        ("instrument", "measures with, U at k = 2", instruments(shop)),
        ("material", "materials of its own", if own.is_empty() { "none".into() } else { own.join(", ") }),
    ]
}

/// `steel S235 65 mm: 2 x 1000 mm`.
fn rack(shop: &Shop) -> String {
    let one = |bar: &crate::shop::RackBar| {
        let [across, long] = [bar.diameter, bar.length].map(|l| show::length(l.rounded(), shop.unit));
        let many = bar.pieces.map_or_else(|| "bought in".to_string(), |n| format!("{n} x"));
        format!("{} {across}: {many} {long}", bar.material)
    };
    if shop.rack.is_empty() { "none told".into() } else { shop.rack.iter().map(one).collect::<Vec<_>>().join(", ") }
}

/// `+0.68° ± 0.1° (2026-05-02)`.
fn zero(shop: &Shop) -> String {
    let Some(zero) = &shop.compound_zero else { return "not measured".into() };
    let say = |a| show::value(&Value::Angle(a), shop.unit);
    format!("{}{}{}", say(zero.by), give_or_take(zero.u.map(say)), day(&zero.on))
}

/// `2000 mm read as 1998.8 mm ± 0.4 mm (2026-05-02)`.
fn tape(shop: &Shop) -> String {
    let Some(tape) = &shop.tape else { return "not held against a known length".into() };
    let say = |l| show::length(l, shop.unit);
    format!("{} read as {}{}{}", say(tape.known), say(tape.reads), give_or_take(tape.u.map(say)), day(&tape.on))
}

fn give_or_take(u: Option<String>) -> String {
    u.map_or_else(String::new, |u| format!(" ± {u}"))
}

fn day(on: &Option<String>) -> String {
    on.as_ref().map_or_else(String::new, |on| format!(" ({on})"))
}

/// `calliper 0.03 mm (assumed), micrometer 0.004 mm in steps of 0.001 mm`.
fn instruments(shop: &Shop) -> String {
    let said = |of: Expanded| {
        let value = match of {
            Expanded::Length(l) => Value::Length(l),
            Expanded::Angle(a) => Value::Angle(a),
        };
        show::value(&value, shop.unit)
    };
    let one = |g: &Gauge| {
        let assumed = if g.assumed { " (assumed)" } else { "" };
        let steps = g.least_count.map_or_else(String::new, |step| format!(" in steps of {}", said(step)));
        format!("{} {}{steps}{assumed}", g.name, said(g.u))
    };
    shop.instruments.iter().map(one).collect::<Vec<_>>().join(", ")
}

/// `bed 220 x 220 mm, 250 mm high; layers of 0.2 mm, lines of 0.45 mm; holes -0.25 mm, outsides not measured`.
fn printer(shop: &Shop) -> String {
    let length = |l: Length| show::length_both(l.rounded(), shop.unit);
    let p = &shop.printer;
    let bed =
        p.bed.map_or_else(|| "bed not written".to_string(), |(x, y)| format!("bed {} x {}", length(x), length(y)));
    let high = p.height.map_or_else(String::new, |h| format!(", {} high", length(h)));
    let off = |by: Option<Length>, u: Option<Length>| {
        let u = u.map_or_else(String::new, |u| format!(" ± {}", length(u)));
        by.map_or_else(|| "not measured".to_string(), |by| format!("larger by {}{u}", length(by)))
    };
    let on = p.measured_on.as_ref().map_or_else(String::new, |day| format!(", {day}"));
    format!(
        "{bed}{high}; layers of {}, lines of {}; holes {}, outsides {}{on}",
        length(p.layer),
        length(p.line),
        off(p.hole_offset, p.hole_uncertainty),
        off(p.outside_offset, p.outside_uncertainty)
    )
}

/// As written; a field of the title block that stays open.
fn written(text: &Option<String>) -> String {
    text.clone().unwrap_or_else(|| "left open".into())
}

/// `70, 120, 210 rpm`, or `50 to 1500 rpm, any`.
fn speeds(speeds: &Speeds) -> String {
    let rpm = |s: &crate::units::SpindleSpeed| show::trimmed(s.as_rpm(), 0);
    match speeds {
        Speeds::Steps(steps) => format!("{} rpm", steps.iter().map(rpm).collect::<Vec<_>>().join(", ")),
        Speeds::Stepless(least, most) => format!("{} to {} rpm, any", rpm(least), rpm(most)),
    }
}
