#!/usr/bin/env python3
"""The program for Windows, run as a person runs it, under wine: windows.py WINE FOLDER-OF-THE-PROGRAM FOLDER-BESIDE.

FOLDER-OF-THE-PROGRAM holds setdown.exe; FOLDER-BESIDE holds `hold.exe`, which keeps a file open, and `launch.exe`, which
says with which status a program ended. The same program for this system (target/debug/setdown) says what is right, and the
committed `out/` says it for the demo.
"""

import os
import pathlib
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import time

TOP = pathlib.Path(__file__).resolve().parents[2]
WINE, PROGRAMS = sys.argv[1], pathlib.Path(sys.argv[2])
HOLD, LAUNCH = (pathlib.Path(sys.argv[3]) / name for name in ("hold.exe", "launch.exe"))
HERE = TOP / "target/debug/setdown"
PASSED = []
# A change that shows in a few files of one part, and in the landing that rests on it.
EDITED, WAS, IS = "parts/cone-front-left.toml", 'tip_radius = "2 mm"', 'tip_radius = "2.2 mm"'


def begin(folder, *command):
    # Files, not pipes: a service that wine starts on the way would hold a pipe open for good.
    said = tempfile.TemporaryFile(), tempfile.TemporaryFile()
    process = subprocess.Popen([WINE, *map(str, command)], cwd=folder, stdin=subprocess.DEVNULL, stdout=said[0], stderr=said[1])
    process.said = said
    return process


def start(folder, *words):
    """The program, its status kept by a second one: wine kills what takes long to leave after its end."""
    status = tempfile.NamedTemporaryFile(dir=TOP / "target/systems")
    process = begin(folder, LAUNCH, as_windows(status.name), PROGRAMS / "setdown.exe", *words)
    process.status = status
    return process


def as_windows(path):
    return "Z:" + str(path).replace("/", "\\")


def end(process):
    process.wait(timeout=300)
    out, err = (file.seek(0) or file.read() for file in process.said)
    # What wine itself has to say is not the program's.
    own = "".join(line for line in err.decode().splitlines(keepends=True) if not line.startswith("wine: "))
    code = process.returncode
    if hasattr(process, "status"):
        written = pathlib.Path(process.status.name).read_text()
        assert written.strip(), f"the program left no status (its launcher ended with {code}):\n{out.decode()}\n{own}"
        code = int(written)
    return code, out.decode(), own


def windows(folder, *words):
    return end(start(folder, *words))


def here(folder, *words):
    ran = subprocess.run([HERE, *words], cwd=folder, stdin=subprocess.DEVNULL, capture_output=True, timeout=300)
    return ran.returncode, ran.stdout.decode(), ran.stderr.decode()


def files(folder):
    """Every name below a folder with its bytes; a folder has none."""
    found = {}
    for path in sorted(folder.rglob("*")):
        found[path.relative_to(folder).as_posix()] = None if path.is_dir() else path.read_bytes()
    return found


def same(a, b, what):
    differ = sorted(name for name in a.keys() | b.keys() if a.get(name, 0) != b.get(name, 0))
    assert not differ, f"{what}: {len(differ)} files differ: {differ[:8]}"


def a_shop():
    folder = pathlib.Path(tempfile.mkdtemp(dir=TOP / "target/systems"))
    shutil.copytree(TOP / "parts", folder / "parts")
    return folder


def edit(folder, was=WAS, now=IS):
    path = folder / EDITED
    text = path.read_text()
    assert was in text, f"{EDITED} no longer says {was}"
    path.write_text(text.replace(was, now))


def made_here(change=None):
    """The whole folder as this system makes it afresh."""
    shop = a_shop()
    if change:
        change(shop)
    code, _, err = here(shop, "make")
    assert code == 0, err
    found = files(shop / "out")
    shutil.rmtree(shop)
    return found


def fine(ran):
    assert ran[0] == 0, f"ended with {ran[0]}:\n{ran[1]}\n{ran[2]}"
    return ran


def nothing_beside(shop):
    names = sorted(p.name for p in shop.iterdir())
    assert names == ["out", "parts"], f"left beside the folder: {names}"


# --- what is asked for ------------------------------------------------------------------------------------------------


