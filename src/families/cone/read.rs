//! Reading a cone's part file.

use crate::description::{Fields, Taken};
use crate::families::Workplace;
use crate::families::common::packed::{self, Packing};
use crate::families::common::{self, BoltSteel, Common, Head, settled};
use crate::formulas::turning::{self, KnownTaper};
use crate::record::design::AngleLimits;
use crate::record::key::{Given, Key, Kind};
use crate::record::show::Say;
use crate::shop::Material;
use crate::source::Confirmed;
use crate::standards::iso2768;
use crate::standards::threads::{self, Thread};
use crate::units::{Angle, Force, Length};

pub const BASE_DIAMETER: Key =
    Key::new("base_diameter", "base diameter", Kind::POSITIVE, "large diameter of the cone, such as \"60 mm\"");
pub const TIP_DIAMETER: Key = Key::new(
    "tip_diameter",
    "tip diameter",
    Kind::NOT_NEGATIVE,
    "small diameter, as if the tip were sharp, such as \"12 mm\"",
);
pub const HALF_ANGLE: Key = Key::new(
    "half_angle",
    "half-angle",
    Kind::HALF_ANGLE,
    "angle of the flank from the axis, such as \"30 deg\", or a taper such as \"1:10\"",
);
pub const HEIGHT: Key = Key::new(
    "height",
    "cone height",
    Kind::POSITIVE,
    "from the large to the small diameter, without the foot, such as \"41.569 mm\"",
);
pub const HALF_ANGLE_TOLERANCE: Key = Key::new(
    "half_angle_tolerance",
    "half-angle tolerance",
    Kind::Angle(0.0, 20.0),
    "how far the half-angle may be off either way, such as \"0.1 deg\"; ISO 2768-1 by the cone's height if left out",
);
pub const TIP_RADIUS: Key =
    Key::new("tip_radius", "tip radius", Kind::NOT_NEGATIVE, "rounding of the nose, such as \"3 mm\"");
pub const FOOT: Key =
    Key::new("foot", "foot", Kind::NOT_NEGATIVE, "height of the cylindrical land under the cone, such as \"6 mm\"");
pub const FOOT_DIAMETER: Key =
    Key::new("foot_diameter", "foot diameter", Kind::POSITIVE, "diameter of the foot; the base diameter if left out");
pub const MOUNTING: Key =
    Key::new("mounting", "mounting", Kind::Choice(&["weld-on", "bolt-on"]), "\"weld-on\" or \"bolt-on\"");
pub const BOLT: Key = Key::new("bolt", "bolt", Kind::Table(BOLT_KEYS), "the bolt through the axis");
pub const DEPTH_OF_CUT: Key =
    Key::new("depth_of_cut", "depth of cut", Kind::POSITIVE, "roughing cut per side, such as \"1.5 mm\"");
pub const FINISH_ALLOWANCE: Key = Key::new(
    "finish_allowance",
    "finish allowance",
    Kind::POSITIVE,
    "metal left square to the flank for the last cuts, such as \"0.3 mm\"",
);
pub const BETWEEN_CENTRES: Key = Key::new(
    "between_centres",
    "between centres",
    Kind::POSITIVE,
    "length of the work between centres, for the tailstock set-over",
);
pub const CHECK_ROLLER: Key = Key::new(
    "check_roller",
    "check roller",
    Kind::POSITIVE,
    "diameter of the two rollers for the check size, such as \"10 mm\"",
);
pub const CHECK_RING: Key = Key::new(
    "check_ring",
    "check ring",
    Kind::POSITIVE,
    "bore of a ring that is dropped over the cone, such as \"40 mm\"",
);
pub const TOOL: Key =
    Key::new("tool", "tool", Kind::Choice(&["HSS", "carbide"]), "turning tool: \"HSS\" or \"carbide\"");

