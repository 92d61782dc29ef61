//! The demo: `out/` is committed and must come out of `parts/` again, byte for byte.

use std::fs;
use std::path::Path;

use program::{Files, files};

mod program;

/// A list without the line that names the program, which changes with every change of its sources.
fn apart_from_the_program(list: &[u8]) -> Vec<String> {
    String::from_utf8_lossy(list).lines().filter(|l| !l.contains("\"written_by\"")).map(str::to_string).collect()
}

#[test]
fn the_demo_comes_out_as_it_is_committed() {
    // Beside a copy of the parts, as the committed folder stands beside them: the list says where they are.
    let fresh = tempfile::tempdir().unwrap();
    fs::create_dir(fresh.path().join("parts")).unwrap();
    for (name, bytes) in files(Path::new("parts")) {
        fs::write(fresh.path().join("parts").join(name), bytes).unwrap();
    }
    let made = program::run_in(fresh.path(), &["make"]);
    assert_eq!(made.code, 0, "{}", made.err);
    let (fresh, committed) = (files(&fresh.path().join("out")), files(Path::new("out")));
    let names = |f: &Files| f.keys().cloned().collect::<Vec<_>>();
    assert_eq!(names(&fresh), names(&committed), "run `cargo run --release -- make` and read the difference");
    for ((name, new), (_, old)) in fresh.iter().zip(&committed) {
        let same = if name == "manifest.json" {
            apart_from_the_program(new) == apart_from_the_program(old)
        } else {
            new == old
        };
        assert!(same, "{name} differs: run `cargo run --release -- make` and read the difference");
    }
    for kind in ["dxf", "stl", "3mf", "step", "json", "txt", "pdf", "svg"] {
        assert!(fresh.iter().any(|(n, _)| n.ends_with(&format!(".{kind}"))), "no {kind} in the demo");
    }
}

/// How many calls stand in some lines, and how many lines of what they print; each must be printed still.
fn quoted<'l>(lines: impl Iterator<Item = &'l str>) -> (usize, usize) {
    let (mut printed, mut calls, mut quoted) = (Vec::new(), 0, 0);
    for line in lines {
        if let Some(call) = line.strip_prefix("$ setdown ") {
            let words: Vec<&str> = call.split(' ').collect();
            let ran = program::run_in(Path::new("."), &words);
            printed = ran.out.lines().map(str::to_string).collect();
            calls += 1;
        } else if line == "```" {
            printed.clear();
        } else if !printed.is_empty() && !line.is_empty() {
            // A quote may stop within a line.
            assert!(
                printed.iter().any(|p| p.starts_with(line) || p.trim_start().starts_with(line)),
                "no longer printed: {line}"
            );
            quoted += 1;
        }
    }
    (calls, quoted)
}

/// So with the screens of `help`: a call and its answer are set in by two.
#[test]
fn help_shows_real_output() {
    for subject in setdown::cli::help::SUBJECTS {
        let lines: Vec<String> = subject
            .screen
            .split("\n\n")
            .filter(|block| block.starts_with("  $ setdown "))
            .flat_map(|block| block.lines().map(|l| l[2..].to_string()).chain(["```".to_string()]))
            .collect();
        let (calls, shown) = quoted(lines.iter().map(String::as_str));
        assert!(calls == 1 && shown >= 1, "{}: {calls} calls, {shown} lines", subject.name);
    }
}

/// What the README shows after a `$ setdown` line is what the program prints today.
#[test]
fn the_readme_shows_real_output() {
    let readme = fs::read_to_string("README.md").unwrap();
    let lines = readme.split("```").skip(1).step_by(2).flat_map(|block| ["```"].into_iter().chain(block.lines()));
    let (calls, quoted) = quoted(lines);
    assert!(calls >= 5 && quoted >= 15, "{calls} calls, {quoted} lines");
}
