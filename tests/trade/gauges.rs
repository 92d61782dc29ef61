//! The shop's own instruments decide wherever a usual one would: what they leave open, which of them is good enough, what is told.

use setdown::export;
use setdown::families::FAMILIES;
use setdown::record::design::Design;
use setdown::record::reading::Decision;
use setdown::shop::Shop;

/// Every instrument of a usual bench with a figure that none of them has.
const OWN: [(&str, f64); 6] = [
    ("tape", 4.6),
    ("calliper", 0.071),
    ("feeler gauge", 0.047),
    ("depth micrometer", 0.033),
    ("dial indicator", 0.023),
    ("micrometer", 0.013),
];

fn shop(own: &[(&str, f64)]) -> Shop {
    let rows = own.iter().map(|(name, u)| format!("[[instrument]]\nname = \"{name}\"\nuncertainty = \"{u} mm\"\n"));
    Shop::read("shop.toml", &rows.collect::<String>()).unwrap()
}

fn worked(text: &str, shop: &Shop) -> Result<Design, String> {
    let near = |_: &str, name: &str| {
        let of = |f: &&setdown::families::Family| name.starts_with(f.name);
        let family = FAMILIES.iter().copied().find(|f| of(f)).ok_or("no such file")?;
        Ok((name.to_string(), family.template.to_string()))
    };
    setdown::job::work("part.toml", text, shop, &near).map_err(|p| setdown::job::render(&p, text))
}

fn template(name: &str) -> &'static str {
    FAMILIES.iter().find(|f| f.name == name).unwrap().template
}

fn length(design: &Design, name: &str) -> f64 {
    design.named(name).unwrap_or_else(|| panic!("no {name}")).value.number()
}

/// U of every instrument that a figure rests on stands among the sizes, and it is the shop's; so do the figures made of it:
/// √2 U of two readings by micrometer (JCGM 100), U cos²α/√2 h of two sizes over rollers, limits drawn in by U (ISO 14253-1).
#[test]
fn no_figure_stays_at_the_usual_one() {
    let own = shop(&OWN);
    let mut seen = std::collections::BTreeSet::new();
    let pressed = "family = \"sleeve\"\nbore = \"20 mm\"\noutside_diameter = \"32 mm\"\nlength = \"30 mm\"\nbore_class = \"H7\"\n\
         outside_class = \"r6\"\n[housing]\nclass = \"H7\"\n[pressed_in]\nhub_outside = \"60 mm\"\n";
    assert!(worked(pressed, &own).is_ok());
    let texts = FAMILIES.iter().map(|f| f.template).chain([pressed]);
    for text in texts {
        let (usual, design) = (worked(text, &Shop::default()), worked(text, &own));
        let (Ok(usual), Ok(design)) = (usual, design) else { continue };
        for d in design.dimensions.iter().filter(|d| d.key.starts_with("u_")) {
            let (_, u) = OWN.iter().find(|(name, _)| d.key[2..] == name.replace(' ', "_")).unwrap();
            assert!((d.value.number() - u).abs() < 1e-9, "{}: {:?}", design.header.family, d);
            let before = usual.named(&d.key).unwrap();
            assert!(before.value.number() < *u, "{before:?}");
            seen.insert(format!("{} {}", design.header.family, d.key));
        }
        // A step that names an instrument of the shop says so, and what it leaves open.
        for m in design.operations.iter().flat_map(|o| &o.measure) {
            let names = OWN.iter().any(|(name, _)| m.with == *name);
            assert!(!names || m.own.starts_with("the shop's, U "), "{m:?}");
        }
        assert!(usual.operations.iter().flat_map(|o| &o.measure).all(|m| m.own.is_empty()));
    }
    for wanted in ["cone u_micrometer", "cone u_dial_indicator", "sleeve u_micrometer"] {
        assert!(seen.contains(wanted), "{wanted}: {seen:?}");
    }
}

