//! What would carry where a rim is crushed: a rounded rim, a harder steel, both; each worked through the functions that judge the
//! cup of the file, so that only what really carries is told.
//!
//! It stands beside the general solver (`remedy`) and not under it: what it tells is a sentence of the finding itself, which the part
//! says when it is worked, while the solver works whole parts and would have to be called from within one; and it changes the kind of
//! the rim (a chamfer goes, a radius comes) together with the steel and what that is welded with, more keys at once than the two that
//! the solver moves. What single keys clear the solver finds as well, by the levers of `bedding_in`.

use crate::families::cone::read::Spec as Cone;
use crate::formulas::seating::bedding::Bedding;
use crate::record::design::Value;
use crate::record::key::Given;
use crate::record::show;
use crate::shop::{Material, by_unit};
use crate::standards::{materials, welding};
use crate::units::Length;

use super::read::{Edge, Hole, Mate, RIM_RADIUS, Spec};
use super::seat;

/// Steels that are bought ready to be cut, soft ones first; what is hardened later warps, and breaks at a rim.
const STEELS: [&str; 2] = ["steel 1045", "steel 4140 prehard"];

/// A cup of the same plate, otherwise.
struct Change {
    radius: Option<Length>,
    steel: Option<&'static materials::Material>,
    /// What would have to be welded of that steel is bolted on instead.
    bolted: bool,
}

/// Says what carries, or that nothing that is tried here does.
pub fn crushed(s: &Spec, mate: &Mate) -> String {
    let radii = radii(s);
    let steels: Vec<_> = STEELS.iter().filter_map(|name| materials::material(name)).collect();
    let found = changes(&radii, &steels).find_map(|change| Some((settles(s, &mate.cone, &change)?, change)));
    match found {
        Some((most, change)) => {
            let size = |l: Length| show::value(&Value::Length(l.rounded()), s.common.header.unit);
            format!("{} carries it and beds in by at most {}", said(s, &mate.cone, &change), size(most))
        }
        None if matches!(s.hole, Hole::Slot { .. }) => "neither rounded edges nor a harder steel of those tried is enough, and a slot has no seat that could be turned: less load or less side force on it, a further cup that shares them; edges in an insert of hardened steel carry more only under a cone as hard: the softer of the two settles".into(),
        None => "neither a rounded rim nor a harder steel of those tried is enough: less load on this seat, or a turned seat that bears all over".into(),
    }
}

/// The least change first.
fn changes<'c>(radii: &'c [Length], steels: &'c [&'static materials::Material]) -> impl Iterator<Item = Change> + 'c {
    let rims = radii.iter().map(|r| Change { radius: Some(*r), steel: None, bolted: false });
    let steeled = move |bolted: bool| {
        let harder = steels.iter().map(move |m| Change { radius: None, steel: Some(m), bolted });
        let both = steels
            .iter()
            .flat_map(move |m| radii.iter().map(move |r| Change { radius: Some(*r), steel: Some(m), bolted }));
        harder.chain(both)
    };
    rims.chain(steeled(false)).chain(steeled(true))
}

/// Radii of a rim that a file or a form tool leaves, no larger than half the plate.
/// Source: common practice, no source.
fn radii(s: &Spec) -> Vec<Length> {
    if !matches!(s.hole, Hole::Round { .. } | Hole::Slot { .. }) {
        return Vec::new();
    }
    let each = by_unit(s.common.header.unit, 1.0, 1.0 / 32.0);
    let now = match &s.hole {
        Hole::Round { edge: Edge::Radius(r), .. } | Hole::Slot { edge: Edge::Radius(r), .. } => r.value,
        _ => Length::ZERO,
    };
    (1..=4).map(|i| each * f64::from(i)).filter(|r| *r > now && *r <= s.thickness.value / 2.0).collect()
}

/// How far it settles at most; `None` where it is crushed all the same or cannot be made so.
fn settles(s: &Spec, cone: &Cone, change: &Change) -> Option<Length> {
    let [own, other] = steels(s, cone, change)?;
    let hole = change.radius.map_or_else(|| s.hole.clone(), |r| rounded(&s.hole, r));
    match seat::bedded_with(s, cone, &hole, [&own, &other])? {
        Bedding::Settles(_, most) => Some(most),
        Bedding::Elastic => Some(Length::ZERO),
        Bedding::Beyond => None,
    }
}

/// Which of the two would be of that steel: whatever is softer.
fn replaced(s: &Spec, cone: &Cone, steel: &materials::Material) -> [bool; 2] {
    let harder = Material::from(steel).yield_strength;
    [&s.common.material, &cone.common.material].map(|m| m.yield_strength < harder)
}

/// Steel of cup and cone after the change; `None` where that steel is not to be welded as the part is.
fn steels(s: &Spec, cone: &Cone, change: &Change) -> Option<[Material; 2]> {
    let now = [s.common.material.clone(), cone.common.material.clone()];
    let Some(steel) = change.steel else { return Some(now) };
    let replaced = replaced(s, cone, steel);
    if !change.bolted && welded_of(s, cone, steel).contains(&true) {
        return None;
    }
    let [own, other] = now;
    let of = |was: Material, changes: bool| if changes { Material::from(steel) } else { was };
    Some([of(own, replaced[0]), of(other, replaced[1])])
}

/// Which of the two would be replaced by a steel that is not to be welded, and is welded on.
fn welded_of(s: &Spec, cone: &Cone, steel: &materials::Material) -> [bool; 2] {
    let [own, other] = replaced(s, cone, steel);
    let unfit = !welds(steel);
    [own && s.mounting.is_none() && unfit, other && cone.weld_on && unfit]
}

fn welds(steel: &materials::Material) -> bool {
    match welding::metal(steel.name, false) {
        Some(welding::Metal::Steel(c)) => c.carbon_equivalent() <= welding::PLAIN_UP_TO,
        _ => false,
    }
}

/// The same hole with its rim rounded.
fn rounded(hole: &Hole, radius: Length) -> Hole {
    let edge = Edge::Radius(Given { value: radius, text: String::new(), span: 0..0 });
    match hole.clone() {
        Hole::Round { diameter, class, .. } => Hole::Round { diameter, class, edge },
        Hole::Slot { width, length, direction, .. } => Hole::Slot { width, length, direction, edge },
        other => other,
    }
}

/// As it is written into the files.
fn said(s: &Spec, cone: &Cone, change: &Change) -> String {
    let mut lines = Vec::new();
    if let Some(radius) = change.radius {
        let radius = show::value(&Value::Length(radius), s.common.header.unit);
        lines.push(format!("{} = \"{radius}\" in [hole]", RIM_RADIUS.name));
    }
    if let Some(steel) = change.steel {
        let whose = match replaced(s, cone, steel) {
            [true, true] => "cup and cone",
            [true, false] => "the cup",
            _ => "the cone",
        };
        let bolted = match welded_of(s, cone, steel) {
            _ if !change.bolted => "",
            [true, true] => ", both bolted on instead of welded",
            [true, false] => ", the cup bolted on instead of welded",
            [false, true] => ", the cone bolted on instead of welded",
            [false, false] => "",
        };
        lines.push(format!("material = \"{}\" of {whose}{bolted}", steel.name));
    }
    lines.join(" with ")
}
