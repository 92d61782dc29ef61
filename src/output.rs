//! Putting a whole folder of files on disk: all of it or nothing, the old one untouched until the new one is whole.
//!
//! The new folder is built beside the old one as the files come, flushed to disk, and the two names are exchanged in one
//! step. A folder that holds a file which this program did not write is refused, so that nobody's notes are lost.

use std::collections::{BTreeMap, BTreeSet};
use std::ffi::OsString;
use std::fmt;
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};

use rayon::prelude::*;

use crate::manifest::{Entry, MANIFEST, Manifest};

/// What stands in the way of writing a folder.
#[derive(Debug)]
pub enum OutputError {
    /// The folder holds something that is not ours.
    Foreign {
        /// The folder.
        folder: PathBuf,
        /// The first few names that are not ours.
        names: Vec<String>,
    },
    /// The folder's list of files cannot be understood, so nothing in it is known to be ours.
    BadManifest(PathBuf),
    /// The name exists and is not a folder.
    NotAFolder(PathBuf),
    /// Another run is writing beside this folder.
    Busy(PathBuf),
    /// Two parts have a file of the same name.
    SameName {
        /// The name.
        name: String,
        /// The part files.
        parts: [String; 2],
    },
    /// The disk refused.
    Io {
        /// What was being done.
        doing: &'static str,
        /// With which file or folder.
        path: PathBuf,
        /// The system's words.
        error: io::Error,
    },
}

impl fmt::Display for OutputError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Foreign { folder, names } => write!(
                f,
                "{} holds files that were not written here ({}); move them away or choose another folder with --out",
                folder.display(),
                names.join(", ")
            ),
            Self::BadManifest(path) => {
                write!(
                    f,
                    "{} cannot be understood, so no file beside it is known to be ours; choose another folder with --out",
                    path.display()
                )
            }
            Self::NotAFolder(path) => write!(f, "{} is not a folder", path.display()),
            Self::Busy(path) => write!(f, "another run is writing into {}; wait for it to end", path.display()),
            Self::SameName { name, parts: [one, other] } => {
                write!(f, "{one} and {other} both give a file {name}; rename one of the part files")
            }
            Self::Io { doing, path, error } => write!(f, "cannot {doing} {}: {error}", path.display()),
        }
    }
}

impl std::error::Error for OutputError {}

trait Doing<T> {
    fn doing(self, doing: &'static str, path: &Path) -> Result<T, OutputError>;
}

impl<T> Doing<T> for io::Result<T> {
    fn doing(self, doing: &'static str, path: &Path) -> Result<T, OutputError> {
        self.map_err(|error| OutputError::Io { doing, path: path.into(), error })
    }
}

/// Held while a folder is read and written, so that two runs never mix their files.
pub struct Claim {
    folder: PathBuf,
    parent: PathBuf,
    _lock: File,
}

impl Claim {
    /// Claims the output folder: makes the folder above it if need be, takes the lock, sweeps what a killed run left.
    ///
    /// # Errors
    /// The folder is busy, or is not a folder, or the disk refuses.
    pub fn new(folder: &Path) -> Result<Self, OutputError> {
        let folder = absolute(folder)?;
        if folder.exists() && !folder.is_dir() || folder.file_name().is_none() {
            return Err(OutputError::NotAFolder(folder));
        }
        let parent = folder.parent().unwrap_or(Path::new("/")).to_path_buf();
        fs::create_dir_all(&parent).doing("make the folder", &parent)?;
        let lock = File::open(&parent).doing("open the folder", &parent)?;
        match lock.try_lock() {
            Ok(()) => {}
            Err(fs::TryLockError::WouldBlock) => return Err(OutputError::Busy(folder)),
            // A file system without locks: go on, the exchange is still one step.
            Err(fs::TryLockError::Error(_)) => {}
        }
        let claim = Self { folder, parent, _lock: lock };
        claim.sweep()?;
        Ok(claim)
    }

    /// The files that this program wrote into the folder earlier, by its own list; an empty list for a new folder.
    ///
    /// # Errors
    /// The folder holds something else, or its list cannot be read.
    pub fn earlier(&self) -> Result<Manifest, OutputError> {
        if !self.folder.exists() {
            return Ok(Manifest::default());
        }
        let list = self.folder.join(MANIFEST);
        let manifest = match fs::read(&list) {
            Ok(bytes) => Manifest::parse(&bytes).ok_or_else(|| OutputError::BadManifest(list.clone()))?,
            Err(error) if error.kind() == io::ErrorKind::NotFound => Manifest::default(),
            Err(error) => return Err(OutputError::Io { doing: "read", path: list, error }),
        };
        self.refuse_foreign(&manifest)?;
        Ok(manifest)
    }

