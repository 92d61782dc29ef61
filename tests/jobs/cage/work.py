"""The figures of the tank cage by another route than the program's: from the part files by hand formulas, printed tables and
equilibrium. Writes figures.csv beside it; reads nothing that the program has written.

    python3 tests/jobs/cage/work.py
"""
import csv
import os
from math import cos, pi, radians, tan

ROWS = []


def figure(file, key, value, tolerance, how):
    ROWS.append((file + ".toml", key, value, tolerance, how))


A = radians(30)
LOAD = 11_000.0
SIDE = 0.3 * LOAD

# --- the bolted cones ---------------------------------------------------------------------------------------------------

HEIGHT = (64 - 26) / 2 / tan(A)
figure("cone-round", "height", HEIGHT, 0.001, "(D - d)/2/tan a")
figure("cone-round", "slant", 38.0, 0.001, "half the difference of the diameters over sin 30")
figure("cone-round", "over_rollers", 64 + 10 * (1 + tan(pi / 4 - A / 2)), 0.003, "roller in the corner of plane and flank")
figure("cone-round", "tap_drill", 14.0, 0.001, "ISO 2306, M16: 14 mm")
figure("cone-round", "crossbar_hole", 17.5, 0.001, "ISO 273 medium, M16")
# Wall 10, packing 4, washer of ISO 7089 3, full thread 24: 41 at most; ISO 888 has 40.
figure("cone-round", "bolt_grip", 10 + 4 + 3, 0.001, "wall, packing, washer")
figure("cone-round", "bolt_length", 40.0, 0.001, "longest of ISO 888 not over 41")
figure("cone-round", "bolt_engaged", 40 - 17, 0.001, "length less what is clamped")
M16, M12 = 157.0, 84.3
ARM = HEIGHT + 10 + 4
PULL = SIDE * ARM / 45
SHEAR, TENSION = 0.6 * 800 * M16 / 1.25, 0.9 * 800 * M16 / 1.25
figure("cone-round", "finding:cone_bolt", SIDE / SHEAR + PULL / 1.4 / TENSION, 0.0006,
       "EN 1993-1-8 table 3.4 with the printed stress area; tipping about the edge of the foot, over the packing; a packing of a quarter of the bolt takes nothing")
CLAMP = 0.7 * 0.75 * 91_000
figure("cone-round", "finding:cone_bolt_slip", SIDE / ((CLAMP - 0.8 * PULL) * 0.2 / 1.25), 0.006,
       "EN 1993-1-8, 3.9; 0.75 of the proof load of ISO 898-1, 30 % under it; 1.5 mm of room is normal for M16")
figure("cone-slot", "height", 19.05 / tan(A), 0.001, "(D - d)/2/tan a in inches")
figure("cone-slot", "tap_drill", 17 / 32 * 25.4, 0.02, "5/8-11 UNC: 17/32 in, drill charts")

# --- cups ---------------------------------------------------------------------------------------------------------------

# A rounded rim: its centre stands r off the flank, 23 + 1.5 from the axis and 1.5 over the entry face.
AXIS = 23 + 1.5
TOUCH = AXIS - 1.5 * cos(A)
SEAT = (32 - AXIS + 1.5 / cos(A)) / tan(A) - 1.5
figure("cup-round", "contact_diameter", 2 * TOUCH, 0.002, "foot of the perpendicular from the rim's centre to the flank")
figure("cup-round", "seat_height", SEAT, 0.002, "flank line at a radius off the rim's centre")
figure("cup-round", "gap_to_crossbar", SEAT + 10, 0.002, "and the foot")
figure("cup-round", "capture_radius", (46 - (26 - 4 * tan((pi / 2 - A) / 2))) / 2, 0.003, "half of hole less flat of the nose")
# Plate 15, packing 1.5, frame 6.35, washers 5: 27.85; nut 10.8, two pitches 3.5: 42.15, so 45.
figure("cup-round", "bolt_grip", 27.85, 0.001, "plate, packing, wall, two washers")
figure("cup-round", "bolt_length", 45.0, 0.001, "shortest of ISO 888 over 42.15")
figure("cup-round", "finding:cup_bolts", SIDE / 4 / (0.6 * 800 * M12 / 1.25), 0.0003, "EN 1993-1-8 table 3.4, four M12")
CLAMP12 = 0.7 * 0.75 * 48_900
figure("cup-round", "finding:bolts_slip", SIDE / (4 * CLAMP12 * 0.85 * 0.2 / 1.25), 0.003,
       "EN 1993-1-8, 3.9; proof load of ISO 898-1; 13.5 mm is over the 1 mm of EN 1090-2")

# --- pivot --------------------------------------------------------------------------------------------------------------

PER_K = 30 * 23.6e-6 - 5 * 12e-6 - 25 * 12e-6
figure("raceway", "running_clearance_min", 0.020, 1e-4, "25 F6 (+20/+33) over 25 h5 (0/-9), ISO 286")
figure("raceway", "running_clearance_max", 0.042, 1e-4, "the same")
figure("raceway", "clearance_cold", -40 * PER_K, 1.01e-4, "aluminium 23.6, bearing steel 12 um/m/K, 40 K down")
figure("raceway", "clearance_warm", 20 * PER_K, 1.01e-4, "20 K up")
figure("raceway", "finding:clearance_in_service", 0.020 - 40 * PER_K, 1.01e-4, "what is left of the tightest pair")
figure("bush", "interference_max", 0.033, 2e-4, "38.1 n6 (+17/+33) in H7 (0/+25), ISO 286")
figure("bush", "heat_to", 20 + (0.033 + 0.030) / (12e-6 * 38.1), 1.0, "interference and 0.03 mm of play over the expansion of steel")

if __name__ == "__main__":
    with open(os.path.join(os.path.dirname(os.path.abspath(__file__)), "figures.csv"), "w", newline="") as out:
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(["file", "key", "value", "tolerance", "worked"])
        writer.writerows((f, k, f"{v:.6g}", t, h) for f, k, v, t, h in ROWS)
