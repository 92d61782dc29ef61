//! `make`, `check`, `start`: the commands that read and write part files.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io::{self, IsTerminal, Write};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, Instant};

use clap::Args;
use rayon::prelude::*;

use super::{Exit, wrong};
use crate::description::{self, MAX_BYTES};
use crate::design::{Design, Verdict};
use crate::export::{self, Options, dxf, json, text};
use crate::families;
use crate::job;
use crate::manifest::Manifest;
use crate::output::{Claim, Finished, OutputError};
use crate::page::content::Style;
use crate::page::scale::Paper;
use crate::page::symbols::Projection;
use crate::printable::printable;
use crate::shop::Shop;
use crate::show;
use crate::units::Length;

/// Arguments of `make`.
#[derive(Args)]
pub struct Make {
    /// Part files, or folders of them
    #[arg(default_value = "parts")]
    paths: Vec<PathBuf>,
    /// Folder for the files; it appears whole or not at all
    #[arg(long, default_value = "out")]
    out: PathBuf,
    /// Only these kinds of file, such as dxf,stl
    #[arg(long, value_delimiter = ',')]
    only: Vec<String>,
    /// Greatest distance of STL facets from the true surface
    #[arg(long, default_value = "0.01 mm", value_parser = chord)]
    chord: Length,
    /// Paper of the drawing sheets: A4 or letter
    #[arg(long, default_value = "A4", value_parser = paper)]
    paper: Paper,
    /// Projection symbol: first or third angle
    #[arg(long, default_value = "first", value_parser = projection)]
    projection: Projection,
    /// Version of DXF: R2000 or R12
    #[arg(long, default_value = "R2000", value_parser = version)]
    dxf: dxf::Release,
}

/// Arguments of `check`.
#[derive(Args)]
pub struct Check {
    /// Part files, or folders of them
    #[arg(default_value = "parts")]
    paths: Vec<PathBuf>,
    /// Print JSON
    #[arg(long)]
    json: bool,
}

fn chord(text: &str) -> Result<Length, String> {
    let chord = super::read::size(text)?;
    if (1e-4..=1.0).contains(&chord.as_mm()) { Ok(chord) } else { Err("between 0.0001 mm and 1 mm".into()) }
}

fn version(text: &str) -> Result<dxf::Release, String> {
    match text.to_ascii_uppercase().as_str() {
        "R2000" => Ok(dxf::Release::R2000),
        "R12" => Ok(dxf::Release::R12),
        _ => Err("R2000 or R12".into()),
    }
}

fn paper(text: &str) -> Result<Paper, String> {
    match text.to_ascii_lowercase().as_str() {
        "a4" => Ok(Paper::A4),
        "letter" => Ok(Paper::Letter),
        _ => Err("A4 or letter".into()),
    }
}

fn projection(text: &str) -> Result<Projection, String> {
    match text {
        "first" => Ok(Projection::First),
        "third" => Ok(Projection::Third),
        _ => Err("first or third".into()),
    }
}

/// The name of the shop profile, which is not a part.
const SHOP_FILE: &str = "shop.toml";

/// One part file with what came of it.
struct Worked {
    file: String,
    design: Result<Design, String>,
}

/// Everything that a call names, worked out.
struct Batch {
    parts: Vec<Worked>,
    exit: Exit,
}

/// A path as it is written in outputs: with `/`, without a leading `./`.
fn shown(path: &Path) -> String {
    let text = printable(&path.to_string_lossy()).replace('\\', "/");
    text.strip_prefix("./").map_or(text.clone(), str::to_string)
}

