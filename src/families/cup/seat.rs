//! How a cone sits in the cup: contact, height, capture, play, friction.

use crate::families::common;
use crate::families::cone::checks::FRICTIONS;
use crate::families::cone::read::Spec as Cone;
use crate::formulas::hertz::contact_modulus;
use crate::formulas::seating::bedding::{Bedding, Contact, Rim, Touch, Wall};
use crate::formulas::seating::{self, Corner, EdgeBreak};
use crate::formulas::shares;
use crate::record::design::{Design, Limits, Table, Value};
use crate::record::key::Size;
use crate::record::show;
use crate::shop::{Material, by_unit};
use crate::source::Confirmed;
use crate::standards::iso2768;
use crate::units::{Angle, Force, Length, Stress};

use super::read::{self, Edge, Hole, Mate, Spec};
use super::sizes;
use super::{far_face, seat_angle_limits, seat_mouth};

/// Rings within this height of the one that carries are counted as near: they will carry too once bedded in.
pub const NEAR: Length = Length::mm(0.05);
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
    /// Another edge carries at one end of the limits.
    pub other_edge: Option<String>,
    /// What the first full load does; `None` where no load or no yield strength is known.
    pub bedding: Option<Bedding>,
}

/// Records everything about the seat.
pub fn seat(design: &mut Design, s: &Spec, mate: &Mate) -> Seat {
    let cone = &mate.cone;
    design.given_text(&read::MATES, &mate.file);
    let corners = corners(s);
    let nothing = seating::Seat { height: Length::ZERO, contact_diameter: Length::ZERO, corner: 0, near: 0 };
    let found = seating::seat(cone.base, cone.half_angle, &corners, NEAR).unwrap_or(nothing);
    let full_flank = full_flank(s, cone);
    design.computed(
        &sizes::CONTACT_EDGE,
        Value::Text(touching(&s.hole, &found, corners.len(), full_flank)),
        "the ring that asks for the greatest height carries",
    );
    let contact =
        design.computed_length(&sizes::CONTACT_DIAMETER, found.contact_diameter, "diameter of the ring that carries");
    let height = heights(design, s, cone, found.height);
    let nose_above = design.computed_length(
        &sizes::NOSE_ABOVE_PLATE,
        cone.height - height - s.thickness.value,
        "cone height - seat height - thickness",
    );
    let capture = design.computed_length(
        &sizes::CAPTURE_RADIUS,
        capture(s, cone),
        "(hole - flat of the nose)/2, innermost ring where a shoulder can catch the nose",
    );
    let lift = design.length_or(&read::LIFT, s.lift.as_ref(), USUAL_LIFT, "a usual lift");
    design.computed_length(&sizes::SIDE_PLAY, seating::side_play(lift, cone.half_angle), "2 x lift x tan a");
    rim_effect(design, s, cone, found.height);
    friction_table(design, s, cone.half_angle);
    let bedding = bedding(design, s, cone, found, full_flank);
    design.principal(&[&sizes::SEAT_HEIGHT, &sizes::CONTACT_DIAMETER, &sizes::CAPTURE_RADIUS]);
    let other_edge = other_edge(design, s, cone, &found);
    Seat {
        height,
        contact,
        capture,
        nose_above,
        flank_end: flank_end(cone),
        full_flank,
        near: found.near,
        other_edge,
        bedding,
    }
}

/// Records the seat height and what can be measured of it, with limits; gives back the height as recorded.
fn heights(design: &mut Design, s: &Spec, cone: &Cone, height: Length) -> Length {
    let height =
        design.computed_length(&sizes::SEAT_HEIGHT, height, "max of (D - d)/(2 tan a) - depth, less the rim break");
    design.computed_length(&sizes::GAP_TO_CROSSBAR, height + cone.foot_height(), "seat height + foot");
    on_the_cone_as_made(design, cone);
    height_limits(design, s, cone);
    height_shares(design, s, cone);
    let more = by_unit(s.common.header.unit, 0.1, 0.005);
    let label = format!("seat height for {} more hole", show::length(more, s.common.header.unit));
    let by = seating::height_for_hole(more, cone.half_angle);
    design.computed_length(&sizes::HEIGHT_PER_TENTH.called(label), by, "-(so much more hole)/(2 tan a)");
    height
}

