//! Where files are: seen from the output folder, so that it does not matter from which folder the program was started.

use std::fs;
use std::io;
use std::path::{Component, Path, PathBuf};

use crate::printable::printable;

/// A path as it is written in messages and lists: with `/`, without a leading `./` and without the mark that Windows puts
/// before a path which has been looked up.
pub fn shown(path: &Path) -> String {
    let text = printable(&path.to_string_lossy());
    let text = match text.strip_prefix(r"\\?\UNC\") {
        Some(share) => format!(r"\\{share}"),
        None => text.strip_prefix(r"\\?\").unwrap_or(&text).to_string(),
    };
    let text = if cfg!(windows) { text.replace('\\', "/") } else { text };
    text.strip_prefix("./").map_or(text.clone(), str::to_string)
}

/// A file's whole path: links to its folder followed, its own name as the disk spells it. The file need not be there.
///
/// # Errors
/// The folder is not there.
pub fn whole(file: &Path) -> io::Result<PathBuf> {
    let name = file.file_name().ok_or(io::ErrorKind::InvalidInput)?;
    let parent = file.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    // A file system that knows no case gives the name as it was made; a link keeps its own name.
    let there = fs::canonicalize(file).ok();
    let as_made = there.as_ref().and_then(|t| t.file_name()).filter(|n| n.eq_ignore_ascii_case(name)).unwrap_or(name);
    Ok(fs::canonicalize(parent)?.join(as_made))
}

/// The folder that is meant, links followed, whether it exists already or not.
///
/// # Errors
/// A link that leads in a circle, or a disk that refuses.
pub fn folder(path: &Path) -> io::Result<PathBuf> {
    let mut path = std::path::absolute(path)?;
    // As many links as a Unix system follows.
    for _ in 0..40 {
        match fs::read_link(&path) {
            Ok(target) => path = path.parent().unwrap_or(Path::new("/")).join(target),
            Err(_) => {
                if let Ok(there) = fs::canonicalize(&path) {
                    return Ok(there);
                }
                let (Some(parent), Some(name)) = (path.parent(), path.file_name()) else { return Ok(path) };
                return Ok(folder(parent)?.join(name));
            }
        }
    }
    Err(io::Error::other("its links lead in a circle"))
}

/// A whole path seen from a folder, with `/`; whole where there is no way from one to the other.
pub fn seen_from(folder: &Path, file: &Path) -> String {
    let (from, to): (Vec<Component>, Vec<Component>) = (folder.components().collect(), file.components().collect());
    let shared = from.iter().zip(&to).take_while(|(a, b)| a == b).count();
    if shared == 0 {
        return shown(file);
    }
    let up = from.iter().skip(shared).map(|_| "..".to_string());
    let down = to.iter().skip(shared).map(|c| c.as_os_str().to_string_lossy().into_owned());
    up.chain(down).collect::<Vec<_>>().join("/")
}

/// The whole path of a place that was seen from a folder.
pub fn resolve(folder: &Path, place: &str) -> PathBuf {
    let mut path = folder.to_path_buf();
    if Path::new(place).is_absolute() {
        return place.into();
    }
    for step in place.split('/') {
        match step {
            ".." => {
                path.pop();
            }
            "" | "." => {}
            name => path.push(name),
        }
    }
    path
}

/// The short name of a part file for outputs: its folder's name and its own, the same from wherever it was called.
pub fn label(whole: &Path) -> String {
    let name = |p: Option<&std::ffi::OsStr>| p.map(|n| printable(&n.to_string_lossy()));
    match (name(whole.parent().and_then(Path::file_name)), name(whole.file_name())) {
        (Some(folder), Some(file)) => format!("{folder}/{file}"),
        (None, Some(file)) => file,
        _ => shown(whole),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn there_and_back() {
        for (folder, file, place) in [
            ("/a/out", "/a/parts/x.toml", "../parts/x.toml"),
            ("/a/out", "/a/out/x.toml", "x.toml"),
            ("/a/b/out", "/x.toml", "../../../x.toml"),
            ("/", "/x.toml", "x.toml"),
        ] {
            assert_eq!(seen_from(Path::new(folder), Path::new(file)), place);
            assert_eq!(resolve(Path::new(folder), place), Path::new(file));
        }
        assert_eq!(label(Path::new("/a/parts/x.toml")), "parts/x.toml");
        assert_eq!(shown(Path::new(r"\\?\C:\a")).replace('\\', "/"), "C:/a");
    }
}
