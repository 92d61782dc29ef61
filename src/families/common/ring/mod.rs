//! A ring between a shaft and a housing: its sizes, how it fits both, what a press does to it, and how it is made. A sleeve is one, a
//! bush is one.

pub mod checks;
pub mod draw;
pub mod fit;
pub mod made;
pub mod make;
mod pictures;
pub mod press;
pub mod pressing;
pub mod read;
mod remedy;
mod secured;
pub mod service;
pub mod sizes;
pub mod surface;
mod weighed;

use crate::description::Fields;
use crate::families::common::coated::{self, Order};
use crate::families::common::{self, Side};
use crate::record::design::Design;
use crate::record::key::Size;
use crate::units::Length;

use read::Ring;

/// How it lies in or on what it touches: pressed, filled, or with play.
pub fn joint(s: &Ring) -> common::Joint {
    let fills = |p: &press::Pressing| p.secured.as_ref().is_some_and(press::Secured::fills);
    let mut joint = common::Joint::Laid;
    for pressing in s.pressed_in.iter().chain(&s.slid_on) {
        if fills(pressing) {
            return common::Joint::Filled;
        }
        joint = common::Joint::Pressed;
    }
    joint
}

/// Records the sizes of a ring; `piece_at` says in which piece a place of a stack lies, and where that begins.
pub fn record<'s>(
    design: &mut Design,
    s: &Ring,
    fields: &Fields,
    piece_at: impl Fn(Length) -> Option<(&'s str, Length)>,
) -> Option<()> {
    let bore = design.given_length(&read::BORE, &s.bore);
    let outside = design.given_length(&read::OUTSIDE_DIAMETER, &s.outside);
    design.given_length(&read::LENGTH, &s.length);
    for (key, chamfer) in [(&read::CHAMFER, &s.chamfer), (&read::BORE_CHAMFER, &s.bore_chamfer)] {
        if let Some(chamfer) = chamfer {
            design.given_length(key, chamfer);
        }
    }
    design.computed_length(&sizes::WALL, (outside - bore) / 2.0, "(D - d)/2");
    common::passes(design, &s.common, &sizes::BORE, common::Side::Hole, s.shaft.is_some());
    common::passes(design, &s.common, &sizes::OUTSIDE_DIAMETER, common::Side::Shaft, s.housing.is_some());
    common::general_limits(design, &s.common, &[&sizes::LENGTH]);
    if let Some(class) = &s.bore_class {
        common::class_limits(design, fields, &sizes::BORE, bore, class, common::Side::Hole)?;
    }
    if let Some(class) = &s.outside_class {
        common::class_limits(design, fields, &sizes::OUTSIDE_DIAMETER, outside, class, common::Side::Shaft)?;
    }
    if let Some(g) = &s.groove {
        design.computed_length(&sizes::GROOVE_POSITION, g.position, "as written, or the middle");
        design.written_length(&sizes::GROOVE_WIDTH, &g.width);
        design.written_length(&sizes::GROOVE_DEPTH, &g.depth);
        let floor = if g.inside { bore + g.depth.value * 2.0 } else { outside - g.depth.value * 2.0 };
        let words =
            if g.inside { "diameter at the groove's floor, in the bore" } else { "diameter at the groove's floor" };
        design.computed_length(&sizes::GROOVE_DIAMETER.called(words), floor, "diameter +/- 2 x depth");
        common::general_limits(
            design,
            &s.common,
            &[&sizes::GROOVE_POSITION, &sizes::GROOVE_WIDTH, &sizes::GROOVE_DIAMETER],
        );
    }
    if let Some(h) = &s.grease_hole {
        let stack = if s.stacked { " of the stack" } else { "" };
        design.computed_length(
            &sizes::GREASE_HOLE_POSITION.called(format!("grease hole from the left end{stack}")),
            h.position,
            "as written, or the middle",
        );
        if let Some((name, from)) = piece_at(h.position) {
            // Where it can be measured: on the loose ring.
            design.computed_length(
                &sizes::GREASE_HOLE_ON_PIECE.called(format!("grease hole from the left end of the {name}")),
                h.position - from,
                "place in the stack less where the piece begins",
            );
            common::general_limits(design, &s.common, &[&sizes::GREASE_HOLE_ON_PIECE]);
        }
        design.written_length(&sizes::GREASE_HOLE_DIAMETER, &h.diameter);
        common::general_limits(design, &s.common, &[&sizes::GREASE_HOLE_POSITION, &sizes::GREASE_HOLE_DIAMETER]);
    }
    Some(())
}

/// Works out whatever press fits the file has, with the pictures of all fits before theirs.
pub fn press_fits(design: &mut Design, s: &Ring, fits: &[fit::Joint], fields: &Fields) -> Option<()> {
    pictures::fits(design, fits);
    for (press, key, side) in [(&s.pressed_in, &read::PRESSED_IN, "outside"), (&s.slid_on, &read::SLID_ON, "bore")] {
        let (Some(press), Some(table)) = (press, fields.table(key)) else { continue };
        let Some(joint) = fits.iter().find(|j| j.at.word == side) else { continue };
        pressing::work(design, s, press, joint, &table)?;
    }
    Some(())
}

/// The order for the coating: what a fit, a bore on its shaft or rollers run on is not for a film.
pub fn coat(design: &mut Design, s: &Ring, machined: &make::Machined, pieces: &[Size]) {
    let mut masked: Vec<&str> = Vec::new();
    if s.shaft.is_some() {
        masked.push("the bore");
    }
    if s.housing.is_some() || s.rolls {
        masked.push("the outside");
    }
    let line = if masked.is_empty() {
        String::new()
    } else {
        format!("Mask {}, or make it so much before that the fit is right after.", masked.join(" and "))
    };
    let mut grows =
        vec![(machined.bore.0, Side::Hole), (machined.outside.0, Side::Shaft), (&sizes::LENGTH, Side::Shaft)];
    grows.extend(pieces.iter().map(|size| (size, Side::Shaft)));
    let wall = (s.outside.value - s.bore.value) / 2.0;
    coated::class_for(design, &s.common, wall);
    coated::order(design, &s.common, &Order { sizes: &grows, masked: &line, ..Order::default() });
}
