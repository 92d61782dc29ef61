//! `record --teach`: what the readings of a part have told of the shop goes into the shop's file.

use std::path::Path;

use super::Exit;
use super::in_place::{Held, refused, written};
use super::reading::{SHOP_FILE, Texts, Trouble, shown, text_of};
use crate::record::design::Design;
use crate::remedy::edit::File;
use crate::shop::Shop;

/// Writes the figures into the shop's file beside the part, all or none; every other byte of it stays.
pub fn teach(part: &Path, profile: &Shop) -> Result<String, Trouble> {
    let design = Texts::default().work_as(part, &text_of(part)?, profile)?;
    if design.lessons.is_empty() {
        let help = "a try-out does (`setdown start test-fit`, print it, record what was measured), a landing whose tape was held against a known length, a cone with two test cuts";
        return Err(refused(&format!("{} teaches nothing of the shop", shown(part)), help));
    }
    let file = part.with_file_name(SHOP_FILE);
    if !file.exists() {
        let help = format!("`setdown start shop {}` writes one", shown(&file));
        return Err(refused(&format!("there is no {} to write it into", shown(&file)), &help));
    }
    let _held = Held::take(&file).map_err(|why| (Exit::Disk, format!("error: {why}")))?;
    let (text, said) = taught(&design, &text_of(&file)?).ok_or_else(|| {
        refused(
            "the shop's file has something else where these belong",
            "`[printer]` and `[tape]` are tables, their keys below them",
        )
    })?;
    if let Err(problems) = Shop::read(&shown(&file), &text) {
        let why = crate::job::render(&problems, &text);
        return Err((Exit::Wrong, format!("{}\nnothing is written", why.trim_end())));
    }
    written(&file, &text)?;
    Ok(format!("{}:\n{said}", shown(&file)))
}

/// The text with the figures in it, and a line for each.
fn taught(design: &Design, before: &str) -> Option<(String, String)> {
    let (mut text, mut said) = (before.to_string(), String::new());
    for lesson in &design.lessons {
        let day = lesson.on.clone().map(|on| (lesson.on_key, on));
        let figures = [(lesson.key, lesson.value.clone()), (lesson.u_key, lesson.u.clone())];
        for (key, value) in lesson.beside.iter().cloned().chain(figures).chain(day) {
            let file = File::read(&text)?;
            let was = file.written(key).map_or_else(|| "not written before".to_string(), |old| format!("was {old}"));
            let value = format!("\"{value}\"");
            said += &format!("  {} = {value} ({was})\n", key.rsplit('.').next().unwrap_or(key));
            text = file.with(key, &value)?;
        }
    }
    Some((text, said))
}
