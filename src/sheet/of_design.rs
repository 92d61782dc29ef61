//! A finished design put into the words of its sheets: every number comes from the place where it was recorded.

use crate::record::design::{Caution, Design, Dimension, Finding, Header, Limits, Operation, Table, Value, Verdict};
use crate::record::drawing::{Drawing, Picture, SeatMark, View};
use crate::record::look;
use crate::record::reading::Reading;
use crate::record::show;
use crate::shape::Body;
use crate::sheet::content::{Content, Filled, FindingText, Grid, MeasureRow, Outcome, SizeRow, StepText, Style};
use crate::sheet::label::Label;
use crate::sheet::scale::Paper;
use crate::sheet::trace::bare_area;
use crate::sheet::view::{self, Labels};
use crate::sheet::{Mark, Page, landing_pictures, layout, pictures, template};
use crate::units::show::trimmed;
use crate::units::{Angle, Length, LengthUnit};

/// All sheets of a part.
///
/// # Errors
/// A drawing that would be empty, illegible or incomplete; the sentence says why.
pub fn sheets(design: &Design, style: &Style) -> Result<layout::Sheets, String> {
    layout::sheets(&content(design), style)
}

/// The paper template of a flat part, or of what is wrapped round a part; no page for any other.
pub fn template(design: &Design, paper: Paper) -> Vec<Page> {
    let name = design.header.name.as_str();
    design
        .cutting
        .as_ref()
        .or(design.wrap.as_ref())
        .map_or_else(Vec::new, |cutting| template::template(cutting, name, paper))
}

/// Everything that the sheets of a part say.
pub fn content(design: &Design) -> Content {
    let header = &design.header;
    let unit = header.unit;
    let loose = |t: &&Table| !design.operations.iter().any(|o| o.table.is_some_and(|name| name.name() == t.key));
    let at_hand = |t: &&Table| design.at_hand.iter().any(|name| name.name() == t.key);
    let tables = || design.tables.iter().filter(loose);
    // An assembly takes its plan to the bench, and how far it may be pushed; the others stand among the reasons.
    let nth =
        |wanted: fn(&Picture) -> bool| design.pictures.iter().position(wanted).filter(|_| design.solids.is_empty());
    let plan = nth(|p| matches!(p, Picture::Seats { .. }));
    let pushed = nth(|p| matches!(p, Picture::Polar { .. }));
    let at_bench = |i: usize| plan == Some(i) || pushed == Some(i);
    let drawn = |i: usize| design.pictures.get(i).map(|p| picture(p, unit));
    let rest = (0..design.pictures.len()).filter(|i| !at_bench(*i));
    Content {
        name: header.name.clone(),
        number: header.stem.clone(),
        revision: show::revision(design),
        kind: capitalised(header.family),
        material: header.material.clone().unwrap_or_default(),
        count: header.count,
        note: header.note.clone().unwrap_or_default(),
        unit: show::unit_name(unit).into(),
        general: general(design),
        drawing: design.drawing.clone().unwrap_or_else(|| bare(design)),
        pictures: plan.and_then(drawn).into_iter().collect(),
        loads: pushed.and_then(drawn).into_iter().collect(),
        further: rest.filter_map(drawn).collect(),
        labels: design.dimensions.iter().map(|d| (d.key.clone(), label(d, unit))).collect::<Labels>(),
        sizes: design.dimensions.iter().map(|d| size_row(design, d)).collect(),
        steps: design.operations.iter().enumerate().map(|(i, o)| step(design, i, o)).collect(),
        look: look::look(design),
        tables: tables().filter(|t| !at_hand(t)).map(|t| grid(t, unit)).collect(),
        at_hand: tables().filter(at_hand).map(|t| grid(t, unit)).collect(),
        findings: design.findings.iter().map(|f| finding(f, header)).collect(),
        notes: design.notes.iter().map(show::note).collect(),
        decides: design.dimensions.iter().filter_map(show::shares).collect(),
        cautions: design.safety_lines(),
        mind: at_no_step(design),
        tools: design.tools.clone(),
    }
}

/// Room for a section among the pictures, mm.
const SECTION: (f64, f64) = (110.0, 55.0);