/// What was measured of the cone stands among the figures: the seat is worked on the cone as it was made.
fn on_the_cone_as_made(design: &mut Design, cone: &Cone) {
    let Some(made) = &cone.as_made else { return };
    let formula = "the readings in the cone's own file, middle of its pieces";
    if made.base.is_some() {
        design.computed_length(&sizes::CONE_BASE_MADE, cone.base, formula);
    }
    if made.half_angle.is_some() {
        design.computed(&sizes::CONE_ANGLE_MADE, Value::Angle(cone.half_angle), formula);
    }
}

/// The sizes of a bore that decide how high it seats.
struct Made {
    /// The hole: its diameter, the width of a slot, the small end of a seat, the largest step.
    hole: Length,
    /// Mouth of a turned seat.
    mouth: Length,
    /// The plate that a turned seat goes through.
    plate: Length,
    /// Break of the entry rim.
    rim: Length,
    /// Stop depth of a step drill.
    stop: Length,
}

impl Made {
    /// As drawn.
    fn drawn(s: &Spec) -> Self {
        Self::of(&s.hole, s.thickness.value)
    }

    /// Of a hole through so thick a plate, as drawn.
    fn of(hole: &Hole, plate: Length) -> Self {
        let none = Self { hole: Length::ZERO, mouth: Length::ZERO, plate, rim: Length::ZERO, stop: Length::ZERO };
        match hole {
            Hole::Round { diameter, edge, .. } | Hole::Slot { width: diameter, edge, .. } => {
                Self { hole: diameter.value, rim: edge.reach(), ..none }
            }
            Hole::Stepped { drill, stop, .. } => {
                Self { hole: drill.steps.last().copied().unwrap_or(Length::ZERO), stop: stop.value, ..none }
            }
            Hole::Turned { small, half_angle, .. } => {
                Self { hole: small.value, mouth: seat_mouth(small.value, half_angle.value, plate), ..none }
            }
        }
    }

    /// At that end of the limits on the sheet: the bore that seats lowest has the largest hole, the deepest break and the
    /// deepest stop, each of them by itself.
    fn at(design: &Design, s: &Spec, end: End) -> Self {
        let drawn = Self::drawn(s);
        let limits = |size: &Size| design.dimension(size).and_then(|d| d.limits.clone());
        let worst = |size: &Size, drawn: Length| limits(size).map_or(drawn, |l| end.of_falling(l.lower, l.upper));
        let rim = match &s.hole {
            Hole::Round { edge: Edge::Radius(_), .. } | Hole::Slot { edge: Edge::Radius(_), .. } => &sizes::RIM_RADIUS,
            _ => &sizes::CHAMFER,
        };
        let made = Self {
            hole: worst(&sizes::HOLE_DIAMETER, drawn.hole),
            mouth: worst(&sizes::SEAT_MOUTH, drawn.mouth),
            plate: drawn.plate,
            rim: worst(rim, drawn.rim),
            stop: worst(&sizes::STOP_DEPTH, drawn.stop),
        };
        let Hole::Turned { half_angle, .. } = &s.hole else { return made };
        // The far face follows the mouth: a thicker plate and a blunter seat bring it nearer to the axis.
        let angle = seat_angle_limits(s, half_angle.value);
        let (slim, blunt) = (angle.lower, angle.upper);
        let plate =
            limits(&sizes::THICKNESS).map_or(drawn.plate, |l| if end == End::Highest { l.upper } else { l.lower });
        let hole = far_face(made.mouth, if end == End::Highest { blunt } else { slim }, plate);
        Self { hole, plate, ..made }
    }
}

/// End of the limits of the seat height.
#[derive(Clone, Copy, PartialEq, Eq)]
enum End {
    Lowest,
    Highest,
}

impl End {
    /// The end of a size that lets the plate down as it grows.
    fn of_falling<T>(self, lower: T, upper: T) -> T {
        if self == Self::Highest { lower } else { upper }
    }
}