pub const SEAT_LOAD: Key = Key::new(
    "seat_load",
    "load on this cone",
    Kind::Load,
    "greatest weight or force on this cone, such as \"320 kg\"; a cup that names the cone has its own",
);
pub const SIDE_FACTOR: Key = Key::new(
    "side_factor",
    "side force over the load",
    Kind::Number(0.0, 10.0),
    "greatest force across as a share of the load, such as 0.8",
);
pub const CROSSBAR_WALL: Key = Key::new(
    "crossbar_wall",
    "wall of the crossbar",
    Kind::POSITIVE,
    "of the tube or plate that the cone stands on, such as \"5 mm\"",
);
pub const CROSSBAR_MATERIAL: Key = Key::new(
    "crossbar_material",
    "material of the crossbar",
    Kind::Text,
    "of what the cone stands on, such as \"steel S235\"",
);

pub const THREAD: Key = Key::new("thread", "thread", Kind::Text, "such as \"M12\" or \"1/2\"");
pub const WAY: Key = Key::new(
    "way",
    "bolt way",
    Kind::Choice(&["through", "from below"]),
    "\"through\" (head in the nose) or \"from below\" (tapped hole in the base)",
);
pub const HEAD: Key = Key::new(
    "head",
    "bolt head",
    Kind::Choice(&["counterbore", "countersink", "none"]),
    "recess for the head of a through bolt",
);
pub const CLEARANCE: Key = Key::new(
    "clearance",
    "clearance series",
    Kind::Choice(&["fine", "medium", "coarse"]),
    "series of the clearance hole, ISO 273 or ASME B18.2.8",
);
pub const TAP_DEPTH: Key =
    Key::new("depth", "full thread depth", Kind::POSITIVE, "depth of full thread of a hole tapped from below");
pub const HEAD_DEPTH: Key = Key::new(
    "head_depth",
    "head recess depth",
    Kind::POSITIVE,
    "depth of the counterbore; head height plus 0.5 mm if left out",
);

pub const REGISTER: Key = Key::new(
    "register",
    "register",
    Kind::Choice(&["foot"]),
    "\"foot\": the foot sits in a recess bored for it, which brings the cone back to its place",
);

/// Keys of `[bolt]`.
pub const BOLT_KEYS: &[Key] = &[
    THREAD,
    common::BOLT_CLASS,
    WAY,
    HEAD,
    CLEARANCE,
    TAP_DEPTH,
    HEAD_DEPTH,
    REGISTER,
    packed::PACKING,
    packed::PACKED,
];

/// Keys of a cone's part file.
pub const KEYS: &[Key] = &[
    common::FAMILY,
    common::NAME,
    common::COUNT,
    common::MATERIAL,
    common::UNITS,
    common::NOTE,
    common::MEASURED,
    common::GENERAL_TOLERANCE,
    common::ENVIRONMENT,
    common::COATING,
    common::COATING_THICKNESS,
    common::SEAT_MASKED,
    common::KEPT_APART,
    BASE_DIAMETER,
    TIP_DIAMETER,
    HALF_ANGLE,
    HEIGHT,
    HALF_ANGLE_TOLERANCE,
    TIP_RADIUS,
    FOOT,
    FOOT_DIAMETER,
    MOUNTING,
    BOLT,
    SEAT_LOAD,
    SIDE_FACTOR,
    CROSSBAR_WALL,
    CROSSBAR_MATERIAL,
    DEPTH_OF_CUT,
    FINISH_ALLOWANCE,
    BETWEEN_CENTRES,
    CHECK_ROLLER,
    CHECK_RING,
    TOOL,
];

/// A cone as read: sound in itself, nothing worked out beyond its fourth figure.
pub struct Spec {
    /// The flank is masked when it is coated.
    pub seat_masked: bool,
    pub common: Common,
    /// Zero of the scale of the shop's compound slide.
    pub compound_zero: Option<crate::shop::CompoundZero>,
    pub base: Length,
    pub tip: Length,
    pub half_angle: Angle,
    pub height: Length,
    pub half_angle_tolerance: Option<Given<Angle>>,
    pub written: Written,
    pub tip_radius: Option<Given<Length>>,
    pub foot: Option<Given<Length>>,
    pub foot_diameter: Option<Given<Length>>,
    pub weld_on: bool,
    pub bolt: Option<Bolt>,
    pub depth_of_cut: Option<Given<Length>>,
    pub finish_allowance: Option<Given<Length>>,
    pub between_centres: Option<Given<Length>>,
    pub check_roller: Option<Given<Length>>,
    pub check_ring: Option<Given<Length>>,
    pub carbide: bool,
    pub seat_load: Option<Given<Force>>,
    pub side_factor: Option<Given<f64>>,
    pub crossbar_wall: Option<Given<Length>>,
    /// What it stands on, and whether that was written.
    pub crossbar_material: Material,
    pub crossbar_written: bool,
    /// Its base and half-angle are those that were measured.
    pub as_made: Option<AsMade>,
}

