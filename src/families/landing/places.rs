//! Where cones and cups really are: tape surveys adjusted, put into the plan of the part file, and held against each other.

use crate::description::Fields;
use crate::families::Kept;
use crate::families::common::settled;
use crate::formulas::frame::Plan;
use crate::formulas::frame::fit;
use crate::formulas::survey::spread::shifts_in_datum;
use crate::formulas::survey::standing;
use crate::formulas::survey::{self, Adjustments, Covariance, Judged, Side, Survey, SurveyError, Verdict};
use crate::units::{Angle, Length};

use super::read::{self, Network, SeatSpec, Spec};

/// One adjusted network, in the plan of the part file.
pub struct Adjusted {
    /// The adjustment that counts: without the suspect reading, where one was left out.
    pub survey: Survey,
    /// The adjustment of all readings, where a suspect was left out.
    pub with_suspect: Option<Survey>,
    /// Why the suspect could not be left out: it is still in.
    pub still_in: Option<SurveyError>,
    /// Every point in plan.
    pub at: Vec<Plan>,
    /// All points together in plan, against the best fit of those that are seats.
    pub covariance: Covariance,
    /// By how much the places of the adjustment were turned into plan.
    yaw: Angle,
    /// The points that are seats.
    datum: Vec<usize>,
}

impl Adjusted {
    /// The adjustment that the readings are judged by.
    pub fn judged(&self) -> &Survey {
        self.with_suspect.as_ref().unwrap_or(&self.survey)
    }

    /// One sigma of every point within the pattern of the seats.
    pub fn sigmas(&self) -> impl Iterator<Item = Length> {
        (0..self.at.len()).map(|i| self.covariance.sigma(i))
    }

    /// How far every seat moves within their pattern for a millimetre more in a reading, in the order of the names.
    pub fn pulls(&self, reading: &Judged, seats: &[SeatSpec]) -> Vec<Plan> {
        let (s, c) = (self.yaw.sin(), self.yaw.cos());
        let turned = |p: &Plan| Plan { x: p.x * c - p.y * s, y: p.x * s + p.y * c };
        let moved: Vec<Plan> = reading.pull.iter().map(turned).collect();
        let moved = shifts_in_datum(&moved, &self.at, &self.datum);
        let of = |seat: &SeatSpec| self.index(&seat.name).and_then(|i| moved.get(i)).copied();
        seats.iter().map(|seat| of(seat).unwrap_or_default()).collect()
    }

    fn index(&self, name: &str) -> Option<usize> {
        self.survey.points.iter().position(|p| p.name == name)
    }
}

/// Places and mismatches of all seats.
pub struct Places {
    pub cones: Option<Adjusted>,
    pub cups: Option<Adjusted>,
    /// Cones in plan, in the order of the seats.
    pub at: Vec<Plan>,
    /// Cup minus cone.
    pub mismatch: Vec<Plan>,
    /// One sigma of cup against cone, each way.
    pub sigma: Vec<Length>,
    /// Cup against cone at all seats together.
    pub covariance: Covariance,
    /// Cones and then cups, all together.
    pub before: Covariance,
}

/// Uncertainty of a position where nothing is said.
/// Source: common practice, no source.
pub const USUAL_UNCERTAINTY: Length = Length::mm(1.0);

