//! The measures of a stand that follow from its file: every size that is cut, in one place, rounded to what is written on a drawing.

use crate::description::Fields;
use crate::families::common::in_whole;
use crate::formulas::tabs;
use crate::record::key::Key;
use crate::record::show::Say;
use crate::shop::by_unit;
use crate::standards::bolting;
use crate::units::{Angle, Length, LengthUnit};

use super::read::{self, Lock, Spec, usual_clearance};

/// Taper that is taken where none is written: 1:14. Source: common practice, no source.
pub const USUAL_TAPER: Angle = Angle::degrees(4.0);

/// A wedge.
#[derive(Clone, Copy, Debug)]
pub struct Wedge {
    pub taper: Angle,
    pub long: Length,
    pub narrow: Length,
    pub broad: Length,
    /// How far it goes further between the thickest and the thinnest plate.
    pub travel: Length,
    /// How far it could go either way from there.
    pub reserve: Length,
}

/// The hole in a tab that takes the wedge.
#[derive(Clone, Copy, Debug)]
pub struct WedgeHole {
    /// From the shoulder to its inner end, which stays inside the thinnest end plate.
    pub from: Length,
    pub long: Length,
    pub high: Length,
    /// Metal of the tab beyond it.
    pub nose: Length,
}

/// Where a bolt lies in the end of a rail.
#[derive(Clone, Copy, Debug)]
pub struct BoltSlot {
    pub wide: Length,
    /// From the end of the rail to the seat of the nut.
    pub to_nut: Length,
    pub nut_long: Length,
    pub nut_high: Length,
    /// The whole length of the slot.
    pub deep: Length,
}

/// Either of them.
#[derive(Clone, Copy, Debug)]
pub enum Locked {
    Wedge(Wedge, WedgeHole),
    Bolt(BoltSlot),
}

/// All measures.
#[derive(Clone, Debug)]
pub struct Form {
    pub t: Length,
    pub height: Length,
    pub length: Length,
    pub width: Length,
    pub top: Length,
    pub clearance: Length,
    pub relief: Length,
    /// Radius of inner corners that nothing goes into.
    pub round: Length,
    pub end_height: Length,
    pub rail_depth: Length,
    pub rail_body: Length,
    pub rails_apart: Length,
    pub leg: Length,
    pub foot: Length,
    pub arch: Length,
    pub sill: Length,
    pub tab_high: Length,
    pub tab_long: Length,
    /// Middles of the tabs at one end of a rail, over its lower edge.
    pub tabs_at: Vec<Length>,
    pub slot_wide: Length,
    pub slot_high: Length,
    pub pad_tab_long: Length,
    pub pad_tab_high: Length,
    pub pad_tab_at: Length,
    pub pad_slot_long: Length,
    pub locked: Locked,
}

fn up(l: Length, step: Length) -> Length {
    l.up_to(step).rounded()
}

fn down(l: Length, step: Length) -> Length {
    (step * (l / step + 1e-6).floor()).rounded()
}

/// Tenths of a millimetre, or five thou.
fn fine(unit: LengthUnit) -> Length {
    by_unit(unit, 0.1, 0.005)
}

/// What tabs at the end of a rail leave room for, whatever its depth.
#[derive(Clone, Copy, Debug)]
struct Around {
    t: Length,
    relief: Length,
    clearance: Length,
    unit: LengthUnit,
}

/// The tabs at one end of a rail.
struct Tabs {
    high: Length,
    /// Their middles over its lower edge.
    at: Vec<Length>,
    slot_high: Length,
}

impl Around {
    fn of(s: &Spec, f: &Form) -> Self {
        Self { t: f.t, relief: f.relief, clearance: f.clearance, unit: s.common.header.unit }
    }

    fn tabs(&self, depth: Length, bolted: bool) -> Tabs {
        let high = in_whole(depth * if bolted { 0.2 } else { 0.5 }, self.unit).rounded();
        let middle = depth / 2.0;
        let at = if bolted {
            let apart = in_whole(depth * 0.3, self.unit);
            vec![(middle - apart).rounded(), (middle + apart).rounded()]
        } else {
            vec![middle.rounded()]
        };
        Tabs { high, at, slot_high: up(high + self.clearance * 2.0, fine(self.unit)) }
    }

