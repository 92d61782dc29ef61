#!/usr/bin/env python3
"""Gathers the notices of all crates that are compiled into the program, for every system that it is built for.

    python3 tests/licences/gather.py            writes src/licences/crates.txt anew
    python3 tests/licences/gather.py --check    says what differs, and ends with 1

Which crates: cargo's own answer. Which words: the files that come with each crate. Where a crate may be used under one
of several licences, the first of PREFERRED is taken; a licence that is not in the table stops the work.
"""

import json
import pathlib
import re
import subprocess
import sys

TOP = pathlib.Path(__file__).resolve().parents[2]
KEPT = TOP / "src/licences/crates.txt"

# Every system that the README names.
SYSTEMS = [
    "x86_64-unknown-linux-gnu",
    "x86_64-unknown-linux-musl",
    "x86_64-pc-windows-gnu",
    "x86_64-pc-windows-msvc",
    "aarch64-apple-darwin",
    "x86_64-apple-darwin",
]

# Licences in the order in which they are taken, with what is in the name of the file that holds the words.
PREFERRED = [("MIT", "mit"), ("Zlib", "zlib"), ("BSL-1.0", "boost"), ("BSD-3-Clause", "whatwg")]

# Crates whose package holds no words of its own, with the crate of the same authors and repository that does.
WORDS_OF = {"pulp-wasm-simd-flag": "pulp"}


def cargo(*arguments):
    command = ["cargo", *arguments]
    return subprocess.run(command, cwd=TOP, check=True, capture_output=True, text=True).stdout


def inside():
    """Name and version of every crate in the program; what only works while compiling is not in it."""
    found = set()
    for system in SYSTEMS:
        tree = cargo("tree", "--locked", "--edges", "normal,no-proc-macro", "--prefix", "none", "--format", "{p}", "--target", system)
        found |= {tuple(line.split()[:2]) for line in tree.splitlines() if line}
    return {(name, version.lstrip("v")) for name, version in found if name != "setdown"}


def packages():
    metadata = json.loads(cargo("metadata", "--locked", "--format-version", "1"))
    return {(p["name"], p["version"]): p for p in metadata["packages"]}


def taken(package):
    """The licence under which a crate is used (several where each of them holds), and what the names of its files hold."""
    said = package["license"] or ""
    chosen = []
    for all_of in said.split(" AND "):
        offered = re.split(r"\s+OR\s+|/", all_of.strip("() "))
        chosen += [pair for pair in PREFERRED if pair[0] in offered][:1] or sys.exit(f"{package['name']}: no licence of the table is among `{said}`")
    return " and ".join(licence for licence, _ in chosen), [mark for _, mark in chosen]


def words(package, marks):
    """The words of the licence, and any notice that goes with them."""
    folder = pathlib.Path(package["manifest_path"]).parent
    files = sorted(f for f in folder.iterdir() if f.is_file())
    licences = [f for f in files if re.match(r"licen[cs]e", f.name, re.I)]
    chosen = [f for f in licences if any(mark in f.name.lower() for mark in marks)] or (licences if len(licences) == 1 else [])
    # Of several files the one without a name behind it is that of the licence that comes first.
    chosen = chosen or [f for f in licences if f.stem.lower() in ("license", "licence")]
    notices = [f for f in files if re.match(r"notice|copyright", f.name, re.I)]
    if not chosen:
        return None
    return "\n\n".join(tidy(f.read_text(encoding="utf-8")) for f in chosen + notices)


def tidy(text):
    """The same words with plain line ends and no blanks at the ends of lines."""
    return "\n".join(line.rstrip() for line in text.replace("\r\n", "\n").split("\n")).strip("\n")


def gathered():
    known = packages()
    same = {}
    for key in sorted(inside()):
        package = known[key]
        licence, marks = taken(package)
        text = words(package, marks)
        if text is None:
            twin = WORDS_OF.get(package["name"])
            others = [p for p in known.values() if p["name"] == twin]
            text = words(others[0], marks) if others else None
        if text is None:
            sys.exit(f"{package['name']} {package['version']}: no file with the words of its licence")
        same.setdefault((licence, text), []).append(f"{package['name']} {package['version']}")
    parts = []
    for (licence, text), crates in sorted(same.items(), key=lambda item: item[1]):
        parts.append("\n".join(crates) + f"\nunder {licence}:\n\n{text}\n")
    return ("\n" + "-" * 78 + "\n").join(parts)


def main():
    text = gathered()
    if "--check" not in sys.argv[1:]:
        KEPT.write_text(text, encoding="utf-8", newline="\n")
    elif not KEPT.exists() or KEPT.read_bytes() != text.encode():
        sys.exit("src/licences/crates.txt is not what the crates say now: run python3 tests/licences/gather.py")
    print(f"notices of {len(inside())} crates in order")


main()
