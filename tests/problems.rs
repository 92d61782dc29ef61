//! Part files with faults, and the exact words that a person gets for them.

use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use setdown::description::{Document, Fields, MAX_BYTES, Problem, decode, position, render_all};
use setdown::record::key::{Key, Kind};

const THICKNESS: Key = Key::new("thickness", "thickness", Kind::POSITIVE, "of the plate, such as \"6 mm\"");
const LENGTH: Key = Key::new("length", "length", Kind::NOT_NEGATIVE, "of the plate, such as \"1 m\"");
const COUNT: Key = Key::new("count", "count", Kind::Count { min: 1, max: 99 }, "how many are made, such as 4");
const ANGLE: Key = Key::new("angle", "half-angle", Kind::HALF_ANGLE, "from the axis, such as \"30 deg\"");
const FRICTION: Key = Key::new("friction", "friction", Kind::Number(0.0, 1.0), "a pure number, such as 0.15");
const FLOAT: Key = Key::new("float", "float", Kind::LengthRange, "such as [\"0.05 mm\", \"0.15 mm\"]");
const STEPS: Key = Key::new("steps", "steps", Kind::POSITIVES, "diameters, such as [\"4 mm\", \"6 mm\"]");
const THROUGH: Key = Key::new("through", "through", Kind::Flag, "true or false");
const NAME: Key = Key::new("name", "name", Kind::Text, "such as \"front left\"");
const LOAD: Key = Key::new("load", "load", Kind::Load, "such as \"160 kg\"");
const KIND: Key = Key::new("kind", "kind", Kind::Choice(&["round", "slot", "stepped"]), "of the hole: \"round\"");
const DIAMETER: Key = Key::new("diameter", "diameter", Kind::POSITIVE, "of the hole, such as \"12 mm\"");
const HOLE: Key = Key::new("hole", "hole", Kind::Table(&[KIND, DIAMETER]), "the table [hole]");
const SIZE: Key = Key::new("size", "thread", Kind::Text, "such as \"M8\"");
const BOLT: Key = Key::new("bolt", "bolt", Kind::Rows(&[SIZE]), "a list of tables [[bolt]]");
const FAMILY: Key = Key::new("family", "family", Kind::Text, "such as \"plate\"");
const UNITS: Key = Key::new("units", "units", Kind::Choice(&["mm", "in"]), "\"mm\" or \"in\"");
const KEYS: &[Key] =
    &[FAMILY, UNITS, NAME, THICKNESS, LENGTH, COUNT, ANGLE, FRICTION, FLOAT, STEPS, THROUGH, LOAD, HOLE, BOLT];

/// Reads every key as a family would, each before any fault is answered.
fn read(fields: &Fields) {
    let _ = (fields.required_length(&THICKNESS), fields.required_length(&LENGTH), fields.count(&COUNT));
    let _ = (fields.angle(&ANGLE), fields.number(&FRICTION), fields.length_range(&FLOAT), fields.lengths(&STEPS));
    let _ = (fields.flag(&THROUGH), fields.text(&NAME), fields.load(&LOAD));
    if let Some(hole) = fields.table(&HOLE) {
        let _ = (hole.required_choice(&KIND), hole.required_length(&DIAMETER));
    }
    for bolt in fields.rows(&BOLT) {
        bolt.required_text(&SIZE);
    }
}

fn problems(text: &str) -> Vec<Problem> {
    match Document::parse("a.toml", text) {
        Err(problems) => problems,
        Ok(document) => {
            read(&document.root(KEYS));
            document.into_problems()
        }
    }
}

#[track_caller]
fn check(text: &str, wanted: &str) {
    let shown = render_all(&problems(text), text);
    assert_eq!(shown.trim_end(), wanted.trim(), "\n{shown}");
}

