//! The landing's figures for programs, by the contract of `check --json`.

use serde_json::{Value as Json, json};

use crate::formulas::frame::arrangement::{Hole, Judged};
use crate::formulas::frame::rest::Rest;
use crate::formulas::frame::{Landing, Plan, ride_off};
use crate::formulas::survey::{Surveyed, Verdict};
use crate::record::design::Design;
use crate::units::Length;

use super::heights::Heights;
use super::places::{Adjusted, Places};
use super::read::Spec;
use super::repeat::{self, Cause};
use super::results::Results;

fn number(x: f64) -> Json {
    json!((x * 1e9).round() / 1e9)
}

fn mm(l: Length) -> Json {
    number(l.as_mm())
}

/// Puts the figures into the design.
pub fn figures(
    design: &mut Design,
    s: &Spec,
    places: &Places,
    heights: &Heights,
    landing: &Landing,
    r: &Results,
    causes: &[Cause],
) {
    let found = r.rest.as_ref().ok();
    let limit = ride_off::least(&r.ride_off);
    let object = json!({
        "survey": survey(places),
        "rest": found.map(rest),
        "seats": seats(landing, found),
        "arrangement": r.arrangement.as_ref().map(|a| a.holes.iter().zip(landing.seats()).map(|(h, seat)| hole(&seat.name, h)).collect::<Vec<_>>()),
        "rest_as_arranged": r.as_arranged.as_ref().and_then(|x| x.as_ref().ok()).map(rest),
        "rest_all_round": r.all_round.as_ref().and_then(|x| x.1.as_ref().ok()).map(rest),
        "no_rest": r.rest.as_ref().err().map(ToString::to_string),
        "ride_off_g": limit.map(|l| json!({ "least": l.limit.map(|g| number(g.as_g())), "direction_deg": number(l.direction.as_degrees()) })),
        "ride_off_polar": r.ride_off.iter().map(|x| json!({ "direction_deg": number(x.direction.as_degrees()), "limit_g": x.limit.map(|g| number(g.as_g())) })).collect::<Vec<_>>(),
        "least_preload_n": r.preloads.as_ref().and_then(|p| ride_off::governing(p)).map(|p| number(p.preload.as_newtons())),
        "least_preload_on_three_n": r.preloads.as_ref().and_then(|p| ride_off::governing_on_three(p)).map(|p| number(p.as_newtons())),
        "pairs": r.arrangement.as_ref().map(|a| a.pairs.iter().map(|j| pair(s, j)).collect::<Vec<_>>()),
        "comes_back_mm": repeat::total(causes).map(mm),
        "comes_back_by": causes.iter().map(|c| json!({ "cause": c.what, "shift_mm": c.shift.map(mm) })).collect::<Vec<_>>(),
        "capture_mm": mm(r.capture.radius),
        "capture_yaw_at_swing_deg": number(r.capture.yaw_at_swing.as_degrees()),
        "seating_share": r.chance.as_ref().map(|c| c.seating_share),
        "seating_share_as_arranged_and_level": r.chance_level.as_ref().map(|c| c.seating_share),
        "seating_share_as_arranged": r.chance_arranged.as_ref().map(|c| c.seating_share),
        "target_off_mm": r.chance.as_ref().map(|c| json!({ "mean": mm(c.target_off.mean), "p95": mm(c.target_off.p95), "largest": mm(c.target_off.largest) })),
        "target_histogram": r.chance.as_ref().map(|c| json!({ "bin_width_mm": mm(c.bin_width), "draws": c.bins })),
        "friction_may_hold_mm": r.held.iter().map(|h| json!({ "direction_deg": number(h.direction.as_degrees()), "shift_mm": mm(h.shift), "everywhere": h.everywhere })).collect::<Vec<_>>(),
        "locked_in_n": r.locked.iter().zip(landing.seats()).map(|(l, seat)| json!({ "name": seat.name, "at_rest": number(l.at_rest.as_newtons()), "greatest": l.greatest.map(|g| number(g.as_newtons())) })).collect::<Vec<_>>(),
        "friction_may_hold_anyhow_mm": mm(r.turned.iter().map(|t| t.shift).fold(Length::ZERO, Length::max)),
        "friction_may_hold_turned": r.turned.iter().filter(|t| t.about.is_some() || t.centre == landing.load().centre).map(|t| json!({ "about": t.about.and_then(|i| s.seats.get(i)).map(|seat| &seat.name), "farthest": s.seats.get(t.farthest).map(|seat| &seat.name), "shift_mm": mm(t.shift), "turn_deg": number(t.turn.as_degrees()), "everywhere": t.everywhere })).collect::<Vec<_>>(),
        "heat": r.heated.iter().map(|h| json!({ "kelvin": number(h.kelvin(s)), "rest": h.rest.as_ref().ok().map(rest), "growth_mm": h.landing.seats().iter().zip(landing.seats()).map(|(a, b)| mm((a.mismatch - b.mismatch).length())).collect::<Vec<_>>() })).collect::<Vec<_>>(),
        "pad_mm": heights.pads.iter().zip(&s.seats).map(|(pad, seat)| json!({ "name": seat.name, "height_mm": pad.map(mm) })).collect::<Vec<_>>(),
        "tie_down_n": s.tie_down.as_ref().map(|t| number(t.value.as_newtons())),
    });
    design.figures.insert("landing", object);
}

