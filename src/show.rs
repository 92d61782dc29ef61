//! Every number of a design as text, once: terminal, bench sheet, JSON and drawing print these same strings.

use crate::design::{Design, Dimension, Finding, Limit, Note, Origin, Value};
use crate::units::show::fixed;
pub use crate::units::show::trimmed;
use crate::units::{Length, LengthUnit};

/// One line of the list of sizes.
#[derive(Clone, Debug, PartialEq)]
pub struct DimensionLine {
    /// Key, for programs.
    pub key: String,
    /// What it is.
    pub label: String,
    /// Size in the unit shown first, with unit.
    pub size: String,
    /// The same in the other unit; empty where there is none.
    pub other: String,
    /// Least size, without unit; empty where the size has no limits.
    pub least: String,
    /// Greatest size, without unit.
    pub most: String,
    /// Least and greatest size in the other unit, without unit.
    pub other_limits: (String, String),
    /// What sets the limits.
    pub by: String,
    /// Where it comes from.
    pub how: String,
}

/// One line of the list of findings.
#[derive(Clone, Debug, PartialEq)]
pub struct FindingLine {
    /// Key, for programs.
    pub key: String,
    /// `ok`, `caution` or `fail`.
    pub verdict: &'static str,
    /// What was checked.
    pub what: String,
    /// The same with value and limit: `wall: 12 mm, at least 8 mm`.
    pub head: String,
    /// The value found, with unit; empty where there is none.
    pub value: String,
    /// The limit, with unit and what it means: `at least 8 mm`; empty where there is none.
    pub limit: String,
    /// The reason.
    pub because: String,
    /// The source.
    pub source: String,
}

/// A note as one line, with its source.
pub fn note(note: &Note) -> String {
    format!("{} - {} [{}]", note.what, note.text, note.source)
}

/// A length in one unit without its name: 3 decimals in mm, 4 in inch (a fifth where four would show hardly anything),
/// trailing zeros dropped.
pub fn length_number(length: Length, unit: LengthUnit) -> String {
    match unit {
        LengthUnit::Mm => trimmed(length.as_mm(), 3),
        LengthUnit::Inch => trimmed(length.as_inches(), if length.as_inches().abs() < 1e-4 { 5 } else { 4 }),
    }
}

/// A limit of size without its unit: 3 decimals in mm (a fourth where it is not nought and the limits lie closer than
/// 0.1 mm), 4 in inch.
pub fn limit_number(limit: Length, unit: LengthUnit, width: Length) -> String {
    match unit {
        LengthUnit::Inch => fixed(limit.as_inches(), 4),
        LengthUnit::Mm if width >= Length::mm(0.1) => fixed(limit.as_mm(), 3),
        LengthUnit::Mm => {
            let fine = fixed(limit.as_mm(), 4);
            fine.strip_suffix('0').map_or(fine.clone(), str::to_string)
        }
    }
}

/// A length with its unit.
pub fn length(length: Length, unit: LengthUnit) -> String {
    format!("{} {}", length_number(length, unit), unit_name(unit))
}

/// A length in both units, as running text: `12 mm (0.4724 in)`.
pub fn length_both(value: Length, unit: LengthUnit) -> String {
    format!("{} ({})", length(value, unit), length(value, other_unit(unit)))
}

/// `mm` or `in`.
pub fn unit_name(unit: LengthUnit) -> &'static str {
    match unit {
        LengthUnit::Mm => "mm",
        LengthUnit::Inch => "in",
    }
}

/// The unit that is not `unit`.
pub fn other_unit(unit: LengthUnit) -> LengthUnit {
    match unit {
        LengthUnit::Mm => LengthUnit::Inch,
        LengthUnit::Inch => LengthUnit::Mm,
    }
}

