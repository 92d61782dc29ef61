"""Rest poses by a general-purpose rigid-body simulation (MuJoCo), for three scenes.

Cups are rings of small spheres on the frame, cones are built as capsules' envelope would not be exact, so each
cone is a fixed convex mesh of many facets; contacts are near-frictionless and soft by a stated amount. The height
and place found must agree with the closed form or with the pose of the cone programme within the contact's own
softness (deepest penetration, printed) plus the facet and sphere error, and, where the frame tilts, the height that
the programme leaves out: it takes the lift at the middle of a cup, the ring touches one contact radius aside, which
is contact radius times tilt. Needs: numpy, mujoco. Exit status 1 on any difference.

Scenes, metres inside: (1) three cups at 120 degrees, each cone too far out by 3 mm: rise 3 cot 30 = 5.196 mm;
(2) four round cups with errors (pose in tests/landing.rs, from two general solvers); (3) one round cup that is set
down 5 mm off centre on its cone with two pads: comes home to nought.
"""

import sys

import mujoco
import numpy as np

ALPHA = np.radians(30.0)
RIM = 0.008        # contact radius of the cup (mouth of the ring of spheres), m
BALL = 0.0003      # sphere radius, m
SPHERES = 144
FACETS = 360
TOP, FOOT = 0.002, 0.020  # radii of the cone's ends, m


def cone_mesh(name):
    """Frustum with the flank passing through radius RIM at height 0; facets circumscribe halfway."""
    k = 1 / np.tan(ALPHA)
    a = 2 * np.pi * np.arange(FACETS) / FACETS
    grow = 2 / (1 + np.cos(np.pi / FACETS))
    rows = []
    for r in (FOOT, TOP):
        rows += [f"{grow * r * np.cos(t):.9f} {grow * r * np.sin(t):.9f} {(RIM - r) * k:.9f}" for t in a]
    return f'<mesh name="{name}" vertex="{" ".join(rows)}"/>'


def scene(seats, errors, mass=40.0, pads=(), start=(0, 0, 0.012)):
    cones = "".join(f'<geom type="mesh" mesh="cone" pos="{x:.9f} {y:.9f} 0" contype="1" conaffinity="2"/>'
                    for x, y in seats)
    grounds = "".join(f'<geom type="box" size=".02 .02 .005" pos="{x} {y} -.005" contype="1" conaffinity="2"/>'
                      for x, y in pads)
    balls = ""
    lift = BALL * np.sin(ALPHA)            # centre of a ball whose flank touch lies at radius RIM, height 0
    for (x, y), (ex, ey) in zip(seats, errors):
        for t in 2 * np.pi * (np.arange(SPHERES) + 0.5) / SPHERES:
            r = RIM + BALL * np.cos(ALPHA)
            balls += (f'<geom type="sphere" size="{BALL}" contype="2" conaffinity="1" mass="0" '
                      f'pos="{x + ex + r * np.cos(t):.9f} {y + ey + r * np.sin(t):.9f} {lift:.9f}"/>')
    for x, y in pads:
        balls += f'<geom type="sphere" size=".005" contype="2" conaffinity="1" mass="0" pos="{x} {y} .005"/>'
    return f"""<mujoco><option timestep="0.0005" integrator="implicitfast" solver="Newton" tolerance="1e-12"
      iterations="200" cone="elliptic"/>
      <default><geom friction="0.00001 0 0" condim="1" solref="0.004 1" solimp="0.99 0.999 0.0001"/></default>
      <asset>{cone_mesh("cone")}</asset>
      <worldbody>{cones}{grounds}
        <body name="frame" pos="{start[0]} {start[1]} {start[2]}"><freejoint name="f"/>
          <inertial pos="0 0 0" mass="{mass}" diaginertia="4 4 8"/>{balls}</body>
      </worldbody></mujoco>"""


def settle(xml, seconds=3.0, damping=120.0):
    """Position (mm), rotation vector (mrad) and deepest penetration (mm) once everything is still."""
    model = mujoco.MjModel.from_xml_string(xml)
    model.dof_damping[:] = damping
    data = mujoco.MjData(model)
    for _ in range(int(seconds / model.opt.timestep)):
        mujoco.mj_step(model, data)
    speed = np.abs(data.qvel).max()
    depth = max((-data.contact[i].dist for i in range(data.ncon)), default=0.0)
    q = data.qpos[3:7]
    turn = 2 * q[1:] * np.sign(q[0])
    return 1000 * data.qpos[:3], 1000 * turn, 1000 * depth, speed


def compare(name, got, want, allowed):
    off = np.abs(np.array(got) - np.array(want))
    good = bool(np.all(off <= allowed))
    print(f"{name}: got {np.round(got, 4)}, want {np.round(want, 4)}, allowed {np.round(allowed, 4)}: "
          f"{'agrees' if good else 'DIFFERS'}")
    return good


def geometry_error(offset):
    """Height error in mm of a ring of SPHERES on a cone of FACETS, at an offset in mm: the nearest sphere may lie half
    a pitch aside the line of steepest ascent; the facets lie within their sagitta."""
    k = 1 / np.tan(ALPHA)
    return k * (offset * (1 - np.cos(np.pi / SPHERES)) + 1000 * FOOT * (1 - np.cos(np.pi / FACETS)))


def main():
    good = []
    ring = [(0.5 * np.cos(a), 0.5 * np.sin(a)) for a in 2 * np.pi * np.arange(3) / 3]
    e = [(-0.003 * np.cos(a), -0.003 * np.sin(a)) for a in 2 * np.pi * np.arange(3) / 3]
    p, turn, depth, speed = settle(scene(ring, e))
    print(f"three cups: deepest penetration {depth:.4f} mm, speed {speed:.1e}")
    slack = geometry_error(3.0) + depth / np.sin(ALPHA)
    good.append(compare("three cups, z", p[2:], [3.0 / np.tan(ALPHA)], slack))
    good.append(compare("three cups, dx dy", p[:2], [0, 0], slack))

    corners = [(0.9, 0.4), (0.9, -0.4), (-0.9, 0.4), (-0.9, -0.4)]
    e = np.array([(0.345, 0.821), (0.330, -1.303), (0.905, 0.446), (-0.537, 0.581)]) * 3e-3
    p, turn, depth, speed = settle(scene(corners, e))
    print(f"four cups (errors times three): deepest penetration {depth:.4f} mm, speed {speed:.1e}")
    slack = geometry_error(4.2) + depth / np.sin(ALPHA)
    slack += (1000 * RIM + p[2]) * 1e-3 * np.abs(turn[:2]).sum()
    good.append(compare("four cups, z", p[2:], [3 * 1.40702542], slack))
    want = 3 * np.array([-0.13706325, -0.13985208])
    good.append(compare("four cups, dx dy", p[:2], want, 2 * slack))
    want = 3 * np.array([0.25822970, -0.56001243, 0.53534295])
    good.append(compare("four cups, roll pitch yaw (mrad)", turn, want, 2 * slack / 0.4))

    p, turn, depth, speed = settle(scene([(0.0, 0.0)], [(0, 0)], pads=[(-0.5, 0.4), (-0.5, -0.4), (0.5, 0.0)],
                                         start=(0.005, 0.0, 0.012)))
    print(f"one cup and three pads, let down 5 mm off: deepest penetration {depth:.4f} mm, speed {speed:.1e}")
    slack = geometry_error(0.0) + depth / np.sin(ALPHA) + 1000 * RIM * (1 - np.cos(np.pi / SPHERES))
    good.append(compare("one cup, dx dy z", p, [0, 0, 0], slack))
    sys.exit(0 if all(good) else 1)


main()
