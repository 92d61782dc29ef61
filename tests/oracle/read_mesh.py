"""Reads every STL of a folder with trimesh and manifold3d: closed, right side out, of the expected volume.

Usage: read_mesh.py FOLDER      Needs: trimesh, manifold3d, numpy, networkx, scipy
"""

import sys

import manifold3d
import numpy
import trimesh

from common import near, run


def judge(mesh, entry, mm=1.0):
    complaints = []
    if not mesh.is_watertight:
        complaints.append("not watertight")
    if not mesh.is_winding_consistent:
        complaints.append("sides not consistent")
    if mesh.euler_number % 2:
        complaints.append(f"Euler number {mesh.euler_number}")
    if len(trimesh.graph.connected_components(mesh.face_adjacency, min_len=1)) != 1:
        complaints.append("more than one body")
    volume = mesh.volume * mm**3
    if volume <= 0:
        complaints.append(f"volume {volume}: inside out")
    if "volume_mm3" in entry:
        # A surface that is nowhere further off than the chord tolerance is off by at most area times tolerance.
        bound = entry["tolerance_mm"] * mesh.area * mm**2
        complaints += near("volume", volume, entry["volume_mm3"], bound)
    vertices, faces = numpy.asarray(mesh.vertices, numpy.float64), numpy.asarray(mesh.faces, numpy.uint64)
    solid = manifold3d.Manifold(manifold3d.Mesh64(vertices, faces))
    if solid.status() != manifold3d.Error.NoError:
        complaints.append(f"manifold3d: {solid.status()}")
    else:
        complaints += near("manifold3d volume", solid.volume() * mm**3, volume, 1e-6 * abs(volume))
    return complaints


def check(path, entry):
    raw = path.read_bytes()
    count = int.from_bytes(raw[80:84], "little")
    mesh = trimesh.load_mesh(path, process=True)  # merges equal corners, which is all that STL offers
    complaints = [] if len(mesh.faces) == count else [f"{count} triangles written, {len(mesh.faces)} read"]
    return complaints + judge(mesh, entry)


if __name__ == "__main__":
    sys.exit(run(".stl", check))
