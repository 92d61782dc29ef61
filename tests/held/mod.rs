//! What every design must hold, whatever part it is of: names that mean something, numbers that are some, limits in
//! order, drawings that show what was recorded, files without anything unseen.
#![allow(dead_code, reason = "each test uses the part that it needs")]

use setdown::export::{self, Options};
use setdown::printable::first_unseen;
use setdown::record::design::{Design, LEAST_LIMIT, Operation, Value, Verdict};
use setdown::record::drawing::{Drawn, How, Picture, Side, View};
use setdown::record::show;
use setdown::standards::stock;
use setdown::units::{Length, LengthUnit};

/// Lengths are recorded to 0.1 µm; a drawing has them as they were written.
const RECORDED: f64 = 1.5e-4;

/// Everything that does not hold, each as a sentence.
pub fn faults(design: &Design) -> Vec<String> {
    [sure_faults(design), one_text(design)].concat()
}

/// What does not hold whatever figures a part has. Two sizes of a part that was spoilt at random may lie within a rounding of
/// each other and be two sizes: what looks like one figure in two roundings is judged on parts that are the same on every run.
pub fn sure_faults(design: &Design) -> Vec<String> {
    [
        dimensions(design),
        findings(design),
        tables(design),
        operations(design),
        sentences(design),
        laid_out(design),
        at_a_speed(design),
        drawings(design),
        solids(design),
        bars(design),
    ]
    .concat()
}

fn is_number(value: &Value) -> bool {
    matches!(value, Value::Text(_)) || value.number().is_finite()
}

fn dimensions(design: &Design) -> Vec<String> {
    let mut found = Vec::new();
    for (i, d) in design.dimensions.iter().enumerate() {
        if design.dimensions[..i].iter().any(|other| other.key == d.key) {
            found.push(format!("{} is recorded twice", d.key));
        }
        if !is_number(&d.value) {
            found.push(format!("{} is {:?}", d.key, d.value));
        }
        if let Some(a) = &d.angle_limits {
            let (lower, upper, angle) = (a.lower.as_degrees(), a.upper.as_degrees(), d.value.number());
            if !(lower <= angle && angle <= upper) {
                found.push(format!("limits of {}: {lower} to {upper} degrees round {angle}", d.key));
            }
        }
        let Some(l) = &d.limits else { continue };
        let (lower, upper) = (l.lower.as_mm(), l.upper.as_mm());
        if !(lower.is_finite() && upper.is_finite() && lower <= upper) {
            found.push(format!("limits of {}: {lower} to {upper}", d.key));
        }
        if !d.may_vanish && l.lower < LEAST_LIMIT {
            found.push(format!("least {} is {lower}", d.key));
        }
    }
    found
}

fn findings(design: &Design) -> Vec<String> {
    let mut found = Vec::new();
    for f in &design.findings {
        if f.value.as_ref().into_iter().chain(f.limit.value()).any(|v| !is_number(v)) {
            found.push(format!("{} holds {:?} against {:?}", f.key, f.value, f.limit));
        }
        if f.verdict == Verdict::Ok && f.value.as_ref().is_some_and(|v| f.limit.is_missed_by(v)) {
            found.push(format!("{} is in order: {:?}, {:?}", f.key, f.value, f.limit));
        }
    }
    found
}

fn tables(design: &Design) -> Vec<String> {
    let mut found = Vec::new();
    for t in &design.tables {
        if t.rows.iter().any(|row| row.len() != t.columns.len()) {
            found.push(format!("table {} is ragged", t.key));
        }
        if let Some(value) = t.rows.iter().flatten().find(|v| !is_number(v)) {
            found.push(format!("table {} holds {value:?}", t.key));
        }
    }
    found
}

/// Tools of the trade as steps name them, and what the list must then hold. Common practice, no source.
const NAMED: [(&str, &str); 30] = [
    ("centre drill", "centre drill"),
    ("tap ", "tap "),
    ("ream ", "reamer"),
    ("pilot hole", "drill"),
    (" rpm for ", "twist drill"),
    ("through one wall", "twist drill"),
    ("drill and bore", "twist drill"),
    ("stub arbor", "stub of bar"),
    ("stub that is turned", "stub of bar"),
    ("mandrel", "mandrel"),
    ("steady,", "steady"),
    ("follow rest", "follow rest"),
    ("soft jaws", "soft jaws"),
    ("part off", "parting tool"),
    ("counterbore", "counterbore"),
    ("countersink", "countersink"),
    ("pins", "pins"),
    ("step drill", "step drill"),
    ("two rollers", "rollers"),
    ("flat plate", "flat plate"),
    ("blocks", "blocks"),
    ("v-block", "v-block"),
    ("face plate", "face plate"),
    ("parallels", "parallels"),
    ("clamps", "clamps"),
    ("scraper", "scraper"),
    ("deburr", "deburring"),
    ("feeler gauge", "feeler gauge"),
    ("weld gauge", "weld gauge"),
    ("groove on the outside", "grooving tool"),
];

