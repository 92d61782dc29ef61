//! `fit`: a hole and a shaft, by class or as measured.

use std::io::{self, Write};

use clap::Args;
use serde_json::{Value as Json, json};

use super::{Exit, read, wrong};
use crate::record::show::{self, trimmed};
use crate::shop::Shop;
use crate::source::Confirmed;
use crate::standards::fit::FitRange;
use crate::standards::fitting::{self, FitAnswer, Side, There};
use crate::units::{Expansion, Length, LengthUnit, Temperature};

/// Arguments of `fit`.
#[derive(Args)]
#[command(
    after_help = "Examples:\n  setdown fit 25mm H7/g6\n  setdown fit '1 in' RC4\n  setdown fit --hole 25.012mm --shaft 24.990mm\n  setdown fit 25mm g6 --hole 25.031mm     what shaft to turn to a hole as bored"
)]
pub struct FitCall {
    /// Nominal size, such as 25mm or '1 in'
    #[arg(value_parser = read::size)]
    nominal: Option<Length>,
    /// H7/g6, H7, g6, or an inch class such as RC4
    class: Option<String>,
    /// Measured hole
    #[arg(long, value_parser = read::size)]
    hole: Option<Length>,
    /// Measured shaft
    #[arg(long, value_parser = read::size)]
    shaft: Option<Length>,
    /// Temperature of the part with the hole, such as '60 C'
    #[arg(long, value_parser = read::temperature, allow_hyphen_values = true)]
    hole_temperature: Option<Temperature>,
    /// Temperature of the shaft
    #[arg(long, value_parser = read::temperature, allow_hyphen_values = true)]
    shaft_temperature: Option<Temperature>,
    /// Material of the part with the hole
    #[arg(long, default_value = "steel S235")]
    hole_material: String,
    /// Material of the shaft
    #[arg(long, default_value = "steel S235")]
    shaft_material: String,
    /// Print JSON
    #[arg(long)]
    json: bool,
}

/// The fit at other temperatures than 20 °C.
struct Warm {
    hole: Temperature,
    shaft: Temperature,
    range: FitRange,
}

/// `fit`.
pub fn fit(call: &FitCall, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    let answer = match (call.nominal, &call.class, call.hole, call.shaft) {
        (nominal, None, Some(hole), Some(shaft)) => Ok(fitting::by_size(nominal, hole, shaft)),
        (Some(nominal), Some(class), None, None) => fitting::by_class(nominal, class),
        (Some(nominal), Some(class), Some(hole), None) => fitting::to_measured(nominal, class, There::Hole, hole),
        (Some(nominal), Some(class), None, Some(shaft)) => fitting::to_measured(nominal, class, There::Shaft, shaft),
        (_, Some(_), Some(_), Some(_)) => Err("with both parts measured no class is asked for: leave it out".into()),
        (_, None, Some(_), None) => {
            Err("the shaft is missing: --shaft 24.990mm, or what to turn to: setdown fit 25mm g6 --hole 25.031mm"
                .into())
        }
        (_, None, None, Some(_)) => {
            Err("the hole is missing: --hole 25.012mm, or what to bore to: setdown fit 25mm H7 --shaft 24.970mm".into())
        }
        (Some(_), None, ..) => Err("a class is missing, such as H7/g6, H7, g6 or RC4".into()),
        _ => Err("a nominal size and a class are wanted, such as: setdown fit 25mm H7/g6".into()),
    };
    let answer = match answer {
        Ok(answer) => answer,
        Err(message) => return wrong(err, message),
    };
    let warm = match warm(call, &answer) {
        Ok(warm) => warm,
        Err(message) => return wrong(err, message),
    };
    if call.json {
        return write!(out, "{}", crate::export::json::to_text(&as_json(&answer, warm.as_ref()))).map(|()| Exit::Fine);
    }
    table(&answer, out)?;
    if let Some(warm) = &warm {
        let (h, s) = (trimmed(warm.hole.as_celsius(), 1), trimmed(warm.shaft.as_celsius(), 1));
        writeln!(out, "\nhole part at {h} °C ({}), shaft at {s} °C ({}):", call.hole_material, call.shaft_material)?;
        range_lines(&warm.range, out)?;
    }
    Ok(Exit::Fine)
}

