//! The cup plate as geometry, what the laser cuts of it, and the order of work.

use crate::families::common;
use crate::families::common::bolt_length::Stack;
use crate::families::common::bolted::{self, Bolted};
use crate::families::common::printed::{self, Print};
use crate::families::common::welded::{self, Weld};
use crate::families::common::{Cut, Head, Pace, hardening, location, ordered, packed};
use crate::families::cone::strength::Forces;
use crate::formulas::step_drill::{self, Land, StepDrill};
use crate::formulas::uncertainty::Instrument;
use crate::record::design::{Design, Table, Value};
use crate::record::key::Size;
use crate::record::show;
use crate::shape::{Bored, Circle, Contour, Cutting, Flat, FlatHole, Mark, Path, Point, ShapeError, Turn};
use crate::shop::by_unit;
use crate::standards::processes::{self, Process};
use crate::units::{Angle, Length, LengthUnit};

use super::entry_face::{hole_reach, on_entry_face};
use super::read::{self, Dowels, Edge, Hole, Plate, Spec};
use super::route::{self, Route};
use super::seat_mouth;
use super::sizes;
use super::strength::{around, weld_line};

/// Size of the crosses that mark drilled centres.
const CROSS: Length = Length::mm(4.0);

fn outline(plate: &Plate) -> Result<Contour, ShapeError> {
    match plate {
        Plate::Rectangle { length, width, corner } => {
            let corner = corner.as_ref().map_or(Length::ZERO, |c| c.value);
            Contour::rectangle(length.value, width.as_ref().unwrap_or(length).value, corner)
        }
        Plate::Round(diameter) => Contour::circle(Circle::new(Point::ORIGIN, diameter.value)?),
    }
}

/// The finished plate; its top face is the entry face.
pub fn flat(s: &Spec) -> Result<Flat, ShapeError> {
    let t = s.thickness.value;
    let mut holes = vec![main_hole(s)?];
    if let Some(m) = &s.mounting {
        for (x, y) in m.centres() {
            holes.push(FlatHole::Bored(Bored::through(Point::new(x, y), m.hole, t)?));
        }
        if let Some(dowels) = &m.dowels {
            for (x, y) in dowels.centres() {
                holes.push(FlatHole::Bored(Bored::through(Point::new(x, y), dowels.diameter.value, t)?));
            }
        }
    }
    Flat::new(outline(&s.plate)?, t, holes)
}

fn main_hole(s: &Spec) -> Result<FlatHole, ShapeError> {
    let (t, centre) = (s.thickness.value, Point::ORIGIN);
    Ok(match &s.hole {
        Hole::Slot { width, length, direction, .. } => FlatHole::Slot {
            centre,
            width: width.value,
            length: length.value,
            direction: on_entry_face(direction.as_ref()),
        },
        Hole::Round { diameter, edge, .. } => FlatHole::Bored(rimmed(diameter.value, edge, t)?),
        Hole::Stepped { drill, stop, .. } => {
            let corners: Vec<(Length, Length)> =
                drill.lands(stop.value, t).iter().flat_map(|l| [(l.from, l.diameter), (l.to, l.diameter)]).collect();
            FlatHole::Bored(Bored::from_corners(centre, &corners)?)
        }
        Hole::Turned { small, half_angle, .. } => {
            let mouth = seat_mouth(small.value, half_angle.value, t);
            FlatHole::Bored(Bored::from_corners(centre, &[(Length::ZERO, mouth), (t, small.value)])?)
        }
    })
}

/// A round hole with its entry rim broken.
pub fn rimmed(diameter: Length, edge: &Edge, t: Length) -> Result<Bored, ShapeError> {
    let at = |d: Length, depth: Length| Point::new(d / 2.0, depth);
    let path = match edge {
        Edge::Sharp => Path::start(at(diameter, Length::ZERO)),
        Edge::Chamfer(c) => Path::start(at(diameter + c.value * 2.0, Length::ZERO)).line_to(at(diameter, c.value)),
        Edge::Radius(r) => {
            let centre = at(diameter + r.value * 2.0, r.value);
            Path::start(at(diameter + r.value * 2.0, Length::ZERO)).arc_to(
                at(diameter, r.value),
                centre,
                Turn::Clockwise,
            )
        }
    };
    Bored::from_profile(Point::ORIGIN, path.line_to(at(diameter, t)).open()?)
}