/// A picture drawn, with its title.
fn picture(picture: &Picture, unit: LengthUnit) -> (String, Vec<Mark>) {
    match picture {
        Picture::Seats { title, seats, centre, magnified } => {
            let mm = |p: crate::shape::Point| (p.x().as_mm(), p.y().as_mm());
            let seat = |s: &SeatMark| {
                let ((x, y), off) = (mm(s.at), mm(s.off));
                landing_pictures::Seat {
                    name: s.name.clone(),
                    x,
                    y,
                    off,
                    load: s.load.clone(),
                    touches: s.touches,
                    to_do: s.to_do.clone(),
                }
            };
            let places: Vec<(f64, f64)> = seats.iter().map(|s| mm(s.at)).collect();
            let apart = |((ax, ay), (bx, by)): &((f64, f64), (f64, f64))| {
                // They are held against a tape.
                let step = if unit == LengthUnit::Mm { Length::mm(0.1) } else { Length::inches(0.01) };
                let length = Length::mm(libm::hypot(bx - ax, by - ay));
                show::length(length.to_nearest(step).rounded(), unit)
            };
            let plan = landing_pictures::Plan {
                seats: seats.iter().map(seat).collect(),
                distances: landing_pictures::sides(&places).iter().map(apart).collect(),
                centre_of_gravity: Some(mm(*centre)),
                magnified: *magnified,
            };
            (title.clone(), landing_pictures::plan(&plan))
        }
        Picture::Polar { title, radii, ring, needed, words } => {
            let ride = landing_pictures::RideOff {
                radii: radii.clone(),
                needed: Some(*needed),
                ring: *ring,
                words: words.clone(),
            };
            (title.clone(), landing_pictures::ride_off(&ride))
        }
        Picture::Bars { title, edges, counts, limits } => {
            let bars = landing_pictures::Histogram {
                words: String::new(),
                edges: edges.clone(),
                counts: counts.clone(),
                limits: limits.clone(),
            };
            (title.clone(), landing_pictures::histogram(&bars))
        }
        Picture::Fit { title, zones, gaps, outcome } => (title.clone(), pictures::fit_zones(zones, gaps, outcome)),
        Picture::Section { title, view } => {
            let bare = bare_area(view);
            let scale = (SECTION.0 / bare.width().max(1.0)).min(SECTION.1 / bare.height().max(1.0));
            (title.clone(), view::draw(view, scale, &Labels::new()).marks)
        }
        Picture::Stress { title, curves, places, outcome } => {
            (title.clone(), pictures::stress(curves, places, outcome))
        }
        Picture::Chain { title, links, gap } => (title.clone(), pictures::chain(links, gap)),
    }
}

fn capitalised(word: &str) -> String {
    let mut letters = word.replace('_', " ");
    if let Some(first) = letters.get_mut(0..1) {
        first.make_ascii_uppercase();
    }
    letters
}

/// The general tolerance that any of the sizes names.
fn general(design: &Design) -> String {
    let by = design.dimensions.iter().filter_map(|d| d.limits.as_ref()).map(|l| &l.by);
    by.into_iter().find(|by| by.starts_with(show::GENERAL)).cloned().unwrap_or_default()
}

/// Views of the solids without dimensions, for a family that says nothing of its drawing.
fn bare(design: &Design) -> Drawing {
    let views = design.solids.iter().flat_map(|solid| {
        let of = solid.name_suffix.as_ref().map_or_else(String::new, |name| format!(": {name}"));
        match &solid.body {
            Body::Turned(turned) => vec![View::section(&format!("Section on the axis{of}"), turned)],
            Body::Flat(flat) => {
                let middle = flat.extents().least().y() + flat.extents().height() * 0.5;
                let section = View::through(&format!("Section on the middle{of}"), flat, middle);
                vec![section, View::plan(&format!("Plan{of}"), flat)]
            }
        }
    });
    Drawing { views: views.take(4).collect() }
}

