//! For every finding that is not in order the least change of the part file that clears it, proven by working the part with that
//! change; or a sentence why there is none.
//!
//! It knows no family: levers and ladders are data, and a part is worked through the function that it is given.

pub mod edit;
mod ladder;
mod search;
pub mod unknown;

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use rayon::prelude::*;

use crate::record::design::{Finding, Verdict};
use crate::record::lever::{Change, Clearing, Ease, Lever, Remedy};
use crate::units::LengthUnit;

use edit::File;
use ladder::Ladder;
use search::{Step, Trial, Worse};

/// One finding, as far as two workings of a part are compared.
#[derive(Clone, PartialEq, Debug)]
pub struct Judged {
    /// Name of the check.
    pub key: String,
    /// What it looks at.
    pub what: String,
    /// How it came out.
    pub verdict: Verdict,
    /// The value, not a number where there is none.
    pub value: f64,
    /// Room to the limit as a share of it, negative where it is missed; none where there is no bound.
    pub room: Option<f64>,
}

impl Judged {
    /// Of a finding.
    pub fn of(finding: &Finding) -> Self {
        use crate::record::design::Limit;
        let value = finding.value.as_ref().map_or(f64::NAN, crate::record::design::Value::number);
        let room = match &finding.limit {
            Limit::AtLeast(bound) => Some((value - bound.number()) / bound.number().abs().max(1e-9)),
            Limit::AtMost(bound) => Some((bound.number() - value) / bound.number().abs().max(1e-9)),
            _ => None,
        };
        Self { key: finding.key.clone(), what: finding.what.clone(), verdict: finding.verdict, value, room }
    }

    fn is_named_as(&self, other: &Self) -> bool {
        self.key == other.key && self.what == other.what
    }
}

/// A part as it stands and a way to work it otherwise.
pub struct Case<'a> {
    /// The part file.
    pub file: &'a str,
    /// Its text.
    pub text: &'a str,
    /// Unit of bare numbers, and of what is not written yet.
    pub unit: Option<LengthUnit>,
    /// Reads a part file that this one names: its name and text.
    pub neighbour: &'a (dyn Fn(&str) -> Option<(String, String)> + Sync),
    /// What is assumed for a key that is not written, in the base unit of its kind.
    pub usual: &'a (dyn Fn(&str) -> Option<f64> + Sync),
    /// A working takes long: the search works only what a check needs, and the whole part proves what was found.
    pub long: bool,
    /// Works the part with the texts that stand in place of those of these files. None where it cannot be so.
    pub work: &'a Work<'a>,
    /// The same, as far as the check of that name needs it.
    pub work_for: &'a WorkFor<'a>,
    /// The same for a part that this one names, with its own text.
    pub work_mate: &'a WorkMate<'a>,
    /// The remedies of the family and those of all.
    pub remedies: &'a [&'static [Remedy]],
}

/// Works a part with other texts.
pub type Work<'a> = dyn Fn(&[Instead]) -> Option<Vec<Judged>> + Sync + 'a;

/// Works a part as far as a check needs it.
pub type WorkFor<'a> = dyn Fn(&str, &[Instead]) -> Option<Vec<Judged>> + Sync + 'a;

/// Works another part: its file, its text, and the texts instead.
pub type WorkMate<'a> = dyn Fn(&str, &str, &[Instead]) -> Option<Vec<Judged>> + Sync + 'a;

/// A file and the text that is to stand in it.
pub type Instead = (String, String);