/// What the laser cuts. A stepped hole is only marked, unless a pilot is asked for; a hole that it does not hold is cut under
/// size; one that is too small for the plate is a cross on the layer of marks, and is drilled.
pub fn cutting(s: &Spec, main: Option<Route>) -> Result<Cutting, ShapeError> {
    let circle = |centre, d| Contour::circle(Circle::new(centre, d)?);
    let (mut holes, mut marks) = (Vec::new(), Vec::new());
    let t = s.thickness.value;
    match &s.hole {
        Hole::Round { diameter, .. } => match main.map_or(Some(diameter.value), |route| route.cut) {
            Some(cut) => holes.push(circle(Point::ORIGIN, cut)?),
            None => marks.push(Mark::Cross { centre: Point::ORIGIN, size: CROSS }),
        },
        Hole::Slot { width, length, direction, .. } => {
            let cut = main.and_then(|route| route.cut).unwrap_or(width.value);
            let left = width.value - cut;
            let along = on_entry_face(direction.as_ref());
            holes.push(Contour::slot(Point::ORIGIN, cut, length.value - left, along)?);
        }
        Hole::Stepped { pilot: Some(pilot), .. } => holes.push(circle(Point::ORIGIN, pilot.value)?),
        Hole::Stepped { drill, .. } => {
            marks.push(Mark::Cross { centre: Point::ORIGIN, size: CROSS });
            if let Some(largest) = drill.steps.last() {
                marks.push(Mark::Circle(Circle::new(Point::ORIGIN, *largest)?));
            }
        }
        Hole::Turned { .. } => match main.and_then(|route| route.cut) {
            Some(cut) => holes.push(circle(Point::ORIGIN, cut)?),
            None => marks.push(Mark::Cross { centre: Point::ORIGIN, size: CROSS }),
        },
    }
    if let Some(m) = &s.mounting {
        for (x, y) in m.centres() {
            let centre = Point::new(x, y);
            if processes::can_be_cut(m.hole, t) {
                holes.push(circle(centre, m.hole)?);
            } else {
                marks.push(Mark::Cross { centre, size: CROSS });
            }
        }
    }
    for (x, y) in s.mounting.iter().flat_map(|m| &m.dowels).flat_map(Dowels::centres) {
        marks.push(Mark::Cross { centre: Point::new(x, y), size: CROSS });
    }
    marks.extend(entry_mark(s).map(|(from, to)| Mark::Line { from, to }));
    Ok(Cutting::new(outline(&s.plate)?, holes, marks)?.numbered(&s.common.header.stem))
}

/// Length of each of the two lines of the mark.
const MARK: Length = Length::mm(5.0);

/// The mark on the entry face: two lines that meet towards the hole, where there is room for them; for a slot beside its
/// end, so that it points along it.
pub fn entry_mark(s: &Spec) -> impl Iterator<Item = (Point, Point)> {
    let along = match &s.hole {
        Hole::Slot { direction, .. } => on_entry_face(direction.as_ref()),
        _ => Angle::degrees(90.0),
    };
    let place = (0..8).map(|eighth| along + Angle::degrees(45.0 * f64::from(eighth))).find_map(|a| room_for_mark(s, a));
    place.into_iter().flat_map(|(a, at)| {
        let end = |turn: f64| {
            let a = a + Angle::degrees(turn);
            Point::new(at.x() + MARK * a.cos(), at.y() + MARK * a.sin())
        };
        [(at, end(30.0)), (at, end(-30.0))]
    })
}

