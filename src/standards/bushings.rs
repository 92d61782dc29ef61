//! What a bush of a material bears: pressure, sliding speed, their product, heat, and how fast it wears.
//!
//! Figures for slow, greased or dry running on a smooth steel shaft, in a clean place; bushes of makers may bear more.

use crate::source::Confirmed::{self, Memory as M, One as O, TwoOrMore as T};
use crate::units::{CuttingSpeed, Stress, Temperature};

/// A figure with its source.
type Of<V> = (V, Confirmed, &'static str);

/// A material as a bush.
#[derive(Clone, Copy, Debug)]
pub struct Bushing {
    /// As in the table of materials.
    pub material: &'static str,
    /// Greatest mean pressure at rest or in slow motion.
    pub pressure: Of<Stress>,
    /// Greatest sliding speed.
    pub speed: Of<CuttingSpeed>,
    /// Greatest pressure times speed, MPa m/s.
    pub pressure_speed: Of<f64>,
    /// As warm as it runs.
    pub warmest: Of<Temperature>,
    /// Wear factor, mm³/(N m); none where none was found.
    pub wear_factor: Option<Of<f64>>,
    /// Coefficient of friction, greased (metal) or dry (plastic), least and greatest.
    pub friction: Of<(f64, f64)>,
    /// Least hardness of the shaft, HV; none where any steel does.
    pub shaft: Option<Of<f64>>,
    /// Least running clearance as a share of the diameter.
    pub clearance: Of<f64>,
    /// It is greased.
    pub greased: bool,
}

/// 1 psi ft/min in MPa m/s. Source: 6894.757 Pa, 0.3048 m, exact.
const PSI_FPM: f64 = 6894.757e-6 * 0.3048 / 60.0;
/// 1 in³ min/(lbf ft h) in mm³/(N m).
const WEAR: f64 = 16_387.064 / (60.0 * 4.448_222 * 0.3048);

const fn psi(value: f64) -> Stress {
    Stress::mpa(value * 6894.757e-6)
}
const fn fpm(value: f64) -> CuttingSpeed {
    CuttingSpeed::m_per_min(value * 0.3048)
}

const MOTT: &str = "Mott, Machine Elements in Mechanical Design, table 16-1";
const WEARS: &str = "Shigley, Mechanical Engineering Design, table 12-8, from memory";
const SELLER: &str = "a seller of cast bronze: P 3000 psi, V 750 ft/min, pV 75 000, 500 °F (260 °C) at most";
const PLASTIC: &str = "from memory: tables of plastic bearing stock";
const GREASED: &str = "common practice, no source";

#[rustfmt::skip]
const TABLE: &[Bushing] = &[
    Bushing {
        material: "bronze C93200",
        pressure: (psi(3000.), O, SELLER),
        speed: (fpm(750.), O, SELLER),
        pressure_speed: (75_000. * PSI_FPM, T, "Mott, table 16-1 (SAE 660); a seller of cast bronze"),
        warmest: (Temperature::celsius(120.), M, "common practice: the grease, not the bronze, which stands 260 °C"),
        wear_factor: None,
        friction: (( 0.08, 0.16), M, "from memory: bronze on steel, greased, slow"),
        shaft: Some((125., M, "common practice: as soft as cold-drawn steel at least; hard and ground where it runs all day")),
        clearance: (0.001, O, "bush makers: 0.001 to 0.0015 of the bore"),
        greased: true,
    },
    Bushing {
        material: "brass C36000",
        pressure: (psi(2000.), M, GREASED),
        speed: (fpm(400.), M, GREASED),
        pressure_speed: (25_000. * PSI_FPM, M, "common practice: a third of leaded tin bronze"),
        warmest: (Temperature::celsius(120.), M, "common practice: the grease"),
        wear_factor: None,
        friction: ((0.11, 0.19), O, "friction table of a bearing shop"),
        shaft: Some((200., M, "common practice: brass is hard on a soft shaft")),
        clearance: (0.001, M, GREASED),
        greased: true,
    },
    Bushing {
        material: "acetal",
        pressure: (psi(1440.), M, PLASTIC),
        speed: (fpm(500.), M, PLASTIC),
        pressure_speed: (3000. * PSI_FPM, M, "Shigley, table 12-8 (polyactal homopolymer), from memory"),
        warmest: (Temperature::celsius(82.), M, PLASTIC),
        wear_factor: Some((60e-10 * WEAR, M, WEARS)),
        friction: ((0.10, 0.30), O, "Shackelford, materials handbook, table 399"),
        shaft: None,
        clearance: (0.004, M, "common practice: 0.4 to 0.5 % for plastic"),
        greased: false,
    },
    Bushing {
        material: "nylon 6/6",
        pressure: (psi(1000.), M, PLASTIC),
        speed: (fpm(360.), M, PLASTIC),
        pressure_speed: (2000. * PSI_FPM, M, "Shigley, table 12-8, from memory; 3000 psi ft/min in Mott, table 16-1"),
        warmest: (Temperature::celsius(93.), M, PLASTIC),
        wear_factor: Some((200e-10 * WEAR, M, WEARS)),
        friction: ((0.32, 0.45), O, "reference table of an engineering site, dry"),
        shaft: None,
        clearance: (0.005, M, "common practice: 0.4 to 0.5 % for plastic, beside what it swells"),
        greased: false,
    },
    Bushing {
        material: "UHMWPE",
        pressure: (psi(1000.), M, PLASTIC),
        speed: (fpm(100.), M, PLASTIC),
        pressure_speed: (4000. * PSI_FPM, O, MOTT),
        warmest: (Temperature::celsius(70.), M, PLASTIC),
        wear_factor: None,
        friction: ((0.10, 0.22), M, "from memory, unconfirmed"),
        shaft: None,
        clearance: (0.005, M, "common practice: 0.4 to 0.5 % for plastic"),
        greased: false,
    },
];

/// The material as a bush; none where it is not known as one.
pub fn bushing(material: &str) -> Option<&'static Bushing> {
    TABLE.iter().find(|row| row.material == material)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Mott, table 16-1, prints both units: 75 000 psi ft/min, 2.625 MPa m/s; 4000 and 0.140.
    #[test]
    fn both_units_of_the_printed_table_agree() {
        let of = |name| bushing(name).unwrap().pressure_speed.0;
        assert!((of("bronze C93200") - 2.625).abs() < 0.005 && (of("UHMWPE") - 0.140).abs() < 0.001);
    }
}
