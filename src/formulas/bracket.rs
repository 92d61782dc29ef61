//! A flat bracket held by a group of bolts, loaded in its own plane: what each bolt takes, what its hole bears, and the
//! bending stress of the section beside the bolts.

use super::strength::JOINT_FACTOR;
use crate::units::{Force, Length, Stress};

/// A place or a force in the plane of the plate, along x and along y.
pub type InPlane<T> = (T, T);

/// Greatest shear that one bolt of a group takes: the load shared alike, F/n, and its moment about the middle of the group by
/// distance, M r/Σr², square to r; added as vectors. All bolts alike, the plate stiff. `None` without a bolt, where a
/// number is none, or where one bolt, or several in one place, would have to hold a moment.
/// Source: Shigley, Mechanical Engineering Design, shear joints with eccentric loading (primary and secondary shear).
pub fn group_shear(bolts: &[InPlane<Length>], load: InPlane<Force>, at: InPlane<Length>) -> Option<Force> {
    let count = bolts.len() as f64;
    let mm = |p: &InPlane<Length>| (p.0.as_mm(), p.1.as_mm());
    let (fx, fy, (ax, ay)) = (load.0.as_newtons(), load.1.as_newtons(), mm(&at));
    let places: Vec<(f64, f64)> = bolts.iter().map(mm).collect();
    let (cx, cy) = (places.iter().map(|p| p.0).sum::<f64>() / count, places.iter().map(|p| p.1).sum::<f64>() / count);
    let moment = (ax - cx) * fy - (ay - cy) * fx;
    let spread: f64 = places.iter().map(|(x, y)| (x - cx) * (x - cx) + (y - cy) * (y - cy)).sum();
    if spread < 1.0 && moment.abs() > 1e-6 * (fx.abs() + fy.abs()) {
        return None;
    }
    let turning = if moment == 0.0 { 0.0 } else { moment / spread };
    let of = |(x, y): &(f64, f64)| libm::hypot(fx / count - turning * (y - cy), fy / count + turning * (x - cx));
    let most = places.iter().map(of).reduce(f64::max)?;
    most.is_finite().then(|| Force::newtons(most))
}

/// What the wall of a bolt's hole bears, Fb = k1 αb fu d t/γM2, αb the least of e/(3 d0), p/(3 d0) − 1/4, fub/fu and 1, k1 the
/// least of 2.8 e/d0 − 1.7, 1.4 p/d0 − 1.7 and 2.5; e distance of the hole's centre from the nearest edge, p from the next
/// hole, none for a hole alone, d0 hole, d bolt, t plate. Tearing out towards the edge is in αb.
/// Valid for e from 1.2 d0 and p from 2.4 d0. Source: EN 1993-1-8 tables 3.3 and 3.4, both distances taken as the lesser.
pub fn bearing(
    hole: Length,
    bolt: Length,
    plate: Length,
    edge: Length,
    pitch: Option<Length>,
    tensile: (Stress, Stress),
) -> Option<Force> {
    let (e, p) = (edge / hole, pitch.map(|p| p / hole));
    let possible = hole > Length::ZERO && bolt > Length::ZERO && bolt <= hole && plate > Length::ZERO;
    if !possible || e < 1.2 - 1e-9 || p.is_some_and(|p| p < 2.4 - 1e-9) {
        return None;
    }
    let (plate_fu, bolt_fu) = tensile;
    let along = (e / 3.0).min(p.map_or(1.0, |p| p / 3.0 - 0.25)).min(bolt_fu / plate_fu).min(1.0);
    let across = (2.8 * e - 1.7).min(p.map_or(2.5, |p| 1.4 * p - 1.7)).min(2.5);
    let force = across * along * plate_fu.as_mpa() * bolt.as_mm() * plate.as_mm() / JOINT_FACTOR;
    force.is_finite().then(|| Force::newtons(force))
}

