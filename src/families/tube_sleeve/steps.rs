//! The order of work: the hole, the sleeve, the weld, the bolt.

use crate::families::common::gripped;
use crate::families::common::{self, Cut, bolted, welded};
use crate::record::design::{Bar, Design, Value};
use crate::record::show;
use crate::shop::by_unit;
use crate::standards::stock;
use crate::units::{Angle, Length};

use super::read::Spec;
use super::sizes;

/// All of it.
pub fn operations(design: &mut Design, s: &Spec, length: Length) {
    hole(design, s);
    turn(design, s, length);
    if s.fitted {
        fit(design, s);
    }
    weld(design, s);
    if let Some(bolt) = super::bolted(s, length) {
        bolted::record(design, &bolt);
        bolted::step(design, &bolt, "part");
    }
}

fn hole(design: &mut Design, s: &Spec) {
    let unit = s.common.header.unit;
    let hole = s.hole();
    let pilot_hole = by_unit(unit, 4.0, 5.0 / 32.0);
    let pilot = common::drill(pilot_hole, unit);
    let speed = common::drill_speed(design, &s.common.machines, &s.tube.material, hole);
    let slow = common::drill_speed(design, &s.common.machines, &s.tube.material, pilot_hole);
    let both = s.bore.is_some();
    let where_ = if both {
        "Mark the middle on both walls from the same end and the same side of the tube, with a square carried round it; centre punch."
    } else {
        "Centre punch the hole that is to be closed, or find its middle."
    };
    let through = if both {
        "through one wall from each side, never through both from one: a long drill wanders"
    } else {
        "through"
    };
    let held = if s.lean().as_degrees() == 0.0 || !both {
        "Clamp the tube in a vice on the table".to_string()
    } else {
        let lean = show::value(&Value::Angle(Angle::degrees(s.lean().as_degrees().abs())), unit);
        format!(
            "Clamp the tube in a vice on the table, leaning by {lean} on a wedge, and start with a short stiff drill"
        )
    };
    design.step("drill press", format!(
        "{where_} {held}; drill {pilot} at {slow} {through}, then open to {} by step drill or hole saw at {speed}, oil. Take every burr off, inside too.",
        common::between(design, &sizes::HOLE)
    )).measure(&sizes::HOLE, "calliper").tool(format!("twist drill {pilot}")).tool(format!("step drill or hole saw {}", show::length_both(hole.rounded(), unit)));
    common::at_the_drill(design);
    if let Some(drain) = &s.tube.drain {
        let drill = common::drill(drain.value, unit);
        let speed = common::drill_speed(design, &s.common.machines, &s.tube.material, drain.value);
        design
            .step("drill press", format!("Drill the drain {drill} at {speed} at the lowest place of the tube, before anything is welded: it is the vent too."))
            .measure(&sizes::TUBE_DRAIN, "calliper")
            .tool(format!("twist drill {drill}"));
    }
}