/// The rings of the bore on which the cone can rest.
pub fn corners(s: &Spec) -> Vec<Corner> {
    corners_of(s, &Made::drawn(s))
}

fn corners_of(s: &Spec, made: &Made) -> Vec<Corner> {
    corners_in(&s.hole, s.thickness.value, made)
}

fn corners_in(hole: &Hole, plate: Length, made: &Made) -> Vec<Corner> {
    match hole {
        Hole::Round { edge, .. } | Hole::Slot { edge, .. } => match edge {
            Edge::Sharp => vec![Corner::sharp(made.hole, Length::ZERO)],
            Edge::Chamfer(_) => Corner::chamfered(made.hole, made.rim).into(),
            Edge::Radius(_) => {
                vec![Corner { diameter: made.hole, depth: Length::ZERO, edge: EdgeBreak::Radius(made.rim) }]
            }
        },
        Hole::Stepped { drill, .. } => {
            let larger = drill.steps.last().map_or(Length::ZERO, |d| made.hole - *d);
            drill.lands(made.stop, plate).iter().map(|l| Corner::sharp(l.diameter + larger, l.from)).collect()
        }
        Hole::Turned { .. } => {
            vec![Corner::sharp(made.mouth, Length::ZERO), Corner::sharp(made.hole, made.plate)]
        }
    }
}

/// How much lower than drawn it seats with the hole as it came out: its diameter, the width of a slot, the largest step, the mouth of a
/// turned seat; with break of the rim and stop depth as they were measured, else as drawn, on the cone as that was made.
pub fn lower_with_hole(
    s: &Spec,
    cone: &Cone,
    hole: Length,
    (rim, stop): (Option<Length>, Option<Length>),
) -> Option<Length> {
    let (base, half_angle) = cone.as_made.map_or((cone.base, cone.half_angle), |made| made.drawn);
    let drawn = Made::drawn(s);
    let (rim, stop) = (rim.unwrap_or(drawn.rim), stop.unwrap_or(drawn.stop));
    let made = match &s.hole {
        Hole::Turned { half_angle, .. } => {
            Made { mouth: hole, hole: far_face(hole, half_angle.value, drawn.plate), ..drawn }
        }
        _ => Made { hole, rim, stop, ..drawn },
    };
    seating::lower_than_drawn((base, half_angle, &corners(s)), (cone.base, cone.half_angle, &corners_of(s, &made)))
}

/// How high it seats as drawn, on the cone as drawn.
pub fn as_drawn(s: &Spec, cone: &Cone) -> Option<Length> {
    let (base, half_angle) = cone.as_made.map_or((cone.base, cone.half_angle), |made| made.drawn);
    seating::seat(base, half_angle, &corners(s), NEAR).map(|seat| seat.height.rounded())
}

/// The walls of the bore, for what the first load does to its rim.
fn walls(hole: &Hole, t: Length) -> Vec<Wall> {
    let whole = |diameter, half_angle, rim| vec![Wall { from: Length::ZERO, to: t, diameter, half_angle, rim }];
    match hole {
        Hole::Round { diameter: d, edge, .. } | Hole::Slot { width: d, edge, .. } => {
            whole(d.value, Angle::ZERO, edge.as_rim())
        }
        Hole::Stepped { drill, stop, .. } => drill
            .lands(stop.value, t)
            .iter()
            .map(|l| Wall { from: l.from, to: l.to, diameter: l.diameter, half_angle: Angle::ZERO, rim: Rim::Sharp })
            .collect(),
        Hole::Turned { small, half_angle, .. } => {
            whole(seat_mouth(small.value, half_angle.value, t), half_angle.value, Rim::Sharp)
        }
    }
}

fn touching(hole: &Hole, found: &seating::Seat, count: usize, full_flank: bool) -> String {
    let corner = found.corner;
    match hole {
        Hole::Turned { .. } if full_flank => "the whole seat, flank on flank".into(),
        Hole::Turned { .. } if corner == 0 => "the mouth of the seat: the cone is blunter than the seat".into(),
        Hole::Turned { .. } => "the small end of the seat: the cone is slimmer than the seat".into(),
        Hole::Stepped { .. } if corner == 0 => "the entry edge, the largest step".into(),
        Hole::Stepped { .. } if corner + 1 == count => "the innermost edge, the smallest step".into(),
        Hole::Stepped { .. } => format!("the edge of land {} of {count}", corner + 1),
        Hole::Slot { edge, .. } => format!("both long edges of {}, in two places", rim_edge(edge, corner)),
        Hole::Round { edge, .. } => format!("{}, all round", rim_edge(edge, corner)),
    }
}

