//! The float as the end of a chain: its members with their shares, the spread of the float by three methods, and what
//! cold and heat make of it.

use serde_json::json;

use crate::formulas::shims::{FloatTarget, ShimAnswer, ShimSize, Side, THINNEST, shim_width};
use crate::formulas::stack::{Bin, Chain, Direction, Distribution, Member, Simulated, Size, Trials, simulate};
use crate::formulas::uncertainty::TWO_SIGMA;
use crate::formulas::{MechanicsError, Range};
use crate::record::design::{Check, Design, Limit, Limits, Table, Value, Verdict};
use crate::record::drawing::{ChainLink, Picture};
use crate::record::show;
use crate::source::{Confirmed, Source};
use crate::units::{Length, Temperature};

use super::read::{self, Spec};
use super::sizes;

/// Share outside ±3 standard deviations of a normal float.
const RARE: f64 = 0.0027;
/// Share that the tolerance of the shim leaves outside at most: it makes room for the measuring uncertainty with k = 2,
/// which covers 95.45 % of readings (JCGM 100:2008, table G.2).
const BEYOND_U: f64 = 1.0 - TWO_SIGMA;
/// Tolerance to which a shim is ground, either way. Source: common practice, no source.
pub const GROUND: Length = Length::mm(0.01);
/// Bars of the picture.
const BARS: usize = 40;

const DRAWS: Check = Check {
    key: "float_draws",
    what: "assemblies drawn at random whose float falls outside the range",
    worst: Verdict::Caution,
    source: Source::Memory("JCGM 101:2008, propagation of distributions by Monte Carlo"),
};
const OPEN: Check = Check {
    key: "members_left_open",
    what: "what the members leave open at worst, against half the permitted float range",
    worst: Verdict::Caution,
    source: Source::Derived("sum of half tolerances and root sum of squares of readings"),
};
const AGREES: Check = Check {
    key: "chain_agrees",
    what: "measured gap against the chain of sizes",
    worst: Verdict::Caution,
    source: Source::Derived("worst case of the members and the measuring uncertainty of the gap"),
};
const SERVICE: Check = Check {
    key: "float_in_service",
    what: "float over the temperatures of service, least and greatest",
    worst: Verdict::Fail,
    source: Source::Derived("linear expansion of every member from 20 °C, the reference temperature of ISO 1"),
};

/// The shim worked out, with the float that it is to leave on the bench.
pub struct Worked {
    /// Width and tolerance.
    pub answer: ShimAnswer,
    /// Float wanted at 20 °C: the range as written, less what cold and heat take where that leaves any.
    pub window: FloatTarget,
    /// What cold and heat do, where the temperatures and the materials are known.
    pub service: Option<Service>,
    /// A shim holds the range at every temperature.
    pub holds: bool,
}

/// Change of the float from 20 °C, where the machine is put together.
#[derive(Clone, Copy)]
pub struct Service {
    /// Coldest, and the change there.
    cold: (Temperature, Length),
    /// Warmest, and the change there.
    warm: (Temperature, Length),
}

impl Service {
    /// By how much the float shrinks at most (negative or nought) and grows at most.
    fn change(&self) -> Range<Length> {
        let (cold, warm) = (self.cold.1, self.warm.1);
        Range { min: cold.min(warm).min(Length::ZERO), max: cold.max(warm).max(Length::ZERO) }
    }
}

/// Width and tolerance of the shim. Where temperatures are known, the range is narrowed beforehand by what the float
/// changes: least + |most it shrinks|, greatest - most it grows.
///
/// # Errors
/// No shim fits, or the numbers are impossible.
pub fn worked(s: &Spec) -> Result<Worked, MechanicsError> {
    let mut question = s.question();
    let range = question.target;
    let answer = shim_width(&question).map(as_ground);
    // Without any shim the float may be right on the bench, and wrong in the cold.
    let sizes = answer.as_ref().map_or(&[][..], |a| &a.sizes);
    let Some(service) = service(s, sizes).transpose()? else {
        return Ok(Worked { answer: answer?, window: range, service: None, holds: true });
    };
    let change = service.change();
    let window = FloatTarget { min: range.min - change.min, max: range.max - change.max };
    if window.min > window.max {
        return Ok(Worked { answer: answer?, window: range, service: Some(service), holds: false });
    }
    question.target = window;
    Ok(Worked { answer: as_ground(shim_width(&question)?), window, service: Some(service), holds: true })
}