fn turn(design: &mut Design, s: &Spec, length: Length) {
    let unit = s.common.header.unit;
    let size = |l: Length| show::length_both(l.rounded(), unit);
    let material = &s.common.material;
    let outside = s.outside.value;
    let name = if s.bore.is_some() { "sleeve" } else { "plug" };
    let bar = stock::next_bar(outside, unit).unwrap_or(outside);
    let ends = common::turned_ends(unit) + super::facing(s);
    let out = length + ends;
    let grip = gripped::in_the_chuck(bar, out);
    design.bars.push(Bar {
        material: material.name.clone(),
        across: Some(bar),
        count: s.common.header.count,
        each: out + grip,
        grip,
        what: None,
    });
    let machines = &s.common.machines;
    let cutting = material.cutting(false);
    let rough = common::spindle(design, name, machines.turn(cutting.rough, outside), Cut::Point(material, false));
    let finish = common::spindle(design, name, machines.turn(cutting.finish, outside), Cut::Point(material, false));
    let part = common::straight_in_speed(design, "parting off", machines, material, bar);
    let bored = match &s.bore {
        Some(bore) => {
            let drill = common::drill(bore.diameter, unit);
            let speed = common::drill_speed_in_lathe(design, machines, material, bore.diameter);
            format!(", drill {drill} through at {speed}, clearing the chips often")
        }
        None => String::new(),
    };
    let across = common::between(design, &sizes::OUTSIDE_DIAMETER);
    let long = common::between(design, &sizes::LENGTH);
    let then = if s.bore.is_some() {
        format!(
            "break the edges, part off at {part}; turn round, {}, face to {long}",
            gripped::second_grip(length, outside, unit)
        )
    } else {
        format!(
            "chamfer the edge 45° by half the thickness for the weld, part off {long} thick at {part}; its back stays as it is parted, the burr filed off"
        )
    };
    let bought = if s.bore.is_some() { "; bought tube of this outside and bore spares the drilling" } else { "" };
    let mut step = design.step("lathe", format!(
        "Chuck the bar with {} out of the jaws, {} in them{bought}. Face, turn the outside to {across}{bored}, {then}. Facing and roughing {rough}, finishing {finish}.",
        size(out),
        gripped::in_jaws(bar, out, unit)
    ));
    step = step.measure(&sizes::OUTSIDE_DIAMETER, "calliper").measure(&sizes::LENGTH, "calliper");
    if let Some(bore) = &s.bore {
        step.measure(&sizes::BORE, "calliper").tool(format!("twist drill {}", common::drill(bore.diameter, unit)));
    }
    common::at_the_lathe(design);
}

fn fit(design: &mut Design, s: &Spec) {
    let mark =
        if s.lean().as_degrees() == 0.0 { "any line along it" } else { "the line that lies farthest along the tube" };
    design
        .step("bench", format!(
            "Plot the table on a strip of paper, wrap it round the sleeve with its nought on {mark}, scribe, saw and file both ends; the other end begins at the line opposite. Try it in the hole: its edge lies flush all round."
        ))
        .table(sizes::ENDS_TABLE);
}

fn weld(design: &mut Design, s: &Spec) {
    let unit = s.common.header.unit;
    let what = super::weld(s);
    let flush = if s.proud() > Length::ZERO {
        format!("{} out at each end", show::length_both(s.proud().rounded(), unit))
    } else {
        if s.bore.is_some() {
            "flush where the tube stands out farthest".into()
        } else {
            "its chamfer outwards, flush".into()
        }
    };
    let ends = if s.bore.is_some() { "Slide the sleeve in" } else { "Lay the plug in" };
    design.step(
        "bench",
        format!("Strip paint, zinc and scale 30 mm (1-3/16 in) round the hole. {ends}, {flush}; it goes in by hand."),
    );
    if s.bore.is_some() {
        welded::weld(design, &s.common, &what);
    } else {
        welded::weldable(design, &s.common, &what);
        common::weld_steps(design, what.what, s.common.coating.as_ref().is_some_and(|c| c.zinc));
        design.step("welder", "The weld fills the groove that chamfer and wall make, all round, in four quarters, each opposite the one before; ground flush where something lies on it.");
    }
    let bolt = match (&s.bolt, &s.bore) {
        (Some(bolt), Some(bore)) => format!(
            " Try the bolt {}; where it binds, run the drill {} through again.",
            bolt.thread,
            common::drill(bore.diameter, unit)
        ),
        _ => String::new(),
    };
    let faces = if s.bore.is_some() && s.proud() == Length::ZERO {
        " Grind the weld flush only where washers lie, the sleeve's face itself stays: it carries the bolt."
    } else {
        ""
    };
    design.step("bench", format!("Let it cool. Look at the weld all round: no pore, no gap, else water finds it; wet it with oil and chalk to be sure.{bolt}{faces}"));
}
