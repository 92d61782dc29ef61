//! Pictures of a sleeve: the zones of its fits, and the stress across the walls that a press fit leaves.

use crate::formulas::MechanicsError;
use crate::formulas::press_fit::{Part, Press};
use crate::record::design::{Design, Value};
use crate::record::drawing::{FitZone, Picture, StressCurve};
use crate::record::key::Size;
use crate::record::show;
use crate::units::{Length, LengthUnit};

use super::fit::Joint;

/// Places at which the stress is worked out, in each wall.
const STEPS: u32 = 40;

/// Zones of every fit, as recorded.
pub fn fits(design: &mut Design, joints: &[Joint]) {
    for joint in joints {
        design.pictures.extend(fit(design, joint));
    }
}

fn fit(design: &Design, joint: &Joint) -> Option<Picture> {
    let unit = design.header.unit;
    let at = joint.at;
    let Value::Length(nominal) = design.dimension(at.own)?.value else { return None };
    let sleeve = zone(design, at.own, at.word, nominal, unit)?;
    let other = zone(design, at.partner, joint.partner, nominal, unit)?;
    let (hole, shaft) = if joint.at_bore() { (sleeve, other) } else { (other, sleeve) };
    let gaps = vec![
        (shaft.deviations.1, hole.deviations.0, "tightest".to_string()),
        (shaft.deviations.0, hole.deviations.1, "loosest".to_string()),
    ];
    let [least, greatest] = at.clearance;
    let said = |which: &str, end: &Size| {
        let Value::Length(l) = design.dimension(end)?.value else { return None };
        let word = if l < Length::ZERO { "interference" } else { "play" };
        Some(format!("{which} pair: {word} {}", show::length_both(l.abs(), unit)))
    };
    let outcome = vec![
        said("Tightest", least)?,
        said("Loosest", greatest)?,
        "Grey bars are play, black ones interference.".into(),
    ];
    let word = design.header.family;
    let title = format!("Fit of {word} and {}: limits of size, {}", joint.partner, show::unit_name(unit));
    Some(Picture::Fit { title, zones: vec![hole, shaft], gaps, outcome })
}

/// The zone of a recorded size; a measured one has no width.
fn zone(design: &Design, size: &Size, name: &str, nominal: Length, unit: LengthUnit) -> Option<FitZone> {
    let d = design.dimension(size)?;
    let Value::Length(size) = d.value else { return None };
    let Some(l) = &d.limits else {
        let texts = [String::new(), show::length_number(size, unit)];
        return Some(FitZone {
            name: format!("{name}, measured"),
            deviations: (size - nominal, size - nominal),
            texts,
        });
    };
    Some(FitZone {
        name: format!("{name} {}", l.by),
        deviations: (l.lower - nominal, l.upper - nominal),
        texts: show::limit_pair(l.lower, l.upper, unit),
    })
}

/// Stress across both walls for the tightest pair.
///
/// # Errors
/// The interference is none, or the numbers are impossible.
pub fn stress(design: &mut Design, press: &Press, interference: Length) -> Result<(), MechanicsError> {
    let unit = design.header.unit;
    let (mut curves, mut outcome) = (Vec::new(), Vec::new());
    let walls =
        [(Part::Sleeve, "sleeve", "at its bore", "at the joint"), (Part::Hub, "hub", "at the joint", "outside")];
    for (part, name, inside, outside) in walls {
        let wall = press.profile(part, interference, STEPS)?;
        if let (Some(first), Some(last)) = (wall.first(), wall.last()) {
            let [inner, outer] = [first, last].map(|w| show::value(&Value::Stress(w.hoop), unit));
            outcome.push(format!("Hoop, {name}: {inner} {inside}, {outer} {outside}"));
        }
        for hoop in [true, false] {
            let points = wall.iter().map(|w| (w.diameter, if hoop { w.hoop } else { w.radial })).collect();
            curves.push(StressCurve { hoop, points });
        }
    }
    let place = |(what, d): (&str, Length)| (d, format!("{what} Ø{}", show::length_number(d.rounded(), unit)));
    let ends = [("inside", press.sleeve_bore), ("joint", press.interface), ("outside", press.hub_outside)];
    design.pictures.push(Picture::Stress {
        title: format!("Stress across both walls over the diameter, {}, tightest pair", show::unit_name(unit)),
        curves,
        places: ends.into_iter().map(place).collect(),
        outcome,
    });
    Ok(())
}
