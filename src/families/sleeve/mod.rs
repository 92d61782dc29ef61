//! A sleeve: its two diameters, how they fit shaft and housing, its wall, its pieces, and how to make it.

mod checks;
mod clearance;
mod draw;
mod fit;
mod levers;
mod made;
mod make;
mod pictures;
mod press;
mod pressing;
pub mod read;
mod remedy;
mod rollers;
mod runs_under;
mod secured;
mod service;
pub mod sizes;
mod surface;
mod weighed;

use crate::description::Fields;
use crate::families::common::coated::{self, Order};
use crate::families::common::{self, Side};
use crate::families::{Family, Workplace};
use crate::record::design::{Design, Value};
use crate::record::key::Size;
use crate::units::{Length, Mass, Volume};

use read::Spec;

/// The family's record.
pub const FAMILY: Family = Family {
    name: "sleeve",
    about: "a sleeve or raceway ring between a shaft and a housing, in one piece or in segments",
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
    design.header.material = Some(materials(&spec));
    sizes(&mut design, &spec, fields)?;
    coated::record(&mut design, &spec.common);
    let fits = fit::fits(&mut design, &spec, fields)?;
    service::at_service(&mut design, &spec, &fits);
    service::record(&mut design, &spec, &service::Service::of(&spec));
    press_fits(&mut design, &spec, &fits, fields)?;
    surface::record(&mut design, &spec);
    let machined = make::Machined::of(&design, &spec);
    let solids = make::solids(&spec, &machined).map_err(|error| fields.problem_here(error.to_string())).ok()?;
    let volumes: Vec<Volume> = solids.iter().map(|s| s.body.volume()).collect();
    masses(&mut design, &spec, &volumes);
    design.drawing = Some(draw::drawing(&design, &spec, &machined, &solids));
    design.solids = solids;
    let running = match (&spec.rollers, fields.table(&read::RUNS_UNDER)) {
        (Some(r), Some(table)) => Some(rollers::work(&mut design, &spec, r, &table)?),
        _ => None,
    };
    checks::checks(&mut design, &spec, &fits, running.as_ref());
    if let (Some(r), Some(running)) = (&spec.rollers, &running) {
        rollers::checks(&mut design, &spec, r, running);
    }
    make::operations(&mut design, &spec);
    common::kept_apart(&mut design, &spec.common);
    coat(&mut design, &spec, &machined);
    Some(design)
}

/// The order for the coating: what a fit, a bore on its shaft or rollers run on is not for a film.
fn coat(design: &mut Design, s: &Spec, machined: &make::Machined) {
    let mut masked: Vec<&str> = Vec::new();
    if s.shaft.is_some() {
        masked.push("the bore");
    }
    if s.housing.is_some() || s.rollers.is_some() {
        masked.push("the outside");
    }
    let line = if masked.is_empty() {
        String::new()
    } else {
        format!("Mask {}, or make it so much before that the fit is right after.", masked.join(" and "))
    };
    let mut grows =
        vec![(machined.bore.0, Side::Hole), (machined.outside.0, Side::Shaft), (&sizes::LENGTH, Side::Shaft)];
    let pieces: Vec<Size> =
        (0..s.segments.len()).flat_map(|i| [sizes::segment_length(i), sizes::segment_outside(i)]).collect();
    grows.extend(pieces.iter().map(|size| (size, Side::Shaft)));
    let wall = (s.outside.value - s.bore.value) / 2.0;
    coated::class_for(design, &s.common, wall);
    coated::order(design, &s.common, &Order { sizes: &grows, masked: &line, welded: false });
}

/// Works out whatever press fits the file has, with the pictures of all fits before theirs.
fn press_fits(design: &mut Design, s: &Spec, fits: &[fit::Joint], fields: &Fields) -> Option<()> {
    pictures::fits(design, fits);
    for (press, key, side) in [(&s.pressed_in, &read::PRESSED_IN, "outside"), (&s.slid_on, &read::SLID_ON, "bore")] {
        let (Some(press), Some(table)) = (press, fields.table(key)) else { continue };
        let Some(joint) = fits.iter().find(|j| j.at.word == side) else { continue };
        pressing::work(design, s, press, joint, &table)?;
    }
    Some(())
}

/// Material on the sheet: all of them, for a sleeve in pieces of several.
fn materials(s: &Spec) -> String {
    let mut names: Vec<&str> = s.segments.iter().map(|g| g.material.name.as_str()).collect();
    names.sort_unstable();
    names.dedup();
    if names.is_empty() { s.common.material.name.clone() } else { names.join(", ") }
}

