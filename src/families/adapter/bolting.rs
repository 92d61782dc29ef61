//! The bolts of both patterns: what they go through, how tight they are drawn, and what the load asks of them.

use crate::families::common::bolt_length::Stack;
use crate::families::common::bolted::Bolted;
use crate::formulas::flange;
use crate::units::{Force, Length, Torque};

use super::read::{Face, Spec, Way, Which};

/// The bolts of a face with what they hold.
pub fn bolted<'a>(s: &'a Spec, face: &'a Face) -> Bolted<'a> {
    let t = s.thickness.value;
    let gasket = face.gasket.as_ref().map_or(Length::ZERO, |g| g.value);
    let (part, washers, into) = match face.way {
        Way::Clearance => (t, 2, None),
        Way::Counterbored(head) => (t - head.seat_depth, 1, None),
        Way::Tapped => (Length::ZERO, 1, Some((&s.common.material, full_thread(s, face)))),
    };
    let thread = into.map(|(_, depth)| depth);
    let stack = Stack {
        part: part + gasket,
        wall: face.onto_thickness.as_ref().map(|t| t.value),
        wall_is: ("flange of the mate", super::read::ONTO_THICKNESS.name),
        washers,
        thread,
    };
    Bolted {
        class: face.steel.class,
        thread: face.thread,
        count: face.number.value as usize,
        into,
        stack,
        head: face.head(),
        tapped_instead: face.onto.as_ref().map(|(_, material)| material).filter(|_| into.is_none()),
    }
}

/// Full thread of a tapped pattern.
pub fn full_thread(s: &Spec, face: &Face) -> Length {
    face.thread_depth.as_ref().map_or(s.thickness.value, |d| d.value)
}

/// What the load does to the bolts of a face.
#[derive(Clone, Copy)]
pub struct Asked {
    pub moment: Torque,
    /// Pull on the bolt that takes most; none with two bolts and a moment.
    pub pull: Option<Force>,
    /// Across, all bolts.
    pub across: Force,
}

/// What is asked of the bolts of a face.
pub fn asked(s: &Spec, face: &Face) -> Option<Asked> {
    let load = s.load.as_ref()?;
    let force = |f: &Option<crate::record::key::Given<Force>>| f.as_ref().map_or(Force::ZERO, |f| f.value);
    let (pull, across) = (force(&load.pull), force(&load.across));
    let lever = load.lever.as_ref().map_or(Length::ZERO, |l| l.value);
    let lever = if face.which == Which::Upper { lever } else { lever + s.thickness.value };
    let moment = across * lever;
    let n = face.number.value;
    let one = if moment.as_newton_metres() > 0.0 {
        flange::bolt_pull(pull, moment, n, face.circle.value).ok()
    } else {
        Some(pull * (1.0 / f64::from(n)))
    };
    Some(Asked { moment, pull: one, across })
}
