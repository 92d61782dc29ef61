//! The same few lines at the head of terminal, text sheet and PDF: how it stands, what to do now, the figures that matter.

use crate::record::design::{Design, Finding, Verdict};
use crate::record::lever::{Change, Clearing};
use crate::record::show;

/// Most figures in one look.
const FIGURES: usize = 6;

/// One look at a part.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Look {
    /// How it stands, one sentence.
    pub verdict: String,
    /// How many checks stand behind that.
    pub checks: usize,
    /// Some of them fail: it is not to be made or used as it is.
    pub fails: bool,
    /// What is not in order and what clears it, most harmful first.
    pub now: Vec<Act>,
    /// The figures that matter: `seat height 22.755 mm`.
    pub figures: Vec<String>,
}

/// Something to be done.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Act {
    /// `fail` or `caution`.
    pub verdict: &'static str,
    /// What was found: `capture radius: 7.463 mm, at least 8 mm`.
    pub found: String,
    /// What clears it, or what is to be done instead; empty where nothing is known.
    pub does: String,
}

/// The look at a design.
pub fn look(design: &Design) -> Look {
    let mut asks: Vec<&Finding> = design.findings.iter().filter(|f| f.verdict > Verdict::Ok).collect();
    asks.sort_by_key(|f| std::cmp::Reverse(f.verdict));
    let count = |v: Verdict| asks.iter().filter(|f| f.verdict == v).count();
    let verdict = match (count(Verdict::Fail), count(Verdict::Caution)) {
        (0, 0) => "in order".to_string(),
        (0, cautions) => format!("works, with {cautions} to look at"),
        (fails, 0) => format!("does not do: {fails} fail"),
        (fails, cautions) => format!("does not do: {fails} fail, {cautions} more to look at"),
    };
    let unit = design.header.unit;
    let act = |f: &Finding| Act {
        verdict: f.verdict.word(),
        found: show::finding_line(f, unit).head,
        does: does(&f.clearing, &design.header.file),
    };
    let now = asks.into_iter().map(act).collect();
    let principal = design.dimensions.iter().filter(|d| d.principal).take(FIGURES);
    let figures = principal.map(|d| format!("{} {}", d.label, show::dimension_line(d, unit).size)).collect();
    Look { verdict, checks: design.findings.len(), fails: design.verdict() == Verdict::Fail, now, figures }
}

/// The best change, or why there is none.
pub fn does(clearing: &Clearing, own: &str) -> String {
    if let (Some([least]), Some(along)) = (clearing.changes.first().map(Vec::as_slice), &clearing.along_with) {
        let both = changes(std::slice::from_ref(along), own);
        return format!("in order with {both}, which another finding asks for; {} would do for this one", least.to);
    }
    match (clearing.changes.first(), &clearing.why_none) {
        (Some(best), _) => format!("in order with {}", changes(best, own)),
        (None, Some(why)) => why.clone(),
        (None, None) => String::new(),
    }
}

/// Changes that belong together: `hole.diameter = "41.1 mm" (now "40 mm")`.
pub fn changes(set: &[Change], own: &str) -> String {
    let one = |c: &Change| {
        let there = if c.file == own { String::new() } else { format!(" in {}", c.file) };
        let now = c.from.as_ref().map_or_else(|| "not written now".to_string(), |from| format!("now {from}"));
        let once = if c.once.is_empty() { String::new() } else { format!(", {}", c.once) };
        format!("{} = {}{there} ({now}){once}", c.what, c.to)
    };
    set.iter().map(one).collect::<Vec<_>>().join(" and ")
}
