//! Invented parts to draw: a locating cone with a foot, a plate with holes, a sleeve.

use setdown::record::drawing::{ChainLink, Drawing, FitZone, Side, View};
use setdown::record::key::Size;
use setdown::record::look::Look;
use setdown::shape::{Bored, Circle, Contour, Cutting, Flat, FlatHole, Point, Turned};
use setdown::sheet::Mark;
use setdown::sheet::content::{Content, FindingText, Grid, MeasureRow, Outcome, SizeRow, StepText};
use setdown::sheet::label::Label;
use setdown::sheet::landing_pictures::{
    Histogram, Plan, RideOff, Seat, histogram as histogram_marks, plan as landing_plan, ride_off,
};
use setdown::sheet::pictures::{chain, fit_zones};
use setdown::sheet::view::Labels;
use setdown::units::{Angle, Length};

/// A size of that name.
pub fn named(name: &'static str) -> Size {
    Size::new(name, name)
}

fn mm(x: f64) -> Length {
    Length::mm(x)
}

fn corners(points: &[(f64, f64)]) -> Vec<Point> {
    points.iter().map(|(r, z)| Point::mm(*r, *z)).collect()
}

fn row(what: &str, size: f64, by: &str, limits: Option<(f64, f64)>, principal: bool) -> SizeRow {
    let limit = |x: Option<f64>| match x {
        Some(x) => [format!("{x:.3}"), format!("{:.4}", x / 25.4)],
        None => [String::new(), String::new()],
    };
    SizeRow {
        key: what.into(),
        what: what.into(),
        by: by.into(),
        size: [format!("{size} mm"), format!("{:.4} in", size / 25.4)],
        least: limit(limits.map(|l| l.0)),
        most: limit(limits.map(|l| l.1)),
        how: "given: as in the part file".into(),
        principal,
        made: limits.is_some(),
        measurable: true,
        filled: Vec::new(),
    }
}

/// A cone with a spigot under it and a thread bore through it.
pub fn cone_solid() -> Turned {
    let profile =
        [(8.5, 0.0), (22.5, 0.0), (24.0, 1.5), (24.0, 20.0), (35.0, 20.0), (35.0, 24.0), (20.0, 84.0), (8.5, 84.0)];
    Turned::from_corners(&corners(&profile)).expect("a sound profile")
}

pub fn cone_view() -> View {
    View::section("Section on the axis", &cone_solid())
        .diameter(&named("base"), mm(24.0), mm(70.0), Side::Left)
        .diameter(&named("spigot"), mm(0.0), mm(48.0), Side::Left)
        .diameter(&named("bore"), mm(84.0), mm(17.0), Side::Right)
        .diameter(&named("top"), mm(84.0), mm(40.0), Side::Right)
        .axial(&named("height"), (mm(24.0), mm(70.0)), (mm(84.0), mm(40.0)), Side::Above)
        .axial(&named("spigot_length"), (mm(0.0), mm(48.0)), (mm(20.0), mm(48.0)), Side::Below)
        .axial(&named("rim"), (mm(20.0), mm(70.0)), (mm(24.0), mm(70.0)), Side::Below)
        .axial(&named("overall"), (mm(0.0), mm(48.0)), (mm(84.0), mm(40.0)), Side::Below)
        .corner(&named("half_angle"), Point::mm(84.0, 20.0), Angle::degrees(-14.036_24), Angle::degrees(0.0))
        .taper(&named("taper"), Point::mm(54.0, 27.5), false)
        .texture(Point::mm(60.0, -26.0), Angle::degrees(-100.0), "Ra 0.8")
}

pub fn labels() -> Labels {
    let plain = [
        ("base", "70", "(0 / −0.05)"),
        ("spigot", "48 f7", "(−0.025 / −0.050)"),
        ("bore", "17", ""),
        ("top", "40", ""),
        ("height", "60", "±0.1"),
        ("spigot_length", "20", ""),
        ("rim", "4", ""),
        ("overall", "84", ""),
        ("half_angle", "14.036°", "±0.05°"),
        ("taper", "1:2", ""),
        ("length", "160", ""),
        ("width", "100", ""),
        ("thickness", "12", ""),
        ("seat", "60 H7", "(+0.030 / 0)"),
        ("bolt", "11 H13", ""),
        ("pitch_x", "130", "±0.1"),
        ("pitch_y", "70", "±0.1"),
        ("sink", "66", ""),
        ("corner", "10", ""),
    ];
    plain.iter().map(|(k, size, tail)| ((*k).to_string(), Label::new(size, tail))).collect()
}