#[test]
fn no_unit() {
    check(
        "family = \"plate\"\nthickness = 6\nlength = \"40\"\n",
        r##"
error: `thickness` is a bare number; its unit is missing
 --> a.toml:2:13
  |
2 | thickness = 6
  |             ^
  |
  = help: "6 mm"  or  "6 in", or state units = "mm" at the top of the file

error: 40 has no unit
 --> a.toml:3:11
  |
3 | length = "40"
  |           ^^
  |
  = help: 40 mm  or  40 in
"##,
    );
}

#[test]
fn wrong_unit() {
    check(
        "family = \"plate\"\nlength = \"1 m\"\nthickness = '2’ 3-1/2 mn'\n",
        r##"
error: `mn` is not a unit of length
 --> a.toml:3:23
  |
3 | thickness = '2’ 3-1/2 mn'
  |                       ^^
  |
  = help: did you mean: 2’ 3-1/2 mm  or  2’ 3-1/2 in
"##,
    );
}

#[test]
fn tab_degree_bom_crlf() {
    check(
        "\u{feff}family = \"plate\"\r\n\tangle = '30°' # a tab, a degree sign\r\n\tthickness = '8’ 30 im' # °\r\nlength = \"1,5 m\"\r\n",
        r##"
error: `im` is not a unit of length
 --> a.toml:3:21
  |
3 |     thickness = '8’ 30 im' # °
  |                        ^^
  |
  = help: did you mean: 8’ 30 mm  or  8’ 30 in

error: a number is written with a decimal point, not with a comma
 --> a.toml:4:11
  |
4 | length = "1,5 m"
  |           ^^^
  |
  = help: 1.5 m
"##,
    );
}

#[test]
fn first_line_bom() {
    check(
        "\u{feff}thickness = \"1,5 mm\"\nlength = \"1 m\"",
        r##"
error: a number is written with a decimal point, not with a comma
 --> a.toml:1:14
  |
1 | thickness = "1,5 mm"
  |              ^^^
  |
  = help: 1.5 mm
"##,
    );
}

#[test]
fn inch_mark() {
    check(
        "thickness = \"3/8\"\"\nsteps = [\"1/4\"\", \"1/2\"\"]\nname = \"1½\"\"\n",
        r##"
error: an inch mark inside double quotes ends the text too early
 --> a.toml:1:13
  |
1 | thickness = "3/8""
  |             ^^^^^^
  |
  = help: put single quotes around it, such as '3/8"', or write 3/8 in

error: an inch mark inside double quotes ends the text too early
 --> a.toml:2:9
  |
2 | steps = ["1/4"", "1/2""]
  |         ^^^^^^^^^^^^^^^^
  |
  = help: put single quotes around it, such as '3/8"', or write 3/8 in

error: an inch mark inside double quotes ends the text too early
 --> a.toml:3:8
  |
3 | name = "1½""
  |        ^^^^^
  |
  = help: put single quotes around it, such as '3/8"', or write 3/8 in
"##,
    );
}

#[test]
fn minute_mark() {
    check(
        "angle = '8°30''\n",
        r##"
error: a foot or minute mark inside single quotes ends the text too early
 --> a.toml:1:9
  |
1 | angle = '8°30''
  |         ^^^^^^^
  |
  = help: put double quotes around it, such as "8°30'", or write 2 ft
"##,
    );
}

#[test]
fn printers_quotes() {
    check(
        "length = \"1 m\"\nthickness = “6 mm”\n",
        r##"
error: these are a printer's quotes; TOML knows the straight ones only
 --> a.toml:2:13
  |
2 | thickness = “6 mm”
  |             ^^^^^^
  |
  = help: "6 mm"  or  '6 mm'
"##,
    );
}

#[test]
fn open_text() {
    check(
        "length = \"1 m\n\n[hole]\nkind = \"round\"\n",
        r##"
error: this is not TOML: invalid basic string, expected `"`
 --> a.toml:1:14
  |
1 | length = "1 m
  |              ^
"##,
    );
}

