//! What a person wrote reaches sheet and terminal as it was written, or is refused: no unseen character comes through.

use std::fs;
use std::process::{Command, Stdio};

use program::{Bench, run_in};
use serde_json::Value as Json;
use setdown::families::FAMILIES;
use setdown::job;
use setdown::printable::{first_unseen, unseen};
use setdown::record::key::{Key, Kind};
use setdown::shop::Shop;
use toml::{Table, Value};

mod program;

/// One of each kind: escape, bell, delete, C1 (next line, control sequence), line and paragraph breaks, tab, marks of direction.
/// Source: Unicode Standard, Bidi_Control and the general categories Cc, Zl, Zp.
const UNSEEN: [char; 24] = [
    '\u{1b}', '\u{7}', '\0', '\u{7f}', '\u{80}', '\u{85}', '\u{9b}', '\u{9f}', '\n', '\r', '\t', '\u{2028}',
    '\u{2029}', '\u{61c}', '\u{200e}', '\u{200f}', '\u{202a}', '\u{202b}', '\u{202d}', '\u{202e}', '\u{2066}',
    '\u{2067}', '\u{2068}', '\u{2069}',
];

/// Line breaks of our own and the tab that a source line may hold aside, nothing unseen.
#[track_caller]
fn clean(text: &str, what: &str) {
    let lines = text.replace('\n', " ");
    assert_eq!(first_unseen(&lines), None, "{what}: {text:?}");
}

/// Every key behind which any text may stand, with the way to it.
fn text_keys(keys: &'static [Key], way: &[&'static str], found: &mut Vec<(Vec<&'static str>, bool)>) {
    for key in keys {
        let mut here = way.to_vec();
        here.push(key.name);
        match key.kind {
            Kind::Text | Kind::File | Kind::Choice(_) | Kind::Length(_) | Kind::Angle(..) => found.push((here, false)),
            Kind::Lengths(_) | Kind::List => found.push((here, true)),
            Kind::Table(inner) | Kind::Rows(inner) => text_keys(inner, &here, found),
            _ => {}
        }
    }
}

/// Puts the value behind the way, with the tables and rows that are wanted for it.
fn put(table: &mut Table, way: &[&str], value: Value, keys: &'static [Key]) {
    let (first, rest) = way.split_first().unwrap();
    if rest.is_empty() {
        table.insert((*first).into(), value);
        return;
    }
    let kind = keys.iter().find(|k| k.name == *first).unwrap().kind;
    let (Kind::Table(inner) | Kind::Rows(inner)) = kind else { panic!("{first} holds no keys") };
    let empty = match kind {
        Kind::Rows(_) => Value::Array(vec![Value::Table(Table::new())]),
        _ => Value::Table(Table::new()),
    };
    let below = match table.entry((*first).to_string()).or_insert(empty) {
        Value::Array(rows) => rows[0].as_table_mut().unwrap(),
        other => other.as_table_mut().unwrap(),
    };
    put(below, rest, value, inner);
}

#[test]
fn no_text_key_of_any_family_lets_an_unseen_character_through() {
    let mut tried = 0;
    for family in FAMILIES {
        let neighbour = |_: &str, name: &str| {
            let found = family.companions.iter().find(|(n, _)| *n == name).ok_or("no such file")?;
            Ok((name.to_string(), found.1.to_string()))
        };
        let mut keys = Vec::new();
        text_keys(family.keys, &[], &mut keys);
        assert!(keys.iter().any(|(way, _)| way == &["note"]));
        // A landing takes a second to work: a few characters behind each of its keys.
        let every = if family.name == "landing" { 8 } else { 1 };
        for (i, (way, list)) in keys.into_iter().enumerate() {
            for c in UNSEEN.into_iter().skip(i % every).step_by(every) {
                let nasty = Value::String(format!("left{c}  ok      all is fine"));
                let value = if list { Value::Array(vec![nasty]) } else { nasty };
                let mut table: Table = toml::from_str(family.template).unwrap();
                put(&mut table, &way, value, family.keys);
                if family.name == "landing" && way != ["draws"] {
                    table.insert("draws".into(), Value::Integer(100));
                }
                let text = toml::to_string(&table).unwrap();
                let problems = job::work("a.toml", &text, &Shop::default(), &neighbour).expect_err("refused");
                let told = job::render(&problems, &text);
                let code = format!("U+{:04X}", u32::from(c));
                assert!(told.contains(&code), "{} {way:?} {code}:\n{told}", family.name);
                clean(&told, &code);
                tried += 1;
            }
        }
    }
    assert!(tried > 24 * 70, "{tried}");
}

