//! How a cone sits in the cup: contact, height, capture, play, friction.

use crate::design::{Design, Limits, Table, Value};
use crate::families::common;
use crate::families::cone::checks::FRICTIONS;
use crate::seating::{self, Corner, EdgeBreak};
use crate::show;
use crate::source::Confirmed;
use crate::standards::iso2768;
use crate::units::{Angle, Force, Length};

use super::read::{self, Hole, Mate, Spec};
use super::seat_mouth;

/// Rings within this height of the one that carries are counted as near: they will carry too once bedded in.
const NEAR: Length = Length::mm(0.05);
/// Lift for which the side play is given when none is asked for.
const USUAL_LIFT: Length = Length::mm(5.0);

/// The seat as recorded, for the checks.
pub struct Seat {
    pub height: Length,
    pub contact: Length,
    pub capture: Length,
    pub nose_above: Length,
    /// Diameter where the flank ends and the rounding of the nose begins.
    pub flank_end: Length,
    pub full_flank: bool,
    pub near: usize,
}

/// Records everything about the seat.
pub fn seat(design: &mut Design, s: &Spec, mate: &Mate) -> Seat {
    let cone = &mate.cone;
    design.given_text(&read::MATES, &mate.file);
    let corners = corners(s);
    let found = seating::seat(cone.base, cone.half_angle, &corners, NEAR);
    let (height, contact, corner, near) =
        found.map_or((Length::ZERO, Length::ZERO, 0, 0), |f| (f.height, f.contact_diameter, f.corner, f.near));
    let full_flank = matches!(&s.hole, Hole::Turned { half_angle, .. } if (half_angle.value - cone.half_angle).abs() < Angle::degrees(1.0 / 60.0));
    design.computed(
        "contact_edge",
        "where the cone touches",
        Value::Text(touching(&s.hole, corner, corners.len(), full_flank)),
        "the ring that asks for the greatest height carries",
    );
    let contact =
        design.computed_length("contact_diameter", "contact diameter", contact, "diameter of the ring that carries");
    let height = design.computed_length(
        "seat_height",
        "seat height over the cone's base",
        height,
        "max of (D - d)/(2 tan a) - depth, less the rim break",
    );
    design.computed_length(
        GAP,
        "gap to the face that the cone stands on",
        height + cone.foot_height(),
        "seat height + foot",
    );
    height_limits(design, height, cone);
    design.computed_length(
        "height_per_tenth",
        "seat height for 0.1 mm more hole",
        seating::height_for_hole(Length::mm(0.1), cone.half_angle),
        "-0.1 mm/(2 tan a)",
    );
    let nose_above = design.computed_length(
        "nose_above_plate",
        "nose beyond the far face",
        cone.height - height - s.thickness.value,
        "cone height - seat height - thickness",
    );
    let capture = design.computed_length(
        "capture_radius",
        "capture radius",
        capture(s, cone),
        "(hole - flat of the nose)/2, innermost ring where a shoulder can catch the nose",
    );
    let lift = design.length_or(&read::LIFT, s.lift.as_ref(), USUAL_LIFT, "a usual lift");
    design.computed_length(
        "side_play",
        "side play at that lift, in total",
        seating::side_play(lift, cone.half_angle),
        "2 x lift x tan a",
    );
    rim_effect(design, s, cone.base, cone.half_angle);
    friction_table(design, s, cone.half_angle);
    bedding(design, s, cone, contact, full_flank);
    design.principal(&["seat_height", "contact_diameter", "capture_radius"]);
    let flank_end = flank_end(cone);
    Seat { height, contact, capture, nose_above, flank_end, full_flank, near }
}

