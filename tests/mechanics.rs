//! Press fits, contact, heat, chains and shims against books, standards and independent calculations.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "helpers of tests stop the test with a message")]

use setdown::formulas::bolts::*;
use setdown::formulas::clamp::{self, Lies, Parted, SlitRing};
use setdown::formulas::hardness::*;
use setdown::formulas::hertz::*;
use setdown::formulas::plain_bearing::{self, Motion};
use setdown::formulas::press_fit::*;
use setdown::formulas::raceway::*;
use setdown::formulas::shims::*;
use setdown::formulas::uncertainty::*;
use setdown::formulas::*;
use setdown::units::*;

/// A size without doubt.
fn exact(value: Length) -> Measured {
    Measured::with_expanded(value, Length::ZERO)
}

fn mm(value: f64) -> Length {
    Length::mm(value)
}

/// Equal to the digits given: |a - b| <= tolerance, both values printed when not.
#[track_caller]
fn near(what: &str, got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance, "{what}: got {got}, expected {expected} +- {tolerance}");
}

/// Like `near`, tolerance as a share of the expected value.
#[track_caller]
fn close(what: &str, got: f64, expected: f64, share: f64) {
    near(what, got, expected, share * expected.abs());
}

fn elastic(gpa: f64, poisson: f64) -> Elastic {
    Elastic { youngs_modulus: Stress::gpa(gpa), poisson, expansion: Expansion::per_million_kelvin(11.7) }
}

fn press(bore: f64, interface: f64, outside: f64, length: f64, material: Elastic) -> Press {
    Press {
        interface: mm(interface),
        hub_outside: mm(outside),
        sleeve_bore: mm(bore),
        length: mm(length),
        hub: material,
        sleeve: material,
    }
}

/// Stress in the plane below a line contact, MPa, tension positive: the whole field, from which what the program says of
/// the largest shear must follow.
struct Below {
    along: f64,
    deep: f64,
    shear: f64,
}

impl Below {
    /// At `x` half-widths across the line and `z` deep. With lengths in half-widths b,
    /// m², n² = ½[√((1 - x² + z²)² + 4x²z²) ± (1 - x² + z²)], sign of n that of x;
    /// σx = -p0[m(1 + (z² + n²)/(m² + n²)) - 2z], σz = -p0 m (1 - (z² + n²)/(m² + n²)),
    /// τ = p0 n (m² - z²)/(m² + n²). Source: Johnson, Contact Mechanics, eq. 4.49 (from memory).
    fn of(contact: &LineContact, x: f64, z: f64) -> Self {
        let middle = 1.0 - x * x + z * z;
        let root = (middle * middle + 4.0 * x * x * z * z).sqrt();
        let m = (0.5 * (root + middle)).max(0.0).sqrt();
        let n = (0.5 * (root - middle)).max(0.0).sqrt().copysign(x);
        let (share, skew) = if root > 0.0 {
            ((z * z + n * n) / (m * m + n * n), n * (m * m - z * z) / (m * m + n * n))
        } else {
            (0.0, 0.0)
        };
        let p = contact.peak_pressure().as_mpa();
        Self { along: -p * (m * (1.0 + share) - 2.0 * z), deep: -p * (m * (1.0 - share)), shear: -p * skew }
    }

    /// √(((σx - σz)/2)² + τ²).
    fn largest_shear(&self) -> f64 {
        (0.25 * (self.along - self.deep).powi(2) + self.shear.powi(2)).sqrt()
    }
}

mod press_fits {
    use super::*;

    /// Ugural & Fenster example 8.3: radii 150/200/250 mm, 0.1 mm radial, E 200 GPa; stresses to the printed digits.
    #[test]
    fn two_steel_cylinders() {
        let got = press(300.0, 400.0, 500.0, 100.0, elastic(200.0, 0.3)).pressed(mm(0.2)).unwrap();
        near("p", got.pressure.as_mpa(), 12.3, 0.05);
        // The book carries the rounded 12.3 on: a digit in the last place.
        near("outer at joint", got.hub_at_joint.hoop.as_mpa(), 56.0, 0.1);
        near("outer at outside", got.hub_at_outside.hoop.as_mpa(), 43.7, 0.1);
        near("inner at bore", got.sleeve_at_bore.hoop.as_mpa(), -56.2, 0.1);
        near("inner at joint", got.sleeve_at_joint.hoop.as_mpa(), -43.9, 0.1);
    }

    /// Boresi & Schmidt example 11.3: radii 10/25/50 mm, 0.072 mm radial, E 200 GPa, nu 0.29. The book keeps the
    /// unequal radii (25 and 25.072), which makes 0.06 % of difference.
    #[test]
    fn compound_cylinder() {
        let got = press(20.0, 50.0, 100.0, 100.0, elastic(200.0, 0.29)).pressed(mm(0.144)).unwrap();
        close("p", got.pressure.as_mpa(), 189.1, 1e-3);
        close("inner at bore", got.sleeve_at_bore.hoop.as_mpa(), -450.2, 1e-3);
        close("inner at joint", got.sleeve_at_joint.hoop.as_mpa(), -261.1, 1e-3);
        close("outer at joint", got.hub_at_joint.hoop.as_mpa(), 315.1, 1e-3);
        close("outer at outside", got.hub_at_outside.hoop.as_mpa(), 126.0, 1e-3);
    }

    /// Ugural & Fenster example 8.4 (b): solid shaft 100 mm in a 500 mm disk, 0.0525 mm radial, E 200 GPa.
    #[test]
    fn solid_shaft_in_a_disk() {
        let got = press(0.0, 100.0, 500.0, 100.0, elastic(200.0, 0.3)).pressed(mm(0.105)).unwrap();
        near("p", got.pressure.as_mpa(), 100.8, 0.05);
        near("hoop", got.hub_at_joint.hoop.as_mpa(), 109.2, 0.05);
        assert_eq!(got.sleeve_at_bore.hoop, got.sleeve_at_bore.radial);
    }

    /// Hollow steel shaft 50/100 in a cast-iron disk of 250, 100 long, hub hoop limited to 30 MPa, friction 0.15:
    /// inputs of a published lecture example, answers by an independent script.
    #[test]
    fn two_materials() {
        let case = Press {
            hub: elastic(70.0, 0.25),
            sleeve: elastic(210.0, 0.30),
            ..press(50.0, 100.0, 250.0, 100.0, elastic(1.0, 0.3))
        };
        let unit = case.pressed(mm(0.01)).unwrap();
        let pressure = unit.pressure * (30.0 / unit.hub_at_joint.hoop.as_mpa());
        near("p", pressure.as_mpa(), 21.724, 5e-4);
        near("p of that interference", case.pressed(mm(2.0 * 0.03238)).unwrap().pressure.as_mpa(), 21.724, 4e-3);
        near("force in kN", case.axial_force(pressure, 0.15).unwrap().as_newtons() / 1e3, 102.4, 0.05);
        near("torque in kNm", case.torque(pressure, 0.15).unwrap().as_newton_metres() / 1e3, 5.119, 5e-4);
    }

    /// 40 mm joint, hub 70, bore 25, length 30, E 206 GPa: worked two ways by independent scripts.
    #[test]
    fn both_ends_of_a_fit() {
        let case = press(25.0, 40.0, 70.0, 30.0, elastic(206.0, 0.3));
        let got = case.pressed_range(Range { min: mm(0.020), max: mm(0.045) }).unwrap();
        let rows = [
            (got.min.unwrap(), 24.2253, 47.717, -79.509, 9.649, 10959.0),
            (got.max, 54.507, 107.362, -178.895, 21.711, 24658.0),
        ];
        for (at, p, hub, sleeve, closes, force) in rows {
            near("p", at.pressure.as_mpa(), p, 5e-4);
            near("hub hoop", at.hub_at_joint.hoop.as_mpa(), hub, 5e-4);
            near("sleeve hoop", at.sleeve_at_bore.hoop.as_mpa(), sleeve, 6e-4);
            near("closes", at.bore_closes.as_um(), closes, 5e-4);
            near("force", case.axial_force(at.pressure, 0.12).unwrap().as_newtons(), force, 0.5);
        }
        let loose = case.pressed_range(Range { min: mm(-0.003), max: mm(0.01) }).unwrap();
        assert!(loose.min.is_none());
        assert!(case.pressed_range(Range { min: mm(-0.003), max: mm(-0.001) }).is_err());
    }

    /// Sleeve 30/25 pressed 30 um into a 60 mm boss, and ring 20/25 15 um tight on a solid shaft; independent script.
    #[test]
    fn closing_and_growing() {
        let steel = elastic(210.0, 0.3);
        let boss = press(25.0, 30.0, 60.0, 20.0, steel);
        let got = boss.pressed(mm(0.03)).unwrap();
        close("p", got.pressure.as_mpa(), 29.1176471, 1e-8);
        close("closes", got.bore_closes.as_mm(), 0.0226890756, 1e-8);
        close("force", boss.axial_force(got.pressure, 0.12).unwrap().as_newtons(), 6586.2566, 1e-8);
        close("boss hoop", got.hub_at_joint.hoop.as_mpa(), 48.5294118, 1e-8);
        close("sleeve hoop", got.sleeve_at_bore.hoop.as_mpa(), -190.588235, 1e-8);
        let heat = boss.heat_hub(mm(0.03), mm(0.02), Temperature::celsius(20.0), HARD_RING_LIMIT.value).unwrap();
        close("heat", heat.temperature.as_celsius(), 20.0 + 142.450142, 1e-8);
        assert!(heat.beyond_limit, "120 degrees are reported as exceeded, not clamped");
        // Same modulus throughout: closing = D_int (d/D)(Do² - D²)/(Do² - d²) exactly.
        let closed = 0.03 * (25.0 / 30.0) * (3600.0 - 900.0) / (3600.0 - 625.0);
        close("closed form", got.bore_closes.as_mm(), closed, 1e-12);
        let ring = press(0.0, 20.0, 25.0, 20.0, steel).pressed(mm(0.015)).unwrap();
        close("ring p", ring.pressure.as_mpa(), 28.35, 1e-9);
        close("raceway grows", ring.outside_grows.as_mm(), 0.012, 1e-9);
    }

    /// Machined to the size before pressing, the part must end at the size wanted.
    #[test]
    fn machined_before_pressing_ends_right() {
        let case = press(25.0, 40.0, 70.0, 30.0, elastic(206.0, 0.3));
        let before = case.bore_before(mm(25.0), mm(0.045)).unwrap();
        let pressed = Press { sleeve_bore: before, ..case }.pressed(mm(0.045)).unwrap();
        near("bore", (before - pressed.bore_closes).as_mm(), 25.0, 1e-12);
        let outside = case.outside_before(mm(70.0), mm(0.045)).unwrap();
        let pressed = Press { hub_outside: outside, ..case }.pressed(mm(0.045)).unwrap();
        near("outside", (outside + pressed.outside_grows).as_mm(), 70.0, 1e-12);
        let fit = Range { min: mm(0.020), max: mm(0.045) };
        let limits = case.bore_limits_before(Range { min: mm(25.0), max: mm(25.021) }, fit).unwrap();
        assert!(limits.min < limits.max && limits.min > mm(25.021));
        assert!(case.bore_limits_before(Range { min: mm(25.0), max: mm(25.005) }, fit).is_err());
    }