/// The mark stands under the character, or under the escape that makes it.
#[test]
fn the_place_of_an_unseen_character_is_shown() {
    let told = |text: &str| match job::work("a.toml", text, &Shop::default(), &|_, _| Err(String::new())) {
        Err(problems) => job::render(&problems, text),
        Ok(_) => panic!("{text:?} was taken"),
    };
    for (text, place) in [
        ("family = 'cone'\nnote = \"a \u{202e}b\"\n", "a.toml:2:11"),
        ("family = 'cone'\nnote = \"a\\\\n \\u202E b\"\n", "a.toml:2:14"),
        ("family = 'cone'\nnote = \"°\\tb\"\n", "a.toml:2:10"),
        ("family = 'cone'\nnote = '''one\ntwo'''\n", "a.toml:2:14"),
        ("family = 'cone'\n\"no\\u0007te\" = 1\n", "a.toml:2:4"),
    ] {
        let told = told(text);
        assert!(told.contains(place), "{place}:\n{told}");
        clean(&told, place);
    }
}

/// Faults of the TOML itself quote the line.
#[test]
fn quoted_lines_hold_nothing_unseen() {
    for c in UNSEEN {
        for text in [format!("no{c}te = = 'x{c}y'\n"), format!("family = 'x{c}'\nb = 6 m{c}m\n"), format!("[a{c}\nb")] {
            let problems =
                job::work("a.toml", &text, &Shop::default(), &|_, _| Err(String::new())).expect_err("refused");
            clean(&job::render(&problems, &text), &format!("{text:?}"));
        }
    }
}

#[test]
fn arguments_are_not_echoed_raw() {
    let folder = tempfile::tempdir().unwrap();
    for c in UNSEEN.into_iter().filter(|c| *c != '\0') {
        let nasty = format!("x{c}y");
        for call in [
            vec![nasty.as_str()],
            vec!["check", &nasty],
            vec!["make", "--out", &nasty],
            vec!["make", "--only", &nasty],
            vec!["fit", &nasty],
            vec!["fit", "25mm", &nasty],
            vec!["shim", "--gap", &nasty, "--target-float", "0.1mm"],
            vec!["start", &nasty, "a.toml"],
            vec!["start", "cone", &nasty],
            vec!["materials", &nasty],
        ] {
            let ran = run_in(folder.path(), &call);
            assert_eq!(ran.code, 2, "{call:?}: {}", ran.err);
            assert!(ran.err.contains(&c.escape_unicode().to_string()), "{call:?}: {}", ran.err);
            clean(&format!("{}{}", ran.out, ran.err), &format!("{call:?}"));
        }
    }
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
}

/// A file in the folder that nobody named on the command line.
#[cfg(target_os = "linux")]
#[test]
fn names_of_files_found_are_not_echoed_raw() {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("parts")).unwrap();
    for c in UNSEEN.into_iter().filter(|c| *c != '\0') {
        fs::write(folder.path().join("parts").join(format!("x{c}y.toml")), "family = 'cone'\n").unwrap();
    }
    let ran = run_in(folder.path(), &["check"]);
    assert_eq!(ran.code, 2);
    clean(&format!("{}{}", ran.out, ran.err), "check");
    assert!(ran.err.contains("\\u{202e}"), "{}", ran.err);
}

/// A list that came from elsewhere: what it says of its parts reaches the terminal only through the gate.
#[cfg(target_os = "linux")]
#[test]
fn a_list_from_elsewhere_is_not_echoed_raw() {
    let bench = Bench::new();
    let shim = |gap: &str| {
        format!(
            "family = 'shim'\ngap = '{gap}'\ntarget_float = ['0.05 mm', '0.15 mm']\nbore = '20 mm'\noutside_diameter = '32 mm'\n"
        )
    };
    bench.part("a.toml", &shim("1.28 mm")).part("b.toml", &shim("1.28 mm"));
    bench.make(&[]);
    let forged = bench.read("out/manifest.json");
    let mut list: Json = serde_json::from_str(&forged).unwrap();
    for (key, text) in [("part", "../parts/gone\u{1b}[2J\u{202e}.toml"), ("verdict", "fail")] {
        list["parts"][0][key] = text.into();
    }
    list["parts"][0]["told"] = serde_json::json!(["a\u{1b}]0;x\u{7} ok"]);
    list["parts"][0]["rests_on"][0]["file"] = "../parts/gone\u{1b}[2J\u{202e}.toml".into();
    list["parts"][1]["verdict"] = "fail".into();
    list["parts"][1]["told"] = serde_json::json!(["b\u{1b}]0;x\u{7}\nok: all"]);
    bench.write("out/manifest.json", &list.to_string());
    let ran = bench.run(&["make", "parts/b.toml"]);
    assert!(ran.out.contains("gone\u{fffd}"), "{}", ran.out);
    assert!(ran.out.contains("b\u{fffd}]0;x\u{fffd}\u{fffd}ok: all"), "{}", ran.out);
    clean(&format!("{}{}", ran.out, ran.err), "make");
}

