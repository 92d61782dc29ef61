//! The promise about the output folder: what stands in it is what the present part files say, or the person has been told
//! otherwise; nothing that a person put or changed there is ever lost.

use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;

use program::{Bench, Ran, files, run_in};
use serde_json::Value as Json;
use setdown::folder::list::sha256;

mod program;

const CONE: &str = "family = \"cone\"\nname = \"test cone\"\nmaterial = \"steel S235\"\nbase_diameter = \"60 mm\"\ntip_diameter = \"12 mm\"\nhalf_angle = \"30 deg\"\n";
const CUP: &str = "family = \"cup\"\nlength = \"120 mm\"\nwidth = \"100 mm\"\nthickness = \"8 mm\"\nmates = \"a.toml\"\n[hole]\nkind = \"round\"\ndiameter = \"40 mm\"\n";
const SHIM: &str = "family = \"shim\"\ngap = \"1.28 mm\"\ntarget_float = [\"0.05 mm\", \"0.15 mm\"]\nbore = \"20 mm\"\noutside_diameter = \"32 mm\"\n";

/// What the closing lines say under that heading.
#[track_caller]
fn said(ran: &Ran, heading: &str) -> String {
    let mut lines = ran.out.lines().skip_while(|l| !l.starts_with(&format!("  {heading}")));
    let first = lines.next().unwrap_or_else(|| panic!("no line `{heading}` in:\n{}", ran.out));
    let more = lines.take_while(|l| l.starts_with("      "));
    [first].into_iter().chain(more).collect::<Vec<_>>().join("\n")
}

/// A second run works nothing, writes nothing, and the list tells the truth about every file.
#[test]
fn make_twice_and_check_the_list() {
    let bench = Bench::new();
    bench.write("parts/a.toml", CONE).write("parts/b.toml", CUP);
    let made = bench.make(&[]);
    assert!(said(&made, "made").ends_with("2 parts") && said(&made, "unchanged").ends_with("none"), "{}", made.out);
    let (first, written) = (bench.out(), fs::metadata(bench.path("out")).unwrap().modified().unwrap());
    let again = bench.make(&[]);
    assert!(again.out.contains("nothing changed") && said(&again, "unchanged").ends_with("2 parts"), "{}", again.out);
    assert!(said(&again, "stale").ends_with("none") && said(&again, "set aside").ends_with("none"));
    assert_eq!((bench.out(), fs::metadata(bench.path("out")).unwrap().modified().unwrap()), (first.clone(), written));
    let list = bench.list();
    let mut listed = 0;
    for part in list["parts"].as_array().unwrap().iter().chain([&list["job"]]) {
        for file in part["files"].as_array().unwrap() {
            let bytes = &first[file["file"].as_str().unwrap()];
            assert_eq!((&file["size"], &file["sha256"]), (&bytes.len().into(), &sha256(bytes).into()));
            listed += 1;
        }
    }
    assert_eq!(listed + 1, first.len());
    assert_eq!(list["parts"][0]["part"], "../parts/a.toml");
    let rests_on: Vec<&str> =
        list["parts"][1]["rests_on"].as_array().unwrap().iter().map(|i| i["file"].as_str().unwrap()).collect();
    assert_eq!(rests_on, ["../parts/b.toml", "../parts/a.toml", "../parts/shop.toml"]);
    // No left-over beside the folder.
    assert_eq!(bench.names(""), ["out", "parts"]);
}