pub fn cone() -> Content {
    let measure = |what: &str, size, limits, with: &str| MeasureRow {
        row: row(what, size, "", Some(limits), true),
        with: with.into(),
    };
    let table = Grid {
        title: "Roughing steps, stock left 0.5 mm on the diameter".into(),
        columns: ["Step", "Diameter", "From the end", "Depth of cut"].map(String::from).to_vec(),
        rows: (1..9)
            .map(|i| vec![i.to_string(), format!("{} mm", 70 - 3 * i), format!("{} mm", 6 * i), "1.5 mm".into()])
            .collect(),
    };
    let steps = vec![
        StepText {
            at: "bench".into(),
            text: "Saw Ø75 round bar to 90 mm.".into(),
            ..StepText::default()
        },
        StepText {
            at: "lathe".into(),
            text: "Chuck on Ø75 with 65 mm out. Face. Centre. Drill Ø17 through with 320 rpm; clear the chips every 10 mm.".into(),
            ..StepText::default()
        },
        StepText {
            at: "lathe, top slide at 14.036°".into(),
            text: "Set the top slide to 14.036° (14°02.2') and check with an indicator: 12.500 mm rise over 50 mm of travel along the bed. Rough by the table, then take two light cuts with 480 rpm.".into(),
            table: Some(table),
            measure: vec![
                measure("Base diameter", 70.0, (69.95, 70.0), "outside micrometer 50-75"),
                measure("Diameter over pins Ø10", 91.284, (91.25, 91.32), "two pins and outside micrometer 75-100"),
            ],
            mind: vec!["No gloves; sleeves tied back.".into()],
        },
        StepText {
            at: "lathe".into(),
            text: "Turn round, soft jaws on the rim. Turn the spigot Ø48 f7, 20 mm long; break the edge 1.5 × 45°.".into(),
            measure: vec![measure("Spigot", 48.0, (47.95, 47.975), "outside micrometer 25-50")],
            ..StepText::default()
        },
    ];
    let finding = |outcome, what: &str, value: &str, limit: &str| FindingText {
        outcome,
        what: what.into(),
        value: value.into(),
        limit: limit.into(),
        because: "The cone must let go by itself when the frame is lifted, also with dry and rusty faces.".into(),
        source: "derived: tangent of the half-angle against the friction of dry steel".into(),
        does: String::new(),
    };
    Content {
        at_hand: Vec::new(),
        look: Look::default(),
        loads: Vec::new(),
        mind: Vec::new(),
        further: Vec::new(),
        name: "Locating cone, front left".into(),
        number: "front-left-cone".into(),
        revision: "0a1b2c".into(),
        kind: "Cone locator".into(),
        material: "C45 (1.0503)".into(),
        count: 2,
        note: "Both cones of one end are cut from one bar and marked as a pair.".into(),
        unit: "mm".into(),
        general: "ISO 2768-m".into(),
        drawing: Drawing { views: vec![cone_view()] },
        labels: labels(),
        sizes: vec![
            row("Base diameter", 70.0, "sets the seat height", Some((69.95, 70.0)), true),
            row("Top diameter", 40.0, "", None, true),
            row("Height of the cone", 60.0, "ISO 2768-m", Some((59.7, 60.3)), true),
            row("Spigot", 48.0, "f7", Some((47.95, 47.975)), true),
            row("Length of the spigot", 20.0, "ISO 2768-m", Some((19.8, 20.2)), false),
            row("Rim", 4.0, "", None, false),
        ],
        steps,
        pictures: Vec::new(),
        tables: vec![],
        findings: vec![
            finding(Outcome::Ok, "Releases without a knock", "0.25", "0.2"),
            finding(Outcome::Caution, "Finds its seat from the side", "18 mm", "20 mm"),
            finding(Outcome::Ok, "Pressure on the contact ring", "41 MPa", "120 MPa"),
        ],
        decides: Vec::new(),
        notes: vec!["size of the head - measure the screw in your hand [from memory, unconfirmed]".into()],
        cautions: vec![
            "No gloves at the lathe; hair and sleeves tied back.".into(),
            "Nobody under the hoisted frame, not even with a hand.".into(),
        ],
        tools: vec!["Round bar Ø75 × 190, C45".into(), "Drill Ø17, centre drill".into(), "Two pins Ø10 h6".into()],
    }
}