/// A cone as all its pieces were measured: the middle of them, and the half-width that holds all with what is open of them.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct AsMade {
    pub base: Option<(Length, Length)>,
    pub half_angle: Option<(Angle, Angle)>,
    /// Base diameter and half-angle as drawn.
    pub drawn: (Length, Angle),
    /// Height of the foot.
    pub foot: Option<Length>,
}

/// Which of the four figures were written.
pub struct Written {
    pub base: Option<Given<Length>>,
    pub tip: Option<Given<Length>>,
    pub half_angle: Option<Given<Angle>>,
    pub height: Option<Given<Length>>,
}

/// The bolt through the axis.
pub struct Bolt {
    pub thread: Given<String>,
    pub size: Thread,
    pub kind: BoltKind,
    /// Clearance hole for it in what the cone stands on.
    pub clearance: Length,
    /// The foot sits in a recess.
    pub register: bool,
    /// Its steel.
    pub head: Head,
    pub steel: BoltSteel,
    /// What lies under the foot.
    pub packing: Option<Packing>,
    /// Sizes of its head or tap drill are from memory.
    pub unconfirmed: bool,
}

/// How the bolt holds the cone.
pub enum BoltKind {
    /// A clearance hole through; the head sits in the nose.
    Through { hole: Length, recess: Recess },
    /// A hole tapped from the base.
    FromBelow { tap_drill: Length, depth: Length },
}

/// Where the head sits.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Recess {
    Counterbore { diameter: Length, depth: Length },
    Countersink { diameter: Length, included: Angle },
    None,
}

impl Spec {
    /// The film on its flank; none on a bare one and on one that is masked.
    pub fn film(&self) -> Length {
        self.common.film(self.seat_masked)
    }

    /// Height of the land under the cone.
    pub fn foot_height(&self) -> Length {
        self.foot.as_ref().map_or(Length::ZERO, |f| f.value)
    }

    /// Diameter of the land under the cone.
    pub fn foot_width(&self) -> Length {
        self.foot_diameter.as_ref().map_or(self.base, |f| f.value)
    }

    /// Limits of the half-angle: as written, or ISO 2768-1 by the shorter leg of the angle, the cone's height. A cone that
    /// narrows keeps narrowing: the least is never below a hundredth of the angle.
    pub fn half_angle_limits(&self) -> AngleLimits {
        let general = || iso2768::general_angle_tolerance(self.common.general, self.height);
        let (tolerance, by, confirmed) = match (&self.half_angle_tolerance, general()) {
            (Some(given), _) => (given.value, "stated tolerance".to_string(), Confirmed::TwoOrMore),
            (None, Ok(t)) => (t.value, format!("ISO 2768-{}", self.common.general), t.confirmed),
            (None, Err(_)) => (Angle::ZERO, "no tolerance".to_string(), Confirmed::Memory),
        };
        let lower = (self.half_angle - tolerance).max(self.half_angle / 100.0);
        let upper = (self.half_angle + tolerance).min(Angle::degrees(89.0).max(self.half_angle));
        AngleLimits { lower, upper, by, confirmed }
    }

    /// Limits of the base diameter, by the general tolerance.
    pub fn base_limits(&self) -> (Length, Length) {
        self.general_limits(self.base)
    }

    /// Limits of the cone's height, by the general tolerance.
    pub fn height_limits(&self) -> (Length, Length) {
        self.general_limits(self.height)
    }