fn rim_edge(edge: &Edge, corner: usize) -> &'static str {
    match (edge, corner) {
        (Edge::Chamfer(_), 0) => "the mouth of the chamfer: the cone is no slimmer than it",
        (Edge::Chamfer(_), _) => "the inner edge of the chamfer",
        (Edge::Radius(_), _) => "the rounded rim",
        (Edge::Sharp, _) => "the entry rim",
    }
}

/// What the cone's own sheet leaves open: ± of its base, of its half-angle and of its foot.
struct ConeLimits {
    base: Length,
    half_angle: Angle,
    foot: Length,
}

/// The limits of the cone, as its own sheet states them.
fn cone_limits(cone: &Cone) -> ConeLimits {
    let class = cone.common.general;
    let length = |l| iso2768::general_tolerance(class, l).map_or(Length::ZERO, |t| t.value);
    let made = cone.as_made.as_ref();
    ConeLimits {
        base: made.and_then(|m| m.base).map_or_else(|| length(cone.base), |(_, open)| open),
        half_angle: made
            .and_then(|m| m.half_angle)
            .map_or_else(|| cone.half_angle_limits().upper - cone.half_angle, |(_, open)| open),
        foot: if cone.foot.is_some() { length(cone.foot_height()) } else { Length::ZERO },
    }
}

/// How it seats at one end of all limits together. Every one of them moves the seat one way wherever the ring of contact is
/// smaller than the base, so the ends of the box of limits are the ends of the height.
fn seat_at(design: &Design, s: &Spec, cone: &Cone, end: End) -> Option<seating::Seat> {
    seat_with(design, s, cone, end, end)
}

/// The same with the half-angle at an end of its own.
fn seat_with(design: &Design, s: &Spec, cone: &Cone, end: End, angle: End) -> Option<seating::Seat> {
    let limits = cone_limits(cone);
    let base = end.of_falling(cone.base + limits.base, cone.base - limits.base);
    let half_angle = angle.of_falling(cone.half_angle - limits.half_angle, cone.half_angle + limits.half_angle);
    let sound = half_angle > Angle::ZERO && half_angle < Angle::degrees(90.0);
    sound.then(|| seating::seat(base, half_angle, &corners_of(s, &Made::at(design, s, end)), NEAR))?
}

/// Between which heights it sits.
fn height_limits(design: &mut Design, s: &Spec, cone: &Cone) {
    // Under the base a blunter cone lifts what it lowers on the flank: both angles at both ends.
    let ends = [End::Lowest, End::Highest];
    let all = ends.map(|end| ends.map(|angle| seat_with(design, s, cone, end, angle).map(|seat| seat.height)));
    let heights = || all.iter().flatten().copied();
    let (Some(lowest), Some(highest)) =
        (heights().reduce(|a, b| Some(a?.min(b?))).flatten(), heights().reduce(|a, b| Some(a?.max(b?))).flatten())
    else {
        return;
    };
    let set = |design: &mut Design, size: &Size, foot: (Length, Length), by: &str| {
        let (lower, upper) = ((foot.0 + lowest).rounded(), (foot.1 + highest).rounded());
        design.range(size, Limits { lower, upper, by: by.into(), confirmed: Confirmed::TwoOrMore });
    };
    let by = match &s.hole {
        Hole::Stepped { .. } => "limits of steps, stop depth, cone base and cone angle",
        Hole::Turned { .. } => "limits of mouth, plate, both angles and cone base",
        _ => "limits of hole, rim, cone base and cone angle",
    };
    set(design, &sizes::SEAT_HEIGHT, (Length::ZERO, Length::ZERO), by);
    let (foot, open) = (cone.foot_height(), cone_limits(cone).foot);
    set(
        design,
        &sizes::GAP_TO_CROSSBAR,
        (foot - open, foot + open),
        &format!("{by}{}", if open > Length::ZERO { ", foot" } else { "" }),
    );
}

