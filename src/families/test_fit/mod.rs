//! A try-out: a ladder of holes, pins or slots, a stair of feelers, a gauge for an angle, a bore or a shaft. It is made before metal
//! is cut, and what is read on it goes back into the figures.

mod checks;
mod draw;
mod levers;
mod made;
pub mod read;
mod shape;
pub mod sizes;
mod steps;

use crate::description::Fields;
use crate::families::common::{self, Side};
use crate::families::{Family, Workplace};
use crate::record::design::{Design, Value};
use crate::shape::{Body, Cutting, Flat, ShapeError, Solid};
use crate::units::Length;

use read::{Ladder, Made, Spec};

/// The family's record.
pub const FAMILY: Family = Family {
    name: "test-fit",
    about: "a try-out before metal is cut: ladder of holes, pins or slots, stair of feelers, gauge for angle, bore or shaft",
    keys: read::KEYS,
    work,
    made: made::findings,
    remedies: levers::REMEDIES,
    long: false,
    template: include_str!("template.toml"),
    companions: &[],
};

/// What is made of a try-out.
enum Form {
    /// From plate, or printed flat.
    Flat(Flat),
    /// Turned, or printed upright.
    Turned(Vec<Solid>),
}

fn work(fields: &Fields, place: &Workplace) -> Option<Design> {
    let spec = read::read(fields, place)?;
    let mut design = Design::new(spec.common.header.clone());
    written(&mut design, &spec);
    let form = match &spec.made {
        Made::Ladder { .. } => ladder(&mut design, &spec),
        Made::Edge { .. } => edge(&mut design, &spec),
        Made::Limits { plug, nominal, class } => {
            let side = if *plug { Side::Hole } else { Side::Shaft };
            let gauged = read::NOMINAL.size();
            common::class_limits(&mut design, fields, &gauged, nominal.value, class, side)?;
            let limits = design.dimension(&gauged).and_then(|d| d.limits.clone())?;
            gauge(&mut design, &spec, (limits.lower, limits.upper))
        }
    };
    let form = form.map_err(|error| fields.problem_here(error.to_string())).ok()?;
    let volume = match &form {
        Form::Flat(flat) => flat.volume(),
        Form::Turned(solids) => solids.iter().map(|s| s.body.volume()).sum(),
    };
    common::mass(&mut design, &spec.common.material, volume, spec.common.header.count);
    checks::checks(&mut design, &spec, &form);
    steps::operations(&mut design, &spec);
    design.drawing = draw::drawing(&spec, &design, &form);
    match form {
        Form::Flat(flat) => {
            if !spec.common.material.printed {
                design.cutting = Some(Cutting::of_flat(&flat).map_err(|e| fields.problem_here(e.to_string())).ok()?);
            }
            design.solids.push(Solid::only(Body::Flat(flat)));
        }
        Form::Turned(solids) => design.solids = solids,
    }
    Some(design)
}

/// Records what the file says.
fn written(design: &mut Design, s: &Spec) {
    let w = &s.written;
    let lengths = [
        (&read::NOMINAL, &w.nominal),
        (&read::STEP, &w.step),
        (&read::LENGTH, &w.length),
        (&read::THICKNESS, &w.thickness),
    ];
    for (key, given) in lengths {
        if let Some(given) = given {
            design.given_length(key, given);
        }
    }
    if let Some(number) = &w.number {
        design.given(&read::NUMBER, number, Value::Count);
    }
    match &s.made {
        Made::Edge { half_angle, .. } => {
            design.given(&read::HALF_ANGLE, half_angle, Value::Angle);
        }
        Made::Limits { class, .. } => design.given_text(&read::CLASS, class),
        Made::Ladder { tried: Some(tried), .. } => {
            design.given_length(&read::TRIED_WITH, &tried.with);
            design.given(&read::FITS_AT, &tried.fits_at, Value::Count);
        }
        Made::Ladder { .. } => {}
    }
}

fn ladder(design: &mut Design, s: &Spec) -> Result<Form, ShapeError> {
    let Made::Ladder { kind, rungs, length, thickness, .. } = &s.made else {
        return Ok(Form::Turned(Vec::new()));
    };
    for (i, rung) in rungs.iter().enumerate() {
        design.computed_length(&sizes::rung(*kind, i), *rung, "the middle of the ladder and its step");
    }
    match kind {
        Ladder::Holes | Ladder::Slots => {
            let across = if *kind == Ladder::Slots { *length } else { rungs.last().copied().unwrap_or(*length) };
            let strip = shape::strip(rungs, across)?;
            design.computed_length(&sizes::OVERALL, strip.long, "rungs and what lies between them");
            design.computed_length(&sizes::ACROSS, strip.wide, "rungs and what lies beside them");
            shape::of_strip(&strip, *kind, rungs, *length, *thickness).map(Form::Flat)
        }
        Ladder::Treads => {
            let flat = shape::stair(rungs, *length, *thickness)?;
            design.computed_length(&sizes::OVERALL, flat.extents().width(), "treads end to end");
            Ok(Form::Flat(flat))
        }
        Ladder::Pins => shape::pins(rungs, *length, s.common.material.printed).map(Form::Turned),
    }
}

fn edge(design: &mut Design, s: &Spec) -> Result<Form, ShapeError> {
    let Made::Edge { half_angle, height, thickness } = &s.made else { return Ok(Form::Turned(Vec::new())) };
    let flat = shape::edge(half_angle.value, *height, *thickness)?;
    design.computed_length(&sizes::EDGE, shape::edge_length(half_angle.value, *height), "(h - relief)/cos a");
    Ok(Form::Flat(flat))
}

/// Gauges at the two limits of what is gauged.
fn gauge(design: &mut Design, s: &Spec, (least, greatest): (Length, Length)) -> Result<Form, ShapeError> {
    let Made::Limits { plug, nominal, .. } = &s.made else { return Ok(Form::Turned(Vec::new())) };
    let share = (greatest - least) * checks::GAUGE_SHARE;
    if *plug {
        checks::limit(design, &sizes::GO, (least, least + share), "least size of the bore");
        checks::limit(design, &sizes::NOT_GO, (greatest - share, greatest), "greatest size of the bore");
        let plug = shape::plug(least, greatest)?;
        design.computed_length(&sizes::GO_LENGTH, plug.go_length, "1.5 d");
        design.computed_length(&sizes::NOT_GO_LENGTH, plug.not_go_length, "0.75 d");
        design.computed_length(&sizes::OVERALL, plug.overall, "both ends and the neck");
        return Ok(Form::Turned(vec![Solid::only(Body::Turned(plug.solid))]));
    }
    checks::limit(design, &sizes::GO_RING, (greatest - share, greatest), "greatest size of the shaft");
    checks::limit(design, &sizes::NOT_GO_RING, (least, least + share), "least size of the shaft");
    let (outside, thick) = shape::ring_sizes(nominal.value);
    design.computed_length(&sizes::RING_OUTSIDE, outside, "1.8 d, d + 16 mm at least");
    design.computed_length(&sizes::RING_THICK, thick, "0.6 d, 10 mm at least");
    common::general_limits(design, &s.common, &[&sizes::RING_OUTSIDE, &sizes::RING_THICK]);
    let ring = |name: &str, bore: Length| {
        Ok(Solid::named(name, Body::Turned(crate::shape::Turned::ring(bore, outside, thick)?)))
    };
    Ok(Form::Turned(vec![ring("go", greatest)?, ring("not-go", least)?]))
}
