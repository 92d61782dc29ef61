//! `make`: works what has changed, and puts the files into one folder.

use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use clap::Args;
use rayon::prelude::*;

use super::parts::coloured;
use super::printing::Printing;
use super::progress::Progress;
use super::reading::{self, InForce, SHOP_FILE, Texts, Trouble, part_files, shown, stem};
use super::{Exit, wrong};
use crate::export::{self, Options, dxf};
use crate::folder::FolderError;
use crate::folder::aside::Aside;
use crate::folder::claim::{Claim, Earlier, State};
use crate::folder::list::{Entry, Input, Part};
use crate::folder::place;
use crate::folder::staging::{Finished, Staging};
use crate::printable::printable;
use crate::record::design::{Design, Verdict};
use crate::record::show;
use crate::units::Length;
use crate::whole::share::Share;

mod whole;

/// Arguments of `make`.
#[derive(Args)]
pub struct Make {
    /// Part files, or folders of them
    #[arg(default_value = "parts")]
    paths: Vec<PathBuf>,
    /// Folder for the files; it appears whole or not at all, and only what has changed is worked
    #[arg(long, default_value = "out")]
    out: PathBuf,
    /// Only these kinds of file, such as dxf,stl; the whole job is not made then
    #[arg(long, value_delimiter = ',')]
    only: Vec<String>,
    /// Greatest distance of STL facets from the true surface
    #[arg(long, default_value = "0.01 mm", value_parser = chord)]
    chord: Length,
    #[command(flatten)]
    printing: Printing,
    /// Version of DXF: R2000 or R12
    #[arg(long, default_value = "R2000", value_parser = version)]
    dxf: dxf::Release,
}

fn chord(text: &str) -> Result<Length, String> {
    let chord = super::read::size(text)?;
    if (1e-4..=1.0).contains(&chord.as_mm()) { Ok(chord) } else { Err("between 0.0001 mm and 1 mm".into()) }
}

fn version(text: &str) -> Result<dxf::Release, String> {
    match text.to_ascii_uppercase().as_str() {
        "R2000" => Ok(dxf::Release::R2000),
        "R12" => Ok(dxf::Release::R12),
        _ => Err("R2000 or R12".into()),
    }
}

/// A part that the call names.
struct Named {
    /// As it was called.
    path: PathBuf,
    /// Seen from the folder.
    place: String,
}

/// What is to be done with a part that the call names.
enum Task<'a> {
    /// Its files stand as they would be made.
    Stands(&'a Part),
    /// It is worked; the files of these kinds stay.
    Work { staying: Vec<Entry> },
    /// It cannot have files here.
    Refused(Trouble),
}

/// What came of the parts, for the closing lines.
#[derive(Default)]
struct Account {
    exit: Exit,
    /// Why parts could not be made, in order.
    refused: Vec<String>,
    /// What the terminal shows of each part, in order.
    told: Vec<String>,
    made: usize,
    unchanged: usize,
    /// Parts of another version of the program that were not asked for.
    older: usize,
    /// Sentences.
    stale: Vec<String>,
    by_hand: Vec<String>,
    /// Names of files in the folder beside that a run which was cut short had left to be found.
    rescued: Vec<String>,
}

impl Account {
    fn worst(&mut self, exit: Exit) {
        self.exit = self.exit.max(exit);
    }
}

/// Hashes of the files that answers rest on, each read once in a run.
struct Hashes<'a> {
    folder: &'a Path,
    known: Mutex<BTreeMap<String, String>>,
}

impl Hashes<'_> {
    fn of(&self, place: &str) -> String {
        let lock = || self.known.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(hash) = lock().get(place) {
            return hash.clone();
        }
        let hash = reading::hash_of(&place::resolve(self.folder, place));
        lock().insert(place.to_string(), hash.clone());
        hash
    }

    /// The first thing that an answer rests on and that is no longer what it was.
    fn first_change<'p>(&self, part: &'p Part) -> Option<&'p Input> {
        part.rests_on.iter().find(|input| self.of(&input.file) != input.sha256)
    }
}

