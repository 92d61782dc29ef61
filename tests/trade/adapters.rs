//! An adapter worked from its file: its solid by cylinders, its bolts, seal and register by hand; what is refused and what is found.

use approx::assert_relative_eq as near;
use setdown::export::{self, mesh};
use setdown::record::design::{Design, Verdict};
use setdown::shop::Shop;
use setdown::units::Length;

use super::seats::number;

const ADAPTER: &str = "family = \"adapter\"\nkind = \"flange\"\nmaterial = \"steel S235\"\nenvironment = \"dry\"\noutside_diameter = \"180 mm\"\n\
    thickness = \"20 mm\"\nbore = \"40 mm\"\n\
    [upper]\ncircle = \"90 mm\"\nnumber = 4\nthread = \"M10\"\nhole = \"tapped\"\nfirst_angle = \"45 deg\"\nonto_thickness = \"12 mm\"\n\
    register = \"spigot\"\nregister_diameter = \"60 mm\"\nregister_height = \"5 mm\"\n\
    [lower]\ncircle = \"140 mm\"\nnumber = 6\nthread = \"M8\"\nhole = \"counterbored\"\nring_section = \"3.53 mm\"\nring_inside = \"70 mm\"\n\
    [load]\nacross = \"2 kN\"\nlever = \"250 mm\"\npull = \"1 kN\"\n";

fn work(text: &str) -> Result<Design, String> {
    let none = |_: &str, _: &str| Err("no such file".to_string());
    setdown::job::work("adapter.toml", text, &Shop::default(), &none).map_err(|p| setdown::job::render(&p, text))
}

fn changed(from: &str, to: &str) -> String {
    assert!(ADAPTER.contains(from), "{from}");
    ADAPTER.replace(from, to)
}

fn adapter(from: &str, to: &str) -> Design {
    let text = changed(from, to);
    work(&text).unwrap_or_else(|problems| panic!("{problems}\n{text}"))
}

fn verdict(design: &Design, key: &str) -> Verdict {
    design.findings.iter().filter(|f| f.key == key).map(|f| f.verdict).max().unwrap_or_else(|| panic!("no {key}"))
}

/// Disc, spigot, bore, four tap drills of 8.5 (ISO 2306), six holes of 9 (ISO 273, medium) with counterbores of 15 x 8.6 (DIN 974-1), groove
/// from 70 to 80 across, 2.7 deep (ring of 3.53, table of grooves): cylinders.
#[test]
fn its_solid_by_cylinders() {
    let design = adapter("kind", "kind");
    let cylinder = |d: f64, h: f64| std::f64::consts::PI / 4.0 * d * d * h;
    let holes = 4.0 * cylinder(8.5, 20.0) + 6.0 * (cylinder(9.0, 11.4) + cylinder(15.0, 8.6));
    let groove = cylinder(80.0, 2.7) - cylinder(70.0, 2.7);
    let volume = cylinder(180.0, 20.0) + cylinder(60.0, 5.0) - cylinder(40.0, 25.0) - holes - groove;
    let body = &design.solids[0].body;
    near!(body.volume().as_mm3(), volume, max_relative = 1e-12);
    let mesh = mesh::mesh(body, Length::mm(0.02)).unwrap();
    assert_eq!(mesh::faults(&mesh), mesh::Faults { euler: mesh::faults(&mesh).euler, ..mesh::Faults::default() });
    // 20 mm, a spigot of 5 and a millimetre for each face: 27, and plate is sold in 25 and 30.
    near!(number(&design, "blank_thickness"), 30.0, epsilon = 1e-9);
}

