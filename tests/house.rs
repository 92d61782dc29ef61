//! The house rules that can be read off the sources: who uses whom, and where numbers become text.

use std::fs;
use std::path::Path;

/// Module, and the modules of the crate that it may use beside itself.
const MAY_USE: &[(&str, &[&str])] = &[
    ("printable", &[]),
    ("units", &["suggest", "printable"]),
    ("source", &[]),
    ("suggest", &[]),
    ("key", &["units"]),
    ("shape", &["units"]),
    ("slip", &["units"]),
    ("standards", &["units", "source", "suggest"]),
    ("mechanics", &["units", "source"]),
    ("turning", &["units"]),
    ("seating", &["units", "turning"]),
    ("step_drill", &["units"]),
    ("landing", &["units", "source", "seating", "mechanics"]),
    ("fitting", &["units", "slip", "source", "standards"]),
    ("drawing", &["units", "shape"]),
    ("design", &["units", "key", "source", "shape", "drawing"]),
    ("show", &["units", "design"]),
    ("description", &["units", "key", "suggest", "printable"]),
    ("shop", &["units", "key", "description", "standards", "mechanics", "source", "turning"]),
    ("mesh", &["shape", "units"]),
    ("page", &["units", "show", "design", "drawing", "shape", "source"]),
    ("export", &["units", "show", "design", "drawing", "shape", "mesh", "page"]),
    ("folder", &["printable"]),
    ("job", &["description", "families", "shop", "export", "design", "show", "suggest", "printable"]),
    (
        "families",
        &[
            "units",
            "key",
            "source",
            "suggest",
            "shape",
            "standards",
            "mechanics",
            "turning",
            "seating",
            "step_drill",
            "landing",
            "fitting",
            "drawing",
            "design",
            "show",
            "description",
            "shop",
            "slip",
        ],
    ),
];

fn sources(folder: &Path, found: &mut Vec<(String, String)>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|e| e == "rs") {
            found.push((path.to_string_lossy().replace('\\', "/"), fs::read_to_string(&path).unwrap()));
        }
    }
}

/// Code lines of a file without comments and without its tests.
fn code(text: &str) -> impl Iterator<Item = &str> {
    text.lines().take_while(|l| l.trim() != "#[cfg(test)]").filter(|l| !l.trim_start().starts_with("//"))
}

fn all() -> Vec<(String, String)> {
    let mut found = Vec::new();
    sources(Path::new("src"), &mut found);
    assert!(found.len() > 20);
    found
}

fn module_of(path: &str) -> &str {
    path.trim_start_matches("src/").split('/').next().unwrap().trim_end_matches(".rs")
}

#[test]
fn every_module_uses_only_what_it_may() {
    let mut slips = Vec::new();
    for (path, text) in all() {
        let module = module_of(&path);
        if ["lib", "main", "cli", "build"].contains(&module) {
            continue;
        }
        let Some((_, allowed)) = MAY_USE.iter().find(|(m, _)| *m == module) else {
            slips.push(format!("{path}: the module `{module}` is not in the table"));
            continue;
        };
        for line in code(&text) {
            for used in line
                .match_indices("crate::")
                .filter_map(|(i, _)| line[i + 7..].split(|c: char| !c.is_alphanumeric() && c != '_').next())
            {
                if used != module && !used.is_empty() && !allowed.contains(&used) {
                    slips.push(format!("{path}: `{module}` uses `{used}`"));
                }
            }
        }
    }
    assert!(slips.is_empty(), "{}", slips.join("\n"));
}

/// Only the command line and the folder writer touch the world (and what is run before the program is compiled).
#[test]
fn nothing_else_touches_disk_or_clock() {
    let slips: Vec<String> = all()
        .iter()
        .filter(|(path, _)| !["cli", "main", "folder", "build"].contains(&module_of(path)))
        .filter(|(_, text)| {
            code(text).any(|l| {
                ["std::fs", "std::env::", "std::time", "std::net", "std::process"].iter().any(|w| l.contains(w))
                    && !l.contains("env!")
            })
        })
        .map(|(path, _)| path.clone())
        .collect();
    assert!(slips.is_empty(), "{}", slips.join("\n"));
}

/// Every file says first what it is for.
#[test]
fn every_file_says_what_it_is_for() {
    let silent: Vec<String> =
        all().into_iter().filter(|(_, text)| !text.starts_with("//!")).map(|(path, _)| path).collect();
    assert!(silent.is_empty(), "{}", silent.join("\n"));
}

/// Half of all functions are short, none is longer than a screen and a half.
#[test]
fn functions_are_short_enough_to_see_whole() {
    let mut long = Vec::new();
    for (path, text) in all() {
        let lines: Vec<&str> = text.lines().collect();
        for (start, line) in lines.iter().enumerate() {
            let body = line.trim_start();
            let indent = line.len() - body.len();
            let is_function = body.starts_with("fn ")
                || body.starts_with("pub fn ")
                || body.starts_with("pub(super) fn ")
                || body.starts_with("pub(crate) fn ");
            if !is_function || body.ends_with('}') || body.ends_with(';') {
                continue;
            }
            let closing = format!("{}}}", " ".repeat(indent));
            if let Some(length) = lines[start..].iter().position(|l| *l == closing).filter(|n| *n > 70) {
                long.push(format!("{path}:{}: {length} lines", start + 1));
            }
        }
    }
    assert!(long.is_empty(), "{}", long.join("\n"));
}
