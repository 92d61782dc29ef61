//! A locating cone: base and nose, lathe settings for its flank, its bolt or weld, and what to check.

pub mod checks;
mod draw;
mod lathe;
mod levers;
mod made;
pub mod read;
pub mod sizes;
mod steps;
pub mod strength;

use crate::description::Fields;
use crate::families::common::coated::{self, Order};
use crate::families::common::{self, Side};
use crate::families::common::{bolted, location};
use crate::families::{Family, Workplace};
use crate::formulas::seating;
use crate::formulas::turning;
use crate::record::design::{Design, Value};
use crate::record::key::Size;
use crate::record::show;
use crate::shape::{Body, Path, Point, ShapeError, Solid, Turn, Turned};
use crate::units::{Angle, Length, LengthUnit};

use read::{BoltKind, Recess, Spec, countersink_depth};

/// The family's record.
pub const FAMILY: Family = Family {
    name: "cone",
    about: "a locating cone, turned, welded or bolted on",
    keys: read::KEYS,
    work,
    made: made::findings,
    remedies: levers::REMEDIES,
    long: false,
    template: include_str!("template.toml"),
    companions: &[],
};

fn work(fields: &Fields, place: &Workplace) -> Option<Design> {
    let spec = read::read(fields, place)?;
    let mut design = Design::new(spec.common.header.clone());
    sizes(&mut design, &spec);
    coated::record(&mut design, &spec.common);
    let solid = solid(&spec).map_err(|error| fields.problem_here(error.to_string())).ok()?;
    common::mass(&mut design, &spec.common.material, solid.volume(), spec.common.header.count);
    design.drawing = place.depth.is_shown().then(|| draw::drawing(&spec, &solid));
    design.solids.push(Solid::only(Body::Turned(solid)));
    bolt_sizes(&mut design, &spec);
    let lathe = lathe::lathe(&mut design, &spec, place.shop);
    checks::checks(&mut design, &spec, place.shop, &lathe);
    stands_on(&mut design, &spec);
    let forces = own_forces(&mut design, &spec);
    if let Some(forces) = &forces {
        strength::checks(&mut design, &spec, forces);
    }
    steps::operations(&mut design, &spec, &lathe, forces.as_ref());
    coat(&mut design, &spec);
    common::kept_apart(&mut design, &spec.common, common::Joint::Laid);
    location::greased(&mut design);
    Some(design)
}

/// The cone that something is made to: as measured where all its pieces were, else as drawn.
pub fn for_mate(fields: &Fields, place: &Workplace) -> Option<Spec> {
    let spec = read::read(fields, place)?;
    if place.as_drawn || !fields.has(&common::MEASURED) {
        return Some(spec);
    }
    let design = place.kept.mates.worked(&FAMILY, fields, place)?;
    Some(match made::finished(&design, &spec, place.shop) {
        Some(as_made) => spec.made(as_made),
        None => spec,
    })
}

