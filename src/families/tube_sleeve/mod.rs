//! A short tube that is welded through a frame tube, so that water stays out and a bolt does not crush it; or the plug that closes a
//! hole for good.

mod checks;
mod levers;
pub mod read;
pub mod sizes;
mod steps;

use crate::description::Fields;
use crate::families::common::bolt_length::Stack;
use crate::families::common::bolted::Bolted;
use crate::families::common::coated::{self, Order};
use crate::families::common::welded::{self, Weld};
use crate::families::common::{self, Head, Side};
use crate::families::{Family, Workplace};
use crate::formulas::{MechanicsError, strength};
use crate::record::design::{Design, Table, Value};
use crate::record::drawing::{self, Drawing, View};
use crate::record::key::Given;
use crate::shape::{Body, Contour, Cutting, Mark, Point, ShapeError, Solid, Turned};
use crate::shop::by_unit;
use crate::units::{Angle, Force, Length};

use read::Spec;

/// The family's record.
pub const FAMILY: Family = Family {
    name: "tube-sleeve",
    about: "a short tube welded through a frame tube for a bolt, or the plug that closes a hole",
    keys: read::KEYS,
    work,
    made: |_, _, _| (),
    remedies: levers::REMEDIES,
    long: false,
    template: include_str!("template.toml"),
    companions: &[],
};

fn work(fields: &Fields, place: &Workplace) -> Option<Design> {
    let spec = read::read(fields, place)?;
    let mut design = Design::new(spec.common.header.clone());
    let length = blank(&spec).map_err(|error| fields.problem_here(error.to_string())).ok()?;
    let length = sizes(&mut design, &spec, length);
    coated::record(&mut design, &spec.common);
    let solid = solid(&spec, length).map_err(|error| fields.problem_here(error.to_string())).ok()?;
    common::mass(&mut design, &spec.common.material, solid.volume(), spec.common.header.count);
    design.drawing = Some(drawing(&spec, &solid, length));
    design.solids.push(Solid::only(Body::Turned(solid)));
    if spec.fitted {
        ends(&mut design, &spec);
        design.wrap = wrap(&spec, length);
    }
    checks::checks(&mut design, &spec, length);
    steps::operations(&mut design, &spec, length);
    coat(&mut design, &spec);
    common::kept_apart(&mut design, &spec.common, common::Joint::Laid);
    Some(design)
}

/// Length of the blank: as far as the tube stands out at either end, and what stands out of it. A plug is as long as the wall is thick.
fn blank(s: &Spec) -> Result<Length, MechanicsError> {
    if s.bore.is_none() {
        return Ok(s.tube.wall.value + s.proud());
    }
    let farthest = s.tube.tube().meets(s.outside.value, Angle::degrees(s.lean().as_degrees().abs()), Angle::ZERO)?;
    Ok((farthest + s.proud()) * 2.0)
}

fn sizes(design: &mut Design, s: &Spec, length: Length) -> Length {
    design.given_length(&read::OUTSIDE_DIAMETER, &s.outside);
    if let Some(bore) = &s.bore {
        match &bore.written {
            Some(given) => design.given_length(&read::BORE, given),
            None => design.computed_length(&sizes::BORE, bore.diameter, bore.from),
        };
        let wall = (s.outside.value - bore.diameter) / 2.0;
        design.computed_length(&sizes::SLEEVE_WALL, wall, "(D - d)/2");
    }
    let formula = if s.bore.is_some() { "2 (H/2 + r sin b)/cos b + 2 x proud" } else { "wall + proud" };
    let length = design.computed_length(&sizes::LENGTH, length, formula);
    match &s.hole {
        Some(given) => design.given_length(&read::HOLE, given),
        None => {
            design.computed_length(&sizes::HOLE, s.hole(), "sleeve + 0.2 mm, to the next half millimetre or 1/32 in")
        }
    };
    if let Some(proud) = &s.proud {
        design.given_length(&read::PROUD, proud);
    }
    if s.grooved() {
        let formula = "throat of the weld, to the next 0.5 mm or 1/32 in; it leaves the thinner wall an edge";
        design.computed_length(&sizes::WELD_CHAMFER, groove(s), formula);
    }
    if let Some(lean) = &s.lean {
        design.given(&read::LEAN, lean, Value::Angle);
    }
    if let Some(load) = &s.side_load {
        design.given(&read::SIDE_LOAD, load, Value::Force);
    }
    design.written_length(&sizes::TUBE_THROUGH, &s.tube.through);
    if let Some(width) = &s.tube.width {
        design.written_length(&sizes::TUBE_WIDTH, width);
    }
    design.written_length(&sizes::TUBE_WALL, &s.tube.wall);
    if s.tube.material_written {
        design.computed(&sizes::TUBE_MATERIAL, Value::Text(s.tube.material.name.clone()), "as written");
    }
    if let Some(drain) = &s.tube.drain {
        design.written_length(&sizes::TUBE_DRAIN, drain);
    }
    if let Some(bolt) = &s.bolt {
        design.computed(&sizes::BOLT_THREAD, Value::Text(bolt.thread.to_string()), "as written");
        common::bolt_steel(design, &bolt.steel);
        common::standard_thread(design, &bolt.thread);
    }
    common::passes(design, &s.common, &sizes::OUTSIDE_DIAMETER, Side::Shaft, true);
    common::passes(design, &s.common, &sizes::BORE, Side::Hole, s.bolt.is_some());
    common::general_limits(design, &s.common, &[&sizes::LENGTH, &sizes::HOLE]);
    design.principal(&[&sizes::OUTSIDE_DIAMETER, &sizes::LENGTH]);
    length
}

