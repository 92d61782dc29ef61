//! The part families. Each is one record: its name, its keys, and one function from the read part file to a design.

pub mod adapter;
pub mod bush;
pub mod clamp;
pub mod common;
pub mod cone;
pub mod cup;
pub mod landing;
pub mod plate;
pub mod shim;
pub mod sleeve;
pub mod stand;
pub mod test_fit;
pub mod tube_sleeve;

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use crate::description::{Fields, LeftOut, Taken};
use crate::formulas::survey::Adjustments;
use crate::record::design::{Design, Origin, Value};
use crate::record::key::Key;
use crate::record::lever::Remedy;
use crate::record::show;
use crate::shop::Shop;

/// A part family.
pub struct Family {
    /// The word after `family =`.
    pub name: &'static str,
    /// What it is, one line.
    pub about: &'static str,
    /// Every key of the file's top level.
    pub keys: &'static [Key],
    /// Works the part out; `None` when a problem was noted.
    pub work: fn(&Fields, &Workplace) -> Option<Design>,
    /// Says what the readings of a worked part mean together.
    pub made: fn(&mut Design, &Fields, &Workplace),
    /// What may be moved to clear its findings.
    pub remedies: &'static [Remedy],
    /// A part takes long: its remedies are searched for check by check, and proven by the whole exact part at the end.
    pub long: bool,
    /// A commented part file that builds as it is.
    pub template: &'static str,
    /// Part files that the template names: written beside it where they are missing.
    pub companions: &'static [(&'static str, &'static str)],
}

/// Every family, in the order in which `families` lists them.
pub const FAMILIES: &[&Family] = &[
    &cone::FAMILY,
    &cup::FAMILY,
    &sleeve::FAMILY,
    &shim::FAMILY,
    &landing::FAMILY,
    &tube_sleeve::FAMILY,
    &plate::FAMILY,
    &test_fit::FAMILY,
    &bush::FAMILY,
    &clamp::FAMILY,
    &stand::FAMILY,
    &adapter::FAMILY,
];

/// What a family may ask for beside its own part file.
pub struct Workplace<'a> {
    /// The shop's defaults and materials.
    pub shop: &'a Shop,
    /// Name of the part file that is worked.
    pub file: &'a str,
    /// Reads another part file named in this one, relative to it: its name and text, or why not.
    pub neighbour: &'a ReadNeighbour<'a>,
    /// How much of it is wanted.
    pub depth: Depth<'a>,
    /// Readings are left out: every part is as it is drawn.
    pub as_drawn: bool,
    /// Told which share of a long work is done, 0 to 1; from any thread.
    pub progress: &'a Progress<'a>,
    /// What was worked already and does not change.
    pub kept: &'a Kept,
}

/// What a search would otherwise work many times over.
#[derive(Default)]
pub struct Kept {
    /// Parts that were worked already for what is made to them.
    pub mates: Mates,
    /// Surveys that were adjusted already.
    pub surveys: Adjustments,
}

/// Parts that others are made to, as they were worked, by file and text: a search works what is made to them many times over.
#[derive(Default)]
pub struct Mates(Mutex<BTreeMap<(String, String), Arc<Design>>>);

/// So many are kept: those of the files as they stand come first.
const MATES: usize = 64;

impl Mates {
    /// Such a part, which names no other one itself: worked, or as it was worked before.
    pub fn worked(&self, family: &Family, fields: &Fields, place: &Workplace) -> Option<Arc<Design>> {
        let held = || self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let key = (place.file.to_string(), fields.text_of_file().to_string());
        if let Some(found) = held().get(&key) {
            return Some(Arc::clone(found));
        }
        let design = Arc::new(worked(family, fields, place)?);
        let mut all = held();
        // What has faults is told each time.
        if all.len() < MATES && !fields.has_problems() {
            all.insert(key, Arc::clone(&design));
        }
        Some(design)
    }
}

/// How much of a part is worked. Findings that are made are the same at every depth.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Depth<'a> {
    /// All of it.
    Whole,
    /// Without draws.
    Exact,
    /// Without draws, and without what is long and not needed for the check of that name.
    For(&'a str),
}

impl Depth<'_> {
    /// Whether draws are made.
    pub fn draws(self) -> bool {
        self == Self::Whole
    }

    /// Whether what these checks need is worked.
    pub fn wants(self, checks: &[&str]) -> bool {
        match self {
            Self::For(check) => checks.contains(&check),
            Self::Whole | Self::Exact => true,
        }
    }

    /// Whether one check alone is wanted.
    pub fn is_for_one(self) -> bool {
        matches!(self, Self::For(_))
    }

    /// Whether somebody sees the part: pictures, and where its tools go.
    pub fn is_shown(self) -> bool {
        self == Self::Whole
    }
}

/// A part worked out, and what was measured of it held against it.
pub fn worked(family: &Family, fields: &Fields, place: &Workplace) -> Option<Design> {
    let mut design = (family.work)(fields, place)?;
    tell_left_out(&mut design, fields.all_left_out());
    if place.depth.is_shown() {
        common::gauged::named_at_the_steps(&mut design, place.shop);
        common::gauged::unproved(&mut design, place.shop);
    }
    if !place.as_drawn && fields.has(&common::MEASURED) {
        common::measured::judge(&mut design, fields, place.shop);
        (family.made)(&mut design, fields, place);
    }
    Some(design)
}

/// What nobody wrote and counts stands among the sizes, as assumed.
fn tell_left_out(design: &mut Design, left_out: Vec<LeftOut>) {
    let unit = design.header.unit;
    let value = |taken| match taken {
        Taken::Roughness(ra) => Value::Text(show::roughness(ra.rounded(), unit)),
        Taken::Word(word) => Value::Text(word),
        Taken::Count(count) => Value::Count(count),
        Taken::Length(length) => Value::Length(length.rounded()),
        Taken::Angle(angle) => Value::Angle(angle),
    };
    for one in left_out {
        match design.dimensions.iter_mut().find(|d| d.key == one.size.name()) {
            Some(told) => told.origin = Origin::Assumed(one.why),
            None => design.assumed(&one.size, value(one.taken), one.why),
        }
    }
}

/// Is told which share of the work is done.
pub type Progress<'a> = dyn Fn(f64) + Sync + 'a;

/// Gives name and text of a part file, or a sentence why not.
pub type ReadNeighbour<'a> = dyn Fn(&str) -> Result<(String, String), String> + Sync + 'a;

/// The family of that name.
pub fn family(name: &str) -> Option<&'static Family> {
    FAMILIES.iter().copied().find(|f| f.name == name)
}