fn sizes(design: &mut Design, s: &Spec, fields: &Fields) -> Option<()> {
    let bore = design.given_length(&read::BORE, &s.bore);
    let outside = design.given_length(&read::OUTSIDE_DIAMETER, &s.outside);
    design.given_length(&read::LENGTH, &s.length);
    for (key, chamfer) in [(&read::CHAMFER, &s.chamfer), (&read::BORE_CHAMFER, &s.bore_chamfer)] {
        if let Some(chamfer) = chamfer {
            design.given_length(key, chamfer);
        }
    }
    design.computed_length(&sizes::WALL, (outside - bore) / 2.0, "(D - d)/2");
    common::passes(design, &s.common, &sizes::BORE, common::Side::Hole, s.shaft.is_some());
    common::passes(design, &s.common, &sizes::OUTSIDE_DIAMETER, common::Side::Shaft, s.housing.is_some());
    common::general_limits(design, &s.common, &[&sizes::LENGTH]);
    if let Some(class) = &s.bore_class {
        common::class_limits(design, fields, &sizes::BORE, bore, class, common::Side::Hole)?;
    }
    if let Some(class) = &s.outside_class {
        common::class_limits(design, fields, &sizes::OUTSIDE_DIAMETER, outside, class, common::Side::Shaft)?;
    }
    if let Some(g) = &s.groove {
        design.computed_length(&sizes::GROOVE_POSITION, g.position, "as written, or the middle");
        design.written_length(&sizes::GROOVE_WIDTH, &g.width);
        design.written_length(&sizes::GROOVE_DEPTH, &g.depth);
        let floor = if g.inside { bore + g.depth.value * 2.0 } else { outside - g.depth.value * 2.0 };
        design.computed_length(&sizes::GROOVE_DIAMETER, floor, "diameter +/- 2 x depth");
        common::general_limits(
            design,
            &s.common,
            &[&sizes::GROOVE_POSITION, &sizes::GROOVE_WIDTH, &sizes::GROOVE_DIAMETER],
        );
    }
    if let Some(h) = &s.grease_hole {
        let stack = if s.segments.is_empty() { "" } else { " of the stack" };
        design.computed_length(
            &sizes::GREASE_HOLE_POSITION.called(format!("grease hole from the left end{stack}")),
            h.position,
            "as written, or the middle",
        );
        if let Some((name, from)) = read::piece_at(s, h.position) {
            // Where it can be measured: on the loose ring.
            design.computed_length(
                &sizes::GREASE_HOLE_ON_PIECE.called(format!("grease hole from the left end of the {name}")),
                h.position - from,
                "place in the stack less where the piece begins",
            );
            common::general_limits(design, &s.common, &[&sizes::GREASE_HOLE_ON_PIECE]);
        }
        design.written_length(&sizes::GREASE_HOLE_DIAMETER, &h.diameter);
        common::general_limits(design, &s.common, &[&sizes::GREASE_HOLE_POSITION, &sizes::GREASE_HOLE_DIAMETER]);
    }
    segment_sizes(design, s);
    design.principal(&[&sizes::BORE, &sizes::OUTSIDE_DIAMETER, &sizes::LENGTH]);
    Some(())
}

fn segment_sizes(design: &mut Design, s: &Spec) {
    let many = s.segments.len();
    for (i, g) in s.segments.iter().enumerate() {
        let size = sizes::segment_length(i).called(format!("length of {}", g.name));
        let formula = if g.given { "as written" } else { "what the other segments leave" };
        design.computed_length(&size, g.length, formula);
        common::plus_minus(design, &size, SEGMENT_LENGTHS / many as f64);
        if g.outside < s.outside.value {
            let size = sizes::segment_outside(i).called(format!("outside of {}", g.name));
            design.computed_length(&size, g.outside, "as written");
            common::general_limits(design, &s.common, &[&size]);
        }
    }
    if many > 0 {
        common::plus_minus(design, &sizes::LENGTH, SEGMENT_LENGTHS);
    }
}

/// Permitted error of all segment lengths together, per direction.
/// Source: common practice, no source.
const SEGMENT_LENGTHS: Length = Length::mm(0.06);

fn masses(design: &mut Design, s: &Spec, volumes: &[Volume]) {
    if s.segments.is_empty() {
        if let Some(volume) = volumes.first() {
            common::mass(design, &s.common.material, *volume, s.common.header.count);
        }
        return;
    }
    let mass: Mass = s.segments.iter().zip(volumes).map(|(g, v)| g.material.density * *v).sum();
    design.computed(
        &common::sizes::VOLUME,
        Value::Volume(volumes.iter().copied().sum()),
        "closed form of all segments",
    );
    design.computed(&common::sizes::MASS, Value::Mass(mass), "density of each segment x its volume");
}
