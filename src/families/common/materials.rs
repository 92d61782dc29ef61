//! The material of a part: what it weighs, whether it carries, swells or is eaten by its neighbour, and how far its figures are known.

use crate::description::Fields;
use crate::formulas::hardness::Hardness;
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::key::{Given, Key};
use crate::record::show;
use crate::shop::{self, Material};
use crate::source::Source;
use crate::standards::galvanic::ANODIC_SOURCE;
use crate::standards::materials::swelling::SWELLING_SOURCE;
use crate::units::{Force, Length, Stress, Volume};

use super::reading::{Common, KEPT_APART};
use super::sizes;

/// Records volume and mass.
pub fn mass(design: &mut Design, material: &Material, volume: Volume, count: u32) {
    design.computed(&sizes::VOLUME, Value::Volume(volume), "closed form of the solid");
    let mass = material.density * volume;
    design.computed(&sizes::MASS, Value::Mass(mass), "density x volume");
    if count > 1 {
        design.computed(&sizes::MASS_ALL, Value::Mass(mass * f64::from(count)), "count x mass");
    }
}

/// Greatest force across over the load where none is stated: that of braking on the road.
/// Source: 49 CFR 393.102: 0.8 g forward.
const SIDE_FACTOR: f64 = 0.8;

/// The share of a load that acts across: as written, or braking.
pub fn side_share(given: Option<&Given<f64>>) -> f64 {
    given.map_or(SIDE_FACTOR, |g| g.value)
}

/// Records the share of a load that acts across, and gives the force.
pub fn side_force(design: &mut Design, key: &'static Key, given: Option<&Given<f64>>, load: Force) -> Force {
    load * design.given_or(key, given, SIDE_FACTOR, Value::Number, "0.8 g forward, 49 CFR 393.102")
}

const PRINTED: Check =
    Check { key: "printed_plastic", what: "printed plastic", worst: Verdict::Ok, source: Source::CommonPractice };

const LOADED: Check = Check {
    key: "printed_under_load",
    what: "printed plastic under the stated load",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};

const FIGURES: Check = Check {
    key: "material_figures",
    what: "figures of the material",
    worst: Verdict::Ok,
    source: Source::Memory("at least one figure of this material was not seen in print"),
};

const METALS: Check = Check {
    key: "dissimilar_metals",
    what: "difference of anodic index of the two metals, volts",
    worst: Verdict::Caution,
    source: Source::Published(ANODIC_SOURCE),
};

/// Where two metals meet.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Meets {
    /// What a cone stands on.
    Crossbar,
    /// What a cup is fixed to.
    Frame,
    /// The cone in its cup.
    Cone,
    /// The shaft in a sleeve.
    Shaft,
    /// The housing about a sleeve.
    Housing,
}

impl Meets {
    /// The finding, by its partner: a part may meet several.
    const fn check(self) -> Check {
        let what = match self {
            Self::Crossbar => "difference of anodic index against the crossbar, volts",
            Self::Frame => "difference of anodic index against the frame, volts",
            Self::Cone => "difference of anodic index against the cone, volts",
            Self::Shaft => "difference of anodic index against the shaft, volts",
            Self::Housing => "difference of anodic index against the housing, volts",
        };
        Check { what, ..METALS }
    }

    const fn apart(self) -> Check {
        let what = match self {
            Self::Crossbar => "kept apart from the metal of the crossbar",
            Self::Frame => "kept apart from the metal of the frame",
            Self::Cone => "kept apart from the metal of the cone",
            Self::Shaft => "kept apart from the metal of the shaft",
            Self::Housing => "kept apart from the metal of the housing",
        };
        Check { what, ..APART }
    }
}

const APART: Check = Check {
    key: "metals_kept_apart",
    what: "two metals kept apart",
    worst: Verdict::Ok,
    source: Source::Published(ANODIC_SOURCE),
};

const FIT_UP: &str = "for fit-up only: printed plastic creeps under load and softens in the sun";

/// Refuses printed plastic where the file states a load that it would carry.
pub fn printed_under_load(design: &mut Design, materials: &[&Material]) {
    if materials.iter().any(|m| m.printed) {
        design.finding(
            &LOADED,
            Verdict::Fail,
            None,
            None,
            format!("{FIT_UP}; the file states a load: make it of metal"),
        );
    }
}