/// The part files behind the paths, each once, in order of their names; troubles are told.
fn part_files(paths: &[PathBuf], err: &mut dyn Write) -> io::Result<(BTreeSet<PathBuf>, Exit)> {
    let (mut files, mut exit) = (BTreeSet::new(), Exit::Fine);
    for path in paths {
        match fs::metadata(path) {
            Err(error) => {
                writeln!(err, "error: cannot read {}: {error}", path.display())?;
                if error.kind() == io::ErrorKind::NotFound {
                    writeln!(err, "  help: `setdown start cone parts/cone.toml` writes a part file to begin with")?;
                }
                exit = exit.max(Exit::Disk);
            }
            Ok(meta) if meta.is_dir() => match toml_files(path) {
                Ok(found) if found.is_empty() => {
                    writeln!(
                        err,
                        "error: there are no part files (*.toml) in {}\n  help: `setdown start cone {}` writes one to begin with",
                        path.display(),
                        path.join("cone.toml").display()
                    )?;
                    exit = exit.max(Exit::Wrong);
                }
                Ok(found) => files.extend(found),
                Err(error) => {
                    writeln!(err, "error: cannot read the folder {}: {error}", path.display())?;
                    exit = exit.max(Exit::Disk);
                }
            },
            Ok(meta) if meta.is_file() => {
                files.insert(path.clone());
            }
            Ok(_) => {
                writeln!(err, "error: {} is neither a file nor a folder", path.display())?;
                exit = exit.max(Exit::Wrong);
            }
        }
    }
    Ok((files, exit))
}

fn toml_files(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.extension().is_some_and(|e| e == "toml") && path.file_name().is_some_and(|n| n != SHOP_FILE) {
            files.push(path);
        }
    }
    Ok(files)
}

/// Reads one text file. The sentence in the error says why not and with which status.
fn read_text(path: &Path) -> Result<String, (Exit, String)> {
    let name = shown(path);
    let disk = |error: io::Error| (Exit::Disk, format!("error: cannot read {name}: {error}"));
    let meta = fs::metadata(path).map_err(disk)?;
    if !meta.is_file() {
        return Err((Exit::Wrong, format!("error: {name} is not a file")));
    }
    if meta.len() > MAX_BYTES as u64 {
        return Err((
            Exit::Wrong,
            format!(
                "error: {name} is {} bytes long; a part file has at most {MAX_BYTES}\n  help: is it a drawing or a picture by mistake?",
                meta.len()
            ),
        ));
    }
    let bytes = fs::read(path).map_err(disk)?;
    description::decode(&name, &bytes)
        .map_err(|problem| (Exit::Wrong, job::render(&[problem], &String::from_utf8_lossy(&bytes))))
}

/// A neighbour of a part file: its name and text, or a sentence.
fn neighbour(of: &str, name: &str) -> Result<(String, String), String> {
    let path = Path::new(of).parent().unwrap_or(Path::new("")).join(name);
    match read_text(&path) {
        Ok(text) => Ok((shown(&path), text)),
        Err((_, message)) => Err(message.trim_start_matches("error: ").lines().next().unwrap_or_default().to_string()),
    }
}

/// The shop profile beside the first path, or the defaults.
fn shop(paths: &[PathBuf], err: &mut dyn Write) -> io::Result<Result<Shop, Exit>> {
    let Some(first) = paths.first() else { return Ok(Ok(Shop::default())) };
    let folder =
        if first.is_dir() { first.clone() } else { first.parent().map_or_else(PathBuf::new, Path::to_path_buf) };
    let path = folder.join(SHOP_FILE);
    if !path.exists() {
        return Ok(Ok(Shop::default()));
    }
    shop_at(&path, err)
}

/// The shop profile in the file that was named, or the defaults.
pub fn shop_or_usual(path: Option<&Path>, err: &mut dyn Write) -> io::Result<Result<Shop, Exit>> {
    path.map_or_else(|| Ok(Ok(Shop::default())), |path| shop_at(path, err))
}

/// The shop profile in that file; its problems are told.
fn shop_at(path: &Path, err: &mut dyn Write) -> io::Result<Result<Shop, Exit>> {
    match read_text(path) {
        Err((exit, message)) => writeln!(err, "{message}").map(|()| Err(exit)),
        Ok(text) => match Shop::read(&shown(path), &text) {
            Ok(shop) => Ok(Ok(shop)),
            Err(problems) => write!(err, "{}", job::render(&problems, &text)).map(|()| Err(Exit::Wrong)),
        },
    }
}

