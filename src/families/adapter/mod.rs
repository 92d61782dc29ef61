//! An adapter: two bolt patterns and bores joined by one disc from plate, or by a spacer turned from bar.

mod bolting;
mod checks;
mod draw;
mod levers;
pub mod read;
mod shape;
pub mod sizes;
mod steps;

use crate::description::Fields;
use crate::families::common::coated::{self, Order};
use crate::families::common::{self, Side, bolted, location};
use crate::families::{Family, Workplace};
use crate::record::design::{Design, Limits, Table, Value};
use crate::record::key::{Given, Size};
use crate::shape::{Body, Contour, Cutting, Solid};
use crate::source::Confirmed;
use crate::units::Length;

use read::{Face, Spec, Way};

/// The family's record.
pub const FAMILY: Family = Family {
    name: "adapter",
    about: "two bolt patterns and bores joined by a flange or a spacer: registers, O-rings, gaskets, load",
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
    let refuse = |error: crate::shape::ShapeError| fields.problem_here(error.to_string());
    let flat = shape::flat(&spec).map_err(refuse).ok()?;
    let mut design = Design::new(spec.common.header.clone());
    record(&mut design, &spec, fields)?;
    for face in spec.faces() {
        face_sizes(&mut design, &spec, fields, face)?;
    }
    patterns(&mut design, &spec);
    coated::record(&mut design, &spec.common);
    common::mass(&mut design, &spec.common.material, flat.volume(), spec.common.header.count);
    if !spec.spacer && !spec.common.material.printed {
        let cutting = shape::cutting(&spec).map_err(refuse).ok()?;
        cut_figures(&mut design, &spec, &cutting);
        design.cutting = Some(cutting);
    }
    for face in spec.faces().into_iter().filter(|f| f.gasket.is_some()) {
        let gasket = shape::gasket(&spec, face).map_err(|e| fields.problem_here(format!("its gasket: {e}"))).ok()?;
        design.cut_pieces.push((format!("gasket-{}", face.which.word()), gasket));
    }
    checks::checks(&mut design, &spec);
    steps::operations(&mut design, &spec);
    coat(&mut design, &spec);
    common::kept_apart(&mut design, &spec.common, common::Joint::Laid);
    design.drawing = Some(draw::drawing(&spec, &flat));
    design.solids.push(Solid::only(Body::Flat(flat)));
    Some(design)
}

fn record(design: &mut Design, s: &Spec, fields: &Fields) -> Option<()> {
    design.given_length(&read::OUTSIDE_DIAMETER, &s.outside);
    design.given_length(&read::THICKNESS, &s.thickness);
    if let Some(bore) = &s.bore {
        let bore = design.given_length(&read::BORE, bore);
        if let Some(class) = &s.bore_class {
            common::class_limits(design, fields, &sizes::BORE, bore, class, Side::Hole)?;
        }
    }
    if let Some(below) = &s.bore_below {
        design.given_length(&read::BORE_BELOW, below);
    }
    let all = [&sizes::OUTSIDE_DIAMETER, &sizes::THICKNESS, &sizes::BORE, &sizes::BORE_BELOW];
    common::general_limits(design, &s.common, &all);
    if !s.spacer && !s.common.material.printed {
        design.computed_length(
            &sizes::BLANK_THICKNESS,
            shape::blank_thickness(s),
            if s.is_turned() {
                "with its spigots, 1 mm at least for a face that is turned, next plate sold"
            } else {
                "as it is written: both faces stay as they are rolled"
            },
        );
    }
    if let Some(load) = &s.load {
        if let Some(pull) = &load.pull {
            design.given(&read::PULL, pull, Value::Force);
        }
        if let Some(across) = &load.across {
            design.given(&read::ACROSS, across, Value::Force);
        }
        if let Some(lever) = &load.lever {
            design.given_length(&read::LEVER, lever);
        }
        if let Some(friction) = &load.friction {
            design.given(&read::FRICTION, friction, Value::Number);
        }
    }
    Some(())
}