/// One call of `make`, with all that its steps need.
struct Run<'a> {
    claim: &'a Claim,
    earlier: &'a Earlier,
    hashes: Hashes<'a>,
    /// What each part that was worked gives to the whole job, by its place; also those that could not be.
    shares: Mutex<BTreeMap<String, Share>>,
    shop: &'a InForce,
    options: Options,
    /// The kinds of file that this call makes, each with the options that shape it.
    kinds: Arc<BTreeMap<String, String>>,
    named: Vec<Named>,
    /// The parts of the list by their places.
    by_place: BTreeMap<&'a str, &'a Part>,
    /// The parts of the list by the stems of their files.
    by_stem: BTreeMap<String, Vec<&'a Part>>,
}

/// `make`.
pub fn make(call: &Make, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    let known: Vec<&str> = export::FORMATS.iter().map(|f| f.extension).collect();
    if let Some(unknown) = call.only.iter().find(|o| !known.contains(&o.as_str())) {
        return wrong(err, format!("there is no kind of file `{unknown}`; the kinds are {}", known.join(", ")));
    }
    let (files, exit) = part_files(&call.paths, err)?;
    let shop = match reading::shop(&call.paths, err)? {
        Ok(shop) => shop,
        Err(exit) => return Ok(exit),
    };
    if files.is_empty() {
        return Ok(exit);
    }
    let mut account = Account { exit, ..Account::default() };
    let ran = run(call, files, &shop, &mut account);
    for message in &account.refused {
        writeln!(err, "{}", message.trim_end())?;
    }
    match ran {
        Ok(finished) => tell(call, &account, finished, out, err),
        Err(error) => {
            writeln!(err, "error: {error}")?;
            Ok(Exit::Disk)
        }
    }
}

/// Number of files in the folder, and what came of a new one; `None` where all stood.
type Ended = (usize, Option<Finished>);

/// Claims the folder, decides, works, and puts the new folder in place.
fn run(call: &Make, files: BTreeSet<PathBuf>, shop: &InForce, account: &mut Account) -> Result<Ended, FolderError> {
    let claim = Claim::new(&call.out)?;
    let earlier = claim.earlier()?;
    account.rescued = claim.rescued().to_vec();
    let style = call.printing.style(&shop.profile);
    let options = Options { chord_tolerance: call.chord, dxf: call.dxf, style, only: call.only.clone() };
    let hashes = Hashes { folder: claim.folder(), known: Mutex::default() };
    let named = files.into_iter().map(|path| Named { place: place_of(claim.folder(), &path), path }).collect();
    let by_place = earlier.list.parts.iter().map(|p| (p.part.as_str(), p)).collect();
    let mut by_stem: BTreeMap<String, Vec<&Part>> = BTreeMap::new();
    for part in &earlier.list.parts {
        by_stem.entry(lower_stem(&part.part)).or_default().push(part);
    }
    let kinds = Arc::new(kinds(&options));
    Run {
        claim: &claim,
        earlier: &earlier,
        hashes,
        shares: Mutex::default(),
        shop,
        options,
        kinds,
        named,
        by_place,
        by_stem,
    }
    .go(account)
}

/// The kinds of file that a call makes, each with the options that shape it.
fn kinds(options: &Options) -> BTreeMap<String, String> {
    let wanted = |f: &&export::Format| options.only.is_empty() || options.only.iter().any(|o| o == f.extension);
    export::FORMATS.iter().filter(wanted).map(|f| (f.extension.to_string(), (f.shaped_by)(options))).collect()
}

/// The place of a part file seen from the folder. One that cannot be looked up keeps its name, and is told when it is read.
fn place_of(folder: &Path, file: &Path) -> String {
    place::whole(file).map_or_else(|_| shown(file), |whole| place::seen_from(folder, &whole))
}

fn lower_stem(place: &str) -> String {
    stem(Path::new(place)).to_lowercase()
}

