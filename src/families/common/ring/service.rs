//! What the place of use does to the fits: cold, heat, and water in plastics that swell.

use crate::formulas::press_fit::{closes_per_squeeze, grows_per_stretch};
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::show;
use crate::shop::Material;
use crate::source::Source;
use crate::standards::fit::FitKind;
use crate::standards::galvanic::Environment;
use crate::units::{Length, Temperature};

use super::fit::{Joint, press};
use super::read::{Mating, Ring};
use super::sizes;

const SERVICE: Check = Check {
    key: "service_fit",
    what: "clearance in service, negative: interference",
    worst: Verdict::Fail,
    source: Source::Derived(
        "linear expansion from the reference temperature of 20 °C (ISO 1), swelling of plastics; a ring that is held back closes inward after Lame",
    ),
};

/// Between which temperatures the sleeve works, and whether it may stand in water.
pub struct Service {
    coldest: Temperature,
    warmest: Temperature,
    /// Every length of a plastic that swells is taken as dry and as grown.
    swells: bool,
    environment: Environment,
    /// As a finding tells it.
    said: String,
}

/// One end of what may come.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct State {
    at: Temperature,
    wet: bool,
}

impl State {
    /// Its temperature.
    pub const fn at(self) -> Temperature {
        self.at
    }
}

impl Service {
    /// As written, or as the environment lets one expect; a service temperature is always within.
    pub fn of(s: &Ring) -> Self {
        let environment = s.common.environment;
        let (coldest, warmest) = s.temperatures.as_ref().map_or_else(|| environment.temperatures(), |t| t.value);
        let single = s.service.as_ref().map(|t| t.value);
        let (coldest, warmest) = single.map_or((coldest, warmest), |t| {
            (if t < coldest { t } else { coldest }, if t > warmest { t } else { warmest })
        });
        let partners = [&s.shaft, &s.housing].into_iter().flatten().map(|m| &m.material);
        let swells = partners.chain([&s.common.material]).any(|m| m.swells(environment).is_some());
        let degrees = |t: Temperature| show::trimmed(t.as_celsius(), 1);
        let assumed = if s.temperatures.is_some() {
            String::new()
        } else {
            format!(", assumed for a part that stands {}", environment.name())
        };
        let water = match (swells, environment) {
            (false, _) => "",
            (true, Environment::Harsh) => ", dry or soaked",
            (true, _) => ", dry or with the water of the room's air",
        };
        let said = format!("from {} to {} °C{assumed}{water}", degrees(coldest), degrees(warmest));
        Self { coldest, warmest, swells, environment, said }
    }

    /// All ends: cold and warm, dry and, where something swells, wet.
    pub fn states(&self) -> impl Iterator<Item = State> + '_ {
        let at = [self.coldest, self.warmest];
        let wet: &[bool] = if self.swells { &[false, true] } else { &[false] };
        at.into_iter().flat_map(move |at| wet.iter().map(move |wet| State { at, wet: *wet }))
    }

    /// Growth of a material as a share of its size, from dry at 20 °C: α (t − 20 °C), and water in a plastic that swells.
    /// Source: linear expansion; reference temperature ISO 1; swelling by its table.
    pub fn strain(&self, material: &Material, state: State) -> f64 {
        let water = material.swells(self.environment).filter(|_| state.wet).unwrap_or(0.0);
        material.elastic.expansion * state.at.above_reference() + water
    }

    /// As warm as it gets.
    pub const fn warmest(&self) -> Temperature {
        self.warmest
    }

    /// For findings: the range, and where it is from.
    pub fn said(&self) -> &str {
        &self.said
    }

    /// For findings: where the worst end lies.
    pub fn when(&self, state: State) -> String {
        let water = match (self.swells, state.wet, self.environment) {
            (false, ..) => "",
            (true, false, _) => ", dry",
            (true, true, Environment::Harsh) => ", soaked",
            (true, true, _) => ", in the air of a room",
        };
        format!("at {} °C{water}", show::trimmed(state.at.as_celsius(), 1))
    }
}

/// Dry at that temperature.
pub const fn dry(at: Temperature) -> State {
    State { at, wet: false }
}

/// One fit in service, with what lies on the far side of the sleeve: there it may be held back, or forced open.
pub struct Worked<'a> {
    s: &'a Ring,
    service: &'a Service,
    joint: &'a Joint,
    mating: &'a Mating,
    /// The other fit and its partner.
    far: Option<(&'a Joint, &'a Mating)>,
}