/// What is recorded of a face.
fn face_sizes(design: &mut Design, s: &Spec, fields: &Fields, face: &Face) -> Option<()> {
    let which = face.which;
    design.written_length(&which.size(&read::CIRCLE), &face.circle);
    common::general_limits(design, &s.common, &[&which.size(&read::CIRCLE)]);
    design.computed(&which.size(&read::NUMBER), Value::Count(face.number.value), "as written");
    if let Some(first) = &face.first {
        design.computed(&which.size(&read::FIRST_ANGLE), Value::Angle(first.value), "as written");
    }
    let hole = sizes::hole(which);
    let formula = if face.tapped() { "tap drill" } else { common::clearance_from(&face.thread) };
    design.computed_length(&hole, face.hole, formula);
    if let Way::Counterbored(head) = face.way {
        design.computed_length(&sizes::counterbore(which), head.seat_diameter, "for a socket head, from memory");
        design.computed_length(
            &sizes::counterbore_depth(which),
            head.seat_depth,
            "a socket head and what clears it, from memory",
        );
        let all = [&sizes::counterbore(which), &sizes::counterbore_depth(which)];
        common::general_limits(design, &s.common, &all);
    }
    if face.tapped() {
        let through = if face.thread_depth.is_some() { "" } else { " through" };
        design.computed(&sizes::thread(which), Value::Text(format!("{}{through}", face.thread)), "as written");
    } else {
        common::general_limits(design, &s.common, &[&hole]);
    }
    if let (Some(depth), Some(drilled)) = (&face.thread_depth, face.drilled()) {
        design.written_length(&sizes::thread_depth(which), depth);
        design.computed_length(&sizes::drill_depth(which), drilled, "full thread and 3 pitches");
    }
    if let Some((onto, _)) = &face.onto {
        design.computed(&which.size(&read::ONTO), Value::Text(onto.value.clone()), "as written");
    }
    if let Some(onto) = &face.onto_thickness {
        design.written_length(&which.size(&read::ONTO_THICKNESS), onto);
    }
    if let Some(mate) = &face.mate_diameter {
        design.written_length(&which.size(&read::MATE_DIAMETER), mate);
    }
    if let Some(gasket) = &face.gasket {
        design.written_length(&which.size(&read::GASKET), gasket);
        design.computed_length(
            &sizes::gasket_outside(which),
            face.mate().min(s.outside.value),
            "as the mate, or the adapter",
        );
        if let Some(bore) = shape::gasket_bore(s, face) {
            design.computed_length(&sizes::gasket_bore(which), bore, "as the bore, or clear of the register");
        }
        design.computed_length(&sizes::gasket_hole(which), shape::gasket_hole(face), "1.1 d + 1 mm");
    }
    ring_sizes(design, s, face);
    register_sizes(design, s, fields, face)
}

/// A register and that of its mate, with their classes; how far the mate may sit off its place.
fn register_sizes(design: &mut Design, s: &Spec, fields: &Fields, face: &Face) -> Option<()> {
    let Some(register) = &face.register else { return Some(()) };
    let which = face.which;
    let (own, mate) = (sizes::register(which), sizes::mate_register(which));
    let (own_side, mate_side) = if register.spigot { (Side::Shaft, Side::Hole) } else { (Side::Hole, Side::Shaft) };
    let words = if register.spigot { "spigot" } else { "recess" };
    design.written_length(&own.called(format!("{words}, {} face", which.word())), &register.diameter);
    design.computed_length(&mate, register.diameter.value, "of the same nominal size");
    let high = if register.spigot { "height of the spigot" } else { "depth of the recess" };
    let height = sizes::register_height(which).called(format!("{high}, {} face", which.word()));
    design.written_length(&height, &register.height);
    common::general_limits(design, &s.common, &[&sizes::register_height(which)]);
    limit(design, fields, &own, register.class.as_ref(), own_side, register.diameter.value)?;
    limit(design, fields, &mate, register.mate_class.as_ref(), mate_side, register.diameter.value)?;
    for (key, class) in [(&read::REGISTER_CLASS, &register.class), (&read::MATE_CLASS, &register.mate_class)] {
        if let Some(class) = class {
            design.computed(&which.size(key), Value::Text(class.value.clone()), "as written");
        }
    }
    let limits = |size: &Size| design.dimension(size).and_then(|d| d.limits.clone());
    if let (Some(own), Some(mate)) = (limits(&own), limits(&mate)) {
        let (hole, shaft) = if register.spigot { (mate, own) } else { (own, mate) };
        let play = location::wander(hole.upper, shaft.lower);
        design.computed_length(&sizes::register_play(which), play, "(greatest recess - least spigot)/2");
    }
    Some(())
}

/// Limits by the class that is written, or by the close running fit H7/g6.
fn limit(
    design: &mut Design,
    fields: &Fields,
    size: &Size,
    class: Option<&Given<String>>,
    side: Side,
    nominal: Length,
) -> Option<()> {
    match class {
        Some(class) => common::class_limits(design, fields, size, nominal, class, side),
        None => {
            location::limits(design, size, nominal, if side == Side::Hole { read::RECESS } else { read::SPIGOT });
            Some(())
        }
    }
}

