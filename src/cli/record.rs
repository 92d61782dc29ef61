//! `record`: what was measured goes into the part file, and what it means is said at once.

use std::io::{self, Write};
use std::path::PathBuf;
use std::time::SystemTime;

use clap::Args;

use super::change::Answers;
use super::in_place::{Held, refused, written};
use super::reading::{self, Texts, shown, text_of};
use super::{Exit, shop, teach, wrong};
use crate::description::MAX_BYTES;
use crate::families::common::measured;
use crate::record::design::{Design, Dimension};
use crate::record::reading::Reading;
use crate::record::show;
use crate::remedy::edit::File;
use crate::shop::Shop;
use crate::units::date::Date;

/// Arguments of `record`.
#[derive(Args)]
pub struct Record {
    /// Part file
    part: PathBuf,
    /// What was measured: base_diameter=60.02mm; without any, each size is asked for
    #[arg(value_name = "WHAT=VALUE")]
    readings: Vec<String>,
    /// The instrument, such as micrometer
    #[arg(long)]
    with: Option<String>,
    /// How warm the part was, such as 31C; leave it out where part and instrument are of steel and lay side by side
    #[arg(long, value_name = "TEMPERATURE")]
    at: Option<String>,
    /// Which of several pieces
    #[arg(long, value_name = "NUMBER")]
    piece: Option<u32>,
    /// The day, such as 2026-05-02
    #[arg(long, value_name = "DAY")]
    on: Option<String>,
    /// A remark
    #[arg(long, value_name = "WORDS")]
    note: Option<String>,
    /// Metal was cut since the last reading
    #[arg(long)]
    after_cut: bool,
    /// Take the last reading back
    #[arg(long, conflicts_with_all = ["readings", "with", "at", "piece", "on", "note", "after_cut"])]
    undo: bool,
    /// Write what the readings teach of printer, tape or lathe into shop.toml
    #[arg(long, conflicts_with_all = ["readings", "with", "at", "piece", "on", "note", "after_cut", "undo"])]
    teach: bool,
}

/// Why nothing was written.
type Refused = (Exit, String);

/// `record`.
pub fn record(call: &Record, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    if shop::is_shop(&call.part) || call.part.is_dir() {
        return wrong(err, format!("{} is no part file: readings are of one part", shown(&call.part)));
    }
    if let Some(trouble) = call.on.as_deref().and_then(day_trouble) {
        return wrong(err, trouble);
    }
    let profile = match reading::shop(std::slice::from_ref(&call.part), err)? {
        Ok(shop) => shop.profile,
        Err(exit) => return Ok(exit),
    };
    let bench = Bench { call, profile: &profile };
    let done = if call.undo {
        bench.undo()
    } else if call.teach {
        teach::teach(&call.part, &profile)
    } else if call.readings.is_empty() {
        return bench.ask(&mut io::stdin().lines(), out, err);
    } else {
        bench.put(&call.readings, call.piece)
    };
    match done {
        Ok(said) => write!(out, "{said}").map(|()| Exit::Fine),
        Err((exit, message)) => {
            writeln!(err, "{}", message.trim_end())?;
            Ok(exit)
        }
    }
}

/// What is wrong with a day: it is none, or it is still to come by the clock of this machine.
fn day_trouble(text: &str) -> Option<String> {
    let Some(day) = Date::parse(text.trim()) else {
        return Some(format!("`{text}` is no day of the calendar: year, month and day, such as 2026-05-02"));
    };
    let seconds = SystemTime::now().duration_since(SystemTime::UNIX_EPOCH).map_or(0, |since| since.as_secs());
    // Where the sun rises first it is tomorrow already.
    let tomorrow = i32::try_from(seconds / 86_400).unwrap_or(i32::MAX - 1) + 1;
    (day.days() > tomorrow).then(|| format!("{day} is still to come; nothing is written"))
}

/// One call of `record`.
struct Bench<'a> {
    call: &'a Record,
    profile: &'a Shop,
}