/// Reads and works every part; problems are told in the order of the files.
fn batch(paths: &[PathBuf], err: &mut dyn Write) -> io::Result<Batch> {
    let (files, mut exit) = part_files(paths, err)?;
    let shop = match shop(paths, err)? {
        Ok(shop) => shop,
        Err(exit) => return Ok(Batch { parts: Vec::new(), exit }),
    };
    let files: Vec<PathBuf> = files.into_iter().collect();
    let twice = same_stems(&files);
    let bar = Progress::new(files.len());
    let results: Vec<Result<Worked, (Exit, String)>> = files
        .par_iter()
        .map(|path| {
            let w = work_one(path, &shop, &twice, &bar);
            bar.step();
            w
        })
        .collect();
    bar.end();
    let mut parts = Vec::new();
    for (path, result) in files.iter().zip(results) {
        let worked = result.unwrap_or_else(|(status, message)| {
            exit = exit.max(status);
            Worked { file: shown(path), design: Err(message) }
        });
        match &worked.design {
            Err(message) => {
                exit = exit.max(Exit::Wrong);
                writeln!(err, "{}", message.trim_end())?;
            }
            Ok(design) if design.verdict() == Verdict::Fail => exit = exit.max(Exit::Fails),
            Ok(_) => {}
        }
        parts.push(worked);
    }
    Ok(Batch { parts, exit })
}

/// Stems that more than one file has, each with its files.
fn same_stems(files: &[PathBuf]) -> BTreeMap<String, Vec<String>> {
    let mut stems: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for path in files {
        stems.entry(stem(path).to_ascii_lowercase()).or_default().push(shown(path));
    }
    stems.retain(|_, files| files.len() > 1);
    stems
}

fn stem(path: &Path) -> String {
    path.file_stem().map_or_else(String::new, |s| s.to_string_lossy().into_owned())
}

fn work_one(
    path: &Path,
    shop: &Shop,
    twice: &BTreeMap<String, Vec<String>>,
    bar: &Progress,
) -> Result<Worked, (Exit, String)> {
    let file = shown(path);
    if let Some(trouble) = job::stem_trouble(&stem(path)) {
        return Err((Exit::Wrong, format!("error: {file}: {trouble}\n  help: rename the part file")));
    }
    if let Some(files) = twice.get(&stem(path).to_ascii_lowercase()) {
        return Err((
            Exit::Wrong,
            format!(
                "error: {file}: its output files would have the same names as those of another part ({})\n  help: rename one of the part files",
                files.join(", ")
            ),
        ));
    }
    let text = read_text(path)?;
    let design = job::work_watched(&file, &text, shop, &neighbour, &|share| bar.within(share))
        .map_err(|problems| job::render(&problems, &text));
    Ok(Worked { file, design })
}

/// A progress bar that appears only when a person watches and the work takes longer than a second. It counts parts, and
/// within a part that takes long its share, so that a single one moves it too.
struct Progress {
    bar: Option<indicatif::ProgressBar>,
    begun: Instant,
    done: AtomicU64,
}

/// Steps of the bar for one part.
const FINE: u64 = 1000;

impl Progress {
    fn new(parts: usize) -> Self {
        let bar = io::stderr().is_terminal().then(|| {
            let hidden = indicatif::ProgressDrawTarget::hidden();
            let bar = indicatif::ProgressBar::with_draw_target(Some(parts as u64 * FINE), hidden);
            // Steps say nothing to a person; should the fixed template ever be wrong, the usual bar does as well.
            match indicatif::ProgressStyle::with_template("{wide_bar} {percent} %") {
                Ok(style) => bar.with_style(style),
                Err(_) => bar,
            }
        });
        Self { bar, begun: Instant::now(), done: AtomicU64::new(0) }
    }

