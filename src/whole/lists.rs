//! The lists of the job as text: the same lines on paper, in the order's folder and in the table for a spreadsheet.

use super::graph::Node;
use super::saw::Sawn;
use super::share::{FAULTY, Share};
use super::{Fasteners, Hold, Job};
use crate::record::show::{self, trimmed};
use crate::standards::threads::Thread;
use crate::standards::{bolting, processes};
use crate::units::{Length, LengthUnit, Mass};

/// One line.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Line {
    /// What.
    pub item: String,
    /// How many, or how much.
    pub count: String,
    /// Of what.
    pub material: String,
    /// How large.
    pub size: String,
    /// For which parts.
    pub parts: String,
    /// What else.
    pub note: String,
}

impl Line {
    /// Its cells, in order.
    pub fn cells(&self) -> [&str; 6] {
        [&self.item, &self.count, &self.material, &self.size, &self.parts, &self.note].map(String::as_str)
    }
}

/// A list for one person.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct List {
    /// Name, stable for programs.
    pub key: &'static str,
    /// Heading.
    pub title: &'static str,
    /// Headings of the cells of a line; empty for a cell that this list does not have.
    pub heads: [&'static str; 6],
    /// The lines.
    pub lines: Vec<Line>,
    /// What is to be known of it.
    pub notes: Vec<String>,
}

/// Every list, in the order in which a job goes.
pub fn lists(job: &Job) -> Vec<List> {
    let mut all = vec![parts(job), cutter(job)];
    all.extend(Some(water_jet(job)).filter(|list| !list.lines.is_empty()));
    all.extend([
        saw(job),
        tools(job),
        instruments(job),
        fasteners(job),
        consumables(job),
        prints(job),
        road(job),
        weights(job),
        order(job),
    ]);
    all
}

fn both(job: &Job, length: Length) -> String {
    show::length_both(length.rounded(), job.unit)
}

fn parts(job: &Job) -> List {
    let line = |p: &Share| {
        let verdict = match p.verdict.as_str() {
            "ok" => "in order".to_string(),
            "caution" if p.cautions == 1 => "works, 1 caution".into(),
            "caution" => format!("works, {} cautions", p.cautions),
            FAULTY => "FAULTY, left out".into(),
            _ => "FAILS, left out".into(),
        };
        Line {
            item: p.name.clone(),
            count: if p.verdict == FAULTY { String::new() } else { p.count.to_string() },
            material: p.material.clone(),
            size: verdict,
            parts: p.part.clone(),
            note: p.wrong.join("; "),
        }
    };
    let out = job.parts.iter().filter(|p| !p.is_made()).count();
    let mut notes = Vec::new();
    if out > 0 {
        notes.push(format!(
            "{out} of {} parts left out of every list below: nothing is ordered, sawn or bought for what is not in order.",
            job.parts.len()
        ));
    }
    List {
        key: "parts",
        title: "Parts of the job",
        heads: ["Part", "Count", "Material", "Verdict", "Files", "What is wrong"],
        lines: job.parts.iter().map(line).collect(),
        notes,
    }
}

/// The lines of the plates that one beam cuts.
fn plates(job: &Job, beam: &str) -> Vec<Line> {
    let line = |c: &super::Cut| Line {
        item: c.file.clone(),
        count: c.count.to_string(),
        material: c.material.clone(),
        size: if c.rolled.is_empty() {
            both(job, c.thickness)
        } else {
            format!("{}, {}", both(job, c.thickness), c.rolled)
        },
        parts: c.hardness.clone(),
        note: if c.plating.is_empty() { "bare".into() } else { format!("{}, by us afterwards", c.plating) },
    };
    job.cutter.iter().filter(|c| processes::beam(c.thickness) == beam).map(line).collect()
}

const PLATES: [&str; 6] = ["File", "Count", "Material", "Thickness", "Hardness", "Coating"];

