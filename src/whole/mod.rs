//! The whole job: what all parts of a folder need together, worked once from what each gives, and shown in every output: what
//! goes to the cutter, what is sawn, laid out, bought, used up, printed, taken along, what it weighs, and in which order it is done.

pub mod csv;
pub mod graph;
pub mod json;
pub mod lists;
pub mod order;
pub mod pages;
pub mod saw;
pub mod share;
pub mod weights;

use graph::Graph;
use saw::Sawn;
use share::Share;
use weights::Carried;

use crate::shop::Shop;
use crate::units::{Length, LengthUnit};

/// One file of the order to the cutter.
#[derive(Clone, PartialEq, Debug)]
pub struct Cut {
    /// Its name in the order's folder.
    pub file: String,
    /// The part whose DXF it is.
    pub part: String,
    /// Which of several drawings of that part; empty where it has one.
    pub piece: String,
    /// Material as it is ordered.
    pub material: String,
    /// Thickness.
    pub thickness: Length,
    /// To which limits it is rolled; empty for what no standard says.
    pub rolled: String,
    /// So many.
    pub count: u32,
    /// What is done with its hardness.
    pub hardness: String,
    /// Its coating; empty for none.
    pub plating: String,
}

impl Cut {
    /// Stem of the drawing among the part's own files.
    pub fn drawing(part: &str, piece: &str) -> String {
        if piece.is_empty() { part.into() } else { format!("{part}-{piece}") }
    }
}

/// Fasteners of one kind, all parts together.
#[derive(Clone, PartialEq, Debug)]
pub struct Fasteners {
    /// As it is ordered.
    pub what: String,
    /// Its class.
    pub class: String,
    /// Thread alone.
    pub thread: String,
    /// So many.
    pub count: u32,
    /// Nut on each; empty for none.
    pub nut: String,
    /// Washers, all together.
    pub washers: u32,
    /// Which parts they hold, each with what they clamp there, the torque and what corrodes.
    pub holds: Vec<Hold>,
}

/// One part that they hold.
#[derive(Clone, PartialEq, Debug)]
pub struct Hold {
    /// The part.
    pub part: String,
    /// So many there.
    pub count: u32,
    /// What is clamped, where it is known.
    pub grip: Option<Length>,
    /// Torque; empty where none is reckoned.
    pub torque: String,
    /// State of thread and head.
    pub state: String,
    /// What is eaten where it stays wet.
    pub corrodes: String,
}

/// The whole job.
#[derive(Clone, Debug)]
pub struct Job {
    /// Unit shown first.
    pub unit: LengthUnit,
    /// All parts, in the order of their files.
    pub parts: Vec<Share>,
    /// The order to the cutter.
    pub cutter: Vec<Cut>,
    /// What is sawn.
    pub saw: Vec<Sawn>,
    /// What one cut of the saw takes, and whether it is assumed.
    pub kerf: (Length, bool),
    /// Bolts, screws, nuts.
    pub fasteners: Vec<Fasteners>,
    /// What the printer lays down in an hour, cm³, and whether it is assumed.
    pub print_rate: (f64, bool),
    /// What is carried by which frame.
    pub carried: Vec<Carried>,
    /// The order of work.
    pub graph: Graph,
}

impl Job {
    /// Of what the parts give.
    pub fn of(mut parts: Vec<Share>, shop: &Shop) -> Self {
        parts.sort_by(|a, b| a.part.cmp(&b.part).then(a.file.cmp(&b.file)));
        let made: Vec<&Share> = parts.iter().filter(|p| p.is_made()).collect();
        Self {
            unit: shop.unit,
            cutter: cutter(&made),
            saw: saw::sawn(&made, shop),
            kerf: (shop.saw_kerf(), !shop.has_written("saw_kerf")),
            fasteners: fasteners(&made),
            print_rate: (shop.print_rate(), !shop.has_written("print_rate")),
            carried: weights::carried(&made),
            graph: Graph::of(&made),
            parts,
        }
    }

    /// The parts that are made: nothing is ordered for the others.
    pub fn made(&self) -> Vec<&Share> {
        self.parts.iter().filter(|p| p.is_made()).collect()
    }
}

/// One file for each part, material and thickness: two of them never share one.
fn cutter(parts: &[&Share]) -> Vec<Cut> {
    let one = |share: &Share| {
        let of = share.plates.iter().filter(|p| p.count > 0).map(|p| {
            let thickness = Length::mm(p.thickness_mm);
            let thick = crate::record::show::trimmed(p.thickness_mm, 4);
            let drawn = Cut::drawing(&share.part, &p.piece);
            let file = format!("{}_{thick}mm_{}x_{drawn}.dxf", plain(&p.material), p.count);
            let (material, hardness, plating) = (p.material.clone(), p.hardness.clone(), p.plating.clone());
            let (part, piece) = (share.part.clone(), p.piece.clone());
            Cut { file, part, piece, material, thickness, rolled: p.rolled.clone(), count: p.count, hardness, plating }
        });
        of.collect::<Vec<_>>()
    };
    let mut all: Vec<Cut> = parts.iter().flat_map(|p| one(p)).collect();
    all.sort_by(|a, b| {
        a.material
            .cmp(&b.material)
            .then(a.thickness.as_mm().total_cmp(&b.thickness.as_mm()))
            .then(a.part.cmp(&b.part))
            .then(a.piece.cmp(&b.piece))
    });
    all
}

/// Letters, digits and hyphens: part of a file name that every system takes.
fn plain(words: &str) -> String {
    let mut name = String::new();
    for c in words.chars() {
        match c {
            c if c.is_ascii_alphanumeric() || c == '.' => name.push(c),
            _ if name.is_empty() || name.ends_with('-') => {}
            _ => name.push('-'),
        }
    }
    name.trim_end_matches(['-', '.']).chars().take(60).collect()
}

fn fasteners(parts: &[&Share]) -> Vec<Fasteners> {
    let mut all: Vec<Fasteners> = Vec::new();
    for (share, bolts) in parts.iter().flat_map(|p| p.bolts.iter().map(move |b| (p, b))) {
        let count = bolts.each.saturating_mul(share.count);
        let hold = Hold {
            part: share.part.clone(),
            count,
            grip: bolts.grip_mm.map(Length::mm),
            torque: bolts.torque.clone(),
            state: bolts.state.clone(),
            corrodes: bolts.corrodes.clone(),
        };
        let washers = bolts.washers.saturating_mul(count);
        match all.iter_mut().find(|f| f.what == bolts.what && f.class == bolts.class && f.nut == bolts.nut) {
            Some(known) => {
                known.count += count;
                known.washers += washers;
                match known.holds.iter_mut().find(|h| Hold { count: h.count, ..hold.clone() } == **h) {
                    Some(same) => same.count += count,
                    None => known.holds.push(hold),
                }
            }
            None => all.push(Fasteners {
                what: bolts.what.clone(),
                class: bolts.class.clone(),
                thread: bolts.thread.clone(),
                count,
                nut: bolts.nut.clone(),
                washers,
                holds: vec![hold],
            }),
        }
    }
    all.sort_by(|a, b| a.what.cmp(&b.what).then(a.class.cmp(&b.class)));
    all
}
