"""Shared by the readers: find the files, compare with expected.json, count, report in one line.

expected.json is a list of {"file", "unit": "mm" | "inch", "tolerance_mm", and any of "area_mm2", "width_mm",
"height_mm", "volume_mm3", "surface_mm2"}.
"""

import json
import pathlib
import sys


def run(suffix, check):
    """check(path, entry) returns a list of complaints; entry is {} for a file that is not in expected.json."""
    folder = pathlib.Path(sys.argv[1])
    listed = folder / "expected.json"
    expected = {e["file"]: e for e in json.loads(listed.read_text())} if listed.exists() else {}
    passed = failed = 0
    for path in sorted(folder.glob("*" + suffix)):
        try:
            complaints = check(path, expected.get(path.name, {}))
        except Exception as fault:  # a reader that gives up is a failure, whatever it says
            complaints = [f"{type(fault).__name__}: {fault}"]
        for complaint in complaints:
            print(f"{path.name}: {complaint}", file=sys.stderr)
        passed, failed = passed + (not complaints), failed + bool(complaints)
    missing = [name for name in expected if name.endswith(suffix) and not (folder / name).exists()]
    for name in missing:
        print(f"{name}: expected, but not there", file=sys.stderr)
    failed += len(missing)
    print(f"{passed} passed, {failed} failed")
    sys.exit(0 if passed and not failed else 1)


def near(what, found, wanted, allowed):
    """A complaint if found is further than allowed from wanted."""
    return [] if abs(found - wanted) <= allowed else [f"{what} {found!r}, expected {wanted!r} within {allowed!r}"]
