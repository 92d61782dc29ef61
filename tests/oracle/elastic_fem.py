"""Press fits and a line contact by finite elements (scikit-fem), against the closed forms of src/formulas.

    python tests/oracle/elastic_fem.py <mechanics_answers.json>

The answers are written by the test `answers_for_the_finite_element_oracle` of tests/mechanics.rs into
CARGO_TARGET_TMPDIR. Nothing of the closed forms is used here: the joint is two meshes whose radial displacements
differ by the interference, the contact is an elastic block under a rigid parabola, solved for its own pressure.
Exit code 1 if any figure is more than 1 % off.
"""

import json
import sys

import numpy as np
from scipy.sparse import bmat, coo_matrix, csr_matrix
from scipy.sparse.linalg import splu, spsolve
from skfem import Basis, BilinearForm, ElementQuad2, ElementVector, MeshQuad
from skfem.helpers import ddot, sym_grad, trace

LIMIT = 0.01
WORST = []


def check(what, ours, fem, scale=None):
    """Compares within 1 % of the figure, or of `scale` where the figure itself passes through nought."""
    error = abs(ours - fem) / abs(scale if scale else fem)
    WORST.append(error)
    print(f"    {what:<34} formula {ours:12.5f}   elements {fem:12.5f}   off {100 * error:7.4f} %")


def lame_constants(e, nu):
    return e * nu / ((1 + nu) * (1 - 2 * nu)), e / (2 * (1 + nu))


# --- press fits: axisymmetric, coordinates (r, z) ---------------------------------------------------------------

CELLS_R, CELLS_Z = 24, 8


def ring(inside, outside, length, material):
    """Stiffness of a ring with quadratic quadrilaterals, 2 pi left out."""
    mesh = MeshQuad.init_tensor(np.linspace(inside, outside, CELLS_R + 1), np.linspace(0, length, CELLS_Z + 1))
    basis = Basis(mesh, ElementVector(ElementQuad2()), intorder=5)
    lam, mu = lame_constants(material["e_mpa"], material["nu"])

    @BilinearForm
    def stiffness(u, v, w):
        r = w.x[0]
        eu, ev = sym_grad(u), sym_grad(v)
        hoop_u, hoop_v = u[0] / r, v[0] / r
        return (lam * (trace(eu) + hoop_u) * (trace(ev) + hoop_v) + 2 * mu * (ddot(eu, ev) + hoop_u * hoop_v)) * r

    return basis, stiffness.assemble(basis), (lam, mu)


def press(case):
    """Both rings at once: radial displacement at the joint differs by half the interference; both slide freely axially."""
    joint = case["joint_mm"] / 2
    sleeve = ring(case["bore_mm"] / 2, joint, case["length_mm"], case["sleeve"])
    hub = ring(joint, case["outside_mm"] / 2, case["length_mm"], case["hub"])
    n = sleeve[1].shape[0]

    def joint_dofs(basis):
        radial = np.concatenate([basis.nodal_dofs[0], basis.facet_dofs[0], basis.interior_dofs[0]])
        on = radial[np.abs(basis.doflocs[0, radial] - joint) < 1e-9]
        return on[np.argsort(basis.doflocs[1, on])]

    left, right = joint_dofs(sleeve[0]), joint_dofs(hub[0]) + n
    assert len(left) == len(right) == 2 * CELLS_Z + 1
    rows = np.arange(len(left))
    constraint = coo_matrix(
        (np.concatenate([np.ones(len(left)), -np.ones(len(left))]), (np.tile(rows, 2), np.concatenate([right, left]))),
        shape=(len(left) + 2, n + hub[1].shape[0]),
    ).tolil()
    # One axial displacement of each ring is held.
    for row, (basis, shift) in enumerate([(sleeve[0], 0), (hub[0], n)]):
        constraint[len(left) + row, basis.nodal_dofs[1][0] + shift] = 1.0
    constraint = csr_matrix(constraint)
    stiffness = bmat([[sleeve[1], None], [None, hub[1]]])
    gap = np.concatenate([np.full(len(left), case["interference_mm"] / 2), [0, 0]])
    system = bmat([[stiffness, constraint.T], [constraint, None]], format="csc")
    solution = spsolve(system, np.concatenate([np.zeros(stiffness.shape[0]), gap]))
    u_sleeve, u_hub = solution[:n], solution[n : n + hub[1].shape[0]]
    compare_press(case, (sleeve, u_sleeve), (hub, u_hub))


