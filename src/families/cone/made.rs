//! A cone as it was made: what the readings say of base and half-angle together, and what that asks of the next cut.

use crate::description::Fields;
use crate::families::Workplace;
use crate::formulas::cone_fit::{self, Observation, Observed};
use crate::formulas::conformity::{self, Zone};
use crate::formulas::seating::{self, Corner};
use crate::formulas::turning;
use crate::record::design::{Check, Design, Lesson, Limit, Value, Verdict};
use crate::record::key::Size;
use crate::record::reading::Reading;
use crate::record::show::{self, Say};
use crate::shop::Shop;
use crate::source::Source;
use crate::units::{Angle, Length};

use super::read::{self, Spec};
use super::{lathe, sizes};

/// A cone as it was measured: each figure with its expanded uncertainty (coverage factor 2); none where the readings do not tell.
#[derive(Clone, Debug)]
pub struct Made {
    /// Which of several.
    pub piece: u32,
    /// Base diameter.
    pub base: Option<(Length, Length)>,
    /// Half-angle.
    pub half_angle: Option<(Angle, Angle)>,
    /// Height of the tip over the base circle.
    height: Length,
    /// So many readings say so.
    readings: usize,
    /// The reading that is furthest off what all say, in standard deviations.
    worst: Option<(f64, &'static Size)>,
    /// The readings exclude each other, and which of them is wrong they do not tell.
    contradict: bool,
    /// Those of which one is wrong.
    suspects: Vec<&'static Size>,
}

/// Readings agree that lie no further off the others than so many standard deviations.
const AGREES: f64 = 3.0;

const FLANK: Check = Check {
    key: "flank_as_made",
    what: "half-angle by all readings",
    worst: Verdict::Fail,
    source: Source::Derived(
        "weighted least squares of all readings (JCGM 102:2011), held against the limits as ISO 14253-1 says",
    ),
};

const BASE: Check = Check {
    key: "base_as_made",
    what: "base diameter by all readings",
    worst: Verdict::Fail,
    source: Source::Derived(
        "weighted least squares of all readings (JCGM 102:2011), and the flank that lies inside the old one",
    ),
};

const ZERO: Check = Check {
    key: "compound_zero",
    what: "scale of the compound slide, beyond what it turns",
    worst: Verdict::Caution,
    source: Source::Derived("setting less half-angle of every test cut, weighted by their uncertainties (JCGM 100)"),
};

const AGREE: Check = Check {
    key: "readings_agree",
    what: "readings of one cone against each other",
    worst: Verdict::Caution,
    source: Source::Memory("a residual beyond three standard deviations is a wrong reading in all but 3 of 1000 cases"),
};

/// What all readings of each piece say.
pub fn made(design: &Design, s: &Spec, shop: &Shop) -> Vec<Made> {
    let count = design.header.count;
    let pieces = (1..=count).filter(|piece| {
        let of = |r: &&Reading| r.counts && r.piece == *piece;
        design.dimensions.iter().any(|d| d.readings.iter().any(|r| of(&r)))
    });
    pieces.filter_map(|piece| one(design, s, shop, piece)).collect()
}

/// The reading of a size of that piece which counts: value and standard uncertainty.
fn read_of(design: &Design, size: &Size, piece: u32) -> Option<(f64, f64)> {
    let of = |r: &&Reading| r.counts && r.piece == piece;
    design.dimension(size)?.readings.iter().find(of).map(|r| (r.value.number(), r.u.number() / 2.0))
}

/// The readings of one piece that say something of its flank, each with the size that it is of, and what is open of its foot, from
/// which several of them are taken: as a standard uncertainty.
struct Readings {
    all: Vec<(&'static Size, Observation)>,
    foot: Length,
}

impl Readings {
    fn of(design: &Design, s: &Spec, shop: &Shop, piece: u32) -> Self {
        let foot = known(design, &sizes::FOOT, piece, s.foot_height(), s.foot_limits());
        let mut own = Self { all: Vec::new(), foot: Length::mm(foot.1) };
        let mut put = |size: &'static Size, of: Observed, open: f64, by_level: f64, less: f64| {
            if let Some((read, standard)) = read_of(design, size, piece) {
                let standard = libm::hypot(standard, open);
                own.all.push((size, Observation { of, read: read - less, standard, by_level }));
            }
        };
        let ratio = turning::taper_ratio(s.half_angle);
        let height = height_over_base(design, s, piece, foot);
        put(&sizes::BASE_DIAMETER, Observed::Diameter { above: Length::ZERO }, 0.0, 0.0, 0.0);
        put(&sizes::TIP_DIAMETER, Observed::Diameter { above: height.0 }, ratio * height.1, ratio * height.2, 0.0);
        put(&sizes::HALF_ANGLE, Observed::HalfAngle, 0.0, 0.0, 0.0);
        let roller = s.check_roller.as_ref().map_or(shop.check_roller(s.common.header.unit), |r| r.value);
        // On blocks as high as the drawn foot the rollers lie where its difference puts them; without blocks at the base circle.
        let (level, by_foot) =
            if lathe::on_blocks(s, roller) { (s.foot_height() - foot.0, ratio) } else { (Length::ZERO, 0.0) };
        put(&sizes::OVER_ROLLERS, Observed::OverRollers { roller, above: level }, 0.0, by_foot, 0.0);
        if let Some(rise) = length_of(design, &sizes::ROLLER_RISE) {
            let of = Observed::OverRollers { roller, above: level + rise };
            put(&sizes::OVER_ROLLERS_RAISED, of, 0.0, by_foot, 0.0);
        }
        if let Some(ring) = &s.check_ring {
            put(&sizes::RING_HEIGHT, Observed::Ring { bore: ring.value }, 0.0, 1.0, foot.0.as_mm());
        }
        if let Some(travel) = length_of(design, &sizes::FLANK_DIAL_TRAVEL) {
            put(&sizes::FLANK_DIAL, Observed::Dial { travel }, 0.0, 0.0, 0.0);
        }
        own
    }

