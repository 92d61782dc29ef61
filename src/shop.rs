//! The shop: its lathe, its habits and its materials. Read from `shop.toml` beside the part files; usual figures otherwise.

use crate::description::{Document, Fields, Problem};
use crate::key::{Key, Kind};
use crate::mechanics::Elastic;
use crate::mechanics::hardness::Hardness;
use crate::mechanics::press_fit::{HARD_RING_LIMIT, SOFT_HUB_LIMIT};
use crate::standards::friction;
use crate::standards::galvanic::{self, AnodicGroup};
use crate::standards::iso2768::GeneralClass;
use crate::standards::materials::{self, CuttingSpeeds, HardnessScale, SpeedRange};
use crate::units::{CuttingSpeed, Density, Expansion, Length, LengthUnit, SpindleSpeed, Stress, Temperature};

const FAMILY: Key = Key::new("family", "family", Kind::Choice(&["shop"]), "\"shop\"");
const UNITS: Key = Key::new("units", "units", Kind::Choice(&["mm", "in"]), "unit shown first: \"mm\" or \"in\"");
const TOOL: Key = Key::new("tool", "tool", Kind::Choice(&["HSS", "carbide"]), "usual turning tool");
const MAX_SPEED: Key =
    Key::new("max_speed_rpm", "greatest spindle speed", Kind::Number(10.0, 20_000.0), "such as 1500");
const DEPTH_OF_CUT: Key =
    Key::new("depth_of_cut", "depth of cut", Kind::POSITIVE, "usual roughing cut per side, such as \"1.5 mm\"");
const FINISH_ALLOWANCE: Key = Key::new(
    "finish_allowance",
    "finish allowance",
    Kind::POSITIVE,
    "usual metal left square to a flank, such as \"0.3 mm\"",
);
const COMPOUND_TRAVEL: Key =
    Key::new("compound_travel", "travel of the compound slide", Kind::POSITIVE, "such as \"75 mm\"");
const CHECK_ROLLER: Key = Key::new(
    "check_roller",
    "check rollers",
    Kind::POSITIVE,
    "diameter of a pair of rollers at hand, such as \"10 mm\"",
);
const GENERAL: Key = Key::new(
    "general_tolerance",
    "general tolerance",
    Kind::Choice(&["f", "m", "c", "v"]),
    "class of ISO 2768-1 for sizes without a class",
);
const MATERIAL: Key = Key::new(
    "material",
    "material",
    Kind::Rows(MATERIAL_KEYS),
    "a material of your own, or figures that override the table's",
);

const NAME: Key = Key::new("name", "name", Kind::Text, "name of the material");
const LIKE: Key = Key::new("like", "like", Kind::Text, "a known material whose figures hold where none is given here");
const DENSITY: Key = Key::new("density", "density", Kind::Text, "such as \"7850 kg/m3\"");
const MODULUS: Key = Key::new("youngs_modulus", "Young's modulus", Kind::Stress, "such as \"210 GPa\"");
const POISSON: Key = Key::new("poisson", "Poisson's ratio", Kind::Number(0.01, 0.499), "such as 0.3");
const EXPANSION: Key = Key::new("expansion", "expansion", Kind::Text, "such as \"11.7 um/m/K\"");
const YIELD: Key = Key::new("yield", "yield strength", Kind::Stress, "such as \"355 MPa\"");
const HARDNESS: Key = Key::new("hardness_hv", "hardness", Kind::Number(10.0, 1200.0), "Vickers hardness, such as 130");

const MATERIAL_KEYS: &[Key] = &[NAME, LIKE, DENSITY, MODULUS, POISSON, EXPANSION, YIELD, HARDNESS];
const KEYS: &[Key] =
    &[FAMILY, UNITS, TOOL, MAX_SPEED, DEPTH_OF_CUT, FINISH_ALLOWANCE, COMPOUND_TRAVEL, CHECK_ROLLER, GENERAL, MATERIAL];

