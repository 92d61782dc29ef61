//! What the parts weigh that the job makes, and what of it a frame carries beside what its landing takes it to weigh.

use super::share::Share;

/// What one frame carries.
#[derive(Clone, PartialEq, Debug)]
pub struct Carried {
    /// The landing.
    pub landing: String,
    /// Mass that it assumes, kg.
    pub assumed_kg: f64,
    /// Centre of mass that it assumes, mm: x, y, height above the seats.
    pub assumed_at: [f64; 3],
    /// Parts of the job under the frame: which, at which seat.
    pub parts: Vec<(String, String)>,
    /// Their mass, kg.
    pub mass_kg: f64,
    /// Their centre of mass, x and y, mm; none where there is no mass.
    pub at: Option<[f64; 2]>,
    /// Mass of the parts on which it lands, kg.
    pub below_kg: f64,
}

impl Carried {
    /// How far the frame's centre of mass moves in plan if these parts are not in what is assumed, mm:
    /// m (c − C)/(M + m).
    pub fn shift(&self) -> Option<f64> {
        let [x, y] = self.at?;
        let by = self.mass_kg / (self.assumed_kg + self.mass_kg);
        Some(libm::hypot(x - self.assumed_at[0], y - self.assumed_at[1]) * by)
    }
}

/// For every landing.
pub fn carried(parts: &[&Share]) -> Vec<Carried> {
    parts.iter().filter_map(|landing| of(landing, parts)).collect()
}

fn of(landing: &Share, parts: &[&Share]) -> Option<Carried> {
    let (assumed_kg, assumed_at) = landing.frame?;
    let (mut mass, mut moment, mut below, mut on) = (0.0, [0.0; 2], 0.0, Vec::new());
    for seat in &landing.seats {
        let Some(part) = parts.iter().find(|p| p.part == seat.part) else { continue };
        let one: f64 = part.solids.iter().map(|s| s.mass_kg).sum();
        if !seat.on_frame {
            below += one;
            continue;
        }
        mass += one;
        // Each where its hole is: how a plate is turned about it is not told.
        moment = [moment[0] + one * seat.at_mm[0], moment[1] + one * seat.at_mm[1]];
        on.push((part.part.clone(), seat.seat.clone()));
    }
    let at = (mass > 0.0).then(|| moment.map(|m| m / mass));
    Some(Carried {
        landing: landing.part.clone(),
        assumed_kg,
        assumed_at,
        parts: on,
        mass_kg: mass,
        at,
        below_kg: below,
    })
}
