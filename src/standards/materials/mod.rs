//! What a part is made of: weight, stiffness, expansion, strength, hardness, how fast to cut it.

pub mod swelling;
mod table;

use super::friction::Body;
use super::galvanic::AnodicGroup;
use super::nearest_names;
use crate::source::Cited;
use crate::source::Confirmed::{self, Memory, One};
use crate::units::{CuttingSpeed, Density, Expansion, Stress, Temperature};

/// Scale of a hardness figure.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum HardnessScale {
    /// HB
    Brinell,
    /// HRB
    RockwellB,
    /// HRC
    RockwellC,
    /// HRM, plastics
    RockwellM,
    /// HRR, plastics
    RockwellR,
}

impl std::fmt::Display for HardnessScale {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Brinell => "HB",
            Self::RockwellB => "HRB",
            Self::RockwellC => "HRC",
            Self::RockwellM => "HRM",
            Self::RockwellR => "HRR",
        })
    }
}

/// A hardness figure with its scale.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Hardness {
    /// The figure.
    pub value: f64,
    /// Its scale.
    pub scale: HardnessScale,
}

/// A range of cutting speeds, slow end first.
pub type SpeedRange = Cited<(CuttingSpeed, CuttingSpeed)>;

/// Starting values for turning. Light lathes: half of it (common practice, no source).
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct CuttingSpeeds {
    /// High-speed steel, roughing.
    pub hss_rough: SpeedRange,
    /// High-speed steel, finishing.
    pub hss_finish: SpeedRange,
    /// Carbide, roughing.
    pub carbide_rough: SpeedRange,
    /// Carbide, finishing.
    pub carbide_finish: SpeedRange,
    /// Twist drills of high-speed steel.
    pub drill: SpeedRange,
}

/// A material with what the shop needs to know of it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Material {
    /// Name as typed by the user.
    pub name: &'static str,
    /// Other names for it.
    pub aliases: &'static [&'static str],
    /// Density.
    pub density: Cited<Density>,
    /// Young's modulus.
    pub youngs_modulus: Cited<Stress>,
    /// Poisson's ratio.
    pub poisson: Cited<f64>,
    /// Linear expansion, 20 to 100 °C.
    pub expansion: Cited<Expansion>,
    /// Yield strength (0.2 %); none where no figure is known.
    pub yield_strength: Option<Cited<Stress>>,
    /// Tensile strength.
    pub tensile_strength: Option<Cited<Stress>>,
    /// Hardness.
    pub hardness: Option<Cited<Hardness>>,
    /// Where a printed plastic goes soft.
    pub glass_transition: Option<Cited<Temperature>>,
    /// Cutting speeds; none for hardened steel (grind it) and printed plastics.
    pub cutting: Option<CuttingSpeeds>,
    /// Place in the anodic index; none for plastics.
    pub anodic: Option<AnodicGroup>,
    /// Row of the friction table.
    pub friction_body: Option<Body>,
    /// Usually 3D-printed: for fit-up only, carries no load and no heat.
    pub is_printed_plastic: bool,
}

const fn kg_m3(value: f64, confirmed: Confirmed, source: &'static str) -> Cited<Density> {
    Cited { value: Density::kg_per_m3(value), confirmed, source }
}
const fn gpa(value: f64, confirmed: Confirmed, source: &'static str) -> Cited<Stress> {
    Cited { value: Stress::gpa(value), confirmed, source }
}
const fn mpa(value: f64, confirmed: Confirmed, source: &'static str) -> Cited<Stress> {
    Cited { value: Stress::mpa(value), confirmed, source }
}
const fn ratio(value: f64, confirmed: Confirmed, source: &'static str) -> Cited<f64> {
    Cited { value, confirmed, source }
}
const fn cte(value: f64, confirmed: Confirmed, source: &'static str) -> Cited<Expansion> {
    Cited { value: Expansion::per_million_kelvin(value), confirmed, source }
}
const fn deg_c(value: f64, confirmed: Confirmed, source: &'static str) -> Cited<Temperature> {
    Cited { value: Temperature::celsius(value), confirmed, source }
}
const fn hard(value: f64, scale: HardnessScale, confirmed: Confirmed, source: &'static str) -> Cited<Hardness> {
    Cited { value: Hardness { value, scale }, confirmed, source }
}

