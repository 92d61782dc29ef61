"""Figures of the generator skid by another route than the program's: plane geometry, thick rings, trains of lengths and
statics. Writes figures.csv beside it; reads nothing that the program has written.

    python3 tests/jobs/skid/work.py
"""
import csv
import os
import sys
from math import atan, cos, degrees, hypot, pi, radians, sqrt, tan

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), ".."))
from statics import braked

ROWS = []
IN, LBF = 25.4, 4.4482216


def figure(file, key, value, tolerance, how):
    ROWS.append((file + ".toml", key, value, tolerance, how))


def over(base, angle, roller):
    """Over two rollers on the plane of the base: the centre a radius off the flank."""
    r, a = roller / 2, radians(angle)
    return 2 * (base / 2 + r / cos(a) - r * tan(a) + r)


A, B = radians(30), radians(25)
figure("cone-a", "height", (76.2 - 31.75) / 2 / tan(A), 1e-3, "(D - d)/2/tan a")
figure("cone-a", "over_rollers", over(76.2, 30, 12.7), 2e-3, "centre of the roller a radius off the flank")
figure("cone-b", "over_rollers", over(70, 25, 12.7), 2e-3, "centre of the roller a radius off the flank")
figure("cone-a", "bolt_grip", 6.35 + 0.095 * IN, 1e-3, "wall 1/4 in and a washer of 0.095 in")
figure("cone-a", "bolt_length", 1.25 * IN, 1e-3, "at most 0.25 + 0.095 + 1 = 1.345 in: 1-1/4 in is sold")
figure("cone-b", "bolt_length", 35, 1e-3, "at most 6 + 3 + 28 = 37 mm: 35 is sold, ISO 888")
figure("cone-b", "crossbar_hole", 17.5, 1e-3, "M16, ISO 273 medium")
figure("cup-a", "seat_height", (76.2 - 50.8) / 2 / tan(A), 1e-3, "the entry edge of 2 in carries")
figure("cup-b", "seat_height", (70 - 50) / 2 / tan(B) - 3 * (1 - tan(B / 2)), 1e-3, "edge of 50 mm, rounded by 3: r (1 - tan(a/2)) lower")
figure("cup-b", "bolt_length", 35, 1e-3, "10 + 6.35 + 2 x 2 + 8.4 + 2 x 1.5 = 31.75: 35 is sold, ISO 888")
figure("cup-a", "bolt_length", 1.25 * IN, 1e-3, "1/4 + 1/4 + 0.13 + 0.337 + 0.125 = 1.092 in: 1-1/4 in is stocked")
figure("bush", "interference_max", 0.025, 1e-4, "m6 of 30 to 50 mm, +25 um (ISO 286), over a bore at its least")
k = 31.75 * ((1 / 200e3) * ((63.5**2 + 31.75**2) / (63.5**2 - 31.75**2) + 0.29) + (1 / 100e3) * ((31.75**2 + 25.4**2) / (31.75**2 - 25.4**2) - 0.34))
figure("bush", "pressure_max", 0.025 / k, 0.02, "Lame, bronze in steel")
figure("sleeve", "static_rating", 44 * (1 - 3 / 35) * 30 * 17 * 3, 1, "44 (1 - Dw/Dpw) Z Lw Dw, ISO 76")
W = 1450 * LBF
figure("landing", "weight", W, 0.05, "1450 lb")
figure("landing", "set_down_factor", 1 + sqrt(1 + 0.05**2 / (9.80665 * 0.0005)), 5e-4, "energy of a weight on a spring")

blow = W * (30 - 3) / 60 * (1 + sqrt(1 + 0.05**2 / (9.80665 * 0.0005)))
pushed = braked(((30, 16), (-30, 0), (30, -16)), (3, -1.5), 22, W, 3400)
figure("landing", "finding:set_down", max(blow, pushed), 3, "the three seats by moments, tied down and pushed; more than the blow")
figure("landing", "finding:slot_direction", 15 - degrees(atan(16 / 60)), 0.06, "slot at 15 degrees, line at atan(16/60)")

with open(os.path.join(os.path.dirname(os.path.abspath(__file__)), "figures.csv"), "w", newline="") as out:
    write = csv.writer(out, lineterminator="\n")
    write.writerow(["file", "key", "value", "within", "how"])
    write.writerows([(f, k, f"{v:.6g}", t, h) for f, k, v, t, h in ROWS])
