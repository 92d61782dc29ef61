//! Every number of a design as text, once: terminal, bench sheet, JSON and drawing print these same strings.

use crate::record::design::{Design, Dimension, Finding, Limit, Note, Origin, Share, Value};
use crate::record::reading::Reading;
use crate::units::show::fixed;
pub use crate::units::show::trimmed;
use crate::units::{Angle, Force, Length, LengthUnit};

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
    /// What was measured of it: `59.98 good`, of several pieces each with its number; empty where nothing was.
    pub measured: String,
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

/// From what the spread of a figure comes: `seat height: cone angle 81 %, hole 14 %, plate 5 %`; none where it has no spread.
pub fn shares(d: &Dimension) -> Option<String> {
    let one = |s: &Share| format!("{} {} %", s.what, fixed(s.share * 100.0, 0));
    // What would be printed as nought is left out.
    let told: Vec<String> = d.shares.iter().filter(|s| s.share >= 0.005).map(one).collect();
    (!told.is_empty()).then(|| format!("{}: {}", d.label, told.join(", ")))
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

/// Beginning of the names of general tolerances, which are said once for all sizes.
pub const GENERAL: &str = "ISO 2768";

/// Limits of size without their unit, least and greatest: 3 decimals in mm (a fourth where it is not nought and the
/// limits lie closer than 0.1 mm), 4 in inch. They are rounded inward, so that no printed limit permits what the exact
/// one forbids; where nothing would be left between them, they get more figures.
pub fn limit_pair(lower: Length, upper: Length, unit: LengthUnit) -> [String; 2] {
    printed(lower, upper, unit).map(|p| p.text)
}

/// A printed limit: its text, and what the text says, in steps of its last figure.
struct Printed {
    text: String,
    steps: f64,
    decimals: usize,
}

fn printed(lower: Length, upper: Length, unit: LengthUnit) -> [Printed; 2] {
    let fine = unit == LengthUnit::Mm && upper - lower < Length::mm(0.1);
    let usual = if unit == LengthUnit::Inch || fine { 4 } else { 3 };
    let at = |decimals| [inward(lower, unit, decimals, 1.0), inward(upper, unit, decimals, -1.0)];
    let decimals = match lower < upper {
        true => {
            (usual..=MOST_DECIMALS).find(|d| matches!(at(*d), [least, most] if least < most)).unwrap_or(MOST_DECIMALS)
        }
        false => usual,
    };
    let nearest = |limit| (in_unit(limit, unit) * power(decimals)).round();
    // A measured size is its own least and greatest.
    let steps = if lower < upper { at(decimals) } else { [nearest(lower), nearest(upper)] };
    steps.map(|steps| {
        let text = fixed(steps / power(decimals), decimals);
        let short = text.strip_suffix('0').filter(|_| fine && decimals == usual).map(str::to_string);
        Printed { text: short.unwrap_or(text), steps, decimals }
    })
}

/// Limits never get more figures than a ten-millionth.
const MOST_DECIMALS: usize = 7;

/// A limit in steps of its last figure, moved up (`sense` +1) or down (−1) to a whole one; what lies within the noise
/// of the last bits of one counts as that.
fn inward(limit: Length, unit: LengthUnit, decimals: usize, sense: f64) -> f64 {
    let exact = in_unit(limit, unit) * power(decimals);
    let near = exact.round();
    if (exact - near).abs() < 1e-5 { near } else { (exact * sense).ceil() * sense }
}

fn in_unit(length: Length, unit: LengthUnit) -> f64 {
    match unit {
        LengthUnit::Mm => length.as_mm(),
        LengthUnit::Inch => length.as_inches(),
    }
}

fn power(decimals: usize) -> f64 {
    (0..decimals).fold(1.0, |p, _| p * 10.0)
}

/// A size as it stands on the drawing and in every list: with close limits of its own to the last figure that they
/// count from. A size that lies on a limit is printed as that limit, rounded inward: no size is printed outside its limits.
pub fn size_number(size: Length, limits: Option<&crate::record::design::Limits>, unit: LengthUnit) -> String {
    let fine = limits.is_some_and(|l| !l.by.starts_with(GENERAL) && l.upper - l.lower < Length::mm(0.1));
    let text = if fine && unit == LengthUnit::Mm { trimmed(size.as_mm(), 4) } else { length_number(size, unit) };
    let Some(l) = limits.filter(|l| l.lower <= size && size <= l.upper) else { return text };
    let [least, most] = limit_pair(l.lower, l.upper, unit);
    let [shown, from, to] = [&text, &least, &most].map(|t| t.parse::<f64>().unwrap_or(f64::NAN));
    match (shown < from, shown > to) {
        (true, _) => least,
        (_, true) => most,
        _ => text,
    }
}

/// Deviations from the printed size to the printed limits: `(+0.021 / 0)`, or `±0.1` where both are alike.
pub fn deviations(size: Length, limits: &crate::record::design::Limits, unit: LengthUnit) -> String {
    let shown = size_number(size, Some(limits), unit);
    let [lower, upper] = printed(limits.lower, limits.upper, unit).map(|limit| {
        // Both are whole steps of the finer of the two last figures.
        let decimals = limit.decimals.max(shown.split('.').nth(1).map_or(0, str::len));
        let steps = limit.steps * power(decimals - limit.decimals);
        let from = (shown.parse::<f64>().unwrap_or_else(|_| in_unit(size, unit)) * power(decimals)).round();
        signed((steps - from) / power(decimals), decimals)
    });
    match (upper.strip_prefix('+'), lower.strip_prefix('−')) {
        (Some(up), Some(down)) if up == down => format!("±{up}"),
        _ => format!("({upper} / {lower})"),
    }
}

fn signed(deviation: f64, decimals: usize) -> String {
    let text = trimmed(deviation, decimals);
    match text.strip_prefix('-') {
        Some(size) => format!("−{size}"),
        None if text == "0" => text,
        None => format!("+{text}"),
    }
}

/// How many are to be made, as `2 to make`; nothing for what has no solid: it is a check, and nobody makes it.
pub fn wanted(design: &Design) -> Option<String> {
    (!design.solids.is_empty()).then(|| format!("{} to make", design.header.count))
}

/// A short mark that changes whenever a size, a limit or a step of the work changes, so that two printouts of a
/// changed part can be told apart: six figures of FNV-1a over what is shown.
pub fn revision(design: &Design) -> String {
    let unit = design.header.unit;
    let sizes = dimension_lines(design).into_iter().flat_map(|l| [l.key, l.size, l.least, l.most, l.by]);
    let steps = design.operations.iter().map(|o| o.text.clone());
    let cells = design.tables.iter().flat_map(|t| t.rows.iter().flatten()).map(|v| value(v, unit));
    let material = design.header.material.clone();
    mark(sizes.chain(steps).chain(cells).chain(material))
}

/// Six figures of FNV-1a over texts.
pub fn mark(texts: impl Iterator<Item = String>) -> String {
    let mut hash: u64 = 0xcbf2_9ce4_8422_2325;
    for text in texts {
        for byte in text.bytes().chain([0]) {
            hash = (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
        }
    }
    format!("{:06x}", (hash ^ (hash >> 24) ^ (hash >> 48)) & 0x00ff_ffff)
}

/// A length with its unit; in an inch job what is less than a ten-thousandth is said in microinches (common practice, no
/// source).
pub fn length(length: Length, unit: LengthUnit) -> String {
    let micro = length.as_inches() * 1e6;
    if unit == LengthUnit::Inch && micro.abs() < 99.95 && micro.abs() > 0.05 {
        return format!("{} µin", trimmed(micro, if micro.abs() < 10.0 { 1 } else { 0 }));
    }
    format!("{} {}", length_number(length, unit), unit_name(unit))
}

/// Preferred roughness, µin.
/// Source: ASME B46.1, recommended roughness averages 1 to 1000 µin, which pair with 0.025 to 25 µm; from memory.
const MICROINCHES: [f64; 11] = [1.0, 2.0, 4.0, 8.0, 16.0, 32.0, 63.0, 125.0, 250.0, 500.0, 1000.0];

/// Roughness as it stands beside its sign: `Ra 0.8` in micrometres, in an inch job `Ra 32 µin`, where it lies close to a
/// preferred value as that.
pub fn roughness(ra: Length, unit: LengthUnit) -> String {
    if unit == LengthUnit::Mm {
        return format!("Ra {}", trimmed(ra.as_um(), 2));
    }
    let exact = ra.as_inches() * 1e6;
    let preferred = MICROINCHES.iter().find(|m| (exact / **m - 1.0).abs() < 0.025);
    format!("Ra {} µin", preferred.map_or_else(|| significant(exact, 3), |m| trimmed(*m, 0)))
}

/// A length in both units, as running text: `12 mm (0.4724 in)`.
pub fn length_both(value: Length, unit: LengthUnit) -> String {
    format!("{} ({})", length(value, unit), length(value, other_unit(unit)))
}

/// What speaks of lengths and forces in a sentence, in the unit that the part is written in.
#[derive(Clone, Copy, Debug)]
pub struct Say(pub LengthUnit);

impl Say {
    /// A length as it is recorded; "no end of" where nothing bounds it.
    pub fn length(self, l: Length) -> String {
        if l.is_finite() { length(l.rounded(), self.0) } else { "no end of".into() }
    }

    /// A force; in pounds with newtons beside them where the part is written in inches.
    pub fn force(self, f: Force) -> String {
        let (own, other) = (value(&Value::Force(f), self.0), value_other(&Value::Force(f), self.0));
        if self.0 == LengthUnit::Inch { format!("{own} ({other})") } else { own }
    }

    /// An angle.
    pub fn angle(self, angle: Angle) -> String {
        value(&Value::Angle(angle), self.0)
    }

    /// A slope, as what it rises over a metre, or over a foot.
    pub fn slope(self, angle: Angle) -> String {
        match self.0 {
            LengthUnit::Mm => format!("{} mm on a metre", trimmed(angle.tan() * 1000.0, 2)),
            LengthUnit::Inch => format!("{} in on a foot", trimmed(angle.tan() * 12.0, 3)),
        }
    }
}

impl Design {
    /// How its sentences speak of lengths and forces.
    pub fn say(&self) -> Say {
        Say(self.header.unit)
    }
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
pub const UNITS: [&str; 28] = [
    "mm", "in", "µin", "µm", "um", "mm²", "cm³", "°", "deg", "°C", "°F", "K", "N", "kN", "lbf", "MPa", "GPa", "kg",
    "t", "lb", "rpm", "m/min", "ft/min", "mm/rev", "g", "%", "HRC", "HV",
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
        Value::Force(f) if imperial => pounds(f.as_pounds_force()),
        Value::Force(f) => newtons(f.as_newtons()),
        Value::Torque(t) if imperial => format!("{} lbf ft", significant(t.as_pound_force_feet(), 4)),
        Value::Torque(t) => format!("{} N m", significant(t.as_newton_metres(), 4)),
        Value::Temperature(t) if imperial => format!("{} °F", trimmed(t.as_fahrenheit(), 1)),
        Value::Temperature(t) => format!("{} °C", trimmed(t.as_celsius(), 1)),
        Value::Angle(a) => {
            let (negative, degrees, minutes) = a.as_degrees_minutes();
            let minutes = fixed(minutes, 1);
            let sign = if negative && (degrees > 0 || minutes != "0.0") { "-" } else { "" };
            format!("{sign}{degrees}°{minutes:0>4}'")
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
        Value::Force(f) if imperial => pounds(f.as_pounds_force()),
        Value::Force(f) => newtons(f.as_newtons()),
        Value::Torque(t) if imperial => format!("{} lbf ft", significant(t.as_pound_force_feet(), 4)),
        Value::Torque(t) => format!("{} N m", significant(t.as_newton_metres(), 4)),
        Value::Stress(s) => format!("{} MPa", significant(s.as_mpa(), 4)),
        Value::Temperature(t) if imperial => format!("{} °F", trimmed(t.as_fahrenheit(), 1)),
        Value::Temperature(t) => format!("{} °C", put(t.as_celsius(), 1)),
        Value::TemperatureChange(t) => format!("{} K", put(t.as_kelvin(), 1)),
        Value::SpindleSpeed(n) => format!("{} rpm", n.whole()),
        Value::Acceleration(a) => format!("{} g", put(a.as_g(), 3)),
        Value::Number(x) => put(*x, 4),
        Value::Share(x) => format!("{} %", trimmed(x * 100.0, 2)),
        Value::Count(n) => n.to_string(),
        Value::Text(t) => t.clone(),
    }
}

/// A force below what a scale under a frame could tell is nought: what a sum that cancels leaves is no figure.
fn newtons(n: f64) -> String {
    let n = if n.abs() < 0.05 { 0.0 } else { n };
    if n.abs() >= 10_000.0 { format!("{} kN", significant(n / 1000.0, 4)) } else { format!("{} N", significant(n, 4)) }
}

fn pounds(n: f64) -> String {
    format!("{} lbf", significant(if n.abs() < 0.01 { 0.0 } else { n }, 4))
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

/// Least and greatest angle, in degrees and in degrees and minutes; empty where there are no limits.
fn angle_limits(d: &Dimension, unit: LengthUnit) -> Option<[(String, String); 2]> {
    let limits = d.angle_limits.as_ref()?;
    Some([limits.lower, limits.upper].map(|a| (value(&Value::Angle(a), unit), value_other(&Value::Angle(a), unit))))
}

/// The line of the list of sizes for one dimension.
pub fn dimension_line(d: &Dimension, unit: LengthUnit) -> DimensionLine {
    let limits = |unit| match &d.limits {
        Some(l) => limit_pair(l.lower, l.upper, unit),
        None => [String::new(), String::new()],
    };
    let ([least, most], [other_least, other_most]) = (limits(unit), limits(other_unit(unit)));
    let size = match &d.value {
        Value::Length(size) if d.limits.is_some() => {
            format!("{} {}", size_number(*size, d.limits.as_ref(), unit), unit_name(unit))
        }
        other => value(other, unit),
    };
    if let Some([(least, other_least), (most, other_most)]) = angle_limits(d, unit) {
        return DimensionLine {
            least,
            most,
            other_limits: (other_least, other_most),
            by: d.angle_limits.as_ref().map_or_else(String::new, |l| l.by.clone()),
            ..dimension_line(&Dimension { angle_limits: None, ..d.clone() }, unit)
        };
    }
    DimensionLine {
        key: d.key.clone(),
        label: d.label.clone(),
        size,
        other: match &d.value {
            Value::Length(size) if d.limits.is_some() => {
                let other = other_unit(unit);
                format!("{} {}", size_number(*size, d.limits.as_ref(), other), unit_name(other))
            }
            other => value_other(other, unit),
        },
        least,
        most,
        other_limits: (other_least, other_most),
        by: d.limits.as_ref().map_or_else(String::new, |l| l.by.clone()),
        how: match &d.origin {
            Origin::Given(text) => format!("given: {text}"),
            Origin::Assumed(why) => format!("assumed: {why}"),
            Origin::Computed(formula) => (*formula).into(),
        },
        measured: measured(d, unit),
    }
}

/// The readings of a size that count: `59.98 mm good`; where pieces are told apart `1: 59.98 mm good, 2: 60.41 mm not good`.
fn measured(d: &Dimension, unit: LengthUnit) -> String {
    let all = d.measured();
    let several = all.iter().any(|r| r.piece > 1);
    let one = |r: &&Reading| {
        let piece = if several { format!("{}: ", r.piece) } else { String::new() };
        let said = r.decision.map_or_else(String::new, |decision| format!(" {}", decision.said()));
        format!("{piece}{}{said}", value(&r.value, unit))
    };
    all.iter().map(one).collect::<Vec<_>>().join(", ")
}

/// The line of the list of findings for one check. Value and limit get just enough decimals to differ where they do.
pub fn finding_line(f: &Finding, unit: LengthUnit) -> FindingLine {
    let (value_text, limit_text) = match (&f.value, f.limit.value()) {
        (Some(v), Some(l)) => apart(v, l, unit),
        (v, l) => {
            (v.as_ref().map_or_else(String::new, |v| value(v, unit)), l.map_or_else(String::new, |l| value(l, unit)))
        }
    };
    // Less than nothing is said in words: it goes by itself.
    let value_text = match (&f.value, &f.limit) {
        (Some(Value::Acceleration(a)), Limit::AtLeast(_)) if a.as_g() < 0.0 => {
            format!("none, {} g short of standing by itself", trimmed(-a.as_g(), 3))
        }
        _ => value_text,
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::design::Limits;
    use crate::source::Confirmed;

    #[test]
    fn nought_degrees_have_no_sign() {
        let other = |degrees: f64| value_other(&Value::Angle(Angle::degrees(degrees)), LengthUnit::Mm);
        assert_eq!(other(-0.0), "0°00.0'");
        assert_eq!(other(-0.0004), "0°00.0'");
        assert_eq!(other(-0.5), "-0°30.0'");
        assert_eq!(value(&Value::Angle(Angle::degrees(-0.0)), LengthUnit::Mm), "0°");
    }

    /// 0.02 mm is 0.00079 in: as a limit 0.0007, and the size that may be as great reads no more.
    #[test]
    fn an_error_of_form_is_no_greater_than_its_limit() {
        let (size, by) = (Length::mm(0.02), String::from("as drawn"));
        let limits = Limits { lower: Length::ZERO, upper: size, by, confirmed: Confirmed::TwoOrMore };
        assert_eq!(limit_pair(limits.lower, limits.upper, LengthUnit::Inch)[1], "0.0007");
        assert_eq!(size_number(size, Some(&limits), LengthUnit::Inch), "0.0007");
        assert_eq!(size_number(size, Some(&limits), LengthUnit::Mm), "0.02");
        assert_eq!(size_number(size, None, LengthUnit::Inch), "0.0008");
    }

    /// A drawing and its table must not contradict each other: size and deviations come to the printed limits.
    #[test]
    fn size_and_deviations_add_up_to_the_limits() {
        let steps = |text: &str| (text.replace('−', "-").parse::<f64>().unwrap() * 1e7).round() as i64;
        let sizes = [25.0, 25.4, 1.2526, 38.0, 9.525, 60.3249, 15.48];
        let zones = [(-0.009, 0.0), (0.0, 0.021), (-0.0138, 0.0137), (-0.3, 0.3), (-0.002, 0.0), (0.0071, 0.0129)];
        for (size, (lower, upper), unit) in sizes
            .iter()
            .flat_map(|s| zones.iter().flat_map(move |z| [LengthUnit::Mm, LengthUnit::Inch].map(|unit| (*s, *z, unit))))
        {
            let (size, by) = (Length::mm(size), String::from("as written"));
            let limits = Limits {
                lower: size + Length::mm(lower),
                upper: size + Length::mm(upper),
                by,
                confirmed: Confirmed::TwoOrMore,
            };
            let [least, most] = limit_pair(limits.lower, limits.upper, unit);
            let (number, text) = (size_number(size, Some(&limits), unit), deviations(size, &limits, unit));
            let ends = match text.strip_prefix('±') {
                Some(both) => [format!("-{both}"), both.to_string()],
                None => {
                    let (up, down) = text.trim_matches(['(', ')']).split_once(" / ").unwrap();
                    [down.to_string(), up.to_string()]
                }
            };
            let told = format!("{number} {text} against {least} to {most}");
            if lower <= 0.0 && upper >= 0.0 {
                assert!((steps(&least)..=steps(&most)).contains(&steps(&number)), "{told}");
            }
            assert_eq!(
                [&ends[0], &ends[1]].map(|d| steps(&number) + steps(d)),
                [steps(&least), steps(&most)],
                "{told}"
            );
        }
    }
}
