//! The order of work of a clamp: cut out, drilled and tapped across, slit, bored with a packing in the slit; or one at hand opened by step
//! drill; its liner; drawn tight on the tube.

use crate::families::common::overhang::{Chucked, Reach};
use crate::families::common::printed::{self, Print};
use crate::families::common::{self, Cut, bolted, ordered};
use crate::formulas::clamp::Parted;
use crate::record::design::{Bar, Design};
use crate::record::show;
use crate::shape::Body;
use crate::standards::{processes, stock};
use crate::units::Length;

use super::outline::{LEFT_IN_BORE, liner_sizes};
use super::read::{Liner, Opened, Spec};
use super::sizes;

/// All of it.
pub fn operations(design: &mut Design, s: &Spec) {
    match &s.opened {
        Some(o) => open(design, s, o),
        None if s.common.material.printed => as_printed(design, s),
        None => {
            blank(design, s);
            across(design, s);
            part(design, s);
            bore(design, s);
        }
    }
    if let Some(l) = &s.liner {
        turn_liner(design, s, l);
    }
    let fixed = design.operations.len();
    tight(design, s);
    design.fixed_from(fixed);
}

fn size(s: &Spec, l: Length) -> String {
    show::length_both(l.rounded(), s.common.header.unit)
}

/// A printed clamp comes out of the printer with its slit, its bore and its holes, for the try-out.
fn as_printed(design: &mut Design, s: &Spec) {
    let e = design.solids.iter().filter_map(|solid| match &solid.body {
        Body::Flat(flat) => Some(flat.extents()),
        _ => None,
    });
    let across = e.map(|e| (e.width(), e.height())).reduce(|a, b| (a.0.max(b.0), a.1.max(b.1)));
    let (x, y) = across.unwrap_or((s.outside.value, s.outside.value));
    let extents = (x, y, s.width.value);
    let print = Print { what: "clamp", lies: "flat on one side, the axis of its bore upright", extents, tells: false };
    printed::step(design, &s.common, &print)
        .measure(&sizes::OUTSIDE_DIAMETER, "calliper")
        .measure(&sizes::WIDTH, "calliper")
        .measure(&sizes::BORE, "calliper")
        .measure(&sizes::SCREW_DISTANCE, "calliper")
        .measure(&sizes::GAP, gap_by(s.gap.value));
    let near = common::drill(s.screw.clearance, s.common.header.unit);
    let then =
        if s.screw.tapped { format!(" and tap {} in the far ear by hand", s.screw.thread) } else { String::new() };
    let text = format!("Clear the holes of the screws with a drill of {near}, turned by hand{then}.");
    let step = design.step("bench", text).measure(&sizes::SCREW_HOLE, "calliper").tool(format!("twist drill {near}"));
    if s.screw.tapped {
        step.tool(format!("tap {}, taper and bottoming", s.screw.thread));
    }
}

fn blank(design: &mut Design, s: &Spec) {
    let plate = format!("{} plate {}", s.common.material.name, size(s, s.width.value));
    design.tools.push(format!("{} x {plate}, cut out from the DXF", s.common.header.count));
    ordered::plate(design, &s.common, s.width.value, s.common.header.count);
    let text = format!(
        "Order the blank in {plate}, by {}: in one piece, without the slit, its hole {} under size.",
        processes::beam(s.width.value),
        size(s, LEFT_IN_BORE)
    );
    design
        .step("laser cutter", text)
        .measure(&sizes::OUTSIDE_DIAMETER, "calliper")
        .measure(&sizes::WIDTH, "calliper")
        .measure(&sizes::EAR_HEIGHT, "calliper");
}