    /// The yield interference of a thin inner sleeve is the one at which its own equivalent stress says so.
    #[test]
    fn yield_and_profile() {
        let case = press(25.0, 40.0, 70.0, 30.0, elastic(206.0, 0.3));
        let at = case.interference_at_yield(Part::Sleeve, Stress::mpa(300.0)).unwrap();
        near("mises", case.pressed(at).unwrap().sleeve_at_bore.mises.as_mpa(), 300.0, 1e-9);
        let wall = case.profile(Part::Hub, mm(0.02), 50).unwrap();
        let ends = case.pressed(mm(0.02)).unwrap();
        assert_eq!((wall.len(), wall[0], wall[50]), (51, ends.hub_at_joint, ends.hub_at_outside));
        // Tresca of a hub at the joint: hoop minus radial; larger than von Mises.
        near("tresca", wall[0].tresca.as_mpa(), (wall[0].hoop - wall[0].radial).as_mpa(), 1e-12);
        assert!(wall.iter().all(|w| w.tresca >= w.mises));
        // Sum of radial and hoop stress is the same across a wall (Lamé).
        assert!(wall.iter().all(|w| (w.radial + w.hoop - wall[0].radial - wall[0].hoop).as_mpa().abs() < 1e-9));
    }

    /// 100 mm aluminium bore on a steel shaft, both 20 to 40 °C: 0.0238 mm (23.6 against 11.7; derived).
    #[test]
    fn service_temperature() {
        let aluminium = Elastic { expansion: Expansion::per_million_kelvin(23.6), ..elastic(70.0, 0.33) };
        let case = Press { hub: aluminium, ..press(0.0, 100.0, 160.0, 50.0, elastic(210.0, 0.3)) };
        let grown = |per_kelvin: f64, t: f64| Strain::new(per_kelvin * (t - 20.0)).unwrap();
        let at = |t: f64| case.interference_grown(mm(0.05), grown(11.7e-6, t), grown(23.6e-6, t));
        let warm = at(40.0);
        near("interference", warm.as_mm(), 0.05 - 0.0238, 1e-12);
        let loose = case.loose_at(mm(0.05)).unwrap().unwrap();
        near("gone there", at(loose.as_celsius()).as_mm(), 0.0, 1e-12);
        let cold = case.cool_sleeve(mm(0.05), mm(0.02), Temperature::celsius(20.0)).unwrap();
        close("cooled", cold.as_celsius(), 20.0 - 0.07 / 100.0 / 11.7e-6, 1e-9);
        assert!(case.cool_sleeve(mm(0.5), mm(0.02), Temperature::celsius(20.0)).is_err());
    }

    /// Loss by flattened peaks, DIN 7190-1 (from memory): Rz 4 and 6.3 um lose 8.24 um; Ra is a fifth of Rz.
    #[test]
    fn roughness_takes_interference() {
        let loss = roughness_loss(Length::um(4.0 / 5.0), Length::um(6.3 / 5.0)).unwrap();
        near("loss", loss.as_um(), 8.24, 1e-9);
    }

    #[test]
    fn nonsense_is_refused_in_words() {
        let steel = elastic(210.0, 0.3);
        let text = |case: Press| case.pressed(mm(0.02)).unwrap_err().to_string();
        assert_eq!(
            text(press(25.0, 40.0, 40.0, 30.0, steel)),
            "the joint diameter must be smaller than the hub's outside diameter"
        );
        assert_eq!(
            text(press(40.0, 40.0, 70.0, 30.0, steel)),
            "the sleeve's bore must be smaller than the joint diameter"
        );
        assert_eq!(text(press(-1.0, 40.0, 70.0, 30.0, steel)), "the sleeve's bore must not be negative");
        assert_eq!(
            text(press(25.0, 40.0, 70.0, 30.0, elastic(210.0, 0.6))),
            "Poisson's ratio must be above 0 and below 0.5"
        );
        assert_eq!(text(press(25.0, 40.0, 70.0, f64::NAN, steel)), "the length of the joint is not a number");
        assert!(press(25.0, 40.0, 70.0, 30.0, steel).pressed(mm(-0.01)).is_err());
    }
}

mod contacts {
    use super::*;

    /// Boresi & Schmidt example 17.3: two cylinders of 40 mm radius, 20 mm long, 24.1 kN, E 200 GPa, nu 0.29:
    /// 1445 MPa and 433 MPa with the book's three-digit coefficients.
    #[test]
    fn two_equal_cylinders() {
        let steel = elastic(200.0, 0.29);
        let radius = relative_radius(mm(40.0), mm(40.0)).unwrap();
        let modulus = contact_modulus(&steel, &steel).unwrap();
        let contact = LineContact::new(Force::newtons(24100.0), mm(20.0), radius, modulus).unwrap();
        close("p0, book", contact.peak_pressure().as_mpa(), 1445.0, 3e-3);
        close("tau, book", contact.largest_shear().as_mpa(), 433.0, 4e-3);
        near("p0, independent script", contact.peak_pressure().as_mpa(), 1447.0, 0.5);
        near("half-width", contact.half_width().as_mm(), 0.5301, 5e-5);
        // The stress field must give the same shear at the same depth, and none larger nearby.
        let at = |x: f64, z: f64| Below::of(&contact, x, z);
        let largest = contact.largest_shear().as_mpa();
        close("field", at(0.0, LINE_SHEAR_DEPTH).largest_shear(), largest, 1e-12);
        assert!(
            (0..400).all(|i| at(f64::from(i % 20) * 0.1, f64::from(i / 20) * 0.1 + 0.05).largest_shear()
                <= largest * (1.0 + 1e-12))
        );
        close("surface", at(0.6, 0.0).deep, -0.8 * contact.peak_pressure().as_mpa(), 1e-9);
        assert_eq!(at(1.5, 0.0).deep, 0.0);
    }
}

mod raceways {
    use super::*;

    fn row(roller: f64, length: f64, count: u32, sleeve: f64) -> RollerRow {
        let steel = elastic(210.0, 0.3);
        RollerRow {
            roller_diameter: mm(roller),
            effective_length: mm(length),
            count,
            track: mm(sleeve),
            roller: steel,
            raceway: steel,
        }
    }

    /// 24 needles 2.5 x 12 on a 25 mm sleeve, 6 kN, k 5: independent script, which rounds 0.3003 and 0.786.
    #[test]
    fn needle_on_a_sleeve() {
        let got = row(2.5, 12.0, 24, 25.0).under(Force::newtons(6000.0), 5.0, Hardness::Vickers(130.0)).unwrap();
        near("Q", got.roller_load.as_newtons(), 1250.0, 1e-9);
        close("p0", got.pressure.as_mpa(), 1834.86762, 1e-8);
        close("half-width", got.contact.half_width().as_mm(), 0.0361413319, 1e-8);
        close("tau", got.contact.largest_shear().as_mpa(), 551.010746, 1e-4);
        close("depth", got.contact.shear_depth().as_mm(), 0.0284070869, 3e-4);
        // Load goes with pressure squared, so the load at first yield follows.
        let ratio = got.allowed_pressure / got.pressure;
        close("dents from", got.dents_from.as_newtons(), 6000.0 * ratio * ratio, 1e-12);
        let again = row(2.5, 12.0, 24, 25.0).under(got.dents_from, 5.0, Hardness::Vickers(130.0)).unwrap();
        close("just yields there", again.pressure.as_mpa(), got.allowed_pressure.as_mpa(), 1e-12);
        // "needs about 340 HV to stay elastic".
        close("needed", got.needed.unwrap().vickers().unwrap(), 337.0, 2e-3);
    }

    /// F 8000 N, Z 24, Dw 3, L 15.8, sleeve 25, k 5, E 206 GPa: Q 1666.67 N, p0 1684.54 MPa, half-width 0.039865 mm
    /// (worked by an independent script).
    #[test]
    fn demo_pivot() {
        let steel = elastic(206.0, 0.3);
        let row = RollerRow { roller: steel, raceway: steel, ..row(3.0, 15.8, 24, 25.0) };
        let got = row.under(Force::newtons(8000.0), 5.0, Hardness::RockwellC(60.0)).unwrap();
        near("Q", got.roller_load.as_newtons(), 1666.67, 5e-3);
        near("p0", got.pressure.as_mpa(), 1684.54, 5e-3);
        near("half-width", got.contact.half_width().as_mm(), 0.039865, 5e-7);
        assert!(got.pressure < got.allowed_pressure);
    }

    /// ISO 76 puts the static rating at 4000 MPa; with k 5 the constant 44 follows (E 206 GPa: 3982, 210: 4020 MPa).
    #[test]
    fn static_rating_is_4000_mpa() {
        for (gpa, expected) in [(206.0, 3981.52382), (210.0, 4019.99354)] {
            let steel = elastic(gpa, 0.3);
            let row = RollerRow { roller: steel, raceway: steel, ..row(2.5, 12.0, 24, 25.0) };
            let load = row.static_rating().unwrap();
            let pressure = row.contact(row.most_loaded(load, 5.0).unwrap()).unwrap().peak_pressure();
            close("p0 at C0", pressure.as_mpa(), expected, 1e-8);
        }
    }

    /// Share left on soft sleeves (independent script, rounds 1.667; hence 0.3 %), and the handbook's factors.
    #[test]
    fn soft_sleeves_keep_little() {
        for (hv, yielded, handbook) in
            [(130.0, 0.0313666229, 0.0528125), (250.0, 0.116000824, 0.1953125), (450.0, 0.375842671, 0.6328125)]
        {
            close("yield", static_factor_by_yield(Hardness::Vickers(hv)).unwrap(), yielded, 3e-3);
            close("handbook", static_factor_by_handbook(Hardness::Vickers(hv)).unwrap(), handbook, 1e-12);
        }
        close("onset 130", Hardness::Vickers(130.0).onset_pressure().unwrap().as_mpa(), 708.425, 1.5e-3);
        close("onset 700", Hardness::Vickers(700.0).onset_pressure().unwrap().as_mpa(), 3814.596, 1.5e-3);
    }

    /// 58 HRC is 653 HV, 50 is 513, 40 is 390 (published conversion formula).
    #[test]
    fn hardness_scales() {
        for (hrc, hv) in [(58.0, 653.0), (50.0, 513.0), (40.0, 390.0)] {
            near("HV", Hardness::RockwellC(hrc).vickers().unwrap(), hv, 0.5);
            near(
                "and back",
                Hardness::Vickers(Hardness::RockwellC(hrc).vickers().unwrap()).rockwell_c().unwrap(),
                hrc,
                1e-9,
            );
        }
        assert!(Hardness::RockwellC(72.0).vickers().is_err());
        assert!(Hardness::Vickers(130.0).rockwell_c().is_err(), "too soft for the C scale");
        assert!(Hardness::Vickers(f64::NAN).vickers().is_err());
        assert!(Hardness::needed_for(Stress::mpa(6000.0)).is_err());
    }

