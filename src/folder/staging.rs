//! The new folder while it grows, beside the old one.

use std::collections::{BTreeMap, BTreeSet};
use std::fs::{self, File};
use std::io::Write;
use std::path::PathBuf;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use super::aside::Reason;
use super::claim::{Claim, Earlier, State};
use super::list::{Entry, LIST, List, Part, TO_CUTTER, Whole};
use super::{Doing, FolderError, system};

/// The new folder. Files go to disk as they come, so that a run of a thousand parts holds no more of them in memory than
/// are being worked; the old folder stays as it is until [`Staging::finish`]. Dropped, it is removed.
pub struct Staging<'a> {
    claim: &'a Claim,
    earlier: &'a Earlier,
    folder: PathBuf,
    grown: Mutex<Grown>,
}

/// What is in the new folder so far.
#[derive(Default)]
struct Grown {
    parts: Vec<Part>,
    /// The whole job.
    job: Option<Whole>,
    /// Which part has a file of that name; names that differ in case only are one file on many disks.
    owners: BTreeMap<String, Arc<str>>,
    clashes: BTreeSet<Clash>,
    /// Names of files written anew, not flushed yet.
    written: Vec<String>,
    /// Names of files that stay as they were found.
    stayed: BTreeSet<String>,
    /// Names in the folder beside of what was set aside as stale.
    stale: Vec<String>,
}

/// Two parts with a file of one name.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Clash {
    /// The places of the two part files, in order.
    pub parts: [String; 2],
    /// The name of the file.
    pub file: String,
}

/// What came of a new folder.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Finished {
    /// Number of files, the list included.
    pub files: usize,
    /// Names of files in the folder beside, which hold what a person had put where our files go.
    pub by_hand: Vec<String>,
    /// Names of files in the folder beside that are no longer what their part files say.
    pub stale: Vec<String>,
    /// Parts whose files were not written, because another part has a file of the same name.
    pub clashes: Vec<Clash>,
}

