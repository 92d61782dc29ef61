//! How the shim is made, by its width and how exact it has to be: from the drawer, cut from sheet and ground, or turned
//! from bar; and the order of work that follows.

use crate::families::common::gripped::second_grip;
use crate::families::common::overhang::Chucked;
use crate::families::common::printed::{self, Print};
use crate::families::common::{self, Cut, hardening};
use crate::formulas::shims::{ShimAnswer, Side, Sides, StockChoice};
use crate::record::design::{Bar, Design};
use crate::record::key::Size;
use crate::record::show;
use crate::shop::by_unit;
use crate::standards::processes::{self, Process};
use crate::standards::stock;
use crate::units::{Length, LengthUnit};

use super::film;
use super::read::{self, Spec};
use super::sizes;

/// The thickest sheet of which rings are cut to be ground. Source: common practice, no source.
const THICKEST: Length = Length::mm(6.0);
/// The most that is ground off both faces together; more is turned or milled. Source: common practice, no source.
const MOST_GROUND: Length = Length::mm(0.5);
/// What is left on a faced width for grinding. Source: common practice, no source.
const fn left_to_grind(unit: LengthUnit) -> Length {
    by_unit(unit, 0.2, 0.008)
}

/// The way in which the shim is made.
pub enum Route {
    /// A finished one of the drawer on each side.
    Drawer(Vec<(Side, Length)>),
    /// Cut from sheet, ground where it is thicker than the width.
    Sheet(StockChoice),
    /// Printed flat, for the try-out.
    Printed,
    /// Turned from bar, and ground where facing does not hold the width.
    Bar {
        /// Facing does not hold the tolerance of the width.
        ground: bool,
        /// Why it is not cut from sheet.
        because: &'static str,
    },
}

/// Chooses the way: what is at hand first, then sheet that is cut and ground to width, else bar.
pub fn choose(s: &Spec, a: &ShimAnswer, at_hand: Option<Vec<(Side, Length)>>, sheet: Option<StockChoice>) -> Route {
    if let Some(pieces) = at_hand.filter(|_| s.batch.is_none()) {
        return Route::Drawer(pieces);
    }
    if s.common.material.printed && s.ring.is_some() {
        return Route::Printed;
    }
    let refused = match sheet {
        Some(choice) => why_not_cut(s, choice),
        None => Some("no stock in the list is thick enough"),
    };
    match (sheet, refused) {
        (Some(choice), None) => Route::Sheet(choice),
        (_, because) => {
            let faced = processes::usually(Process::Turned, a.each, a.each).map_or(Length::ZERO, |w| w.value);
            let ground = s.common.material.hardened || a.upper - a.lower < faced;
            Route::Bar { ground, because: because.unwrap_or_default() }
        }
    }
}

/// What speaks against cutting it from that sheet.
fn why_not_cut(s: &Spec, choice: StockChoice) -> Option<&'static str> {
    if choice.grind_off > MOST_GROUND {
        return Some("the nearest stock has too much to grind off");
    }
    if choice.stock > THICKEST {
        return Some("the sheet is too thick for a ring to be cut and ground");
    }
    let (bore, outside) = s.ring.as_ref()?;
    let cut = |size: Length| processes::cut_deviation(size, choice.stock).is_some();
    let burnt = !processes::can_be_cut(bore.value, choice.stock) || !cut(bore.value) || !cut(outside.value);
    burnt.then_some("a laser burns a hole that is smaller than the sheet is thick")
}

/// How far out of parallel the faces may be: 0.01 mm, or half of the width's tolerance where that is less.
/// Source: common practice, no source.
pub fn parallel(a: &ShimAnswer) -> Length {
    let half = (a.upper - a.lower) / 2.0;
    if half > Length::ZERO { half.min(Length::mm(0.01)) } else { Length::mm(0.01) }
}

/// The order of work.
pub fn operations(design: &mut Design, s: &Spec, a: &ShimAnswer, made: &ShimAnswer, route: &Route) {
    measured_first(design, s);
    match route {
        Route::Drawer(pieces) => from_drawer(design, s, pieces),
        Route::Sheet(choice) => from_sheet(design, s, *choice),
        Route::Printed => as_printed(design, s, made),
        Route::Bar { ground, because } if s.ring.is_some() => from_bar(design, s, made, *ground, because),
        Route::Bar { because, .. } => from_block(design, s, made, because),
    }
    if !matches!(route, Route::Drawer(_)) {
        coated(design, s);
    }
    put_in(design, s, a, route);
    common::at_machines(design);
}

