//! A cup plate: the plate on the frame whose hole takes a cone; where it touches, how high it sits, what it forgives.

mod checks;
mod draw;
mod entry_face;
mod levers;
mod made;
mod make;
pub mod read;
mod remedy;
mod route;
pub mod seat;
pub mod sizes;
mod strength;

use crate::description::Fields;
use crate::families::common::coated::{self, Order};
use crate::families::common::{self, Side};
use crate::families::common::{bolted, location};
use crate::families::cone::strength::Forces;
use crate::families::{self, Family, Workplace};
use crate::formulas::seating;
use crate::record::design::{AngleLimits, Design, LEAST_LIMIT, Limits, Value};
use crate::record::drawing::View;
use crate::record::key::Given;
use crate::record::key::Size;
use crate::record::wants::waits_for;
use crate::shape::{Body, Solid};
use crate::source::Confirmed;
use crate::standards::iso2768;
use crate::standards::processes::Process;
use crate::units::{Angle, Force, Length};

use read::{Edge, Hole, Pattern, Plate, Spec};

/// The family's record.
pub const FAMILY: Family = Family {
    name: "cup",
    about: "a flat plate whose hole takes a cone: round, slot, step-drilled or turned",
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
    plate_sizes(&mut design, &spec);
    coated::record(&mut design, &spec.common);
    hole_sizes(&mut design, &spec, fields)?;
    mounting_sizes(&mut design, &spec);
    let main = route::main_hole(&design, &spec);
    let shapes = make::flat(&spec).and_then(|flat| Ok((make::cutting(&spec, main)?, flat)));
    let (cutting, flat) = shapes.map_err(|error| fields.problem_here(error.to_string())).ok()?;
    if let Some(cut) = main.filter(|route| route.last != Process::LaserCut).and_then(|route| route.cut) {
        design.computed_length(&sizes::CUT_DIAMETER, cut, "less its deviation, the lean of both walls, the hard skin");
    }
    let cutting = Some(cutting).filter(|_| !spec.common.material.printed);
    if let Some(cutting) = &cutting {
        design.computed(&sizes::CUT_AREA, Value::Area(cutting.area()), "outline less cut holes");
    }
    common::mass(&mut design, &spec.common.material, flat.volume(), spec.common.header.count);
    let load = load(&mut design, &spec);
    let seat = spec.mate.as_ref().map(|mate| seat::seat(&mut design, &spec, mate));
    let forces = seat.as_ref().zip(load).map(|(seat, (down, side))| Forces {
        down,
        side,
        height: seat.height,
        contact: seat.contact,
        seated: true,
    });
    let forces = forces.or_else(|| load.map(|(down, side)| strength::on_the_rim(&spec, down, side)));
    checks::checks(&mut design, &spec, seat.as_ref(), forces.as_ref());
    make::operations(&mut design, &spec, main, forces.as_ref());
    coat(&mut design, &spec);
    common::kept_apart(&mut design, &spec.common, common::Joint::Laid);
    location::greased(&mut design);
    // The blank is ordered at once: the longest wait of the job does not stand behind the cone.
    let here = design.operations.iter().map(|o| o.at).find(|at| *at != "laser cutter");
    design.wants.waits = spec.mate.iter().map(|mate| waits_for(&mate.cone.common.header.stem, here)).collect();
    design.drawing = place.depth.is_shown().then(|| draw::drawing(&spec, &flat, seat.as_ref()));
    design.cutting = cutting;
    design.solids.push(Solid::only(Body::Flat(flat)));
    Some(design)
}

/// The cup for what is made to it: as measured where all its pieces were, else as drawn.
pub fn for_mate(fields: &Fields, place: &Workplace) -> Option<Spec> {
    let spec = read::read(fields, place)?;
    if place.as_drawn || !fields.has(&common::MEASURED) {
        return Some(spec);
    }
    let design = families::worked(&FAMILY, fields, place)?;
    Some(made::as_made(spec, &design))
}

/// A section through the cup on a cone, where they touch by the sizes alone; `None` where no ring of the hole carries.
pub fn seated(title: &str, s: &Spec, cone: &super::cone::read::Spec) -> Option<View> {
    let found = seating::seat(cone.base, cone.half_angle, &seat::corners(s), Length::ZERO)?;
    let flat = make::flat(s).ok()?;
    draw::seated(title, &draw::across(s, &flat), cone, found.height, found.contact_diameter)
}

