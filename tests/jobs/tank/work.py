"""The figures of the tank frame by another route than the program's: from the part files by hand formulas, handbook
tables and equilibrium. Writes figures.csv beside it; reads nothing that the program has written.

    python3 tests/jobs/tank/work.py
"""
import csv
import math
import os
import sys
from math import atan, cos, degrees, hypot, pi, radians, sin, sqrt, tan

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), ".."))
from statics import braked

ROWS = []


def figure(file, key, value, tolerance, how):
    ROWS.append((file + ".toml", key, value, tolerance, how))


# --- cones: plane trigonometry ----------------------------------------------------------------------------------------

A = radians(25)
B = atan(0.5)
HEIGHT = (50.8 - 25.4) / 2 / tan(A)


def nose(tip, radius, angle):
    """Flat that a rounding tangent to face and flank leaves: tangent length r tan((90 - a)/2) on both sides."""
    return tip - 2 * radius * tan((pi / 2 - angle) / 2)


def rollers(base, roller, angle):
    """Over two rollers on the plane of the base: centre at half a roller, half a roller off the flank."""
    x = base / 2 - (roller / 2) * tan(angle) + (roller / 2) / cos(angle)
    return 2 * x + roller


NOSE = nose(25.4, 25.4 * 3 / 32, A)
figure("cone-bolt", "height", HEIGHT, 0.001, "(D - d)/2/tan a")
figure("cone-bolt", "slant", 12.7 / sin(A), 0.001, "half the difference of the diameters over sin a")
figure("cone-bolt", "overall_height", HEIGHT + 6.35, 0.001, "height and foot of 1/4 in")
figure("cone-bolt", "taper_ratio", 2 * tan(A), 1e-5, "taper per length 2 tan a")
figure("cone-bolt", "tap_drill", 5 / 16 * 25.4, 0.02, "3/8-16 UNC takes 5/16 in: drill chart of machinery handbooks, 75 % thread")
figure("cone-bolt", "nose_flat", NOSE, 0.002, "corner of face and flank turns 90 - a; tangent length r tan of half of it, both sides")
figure("cone-bolt", "over_rollers", rollers(50.8, 9.525, A), 0.003, "centre of the roller a radius off the flank line, analytic geometry")
figure("cone-weld", "half_angle", degrees(B), 1e-4, "atan((50 - 20)/2/30)")
figure("cone-weld", "slant", hypot(15, 30), 0.001, "Pythagoras")
figure("cone-weld", "over_rollers", rollers(50, 10, B), 0.003, "as for the bolted cone")
figure("cone-weld", "nose_flat", nose(20, 2, B), 0.002, "as for the bolted cone")
figure("cone-weld", "tailstock_setover", 100 * 0.5, 0.01, "L x taper/2, machinery handbooks")
# 0.7 of a wall of 4 mm is less than the 3 mm of EN 1993-1-8; side force 0.8 x 235 kg asks for far less than either.
figure("cone-weld", "weld_throat", 0.7 * 4, 0.001, "0.7 of the thinner part, common practice")
figure("cone-weld", "weld_leg", 4.0, 0.001, "2.8 sqrt 2 = 3.96, to the next half millimetre")

# --- cups: where a cone rests on a rounded rim, on an edge, in a seat of its own angle -----------------------------------

RIM = 3.0
HOLE = 41.275


def on_rounded_rim(base, hole, rim, angle):
    """Entry face over the cone's base: the rim's centre, at (hole/2 + r, face + r), stands r off the flank."""
    return ((rim / cos(angle)) - (hole / 2 + rim) + base / 2) / tan(angle) - rim


SEAT = on_rounded_rim(50.8, HOLE, RIM, A)
for name in ("cup-round", "cup-slot"):
    figure(name, "seat_height", SEAT, 0.002, "centre of the rim's rounding stands its radius off the flank")
    figure(name, "gap_to_crossbar", SEAT + 6.35, 0.002, "seat height and foot")
    figure(name, "capture_radius", (HOLE - NOSE) / 2, 0.002, "half of hole less flat of the nose")