/// Where the mark's point goes in that direction from the hole, if it stays clear of every edge by its own length.
fn room_for_mark(s: &Spec, a: Angle) -> Option<(Angle, Point)> {
    let (x, y) = s.plate.extent();
    let (cos, sin) = (a.cos(), a.sin());
    let edge = match &s.plate {
        Plate::Round(d) => d.value / 2.0,
        Plate::Rectangle { .. } => {
            let to = |half: Length, share: f64| {
                if share.abs() > 1e-9 { half / share.abs() } else { Length::mm(f64::INFINITY) }
            };
            to(x / 2.0, cos).min(to(y / 2.0, sin))
        }
    };
    let hole = hole_reach(s, a);
    let at = (hole + edge - MARK) / 2.0;
    let middle = at + MARK / 2.0;
    let near = |(cx, cy): &(Length, Length)| (*cx - middle * cos).hypot(*cy - middle * sin);
    let bolts = s.mounting.iter().all(|m| m.centres().iter().all(|c| near(c) > m.hole / 2.0 + MARK * 2.0));
    let dowels = s
        .mounting
        .iter()
        .flat_map(|m| &m.dowels)
        .all(|d| d.centres().iter().all(|c| near(c) > d.diameter.value / 2.0 + MARK * 2.0));
    (edge - hole >= MARK * 2.0 && bolts && dowels).then(|| (a, Point::new(at * cos, at * sin)))
}

/// Records the drill, its lands and the depths to stop at.
pub fn stepped_sizes(design: &mut Design, s: &Spec) {
    let Hole::Stepped { drill, stop, step_height, tip_angle, pilot } = &s.hole else { return };
    let t = s.thickness.value;
    design.computed(&sizes::STEPS, Value::Text(said(&drill.steps, s.common.header.unit)), "as written");
    design.given_length(&read::STEP_HEIGHT, step_height);
    match tip_angle {
        Some(angle) => {
            design.given(&read::TIP_ANGLE, angle, Value::Angle);
        }
        None => design.assumed(&sizes::TIP_ANGLE, Value::Angle(drill.tip_angle), "usual twist drill point"),
    }
    design.given_length(&read::STOP_DEPTH, stop);
    if let Some(pilot) = pilot {
        design.given_length(&read::PILOT, pilot);
    }
    let lands = drill.lands(stop.value, t);
    if let Some(first) = lands.first() {
        design.computed_length(
            &sizes::HOLE_DIAMETER.called("hole diameter at the entry face"),
            first.diameter,
            "largest working step",
        );
        common::plus_minus(design, &sizes::HOLE_DIAMETER, step_drill::SIZE_HELD);
    }
    if let Some(last) = lands.last() {
        design.computed_length(&sizes::THROUGH_DIAMETER, last.diameter, "the land at the far face");
    }
    design.computed_length(&sizes::TIP_LENGTH, drill.tip_length(), "d1/(2 tan(tip/2))");
    design.computed_length(&sizes::REACH, drill.reach(stop.value), "stop depth + steps + tip");
    if let Some(angle) = drill.envelope_half_angle() {
        design.computed(&sizes::ENVELOPE_HALF_ANGLE, Value::Angle(angle), "atan(step in diameter/(2 step height))");
    }
    design.tables.push(lands_table(&lands, drill, t));
    common::plus_minus(design, &sizes::STOP_DEPTH, STOP_BY_MARK);
}

/// Diameters in one line.
fn said(steps: &[Length], unit: LengthUnit) -> String {
    let numbers: Vec<String> = steps.iter().map(|d| show::length_number(*d, unit)).collect();
    format!("{} {}", numbers.join(", "), show::unit_name(unit))
}

/// How well a depth is kept with a depth stop or a mark on the drill.
/// Source: common practice, no source.
const STOP_BY_MARK: Length = Length::mm(0.3);

fn lands_table(lands: &[Land], drill: &StepDrill, thickness: Length) -> Table {
    let through = |land: &Land| if land.to >= thickness { "comes out at the far face" } else { "ends in the plate" };
    let row = |land: &Land| {
        vec![
            Value::Length(land.diameter),
            Value::Length(land.from.rounded()),
            Value::Length(land.to.rounded()),
            Value::Text(through(land).into()),
        ]
    };
    let mut rows: Vec<Vec<Value>> = lands.iter().map(row).collect();
    let unused = drill.steps.len().saturating_sub(lands.len());
    for diameter in drill.steps.iter().take(unused).rev() {
        rows.push(vec![
            Value::Length(*diameter),
            Value::Text("-".into()),
            Value::Text("-".into()),
            Value::Text("goes right through".into()),
        ]);
    }
    Table::new(
        sizes::LANDS_TABLE,
        "Stepped bore, depths from the entry face",
        &["step", "from", "to", "what it does"],
        rows,
    )
}

