//! What a cone carries where its load is known: its root, its bolt, its weld, the wall it stands on.

use crate::families::common;
use crate::families::common::packed::{self, Packing, Pulled};
use crate::formulas::bolts::tipping_pull;
use crate::formulas::strength::{self, RoundSection, SHEAR_SHARE};
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::source::Source;
use crate::units::{Force, Length, Stress};

use super::read::{BoltKind, Spec, drill_point, drilled_depth};

const ROOT: Check = Check {
    key: "cone_root",
    what: "stress at the root of the cone, bent by the side force",
    worst: Verdict::Fail,
    source: Source::Published("beam theory: Shigley, Mechanical Engineering Design, 32 M/(pi d^3)"),
};
const SECTION: Check = Check {
    key: "cone_shear",
    what: "shear stress of the cone at the ring of contact",
    worst: Verdict::Fail,
    source: Source::Published(
        "Gere and Timoshenko, Mechanics of Materials: shear in circular sections; yield over sqrt 3",
    ),
};
const BOLT: Check = Check {
    key: "cone_bolt",
    what: "share of the cone's bolt that shear and tipping take",
    worst: Verdict::Fail,
    source: Source::Published("EN 1993-1-8 table 3.4; strengths of ISO 898-1 and ISO 3506-1"),
};
const WALL: Check = Check {
    key: "crossbar_wall",
    what: "shear stress in the wall that the cone stands on",
    worst: Verdict::Fail,
    source: Source::Derived("load and tipping moment as a line load under the edge of the foot, over the wall"),
};

/// Strength over stress that is wanted. Source: common practice, no source.
const MARGIN: f64 = 1.5;

/// Forces on a cone.
pub struct Forces {
    /// Down.
    pub down: Force,
    /// Sideways.
    pub side: Force,
    /// Height of the ring of contact over the cone's base.
    pub height: Length,
    /// Diameter there.
    pub contact: Length,
    /// Whether that is where its cup touches it, or the top of the flank for want of a cup.
    pub seated: bool,
}

impl Forces {
    /// On a cone that stands by itself: the ring of contact is not known, so they are taken at the top of the flank.
    pub fn at_the_top(s: &Spec, down: Force, side: Force) -> Self {
        Self { down, side, height: s.height, contact: s.tip, seated: false }
    }

    /// Height over what the cone is fixed to, packing and all.
    fn arm(&self, s: &Spec) -> Length {
        self.height + s.foot_height() + packed::thickness(packing(s))
    }

    /// Where the force across is counted, for the findings that hang on its arm: a cone by itself knows no ring of contact.
    fn counted(&self, design: &Design, s: &Spec) -> String {
        let arm = design.say().length(self.arm(s).rounded());
        let packed = if packing(s).is_some() { ", packing and all" } else { "" };
        if self.seated {
            format!(
                "; the force across is counted {arm} over what the cone stands on{packed}, where this cup touches it"
            )
        } else {
            format!(
                "; the force across is counted {arm} over what the cone stands on{packed}, at the top of the flank, since no cup is known here: the file of the cup counts it where it touches, lower"
            )
        }
    }
}

/// What lies under a cone that is bolted on.
fn packing(s: &Spec) -> Option<&Packing> {
    s.bolt.as_ref().filter(|_| !s.weld_on)?.packing.as_ref()
}

/// Width on which the cone stands.
fn stands_on(s: &Spec) -> Length {
    s.bolt.as_ref().map_or(s.foot_width(), |bolt| packed::stands_on(packing(s), s.foot_width(), &bolt.size))
}

/// Force per length on the weld all round the foot, N/mm. The load presses the cone down and asks nothing of the weld.
pub fn weld_line(s: &Spec, forces: &Forces) -> Option<f64> {
    strength::ring_weld(forces.side, forces.arm(s), Force::ZERO, s.foot_width()).ok()
}