/// Units that stand behind a number in any text, and stay on its line.
pub const UNITS: [&str; 27] = [
    "mm", "in", "µm", "um", "mm²", "cm³", "°", "deg", "°C", "°F", "K", "N", "kN", "lbf", "MPa", "GPa", "kg", "t", "lb",
    "rpm", "m/min", "ft/min", "mm/rev", "g", "%", "HRC", "HV",
];

/// A value with its unit, lengths in `unit`.
pub fn value(v: &Value, unit: LengthUnit) -> String {
    decimals_value(v, unit, None)
}

/// A value in the other system of units; empty where both are the same.
pub fn value_other(v: &Value, unit: LengthUnit) -> String {
    let imperial = unit == LengthUnit::Mm;
    match v {
        Value::Length(l) => length(*l, other_unit(unit)),
        Value::Mass(m) if imperial => format!("{} lb", significant(m.as_pounds(), 4)),
        Value::Mass(m) => format!("{} kg", significant(m.as_kg(), 4)),
        Value::Force(f) if imperial => format!("{} lbf", significant(f.as_pounds_force(), 4)),
        Value::Force(f) => newtons(f.as_newtons()),
        Value::Temperature(t) if imperial => format!("{} °F", trimmed(t.as_fahrenheit(), 1)),
        Value::Temperature(t) => format!("{} °C", trimmed(t.as_celsius(), 1)),
        Value::CuttingSpeed(v) if imperial => format!("{} ft/min", fixed(v.as_sfm(), 0)),
        Value::CuttingSpeed(v) => format!("{} m/min", trimmed(v.as_m_per_min(), 1)),
        Value::Angle(a) => {
            let (negative, degrees, minutes) = a.as_degrees_minutes();
            format!("{}{degrees}°{:0>4}'", if negative { "-" } else { "" }, fixed(minutes, 1))
        }
        _ => String::new(),
    }
}

fn decimals_value(v: &Value, unit: LengthUnit, decimals: Option<usize>) -> String {
    let imperial = unit == LengthUnit::Inch;
    let put = |x: f64, usual: usize| decimals.map_or_else(|| trimmed(x, usual), |d| fixed(x, d));
    match v {
        Value::Length(l) => match (decimals, unit) {
            (None, _) => length(*l, unit),
            (Some(d), LengthUnit::Mm) => format!("{} mm", fixed(l.as_mm(), d)),
            (Some(d), LengthUnit::Inch) => format!("{} in", fixed(l.as_inches(), d)),
        },
        Value::Angle(a) => format!("{}°", put(a.as_degrees(), 3)),
        Value::Area(a) => format!("{} mm²", significant(a.as_mm2(), 5)),
        Value::Volume(w) => format!("{} cm³", significant(w.as_mm3() / 1000.0, 5)),
        Value::Mass(m) if imperial => format!("{} lb", significant(m.as_pounds(), 4)),
        Value::Mass(m) => format!("{} kg", significant(m.as_kg(), 4)),
        Value::Force(f) if imperial => format!("{} lbf", significant(f.as_pounds_force(), 4)),
        Value::Force(f) => newtons(f.as_newtons()),
        Value::Torque(t) => format!("{} N m", significant(t.as_newton_metres(), 4)),
        Value::Stress(s) => format!("{} MPa", significant(s.as_mpa(), 4)),
        Value::Temperature(t) if imperial => format!("{} °F", trimmed(t.as_fahrenheit(), 1)),
        Value::Temperature(t) => format!("{} °C", put(t.as_celsius(), 1)),
        Value::TemperatureChange(t) => format!("{} K", put(t.as_kelvin(), 1)),
        Value::SpindleSpeed(n) => format!("{} rpm", n.whole()),
        Value::CuttingSpeed(s) if imperial => format!("{} ft/min", fixed(s.as_sfm(), 0)),
        Value::CuttingSpeed(s) => format!("{} m/min", put(s.as_m_per_min(), 1)),
        Value::Acceleration(a) => format!("{} g", put(a.as_g(), 3)),
        Value::Number(x) => put(*x, 4),
        Value::Share(x) => format!("{} %", trimmed(x * 100.0, 2)),
        Value::Count(n) => n.to_string(),
        Value::Text(t) => t.clone(),
    }
}

