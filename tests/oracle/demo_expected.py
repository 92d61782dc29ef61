"""Writes expected.json beside the demo's files, from the closed forms in the parts' JSON, for the readers.

Usage: demo_expected.py FOLDER PARTS      Needs: nothing but Python's standard library
"""

import json
import pathlib
import sys

folder = pathlib.Path(sys.argv[1])
expected = []
for path in sorted(folder.glob("*.json")):
    if path.name in ("manifest.json", "job.json"):
        continue
    part = json.loads(path.read_text())
    sizes = {d["key"]: d.get("value", d.get("nominal_mm")) for d in part["dimensions"]}
    solids = [f for f in folder.glob(path.stem + "*.stl") if f.stem == path.stem]
    if "volume" in sizes and solids:
        for suffix in ("stl", "step", "3mf"):
            expected.append({"file": f"{path.stem}.{suffix}", "unit": "mm", "tolerance_mm": 0.01, "volume_mm3": sizes["volume"]})
    if (folder / f"{path.stem}.dxf").exists():
        entry = {"file": f"{path.stem}.dxf", "unit": "mm", "tolerance_mm": 0.01}
        if "cut_area" in sizes:
            entry["area_mm2"] = sizes["cut_area"]
        expected.append(entry)
if not expected:
    sys.exit("no part of the demo has a volume: nothing could be checked")
(folder / "expected.json").write_text(json.dumps(expected))