/// The row of a check.
fn of_check(remedies: &[&'static [Remedy]], check: &str) -> Option<&'static Remedy> {
    remedies.iter().flat_map(|some| some.iter()).find(|r| r.checks.contains(&check))
}

/// What can be done besides the figures of the file, for a finding that is not in order.
pub fn by_hand(remedies: &[&'static [Remedy]], finding: &Finding) -> Clearing {
    let remedy = of_check(remedies, &finding.key).filter(|_| finding.verdict > Verdict::Ok);
    Clearing { why_none: remedy.map(|r| r.otherwise.to_string()), ..Clearing::default() }
}

/// What clears each of the findings that are not in order; empty for those that are.
pub fn clearings(case: &Case, findings: &[Finding]) -> Vec<Clearing> {
    if findings.iter().all(|f| f.verdict == Verdict::Ok) {
        return vec![Clearing::default(); findings.len()];
    }
    let bench = Bench { case, before: findings.iter().map(Judged::of).collect(), known: Known::default() };
    // Of a part that takes long what fails is cleared first: it moves all else.
    let worst = findings.iter().map(|f| f.verdict).max().unwrap_or(Verdict::Ok);
    let rows = case.text.lines().filter(|line| is_row(line)).count();
    let now = |f: &Finding| !case.long || (f.verdict == worst && rows <= LONG_ROWS);
    let targets = targets(&bench.before);
    let cleared =
        |(f, target): (&Finding, &Target)| if now(f) { bench.clearing(f, target) } else { by_hand(case.remedies, f) };
    let mut clearings: Vec<Clearing> = findings.par_iter().zip(&targets).map(cleared).collect();
    let along: Vec<Option<Change>> =
        (0..clearings.len()).into_par_iter().map(|i| bench.along_with(&clearings, &targets, i)).collect();
    clearings.iter_mut().zip(along).for_each(|(clearing, along)| clearing.along_with = along);
    clearings
}

/// The change of a clearing whose best is one alone.
fn single(clearing: &Clearing) -> Option<&Change> {
    clearing.changes.first().filter(|set| set.len() == 1).and_then(|set| set.first())
}

/// Whether a line opens a row of what the part is made of; a reading changes no part.
fn is_row(line: &str) -> bool {
    let line = line.trim_start();
    line.starts_with("[[") && !line.starts_with("[[measured")
}

/// A lever in its file.
struct Handle<'a> {
    lever: &'a Lever,
    file: String,
    text: String,
    path: String,
    /// The path in words.
    what: String,
    ladder: Ladder,
}

/// Most changes that are kept for a finding.
const MOST: usize = 8;
/// So many keys are tried there.
const LONG_HANDLES: usize = 7;
/// A part of more rows than that is not searched: what is to be done by hand is told alone.
const LONG_ROWS: usize = 8;
/// So many moves are proven where a working takes long, those first that are easiest.
const PROOFS: usize = 3;

struct Bench<'a> {
    case: &'a Case<'a>,
    before: Vec<Judged>,
    known: Known,
}

/// What a set of moves is: the file, the key and its text, of each.
type Moves = Vec<(String, String, String)>;

/// Workings that were made already, by the check that they were made for and their moves: several findings try the same ones.
#[derive(Default)]
struct Known(Mutex<BTreeMap<(String, Moves), Answer>>);

/// The findings of a working; none where the part cannot be so.
type Answer = Arc<Option<Vec<Judged>>>;

/// More workings than that are not kept.
const KEPT: usize = 4096;

impl Known {
    fn or(&self, key: (String, Moves), work: impl FnOnce() -> Option<Vec<Judged>>) -> Answer {
        let held = || self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(found) = held().get(&key) {
            return Arc::clone(found);
        }
        // Not held while it works: two at once work the same and find the same.
        let found = Arc::new(work());
        let mut all = held();
        if all.len() < KEPT {
            all.insert(key, Arc::clone(&found));
        }
        found
    }
}

/// The finding that is to be cleared: the how-many-eth of its name, since some checks are made of several tools or bolts.
struct Target {
    finding: Judged,
    nth: usize,
}

impl Target {
    /// The same finding of another working.
    fn among<'j>(&self, after: &'j [Judged]) -> Option<&'j Judged> {
        after.iter().filter(|j| j.is_named_as(&self.finding)).nth(self.nth)
    }
}

/// Each finding with its place among those of its name.
fn targets(findings: &[Judged]) -> Vec<Target> {
    let earlier = |i: usize, f: &Judged| findings.iter().take(i).filter(|g| g.is_named_as(f)).count();
    findings.iter().enumerate().map(|(i, f)| Target { finding: f.clone(), nth: earlier(i, f) }).collect()
}

