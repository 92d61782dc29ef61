//! The order of work: the hole, the sleeve, the weld, the bolt.

use crate::families::common::gripped;
use crate::families::common::overhang::{Chucked, Reach};
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
    let fixed = design.operations.len();
    if let Some(bolt) = super::bolted(s, length) {
        bolted::record(design, &bolt);
        bolted::step(design, &bolt, "part");
    }
    design.fixed_from(fixed);
}

/// The thickest wall that a bought step drill goes through with one step. Source: common practice, no source; its steps are 4 to
/// 6 mm high.
const ONE_STEP: Length = Length::mm(4.0);

/// How the middle of the hole is found on each wall. Leaning, it comes out of the far wall by through x tan(lean) further on.
fn marked(design: &mut Design, s: &Spec, both: bool) -> String {
    if !both {
        return "Centre punch the hole that is to be closed, or find its middle.".into();
    }
    let square =
        "Mark the middle on both walls from the same end and the same side of the tube, with a square carried round it";
    if s.lean() == Angle::ZERO {
        return format!("{square}; centre punch.");
    }
    let apart = s.tube.through.value * s.lean().tan().abs();
    let apart = design.computed_length(&sizes::MARKS_APART, apart, "through x tan(lean)");
    format!(
        "{square}, then move the mark of the far wall along the tube by {}, the way in which the sleeve leans; centre punch.",
        show::length_both(apart, s.common.header.unit)
    )
}

fn hole(design: &mut Design, s: &Spec) {
    let unit = s.common.header.unit;
    let opener = if s.tube.wall.value > ONE_STEP { "hole saw" } else { "step drill or hole saw" };
    let hole = s.hole();
    let pilot_hole = by_unit(unit, 4.0, 5.0 / 32.0);
    let pilot = common::drill(pilot_hole, unit);
    let speed = common::drill_speed(design, &s.common.machines, &s.tube.material, hole);
    let slow = common::drill_speed(design, &s.common.machines, &s.tube.material, pilot_hole);
    let both = s.bore.is_some();
    let where_ = marked(design, s, both);
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
        "{where_} {held}; drill {pilot} at {slow} {through}, then open to {} by {opener} at {speed}, oil. Take every burr off, inside too.",
        common::between(design, &sizes::HOLE)
    )).measure(&sizes::HOLE, "calliper").tool(format!("twist drill {pilot}")).tool(format!("{opener} {}", show::length_both(hole.rounded(), unit)));
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

/// The drill of the bore; a bore for a bolt lies with its size on its least limit.
fn bore_drill(design: &mut Design, s: &Spec) -> String {
    common::drill(common::drill_within(design, &s.common, &sizes::BORE), s.common.header.unit)
}

fn turn(design: &mut Design, s: &Spec, length: Length) {
    let unit = s.common.header.unit;
    let size = |l: Length| show::length_both(l.rounded(), unit);
    let material = &s.common.material;
    let outside = s.outside.value;
    let name = if s.bore.is_some() { "sleeve" } else { "plug" };
    let bar = stock::round_to_turn(outside, unit);
    let ends = common::turned_ends(unit) + super::facing(s);
    let out = length + ends;
    let chucked = Chucked::new(bar, out, s.bore.is_some(), unit);
    let grip = chucked.in_the_chuck();
    design.bars.push(Bar {
        material: material.name.clone(),
        across: Some(bar),
        count: s.common.header.count,
        each: out + grip,
        grip,
        what: None,
    });
    let machines = &s.common.machines;
    let cutting = machines.cutting(material);
    let rough = common::spindle(design, name, machines.turn(cutting.rough, outside), Cut::point(machines, material));
    let finish = common::spindle(design, name, machines.turn(cutting.finish, outside), Cut::point(machines, material));
    let off = chucked.comes_off(design, "parting off", machines, material);
    let [bored, other_half] = drilled(design, s, length, chucked.for_the_drill());
    let across = common::between(design, &sizes::OUTSIDE_DIAMETER);
    let long = common::between(design, &sizes::LENGTH);
    let chamfer = (s.grooved() && !s.fitted).then(|| size(super::groove(s)));
    let then = if s.bore.is_some() {
        let (edges, second) = match chamfer {
            Some(c) => (
                format!("chamfer the outer edge {c} x 45° for the weld, break the inner one"),
                ", and the same chamfer here",
            ),
            None => ("break the edges".to_string(), ""),
        };
        format!(
            "{edges}, {}{}; turn round, {}, face to {long}{second}{other_half}",
            off.how,
            off.at,
            gripped::second_grip(length, outside, unit)
        )
    } else {
        format!(
            "chamfer the edge 45° by half the thickness for the weld, {} {long} thick{}; its back stays as it is parted, the burr filed off",
            off.how, off.at
        )
    };
    let bought = if s.bore.is_some() { "; bought tube of this outside and bore spares the drilling" } else { "" };
    let drill = bore_drill(design, s);
    let mut step = design.step("lathe", format!(
        "Chuck {}{bought}. {} the outside to {across}{bored}, {then}. Facing and roughing {rough}, finishing {finish}.",
        chucked.how(),
        chucked.first_cut()
    ));
    chucked.tools(step);
    step = step.measure(&sizes::OUTSIDE_DIAMETER, "calliper").measure(&sizes::LENGTH, "calliper");
    if s.bore.is_some() {
        step.measure(&sizes::BORE, "calliper").tool(format!("twist drill {drill}"));
    }
    chucked.judge(design);
    common::at_the_lathe(design);
}

