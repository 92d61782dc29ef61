//! What is recorded of a stand: what is written, what follows, the limits of what is cut, and the list of its plates.

use crate::record::design::{Design, Limits, Table, Value};
use crate::record::key::Size;
use crate::shape::Contour;
use crate::standards::processes;
use crate::units::{Length, Mass};

use super::Made;
use super::form::{Form, Locked, USUAL_TAPER};
use super::read::{self, Lock, Spec};
use super::sizes;

/// Least friction of a wedge. Source: the least that is printed for oiled steel on steel at rest, `standards/friction`.
pub const USUAL_FRICTION: f64 = 0.1;
/// Sheets as most cutters take them. Source: common practice, no source.
const USUAL_SHEET: (Length, Length) = (Length::mm(2500.0), Length::mm(1250.0));

/// The sheet that the cutter takes, the longer side first.
pub fn sheet(s: &Spec) -> (Length, Length) {
    let written = s.cutter_sheet.as_ref().and_then(|sheet| match sheet.value.as_slice() {
        [a, b] => Some((a.max(*b), a.min(*b))),
        _ => None,
    });
    written.unwrap_or(USUAL_SHEET)
}

/// Every size.
pub fn sizes(design: &mut Design, s: &Spec, f: &Form) {
    design.given_length(&read::HEIGHT, &s.height);
    design.given_length(&read::LENGTH, &s.length);
    design.given_length(&read::WIDTH, &s.width);
    design.length_or(&read::TOP_WIDTH, s.top_width.as_ref(), f.top, "half of the width");
    thickness(design, s);
    design.length_or(
        &read::RAIL_DEPTH,
        s.rail_depth.as_ref(),
        f.rail_depth,
        match s.lock {
            Lock::Bolts { .. } => "a fifth of the height, ten thicknesses at least, and room for tabs, bolt and nut",
            Lock::Wedges { .. } => "a fifth of the height, ten thicknesses at least",
        },
    );
    design.length_or(
        &read::LEG_WIDTH,
        s.leg_width.as_ref(),
        f.leg,
        "an eighth of the height, six thicknesses at least",
    );
    let why = "what a cut edge may be off, and a hair more";
    design.length_or(&read::CLEARANCE, s.clearance.as_ref(), f.clearance, why);
    design.length_or(&read::KERF, s.kerf.as_ref(), Length::ZERO, "the cutter allows for his own");
    design.computed_length(&sizes::END_HEIGHT, f.end_height, "height less the top plate");
    design.computed_length(&sizes::FOOT, f.foot, "1.25 x a leg");
    design.computed_length(&sizes::ARCH, f.arch, "a twentieth of the height, two thicknesses at least");
    if let Some([(_, low), (head, up)]) = f.opening() {
        design.computed_length(&sizes::SILL, f.sill, "three quarters of a leg");
        design.computed_length(&sizes::OPENING_HIGH, up - low, "from the sill to the rails");
        design.computed_length(&sizes::OPENING_HEAD, head * 2.0, "between the legs under the rails");
    }
    joints(design, f);
    rail(design, s, f);
    locked(design, s, f);
    drawn(design, s, f);
    limits(design, s, f);
}

fn thickness(design: &mut Design, s: &Spec) {
    let t = &s.thick;
    design.given_length(&read::THICKNESS, &s.thickness);
    if t.least < t.most {
        let limits = Limits { lower: t.least, upper: t.most, by: t.by.clone(), confirmed: t.confirmed };
        design.limit(&sizes::THICKNESS, limits);
    }
    if s.measured_thickness.is_none() {
        match &s.rolled {
            Some(given) => design.given_text(&read::ROLLED, &given.clone().map(String::from)),
            None => design.assumed(
                &read::ROLLED.size(),
                Value::Text("plate".into()),
                "nothing is written: the wider limits",
            ),
        }
    }
    let formula = if s.measured_thickness.is_some() { "as measured" } else { "its limits, by what it is rolled to" };
    design.computed_length(&sizes::THICKNESS_LEAST, t.least, formula);
    design.computed_length(&sizes::THICKNESS_MOST, t.most, formula);
}

