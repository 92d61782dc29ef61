//! The sleeve as geometry and the order of work.

use crate::design::{Design, Table, Value};
use crate::families::common;
use crate::families::hardening::{self, GROUND_AFTER};
use crate::key::Given;
use crate::shape::{Body, Path, Point, RadialHole, ShapeError, Solid, Turned};
use crate::shop::Material;
use crate::show;
use crate::standards::stock;
use crate::units::{Angle, Length};

use super::read::{self, Segment, Spec};
use super::{checks, pressing, rollers, surface};

/// Diameters as the lathe or grinder makes them: before pressing, where a press fit changes them.
pub struct Machined {
    /// Key and size of the bore.
    pub bore: (String, Length),
    /// Key and size of the outside.
    pub outside: (String, Length),
}

impl Machined {
    /// Of the recorded sizes.
    pub fn of(design: &Design, s: &Spec) -> Self {
        let size = |key: &str, finished: Length| {
            let key = made_to(design, key);
            let size = match design.dimension(&key).map(|d| &d.value) {
                Some(Value::Length(l)) => *l,
                _ => finished,
            };
            (key, size)
        };
        Self { bore: size("bore", s.bore.value), outside: size("outside_diameter", s.outside.value) }
    }
}

/// One solid, or one for each segment.
pub fn solids(s: &Spec, m: &Machined) -> Result<Vec<Solid>, ShapeError> {
    if s.segments.is_empty() {
        return Ok(vec![Solid::only(Body::Turned(piece(s, m, m.outside.1, Length::ZERO, s.length.value)?))]);
    }
    let pieces = read::pieces(s);
    s.segments
        .iter()
        .zip(pieces)
        .enumerate()
        .map(|(i, (g, (from, to)))| Ok(Solid::named(&suffix(g, i), Body::Turned(piece(s, m, g.outside, from, to)?))))
        .collect()
}

/// Part of a file name: the segment's number and name in small letters and hyphens.
fn suffix(segment: &Segment, index: usize) -> String {
    let plain: String = segment
        .name
        .chars()
        .map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' })
        .take(40)
        .collect();
    format!("{}-{}", index + 1, plain.trim_matches('-'))
}

/// One ring from `from` to `to` along the sleeve, with its chamfers and whatever groove and hole lie in it.
fn piece(s: &Spec, m: &Machined, outside: Length, from: Length, to: Length) -> Result<Turned, ShapeError> {
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
struct Piece<'a> {
    name: &'a str,
    material: &'a Material,
    /// Key of its outside diameter in the design, and the size.
    outside: (String, Length),
    from: Length,
    to: Length,
}

/// All pieces, from the left.
fn pieces(s: &Spec) -> Vec<Piece<'_>> {
    if s.segments.is_empty() {
        let outside = ("outside_diameter".to_string(), s.outside.value);
        let (from, to) = (Length::ZERO, s.length.value);
        return vec![Piece { name: "the sleeve", material: &s.common.material, outside, from, to }];
    }
    let ends = read::pieces(s).into_iter().zip(&s.segments).enumerate();
    ends.map(|(i, ((from, to), g))| {
        let smaller = g.outside < s.outside.value;
        let key = if smaller { format!("segment_{}_outside", i + 1) } else { "outside_diameter".to_string() };
        Piece { name: &g.name, material: &g.material, outside: (key, g.outside), from, to }
    })
    .collect()
}

/// The key whose limits a surface is made to: before pressing, where a press fit changes it.
fn made_to(design: &Design, key: &str) -> String {
    let before = match key {
        "bore" => "bore_before_pressing",
        "outside_diameter" => "outside_before_pressing",
        _ => return key.into(),
    };
    let known = design.dimension(before).is_some_and(|d| d.limits.is_some());
    if known { before.into() } else { key.into() }
}

/// The order of work, for every piece.
pub fn operations(design: &mut Design, s: &Spec) {
    let pieces = pieces(s);
    for piece in &pieces {
        turn(design, s, piece);
    }
    groove_and_hole(design, s, &pieces);
    for (i, piece) in pieces.iter().enumerate().filter(|(_, p)| p.material.hardened) {
        let key = if s.segments.is_empty() { "hardness".to_string() } else { format!("segment_{}_hardness", i + 1) };
        harden(design, s, piece, &key);
    }
    let (bore, outside) = (made_to(design, "bore"), made_to(design, "outside_diameter"));
    let form: Vec<&str> = surface::FORM.into_iter().filter(|key| design.dimension(key).is_some()).collect();
    let mut last = design.step("bench", "Let the part cool to the temperature of the room before it is measured; measure bore and outside at three places along and two across.");
    last = last.measure(&bore, "bore gauge or telescopic gauge and micrometer").measure(&outside, "micrometer");
    for key in form {
        last = last.measure(key, "dial indicator, the piece on a mandrel");
    }
    if s.segments.is_empty() {
        last = last.measure("length", "calliper or depth micrometer");
    }
    for i in 0..s.segments.len() {
        last = last.measure(&format!("segment_{}_length", i + 1), "micrometer");
    }
    for press in [&s.pressed_in, &s.slid_on].into_iter().flatten() {
        pressing::steps(design, s, press);
    }
    pieces_table(design, s);
    if !s.segments.is_empty() {
        design.step("bench", "Stack all pieces on a flat plate and measure over them: the stack must be the length within the sum of the segments' tolerances.").measure("length", "depth micrometer");
    }
}

