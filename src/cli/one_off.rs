//! `taper` and `shim`: one answer without a part file.

use std::io::{self, Write};
use std::path::PathBuf;

use clap::Args;
use serde_json::json;

use super::{Exit, read, reading, rounded, wrong};
use crate::export::json::to_text;
use crate::export::text::aligned;
use crate::families::shim::read::float_range;
use crate::formulas::shims::{ShimQuestion, ShimSource, Sides, shim_width};
use crate::formulas::turning::{self, KnownTaper, Taper};
use crate::formulas::uncertainty::{Instrument, Measured};
use crate::record::design::Value;
use crate::record::show;
use crate::shop::instruments;
use crate::standards::iso1119;
use crate::units::{Angle, Length, LengthUnit};

/// Arguments of `taper`.
#[derive(Args)]
#[command(
    after_help = "Examples:\n  setdown taper --large 60mm --small 12mm --half-angle 30deg\n  setdown taper --large '3 in' --length '6 in' --ratio 1:12 --between-centres '12 in'"
)]
pub struct TaperCall {
    /// Large diameter
    #[arg(long, value_parser = read::size)]
    large: Option<Length>,
    /// Small diameter
    #[arg(long, value_parser = read::not_negative)]
    small: Option<Length>,
    /// Length along the axis
    #[arg(long, value_parser = read::size)]
    length: Option<Length>,
    /// Half-angle from the axis, such as 30deg or 8d30m
    #[arg(long, value_parser = read::angle)]
    half_angle: Option<Angle>,
    /// Rate of taper (D - d)/L, such as 1:10
    #[arg(long, value_parser = read::ratio)]
    ratio: Option<f64>,
    /// Length of the work between centres, for the tailstock set-over
    #[arg(long, value_parser = read::size)]
    between_centres: Option<Length>,
    /// Print JSON
    #[arg(long)]
    json: bool,
}

/// `taper`.
pub fn taper(call: &TaperCall, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    let known = KnownTaper {
        large: call.large,
        small: call.small,
        length: call.length,
        half_angle: call.half_angle,
        ratio: call.ratio,
    };
    let taper = match turning::solve(known) {
        Ok(taper) => taper,
        Err(error) => return wrong(err, error),
    };
    let setover = call.between_centres.map(|l| turning::tailstock_setover(l, taper.ratio));
    let preferred = iso1119::neighbour(taper.half_angle);
    if call.json {
        let mm = |l: Option<Length>| l.map(|l| rounded(l.as_mm()));
        let object = json!({
            "large_mm": mm(taper.large), "small_mm": mm(taper.small), "length_mm": mm(taper.length),
            "half_angle_deg": rounded(taper.half_angle.as_degrees()), "ratio": rounded(taper.ratio),
            "taper_per_foot_in": rounded(turning::taper_per_foot(taper.ratio).as_inches()),
            "nearest_preferred": preferred.map(|(cone, off)| json!({
                "name": cone.name, "half_angle_deg": rounded(cone.half_angle().as_degrees()),
                "off_by_deg": rounded(off.as_degrees()),
            })),
            "slant_mm": mm(taper.length.map(|l| turning::slant(l, taper.half_angle))),
            "tailstock_setover_mm": mm(setover.map(|s| s.by.rounded())),
        });
        return write!(out, "{}", to_text(&object)).map(|()| Exit::Fine);
    }
    let mut rows = taper_rows(&taper, setover.map(|s| s.by.rounded()));
    if let Some((cone, off)) = preferred {
        let half_angle = show::value(&Value::Angle(cone.half_angle()), LengthUnit::Mm);
        let said = if iso1119::same(off) { String::new() } else { format!("half-angle {half_angle}") };
        rows.push(vec!["nearest preferred cone (ISO 1119)".into(), cone.name.into(), said]);
    }
    for line in aligned(&rows) {
        writeln!(out, "{line}")?;
    }
    if setover.is_some_and(|setover| !setover.is_borne()) {
        writeln!(
            out,
            "caution: more than a fiftieth of the length between centres; the centres bear badly, use the compound slide"
        )?;
    }
    Ok(Exit::Fine)
}

fn taper_rows(taper: &Taper, setover: Option<Length>) -> Vec<Vec<String>> {
    let row = |what: &str, value: Value| {
        vec![what.to_string(), show::value(&value, LengthUnit::Mm), show::value_other(&value, LengthUnit::Mm)]
    };
    let mut rows = Vec::new();
    let lengths = [("large diameter", taper.large), ("small diameter", taper.small), ("length", taper.length)];
    rows.extend(lengths.into_iter().filter_map(|(what, l)| Some(row(what, Value::Length(l?)))));
    rows.push(row("half-angle = compound slide from the axis", Value::Angle(taper.half_angle)));
    rows.push(row("compound slide from square", Value::Angle(turning::compound_from_square(taper.half_angle))));
    rows.push(row("included angle", Value::Angle(taper.half_angle * 2.0)));
    rows.push(vec![
        "ratio (D - d)/L".into(),
        format!("{} = 1:{}", show::trimmed(taper.ratio, 6), show::trimmed(1.0 / taper.ratio, 4)),
        String::new(),
    ]);
    rows.push(vec![
        "taper per foot".into(),
        show::length(turning::taper_per_foot(taper.ratio), LengthUnit::Inch),
        String::new(),
    ]);
    rows.extend(taper.length.map(|l| row("slant of the flank", Value::Length(turning::slant(l, taper.half_angle)))));
    rows.push(row(
        "dial on flank, 20 mm (0.787 in) travel",
        Value::Length(turning::dial_over_travel(Length::mm(20.0), taper.half_angle)),
    ));
    rows.extend(setover.map(|l| row("tailstock set-over", Value::Length(l))));
    rows
}

