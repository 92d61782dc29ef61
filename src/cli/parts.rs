//! `survey` and `start`, and how the commands that write no outputs go through the parts (`check` has a file of its own).

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use rayon::prelude::*;

use super::printing::Printing;
use super::progress::Progress;
use super::reading::{self, InForce, Texts, part_files, shown, stem};
use super::{Exit, shop, wrong};
use crate::export::{self, json, text};
use crate::families;
use crate::job;
use crate::record::design::{Design, Verdict};
use crate::sheet::content::Style;

/// So many parts are worked side by side before what is to be said of them is said.
const AT_ONCE: usize = 64;

/// Works every part and hands each design on, in the order of the files; problems are told in that order too.
pub(super) fn each(
    paths: &[PathBuf],
    (printing, as_drawn): (Printing, bool),
    err: &mut dyn Write,
    say: &(dyn Fn(&Design) -> String + Sync),
    print: &mut dyn FnMut(String) -> io::Result<()>,
) -> io::Result<Exit> {
    let (files, shop, mut exit) = match parts_and_shop(paths, err)? {
        Ok(found) => found,
        Err(exit) => return Ok(exit),
    };
    let style = printing.style(&shop.profile);
    let twice = reading::same_stems(&files);
    let (bar, texts) = (Progress::new(files.len()), Texts::new(as_drawn));
    for some in files.chunks(AT_ONCE) {
        let worked: Vec<Result<(Verdict, String), (Exit, String)>> = some
            .par_iter()
            .map(|path| {
                let design = reading::unique(path, &twice).and_then(|()| texts.work(path, &shop.profile, &bar));
                bar.step();
                design.and_then(|w| drawn(path, w.design, &style)).map(|design| (design.verdict(), say(&design)))
            })
            .collect();
        for outcome in worked {
            match outcome {
                Ok((verdict, said)) => {
                    exit = exit.max(if verdict == Verdict::Fail { Exit::Fails } else { Exit::Fine });
                    print(said)?;
                }
                Err((status, message)) => {
                    exit = exit.max(status);
                    writeln!(err, "{}", message.trim_end())?;
                }
            }
        }
    }
    bar.end();
    Ok(exit)
}

/// The part files behind the paths with the shop's profile in force, and what came of files that cannot be read.
type PartsAndShop = (Vec<PathBuf>, InForce, Exit);

pub(super) fn parts_and_shop(paths: &[PathBuf], err: &mut dyn Write) -> io::Result<Result<PartsAndShop, Exit>> {
    let (mut files, exit) = part_files(paths, err)?;
    files.retain(|file| !shop::is_shop(file));
    let shop = reading::shop(paths, err)?;
    Ok(shop.map(|shop| (files.into_iter().collect(), shop, exit)))
}

/// The design, if `make` could draw its sheets.
fn drawn(path: &Path, design: Design, style: &Style) -> Result<Design, reading::Trouble> {
    match export::undrawable(&design, style) {
        Some(why) => Err((Exit::Wrong, format!("error: {}: {why}", shown(path)))),
        None => Ok(design),
    }
}

/// The check that rests on all that a survey decides.
const BY_SURVEY: &str = "survey_cones_unseen";

/// `survey`: of a landing its survey alone.
pub fn survey(file: &Path, json: bool, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    let (files, shop, exit) = match parts_and_shop(&[file.to_path_buf()], err)? {
        Ok(found) => found,
        Err(exit) => return Ok(exit),
    };
    let Some(path) = files.last() else { return Ok(exit) };
    let design = match Texts::default().work_for(path, &shop.profile, BY_SURVEY) {
        Ok(design) => design,
        Err((status, message)) => {
            writeln!(err, "{}", message.trim_end())?;
            return Ok(exit.max(status));
        }
    };
    if !design.tables.iter().any(|t| t.key.starts_with("survey")) {
        let message = format!("{} holds no tape survey; [survey.cones] and [survey.cups] of a landing do", shown(file));
        return wrong(err, message);
    }
    if json {
        let survey = design.figures.get("landing").and_then(|l| l.get("survey")).cloned().unwrap_or_default();
        write!(out, "{}", json::to_text(&survey))?;
    } else {
        let coloured: Vec<String> = text::part_of_sheet(&design, "survey").lines().map(coloured).collect();
        writeln!(out, "{}", coloured.join("\n"))?;
    }
    // What else fails in the landing is not shown here and does not count.
    let fails = design.findings.iter().any(|f| f.key.starts_with("survey") && f.verdict == Verdict::Fail);
    Ok(if fails { Exit::Fails } else { Exit::Fine })
}

