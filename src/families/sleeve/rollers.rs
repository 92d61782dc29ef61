//! A sleeve under rollers: what the most loaded one does to the raceway, and what the raceway needs.

use crate::description::Fields;
use crate::families::common;
use crate::families::common::ring::read::chamfer;
use crate::formulas::hardness::Hardness;
use crate::formulas::raceway::{self, BEARING_STEEL, RacewayLoad, RollerRow, USUAL_LOAD_FACTOR};
use crate::formulas::{MechanicsError, Range};
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::key::Size;
use crate::record::show;
use crate::shop::Material;
use crate::source::Source;
use crate::units::{Length, LengthUnit};

use super::clearance;
use super::read::{self, Spec};
use super::runs_under::{END_FLOAT, LOAD, ROLLER_DIAMETER, ROLLER_LENGTH, ROLLERS, Rollers};
use super::sizes;

/// Core hardness of a case-hardened ring where nothing is said.
/// Source: rolling bearing makers' catalogues, raceways on shafts: core at least 350 HV.
const USUAL_CORE: Hardness = Hardness::Vickers(350.0);
/// End float where nothing is said. Source: common practice, no source.
const USUAL_END_FLOAT: Length = Length::mm(0.15);
/// Room beyond rollers, float and edge breaks. Source: common practice, no source.
const SPARE: Length = Length::mm(0.5);
/// Least case of any raceway. Source: from memory.
const LEAST_CASE: Length = Length::mm(0.3);

const DENTS: Check = Check {
    key: "raceway_dents",
    what: "contact pressure of the most loaded roller",
    worst: Verdict::Fail,
    source: Source::Published(
        "Johnson, Contact Mechanics, section 6.1 (first yield at 0.3 p0 = Sy/2); Sy = H/3 after Tabor",
    ),
};
const SHARE: Check = Check {
    key: "load_factor",
    what: "load factor as written, against the one of the clearance",
    worst: Verdict::Fail,
    source: Source::Memory("equilibrium of the rollers, Harris & Kotzalas; deflection after Palmgren"),
};
const HARD: Check = Check {
    key: "raceway_hardness",
    what: "hardness of the raceway, HV",
    worst: Verdict::Caution,
    source: Source::Published("needle bearing makers' catalogues, raceways on shafts: 58 to 64 HRC"),
};
const MADE_HARD: Check = Check {
    key: "hardness_made",
    what: "hardness as written, HV, against what the order of work leaves",
    worst: Verdict::Fail,
    source: Source::Derived(
        "a steel that is not hardened here stays as it is delivered, and a quarter over that at the most",
    ),
};
const SAFETY: Check = Check {
    key: "static_safety",
    what: "static safety of the rollers on this raceway",
    worst: Verdict::Fail,
    source: Source::Published(
        "ISO 76:2006, static rating; 1 for quiet, 1.5 for usual running by needle bearing catalogues",
    ),
};
const CASE: Check = Check {
    key: "case_depth",
    what: "depth of the hard case",
    worst: Verdict::Fail,
    source: Source::Derived("deep enough that the shear has fallen to the core's yield; at least 0.3 mm from memory"),
};
const OVERLAP: Check = Check {
    key: "swing_renews_grease",
    what: "swing against the one at which the tracks of neighbouring rollers overlap",
    worst: Verdict::Caution,
    source: Source::Derived("rolling without slip: 720 deg/(Z (1 + Dw/Dpw)); false brinelling: ISO 15243:2017"),
};
const CLASS: Check = Check {
    key: "raceway_class",
    what: "tolerance class of the raceway for the clearance wanted",
    worst: Verdict::Caution,
    source: Source::Published("needle bearing makers' catalogues, raceways without inner ring (two agree)"),
};
const RUNNING: Check = Check {
    key: "running_clearance",
    what: "least running clearance of the rollers",
    worst: Verdict::Fail,
    source: Source::Derived("circle inside the rollers less the raceway, both at their limits"),
};
const LONG: Check = Check {
    key: "raceway_length",
    what: "length of the hard raceway",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};
const JOINTS: Check = Check {
    key: "joints_clear",
    what: "distance from the end of the roller track to the nearest end of the raceway",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};