/// The better measurement, where it has not been made.
fn measured_first(design: &mut Design, s: &Spec) {
    match s.source {
        read::Source::Replaces { float_without: None, .. } => {
            design.step("bench", "Before cutting metal: take all shims out and measure the end float without them, three readings a third of a turn apart; put it into the part file as float_without. It is the better measurement.");
        }
        read::Source::Members => {
            design.step("bench", "Put the parts together without shims, tighten, and measure the end float, three readings a third of a turn apart; put it into the part file as gap. The members then say whether it is what it should be.");
        }
        read::Source::Replaces { .. } | read::Source::Gap(_) => {}
    }
}

fn from_drawer(design: &mut Design, s: &Spec, pieces: &[(Side, Length)]) {
    let one = |(side, width): &(Side, Length)| {
        let side = match side {
            Side::Only => "",
            Side::Left => " for the left",
            Side::Right => " for the right",
        };
        format!("the shim of {}{side}", show::length_both(*width, s.common.header.unit))
    };
    let list: Vec<String> = pieces.iter().map(one).collect();
    let coated =
        s.common.coating.as_ref().map_or_else(String::new, |c| {
            format!(" Nothing is coated afterwards: one without {} is kept oiled.", c.name)
        });
    let text = format!(
        "Take {} from the drawer: nothing is cut or ground. Deburr, clean, and measure once more at four places.{coated}",
        list.join(" and ")
    );
    design.step("bench", text).measure(&sizes::WIDTH, s.shim_instrument.name.as_str());
}

fn from_sheet(design: &mut Design, s: &Spec, choice: StockChoice) {
    let size = |l: Length| show::length_both(l, s.common.header.unit);
    let mut blank = format!("sheet {} thick", size(choice.stock));
    if let Some((_, outside)) = &s.ring {
        blank = format!("{blank}, at least {} across", size(outside.value + by_unit(s.common.header.unit, 4.0, 0.16)));
    }
    design.tools.push(format!("{} x {blank}, {}", design.header.count, hardening::bought(&s.common.material)));
    if choice.grind_off <= Length::ZERO {
        let fits = common::between(design, as_measured(design));
        let text = format!(
            "Measure the sheet at several places before anything is cut: it goes in as thick as it is, so it must measure {fits}. One outside is no use here: take a thicker one, leave this out of `stock`, and it is ground."
        );
        design.step("bench", text);
    }
    let (at, cut) = if s.ring.is_some() {
        ("laser cutter", "Order the rings, cut after the DXF")
    } else {
        ("bench", "Shear or saw the blanks")
    };
    let text = if s.batch.is_some() {
        format!("{cut} from {blank}, thicker where a width asks for it; the contour is the same for every width.")
    } else {
        format!("{cut} from {blank}: {}.", each(s))
    };
    design.step(at, text);
    if s.ring.is_some() {
        let over = common::between(design, &sizes::BORE);
        let hard = common::ordered::hard_edge(&s.common.material);
        let text =
            format!("Take the burr off both edges of the bore, {over}; it must drop over what it goes on.{hard}");
        design.step("bench", text).measure(&sizes::BORE, "calliper").measure(&sizes::OUTSIDE_DIAMETER, "calliper");
    }
    let off = if choice.grind_off > Length::ZERO { Some(choice.grind_off) } else { None };
    to_width(design, s, off);
}

/// A printed ring: whole layers, rubbed down to the width.
fn as_printed(design: &mut Design, s: &Spec, a: &ShimAnswer) {
    let Some((_, outside)) = &s.ring else { return };
    let layer = s.common.printer.layer;
    let layers = (a.each / layer - 1e-9).ceil().max(1.0);
    let (across, high) = (outside.value, layer * layers);
    let print = Print { what: "ring", lies: "flat", extents: (across, across, high), tells: false };
    printed::step(design, &s.common, &print)
        .measure(&sizes::BORE, "calliper")
        .measure(&sizes::OUTSIDE_DIAMETER, "calliper");
    let size = |l: Length| show::length_both(l.rounded(), s.common.header.unit);
    let text = format!(
        "The printer lays whole layers: {} of {} are {}. Where the ring comes out thicker than its width, rub it down on abrasive paper on a flat plate, turning it between strokes.",
        show::trimmed(layers, 0),
        size(layer),
        size(high)
    );
    design.step("bench", text);
    to_width(design, s, None);
}