const fn speed(slow: f64, fast: f64, confirmed: Confirmed, source: &'static str) -> SpeedRange {
    Cited { value: (CuttingSpeed::m_per_min(slow), CuttingSpeed::m_per_min(fast)), confirmed, source }
}
const fn sfm(slow: f64, fast: f64) -> SpeedRange {
    speed(slow * 0.3048, fast * 0.3048, One, "T.O. 1-1A-9 table 2-8 (surface feet per minute)")
}
const fn recalled(slow: f64, fast: f64) -> SpeedRange {
    speed(slow, fast, Memory, "from memory, unconfirmed")
}

const fn printed_sfm(slow: f64, fast: f64, source: &'static str) -> SpeedRange {
    speed(slow * 0.3048, fast * 0.3048, One, source)
}
/// Where the speeds for drills, and for turning medium carbon steel, stand.
const CARBON: &str =
    "handbook table of cutting speeds for plain carbon steels, high-speed steel tools (a tool shop's reprint)";
/// Where the speeds for drills in stainless steel stand.
const STAINLESS_DRILL: &str =
    "handbook table of cutting speeds for stainless steels, high-speed steel drills (a tool maker's reprint)";
/// Where the speeds for steel and aluminium stand.
const TURNING: &str = "a public table of turning speeds";

const STEEL: CuttingSpeeds = CuttingSpeeds {
    hss_rough: speed(35.0, 45.0, One, TURNING),
    hss_finish: speed(50.0, 70.0, One, TURNING),
    carbide_rough: speed(150.0, 300.0, One, TURNING),
    carbide_finish: speed(150.0, 300.0, One, TURNING),
    drill: printed_sfm(90.0, 100.0, CARBON),
};
const PREHARD: CuttingSpeeds = CuttingSpeeds {
    hss_rough: recalled(15.0, 20.0),
    hss_finish: recalled(20.0, 30.0),
    carbide_rough: recalled(80.0, 120.0),
    carbide_finish: recalled(100.0, 150.0),
    drill: recalled(12.0, 15.0),
};
/// Medium carbon steel, 125 to 225 HB: one printed speed for turning, without telling roughing from finishing.
const MEDIUM_CARBON: CuttingSpeeds = CuttingSpeeds {
    hss_rough: printed_sfm(85.0, 100.0, CARBON),
    hss_finish: printed_sfm(85.0, 100.0, CARBON),
    carbide_rough: recalled(110.0, 200.0),
    carbide_finish: recalled(120.0, 220.0),
    drill: printed_sfm(75.0, 90.0, CARBON),
};

/// High-speed steel: the row for feeds of 0.008 to 0.015 in, which is what a light lathe takes; the row of 20 to 40 sfm is
/// for 0.020 to 0.040 in.
const STAINLESS: CuttingSpeeds = CuttingSpeeds {
    hss_rough: sfm(50.0, 80.0),
    hss_finish: sfm(50.0, 80.0),
    carbide_rough: sfm(150.0, 200.0),
    carbide_finish: sfm(150.0, 300.0),
    drill: printed_sfm(50.0, 55.0, STAINLESS_DRILL),
};
const ALUMINIUM: CuttingSpeeds = CuttingSpeeds {
    hss_rough: speed(150.0, 250.0, One, TURNING),
    hss_finish: speed(150.0, 250.0, One, TURNING),
    carbide_rough: recalled(300.0, 600.0),
    carbide_finish: recalled(300.0, 600.0),
    drill: recalled(60.0, 90.0),
};
const BRASS: CuttingSpeeds = CuttingSpeeds {
    hss_rough: recalled(60.0, 90.0),
    hss_finish: recalled(90.0, 120.0),
    carbide_rough: recalled(150.0, 250.0),
    carbide_finish: recalled(200.0, 300.0),
    drill: recalled(45.0, 60.0),
};
const BRONZE: CuttingSpeeds = CuttingSpeeds {
    hss_rough: recalled(30.0, 45.0),
    hss_finish: recalled(45.0, 60.0),
    carbide_rough: recalled(100.0, 150.0),
    carbide_finish: recalled(150.0, 200.0),
    drill: recalled(20.0, 30.0),
};
const PLASTIC: CuttingSpeeds = CuttingSpeeds {
    hss_rough: recalled(100.0, 150.0),
    hss_finish: recalled(150.0, 250.0),
    carbide_rough: recalled(150.0, 250.0),
    carbide_finish: recalled(150.0, 300.0),
    drill: recalled(30.0, 60.0),
};

