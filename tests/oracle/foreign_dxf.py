"""Drawings that ezdxf writes, with faults planted and counted: `inspect` finds all of them and no other, reads the same area
and length, and what it mends is sound to ezdxf and has the same area.

Usage: foreign_dxf.py PROGRAM [COUNT]      Needs: ezdxf
"""

import collections
import json
import math
import pathlib
import random
import subprocess
import sys
import tempfile

import ezdxf

from read_dxf import area as polyline_area, corners

PITCH = 60.0
RELEASES = ["R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018"]


class Drawing:
    """A plate with one feature in each cell of a net, so that no feature disturbs another."""

    def __init__(self, rng):
        self.rng = rng
        self.release = rng.choice(RELEASES)
        # ezdxf writes no unit into R12: that is a fault by itself.
        self.inch = self.modern and rng.random() < 0.3
        self.k = 1 / 25.4 if self.inch else 1.0
        self.doc = ezdxf.new(self.release, setup=False)
        self.doc.header["$INSUNITS"] = 1 if self.inch else 4
        self.space = self.doc.modelspace()
        self.faults = collections.Counter(unit=0 if self.modern else 1)
        self.area = 0.0
        self.curved = False
        self.sound = True
        self.gaps = 0.0
        self.columns, self.rows = rng.randint(2, 5), rng.randint(2, 4)
        self.cells = [(c, r) for c in range(self.columns) for r in range(self.rows)]
        rng.shuffle(self.cells)
        self.layer = rng.choice(["0", "CUT", "Kontur", "outline"])
        self.at = {"layer": self.layer}

    @property
    def modern(self):
        return self.release != "R12"

    def cell(self):
        c, r = self.cells.pop()
        return ((c + 0.5) * PITCH + self.rng.uniform(-3, 3), (r + 0.5) * PITCH + self.rng.uniform(-3, 3))

    def p(self, *points):
        return [(x * self.k, y * self.k) for x, y in points]

    def line(self, a, b):
        if self.rng.random() < 0.5:
            a, b = b, a
        a, b = self.p(a, b)
        return self.space.add_line(a, b, dxfattribs=self.at)

    def arc(self, centre, r, start, end):
        (c,) = self.p(centre)
        return self.space.add_arc(c, r * self.k, start, end, dxfattribs=self.at)

    def circle(self, centre, r):
        (c,) = self.p(centre)
        if self.modern and self.rng.random() < 0.2:
            # Drawn from below: x runs the other way.
            return self.space.add_circle((-c[0], c[1]), r * self.k, dxfattribs={**self.at, "extrusion": (0, 0, -1)})
        return self.space.add_circle(c, r * self.k, dxfattribs=self.at)

    def polyline(self, points):
        scaled = [(x * self.k, y * self.k, b) for x, y, b in points]
        if self.modern:
            return self.space.add_lwpolyline(scaled, format="xyb", close=True, dxfattribs=self.at)
        return self.space.add_polyline2d(scaled, format="xyb", close=True, dxfattribs=self.at)

    def edge(self):
        w, h = self.columns * PITCH, self.rows * PITCH
        r = self.rng.choice([0.0, 5.0, 8.5])
        self.area += w * h - (4 - math.pi) * r * r
        kind = self.rng.choice(["polyline", "pieces"])
        q = math.tan(math.pi / 8)
        if kind == "polyline":
            if r == 0.0:
                return self.polyline([(0, 0, 0), (w, 0, 0), (w, h, 0), (0, h, 0)])
            return self.polyline([(r, 0, 0), (w - r, 0, q), (w, r, 0), (w, h - r, q), (w - r, h, 0), (r, h, q),
                                  (0, h - r, 0), (0, r, q)])
        jobs = [lambda: self.line((r, 0), (w - r, 0)), lambda: self.line((w, r), (w, h - r)),
                lambda: self.line((w - r, h), (r, h)), lambda: self.line((0, h - r), (0, r))]
        if r:
            jobs += [lambda: self.arc((w - r, r), r, 270, 0), lambda: self.arc((w - r, h - r), r, 0, 90),
                     lambda: self.arc((r, h - r), r, 90, 180), lambda: self.arc((r, r), r, 180, 270)]
        self.rng.shuffle(jobs)
        for job in jobs:
            job()

    def slot(self, centre, w, l, missing=False, gap=0.0):
        x, y = centre
        half, side = (l - w) / 2, w / 2
        jobs = [lambda: self.line((x - half, y - side), (x + half - gap, y - side)),
                lambda: self.line((x + half, y + side), (x - half, y + side)),
                lambda: self.arc((x - half, y), side, 90, 270)]
        if not missing:
            jobs.append(lambda: self.arc((x + half, y), side, 270, 90))
        self.rng.shuffle(jobs)
        for job in jobs:
            job()

    # One feature each: area taken, faults planted.
    def plain_hole(self, at):
        r = self.rng.uniform(3, 12)
        self.circle(at, r)
        self.area -= math.pi * r * r

    def plain_slot(self, at):
        w, l = self.rng.uniform(6, 10), self.rng.uniform(15, 30)
        self.slot(at, w, l)
        self.area -= math.pi * w * w / 4 + w * (l - w)

    def open_slot(self, at):
        self.slot(at, 8, 24, missing=True)
        self.faults["open outline"] += 1
        self.sound = False

    def gap(self, at):
        self.slot(at, 8, 24, gap=0.02)
        self.area -= math.pi * 16 + 8 * 16
        self.gaps += 1
        self.faults["gap"] += 1

    def crossing(self, at):
        x, y = at
        self.circle((x - 3, y), 5)
        self.circle((x + 3, y), 5)
        self.area -= 2 * math.pi * 25
        self.faults["crossing"] += 1
        self.sound = False

    def double_circle(self, at):
        (c,) = self.p(at)
        for _ in range(2):
            self.space.add_circle(c, 6 * self.k, dxfattribs=self.at)
        self.area -= math.pi * 36
        self.faults["double"] += 1

    def double_line(self, at):
        x, y = at
        square = [(x - 6, y - 6), (x + 6, y - 6), (x + 6, y + 6), (x - 6, y + 6)]
        for a, b in zip(square, square[1:] + square[:1]):
            self.line(a, b)
        # Part of an edge once more.
        self.line((x - 4, y - 6), (x + 5, y - 6))
        self.area -= 144
        self.faults["double"] += 1

    def nothing(self, at):
        (c,) = self.p(at)
        self.space.add_line(c, c, dxfattribs=self.at)
        self.faults["zero length"] += 1

    def spline(self, at):
        x, y = at
        n = self.rng.randint(5, 9)
        ring = [(x + self.rng.uniform(9, 14) * math.cos(i * math.tau / n), y + self.rng.uniform(9, 14) * math.sin(i * math.tau / n))
                for i in range(n)]
        points = self.p(*ring, ring[0])
        if self.rng.random() < 0.5:
            weights = [1.0] + [self.rng.uniform(0.6, 2.0) for _ in range(n - 1)] + [1.0]
            e = self.space.add_rational_spline(points, weights, degree=3, dxfattribs=self.at)
        else:
            e = self.space.add_spline(dxfattribs=self.at)
            e.set_open_uniform(points, degree=3)
        # Area of a fine polygon through ezdxf's own points of the curve.
        curve = e.construction_tool()
        fine = [curve.point(t) for t in (curve.max_t * i / 20000 for i in range(20001))]
        self.area -= abs(sum(a.x * b.y - a.y * b.x for a, b in zip(fine, fine[1:]))) / 2 / self.k**2
        self.curved = True
        self.faults["spline"] += 1

    def ellipse(self, at):
        (c,) = self.p(at)
        turn, ratio = self.rng.uniform(0, math.pi), self.rng.uniform(0.3, 0.9)
        major = (14 * self.k * math.cos(turn), 14 * self.k * math.sin(turn))
        self.space.add_ellipse(c, major, ratio, dxfattribs=self.at)
        self.area -= math.pi * 14 * 14 * ratio
        self.curved = True
        self.faults["ellipse"] += 1

    def text(self, at):
        (c,) = self.p(at)
        if self.modern and self.rng.random() < 0.5:
            self.space.add_mtext("plate", dxfattribs=self.at).set_location(c)
        else:
            self.space.add_text("plate", dxfattribs=self.at).set_placement(c)
        self.faults["text"] += 1

    def hatch(self, at):
        x, y = at
        hatch = self.space.add_hatch(dxfattribs=self.at)
        hatch.paths.add_polyline_path(self.p((x, y), (x + 5, y), (x, y + 5)), is_closed=True)
        self.faults["hatch"] += 1

    def block(self, at):
        name = f"hole{len(self.doc.blocks)}"
        block = self.doc.blocks.new(name, base_point=(1, 2))
        r, grown = self.rng.uniform(1, 2), self.rng.choice([1.0, 2.0, -1.5])
        nested = self.rng.random() < 0.4
        if nested:
            inner = self.doc.blocks.new(name + "in")
            inner.add_circle((0, 0), r * self.k, dxfattribs={"layer": "0"})
            block.add_blockref(name + "in", (1, 2), dxfattribs={"rotation": 30})
        else:
            block.add_circle((1, 2), r * self.k, dxfattribs={"layer": "0"})
        (c,) = self.p(at)
        attribs = {**self.at, "xscale": grown, "yscale": abs(grown), "rotation": self.rng.uniform(0, 360)}
        times = 1
        if self.rng.random() < 0.4:
            attribs |= {"column_count": 2, "row_count": 2, "column_spacing": 12 * self.k, "row_spacing": 10 * self.k}
            times = 4
        self.space.add_blockref(name, c, dxfattribs=attribs)
        self.area -= times * math.pi * (r * grown) ** 2
        self.faults["block"] += 1

    def dimension(self, at):
        x, y = at
        a, b, base = self.p((x, y), (x + 8, y), (x, y + 5))
        self.space.add_linear_dim(base=base, p1=a, p2=b, dxfattribs=self.at).render()
        self.faults["dimension"] += 1

    def small_hole(self, at):
        self.circle(at, 0.8)
        self.area -= math.pi * 0.64
        self.faults["hole too small"] += 1

    def web(self, at):
        x, y = at
        self.circle((x - 5.4, y), 5)
        self.circle((x + 5.4, y), 5)
        self.area -= 2 * math.pi * 25
        self.faults["web too thin"] += 1

    def marks(self, at):
        x, y = at
        for a, b in [((x - 2, y), (x + 2, y)), ((x, y - 2), (x, y + 2))]:
            a, b = self.p(a, b)
            self.space.add_line(a, b, dxfattribs={"layer": "MARK"})

    def units(self):
        kind = self.rng.choice(["right", "right", "none", "metres"])
        if kind == "none":
            self.doc.header["$INSUNITS"] = 0
            if self.inch:
                # Said by who asks, so nothing is missing.
                self.told = ["--unit", "in"]
            else:
                self.faults["unit"] += 1
        if kind == "metres" and not self.inch:
            self.doc.header["$INSUNITS"] = 6
            # In metres the plate is longer than any sheet: stated wrongly, and too large.
            self.read = 1000.0
            self.faults["unit"] += 2

    FEATURES = ["plain_hole", "plain_slot", "open_slot", "gap", "crossing", "double_circle", "double_line", "nothing", "spline",
                "ellipse", "text", "hatch", "block", "dimension", "small_hole", "web", "marks"]

    def fill(self):
        self.read, self.told = 1.0, []
        self.edge()
        modern_only = {"spline", "ellipse", "hatch", "dimension"}
        for _ in range(min(len(self.cells), self.rng.randint(2, 10))):
            name = self.rng.choice(self.FEATURES)
            if name in modern_only and not self.modern:
                name = "plain_hole"
            getattr(self, name)(self.cell())
        if self.modern and self.faults["hole too small"] + self.faults["web too thin"] + self.faults["gap"] == 0:
            self.units()