def answers_are_the_same():
    shop = a_shop()
    for words in (
        ["fit", "25mm", "H7/g6"],
        ["fit", "1 in", "RC4", "--json"],
        ["taper", "--large", "60mm", "--small", "20mm", "--length", "80mm"],
        ["materials"],
        ["licences"],
        ["check", "parts"],
        ["survey", "parts/landing-observatory.toml"],
        ["fit", "25mm", "H7/q99"],
        ["--help"],
    ):
        one, other = windows(shop, *words), here(shop, *words)
        # The name of the program in its own help is the one thing that differs.
        assert [str(x).replace("setdown.exe", "setdown") for x in one] == [str(x) for x in other], f"{words}:\n{one}\n{other}"
        assert "\r" not in one[1]
    shutil.rmtree(shop)


def the_demo_has_the_bytes_of_out():
    shop = a_shop()
    fine(windows(shop, "make"))
    same(files(shop / "out"), files(TOP / "out"), "the demo made on Windows")
    nothing_beside(shop)
    before = {p.name: p.stat().st_mtime_ns for p in (shop / "out").iterdir()}
    _, out, _ = fine(windows(shop, "make"))
    assert "nothing changed" in out, out
    assert before == {p.name: p.stat().st_mtime_ns for p in (shop / "out").iterdir()}
    edit(shop)
    _, out, _ = fine(windows(shop, "make"))
    assert "nothing changed" not in out, out
    same(files(shop / "out"), made_here(edit), "the demo made on Windows after an edit")
    nothing_beside(shop)
    shutil.rmtree(shop)


def paths_are_those_of_windows():
    shop = a_shop()
    whole = as_windows(shop)
    expected = made_here()
    elsewhere = pathlib.Path(tempfile.mkdtemp(dir=TOP / "target/systems"))
    fine(windows(elsewhere, "make", whole + "\\parts", "--out", whole + "\\out"))
    same(files(shop / "out"), expected, "made by whole paths from another folder")
    for words in (["make", "parts\\", "--out", ".\\out"], ["make", ".\\parts", "--out", whole.lower() + "\\OUT"]):
        _, out, _ = fine(windows(shop, *words))
        assert "nothing changed" in out, f"{words}: {out}"
    same(files(shop / "out"), expected, "made again under other spellings")
    code, _, err = windows(shop, "make", whole + "\\no-such-folder")
    assert code == 3 and "no-such-folder" in err, err
    shutil.rmtree(shop)
    shutil.rmtree(elsewhere)


def names_of_devices_are_refused():
    shop = a_shop()
    for name in ("nul", "CON", "com1", "lpt9", "aux.spare", "com¹"):
        code, _, err = windows(shop, "start", "cone", f"parts\\{name}.toml")
        assert code == 2 and not (shop / f"parts/{name}.toml").exists(), f"{name}: {code} {err}"
    shutil.rmtree(shop)


def part_files_to_begin_with_are_the_same():
    one, other = a_shop(), a_shop()
    for family in here(other, "families")[1].split("\n"):
        if family:
            name = family.split()[0]
            fine(windows(one, "start", name, f"new\\my-{name}.toml"))
            fine(here(other, "start", name, f"new/my-{name}.toml"))
    same(files(one / "new"), files(other / "new"), "part files to begin with")
    assert not any(b"\r" in text for text in files(one / "new").values())
    shutil.rmtree(one)
    shutil.rmtree(other)


# --- the folder holds ---------------------------------------------------------------------------------------------------


def two_at_once():
    shop = a_shop()
    both = [start(shop, "make") for _ in range(2)]
    for code, _, err in [end(process) for process in both]:
        assert code == 0 or (code == 3 and "another run is writing" in err), f"{code} {err}"
    same(files(shop / "out"), files(TOP / "out"), "two runs at once")
    nothing_beside(shop)
    shutil.rmtree(shop)


def a_file_is_open_elsewhere():
    """Old or new, and told; when the other program has let go, the new one."""
    old, new = files(TOP / "out"), made_here(edit)
    for share in ([], ["share"]):
        shop = a_shop()
        fine(windows(shop, "make"))
        edit(shop)
        held = as_windows(shop / "out/cone-front-left.dxf")
        if not (shop / "out/cone-front-left.dxf").exists():
            held = as_windows(shop / "out/cone-front-left.pdf")
        other = subprocess.Popen([WINE, str(HOLD), held, *share], stdin=subprocess.PIPE, stdout=subprocess.PIPE)
        assert other.stdout.readline().strip() == b"held"
        code, _, err = windows(shop, "make")
        found = files(shop / "out")
        assert found in (old, new) and (code == 0 and found == new or code == 3 and err), f"{share}: {code} {err}"
        print(f"    held open ({'to be read by others' if share else 'alone'}): {'new' if found == new else 'old'} {err.strip()}")
        other.communicate(b"\n", timeout=60)
        fine(windows(shop, "make"))
        same(files(shop / "out"), new, "after the other program let go")
        nothing_beside(shop)
        shutil.rmtree(shop)


