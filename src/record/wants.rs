//! What the whole job needs of a part beside its own sheet: what is ordered, bolted, used up, packed for the road, and on which
//! other parts it waits. A family records it as it works the part; nobody reads it off a sentence.

use crate::units::{Length, Mass};

/// A plate that is ordered from the cutter.
#[derive(Clone, PartialEq, Debug)]
pub struct Plate {
    /// Which of several drawings of the part it is cut after, by the suffix of the solid's name; empty where it has one.
    pub piece: String,
    /// Material as it is ordered.
    pub material: String,
    /// Its thickness.
    pub thickness: Length,
    /// To which limits it is rolled, and whether all come from one sheet; empty where no standard says so.
    pub rolled: String,
    /// So many for the part, all its pieces.
    pub count: u32,
    /// What is done with its hardness: `as delivered`, `soft, hardened after cutting`.
    pub hardness: String,
    /// The coating that comes last; none for a bare part.
    pub plating: Option<String>,
}

/// Bolts of one kind that hold a part.
#[derive(Clone, PartialEq, Debug)]
pub struct Bolts {
    /// As it is ordered: `M8 × 30`; the bare thread where its length hangs on what nobody has written.
    pub what: String,
    /// Its thread alone.
    pub thread: String,
    /// Property class.
    pub class: String,
    /// It is of stainless steel.
    pub stainless: bool,
    /// So many for one piece of the part.
    pub each: u32,
    /// The nut that goes with each; none where the bolt goes into a thread.
    pub nut: Option<String>,
    /// Washers on each.
    pub washers: u32,
    /// What lies between head and nut or thread; none where a wall is not written.
    pub grip: Option<Length>,
    /// Torque, and the state of thread and head for which it holds.
    pub torque: Option<(String, String)>,
    /// Metals that it touches, by name.
    pub touches: Vec<String>,
    /// The line in the list of tools that is these bolts, and no tool.
    pub laid_out: String,
}

/// What is used up.
#[derive(Clone, PartialEq, Debug)]
pub struct Consumable {
    /// What: `retaining compound`.
    pub what: String,
    /// What for.
    pub used: String,
    /// How much for all pieces, where that can be told.
    pub mass: Option<Mass>,
}

/// A part that this one waits for.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Wait {
    /// Stem of its files.
    pub part: String,
    /// Where the work is done that cannot be without it; none: the first of all.
    pub at: Option<&'static str>,
}

/// To wait for a part until it is measured, before any work, or before that which is done at a place.
pub fn waits_for(part: &str, at: Option<&'static str>) -> Wait {
    Wait { part: part.into(), at }
}

/// Where a landing puts a part, mm.
#[derive(Clone, PartialEq, Debug)]
pub struct Seated {
    /// The seat.
    pub seat: String,
    /// Stem of the part's files.
    pub part: String,
    /// It goes under the frame and is carried by it; otherwise it stands on what the frame lands on.
    pub on_frame: bool,
    /// Place of the part's origin.
    pub at: [Length; 2],
}

/// What a landing takes the frame to weigh.
#[derive(Clone, PartialEq, Debug)]
pub struct Frame {
    /// Its mass, kg.
    pub mass_kg: f64,
    /// Its centre of mass: x, y, height above the seats.
    pub centre: [Length; 3],
}

/// All of it.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Wants {
    /// What the cutter gets.
    pub plates: Vec<Plate>,
    /// What holds it.
    pub bolts: Vec<Bolts>,
    /// What is used up.
    pub consumables: Vec<Consumable>,
    /// What goes into the box for the road, and what for.
    pub road: Vec<(String, String)>,
    /// Materials of those solids, by the suffix of their names, that are not of the part's own.
    pub made_of: Vec<(String, String)>,
    /// How many are made of those solids, by suffix, of which there are not as many as of the part.
    pub counts: Vec<(String, u32)>,
    /// On what it waits.
    pub waits: Vec<Wait>,
    /// Where it puts other parts.
    pub seats: Vec<Seated>,
    /// The frame that it lands.
    pub frame: Option<Frame>,
}

impl Wants {
    /// Adds what is used up, once for each use.
    pub fn uses(&mut self, what: impl Into<String>, used: impl Into<String>) {
        self.uses_up(Consumable { what: what.into(), used: used.into(), mass: None });
    }

    /// The same with how much of it is bought.
    pub fn uses_mass(&mut self, what: impl Into<String>, used: impl Into<String>, mass: Mass) {
        self.uses_up(Consumable { what: what.into(), used: used.into(), mass: Some(mass) });
    }

    fn uses_up(&mut self, one: Consumable) {
        if !self.consumables.contains(&one) {
            self.consumables.push(one);
        }
    }

    /// Adds what goes into the box, once for each use.
    pub fn packs(&mut self, what: impl Into<String>, used: impl Into<String>) {
        let one = (what.into(), used.into());
        if !self.road.contains(&one) {
            self.road.push(one);
        }
    }
}
