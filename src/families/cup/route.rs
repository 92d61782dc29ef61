//! How each hole of the plate is made: what the laser holds is cut, the rest is cut under size or only marked, and then
//! drilled, bored or reamed.

use crate::families::common;
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::show;
use crate::shop::by_unit;
use crate::source::{Cited, Source};
use crate::standards::processes::{self, Process};
use crate::units::{Length, LengthUnit};

use super::read::{Hole, Spec};
use super::sizes;

const TOLERANCE: Check = Check {
    key: "hole_process",
    what: "width of the hole's tolerance against what its last process holds",
    worst: Verdict::Caution,
    source: Source::Published("ISO 9013:2017, cut edges, class 1; machinery handbooks, tolerance grades of processes"),
};

const PRINTED: Check = Check { source: Source::CommonPractice, ..TOLERANCE };

/// Widest hole that is reamed: beyond it, reamers are not found in a small shop. Source: common practice, no source.
const REAMED_UP_TO: Length = Length::mm(50.0);
/// Metal that takes the hard skin of a cut edge off. Source: common practice, no source.
const SKIN: Length = Length::mm(0.3);

/// How a hole comes to its size.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Route {
    /// What the laser cuts; `None` where it only marks the centre.
    pub cut: Option<Length>,
    /// The last process: the laser itself, or what brings the hole to size after it.
    pub last: Process,
    /// Whether that process holds the tolerance.
    pub holds: bool,
}

/// What the laser leaves on the diameter of a hole that is finished after it: its own deviation, the lean of both walls,
/// and the hard skin; in halves of a millimetre, or in steps of 0.020 in. `None` for plates thicker than the table.
/// Source: ISO 9013:2017 by [`processes::cut_deviation`] and [`processes::cut_squareness`].
pub fn cut_allowance(diameter: Length, thickness: Length, unit: LengthUnit) -> Option<Length> {
    let deviation = processes::cut_deviation(diameter, thickness)?.value;
    let lean = processes::cut_squareness(thickness)?.value;
    let least = deviation + lean * 2.0 + SKIN;
    let step = by_unit(unit, 0.5, 0.02);
    Some(step * (least / step).ceil())
}

/// Route of a round hole whose limits lie so far apart.
pub fn round(diameter: Length, width: Length, thickness: Length, unit: LengthUnit) -> Route {
    let cuttable = processes::can_be_cut(diameter, thickness);
    let holds = |process: Process, best: bool| {
        let of = if best { processes::at_best } else { processes::usually };
        of(process, diameter, thickness).is_some_and(|held| held.value <= width + Length::um(0.5))
    };
    if cuttable && holds(Process::LaserCut, false) {
        return Route { cut: Some(diameter), last: Process::LaserCut, holds: true };
    }
    if !cuttable && holds(Process::Drilled, false) {
        return Route { cut: None, last: Process::Drilled, holds: true };
    }
    let reamed = diameter <= REAMED_UP_TO;
    let ways = [
        (Process::Bored, false, true),
        (Process::Reamed, false, reamed),
        (Process::Bored, true, true),
        (Process::Reamed, true, reamed),
    ];
    let way = ways.iter().find(|(process, best, there)| *there && holds(*process, *best));
    let last = way.map_or(Process::Bored, |(process, ..)| *process);
    let cut = if cuttable { cut_allowance(diameter, thickness, unit).map(|left| diameter - left) } else { None };
    Route { cut: cut.filter(|cut| processes::can_be_cut(*cut, thickness)), last, holds: way.is_some() }
}

/// Route of a slot of that width: as cut where the laser holds it, else cut under size and milled.
fn slot(across: Length, width: Length, thickness: Length, unit: LengthUnit) -> Route {
    let holds = |held: Option<Cited<Length>>| held.is_some_and(|held| held.value <= width + Length::um(0.5));
    if holds(processes::usually(Process::LaserCut, across, thickness)) {
        return Route { cut: Some(across), last: Process::LaserCut, holds: true };
    }
    // An end mill at the side of a slot holds what a boring tool does.
    let left = cut_allowance(across, thickness, unit).unwrap_or(by_unit(unit, 2.0, 0.08));
    let holds = holds(processes::usually(Process::Bored, across, thickness));
    Route { cut: Some(across - left), last: Process::Bored, holds }
}

/// Width of the limits that the sheet gives the main hole; the general tolerance where it has none yet.
fn width(design: &Design) -> Option<Length> {
    design.dimension(&sizes::HOLE_DIAMETER).and_then(|d| d.limits.as_ref()).map(|l| (l.upper - l.lower).rounded())
}