#[test]
fn unquoted() {
    check(
        "thickness = 6 mm # as bought\nlength = 3/8\"\nangle = 8°30'\nwidth = 2' 3\"\n",
        r##"
error: a size with its unit stands in quotes
 --> a.toml:1:13
  |
1 | thickness = 6 mm # as bought
  |             ^^^^
  |
  = help: put quotes around it: "6 mm"

error: a size with its unit stands in quotes
 --> a.toml:2:10
  |
2 | length = 3/8"
  |          ^^^^
  |
  = help: put quotes around it: '3/8"'

error: a size with its unit stands in quotes
 --> a.toml:3:9
  |
3 | angle = 8°30'
  |         ^^^^^
  |
  = help: put quotes around it: "8°30'"

error: a size with its unit stands in quotes
 --> a.toml:4:9
  |
4 | width = 2' 3"
  |         ^^^^^
  |
  = help: put quotes around it: '''2' 3"''', or write ft and in for the marks
"##,
    );
}

#[test]
fn unknown_keys() {
    check(
        "thicknes = \"6 mm\"\nlength = \"1 m\"\ncolour = \"red\"\n",
        r##"
error: there is no key `thicknes` here
 --> a.toml:1:1
  |
1 | thicknes = "6 mm"
  | ^^^^^^^^
  |
  = help: did you mean thickness?

error: `thickness` is missing: of the plate, such as "6 mm"
 --> a.toml:1:1
  |
1 | thicknes = "6 mm"
  | ^^^^^^^^^^^^^^^^^

error: there is no key `colour` here
 --> a.toml:3:1
  |
3 | colour = "red"
  | ^^^^^^
  |
  = help: the keys here are family, units, name, thickness, length, count, angle, friction, float, steps, through, load, hole, bolt
"##,
    );
}

#[test]
fn missing() {
    check(
        "family = \"plate\"\n\n[hole]\nkind = \"round\"\n",
        r##"
error: `length` is missing: of the plate, such as "1 m"
 --> a.toml:1:10
  |
1 | family = "plate"
  |          ^^^^^^^

error: `thickness` is missing: of the plate, such as "6 mm"
 --> a.toml:1:10
  |
1 | family = "plate"
  |          ^^^^^^^

error: `diameter` is missing: of the hole, such as "12 mm"
 --> a.toml:3:2
  |
3 | [hole]
  |  ^^^^
"##,
    );
}

#[test]
fn missing_dotted() {
    check(
        "family = \"plate\"\nlength = \"1 m\"\nthickness = \"6 mm\"\nhole.kind = \"round\"\n",
        r##"
error: `diameter` is missing: of the hole, such as "12 mm"
 --> a.toml:4:1
  |
4 | hole.kind = "round"
  | ^^^^
"##,
    );
}

#[test]
fn missing_inline() {
    check(
        "length = \"1 m\"\nthickness = \"6 mm\"\nhole = { kind = \"slot\", diametr = \"6 mm\" }\n",
        r##"
error: `diameter` is missing: of the hole, such as "12 mm"
 --> a.toml:3:1
  |
3 | hole = { kind = "slot", diametr = "6 mm" }
  | ^^^^

error: there is no key `diametr` here
 --> a.toml:3:25
  |
3 | hole = { kind = "slot", diametr = "6 mm" }
  |                         ^^^^^^^
  |
  = help: did you mean diameter?
"##,
    );
}

#[test]
fn empty() {
    check(
        "",
        r##"
error: `length` is missing: of the plate, such as "1 m"
 --> a.toml:1:1
  |
1 |
  | ^

error: `thickness` is missing: of the plate, such as "6 mm"
 --> a.toml:1:1
  |
1 |
  | ^
"##,
    );
}

