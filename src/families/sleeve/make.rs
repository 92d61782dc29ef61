//! The sleeve as geometry and the order of work.

use crate::families::common;
use crate::families::common::ring::make::{self as ring, Machined, Piece};
use crate::families::common::ring::{pressing, surface};
use crate::record::design::{Design, Table, Value};
use crate::record::key::Given;
use crate::record::show;
use crate::shape::{Body, ShapeError, Solid};
use crate::units::Length;

use super::read::{self, Segment, Spec};
use super::{rollers, sizes};

/// One solid, or one for each segment.
pub fn solids(s: &Spec, m: &Machined) -> Result<Vec<Solid>, ShapeError> {
    if s.segments.is_empty() {
        return Ok(vec![Solid::only(Body::Turned(ring::piece(
            &s.ring,
            m,
            m.outside.1,
            Length::ZERO,
            s.ring.length.value,
        )?))]);
    }
    let pieces = read::pieces(s);
    s.segments
        .iter()
        .zip(pieces)
        .enumerate()
        .map(|(i, (g, (from, to)))| {
            Ok(Solid::named(&suffix(g, i), Body::Turned(ring::piece(&s.ring, m, g.outside, from, to)?)))
        })
        .collect()
}

/// Materials of the pieces that are not of the sleeve's own, by the names of their files.
pub fn made_of(s: &Spec) -> Vec<(String, String)> {
    s.segments.iter().enumerate().map(|(i, g)| (suffix(g, i), g.material.name.clone())).collect()
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

/// All pieces, from the left.
fn pieces(s: &Spec) -> Vec<Piece<'_>> {
    if s.segments.is_empty() {
        let (outside, from, to) = (s.ring.outside.value, Length::ZERO, s.ring.length.value);
        return vec![Piece { name: "the sleeve", material: &s.ring.common.material, outside, smaller: None, from, to }];
    }
    let ends = read::pieces(s).into_iter().zip(&s.segments).enumerate();
    ends.map(|(i, ((from, to), g))| {
        let smaller = (g.outside < s.ring.outside.value).then(|| sizes::segment_outside(i));
        Piece { name: &g.name, material: &g.material, outside: g.outside, smaller, from, to }
    })
    .collect()
}

/// The order of work, for every piece.
pub fn operations(design: &mut Design, s: &Spec) {
    let pieces = pieces(s);
    for piece in &pieces {
        ring::turn(design, &s.ring, piece);
    }
    ring::grease_hole(design, &s.ring, &pieces);
    for (i, piece) in pieces.iter().enumerate().filter(|(_, p)| p.material.hardened) {
        let hardness = if s.segments.is_empty() { &common::sizes::HARDNESS } else { &sizes::segment_hardness(i) };
        let written = s.rollers.as_ref().and_then(|r| r.hardness.as_ref()).map(|h| h.text.as_str());
        let runs = written.filter(|_| s.segments.is_empty() || runs_under(s, piece));
        ring::harden(design, &s.ring, piece, hardness, runs);
    }
    let mut last = ring::measured(design, &s.ring, &pieces);
    if s.segments.is_empty() {
        last = last.measure(&sizes::LENGTH, "calliper or depth micrometer");
    }
    for i in 0..s.segments.len() {
        last = last.measure(&sizes::segment_length(i), "micrometer");
    }
    for press in [&s.ring.pressed_in, &s.ring.slid_on].into_iter().flatten() {
        pressing::steps(design, &s.ring, press);
    }
    pieces_table(design, s);
    if !s.segments.is_empty() {
        design.step("bench", "Stack all pieces on a flat plate and measure over them: the stack must be the length within the sum of the segments' tolerances.").measure(&sizes::LENGTH, "depth micrometer");
    }
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
    let unit = s.ring.common.header.unit;
    let size = |l: Length| show::length(l.rounded(), unit);
    let none = || "none".to_string();
    let chamfer = |c: &Option<Given<Length>>| c.as_ref().map_or_else(none, |c| format!("{} × 45°", size(c.value)));
    let (raceway, ..) = rollers::raceway_piece(s);
    let row = |(i, (g, (from, to))): (usize, (&Segment, (Length, Length)))| {
        let runs = s.rollers.is_some() && raceway == Some(i);
        let hardness = s.rollers.as_ref().and_then(|r| r.hardness.as_ref()).filter(|_| runs).map(|h| h.text.clone());
        let usual =
            || g.material.hardness_hv.filter(|_| g.material.hardened).map(|hv| format!("{} HV", show::trimmed(hv, 0)));
        let hole = s.ring.grease_hole.as_ref().filter(|h| h.position > from && h.position < to);
        let outside = if runs { surface::of(design, &sizes::AT_OUTSIDE) } else { None };
        vec![
            Value::Text(g.name.clone()),
            Value::Text(g.material.name.clone()),
            Value::Text(hardness.or_else(usual).unwrap_or_else(|| "as delivered".into())),
            Value::Text(outside.unwrap_or_else(|| show::roughness(surface::TURNED, design.header.unit))),
            Value::Text(chamfer(&s.ring.chamfer)),
            Value::Text(chamfer(&s.ring.bore_chamfer)),
            Value::Text(
                hole.map_or_else(none, |h| format!("Ø{} at {}", size(h.diameter.value), size(h.position - from))),
            ),
        ]
    };
    let rows = s.segments.iter().zip(read::pieces(s)).enumerate().map(row);
    design.tables.push(Table::new(
        sizes::PIECES_TABLE,
        "The pieces from the left; the grease hole from the left end of its piece",
        &["piece", "material", "hardness", "outside", "outer edges", "bore's edges", "grease hole"],
        rows,
    ));
    if let Some(first) = design.operations.first_mut() {
        first.table(sizes::PIECES_TABLE);
    }
}