fn solid(s: &Spec, length: Length) -> Result<Turned, ShapeError> {
    match &s.bore {
        Some(bore) if s.grooved() && !s.fitted => {
            let (b, r, c) = (bore.diameter.rounded() / 2.0, s.outside.value.rounded() / 2.0, groove(s));
            let zero = Length::ZERO;
            let corners = [(b, zero), (r - c, zero), (r, c), (r, length - c), (r - c, length), (b, length)];
            Turned::from_corners(&corners.map(|(r, z)| Point::new(r, z)))
        }
        Some(bore) => Turned::ring(bore.diameter.rounded(), s.outside.value.rounded(), length),
        None => {
            let r = s.outside.value.rounded() / 2.0;
            let zero = Length::ZERO;
            let corners = [(zero, zero), (r, zero), (r, length), (zero, length)];
            Turned::from_corners(&corners.map(|(r, z)| Point::new(r, z)))
        }
    }
}

fn drawing(s: &Spec, solid: &Turned, length: Length) -> Drawing {
    use drawing::Side::{Above, Left, Right};
    let title = if s.fitted { "Section of the blank, before its ends are filed" } else { "Section on the axis" };
    let outside = s.outside.value;
    let chamfer = if s.grooved() && !s.fitted { groove(s) } else { Length::ZERO };
    let end = outside - chamfer * 2.0;
    let mut view = View::section(title, solid)
        .diameter(&sizes::OUTSIDE_DIAMETER, length - chamfer, outside, Right)
        .axial(&sizes::LENGTH, (Length::ZERO, end), (length, end), Above);
    if chamfer > Length::ZERO {
        view = view.chamfer(&sizes::WELD_CHAMFER, Point::new(length - chamfer / 2.0, (outside - chamfer) / 2.0));
    }
    if let Some(bore) = &s.bore {
        view = view.diameter(&sizes::BORE, Length::ZERO, bore.diameter, Left);
    }
    Drawing { views: vec![view] }
}

/// The outline of a fitted sleeve, unrolled: round it by the angle from the line that lies farthest along the tube at the one end,
/// which lies opposite at the other; along it from end to end.
fn wrap(s: &Spec, length: Length) -> Option<Cutting> {
    /// Steps round the sleeve, degrees: at 40 mm the chord lies a hundredth of a millimetre beside the curve.
    const STEP: u32 = 3;
    let tube = s.tube.tube();
    let lean = Angle::degrees(s.lean().as_degrees().abs());
    let at = |around: f64| tube.meets(s.outside.value, lean, Angle::degrees(around)).ok();
    let farthest = at(0.0)?;
    let round = s.outside.value * std::f64::consts::PI;
    let corner = |i: u32, upper: bool| {
        let around = f64::from(i * STEP);
        let off = (farthest - at(if upper { around } else { 180.0 - around })?).rounded();
        Some(Point::new((round * (around / 360.0)).rounded(), if upper { length - off } else { off }))
    };
    let turns = 360 / STEP;
    let low = (0..=turns).map(|i| corner(i, false));
    let high = (0..=turns).rev().map(|i| corner(i, true));
    let corners = low.chain(high).collect::<Option<Vec<_>>>()?;
    // The line opposite, by which the paper is laid on straight.
    let half = (round / 2.0).rounded();
    let inside = length / 4.0;
    let mark = Mark::Line { from: Point::new(half, inside), to: Point::new(half, length - inside) };
    Cutting::new(Contour::polygon(&corners).ok()?, Vec::new(), vec![mark]).ok()
}

