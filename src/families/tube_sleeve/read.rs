//! Reading a tube sleeve's part file.

use crate::description::{Fields, Taken};
use crate::families::Workplace;
use crate::families::common::{self, BoltSteel, Common, Head, settled};
use crate::formulas::tubes::{Across, Tube};
use crate::record::key::{Given, Key, Kind};
use crate::record::show::Say;
use crate::shop::{Material, by_unit};
use crate::standards::clearance_holes::Series;
use crate::standards::threads::Thread;
use crate::units::{Angle, Force, Length};

pub const OUTSIDE_DIAMETER: Key =
    Key::new("outside_diameter", "outside diameter", Kind::POSITIVE, "of the sleeve, such as \"22 mm\"");
pub const BORE: Key = Key::new(
    "bore",
    "bore",
    Kind::POSITIVE,
    "inside the sleeve, such as \"13.5 mm\"; with a bolt its coarse clearance hole if left out, without one a plug",
);
pub const HOLE: Key = Key::new(
    "hole",
    "hole in the tube",
    Kind::POSITIVE,
    "through both walls, such as \"22.5 mm\"; the next half millimetre over the sleeve if left out",
);
pub const PROUD: Key = Key::new(
    "proud",
    "stands out",
    Kind::NOT_NEGATIVE,
    "of the tube at each end: at least the leg of its fillet; left out: flush in a chamfer that the weld fills, on a round tube or leaning the leg",
);
pub const ENDS: Key = Key::new(
    "ends",
    "ends",
    Kind::Choice(&["straight", "fitted"]),
    "\"straight\": square to the sleeve; \"fitted\": filed to the tube's face all round",
);
pub const LEAN: Key = Key::new(
    "lean",
    "lean",
    Kind::Angle(-60.0, 60.0),
    "of the sleeve from square to the tube, along it, such as \"15 deg\"",
);
pub const SIDE_LOAD: Key = Key::new(
    "side_load",
    "force across the sleeve",
    Kind::Load,
    "greatest force that the bolt puts across, such as \"4 kN\" or \"300 kg\": the welds are worked out for it",
);
pub const TUBE: Key = Key::new("tube", "tube", Kind::Table(TUBE_KEYS), "the frame tube that the sleeve goes through");
pub const BOLT: Key = Key::new("bolt", "bolt", Kind::Table(BOLT_KEYS), "the bolt through the sleeve");

pub const SHAPE: Key =
    Key::new("shape", "shape of the tube", Kind::Choice(&["round", "square", "rectangle"]), "across its length");
pub const THROUGH: Key = Key::new(
    "through",
    "tube from outside to outside",
    Kind::POSITIVE,
    "along the sleeve: the diameter of a round tube, the side of a square one",
);
pub const WIDTH: Key = Key::new(
    "width",
    "width of the pierced wall",
    Kind::POSITIVE,
    "of a rectangle: the wall that the hole is in, over the corners, such as \"40 mm\"",
);
pub const WALL: Key = Key::new("wall", "wall of the tube", Kind::POSITIVE, "such as \"3 mm\"");
pub const TUBE_MATERIAL: Key =
    Key::new("material", "material of the tube", Kind::Text, "such as \"steel S235\"; that if left out");
pub const DRAIN: Key = Key::new(
    "drain",
    "drain hole",
    Kind::POSITIVE,
    "at the lowest place of the tube, such as \"8 mm\"; a sleeve keeps water out of its hole, not what condenses",
);

pub const THREAD: Key = Key::new("thread", "thread", Kind::Text, "of the bolt, such as \"M12\" or \"1/2\"");
pub const CLAMPED: Key = Key::new(
    "clamped",
    "clamped beside the tube",
    Kind::POSITIVE,
    "thickness of all that the bolt clamps against the tube, such as \"8 mm\": its length is then worked out",
);

/// Keys of `[tube]`.
pub const TUBE_KEYS: &[Key] = &[SHAPE, THROUGH, WIDTH, WALL, TUBE_MATERIAL, DRAIN];
/// Keys of `[bolt]`.
pub const BOLT_KEYS: &[Key] = &[THREAD, common::BOLT_CLASS, CLAMPED];
/// Keys of the file.
pub const KEYS: &[Key] = &[
    common::FAMILY,
    common::NAME,
    common::COUNT,
    common::MATERIAL,
    common::UNITS,
    common::NOTE,
    common::GENERAL_TOLERANCE,
    common::ENVIRONMENT,
    common::COATING,
    common::COATING_THICKNESS,
    common::KEPT_APART,
    common::MEASURED,
    OUTSIDE_DIAMETER,
    BORE,
    HOLE,
    PROUD,
    ENDS,
    LEAN,
    SIDE_LOAD,
    TUBE,
    BOLT,
];