/// A turned seat: bored straight by less than its far face may become, then to its mouth with the compound slide.
fn turned_seat(design: &mut Design, s: &Spec, small: Length, half_angle: Angle, size: &dyn Fn(Length) -> String) {
    let unit = s.common.header.unit;
    let angle = show::value(&Value::Angle(half_angle), unit);
    let rough = s.common.machines.turn(s.common.machines.cutting(&s.common.material).rough, small);
    let rough = common::spindle(design, "boring", rough, Cut::point(&s.common.machines, &s.common.material));
    let finish = boring(design, s, seat_mouth(small, half_angle, s.thickness.value));
    let straight = route::bored_straight(design, small, unit);
    let text = format!(
        "{} Bore {} through at {rough}, set the compound slide to {angle} from the axis, bore the seat at {finish} until its mouth measures as below: the mouth is held, the far face follows from the plate as it is.",
        on_the_face_plate(s, size),
        size(straight)
    );
    design.step("lathe", text).measure(&sizes::SEAT_MOUTH, "calliper");
}

/// The bolts as they are drawn tight; none where no thread is known or the plate is only printed.
pub fn clamped(s: &Spec) -> Option<Bolted<'_>> {
    let mounting = s.mounting.as_ref().filter(|_| !s.common.material.printed)?;
    let count = mounting.centres().len();
    let stack = Stack {
        part: s.thickness.value + packed::thickness(mounting.packing.as_ref()),
        wall: s.frame_wall.as_ref().map(|w| w.value),
        wall_is: ("wall of the frame", read::FRAME_WALL.name),
        washers: 2,
        thread: None,
    };
    let tapped_instead = Some(&s.frame_material);
    Some(Bolted {
        head: Head::Hex,
        class: mounting.steel.class,
        thread: mounting.size?,
        count,
        into: None,
        stack,
        tapped_instead,
    })
}

/// The order of work.
pub fn operations(design: &mut Design, s: &Spec, main: Option<Route>, forces: Option<&Forces>) {
    let unit = s.common.header.unit;
    let size = |l: Length| show::length_both(l.rounded(), unit);
    if s.common.material.printed {
        as_printed(design, s);
        return stood_on_its_cone(design, s);
    }
    blank(design, s, main, &size);
    small_holes(design, s);
    match &s.hole {
        Hole::Round { diameter, edge, .. } => {
            to_size(design, s, diameter.value, main, &size);
            rim(design, edge, &size);
        }
        Hole::Slot { edge, .. } => {
            mill(design, main, &size);
            last(design, &sizes::HOLE_DIAMETER, "calliper");
            last(design, &sizes::SLOT_LENGTH, "calliper");
            rim(design, edge, &size);
        }
        Hole::Stepped { drill, stop, pilot, .. } => {
            let widest = drill.steps.last().copied().unwrap_or(Length::ZERO);
            // A step drill cuts at its widest step with its whole edge: half the speed of a twist drill.
            let slow = s.common.machines.drill(s.common.material.cutting(false).drill * 0.5, widest);
            let speed = common::spindle(design, "step drill", slow, Cut::StepDrill);
            let start = start(design, s, drill, pilot.as_ref().map(|p| p.value));
            drilling(design, s, drill, stop.value, start, speed);
        }
        Hole::Turned { small, half_angle, .. } => {
            turned_seat(design, s, small.value, half_angle.value, &size);
            design.step(
                "bench",
                "Blue the cone, turn it in the seat: at least 70 per cent of the seat must show the colour.",
            );
        }
    }
    if s.common.material.hardened {
        hardening::harden(design, &s.common.material, &common::sizes::HARDNESS, "the plate", None);
        design
            .step("grinder", "Lap or grind the entry face flat: a plate warps in hardening. Measure the hole again: it moves by up to a thousandth of its size, and the seat height with it.")
            .measure(&sizes::HOLE_DIAMETER, "bore gauge or calliper");
    }
    let fixed = design.operations.len();
    if s.mounting.is_none() {
        let weld = Weld {
            what: "cup plate",
            onto: &s.frame_material,
            assumed: !s.frame_written,
            line_load: forces.map(|f| weld_line(s, f)),
            load_key: "seat_load",
            thinner: Some(s.thickness.value),
            runs: around(s),
        };
        welded::weld(design, &s.common, &weld);
        design.fixed_from(fixed);
    }
    stood_on_its_cone(design, s);
    let fixed = design.operations.len();
    bolted_on(design, s);
    // The bolts hold the plate while both holes are drilled through it into the frame.
    if let Some(dowels) = s.mounting.as_ref().and_then(|m| m.dowels.as_ref()) {
        let d = dowels.diameter.value;
        location::dowel_step(design, d, unit, d - dowel_reaming(unit));
    }
    design.fixed_from(fixed);
}

