//! What a cup plate carries where its load is known: its rim, the plate between its bolts or weld, the bolts themselves.

use crate::families::common;
use crate::families::common::packed::{self, Pulled};
use crate::families::cone::strength::{Forces, against};
use crate::formulas::MechanicsError;
use crate::formulas::strength::{self, SHEAR_SHARE};
use crate::record::design::{Check, Design, Value, Verdict};
use crate::source::Source;
use crate::units::{Force, Length, Stress};

use super::read::{Hole, Mate, Mounting, Pattern, Plate, Spec};
use super::seat;

const RIM: Check = Check {
    key: "rim_shear",
    what: "shear stress around the ring of contact",
    worst: Verdict::Fail,
    source: Source::Published("Timoshenko, Strength of Materials: punching shear P/(pi d t); yield over sqrt 3"),
};
const SPREAD: Check = Check {
    key: "hole_spread",
    what: "hoop stress at the hole that the cone spreads",
    worst: Verdict::Fail,
    source: Source::Published("thick ring after Lamé: Timoshenko, Strength of Materials"),
};
const BENDING: Check = Check {
    key: "plate_bending",
    what: "bending stress of the plate between what holds it",
    worst: Verdict::Fail,
    source: Source::Published(
        "Timoshenko, Theory of Plates and Shells, 2nd edition, section 17: plate with a loaded hole on a ring; slot: two strips as beams; at 1.5 times yield it folds",
    ),
};
const BOLTS: Check = Check {
    key: "cup_bolts",
    what: "share of the mounting bolts that the side force takes",
    worst: Verdict::Fail,
    source: Source::Published("EN 1993-1-8 table 3.4; strengths of ISO 898-1 and ISO 3506-1"),
};

/// Bending stress over yield at which a rectangular section folds: plastic over elastic section modulus.
/// Source: Timoshenko, Strength of Materials, plastic bending.
const FOLDS: f64 = 1.5;

/// Force per length on the weld all round the plate, N/mm: load and side force together.
pub fn weld_line(s: &Spec, forces: &Forces) -> f64 {
    libm::hypot(forces.down.as_newtons(), forces.side.as_newtons()) / around(s).as_mm()
}

/// Length of a weld all round the plate.
pub fn around(s: &Spec) -> Length {
    let (x, y) = s.plate.extent();
    match &s.plate {
        Plate::Round(d) => d.value * std::f64::consts::PI,
        Plate::Rectangle { .. } => (x + y) * 2.0,
    }
}

const UNJUDGED: Check = Check {
    key: "load_unjudged",
    what: "load at the rim, not judged",
    worst: Verdict::Caution,
    source: Source::Derived("bedding, shear and spread at the rim hang on the cone's angle and steel"),
};

/// Forces on a cup whose cone is not known: its load at the rim of the hole.
pub fn on_the_rim(s: &Spec, down: Force, side: Force) -> Forces {
    Forces { down, side, height: Length::ZERO, contact: seat::entry_ring(s), seated: true }
}

/// What can be told of a loaded cup without its cone: the plate between what holds it, and its bolts.
pub fn alone(design: &mut Design, s: &Spec, forces: &Forces) {
    plate(design, s, forces);
    bolts(design, s, forces);
    common::printed_under_load(design, &[&s.common.material]);
    let because = "plate and bolts are held against the load; how far the rim beds in, and whether it shears or spreads, is not told without the cone: name its file in `mates`";
    design.finding(&UNJUDGED, Verdict::Caution, Some(Value::Force(forces.down)), None, because);
}

/// The plate between what holds it.
fn plate(design: &mut Design, s: &Spec, forces: &Forces) {
    let Some(own) = s.common.material.yield_strength else { return };
    if let Ok(stress) = bending(s, forces) {
        let (folds, yields) = (Value::Stress(own * FOLDS), Some(Value::Stress(own)));
        design.at_most(&BENDING, Value::Stress(stress), folds, yields,
            "the plate bends between what holds it, taken as not backed by the frame: thicker plate, bolts nearer the hole, harder steel");
    }
    common::strength_of_plate(design, &s.common.material);
}

/// Checks what plate and cone carry.
pub fn checks(design: &mut Design, s: &Spec, mate: &Mate, forces: &Forces) {
    if forces.contact <= Length::ZERO {
        return;
    }
    if let Some(own) = s.common.material.yield_strength.filter(|_| !matches!(s.hole, Hole::Slot { .. })) {
        rim(design, s, mate, forces, own);
    }
    plate(design, s, forces);
    bolts(design, s, forces);
    crate::families::cone::strength::checks(design, &mate.cone, forces);
}

fn rim(design: &mut Design, s: &Spec, mate: &Mate, forces: &Forces, own: Stress) {
    let below = s.thickness.value - seat::contact_depth(s, &mate.cone);
    if let Ok(shear) = strength::punching_shear(forces.down, forces.contact, below) {
        against(
            design,
            &RIM,
            shear,
            own * SHEAR_SHARE,
            "the cone punches through: thicker plate, larger hole, harder steel",
        );
    }
    let (x, y) = s.plate.extent();
    let spread = strength::spread_hole(forces.down, mate.cone.half_angle, forces.contact, x.min(y) / 2.0, below);
    if let Ok(hoop) = spread {
        against(design, &SPREAD, hoop, own, "the cone spreads the hole: thicker or wider plate, blunter cone");
    }
}

/// What holds the plate up, as a ring about the hole: the outermost bolt, or the weld along the longer side.
fn ring(s: &Spec) -> Length {
    let (x, y) = s.plate.extent();
    let bolts = s.mounting.iter().flat_map(Mounting::centres).map(|(x, y)| x.hypot(y)).reduce(Length::max);
    bolts.unwrap_or_else(|| x.max(y) / 2.0)
}

fn bending(s: &Spec, forces: &Forces) -> Result<Stress, MechanicsError> {
    let t = s.thickness.value;
    if let Hole::Slot { width, .. } = &s.hole {
        let (x, y) = s.plate.extent();
        let span = match s.mounting.as_ref().map(|m| &m.pattern) {
            Some(Pattern::Rectangle(spacing)) => spacing.value.iter().copied().fold(Length::ZERO, Length::max),
            Some(Pattern::Circle { diameter, .. }) => diameter.value,
            None => x.max(y),
        };
        return strength::two_strips_bending(forces.down, span, (x.min(y) - width.value) / 2.0, t);
    }
    let poisson = s.common.material.elastic.poisson;
    strength::holed_plate_bending(forces.down, ring(s), forces.contact / 2.0, t, poisson)
}

fn bolts(design: &mut Design, s: &Spec, forces: &Forces) {
    let Some((m, size)) = s.mounting.as_ref().and_then(|m| Some((m, m.size?))) else { return };
    let pulled = Pulled {
        packing: m.packing.as_ref(),
        class: m.steel.class,
        thread: &size,
        hole: m.hole,
        count: m.centres().len(),
        across: forces.side,
        along: Force::ZERO,
    };
    let because = format!(
        "bolts of class {} in shear through the thread, their clamping not counted on{}",
        m.steel.class.name,
        pulled.told(design)
    );
    design.at_most(&BOLTS, Value::Share(pulled.taken()), Value::Share(1.0), None, because);
    if m.dowels.is_none() {
        pulled.slips(design, &packed::SLIPS, "");
    }
}