/// What both cutters are to know, with the sentence on cut edges that holds for the one.
fn to_know(edges: &str) -> Vec<String> {
    vec![
        format!("DXF in millimetres, 1:1. Layer CUT is cut, layer MARK only marked, no deeper than is still seen, on the face that looks up in the drawing: nothing is mirrored. Sizes are those of the blank: please allow for your own kerf. {edges}, unless you say otherwise; we take off burr and slag. One file holds one part of one material and one thickness. No certificate is asked for where none is written here."),
        "Thickness as rolled to the standard beside it, where one stands there; \"all from one sheet\" is asked of joints that are cut for one thickness.".into(),
    ]
}

fn cutter(job: &Job) -> List {
    List {
        key: "cutter",
        title: "For the cutter",
        heads: PLATES,
        lines: plates(job, "laser"),
        notes: to_know("Cut edges and sizes as ISO 9013, class 1 of its tolerances"),
    }
}

/// Plates that no laser cuts: ISO 9013 is of thermal cuts and says nothing of their edges. The sentence on them is common practice,
/// no source.
fn water_jet(job: &Job) -> List {
    List {
        key: "water_jet",
        title: "For the cutter, by water jet",
        heads: PLATES,
        lines: plates(job, "water jet"),
        notes: to_know(
            "Cut by water jet, thicker than a laser cuts: a separation cut does not do, a clean cut square to the face over the whole thickness is asked for, its taper and drag on the waste side",
        ),
    }
}

/// `2 x 1 m`, and what is cut from each: `3 x 120 mm for the cone`.
fn saw(job: &Job) -> List {
    let mut notes = Vec::new();
    let mut lines = Vec::new();
    for sawn in &job.saw {
        saw_lines(job, sawn, &mut lines, &mut notes);
    }
    let (kerf, assumed) = job.kerf;
    let said = if assumed { " (assumed: write saw_kerf into shop.toml)" } else { "" };
    notes.insert(
        0,
        format!("Kerf {}{said}. Lengths are those of the blanks, with what is held in the chuck.", both(job, kerf)),
    );
    let told = |s: &&Sawn| s.assumed;
    if job.saw.iter().any(|s| told(&s)) {
        let which: Vec<String> = job.saw.iter().filter(told).map(|s| bar_name(job, s)).collect();
        notes.push(format!(
            "No bar of {} is told in shop.toml: it is taken to be bought in the length that stands here; [[rack]] tells what lies there.",
            which.join("; ")
        ));
    }
    List {
        key: "saw",
        title: "For the saw",
        heads: ["Round bar", "Bars", "", "Length of bar", "Pieces from each", "Left over of each"],
        lines,
        notes,
    }
}

fn bar_name(job: &Job, sawn: &Sawn) -> String {
    match sawn.across {
        Some(across) => format!("{}, {}", sawn.material, both(job, across)),
        None => format!("{}, thicker than any bar that is sold", sawn.material),
    }
}

fn saw_lines(job: &Job, sawn: &Sawn, lines: &mut Vec<Line>, notes: &mut Vec<String>) {
    let name = bar_name(job, sawn);
    let piece = |(which, count): &(usize, u32)| {
        sawn.pieces
            .get(*which)
            .map_or_else(String::new, |(p, of)| format!("{count} x {} for {of}", both(job, p.length)))
    };
    let Some(plan) = &sawn.plan else {
        notes.push(format!("{name}: too many pieces to plan"));
        return;
    };
    for (cut, left) in plan.cuts.iter().zip(sawn.left_over(job.kerf.0)) {
        let stock = sawn.stock.get(cut.stock);
        let from = stock.map_or("", |s| if s.bought { ", bought" } else { ", from the rack" });
        lines.push(Line {
            item: name.clone(),
            count: cut.bars.to_string(),
            material: sawn.material.clone(),
            size: format!("{}{from}", stock.map_or_else(String::new, |s| both(job, s.length))),
            parts: cut.pieces.iter().map(piece).collect::<Vec<_>>().join("; "),
            note: both(job, left),
        });
    }
    if !plan.without.is_empty() {
        let missing: Vec<String> = plan.without.iter().map(piece).collect();
        notes.push(format!("{name}: no bar is long enough for {}", missing.join("; ")));
    }
    if !plan.least {
        notes.push(format!(
            "{name}: so many pieces that not every way to cut them was looked at: this plan is good, and no longer proven to be the least"
        ));
    }
}

