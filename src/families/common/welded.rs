//! What welding a part on asks for: whether the two metals go together, how large the weld, how far it pulls.

use crate::families::common::{self, Common};
use crate::formulas::strength::{self, weld_metal};
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::show;
use crate::shop::{Material, by_unit};
use crate::source::Source;
use crate::standards::welding::{self, Joint, Metal};
use crate::units::{Length, LengthUnit};

use super::sizes;

const WELDABLE: Check = Check {
    key: "weldable",
    what: "carbon equivalent of the steels that are welded",
    worst: Verdict::Fail,
    source: welding::CARBON_EQUIVALENT_SOURCE,
};
const THROAT: Check = Check {
    key: "weld_throat",
    what: "throat of the weld that the load asks for",
    worst: Verdict::Fail,
    source: Source::Published("EN 1993-1-8, 4.5.3.3; at most 0.7 of the thinner part"),
};

const WELDED_WALL: Check = Check {
    key: "welded_wall",
    what: "thinner of the two parts that are welded",
    worst: Verdict::Fail,
    source: Source::Memory("EN 1993-1-8, 4.1: hollow sections from 2.5 mm"),
};

/// Thinnest wall to which a fillet is reckoned. Source: EN 1993-1-8, 4.1, from memory.
const THINNEST: Length = Length::mm(2.5);
/// Least throat of a fillet weld that carries. Source: EN 1993-1-8, 4.5.2.
const LEAST_THROAT: Length = Length::mm(3.0);
/// Throat over the thinner of the two parts, at most. Source: common practice, no source.
const OF_THE_THINNER: f64 = 0.7;
/// How far a fillet pulls across its run where its leg is at most three quarters of the plate.
/// Source: TWI, job knowledge on distortion: 0.8 mm for each fillet weld.
const fn pulls(unit: LengthUnit) -> Length {
    by_unit(unit, 0.8, 1.0 / 32.0)
}

/// A weld all round a part.
pub struct Weld<'a> {
    /// What is welded on.
    pub what: &'static str,
    /// Onto what.
    pub onto: &'a Material,
    /// That material was not written.
    pub assumed: bool,
    /// Greatest force per length, N/mm; `None` where no load is known.
    pub line_load: Option<f64>,
    /// The key that states the load.
    pub load_key: &'static str,
    /// Thinner of the two parts, where known.
    pub thinner: Option<Length>,
    /// Length of all its runs together.
    pub runs: Length,
}

/// Records and checks the weld, and tells its steps.
pub fn weld(design: &mut Design, common: &Common, w: &Weld) {
    weldable(design, common, w);
    let unit = common.header.unit;
    let known = size(design, common, w).is_some();
    let leg = leg_of(common, w).rounded();
    if known {
        let formula = "throat x sqrt 2, to the next 0.5 mm or 1/16 in; at most the thinner part";
        design.computed_length(&sizes::WELD_LEG, leg, formula);
    }
    let used = format!("the {}, a fillet all round, leg {}", w.what, show::length_both(leg, unit));
    filler(design, common, w, used, leg);
    let fillet = match known {
        true => format!("a fillet all round, leg {} by the weld gauge", show::length_both(leg, unit)),
        false => format!(
            "a fillet all round, leg {}; state {} and it is worked out",
            show::length_both(leg, unit),
            w.load_key
        ),
    };
    run(design, common, w, &fillet);
}

/// The same of a weld that fills a chamfer of 45 degrees so deep, level with the faces beside it.
pub fn groove(design: &mut Design, common: &Common, w: &Weld, depth: Length) {
    weldable(design, common, w);
    let known = size(design, common, w).is_some();
    let filled = depth;
    let depth = show::length_both(depth, common.header.unit);
    filler(design, common, w, format!("the {}, a groove all round, {depth} deep", w.what), filled);
    let ask = if known { String::new() } else { format!("; state {} and it is worked out", w.load_key) };
    run(
        design,
        common,
        w,
        &format!("a groove all round, {depth} deep: it fills the chamfer from its root, the first run thin{ask}"),
    );
}

fn run(design: &mut Design, common: &Common, w: &Weld, which: &str) {
    common::weld_steps(design, w.what, common.coating.as_ref().is_some_and(|c| c.zinc), preheated(common, w));
    design.step("welder", format!(
        "The weld is {which}. In four quarters, each opposite the one before. It pulls up to {} across its run: weld before the mates are made, or measure and shim after.",
        show::length_both(pulls(common.header.unit), common.header.unit)
    ));
}

/// What is bought for so much metal in the weld, its reinforcement, spatter and stubs counted: stick electrodes give about 0.55
/// to 0.65 of their mass. Source: common practice, no source; wire gives nearly all of it.
const BOUGHT: f64 = 2.0;

/// Records the filler that the two metals want, and how much: `leg` is that of the fillet, or how deep a chamfer of 45 degrees is.
pub fn filler(design: &mut Design, common: &Common, w: &Weld, used: String, leg: Length) {
    let what = match joint(common, w) {
        Some(Joint::Plain { filler }) => filler.split(';').next().unwrap_or(filler),
        Some(Joint::Preheated { .. }) => "filler, dry, low hydrogen",
        Some(Joint::Never { .. }) => return,
        None => "filler by the certificates of both metals",
    };
    let metal = common.material.density * weld_metal(leg, w.runs);
    design.computed(&sizes::WELD_METAL, Value::Mass(metal), "leg squared/2 x length of all runs x density");
    design.wants.uses_mass(what, used, metal * (BOUGHT * f64::from(common.header.count)));
}

