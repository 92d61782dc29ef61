//! Values that the part file leaves to the program: `hole.diameter = "?"`.
//!
//! Of the values that can be had it takes the one that puts every finding in order with the most room to the nearest limit.

use crate::record::design::Verdict;
use crate::record::lever::{Lever, Remedy};
use crate::units::show;

use super::edit::File;
use super::ladder::Ladder;
use super::{Instead, Judged};

/// What stands where a value is asked for.
pub const ASKED: &str = "?";

/// Most values that a file may ask for at once.
pub const MOST_ASKED: usize = 2;

/// A value that was found.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Found {
    /// Path of the key.
    pub key: String,
    /// What is to stand there, as TOML.
    pub to: String,
    /// Why this one, and what its neighbours would give: one sentence.
    pub why: String,
}

/// Why no value was found.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Unfound {
    /// Path of the key.
    pub key: String,
    /// One sentence.
    pub message: String,
    /// What would be right.
    pub help: String,
}

/// The file's text with the values that were found, and what was found. `work` works the part with a text in place of its own.
///
/// # Errors
/// Every key at which a value cannot be asked for, or at which none makes a part.
pub fn fill(
    text: &str,
    remedies: &[&'static [Remedy]],
    work: &(dyn Fn(&[Instead]) -> Option<Vec<Judged>> + Sync),
    file: &str,
) -> Result<(String, Vec<Found>), Vec<Unfound>> {
    let Some(read) = File::read(text) else { return Ok((text.into(), Vec::new())) };
    let asked = read.that_read(ASKED);
    if asked.is_empty() {
        return Ok((text.into(), Vec::new()));
    }
    let ladders = ladders(&read, &asked, remedies)?;
    let bench = Bench { text, keys: &asked, ladders: &ladders, work, file };
    let (best, as_good) = bench.best().ok_or_else(|| vec![bench.nothing()])?;
    let filled = bench.filled(&best.rungs).ok_or_else(|| vec![bench.nothing()])?;
    let found = asked.iter().enumerate().filter_map(|(i, key)| {
        let to = ladders.get(i)?.text(*best.rungs.get(i)?);
        Some(Found { key: key.clone(), to, why: bench.why(&best, as_good.as_ref(), i) })
    });
    let found = found.collect();
    Ok((filled, found))
}

fn ladders(file: &File, asked: &[String], remedies: &[&'static [Remedy]]) -> Result<Vec<Ladder>, Vec<Unfound>> {
    let levers: Vec<&Lever> = remedies.iter().flat_map(|r| r.iter()).flat_map(|r| r.levers).collect();
    let own = || levers.iter().filter(|l| l.via.is_none());
    let (mut ladders, mut troubles) = (Vec::new(), Vec::new());
    for key in asked {
        let lever = own().find(|l| file.paths(l.path).contains(key));
        let found = file.at(key);
        let ladder = lever.and_then(|l| Ladder::of(l.grid, found.as_ref().map(|f| &f.value), file.unit(), None));
        match ladder {
            Some(ladder) => ladders.push(ladder),
            None => {
                let mut known: Vec<&str> = own().map(|l| l.path).collect();
                known.sort_unstable();
                known.dedup();
                troubles.push(Unfound {
                    key: key.clone(),
                    message: format!("a value cannot be asked for at `{key}`"),
                    help: format!("\"?\" can stand at {}", known.join(", ")),
                });
            }
        }
    }
    if let Some(key) = asked.get(MOST_ASKED) {
        troubles.push(Unfound {
            key: key.clone(),
            message: format!("{} values are asked for; at most {MOST_ASKED} can be found at once", asked.len()),
            help: "write down what is known".into(),
        });
    }
    if troubles.is_empty() { Ok(ladders) } else { Err(troubles) }
}

/// A trial with its answer.
#[derive(Clone, PartialEq, Debug)]
struct Tried {
    rungs: Vec<i64>,
    judged: Vec<Judged>,
}

impl Tried {
    fn count(&self, verdict: Verdict) -> usize {
        self.judged.iter().filter(|j| j.verdict == verdict).count()
    }

    /// The least room and where it is, among findings that the asked values move.
    fn room(&self, moved: &[bool]) -> (f64, &str) {
        let rooms = self.judged.iter().zip(moved).filter(|(_, moved)| **moved);
        let rooms = rooms.filter_map(|(j, _)| j.room.map(|room| (room.min(1.0), j.what.as_str())));
        rooms.fold((1.0, ""), |least, one| if one.0 < least.0 { one } else { least })
    }
}

struct Bench<'a> {
    text: &'a str,
    keys: &'a [String],
    ladders: &'a [Ladder],
    work: &'a (dyn Fn(&[Instead]) -> Option<Vec<Judged>> + Sync),
    file: &'a str,
}

/// So many rungs of one ladder are tried before the neighbourhood of the best is looked at; fewer of two.
const COARSE: [i64; 2] = [160, 24];

impl Bench<'_> {
    fn filled(&self, rungs: &[i64]) -> Option<String> {
        let mut text = self.text.to_string();
        for ((key, ladder), rung) in self.keys.iter().zip(self.ladders).zip(rungs) {
            text = File::read(&text)?.with(key, &ladder.text(*rung))?;
        }
        Some(text)
    }

    fn tried(&self, rungs: &[i64]) -> Option<Tried> {
        let judged = (self.work)(&[(self.file.to_string(), self.filled(rungs)?)])?;
        Some(Tried { rungs: rungs.to_vec(), judged })
    }

    fn all(&self, rungs: &[Vec<i64>]) -> Vec<Tried> {
        use rayon::prelude::*;
        rungs.par_iter().filter_map(|r| self.tried(r)).collect()
    }

    /// The best of all rungs: coarse first, then finer about the best until its neighbours are known. With it the ends of the
    /// values that are as good, where there are more.
    fn best(&self) -> Option<(Tried, Option<[Vec<i64>; 2]>)> {
        let most = COARSE.get(self.ladders.len() - 1).copied().unwrap_or(8);
        let coarse: Vec<Vec<i64>> = self.ladders.iter().map(|l| spread(l.least, l.most, most)).collect();
        let mut tried = self.all(&product(&coarse));
        let mut known = coarse;
        loop {
            let best = choose(&tried)?.clone();
            let mut finer = false;
            for (axis, rungs) in known.clone().iter().enumerate() {
                let at = *best.rungs.get(axis)?;
                let below = rungs.iter().copied().filter(|r| *r < at).max().unwrap_or(at);
                let above = rungs.iter().copied().filter(|r| *r > at).min().unwrap_or(at);
                let between: Vec<i64> = even(below, above, 32).into_iter().filter(|r| !rungs.contains(r)).collect();
                finer |= !between.is_empty();
                let along: Vec<Vec<i64>> = between
                    .iter()
                    .map(|r| best.rungs.iter().enumerate().map(|(i, old)| if i == axis { *r } else { *old }).collect())
                    .collect();
                tried.extend(self.all(&along));
                if let Some(known) = known.get_mut(axis) {
                    known.extend(between);
                }
            }
            if !finer {
                let all = equals(&tried);
                let ends = match all.as_slice() {
                    [first, .., last] => Some([first.rungs.clone(), last.rungs.clone()]),
                    _ => None,
                };
                return Some((choose(&tried)?.clone(), ends));
            }
        }
    }

    fn nothing(&self) -> Unfound {
        let key = self.keys.first().cloned().unwrap_or_default();
        let ends = self.ladders.first().map(|l| format!("{} to {}", l.text(l.least), l.text(l.most)));
        Unfound {
            message: format!("no value of `{key}` makes a part, of {}", ends.unwrap_or_default()),
            key,
            help: "write a value: the answer then says what is in its way".into(),
        }
    }

    /// Why this value of one key, and what its neighbours would give.
    fn why(&self, best: &Tried, as_good: Option<&[Vec<i64>; 2]>, axis: usize) -> String {
        let beside = |by: i64| {
            let rungs: Vec<i64> =
                best.rungs.iter().enumerate().map(|(i, r)| if i == axis { r + by } else { *r }).collect();
            let ladder = self.ladders.get(axis)?;
            let rung = *rungs.get(axis)?;
            (ladder.least..=ladder.most).contains(&rung).then(|| (ladder.text(rung), self.tried(&rungs)))
        };
        let (down, up) = (beside(-1), beside(1));
        let around: Vec<&Tried> =
            [Some(best), down.as_ref().and_then(|d| d.1.as_ref()), up.as_ref().and_then(|u| u.1.as_ref())]
                .into_iter()
                .flatten()
                .collect();
        let moved = moved(&around);
        let outcome = |tried: Option<&Tried>| match tried {
            None => "makes no part".to_string(),
            Some(t) => match t
                .judged
                .iter()
                .find(|j| j.verdict == t.judged.iter().map(|j| j.verdict).max().unwrap_or(Verdict::Ok))
            {
                Some(j) if j.verdict > Verdict::Ok => format!("leaves {}: {}", j.verdict.word(), j.what),
                _ => match t.room(&moved) {
                    (_, "") => "leaves everything in order".to_string(),
                    (room, what) => format!("leaves {} % of room at {what}", show::trimmed((room * 100.0).max(0.0), 1)),
                },
            },
        };
        let mut sentence = format!("found: of the values that can be had, it {}", outcome(Some(best)));
        let end = |rungs: &Vec<i64>| Some(self.ladders.get(axis)?.text(*rungs.get(axis)?));
        if let Some([Some(first), Some(last)]) = as_good.map(|ends| ends.each_ref().map(end)) {
            let [first, last] = [first, last].map(|text| text.trim_matches('"').to_string());
            sentence = format!(
                "{sentence}; no check tells the values from {first} to {last} apart, and this is one in their middle: write what \
                 it is to be, or what it has to do"
            );
        }
        for (text, tried) in [down, up].into_iter().flatten() {
            sentence = format!("{sentence}; {} {}", text.trim_matches('"'), outcome(tried.as_ref()));
        }
        sentence
    }
}

