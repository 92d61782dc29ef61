//! What is laid out before the work begins: bars, tools, instruments. A step that needs a tool of a size records it; what the
//! trade's words in a step stand for is read from the step, so that the list holds what the steps name, and nothing else.

use crate::record::design::{Bar, Design, Operation};
use crate::record::show;
use crate::units::{Length, LengthUnit};

/// Words of a step, in small letters, and what they stand for. A word counts where it begins a word.
const WORDS: &[(&[&str], &str)] = &[
    (&["centre drill"], "centre drill"),
    (&["centre-punch"], "centre punch and hammer"),
    (&["tailstock's centre"], "running centre"),
    (&["drill and bore"], "twist drills below the size of the bore"),
    (&["drill under size in steps"], "twist drills below the size of the hole"),
    (&["bore to", "bore the", "bore ", "boring bar"], "boring bar"),
    (&["part off"], "parting tool"),
    (&["an undercut at", "turn a screw"], "threading tool"),
    (&["cut the groove"], "grooving tool"),
    (&["counterbore "], "counterbore"),
    (&["countersink"], "countersink"),
    (&["ream "], "reamer"),
    (&["hone "], "hone"),
    (&["soft jaws"], "soft jaws"),
    (&["quick adhesive"], "quick adhesive"),
    (&["stub that is turned in place"], "stub of bar that fills the bore"),
    (&["with a strap"], "strap wrench"),
    (&["fixed steady"], "fixed steady"),
    (&["follow rest"], "follow rest"),
    (&["on a mandrel"], "mandrel that fills the bore"),
    (&["between centres"], "two centres and a dog"),
    (&["taper attachment"], "taper attachment"),
    (&["face plate"], "face plate"),
    (&["parallels"], "parallels"),
    (&["three clamps"], "three clamps"),
    (&["run a dial", "dial indicator"], "dial indicator with stand"),
    (&["round the nose"], "file and abrasive cloth"),
    (&["abrasive cloth"], "abrasive cloth"),
    (&["flat plate"], "flat plate"),
    (&["ring over the nose"], "check ring"),
    (&["blocks"], "blocks"),
    (&["v-block"], "V-block"),
    (&["hollow support"], "hollow support"),
    (&["scraper"], "scraper"),
    (&["blue the cone"], "marking blue"),
    (&["deburr", "burr", "break the", "chamfer the rim", "round the rim"], "file and deburring tool"),
    (&["saw "], "saw"),
    (&["lap "], "lapping plate"),
    (&["grinding spindle"], "grinding spindle"),
    (&["with a carbide tool"], "carbide tool"),
    (&["temperature crayon"], "torch, temperature crayon, sand or wool"),
    (&["weld gauge"], "weld gauge"),
    (&["torque wrench"], "torque wrench"),
    (&["feeler gauge"], "feeler gauge"),
    (&["with a square"], "square"),
    (&["the tape"], "tape measure"),
    (&["cups clamped", "clamp each plate"], "clamp for each plate"),
    (&["lay a level", "level the faces"], "level and straight-edge"),
    (&["drill and bolt it"], "drill, centre punch and spanners for the plates' bolts"),
    (&["shim the low seats", "shim where it hangs free"], "shim stock and shears"),
    (&["gear that is rated for it"], "gear that is rated for the tie-down, with its anchors"),
    (&["dowel holes"], "bolts to hold the plate meanwhile"),
    (&["hand lines"], "hand lines"),
    (&["depth stop"], "scrap to set the depth stop on"),
];

/// Whether a word stands in a text in small letters, at the beginning of a word.
fn names(text: &str, word: &str) -> bool {
    text.match_indices(word)
        .any(|(at, _)| !text.get(..at).is_some_and(|before| before.ends_with(char::is_alphanumeric)))
}

/// The tools of a step: those that it recorded, then those that its words stand for.
fn of_step(step: &Operation) -> Vec<String> {
    let with: Vec<&str> = step.measure.iter().map(|m| m.with.as_str()).collect();
    let text = format!("{} {}", step.text, with.join(" ")).to_lowercase();
    let mut tools = step.tools.clone();
    for (words, tool) in WORDS {
        let recorded = tools.iter().any(|t| t.contains(tool));
        if !recorded && words.iter().any(|word| names(&text, word)) {
            tools.push((*tool).to_string());
        }
    }
    tools
}

/// The instruments of a step, without where they are held.
fn instruments(step: &Operation) -> impl Iterator<Item = &str> {
    step.measure.iter().map(|m| m.with.split(',').next().unwrap_or(&m.with))
}