/// Depth of the chamfer of 45 degrees that a groove weld fills, to the next half millimetre or 1/32 in: its throat, since that is
/// the way from its root to a face ground level. It leaves the thinner part an edge. Source: derived.
pub fn groove_of(common: &Common, w: &Weld) -> Length {
    let step = by_unit(common.header.unit, 0.5, 1.0 / 32.0);
    let asked = throat(common, w).up_to(step);
    let most = w.thinner.map_or(asked, |t| (t - step).max(step.min(t / 2.0)));
    asked.min(most).rounded()
}

/// Leg of an even fillet of that throat, throat √2, to the next half millimetre or sixteenth of an inch, as a gauge reads it; no longer than the
/// thinner part is thick, which would burn through before it carried more.
fn fillet_leg(throat: Length, thinner: Option<Length>, unit: LengthUnit) -> Length {
    let step = by_unit(unit, 0.5, 1.0 / 16.0);
    let halves = |l: Length, round: fn(f64) -> f64| step * round(l / step);
    let asked = halves(throat * std::f64::consts::SQRT_2, f64::ceil);
    let most = thinner.map_or(asked, |t| halves(t + Length::um(1.0), f64::floor).max(step));
    asked.min(most)
}

/// How the two metals are welded; `None` where the composition of one is not known.
fn joint(common: &Common, w: &Weld) -> Option<Joint> {
    let [a, b] = metals(common, w);
    Some(welding::joint(a?, b?))
}

fn metals(common: &Common, w: &Weld) -> [Option<Metal>; 2] {
    [&common.material, w.onto].map(|m| welding::metal(&m.name, m.plastic))
}

/// Whether the steels are warmed before they are welded.
pub fn preheated(common: &Common, w: &Weld) -> bool {
    matches!(joint(common, w), Some(Joint::Preheated { .. }))
}

/// Judges whether the two metals are welded to each other.
pub fn weldable(design: &mut Design, common: &Common, w: &Weld) {
    let names = format!("{} to {}{}", common.material.name, w.onto.name, if w.assumed { " (assumed)" } else { "" });
    let [Some(a), Some(b)] = metals(common, w) else {
        design.finding(&WELDABLE, Verdict::Caution, None, None, format!("{names}: cannot be judged, the composition is not known: ask for the carbon equivalent of the certificate"));
        return;
    };
    let most = [a, b]
        .iter()
        .filter_map(|m| if let Metal::Steel(s) = m { Some(s.carbon_equivalent()) } else { None })
        .fold(None, |most: Option<f64>, ce| Some(most.map_or(ce, |m| m.max(ce))));
    let value = most.map(|ce| Value::Number((ce * 100.0).round() / 100.0));
    let limit = |of: f64| if value.is_some() { Limit::AtMost(Value::Number(of)) } else { Limit::None };
    match welding::joint(a, b) {
        Joint::Plain { filler } => design.finding(&WELDABLE, Verdict::Ok, value.clone(), limit(welding::PLAIN_UP_TO), format!("{names}: {filler}")),
        Joint::Preheated { .. } => design.finding(&WELDABLE, Verdict::Caution, value.clone(), limit(welding::PLAIN_UP_TO), format!("{names}: warm both to 200 °C or what the steel's maker says, dry low-hydrogen filler, cool slowly under sand or wool; a softer steel spares all that")),
        Joint::Never { because } => design.finding(&WELDABLE, Verdict::Fail, value.clone(), limit(welding::NEVER_BEYOND), format!("{names}: {because}")),
    }
}

/// Throat that the load asks for; `None` where no load or no strength is known.
/// Source: EN 1993-1-8, 4.5.3.3.
pub fn needed(common: &Common, w: &Weld) -> Option<Length> {
    let strength = strength::weld_strength(common.material.tensile_strength?.min(w.onto.tensile_strength?));
    Some(Length::mm(w.line_load? / strength.as_mpa()))
}

/// Leg of the weld, by its load where that is known.
pub fn leg_of(common: &Common, w: &Weld) -> Length {
    fillet_leg(throat(common, w), w.thinner, common.header.unit)
}

/// Throat of the weld: for its load where that is known, at least the least.
pub fn throat(common: &Common, w: &Weld) -> Length {
    let least = least_throat(w);
    needed(common, w).unwrap_or(least).max(least)
}

/// The least throat of a weld, on a thin wall what that bears.
fn least_throat(w: &Weld) -> Length {
    w.thinner.map_or(LEAST_THROAT, |t| LEAST_THROAT.min(t * OF_THE_THINNER))
}

/// Records the throat for the load and checks what it is welded to; `None` where no load is known.
fn size(design: &mut Design, common: &Common, w: &Weld) -> Option<Length> {
    needed(common, w)?;
    let throat = design.computed_length(
        &sizes::WELD_THROAT,
        throat(common, w),
        "line load/(fu/(sqrt 3 bw gM2)), at least 3 mm (0.12 in) or 0.7 of the thinner part",
    );
    if let Some(thinner) = w.thinner {
        design.at_most(
            &THROAT,
            Value::Length(throat),
            Value::Length((thinner * OF_THE_THINNER).rounded()),
            None,
            "a larger weld than the thinner part carries is no stronger: larger foot, thicker wall, or less load",
        );
        design.at_least(
            &WELDED_WALL,
            Value::Length(thinner.rounded()),
            Value::Length(Length::mm(1.0)),
            Some(Value::Length(THINNEST)),
            "under this a fillet is not reckoned as one, and the arc burns through: weld a doubling plate on first, or take a thicker wall",
        );
    }
    Some(throat)
}