def length(doc):
    """Length of everything that is cut, by ezdxf's own curves, blocks taken apart."""
    total = 0.0

    def add(entity):
        nonlocal total
        kind = entity.dxftype()
        if kind == "INSERT":
            for single in entity.multi_insert() if entity.mcount > 1 else [entity]:
                for inner in single.virtual_entities():
                    add(inner)
        elif kind == "LINE":
            total += entity.dxf.start.distance(entity.dxf.end)
        elif kind == "CIRCLE":
            total += math.tau * entity.dxf.radius
        elif kind == "ARC":
            total += math.radians((entity.dxf.end_angle - entity.dxf.start_angle) % 360) * entity.dxf.radius
        elif kind in ("ELLIPSE", "SPLINE"):
            points = list(entity.flattening(1e-7, 64))
            total += sum(a.distance(b) for a, b in zip(points, points[1:]))
        elif kind in ("LWPOLYLINE", "POLYLINE"):
            points = corners(entity)
            for (x0, y0, b), (x1, y1, _) in zip(points, points[1:] + points[:1]):
                chord = math.hypot(x1 - x0, y1 - y0)
                sweep = 4 * math.atan(b)
                total += chord * sweep / 2 / math.sin(sweep / 2) if b else chord

    for entity in doc.modelspace():
        if entity.dxf.layer != "MARK":
            add(entity)
    return total


