//! The list of an output folder: every part with what its answer rests on, and every file with its size and hash.

use std::collections::BTreeMap;
use std::io::{self, BufWriter, Write};
use std::sync::Arc;

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use crate::printable::{first_unseen, printable};

/// Name of the list inside the output folder.
pub const LIST: &str = "manifest.json";

/// The program that writes lists: name, version, and the fingerprint of its sources.
pub const PROGRAM: &str = concat!("setdown ", env!("CARGO_PKG_VERSION"), " (sources ", env!("SETDOWN_SOURCES"), ")");

/// The one folder inside the output folder: what is sent to the cutter.
pub const TO_CUTTER: &str = "to-cutter";

/// Layout of this list. Layout 1 named parts relative to wherever the program had been started; layout 2 knew no job.
const SCHEMA: u32 = 3;

/// The list of an output folder.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct List {
    /// Version of this list's layout; 0 where there is no folder yet.
    pub schema: u32,
    /// The program that wrote the folder last.
    pub written_by: String,
    /// Every part that has files here, in the order of their names.
    #[serde(default)]
    pub parts: Vec<Part>,
    /// What all parts of the folder need together.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub job: Option<Whole>,
    /// The files of a list of layout 1, whose parts cannot be told.
    #[serde(default, skip_serializing)]
    files: Vec<Entry>,
}

/// One part of the folder.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Part {
    /// Place of its part file, relative to the folder, with `/`; whole where it stands on another drive.
    pub part: String,
    /// The program that made its files, where it is not the one that wrote the list.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub made_by: Option<String>,
    /// Its verdict, as on the sheet.
    pub verdict: String,
    /// The lines that the terminal shows of it.
    pub told: Vec<String>,
    /// Everything that its answer rests on: the part file first, its mates, the shop's file.
    pub rests_on: Vec<Input>,
    /// The kinds of file that were made, each with the options that shape it: mostly the same for all parts.
    pub kinds: Arc<BTreeMap<String, String>>,
    /// Its files, in the order of their names.
    pub files: Vec<Entry>,
}

/// The files of the whole job.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Whole {
    /// The program that made them, where it is not the one that wrote the list.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub made_by: Option<String>,
    /// The options that shape them.
    pub options: String,
    /// Parts that have no files here and are told in it.
    pub without: Vec<String>,
    /// Its files, in the order of their names.
    pub files: Vec<Entry>,
}

/// A file that an answer rests on.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Input {
    /// Its place relative to the folder.
    pub file: String,
    /// SHA-256 of its content; empty where there was no such file.
    pub sha256: String,
}

/// One file of the folder.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Entry {
    /// Its name in the folder.
    pub file: String,
    /// Its size in bytes.
    pub size: u64,
    /// Its SHA-256, hexadecimal.
    pub sha256: String,
}

impl Entry {
    /// The entry of a file of that content.
    pub fn of(name: &str, bytes: &[u8]) -> Self {
        Self { file: name.into(), size: bytes.len() as u64, sha256: sha256(bytes) }
    }

    /// The kind of file: what follows the last dot of its name.
    pub fn kind(&self) -> &str {
        self.file.rsplit_once('.').map_or("", |(_, kind)| kind)
    }
}

impl List {
    /// Reads a list; `None` if it is not one, or if it names anything but plain files of its own folder.
    pub fn parse(bytes: &[u8]) -> Option<Self> {
        let mut list = serde_json::from_slice::<Self>(bytes).ok()?;
        if list.schema == 1 {
            let files = std::mem::take(&mut list.files);
            list.parts = vec![Part { files, ..Part::default() }];
        }
        // A list may come from anywhere: what it says of a part is shown on the terminal as it stands.
        for part in &mut list.parts {
            part.told.iter_mut().for_each(|line| *line = printable(line));
        }
        let known = (1..=SCHEMA).contains(&list.schema);
        let of_parts = list.parts.iter().flat_map(|p| &p.files).all(|e| is_plain_name(&e.file));
        let of_job =
            list.job.iter().flat_map(|j| &j.files).all(|e| is_plain_name(to_cutter(&e.file).unwrap_or(&e.file)));
        (known && of_parts && of_job).then_some(list)
    }