fn newtons(n: f64) -> String {
    if n.abs() >= 10_000.0 { format!("{} kN", significant(n / 1000.0, 4)) } else { format!("{} N", significant(n, 4)) }
}

/// So many significant figures, no exponent, trailing zeros dropped.
pub fn significant(x: f64, figures: i32) -> String {
    if x == 0.0 || !x.is_finite() {
        return trimmed(x, 0);
    }
    let magnitude = libm::floor(libm::log10(x.abs())) as i32;
    let decimals = (figures - 1 - magnitude).clamp(0, 9) as usize;
    trimmed(x, decimals)
}

/// The line of the list of sizes for one dimension.
pub fn dimension_line(d: &Dimension, unit: LengthUnit) -> DimensionLine {
    let limit = |pick: fn(&crate::design::Limits) -> Length, unit| {
        d.limits.as_ref().map_or_else(String::new, |l| limit_number(pick(l), unit, l.upper - l.lower))
    };
    let other = other_unit(unit);
    DimensionLine {
        key: d.key.clone(),
        label: d.label.clone(),
        size: value(&d.value, unit),
        other: value_other(&d.value, unit),
        least: limit(|l| l.lower, unit),
        most: limit(|l| l.upper, unit),
        other_limits: (limit(|l| l.lower, other), limit(|l| l.upper, other)),
        by: d.limits.as_ref().map_or_else(String::new, |l| l.by.clone()),
        how: match &d.origin {
            Origin::Given(text) => format!("given: {text}"),
            Origin::Assumed(why) => format!("assumed: {why}"),
            Origin::Computed(formula) => (*formula).into(),
        },
    }
}

/// The line of the list of findings for one check. Value and limit get just enough decimals to differ where they do.
pub fn finding_line(f: &Finding, unit: LengthUnit) -> FindingLine {
    let (value_text, limit_text) = match (&f.value, f.limit.value()) {
        (Some(v), Some(l)) => apart(v, l, unit),
        (v, l) => {
            (v.as_ref().map_or_else(String::new, |v| value(v, unit)), l.map_or_else(String::new, |l| value(l, unit)))
        }
    };
    let limit = if limit_text.is_empty() { limit_text } else { format!("{} {limit_text}", f.limit.word()) };
    // A range runs on from its lower end; any other limit stands by itself.
    let numbers = match (value_text.is_empty(), limit.is_empty()) {
        (false, false) if matches!(f.limit, Limit::To(_)) => format!(": {value_text} {limit}"),
        (false, false) => format!(": {value_text}, {limit}"),
        (true, true) => String::new(),
        _ => format!(": {value_text}{limit}"),
    };
    FindingLine {
        key: f.key.clone(),
        verdict: f.verdict.word(),
        what: f.what.clone(),
        head: format!("{}{numbers}", f.what),
        value: value_text,
        limit,
        because: f.because.clone(),
        source: f.source.to_string(),
    }
}

fn apart(v: &Value, l: &Value, unit: LengthUnit) -> (String, String) {
    let mut texts = (value(v, unit), value(l, unit));
    let mut decimals = 4;
    while texts.0 == texts.1 && v.number() != l.number() && decimals <= 9 {
        texts = (decimals_value(v, unit, Some(decimals)), decimals_value(l, unit, Some(decimals)));
        decimals += 1;
    }
    texts
}

/// All lines of the list of sizes.
pub fn dimension_lines(design: &Design) -> Vec<DimensionLine> {
    design.dimensions.iter().map(|d| dimension_line(d, design.header.unit)).collect()
}

/// All lines of the list of findings.
pub fn finding_lines(design: &Design) -> Vec<FindingLine> {
    design.findings.iter().map(|f| finding_line(f, design.header.unit)).collect()
}
