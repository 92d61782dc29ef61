//! Bolted parts that do not lie on what they are bolted to: shims, a spacer or stacked washers between, and holes in which a
//! bolt has room. How much of their strength that leaves the bolts, and whether friction holds the part before they bear.

use crate::description::Fields;
use crate::formulas::bolts::{self, BoltClass};
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::key::{Given, Key, Kind};
use crate::record::show;
use crate::source::Source;
use crate::standards::clearance_holes::{Series, clearance_hole};
use crate::standards::threads::Thread;
use crate::units::{Force, Length};

pub const PACKING: Key = Key::new(
    "packing",
    "packing under the part",
    Kind::POSITIVE,
    "thickness of the shims or spacers between the part and what it is bolted to, such as \"3 mm\"; a landing counts it beside the `height` of the crossbar",
);
pub const PACKED: Key = Key::new(
    "packed",
    "where the packing lies",
    Kind::Choice(&["all over", "at the bolts"]),
    "\"all over\": as wide as the part; \"at the bolts\": washers or small pieces, or nothing but nuts; all over if left out",
);

const GAP: Check = Check {
    key: "bolts_packed",
    what: "bolts that pass a packing or a gap",
    worst: Verdict::Ok,
    source: Source::Memory("EN 1993-1-8, 3.6.1(12): solid packing over a third of the bolt's diameter"),
};
/// Friction under the bolts of a plate.
pub const SLIPS: Check = Check {
    key: "bolts_slip",
    what: "share of what friction under the bolts holds that the side force takes",
    worst: Verdict::Caution,
    source: SLIP_SOURCE,
};
/// Friction under the bolt of a cone.
pub const CONE_SLIPS: Check = Check {
    key: "cone_bolt_slip",
    what: "share of what friction under the cone's bolt holds that the side force takes",
    worst: Verdict::Caution,
    source: SLIP_SOURCE,
};
const SLIP_SOURCE: Source =
    Source::Published("EN 1993-1-8, 3.9: ks n mu/1.25 (Fp - 0.8 Ft), slip factor 0.2 of surfaces left as they are");

/// Slip factor of surfaces that nobody has treated. Source: EN 1090-2, class D; EN 1993-1-8 table 3.7.
const SLIP_FACTOR: f64 = 0.2;

/// What lies between.
pub struct Packing {
    pub thickness: Given<Length>,
    all_over: Option<Given<&'static str>>,
}

/// Reads both keys; `None` where nothing lies between, or a problem was noted.
pub fn read(table: &Fields) -> Option<Packing> {
    let (thickness, all_over) = (table.length(&PACKING), table.choice(&PACKED));
    if !table.has(&PACKING) {
        super::not_here(table, &[&PACKED], "nothing lies between: add packing = \"3 mm\"");
        table.left_out(&PACKING, "none", "it lies flat on what it is bolted to: nothing is written");
    } else {
        table.left_out(&PACKED, "all over", "as shims are cut: as wide as the part");
    }
    Some(Packing { thickness: thickness?, all_over })
}

impl Packing {
    /// Whether it is as wide as the part.
    pub fn all_over(&self) -> bool {
        self.all_over.as_ref().is_none_or(|w| w.value == "all over")
    }

    /// Whether the bolts bridge it as a gap: it lies at them alone, or is thicker than solid packing is reckoned.
    fn bridged(&self, thread: &Thread) -> bool {
        !self.all_over() || bolts::packed_share(thread.major, self.thickness.value).is_err()
    }
}

/// How thick it is; nought where nothing lies between.
pub fn thickness(packing: Option<&Packing>) -> Length {
    packing.map_or(Length::ZERO, |p| p.thickness.value)
}

/// Width on which a part stands against tipping: its own, or about that of a washer where it stands on washers. Source: ISO
/// 7089, outside diameters of 1.85 to 2 thread diameters.
pub fn stands_on(packing: Option<&Packing>, width: Length, thread: &Thread) -> Length {
    if packing.is_some_and(|p| !p.all_over()) { width.min(thread.major * 1.85) } else { width }
}

/// Bolts of a part and what pulls at one of them.
pub struct Pulled<'a> {
    pub packing: Option<&'a Packing>,
    pub class: BoltClass,
    pub thread: &'a Thread,
    /// Hole that they go through, at its largest.
    pub hole: Length,
    pub count: usize,
    /// Force across on all of them, and along on one.
    pub across: Force,
    pub along: Force,
}

