//! The order of work of a stand: ordered from the cutter, deburred, measured, put together, loaded, taken apart.

use crate::families::common::bolt_length::Stack;
use crate::families::common::bolted::{self, Bolted};
use crate::families::common::printed::{self, Print};
use crate::families::common::{self, Head, hardening};
use crate::record::design::Design;
use crate::record::key::Size;
use crate::record::show;
use crate::standards::processes;
use crate::units::Length;

use super::Made;
use super::form::{BoltSlot, Form, Locked};
use super::read::{Lock, Spec};
use super::sizes;

/// All of it.
pub fn operations(design: &mut Design, s: &Spec, f: &Form, made: &[Made]) {
    if s.common.material.printed {
        as_printed(design, s, f, made);
        return together(design, s, f, "bench");
    }
    ordered(design, s, f);
    together(design, s, f, "stand");
    loaded(design, f);
    apart(design, f);
    match f.locked {
        Locked::Wedge(..) => design.wants.packs("hammer and a flat drift", "wedges of the stands, out and in again"),
        Locked::Bolt(_) => design.wants.packs("two spanners", "bolts of the stands, out and in again"),
    }
    if s.common.material.hardened {
        let hardness = &crate::families::common::sizes::HARDNESS;
        hardening::harden(design, &s.common.material, hardness, "the plates", None);
    }
}

fn size(s: &Spec, l: Length) -> String {
    show::length_both(l.rounded(), s.common.header.unit)
}

/// What is measured of the plates as they came.
#[rustfmt::skip]
const CALLIPER: [&Size; 7] = [
    &sizes::SLOT_WIDE, &sizes::SLOT_HIGH, &sizes::TAB_HIGH, &sizes::TOP_TAB_HIGH, &sizes::TOP_SLOT, &sizes::WEDGE_NARROW,
    &sizes::WEDGE_HOLE_HIGH,
];

fn ordered(design: &mut Design, s: &Spec, f: &Form) {
    let count = s.common.header.count;
    let plate = format!("{} plate {}", hardening::bought(&s.common.material), size(s, f.t));
    let rolled = match &s.measured_thickness {
        Some(_) => "the plate that was measured and no other".to_string(),
        None if s.thick.by.starts_with("EN") => format!("rolled to {}", s.thick.by.trim_end_matches(", as rolled")),
        None => "as it is sold".into(),
    };
    let kerf = match s.kerf() > Length::ZERO {
        true => format!(
            "The lines are drawn for a beam that takes {}: they are followed as they stand, with no allowance of the cutter's own.",
            size(s, s.kerf())
        ),
        false => "Sizes in the DXF are finished sizes; the cutter allows for his own kerf.".into(),
    };
    design
        .tools
        .push(format!("{count} x the plates of a stand, {plate}, laser-cut: layer CUT is cut, layer MARK only marked"));
    let text = format!(
        "Order the plates of this table, a DXF for each, in {plate}, {rolled}, all from one sheet. {kerf} The relief at the corners of slots and tabs stays."
    );
    design.step("laser cutter", text).table(sizes::PLATES_TABLE);
    let text = "Deburr all edges, those of slots and tabs above all; a drop of slag in a slot holds the joint open. Measure what came.";
    design.step("bench", text).measure(&sizes::THICKNESS, "micrometer");
    measured(design);
    drilled(design, s, f);
}

/// The holes of bolts that the cutter only marks.
fn drilled(design: &mut Design, s: &Spec, f: &Form) {
    let Lock::Bolts { hole, .. } = &s.lock else { return };
    if processes::can_be_cut(*hole - s.kerf(), f.t) {
        return;
    }
    common::at_the_drill(design);
    let speed = common::drill_speed(design, &s.common.machines, &s.common.material, *hole);
    let drill = common::drill(common::drill_within(design, &s.common, &sizes::BOLT_HOLE), s.common.header.unit);
    let text = format!(
        "Centre-punch the two crosses of each end plate, drill a pilot hole, then {drill} through at {speed}; countersink lightly on both faces."
    );
    design
        .step("drill press", text)
        .measure(&sizes::BOLT_HOLE, "calliper")
        .tool("drill for the pilot")
        .tool(format!("twist drill {drill}"));
}

