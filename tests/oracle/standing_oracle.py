"""Second opinion on a landing as it stands: old survey and new readings put together, with numpy and scipy.

Reads what `cargo test --test survey` wrote (first argument, or target/tmp/standing_answers.json). The estimate is found by
scipy.optimize.least_squares from residuals that are whitened by a Cholesky factor of what was known before, its covariance from
the Jacobian at the answer; cup minus cone is told against the best rigid motion of all, which is fitted here by lstsq. A reading
that is said to be left out is left out here. What a reading has left over in sigmas is held against how much the sum of squares
falls without it. Needs: numpy, scipy. Exit status 1 on any difference.
"""

import json
import sys
from pathlib import Path

import numpy as np
from scipy.optimize import least_squares

SEATED = 0.02  # mm; a rim that near to its cone is home and climbs nowhere


class Known:
    """Unknowns: cones, cups (x, y of each), heights of the bars, what cup and cone add, pose (mm, mm, mm, mrad, mrad, mrad)."""

    def __init__(self, case):
        self.seats = case["seats"]
        n = self.n = len(self.seats)
        cones = np.array([s["at"] for s in self.seats])
        cups = cones + [s["mismatch"] for s in self.seats]
        self.mean = np.concatenate([cones.ravel(), cups.ravel(), np.zeros(2 * n), case["pose_mm"], case["pose_mrad"]])
        before = np.zeros((6 * n + 6, 6 * n + 6))
        before[:4 * n, :4 * n] = case["places"]
        for k, sigma in ((4 * n, case["bar_sigma"]), (5 * n, case["rise_sigma"])):
            before[k:k + n, k:k + n] = np.eye(n) * sigma ** 2
        before[6 * n:, 6 * n:] = np.eye(6) * case["pose_sigma"] ** 2
        self.root = np.linalg.cholesky(before)
        self.readings = case["readings"]
        self.home = [np.hypot(*self.pressing(i, self.off(self.mean, i))) <= SEATED for i in range(n)]

    def off(self, x, i):
        """Cup minus cone with the frame where it lies."""
        n, (px, py) = self.n, self.seats[i]["at"]
        dx, dy, _, yaw, _, _ = x[6 * n:]
        cone, cup = x[2 * i:2 * i + 2], x[2 * n + 2 * i:2 * n + 2 * i + 2]
        return cup - cone + [dx - yaw * py / 1000, dy + yaw * px / 1000]

    def pressing(self, i, off):
        """What of it presses rim against cone."""
        seat = self.seats[i]
        if seat["kind"] == "round":
            return off
        if seat["kind"] == "slot":
            a = np.radians(seat["direction_deg"])
            along = np.array([np.cos(a), np.sin(a)])
            return off - (off @ along) * along
        reach = np.hypot(*off)
        return off * (1 - seat["room"] / reach) if seat["kind"] == "clear" and reach > seat["room"] else np.zeros(2)

    def says(self, x, r):
        n, i, j = self.n, r["a"], r["b"]
        if r["what"] == "height":
            return x[4 * n + i]
        if r["what"] == "offset_x":
            return self.off(x, i)[0]
        if r["what"] == "offset_y":
            return self.off(x, i)[1]
        if r["what"] in ("cones", "cups"):
            k = 0 if r["what"] == "cones" else 2 * n
            return np.hypot(*(x[k + 2 * j:k + 2 * j + 2] - x[k + 2 * i:k + 2 * i + 2]))
        seat = self.seats[i]
        _, _, z, _, roll, pitch = x[6 * n:]
        px, py = seat["at"]
        climbs = 0.0 if self.home[i] else np.hypot(*self.pressing(i, self.off(x, i)))
        stands = seat["height"] + x[4 * n + i] + x[5 * n + i]
        return z + roll * py / 1000 - pitch * px / 1000 - stands - climbs / np.tan(np.radians(seat["half_angle_deg"]))

    def solve(self, without):
        """The estimate, its covariance, and the sum of squares."""
        used = [r for k, r in enumerate(self.readings) if k != without]

        def residuals(v):
            x = self.mean + self.root @ v
            return np.concatenate([v, [(self.says(x, r) - r["read"]) / r["sigma"] for r in used]])

        fit = least_squares(residuals, np.zeros(len(self.mean)), jac="3-point", method="trf", xtol=1e-15, ftol=1e-15, gtol=1e-12)
        covariance = self.root @ np.linalg.inv(fit.jac.T @ fit.jac) @ self.root.T
        return self.mean + self.root @ fit.x, covariance, 2 * fit.cost

    def told(self, x, q):
        """Places, cup minus cone less the best rigid motion, sigmas, heights."""
        n = self.n
        at = x[:2 * n].reshape(n, 2)
        rigid = np.zeros((2 * n, 3))
        rigid[0::2, 0], rigid[1::2, 1] = 1, 1
        rigid[0::2, 2], rigid[1::2, 2] = -at[:, 1], at[:, 0]
        take_off = np.eye(2 * n) - rigid @ np.linalg.lstsq(rigid, np.eye(2 * n), rcond=None)[0]
        apart = np.hstack([-np.eye(2 * n), np.eye(2 * n), np.zeros((2 * n, 2 * n + 6))])
        off = take_off @ apart
        spread = np.diag(off @ q @ off.T).reshape(n, 2)
        add = np.hstack([np.zeros((n, 4 * n)), np.eye(n), np.eye(n), np.zeros((n, 6))])
        return {
            "at": at, "mismatch": (off @ x).reshape(n, 2), "sigma": np.sqrt(spread.mean(axis=1)),
            "higher": add @ x, "height_sigma": np.sqrt(np.diag(add @ q @ add.T)),
        }


def main():
    default = Path(__file__).resolve().parents[2] / "target" / "tmp" / "standing_answers.json"
    cases = json.loads(Path(sys.argv[1] if len(sys.argv) > 1 else default).read_text())
    worst = dict(at=0.0, mismatch=0.0, sigma=0.0, higher=0.0, height_sigma=0.0)
    fall, judged, checked = 0.0, 0, 0
    for k, case in enumerate(cases):
        if case["left_out"] is None:
            continue
        judged += 1
        known = Known(case)
        x, q, squares = known.solve(case["left_out"])
        for key, value in known.told(x, q).items():
            worst[key] = max(worst[key], np.abs(value - np.array([s[key] for s in case["said"]])).max())
        if case["left_out"] < 0 and k % 6 == 0:
            for i, w in enumerate(case["left_over"]):
                if w is not None:
                    checked += 1
                    fall = max(fall, abs(squares - known.solve(i)[2] - w * w) / max(1.0, w * w))
    print("landings as they stand:", judged, "worst difference in mm:", ", ".join(f"{k} {v:.1e}" for k, v in worst.items()),
          f"; sum of squares without each of {checked} readings within {fall:.1e}")
    good = judged >= 100 and checked >= 100 and max(worst.values()) < 1e-3 and fall < 0.01
    sys.exit(0 if good else 1)


main()
