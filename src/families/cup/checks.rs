//! What is checked on a cup plate: the plate itself, and the cone in it.

use crate::families::common;
use crate::families::cone::checks::FRICTIONS;
use crate::families::cone::strength::Forces;
use crate::formulas::seating;
use crate::formulas::seating::bedding::{Bedding, DEEPEST};
use crate::formulas::turning;
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::source::Source;
use crate::standards::iso2768;
use crate::standards::processes;
use crate::standards::threads::Thread;
use crate::units::{Angle, Length};

use super::entry_face::hole_extent;
use super::read::{Hole, Mate, Plate, Spec};
use super::seat::{self, Seat, softer};
use super::sizes;
use super::{remedy, route, strength};

const LASER_HOLE: Check = Check {
    key: "laser_hole",
    what: "smallest cut hole against the plate's thickness",
    worst: Verdict::Fail,
    source: Source::Published(
        "public design guides of laser cutting services: hole at least the plate's thickness, 0.7 of it the hard limit",
    ),
};
/// A slot that is longer than wide by no more than this share of its width guides a cone as a round hole does.
/// Source: common practice, no source.
const LONGER: f64 = 0.05;

const SLOT_IS_HOLE: Check = Check {
    key: "slot_is_hole",
    what: "length of the slot against its width",
    worst: Verdict::Caution,
    source: Source::CommonPractice,
};
const BOLT_PASSES: Check = Check {
    key: "bolt_passes",
    what: "mounting hole against its bolt",
    worst: Verdict::Fail,
    source: Source::Derived("a hole is larger than the thread that goes through it"),
};
const EDGE: Check = Check {
    key: "edge_distance",
    what: "mounting hole centre to the plate's edge",
    worst: Verdict::Fail,
    source: Source::Published("EN 1993-1-8 table 3.3: at least 1.2 hole diameters; twice is design practice"),
};
const WEB: Check = Check {
    key: "web",
    what: "metal between the holes",
    worst: Verdict::Fail,
    source: Source::Published(
        "public design guides of laser cutting services: at least the plate's thickness, better 1.5 of it",
    ),
};
const RIM_WALL: Check = Check {
    key: "wall_at_hole",
    what: "metal between the hole and the plate's edge",
    worst: Verdict::Fail,
    source: Source::Published("public design guides of laser cutting services: 1.5 thicknesses from hole to edge"),
};
const CORNER: Check = Check {
    key: "corner_radius",
    what: "corner radius against half the plate's smaller side",
    worst: Verdict::Fail,
    source: Source::Derived("geometry of the outline"),
};
const STEP_PLATE: Check = Check {
    key: "step_drill_plate",
    what: "plate thickness for a step drill",
    worst: Verdict::Caution,
    source: Source::Published("maker's articles on step drills: made for plate up to about 1/4 in"),
};
const STEP_STOP: Check = Check {
    key: "step_stop",
    what: "stop depth against the height of one step",
    worst: Verdict::Caution,
    source: Source::Derived("geometry of the drill"),
};
const ENVELOPE: Check = Check {
    key: "step_envelope",
    what: "the cone's half-angle against the envelope of the steps",
    worst: Verdict::Caution,
    source: Source::Derived("a cone blunter than the envelope touches the first edge only, a slimmer one the last"),
};
const BOTTOMS: Check = Check {
    key: "bottoms_out",
    what: "least seat height over the cone's base",
    worst: Verdict::Fail,
    source: Source::Derived("the plate must stop on the flank before it reaches the base"),
};
const ENTERS: Check = Check {
    key: "cone_enters",
    what: "least contact diameter against the greatest end of the straight flank",
    worst: Verdict::Fail,
    source: Source::Derived("the ring must rest on the flank, not on the rounding of the nose"),
};
const SEAT_ANGLE: Check = Check {
    key: "seat_angle",
    what: "angle of the seat against the cone's",
    worst: Verdict::Caution,
    source: Source::Derived("unequal angles touch on one ring only"),
};
const CAPTURE: Check = Check {
    key: "capture",
    what: "capture radius",
    worst: Verdict::Fail,
    source: Source::Derived("the flat of the nose must lie inside the hole when it comes down"),
};
const HOME: Check = Check {
    key: "slides_home",
    what: "half-angle plus friction angle, coming down",
    worst: Verdict::Fail,
    source: Source::Derived(
        "equilibrium on the flank: it slides while half-angle + atan(friction) stay below 90 degrees",
    ),
};
const RELEASE: Check = Check {
    key: "comes_free",
    what: "half-angle against the friction angle, going up",
    worst: Verdict::Fail,
    source: Source::Derived("equilibrium on the flank: it sticks when the half-angle is at or below atan(friction)"),
};
const SINKS: Check = Check {
    key: "bedding_in",
    what: "settling of the rim under the first loads",
    worst: Verdict::Fail,
    source: Source::Derived(
        "overlap of rim and flank that carries the load at between yield and 2.8 times yield (Johnson, Contact Mechanics, 1985, chapter 6); up to a tenth of the plate",
    ),
};
const SEAT_PRESSURE: Check = Check {
    key: "seat_pressure",
    what: "mean pressure on the seat",
    worst: Verdict::Fail,
    source: Source::Derived("load over the projected surface, held against the yield strength of the softer part"),
};
/// Strength over stress that is wanted; below it a figure asks for attention.
/// Source: common practice, no source.
const MARGIN: f64 = 1.5;
const OTHER_EDGE: Check = Check {
    key: "other_edge",
    what: "the edge that carries, within all limits",
    worst: Verdict::Caution,
    source: Source::Derived("the seat at both ends of the limits of plate and cone"),
};
const COMPOUND: Check = Check {
    key: "compound_travel",
    what: "slant of the seat against the travel of the compound slide",
    worst: Verdict::Caution,
    source: Source::CommonPractice,
};
const PASTE: Check = Check {
    key: "coating_rise",
    what: "rise of the seat by the coatings",
    worst: Verdict::Caution,
    source: Source::Derived("(film on cone + film on cup)/sin a"),
};
const MODEL: Check = Check {
    key: "rim_in_the_model",
    what: "broken rim of a slot in the solid models",
    worst: Verdict::Ok,
    source: Source::Derived("the solids of this program have straight slots only"),
};
const SLOT: Check = Check {
    key: "slot_contact",
    what: "a slot touches the cone in two places only",
    worst: Verdict::Ok,
    source: Source::Derived("a round cone between two straight edges"),
};

