//! The order of work of a try-out: printed, cut or turned, measured, tried, and written down.

use crate::families::common::overhang::Chucked;
use crate::families::common::printed::{self, Print};
use crate::families::common::{self, Cut, hardening};
use crate::record::design::{Bar, Design};
use crate::record::key::Size;
use crate::record::show;
use crate::standards::stock;
use crate::units::Length;

use super::read::{Ladder, Made, Spec};
use super::{made, shape, sizes};

/// Steps of the work, and what the rung that fits has told.
pub fn operations(design: &mut Design, s: &Spec) {
    if s.common.material.printed {
        as_printed(design, s);
    } else if matches!(s.made, Made::Ladder { kind: Ladder::Holes | Ladder::Slots, .. } | Made::Edge { .. }) {
        cut(design, s);
    } else {
        turned(design, s);
    }
    measured(design, s);
    tried(design, s);
    made::by_fit(design, s);
    if !s.common.material.printed {
        common::at_machines(design);
    }
}

fn as_printed(design: &mut Design, s: &Spec) {
    let number = |size: &Size| design.dimension(size).map_or(Length::ZERO, |d| Length::mm(d.value.number()));
    let (lies, extents) = match &s.made {
        Made::Ladder { kind: Ladder::Holes | Ladder::Slots, thickness, .. } => {
            ("flat", (number(&sizes::OVERALL), number(&sizes::ACROSS), *thickness))
        }
        Made::Ladder { kind: Ladder::Treads, rungs, thickness, .. } => (
            "turned onto its longest side, the treads upwards",
            (number(&sizes::OVERALL), *thickness, rungs.last().copied().unwrap_or(Length::ZERO)),
        ),
        Made::Ladder { kind: Ladder::Pins, rungs, length, .. } => {
            let (across, high) = shape::pins_extent(rungs, *length);
            ("standing on their feet, one by one", (across, across, high))
        }
        Made::Edge { height, thickness, .. } => ("flat", (*height * 2.0, *height, *thickness)),
        Made::Limits { plug: true, .. } => {
            let across = number(&sizes::GO).max(number(&sizes::NOT_GO));
            ("standing on its go end", (across, across, number(&sizes::OVERALL)))
        }
        Made::Limits { .. } => {
            let across = number(&sizes::RING_OUTSIDE);
            ("flat", (across, across, number(&sizes::RING_THICK)))
        }
    };
    printed::step(design, &s.common, &Print { what: word(s), lies, extents, tells: true });
}

/// What the try-out is called.
fn word(s: &Spec) -> &'static str {
    match &s.made {
        Made::Ladder { kind: Ladder::Holes, .. } => "strip of holes",
        Made::Ladder { kind: Ladder::Slots, .. } => "strip of slots",
        Made::Ladder { kind: Ladder::Treads, .. } => "stair",
        Made::Ladder { kind: Ladder::Pins, .. } => "set of rungs",
        Made::Edge { .. } => "gauge",
        Made::Limits { plug: true, .. } => "plug",
        Made::Limits { .. } => "rings",
    }
}

fn cut(design: &mut Design, s: &Spec) {
    let thickness = match &s.made {
        Made::Ladder { thickness, .. } | Made::Edge { thickness, .. } => *thickness,
        Made::Limits { .. } => return,
    };
    let name = hardening::bought(&s.common.material);
    let plate = format!("{name} plate {}", show::length_both(thickness.rounded(), s.common.header.unit));
    design.tools.push(format!("{} x {plate}, laser-cut from the DXF", design.header.count));
    let text = format!(
        "Order the {} in {plate}, from the same cutter, plate and order as the parts that it is tried for; tell him to take nothing off for a fit: it is measured.",
        word(s)
    );
    design.step("laser cutter", text);
    design.step("bench", "Deburr both faces; the cut edges stay as they are.");
}