impl Bench<'_> {
    fn remedy(&self, check: &str) -> Option<&'static Remedy> {
        of_check(self.case.remedies, check)
    }

    fn clearing(&self, finding: &Finding, target: &Target) -> Clearing {
        if finding.verdict == Verdict::Ok {
            return Clearing::default();
        }
        let Some(remedy) = self.remedy(&finding.key) else { return Clearing::default() };
        let why = |sentence: &str| Clearing { why_none: Some(sentence.to_string()), ..Clearing::default() };
        let handles = self.handles(remedy.levers);
        if self.case.long {
            return self.first_proven(target, remedy, handles);
        }
        let moves: Vec<Vec<Step>> = handles.par_iter().map(|h| self.moves(target, h)).collect();
        let found = moves.into_iter().enumerate().flat_map(|(i, steps)| steps.into_iter().map(move |s| (i, s)));
        let mut found: Vec<(&Handle, Step)> = found.filter_map(|(i, s)| Some((handles.get(i)?, s))).collect();
        found.sort_by(|(a, x), (b, y)| {
            a.lever.ease.cmp(&b.lever.ease).then(a.ladder.share(x.rung).total_cmp(&b.ladder.share(y.rung)))
        });
        let (mut sets, mut spoils) = (Vec::new(), Vec::new());
        let proven: Vec<Option<Worse>> = found.par_iter().map(|(h, s)| self.proven(target, h, s)).collect();
        for ((handle, step), worse) in found.into_iter().zip(proven) {
            match worse {
                None => sets.push(Scored::one(handle, step.rung)),
                Some(worse) => spoils.push((handle, step.rung, worse)),
            }
        }
        if sets.is_empty() {
            sets = self.pairs(target, &handles, &spoils);
        }
        sets.sort_by(|a, b| a.ease.cmp(&b.ease).then(a.share.total_cmp(&b.share)));
        sets.dedup_by(|a, b| a.changes == b.changes);
        sets.truncate(MOST);
        if sets.is_empty() {
            return why(&contradiction(remedy, &spoils, self.case.file));
        }
        Clearing { changes: sets.into_iter().map(|s| s.changes).collect(), ..Clearing::default() }
    }

    /// Of a part that takes long: key by key, the easiest first, until a move is proven.
    fn first_proven(&self, target: &Target, remedy: &Remedy, mut handles: Vec<Handle>) -> Clearing {
        handles.truncate(LONG_HANDLES);
        handles.sort_by_key(|h| h.lever.ease);
        let mut spoils = Vec::new();
        for handle in &handles {
            for step in self.moves(target, handle) {
                match self.proven(target, handle, &step) {
                    None => return Clearing { changes: vec![changes(handle, step.rung)], ..Clearing::default() },
                    Some(worse) => spoils.push((handle, step.rung, worse)),
                }
                if spoils.len() >= PROOFS {
                    return Clearing {
                        why_none: Some(contradiction(remedy, &spoils, self.case.file)),
                        ..Clearing::default()
                    };
                }
            }
        }
        Clearing { why_none: Some(contradiction(remedy, &spoils, self.case.file)), ..Clearing::default() }
    }

    /// What a move that clears the target makes worse after all, by the whole part and by the part that is changed.
    fn proven(&self, target: &Target, handle: &Handle, step: &Step) -> Option<Worse> {
        if step.worse.is_some() {
            return step.worse.clone();
        }
        let spoilt = || Worse { key: target.finding.key.clone(), what: "the part as a whole".into() };
        if self.case.long {
            let after = texts(&[(handle, step.rung)]).and_then(|instead| (self.case.work)(&instead));
            match after.map(|after| compared(&self.before, target, &after)) {
                Some(Trial::Clears { worse: None }) => {}
                Some(Trial::Clears { worse }) => return worse,
                _ => return Some(spoilt()),
            }
        }
        self.spoils_mate(target, handle, step.rung)
    }

    /// The levers with the files in which they stand.
    fn handles<'l>(&self, levers: &'l [Lever]) -> Vec<Handle<'l>> {
        let mut handles: Vec<Handle> = Vec::new();
        for lever in levers {
            for (file, text) in self.files_of(lever) {
                handles.extend(self.handles_in(lever, &file, &text));
            }
        }
        handles
    }

    /// The file in which a lever stands: this one, or every one that the key names, once.
    fn files_of(&self, lever: &Lever) -> Vec<(String, String)> {
        let own = || (self.case.file.to_string(), self.case.text.to_string());
        let Some(via) = lever.via else { return vec![own()] };
        let Some(file) = File::read(self.case.text) else { return Vec::new() };
        let mut names: Vec<String> = file.paths(via).iter().filter_map(|path| file.string(path)).collect();
        names.sort();
        names.dedup();
        names.iter().filter_map(|name| (self.case.neighbour)(name)).collect()
    }

    fn handles_in<'l>(&self, lever: &'l Lever, name: &str, text: &str) -> Vec<Handle<'l>> {
        let Some(file) = File::read(text) else { return Vec::new() };
        let own = name == self.case.file;
        let unit = file.unit().or(if own { self.case.unit } else { None });
        if lever.unit.is_some_and(|of| of != unit.unwrap_or(LengthUnit::Mm)) {
            return Vec::new();
        }
        let mut handles = Vec::new();
        let stands = lever.along.first().is_some_and(|(path, value)| file.written(path) == Some(value));
        if stands || lever.along.is_empty() && !file.has_table_of(lever.path) {
            return handles;
        }
        for path in file.paths(lever.path) {
            let found = file.at(&path);
            let usual = if own && found.is_none() { (self.case.usual)(&path) } else { None };
            let ladder = Ladder::of(lever.grid, found.as_ref().map(|f| &f.value), unit, usual);
            if let Some(ladder) = ladder.filter(|l| l.now.is_some()) {
                let what = in_words(&file, &path);
                handles.push(Handle { lever, file: name.into(), text: text.into(), path, what, ladder });
            }
        }
        handles
    }

    /// The least moves of a lever that clear the target; of one that aims, those that clear it best.
    fn moves(&self, target: &Target, handle: &Handle) -> Vec<Step> {
        let trial = |rung| self.trial(target, &[(handle, rung)]);
        let mut steps = search::least_moves(&handle.ladder, target.finding.value, &trial);
        if handle.lever.aims {
            let judged = |rung: i64| {
                let after = self.worked(target, &[(handle, rung)]);
                let after = after.as_ref().as_ref()?;
                let value = target.among(after)?.value;
                let clears = matches!(compared(&self.before, target, after), Trial::Clears { worse } if self.case.long || worse.is_none());
                clears.then_some(value)
            };
            for step in steps.iter_mut().filter(|step| step.worse.is_none()) {
                step.rung = search::aimed(&handle.ladder, step.rung, &judged);
            }
        }
        steps
    }

    /// The part worked with the moves, as far as the target needs it.
    fn worked(&self, target: &Target, moved: &[(&Handle, i64)]) -> Answer {
        let check = if self.case.long { target.finding.key.as_str() } else { "" };
        let move_of = |(handle, rung): &(&Handle, i64)| {
            let along = handle.lever.along.iter().map(|(path, to)| (handle.file.clone(), (*path).into(), (*to).into()));
            along.chain([(handle.file.clone(), handle.path.clone(), handle.ladder.text(*rung))]).collect::<Moves>()
        };
        let mut moves: Moves = moved.iter().flat_map(move_of).collect();
        moves.sort();
        self.known.or((check.into(), moves), || {
            let instead = texts(moved)?;
            if self.case.long { (self.case.work_for)(check, &instead) } else { (self.case.work)(&instead) }
        })
    }

    fn trial(&self, target: &Target, moved: &[(&Handle, i64)]) -> Trial {
        let worked = self.worked(target, moved);
        match worked.as_ref().as_ref().map_or(Trial::Impossible, |after| compared(&self.before, target, after)) {
            // What is left out of such a working says nothing of other findings; the whole part does.
            Trial::Clears { .. } if self.case.long => Trial::Clears { worse: None },
            trial => trial,
        }
    }

    /// A finding of the part that is changed which becomes worse, where that is another part than this one.
    fn spoils_mate(&self, target: &Target, handle: &Handle, rung: i64) -> Option<Worse> {
        if handle.file == self.case.file {
            return None;
        }
        let cleared = target.finding.verdict;
        let worked = |texts: &[Instead]| (self.case.work_mate)(&handle.file, &handle.text, texts);
        let before = worked(&[])?;
        match texts(&[(handle, rung)]).and_then(|instead| worked(&instead)) {
            Some(after) => worse(&before, &after, cleared),
            None => Some(Worse { key: String::new(), what: format!("{} cannot be so", named(&handle.file)) }),
        }
    }

    /// The best change of another finding that moves the same key elsewhere and clears this one too, while that of this one does
    /// not clear the other.
    fn along_with(&self, clearings: &[Clearing], targets: &[Target], at: usize) -> Option<Change> {
        let (own, target) = (single(clearings.get(at)?)?, targets.get(at)?);
        let clears = |change: &Change, target: &Target| {
            let after = self.text_with(change).and_then(|instead| (self.case.work)(&[instead]));
            after.is_some_and(|after| matches!(compared(&self.before, target, &after), Trial::Clears { worse: None }))
        };
        let others = clearings.iter().zip(targets).filter_map(|(c, t)| Some((single(c)?, t)));
        let same = others.filter(|(c, _)| c.file == own.file && c.key == own.key && c.to != own.to);
        same.filter(|(c, t)| clears(c, target) && !clears(own, t)).map(|(c, _)| c.clone()).next()
    }

    /// The text of a file with a change in it.
    fn text_with(&self, change: &Change) -> Option<Instead> {
        let text = if change.file == self.case.file {
            self.case.text.to_string()
        } else {
            (self.case.neighbour)(&change.file)?.1
        };
        Some((change.file.clone(), File::read(&text)?.with(&change.key, &change.to)?))
    }

    /// Two moves together: what one of them spoils, another mends; or each does a part.
    fn pairs(&self, target: &Target, handles: &[Handle], spoils: &[(&Handle, i64, Worse)]) -> Vec<Scored> {
        let mending = |(first, rung, worse): &(&Handle, i64, Worse)| -> Vec<Scored> {
            let Some(remedy) = self.remedy(&worse.key) else { return Vec::new() };
            let seconds = self.handles(remedy.levers);
            let others = seconds.iter().filter(|h| h.path != first.path || h.file != first.file);
            others.flat_map(|second| self.second(target, (first, *rung), second)).collect()
        };
        let mended: Vec<Scored> = spoils.par_iter().take(PAIRS).flat_map_iter(mending).collect();
        if !mended.is_empty() {
            return mended;
        }
        let first_two: Vec<(usize, &Handle)> = handles.iter().enumerate().take(PAIRS).collect();
        let both = |(i, first): &(usize, &Handle)| -> Vec<Scored> {
            let seconds: Vec<&Handle> = handles.iter().skip(i + 1).take(PAIRS).collect();
            let rungs = shares_of_a_move(&first.ladder);
            let all = rungs.into_iter().flat_map(|rung| seconds.iter().map(move |second| (rung, *second)));
            all.flat_map(|(rung, second)| self.second(target, (first, rung), second)).collect()
        };
        first_two.par_iter().flat_map_iter(both).collect()
    }

    /// The least moves of a second lever that clear the target and make nothing worse while the first stands moved; then the first
    /// goes back as far as it can, and the second after it.
    fn second(&self, target: &Target, first: (&Handle, i64), second: &Handle) -> Vec<Scored> {
        let nearest = |from: (&Handle, i64)| {
            let by_share = |a: &Step, b: &Step| second.ladder.share(a.rung).total_cmp(&second.ladder.share(b.rung));
            self.seconds(target, from, second).into_iter().min_by(by_share)
        };
        let both = |s: Step| {
            let least = self.back(target, first, (second, s.rung));
            // Where the second is not found again from there, both stay as they were found.
            let again = if least.1 == first.1 { None } else { nearest(least) };
            again.map_or_else(|| Scored::two(first, (second, s.rung)), |again| Scored::two(least, (second, again.rung)))
        };
        self.seconds(target, first, second).into_iter().map(both).collect()
    }

    fn seconds(&self, target: &Target, first: (&Handle, i64), second: &Handle) -> Vec<Step> {
        let clean = |rung: i64| match self.trial(target, &[first, (second, rung)]) {
            Trial::Clears { worse: Some(_) } => Trial::Stays(rung as f64),
            other => other,
        };
        let sound = |s: &Step| {
            self.spoils_mate(target, first.0, first.1).or(self.spoils_mate(target, second, s.rung)).is_none()
        };
        search::least_moves(&second.ladder, f64::NAN, &clean).into_iter().filter(sound).collect()
    }

    /// The least move of a first lever that still clears the target and makes nothing worse while the second stands moved.
    fn back<'h, 'l>(
        &self,
        target: &Target,
        first: (&'h Handle<'l>, i64),
        second: (&Handle, i64),
    ) -> (&'h Handle<'l>, i64) {
        let (handle, rung) = first;
        let clean = |rung: i64| match self.trial(target, &[(handle, rung), second]) {
            Trial::Clears { worse: Some(_) } => Trial::Stays(rung as f64),
            other => other,
        };
        let nearer = |s: &Step| handle.ladder.share(s.rung) < handle.ladder.share(rung);
        let sound = |s: &Step| self.spoils_mate(target, handle, s.rung).is_none();
        let least = search::least_moves(&handle.ladder, f64::NAN, &clean).into_iter().filter(|s| nearer(s) && sound(s));
        let by_share = |a: &Step, b: &Step| handle.ladder.share(a.rung).total_cmp(&handle.ladder.share(b.rung));
        (handle, least.min_by(by_share).map_or(rung, |s| s.rung))
    }
}