/// All checks of a cup.
pub fn checks(design: &mut Design, s: &Spec, seat: Option<&Seat>, forces: Option<&Forces>) {
    plate(design, s);
    route::check(design, s);
    mounting(design, s);
    if let Hole::Stepped { .. } = s.hole {
        stepped(design, s);
    }
    if let Hole::Turned { half_angle, .. } = &s.hole {
        let slant = turning::slant(s.thickness.value, half_angle.value).rounded();
        let verdict = if slant > s.compound_travel { Verdict::Caution } else { Verdict::Ok };
        let because =
            "a seat longer than the slide travels is cut in two settings, and the joint shows: a thinner plate";
        let limit = Limit::AtMost(Value::Length(s.compound_travel));
        design.finding(&COMPOUND, verdict, Some(Value::Length(slant)), limit, because);
    }
    if let (Some(seat), Some(mate)) = (seat, &s.mate) {
        seated(design, s, seat, mate);
        slips(design, s, mate);
        friction(design, mate.cone.half_angle);
        pairing(design, s, seat, mate);
        if let Some(forces) = forces {
            strength::checks(design, s, mate, forces);
        }
    }
    if let (None, Some(forces)) = (&s.mate, forces) {
        strength::alone(design, s, forces);
    }
    if s.frame_written {
        common::dissimilar(design, &s.common, &s.frame_material, common::Meets::Frame, false);
    }
    slot_is_slot(design, s);
    common::checks(design, &s.common);
    common::swells(design, &s.common, s.plate.extent().0.max(s.plate.extent().1));
    match s.hole {
        Hole::Turned { .. } | Hole::Round { .. } => common::at_the_lathe(design),
        _ => common::at_machines(design),
    }
    common::locator(design, None);
    common::hoisting(design);
}