    fn refuse_foreign(&self, manifest: &Manifest) -> Result<(), OutputError> {
        let mut names = Vec::new();
        let ours: BTreeSet<&str> = manifest.files.iter().map(|e| e.file.as_str()).collect();
        for entry in fs::read_dir(&self.folder).doing("read the folder", &self.folder)? {
            let entry = entry.doing("read the folder", &self.folder)?;
            let name = entry.file_name().to_string_lossy().into_owned();
            let plain = entry.file_type().is_ok_and(|t| t.is_file());
            if !(plain && (name == MANIFEST && !manifest.is_empty() || ours.contains(name.as_str()))) {
                names.push(name);
            }
        }
        names.sort();
        let more = names.len().saturating_sub(5);
        names.truncate(5);
        if more > 0 {
            names.push(format!("and {more} more"));
        }
        if names.is_empty() { Ok(()) } else { Err(OutputError::Foreign { folder: self.folder.clone(), names }) }
    }

    /// Begins the new folder, beside the old one.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn stage(&self) -> Result<Staging<'_>, OutputError> {
        let folder = self.parent.join(self.staging_name(std::process::id()));
        fs::create_dir(&folder).doing("make the folder", &folder)?;
        Ok(Staging { claim: self, folder, entries: Mutex::default(), written: Mutex::default() })
    }

    fn exchange(&self, staging: &Path) -> Result<(), OutputError> {
        if !self.folder.exists() {
            fs::rename(staging, &self.folder).doing("put in place the folder", &self.folder)?;
        } else if exchange_names(staging, &self.folder).is_err() {
            self.rename_in_two_steps(staging)?;
        }
        sync_folder(&self.parent);
        Ok(())
    }

    /// For file systems without an exchange: the old folder steps aside and comes back if the new one can't take its place.
    fn rename_in_two_steps(&self, staging: &Path) -> Result<(), OutputError> {
        let aside = self.parent.join(self.aside_name());
        fs::rename(&self.folder, &aside).doing("move aside the folder", &self.folder)?;
        if let Err(error) = fs::rename(staging, &self.folder) {
            let _ = fs::rename(&aside, &self.folder);
            return Err(OutputError::Io { doing: "put in place the folder", path: self.folder.clone(), error });
        }
        fs::remove_dir_all(&aside).doing("remove the folder", &aside)
    }

    fn staging_prefix(&self) -> OsString {
        let mut name = OsString::from(".");
        name.push(self.folder.file_name().unwrap_or_default());
        name.push(".setdown-new-");
        name
    }

    fn staging_name(&self, run: u32) -> OsString {
        let mut name = self.staging_prefix();
        name.push(run.to_string());
        name
    }

    fn aside_name(&self) -> OsString {
        let mut name = OsString::from(".");
        name.push(self.folder.file_name().unwrap_or_default());
        name.push(".setdown-old");
        name
    }

    /// Removes what killed runs left; puts back an old folder that had stepped aside.
    fn sweep(&self) -> Result<(), OutputError> {
        let aside = self.parent.join(self.aside_name());
        if aside.exists() && !self.folder.exists() {
            fs::rename(&aside, &self.folder).doing("put back the folder", &self.folder)?;
        }
        let prefix = self.staging_prefix();
        let prefix = prefix.to_string_lossy();
        for entry in fs::read_dir(&self.parent).doing("read the folder", &self.parent)?.flatten() {
            let name = entry.file_name();
            let left_over = name.to_string_lossy().starts_with(&*prefix) || name == self.aside_name();
            if left_over && entry.file_type().is_ok_and(|t| t.is_dir()) {
                fs::remove_dir_all(entry.path()).doing("remove the folder", &entry.path())?;
            }
        }
        Ok(())
    }
}

fn absolute(path: &Path) -> Result<PathBuf, OutputError> {
    std::path::absolute(path).doing("find the folder", path)
}

/// The new folder while it grows. Files go to disk as they come, so that a run of a thousand parts holds no more of them
/// in memory than are being worked; the old folder stays as it is until [`Staging::finish`]. Dropped, it is removed.
pub struct Staging<'a> {
    claim: &'a Claim,
    folder: PathBuf,
    entries: Mutex<BTreeMap<String, Entry>>,
    /// The files which were written anew, and are not flushed yet.
    written: Mutex<Vec<PathBuf>>,
}