/// Names that mean a device or a list of ours somewhere, in any case and with any extension.
/// Source: Microsoft, Naming Files, Paths, and Namespaces.
#[test]
fn reserved_names_are_no_stems() {
    for stem in [
        "con",
        "NUL",
        "aux",
        "Prn",
        "nul.x",
        "con.front.left",
        "COM1",
        "com9",
        "LPT1",
        "lpt9.a",
        "com0",
        "nul .x",
        "CONIN$",
        "conout$",
        "manifest",
        "Manifest",
        "MANIFEST",
        "a.",
        "a ",
        ".a",
        "-a",
        "",
        "a/b",
        "a\\b",
        "a:b",
    ] {
        assert!(job::stem_trouble(stem).is_some(), "{stem}");
    }
    for stem in ["cone", "com", "com10", "lpt", "console", "nul-left", "a.b", "manifest-2", "aux2", "front left"] {
        assert_eq!(job::stem_trouble(stem), None, "{stem}");
    }
}

#[test]
fn what_is_unseen_is_what_unicode_says() {
    let wanted =
        |c: char| c.is_control() || matches!(c, '\u{2028}' | '\u{2029}') || UNSEEN.contains(&c) || c == '\u{202c}';
    for c in (0..0x3000).filter_map(char::from_u32) {
        assert_eq!(unseen(c).is_some(), wanted(c), "U+{:04X}", u32::from(c));
    }
}

/// The status tells how the work came out, whoever reads what is printed.
#[test]
fn a_reader_that_goes_away_does_not_change_the_status() {
    let folder = tempfile::tempdir().unwrap();
    let part = |name: &str, text: &str| fs::write(folder.path().join(name), text).unwrap();
    part("bad.toml", "family = 'cone'\nbase_diameter = 6\n");
    part("good.toml", setdown::families::cone::FAMILY.template);
    part(
        "poor.toml",
        "family = 'sleeve'\nbore = '20 mm'\noutside_diameter = '21 mm'\nlength = '60 mm'\n[pressed_in]\nhub_outside = '22 mm'\n[housing]\nclass = 'H7'\n",
    );
    let status = |arguments: &[&str]| {
        let (reader, writer) = std::io::pipe().unwrap();
        drop(reader);
        let mut command = Command::new(env!("CARGO_BIN_EXE_setdown"));
        command.args(arguments).current_dir(folder.path()).stdin(Stdio::null());
        command.stderr(writer.try_clone().unwrap()).stdout(writer).status().unwrap().code()
    };
    for (arguments, usual) in [
        (["check", "bad.toml"], 2),
        (["check", "good.toml"], 0),
        (["check", "poor.toml"], 1),
        (["check", "none.toml"], 3),
        (["fit", "25"], 2),
        (["fit", "--help"], 0),
        (["make", "--nonsense"], 2),
        (["make", "good.toml"], 0),
    ] {
        assert_eq!(run_in(folder.path(), &arguments).code, usual, "{arguments:?}");
        assert_eq!(status(&arguments), Some(usual), "{arguments:?} with nobody reading");
    }
}

/// Where the system gives no thread, the present one does the work: the same bytes.
#[cfg(target_os = "linux")]
#[test]
fn no_thread_to_be_had() {
    use std::os::unix::fs::{MetadataExt, PermissionsExt};
    use std::os::unix::process::CommandExt;
    let folder = tempfile::tempdir().unwrap();
    let own = |name: &str| folder.path().join(name);
    fs::set_permissions(folder.path(), fs::Permissions::from_mode(0o777)).unwrap();
    fs::copy(env!("CARGO_BIN_EXE_setdown"), own("setdown")).unwrap();
    for family in FAMILIES {
        fs::write(own(&format!("{}.toml", family.name)), family.template).unwrap();
        family.companions.iter().for_each(|(name, text)| fs::write(own(name), text).unwrap());
    }
    let wanted = run_in(folder.path(), &["check", "."]);
    for processes in [1, 2, 3] {
        let mut command = Command::new("bash");
        command.arg("-c").arg(format!("ulimit -u {processes} && exec ./setdown check .")).current_dir(folder.path());
        // The limit binds nobody who may do everything.
        if fs::metadata(folder.path()).unwrap().uid() == 0 {
            command.uid(65534).gid(65534);
        }
        let output = command.stdin(Stdio::null()).output().unwrap();
        let (out, err) = (String::from_utf8(output.stdout).unwrap(), String::from_utf8(output.stderr).unwrap());
        assert_eq!(output.status.code(), Some(wanted.code), "{err}");
        assert_eq!((out, err), (wanted.out.clone(), wanted.err.clone()));
    }
}
