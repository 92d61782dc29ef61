"""Reads every DXF of a folder with ezdxf: no error, nothing to fix, closed, area and size as expected.

Usage: read_dxf.py FOLDER      Needs: ezdxf
"""

import math
import sys

import ezdxf
from ezdxf.math import bulge_to_arc

from common import near, run

UNITS = {1: ("inch", 25.4), 4: ("mm", 1.0)}


def corners(entity):
    if entity.dxftype() == "LWPOLYLINE":
        return [(x, y, b) for x, y, b in entity.get_points("xyb")]
    return [(v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0.0)) for v in entity.vertices]


def area(points):
    """Shoelace, and for each bulge b = tan(s/4) on a chord c the circular segment r^2 (s - sin s)/2."""
    total = 0.0
    for (x0, y0, b), (x1, y1, _) in zip(points, points[1:] + points[:1]):
        total += (x0 * y1 - x1 * y0) / 2
        if b:
            sweep = 4 * math.atan(b)
            radius = math.hypot(x1 - x0, y1 - y0) / 2 / math.sin(sweep / 2)
            total += radius**2 * (sweep - math.sin(sweep)) / 2
    return abs(total)


def reach(entity):
    """Points that span the entity's box: corners, and where an arc or circle is outermost."""
    quarters = [(k * math.pi / 2, math.cos(k * math.pi / 2), math.sin(k * math.pi / 2)) for k in range(4)]
    if entity.dxftype() == "CIRCLE":
        c, r = entity.dxf.center, entity.dxf.radius
        return [(c.x + r * x, c.y + r * y) for _, x, y in quarters]
    points = corners(entity)
    found = [(x, y) for x, y, _ in points]
    for (x0, y0, b), (x1, y1, _) in zip(points, points[1:] + points[:1]):
        if b:
            centre, start, end, r = bulge_to_arc((x0, y0), (x1, y1), b)
            sweep = (end - start) % math.tau
            found += [(centre.x + r * x, centre.y + r * y) for a, x, y in quarters if (a - start) % math.tau <= sweep]
    return found


def check(path, entry):
    raw = path.read_bytes()
    complaints = []
    if not raw.isascii():
        complaints.append("not ASCII")
    if raw.count(b"\n") != raw.count(b"\r\n"):
        complaints.append("a line without CR LF")
    doc = ezdxf.readfile(path)  # the strict reader, no recovery
    audit = doc.audit()
    complaints += [f"audit error {e.code}: {e.message}" for e in audit.errors]
    complaints += [f"audit fix {e.code}: {e.message}" for e in audit.fixes]
    number = doc.header.get("$INSUNITS")
    if number not in UNITS:
        return complaints + [f"$INSUNITS {number}"]
    unit, mm = UNITS[number]
    if doc.header.get("$MEASUREMENT") != (0 if unit == "inch" else 1):
        complaints.append(f"$MEASUREMENT {doc.header.get('$MEASUREMENT')}")
    if entry and entry["unit"] != unit:
        complaints.append(f"unit {unit}, expected {entry['unit']}")
    areas, seen = [], set()
    for e in doc.modelspace():
        kind, layer = e.dxftype(), e.dxf.layer
        if layer not in ("CUT", "MARK") or kind not in ("LWPOLYLINE", "POLYLINE", "CIRCLE", "LINE"):
            complaints.append(f"{kind} on layer {layer}")
            continue
        if kind == "CIRCLE":
            key = (kind, e.dxf.center.x, e.dxf.center.y, e.dxf.radius)
            shape_area = math.pi * e.dxf.radius**2
        elif kind == "LINE":
            key, shape_area = (kind, *sorted([tuple(e.dxf.start), tuple(e.dxf.end)])), 0.0
        else:
            if not e.is_closed:
                complaints.append(f"open {kind}")
            points = corners(e)
            key, shape_area = (kind, *sorted(points)), area(points)
        if key in seen:
            complaints.append(f"{kind} twice")
        seen.add(key)
        if layer == "CUT":
            if kind == "LINE":
                complaints.append("a loose line on the cutting layer")
            areas.append(shape_area * mm * mm)
    if not areas:
        return complaints + ["nothing to cut"]
    outline = max(areas)
    net = 2 * outline - sum(areas)
    box = [p for e in doc.modelspace() if e.dxf.layer == "CUT" for p in reach(e)]
    low, high = doc.header["$EXTMIN"], doc.header["$EXTMAX"]
    for axis in (0, 1):
        complaints += near("least extent", low[axis], min(p[axis] for p in box), 1e-9)
        complaints += near("greatest extent", high[axis], max(p[axis] for p in box), 1e-9)
    if "area_mm2" in entry:
        complaints += near("area", net, entry["area_mm2"], 1e-9 * outline)
    for key, axis in (("width_mm", 0), ("height_mm", 1)):
        if key in entry:
            complaints += near(key, (high[axis] - low[axis]) * mm, entry[key], 1e-9 * entry[key])
    return complaints


if __name__ == "__main__":
    sys.exit(run(".dxf", check))
