//! Sheets of parts that nobody chose: part files drawn by lot, worked as the program works them, every page looked at.

use std::path::PathBuf;

use setdown::design::{Design, Verdict};
use setdown::export::{self, Options};
use setdown::landing::chance::SplitMix;
use setdown::page::arrange::LEGIBLE;
use setdown::page::content::Style;
use setdown::page::label::Label;
use setdown::page::place::HEAD;
use setdown::page::scale::Paper;
use setdown::page::symbols::Projection;
use setdown::page::{Area, Line, Mark, Page, Path, Point, Shade, of_design};
use setdown::shop::Shop;

/// How many parts are drawn by lot, and how many of them at least must be such as can be made.
const PARTS: u64 = 300;
const WORKED: usize = 280;

/// The same parts on every machine.
struct Lot(SplitMix);

impl Lot {
    fn next(&mut self) -> u64 {
        self.0.next_u64()
    }
    fn below(&mut self, count: usize) -> usize {
        (self.next() % count as u64) as usize
    }
    fn one_in(&mut self, count: usize) -> bool {
        self.below(count) == 0
    }
    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }
    /// As a drawing would have it: to a half or to a tenth of a millimetre, sometimes odd.
    fn size(&mut self, low: f64, high: f64) -> f64 {
        let step = self.pick(&[0.5, 0.1, 0.01]);
        ((self.between(low, high) / step).round() * step).clamp(low, high)
    }
    fn pick<T: Copy>(&mut self, of: &[T]) -> T {
        of[self.below(of.len())]
    }
}

const NAMES: [&str; 6] = [
    "cup",
    "front left cone",
    "spacer, second from the right",
    "Ring der Anhängerkupplung, außen geschliffen",
    "levelling foot of the rear cross member with its raised collar",
    "intermediate carrier of the swinging hoist arm, far side of the winch, 3rd kind",
];
const NOTES: [&str; 3] = [
    "same part left and right",
    "weld after the trailer is level; ask before the last cut",
    "stamp the number on the face that is not seen, then grease the bore, wrap the part in oiled paper and put it back \
     into the box in which the old one came, because the next one is measured against it",
];
const STEELS: [&str; 4] = ["steel S235", "steel 1045", "bronze C93200", "aluminium 6061-T6"];
const THREADS: [(&str, f64); 5] = [("M5", 5.0), ("M6", 6.0), ("M8", 8.0), ("1/4", 6.35), ("M10", 10.0)];

/// The text of a part file being written.
struct Writer {
    lot: Lot,
    inch: bool,
    text: String,
}

impl Writer {
    fn line(&mut self, line: &str) {
        self.text += line;
        self.text.push('\n');
    }
    /// A length in the unit of the file or with its own.
    fn length(&mut self, mm: f64) -> String {
        let (mm3, inch) = (format!("{mm:.3}"), format!("{:.4}", mm / 25.4));
        match (self.inch, self.lot.below(4)) {
            (false, 0 | 1) => format!("\"{} mm\"", mm3.trim_end_matches('0').trim_end_matches('.')),
            (false, _) => mm3,
            (true, 0) => format!("\"{inch} in\""),
            (true, _) => inch,
        }
    }
    fn put(&mut self, key: &str, mm: f64) {
        let value = self.length(mm);
        self.line(&format!("{key} = {value}"));
    }
    fn maybe(&mut self, one_in: usize, key: &str, mm: f64) -> bool {
        let wanted = self.lot.one_in(one_in);
        if wanted {
            self.put(key, mm);
        }
        wanted
    }
    fn list(&mut self, key: &str, mm: &[f64]) {
        let values: Vec<String> = mm.iter().map(|v| self.length(*v)).collect();
        self.line(&format!("{key} = [{}]", values.join(", ")));
    }
    fn words(&mut self, key: &str, of: &[&str]) {
        let word = self.lot.pick(of);
        self.line(&format!("{key} = \"{word}\""));
    }
    fn head(&mut self, family: &str) {
        self.line(&format!("family = \"{family}\""));
        self.words("name", &NAMES);
        let unit = if self.inch { "in" } else { "mm" };
        self.line(&format!("units = \"{unit}\""));
        self.words("material", &STEELS);
        if self.lot.one_in(3) {
            self.words("note", &NOTES);
        }
        if self.lot.one_in(4) {
            self.words("general_tolerance", &["f", "m", "c"]);
        }
        if self.lot.one_in(3) {
            let count = 1 + self.lot.below(24);
            self.line(&format!("count = {count}"));
        }
    }
}

