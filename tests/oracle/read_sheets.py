"""Reads drawing sheets back with programs that know nothing of this project.

Usage: read_sheets.py FOLDER
FOLDER holds the outputs of a run: NAME.pdf or NAME-sheet.pdf with NAME.json (texts and limits compared), any .svg,
and NAME-template.pdf with NAME.dxf or NAME-wrap.dxf (its circles compared in size and place).

Needs: poppler's pdftotext on the path; from PyPI: ezdxf, pypdf, pikepdf, resvg-py.
"""

import json
import math
import multiprocessing
import pathlib
import re
import subprocess
import sys
import xml.etree.ElementTree as ElementTree

import ezdxf
import pikepdf
import pypdf
import resvg_py

POINTS_PER_MM = 72 / 25.4
faults = []


def fault(file, text):
    faults.append(f"{file.name}: {text}")


def plain(text):
    """Without spaces and line ends, since a cell breaks long texts; figures and words keep their order."""
    return re.sub(r"\s+", "", text)


def words_of(file):
    run = subprocess.run(["pdftotext", "-raw", str(file), "-"], capture_output=True, check=True)
    if run.stderr:
        fault(file, "pdftotext: " + run.stderr.decode())
    return plain(run.stdout.decode())


def inward(value, digits, sense):
    """A limit with so many digits, rounded to the side that permits less: a least one up (`sense` 1), a most one down.

    What the JSON's own last digit may have moved over a step counts either way.
    """
    steps = [(value + off) * 10**digits for off in (0, -1e-7, 1e-7)]
    return [f"{(math.ceil(x * sense) * sense) / 10**digits:.{digits}f}" for x in steps]


def limits_of(size):
    """The ways in which a limit may be written, in mm and in inch: more figures where few would leave nothing between."""
    measured = size.get("lower_mm") == size.get("upper_mm")
    for key, sense in (("lower_mm", 1), ("upper_mm", -1)):
        if key in size:
            for scale, least in ((1, 3), (25.4, 4)):
                ways = [way for digits in range(least, 8) for way in inward(size[key] / scale, digits, sense)]
                yield ways + ([f"{size[key] / scale:.{d}f}" for d in (3, 4)] if measured else [])


def texts_of(part):
    """Every text of a size, of its limits and of the findings, with the ways in which it may be written."""
    for size in part.get("dimensions", []):
        for key in ("text", "other_text"):
            if size.get(key):
                yield size["key"], [size[key]]
        yield from ((size["key"], ways) for ways in limits_of(size))
    for finding in part.get("findings", []):
        for key in ("because", "value_text", "limit_text"):
            if finding.get(key):
                yield finding.get("key", "?"), [finding[key]]
    for step in part.get("operations", []):
        if step.get("text"):
            yield "operation", [step["text"]]
    for line in part.get("cautions", []) + part.get("tools", []):
        yield "list", [line]


def check_values(file, part):
    words = words_of(file)
    reasons = file.with_name(file.stem + "-reasons.pdf")
    if reasons.exists():
        words += words_of(reasons)
    count = 0
    for key, ways in texts_of(part):
        count += 1
        if not any(plain(text) in words for text in ways):
            fault(file, f"{key}: {ways[0]!r} is not on the sheet")
    if count == 0:
        fault(file, "its JSON has no texts to compare")
    return count


def check_pdf(file):
    """Parsed by two readers; page sizes are those of the paper; a title and no date."""
    first = pypdf.PdfReader(str(file), strict=True)
    with pikepdf.open(file) as second:
        if len(second.pages) != len(first.pages):
            fault(file, "two readers count different pages")
        problems = second.check_pdf_syntax()
        if problems:
            fault(file, f"qpdf: {problems}")
    if not first.metadata.title:
        fault(file, "no title")
    if any("Date" in key for key in first.metadata):
        fault(file, "carries a date")
    for page in first.pages:
        size = sorted(float(x) / POINTS_PER_MM for x in (page.mediabox.width, page.mediabox.height))
        if not any(abs(size[0] - a) < 0.01 and abs(size[1] - b) < 0.01 for a, b in ((210, 297), (215.9, 279.4))):
            fault(file, f"page of {size} mm")