/// From what the seat height spreads: each of what it hangs on moved from end to end of its limits by itself, the others as drawn.
/// Even between the limits, so that the deviations are as the widths.
fn height_shares(design: &mut Design, s: &Spec, cone: &Cone) {
    let drawn = Made::drawn(s);
    let [low, high] = [End::Lowest, End::Highest].map(|end| Made::at(design, s, end));
    let open = cone_limits(cone);
    let height = |made: &Made, base: Length, half_angle: Angle| {
        let sound = half_angle > Angle::ZERO && half_angle < Angle::degrees(90.0);
        sound.then(|| seating::seat(base, half_angle, &corners_of(s, made), NEAR)).flatten().map(|seat| seat.height)
    };
    let bore =
        |of: fn(&Made, &Made) -> Made| [&low, &high].map(|end| height(&of(&drawn, end), cone.base, cone.half_angle));
    let cone_ends = |base: Length, angle: Angle| {
        [-1.0, 1.0].map(|way| height(&drawn, cone.base + base * way, cone.half_angle + angle * way))
    };
    let ways: [(&str, [Option<Length>; 2]); 5] = [
        ("hole", bore(|d, e| Made { hole: e.hole, mouth: e.mouth, plate: e.plate, ..*d })),
        ("broken rim", bore(|d, e| Made { rim: e.rim, ..*d })),
        ("stop depth", bore(|d, e| Made { stop: e.stop, ..*d })),
        ("base diameter of the cone", cone_ends(open.base, Angle::ZERO)),
        ("half-angle of the cone", cone_ends(Length::ZERO, open.half_angle)),
    ];
    let widths = ways.map(|(_, ends)| match ends {
        [Some(a), Some(b)] => (a - b).abs().as_mm(),
        _ => 0.0,
    });
    let named = ways.iter().map(|(what, _)| (*what).to_string()).zip(shares::of_a_sum(&widths));
    design.comes_from(&sizes::SEAT_HEIGHT, named.filter(|(_, share)| *share > 0.0));
}

/// Ends of the height over the face that the cone stands on.
pub fn gap_ends(design: &Design, s: &Spec, cone: &Cone) -> Option<(Length, Length)> {
    let (lowest, highest) = (seat_at(design, s, cone, End::Lowest)?, seat_at(design, s, cone, End::Highest)?);
    let (foot, open) = (cone.foot_height(), cone_limits(cone).foot);
    Some((foot - open + lowest.height, foot + open + highest.height))
}

/// Says which other edge carries at an end of the limits, and what makes it do so.
fn other_edge(design: &Design, s: &Spec, cone: &Cone, drawn: &seating::Seat) -> Option<String> {
    let unit = s.common.header.unit;
    let size = |l: Length| show::length(l.rounded(), unit);
    let ends = [End::Lowest, End::Highest].map(|end| seat_at(design, s, cone, end));
    let other = ends.iter().flatten().find(|seat| seat.corner != drawn.corner)?;
    let (diameter, height) = (size(other.contact_diameter), size(other.height));
    match &s.hole {
        Hole::Stepped { drill, .. } if other.corner >= 2 => {
            // Land j of the list begins at stop + (j - 1) step heights, the first at nought.
            let appears = s.thickness.value - drill.step_height * (other.corner - 1) as f64;
            Some(format!(
                "less than {} deep, the step of {diameter} leaves an edge at the far face and carries: the seat height becomes up to {height}; stop on the deep side, or choose another depth",
                size(appears)
            ))
        }
        Hole::Stepped { .. } | Hole::Round { .. } | Hole::Slot { .. } => {
            Some(format!("within the limits the ring of {diameter} may carry instead, at a seat height of {height}"))
        }
        // What unequal angles do is said where the angles are compared.
        Hole::Turned { .. } => None,
    }
}

/// The hole as the cone meets it from below, its rim unbroken.
pub fn entry_ring(s: &Spec) -> Length {
    let drawn = Made::drawn(s);
    if matches!(s.hole, Hole::Turned { .. }) { drawn.mouth } else { drawn.hole }
}

