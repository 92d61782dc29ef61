//! From paths on the command line to part files, their texts and their designs.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use super::Exit;
use super::progress::Progress;
use crate::description::{self, MAX_BYTES};
use crate::folder::list::sha256;
use crate::folder::place;
pub use crate::folder::place::shown;
use crate::job;
use crate::record::design::Design;
use crate::shop::Shop;

/// The name of the shop profile, which is not a part.
pub const SHOP_FILE: &str = "shop.toml";

/// The part files behind the paths, each once, in order of their names; troubles are told.
pub fn part_files(paths: &[PathBuf], err: &mut dyn Write) -> io::Result<(BTreeSet<PathBuf>, Exit)> {
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
    // A file that was named in two ways is one part.
    let mut seen = BTreeSet::new();
    files.retain(|file| place::whole(file).map_or(true, |whole| seen.insert(whole)));
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

/// What went wrong with a file: the status for it, and a sentence.
pub type Trouble = (Exit, String);

/// A text file as it was read.
struct Read {
    text: String,
    sha256: String,
}

/// The text of a part file.
pub fn text_of(path: &Path) -> Result<String, Trouble> {
    read_text(path).map(|read| read.text)
}

/// Reads one text file. The sentence in the error says why not and with which status.
fn read_text(path: &Path) -> Result<Read, Trouble> {
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
    let text = description::decode(&name, &bytes)
        .map_err(|problem| (Exit::Wrong, job::render(&[problem], &String::from_utf8_lossy(&bytes))))?;
    Ok(Read { text, sha256: sha256(&bytes) })
}

/// Hash of a file's content; empty where there is no such file.
pub fn hash_of(path: &Path) -> String {
    let meta = fs::metadata(path);
    let small = meta.is_ok_and(|m| m.is_file() && m.len() <= MAX_BYTES as u64);
    if small { fs::read(path).map_or_else(|_| String::new(), |bytes| sha256(&bytes)) } else { String::new() }
}

/// A part that was worked, with every file that its answer rests on: its own first.
pub struct Worked {
    /// The design.
    pub design: Design,
    /// Files as they were found by the part, each with its hash.
    pub rests_on: Vec<(PathBuf, String)>,
}

/// The mates' texts of one run: each file is read once, so that all parts see the same.
#[derive(Default)]
pub struct Texts {
    /// Readings are left out.
    as_drawn: bool,
    mates: Mutex<BTreeMap<PathBuf, Arc<Result<Read, Trouble>>>>,
}

impl Texts {
    /// With the readings of the parts, or without.
    pub fn new(as_drawn: bool) -> Self {
        Self { as_drawn, ..Self::default() }
    }

    /// Reads a part file and works it out.
    pub fn work(&self, path: &Path, shop: &Shop, bar: &Progress) -> Result<Worked, Trouble> {
        self.work_text(path, read_text(path)?, shop, bar)
    }

    /// The same with another text in place of the file's, and without advice.
    pub fn work_as(&self, path: &Path, text: &str, shop: &Shop) -> Result<Design, Trouble> {
        let neighbour = |of: &str, name: &str| self.neighbour(of, name).1;
        job::work(&shown(path), text, shop, &neighbour).map_err(|problems| (Exit::Wrong, job::render(&problems, text)))
    }

    /// A part as far as the check of that name needs it.
    pub fn work_for(&self, path: &Path, shop: &Shop, check: &str) -> Result<Design, Trouble> {
        let (file, own) = (shown(path), read_text(path)?);
        let neighbour = |of: &str, name: &str| self.neighbour(of, name).1;
        job::work_for(&file, &own.text, shop, &neighbour, check)
            .map_err(|problems| (Exit::Wrong, job::render(&problems, &own.text)))
    }

    /// A file beside a part file, and where it is: its shown name and text, or why not.
    fn neighbour(&self, of: &str, name: &str) -> (PathBuf, Result<(String, String), String>, String) {
        let mate = Path::new(of).parent().unwrap_or(Path::new("")).join(name);
        let read = self.mate(&mate);
        let found = match &*read {
            Ok(read) => Ok((shown(&mate), read.text.clone())),
            Err((_, message)) => {
                Err(message.trim_start_matches("error: ").lines().next().unwrap_or_default().to_string())
            }
        };
        let hash = read.as_ref().as_ref().map_or_else(|_| String::new(), |r| r.sha256.clone());
        (mate, found, hash)
    }

    fn work_text(&self, path: &Path, own: Read, shop: &Shop, bar: &Progress) -> Result<Worked, Trouble> {
        let file = shown(path);
        bar.name(&stem(path));
        let rests_on = Mutex::new(vec![(path.to_path_buf(), own.sha256.clone())]);
        let neighbour = |of: &str, name: &str| {
            let (mate, found, hash) = self.neighbour(of, name);
            rests_on.lock().unwrap_or_else(PoisonError::into_inner).push((mate, hash));
            found
        };
        let design = job::work_advised(&file, &own.text, shop, &neighbour, self.as_drawn, &|share| bar.within(share))
            .map_err(|problems| (Exit::Wrong, job::render(&problems, &own.text)))?;
        let mut rests_on = rests_on.into_inner().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, mates)) = rests_on.split_first_mut() {
            mates.sort();
        }
        rests_on.dedup();
        Ok(Worked { design, rests_on })
    }

    fn mate(&self, path: &Path) -> Arc<Result<Read, Trouble>> {
        let mut mates = self.mates.lock().unwrap_or_else(PoisonError::into_inner);
        mates.entry(path.to_path_buf()).or_insert_with(|| Arc::new(read_text(path))).clone()
    }
}