/// A slot that is hardly longer than wide holds the cone all round.
fn slot_is_slot(design: &mut Design, s: &Spec) {
    let Hole::Slot { width, length, .. } = &s.hole else { return };
    let wanted = (width.value * (1.0 + LONGER)).rounded();
    let because = if length.value < wanted {
        "so short it is a hole and not a slot: it holds the cone in every direction, and the set is held twice"
    } else {
        "longer than wide by enough to leave the cone free along it"
    };
    let (length, width) = (Value::Length(length.value), Value::Length(width.value));
    design.at_least(&SLOT_IS_HOLE, length, width, Some(Value::Length(wanted)), because);
}

fn plate(design: &mut Design, s: &Spec) {
    let (x, y) = s.plate.extent();
    let t = s.thickness.value.rounded();
    if let Plate::Rectangle { corner: Some(corner), .. } = &s.plate {
        design.at_most(
            &CORNER,
            Value::Length(corner.value),
            Value::Length(x.min(y) / 2.0),
            None,
            "a larger radius would eat the side of the plate",
        );
    }
    let (hx, hy) = hole_extent(s);
    let wall = ((x - hx) / 2.0).min((y - hy) / 2.0);
    design.at_least(
        &RIM_WALL,
        Value::Length(wall),
        Value::Length(t),
        Some(Value::Length(t * 1.5)),
        "a narrow rim warps when it is cut and spreads under the cone",
    );
}

fn mounting(design: &mut Design, s: &Spec) {
    let t = s.thickness.value.rounded();
    if !s.common.material.printed {
        laser_holes(design, s);
    }
    let Some(m) = &s.mounting else { return };
    bolt_in_its_hole(design, m);
    let (x, y) = s.plate.extent();
    let round = matches!(s.plate, Plate::Round(_));
    let to_edge = |(cx, cy): &(Length, Length)| {
        if round { x / 2.0 - cx.hypot(*cy) } else { (x / 2.0 - cx.abs()).min(y / 2.0 - cy.abs()) }
    };
    if let Some(edge) = m.centres().iter().map(to_edge).reduce(Length::min) {
        design.at_least(
            &EDGE,
            Value::Length(edge.rounded()),
            Value::Length((m.hole * 1.2).rounded()),
            Some(Value::Length((m.hole * 2.0).rounded())),
            "a bolt too near the edge tears out",
        );
    }
    let (hx, hy) = hole_extent(s);
    let to_hole = |(cx, cy): &(Length, Length)| cx.hypot(*cy) - m.hole / 2.0 - hx.max(hy) / 2.0;
    if let Some(web) = m.centres().iter().map(to_hole).reduce(Length::min) {
        design.at_least(
            &WEB,
            Value::Length(web.rounded()),
            Value::Length(t * 0.5),
            Some(Value::Length(t)),
            "a narrow web warps in cutting and tears under load",
        );
    }
}