/// What stands on the dimension line: the size, its class, its deviations.
fn label(d: &Dimension, unit: LengthUnit) -> Label {
    match (&d.value, &d.limits) {
        (Value::Length(size), Some(limits)) => sized(*size, limits, unit),
        (Value::Length(size), None) => Label::new(&show::length_number(*size, unit), ""),
        (Value::Angle(angle), _) => Label::new(&show::value(&d.value, unit), &angle_deviations(*angle, d)),
        (value, _) => Label::new(&show::value(value, unit), ""),
    }
}

/// `±0.25°` for an angle whose tolerance is its own; the general one stands in the title block.
fn angle_deviations(angle: Angle, d: &Dimension) -> String {
    let Some(limits) = d.angle_limits.as_ref().filter(|l| !l.by.starts_with(show::GENERAL)) else {
        return String::new();
    };
    let [up, down] = [limits.upper - angle, angle - limits.lower].map(|a| trimmed(a.as_degrees(), 3));
    if up == down { format!("±{up}°") } else { format!("(+{up}° / −{down}°)") }
}

fn sized(size: Length, limits: &Limits, unit: LengthUnit) -> Label {
    let number = show::size_number(size, Some(limits), unit);
    if limits.by.starts_with(show::GENERAL) {
        return Label::new(&number, "");
    }
    let tail = show::deviations(size, limits, unit);
    if is_class(&limits.by) {
        Label::new(&format!("{number} {}", limits.by), &tail)
    } else {
        Label::new(&number, &tail)
    }
}

/// `H7`, `js13`: one or two letters and one or two figures (ISO 286-1).
fn is_class(by: &str) -> bool {
    let letters = by.chars().take_while(char::is_ascii_alphabetic).count();
    let figures = by.chars().skip(letters).filter(char::is_ascii_digit).count();
    matches!(letters, 1 | 2) && matches!(figures, 1 | 2) && letters + figures == by.chars().count()
}

fn size_row(design: &Design, d: &Dimension) -> SizeRow {
    let line = show::dimension_line(d, design.header.unit);
    let views = design.drawing.iter().flat_map(|drawing| &drawing.views);
    let drawn = views.clone().flat_map(|v| &v.dimensions).any(|drawn| drawn.key == d.key && !drawn.auxiliary)
        || views.flat_map(|v| &v.alike).any(|key| *key == d.key);
    let steps = &design.operations;
    let measured = steps.iter().flat_map(|o| &o.measure).any(|m| m.key == d.key);
    let (other_least, other_most) = line.other_limits;
    SizeRow {
        key: line.key,
        what: line.label,
        by: line.by,
        size: [line.size, line.other],
        least: [line.least, other_least],
        most: [line.most, other_most],
        how: line.how,
        principal: d.principal,
        made: drawn && d.limits.is_some(),
        measurable: drawn || measured || d.limits.is_some(),
        filled: filled(d, design.header.unit),
    }
}

/// The readings that count; a figure stands in its box without its unit, as the others of its row.
fn filled(d: &Dimension, unit: LengthUnit) -> Vec<Filled> {
    let one = |r: &&Reading| {
        let text = show::value(&r.value, unit);
        let words = r.decision.map(|decision| decision.said().to_string());
        let said: Vec<String> = words.into_iter().chain(r.on.map(|day| day.to_string())).collect();
        let value = text.split_whitespace().next().unwrap_or(&text).to_string();
        Filled { piece: r.piece, value, said: said.join(", ") }
    };
    d.measured().iter().map(one).collect()
}

/// The first step that a safety line concerns: by its words where the line names some, else by its place.
fn beside(design: &Design, caution: &Caution) -> Option<usize> {
    let words = |o: &Operation| caution.at.iter().any(|said| said.contains(' ') && o.text.contains(said));
    let place = |o: &Operation| caution.at.iter().any(|place| o.at.starts_with(place));
    design.operations.iter().position(words).or_else(|| design.operations.iter().position(place))
}

/// Safety lines that concern the part and no step of its work, in a few words.
fn at_no_step(design: &Design) -> Vec<String> {
    let no_step = |c: &&Caution| beside(design, c).is_none();
    design.cautions.iter().filter(no_step).map(|c| c.short.to_string()).collect()
}

