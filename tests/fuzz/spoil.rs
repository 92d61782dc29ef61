//! How a part file is spoilt: its numbers, its units, its words, its lines, and keys that it did not have.

use setdown::families::FAMILIES;
use setdown::record::key::{Key, Kind};

use super::Seed;
use super::lot::{Lot, part};

/// Factors and figures that slips of the pen and hostile hands make.
const FACTORS: [f64; 24] = [
    0.0,
    -1.0,
    0.1,
    10.0,
    25.4,
    1.0 / 25.4,
    1e-3,
    1e3,
    1e-6,
    1e6,
    0.01,
    100.0,
    0.25,
    4.0,
    0.5,
    2.0,
    0.7,
    1.4,
    0.9,
    1.1,
    0.97,
    1.03,
    0.999,
    1.001,
];
const FIGURES: [&str; 24] = [
    "0", "-0", "1", "0.001", "0.0001", "0.00005", "1e-9", "1e300", "-1e300", "nan", "inf", "-inf", "1e400", "99999",
    "100000", "0.05", "0.3", "45", "89.9", "90", "3/8", "1-1/4", "8°30'", "1:10",
];
const UNITS: [&str; 22] = [
    "mm", "in", "um", "µm", "thou", "m", "ft", "cm", "deg", "°", "rad", "kg", "lb", "N", "kN", "MPa", "C", "F", "K",
    "HRC", "HV", "%",
];
const UNSEEN: [&str; 8] = ["\u{1b}[31m", "\u{7}", "\t", "\u{202e}", "\u{9b}", "\u{2028}", "\\n", "\\u0085"];

/// One seed, spoilt in one to four ways; a part drawn by lot now and then.
pub fn spoilt(seeds: &[Seed], lot: &mut Lot) -> Seed {
    let mut case = if lot.one_in(3) { drawn(lot) } else { seeds[lot.below(seeds.len())].clone() };
    // Landings take a hundred times as long as the others: they come up less often, and draw less.
    while case.text.contains("family = \"landing\"") && !lot.one_in(12) {
        case = if lot.one_in(3) { drawn(lot) } else { seeds[lot.below(seeds.len())].clone() };
    }
    for _ in 0..lot.pick(&[1, 1, 1, 2, 2, 3, 4]) {
        if lot.one_in(4) && !case.beside.is_empty() {
            let name = case.beside.keys().nth(lot.below(case.beside.len())).cloned().unwrap_or_default();
            if let Some(text) = case.beside.get_mut(&name) {
                *text = once(text, seeds, lot);
            }
        } else {
            case.text = once(&case.text, seeds, lot);
        }
    }
    if case.text.contains("family = \"landing\"") {
        let lines = case.text.lines().filter(|l| !l.starts_with("draws"));
        case.text = std::iter::once("draws = 100").chain(lines).collect::<Vec<_>>().join("\n") + "\n";
    }
    case
}

fn drawn(lot: &mut Lot) -> Seed {
    let part = part(lot.next() % 1_000_000);
    let beside = part.beside.into_iter().map(|(n, t)| (n.to_string(), t)).collect();
    Seed { name: format!("{}.toml", part.family), text: part.text, beside }
}

fn once(text: &str, seeds: &[Seed], lot: &mut Lot) -> String {
    match lot.below(20) {
        0..=7 => number(text, lot),
        8 => unit(text, lot),
        9..=12 => key(text, lot),
        13 => without_line(text, lot),
        14 => line_again(text, lot),
        15 => swapped_values(text, lot),
        16..=17 => line_of_another(text, seeds, lot),
        18 => token(text, lot),
        _ => unseen(text, lot),
    }
}

/// Byte ranges of the numbers in a text.
fn numbers(text: &str) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    let mut start = None;
    for (at, c) in text.char_indices().chain([(text.len(), ' ')]) {
        match (c.is_ascii_digit() || (c == '.' && start.is_some()), start) {
            (true, None) => start = Some(at),
            (false, Some(from)) => {
                found.push((from, at));
                start = None;
            }
            _ => {}
        }
    }
    found
}