/// Where nothing is left for the shim, what a shim can be ground to all the same; the float then leaves its range.
fn as_ground(mut a: ShimAnswer) -> ShimAnswer {
    if a.upper > a.lower {
        return a;
    }
    (a.lower, a.upper) = ((a.each - GROUND).max(THINNEST), a.each + GROUND);
    for size in &mut a.sizes {
        (size.lower, size.upper) = ((size.width - GROUND).max(THINNEST), size.width + GROUND);
    }
    let all = GROUND * a.sizes.len() as f64;
    (a.float.min, a.float.max) = (a.float.min - all, a.float.max + all);
    a
}

/// The change at both temperatures. The shims are those of the range as written: narrowing it alters the change by
/// less than a thousandth of itself.
fn service(s: &Spec, sizes: &[ShimSize]) -> Option<Result<Service, MechanicsError>> {
    let (coldest, warmest) = s.temperatures?;
    let all = s.chain.as_ref()?.members().iter().cloned().chain(new_shims(s, sizes)).collect();
    Some(Chain::new(all).and_then(|chain| {
        let at = |t: Temperature| Ok((t, chain.change_at(t)?));
        Ok(Service { cold: at(coldest)?, warm: at(warmest)? })
    }))
}

/// The chain with the new shims in, which closes in the float.
///
/// # Errors
/// The chain does not close, or a member is impossible.
pub fn closed(s: &Spec, a: &ShimAnswer) -> Result<Chain, MechanicsError> {
    let mut members = s.gap_members();
    members.extend(new_shims(s, &a.sizes));
    Chain::new(members)
}

fn new_shims<'a>(s: &'a Spec, sizes: &'a [ShimSize]) -> impl Iterator<Item = Member> + 'a {
    sizes.iter().map(|size| Member {
        name: match size.side {
            Side::Only => "new shim",
            Side::Left => "new left shim",
            Side::Right => "new right shim",
        }
        .into(),
        direction: Direction::Subtracts,
        size: Size::Toleranced {
            nominal: size.width,
            lower: size.lower - size.width,
            upper: size.upper - size.width,
            distribution: Distribution::Uniform,
        },
        expansion: Some(s.common.material.elastic.expansion),
    })
}

/// Records the chain: its gap, the table of members, the spread of the float, its pictures and findings.
pub fn record(design: &mut Design, s: &Spec, w: &Worked, chain: &Chain) {
    gap_of_members(design, s, w);
    members_table(design, s, chain);
    spread(design, s, chain, w.window);
    picture(design, s, &w.answer, chain);
    in_service(design, s, w);
}

/// The gap that the written members make, beside the measured one where there is one.
fn gap_of_members(design: &mut Design, s: &Spec, w: &Worked) {
    let (Some(chain), a) = (&s.chain, &w.answer) else { return };
    let worst = chain.worst_case();
    design.computed_length(
        &sizes::CHAIN_GAP,
        chain.middle(),
        "sum of what adds - sum of what takes, each in the middle of its limits",
    );
    let limits = Limits {
        lower: worst.min.rounded(),
        upper: worst.max.rounded(),
        by: "worst case of the members".into(),
        confirmed: Confirmed::TwoOrMore,
    };
    design.range(&sizes::CHAIN_GAP, limits);
    let half = ((w.window.max - w.window.min) / 2.0).rounded();
    if matches!(s.source, read::Source::Members) {
        let open = chain.left_open().rounded();
        let within = open < half || s.batch.is_some();
        let because = if s.batch.is_some() {
            "the ladder of sizes takes it up: every assembly is measured and gets the shim of its row"
        } else if within {
            "the shim of this width serves every assembly whose parts are inside their limits"
        } else {
            "made to the drawing alone, some assemblies would be outside: put the parts together without shims, measure \
             the gap, and make the shim to that"
        };
        let verdict = if within { Verdict::Ok } else { Verdict::Caution };
        let half = Value::Length(half);
        let limit = if s.batch.is_some() { Limit::Against(half) } else { Limit::AtMost(half) };
        design.finding(&OPEN, verdict, Some(Value::Length(open)), limit, because);
        return;
    }
    let off = (a.gap - chain.middle()).abs().rounded();
    let room = (chain.left_open() + a.uncertainty).rounded();
    let (verdict, because) = if off <= room {
        (Verdict::Ok, "the gap as measured is what the sizes of the parts make of it")
    } else {
        (
            Verdict::Caution,
            "the gap as measured is not what the sizes make of it: a part is not to its drawing, is not home, or was \
             measured wrongly; find out which before a shim is made",
        )
    };
    design.finding(&AGREES, verdict, Some(Value::Length(off)), Limit::AtMost(Value::Length(room)), because);
}