/// Between which heights the entry face stands over the face that this cone stands on, by all limits of both sheets.
pub fn gap_limits(s: &Spec, cone: &super::cone::read::Spec, fields: &Fields) -> Option<(Length, Length)> {
    let mut design = Design::new(s.common.header.clone());
    plate_sizes(&mut design, s);
    hole_sizes(&mut design, s, fields)?;
    seat::gap_ends(&design, s, cone)
}

/// Mouth of a turned seat on the entry face, d + 2 t tan b.
/// Source: geometry of the cone.
pub fn seat_mouth(small: Length, half_angle: Angle, thickness: Length) -> Length {
    small + thickness * crate::formulas::turning::taper_ratio(half_angle)
}

/// Sizes that a film changes, and whether it closes them.
const COATED: &[(&Size, Side)] = &[
    (&sizes::LENGTH, Side::Shaft),
    (&sizes::WIDTH, Side::Shaft),
    (&sizes::DIAMETER, Side::Shaft),
    (&sizes::THICKNESS, Side::Shaft),
    (&sizes::HOLE_DIAMETER, Side::Hole),
    (&sizes::SLOT_LENGTH, Side::Hole),
    (&sizes::MOUNTING_HOLE, Side::Hole),
];

/// What the coating does to the plate's holes and the seat, and the order for it.
fn coat(design: &mut Design, s: &Spec) {
    if let Some(mate) = &s.mate {
        let rise = seat::film_rise(s, &mate.cone);
        if let Some(Value::Length(bare)) =
            design.dimension(&sizes::SEAT_HEIGHT).filter(|_| rise > Length::ZERO).map(|d| d.value.clone())
        {
            design.computed_length(&sizes::COATED_SEAT_HEIGHT, bare + rise, "h + films/sin a");
        }
    }
    if s.common.coating.is_none() {
        return;
    }
    if let (Hole::Turned { half_angle, .. }, None) = (&s.hole, &s.mate) {
        let rise = seating::coating_rise(s.film(), Length::ZERO, half_angle.value);
        design.computed_length(&sizes::COATING_RISE, rise, "film/sin b");
    }
    coated::class_for(design, &s.common, s.thickness.value);
    if let Some(size) = s.mounting.as_ref().and_then(|m| m.size) {
        coated::passes(design, &s.common, &sizes::MOUNTING_HOLE, size.major, "the bolt");
    }
    let dowels = s.mounting.as_ref().is_some_and(|m| m.dowels.is_some());
    let rim = if s.seat_masked {
        "Mask the hole and its rim, which meet the cone: they stay bare, and greased."
    } else {
        "Mask the rim that meets the cone where heights count, and write seat_masked = true: there the film wears through."
    };
    let dowels = if dowels { " The dowel holes are reamed afterwards, through the film." } else { "" };
    let grows: Vec<(&Size, Side)> =
        COATED.iter().copied().filter(|(size, _)| !s.seat_masked || !of_the_seat(size)).collect();
    let masked = format!("{rim}{dowels}");
    coated::order(
        design,
        &s.common,
        &Order { sizes: &grows, masked: &masked, welded: s.mounting.is_none(), ..Order::default() },
    );
}

/// Whether a size is that of the hole that meets the cone.
fn of_the_seat(size: &Size) -> bool {
    [&sizes::HOLE_DIAMETER, &sizes::SLOT_LENGTH].iter().any(|of| of.name() == size.name())
}

/// Records the load on the seat; gives what acts down and across.
fn load(design: &mut Design, s: &Spec) -> Option<(Force, Force)> {
    let load = s.seat_load.as_ref()?;
    design.given(&read::SEAT_LOAD, load, Value::Force);
    let side = common::side_force(design, &read::SIDE_FACTOR, s.side_factor.as_ref(), load.value);
    Some((load.value, side))
}

fn plate_sizes(design: &mut Design, s: &Spec) {
    match &s.plate {
        Plate::Rectangle { length, width, corner } => {
            let length = design.given_length(&read::LENGTH, length);
            design.length_or(&read::WIDTH, width.as_ref(), length, "as the length");
            if let Some(corner) = corner {
                design.given_length(&read::CORNER_RADIUS, corner);
            }
        }
        Plate::Round(diameter) => {
            design.given_length(&read::DIAMETER, diameter);
        }
    }
    design.given_length(&read::THICKNESS, &s.thickness);
    common::general_limits(
        design,
        &s.common,
        &[&sizes::LENGTH, &sizes::WIDTH, &sizes::DIAMETER, &sizes::CORNER_RADIUS],
    );
    common::as_rolled(design, &s.common, &sizes::THICKNESS, s.thickness.value.rounded());
}

