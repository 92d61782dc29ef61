//! Bolted parts that come back to their place: how far bolts alone let them wander, and the dowels or the register that
//! bring them back.

use crate::record::design::{Check, Design, Limit, Limits, Value, Verdict};
use crate::record::key::Size;
use crate::record::show;
use crate::source::Source;
use crate::standards::iso286::{self, ToleranceClass};
use crate::units::{Length, LengthUnit};

use super::sizes;

const WANDER: Check = Check {
    key: "comes_back",
    what: "how far it may sit off its place when it is taken off and put back",
    worst: Verdict::Caution,
    source: Source::Derived("half the greatest clearance between what locates it and its hole"),
};

/// Fit of a dowel: the hole reamed, the pin as it is sold. Source: ISO 8735 and ISO 2338 (pins m6); H7 common practice.
const DOWEL_HOLE: &str = "H7";
const DOWEL_PIN: &str = "m6";
/// Fit of a register. Source: ISO 286 preferred fits, close running.
const REGISTER_HOLE: &str = "H7";
const REGISTER_FOOT: &str = "g6";

/// Thread to pull a dowel out by: up to that diameter, thread. Source: ISO 8735, from memory.
const PULL_OUT: &[(f64, &str)] = &[(6.0, "M4"), (8.0, "M5"), (10.0, "M6"), (12.0, "M6"), (16.0, "M8"), (20.0, "M10")];

/// Records what a seat of cone and cup is kept with: the checks of both count on its grease.
pub fn greased(design: &mut Design) {
    design.wants.uses("grease", "flank and rim of the seats");
    design.wants.packs("grease, brush and rag", "seats, each time before the frame comes down");
}

/// How far a part may shift each way: half the greatest clearance.
/// Source: derived; two round parts, one in the other.
pub fn wander(greatest_hole: Length, least_pin: Length) -> Length {
    ((greatest_hole - least_pin) / 2.0).max(Length::ZERO)
}

/// Sets the limits of a recorded size by a class that is known.
pub fn limits(design: &mut Design, size: &Size, nominal: Length, class: &str) -> Option<(Length, Length)> {
    let found = ToleranceClass::parse(class).ok().and_then(|c| iso286::limits(nominal, c).ok())?;
    let (lower, upper) = (nominal + found.lower, nominal + found.upper);
    design.limit(size, Limits { lower, upper, by: class.into(), confirmed: found.confirmed });
    Some((lower, upper))
}

fn record(design: &mut Design, by: Length, formula: &'static str, because: &str) {
    let by = design.computed_length(&sizes::WANDER, by, formula);
    design.finding(&WANDER, Verdict::Ok, Some(Value::Length(by)), Limit::None, because);
}

/// A part that only its bolts hold in place; `hole` as large as it may be.
pub fn bolts_alone(design: &mut Design, hole: Length, bolt: Length) {
    record(
        design,
        wander(hole, bolt),
        "(greatest hole - bolt)/2",
        "bolts clamp, they do not locate: dowels or a register bring it back, or set it by its mate before the bolts are drawn tight",
    );
}

/// Two dowels: records hole and pin with their limits.
pub fn dowels(design: &mut Design, diameter: Length) {
    design.computed_length(&sizes::DOWEL_HOLE, diameter, "reamed through both together");
    design.computed_length(&sizes::DOWEL_PIN, diameter, "as it is sold");
    let hole = limits(design, &sizes::DOWEL_HOLE, diameter, DOWEL_HOLE);
    let pin = limits(design, &sizes::DOWEL_PIN, diameter, DOWEL_PIN);
    if let (Some((_, greatest)), Some((least, _))) = (hole, pin) {
        record(
            design,
            wander(greatest, least),
            "(greatest H7 hole - least m6 pin)/2",
            "two dowels bring it back; the pins stay in the frame and hold sideways, the bolts clamp",
        );
    }
}

/// The step that makes the dowel holes, once the part stands where it belongs.
pub fn dowel_step(design: &mut Design, diameter: Length, unit: LengthUnit, drilled: Length) {
    let pull = PULL_OUT.iter().find(|(up_to, _)| diameter.as_mm() <= *up_to).map_or("M12", |(_, thread)| *thread);
    let drill = super::drill(drilled, unit);
    design
        .step(
            "bench",
            format!(
                "When the plate sits where it belongs, bolts tight: drill both dowel holes {} through plate and frame together, ream {} H7 by hand with oil, drive m6 pins into the frame. Where the hole is blind take pins with a pull-out thread, {pull} inside. Number plate and place.",
                drill,
                show::length_both(diameter, unit)
            ),
        )
        .measure(&sizes::DOWEL_HOLE, "plug gauge")
        .tool(format!("twist drill {drill}"))
        .tool(format!("reamer {} H7", show::length_both(diameter, unit)))
        .tool(format!("two pins {} m6", show::length_both(diameter, unit)));
}

/// A foot of that recorded diameter that sits in a bored recess.
pub fn register(design: &mut Design, foot: &Size, diameter: Length) {
    design.computed_length(&sizes::REGISTER_BORE, diameter, "bored in the crossbar or a ring welded on it");
    let hole = limits(design, &sizes::REGISTER_BORE, diameter, REGISTER_HOLE);
    let foot = limits(design, foot, diameter, REGISTER_FOOT);
    if let (Some((_, greatest)), Some((least, _))) = (hole, foot) {
        record(
            design,
            wander(greatest, least),
            "(greatest H7 recess - least g6 foot)/2",
            "the recess brings it back and takes the side force; the bolt clamps",
        );
    }
}