impl<'a> Run<'a> {
    fn go(&self, account: &mut Account) -> Result<Ended, FolderError> {
        let tasks = self.tasks();
        let others = self.others(account);
        // A part that is refused and has nothing here changes nothing.
        let stands = |(named, task): (&Named, &Task)| match task {
            Task::Stands(_) => true,
            Task::Work { .. } => false,
            Task::Refused(_) => self.earlier_part(&named.place).is_none(),
        };
        let refused = tasks.iter().filter(|task| matches!(task, Task::Refused(_))).count();
        let job = whole::Standing::of(self, refused == tasks.len());
        let all_stand = others.stale.is_empty() && job.stands && self.named.iter().zip(&tasks).all(stands);
        let staging = if all_stand { None } else { Some(Staging::begin(self.claim, self.earlier)?) };
        self.work(tasks, staging.as_ref(), account)?;
        let Some(staging) = staging else { return Ok((self.earlier.list.entries().count() + 1, None)) };
        others.kept.iter().try_for_each(|part| staging.keep(part))?;
        job.put(self, &staging, &others, account)?;
        others.stale.iter().try_for_each(|part| staging.set_aside(part))?;
        let finished = staging.finish()?;
        Ok((finished.files, Some(finished)))
    }

    /// What is to be done with each part that the call names.
    fn tasks(&self) -> Vec<Task<'a>> {
        let paths: Vec<PathBuf> = self.named.iter().map(|n| n.path.clone()).collect();
        let twice = reading::same_stems(&paths);
        self.named
            .par_iter()
            .map(|named| match reading::unique(&named.path, &twice).and_then(|()| self.alone(named)) {
                Ok(()) => self.task(named),
                Err(trouble) => Task::Refused(trouble),
            })
            .collect()
    }

    /// Whether no other part has files of the same stem in the folder.
    fn alone(&self, named: &Named) -> Result<(), Trouble> {
        let there = |place: &str| place::whole(&place::resolve(self.claim.folder(), place)).ok().filter(|p| p.exists());
        // The same file under another spelling, or one that is gone, stands in nobody's way.
        let other = self.by_stem.get(&lower_stem(&named.place)).into_iter().flatten().find(|part| {
            part.part != named.place && there(&part.part).is_some_and(|other| Some(other) != there(&named.place))
        });
        match other {
            None => Ok(()),
            Some(part) => {
                let other = format!("{}, which has files in the folder already", part.part);
                Err((Exit::Wrong, reading::same_names(&shown(&named.path), &other)))
            }
        }
    }

    fn task(&self, named: &Named) -> Task<'a> {
        let Some(part) = self.earlier_part(&named.place) else { return Task::Work { staying: Vec::new() } };
        let shop_now = &self.shop.file.1;
        let shop_then = part.rests_on.iter().find(|i| is_shop(&i.file)).map(|i| &i.sha256);
        let same = self.earlier.list.is_of_this_program(part)
            && shop_then == Some(shop_now)
            && part.rests_on.iter().filter(|i| !is_shop(&i.file)).all(|i| self.hashes.of(&i.file) == i.sha256);
        if !same {
            return Task::Work { staying: Vec::new() };
        }
        let kinds = &self.kinds;
        let stands = kinds.iter().all(|(kind, options)| part.kinds.get(kind) == Some(options))
            && part
                .files
                .iter()
                .filter(|f| kinds.contains_key(f.kind()))
                .all(|f| self.earlier.state(&f.file) == State::Ours);
        if stands {
            return Task::Stands(part);
        }
        Task::Work { staying: part.files.iter().filter(|f| !kinds.contains_key(f.kind())).cloned().collect() }
    }

    fn earlier_part(&self, place: &str) -> Option<&'a Part> {
        self.by_place.get(place).copied()
    }

    /// Works the parts and puts their files into the new folder as they come; what is to be said of them is collected.
    fn work(&self, tasks: Vec<Task>, staging: Option<&Staging>, account: &mut Account) -> Result<(), FolderError> {
        let bar = Progress::new(tasks.iter().filter(|t| matches!(t, Task::Work { .. })).count());
        let texts = Texts::default();
        let outcomes: Vec<Result<Outcome, FolderError>> = self
            .named
            .par_iter()
            .zip(tasks)
            .map(|(named, task)| self.outcome(named, task, staging, &texts, &bar))
            .collect();
        bar.end();
        // In the order of the parts, so that of several troubles the first is told, whichever came first.
        for (named, outcome) in self.named.iter().zip(outcomes) {
            self.account_for(named, outcome?, account);
        }
        Ok(())
    }

    fn account_for(&self, named: &Named, outcome: Outcome, account: &mut Account) {
        let stem = stem(&named.path);
        match outcome {
            Outcome::Refused((exit, message)) => {
                account.worst(exit);
                account.refused.push(message);
                if self.earlier_part(&named.place).is_some() {
                    account.stale.push(format!("{stem}: it cannot be made as its part file is now"));
                }
            }
            Outcome::Stands(part) => {
                account.unchanged += 1;
                if part.verdict == Verdict::Fail.word() {
                    account.worst(Exit::Fails);
                    account.told.extend(part.told.iter().cloned());
                }
            }
            Outcome::Made { fails, told, other_kinds } => {
                account.made += 1;
                if fails {
                    account.worst(Exit::Fails);
                }
                if other_kinds {
                    account.stale.push(format!("{stem}: the kinds of file that were not asked for are older"));
                }
                account.told.extend(told);
            }
        }
    }

    fn outcome<'t>(
        &self,
        named: &Named,
        task: Task<'t>,
        staging: Option<&Staging>,
        texts: &Texts,
        bar: &Progress,
    ) -> Result<Outcome<'t>, FolderError> {
        let old = self.earlier_part(&named.place);
        let refused = |trouble: Trouble| {
            if let (Some(part), Some(staging)) = (old, staging) {
                staging.set_aside(part)?;
            }
            Ok(Outcome::Refused(trouble))
        };
        match (task, staging) {
            (Task::Stands(part), staging) => {
                staging.map_or(Ok(()), |staging| staging.keep(part))?;
                Ok(Outcome::Stands(part))
            }
            (Task::Refused(trouble), _) => refused(trouble),
            (Task::Work { staying }, staging) => {
                let made = self.made(named, texts, bar);
                bar.step();
                match (made, staging) {
                    (Ok((part, files)), Some(staging)) => self.put(part, &files, old, &staying, staging),
                    // Where there is work there is a new folder.
                    (Ok((part, _)), None) => Ok(Outcome::made(&part, false)),
                    (Err(trouble), _) => {
                        let share = Share::faulty(&label(&named.path), &stem(&named.path), &trouble.1);
                        self.gives(&named.place, share);
                        refused(trouble)
                    }
                }
            }
        }
    }

    /// Puts the files of a part into the new folder, with those of its other kinds that stay.
    fn put<'t>(
        &self,
        mut part: Part,
        files: &[export::NamedBytes],
        old: Option<&Part>,
        staying: &[Entry],
        staging: &Staging,
    ) -> Result<Outcome<'t>, FolderError> {
        let left = self.left_over(old, &part, staying);
        staging.set_aside(&left)?;
        if let (Some(old), false) = (old, staying.is_empty()) {
            for (kind, options) in old.kinds.iter() {
                Arc::make_mut(&mut part.kinds).entry(kind.clone()).or_insert_with(|| options.clone());
            }
        }
        let made = Outcome::made(&part, !left.files.is_empty());
        staging.put(part, files, staying)?;
        Ok(made)
    }

    /// The files of the kinds that this call does not make, where they are not of the part as it is now.
    fn left_over(&self, old: Option<&Part>, new: &Part, staying: &[Entry]) -> Part {
        let is_left = |f: &&Entry| !new.kinds.contains_key(f.kind()) && !staying.contains(f);
        Part { files: old.iter().flat_map(|p| &p.files).filter(is_left).cloned().collect(), ..Part::default() }
    }

    /// Works a part and makes its files.
    fn made(&self, named: &Named, texts: &Texts, bar: &Progress) -> Result<(Part, Vec<export::NamedBytes>), Trouble> {
        let mut worked = texts.work(&named.path, &self.shop.profile, bar)?;
        // The same words from whichever folder the program was called, of the mates that a remedy names as well.
        for file in worked.design.files_named() {
            if let Ok(whole) = place::whole(Path::new(&*file)) {
                *file = place::label(&whole);
            }
        }
        let files = export::files(&worked.design, &self.options)
            .map_err(|error| (Exit::Wrong, format!("error: {}: {error}", shown(&named.path))))?;
        let input = |(path, sha256): &(PathBuf, String)| Input {
            file: place_of(self.claim.folder(), path),
            sha256: sha256.clone(),
        };
        self.gives(&named.place, Share::of(&worked.design, &self.shop.profile));
        let part = Part {
            part: named.place.clone(),
            made_by: None,
            verdict: worked.design.verdict().word().into(),
            told: told(&worked.design),
            rests_on: worked.rests_on.iter().chain([&self.shop.file]).map(input).collect(),
            kinds: self.kinds.clone(),
            files: Vec::new(),
        };
        Ok((part, files))
    }

    /// Keeps what a part gives to the whole job.
    fn gives(&self, place: &str, share: Share) {
        self.shares.lock().unwrap_or_else(PoisonError::into_inner).insert(place.into(), share);
    }

    /// The parts of the folder that the call does not name: those that are still what their part files say, and the others.
    fn others(&self, account: &mut Account) -> Others {
        let named: BTreeSet<&str> = self.named.iter().map(|n| n.place.as_str()).collect();
        let mut others = Others::default();
        for part in self.earlier.list.parts.iter().filter(|p| !named.contains(p.part.as_str())) {
            match self.why_stale(part) {
                None => {
                    account.unchanged += 1;
                    account.older += usize::from(!self.earlier.list.is_of_this_program(part));
                    let changed = part.files.iter().filter(|f| self.earlier.state(&f.file) == State::ByHand);
                    account.by_hand.extend(changed.map(|f| f.file.clone()));
                    others.kept.push(part.clone());
                }
                Some(why) => {
                    account.stale.push(format!("{}: {why}", printable(&stem(Path::new(&part.part)))));
                    others.stale.push(part.clone());
                }
            }
        }
        others
    }

    fn why_stale(&self, part: &Part) -> Option<String> {
        let changed = self.hashes.first_change(part);
        if part.rests_on.is_empty() {
            return Some("written by an earlier version of setdown, which did not say from what".into());
        }
        let changed = changed?;
        let label = place::label(&place::resolve(self.claim.folder(), &changed.file));
        let gone = self.hashes.of(&changed.file).is_empty();
        let its_own = part.rests_on.first() == Some(changed);
        Some(match (its_own, gone) {
            (true, true) => match self.named.iter().find(|n| self.hashes.of(&n.place) == changed.sha256) {
                Some(renamed) => format!("its part file is now {}", shown(&renamed.path)),
                None => format!("its part file {label} is gone"),
            },
            (true, false) => format!("its part file {label} has changed"),
            (false, true) => format!("{label}, on which it rests, is gone"),
            (false, false) => format!("{label}, on which it rests, has changed"),
        })
    }
}

