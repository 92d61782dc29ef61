//! A ring as geometry and as work: turned piece by piece, grooved, hardened and ground.

use crate::families::common::gripped::{self, second_grip};
use crate::families::common::hardening;
use crate::families::common::overhang::Reach;
use crate::families::common::printed::{self, Print};
use crate::families::common::{self, Cut, Pace};
use crate::formulas::turning::{self, Support};
use crate::formulas::uncertainty::Instrument;
use crate::record::design::{Bar, Design, Dimension, Operation, Value};
use crate::record::key::{Given, Size};
use crate::record::show;
use crate::shape::{Path, Point, RadialHole, ShapeError, Turned};
use crate::shop::{Material, by_unit};
use crate::standards::stock;
use crate::units::{Angle, Length, LengthUnit};

use super::read::{self, Ring};
use super::sizes::{self, Surface};
use super::{checks, surface};

/// Diameters as the lathe or grinder makes them: before pressing, where a press fit changes them.
pub struct Machined {
    /// The bore.
    pub bore: (&'static Size, Length),
    /// The outside.
    pub outside: (&'static Size, Length),
}

impl Machined {
    /// Of the recorded sizes.
    pub fn of(design: &Design, s: &Ring) -> Self {
        let made = |at: &Surface, finished: Length| {
            let size = made_to(design, at);
            match design.dimension(size).map(|d| &d.value) {
                Some(Value::Length(l)) => (size, *l),
                _ => (size, finished),
            }
        };
        Self { bore: made(&sizes::AT_BORE, s.bore.value), outside: made(&sizes::AT_OUTSIDE, s.outside.value) }
    }
}

/// One ring from `from` to `to` along the sleeve, with its chamfers and whatever groove and hole lie in it.
pub fn piece(s: &Ring, m: &Machined, outside: Length, from: Length, to: Length) -> Result<Turned, ShapeError> {
    let (length, ro, ri) = (to - from, outside / 2.0, m.bore.1 / 2.0);
    let (outer, inner) = (read::chamfer(&s.chamfer), read::chamfer(&s.bore_chamfer));
    let groove = s.groove.as_ref().filter(|g| g.position > from && g.position < to);
    let ends = groove.map(|g| (g.position - from - g.width.value / 2.0, g.position - from + g.width.value / 2.0));
    let mut points = vec![(ri + inner, Length::ZERO), (ro - outer, Length::ZERO), (ro, outer)];
    if let (Some(g), Some((low, high))) = (groove.filter(|g| !g.inside), ends) {
        let floor = s.outside.value / 2.0 - g.depth.value;
        points.extend([(ro, low), (floor, low), (floor, high), (ro, high)]);
    }
    points.extend([(ro, length - outer), (ro - outer, length), (ri + inner, length), (ri, length - inner)]);
    if let (Some(g), Some((low, high))) = (groove.filter(|g| g.inside), ends) {
        let floor = s.bore.value / 2.0 + g.depth.value;
        points.extend([(ri, high), (floor, high), (floor, low), (ri, low)]);
    }
    points.push((ri, inner));
    let mut points = points.into_iter().map(|(r, z)| Point::new(r, z));
    let start = points.next().unwrap_or(Point::ORIGIN);
    let turned = Turned::from_profile(points.fold(Path::start(start), Path::line_or_nothing).closed_edges()?)?;
    match s.grease_hole.as_ref().filter(|h| h.position > from && h.position < to) {
        Some(h) => turned.with_radial_hole(RadialHole::new(h.diameter.value, h.position - from, Angle::ZERO)?),
        None => Ok(turned),
    }
}

/// One piece as the lathe makes it.
pub struct Piece<'a> {
    pub name: &'a str,
    pub material: &'a Material,
    /// Its outside.
    pub outside: Length,
    /// That outside as recorded, where it is smaller than the sleeve's.
    pub smaller: Option<Size>,
    pub from: Length,
    pub to: Length,
}

/// The size whose limits a surface is made to: before pressing, where a press fit changes it.
pub fn made_to(design: &Design, at: &Surface) -> &'static Size {
    let known = design.dimension(at.before).is_some_and(|d| d.limits.is_some());
    if known { at.before } else { at.own }
}

/// The limits of a piece's outside in words.
pub fn outside_of(design: &Design, piece: &Piece<'_>) -> String {
    common::between(design, piece.smaller.as_ref().unwrap_or_else(|| made_to(design, &sizes::AT_OUTSIDE)))
}

