//! The shop: its lathe, its habits and its materials. Read from `shop.toml` beside the part files; usual figures otherwise.

pub mod instruments;
pub mod printer;
pub mod tape;

use crate::description::{Document, Fields, Problem};
use crate::formulas::Elastic;
use crate::formulas::hardness::Hardness;
use crate::formulas::press_fit::{HARD_RING_LIMIT, SOFT_HUB_LIMIT};
use crate::formulas::turning;
use crate::record::key::{Key, Kind};
use crate::shop::instruments::Gauge;
use crate::shop::printer::Printer;
use crate::shop::tape::Tape;
use crate::standards::friction;
use crate::standards::galvanic::{self, AnodicGroup};
use crate::standards::iso2768::GeneralClass;
use crate::standards::materials::swelling::{Swelling, swelling};
use crate::standards::materials::{self, CuttingSpeeds, HardnessScale, SpeedRange};
use crate::units::{Angle, CuttingSpeed, Density, Expansion, Length, LengthUnit, SpindleSpeed, Stress, Temperature};

/// The fastest for what is clamped to a face plate with a weight against it. Source: common practice, no source.
const FACE_PLATE: SpindleSpeed = SpindleSpeed::rpm(250.0);

const FAMILY: Key = Key::new("family", "family", Kind::Choice(&["shop"]), "\"shop\"");
const UNITS: Key = Key::new("units", "units", Kind::Choice(&["mm", "in"]), "unit shown first: \"mm\" or \"in\"");
const TOOL: Key = Key::new("tool", "tool", Kind::Choice(&["HSS", "carbide"]), "usual turning tool");
const MAX_SPEED: Key =
    Key::new("max_speed_rpm", "greatest spindle speed", Kind::Number(10.0, 20_000.0), "such as 1500");
const MIN_SPEED: Key = Key::new(
    "min_speed_rpm",
    "least spindle speed",
    Kind::Number(1.0, 20_000.0),
    "of a lathe with stepless speeds, such as 50; then max_speed_rpm is its greatest",
);
const LATHE_SPEEDS: Key = Key::new(
    "lathe_speeds_rpm",
    "speeds of the lathe",
    Kind::Numbers(1.0, 20_000.0),
    "every speed that the lathe has, such as [70, 120, 210, 360, 620, 1100]",
);
const DRILL_SPEEDS: Key = Key::new(
    "drill_press_speeds_rpm",
    "speeds of the drill press",
    Kind::Numbers(1.0, 20_000.0),
    "every speed that the drill press has, such as [280, 530, 930, 1600, 2500]",
);
const TAPER_LENGTH: Key = Key::new(
    "taper_attachment_length",
    "length of the taper attachment",
    Kind::POSITIVE,
    "longest taper that it turns at one setting, such as \"250 mm\"; leave out where the lathe has none",
);
const TAPER_ANGLE: Key = Key::new(
    "taper_attachment_angle",
    "greatest half-angle of the taper attachment",
    Kind::HALF_ANGLE,
    "such as \"8 deg\"",
);
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
const COMPOUND_SWIVEL: Key = Key::new(
    "compound_swivel",
    "swivel of the compound slide",
    Kind::POSITIVE,
    "diameter of its graduated rim, such as \"110 mm\"",
);
const COMPOUND_ZERO: Key = Key::new(
    "compound_zero",
    "zero of the compound's scale",
    Kind::Angle(-10.0, 10.0),
    "what its scale shows beyond the angle that it turns, such as \"0.5 deg\"",
);
const COMPOUND_ZERO_U: Key = Key::new(
    "compound_zero_uncertainty",
    "how well that is known",
    Kind::Angle(0.0, 10.0),
    "expanded uncertainty of it, coverage factor 2, such as \"0.1 deg\"",
);
const COMPOUND_ZERO_ON: Key = Key::new(
    "compound_zero_measured_on",
    "measured on",
    Kind::Text,
    "the day of the last test cut, such as \"2026-05-02\"",
);
const TAPE: Key =
    Key::new("tape", "tape", Kind::Table(tape::KEYS), "what it reads of a length that is known otherwise");
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
const PAPER: Key =
    Key::new("paper", "paper of the sheets", Kind::Choice(&["A4", "letter"]), "in the printer: \"A4\" or \"letter\"");