/// Parts that the call does not name.
#[derive(Default)]
struct Others {
    kept: Vec<Part>,
    stale: Vec<Part>,
}

/// What came of a part that the call names.
enum Outcome<'a> {
    Stands(&'a Part),
    Made { fails: bool, told: Vec<String>, other_kinds: bool },
    Refused(Trouble),
}

impl Outcome<'_> {
    /// What is to be said of a part that was made; thousands wait for their turn, so that it holds no more.
    fn made(part: &Part, other_kinds: bool) -> Self {
        Self::Made { fails: part.verdict == Verdict::Fail.word(), told: part.told.clone(), other_kinds }
    }
}

/// The short name of a part file.
fn label(path: &Path) -> String {
    place::whole(path).map_or_else(|_| shown(path), |whole| place::label(&whole))
}

fn is_shop(place: &str) -> bool {
    place.rsplit('/').next() == Some(SHOP_FILE)
}

/// What the terminal shows of a part.
fn told(design: &Design) -> Vec<String> {
    let cautions = design.findings.iter().filter(|f| f.verdict == Verdict::Caution).count();
    let note = match cautions {
        0 => String::new(),
        1 => ", 1 caution".into(),
        n => format!(", {n} cautions"),
    };
    let header = &design.header;
    let wanted = show::wanted(design).map_or_else(String::new, |words| format!(", {words}"));
    let head = format!("  {:<8}{} ({}{wanted}{note})", design.verdict().word(), header.name, header.family);
    let fails = show::finding_lines(design)
        .iter()
        .filter(|l| l.verdict == "fail")
        .map(|l| format!("          {} - {}", l.head, l.because))
        .collect::<Vec<_>>();
    [head].into_iter().chain(fails).collect()
}

