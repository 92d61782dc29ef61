//! From the texts of part files to finished designs and files, without touching disk or clock.

use crate::description::{self, Document, Fields, Problem};
use crate::families::{self, Depth, FAMILIES, Kept, Workplace, common};
use crate::printable::escaped;
use crate::record::design::{Check, Design, Finding, Value, Verdict};
use crate::record::show;
use crate::record::tools;
use crate::remedy::unknown::{self, Found};
use crate::remedy::{self, Instead, Judged, edit};
use crate::shop::Shop;
use crate::source::Source;
use crate::suggest;

/// Reads a file beside a part file: its name and text, or a sentence why not.
pub type Neighbour<'a> = dyn Fn(&str, &str) -> Result<(String, String), String> + Sync + 'a;

/// Works out one part.
///
/// # Errors
/// All problems of the file, in the order of their places.
pub fn work(file: &str, text: &str, shop: &Shop, neighbour: &Neighbour) -> Result<Design, Vec<Problem>> {
    Job { shop, neighbour, as_drawn: false, kept: &Kept::default() }.worked(file, text, &|_| ())
}

/// The same with what clears each finding that is not in order, telling which share of a long work is done.
///
/// # Errors
/// All problems of the file, in the order of their places.
pub fn work_advised(
    file: &str,
    text: &str,
    shop: &Shop,
    neighbour: &Neighbour,
    as_drawn: bool,
    progress: &families::Progress,
) -> Result<Design, Vec<Problem>> {
    let job = Job { shop, neighbour, as_drawn, kept: &Kept::default() };
    let mut design = job.worked(file, text, progress)?;
    job.advise(&mut design, text);
    Ok(design)
}

/// A part as far as the check of that name needs it, with what is done by hand where a finding is not in order.
///
/// # Errors
/// All problems of the file, in the order of their places.
pub fn work_for(
    file: &str,
    text: &str,
    shop: &Shop,
    neighbour: &Neighbour,
    check: &str,
) -> Result<Design, Vec<Problem>> {
    let job = Job { shop, neighbour, as_drawn: false, kept: &Kept::default() };
    let (filled, _) = job.filled(file, text)?;
    let mut design = job.once(file, &filled, Depth::For(check), &|_| ())?;
    let Some(family) = families::family(design.header.family) else { return Ok(design) };
    for finding in design.findings.iter_mut().filter(|f| f.clearing.why_none.is_none()) {
        finding.clearing = remedy::by_hand(&[family.remedies, common::levers::REMEDIES], finding);
    }
    Ok(design)
}

/// What parts are worked with.
#[derive(Clone, Copy)]
struct Job<'a> {
    shop: &'a Shop,
    neighbour: &'a Neighbour<'a>,
    /// Readings are left out.
    as_drawn: bool,
    kept: &'a Kept,
}