#[test]
fn wrong_types() {
    check(
        "thickness = [\"6 mm\"]\nlength = true\ncount = \"4\"\nthrough = \"yes\"\nsteps = \"1 mm\"\nhole = 3\nbolt = 1\nname = 2026-01-01\nangle = 15\nfriction = {}\n",
        r##"
error: `thickness` is a list; a length such as "12 mm" or "1/2 in" is wanted
 --> a.toml:1:13
  |
1 | thickness = ["6 mm"]
  |             ^^^^^^^^
  |
  = help: of the plate, such as "6 mm"

error: `length` is true or false; a length such as "12 mm" or "1/2 in" is wanted
 --> a.toml:2:10
  |
2 | length = true
  |          ^^^^
  |
  = help: of the plate, such as "1 m"

error: `count` is a text; a whole number without quotes is wanted
 --> a.toml:3:9
  |
3 | count = "4"
  |         ^^^
  |
  = help: how many are made, such as 4

error: `through` is a text; true or false without quotes is wanted
 --> a.toml:4:11
  |
4 | through = "yes"
  |           ^^^^^
  |
  = help: true or false

error: `steps` is a text; a list of lengths such as ["1 mm", "2 mm"] is wanted
 --> a.toml:5:9
  |
5 | steps = "1 mm"
  |         ^^^^^^
  |
  = help: diameters, such as ["4 mm", "6 mm"]

error: `hole` is a bare number; a table of keys is wanted
 --> a.toml:6:8
  |
6 | hole = 3
  |        ^
  |
  = help: the table [hole]

error: `bolt` is a bare number; a list of tables is wanted
 --> a.toml:7:8
  |
7 | bolt = 1
  |        ^
  |
  = help: a list of tables [[bolt]]

error: `name` is a date; a text in quotes is wanted
 --> a.toml:8:8
  |
8 | name = 2026-01-01
  |        ^^^^^^^^^^
  |
  = help: such as "front left"

error: `angle` is a bare number; an angle such as "30 deg" is wanted
 --> a.toml:9:9
  |
9 | angle = 15
  |         ^^
  |
  = help: from the axis, such as "30 deg"

error: `friction` is a table; a pure number such as 0.3 is wanted
  --> a.toml:10:12
   |
10 | friction = {}
   |            ^^
   |
   = help: a pure number, such as 0.15
"##,
    );
}

#[test]
fn ranges() {
    check(
        "thickness = \"0 mm\"\nlength = \"-1 m\"\ncount = 0\nangle = \"90 deg\"\nfriction = 1.5\nfloat = [\"2 mm\", \"1 mm\"]\n",
        r##"
error: `thickness` must be greater than 0
 --> a.toml:1:13
  |
1 | thickness = "0 mm"
  |             ^^^^^^
  |
  = help: of the plate, such as "6 mm"

error: `length` must be 0 or more
 --> a.toml:2:10
  |
2 | length = "-1 m"
  |          ^^^^^^
  |
  = help: of the plate, such as "1 m"

error: `count` must lie between 1 and 99
 --> a.toml:3:9
  |
3 | count = 0
  |         ^
  |
  = help: how many are made, such as 4

error: `angle` must lie between 0 and 90 degrees
 --> a.toml:4:9
  |
4 | angle = "90 deg"
  |         ^^^^^^^^
  |
  = help: from the axis, such as "30 deg"

error: `friction` must lie between 0 and 1
 --> a.toml:5:12
  |
5 | friction = 1.5
  |            ^^^
  |
  = help: a pure number, such as 0.15

error: `float` as a list is two lengths, the least first
 --> a.toml:6:9
  |
6 | float = ["2 mm", "1 mm"]
  |         ^^^^^^^^^^^^^^^^
  |
  = help: such as ["0.05 mm", "0.15 mm"]
"##,
    );
}

#[test]
fn counts() {
    check(
        "length = \"1 m\"\nthickness = \"6 mm\"\ncount = 99999999999999999999\n",
        r##"
error: `count` must lie between 1 and 99
 --> a.toml:3:9
  |
3 | count = 99999999999999999999
  |         ^^^^^^^^^^^^^^^^^^^^
  |
  = help: how many are made, such as 4
"##,
    );
}

#[test]
fn choice() {
    check(
        "length = \"1 m\"\nthickness = \"6 mm\"\n[hole]\nkind = \"rond\"\ndiameter = \"12 mm\"\n",
        r##"
error: `kind` cannot be `rond`
 --> a.toml:4:8
  |
4 | kind = "rond"
  |        ^^^^^^
  |
  = help: did you mean round?
"##,
    );
}