/// Tells what was done; what stands in the folder stands there whether it can be told or not.
fn tell(
    call: &Make,
    account: &Account,
    (files, finished): (usize, Option<Finished>),
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    let mut exit = account.exit;
    let clashes = finished.iter().flat_map(|f| &f.clashes);
    for clash in clashes {
        let [one, other] = clash.parts.each_ref().map(|place| place::label(Path::new(place)));
        writeln!(err, "error: {one} and {other} both give a file {}; rename one of the part files", clash.file)?;
        exit = exit.max(Exit::Wrong);
    }
    match closing(call, account, files, finished.as_ref(), out).and_then(|()| out.flush()) {
        Err(error) => {
            writeln!(err, "error: cannot print: {error}; the files are in place in {}", shown(&call.out))?;
            Ok(Exit::Disk)
        }
        Ok(()) => Ok(exit),
    }
}

/// The parts that were made, and a line each for made, unchanged, stale and set aside.
fn closing(
    call: &Make,
    account: &Account,
    files: usize,
    finished: Option<&Finished>,
    out: &mut dyn Write,
) -> io::Result<()> {
    for line in &account.told {
        writeln!(out, "{}", coloured(line))?;
    }
    let parts = |n: usize| match n {
        0 => "none".to_string(),
        1 => "1 part".into(),
        n => format!("{n} parts"),
    };
    let folder = shown(&call.out);
    let what = if finished.is_some() { "" } else { ", nothing changed" };
    writeln!(out, "{folder}: {files} files{what}")?;
    writeln!(out, "  made       {}", parts(account.made))?;
    writeln!(out, "  unchanged  {}", parts(account.unchanged))?;
    if account.older > 0 {
        writeln!(
            out,
            "             {} by another version of setdown: `make` without a name works them again",
            parts(account.older)
        )?;
    }
    let nothing = Finished::default();
    let finished = finished.unwrap_or(&nothing);
    let beside = beside(&call.out);
    let marked = match finished.stale.len() {
        0 => String::new(),
        1 => format!("; its file is in {beside}, marked stale"),
        n => format!("; {n} files are in {beside}, marked stale"),
    };
    lines(out, "stale", &account.stale, &marked)?;
    let mut aside: Vec<String> =
        account.rescued.iter().chain(&finished.by_hand).map(|name| format!("{beside}/{name}")).collect();
    aside.extend(
        account
            .by_hand
            .iter()
            .map(|name| format!("{folder}/{name} was changed by hand and stays: its part was not named")),
    );
    lines(out, "set aside", &aside, "")
}

/// The folder beside as a person finds it: from where the call was made, or by its whole path where `out` is a link.
fn beside(out: &Path) -> String {
    let near = PathBuf::from(format!("{}-set-aside", shown(out)));
    let meant = place::folder(out).map(|folder| Aside::of(&folder).folder().to_path_buf());
    match meant {
        Ok(meant) if place::folder(&near).is_ok_and(|near| near == meant) => shown(&near),
        Ok(meant) => shown(&meant),
        Err(_) => shown(&near),
    }
}

/// A heading with its sentences below one another, or with `none`.
fn lines(out: &mut dyn Write, heading: &str, sentences: &[String], closing: &str) -> io::Result<()> {
    if sentences.is_empty() {
        return writeln!(out, "  {heading:<9}  none");
    }
    let last = sentences.len() - 1;
    for (i, sentence) in sentences.iter().enumerate() {
        let (heading, closing) = (if i == 0 { heading } else { "" }, if i == last { closing } else { "" });
        writeln!(out, "  {heading:<9}  {sentence}{closing}")?;
    }
    Ok(())
}