fn replaced(text: &str, (from, to): (usize, usize), with: &str) -> String {
    format!("{}{with}{}", &text[..from], &text[to..])
}

fn number(text: &str, lot: &mut Lot) -> String {
    let all = numbers(text);
    if all.is_empty() {
        return text.into();
    }
    let place = all[lot.below(all.len())];
    let written = &text[place.0..place.1];
    let with = match written.parse::<f64>() {
        Ok(value) if !lot.one_in(4) => format!("{}", value * lot.pick(&FACTORS)),
        _ => lot.pick(&FIGURES).to_string(),
    };
    replaced(text, place, &with)
}

/// Another unit behind a number, or none.
fn unit(text: &str, lot: &mut Lot) -> String {
    let behind = |(_, to): &(usize, usize)| {
        let rest = text[*to..].strip_prefix(' ')?;
        let word = rest.chars().take_while(|c| c.is_alphabetic()).map(char::len_utf8).sum::<usize>();
        (word > 0 && word < 5).then_some((to + 1, to + 1 + word))
    };
    let all: Vec<(usize, usize)> = numbers(text).iter().filter_map(behind).collect();
    if all.is_empty() {
        return text.into();
    }
    let with = if lot.one_in(8) { "" } else { lot.pick(&UNITS) };
    replaced(text, all[lot.below(all.len())], with)
}

fn lines(text: &str) -> Vec<String> {
    text.lines().map(String::from).collect()
}

fn joined(lines: &[String]) -> String {
    lines.join("\n") + "\n"
}

fn without_line(text: &str, lot: &mut Lot) -> String {
    let mut all = lines(text);
    if !all.is_empty() {
        all.remove(lot.below(all.len()));
    }
    joined(&all)
}

fn line_again(text: &str, lot: &mut Lot) -> String {
    let mut all = lines(text);
    if !all.is_empty() {
        let line = all[lot.below(all.len())].clone();
        all.insert(lot.below(all.len() + 1), line);
    }
    joined(&all)
}

fn swapped_values(text: &str, lot: &mut Lot) -> String {
    let mut all = lines(text);
    let with: Vec<usize> = (0..all.len()).filter(|i| all[*i].contains(" = ")).collect();
    if with.len() < 2 {
        return text.into();
    }
    let (a, b) = (with[lot.below(with.len())], with[lot.below(with.len())]);
    let parts = |line: &String| line.split_once(" = ").map(|(k, v)| (k.to_string(), v.to_string()));
    if let (Some((ka, va)), Some((kb, vb))) = (parts(&all[a]), parts(&all[b])) {
        all[a] = format!("{ka} = {vb}");
        all[b] = format!("{kb} = {va}");
    }
    joined(&all)
}

/// A line, or a table to its end, of another seed.
fn line_of_another(text: &str, seeds: &[Seed], lot: &mut Lot) -> String {
    let mut all = lines(text);
    let other = lines(&seeds[lot.below(seeds.len())].text);
    if other.is_empty() {
        return text.into();
    }
    let from = lot.below(other.len());
    if other[from].starts_with('[') {
        let more = other[from + 1..].iter().take_while(|l| !l.starts_with('['));
        all.extend(std::iter::once(&other[from]).chain(more).cloned());
    } else {
        all.insert(lot.below(all.len() + 1), other[from].clone());
    }
    joined(&all)
}

/// One character less, or one word twice.
fn token(text: &str, lot: &mut Lot) -> String {
    let all: Vec<char> = text.chars().collect();
    if all.is_empty() {
        return text.into();
    }
    let at = lot.below(all.len());
    let with = if lot.one_in(2) { String::new() } else { format!("{0}{0}", all[at]) };
    all[..at].iter().collect::<String>() + &with + &all[at + 1..].iter().collect::<String>()
}

fn unseen(text: &str, lot: &mut Lot) -> String {
    let all: Vec<char> = text.chars().collect();
    let at = lot.below(all.len() + 1);
    all[..at].iter().collect::<String>() + lot.pick(&UNSEEN) + &all[at..].iter().collect::<String>()
}