/// The shop's profile that is in force, with the file that it is from or would be from.
pub struct InForce {
    /// The profile.
    pub profile: Shop,
    /// Its file and the file's hash; an empty hash where there is none.
    pub file: (PathBuf, String),
}

/// The shop profile beside the first path, or the defaults.
pub fn shop(paths: &[PathBuf], err: &mut dyn Write) -> io::Result<Result<InForce, Exit>> {
    let first = paths.first().cloned().unwrap_or_default();
    let folder = if first.is_dir() { first } else { first.parent().map_or_else(PathBuf::new, Path::to_path_buf) };
    let path = folder.join(SHOP_FILE);
    let hash = hash_of(&path);
    let profile = if path.exists() { shop_at(&path, err)? } else { Ok(Shop::default()) };
    Ok(profile.map(|profile| InForce { profile, file: (path, hash) }))
}

/// The shop profile in the file that was named, or the defaults.
pub fn shop_or_usual(path: Option<&Path>, err: &mut dyn Write) -> io::Result<Result<Shop, Exit>> {
    path.map_or_else(|| Ok(Ok(Shop::default())), |path| shop_at(path, err))
}

/// The shop profile in that file; its problems are told.
pub fn shop_at(path: &Path, err: &mut dyn Write) -> io::Result<Result<Shop, Exit>> {
    match read_text(path) {
        Err((exit, message)) => writeln!(err, "{message}").map(|()| Err(exit)),
        Ok(Read { text, .. }) => match Shop::read(&shown(path), &text) {
            Ok(shop) => Ok(Ok(shop)),
            Err(problems) => write!(err, "{}", job::render(&problems, &text)).map(|()| Err(Exit::Wrong)),
        },
    }
}

/// Stems that more than one file has, each with its files.
pub fn same_stems(files: &[PathBuf]) -> BTreeMap<String, Vec<String>> {
    let mut stems: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for path in files {
        stems.entry(stem(path).to_lowercase()).or_default().push(shown(path));
    }
    stems.retain(|_, files| files.len() > 1);
    stems
}

/// The stem of a file's name: what its output files are called after.
pub fn stem(path: &Path) -> String {
    path.file_stem().map_or_else(String::new, |s| s.to_string_lossy().into_owned())
}

/// Whether a part can have output files of its own: its name is fit for it, and no other part has it.
pub fn unique(path: &Path, twice: &BTreeMap<String, Vec<String>>) -> Result<(), Trouble> {
    let file = shown(path);
    if let Some(trouble) = job::stem_trouble(&stem(path)) {
        return Err((Exit::Wrong, format!("error: {file}: {trouble}\n  help: rename the part file")));
    }
    match twice.get(&stem(path).to_lowercase()) {
        None => Ok(()),
        Some(files) => Err((Exit::Wrong, same_names(&file, &files.join(", ")))),
    }
}

/// The sentence for a part whose output files would be called like those of another.
pub fn same_names(file: &str, others: &str) -> String {
    format!(
        "error: {file}: its output files would have the same names as those of another part ({others})\n  help: rename one of the part files"
    )
}
