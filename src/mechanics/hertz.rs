//! Two curved bodies pressed together: width of the contact, pressure, and shear below the skin.
//!
//! Hertz contact: elastic half-spaces, no friction, contact small against the radii. Source: K. L. Johnson, Contact
//! Mechanics (1985), chapter 4 and appendix 3 (from memory).

use super::{Elastic, MechanicsError, finite, not_negative, positive};
use crate::units::{Angle, Force, Length, Stress};

/// Depth of the largest shear below a line contact, in half-widths: where 1 - ζ(2 + ζ²)/(1 + ζ²)^1.5 = 0.
pub const LINE_SHEAR_DEPTH: f64 = 0.786_151_377_757_423_3;
/// Largest shear below a line contact, in peak pressures: ζ - ζ²/√(1 + ζ²) at [`LINE_SHEAR_DEPTH`].
pub const LINE_SHEAR: f64 = 0.300_283_106_000_777_6;

/// Shape of a surface in one direction.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Surface {
    /// Bulges towards the other body; its radius.
    Convex(Length),
    /// Hollow; its radius.
    Concave(Length),
    /// Straight.
    Flat,
}

impl Surface {
    /// Curvature in 1/mm, positive when convex.
    fn curvature(self) -> Result<f64, MechanicsError> {
        let of = |radius: Length| positive("a radius", radius.as_mm()).map(|()| 1.0 / radius.as_mm());
        match self {
            Self::Convex(radius) => of(radius),
            Self::Concave(radius) => of(radius).map(|curvature| -curvature),
            Self::Flat => Ok(0.0),
        }
    }
}

/// Contact modulus E*: 1/E* = (1 - ν1²)/E1 + (1 - ν2²)/E2.
pub fn contact_modulus(first: &Elastic, second: &Elastic) -> Result<Stress, MechanicsError> {
    first.check()?;
    second.check()?;
    let give = 1.0 / first.plane_strain_modulus().as_mpa() + 1.0 / second.plane_strain_modulus().as_mpa();
    Ok(Stress::mpa(1.0 / give))
}

/// Relative radius R of two surfaces in contact: 1/R = 1/R1 + 1/R2, hollow ones negative.
pub fn relative_radius(first: Surface, second: Surface) -> Result<Length, MechanicsError> {
    let curvature = first.curvature()? + second.curvature()?;
    if curvature > 0.0 {
        Ok(Length::mm(1.0 / curvature))
    } else {
        Err(MechanicsError::Impossible("the two surfaces do not touch along a line: they fit into each other"))
    }
}

/// Two cylinders, axes parallel, pressed together along a line.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct LineContact {
    /// Load per mm of length, N/mm.
    load_per_mm: f64,
    /// Relative radius.
    pub relative_radius: Length,
    /// Contact modulus E*.
    pub contact_modulus: Stress,
}

/// Stress in the plane below a line contact; tension positive.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct PlaneStress {
    /// Along the surface, across the line.
    pub along: Stress,
    /// Into the depth.
    pub deep: Stress,
    /// Shear between the two.
    pub shear: Stress,
}

impl PlaneStress {
    /// Largest shear stress in the plane: √(((σx - σz)/2)² + τ²).
    pub fn largest_shear(&self) -> Stress {
        let half = 0.5 * (self.along.as_mpa() - self.deep.as_mpa());
        Stress::mpa((half * half + self.shear.as_mpa() * self.shear.as_mpa()).sqrt())
    }
}

impl LineContact {
    /// From the force on the whole length of the line.
    pub fn new(
        force: Force,
        length: Length,
        relative_radius: Length,
        contact_modulus: Stress,
    ) -> Result<Self, MechanicsError> {
        not_negative("the contact force", force.as_newtons())?;
        positive("the contact length", length.as_mm())?;
        positive("the relative radius", relative_radius.as_mm())?;
        positive("the contact modulus", contact_modulus.as_mpa())?;
        Ok(Self { load_per_mm: force.as_newtons() / length.as_mm(), relative_radius, contact_modulus })
    }

    /// The contact at which the peak pressure is just `pressure`.
    pub fn at_pressure(
        pressure: Stress,
        relative_radius: Length,
        contact_modulus: Stress,
    ) -> Result<Self, MechanicsError> {
        not_negative("the pressure", pressure.as_mpa())?;
        let squared = pressure.as_mpa() * pressure.as_mpa();
        let load = squared * std::f64::consts::PI * relative_radius.as_mm() / contact_modulus.as_mpa();
        Self::new(Force::newtons(load), Length::mm(1.0), relative_radius, contact_modulus)
    }