/// All materials.
pub fn materials() -> &'static [Material] {
    table::MATERIALS
}

/// A material by name or alias, case ignored.
pub fn material(name: &str) -> Option<&'static Material> {
    let wanted = name.trim();
    let named = |text: &str| text.eq_ignore_ascii_case(wanted);
    table::MATERIALS.iter().find(|m| named(m.name) || m.aliases.iter().any(|alias| named(alias)))
}

/// Known names near to one that is not known, with the shop's own names among them.
pub fn suggest<'a>(name: &str, own: impl Iterator<Item = &'a str>) -> Vec<String> {
    let known = table::MATERIALS.iter().flat_map(|m| m.aliases.iter().copied().chain([m.name]));
    nearest_names(name, own.chain(known))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_and_aliases() {
        for (text, name) in [
            ("Steel S235", "steel S235"),
            ("mild steel", "steel S235"),
            ("1018", "steel 1018"),
            ("a36", "steel A36"),
            ("304", "stainless 304"),
            ("aluminum", "aluminium 6061-T6"),
            (" petg ", "PETG"),
        ] {
            assert_eq!(material(text).map(|m| m.name), Some(name));
        }
        assert!(material("unobtainium").is_none());
        assert_eq!(suggest("alumnium", std::iter::empty()).first().map(String::as_str), Some("aluminium"));
        assert_eq!(suggest("foundry iorn", std::iter::once("foundry iron")), ["foundry iron"]);
        assert_eq!(suggest("stainles 316", std::iter::empty()).first().map(String::as_str), Some("stainless 316"));
    }

    #[test]
    fn no_name_is_given_twice() {
        let mut names: Vec<String> =
            materials().iter().flat_map(|m| m.aliases.iter().chain([&m.name])).map(|n| n.to_lowercase()).collect();
        let count = names.len();
        names.sort();
        names.dedup();
        assert_eq!(names.len(), count);
    }

    /// A36: 250 MPa yield, 200 GPa, 7850 kg/m³ (mechanics text, appendix C; Callister prints 207 GPa).
    #[test]
    fn printed_values() {
        let a36 = material("A36").unwrap();
        assert_eq!(a36.yield_strength.unwrap().value, Stress::mpa(250.0));
        assert_eq!(a36.youngs_modulus.value, Stress::gpa(200.0));
        assert_eq!(a36.density.value, Density::kg_per_m3(7850.0));
    }

    /// T.O. 1-1A-9 table 2-8: 304 in high-speed steel at feeds of 0.008 to 0.015 in 50 to 80 sfm. Handbook table of plain
    /// carbon steels: 1045 of 125 to 175 HB 100 sfm turning and 90 drilling, of 175 to 225 HB 85 and 75; 1018 drills at 90
    /// to 100. Handbook table of stainless steels: 304 annealed drills at 55 sfm, cold drawn at 50.
    #[test]
    fn printed_speeds() {
        let of = |name: &str| material(name).unwrap().cutting.unwrap();
        for (range, least, most) in [
            (of("304").hss_rough, 50.0, 80.0),
            (of("1045").hss_rough, 85.0, 100.0),
            (of("1045").drill, 75.0, 90.0),
            (of("1018").drill, 90.0, 100.0),
            (of("304").drill, 50.0, 55.0),
        ] {
            let (slow, fast) = range.value;
            assert!((slow.as_sfm() - least).abs() < 1e-9 && (fast.as_sfm() - most).abs() < 1e-9);
        }
    }

    #[test]
    fn every_record_makes_sense() {
        assert_eq!(materials().len(), 22);
        for m in materials() {
            assert!((900.0..9000.0).contains(&m.density.value.as_kg_per_m3()), "{}", m.name);
            assert!((0.25..0.5).contains(&m.poisson.value), "{}", m.name);
            if let (Some(y), Some(u)) = (m.yield_strength, m.tensile_strength) {
                assert!(y.value < u.value, "{}", m.name);
            }
            if let Some(c) = m.cutting {
                assert!(
                    [c.hss_rough, c.hss_finish, c.carbide_rough, c.carbide_finish, c.drill]
                        .iter()
                        .all(|r| r.value.0 <= r.value.1)
                );
            }
            assert!(!m.is_printed_plastic || m.anodic.is_none());
        }
    }
}