    /// The same cone as it was measured.
    pub fn made(mut self, made: AsMade) -> Self {
        self.base = made.base.map_or(self.base, |(base, _)| base);
        self.half_angle = made.half_angle.map_or(self.half_angle, |(angle, _)| angle);
        let tip = turning::small_diameter(self.base, self.half_angle, self.height).rounded();
        self.tip = if tip > Length::ZERO { tip } else { self.tip };
        if let (Some(foot), Some(measured)) = (&mut self.foot, made.foot) {
            foot.value = measured;
        }
        self.as_made = Some(made);
        self
    }

    /// Limits of the foot's height, by the general tolerance.
    pub fn foot_limits(&self) -> (Length, Length) {
        self.general_limits(self.foot_height())
    }

    fn general_limits(&self, size: Length) -> (Length, Length) {
        let t = iso2768::general_tolerance(self.common.general, size).map_or(Length::ZERO, |t| t.value);
        ((size - t).max(Length::ZERO), size + t)
    }

    /// Radius of the nose.
    pub fn nose_radius(&self) -> Length {
        self.tip_radius.as_ref().map_or(Length::ZERO, |r| r.value)
    }
}

/// Reads the file; every problem is noted, `None` if one stands in the way.
pub fn read(fields: &Fields, place: &Workplace) -> Option<Spec> {
    let seat_masked = common::seat_masked(fields);
    let common = common::read(fields, place, "cone", "steel S235");
    let written = Written {
        base: fields.length(&BASE_DIAMETER),
        tip: fields.length(&TIP_DIAMETER),
        half_angle: fields.angle(&HALF_ANGLE),
        height: fields.length(&HEIGHT),
    };
    let four = four_figures(fields, &written);
    let bolt = fields.table(&BOLT).map(|table| bolt(&table));
    let weld_on = fields.choice(&MOUNTING).map_or(bolt.is_none(), |m| m.value == "weld-on");
    fields.left_out(&MOUNTING, if weld_on { "weld-on" } else { "bolt-on" }, "by whether there is a [bolt]");
    let tool = fields.choice(&TOOL).map_or(place.shop.tool, |t| t.value);
    fields.left_out(&TOOL, place.shop.tool, "that of the shop's file, or HSS");
    let (tip_radius, foot, foot_diameter) =
        (fields.length(&TIP_RADIUS), fields.length(&FOOT), fields.length(&FOOT_DIAMETER));
    let (depth_of_cut, finish_allowance) = (fields.length(&DEPTH_OF_CUT), fields.length(&FINISH_ALLOWANCE));
    let (between_centres, check_roller, check_ring) =
        (fields.length(&BETWEEN_CENTRES), fields.length(&CHECK_ROLLER), fields.length(&CHECK_RING));
    let half_angle_tolerance = fields.angle(&HALF_ANGLE_TOLERANCE);
    let (seat_load, side_factor, crossbar_wall) =
        (fields.load(&SEAT_LOAD), fields.number(&SIDE_FACTOR), fields.length(&CROSSBAR_WALL));
    let crossbar_material = common::material(fields, place, &CROSSBAR_MATERIAL, "steel S235");
    fields.left_out(&CROSSBAR_MATERIAL, "steel S235", "nothing is written");
    if !fields.has(&SEAT_LOAD) {
        common::not_here(fields, &[&SIDE_FACTOR], "it is a share of seat_load: add seat_load = \"160 kg\"");
    }
    if !fields.has(&BOLT) && !weld_on {
        let help = "add [bolt] with thread = \"M10\", or mounting = \"weld-on\"";
        fields.problem_at(&MOUNTING, "bolt-on, and no bolt is told".into(), Some(help.into()));
    }
    let (base, tip, half_angle, height) = four?;
    let bolt = settled(bolt)?;
    if foot.is_some() {
        fields.left_out(&FOOT_DIAMETER, Taken::Length(base), "as the base");
    }
    let spec = Spec {
        seat_masked,
        as_made: None,
        common: common?,
        compound_zero: place.shop.compound_zero.clone(),
        base,
        tip,
        half_angle,
        height,
        half_angle_tolerance,
        written,
        tip_radius,
        foot,
        foot_diameter,
        weld_on,
        bolt,
        depth_of_cut,
        finish_allowance,
        between_centres,
        check_roller,
        check_ring,
        carbide: tool == "carbide",
        seat_load,
        side_factor,
        crossbar_wall,
        crossbar_material: crossbar_material?,
        crossbar_written: fields.has(&CROSSBAR_MATERIAL),
    };
    possible(fields, &spec).then_some(spec)
}