def stress_along(part, u, radii, z):
    """Radial, hoop and von Mises stress at points of the wall."""
    basis, _, (lam, mu) = part
    points = np.array([radii, np.full(len(radii), z)])
    cells = basis.mesh.element_finder()(*points)
    local = basis.mapping.invF(points[:, :, None], tind=cells)
    out = []
    for i, cell in enumerate(cells):
        single = Basis(basis.mesh, basis.elem, elements=np.array([cell]), quadrature=(local[:, i], np.ones(1)), dofs=basis.dofs)
        field = single.interpolate(u)
        grad, value = field.grad[:, :, 0, 0], field.value[:, 0, 0] if hasattr(field, "value") else np.asarray(field)[:, 0, 0]
        err, ezz, erz, ett = grad[0, 0], grad[1, 1], 0.5 * (grad[0, 1] + grad[1, 0]), value[0] / radii[i]
        volume = lam * (err + ezz + ett)
        s = [volume + 2 * mu * e for e in (err, ett, ezz)]
        mises = np.sqrt(0.5 * ((s[0] - s[1]) ** 2 + (s[1] - s[2]) ** 2 + (s[2] - s[0]) ** 2) + 3 * (2 * mu * erz) ** 2)
        out.append((s[0], s[1], mises))
    return out


def compare_press(case, sleeve, hub):
    print(f"{case['name']}: {CELLS_R} x {CELLS_Z} quadratic quadrilaterals in each ring")
    z, pressure = 0.43 * case["length_mm"], case["pressure_mpa"]
    nudge = 1e-9

    def displacement(part, radius):
        basis, u = part[0][0], part[1]
        return float((basis.probes(np.array([[radius], [z]])) @ u)[0])

    inner, outer = case["bore_mm"] / 2, case["outside_mm"] / 2
    check("bore closes, um", 1e3 * case["bore_closes_mm"], -2e3 * displacement(sleeve, inner + nudge))
    check("outside grows, um", 1e3 * case["outside_grows_mm"], 2e3 * displacement(hub, outer - nudge))
    for name, (part, u), wall in (("sleeve", sleeve, case["sleeve_wall"]), ("hub", hub, case["hub_wall"])):
        radii = np.array([w["diameter_mm"] / 2 for w in wall])
        radii[0] += nudge
        radii[-1] -= nudge
        for w, (radial, hoop, mises) in zip(wall, stress_along(part, u, radii, z)):
            at = f"{name} {w['diameter_mm']:.2f} mm"
            check(f"{at} radial, MPa", w["radial_mpa"], radial, pressure)
            check(f"{at} hoop, MPa", w["hoop_mpa"], hoop)
            check(f"{at} mises, MPa", w["mises_mpa"], mises)


# --- line contact: plane strain, coordinates (x, depth) ---------------------------------------------------------


def graded(near, far, cells_near, growth):
    """0..near in equal cells, then growing cells out to far."""
    points = list(np.linspace(0, near, cells_near + 1))
    step = near / cells_near
    while points[-1] < far:
        step *= growth
        points.append(points[-1] + step)
    return np.array(points)


def contact(case):
    """Contact as an obstacle problem: half of an elastic block of the contact modulus under a rigid parabola.

    Equal materials on both sides: surface shapes add up and so do compliances, so a block with E* = E'/2 against a
    rigid indenter of the relative radius carries the same pressure; stresses below depend on the pressure only (plane,
    no body forces). The indenter is pressed to the wanted load with an active-set iteration; the far side is held.
    """
    nu, load = case["nu"], case["force_n"] / case["length_mm"]
    radius = 1 / (1 / case["roller_radius_mm"] + 1 / case["raceway_radius_mm"])
    e_block = case["e_mpa"] / 2
    b = case["half_width_mm"]
    x = graded(2.0 * b, 400 * b, 60, 1.25)
    mesh = MeshQuad.init_tensor(x, x)
    basis = Basis(mesh, ElementVector(ElementQuad2()), intorder=4)
    lam, mu = lame_constants(e_block, nu)

    @BilinearForm
    def stiffness(u, v, w):
        eu, ev = sym_grad(u), sym_grad(v)
        return lam * trace(eu) * trace(ev) + 2 * mu * ddot(eu, ev)

    k = stiffness.assemble(basis).tocsc()
    across = np.concatenate([basis.nodal_dofs[0], basis.facet_dofs[0], basis.interior_dofs[0]])
    deep = np.concatenate([basis.nodal_dofs[1], basis.facet_dofs[1], basis.interior_dofs[1]])
    where = basis.doflocs
    fixed = np.unique(np.concatenate([across[where[0, across] < 1e-12], deep[where[1, deep] > x[-1] - 1e-9]]))
    top = deep[(where[1, deep] < 1e-12)]
    top = top[np.argsort(where[0, top])]
    top = top[where[0, top] < 2.0 * b + 1e-12]

    # Flexibility of the surface nodes under unit nodal loads: one factorisation, one column each.
    free = np.setdiff1d(np.arange(basis.N), fixed)
    factor = splu(k[free][:, free])
    position = np.full(basis.N, -1)
    position[free] = np.arange(len(free))
    unit = np.zeros((len(free), len(top)))
    unit[position[top], np.arange(len(top))] = 1.0
    columns = factor.solve(unit)
    flexibility = columns[position[top]]
    shape = where[0, top] ** 2 / (2 * radius)
    active = np.ones(len(top), bool)
    active[where[0, top] > 1.5 * b] = False
    for _ in range(200):
        # forces f on active nodes, approach d: flexibility f = d - shape, sum f = load/2 (half of the block)
        n = active.sum()
        system = np.block([[flexibility[np.ix_(active, active)], -np.ones((n, 1))], [np.ones((1, n)), np.zeros((1, 1))]])
        answer = np.linalg.solve(system, np.concatenate([-shape[active], [load / 2]]))
        force = np.zeros(len(top))
        force[active] = answer[:n]
        # Mid-side and corner nodes carry unlike forces; the sign is judged on them one by one.
        gap = flexibility @ force - (answer[n] - shape)
        change = (active & (force < 0)) | (~active & (gap < -1e-12))
        if not change.any():
            break
        active ^= change
    else:
        raise SystemExit("the contact did not settle")
    u = np.zeros(basis.N)
    u[free] = columns @ force
    compare_contact(case, mesh, basis, u, (lam, mu), where[0, top[active]].max(), load)