fn sizes(design: &mut Design, s: &Spec) {
    let w = &s.written;
    let four = [
        (&read::BASE_DIAMETER, &w.base, s.base, "d + 2 h tan a"),
        (&read::TIP_DIAMETER, &w.tip, s.tip, "D - 2 h tan a"),
        (&read::HEIGHT, &w.height, s.height, "(D - d)/(2 tan a)"),
    ];
    for (key, given, value, formula) in four {
        match given {
            Some(given) => {
                design.given_length(key, given);
            }
            None => {
                design.computed_length(&key.size(), value, formula);
            }
        }
    }
    match &w.half_angle {
        Some(given) => {
            design.given(&read::HALF_ANGLE, given, Value::Angle);
        }
        None => design.computed(&sizes::HALF_ANGLE, Value::Angle(s.half_angle), "atan((D - d)/(2 h))"),
    }
    if let Some(tolerance) = &s.half_angle_tolerance {
        design.given(&read::HALF_ANGLE_TOLERANCE, tolerance, Value::Angle);
    }
    design.limit_angle(&sizes::HALF_ANGLE, s.half_angle_limits());
    if let Some(radius) = &s.tip_radius {
        design.given_length(&read::TIP_RADIUS, radius);
        design.computed_length(
            &sizes::NOSE_FLAT,
            seating::nose_flat(s.tip, s.half_angle, radius.value),
            "d - 2 r tan(45 deg - a/2)",
        );
    }
    if let Some(foot) = &s.foot {
        design.given_length(&read::FOOT, foot);
        if let Some(diameter) = &s.foot_diameter {
            design.given_length(&read::FOOT_DIAMETER, diameter);
        }
        design.computed_length(&sizes::OVERALL_HEIGHT, s.height + foot.value, "h + foot");
    }
    let ratio = turning::taper_ratio(s.half_angle);
    design.computed_length(&sizes::SLANT, turning::slant(s.height, s.half_angle), "h / cos a");
    design.computed(&sizes::INCLUDED_ANGLE, Value::Angle(s.half_angle * 2.0), "2 a");
    design.computed(&sizes::TAPER_RATIO, Value::Number(ratio), "(D - d)/h");
    let one_to = Value::Text(format!("1:{}", show::trimmed(1.0 / ratio, 3)));
    design.computed(&sizes::TAPER, one_to, "1 : h/(D - d), as ISO 3040 writes it");
    if s.common.header.unit == LengthUnit::Inch {
        let per_foot = show::trimmed(turning::taper_per_foot(ratio).as_inches(), 4);
        design.computed(&sizes::TAPER_PER_FOOT, Value::Text(format!("{per_foot} in/ft")), "12 in (D - d)/h");
    }
    common::general_limits(
        design,
        &s.common,
        &[
            &sizes::BASE_DIAMETER,
            &sizes::TIP_DIAMETER,
            &sizes::HEIGHT,
            &sizes::FOOT,
            &sizes::FOOT_DIAMETER,
            &sizes::OVERALL_HEIGHT,
            &sizes::TIP_RADIUS,
        ],
    );
    design.principal(&[&sizes::BASE_DIAMETER, &sizes::TIP_DIAMETER, &sizes::HEIGHT, &sizes::HALF_ANGLE]);
}

/// Sizes that a film changes, and whether it closes them.
const COATED: &[(&Size, Side)] = &[
    (&sizes::FOOT_DIAMETER, Side::Shaft),
    (&sizes::BOLT_HOLE, Side::Hole),
    (&sizes::COUNTERBORE_DIAMETER, Side::Hole),
    (&sizes::COUNTERSINK_DIAMETER, Side::Hole),
];

/// What the coating does to the flank, the bolt's hole and the thread, and the order for it.
fn coat(design: &mut Design, s: &Spec) {
    if s.common.coating.is_none() {
        return;
    }
    coated::class_for(design, &s.common, s.height.min(s.base));
    design.computed_length(&sizes::FLANK_GROWTH, s.film() * (2.0 / s.half_angle.cos()), "2 film/cos a");
    design.computed_length(
        &sizes::COATING_RISE,
        seating::coating_rise(s.film(), Length::ZERO, s.half_angle),
        "film/sin a",
    );
    let mut masked = if s.seat_masked {
        "Mask the flank: it stays bare, and greased.".to_string()
    } else {
        "Mask the flank where heights count, and write seat_masked = true: there the film wears through.".to_string()
    };
    if let Some(bolt) = &s.bolt {
        match bolt.kind {
            BoltKind::Through { .. } => {
                coated::passes(design, &s.common, &sizes::BOLT_HOLE, bolt.size.major, "the bolt");
            }
            BoltKind::FromBelow { .. } => {
                masked = format!("{masked} {}", coated::tapped(design, &s.common, &bolt.size));
            }
        }
    }
    let register = s.bolt.as_ref().is_some_and(|bolt| bolt.register && !s.weld_on);
    if !s.weld_on {
        masked += if register {
            " Mask the base and the foot that goes into the register: the fit is one of bare metal, and what is drawn tight stays bare."
        } else {
            " Mask the base: what is drawn tight and holds by friction stays bare."
        };
    }
    let grows: Vec<(&Size, Side)> =
        COATED.iter().copied().filter(|(size, _)| !register || size.name() != sizes::FOOT_DIAMETER.name()).collect();
    // Bare under its base, or welded there: one film.
    let one_face = &[&sizes::OVERALL_HEIGHT];
    let order = Order { sizes: &grows, one_face, masked: masked.trim(), welded: s.weld_on };
    coated::order(design, &s.common, &order);
}