/// Texts once each, with the parts for which they are.
fn gathered<'a>(all: impl Iterator<Item = (String, String, &'a str)>) -> Vec<Line> {
    let mut lines: Vec<Line> = Vec::new();
    for (item, size, part) in all {
        match lines.iter_mut().find(|l| l.item == item && l.size == size) {
            // Parts come one after the other, so that the last is the only one that could be there already.
            Some(line) if line.parts.rsplit(", ").next() == Some(part) => {}
            Some(line) => line.parts = format!("{}, {part}", line.parts),
            None => lines.push(Line { item, size, parts: part.into(), ..Line::default() }),
        }
    }
    lines
}

fn tools(job: &Job) -> List {
    let made = job.made();
    let all = made.iter().flat_map(|p| p.tools.iter().map(|(at, tool)| (tool.clone(), at.clone(), p.part.as_str())));
    let mut lines = gathered(all);
    lines.sort_by(|a, b| a.size.cmp(&b.size).then(a.item.cmp(&b.item)));
    List {
        key: "tools",
        title: "Drills, taps, reamers and other tools",
        heads: ["Tool", "", "", "Where", "For", ""],
        lines,
        notes: Vec::new(),
    }
}

fn instruments(job: &Job) -> List {
    let made = job.made();
    let all = made.iter().flat_map(|p| p.instruments.iter().map(|i| (i.clone(), String::new(), p.part.as_str())));
    let mut lines = gathered(all);
    lines.sort_by(|a, b| a.item.cmp(&b.item));
    List {
        key: "instruments",
        title: "Instruments",
        heads: ["Instrument", "", "", "", "For", ""],
        lines,
        notes: Vec::new(),
    }
}

fn hold(job: &Job, f: &Fasteners, h: &Hold) -> String {
    let untold = if f.what.starts_with("grub screw") { "" } else { ", length by what it clamps: not told" };
    let grip = h.grip.map_or_else(|| untold.to_string(), |g| format!(", clamps {}", both(job, g)));
    let torque = if h.torque.is_empty() { String::new() } else { format!(", {} {}", h.torque, h.state) };
    format!("{} x {}{grip}{torque}", h.count, h.part)
}

fn fasteners(job: &Job) -> List {
    let mut lines = Vec::new();
    let mut nuts: Vec<(String, u32)> = Vec::new();
    let mut add = |what: String, count: u32| match nuts.iter_mut().find(|(known, _)| *known == what) {
        Some((_, sum)) => *sum += count,
        None => nuts.push((what, count)),
    };
    for f in &job.fasteners {
        let corrodes: Vec<&str> = f.holds.iter().map(|h| h.corrodes.as_str()).filter(|c| !c.is_empty()).collect();
        lines.push(Line {
            item: f.what.clone(),
            count: f.count.to_string(),
            material: f.class.clone(),
            size: f.holds.iter().map(|h| hold(job, f, h)).collect::<Vec<_>>().join("; "),
            parts: f.holds.iter().map(|h| h.part.clone()).collect::<Vec<_>>().join(", "),
            note: if corrodes.is_empty() { "nothing".into() } else { corrodes.join("; ") },
        });
        if !f.nut.is_empty() {
            add(format!("nut {}, {}", f.thread, f.nut), f.count);
        }
        if f.washers > 0 {
            add(format!("washer for {}{}", f.thread, washer_kind(f)), f.washers);
        }
    }
    nuts.sort();
    lines.extend(nuts.into_iter().map(|(item, count)| Line { item, count: count.to_string(), ..Line::default() }));
    List {
        key: "fasteners",
        title: "For the fasteners' counter",
        heads: ["Fastener", "Count", "Class", "Clamps, torque", "", "Eaten by another metal"],
        lines,
        notes: vec![
            "A length is what is clamped, washers, nut and two pitches out of it, to the next that is sold; into a thread, the longest that ends in it. Torques hold for the state that stands beside them and for no other.".into(),
        ],
    }
}

