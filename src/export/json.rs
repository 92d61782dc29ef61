//! A design as JSON, for programs: the same sizes, findings and steps as every other output.

use serde_json::{Map, Value as Json, json};

use crate::record::design::{Design, Dimension, Finding, Note, Operation, Origin, Share, Table, Value};
use crate::record::key::TableName;
use crate::record::lever::Change;
use crate::record::reading::{Decision, Reading};
use crate::record::show;
use crate::units::LengthUnit;

/// Version of the layout of part files' JSON.
pub const SCHEMA: u32 = 1;

/// What `check --json` prints for one part: names, dimensions, findings.
pub fn summary(design: &Design) -> Json {
    let h = &design.header;
    let mut object = Map::new();
    object.insert("file".into(), json!(h.file));
    object.insert("family".into(), json!(h.family));
    object.insert("name".into(), json!(h.name));
    object.insert("verdict".into(), json!(design.verdict().word()));
    object.insert("dimensions".into(), design.dimensions.iter().map(|d| dimension(d, h.unit)).collect());
    object.insert("findings".into(), design.findings.iter().map(|f| finding(f, h.unit)).collect());
    object.insert("notes".into(), design.notes.iter().map(note).collect());
    for (key, figures) in &design.figures {
        object.insert((*key).into(), figures.clone());
    }
    Json::Object(object)
}

/// Everything that is shown about the part.
pub fn whole(design: &Design) -> Json {
    let h = &design.header;
    let mut json = summary(design);
    if let Json::Object(object) = &mut json {
        object.insert("schema".into(), json!(SCHEMA));
        object.insert("count".into(), json!(h.count));
        object.insert("revision".into(), json!(show::revision(design)));
        object.insert("material".into(), json!(h.material));
        object.insert("note".into(), json!(h.note));
        object.insert("units".into(), json!(show::unit_name(h.unit)));
        object.insert("operations".into(), design.operations.iter().map(operation).collect());
        object.insert("tables".into(), design.tables.iter().map(|t| table(t, h.unit)).collect());
        object.insert("tools".into(), json!(design.tools));
        object.insert("cautions".into(), json!(design.safety_lines()));
    }
    json
}

/// As text with a line feed at its end.
pub fn to_text(json: &Json) -> String {
    let mut text = serde_json::to_string_pretty(json).unwrap_or_default();
    text.push('\n');
    text
}

/// A number as recorded: rounded to ten decimals, which hides nothing that was recorded and no noise of the last bits.
fn number(x: f64) -> Json {
    json!((x * 1e10).round() / 1e10)
}

fn value_json(value: &Value) -> Json {
    match value {
        Value::Text(text) => json!(text),
        Value::Count(n) => json!(n),
        other => number(other.number()),
    }
}

fn dimension(d: &Dimension, unit: LengthUnit) -> Json {
    let line = show::dimension_line(d, unit);
    let mut object = Map::new();
    object.insert("key".into(), json!(d.key));
    object.insert("label".into(), json!(d.label));
    let field = if matches!(d.value, Value::Length(_)) { "nominal_mm" } else { "value" };
    object.insert(field.into(), value_json(&d.value));
    object.insert("unit".into(), json!(d.value.unit()));
    object.insert("text".into(), json!(line.size));
    object.insert("other_text".into(), json!(line.other));
    if let Some(limits) = &d.limits {
        object.insert("lower_mm".into(), number(limits.lower.as_mm()));
        object.insert("upper_mm".into(), number(limits.upper.as_mm()));
        object.insert("limits_by".into(), json!(limits.by));
    }
    if let Some(limits) = &d.angle_limits {
        object.insert("lower_deg".into(), number(limits.lower.as_degrees()));
        object.insert("upper_deg".into(), number(limits.upper.as_degrees()));
        object.insert("limits_by".into(), json!(limits.by));
    }
    object.insert(
        "origin".into(),
        json!(match d.origin {
            Origin::Given(_) => "given",
            Origin::Assumed(_) => "assumed",
            Origin::Computed(_) => "computed",
        }),
    );
    object.insert("how".into(), json!(line.how));
    object.insert("principal".into(), json!(d.principal));
    if !d.shares.is_empty() {
        let share = |s: &Share| json!({ "what": s.what, "share": number(s.share) });
        object.insert("shares".into(), d.shares.iter().map(share).collect());
    }
    if let Some(measured) = measured(d, unit) {
        object.insert("measured".into(), measured);
    }
    Json::Object(object)
}

/// The reading that counts, of several pieces the worst; each piece's, where there are several; and how many were taken.
fn measured(d: &Dimension, unit: LengthUnit) -> Option<Json> {
    let all = d.measured();
    let bad = |r: &&&Reading| match r.decision {
        Some(Decision::Reject) => 3,
        Some(Decision::Open) => 2,
        None => 1,
        Some(Decision::Accept) => 0,
    };
    // The first of the worst.
    let mut json = reading(all.iter().rev().max_by_key(bad)?, unit);
    if let Json::Object(object) = &mut json {
        object.insert("readings".into(), json!(d.readings.len()));
        if all.len() > 1 {
            object.insert("pieces".into(), all.iter().map(|r| reading(r, unit)).collect());
        }
    }
    Some(json)
}

fn reading(r: &Reading, unit: LengthUnit) -> Json {
    json!({
        "value": value_json(&r.value),
        "u": value_json(&r.u),
        "decision": r.decision.map(Decision::word),
        "next": r.next,
        "text": show::value(&r.value, unit),
        "read": value_json(&r.read),
        "with": r.with,
        "assumed": r.assumed,
        "at_c": r.at.map(|t| number(t.as_celsius())),
        "piece": r.piece,
        "on": r.on.map(|d| d.to_string()),
        "note": r.note,
    })
}

fn finding(f: &Finding, unit: LengthUnit) -> Json {
    let line = show::finding_line(f, unit);
    let either = f.value.as_ref().or(f.limit.value());
    json!({
        "key": f.key,
        "verdict": f.verdict.word(),
        "what": f.what,
        "value": f.value.as_ref().map(value_json),
        "limit": f.limit.value().map(value_json),
        "bound": f.limit.word(),
        "unit": either.map(Value::unit),
        "value_text": line.value,
        "limit_text": line.limit,
        "because": f.because,
        "source": line.source,
        "changes": f.clearing.changes.iter().map(|set| set.iter().map(change).collect::<Vec<_>>()).collect::<Vec<_>>(),
        "along_with": f.clearing.along_with.as_ref().map(change),
        "why_no_change": f.clearing.why_none,
    })
}

fn change(c: &Change) -> Json {
    json!({ "file": c.file, "key": c.key, "from": c.from, "to": c.to })
}

fn note(n: &Note) -> Json {
    json!({ "key": n.key, "what": n.what, "text": n.text, "source": n.source.to_string() })
}

fn operation(o: &Operation) -> Json {
    let measure: Vec<Json> = o.measure.iter().map(|m| json!({ "key": m.key, "with": m.said() })).collect();
    json!({ "at": o.at, "text": o.text, "table": o.table.map(TableName::name), "measure": measure })
}

fn table(t: &Table, unit: LengthUnit) -> Json {
    let rows: Vec<Vec<Json>> = t.rows.iter().map(|r| r.iter().map(value_json).collect()).collect();
    let texts: Vec<Vec<String>> = t.rows.iter().map(|r| r.iter().map(|v| show::value(v, unit)).collect()).collect();
    json!({ "key": t.key, "title": t.title, "columns": t.columns, "rows": rows, "texts": texts })
}