/// Arguments of `shim`.
#[derive(Args)]
#[command(
    after_help = "Examples:\n  setdown shim --gap 1.28mm --target-float 0.05mm 0.15mm\n  setdown shim --replaces 0.52mm 0.31mm --present-float 0.12mm --target-float 0.1mm --sides 2"
)]
pub struct ShimCall {
    /// Measured widths of the shims that come out
    #[arg(long, num_args = 1.., value_parser = read::size, conflicts_with = "gap")]
    replaces: Vec<Length>,
    /// Float with those shims in place; 0 if left out
    #[arg(long, value_parser = read::not_negative, requires = "replaces")]
    present_float: Option<Length>,
    /// Float measured without any shim
    #[arg(long, value_parser = read::size)]
    gap: Option<Length>,
    /// Wanted float: one figure, or least and greatest
    #[arg(long, num_args = 1..=2, required = true, value_parser = read::not_negative)]
    target_float: Vec<Length>,
    /// 1 or 2
    #[arg(long, default_value_t = 1, value_parser = clap::value_parser!(u8).range(1..=2))]
    sides: u8,
    /// Shop file with the instruments that these were measured with
    #[arg(long)]
    shop: Option<PathBuf>,
    /// Print JSON
    #[arg(long)]
    json: bool,
}

/// `shim`.
pub fn shim(call: &ShimCall, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    let (min, max) = match call.target_float.as_slice() {
        [one] => (*one, *one),
        [min, max] if min < max => (*min, *max),
        _ => return wrong(err, "the wanted float is one figure, or the least and then the greatest"),
    };
    let shop = match reading::shop_or_usual(call.shop.as_deref(), err)? {
        Ok(shop) => shop,
        Err(exit) => return Ok(exit),
    };
    let gauge = |kind| instruments::of_kind(&shop.instruments, kind);
    let (width, dial) = (gauge(Instrument::Micrometer), gauge(Instrument::DialIndicator));
    let float = |value| Measured::with_expanded(value, dial.length());
    let source = match call.gap {
        Some(gap) => ShimSource::Gap(float(gap)),
        None if call.replaces.is_empty() => {
            return wrong(
                err,
                "nothing was measured: give --gap (measured without shims), or --replaces with --present-float",
            );
        }
        None => ShimSource::Replaces {
            shims: call.replaces.iter().map(|s| Measured::with_expanded(*s, width.length())).collect(),
            present_float: float(call.present_float.unwrap_or(Length::ZERO)),
        },
    };
    let sides = if call.sides == 2 { Sides::Two } else { Sides::One };
    let question = ShimQuestion { source, target: float_range(min, max), sides, offset: Length::ZERO };
    let answer = match shim_width(&question) {
        Ok(answer) => answer,
        Err(error) => return wrong(err, error),
    };
    if call.json {
        let mm = |l: Length| rounded(l.as_mm());
        let object = json!({
            "width_mm": mm(answer.each), "lower_mm": mm(answer.lower), "upper_mm": mm(answer.upper), "sides": call.sides,
            "float_mm": { "min": mm(answer.float.min), "nominal": mm(answer.float.nominal), "max": mm(answer.float.max) },
            "total_mm": mm(answer.total), "uncertainty_mm": mm(answer.uncertainty),
            "warnings": answer.warnings.iter().map(|w| w.text()).collect::<Vec<_>>(),
        });
        return write!(out, "{}", to_text(&object)).map(|()| Exit::Fine);
    }
    let row = |what: &str, l: Length| {
        vec![what.to_string(), show::length(l, LengthUnit::Mm), show::length(l, LengthUnit::Inch)]
    };
    let [in_mm, in_inch] = [LengthUnit::Mm, LengthUnit::Inch].map(|u| show::limit_pair(answer.lower, answer.upper, u));
    let ([least_mm, most_mm], [least_in, most_in]) = (in_mm, in_inch);
    let limit = |what: &str, mm: String, inch: String| vec![what.to_string(), format!("{mm} mm"), format!("{inch} in")];
    let sides = if call.sides == 2 { "width of each of two shims" } else { "width of the shim" };
    let rows = [
        row(sides, answer.each),
        limit("  least", least_mm, least_in),
        limit("  greatest", most_mm, most_in),
        row("all together", answer.total),
        row("float that results", answer.float.nominal),
        row("  least", answer.float.min),
        row("  greatest", answer.float.max),
        row("measuring uncertainty U (k = 2)", answer.uncertainty),
    ];
    for line in aligned(&rows) {
        writeln!(out, "{line}")?;
    }
    for warning in &answer.warnings {
        writeln!(out, "caution: {}", warning.text())?;
    }
    Ok(Exit::Fine)
}
