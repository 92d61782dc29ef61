//! A flat plate: a bracket, a flange, a gusset; by its sizes or by a drawing, cut by laser, drilled, tapped and bolted on.

mod checks;
mod draw;
mod drawn;
mod levers;
mod make;
mod outline;
pub mod read;
pub mod sizes;

use crate::description::Fields;
use crate::families::common;
use crate::families::common::Side;
use crate::families::common::coated::{self, Order};
use crate::families::{Family, Workplace};
use crate::record::design::{Design, Table, Value};
use crate::record::key::Size;
use crate::shape::{Body, Contour, Cutting, Flat, Solid};

use read::{Made, Shape, Spec};

/// The family's record.
pub const FAMILY: Family = Family {
    name: "plate",
    about: "a flat plate with holes and slots: bracket, flange, gusset, by sizes or from a drawing",
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
    let shapes = outline::flat(&spec).and_then(|flat| Ok((outline::cutting(&spec)?, flat)));
    let (cutting, flat) = shapes.map_err(|error| fields.problem_here(error.to_string())).ok()?;
    let mut design = Design::new(spec.common.header.clone());
    outline_sizes(&mut design, &spec, &flat);
    let t = design.given_length(&read::THICKNESS, &spec.thickness);
    common::as_rolled(&mut design, &spec.common, &sizes::THICKNESS, t);
    coated::record(&mut design, &spec.common);
    if let Some(frame) = &spec.frame {
        design.computed(&read::ONTO.size(), Value::Text(frame.name.clone()), "as written");
    }
    if let Some(wall) = &spec.onto_thickness {
        design.given_length(&read::ONTO_THICKNESS, wall);
    }
    hole_sizes(&mut design, &spec);
    let cutting = Some(cutting).filter(|_| !spec.common.material.printed);
    if let Some(cutting) = &cutting {
        cut_figures(&mut design, cutting);
    }
    common::mass(&mut design, &spec.common.material, flat.volume(), spec.common.header.count);
    checks::checks(&mut design, &spec, &flat);
    make::operations(&mut design, &spec, flat.extents());
    coated::class_for(&mut design, &spec.common, spec.thickness.value);
    let order = Order { sizes: COATED, masked: masked(&spec), ..Order::default() };
    coated::order(&mut design, &spec.common, &order);
    common::kept_apart(&mut design, &spec.common, common::Joint::Laid);
    design.drawing = Some(draw::drawing(&spec, &flat));
    design.cutting = cutting;
    design.solids.push(Solid::only(Body::Flat(flat)));
    Some(design)
}

/// Sizes that a film changes.
const COATED: &[(&Size, Side)] = &[
    (&sizes::LENGTH, Side::Shaft),
    (&sizes::WIDTH, Side::Shaft),
    (&sizes::DIAMETER, Side::Shaft),
    (&sizes::THICKNESS, Side::Shaft),
];

fn masked(s: &Spec) -> &'static str {
    let tapped = s.holes.iter().any(|row| matches!(row.made, Made::Tapped(_)));
    match (tapped, s.holes.iter().any(|row| row.bolt().is_some())) {
        (true, true) => "Plug the tapped holes, and mask both faces round the bolts: a film under a tight bolt creeps.",
        (true, false) => "Plug the tapped holes.",
        (false, true) => "Mask both faces round the bolts: a film under a tight bolt creeps.",
        (false, false) => "",
    }
}