#[test]
fn dimension() {
    check(
        "thickness = \"30 deg\"\nlength = \"5 kg\"\nangle = \"1 in\"\nload = \"5 mm\"\n",
        r##"
error: 30 deg is an angle; a length is wanted here, such as 12 mm or 1/2 in
 --> a.toml:1:14
  |
1 | thickness = "30 deg"
  |              ^^^^^^

error: 5 kg is a mass; a length is wanted here, such as 12 mm or 1/2 in
 --> a.toml:2:11
  |
2 | length = "5 kg"
  |           ^^^^

error: 1 in is a length; an angle is wanted here, such as 30 deg or 8°30'
 --> a.toml:3:10
  |
3 | angle = "1 in"
  |          ^^^^

error: 5 mm is a length; a load is wanted here, such as 160 kg or 1.6 kN
 --> a.toml:4:9
  |
4 | load = "5 mm"
  |         ^^^^
"##,
    );
}

#[test]
fn lists() {
    check(
        "length = \"1 m\"\nthickness = \"6 mm\"\nsteps = [\"1 mm\", 2, \"3 im\", \"-1 mm\"]\nfloat = [\"1 mm\"]\n",
        r##"
error: an item of `steps` is a bare number; its unit is missing
 --> a.toml:3:18
  |
3 | steps = ["1 mm", 2, "3 im", "-1 mm"]
  |                  ^
  |
  = help: "2 mm"  or  "2 in", or state units = "mm" at the top of the file

error: `im` is not a unit of length
 --> a.toml:3:24
  |
3 | steps = ["1 mm", 2, "3 im", "-1 mm"]
  |                        ^^
  |
  = help: did you mean: 3 mm  or  3 in

error: an item of `steps` must be greater than 0
 --> a.toml:3:29
  |
3 | steps = ["1 mm", 2, "3 im", "-1 mm"]
  |                             ^^^^^^^
  |
  = help: diameters, such as ["4 mm", "6 mm"]

error: `float` as a list is two lengths, the least first
 --> a.toml:4:9
  |
4 | float = ["1 mm"]
  |         ^^^^^^^^
  |
  = help: such as ["0.05 mm", "0.15 mm"]
"##,
    );
}

#[test]
fn rows() {
    check(
        "length = \"1 m\"\nthickness = \"6 mm\"\n[[bolt]]\nsize = \"M8\"\n[[bolt]]\nsise = \"M8\"\n",
        r##"
error: `size` is missing: such as "M8"
 --> a.toml:5:1
  |
5 | [[bolt]]
  | ^^^^^^^^

error: there is no key `sise` here
 --> a.toml:6:1
  |
6 | sise = "M8"
  | ^^^^
  |
  = help: did you mean size?
"##,
    );
}

#[test]
fn rows_inline() {
    check(
        "length = \"1 m\"\nthickness = \"6 mm\"\nbolt = [{ size = \"M8\" }, {}, 3]\n",
        r##"
error: `size` is missing: such as "M8"
 --> a.toml:3:26
  |
3 | bolt = [{ size = "M8" }, {}, 3]
  |                          ^^

error: an item of `bolt` is a bare number; a table of keys is wanted
 --> a.toml:3:30
  |
3 | bolt = [{ size = "M8" }, {}, 3]
  |                              ^
  |
  = help: a list of tables [[bolt]]
"##,
    );
}

#[test]
fn stated_units() {
    check(
        "units = \"in\"\nthickness = nan\nlength = 1e300\nsteps = [1, \"1-1/4\", \"6 mm\", \"3 im\"]\n",
        r##"
error: `NaN` is not a size that can be made
 --> a.toml:2:13
  |
2 | thickness = nan
  |             ^^^

error: this number is longer than 100 m
 --> a.toml:3:10
  |
3 | length = 1e300
  |          ^^^^^

error: `im` is not a unit of length
 --> a.toml:4:33
  |
4 | steps = [1, "1-1/4", "6 mm", "3 im"]
  |                                 ^^
  |
  = help: did you mean: 3 mm  or  3 in
"##,
    );
}

