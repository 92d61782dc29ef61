//! The order's folder: one readable list, and the drawings named by material, thickness and count.

use super::Job;
use super::lists::{List, lists};
use crate::export::text::aligned;
use crate::standards::processes;

/// Name of the list in the folder.
pub const LIST: &str = "order.txt";

/// The list that goes with the drawings; none where nothing is ordered.
pub fn list(job: &Job, owner: Option<&str>, date: Option<&str>) -> Option<String> {
    if job.cutter.is_empty() {
        return None;
    }
    let mut text = String::new();
    for (key, beam) in [("cutter", "laser"), ("water_jet", "water jet")] {
        let Some(cutter) = lists(job).into_iter().find(|l| l.key == key && !l.lines.is_empty()) else { continue };
        if !text.is_empty() {
            text.push('\n');
        }
        text += &format!("Order for {beam} cutting\n");
        for words in [owner.map(|o| format!("From: {o}")), date.map(|d| format!("Date: {d}"))].into_iter().flatten() {
            text += &format!("{words}\n");
        }
        let here: Vec<u32> =
            job.cutter.iter().filter(|c| processes::beam(c.thickness) == beam).map(|c| c.count).collect();
        text += &format!("{} drawings, {} pieces\n\n", here.len(), here.iter().sum::<u32>());
        text += &table(&cutter);
    }
    Some(text)
}

/// A list as lines of text.
pub fn table(list: &List) -> String {
    let shown = |cells: [&str; 6]| -> Vec<String> {
        let cells = cells.iter().zip(&list.heads).filter(|(_, head)| !head.is_empty());
        cells.map(|(cell, _)| (*cell).to_string()).collect()
    };
    let rows: Vec<Vec<String>> =
        std::iter::once(shown(list.heads)).chain(list.lines.iter().map(|l| shown(l.cells()))).collect();
    let mut text = String::new();
    for line in aligned(&rows) {
        text += &format!("{}\n", line.trim_end());
    }
    for note in &list.notes {
        text += "\n";
        for line in crate::export::text::wrap(note, 100) {
            text += &format!("{line}\n");
        }
    }
    text
}