impl Pulled<'_> {
    /// How many share the force across: in holes wider than the coarse series two touch first, and the others have room.
    /// Source: derived; a stiff plate that shifts and turns touches two.
    fn sharing(&self) -> usize {
        let coarse = clearance_hole(*self.thread, Series::Coarse).map(|c| c.value);
        let wide = coarse.is_ok_and(|coarse| self.hole > coarse + WIDER);
        if wide { self.count.min(2) } else { self.count }
    }

    /// Force across on one of them.
    fn each(&self) -> Force {
        self.across / self.sharing().max(1) as f64
    }

    /// Share of one bolt's strength that is taken: in shear, through solid packing, or bent over a gap.
    pub fn taken(&self) -> f64 {
        let (area, each) = (self.thread.stress_area(), self.each());
        let Some(packing) = self.packing else { return self.class.taken(area, each, self.along) };
        let (d, t) = (self.thread.major, packing.thickness.value);
        match bolts::packed_share(d, t).ok().filter(|_| packing.all_over()) {
            Some(share) => self.class.taken(area, each / share, self.along),
            None => {
                let held = self.count > 1;
                let bent = self.class.bent_across(area, d, t, held, each, self.along);
                bent.max(self.class.taken(area, each, self.along))
            }
        }
    }

    /// What the finding adds about packing and holes.
    pub fn told(&self, design: &Design) -> String {
        let mut told = String::new();
        if self.sharing() < self.count {
            told.push_str("; the holes are wider than the coarse series: two bolts touch first, and two are counted");
        }
        let Some(packing) = self.packing else { return told };
        let t = design.say().length(packing.thickness.value);
        let how = if packing.bridged(self.thread) {
            format!(
                "; over the {t} between they are bent as well (EN 1992-4, shear with a lever arm): a solid packing all over, no thicker than 4/3 of the bolt, or {} spare them that",
                self.located_by()
            )
        } else {
            let share = bolts::packed_share(self.thread.major, packing.thickness.value).unwrap_or(1.0);
            let left = show::trimmed(share * 100.0, 1);
            format!(
                "; packed all over by {t}, which leaves {left} % of what they carry in shear (9 d/(8 d + 3 t), EN 1993-1-8, 3.6.1(12))"
            )
        };
        told + &how
    }

    /// What takes the force across in the bolts' place: a cone stands on one bolt and has a register, a plate dowels.
    fn located_by(&self) -> &'static str {
        if self.count == 1 { "a foot in a register" } else { "dowels" }
    }

    /// Whether friction holds the part where its bolts have room; `counted` says where the force across is taken to act, where
    /// that matters.
    pub fn slips(&self, design: &mut Design, check: &Check, counted: &str) {
        if self.across <= Force::ZERO {
            return;
        }
        let Ok(pull) = bolts::preload(self.thread.stress_area(), self.class.proof, bolts::SHARE) else { return };
        let clearance = self.hole - self.thread.major;
        let (least, factor) = (pull * (1.0 - bolts::SCATTER), hole_factor(self.thread.major, clearance));
        let holds = bolts::held_by_friction(least, self.along, factor, SLIP_FACTOR) * self.count as f64;
        let taken = if holds > Force::ZERO { self.across / holds } else { f64::INFINITY };
        let room = design.say().length(clearance);
        let because = format!(
            "tightened as the step says, 30 % under the torque's pull and no weight on it counted; where it slips the part shifts by as much as the holes leave, {room}, and the bolts bear: {}, larger bolts{counted}",
            self.located_by()
        );
        let verdict = if taken > 1.0 { Verdict::Caution } else { Verdict::Ok };
        let shown = Value::Share((taken.min(99.0) * 1000.0).round() / 1000.0);
        design.finding(check, verdict, Some(shown), Limit::AtMost(Value::Share(1.0)), because);
    }
}

/// Beyond the coarse series by more than its tolerance, the hole is called wide. Source: ISO 273, coarse H14; common practice.
const WIDER: Length = Length::mm(0.5);

/// Factor ks by the hole: 1 for normal clearance, 0.85 for oversize. Source: EN 1993-1-8 table 3.6; what is normal, EN 1090-2
/// table 11 (1 mm to M14, 2 mm to M24, 3 mm beyond), from memory.
fn hole_factor(thread: Length, clearance: Length) -> f64 {
    let normal = match thread.as_mm() {
        d if d <= 14.5 => 1.0,
        d if d <= 24.5 => 2.0,
        _ => 3.0,
    };
    if clearance.as_mm() <= normal + 1e-9 { 1.0 } else { 0.85 }
}

/// Records the packing, and says what it asks of the bolts where no load is known.
pub fn record(design: &mut Design, packing: Option<&Packing>, thread: Option<&Thread>, loaded: bool) {
    let Some(packing) = packing else { return };
    design.given_length(&PACKING, &packing.thickness);
    match &packing.all_over {
        Some(where_) => design.given_text(&PACKED, &where_.clone().map(String::from)),
        None => design.assumed(&PACKED.size(), Value::Text("all over".into()), "as shims are cut"),
    }
    if loaded && thread.is_some() {
        return;
    }
    let how = match thread {
        Some(thread) if packing.bridged(thread) => "bends them over the gap",
        Some(_) => "takes of their shear",
        None => "bears on them otherwise than on a flat joint",
    };
    let missing = if thread.is_none() { "thread and seat_load" } else { "seat_load" };
    let text = format!(
        "what lies between part and bolts' other end {how} under a force across: state {missing} and it is judged"
    );
    design.note(&GAP, text);
}

/// Says of seats whose bolted cones are to be shimmed that their files judge the bolts.
pub fn shimmed(design: &mut Design, names: &str) {
    let text = format!(
        "{names}: the cone is bolted on, so its screw is to be longer by what is put under it; to have the screw judged write that as packing in [bolt] of a file of that cone alone, in place of so much height: a landing counts both"
    );
    design.note(&GAP, text);
}

/// The step that lays it in.
pub fn step(design: &mut Design, packing: Option<&Packing>, what: &str) {
    let Some(packing) = packing else { return };
    let t = show::length_both(packing.thickness.value.rounded(), design.header.unit);
    // The nose of a cone may come through the plate.
    let open = if what == "plate" { " and over the hole of the cone" } else { "" };
    let (text, tool) = if packing.all_over() {
        (
            format!(
                "Lay {t} of packing under the {what}: steel, as wide as the {what}, as few pieces as make it, holed for the bolts{open}, clean and without burr."
            ),
            format!("steel packing {t}, as wide as the {what}, for each"),
        )
    } else {
        (
            format!(
                "Lay {t} of packing under the {what} at each bolt: steel washers or pieces of one thickness, clean and without burr."
            ),
            format!("steel washers or pieces that make {t} for each bolt"),
        )
    };
    design.step("bench", text).tool(tool);
}