impl Staging<'_> {
    /// Puts in one file of a part.
    ///
    /// # Errors
    /// Another part has a file of that name, or the disk refuses.
    pub fn put(&self, part: &str, name: &str, bytes: &[u8]) -> Result<(), OutputError> {
        self.list(Entry::of(name, bytes, part, false))?;
        self.write(name, bytes)
    }

    /// Puts in one file of an earlier run as it is now, unless a new one took its name.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn keep(&self, entry: &Entry) -> Result<(), OutputError> {
        if locked(&self.entries).contains_key(&entry.file) {
            return Ok(());
        }
        let path = self.claim.folder.join(&entry.file);
        let bytes = fs::read(&path).doing("read", &path)?;
        self.list(Entry::of(&entry.file, &bytes, &entry.part, true))?;
        if self.link(&entry.file) { Ok(()) } else { self.create(&entry.file, &bytes) }
    }

    fn list(&self, entry: Entry) -> Result<(), OutputError> {
        let mut entries = locked(&self.entries);
        match entries.get(&entry.file) {
            Some(other) => {
                // Parts come in any order; the sentence doesn't.
                let mut parts = [other.part.clone(), entry.part];
                parts.sort();
                Err(OutputError::SameName { name: entry.file, parts })
            }
            None => {
                entries.insert(entry.file.clone(), entry);
                Ok(())
            }
        }
    }

    /// A file that is the same already is linked from the old folder, which spares the disk; any other is written.
    fn write(&self, name: &str, bytes: &[u8]) -> Result<(), OutputError> {
        if same_bytes(&self.claim.folder.join(name), bytes) && self.link(name) {
            return Ok(());
        }
        self.create(name, bytes)
    }

    /// Whether the old file could be linked into the new folder; some file systems have no links.
    fn link(&self, name: &str) -> bool {
        fs::hard_link(self.claim.folder.join(name), self.folder.join(name)).is_ok()
    }

    fn create(&self, name: &str, bytes: &[u8]) -> Result<(), OutputError> {
        let new = self.folder.join(name);
        File::create_new(&new).and_then(|mut file| file.write_all(bytes)).doing("write", &new)?;
        locked(&self.written).push(new);
        Ok(())
    }

    /// Adds the list of files, and puts the new folder in the place of the old one in one step.
    ///
    /// # Errors
    /// The disk refuses; the old folder is then as it was.
    pub fn finish(self) -> Result<Finished, OutputError> {
        let manifest = Manifest::of(std::mem::take(&mut *locked(&self.entries)).into_values().collect());
        let files = manifest.files.len() + 1;
        self.write(MANIFEST, &manifest.to_bytes())?;
        let written = std::mem::take(&mut *locked(&self.written));
        let there = fs::read_dir(&self.claim.folder).map(Iterator::count).unwrap_or(0);
        // The list holds the hash of every file: nothing written means that each was found as it would be.
        let changed = !written.is_empty() || there != files;
        if changed {
            flush(&self.folder, &written)?;
            self.claim.exchange(&self.folder)?;
            if self.folder.exists() {
                fs::remove_dir_all(&self.folder).doing("remove the folder", &self.folder)?;
            }
        }
        Ok(Finished { changed, files })
    }
}

impl Drop for Staging<'_> {
    /// What is left is unfinished or not needed; what can't be removed now is swept by the next run.
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.folder);
    }
}

/// What came of a new folder.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Finished {
    /// Whether any file changed, came or went.
    pub changed: bool,
    /// Number of files, the list included.
    pub files: usize,
}

/// The value behind a lock. Whoever panicked while holding it had put in whole values only.
fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

fn same_bytes(path: &Path, bytes: &[u8]) -> bool {
    fs::symlink_metadata(path).is_ok_and(|m| m.is_file() && m.len() == bytes.len() as u64)
        && fs::read(path).is_ok_and(|b| b == bytes)
}

/// So many files are flushed one by one; for thousands one flush of the file system is quicker.
const FEW: usize = 200;

fn flush(folder: &Path, written: &[PathBuf]) -> Result<(), OutputError> {
    if !(written.len() > FEW && flush_file_system(folder)) {
        written.par_iter().try_for_each(|path| {
            File::options().append(true).open(path).and_then(|f| f.sync_data()).doing("write", path)
        })?;
    }
    sync_folder(folder);
    Ok(())
}

/// Whether all that was written into the file system of that folder is on the platter.
#[cfg(target_os = "linux")]
fn flush_file_system(folder: &Path) -> bool {
    File::open(folder).is_ok_and(|folder| rustix::fs::syncfs(&folder).is_ok())
}

#[cfg(not(target_os = "linux"))]
fn flush_file_system(_: &Path) -> bool {
    false
}

/// Flushes a folder's list of names. Some systems can't; the exchange is in order then too, only not yet on the platter.
fn sync_folder(folder: &Path) {
    if let Ok(handle) = File::open(folder) {
        let _ = handle.sync_all();
    }
}

#[cfg(target_os = "linux")]
fn exchange_names(a: &Path, b: &Path) -> io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    Ok(renameat_with(CWD, a, CWD, b, RenameFlags::EXCHANGE)?)
}

#[cfg(not(target_os = "linux"))]
fn exchange_names(_: &Path, _: &Path) -> io::Result<()> {
    Err(io::ErrorKind::Unsupported.into())
}