const FILLS: Check = Check {
    key: "chain_fills",
    what: "tolerance of the stacked pieces against the end float",
    worst: Verdict::Caution,
    source: Source::Derived("sum of the length tolerances of all pieces"),
};

/// The raceway among the pieces: index, start, end. Of those as wide as the sleeve, the hardest.
pub fn raceway_piece(s: &Spec) -> (Option<usize>, Length, Length) {
    let hardness = |i: usize| s.segments.get(i).and_then(|g| g.material.hardness_hv).unwrap_or(0.0);
    let widest = s.segments.iter().enumerate().filter(|(_, g)| g.outside >= s.ring.outside.value).map(|(i, _)| i);
    let best = widest.max_by(|a, b| hardness(*a).total_cmp(&hardness(*b)).then(b.cmp(a)));
    let (from, to) = best.and_then(|i| read::pieces(s).get(i).copied()).unwrap_or((Length::ZERO, s.ring.length.value));
    (best, from, to)
}

/// The worked answer, for the findings that come after all sizes are recorded.
pub struct Running {
    row: RollerRow,
    load: RacewayLoad,
    hardness: Hardness,
    /// The material whose usual hardness was taken, where none was written.
    assumed: Option<Material>,
    /// What a steel that no step hardens has as it is delivered, and its name, where a hardness is written.
    delivered: Option<(f64, String)>,
    track: (Length, Length),
    raceway: (Length, Length),
    end_float: Length,
    clearance: Option<Range<Length>>,
}

impl Running {
    /// Whether what reaches from here to there lies in the track of the rollers, wherever the end float lets it run.
    pub fn in_track(&self, (from, to): (Length, Length)) -> bool {
        to > self.track.0 - self.end_float && from < self.track.1 + self.end_float
    }
}

/// Works out and records everything under the rollers; `None` when a problem was noted.
pub fn work(design: &mut Design, s: &Spec, r: &Rollers, table: &Fields) -> Option<Running> {
    let (piece, from, to) = raceway_piece(s);
    let material = piece.and_then(|i| s.segments.get(i)).map_or(&s.ring.common.material, |g| &g.material);
    let hardness = match (&r.hardness, material.hardness_hv) {
        (Some(given), _) => given.value,
        (None, Some(hv)) => Hardness::Vickers(hv),
        (None, None) => {
            table.missing(
                &format!("the hardness of {} is not known", material.name),
                Some("measure it and write hardness = \"130 HV\""),
            );
            return None;
        }
    };
    let row = RollerRow {
        roller_diameter: r.roller_diameter.value,
        effective_length: r.roller_length.value,
        count: r.count.value,
        track: s.ring.outside.value.rounded(),
        roller: BEARING_STEEL,
        raceway: material.elastic,
    };
    record_given(design, r, hardness);
    let clearance = needle_clearance(design, s, r, table)?;
    let widest = clearance::over_temperature(design, s, r, material, clearance);
    let worked = load_factor(design, r, &row, widest).and_then(|k| row.under(r.load.value * r.shock, k, hardness));
    let load = worked.map_err(|error| table.problem_here(error.to_string())).ok()?;
    let middle = r.position.unwrap_or((from + to) / 2.0);
    let half = r.roller_length.value / 2.0;
    if r.position.is_none() {
        design.assumed(&sizes::ROLLER_POSITION, Value::Length(middle.rounded()), "in the middle of the raceway");
    }
    record_load(design, &row, &load);
    record_needs(design, r, &row, &load);
    let assumed = r.hardness.is_none().then(|| material.clone());
    let end_float = r.end_float.as_ref().map_or(USUAL_END_FLOAT, |f| f.value);
    Some(Running {
        row,
        load,
        hardness,
        assumed,
        delivered: material
            .hardness_hv
            .filter(|_| r.hardness.is_some() && !material.hardened)
            .map(|hv| (hv, material.name.clone())),
        track: (middle - half, middle + half),
        raceway: (from, to),
        end_float,
        clearance,
    })
}

