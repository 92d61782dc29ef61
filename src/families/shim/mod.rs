//! One shim of the right width, for one side or for two, and the float that it leaves.

mod chain;
mod film;
mod levers;
mod made;
mod members;
pub mod read;
mod route;
pub mod sizes;
mod slips;
mod supply;

use crate::description::Fields;
use crate::families::common;
use crate::families::common::{coated, ordered};
use crate::families::{Family, Workplace};
use crate::formulas::MechanicsError;
use crate::formulas::shims::{self, FloatTarget, ShimAnswer, ShimWarning, Side};
use crate::formulas::stack::Direction;
use crate::formulas::uncertainty::{Contribution, Measured, TWO_SIGMA, combine};
use crate::record::design::{Check, Design, Limit, Limits, Value, Verdict};
use crate::record::drawing::{Characteristic, Drawing, Frame, Side as Place, View};
use crate::record::key::Given;
use crate::record::key::Size;
use crate::record::show;
use crate::shape::{Body, Cutting, Flat, Point, ShapeError, Solid};
use crate::shop::instruments::Gauge;
use crate::source::{Confirmed, Source};
use crate::standards::materials::swelling::SWELLING_SOURCE;
use crate::standards::processes;
use crate::standards::stock;
use crate::units::{Angle, Length, LengthUnit};

use read::Spec;
use route::Route;

/// The family's record.
pub const FAMILY: Family = Family {
    name: "shim",
    about: "one spacer shim of the right width in place of a stack",
    keys: read::KEYS,
    work,
    made: made::findings,
    remedies: levers::REMEDIES,
    long: false,
    template: include_str!("template.toml"),
    companions: &[],
};

/// Metal to grind off where nothing else is said.
/// Source: common practice, no source.
const GRINDING: Length = Length::mm(0.1);

const FLOAT: Check = Check {
    key: "float",
    what: "float with the new shim, least and greatest",
    worst: Verdict::Caution,
    source: Source::Derived("gap less shim, with the shim's tolerance and the measuring uncertainty"),
};
const LOOSE: Check = Check {
    key: "loose_shims",
    what: "old shims added up one by one",
    worst: Verdict::Caution,
    source: Source::CommonPractice,
};
const TOOK_UP: Check = Check {
    key: "stack_took_up",
    what: "what the old stack took up, against the sum of its shims",
    worst: Verdict::Caution,
    source: Source::Derived("float without shims less float with them"),
};
const UNCERTAIN: Check = Check {
    key: "measuring_uncertainty",
    what: "measuring uncertainty against half the permitted float range",
    worst: Verdict::Fail,
    source: Source::Published("JCGM 100:2008 (GUM), root sum of squares, k = 2"),
};
const STOCK: Check = Check {
    key: "stock",
    what: "what it is made from, and metal to grind off",
    worst: Verdict::Caution,
    source: Source::CommonPractice,
};
const AS_IT_IS: Check = Check {
    key: "stock_as_it_is",
    what: "stock put in as thick as it is, in hand to the nearer limit of the width",
    worst: Verdict::Fail,
    source: Source::Memory("EN 10131, cold-rolled sheet to 1200 mm wide; EN 10029 A for plate"),
};
const THIN: Check =
    Check { key: "thin_shim", what: "width of the shim", worst: Verdict::Fail, source: Source::CommonPractice };
const RING: Check =
    Check { key: "ring_wall", what: "wall of the ring", worst: Verdict::Fail, source: Source::CommonPractice };

const SWOLLEN: Check = Check {
    key: "float_swollen",
    what: "float where plastics have taken up water, least and greatest",
    worst: Verdict::Fail,
    source: SWELLING_SOURCE,
};