figure("cup-round", "height_per_tenth", -0.1 / 2 / tan(A), 0.0002, "derivative of the seat height by the hole")
figure("cup-round", "side_play", 2 * 5 * tan(A), 0.001, "2 x lift x tan a")
figure("cup-round", "nose_above_plate", HEIGHT - SEAT - 25.4 * 5 / 16, 0.003, "cone less seat height less plate")
plate = 133.35 * 107.95 - (4 - pi) * 9.525**2
spandrel = RIM**2 * (1 - pi / 4)
removed = 2 * pi * (HOLE / 2 + RIM * (10 - 3 * pi) / (12 - 3 * pi)) * spandrel
metal = (plate - pi / 4 * HOLE**2 - 4 * pi / 4 * 8.7325**2) * 7.9375 - removed
figure("cup-round", "mass", 7850e-9 * metal, 0.001, "rectangle less corners and holes, rim by Pappus (centroid of a spandrel), 7850 kg/m3")
figure("cup-slot", "slot_travel", 54 - HOLE, 0.001, "length less width")
figure("cup-slot", "slot_on_face", -90, 0.001, "mirror image: the sign changes")
figure("cup-step", "seat_height", max((50 - 36) / 2 / 0.5, (50 - 34) / 2 / 0.5 - 1, (50 - 32) / 2 / 0.5 - 4), 0.002,
       "greatest of three rings: cone height at its diameter less its depth")
figure("cup-step", "tip_length", 16 / tan(radians(59)), 0.005, "half of 32 over tan of half of 118 degrees")
figure("cup-step", "envelope_half_angle", degrees(atan(1 / 3)), 0.001, "step of 1 in the radius over a height of 3")
figure("cup-turned", "seat_mouth", 30 + 2 * 12.7 * tan(radians(26.565)), 0.002, "d + 2 t tan a")
figure("cup-turned", "seat_height", 50 - 42.7, 0.02, "(50 - 42.7)/2/tan a, tan a = 1/2")
figure("cup-turned", "seat_pressure", 235 * 9.80665 / (pi / 4 * (42.7**2 - 30**2)), 0.01, "weight over the projected ring")

# --- bushes -------------------------------------------------------------------------------------------------------------

BORE, JOINT, HUB = 25.0, 40.0, 64.0
E_IN, NU_IN, E_OUT, NU_OUT = 100e3, 0.34, 210e3, 0.3


def pressure(interference):
    """Lamé, two rings: strains of both at the joint."""
    outer = ((HUB**2 + JOINT**2) / (HUB**2 - JOINT**2) + NU_OUT) / E_OUT
    inner = ((JOINT**2 + BORE**2) / (JOINT**2 - BORE**2) - NU_IN) / E_IN
    return interference / (JOINT * (outer + inner))


