//! The house rules that can be read off the sources: who uses whom, and where numbers become text.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

/// The guide, whose table of rooms is held here.
const GUIDE: &str = include_str!("../DEVELOPERS.md");

/// Room, and the rooms that it may use beside itself: the table of the guide as it stands there.
fn may_use() -> BTreeMap<&'static str, Vec<&'static str>> {
    let (_, after) = GUIDE.split_once("\n## Who may use whom\n").unwrap();
    let table = after.split("\n## ").next().unwrap();
    let names = |cell: &'static str| -> Vec<&'static str> { cell.split('`').skip(1).step_by(2).collect() };
    let mut found = BTreeMap::new();
    for row in table.lines().filter(|line| line.starts_with("| `")) {
        let cells: Vec<&str> = row.trim_matches('|').split('|').collect();
        let [room, uses] = cells[..] else { panic!("a row of two cells is wanted: {row}") };
        for room in names(room) {
            assert!(found.insert(room, names(uses)).is_none(), "{room} stands in the table twice");
        }
    }
    assert!(found.len() > 20, "only {} rooms in the table", found.len());
    found
}

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

/// Words of the paths in a `use` tree, each path whole: `a::{b, c::{d, e}}` is a b, a c d, a c e.
fn paths(tree: &str) -> Vec<Vec<&str>> {
    let name_ends = tree.find(|c: char| !c.is_alphanumeric() && c != '_').unwrap_or(tree.len());
    let (name, rest) = tree.split_at(name_ends);
    if let Some(group) = rest.strip_prefix("::{").or_else(|| tree.strip_prefix('{')) {
        let inner = group_of(group).into_iter().flat_map(|part| paths(part.trim()));
        return inner.map(|path| [name].into_iter().filter(|n| !n.is_empty()).chain(path).collect()).collect();
    }
    match rest.strip_prefix("::") {
        Some(more) => paths(more).into_iter().map(|path| [name].into_iter().chain(path).collect()).collect(),
        None => vec![vec![name]],
    }
}

/// The parts of a group between commas, up to the bracket that closes it.
fn group_of(text: &str) -> Vec<&str> {
    let (mut depth, mut from, mut parts) = (0, 0, Vec::new());
    for (at, c) in text.char_indices() {
        match c {
            '{' => depth += 1,
            '}' if depth == 0 => {
                parts.push(&text[from..at]);
                return parts;
            }
            '}' => depth -= 1,
            ',' if depth == 0 => {
                parts.push(&text[from..at]);
                from = at + 1;
            }
            _ => {}
        }
    }
    parts
}

/// Everything of the crate that a text names: the first two words behind `crate::`, or behind `super::super::` from a
/// family's folder, which is the room `families`.
fn named(path: &str, text: &str) -> BTreeSet<(String, String)> {
    let whole: String = code(text).map(|line| format!("{line}\n")).collect();
    let from = |marker: &'static str| whole.match_indices(marker).map(move |(at, _)| at + marker.len());
    let two = |path: Vec<&str>| {
        (path.first().copied().unwrap_or("").to_string(), path.get(1).copied().unwrap_or("").to_string())
    };
    let by_crate = from("crate::").flat_map(|at| paths(&whole[at..])).map(two);
    let deep = path.matches('/').count() >= 3 && path.starts_with("src/families/");
    let above = from("super::super::").filter(|_| deep).flat_map(|at| paths(&whole[at..]));
    let above = above.map(|path| ("families".to_string(), path.first().copied().unwrap_or("").to_string()));
    by_crate.chain(above).filter(|(room, _)| !room.is_empty()).collect()
}

#[test]
fn use_trees_are_read_whole() {
    let whole = |tree: &'static str| paths(tree).into_iter().map(|p| p.join(" ")).collect::<Vec<_>>();
    assert_eq!(whole("units::{Length, show};"), ["units Length", "units show"]);
    assert_eq!(
        whole("{families::{cone, cup::{read, seat}},\n shop};"),
        ["families cone", "families cup read", "families cup seat", "shop"]
    );
    assert_eq!(whole("units::Length) -> x"), ["units Length"]);
    let text = "use crate::{families::cone, units::Length};\nfn f() { super::super::cup::x() }\n// crate::sheet\n";
    let seen = named("src/families/shim/mod.rs", text);
    let seen: Vec<String> = seen.into_iter().map(|(a, b)| format!("{a} {b}")).collect();
    assert_eq!(seen, ["families cone", "families cup", "units Length"]);
}

#[test]
fn every_module_uses_only_what_it_may() {
    let table = may_use();
    let mut slips = Vec::new();
    let mut seen = BTreeSet::new();
    for (path, text) in all() {
        let module = module_of(&path);
        if ["lib", "main", "cli", "build"].contains(&module) {
            continue;
        }
        let Some(allowed) = table.get(module) else {
            slips.push(format!("{path}: the module `{module}` is not in the table of DEVELOPERS.md"));
            continue;
        };
        seen.insert(module.to_string());
        for (used, part) in named(&path, &text) {
            let whole = format!("{used}/{part}");
            if used != module && !allowed.iter().any(|may| *may == used || *may == whole) {
                slips.push(format!("{path}: `{module}` uses `{whole}`"));
            }
        }
    }
    let gone =
        table.keys().filter(|room| !room.contains('/') && !["cli", "main"].contains(room) && !seen.contains(**room));
    slips.extend(gone.map(|room| format!("the table of DEVELOPERS.md names `{room}`, and there is none")));
    assert!(slips.is_empty(), "{}", slips.join("\n"));
}