/// One part made from another folder leaves the files of all others where they are.
#[test]
fn from_wherever_it_is_called() {
    let bench = Bench::new();
    bench.write("parts/a.toml", CONE).write("parts/b.toml", CUP).write("parts/c.toml", SHIM);
    bench.make(&[]);
    let whole = bench.out();
    for folder in ["parts", "/"] {
        let base = bench.folder.path().to_str().unwrap();
        let (part, out) = if folder == "/" {
            (format!("{base}/parts/b.toml"), format!("{base}/out"))
        } else {
            ("b.toml".into(), "../out".into())
        };
        fs::remove_file(bench.path("out/b.txt")).unwrap();
        let ran = run_in(&bench.folder.path().join(folder), &["make", &part, "--out", &out]);
        assert_eq!(ran.code, 0, "{}", ran.err);
        assert!(said(&ran, "unchanged").ends_with("2 parts"), "{}", ran.out);
        assert!(bench.out() == whole, "from {folder}");
    }
    // Another spelling of the same file is the same part, in one call and in two.
    let ran = bench.make(&["parts/../parts/b.toml", "parts/b.toml"]);
    assert!(bench.out() == whole && ran.out.contains("nothing changed"), "{}", ran.out);
}

/// A remedy names the file in which it stands, its mate's too, in the same words from wherever the program is called.
#[test]
fn remedies_from_wherever_it_is_called() {
    let bench = Bench::new();
    for name in ["cone-rear.toml", "cup-rear-right.toml", "sleeve-latch.toml"] {
        bench.write(&format!("parts/{name}"), &fs::read_to_string(format!("parts/{name}")).unwrap());
    }
    bench.make(&[]);
    let inside = bench.out();
    let told = bench.read("out/cup-rear-right.json");
    assert!(told.contains(r#""file": "parts/cone-rear.toml""#), "no remedy in the mate's file: the test is blind");
    let base = bench.folder.path().to_str().unwrap();
    for (from, parts) in [("/", format!("{base}/parts")), ("parts", ".".into()), ("parts", format!("{base}/parts/"))] {
        fs::remove_dir_all(bench.path("out")).unwrap();
        let ran = run_in(&bench.folder.path().join(from), &["make", &parts, "--out", &format!("{base}/out")]);
        assert_eq!(ran.code, 0, "{}", ran.err);
        assert!(bench.out() == inside, "{parts} from {from}");
    }
}

/// A file that was changed by hand, or that only bears the name of one of ours, is kept before ours takes its place.
#[test]
fn what_was_changed_by_hand_is_never_lost() {
    let bench = Bench::new();
    bench.write("parts/a.toml", CONE).write("parts/b.toml", CUP);
    bench.make(&[]);
    let whole = bench.out();
    let notes = bench.read("out/a.txt") + "measured 59.98\n";
    bench.write("out/a.txt", &notes).write("out/b.dxf", "my engraving");
    // Not named: it stays as it is, and that is told.
    let ran = bench.make(&["parts/b.toml"]);
    assert!(said(&ran, "set aside").contains("out/a.txt was changed by hand and stays"), "{}", ran.out);
    assert_eq!(bench.read("out/a.txt"), notes);
    assert_eq!(bench.out()["b.dxf"], whole["b.dxf"]);
    let ran = bench.make(&[]);
    assert!(said(&ran, "set aside").contains("out-set-aside/a.changed-by-hand-"), "{}", ran.out);
    let kept: Vec<Vec<u8>> = files(&bench.path("out-set-aside")).into_values().collect();
    assert!(kept.contains(&notes.clone().into_bytes()) && kept.contains(&b"my engraving".to_vec()));
    assert!(bench.out() == whole);
    // The same again is kept once.
    bench.write("out/a.txt", &notes);
    bench.make(&[]);
    assert_eq!(bench.names("out-set-aside").len(), 2);
    // Of the very size of ours.
    let same_size: String = notes.chars().rev().take(whole["a.txt"].len()).collect();
    bench.write("out/a.txt", &same_size);
    bench.make(&[]);
    assert_eq!(bench.names("out-set-aside").len(), 3);
    // Another of that size, and the list written again after it, as a version control does that puts both there.
    let (other, list) = (same_size.replace('m', "n"), bench.read("out/manifest.json"));
    bench.write("out/a.txt", &other);
    std::thread::sleep(Duration::from_millis(20));
    bench.write("out/manifest.json", &list);
    bench.make(&[]);
    assert!(bench.out() == whole && bench.names("out-set-aside").len() == 4);
}

/// A folder with somebody's notes in it is not touched.
#[test]
fn a_foreign_file_is_never_lost() {
    let bench = Bench::new();
    bench.write("parts/a.toml", CONE);
    fs::create_dir(bench.path("out")).unwrap();
    bench.write("out/notes.txt", "mine");
    bench.run(&["make"]).fails_with(3, &["notes.txt", "--out"]);
    assert_eq!(bench.names("out"), ["notes.txt"]);
    fs::remove_file(bench.path("out/notes.txt")).unwrap();
    bench.make(&[]);
    bench.write("out/notes.txt", "mine");
    let before = bench.out();
    bench.write("parts/a.toml", &CONE.replace("60 mm", "61 mm"));
    bench.run(&["make"]).fails_with(3, &["notes.txt"]);
    assert_eq!(bench.out(), before);
    bench.write("file", "");
    bench.run(&["make", "--out", "file"]).fails_with(3, &["not a folder"]);
    bench.run(&["make", "--out", "/"]).fails_with(3, &["whole drive"]);
    bench.run(&["make", "--out", "parts"]).fails_with(3, &["a.toml"]);
    fs::remove_file(bench.path("out/notes.txt")).unwrap();
    for list in [
        "{",
        "{\"schema\":2,\"written_by\":\"x\",\"parts\":[{\"part\":\"../parts/a.toml\",\"verdict\":\"ok\",\"told\":[],\"rests_on\":[],\"kinds\":{},\"files\":[{\"file\":\"../evil.txt\",\"size\":1,\"sha256\":\"0\"}]}]}",
    ] {
        bench.write("out/manifest.json", list);
        bench.run(&["make"]).fails_with(3, &["cannot be understood"]);
    }
    assert_eq!(bench.names(""), ["file", "out", "parts"]);
}

/// Files of a part that is refused, or has changed and was not named, are set apart under names that no cutter takes.
#[test]
fn stale_files_are_set_apart_and_told() {
    let bench = Bench::new();
    bench.write("parts/a.toml", CONE).write("parts/b.toml", CUP).write("parts/c.toml", SHIM);
    bench.make(&[]);
    let whole = bench.out();
    // Refused now; the others are made all the same.
    bench
        .write("parts/b.toml", &CUP.replace("diameter", "diamter"))
        .write("parts/c.toml", &SHIM.replace("1.28", "1.30"));
    let ran = bench.run(&["make"]);
    ran.fails_with(2, &["parts/b.toml:8:1", "diamter", "did you mean diameter?"]);
    assert!(said(&ran, "stale").contains("b: it cannot be made"), "{}", ran.out);
    assert!(!bench.out().keys().any(|n| n.starts_with("b.")) && bench.out()["c.json"] != whole["c.json"]);
    let aside = files(&bench.path("out-set-aside"));
    let dxf = aside.iter().find(|(name, _)| name.starts_with("b.dxf.stale-")).unwrap();
    assert_eq!(dxf.1, &whole["b.dxf"]);
    assert!(aside.keys().all(|name| name.contains(".stale-")), "{:?}", aside.keys());
    // Changed and not named: its mate's change is enough.
    bench.write("parts/b.toml", CUP).write("parts/c.toml", SHIM);
    bench.make(&[]);
    assert!(bench.out() == whole);
    bench.write("parts/a.toml", &CONE.replace("60 mm", "64 mm"));
    let ran = bench.make(&["parts/c.toml"]);
    let stale = said(&ran, "stale");
    assert!(stale.contains("a: its part file parts/a.toml has changed"), "{stale}");
    assert!(stale.contains("b: parts/a.toml, on which it rests, has changed"), "{stale}");
    let of_c = |n: &String| n.starts_with("c.") || n.starts_with("c-") || n.ends_with("_c.dxf");
    assert!(bench.out().keys().all(|n| of_c(n) || of_the_job(n)), "{:?}", bench.out().keys());
    // Gone, or under another name.
    bench.make(&[]);
    fs::rename(bench.path("parts/c.toml"), bench.path("parts/d.toml")).unwrap();
    let ran = bench.make(&["parts/d.toml"]);
    assert!(said(&ran, "stale").contains("c: its part file is now parts/d.toml"), "{}", ran.out);
    // A shop file that comes into being is something that every answer rests on.
    bench.write("parts/shop.toml", "units = \"in\"\n");
    let ran = bench.make(&["parts/d.toml"]);
    assert!(said(&ran, "stale").contains("a: parts/shop.toml, on which it rests, has changed"), "{}", ran.out);
}

/// A changed mate works its cups again, and nothing else.
#[test]
fn only_what_has_changed_is_worked() {
    let bench = Bench::new();
    bench.write("parts/a.toml", CONE).write("parts/b.toml", CUP).write("parts/c.toml", SHIM);
    bench.make(&[]);
    bench.write("parts/a.toml", &CONE.replace("60 mm", "64 mm"));
    let ran = bench.make(&[]);
    assert!(said(&ran, "made").ends_with("2 parts") && said(&ran, "unchanged").ends_with("1 part"), "{}", ran.out);
    let ran = bench.make(&["--paper", "letter"]);
    assert!(said(&ran, "made").ends_with("3 parts"), "{}", ran.out);
    // A part that fails says so each time, whether it was worked or not.
    bench.write("parts/a.toml", &CONE.replace("30 deg", "5 deg").replace("12 mm", "50 mm"));
    for _ in 0..2 {
        let ran = bench.run(&["make"]);
        assert!(ran.code == 1 && ran.out.contains("  fail    test cone"), "{}", ran.out);
    }
}

/// Some kinds of file only: the others stay where the part has not changed, and are set apart where it has.
#[test]
fn some_kinds_only() {
    let bench = Bench::new();
    bench.write("parts/a.toml", CONE).write("parts/b.toml", CUP);
    bench.make(&[]);
    let whole = bench.out();
    bench.make(&["--only", "stl"]);
    assert!(bench.out() == whole);
    bench.write("parts/b.toml", &CUP.replace("40 mm", "41 mm"));
    let ran = bench.make(&["--only", "stl"]);
    assert!(said(&ran, "stale").contains("b: the kinds of file that were not asked for are older"), "{}", ran.out);
    assert_eq!(bench.out().keys().filter(|n| n.starts_with('b')).collect::<Vec<_>>(), ["b.stl"]);
    bench.write("parts/b.toml", CUP);
    bench.make(&[]);
    assert!(bench.out() == whole);
    // A kind made with other options, alone.
    bench.make(&["--only", "dxf", "--dxf", "R12"]);
    let changed: Vec<String> =
        bench.out().into_iter().filter(|(n, b)| whole.get(n) != Some(b)).map(|(n, _)| n).collect();
    assert_eq!(changed, ["b.dxf", "manifest.json"]);
}

/// Two parts never share a name in the folder, whichever call they come from.
#[test]
fn two_parts_never_mix() {
    let bench = Bench::new();
    fs::create_dir(bench.path("more")).unwrap();
    bench.write("parts/a.toml", CONE).write("more/A.toml", SHIM);
    bench.make(&[]);
    let whole = bench.out();
    bench.run(&["make", "more/A.toml"]).fails_with(2, &["more/A.toml", "same names", "../parts/a.toml"]);
    assert!(bench.out() == whole);
    // With the other gone the name is free, and what it left is set apart.
    fs::remove_file(bench.path("parts/a.toml")).unwrap();
    let ran = bench.make(&["more/A.toml"]);
    assert!(said(&ran, "stale").contains("a: its part file parts/a.toml is gone"), "{}", ran.out);
    assert!(bench.out().keys().all(|n| n.starts_with('A') || n.ends_with("_A.dxf") || of_the_job(n)));
    // A plate's paper template and another part's sheet of the same name: neither silently wins.
    bench.write("parts/plate.toml", &CUP.replace("mates = \"a.toml\"\n", "")).write("parts/plate-template.toml", CONE);
    bench.write("parts/c.toml", SHIM);
    let ran = bench.run(&["make"]);
    ran.fails_with(2, &["parts/plate-template.toml and parts/plate.toml", "plate-template.pdf", "rename"]);
    assert!(bench.out().contains_key("c.pdf") && !bench.out().keys().any(|n| n.starts_with("plate")));
}

/// One part that cannot be made does not stop the others; two folders beside one another do not wait for one another.
#[test]
fn one_does_not_stop_another() {
    let bench = Bench::new();
    bench.write("parts/a.toml", CONE).write("parts/b.toml", "family = 3\n");
    assert_eq!(bench.run(&["make"]).code, 2);
    assert!(bench.out().contains_key("a.pdf"));
    bench.write("parts/b.toml", CUP);
    let start = |out: &str| {
        Command::new(env!("CARGO_BIN_EXE_setdown"))
            .args(["make", "--out", out])
            .current_dir(bench.folder.path())
            .stdout(Stdio::null())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap()
    };
    let both = [start("one"), start("two")].map(|child| child.wait_with_output().unwrap());
    for ran in both {
        assert!(ran.status.success(), "{}", String::from_utf8_lossy(&ran.stderr));
    }
    assert_eq!(bench.names(""), ["one", "out", "parts", "two"]);
}

/// Of several that write into one folder some may be sent away, and the folder is whole all the same.
#[test]
fn two_writers() {
    let bench = Bench::new();
    for i in 0..4 {
        bench.write(&format!("parts/p{i}.toml"), CONE);
    }
    let start = || {
        let mut command = Command::new(env!("CARGO_BIN_EXE_setdown"));
        command
            .arg("make")
            .current_dir(bench.folder.path())
            .stdout(Stdio::null())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap()
    };
    let ran: Vec<_> = (0..4).map(|_| start()).collect();
    let mut done = 0;
    for child in ran {
        let ran = child.wait_with_output().unwrap();
        let told = String::from_utf8_lossy(&ran.stderr);
        assert!(ran.status.success() || told.contains("another run is writing into"), "{told}");
        done += usize::from(ran.status.success());
    }
    assert!(done >= 1);
    whole(&bench, "writers");
    assert_eq!(bench.names(""), ["out", "parts"]);
}

/// What is there of no part in particular.
fn of_the_job(name: &str) -> bool {
    ["manifest.json", "job.csv", "job.json", "job.pdf", "to-cutter/order.txt"].contains(&name)
}

/// The list and the files of the folder agree.
#[track_caller]
fn whole(bench: &Bench, when: &str) {
    let out = bench.out();
    let mut listed = 1;
    let list = bench.list();
    let all = list["parts"].as_array().unwrap().iter().chain([&list["job"]]);
    for file in all.flat_map(|p| p["files"].as_array().unwrap()) {
        assert_eq!(file["sha256"], sha256(&out[file["file"].as_str().unwrap()]), "{when}");
        listed += 1;
    }
    assert_eq!(listed, out.len(), "{when}");
}

/// Killed at any moment, the folder is one whole set or the other, and what is left is swept by the next run.
/// `SETDOWN_KILLS` says how often.
#[test]
fn killed_in_the_middle() {
    let bench = Bench::new();
    let size = |round: u64| CONE.replace("60 mm", &format!("{} mm", 50 + (round + 1) % 20));
    let set = |text: &str| {
        for i in 0..6 {
            bench.write(&format!("parts/p{i}.toml"), text);
        }
    };
    set(CONE);
    bench.make(&[]);
    let kills = std::env::var("SETDOWN_KILLS").ok().and_then(|n| n.parse().ok()).unwrap_or(40);
    for round in 0..kills {
        set(&size(round));
        if round % 5 == 0 {
            bench.write("out/p0.txt", &format!("my notes {round}"));
        }
        let mut child = Command::new(env!("CARGO_BIN_EXE_setdown"))
            .args(["make"])
            .current_dir(bench.folder.path())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        std::thread::sleep(Duration::from_micros(round * 90_000 / kills.max(1)));
        child.kill().unwrap();
        child.wait().unwrap();
        if round % 5 == 0 {
            let notes = format!("my notes {round}").into_bytes();
            let kept = files(&bench.path("out-set-aside")).into_values().any(|b| b == notes);
            assert!(kept || bench.out().get("p0.txt") == Some(&notes), "round {round}");
        } else if bench.out().get("p0.txt").is_none_or(|t| !t.starts_with(b"my notes")) {
            whole(&bench, &format!("round {round}"));
        }
    }
    bench.make(&[]);
    whole(&bench, "at the end");
    assert_eq!(bench.names(""), ["out", "out-set-aside", "parts"], "what killed runs left is swept");
}

/// What a run that was killed between two steps leaves where names cannot be exchanged: the next run finishes it.
#[test]
fn a_run_that_was_cut_short_is_finished() {
    for (left, lost) in [("ready", false), ("old", false), ("ready", true)] {
        let bench = Bench::new();
        bench.write("parts/a.toml", CONE);
        bench.make(&[]);
        let whole = bench.out();
        let waiting = bench.path(&format!(".out.setdown-{left}"));
        if lost {
            // Both are there: the old folder had come back, or had not gone yet.
            fs::create_dir(&waiting).unwrap();
            for (name, bytes) in &whole {
                fs::write(waiting.join(name), bytes).unwrap();
            }
            fs::write(waiting.join("mine.txt"), "put there meanwhile").unwrap();
        } else {
            fs::rename(bench.path("out"), &waiting).unwrap();
        }
        bench.make(&[]);
        assert!(bench.out() == whole, "{left}");
        assert!(!waiting.exists());
        if lost {
            assert!(files(&bench.path("out-set-aside")).into_values().any(|b| b == b"put there meanwhile"));
        }
    }
}

#[cfg(unix)]
#[test]
fn links_are_followed() {
    use std::os::unix::fs::symlink;
    let bench = Bench::new();
    bench.write("parts/a.toml", CONE);
    // Another drive, where there is one: renaming from one to the other is not possible.
    let far =
        if Path::new("/dev/shm").is_dir() { tempfile::tempdir_in("/dev/shm") } else { tempfile::tempdir() }.unwrap();
    symlink(far.path().join("there/out"), bench.path("out")).unwrap();
    for paper in ["A4", "letter"] {
        bench.make(&["--paper", paper]);
        assert!(fs::symlink_metadata(bench.path("out")).unwrap().is_symlink());
        assert!(files(&far.path().join("there/out")).contains_key("a.pdf"));
        assert_eq!(bench.names(""), ["out", "parts"]);
    }
    let ran = {
        bench.write("out/a.txt", "mine");
        bench.make(&["--paper", "A4"])
    };
    let told = said(&ran, "set aside");
    let kept = told.split_whitespace().last().unwrap();
    assert_eq!(fs::read(bench.path(kept)).unwrap(), b"mine", "{told}");
    symlink("round", bench.path("round")).unwrap();
    bench.run(&["make", "--out", "round"]).fails_with(3, &["round"]);
}

/// A folder above that cannot be written into, and a terminal that cannot be written to.
#[cfg(target_os = "linux")]
#[test]
fn disks_that_refuse() {
    let bench = Bench::new();
    bench.write("parts/a.toml", CONE);
    bench.run(&["make", "--out", "/proc/out"]).fails_with(3, &["cannot make"]);
    let full = fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
    let ran = Command::new(env!("CARGO_BIN_EXE_setdown"))
        .arg("make")
        .current_dir(bench.folder.path())
        .stdout(full)
        .output()
        .unwrap();
    assert_eq!(ran.status.code(), Some(3));
    assert!(String::from_utf8_lossy(&ran.stderr).contains("the files are in place in out"));
    whole(&bench, "nothing could be printed");
}

/// A list of the first layout says nothing of the parts: what is made afresh takes its place, the rest is set apart.
#[test]
fn a_folder_of_the_first_version() {
    let bench = Bench::new();
    bench.write("parts/a.toml", CONE);
    bench.make(&[]);
    let whole = bench.out();
    let entry = |name: &str, bytes: &[u8]| serde_json::json!({"file": name, "size": bytes.len(), "sha256": sha256(bytes), "part": "parts/a.toml"});
    bench.write("out/gone.dxf", "old");
    let files: Vec<Json> =
        bench.out().iter().filter(|(n, _)| *n != "manifest.json").map(|(n, b)| entry(n, b)).collect();
    let list = serde_json::json!({"schema": 1, "written_by": "setdown 0.1.0", "files": files});
    bench.write("out/manifest.json", &list.to_string());
    let ran = bench.make(&[]);
    assert!(said(&ran, "stale").contains("earlier version"), "{}", ran.out);
    assert!(bench.out() == whole);
    assert_eq!(bench.names("out-set-aside").len(), 1);
}

/// Whatever is edited, renamed, taken away, put back or meddled with: `make` leaves the folder byte for byte as a fresh
/// one, and nothing of the person's is lost.
#[test]
fn any_history_ends_in_a_fresh_folder() {
    let texts = [CONE, SHIM, CUP];
    let mut random = 0x9e37_79b9_7f4a_7c15_u64;
    let mut next = |below: usize| {
        // xorshift64 (Marsaglia 2003).
        random ^= random << 13;
        random ^= random >> 7;
        random ^= random << 17;
        (random % below as u64) as usize
    };
    let bench = Bench::new();
    bench.write("parts/a.toml", CONE).write("parts/b.toml", CUP);
    bench.make(&[]);
    let mut mine: Vec<Vec<u8>> = Vec::new();
    for round in 0..40 {
        for _ in 0..=next(3) {
            let stem = ["a", "b", "c", "d"][next(4)];
            let part = bench.path(&format!("parts/{stem}.toml"));
            match next(9) {
                0 => drop(fs::remove_file(&part)),
                1 => drop(fs::rename(&part, bench.path(&format!("parts/{}.toml", ["a", "b", "c", "d"][next(4)])))),
                2 | 3 => fs::write(&part, texts[next(3)]).unwrap(),
                4 => fs::write(&part, CONE.replace("60 mm", &format!("{} mm", 50 + next(20)))).unwrap(),
                5 => {
                    let shop = bench.path("parts/shop.toml");
                    if shop.exists() {
                        fs::remove_file(shop).unwrap()
                    } else {
                        fs::write(shop, "units = \"in\"\n").unwrap()
                    }
                }
                6 => fs::write(&part, "family = \"cone\"\n").unwrap(),
                kind => {
                    let names: Vec<String> = bench.out().into_keys().filter(|n| n != "manifest.json").collect();
                    let Some(name) = names.get(next(names.len().max(1))) else { continue };
                    if kind == 7 {
                        fs::remove_file(bench.path("out").join(name)).unwrap();
                    } else {
                        let notes = format!("mine {round} {}", next(1000)).into_bytes();
                        fs::write(bench.path("out").join(name), &notes).unwrap();
                        mine.push(notes);
                    }
                }
            }
        }
        if next(3) == 0 {
            // One part alone, before the whole.
            bench.run(&["make", "parts/a.toml"]);
        }
        let ran = bench.run(&["make"]);
        assert!(ran.code <= 3 && !ran.err.contains("cannot write"), "round {round}: {}", ran.err);
        drop(fs::remove_dir_all(bench.path("fresh")));
        let fresh = bench.run(&["make", "--out", "fresh"]);
        assert_eq!(ran.code, fresh.code, "round {round}: {}{}", ran.err, fresh.err);
        let (now, fresh) = (bench.out(), files(&bench.path("fresh")));
        assert_eq!(now.keys().collect::<Vec<_>>(), fresh.keys().collect::<Vec<_>>(), "round {round}");
        for (name, bytes) in &now {
            assert!(*bytes == fresh[name], "round {round}: {name}");
        }
        let aside: Vec<Vec<u8>> = files(&bench.path("out-set-aside")).into_values().collect();
        assert!(mine.iter().all(|m| aside.contains(m)), "round {round}: something of the person's is lost");
    }
}