/// What another working says of the target.
fn compared(before: &[Judged], target: &Target, after: &[Judged]) -> Trial {
    match target.among(after) {
        None => Trial::Impossible,
        Some(now) if now.verdict == Verdict::Ok => {
            Trial::Clears { worse: worse(before, after, target.finding.verdict) }
        }
        Some(now) => Trial::Stays(now.value),
    }
}

/// The name of a file without its folder.
fn named(file: &str) -> &str {
    file.rsplit(['/', '\\']).next().unwrap_or(file)
}

/// Which two demands contradict each other, where one move would clear it; else what is to be done instead.
fn contradiction(remedy: &Remedy, spoils: &[(&Handle, i64, Worse)], file: &str) -> String {
    match spoils.first() {
        Some((handle, rung, worse)) => format!(
            "{}; {} = {}{} would clear it, but then there is another: {}",
            remedy.otherwise,
            handle.what,
            handle.ladder.text(*rung),
            if handle.file == file { String::new() } else { format!(" in {}", named(&handle.file)) },
            worse.what,
        ),
        None => remedy.otherwise.to_string(),
    }
}

/// So many levers are tried in pairs.
const PAIRS: usize = 4;

/// Moves of a twentieth, a fifth and a half up and down, on the ladder.
fn shares_of_a_move(ladder: &Ladder) -> Vec<i64> {
    let now = ladder.now.unwrap_or(0.0);
    let by = now.abs().max(5.0);
    let rungs = [0.05, -0.05, 0.2, -0.2, 0.5, -0.5].map(|share| (now + share * by).round() as i64);
    rungs.into_iter().filter(|r| (ladder.least..=ladder.most).contains(r)).collect()
}

