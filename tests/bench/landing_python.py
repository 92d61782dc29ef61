"""The rest poses of the bench in Python: CVXPY with Clarabel, and scipy SLSQP, on one core.

Reads target/tmp/landing_bench_cases.json, written by `cargo bench --bench landing`. Needs numpy, scipy, cvxpy,
clarabel.
"""

import json
import os
import sys
import time
from pathlib import Path

os.environ.setdefault("OMP_NUM_THREADS", "1")

import cvxpy as cp  # noqa: E402
import numpy as np  # noqa: E402
from scipy.optimize import minimize  # noqa: E402

METRE, SLOPE = 1000.0, 1 / np.tan(np.radians(30.0))


def by_cvxpy(seats):
    u = cp.Variable(6)
    cones = []
    for x, y, ex, ey in seats:
        x, y = x / METRE, y / METRE
        offset = cp.hstack([u[0] - u[2] * y + ex, u[1] + u[2] * x + ey])
        cones.append(cp.SOC(u[3] + u[4] * y - u[5] * x, SLOPE * offset))
    cp.Problem(cp.Minimize(u[3]), cones).solve(solver=cp.CLARABEL)
    return u.value[3]


def by_slsqp(seats):
    p = np.array(seats)
    x, y, ex, ey = p[:, 0] / METRE, p[:, 1] / METRE, p[:, 2], p[:, 3]

    def room(u):
        return u[3] + u[4] * y - u[5] * x - SLOPE * np.hypot(u[0] - u[2] * y + ex, u[1] + u[2] * x + ey)

    start = [0, 0, 0, SLOPE * np.hypot(ex, ey).max(), 0, 0]
    found = minimize(lambda u: u[3], start, jac=lambda u: np.eye(6)[3], method="SLSQP",
                     constraints={"type": "ineq", "fun": room}, options=dict(ftol=1e-10, maxiter=300))
    return found.x[3]


def timed(name, solve, cases):
    solve(cases[0])
    start = time.process_time()  # time on a core: other work on the machine does not count
    heights = [solve(c) for c in cases]
    each = (time.process_time() - start) / len(cases)
    print(f"{name:24} {1e6 * each:9.0f} us per pose, {1 / each:7.0f} poses/s, one core")
    return np.array(heights)


def main():
    default = Path(__file__).resolve().parents[2] / "target" / "tmp" / "landing_bench_cases.json"
    cases = json.loads(Path(sys.argv[1] if len(sys.argv) > 1 else default).read_text())
    a = timed("CVXPY + Clarabel", by_cvxpy, cases)
    b = timed("scipy SLSQP", by_slsqp, cases)
    print(f"largest difference of their heights: {np.abs(a - b).max():.1e} mm")


main()
