//! Run before the program is compiled: gives it a fingerprint of its own sources.
//!
//! A folder of outputs is unchanged only if the same program made it. The version number alone does not say so: two
//! checkouts of one version may reckon differently.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// FNV-1a, 64 bits (Fowler, Noll, Vo; offset basis and prime as in the IETF draft "The FNV Non-Cryptographic Hash
/// Algorithm"): it tells sources apart, and guards against nobody.
struct Fingerprint(u64);

impl Fingerprint {
    fn add(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.0 = (self.0 ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3);
        }
    }
}

fn files(folder: &Path, found: &mut Vec<PathBuf>) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() { files(&path, found)? } else { found.push(path) }
    }
    Ok(())
}

fn main() -> io::Result<()> {
    let mut found = Vec::new();
    files(Path::new("src"), &mut found)?;
    for name in ["Cargo.toml", "Cargo.lock"] {
        println!("cargo::rerun-if-changed={name}");
        found.push(name.into());
    }
    println!("cargo::rerun-if-changed=src");
    let mut sources = Vec::new();
    for path in found {
        // The same on every system: names with `/`, lines ending in a line feed.
        let mut bytes = fs::read(&path)?;
        bytes.retain(|b| *b != b'\r');
        sources.push((path.to_string_lossy().replace('\\', "/"), bytes));
    }
    sources.sort();
    let mut fingerprint = Fingerprint(0xcbf2_9ce4_8422_2325);
    for (name, bytes) in &sources {
        fingerprint.add(name.as_bytes());
        fingerprint.add(&[0]);
        fingerprint.add(bytes);
        fingerprint.add(&[0]);
    }
    println!("cargo::rustc-env=SETDOWN_SOURCES={:016x}", fingerprint.0);
    Ok(())
}
