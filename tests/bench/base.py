"""Measures the program as a whole, side by side in one run: start-up, and `make` of 1,000 parts against 100.

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
        print(f"  {name:<26}{median * 1e3:8.2f} ms   {median / least:6.2f} x /bin/true")


def write_parts(folder, count):
    for i in range(count):
        kind, step = i % 4, (i // 4) % 25 * 8  # the same mix of sizes for every count
        text = [
            CONE.format(base=50 + step * 0.1, tip=20 + step * 0.05),
            CUP.format(thickness=6 + step % 7, hole=30 + step * 0.1),
            SLEEVE.format(bore=20 + step * 0.1, outside=27 + step * 0.1),
            SHIM.format(gap=1 + step * 0.01),
        ][kind]
        (folder / f"part-{i:04}.toml").write_text(text)


def make(count):
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        (folder / "parts").mkdir()
        write_parts(folder / "parts", count)
        best, memory = None, 0
        for _ in range(3):
            subprocess.run(["rm", "-rf", str(folder / "out")], check=True)
            begin = time.perf_counter()
            child = subprocess.Popen([SETDOWN, "make"], cwd=folder, stdout=subprocess.DEVNULL)
            _, status, usage = os.wait4(child.pid, 0)
            elapsed = time.perf_counter() - begin
            if os.waitstatus_to_exitcode(status) not in (0, 1):
                sys.exit(f"make of {count} parts ended with {status}")
            best = min(best or elapsed, elapsed)
            memory = max(memory, usage.ru_maxrss)
        files = len(os.listdir(folder / "out"))
        return best, memory, files


def make_of_many():
    print("make, best of 3")
    per_part = {}
    for count in (100, 1000):
        seconds, memory, files = make(count)
        per_part[count] = seconds / count
        print(f"  {count:>5} parts: {seconds:7.3f} s, {seconds / count * 1e3:6.3f} ms each, {files} files, {memory / 1024:6.1f} MiB at most")
    print(f"  time per part, 1,000 against 100: {per_part[1000] / per_part[100]:.3f} x")


start_up()
make_of_many()