/// The rings of the bore on which the cone can rest.
pub fn corners(s: &Spec) -> Vec<Corner> {
    let sharp = |diameter, depth| Corner { diameter, depth, edge: EdgeBreak::Sharp };
    match &s.hole {
        Hole::Round { diameter: d, edge, .. } | Hole::Slot { width: d, edge, .. } => {
            vec![Corner { diameter: d.value, depth: Length::ZERO, edge: edge.as_break() }]
        }
        Hole::Stepped { drill, stop, .. } => {
            drill.lands(stop.value, s.thickness.value).iter().map(|l| sharp(l.diameter, l.from)).collect()
        }
        Hole::Turned { small, half_angle, .. } => {
            let t = s.thickness.value;
            vec![sharp(seat_mouth(small.value, half_angle.value, t), Length::ZERO), sharp(small.value, t)]
        }
    }
}

fn touching(hole: &Hole, corner: usize, count: usize, full_flank: bool) -> String {
    match hole {
        Hole::Turned { .. } if full_flank => "the whole seat, flank on flank".into(),
        Hole::Turned { .. } if corner == 0 => "the mouth of the seat: the cone is blunter than the seat".into(),
        Hole::Turned { .. } => "the small end of the seat: the cone is slimmer than the seat".into(),
        Hole::Stepped { .. } if corner == 0 => "the entry edge, the largest step".into(),
        Hole::Stepped { .. } if corner + 1 == count => "the innermost edge, the smallest step".into(),
        Hole::Stepped { .. } => format!("the edge of land {} of {count}", corner + 1),
        Hole::Slot { .. } => "both long edges of the entry rim, in two places".into(),
        Hole::Round { .. } => "the entry rim, all round".into(),
    }
}

/// Between which heights it sits for the limits of the hole and of the cone's base, the half-angle as drawn.
fn height_limits(design: &mut Design, height: Length, cone: &crate::families::cone::read::Spec) {
    let Some((Value::Length(nominal), Some(limits))) =
        design.dimension("hole_diameter").map(|d| (d.value.clone(), d.limits.clone()))
    else {
        return;
    };
    // The cone's own sheet holds its base to the general tolerance; a larger base lifts as a smaller hole does.
    let base = iso2768::general_tolerance(cone.common.general, cone.base).map_or(Length::ZERO, |t| t.value);
    let lower = height + seating::height_for_hole(limits.upper - nominal + base, cone.half_angle);
    let upper = height + seating::height_for_hole(limits.lower - nominal - base, cone.half_angle);
    let by = "limits of hole and cone base";
    let set = |design: &mut Design, key: &str, under: Length| {
        let (lower, upper) = ((under + lower).rounded(), (under + upper).rounded());
        design.limit(key, Limits { lower, upper, by: by.into(), confirmed: Confirmed::TwoOrMore });
    };
    set(design, "seat_height", Length::ZERO);
    set(design, GAP, cone.foot_height());
}

/// Key of the height of the entry face over the face that the cone stands on: what can be measured.
pub const GAP: &str = "gap_to_crossbar";

/// Sure capture: the entry ring, or the innermost ring where a shoulder wider than the nose radius could catch the nose.
pub fn capture(s: &Spec, cone: &crate::families::cone::read::Spec) -> Length {
    let flat = seating::nose_flat(cone.tip, cone.half_angle, cone.nose_radius());
    let ring = match &s.hole {
        Hole::Round { diameter, .. } => diameter.value,
        Hole::Slot { width, .. } => width.value,
        Hole::Turned { small, half_angle, .. } => seat_mouth(small.value, half_angle.value, s.thickness.value),
        Hole::Stepped { drill, stop, .. } => {
            let lands = drill.lands(stop.value, s.thickness.value);
            let catches =
                lands.windows(2).any(|w| matches!(w, [a, b] if (a.diameter - b.diameter) / 2.0 > cone.nose_radius()));
            let pick = if catches { lands.last() } else { lands.first() };
            pick.map_or(Length::ZERO, |l| l.diameter)
        }
    };
    seating::capture_radius(ring, flat)
}

