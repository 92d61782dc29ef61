//! From the texts of part files to finished designs and files, without touching disk or clock.

use crate::description::{self, Document, Fields, LeftOut, Problem, Taken};
use crate::families::{self, FAMILIES, Workplace, common};
use crate::printable::escaped;
use crate::record::design::{Design, Origin, Value};
use crate::record::show;
use crate::record::tools;
use crate::shop::Shop;
use crate::suggest;

/// Reads a file beside a part file: its name and text, or a sentence why not.
pub type Neighbour<'a> = dyn Fn(&str, &str) -> Result<(String, String), String> + Sync + 'a;

/// Works out one part.
///
/// # Errors
/// All problems of the file, in the order of their places.
#[allow(dead_code, reason = "tests work parts with it")]
pub fn work(file: &str, text: &str, shop: &Shop, neighbour: &Neighbour) -> Result<Design, Vec<Problem>> {
    work_watched(file, text, shop, neighbour, &|_| ())
}

/// The same, telling which share of a long work is done.
///
/// # Errors
/// All problems of the file, in the order of their places.
pub fn work_watched(
    file: &str,
    text: &str,
    shop: &Shop,
    neighbour: &Neighbour,
    progress: &families::Progress,
) -> Result<Design, Vec<Problem>> {
    let document = Document::parse(file, text)?;
    let near = |name: &str| neighbour(file, name);
    let place = Workplace { shop, file, neighbour: &near, progress };
    let design = family_of(&document).and_then(|family| (family.work)(&document.root(family.keys), &place));
    let left_out = document.left_out();
    let design = design.map(|mut design| {
        tell_left_out(&mut design, left_out);
        vanishing(&design, &document.root_unchecked());
        tools::lay_out(&mut design);
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

/// What nobody wrote and counts stands among the sizes, as assumed.
fn tell_left_out(design: &mut Design, left_out: Vec<LeftOut>) {
    let value = |taken| match taken {
        Taken::Word(word) => Value::Text(word),
        Taken::Count(count) => Value::Count(count),
        Taken::Length(length) => Value::Length(length.rounded()),
        Taken::Angle(angle) => Value::Angle(angle),
    };
    for one in left_out {
        match design.dimensions.iter_mut().find(|d| d.key == one.size.name()) {
            Some(told) => told.origin = Origin::Assumed(one.why),
            None => design.assumed(&one.size, value(one.taken), one.why),
        }
    }
}

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
