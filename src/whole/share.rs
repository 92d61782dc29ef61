//! What one part gives to the whole job, as data that can be written down and read again: a part that has not changed is not
//! worked again for the job's sake.

use serde::{Deserialize, Serialize};

use crate::export::mesh;
use crate::record::design::{Design, Verdict};
use crate::record::drawing::View;
use crate::record::show;
use crate::record::tools;
use crate::shape::{Body, Solid};
use crate::sheet::trace;
use crate::sheet::view::{self, Labels};
use crate::sheet::{Area, Mark, Point};
use crate::shop::Shop;
use crate::standards::galvanic::Environment;
use crate::units::Length;

/// Chord of the meshes from which centres of mass are taken.
const CHORD: Length = Length::mm(0.05);
/// Side of the square that holds a small picture, mm.
pub const PICTURE: f64 = 21.0;
/// Curves of a small picture are cut into chords of so many degrees.
const PICTURE_CHORD: f64 = 12.0;

/// One part.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Share {
    /// Its part file, short: `parts/cone.toml`.
    pub file: String,
    /// Stem of its files.
    pub part: String,
    /// Name on its sheet.
    pub name: String,
    /// Its family.
    pub family: String,
    /// `ok`, `caution`, `fail`; `faulty` where its file cannot be worked.
    pub verdict: String,
    /// What is wrong: findings that fail, or the first fault of its file.
    pub wrong: Vec<String>,
    /// How many findings are cautions.
    pub cautions: u32,
    /// So many are wanted.
    pub count: u32,
    /// Its material, as written.
    pub material: String,
    /// Its solids.
    pub solids: Vec<Weighed>,
    /// Plates from the cutter.
    pub plates: Vec<PlateWanted>,
    /// Bar to be sawn.
    pub bars: Vec<BarWanted>,
    /// Bolts for one piece.
    pub bolts: Vec<BoltsWanted>,
    /// What is used up: what, what for, and kilograms of it where that can be told.
    pub consumables: Vec<(String, String, Option<f64>)>,
    /// Tools: place, tool.
    pub tools: Vec<(String, String)>,
    /// Instruments.
    pub instruments: Vec<String>,
    /// For the box: what, what for.
    pub road: Vec<(String, String)>,
    /// The work in order.
    pub stages: Vec<Stage>,
    /// Parts that have to be measured before its work begins, or before that at the place named.
    pub waits: Vec<(String, Option<String>)>,
    /// Where it puts other parts.
    pub seats: Vec<SeatedPart>,
    /// The frame that it lands: mass in kg, centre of mass in mm.
    pub frame: Option<(f64, [f64; 3])>,
    /// A small picture: lines through points, mm, in a square.
    pub picture: Vec<Vec<[f64; 2]>>,
}

/// A solid with its weight.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Weighed {
    /// Which one, where there are several.
    pub name: String,
    /// Its material.
    pub material: String,
    /// It comes from the printer.
    pub printed: bool,
    /// So many are made.
    pub count: u32,
    /// Volume of one.
    pub volume_mm3: f64,
    /// Mass of one.
    pub mass_kg: f64,
    /// The shop's printer is known, and it does not go on it as its STL lies.
    pub beyond_bed: bool,
    /// Its centre of mass in the coordinates of its STEP file.
    pub centre_mm: [f64; 3],
}

/// Plates of one thickness.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct PlateWanted {
    /// Which of several drawings of the part; empty where it has one.
    pub piece: String,
    /// Material as it is ordered.
    pub material: String,
    /// Thickness.
    pub thickness_mm: f64,
    /// To which limits it is rolled; empty for what no standard says.
    pub rolled: String,
    /// So many.
    pub count: u32,
    /// What is done with its hardness.
    pub hardness: String,
    /// Its coating; empty for none.
    pub plating: String,
}

/// Pieces of bar.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct BarWanted {
    /// Material as it is bought.
    pub material: String,
    /// Diameter; none where none so thick is sold.
    pub across_mm: Option<f64>,
    /// So many.
    pub count: u32,
    /// Length of one.
    pub each_mm: f64,
    /// What it is for.
    pub what: String,
}