/// Works out places and mismatches; `None` when a problem was noted.
pub fn places(fields: &Fields, s: &Spec, kept: &Kept) -> Option<Places> {
    let cones = adjusted(fields, s, (s.cones.as_ref(), &read::CONES), kept);
    let cups = adjusted(fields, s, (s.cups.as_ref(), &read::CUPS), kept);
    let (cones, cups) = (settled(cones)?, settled(cups)?);
    let missing = |what: &str, name: &str| {
        let message = format!("the survey of the {what} does not reach the seat {name}");
        fields.problem_at(&read::SURVEY, message, Some("the surveys name the seats as the [[seat]] rows do".into()));
    };
    let of = |network: &Option<Adjusted>, what: &str| -> Option<Known> {
        let Some(n) = network else {
            let usual = s.position_uncertainty.as_ref().map_or(USUAL_UNCERTAINTY, |u| u.value);
            let at = s.seats.iter().map(|seat| seat.at).collect::<Option<Vec<_>>>()?;
            return Some(Known { covariance: Covariance::independent(&vec![usual; at.len()]), at });
        };
        let found = s.seats.iter().map(|seat| n.index(&seat.name).ok_or_else(|| missing(what, &seat.name)).ok());
        let which = found.collect::<Option<Vec<usize>>>()?;
        let at = which.iter().filter_map(|i| n.at.get(*i).copied()).collect();
        Some(Known { at, covariance: n.covariance.pick(&which) })
    };
    let cone = of(&cones, "cones")?;
    // Where nobody surveyed the cups they are where the seats say, and where those say nothing, over their cones.
    let cup = match &cups {
        Some(_) => of(&cups, "cups")?,
        None => of(&None, "cups").unwrap_or_else(|| Known { at: cone.at.clone(), covariance: cone.covariance.clone() }),
    };
    let surveyed = cones.is_some() || cups.is_some();
    let covariance = together(s, surveyed, &cone.covariance, &cup.covariance);
    let before = apart(s, surveyed, &cone.covariance, &cup.covariance);
    let at = cone.at;
    let mut mismatch = vec![Plan::default(); at.len()];
    if surveyed && at.len() >= 2 && !transferred(s) {
        mismatch =
            fit::mismatch(&at, &cup.at).map_err(|e| fields.problem_at(&read::SURVEY, e.to_string(), None)).ok()?;
    }
    for (found, seat) in mismatch.iter_mut().zip(&s.seats) {
        *found = seat.mismatch.unwrap_or(*found);
    }
    let sigma = (0..at.len()).map(|i| covariance.sigma(i)).collect();
    Some(Places { cones, cups, at, mismatch, sigma, covariance, before })
}

/// Where the seats are on one side, and how well that is known.
struct Known {
    at: Vec<Plan>,
    covariance: Covariance,
}

/// Whether the cups were tacked with the frame on its cones, so that no survey decides where they are.
pub fn transferred(s: &Spec) -> bool {
    s.fit_up.as_ref().is_some_and(read::FitUp::transferred)
}

/// Cup against cone at all seats: transfer error and weld pull where the cups were tacked in place, else both surveys.
fn together(s: &Spec, surveyed: bool, cone: &Covariance, cup: &Covariance) -> Covariance {
    let each = |sigma: Length| Covariance::independent(&vec![sigma; s.seats.len()]);
    match &s.fit_up {
        Some(f) if f.transferred() => each(f.transfer_error.value().hypot(f.weld_pull.value())),
        Some(f) => cone.plus(cup).plus(&each(f.weld_pull.value())),
        None if surveyed => cone.plus(cup),
        None => cone.clone(),
    }
}

/// Cones and cups at all seats, as `together` has them against each other.
fn apart(s: &Spec, surveyed: bool, cone: &Covariance, cup: &Covariance) -> Covariance {
    let each = |sigma: Length| Covariance::independent(&vec![sigma; s.seats.len()]);
    match &s.fit_up {
        Some(f) if f.transferred() => {
            standing::set_by(cone, &each(f.transfer_error.value().hypot(f.weld_pull.value())))
        }
        Some(f) => standing::beside(cone, &cup.plus(&each(f.weld_pull.value()))),
        None if surveyed => standing::beside(cone, cup),
        // What is stated is of the one against the other: half of the variance lies with each.
        None => {
            let halves: Vec<Length> =
                (0..s.seats.len()).map(|i| cone.sigma(i) * std::f64::consts::FRAC_1_SQRT_2).collect();
            let half = Covariance::independent(&halves);
            standing::beside(&half, &half)
        }
    }
}