    /// Case depth at 4000 MPa: 0.103 Dw over a 350 HV core ("about 0.1 Dw" says a bearing maker), 0.254 over 150 HV.
    #[test]
    fn case_depths() {
        let row = row(2.5, 12.0, 24, 25.0);
        let depth = |hv| row.case_depth(Stress::mpa(4000.0), Hardness::Vickers(hv)).unwrap() / mm(2.5);
        close("350 HV core", depth(350.0), 0.103000261, 1e-3);
        close("150 HV core", depth(150.0), 0.254155745, 1e-3);
        near("catalogue", row.catalogue_case_depth().as_mm(), 0.21, 1e-12);
        assert_eq!(row.case_depth(Stress::mpa(500.0), Hardness::Vickers(350.0)).unwrap(), Length::ZERO);
    }

    /// 300 N/mm on 130 HV, relative radius 1.136 mm: land 0.2353 mm, 6.09 um (independent script, g 9.807).
    #[test]
    fn dents() {
        let dent = row(2.5, 12.0, 24, 25.0).dent(Force::newtons(3600.0), Hardness::Vickers(130.0)).unwrap();
        close("land", dent.width.as_mm(), 0.235310728, 1e-4);
        close("depth", dent.depth.as_um(), 6.09082525, 2e-4);
    }

    /// Z 24, Dw/Dpw 1/11: 27.5° on the inside.
    #[test]
    fn swing() {
        let inside = row(2.5, 12.0, 24, 25.0);
        near("inside", inside.overlap_swing().unwrap().as_degrees(), 27.5, 1e-9);
    }

    /// Load factor of many rollers from the integral over the load zone ε: k = 1/J_r,
    /// J_r = (1/2π) ∫ [1 - (1 - cos ψ)/(2ε)]^1.11 cos ψ dψ over cos ψ > 1 - 2ε, by the middles of 20000 strips.
    /// Source: Harris & Kotzalas, Rolling Bearing Analysis, section 7 (from memory).
    fn stribeck_number(zone: f64) -> f64 {
        let edge = (1.0 - 2.0 * zone).max(-1.0).acos();
        let strip = |i: i32| {
            let psi = edge * (f64::from(i) + 0.5) / 20000.0;
            (1.0 - (1.0 - psi.cos()) / (2.0 * zone)).max(0.0).powf(1.11) * psi.cos()
        };
        std::f64::consts::PI / ((0..20000).map(strip).sum::<f64>() * edge / 20000.0)
    }

    /// Demo pivot, 24 needles 2.5 x 12 mm, 6007 N: the load on the most loaded one in equal shares, by an independent
    /// script of the same equilibrium (Palmgren's deflection at both contacts): 4.08 without clearance, 4.76 at 7 um, 6.13
    /// at 29 um. 4.08 is also what bearing makers print for rollers without clearance. With many rollers it is the
    /// integral over the load zone; with a great clearance one roller carries all.
    #[test]
    fn load_factor_of_a_clearance() {
        let needles = row(2.5, 12.0, 24, 25.0);
        let factor = |um: f64| needles.load_factor(Force::newtons(6007.0), Length::um(um)).unwrap().0;
        near("none", factor(0.0), 4.08, 0.01);
        near("7 um", factor(7.0), 4.76, 0.005);
        near("29 um", factor(29.0), 6.13, 0.005);
        near("slack", factor(5000.0), 24.0, 1e-6);
        let fine = row(0.2, 12.0, 300, 25.0);
        for clearance in [0.0, 4.0, 20.0] {
            let (k, shift) = fine.load_factor(Force::newtons(6007.0), Length::um(clearance)).unwrap();
            near("integral", k, stribeck_number(0.5 * (1.0 - Length::um(clearance) / (2.0 * shift))), 0.01);
        }
        near("printed by makers", stribeck_number(0.5), 4.08, 0.005);
        assert!(needles.load_factor(Force::newtons(6007.0), mm(-0.001)).is_err());
        assert!(needles.load_factor(Force::newtons(0.0), mm(0.01)).is_err());
    }

    /// 25 mm: inscribed circle F6 (+20/+33 um) on h5 (0/-9): 20 to 42 um (ISO 286-1).
    #[test]
    fn clearance_and_class() {
        let um = |a: f64, b: f64| Range { min: Length::um(a), max: Length::um(b) };
        let clearance = running_clearance(um(20.0, 33.0), um(-9.0, 0.0));
        near("min", clearance.min.as_um(), 20.0, 1e-9);
        near("max", clearance.max.as_um(), 42.0, 1e-9);
        assert_eq!(raceway_class(mm(25.0), ClearanceWanted::Normal), Ok("h5"));
        assert_eq!(raceway_class(mm(65.0), ClearanceWanted::Large), Ok("g6"));
        assert_eq!(raceway_class(mm(70.0), ClearanceWanted::Large), Ok("f6"));
        assert_eq!(raceway_class(mm(80.0), ClearanceWanted::Normal), Ok("h5"));
        assert_eq!(raceway_class(mm(100.0), ClearanceWanted::Normal), Ok("g5"));
        assert!(raceway_class(mm(200.0), ClearanceWanted::Normal).is_err());
    }

    #[test]
    fn nonsense_is_refused_in_words() {
        let text = |row: RollerRow| row.most_loaded(Force::newtons(1.0), 5.0).unwrap_err().to_string();
        assert_eq!(text(row(2.5, 12.0, 0, 25.0)), "the number of rollers must be larger than 0");
        assert_eq!(text(row(2.5, 12.0, 60, 25.0)), "that many rollers do not fit round the raceway");
        assert_eq!(text(row(-2.5, 12.0, 24, 25.0)), "the roller diameter must be larger than 0");
        assert!(row(2.5, 12.0, 24, 25.0).most_loaded(Force::newtons(1.0), 0.5).is_err());
        assert!(row(2.5, 12.0, 24, 25.0).static_safety(Force::ZERO, 1.0, 1.0).is_err());
    }
}

mod tightening {
    use super::*;

    /// M10 at 75 % of 600 MPa: 52 N m; M12 at 70 % of 580 MPa: 82 N m (two public worked examples of torque charts).
    #[test]
    fn torques() {
        let m10 = preload(Area::mm2(58.0), Stress::mpa(600.0), 0.75).unwrap();
        let m12 = preload(Area::mm2(84.3), Stress::mpa(580.0), 0.70).unwrap();
        near("M10", tightening_torque(m10, mm(10.0), 0.2).unwrap().as_newton_metres(), 52.0, 0.5);
        near("M12", tightening_torque(m12, mm(12.0), 0.2).unwrap().as_newton_metres(), 82.0, 0.5);
        near("M12 pull", m12.as_newtons(), 34225.8, 1e-6);
        assert!(preload(Area::mm2(58.0), Stress::mpa(600.0), 1.5).is_err());
    }
}

/// Answers for the finite-element oracle, tests/oracle/elastic_fem.py, which recomputes them from the same inputs.
#[test]
fn answers_for_the_finite_element_oracle() {
    use serde_json::{Value, json};
    let stress = |s: &WallStress| {
        json!({"diameter_mm": s.diameter.as_mm(), "radial_mpa": s.radial.as_mpa(),
        "hoop_mpa": s.hoop.as_mpa(), "mises_mpa": s.mises.as_mpa()})
    };
    let cases = [
        ("steel sleeve in steel hub", 25.0, 40.0, 70.0, 30.0, 0.045, (206.0, 0.3), (206.0, 0.3)),
        ("steel sleeve in cast-iron disk", 50.0, 100.0, 250.0, 100.0, 0.06476, (70.0, 0.25), (210.0, 0.30)),
        ("steel sleeve in aluminium hub", 25.0, 30.0, 60.0, 20.0, 0.03, (70.0, 0.33), (210.0, 0.30)),
    ];
    let presses: Vec<Value> = cases
        .iter()
        .map(|&(name, bore, joint, outside, length, interference, hub, sleeve)| {
            let case = Press {
                hub: elastic(hub.0, hub.1),
                sleeve: elastic(sleeve.0, sleeve.1),
                ..press(bore, joint, outside, length, elastic(1.0, 0.3))
            };
            let got = case.pressed(mm(interference)).unwrap();
            let wall = |part| case.profile(part, mm(interference), 6).unwrap().iter().map(stress).collect::<Vec<_>>();
            json!({"name": name, "bore_mm": bore, "joint_mm": joint, "outside_mm": outside, "length_mm": length,
                "interference_mm": interference, "hub": {"e_mpa": hub.0 * 1e3, "nu": hub.1},
                "sleeve": {"e_mpa": sleeve.0 * 1e3, "nu": sleeve.1}, "pressure_mpa": got.pressure.as_mpa(),
                "bore_closes_mm": got.bore_closes.as_mm(), "outside_grows_mm": got.outside_grows.as_mm(),
                "hub_wall": wall(Part::Hub), "sleeve_wall": wall(Part::Sleeve)})
        })
        .collect();
    let steel = elastic(210.0, 0.3);
    let radius = relative_radius(mm(1.25), mm(12.5)).unwrap();
    let contact =
        LineContact::new(Force::newtons(1250.0), mm(12.0), radius, contact_modulus(&steel, &steel).unwrap()).unwrap();
    let b = contact.half_width();
    let places =
        [(0.0, 0.3), (0.0, 0.5), (0.0, LINE_SHEAR_DEPTH), (0.0, 1.5), (0.0, 3.0), (0.5, 0.5), (0.85, 0.5), (1.5, 1.0)];
    let below: Vec<Value> = places
        .iter()
        .map(|&(x, z)| {
            let at = Below::of(&contact, x, z);
            json!({"x_over_b": x, "z_over_b": z, "along_mpa": at.along, "deep_mpa": at.deep,
                "shear_mpa": at.shear, "largest_shear_mpa": at.largest_shear()})
        })
        .collect();
    let answers = json!({"presses": presses, "line_contact": {"e_mpa": 210e3, "nu": 0.3, "roller_radius_mm": 1.25,
        "raceway_radius_mm": 12.5, "force_n": 1250.0, "length_mm": 12.0, "half_width_mm": b.as_mm(),
        "peak_pressure_mpa": contact.peak_pressure().as_mpa(), "largest_shear_mpa": contact.largest_shear().as_mpa(),
        "shear_depth_mm": contact.shear_depth().as_mm(), "below": below}});
    let path = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("mechanics_answers.json");
    std::fs::write(&path, serde_json::to_string_pretty(&answers).unwrap()).unwrap();
    let again: Value = serde_json::from_str(&std::fs::read_to_string(&path).unwrap()).unwrap();
    assert_eq!(again["presses"].as_array().map(Vec::len), Some(cases.len()));
}

mod shim {
    use super::*;

    fn question(source: ShimSource, sides: Sides, offset: f64) -> ShimQuestion {
        ShimQuestion { source, target: FloatTarget { min: mm(0.05), max: mm(0.15) }, sides, offset: mm(offset) }
    }

