//! The whole job of a folder: that of all parts that have files in it when the call ends, those that the call did not name among
//! them, and of those that it could not make, which are marked. `--only` makes some kinds of file of parts, and no job.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::PoisonError;

use super::{Account, Others, Run, place_of};
use crate::cli::progress::Progress;
use crate::cli::reading::{Texts, stem};
use crate::export::{self, Options, json, pdf};
use crate::folder::FolderError;
use crate::folder::claim::State;
use crate::folder::list::{Part, TO_CUTTER, Whole};
use crate::folder::place;
use crate::folder::staging::Staging;
use crate::record::design::Design;
use crate::whole::share::Share;
use crate::whole::{Cut, Job, csv, lists, order, pages};

/// Name of the file that holds what every part gives, for the next call.
const SHARES: &str = "job.json";

/// The job as it was found.
pub struct Standing {
    /// It is that of the parts as they stand, if none of them is worked.
    pub stands: bool,
    /// This call makes it.
    wanted: bool,
    options: String,
}

impl Standing {
    /// Whether the job of the folder can stay; `none` of the parts that the call names can have files in it.
    pub fn of(run: &Run, none: bool) -> Self {
        let wanted = run.options.only.is_empty();
        let options = export::shapes_job(&run.options);
        // A part that could not be made is worked in every call that names it; one that is gone is told no more.
        let stands = |job: &Whole| {
            run.earlier.list.is_job_of_this_program(job)
                && job.options == options
                && job.without.iter().all(|place| !run.hashes.of(place).is_empty())
                && job.files.iter().all(|f| run.earlier.state(&f.file) == State::Ours)
        };
        // Where nothing stands and nothing can, no folder comes into being for the sake of a job.
        let nothing = run.earlier.list.is_new() && none;
        let stands = !wanted || nothing || run.earlier.list.job.as_ref().is_some_and(stands);
        Self { stands, wanted, options }
    }

    /// Puts the job of the parts into the new folder.
    pub fn put(&self, run: &Run, staging: &Staging, others: &Others, account: &mut Account) -> Result<(), FolderError> {
        let parts = staging.parts();
        if !self.wanted {
            return self.leave(run, staging, &parts, account);
        }
        let (job, without) = gathered(run, &parts, others);
        let mut files = vec![
            (SHARES.to_string(), json::to_text(&crate::whole::json::whole(&job)).into_bytes()),
            ("job.csv".into(), csv::csv(&lists::lists(&job))),
            ("job.pdf".into(), pdf::write(&pages::pages(&job, &run.options.style), "The whole job")),
        ];
        files.extend(to_cutter(run, staging, &parts, &job));
        let job = Whole { made_by: None, options: self.options.clone(), without, files: Vec::new() };
        staging.put_job(job, &files)
    }

    /// A call for some kinds of file: the job stays while it is that of the parts, and goes when it is not.
    fn leave(&self, run: &Run, staging: &Staging, parts: &[Part], account: &mut Account) -> Result<(), FolderError> {
        let Some(job) = &run.earlier.list.job else { return Ok(()) };
        let rests =
            |parts: &[Part]| -> BTreeSet<_> { parts.iter().map(|p| (p.part.clone(), p.rests_on.clone())).collect() };
        let (before, now) = (rests(&run.earlier.list.parts), rests(parts));
        if before == now {
            return staging.keep_job(job);
        }
        account.stale.push("job: its parts have changed; `make` without --only makes it again".into());
        staging.set_job_aside(job)
    }
}

