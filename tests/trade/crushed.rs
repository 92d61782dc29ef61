//! What is advised where a rim is crushed is done, and the part worked again: it must carry, and bed in by what was told.

use approx::assert_relative_eq as near;
use setdown::record::design::{Design, Finding, Verdict};

use super::seats::{cone, cup, number};

/// A cup and its cone as two texts, the rim last in its table.
#[derive(Clone)]
struct Pair {
    load: u32,
    steel: [&'static str; 2],
    hole: &'static str,
    rim: String,
    welded: bool,
}

impl Pair {
    fn work(&self) -> Design {
        let [own, other] = self.steel;
        let text = format!(
            "material = \"{own}\"\nlength = \"140 mm\"\nwidth = \"120 mm\"\nthickness = \"10 mm\"\nseat_load = \"{} kg\"\n\
             [hole]\n{}diameter = \"50 mm\"\n{}[mounting]\nthread = \"M10\"\nspacing = [\"112 mm\", \"92 mm\"]\n",
            self.load, self.hole, self.rim
        );
        let foot = if self.welded { "foot = \"6 mm\"\nmounting = \"weld-on\"\n" } else { "" };
        cup(&text, &format!("material = \"{other}\"\n{}{foot}", cone(70.0, 30.0, 25.0)))
    }
}

fn settling(design: &Design) -> &Finding {
    design.findings.iter().find(|f| f.key == "bedding_in").expect("it is judged")
}

/// What stands between two words of the advice.
fn between<'t>(text: &'t str, from: &str, to: &str) -> Option<&'t str> {
    let (_, rest) = text.split_once(from)?;
    rest.split_once(to).map(|(found, _)| found)
}

const SLOT: &str = "kind = \"slot\"\nlength = \"58 mm\"\ndirection = \"30 deg\"\n";
const ROUND: &str = "kind = \"round\"\n";
const STEELS: [&str; 3] = ["steel S235", "steel 1045", "steel 4140 prehard"];

/// The pair with what is advised written into its files; `None` where nothing is.
fn advised(pair: &Pair, because: &str) -> Option<Pair> {
    let advice = between(because, "no height can be stated; ", " carries it")?;
    let mut made = pair.clone();
    if let Some(radius) = between(advice, "rim_radius = \"", "\" in [hole]") {
        made.rim = format!("rim_radius = \"{radius}\"\n");
    }
    if let Some(steel) = between(advice, "material = \"", "\" of ") {
        let steel = STEELS.into_iter().find(|s| *s == steel).expect("a steel of the list");
        let (_, whose) = advice.rsplit_once("\" of ").expect("whose");
        let whose = whose.split_once(", ").map_or(whose, |(whose, bolted)| {
            assert_eq!(bolted, "the cone bolted on instead of welded");
            made.welded = false;
            whose
        });
        if ["the cup", "cup and cone"].contains(&whose) {
            made.steel[0] = steel;
        }
        if ["the cone", "cup and cone"].contains(&whose) {
            made.steel[1] = steel;
        }
    }
    Some(made)
}

#[test]
fn what_is_advised_for_a_crushed_rim_carries() {
    let (mut crushed, mut helped, mut hopeless, mut harder) = (0, 0, 0, 0);
    for load in [100, 300, 900, 2500, 7000, 20_000, 60_000] {
        for hole in [SLOT, ROUND] {
            for rim in ["chamfer = \"0.5 mm\"\n", "", "rim_radius = \"1 mm\"\n"] {
                for steel in [[STEELS[0]; 2], [STEELS[0], STEELS[2]], [STEELS[1], STEELS[0]], [STEELS[2]; 2]] {
                    for welded in [true, false] {
                        let pair = Pair { load, steel, hole, rim: rim.into(), welded };
                        let design = pair.work();
                        let told = settling(&design);
                        if told.verdict != Verdict::Fail || told.value.is_some() {
                            continue;
                        }
                        crushed += 1;
                        let Some(made) = advised(&pair, &told.because) else {
                            let none = [
                                "neither a rounded rim nor a harder steel",
                                "neither rounded edges nor a harder steel",
                            ];
                            assert!(told.because.contains(none[usize::from(hole == SLOT)]), "{}", told.because);
                            // Nobody turns a seat into a slot.
                            assert_eq!(told.because.contains("or a turned seat"), hole != SLOT, "{}", told.because);
                            hopeless += 1;
                            continue;
                        };
                        assert!(
                            !(made.welded && made.steel[1] != steel[1]),
                            "a welded cone of another steel: {}",
                            told.because
                        );
                        harder += u32::from(made.steel != steel);
                        let again = made.work();
                        let found = settling(&again);
                        assert_ne!(found.verdict, Verdict::Fail, "{}: {}", told.because, found.because);
                        let most = between(&told.because, "beds in by at most ", " mm").expect("how far");
                        let most: f64 = most.parse().expect("a number");
                        let is = again.named("bedding_most").map_or(0.0, |_| number(&again, "bedding_most"));
                        near!(most, is, epsilon = 6e-4);
                        helped += 1;
                    }
                }
            }
        }
    }
    assert!(crushed > 60 && helped > 30 && hopeless > 10 && harder > 5, "{crushed} {helped} {hopeless} {harder}");
}
