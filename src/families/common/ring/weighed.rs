//! A press fit as it is judged, for the file and for what could be written instead: what heat, cold and water make of it.

use crate::families::common::Common;
use crate::formulas::press_fit::{Part, Press, Strain};
use crate::formulas::uncertainty::Instrument;
use crate::formulas::{MechanicsError, Range};
use crate::shop::Material;
use crate::units::{Length, Stress, Temperature};

use super::fit::other;
use super::press::{Pressing, Secured, Way};
use super::read::Ring;
use super::service::{self, Service, State};

/// Share of the yield strength from which a press fit is called near. Source: common practice, no source.
pub const NEAR_YIELD: f64 = 0.9;

/// How much each part of a press fit grows in one state.
pub struct Grown {
    pub state: State,
    pub inner: Strain,
    pub outer: Strain,
}

impl Grown {
    /// Refused where a part grows so much that the rule does not hold.
    pub fn of(s: &Ring, p: &Pressing, service: &Service, state: State) -> Result<Self, MechanicsError> {
        let own = Strain::new(service.strain(&s.common.material, state))?;
        let far = Strain::new(service.strain(other(s, p), state))?;
        let (inner, outer) = if p.way == Way::In { (own, far) } else { (far, own) };
        Ok(Self { state, inner, outer })
    }
}

/// A press fit as it is judged: for the file, and for what could be written instead.
pub struct Weighed<'a> {
    pub s: &'a Ring,
    pub p: &'a Pressing,
    pub press: Press,
    pub service: Service,
    /// All states, 20 °C included.
    states: Vec<Grown>,
    /// Interference lost by smoothing.
    pub loss: Length,
}

/// The least interference that is known to be there: what two readings by micrometer leave open, √2 U.
/// Source: JCGM 100:2008, root of the sum of squares.
pub fn least_known(common: &Common) -> Length {
    common.gauge(Instrument::Micrometer).length() * std::f64::consts::SQRT_2
}

impl<'a> Weighed<'a> {
    /// Of a fit with that press and what smoothing takes.
    pub fn new(s: &'a Ring, p: &'a Pressing, press: Press, loss: Length) -> Result<Self, MechanicsError> {
        let service = Service::of(s);
        let all = service.states().chain([service::dry(Temperature::REFERENCE)]);
        let states = all.map(|state| Grown::of(s, p, &service, state)).collect::<Result<_, _>>()?;
        Ok(Self { s, p, press, service, states, loss })
    }

    /// What becomes of an interference in every state.
    fn becomes(&self, interference: Length) -> impl Iterator<Item = (Length, State)> + '_ {
        let one = move |g: &Grown| (self.press.interference_grown(interference, g.inner, g.outer), g.state);
        self.states.iter().map(one)
    }

    /// The least that is left of an interference, and where.
    pub fn least(&self, interference: Length) -> (Length, State) {
        let first = (Length::mm(f64::INFINITY), service::dry(Temperature::REFERENCE));
        self.becomes(interference).fold(first, |a, b| if b.0 < a.0 { b } else { a })
    }

    /// The greatest that becomes of it.
    pub fn greatest(&self, interference: Length) -> Length {
        self.becomes(interference).map(|(grown, _)| grown).fold(interference, Length::max)
    }

    /// The loosest pair of a fit at 20 °C, its peaks flattened; the interference that must be left of it.
    pub fn loosest(&self, fit: Range<Length>, loss: Length, secured: Option<&Secured>) -> (Length, Length) {
        match secured {
            Some(by) => (fit.min, -by.takes_up(self.press.interface)),
            None => (fit.min - loss, least_known(&self.s.common)),
        }
    }

    /// Outer and inner part with the greatest equivalent stress and the yield strength of each.
    pub fn stresses(&self, most: Length) -> Result<[(Part, &Material, Stress); 2], MechanicsError> {
        let worst = self.press.pressed(self.greatest(most).max(Length::ZERO))?;
        let (hub, sleeve) = match self.p.way {
            Way::In => (other(self.s, self.p), &self.s.common.material),
            Way::On => (&self.s.common.material, other(self.s, self.p)),
        };
        Ok([(Part::Hub, hub, worst.hub_at_joint.mises), (Part::Sleeve, sleeve, worst.sleeve_at_bore.mises)])
    }

    /// Whether such a fit holds and yields nowhere, with nothing to be cautious of.
    pub fn in_order(
        &self,
        fit: Range<Length>,
        loss: Length,
        secured: Option<&Secured>,
    ) -> Result<bool, MechanicsError> {
        let (loosest, least) = self.loosest(fit, loss, secured);
        let calm =
            |(_, m, stress): &(Part, &Material, Stress)| m.yield_strength.is_none_or(|y| *stress <= NEAR_YIELD * y);
        Ok(self.least(loosest).0.rounded() >= least.rounded() && self.stresses(fit.max)?.iter().all(calm))
    }

    /// Interference at 20 °C that the loosest pair needs to hold.
    pub fn needed(&self) -> Length {
        least_known(&self.s.common) - self.least(Length::ZERO).0 + self.loss
    }

    /// Interference at 20 °C that the tightest pair may have.
    pub fn stands(&self) -> Result<Length, MechanicsError> {
        let adds = self.greatest(Length::ZERO);
        let mut stands = Length::mm(f64::INFINITY);
        for (part, material, _) in self.stresses(Length::ZERO)? {
            if let Some(y) = material.yield_strength {
                stands = stands.min(self.press.interference_at_yield(part, y * NEAR_YIELD)? - adds);
            }
        }
        Ok(stands)
    }
}