    fn step(&self) {
        self.show(self.done.fetch_add(FINE, Ordering::Relaxed) + FINE);
    }

    /// A share of one part is done, the others being where they are.
    fn within(&self, share: f64) {
        self.show(self.done.load(Ordering::Relaxed) + (share.clamp(0.0, 1.0) * FINE as f64) as u64);
    }

    fn show(&self, position: u64) {
        let Some(bar) = &self.bar else { return };
        // Never backwards: parts are worked side by side.
        bar.set_position(position.max(bar.position()));
        if bar.is_hidden() && self.begun.elapsed() > Duration::from_secs(1) {
            bar.set_draw_target(indicatif::ProgressDrawTarget::stderr());
        }
    }

    fn end(&self) {
        if let Some(bar) = &self.bar {
            bar.finish_and_clear();
        }
    }
}

/// `check`.
pub fn check(call: &Check, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    let batch = batch(&call.paths, err)?;
    let designs: Vec<&Design> = batch.parts.iter().filter_map(|p| p.design.as_ref().ok()).collect();
    if call.json {
        let array = serde_json::Value::Array(designs.iter().map(|d| json::summary(d)).collect());
        write!(out, "{}", json::to_text(&array))?;
        return Ok(batch.exit);
    }
    for (i, design) in designs.iter().enumerate() {
        if i > 0 {
            writeln!(out)?;
        }
        for line in text::check_sheet(design).lines() {
            writeln!(out, "{}", coloured(line))?;
        }
    }
    Ok(batch.exit)
}

/// `survey`.
pub fn survey(file: &Path, json: bool, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    let batch = batch(&[file.to_path_buf()], err)?;
    let Some(design) = batch.parts.iter().find_map(|p| p.design.as_ref().ok()) else { return Ok(batch.exit) };
    if !design.tables.iter().any(|t| t.key.starts_with("survey")) {
        return wrong(
            err,
            format!("{} holds no tape survey; [survey.cones] and [survey.cups] of a landing do", shown(file)),
        );
    }
    if json {
        let survey = design.figures.get("landing").and_then(|l| l.get("survey")).cloned().unwrap_or_default();
        return write!(out, "{}", json::to_text(&survey)).map(|()| Exit::Fine);
    }
    for line in text::part_of_sheet(design, "survey").lines() {
        writeln!(out, "{}", coloured(line))?;
    }
    Ok(Exit::Fine)
}

/// The verdict at the head of a line in its colour; the stream drops the codes where nobody wants them.
fn coloured(line: &str) -> String {
    let codes = [("ok", "\x1b[32m"), ("caution", "\x1b[33m"), ("fail", "\x1b[1;31m")];
    for (word, code) in codes {
        if let Some(rest) = line.strip_prefix("  ").and_then(|l| l.strip_prefix(word)).filter(|r| r.starts_with(' ')) {
            return format!("  {code}{word}\x1b[0m{rest}");
        }
    }
    line.to_string()
}

/// `make`.
pub fn make(call: &Make, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    let known: Vec<&str> = export::FORMATS.iter().map(|f| f.extension).collect();
    if let Some(unknown) = call.only.iter().find(|o| !known.contains(&o.as_str())) {
        return wrong(err, format!("there is no kind of file `{unknown}`; the kinds are {}", known.join(", ")));
    }
    let batch = batch(&call.paths, err)?;
    if batch.parts.iter().all(|p| p.design.is_err()) {
        return Ok(batch.exit);
    }
    let style = Style { paper: call.paper, projection: call.projection, ..Style::default() };
    let options = Options { chord_tolerance: call.chord, dxf: call.dxf, style, only: call.only.clone() };
    match write_folder(call, &batch, &options) {
        Ok(Finished { changed, files }) => {
            summary(&batch, out)?;
            let what = if changed { " files written" } else { " files, nothing changed" };
            writeln!(out, "{}: {files}{what}", call.out.display())?;
            Ok(batch.exit)
        }
        Err(Trouble::Output(error @ OutputError::SameName { .. })) => wrong(err, error),
        Err(Trouble::Output(error)) => {
            writeln!(err, "error: {error}")?;
            Ok(Exit::Disk)
        }
        Err(Trouble::Part(message)) => wrong(err, message),
    }
}