/// A printed plate comes out of the printer with its holes and its rim.
fn as_printed(design: &mut Design, s: &Spec) {
    let (x, y) = s.plate.extent();
    let print = Print { what: "plate", lies: "flat, entry face up", extents: (x, y, s.thickness.value), tells: false };
    let measured = [
        &sizes::THICKNESS,
        &sizes::LENGTH,
        &sizes::WIDTH,
        &sizes::DIAMETER,
        &sizes::HOLE_DIAMETER,
        &sizes::SLOT_LENGTH,
        &sizes::SEAT_MOUTH,
        &sizes::MOUNTING_HOLE,
    ];
    let known: Vec<_> =
        measured.into_iter().filter(|size| design.dimension(size).is_some_and(|d| d.limits.is_some())).collect();
    let step = printed::step(design, &s.common, &print);
    for size in known {
        step.measure(size, "calliper");
    }
}

/// The plate on its cone, which tells the seat height.
fn stood_on_its_cone(design: &mut Design, s: &Spec) {
    if s.mate.is_none() {
        return;
    }
    let text = match &s.hole {
        Hole::Slot { .. } => {
            "Stand the cone on a flat plate and set the cup plate on it, entry face down, the cone in the middle of the slot. It touches in two places and rocks along the slot: prop both ends of the slot up, the same height under each, until the entry face stands level along it and the cone still touches both edges. Measure from the flat plate up to the entry face on both sides beside the cone; both must agree."
        }
        _ => {
            "Stand the cone on a flat plate and set the cup plate on it, entry face down. Measure from the flat plate up to the entry face at three places; all three must agree."
        }
    };
    design.step("bench", text).measure(&sizes::GAP_TO_CROSSBAR, "depth micrometer or gauge blocks");
}

/// The frame is drilled through the plate, and the plate bolted to it.
fn bolted_on(design: &mut Design, s: &Spec) {
    let Some((bolted, m)) = clamped(s).zip(s.mounting.as_ref()) else { return };
    let drill = common::drill(m.hole, s.common.header.unit);
    let text = format!(
        "When the plate sits where it belongs: mark the frame through its holes, drill the frame {drill}, deburr."
    );
    design.step("bench", text).tool(format!("twist drill {drill}"));
    packed::step(design, m.packing.as_ref(), "plate");
    bolted::step(design, &bolted, "plate");
}

/// The blank, and which face is which.
fn blank(design: &mut Design, s: &Spec, main: Option<Route>, size: &dyn Fn(Length) -> String) {
    let plate = format!("{} plate {}", hardening::bought(&s.common.material), size(s.thickness.value));
    ordered::plate(design, &s.common, s.thickness.value, s.common.header.count);
    design.tools.push(format!(
        "{} x {plate}, laser-cut from the DXF: layer CUT is cut, layer MARK only marked",
        s.common.header.count
    ));
    let order = match &s.hole {
        Hole::Slot { .. } if main.is_none_or(|route| route.last == Process::LaserCut) => {
            "Sizes in the DXF are finished sizes"
        }
        _ => "The outline in the DXF is of finished size, holes as cut",
    };
    design.step("laser cutter", format!("Order the blank in {plate}. {order}; the cutter allows for his own kerf."));
    let hand = match &s.hole {
        Hole::Slot { direction: Some(_), .. } => " From the other side the slot runs the other way.",
        _ => "",
    };
    let which = if entry_mark(s).next().is_some() {
        "The face with the mark of two lines is the entry face, the one that meets the cone; where the cutter did not mark, hold the blank as the drawing and the paper template show it and mark the face that looks at you."
    } else {
        "Hold the blank as the drawing and the paper template show it and mark the face that looks at you as the entry face, the one that meets the cone."
    };
    let hard = common::ordered::hard_edge(&s.common.material);
    design.step("bench", format!("{which}{hand} Deburr both faces.{hard}")).measure(&sizes::THICKNESS, "micrometer");
    received(design, s);
}