fn record_given(design: &mut Design, r: &Rollers, hardness: Hardness) {
    design.given_length(&ROLLER_DIAMETER, &r.roller_diameter);
    design.given_length(&ROLLER_LENGTH, &r.roller_length);
    design.given(&ROLLERS, &r.count, Value::Count);
    design.given(&LOAD, &r.load, Value::Force);
    let motion = if r.swing.is_some() { "swings" } else { "turns" };
    design.computed(&sizes::MOTION, Value::Text(motion.into()), "as written, or by the swing");
    design.length_or(&END_FLOAT, r.end_float.as_ref(), USUAL_END_FLOAT, "usual end float of a pivot");
    design.computed(&sizes::SHOCK, Value::Number(r.shock), "as written, or 1 for a steady load");
    if let Ok(hv) = hardness.vickers() {
        let (size, hv) = (&sizes::RACEWAY_HARDNESS, Value::Number(hv));
        match r.hardness {
            Some(_) => design.computed(size, hv, "as measured"),
            None => design.assumed(size, hv, "the material's: nothing is measured"),
        }
    }
}

/// Load factor as written; else of the greatest running clearance, with that of the least beside it; else the usual one.
fn load_factor(
    design: &mut Design,
    r: &Rollers,
    row: &RollerRow,
    clearance: Option<Range<Length>>,
) -> Result<f64, MechanicsError> {
    let load = r.load.value * r.shock;
    // Preload is judged as a clearance that is not there; here it counts as none.
    let at = |c: Length| row.load_factor(load, c.max(Length::ZERO)).map(|(k, _)| k);
    let round = |k: f64| (k * 100.0).round() / 100.0;
    let (factor, formula) = match (r.load_factor, clearance) {
        (Some(written), _) => (written, "as written"),
        (None, Some(c)) if row.of_steel() => {
            let formula = "equilibrium of the rollers at the least running clearance, Palmgren's deflection";
            let least = Value::Number(round(at(c.min)?));
            design.computed(&sizes::LOAD_FACTOR_LEAST, least, formula);
            (round(at(c.max)?), "equilibrium of the rollers at the greatest running clearance, Palmgren's deflection")
        }
        (None, Some(_)) => (USUAL_LOAD_FACTOR, "what the clearance gives is known of steel on steel only: the usual 5"),
        (None, None) => {
            let why = "the clearance is not known: the usual 5; 4.08 without clearance";
            design.assumed(&sizes::LOAD_FACTOR, Value::Number(USUAL_LOAD_FACTOR), why);
            return Ok(USUAL_LOAD_FACTOR);
        }
    };
    design.computed(&sizes::LOAD_FACTOR, Value::Number(factor), formula);
    if let (Some(written), Some(c)) = (r.load_factor, clearance.filter(|_| row.of_steel())) {
        design.at_least(
            &SHARE,
            Value::Number(written),
            Value::Number(1.0),
            Some(Value::Number(round(at(c.max)?))),
            "the factor that the greatest running clearance gives; a smaller one as written lets the rollers look better shared than they are",
        );
    }
    Ok(factor)
}

fn record_load(design: &mut Design, row: &RollerRow, a: &RacewayLoad) {
    design.computed(&sizes::ROLLER_LOAD, Value::Force(a.roller_load), "Q = k F/Z");
    design.computed(&sizes::CONTACT_PRESSURE, Value::Stress(a.pressure), "p0 = sqrt(w E*/(pi R))");
    design.computed_length(&sizes::CONTACT_HALF_WIDTH, a.contact.half_width(), "b = sqrt(4 w R/(pi E*))");
    design.computed(&sizes::LARGEST_SHEAR, Value::Stress(a.contact.largest_shear()), "0.300 p0");
    design.computed_length(&sizes::SHEAR_DEPTH, a.contact.shear_depth(), "0.786 b");
    design.computed(&sizes::ALLOWED_PRESSURE, Value::Stress(a.allowed_pressure), "0.555 x 9.81 HV");
    design.computed(
        &sizes::DENTS_FROM,
        Value::Force(a.dents_from),
        "the load whose p0 is the allowed pressure, shared among the rollers as this one",
    );
    if let Ok(pitch) = row.static_rating() {
        design.computed(&sizes::STATIC_RATING, Value::Force(pitch), "44 (1 - Dw/Dpw) Z Lw Dw, ISO 76");
    }
}

