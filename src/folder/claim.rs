//! Taking hold of an output folder: its lock, its list, and putting a new folder in its place.
//!
//! Beside `out` stand, for as long as a run lasts: `.out.setdown-lock`; `.out.setdown-new-N`, the new folder while it
//! grows; and where two names cannot be exchanged, `.out.setdown-ready`, the new folder whole and flushed, and
//! `.out.setdown-old`, the old one that stepped aside. A run that was killed leaves some of them, and the names tell the
//! next run how far it had come: a folder that is ready while `out` is missing takes its place; without one the old folder
//! comes back.

use std::collections::BTreeMap;
use std::ffi::OsString;
use std::fs::{self, Metadata};
use std::io;
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use rayon::prelude::*;

use super::aside::{Aside, has_content};
use super::list::{Entry, LIST, List, TO_CUTTER, sha256};
use super::{Doing, FolderError, place, system};

/// Held while a folder is read and written, so that two runs never mix their files.
pub struct Claim {
    folder: PathBuf,
    parent: PathBuf,
    aside: Aside,
    rescued: Vec<String>,
    _lock: system::Lock,
}

/// How a file of the list was found.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum State {
    /// With name and hash of the list.
    Ours,
    /// With other content: changed by hand.
    ByHand,
    /// Not there.
    Missing,
}

/// What was found in the folder before anything is done.
#[derive(Default)]
pub struct Earlier {
    /// Its list; an empty one for a new folder.
    pub list: List,
    files: BTreeMap<String, Found>,
}

/// A file of the list as it was found.
struct Found {
    state: State,
    entry: Entry,
    size: u64,
    written: Option<SystemTime>,
}

impl Earlier {
    /// How a file of the list was found.
    pub fn state(&self, name: &str) -> State {
        self.files.get(name).map_or(State::Missing, |f| f.state)
    }

    /// The entry of a file that was found with its hash.
    pub fn ours(&self, name: &str) -> Option<&Entry> {
        self.files.get(name).filter(|f| f.state == State::Ours).map(|f| &f.entry)
    }
}

impl Claim {
    /// Claims the output folder: follows links, makes the folder above it if need be, takes the lock, finishes or sweeps
    /// what a killed run left.
    ///
    /// # Errors
    /// The folder is busy, or is not a folder, or the disk refuses.
    pub fn new(folder: &Path) -> Result<Self, FolderError> {
        let folder = place::folder(folder).doing("find the folder", folder)?;
        if folder.exists() && !folder.is_dir() {
            return Err(FolderError::NotAFolder(folder));
        }
        let Some(parent) = folder.parent().filter(|_| folder.file_name().is_some()).map(Path::to_path_buf) else {
            return Err(FolderError::WholeDrive(folder));
        };
        fs::create_dir_all(&parent).doing("make the folder", &parent)?;
        if system::other_drive(&folder, &parent) {
            return Err(FolderError::WholeDrive(folder));
        }
        let lock = system::Lock::take(&parent.join(hidden(&folder, "lock")))?;
        let Some(lock) = lock else { return Err(FolderError::Busy(folder)) };
        let mut claim = Self { aside: Aside::of(&folder), folder, parent, rescued: Vec::new(), _lock: lock };
        claim.rescued = claim.finish_or_sweep()?;
        Ok(claim)
    }

    /// The folder, links followed.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// The folder beside, for what is set aside.
    pub fn aside(&self) -> &Aside {
        &self.aside
    }

    /// Names in the folder beside of what a person had put where a killed run had left a folder.
    pub fn rescued(&self) -> &[String] {
        &self.rescued
    }