/// A key of the family with a value of its kind, in its table; the key as it was goes.
fn key(text: &str, lot: &mut Lot) -> String {
    let Some(family) = FAMILIES.iter().find(|f| text.contains(&format!("family = \"{}\"", f.name))) else {
        return text.into();
    };
    let key = &family.keys[lot.below(family.keys.len())];
    let (table, key) = match key.kind {
        Kind::Table(inner) | Kind::Rows(inner) => (Some(key), &inner[lot.below(inner.len())]),
        _ => (None, key),
    };
    let line = format!("{} = {}", key.name, value(key, lot));
    let mut all = lines(text);
    let (from, to) = match table {
        None => (0, all.iter().position(|l| l.starts_with('[')).unwrap_or(all.len())),
        Some(table) => {
            let head = [format!("[{}]", table.name), format!("[[{}]]", table.name)];
            let Some(at) = all.iter().position(|l| head.contains(l)) else {
                let rows = matches!(table.kind, Kind::Rows(_));
                return text.to_string() + &format!("{}\n{line}\n", head[usize::from(rows)]);
            };
            let end = all[at + 1..].iter().position(|l| l.starts_with('[')).map_or(all.len(), |n| at + 1 + n);
            (at + 1, end)
        }
    };
    let old = (from..to).find(|i| all[*i].split(" = ").next() == Some(key.name));
    match old {
        Some(i) => all[i] = line,
        None => all.insert(to, line),
    }
    joined(&all)
}

fn length(lot: &mut Lot) -> String {
    let size = lot.pick(&[0.0004, 0.02, 0.3, 1.0, 4.0, 12.0, 40.0, 90.0, 400.0]) * lot.between(0.5, 2.0);
    let unit = lot.pick(&["mm", "mm", "mm", "in", "um"]);
    format!("\"{size:.4} {unit}\"")
}

fn listed(lot: &mut Lot, one: impl Fn(&mut Lot) -> String) -> String {
    let count = 1 + lot.below(4);
    format!("[{}]", (0..count).map(|_| one(lot)).collect::<Vec<_>>().join(", "))
}

fn value(key: &Key, lot: &mut Lot) -> String {
    match key.kind {
        Kind::Length(_) => length(lot),
        Kind::Lengths(_) => listed(lot, length),
        Kind::LengthRange | Kind::Deviations => {
            if lot.one_in(2) {
                length(lot)
            } else {
                listed(lot, length)
            }
        }
        Kind::Angle(..) => format!("\"{:.3} deg\"", lot.between(-10.0, 200.0)),
        Kind::Mass => format!("\"{:.2} kg\"", lot.between(0.0, 2000.0)),
        Kind::Force | Kind::Load => format!("\"{:.1} N\"", lot.between(0.0, 90_000.0)),
        Kind::Stress => format!("\"{:.0} MPa\"", lot.between(0.0, 2000.0)),
        Kind::Temperature => format!("\"{:.0} C\"", lot.between(-300.0, 900.0)),
        Kind::TemperatureRange => {
            let cold = lot.between(-60.0, 60.0);
            format!("[\"{cold:.0} C\", \"{:.0} C\"]", cold + lot.between(-5.0, 200.0))
        }
        Kind::Acceleration => format!("\"{:.2} g\"", lot.between(0.0, 5.0)),
        Kind::Number(low, high) | Kind::Numbers(low, high) => format!("{:.4}", lot.between(low - 0.1, high + 0.1)),
        Kind::Count { min, max } => {
            let high = f64::from(max.min(200));
            format!("{}", lot.between(f64::from(min), high) as u32)
        }
        Kind::Flag => lot.pick(&["true", "false"]).into(),
        Kind::Choice(words) => format!("\"{}\"", lot.pick(words)),
        Kind::Text | Kind::File | Kind::List | Kind::Table(_) | Kind::Rows(_) => {
            let words = [
                "H7",
                "g6",
                "h9",
                "s6",
                "c11",
                "M8",
                "M12",
                "1/2",
                "hot-dip zinc over 6 mm",
                "bronze C93200",
                "steel 52100 hardened",
                "cone.toml",
                "PLA printed",
                "a name",
            ];
            format!("\"{}\"", lot.pick(&words))
        }
    }
}