    /// Stack 0.52 + 0.31 + 0.21 + 0.11, float 1.28 without and 0.12 with it (trade example, derived and
    /// checked by an independent script): effective stack 1.16, film 3.3 um a joint, one shim of 1.18.
    #[test]
    fn one_shim_for_a_stack() {
        let widths = [0.52, 0.31, 0.21, 0.11].map(mm);
        let effective = effective_stack(mm(1.28), mm(0.12)).unwrap();
        near("effective stack", effective.as_mm(), 1.16, 1e-12);
        near("film", film_per_joint(effective, &widths).unwrap().as_mm(), 0.00333333333, 1e-9);
        let gap = ShimSource::Gap(Measured::with_expanded(mm(1.28), mm(0.01)));
        let answer = shim_width(&question(gap, Sides::One, 0.0)).unwrap();
        near("total", answer.total.as_mm(), 1.18, 1e-12);
        near("U", answer.uncertainty.as_mm(), 0.01, 1e-9);
        near("lower", answer.lower.as_mm(), 1.14, 1e-9);
        near("upper", answer.upper.as_mm(), 1.22, 1e-9);
        near("float min", answer.float.min.as_mm(), 0.05, 1e-9);
        near("float max", answer.float.max.as_mm(), 0.15, 1e-9);
        assert!(answer.warnings.is_empty());
    }

    /// The same stack added up is 10 um thinner than what it took up: the answer carries the warning.
    #[test]
    fn adding_up_a_stack_warns() {
        let shims = [0.52, 0.31, 0.21, 0.11].map(|w| Measured::by(mm(w), Instrument::Micrometer)).to_vec();
        let source = ShimSource::Replaces { shims, present_float: exact(mm(0.12)) };
        let answer = shim_width(&question(source, Sides::Two, 0.1)).unwrap();
        near("total", answer.total.as_mm(), 1.17, 1e-12);
        near("U", answer.uncertainty.as_mm(), 0.01, 1e-9);
        near("left", answer.sizes[0].width.as_mm(), 0.685, 1e-12);
        near("right", answer.sizes[1].width.as_mm(), 0.485, 1e-12);
        near("tolerance", (answer.upper - answer.lower).as_mm(), 0.04, 1e-9);
        assert_eq!(answer.warnings, [ShimWarning::StackOfLooseShims]);
    }

    #[test]
    fn a_poor_measurement_leaves_no_tolerance() {
        let gap = ShimSource::Gap(Measured::by(mm(1.28), Instrument::Tape));
        let answer = shim_width(&question(gap, Sides::One, 0.0)).unwrap();
        assert_eq!(answer.lower, answer.upper);
        assert_eq!(answer.warnings, [ShimWarning::UncertaintyFillsTheFloat]);
        assert!(answer.float.min < mm(0.05) && answer.float.max > mm(0.15));
    }

    #[test]
    fn nonsense_is_refused_in_words() {
        let gap = |g| ShimSource::Gap(exact(mm(g)));
        let text = |q: &ShimQuestion| shim_width(q).unwrap_err().to_string();
        assert_eq!(
            text(&question(gap(0.04), Sides::One, 0.0)),
            "the float is already smaller than wanted: there is no room for a shim"
        );
        for inside in [0.05, 0.08, 0.1, 0.12, 0.15] {
            assert_eq!(
                text(&question(gap(inside), Sides::One, 0.0)),
                "no shim is needed: without any, the float is already what is wanted"
            );
        }
        assert_eq!(text(&question(gap(1.0), Sides::One, 0.1)), "a centring offset needs a shim on both sides");
        assert_eq!(text(&question(gap(1.0), Sides::Two, 0.6)), "the centring offset leaves no shim on one side");
        assert_eq!(text(&question(gap(f64::NAN), Sides::One, 0.0)), "the gap is not a number");
        let none = ShimSource::Replaces { shims: vec![], present_float: exact(mm(0.1)) };
        assert_eq!(text(&question(none, Sides::One, 0.0)), "no shims to replace given");
        assert!(effective_stack(mm(0.1), mm(0.2)).is_err());
    }

    /// Window 0.05 to 0.15, gaps over 0.40, shim tolerance 0.010, U 0.015: step 0.05, 8 sizes (trade example; an
    /// independent simulation found that 7 are not enough).
    #[test]
    fn size_classes_of_a_batch() {
        let float = Range { min: mm(0.05), max: mm(0.15) };
        let gaps = Range { min: mm(1.0), max: mm(1.4) };
        let classes = size_classes(gaps, float, mm(0.010), mm(0.015)).unwrap();
        near("step", classes.largest_step.as_mm(), 0.05, 1e-12);
        assert_eq!(classes.sizes.len(), 8);
        // Every gap finds a size that leaves the float inside, with shim and reading at their worst.
        for i in 0..=4000 {
            let gap = 1.0 + 0.4 * f64::from(i) / 4000.0;
            let best = classes.sizes.iter().map(|s| (gap - s.as_mm() - 0.1).abs()).fold(f64::INFINITY, f64::min);
            assert!(best + 0.025 <= 0.05 + 1e-9, "gap {gap}: {best}");
        }
        assert!(size_classes(gaps, float, mm(0.03), mm(0.03)).is_err());
    }

    /// Binomial quantiles against scipy.stats.binom.isf(0.05/8, 20, 1/8) = 7 and isf(0.05/2, 10, 1/2) = 8.
    #[test]
    fn numbers_to_order() {
        assert_eq!(order_by_share(&[1.0 / 8.0; 8], 20, 1, 0.95).unwrap(), vec![7; 8]);
        assert_eq!(order_by_share(&[0.5; 2], 10, 2, 0.95).unwrap(), vec![16, 16]);
        assert_eq!(order_by_share(&[1.0], 10, 1, 0.95).unwrap(), vec![10]);
        assert!(order_by_share(&[], 10, 1, 0.95).is_err());
    }

    #[test]
    fn nearest_set_equals_trying_every_set() {
        let at_hand: Vec<Length> = (0..11).map(|i| mm(0.1 + f64::from(i * i % 17) * 0.037)).collect();
        for step in 1..60 {
            let wanted = mm(f64::from(step) * 0.031);
            let found = best_combination(&at_hand, wanted, mm(0.05), mm(0.003), Prefer::SmallestError).unwrap();
            let least = (1u32..1 << 11)
                .filter(|set| set.count_ones() <= 4)
                .map(|set| {
                    let sum: f64 = (0..11).filter(|i| set >> i & 1 == 1).map(|i| at_hand[i as usize].as_mm()).sum();
                    (sum + 0.003 * f64::from(set.count_ones() - 1) - wanted.as_mm()).abs()
                })
                .fold(f64::INFINITY, f64::min);
            near("smallest error", found.error.as_mm().abs(), least, 2e-9);
            let sum: f64 = found.pieces.iter().map(|&i| at_hand[i].as_mm()).sum();
            near("total", found.total.as_mm(), sum + 0.003 * (found.pieces.len() - 1) as f64, 1e-9);
        }
    }

    #[test]
    fn fewest_pieces_win_inside_the_tolerance() {
        let at_hand = [0.3, 0.5, 0.7, 1.19].map(mm);
        let close = best_combination(&at_hand, mm(1.2), mm(0.02), Length::ZERO, Prefer::FewestPieces).unwrap();
        assert_eq!((close.pieces, close.within_tolerance), (vec![3], true));
        let exact = best_combination(&at_hand, mm(1.2), mm(0.001), Length::ZERO, Prefer::FewestPieces).unwrap();
        assert_eq!(exact.pieces, vec![1, 2]);
        let nearest = best_combination(&at_hand, mm(1.2), mm(0.02), Length::ZERO, Prefer::SmallestError).unwrap();
        assert_eq!(nearest.pieces, vec![1, 2], "the nearest, though one piece is within the tolerance");
        assert!(best_combination(&[], mm(1.0), mm(0.01), Length::ZERO, Prefer::SmallestError).is_err());
        assert!(best_combination(&[mm(1.0); 301], mm(1.0), mm(0.01), Length::ZERO, Prefer::SmallestError).is_err());
    }

    #[test]
    fn stock_to_grind() {
        let stock = [1.0, 1.2, 1.3, 1.5].map(mm);
        let choice = from_stock(&stock, mm(1.18), mm(0.01), mm(0.1)).unwrap().unwrap();
        near("stock", choice.stock.as_mm(), 1.3, 1e-12);
        near("grind off", choice.grind_off.as_mm(), 0.12, 1e-12);
        let fits = from_stock(&stock, mm(1.195), mm(0.01), mm(0.1)).unwrap().unwrap();
        assert_eq!((fits.stock, fits.grind_off), (mm(1.2), Length::ZERO));
        assert_eq!(from_stock(&stock, mm(1.6), mm(0.01), mm(0.1)).unwrap(), None);
    }
}

mod budgets {
    use super::*;

    /// End gauge, JCGM 100:2008 example H.1 (quoted from memory): u_c 32 nm, nu_eff 16, t99 2.92, U99 93 nm.
    #[test]
    fn end_gauge() {
        let nm = |v: f64| Length::um(v / 1000.0);
        let part = |u: f64, nu: f64| Contribution {
            sensitivity: 1.0,
            standard_uncertainty: nm(u),
            degrees_of_freedom: Some(nu),
        };
        let total = combine(&[part(25.0, 18.0), part(9.7, 25.6), part(2.9, 50.0), part(16.6, 2.0)]).unwrap();
        near("u_c in nm", total.standard.as_um() * 1000.0, 32.0, 0.5);
        near("degrees of freedom", total.degrees_of_freedom.unwrap().floor(), 16.0, 0.0);
        near("t99", coverage_factor(total.degrees_of_freedom, 0.99).unwrap(), 2.92, 0.005);
        near("U99 in nm", total.expanded(0.99).unwrap().as_um() * 1000.0, 93.0, 0.5);
    }

    /// Digital micrometer, published budget (GUM guide for micrometers): s 0.58 um of 3 readings, resolution 1 um,
    /// block U 0.5 um: u_c 0.00051 mm, U 0.0010 mm.
    #[test]
    fn micrometer_budget() {
        let known = |u| Contribution { sensitivity: 1.0, standard_uncertainty: u, degrees_of_freedom: None };
        let parts = [mm(0.00058) / 3.0_f64.sqrt(), mm(0.001) / 12.0_f64.sqrt(), mm(0.0005) / 2.0].map(known);
        let total = combine(&parts).unwrap();
        near("u_c", total.standard.as_mm(), 0.00051, 0.000005);
        near("u_c, independent script", total.standard.as_mm(), 0.00050790419, 1e-10);
        near("U", total.expanded(TWO_SIGMA).unwrap().as_mm(), 0.0010, 0.00005);
    }

    #[test]
    fn instruments_are_ordered_coarse_to_fine() {
        let widths: Vec<f64> = Instrument::ALL.iter().map(|i| i.expanded_uncertainty().value.as_mm()).collect();
        assert!(widths.windows(2).all(|pair| pair[0] > pair[1]), "{widths:?}");
    }
}

mod chains {
    use super::*;
    use setdown::formulas::stack::*;

    fn member(name: &str, sign: f64, nominal: f64, half: f64, distribution: Distribution) -> Member {
        let direction = if sign > 0.0 { Direction::Adds } else { Direction::Subtracts };
        Member::toleranced(name, direction, mm(nominal), Range { min: mm(-half), max: mm(half) }, distribution)
    }

