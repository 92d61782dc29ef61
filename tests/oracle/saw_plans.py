"""Saw plans drawn by lot, and two published ones, worked again by a mixed-integer programme (HiGHS).

Every way to fill a bar is a column; the costs are those that the program states: what is missing before what is bought before
what lies in the rack."""
import json
import math
import sys

import highspy
import numpy as np

BOUGHT, MISSING = 1_000, 1_000_000


def fillings(lengths, counts, room):
    """Every set of pieces that a bar holds."""
    if not lengths:
        yield []
        return
    most = min(counts[0], int(room // lengths[0]))
    for n in range(most + 1):
        for rest in fillings(lengths[1:], counts[1:], room - n * lengths[0]):
            yield [n, *rest]


def full(lengths, counts, room):
    """Those into which nothing more goes: with "at least so many pieces" no others are wanted."""
    for take in fillings(lengths, counts, room):
        left = room - sum(n * l for n, l in zip(take, lengths))
        if all(n == c or l > left for n, c, l in zip(take, counts, lengths)):
            yield take


def least(case):
    """The least cost of any plan."""
    units = lambda mm: round(mm * 1e4)
    kerf = units(case["kerf"])
    bars = [(units(l) + kerf, units(l) * (BOUGHT if bought else 1), hand) for l, hand, bought in case["stock"] if hand != 0]
    longest = max((b[0] for b in bars), default=0)
    # Where a length of which there is no end holds every piece, nothing is missing in the least plan.
    if not any(hand is None and room == longest for room, _, hand in bars):
        bars.append((longest, max(longest, 1) * MISSING, None))
    pieces = [(units(l) + kerf, n) for l, n in case["pieces"] if units(l) + kerf <= longest]
    if not pieces:
        return 0
    lengths, counts = [p[0] for p in pieces], [p[1] for p in pieces]
    columns = [(k, take) for k, bar in enumerate(bars) for take in full(lengths, counts, bar[0]) if any(take)]
    h = highspy.Highs()
    h.silent()
    h.setOptionValue("threads", 1)
    h.setOptionValue("parallel", "off")
    # In steps of their common divisor the costs are whole, and less than one step is no gap.
    step = math.gcd(*(bar[1] for bar in bars))
    h.setOptionValue("mip_rel_gap", 0.0)
    h.setOptionValue("mip_abs_gap", 0.99)
    for k, _ in columns:
        h.addVar(0.0, float(sum(counts)))
    for j, (k, _) in enumerate(columns):
        h.changeColCost(j, bars[k][1] // step)
    h.changeColsIntegrality(
        len(columns), np.arange(len(columns), dtype=np.int32), [highspy.HighsVarType.kInteger] * len(columns)
    )
    row = lambda low, high, at, of: h.addRow(low, high, len(at), np.array(at, dtype=np.int32), np.array(of, dtype=float))
    for i, count in enumerate(counts):
        at = [j for j, (_, take) in enumerate(columns) if take[i]]
        row(float(count), highspy.kHighsInf, at, [columns[j][1][i] for j in at])
    for k, (_, _, hand) in enumerate(bars):
        if hand is not None:
            at = [j for j, (of, _) in enumerate(columns) if of == k]
            row(-highspy.kHighsInf, float(hand), at, [1.0] * len(at))
    h.run()
    assert h.getModelStatus() == highspy.HighsModelStatus.kOptimal
    times = np.rint(np.array(h.getSolution().col_value))
    return sum(int(n) * bars[k][1] for n, (k, _) in zip(times, columns))


def told(case):
    """The cost of the program's own plan; what is missing is packed by the same programme into bars that are missing."""
    units = lambda mm: round(mm * 1e4)
    cost = sum(n * units(case["stock"][s][0]) * (BOUGHT if case["stock"][s][2] else 1) for s, n, _ in case["cuts"])
    kerf = units(case["kerf"])
    longest = max((units(l) + kerf for l, hand, _ in case["stock"] if hand != 0), default=0)
    missing = [(case["pieces"][i][0], n) for i, n in case["without"] if units(case["pieces"][i][0]) + kerf <= longest]
    if missing:
        alone = {"kerf": case["kerf"], "stock": [[(longest - kerf) / 1e4, None, False]], "pieces": missing}
        cost += least(alone) // (longest - kerf) * longest * MISSING
    return cost


passed = failed = given_up = 0


def check(right, words):
    global passed, failed
    passed, failed = passed + right, failed + (not right)
    if not right:
        print(words, file=sys.stderr)


for i, case in enumerate(json.load(open(sys.argv[1]))):
    best, ours = least(case), told(case)
    right = ours == best if case["least"] else ours >= best
    given_up += not case["least"]
    check(right, f"plan {i}: {ours} against {best}: {json.dumps(case)}")

published = [
    ([5600], [(1380, 22), (1520, 25), (1560, 12), (1710, 14), (1820, 18), (1880, 18), (1930, 20), (2000, 10), (2050, 12),
              (2100, 14), (2140, 16), (2150, 18), (2200, 20)], 73),
    ([100], [(45, 97), (36, 610), (31, 395), (14, 211)], 453),
]
for bars, pieces, answer in published:
    case = {"kerf": 0, "stock": [[b, None, False] for b in bars], "pieces": pieces}
    found = least(case) / (bars[0] * 1e4)
    check(found == answer, f"published: {found} against {answer}")
print(f"{passed} passed, {failed} failed (given up before the end: {given_up})")
sys.exit(0 if passed and not failed else 1)