/// Adds to what has to be bought: the bars, one line for those that come from the same; the tools by place, each where it
/// is needed first; the instruments.
pub fn lay_out(design: &mut Design) {
    let unit = design.header.unit;
    design.bars.iter_mut().for_each(|bar| bar.each = sawn(bar.each, unit));
    let bars = bars(design);
    design.tools.splice(0..0, bars);
    let tools = by_place(design).into_iter().map(|(at, tools)| format!("{at}: {}", tools.join("; ")));
    design.tools.extend(tools.collect::<Vec<_>>());
    let measuring = all_instruments(design);
    if !measuring.is_empty() {
        let line = format!("measuring: {}", measuring.join("; "));
        design.tools.push(line);
    }
}

/// The tools by place, each where it is needed first.
pub fn by_place(design: &Design) -> Vec<(&'static str, Vec<String>)> {
    let mut known: Vec<String> = Vec::new();
    let mut places: Vec<(&'static str, Vec<String>)> = Vec::new();
    for step in &design.operations {
        for tool in of_step(step) {
            if known.contains(&tool) {
                continue;
            }
            known.push(tool.clone());
            match places.iter_mut().find(|(at, _)| *at == step.at) {
                Some((_, tools)) => tools.push(tool),
                None => places.push((step.at, vec![tool])),
            }
        }
    }
    places
}

/// The instruments, in the order in which they are needed.
pub fn all_instruments(design: &Design) -> Vec<&str> {
    let mut measuring: Vec<&str> = Vec::new();
    for instrument in design.operations.iter().flat_map(instruments) {
        if !measuring.contains(&instrument) {
            measuring.push(instrument);
        }
    }
    measuring
}

/// A blank as it is sawn: up to the next whole millimetre or sixteenth of an inch.
fn sawn(length: Length, unit: LengthUnit) -> Length {
    let step = match unit {
        LengthUnit::Mm => Length::mm(1.0),
        LengthUnit::Inch => Length::inches(1.0 / 16.0),
    };
    length.up_to(step).rounded()
}

/// One line for each bar: pieces of one material and diameter come from one.
fn bars(design: &Design) -> Vec<String> {
    let mut groups: Vec<Vec<&Bar>> = Vec::new();
    for bar in &design.bars {
        match groups.iter_mut().find(|g| g.iter().all(|b| b.material == bar.material && b.across == bar.across)) {
            Some(group) => group.push(bar),
            None => groups.push(vec![bar]),
        }
    }
    groups.iter().filter_map(|group| line(group, design.header.unit)).collect()
}

/// Thicker rounds are ordered forged or cut. Common practice, no source.
const THICK: Length = Length::inches(8.0);

fn line(group: &[&Bar], unit: LengthUnit) -> Option<String> {
    let first = group.first()?;
    let size = |l: Length| show::length_both(l.rounded(), unit);
    let round = |d: Length| {
        if d > THICK { format!("forged or cut round {}", size(d)) } else { format!("round bar {}", size(d)) }
    };
    let across = first.across.map_or_else(|| "bar or plate blank".into(), round);
    let piece = |b: &&Bar| {
        let what = b.what.as_ref().map_or_else(String::new, |what| format!(" for {what}"));
        format!("{} x {} long{what}", b.count, size(b.each))
    };
    let pieces: Vec<String> = group.iter().map(piece).collect();
    let count: u32 = group.iter().map(|b| b.count).sum();
    let together = if count > 1 {
        format!(
            "; or all from one length of {} where that goes through the spindle, drawn out for each: one grip is lost in all",
            size(in_one(group))
        )
    } else {
        String::new()
    };
    Some(format!("{}, {across}: {}{together}", first.material, pieces.join(", ")))
}

/// Length of one bar for all: each piece without what is held, and the longest grip once.
/// Source: common practice, no source.
fn in_one(group: &[&Bar]) -> Length {
    let grip = group.iter().map(|b| b.grip).fold(Length::ZERO, Length::max);
    group.iter().map(|b| (b.each - b.grip) * f64::from(b.count)).fold(grip, |sum, l| sum + l)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bar(count: u32, each: f64, grip: f64) -> Bar {
        let (each, grip) = (Length::mm(each), Length::mm(grip));
        Bar { material: "steel".into(), across: Some(Length::mm(30.0)), count, each, grip, what: None }
    }

    /// By hand: three pieces of 80 mm of which 30 mm are held, and one of 60 of which 35 are: 3 x 50 + 25 + 35 = 210 mm.
    #[test]
    fn the_grip_is_bought_once() {
        let (a, b) = (bar(3, 80.0, 30.0), bar(1, 60.0, 35.0));
        assert_eq!(in_one(&[&a, &b]).rounded(), Length::mm(210.0));
        let one = line(&[&bar(1, 80.0, 30.0)], LengthUnit::Mm).unwrap();
        assert!(one.contains("round bar 30 mm") && !one.contains("one grip is lost"), "{one}");
    }

    #[test]
    fn a_word_begins_a_word() {
        assert!(names("then ream to size", "ream ") && !names("a stream of oil", "ream "));
        assert!(!names("the counterbore is", "bore ") && names("bore the seat", "bore "));
    }
}