/// A limit that is missed by so much more of itself is missed by more.
const MISSED_BY_MORE: f64 = 0.005;

/// The first finding of another working that is worse than it was; one that was not there counts as in order before. What is as
/// bad as that which is cleared, and misses its limit by more than it did, is worse as well: two findings that want one key
/// moved either way are not told so.
fn worse(before: &[Judged], after: &[Judged], cleared: Verdict) -> Option<Worse> {
    let mut left: Vec<&Judged> = before.iter().collect();
    for now in after {
        let was = left.iter().position(|j| j.is_named_as(now)).map(|at| left.remove(at));
        let rooms = was.and_then(|was| Some((was.room?, now.room?)));
        let missed = rooms.is_some_and(|(was, now)| now < 0.0 && now < was - MISSED_BY_MORE);
        let verdict = was.map_or(Verdict::Ok, |was| was.verdict);
        if now.verdict > verdict || (now.verdict >= cleared && missed) {
            return Some(Worse { key: now.key.clone(), what: now.what.clone() });
        }
    }
    None
}

/// The texts of the files with all moves in them.
fn texts(moved: &[(&Handle, i64)]) -> Option<Vec<Instead>> {
    let mut instead: Vec<Instead> = Vec::new();
    for (handle, rung) in moved {
        let to = handle.ladder.text(*rung);
        let set = |text: &str| {
            let beside = handle
                .lever
                .along
                .iter()
                .try_fold(text.to_string(), |text, (path, value)| File::read(&text)?.with(path, value))?;
            File::read(&beside)?.with(&handle.path, &to)
        };
        match instead.iter_mut().find(|(file, _)| *file == handle.file) {
            Some((_, text)) => *text = set(text)?,
            None => instead.push((handle.file.clone(), set(&handle.text)?)),
        }
    }
    Some(instead)
}