/// The holes of the screws, while the blank is in one piece.
fn across(design: &mut Design, s: &Spec) {
    let unit = s.common.header.unit;
    let (machines, material) = (&s.common.machines, &s.common.material);
    let near = common::drill(s.screw.clearance, unit);
    let far = common::drill(s.screw.far(), unit);
    let speed = common::drill_speed(design, machines, material, s.screw.far());
    let wide = common::drill_speed(design, machines, material, s.screw.clearance);
    let holes = if s.screws() == 1 {
        "the screw's hole".to_string()
    } else {
        format!("the holes of the {} screws", s.screws())
    };
    let then = if s.screw.tapped {
        format!(
            "drill {far} through both ears at {speed}, open the near one to {near} as far as the slit will be at {wide}, tap {} in the far one by hand, with oil",
            s.screw.thread
        )
    } else {
        format!("drill {near} through both ears at {wide}")
    };
    let text = format!(
        "Mark {holes} on the flat of the near ear, {} from the axis and in the middle of the width or evenly over it, centre punch; in the vice, the flat level, {then}. Spot-face nothing: the flats bear the heads.",
        size(s, s.distance())
    );
    let step = design
        .step("drill press", text)
        .measure(&sizes::SCREW_DISTANCE, "calliper")
        .measure(&sizes::SCREW_HOLE, "calliper")
        .tool(format!("twist drill {near}"));
    if s.screw.tapped {
        step.tool(format!("twist drill {far}")).tool(format!("tap {}, taper and bottoming", s.screw.thread));
    }
    common::at_the_drill(design);
}

/// Slit, or sawn apart.
fn part(design: &mut Design, s: &Spec) {
    let gap = size(s, s.gap.value);
    let text = match s.parted {
        Parted::Once => format!(
            "Saw the slit {gap} wide through the middle of the ears into the bore; two cuts and a file between them where the blade is thinner. Break its edges, on the side of the bore above all."
        ),
        Parted::InHalves => format!(
            "Saw it apart through the middle of the ears on both sides, {gap} in all with the filing; number both halves on one side. Break the edges."
        ),
    };
    design.step("bench", text).measure(&sizes::GAP, gap_by(s.gap.value));
}

/// With what a gap is measured: leaves of a feeler gauge stop at a millimetre, the jaws of a calliper go in from two on.
/// Source: common practice, no source.
fn gap_by(gap: Length) -> &'static str {
    if gap >= Length::mm(2.0) { "calliper, its inside jaws" } else { "feeler gauge" }
}

/// Bored with a packing as thick as the gap, screws tight.
fn bore(design: &mut Design, s: &Spec) {
    let cutting = s.common.machines.cutting(&s.common.material);
    let machines = &s.common.machines;
    let point = Cut::point(machines, &s.common.material);
    let rough = common::spindle(design, "boring", machines.on_the_face_plate(cutting.rough, s.bore.diameter), point);
    let finish = common::spindle(design, "boring", machines.on_the_face_plate(cutting.finish, s.bore.diameter), point);
    let between = common::between(design, &sizes::BORE);
    let packing = size(s, s.gap.value);
    let slits = if s.parted == Parted::Once { "the slit" } else { "both gaps" };
    let text = format!(
        "Put packing {packing} thick into {slits}, draw the screws tight. On the face plate with three clamps, the ears balanced by a weight on the other side, run a dial over the bore; bore to {between} at {rough}, finishing {finish}. Break both edges of the bore."
    );
    design.step("lathe", text).measure(&sizes::BORE, "bore gauge");
    common::at_the_lathe(design);
    design.caution(&["lathe"], "Ears swing beyond the ring: turn it round by hand first, slow speed, nobody in their plane.", "The ears of a clamp on the face plate swing wide and out of balance: turn it round by hand before the spindle starts, begin slowly, stand out of their plane.");
}