/// Any three of the four figures give the fourth; four must agree.
fn four_figures(fields: &Fields, w: &Written) -> Option<(Length, Length, Angle, Length)> {
    let given = [w.base.is_some(), w.tip.is_some(), w.half_angle.is_some(), w.height.is_some()];
    let keys = [&BASE_DIAMETER, &TIP_DIAMETER, &HALF_ANGLE, &HEIGHT];
    // A figure that is written but could not be read has its own problem already.
    if keys.iter().zip(given).any(|(key, read)| fields.has(key) && !read) {
        return None;
    }
    if given.iter().filter(|g| **g).count() < 3 {
        let missing: Vec<&str> = keys.iter().zip(given).filter(|(_, g)| !g).map(|(k, _)| k.name).collect();
        fields.missing(
            &format!("three of base_diameter, tip_diameter, half_angle and height are wanted; here {} are missing", missing.join(", ")),
            Some("any three give the fourth, for example base_diameter = \"60 mm\", tip_diameter = \"12 mm\", half_angle = \"30 deg\""),
        );
        return None;
    }
    let known = KnownTaper {
        large: w.base.as_ref().map(|g| g.value),
        small: w.tip.as_ref().map(|g| g.value),
        length: w.height.as_ref().map(|g| g.value),
        half_angle: w.half_angle.as_ref().map(|g| g.value),
        ratio: None,
    };
    match turning::solve(known) {
        Ok(t) => Some((t.large?, t.small?, t.half_angle, t.length?)),
        Err(error) => {
            let culprit = if w.tip.is_some() {
                &TIP_DIAMETER
            } else if w.height.is_some() {
                &HEIGHT
            } else {
                &BASE_DIAMETER
            };
            fields.problem_at(
                culprit,
                error.to_string(),
                Some("leave one of the four out, and it is worked out from the others".into()),
            );
            None
        }
    }
}

fn bolt(table: &Fields) -> Option<Bolt> {
    let thread = table.required_text(&THREAD);
    let way = table.choice(&WAY).map_or("through", |w| w.value);
    table.left_out(&WAY, way, "the usual way: a screw from the nose");
    let head = table.choice(&HEAD).map_or(if way == "through" { "counterbore" } else { "none" }, |h| h.value);
    let series = common::series(table, &CLEARANCE);
    if way == "through" {
        table.left_out(&HEAD, head, "usual: a socket head below the nose");
        table.left_out(&CLEARANCE, "medium", "the usual series");
    }
    let (tap_depth, head_depth) = (table.length(&TAP_DEPTH), table.length(&HEAD_DEPTH));
    let thread = thread?;
    let size = common::thread(table, &THREAD, &thread)?;
    let clearance = common::clearance_hole(table, &THREAD, size, series)?;
    let register = table.choice(&REGISTER).is_some();
    idle(table, way, head);
    let packing = packed::read(table);
    let screw = match (way, head) {
        ("through", "counterbore") => Head::Socket,
        ("through", "countersink") => Head::Countersunk,
        _ => Head::Hex,
    };
    let steel = common::bolt_class(table, Some(size), screw);
    if way == "from below" {
        let depth = tap_depth.map_or(size.major * 1.5, |d| d.value);
        table.left_out(&TAP_DEPTH, Taken::Length(depth), "1.5 thread diameters");
        let tap_drill = size.tap_drill();
        return Some(Bolt {
            thread,
            size,
            clearance,
            register,
            head: screw,
            steel,
            packing,
            unconfirmed: tap_drill.confirmed == Confirmed::Memory,
            kind: BoltKind::FromBelow { tap_drill: tap_drill.drill.diameter, depth },
        });
    }
    let (recess, unconfirmed) = recess(table, size, head, head_depth)?;
    Some(Bolt {
        thread,
        size,
        clearance,
        register,
        head: screw,
        steel,
        packing,
        unconfirmed,
        kind: BoltKind::Through { hole: clearance, recess },
    })
}