/// What comes from the cutter is measured before work goes into it: the outline, and the holes that are used as cut.
fn received(design: &mut Design, s: &Spec) {
    let holes = s.mounting.as_ref().is_some_and(|m| processes::can_be_cut(m.hole, s.thickness.value));
    let outline = [&sizes::LENGTH, &sizes::WIDTH, &sizes::DIAMETER];
    let cut = [&sizes::MOUNTING_HOLE, &sizes::MOUNTING_SPACING_X, &sizes::MOUNTING_SPACING_Y];
    for size in outline.into_iter().chain(cut.into_iter().filter(|_| holes)) {
        if design.dimension(size).is_some_and(|d| d.limits.is_some()) {
            last(design, size, "calliper");
        }
    }
}

/// Mounting holes that the laser only marks.
fn small_holes(design: &mut Design, s: &Spec) {
    let Some(m) = s.mounting.as_ref().filter(|m| !processes::can_be_cut(m.hole, s.thickness.value)) else { return };
    common::at_the_drill(design);
    let speed = common::drill_speed(design, &s.common.machines, &s.common.material, m.hole);
    let drill = common::drill(common::drill_within(design, &s.common, &sizes::MOUNTING_HOLE), s.common.header.unit);
    design
        .step(
            "drill press",
            format!(
                "Centre-punch the {} crosses of the mounting holes, drill a pilot hole, then {drill} through at {speed}; countersink lightly on both faces.",
                m.centres().len()
            ),
        )
        .measure(&sizes::MOUNTING_HOLE, "calliper")
        .tool("drill for the pilot")
        .tool(format!("twist drill {drill}"));
}

/// A slot that the laser does not hold: milled where it was cut under size. The shop has no milling machine.
fn mill(design: &mut Design, main: Option<Route>, size: &dyn Fn(Length) -> String) {
    let Some(cut) = main.filter(|route| route.last != Process::LaserCut).and_then(|route| route.cut) else { return };
    let [width, length] = [&sizes::HOLE_DIAMETER, &sizes::SLOT_LENGTH].map(|size| common::between(design, size));
    design.step("milling machine, or other maker", format!(
        "The laser has cut the slot {} wide. Clamp the plate on parallels clear of the slot, entry face up, set the cut slot true to the table, mill both sides and ends: {width} wide, {length} long; the first cut goes under the hard skin.",
        size(cut)
    ));
}

/// How a plate is held at the lathe, whose rim is too thin for jaws: on the face plate.
fn on_the_face_plate(s: &Spec, size: &dyn Fn(Length) -> String) -> String {
    let (x, y) = s.plate.extent();
    let swing = match &s.plate {
        Plate::Round(d) => d.value,
        Plate::Rectangle { .. } => x.hypot(y),
    };
    let whole = by_unit(s.common.header.unit, 1.0, 1.0 / 16.0);
    let swing = whole * (swing / whole).ceil();
    let held = if s.mounting.is_some() {
        "with screws through its mounting holes"
    } else {
        "with three clamps clear of the hole"
    };
    format!(
        "Hold the plate on the face plate {held}, on parallels as high as the tool runs out, entry face out, the hole true; jaws do not hold so thin a rim. Turn it by hand once before the spindle starts: the lathe must swing {}; balance what is not round.",
        size(swing)
    )
}