/// A tube sleeve as read.
pub struct Spec {
    pub common: Common,
    pub outside: Given<Length>,
    /// None: a plug in one wall.
    pub bore: Option<Bore>,
    pub hole: Option<Given<Length>>,
    pub proud: Option<Given<Length>>,
    pub fitted: bool,
    pub lean: Option<Given<Angle>>,
    pub side_load: Option<Given<Force>>,
    pub tube: TubeRead,
    pub bolt: Option<Bolt>,
}

/// The bore, and as written where it is.
pub struct Bore {
    pub diameter: Length,
    pub written: Option<Given<Length>>,
    /// Of which table it is, where it is not written.
    pub from: &'static str,
}

/// The tube as read.
pub struct TubeRead {
    pub shape: &'static str,
    pub through: Given<Length>,
    pub width: Option<Given<Length>>,
    pub wall: Given<Length>,
    pub material: Material,
    pub material_written: bool,
    pub drain: Option<Given<Length>>,
}

impl TubeRead {
    /// For the formulas.
    pub fn tube(&self) -> Tube {
        let through = self.through.value;
        let across = match self.shape {
            "round" => Across::Round(through),
            _ => Across::Flat { through, width: self.pierced() },
        };
        Tube { across, wall: self.wall.value }
    }

    /// Width of the pierced wall; of a round tube its diameter.
    pub fn pierced(&self) -> Length {
        self.width.as_ref().map_or(self.through.value, |w| w.value)
    }
}

/// The bolt as read.
pub struct Bolt {
    pub thread: Thread,
    pub steel: BoltSteel,
    pub clamped: Option<Given<Length>>,
}

impl Spec {
    /// How far the sleeve leans from square to the tube.
    pub fn lean(&self) -> Angle {
        self.lean.as_ref().map_or(Angle::ZERO, |l| l.value)
    }

    /// How far an end stands out of the tube, where that lies farthest: as written, or flush where the end can be flush all
    /// round and the weld lies in a chamfer; elsewhere the leg of the fillet.
    pub fn proud(&self) -> Length {
        let usual = || if self.flat_end() { Length::ZERO } else { super::weld_leg(self) };
        self.proud.as_ref().map_or_else(usual, |p| p.value)
    }

    /// Whether an end lies level with the tube all round: a straight one on a flat tube, or one that is filed to the tube.
    fn flat_end(&self) -> bool {
        self.bore.is_none() || self.fitted || (self.tube.shape != "round" && self.lean() == Angle::ZERO)
    }

    /// Whether the weld of a sleeve fills a chamfer of its ends: flush there is no corner for a fillet.
    pub fn grooved(&self) -> bool {
        self.bore.is_some() && self.flat_end() && self.proud() == Length::ZERO
    }

    /// The hole in the tube: as written, or the next half millimetre (1/32 in) that lets the sleeve in.
    pub fn hole(&self) -> Length {
        let step = by_unit(self.common.header.unit, 0.5, 1.0 / 32.0);
        let over = self.outside.value + by_unit(self.common.header.unit, 0.2, 0.008);
        self.hole.as_ref().map_or(over.up_to(step), |h| h.value)
    }
}

/// Reads the file; every problem is noted, `None` if one stands in the way.
pub fn read(fields: &Fields, place: &Workplace) -> Option<Spec> {
    let common = common::read(fields, place, "tube-sleeve", "steel S235");
    if common.as_ref().is_some_and(|c| c.material.plastic) {
        let help = "it is welded through a frame tube: a metal that is welded to that one";
        fields.problem_at(&common::MATERIAL, "plastic is not welded to a frame tube".into(), Some(help.into()));
    }
    let (outside, bore, hole) = (fields.required_length(&OUTSIDE_DIAMETER), fields.length(&BORE), fields.length(&HOLE));
    let (proud, ends, lean) = (fields.length(&PROUD), fields.choice(&ENDS), fields.angle(&LEAN));
    let side_load = fields.load(&SIDE_LOAD);
    let bolt = fields.table(&BOLT).map(|t| bolt(&t));
    let tube = match fields.table(&TUBE) {
        Some(table) => tube(&table, place),
        None => {
            if !fields.has(&TUBE) {
                let help = "[tube] with shape = \"square\", through = \"60 mm\" and wall = \"3 mm\"";
                fields.missing("the tube that the sleeve goes through is missing", Some(help));
            }
            None
        }
    };
    fields.left_out(&ENDS, "straight", "nothing is written");
    fields.left_out(&LEAN, Taken::Angle(Angle::ZERO), "square: nothing is written");
    let bolt = settled(bolt)?;
    let bore = match (bore, &bolt) {
        (Some(given), _) => Some(Bore { diameter: given.value, written: Some(given), from: "as written" }),
        (None, _) if fields.has(&BORE) => return None,
        (None, Some(b)) => {
            let diameter = common::clearance_hole(fields, &BOLT, b.thread, Series::Coarse)?;
            Some(Bore { diameter, written: None, from: common::clearance_from(&b.thread) })
        }
        (None, None) => None,
    };
    let fitted = ends.is_some_and(|e| e.value == "fitted");
    let spec =
        Spec { common: common?, outside: outside?, bore, hole, proud, fitted, lean, side_load, tube: tube?, bolt };
    let why = if spec.flat_end() { "flush: nothing is written" } else { "the leg of its fillet: nothing is written" };
    fields.left_out(&PROUD, Taken::Length(spec.proud()), why);
    possible(fields, &spec).then_some(spec)
}

