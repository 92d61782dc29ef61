//! `check --change --write`: asks which change is wanted and writes it into the part file.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use super::Exit;
use super::in_place::{Held, replace};
use super::parts::parts_and_shop;
use super::progress::Progress;
use super::reading::Texts;
use crate::record::design::{Design, Verdict};
use crate::record::lever::Change;
use crate::record::{look, show};
use crate::remedy::edit::File;

/// The answers to what is asked, line by line.
pub type Answers<'a> = dyn Iterator<Item = io::Result<String>> + 'a;

/// Goes through the parts; each is worked anew after every change, since one change may clear or move other findings.
pub fn write(paths: &[PathBuf], answers: &mut Answers, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    let (files, shop, mut exit) = match parts_and_shop(paths, err)? {
        Ok(found) => found,
        Err(exit) => return Ok(exit),
    };
    for path in &files {
        let mut passed: Vec<(String, String)> = Vec::new();
        loop {
            // Texts are read anew each time: they have just been written.
            let worked = Texts::default().work(path, &shop.profile, &Progress::new(1));
            let design = match worked {
                Ok(worked) => worked.design,
                Err((status, message)) => {
                    writeln!(err, "{}", message.trim_end())?;
                    exit = exit.max(status);
                    break;
                }
            };
            match ask(&design, &mut passed, answers, out)? {
                Asked::Done => {
                    exit = exit.max(if design.verdict() == Verdict::Fail { Exit::Fails } else { Exit::Fine });
                    break;
                }
                Asked::Passed => {}
                Asked::Wanted(set) => {
                    if let Err(trouble) = change(&set) {
                        writeln!(err, "error: {trouble}")?;
                        return Ok(Exit::Disk);
                    }
                    writeln!(out, "  written: {}", look::changes(&set, &design.header.file))?;
                }
            }
        }
    }
    Ok(exit)
}

enum Asked {
    /// Nothing more is to be asked of this part.
    Done,
    /// This finding stays as it is.
    Passed,
    /// These changes are wanted.
    Wanted(Vec<Change>),
}

/// Asks about the first finding that has changes and was not passed over.
fn ask(
    design: &Design,
    passed: &mut Vec<(String, String)>,
    answers: &mut Answers,
    out: &mut dyn Write,
) -> io::Result<Asked> {
    let name = |i: usize| design.findings.get(i).map(|f| (f.key.clone(), f.what.clone())).unwrap_or_default();
    let open = (0..design.findings.len()).find(|i| {
        let changes = design.findings.get(*i).is_some_and(|f| !f.clearing.changes.is_empty());
        changes && !passed.contains(&name(*i))
    });
    let Some((at, finding)) = open.and_then(|i| design.findings.get(i).map(|f| (i, f))) else {
        writeln!(out, "{}: {}", design.header.file, look::look(design).verdict)?;
        return Ok(Asked::Done);
    };
    writeln!(
        out,
        "{}: {} {}",
        design.header.file,
        finding.verdict.word(),
        show::finding_line(finding, design.header.unit).head
    )?;
    for (i, set) in finding.clearing.changes.iter().enumerate() {
        writeln!(out, "  {}  {}", i + 1, look::changes(set, &design.header.file))?;
    }
    write!(out, "which one (return leaves it as it is)? ")?;
    out.flush()?;
    let answer = answers.next().transpose()?;
    let Some(answer) = answer else {
        writeln!(out)?;
        return Ok(Asked::Done);
    };
    let chosen = answer.trim().parse::<usize>().ok().and_then(|n| finding.clearing.changes.get(n.checked_sub(1)?));
    match chosen {
        Some(set) => Ok(Asked::Wanted(set.clone())),
        None => {
            passed.push(name(at));
            Ok(Asked::Passed)
        }
    }
}

/// Writes changes that belong together: all texts are made before the first file is touched.
fn change(set: &[Change]) -> Result<(), String> {
    let mut files: Vec<&str> = set.iter().map(|change| change.file.as_str()).collect();
    files.sort_unstable();
    files.dedup();
    // Held until all is written, in one order for whoever comes.
    let _held = files.into_iter().map(|file| Held::take(Path::new(file))).collect::<Result<Vec<_>, _>>()?;
    let mut texts: Vec<(PathBuf, String)> = Vec::new();
    for change in set {
        let path = PathBuf::from(&change.file);
        let known = texts.iter().position(|(p, _)| *p == path);
        let text = match known.and_then(|at| texts.get(at)) {
            Some((_, text)) => text.clone(),
            None => fs::read_to_string(&path).map_err(|e| format!("cannot read {}: {e}", change.file))?,
        };
        let file = File::read(&text).ok_or_else(|| format!("{} is no longer as it was read", change.file))?;
        if file.written(&change.key).map(str::to_string) != change.from {
            return Err(format!("{} was changed in the meantime; nothing is written", change.file));
        }
        let changed = file
            .with(&change.key, &change.to)
            .ok_or_else(|| format!("{} has no place for {}", change.file, change.key))?;
        match known.and_then(|at| texts.get_mut(at)) {
            Some(slot) => slot.1 = changed,
            None => texts.push((path, changed)),
        }
    }
    texts.iter().try_for_each(|(path, text)| {
        replace(path, text).map_err(|e| format!("cannot write {}: {e}; it stays as it was", path.display()))
    })
}