def files_are_read_only():
    old, new = files(TOP / "out"), made_here(edit)
    shop = a_shop()
    fine(windows(shop, "make"))
    edit(shop)
    for path in filter(pathlib.Path.is_file, (shop / "out").rglob("*")):
        path.chmod(0o444)
    code, _, err = windows(shop, "make")
    found = files(shop / "out")
    assert found in (old, new) and (code == 0 and found == new or code == 3 and err), f"{code} {err}"
    print(f"    read-only files: {'new' if found == new else 'old'} {err.strip()}")
    for path in filter(pathlib.Path.is_file, (shop / "out").rglob("*")):
        path.chmod(0o644)
    fine(windows(shop, "make"))
    same(files(shop / "out"), new, "after the files could be written again")
    nothing_beside(shop)
    shutil.rmtree(shop)


def what_a_killed_run_left_is_finished():
    """The folders that stand beside at each step of a run that was killed there; no exchange of names on Windows."""
    old, new = files(TOP / "out"), made_here(edit)

    def lay(shop, name, content):
        (shop / name).mkdir()
        for file, data in content.items():
            if data is None:
                (shop / name / file).mkdir()
            else:
                (shop / name / file).write_bytes(data)

    half = dict(list(new.items())[: len(new) // 2])
    half.pop("manifest.json", None)
    for what, beside in (
        ("still growing", {"out": old, ".out.setdown-new-77": half}),
        ("ready", {"out": old, ".out.setdown-ready": new}),
        ("the old one has stepped aside", {".out.setdown-old": old, ".out.setdown-ready": new}),
        ("the new one is in place", {"out": new, ".out.setdown-old": old}),
        ("only the old one", {".out.setdown-old": old}),
    ):
        shop = a_shop()
        edit(shop)
        for name, content in beside.items():
            lay(shop, name, content)
        fine(windows(shop, "make"))
        same(files(shop / "out"), new, f"killed while {what}")
        nothing_beside(shop)
        shutil.rmtree(shop)


def timed(shop):
    begun = time.monotonic()
    fine(windows(shop, "make"))
    return time.monotonic() - begun


def killed_in_the_middle():
    """Killed at 24 moments drawn by lot: what stands is the old or the new folder, and the next run needs no help."""
    states = [files(TOP / "out"), made_here(edit)]
    shop = a_shop()
    fine(windows(shop, "make"))
    edit(shop)
    usual = timed(shop)
    lot = random.Random(7)
    now, tally = 1, {"old": 0, "new": 0, "ended": 0}
    for _ in range(24):
        target = 1 - now
        edit(shop, *((WAS, IS) if target == 1 else (IS, WAS)))
        process = begin(shop, PROGRAMS / "setdown.exe", "make")
        time.sleep(usual * (0.2 + 0.9 * lot.random()))
        process.send_signal(signal.SIGKILL)
        code = end(process)[0]
        # Where names cannot be exchanged, the folder may be missing for a moment; the next run puts one in place.
        found = files(shop / "out") if (shop / "out").exists() else None
        assert found is None or found in states, "a mixture stands in the folder"
        tally["ended" if code == 0 else "new" if found == states[target] else "old"] += 1
        again = timed(shop)
        # Where the kill came late nothing was left to do; other work on this machine comes and goes.
        usual = again if again > usual / 3 else usual
        same(files(shop / "out"), states[target], "after a kill")
        nothing_beside(shop)
        now = target
    print(f"    killed: {tally}")
    assert tally["old"] + tally["new"] >= 8, f"too few were killed in time: {tally}"
    shutil.rmtree(shop)


def main():
    for check in (
        answers_are_the_same,
        the_demo_has_the_bytes_of_out,
        paths_are_those_of_windows,
        names_of_devices_are_refused,
        part_files_to_begin_with_are_the_same,
        two_at_once,
        a_file_is_open_elsewhere,
        files_are_read_only,
        what_a_killed_run_left_is_finished,
        killed_in_the_middle,
    ):
        begun = time.monotonic()
        check()
        PASSED.append(check.__name__)
        print(f"  {check.__name__.replace('_', ' ')}: in order ({time.monotonic() - begun:.1f} s)", flush=True)
    print(f"on Windows: {len(PASSED)} checks in order")


os.environ.pop("DISPLAY", None)
main()
