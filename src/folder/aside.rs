//! The folder beside the output folder into which goes what must not be lost and must not be mistaken for a file of today.

use std::fs;
use std::path::{Path, PathBuf};

use super::list::{Entry, sha256};
use super::{Doing, FolderError, system};

/// Why a file is set aside.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Reason {
    /// A person changed it, or put another file under its name.
    ByHand,
    /// It is no longer what its part file says.
    Stale,
}

/// The folder beside. It comes into being with the first file.
pub struct Aside {
    folder: PathBuf,
}

impl Aside {
    /// The folder beside that output folder.
    pub fn of(out: &Path) -> Self {
        let mut name = out.file_name().unwrap_or_default().to_os_string();
        name.push("-set-aside");
        Self { folder: out.with_file_name(name) }
    }

    /// Where it is.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Keeps a file under a name that says why; the file itself stays where it is. The same content is kept once.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn keep(&self, file: &Path, reason: Reason) -> Result<String, FolderError> {
        let bytes = fs::read(file).doing("read", file)?;
        let name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let entry = Entry::of(&name, &bytes);
        fs::create_dir_all(&self.folder).doing("make the folder", &self.folder)?;
        for digits in [8, 16, 64] {
            let name = entry.set_aside_name(reason, digits);
            let kept = self.folder.join(&name);
            match fs::read(&kept) {
                Ok(there) if there == bytes => return Ok(name),
                // Somebody wrote into what was kept: it stays too, and this goes beside it.
                Ok(_) => continue,
                Err(_) => {}
            }
            if fs::hard_link(file, &kept).is_err()
                && let Err(error) = fs::write(&kept, &bytes)
            {
                let _ = fs::remove_file(&kept);
                return Err(error).doing("write", &kept);
            }
            system::flush(&self.folder, std::slice::from_ref(&name))?;
            return Ok(name);
        }
        Err(std::io::Error::from(std::io::ErrorKind::AlreadyExists)).doing("set aside", file)
    }

    /// Moves in a file or folder that turned up where none of ours should be.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn take_in(&self, path: &Path) -> Result<String, FolderError> {
        let is_file = fs::symlink_metadata(path).is_ok_and(|m| m.is_file());
        if is_file {
            let name = self.keep(path, Reason::ByHand)?;
            return fs::remove_file(path).doing("remove", path).map(|()| name);
        }
        fs::create_dir_all(&self.folder).doing("make the folder", &self.folder)?;
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let free = (1..)
            .map(|n| if n == 1 { name.clone() } else { format!("{name}-{n}") })
            .find(|n| fs::symlink_metadata(self.folder.join(n)).is_err())
            .unwrap_or(name);
        fs::rename(path, self.folder.join(&free)).doing("set aside", path).map(|()| free)
    }
}

impl Entry {
    /// `x.changed-by-hand-1a2b3c4d.txt` opens as before; `x.dxf.stale-1a2b3c4d` opens in nothing, and no cutter takes it.
    fn set_aside_name(&self, reason: Reason, digits: usize) -> String {
        let hash: String = self.sha256.chars().take(digits).collect();
        match (reason, self.file.rsplit_once('.')) {
            (Reason::Stale, _) => format!("{}.stale-{hash}", self.file),
            (Reason::ByHand, Some((stem, kind))) => format!("{stem}.changed-by-hand-{hash}.{kind}"),
            (Reason::ByHand, None) => format!("{}.changed-by-hand-{hash}", self.file),
        }
    }
}

/// Whether a file has that content.
pub fn has_content(path: &Path, entry: &Entry) -> bool {
    fs::symlink_metadata(path).is_ok_and(|m| m.is_file() && m.len() == entry.size)
        && fs::read(path).is_ok_and(|bytes| sha256(&bytes) == entry.sha256)
}