const PROJECTION: Key = Key::new(
    "projection",
    "projection of the views",
    Kind::Choice(&["first", "third"]),
    "angle of projection: \"first\" or \"third\"",
);
const OWNER: Key = Key::new("owner", "owner of the drawings", Kind::Text, "name in the title block");
const DRAWN_ON: Key = Key::new(
    "drawing_date",
    "date of the drawings",
    Kind::Text,
    "date of issue in the title block, as you write it; never that of the clock",
);
const MATERIAL: Key = Key::new(
    "material",
    "material",
    Kind::Rows(MATERIAL_KEYS),
    "a material of your own, or figures that override the table's",
);
const INSTRUMENT: Key = Key::new(
    "instrument",
    "instruments",
    Kind::Rows(instruments::KEYS),
    "a measuring instrument with the uncertainty that is known of it",
);
const PRINTER: Key = Key::new(
    "printer",
    "3D printer",
    Kind::Table(printer::KEYS),
    "its bed, height, line and layer, and by how much it makes holes and outsides off size",
);

const SAW_KERF: Key =
    Key::new("saw_kerf", "kerf of the saw", Kind::POSITIVE, "what one cut takes off the bar, such as \"2 mm\"");
const RACK: Key = Key::new(
    "rack",
    "bars of the rack",
    Kind::Rows(RACK_KEYS),
    "a length of round bar: `material`, `diameter`, `length`, and how many `pieces` lie there; without `pieces` it is bought",
);
const RACK_MATERIAL: Key = Key::new("material", "material", Kind::Text, "as the part files name it");
const RACK_DIAMETER: Key = Key::new("diameter", "diameter", Kind::POSITIVE, "of the bar, such as \"65 mm\"");
const RACK_LENGTH: Key = Key::new("length", "length", Kind::POSITIVE, "of one bar, such as \"1 m\" or \"36 in\"");
const RACK_PIECES: Key = Key::new(
    "pieces",
    "bars at hand",
    Kind::Count { min: 0, max: 10_000 },
    "so many lie in the rack; left out, the length is bought, as many as are wanted",
);
const RACK_KEYS: &[Key] = &[RACK_MATERIAL, RACK_DIAMETER, RACK_LENGTH, RACK_PIECES];
const PRINT_RATE: Key = Key::new(
    "print_rate",
    "rate of the printer",
    Kind::Number(0.5, 500.0),
    "plastic that it lays down in an hour, cm³, such as 12",
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
#[rustfmt::skip]
const KEYS: &[Key] =
    &[
        COMPOUND_ZERO, COMPOUND_ZERO_U, COMPOUND_ZERO_ON, TAPE, FAMILY, UNITS, TOOL, MAX_SPEED, MIN_SPEED, LATHE_SPEEDS, DRILL_SPEEDS, TAPER_LENGTH, TAPER_ANGLE, DEPTH_OF_CUT,
        FINISH_ALLOWANCE, COMPOUND_TRAVEL, COMPOUND_SWIVEL, CHECK_ROLLER, GENERAL, PAPER, PROJECTION, OWNER, DRAWN_ON,
        MATERIAL, INSTRUMENT, PRINTER, SAW_KERF, RACK, PRINT_RATE,
    ];

/// Defaults and materials of the shop.
#[derive(Clone, Debug)]
pub struct Shop {
    /// Unit shown first where a part file says nothing.
    pub unit: LengthUnit,
    /// Usual turning tool.
    pub tool: &'static str,
    /// Speeds of lathe and drill press.
    pub machines: Machines,
    /// Longest taper and greatest half-angle of the taper attachment, where there is one.
    pub taper_attachment: Option<(Length, Angle)>,
    depth_of_cut: Option<Length>,
    finish_allowance: Option<Length>,
    /// Travel of the compound slide.
    pub compound_travel: Length,
    /// Diameter of the graduated rim on which the compound slide is turned.
    pub compound_swivel: Length,
    /// What the scale of the compound slide shows beyond the angle that it turns.
    pub compound_zero: Option<CompoundZero>,
    /// What the tape reads of a known length.
    pub tape: Option<Tape>,
    check_roller: Option<Length>,
    /// General tolerance class.
    pub general_tolerance: GeneralClass,
    /// Paper of the sheets.
    pub paper: &'static str,
    /// Angle of projection of the views.
    pub projection: &'static str,
    /// Who owns the drawings, and of which date they are, as written.
    pub owner: Option<String>,
    /// See there.
    pub drawing_date: Option<String>,
    /// Materials of the shop's own; they come before the tables.
    own: Vec<Material>,
    /// What the shop measures with.
    pub instruments: Vec<Gauge>,
    /// The shop's 3D printer.
    pub printer: Printer,
    saw_kerf: Option<Length>,
    /// Bars in the rack, and lengths that are bought.
    pub rack: Vec<RackBar>,
    print_rate: Option<f64>,
    /// Keys that its file has.
    written: Vec<&'static str>,
}

impl Default for Shop {
    /// A usual small lathe. Common practice, no source.
    fn default() -> Self {
        Self {
            unit: LengthUnit::Mm,
            tool: "HSS",
            machines: Machines::default(),
            taper_attachment: None,
            depth_of_cut: None,
            finish_allowance: None,
            compound_travel: Length::mm(75.0),
            compound_swivel: Length::mm(110.0),
            compound_zero: None,
            tape: None,
            check_roller: None,
            general_tolerance: GeneralClass::Medium,
            paper: "A4",
            projection: "first",
            owner: None,
            drawing_date: None,
            own: Vec::new(),
            instruments: instruments::usual(),
            printer: Printer::default(),
            saw_kerf: None,
            rack: Vec::new(),
            print_rate: None,
            written: Vec::new(),
        }
    }
}

/// A length of round bar.
#[derive(Clone, Debug, PartialEq)]
pub struct RackBar {
    /// Its material, as the part files name it.
    pub material: String,
    /// Its diameter.
    pub diameter: Length,
    /// Its length.
    pub length: Length,
    /// So many lie in the rack; none: it is bought.
    pub pieces: Option<u32>,
}

fn rack_bar(row: &Fields) -> Option<RackBar> {
    let material = row.required_text(&RACK_MATERIAL);
    let (diameter, length) = (row.required_length(&RACK_DIAMETER), row.required_length(&RACK_LENGTH));
    let pieces = row.count(&RACK_PIECES).map(|c| c.value);
    Some(RackBar { material: material?.value, diameter: diameter?.value, length: length?.value, pieces })
}

/// The speeds that a machine has.
#[derive(Clone, Debug, PartialEq)]
pub enum Speeds {
    /// These and no others, slowest first.
    Steps(Vec<SpindleSpeed>),
    /// Any between two.
    Stepless(SpindleSpeed, SpindleSpeed),
}

/// A speed that the machine has, chosen for a cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setting {
    /// The speed.
    pub speed: SpindleSpeed,
    /// What the cut asks for.
    pub wanted: SpindleSpeed,
    /// The machine: "lathe" or "drill press".
    pub machine: &'static str,
}