fn adjusted(
    fields: &Fields,
    s: &Spec,
    (network, key): (Option<&Network>, &'static crate::record::key::Key),
    kept: &Kept,
) -> Option<Option<Adjusted>> {
    let network = network?;
    let table = fields.table(&read::SURVEY)?.table(key);
    let found = adjust(network, s, &kept.surveys).map_err(|error| {
        if let Some(table) = &table {
            table.problem_at(&read::READINGS, error.to_string(), None);
        }
    });
    Some(found.ok())
}

/// Adjusts a network; a reading that is surely wrong is left out and told. The points come out in plan.
fn adjust(network: &Network, s: &Spec, kept: &Adjustments) -> Result<Adjusted, SurveyError> {
    let tape = tape_network(network, s);
    let mut all = kept.of(&tape)?;
    let mut rest = match all.verdict {
        Verdict::Suspect { reading, .. } => Some(kept.of(&tape.without(reading, &all))),
        _ => None,
    };
    if rest.as_ref().is_some_and(|rest| rest.as_ref().is_ok_and(|rest| contradicts(rest, s))) {
        all.doubt();
        rest = None;
    }
    let (survey, with_suspect, still_in) = match rest {
        Some(Ok(better)) => (better, Some(all), None),
        Some(Err(why)) => (all, None, Some(why)),
        None => (all, None, None),
    };
    let (at, yaw) = in_plan(&survey, s);
    let is_seat = |i: &usize| survey.points.get(*i).is_some_and(|p| s.seats.iter().any(|seat| seat.name == p.name));
    let mut datum: Vec<usize> = (0..at.len()).filter(is_seat).collect();
    if datum.len() < 2 {
        datum = (0..at.len()).collect();
    }
    let covariance = survey.covariance.turned(yaw).in_datum(&at, &datum);
    Ok(Adjusted { survey, with_suspect, still_in, at, covariance, yaw, datum })
}

/// Two seats may lie nearer or farther than they are stated by this part. Source: common practice, no source.
const FAR_OFF: f64 = 0.2;

/// Whether the survey puts seats where they cannot be, by the places that their rows state: then more than one reading is
/// wrong, and what fits without the one that was left out is another figure.
fn contradicts(survey: &Survey, s: &Spec) -> bool {
    let stated = |name: &str| s.seats.iter().find(|seat| seat.name == name)?.at;
    let known: Vec<(Plan, Plan)> = survey.points.iter().filter_map(|p| Some((p.at, stated(&p.name)?))).collect();
    let off = |a: &(Plan, Plan), b: &(Plan, Plan)| {
        let (found, stated) = ((a.0 - b.0).length(), (a.1 - b.1).length());
        (found - stated).abs() > stated * FAR_OFF
    };
    known.iter().enumerate().any(|(i, a)| known.iter().take(i).any(|b| off(a, b)))
}

/// Points in the order in which the readings name them; the side of the third from `at` where the seats state it.
fn tape_network(network: &Network, s: &Spec) -> survey::Network {
    let mut points: Vec<String> = Vec::new();
    for name in network.readings.iter().flat_map(|r| [&r.from, &r.to]) {
        if !points.contains(name) {
            points.push(name.clone());
        }
    }
    let at = |name: Option<&String>| s.seats.iter().find(|seat| Some(&seat.name) == name).and_then(|seat| seat.at);
    let third = match (at(points.first()), at(points.get(1)), at(points.get(2))) {
        (Some(a), Some(b), Some(c)) => {
            let (u, v) = (b - a, c - a);
            let turn = u.x.as_mm() * v.y.as_mm() - u.y.as_mm() * v.x.as_mm();
            if turn >= 0.0 { Side::Left } else { Side::Right }
        }
        _ => network.side(),
    };
    survey::Network { points, rough: Vec::new(), readings: network.readings.clone(), third }
}

/// The surveyed points moved onto the plan that the seats state, and by how much they were turned; as they are where the
/// seats state none.
fn in_plan(survey: &Survey, s: &Spec) -> (Vec<Plan>, Angle) {
    let stated: Vec<(Plan, Plan)> = survey
        .points
        .iter()
        .filter_map(|p| Some((p.at, s.seats.iter().find(|seat| seat.name == p.name)?.at?)))
        .collect();
    let (from, to): (Vec<Plan>, Vec<Plan>) = stated.into_iter().unzip();
    match fit::rigid_fit(&from, &to) {
        Ok(motion) if from.len() >= 2 => (survey.points.iter().map(|p| motion.apply(p.at)).collect(), motion.yaw),
        _ => (survey.points.iter().map(|p| p.at).collect(), Angle::ZERO),
    }
}