/// Keys of the other way of holding, which would do nothing.
fn idle(table: &Fields, way: &str, head: &str) {
    if way == "through" {
        common::not_here(table, &[&TAP_DEPTH], "full thread is cut where way = \"from below\"");
    } else {
        common::not_here(table, &[&HEAD, &HEAD_DEPTH], "a head sits in the nose where way = \"through\"");
    }
    if way == "through" && head != "counterbore" {
        common::not_here(table, &[&HEAD_DEPTH], "only a counterbore has a depth: head = \"counterbore\"");
    }
}

/// The recess for the head, and whether its sizes are from memory.
fn recess(table: &Fields, size: Thread, head: &str, depth: Option<Given<Length>>) -> Option<(Recess, bool)> {
    let found = match head {
        "counterbore" => threads::socket_head(size),
        "countersink" => threads::countersunk_head(size),
        _ => return Some((Recess::None, false)),
    };
    let Some(found) = found else {
        table.problem_at(
            &HEAD,
            format!("no {head} is tabulated for {size}"),
            Some("another thread, or head = \"none\"".into()),
        );
        return None;
    };
    if head == "counterbore" {
        table.left_out(&HEAD_DEPTH, Taken::Length(found.value.seat_depth), "as tabulated for the head");
    }
    let recess = if head == "counterbore" {
        Recess::Counterbore {
            diameter: found.value.seat_diameter,
            depth: depth.map_or(found.value.seat_depth, |d| d.value),
        }
    } else {
        // ISO 10642 heads have 90 degrees included.
        Recess::Countersink { diameter: found.value.seat_diameter, included: Angle::degrees(90.0) }
    };
    Some((recess, found.confirmed == Confirmed::Memory))
}

/// Geometry that cannot be made is a problem at the key that causes it.
fn possible(fields: &Fields, s: &Spec) -> bool {
    let say = Say(s.common.header.unit);
    let mut sound = true;
    let mut refuse = |key: &'static Key, message: String, help: &str| {
        fields.problem_at(key, message, Some(help.into()));
        sound = false;
    };
    let flat = crate::formulas::seating::nose_flat(s.tip, s.half_angle, s.nose_radius());
    if flat < Length::ZERO {
        refuse(
            &TIP_RADIUS,
            format!("a tip radius of {} does not fit on a tip of {}", say.length(s.nose_radius()), say.length(s.tip)),
            "make the radius smaller or the tip larger",
        );
    }
    let tangent = s.nose_radius() * ((Angle::degrees(45.0) - s.half_angle / 2.0).tan() * s.half_angle.cos());
    if tangent >= s.height {
        refuse(
            &TIP_RADIUS,
            format!("the tip radius would use up the whole height of {}", say.length(s.height)),
            "make the radius smaller",
        );
    }
    if s.foot_width() < s.base {
        refuse(
            &FOOT_DIAMETER,
            format!(
                "the foot, {}, is narrower than the cone's base, {}",
                say.length(s.foot_width()),
                say.length(s.base)
            ),
            "a foot is at least as wide as the base",
        );
    }
    if s.foot_width() > s.base && s.foot_height() == Length::ZERO {
        refuse(
            &FOOT_DIAMETER,
            "a foot wider than the base needs a height".into(),
            "add foot = \"6 mm\" or leave foot_diameter out",
        );
    }
    // Limits decide: the ring must rest on the flank of every cone of the batch.
    let by = |size: Length| iso2768::general_tolerance(s.common.general, size).map_or(Length::ZERO, |t| t.value);
    let (lowest, widest) = (s.tip + by(s.tip), s.base - by(s.base));
    if let Some(ring) = s.check_ring.as_ref().filter(|r| r.value >= widest || r.value <= lowest) {
        refuse(
            &CHECK_RING,
            format!(
                "a ring bored {} does not rest on the flank of every cone: the widest tip is {}, the narrowest base {}",
                say.length(ring.value),
                say.length(lowest),
                say.length(widest)
            ),
            "take a ring between tip and base diameter, clear of their tolerances",
        );
    }
    if s.bolt.as_ref().is_some_and(|b| b.register) && s.foot_height() <= Length::ZERO {
        refuse(&BOLT, "a register wants a foot".into(), "add foot = \"6 mm\", or leave register out");
    }
    if let Some((message, help)) = s.bolt.as_ref().and_then(|bolt| packed_trouble(s, bolt)) {
        refuse(&BOLT, message, help);
    }
    if let Some(bolt) = &s.bolt
        && let Some((message, help)) = bolt_trouble(s, bolt, flat)
    {
        refuse(&BOLT, message, help);
    }
    sound
}