/// What every part gives: as it was worked now, as the last job wrote it down, or worked once more.
fn gathered(run: &Run, parts: &[Part], others: &Others) -> (Job, Vec<String>) {
    let mut now = std::mem::take(&mut *run.shares.lock().unwrap_or_else(PoisonError::into_inner));
    let earlier = written_down(run);
    let mut shares: Vec<Share> = Vec::new();
    for part in parts {
        let share = now.remove(&part.part);
        let share = share.or_else(|| earlier.get(&stem(Path::new(&part.part))).cloned());
        shares.push(share.unwrap_or_else(|| match worked(run, part) {
            Ok(design) => Share::of(&design, &run.shop.profile),
            Err(why) => Share::faulty(&label(run, &part.part), &stem(Path::new(&part.part)), &why),
        }));
    }
    let there: BTreeSet<&str> = parts.iter().map(|p| p.part.as_str()).collect();
    let mut without: Vec<String> = now.keys().cloned().collect();
    // Those that clash were worked, and have no files.
    shares.extend(now.into_values().map(|share| match share.verdict.as_str() {
        crate::whole::share::FAULTY => share,
        _ => Share::faulty(&share.file, &share.part, "another part has files of the same name"),
    }));
    let stale = others.stale.iter().filter(|p| !p.part.is_empty()).map(|p| p.part.as_str());
    let before = run.earlier.list.job.iter().flat_map(|job| job.without.iter().map(String::as_str));
    let known: BTreeSet<&str> = stale.chain(before).collect();
    let named: BTreeSet<&str> = run.named.iter().map(|n| n.place.as_str()).collect();
    for place in known.into_iter().filter(|p| !there.contains(p) && !named.contains(p)) {
        if !run.hashes.of(place).is_empty() {
            let why = "it is not what its files were made of: `make` without a name works it again";
            shares.push(Share::faulty(&label(run, place), &stem(Path::new(place)), why));
            without.push(place.into());
        }
    }
    without.sort();
    (Job::of(shares, &run.shop.profile), without)
}

fn label(run: &Run, place: &str) -> String {
    place::label(&place::resolve(run.claim.folder(), place))
}

/// What the last job of this program wrote down, by the stems of the parts.
fn written_down(run: &Run) -> BTreeMap<String, Share> {
    let list = &run.earlier.list;
    let ours =
        list.job.as_ref().is_some_and(|job| list.is_job_of_this_program(job)) && run.earlier.ours(SHARES).is_some();
    let text = if ours { std::fs::read(run.claim.folder().join(SHARES)).ok() } else { None };
    let shares = text.and_then(|text| crate::whole::json::shares(&text)).unwrap_or_default();
    shares.into_iter().filter(|s| s.verdict != crate::whole::share::FAULTY).map(|s| (s.part.clone(), s)).collect()
}

/// A part of the folder worked once more, for what its files do not hold.
fn worked(run: &Run, part: &Part) -> Result<Design, String> {
    let path = place::resolve(run.claim.folder(), &part.part);
    // As it was called, where it was, so that its files are named in the same words.
    let named = run.named.iter().find(|n| place_of(run.claim.folder(), &n.path) == part.part).map(|n| n.path.clone());
    let mut worked = Texts::default()
        .work(&named.unwrap_or(path), &run.shop.profile, &Progress::new(0))
        .map_err(|(_, message)| message)?;
    for file in worked.design.files_named() {
        if let Ok(whole) = place::whole(Path::new(&*file)) {
            *file = place::label(&whole);
        }
    }
    Ok(worked.design)
}

/// The order's folder: the drawings as they stand in the folder, under the names of the order, and the list.
fn to_cutter(run: &Run, staging: &Staging, parts: &[Part], job: &Job) -> Vec<export::NamedBytes> {
    let shop = &run.shop.profile;
    let mut files: Vec<export::NamedBytes> = Vec::new();
    for cut in &job.cutter {
        let of = |p: &&Part| stem(Path::new(&p.part)) == cut.part;
        let drawing = parts.iter().find(of).and_then(|part| drawing(run, staging, part, cut));
        files.extend(drawing.map(|bytes| (format!("{TO_CUTTER}/{}", cut.file), bytes)));
    }
    let list = order::list(job, shop.owner.as_deref(), shop.drawing_date.as_deref());
    files.extend(list.map(|text| (format!("{TO_CUTTER}/{}", order::LIST), text.into_bytes())));
    files
}

/// The drawing of a part: its DXF in the folder where it is as it was made, else made again.
fn drawing(run: &Run, staging: &Staging, part: &Part, cut: &Cut) -> Option<Vec<u8>> {
    let file = format!("{}.dxf", Cut::drawing(&cut.part, &cut.piece));
    let same = part.kinds.get("dxf") == run.kinds.get("dxf");
    let there = part.files.iter().find(|e| same && e.file == file).and_then(|entry| staging.content(entry));
    there.or_else(|| {
        let design = worked(run, part).ok()?;
        let only = Options { only: vec!["dxf".into()], ..run.options.clone() };
        export::files(&design, &only).ok()?.into_iter().find(|(name, _)| *name == file).map(|(_, bytes)| bytes)
    })
}