impl<'a> Staging<'a> {
    /// Begins the new folder.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn begin(claim: &'a Claim, earlier: &'a Earlier) -> Result<Self, FolderError> {
        let folder = claim.growing();
        fs::create_dir(&folder).doing("make the folder", &folder)?;
        Ok(Self { claim, earlier, folder, grown: Mutex::default() })
    }

    /// Puts in the files of one part, all of them, together with the files of it that stay.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn put(&self, mut part: Part, files: &[(String, Vec<u8>)], staying: &[Entry]) -> Result<(), FolderError> {
        let new: Vec<Entry> = files.iter().map(|(name, bytes)| Entry::of(name, bytes)).collect();
        part.files = new.iter().chain(staying).cloned().collect();
        if !self.has_room_for(&part) {
            return Ok(());
        }
        for (entry, (_, bytes)) in new.iter().zip(files) {
            // A file that is the same already is linked from the old folder, which spares the disk.
            let same = self.earlier.ours(&entry.file).is_some_and(|old| old.sha256 == entry.sha256);
            if !(same && self.link(&entry.file)) {
                self.create(&entry.file, bytes)?;
            }
        }
        self.bring_over(staying)?;
        self.grown().parts.push(part);
        Ok(())
    }

    /// Puts in the files of a part that stays as it is. What a person changed in them stays too.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn keep(&self, part: &Part) -> Result<(), FolderError> {
        if !self.has_room_for(part) {
            return Ok(());
        }
        self.bring_over(&part.files)?;
        let made_by = Some(part.made_by.clone().unwrap_or_else(|| self.earlier.list.written_by.clone()));
        self.grown().parts.push(Part { made_by, ..part.clone() });
        Ok(())
    }

    /// The parts that are in the new folder so far, by their places; those left out that clash.
    pub fn parts(&self) -> Vec<Part> {
        let grown = self.grown();
        let clashing: BTreeSet<&String> = grown.clashes.iter().flat_map(|c| &c.parts).collect();
        let mut parts: Vec<Part> = grown.parts.iter().filter(|p| !clashing.contains(&p.part)).cloned().collect();
        parts.sort_by(|a, b| a.part.cmp(&b.part));
        parts
    }

    /// A file of a part as it stands in the new folder; `None` where it is not what its entry says.
    pub fn content(&self, entry: &Entry) -> Option<Vec<u8>> {
        let bytes = fs::read(self.folder.join(&entry.file)).ok()?;
        (Entry::of(&entry.file, &bytes) == *entry).then_some(bytes)
    }

    /// Puts in the files of the whole job.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn put_job(&self, mut job: Whole, files: &[(String, Vec<u8>)]) -> Result<(), FolderError> {
        for (name, bytes) in files {
            let entry = Entry::of(name, bytes);
            let same = self.earlier.ours(name).is_some_and(|old| old.sha256 == entry.sha256);
            if !(same && self.link(name)) {
                self.create(name, bytes)?;
            }
            self.grown().owners.insert(name.to_lowercase(), "".into());
            job.files.push(entry);
        }
        self.grown().job = Some(job);
        Ok(())
    }

    /// Puts in the files of the job as they stand.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn keep_job(&self, job: &Whole) -> Result<(), FolderError> {
        self.bring_over(&job.files)?;
        let made_by = Some(job.made_by.clone().unwrap_or_else(|| self.earlier.list.written_by.clone()));
        self.grown().job = Some(Whole { made_by, ..job.clone() });
        Ok(())
    }

    /// Sets aside the files of a job that is no longer that of the parts.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn set_job_aside(&self, job: &Whole) -> Result<(), FolderError> {
        for entry in job.files.iter().filter(|e| self.earlier.state(&e.file) == State::Ours) {
            let name = self.claim.aside().keep(&self.claim.folder().join(&entry.file), Reason::Stale)?;
            self.grown().stale.push(name);
        }
        Ok(())
    }

    /// Sets aside the files of a part that is no longer what its part file says.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn set_aside(&self, part: &Part) -> Result<(), FolderError> {
        // Of a list that names no parts, what was made afresh under the same names is no longer there to be mistaken.
        let replaced = |e: &Entry| part.part.is_empty() && self.grown().owners.contains_key(&e.file.to_lowercase());
        let ours = |e: &&Entry| self.earlier.state(&e.file) == State::Ours && !replaced(e);
        for entry in part.files.iter().filter(ours) {
            let name = self.claim.aside().keep(&self.claim.folder().join(&entry.file), Reason::Stale)?;
            self.grown().stale.push(name);
        }
        Ok(())
    }

    fn bring_over(&self, entries: &[Entry]) -> Result<(), FolderError> {
        for entry in entries.iter().filter(|e| self.earlier.state(&e.file) != State::Missing) {
            if !self.link(&entry.file) {
                let old = self.claim.folder().join(&entry.file);
                self.create(&entry.file, &fs::read(&old).doing("read", &old)?)?;
            }
            self.grown().stayed.insert(entry.file.clone());
        }
        Ok(())
    }

    /// Takes the names of a part's files; where another part has one of them, neither gets it, and both are told.
    fn has_room_for(&self, part: &Part) -> bool {
        let mut grown = self.grown();
        let mut free = true;
        let owner: Arc<str> = part.part.as_str().into();
        for entry in &part.files {
            let name = entry.file.to_lowercase();
            match grown.owners.get(&name).cloned() {
                Some(other) if other != owner => {
                    // Parts come in any order; the sentence doesn't.
                    let mut parts = [other.to_string(), part.part.clone()];
                    parts.sort();
                    grown.clashes.insert(Clash { parts, file: entry.file.clone() });
                    free = false;
                }
                _ => {
                    grown.owners.insert(name, owner.clone());
                }
            }
        }
        free
    }

    /// Whether the old file could be linked into the new folder; some file systems have no links.
    fn link(&self, name: &str) -> bool {
        self.makes_room(name).is_ok() && fs::hard_link(self.claim.folder().join(name), self.folder.join(name)).is_ok()
    }

    fn create(&self, name: &str, bytes: &[u8]) -> Result<(), FolderError> {
        let new = self.folder.join(name);
        self.makes_room(name).doing("make the folder", &new)?;
        File::create_new(&new).and_then(|mut file| file.write_all(bytes)).doing("write", &new)?;
        self.grown().written.push(name.into());
        Ok(())
    }

    /// The folder for the cutter comes into being with the first file in it.
    fn makes_room(&self, name: &str) -> std::io::Result<()> {
        if super::list::to_cutter(name).is_some() { fs::create_dir_all(self.folder.join(TO_CUTTER)) } else { Ok(()) }
    }

    /// Takes out the parts that clash, sets aside what a person changed, adds the list, and puts the new folder in the
    /// place of the old one.
    ///
    /// # Errors
    /// The disk refuses; the old folder is then as it was.
    pub fn finish(mut self) -> Result<Finished, FolderError> {
        let clashes: Vec<Clash> = std::mem::take(&mut self.grown().clashes).into_iter().collect();
        self.take_out(&clashes)?;
        let mut by_hand = self.save_what_was_changed()?;
        let Grown { parts, job, mut written, stale, .. } = std::mem::take(&mut *self.grown());
        let list = List::of(parts, job);
        let path = self.folder.join(LIST);
        File::create_new(&path).and_then(|file| list.write(file)).doing("write", &path)?;
        written.push(LIST.into());
        if written.iter().any(|name| super::list::to_cutter(name).is_some()) {
            system::sync_folder(&self.folder.join(TO_CUTTER));
        }
        system::flush(&self.folder, &written)?;
        // From here on the name may be that of the old folder, and nothing may remove it unseen.
        let new = std::mem::take(&mut self.folder);
        by_hand.extend(self.claim.put_in_place(&new, self.earlier)?);
        Ok(Finished { files: list.entries().count() + 1, by_hand, stale, clashes })
    }

    /// Takes out the parts that have a file of the same name, and sets aside what they had here before.
    fn take_out(&self, clashes: &[Clash]) -> Result<(), FolderError> {
        let clashing: BTreeSet<&String> = clashes.iter().flat_map(|c| &c.parts).collect();
        let (out, stay): (Vec<Part>, Vec<Part>) =
            std::mem::take(&mut self.grown().parts).into_iter().partition(|p| clashing.contains(&p.part));
        self.grown().parts = stay;
        for entry in out.iter().flat_map(|p| &p.files) {
            let path = self.folder.join(&entry.file);
            self.grown().written.retain(|w| *w != entry.file);
            self.grown().stayed.remove(&entry.file);
            fs::remove_file(&path).doing("remove", &path)?;
        }
        self.earlier.list.parts.iter().filter(|p| clashing.contains(&p.part)).try_for_each(|p| self.set_aside(p))
    }

    /// A file that a person changed, and that does not stay where it is, is kept in the folder beside.
    fn save_what_was_changed(&self) -> Result<Vec<String>, FolderError> {
        let stayed = std::mem::take(&mut self.grown().stayed);
        let gone = |e: &&Entry| self.earlier.state(&e.file) == State::ByHand && !stayed.contains(&e.file);
        let changed = self.earlier.list.entries().filter(gone);
        changed.map(|e| self.claim.aside().keep(&self.claim.folder().join(&e.file), Reason::ByHand)).collect()
    }

    /// Whoever panicked while holding the lock had put in whole values only.
    fn grown(&self) -> MutexGuard<'_, Grown> {
        self.grown.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Drop for Staging<'_> {
    /// What is left is unfinished; what can't be removed now is swept by the next run.
    fn drop(&mut self) {
        if !self.folder.as_os_str().is_empty() {
            let _ = fs::remove_dir_all(&self.folder);
        }
    }
}