pub fn plate_solid() -> Flat {
    let bore = |x: f64, y: f64, d: f64| {
        FlatHole::Bored(Bored::through(Point::mm(x, y), mm(d), mm(12.0)).expect("a sound hole"))
    };
    let seat =
        Bored::from_corners(Point::mm(0.0, 0.0), &[(mm(0.0), mm(66.0)), (mm(3.0), mm(60.0)), (mm(12.0), mm(60.0))]);
    let mut holes = vec![FlatHole::Bored(seat.expect("a sound seat"))];
    holes.extend([(-65.0, -35.0), (65.0, -35.0), (65.0, 35.0), (-65.0, 35.0)].map(|(x, y)| bore(x, y, 11.0)));
    let outer = Contour::rectangle(mm(160.0), mm(100.0), mm(10.0)).expect("a sound outline");
    Flat::new(outer, mm(12.0), holes).expect("a sound plate")
}

pub fn plate() -> Content {
    let flat = plate_solid();
    let plan = View::plan("Plan", &flat)
        .distance(&named("length"), Point::mm(-80.0, -50.0), Point::mm(80.0, -50.0), Side::Below)
        .distance(&named("width"), Point::mm(-80.0, -50.0), Point::mm(-80.0, 50.0), Side::Left)
        .distance(&named("pitch_x"), Point::mm(-65.0, -35.0), Point::mm(65.0, -35.0), Side::Below)
        .distance(&named("pitch_y"), Point::mm(-65.0, -35.0), Point::mm(-65.0, 35.0), Side::Left)
        .hole(&named("bolt"), Point::mm(65.0, 35.0), mm(11.0), 4)
        .radius(&named("corner"), Point::mm(70.0, -40.0), mm(10.0), Angle::degrees(-45.0));
    let section = View::through("Section on the middle", &flat, Length::ZERO)
        .distance(&named("thickness"), Point::mm(80.0, 0.0), Point::mm(80.0, 12.0), Side::Right)
        .diameter_between(&named("seat"), Point::mm(-30.0, 0.0), Point::mm(30.0, 0.0), Side::Below)
        .diameter_between(&named("sink"), Point::mm(-33.0, 12.0), Point::mm(33.0, 12.0), Side::Above);
    Content {
        name: "Cup plate".into(),
        number: "cup-plate".into(),
        revision: "0a1b2c".into(),
        kind: "Plate".into(),
        material: "S355".into(),
        count: 4,
        unit: "mm".into(),
        drawing: Drawing { views: vec![section, plan] },
        labels: labels(),
        sizes: vec![
            row("Seat diameter", 60.0, "H7", Some((60.0, 60.03)), true),
            row("Thickness", 12.0, "ISO 9013-1", Some((11.7, 12.3)), true),
        ],
        ..Content::default()
    }
}

pub fn plate_cutting() -> Cutting {
    Cutting::of_flat(&plate_solid()).expect("a sound cutting")
}

/// A plate larger than any sheet.
pub fn large_cutting() -> Cutting {
    let hole =
        |x: f64, y: f64| Contour::circle(Circle::new(Point::mm(x, y), mm(40.0)).expect("a circle")).expect("a hole");
    let outer = Contour::rectangle(mm(400.0), mm(300.0), mm(0.0)).expect("a sound outline");
    Cutting::new(
        outer,
        vec![hole(-150.0, -100.0), hole(150.0, -100.0), hole(150.0, 100.0), hole(-150.0, 100.0)],
        vec![],
    )
    .expect("a sound cutting")
}