fn work(fields: &Fields, place: &Workplace) -> Option<Design> {
    let spec = read::read(fields, place)?;
    let worked = match chain::worked(&spec) {
        Ok(worked) => worked,
        Err(error @ MechanicsError::NotNeeded(_)) => {
            let help = "leave it out, or ask for less float";
            fields.problem_at(&read::TARGET_FLOAT, error.to_string(), Some(help.into()));
            return None;
        }
        Err(error) => {
            let keys = [&read::GAP, &read::FLOAT_WITHOUT, &read::REPLACES, &members::MEMBER];
            let key = keys.into_iter().find(|k| fields.has(k)).unwrap_or(&read::TARGET_FLOAT);
            let help = slips::in_the_chain(&spec).unwrap_or_else(|| "measure again, or ask for less float".into());
            fields.problem_at(key, error.to_string(), Some(help));
            return None;
        }
    };
    let answer = &worked.answer;
    let closed = match chain::closed(&spec, answer) {
        Ok(closed) => closed,
        Err(error) => {
            fields.problem_here(error.to_string());
            return None;
        }
    };
    let mut design = Design::new(spec.common.header.clone());
    // A shim for each side of each assembly.
    design.header.count = spec.common.header.count * spec.sides.count() as u32;
    given(&mut design, &spec);
    coated::record(&mut design, &spec.common);
    let film = stack_took_up(&mut design, &spec);
    in_service(&mut design, &worked);
    results(&mut design, &spec, answer, worked.window);
    supply::instruments(&mut design, &spec, &worked);
    let at_hand = supply::at_hand(&mut design, &spec, answer, film, fields)?;
    let made = film::before(&spec, answer, fields)?;
    let sheet = from_stock(&spec, &made, fields)?;
    let route = route::choose(&spec, &made, at_hand, sheet);
    film::record(&mut design, &spec, answer, &made, matches!(route, Route::Drawer(_)));
    checks(&mut design, &spec, &worked);
    slips::tell(&mut design, &spec);
    routed(&mut design, &spec, &made, &route);
    chain::record(&mut design, &spec, &worked, &closed);
    let ladder = supply::batch(&mut design, &spec, fields)?;
    to_cutter(&mut design, &spec, &made, &route, &ladder, fields)?;
    ring(&mut design, &spec, &made, &route, &ladder).map_err(|error| fields.problem_here(error.to_string())).ok()?;
    route::operations(&mut design, &spec, &worked.answer, &made, &route);
    Some(design)
}

fn given(design: &mut Design, s: &Spec) {
    match &s.source {
        read::Source::Gap(gap) => {
            design.given_length(&read::GAP, gap);
        }
        read::Source::Members => {}
        read::Source::Replaces { shims, present_float, float_without } => {
            let sum: Length = shims.value.iter().copied().sum();
            design.computed(&sizes::REPLACES, Value::Count(shims.value.len() as u32), "as written");
            design.computed_length(&sizes::REPLACED_SUM, sum, "added one by one");
            design.length_or(
                &read::PRESENT_FLOAT,
                present_float.as_ref(),
                Length::ZERO,
                "not written: no float was felt",
            );
            if let Some(without) = float_without {
                design.given_length(&read::FLOAT_WITHOUT, without);
            }
        }
    }
    let range = s.float_range();
    let key = &read::TARGET_FLOAT;
    design.computed_length(&key.size(), (range.min + range.max) / 2.0, "as written; the middle of a range");
    let by = if s.target.value.0 < s.target.value.1 { "as written" } else { "usual tolerance of a float" };
    design.range(
        &key.size(),
        Limits {
            lower: range.min.rounded(),
            upper: range.max.rounded(),
            by: by.into(),
            confirmed: Confirmed::TwoOrMore,
        },
    );
    design.computed(&sizes::SIDES, Value::Count(s.sides.count() as u32), "as written, or one");
}

/// The float to be reached on the bench, so that it stays in its range in the cold and in the heat.
fn in_service(design: &mut Design, w: &chain::Worked) {
    if w.service.is_none() {
        return;
    }
    let middle = (w.window.min + w.window.max) / 2.0;
    design.computed_length(&sizes::BENCH_FLOAT, middle, "middle of what cold and heat leave");
    design.range(
        &sizes::BENCH_FLOAT,
        Limits {
            lower: w.window.min.rounded(),
            upper: w.window.max.rounded(),
            by: if w.holds { "range less cold and heat" } else { "as written; cold and heat leave nothing" }.into(),
            confirmed: Confirmed::TwoOrMore,
        },
    );
}

