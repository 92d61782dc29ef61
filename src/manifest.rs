//! The list of an output folder: every file with its size, its hash and the part file that it came from.

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

/// Name of the list inside the output folder.
pub const MANIFEST: &str = "manifest.json";

/// The list of an output folder.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Manifest {
    /// Version of this list's layout.
    pub schema: u32,
    /// Program and version that wrote the folder.
    pub written_by: String,
    /// Every file but the list itself, by name.
    pub files: Vec<Entry>,
}

/// One file of the folder.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Entry {
    /// Its name in the folder.
    pub file: String,
    /// Its size in bytes.
    pub size: u64,
    /// Its SHA-256, hexadecimal.
    pub sha256: String,
    /// The part file that it came from.
    pub part: String,
    /// Kept from an earlier run, because its part file could not be worked this time or was not asked for.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub kept: bool,
}

impl Entry {
    /// The entry of a file of that content.
    pub fn of(name: &str, bytes: &[u8], part: &str, kept: bool) -> Self {
        Self { file: name.into(), size: bytes.len() as u64, sha256: sha256(bytes), part: part.into(), kept }
    }
}

impl Manifest {
    /// Reads a list; `None` if it is not one.
    pub fn parse(bytes: &[u8]) -> Option<Self> {
        serde_json::from_slice::<Self>(bytes).ok().filter(|m| m.schema == 1)
    }

    /// The list of these files, which come in order of their names.
    pub fn of(files: Vec<Entry>) -> Self {
        Self { schema: 1, written_by: concat!("setdown ", env!("CARGO_PKG_VERSION")).into(), files }
    }

    /// As text, with a line feed at its end.
    pub fn to_bytes(&self) -> Vec<u8> {
        let mut bytes = serde_json::to_vec_pretty(self).unwrap_or_default();
        bytes.push(b'\n');
        bytes
    }

    /// Whether no folder was written yet.
    pub fn is_empty(&self) -> bool {
        self.schema == 0
    }
}

/// SHA-256 in hexadecimal.
pub fn sha256(bytes: &[u8]) -> String {
    use std::fmt::Write;
    Sha256::digest(bytes).iter().fold(String::with_capacity(64), |mut text, byte| {
        let _ = write!(text, "{byte:02x}");
        text
    })
}
