"""Measures the program as a whole, side by side in one run: start-up, and `make` of 1,000 parts against 100 and of 10,000
against 1,000, each beside its aim.

Usage: base.py PATH_TO_SETDOWN      Needs: nothing but Python's standard library
"""

import os
import pathlib
import resource
import statistics
import subprocess
import sys
import tempfile
import time

SETDOWN = str(pathlib.Path(sys.argv[1]).resolve())
ROUNDS = 200
# Bytes of the files of 10,000 parts, with room to spare.
LARGEST = 8 << 30

CONE = """family = "cone"
material = "steel S235"
base_diameter = "{base} mm"
tip_diameter = "{tip} mm"
half_angle = "30 deg"
tip_radius = "2 mm"
foot = "6 mm"
"""
CUP = """family = "cup"
material = "steel S235"
length = "120 mm"
width = "100 mm"
thickness = "{thickness} mm"
corner_radius = "8 mm"
[hole]
kind = "round"
diameter = "{hole} mm"
chamfer = "0.5 mm"
[mounting]
thread = "M8"
spacing = ["96 mm", "76 mm"]
"""
SLEEVE = """family = "sleeve"
material = "steel 1045"
bore = "{bore} mm"
outside_diameter = "{outside} mm"
length = "60 mm"
bore_class = "H7"
outside_class = "h6"
chamfer = "0.5 mm"
bore_chamfer = "0.5 mm"
"""
SHIM = """family = "shim"
gap = "{gap} mm"
target_float = ["0.05 mm", "0.15 mm"]
bore = "20 mm"
outside_diameter = "34 mm"
"""


def start_up():
    commands = {
        "/bin/true": ["/bin/true"],
        "setdown fit 25mm H7/g6": [SETDOWN, "fit", "25mm", "H7/g6"],
        "python3 -c pass": ["python3", "-c", "pass"],
    }
    times = {name: [] for name in commands}
    for _ in range(ROUNDS):  # in turn, so that a busy moment hits all of them
        for name, command in commands.items():
            begin = time.perf_counter()
            subprocess.run(command, stdout=subprocess.DEVNULL, check=True)
            times[name].append(time.perf_counter() - begin)
    least = statistics.median(times["/bin/true"])
    print(f"start-up, median of {ROUNDS}, in turn (spawning included in all three)")
    for name, measured in times.items():
        median = statistics.median(measured)
        aim = "   aim 1.6" if commands[name][0] == SETDOWN else ""
        print(f"  {name:<26}{median * 1e3:8.2f} ms   {median / least:6.2f} x /bin/true{aim}")


def write_parts(folder, count):
    for i in range(count):
        kind, step = i % 4, (i // 4) % 25 * 8  # the same mix of sizes for every count
        text = [
            CONE.format(base=50 + step * 0.1, tip=20 + step * 0.05),
            CUP.format(thickness=6 + step % 7, hole=30 + step * 0.1),
            SLEEVE.format(bore=20 + step * 0.1, outside=27 + step * 0.1),
            SHIM.format(gap=1 + step * 0.01),
        ][kind]
        (folder / f"part-{i:05}.toml").write_text(text)


def make_once(folder):
    """One run into a fresh folder: wall clock and processor seconds, greatest memory in KiB."""
    subprocess.run(["rm", "-rf", str(folder / "out")], check=True)
    os.sync()  # what an earlier run left to write is not this one's
    begin = time.perf_counter()
    child = subprocess.Popen([SETDOWN, "make"], cwd=folder, stdout=subprocess.DEVNULL)
    _, status, usage = os.wait4(child.pid, 0)
    elapsed = time.perf_counter() - begin
    if os.waitstatus_to_exitcode(status) not in (0, 1):
        sys.exit(f"make in {folder} ended with {status}")
    return elapsed, usage.ru_utime + usage.ru_stime, usage.ru_maxrss


def make_on(place, counts=(100, 1000), rounds=5):
    with tempfile.TemporaryDirectory(dir=place) as name:
        folders = {count: pathlib.Path(name) / str(count) for count in counts}
        for count, folder in folders.items():
            (folder / "parts").mkdir(parents=True)
            write_parts(folder / "parts", count)
        runs = {count: [] for count in counts}
        for _ in range(rounds):  # in turn, so that a busy moment hits all of them
            for count, folder in folders.items():
                runs[count].append(make_once(folder))
        each = {}
        for count, folder in folders.items():
            wall, processor, _ = (min(column) / count * 1e3 for column in zip(*runs[count]))
            memory = max(run[2] for run in runs[count]) / 1024
            files = len(os.listdir(folder / "out"))
            each[count] = wall, processor
            print(
                f"  {count:>5} parts: {wall:7.3f} ms each, {processor:7.3f} ms of processor each,"
                f" {files} files, {memory:6.1f} MiB at most"
            )
    few, many = (each[count] for count in counts)
    print(
        f"  each of {counts[1]:,} against each of {counts[0]:,}: time {many[0] / few[0]:.3f} x,"
        f" processor {many[1] / few[1]:.3f} x   aim 1.1"
    )


def make_of_many():
    print("make, least of 5, in turn, on the disk (flushed to it)")
    make_on(None)
    memory = pathlib.Path("/dev/shm")
    if memory.is_dir() and os.access(memory, os.W_OK):
        print("the same on a file system in memory: the program without the disk")
        make_on(memory)
        free = os.statvfs(memory)
        if free.f_bavail * free.f_frsize > LARGEST:
            print("ten times as many, once; aims: 8 ms of processor each with every file, 64 MiB")
            make_on(memory, (1000, 10000), 1)


start_up()
make_of_many()