/// Bolts of one kind.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct BoltsWanted {
    /// As ordered.
    pub what: String,
    /// Thread alone.
    pub thread: String,
    /// Property class.
    pub class: String,
    /// For one piece of the part.
    pub each: u32,
    /// Nut; empty for none.
    pub nut: String,
    /// Washers on each.
    pub washers: u32,
    /// What is clamped, where it is known.
    pub grip_mm: Option<f64>,
    /// Torque; empty where none is reckoned.
    pub torque: String,
    /// State of thread and head for it.
    pub state: String,
    /// What is eaten where it stays wet; empty where nothing is.
    pub corrodes: String,
}

/// Work at one place without a break.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Stage {
    /// The machine or place.
    pub at: String,
    /// First and last step of the sheet.
    pub steps: [u32; 2],
    /// Something is measured.
    pub measures: bool,
    /// It fixes the part where it belongs.
    #[serde(default)]
    pub fixes: bool,
}

/// A part at a seat.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct SeatedPart {
    /// The seat.
    pub seat: String,
    /// The part.
    pub part: String,
    /// The frame carries it.
    pub on_frame: bool,
    /// Where.
    pub at_mm: [f64; 2],
}

/// Six decimals: what is written is read back as the very same number.
fn six(x: f64) -> f64 {
    let rounded = (x * 1e6).round() / 1e6;
    if rounded == 0.0 { 0.0 } else { rounded }
}

impl Share {
    /// What a worked part gives.
    pub fn of(design: &Design, shop: &Shop) -> Self {
        let h = &design.header;
        let fails = design.findings.iter().filter(|f| f.verdict == Verdict::Fail);
        let cautions = design.findings.iter().filter(|f| f.verdict == Verdict::Caution).count();
        let wants = &design.wants;
        Self {
            file: h.file.clone(),
            part: h.stem.clone(),
            name: h.name.clone(),
            family: h.family.into(),
            verdict: design.verdict().word().into(),
            wrong: fails.map(|f| show::finding_line(f, h.unit).head).collect(),
            cautions: cautions as u32,
            count: h.count,
            material: h.material.clone().unwrap_or_default(),
            solids: design.solids.iter().map(|solid| weighed(design, solid, shop)).collect(),
            plates: wants.plates.iter().map(plate).collect(),
            bars: design.bars.iter().map(bar).collect(),
            bolts: wants.bolts.iter().map(|b| bolts(b, design, shop)).collect(),
            consumables: wants
                .consumables
                .iter()
                .map(|c| (c.what.clone(), c.used.clone(), c.mass.map(|m| six(m.as_kg()))))
                .collect(),
            tools: tools::by_place(design)
                .into_iter()
                .flat_map(|(at, tools)| tools.into_iter().map(move |tool| (at.to_string(), tool)))
                .filter(|(_, tool)| !wants.bolts.iter().any(|b| tool.starts_with(&b.laid_out)))
                .collect(),
            instruments: tools::all_instruments(design).into_iter().map(String::from).collect(),
            road: wants.road.clone(),
            stages: stages(design),
            waits: wants.waits.iter().map(|w| (w.part.clone(), w.at.map(String::from))).collect(),
            seats: wants
                .seats
                .iter()
                .map(|s| SeatedPart {
                    seat: s.seat.clone(),
                    part: s.part.clone(),
                    on_frame: s.on_frame,
                    at_mm: s.at.map(|l| six(l.as_mm())),
                })
                .collect(),
            frame: wants.frame.as_ref().map(|f| (six(f.mass_kg), f.centre.map(|l| six(l.as_mm())))),
            picture: picture(design),
        }
    }

    /// A part whose file cannot be worked.
    pub fn faulty(file: &str, part: &str, why: &str) -> Self {
        let first = why.lines().next().unwrap_or_default();
        let first = first.strip_prefix("error: ").unwrap_or(first);
        Self {
            file: file.into(),
            part: part.into(),
            name: part.into(),
            verdict: FAULTY.into(),
            wrong: vec![first.into()],
            ..Self::default()
        }
    }

    /// Whether it is made as it is: nothing is ordered, sawn or bought for one that is not.
    pub fn is_made(&self) -> bool {
        self.verdict != FAULTY && self.verdict != Verdict::Fail.word() && self.count > 0
    }

    /// Mass of all that are made, kg.
    pub fn mass(&self) -> f64 {
        self.solids.iter().map(|s| s.mass_kg * f64::from(s.count)).sum()
    }

