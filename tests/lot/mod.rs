//! Part files that nobody chose, drawn by lot: for every test that wants parts of all families.
#![allow(dead_code, reason = "each test uses the part that it needs")]

use setdown::formulas::random::SplitMix;
use setdown::record::design::Design;
use setdown::shop::Shop;

/// The same parts on every machine.
pub struct Lot(SplitMix);

impl Lot {
    pub fn new(seed: u64) -> Self {
        Self(SplitMix::new(seed))
    }
    pub fn next(&mut self) -> u64 {
        self.0.next_u64()
    }
    pub fn below(&mut self, count: usize) -> usize {
        (self.next() % count as u64) as usize
    }
    pub fn one_in(&mut self, count: usize) -> bool {
        self.below(count) == 0
    }
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }
    /// As a drawing would have it: to a half or to a tenth of a millimetre, sometimes odd.
    fn size(&mut self, low: f64, high: f64) -> f64 {
        let step = self.pick(&[0.5, 0.1, 0.01]);
        ((self.between(low, high) / step).round() * step).clamp(low, high)
    }
    pub fn pick<T: Copy>(&mut self, of: &[T]) -> T {
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
            let class = self.lot.pick(&["f", "m", "c"]);
            // A landing has none of its own.
            if family != "landing" {
                self.line(&format!("general_tolerance = \"{class}\""));
            }
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

/// Families of which one part in fifteen is, in turn.
const FURTHER: [&str; 7] = ["tube-sleeve", "test-fit", "plate", "bush", "clamp", "stand", "adapter"];

pub fn part(seed: u64) -> Part {
    let mut lot = Lot::new(seed);
    let inch = lot.one_in(3);
    let mut w = Writer { lot, inch, text: String::new() };
    let mut beside = Vec::new();
    let family = match seed % 15 {
        10 => FURTHER[(seed / 15) as usize % FURTHER.len()],
        _ => ["cone", "cup", "sleeve", "shim", "landing"][(seed % 5) as usize],
    };
    w.head(family);
    match family {
        "cone" => cone(&mut w),
        "cup" => beside.push(("cone.toml", cup(&mut w))),
        "sleeve" => sleeve(&mut w),
        "shim" => shim(&mut w),
        "tube-sleeve" => tube_sleeve(&mut w),
        "test-fit" => test_fit(&mut w),
        "plate" => flat_plate(&mut w),
        "bush" => bush(&mut w),
        "clamp" => clamp(&mut w),
        "stand" => stand(&mut w),
        "adapter" => adapter(&mut w),
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
        cone_load(w);
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
    if ["M6", "1/4", "M10"].contains(&thread) {
        w.text.insert_str(0, "crossbar_wall = \"5 mm\"\n");
    }
    if w.lot.one_in(2) {
        w.line("way = \"through\"");
        w.words("head", &["counterbore", "countersink", "none"]);
        w.words("clearance", &["fine", "medium", "coarse"]);
    } else {
        w.line("way = \"from below\"");
        w.maybe(2, "depth", 1.2 * major);
    }
    let packing = w.lot.size(0.5, 1.6 * major);
    if w.maybe(3, "packing", packing) && w.lot.one_in(2) {
        w.words("packed", &["all over", "at the bolts"]);
    }
    cone_load(w);
}

/// One in two carries a load, light or beyond what it bears.
fn cone_load(w: &mut Writer) {
    let load = w.lot.size(50.0, 4000.0);
    if w.lot.one_in(2) {
        w.text.insert_str(0, &format!("seat_load = \"{load:.0} kg\"\n"));
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
    // Without a draw, so that all other parts stay as they are.
    if thread == "M10" {
        w.line("packing = \"3 mm\"");
    }
    if ["M8", "1/4"].contains(&thread) {
        w.text.insert_str(0, "frame_wall = \"6 mm\"\n");
    }
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

fn tube_sleeve(w: &mut Writer) {
    let outside = w.lot.size(12.0, 32.0);
    let plug = w.lot.one_in(6);
    let bolted = !plug && w.lot.one_in(2);
    w.put("outside_diameter", outside);
    if !plug && (!bolted || w.lot.one_in(2)) {
        w.put("bore", outside * 0.6);
    }
    w.maybe(3, "hole", outside + 0.6);
    w.maybe(3, "proud", 1.0);
    if !plug && w.lot.one_in(3) {
        w.line("lean = \"12 deg\"");
    }
    if !plug && w.lot.one_in(3) {
        w.line("ends = \"fitted\"");
    }
    if !plug && w.lot.one_in(3) {
        w.line("side_load = \"4 kN\"");
    }
    w.line("[tube]");
    let shape = w.lot.pick(&["round", "square", "rectangle"]);
    w.line(&format!("shape = \"{shape}\""));
    let through = w.lot.size(50.0, 120.0);
    w.put("through", through);
    let wall = w.lot.size(2.0, 6.0);
    w.put("wall", wall);
    if shape == "rectangle" {
        let width = w.lot.size(60.0, 100.0);
        w.put("width", width);
    }
    w.maybe(2, "drain", 8.0);
    if bolted {
        w.line("[bolt]");
        w.words("thread", &["M6", "M8", "1/4"]);
        w.maybe(2, "clamped", 9.0);
    }
}

/// Every second one is printed.
fn printed(w: &mut Writer) {
    if w.lot.one_in(2) {
        let steel = STEELS.iter().find(|steel| w.text.contains(*steel)).unwrap();
        w.text = w.text.replace(steel, "PETG");
    }
}

fn test_fit(w: &mut Writer) {
    printed(w);
    let steel = !w.text.contains("PETG");
    let kinds = ["holes", "pins", "slots", "angle", "plug", "ring", "feelers"];
    let kind = kinds[w.lot.below(if steel { 6 } else { 7 })];
    w.line(&format!("kind = \"{kind}\""));
    match kind {
        "angle" => {
            let half = w.lot.size(10.0, 50.0);
            w.line(&format!("half_angle = \"{half:.2} deg\""));
            let long = w.lot.size(20.0, 80.0);
            w.maybe(2, "length", long);
            w.maybe(2, "thickness", 4.0);
        }
        "plug" | "ring" => {
            let nominal = w.lot.size(8.0, 60.0);
            w.put("nominal", nominal);
            w.words("class", if kind == "plug" { &["H11", "H12", "E9"] } else { &["h11", "d10", "h12"] });
        }
        _ => {
            let nominal = if kind == "feelers" { 0.4 } else { w.lot.size(5.0, 40.0) };
            w.put("nominal", nominal);
            let step = w.lot.pick(&[0.04, 0.1, 0.2]);
            w.maybe(2, "step", step);
            let number = 2 + w.lot.below(8);
            w.line(&format!("number = {number}"));
            if kind != "holes" {
                w.maybe(2, "length", 25.0);
            }
            if kind != "pins" {
                w.maybe(2, "thickness", 4.0);
            }
            if kind != "feelers" && w.lot.one_in(2) {
                w.put("tried_with", nominal);
                w.line("fits_at = 2");
            }
        }
    }
}

fn flat_plate(w: &mut Writer) {
    printed(w);
    let thickness = w.lot.pick(&[3.0, 5.0, 6.0, 8.0]);
    w.put("thickness", thickness);
    let shape = w.lot.pick(&["rectangle", "disc", "arm", "angle", "gusset"]);
    w.line(&format!("shape = \"{shape}\""));
    let (long, wide) = (w.lot.size(150.0, 260.0), w.lot.size(90.0, 140.0));
    if shape == "disc" {
        w.put("diameter", long);
    } else {
        w.put("length", long);
        w.put("width", wide);
    }
    // Holes lie about the origin, or well inside the leg along x.
    let (x, y) = match shape {
        "angle" => {
            w.put("leg", 45.0);
            w.maybe(2, "inner_radius", 5.0);
            (25.0, 22.0)
        }
        "gusset" => {
            w.put("blunt", 15.0);
            (22.0, 22.0)
        }
        _ => {
            if shape == "rectangle" {
                w.maybe(2, "corner_radius", 6.0);
            }
            (0.0, 0.0)
        }
    };
    if shape == "arm" && w.lot.one_in(2) {
        w.line("onto = \"aluminium 6061-T6\"");
    }
    w.line("[[hole]]");
    w.list("at", &[x, y]);
    match w.lot.below(4) {
        0 => w.put("diameter", 10.0),
        1 => {
            w.put("diameter", 9.0);
            w.put("length", 20.0);
            w.line("direction = \"30 deg\"");
        }
        2 => w.line("thread = \"M8\"\ntapped = true"),
        _ => w.line("thread = \"M8\""),
    }
    if shape == "disc" {
        w.line("[[hole]]");
        w.list("at", &[0.0, 0.0]);
        w.line("thread = \"M6\"\nnumber = 6");
        w.put("circle", long * 0.6);
    }
}

fn bush(w: &mut Writer) {
    let bore = w.lot.size(8.0, 60.0);
    let wall = w.lot.size(2.0, 6.0);
    let length = bore * w.lot.pick(&[0.4, 0.8, 1.0, 1.5, 2.2]);
    if w.lot.one_in(2) {
        // Of the metals of the head only one is known as a bush.
        w.text = w
            .text
            .replace("steel S235", "acetal")
            .replace("steel 1045", "nylon 6/6")
            .replace("aluminium 6061-T6", "UHMWPE");
    }
    w.put("bore", bore);
    w.put("outside_diameter", bore + 2.0 * wall);
    w.put("length", length);
    w.words("bore_class", &["F8", "E9", "H8", "G7"]);
    w.words("outside_class", &["m6", "p6", "r6", "s6"]);
    w.maybe(2, "chamfer", 0.5);
    w.maybe(2, "bore_chamfer", 0.3);
    let (hole, inside) = (w.lot.one_in(2), w.lot.one_in(2));
    if hole {
        w.maybe(2, "straight_groove", bore * 0.12);
    }
    w.line("[shaft]");
    w.words("class", &["f7", "h8", "h6", "e8"]);
    w.words("material", &["steel S235", "steel 1045", "stainless 304"]);
    w.line("[housing]");
    w.words("class", &["H7", "H8"]);
    w.line("[pressed_in]");
    let metal = w.lot.size(6.0, 40.0);
    w.put("hub_outside", bore + 2.0 * (wall + metal));
    if w.lot.one_in(2) {
        w.words("secured", &["screw", "compound"]);
        if w.text.contains("\"compound\"") && w.lot.one_in(2) {
            w.line("shear_strength = \"15 MPa\"");
        }
    }
    if hole {
        w.line("[grease_hole]");
        w.put("diameter", (length * 0.15).min(4.0));
        if inside && length > 12.0 {
            w.line("[groove]");
            w.put("width", length * 0.25);
            w.put("depth", wall * 0.3);
        }
    }
    let newtons = 50 + 250 * w.lot.below(40);
    w.line(&format!("[runs]\nload = \"{newtons} N\""));
    match w.lot.below(3) {
        0 => {
            let turns = 5 + 20 * w.lot.below(60);
            w.line(&format!("turns_per_minute = {turns}"));
        }
        1 => {
            let (swing, often) = (10 + w.lot.below(120), 1 + w.lot.below(60));
            w.line(&format!("swing = \"{swing} deg\"\nswings_per_minute = {often}"));
            if w.lot.one_in(2) {
                w.line("hours = 400\nwear_factor = 4e-6");
            }
        }
        _ => {}
    }
    if w.lot.one_in(3) {
        w.line("dirt = true");
    }
    if w.lot.one_in(3) {
        w.line("[washer]");
        w.put("outside_diameter", bore + 16.0);
        w.put("thickness", 3.0);
        w.line("load = \"300 N\"");
    }
    if w.lot.one_in(3) {
        w.line("[needles]\nrollers = 12");
        w.put("roller_diameter", 2.0);
        w.put("roller_length", length * 0.6);
    }
}

fn clamp(w: &mut Writer) {
    let tube = w.lot.size(16.0, 80.0);
    let (over, wall) = (w.lot.pick(&[0.02, 0.1, 0.4]), tube * w.lot.pick(&[0.15, 0.2, 0.35]));
    let (thread, major) = w.lot.pick(&[("M6", 6.0), ("M8", 8.0), ("5/16", 8.0), ("M10", 10.0)]);
    w.words("kind", &["split", "split", "halves"]);
    let lined = w.lot.one_in(5);
    let opened = !lined && w.lot.one_in(4);
    let bore = tube + if lined { 6.0 } else { over + 0.1 };
    if !opened {
        w.put("bore", bore);
        if w.lot.one_in(2) {
            w.words("bore_class", &["H8", "H9", "H11"]);
        }
    }
    let outside = bore + 2.0 * wall;
    w.put("outside_diameter", outside);
    let width = w.lot.size(2.2 * major, 50.0);
    w.put("width", width);
    let gap = w.lot.pick(&[1.0, 2.0, 4.0]);
    w.put("gap", gap);
    let ear = (outside / 2.0 - gap).min(1.6 * major);
    w.put("ear_thickness", ear);
    let face = gap / 2.0 + ear;
    let root = (outside * outside / 4.0 - face * face).max(0.0).sqrt().max(bore / 2.0);
    let tall = root + major * w.lot.pick(&[1.7, 2.4, 4.0]);
    w.put("ear_height", tall);
    if w.lot.one_in(3) {
        w.line("friction = 0.15");
    }
    if opened {
        w.line("[opened]");
        w.put("bore_before", tube * 0.85);
        w.list("steps", &[tube * 0.8, tube * 0.9, bore, bore + 2.0]);
        let high = width * w.lot.pick(&[0.3, 0.6]);
        w.put("step_height", high);
    }
    w.line(&format!("[screw]\nthread = \"{thread}\""));
    if thread.starts_with('M') && w.lot.one_in(2) {
        w.words("class", &["4.6", "5.8", "8.8"]);
    }
    if width > 4.0 * major && w.lot.one_in(2) {
        w.line("number = 2");
    }
    if w.lot.one_in(2) {
        w.words("into", &["thread", "nut"]);
    }
    w.line("[tube]");
    w.put("diameter", tube);
    w.put("tolerance", 0.05);
    let walls = (tube * 0.1).max(1.0);
    w.maybe(2, "wall", walls);
    if w.lot.one_in(2) {
        w.words("material", &["steel 1045", "aluminium 6061-T6", "stainless 304"]);
    }
    if !w.lot.one_in(4) {
        let newtons = 20 + 40 * w.lot.below(12);
        w.line(&format!("[holds]\nforce_on_lever = \"{newtons} N\""));
        w.put("lever", tube * 4.0);
        if w.lot.one_in(3) {
            w.line("along = \"300 N\"\nsafety = 2");
        }
    }
    if lined {
        w.line("[liner]");
        w.maybe(2, "wall", 2.8);
    }
}

fn stand(w: &mut Writer) {
    let t = w.lot.pick(&[4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0]);
    let high = t * w.lot.size(32.0, 70.0);
    w.put("height", high);
    let length = t * w.lot.size(32.0, 55.0);
    w.put("length", length);
    let width = t * w.lot.size(34.0, 60.0);
    w.put("width", width);
    let top = width * w.lot.pick(&[0.5, 0.6, 0.8]);
    w.maybe(2, "top_width", top);
    w.put("thickness", t);
    let depth = t * w.lot.size(9.5, 14.0);
    w.maybe(2, "rail_depth", depth);
    let leg = t * w.lot.size(4.0, 9.0);
    w.maybe(2, "leg_width", leg);
    match w.lot.below(4) {
        0 => w.list("measured_thickness", &[t * 1.005, t * 1.01]),
        1 => w.line("rolled = \"strip\""),
        _ => {}
    }
    let play = w.lot.pick(&[0.05, 0.3, 0.6]);
    w.maybe(4, "joint_clearance", play);
    w.maybe(6, "kerf", 0.25);
    if w.lot.one_in(3) {
        w.line("lock = \"bolts\"");
        if w.lot.one_in(3) {
            w.words("class", &["8.8", "10.9"]);
        }
    } else if w.lot.one_in(3) {
        w.words("wedge_angle", &["3 deg", "5 deg", "7 deg", "9 deg"]);
    }
    let stands = w.lot.pick(&[1, 2, 3, 4, 4, 6]);
    let kilograms = (20.0 * t * t * w.lot.pick(&[0.05, 0.2, 0.5, 1.0]) * f64::from(stands) / 4.0).max(5.0);
    w.line(&format!("load = \"{kilograms:.0} kg\"\nshared_by = {stands}"));
    if stands < 3 {
        let over = high * w.lot.pick(&[0.0, 0.2, 0.5]);
        w.put("load_height", over);
    } else if w.lot.one_in(2) {
        w.put("load_height", high);
        let apart = high * w.lot.pick(&[0.4, 0.6, 2.0]);
        w.put("apart", apart);
    }
    if w.lot.one_in(3) {
        w.words("floor", &["timber", "asphalt", "earth", "concrete"]);
    }
    w.maybe(3, "sole", 250.0);
    if w.lot.one_in(4) {
        w.line(&format!("push = \"{:.0} N\"", kilograms * 0.4));
    }
}

fn adapter(w: &mut Writer) {
    if w.lot.one_in(4) {
        let steel = STEELS.iter().find(|steel| w.text.contains(*steel)).unwrap();
        w.text = w.text.replace(steel, "PETG");
    }
    let kind = w.lot.pick(&["flange", "flange", "spacer"]);
    w.line(&format!("kind = \"{kind}\""));
    let bore = w.lot.size(20.0, 60.0);
    let (inner, outer) = (bore + w.lot.size(60.0, 90.0), bore + w.lot.size(110.0, 150.0));
    let outside = outer + w.lot.pick(&[24.0, 32.0, 50.0]);
    w.put("outside_diameter", outside);
    let thickness = w.lot.pick(&[14.0, 20.0, 30.0]);
    w.put("thickness", thickness);
    let bored = !w.lot.one_in(5);
    if bored {
        w.put("bore", bore);
        let wider = bore + w.lot.pick(&[2.0, 6.0]);
        if !w.maybe(4, "bore_below", wider) && w.lot.one_in(3) {
            w.words("bore_class", &["H7", "H9"]);
        }
    }
    for (face, circle) in [("upper", inner), ("lower", outer)] {
        w.line(&format!("[{face}]"));
        w.put("circle", circle);
        let number = w.lot.pick(&[3, 4, 6, 8, 12]);
        w.line(&format!("number = {number}"));
        w.words("thread", &["M6", "M8", "M10", "5/16"]);
        let hole = w.lot.pick(&["clearance", "counterbored", "tapped"]);
        w.line(&format!("hole = \"{hole}\""));
        if hole == "tapped" {
            w.maybe(2, "thread_depth", thickness * 0.5);
        }
        w.maybe(2, "onto_thickness", 12.0);
        let mate = circle + w.lot.pick(&[22.0, 30.0]);
        w.maybe(2, "mate_diameter", mate);
        if w.lot.one_in(2) {
            w.words("onto", &["steel S235", "aluminium 6061-T6"]);
        }
        if w.lot.one_in(2) {
            let turn = w.lot.pick(&[10.0, 15.0, 30.0]);
            w.line(&format!("first_angle = \"{turn} deg\""));
        }
        face_of_adapter(w, bore, thickness);
    }
    if w.lot.one_in(2) {
        let newtons = 100 + 400 * w.lot.below(12);
        w.line(&format!("[load]\nacross = \"{newtons} N\""));
        w.maybe(2, "lever", 250.0);
        if w.lot.one_in(2) {
            w.line("pull = \"800 N\"");
        }
    }
}

/// Register, gasket or O-ring of a face, inside of its bolts.
fn face_of_adapter(w: &mut Writer, bore: f64, thickness: f64) {
    if w.lot.one_in(3) {
        w.words("register", &["spigot", "recess"]);
        w.put("register_diameter", bore + 10.0);
        let high: f64 = w.lot.pick(&[1.5, 3.0]);
        w.put("register_height", high.min(thickness * 0.2));
        let spigot = w.text.rsplit("register = ").next().is_some_and(|rest| rest.starts_with("\"spigot"));
        if spigot && w.lot.one_in(3) {
            w.words("register_class", &["h6", "f7", "k6"]);
        }
    }
    if w.lot.one_in(2) {
        let section = w.lot.pick(&[1.78, 2.62, 3.53, 5.33]);
        w.put("ring_section", section);
        w.put("ring_inside", bore + 14.0);
        if w.lot.one_in(3) {
            w.words("pressure", &["inside", "outside"]);
        }
        let deep = section * w.lot.pick(&[0.62, 0.76, 0.9]);
        w.maybe(3, "groove_depth", deep);
        let wide = section * w.lot.pick(&[1.15, 1.5]);
        w.maybe(4, "groove_width", wide);
        let wall = bore + w.lot.pick(&[12.0, 14.5, 18.0]);
        if !w.text.contains("pressure = \"inside\"") {
            w.maybe(4, "groove_diameter", wall);
        }
    } else if w.lot.one_in(2) {
        w.put("gasket", 1.0);
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
    w.maybe(2, "hoist_swing", 1.0);
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
    // One in three is reckoned for any load that comes.
    let load = if w.lot.one_in(3) { "seat_load = \"40 kN\"\n[hole]" } else { "[hole]" };
    let cup = cup.replace("[hole]", load);
    let slot = cup.replace("kind = \"round\"", "kind = \"slot\"\nlength = \"60 mm\"");
    vec![("cone.toml", cone.into()), ("cup.toml", cup), ("slot.toml", slot)]
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

impl Part {
    /// The part worked as the program works it.
    ///
    /// # Errors
    /// The problems as a person is told them.
    pub fn work(&self, file: &str) -> Result<Design, String> {
        let neighbour = |_: &str, name: &str| {
            let found = self.beside.iter().find(|(n, _)| *n == name).ok_or("no such file")?;
            Ok((name.to_string(), found.1.clone()))
        };
        setdown::job::work(file, &self.text, &Shop::default(), &neighbour)
            .map_err(|problems| setdown::job::render(&problems, &self.text))
    }
}