/// Where a file stands among the modules: `src/a/b.rs` and `src/a/b/mod.rs` are a, b.
fn stands(path: &str) -> Vec<&str> {
    let path = path.trim_start_matches("src/").trim_end_matches(".rs");
    path.trim_end_matches("/mod").split('/').collect()
}

/// Every module path that a file names from the crate or from above itself, from the crate down.
fn names(path: &str, text: &str) -> Vec<Vec<String>> {
    let whole: String = code(text).map(|line| format!("{line}\n")).collect();
    let own = stands(path);
    let owned = |path: Vec<&str>| path.into_iter().map(str::to_string).collect::<Vec<_>>();
    let mut found: Vec<Vec<String>> =
        whole.match_indices("crate::").flat_map(|(at, m)| paths(&whole[at + m.len()..])).map(owned).collect();
    for (at, _) in whole.match_indices("super::").filter(|(at, _)| !whole[..*at].ends_with("super::")) {
        let mut rest = &whole[at..];
        let mut up = 0;
        while let Some(after) = rest.strip_prefix("super::") {
            (rest, up) = (after, up + 1);
        }
        let above = &own[..own.len().saturating_sub(up)];
        found.extend(paths(rest).into_iter().map(|path| owned([above, &path[..]].concat())));
    }
    found
}

/// Folder by folder (the rooms are the folder with no name), which of its files and folders uses which other.
fn uses() -> BTreeMap<String, BTreeMap<String, BTreeSet<String>>> {
    let files = all();
    let mut there: BTreeMap<String, BTreeMap<String, BTreeSet<String>>> = BTreeMap::new();
    let files =
        || files.iter().filter(|(path, _)| !["src/lib.rs", "src/main.rs", "src/build/main.rs"].contains(&&path[..]));
    for (path, _) in files() {
        let own = stands(path);
        (0..own.len())
            .for_each(|i| _ = there.entry(own[..i].join("/")).or_default().entry(own[i].to_string()).or_default());
    }
    for (path, text) in files() {
        let own = stands(path);
        for named in names(path, text) {
            let same = own.iter().zip(&named).take_while(|(a, b)| a == b).count();
            let (Some(user), Some(used)) = (own.get(same), named.get(same)) else { continue };
            let folder = there.get_mut(&own[..same].join("/")).unwrap();
            if folder.contains_key(used) {
                folder.get_mut(*user).unwrap().insert(used.clone());
            }
        }
    }
    there
}

/// A family uses another only as its mate, and a subject of the formulas only what it rests on, downhill, as the table says.
#[test]
fn parts_of_a_room_keep_to_the_table() {
    let table = may_use();
    let uses = uses();
    let families: Vec<&str> = uses["families"].keys().map(String::as_str).filter(|f| *f != "common").collect();
    let mut slips = Vec::new();
    for room in ["families", "formulas"] {
        for (part, used) in &uses[room] {
            let row = table.get(format!("{room}/{part}").as_str());
            let held = row.is_some() || (room == "families" && families.contains(&part.as_str()));
            let may = |other: &str| row.is_some_and(|r| r.contains(&format!("{room}/{other}").as_str()));
            let common = |other: &str| room == "families" && !families.contains(&other);
            let wrong = used.iter().filter(|other| held && !may(other) && !common(other));
            slips.extend(wrong.map(|other| format!("{room}: `{part}` uses `{other}`")));
        }
    }
    assert!(families.len() > 4 && uses["formulas"].len() > 10);
    assert!(slips.is_empty(), "{}", slips.join("\n"));
}

/// No room uses one that uses it, however far round, and no file of a folder uses one of its neighbours that uses it.
#[test]
fn nothing_uses_each_other_in_a_circle() {
    let mut circles = Vec::new();
    for (room, mut parts) in uses() {
        // What uses nothing that is left is taken away until nothing is left; a circle stays.
        while let Some(free) = parts.iter().find(|(_, used)| used.is_empty()).map(|(part, _)| part.clone()) {
            parts.remove(&free);
            parts.values_mut().for_each(|used| _ = used.remove(&free));
        }
        circles.extend(parts.iter().map(|(part, used)| format!("{room}: {part} uses {used:?}")));
    }
    assert!(circles.is_empty(), "{}", circles.join("\n"));
}