    /// Centre of mass of one, mm; of pieces that lie apart in their files, that of each is told by itself.
    pub fn centre(&self) -> Option<[f64; 3]> {
        match self.solids.as_slice() {
            [one] => Some(one.centre_mm),
            _ => None,
        }
    }
}

/// The word of a part whose file cannot be worked.
pub const FAULTY: &str = "faulty";

fn plate(p: &crate::record::wants::Plate) -> PlateWanted {
    PlateWanted {
        piece: p.piece.clone(),
        material: p.material.clone(),
        thickness_mm: six(p.thickness.as_mm()),
        rolled: p.rolled.clone(),
        count: p.count,
        hardness: p.hardness.clone(),
        plating: p.plating.clone().unwrap_or_default(),
    }
}

fn bar(b: &crate::record::design::Bar) -> BarWanted {
    BarWanted {
        material: b.material.clone(),
        across_mm: b.across.map(|l| six(l.rounded().as_mm())),
        count: b.count,
        each_mm: six(b.each.rounded().as_mm()),
        what: b.what.clone().unwrap_or_default(),
    }
}

fn weighed(design: &Design, solid: &Solid, shop: &Shop) -> Weighed {
    let suffix = solid.name_suffix.clone().unwrap_or_default();
    let own = design.wants.made_of.iter().find(|(name, _)| *name == suffix).map(|(_, material)| material.clone());
    let material = own.or_else(|| design.header.material.clone()).unwrap_or_default();
    let known = shop.material(&material).ok();
    let volume = solid.body.volume();
    let mass = known.as_ref().map_or(0.0, |m| (m.density * volume).as_kg());
    Weighed {
        material,
        printed: known.is_some_and(|m| m.printed),
        count: design.wants.counts.iter().find(|(name, _)| *name == suffix).map_or(design.header.count, |(_, n)| *n),
        volume_mm3: six(volume.as_mm3()),
        mass_kg: six(mass),
        beyond_bed: shop.printer.holds(extents(&solid.body)) == Some(false),
        centre_mm: centre(&solid.body),
        name: suffix,
    }
}

/// How far a body reaches: across both ways, and up.
fn extents(body: &Body) -> (Length, Length, Length) {
    match body {
        Body::Flat(flat) => (flat.extents().width(), flat.extents().height(), flat.thickness()),
        Body::Turned(turned) => {
            let profile = turned.profile().extents();
            let across = profile.greatest().x() * 2.0;
            (across, across, profile.height())
        }
    }
}

/// Centre of mass of a body: of a flat one in closed form, else by the divergence theorem over its mesh; each corner of the mesh
/// lies on the surface.
fn centre(body: &Body) -> [f64; 3] {
    if let Body::Flat(flat) = body {
        let (at, high) = flat.centroid();
        return [at.x(), at.y(), high].map(|l| six(l.as_mm()));
    }
    mesh::mesh(body, CHORD).map_or([0.0; 3], |mesh| mesh.centre().map(six))
}

fn bolts(b: &crate::record::wants::Bolts, design: &Design, shop: &Shop) -> BoltsWanted {
    let (torque, state) = b.torque.clone().unwrap_or_default();
    BoltsWanted {
        what: b.what.clone(),
        thread: b.thread.clone(),
        class: b.class.clone(),
        each: b.each,
        nut: b.nut.clone().unwrap_or_default(),
        washers: b.washers,
        grip_mm: b.grip.map(|l| six(l.as_mm())),
        torque,
        state,
        corrodes: corrodes(b, design, shop),
    }
}

/// What of bolt and parts is eaten where it stays wet, by the anodic index of the two metals and where the part stands.
fn corrodes(b: &crate::record::wants::Bolts, design: &Design, shop: &Shop) -> String {
    use crate::standards::galvanic;
    let place = match design.named("environment").map(|d| show::value(&d.value, design.header.unit)).as_deref() {
        Some("dry") => Environment::Controlled,
        Some("indoors") => Environment::Normal,
        _ => Environment::Harsh,
    };
    let (bolt, name) = if b.stainless { (galvanic::STAINLESS, "stainless bolt") } else { (galvanic::STEEL, "bolt") };
    let most = galvanic::allowed_difference_volts(place).value;
    let mut eaten: Vec<String> = Vec::new();
    for metal in &b.touches {
        let Some(group) = shop.material(metal).ok().and_then(|m| m.anodic) else { continue };
        let (volts, second) = galvanic::anodic_difference_volts(&bolt, &group);
        let says = if second { format!("{metal} beside the {name}") } else { format!("the {name} beside {metal}") };
        if volts > most && !eaten.contains(&says) {
            eaten.push(says);
        }
    }
    eaten.join("; ")
}