    /// The list of the folder, and how each of its files is found; an empty list for a new folder.
    ///
    /// # Errors
    /// The folder holds something else, or its list cannot be read.
    pub fn earlier(&self) -> Result<Earlier, FolderError> {
        if !self.folder.exists() {
            return Ok(Earlier::default());
        }
        let path = self.folder.join(LIST);
        let (list, written) = match fs::read(&path) {
            Ok(bytes) => {
                let list = List::parse(&bytes).ok_or_else(|| FolderError::BadList(path.clone()))?;
                let sealed = fs::metadata(&path).ok().filter(|m| is_sealed(m, &bytes));
                (list, sealed.and_then(|m| system::last_touched(&m)))
            }
            Err(error) if error.kind() == io::ErrorKind::NotFound => (List::default(), None),
            Err(error) => return Err(FolderError::Io { doing: "read", path, error }),
        };
        let found: Vec<Found> =
            list.entries().collect::<Vec<_>>().into_par_iter().map(|e| self.look_at(e, written)).collect();
        let files: BTreeMap<String, Found> = found.into_iter().map(|f| (f.entry.file.clone(), f)).collect();
        self.refuse_foreign(&list, &files)?;
        Ok(Earlier { list, files })
    }

    /// How a file is found. One that nobody touched since the list was written is what the list says; any other is read.
    fn look_at(&self, entry: &Entry, list_written: Option<SystemTime>) -> Found {
        let path = self.folder.join(&entry.file);
        let meta = fs::symlink_metadata(&path).ok();
        let since = |m: &Metadata| system::last_touched(m).zip(list_written).is_none_or(|(file, list)| file >= list);
        let state = match &meta {
            None => State::Missing,
            Some(m) if m.is_file() && m.len() == entry.size && (!since(m) || has_content(&path, entry)) => State::Ours,
            Some(_) => State::ByHand,
        };
        let size = meta.as_ref().map_or(0, Metadata::len);
        Found { state, entry: entry.clone(), size, written: meta.and_then(|m| m.modified().ok()) }
    }

    fn refuse_foreign(&self, list: &List, files: &BTreeMap<String, Found>) -> Result<(), FolderError> {
        let mut names = Vec::new();
        for (name, plain) in names_in(&self.folder)? {
            // The folder for the cutter is ours where the list knows files in it, and as far as it knows them.
            let inside = self.folder.join(&name);
            if name == TO_CUTTER
                && !plain
                && files.keys().any(|f| super::list::to_cutter(f).is_some())
                && is_folder(&inside)
            {
                let there = names_in(&inside)?.into_iter().map(|(n, plain)| (format!("{TO_CUTTER}/{n}"), plain));
                names.extend(there.filter(|(n, plain)| !(*plain && files.contains_key(n))).map(|(n, _)| n));
            } else if !(plain && (name == LIST && !list.is_new() || files.contains_key(&name))) {
                names.push(name);
            }
        }
        names.sort();
        let more = names.len().saturating_sub(5);
        names.truncate(5);
        if more > 0 {
            names.push(format!("and {more} more"));
        }
        if names.is_empty() { Ok(()) } else { Err(FolderError::Foreign { folder: self.folder.clone(), names }) }
    }

    /// A name for the new folder while it grows.
    pub(super) fn growing(&self) -> PathBuf {
        self.parent.join(hidden(&self.folder, &format!("new-{}", std::process::id())))
    }

    /// Puts a new folder, whole and flushed, in the place of the old one, and does away with the old one.
    pub(super) fn put_in_place(&self, new: &Path, earlier: &Earlier) -> Result<Vec<String>, FolderError> {
        if !self.folder.exists() {
            system::rename_folder(new, &self.folder).doing("put in place the folder", &self.folder)?;
            system::sync_folder(&self.parent);
            self.seal();
            return Ok(Vec::new());
        }
        let old = match system::exchange_names(new, &self.folder) {
            Ok(()) => new.to_path_buf(),
            Err(_) => self.step_aside(new)?,
        };
        system::sync_folder(&self.parent);
        // The new folder stands. What cannot be cleared away now (on Windows: a file that another program holds open) stays
        // hidden beside it for the next run.
        let mut rescued = Vec::new();
        let _ = self.clear(&old, &mut rescued, |name, path| {
            earlier.files.get(name).is_some_and(|found| found.is_as_found(path) || has_content(path, &found.entry))
        });
        self.seal();
        Ok(rescued)
    }