fn results(design: &mut Design, s: &Spec, a: &ShimAnswer, window: FloatTarget) {
    design.computed_length(&sizes::TOTAL, a.total, "sum + present float - target, or gap - target");
    design.computed_length(&sizes::WIDTH, a.each, "total / sides");
    let by = match &s.source {
        _ if a.warnings.contains(&ShimWarning::UncertaintyFillsTheFloat) => "as ground; the float is not assured",
        read::Source::Members => "float range less what the members leave open",
        _ => "float range less measuring uncertainty",
    };
    design.limit(
        &sizes::WIDTH,
        Limits { lower: a.lower.rounded(), upper: a.upper.rounded(), by: by.into(), confirmed: Confirmed::TwoOrMore },
    );
    if s.offset.is_some() {
        for size in &a.sizes {
            let name = match size.side {
                Side::Left => &sizes::WIDTH_LEFT,
                Side::Right => &sizes::WIDTH_RIGHT,
                Side::Only => continue,
            };
            design.computed_length(name, size.width, "(total +/- 2 x offset)/2");
            design.limit(
                name,
                Limits {
                    lower: size.lower.rounded(),
                    upper: size.upper.rounded(),
                    by: by.into(),
                    confirmed: Confirmed::TwoOrMore,
                },
            );
        }
    }
    design.computed_length(&sizes::FLOAT_MIN, a.float.min, "target - shim tolerance - U");
    design.computed_length(&sizes::FLOAT_NOMINAL, a.float.nominal, "gap - shims");
    design.range(
        &sizes::FLOAT_NOMINAL,
        Limits {
            lower: window.min.rounded(),
            upper: window.max.rounded(),
            by: "permitted float".into(),
            confirmed: Confirmed::TwoOrMore,
        },
    );
    design.computed_length(&sizes::FLOAT_MAX, a.float.max, "target + shim tolerance + U");
    let (label, formula) = match s.source {
        read::Source::Members => (
            "what the members leave open, either way",
            "sum of half tolerances + root sum of squares of readings (GUM)",
        ),
        _ => ("measuring uncertainty of the total, U", "2 x root sum of squares of every reading (GUM)"),
    };
    design.computed_length(&sizes::MEASURING_UNCERTAINTY.called(label), a.uncertainty, formula);
    design.principal(&[&sizes::WIDTH, &sizes::WIDTH_LEFT, &sizes::WIDTH_RIGHT]);
}

/// What the old stack really took up, by the float without it; gives back the film at each joint, nought where it is
/// not known.
fn stack_took_up(design: &mut Design, s: &Spec) -> Length {
    let read::Source::Replaces { shims, present_float, float_without: Some(without) } = &s.source else {
        return Length::ZERO;
    };
    let with = present_float.as_ref().map_or(Length::ZERO, |f| f.value);
    let Ok(effective) = shims::effective_stack(without.value, with) else { return Length::ZERO };
    design.computed_length(&sizes::EFFECTIVE_STACK, effective, "float without shims - float with them");
    let Ok(film) = shims::film_per_joint(effective, &shims.value) else { return Length::ZERO };
    design.computed_length(&sizes::FILM, film, "(stack - sum of widths)/(joints)");
    film.max(Length::ZERO)
}

/// Nearest stock and what to grind off it. `None` when a problem was noted.
fn from_stock(s: &Spec, a: &ShimAnswer, fields: &Fields) -> Option<Option<shims::StockChoice>> {
    let allowance = s.grinding.as_ref().map_or(GRINDING, |g| g.value);
    let mut list: Vec<Length> =
        s.stock.as_ref().map_or_else(|| usual_stock(s.common.header.unit), |own| own.value.clone());
    if s.common.material.hardened {
        // It warps in hardening: none is used as thick as it came.
        list.retain(|thick| *thick >= a.each + allowance);
        if list.is_empty() {
            return Some(None);
        }
    }
    let tolerance = ((a.upper - a.lower) / 2.0).max(Length::ZERO);
    shims::from_stock(&list, a.each, tolerance, allowance)
        .map_err(|error| fields.problem_at(&read::STOCK, error.to_string(), None))
        .ok()
}