/// A set of changes with what it costs.
struct Scored {
    changes: Vec<Change>,
    ease: Ease,
    share: f64,
}

impl Scored {
    fn one(handle: &Handle, rung: i64) -> Self {
        Self { changes: changes(handle, rung), ease: handle.lever.ease, share: handle.ladder.share(rung) }
    }

    fn two(first: (&Handle, i64), second: (&Handle, i64)) -> Self {
        let (a, b) = (Self::one(first.0, first.1), Self::one(second.0, second.1));
        Self { changes: [a.changes, b.changes].concat(), ease: a.ease.max(b.ease), share: a.share + b.share }
    }
}

/// What stands beside it and is not so yet, then the move itself.
fn changes(handle: &Handle, rung: i64) -> Vec<Change> {
    let file = File::read(&handle.text);
    let written = |path: &str| file.as_ref().and_then(|f| f.written(path));
    let beside = handle.lever.along.iter().filter(|(path, value)| written(path) != Some(value));
    let beside = beside.map(|(path, value)| Change {
        file: handle.file.clone(),
        key: (*path).into(),
        what: (*path).into(),
        from: written(path).map(str::to_string),
        to: (*value).into(),
        less: None,
        once: "",
    });
    beside.chain([change(handle, rung)]).collect()
}

fn change(handle: &Handle, rung: i64) -> Change {
    let from = File::read(&handle.text).and_then(|f| f.written(&handle.path).map(str::to_string));
    Change {
        file: handle.file.clone(),
        key: handle.path.clone(),
        what: handle.what.clone(),
        from,
        to: handle.ladder.text(rung),
        // A step before the best clears as well.
        less: handle.ladder.nearer(rung).filter(|_| !handle.lever.aims),
        once: handle.lever.once,
    }
}