/// How much is filed off a fitted end, by the angle round the sleeve.
fn ends(design: &mut Design, s: &Spec) {
    let tube = s.tube.tube();
    let lean = Angle::degrees(s.lean().as_degrees().abs());
    let at = |around: f64| tube.meets(s.outside.value, lean, Angle::degrees(around)).ok();
    let Some(farthest) = at(0.0) else { return };
    let turn = std::f64::consts::PI * s.outside.value.as_mm() / 360.0;
    let row = |i: u32| {
        let around = f64::from(i) * 15.0;
        let off = (farthest - at(around)?).rounded();
        let along = Length::mm(turn * around).rounded();
        Some(vec![Value::Angle(Angle::degrees(around)), Value::Length(along), Value::Length(off)])
    };
    let title = "Filed off an end, from the line that lies farthest along the tube; the other end from the line opposite it, the same both ways round";
    let columns = ["angle round the sleeve", "along a strip of paper round it", "filed off"];
    design.tables.push(Table::new(sizes::ENDS_TABLE, title, &columns, (0..=12).filter_map(row)));
}

/// Leg of the weld round an end.
fn weld_leg(s: &Spec) -> Length {
    welded::leg_of(&s.common, &weld(s))
}

/// Depth of the chamfer that the weld fills where the sleeve lies flush.
fn groove(s: &Spec) -> Length {
    welded::groove_of(&s.common, &weld(s))
}

/// The weld round each end: half of the force across at each.
fn weld(s: &Spec) -> Weld<'_> {
    let line =
        |load: &Given<Force>| strength::ring_weld(load.value / 2.0, Length::ZERO, Force::ZERO, s.outside.value).ok();
    let wall = s.bore.as_ref().map(|bore| (s.outside.value - bore.diameter) / 2.0);
    Weld {
        what: if s.bore.is_some() { "sleeve" } else { "plug" },
        onto: &s.tube.material,
        assumed: !s.tube.material_written,
        line_load: s.side_load.as_ref().and_then(line),
        load_key: "side_load",
        thinner: wall.into_iter().chain([s.tube.wall.value]).reduce(Length::min),
        // A sleeve is welded at both ends; a leaning one meets the tube on a longer line, left out here.
        runs: s.outside.value * (std::f64::consts::PI * if s.bore.is_some() { 2.0 } else { 1.0 }),
    }
}

/// The bolt that clamps through the sleeve.
fn bolted<'a>(s: &'a Spec, length: Length) -> Option<Bolted<'a>> {
    let bolt = s.bolt.as_ref()?;
    let wall = bolt.clamped.as_ref().map(|c| c.value);
    let stack =
        Stack { part: length, wall, wall_is: ("parts beside the tube", "clamped in [bolt]"), washers: 2, thread: None };
    let (class, thread) = (bolt.steel.class, bolt.thread);
    Some(Bolted { head: Head::Hex, class, thread, count: 1, into: None, stack, tapped_instead: None })
}

/// The order for the coating: after welding the tube goes to the plater with its sleeve.
fn coat(design: &mut Design, s: &Spec) {
    if let Some(bolt) = &s.bolt {
        coated::passes(design, &s.common, &sizes::BORE, bolt.thread.major, "the bolt");
    }
    let wall = s.bore.as_ref().map_or(s.tube.wall.value, |b| (s.outside.value - b.diameter) / 2.0);
    coated::class_for(design, &s.common, wall);
    let grows = [(&sizes::BORE, Side::Hole)];
    let grows = if s.bore.is_some() { &grows[..] } else { &[] };
    coated::order(design, &s.common, &Order { sizes: grows, masked: "", welded: true, ..Order::default() });
}

/// What is left on the length for facing both ends.
fn facing(s: &Spec) -> Length {
    by_unit(s.common.header.unit, 2.0, 0.08)
}
