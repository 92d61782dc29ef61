//! The order of work of a bush: turned, grooved, measured, pressed and finished, its washer, put together.

use crate::families::common::overhang::Chucked;
use crate::families::common::ring::make::{self, Piece};
use crate::families::common::ring::pressing;
use crate::families::common::{self, Cut};
use crate::record::design::{Bar, Design};
use crate::record::show;
use crate::standards::stock;
use crate::units::Length;

use super::read::{Spec, Washer};
use super::{runs, sizes};

/// All of it.
pub fn operations(design: &mut Design, s: &Spec) {
    let ring = &s.ring;
    let piece = Piece {
        name: "the bush",
        material: &ring.common.material,
        outside: ring.outside.value,
        smaller: None,
        from: Length::ZERO,
        to: ring.length.value,
    };
    make::turn(design, ring, &piece);
    make::grease_hole(design, ring, std::slice::from_ref(&piece));
    straight_groove(design, s);
    if ring.common.material.hardened {
        make::harden(design, ring, &piece, &common::sizes::HARDNESS, None);
    }
    make::measured(design, ring, std::slice::from_ref(&piece)).measure(&sizes::LENGTH, "calliper or depth micrometer");
    if let Some(press) = &ring.pressed_in {
        pressing::steps(design, ring, press);
    }
    if let Some(washer) = &s.washer {
        turn_washer(design, s, washer);
    }
    together(design, s);
}

fn straight_groove(design: &mut Design, s: &Spec) {
    let Some(width) = &s.straight else { return };
    let unit = design.header.unit;
    let text = format!(
        "Straight groove: lock the spindle, hold a tool with a round nose in the boring bar and draw it along the bore by the saddle, {} wide, half as deep, {} long, through the grease hole and short of both ends; on the side away from the load. Break its edges: a sharp one wipes the grease off. The drawing and the solids show the bush without it.",
        show::length_both(width.value.rounded(), unit),
        common::both(design, &sizes::STRAIGHT_GROOVE_LENGTH)
    );
    design.step("lathe", text).measure(&sizes::STRAIGHT_GROOVE, "calliper");
}

fn turn_washer(design: &mut Design, s: &Spec, w: &Washer) {
    let ring = &s.ring;
    let (unit, material, machines) = (ring.common.header.unit, &ring.common.material, &ring.common.machines);
    let outside = w.outside.value;
    let bar = stock::round_to_turn(outside, unit);
    let out = w.thickness.value + common::turned_ends(unit);
    let chucked = Chucked::new(bar, out, true, unit);
    let grip = chucked.in_the_chuck();
    design.bars.push(Bar {
        material: material.name.clone(),
        across: Some(bar),
        count: ring.common.header.count,
        each: out + grip,
        grip,
        what: Some("the washer".into()),
    });
    let cutting = machines.cutting(material);
    let point = Cut::point(machines, material);
    let rough = common::spindle(design, "the washer", machines.turn(cutting.rough, outside), point);
    let inside = common::spindle(design, "the washer", machines.turn(cutting.finish, runs::washer_bore(s, w)), point);
    let off = chucked.comes_off(design, "parting off the washer", machines, material);
    let text = format!(
        "The washer: chuck {}. {} the outside to {} at {rough}{}, drill and bore to {} at {inside}, break the edges, {} {} thick{}. Rub both faces flat on abrasive cloth on a flat plate.",
        chucked.how(),
        chucked.first_cut(),
        common::between(design, &sizes::WASHER_OUTSIDE),
        chucked.for_the_drill(),
        common::between(design, &sizes::WASHER_BORE),
        off.how,
        common::between(design, &sizes::WASHER_THICKNESS),
        off.at
    );
    chucked.judge(design);
    let step = design.step("lathe", text);
    chucked.tools(step);
    step.measure(&sizes::WASHER_OUTSIDE, "calliper")
        .measure(&sizes::WASHER_BORE, "calliper")
        .measure(&sizes::WASHER_THICKNESS, "micrometer");
}

fn together(design: &mut Design, s: &Spec) {
    let grease = if s.ring.grease_hole.is_some() {
        "Wash bush and shaft, grease both, slide the shaft in; pump grease until it comes out at both ends"
    } else {
        "Wash bush and shaft, grease both thinly, slide the shaft in"
    };
    let washer =
        if s.washer.is_some() { " Put the washer between the end of the bush and the shoulder, greased." } else { "" };
    design.step("bench", format!(
        "{grease}. It turns by hand all round with no tight place; a tight place is a bush that was pressed in askew. Measure the play with a feeler gauge beside the loaded side and note it: it tells the wear of every later season.{washer}"
    ));
    design.caution(
        &[],
        "Support what hangs on the pivot before its shaft is drawn; no finger in a bore or a slot to feel the place.",
        "Support what hangs on the pivot before its shaft is drawn or put in, and keep fingers out of holes that are to line up: a part that drops a little cuts them off.",
    );
}