/// The verdict at the head of a line in its colour; the stream drops the codes where nobody wants them.
pub fn coloured(line: &str) -> String {
    let codes = [("ok", "\x1b[32m"), ("caution", "\x1b[33m"), ("fail", "\x1b[1;31m")];
    for (word, code) in codes {
        if let Some(rest) = line.strip_prefix("  ").and_then(|l| l.strip_prefix(word)).filter(|r| r.starts_with(' ')) {
            return format!("  {code}{word}\x1b[0m{rest}");
        }
    }
    line.to_string()
}

/// `start shop`.
fn start_shop(file: &Path, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    if !shop::is_shop(file) {
        return wrong(
            err,
            format!(
                "the shop's file is called {}: {}",
                reading::SHOP_FILE,
                file.with_file_name(reading::SHOP_FILE).display()
            ),
        );
    }
    if let Some(exit) = write_new(file, shop::TEMPLATE, err)? {
        return Ok(exit);
    }
    writeln!(out, "{} written. Change its figures, then:\n  setdown check {0}", shown(file))?;
    Ok(Exit::Fine)
}

/// Writes a new file, its folder with it; where one is there already, or the disk refuses, that is told and how it ends.
fn write_new(file: &Path, text: &str, err: &mut dyn Write) -> io::Result<Option<Exit>> {
    if let Some(folder) = file.parent().filter(|p| !p.as_os_str().is_empty()) {
        fs::create_dir_all(folder).ok();
    }
    match fs::File::create_new(file).and_then(|mut f| f.write_all(text.as_bytes())) {
        Ok(()) => Ok(None),
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {
            wrong(err, format!("{} exists already; it stays as it is", shown(file))).map(Some)
        }
        Err(error) => {
            writeln!(err, "error: cannot write {}: {error}", shown(file))?;
            Ok(Some(Exit::Disk))
        }
    }
}

/// `start`.
pub fn start(family: &str, file: &Path, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    if family == "shop" {
        return start_shop(file, out, err);
    }
    let Some(found) = families::family(family) else {
        let known: Vec<&str> = families::FAMILIES.iter().map(|f| f.name).collect();
        return wrong(err, format!("there is no family `{family}`; the families are {}", known.join(", ")));
    };
    if let Some(trouble) = job::stem_trouble(&stem(file)) {
        return wrong(err, trouble);
    }
    if file.extension().is_none_or(|e| e != "toml") {
        return wrong(err, format!("a part file's name ends in .toml: {}", file.with_extension("toml").display()));
    }
    if let Some(exit) = write_new(file, found.template, err)? {
        return Ok(exit);
    }
    for (name, text) in found.companions {
        let beside = file.with_file_name(name);
        if fs::File::create_new(&beside).and_then(|mut f| f.write_all(text.as_bytes())).is_ok() {
            writeln!(out, "{} written as well: {} names it.", shown(&beside), shown(file))?;
        }
    }
    writeln!(out, "{} written. Change its figures, then:\n  setdown check {0}\n  setdown make {0}", shown(file))?;
    let profile = file.with_file_name(reading::SHOP_FILE);
    if !profile.exists() {
        writeln!(
            out,
            "Speeds, travel and tools are those of a usual small lathe; tell those of yours:\n  setdown start shop {}",
            shown(&profile)
        )?;
    }
    Ok(Exit::Fine)
}