/// Grooves and holes come before hardening.
fn groove_and_hole(design: &mut Design, s: &Spec, pieces: &[Piece<'_>]) {
    let unit = s.common.header.unit;
    let size = |l: Length| show::length_both(l.rounded(), unit);
    let holder = |at: Length| pieces.iter().find(|p| at > p.from && at < p.to);
    // Where a place lies on the loose piece that it is in.
    let place = |at: Length| match holder(at).filter(|_| pieces.len() > 1) {
        Some(p) => format!("{} from the left end of the {}", size(at - p.from), p.name),
        None => format!("{} from the left end", size(at)),
    };
    if let Some(g) = &s.groove {
        let side = if g.inside { "in the bore" } else { "on the outside" };
        let text = format!(
            "Cut the groove {side}: {} wide, to a diameter of {}, its middle {}. Break its edges.",
            size(g.width.value),
            common::both(design, "groove_diameter"),
            place(g.position)
        );
        design.step("lathe", text).measure("groove_diameter", "calliper with thin jaws");
    }
    if let Some(h) = &s.grease_hole {
        let material = holder(h.position).map_or(&s.common.material, |p| p.material);
        let speed = common::drill_speed(design, &s.common.machines, material, h.diameter.value);
        let text = format!(
            "In a V-block: drill the grease hole {} through one wall at {} rpm, {}. Take every burr off inside and outside.",
            size(h.diameter.value),
            speed.whole(),
            place(h.position)
        );
        let key = if pieces.len() > 1 { "grease_hole_on_piece" } else { "grease_hole_position" };
        design.step("drill press", text).measure(key, "calliper");
        common::at_the_drill(design);
    }
}

/// A piece longer than so many diameters, or with a wall too thin for the jaws, is turned on a mandrel.
/// Source: common practice, no source.
const UNSUPPORTED: f64 = 3.0;

/// Whether the outside is turned on a mandrel that fills the bore, between centres.
fn on_mandrel(s: &Spec, piece: &Piece<'_>) -> bool {
    let wall = (piece.outside.1 - s.bore.value) / 2.0;
    (piece.to - piece.from) / piece.outside.1 > UNSUPPORTED || wall < checks::wanted_wall(s.bore.value)
}

fn turn(design: &mut Design, s: &Spec, piece: &Piece<'_>) {
    let unit = s.common.header.unit;
    let size = |l: Length| show::length_both(l.rounded(), unit);
    let Piece { name, material, outside: (key, outside), from, to } = piece;
    let length = *to - *from;
    let cutting = material.cutting(false);
    stock_for(design, s, piece);
    let (across, within) = if material.hardened {
        (
            format!("{} (to be ground)", size(*outside + GROUND_AFTER)),
            format!("{} (to be ground)", size(s.bore.value - GROUND_AFTER)),
        )
    } else {
        (common::between(design, &made_to(design, key)), common::between(design, &made_to(design, "bore")))
    };
    let mut rpm = |speed, diameter| common::spindle(design, name, s.common.machines.turn(speed, diameter)).whole();
    let (rough, finish) = (rpm(cutting.rough, *outside), rpm(cutting.finish, *outside));
    let inside = rpm(cutting.finish, s.bore.value);
    let (outer, inner) = (s.chamfer.is_some(), s.bore_chamfer.is_some());
    let chamfers = if outer || inner { "chamfer its edges, " } else { "" };
    let other_end = if outer || inner { " and chamfer this end's edges the same" } else { "; break the edges" };
    let bore_edges = if inner { ", chamfer the bore at both ends" } else { "" };
    let outer_edges = if outer { " and chamfer it at both ends" } else { "" };
    if !s.from_tube && !on_mandrel(s, piece) {
        design.step("lathe", format!(
            "{name}: face, turn the outside to {across}, drill and bore to {within}, {chamfers}part off {} over length, turn round, face to {}{other_end}. Speeds with HSS: roughing {rough} rpm, finishing {finish} rpm outside; bore {inside} rpm.",
            size(common::FACE_ALLOWANCE), size(length)
        ));
        return;
    }
    let slender = length / *outside > UNSUPPORTED;
    let held = if slender { "grip one end, run the other in a fixed steady, and face" } else { "grip and face" };
    let ends = if length / s.bore.value > checks::ONE_END { ", half from each end" } else { "" };
    let bored = if s.from_tube {
        "its bore is finished as bought".to_string()
    } else if length / s.bore.value > 2.0 * checks::ONE_END {
        format!("no boring bar of this lathe reaches through: have it bored to {within} elsewhere, or take honed tube")
    } else {
        format!("drill and bore to {within}{ends} at {inside} rpm")
    };
    design.step("lathe", format!("{name}: {held}; {bored}; turn round, face to {}{bore_edges}.", size(length)));
    let reach = if slender {
        " Light cuts, a sharp tool: where it rings or tapers, a follow rest behind the tool."
    } else {
        ""
    };
    design.step("lathe", format!(
        "{name}: on a mandrel that fills the bore, between centres with the tailstock up: turn the outside to {across}{outer_edges}. Speeds with HSS: roughing {rough} rpm, finishing {finish} rpm.{reach} Never between the jaws alone: the wall gives way, and a long piece climbs out."
    ));
    design.tools.push(format!("mandrel for the bore of {name}, {} long and more, and two centres", size(length)));
}

/// What the piece is made from.
fn stock_for(design: &mut Design, s: &Spec, piece: &Piece<'_>) {
    let unit = s.common.header.unit;
    let size = |l: Length| show::length_both(l.rounded(), unit);
    let Piece { name, material, outside: (_, outside), from, to } = piece;
    let bar = stock::next_bar(*outside + Length::mm(1.0), unit).unwrap_or(*outside + Length::mm(2.0));
    let (count, length) = (s.common.header.count, *to - *from);
    let line = if s.from_tube {
        let within = common::between(design, &made_to(design, "bore"));
        format!(
            "{count} x {} for {name}: honed tube, bore {within}, outside at least {}, {} long (the piece and its ends)",
            hardening::bought(material),
            size(*outside + Length::mm(1.0)),
            size(length + common::FACE_ALLOWANCE * 2.0)
        )
    } else {
        format!(
            "{count} x {} for {name}: round bar {}, {} long (the piece, its ends and one diameter of grip)",
            hardening::bought(material),
            size(bar),
            size(length + common::TURNED_ENDS + bar)
        )
    };
    design.tools.push(line);
}

/// Hardening and grinding of one piece.
fn harden(design: &mut Design, s: &Spec, piece: &Piece<'_>, key: &str) {
    let written = s.rollers.as_ref().and_then(|r| r.hardness.as_ref()).map(|h| h.text.as_str());
    let runs = written.filter(|_| s.segments.is_empty() || runs_under(s, piece));
    hardening::harden(design, piece.material, key, piece.name, runs);
    let across = common::between(design, &made_to(design, &piece.outside.0));
    let within = common::between(design, &made_to(design, "bore"));
    let running = surface::of(design, "outside_diameter").filter(|_| s.rollers.is_some());
    let finish = running.map_or_else(String::new, |ra| format!("; where the rollers run {ra}"));
    design.step(
        "grinder",
        format!(
            "{}: grind the outside to {across} and the bore to {within}, both ends square{finish}. A hard ring that is bought is ground in its bore and at its ends only.",
            piece.name
        ),
    );
}

/// Whether the rollers run on that piece.
fn runs_under(s: &Spec, piece: &Piece<'_>) -> bool {
    let (raceway, ..) = rollers::raceway_piece(s);
    raceway.and_then(|i| s.segments.get(i)).is_some_and(|g| g.name == piece.name)
}

/// Every piece with what it is made of and how its surfaces and edges are; for a sleeve in several.
fn pieces_table(design: &mut Design, s: &Spec) {
    if s.segments.is_empty() {
        return;
    }
    let unit = s.common.header.unit;
    let size = |l: Length| show::length(l.rounded(), unit);
    let none = || "none".to_string();
    let chamfer = |c: &Option<Given<Length>>| c.as_ref().map_or_else(none, |c| format!("{} × 45°", size(c.value)));
    let (raceway, ..) = rollers::raceway_piece(s);
    let row = |(i, (g, (from, to))): (usize, (&Segment, (Length, Length)))| {
        let runs = s.rollers.is_some() && raceway == Some(i);
        let hardness = s.rollers.as_ref().and_then(|r| r.hardness.as_ref()).filter(|_| runs).map(|h| h.text.clone());
        let usual =
            || g.material.hardness_hv.filter(|_| g.material.hardened).map(|hv| format!("{} HV", show::trimmed(hv, 0)));
        let hole = s.grease_hole.as_ref().filter(|h| h.position > from && h.position < to);
        let outside = if runs { surface::of(design, "outside_diameter") } else { None };
        vec![
            Value::Text(g.name.clone()),
            Value::Text(g.material.name.clone()),
            Value::Text(hardness.or_else(usual).unwrap_or_else(|| "as delivered".into())),
            Value::Text(outside.unwrap_or_else(|| surface::TURNED.into())),
            Value::Text(chamfer(&s.chamfer)),
            Value::Text(chamfer(&s.bore_chamfer)),
            Value::Text(
                hole.map_or_else(none, |h| format!("Ø{} at {}", size(h.diameter.value), size(h.position - from))),
            ),
        ]
    };
    let rows = s.segments.iter().zip(read::pieces(s)).enumerate().map(row).collect();
    design.tables.push(Table {
        key: "pieces",
        title: "The pieces from the left; the grease hole from the left end of its piece".into(),
        columns: ["piece", "material", "hardness", "outside", "outer edges", "bore's edges", "grease hole"]
            .map(String::from)
            .into(),
        rows,
    });
    if let Some(first) = design.operations.first_mut() {
        first.table = Some("pieces");
    }
}