/// The holes that the laser cuts, against the thickness; those that are drilled are not held to its rule.
fn laser_holes(design: &mut Design, s: &Spec) {
    let t = s.thickness.value.rounded();
    let bolts = s.mounting.as_ref().map(|m| m.hole);
    let main = match &s.hole {
        Hole::Round { diameter, .. } => Some(diameter.value),
        Hole::Slot { width, .. } => Some(width.value),
        Hole::Stepped { pilot, .. } => pilot.as_ref().map(|p| p.value),
        Hole::Turned { .. } => route::main_hole(design, s).and_then(|route| route.cut),
    };
    // A slot is always cut; so is what is left under size for a turned seat, and a pilot hole that was asked for.
    let always = !matches!(s.hole, Hole::Round { .. });
    let cut = main.filter(|d| always || processes::can_be_cut(*d, t)).into_iter();
    let cut = cut.chain(bolts.filter(|d| processes::can_be_cut(*d, t))).reduce(Length::min);
    if let Some(smallest) = cut {
        design.at_least(
            &LASER_HOLE,
            Value::Length(smallest),
            Value::Length(processes::burnt_below(t)),
            Some(Value::Length(processes::least_cut_hole(t))),
            "a smaller hole is burnt rather than cut: leave the pilot out or make the plate thinner",
        );
    }
}

fn stepped(design: &mut Design, s: &Spec) {
    let Hole::Stepped { drill, stop, .. } = &s.hole else { return };
    let t = s.thickness.value.rounded();
    let verdict = if t > Length::inches(0.25) { Verdict::Caution } else { Verdict::Ok };
    design.finding(
        &STEP_PLATE,
        verdict,
        Some(Value::Length(t)),
        Limit::AtMost(Value::Length(Length::inches(0.25))),
        "thicker plate leaves more than one land and overheats the drill: oil, slow feed, or drill from a pilot",
    );
    let verdict = if stop.value > drill.step_height { Verdict::Caution } else { Verdict::Ok };
    design.finding(
        &STEP_STOP,
        verdict,
        Some(Value::Length(stop.value)),
        Limit::AtMost(Value::Length(drill.step_height)),
        "deeper than one step, the next step or the shank enters the hole",
    );
    let Some(envelope) = drill.envelope_half_angle() else { return };
    let lands = drill.lands(stop.value, t).len();
    let Some(mate) = &s.mate else {
        let because = if lands < 2 {
            "the plate is no thicker than one land: a plain hole, no cone at all".to_string()
        } else {
            format!("{lands} lands: the bore is a row of edges, not a countersink; a cone touches one of them")
        };
        let verdict = if lands < 2 { Verdict::Caution } else { Verdict::Ok };
        design.finding(&ENVELOPE, verdict, Some(Value::Angle(envelope)), None, because);
        return;
    };
    let cone = mate.cone.half_angle;
    let depth = super::seat::contact_depth(s, &mate.cone);
    let (verdict, because) = if lands < 2 {
        (Verdict::Caution, "the plate is no thicker than one land: a plain hole with one edge, no cone at all")
    } else if (cone - envelope).abs() < Angle::degrees(0.5) {
        (
            Verdict::Caution,
            "all edges touch, but so slender a cone sticks; choose a blunter cone and let one edge carry",
        )
    } else if cone > envelope && depth > Length::ZERO {
        (
            Verdict::Ok,
            "the cone is blunter than the steps; the largest step stops so little below the entry face that an edge under it carries",
        )
    } else if cone > envelope {
        (Verdict::Ok, "the cone is blunter than the steps: only the first, largest edge carries, the rest is relief")
    } else {
        (Verdict::Caution, "the cone is slimmer than the steps: only the last, smallest edge carries, at the far face")
    };
    design.finding(&ENVELOPE, verdict, Some(Value::Angle(cone)), Some(Value::Angle(envelope)), because);
}