/// Records the hole; its limits come from its class, or else from the general tolerance.
fn hole_sizes(design: &mut Design, s: &Spec, fields: &Fields) -> Option<()> {
    match &s.hole {
        Hole::Round { diameter, class, edge } => {
            design.written_length(&sizes::HOLE_DIAMETER, diameter);
            match class {
                Some(class) => common::class_limits(
                    design,
                    fields,
                    &sizes::HOLE_DIAMETER,
                    diameter.value,
                    class,
                    common::Side::Hole,
                )?,
                None => common::general_limits(design, &s.common, &[&sizes::HOLE_DIAMETER]),
            }
            edge_size(design, s, edge);
        }
        Hole::Slot { width, length, direction, edge } => {
            design.written_length(&sizes::HOLE_DIAMETER.called("slot width"), width);
            design.written_length(&sizes::SLOT_LENGTH, length);
            let given_direction = direction;
            let direction = direction.as_ref().map_or(Angle::ZERO, |d| d.value);
            design.computed(&sizes::SLOT_DIRECTION, Value::Angle(direction), "as written, or along x");
            design.computed(
                &sizes::SLOT_ON_FACE,
                Value::Angle(entry_face::on_entry_face(given_direction.as_ref())),
                "the other way round than from above",
            );
            design.computed_length(&sizes::SLOT_TRAVEL, length.value - width.value, "length - width");
            common::general_limits(design, &s.common, &[&sizes::HOLE_DIAMETER, &sizes::SLOT_LENGTH]);
            edge_size(design, s, edge);
        }
        Hole::Stepped { .. } => make::stepped_sizes(design, s),
        Hole::Turned { small, half_angle, allowance } => turned_sizes(design, s, small, half_angle, allowance.as_ref()),
    }
    design.principal(&[&sizes::HOLE_DIAMETER, &sizes::SLOT_LENGTH, &sizes::STOP_DEPTH, &sizes::SEAT_MOUTH]);
    Some(())
}

/// Records a turned seat. Its mouth is held: that is measured while it is bored. Its far face follows from the mouth, from the
/// plate as thick as it is, and from the angle.
fn turned_sizes(
    design: &mut Design,
    s: &Spec,
    small: &Given<Length>,
    half_angle: &Given<Angle>,
    allowance: Option<&Given<Length>>,
) {
    design.written_length(&sizes::HOLE_DIAMETER.called("seat diameter, far face, follows"), small);
    design.given(&read::SEAT_HALF_ANGLE, half_angle, Value::Angle);
    design.limit_angle(&sizes::HALF_ANGLE, seat_angle_limits(s, half_angle.value));
    design.computed_length(
        &sizes::SEAT_MOUTH,
        seat_mouth(small.value, half_angle.value, s.thickness.value),
        "d + 2 t tan b",
    );
    let formula = "deviation of the cut, lean of both walls, hard skin";
    design.length_or(&read::ALLOWANCE, allowance, route::turning_allowance(s), formula);
    common::general_limits(design, &s.common, &[&sizes::SEAT_MOUTH]);
    let limits = |design: &Design, size: &Size| design.dimension(size).and_then(|d| d.limits.clone());
    let (Some(mouth), Some(plate)) = (limits(design, &sizes::SEAT_MOUTH), limits(design, &sizes::THICKNESS)) else {
        return;
    };
    let angle = seat_angle_limits(s, half_angle.value);
    let (lower, upper) = (
        far_face(mouth.lower, angle.upper, plate.upper).max(LEAST_LIMIT),
        far_face(mouth.upper, angle.lower, plate.lower),
    );
    let by = "follows: mouth, plate, angle".into();
    design.limit(&sizes::HOLE_DIAMETER, Limits { lower, upper, by, confirmed: mouth.confirmed });
}