/// Defaults and materials of the shop.
#[derive(Clone, Debug)]
pub struct Shop {
    /// Unit shown first where a part file says nothing.
    pub unit: LengthUnit,
    /// Usual turning tool.
    pub tool: &'static str,
    /// The lathe's greatest speed.
    pub max_speed: SpindleSpeed,
    /// Usual roughing cut per side.
    pub depth_of_cut: Length,
    /// Usual metal left square to a flank.
    pub finish_allowance: Length,
    /// Travel of the compound slide.
    pub compound_travel: Length,
    /// Rollers at hand for check sizes.
    pub check_roller: Length,
    /// General tolerance class.
    pub general_tolerance: GeneralClass,
    /// Materials of the shop's own; they come before the tables.
    own: Vec<Material>,
}

impl Default for Shop {
    /// A usual small lathe. Common practice, no source.
    fn default() -> Self {
        Self {
            unit: LengthUnit::Mm,
            tool: "HSS",
            max_speed: SpindleSpeed::rpm(2000.0),
            depth_of_cut: Length::mm(1.5),
            finish_allowance: Length::mm(0.3),
            compound_travel: Length::mm(75.0),
            check_roller: Length::mm(10.0),
            general_tolerance: GeneralClass::Medium,
            own: Vec::new(),
        }
    }
}

/// A material with its figures ready for use.
#[derive(Clone, Debug)]
pub struct Material {
    /// Its name.
    pub name: String,
    /// Density.
    pub density: Density,
    /// How it gives way and grows.
    pub elastic: Elastic,
    /// Yield strength, where known.
    pub yield_strength: Option<Stress>,
    /// Tensile strength, where known.
    pub tensile_strength: Option<Stress>,
    /// Vickers hardness, where known or convertible.
    pub hardness_hv: Option<f64>,
    /// Hardened: it is ground, not turned.
    pub hardened: bool,
    /// A plastic, printed.
    pub printed: bool,
    /// A plastic of any kind.
    pub plastic: bool,
    /// Place in the galvanic series, for metals.
    pub anodic: Option<AnodicGroup>,
    speeds: Option<CuttingSpeeds>,
    rubbing: Option<friction::Body>,
    /// Density, expansion or stiffness is from memory.
    pub unconfirmed: bool,
    /// Why the yield strength is not to be relied on, where it is not.
    pub strength_in_doubt: Option<&'static str>,
    /// Why the hardness is not to be relied on, where it is not.
    pub hardness_in_doubt: Option<&'static str>,
}

/// Cutting speeds for roughing and finishing.
#[derive(Clone, Copy, Debug)]
pub struct Cutting {
    /// Roughing.
    pub rough: CuttingSpeed,
    /// Finishing.
    pub finish: CuttingSpeed,
}

impl Material {
    /// To what a part of it may be heated when it is shrunk on: a hard ring loses hardness beyond, a soft hub scales.
    pub fn heat_limit(&self) -> Temperature {
        if self.hardened { HARD_RING_LIMIT.value } else { SOFT_HUB_LIMIT }
    }

    /// Cutting speeds at the low end of the usual range, which a light lathe stands. Where no range is known, those of
    /// hard steel: slow is safe.
    pub fn cutting(&self, carbide: bool) -> Cutting {
        let low = |range: SpeedRange| range.value.0;
        match (self.speeds, carbide) {
            (Some(s), false) => Cutting { rough: low(s.hss_rough), finish: low(s.hss_finish) },
            (Some(s), true) => Cutting { rough: low(s.carbide_rough), finish: low(s.carbide_finish) },
            (None, _) => Cutting { rough: CuttingSpeed::m_per_min(15.0), finish: CuttingSpeed::m_per_min(20.0) },
        }
    }
}