    fn chain(members: &[(f64, f64, f64)], distribution: Distribution) -> Chain {
        let name = |i: usize| format!("member {i}");
        let all = members.iter().enumerate().map(|(i, m)| member(&name(i), m.0, m.1, m.2, distribution)).collect();
        Chain::new(all).unwrap()
    }

    /// Housing 50 less 20, 24.9 and 5.
    const FLOAT: [(f64, f64, f64); 4] = [(1.0, 50.0, 0.05), (-1.0, 20.0, 0.02), (-1.0, 24.9, 0.03), (-1.0, 5.0, 0.01)];

    /// Exact distribution function of Σ uniform(-h_i, h_i): Σ over all corners of ±(x + Σ ±h_i)₊ⁿ / (n! Π 2h_i), the
    /// convolution of the rectangles (Feller, An Introduction to Probability Theory II, section I.9, for unlike widths).
    fn uniform_sum_below(x: f64, halves: &[f64]) -> f64 {
        let n = halves.len();
        let corner = |set: usize| {
            let sign = |i: usize| if set >> i & 1 == 1 { -1.0 } else { 1.0 };
            let at = x + (0..n).map(|i| sign(i) * halves[i]).sum::<f64>();
            (0..n).map(sign).product::<f64>() * at.max(0.0).powi(n as i32)
        };
        let scale: f64 = (1..=n).zip(halves).map(|(i, h)| i as f64 * 2.0 * h).product();
        (0..1 << n).map(corner).sum::<f64>() / scale
    }

    /// The oracle itself: two equal uniforms make a triangle.
    #[test]
    fn convolution_of_two() {
        near("middle", uniform_sum_below(0.0, &[1.0, 1.0]), 0.5, 1e-15);
        near("half way", uniform_sum_below(-1.0, &[1.0, 1.0]), 0.125, 1e-15);
        near("end", uniform_sum_below(2.0, &[1.0, 1.0]), 1.0, 1e-15);
    }

    /// Four tolerances 0.05 0.02 0.03 0.01 (independent script): worst -0.01 to 0.21, RSS ±0.06245.
    #[test]
    fn end_float() {
        let chain = chain(&FLOAT, Distribution::Uniform);
        near("nominal", chain.middle().as_mm(), 0.1, 1e-9);
        near("worst low", chain.worst_case().min.as_mm(), -0.01, 1e-9);
        near("worst high", chain.worst_case().max.as_mm(), 0.21, 1e-9);
        near("rss low", chain.root_sum_square().min.as_mm(), 0.03755002, 1e-8);
        near("sigma", chain.standard_deviation().as_mm(), 0.0360555128, 1e-9);
        let shares = chain.shares();
        near("worst-case shares", shares.iter().map(|s| s.of_worst_case).sum(), 1.0, 1e-12);
        near("variance shares", shares.iter().map(|s| s.of_variance).sum(), 1.0, 1e-12);
        near("of the housing", shares[0].of_variance, 25.0 / 39.0, 1e-12);
    }

    /// Published stacks: metric 40 - 25 - 2 - 10 with 0.10 0.05 0.03 0.05 (gap 3.00); inch 4.020 - 2 - 1.5 - 0.5 with
    /// .005 .005 .003 .002 (gap .020, worst .005 to .035, RSS .012 to .028).
    #[test]
    fn published_stacks() {
        let metric = [(1.0, 40.0, 0.10), (-1.0, 25.0, 0.05), (-1.0, 2.0, 0.03), (-1.0, 10.0, 0.05)];
        let metric = chain(&metric, Distribution::Normal);
        near("gap", metric.middle().as_mm(), 3.0, 1e-9);
        near("worst", metric.worst_case().max.as_mm() - 3.0, 0.23, 1e-9);
        near("rss", metric.root_sum_square().max.as_mm() - 3.0, 0.1261, 5e-5);
        let inch = [(1.0, 4.02, 0.005), (-1.0, 2.0, 0.005), (-1.0, 1.5, 0.003), (-1.0, 0.5, 0.002)];
        let inch = chain(&inch.map(|(s, n, t)| (s, n * 25.4, t * 25.4)), Distribution::Normal);
        near("worst low", inch.worst_case().min.as_inches(), 0.005, 1e-9);
        near("worst high", inch.worst_case().max.as_inches(), 0.035, 1e-9);
        near("rss low", inch.root_sum_square().min.as_inches(), 0.012, 1e-4);
        near("rss high", inch.root_sum_square().max.as_inches(), 0.028, 1e-4);
    }

    /// Monte Carlo against the exact convolution: percentiles and shares within 5 standard errors of sampling
    /// (√(p(1-p)/N)); a right generator is outside in one of a million such comparisons.
    #[test]
    fn draws_against_exact_convolution() {
        let cases: [&[(f64, f64, f64)]; 3] = [
            &FLOAT,
            &[(1.0, 10.0, 0.2), (-1.0, 9.0, 0.01)],
            &[
                (1.0, 10.0, 0.02),
                (-1.0, 1.0, 0.03),
                (-1.0, 1.0, 0.01),
                (-1.0, 1.0, 0.02),
                (-1.0, 1.0, 0.05),
                (1.0, 1.0, 0.04),
            ],
        ];
        for (seed, members) in cases.into_iter().enumerate() {
            let halves: Vec<f64> = members.iter().map(|m| m.2).collect();
            let chain = chain(members, Distribution::Uniform);
            let middle = chain.middle().as_mm();
            let sigma = chain.standard_deviation().as_mm();
            let limits = Range { min: mm(middle - 1.5 * sigma), max: mm(middle + 0.7 * sigma) };
            let got = simulate(&chain, limits, Trials { seed: seed as u64, count: 1_000_000 }).unwrap();
            let error = |p: f64| 5.0 * (p * (1.0 - p) / 1e6).sqrt();
            for p in [0.001, 0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99, 0.999] {
                let at = got.percentile(p).unwrap().as_mm() - middle;
                near("share below a percentile", uniform_sum_below(at, &halves), p, error(p));
            }
            let below = uniform_sum_below(-1.5 * sigma, &halves);
            let above = 1.0 - uniform_sum_below(0.7 * sigma, &halves);
            near("below", got.share_below, below, error(below));
            near("above", got.share_above, above, error(above));
            near("mean", got.mean.as_mm(), middle, 5.0 * sigma / 1e3);
            close("sigma", got.standard_deviation.as_mm(), sigma, 5.0 / (2e6_f64).sqrt());
        }
    }

    /// 0.012 % of the uniform chain falls below nought (convolution by an independent script); a bell curve of the
    /// same width would say 0.28 %.
    #[test]
    fn uniform_is_not_normal() {
        let limits = Range { min: Length::ZERO, max: mm(0.3) };
        let got = simulate(&chain(&FLOAT, Distribution::Uniform), limits, Trials::default()).unwrap();
        near("uniform below", got.share_below * 100.0, 0.012, 0.006);
        let exact = uniform_sum_below(-0.1, &[0.05, 0.02, 0.03, 0.01]);
        near("exact", got.share_below, exact, 5.0 * (exact / 1e6).sqrt());
        assert_eq!(got.share_above, 0.0);
    }

    /// Normal and triangular members: moments and percentiles of the sum (normal sum is normal; the triangular
    /// chain of two equal members is four uniforms of half the width).
    #[test]
    fn other_distributions() {
        let limits = Range { min: Length::ZERO, max: mm(0.3) };
        let normal = chain(&FLOAT, Distribution::Normal);
        let got = simulate(&normal, limits, Trials { seed: 7, count: 1_000_000 }).unwrap();
        let sigma = normal.standard_deviation().as_mm();
        close("sigma", got.standard_deviation.as_mm(), sigma, 5.0 / (2e6_f64).sqrt());
        for (p, z, density) in [(0.5, 0.0, 0.39894), (0.841344746, 1.0, 0.24197), (0.99865010, 3.0, 0.0044318)] {
            let standard_error = (p * (1.0_f64 - p) / 1e6).sqrt() / density * sigma;
            near("percentile", got.percentile(p).unwrap().as_mm(), 0.1 + z * sigma, 5.0 * standard_error);
        }
        let triangular = chain(&[(1.0, 10.0, 0.1), (-1.0, 9.0, 0.1)], Distribution::Triangular);
        let got = simulate(&triangular, Range { min: Length::ZERO, max: mm(2.0) }, Trials::default()).unwrap();
        for p in [0.01, 0.3, 0.5, 0.9] {
            let at = got.percentile(p).unwrap().as_mm() - 1.0;
            near("triangular", uniform_sum_below(at, &[0.05; 4]), p, 5.0 * (p * (1.0_f64 - p) / 1e6).sqrt());
        }
    }

    /// Same seed, same result, whatever the threads; every draw is in a bar; odd counts are counted whole.
    #[test]
    fn same_seed_same_result() {
        let chain = chain(&FLOAT, Distribution::Normal);
        let limits = chain.worst_case();
        for count in [1, 7, 1_000, 100_003] {
            let trials = Trials { seed: 3, count };
            let run = |threads| {
                let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
                pool.install(|| simulate(&chain, limits, trials).unwrap())
            };
            let (one, three) = (run(1), run(3));
            assert_eq!(one, three);
            let bars = one.histogram(40);
            assert!(bars.len() <= 40);
            assert_eq!(bars.iter().map(|b| b.count).sum::<u64>(), u64::from(count));
            assert!(one.smallest <= one.mean && one.mean <= one.largest);
        }
        let other = simulate(&chain, limits, Trials { seed: 4, count: 1000 }).unwrap();
        assert_ne!(other.mean, simulate(&chain, limits, Trials { seed: 3, count: 1000 }).unwrap().mean);
    }

    #[test]
    fn measured_members_and_temperature() {
        let aluminium = Some(Expansion::per_million_kelvin(23.6));
        let steel = Some(Expansion::per_million_kelvin(11.7));
        let made = |name: &str, direction, value, instrument, expansion| Member {
            name: name.to_owned(),
            direction,
            size: Size::Measured(Measured::by(mm(value), instrument)),
            expansion,
        };
        let housing = made("housing", Direction::Adds, 80.0, Instrument::DepthMicrometer, aluminium);
        let sleeve = made("sleeve", Direction::Subtracts, 79.9, Instrument::Micrometer, steel);
        let chain = Chain::new(vec![housing, sleeve]).unwrap();
        near("worst", chain.worst_case().max.as_mm(), 0.1 + 0.015 + 0.005, 1e-9);
        // 80 mm of aluminium over steel gains 0.05712 mm in 60 K (independent script); 0.1 mm less steel here.
        let warm = chain.change_at(Temperature::celsius(80.0)).unwrap().as_mm();
        near("gain", warm, 0.05712 + 0.1 * 11.7e-6 * 60.0, 1e-9);
        assert!(chain.change_at(Temperature::celsius(-280.0)).is_err());
    }