/// What the cutter gets: rings in the sheet that is chosen, those of a ladder each in the sheet for its width. `None` when a
/// problem was noted.
fn to_cutter(
    design: &mut Design,
    s: &Spec,
    made: &ShimAnswer,
    route: &Route,
    ladder: &[(Length, u32)],
    fields: &Fields,
) -> Option<()> {
    let Route::Sheet(choice) = route else { return Some(()) };
    if s.ring.is_none() {
        return Some(());
    }
    if ladder.is_empty() {
        let count = design.header.count;
        ordered::plate(design, &s.common, choice.stock, count);
    }
    for (width, count) in ladder {
        let each = *width - film::both_faces(s);
        let (lower, upper) = (each - chain::GROUND, each + chain::GROUND);
        let rung = ShimAnswer { each, lower, upper, ..made.clone() };
        if let Some(choice) = from_stock(s, &rung, fields)? {
            ordered::plate(design, &s.common, choice.stock, *count);
        }
    }
    Some(())
}

/// Records and judges the way in which it is made.
fn routed(design: &mut Design, s: &Spec, a: &ShimAnswer, route: &Route) {
    let parallel = design.computed_length(
        &sizes::PARALLEL,
        route::parallel(a),
        "0.01 mm (0.0004 in), or half of the width's tolerance; common practice, no source",
    );
    let limits =
        Limits { lower: Length::ZERO, upper: parallel, by: "common practice".into(), confirmed: Confirmed::Memory };
    design.range(&sizes::PARALLEL, limits);
    match route {
        Route::Drawer(_) => {}
        Route::Printed => {
            let because =
                "a print creeps under the pull of a bolt: with it the float is tried, the shim that stays is metal";
            design.finding(&STOCK, Verdict::Ok, None, None, because);
        }
        Route::Sheet(choice) => {
            design.length_or(&read::GRINDING, s.grinding.as_ref(), GRINDING, "usual grinding allowance");
            let formula = "thinnest that fits as it is or leaves the grinding allowance";
            design.computed_length(&sizes::STOCK_THICKNESS, choice.stock, formula);
            let off = design.computed_length(&sizes::GRIND_OFF, choice.grind_off, "stock - width");
            if off > Length::ZERO {
                let because = "nearest stock that leaves enough to grind";
                design.finding(&STOCK, Verdict::Ok, Some(Value::Length(off)), None, because);
            } else {
                as_it_is(design, s, choice.stock);
            }
        }
        Route::Bar { ground, because } => {
            let after = if *ground { "faced, and ground to width" } else { "faced to width" };
            design.finding(&STOCK, Verdict::Ok, None, None, format!("{because}: it is made from bar, {after}"));
        }
    }
}

/// Judges stock that is put in as thick as it is: what it has in hand to the limits of the width against what it is rolled to.
fn as_it_is(design: &mut Design, s: &Spec, stock: Length) {
    let Some(limits) = design.dimension(route::as_measured(design)).and_then(|d| d.limits.clone()) else { return };
    let in_hand = (stock - limits.lower).min(limits.upper - stock).rounded();
    let rolled = stock::sheet_limits(stock).unwrap_or(Length::ZERO);
    let both = |l: Length| show::length_both(l, s.common.header.unit);
    let because = if in_hand < rolled {
        format!(
            "it goes in as thick as it is, with so much in hand, and sheet of {} is rolled to ± {}: measure it before it is cut, or leave it out of `stock` so that a thicker one is ground",
            both(stock),
            both(rolled)
        )
    } else {
        "it goes in as thick as it is, and what it has in hand covers how it is rolled: measure it before it is cut"
            .into()
    };
    design.at_least(
        &AS_IT_IS,
        Value::Length(in_hand),
        Value::Length(Length::ZERO),
        Some(Value::Length(rolled)),
        because,
    );
}