#[test]
fn huge_number() {
    check(
        "units = \"mm\"\nthickness = 99999999999999999999\nlength = 0xffffffffffffffffffff\n",
        r##"
error: this number is longer than 100 m
 --> a.toml:2:13
  |
2 | thickness = 99999999999999999999
  |             ^^^^^^^^^^^^^^^^^^^^

error: this number is longer than 100 m
 --> a.toml:3:10
  |
3 | length = 0xffffffffffffffffffff
  |          ^^^^^^^^^^^^^^^^^^^^^^
"##,
    );
}

#[test]
fn wrong_units_word() {
    check(
        "units = \"inch\"\nthickness = 1\nlength = 12\n",
        r##"
error: `units` cannot be `inch`
 --> a.toml:1:9
  |
1 | units = "inch"
  |         ^^^^^^
  |
  = help: one of mm, in
"##,
    );
}

#[test]
fn wrong_units_type() {
    check(
        "units = 1\nthickness = 1\nlength = 12\n",
        r##"
error: `units` is a bare number; a text in quotes is wanted
 --> a.toml:1:9
  |
1 | units = 1
  |         ^
  |
  = help: unit of bare numbers: "mm" or "in"
"##,
    );
}

#[test]
fn escaped() {
    check(
        "length = \"1 m\"\nthickness = \"\\u0033 im\"\n",
        r##"
error: `im` is not a unit of length
 --> a.toml:2:13
  |
2 | thickness = "\u0033 im"
  |             ^^^^^^^^^^^
  |
  = help: did you mean: 3 mm  or  3 in
"##,
    );
}

#[test]
fn multi_line() {
    check(
        "length = \"1 m\"\nthickness = \"\"\"6\nim\"\"\"\n",
        r##"
error: `im` is not a unit of length
 --> a.toml:2:13
  |
2 | thickness = """6
  |             ^^^^
  |
  = help: did you mean: 6 mm  or  6 in

error: this text goes over more than one line: U+000A
 --> a.toml:2:17
  |
2 | thickness = """6
  |                 ^
  |
  = help: write it on one line
"##,
    );
}

#[test]
fn control() {
    check(
        "length = \"1 m\"\nthickness = \"6 mm\"\n\"a\\u001b[31m\" = 1\n",
        r##"
error: there is no key `a�[31m` here
 --> a.toml:3:1
  |
3 | "a\u001b[31m" = 1
  | ^^^^^^^^^^^^^
  |
  = help: the keys here are family, units, name, thickness, length, count, angle, friction, float, steps, through, load, hole, bolt

error: there is a control character in this text: U+001B
 --> a.toml:3:3
  |
3 | "a\u001b[31m" = 1
  |   ^^^^^^
  |
  = help: delete it, or type the text anew: a terminal obeys it
"##,
    );
}

#[test]
fn twice() {
    check(
        "thickness = \"6 mm\"\nthickness = \"8 mm\"\n",
        r##"
error: this is not TOML: duplicate key
 --> a.toml:2:1
  |
2 | thickness = "8 mm"
  | ^^^^^^^^^
"##,
    );
}