fn tube(table: &Fields, place: &Workplace) -> Option<TubeRead> {
    let (shape, through) = (table.required_choice(&SHAPE), table.required_length(&THROUGH));
    let (width, wall, drain) = (table.length(&WIDTH), table.required_length(&WALL), table.length(&DRAIN));
    let material = common::material(table, place, &TUBE_MATERIAL, "steel S235");
    table.left_out(&TUBE_MATERIAL, "steel S235", "nothing is written");
    let shape = shape?.value;
    if shape == "rectangle" && !table.has(&WIDTH) {
        table.missing("a rectangle has two sides", Some("width = \"40 mm\": the wall that the hole is in"));
        return None;
    }
    if shape != "rectangle" {
        common::not_here(table, &[&WIDTH], "it is the second side of a rectangle: shape = \"rectangle\"");
    }
    let material_written = table.has(&TUBE_MATERIAL);
    Some(TubeRead { shape, through: through?, width, wall: wall?, material: material?, material_written, drain })
}

fn bolt(table: &Fields) -> Option<Bolt> {
    let (written, clamped) = (table.required_text(&THREAD), table.length(&CLAMPED));
    let thread = written.as_ref().and_then(|thread| common::thread(table, &THREAD, thread));
    let steel = common::bolt_class(table, thread, Head::Hex);
    Some(Bolt { thread: thread?, steel, clamped })
}

/// Geometry that cannot be made is a problem at the key that causes it.
fn possible(fields: &Fields, s: &Spec) -> bool {
    let say = Say(s.common.header.unit);
    let mut sound = true;
    let mut refuse = |key: &'static Key, message: String, help: &str| {
        fields.problem_at(key, message, Some(help.into()));
        sound = false;
    };
    let (outside, hole) = (s.outside.value, s.hole());
    if let Some(bore) = s.bore.as_ref().filter(|b| b.diameter >= outside) {
        let message = format!("a bore of {} leaves no wall inside {}", say.length(bore.diameter), say.length(outside));
        refuse(&OUTSIDE_DIAMETER, message, "the bore must be smaller than the outside diameter");
    }
    if hole <= outside {
        let message = format!("a sleeve of {} does not go into a hole of {}", say.length(outside), say.length(hole));
        refuse(&HOLE, message, "0.2 to 0.5 mm more than the sleeve: it is welded in, not pressed");
    }
    let pierced = s.tube.pierced();
    if s.tube.wall.value * 2.0 >= pierced.min(s.tube.through.value) {
        let message = format!(
            "a wall of {} leaves nothing inside a tube of {}",
            say.length(s.tube.wall.value),
            say.length(pierced.min(s.tube.through.value))
        );
        refuse(&TUBE, message, "wall is the thickness of one side of the tube");
    } else if hole >= pierced - s.tube.wall.value * 2.0 {
        let message = format!(
            "a hole of {} is as wide as the tube is inside, {}",
            say.length(hole),
            say.length(pierced - s.tube.wall.value * 2.0)
        );
        refuse(&OUTSIDE_DIAMETER, message, "a thinner sleeve, or a larger tube");
    }
    if s.bore.is_none() && (s.fitted || s.lean.is_some()) {
        let key = if s.fitted { &ENDS } else { &LEAN };
        refuse(key, "a plug lies in one wall, square to it".into(), "leave it out, or add bore = \"13 mm\"");
    }
    if s.bore.is_none() && s.side_load.is_some() {
        refuse(&SIDE_LOAD, "a plug carries nothing".into(), "leave it out, or add bore = \"13 mm\"");
    }
    sound
}