fn seated(design: &mut Design, s: &Spec, seat: &Seat, mate: &Mate) {
    let least = design.dimension(&sizes::SEAT_HEIGHT).and_then(|d| d.limits.as_ref()).map_or(seat.height, |l| l.lower);
    design.at_least(&BOTTOMS, Value::Length(least), Value::Length(Length::mm(0.1)), Some(Value::Length(Length::mm(1.0))),
        format!("at nought the plate lands on the base before the flank fills the hole, and the hole is loose; keep {} for wear and bedding in", design.say().length(Length::mm(1.0))));
    let hole = design.dimension(&sizes::HOLE_DIAMETER).and_then(|d| Some((d.value.number(), d.limits.as_ref()?.lower)));
    let smaller = hole.map_or(Length::ZERO, |(nominal, lower)| Length::mm(nominal) - lower);
    let tip = iso2768::general_tolerance(mate.cone.common.general, mate.cone.tip).map_or(Length::ZERO, |t| t.value);
    design.at_least(
        &ENTERS,
        Value::Length((seat.contact - smaller).rounded()),
        Value::Length((seat.flank_end + tip).rounded()),
        None,
        "a hole smaller than the end of the flank rests on the nose: the height is then anybody's guess",
    );
    if let Hole::Turned { half_angle, .. } = &s.hole {
        let verdict = if seat.full_flank { Verdict::Ok } else { Verdict::Caution };
        design.finding(
            &SEAT_ANGLE,
            verdict,
            Some(Value::Angle(half_angle.value)),
            Some(Value::Angle(mate.cone.half_angle)),
            "cut seat and cone with one setting of the compound slide, or expect contact on one ring",
        );
    }
    if let Hole::Slot { edge, .. } = &s.hole {
        if edge.reach() > Length::ZERO {
            design.note(&MODEL, "STL, 3MF and STEP show the slot with a sharp rim: a printed trial sits higher by the rim's break, and whoever mills from the STEP must be told of it");
        }
        design.note(&SLOT, "it settles more than a round cup and goes on wearing: grease both edges, and measure the height again when the set has been in use");
    }
    if let Some(because) = &seat.other_edge {
        design.finding(&OTHER_EDGE, Verdict::Caution, None, None, because.clone());
    } else if !seat.full_flank {
        design.finding(&OTHER_EDGE, Verdict::Ok, None, None, "the same edge carries at both ends of the limits");
    }
    if seat.near > 1 && !seat.full_flank {
        let because = format!(
            "{} rings lie within {} of height: after bedding in they share the load",
            seat.near,
            design.say().length(seat::NEAR)
        );
        design.finding(&ENVELOPE, Verdict::Ok, None, None, because);
    }
    design.at_least(&CAPTURE, Value::Length(seat.capture), Value::Length(Length::ZERO), Some(Value::Length(Length::mm(5.0))),
        format!("so far off may it hang and still find its way; keep hanging error and position error of the pair {} inside it", design.say().length(Length::mm(5.0))));
    if seat.nose_above > Length::ZERO {
        design.caution(
            &[],
            "The nose stands out beyond the plate: leave it room inside the frame tube.",
            "The nose stands out beyond the plate: leave that much room inside the frame tube.",
        );
    }
}

/// A hole outside the flank, a plate thicker than the cone is high: by a slip?
fn slips(design: &mut Design, s: &Spec, mate: &Mate) {
    let cone = &mate.cone;
    let rings: Vec<Length> = super::seat::corners(s).iter().map(|c| c.diameter).collect();
    if let Some(widest) = rings.iter().copied().reduce(Length::max) {
        let goes = (cone.tip, cone.base.max(cone.tip * 1.001));
        common::slip(design, Verdict::Fail, "the hole", widest, goes, "the cone that it is to take");
    }
    let goes = (Length::mm(0.5), cone.height + cone.foot_height());
    common::slip(
        design,
        Verdict::Caution,
        "the thickness of the plate",
        s.thickness.value,
        goes,
        "the height of the cone",
    );
}

/// A hole through which its bolt does not go, or in which it is lost.
fn bolt_in_its_hole(design: &mut Design, m: &super::read::Mounting) {
    let Some(major) = m.thread.as_ref().and_then(|t| Thread::parse(&t.value).ok()).map(|t| t.major) else { return };
    if m.given_hole.is_none() {
        return;
    }
    let because = "a bolt does not pass a hole that is no larger than its thread";
    design.at_least(&BOLT_PASSES, Value::Length(m.hole), Value::Length(major), None, because);
    common::slip(design, Verdict::Fail, "the mounting hole", m.hole, (major, major * 2.0), "its bolt");
}