impl From<&materials::Material> for Material {
    fn from(m: &materials::Material) -> Self {
        use crate::source::Confirmed::Memory;
        let hv = m
            .hardness
            .and_then(|h| vickers(h.value.value, h.value.scale))
            .or_else(|| m.tensile_strength.filter(|_| is_steel(m)).map(|t| t.value.as_mpa() / TENSILE_PER_VICKERS));
        Self {
            name: m.name.into(),
            density: m.density.value,
            elastic: Elastic {
                youngs_modulus: m.youngs_modulus.value,
                poisson: m.poisson.value,
                expansion: m.expansion.value,
            },
            yield_strength: m.yield_strength.or(m.tensile_strength).map(|y| y.value),
            tensile_strength: m.tensile_strength.map(|t| t.value),
            hardness_hv: hv,
            hardened: hv.is_some_and(|hv| hv >= 450.0),
            printed: m.is_printed_plastic,
            plastic: m.youngs_modulus.value < Stress::gpa(20.0),
            anodic: m.anodic,
            speeds: m.cutting,
            rubbing: m.friction_body,
            unconfirmed: [m.density.confirmed, m.youngs_modulus.confirmed, m.poisson.confirmed, m.expansion.confirmed]
                .contains(&Memory),
            strength_in_doubt: match (m.yield_strength, m.tensile_strength) {
                (Some(y), _) if y.confirmed == Memory => Some("a remembered figure"),
                (None, Some(_)) => Some("the tensile strength, as no yield strength is printed"),
                _ => None,
            },
            hardness_in_doubt: match (m.hardness, hv) {
                (Some(h), _) if h.confirmed == Memory => Some("a remembered figure"),
                (None, Some(_)) => Some("an estimate from the tensile strength"),
                _ => None,
            },
        }
    }
}

/// Tensile strength in MPa for one HV of unhardened steel, where no hardness is printed.
/// Source: ISO 18265:2013, table A.1 (from memory): 360 MPa stands beside about 112 HV.
const TENSILE_PER_VICKERS: f64 = 3.2;

fn is_steel(m: &materials::Material) -> bool {
    m.friction_body == Some(friction::Body::Steel)
}

/// Vickers hardness from another scale; `None` for the scales of soft metals and plastics.
/// HB: taken as equal below 350; common practice, no source.
fn vickers(value: f64, scale: HardnessScale) -> Option<f64> {
    match scale {
        HardnessScale::Brinell => Some(value),
        HardnessScale::RockwellC => Hardness::RockwellC(value).vickers().ok(),
        _ => None,
    }
}

impl Shop {
    /// The shop's own materials, in the order of its file.
    pub fn own(&self) -> &[Material] {
        &self.own
    }

    /// A material by name: the shop's own first, then the tables.
    ///
    /// # Errors
    /// A sentence with the nearest names.
    pub fn material(&self, name: &str) -> Result<Material, String> {
        if let Some(own) = self.own.iter().find(|m| m.name.eq_ignore_ascii_case(name.trim())) {
            return Ok(own.clone());
        }
        if let Some(known) = materials::material(name) {
            return Ok(known.into());
        }
        let near = materials::suggest(name, self.own.iter().map(|m| m.name.as_str()));
        let help = if near.is_empty() {
            "`setdown materials` lists the known ones; shop.toml can add others".to_string()
        } else {
            format!("did you mean {}?", near.join(" or "))
        };
        Err(format!("the material `{name}` is not known: {help}"))
    }

    /// Reads the shop's file.
    ///
    /// # Errors
    /// All problems of the file.
    pub fn read(file: &str, text: &str) -> Result<Self, Vec<Problem>> {
        let document = Document::parse(file, text)?;
        let shop = Self::from_fields(&document.root(KEYS));
        let problems = document.into_problems();
        if problems.is_empty() { Ok(shop) } else { Err(problems) }
    }