fn washer_kind(f: &Fasteners) -> &'static str {
    if f.class.starts_with('A') && f.class.contains('-') { ", stainless" } else { "" }
}

fn consumables(job: &Job) -> List {
    let made = job.made();
    let all = made
        .iter()
        .flat_map(|p| p.consumables.iter().map(|(what, used, _)| (what.clone(), used.clone(), p.part.as_str())));
    let mut lines = gathered(all);
    for line in &mut lines {
        let same =
            made.iter().flat_map(|p| &p.consumables).filter(|(what, used, _)| *what == line.item && *used == line.size);
        let kg: f64 = same.filter_map(|(_, _, kg)| *kg).sum();
        if kg > 0.0 {
            // Up to the next ten grams: nobody weighs it closer.
            let grams = format!("{} g", trimmed((kg * 100.0).ceil() * 10.0, 0));
            line.count = match job.unit {
                LengthUnit::Mm => grams,
                LengthUnit::Inch => {
                    format!("{} oz ({grams})", trimmed((Mass::kg(kg).as_pounds() * 160.0).ceil() / 10.0, 1))
                }
            };
        }
    }
    lines.sort_by(|a, b| a.item.cmp(&b.item).then(a.size.cmp(&b.size)));
    List {
        key: "consumables",
        title: "What is used up",
        heads: ["What", "About", "", "What for", "Parts", ""],
        lines,
        notes: Vec::new(),
    }
}

/// Plastic of trial prints, kg/m³. Source: a material library and a printing filament data sheet: PLA 1240 kg/m³.
const TRIAL: f64 = 1240.0;

fn prints(job: &Job) -> List {
    let (rate, assumed) = job.print_rate;
    let mut lines = Vec::new();
    for (p, s) in job.made().into_iter().flat_map(|p| p.solids.iter().map(move |s| (p, s))) {
        // A cone, a cup or a plate is tried in plastic before metal is cut; a ring to be ground or pressed is not.
        let trial = !s.printed && ["cone", "cup", "plate"].contains(&p.family.as_str());
        if !s.printed && !trial {
            continue;
        }
        let count = if s.printed { s.count } else { 1 };
        let cm3 = s.volume_mm3 / 1000.0;
        let mass = if s.printed { s.mass_kg } else { s.volume_mm3 * 1e-9 * TRIAL };
        let hours = cm3 / rate;
        let bed =
            if s.beyond_bed && trial { "; larger than the bed in shop.toml: in pieces, or only what fits" } else { "" };
        let stem = if s.name.is_empty() { p.part.clone() } else { format!("{}-{}", p.part, s.name) };
        lines.push(Line {
            item: format!("{stem}.stl"),
            count: count.to_string(),
            material: if s.printed { s.material.clone() } else { "any, solid".into() },
            size: format!("{} cm³, {} g, {} h each", trimmed(cm3, 1), trimmed(mass * 1000.0, 0), trimmed(hours, 1)),
            parts: p.part.clone(),
            note: if s.printed { "the part".into() } else { format!("one to try the fit, before metal is cut{bed}") },
        });
    }
    let said = if assumed { " (assumed: print_rate of shop.toml)" } else { "" };
    List {
        key: "print",
        title: "For the printer",
        heads: ["File", "Count", "Plastic", "Volume, mass, time", "", "Why"],
        lines,
        notes: vec![format!(
            "Reckoned solid: volume over {} cm³ an hour{said}; trial prints at the density of PLA. Fewer outlines and less filling take less. A print carries no load.",
            trimmed(rate, 1)
        )],
    }
}

