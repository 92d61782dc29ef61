//! The sleeve as geometry and the order of work.

use crate::design::Design;
use crate::families::common;
use crate::shape::{Body, Path, Point, RadialHole, ShapeError, Solid, Turned};
use crate::shop::Material;
use crate::show;
use crate::standards::stock;
use crate::turning;
use crate::units::{Angle, Length};

use super::pressing;
use super::read::{self, Segment, Spec};

/// One solid, or one for each segment.
pub fn solids(s: &Spec) -> Result<Vec<Solid>, ShapeError> {
    if s.segments.is_empty() {
        return Ok(vec![Solid::only(Body::Turned(piece(s, s.outside.value, Length::ZERO, s.length.value)?))]);
    }
    let pieces = read::pieces(s);
    s.segments
        .iter()
        .zip(pieces)
        .enumerate()
        .map(|(i, (g, (from, to)))| Ok(Solid::named(&suffix(g, i), Body::Turned(piece(s, g.outside, from, to)?))))
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
fn piece(s: &Spec, outside: Length, from: Length, to: Length) -> Result<Turned, ShapeError> {
    let (length, ro, ri) = (to - from, outside / 2.0, s.bore.value / 2.0);
    let (outer, inner) = (read::chamfer(&s.chamfer), read::chamfer(&s.bore_chamfer));
    let groove = s.groove.as_ref().filter(|g| g.position > from && g.position < to);
    let ends = groove.map(|g| (g.position - from - g.width.value / 2.0, g.position - from + g.width.value / 2.0));
    let mut points = vec![(ri + inner, Length::ZERO), (ro - outer, Length::ZERO), (ro, outer)];
    if let (Some(g), Some((low, high))) = (groove.filter(|g| !g.inside), ends) {
        points.extend([(ro, low), (ro - g.depth.value, low), (ro - g.depth.value, high), (ro, high)]);
    }
    points.extend([(ro, length - outer), (ro - outer, length), (ri + inner, length), (ri, length - inner)]);
    if let (Some(g), Some((low, high))) = (groove.filter(|g| g.inside), ends) {
        points.extend([(ri, high), (ri + g.depth.value, high), (ri + g.depth.value, low), (ri, low)]);
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

/// The limits of a size in words, or the size where it has none.
fn limits(design: &Design, key: &str, size: Length) -> String {
    let unit = design.header.unit;
    let Some(l) = design.dimension(key).and_then(|d| d.limits.clone()) else { return show::length_both(size, unit) };
    let pair = |unit| {
        let [least, most] = [l.lower, l.upper].map(|x| show::limit_number(x, unit, l.upper - l.lower));
        format!("{least} to {most} {}", show::unit_name(unit))
    };
    format!("{} ({})", pair(unit), pair(show::other_unit(unit)))
}

/// The order of work, for every piece.
pub fn operations(design: &mut Design, s: &Spec) {
    let pieces = pieces(s);
    for piece in &pieces {
        turn(design, s, piece);
    }
    groove_and_hole(design, s, &pieces);
    for piece in pieces.iter().filter(|p| p.material.hardened) {
        harden(design, s, piece);
    }
    let (bore, outside) = (made_to(design, "bore"), made_to(design, "outside_diameter"));
    let mut last = design.step("bench", "Let the part cool to the temperature of the room before it is measured; measure bore and outside at three places along and two across.");
    last = last.measure(&bore, "bore gauge or telescopic gauge and micrometer").measure(&outside, "micrometer");
    if s.segments.is_empty() {
        last = last.measure("length", "calliper or depth micrometer");
    }
    for i in 0..s.segments.len() {
        last = last.measure(&format!("segment_{}_length", i + 1), "micrometer");
    }
    for press in [&s.pressed_in, &s.slid_on].into_iter().flatten() {
        pressing::steps(design, s, press);
    }
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
            "Cut the groove {side}: {} wide, {} deep, its middle {}. Break its edges.",
            size(g.width.value),
            size(g.depth.value),
            place(g.position)
        );
        design.step("lathe", text).measure("groove_diameter", "calliper with thin jaws");
    }
    if let Some(h) = &s.grease_hole {
        let speed =
            common::drill_speed(holder(h.position).map_or(&s.common.material, |p| p.material), h.diameter.value);
        let text = format!(
            "In a V-block: drill the grease hole {} through one wall at {} rpm or the fastest the machine has, {}. Take every burr off inside and outside.",
            size(h.diameter.value),
            speed.whole(),
            place(h.position)
        );
        design.step("drill press", text).measure("grease_hole_position", "calliper");
        common::at_the_drill(design);
    }
}

/// What grinding takes off each diameter of a hardened piece.
/// Source: common practice, no source.
const GRINDING: Length = Length::mm(0.3);

fn turn(design: &mut Design, s: &Spec, piece: &Piece<'_>) {
    let unit = s.common.header.unit;
    let size = |l: Length| show::length_both(l.rounded(), unit);
    let Piece { name, material, outside: (key, outside), from, to } = piece;
    let length = *to - *from;
    let cutting = material.cutting(false);
    let rpm = |speed, diameter| turning::spindle_speed(speed, diameter).whole();
    let bar = stock::next_bar(*outside + Length::mm(1.0), unit).unwrap_or(*outside + Length::mm(2.0));
    design.tools.push(format!(
        "{} x {} for {name}: round bar {}, {} long (the piece, its ends and one diameter of grip)",
        s.common.header.count,
        material.name,
        size(bar),
        size(length + common::TURNED_ENDS + bar)
    ));
    let (across, within) = if material.hardened {
        (
            format!("{} (to be ground)", size(*outside + GRINDING)),
            format!("{} (to be ground)", size(s.bore.value - GRINDING)),
        )
    } else {
        (limits(design, &made_to(design, key), *outside), limits(design, &made_to(design, "bore"), s.bore.value))
    };
    design.step("lathe", format!(
        "{name}: face, turn the outside to {across}, drill and bore to {within}, chamfer, part off {} over length, turn round, face to {}. Speeds with HSS: roughing {} rpm, finishing {} rpm outside; bore {} rpm.",
        size(common::FACE_ALLOWANCE), size(length), rpm(cutting.rough, *outside), rpm(cutting.finish, *outside), rpm(cutting.finish, s.bore.value)
    ));
}

/// Hardening and grinding of one piece.
fn harden(design: &mut Design, s: &Spec, piece: &Piece<'_>) {
    let (key, outside) = &piece.outside;
    let across = limits(design, &made_to(design, key), *outside);
    let within = limits(design, &made_to(design, "bore"), s.bore.value);
    design.step(
        "grinder",
        format!(
            "{}: harden and temper, then grind the outside to {across} and the bore to {within}, both ends square; or buy a hard ring and grind its bore and ends.",
            piece.name
        ),
    );
}