    fn from_fields(f: &Fields) -> Self {
        let usual = Self::default();
        f.choice(&FAMILY);
        let length = |key: &Key, usual: Length| f.length(key).map_or(usual, |g| g.value);
        let mut shop = Self {
            unit: f.default_unit().unwrap_or(usual.unit),
            tool: f.choice(&TOOL).map_or(usual.tool, |t| t.value),
            max_speed: f.number(&MAX_SPEED).map_or(usual.max_speed, |n| SpindleSpeed::rpm(n.value)),
            depth_of_cut: length(&DEPTH_OF_CUT, usual.depth_of_cut),
            finish_allowance: length(&FINISH_ALLOWANCE, usual.finish_allowance),
            compound_travel: length(&COMPOUND_TRAVEL, usual.compound_travel),
            check_roller: length(&CHECK_ROLLER, usual.check_roller),
            general_tolerance: f
                .choice(&GENERAL)
                .and_then(|g| GeneralClass::parse(g.value).ok())
                .unwrap_or(usual.general_tolerance),
            own: Vec::new(),
        };
        for row in f.rows(&MATERIAL) {
            let own = shop.own_material(&row);
            shop.own.extend(own);
        }
        shop
    }

    fn own_material(&self, row: &Fields) -> Option<Material> {
        let name = row.required_text(&NAME)?;
        let like = row.text(&LIKE).map_or_else(|| name.value.clone(), |l| l.value);
        let base = match self.material(&like) {
            Ok(base) => base,
            Err(message) => {
                row.problem_at(
                    &LIKE,
                    message,
                    Some("like = \"steel S235\" gives the figures that are not written here".into()),
                );
                return None;
            }
        };
        let hv = row.number(&HARDNESS).map_or(base.hardness_hv, |n| Some(n.value));
        // What the shop writes itself is its own affair; only what is taken over keeps its doubt.
        let kept = |key: &Key, doubt: Option<&'static str>| doubt.filter(|_| !row.has(key));
        Some(Material {
            strength_in_doubt: kept(&YIELD, base.strength_in_doubt),
            hardness_in_doubt: kept(&HARDNESS, base.hardness_in_doubt),
            name: name.value,
            density: row.density(&DENSITY).map_or(base.density, |g| g.value),
            elastic: Elastic {
                youngs_modulus: row.stress(&MODULUS).map_or(base.elastic.youngs_modulus, |g| g.value),
                poisson: row.number(&POISSON).map_or(base.elastic.poisson, |g| g.value),
                expansion: row.expansion(&EXPANSION).map_or(base.elastic.expansion, |g| g.value),
            },
            yield_strength: row.stress(&YIELD).map(|g| g.value).or(base.yield_strength),
            hardness_hv: hv,
            hardened: hv.is_some_and(|hv| hv >= 450.0),
            ..base
        })
    }
}

/// Whether two metals may stand together bare in that environment: difference of anodic index in volts, the limit, and
/// which is eaten (the second, if true). `None` where one is no metal of the table.
pub fn galvanic_pair(a: &Material, b: &Material, environment: galvanic::Environment) -> Option<(f64, f64, bool)> {
    let (difference, second) = galvanic::anodic_difference_volts(&a.anodic?, &b.anodic?);
    Some((difference, galvanic::allowed_difference_volts(environment).value, second))
}

/// Least and greatest printed coefficient of static friction of two dry materials; `None` where none is printed.
pub fn friction_pair(a: &Material, b: &Material) -> Option<(f64, f64)> {
    let found = friction::friction(a.rubbing?, b.rubbing?, friction::Motion::Static, friction::Condition::Dry);
    found.map(|f| f.range)
}

/// Reader of a density and an expansion, quantities that only the shop's file has.
trait ShopQuantities {
    fn density(&self, key: &Key) -> Option<crate::key::Given<Density>>;
    fn expansion(&self, key: &Key) -> Option<crate::key::Given<Expansion>>;
}

impl ShopQuantities for Fields<'_> {
    fn density(&self, key: &Key) -> Option<crate::key::Given<Density>> {
        self.by(key, "a density such as \"7850 kg/m3\"", crate::units::text::density)
    }
    fn expansion(&self, key: &Key) -> Option<crate::key::Given<Expansion>> {
        self.by(key, "an expansion such as \"11.7 um/m/K\"", crate::units::text::expansion)
    }
}