def compare_contact(case, mesh, basis, u, constants, edge, load):
    lam, mu = constants
    b, p0 = case["half_width_mm"], case["peak_pressure_mpa"]
    print(f"line contact: {mesh.t.shape[1]} quadratic quadrilaterals, 30 to the half-width, block 400 half-widths")

    def stresses(points):
        points = np.asarray(points, float).T
        cells = mesh.element_finder()(*points)
        local = basis.mapping.invF(points[:, :, None], tind=cells)
        out = []
        for i, cell in enumerate(cells):
            single = Basis(mesh, basis.elem, elements=np.array([cell]), quadrature=(local[:, i], np.ones(1)), dofs=basis.dofs)
            grad = single.interpolate(u).grad[:, :, 0, 0]
            exx, ezz, exz = grad[0, 0], grad[1, 1], 0.5 * (grad[0, 1] + grad[1, 0])
            out.append((lam * (exx + ezz) + 2 * mu * exx, lam * (exx + ezz) + 2 * mu * ezz, 2 * mu * exz))
        return np.array(out)

    print(f"    edge of the contact at {edge / b:.3f} half-widths (nodes every 0.017)")
    WORST.append(0.0 if abs(edge / b - 1) < 0.02 else 1.0)
    just_below = stresses([(1e-6, 0.05 * b)])[0]
    expected = -p0 / np.sqrt(1 + 0.05**2)
    check("peak pressure (0.05 b deep), MPa", expected, just_below[1])
    depths = np.linspace(0.6, 1.0, 25) * b
    column = stresses([(1e-6, z) for z in depths])
    shear = 0.5 * np.abs(column[:, 0] - column[:, 1])
    check("largest shear on the axis, MPa", case["largest_shear_mpa"], shear.max())
    smooth = np.polyfit(depths, shear, 4)
    check("its depth, um", 1e3 * case["shear_depth_mm"], 1e3 * depths[np.polyval(smooth, depths).argmax()])
    for place in case["below"]:
        sxx, szz, sxz = stresses([(max(place["x_over_b"] * b, 1e-6), place["z_over_b"] * b)])[0]
        at = f"x {place['x_over_b']:.2f} z {place['z_over_b']:.2f} b"
        # Components are judged against p0/4, the largest shear against itself.
        check(f"{at} along, MPa", place["along_mpa"], sxx, max(abs(sxx), p0 / 4))
        check(f"{at} deep, MPa", place["deep_mpa"], szz, max(abs(szz), p0 / 4))
        check(f"{at} |shear|, MPa", abs(place["shear_mpa"]), abs(sxz), p0 / 4)
        check(f"{at} largest shear, MPa", place["largest_shear_mpa"], np.hypot(0.5 * (sxx - szz), sxz))


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        answers = json.load(file)
    for case in answers["presses"]:
        press(case)
    contact(answers["line_contact"])
    print(f"{len(WORST)} figures, worst {100 * max(WORST):.3f} % (limit {100 * LIMIT} %)")
    raise SystemExit(0 if max(WORST) < LIMIT else 1)


main()