    /// The list of these parts, and of the job that they are.
    pub fn of(mut parts: Vec<Part>, mut job: Option<Whole>) -> Self {
        if let Some(job) = &mut job {
            job.files.sort_by(|a, b| a.file.cmp(&b.file));
            if job.made_by.as_deref() == Some(PROGRAM) {
                job.made_by = None;
            }
        }
        parts.sort_by(|a, b| a.part.cmp(&b.part));
        for part in &mut parts {
            part.files.sort_by(|a, b| a.file.cmp(&b.file));
            if part.made_by.as_deref() == Some(PROGRAM) {
                part.made_by = None;
            }
        }
        Self { schema: SCHEMA, written_by: PROGRAM.into(), parts, job, files: Vec::new() }
    }

    /// Every file but the list itself.
    pub fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.parts.iter().flat_map(|p| &p.files).chain(self.job.iter().flat_map(|j| &j.files))
    }

    /// Written as text, with a line feed at its end, and not held as a whole: that of ten thousand parts is longer than
    /// anything else in memory.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn write(&self, to: impl Write) -> io::Result<()> {
        let mut to = BufWriter::new(to);
        serde_json::to_writer_pretty(&mut to, self)?;
        to.write_all(b"\n")?;
        to.flush()
    }

    /// Whether there was no list yet.
    pub fn is_new(&self) -> bool {
        self.schema == 0
    }

    /// Whether the present program made the files of the job.
    pub fn is_job_of_this_program(&self, job: &Whole) -> bool {
        job.made_by.as_deref().unwrap_or(&self.written_by) == PROGRAM
    }

    /// Whether the present program made that part's files.
    pub fn is_of_this_program(&self, part: &Part) -> bool {
        part.made_by.as_deref().unwrap_or(&self.written_by) == PROGRAM
    }
}

/// What stands behind the folder for the cutter in the name of a file; none for a file beside it.
pub fn to_cutter(name: &str) -> Option<&str> {
    name.strip_prefix(TO_CUTTER)?.strip_prefix('/')
}

/// Whether a name stays in its folder on every system, and is none of ours beside the files.
fn is_plain_name(name: &str) -> bool {
    !name.is_empty()
        && !name.starts_with('.')
        && !name.eq_ignore_ascii_case(LIST)
        && !name.contains(['/', '\\', ':'])
        && first_unseen(name).is_none()
}

/// SHA-256 in hexadecimal.
pub fn sha256(bytes: &[u8]) -> String {
    use std::fmt::Write as _;
    Sha256::digest(bytes).iter().fold(String::with_capacity(64), |mut text, byte| {
        let _ = write!(text, "{byte:02x}");
        text
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// FIPS 180-4, the example of the National Institute of Standards and Technology for "abc".
    #[test]
    fn hash_of_the_standard() {
        assert_eq!(sha256(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }

    fn text(list: &List) -> Vec<u8> {
        let mut text = Vec::new();
        list.write(&mut text).unwrap();
        text
    }

    #[test]
    fn names_that_leave_the_folder_are_no_list() {
        for name in
            ["../evil.txt", "a/b", "a\\b", "", ".", "..", ".hidden", "C:x", "Manifest.json", "a\nb", "a\u{202e}b"]
        {
            let files = vec![Entry::of(name, b"")];
            let part = Part { files: files.clone(), ..Part::default() };
            assert_eq!(List::parse(&text(&List::of(vec![part], None))), None, "{name}");
            let job = |files| Some(Whole { files, ..Whole::default() });
            assert_eq!(List::parse(&text(&List::of(Vec::new(), job(files)))), None, "{name}");
            let inside = vec![Entry::of(&format!("to-cutter/{name}"), b"")];
            assert_eq!(List::parse(&text(&List::of(Vec::new(), job(inside)))), None, "{name}");
        }
        let part = Part { files: vec![Entry::of("a b.txt", b"x")], ..Part::default() };
        let job = Whole { files: vec![Entry::of("to-cutter/a b.dxf", b"x")], ..Whole::default() };
        let list = List::of(vec![part], Some(job));
        assert_eq!(List::parse(&text(&list)), Some(list));
    }

    #[test]
    fn the_first_layout_is_still_read() {
        let old = br#"{"schema":1,"written_by":"setdown 0.1.0","files":[
            {"file":"a.txt","size":1,"sha256":"00","part":"parts/a.toml"}]}"#;
        let list = List::parse(old).unwrap();
        assert_eq!(list.entries().map(|e| e.file.as_str()).collect::<Vec<_>>(), ["a.txt"]);
        assert!(!list.is_of_this_program(&list.parts[0]) && !list.is_new());
    }
}
