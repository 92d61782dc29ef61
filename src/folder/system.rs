//! What each system does in its own way: to exchange two names, to flush, to tell when a file last changed.

use std::fs::{self, File, Metadata, OpenOptions};
use std::io;
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use rayon::prelude::*;

use super::{Doing, FolderError};

/// Exchanges two names in one step.
#[cfg(any(target_os = "linux", target_os = "macos"))]
pub fn exchange_names(a: &Path, b: &Path) -> io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    Ok(renameat_with(CWD, a, CWD, b, RenameFlags::EXCHANGE)?)
}

#[cfg(not(any(target_os = "linux", target_os = "macos")))]
pub fn exchange_names(_: &Path, _: &Path) -> io::Result<()> {
    Err(io::ErrorKind::Unsupported.into())
}

/// Renames a folder. Where another program has just looked into it (a scanner, a preview), Windows refuses for a moment:
/// it is tried again for two seconds.
pub fn rename_folder(from: &Path, to: &Path) -> io::Result<()> {
    let tries = if cfg!(windows) { 20 } else { 1 };
    let mut outcome = fs::rename(from, to);
    for _ in 1..tries {
        match &outcome {
            Err(error) if error.kind() == io::ErrorKind::PermissionDenied => {
                std::thread::sleep(Duration::from_millis(100));
                outcome = fs::rename(from, to);
            }
            _ => break,
        }
    }
    outcome
}

/// Removes a file. Windows removes none that is marked read-only: the mark goes first.
pub fn remove_file(path: &Path) -> io::Result<()> {
    #[cfg(windows)]
    if let Ok(meta) = fs::metadata(path)
        && meta.permissions().readonly()
    {
        let mut permissions = meta.permissions();
        permissions.set_readonly(false);
        fs::set_permissions(path, permissions)?;
    }
    fs::remove_file(path)
}

/// Whether two folders stand on different drives.
#[cfg(unix)]
pub fn other_drive(a: &Path, b: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    matches!((fs::metadata(a), fs::metadata(b)), (Ok(a), Ok(b)) if a.dev() != b.dev())
}

/// A folder on Windows is on its parent's drive unless it is a drive itself, and then it has no parent.
#[cfg(not(unix))]
pub fn other_drive(_: &Path, _: &Path) -> bool {
    false
}

/// When a file was last written or put there; `None` where the system does not tell it well enough to rely upon.
#[cfg(unix)]
pub fn last_touched(meta: &Metadata) -> Option<SystemTime> {
    use std::os::unix::fs::MetadataExt;
    // The time of the entry itself: nobody can set it, and it moves when another file takes the name.
    let seconds = u64::try_from(meta.ctime()).ok()?;
    let entry = SystemTime::UNIX_EPOCH + Duration::new(seconds, u32::try_from(meta.ctime_nsec()).ok()?);
    Some(entry.max(meta.modified().ok()?))
}

#[cfg(not(unix))]
pub fn last_touched(_: &Metadata) -> Option<SystemTime> {
    None
}

/// So many files are flushed one by one; for thousands one flush of the file system is quicker.
const FEW: usize = 200;

/// Flushes the files of these names in a folder, and the folder's list of names.
pub fn flush(folder: &Path, written: &[String]) -> Result<(), FolderError> {
    if !(written.len() > FEW && flush_file_system(folder)) {
        written.par_iter().map(|name| folder.join(name)).try_for_each(|path| {
            OpenOptions::new().append(true).open(&path).and_then(|f| f.sync_data()).doing("write", &path)
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
pub fn sync_folder(folder: &Path) {
    if let Ok(handle) = File::open(folder) {
        let _ = handle.sync_all();
    }
}

/// A lock held by a file beside the folder; gone when the run ends.
pub struct Lock {
    path: PathBuf,
    _file: File,
}

impl Lock {
    /// Takes the lock; `None` when another run holds it.
    pub fn take(path: &Path) -> Result<Option<Self>, FolderError> {
        // A run that ends removes its file: who opened it just before holds a lock on nothing, and tries again.
        for _ in 0..100 {
            let opened = OpenOptions::new().create(true).truncate(false).read(true).write(true).open(path);
            let file = match opened {
                Err(error) if cfg!(windows) && error.kind() == io::ErrorKind::PermissionDenied => {
                    std::thread::sleep(Duration::from_millis(10));
                    continue;
                }
                opened => opened.doing("make the lock", path)?,
            };
            match file.try_lock() {
                // A file system without locks: go on, the exchange is still one step.
                Ok(()) | Err(fs::TryLockError::Error(_)) => {}
                Err(fs::TryLockError::WouldBlock) => return Ok(None),
            }
            if is_still_there(&file, path) {
                return Ok(Some(Self { path: path.into(), _file: file }));
            }
        }
        Ok(None)
    }
}

#[cfg(unix)]
fn is_still_there(file: &File, path: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    matches!((file.metadata(), fs::symlink_metadata(path)), (Ok(a), Ok(b)) if (a.dev(), a.ino()) == (b.dev(), b.ino()))
}

/// Where a file can't be removed from under a handle, a handle that was given is a file that is there.
#[cfg(not(unix))]
fn is_still_there(_: &File, path: &Path) -> bool {
    path.exists()
}

impl Drop for Lock {
    fn drop(&mut self) {
        let _ = fs::remove_file(&self.path);
    }
}