fn friction(design: &mut Design, half_angle: Angle) {
    let [greased, dry, clean] = FRICTIONS;
    let limit = |mu| seating::greatest_sliding_half_angle(mu);
    design.at_most(&HOME, Value::Angle(half_angle), Value::Angle(limit(dry)), Some(Value::Angle(limit(clean))), format!(
        "coming down it slides home below {} (greased, friction {greased}), {} (dry, {dry}), {} (clean dry steel, {clean})",
        degrees(limit(greased)), degrees(limit(dry)), degrees(limit(clean))));
    crate::families::cone::checks::sticking(design, &RELEASE, half_angle);
}

fn degrees(angle: Angle) -> String {
    format!("{}°", crate::record::show::trimmed(angle.as_degrees(), 1))
}

fn pairing(design: &mut Design, s: &Spec, seat: &Seat, mate: &Mate) {
    common::dissimilar(design, &s.common, &mate.cone.common.material, common::Meets::Cone, false);
    if s.seat_load.is_some() {
        common::printed_under_load(design, &[&s.common.material, &mate.cone.common.material]);
    }
    let rise = seat::film_rise(s, &mate.cone).rounded();
    if rise > Length::ZERO {
        let verdict = if rise > Length::mm(0.1) { Verdict::Caution } else { Verdict::Ok };
        design.finding(&PASTE, verdict, Some(Value::Length(rise)), Limit::AtMost(Value::Length(Length::mm(0.1))),
            "the frame sits higher by this until the film wears through, then it comes down: mask flank and rim, grease them, and write seat_masked = true");
    }
    settling(design, s, seat);
}

/// What the first full load does to the rim, and what that means.
fn settling(design: &mut Design, s: &Spec, seat: &Seat) {
    let deepest = Value::Length((s.thickness.value * DEEPEST).rounded());
    match (seat.full_flank, seat.bedding, &s.seat_load) {
        (true, ..) => seat_pressure(design, s),
        (_, Some(Bedding::Settles(_, most)), _) => {
            design.at_most(
                &SINKS,
                Value::Length(most.rounded()),
                deepest,
                Some(Value::Length(Length::mm(0.1))),
                "set the frame down once with its full weight before heights are measured",
            );
        }
        (_, Some(Bedding::Elastic), _) => {
            design.finding(&SINKS, Verdict::Ok, None, None, "the rounded rim springs back under this load");
        }
        (_, Some(Bedding::Beyond), _) => {
            let what = if matches!(s.hole, Hole::Slot { .. }) {
                "two points of the slot's edges do not carry this load"
            } else {
                "the rim is crushed, not bedded in"
            };
            let then = s.mate.as_ref().map_or_else(String::new, |mate| format!("; {}", remedy::crushed(s, mate)));
            let because = format!("{what}: no height can be stated{then}");
            // Without a height there is nothing to hold against a limit.
            design.finding(&SINKS, Verdict::Fail, None, None, because);
        }
        (_, None, Some(_)) => design.finding(
            &SINKS,
            Verdict::Caution,
            None,
            None,
            "cannot be judged: no yield strength is known of one of the two materials; give it in shop.toml",
        ),
        (_, None, None) => design.finding(
            &SINKS,
            Verdict::Caution,
            None,
            None,
            "a rim beds in under its first load, up to some tenths; state seat_load to see how far",
        ),
    }
}

/// Pressure on a seat that the flank covers, against the softer part.
fn seat_pressure(design: &mut Design, s: &Spec) {
    let Some(pressure) = design.dimension(&sizes::SEAT_PRESSURE).map(|d| d.value.clone()) else { return };
    let softer = s.mate.as_ref().and_then(|mate| softer(s, &mate.cone));
    let Some(softer) = softer else { return };
    design.at_most(
        &SEAT_PRESSURE,
        pressure,
        Value::Stress(softer),
        Some(Value::Stress(softer / MARGIN)),
        "a seat that covers the flank carries by its surface",
    );
}