def paths(page, content):
    """Subpaths of a page as lists of points in mm, curves sampled; only what the sheets use."""
    scale = (1, 0, 0, 1, 0, 0)
    path, current = [], []
    for operands, operator in pikepdf.parse_content_stream(page):
        op, x = str(operator), [float(v) for v in operands if not isinstance(v, (pikepdf.Array, pikepdf.Name, pikepdf.String))]
        if op == "cm":
            scale = x
        elif op == "m":
            current = [tuple(x)]
            path.append(current)
        elif op == "l":
            current.append(tuple(x))
        elif op == "c":
            p0 = current[-1]
            p1, p2, p3 = (x[0], x[1]), (x[2], x[3]), (x[4], x[5])
            for i in range(1, 9):
                t = i / 8
                current.append(
                    tuple(
                        (1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t * t * c + t**3 * d
                        for a, b, c, d in zip(p0, p1, p2, p3)
                    )
                )
        elif op in ("S", "f", "f*", "n"):
            for sub in path:
                content.append([(px * scale[0] / POINTS_PER_MM, py * scale[3] / POINTS_PER_MM) for px, py in sub])
            path = []
    return content


def circle_of(points):
    """Centre and radius of a closed round path, by three points, when all points keep to it within 0.02 mm."""
    if len(points) < 16 or math.dist(points[0], points[-1]) > 1e-3:
        return None
    (ax, ay), (bx, by), (cx, cy) = points[0], points[len(points) // 3], points[2 * len(points) // 3]
    d = 2 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
    if abs(d) < 1e-9:
        return None
    ux = ((ax**2 + ay**2) * (by - cy) + (bx**2 + by**2) * (cy - ay) + (cx**2 + cy**2) * (ay - by)) / d
    uy = ((ax**2 + ay**2) * (cx - bx) + (bx**2 + by**2) * (ax - cx) + (cx**2 + cy**2) * (bx - ax)) / d
    radius = math.dist((ux, uy), points[0])
    if all(abs(math.dist((ux, uy), p) - radius) < 0.02 for p in points):
        return ux, uy, radius
    return None


def circles_of(dxf):
    """Circles of a DXF in mm, by another reader."""
    document = ezdxf.readfile(dxf)
    mm = 25.4 if document.header.get("$INSUNITS") == 1 else 1.0
    circles = document.modelspace().query("CIRCLE")
    return [{"x": c.dxf.center.x * mm, "y": c.dxf.center.y * mm, "diameter": 2 * c.dxf.radius * mm} for c in circles]


def check_template(file, holes):
    """Every hole is on the sheet with its diameter, and their distances from each other are right, within 0.02 mm."""
    found = []
    with pikepdf.open(file) as pdf:
        single = len(pdf.pages) == 1
        for page in pdf.pages:
            found += [c for c in map(circle_of, paths(page, [])) if c]
    for hole in holes:
        if not any(abs(2 * r - hole["diameter"]) < 0.02 for _, _, r in found):
            fault(file, f"no circle of {hole['diameter']} mm")
    if not single or not holes:
        return len(holes)
    first = holes[0]
    starts = [c for c in found if abs(2 * c[2] - first["diameter"]) < 0.02]

    def all_there(start):
        def there(hole):
            x, y = start[0] + hole["x"] - first["x"], start[1] + hole["y"] - first["y"]
            return any(math.dist((x, y), c[:2]) < 0.02 and abs(2 * c[2] - hole["diameter"]) < 0.02 for c in found)

        return all(map(there, holes))

    if not any(map(all_there, starts)):
        fault(file, "holes do not lie in their places within 0.02 mm")
    return len(holes)


def svg_faults(file):
    """What is wrong with an SVG: it must be valid XML, have every letter that it uses, and be drawn by resvg."""
    found = []
    text = file.read_text(encoding="utf-8")
    root = ElementTree.fromstring(text)
    if not root.tag.endswith("svg"):
        found.append("is not an SVG")
    ids = {e.get("id") for e in root.iter() if e.get("id")}
    wanted = {e.get("href")[1:] for e in root.iter() if e.tag.endswith("use")}
    if not wanted <= ids:
        found.append(f"letters without outline: {wanted - ids}")
    png = bytes(resvg_py.svg_to_bytes(svg_string=text, dpi=50))
    if not png.startswith(b"\x89PNG") or len(png) < 2000:
        found.append("resvg draws nothing")
    return found


def main(folder):
    folder = pathlib.Path(folder)
    sheets, compared, circles, drawings = 0, 0, 0, 0
    for file in sorted(folder.glob("*.pdf")):
        check_pdf(file)
        sheets += 1
        if file.stem.endswith("-template"):
            stem = file.stem.removesuffix("-template")
            # A flat part, or the ends of a sleeve unrolled.
            dxf = next((d for d in (folder / f"{stem}.dxf", folder / f"{stem}-wrap.dxf") if d.exists()), folder / f"{stem}.dxf")
            if not dxf.exists():
                fault(file, f"no {dxf.name} to compare with")
                continue
            circles += check_template(file, circles_of(dxf))
            continue
        if file.stem.endswith("-reasons"):
            continue
        part = folder / (file.stem.removesuffix("-sheet") + ".json")
        # The whole job has a reader of its own.
        if part.exists() and file.stem != "job":
            compared += check_values(file, json.loads(part.read_text()))
    svgs = sorted(folder.glob("*.svg"))
    with multiprocessing.Pool() as pool:
        for file, found in zip(svgs, pool.map(svg_faults, svgs, chunksize=20)):
            drawings += 1
            for text in found:
                fault(file, text)
    print(f"{sheets} PDF, {compared} values compared, {circles} holes measured, {drawings} SVG")
    if sheets == 0 and drawings == 0:
        sys.exit("nothing to read: no PDF and no SVG in the folder")
    if faults:
        print("\n".join(faults[:40]))
        sys.exit(f"{len(faults)} faults")


if __name__ == "__main__":
    main(sys.argv[1])