/// With what an error of form is proved: the shop's dial, where it tells so little.
fn form_by(s: &Ring, dimension: &Dimension) -> &'static str {
    let dial = s.common.gauge(Instrument::DialIndicator).length();
    match &dimension.limits {
        Some(l) if l.upper <= dial => "the grinder's record of it, no dial of this shop tells so little",
        _ => "dial indicator, the piece on a mandrel",
    }
}

/// The step that measures bore and outside, how true they are, and what grinding has moved.
pub fn measured<'a>(design: &'a mut Design, s: &Ring, pieces: &[Piece<'_>]) -> &'a mut Operation {
    let in_ground =
        |h: &read::GreaseHole| pieces.iter().any(|p| h.position > p.from && h.position < p.to && p.material.hardened);
    let hole = s.grease_hole.as_ref().filter(|h| in_ground(h)).map(|_| place_of_hole(pieces));
    let (bore, outside) = (made_to(design, &sizes::AT_BORE), made_to(design, &sizes::AT_OUTSIDE));
    let form: Vec<(&Size, &str)> =
        sizes::FORM.into_iter().filter_map(|size| Some((size, form_by(s, design.dimension(size)?)))).collect();
    let mut last = design.step("bench", "Let the part cool to the temperature of the room before it is measured; measure bore and outside at three places along and two across.");
    last = last.measure(bore, "bore gauge or telescopic gauge and micrometer").measure(outside, "micrometer");
    for (size, with) in form {
        last = last.measure(size, with);
    }
    if let Some(place) = hole {
        last = last.measure(place, "calliper");
    }
    last
}

/// Metal that is left on each surface, ends too, for grinding; none where a piece stays soft.
fn left_on(piece: &Piece<'_>, unit: LengthUnit) -> Length {
    if piece.material.hardened { hardening::ground_after(unit) / 2.0 } else { Length::ZERO }
}

/// A place that is given from the finished left end of a piece, as it is cut: `2.15 mm from its left end (2 mm when that end
/// is ground)`.
fn as_cut(at: Length, piece: &Piece<'_>, end: &str, unit: LengthUnit) -> String {
    let size = |l: Length| show::length_both(l.rounded(), unit);
    let left = left_on(piece, unit);
    let finished = at - piece.from;
    if left > Length::ZERO {
        return format!("{} from {end} ({} when that end is ground)", size(finished + left), size(finished));
    }
    format!("{} from {end}", size(finished))
}

/// The groove that is cut into a piece while it is still held as it was turned, and the end that it is measured from.
struct Groove {
    inside: bool,
    text: String,
}

/// The groove of a piece, where it has one. It is cut before hardening; its floor is not ground.
fn groove(design: &mut Design, s: &Ring, piece: &Piece<'_>) -> Option<Groove> {
    let unit = s.common.header.unit;
    let g = s.groove.as_ref().filter(|g| g.position > piece.from && g.position < piece.to)?;
    let (side, across) = if g.inside { ("in the bore", s.bore.value) } else { ("on the outside", piece.outside) };
    let what = format!("groove of {}", piece.name);
    let speed = common::straight_in_speed(design, &what, &s.common.machines, piece.material, across);
    let text = format!(
        "the groove {side} at {speed}: {} wide, to a diameter of {}, its middle {}; break its edges",
        show::length_both(g.width.value.rounded(), unit),
        common::both(design, &sizes::GROOVE_DIAMETER),
        as_cut(g.position, piece, "the end that was faced first, the left one", unit)
    );
    Some(Groove { inside: g.inside, text })
}

/// The instrument for a groove's floor.
fn measure_groove(operation: &mut Operation) {
    operation.measure(&sizes::GROOVE_DIAMETER, "calliper with thin jaws");
}

/// The hole for the grease, through one wall: before hardening.
pub fn grease_hole(design: &mut Design, s: &Ring, pieces: &[Piece<'_>]) {
    let unit = s.common.header.unit;
    let Some(h) = &s.grease_hole else { return };
    let holder = pieces.iter().find(|p| h.position > p.from && h.position < p.to);
    // A printed piece comes out of the printer with it.
    let Some(piece) = holder.filter(|p| !p.material.printed) else { return };
    let speed = common::drill_speed(design, &s.common.machines, piece.material, h.diameter.value);
    let drill = common::drill(h.diameter.value, unit);
    let end = if pieces.len() > 1 { format!("the left end of the {}", piece.name) } else { "the left end".into() };
    let text = format!(
        "In a V-block: drill the grease hole {} through one wall at {}, {}. Take every burr off inside and outside.",
        drill,
        speed,
        as_cut(h.position, piece, &end, unit)
    );
    let step = design.step("drill press", text).tool(format!("twist drill {drill}"));
    // What grinding still moves is measured when it is ground.
    if left_on(piece, unit) == Length::ZERO {
        step.measure(place_of_hole(pieces), "calliper");
    }
    common::at_the_drill(design);
}

/// The size that says where the grease hole lies.
const fn place_of_hole(pieces: &[Piece<'_>]) -> &'static Size {
    if pieces.len() > 1 { &sizes::GREASE_HOLE_ON_PIECE } else { &sizes::GREASE_HOLE_POSITION }
}

/// The bar from which a piece is turned.
fn bar(s: &Ring, piece: &Piece<'_>) -> Length {
    stock::round_to_turn(piece.outside, s.common.header.unit)
}

/// How far the bar stands out of the chuck for a piece that is parted off.
fn stands_out(s: &Ring, piece: &Piece<'_>) -> Length {
    piece.to - piece.from + common::turned_ends(s.common.header.unit)
}

/// Whether the outside is turned on a mandrel that fills the bore, between centres: where the chuck alone does not carry the
/// bar, or the wall is too thin for jaws.
fn on_mandrel(s: &Ring, piece: &Piece<'_>) -> bool {
    let wall = (piece.outside - s.bore.value) / 2.0;
    turning::support(stands_out(s, piece), bar(s, piece)) != Support::None || wall < checks::wanted_wall(s.bore.value)
}

/// Speeds: facing and roughing, finishing outside, drilling, in the bore, parting off.
struct Speeds {
    rough: Pace,
    finish: Pace,
    drill: Pace,
    inside: Pace,
    part: Pace,
}

/// The speeds of the lathe for a piece.
fn speeds(design: &mut Design, s: &Ring, piece: &Piece<'_>) -> Speeds {
    let machines = &s.common.machines;
    let cutting = machines.cutting(piece.material);
    let point = Cut::point(machines, piece.material);
    let cuts = [
        (cutting.rough, piece.outside, point),
        (cutting.finish, piece.outside, point),
        (cutting.drill, s.bore.value, Cut::Drill),
        (cutting.finish, s.bore.value, point),
    ];
    let [rough, finish, drill, inside] =
        cuts.map(|(speed, across, cut)| common::spindle(design, piece.name, machines.turn(speed, across), cut));
    let what = format!("parting off {}", piece.name);
    let part = common::straight_in_speed(design, &what, machines, piece.material, bar(s, piece));
    Speeds { rough, finish, drill, inside, part }
}

/// Outside and bore to which a piece is turned: soft and too large where it is ground later.
fn turned_to(design: &Design, s: &Ring, piece: &Piece<'_>) -> (String, String) {
    let unit = s.common.header.unit;
    let left = hardening::ground_after(unit);
    if piece.material.hardened {
        let soft = |l: Length| format!("{} (to be ground)", show::length_both(l.rounded(), unit));
        return (soft(piece.outside + left), soft(s.bore.value - left));
    }
    (outside_of(design, piece), common::between(design, made_to(design, &sizes::AT_BORE)))
}

/// Turned from the bar, in the chuck or on a mandrel.
pub fn turn(design: &mut Design, s: &Ring, piece: &Piece<'_>) {
    let unit = s.common.header.unit;
    let size = |l: Length| show::length_both(l.rounded(), unit);
    let (name, length) = (piece.name, piece.to - piece.from);
    if piece.material.printed {
        let across = piece.outside;
        let extents = (across, across, length);
        printed::step(design, &s.common, &Print { what: name, lies: "standing on its end", extents, tells: false });
        return;
    }
    stock_for(design, s, piece);
    if s.from_tube || on_mandrel(s, piece) {
        mandrel(design, s, piece);
        return;
    }
    let (across, within) = turned_to(design, s, piece);
    let Speeds { rough, finish, drill, inside, part } = speeds(design, s, piece);
    let (bar, out, tool) = (bar(s, piece), stands_out(s, piece), s.common.machines.tool());
    let edges = s.chamfer.is_some() || s.bore_chamfer.is_some();
    let chamfers = if edges { format!("chamfer {}, ", edges_of(s, piece)) } else { String::new() };
    let other_end = if edges { " and chamfer this end's edges the same" } else { "; break the edges" };
    let groove = groove(design, s, piece);
    let grooved = groove.as_ref().map_or_else(String::new, |g| format!("cut {}; ", g.text));
    let step = design.step("lathe", format!(
        "{name}: chuck the bar with {} out of the jaws, {} in them. Face, turn the outside to {across}, drill and bore to {within}, {chamfers}{grooved}part off {} over length. Speeds with {tool}: facing and roughing {rough}, finishing {finish} outside; drill {drill}, bore {inside}; part off {part}.",
        size(out), gripped::in_jaws(bar, out, unit), size(common::face_allowance(unit))
    ));
    if groove.is_some() {
        measure_groove(step);
    }
    design.step(
        "lathe",
        format!(
            "{name}: turn round, {}; face to {} at {rough}{other_end}, cuts of at most {}: this grip carries no more.",
            second_grip(length, piece.outside, unit),
            faced_to(design, piece, unit),
            size(common::skim(unit))
        ),
    );
}

/// A chamfer as it is cut: larger by what grinding takes off the end and off the side.
fn chamfer_cut(chamfer: Length, piece: &Piece<'_>, unit: LengthUnit) -> String {
    let size = |l: Length| show::length_both(l.rounded(), unit);
    let ground = left_on(piece, unit) * 2.0;
    let after = if ground > Length::ZERO { format!(", {} when ground", size(chamfer)) } else { String::new() };
    format!("{} x 45°{after}", size(chamfer + ground))
}

/// The edges of a piece with the chamfers that are cut.
fn edges_of(s: &Ring, piece: &Piece<'_>) -> String {
    let one = |chamfer: &Option<Given<Length>>, which: &str| {
        chamfer.as_ref().map(|c| format!("{which} {}", chamfer_cut(c.value, piece, s.common.header.unit)))
    };
    if s.chamfer.as_ref().map(|c| c.value) == s.bore_chamfer.as_ref().map(|c| c.value) {
        return one(&s.chamfer, "all edges").unwrap_or_default();
    }
    let both = [one(&s.chamfer, "the outer edges"), one(&s.bore_chamfer, "the bore's edges")];
    both.into_iter().flatten().collect::<Vec<_>>().join(" and ")
}

/// A length to face a piece to; where it is hardened both ends are ground afterwards, and metal is left for that.
fn faced_to(design: &Design, piece: &Piece<'_>, unit: LengthUnit) -> String {
    let length = piece.to - piece.from;
    if piece.material.hardened {
        let left = length + hardening::ground_after(unit);
        return format!("{} (to be ground)", show::length_both(left.rounded(), unit));
    }
    faced(design, length, unit)
}

/// A length to face to, with the figures that the table of sizes has.
fn faced(design: &Design, length: Length, unit: LengthUnit) -> String {
    let is_it = |d: &&Dimension| d.value == Value::Length(length.rounded()) && d.key.ends_with("length");
    match design.dimensions.iter().find(is_it).map(|d| show::dimension_line(d, unit)) {
        Some(line) => format!("{} ({})", line.size, line.other),
        None => show::length_both(length.rounded(), unit),
    }
}

/// A piece that the chuck alone does not carry: bored with a steady, its outside turned on a mandrel.
fn mandrel(design: &mut Design, s: &Ring, piece: &Piece<'_>) {
    let unit = s.common.header.unit;
    let (name, length, outside) = (piece.name, piece.to - piece.from, piece.outside);
    let (across, within) = turned_to(design, s, piece);
    let Speeds { rough, finish, drill, inside, .. } = speeds(design, s, piece);
    let (bar, out, tool) = (bar(s, piece), stands_out(s, piece), s.common.machines.tool());
    let slender = turning::support(out, bar) != Support::None;
    let grip = gripped::in_jaws(bar, length.min(bar * turning::UNSUPPORTED), unit);
    let held = if slender {
        format!("grip {grip} of one end, run the other in a fixed steady, and face at {rough}")
    } else {
        format!("grip {grip} and face at {rough}")
    };
    let ends = if Reach::BoredFromBoth.in_halves(length, s.bore.value) { ", half from each end" } else { "" };
    let bored = if s.from_tube {
        "its bore is finished as bought".to_string()
    } else if length / s.bore.value > 2.0 * turning::BORED_FROM_ONE_END {
        format!("no boring bar of this lathe reaches through: have it bored to {within} elsewhere, or take honed tube")
    } else {
        format!("drill at {drill} and bore to {within}{ends} at {inside}")
    };
    let edge = |chamfer: &Option<Given<Length>>, what: &str| {
        chamfer.as_ref().map_or_else(String::new, |c| format!("{what} {}", chamfer_cut(c.value, piece, unit)))
    };
    let bore_edges = edge(&s.bore_chamfer, ", chamfer the bore at both ends");
    let outer_edges = edge(&s.chamfer, " and chamfer it at both ends");
    let groove = groove(design, s, piece);
    let grooved = |inside: bool, before: &str| {
        groove.as_ref().filter(|g| g.inside == inside).map(|g| format!("{before}{}", g.text))
    };
    let (within_bore, on_outside) = (grooved(true, "; cut "), grooved(false, " In the same setting cut "));
    let step = design.step(
        "lathe",
        format!(
            "{name}: {held}; {bored}{}; turn round in the same way, face to {}{bore_edges}.",
            within_bore.as_deref().unwrap_or_default(),
            faced_to(design, piece, unit)
        ),
    );
    if within_bore.is_some() {
        measure_groove(step);
    }
    let reach = match turning::support(length, outside) {
        Support::None => "",
        Support::Centre => " Light cuts, a sharp tool: where it rings or tapers, a follow rest behind the tool.",
        Support::CentreAndRest => " A follow rest behind the tool, light cuts, a sharp tool.",
    };
    let as_long = faced(design, length, unit);
    let step = design.step("lathe", format!(
        "{name}: on a mandrel that fills the bore, between centres with the tailstock up: turn the outside to {across}{outer_edges}. Speeds with {tool}: roughing {rough}, finishing {finish}.{}{reach} Never between the jaws alone: the wall gives way, and a long piece climbs out.",
        on_outside.as_ref().map_or_else(String::new, |cut| format!("{cut}."))
    ))
    .tool(format!("mandrel that fills the bore of {name}, {as_long} long and more"));
    if on_outside.is_some() {
        measure_groove(step);
    }
}

/// What the piece is made from.
fn stock_for(design: &mut Design, s: &Ring, piece: &Piece<'_>) {
    let unit = s.common.header.unit;
    let size = |l: Length| show::length_both(l.rounded(), unit);
    let Piece { name, material, outside, from, to, .. } = piece;
    let bar = bar(s, piece);
    let (count, length) = (s.common.header.count, *to - *from);
    // A piece that is turned on a mandrel is gripped by itself: its blank is sawn off, with metal to face at both ends.
    let faces = common::face_allowance(unit) * 2.0;
    let (ends, grip) = if on_mandrel(s, piece) {
        (faces, Length::ZERO)
    } else {
        let grip = gripped::in_the_chuck(bar, stands_out(s, piece));
        (common::turned_ends(unit) + grip, grip)
    };
    if s.from_tube {
        let within = common::between(design, made_to(design, &sizes::AT_BORE));
        let line = format!(
            "{count} x {} for {name}: honed tube, bore {within}, outside at least {}, {} long (the piece and its ends)",
            hardening::bought(material),
            size(*outside + by_unit(unit, 1.0, 0.04)),
            size(length + faces)
        );
        design.tools.push(line);
    } else {
        design.bars.push(Bar {
            material: hardening::bought(material),
            across: Some(bar),
            count,
            each: length + ends,
            grip,
            what: Some((*name).to_string()),
        });
    }
}

/// Hardening and grinding of one piece.
pub fn harden(design: &mut Design, s: &Ring, piece: &Piece<'_>, hardness: &Size, written: Option<&str>) {
    hardening::harden(design, piece.material, hardness, piece.name, written);
    let across = outside_of(design, piece);
    let within = common::between(design, made_to(design, &sizes::AT_BORE));
    let running = surface::of(design, &sizes::AT_OUTSIDE).filter(|_| s.rolls);
    let finish = running.map_or_else(String::new, |ra| format!("; where the rollers run {ra}"));
    let long = faced(design, piece.to - piece.from, s.common.header.unit);
    design.step(
        "grinder",
        format!(
            "{}: grind the outside to {across} and the bore to {within}, both ends square, the same off each, to a length of {long}{finish}. A hard ring that is bought is ground in its bore and at its ends only.",
            piece.name
        ),
    );
}
