//! Part files that are written into: one at a time, and in one step each.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use super::Exit;
use super::reading::{Trouble, shown};
use crate::folder::system::Lock;

/// So long another run is waited for.
const PATIENCE: Duration = Duration::from_secs(30);

/// A part file that nobody else of this program writes meanwhile. What is read while it is held is what is replaced.
pub struct Held {
    _lock: Lock,
}

impl Held {
    /// Takes hold of a file, waiting for another run to end, and sweeps what a killed one left beside it.
    ///
    /// # Errors
    /// A sentence: the file is not there, the folder cannot be written, or another run does not end.
    pub fn take(path: &Path) -> Result<Self, String> {
        let cannot =
            |error: &dyn std::fmt::Display| format!("cannot write {}: {error}; it stays as it was", shown(path));
        // A link stays a link; what it leads to is held.
        let path = fs::canonicalize(path).map_err(|e| cannot(&e))?;
        let begun = Instant::now();
        loop {
            match Lock::take(&beside(&path, "setdown-lock")) {
                Ok(Some(lock)) => {
                    sweep(&path);
                    return Ok(Self { _lock: lock });
                }
                Ok(None) if begun.elapsed() < PATIENCE => std::thread::sleep(Duration::from_millis(5)),
                Ok(None) => return Err(cannot(&"another run is writing it")),
                Err(error) => return Err(cannot(&error)),
            }
        }
    }
}

/// A hidden name beside a file.
fn beside(path: &Path, what: &str) -> PathBuf {
    let name = path.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
    path.with_file_name(format!(".{name}.{what}"))
}

/// Takes away new texts that killed runs had not put in place: the name of the file, and the number of the run.
fn sweep(path: &Path) {
    let start = beside(path, "").file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
    let Some(folder) = path.parent() else { return };
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        let number = name.strip_prefix(&start).is_some_and(|n| !n.is_empty() && n.bytes().all(|b| b.is_ascii_digit()));
        if number {
            let _ = fs::remove_file(entry.path());
        }
    }
}

/// Puts a new text in place of a file's in one step: whoever reads it finds the old one whole or the new one whole.
pub fn replace(path: &Path, text: &str) -> io::Result<()> {
    // A link stays a link; what it leads to is replaced.
    let path = fs::canonicalize(path)?;
    let beside = beside(&path, &std::process::id().to_string());
    let written = fs::File::create_new(&beside).and_then(|mut file| {
        file.write_all(text.as_bytes())?;
        file.set_permissions(fs::metadata(&path)?.permissions())?;
        file.sync_all()
    });
    let placed = written.and_then(|()| fs::rename(&beside, &path));
    if placed.is_err() {
        let _ = fs::remove_file(&beside);
    }
    placed
}

/// The same, or a sentence why not.
pub fn written(path: &Path, text: &str) -> Result<(), Trouble> {
    let cannot = |e: io::Error| (Exit::Disk, format!("error: cannot write {}: {e}; it stays as it was", shown(path)));
    replace(path, text).map_err(cannot)
}

/// What is asked for cannot be; nothing is written.
pub fn refused(message: &str, help: &str) -> Trouble {
    (Exit::Wrong, format!("error: {message}\n  help: {help}\nnothing is written"))
}