/// What the cone stands on, as written: a cup that names the cone holds its load against it.
fn stands_on(design: &mut Design, s: &Spec) {
    if let Some(wall) = &s.crossbar_wall {
        design.given_length(&read::CROSSBAR_WALL, wall);
    }
    if s.crossbar_written {
        common::dissimilar(design, &s.common, &s.crossbar_material, common::Meets::Crossbar, false);
    }
}

/// Leg of the fillet round the foot of a cone that is welded on; nought for one that is bolted.
pub fn fillet(s: &Spec) -> Length {
    if !s.weld_on {
        return Length::ZERO;
    }
    let forces = s.seat_load.as_ref().map(|load| {
        let side = load.value * common::side_share(s.side_factor.as_ref());
        strength::Forces::at_the_top(s, load.value, side)
    });
    crate::families::common::welded::leg_of(&s.common, &lathe::weld_of(s, forces.as_ref()))
}

/// Forces on a cone that stands by itself: the ring of contact is not known, so they are taken at the top of the flank.
fn own_forces(design: &mut Design, s: &Spec) -> Option<strength::Forces> {
    let load = s.seat_load.as_ref()?;
    design.given(&read::SEAT_LOAD, load, Value::Force);
    let side = common::side_force(design, &read::SIDE_FACTOR, s.side_factor.as_ref(), load.value);
    Some(strength::Forces::at_the_top(s, load.value, side))
}

fn bolt_sizes(design: &mut Design, s: &Spec) {
    let Some(bolt) = &s.bolt else { return };
    design.given_text(&read::THREAD, &bolt.thread);
    common::bolt_steel(design, &bolt.steel);
    if let Some(bolted) = lathe::clamped(s) {
        bolted::record(design, &bolted);
    }
    common::packed::record(design, bolt.packing.as_ref(), Some(&bolt.size), s.seat_load.is_some());
    if lathe::clamped(s).is_some() {
        let formula = common::clearance_from(&bolt.size);
        design.computed_length(&sizes::CROSSBAR_HOLE, bolt.clearance, formula);
        common::general_limits(design, &s.common, &[&sizes::CROSSBAR_HOLE]);
    }
    if bolt.register {
        location::register(design, sizes::widest(s), s.foot_width());
    } else {
        location::bolts_alone(design, bolt.clearance, bolt.size.major);
    }
    match bolt.kind {
        BoltKind::Through { hole, recess } => {
            design.computed_length(&sizes::BOLT_HOLE, hole, common::clearance_from(&bolt.size));
            match recess {
                Recess::Counterbore { diameter, depth } => {
                    design.computed_length(
                        &sizes::COUNTERBORE_DIAMETER,
                        diameter,
                        "room for the head of a socket head screw",
                    );
                    design.computed_length(
                        &sizes::COUNTERBORE_DEPTH,
                        depth,
                        "room for the head, as tabulated or as written",
                    );
                }
                Recess::Countersink { diameter, included } => {
                    design.computed_length(&sizes::COUNTERSINK_DIAMETER, diameter, "head of a countersunk screw");
                    design.computed(&sizes::COUNTERSINK_ANGLE, Value::Angle(included), "of the thread's standard head");
                }
                Recess::None => {}
            }
        }
        BoltKind::FromBelow { tap_drill, depth } => tapped(design, s, bolt, tap_drill, depth),
    }
}