fn from_bar(design: &mut Design, s: &Spec, a: &ShimAnswer, ground: bool, because: &str) {
    let unit = s.common.header.unit;
    let size = |l: Length| show::length_both(l.rounded(), unit);
    let Some((bore, outside)) = &s.ring else { return };
    let bar = stock::round_to_turn(outside.value, unit);
    let out = a.each + common::turned_ends(unit);
    let (count, name) = (design.header.count, hardening::bought(&s.common.material));
    let chucked = Chucked::new(bar, out, true, unit);
    let grips = chucked.in_the_chuck();
    design.bars.push(Bar { material: name, across: Some(bar), count, each: out + grips, grip: grips, what: None });
    let cutting = s.common.machines.cutting(&s.common.material);
    let material = &s.common.material;
    let point = Cut::point(&s.common.machines, material);
    let mut pace =
        |speed, diameter, cut| common::spindle(design, "the ring", s.common.machines.turn(speed, diameter), cut);
    let roughing = pace(cutting.rough, outside.value, point);
    let finishing = pace(cutting.finish, outside.value, point);
    let drilling = pace(cutting.drill, bore.value, Cut::Drill);
    let boring = pace(cutting.finish, bore.value, point);
    let off = chucked.comes_off(design, "parting off the ring", &s.common.machines, material);
    let (over, across) = (common::between(design, &sizes::BORE), common::between(design, &sizes::OUTSIDE_DIAMETER));
    let faced = match (s.batch.is_some(), ground) {
        (true, _) => format!("{} over the width of its row", size(left_to_grind(unit))),
        (false, true) => size(a.each + left_to_grind(unit)),
        (false, false) => common::between(design, film::ground(design)),
    };
    let tool = s.common.machines.tool();
    let text = format!(
        "Not from sheet: {because}. Chuck {}. {} the outside to {across}{}, drill and bore to {over}, {} {} over the width{}. Turn round, {}; face to {faced}, cuts of at most {}; deburr. Speeds with {tool}: facing and roughing {roughing}, finishing {finishing} outside; drill {drilling}, bore {boring}.",
        chucked.how(),
        chucked.first_cut(),
        chucked.for_the_drill(),
        off.how,
        size(common::face_allowance(unit)),
        off.at,
        second_grip(a.each, outside.value, unit),
        size(common::skim(unit))
    );
    let step =
        design.step("lathe", text).measure(&sizes::BORE, "calliper").measure(&sizes::OUTSIDE_DIAMETER, "calliper");
    chucked.tools(step);
    chucked.judge(design);
    common::at_the_lathe(design);
    to_width(design, s, (ground || s.batch.is_some()).then_some(left_to_grind(unit)));
}

/// A shim without bore and outside, too thick for sheet.
fn from_block(design: &mut Design, s: &Spec, a: &ShimAnswer, because: &str) {
    let size = |l: Length| show::length_both(l.rounded(), s.common.header.unit);
    let (count, name) = (design.header.count, hardening::bought(&s.common.material));
    let left = left_to_grind(s.common.header.unit);
    // Stock is bought by halves of a millimetre at best, and has to hold what is ground off.
    let step = by_unit(s.common.header.unit, 0.5, 1.0 / 32.0);
    let stock = (a.each + left).up_to(step);
    design.tools.push(format!("{count} x {name}: bar or block, at least {} thick", size(stock)));
    // Milled by the dial: to the next twentieth or two thousandths, and never under what grinding wants.
    let dial = by_unit(s.common.header.unit, 0.05, 0.002);
    let over = size((a.each + left).up_to(dial));
    design.step(
        "bench",
        format!("Not from sheet: {because}. Saw the blanks from bar, {}; face or mill both sides to {over}.", each(s)),
    );
    to_width(design, s, Some(left));
}