    /// The force carried by `length` of the line.
    pub fn force_on(&self, length: Length) -> Force {
        Force::newtons(self.load_per_mm * length.as_mm())
    }

    /// Half-width b = √(4 w R/(π E*)); w: load per length.
    pub fn half_width(&self) -> Length {
        let square = 4.0 * self.load_per_mm * self.relative_radius.as_mm();
        Length::mm((square / (std::f64::consts::PI * self.contact_modulus.as_mpa())).sqrt())
    }

    /// Peak pressure p0 = √(w E*/(π R)).
    pub fn peak_pressure(&self) -> Stress {
        let square = self.load_per_mm * self.contact_modulus.as_mpa();
        Stress::mpa((square / (std::f64::consts::PI * self.relative_radius.as_mm())).sqrt())
    }

    /// Largest shear below the skin, 0.300 p0.
    pub fn largest_shear(&self) -> Stress {
        LINE_SHEAR * self.peak_pressure()
    }

    /// Depth of the largest shear, 0.786 b.
    pub fn shear_depth(&self) -> Length {
        LINE_SHEAR_DEPTH * self.half_width()
    }

    /// Depth, beyond that of the largest, at which the shear has fallen to `shear`; nought when it never is that large.
    ///
    /// On the axis τ = p0 (ζ - ζ²/√(1 + ζ²)), ζ = z/b, falling steadily beyond ζ = 0.786; found by bisection.
    pub fn depth_where_shear_falls_to(&self, shear: Stress) -> Result<Length, MechanicsError> {
        positive("the shear stress", shear.as_mpa())?;
        let wanted = shear / self.peak_pressure();
        if !wanted.is_finite() || wanted >= LINE_SHEAR {
            return Ok(Length::ZERO);
        }
        // Far down τ/p0 nears 1/(2ζ), from below: the root lies above 1/(2τ).
        let (mut low, mut high) = (LINE_SHEAR_DEPTH, 0.5 / wanted + 1.0);
        for _ in 0..100 {
            let middle = 0.5 * (low + high);
            if shear_on_axis(middle) > wanted { low = middle } else { high = middle }
        }
        Ok(0.5 * (low + high) * self.half_width())
    }

    /// Stress at `along` across the line and `depth` below the surface.
    ///
    /// m², n² = ½[√((b² - x² + z²)² + 4x²z²) ± (b² - x² + z²)], sign of n that of x;
    /// σx = -(p0/b)[m(1 + (z² + n²)/(m² + n²)) - 2z], σz = -(p0/b) m (1 - (z² + n²)/(m² + n²)),
    /// τ = (p0/b) n (m² - z²)/(m² + n²). Source: Johnson, Contact Mechanics, eq. 4.49 (from memory; sign of τ such
    /// that z points into the body).
    pub fn stress_at(&self, along: Length, depth: Length) -> Result<PlaneStress, MechanicsError> {
        finite("the place along the surface", along.as_mm())?;
        not_negative("the depth", depth.as_mm())?;
        let b = self.half_width().as_mm();
        positive("the contact force", b)?;
        let (x, z) = (along.as_mm(), depth.as_mm());
        let middle = b * b - x * x + z * z;
        let root = (middle * middle + 4.0 * x * x * z * z).sqrt();
        let m = (0.5 * (root + middle)).max(0.0).sqrt();
        let n = (0.5 * (root - middle)).max(0.0).sqrt().copysign(x);
        let share = if root > 0.0 { (z * z + n * n) / (m * m + n * n) } else { 0.0 };
        let scale = self.peak_pressure() / b;
        let skew = if root > 0.0 { n * (m * m - z * z) / (m * m + n * n) } else { 0.0 };
        Ok(PlaneStress {
            along: -(scale * (m * (1.0 + share) - 2.0 * z)),
            deep: -(scale * (m * (1.0 - share))),
            shear: -(scale * skew),
        })
    }
}

/// τ/p0 on the axis of a line contact at ζ half-widths deep.
fn shear_on_axis(zeta: f64) -> f64 {
    // ζ - ζ²/√(1+ζ²) without the cancellation far down.
    let root = (1.0 + zeta * zeta).sqrt();
    zeta / (root * (root + zeta))
}

/// The two principal shapes of one body at the contact.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Body {
    /// In its first principal direction.
    pub first: Surface,
    /// At right angles to the first.
    pub second: Surface,
}

/// An elliptic (or round) contact.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct EllipticContact {
    /// Larger half-axis of the contact ellipse.
    pub major_half_axis: Length,
    /// Smaller half-axis.
    pub minor_half_axis: Length,
    /// Peak pressure.
    pub peak_pressure: Stress,
    /// By how much the bodies come closer.
    pub approach: Length,
}