    #[test]
    fn guard_bands_and_instruments() {
        let limits = Range { min: mm(0.05), max: mm(0.15) };
        let inside = acceptance_limits(limits, mm(0.015)).unwrap();
        near("pulled in", inside.min.as_mm(), 0.065, 1e-12);
        near("pulled in", inside.max.as_mm(), 0.135, 1e-12);
        assert!(acceptance_limits(limits, mm(0.06)).is_err());
        use Instrument::*;
        let good = |share| {
            let fits = |i: &Instrument| good_enough(limits, i.expanded_uncertainty().value, share).unwrap();
            Instrument::ALL.into_iter().filter(fits).collect::<Vec<_>>()
        };
        assert_eq!(good(0.1), [DialIndicator, Micrometer]);
        assert_eq!(good(0.2), [Feeler, DepthMicrometer, DialIndicator, Micrometer]);
        assert!(good_enough(Range { min: mm(1.0), max: mm(0.0) }, mm(0.01), 0.1).is_err());
    }

    #[test]
    fn nonsense_is_refused_in_words() {
        let uniform = Distribution::Uniform;
        let text = |members: Vec<Member>| Chain::new(members).unwrap_err().to_string();
        let open = "the chain does not close: it needs members that add to the float and members that take from it";
        assert_eq!(text(vec![]), open);
        assert_eq!(text(vec![member("a", 1.0, 5.0, 0.1, uniform), member("b", 1.0, 5.0, 0.1, uniform)]), open);
        assert_eq!(
            text(vec![member("a", 1.0, 5.0, -0.1, uniform)]),
            "a lower deviation must be smaller than the upper one"
        );
        assert_eq!(text(vec![member("a", 1.0, f64::NAN, 0.1, uniform)]), "a member's size is not a number");
        let chain = chain(&FLOAT, uniform);
        assert!(simulate(&chain, chain.worst_case(), Trials { seed: 0, count: 0 }).is_err());
        assert!(chain.change_at(Temperature::celsius(30.0)).is_err(), "no expansions given");
    }
}

mod tubes_under_bolts {
    use super::*;
    use setdown::formulas::tubes::{Across, Tube, column};

    fn round(outside: f64, wall: f64) -> Tube {
        Tube { across: Across::Round(mm(outside)), wall: mm(wall) }
    }

    fn flat(through: f64, width: f64, wall: f64) -> Tube {
        Tube { across: Across::Flat { through: mm(through), width: mm(width) }, wall: mm(wall) }
    }

    /// Ring under two opposite forces: greatest moment W R/pi under the force (Roark's Formulas for Stress and Strain,
    /// circular rings, case 1; from memory). R 50, t 3, 24 long: M = 235 x 24 x 9/6 = 8460 N mm, W = 531.6 N.
    #[test]
    fn a_squeezed_ring_yields() {
        let got = round(103.0, 3.0).yields_from(Stress::mpa(235.0), 0.3, mm(24.0)).unwrap();
        close("pull", got.as_newtons(), 8460.0 * std::f64::consts::PI / 50.0, 1e-9);
    }

    /// Round plate loaded round its hole, outer edge free to turn: σ = k P/t², k = 1.48 for a/b = 2 (Timoshenko, Theory of
    /// Plates and Shells, 2nd edition, section 17, table 3). Inside 60 wide, washer 30: P = 235 x 9/1.48.
    #[test]
    fn a_squeezed_flat_wall_yields() {
        let got = flat(80.0, 66.0, 3.0).yields_from(Stress::mpa(235.0), 0.3, mm(30.0)).unwrap();
        close("pull", got.as_newtons(), 235.0 * 9.0 / 1.48, 5e-3);
    }

    /// (l/k)1 = 90.4 at Sy 500 MPa, E 207 GPa, where Johnson's parabola meets Euler's curve at Sy/2
    /// (Shigley, Mechanical Engineering Design, columns, from memory).
    #[test]
    fn parabola_and_euler_meet() {
        let (yields, modulus) = (Stress::mpa(500.0), Stress::gpa(207.0));
        // k of 30 x 40 is 12.5 mm.
        let at = |slender: f64| column(mm(40.0), mm(30.0), mm(slender * 12.5), yields, modulus).unwrap().as_mpa();
        near("half of the yield strength", at(90.4), 250.0, 0.2);
        close("a quarter at twice that", at(180.8), 62.5, 1e-3);
        close("short", at(1.0), 500.0, 1e-3);
        close("1 - 1/8", at(45.2), 437.5, 1e-3);
    }

    /// Second moments of a tube in thin strips, those of the openings left out: no closed form.
    fn by_strips(inside: impl Fn(f64, f64) -> bool, half: f64) -> [f64; 2] {
        let (mut towards, mut sideways) = (0.0, 0.0);
        let step = half / 1500.0;
        for i in -1500..1500 {
            for j in -1500..1500 {
                let (y, z) = ((f64::from(i) + 0.5) * step, (f64::from(j) + 0.5) * step);
                if inside(y, z) {
                    towards += z * z;
                    sideways += y * y;
                }
            }
        }
        [towards, sideways]
    }

    #[test]
    fn what_a_hole_leaves_is_what_strips_add_up_to() {
        let (h, b, t, d) = (60.0, 80.0, 3.0, 22.5);
        let wall =
            |y: f64, z: f64| y.abs() < b / 2.0 && z.abs() < h / 2.0 && (y.abs() > b / 2.0 - t || z.abs() > h / 2.0 - t);
        let [whole, across] = by_strips(wall, 40.0);
        let [left, sideways] = by_strips(|y, z| wall(y, z) && y.abs() >= d / 2.0, 40.0);
        let got = flat(h, b, t).left_by(mm(d)).unwrap();
        near("flat, towards", got.towards, left / whole, 2e-3);
        near("flat, sideways", got.sideways, sideways / across, 2e-3);

        let ring = |y: f64, z: f64| (57.0..60.0).contains(&libm::hypot(y, z));
        let [whole, across] = by_strips(ring, 60.0);
        let [left, sideways] = by_strips(|y, z| ring(y, z) && y.abs() >= 20.0, 60.0);
        let got = round(120.0, 3.0).left_by(mm(40.0)).unwrap();
        // A thin ring stands for one of 3 in 60.
        near("round, towards", got.towards, left / whole, 5e-3);
        near("round, sideways", got.sideways, sideways / across, 5e-3);
    }

    /// The point lies on both surfaces: on the tube by its own equation, on the sleeve by its distance from the sleeve's axis.
    #[test]
    fn a_fitted_end_lies_on_both() {
        for (lean, around) in [(0.0, 0.0), (0.0, 90.0), (20.0, 0.0), (20.0, 70.0), (-35.0, 130.0), (50.0, 180.0)] {
            let (r, big) = (11.0, 30.0);
            let (b, f) = (f64::to_radians(lean), f64::to_radians(around));
            // Sleeve's axis in the plane of the tube's axis x and z; a point round it at the distance r.
            let point = |t: f64| {
                [
                    t * libm::sin(b) + r * libm::cos(f) * libm::cos(b),
                    r * libm::sin(f),
                    t * libm::cos(b) - r * libm::cos(f) * libm::sin(b),
                ]
            };
            let at = |tube: Tube| tube.meets(mm(22.0), Angle::degrees(lean), Angle::degrees(around)).unwrap().as_mm();
            let [_, y, z] = point(at(round(60.0, 3.0)));
            near("round", libm::hypot(y, z), big, 1e-9);
            near("flat", point(at(flat(60.0, 60.0, 3.0)))[2], big, 1e-9);
        }
    }
}

/// Every formula whose comment states where it holds, worked just inside and just outside: outside it says that it cannot tell.
/// The bounds are those of the comments and of the sources there.
mod clamps {
    use super::*;

    /// Roloff/Matek, Maschinenelemente, clamped connections (from memory): K = 1 evenly, π²/8 by the cosine, π/2 in two lines, of the
    /// torque µ π N D/(2 K). And by integration of the pressure over half of the tube that balances the pull.
    #[test]
    fn ways_of_touching() {
        let n = 100_000;
        let angle = |i: u32| ((f64::from(i) + 0.5) / f64::from(n) - 0.5) * std::f64::consts::PI;
        let over = |pressure: &dyn Fn(f64) -> f64| {
            let sum = |f: &dyn Fn(f64) -> f64| (0..n).map(|i| f(angle(i))).sum::<f64>();
            sum(pressure) / sum(&|a| pressure(a) * a.cos())
        };
        near("evenly", Lies::Evenly.factor(), over(&|_| 1.0), 1e-8);
        near("by the cosine", Lies::ByCosine.factor(), over(&f64::cos), 1e-8);
        for (lies, k) in [
            (Lies::Evenly, 1.0),
            (Lies::ByCosine, std::f64::consts::PI.powi(2) / 8.0),
            (Lies::InLines, std::f64::consts::PI / 2.0),
        ] {
            let torque = clamp::slip_torque(Force::newtons(10_000.0), lies, 0.15, mm(30.0)).unwrap();
            let printed = 0.15 * std::f64::consts::PI * 10_000.0 * 0.030 / (2.0 * k);
            close("torque", torque.as_newton_metres(), printed, 1e-12);
        }
        // A band drawn with S at each end of its slit presses S/(r w) all round: µ π S D; two halves with S on each side are that band.
        let both = clamp::pressed_by(Force::newtons(10_000.0), Parted::InHalves, mm(19.0), mm(25.0)).unwrap();
        let torque = clamp::slip_torque(both, Lies::Evenly, 0.15, mm(30.0)).unwrap();
        close("band", torque.as_newton_metres(), 0.15 * std::f64::consts::PI * 5000.0 * 0.030, 1e-12);
        // Lever about the hinge: 19 to the tube, 19 + 25 to the screw.
        let one = clamp::pressed_by(Force::newtons(1900.0), Parted::Once, mm(19.0), mm(25.0)).unwrap();
        near("hinge", one.as_newtons(), 4400.0, 1e-9);
    }

    fn ring(screw: f64) -> SlitRing {
        SlitRing { bore: mm(36.0), outside: mm(44.0), width: mm(20.0), screw: mm(screw), modulus: Stress::gpa(206.0) }
    }

    /// Timoshenko, Strength of Materials, thin slit ring pulled apart at its ends (piston ring; from memory): δ = 3 π P R³/(E I), greatest
    /// moment 2 P R. And a circumference that must be shorter by π c.
    #[test]
    fn a_slit_ring() {
        let inertia = 20.0 * 64.0 / 12.0;
        let by = 3.0 * std::f64::consts::PI * 100.0 * 8000.0 / (206_000.0 * inertia);
        close("closes", ring(20.0).closes_by(Force::newtons(100.0)).unwrap().as_mm(), by, 1e-12);
        close(
            "bent",
            ring(20.0).bent_by(Force::newtons(100.0)).unwrap().as_mpa(),
            2.0 * 100.0 * 20.0 / (20.0 * 16.0 / 6.0),
            1e-12,
        );
        let pull = ring(20.0).pull_to_close(mm(0.2)).unwrap();
        close("pull", pull.as_newtons(), 100.0 * std::f64::consts::PI * 0.2 / by, 1e-12);
        near("gap", clamp::gap_closes(mm(0.2), Parted::Once).as_mm(), std::f64::consts::PI * (20.2 - 20.0), 1e-12);
        near("gap of halves", clamp::gap_closes(mm(0.2), Parted::InHalves).as_mm(), 0.2, 1e-12);
        let left = ring(20.0).clearance_that_leaves(pull * 3.0, pull).unwrap().unwrap();
        close("clearance", left.as_mm(), 0.4, 1e-9);
        assert_eq!(ring(20.0).clearance_that_leaves(pull, pull * 2.0).unwrap(), None);
    }

