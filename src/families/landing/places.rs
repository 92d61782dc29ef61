//! Where cones and cups really are: tape surveys adjusted, put into the plan of the part file, and held against each other.

use crate::description::Fields;
use crate::families::common::settled;
use crate::landing::Plan;
use crate::landing::chance::SplitMix;
use crate::landing::fit;
use crate::landing::survey::{self, Side, Survey, SurveyError, Verdict};
use crate::units::Length;

use super::read::{self, Network, Spec};

/// One adjusted network, in the plan of the part file.
pub struct Adjusted {
    /// The adjustment that counts: without the suspect reading, where one was found.
    pub survey: Survey,
    /// The adjustment of all readings, where a suspect was left out.
    pub with_suspect: Option<Survey>,
    /// Every point in plan.
    pub at: Vec<Plan>,
    /// One sigma of every point within the pattern, whatever its origin and direction.
    pub sigma: Vec<Length>,
}

impl Adjusted {
    fn place(&self, name: &str) -> Option<(Plan, Length)> {
        let index = self.survey.points.iter().position(|p| p.name == name)?;
        Some((*self.at.get(index)?, *self.sigma.get(index)?))
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
}

/// Uncertainty of a position where nothing is said.
/// Source: common practice, no source.
pub const USUAL_UNCERTAINTY: Length = Length::mm(1.0);

/// Works out places and mismatches; `None` when a problem was noted.
pub fn places(fields: &Fields, s: &Spec) -> Option<Places> {
    let cones = adjusted(fields, s, s.cones.as_ref(), &read::CONES);
    let cups = adjusted(fields, s, s.cups.as_ref(), &read::CUPS);
    let (cones, cups) = (settled(cones)?, settled(cups)?);
    let missing = |what: &str, name: &str| {
        let message = format!("the survey of the {what} does not reach the seat {name}");
        fields.problem_at(&read::SURVEY, message, Some("the surveys name the seats as the [[seat]] rows do".into()));
    };
    let of = |network: &Option<Adjusted>, what: &str| -> Option<Vec<(Plan, Length)>> {
        let seat = |seat: &read::SeatSpec| match network {
            Some(n) => n.place(&seat.name).or_else(|| {
                missing(what, &seat.name);
                None
            }),
            None => seat.at.map(|at| (at, s.position_uncertainty.as_ref().map_or(USUAL_UNCERTAINTY, |u| u.value))),
        };
        s.seats.iter().map(seat).collect()
    };
    let cone_places = of(&cones, "cones")?;
    let at: Vec<Plan> = cone_places.iter().map(|p| p.0).collect();
    let cup_places = of(&cups, "cups").or_else(|| cups.is_none().then(|| cone_places.clone()))?;
    let surveyed = cones.is_some() || cups.is_some();
    let mut mismatch = vec![Plan::default(); at.len()];
    if surveyed && at.len() >= 2 && !transferred(s) {
        let cup_at: Vec<Plan> = cup_places.iter().map(|p| p.0).collect();
        mismatch =
            fit::mismatch(&at, &cup_at).map_err(|e| fields.problem_at(&read::SURVEY, e.to_string(), None)).ok()?;
    }
    for (found, seat) in mismatch.iter_mut().zip(&s.seats) {
        *found = seat.mismatch.unwrap_or(*found);
    }
    let sigma = cone_places.iter().zip(&cup_places).map(|(cone, cup)| sigma(s, surveyed, cone.1, cup.1)).collect();
    Some(Places { cones, cups, at, mismatch, sigma })
}

fn transferred(s: &Spec) -> bool {
    s.fit_up.as_ref().is_some_and(|f| f.transferred)
}

/// One sigma of cup against cone: transfer error and weld pull where the cups were tacked in place, else both surveys.
fn sigma(s: &Spec, surveyed: bool, cone: Length, cup: Length) -> Length {
    match &s.fit_up {
        Some(f) if f.transferred => f.transfer_error.hypot(f.weld_pull),
        Some(f) => cone.hypot(cup).hypot(f.weld_pull),
        None if surveyed => cone.hypot(cup),
        None => cone,
    }
}

fn adjusted(
    fields: &Fields,
    s: &Spec,
    network: Option<&Network>,
    key: &'static crate::key::Key,
) -> Option<Option<Adjusted>> {
    let network = network?;
    let table = fields.table(&read::SURVEY)?.table(key);
    let found = adjust(network, s).map_err(|error| {
        if let Some(table) = &table {
            table.problem_at(&read::READINGS, error.to_string(), None);
        }
    });
    Some(found.ok())
}

/// Adjusts a network; a reading that is surely wrong is left out and told. The points come out in plan.
pub fn adjust(network: &Network, s: &Spec) -> Result<Adjusted, SurveyError> {
    let all = survey::adjust(&tape_network(network, s))?;
    let (survey, with_suspect) = match all.verdict {
        Verdict::Suspect { reading, .. } if all.redundancy > 1 => match survey::adjust(&without(network, s, reading)) {
            Ok(better) => (better, Some(all)),
            Err(_) => (all, None),
        },
        _ => (all, None),
    };
    let at = in_plan(&survey, s);
    let left_out = match (&with_suspect, network.readings.len() > survey.readings.len()) {
        (Some(all), true) => all
            .readings
            .iter()
            .zip(&network.readings)
            .position(|(j, _)| !survey.readings.iter().any(|k| k.from == j.from && k.to == j.to)),
        _ => None,
    };
    let used = left_out.map_or_else(|| tape_network(network, s), |reading| without(network, s, reading));
    let sigma = sigma_in_pattern(&used, &survey);
    Ok(Adjusted { survey, with_suspect, at, sigma })
}

/// Draws for the uncertainty within a pattern.
const DRAWS: u64 = 200;

/// One sigma of each point within its pattern: the readings are drawn about their adjusted lengths with a fixed seed, each
/// draw is adjusted and laid on the pattern by the best rigid motion, and what is left counts. The ellipse of the
/// adjustment itself is against the first point and grows with the distance from it, which says nothing of the pattern.
fn sigma_in_pattern(network: &survey::Network, survey: &Survey) -> Vec<Length> {
    let pattern: Vec<Plan> = survey.points.iter().map(|p| p.at).collect();
    let mut squares = vec![0.0; pattern.len()];
    let mut done = 0.0;
    for draw in 0..DRAWS {
        let mut random = SplitMix::for_draw(1, draw);
        let mut drawn = network.clone();
        for (reading, judged) in drawn.readings.iter_mut().zip(&survey.readings) {
            let [normal, _] = random.normals();
            reading.length = judged.measured + judged.residual + reading.sigma * normal;
            reading.dz = Length::ZERO;
        }
        let Ok(found) = survey::adjust(&drawn) else { continue };
        let points: Vec<Plan> = found.points.iter().map(|p| p.at).collect();
        let Ok(motion) = fit::rigid_fit(&points, &pattern) else { continue };
        done += 1.0;
        for (sum, miss) in squares.iter_mut().zip(&motion.misses) {
            *sum += miss.length().as_mm() * miss.length().as_mm() / 2.0;
        }
    }
    squares.into_iter().map(|sum: f64| Length::mm((sum / f64::max(done, 1.0)).sqrt())).collect()
}

fn without(network: &Network, s: &Spec, reading: usize) -> survey::Network {
    let mut rest = tape_network(network, s);
    if reading < rest.readings.len() {
        rest.readings.remove(reading);
    }
    rest
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
        _ => network.third,
    };
    survey::Network { points, rough: Vec::new(), readings: network.readings.clone(), third }
}

/// The surveyed points moved onto the plan that the seats state; as they are where the seats state none.
fn in_plan(survey: &Survey, s: &Spec) -> Vec<Plan> {
    let stated: Vec<(Plan, Plan)> = survey
        .points
        .iter()
        .filter_map(|p| Some((p.at, s.seats.iter().find(|seat| seat.name == p.name)?.at?)))
        .collect();
    let (from, to): (Vec<Plan>, Vec<Plan>) = stated.into_iter().unzip();
    match fit::rigid_fit(&from, &to) {
        Ok(motion) if from.len() >= 2 => survey.points.iter().map(|p| motion.apply(p.at)).collect(),
        _ => survey.points.iter().map(|p| p.at).collect(),
    }
}