impl Bench<'_> {
    fn work(&self, text: &str) -> Result<Design, Refused> {
        Texts::default().work_as(&self.call.part, text, self.profile)
    }

    /// Writes readings into the part file, all or none, and says what each means.
    fn put(&self, readings: &[String], piece: Option<u32>) -> Result<String, Refused> {
        let path = &self.call.part;
        let _held = Held::take(path).map_err(|why| (Exit::Disk, format!("error: {why}")))?;
        let before = text_of(path)?;
        let design = self.work(&before)?;
        let mut text = before;
        let mut sizes = Vec::new();
        for one in readings {
            let (what, value) = pair(one)?;
            let dimension = measured::meant(&design, what).map_err(|(message, help)| refused(&message, &help))?;
            let row = self.row(&dimension.key, value, piece);
            let rows: Vec<(&str, String)> = row.iter().map(|(key, value)| (*key, value.clone())).collect();
            let more = File::read(&text).and_then(|file| file.with_row(measured::MEASURED.name, &rows));
            text =
                more.ok_or_else(|| refused("`measured` of this part file is no list of readings", "[[measured]]"))?;
            sizes.push(dimension.key.clone());
        }
        if text.len() > MAX_BYTES {
            return Err(refused("the part file would be too long to be read", "take old readings out"));
        }
        let after =
            self.work(&text).map_err(|(exit, why)| (exit, format!("{}\nnothing is written", why.trim_end())))?;
        written(path, &text)?;
        Ok(told(&after, &sizes, piece))
    }

    /// The keys of a row, in the order in which they are written.
    fn row(&self, what: &str, value: &str, piece: Option<u32>) -> Vec<(&'static str, String)> {
        let call = self.call;
        let text = |key, value: &Option<String>| value.as_ref().map(|v| (key, quoted(v.trim())));
        let mut row = vec![("what", quoted(what)), ("value", quoted(value.trim()))];
        row.extend(text("with", &call.with));
        row.extend(text("at", &call.at));
        row.extend(piece.map(|piece| ("piece", piece.to_string())));
        row.extend(text("on", &call.on));
        row.extend(call.after_cut.then(|| ("after_cut", "true".to_string())));
        row.extend(text("note", &call.note));
        row
    }

    /// Takes the last reading back.
    fn undo(&self) -> Result<String, Refused> {
        let path = &self.call.part;
        let _held = Held::take(path).map_err(|why| (Exit::Disk, format!("error: {why}")))?;
        let text = text_of(path)?;
        let file = File::read(&text).ok_or_else(|| refused("this file is no sound TOML", "mend it by hand first"))?;
        let list = measured::MEASURED.name;
        let last = file.paths(&format!("{list}.*")).pop();
        let (Some(last), Some(less)) = (last, file.without_last_row(list)) else {
            return Err(refused("there is no reading to take back", "`setdown record PART what=value` writes one"));
        };
        let of = |key: &str| file.string(&format!("{last}.{key}")).unwrap_or_default();
        written(path, &less)?;
        Ok(format!("taken back: {} {}\n", of("what"), of("value")))
    }

    /// Asks for one size after the other, in the order of the sheet.
    fn ask(&self, answers: &mut Answers, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
        let design = match text_of(&self.call.part).and_then(|text| self.work(&text)) {
            Ok(design) => design,
            Err((exit, message)) => return writeln!(err, "{}", message.trim_end()).map(|()| exit),
        };
        if asked(&design).is_empty() {
            return wrong(err, "this part has no size with limits to ask for\n  help: name the size: what=value");
        }
        let count = design.header.count;
        let pieces: Vec<Option<u32>> = match self.call.piece {
            None if count > 1 && !design.solids.is_empty() => (1..=count).map(Some).collect(),
            piece => vec![piece],
        };
        for (piece, dimension) in pieces.iter().flat_map(|p| asked(&design).into_iter().map(move |d| (*p, d))) {
            if !self.ask_one(&design, dimension, piece, answers, out, err)? {
                break;
            }
        }
        Ok(Exit::Fine)
    }

    /// Asks for one size until it is written or passed over; whether there are more answers to come.
    fn ask_one(
        &self,
        design: &Design,
        dimension: &Dimension,
        piece: Option<u32>,
        answers: &mut Answers,
        out: &mut dyn Write,
        err: &mut dyn Write,
    ) -> io::Result<bool> {
        let line = show::dimension_line(dimension, design.header.unit);
        let of = piece.map_or_else(String::new, |piece| format!("piece {piece}, "));
        loop {
            write!(out, "{of}{} {} ({} to {}): ", line.label, line.size, line.least, line.most)?;
            out.flush()?;
            let Some(answer) = answers.next().transpose()? else {
                writeln!(out)?;
                return Ok(false);
            };
            if answer.trim().is_empty() {
                return Ok(true);
            }
            match self.put(&[format!("{}={}", dimension.key, answer.trim())], piece) {
                Ok(said) => {
                    write!(out, "{said}")?;
                    return Ok(true);
                }
                // What the disk refuses it will refuse again.
                Err((Exit::Disk, message)) => {
                    writeln!(err, "{}", message.trim_end())?;
                    return Ok(false);
                }
                Err((_, message)) => writeln!(err, "{}", message.trim_end())?,
            }
        }
    }
}

/// The sizes that are asked for: those with limits, in the order of the sheet.
fn asked(design: &Design) -> Vec<&Dimension> {
    design.dimensions.iter().filter(|d| measured::measurable(d) && measured::limits(d).is_some()).collect()
}

/// `what=value` taken apart.
fn pair(one: &str) -> Result<(&str, &str), Refused> {
    let found = one.split_once('=').filter(|(what, value)| !what.trim().is_empty() && !value.trim().is_empty());
    found.ok_or_else(|| refused(&format!("`{one}` is no reading"), "such as base_diameter=60.02mm"))
}

/// A text as TOML writes it.
fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""))
}

/// What the readings that were written mean, a line each.
fn told(design: &Design, sizes: &[String], piece: Option<u32>) -> String {
    let unit = design.header.unit;
    let line = |key: &String| {
        let dimension = design.named(key)?;
        let of = |r: &&Reading| piece.is_none_or(|piece| r.piece == piece);
        let last = dimension.readings.iter().rfind(of)?;
        let piece = if design.header.count > 1 { format!(", piece {}", last.piece) } else { String::new() };
        let said = last.decision.map_or("written", |decision| decision.said());
        let value = show::value(&last.value, unit);
        let how = measured::how(last, unit);
        Some(format!("{}{piece} {value}: {said}; {}\n  {how}\n", dimension.label, last.next))
    };
    sizes.iter().filter_map(line).collect()
}