/// Plan and section of the ring.
fn drawing(flat: &Flat, width: &Size, bore: Length, outside: Length, thick: Length) -> Drawing {
    let across = |d: Length, z: Length| (Point::new(d / -2.0, z), Point::new(d / 2.0, z));
    let ((a, b), (c, d)) = (across(outside, thick), across(bore, Length::ZERO));
    let section = View::through("Section", flat, Length::ZERO)
        .diameter_between(&sizes::OUTSIDE_DIAMETER, a, b, Place::Above)
        .diameter_between(&sizes::BORE, c, d, Place::Below)
        .distance(width, Point::new(outside / -2.0, Length::ZERO), Point::new(outside / -2.0, thick), Place::Left)
        .datum(Point::new((outside + bore) / 4.0, Length::ZERO), Angle::degrees(-90.0), 'A')
        .frame(
            Point::new((outside + bore) / 4.0, thick),
            Angle::degrees(90.0),
            Frame::new(Characteristic::Parallelism, &sizes::PARALLEL).to('A'),
        );
    Drawing { views: vec![section, View::plan("Plan", flat)] }
}

/// Foil, shim rings and plate as sold in that unit.
fn usual_stock(unit: LengthUnit) -> Vec<Length> {
    let rings: &[Length] = if unit == LengthUnit::Mm { stock::shim_rings() } else { &[] };
    [stock::shim_stock(unit), rings, stock::plate_thicknesses(unit)].concat()
}

/// Bore, outside and solids; one solid for every width that is made.
fn ring(
    design: &mut Design,
    s: &Spec,
    a: &ShimAnswer,
    route: &Route,
    ladder: &[(Length, u32)],
) -> Result<(), ShapeError> {
    let Some((bore, outside)) = &s.ring else { return Ok(()) };
    design.given_length(&read::BORE, bore);
    design.given_length(&read::OUTSIDE_DIAMETER, outside);
    common::general_limits(design, &s.common, &[&sizes::OUTSIDE_DIAMETER]);
    let bored = bore_limits(design, s, bore, route);
    let wall = ((outside.value - bore.value) / 2.0).rounded();
    design.at_least(
        &RING,
        Value::Length(wall),
        Value::Length(Length::mm(0.5)),
        Some(Value::Length(Length::mm(2.0))),
        "a narrow ring curls when it is ground",
    );
    let flat = |width: Length| Flat::ring(bored, outside.value, width);
    if matches!(route, Route::Sheet(_)) {
        design.cutting = Some(Cutting::of_flat(&flat(a.each)?)?);
    }
    let named = |name: String, width: Length| Ok(Solid::named(&name, Body::Flat(flat(width)?)));
    let unit = s.common.header.unit;
    if s.offset.is_some() {
        for size in &a.sizes {
            let suffix = if size.side == Side::Left { "left" } else { "right" };
            design.wants.counts.push((suffix.into(), s.common.header.count));
            design.solids.push(named(suffix.into(), size.width)?);
        }
        return Ok(());
    }
    let middle = flat(a.each)?;
    let key = if ladder.is_empty() { film::ground(design) } else { &sizes::WIDTHS };
    design.drawing = Some(drawing(&middle, key, bored, outside.value, a.each));
    if ladder.is_empty() {
        common::mass(design, &s.common.material, middle.volume(), design.header.count);
        design.solids.push(Solid::only(Body::Flat(middle)));
    }
    for (width, count) in ladder {
        let name = format!("{}-{}", show::length_number(*width, unit).replace('.', "-"), show::unit_name(unit));
        design.wants.counts.push((name.clone(), *count));
        design.solids.push(named(name, *width - film::both_faces(s))?);
    }
    Ok(())
}