/// The spanner for a fastener.
fn spanner(f: &Fasteners) -> Option<String> {
    let thread = Thread::parse(&f.thread).ok()?;
    let sized = |size: Length| match thread.kind {
        crate::standards::threads::ThreadKind::Metric => Some(show::length(size, LengthUnit::Mm)),
        crate::standards::threads::ThreadKind::Unified => crate::units::show::inch_fraction(size),
    };
    let key = |of| bolting::hexagon_key(&thread, of).and_then(|key| sized(key.value));
    let heads = [
        ("countersunk socket screw", bolting::Socketed::Countersunk),
        ("socket head cap screw", bolting::Socketed::Cylinder),
        ("grub screw", bolting::Socketed::Grub),
    ];
    if let Some((head, of)) = heads.into_iter().find(|(head, _)| f.what.starts_with(head)) {
        let key = key(of).map_or_else(|| "hexagon key".into(), |key| format!("hexagon key {key}"));
        let nut = bolting::across_flats(&thread).filter(|_| !f.nut.is_empty()).and_then(|flats| sized(flats.value));
        let nut = nut.map_or_else(String::new, |flats| format!(" and spanner {flats} for its nut"));
        return Some(format!("{key}{nut}, for {head} {}", f.thread));
    }
    let flats = bolting::across_flats(&thread)?.value;
    let size = sized(flats)?;
    let pair = if f.nut.is_empty() { "spanner and socket" } else { "two spanners, or spanner and socket" };
    Some(format!("{pair}, {size}, for {}", f.thread))
}

fn road(job: &Job) -> List {
    let made = job.made();
    let mut all: Vec<(String, String, String)> = Vec::new();
    for f in &job.fasteners {
        for hold in &f.holds {
            if let Some(spanner) = spanner(f) {
                all.push((spanner, String::new(), hold.part.clone()));
            }
            if !hold.torque.is_empty() {
                all.push((
                    "torque wrench".into(),
                    format!("{}, {}: {}", f.what, hold.state, hold.torque),
                    hold.part.clone(),
                ));
            }
            let nut = if f.nut.is_empty() { String::new() } else { ", with nut and washers".into() };
            all.push((
                format!("spare {} {}{nut}", f.what, f.class),
                "one or two, they get lost".into(),
                hold.part.clone(),
            ));
        }
    }
    for p in &made {
        all.extend(p.road.iter().map(|(what, used)| (what.clone(), used.clone(), p.part.clone())));
    }
    let mut lines = gathered(all.iter().map(|(a, b, c)| (a.clone(), b.clone(), c.as_str())));
    lines.sort_by(|a, b| a.item.cmp(&b.item).then(a.size.cmp(&b.size)));
    List {
        key: "road",
        title: "The box for the road",
        heads: ["What", "", "", "What for", "Parts", ""],
        lines,
        notes: vec![
            "To take it apart and put it together again: what the fasteners and the checks of the parts need. A locator is not a tie-down: straps and what the load is secured with are not on this list.".into(),
        ],
    }
}

/// A mass, in pounds beside it where the shop works in inches.
fn weighs(mass: f64, unit: LengthUnit) -> String {
    let kg = show::significant(mass, 4) + " kg";
    match unit {
        LengthUnit::Mm => kg,
        LengthUnit::Inch => format!("{} lb ({kg})", show::significant(Mass::kg(mass).as_pounds(), 4)),
    }
}