#[test]
fn each_family_that_rests_on_one_moves_with_it() {
    let own = shop(&OWN);
    // Cone: the doubt of the half-angle goes as U of the micrometer, the limits of the dial are drawn in by that of the dial.
    let cone = "family = \"cone\"\nbase_diameter = \"60 mm\"\ntip_diameter = \"24 mm\"\nhalf_angle = \"30 deg\"\nmaterial = \"steel 1045\"\n";
    let (a, b) = (worked(cone, &Shop::default()).unwrap(), worked(cone, &own).unwrap());
    let ratio = length(&b, "half_angle_doubt") / length(&a, "half_angle_doubt");
    assert!((ratio - 0.013 / 0.005).abs() < 0.02, "{ratio}");
    let lower = |d: &Design| d.named("flank_dial").unwrap().limits.as_ref().unwrap().lower.as_mm();
    assert!((lower(&b) - lower(&a) - (0.023 - 0.01)).abs() < 2e-4, "{} {}", lower(&a), lower(&b));
    // Shim: U of the width, the limits of its reading, and which instruments are good enough.
    let shim = "family = \"shim\"\ngap = \"2.2 mm\"\ntarget_float = [\"0.05 mm\", \"0.35 mm\"]\nbore = \"20 mm\"\noutside_diameter = \"32 mm\"\n";
    let (a, b) = (worked(shim, &Shop::default()).unwrap(), worked(shim, &own).unwrap());
    let reading = |d: &Design| {
        let (width, reading) = (d.named("width").unwrap(), d.named("width_reading").unwrap());
        (reading.limits.as_ref().unwrap().lower - width.limits.as_ref().unwrap().lower).as_mm()
    };
    assert!(
        (reading(&a) - 0.005).abs() < 2e-4 && (reading(&b) - 0.013).abs() < 2e-4,
        "{} {}",
        reading(&a),
        reading(&b)
    );
    let table = |d: &Design| format!("{:?}", d.tables.iter().find(|t| t.key == "instruments").unwrap().rows);
    assert!(table(&b).contains("micrometer, the shop's") && !table(&a).contains("the shop's"), "{}", table(&b));
    // A member and a float read with the shop's own by its own name.
    let comparator = Shop::read(
        "shop.toml",
        "[[instrument]]\nname = \"micrometer 50-75\"\nuncertainty = \"0.009 mm\"\n[[instrument]]\nname = \"micrometer 0-25\"\nuncertainty = \"0.003 mm\"\n",
    )
    .unwrap();
    let named = format!("{shim}instrument = \"micrometer 0-25\"\n");
    assert!((reading(&worked(&named, &comparator).unwrap()) - 0.003).abs() < 2e-4);
    // Of two of a kind the coarser counts where the kind alone is named.
    assert!((reading(&worked(shim, &comparator).unwrap()) - 0.009).abs() < 2e-4);
    assert!(
        worked(&format!("{shim}instrument = \"micrometer 0-26\"\n"), &comparator).unwrap_err().contains("did you mean")
    );
    // Landing: a line of the tape is as good as the shop's tape, unless the survey says another figure.
    let survey = "[survey.cones]\nreadings = [[\"FL\", \"FR\", \"800 mm\"], [\"FL\", \"RL\", \"1800 mm\"], [\"FR\", \"RL\", \"1969.8 mm\"]]\n";
    let base = "family = \"landing\"\nmass = \"640 kg\"\ncentre_of_mass = [\"0 mm\", \"100 mm\", \"500 mm\"]\nfriction = 0.3\n";
    let seat = |name: &str| format!("[[seat]]\nname = \"{name}\"\ncone = \"cone.toml\"\nkind = \"pad\"\n");
    let landing = format!("{base}{}{}{}{survey}", seat("FL"), seat("FR"), seat("RL"));
    let sigma = |shop: &Shop| worked(&landing, shop).map(|d| length(&d, "survey_cones_uncertainty"));
    assert_eq!(sigma(&Shop::default()), Ok(1.0));
    assert_eq!(sigma(&own), Ok(2.3));
}

/// One reading in the middle of its limits: good by an instrument that leaves less open than half of them, too near to tell by one
/// that leaves more. In every family, whatever the size.
#[test]
fn a_verdict_goes_by_the_shops_figure_in_every_family() {
    let mut families = 0;
    for family in FAMILIES {
        let Ok(plain) = worked(family.template, &Shop::default()) else { continue };
        let sizes = plain.dimensions.iter().filter_map(|d| Some((d, d.limits.as_ref()?)));
        let Some((size, limits)) = sizes.filter(|(d, _)| !d.may_vanish).max_by(|a, b| {
            let width = |l: &setdown::record::design::Limits| (l.upper - l.lower).as_mm();
            width(a.1).total_cmp(&width(b.1))
        }) else {
            continue;
        };
        let (lower, upper) = (limits.lower.as_mm(), limits.upper.as_mm());
        let piece = if plain.header.count > 1 { "piece = 1\n" } else { "" };
        let middle = f64::midpoint(lower, upper);
        let text = format!(
            "{}\n[[measured]]\nwhat = \"{}\"\nvalue = \"{middle} mm\"\nwith = \"calliper\"\n{piece}",
            family.template, size.key
        );
        let decided = |share: f64| {
            let shop = shop(&[("calliper", (upper - lower) * share)]);
            let design = worked(&text, &shop).unwrap_or_else(|why| panic!("{}: {why}", family.name));
            let reading = design.named(&size.key).unwrap().measured()[0].clone();
            assert!(!reading.assumed);
            reading.decision
        };
        assert_eq!(
            (decided(0.4), decided(0.6)),
            (Some(Decision::Accept), Some(Decision::Open)),
            "{} {}",
            family.name,
            size.key
        );
        families += 1;
    }
    assert!(families >= 8, "{families}");
}

/// A cup's hole is measured by the calliper where that is good enough, and a drill is chosen so that its hole reads good by it.
#[test]
fn which_instrument_and_which_drill() {
    let cup = template("cup");
    let with = |u: f64| {
        let design = worked(cup, &shop(&[("calliper", u)])).unwrap();
        let of = |o: &&setdown::record::design::Operation| o.measure.iter().any(|m| m.key == "hole_diameter");
        let step = design.operations.iter().find(of).unwrap().clone();
        step.measure.iter().find(|m| m.key == "hole_diameter").unwrap().with.clone()
    };
    assert!(
        with(0.001).starts_with("calliper") && with(0.9).starts_with("bore gauge"),
        "{} {}",
        with(0.001),
        with(0.9)
    );
    let plate = "family = \"plate\"\nlength = \"120 mm\"\nwidth = \"80 mm\"\nthickness = \"10 mm\"\n[[hole]]\nat = [\"30 mm\", \"40 mm\"]\nthread = \"M8\"\n";
    if let Ok(design) = worked(plate, &shop(&OWN)) {
        let text = export::json::to_text(&export::json::whole(&design));
        assert!(!text.contains("0.03 mm"), "{text}");
    }
}