/// Tools of the list that steps name by another word.
const OTHERWISE: [(&str, &[&str]); 18] = [
    ("scrap to set the depth stop on", &["depth stop"]),
    ("boring bar", &["bore"]),
    ("saw", &["saw"]),
    ("parting tool", &["part off"]),
    ("threading tool", &["screw"]),
    ("grooving tool", &["groove"]),
    ("stub of bar", &["stub"]),
    ("strap wrench", &["strap"]),
    ("file", &["burr", "break", "round", "chamfer"]),
    ("twist drill", &["drill"]),
    ("drill for the pilot", &["pilot"]),
    ("reamer", &["ream"]),
    ("two centres", &["between centres"]),
    ("running centre", &["centre"]),
    ("check ring", &["ring"]),
    ("marking blue", &["blue"]),
    ("lapping plate", &["lap "]),
    ("two pins", &["m6 pins"]),
];

/// Every tool that a step names is laid out, and nothing is laid out that no step names.
fn laid_out(design: &Design) -> Vec<String> {
    let mut found = Vec::new();
    let list = design.tools.join("\n").to_lowercase();
    let words = |o: &Operation| {
        let with: Vec<&str> = o.measure.iter().map(|m| m.with.as_str()).collect();
        format!("{}: {} {}", o.at, o.text, with.join(" ")).to_lowercase()
    };
    let all: Vec<String> = design.operations.iter().map(words).collect();
    for step in &all {
        for (word, tool) in NAMED {
            if step.contains(word) && !list.contains(tool) {
                found.push(format!("a step names `{word}`, and no `{tool}` is laid out: {step}"));
            }
        }
    }
    for with in design.operations.iter().flat_map(|o| &o.measure).map(|m| m.with.as_str()) {
        let instrument = with.split(',').next().unwrap_or_default();
        if !list.contains(instrument) {
            found.push(format!("{instrument} is not laid out"));
        }
    }
    let all = all.join("\n");
    let places = design.operations.iter().map(|o| format!("{}: ", o.at)).collect::<Vec<_>>();
    let tools = design.tools.iter().filter_map(|line| places.iter().find_map(|at| line.strip_prefix(at.as_str())));
    for tool in tools.flat_map(|line| line.split("; ")) {
        let tool = tool.to_lowercase();
        let head: String = tool.split([',', '(']).next().unwrap_or_default().into();
        let head = head.split(char::is_numeric).next().unwrap_or_default().trim();
        let other = OTHERWISE.iter().filter(|(start, _)| tool.starts_with(start)).flat_map(|(_, words)| *words);
        let first = head.split(' ').next().unwrap_or_default();
        let named = all.contains(head) || other.clone().any(|word| all.contains(word));
        let named = named || (other.count() == 0 && first.len() > 2 && all.contains(first));
        if !named {
            found.push(format!("`{tool}` is laid out, and no step names it"));
        }
        // A drill of a size is laid out in the size that the step says.
        let sized = |size: &&str| size.starts_with(|c: char| c.is_ascii_digit()) && !all.contains(*size);
        if let Some(size) = tool.strip_prefix("twist drill ").filter(sized) {
            found.push(format!("a drill of {size} is laid out, and no step drills that"));
        }
    }
    found
}

/// Words of a cut that a machine makes.
const CUTS: [&str; 12] = [
    "face the",
    "face to",
    "face it",
    "turn the",
    "turn a screw",
    "drill the",
    "drill and",
    "bore to",
    "bore the",
    "part off",
    "counterbore",
    "round the nose",
];

/// Every step with a cut of a machine tells its speed, or that it is made by hand.
fn at_a_speed(design: &Design) -> Vec<String> {
    let cut = |o: &&Operation| {
        let text = o.text.to_lowercase();
        ["lathe", "drill press"].contains(&o.at) && CUTS.iter().any(|word| text.contains(word))
    };
    // The slide of a lathe is turned too.
    let told = |o: &&Operation| ["rpm", "by hand", "turn the slide"].iter().any(|word| o.text.contains(word));
    design.operations.iter().filter(cut).filter(|o| !told(o)).map(|o| format!("at what speed? {}", o.text)).collect()
}