/// A path as a person says it: `height of seat RL`; a plain one as it is.
fn in_words(file: &File, path: &str) -> String {
    let parts: Vec<&str> = path.split('.').collect();
    match parts.as_slice() {
        [rows, row, key] if row.parse::<usize>().is_ok() => {
            let name = file.string(&format!("{rows}.{row}.name"));
            // Sheets count from 1, as a person does.
            let number = row.parse::<usize>().map_or_else(|_| (*row).to_string(), |at| (at + 1).to_string());
            format!("{key} of {rows} {}", name.unwrap_or(number))
        }
        _ => path.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::lever::Grid;

    const LEVERS: &[Remedy] = &[
        Remedy {
            checks: &["area"],
            levers: &[
                Lever::free("a", Grid::Length(0.5, 0.02, 1.0, 50.0)),
                Lever::free("b", Grid::Length(0.5, 0.02, 1.0, 50.0)),
            ],
            otherwise: "take a larger plate",
        },
        Remedy { checks: &["narrow"], levers: &[Lever::free("b", Grid::Length(0.5, 0.02, 1.0, 50.0))], otherwise: "" },
    ];

    fn number(text: &str, key: &str) -> f64 {
        let file = File::read(text).unwrap();
        file.string(key).unwrap().trim_end_matches(" mm").parse().unwrap()
    }

    /// A plate `a` by `b`: its area at least so much, `a` at most `longest`, `b` at most `widest`.
    fn answer(longest: f64, widest: f64, least_area: f64) -> Clearing {
        let text = "a = \"10 mm\" # so long\nb = \"4 mm\"\n";
        let judge = |key: &str, value: f64, ok: bool| Judged {
            key: key.into(),
            what: key.into(),
            verdict: if ok { Verdict::Ok } else { Verdict::Fail },
            value,
            room: None,
        };
        let work = |instead: &[Instead]| {
            let text = instead.first().map_or(text, |(_, text)| text.as_str());
            let (a, b) = (number(text, "a"), number(text, "b"));
            Some(vec![
                judge("area", a * b, a * b >= least_area),
                judge("narrow", a, a <= longest),
                judge("wide", b, b <= widest),
            ])
        };
        let case = Case {
            file: "x.toml",
            text,
            unit: None,
            neighbour: &|_| None,
            usual: &|_| None,
            long: false,
            work: &work,
            work_for: &|_, instead| work(instead),
            work_mate: &|_, _, _| None,
            remedies: &[LEVERS],
        };
        let bench = Bench { case: &case, before: work(&[]).unwrap(), known: Known::default() };
        let finding = Finding {
            key: "area".into(),
            verdict: Verdict::Fail,
            what: "area".into(),
            value: None,
            limit: crate::record::design::Limit::None,
            because: String::new(),
            worst: Verdict::Fail,
            source: crate::source::Source::CommonPractice,
            clearing: Clearing::default(),
        };
        bench.clearing(&finding, &Target { finding: Judged::of(&finding), nth: 0 })
    }

    fn said(c: &Clearing) -> Vec<String> {
        c.changes
            .iter()
            .map(|set| set.iter().map(|c| format!("{}={}", c.key, c.to)).collect::<Vec<_>>().join(" "))
            .collect()
    }

    #[test]
    fn the_smaller_change_comes_first() {
        let c = answer(1e9, 1e9, 41.0);
        assert_eq!(said(&c), ["a=\"10.5 mm\"", "b=\"4.5 mm\""]);
        assert_eq!(c.changes[0][0].from.as_deref(), Some("\"10 mm\""));
    }

    #[test]
    fn a_change_that_spoils_another_finding_is_no_remedy() {
        assert_eq!(said(&answer(10.0, 1e9, 41.0)), ["b=\"4.5 mm\""]);
    }

    #[test]
    fn two_together_where_one_alone_does_not_do() {
        let c = answer(12.0, 6.0, 65.0);
        assert!(c.changes.iter().all(|set| set.len() == 2), "{c:?}");
        let set = &c.changes[0];
        let [a, b] = ["a", "b"].map(|k| {
            set.iter()
                .find(|c| c.key == k)
                .unwrap()
                .to
                .trim_matches('"')
                .trim_end_matches(" mm")
                .parse::<f64>()
                .unwrap()
        });
        assert!(a <= 12.0 && b <= 6.0 && a * b >= 65.0, "{a} x {b}");
    }

    #[test]
    fn where_nothing_does_the_two_demands_are_named() {
        let c = answer(11.0, 5.0, 65.0);
        assert!(c.changes.is_empty());
        let why = c.why_none.unwrap();
        assert!(why.contains("another") && why.contains("take a larger plate"), "{why}");
    }

    /// Of two findings of one name the second is not cleared because the first is in order.
    /// What fails and fails by more is worse; a caution that moves on while a failure is cleared is not, one that moves while a
    /// caution is cleared is.
    #[test]
    fn what_is_missed_by_more_is_worse() {
        let judged =
            |verdict, room| Judged { key: "k".into(), what: "k".into(), verdict, value: 0.0, room: Some(room) };
        let is_worse =
            |verdict, was, now, cleared| worse(&[judged(verdict, was)], &[judged(verdict, now)], cleared).is_some();
        assert!(is_worse(Verdict::Fail, -0.1, -0.2, Verdict::Fail));
        assert!(is_worse(Verdict::Fail, -0.1, -0.2, Verdict::Caution));
        assert!(!is_worse(Verdict::Caution, -0.1, -0.2, Verdict::Fail));
        assert!(is_worse(Verdict::Caution, -0.1, -0.2, Verdict::Caution));
        assert!(
            !is_worse(Verdict::Fail, -0.2, -0.1, Verdict::Caution)
                && !is_worse(Verdict::Ok, 0.2, 0.1, Verdict::Caution)
        );
    }

    #[test]
    fn two_findings_of_one_name_are_told_apart() {
        let judged = |verdict| Judged { key: "speed".into(), what: "speed".into(), verdict, value: 1.0, room: None };
        let before = [judged(Verdict::Ok), judged(Verdict::Fail)];
        let targets = targets(&before);
        assert_eq!((targets[0].nth, targets[1].nth), (0, 1));
        assert_eq!(compared(&before, &targets[1], &before), Trial::Stays(1.0));
        let after = [judged(Verdict::Ok), judged(Verdict::Ok)];
        assert_eq!(compared(&before, &targets[1], &after), Trial::Clears { worse: None });
    }
}