impl Setting {
    /// Even the slowest speed is faster than the cut asks for.
    pub fn too_fast(&self) -> bool {
        self.speed > self.wanted
    }
}

impl Speeds {
    /// The fastest that is not above `wanted`; the slowest where all are.
    pub fn at_most(&self, wanted: SpindleSpeed) -> Setting {
        let speed = match self {
            Self::Steps(steps) => {
                let below = steps.iter().rev().find(|s| s.as_rpm() <= wanted.as_rpm() + 0.5);
                below.or(steps.first()).copied().unwrap_or(wanted)
            }
            // A dial or a display is set to whole fives.
            Self::Stepless(least, most) => {
                let fives = SpindleSpeed::rpm((wanted.min(*most).as_rpm() / 5.0).floor() * 5.0);
                if fives < *least { *least } else { fives }
            }
        };
        let wanted = if speed.as_rpm() <= wanted.as_rpm() + 0.5 { wanted.max(speed) } else { wanted };
        Setting { speed, wanted, machine: "machine" }
    }

    fn steps(rpm: &[f64]) -> Self {
        let mut rpm = rpm.to_vec();
        rpm.sort_by(f64::total_cmp);
        Self::Steps(rpm.into_iter().map(SpindleSpeed::rpm).collect())
    }
}

/// Lathe and drill press.
#[derive(Clone, Debug, PartialEq)]
pub struct Machines {
    /// Speeds of the lathe.
    pub lathe: Speeds,
    /// Speeds of the drill press.
    pub drill_press: Speeds,
    /// The lathe's speeds are the shop's own, not assumed.
    pub lathe_known: bool,
    /// The usual turning tool is of carbide, not of high-speed steel.
    pub carbide: bool,
}