fn joints(design: &mut Design, f: &Form) {
    design.computed_length(&sizes::SLOT_WIDE, f.slot_wide, "thickest plate + clearance");
    design.computed_length(&sizes::SLOT_HIGH, f.slot_high, "tab + twice the clearance");
    design.computed_length(&sizes::TAB_HIGH, f.tab_high, "of the rail's depth: half with wedges, a fifth with bolts");
    design.computed_length(&sizes::TAB_LONG, f.tab_long, "through the end plate, and what locks it");
    if let [low, high] = f.tabs_at.as_slice() {
        design.computed_length(&sizes::TABS_APART, *high - *low, "three tenths of the depth to either side");
    }
    design.computed_length(&sizes::RELIEF, f.relief, "a quarter of the thickness");
    design.computed_length(&sizes::TOP_SLOT, f.pad_slot_long, "tab + twice the clearance");
    design.computed_length(&sizes::TOP_SLOTS_APART, f.pad_tab_at * 2.0, "half of the length");
    design.computed_length(&sizes::TOP_TAB_LONG, f.pad_tab_long, "an eighth of the length, three thicknesses at least");
    design.computed_length(&sizes::TOP_TAB_HIGH, f.pad_tab_high, "thinnest plate less 0.5 mm: it never stands proud");
}

fn rail(design: &mut Design, s: &Spec, f: &Form) {
    design.computed_length(&sizes::RAILS_APART, f.rails_apart, "top less five thicknesses and a slot");
    design.computed_length(&sizes::RAIL_BODY, f.rail_body, "length less two end plates");
    design.computed_length(&sizes::RAIL_OVERALL, f.rail_body + f.tab_long * 2.0, "with its tabs");
    if let Lock::Bolts { written, thread, steel, .. } = &s.lock {
        if let Some(written) = written {
            design.given_text(&read::THREAD, written);
        }
        crate::families::common::bolt_steel(design, steel);
        crate::families::common::standard_thread(design, thread);
    }
}

fn locked(design: &mut Design, s: &Spec, f: &Form) {
    match (&f.locked, &s.lock) {
        (Locked::Wedge(wedge, hole), Lock::Wedges { taper, friction }) => {
            design.given_or(&read::WEDGE_ANGLE, taper.as_ref(), USUAL_TAPER, Value::Angle, "1:14, common practice");
            let why = "the least that is printed for oiled steel at rest";
            design.given_or(&read::FRICTION, friction.as_ref(), USUAL_FRICTION, Value::Number, why);
            design.computed_length(&sizes::WEDGE_LONG, wedge.long, "its travel and six thicknesses");
            design.computed_length(&sizes::WEDGE_NARROW, wedge.narrow, "two thicknesses at least");
            design.computed_length(&sizes::WEDGE_BROAD, wedge.broad, "narrow + l tan a");
            design.computed_length(&sizes::WEDGE_TRAVEL, wedge.travel, "difference of thickness/tan a");
            design.computed_length(
                &sizes::WEDGE_HOLE_AT,
                hole.from,
                "thinnest plate less 1 mm: the wedge bears on the end plate",
            );
            design.computed_length(&sizes::WEDGE_HOLE, hole.long, "plate + wedge in its middle");
            design.computed_length(&sizes::WEDGE_HOLE_HIGH, hole.high, "thickest plate + clearance");
        }
        (Locked::Bolt(slot), Lock::Bolts { hole, .. }) => {
            design.computed_length(&sizes::BOLT_HOLE, *hole, "clearance hole, medium");
            design.computed_length(&sizes::BOLT_SLOT, slot.wide, "as the hole");
            design.computed_length(&sizes::NUT_SLOT_LONG, slot.nut_long, "nut and room");
            design.computed_length(&sizes::NUT_SLOT_HIGH, slot.nut_high, "across flats and room");
        }
        _ => {}
    }
}

/// The joints as they are drawn where the cutter does not allow for his kerf.
fn drawn(design: &mut Design, s: &Spec, f: &Form) {
    use crate::formulas::tabs::drawn;
    let kerf = s.kerf();
    if kerf > Length::ZERO {
        design.computed_length(&sizes::SLOT_DRAWN, drawn(f.slot_wide, kerf, true), "less the kerf");
        design.computed_length(&sizes::TAB_DRAWN, drawn(f.tab_high, kerf, false), "and the kerf");
    }
}