/// A plate whose one hole lies where two sheets would meet.
pub fn plate_with_hole_in_the_middle(width: f64) -> Cutting {
    let hole = Contour::circle(Circle::new(Point::mm(0.0, 0.0), mm(20.0)).expect("a circle")).expect("a hole");
    let outer = Contour::rectangle(mm(width), mm(width), mm(0.0)).expect("a sound outline");
    Cutting::new(outer, vec![hole], vec![]).expect("a sound cutting")
}

/// One picture of each kind.
pub fn pictures() -> Vec<(&'static str, Vec<Mark>)> {
    let zone = |name: &str, lower: f64, upper: f64| FitZone {
        name: name.into(),
        deviations: (Length::um(lower), Length::um(upper)),
        texts: [lower, upper].map(|v| if v == 0.0 { "0".to_string() } else { format!("{v:+} µm") }),
    };
    // The second is a hole as measured: a zone without width.
    let fits = [zone("Hole H7", 0.0, 21.0), zone("Hole, measured", 14.0, 14.0)].map(|hole| {
        let shaft = zone("Sleeve p6", 22.0, 35.0);
        let gaps = [
            (shaft.deviations.1, hole.deviations.0, "tightest".into()),
            (shaft.deviations.0, hole.deviations.1, "loosest".into()),
        ];
        fit_zones(&[hole, shaft], &gaps, &["Interference 0.001 mm to 0.035 mm".into()])
    });
    let [fit, measured] = fits;
    let link =
        |name: &str, length: f64, text: &str| ChainLink { name: name.into(), length: mm(length), text: text.into() };
    let links = [
        link("cheek to cheek", 62.0, "62 ±0.1"),
        link("arm", -48.0, "48 ±0.05"),
        link("washer", -6.0, "6 ±0.05"),
        link("washer", -6.0, "6 ±0.05"),
    ];
    let seats = [
        ("front left", 0.0, 0.0),
        ("front right", 1800.0, 0.0),
        ("rear right", 1800.0, 1200.0),
        ("rear left", 0.0, 1200.0),
    ];
    let seat = |(name, x, y): &(&str, f64, f64)| Seat {
        name: (*name).into(),
        x: *x,
        y: *y,
        off: (0.4, -0.3 + x / 4000.0),
        load: "3138 N".into(),
        touches: *x == 0.0 || *y == 0.0,
        to_do: vec!["slot at 156° from x, 49.275 mm".into(), "shim 0.6 mm under it".into()],
    };
    let plan = Plan {
        seats: seats.iter().map(seat).collect(),
        centre_of_gravity: Some((950.0, 560.0)),
        magnified: 300.0,
        distances: vec![],
    };
    let ride = RideOff {
        radii: (0..72).map(|i| 30.0 + 6.0 * f64::from(i % 18) / 18.0).collect(),
        needed: Some(20.0),
        ring: 10.0,
        words: "rings 10 mm apart; grey: what the crane needs".into(),
    };
    let counts = [2, 9, 31, 77, 120, 96, 40, 11, 3];
    let histogram = Histogram {
        words: "Off its place after landing, mm".into(),
        edges: (0..10).map(|i| format!("{:.2}", f64::from(i) * 0.05)).collect(),
        counts: counts.to_vec(),
        limits: vec![(7.5, "limit".into())],
    };
    let seated = View::seated("", &cone_solid(), &plate_solid(), Point::mm(0.0, 0.0), mm(44.0), mm(60.0))
        .note(Point::mm(30.0, 44.0), "touches on a ring, Ø60");
    vec![
        ("picture-fit", fit),
        ("picture-fit-measured", measured),
        ("picture-chain", chain(&links, &link("float", 2.0, "2 (1.75 to 2.25)"))),
        ("picture-plan", landing_plan(&plan)),
        ("picture-ride-off", ride_off(&ride)),
        ("picture-histogram", histogram_marks(&histogram)),
        ("picture-seated", setdown::sheet::view::draw(&seated, 1.0, &labels()).marks),
    ]
}
