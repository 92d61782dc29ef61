"""Reads every STEP file of a folder with OpenCASCADE: no fault, one valid solid, exact volume, product name.

Usage: read_step.py FOLDER      Needs: cadquery-ocp
"""

import sys

from OCP.BRepCheck import BRepCheck_Analyzer
from OCP.BRepGProp import BRepGProp
from OCP.GProp import GProp_GProps
from OCP.IFSelect import IFSelect_RetDone
from OCP.Message import Message, Message_Gravity
from OCP.STEPControl import STEPControl_Reader
from OCP.TopAbs import TopAbs_FACE, TopAbs_SHELL, TopAbs_SOLID
from OCP.TopExp import TopExp_Explorer

from common import near, run

for printer in Message.DefaultMessenger_s().Printers():
    printer.SetTraceLevel(Message_Gravity.Message_Fail)


def count(shape, kind):
    explorer, n = TopExp_Explorer(shape, kind), 0
    while explorer.More():
        n, _ = n + 1, explorer.Next()
    return n


def check(path, entry):
    raw = path.read_text(encoding="ascii")
    complaints = [] if "AUTOMOTIVE_DESIGN" in raw else ["schema is not AP214"]
    reader = STEPControl_Reader()
    if reader.ReadFile(str(path)) != IFSelect_RetDone:
        return complaints + ["not read"]
    load = reader.WS().LoadedModel() if hasattr(reader.WS(), "LoadedModel") else reader.StepModel()
    checks = load.GlobalCheck(True)
    if checks.NbFails() or checks.NbWarnings():
        complaints.append(f"file: {checks.NbFails()} fails, {checks.NbWarnings()} warnings")
    for number in range(1, load.NbEntities() + 1):
        here = load.Check(number, True)
        if here.NbFails() or here.NbWarnings():
            complaints.append(f"record {number}: {here.NbFails()} fails, {here.NbWarnings()} warnings")
    reader.TransferRoots()
    transfer = reader.WS().TransferReader().TransientProcess()
    for number in range(1, transfer.NbMapped() + 1):
        binder = transfer.MapItem(number)
        if binder is not None and (binder.Check().NbFails() or binder.Check().NbWarnings()):
            notes = [binder.Check().CFail(k + 1) for k in range(binder.Check().NbFails())]
            notes += [binder.Check().CWarning(k + 1) for k in range(binder.Check().NbWarnings())]
            complaints.append(f"transfer: {notes}")
    shape = reader.OneShape()
    if not BRepCheck_Analyzer(shape).IsValid():
        complaints.append("not valid")
    kinds = (count(shape, TopAbs_SOLID), count(shape, TopAbs_SHELL))
    if kinds != (1, 1):
        complaints.append(f"solids and shells {kinds}")
    if raw.count("ADVANCED_FACE(") != count(shape, TopAbs_FACE):
        complaints.append(f"{raw.count('ADVANCED_FACE(')} faces written, {count(shape, TopAbs_FACE)} read")
    properties = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, properties)
    if "volume_mm3" in entry:
        complaints += near("volume", properties.Mass(), entry["volume_mm3"], 1e-6 * entry["volume_mm3"])
    if "surface_mm2" in entry:
        BRepGProp.SurfaceProperties_s(shape, properties)
        complaints += near("surface", properties.Mass(), entry["surface_mm2"], 1e-6 * entry["surface_mm2"])
    return complaints


if __name__ == "__main__":
    sys.exit(run(".step", check))
