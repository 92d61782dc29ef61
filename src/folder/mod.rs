//! The output folder, and one promise about it: **what stands in it is what the present part files say, or the person
//! has been told otherwise; nothing that a person put or changed there is ever lost.**
//!
//! How it is kept:
//!
//! - A list in the folder ([`list::List`]) names each part by its place relative to the folder, the hash of everything
//!   that its answer rests on, and the name, size and hash of every file. *Ours* is what bears a name of the list and its
//!   hash. Anything else in the folder belongs to a person.
//! - A file of ours that was changed by hand is put into a folder beside, under a name that says so, before anything takes
//!   its place ([`aside`]). Files of a part that is no longer what its part file says go there too, under names that no
//!   laser cutter takes. A file that we never wrote stops the run.
//! - A new folder is built beside the old one, flushed, and takes its place in one step where the system can exchange two
//!   names (Linux, macOS). Elsewhere the old folder steps aside and the new one takes its name; what was done is written in
//!   the names of the folders, and the next run finishes it ([`claim`]). Old or new, never a mixture.
//! - A lock file beside the folder keeps two runs apart. Links are followed to the folder that they mean.

pub mod aside;
pub mod claim;
pub mod list;
pub mod place;
pub mod staging;
pub mod system;

use std::fmt;
use std::io;
use std::path::{Path, PathBuf};

/// What stands in the way of writing a folder.
#[derive(Debug)]
pub enum FolderError {
    /// The folder holds something that is not ours.
    Foreign {
        /// The folder.
        folder: PathBuf,
        /// The first few names that are not ours.
        names: Vec<String>,
    },
    /// The folder's list of files cannot be understood, so nothing in it is known to be ours.
    BadList(PathBuf),
    /// The name exists and is not a folder.
    NotAFolder(PathBuf),
    /// The folder is where a whole drive begins: nothing can be built beside it.
    WholeDrive(PathBuf),
    /// Another run is writing into this folder.
    Busy(PathBuf),
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

impl fmt::Display for FolderError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Foreign { folder, names } => write!(
                f,
                "{} holds files that were not written here ({}); move them away or choose another folder with --out",
                place::shown(folder),
                names.join(", ")
            ),
            Self::BadList(path) => write!(
                f,
                "{} cannot be understood, so no file beside it is known to be ours; choose another folder with --out",
                place::shown(path)
            ),
            Self::NotAFolder(path) => write!(f, "{} is not a folder", place::shown(path)),
            Self::WholeDrive(path) => write!(
                f,
                "{0} is where a whole drive begins; choose a folder on it, such as --out {0}/out",
                place::shown(path).trim_end_matches('/')
            ),
            Self::Busy(path) => write!(f, "another run is writing into {}; wait for it to end", place::shown(path)),
            Self::Io { doing, path, error } => write!(f, "cannot {doing} {}: {error}", place::shown(path)),
        }
    }
}

impl std::error::Error for FolderError {}

trait Doing<T> {
    fn doing(self, doing: &'static str, path: &Path) -> Result<T, FolderError>;
}

impl<T> Doing<T> for io::Result<T> {
    fn doing(self, doing: &'static str, path: &Path) -> Result<T, FolderError> {
        self.map_err(|error| FolderError::Io { doing, path: path.into(), error })
    }
}