    /// Whether two tabs of a rail so deep hold, and leave room for the nut between them.
    fn takes(&self, depth: Length, slot: &BoltSlot) -> bool {
        let tabs = self.tabs(depth, true);
        let between = match tabs.at.as_slice() {
            [low, high] => *high - *low - tabs.slot_high,
            _ => Length::ZERO,
        };
        between >= slot.nut_high + self.t && tabs.high >= self.relief * 4.0 + self.t
    }

    /// The least depth from that one on which takes the bolt; that one itself where none is found.
    fn depth_from(&self, from: Length, slot: &BoltSlot) -> Length {
        let step = by_unit(self.unit, 1.0, 1.0 / 16.0);
        let from = up(from, step);
        (0..1000_u32)
            .map(|i| (from + step * f64::from(i)).rounded())
            .find(|depth| self.takes(*depth, slot))
            .unwrap_or(from)
    }
}

impl Form {
    /// Of what the file says.
    pub fn of(s: &Spec) -> Self {
        let unit = s.common.header.unit;
        let (fine, whole) = (fine(unit), by_unit(unit, 1.0, 1.0 / 16.0));
        let (t, height, length, width) =
            (s.thickness.value.rounded(), s.height.value.rounded(), s.length.value.rounded(), s.width.value.rounded());
        let clearance = s.clearance.as_ref().map_or_else(|| usual_clearance(s), |c| c.value).rounded();
        let top = s.top_width.as_ref().map_or_else(|| in_whole(width / 2.0, unit), |w| w.value).rounded();
        let leg =
            s.leg_width.as_ref().map_or_else(|| in_whole((height / 8.0).max(t * 6.0), unit), |w| w.value).rounded();
        let slot_wide = up(tabs::slot_for(s.thick.most, clearance).unwrap_or(s.thick.most), fine);
        let relief = up((t / 4.0).max(by_unit(unit, 0.8, 0.03)), fine);
        let locked = locked(s, t, slot_wide);
        let around = Around { t, relief, clearance, unit };
        let usual = in_whole((height / 5.0).max(t * 10.0), unit).rounded();
        let rail_depth = match (&s.rail_depth, &locked) {
            (Some(written), _) => written.value.rounded(),
            (None, Locked::Bolt(slot)) => around.depth_from(usual, slot),
            (None, Locked::Wedge(..)) => usual,
        };
        let Tabs { high: tab_high, at: tabs_at, slot_high } =
            around.tabs(rail_depth, matches!(locked, Locked::Bolt(_)));
        let tab_long = match locked {
            Locked::Wedge(_, hole) => hole.from + hole.long + hole.nose,
            // Never proud of the thinnest plate.
            Locked::Bolt(_) => down(s.thick.least, fine),
        };
        let rails_apart = down(top - t * 5.0 - slot_wide, whole);
        let pad_tab_long = in_whole((length / 8.0).max(t * 3.0), unit).rounded();
        Self {
            t,
            height,
            length,
            width,
            top,
            clearance,
            relief,
            round: t,
            end_height: (height - t).rounded(),
            rail_depth,
            rail_body: (length - t * 2.0).rounded(),
            rails_apart,
            leg,
            foot: in_whole(leg * 1.25, unit).rounded(),
            arch: in_whole((height / 20.0).max(t * 2.0), unit).rounded(),
            sill: in_whole(leg * 0.75, unit).rounded(),
            tab_high,
            tab_long: tab_long.rounded(),
            tabs_at,
            slot_wide,
            slot_high,
            pad_tab_long,
            pad_tab_high: down(s.thick.least - by_unit(unit, 0.5, 0.02), fine),
            pad_tab_at: in_whole(length / 4.0, unit).rounded(),
            pad_slot_long: up(pad_tab_long + clearance * 2.0, fine),
            locked,
        }
    }

    /// Lean of a leg from upright.
    pub fn lean(&self) -> Angle {
        Angle::atan2(((self.width - self.top) / 2.0).as_mm(), self.end_height.as_mm())
    }

    /// Half of the end plate's width at a height.
    pub fn half_at(&self, z: Length) -> Length {
        self.width / 2.0 - (self.width - self.top) / 2.0 * (z / self.end_height)
    }

    /// Lower edge of the rails over the floor.
    pub fn rail_foot(&self) -> Length {
        self.end_height - self.rail_depth
    }