    /// For systems without an exchange of names: the old folder steps aside and comes back if the new one can't take its
    /// place.
    fn step_aside(&self, new: &Path) -> Result<PathBuf, FolderError> {
        let (ready, old) = (self.beside("ready"), self.free("old"));
        system::rename_folder(new, &ready).doing("put in place the folder", &ready)?;
        if let Err(error) = system::rename_folder(&self.folder, &old) {
            let _ = self.sweep(&ready, &mut Vec::new());
            let doing = "move aside (is a file of it open in another program?)";
            return Err(FolderError::Io { doing, path: self.folder.clone(), error });
        }
        if let Err(error) = system::rename_folder(&ready, &self.folder) {
            let _ = system::rename_folder(&old, &self.folder);
            return Err(FolderError::Io { doing: "put in place the folder", path: self.folder.clone(), error });
        }
        Ok(old)
    }

    /// The list is touched last of all, after the old folder's links are gone: whatever is touched from now on is seen to
    /// be. Its time bears a seal of its content: a list that another program put there (a version control, a copy) does
    /// not, and nothing is taken on its word.
    fn seal(&self) {
        let path = self.folder.join(LIST);
        let sealed = fs::read(&path).and_then(|bytes| {
            let list = fs::OpenOptions::new().append(true).open(&path)?;
            let seconds =
                list.metadata()?.modified()?.duration_since(SystemTime::UNIX_EPOCH).map_err(io::Error::other)?;
            list.set_modified(SystemTime::UNIX_EPOCH + Duration::new(seconds.as_secs(), seal_of(&bytes)))
        });
        // Without the seal the next run reads all files instead of some.
        drop(sealed);
    }

    /// A name beside the folder that is free: an old folder that could not be cleared away keeps its own.
    fn free(&self, what: &str) -> PathBuf {
        let numbered = (2..).map(|n| self.beside(&format!("{what}-{n}")));
        let mut names = std::iter::once(self.beside(what)).chain(numbered);
        names.find(|path| !path.exists()).unwrap_or_else(|| self.beside(what))
    }

    fn beside(&self, what: &str) -> PathBuf {
        self.parent.join(hidden(&self.folder, what))
    }

    /// Finishes what a killed run had begun, and removes what it left.
    fn finish_or_sweep(&self) -> Result<Vec<String>, FolderError> {
        let (ready, old) = (self.beside("ready"), self.beside("old"));
        // An old folder with a number was left for later while a newer one stood: it never comes back.
        for waiting in [&ready, &old] {
            if waiting.exists() && !self.folder.exists() {
                system::rename_folder(waiting, &self.folder).doing("put back the folder", &self.folder)?;
            }
        }
        let mut rescued = Vec::new();
        let growing = hidden(&self.folder, "new-");
        for entry in fs::read_dir(&self.parent).doing("read the folder", &self.parent)?.flatten() {
            let (name, path) = (entry.file_name(), entry.path());
            let begins = |start: &std::ffi::OsStr| name.to_string_lossy().starts_with(&*start.to_string_lossy());
            let left = begins(&growing) || begins(&hidden(&self.folder, "old")) || path == ready;
            if left && entry.file_type().is_ok_and(|t| t.is_dir()) {
                // One that another program still holds is swept another time.
                let _ = self.sweep(&path, &mut rescued);
            }
        }
        Ok(rescued)
    }