/// A packing where none can lie: under a weld, or so thick that the foot stands out of its recess, which is half as deep.
fn packed_trouble(s: &Spec, bolt: &Bolt) -> Option<(String, &'static str)> {
    let packing = bolt.packing.as_ref()?;
    if s.weld_on {
        return Some(("a cone that is welded on lies on no packing".into(), "leave packing out, or bolt it on"));
    }
    (bolt.register && packing.thickness.value >= s.foot_height() / 2.0).then(|| {
        let say = Say(s.common.header.unit);
        let message = format!(
            "a packing of {} lifts the foot out of its recess, which is {} deep",
            say.length(packing.thickness.value),
            say.length(s.foot_height() / 2.0)
        );
        (message, "a thinner packing, or a higher foot")
    })
}

fn bolt_trouble(s: &Spec, bolt: &Bolt, flat: Length) -> Option<(String, &'static str)> {
    let say = Say(s.common.header.unit);
    let whole = s.height + s.foot_height();
    match bolt.kind {
        BoltKind::Through { hole, recess } => {
            let (mouth, depth) = match recess {
                Recess::Counterbore { diameter, depth } => (diameter, depth),
                Recess::Countersink { diameter, included } => (diameter, countersink_depth(hole, diameter, included)),
                Recess::None => (hole, Length::ZERO),
            };
            if mouth >= flat {
                Some((
                    format!(
                        "the bolt needs {} in the nose, whose flat is only {}",
                        say.length(mouth),
                        say.length(flat)
                    ),
                    "take a smaller bolt, a larger tip, or way = \"from below\"",
                ))
            } else if depth >= whole {
                Some((
                    format!("the head recess, {} deep, leaves nothing of {}", say.length(depth), say.length(whole)),
                    "make head_depth smaller",
                ))
            } else {
                None
            }
        }
        BoltKind::FromBelow { tap_drill, depth } => {
            let bottom = drilled_depth(depth, &bolt.size) + drill_point(tap_drill);
            let there = crate::formulas::seating::diameter_at(s.base, s.half_angle, bottom - s.foot_height());
            if bottom >= whole || bottom > s.foot_height() && there <= tap_drill {
                Some((
                    format!(
                        "the tapped hole with its drill point goes {} deep and breaks out of the cone",
                        say.length(bottom)
                    ),
                    "make [bolt] depth smaller or take a smaller thread",
                ))
            } else {
                None
            }
        }
    }
}

/// Depth of the tap drill under full thread: three pitches of lead beyond it.
/// Source: common practice, no source.
pub fn drilled_depth(full_thread: Length, size: &Thread) -> Length {
    full_thread + size.pitch * 3.0
}

/// Length of the point of a 118° twist drill, d/(2 tan 59°).
/// Source: geometry of the drill point.
pub fn drill_point(diameter: Length) -> Length {
    diameter / (2.0 * Angle::degrees(59.0).tan())
}

/// Depth of a countersink from its mouth to the hole, (D − d)/(2 tan(included/2)).
/// Source: geometry.
pub fn countersink_depth(hole: Length, mouth: Length, included: Angle) -> Length {
    (mouth - hole) / (2.0 * (included / 2.0).tan())
}