/// Limits of a seat's half-angle: ISO 2768-1 by the shorter leg of the angle, the plate's thickness. A seat that narrows keeps
/// narrowing: the least is never below a hundredth of the angle.
pub fn seat_angle_limits(s: &Spec, half_angle: Angle) -> AngleLimits {
    let found = iso2768::general_angle_tolerance(s.common.general, s.thickness.value);
    let (tolerance, confirmed) = found.map_or((Angle::ZERO, Confirmed::Memory), |t| (t.value, t.confirmed));
    AngleLimits {
        lower: (half_angle - tolerance).max(half_angle / 100.0),
        upper: (half_angle + tolerance).min(Angle::degrees(89.0).max(half_angle)),
        by: format!("ISO 2768-{}", s.common.general),
        confirmed,
    }
}

/// Far face of a turned seat from its mouth, D - 2 t tan b.
/// Source: geometry of the cone.
pub fn far_face(mouth: Length, half_angle: Angle, thickness: Length) -> Length {
    mouth - thickness * crate::formulas::turning::taper_ratio(half_angle)
}

fn edge_size(design: &mut Design, s: &Spec, edge: &Edge) {
    let (key, given) = match edge {
        Edge::Sharp => return,
        Edge::Chamfer(c) => (&read::CHAMFER, c),
        Edge::Radius(r) => (&read::RIM_RADIUS, r),
    };
    let (size, width) = (key.size(), design.given_length(key, given));
    common::general_limits(design, &s.common, &[&size]);
    if design.dimension(&size).is_some_and(|d| d.limits.is_none()) {
        common::plus_minus(design, &size, (width / 2.0).min(SMALL_BREAK));
    }
}

/// How well a break below 0.5 mm is kept, where the general tolerances end; half of it at most.
/// Source: common practice, no source.
const SMALL_BREAK: Length = Length::mm(0.2);

fn mounting_sizes(design: &mut Design, s: &Spec) {
    let Some(m) = &s.mounting else { return };
    if let Some(thread) = &m.thread {
        design.given_text(&read::BOLT, thread);
        common::bolt_steel(design, &m.steel);
    }
    if let Some(wall) = &s.frame_wall {
        design.given_length(&read::FRAME_WALL, wall);
    }
    if let Some(bolted) = make::clamped(s) {
        bolted::record(design, &bolted);
    }
    common::packed::record(design, m.packing.as_ref(), m.size.as_ref(), s.seat_load.is_some());
    match &m.given_hole {
        Some(hole) => design.written_length(&sizes::MOUNTING_HOLE, hole),
        None => {
            let formula = m.size.as_ref().map_or("as written", common::clearance_from);
            design.computed_length(&sizes::MOUNTING_HOLE, m.hole, formula);
        }
    }
    if let Some(size) = m.size {
        design.computed_length(
            &sizes::MOUNTING_POSITION,
            m.hole - size.major,
            "hole - bolt: floating bolts, ASME Y14.5-2009 appendix B",
        );
    }
    match &m.pattern {
        Pattern::Rectangle(_) => {
            let (x, y) = m.centres().first().map_or((Length::ZERO, Length::ZERO), |c| (c.0 * 2.0, c.1 * 2.0));
            design.computed_length(&sizes::MOUNTING_SPACING_X, x, "as written");
            design.computed_length(&sizes::MOUNTING_SPACING_Y, y, "as written");
        }
        Pattern::Circle { diameter, number, first } => {
            design.given_length(&read::CIRCLE, diameter);
            design.computed(&sizes::NUMBER, Value::Count(*number), "as written, or 4");
            design.computed(&sizes::FIRST_ANGLE, Value::Angle(*first), "as written, or along x");
        }
    }
    common::general_limits(
        design,
        &s.common,
        &[&sizes::MOUNTING_HOLE, &sizes::MOUNTING_SPACING_X, &sizes::MOUNTING_SPACING_Y, &sizes::CIRCLE],
    );
    match (&m.dowels, m.size) {
        (Some(dowels), _) => {
            design.written_length(&sizes::DOWEL_SPACING.called("dowel spacing along x"), &dowels.spacing);
            common::general_limits(design, &s.common, &[&sizes::DOWEL_SPACING]);
            location::dowels(design, dowels.diameter.value);
        }
        (None, Some(size)) => {
            let greatest =
                design.dimension(&sizes::MOUNTING_HOLE).and_then(|d| d.limits.as_ref()).map_or(m.hole, |l| l.upper);
            location::bolts_alone(design, greatest, size.major);
        }
        (None, None) => {}
    }
}