fn weights(job: &Job) -> List {
    let made = job.made();
    let kg = |mass: f64| weighs(mass, job.unit);
    let line = |p: &&Share| {
        let at = p.centre().map_or_else(String::new, |c| {
            let [x, y, z] = c.map(|l| show::length(Length::mm((l * 100.0).round() / 100.0), job.unit));
            format!("{x}, {y}, {z}")
        });
        let one: f64 = p.solids.iter().map(|s| s.mass_kg).sum();
        let alike = p.solids.iter().all(|s| s.count == p.count);
        Line {
            item: p.name.clone(),
            count: p.count.to_string(),
            material: p.material.clone(),
            size: if alike { kg(one) } else { String::new() },
            parts: kg(p.mass()),
            note: at,
        }
    };
    let total: f64 = made.iter().map(|p| p.mass()).sum();
    let mut lines: Vec<Line> = made.iter().filter(|p| !p.solids.is_empty()).map(line).collect();
    lines.push(Line { item: "all that the job makes".into(), parts: kg(total), ..Line::default() });
    let mut notes = Vec::new();
    for c in &job.carried {
        let on: Vec<String> = c.parts.iter().map(|(part, seat)| format!("{part} at {seat}")).collect();
        let size = |l: f64| show::length(Length::mm((l * 10.0).round() / 10.0), job.unit);
        let [x, y, z] = c.assumed_at.map(size);
        notes.push(format!(
            "{} takes the frame to weigh {} with its centre of mass at x {x}, y {y}, {z} above the seats.",
            c.landing,
            kg(c.assumed_kg)
        ));
        match (c.at, c.shift()) {
            (Some([x, y]), Some(shift)) => notes.push(format!(
                "Of the parts of this job it carries {}: {}, centre of mass at x {}, y {}. If they are not in what was weighed, it is {} heavier and its centre lies {} further in plan. Cones under it: {}, carried by what it lands on.",
                on.join(", "),
                kg(c.mass_kg),
                size(x),
                size(y),
                kg(c.mass_kg),
                size(shift),
                kg(c.below_kg)
            )),
            _ => notes.push(format!("It carries no part that this job makes. Cones under it: {}.", kg(c.below_kg))),
        }
    }
    List {
        key: "weights",
        title: "What it weighs",
        heads: ["Part", "Count", "Material", "One", "All", "Centre of mass in the STEP file, x, y, z"],
        lines,
        notes,
    }
}

/// The steps of a stretch: `lathe 1–8`.
fn stretch(node: &Node) -> String {
    match node.stage.steps {
        [a, b] if a == b => format!("{} {a}", node.stage.at),
        [a, b] => format!("{} {a}–{b}", node.stage.at),
    }
}

/// A line for each part, those first that begin first.
fn order(job: &Job) -> List {
    let made = job.made();
    let name = |n: &Node| made.get(n.part).map_or("", |p| p.part.as_str());
    let mut lines: Vec<(usize, Line)> = Vec::new();
    for (part, share) in made.iter().enumerate() {
        let own: Vec<(usize, &Node)> = job.graph.nodes.iter().enumerate().filter(|(_, n)| n.part == part).collect();
        let (Some((first, begins)), Some((_, ends))) = (own.first(), own.last()) else { continue };
        let waits: Vec<String> = job.graph.waits(*first).map(|w| format!("{}, {}", name(w), stretch(w))).collect();
        let away: Vec<&str> = own.iter().filter(|(_, n)| n.stage.is_away()).map(|(_, n)| n.stage.at.as_str()).collect();
        let line = Line {
            item: share.part.clone(),
            count: format!("{} to {}", begins.level + 1, ends.level + 1),
            size: own.iter().map(|(_, n)| stretch(n)).collect::<Vec<_>>().join(", "),
            parts: waits.join("; "),
            note: away.join(", "),
            ..Line::default()
        };
        lines.push((begins.level, line));
    }
    lines.sort_by_key(|(level, _)| *level);
    List {
        key: "order",
        title: "Order of work",
        heads: ["Part", "Turns", "", "Steps of its sheet", "Begins after", "Waits for"],
        lines: lines.into_iter().map(|(_, line)| line).collect(),
        notes: vec![
            "What has the same turn can be done at the same time. A part that is made to another begins when the other is measured; what is sent out of the house (grey) is waited for; where a box has a wide line something is measured.".into(),
        ],
    }
}