def inspect(program, *arguments):
    run = subprocess.run([program, "inspect", *map(str, arguments), "--json"], capture_output=True, text=True)
    return run.returncode, json.loads(run.stdout) if run.stdout else None, run.stderr


def mended_area(path):
    doc = ezdxf.readfile(path)
    audit = doc.audit()
    said = [e.message for e in [*audit.errors, *audit.fixes]]
    if doc.header["$INSUNITS"] != 4:
        said.append("not in mm")
    areas = []
    for e in doc.modelspace():
        if e.dxf.layer == "CUT":
            areas.append(math.pi * e.dxf.radius**2 if e.dxftype() == "CIRCLE" else polyline_area(corners(e)))
    return 2 * max(areas) - sum(areas), said


def check(program, number, folder):
    drawing = Drawing(random.Random(number))
    drawing.fill()
    path = folder / f"{number}.dxf"
    drawing.doc.saveas(path)
    code, found, trouble = inspect(program, path, "--thickness", "2mm", *drawing.told)
    if found is None:
        return [f"not read: {trouble}"], drawing
    complaints = []
    kinds = collections.Counter(f["kind"] for f in found["findings"])
    if kinds != +drawing.faults:
        complaints.append(f"planted {dict(+drawing.faults)}, found {dict(kinds)}")
    refused = any(kind != "gap" for kind in drawing.faults if drawing.faults[kind])
    if code != (1 if refused else 0):
        complaints.append(f"status {code}")
    area = drawing.area * drawing.read**2
    if abs(found["area_mm2"] - area) > (0.2 * drawing.gaps + 1e-6 * area if drawing.curved or drawing.gaps else 1e-9 * area):
        complaints.append(f"area {found['area_mm2']}, {area} is true")
    scale = (25.4 if drawing.inch else 1.0) * drawing.read
    wanted = length(drawing.doc) * scale
    # What lies twice is cut once, and what was drawn twice is counted twice by ezdxf.
    if not drawing.faults["double"] and abs(found["cut_length_mm"] - wanted) > 0.1 * drawing.gaps + (1e-5 if drawing.curved else 1e-9) * wanted:
        complaints.append(f"length {found['cut_length_mm']}, {wanted} is true")
    out = folder / f"{number}-mended.dxf"
    run = subprocess.run([program, "inspect", str(path), "--mend", str(out), *drawing.told], capture_output=True, text=True)
    if not drawing.sound:
        if out.exists() or run.returncode != 1:
            complaints.append("mended what cannot be")
        return complaints, drawing
    if not out.exists():
        return complaints + [f"not mended: {run.stderr}"], drawing
    theirs, said = mended_area(out)
    again_code, again, _ = inspect(program, out)
    complaints += said
    again_kinds = [f["kind"] for f in again["findings"] if not (f["kind"] == "unit" and drawing.read == 1000.0)]
    if again_kinds or (again_code and drawing.read != 1000.0):
        complaints.append(f"mended, and still {again_kinds}")
    if abs(theirs - again["area_mm2"]) > 1e-9 * theirs:
        complaints.append(f"area of the mended {again['area_mm2']}, {theirs} to ezdxf")
    # Arcs for curves: within a hundredth of a millimetre of them.
    room = 0.01 * found["cut_length_mm"] if drawing.curved else 1e-9 * theirs
    if abs(theirs - found["area_mm2"]) > room:
        complaints.append(f"area {found['area_mm2']} before, {theirs} after")
    return complaints, drawing


def main():
    program, count = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 320
    passed = failed = 0
    planted = collections.Counter()
    with tempfile.TemporaryDirectory() as folder:
        for number in range(count):
            try:
                complaints, drawing = check(program, number, pathlib.Path(folder))
                planted += drawing.faults
            except Exception as fault:  # a reader that gives up is a failure, whatever it says
                complaints = [f"{type(fault).__name__}: {fault}"]
            for complaint in complaints:
                print(f"{number}: {complaint}", file=sys.stderr)
            passed, failed = passed + (not complaints), failed + bool(complaints)
    print("planted:", ", ".join(f"{n} {kind}" for kind, n in sorted(planted.items())))
    print(f"{passed} passed, {failed} failed")
    return 0 if passed and not failed else 1


if __name__ == "__main__":
    sys.exit(main())