/// Limits of the bore, which must pass over its shaft, and the bore as it is drawn: the middle of the limits where it is
/// cut by a laser, which holds its size either way.
fn bore_limits(design: &mut Design, s: &Spec, bore: &Given<Length>, route: &Route) -> Length {
    common::passes(design, &s.common, &sizes::BORE, common::Side::Hole, true);
    let general = design.dimension(&sizes::BORE).and_then(|d| d.limits.clone());
    let width = general.as_ref().map_or(Length::ZERO, |l| l.upper - l.lower);
    let size = bore.value.rounded();
    // A shaft that is known to be smaller leaves room below.
    let least = s.over.as_ref().map_or(size, |over| over.value.rounded().max(size - width / 2.0));
    // A film on the wall closes it again.
    let least = least + s.common.coating.as_ref().map_or(Length::ZERO, |c| c.growth * 2.0).rounded();
    let Route::Sheet(choice) = route else {
        if let Some(l) = general {
            design.limit(&sizes::BORE, Limits { lower: least, upper: least + width, ..l });
        }
        return size.max(least);
    };
    let cut = processes::cut_deviation(size, choice.stock).map_or(Length::ZERO, |d| d.value * 2.0);
    let upper = least + width.max(cut);
    let (by, confirmed) = if cut > width + Length::um(0.05) {
        ("goes over a shaft; ISO 9013 class 1".to_string(), Confirmed::One)
    } else {
        ("goes over a shaft".to_string(), general.map_or(Confirmed::One, |l| l.confirmed))
    };
    design.limit(&sizes::BORE, Limits { lower: least, upper, by, confirmed });
    let formula = "middle of the bore's limits: a cut edge differs either way";
    design.computed_length(&sizes::BORE_CUT, (least + upper) / 2.0, formula)
}

fn checks(design: &mut Design, s: &Spec, w: &chain::Worked) {
    if s.batch.is_none() {
        float(design, s, w);
    }
    if !matches!(s.source, read::Source::Members) {
        uncertainty(design, &w.answer, w.window);
    }
    if w.answer.warnings.contains(&ShimWarning::StackOfLooseShims) {
        design.finding(&LOOSE, Verdict::Caution, None, None, ShimWarning::StackOfLooseShims.text());
    } else if matches!(s.source, read::Source::Replaces { float_without: Some(_), .. }) {
        let because = "the float was measured without any shim; the old ones are not added up";
        design.finding(&LOOSE, Verdict::Ok, None, None, because);
    }
    thicker_than_its_sum(design, s);
    design.at_least(
        &THIN,
        Value::Length(w.answer.each.rounded()),
        Value::Length(Length::mm(0.05)),
        Some(Value::Length(Length::mm(0.3))),
        "a thinner shim is punched from foil rather than ground, and it creeps",
    );
    swelling(design, s, &w.answer);
    common::checks(design, &s.common);
}

/// What water makes of the float, where shims or members are of a plastic that swells.
fn swelling(design: &mut Design, s: &Spec, a: &ShimAnswer) {
    let own = s.common.material.swells(s.common.environment).unwrap_or(0.0);
    let members = s.chain.iter().flat_map(|c| c.members()).zip(&s.swells);
    let fills = members.map(|(m, share)| {
        let grows = m.middle() * *share;
        if m.direction == Direction::Adds { -grows } else { grows }
    });
    let fills: Vec<Length> = fills.chain([a.total * own]).collect();
    if fills.iter().all(|grows| *grows == Length::ZERO) {
        return;
    }
    let fills: Length = fills.into_iter().sum();
    let range = s.float_range();
    let (least, most) =
        ((a.float.min - fills.max(Length::ZERO)).rounded(), (a.float.max - fills.min(Length::ZERO)).rounded());
    let verdict = if least < Length::ZERO {
        Verdict::Fail
    } else if least < range.min - Length::um(0.05) || most > range.max + Length::um(0.05) {
        Verdict::Caution
    } else {
        Verdict::Ok
    };
    let because = format!(
        "least and greatest from dry to grown with the water of a place that is {}: a metal shim, or a plastic that takes up no water; permitted {} to {}",
        s.common.environment.name(),
        show::length(range.min.rounded(), s.common.header.unit),
        show::length(range.max.rounded(), s.common.header.unit)
    );
    design.finding(&SWOLLEN, verdict, Some(Value::Length(least)), Limit::To(Value::Length(most)), because);
}

