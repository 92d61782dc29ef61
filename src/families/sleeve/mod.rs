//! A sleeve: its two diameters, how they fit shaft and housing, its wall, its pieces, and how to make it.

mod checks;
mod clearance;
mod draw;
mod levers;
mod make;
pub mod read;
mod rollers;
mod runs_under;
pub mod sizes;

use crate::description::Fields;
use crate::families::common::ring::make::Machined;
use crate::families::common::ring::{self, service};
use crate::families::common::{self, coated};
use crate::families::{Family, Workplace};
use crate::record::design::{Design, Value};
use crate::units::{Length, Mass, Volume};

use read::Spec;

/// The family's record.
pub const FAMILY: Family = Family {
    name: "sleeve",
    about: "a sleeve or raceway ring between a shaft and a housing, in one piece or in segments",
    keys: read::KEYS,
    work,
    made,
    remedies: levers::REMEDIES,
    long: false,
    template: include_str!("template.toml"),
    companions: &[],
};

fn made(design: &mut Design, fields: &Fields, place: &Workplace) {
    if let Some(spec) = read::read(fields, place) {
        ring::made::findings(design, &spec.ring);
    }
}

fn work(fields: &Fields, place: &Workplace) -> Option<Design> {
    let spec = read::read(fields, place)?;
    let mut design = Design::new(spec.ring.common.header.clone());
    design.header.material = Some(materials(&spec));
    sizes(&mut design, &spec, fields)?;
    coated::record(&mut design, &spec.ring.common);
    let fits = ring::fit::fits(&mut design, &spec.ring, fields)?;
    service::at_service(&mut design, &spec.ring, &fits);
    service::record(&mut design, &spec.ring, &service::Service::of(&spec.ring));
    ring::press_fits(&mut design, &spec.ring, &fits, fields)?;
    ring::surface::record(&mut design, &spec.ring);
    let machined = Machined::of(&design, &spec.ring);
    let solids = make::solids(&spec, &machined).map_err(|error| fields.problem_here(error.to_string())).ok()?;
    let volumes: Vec<Volume> = solids.iter().map(|s| s.body.volume()).collect();
    masses(&mut design, &spec, &volumes);
    design.drawing = Some(draw::drawing(&design, &spec, &machined, &solids));
    design.wants.made_of = make::made_of(&spec);
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
    common::kept_apart(&mut design, &spec.ring.common, ring::joint(&spec.ring));
    let pieces = (0..spec.segments.len()).flat_map(|i| [sizes::segment_length(i), sizes::segment_outside(i)]);
    ring::coat(&mut design, &spec.ring, &machined, &pieces.collect::<Vec<_>>());
    Some(design)
}

/// Material on the sheet: all of them, for a sleeve in pieces of several.
fn materials(s: &Spec) -> String {
    let mut names: Vec<&str> = s.segments.iter().map(|g| g.material.name.as_str()).collect();
    names.sort_unstable();
    names.dedup();
    if names.is_empty() { s.ring.common.material.name.clone() } else { names.join(", ") }
}

fn sizes(design: &mut Design, s: &Spec, fields: &Fields) -> Option<()> {
    ring::record(design, &s.ring, fields, |at| read::piece_at(s, at))?;
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
        if g.outside < s.ring.outside.value {
            let size = sizes::segment_outside(i).called(format!("outside of {}", g.name));
            design.computed_length(&size, g.outside, "as written");
            common::general_limits(design, &s.ring.common, &[&size]);
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
            common::mass(design, &s.ring.common.material, *volume, s.ring.common.header.count);
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
