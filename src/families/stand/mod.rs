//! A flat-pack stand: two end plates, two rails on edge that reach through them with tabs, a top plate over all, locked by wedges or
//! bolts. A frame is worked on upon several of them.

mod checks;
mod draw;
mod form;
mod levers;
mod loads;
mod outline;
mod picture;
pub mod read;
mod recorded;
pub mod sizes;
mod steps;

use crate::description::Fields;
use crate::families::common;
use crate::families::common::coated::{self, Order};
use crate::families::{Family, Workplace};
use crate::record::design::Design;
use crate::shape::{Body, Cutting, Flat, ShapeError, Solid};
use crate::units::Volume;

use form::Form;
use loads::Loads;
use outline::Kind;
use read::Spec;

/// The family's record.
pub const FAMILY: Family = Family {
    name: "stand",
    about: "a flat-pack stand of laser-cut plates with tabs and slots, for a load at rest: trestle, frame support",
    keys: read::KEYS,
    work,
    made: |_, _, _| (),
    remedies: levers::REMEDIES,
    long: false,
    template: include_str!("template.toml"),
    companions: &[],
};

/// A plate, finished and as the cutter gets it.
struct Made {
    kind: Kind,
    flat: Flat,
    cutting: Cutting,
}

fn work(fields: &Fields, place: &Workplace) -> Option<Design> {
    let spec = read::read(fields, place)?;
    let form = Form::of(&spec);
    if !form::possible(fields, &spec, &form) {
        return None;
    }
    let made = made(&spec, &form).map_err(|error| fields.problem_here(error.to_string())).ok()?;
    let mut design = Design::new(spec.common.header.clone());
    recorded::sizes(&mut design, &spec, &form);
    coated::record(&mut design, &spec.common);
    let volume: Volume = made.iter().map(|m| m.flat.volume() * f64::from(m.kind.each())).sum();
    common::mass(&mut design, &spec.common.material, volume, spec.common.header.count);
    recorded::plates(&mut design, &spec, &made);
    let loads = Loads::of(&mut design, &spec, &form, volume);
    checks::checks(&mut design, &spec, &form, &loads, &made);
    steps::operations(&mut design, &spec, &form, &made);
    coated::class_for(&mut design, &spec.common, form.t);
    let order = Order {
        sizes: &[],
        masked: "Mask tabs, slots and wedges: a film in a joint closes it, and a painted wedge lets go.",
        ..Order::default()
    };
    coated::order(&mut design, &spec.common, &order);
    let pictured = place.depth.draws();
    design.drawing = Some(draw::drawing(&form, &made, pictured));
    design.pictures = pictured.then(|| draw::whole(&form, &made)).into_iter().collect();
    for m in made {
        let (suffix, count) = (m.kind.suffix(), m.kind.each() * spec.common.header.count);
        design.wants.counts.push((suffix.into(), count));
        if !spec.common.material.printed {
            common::ordered::piece(&mut design, &spec.common, suffix, form.t, count);
            design.cut_pieces.push((suffix.into(), m.cutting));
        }
        design.solids.push(Solid::named(suffix, Body::Flat(m.flat)));
    }
    common::ordered::rolled(&mut design, &format!("{}, all from one sheet", spec.thick.by));
    Some(design)
}

fn made(s: &Spec, f: &Form) -> Result<Vec<Made>, ShapeError> {
    let one = |piece: outline::Piece| {
        Ok(Made { kind: piece.kind, flat: piece.flat(f.t)?, cutting: piece.cutting(s.kerf(), f.t)? })
    };
    outline::pieces(s, f).into_iter().map(one).collect()
}
