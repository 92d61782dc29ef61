//! Parts that are hard when they are finished: bought soft, worked soft, hardened, measured, then ground.

use crate::formulas::hardness::Hardness;
use crate::record::design::{Design, Value};
use crate::record::key::Size;
use crate::record::show;
use crate::shop::{Material, by_unit};
use crate::units::{Length, LengthUnit};

/// Metal on a diameter, or on both faces together, that is left for grinding after hardening: it moves by a tenth.
/// Source: common practice, no source.
pub const fn ground_after(unit: LengthUnit) -> Length {
    by_unit(unit, 0.3, 0.012)
}

/// The metal as it is ordered: a steel that ends hard is bought annealed, as nothing cuts it once it is hard.
pub fn bought(material: &Material) -> String {
    if !material.hardened {
        return material.name.clone();
    }
    format!("{}, annealed (soft)", steel(material))
}

/// Name of the steel, whatever state it is in.
fn steel(material: &Material) -> &str {
    material.name.trim_end_matches("hardened").trim_end()
}

/// Hardness that the finished part has: as written, or that of the material, on the scale of the bench.
fn wanted(material: &Material, written: Option<&str>) -> Option<String> {
    let usual = || {
        let hv = material.hardness_hv?;
        let hrc = Hardness::Vickers(hv).rockwell_c().ok().map(|c| format!(" ({} HRC)", show::trimmed(c, 0)));
        Some(format!("{} HV{}", show::trimmed(hv, 0), hrc.unwrap_or_default()))
    };
    written.map(str::to_string).or_else(usual)
}

/// The step that hardens a piece, and proves it before more work goes into it.
pub fn harden(design: &mut Design, material: &Material, size: &Size, what: &str, written: Option<&str>) {
    let Some(hardness) = wanted(material, written) else { return };
    design.computed(
        &size.called(format!("hardness of {what}")),
        Value::Text(hardness.clone()),
        "as written, or the material's",
    );
    let steel = steel(material);
    design
        .step("furnace", format!(
            "Harden and temper {what} by the data sheet of {steel}, or have it done: {hardness}. Measure the hardness where it is ground later, before any more work goes into it."
        ))
        .measure(size, "hardness tester, three places");
    design.caution(&["furnace"], "Quenching oil flares up: face shield, gloves, a lid at hand; never water on burning oil.", "Quenching oil flares up and hot steel spits: face shield, gloves, a lid at hand, nothing that burns near it; never water on burning oil.");
}