/// Diameter at the upper end of the straight flank.
fn flank_end(cone: &crate::families::cone::read::Spec) -> Length {
    let tangent = cone.nose_radius() * (Angle::degrees(45.0) - cone.half_angle / 2.0).tan();
    cone.tip + tangent * (2.0 * cone.half_angle.sin())
}

/// What the rim break does to the height.
fn rim_effect(design: &mut Design, s: &Spec, base: Length, half_angle: Angle) {
    let (Hole::Round { diameter, edge, .. } | Hole::Slot { width: diameter, edge, .. }) = &s.hole else { return };
    let at =
        |edge| seating::height_on(base, half_angle, &Corner { diameter: diameter.value, depth: Length::ZERO, edge }).0;
    let drop = at(EdgeBreak::Sharp) - at(edge.as_break());
    design.computed_length(
        "rim_drop",
        "lower than with a sharp rim by",
        drop,
        "chamfer: its depth; radius: r (1 - cos a)/tan a + r (1 - sin a)",
    );
}

fn friction_table(design: &mut Design, s: &Spec, half_angle: Angle) {
    let load = s.seat_load.as_ref().map_or(Force::newtons(1000.0), |l| l.value);
    let row = |friction: f64| {
        let centring = seating::centring_force(load, half_angle, friction);
        let home = if centring > Force::ZERO { "slides home" } else { "hangs on the flank" };
        let release = seating::release_force(load, half_angle, friction);
        vec![
            Value::Number(friction),
            Value::Text(home.into()),
            Value::Force(centring),
            Value::Text(if release.is_some() { "sticks" } else { "comes free" }.into()),
            Value::Force(release.unwrap_or(Force::ZERO)),
        ]
    };
    design.tables.push(Table {
        key: "friction",
        title: format!(
            "Sliding home and coming off, {} on this seat",
            show::value(&Value::Force(load), s.common.header.unit)
        ),
        columns: ["friction", "coming down", "pull to the centre", "going up", "pull to free it beyond the weight"]
            .map(String::from)
            .into(),
        rows: FRICTIONS.iter().map(|f| row(*f)).collect(),
    });
}

fn bedding(design: &mut Design, s: &Spec, cone: &crate::families::cone::read::Spec, contact: Length, full_flank: bool) {
    let Some(load) = &s.seat_load else { return };
    design.given(&read::SEAT_LOAD, load, Value::Force);
    if full_flank {
        if let Hole::Turned { small, .. } = &s.hole {
            let pressure =
                seating::seat_pressure(load.value, contact.max(cone_reach(s, cone)), small.value.max(flank_end(cone)));
            design.computed(
                "seat_pressure",
                "mean pressure on the seat",
                Value::Stress(pressure),
                "P/(pi (D^2 - d^2)/4)",
            );
        }
        return;
    }
    let softer = match (s.common.material.yield_strength, cone.common.material.yield_strength) {
        (Some(a), Some(b)) => Some(a.min(b)),
        (a, b) => a.or(b),
    };
    let Some(softer) = softer else { return };
    if contact <= Length::ZERO {
        return;
    }
    let (least, most) = seating::bedding_in(load.value, contact, cone.half_angle, softer);
    design.computed_length(
        "bedding_least",
        "first loads bed a sharp rim in by at least",
        least,
        "q/(2.8 Re) x cos a, q = P/(pi d sin a)",
    );
    for material in [&s.common.material, &cone.common.material] {
        if material.yield_strength == Some(softer) {
            common::doubtful_strength(design, material);
        }
    }
    design.computed_length("bedding_most", "first loads bed a sharp rim in by at most", most, "q/Re x cos a");
}

/// Mouth of the part of a turned seat that the cone's flank really covers.
fn cone_reach(s: &Spec, cone: &crate::families::cone::read::Spec) -> Length {
    let Hole::Turned { small, half_angle, .. } = &s.hole else { return Length::ZERO };
    seat_mouth(small.value, half_angle.value, s.thickness.value).min(cone.base)
}