impl<'a> Worked<'a> {
    /// A fit of the sleeve among its fits; `None` where its partner is not known.
    pub fn of(s: &'a Ring, service: &'a Service, joint: &'a Joint, joints: &'a [Joint]) -> Option<Self> {
        let (near, far) = if joint.at_bore() { (&s.shaft, &s.housing) } else { (&s.housing, &s.shaft) };
        let far = joints.iter().find(|j| j.at_bore() != joint.at_bore()).zip(far.as_ref());
        Some(Self { s, service, joint, mating: near.as_ref()?, far })
    }

    /// Change of the clearance from 20 °C, dry, to that state while both sides of the sleeve are free: D (ε_hole − ε_shaft).
    fn free(&self, state: State) -> Length {
        let strain = |m: &Material| self.service.strain(m, state);
        let (sleeve, partner) = (strain(&self.s.common.material), strain(&self.mating.material));
        self.joint.nominal * if self.joint.at_bore() { sleeve - partner } else { partner - sleeve }
    }

    /// The same with what the far side adds, least and greatest over its pairs.
    ///
    /// A bush that is tight in its housing cannot grow outward: what its housing holds back goes into its bore. So does a
    /// ring that shrinks onto its shaft: what the shaft forces open makes its outside larger.
    pub fn opening(&self, state: State) -> (Length, Length) {
        let free = self.free(state);
        let Some((far, mating)) = self.far else { return (free, free) };
        let strain = |m: &Material| self.service.strain(m, state);
        let (sleeve, beyond) = (strain(&self.s.common.material), strain(&mating.material));
        let opens = far.nominal * if self.joint.at_bore() { beyond - sleeve } else { sleeve - beyond };
        let tight = |clearance: Length| self.carried_through((-clearance).max(Length::ZERO));
        let moves = |clearance: Length| tight(clearance) - tight(clearance + opens);
        let (a, b) = (moves(far.range.min_clearance), moves(far.range.max_clearance));
        (free + a.min(b), free + a.max(b))
    }

    /// What so much interference on the far side does here: the bore closes, or the outside grows. Where no hub is known
    /// the far side is taken as stiff.
    fn carried_through(&self, interference: Length) -> Length {
        let (s, at_bore) = (self.s, self.joint.at_bore());
        let written = if at_bore { &s.pressed_in } else { &s.slid_on };
        let worked = written.as_ref().and_then(|p| press(s, p).pressed(interference).ok());
        let (bore, outside, poisson) = (s.bore.value, s.outside.value, s.common.material.elastic.poisson);
        match (worked, at_bore) {
            (Some(pressed), true) => pressed.bore_closes,
            (Some(pressed), false) => pressed.outside_grows,
            (None, true) => interference * closes_per_squeeze(bore, outside, poisson),
            (None, false) => interference * grows_per_stretch(bore, outside, poisson),
        }
    }

    fn least(&self, state: State) -> Length {
        (self.joint.range.min_clearance + self.opening(state).0).rounded()
    }

    fn greatest(&self, state: State) -> Length {
        (self.joint.range.max_clearance + self.opening(state).1).rounded()
    }

    /// Least and greatest clearance when it is coldest, and when it is warmest.
    pub fn ends(&self) -> [(Length, Length); 2] {
        [self.service.coldest, self.service.warmest].map(|at| {
            let here = || self.service.states().filter(move |state| state.at == at);
            let least = here().map(|state| self.least(state)).fold(Length::mm(f64::INFINITY), Length::min);
            let greatest = here().map(|state| self.greatest(state)).fold(Length::mm(f64::NEG_INFINITY), Length::max);
            (least, greatest)
        })
    }

    /// The smallest of a clearance over all states, and where.
    fn smallest(&self, of: impl Fn(State) -> Length) -> (Length, State) {
        let all = self.service.states().map(|state| (of(state), state));
        let first = (Length::mm(f64::INFINITY), dry(Temperature::REFERENCE));
        all.fold(first, |a, b| if b.0 < a.0 { b } else { a })
    }

    /// The greatest likewise.
    fn largest(&self, of: impl Fn(State) -> Length) -> (Length, State) {
        let (negative, state) = self.smallest(|state| -of(state));
        (-negative, state)
    }

