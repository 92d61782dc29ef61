//! The real program, run as a person runs it, for every test that does so.
#![allow(dead_code, reason = "each test uses the part that it needs")]

use std::ffi::OsStr;
use std::path::Path;
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