    /// Removes a folder that a killed run left. It may be the old one, with something in it that a person put there.
    fn sweep(&self, left: &Path, rescued: &mut Vec<String>) -> Result<(), FolderError> {
        let list = fs::read(left.join(LIST)).ok().and_then(|bytes| List::parse(&bytes));
        let Some(list) = list else {
            // The list comes last: without it this is a folder that was still growing, hidden, and all of it is ours.
            return fs::remove_dir_all(left).doing("remove the folder", left);
        };
        let ours: BTreeMap<&str, &Entry> = list.entries().map(|e| (e.file.as_str(), e)).collect();
        self.clear(left, rescued, |name, path| ours.get(name).is_some_and(|entry| has_content(path, entry)))
    }

    /// Removes a folder file by file; what is not ours in it is set aside, and named even if the rest can't be removed.
    fn clear(
        &self,
        old: &Path,
        rescued: &mut Vec<String>,
        is_ours: impl Fn(&str, &Path) -> bool,
    ) -> Result<(), FolderError> {
        for entry in fs::read_dir(old).doing("read the folder", old)? {
            let path = entry.doing("read the folder", old)?.path();
            let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
            let plain = fs::symlink_metadata(&path).is_ok_and(|m| m.is_file());
            if name == TO_CUTTER && is_folder(&path) {
                self.clear_inside(&path, rescued, &is_ours)?;
                continue;
            }
            // The list goes last: without it the next run would take what is left for a folder that was still growing.
            if plain && name == LIST {
                continue;
            }
            if plain && is_ours(&name, &path) {
                system::remove_file(&path).doing("remove", &path)?;
            } else {
                rescued.push(self.aside.take_in(&path)?);
            }
        }
        let list = old.join(LIST);
        if list.exists() {
            system::remove_file(&list).doing("remove", &list)?;
        }
        fs::remove_dir(old).doing("remove the folder", old)
    }
}

impl Claim {
    /// The same for the folder for the cutter inside it.
    fn clear_inside(
        &self,
        inside: &Path,
        rescued: &mut Vec<String>,
        is_ours: &impl Fn(&str, &Path) -> bool,
    ) -> Result<(), FolderError> {
        for (name, plain) in names_in(inside)? {
            let path = inside.join(&name);
            if plain && is_ours(&format!("{TO_CUTTER}/{name}"), &path) {
                system::remove_file(&path).doing("remove", &path)?;
            } else {
                rescued.push(self.aside.take_in(&path)?);
            }
        }
        fs::remove_dir(inside).doing("remove the folder", inside)
    }
}

/// Whether it is a folder itself, and no link to one.
fn is_folder(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok_and(|m| m.is_dir())
}

/// What lies in a folder, and whether it is a plain file.
fn names_in(folder: &Path) -> Result<Vec<(String, bool)>, FolderError> {
    let mut names = Vec::new();
    for entry in fs::read_dir(folder).doing("read the folder", folder)? {
        let entry = entry.doing("read the folder", folder)?;
        let plain = entry.file_type().is_ok_and(|t| t.is_file());
        names.push((entry.file_name().to_string_lossy().into_owned(), plain));
    }
    Ok(names)
}

impl Found {
    /// Whether nobody wrote into it since it was looked at. What had been changed by hand before is set aside already.
    fn is_as_found(&self, path: &Path) -> bool {
        fs::symlink_metadata(path).is_ok_and(|m| m.len() == self.size && m.modified().ok() == self.written)
    }
}

/// Nanoseconds that stand for the content of a list.
fn seal_of(list: &[u8]) -> u32 {
    let digits: String = sha256(list).chars().take(8).collect();
    u32::from_str_radix(&digits, 16).unwrap_or_default() % 1_000_000_000
}

fn is_sealed(list: &Metadata, bytes: &[u8]) -> bool {
    let since = list.modified().ok().and_then(|m| m.duration_since(SystemTime::UNIX_EPOCH).ok());
    since.is_some_and(|s| s.subsec_nanos() == seal_of(bytes))
}

/// A hidden name beside the folder.
fn hidden(folder: &Path, what: &str) -> OsString {
    let mut name = OsString::from(".");
    name.push(folder.file_name().unwrap_or_default());
    name.push(".setdown-");
    name.push(what);
    name
}