    /// Whether the far side adds to it in that state, and how.
    fn carried(&self, state: State) -> &'static str {
        match (self.opening(state).0 < self.free(state) - Length::um(0.05), self.joint.at_bore()) {
            (false, _) => "",
            (true, true) => {
                "; its housing holds the outside back there, and what cannot grow outward goes into the bore"
            }
            (true, false) => "; its shaft forces the bore open there, and the outside grows",
        }
    }
}

/// A sliding fit must keep its play in service, a press fit that nothing else works out its interference.
pub fn judge(design: &mut Design, s: &Ring, service: &Service, joints: &[Joint]) {
    for joint in joints {
        let Some(worked) = Worked::of(s, service, joint, joints) else { continue };
        let told = if joint.at_bore() { s.slid_on.is_some() } else { s.pressed_in.is_some() };
        let (verdict, value, limit, because) = match joint.range.kind {
            FitKind::Clearance => slides(&worked),
            FitKind::Interference if !told => holds(&worked),
            FitKind::Transition if !told && (s.service.is_some() || s.temperatures.is_some()) => neither(&worked),
            _ => continue,
        };
        let because = format!("{because} (side of the {})", joint.partner);
        design.finding(&SERVICE, verdict, Some(Value::Length(value)), limit, because);
    }
}

type Judged = (Verdict, Length, Limit, String);

fn slides(w: &Worked) -> Judged {
    let nought = Value::Length(Length::ZERO);
    let (least, state) = w.smallest(|state| w.least(state));
    let (loosest, _) = w.smallest(|state| w.greatest(state));
    let verdict = match (least >= Length::ZERO, loosest < Length::ZERO) {
        (true, _) => Verdict::Ok,
        (false, false) => Verdict::Caution,
        (false, true) => Verdict::Fail,
    };
    let (said, carried) = (w.service.said(), w.carried(state));
    let because = match verdict {
        Verdict::Ok => format!("it slides {said}{carried}"),
        _ => format!(
            "the tightest pair jams {}, where it must slide {said}{carried}: a looser class, or materials that grow alike",
            w.service.when(state)
        ),
    };
    (verdict, least, Limit::AtLeast(nought), because)
}

fn holds(w: &Worked) -> Judged {
    let nought = Value::Length(Length::ZERO);
    let (greatest, state) = w.largest(|state| w.greatest(state));
    let (tightest, _) = w.largest(|state| w.least(state));
    let verdict = match (greatest < Length::ZERO, tightest >= Length::ZERO) {
        (true, _) => Verdict::Ok,
        (false, false) => Verdict::Caution,
        (false, true) => Verdict::Fail,
    };
    let said = w.service.said();
    let because = match verdict {
        Verdict::Ok => format!("even the loosest pair stays tight {said}"),
        _ => format!("the loosest pair comes loose {}, where it must hold {said}", w.service.when(state)),
    };
    (verdict, greatest, Limit::AtMost(nought), because)
}

fn neither(w: &Worked) -> Judged {
    let (least, _) = w.smallest(|state| w.least(state));
    let (greatest, _) = w.largest(|state| w.greatest(state));
    let because = format!("neither sure to slide nor sure to hold {}", w.service.said());
    (Verdict::Caution, least, Limit::To(Value::Length(greatest)), because)
}

/// Records the range, and the growth of a plastic sleeve that swells.
pub fn record(design: &mut Design, s: &Ring, service: &Service) {
    if s.shaft.is_none() && s.housing.is_none() {
        return;
    }
    for (size, at) in [(&sizes::COLDEST, service.coldest), (&sizes::WARMEST, service.warmest)] {
        match &s.temperatures {
            Some(_) => design.computed(size, Value::Temperature(at), "temperature_range, as written"),
            None => design.assumed(size, Value::Temperature(at), "by where it stands; common practice, no source"),
        }
    }
    let Some(share) = s.common.material.swells(s.common.environment) else { return };
    for (swells, size) in [(&sizes::BORE_SWELLS, s.bore.value), (&sizes::OUTSIDE_SWELLS, s.outside.value)] {
        design.computed_length(swells, size * share, "0.25 of the water by weight, from memory");
    }
}

/// What the service temperature does to the tightest pairs.
pub fn at_service(design: &mut Design, s: &Ring, joints: &[Joint]) {
    let service = Service::of(s);
    let Some(at) = &s.service else { return };
    for joint in joints {
        let Some(worked) = Worked::of(s, &service, joint, joints) else { continue };
        design.computed_length(
            joint.at.opens_at_service,
            worked.opening(dry(at.value)).0,
            "D (a_hole - a_shaft)(t - 20 C), less what its other side holds back",
        );
    }
}