/// By hand: 2 kN at 250 mm over the upper face is 500 N m there and 540 at the lower; 4 M/(n D) = 4 x 500/(4 x 0.09) = 5556 N and 1000/4 more;
/// 4 x 540/(6 x 0.14) = 2571 N and 1000/6. The nearest two bolts: 45 mm at 45 degrees, 70 mm at 60: √(45² + 70² - 2 x 45 x 70 cos 15).
#[test]
fn its_bolts_by_hand() {
    let design = adapter("kind", "kind");
    near!(number(&design, "moment_upper"), 500.0, max_relative = 1e-9);
    near!(number(&design, "moment_lower"), 540.0, max_relative = 1e-9);
    near!(number(&design, "pull_asked_upper"), 5555.56 + 250.0, epsilon = 0.1);
    near!(number(&design, "pull_asked_lower"), 2571.43 + 166.67, epsilon = 0.1);
    let apart = (45.0_f64 * 45.0 + 70.0 * 70.0 - 2.0 * 45.0 * 70.0 * 15.0_f64.to_radians().cos()).sqrt();
    near!(number(&design, "bolt_to_bolt"), apart, epsilon = 1e-3);
    let w = std::f64::consts::PI * 90.0 / 4.0 - 8.5;
    near!(number(&design, "strip_stress"), 5805.56 * apart * 6.0 / (w * 400.0), max_relative = 1e-4);
    // M10 8.8: stress area 58.0 mm² (ISO 898-1), 580 MPa, three quarters: 25.2 kN; M8: 36.6 mm², 15.9 kN.
    let table = design.tables.iter().find(|t| t.key == "bolts").unwrap();
    let pulls: Vec<f64> = table.rows.iter().map(|row| row[4].number()).collect();
    near!(pulls[0], 0.75 * 58.0 * 580.0, max_relative = 2e-3);
    near!(pulls[1], 0.75 * 36.6 * 580.0, max_relative = 2e-3);
    // A third of the bolts pulls three times as hard; the face opens beyond 0.7 of 25.2 kN.
    assert_eq!(verdict(&design, "face_opens"), Verdict::Ok);
    assert_eq!(verdict(&adapter("250 mm", "950 mm"), "face_opens"), Verdict::Fail);
    assert_eq!(verdict(&adapter("number = 4", "number = 2"), "face_opens"), Verdict::Fail);
}

/// The ring of 3.53 mm, ± 0.10 (ISO 3601-1), in a groove 2.7 +0.1 deep and 5.0 wide: squeeze (3.43 - 2.8)/3.43 = 18.4 % at least,
/// (3.63 - 2.7)/3.63 = 25.6 % at most, fill π/4 x 3.63²/(5 x 2.7) = 76.7 %. ISO 286: 60 g6 is -10/-29 µm, H7 0/+30: 29.5 µm each way.
#[test]
fn its_seal_and_register_by_the_tables() {
    let design = adapter("kind", "kind");
    near!(number(&design, "squeeze_least_lower"), 0.1837, epsilon = 1e-4);
    near!(number(&design, "squeeze_most_lower"), 0.2562, epsilon = 1e-4);
    near!(number(&design, "ring_fill_lower"), 0.7666, epsilon = 1e-4);
    near!(number(&design, "groove_outer_lower"), 80.0, epsilon = 1e-9);
    near!(number(&design, "register_play_upper"), 0.0295, epsilon = 1e-6);
    let groove = |line: &str, key: &str| verdict(&adapter("ring_section", &format!("{line}\nring_section")), key);
    assert_eq!(groove("groove_depth = \"3.2 mm\"", "ring_squeeze_least"), Verdict::Caution);
    assert_eq!(groove("groove_depth = \"3.5 mm\"", "ring_squeeze_least"), Verdict::Fail);
    assert_eq!(groove("groove_depth = \"2.3 mm\"", "ring_squeeze_most"), Verdict::Caution);
    assert_eq!(groove("groove_width = \"4.1 mm\"", "ring_fill"), Verdict::Fail);
    // A ring of 66 mm over 70, at least 65.41 (0.009 d^0.95 + 0.11 off): 7 %.
    let small = adapter("ring_inside = \"70 mm\"", "ring_inside = \"66 mm\"\ngroove_diameter = \"70 mm\"");
    assert_eq!(verdict(&small, "ring_stretch"), Verdict::Caution);
    let class = |own: &str| {
        verdict(&adapter("register =", &format!("register_class = \"{own}\"\nregister =")), "register_goes_in")
    };
    assert_eq!((class("h6"), class("k6")), (Verdict::Ok, Verdict::Fail));
}