/// The tapped hole: drill by its name, depths, and how the drawing calls it.
fn tapped(design: &mut Design, s: &Spec, bolt: &read::Bolt, tap_drill: Length, depth: Length) {
    let tap = bolt.size.tap_drill();
    design.computed_length(&sizes::TAP_DRILL, tap_drill, tap.source);
    let or = tap.other.as_ref().map_or_else(String::new, |other| format!(" or {}", other.name));
    let name = Value::Text(format!("{}{or}", tap.drill.name));
    design.computed(&sizes::TAP_DRILL_NAME, name, "ASME B94.11M and ISO 235 sizes");
    let share = Value::Share((bolt.size.share(tap_drill) * 100.0).round() / 100.0);
    design.computed(&sizes::THREAD_SHARE, share, "(D - d)/(1.299 P)");
    design.computed_length(&sizes::THREAD_DEPTH, depth, "as written, or 1.5 thread diameters");
    design.computed_length(&sizes::DRILL_DEPTH, read::drilled_depth(depth, &bolt.size), "full thread + 3 pitches");
    design.computed(&sizes::THREAD_CALLOUT, thread_callout(s, bolt), "ISO 6410: thread x depth / drill x depth");
}

/// `M12 × 18 / Ø10.2 × 23.25`, as ISO 6410 writes it.
fn thread_callout(s: &Spec, bolt: &read::Bolt) -> Value {
    let BoltKind::FromBelow { tap_drill, depth } = bolt.kind else { return Value::Text(bolt.thread.value.clone()) };
    let number = |l: Length| show::length_number(l.rounded(), s.common.header.unit);
    let deep = read::drilled_depth(depth, &bolt.size);
    Value::Text(format!("{} × {} / Ø{} × {}", bolt.size, number(depth), number(tap_drill), number(deep)))
}

/// The profile in (r, z), z up from the crossbar face.
pub fn solid(s: &Spec) -> Result<Turned, ShapeError> {
    let half = |d: Length| d / 2.0;
    let (foot, top) = (s.foot_height(), s.foot_height() + s.height);
    let radius = s.nose_radius();
    let tangent = radius * (Angle::degrees(45.0) - s.half_angle / 2.0).tan();
    let bore = bore(s, top);
    let start = bore.first().map_or(Point::ORIGIN, |p| *p);
    let path = Path::start(start)
        .line_to(Point::new(half(s.foot_width()), Length::ZERO))
        .line_or_nothing(Point::new(half(s.foot_width()), foot))
        .line_or_nothing(Point::new(half(s.base), foot))
        .line_to(Point::new(half(s.tip) + tangent * s.half_angle.sin(), top - tangent * s.half_angle.cos()));
    let flat = Point::new(half(s.tip) - tangent, top);
    let path = if radius > Length::ZERO {
        path.arc_to(flat, Point::new(flat.x(), top - radius), Turn::Anticlockwise)
    } else {
        path
    };
    let path = bore.iter().skip(1).rev().fold(path, |path, point| path.line_or_nothing(*point));
    Turned::from_profile(path.closed_edges()?)
}

/// Corners of the bore from its lower end upwards.
fn bore(s: &Spec, top: Length) -> Vec<Point> {
    let at = |diameter: Length, z: Length| Point::new(diameter / 2.0, z);
    let Some(bolt) = &s.bolt else { return vec![at(Length::ZERO, Length::ZERO), at(Length::ZERO, top)] };
    match bolt.kind {
        BoltKind::Through { hole, recess: Recess::None } => vec![at(hole, Length::ZERO), at(hole, top)],
        BoltKind::Through { hole, recess: Recess::Counterbore { diameter, depth } } => {
            vec![at(hole, Length::ZERO), at(hole, top - depth), at(diameter, top - depth), at(diameter, top)]
        }
        BoltKind::Through { hole, recess: Recess::Countersink { diameter, included } } => {
            vec![at(hole, Length::ZERO), at(hole, top - countersink_depth(hole, diameter, included)), at(diameter, top)]
        }
        BoltKind::FromBelow { tap_drill, depth } => {
            let deep = read::drilled_depth(depth, &bolt.size);
            let point = deep + read::drill_point(tap_drill);
            vec![at(tap_drill, Length::ZERO), at(tap_drill, deep), at(Length::ZERO, point), at(Length::ZERO, top)]
        }
    }
}