    /// Half widths of the opening between the legs at its foot and head, and these heights; none where too little would be cut out.
    pub fn opening(&self) -> Option<[(Length, Length); 2]> {
        let (low, high) = (self.arch + self.sill, self.rail_foot());
        let beside = self.leg / self.lean().cos();
        let at = |z: Length| ((self.half_at(z) - beside).rounded(), z.rounded());
        let (foot, head) = (at(low), at(high));
        let worth = high - low >= self.t * 6.0 && head.0 >= self.t * 2.0 && foot.0 >= self.t * 2.0;
        worth.then_some([foot, head])
    }

    /// Middle of the legs apart at the feet.
    pub fn feet_apart(&self) -> Length {
        self.width - self.foot
    }

    /// Metal under a slot, down to the rails' lower edge.
    pub fn under_slot(&self) -> Length {
        let lowest = self.tabs_at.iter().copied().fold(self.rail_depth, Length::min);
        lowest - self.slot_high / 2.0
    }
}

fn locked(s: &Spec, t: Length, slot_wide: Length) -> Locked {
    let unit = s.common.header.unit;
    let (fine, whole) = (fine(unit), by_unit(unit, 1.0, 1.0 / 16.0));
    match &s.lock {
        Lock::Wedges { taper, .. } => {
            let taper = taper.as_ref().map_or(USUAL_TAPER, |a| a.value);
            let gap = s.thick.most - s.thick.least + by_unit(unit, 0.5, 0.02);
            let travel = tabs::wedge_travel(gap, taper).unwrap_or(Length::ZERO);
            let narrow = up((t * 2.0).max(by_unit(unit, 12.0, 0.5)), fine);
            // Its own tab, what it travels, and an end to hit on either side.
            let long = up(travel + t * 6.0, whole).min(by_unit(unit, 240.0, 10.0));
            let broad = up(narrow + long * taper.tan(), fine);
            let seated = up(narrow + long * taper.tan() / 2.0, fine);
            let from = down(s.thick.least - by_unit(unit, 1.0, 0.04), fine);
            let nose = in_whole((t * 1.5).max(by_unit(unit, 10.0, 0.4)), unit).rounded();
            let hole = WedgeHole { from, long: (t + seated - from).rounded(), high: slot_wide, nose };
            let reserve = (long - t * 2.0 - travel) / 2.0;
            Locked::Wedge(Wedge { taper, long, narrow, broad, travel: travel.rounded(), reserve }, hole)
        }
        Lock::Bolts { thread, hole, .. } => {
            let flats = bolting::across_flats(thread).map_or(thread.major * 1.8, |f| f.value);
            let nut = bolting::nut_height(thread).value;
            let room = by_unit(unit, 0.4, 0.015);
            let to_nut = up(thread.major * 2.0, whole);
            let deep = up(to_nut + nut + thread.major * 1.5, whole);
            Locked::Bolt(BoltSlot {
                wide: *hole,
                to_nut,
                nut_long: up(nut + room, fine),
                nut_high: up(flats + room, fine),
                deep,
            })
        }
    }
}