/// Route of the main hole; `None` for a drilled or a printed one, and where no tolerance is known.
pub fn main_hole(design: &Design, s: &Spec) -> Option<Route> {
    let unit = s.common.header.unit;
    if s.common.material.printed {
        return None;
    }
    match &s.hole {
        Hole::Round { diameter, .. } => Some(round(diameter.value, width(design)?, s.thickness.value, unit)),
        Hole::Slot { width: across, .. } => Some(slot(across.value, width(design)?, s.thickness.value, unit)),
        Hole::Turned { small, .. } => {
            let left = bored_straight(design, small.value, unit) - turning_allowance(s);
            Some(Route { cut: Some(left).filter(|cut| *cut > Length::ZERO), last: Process::Bored, holds: true })
        }
        Hole::Stepped { .. } => None,
    }
}

/// The hole that is bored straight through before a seat is turned: whole, and no larger than its far face may become.
pub fn bored_straight(design: &Design, small: Length, unit: LengthUnit) -> Length {
    let least = design.dimension(&sizes::HOLE_DIAMETER).and_then(|d| d.limits.as_ref()).map_or(small, |l| l.lower);
    let whole = common::in_whole(least, unit);
    if whole > Length::ZERO { whole } else { least }
}

/// Metal on the diameter that the laser leaves for a turned seat: as written, or by the thickness of the plate.
pub fn turning_allowance(s: &Spec) -> Length {
    let Hole::Turned { small, allowance, .. } = &s.hole else { return Length::ZERO };
    let unit = s.common.header.unit;
    let usual = || cut_allowance(small.value, s.thickness.value, unit).unwrap_or(usual_allowance(unit));
    allowance.as_ref().map_or_else(usual, |a| a.value)
}

/// Metal on the diameter that the laser leaves for a turned seat in a plate thicker than the tables.
/// Source: common practice, no source.
const fn usual_allowance(unit: LengthUnit) -> Length {
    by_unit(unit, 1.0, 0.04)
}

/// Says whether what the hole is held to can be held, and by what.
pub fn check(design: &mut Design, s: &Spec) {
    let unit = s.common.header.unit;
    let (nominal, is_slot) = match &s.hole {
        Hole::Round { diameter, .. } => (diameter.value, false),
        Hole::Slot { width, .. } => (width.value, true),
        _ => return,
    };
    let Some(width) = width(design) else { return };
    let t = s.thickness.value;
    if s.common.material.printed {
        return as_printed(design, nominal, width);
    }
    let route = if is_slot { slot(nominal, width, t, unit) } else { round(nominal, width, t, unit) };
    let laser = processes::usually(Process::LaserCut, nominal, t).map(|held| held.value.rounded());
    let holds = if route.holds { processes::at_best(route.last, nominal, t) } else { None };
    let by_laser = laser.map_or_else(
        || "no table for so thick a plate".to_string(),
        |l| format!("a laser holds {}", show::length(l, unit)),
    );
    let (verdict, limit) = match holds {
        Some(held) => (Verdict::Ok, Limit::AtLeast(Value::Length(held.value.rounded()))),
        None => (Verdict::Caution, Limit::None),
    };
    let because = match (route.last, route.holds) {
        (Process::Bored, true) if is_slot => {
            format!("{by_laser} from end to end: the slot is cut under size and milled")
        }
        (Process::Bored, false) if is_slot => {
            format!("{by_laser}, and milling does not hold so little: a coarser tolerance, or have it ground")
        }
        (Process::LaserCut, _) => "the laser holds it: used as it is cut".to_string(),
        (_, true) => format!("{by_laser} from end to end: the hole is {}", made(&route)),
        _ => format!(
            "{by_laser}, and neither boring nor reaming holds so little here: a coarser class, or have it ground"
        ),
    };
    design.finding(&TOLERANCE, verdict, Some(Value::Length(width)), limit, because);
}

/// A printed hole is used as it comes, or cleared with a drill.
fn as_printed(design: &mut Design, nominal: Length, width: Length) {
    let Some(best) = processes::at_best(Process::Printed, nominal, nominal) else { return };
    design.at_least(
        &PRINTED,
        Value::Length(width),
        Value::Length(best.value.rounded()),
        None,
        "a print holds no closer limits: print it for the try-out with the general tolerance, or open the hole by hand",
    );
}

/// How it is made, in words.
fn made(route: &Route) -> String {
    match route.cut {
        Some(_) => format!("cut under size and {}", route.last),
        None => format!("marked and {}", route.last),
    }
}