fn step(design: &Design, index: usize, operation: &Operation) -> StepText {
    let unit = design.header.unit;
    let table = design.tables.iter().find(|t| operation.table.is_some_and(|name| name.name() == t.key));
    let measured = operation.measure.iter().filter_map(|m| {
        let dimension = design.named(&m.key)?;
        Some(MeasureRow { row: size_row(design, dimension), with: m.said() })
    });
    StepText {
        at: operation.at.to_string(),
        text: operation.text.clone(),
        table: table.map(|t| grid(t, unit)),
        measure: measured.collect(),
        mind: design
            .cautions
            .iter()
            .filter(|c| beside(design, c) == Some(index))
            .map(|c| c.short.to_string())
            .collect(),
    }
}

/// A table as text; a unit that stands in every cell of a column is said once, over it.
fn grid(table: &Table, unit: LengthUnit) -> Grid {
    let all_lengths = |i: usize| {
        let cells = table.rows.iter().filter_map(|r| r.get(i));
        let none = |v: &Value| matches!(v, Value::Text(t) if t == "-");
        cells.clone().any(|v| matches!(v, Value::Length(_)))
            && cells.clone().all(|v| matches!(v, Value::Length(_)) || none(v))
    };
    // A dash stands where there is nothing to measure.
    let head = |(i, words): (usize, &String)| match all_lengths(i) {
        true if words.is_empty() => show::unit_name(unit).to_string(),
        true => format!("{words}, {}", show::unit_name(unit)),
        false => words.clone(),
    };
    let cell = |(i, v): (usize, &Value)| match v {
        Value::Length(l) if table.both_units && all_lengths(i) => {
            format!("{} ({})", show::length_number(*l, unit), show::length(*l, show::other_unit(unit)))
        }
        Value::Length(l) if all_lengths(i) => show::length_number(*l, unit),
        other => show::value(other, unit),
    };
    let row = |r: &Vec<Value>| r.iter().enumerate().map(cell).collect();
    let columns = table.columns.iter().enumerate().map(head).collect();
    Grid { title: table.title.clone(), columns, rows: table.rows.iter().map(row).collect() }
}

fn finding(f: &Finding, header: &Header) -> FindingText {
    let line = show::finding_line(f, header.unit);
    let outcome = match f.verdict {
        Verdict::Ok => Outcome::Ok,
        Verdict::Caution => Outcome::Caution,
        Verdict::Fail => Outcome::Fail,
    };
    FindingText {
        outcome,
        what: line.what,
        value: line.value,
        limit: line.limit,
        because: line.because,
        source: line.source,
        does: look::does(&f.clearing, &header.file),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::Confirmed;

    fn limits(lower: f64, upper: f64, by: &str) -> Limits {
        Limits { lower: Length::mm(lower), upper: Length::mm(upper), by: by.into(), confirmed: Confirmed::TwoOrMore }
    }

    /// ISO 286-1:2010 tables: 25 H7 is +21 µm / 0, 40 f7 is -25 µm / -50 µm; the way of writing after ISO 129-1.
    #[test]
    fn classes_are_written_with_their_deviations() {
        let label = |size, l: &Limits, unit| sized(Length::mm(size), l, unit);
        let h7 = label(25.0, &limits(25.0, 25.021, "H7"), LengthUnit::Mm);
        assert_eq!(h7, Label::new("25 H7", "(+0.021 / 0)"));
        let f7 = label(40.0, &limits(39.95, 39.975, "f7"), LengthUnit::Mm);
        assert_eq!(f7, Label::new("40 f7", "(−0.025 / −0.05)"));
        let even = label(50.8, &limits(50.673, 50.927, "fitted by hand"), LengthUnit::Inch);
        assert_eq!(even, Label::new("2", "±0.005"));
        assert_eq!(label(60.0, &limits(59.7, 60.3, "ISO 2768-m"), LengthUnit::Mm), Label::new("60", ""));
    }

    #[test]
    fn only_classes_are_taken_for_classes() {
        assert!(["H7", "js13", "ZA6", "k6"].iter().all(|c| is_class(c)));
        assert!(["ISO 9013-1", "", "7", "H", "H7 E", "bore"].iter().all(|c| !is_class(c)));
    }
}