/// What every part is told: plastic, unconfirmed figures.
pub fn checks(design: &mut Design, common: &Common) {
    if common.material.printed {
        design.note(&PRINTED, FIT_UP);
        design.caution(
            &[],
            "Printed parts carry no weight and no heat: to try the fit only.",
            "Printed parts carry no weight and no heat: use them to try the fit, then cut metal.",
        );
    }
    if common.material.unconfirmed {
        design.note(
            &FIGURES,
            "mass, expansion and stiffness rest on remembered figures: ask the supplier where they decide something",
        );
    }
}

const SWELLS: Check = Check {
    key: "swells",
    what: "growth of the part when it takes up water",
    worst: Verdict::Caution,
    source: SWELLING_SOURCE,
};

/// Growth that is felt in how a part fits or how high it stands. Source: common practice, no source.
const FELT: Length = Length::mm(0.1);

/// How far a plastic part grows at its largest size where it takes up water.
pub fn swells(design: &mut Design, common: &Common, size: Length) {
    let Some(share) = common.material.swells(common.environment) else { return };
    let grows = (size * share).rounded();
    let verdict = if grows > FELT { Verdict::Caution } else { Verdict::Ok };
    let because = format!(
        "{} grows over {} by so much where it stands {}, and every other size in the same measure: a material that takes up no water, or a dry place",
        common.material.name,
        show::length(size.rounded(), common.header.unit),
        common.environment.name()
    );
    design.finding(&SWELLS, verdict, Some(Value::Length(grows)), Limit::AtMost(Value::Length(FELT)), because);
}

const STRENGTH: Check = Check {
    key: "strength_figures",
    what: "yield strength that a check above was held against",
    worst: Verdict::Ok,
    source: Source::Memory("strength of this material"),
};

const HARDNESS: Check = Check {
    key: "hardness_figures",
    what: "hardness that a check above was held against",
    worst: Verdict::Ok,
    source: Source::Memory("hardness of this material"),
};

/// Says that a check was held against a yield strength which is not to be relied on; once for each material.
pub fn doubtful_strength(design: &mut Design, material: &Material) {
    let Some(doubt) = material.strength_in_doubt else { return };
    let because = format!("that of {} is {doubt}: ask the supplier before relying on the margin", material.name);
    design.note(&STRENGTH, because);
}

const DRAWN: Check = Check {
    key: "drawn_strength",
    what: "yield strength that a check above was held against",
    worst: Verdict::Caution,
    source: Source::Memory("SAE J1397, as machine design texts reprint it: 1018 cold drawn 370 MPa, hot rolled 220"),
};

/// Yield strength of what is sold hot rolled where the table has the drawn bar's. Source: as the check's.
const HOT_ROLLED: Stress = Stress::mpa(220.0);

/// The same of a part that is cut from plate, which is rolled: no cold-drawn bar's strength counts there.
pub fn strength_of_plate(design: &mut Design, material: &Material) {
    // Two checks may rest on it.
    if design.findings.iter().any(|f| f.key == DRAWN.key) {
        return;
    }
    if let Some(strength) = material.yield_strength.filter(|_| material.drawn) {
        let because = format!(
            "that of {} is a cold-drawn bar's; hot-rolled plate of it gives way at about {}: a steel that is sold as plate, or the plate's own figure in shop.toml",
            material.name,
            show::value(&Value::Stress(HOT_ROLLED), design.header.unit)
        );
        design.finding(&DRAWN, Verdict::Caution, Some(Value::Stress(strength)), None, because);
        return;
    }
    if let Some(strength) = material.yield_strength.filter(|_| material.magnetic) {
        let because = format!("that of {} as it is rolled or hardened", material.name);
        design.finding(&DRAWN, Verdict::Ok, Some(Value::Stress(strength)), None, because);
    }
    doubtful_strength(design, material);
}

/// Says that a check was held against a hardness which is not to be relied on.
pub fn doubtful_hardness(design: &mut Design, material: &Material) {
    let Some(doubt) = material.hardness_in_doubt else { return };
    let because = format!("that of {} is {doubt}: have the piece measured before relying on the margin", material.name);
    design.note(&HARDNESS, because);
}

/// How two parts lie together where their metals meet.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Joint {
    /// Faces that are laid or bolted together: something can lie between.
    Laid,
    /// Pressed together: nothing stays between, and what comes after can only seal the ends.
    Pressed,
    /// Filled with a compound, which holds on clean metal alone.
    Filled,
}