/// Numbers of a text with that unit, as they stand there.
fn numbers<'t>(text: &'t str, unit: &'t str) -> impl Iterator<Item = &'t str> {
    let spots = text.match_indices(unit).filter(move |(at, _)| {
        let after = text[at + unit.len()..].chars().next();
        !after.is_some_and(|c| c.is_alphanumeric() || c == '²' || c == '³' || c == '/')
    });
    spots.filter_map(move |(at, _)| {
        let before = &text[..at];
        let start = before
            .rfind(|c: char| !(c.is_ascii_digit() || c == '.'))
            .map_or(0, |i| i + before[i..].chars().next().map_or(1, char::len_utf8));
        Some(&before[start..]).filter(|n| n.parse::<f64>().is_ok() && !before[..start].ends_with(['/', '-']))
    })
}

/// What is all but a recorded size is that size, printed with the same figures, in steps, reasons and the list of tools. The
/// size as recorded is the one that others agree with; its limits are rounded inward and are no nearer figure of it.
fn one_text(design: &Design) -> Vec<String> {
    let (unit, name) = (design.header.unit, format!(" {}", show::unit_name(design.header.unit)));
    // Two figures of a hundredth that lie a thousandth apart are two figures; two of a part's sizes are one.
    let (near, least) = if unit == LengthUnit::Mm { (0.0012, 2.0) } else { (0.000_12, 0.08) };
    if design.header.family == "landing" {
        return Vec::new();
    }
    let said = design.operations.iter().map(|o| o.text.as_str());
    let said =
        said.chain(design.findings.iter().map(|f| f.because.as_str())).chain(design.tools.iter().map(String::as_str));
    let lengths = design.dimensions.iter().filter(|d| matches!(d.value, Value::Length(_)));
    let lines: Vec<_> = lengths.map(|d| show::dimension_line(d, unit)).collect();
    let value = |text: &str| text.trim_end_matches(name.as_str()).parse::<f64>().ok();
    let all: Vec<f64> =
        lines.iter().flat_map(|l| [value(&l.size), value(&l.least), value(&l.most)]).flatten().collect();
    let other = |number: &str| {
        let n: f64 = number.parse().ok().filter(|n| *n >= least && number.contains('.'))?;
        let known = all.contains(&n);
        let line =
            lines.iter().find(|l| value(&l.size).is_some_and(|size| (size - n).abs() < near)).filter(|_| !known)?;
        Some(format!("{number}{name} is said, and {} of {} is recorded", line.size, line.key))
    };
    // How much of a piece is held is a figure of its own, in whole millimetres or sixteenths.
    let held = |text: &str| {
        let mut parts = text.split("hold at least ");
        let first = parts.next().unwrap_or_default().to_string();
        parts.fold(first, |all, part| all + part.split_once(' ').map_or("", |(_, rest)| rest))
    };
    said.flat_map(|text| numbers(&held(text), &name).filter_map(&other).collect::<Vec<_>>()).collect()
}

/// What is turned comes from a bar that is stocked, or from a forged round in whole steps.
fn bars(design: &Design) -> Vec<String> {
    let unit = design.header.unit;
    let step = if unit == LengthUnit::Mm { Length::mm(10.0) } else { Length::inches(0.5) };
    let near = |a: Length, b: Length| (a - b).abs() < Length::mm(1e-6);
    let sold = |d: Length| stock::bar_diameters(unit).iter().any(|s| near(*s, d)) || near(d, d.to_nearest(step));
    let across = design.bars.iter().filter_map(|b| b.across).filter(|d| !sold(*d));
    across.map(|d| format!("a bar of {} mm is sold by nobody", d.as_mm())).collect()
}

/// Two marks of punctuation meet, or one stands alone, where a sentence was put together of pieces.
fn sentences(design: &Design) -> Vec<String> {
    let steps = design.operations.iter().map(|o| &o.text);
    let reasons = design.findings.iter().map(|f| &f.because);
    let rest = design.notes.iter().map(|n| &n.text).chain(&design.tools);
    let odd = |text: &&String| {
        [",,", ", ,", " ,", ";;", "; ;", ". .", "..", ",.", "  "].iter().any(|marks| text.contains(marks))
    };
    steps.chain(reasons).chain(rest).filter(odd).map(|text| format!("punctuation of: {text}")).collect()
}

fn operations(design: &Design) -> Vec<String> {
    let mut found = Vec::new();
    for o in &design.operations {
        let missing = o.measure.iter().filter(|m| design.named(&m.key).is_none());
        found.extend(missing.map(|m| format!("`{}` measures {}, which is not recorded", o.text, m.key)));
        let table = o.table.map(|t| t.name()).filter(|t| !design.tables.iter().any(|other| other.key == *t));
        found.extend(table.map(|t| format!("`{}` names the table {t}, which is not there", o.text)));
        // What a step tells to take from a table stands beside it.
        let sends = ["by the table", "table says", "table beside"].iter().any(|words| o.text.contains(words));
        if sends && o.table.is_none() {
            found.push(format!("`{}` sends to a table that is not beside it", o.text));
        }
    }
    found
}

