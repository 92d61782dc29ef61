//! The least move along one ladder that clears a finding.

use super::ladder::Ladder;

/// What came of a trial.
#[derive(Clone, PartialEq, Debug)]
pub enum Trial {
    /// The part cannot be so.
    Impossible,
    /// The finding stays; its value, to see whether the key moves it at all.
    Stays(f64),
    /// It clears; what else becomes worse by it.
    Clears {
        /// Another finding that becomes worse, if one does.
        worse: Option<Worse>,
    },
}

/// Another finding that a change makes worse.
#[derive(Clone, PartialEq, Debug)]
pub struct Worse {
    /// Name of its check.
    pub key: String,
    /// What it looks at.
    pub what: String,
}

impl Trial {
    const fn clears(&self) -> bool {
        matches!(self, Self::Clears { .. })
    }
}

/// A rung that clears the finding, the first from where it stands in its direction.
#[derive(Clone, PartialEq, Debug)]
pub struct Step {
    /// The rung.
    pub rung: i64,
    /// What becomes worse there.
    pub worse: Option<Worse>,
}

/// How many rungs beyond the first that clears are looked at for one that makes nothing worse.
const BEYOND: i64 = 3;

/// The least move up and the least move down, where there are any.
///
/// Steps double until the finding clears, then the boundary is halved in on. A boundary between what is possible and what is not is
/// halved in on as well, since what clears may lie just before it. Each answer is a boundary: one rung less does not clear.
pub fn least_moves(ladder: &Ladder, now: f64, trial: &(dyn Fn(i64) -> Trial + Sync)) -> Vec<Step> {
    let way = |up| move || least_move(ladder, up, now, trial);
    let (up, down) = rayon::join(way(true), way(false));
    up.into_iter().chain(down).collect()
}

fn least_move(ladder: &Ladder, up: bool, now: f64, trial: &dyn Fn(i64) -> Trial) -> Option<Step> {
    let first = ladder.first(up)?;
    let room = if up { ladder.most - first } else { first - ladder.least };
    let rung = |offset: i64| if up { first + offset } else { first - offset };
    let try_at = |offset: i64| trial(rung(offset));
    let offset = boundary(room, now, &try_at)?;
    // Of rungs that clear, the first that makes nothing worse; else the first.
    let mut found: Option<Step> = None;
    for beyond in 0..=BEYOND.min(room - offset) {
        let Trial::Clears { worse } = try_at(offset + beyond) else { break };
        let step = Step { rung: rung(offset + beyond), worse };
        if step.worse.is_none() {
            return Some(step);
        }
        found = found.or(Some(step));
    }
    found
}

/// From a rung that clears on, away from where it stands now, to the rung at which the judged value is least: as long as it gets less.
pub fn aimed(ladder: &Ladder, from: i64, judged: &dyn Fn(i64) -> Option<f64>) -> i64 {
    let step = if ladder.now.is_some_and(|now| from as f64 > now) { 1 } else { -1 };
    let (mut rung, Some(mut value)) = (from, judged(from)) else { return from };
    let on_ladder = |rung: i64| (ladder.least..=ladder.most).contains(&rung);
    let less =
        |rung: i64, value: f64| Some(rung).filter(|r| on_ladder(*r)).and_then(judged).filter(|next| *next < value);
    while let Some(next) = less(rung + step, value) {
        (rung, value) = (rung + step, next);
    }
    rung
}

/// The least offset that clears.
fn boundary(room: i64, now: f64, try_at: &dyn Fn(i64) -> Trial) -> Option<i64> {
    let mut before: Option<i64> = None;
    let mut offset = 0;
    let mut moved = false;
    loop {
        match try_at(offset) {
            Trial::Clears { .. } => return Some(halved(before, offset, &|o| try_at(o).clears())),
            Trial::Impossible => {
                let low = before?;
                let edge = halved(before, offset, &|o| matches!(try_at(o), Trial::Impossible)) - 1;
                let clears = edge > low && try_at(edge).clears();
                return clears.then(|| halved(before, edge, &|o| try_at(o).clears()));
            }
            Trial::Stays(value) => moved |= value.to_bits() != now.to_bits(),
        }
        // A key that has not moved the value after so many doublings does not reach it.
        if offset >= room || (!moved && offset > 60) {
            return None;
        }
        before = Some(offset);
        offset = (2 * offset + 1).min(room);
    }
}