    fn observations(&self) -> Vec<Observation> {
        self.all.iter().map(|(_, o)| *o).collect()
    }
}

fn length_of(design: &Design, size: &Size) -> Option<Length> {
    match design.dimension(size).map(|d| &d.value) {
        Some(Value::Length(l)) => Some(*l),
        _ => None,
    }
}

/// How high the tip stands over the base circle, what is open of that by itself (as a standard uncertainty in mm), and how much higher
/// it stands for 1 mm of foot more: as it was measured, by itself or as the overall height less the foot, else as drawn.
fn height_over_base(design: &Design, s: &Spec, piece: u32, foot: (Length, f64)) -> (Length, f64, f64) {
    let overall = read_of(design, &sizes::OVERALL_HEIGHT, piece);
    match overall.filter(|_| read_of(design, &sizes::HEIGHT, piece).is_none()) {
        // The tip that stands lower for a higher foot is so much wider.
        Some((read, standard)) => (Length::mm(read) - foot.0, standard, 1.0),
        None => {
            let (height, open) = known(design, &sizes::HEIGHT, piece, s.height, s.height_limits());
            (height, open, 0.0)
        }
    }
}

fn one(design: &Design, s: &Spec, shop: &Shop, piece: u32) -> Option<Made> {
    let from = Readings::of(design, s, shop, piece);
    let observations = from.observations();
    let drawn = (s.base, s.half_angle);
    let found = cone_fit::fit(&observations, from.foot, drawn).ok()?;
    let name = |i: usize| from.all.get(i).map(|(size, _)| *size);
    let suspects = cone_fit::suspects(&observations, from.foot, drawn, AGREES);
    let worst = found.worst.and_then(|(by, i)| Some((by, name(i)?)));
    // Where one reading alone is wrong the others speak without it.
    let (speaks, readings) = match suspects.as_slice() {
        [wrong] => {
            (cone_fit::fit(&cone_fit::without(&observations, *wrong), from.foot, drawn).ok()?, observations.len() - 1)
        }
        _ => (found, observations.len()),
    };
    // What readings say that exclude each other is no ground for a cut.
    let contradict = worst.is_some_and(|(by, _)| by > AGREES) && suspects.len() != 1;
    Some(Made {
        piece,
        base: speaks.base.filter(|_| !contradict).map(|(value, u)| (value.rounded(), u * 2.0)),
        half_angle: speaks.half_angle.filter(|_| !contradict).map(|(value, u)| (value, u * 2.0)),
        height: height_over_base(
            design,
            s,
            piece,
            known(design, &sizes::FOOT, piece, s.foot_height(), s.foot_limits()),
        )
        .0,
        readings,
        worst,
        contradict,
        suspects: suspects.into_iter().filter_map(name).collect(),
    })
}

/// A size as it was measured, else as drawn; with what is open of it as a standard uncertainty in mm. What nobody measured lies
/// anywhere between its limits, evenly.
fn known(design: &Design, size: &Size, piece: u32, drawn: Length, limits: (Length, Length)) -> (Length, f64) {
    match read_of(design, size, piece) {
        Some((read, standard)) => (Length::mm(read), standard),
        None => (drawn, (limits.1 - limits.0).as_mm() / 12.0_f64.sqrt()),
    }
}

/// Says of each piece what its flank and its base ask for.
pub fn findings(design: &mut Design, fields: &Fields, place: &Workplace) {
    let Some(s) = read::read(fields, place) else { return };
    zero(design, &s);
    let all = made(design, &s, place.shop);
    for made in &all {
        // One reading alone was judged as it was read.
        if made.readings < 2 && made.half_angle.is_none() {
            continue;
        }
        agree(design, made);
        let turn = flank(design, &s, place.shop, made);
        base(design, &s, made, turn);
    }
    let figures: Vec<serde_json::Value> = all.iter().map(figures).collect();
    if !figures.is_empty() {
        design.figures.insert("as_made", figures.into());
    }
}

/// One test cut: what the scale of the slide showed, the half-angle that came of it, and the standard uncertainty of their difference.
struct TestCut {
    beyond: f64,
    standard: f64,
}

/// The test cuts of all pieces: of each cut the setting of the slide and the finest reading of the half-angle.
fn test_cuts(design: &Design) -> Vec<TestCut> {
    let of = |size: &Size| design.dimension(size).map(|d| d.readings.as_slice()).unwrap_or_default();
    // A cut lies between two readings where the later says so.
    let numbered = |all: &[Reading], piece: u32| {
        let mut cut = 0;
        let own = all.iter().filter(|r| r.piece == piece);
        own.map(|r| {
            cut += usize::from(r.after_cut);
            (cut, r.value.number(), r.u.number() / 2.0)
        })
        .collect::<Vec<_>>()
    };
    let one = |piece: u32| {
        let (set, angles) = (numbered(of(&sizes::compound_setting()), piece), numbered(of(&sizes::HALF_ANGLE), piece));
        let pair = move |(cut, shown, open): &(usize, f64, f64)| {
            let of_cut = angles.iter().filter(|(other, ..)| other == cut);
            let (_, angle, standard) = of_cut.min_by(|a, b| a.2.total_cmp(&b.2))?;
            Some(TestCut { beyond: shown - angle, standard: libm::hypot(*open, *standard) })
        };
        set.iter().filter_map(pair).collect::<Vec<_>>()
    };
    (1..=design.header.count).flat_map(one).collect()
}

/// Two test cuts tell where the scale of the compound slide counts from.
fn zero(design: &mut Design, s: &Spec) {
    let cuts = test_cuts(design);
    if cuts.len() < 2 {
        return;
    }
    let weight = |cut: &TestCut| 1.0 / (cut.standard * cut.standard);
    let all: f64 = cuts.iter().map(weight).sum();
    let mean = cuts.iter().map(|cut| cut.beyond * weight(cut)).sum::<f64>() / all;
    let apart = cuts.iter().map(|cut| (cut.beyond - mean).abs() / cut.standard).fold(0.0, f64::max);
    let say = Say(s.common.header.unit);
    // No finer than a hundredth of a degree: no scale is read nearer.
    let hundredths =
        |a: f64, up: bool| Angle::degrees(if up { (a * 100.0).ceil() } else { (a * 100.0).round() } / 100.0);
    let (by, u) = (hundredths(mean, false), hundredths(2.0 / all.sqrt(), true));
    if apart > 3.0 {
        let next = "see that slide and swivel are locked, and make two more cuts".to_string();
        let because = format!("{} test cuts do not tell one zero: {next}", cuts.len());
        let limit = Limit::AtMost(Value::Number(3.0));
        let value = Value::Number((apart * 100.0).round() / 100.0);
        design.told(&ZERO, ZERO.what.into(), Verdict::Caution, (value, limit), because, Some(next));
        return;
    }
    let because = format!(
        "{} test cuts: its scale shows {} ± {} (k = 2) more than it turns; `setdown record PART --teach` writes it into shop.toml, and every setting is told with it",
        cuts.len(),
        say.angle(by),
        say.angle(u)
    );
    design.finding(&ZERO, Verdict::Ok, Some(Value::Angle(by)), Limit::None, because);
    let keys = [sizes::compound_setting(), sizes::HALF_ANGLE.clone()];
    let days = keys.iter().filter_map(|size| design.dimension(size)).flat_map(|d| &d.readings).filter_map(|r| r.on);
    let on = days.reduce(|a, b| if b.days() > a.days() { b } else { a }).map(|day| day.to_string());
    let written = |a: Angle| format!("{} deg", show::trimmed(a.as_degrees(), 2));
    design.lessons = vec![Lesson {
        key: "compound_zero",
        value: written(by),
        u_key: "compound_zero_uncertainty",
        u: written(u),
        on_key: "compound_zero_measured_on",
        on,
        beside: Vec::new(),
    }];
}

/// A piece for programs.
fn figures(made: &Made) -> serde_json::Value {
    let round = |x: f64| (x * 1e6).round() / 1e6;
    serde_json::json!({
        "piece": made.piece,
        "readings": made.readings,
        "agree": !made.contradict,
        "base_mm": made.base.map(|(v, _)| round(v.as_mm())),
        "base_u_mm": made.base.map(|(_, u)| round(u.as_mm())),
        "half_angle_deg": made.half_angle.map(|(v, _)| round(v.as_degrees())),
        "half_angle_u_deg": made.half_angle.map(|(_, u)| round(u.as_degrees())),
    })
}

fn of_piece(design: &Design, what: &str, made: &Made) -> String {
    if design.header.count > 1 { format!("{what}, piece {}", made.piece) } else { what.to_string() }
}

/// A reading that does not go with the others.
fn agree(design: &mut Design, made: &Made) {
    let Some((by, size)) = made.worst else { return };
    let verdict = if by > AGREES { Verdict::Caution } else { Verdict::Ok };
    let label = |size: &Size| design.dimension(size).map_or_else(String::new, |d| d.label.clone());
    let names: Vec<String> = made.suspects.iter().map(|size| label(size)).collect();
    let next = (verdict > Verdict::Ok).then(|| match names.as_slice() {
        [one] => format!("measure the {one} again: it does not go with the others, which are told without it"),
        [] => "measure all of them again: no one of them left out makes the others agree; nothing is cut before".into(),
        [most @ .., last] => format!(
            "one of {} and {last} is wrong, and which the readings do not tell: measure them again; nothing is cut before, and neither base nor half-angle is told",
            most.join(", ")
        ),
    });
    let because = match &next {
        Some(next) => next.clone(),
        None => format!("{} readings; the one furthest off is that of the {}", made.readings, label(size)),
    };
    let what = of_piece(design, AGREE.what, made);
    design.told(&AGREE, what, verdict, (Value::Number(by), Limit::AtMost(Value::Number(AGREES))), because, next);
}

/// What the half-angle asks for; how far it is off where that is sure.
fn flank(design: &mut Design, s: &Spec, shop: &Shop, made: &Made) -> Option<Angle> {
    let (angle, u) = made.half_angle?;
    let l = s.half_angle_limits();
    let zone =
        conformity::zone(angle.as_degrees(), (l.lower.as_degrees(), l.upper.as_degrees()), u.as_degrees()).ok()?;
    let off = s.half_angle - angle;
    let say = Say(s.common.header.unit);
    let rim = cone_fit::at_the_rim(shop.compound_swivel, off).abs();
    let way = if off > Angle::ZERO { "further from" } else { "nearer to" };
    let degrees = |a: Angle| say.angle(a);
    let (assumed, swivel) =
        (if shop.has_written("compound_swivel") { "" } else { ", assumed" }, say.length(shop.compound_swivel));
    let turn = format!(
        "turn the compound slide by {} {way} the axis before the next cut: {} at the rim of its swivel of {swivel}{assumed}",
        degrees(off.abs()),
        say.length(rim)
    );
    let (verdict, next) = match zone {
        Zone::Acceptance => (Verdict::Ok, None),
        Zone::Rejection => (Verdict::Caution, Some(turn)),
        Zone::Uncertainty if off.abs() > u => (
            Verdict::Caution,
            Some(format!("nearer to a limit than the readings tell; {turn}, or measure over rollers at two heights")),
        ),
        Zone::Uncertainty => (
            Verdict::Caution,
            Some("nearer to a limit than the readings tell, and how far it is off they do not tell either: leave the slide as it is set and measure over rollers at two heights".into()),
        ),
    };
    let said = next.clone().unwrap_or_else(|| "the slide stays as it is set".into());
    let because = format!("{} readings make it {} ± {} (k = 2): {said}", made.readings, degrees(angle), degrees(u));
    let near =
        if angle > s.half_angle { Limit::AtMost(Value::Angle(l.upper)) } else { Limit::AtLeast(Value::Angle(l.lower)) };
    let what = of_piece(design, FLANK.what, made);
    design.told(&FLANK, what, verdict, (Value::Angle(angle), near), because, next);
    (zone == Zone::Rejection).then_some(off)
}

/// What is left to take off, or that it is too small and what that does to the seat.
fn base(design: &mut Design, s: &Spec, made: &Made, turn: Option<Angle>) {
    let Some((base, u)) = made.base else { return };
    let half_angle = made.half_angle.map_or(s.half_angle, |(a, _)| a);
    // Where the slide is turned the flank is cut anew, and what cleans up is what counts.
    let cleans = if turn.is_some() { cone_fit::cleans_up(base, half_angle, made.height, s.half_angle) } else { base };
    let (least, most) = s.base_limits();
    let bounds = (least.as_mm(), most.as_mm());
    let Ok(zone) = conformity::zone(cleans.as_mm(), bounds, u.as_mm()) else { return };
    let say = Say(s.common.header.unit);
    let left = base - s.base;
    let at = |l: Length| say.length(l);
    let with = if turn.is_some() { "with the slide set right, " } else { "" };
    let (verdict, next) = if zone == Zone::Acceptance && turn.is_none() {
        (Verdict::Ok, None)
    } else if turn.is_none() && cleans >= s.base && left <= u {
        let text = "nearer to a limit than the readings tell, and what would be to take off they do not tell either: measure with a finer instrument before anything is cut";
        (Verdict::Caution, Some(text.into()))
    } else if cleans >= s.base {
        let off = format!("{with}{} is left to take off the base diameter, {} on the radius", at(left), at(left / 2.0));
        (Verdict::Caution, Some(off))
    } else if zone != Zone::Rejection {
        let off = base - cleans;
        let (cut, cleaned) = (at(off.max(Length::ZERO)), at(cleans));
        let text = if turn.is_some() {
            format!(
                "{with}the flank cleans up when {cut} is off the base diameter, which leaves {cleaned}: within its limits, and no more"
            )
        } else {
            "take no more off: it is nearer to its least than the readings tell".into()
        };
        (Verdict::Caution, Some(text))
    } else {
        (
            Verdict::Fail,
            Some(lower_seat(s, (cleans, if turn.is_some() { s.half_angle } else { half_angle }), &at, with)),
        )
    };
    let said = next.clone().unwrap_or_else(|| "nothing is to be taken off".into());
    let because = format!("{} readings make it {} ± {} (k = 2): {said}", made.readings, at(base), at(u));
    let near = if cleans > s.base { Limit::AtMost(Value::Length(most)) } else { Limit::AtLeast(Value::Length(least)) };
    let what = of_piece(design, BASE.what, made);
    design.told(&BASE, what, verdict, (Value::Length(cleans.rounded()), near), because, next);
}

/// Heights nearer to each other than this are told as one.
const ONE_HEIGHT: Length = Length::um(10.0);

/// What a base that is too small does: with the half-angle as drawn every hole sits as much lower on it; with another a hole near the
/// base and one near the tip are moved by different ways, and the cup's own check knows its hole.
fn lower_seat(s: &Spec, (cleans, half_angle): (Length, Angle), at: &dyn Fn(Length) -> String, with: &str) -> String {
    let lower = |hole: Length| {
        let ring = [Corner::sharp(hole, Length::ZERO)];
        seating::lower_than_drawn((s.base, s.half_angle, &ring), (cleans, half_angle, &ring)).unwrap_or(Length::ZERO)
    };
    let (wide, narrow) = (lower(cleans), lower(s.tip));
    let way = |l: Length| format!("{} {}", at(l.abs()), if l < Length::ZERO { "higher" } else { "lower" });
    let short = format!("{with}it comes to {}, {} too small", at(cleans), at(s.base - cleans));
    if (wide - narrow).abs() < ONE_HEIGHT {
        return format!("{short}: a cup sits {} on it than drawn; shim it by that, or make it anew", way(wide));
    }
    format!(
        "{short}: a cup sits {} on it than drawn near its base and {} near its tip; measure the hole of the cup, whose check tells which, or make the cone anew",
        way(wide),
        way(narrow)
    )
}

/// The cone as all its pieces were made, for what is made to it: spec with the middle of the pieces, and the half-widths that hold all
/// of them with what the readings leave open. None where a piece was not measured, or is still to be cut.
pub fn finished(design: &Design, s: &Spec, shop: &Shop) -> Option<read::AsMade> {
    let all = made(design, s, shop);
    if all.len() != design.header.count as usize {
        return None;
    }
    let (least, most) = s.base_limits();
    let angle = s.half_angle_limits();
    let to_cut = |m: &Made| {
        let large = m.base.is_some_and(|(base, _)| base > most);
        let off = m.half_angle.is_some_and(|(a, u)| a + u < angle.lower || a - u > angle.upper);
        large || (off && m.base.is_some_and(|(base, _)| base > least))
    };
    if all.iter().any(|m| m.contradict || to_cut(m)) {
        return None;
    }
    let bases: Option<Vec<(Length, Length)>> = all.iter().map(|m| m.base).collect();
    let angles: Option<Vec<(Angle, Angle)>> = all.iter().map(|m| m.half_angle).collect();
    let base = bases.and_then(|all| hull(&all.iter().map(|(v, u)| (v.as_mm(), u.as_mm())).collect::<Vec<_>>()));
    let half_angle =
        angles.and_then(|all| hull(&all.iter().map(|(v, u)| (v.as_degrees(), u.as_degrees())).collect::<Vec<_>>()));
    // A foot is as high as the mean of the pieces; what is open of it stays that of its limits.
    let feet: Option<Vec<f64>> = all.iter().map(|m| read_of(design, &sizes::FOOT, m.piece).map(|(v, _)| v)).collect();
    let foot = feet.filter(|f| !f.is_empty()).map(|f| Length::mm(f.iter().sum::<f64>() / f.len() as f64).rounded());
    (base.is_some() || half_angle.is_some()).then(|| read::AsMade {
        drawn: (s.base, s.half_angle),
        foot,
        base: base.map(|(v, by)| (Length::mm(v).rounded(), Length::mm(by))),
        half_angle: half_angle.map(|(v, by)| (Angle::degrees(v), Angle::degrees(by))),
    })
}

/// Middle and half-width of what holds all values with what is open of them.
fn hull(all: &[(f64, f64)]) -> Option<(f64, f64)> {
    let least = all.iter().map(|(v, u)| v - u).reduce(f64::min)?;
    let most = all.iter().map(|(v, u)| v + u).reduce(f64::max)?;
    Some((f64::midpoint(least, most), (most - least) / 2.0))
}
