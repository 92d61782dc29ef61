//! What a verdict means, held over parts drawn by lot: no check goes beyond what it declares, and every caution can be
//! cleared: some part of the same family shows the same check in order.

use std::collections::{BTreeMap, BTreeSet};

use setdown::record::design::Verdict;

use super::lot::part;

/// Parts of each family; a landing takes as long as a hundred others.
const PARTS: [(u64, u64); 5] = [(0, 600), (1, 300), (2, 600), (3, 300), (4, 40)];

/// What the lot clears too seldom: a bush that is pressed in tightly, a plug that is ground for a coarse class.
fn seldom() -> [(&'static str, String); 3] {
    let bush = setdown::families::family("bush").unwrap().template;
    let tight = [
        ("outside_class = \"m6\"", "outside_class = \"s6\""),
        ("secured = \"screw\"", ""),
        ("\"outdoors\"", "\"dry\""),
    ];
    let bush = tight.iter().fold(bush.to_string(), |text, (from, to)| text.replacen(from, to, 1));
    let plug = "family = 'test-fit'\nkind = 'plug'\nnominal = '20 mm'\nclass = 'H11'\nmaterial = 'steel 1045'\n";
    let plate = "family = 'plate'\nshape = 'rectangle'\nmaterial = 'steel S235'\nlength = '100 mm'\nwidth = '60 mm'\nthickness = '15 mm'\n[[hole]]\nat = ['0 mm', '0 mm']\nthread = 'M8'\ntapped = true\n";
    [("bush", bush), ("test-fit", plug.into()), ("plate", plate.into())]
}

#[test]
fn every_caution_can_be_cleared() {
    let mut seen: BTreeMap<(&str, String), BTreeSet<Verdict>> = BTreeMap::new();
    let mut faults = BTreeSet::new();
    let mut worked = 0;
    for seed in PARTS.iter().flat_map(|(family, count)| (0..*count).map(move |i| 5 * i + family)) {
        let part = part(seed);
        let Ok(design) = part.work("part.toml") else { continue };
        worked += 1;
        for finding in &design.findings {
            seen.entry((part.family, finding.key.clone())).or_default().insert(finding.verdict);
            if finding.verdict > finding.worst {
                faults.insert(format!("{} {} is {:?}", part.family, finding.key, finding.verdict));
            }
        }
    }
    for (family, text) in seldom() {
        let nobody = |_: &str, _: &str| Err(String::new());
        let design = setdown::job::work("part.toml", &text, &setdown::shop::Shop::default(), &nobody).unwrap();
        for finding in &design.findings {
            seen.entry((family, finding.key.clone())).or_default().insert(finding.verdict);
        }
    }
    assert!(worked > 1400, "only {worked} parts worked");
    let judged = |wanted: Verdict| seen.values().filter(|v| v.contains(&wanted)).count();
    assert!(judged(Verdict::Caution) > 30 && judged(Verdict::Fail) > 10, "too few departures were met");
    for ((family, key), verdicts) in &seen {
        if verdicts.contains(&Verdict::Caution) && !verdicts.contains(&Verdict::Ok) {
            faults.insert(format!("{family} {key}: a caution that no part clears"));
        }
    }
    assert!(faults.is_empty(), "{}", faults.into_iter().collect::<Vec<_>>().join("\n"));
}