#[test]
fn several_syntax_faults() {
    check(
        "thickness \"6 mm\"\nlength = \"1 m\n[hole\nkind = \"round\"\n",
        r##"
error: this is not TOML: key with no value, expected `=`
 --> a.toml:1:11
  |
1 | thickness "6 mm"
  |           ^

error: this is not TOML: unclosed table, expected `]`
 --> a.toml:3:6
  |
3 | [hole
  |      ^
"##,
    );
}

#[test]
fn long_line() {
    check(
        "length = \"1 m\"\nthickness = \"6 im\" # xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx\n",
        r##"
error: `im` is not a unit of length
 --> a.toml:2:16
  |
2 | thickness = "6 im" # xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx...
  |                ^^
  |
  = help: did you mean: 6 mm  or  6 in
"##,
    );
}

#[test]
fn far_right_in_a_long_line() {
    let line = format!("length = \"1 m\"\nsteps = [{}\"6 im\"] # {}\n", "\"5 mm\", ".repeat(20), "é".repeat(200));
    check(
        &line,
        r##"
error: `thickness` is missing: of the plate, such as "6 mm"
 --> a.toml:1:1
  |
1 | length = "1 m"
  | ^^^^^^^^^^^^^^

error: `im` is not a unit of length
 --> a.toml:2:173
  |
 ::: 
2 | ...", "5 mm", "5 mm", "5 mm", "5 mm", "5 mm", "5 mm", "5 mm", "5 mm", "6 im"] # ééééééééééééééééééééééééééééééééééééééééééééééééééééé...
  |                                                                          ^^
  |
  = help: did you mean: 6 mm  or  6 in
"##,
    );
}

#[test]
fn long_name() {
    check(
        "length = \"1 m\"\nthickness = \"6 mm\"\nyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyy = 1\n",
        r##"
error: there is no key `yyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyy…` here
 --> a.toml:3:1
  |
3 | yyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyy = 1
  | ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
  |
  = help: the keys here are family, units, name, thickness, length, count, angle, friction, float, steps, through, load, hole, bolt
"##,
    );
}

#[test]
fn a_sound_file_has_no_problem_and_keeps_what_was_written() {
    let text =
        "\u{feff}units = \"in\"\r\nthickness = \"1-1/4\"\r\nlength = 0.1\r\nfriction = 0.1\r\nload = '10 lb'\r\n";
    let document = Document::parse("a.toml", text).unwrap();
    let fields = document.root(KEYS);
    let thickness = fields.required_length(&THICKNESS).unwrap();
    assert_eq!((thickness.value.as_mm(), thickness.text.as_str()), (31.75, "1-1/4"));
    assert_eq!(&text[thickness.span], "\"1-1/4\"");
    let length = fields.required_length(&LENGTH).unwrap();
    assert_eq!((length.value.as_mm(), length.text.as_str()), (2.54, "0.1"));
    assert_eq!(fields.number(&FRICTION).unwrap().value, 0.1);
    assert!(fields.has(&LOAD) && !fields.has(&HOLE) && fields.table(&HOLE).is_none() && fields.rows(&BOLT).is_empty());
    assert_eq!(document.into_problems(), []);
}

/// The unit stated at the top holds in tables further down, and for texts as well as numbers.
#[test]
fn the_stated_unit_holds_in_nested_tables() {
    let text = "units = 'in'\nthickness = '1'\nlength = 1\n[hole]\nkind = 'slot'\ndiameter = 0.5\n";
    let document = Document::parse("a.toml", text).unwrap();
    let hole = document.root(KEYS).table(&HOLE).unwrap();
    assert_eq!(hole.required_length(&DIAMETER).unwrap().value.as_mm(), 12.7);
    assert_eq!(hole.required_choice(&KIND).unwrap().value, "slot");
    assert_eq!(document.into_problems(), []);
}

#[test]
fn a_fault_asked_for_twice_is_told_once() {
    let document = Document::parse("a.toml", "units = 'cm'\nlength = 'x'\n[hole]\nkin = 1\n").unwrap();
    for _ in 0..3 {
        read(&document.root(KEYS));
    }
    let problems = document.into_problems();
    assert_eq!(problems.len(), 6, "{problems:?}");
    assert!(problems.is_sorted_by_key(|p| p.span.as_ref().map(|s| s.start)));
}

#[test]
fn two_hundred_thousand_unknown_keys() {
    let text: String = (0..200_000).map(|i| format!("{i:x}=1\n")).collect();
    let problems = problems(&text);
    let shown = render_all(&problems, &text);
    assert_eq!(problems.len(), 103, "two missing, a hundred unknown, the number of the rest");
    assert!(shown.contains("error: there is no key `0` here\n --> a.toml:1:1\n"), "{shown}");
    assert!(shown.ends_with("\nand 83 more problems in a.toml\n"), "{shown}");
    assert_eq!(problems[102].message, "from here on there are 199900 more unknown keys");
    assert_eq!(position(&text, problems[102].span.clone().unwrap().start), (101, 1));
}

#[test]
fn endless_faults_are_counted_not_listed() {
    let list = format!("length = '1 m'\nthickness = '1 mm'\nsteps = [{}]\n", "1,".repeat(100_000));
    let faults = problems(&list);
    assert_eq!(faults.len(), 101);
    assert_eq!(faults[100].message, "the rest of this list is not looked at");
    let syntax = "]\n".repeat(MAX_BYTES / 2);
    let faults = problems(&syntax);
    assert_eq!(faults.len(), 101);
    assert_eq!(faults[100].message, "from here on there are 524188 more faults of the TOML");
}

/// Each ends in a few problems whose text stays short, whatever the length of the line.
#[test]
fn hostile_files_of_the_greatest_size() {
    for unit in ["[", "a = [", "{a=", "\"", "\0", "] ", "a.", "[a.", "9", "é", "'''", "=", "#", " ", "\u{feff}"] {
        for start in ["", "a = ", "thickness = \""] {
            let text = format!("{start}{}", unit.repeat(MAX_BYTES / unit.len()));
            let shown = render_all(&problems(&text), &text);
            assert!(shown.len() < 20_000, "{unit:?} after {start:?}: {} bytes", shown.len());
        }
    }
}

#[test]
fn bytes_that_are_not_utf_8() {
    let problem = decode("a.toml", b"name = \"a\"\nangle = \"30\xb0\"\n").unwrap_err();
    let wanted = "\
error: a.toml:2:12: this byte is not UTF-8 text
  = help: save the file as UTF-8; ° and µ from other encodings are the usual cause (`deg` and `um` always do)
";
    assert_eq!(render_all(&[problem], ""), wanted);
    assert_eq!(decode("a.toml", "30°".as_bytes()).as_deref(), Ok("30°"));
    let cut = decode("a.toml", "\u{feff}°".as_bytes().split_last().unwrap().1).unwrap_err();
    assert_eq!(cut.file, "a.toml:1:1");
}

#[test]
fn problems_of_the_whole_file() {
    let shown = render_all(&[Problem::whole_file("b.toml", "holds nothing")], "");
    assert_eq!(shown, "error: b.toml: holds nothing\n");
}

/// Part files made of the pieces of part files.
fn pieces() -> impl Strategy<Value = String> {
    #[rustfmt::skip]
    let piece = prop::sample::select(vec![
        "thickness", "length", "steps", "hole", "bolt", "kind", "units", "angle", "x", " = ", " = ", ".", "\n", "\n", "\r\n", "\t",
        "\"6 mm\"", "'3/8\"'", "\"8°30'\"", "\"", "'", "\"\"\"", "6", "-1.5e3", "nan", "0x1f", "true", "2026-01-01", "[", "]",
        "[[", "]]", "{", "}", ",", "#", "°", "’", "½", "\\u001b", "\\", "\u{feff}", "\0", "😀", "\"mm\"", "[hole]\n", "[[bolt]]\n",
    ]);
    prop::collection::vec(piece, 0..24).prop_map(|v| v.concat())
}

proptest! {
    #![proptest_config(ProptestConfig {
        failure_persistence: None,
        rng_seed: RngSeed::Fixed(40),
        ..ProptestConfig::default()
    })]
    #[test]
    fn no_text_panics_and_every_problem_is_placed(built in pieces(), any in any::<String>()) {
        for text in [built, any] {
            let problems = problems(&text);
            let shown = render_all(&problems, &text);
            let obeyed = shown.contains('\u{1b}');
            prop_assert!(!obeyed);
            for problem in problems {
                let span = problem.span.clone().unwrap();
                prop_assert!(text.get(span).is_some() && !problem.message.is_empty(), "{:?} in {:?}", problem, text);
            }
        }
    }
}
