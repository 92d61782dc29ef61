"""Second opinion on landings and tape surveys, with general-purpose Python libraries.

Reads the cases and answers written by `cargo test --test landing` (first argument, or
target/tmp/landing_cases.json) and solves them again: the rest pose with CVXPY and Clarabel, the survey with
scipy.optimize.least_squares. Needs: numpy, scipy, cvxpy, clarabel. Exit status 1 on any difference.
"""

import json
import sys
from pathlib import Path

import clarabel  # noqa: F401  (the solver behind cvxpy)
import cvxpy as cp
import numpy as np
from scipy.optimize import least_squares

METRE = 1000.0
TIGHT = dict(tol_gap_abs=1e-13, tol_gap_rel=1e-13, tol_feas=1e-13, static_regularization_constant=1e-12,
             iterative_refinement_reltol=1e-15, iterative_refinement_abstol=1e-15, iterative_refinement_max_iter=30)


def landing(case):
    """Pose (dx, dy, yaw, z, roll, pitch; angles times a metre) and loads over the weight."""
    u = cp.Variable(6)
    dx, dy, yaw, z, roll, pitch = (u[i] for i in range(6))
    constraints, owner = [], []
    for i, s in enumerate(case["seats"]):
        x, y = s["x"] / METRE, s["y"] / METRE
        k = 1 / np.tan(np.radians(s["alpha_deg"]))
        lift = z + roll * y - pitch * x - s["s"]
        ox, oy = dx - yaw * y + s["ex"], dy + yaw * x + s["ey"]
        if s["kind"] == "round":
            new = [cp.SOC(lift, k * cp.hstack([ox, oy]))]
        elif s["kind"] == "slot":
            a = np.radians(s["direction_deg"])
            along = cp.Variable()  # where between its ends the middle of the cone lies
            constraints += [along <= s["clearance"], along >= -s["clearance"]]
            owner += [None, None]
            new = [cp.SOC(lift, k * cp.hstack([ox - along * np.cos(a), oy - along * np.sin(a)]))]
        else:
            new = [lift >= 0]
            if s["kind"] == "clear":  # beyond its room the rim climbs the cone
                new.append(cp.SOC(lift + k * s["clearance"], k * cp.hstack([ox, oy])))
        constraints += new
        owner += [i] * len(new)
    cx, cy = case["centre"]
    problem = cp.Problem(cp.Minimize(z + roll * cy / METRE - pitch * cx / METRE), constraints)
    problem.solve(solver=cp.CLARABEL, **TIGHT)
    loads = np.zeros(len(case["seats"]))
    for c, i in zip(constraints, owner):
        if i is not None:
            dual = c.dual_value[0] if isinstance(c, cp.SOC) else c.dual_value
            loads[i] += np.ravel(dual)[0]
    return np.array(u.value), loads


def check_landings(cases):
    pose_off = load_off = height_off = 0.0
    unique = 0
    for case in cases:
        pose, loads = landing(case)
        ours = np.array(case["pose"])
        cx, cy = case["centre"]
        height = np.array([0, 0, 0, 1, cy / METRE, -cx / METRE])
        height_off = max(height_off, abs(height @ (pose - ours)))
        if case["unique"]:
            unique += 1
            pose_off = max(pose_off, np.abs(pose - ours).max())
            load_off = max(load_off, np.abs(loads - case["loads"]).max())
    print(f"landings: {len(cases)}, {unique} with one pose; worst difference: lowest height {height_off:.1e} mm, "
          f"pose {pose_off:.1e} mm (angles at one metre), load {load_off:.1e} of the weight")
    return len(cases) >= 200 and height_off < 1e-5 and pose_off < 1e-4 and load_off < 1e-3


def survey(case):
    lines = [(int(a) - 1, int(b) - 1, length) for a, b, length in case["lines"]]
    start = np.array(case["points"])

    def points(v):
        p = np.zeros_like(start)
        p[1, 0] = v[0]
        p[2:] = v[1:].reshape(-1, 2)
        return p

    def residual(v):
        p = points(v)
        return np.array([np.hypot(*(p[b] - p[a])) - length for a, b, length in lines])

    rng = np.random.default_rng(1)
    v0 = np.concatenate([[start[1, 0]], start[2:].ravel()]) + rng.normal(0, 20, 2 * len(start) - 3)
    fit = least_squares(residual, v0, method="lm", xtol=1e-15, ftol=1e-15, gtol=1e-15, max_nfev=10000)
    v = residual(fit.x)
    q = np.linalg.inv(fit.jac.T @ fit.jac)
    r = 1 - np.einsum("ij,jk,ik->i", fit.jac, q, fit.jac)
    major = [0.0, np.sqrt(q[0, 0])]
    for i in range(2, len(start)):
        j = 2 * i - 3
        major.append(np.sqrt(np.linalg.eigvalsh(q[j:j + 2, j:j + 2]).max()))
    return points(fit.x), v / np.sqrt(r), np.sqrt(v @ v / (len(lines) - len(v0))), np.array(major)


def check_surveys(cases):
    off = dict(points=0.0, w=0.0, s0=0.0, major=0.0)
    for case in cases:
        for name, value in zip(off, survey(case)):
            off[name] = max(off[name], np.abs(value - np.array(case[name])).max())
    print("surveys:", len(cases), "worst difference:", ", ".join(f"{k} {v:.1e}" for k, v in off.items()))
    return len(cases) > 0 and off["points"] < 1e-4 and max(off["w"], off["s0"], off["major"]) < 1e-4


def main():
    default = Path(__file__).resolve().parents[2] / "target" / "tmp" / "landing_cases.json"
    cases = json.loads(Path(sys.argv[1] if len(sys.argv) > 1 else default).read_text())
    good = [check_landings(cases["landings"]), check_surveys(cases["surveys"])]
    sys.exit(0 if all(good) else 1)


main()