/// Checks what the cone carries.
pub fn checks(design: &mut Design, s: &Spec, forces: &Forces) {
    if let Some(own) = s.common.material.yield_strength {
        section(design, s, forces, own);
    }
    bolt(design, s, forces);
    wall(design, s, forces);
}

/// Bore of the cone so high over its foot: a tapped hole ends at the point of its drill.
fn bore_at(s: &Spec, height: Length) -> Length {
    s.bolt.as_ref().map_or(Length::ZERO, |bolt| match bolt.kind {
        BoltKind::Through { hole, .. } => hole,
        BoltKind::FromBelow { tap_drill, depth } => {
            let end = drilled_depth(depth, &bolt.size) + drill_point(tap_drill);
            if height + s.foot_height() < end { tap_drill } else { Length::ZERO }
        }
    })
}

fn section(design: &mut Design, s: &Spec, forces: &Forces, own: Stress) {
    let root = RoundSection { outside: s.base, bore: bore_at(s, Length::ZERO) };
    let stress = root.bending(forces.side, forces.height).and_then(|b| Ok(b + root.along(forces.down)?));
    if let Ok(stress) = stress {
        against(
            design,
            &ROOT,
            stress,
            own,
            "the cone bends or breaks at its root: larger base, lower seat or harder steel",
        );
    }
    if let Ok(shear) = (RoundSection { outside: forces.contact, bore: bore_at(s, forces.height) }).shear(forces.side) {
        against(
            design,
            &SECTION,
            shear,
            own * SHEAR_SHARE,
            "the top of the cone shears off: larger hole and cone, smaller bore",
        );
    }
    common::doubtful_strength(design, &s.common.material);
}

/// Beyond the strength it fails; within a third of it, it asks for attention.
pub fn against(design: &mut Design, check: &Check, stress: Stress, strength: Stress, because: &str) {
    let wanted = Some(Value::Stress(strength / MARGIN));
    design.at_most(check, Value::Stress(stress), Value::Stress(strength), wanted, because);
}

fn bolt(design: &mut Design, s: &Spec, forces: &Forces) {
    let Some(bolt) = s.bolt.as_ref().filter(|_| !s.weld_on) else { return };
    let pulled = Pulled {
        packing: bolt.packing.as_ref(),
        class: bolt.steel.class,
        thread: &bolt.size,
        hole: bolt.clearance,
        count: 1,
        across: if bolt.register { Force::ZERO } else { forces.side },
        along: tipping_pull(forces.side, forces.arm(s), stands_on(s)),
    };
    let counted = forces.counted(design, s);
    let because = format!(
        "a bolt of class {}, its clamping not counted on: a thicker or harder bolt, a wider foot, or {} that takes the side force{}{counted}",
        bolt.steel.class.name,
        if s.foot_height() > Length::ZERO { "a register for it" } else { "a foot under the cone in a register" },
        pulled.told(design)
    );
    design.at_most(&BOLT, Value::Share(pulled.taken()), Value::Share(1.0), None, because);
    if bolt.register && forces.side > Force::ZERO {
        let because = "the foot in its register takes the force across, not the friction under the bolt";
        let (none, all) = (Value::Share(0.0), Value::Share(1.0));
        design.finding(&packed::CONE_SLIPS, Verdict::Ok, Some(none), Limit::AtMost(all), because);
    } else {
        pulled.slips(design, &packed::CONE_SLIPS, &counted);
    }
}

fn wall(design: &mut Design, s: &Spec, forces: &Forces) {
    let Some(wall) = &s.crossbar_wall else { return };
    let Some(strength) = s.crossbar_material.yield_strength else { return };
    let tips = strength::ring_weld(forces.side, forces.arm(s), forces.down, stands_on(s));
    if let Ok(line) = tips {
        let stress = Stress::mpa(line / wall.value.as_mm());
        against(
            design,
            &WALL,
            stress,
            strength * SHEAR_SHARE,
            "the wall gives way under the edge of the foot: a wider foot, a doubling plate, or a sleeve right through",
        );
    }
}