/// The least offset in (no, yes] at which it holds, for what holds from some offset on.
fn halved(no: Option<i64>, yes: i64, holds: &dyn Fn(i64) -> bool) -> i64 {
    let (mut no, mut yes) = (no.unwrap_or(-1), yes);
    while yes - no > 1 {
        let middle = no + (yes - no) / 2;
        if holds(middle) {
            yes = middle;
        } else {
            no = middle;
        }
    }
    yes
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::lever::Grid;
    use crate::remedy::edit::File;

    fn ladder() -> Ladder {
        let file = File::read("a = \"40 mm\"").unwrap();
        let found = file.at("a").unwrap();
        Ladder::of(Grid::Length(0.1, 0.005, 1.0, 200.0), Some(&found.value), None, None).unwrap()
    }

    fn texts(trial: &(dyn Fn(f64) -> Trial + Sync)) -> Vec<(String, bool)> {
        let l = ladder();
        let steps = least_moves(&l, 40.0, &|rung| trial(rung as f64 * 0.1));
        steps.into_iter().map(|s| (l.text(s.rung), s.worse.is_none())).collect()
    }

    fn worse() -> Trial {
        Trial::Clears { worse: Some(Worse { key: "x".into(), what: "x".into() }) }
    }

    #[test]
    fn the_boundary_is_found_on_the_grid() {
        let clears = |yes: bool, x: f64| if yes { Trial::Clears { worse: None } } else { Trial::Stays(x) };
        assert_eq!(texts(&|x| clears(x > 73.14, x)), [("\"73.2 mm\"".to_string(), true)]);
        assert_eq!(texts(&|x| clears(x < 39.95, x)), [("\"39.9 mm\"".to_string(), true)]);
        assert_eq!(texts(&|x| clears(x >= 199.95, x)), [("\"200 mm\"".to_string(), true)]);
        assert!(texts(&|x| clears(false, x)).is_empty());
    }

    #[test]
    fn what_clears_may_lie_just_before_what_cannot_be() {
        let found = texts(&|x| match x {
            x if x > 52.05 => Trial::Impossible,
            x if x > 50.95 => Trial::Clears { worse: None },
            x => Trial::Stays(x),
        });
        assert_eq!(found, [("\"51 mm\"".to_string(), true)]);
    }

    #[test]
    fn a_little_further_may_spare_another_finding() {
        let found = texts(&|x| match x {
            x if x > 45.15 => Trial::Clears { worse: None },
            x if x > 44.95 => worse(),
            x => Trial::Stays(x),
        });
        assert_eq!(found, [("\"45.2 mm\"".to_string(), true)]);
        assert_eq!(texts(&|x| if x > 44.95 { worse() } else { Trial::Stays(x) }), [("\"45 mm\"".to_string(), false)]);
    }

    /// A slot that points at its mark within 10 clears, and is turned until it points at it.
    #[test]
    fn what_aims_goes_on_to_the_least() {
        let ladder = ladder();
        let judged = |mark: f64| move |rung: i64| Some((rung as f64 - mark).abs()).filter(|off| *off <= 10.0);
        let now = ladder.now.expect("it stands somewhere") as i64;
        assert_eq!(aimed(&ladder, now + 22, &judged(now as f64 + 31.3)), now + 31);
        assert_eq!(aimed(&ladder, now - 6, &judged(now as f64 - 15.6)), now - 16);
        assert_eq!(aimed(&ladder, now + 40, &judged(now as f64 + 31.3)), now + 40, "beyond the mark it stays");
    }

    /// A key that moves nothing is given up after a few trials.
    #[test]
    fn what_moves_nothing_is_left() {
        let count = std::sync::atomic::AtomicUsize::new(0);
        let found = texts(&|_| {
            count.fetch_add(1, std::sync::atomic::Ordering::Relaxed);
            Trial::Stays(40.0)
        });
        let count = count.into_inner();
        assert!(found.is_empty() && count <= 14, "{count} trials");
    }
}