fn record_needs(design: &mut Design, r: &Rollers, row: &RollerRow, a: &RacewayLoad) {
    if let Some(hv) = a.needed.ok().and_then(|h| h.vickers().ok()) {
        design.computed(&sizes::HARDNESS_NEEDED, Value::Number(hv), "p0/(0.555 x 9.81)");
    }
    let core = r.core.as_ref().map_or(USUAL_CORE, |c| c.value);
    if let Ok(by_shear) = row.case_depth(a.pressure, core) {
        let hv = core.vickers().map(Value::Number);
        match (&r.core, hv) {
            (Some(_), Ok(hv)) => design.computed(&sizes::CORE_HARDNESS, hv, "as written"),
            (None, Ok(hv)) => {
                design.assumed(&sizes::CORE_HARDNESS, hv, "as catalogues ask of raceways on shafts");
            }
            (_, Err(_)) => {}
        }
        let depth = by_shear.max(row.catalogue_case_depth()).max(LEAST_CASE);
        design.computed_length(
            &sizes::CASE_DEPTH_NEEDED,
            depth,
            "shear at the core's yield; 0.8 Dw (0.1 + 0.002 Dw), mm; 0.3 mm (0.012 in): the greatest",
        );
    }
    if let (Some(swing), Ok(overlap)) = (r.swing, row.overlap_swing()) {
        design.computed(&sizes::SWING, Value::Angle(swing), "as written, from end to end");
        design.computed(&sizes::OVERLAP_SWING, Value::Angle(overlap), "720 deg/(Z (1 + Dw/Dpw))");
    }
}

/// Running clearance from the class of the circle inside the rollers; outer `None` when a problem was noted.
fn needle_clearance(design: &mut Design, s: &Spec, r: &Rollers, table: &Fields) -> Option<Option<Range<Length>>> {
    let Some(class) = &r.needle_class else { return Some(None) };
    let nominal = s.ring.outside.value.rounded();
    design.computed_length(&sizes::NEEDLE_BORE, nominal, "the raceway's nominal size");
    common::class_limits(design, table, &sizes::NEEDLE_BORE, nominal, class, common::Side::Hole)?;
    let of = |size: &Size| {
        design.dimension(size).and_then(|d| d.limits.as_ref()).map(|l| Range { min: l.lower, max: l.upper })
    };
    let (Some(inscribed), Some(raceway)) = (of(&sizes::NEEDLE_BORE), of(&sizes::OUTSIDE_DIAMETER)) else {
        return Some(None);
    };
    let left = raceway::running_clearance(inscribed, raceway);
    let least = "least circle - greatest raceway, as it is in its place";
    let greatest = "greatest circle - least raceway, as it is in its place";
    design.computed_length(&sizes::RUNNING_CLEARANCE_MIN, left.min, least);
    design.computed_length(&sizes::RUNNING_CLEARANCE_MAX, left.max, greatest);
    Some(Some(left))
}

/// All findings under the rollers.
pub fn checks(design: &mut Design, s: &Spec, r: &Rollers, run: &Running) {
    dents(design, s, r, run);
    if let Some(material) = &run.assumed {
        common::doubtful_hardness(design, material);
    }
    hardness_and_case(design, r, run);
    safety(design, r, run);
    swing(design, r, run);
    class(design, s, r);
    running_clearance(design, run, s.ring.slid_on.is_some());
    lengths(design, s, run);
}

fn text(value: Value, unit: LengthUnit) -> String {
    show::value(&value, unit)
}

fn hv(value: f64) -> String {
    format!("{} HV", show::trimmed(value, 0))
}

