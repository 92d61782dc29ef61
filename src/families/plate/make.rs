//! The order of work of a plate: ordered from the cutter, deburred, measured, drilled and tapped, bolted on.

use crate::families::common::printed::{self, Print};
use crate::families::common::{self, bolted, hardening, ordered};
use crate::record::design::Design;
use crate::record::show;
use crate::shape::Extents;

use super::checks::kinds_of_bolts;
use super::outline::{SKIN, cut_width};
use super::read::{Holes, Made, Spec};
use super::sizes;

/// Steps of the work.
pub fn operations(design: &mut Design, s: &Spec, extents: Extents) {
    if s.common.material.printed {
        return as_printed(design, s, extents);
    }
    let unit = s.common.header.unit;
    let plate = format!(
        "{} plate {}",
        hardening::bought(&s.common.material),
        show::length_both(s.thickness.value.rounded(), unit)
    );
    ordered::plate(design, &s.common, s.thickness.value, s.common.header.count);
    design.tools.push(format!(
        "{} x {plate}, laser-cut from the DXF: layer CUT is cut, layer MARK only marked",
        s.common.header.count
    ));
    design.step("laser cutter", format!("Order the blank in {plate}. Sizes in the DXF are finished sizes but for holes that are tapped; the cutter allows for his own kerf."));
    let hard = ordered::hard_edge(&s.common.material);
    let step = design.step("bench", format!("Deburr both faces, and measure what came.{hard}"));
    step.measure(&sizes::THICKNESS, "micrometer");
    let cut = |row: &Holes| !matches!(row.made, Made::Tapped(_)) && cut_width(s, row).is_some();
    measured(design, s, cut);
    drilled(design, s);
    tapped(design, s);
    hardened(design, s);
    bolted_on(design, s);
}

/// The bolts that go through it, drawn tight where it belongs: those of one kind in one step.
fn bolted_on(design: &mut Design, s: &Spec) {
    let fixed = design.operations.len();
    let kinds = kinds_of_bolts(s);
    let several = kinds.len() > 1;
    for (bolts, holes) in kinds {
        let rounds = if bolts.count > 1 { ", crosswise in two rounds" } else { "" };
        let holes = if several { format!(", hole {},", holes.join(", hole ")) } else { String::new() };
        let Some(text) = bolted::drawn_tight(design, &bolts, &format!("the plate{holes}"), rounds) else { continue };
        let laid_out = bolted::laid_out(&bolts, "plate");
        design.step("bench", text).tool(laid_out);
    }
    design.fixed_from(fixed);
}

/// Outline and holes are measured by calliper at the last step.
fn measured(design: &mut Design, s: &Spec, which: impl Fn(&Holes) -> bool) {
    let outline = [
        &sizes::LENGTH,
        &sizes::WIDTH,
        &sizes::DIAMETER,
        &sizes::LEG,
        &sizes::BLUNT,
        &sizes::EXTENT_X,
        &sizes::EXTENT_Y,
    ];
    let rows = s.holes.iter().enumerate().filter(|(_, row)| which(row));
    let holes: Vec<_> = rows.map(|(i, _)| sizes::hole(i)).collect();
    for size in outline.into_iter().chain(&holes) {
        if design.dimension(size).is_some_and(|d| d.limits.is_some())
            && let Some(last) = design.operations.last_mut()
        {
            last.measure(size, "calliper");
        }
    }
}

/// A printed plate comes with its holes; those for a tap are cleared and tapped by hand.
fn as_printed(design: &mut Design, s: &Spec, extents: Extents) {
    let print = Print {
        what: "plate",
        lies: "flat",
        extents: (extents.width(), extents.height(), s.thickness.value),
        tells: false,
    };
    printed::step(design, &s.common, &print).measure(&sizes::THICKNESS, "calliper");
    measured(design, s, |row| !matches!(row.made, Made::Tapped(_)));
    for (i, row) in s.holes.iter().enumerate() {
        let Made::Tapped(thread) = &row.made else { continue };
        let drill = common::drill(row.diameter, s.common.header.unit);
        let text = format!(
            "Clear the {} of hole {} with a drill of {drill}, turned by hand, and tap {thread} by hand; a thread in a print is for the try-out only.",
            row.centres.len(),
            i + 1
        );
        design
            .step("bench", text)
            .tool(format!("twist drill {drill}"))
            .tool(format!("tap {thread}, taper and bottoming"));
    }
}

/// `cross`, or `3 crosses`.
fn crosses(count: usize) -> String {
    if count == 1 { "cross".into() } else { format!("{count} crosses") }
}

/// Holes that the laser only marks.
fn drilled(design: &mut Design, s: &Spec) {
    for (i, row) in s.holes.iter().enumerate() {
        if cut_width(s, row).is_some() || matches!(row.made, Made::Tapped(_)) {
            continue;
        }
        common::at_the_drill(design);
        let speed = common::drill_speed(design, &s.common.machines, &s.common.material, row.diameter);
        let drill = common::drill(common::drill_within(design, &s.common, &sizes::hole(i)), s.common.header.unit);
        let text = format!(
            "Centre-punch the {} of hole {}, drill a pilot hole, then {drill} through at {speed}; countersink lightly on both faces.",
            crosses(row.centres.len()),
            i + 1
        );
        design
            .step("drill press", text)
            .measure(&sizes::hole(i), "calliper")
            .tool("drill for the pilot")
            .tool(format!("twist drill {drill}"));
    }
}

fn tapped(design: &mut Design, s: &Spec) {
    for (i, row) in s.holes.iter().enumerate() {
        let Made::Tapped(thread) = &row.made else { continue };
        common::standard_thread(design, thread);
        common::at_the_drill(design);
        let speed = common::drill_speed(design, &s.common.machines, &s.common.material, row.diameter);
        let drill = common::drill(row.diameter, s.common.header.unit);
        let start = if cut_width(s, row).is_some() {
            let under = show::length_both(SKIN, s.common.header.unit);
            format!("The laser has cut the {} of hole {} {under} under size.", row.centres.len(), i + 1)
        } else {
            format!("Centre-punch the {} of hole {}.", crosses(row.centres.len()), i + 1)
        };
        let text =
            format!("{start} Drill {drill} through at {speed}, countersink lightly, tap {thread} by hand, with oil.");
        design
            .step("drill press", text)
            .tool(format!("twist drill {drill}"))
            .tool(format!("tap {thread}, taper and bottoming"));
    }
}

fn hardened(design: &mut Design, s: &Spec) {
    if s.common.material.hardened {
        hardening::harden(design, &s.common.material, &common::sizes::HARDNESS, "the plate", None);
    }
}
