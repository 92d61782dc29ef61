"""The whole job of a folder, held against readers from outside: masses and centres of mass by trimesh, the table by the csv module
and by pandas, the order's drawings by ezdxf, the sheets by pypdf."""
import csv
import io
import json
import pathlib
import sys

import ezdxf
import pandas
import pypdf
import trimesh

out = pathlib.Path(sys.argv[1])
job = json.loads((out / "job.json").read_text(encoding="utf-8"))
passed = failed = 0


def check(right, words):
    global passed, failed
    passed, failed = passed + bool(right), failed + (not right)
    if not right:
        print(words, file=sys.stderr)


# Densities of printed tables, kg/m3: steel 7850 (EN 1991-1-1, table A.4: 77 to 78.5 kN/m3), aluminium 2700, bronze C93200 8910
# (a bronze catalogue), 52100 bearing steel 7810, 4140 7850, 1018 and 1045 7870, PETG 1270 (makers' data sheets of filament).
DENSITY = {"steel S235": 7850, "steel 1018": 7870, "steel 1045": 7870, "steel 4140": 7850, "steel 52100": 7810, "bronze C93200": 8910, "aluminium 6061": 2700, "PETG": 1270}

total = 0.0
for part in job["parts"]:
    for solid in part["solids"]:
        name = f"{part['part']}-{solid['name']}" if solid["name"] else part["part"]
        mesh = trimesh.load(out / f"{name}.stl")
        check(mesh.is_watertight, f"{name}: not watertight")
        # The mesh stands on chords of 0.01 mm.
        check(abs(mesh.volume / solid["volume_mm3"] - 1) < 5e-3, f"{name}: {mesh.volume} mm3, {solid['volume_mm3']} told")
        off = max(abs(a - b) for a, b in zip(mesh.center_mass, solid["centre_mm"]))
        check(off < 0.02, f"{name}: centre of mass {mesh.center_mass}, {solid['centre_mm']} told")
        density = next((d for known, d in DENSITY.items() if solid["material"].startswith(known)), None)
        check(density is not None, f"{name}: no density of {solid['material']} to compare with")
        if density:
            mesh.density = density * 1e-9
            check(abs(mesh.mass / solid["mass_kg"] - 1) < 0.01, f"{name}: {mesh.mass} kg, {solid['mass_kg']} told")
        if part["verdict"] in ("ok", "caution"):
            total += solid["mass_kg"] * solid["count"]
check(abs(total - job["mass_kg"]) < 1e-5, f"{total} kg together, {job['mass_kg']} told")

# The table: every row as wide as its head, the same lines as in the JSON, whichever reader opens it.
text = (out / "job.csv").read_bytes().decode("utf-8-sig")
rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
lines = [(l["key"], line) for l in job["lists"] for line in l["lines"]]
check(all(len(row) == 7 for row in rows), "a row of the table is not as wide as its head")
check(len(rows) == len(lines) + 1, f"{len(rows) - 1} rows, {len(lines)} lines")
columns = ["item", "count", "material", "size", "parts", "note"]
for row, (key, line) in zip(rows[1:], lines):
    same = [a.removeprefix("'") for a in row] == [key] + [line[c].removeprefix("'") for c in columns]
    check(same, f"{row} is not {line}")
frame = pandas.read_csv(out / "job.csv", dtype=str, keep_default_na=False)
check(list(frame.columns) == ["list"] + columns and frame.values.tolist() == rows[1:], "pandas reads another table")

# The order: one drawing for each line, sound, in millimetres, the same as the part's own.
for cut in job["cutter"]:
    path = out / "to-cutter" / cut["file"]
    drawing = ezdxf.readfile(path)
    check(not drawing.audit().has_errors and drawing.header.get("$INSUNITS", 4) == 4, f"{path}: not sound, or not in mm")
    own = "-".join(name for name in (cut["part"], cut["piece"]) if name)
    check(path.read_bytes() == (out / f"{own}.dxf").read_bytes(), f"{path}: not the drawing of its part")
listed = (out / "to-cutter" / "order.txt").read_text(encoding="utf-8")
check(all(c["file"] in listed for c in job["cutter"]), "a drawing is not on the list")
there = sorted(p.name for p in (out / "to-cutter").iterdir())
check(there == sorted([c["file"] for c in job["cutter"]] + ["order.txt"]), f"more or less in the order: {there}")

words = "\n".join(page.extract_text() for page in pypdf.PdfReader(out / "job.pdf").pages)
for title in ("For the cutter", "For the saw", "For the fasteners' counter", "The box for the road", "Order of work"):
    check(title in words, f"`{title}` is not on the sheets")

print(f"{passed} passed, {failed} failed")
sys.exit(0 if passed and not failed else 1)
