//! The sleeve as geometry and the order of work.

use crate::design::Design;
use crate::shape::{Body, Path, Point, RadialHole, ShapeError, Solid, Turned};
use crate::show;
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

/// The order of work, for every piece.
pub fn operations(design: &mut Design, s: &Spec) {
    let unit = s.common.header.unit;
    let size = |l: Length| show::length_both(l, unit);
    if s.segments.is_empty() {
        turn(design, s, "the sleeve", &s.common.material, s.outside.value, s.length.value, &size);
    }
    for g in &s.segments {
        turn(design, s, &g.name, &g.material, g.outside, g.length, &size);
    }
    if let Some(g) = &s.groove {
        let side = if g.inside { "in the bore" } else { "on the outside" };
        design
            .step(
                "lathe",
                format!(
                    "Cut the groove {side}: {} wide, {} deep, its middle {} from the left end. Break its edges.",
                    size(g.width.value),
                    size(g.depth.value),
                    size(g.position)
                ),
            )
            .measure("groove_diameter", "calliper with thin jaws");
    }
    if let Some(h) = &s.grease_hole {
        design.step("drill press", format!("In a V-block: drill the grease hole {} through one wall, {} from the left end. Take every burr off inside and outside.", size(h.diameter.value), size(h.position)))
            .measure("grease_hole_position", "calliper");
    }
    let mut last = design.step("bench", "Let the part cool to the temperature of the room before it is measured; measure bore and outside at three places along and two across.");
    last = last
        .measure("bore", "bore gauge or telescopic gauge and micrometer")
        .measure("outside_diameter", "micrometer")
        .measure("length", "calliper or depth micrometer");
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

fn turn(
    design: &mut Design,
    s: &Spec,
    name: &str,
    material: &crate::shop::Material,
    outside: Length,
    length: Length,
    size: &dyn Fn(Length) -> String,
) {
    let cutting = material.cutting(false);
    let rpm = |speed, diameter| turning::spindle_speed(speed, diameter).whole();
    let hard = material.hardened;
    design.tools.push(format!(
        "{} x {} for {name}: {} outside before turning, {} long",
        s.common.header.count,
        material.name,
        size(outside + Length::mm(2.0)),
        size(length + Length::mm(5.0))
    ));
    let grind = if hard {
        " It is hardened: turn it soft 0.3 mm over size outside and 0.3 mm under size in the bore, harden, then grind; or buy a ring and grind its bore and faces."
    } else {
        ""
    };
    design.step("lathe", format!(
        "{name}: face, turn the outside to {}, drill and bore {}, chamfer, part off at {}, face the other end. Speeds with HSS: roughing {} rpm, finishing {} rpm outside; bore {} rpm.{grind}",
        size(outside), size(s.bore.value), size(length), rpm(cutting.rough, outside), rpm(cutting.finish, outside), rpm(cutting.finish, s.bore.value)
    ));
}
