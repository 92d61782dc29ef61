//! `check`: sizes and findings of parts, what to change, and the change written into the part file where it is wanted.

use std::io::{self, Write};
use std::path::PathBuf;

use clap::Args;

use super::parts::{coloured, each};
use super::printing::Printing;
use super::{Exit, change, shop};
use crate::export::{json, text};
use crate::record::design::Design;

/// Arguments of `check`.
#[derive(Args)]
pub struct Check {
    /// Part files, or folders of them
    #[arg(default_value = "parts")]
    pub(super) paths: Vec<PathBuf>,
    /// Everything of every part; without it a folder's parts are told in a few lines each
    #[arg(long)]
    all: bool,
    /// Only what is not in order, with every change that clears it
    #[arg(long)]
    change: bool,
    /// Ask which of them is wanted, and write it into the part file
    #[arg(long, requires = "change")]
    write: bool,
    /// Leave out what was measured: every part as it is drawn
    #[arg(long, conflicts_with = "write")]
    as_drawn: bool,
    /// Print JSON
    #[arg(long, conflicts_with = "change")]
    json: bool,
    #[command(flatten)]
    pub(super) printing: Printing,
}

impl Check {
    /// What is printed of a part.
    fn say(&self) -> fn(&Design) -> String {
        let one_by_one = self.paths.iter().all(|path| !path.is_dir());
        match (self.change, self.all || one_by_one) {
            (true, _) => text::change_sheet,
            (false, true) => text::check_sheet,
            (false, false) => text::look_sheet,
        }
    }
}

/// `check`.
pub fn check(call: &Check, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    let mut profiles = Vec::new();
    let mut shop_exit = Exit::Fine;
    let named_shop = |path: &&PathBuf| shop::is_shop(path) && path.is_file();
    for path in call.paths.iter().filter(named_shop) {
        match shop::check(path, call.json, err)? {
            Ok(said) => profiles.push(said),
            Err(exit) => shop_exit = shop_exit.max(exit),
        }
    }
    if shop_exit != Exit::Fine {
        return Ok(shop_exit);
    }
    if call.json {
        return as_json(call, &profiles, out, err);
    }
    if call.write {
        return change::write(&call.paths, &mut io::stdin().lines(), out, err);
    }
    for said in &profiles {
        write!(out, "{said}")?;
    }
    let mut above = profiles.last().map(|_| String::new());
    each(&call.paths, (call.printing, call.as_drawn), err, &call.say(), &mut |said| {
        // Parts of one line each stand close together.
        let lines = |text: &str| text.lines().count();
        if above.take().is_some_and(|above| lines(&above) != 1 || lines(&said) != 1) {
            writeln!(out)?;
        }
        said.lines().try_for_each(|line| writeln!(out, "{}", coloured(line)))?;
        above = Some(said);
        Ok(())
    })
}

fn as_json(call: &Check, profiles: &[String], out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    let mut array: Vec<serde_json::Value> = profiles.iter().flat_map(|said| serde_json::from_str(said)).collect();
    let say = |design: &Design| json::summary(design).to_string();
    let exit = each(&call.paths, (call.printing, call.as_drawn), err, &say, &mut |said| {
        array.extend(serde_json::from_str::<serde_json::Value>(&said));
        Ok(())
    })?;
    write!(out, "{}", json::to_text(&serde_json::Value::Array(array)))?;
    Ok(exit)
}