/// Speeds of a usual small lathe: steps of the R20/3 series of ISO 229 (from memory), which geared lathes follow.
const USUAL_LATHE: &[f64] = &[45.0, 63.0, 90.0, 125.0, 180.0, 250.0, 355.0, 500.0, 710.0, 1000.0, 1400.0, 2000.0];
/// Speeds of a usual drill press, from the same series. Common practice, no source.
const USUAL_DRILL_PRESS: &[f64] = &[250.0, 355.0, 500.0, 710.0, 1000.0, 1400.0, 2000.0, 2800.0];

impl Default for Machines {
    fn default() -> Self {
        Self {
            lathe: Speeds::steps(USUAL_LATHE),
            drill_press: Speeds::steps(USUAL_DRILL_PRESS),
            lathe_known: false,
            carbide: false,
        }
    }
}

impl Machines {
    /// Speeds of the usual turning tool in that material.
    pub fn cutting(&self, material: &Material) -> Cutting {
        material.cutting(self.carbide)
    }

    /// What the usual turning tool is of.
    pub const fn tool(&self) -> &'static str {
        if self.carbide { "carbide" } else { "HSS" }
    }

    /// The lathe's speed for a cut at that diameter.
    pub fn turn(&self, cutting: CuttingSpeed, diameter: Length) -> Setting {
        Setting { machine: "lathe", ..self.lathe.at_most(turning::spindle_speed(cutting, diameter)) }
    }

    /// The same for work that is clamped to the face plate, out of balance: no faster than that stands.
    pub fn on_the_face_plate(&self, cutting: CuttingSpeed, diameter: Length) -> Setting {
        let wanted = turning::spindle_speed(cutting, diameter).min(FACE_PLATE);
        Setting { machine: "lathe", ..self.lathe.at_most(wanted) }
    }

    /// The drill press's speed for a drill of that diameter.
    pub fn drill(&self, cutting: CuttingSpeed, diameter: Length) -> Setting {
        Setting { machine: "drill press", ..self.drill_press.at_most(turning::spindle_speed(cutting, diameter)) }
    }

    fn read(f: &Fields) -> Self {
        let usual = Self::default();
        let list = |key: &Key| f.numbers(key).map(|n| n.value).filter(|n| !n.is_empty());
        let (least, most) = (f.number(&MIN_SPEED).map(|n| n.value), f.number(&MAX_SPEED).map(|n| n.value));
        if f.has(&LATHE_SPEEDS) {
            for key in [&MIN_SPEED, &MAX_SPEED].into_iter().filter(|key| f.has(key)) {
                let help = "the speeds of the lathe are listed: leave out the one or the other";
                f.problem_at(key, format!("`{}` does nothing here", key.name), Some(help.into()));
            }
        }
        if let (Some(least), Some(most)) = (least, most)
            && least > most
        {
            let help = "min_speed_rpm is the smaller of the two";
            f.problem_at(&MIN_SPEED, format!("a lathe that goes from {least} to {most} rpm"), Some(help.into()));
        }
        let lathe = match (list(&LATHE_SPEEDS), least, most) {
            (Some(steps), ..) => Some(Speeds::steps(&steps)),
            (None, Some(least), most) => {
                let most = most.unwrap_or(2000.0).max(least);
                Some(Speeds::Stepless(SpindleSpeed::rpm(least), SpindleSpeed::rpm(most)))
            }
            (None, None, Some(most)) => {
                let below = USUAL_LATHE.iter().copied().filter(|s| *s < most);
                Some(Speeds::steps(&below.chain([most]).collect::<Vec<_>>()))
            }
            (None, None, None) => None,
        };
        Self {
            carbide: false,
            lathe_known: lathe.is_some(),
            lathe: lathe.unwrap_or(usual.lathe),
            drill_press: list(&DRILL_SPEEDS).map_or(usual.drill_press, |steps| Speeds::steps(&steps)),
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
    /// A magnet holds it.
    pub magnetic: bool,
    speeds: Option<CuttingSpeeds>,
    rubbing: Option<friction::Body>,
    /// How far it grows when it takes up water, for plastics that do.
    swelling: Option<Swelling>,
    /// Density, expansion or stiffness is from memory.
    pub unconfirmed: bool,
    /// Why the yield strength is not to be relied on, where it is not.
    pub strength_in_doubt: Option<&'static str>,
    /// The yield strength is that of a cold-drawn bar, which plate of it does not have.
    pub drawn: bool,
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
    /// Twist drills of high-speed steel.
    pub drill: CuttingSpeed,
}

impl Material {
    /// Whether it rubs as that body of the tables of friction does.
    pub fn rubs_as(&self, body: friction::Body) -> bool {
        self.rubbing == Some(body)
    }

    /// To what a part of it may be heated when it is shrunk on: a hard ring loses hardness beyond, a soft hub scales.
    pub fn heat_limit(&self) -> Temperature {
        if self.hardened { HARD_RING_LIMIT.value } else { SOFT_HUB_LIMIT }
    }

    /// How far it swells, dry to wet; `None` for what does not.
    pub const fn swelling(&self) -> Option<Swelling> {
        self.swelling
    }

    /// By what part of its size it grows when it takes up the water of that place, from dry; `None` for what does not.
    pub fn swells(&self, environment: galvanic::Environment) -> Option<f64> {
        let soaked = environment == galvanic::Environment::Harsh;
        self.swelling.map(|s| if soaked { s.soaked } else { s.in_a_room })
    }

    /// Cutting speeds at the low end of the usual range, which a light lathe stands. Where no range is known, those of
    /// hard steel: slow is safe.
    pub fn cutting(&self, carbide: bool) -> Cutting {
        let low = |range: SpeedRange| range.value.0;
        match (self.speeds, carbide) {
            (Some(s), false) => Cutting { rough: low(s.hss_rough), finish: low(s.hss_finish), drill: low(s.drill) },
            (Some(s), true) => {
                Cutting { rough: low(s.carbide_rough), finish: low(s.carbide_finish), drill: low(s.drill) }
            }
            (None, _) => {
                let slow = CuttingSpeed::m_per_min;
                Cutting { rough: slow(15.0), finish: slow(20.0), drill: slow(12.0) }
            }
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
            magnetic: is_steel(m),
            speeds: m.cutting,
            rubbing: m.friction_body,
            swelling: swelling(m.name),
            unconfirmed: [m.density.confirmed, m.youngs_modulus.confirmed, m.poisson.confirmed, m.expansion.confirmed]
                .contains(&Memory),
            strength_in_doubt: match (m.yield_strength, m.tensile_strength) {
                (Some(y), _) if y.confirmed == Memory => Some("a remembered figure"),
                (None, Some(_)) => Some("the tensile strength, as no yield strength is printed"),
                _ => None,
            },
            drawn: m.name == "steel 1018",
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

/// Carbon and tool steel, which a magnet holds; austenitic stainless it does not.
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

/// A usual figure of the trade in the unit that the part is made in. Common practice, no source.
pub const fn by_unit(unit: LengthUnit, mm: f64, inches: f64) -> Length {
    match unit {
        LengthUnit::Mm => Length::mm(mm),
        LengthUnit::Inch => Length::inches(inches),
    }
}

impl Shop {
    /// Usual roughing cut per side: the shop's own, else 1.5 mm or 0.060 in.
    pub fn depth_of_cut(&self, unit: LengthUnit) -> Length {
        self.depth_of_cut.unwrap_or(by_unit(unit, 1.5, 0.060))
    }

    /// Usual metal left square to a flank: the shop's own, else 0.3 mm or 0.012 in.
    pub fn finish_allowance(&self, unit: LengthUnit) -> Length {
        self.finish_allowance.unwrap_or(by_unit(unit, 0.3, 0.012))
    }

    /// Rollers at hand for check sizes: the shop's own, else 10 mm or 3/8 in.
    pub fn check_roller(&self, unit: LengthUnit) -> Length {
        self.check_roller.unwrap_or(by_unit(unit, 10.0, 0.375))
    }

    /// What one cut of the saw takes: the shop's own, else that of a usual bandsaw. Common practice, no source.
    pub fn saw_kerf(&self) -> Length {
        self.saw_kerf.unwrap_or(by_unit(self.unit, 2.0, 5.0 / 64.0))
    }

    /// Plastic that the printer lays down in an hour, cm³: the shop's own, else that of a usual nozzle of 0.4 mm. Common
    /// practice, no source.
    pub fn print_rate(&self) -> f64 {
        self.print_rate.unwrap_or(12.0)
    }

    /// Whether the shop's file has that key.
    pub fn has_written(&self, key: &str) -> bool {
        self.written.contains(&key)
    }

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
        let length = |key: &Key| f.length(key).map(|g| g.value);
        let tool = f.choice(&TOOL).map_or(usual.tool, |t| t.value);
        let mut shop = Self {
            unit: f.default_unit().unwrap_or(usual.unit),
            tool,
            machines: Machines { carbide: tool == "carbide", ..Machines::read(f) },
            taper_attachment: taper_attachment(f),
            depth_of_cut: length(&DEPTH_OF_CUT),
            finish_allowance: length(&FINISH_ALLOWANCE),
            compound_travel: length(&COMPOUND_TRAVEL).unwrap_or(usual.compound_travel),
            compound_swivel: length(&COMPOUND_SWIVEL).unwrap_or(usual.compound_swivel),
            compound_zero: compound_zero(f),
            tape: f.table(&TAPE).and_then(|table| Tape::read(&table)),
            check_roller: length(&CHECK_ROLLER),
            general_tolerance: f
                .choice(&GENERAL)
                .and_then(|g| GeneralClass::parse(g.value).ok())
                .unwrap_or(usual.general_tolerance),
            paper: f.choice(&PAPER).map_or(usual.paper, |p| p.value),
            projection: f.choice(&PROJECTION).map_or(usual.projection, |p| p.value),
            owner: f.text(&OWNER).map(|t| t.value),
            drawing_date: f.text(&DRAWN_ON).map(|t| t.value),
            own: Vec::new(),
            instruments: instruments::read(&f.rows(&INSTRUMENT)),
            printer: f.table(&PRINTER).map_or(usual.printer, |table| Printer::read(&table)),
            saw_kerf: length(&SAW_KERF),
            rack: f.rows(&RACK).iter().filter_map(rack_bar).collect(),
            print_rate: f.number(&PRINT_RATE).map(|n| n.value),
            written: KEYS.iter().filter(|key| f.has(key)).map(|key| key.name).collect(),
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
            drawn: base.drawn && !row.has(&YIELD),
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

/// The zero of the compound's scale.
#[derive(Clone, PartialEq, Debug)]
pub struct CompoundZero {
    /// What the scale shows beyond the angle that the slide turns.
    pub by: Angle,
    /// Expanded uncertainty, coverage factor 2, where it is told.
    pub u: Option<Angle>,
    /// The day.
    pub on: Option<String>,
}

fn compound_zero(f: &Fields) -> Option<CompoundZero> {
    let (by, u, on) = (f.angle(&COMPOUND_ZERO), f.angle(&COMPOUND_ZERO_U), f.text(&COMPOUND_ZERO_ON));
    if by.is_none() && !f.has(&COMPOUND_ZERO) {
        for key in [&COMPOUND_ZERO_U, &COMPOUND_ZERO_ON].into_iter().filter(|key| f.has(key)) {
            f.problem_at(
                key,
                format!("`{}` does nothing without compound_zero", key.name),
                Some(COMPOUND_ZERO.help.into()),
            );
        }
    }
    Some(CompoundZero { by: by?.value, u: u.map(|u| u.value), on: on.map(|on| on.value) })
}

/// The taper attachment: both its figures, or a word about the one that is missing.
fn taper_attachment(f: &Fields) -> Option<(Length, Angle)> {
    let (length, angle) = (f.length(&TAPER_LENGTH), f.angle(&TAPER_ANGLE));
    match (length, angle) {
        (Some(length), Some(angle)) => Some((length.value, angle.value)),
        (Some(_), None) if !f.has(&TAPER_ANGLE) => {
            f.problem_at(
                &TAPER_LENGTH,
                "the greatest angle of the taper attachment is missing".into(),
                Some("add taper_attachment_angle = \"8 deg\"".into()),
            );
            None
        }
        (None, Some(_)) if !f.has(&TAPER_LENGTH) => {
            f.problem_at(
                &TAPER_ANGLE,
                "the length of the taper attachment is missing".into(),
                Some("add taper_attachment_length = \"250 mm\"".into()),
            );
            None
        }
        _ => None,
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
    fn density(&self, key: &Key) -> Option<crate::record::key::Given<Density>>;
    fn expansion(&self, key: &Key) -> Option<crate::record::key::Given<Expansion>>;
}

impl ShopQuantities for Fields<'_> {
    fn density(&self, key: &Key) -> Option<crate::record::key::Given<Density>> {
        self.by(key, "a density such as \"7850 kg/m3\"", crate::units::text::density)
    }
    fn expansion(&self, key: &Key) -> Option<crate::record::key::Given<Expansion>> {
        self.by(key, "an expansion such as \"11.7 um/m/K\"", crate::units::text::expansion)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rpm(x: f64) -> SpindleSpeed {
        SpindleSpeed::rpm(x)
    }

    #[test]
    fn only_speeds_that_the_machine_has() {
        let speeds = Speeds::steps(&[210.0, 70.0, 120.0]);
        for (wanted, got, too_fast) in [
            (119.0, 70.0, false),
            (120.2, 120.0, false),
            (119.8, 120.0, false),
            (5000.0, 210.0, false),
            (40.0, 70.0, true),
        ] {
            let setting = speeds.at_most(rpm(wanted));
            assert_eq!((setting.speed, setting.too_fast()), (rpm(got), too_fast), "{wanted}");
        }
        let stepless = Speeds::Stepless(rpm(52.0), rpm(1801.0));
        for (wanted, got) in [(123.0, 120.0), (9000.0, 1800.0), (20.0, 52.0)] {
            assert_eq!(stepless.at_most(rpm(wanted)).speed, rpm(got));
        }
    }

    #[test]
    fn speeds_from_the_file() {
        let read = |text: &str| Shop::read("shop.toml", &format!("family = \"shop\"\n{text}"));
        let turn = |shop: &Shop, rpm| shop.machines.lathe.at_most(SpindleSpeed::rpm(rpm)).speed.whole();
        assert_eq!(turn(&read("lathe_speeds_rpm = [1100, 70, 360]").unwrap(), 500.0), 360);
        assert_eq!(turn(&read("max_speed_rpm = 1500").unwrap(), 1800.0), 1500);
        assert_eq!(turn(&read("min_speed_rpm = 100").unwrap(), 60.0), 100);
        assert!(read("taper_attachment_length = \"250 mm\"").is_err());
        assert!(read("taper_attachment_length = \"250 mm\"\ntaper_attachment_angle = \"8 deg\"").is_ok());
    }

    /// Austenitic stainless, aluminium, brass and plastics do not stick to a magnet; carbon steel does.
    #[test]
    fn what_a_magnet_holds() {
        let shop = Shop::default();
        for (name, held) in [
            ("steel S235", true),
            ("52100", true),
            ("304", false),
            ("aluminium", false),
            ("brass", false),
            ("PLA", false),
        ] {
            if let Ok(m) = shop.material(name) {
                assert_eq!(m.magnetic, held, "{name}");
            }
        }
        assert!(shop.material("304").is_ok() && shop.material("steel S235").is_ok());
    }
}