/// A clamp at hand, opened by the drill.
fn open(design: &mut Design, s: &Spec, o: &Opened) {
    let setting = s.common.machines.drill(s.common.material.cutting(false).drill, s.bore.diameter);
    let speed = common::spindle(design, "opening by step drill", setting, Cut::StepDrill);
    let last = o.steps.value.last().is_some_and(|d| (*d - s.bore.diameter).abs() < Length::um(1.0));
    let stop = if last {
        "until it is through".to_string()
    } else {
        format!(
            "{} deep by the depth stop, set on a piece of scrap, no more: the next step would enter; turn the clamp over and do the same",
            size(s, (s.width.value / 2.0).min(o.height.value))
        )
    };
    let gap = size(s, s.gap.value);
    let guide = if o.idle() > 0 {
        "let the steps that run idle guide the drill, then "
    } else {
        "nothing guides the drill: feed it by the lightest hand until a step is full, and "
    };
    let text = format!(
        "Put packing {gap} thick into the slit and draw the screws tight, so that the drill cuts a round hole and not an open one. Clamp the ears to the table, never hold them; {guide}open it at {speed}, oil, {stop}. Take the packing out, take every burr off, inside and along the slit."
    );
    design
        .step("drill press", text)
        .measure(&sizes::BORE, "calliper")
        .table(sizes::STEPS_TABLE)
        .tool(format!("step drill with a step of {}", size(s, s.bore.diameter)));
    common::at_the_drill(design);
    design.caution(&["drill"], "A step drill that grabs in a slit throws the clamp round: bolt it down, packing in the slit.", "A step drill catches in a slit and throws the work round: the clamp is bolted down by its ears, with packing in the slit, and nobody's hand is near.");
}

fn turn_liner(design: &mut Design, s: &Spec, l: &Liner) {
    let unit = s.common.header.unit;
    let (bore, outside) = liner_sizes(s, l);
    let bar = stock::round_to_turn(outside, unit);
    let out = s.width.value + common::turned_ends(unit);
    let chucked = Chucked::new(bar, out, true, unit);
    let grip = chucked.in_the_chuck();
    design.bars.push(Bar {
        material: l.material.name.clone(),
        across: Some(bar),
        count: s.common.header.count,
        each: out + grip,
        grip,
        what: Some("the liner".into()),
    });
    let machines = &s.common.machines;
    let cutting = machines.cutting(&l.material);
    let point = Cut::point(machines, &l.material);
    let rough = common::spindle(design, "the liner", machines.turn(cutting.rough, outside), point);
    let inside = common::spindle(design, "the liner", machines.turn(cutting.finish, bore), point);
    let off = chucked.comes_off(design, "parting off the liner", machines, &l.material);
    let text = format!(
        "The liner: chuck {}. {} the outside to {} at {rough}{}, drill and bore to {} at {inside}, break the edges, {} {} long{}. Saw one slit along it, {} wide, and take off the burrs.",
        chucked.how(),
        chucked.first_cut(),
        common::between(design, &sizes::LINER_OUTSIDE),
        chucked.for_the_drill(),
        common::between(design, &sizes::LINER_BORE),
        off.how,
        size(s, s.width.value),
        off.at,
        size(s, s.gap.value)
    );
    chucked.judge(design);
    Reach::BoredFromOne.judge(
        design,
        s.width.value,
        bore,
        "a longer bar chatters and the wall comes out uneven: a narrower clamp, or two of them",
    );
    let step = design.step("lathe", text);
    chucked.tools(step);
    step.measure(&sizes::LINER_OUTSIDE, "micrometer")
        .measure(&sizes::LINER_BORE, "bore gauge")
        .measure(&sizes::LINER_WALL, "micrometer");
    common::at_the_lathe(design);
}

fn tight(design: &mut Design, s: &Spec) {
    let liner = if s.liner.is_some() { ", the liner's slit under that of the clamp" } else { "" };
    design.step(
        "bench",
        format!("Degrease clamp and tube where they touch: what grips is dry. Slide the clamp on{liner}."),
    );
    let what = super::bolted(s);
    bolted::record(design, &what);
    bolted::step(design, &what, "clamp");
    let both = if s.parted == Parted::InHalves { "Draw both sides in turn, so that the gaps stay alike. " } else { "" };
    let text = format!(
        "{both}Measure the gap when it is tight: it is open all along. Mark clamp and tube across with a scriber; after the first day of use look at the mark and draw the screws again."
    );
    let left = design.dimension(&sizes::GAP_LEFT).map_or(s.gap.value, |d| Length::mm(d.value.number()));
    design.step("bench", text).measure(&sizes::GAP_LEFT, gap_by(left));
}