loosest, tightest = 0.026 - 0.004, 0.042 - 0.004
smoothing = 0.8 * 5 * (0.0008 + 0.0016)
left = loosest - smoothing
p = pressure(tightest)
hoop_in = -2 * p * JOINT**2 / (JOINT**2 - BORE**2)
hoop_out = p * (HUB**2 + JOINT**2) / (HUB**2 - JOINT**2)
P = "bush-press"
figure(P, "interference_min", loosest, 0.0005, "ISO 286 p6 +26 less the housing as measured, +4")
figure(P, "interference_max", tightest, 0.0005, "ISO 286 p6 +42 less the housing as measured, +4")
figure(P, "smoothing", smoothing, 0.0001, "DIN 7190-1 from memory: 0.8 (Rz + Rz), Rz = 5 Ra, Ra 0.8 and 1.6 of the sheet")
figure(P, "pressure_min", pressure(left), 0.03, "Lamé, least interference with the peaks flattened; E 100 and 210 GPa, nu 0.34 and 0.3")
figure(P, "pressure_max", p, 0.3, "Lamé, two rings")
figure(P, "inner_hoop_max", hoop_in, 1, "-2 p D2/(D2 - d2)")
figure(P, "outer_hoop_max", hoop_out, 0.7, "p (Do2 + D2)/(Do2 - D2)")
figure(P, "outer_equivalent_max", sqrt(hoop_out**2 + p**2 + hoop_out * p), 0.9, "von Mises of hoop and -p")
figure(P, "bore_closes_max", -hoop_in * BORE / E_IN, 0.0004, "hoop stress x d/E")
figure(P, "heat_to", 20 + (tightest + 0.03) / (12e-6 * JOINT), 1, "interference and 0.03 mm of play over 12e-6 D")
figure(P, "loose_at", 20 - left / ((18e-6 - 12e-6) * JOINT), 1, "bronze shrinks more than steel: what is left of the LOOSEST pair over 6e-6 D below 20 degrees")
Q = "bush-plain"
figure(Q, "bore_opens_at_service", 16 * (100 - 17.3) * 1e-6 * 25, 0.0005, "free ring, D (alpha - alpha) dT, acetal on 304")
figure(Q, "outside_opens_at_service", 22 * (12 - 100) * 1e-6 * 25, 0.0005, "D (alpha - alpha) dT, steel housing")
figure(Q, "outside_clearance_min", 0.110, 0.0005, "ISO 286 c9, upper deviation -110 for 18 to 24")
figure(Q, "outside_clearance_max", 0.162 + 0.052, 0.0005, "c9 -162 and H9 +52")
figure(Q, "bore_clearance_min", 0.095, 0.0005, "ISO 286 C9, lower deviation +95 for 14 to 18")
figure(Q, "outside_swells", 22 * 0.008 * 0.25, 0.0005, "acetal soaked 0.8 % of water, a quarter of it in length: from memory")

# --- raceway: own equilibrium of the needles ------------------------------------------------------------------------------

COUNT, NEEDLE, LONG, RACE, LOAD = 22, 3.0, 20.0, 25.4, 4000.0
STIFF = LONG**0.8 / (2 * 3.84e-5)


def most_loaded(clearance):
    """Eccentricity by halving until the rollers, one of them under the load, carry it; the greatest over the mean."""
    low, high = clearance / 2, 1.0
    for _ in range(200):
        shift = (low + high) / 2
        carried = greatest = 0.0
        for k in range(COUNT):
            angle = 2 * pi * k / COUNT
            squeeze = shift * cos(angle) - clearance / 2
            if squeeze > 0:
                force = (squeeze * STIFF) ** (1 / 0.9)
                carried += force * cos(angle)
                greatest = max(greatest, force)
        low, high = (low, shift) if carried > LOAD else (shift, high)
    return greatest * COUNT / LOAD


wide, tight = 0.033 + 0.009, 0.020
most = most_loaded(wide)
R = "raceway"
figure(R, "running_clearance_max", wide, 0.0005, "ISO 286: F6 +33 less h5 -9")
figure(R, "running_clearance_min", tight, 0.0005, "ISO 286: F6 +20 less h5 0")
figure(R, "load_factor", most, 0.1, "own equilibrium of 22 needles, Palmgren 3.84e-5 Q^0.9/L^0.8 at each of two contacts")
figure(R, "load_factor_least", most_loaded(tight), 0.1, "the same at the least clearance")
one = most * LOAD / COUNT
modulus = 1 / ((1 - 0.29**2) / 200e3 + (1 - 0.3**2) / 208e3)
radius = 1 / (1 / 1.5 + 1 / 12.7)
line = one / LONG
peak, half = sqrt(line * modulus / pi / radius), sqrt(4 * line * radius / pi / modulus)
figure(R, "roller_load", one, 20, "factor x load over number")
figure(R, "contact_pressure", peak, 20, "Hertz, line contact sqrt(w E*/(pi R))")
figure(R, "contact_half_width", half, 0.0006, "sqrt(4 w R/(pi E*))")
figure(R, "shear_depth", 0.786 * half, 0.0005, "0.786 b, textbooks of machine design")
figure(R, "largest_shear", 0.3 * peak, 6, "0.30 p0, textbooks of machine design")
figure(R, "static_rating", 44 * (1 - NEEDLE / (RACE + NEEDLE)) * COUNT * LONG * NEEDLE, 100, "ISO 76: 44 (1 - Dw/Dpw) Z Lw Dw")
figure(R, "overlap_swing", 720 / (COUNT * (1 + NEEDLE / (RACE + NEEDLE))), 0.05, "rolling without slip, 720 degrees over Z (1 + Dw/Dpw)")
ring = pi / 4 * (25.4**2 - 19.05**2) * 31.75 - pi / 4 * 9 * 3.175
edges = 2 * pi * 0.125 * (25.4 - 1 / 3) + 2 * pi * 0.125 * (19.05 + 1 / 3)
figure(R, "mass", 7800e-9 * (ring - edges), 0.0001, "ring less chamfers by Pappus less grease hole, 7800 kg/m3")