    /// A beam of 20 x 10 mm loaded 20 mm out; a boiler of 30 mm and 2 mm of wall under 16.67 MPa; 3, 4 and 5.
    #[test]
    fn ear_tube_and_what_is_asked() {
        let ear = clamp::ear_bending(Force::newtons(1000.0), mm(20.0), mm(20.0), mm(10.0)).unwrap();
        near("ear", ear.as_mpa(), 20_000.0 / (20.0 * 100.0 / 6.0), 1e-9);
        let tube = clamp::tube_squeezed(Force::newtons(10_000.0), mm(20.0), mm(2.0)).unwrap();
        near("tube", tube.as_mpa(), 10_000.0 / (30.0 * 20.0) * 30.0 / (2.0 * 2.0), 1e-9);
        let asked = clamp::asked(Torque::newton_metres(30.0), Force::newtons(1500.0), mm(30.0)).unwrap();
        near("asked", asked.as_newtons(), 2500.0, 1e-9);
    }
}

mod bushes {
    use super::*;

    fn speed(mm: f64, rpm: f64) -> CuttingSpeed {
        Motion::Turns(SpindleSpeed::rpm(rpm)).speed(Length::mm(mm)).unwrap()
    }

    fn fpm(v: CuttingSpeed) -> f64 {
        v.as_m_per_min() / 0.3048
    }

    /// psi ft/min.
    fn as_printed(p: Stress, v: CuttingSpeed) -> f64 {
        plain_bearing::pressure_speed(p, v) / (6894.757e-6 * 0.3048 / 60.0)
    }

    /// Mott, Machine Elements in Mechanical Design, example of section 16-4 (from memory): 150 lb on 1.50 in x 1.50 in at 500 rpm:
    /// 66.7 psi, 196 ft/min, 13 100 psi ft/min. A maker of plastic bearings prints: 35 lb, 5/8 in x 1-1/32 in, 120 rpm: 54.3 psi,
    /// 19.635 ft/min, 1066.2 psi ft/min.
    #[test]
    fn pressure_and_speed_of_printed_examples() {
        for (pounds, bore, long, rpm, p, v, pv) in [
            (150.0, 1.5, 1.5, 500.0, (66.67, 0.01), (196.35, 0.01), (13_090.0, 1.0)),
            (35.0, 0.625, 1.03125, 120.0, (54.3, 0.01), (19.635, 0.001), (1066.2, 0.2)),
        ] {
            let (load, bore, long) = (Force::pounds_force(pounds), Length::inches(bore), Length::inches(long));
            let pressure = plain_bearing::pressure(load, bore, long).unwrap();
            let v_is = speed(bore.as_mm(), rpm);
            near("psi", pressure.as_psi(), p.0, p.1);
            near("ft/min", fpm(v_is), v.0, v.1);
            near("psi ft/min", as_printed(pressure, v_is), pv.0, pv.1);
        }
    }

    /// Shigley, Mechanical Engineering Design, example of section 12-15 (from memory): brass bush with solid lubricant, 1 in x 1 in,
    /// 700 lbf, 33 ft/min, K 0.6e-10 in³ min/(lbf ft h), motion factor 1.3, wear 0.005 in: 2180 h.
    #[test]
    fn wear_of_a_printed_example() {
        let inch = Length::inches(1.0);
        let pressure = plain_bearing::pressure(Force::pounds_force(700.0), inch, inch).unwrap();
        let factor = plain_bearing::wear_factor_from_inch(1.3 * 0.6e-10);
        let v = CuttingSpeed::m_per_min(33.0 * 0.3048);
        let hours = plain_bearing::wear_life(Length::inches(0.005), factor, pressure, v).unwrap();
        close("hours", hours, 2180.0, 0.001);
    }

    /// A maker of filled plastics prints the same factors in both systems, 1e-10 in³ min/(ft lb h) and 1e-8 mm³/(N m): 13 and 26,
    /// 132 and 265, 228 and 459, 106 and 213.
    #[test]
    fn wear_factors_in_both_units() {
        for (inch, metric) in [(13.0, 26.0), (132.0, 265.0), (228.0, 459.0), (106.0, 213.0)] {
            near("k", plain_bearing::wear_factor_from_inch(inch * 1e-10) * 1e8, metric, 1.0);
        }
    }

    /// A swing of 70 degrees there and back ten times a minute on 20 mm, its way summed up in small steps; a ring that is cut into
    /// thin ones, moment by moment; the pressure on it by load over area.
    #[test]
    fn ways_and_rings_summed_up() {
        let mut way = 0.0;
        let at = |i: u32| 35.0_f64.to_radians() * (f64::from(i) / 10_000.0 * std::f64::consts::TAU * 10.0).cos();
        for i in 0..10_000 {
            way += (at(i + 1) - at(i)).abs() * 10.0;
        }
        let swings = Motion::Swings(Angle::degrees(70.0), 10.0).speed(mm(20.0)).unwrap();
        close("way in a minute, mm", swings.as_m_per_min() * 1000.0, way, 1e-4);
        let (mut moment, mut area) = (0.0, 0.0);
        for i in 0..20_000 {
            let r = 10.0 + 8.0 * (f64::from(i) + 0.5) / 20_000.0;
            moment += r * r;
            area += r;
        }
        let rubs = plain_bearing::rubbing_diameter(mm(20.0), mm(36.0)).unwrap();
        close("rubs at", rubs.as_mm(), 2.0 * moment / area, 1e-6);
        let p = plain_bearing::thrust_pressure(Force::newtons(400.0), mm(20.0), mm(36.0)).unwrap();
        close("washer", p.as_mpa(), 400.0 / (std::f64::consts::PI * (18.0 * 18.0 - 100.0)), 1e-12);
        // 1500 N, 0.1: 150 N at 10 mm; 0.5 m/s make 75 W.
        let torque = plain_bearing::friction_torque(Force::newtons(1500.0), 0.1, mm(20.0));
        near("N m", torque.as_newton_metres(), 1.5, 1e-12);
        near(
            "W",
            plain_bearing::friction_watts(Force::newtons(1500.0), 0.1, CuttingSpeed::m_per_min(30.0)),
            75.0,
            1e-9,
        );
    }
}

mod ranges {
    use super::*;
    use setdown::formulas::bracket::bearing;
    use setdown::formulas::columns::{Flat, buckling};
    use setdown::formulas::frame::capture::yaw_limit;
    use setdown::formulas::frame::contact::relieved_cone_rise;
    use setdown::formulas::frame::hinged::pitched_shift;
    use setdown::formulas::seating::bedding::{Bedding, Contact, Rim, Touch, Wall};
    use setdown::formulas::seating::{Seat, release_force};
    use setdown::formulas::strength::{RoundSection, holed_plate_bending, spread_hole, weld_strength};
    use setdown::formulas::tubes::{Across, Tube, column};
    use setdown::formulas::turning::{Load, least_grip, roller_rise, tailstock_setover};
    use setdown::formulas::{tabs, tipping};
    use setdown::standards::iso286::{self, ToleranceClass};
    use setdown::standards::processes::{cut_deviation, cut_squareness, laser_minutes};
    use setdown::standards::{coatings, iso2768, stock};

    fn deg(value: f64) -> Angle {
        Angle::degrees(value)
    }

    /// A row of 24 rollers of 2.5 x 12 mm on a track of 25 mm of so stiff a material.
    fn row(gpa: f64) -> RollerRow {
        let (roller_diameter, effective_length, track) = (mm(2.5), mm(12.0), mm(25.0));
        RollerRow {
            roller_diameter,
            effective_length,
            count: 24,
            track,
            roller: BEARING_STEEL,
            raceway: elastic(gpa, 0.3),
        }
    }

    /// A sharp ring of 40 mm in a plate of 8 mm on a cone of 30 degrees.
    fn ring() -> Contact {
        let wall = Wall { from: mm(0.0), to: mm(8.0), diameter: mm(40.0), half_angle: deg(0.0), rim: Rim::Sharp };
        let height = mm(20.0 / (2.0 * deg(30.0).tan()));
        let seat = Seat { height, contact_diameter: mm(40.0), corner: 0, near: 1 };
        Contact { base: mm(60.0), half_angle: deg(30.0), seat, walls: vec![wall], touch: Touch::Ring }
    }

    fn class(name: &str, size: f64) -> bool {
        iso286::limits(mm(size), ToleranceClass::parse(name).unwrap()).is_ok()
    }

