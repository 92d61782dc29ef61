//! Sizes of a shim's file that betray a slip of the pen beside their neighbours.

use crate::families::common;
use crate::record::design::{Check, Design, Verdict};
use crate::source::Source as RuleSource;
use crate::units::Length;

use super::members;
use super::read::{Source, Spec};

const CHAIN: Check = Check {
    key: "chain_slip",
    what: "member that does not go with the others",
    worst: Verdict::Caution,
    source: RuleSource::Derived("the gap would be a gap after a slip of the unit (25.4) or of the decimal point (10)"),
};

/// A shim of up to so much of what fills the gap is usual, and up to [`USUAL_GAP`] whatever fills it.
/// Source: common practice, no source.
const SHARE: f64 = 0.2;
const USUAL_GAP: Length = Length::mm(5.0);

/// Tells old shims, floats and members that would go with the others after a slip.
pub fn tell(design: &mut Design, s: &Spec) {
    if let Some(question) = in_the_chain(s) {
        design.finding(&CHAIN, Verdict::Caution, None, None, question);
    }
    let Source::Replaces { shims, float_without, .. } = &s.source else { return };
    for (i, shim) in shims.value.iter().enumerate() {
        let mut others = shims.value.iter().enumerate().filter(|(j, _)| *j != i).map(|(_, l)| *l);
        let Some(first) = others.next() else { continue };
        let (least, greatest) = others.fold((first, first), |(a, b), l| (a.min(l), b.max(l)));
        let what = format!("old shim {}", i + 1);
        let goes = (least / SPREAD, greatest * SPREAD);
        common::slip(design, Verdict::Caution, &what, *shim, goes, "the other old shims");
    }
    if let Some(without) = float_without {
        let sum: Length = shims.value.iter().copied().sum();
        let goes = (sum * 0.5, sum * 3.0);
        common::slip(
            design,
            Verdict::Caution,
            "the float without shims",
            without.value,
            goes,
            "the old shims together",
        );
    }
}

/// One old shim of a stack may be so many times as thick as another.
/// Source: common practice, no source.
const SPREAD: f64 = 9.0;

/// The question after the one member whose slip would make a gap of the chain; as measured where it was measured.
pub fn in_the_chain(s: &Spec) -> Option<String> {
    let members = s.chain.as_ref()?.members();
    let (least, greatest) = match &s.source {
        Source::Gap(gap) => (gap.value * 0.5, gap.value * 2.0),
        _ => {
            let takes = members.iter().filter(|m| m.direction != crate::formulas::stack::Direction::Adds);
            (Length::ZERO, USUAL_GAP.max(takes.map(|m| m.middle()).sum::<Length>() * SHARE))
        }
    };
    let (member, slip) = members::slipped(members, least, greatest)?;
    Some(format!("{}: {}", member.name, slip.question(member.middle(), s.common.header.unit)))
}