/// Numbers become text in one place for people and in one for files: nothing else says how many decimals.
#[test]
fn numbers_become_text_in_one_place() {
    let mut slips = Vec::new();
    for (path, text) in all() {
        if ["src/record/show.rs", "src/units/show.rs", "src/export/digits.rs", "src/build/main.rs"]
            .contains(&path.as_str())
        {
            continue;
        }
        for line in code(&text) {
            let formats = line.split('{').skip(1).filter_map(|from| from.split('}').next());
            let decimals = |f: &&str| {
                !f.contains(char::is_whitespace) && f.split_once(':').is_some_and(|(_, how)| how.contains('.'))
            };
            slips.extend(formats.filter(decimals).map(|f| format!("{path}: {{{f}}}")));
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
            let bare = ["pub(super) ", "pub(crate) ", "pub ", "const "];
            let word = bare.iter().fold(body, |word, before| word.strip_prefix(before).unwrap_or(word));
            let is_function = word.starts_with("fn ");
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

/// A size and a table are named once, in `sizes.rs` of their family; everything else takes the handle. The compiler refuses a
/// text where a handle is wanted; this holds that no handle is made elsewhere, and that no family names one twice.
#[test]
fn a_size_is_named_once() {
    let mut slips = Vec::new();
    let mut names: BTreeMap<(String, String), usize> = BTreeMap::new();
    for (path, text) in all().into_iter().filter(|(path, _)| path.starts_with("src/families/")) {
        if !path.ends_with("/sizes.rs") {
            let made = ["Size::new(", "Size::one_of(", "TableName::new(", ".named("];
            let seen = code(&text).filter(|line| made.iter().any(|make| line.contains(make)));
            slips.extend(seen.map(|line| format!("{path}: {}", line.trim())));
            continue;
        }
        let family = stands(&path)[1].to_string();
        let literal = |line: &str| Some(line.split_once(" = \"")?.1.split('"').next()?.to_string());
        for name in code(&text).filter_map(literal) {
            *names.entry((family.clone(), name)).or_default() += 1;
        }
    }
    assert!(names.len() > 200, "only {} names seen", names.len());
    for ((family, name), times) in &names {
        let common = family != "common" && names.contains_key(&("common".to_string(), name.clone()));
        if *times > 1 || common {
            slips.push(format!("{family}: `{name}` is named twice"));
        }
    }
    assert!(slips.is_empty(), "{}", slips.join("\n"));
}

/// The comment over a function and its head, for every one of a text.
fn heads(text: &str) -> Vec<(String, String)> {
    let (mut found, mut comment, mut head) = (Vec::new(), String::new(), None::<String>);
    for line in text.lines().map(str::trim) {
        if let Some(words) = line.strip_prefix("///") {
            comment.push_str(words);
        } else if let Some(begun) = &mut head {
            begun.push_str(line);
        } else if line.starts_with("pub fn ") || line.starts_with("pub const fn ") {
            head = Some(line.to_string());
        } else if !line.starts_with("#[") {
            comment.clear();
        }
        if let Some(whole) = head.take_if(|head| head.ends_with('{')) {
            found.push((std::mem::take(&mut comment), whole));
        }
    }
    found
}

/// A formula that says where it holds gives an answer that can say that it does not.
#[test]
fn a_range_that_is_stated_is_judged() {
    let says = ["Valid ", "valid while", "For thin", "For slender", "For work of", "Steel on steel", "refused outside"];
    let judged = ["Result<", "Option<", "-> Bedding", "-> Setover"];
    let mut seen = 0;
    let mut slips = Vec::new();
    for (path, text) in all() {
        if !["formulas", "standards"].contains(&module_of(&path)) {
            continue;
        }
        for (comment, head) in heads(&text) {
            if says.iter().any(|words| comment.contains(words)) {
                seen += 1;
                if !judged.iter().any(|answer| head.contains(answer)) {
                    slips.push(format!("{path}: {head}"));
                }
            }
        }
    }
    assert!(seen >= 8, "only {seen} ranges seen");
    assert!(slips.is_empty(), "{}", slips.join("\n"));
}

/// Files with something that no part asks for yet, and why it stands: what else the program does not use is there for tests,
/// and says so.
const WAITING: [(&str, &str); 6] = [
    ("src/record/drawing.rs", "sizes in brackets"),
    ("src/record/drawing/geometric.rs", "the table of ISO 1101 stands whole"),
    ("src/formulas/bolts.rs", "torque of a bolt whose class is known"),
    ("src/standards/ansi_b4_1/mod.rs", "the column that a printed row is checked by"),
    ("src/standards/coatings.rs", "zinc by the thickness of the steel"),
    ("src/standards/galvanic.rs", "potentials in sea water beside the anodic index"),
];

#[test]
fn what_only_tests_use_says_so() {
    let mut slips = Vec::new();
    for (path, text) in all() {
        for line in code(&text).filter(|l| l.contains("dead_code") || l.contains("unused_imports")) {
            if !line.contains("reason = \"tests ") && !WAITING.iter().any(|(file, _)| *file == path) {
                slips.push(format!("{path}: {}", line.trim()));
            }
        }
    }
    assert!(slips.is_empty(), "{}", slips.join("\n"));
}