    /// What it is, whether it tells just inside, whether it tells just outside.
    fn all() -> Vec<(&'static str, bool, bool)> {
        let newtons = Force::newtons;
        let plate = |t: f64| holed_plate_bending(newtons(1000.0), mm(60.0), mm(20.0), mm(t), 0.3).is_ok();
        let spread = |edge: f64| spread_hole(newtons(1000.0), deg(30.0), mm(40.0), mm(edge), mm(8.0)).is_ok();
        let bored = |bore: f64| RoundSection { outside: mm(20.0), bore: mm(bore) }.along(newtons(1.0)).is_ok();
        let thread = |d: f64| engagement(newtons(1000.0), mm(d), Stress::mpa(235.0)).is_ok();
        let share = |s: f64| preload(Area::mm2(84.3), Stress::mpa(580.0), s).is_ok();
        // b = R/5 where the peak pressure is E*/10: w = π R E*/100.
        let line = |share: f64| {
            let load = newtons(share * std::f64::consts::PI * 1000.0);
            LineContact::new(load, mm(1.0), mm(1.0), Stress::mpa(100_000.0)).is_ok()
        };
        let factor = |gpa: f64| row(gpa).load_factor(newtons(6000.0), mm(0.02)).is_ok();
        let shut = |um: f64| row(206.0).load_factor(newtons(6000.0), Length::um(um)).is_ok();
        // Mean pressure π p0/4 against 9.80665 x 130 MPa.
        let all_plastic = |share: f64| {
            let of = row(206.0);
            let peak = Stress::mpa(share * 4.0 * 9.806_65 * 130.0 / std::f64::consts::PI);
            let one = LineContact::at_pressure(
                peak,
                of.relative_radius().unwrap(),
                contact_modulus(&of.roller, &of.raceway).unwrap(),
            );
            of.dent(one.unwrap().force_on(of.effective_length), Hardness::Vickers(130.0)).is_ok()
        };
        let within = |f: f64| coverage_factor(None, f).is_ok();
        let grip = |d: f64| least_grip(mm(d), mm(10.0), Load::Heavy).is_some();
        let sticks = |a: f64| release_force(newtons(1.0), deg(a), 0.2).is_some();
        let beds = |kn: f64| {
            !matches!(ring().bedding(newtons(kn * 1e3), Stress::mpa(235.0), Stress::gpa(115.0)), Bedding::Beyond)
        };
        let rise = |h: f64| roller_rise(mm(h), deg(30.0), mm(10.0), mm(1.0)).is_some();
        let pitch = |a: f64| pitched_shift(mm(40.0), deg(30.0), deg(a)).is_some();
        let arc = |a: f64| relieved_cone_rise(mm(1.0), deg(10.0), deg(a), mm(40.0)).is_ok();
        let press = |far: f64| press(10.0, 20.0, far, 20.0, elastic(206.0, 0.3)).pressure(mm(0.01)).is_ok();
        let poisson = |nu: f64| elastic(206.0, nu).check().is_ok();
        let tube = |wall: f64| Tube { across: Across::Round(mm(60.0)), wall: mm(wall) };
        let ring = |wall: f64| tube(wall).yields_from(Stress::mpa(235.0), 0.3, mm(20.0)).is_ok();
        let meets = |d: f64, lean: f64| tube(3.0).meets(mm(d), deg(lean), deg(10.0)).is_ok();
        let holed = |d: f64| tube(2.0).left_by(mm(d)).is_ok();
        let hollow = |bore: f64| column(mm(20.0), mm(bore), mm(60.0), Stress::mpa(235.0), Stress::gpa(206.0)).is_ok();
        let bears = |e: f64, p: f64| {
            let fu = (Stress::mpa(360.0), Stress::mpa(800.0));
            bearing(mm(10.0), mm(9.0), mm(5.0), mm(e), Some(mm(p)), fu).is_some()
        };
        let washer = |d: f64| {
            plain_bearing::thrust_pressure(newtons(1.0), mm(d), mm(20.0)).is_ok()
                && plain_bearing::rubbing_diameter(mm(d), mm(20.0)).is_ok()
        };
        let slit = |outside: f64| {
            let modulus = Stress::gpa(206.0);
            SlitRing { bore: mm(40.0), outside: mm(outside), width: mm(20.0), screw: mm(40.0), modulus }
                .closes_by(newtons(1.0))
                .is_ok()
        };
        let hinged = |e: f64| clamp::pressed_by(newtons(1.0), Parted::Once, mm(20.0), mm(e)).is_ok();
        let wears =
            |k: f64| plain_bearing::wear_life(mm(0.1), k, Stress::mpa(1.0), CuttingSpeed::m_per_min(1.0)).is_ok();
        let slender = |s: f64| buckling(s, Stress::mpa(235.0), Stress::gpa(206.0)).is_ok();
        let pressed = |share: f64| {
            let bar = Flat { thick: mm(8.0), wide: mm(60.0) };
            bar.pressed_and_bent(newtons(share * 1000.0), newtons(1000.0), Stress::mpa(1.0)).is_ok()
        };
        let tab =
            |hole: f64| tabs::Tab { thick: mm(8.0), high: mm(40.0) }.pulled(newtons(1.0), mm(hole), mm(10.0)).is_ok();
        let tips = |slope: f64| tipping::safety(mm(1.0), mm(1.0), deg(slope), 0.1).is_ok();
        let drives = |taper: f64| tabs::wedge_drives(newtons(1.0), deg(taper), 0.1).is_ok();
        let round = |n: u32| flange::bolt_pull(newtons(1.0), Torque::newton_metres(1.0), n, mm(90.0)).is_ok();
        let groove = |d: f64| o_ring::fill(mm(3.53), mm(5.0), mm(d)).is_ok();
        let laser = |t: f64| laser_minutes(mm(1000.0), 3, mm(t)).is_some();
        vec![
            ("slenderness above nought", slender(0.1), slender(0.0)),
            ("a bar pressed below its buckling load", pressed(0.999), pressed(1.0)),
            ("hole of a wedge in its tab", tab(39.9), tab(40.0)),
            ("slope on which something stands", tips(89.9), tips(90.0)),
            ("friction of a wedge", tabs::wedge_holds(0.99, 0.1).is_ok(), tabs::wedge_holds(1.0, 0.1).is_ok()),
            ("taper of a wedge that slides in", drives(84.2), drives(84.3)),
            (
                "travel of a wedge",
                tabs::wedge_travel(mm(1.0), deg(89.9)).is_ok(),
                tabs::wedge_travel(mm(1.0), deg(90.0)).is_ok(),
            ),
            (
                "plate cut from strip, thin end",
                stock::strip_limits(mm(1.0)).is_some(),
                stock::strip_limits(mm(0.99)).is_some(),
            ),
            (
                "plate cut from strip, thick end",
                stock::strip_limits(mm(25.0)).is_some(),
                stock::strip_limits(mm(25.1)).is_some(),
            ),
            ("squeezed ring that is thin", ring(5.45), ring(5.46)),
            ("sleeve in a round tube", meets(60.0, 0.0), meets(60.1, 0.0)),
            ("lean of a sleeve", meets(20.0, 59.9), meets(20.0, 60.0)),
            ("hole in a round tube", holed(57.9), holed(58.0)),
            ("bore of a column", hollow(19.9), hollow(20.0)),
            ("bending of a thin plate", plate(30.0), plate(30.1)),
            ("hoop of a spread hole", spread(20.1), spread(20.0)),
            ("a round section", bored(19.9), bored(20.0)),
            ("engagement of a thread", thread(4.0), thread(3.9)),
            ("share of the proof stress", share(1.0), share(1.01)),
            ("contact small against the radii", line(0.99), line(1.01)),
            ("load factor of steel, soft end", factor(190.0), factor(189.0)),
            ("load factor of steel, stiff end", factor(220.0), factor(221.0)),
            ("load factor without preload", shut(0.0), shut(-1.0)),
            ("dent that is plastic all over", all_plastic(1.01), all_plastic(0.99)),
            (
                "Rockwell C, hard end",
                Hardness::RockwellC(68.0).vickers().is_ok(),
                Hardness::RockwellC(68.1).vickers().is_ok(),
            ),
            (
                "Rockwell C, soft end",
                Hardness::RockwellC(20.0).vickers().is_ok(),
                Hardness::RockwellC(19.9).vickers().is_ok(),
            ),
            (
                "Vickers, hard end",
                Hardness::Vickers(1000.0).vickers().is_ok(),
                Hardness::Vickers(1001.0).vickers().is_ok(),
            ),
            ("Vickers, soft end", Hardness::Vickers(50.0).vickers().is_ok(), Hardness::Vickers(49.0).vickers().is_ok()),
            ("Brinell as Vickers", Hardness::parse("350 HB").is_ok(), Hardness::parse("351 HB").is_ok()),
            (
                "raceway class",
                raceway_class(mm(160.0), ClearanceWanted::Normal).is_ok(),
                raceway_class(mm(160.1), ClearanceWanted::Normal).is_ok(),
            ),
            ("coverage factor", within(0.9999), within(0.99995)),
            ("growth small against the size", Strain::new(0.05).is_ok(), Strain::new(0.0501).is_ok()),
            ("wall of a press fit", press(20.1), press(20.0)),
            ("Poisson's ratio", poisson(0.49), poisson(0.5)),
            ("grip in a chuck, small end", grip(3.0), grip(2.9)),
            ("grip in a chuck, large end", grip(200.0), grip(200.1)),
            (
                "set-over that centres bear",
                tailstock_setover(mm(500.0), 0.04).is_borne(),
                tailstock_setover(mm(500.0), 0.0401).is_borne(),
            ),
            ("room for raised rollers", rise(3.51), rise(3.49)),
            ("a cone that sticks", sticks(11.3), sticks(11.4)),
            ("a rim that beds in", beds(10.0), beds(200.0)),
            ("pitch below the flank", pitch(29.9), pitch(30.0)),
            ("pitch not below nought", pitch(0.0), pitch(-0.1)),
            ("a relieved cone", arc(89.9), arc(90.0)),
            ("yaw of a set", yaw_limit(mm(0.0), mm(1.0)).is_ok(), yaw_limit(mm(-0.1), mm(1.0)).is_ok()),
            ("H7, large end", class("H7", 3150.0), class("H7", 3151.0)),
            (
                "general tolerance",
                iso2768::general_tolerance(iso2768::GeneralClass::Medium, mm(0.5)).is_ok(),
                iso2768::general_tolerance(iso2768::GeneralClass::Medium, mm(0.49)).is_ok(),
            ),
            ("squareness of a cut, thin end", cut_squareness(mm(0.5)).is_some(), cut_squareness(mm(0.49)).is_some()),
            ("squareness of a cut, thick end", cut_squareness(mm(32.0)).is_some(), cut_squareness(mm(32.1)).is_some()),
            (
                "deviation of a cut",
                cut_deviation(mm(1999.0), mm(8.0)).is_some(),
                cut_deviation(mm(2000.0), mm(8.0)).is_some(),
            ),
            ("ring of a thrust washer", washer(19.9), washer(20.0)),
            ("ring that bends as a thin one", slit(66.6), slit(66.7)),
            ("screws outside the ring", hinged(20.0), hinged(19.9)),
            ("wear factor above nought", wears(1e-9), wears(0.0)),
            ("bearing beside an edge", bears(12.0, 30.0), bears(11.9, 30.0)),
            ("bearing beside a hole", bears(20.0, 24.0), bears(20.0, 23.9)),
            ("bolts of a round flange", round(3), round(2)),
            ("groove of an O-ring", groove(0.1), groove(0.0)),
            ("time of a cut, thin end", laser(0.5), laser(0.49)),
            ("time of a cut, thick end", laser(20.0), laser(20.1)),
            (
                "zinc by thickness",
                coatings::hot_dip_zinc(mm(1.0)).is_some(),
                coatings::hot_dip_zinc(mm(f64::NAN)).is_some(),
            ),
            (
                "bars that are sold",
                stock::next_bar(mm(200.0), LengthUnit::Mm).is_some(),
                stock::next_bar(mm(200.1), LengthUnit::Mm).is_some(),
            ),
        ]
    }

    #[test]
    fn nothing_is_told_outside() {
        let wrong: Vec<&str> =
            all().into_iter().filter(|(_, inside, outside)| !inside || *outside).map(|(what, ..)| what).collect();
        assert!(wrong.is_empty(), "{wrong:?}");
    }

    /// Where the table of EN 1993-1-8 ends, at S460 with 550 MPa, a weld gains nothing more: 550/(√3 x 1.0 x 1.25) = 254 MPa.
    #[test]
    fn a_weld_is_no_stronger_than_the_table() {
        let at = |mpa: f64| weld_strength(Stress::mpa(mpa)).as_mpa();
        near("S460", at(550.0), 254.03, 0.01);
        assert!(at(540.0) < at(550.0));
        assert_eq!(at(551.0), at(550.0));
        assert_eq!(at(1100.0), at(550.0));
    }
}

/// Lengths of chords for spacing off a circle of diameter 1, as machinery handbooks tabulate them.
#[test]
fn dividers_for_a_bolt_circle() {
    for (holes, of_one) in [(3, 0.866_03), (5, 0.587_79), (6, 0.5), (8, 0.382_68), (12, 0.258_82)] {
        let found = chord(Length::mm(1000.0), holes).as_mm() / 1000.0;
        assert!((found - of_one).abs() < 6e-6, "{holes}: {found}");
    }
}