fn outline_sizes(design: &mut Design, s: &Spec, flat: &Flat) {
    match &s.shape {
        Shape::Rectangle { length, width, corner } => {
            design.given_length(&read::LENGTH, length);
            design.given_length(&read::WIDTH, width);
            if let Some(corner) = corner {
                design.given_length(&read::CORNER_RADIUS, corner);
            }
        }
        Shape::Disc(diameter) => {
            design.given_length(&read::DIAMETER, diameter);
        }
        Shape::Segment { diameter, bore, sweep } => {
            design.given_length(&read::DIAMETER, diameter);
            design.given_length(&read::BORE, bore);
            design.given(&read::SWEEP, sweep, Value::Angle);
        }
        Shape::Arm { length, width } => {
            design.given_length(&read::LENGTH, length);
            design.given_length(&read::WIDTH, width);
        }
        Shape::Gusset { length, width, blunt } => {
            design.given_length(&read::LENGTH, length);
            design.given_length(&read::WIDTH, width);
            design.given_length(&read::BLUNT, blunt);
        }
        Shape::Angle { length, width, leg, inner } => {
            design.given_length(&read::LENGTH, length);
            design.given_length(&read::WIDTH, width);
            design.given_length(&read::LEG, leg);
            if let Some(inner) = inner {
                design.given_length(&read::INNER_RADIUS, inner);
            }
        }
        Shape::Drawn { file, gap, .. } => {
            design.given_text(&read::OUTLINE, file);
            design.length_or(&read::GAP, gap.as_ref(), drawn::USUAL_GAP, "usual");
        }
    }
    let e = flat.extents();
    if design.dimension(&sizes::LENGTH).is_none() && design.dimension(&sizes::DIAMETER).is_none() {
        design.computed_length(&sizes::EXTENT_X, e.width(), "box around the outline");
        design.computed_length(&sizes::EXTENT_Y, e.height(), "box around the outline");
    }
    #[rustfmt::skip]
    let all = [
        &sizes::LENGTH, &sizes::WIDTH, &sizes::DIAMETER, &sizes::BORE, &sizes::CORNER_RADIUS, &sizes::LEG,
        &sizes::INNER_RADIUS, &sizes::BLUNT, &sizes::EXTENT_X, &sizes::EXTENT_Y,
    ];
    common::general_limits(design, &s.common, &all);
}

/// Records each row of holes, and the table of them.
fn hole_sizes(design: &mut Design, s: &Spec) {
    let mut rows = Vec::new();
    for (i, row) in s.holes.iter().enumerate() {
        let what = match (&row.made, &row.thread) {
            (Made::Tapped(thread), _) => format!("tapped {thread}"),
            (Made::Slot { .. }, Some((w, _))) => format!("slot for {}", w.value),
            (Made::Slot { .. }, None) => "slot".into(),
            (Made::Round, Some((w, _))) => format!("for {}", w.value),
            (Made::Round, None) => "round".into(),
        };
        let size = sizes::hole(i).called(format!("hole {}, {what}", i + 1));
        let formula = match (&row.made, &row.thread) {
            (Made::Tapped(_), _) => "tap drill",
            (_, Some((_, thread))) => match row.written {
                true => "as written",
                false => common::clearance_from(thread),
            },
            _ => "as written",
        };
        design.computed_length(&size, row.diameter, formula);
        if let Made::Tapped(thread) = &row.made {
            design.computed(&sizes::thread(i), Value::Text(thread.to_string()), "as written, through");
        }
        if !matches!(row.made, Made::Tapped(_)) {
            common::general_limits(design, &s.common, &[&size]);
        }
        let bolt = row.bolt().map_or_else(String::new, |_| format!(", class {}", row.steel.class.name));
        rows.push((i, row, what + &bolt));
    }
    let row = |(i, row, what): (usize, &read::Holes, String)| {
        let first = row.centres.first().copied().unwrap_or_default();
        let long = match &row.made {
            Made::Slot { length, .. } => Value::Length(length.value.rounded()),
            _ => Value::Text("-".into()),
        };
        let circle = row.circle.as_ref().map_or(Value::Text("-".into()), |c| Value::Length(c.value.rounded()));
        vec![
            Value::Count(i as u32 + 1),
            Value::Count(row.centres.len() as u32),
            Value::Length(row.diameter.rounded()),
            long,
            Value::Length(first.x().rounded()),
            Value::Length(first.y().rounded()),
            circle,
            Value::Text(what),
        ]
    };
    design.tabulate(Table::new(
        sizes::HOLES_TABLE,
        "Holes: the first of each row by x and y; others on its circle",
        &["hole", "number", "wide", "long", "x", "y", "circle", "what it is"],
        rows.into_iter().map(row),
    ));
    design.at_hand.push(sizes::HOLES_TABLE);
}

fn cut_figures(design: &mut Design, cutting: &Cutting) {
    let outlines = || [cutting.outer()].into_iter().chain(cutting.holes());
    let length = outlines().map(Contour::perimeter).sum();
    design.computed(&sizes::CUT_AREA, Value::Area(cutting.area()), "outline less cut holes");
    design.computed_length(&sizes::CUT_LENGTH, length, "outline and holes");
    design.computed(&sizes::PIERCES, Value::Count(outlines().count() as u32), "one for each outline");
}