/// Limits of what goes together: what else is cut is as the cutter leaves it, and nobody measures it.
fn limits(design: &mut Design, s: &Spec, f: &Form) {
    let cut: [&Size; 10] = [
        &sizes::SLOT_WIDE,
        &sizes::SLOT_HIGH,
        &sizes::TAB_HIGH,
        &sizes::TABS_APART,
        &sizes::TOP_SLOT,
        &sizes::TOP_TAB_HIGH,
        &sizes::RAILS_APART,
        &sizes::RAIL_BODY,
        &sizes::WEDGE_NARROW,
        &sizes::WEDGE_HOLE_HIGH,
    ];
    for size in cut {
        let Some(Value::Length(l)) = design.dimension(size).map(|d| d.value.clone()) else { continue };
        if let Some(off) = processes::cut_deviation(l, f.t).filter(|off| l > off.value) {
            let limits = Limits {
                lower: l - off.value,
                upper: l + off.value,
                by: "ISO 9013-1".into(),
                confirmed: off.confirmed,
            };
            design.limit(size, limits);
        }
    }
    let rest = [&sizes::BOLT_HOLE, &sizes::SILL, &sizes::ARCH];
    crate::families::common::general_limits(design, &s.common, &rest);
}

/// Cuts, the stack, and the list of plates.
pub fn plates(design: &mut Design, s: &Spec, made: &[Made]) {
    let (long, wide) = sheet(s);
    if s.cutter_sheet.is_some() {
        let say = design.say();
        let words = format!("{} x {}", say.length(long.rounded()), say.length(wide.rounded()));
        design.computed(&read::CUTTER_SHEET.size(), Value::Text(words), "as written");
    } else {
        let words = format!("{} x {}", design.say().length(long), design.say().length(wide));
        design.assumed(&read::CUTTER_SHEET.size(), Value::Text(words), "as most cutters take them");
    }
    let outlines = |m: &Made| -> (Length, u32) {
        let all = || [m.cutting.outer()].into_iter().chain(m.cutting.holes());
        (all().map(Contour::perimeter).sum::<Length>() * f64::from(m.kind.each()), all().count() as u32 * m.kind.each())
    };
    design.computed_length(
        &sizes::CUT_LENGTH,
        made.iter().map(|m| outlines(m).0).sum(),
        "outlines and holes of all plates",
    );
    design.computed(&sizes::PIERCES, Value::Count(made.iter().map(|m| outlines(m).1).sum()), "one for each outline");
    let flat = |m: &Made| {
        let e = m.flat.extents();
        (e.width().max(e.height()).rounded(), e.width().min(e.height()).rounded())
    };
    let stacked = made.iter().filter(|m| m.kind != super::Kind::Wedge);
    let layers: u32 = stacked.clone().map(|m| m.kind.each()).sum();
    let widest =
        |pick: fn((Length, Length)) -> Length| stacked.clone().map(|m| pick(flat(m))).fold(Length::ZERO, Length::max);
    let high = s.thick.most * f64::from(layers);
    design.computed_length(
        &sizes::PACKED_HEIGHT,
        high,
        "five plates of the greatest thickness; wedges go into an opening",
    );
    design.computed_length(&sizes::PACKED_LENGTH, widest(|(long, _)| long), "the longest plate");
    design.computed_length(&sizes::PACKED_WIDTH, widest(|(_, wide)| wide), "the widest plate");
    let row = |m: &Made| {
        let (long, wide) = flat(m);
        let mass: Mass = s.common.material.density * m.flat.volume();
        vec![
            Value::Count(m.kind.number()),
            Value::Text(m.kind.words().into()),
            Value::Count(m.kind.each()),
            Value::Count(m.kind.each() * s.common.header.count),
            Value::Length(long),
            Value::Length(wide),
            Value::Mass(mass),
        ]
    };
    design.tabulate(Table::new(
        sizes::PLATES_TABLE,
        "Plates, by the number that is engraved on them",
        &["number", "plate", "in one stand", "in all", "long", "wide", "mass of one"],
        made.iter().map(row),
    ));
}