impl Job<'_> {
    /// A part, with values found where the file asks for them.
    fn worked(&self, file: &str, text: &str, progress: &families::Progress) -> Result<Design, Vec<Problem>> {
        let (filled, found) = self.filled(file, text)?;
        let mut design = self.once(file, &filled, Depth::Whole, progress)?;
        for one in &found {
            let text = format!("{} = {}: {}", one.key, one.to, one.why);
            design.note(&FOUND, text);
        }
        Ok(design)
    }

    /// The text with the values that it asks for.
    fn filled(&self, file: &str, text: &str) -> Result<(String, Vec<Found>), Vec<Problem>> {
        // Nearly every file asks for nothing, and is not read twice.
        if !text.contains(unknown::ASKED) {
            return Ok((text.into(), Vec::new()));
        }
        let document = Document::parse(file, text)?;
        let Some(family) = family_of(&document) else { return Err(document.into_problems()) };
        let remedies = [family.remedies, common::levers::REMEDIES];
        let work = |instead: &[Instead]| self.judged(file, text, instead, Depth::Exact);
        unknown::fill(text, &remedies, &work, file).map_err(|troubles| {
            let root = document.root_unchecked();
            for trouble in troubles {
                let place = edit::File::read(text).and_then(|f| f.at(&trouble.key)).map_or(0..0, |f| f.place);
                root.problem_in(place, trouble.message, Some(trouble.help));
            }
            document.into_problems()
        })
    }

    fn once(
        &self,
        file: &str,
        text: &str,
        depth: Depth<'_>,
        progress: &families::Progress,
    ) -> Result<Design, Vec<Problem>> {
        let document = Document::parse(file, text)?;
        let near = |name: &str| (self.neighbour)(file, name);
        let (shop, as_drawn, kept) = (self.shop, self.as_drawn, self.kept);
        let place = Workplace { shop, file, neighbour: &near, depth, as_drawn, progress, kept };
        let design =
            family_of(&document).and_then(|family| families::worked(family, &document.root(family.keys), &place));
        let design = design.map(|mut design| {
            vanishing(&design, &document.root_unchecked());
            if depth.is_shown() {
                tools::lay_out(&mut design);
            }
            design
        });
        let problems = document.into_problems();
        match design {
            Some(design) if problems.is_empty() => Ok(design),
            _ if problems.is_empty() => Err(vec![Problem::whole_file(
                file,
                "this part could not be worked out, and no reason was noted: a fault in the program",
            )]),
            _ => Err(problems),
        }
    }

    /// The findings of a part with other texts in place of those of some files, without draws.
    fn judged(&self, file: &str, text: &str, instead: &[Instead], depth: Depth<'_>) -> Option<Vec<Judged>> {
        let other = |name: &str| instead.iter().find(|(file, _)| file == name).map(|(_, text)| text.clone());
        let neighbour = |of: &str, name: &str| {
            let (shown, text) = (self.neighbour)(of, name)?;
            let text = other(&shown).unwrap_or(text);
            Ok((shown, text))
        };
        let job = Job { neighbour: &neighbour, ..*self };
        let text = other(file).unwrap_or_else(|| text.to_string());
        let design = job.once(file, &text, depth, &|_| ()).ok()?;
        Some(design.findings.iter().map(Judged::of).collect())
    }

    /// Says at each finding that is not in order what clears it.
    fn advise(&self, design: &mut Design, text: &str) {
        let Some(family) = families::family(design.header.family) else { return };
        let file = design.header.file.clone();
        let known: Vec<(String, f64)> = design.dimensions.iter().map(|d| (d.key.clone(), d.value.number())).collect();
        let usual = |path: &str| {
            let key = path.rsplit('.').next()?;
            known.iter().find(|(k, value)| k == key && value.is_finite()).map(|(_, value)| *value)
        };
        let case = remedy::Case {
            file: &file,
            text,
            unit: Some(design.header.unit),
            neighbour: &|name| (self.neighbour)(&file, name).ok(),
            usual: &usual,
            long: family.long,
            work: &|instead| self.judged(&file, text, instead, Depth::Exact),
            work_for: &|check, instead| self.judged(&file, text, instead, Depth::For(check)),
            work_mate: &|mate, text, instead| self.judged(mate, text, instead, Depth::Exact),
            remedies: &[family.remedies, common::levers::REMEDIES],
        };
        let clearings = remedy::clearings(&case, &design.findings);
        // What is to be done with a measured size stands in its reading.
        let open = |finding: &Finding| finding.clearing.why_none.is_none();
        for (finding, clearing) in design.findings.iter_mut().zip(clearings).filter(|(f, _)| open(f)) {
            finding.clearing = clearing;
        }
    }
}

/// A value that the file left to the program.
const FOUND: Check = Check {
    key: "found",
    what: "value that was asked for",
    worst: Verdict::Ok,
    source: Source::Derived("every value that can be had is worked through the same checks"),
};

/// Notes sizes whose tolerance leaves nothing of them.
fn vanishing(design: &Design, root: &Fields) {
    for (dimension, limits) in design.vanishing() {
        let Value::Length(size) = &dimension.value else { continue };
        let [size, least] = [*size, limits.lower].map(|l| show::length(l, design.header.unit));
        let message = format!("nothing would be left of the {} of {size}: its least is {least}", dimension.label);
        let help = format!("make it larger, or its tolerance closer (it is set by: {})", limits.by);
        root.problem_at_name(&dimension.key, message, Some(help));
    }
}