enum Trouble {
    Output(OutputError),
    Part(String),
}

impl From<OutputError> for Trouble {
    fn from(error: OutputError) -> Self {
        Self::Output(error)
    }
}

/// Builds the new folder from the new files and those kept from earlier, and puts it in place.
fn write_folder(call: &Make, batch: &Batch, options: &Options) -> Result<Finished, Trouble> {
    let claim = Claim::new(&call.out)?;
    let earlier = claim.earlier()?;
    let staging = claim.stage()?;
    let write = |part: &Worked| -> Result<(), Trouble> {
        let Ok(design) = &part.design else { return Ok(()) };
        let files = export::files(design, options).map_err(|error| Trouble::Part(format!("{}: {error}", part.file)))?;
        Ok(files.iter().try_for_each(|(name, bytes)| staging.put(&part.file, name, bytes))?)
    };
    // Collected in the order of the parts, so that of several troubles the first is told, whichever came first.
    let outcomes: Vec<Result<(), Trouble>> = batch.parts.par_iter().map(write).collect();
    outcomes.into_iter().collect::<Result<(), Trouble>>()?;
    kept(&earlier, batch).into_iter().try_for_each(|entry| staging.keep(entry))?;
    Ok(staging.finish()?)
}

/// Files of earlier runs that stay: those of parts which could not be worked this time, and of parts which this call
/// did not name but which still exist.
fn kept<'a>(earlier: &'a Manifest, batch: &Batch) -> Vec<&'a crate::manifest::Entry> {
    let stays = |part: &str| match batch.parts.iter().find(|p| p.file == part) {
        Some(worked) => worked.design.is_err(),
        None => Path::new(part).is_file(),
    };
    earlier.files.iter().filter(|entry| stays(&entry.part)).collect()
}

fn summary(batch: &Batch, out: &mut dyn Write) -> io::Result<()> {
    for part in &batch.parts {
        let Ok(design) = &part.design else { continue };
        let cautions = design.findings.iter().filter(|f| f.verdict == Verdict::Caution).count();
        let note = match cautions {
            0 => String::new(),
            1 => ", 1 caution".into(),
            n => format!(", {n} cautions"),
        };
        let head = format!(
            "  {:<8}{} ({}, {} to make{note})",
            design.verdict().word(),
            design.header.name,
            design.header.family,
            design.header.count
        );
        writeln!(out, "{}", coloured(&head))?;
        for line in show::finding_lines(design).iter().filter(|l| l.verdict == "fail") {
            writeln!(out, "          {} - {}", line.head, line.because)?;
        }
    }
    Ok(())
}

/// `start`.
pub fn start(family: &str, file: &Path, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
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
    if let Some(folder) = file.parent().filter(|p| !p.as_os_str().is_empty()) {
        fs::create_dir_all(folder).ok();
    }
    let written = fs::File::create_new(file).and_then(|mut f| f.write_all(found.template.as_bytes()));
    match written {
        Ok(()) => {
            for (name, text) in found.companions {
                let beside = file.with_file_name(name);
                if fs::File::create_new(&beside).and_then(|mut f| f.write_all(text.as_bytes())).is_ok() {
                    writeln!(out, "{} written as well: {} names it.", shown(&beside), shown(file))?;
                }
            }
            writeln!(
                out,
                "{} written. Change its figures, then:\n  setdown check {0}\n  setdown make {0}",
                shown(file)
            )?;
            Ok(Exit::Fine)
        }
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {
            wrong(err, format!("{} exists already; it stays as it is", shown(file)))
        }
        Err(error) => {
            writeln!(err, "error: cannot write {}: {error}", shown(file))?;
            Ok(Exit::Disk)
        }
    }
}