impl Joint {
    /// The step that keeps the metals apart as written.
    fn kept_apart(self, by: &str) -> &'static str {
        match (self, by) {
            (Self::Laid, "paint") => {
                "Paint both parts where they meet, the nobler metal above all: a scratch over the baser one alone is eaten deep. Let it dry before they go together."
            }
            (Self::Pressed, "paint") => {
                "Paint over both ends of the joint once it is together, the nobler metal above all, and let it dry: paint in the joint would be scraped off."
            }
            (Self::Filled, "paint") => {
                "Paint over both ends of the joint once the compound has cured, the nobler metal above all: under paint the compound would not hold."
            }
            (_, "insulation") => {
                "Put a sheet, sleeve or washer of plastic between the two metals, under the heads of the bolts and round their shanks as well: no bare metal may touch."
            }
            (Self::Laid, _) => {
                "Grease both faces where the metals meet, and fill the edge of the joint; wipe off and grease again every season."
            }
            (Self::Pressed, _) => {
                "Grease both ends of the joint all round once it is together; wipe off and grease again every season."
            }
            (Self::Filled, _) => {
                "Grease both ends of the joint all round once the compound has cured, no sooner: on grease it does not hold. Wipe off and grease again every season."
            }
        }
    }
}

/// The step that keeps two metals apart, as the file says.
pub fn kept_apart(design: &mut Design, common: &Common, joint: Joint) {
    let Some(by) = &common.kept_apart else { return };
    design.computed(&KEPT_APART.size(), Value::Text(by.value.into()), "as written");
    match joint {
        Joint::Laid => design.step_before_fixing("bench", joint.kept_apart(by.value)),
        Joint::Pressed | Joint::Filled => design.step("bench", joint.kept_apart(by.value)),
    };
    let (what, where_) = match (by.value, joint) {
        ("insulation", _) => ("plastic sheet, sleeves and washers", "between the two metals, to keep them apart"),
        (other, Joint::Laid) => (other, "between the two metals, to keep them apart"),
        (other, _) => (other, "over the ends of the joint, to keep water from the two metals"),
    };
    design.wants.uses(what, where_);
}

/// Checks two metals that touch: bare, or as the file says that they are kept apart. Parts that are `pressed` together touch
/// whatever lies between, so that only what seals the ends of their joint counts.
pub fn dissimilar(design: &mut Design, common: &Common, other: &Material, at: Meets, pressed: bool) {
    let Some((difference, limit, second)) = shop::galvanic_pair(&common.material, other, common.environment) else {
        return;
    };
    let eaten = if difference == 0.0 {
        "neither is eaten by the other".to_string()
    } else {
        format!(
            "where it stays wet, {} is eaten: paint or grease the joint, or part the metals, and say so by kept_apart",
            if second { &other.name } else { &common.material.name }
        )
    };
    let pair = format!("{} against {}", common.material.name, other.name);
    let kept = common.kept_apart.as_ref().map(|by| by.value).filter(|by| !(pressed && *by == "insulation"));
    if let Some(by) = kept.filter(|_| difference > limit) {
        let because = format!(
            "{pair}, {} V, bare at most {} V: kept apart by {by}, as written; look at it every season",
            show::trimmed(difference, 2),
            show::trimmed(limit, 2)
        );
        design.finding(&at.apart(), Verdict::Ok, None, None, because);
        return;
    }
    let because = format!("{pair}: {eaten}");
    let verdict = if difference > limit { Verdict::Caution } else { Verdict::Ok };
    if !design.findings.iter().any(|f| f.key == METALS.key && f.because == because && f.verdict == Verdict::Ok) {
        let (difference, limit) = (Value::Number(difference), Limit::AtMost(Value::Number(limit)));
        design.finding(&at.check(), verdict, Some(difference), limit, because);
    }
}

/// How a thin piece is held for grinding its face: by a magnet where one holds the material.
pub fn held_for_grinding(material: &Material) -> &'static str {
    if material.magnetic {
        "by a magnet, or by tape on a flat plate with a stop in front of it"
    } else {
        "by tape on a flat plate with a stop in front of it (a magnet does not hold this material)"
    }
}

/// A hardness that may be absent; outer `None` when a problem was noted.
pub fn hardness(table: &Fields, key: &'static Key) -> Option<Option<Given<Hardness>>> {
    let Some(text) = table.text(key) else { return (!table.has(key)).then_some(None) };
    match Hardness::parse(&text.value) {
        Ok(hardness) => Some(Some(text.map(|_| hardness))),
        Err(message) => {
            table.problem_at(key, message, Some(key.help.into()));
            None
        }
    }
}