fn family_of(document: &Document) -> Option<&'static families::Family> {
    let root: Fields = document.root_unchecked();
    let name = root.required_text(&common::FAMILY)?;
    let found = families::family(&name.value);
    if found.is_none() {
        let known: Vec<&str> = FAMILIES.iter().map(|f| f.name).collect();
        let near = suggest::nearest(&name.value, known.iter().copied());
        let help = if near.is_empty() {
            format!("the families are {}", known.join(", "))
        } else {
            format!("did you mean {}?", near.join(" or "))
        };
        let help = if name.value == "shop" {
            "the shop's file is no part: call it shop.toml, and `setdown check` says what is in force".into()
        } else {
            help
        };
        root.problem_at(&common::FAMILY, format!("there is no family `{}`", name.value), Some(help));
    }
    found
}

/// Checks a stem: it becomes the name of files that travel to other machines.
pub fn stem_trouble(stem: &str) -> Option<String> {
    let plain = stem.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.' | ' '));
    let odd =
        stem.is_empty() || stem.len() > 60 || !plain || stem.starts_with(['.', ' ', '-']) || stem.ends_with([' ', '.']);
    let why = if odd {
        "use letters, digits, - and _, at most 60, beginning with a letter or digit"
    } else if is_device(stem) {
        "on some machines that is the name of a device, whatever stands behind its dot"
    } else if stem.eq_ignore_ascii_case("manifest") {
        "that is the name of the list of files"
    } else if stem.eq_ignore_ascii_case("job") {
        "that is the name of the files of the whole job"
    } else {
        return None;
    };
    Some(format!("`{}` cannot name output files: {why}", escaped(stem)))
}

/// Whether Windows takes a file of that name for a device, with any extension.
/// Source: Microsoft, Naming Files, Paths, and Namespaces: CON, PRN, AUX, NUL, COM0-9, LPT0-9, followed by an
/// extension too; CONIN$ and CONOUT$ of the console.
fn is_device(stem: &str) -> bool {
    let first = stem.split('.').next().unwrap_or_default().trim_end().to_ascii_lowercase();
    let numbered = ["com", "lpt"].iter().filter_map(|port| first.strip_prefix(port));
    ["con", "prn", "aux", "nul", "conin$", "conout$"].contains(&first.as_str())
        || numbered.into_iter().any(|n| n.len() == 1 && n.chars().all(|c| c.is_ascii_digit()))
}

/// The problems of a file as text, with the lines that they point at.
pub fn render(problems: &[Problem], text: &str) -> String {
    description::render_all(problems, text)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What a working for one check leaves out does not move that check's finding.
    #[test]
    fn a_finding_is_the_same_at_every_depth() {
        let text =
            |name: &str| std::fs::read_to_string(format!("{}/parts/{name}", env!("CARGO_MANIFEST_DIR"))).unwrap();
        let neighbour = |_: &str, name: &str| Ok((name.to_string(), text(name)));
        let shop = Shop::default();
        let job = Job { shop: &shop, neighbour: &neighbour, as_drawn: false, kept: &Kept::default() };
        let name = "landing-observatory.toml";
        let at = |depth| job.judged(name, &text(name), &[], depth).unwrap();
        let exact = at(Depth::Exact);
        let checks = families::landing::FAMILY.remedies.iter().flat_map(|r| r.checks);
        let mut held = 0;
        for check in checks {
            let of = |all: &[Judged]| all.iter().filter(|j| j.key == **check).cloned().collect::<Vec<_>>();
            let wanted = of(&exact);
            held += wanted.len();
            // Compared as texts, since what has no value is no number.
            assert_eq!(format!("{:?}", of(&at(Depth::For(check)))), format!("{wanted:?}"), "{check}");
        }
        assert!(held > 10, "{held} findings");
    }
}