fn measured(design: &mut Design) {
    for size in CALLIPER {
        if design.dimension(size).is_some_and(|d| d.limits.is_some())
            && let Some(last) = design.operations.last_mut()
        {
            last.measure(size, "calliper");
        }
    }
}

/// A printed stand is a model to see how it goes together.
fn as_printed(design: &mut Design, s: &Spec, f: &Form, made: &[Made]) {
    let e = made.iter().map(|m| m.flat.extents());
    let (x, y) = e.fold((Length::ZERO, Length::ZERO), |(x, y), e| (x.max(e.width()), y.max(e.height())));
    let print = Print { what: "plates", lies: "flat", extents: (x, y, f.t), tells: false };
    printed::step(design, &s.common, &print).table(sizes::PLATES_TABLE).measure(&sizes::THICKNESS, "calliper");
    measured(design);
}

fn together(design: &mut Design, s: &Spec, f: &Form, place: &'static str) {
    let first = "Stand one end plate (1) on its feet. Put the tabs of both rails (2) into its slots, their short tabs upwards, until the shoulders bear; then the other end plate on their other ends.";
    match (&f.locked, &s.lock) {
        (Locked::Wedge(wedge, _), _) => {
            let text = format!(
                "{first} Lay a wedge (4) flat through each tab from the outside, its straight edge against the end plate, its narrow end inwards. Drop the top plate (3) over the short tabs, which stay under its face. Stand it where it is to work, then drive the four wedges with a light hammer, in turns, until none moves: when all plates are of their nominal thickness each sits in the middle of its length, {} long.",
                size(s, wedge.long)
            );
            design.step(place, text);
        }
        (Locked::Bolt(slot), Lock::Bolts { .. }) => {
            let text = format!(
                "{first} Lay a nut into the slot of each rail end. Drop the top plate (3) over the short tabs, which stay under its face."
            );
            design.step(place, text);
            bolts(design, s, f, slot);
        }
        _ => {}
    }
}

fn bolts(design: &mut Design, s: &Spec, f: &Form, slot: &BoltSlot) {
    let Lock::Bolts { thread, steel, .. } = &s.lock else { return };
    let stack =
        Stack { part: slot.to_nut, wall: Some(f.t), wall_is: ("end plate", "thickness"), washers: 1, thread: None };
    let b = Bolted {
        head: Head::Hex,
        class: steel.class,
        thread: *thread,
        count: 4,
        into: None,
        stack,
        tapped_instead: None,
    };
    bolted::record(design, &b);
    bolted::step_of(design, &b, "end plates", "stand");
}

fn loaded(design: &mut Design, f: &Form) {
    let lock = match f.locked {
        Locked::Wedge(..) => "wedge",
        Locked::Bolt(_) => "bolt",
    };
    design.step("stand", format!("Set the stands where the load comes down, all on one level; pack the low ones with sheet under both feet. Lower the load onto the middle of the tops; before it hangs free of the hoist look that every stand carries, that none leans and no {lock} is loose. Look again after the first hour of work."));
}

fn apart(design: &mut Design, f: &Form) {
    let unlock = match f.locked {
        Locked::Wedge(..) => "Drive the wedges out from the inside with a flat drift on their narrow ends",
        Locked::Bolt(_) => "Take the bolts out, and the nuts out of their slots",
    };
    let text = format!(
        "Take the load off first, all of it. Lift the top plate off, held by hand under both ends. {unlock}, draw the end plates off, and lay the plates flat on each other; what locks them goes into a bag that is tied to the stack."
    );
    design.step("stand", text);
}