fn warm(call: &FitCall, answer: &FitAnswer) -> Result<Option<Warm>, String> {
    if call.hole_temperature.is_none() && call.shaft_temperature.is_none() {
        return Ok(None);
    }
    let shop = Shop::default();
    let expansion = |name: &str| -> Result<Expansion, String> { shop.material(name).map(|m| m.elastic.expansion) };
    let hole = call.hole_temperature.unwrap_or(Temperature::REFERENCE);
    let shaft = call.shaft_temperature.unwrap_or(Temperature::REFERENCE);
    let range = answer.at((expansion(&call.hole_material)?, hole), (expansion(&call.shaft_material)?, shaft));
    range
        .map(|range| Some(Warm { hole, shaft, range }))
        .ok_or_else(|| "a fit at temperature needs a hole and a shaft".into())
}

/// Two measured sizes that no class brings together: a slip?
fn mistaken(answer: &FitAnswer) -> Option<String> {
    let size =
        |side: &Option<Side>| side.as_ref().filter(|s| s.class.is_none()).map(|s| answer.nominal + s.limits.lower);
    let (hole, shaft) = (size(&answer.hole)?, size(&answer.shaft)?);
    let beyond = fitting::beyond_any_class(hole, shaft, true, answer.range.as_ref()?)?;
    let both = [LengthUnit::Mm, LengthUnit::Inch].map(|unit| show::length(beyond.most, unit));
    Some(beyond.said(shaft, &format!("{} ({})", both[0], both[1]), LengthUnit::Mm))
}

/// Micrometres to a hundredth, without noise of the last bits.
fn um(length: Length) -> f64 {
    (length.as_um() * 100.0).round() / 100.0
}

fn as_json(answer: &FitAnswer, warm: Option<&Warm>) -> Json {
    let side = |s: &Side| json!({ "class": s.class, "lower_um": um(s.limits.lower), "upper_um": um(s.limits.upper), "source": s.limits.source });
    let range = |r: &FitRange| json!({ "min": um(r.min_clearance), "max": um(r.max_clearance), "mean": um(r.mean) });
    let mut object = serde_json::Map::new();
    object.insert("nominal_mm".into(), json!((answer.nominal.as_mm() * 1e6).round() / 1e6));
    for (name, part) in [("hole", &answer.hole), ("shaft", &answer.shaft)] {
        if let Some(part) = part {
            object.insert(name.into(), side(part));
        }
    }
    if let Some(r) = &answer.range {
        object.insert("clearance_um".into(), range(r));
        object.insert("kind".into(), json!(r.kind.to_string()));
    }
    if let Some(kept) = &answer.kept {
        object.insert("kept".into(), json!(kept));
    }
    if !answer.held_by.is_empty() {
        object.insert("held_by".into(), json!(answer.held_by));
    }
    if let Some(words) = mistaken(answer) {
        object.insert("caution".into(), json!(words));
    }
    object.insert("confirmed".into(), json!(answer.confirmed() != Confirmed::Memory));
    if let Some(w) = warm {
        object.insert("at_temperature".into(), json!({ "hole_c": w.hole.as_celsius(), "shaft_c": w.shaft.as_celsius(), "clearance_um": range(&w.range), "kind": w.range.kind.to_string() }));
    }
    Json::Object(object)
}