/// One part file: its family and its text, and the part files beside it.
pub struct Part {
    pub family: &'static str,
    pub text: String,
    pub beside: Vec<(&'static str, String)>,
}

impl Part {
    /// The part worked as the program works it, or its problems as told.
    pub fn work(&self, file: &str) -> Result<Design, String> {
        let neighbour = |_: &str, name: &str| {
            let found = self.beside.iter().find(|(n, _)| *n == name).ok_or("no such file")?;
            Ok((name.to_string(), found.1.clone()))
        };
        setdown::job::work(file, &self.text, &Shop::default(), &neighbour)
            .map_err(|problems| setdown::job::render(&problems, &self.text))
    }
}

pub fn part(seed: u64) -> Part {
    let mut lot = Lot(SplitMix::new(seed));
    let inch = lot.one_in(3);
    let mut w = Writer { lot, inch, text: String::new() };
    let mut beside = Vec::new();
    let family = ["cone", "cup", "sleeve", "shim", "landing"][(seed % 5) as usize];
    w.head(family);
    match family {
        "cone" => cone(&mut w),
        "cup" => beside.push(("cone.toml", cup(&mut w))),
        "sleeve" => sleeve(&mut w),
        "shim" => shim(&mut w),
        _ => beside = landing(&mut w),
    }
    Part { family, text: w.text, beside }
}

fn cone(w: &mut Writer) {
    let tip = w.lot.size(12.0, 40.0);
    let base = tip + w.lot.size(10.0, 70.0);
    let degrees = w.lot.size(8.0, 45.0);
    let height = (base - tip) / 2.0 / degrees.to_radians().tan();
    match w.lot.below(3) {
        0 => w.put("height", height),
        _ => w.line(&format!("half_angle = \"{degrees:.2} deg\"")),
    }
    w.put("base_diameter", base);
    w.put("tip_diameter", tip);
    let radius = w.lot.size(0.5, (tip / 6.0).min(height / 3.0));
    let rounded = w.maybe(2, "tip_radius", radius);
    let mut foot = w.lot.size(2.0, 20.0);
    if w.maybe(2, "foot", foot) {
        let wide = base + w.lot.size(4.0, 40.0);
        w.maybe(2, "foot_diameter", wide);
    } else {
        foot = 0.0;
    }
    let check = w.lot.between(tip + 1.0, base - 1.0);
    w.maybe(3, "check_ring", check);
    w.maybe(4, "check_roller", 10.0);
    if w.lot.one_in(4) {
        w.words("tool", &["HSS", "carbide"]);
    }
    if w.lot.one_in(3) {
        w.words("mounting", &["weld-on"]);
        return;
    }
    let flat = tip - if rounded { 2.0 * radius } else { 0.0 };
    let fitting: Vec<_> = THREADS.iter().copied().filter(|(_, d)| 2.2 * d < flat && 4.0 * d < height + foot).collect();
    if fitting.is_empty() {
        return;
    }
    let (thread, major) = w.lot.pick(&fitting);
    w.words("mounting", &["bolt-on"]);
    w.line(&format!("[bolt]\nthread = \"{thread}\""));
    if w.lot.one_in(2) {
        w.line("way = \"through\"");
        w.words("head", &["counterbore", "countersink", "none"]);
        w.words("clearance", &["fine", "medium", "coarse"]);
    } else {
        w.line("way = \"from below\"");
        w.maybe(2, "depth", 1.2 * major);
    }
}

/// Writes the cup; gives back the cone with which it mates, if with any.
fn cup(w: &mut Writer) -> String {
    let hole = w.lot.size(12.0, 60.0);
    let thickness = w.lot.size(4.0, 16.0);
    let kind = w.lot.pick(&["round", "slot", "stepped", "turned"]);
    let slot = hole + w.lot.size(2.0, 20.0);
    let half_angle = w.lot.size(15.0, 40.0);
    let widest = match kind {
        "slot" => slot,
        "turned" => hole + 2.0 * thickness * half_angle.to_radians().tan(),
        _ => hole,
    } + 4.0;
    let (thread, major) = w.lot.pick(&THREADS);
    let land = 1.3 * major;
    let between = widest + 2.0 * land + w.lot.size(2.0, 30.0);
    let across = between + w.lot.size(0.0, 40.0);
    let round = w.lot.one_in(3);
    if round {
        w.put("diameter", between + 3.0 * land);
    } else {
        w.put("length", across + 3.0 * land);
        w.put("width", between + 3.0 * land);
        w.maybe(2, "corner_radius", land);
    }
    w.put("thickness", thickness);
    let mates = w.lot.one_in(2);
    if mates {
        w.line("mates = \"cone.toml\"");
        w.maybe(3, "lift", 5.0);
        if w.lot.one_in(2) {
            w.line("seat_load = \"160 kg\"");
        }
    }
    w.line(&format!("[hole]\nkind = \"{kind}\""));
    cup_hole(w, kind, (hole, thickness, slot, half_angle));
    cup_mounting(w, thread, round, (between, across));
    if mates {
        let angle = if kind == "turned" { half_angle } else { 30.0 };
        let (base, tip) = (hole + 2.0 * thickness + 12.0, hole * 0.6);
        format!(
            "family = \"cone\"\nname = \"its cone\"\nbase_diameter = \"{base:.3} mm\"\ntip_diameter = \"{tip:.3} mm\"\n\
             half_angle = \"{angle:.2} deg\"\n"
        )
    } else {
        String::new()
    }
}

fn cup_hole(w: &mut Writer, kind: &str, (hole, thickness, slot, half_angle): (f64, f64, f64, f64)) {
    match kind {
        "stepped" => {
            let step = w.lot.pick(&[1.0, 2.0, 3.0]);
            let height = w.lot.size(2.0, 5.0);
            let count = ((thickness + 12.0) / height).ceil() + 2.0;
            let steps: Vec<f64> =
                (0..count as u32).rev().map(|i| hole - step * f64::from(i)).filter(|d| *d > 3.0).collect();
            w.list("steps", &steps);
            w.put("step_height", height);
            w.put("stop_depth", height * 0.6);
            if w.lot.one_in(2) {
                w.words("tip_angle", &["118 deg", "135 deg"]);
            }
        }
        "turned" => {
            w.put("diameter", hole);
            w.line(&format!("half_angle = \"{half_angle:.2} deg\""));
            w.maybe(2, "turning_allowance", 1.0);
        }
        _ => {
            w.put("diameter", hole);
            if kind == "slot" {
                w.put("length", slot);
                let degrees = w.lot.size(0.0, 180.0);
                w.line(&format!("direction = \"{degrees:.1} deg\""));
            } else if w.lot.one_in(2) {
                w.words("class", &["H7", "H9", "H11"]);
            }
            let edge = w.lot.pick(&["chamfer", "rim_radius"]);
            let reach = w.lot.size(0.3, 1.5);
            w.maybe(2, edge, reach);
        }
    }
}

fn cup_mounting(w: &mut Writer, thread: &str, round: bool, (between, across): (f64, f64)) {
    if w.lot.one_in(5) {
        return;
    }
    w.line(&format!("[mounting]\nthread = \"{thread}\""));
    if round || w.lot.one_in(3) {
        w.put("circle", between);
        let number = w.lot.pick(&[2, 3, 4, 5, 6, 8, 12]);
        let first = w.lot.size(0.0, 60.0);
        w.line(&format!("number = {number}\nfirst_angle = \"{first:.1} deg\""));
    } else {
        w.list("spacing", &[across, between]);
    }
}

fn sleeve(w: &mut Writer) {
    let bore = w.lot.size(6.0, 60.0);
    let wall = w.lot.size(2.0, 12.0);
    let length = w.lot.size(14.0, 140.0);
    let pressed = w.lot.one_in(3);
    let slid = !pressed && w.lot.one_in(3);
    let in_pieces = !pressed && !slid && w.lot.one_in(3);
    let runs = !pressed && length > 30.0 && w.lot.one_in(2);
    w.put("bore", bore);
    w.put("outside_diameter", bore + 2.0 * wall);
    w.put("length", length);
    w.words("bore_class", if slid { &["H7", "H6"] } else { &["H7", "F8", "G6", "H9"] });
    let outside = if pressed { ["p6", "r6", "s6"] } else { ["h5", "h6", "f7"] };
    w.words("outside_class", &outside);
    w.maybe(2, "chamfer", 0.5);
    w.maybe(2, "bore_chamfer", 0.4);
    if w.lot.one_in(3) {
        w.line("service_temperature = \"60 C\"");
    }
    if slid || w.lot.one_in(2) {
        w.line("[shaft]");
        w.words("class", if slid { &["p6", "r6", "s6"] } else { &["g6", "f7", "h6"] });
    }
    if pressed || (w.lot.one_in(3) && !runs) {
        w.line("[housing]");
        w.words("class", &if pressed { ["H7", "H6"] } else { ["F7", "G7"] });
    }
    let (middle, hole) = (if in_pieces { length * 0.3 } else { length / 2.0 }, w.lot.size(1.0, 2.4));
    if w.lot.one_in(2) {
        w.line("[groove]");
        w.words("side", &["inside", "outside"]);
        let width = w.lot.size(3.0, 4.0);
        w.put("position", middle);
        w.put("width", width);
        w.put("depth", wall * 0.25);
    }
    if w.lot.one_in(2) {
        w.line("[grease_hole]");
        // Every third hole opens beside the track of the rollers.
        w.put("position", if hole < 1.5 { length * 0.12 } else { middle });
        w.put("diameter", hole);
    }
    if pressed {
        w.line("[pressed_in]");
        let metal = w.lot.size(8.0, 60.0);
        w.put("hub_outside", bore + 2.0 * wall + metal);
    }
    if slid {
        w.line("[slid_on]");
        w.maybe(2, "shaft_bore", bore * 0.3);
    }
    if runs {
        runs_under(w, length);
    }
    if in_pieces {
        w.line("[[segment]]\nname = \"raceway\"\nmaterial = \"steel 52100 hardened\"");
        w.put("length", length * 0.6);
        let more = w.lot.below(6);
        for i in 0..more {
            w.line(&format!("[[segment]]\nname = \"piece {i}\""));
            w.put("length", length * 0.05);
        }
        w.line("[[segment]]");
        w.words("name", &["spacer", "spacer on the side of the winch"]);
        w.maybe(2, "outside_diameter", bore + 2.0 * wall - 0.4);
    }
}

fn runs_under(w: &mut Writer, length: f64) {
    let (rollers, newtons) = (12 + w.lot.below(20), 500 + 500 * w.lot.below(20));
    w.line(&format!("[runs_under]\nrollers = {rollers}\nload = \"{newtons} N\""));
    let diameter = w.lot.pick(&[2.0, 2.5, 3.0]);
    w.put("roller_diameter", diameter);
    w.put("roller_length", length * 0.3);
    if w.lot.one_in(2) {
        let swing = 5 + w.lot.below(90);
        w.line(&format!("motion = \"swings\"\nswing = \"{swing} deg\""));
    } else {
        w.line("motion = \"turns\"");
    }
    w.words("clearance", &["small", "normal", "large"]);
    w.words("hardness", &["60 HRC", "45 HRC", "180 HV"]);
    if w.lot.one_in(2) {
        w.put("end_float", 0.15);
    }
    if w.lot.one_in(3) {
        w.line("sealed = true");
    }
}

/// Writes the landing; gives back the cone and the cups that it names.
fn landing(w: &mut Writer) -> Vec<(&'static str, String)> {
    let mass = 80 + w.lot.below(900);
    w.line(&format!("mass = \"{mass} kg\"\ndraws = 300"));
    let (x, y) = (w.lot.size(300.0, 1400.0), w.lot.size(250.0, 700.0));
    let (cx, cy, high) = (w.lot.size(-0.2, 0.2) * x, w.lot.size(-0.2, 0.2) * y, w.lot.size(100.0, 900.0));
    w.list("centre_of_mass", &[cx, cy, high]);
    w.maybe(2, "hoist_swing", 4.0);
    w.maybe(3, "height_uncertainty", 0.2);
    w.put("position_uncertainty", 0.6);
    if w.lot.one_in(3) {
        w.line("tie_down = \"2 kN\"");
    }
    let all_round = w.lot.one_in(3);
    let count = w.lot.pick(&[3, 4, 4, 6]);
    let names = ["FL", "FR", "rear left, behind the winch", "RR", "ML", "MR"];
    for (i, name) in names.iter().enumerate().take(count) {
        let turn = std::f64::consts::TAU * i as f64 / count as f64 + 0.3;
        w.line(&format!("[[seat]]\nname = \"{name}\"\ncone = \"cone.toml\""));
        w.list("at", &[x * turn.cos(), y * turn.sin()]);
        let off = [w.lot.size(-1.5, 1.5), w.lot.size(-1.5, 1.5)];
        match i {
            0 => w.line("cup = \"cup.toml\""),
            1 if !all_round => {
                // Some point at the round cup, some at nothing.
                let (from, to) = (0.3_f64, std::f64::consts::TAU / count as f64 + 0.3);
                let line = (y * (to.sin() - from.sin())).atan2(x * (to.cos() - from.cos())).to_degrees();
                let degrees = if count == 3 { 30.0 } else { line.rem_euclid(180.0) };
                // The length of the slot is known from its file, or from none.
                let cup = if count == 3 { "cup" } else { "slot" };
                w.line(&format!("cup = \"{cup}.toml\"\nkind = \"slot\"\ndirection = \"{degrees:.1} deg\""));
            }
            _ if all_round => w.line("cup = \"cup.toml\""),
            _ => w.line("kind = \"clear\"\nclearance = \"6 mm\""),
        }
        w.list("mismatch", &off);
    }
    let cone = "family = \"cone\"\nname = \"its cone\"\nbase_diameter = \"60 mm\"\ntip_diameter = \"24 mm\"\nhalf_angle = \"30 deg\"\n";
    let cup = "family = \"cup\"\nname = \"its cup\"\nlength = \"120 mm\"\nwidth = \"100 mm\"\nthickness = \"8 mm\"\n\
               mates = \"cone.toml\"\n[hole]\nkind = \"round\"\ndiameter = \"40 mm\"\n";
    let slot = cup.replace("kind = \"round\"", "kind = \"slot\"\nlength = \"60 mm\"");
    vec![("cone.toml", cone.into()), ("cup.toml", cup.into()), ("slot.toml", slot)]
}

fn shim(w: &mut Writer) {
    let chain = w.lot.one_in(3);
    let gap = w.lot.size(0.8, 4.0);
    match w.lot.below(if chain { 3 } else { 2 }) {
        0 => w.put("gap", gap),
        1 => {
            let count = 2 + w.lot.below(4);
            let old: Vec<f64> = (0..count).map(|_| w.lot.size(0.2, 0.9)).collect();
            w.list("replaces", &old);
            if !w.maybe(2, "present_float", 0.12) && count.is_multiple_of(2) {
                w.put("float_without", old.iter().sum::<f64>() + 0.13);
            }
        }
        _ => {}
    }
    let least = w.lot.size(0.03, 0.1);
    w.list("target_float", &[least, least + 0.15]);
    if w.lot.one_in(3) {
        w.line("sides = 2");
        w.maybe(2, "offset", 0.1);
    }
    if !w.lot.one_in(5) {
        let bore = w.lot.size(4.0, 80.0);
        let wide = bore + w.lot.size(3.0, 40.0);
        w.put("bore", bore);
        w.put("outside_diameter", wide);
    }
    w.maybe(3, "grinding_allowance", 0.1);
    if w.lot.one_in(4) {
        w.list("at_hand", &[0.3, 0.5, 0.52, 1.0]);
    }
    if chain {
        members(w, gap);
    }
}

fn members(w: &mut Writer, gap: f64) {
    if w.lot.one_in(2) {
        w.line("temperature_range = [\"-20 C\", \"45 C\"]");
    }
    if w.lot.one_in(4) {
        w.line("batch = 12");
    }
    let count = 1 + w.lot.below(4);
    let taken: Vec<f64> = (0..count).map(|_| w.lot.size(4.0, 40.0)).collect();
    let whole = taken.iter().sum::<f64>() + gap;
    let rows = std::iter::once((whole, "adds")).chain(taken.iter().map(|t| (*t, "takes")));
    for (i, (size, direction)) in rows.enumerate() {
        w.line(&format!("[[member]]\ndirection = \"{direction}\""));
        let name = w.lot.pick(&["hub", "thrust washer", "fork, inside width between its two machined cheeks"]);
        w.line(&format!("name = \"{name} {i}\""));
        w.put("size", size);
        w.words("material", &STEELS);
        match w.lot.below(3) {
            0 => w.words("instrument", &["micrometer", "calliper"]),
            1 => w.line("class = \"h9\""),
            _ => {
                w.put("tolerance", 0.05);
                w.words("spread", &["uniform", "normal", "triangular"]);
            }
        }
    }
}

/// Each paper with each projection; the first as the seed has it.
fn styles(seed: u64) -> [Style; 4] {
    let of = |k: u64| Style {
        paper: if k.is_multiple_of(2) { Paper::A4 } else { Paper::Letter },
        projection: if (k / 2).is_multiple_of(2) { Projection::First } else { Projection::Third },
        date: seed.is_multiple_of(3).then(|| "2025-03-01".into()),
        owner: seed.is_multiple_of(5).then(|| "Rig shop, bay behind the paint store".into()),
        ..Style::default()
    };
    [0, 1, 2, 3].map(|k| of(seed / 5 + k))
}

/// Tip and heel of an arrow head.
fn head(mark: &Mark) -> Option<(Point, Point)> {
    let Mark::Fill(Path { contours }, Shade::Black) = mark else { return None };
    let [one] = contours.as_slice() else { return None };
    let [tip, a, b, _] = one.points(6.0).try_into().ok()?;
    let heel = a.middle(b);
    let is_head = (tip.distance(heel) - HEAD).abs() < 1e-6 && (a.distance(b) - HEAD / 3.0).abs() < 1e-6;
    is_head.then_some((tip, heel))
}

/// How far along the line the point lies; `None` if it does not lie on it. Arcs count as chords.
fn along(chords: &[(Point, Point)], p: Point) -> Option<f64> {
    let mut before = 0.0;
    for (a, b) in chords {
        let length = a.distance(*b);
        if (a.distance(p) + p.distance(*b) - length).abs() < 0.02 {
            return Some(before + a.distance(p));
        }
        before += length;
    }
    None
}

/// ISO 129-1: every arrow head lies whole on a line that carries it, and two that point away from each other on one
/// line have room for both.
fn arrow_faults(page: &Page) -> Vec<String> {
    let carrier = |m: &Mark| match m {
        Mark::Stroke(path, Line::Narrow | Line::Wide, _) if path.contours.iter().all(|c| !c.closed) => {
            Some(path.chords(2.0))
        }
        _ => None,
    };
    let lines: Vec<Vec<(Point, Point)>> = page.marks.iter().filter_map(carrier).collect();
    let heads: Vec<(Point, Point)> = page.marks.iter().filter_map(head).collect();
    let mut carried = vec![false; heads.len()];
    let mut found = Vec::new();
    for line in &lines {
        let mut on: Vec<(f64, bool)> = Vec::new();
        for (i, (tip, heel)) in heads.iter().enumerate() {
            if let (Some(t), Some(h)) = (along(line, *tip), along(line, *heel)) {
                carried[i] = true;
                on.push((t, h > t));
            }
        }
        on.sort_by(|a, b| a.0.total_cmp(&b.0));
        let short = on.windows(2).find(|pair| pair[0].1 && !pair[1].1 && pair[1].0 - pair[0].0 < 2.0 * HEAD);
        found.extend(short.map(|pair| format!("arrows inside only {:.2} mm", pair[1].0 - pair[0].0)));
    }
    let loose = heads.iter().zip(&carried).filter(|(_, on)| !**on);
    found.extend(loose.map(|((tip, _), _)| format!("arrow not on a line, tip {tip:?}")));
    found
}

/// A line that ends on a number, and its unit alone at the beginning of the next.
fn torn_units(page: &Page) -> Vec<String> {
    let unit = |words: &str| {
        let first = words.split(' ').next().unwrap_or("");
        ["mm", "in", "N", "kN", "MPa", "kg", "lb", "°C", "rpm"].contains(&first.trim_end_matches(['.', ',', ';']))
    };
    let texts: Vec<_> = page.texts().collect();
    let torn = texts.windows(2).filter(|pair| {
        let under = pair[0].at.y - pair[1].at.y;
        let next = (pair[0].at.x - pair[1].at.x).abs() < 1e-6 && under > 0.0 && under < 2.0 * pair[0].height;
        let number = pair[0].words.rsplit(' ').next().is_some_and(|w| w.parse::<f64>().is_ok());
        next && number && unit(&pair[1].words)
    });
    torn.map(|pair| format!("`{}` torn from `{}`", pair[0].words, pair[1].words)).collect()
}

/// Lettering over an arrow head.
fn words_on_heads(page: &Page) -> Vec<String> {
    let heads: Vec<_> = page.marks.iter().filter(|m| head(m).is_some()).map(Mark::area).collect();
    let covered = page.texts().filter(|t| heads.iter().any(|h| t.area().grown(-0.05).overlaps(*h)));
    covered.map(|t| format!("`{}` over an arrow head", t.words)).collect()
}

/// A check in order must not show a value that misses its limit.
fn green_beside_a_missed_limit(design: &Design) -> Vec<String> {
    let in_order = design.findings.iter().filter(|f| f.verdict == Verdict::Ok);
    let missed = in_order.filter(|f| f.value.as_ref().is_some_and(|v| f.limit.is_missed_by(v)));
    missed.map(|f| format!("{} is in order: {:?}, {:?}", f.key, f.value, f.limit)).collect()
}

/// The views on a page: all wide lines over the title block.
fn views_on(page: &Page) -> Area {
    let wide = |m: &&Mark| matches!(m, Mark::Stroke(_, Line::Wide, _)) && m.area().bottom > TITLE_BLOCK;
    Area::of(page.marks.iter().filter(wide))
}

/// Upper edge of the title block of a first sheet, mm.
const TITLE_BLOCK: f64 = 46.0;
/// The views and what is said of them cover at least this share of the paper.
const SHARE: f64 = 0.025;

fn scales(page: &Page) -> Vec<f64> {
    let ratio = |words: &str| {
        let (paper, part) = words.strip_prefix("Drawing, continued: scale ").unwrap_or(words).split_once(':')?;
        Some(paper.parse::<f64>().ok()? / part.parse::<f64>().ok()?)
    };
    page.texts().filter_map(|t| ratio(&t.words)).collect()
}

/// What is wrong with the drawing of a part: a sheet with a scale and no view, views too small to be read, a size
/// that the drawing asks for and neither shows nor names.
fn drawing_faults(design: &Design, pages: &[Page]) -> Vec<String> {
    let content = of_design::content(design);
    let drawn: Vec<&Page> = pages.iter().filter(|p| !scales(p).is_empty()).collect();
    if content.drawing.views.is_empty() {
        return drawn.iter().map(|_| "a scale on a sheet without a view".to_string()).collect();
    }
    let mut found = Vec::new();
    if drawn.first().map(|p| p.marks.len()) != pages.first().map(|p| p.marks.len()) {
        found.push("no scale on the first sheet".to_string());
    }
    for page in &drawn {
        let (views, scale) = (views_on(page), scales(page));
        let heads = page.marks.iter().filter(|m| head(m).is_some()).map(Mark::area);
        let all = heads.fold(views, Area::with);
        let share = all.width() * all.height() / (page.width * page.height);
        if scale.len() != 1 || views.width().max(views.height()) < LEGIBLE - 1e-6 || share < SHARE {
            found.push(format!(
                "views of {:.1} × {:.1} mm, {share:.3} of the sheet, scales {scale:?}",
                views.width(),
                views.height()
            ));
        }
    }
    let words: Vec<&str> = drawn.iter().flat_map(|p| p.texts()).map(|t| t.words.as_str()).collect();
    let all = words.join(" ");
    for key in content.drawing.views.iter().flat_map(|v| &v.dimensions).map(|d| &d.key) {
        let figure = content.labels.get(key).and_then(Label::figure).unwrap_or("no figure");
        let name = content.sizes.iter().find(|s| s.key == *key).map_or("no name", |s| s.what.as_str());
        let named = all.contains("No room in the drawing") && all.contains(name);
        if !named && !words.iter().any(|w| w.contains(figure)) {
            found.push(format!("{key}, {figure}, is neither drawn nor named"));
        }
    }
    found
}

/// Works one part; how many arrows its sheets have and their faults, each with the seed, or why it was refused. One
/// set of its files is left for the readers in tests/oracle.
fn look_at(seed: u64) -> Result<(usize, Vec<String>), String> {
    let part = part(seed);
    let family = part.family;
    let design = part
        .work(&format!("{family}-{seed}.toml"))
        .map_err(|told| format!("{seed} {family}: {}", told.lines().take(3).collect::<Vec<_>>().join(" ")))?;
    let mut found = green_beside_a_missed_limit(&design);
    let mut arrows = 0;
    for style in styles(seed) {
        let pages = of_design::sheets(&design, &style).map_err(|why| format!("{seed} {family}: no sheet: {why}"))?;
        let drawn = drawing_faults(&design, &pages).into_iter();
        found.extend(drawn.map(|f| format!("{:?}, {:?}: {f}", style.paper, style.projection)));
        for (i, page) in pages.iter().enumerate() {
            let all = super::faults(page).into_iter().chain(arrow_faults(page)).chain(torn_units(page));
            let place = format!("{:?}, {:?}, sheet {}", style.paper, style.projection, i + 1);
            found.extend(all.chain(words_on_heads(page)).map(|f| format!("{place}: {f}")));
            arrows += page.marks.iter().filter_map(head).count();
        }
    }
    leave_files(&design, &styles(seed)[0]);
    Ok((arrows, found.into_iter().map(|f| format!("{seed} {family}: {f}")).collect()))
}

/// Where the files of the parts are left.
fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("sheets")
}