/// Geometry that cannot be made is a problem at the key that causes it.
pub fn possible(fields: &Fields, s: &Spec, f: &Form) -> bool {
    let say = Say(s.common.header.unit);
    let mut sound = true;
    let mut refuse = |key: &'static Key, message: String, help: &str| {
        if sound {
            fields.problem_at(key, message, Some(help.into()));
        }
        sound = false;
    };
    let t = f.t;
    if t > f.height / 12.0 || t > f.length / 12.0 {
        let message = format!("plates of {} are too thick for a stand of that size", say.length(t));
        refuse(&read::THICKNESS, message, "at most a twelfth of height and length: is that the unit which was meant?");
    }
    if f.clearance > t / 2.0 {
        let message = format!("a joint with {} of clearance holds nothing upright", say.length(f.clearance));
        refuse(&read::CLEARANCE, message, "less than a tenth of the thickness");
    }
    if s.kerf() > t / 2.0 || s.kerf() > by_unit(s.common.header.unit, 2.0, 0.08) {
        let message = format!("a beam does not take {}", say.length(s.kerf()));
        refuse(&read::KERF, message, "0.1 to 0.5 mm for a laser");
    }
    if f.top > f.width {
        let message = format!("a top of {} is wider than the feet, {}", say.length(f.top), say.length(f.width));
        refuse(&read::TOP_WIDTH, message, "the stand gets narrower upwards, or stays as wide");
    }
    if f.rails_apart < f.slot_wide + t * 3.0 {
        let message = format!("two rails have no room side by side under a top of {}", say.length(f.top));
        refuse(
            s.top_width.as_ref().map_or(&read::WIDTH, |_| &read::TOP_WIDTH),
            message,
            "a wider top, or thinner plates: twelve thicknesses",
        );
    }
    if f.rail_foot() < f.arch + f.sill {
        let message =
            format!("rails {} deep leave no legs under a height of {}", say.length(f.rail_depth), say.length(f.height));
        let key = s.rail_depth.as_ref().map_or(&read::HEIGHT, |_| &read::RAIL_DEPTH);
        let help = match (&s.rail_depth, &s.lock) {
            (None, Lock::Bolts { .. }) => {
                "thinner plates, a higher stand, or wedges: bolts and their nuts want rails so deep"
            }
            _ => "rails less deep, thinner plates, or a higher stand",
        };
        refuse(key, message, help);
    }
    if f.leg * 2.0 + t * 2.0 > f.width - t * 4.0 || f.foot * 2.0 + f.arch * 2.0 + t > f.width {
        let message = format!("two legs of {} have no room in a width of {}", say.length(f.leg), say.length(f.width));
        let key = s.leg_width.as_ref().map_or(&read::WIDTH, |_| &read::LEG_WIDTH);
        refuse(key, message, "narrower legs, or a wider stand");
    }
    if f.leg < t * 2.0 {
        let message = format!("a leg of {} is hardly wider than its plate is thick", say.length(f.leg));
        refuse(&read::LEG_WIDTH, message, "at least twice the thickness, six times is usual");
    }
    let rail_room = f.pad_tab_at * 2.0 + f.pad_slot_long + t * 2.0;
    if f.rail_body < rail_room || f.pad_tab_at * 2.0 < f.pad_slot_long + t * 2.0 {
        let message = format!("a length of {} has no room for the rails and their tabs", say.length(f.length));
        refuse(&read::LENGTH, message, "a longer stand, or thinner plates: two dozen thicknesses");
    }
    if f.pad_tab_high < t / 3.0 {
        let message = format!("plates of {} have no tabs that hold the top", say.length(t));
        refuse(&read::THICKNESS, message, "plates of 2 mm (0.08 in) or more");
    }
    sound && lock_possible(fields, s, f)
}

/// The same of what locks rails and end plates.
fn lock_possible(fields: &Fields, s: &Spec, f: &Form) -> bool {
    let (say, t) = (Say(s.common.header.unit), f.t);
    let mut sound = true;
    let mut refuse = |key: &'static Key, message: String, help: &str| {
        if sound {
            fields.problem_at(key, message, Some(help.into()));
        }
        sound = false;
    };
    let shallow = format!("rails {} deep have no room for their tabs", say.length(f.rail_depth));
    let key = s.rail_depth.as_ref().map_or(&read::HEIGHT, |_| &read::RAIL_DEPTH);
    match f.locked {
        Locked::Wedge(_, hole) if f.tab_high < hole.high + f.relief * 4.0 + t => {
            refuse(key, shallow, "ten thicknesses are usual where wedges lock it");
        }
        Locked::Wedge(wedge, _) if wedge.reserve < Length::ZERO => {
            let message = "so slight a taper takes a longer wedge than has room";
            refuse(&read::WEDGE_ANGLE, message.into(), "3 to 5 degrees, or measure the plate: measured_thickness");
        }
        Locked::Bolt(slot) => {
            let Lock::Bolts { thread, .. } = &s.lock else { return sound };
            if thread.major > t {
                let message = format!("{thread} does not lie in a slot of a plate of {}", say.length(t));
                refuse(&read::THREAD, message, "no thicker than the plate; or wedges: leave out lock");
            }
            let around = Around::of(s, f);
            if !around.takes(f.rail_depth, &slot) {
                let enough = around.depth_from(f.rail_depth, &slot);
                refuse(key, shallow, &format!("deeper rails: {} or more", say.length(enough)));
            }
            if slot.deep + t * 2.0 > f.rail_body / 2.0 {
                let message = format!("the bolts of {thread} meet in rails of {}", say.length(f.rail_body));
                refuse(&read::THREAD, message, "smaller bolts, or a longer stand");
            }
        }
        Locked::Wedge(..) => {}
    }
    sound
}