/// Which findings differ in their room between some trials; findings are told apart by their place in the list.
fn moved(tried: &[&Tried]) -> Vec<bool> {
    let Some((first, rest)) = tried.split_first() else { return Vec::new() };
    let differs = |i: usize, j: &Judged| {
        rest.iter().any(|t| {
            t.judged.get(i).is_none_or(|o| o.key != j.key || o.room.map(f64::to_bits) != j.room.map(f64::to_bits))
        })
    };
    first.judged.iter().enumerate().map(|(i, j)| differs(i, j)).collect()
}

/// Those with the fewest failures, then the fewest cautions, then the most room, in the order of their rungs.
fn equals(tried: &[Tried]) -> Vec<&Tried> {
    let worst = |t: &Tried| (t.count(Verdict::Fail), t.count(Verdict::Caution));
    let Some(least) = tried.iter().map(worst).min() else { return Vec::new() };
    let mut left: Vec<&Tried> = tried.iter().filter(|t| worst(t) == least).collect();
    left.sort_by(|a, b| a.rungs.cmp(&b.rungs));
    let moved = moved(&left);
    let most = left.iter().map(|t| t.room(&moved).0).fold(f64::NEG_INFINITY, f64::max);
    left.retain(|t| t.room(&moved).0 >= most - 1e-12);
    left
}