/// Steps in a row at one place.
fn stages(design: &Design) -> Vec<Stage> {
    let mut stages: Vec<Stage> = Vec::new();
    for (i, step) in design.operations.iter().enumerate() {
        let number = i as u32 + 1;
        let measures = !step.measure.is_empty();
        match stages.last_mut().filter(|last| last.at == step.at && last.fixes == step.fixes) {
            Some(last) => {
                last.steps = [last.steps[0], number];
                last.measures |= measures;
            }
            None => stages.push(Stage { at: step.at.into(), steps: [number; 2], measures, fixes: step.fixes }),
        }
    }
    stages
}

/// The first view of the drawing without a word, in a small square.
fn picture(design: &Design) -> Vec<Vec<[f64; 2]>> {
    // The view that shows most: the plan of a plate, the section of a turned part.
    let shows = |v: &&View| {
        let area = trace::bare_area(v);
        area.width() * area.height()
    };
    let views = || design.drawing.iter().flat_map(|d| &d.views);
    let own = views().max_by(|a, b| shows(a).total_cmp(&shows(b))).cloned();
    let Some(view) = own.or_else(|| design.solids.first().map(bare)) else { return seats(design) };
    let edges = bare_edges(&view);
    let area = trace::bare_area(&view);
    let scale = PICTURE / area.width().max(area.height()).max(1e-6);
    let block = view::draw(&edges, scale, &Labels::new());
    into_square(&block.marks)
}

fn bare(solid: &Solid) -> View {
    match &solid.body {
        Body::Turned(turned) => View::section("", turned),
        Body::Flat(flat) => View::plan("", flat),
    }
}

/// The edges of a view alone.
fn bare_edges(view: &View) -> View {
    View {
        dimensions: Vec::new(),
        notes: Vec::new(),
        frames: Vec::new(),
        textures: Vec::new(),
        datums: Vec::new(),
        cuts: Vec::new(),
        ..view.clone()
    }
}

/// Where a landing puts its parts: a cross at each seat and the lines between them.
fn seats(design: &Design) -> Vec<Vec<[f64; 2]>> {
    let at = |s: &crate::record::wants::Seated| Point::new(s.at[0].as_mm(), s.at[1].as_mm());
    let places: Vec<Point> = design.wants.seats.iter().filter(|s| !s.on_frame).map(at).collect();
    let area = Area::around(places.iter().copied());
    if places.len() < 2 {
        return Vec::new();
    }
    let scale = (PICTURE - 4.0) / area.width().max(area.height()).max(1e-6);
    let put = |p: &Point| [six((p.x - area.left) * scale + 2.0), six((p.y - area.bottom) * scale + 2.0)];
    let ring = |p: &Point| {
        let [x, y] = put(p);
        [[-1.5, 0.0], [0.0, 1.5], [1.5, 0.0], [0.0, -1.5], [-1.5, 0.0]]
            .map(|[dx, dy]| [six(x + dx), six(y + dy)])
            .to_vec()
    };
    let box_round =
        [(area.left, area.bottom), (area.right, area.bottom), (area.right, area.top), (area.left, area.top)];
    let round = box_round.iter().chain(box_round.first()).map(|(x, y)| put(&Point::new(*x, *y))).collect();
    std::iter::once(round).chain(places.iter().map(ring)).collect()
}

fn into_square(marks: &[Mark]) -> Vec<Vec<[f64; 2]>> {
    let area = Area::of(marks);
    let three = |x: f64| (x * 1e2).round() / 1e2;
    let put = |p: &Point| [three(p.x - area.left), three(p.y - area.bottom)];
    let strokes = marks.iter().filter_map(|m| if let Mark::Stroke(path, ..) = m { Some(path) } else { None });
    strokes.flat_map(|path| &path.contours).map(|c| c.points(PICTURE_CHORD).iter().map(put).collect()).collect()
}