fn dents(design: &mut Design, s: &Spec, r: &Rollers, run: &Running) {
    let unit = s.ring.common.header.unit;
    let a = &run.load;
    let from = text(Value::Force(a.dents_from), unit);
    let is = text(Value::Force(r.load.value * r.shock), unit);
    let hardness = run.hardness.vickers().map_or_else(|_| "this hardness".into(), hv);
    let dented = a.pressure > a.allowed_pressure;
    let because = if dented {
        let needed = a.needed.ok().and_then(|h| h.vickers().ok()).map_or_else(
            || "no steel is hard enough: more or longer rollers, or less load".to_string(),
            |needed| format!("it needs at least {}", hv(needed)),
        );
        let depth = run.row.dent(a.roller_load, run.hardness).map_or_else(
            |_| String::new(),
            |d| match unit {
                LengthUnit::Mm => format!(", the first time about {} µm deep", show::significant(d.depth.as_um(), 2)),
                LengthUnit::Inch => {
                    format!(", the first time about {} µin deep", show::significant(d.depth.as_inches() * 1e6, 2))
                }
            },
        );
        format!("a raceway of {hardness} begins to dent at a radial load of {from}; the load is {is}{depth}: {needed}")
    } else {
        format!("a raceway of {hardness} begins to dent at a radial load of {from}; the load is {is}")
    };
    design.at_most(&DENTS, Value::Stress(a.pressure), Value::Stress(a.allowed_pressure), None, because);
}

/// 58 HRC in Vickers, the least that catalogues ask of a raceway.
fn catalogue_hardness() -> f64 {
    Hardness::RockwellC(58.0).vickers().unwrap_or(f64::NAN)
}

/// More than a bar of a heat differs from the usual figure.
const OF_A_HEAT: f64 = 1.25;

/// A hardness that is written is one that the order of work makes, or that the steel has.
fn made_hard(design: &mut Design, run: &Running) {
    let (Some((delivered, name)), Ok(written)) = (&run.delivered, run.hardness.vickers()) else { return };
    let most = (delivered * OF_A_HEAT).round();
    let because = format!(
        "no step here hardens {name}, which comes with {} HV: name the steel hardened, so that it is hardened, measured and ground, or leave hardness out",
        show::trimmed(*delivered, 0)
    );
    design.at_most(&MADE_HARD, Value::Number(written.round()), Value::Number(most), None, because);
}

fn hardness_and_case(design: &mut Design, r: &Rollers, run: &Running) {
    made_hard(design, run);
    let (is, wanted) = (run.hardness.vickers().unwrap_or(f64::NAN), catalogue_hardness());
    let verdict = if is < wanted { Verdict::Caution } else { Verdict::Ok };
    design.finding(
        &HARD,
        verdict,
        Some(Value::Number(is.round())),
        Limit::AtLeast(Value::Number(wanted.round())),
        "58 HRC and more is what the ratings of needle bearings assume; softer raceways wear sooner even where they do not dent",
    );
    let needed = design.dimension(&sizes::CASE_DEPTH_NEEDED).map(|d| d.value.clone());
    if let (Some(case), Some(needed)) = (&r.case_depth, needed) {
        design.at_least(
            &CASE,
            Value::Length(case.value.rounded()),
            needed,
            None,
            "under a thinner case the soft core gives way and the case breaks in; add what grinding takes off",
        );
    }
}

fn safety(design: &mut Design, r: &Rollers, run: &Running) {
    let factor = raceway::static_factor_by_yield(run.hardness)
        .and_then(|a| raceway::static_factor_by_handbook(run.hardness).map(|b| a.min(b)));
    let Ok(factor) = factor else { return };
    design.computed(
        &sizes::STATIC_RATING_LEFT,
        Value::Share(factor),
        "(p_dent/4000 MPa)^2 or 2 (HV/800)^2, the smaller, at most 1",
    );
    let Ok(safety) = run.row.static_safety(r.load.value, r.shock, factor) else { return };
    design.computed(&sizes::STATIC_SAFETY, Value::Number(safety), "share left x rating/(load x shock)");
    design.at_least(
        &SAFETY,
        Value::Number(safety),
        Value::Number(1.0),
        Some(Value::Number(1.5)),
        "rating at this hardness over the load with its shocks",
    );
}

