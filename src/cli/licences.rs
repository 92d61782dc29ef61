//! `licences`: the notices that go with every copy of the program.

use std::io::{self, Write};

use super::Exit;

/// What is in the program, and the words that its makers want to go with it.
const NOTICES: [(&str, &str); 4] = [
    ("setdown itself", include_str!("../../LICENSE")),
    ("the lettering of the sheets", include_str!("../sheet/font/LICENSE")),
    ("what comes with the compiler and the system", include_str!("../licences/systems.txt")),
    ("the crates in the program", include_str!("../licences/crates.txt")),
];

/// `licences`.
pub fn licences(out: &mut dyn Write) -> io::Result<Exit> {
    let line = "=".repeat(78);
    for (of, words) in NOTICES {
        writeln!(out, "{line}\nNotices of {of}\n{line}\n\n{}\n", words.trim_end())?;
    }
    Ok(Exit::Fine)
}
