//! A plain bearing: a bush pressed into its housing, in which a greased or a dry shaft turns or swings.

mod checks;
mod draw;
mod levers;
mod needles;
pub mod read;
mod runs;
pub mod sizes;
mod steps;

use crate::description::Fields;
use crate::families::common::ring::make::{self, Machined};
use crate::families::common::ring::{self, service};
use crate::families::common::{self, coated};
use crate::families::{Family, Workplace};
use crate::record::design::Design;
use crate::shape::{Body, ShapeError, Solid, Turned};
use crate::units::Length;

use read::Spec;

/// The family's record.
pub const FAMILY: Family = Family {
    name: "bush",
    about: "a plain bearing pressed into its housing: fits, pressure, speed, wear, grease, thrust washer",
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
    let s = &spec.ring;
    let mut design = Design::new(s.common.header.clone());
    ring::record(&mut design, s, fields, |_| None)?;
    design.principal(&[&sizes::BORE, &sizes::OUTSIDE_DIAMETER, &sizes::LENGTH]);
    coated::record(&mut design, &s.common);
    let fits = ring::fit::fits(&mut design, s, fields)?;
    let service = service::Service::of(s);
    service::at_service(&mut design, s, &fits);
    service::record(&mut design, s, &service);
    ring::press_fits(&mut design, s, &fits, fields)?;
    ring::surface::record(&mut design, s);
    let machined = Machined::of(&design, s);
    let (solid, washer) = solids(&spec, &machined).map_err(|error| fields.problem_here(error.to_string())).ok()?;
    common::mass(&mut design, &s.common.material, solid.volume(), s.common.header.count);
    let running = runs::work(&mut design, &spec, &fits, fields)?;
    needles::compare(&mut design, &spec, &running, fields)?;
    design.drawing = Some(draw::drawing(&design, &spec, &machined, &solid, washer.as_ref()));
    match washer {
        Some(washer) => {
            design.solids.push(Solid::named("bush", Body::Turned(solid)));
            design.solids.push(Solid::named("washer", Body::Turned(washer)));
        }
        None => design.solids.push(Solid::only(Body::Turned(solid))),
    }
    checks::checks(&mut design, &spec, &fits, &running);
    steps::operations(&mut design, &spec);
    common::kept_apart(&mut design, &s.common, ring::joint(s));
    ring::coat(&mut design, s, &machined, &[]);
    Some(design)
}

/// The bush as it is machined, and its washer.
fn solids(s: &Spec, m: &Machined) -> Result<(Turned, Option<Turned>), ShapeError> {
    let bush = make::piece(&s.ring, m, m.outside.1, Length::ZERO, s.ring.length.value)?;
    let washer = s.washer.as_ref().map(|w| {
        Turned::ring(runs::washer_bore(s, w).rounded(), w.outside.value.rounded(), w.thickness.value.rounded())
    });
    Ok((bush, washer.transpose()?))
}