fn drawings(design: &Design) -> Vec<String> {
    let sections =
        design.pictures.iter().filter_map(|p| if let Picture::Section { view, .. } = p { Some(view) } else { None });
    let views: Vec<&View> = design.drawing.iter().flat_map(|d| &d.views).chain(sections).collect();
    let sizes = views.iter().flat_map(|v| v.dimensions.iter().filter_map(|d| drawn(design, d)));
    sizes.chain(tolerances(design, &views)).collect()
}

/// What stands behind a size and the width of every tolerance zone is recorded; every datum that a zone is held against is
/// marked somewhere in the drawing (ISO 5459).
fn tolerances(design: &Design, views: &[&View]) -> Vec<String> {
    let sizes = || views.iter().flat_map(|v| &v.dimensions);
    let frames: Vec<_> =
        sizes().flat_map(|d| &d.frames).chain(views.iter().flat_map(|v| v.frames.iter().map(|f| &f.2))).collect();
    let marked: Vec<char> =
        sizes().filter_map(|d| d.datum).chain(views.iter().flat_map(|v| v.datums.iter().map(|d| d.2))).collect();
    let behind = sizes().flat_map(|d| d.behind.iter().map(|(_, key)| key)).filter(|key| !key.is_empty());
    let keys = behind.chain(frames.iter().map(|f| &f.key));
    let lost = keys.filter(|key| design.named(key).is_none()).map(|key| format!("{key} is drawn and not recorded"));
    let datums = frames.iter().flat_map(|f| &f.to).filter(|letter| !marked.contains(letter));
    lost.chain(datums.map(|letter| format!("no datum {letter} is marked"))).collect()
}

/// What is drawn is what is recorded under its key, or lies within its limits: a cut edge is drawn in their middle. Words,
/// such as the widths of several shims, have no size of their own.
fn drawn(design: &Design, drawn: &Drawn) -> Option<String> {
    let key = &drawn.key;
    let Some(dimension) = design.named(key) else {
        return Some(format!("{key} is drawn and not recorded"));
    };
    if matches!(dimension.value, Value::Text(_)) {
        return None;
    }
    let recorded = dimension.value.number();
    let shown = match &drawn.how {
        How::Across { from, to, side: Side::Above | Side::Below, .. } => (to.x() - from.x()).abs().as_mm(),
        How::Across { from, to, .. } => (to.y() - from.y()).abs().as_mm(),
        How::Hole { diameter, .. } => diameter.as_mm(),
        How::Radius { radius, .. } => radius.as_mm(),
        How::Corner { from, to, .. } => (*to - *from).as_degrees(),
        How::Taper { .. } | How::Note { .. } => return None,
    };
    let (low, high) = dimension.limits.as_ref().map_or((recorded, recorded), |l| (l.lower.as_mm(), l.upper.as_mm()));
    let (low, high) = (low.min(recorded) - RECORDED, high.max(recorded) + RECORDED);
    (!(low..=high).contains(&shown)).then(|| format!("{key} is recorded as {recorded} and drawn as {shown}"))
}

fn solids(design: &Design) -> Vec<String> {
    let volumes = design.solids.iter().map(|s| s.body.volume().as_mm3());
    volumes.filter(|v| !v.is_finite() || *v <= 0.0).map(|v| format!("a solid of {v} mm³")).collect()
}

/// Names and bytes of a part's files.
type Files = Vec<(String, Vec<u8>)>;

/// Files of every format, and what does not hold in them.
///
/// # Errors
/// A file that cannot be made.
pub fn files(design: &Design, chord: Length) -> Result<(Files, Vec<String>), String> {
    let options = Options { chord_tolerance: chord, ..Options::default() };
    let files = export::files(design, &options).map_err(|e| e.to_string())?;
    let mut found = Vec::new();
    for (name, bytes) in &files {
        let Ok(text) = std::str::from_utf8(bytes) else { continue };
        if !["txt", "json", "svg", "dxf", "step"].iter().any(|e| name.ends_with(&format!(".{e}"))) {
            continue;
        }
        let lines = text.replace("\r\n", "\n");
        if let Some((at, c, _)) = lines.split('\n').find_map(first_unseen) {
            found.push(format!("{name}: U+{:04X} at {at} of a line", u32::from(c)));
        }
        let words = lines.split(|c: char| !c.is_ascii_alphanumeric());
        found.extend(words.filter(|w| matches!(*w, "NaN" | "nan" | "inf" | "Inf")).map(|w| format!("{name}: {w}")));
    }
    Ok((files, found))
}