/// Speed of the lathe for boring the plate to that diameter.
fn boring(design: &mut Design, s: &Spec, d: Length) -> Pace {
    let setting = s.common.machines.turn(s.common.machines.cutting(&s.common.material).finish, d);
    common::spindle(design, "boring", setting, Cut::point(&s.common.machines, &s.common.material))
}

/// A round hole brought to size, and measured before its rim is broken.
fn to_size(design: &mut Design, s: &Spec, d: Length, main: Option<Route>, size: &dyn Fn(Length) -> String) {
    let limits = design.dimension(&sizes::HOLE_DIAMETER).and_then(|d| d.limits.as_ref()).map(|l| l.upper - l.lower);
    let proves = s.common.gauge(Instrument::Calliper).length() * PROVES;
    let coarse = limits.is_some_and(|width| width >= proves.rounded());
    let with = if coarse {
        "calliper, in the bore below the rim"
    } else {
        "bore gauge or plug gauge, in the bore below the rim"
    };
    let start = |route: &Route| match route.cut {
        Some(cut) => format!("The laser has cut {}. ", size(cut)),
        None => "Centre-punch the cross, drill under size in steps. ".to_string(),
    };
    let chuck = format!("{} Set it by the cut hole", on_the_face_plate(s, size));
    match main.map(|route| (route, route.last)) {
        Some((route, Process::Drilled)) => {
            common::at_the_drill(design);
            let speed = common::drill_speed(design, &s.common.machines, &s.common.material, d);
            let drill =
                common::drill(common::drill_within(design, &s.common, &sizes::HOLE_DIAMETER), s.common.header.unit);
            design
                .step("drill press", format!("{}Drill {drill} through at {speed}.", start(&route)))
                .tool(format!("twist drill {drill}"));
        }
        Some((route, Process::Reamed)) => {
            let bored = d - reaming(s.common.header.unit);
            let slow = common::reaming_speed(design, &s.common.machines, &s.common.material, d);
            let text = format!(
                "{}{chuck}. Bore to {} at {}, then ream to size at {slow}, with oil.",
                start(&route),
                size(bored),
                boring(design, s, d)
            );
            let reamer = common::reamer(design, &sizes::HOLE_DIAMETER, d);
            design.step("lathe", text).tool(reamer);
        }
        Some((route, Process::Bored)) => {
            let text = format!(
                "{}{chuck}. Bore to size at {}; the first cut goes under the hard skin.",
                start(&route),
                boring(design, s, d)
            );
            design.step("lathe", text);
        }
        _ => {}
    }
    last(design, &sizes::HOLE_DIAMETER, with);
}

/// Metal on the diameter that a hand reamer takes. Source: machinery handbooks, from memory.
const fn dowel_reaming(unit: LengthUnit) -> Length {
    by_unit(unit, 0.2, 0.008)
}
/// Metal on the diameter that a reamer takes. Source: machinery handbooks (0.2 to 0.4 mm at this size), from memory.
const fn reaming(unit: LengthUnit) -> Length {
    by_unit(unit, 0.3, 0.012)
}
/// Width of tolerance that an instrument proves, over its U: U either way is less than a third of it.
/// Source: common practice, no source (0.2 mm for a calliper of 0.03 mm).
const PROVES: f64 = 20.0 / 3.0;

/// Pieces of one drawing are treated alike; another cup of the set may have another rim, and its own drawing says so.
const ALIKE: &str = "every piece of this drawing the same";

fn rim(design: &mut Design, edge: &Edge, size: &dyn Fn(Length) -> String) {
    let text = match edge {
        Edge::Sharp => format!("Leave the rim on the entry face sharp, only free of burr; {ALIKE}."),
        Edge::Chamfer(c) => format!(
            "Chamfer the rim on the entry face {} x 45 degrees, {ALIKE}: a deeper chamfer sits lower by its depth.",
            size(c.value)
        ),
        Edge::Radius(r) => format!("Round the rim on the entry face to {}, {ALIKE}.", size(r.value)),
    };
    design.step("bench", text);
}

fn last(design: &mut Design, size: &Size, with: &'static str) {
    if let Some(operation) = design.operations.last_mut() {
        operation.measure(size, with);
    }
}