/// How much higher the cup sits by the films on cone and cup.
pub fn film_rise(s: &Spec, cone: &Cone) -> Length {
    seating::coating_rise(cone.film(), s.film(), cone.half_angle)
}

/// Depth of the ring of contact below the entry face.
pub fn contact_depth(s: &Spec, cone: &Cone) -> Length {
    let corners = corners(s);
    let carries = seating::seat(cone.base, cone.half_angle, &corners, NEAR).and_then(|seat| corners.get(seat.corner));
    carries.map_or(Length::ZERO, |corner| corner.depth)
}

/// Sure capture: the entry ring, or the innermost ring where a shoulder wider than the nose radius could catch the nose.
pub fn capture(s: &Spec, cone: &Cone) -> Length {
    let flat = seating::nose_flat(cone.tip, cone.half_angle, cone.nose_radius());
    let innermost = match &s.hole {
        Hole::Stepped { drill, stop, .. } => {
            let lands = drill.lands(stop.value, s.thickness.value);
            let catches =
                lands.windows(2).any(|w| matches!(w, [a, b] if (a.diameter - b.diameter) / 2.0 > cone.nose_radius()));
            lands.last().filter(|_| catches).map(|l| l.diameter)
        }
        _ => None,
    };
    seating::capture_radius(innermost.unwrap_or_else(|| entry_ring(s)), flat)
}

/// Diameter at the upper end of the straight flank.
fn flank_end(cone: &Cone) -> Length {
    let tangent = cone.nose_radius() * (Angle::degrees(45.0) - cone.half_angle / 2.0).tan();
    cone.tip + tangent * (2.0 * cone.half_angle.sin())
}

/// What the rim break does to the height.
fn rim_effect(design: &mut Design, s: &Spec, cone: &Cone, height: Length) {
    let (Hole::Round { diameter, .. } | Hole::Slot { width: diameter, .. }) = &s.hole else { return };
    let sharp = seating::height_on(cone.base, cone.half_angle, &Corner::sharp(diameter.value, Length::ZERO)).0;
    design.computed_length(
        &sizes::RIM_DROP,
        sharp - height,
        "chamfer: its depth, or c/tan a where the cone is blunter; radius: r (1 - tan(a/2))",
    );
}

fn friction_table(design: &mut Design, s: &Spec, half_angle: Angle) {
    let load = s.seat_load.as_ref().map_or(Force::newtons(1000.0), |l| l.value);
    let weight = show::value(&Value::Force(load), s.common.header.unit);
    let title = match &s.seat_load {
        Some(_) => format!("{weight} on this seat"),
        None => format!("for each {weight} that would lie on it: no load is written"),
    };
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
    design.tables.push(Table::new(
        sizes::FRICTION_TABLE,
        format!("Sliding home and coming off, {title}"),
        &["friction", "coming down", "pull to the centre", "going up", "pull to free it beyond the weight"],
        FRICTIONS.iter().map(|f| row(*f)),
    ));
}

/// Records what the first full load does to the seat.
fn bedding(design: &mut Design, s: &Spec, cone: &Cone, seat: seating::Seat, full_flank: bool) -> Option<Bedding> {
    let load = s.seat_load.as_ref()?;
    if full_flank {
        pressure(design, s, cone, load.value, seat.contact_diameter);
        return None;
    }
    let (found, touch) = bedded(s, cone, seat)?;
    let softer = softer(s, cone)?;
    let is_softer = |material: &Material| material.yield_strength == Some(softer);
    if is_softer(&s.common.material) {
        common::strength_of_plate(design, &s.common.material);
    }
    if is_softer(&cone.common.material) {
        common::doubtful_strength(design, &cone.common.material);
    }
    if let Bedding::Settles(least, most) = found {
        let (at_least, at_most) = match touch {
            Touch::Ring => (
                "land of rim and flank that carries q = P/(pi d sin a) at 2.8 Re",
                "land of rim and flank that carries q = P/(pi d sin a) at Re",
            ),
            Touch::TwoPoints(_) => (
                "patch of edge and flank that carries N = P/(2 sin a) at 2.8 Re",
                "patch of edge and flank that carries N = P/(2 sin a) at Re",
            ),
        };
        design.computed_length(&sizes::BEDDING_LEAST, least, at_least);
        design.computed_length(&sizes::BEDDING_MOST, most, at_most);
    }
    Some(found)
}