# --- shim -----------------------------------------------------------------------------------------------------------------

gap = 0.094 * 25.4
S = "shim"
figure(S, "gap", gap, 1e-4, "0.094 in")
figure(S, "width", gap - 0.175, 0.001, "gap less the middle of the wanted float")
figure(S, "chain_gap", 76.2 - 73.8, 1e-4, "fork less hub")
figure(S, "grind_off", 2.5 - (gap - 0.175), 0.001, "stock less width")
figure(S, "mass", 7850e-9 * pi / 4 * (31.75**2 - 19.304**2) * (gap - 0.175), 2e-5, "ring, 7850 kg/m3")

# --- landing: statics -------------------------------------------------------------------------------------------------------

W, FRONT, REAR, CX, CY, HALF, HIGH = 300 * 9.80665, 609.6, -660.4, -30, 20, 457.2, 450
rear = W * (FRONT - CX) / (FRONT - REAR)
left_front = (W - rear) / 2 + W * CY / 2 / HALF
L = "landing"
figure(L, "weight", W, 0.01, "300 kg x 9.80665")
figure(L, "capture_radius", (HOLE - NOSE) / 2, 0.002, "the smaller of two equal cups")
figure(L, "growth_per_metre", 1000 * (12 - 11.7) * 1e-6 * 30, 0.0005, "12e-6 less 11.7e-6, 30 K")
figure(L, "rest_roll", -degrees(atan((8 - 7.9375) / 914.4)), 0.0003, "plates of 8 mm and 5/16 in, 0.0625 mm over 914.4 mm")
aside = 0.5 * W
couple = aside * (FRONT - CX) / (2 * HALF)
tie = 1.5 * hypot(aside, couple) * tan(A) + aside * HIGH / (2 * HALF) - 0.8 * left_front
figure(L, "least_preload", tie, 10, "to the right 0.5 g: side force at the round cup by force and couple x 1.5 tan a, overturning, less 0.8 of its static load")

blow = (1 + sqrt(1 + 0.05 ** 2 / (9.80665 * 0.0005))) * rear
pushed = braked(((FRONT, HALF), (FRONT, -HALF), (REAR, 0)), (CX, CY), HIGH, W, 1500)
figure(L, "finding:set_down", max(blow, pushed), 0.5, "the three seats by moments, tied down and pushed; more than the blow of setting down")
figure(L, "finding:stands", 2 * HALF / (FRONT - REAR) / 2 * (CX - REAR) / sqrt(1 + (HALF / (FRONT - REAR)) ** 2)
       - CY / sqrt(1 + (HALF / (FRONT - REAR)) ** 2), 0.5, "distance of the load from the edge of the triangle of supports, plane geometry")

with open(os.path.join(os.path.dirname(os.path.abspath(__file__)), "figures.csv"), "w", newline="") as out:
    table = csv.writer(out, lineterminator="\n")
    table.writerow("file,key,value,tolerance,worked".split(","))
    for row in ROWS:
        table.writerow((row[0], row[1], f"{row[2]:.6g}", f"{row[3]:g}", row[4]))
