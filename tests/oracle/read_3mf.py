"""Reads every 3MF of a folder with trimesh: unit stated, closed, of the expected volume; and its ZIP by Python.

Usage: read_3mf.py FOLDER      Needs: trimesh, manifold3d, numpy, networkx, scipy, lxml
"""

import sys
import zipfile

import trimesh

from common import run
from read_mesh import judge

UNITS = {"millimeter": 1.0, "millimeters": 1.0, "mm": 1.0, "inch": 25.4}


def check(path, entry):
    with zipfile.ZipFile(path) as archive:
        damaged = archive.testzip()
        dates = {info.date_time for info in archive.infolist()}
    complaints = [f"ZIP damaged at {damaged}"] if damaged else []
    if dates != {(1980, 1, 1, 0, 0, 0)}:
        complaints.append(f"dated {dates}")
    scene = trimesh.load_scene(path)
    mesh = scene.to_mesh()
    unit = scene.units or mesh.units
    if unit not in UNITS:
        return complaints + [f"unit {unit!r}"]
    return complaints + judge(mesh, entry, UNITS[unit])


if __name__ == "__main__":
    sys.exit(run(".3mf", check))