/// What the first full load does where rim and flank meet, and how they touch.
fn bedded(s: &Spec, cone: &Cone, seat: seating::Seat) -> Option<(Bedding, Touch)> {
    let load = s.seat_load.as_ref()?;
    let modulus = contact_modulus(&s.common.material.elastic, &cone.common.material.elastic).ok()?;
    let contact = contact(&s.hole, s.thickness.value, cone, seat);
    Some((contact.bedding(load.value, softer(s, cone)?, modulus), contact.touch))
}

fn contact(hole: &Hole, plate: Length, cone: &Cone, seat: seating::Seat) -> Contact {
    let touch = match hole {
        Hole::Slot { width, length, .. } => Touch::TwoPoints(length.value - width.value),
        _ => Touch::Ring,
    };
    Contact { base: cone.base, half_angle: cone.half_angle, seat, walls: walls(hole, plate), touch }
}

/// What the first full load would do to another hole through the same plate, cup and cone of these materials.
pub fn bedded_with(s: &Spec, cone: &Cone, hole: &Hole, [own, other]: [&Material; 2]) -> Option<Bedding> {
    let plate = s.thickness.value;
    let corners = corners_in(hole, plate, &Made::of(hole, plate));
    let seat = seating::seat(cone.base, cone.half_angle, &corners, NEAR)?;
    let modulus = contact_modulus(&own.elastic, &other.elastic).ok()?;
    let softer = own.yield_strength?.min(other.yield_strength?);
    Some(contact(hole, plate, cone, seat).bedding(s.seat_load.as_ref()?.value, softer, modulus))
}

/// Between which settlings a cup comes to sit lower after its first full load; nought where it springs back or its flank
/// bears all over, `None` where no load is written or the rim is crushed.
pub fn settling(s: &Spec, cone: &Cone) -> Option<(Length, Length)> {
    s.seat_load.as_ref()?;
    if full_flank(s, cone) {
        return Some((Length::ZERO, Length::ZERO));
    }
    let seat = seating::seat(cone.base, cone.half_angle, &corners(s), NEAR)?;
    match bedded(s, cone, seat)?.0 {
        Bedding::Settles(least, most) => Some((least, most)),
        Bedding::Elastic => Some((Length::ZERO, Length::ZERO)),
        Bedding::Beyond => None,
    }
}

/// Whether the seat has the cone's angle and bears all over.
fn full_flank(s: &Spec, cone: &Cone) -> bool {
    matches!(&s.hole, Hole::Turned { half_angle, .. } if (half_angle.value - cone.half_angle).abs() < Angle::degrees(1.0 / 60.0))
}

/// Yield strength of the softer part, which gives way.
pub fn softer(s: &Spec, cone: &Cone) -> Option<Stress> {
    match (s.common.material.yield_strength, cone.common.material.yield_strength) {
        (Some(a), Some(b)) => Some(a.min(b)),
        // One that is not known may be the softer one.
        _ => None,
    }
}

/// Records the pressure on a seat that the flank covers.
fn pressure(design: &mut Design, s: &Spec, cone: &Cone, load: Force, contact: Length) {
    let Hole::Turned { small, .. } = &s.hole else { return };
    let pressure = seating::seat_pressure(load, contact.max(cone_reach(s, cone)), small.value.max(flank_end(cone)));
    design.computed(&sizes::SEAT_PRESSURE, Value::Stress(pressure), "P/(pi (D^2 - d^2)/4)");
}

/// Mouth of the part of a turned seat that the cone's flank really covers.
fn cone_reach(s: &Spec, cone: &Cone) -> Length {
    let Hole::Turned { small, half_angle, .. } = &s.hole else { return Length::ZERO };
    seat_mouth(small.value, half_angle.value, s.thickness.value).min(cone.base)
}