fn ring_sizes(design: &mut Design, s: &Spec, face: &Face) {
    let Some(r) = &face.ring else { return };
    let which = face.which;
    design.written_length(&which.size(&read::RING_SECTION), &r.section);
    design.written_length(&which.size(&read::RING_INSIDE), &r.inside);
    if let Some(wall) = &r.diameter {
        design.written_length(&which.size(&read::GROOVE_DIAMETER), wall);
    }
    let (inner, outer) = r.walls();
    let own = |given: bool| if given { "as written" } else { "grooves in a face, table after ISO 3601-2" };
    let wall =
        if r.diameter.is_some() { "as written" } else { "the wall that the ring just touches, and twice the width" };
    design.computed_length(&sizes::groove_inner(which), inner, wall);
    design.computed_length(&sizes::groove_outer(which), outer, wall);
    let depth = design.computed_length(&sizes::groove_depth(which), r.depth(), own(r.depth.is_some()));
    let width = design.computed_length(&sizes::groove_width(which), r.width(), own(r.width.is_some()));
    let mut over = |size: &Size, value: Length, over: Length| {
        let limits =
            Limits { lower: value, upper: value + over, by: "groove in a face".into(), confirmed: Confirmed::One };
        design.limit(size, limits);
    };
    over(&sizes::groove_depth(which), depth, r.row.depth_over);
    over(&sizes::groove_width(which), width, r.row.width_over);
    common::general_limits(design, &s.common, &[&sizes::groove_inner(which), &sizes::groove_outer(which)]);
}

/// Both patterns at a glance, and their bolts.
fn patterns(design: &mut Design, s: &Spec) {
    let unit = design.header.unit;
    let row = |face: &Face| {
        let how = match face.way {
            Way::Clearance => "clearance, heads on the other face",
            Way::Counterbored(_) => "counterbored from the other face",
            Way::Tapped if face.thread_depth.is_some() => "tapped, blind",
            Way::Tapped => "tapped through",
        };
        let first = face.first.as_ref().map_or(crate::units::Angle::ZERO, |a| a.value);
        vec![
            Value::Text(face.which.word().into()),
            Value::Count(face.number.value),
            Value::Length(face.circle.value.rounded()),
            Value::Angle(first),
            Value::Text(face.thread_written.value.clone()),
            Value::Length(face.hole.rounded()),
            Value::Text(how.into()),
        ]
    };
    design.tabulate(Table::new(
        sizes::PATTERNS_TABLE,
        "Bolt patterns, both seen from above",
        &["face", "bolts", "circle", "first at", "thread", "drilled", "how"],
        s.faces().map(row),
    ));
    let bolts = |face: &Face| {
        let b = bolting::bolted(s, face);
        let ([first, other], state) = bolted::tightening(&b, unit)?;
        let pull = bolted::pull(&b)?;
        let texts = [b.ordered(), format!("{first} ({other})"), state.to_string()].map(Value::Text);
        let [ordered, torque, state] = texts;
        Some(vec![Value::Text(face.which.word().into()), ordered, torque, state, Value::Force(pull)])
    };
    design.tabulate(Table::new(
        sizes::BOLTS_TABLE,
        "Bolts and how tight; in any other state of thread and head this torque does not hold",
        &["face", "bolts", "torque", "thread and head", "pull of one"],
        s.faces().into_iter().filter_map(bolts),
    ));
    let drawn_tight: Vec<_> = s.faces().into_iter().map(|face| bolting::bolted(s, face)).collect();
    bolted::torques(design, &drawn_tight.iter().collect::<Vec<_>>());
}

fn cut_figures(design: &mut Design, s: &Spec, cutting: &Cutting) {
    let outlines = || [cutting.outer()].into_iter().chain(cutting.holes());
    let length = outlines().map(Contour::perimeter).sum();
    design.computed(&sizes::CUT_AREA, Value::Area(cutting.area()), "outline less cut holes");
    design.computed_length(&sizes::CUT_LENGTH, length, "outline and holes");
    design.computed(&sizes::PIERCES, Value::Count(outlines().count() as u32), "one for each outline");
    common::ordered::plate(design, &s.common, shape::blank_thickness(s), s.common.header.count);
}

fn coat(design: &mut Design, s: &Spec) {
    coated::class_for(design, &s.common, s.thickness.value);
    let grows: &[(&Size, Side)] = &[(&sizes::OUTSIDE_DIAMETER, Side::Shaft), (&sizes::BORE, Side::Hole)];
    for face in s.faces().into_iter().filter(|f| !f.tapped()) {
        coated::passes(design, &s.common, &sizes::hole(face.which), face.thread.major, "the bolt");
    }
    let bare = "Mask both faces where the mates lie: what holds by friction stays bare.";
    let fits = " Plug tapped holes, mask registers and grooves: a film there takes the fit away.";
    let wanted = s.faces().into_iter().any(|f| f.tapped() || f.register.is_some() || f.ring.is_some());
    let masked = format!("{bare}{}", if wanted { fits } else { "" });
    coated::order(design, &s.common, &Order { sizes: grows, masked: &masked, ..Order::default() });
}
