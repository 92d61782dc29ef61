//! The notices that a copy of the program must carry. Whether each crate's words are the ones that came with it, for every
//! system, is held by `tests/licences/gather.py --check`.

use std::process::Command;

mod program;

fn notices() -> String {
    let ran = program::run_in(&std::env::temp_dir(), &["licences"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    ran.out
}

/// Every crate that cargo says is in this very program; what only works while compiling is not.
#[test]
fn every_crate_of_the_program_is_named() {
    let tree =
        ["tree", "--locked", "--offline", "--edges", "normal,no-proc-macro", "--prefix", "none", "--format", "{p}"];
    let answer = Command::new(env!("CARGO")).args(tree).current_dir(env!("CARGO_MANIFEST_DIR")).output().unwrap();
    assert!(answer.status.success(), "{}", String::from_utf8_lossy(&answer.stderr));
    let crates: Vec<String> = String::from_utf8(answer.stdout)
        .unwrap()
        .lines()
        .filter_map(|line| {
            let mut words = line.split_whitespace();
            Some(format!("{} {}", words.next()?, words.next()?.trim_start_matches('v')))
        })
        .filter(|name| !name.starts_with("setdown "))
        .collect();
    assert!(crates.len() > 40, "{crates:?}");
    let notices = notices();
    let missing: Vec<&String> = crates.iter().filter(|name| !notices.lines().any(|line| line == *name)).collect();
    assert!(
        missing.is_empty(),
        "run python3 tests/licences/gather.py, which writes src/licences/crates.txt: {missing:?}"
    );
}

/// "The above copyright and trademark notices and this permission notice shall be included in all copies".
#[test]
fn the_lettering_and_the_program_itself_are_named() {
    let notices = notices();
    for file in ["LICENSE", "src/sheet/font/LICENSE"] {
        let words = std::fs::read_to_string(file).unwrap();
        assert!(words.contains("Copyright") && notices.contains(words.trim_end()), "{file}");
    }
}