/// How the bore is drilled: what is said of it at the first end, and at the second where the drill does not reach through.
fn drilled(design: &mut Design, s: &Spec, length: Length, before: &str) -> [String; 2] {
    let Some(bore) = &s.bore else { return [String::new(), String::new()] };
    let drill = bore_drill(design, s);
    let speed = common::drill_speed_in_lathe(design, &s.common.machines, &s.common.material, bore.diameter);
    if Reach::DrilledFromBoth.in_halves(length, bore.diameter) {
        let first = format!("{before}, drill {drill} a little over half way at {speed}, clearing the chips often");
        return [first, ", drill the other half".into()];
    }
    [format!("{before}, drill {drill} through at {speed}, clearing the chips often"), String::new()]
}

fn fit(design: &mut Design, s: &Spec) {
    let mark =
        if s.lean().as_degrees() == 0.0 { "any line along it" } else { "the line that lies farthest along the tube" };
    let size = |l: Length| show::length_both(l.rounded(), s.common.header.unit);
    let lies = if s.grooved() {
        format!(
            "lies flush all round; then file a chamfer {} x 45° on it, all round, for the weld",
            size(super::groove(s))
        )
    } else {
        format!("stands out by {} all round", size(s.proud()))
    };
    design
        .step("bench", format!(
            "Print {}-template.pdf at true size, hold its bars against a rule, cut the outline out and wrap it round the sleeve, its left edge along {mark}; it closes on itself and shows both ends (the table beside says the same). Scribe, saw and file both ends. Try it in the hole: its edge {lies}.",
            s.common.header.stem
        ))
        .table(sizes::ENDS_TABLE);
}

fn weld(design: &mut Design, s: &Spec) {
    let unit = s.common.header.unit;
    let what = super::weld(s);
    let proud = show::length_both(s.proud().rounded(), unit);
    let flush = match (s.proud() > Length::ZERO, s.bore.is_some()) {
        (true, true) => format!("{proud} out at each end, where the tube lies farthest out"),
        (true, false) => format!("its chamfer outwards, {proud} out"),
        (false, true) => "flush at both ends".into(),
        (false, false) => "its chamfer outwards, flush".into(),
    };
    let ends = if s.bore.is_some() { "Slide the sleeve in" } else { "Lay the plug in" };
    design.step(
        "bench",
        format!("Strip paint and scale 30 mm (1-3/16 in) round the hole, zinc 100 mm (4 in). {ends}, {flush}; it goes in by hand."),
    );
    if s.grooved() {
        welded::groove(design, &s.common, &what, super::groove(s));
    } else if s.bore.is_some() {
        welded::weld(design, &s.common, &what);
    } else {
        welded::weldable(design, &s.common, &what);
        welded::filler(design, &s.common, &what, "the plug, the groove all round".into(), s.tube.wall.value);
        let zinc = s.common.coating.as_ref().is_some_and(|c| c.zinc);
        common::weld_steps(design, what.what, zinc, welded::preheated(&s.common, &what));
        design.step("welder", "The weld fills the groove that chamfer and wall make, all round, in four quarters, each opposite the one before; ground flush where something lies on it.");
    }
    let bolt = match (&s.bolt, &s.bore) {
        (Some(bolt), Some(_)) => format!(
            " Try the bolt {}; where it binds, run the drill {} through again.",
            bolt.thread,
            bore_drill(design, s)
        ),
        _ => String::new(),
    };
    let faces = faces(s);
    design.step("bench", format!("Let it cool. Look at the weld all round: no pore, no gap, else water finds it; wet it with oil and chalk to be sure.{bolt}{faces}"));
}

/// What is ground after welding, and how what is clamped meets the end.
fn faces(s: &Spec) -> String {
    let unit = s.common.header.unit;
    if s.grooved() {
        return " Grind the weld level where a washer or a part lies on it, no deeper: the throat lies in the chamfer, and the sleeve's face itself carries the bolt.".into();
    }
    if s.bore.is_none() {
        return String::new();
    }
    let clamped = s.bolt.as_ref().map_or_else(String::new, |_| {
        if s.lean() != Angle::ZERO && !s.fitted {
            let far = (s.proud() + s.outside.value * s.lean().tan().abs()).rounded();
            return format!(
                " Washers and what is clamped bear on the sleeve's end, square to the bolt; it stands {} off the tube on one side and {} on the other: nothing that is clamped lies on the tube as well.",
                show::length_both(s.proud().rounded(), unit),
                show::length_both(far, unit)
            );
        }
        let wide = s.outside.value + super::weld_leg(s) * 2.0 + by_unit(unit, 2.0, 1.0 / 16.0);
        format!(
            " Washers and what is clamped bear on the sleeve's end, {} off the tube. A part that is to lie on the tube as well gets a recess over sleeve and weld, {} wide and that deep.",
            show::length_both(s.proud().rounded(), unit),
            show::length_both(common::in_whole(wide, unit), unit)
        )
    });
    format!(" Leave the fillet as it is welded: ground down it does not carry.{clamped}")
}