fn leave_files(design: &Design, style: &Style) {
    let only = ["pdf", "svg", "json", "dxf"].map(String::from).to_vec();
    let options = Options { style: style.clone(), only, ..Options::default() };
    for (name, bytes) in export::files(design, &options).expect("files") {
        std::fs::write(folder().join(name), bytes).expect("written");
    }
}

/// The scale of every sheet with a drawing, on both papers and in both projections; every fault of them.
fn scales_of(text: &str, beside: &[(&'static str, String)]) -> (Vec<f64>, Vec<String>) {
    let neighbour = |_: &str, name: &str| {
        let found = beside.iter().find(|(n, _)| *n == name).ok_or("no such file")?;
        Ok((name.to_string(), found.1.clone()))
    };
    let design = setdown::job::work("part.toml", text, &Shop::default(), &neighbour).expect("a sound part");
    let styles = [Paper::A4, Paper::Letter].into_iter().flat_map(|paper| {
        [Projection::First, Projection::Third].map(|projection| Style { paper, projection, ..Style::default() })
    });
    let (mut all, mut faults) = (Vec::new(), Vec::new());
    for style in styles {
        let pages = of_design::sheets(&design, &style).expect("sheets");
        all.extend(pages.first().into_iter().flat_map(scales));
        faults.extend(drawing_faults(&design, &pages));
        faults.extend(pages.iter().flat_map(super::faults));
    }
    (all, faults)
}

/// A slot is drawn as large as its plate allows, whatever its angle and however long the title of its view.
#[test]
fn slots_at_any_angle_have_a_drawing() {
    let cone = "family = \"cone\"\nname = \"its cone\"\nbase_diameter = \"60 mm\"\ntip_diameter = \"24 mm\"\nhalf_angle = \"30 deg\"\n";
    let beside = [("cone.toml", cone.to_string())];
    for unit in ["mm", "in"] {
        for mates in ["", "mates = \"cone.toml\"\n"] {
            for (length, degrees) in
                [(52.473, -23.96), (45.0, 0.0), (50.0, 45.0), (47.5, 67.35), (52.0, 90.0), (44.3, 120.0)]
            {
                let text = format!(
                    "family = \"cup\"\nname = \"slot\"\nunits = \"{unit}\"\nlength = \"120 mm\"\nwidth = \"100 mm\"\n\
                     thickness = \"8 mm\"\n{mates}[hole]\nkind = \"slot\"\ndiameter = \"40 mm\"\nlength = \"{length} mm\"\n\
                     direction = \"{degrees} deg\"\n[mounting]\nthread = \"M8\"\nspacing = [\"90 mm\", \"70 mm\"]\n"
                );
                let (scales, faults) = scales_of(&text, &beside);
                assert!(faults.is_empty(), "{text}: {}", faults.join("; "));
                assert!(scales.len() == 4 && scales.iter().all(|s| *s >= 0.5), "{text}: {scales:?}");
            }
        }
    }
}

/// A sleeve in many pieces is laid out in rows or over more sheets.
#[test]
fn sleeves_in_many_pieces_have_a_drawing() {
    for pieces in 2..9 {
        let mut text = "family = \"sleeve\"\nname = \"stack\"\nbore = \"30 mm\"\noutside_diameter = \"50 mm\"\nlength = \"150 mm\"\n\
                        bore_class = \"H7\"\noutside_class = \"h6\"\n"
            .to_string();
        for i in 0..pieces {
            let length = if i + 1 == pieces { String::new() } else { format!("length = \"{} mm\"\n", 150 / pieces) };
            text += &format!("[[segment]]\nname = \"piece {i}\"\n{length}");
        }
        let (scales, faults) = scales_of(&text, &[]);
        assert!(faults.is_empty(), "{pieces} pieces: {}", faults.join("; "));
        assert!(scales.len() == 4 && scales.iter().all(|s| *s >= 0.5), "{pieces} pieces: {scales:?}");
    }
}

#[test]
fn parts_drawn_by_lot_have_sheets_in_order() {
    let _ = std::fs::remove_dir_all(folder());
    std::fs::create_dir_all(folder()).expect("a folder");
    let shares: Vec<Vec<_>> = std::thread::scope(|scope| {
        let run = |k: u64| scope.spawn(move || (0..PARTS).filter(|s| s % 2 == k).map(look_at).collect());
        [run(0), run(1)].into_iter().map(|t| t.join().expect("a share of the parts")).collect()
    });
    let (mut worked, mut arrows, mut refused, mut found) = (0, 0, Vec::new(), Vec::new());
    for part in shares.into_iter().flatten() {
        match part {
            Ok((heads, faults)) => {
                worked += 1;
                arrows += heads;
                found.extend(faults);
            }
            Err(why) => refused.push(why),
        }
    }
    assert!(worked >= WORKED, "{} refused: {}", refused.len(), refused[..refused.len().min(12)].join("\n"));
    assert!(arrows > 15 * worked, "only {arrows} arrows seen on {worked} parts");
    assert!(found.is_empty(), "{} faults: {}", found.len(), found[..found.len().min(5000)].join("\n"));
}

/// Arrows that need more room than their line has, and one that points the wrong way.
#[test]
fn the_arrow_check_sees_faults() {
    let mut page = Page::new(210.0, 297.0, "two arrows on a line too short for them");
    let (a, b) = (Point::new(100.0, 100.0), Point::new(105.0, 100.0));
    let arrow = |tip, from| Mark::Fill(setdown::page::place::Arrow { tip, from }.head(), Shade::Black);
    page.marks = vec![Mark::line(a, b, Line::Narrow), arrow(a, b), arrow(b, a)];
    assert_eq!(arrow_faults(&page).len(), 1);
    page.marks = vec![Mark::line(a, b, Line::Narrow), arrow(a, a - b + a)];
    assert_eq!(arrow_faults(&page).len(), 1);
}
