"""The chain of tests/bench/stack.rs drawn with numpy: one JSON task as argument, one JSON answer on standard output.

Written as one would who wants it fast: whole arrays, in-place sums, one generator, triangular members as two uniforms.
"""

import json
import sys
import time

import numpy as np


def draw(rng, kind, half, count):
    if kind == "normal":
        values = rng.standard_normal(count)
        values *= half / 3
        return values
    values = rng.random(count)
    if kind == "triangular":
        values += rng.random(count)
        values -= 1.0
        values *= half
        return values
    values -= 0.5
    values *= 2 * half
    return values


def total(rng, members, kinds, count):
    result = np.full(count, sum(m["sign"] * m["nominal"] for m in members))
    for member, kind in zip(members, kinds):
        result += draw(rng, kind, member["half"], count)
    return result


def run(task, kinds):
    best, best_drawing, found = float("inf"), float("inf"), None
    for seed in range(task["runs"]):
        rng = np.random.default_rng(1000 + seed)
        start = time.perf_counter()
        values = total(rng, task["members"], kinds, task["count"])
        drawn = time.perf_counter()
        low, high = task["limits"]
        np.mean(values), np.std(values, ddof=1), np.min(values), np.max(values)
        np.count_nonzero(values < low), np.count_nonzero(values > high)
        np.histogram(values, 60)
        found = np.quantile(values, task["percentiles"])
        best = min(best, time.perf_counter() - start)
        best_drawing = min(best_drawing, drawn - start)
    return {"seconds": best, "seconds_drawing": best_drawing, "percentiles": list(found)}


task = json.loads(sys.argv[1])
print(json.dumps({mix["name"]: run(task, mix["kinds"]) for mix in task["mixes"]}))