/// The best; of values that nothing tells apart the one in their middle.
fn choose(tried: &[Tried]) -> Option<&Tried> {
    let equals = equals(tried);
    equals.get(equals.len() / 2).copied()
}

/// At most so many rungs from the least to the most, closer together towards nought, ends included.
fn spread(least: i64, most: i64, count: i64) -> Vec<i64> {
    if most - least < count {
        return (least..=most).collect();
    }
    let (a, b) = ((least.max(1)) as f64, most as f64);
    let mut rungs: Vec<i64> =
        (0..count).map(|i| (a * libm::pow(b / a, i as f64 / (count - 1) as f64)).round() as i64).collect();
    rungs.push(least);
    rungs.sort_unstable();
    rungs.dedup();
    rungs
}

fn even(least: i64, most: i64, count: i64) -> Vec<i64> {
    let step = ((most - least) / count).max(1);
    (0..).map(|i| least + i * step).take_while(|r| *r <= most).collect()
}

fn product(axes: &[Vec<i64>]) -> Vec<Vec<i64>> {
    axes.iter().fold(vec![Vec::new()], |all, axis| {
        all.iter().flat_map(|row: &Vec<i64>| axis.iter().map(move |r| [row.as_slice(), &[*r]].concat())).collect()
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::lever::Grid;

    const REMEDIES: &[Remedy] = &[Remedy {
        checks: &["x"],
        levers: &[
            Lever::free("a", Grid::Length(0.1, 0.005, 1.0, 500.0)),
            Lever::free("b", Grid::Length(0.5, 0.02, 1.0, 90.0)),
        ],
        otherwise: "",
    }];

    fn number(text: &str, key: &str) -> f64 {
        File::read(text).unwrap().string(key).unwrap().trim_end_matches(" mm").parse().unwrap()
    }

    /// At least and at most of two quantities that pull against each other; the most room lies where both are equal.
    fn work(instead: &[Instead]) -> Option<Vec<Judged>> {
        let text = &instead.first()?.1;
        let (a, b) = (number(text, "a"), number(text, "b"));
        let judged = |key: &str, room: f64| Judged {
            key: key.into(),
            what: key.into(),
            verdict: if room >= 0.0 { Verdict::Ok } else { Verdict::Fail },
            value: room,
            room: Some(room),
        };
        (a < 300.0).then(|| vec![judged("low", (a - 40.0) / 40.0), judged("high", (50.0 + b - a) / (50.0 + b))])
    }

    #[test]
    fn the_most_room_is_found_as_by_trying_all() {
        let text = "a = \"?\"\nb = \"3 mm\"\n";
        let (filled, found) = fill(text, &[REMEDIES], &work, "f").unwrap();
        let room = |a: f64| ((a - 40.0) / 40.0).min((53.0 - a) / 53.0);
        let best = (10..=5000).map(|i| f64::from(i) / 10.0).max_by(|x, y| room(*x).total_cmp(&room(*y))).unwrap();
        assert_eq!(filled, format!("a = \"{best} mm\"\nb = \"3 mm\"\n"));
        assert!(found[0].why.contains("% of room"), "{}", found[0].why);
    }

    #[test]
    fn two_values_are_found_together() {
        let (filled, _) = fill("a = \"?\"\nb = \"?\"\n", &[REMEDIES], &work, "f").unwrap();
        let (a, b) = (number(&filled, "a"), number(&filled, "b"));
        let room = ((a - 40.0) / 40.0).min((50.0 + b - a) / (50.0 + b));
        assert!(room > 0.45, "{a} {b}: {room}");
    }

    #[test]
    fn what_cannot_be_asked_for_is_said() {
        let trouble = fill("name = \"?\"\n", &[REMEDIES], &work, "f").unwrap_err();
        assert!(trouble[0].help.contains("a, b"), "{trouble:?}");
        let none = fill("a = \"?\"\nb = \"1 mm\"\n", &[REMEDIES], &|_| None, "f").unwrap_err();
        assert!(none[0].message.contains("makes a part"), "{none:?}");
        assert!(fill("a = 1", &[REMEDIES], &work, "f").unwrap().1.is_empty());
    }

    /// Where nothing that is checked tells values apart, that is said, and none at an end is taken.
    #[test]
    fn values_that_nothing_tells_apart_are_told() {
        let work = |instead: &[Instead]| {
            let a = number(&instead.first()?.1, "a");
            let verdict = if a <= 40.0 { Verdict::Ok } else { Verdict::Fail };
            Some(vec![Judged { key: "x".into(), what: "x".into(), verdict, value: a, room: None }])
        };
        let (filled, found) = fill("a = \"?\"\n", &[REMEDIES], &work, "f").unwrap();
        let a = number(&filled, "a");
        assert!(a > 2.0 && a < 39.0, "{a}");
        assert!(found[0].why.contains("no check tells the values from 1 mm to "), "{}", found[0].why);
    }
}