/// Contact of two bodies curved both ways, whose first principal directions stand `angle` apart.
///
/// Relative curvatures A <= B: A + B = ½ Σκ, B - A = ½ √((κ1-κ1')² + (κ2-κ2')² + 2(κ1-κ1')(κ2-κ2') cos 2ψ).
/// With k = b/a, e² = 1 - k²: B/A = (E(e)/k² - K(e))/(K(e) - E(e)); p0 = 3P/(2πab);
/// A = (p0/E*)(b/(e²a²))(K - E); approach 3P K/(2π a E*). K, E: complete elliptic integrals (arithmetic-geometric mean).
/// Valid for B/A up to about 1e9. Source: Johnson, Contact Mechanics, section 4.2 (from memory).
pub fn elliptic_contact(
    force: Force,
    one: Body,
    other: Body,
    angle: Angle,
    contact_modulus: Stress,
) -> Result<EllipticContact, MechanicsError> {
    positive("the contact force", force.as_newtons())?;
    positive("the contact modulus", contact_modulus.as_mpa())?;
    finite("the angle between the bodies", angle.as_degrees())?;
    let (small, large) = relative_curvatures(one, other, angle)?;
    let k = axis_ratio(large / small);
    let integrals = elliptic_integrals(k);
    // A E* a² = p0 b (K-E)/e² with p0 = 3P/(2πab)  =>  a³ = 3P (K-E)/e² / (2π A E*).
    let cube = 3.0 * force.as_newtons() * integrals.d / (2.0 * std::f64::consts::PI * small * contact_modulus.as_mpa());
    let a = libm::cbrt(cube);
    let b = k * a;
    let pressure = 1.5 * force.as_newtons() / (std::f64::consts::PI * a * b);
    Ok(EllipticContact {
        major_half_axis: Length::mm(a),
        minor_half_axis: Length::mm(b),
        peak_pressure: Stress::mpa(pressure),
        approach: Length::mm(pressure * b * integrals.k / contact_modulus.as_mpa()),
    })
}

/// A and B in 1/mm, the smaller first.
fn relative_curvatures(one: Body, other: Body, angle: Angle) -> Result<(f64, f64), MechanicsError> {
    let (p, q) = (one.first.curvature()?, one.second.curvature()?);
    let (r, s) = (other.first.curvature()?, other.second.curvature()?);
    let sum = 0.5 * (p + q + r + s);
    let square = (p - q) * (p - q) + (r - s) * (r - s) + 2.0 * (p - q) * (r - s) * (angle * 2.0).cos();
    let difference = 0.5 * square.max(0.0).sqrt();
    let (small, large) = (0.5 * (sum - difference), 0.5 * (sum + difference));
    // One part in 1e9: beyond that it is a line contact.
    if small > 1e-9 * large.abs() {
        Ok((small, large))
    } else {
        Err(MechanicsError::Impossible("the two bodies touch along a line or fit into each other, not at a point"))
    }
}

/// The axis ratio k = b/a of the contact ellipse for a curvature ratio B/A >= 1, by bisection on ln k.
fn axis_ratio(curvature_ratio: f64) -> f64 {
    let (mut low, mut high) = (-25.0, 0.0);
    for _ in 0..80 {
        let middle = 0.5 * (low + high);
        let k = libm::exp(middle);
        let i = elliptic_integrals(k);
        if i.b / (k * k) / i.d > curvature_ratio { low = middle } else { high = middle }
    }
    libm::exp(0.5 * (low + high))
}

/// Complete elliptic integrals in the forms that stay exact near the circle.
struct Integrals {
    /// K(e).
    k: f64,
    /// (K - E)/e².
    d: f64,
    /// (E - k²K)/e².
    b: f64,
}

/// By the arithmetic-geometric mean of 1 and k: K = π/(2M), K - E = K Σ 2^(n-1) c_n², c_0 = e, c_n = (a - b)/2.
fn elliptic_integrals(k: f64) -> Integrals {
    let e2 = (1.0 - k) * (1.0 + k);
    let (mut a, mut g, mut sum, mut weight) = (1.0, k, 0.0, 1.0);
    for _ in 0..60 {
        let c = 0.5 * (a - g);
        sum += weight * c * c;
        weight *= 2.0;
        (a, g) = (0.5 * (a + g), (a * g).sqrt());
        // Quadratic convergence: the next c is c²/(4a), below the last digit.
        if c <= 1e-9 * a {
            break;
        }
    }
    let complete = std::f64::consts::FRAC_PI_2 / a;
    let rest = if e2 > 1e-15 { sum / e2 } else { 0.0 };
    Integrals { k: complete, d: complete * (0.5 + rest), b: complete * (0.5 - rest) }
}