/// Bending stress at the outer fibre of a plate's section across: M c/I, I of the strips that the section cuts through (from,
/// to, in the plane) about their common middle: Σ t (b³ − a³)/3 − A m². The moment is load times arm. `None` where nothing
/// is left of the section. Source: beam theory; Shigley, Mechanical Engineering Design.
pub fn section_bending(load: Force, arm: Length, strips: &[(Length, Length)], thickness: Length) -> Option<Stress> {
    let mm: Vec<(f64, f64)> = strips.iter().map(|(a, b)| (a.as_mm(), b.as_mm())).filter(|(a, b)| b > a).collect();
    let t = thickness.as_mm();
    let area: f64 = mm.iter().map(|(a, b)| t * (b - a)).sum();
    let middle = mm.iter().map(|(a, b)| t * (b * b - a * a) / 2.0).sum::<f64>() / area;
    let inertia: f64 = mm.iter().map(|(a, b)| t * ((b - middle).powi(3) - (a - middle).powi(3)) / 3.0).sum();
    let outer = mm.iter().flat_map(|(a, b)| [(a - middle).abs(), (b - middle).abs()]).fold(0.0, f64::max);
    let stress = load.as_newtons().abs() * arm.as_mm().abs() * outer / inertia;
    (area > 0.0 && stress.is_finite()).then(|| Stress::mpa(stress))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A cantilever of flat bar: 16 kN, bolts M16 at 60 and 75 mm from their middle, 425 mm from the load.
    /// Source: Shigley, Mechanical Engineering Design, example 8-7 (from memory; its figures follow by hand): 21.0 kN on the
    /// bolts nearest to the load; 67.8 MPa in a bar of 200 × 15 mm with two holes of 16 mm at 60 mm from its middle, 350 mm arm.
    #[test]
    fn a_group_of_four_by_the_textbook() {
        let at = |x: f64, y: f64| (Length::mm(x), Length::mm(y));
        let bolts = [at(75.0, 60.0), at(75.0, -60.0), at(-75.0, 60.0), at(-75.0, -60.0)];
        let load = (Force::ZERO, Force::newtons(-16_000.0));
        let most = group_shear(&bolts, load, at(425.0, 0.0)).unwrap();
        assert!((most.as_newtons() - 21_000.0).abs() < 50.0, "{most:?}");
        let mm = Length::mm;
        let strips = [(mm(-100.0), mm(-68.0)), (mm(-52.0), mm(52.0)), (mm(68.0), mm(100.0))];
        let stress = section_bending(Force::newtons(16_000.0), mm(350.0), &strips, mm(15.0)).unwrap();
        assert!((stress.as_mpa() - 67.8).abs() < 0.1, "{stress:?}");
    }

    /// EN 1993-1-8 table 3.4 by hand: M20 in 10 mm of S275 (fu 430), e far: 2.5 × 1 × 430 × 20 × 10/1.25 = 172 kN; e = 1.2 d0:
    /// k1 = 1.66, αb = 0.4: 1.66 × 0.4 × 430 × 200/1.25 = 45.7 kN.
    #[test]
    fn bearing_by_hand() {
        let mm = Length::mm;
        let fu = (Stress::mpa(430.0), Stress::mpa(800.0));
        let far = bearing(mm(22.0), mm(20.0), mm(10.0), mm(100.0), None, fu).unwrap();
        assert!((far.as_newtons() - 172_000.0).abs() < 1.0);
        let near = bearing(mm(22.0), mm(20.0), mm(10.0), mm(26.4), None, fu).unwrap();
        assert!((near.as_newtons() - 45_683.2).abs() < 1.0, "{near:?}");
        assert_eq!(bearing(mm(22.0), mm(20.0), mm(10.0), mm(26.0), None, fu), None);
        assert_eq!(bearing(mm(22.0), mm(20.0), mm(10.0), mm(60.0), Some(mm(52.0)), fu), None);
    }

    #[test]
    fn one_bolt_holds_no_moment() {
        let at = |x: f64| (Length::mm(x), Length::ZERO);
        let load = (Force::ZERO, Force::newtons(-100.0));
        assert_eq!(group_shear(&[at(0.0)], load, at(50.0)), None);
        assert_eq!(group_shear(&[], load, at(0.0)), None);
        assert_eq!(group_shear(&[at(0.0)], load, at(0.0)), Some(Force::newtons(100.0)));
        assert_eq!(section_bending(load.1, Length::mm(10.0), &[], Length::mm(5.0)), None);
    }
}