/// The float that one shim leaves; with a ladder of sizes every assembly gets its own.
fn float(design: &mut Design, s: &Spec, w: &chain::Worked) {
    let (a, range, unit) = (&w.answer, s.float_range(), s.common.header.unit);
    let inside = a.float.min >= range.min - Length::um(0.05) && a.float.max <= range.max + Length::um(0.05);
    let (verdict, because) = if inside {
        (
            Verdict::Ok,
            "a shim made within its limits keeps the float in its range, measuring uncertainty included as a root sum of squares",
        )
    } else {
        (
            Verdict::Caution,
            "even a shim of exactly this width can leave the float outside its range: know the gap better",
        )
    };
    design.finding(
        &FLOAT,
        verdict,
        Some(Value::Length(a.float.min.rounded())),
        Limit::To(Value::Length(a.float.max.rounded())),
        format!(
            "{because}; permitted {} to {}",
            show::length(range.min.rounded(), unit),
            show::length(range.max.rounded(), unit)
        ),
    );
}

/// The most that film, burr and curl take up at a joint, before a reading is doubted. Source: common practice, no source.
const JOINT: Length = Length::mm(0.05);

/// What the stack took up by the difference of the floats, against the widths added up.
fn thicker_than_its_sum(design: &mut Design, s: &Spec) {
    let read::Source::Replaces { shims, .. } = &s.source else { return };
    let Some(Value::Length(took)) = design.dimension(&sizes::EFFECTIVE_STACK).map(|d| d.value.clone()) else { return };
    let sum = shims.value.iter().copied().sum::<Length>().rounded();
    // Two floats and every shim were read; the difference is no better known than all of them together.
    let read = |with: &Gauge| Contribution::of(1.0, &Measured::with_expanded(Length::ZERO, with.length()));
    let mut budget = vec![read(&s.shim_instrument); shims.value.len()];
    budget.extend([read(&s.float_instrument); 2]);
    let Ok(doubt) = combine(&budget).and_then(|all| all.expanded(TWO_SIGMA)) else { return };
    let (verdict, because) = if took < sum - doubt {
        (Verdict::Caution, "a stack cannot take up less than its shims: measure the floats and the shims again")
    } else if took > sum + doubt + JOINT * shims.value.len() as f64 {
        (
            Verdict::Caution,
            "film and burr take up a few micrometres at each joint, not this much: measure the floats and the shims again, pressed together",
        )
    } else {
        (Verdict::Ok, "what the stack took up is the difference of the floats, not the sum of the shims")
    };
    design.finding(&TOOK_UP, verdict, Some(Value::Length(took)), Some(Value::Length(sum)), because);
}

/// The readings against the float that is asked for.
fn uncertainty(design: &mut Design, a: &ShimAnswer, range: FloatTarget) {
    let half = ((range.max - range.min) / 2.0).rounded();
    let wanted = (half / 2.0).rounded();
    let because = if a.warnings.contains(&ShimWarning::UncertaintyFillsTheFloat) {
        ShimWarning::UncertaintyFillsTheFloat.text()
    } else {
        "what the instruments leave open is taken off the shim's tolerance"
    };
    let verdict = if a.uncertainty >= half {
        Verdict::Fail
    } else if a.uncertainty > wanted {
        Verdict::Caution
    } else {
        Verdict::Ok
    };
    design.finding(
        &UNCERTAIN,
        verdict,
        Some(Value::Length(a.uncertainty.rounded())),
        Limit::AtMost(Value::Length(if verdict == Verdict::Caution { wanted } else { half })),
        because,
    );
}