/// Grinding to width, or only deburring; and the reading that proves it.
fn to_width(design: &mut Design, s: &Spec, grind_off: Option<Length>) {
    if s.common.material.hardened {
        hardening::harden(
            design,
            &s.common.material,
            &common::sizes::HARDNESS,
            "the ring, clamped between flat plates",
            None,
        );
    }
    let with = s.shim_instrument.name.as_str();
    let coats = s.common.coating.is_some();
    let proof = if coats { film::ground(design) } else { proof(design) };
    let prove = if coats { "" } else { " The reading must lie inside the limits that prove the width." };
    let ladder = ladder(design, s);
    let Some(off) = grind_off else {
        let text = format!("Flatten, deburr both edges; a burr is float.{prove}");
        design.step("bench", text).measure(proof, with).measure(&sizes::PARALLEL, "micrometer, at four places");
        return;
    };
    let parallel = design
        .dimension(&sizes::PARALLEL)
        .map_or_else(String::new, |d| show::dimension_line(d, s.common.header.unit).size);
    let step = if ladder.is_empty() {
        let off = show::length_both(off.rounded(), s.common.header.unit);
        design.step("grinder", format!("Grind or lap both faces, {off} off together, parallel within {parallel}. Deburr both edges; a burr is float.{prove}")).measure(proof, with)
    } else if coats {
        let less = show::length_both(film::both_faces(s).rounded(), s.common.header.unit);
        design.step("grinder", format!("Grind or lap both faces to the widths of this table, each less {less} for the film on both faces, so many of each, parallel within {parallel}. Deburr both edges; a burr is float. Tie a tag with the width to each.")).table(sizes::CLASSES_TABLE)
    } else {
        let step = design.step("grinder", format!("Grind or lap both faces to the widths of this table, so many of each, parallel within {parallel}. Deburr both edges; a burr is float. Mark the width on each ring.")).table(sizes::CLASSES_TABLE);
        for rung in &ladder {
            step.measure(rung, with);
        }
        step
    };
    step.measure(&sizes::PARALLEL, "micrometer, at four places");
    design.caution(
        &["grinder"],
        "A thin ring is held by a magnet or a stop, never by the fingers.",
        format!(
            "A thin ring is held for grinding {}, never by the fingers: it is snatched, or it flies.",
            common::held_for_grinding(&s.common.material)
        ),
    );
}

/// The widths of a ladder.
fn ladder(design: &Design, s: &Spec) -> Vec<Size> {
    let rungs = (1..=design.dimensions.len()).map(sizes::rung);
    rungs.take_while(|rung| s.batch.is_some() && design.dimension(rung).is_some()).collect()
}

/// What a piece must read before it is coated, or as it goes in: the width before, else what proves the width.
pub fn as_measured(design: &Design) -> &'static Size {
    if design.dimension(&sizes::WIDTH_BEFORE).is_some() { film::ground(design) } else { proof(design) }
}

/// The reading that proves the finished width.
fn proof(design: &Design) -> &'static Size {
    if design.dimension(&sizes::WIDTH_READING).is_some() { &sizes::WIDTH_READING } else { &sizes::WIDTH }
}

/// The coating, and the reading that proves the width with the film on.
fn coated(design: &mut Design, s: &Spec) {
    if s.common.coating.is_none() {
        return;
    }
    film::order(design, s);
    let (proof, ladder, with) = (proof(design), ladder(design, s), s.shim_instrument.name.as_str());
    let text = "Measure the coated width at four places: the film is part of it. The reading must lie inside the limits that prove the width.";
    let step = design.step("bench", text);
    if ladder.is_empty() {
        step.measure(proof, with);
    }
    for rung in &ladder {
        step.measure(rung, with);
    }
}

fn each(s: &Spec) -> &'static str {
    match s.sides {
        Sides::One => "one shim",
        Sides::Two => "two shims, one for each side",
    }
}

fn together(s: &Spec) -> &'static str {
    if matches!(s.sides, Sides::One) { "" } else { " together" }
}

fn put_in(design: &mut Design, s: &Spec, a: &ShimAnswer, route: &Route) {
    if s.batch.is_some() {
        design.step("bench", "Measure the gap of every assembly without shims and take the rings of its row.");
    }
    let unit = s.common.header.unit;
    let total = a.total.rounded();
    let wanted = show::length_both(total, unit);
    let put_in = match route {
        _ if s.batch.is_some() => "Put them in".to_string(),
        Route::Drawer(pieces) => {
            let sum: Length = pieces.iter().map(|(_, width)| *width).sum();
            let is = show::length_both(sum.rounded(), unit);
            let beside = (total - sum).rounded();
            let more = if beside > Length::ZERO { "more" } else { "less" };
            let float = if beside == Length::ZERO {
                String::new()
            } else {
                format!(
                    "; {wanted} would leave the middle of the target, so that the float is {} {more}",
                    show::length_both(beside.abs(), unit)
                )
            };
            format!("Put in {} from the drawer ({is}{}{float})", each(s), together(s))
        }
        _ => format!("Put in {} ({wanted}{})", each(s), together(s)),
    };
    let by = s.float_instrument.name.as_str();
    design.wants.packs(by, format!("float of the {}", design.header.name));
    design
        .step("bench", format!("{put_in}, tighten, and measure the float with the {by}: push and pull, three places."))
        .measure(&sizes::FLOAT_NOMINAL, by);
}
