//! The real program, run as a person runs it, for every test that does so.
#![allow(dead_code, reason = "each test uses the part that it needs")]

use std::collections::BTreeMap;
use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use serde_json::Value as Json;

/// What came of a run.
pub struct Ran {
    pub code: i32,
    pub out: String,
    pub err: String,
}

impl Ran {
    #[track_caller]
    pub fn json(&self) -> Json {
        serde_json::from_str(&self.out).unwrap_or_else(|e| panic!("not JSON: {e}\n{}\n{}", self.out, self.err))
    }
    /// Ended with that status, each of the words in the message.
    #[track_caller]
    pub fn fails_with(&self, code: i32, words: &[&str]) {
        assert_eq!(self.code, code, "stdout:\n{}\nstderr:\n{}", self.out, self.err);
        for word in words {
            assert!(self.err.contains(word), "`{word}` is not in:\n{}", self.err);
        }
    }
}

/// Runs the program in that folder; one that panics or is killed fails the test.
#[track_caller]
pub fn run_in(folder: &Path, arguments: &[impl AsRef<OsStr>]) -> Ran {
    let program = env!("CARGO_BIN_EXE_setdown");
    let output = Command::new(program).args(arguments).current_dir(folder).stdin(Stdio::null()).output().unwrap();
    let ran = Ran {
        code: output.status.code().unwrap_or(-1),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    };
    assert_ne!(ran.code, 101, "panicked: {}", ran.err);
    assert_ne!(ran.code, -1, "killed: {}", ran.err);
    ran
}

/// Names and bytes of a folder's files, those for the cutter among them; other folders in it by their names.
pub type Files = BTreeMap<String, Vec<u8>>;

pub fn files(folder: &Path) -> Files {
    let Ok(entries) = fs::read_dir(folder) else { return Files::new() };
    let entry = |e: fs::DirEntry| (e.file_name().into_string().unwrap(), e.path());
    let mut found = Files::new();
    for (name, path) in entries.map(|e| entry(e.unwrap())) {
        if name == "to-cutter" && path.is_dir() {
            found.extend(files(&path).into_iter().map(|(inside, bytes)| (format!("to-cutter/{inside}"), bytes)));
        } else {
            found.insert(name, fs::read(path).unwrap_or_default());
        }
    }
    found
}

/// A folder of one's own with `parts` in it.
pub struct Bench {
    pub folder: tempfile::TempDir,
}

impl Bench {
    pub fn new() -> Self {
        let bench = Self { folder: tempfile::tempdir().unwrap() };
        fs::create_dir(bench.path("parts")).unwrap();
        bench
    }
    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }
    pub fn write(&self, name: &str, text: &str) -> &Self {
        fs::write(self.path(name), text).unwrap();
        self
    }
    pub fn part(&self, name: &str, text: &str) -> &Self {
        self.write(&format!("parts/{name}"), text)
    }
    pub fn read(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).unwrap()
    }
    #[track_caller]
    pub fn run(&self, arguments: &[&str]) -> Ran {
        run_in(self.folder.path(), arguments)
    }
    #[track_caller]
    pub fn make(&self, arguments: &[&str]) -> Ran {
        let ran = self.run(&[&["make"], arguments].concat());
        assert_eq!(ran.code, 0, "{}{}", ran.out, ran.err);
        ran
    }
    /// The output folder.
    pub fn out(&self) -> Files {
        files(&self.path("out"))
    }
    pub fn names(&self, folder: &str) -> Vec<String> {
        files(&self.path(folder)).into_keys().collect()
    }
    pub fn list(&self) -> Json {
        serde_json::from_slice(&fs::read(self.path("out/manifest.json")).unwrap()).unwrap()
    }
}
