//! A clamp as its bore and its tube were measured: the grip that this pair really has.

use crate::description::Fields;
use crate::families::Workplace;
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::key::Size;
use crate::source::Source;
use crate::units::Length;

use super::grip::{self, Ends, Grip};
use super::{checks, read, sizes};

const GOES_OVER: Check = Check {
    key: "goes_over_as_made",
    what: "least clearance of the bore over the tube, both as measured",
    worst: Verdict::Fail,
    source: Source::Derived("bore less tube, what was read less and more U; where only U closes it, it is a caution"),
};

const GRIP: Check = Check {
    key: "grip_as_made",
    what: "force at the surface of the tube that slips it, bore and tube as measured",
    worst: Verdict::Fail,
    source: Source::Derived("the grip as it is designed, with bore and tube between what was read less and more U"),
};
const GAP: Check = Check {
    key: "gap_as_made",
    what: "gap that is left when it is tight, bore and tube as measured",
    worst: Verdict::Fail,
    source: Source::Derived("the slit closes by pi times the clearance, the gap of halves by the clearance"),
};

const RING: Check = Check {
    key: "ring_as_made",
    what: "stress in the ring opposite to its slit, bore and tube as measured",
    worst: Verdict::Caution,
    source: Source::Derived("the stress as it is designed, with bore and tube between what was read less and more U"),
};

/// Says of each piece that was measured how it grips.
pub fn findings(design: &mut Design, fields: &Fields, place: &Workplace) {
    let Some(spec) = read::read(fields, place) else { return };
    for piece in 1..=design.header.count {
        let (bore, tube) = (read_of(design, &sizes::BORE, piece), read_of(design, &sizes::TUBE_DIAMETER, piece));
        if bore.is_none() && tube.is_none() {
            continue;
        }
        let Some(worked) = grip::between(&spec, fields, bore, tube) else { continue };
        let of = if design.header.count > 1 { format!("piece {piece}: ") } else { String::new() };
        match worked {
            Ok(g) => judge(design, &spec, &g, of),
            Err(error) => {
                let because = format!("{of}with bore and tube as measured it cannot be reckoned: {error}");
                design.finding(&GRIP, Verdict::Fail, None, None, because);
            }
        }
    }
}

/// What that pair is good for.
fn judge(design: &mut Design, spec: &read::Spec, g: &Grip, of: String) {
    let say = design.say();
    let (least, most) = (say.length(g.clearance.0.rounded()), say.length(g.clearance.1.rounded()));
    let goes = match g.clearance {
        (_, most) if most < Length::ZERO => Verdict::Fail,
        (least, _) if least < Length::ZERO => Verdict::Caution,
        _ => Verdict::Ok,
    };
    let because = format!(
        "{of}clearance {least} to {most}: driven on it grips on its lips only; open the bore to the tube as it is, or take a tube of its size"
    );
    let zero = Limit::AtLeast(Value::Length(Length::ZERO));
    design.finding(&GOES_OVER, goes, Some(Value::Length(g.clearance.0.rounded())), zero, because);
    let because = format!(
        "{of}clearance {least} to {most}: a bore that came out too wide takes a liner, or a tube of its size; one too narrow is opened further"
    );
    design.at_least(&GAP, Value::Length(g.gap_left.rounded()), Value::Length(Length::um(10.0)), None, &because);
    match g.asked {
        Some((asked, safety)) => {
            let wanted = Some(Value::Force(asked * safety));
            design.at_least(&GRIP, Value::Force(g.slips), Value::Force(asked), wanted, because);
        }
        None => design.note(&GRIP, format!("{because}; it slips from {}", say.force(g.slips))),
    }
    if let (Some(stress), Some(strength)) = (g.ring, spec.common.material.yield_strength) {
        checks::ring(design, &RING, stress, strength, of);
    }
}

/// What was read of a size of that piece, less and more its expanded uncertainty.
fn read_of(design: &Design, size: &Size, piece: u32) -> Option<Ends> {
    let measured = design.dimension(size)?.measured();
    let reading = measured.into_iter().find(|r| r.piece == piece)?;
    let (at, u) = (reading.value.number(), reading.u.number());
    Some((Length::mm(at - u), Length::mm(at + u)))
}
