//! The whole job as JSON, for programs: what each part gives, and what comes of them together.

use serde_json::{Value as Json, json};

use super::lists::{List, lists};
use super::saw::Sawn;
use super::share::Share;
use super::{Cut, Fasteners, Job};
use crate::units::Length;

/// Version of the layout.
pub const SCHEMA: u32 = 1;

fn number(x: f64) -> Json {
    json!((x * 1e6).round() / 1e6)
}

fn mm(l: Length) -> Json {
    number(l.as_mm())
}

/// All of it.
pub fn whole(job: &Job) -> Json {
    json!({
        "schema": SCHEMA,
        "mass_kg": number(job.made().iter().map(|p| p.mass()).sum()),
        "cutter": job.cutter.iter().map(cut).collect::<Vec<_>>(),
        "saw": { "kerf_mm": mm(job.kerf.0), "bars": job.saw.iter().map(|s| sawn(s, job.kerf.0)).collect::<Vec<_>>() },
        "fasteners": job.fasteners.iter().map(fasteners).collect::<Vec<_>>(),
        "carried": job.carried.iter().map(|c| json!({
            "landing": c.landing, "assumed_kg": number(c.assumed_kg), "assumed_mm": c.assumed_at.map(number),
            "parts": c.parts, "mass_kg": number(c.mass_kg), "at_mm": c.at.map(|at| at.map(number)), "below_kg": number(c.below_kg),
            "shift_mm": c.shift().map(number),
        })).collect::<Vec<_>>(),
        "work": work(job),
        "lists": lists(job).iter().map(list).collect::<Vec<_>>(),
        "parts": job.parts,
    })
}

/// What each part gives, as it was written; none where it is not this layout.
pub fn shares(text: &[u8]) -> Option<Vec<Share>> {
    let json: Json = serde_json::from_slice(text).ok()?;
    if json.get("schema")?.as_u64()? != u64::from(SCHEMA) {
        return None;
    }
    serde_json::from_value(json.get("parts")?.clone()).ok()
}

fn cut(c: &Cut) -> Json {
    json!({
        "file": c.file, "part": c.part, "piece": c.piece, "material": c.material, "thickness_mm": mm(c.thickness), "count": c.count,
        "hardness": c.hardness, "plating": c.plating,
    })
}

fn sawn(s: &Sawn, kerf: Length) -> Json {
    let pieces: Vec<Json> =
        s.pieces.iter().map(|(p, of)| json!({ "length_mm": mm(p.length), "count": p.count, "for": of })).collect();
    let left = s.left_over(kerf);
    let cuts = s.plan.iter().flat_map(|p| &p.cuts).zip(left).map(|(c, left)| {
        let stock = s.stock.get(c.stock);
        json!({
            "bars": c.bars, "length_mm": stock.map(|s| mm(s.length)), "bought": stock.map(|s| s.bought),
            "pieces": c.pieces, "left_over_mm": mm(left),
        })
    });
    json!({
        "material": s.material, "diameter_mm": s.across.map(mm), "assumed": s.assumed, "pieces": pieces,
        "cuts": cuts.collect::<Vec<_>>(),
        "begun_mm": s.plan.as_ref().map(|p| mm(p.begun)), "least": s.plan.as_ref().map(|p| p.least),
        "without": s.plan.as_ref().map(|p| p.without.clone()),
    })
}

fn fasteners(f: &Fasteners) -> Json {
    let holds: Vec<Json> = f
        .holds
        .iter()
        .map(|h| {
            json!({ "part": h.part, "count": h.count, "grip_mm": h.grip.map(mm), "torque": h.torque, "state": h.state, "corrodes": h.corrodes })
        })
        .collect();
    json!({ "what": f.what, "class": f.class, "count": f.count, "nut": f.nut, "washers": f.washers, "holds": holds })
}

fn work(job: &Job) -> Json {
    let made = job.made();
    let nodes: Vec<Json> = job
        .graph
        .nodes
        .iter()
        .map(|n| {
            json!({
                "part": made.get(n.part).map(|p| &p.part), "at": n.stage.at, "steps": n.stage.steps, "measures": n.stage.measures,
                "away": n.stage.is_away(), "turn": n.level + 1,
            })
        })
        .collect();
    let edges: Vec<Json> = job.graph.edges.iter().map(|e| json!([e.from, e.to])).collect();
    json!({ "stretches": nodes, "before": edges })
}

fn list(l: &List) -> Json {
    let rows: Vec<Json> = l
        .lines
        .iter()
        .map(|line| {
            let [item, count, material, size, parts, note] = line.cells();
            json!({ "item": item, "count": count, "material": material, "size": size, "parts": parts, "note": note })
        })
        .collect();
    json!({ "key": l.key, "title": l.title, "heads": l.heads, "lines": rows, "notes": l.notes })
}