fn rest(found: &Rest) -> Json {
    let p = &found.pose;
    json!({
        "dx_mm": mm(p.dx), "dy_mm": mm(p.dy), "z_mm": mm(p.z),
        "yaw_mrad": number(p.yaw.as_milliradians()), "roll_mrad": number(p.roll.as_milliradians()), "pitch_mrad": number(p.pitch.as_milliradians()),
        "unique": found.unique(),
    })
}

fn seats(landing: &Landing, found: Option<&Rest>) -> Vec<Json> {
    landing.seats().iter().enumerate().map(|(i, seat)| {
        let at = found.and_then(|f| f.seats.get(i));
        json!({
            "name": seat.name, "x_mm": mm(seat.at.x), "y_mm": mm(seat.at.y),
            "mismatch_mm": [mm(seat.mismatch.x), mm(seat.mismatch.y)], "height_mm": mm(seat.height),
            "offset_mm": at.map(|a| mm(a.offset.length())), "lift_mm": at.map(|a| mm(a.lift)), "gap_mm": at.map(|a| mm(a.gap)),
            "load_n": at.map(|a| number(a.load.as_newtons())), "touching": at.map(|a| a.touching),
        })
    }).collect()
}

fn pair(s: &Spec, j: &Judged) -> Json {
    let name = |i: usize| s.seats.get(i).map(|seat| &seat.name);
    json!({
        "round": name(j.pair.round), "slot": name(j.pair.slot), "room_mm": mm(j.room),
        "ride_off_g": j.ride_off.map(|g| number(g.as_g())), "tie_down_on_three_n": number(j.tie_down.as_newtons()),
        "apart_mm": mm(j.base), "loads_n": j.loads.map(|f| number(f.as_newtons())),
        "score": j.score.is_finite().then(|| number(j.score)),
    })
}

fn hole(name: &str, hole: &Hole) -> Json {
    match hole {
        Hole::Round => json!({ "name": name, "hole": "round", "direction_deg": null, "length_mm": null }),
        Hole::Slot { direction, length, float, relieved_rise } => {
            json!({ "name": name, "hole": "slot", "direction_deg": number(direction.as_degrees()), "length_mm": mm(*length), "float_mm": mm(*float), "relieved_cone_rise_mm": mm(*relieved_rise) })
        }
        Hole::Clear { diameter, clearance } => {
            json!({ "name": name, "hole": "clear", "direction_deg": null, "length_mm": null, "diameter_mm": mm(*diameter), "clearance_mm": mm(*clearance) })
        }
    }
}

fn survey(places: &Places) -> Json {
    let points = |network: &Option<Adjusted>| {
        network.as_ref().map_or_else(Vec::new, |n| {
            n.survey
                .points
                .iter()
                .zip(n.at.iter().zip(n.sigmas()))
                .map(|(p, (at, sigma))| point(p, *at, sigma))
                .collect()
        })
    };
    let judged = |network: &Option<Adjusted>, of: &str| {
        network.as_ref().map_or_else(Vec::new, |n| {
            n.judged().readings.iter().map(|j| json!({
            "of": of, "from": j.from, "to": j.to, "measured_mm": mm(j.measured), "residual_mm": mm(j.residual),
            "standardised": j.standardised.map(number), "redundancy": number(j.redundancy),
        })).collect::<Vec<_>>()
        })
    };
    let residuals: Vec<Json> = judged(&places.cones, "cones").into_iter().chain(judged(&places.cups, "cups")).collect();
    let verdicts: Vec<Json> = [("cones", &places.cones), ("cups", &places.cups)]
        .into_iter()
        .filter_map(|(of, network)| network.as_ref().map(|n| survey_verdict(of, n)))
        .collect();
    json!({ "cones": points(&places.cones), "cups": points(&places.cups), "residuals": residuals, "verdicts": verdicts })
}

/// What the readings of one network say of each other: the one that is wrong, or those of which one is.
fn survey_verdict(of: &str, n: &Adjusted) -> Json {
    let judged = n.judged();
    let line = |i: &usize| judged.readings.get(*i).map(|j| json!([j.from, j.to]));
    let pair = match &judged.verdict {
        Verdict::Suspect { unless: Some(pair), .. } => pair.iter().filter_map(line).collect(),
        _ => Vec::new(),
    };
    let (verdict, lines, blunder) = match &judged.verdict {
        Verdict::NoCheck => ("no check", Vec::new(), None),
        Verdict::Agree => ("agree", Vec::new(), None),
        Verdict::Unlocated(which) => ("one of these", which.iter().filter_map(line).collect(), None),
        Verdict::Suspect { reading, blunder, .. } => ("wrong", line(reading).into_iter().collect(), Some(*blunder)),
    };
    json!({
        "of": of, "verdict": verdict, "readings": lines, "blunder_mm": blunder.map(mm), "or_both_of": pair,
        "left_out": n.with_suspect.is_some(), "scatter": judged.s0.map(number), "scatter_of_the_rest": n.survey.s0.map(number),
    })
}

fn point(p: &Surveyed, at: Plan, sigma: Length) -> Json {
    json!({
        "name": p.name, "x_mm": mm(at.x), "y_mm": mm(at.y), "sigma_in_pattern_mm": mm(sigma),
        "ellipse": { "major_mm": mm(p.ellipse.major), "minor_mm": mm(p.ellipse.minor), "direction_deg": number(p.ellipse.direction.as_degrees()) },
    })
}