fn members_table(design: &mut Design, s: &Spec, chain: &Chain) {
    let shares = chain.shares();
    let known = |i: usize, m: &Member| match (&s.source, m.size) {
        (read::Source::Members, _) if i < s.known.len() => s.known.get(i).cloned().unwrap_or_default(),
        (read::Source::Replaces { float_without: None, .. }, Size::Measured(_)) if !m.name.starts_with("present") => {
            s.shim_instrument.name.clone()
        }
        (_, Size::Measured(_)) => s.float_instrument.name.clone(),
        (_, Size::Toleranced { .. }) => "to be made".into(),
    };
    let row = |(i, (m, share)): (usize, (&Member, &crate::formulas::stack::Share))| {
        vec![
            Value::Text(m.name.clone()),
            Value::Text(if m.direction == Direction::Adds { "adds" } else { "takes" }.into()),
            Value::Length(m.middle().rounded()),
            Value::Length(m.half_width().rounded()),
            Value::Text(known(i, m)),
            Value::Share(share.of_worst_case),
            Value::Share(share.of_variance),
        ]
    };
    design.comes_from(&sizes::FLOAT_NOMINAL, shares.iter().map(|s| (s.name.clone(), s.of_variance)));
    let rows = chain.members().iter().zip(&shares).enumerate().map(row);
    design.tables.push(Table::new(
        sizes::MEMBERS_TABLE,
        "The chain that closes in the float (± at worst; U, k = 2, for what was measured)",
        &["member", "a larger one", "middle size", "either way", "known by", "of worst case", "of variance"],
        rows,
    ));
}

/// Worst case, root sum of squares and a million draws.
fn spread(design: &mut Design, s: &Spec, chain: &Chain, range: FloatTarget) {
    let (worst, rss) = (chain.worst_case(), chain.root_sum_square());
    let row = |how: &str, least: Length, greatest: Length| {
        vec![Value::Text(how.into()), Value::Length(least.rounded()), Value::Length(greatest.rounded())]
    };
    let mut rows = vec![row("worst case", worst.min, worst.max), row("root sum of squares", rss.min, rss.max)];
    let drawn = simulate(chain, Range { min: range.min, max: range.max }, Trials::default()).ok();
    let ends =
        drawn.as_ref().and_then(|d| Some((d.percentile(RARE / 2.0).ok()?, d.percentile(1.0 - RARE / 2.0).ok()?)));
    if let Some((low, high)) = ends {
        rows.push(row("99.73 % of a million draws, seed 1", low, high));
    }
    design.tables.push(Table::new(
        sizes::FLOAT_SPREAD_TABLE,
        "Float that the chain leaves",
        &["by", "least", "greatest"],
        rows,
    ));
    let Some(drawn) = drawn else { return };
    let outside = drawn.share_below + drawn.share_above;
    let verdict = if outside > BEYOND_U { Verdict::Caution } else { Verdict::Ok };
    let because = if verdict == Verdict::Ok {
        "members drawn between their limits, readings by their uncertainty, the shims between theirs; the shim's \
         tolerance makes room for the uncertainty with k = 2, which covers 95.45 %"
    } else {
        "more assemblies than an uncertainty with k = 2 allows end outside the range: know the gap better, or allow more \
         float"
    };
    // With a ladder of sizes no assembly gets this one shim blindly.
    if s.batch.is_none() {
        design.finding(&DRAWS, verdict, Some(Value::Share(outside)), Limit::AtMost(Value::Share(BEYOND_U)), because);
    }
    histogram(design, s, &drawn, range);
    figures(design, chain, &drawn);
}

fn histogram(design: &mut Design, s: &Spec, drawn: &Simulated, range: FloatTarget) {
    let unit = s.common.header.unit;
    let bins = drawn.histogram(BARS);
    let (Some(first), Some(last)) = (bins.first(), bins.last()) else { return };
    let step = first.to - first.from;
    let number = |l: Length| show::length_number(l.rounded(), unit);
    let place = |limit: Length| (limit - first.from) / step;
    let limit = |what: &str, at: Length| {
        let inside = (0.0..=bins.len() as f64).contains(&place(at));
        inside.then(|| (place(at), format!("{what} {}", number(at))))
    };
    let edges = bins.iter().map(|b: &Bin| number(b.from)).chain([number(last.to)]).collect();
    design.pictures.push(Picture::Bars {
        title: format!("Float of a million assemblies drawn at random, {}", show::unit_name(unit)),
        edges,
        counts: bins.iter().map(|b| u32::try_from(b.count).unwrap_or(u32::MAX)).collect(),
        limits: [limit("least permitted", range.min), limit("most permitted", range.max)]
            .into_iter()
            .flatten()
            .collect(),
    });
}