fn swing(design: &mut Design, r: &Rollers, run: &Running) {
    let (Some(swing), Ok(overlap)) = (r.swing, run.row.overlap_swing()) else { return };
    let small = swing < overlap;
    let because = if small {
        "the rollers only run over their own strips and grease is not renewed: grease often, swing it through now and then, or take more rollers or a plain bush"
    } else {
        "the tracks of neighbouring rollers overlap, so grease is carried along"
    };
    let verdict = if small { Verdict::Caution } else { Verdict::Ok };
    design.finding(&OVERLAP, verdict, Some(Value::Angle(swing)), Limit::AtLeast(Value::Angle(overlap)), because);
}

fn class(design: &mut Design, s: &Spec, r: &Rollers) {
    let Ok(wanted) = raceway::raceway_class(s.ring.outside.value, r.clearance) else { return };
    design.computed(&sizes::RACEWAY_CLASS, Value::Text(wanted.into()), "by diameter and clearance wanted");
    let is = s.ring.outside_class.as_ref().map(|c| c.value.trim().to_string());
    let same = is.as_deref() == Some(wanted);
    let because = match &is {
        Some(_) if same => "small, normal and large clearance take k5, h5 and g6 up to 65 mm".to_string(),
        Some(is) => format!("outside_class is {is}; for this clearance in a K7 housing the catalogues print {wanted}"),
        None => format!("no outside_class is written; for this clearance the catalogues print {wanted}"),
    };
    let verdict = if same { Verdict::Ok } else { Verdict::Caution };
    design.finding(&CLASS, verdict, is.map(Value::Text), Some(Value::Text(wanted.into())), because);
}

/// The raceway's class is that of the ring in its place: a press fit was taken off before, or it is ground afterwards.
fn running_clearance(design: &mut Design, run: &Running, pressed: bool) {
    let Some(left) = run.clearance else { return };
    let verdict = if left.min <= Length::ZERO { Verdict::Fail } else { Verdict::Ok };
    let because = if pressed {
        "needles without clearance run hot and cannot be put in; the raceway is inside its class after it is on its shaft"
    } else {
        "needles without clearance run hot and cannot be put in"
    };
    design.finding(
        &RUNNING,
        verdict,
        Some(Value::Length(left.min.rounded())),
        Limit::AtLeast(Value::Length(Length::ZERO)),
        because,
    );
}

fn lengths(design: &mut Design, s: &Spec, run: &Running) {
    let (from, to) = run.raceway;
    let edges = chamfer(&s.ring.chamfer) * 2.0;
    let track = run.track.1 - run.track.0;
    let wanted = (track + run.end_float * 2.0 + edges + SPARE).rounded();
    design.computed_length(
        &sizes::RACEWAY_LENGTH_NEEDED,
        wanted,
        "Lw + 2 x end float + 2 x edge break + 0.5 mm (0.02 in)",
    );
    design.at_least(
        &LONG,
        Value::Length((to - from).rounded()),
        Value::Length(track.rounded()),
        Some(Value::Length(wanted)),
        "rollers that run over the edge of the raceway dent it there and wear a step: roller length, end float both ways, edge breaks and a little more",
    );
    let clear = (run.track.0 - from).min(to - run.track.1).rounded();
    design.at_least(
        &JOINTS,
        Value::Length(clear),
        Value::Length(Length::ZERO),
        Some(Value::Length((run.end_float + edges / 2.0).rounded())),
        "a joint or an edge break in the track is rolled to pieces, and it moves by the end float",
    );
    if s.segments.is_empty() {
        return;
    }
    let tolerance: Length = (0..s.segments.len())
        .filter_map(|i| design.dimension(&sizes::segment_length(i))?.limits.as_ref().map(|l| l.upper - l.lower))
        .sum();
    design.computed_length(&sizes::CHAIN_TOLERANCE, tolerance, "sum of the pieces' tolerances");
    let verdict = if tolerance > run.end_float { Verdict::Caution } else { Verdict::Ok };
    design.finding(
        &FILLS,
        verdict,
        Some(Value::Length(tolerance.rounded())),
        Limit::AtMost(Value::Length(run.end_float.rounded())),
        "pieces at their limits must not use up the end float or leave a gap between them: tighten each, or grind the last one to the stack",
    );
}
