//! A clamp on a tube: one slit ring or two halves, drawn together by screws across, held by friction.

mod checks;
mod draw;
mod grip;
mod levers;
mod made;
mod outline;
pub mod read;
pub mod sizes;
mod steps;

use crate::description::Fields;
use crate::families::common::bolt_length::Stack;
use crate::families::common::bolted::Bolted;
use crate::families::common::coated::{self, Order};
use crate::families::common::{self, Head, Side};
use crate::families::{Family, Workplace};
use crate::record::design::{Design, Table, Value};
use crate::record::key::Size;
use crate::shape::{Body, ShapeError, Solid};
use crate::units::{Length, Volume};

use read::Spec;

/// The family's record.
pub const FAMILY: Family = Family {
    name: "clamp",
    about: "a slit ring or two halves on a tube: grip by friction, gap, ears, opened by step drill, liner",
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
    let grip = grip::work(&mut design, &spec, fields)?;
    coated::record(&mut design, &spec.common);
    opened(&mut design, &spec);
    let solids = solids(&spec).map_err(|error| fields.problem_here(error.to_string())).ok()?;
    let volume: Volume = solids.iter().filter(|(_, own)| *own).map(|(s, _)| s.body.volume()).sum();
    common::mass(&mut design, &spec.common.material, volume, spec.common.header.count);
    design.drawing = Some(draw::drawing(&spec, &solids));
    if spec.opened.is_none() && !spec.common.material.printed {
        design.cutting = Some(outline::blank(&spec).map_err(|error| fields.problem_here(error.to_string())).ok()?);
    }
    design.solids = solids.into_iter().map(|(solid, _)| solid).collect();
    checks::checks(&mut design, &spec, &grip);
    steps::operations(&mut design, &spec);
    coat(&mut design, &spec);
    common::kept_apart(&mut design, &spec.common, common::Joint::Pressed);
    Some(design)
}

/// The solids, and whether each is of the clamp itself and not its liner.
fn solids(s: &Spec) -> Result<Vec<(Solid, bool)>, ShapeError> {
    let pieces = outline::pieces(s)?;
    let liner = s.liner.as_ref().map(|l| outline::liner(s, l)).transpose()?;
    let named = pieces.len() > 1 || liner.is_some();
    let body = |(name, flat): (Option<&'static str>, crate::shape::Flat)| {
        let solid = match name.or(named.then_some("clamp")) {
            Some(name) => Solid::named(name, Body::Flat(flat)),
            None => Solid::only(Body::Flat(flat)),
        };
        (solid, true)
    };
    let mut all: Vec<(Solid, bool)> = pieces.into_iter().map(body).collect();
    all.extend(liner.map(|flat| (Solid::named("liner", Body::Flat(flat)), false)));
    Ok(all)
}

/// Which step of the drill does what.
fn opened(design: &mut Design, s: &Spec) {
    let Some(o) = &s.opened else { return };
    design.written_length(&sizes::BORE_BEFORE, &o.before);
    design.computed_length(
        &sizes::DRILL_STEP,
        s.bore.diameter,
        "as written, or the first that goes over the greatest tube",
    );
    design.computed(&sizes::SKIPPED, Value::Count(o.idle()), "steps no larger than the bore at hand");
    let count = o.steps.value.len();
    let row = |(i, d): (usize, &Length)| {
        let does = match d {
            d if *d <= o.before.value => "runs idle: the bore is as wide",
            d if (*d - s.bore.diameter).abs() < Length::um(1.0) && i + 1 == count => {
                "makes the bore, from one side to the end: no step follows it"
            }
            d if (*d - s.bore.diameter).abs() < Length::um(1.0) => "makes the bore: stop before the next",
            d if *d < s.bore.diameter => "cuts",
            _ => "is not to enter",
        };
        let wall = ((s.outside.value - *d) / 2.0).rounded();
        let wall = if wall > Length::ZERO { Value::Length(wall) } else { Value::Text("none".into()) };
        vec![Value::Count(i as u32 + 1), Value::Length(d.rounded()), Value::Text(does.into()), wall]
    };
    design.tabulate(Table::new(
        sizes::STEPS_TABLE,
        "Steps of the drill, from its tip, and the wall of the ring that each would leave",
        &["step", "diameter", "what it does", "wall left"],
        o.steps.value.iter().enumerate().map(row),
    ));
}

/// The screws with what they go through: both ears and the gap, or one ear and the thread in the other.
fn bolted(s: &Spec) -> Bolted<'_> {
    let (ear, gap) = (s.ear_thickness.value, s.gap.value);
    let part = if s.screw.tapped { ear + gap } else { ear * 2.0 + gap };
    let thread = s.screw.tapped.then_some(ear);
    let wall_is = ("ears and gap", "ear_thickness and gap");
    let washers = if s.screw.tapped { 1 } else { 2 };
    let stack = Stack { part, wall: Some(Length::ZERO), wall_is, washers, thread };
    Bolted {
        class: s.screw.steel.class,
        thread: s.screw.thread,
        count: s.screws() as usize,
        into: thread.map(|depth| (&s.common.material, depth)),
        stack,
        head: Head::Hex,
        tapped_instead: None,
    }
}

fn coat(design: &mut Design, s: &Spec) {
    coated::class_for(design, &s.common, s.width.value);
    coated::passes(design, &s.common, &sizes::SCREW_HOLE, s.screw.thread.major, "the screw");
    let grows: &[(&Size, Side)] = &[(&sizes::OUTSIDE_DIAMETER, Side::Shaft)];
    let masked = "Mask the bore and the threads: what grips is bare metal, and a film there creeps and lets it slip.";
    coated::order(design, &s.common, &Order { sizes: grows, masked, ..Order::default() });
}