fn table(answer: &FitAnswer, out: &mut dyn Write) -> io::Result<()> {
    let n = answer.nominal;
    writeln!(
        out,
        "nominal {} ({}){}",
        show::length(n, LengthUnit::Mm),
        show::length(n, LengthUnit::Inch),
        if answer.confirmed() == Confirmed::Memory {
            "   UNCONFIRMED: a table value behind this is from memory"
        } else {
            ""
        }
    )?;
    let mut rows =
        vec![["", "class", "deviation µm", "least mm", "most mm", "least in", "most in"].map(String::from).to_vec()];
    for (name, side) in [("hole", &answer.hole), ("shaft", &answer.shaft)] {
        let Some(s) = side else { continue };
        let l = &s.limits;
        let [mm, inch] = [LengthUnit::Mm, LengthUnit::Inch].map(|u| show::limit_pair(n + l.lower, n + l.upper, u));
        let deviation =
            if l.lower == l.upper { signed(l.lower) } else { format!("{} / {}", signed(l.upper), signed(l.lower)) };
        let class = s.class.clone().unwrap_or_else(|| "measured".into());
        rows.push([name.into(), class, deviation].into_iter().chain(mm).chain(inch).collect());
    }
    for line in crate::export::text::aligned(&rows) {
        writeln!(out, "  {line}")?;
    }
    if let Some(range) = &answer.range {
        range_lines(range, out)?;
    }
    if let Some(kept) = &answer.kept {
        writeln!(out, "  {kept}")?;
    } else if answer.hole.as_ref().is_some_and(|h| h.class.is_none()) {
        let held = if answer.held_by.is_empty() {
            "no listed fit holds both sizes".to_string()
        } else {
            format!("listed fits that hold both sizes: {}", answer.held_by.join(", "))
        };
        writeln!(out, "  {held}")?;
        if let Some(words) = mistaken(answer) {
            writeln!(out, "  caution: {words}")?;
        }
    }
    picture(answer, out)?;
    for side in [&answer.hole, &answer.shaft].into_iter().flatten().filter(|s| s.class.is_some()) {
        writeln!(out, "  {}: {}", side.class.as_deref().unwrap_or_default(), side.limits.source)?;
    }
    Ok(())
}

fn signed(l: Length) -> String {
    let x = um(l);
    let sign = if x > 0.0 { "+" } else { "" };
    format!("{sign}{}", trimmed(x, 2))
}

fn range_lines(range: &FitRange, out: &mut dyn Write) -> io::Result<()> {
    let both = |l: Length| format!("{} µm ({} thou)", signed(l), trimmed(l.as_thou(), 2));
    writeln!(out, "  {} fit; clearance on the diameter, negative is interference:", range.kind)?;
    writeln!(
        out,
        "    least {}, greatest {}, mean {}",
        both(range.min_clearance),
        both(range.max_clearance),
        both(range.mean)
    )
}

/// Lines of the picture of the zones.
const PICTURE_LINES: i32 = 11;

/// Both zones to scale beside a line at the nominal size.
fn picture(answer: &FitAnswer, out: &mut dyn Write) -> io::Result<()> {
    let sides = [&answer.hole, &answer.shaft];
    let deviations: Vec<f64> =
        sides.into_iter().flatten().flat_map(|s| [um(s.limits.lower), um(s.limits.upper)]).chain([0.0]).collect();
    let (low, high) = deviations.iter().fold((0.0_f64, 0.0_f64), |(l, h), d| (l.min(*d), h.max(*d)));
    let step = ((high - low) / f64::from(PICTURE_LINES - 1)).max(0.1);
    let level = |um: f64| ((um - low) / step).round() as i32;
    writeln!(out)?;
    for line in (0..=level(high)).rev() {
        let at_line: Vec<f64> = deviations.iter().copied().filter(|d| level(*d) == line).collect();
        let label = at_line
            .iter()
            .copied()
            .max_by(|a, b| a.abs().total_cmp(&b.abs()))
            .map_or_else(String::new, |d| format!("{} µm", signed(Length::um(d))));
        let ground = if line == level(0.0) { '-' } else { ' ' };
        let zone = |side: &Option<Side>, mark: char| {
            let inside =
                side.as_ref().is_some_and(|s| (level(um(s.limits.lower))..=level(um(s.limits.upper))).contains(&line));
            std::iter::repeat_n(if inside { mark } else { ground }, 9).collect::<String>()
        };
        let gap = std::iter::repeat_n(ground, 3).collect::<String>();
        let zones = format!("{gap}{}{gap}{}{gap}", zone(&answer.hole, '▒'), zone(&answer.shaft, '█'));
        let name = if ground == '-' { " nominal" } else { "" };
        writeln!(out, "{}", format!("  {label:>10} {}{name}", zones.trim_end()).trim_end())?;
    }
    let names = [(&answer.hole, "hole"), (&answer.shaft, "shaft")].map(|(s, n)| if s.is_some() { n } else { "" });
    let [hole, shaft] = names;
    writeln!(out, "{}{hole:<12}{shaft}", " ".repeat(16))?;
    writeln!(out)
}