/// Heads, tools and the other mate: M8 heads on a circle of 140 lie under a mate of 150 on the upper face; a socket for 13 mm is 19.75 wide.
#[test]
fn heads_and_tools_have_room() {
    let under = |mate: u32| {
        let text = changed("hole = \"counterbored\"\n", "")
            .replace("first_angle", &format!("mate_diameter = \"{mate} mm\"\nfirst_angle"));
        work(&text).unwrap_or_else(|p| panic!("{p}"))
    };
    assert_eq!(verdict(&under(150), "head_under_mate"), Verdict::Fail);
    assert_eq!(verdict(&under(118), "head_under_mate"), Verdict::Ok);
    // 70 - 59 = 11 mm beside the mate, 9.875 for half of a socket; with 122 it is 9.
    assert_eq!(verdict(&under(118), "tool_room"), Verdict::Ok);
    assert_eq!(verdict(&under(122), "tool_room"), Verdict::Caution);
}

#[test]
fn what_cannot_be_made_is_refused_where_it_stands() {
    for (from, to, says) in [
        ("circle = \"140 mm\"", "circle = \"175 mm\"", "do not lie inside"),
        ("register_diameter = \"60 mm\"", "register_diameter = \"38 mm\"", "not larger than the bore"),
        ("ring_section = \"3.53 mm\"", "ring_section = \"3.3 mm\"", "no groove is known"),
        ("hole = \"tapped\"", "hole = \"tapped\"\nthread_depth = \"18 mm\"", "comes out of the other face"),
        ("thickness = \"20 mm\"", "thickness = \"8 mm\"", "sunk deeper than it is thick"),
        ("across = \"2 kN\"\nlever = \"250 mm\"\npull = \"1 kN\"", "lever = \"10 mm\"", "nothing pulls or pushes"),
        ("bore = \"40 mm\"\n", "bore_below = \"40 mm\"\n", "does nothing here"),
    ] {
        let told = work(&changed(from, to)).err().unwrap_or_else(|| panic!("{to} is taken"));
        assert!(told.contains(says), "{told}");
    }
}

/// A gasket is cut for itself: its outline stands in a file beside the plate's; a spacer goes to no cutter, a cone in it tells its area.
#[test]
fn gaskets_spacers_and_cones() {
    let design = adapter(
        "register = \"spigot\"\nregister_diameter = \"60 mm\"\nregister_height = \"5 mm\"\n",
        "gasket = \"1.5 mm\"\n",
    );
    let options = export::Options { only: vec!["dxf".into()], ..export::Options::default() };
    let names: Vec<String> = export::files(&design, &options).unwrap().into_iter().map(|(name, _)| name).collect();
    assert_eq!(names, ["adapter.dxf", "adapter-gasket-upper.dxf"]);
    let spacer =
        work(&changed("\"flange\"", "\"spacer\"").replace("bore =", "bore_below = \"48 mm\"\nbore =")).unwrap();
    assert!(spacer.cutting.is_none() && spacer.bars.len() == 1);
    // 40 to 48 mm over 25: atan(4/25) = 9.09 degrees; areas as 1.44 to 1.
    near!(number(&spacer, "flow_half_angle"), 9.0903, epsilon = 1e-3);
    near!(number(&spacer, "flow_ratio"), 1.44, epsilon = 1e-9);
    assert_eq!(verdict(&spacer, "flow_half_angle"), Verdict::Caution);
    let print = work(&changed("steel S235", "PETG")).unwrap();
    assert!(print.cutting.is_none() && print.operations.iter().any(|o| o.at == "3D printer"));
}
