"""Drawings made to break a reader, 50 MB each: refused in one sentence with the place, under a second and 512 MB.

Usage: hostile_dxf.py PROGRAM
"""

import os
import pathlib
import resource
import subprocess
import sys
import tempfile
import time

MB = 50_000_000


def drawing(entities, blocks="", header=""):
    return f"0\nSECTION\n2\nHEADER\n{header}0\nENDSEC\n0\nSECTION\n2\nBLOCKS\n{blocks}0\nENDSEC\n0\nSECTION\n2\nENTITIES\n{entities}0\nENDSEC\n0\nEOF\n"


def fill(one):
    """Over and over to 50 MB; `#` in it is a number that grows."""
    parts = one.split("#")
    return "".join(str(i % 9000).join(parts) for i in range(MB // (len(one) + 3 * one.count("#"))))


def block(name, inside):
    return f"0\nBLOCK\n8\n0\n2\n{name}\n70\n0\n10\n0\n20\n0\n{inside}0\nENDBLK\n8\n0\n"


def insert(name, more=""):
    return f"0\nINSERT\n8\n0\n2\n{name}\n10\n0\n20\n0\n{more}"


LINE = "0\nLINE\n8\n0\n10\n#.5\n20\n1.25\n11\n#.75\n21\n3.0\n"
CIRCLE = "0\nCIRCLE\n8\n0\n10\n0\n20\n0\n40\n1\n"


def cases():
    yield "a million lines", drawing(fill(LINE)), "line "
    yield "layers without end", drawing("".join(f"0\nPOINT\n8\nlayer number {i}\n10\n1\n20\n1\n" for i in range(1_200_000))), "line "
    yield "one polyline", drawing("0\nLWPOLYLINE\n8\n0\n70\n1\n" + fill("10\n#.5\n20\n#.25\n")), "line "
    yield "corners of nothing", drawing("0\nPOLYLINE\n8\n0\n" + "0\nVERTEX\n" * 5_000_000), "line "
    yield "an endless spline", drawing("0\nSPLINE\n8\n0\n70\n8\n71\n3\n" + fill("40\n#.5\n")), "line "
    yield "wild splines", drawing("".join(
        "0\nSPLINE\n8\n0\n70\n8\n71\n3\n" + "".join(f"40\n{k}\n" for k in [0, 0, 0, 0, *range(1, 197), 197, 197, 197, 197])
        + "".join(f"10\n{(-1) ** i * 9e8}\n20\n{(-1) ** (i // 2) * 9e8}\n" for i in range(200)) for _ in range(2))), "line "
    yield "text without end", drawing(fill("0\nTEXT\n8\n0\n10\n1\n20\n2\n1\nword #\n")), "line "
    yield "blocks in a circle", drawing(insert("A"), block("A", insert("B")) + block("B", insert("A"))), "line "
    deep = "".join(block(f"B{i}", insert(f"B{i + 1}")) for i in range(5000)) + block("B5000", CIRCLE)
    yield "deep blocks", drawing(insert("B0"), deep), "line "
    doubling = "".join(block(f"B{i}", insert(f"B{i + 1}") * 2) for i in range(22)) + block("B22", "")
    yield "blocks that double", drawing(insert("B0"), doubling), "line "
    yield "an array of blocks", drawing(insert("A", "70\n30000\n71\n30000\n44\n1\n45\n1\n"), block("A", CIRCLE)), "line "
    yield "a block of that name is missing", drawing(insert("A")), "line "
    yield "NaN", drawing("0\nLINE\n8\n0\n10\nnan\n20\n0\n11\n1\n21\n1\n"), "line "
    yield "too large", drawing("0\nLINE\n8\n0\n10\n1e300\n20\n0\n11\n1\n21\n1\n"), "line "
    yield "no number", drawing("0\nCIRCLE\n8\n0\n10\ntwo\n20\n0\n40\n1\n"), "line "
    yield "cut off", drawing(LINE.replace("#", "1"))[:-30], "line "
    yield "an old release", drawing(CIRCLE, header="9\n$ACADVER\n1\nAC1.50\n"), "line "
    yield "letters", "solid cube\n" * 5_000_000, "line "
    yield "one endless line", "0" * MB, "line "
    yield "empty lines", "\n" * MB, ""
    yield "nothing", "", ""
    yield "binary", b"AutoCAD Binary DXF\r\n\x1a\x00" + os.urandom(MB), ""
    yield "noise", os.urandom(MB), ""
    yield "lines across each other", drawing("".join(
        f"0\nLINE\n8\n0\n10\n{i}\n20\n0\n11\n{5000 - i}\n21\n1000\n" for i in range(5000))), None
    yield "circles about circles", drawing("".join(
        f"0\nCIRCLE\n8\n0\n10\n0\n20\n0\n40\n{1 + i / 10}\n" for i in range(20000))), None


def main():
    program = sys.argv[1]
    passed = failed = 0
    slowest, most = 0.0, 0
    with tempfile.TemporaryDirectory() as folder:
        for name, content, place in cases():
            path, out = pathlib.Path(folder) / "a.dxf", pathlib.Path(folder) / "b.dxf"
            path.write_bytes(content if isinstance(content, bytes) else content.encode())
            begun = time.monotonic()
            child = subprocess.Popen([program, "inspect", str(path), "--mend", str(out)], stdout=subprocess.PIPE,
                                     stderr=subprocess.PIPE, text=True,
                                     preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (1 << 30, 1 << 30)))
            said, trouble = child.communicate(timeout=60)
            took = time.monotonic() - begun
            # The largest of all children so far: it only grows, and must stay within the limit for each.
            peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss // 1024
            slowest, most = max(slowest, took), max(most, peak)
            complaints = []
            if took > 1.0:
                complaints.append(f"{took:.2f} s")
            if peak > 512:
                complaints.append(f"{peak} MB")
            if out.exists():
                complaints.append("something was written")
                out.unlink()
            if place is not None and (child.returncode != 2 or trouble.count("\n") != 1 or place not in trouble):
                complaints.append(f"status {child.returncode}: {trouble[:300]!r}")
            if child.returncode not in (1, 2):
                complaints.append(f"status {child.returncode}")
            for complaint in complaints:
                print(f"{name}: {complaint}", file=sys.stderr)
            passed, failed = passed + (not complaints), failed + bool(complaints)
    print(f"slowest {slowest:.2f} s, largest {most} MB")
    print(f"{passed} passed, {failed} failed")
    return 0 if passed and not failed else 1


if __name__ == "__main__":
    sys.exit(main())
