//! What of a part file may be moved to clear a finding, on which grid, and the changes that were found to clear one.

use crate::units::{Length, LengthUnit};

/// Which values may stand behind a key, in the order in which they are tried.
///
/// A grid is anchored at nought: its values are whole multiples of the step, so that what comes out can be bought, set or
/// measured.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Grid {
    /// Lengths: step in millimetres, step in inches for what is written in inches, least and greatest in millimetres.
    Length(f64, f64, f64, f64),
    /// Lengths that are sold, thinnest first: metric ones, and those in inches for what is written in inches.
    Sold(&'static [Length], &'static [Length]),
    /// Angles in degrees: step, least, greatest.
    Angle(f64, f64, f64),
    /// Pure numbers: step, least, greatest.
    Number(f64, f64, f64),
    /// Whole numbers: least, greatest.
    Count(u32, u32),
    /// Loads and forces: steps of 5 kg, 10 lb, 50 N, 0.05 kN or 10 lbf as they are written, up to so many newtons.
    Load(f64),
    /// Words in an order of sense, such as classes from loose to tight.
    Words(&'static [&'static str]),
    /// Words of metric and of inch parts, such as threads: by what is written, else by the unit of the file.
    ByUnit(&'static [&'static str], &'static [&'static str]),
    /// `true` or `false`.
    Flag,
}

/// How easily a thing is changed. Ordered from easiest.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Ease {
    /// A figure of the drawing or of the way of working: nothing is made yet.
    Free,
    /// A part that has to be made otherwise, or another part than this one.
    Made,
    /// Something that has to be bought: material, another thread, another class.
    Bought,
    /// A figure that tells how something is or is done: it is written when that was altered, not before.
    Stated,
}

/// A key that may be moved.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Lever {
    /// Path of the key: `hole.diameter`; `seat.*.height` stands for every row.
    pub path: &'static str,
    /// The key of this file that names the file in which the path stands: `mates`, `seat.*.cup`; none for this file.
    pub via: Option<&'static str>,
    /// Values that it may have.
    pub grid: Grid,
    /// How easily it is changed.
    pub ease: Ease,
    /// What stands beside it then, in the same file: paths and values as written, `("mounting", "\"bolt-on\"")`.
    pub along: &'static [(&'static str, &'static str)],
    /// It is one of files in that unit alone.
    pub unit: Option<LengthUnit>,
    /// It has a best value beyond the first that clears: it goes on to where the finding's value is least.
    pub aims: bool,
    /// What is done before it is written, where it only tells how something is, or looked at after it; empty where writing it is
    /// enough.
    pub once: &'static str,
}

impl Lever {
    /// A figure that is free until the part is made.
    pub const fn free(path: &'static str, grid: Grid) -> Self {
        Self { path, via: None, grid, ease: Ease::Free, along: &[], unit: None, aims: false, once: "" }
    }

    /// What has to be bought.
    pub const fn bought(path: &'static str, grid: Grid) -> Self {
        Self { path, via: None, grid, ease: Ease::Bought, along: &[], unit: None, aims: false, once: "" }
    }

    /// A figure of another part, in the file that a key of this file names.
    pub const fn of_mate(via: &'static str, path: &'static str, grid: Grid) -> Self {
        Self { path, via: Some(via), grid, ease: Ease::Made, along: &[], unit: None, aims: false, once: "" }
    }

    /// The same, with other keys that are set beside it; where the first of them stands so already it is no lever.
    pub const fn along(self, along: &'static [(&'static str, &'static str)]) -> Self {
        Self { along, ..self }
    }

    /// The same in the file that a key of this file names.
    pub const fn for_mate(self, via: &'static str) -> Self {
        Self { via: Some(via), ..self }
    }

    /// The same, taken to where the finding's value is least, not only to where it clears: a slot points at its mark.
    pub const fn aimed(self) -> Self {
        Self { aims: true, ..self }
    }

    /// The same with what is to be looked at when it is written.
    pub const fn then(self, once: &'static str) -> Self {
        Self { once, ..self }
    }

    /// The same where it only tells how something is or is done: what is done first, as `once it is guided so`.
    pub const fn stated(self, once: &'static str) -> Self {
        Self { ease: Ease::Stated, once, ..self }
    }

    /// The same for files in that unit alone.
    pub const fn in_unit(self, unit: LengthUnit) -> Self {
        Self { unit: Some(unit), ..self }
    }

    /// What has to be bought for another part.
    pub const fn bought_for_mate(via: &'static str, path: &'static str, grid: Grid) -> Self {
        Self { path, via: Some(via), grid, ease: Ease::Bought, along: &[], unit: None, aims: false, once: "" }
    }
}

/// How findings of some checks may be cleared.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Remedy {
    /// Keys of the checks.
    pub checks: &'static [&'static str],
    /// What may be moved.
    pub levers: &'static [Lever],
    /// What is to be done where no figure of a file clears it: one sentence for the bench.
    pub otherwise: &'static str,
}

/// One key of a part file and what is to stand there instead, as written in the file.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Change {
    /// The part file.
    pub file: String,
    /// Path of the key: `hole.diameter`, `seat.2.height` (rows count from 0).
    pub key: String,
    /// The path in words, where it differs: `height of seat FL`.
    pub what: String,
    /// What stands there, as written; none where the key is left out.
    pub from: Option<String>,
    /// What is to stand there, as written.
    pub to: String,
    /// What is one step nearer to what stands there now, and does not clear it; none where that is no step.
    pub less: Option<String>,
    /// What is done before it is written or looked at after it; empty where writing it is enough.
    pub once: &'static str,
}

/// What clears a finding: sets of changes that belong together, best first; or why there is none.
#[derive(Clone, PartialEq, Eq, Default, Debug)]
pub struct Clearing {
    /// Sets of changes; each clears the finding and makes none worse.
    pub changes: Vec<Vec<Change>>,
    /// The best change of another finding that moves the same key and, proven, clears this one too: one value for a key is told
    /// where two findings ask for two.
    pub along_with: Option<Change>,
    /// Why no change of a file clears it, and what does; where there are changes, none.
    pub why_none: Option<String>,
}

impl Clearing {
    /// All changes that it names.
    pub fn every_change(&mut self) -> impl Iterator<Item = &mut Change> {
        self.changes.iter_mut().flatten().chain(&mut self.along_with)
    }
}