/// Turned ones: pins from one bar, a plug with both its ends, rings bored one after the other.
fn turned(design: &mut Design, s: &Spec) {
    let unit = s.common.header.unit;
    let number =
        |design: &Design, size: &Size| design.dimension(size).map_or(Length::ZERO, |d| Length::mm(d.value.number()));
    let (outside, length, pieces, what) = match &s.made {
        Made::Ladder { rungs, length, .. } => {
            let text = "turn each to its diameter below, break its edge";
            (rungs.last().copied().unwrap_or(Length::ZERO), *length, rungs.len() as u32, text.to_string())
        }
        Made::Limits { plug: true, .. } => {
            let go = common::between(design, &sizes::GO);
            let not_go = common::between(design, &sizes::NOT_GO);
            let text = format!(
                "turn the not-go end to {not_go} and the neck behind it, then the go end, nearest the jaws, to {go}; break both edges"
            );
            (number(design, &sizes::NOT_GO), number(design, &sizes::OVERALL), 1, text)
        }
        Made::Limits { .. } => {
            let go = common::between(design, &sizes::GO_RING);
            let not_go = common::between(design, &sizes::NOT_GO_RING);
            let text = format!(
                "face, turn the outside, drill, bore the go ring to {go} and the not-go ring to {not_go}; break the edges; mark the not-go ring with a groove round its outside"
            );
            (number(design, &sizes::RING_OUTSIDE), number(design, &sizes::RING_THICK), 2, text)
        }
        Made::Edge { .. } => return,
    };
    let bar = stock::round_to_turn(outside, unit);
    let out = length + common::turned_ends(unit);
    let chucked = Chucked::new(bar, out, matches!(s.made, Made::Limits { plug: false, .. }), unit);
    let grip = chucked.in_the_chuck();
    design.bars.push(Bar {
        material: hardening::bought(&s.common.material),
        across: Some(bar),
        count: design.header.count * pieces,
        each: out + grip,
        grip,
        what: None,
    });
    let (machines, material) = (&s.common.machines, &s.common.material);
    let cutting = machines.cutting(material);
    let point = Cut::point(machines, material);
    let rough = common::spindle(design, word(s), machines.turn(cutting.rough, outside), point);
    let point = Cut::point(machines, material);
    let finish = common::spindle(design, word(s), machines.turn(cutting.finish, outside), point);
    let off = chucked.comes_off(design, "parting off", machines, material);
    let text = format!(
        "Chuck {}; {what}; {} {}{}. Speeds with {}: roughing {rough}, finishing {finish}.",
        chucked.how(),
        off.how,
        if pieces > 1 { "each" } else { "the piece" },
        off.at,
        machines.tool()
    );
    let step = design.step("lathe", text);
    chucked.tools(step);
    chucked.judge(design);
    common::at_the_lathe(design);
}

/// Every gauging size and every rung has its box.
fn measured(design: &mut Design, s: &Spec) {
    let (sizes, with): (Vec<Size>, _) = match &s.made {
        Made::Ladder { kind, rungs, .. } => ((0..rungs.len()).map(|i| sizes::rung(*kind, i)).collect(), "calliper"),
        Made::Edge { .. } => return,
        Made::Limits { plug: true, .. } => (vec![sizes::GO.clone(), sizes::NOT_GO.clone()], "micrometer"),
        Made::Limits { .. } => (vec![sizes::GO_RING.clone(), sizes::NOT_GO_RING.clone()], "bore gauge"),
    };
    let text = "Measure, at the temperature of the room, each in two directions, and write the mean.";
    let step = design.step("bench", text);
    for size in &sizes {
        step.measure(size, with);
    }
}

/// The trial, and what is written down of it.
fn tried(design: &mut Design, s: &Spec) {
    let text = match &s.made {
        Made::Ladder { kind: Ladder::Treads, .. } => {
            "Record what was measured; a gap is as wide as the thickest tread that goes in by hand."
        }
        Made::Ladder { kind: Ladder::Pins, .. } => {
            "Try them in the bore that they are for: the largest that goes in by hand, without a knock. Write the bore as tried_with and that one's number, counted from the smallest, as fits_at; or record what was measured. `setdown check` then says by how much outsides are off."
        }
        Made::Ladder { .. } => {
            "Try the mate in them, by hand, without a knock: the smallest that takes it. Write the mate as tried_with and that one's number, counted from the cut corner, as fits_at; or record what was measured. `setdown check` then says by how much holes are off."
        }
        Made::Edge { .. } => {
            "Stand the cone and the gauge on a flat plate, on blocks as high as the cone's foot where it has one. Push the gauge's edge against the flank, square to the axis, and look against the light: a gap above means the cone is too blunt, one below that it is too slim. Try it at three places round the cone."
        }
        Made::Limits { plug: true, .. } => {
            "Wipe both dry. The go end must enter the whole bore by its own weight or a light push, the not-go end must not enter at all. Never force it, never use it in a bore that turns."
        }
        Made::Limits { .. } => {
            "Wipe both dry. The go ring must slide over the whole shaft, the not-go ring must not go on at all. Never force it, never use it on a shaft that turns."
        }
    };
    design.step("bench", text);
}