/// The most on the diameter that the point of a step drill takes out of the full at one go in a shop's drill press.
/// Source: common practice, no source.
const FIRST_BITE: Length = Length::mm(14.0);

/// How the hole is begun: from the pilot, opened first where the drill's first step is too wide for it.
fn start(design: &mut Design, s: &Spec, drill: &StepDrill, pilot: Option<Length>) -> (String, Vec<String>) {
    let unit = s.common.header.unit;
    let size = |l: Length| show::length_both(l.rounded(), unit);
    let first = drill.steps.first().copied().unwrap_or(Length::ZERO);
    let begun = match pilot {
        Some(_) => "Start in the pilot hole.".to_string(),
        None => "Centre-punch the cross, drill a pilot hole a little larger than the drill's web.".to_string(),
    };
    let mut tools: Vec<String> = pilot.is_none().then(|| "drill for the pilot".to_string()).into_iter().collect();
    let from = pilot.unwrap_or(Length::ZERO);
    if first - from <= FIRST_BITE {
        return (begun, tools);
    }
    let wide = common::in_whole(first - FIRST_BITE / 2.0, unit);
    if wide > LARGEST_TWIST {
        tools.push("saw or boring bar to open the hole with".into());
    } else {
        tools.push(format!("twist drill {}", common::drill(wide, unit)));
    }
    let how = if wide > LARGEST_TWIST {
        format!("saw it out, or bore it on the lathe's face plate at {}", boring(design, s, wide))
    } else {
        let pace = common::drill_speed(design, &s.common.machines, &s.common.material, wide);
        format!("open it with a twist drill at {pace}")
    };
    let to = if wide > LARGEST_TWIST { size(wide) } else { common::drill(wide, unit) };
    let text =
        format!("{begun} The drill's first step of {} is too wide for that: {how}, to about {to} first.", size(first));
    (text, tools)
}

/// Largest twist drill that a small shop has. Source: common practice, no source.
const LARGEST_TWIST: Length = Length::mm(25.0);

fn drilling(
    design: &mut Design,
    s: &Spec,
    drill: &StepDrill,
    stop: Length,
    (start, mut tools): (String, Vec<String>),
    speed: Pace,
) {
    let size = |l: Length| show::length_both(l.rounded(), s.common.header.unit);
    common::at_the_drill(design);
    if let [least, .., most] = drill.steps.as_slice() {
        tools.push(format!("step drill, {} to {}", size(*least), size(*most)));
    }
    let step = design.step(
        "drill press",
        format!(
            "Clamp the plate on a hollow support, entry face up, {} of room below. {start} The step drill goes at {speed} at most; feed slowly with oil.",
            size(drill.reach(stop))
        ),
    );
    step.tools = tools;
    design.step("drill press", format!(
        "With the step drill go down step by step and stop when the largest step, {}, is {} below the entry face. Set the depth stop on a scrap first: touch the step's edge on the face, then feed by the stop depth.",
        size(drill.steps.last().copied().unwrap_or(Length::ZERO)), size(stop)
    )).measure(&sizes::STOP_DEPTH, "depth gauge").measure(&sizes::HOLE_DIAMETER, "calliper").table(sizes::LANDS_TABLE);
    let text = match s.mate.as_ref().and_then(|mate| carrying_edge(s, drill, stop, mate)) {
        Some((diameter, depth)) => format!(
            "Take the burr off both faces. The cone rests on the edge of {}, {} below the entry face, which the step drill has left: only free of burr, by a turn of a scraper, never chamfered; {ALIKE}.",
            size(diameter),
            size(depth)
        ),
        None => format!("Take the burr off both faces; leave the entry edge sharp, {ALIKE}."),
    };
    design.step("bench", text);
}

/// Diameter and depth of the inner edge that carries the cone; `None` where the entry edge does.
fn carrying_edge(s: &Spec, drill: &StepDrill, stop: Length, mate: &read::Mate) -> Option<(Length, Length)> {
    let depth = super::seat::contact_depth(s, &mate.cone);
    let lands = drill.lands(stop, s.thickness.value);
    lands.iter().skip(1).find(|land| (land.from - depth).abs() < Length::um(1.0)).map(|land| (land.diameter, land.from))
}