fn figures(design: &mut Design, chain: &Chain, drawn: &Simulated) {
    let mm = |l: Length| l.rounded().as_mm();
    let ends = |r: Range<Length>| json!({ "min": mm(r.min), "max": mm(r.max) });
    let percentile = |p: f64| drawn.percentile(p).map(mm).ok();
    design.figures.insert(
        "chain",
        json!({
            "middle_mm": mm(chain.middle()),
            "worst_mm": ends(chain.worst_case()),
            "root_sum_square_mm": ends(chain.root_sum_square()),
            "draws": drawn.count,
            "standard_deviation_mm": mm(drawn.standard_deviation),
            "percentiles_mm": {
                "0.135": percentile(0.00135), "2.275": percentile(0.02275), "50": percentile(0.5),
                "97.725": percentile(0.97725), "99.865": percentile(0.99865),
            },
            "share_below": drawn.share_below,
            "share_above": drawn.share_above,
        }),
    );
}

fn picture(design: &mut Design, s: &Spec, a: &ShimAnswer, chain: &Chain) {
    let unit = s.common.header.unit;
    let either_way = |m: &Member| show::length_number(m.half_width().rounded(), unit);
    let link = |m: &Member| ChainLink {
        name: m.name.clone(),
        length: m.direction.sign() * m.middle(),
        text: format!("{} ±{}", show::length_number(m.middle().rounded(), unit), either_way(m)),
    };
    let float = format!(
        "{} ({} to {})",
        show::length_number(a.float.nominal.rounded(), unit),
        show::length_number(a.float.min.rounded(), unit),
        show::length_number(a.float.max.rounded(), unit)
    );
    design.pictures.push(Picture::Chain {
        title: format!("Chain of sizes, {}: what is left at its end is the float", show::unit_name(unit)),
        links: chain.members().iter().map(link).collect(),
        gap: ChainLink { name: "float".into(), length: -a.float.nominal, text: float },
    });
}

/// The float at the coldest, at 20 °C and at the warmest.
fn in_service(design: &mut Design, s: &Spec, w: &Worked) {
    let (Some(service), a) = (&w.service, &w.answer) else { return };
    let row = |(at, change): (Temperature, Length)| {
        let by = |l: Length| Value::Length((l + change).rounded());
        vec![
            Value::Temperature(at),
            Value::Length(change.rounded()),
            by(a.float.min),
            by(a.float.nominal),
            by(a.float.max),
        ]
    };
    design.tables.push(Table::new(
        sizes::FLOAT_BY_TEMPERATURE_TABLE,
        "Float by temperature, all parts equally warm",
        &["at", "change", "least", "as made", "greatest"],
        [service.cold, (Temperature::REFERENCE, Length::ZERO), service.warm].map(row),
    ));
    judge_service(design, s, w, service.change());
}

fn judge_service(design: &mut Design, s: &Spec, w: &Worked, change: Range<Length>) {
    let range = s.float_range();
    let (least, greatest) = (w.answer.float.min + change.min, w.answer.float.max + change.max);
    let slack = Length::um(0.15);
    let (verdict, because) = if least < Length::ZERO - slack {
        (Verdict::Fail, format!("the float is used up and the parts bind. {}", remedy(s, w, change)))
    } else if least < range.min - slack || greatest > range.max + slack {
        (Verdict::Caution, format!("outside the permitted range at one end. {}", remedy(s, w, change)))
    } else {
        (Verdict::Ok, "what cold and heat change was taken off the range before the shim was chosen".into())
    };
    let [least, greatest] = [least, greatest].map(|l| Value::Length(l.rounded()));
    design.finding(&SERVICE, verdict, Some(least), Limit::To(greatest), because);
}

fn remedy(s: &Spec, w: &Worked, change: Range<Length>) -> String {
    let (range, unit) = (s.float_range(), s.common.header.unit);
    let text = |l: Length| show::length(l.rounded(), unit);
    let (taken, whole) = (text(change.max - change.min), text(range.max - range.min));
    if w.holds {
        return format!(
            "Cold and heat take {taken} of a range of {whole}, and what is not known of the gap does not fit into the rest: know the gap better"
        );
    }
    format!(
        "No shim holds it: cold and heat take {taken} of a range of {whole}; allow more float, or make the members of like metals"
    )
}
