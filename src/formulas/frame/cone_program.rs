//! Lowest point of a linear function over second-order cones in six unknowns: the numeric heart of
//! the rest pose. Cost grows in proportion to the number of cones.
//!
//! min c·x with s = G x + h in K; K is a product of half-lines (rows) and three-dimensional
//! second-order cones (blocks). Its dual: max −h·z with Gᵀz = c, z in K. Method: homogeneous self-dual
//! embedding with Nesterov-Todd scaling and a predictor-corrector step (Andersen, Roos, Terlaky,
//! Mathematical Programming 95 (2003) 249-277; notation of Vandenberghe, The CVXOPT linear and
//! quadratic cone program solvers, 2010). Normal equations are 6 by 6.
#![allow(clippy::indexing_slicing, reason = "indices run over fixed arrays or over vectors sized together")]
#![allow(clippy::needless_range_loop, reason = "matrix algebra reads better with its indices")]

use super::small::{FREEDOMS, Mat6, Vec6, add_scaled, add_square, dot, factor, largest, null_directions, solve};

/// A vector of one cone: head first.
pub(super) type Vec3 = [f64; 3];

/// s = rows·x + shift must lie in the second-order cone: head >= length of the rest.
#[derive(Clone, Debug)]
pub(super) struct Block {
    pub rows: [Vec6; 3],
    pub shift: Vec3,
}

/// s = row·x + shift must not be negative.
#[derive(Clone, Debug)]
pub(super) struct Row {
    pub row: Vec6,
    pub shift: f64,
}

/// The programme.
#[derive(Clone, Debug, Default)]
pub(super) struct Program {
    pub cost: Vec6,
    pub blocks: Vec<Block>,
    pub rows: Vec<Row>,
    /// Directions that no constraint feels (see [`Program::free_directions`]); held where they are.
    pub free: Vec<Vec6>,
}

/// Worst residual of a point that may be handed out when rounding stops the iteration.
const ACCEPTED: f64 = 1e-6;

/// How the programme ended.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) enum Outcome {
    /// A lowest point.
    Lowest,
    /// Falls without end along the returned direction.
    Unbounded,
    /// No point obeys all constraints.
    Infeasible,
    /// The iteration stalled.
    Stalled,
}

/// State of the iteration and, after [`Workspace::run`], the answer (already divided by τ).
#[derive(Clone, Default, Debug)]
pub(super) struct Workspace {
    pub x: Vec6,
    pub block_s: Vec<Vec3>,
    pub block_z: Vec<Vec3>,
    pub row_s: Vec<f64>,
    pub row_z: Vec<f64>,
    tau: f64,
    kappa: f64,
    scalings: Vec<Scaling>,
    constant: Direction,
    affine: Direction,
    step: Direction,
    best: Direction,
    pub iterations: usize,
}

/// A step in all variables.
#[derive(Clone, Default, Debug)]
struct Direction {
    x: Vec6,
    block_s: Vec<Vec3>,
    block_z: Vec<Vec3>,
    row_s: Vec<f64>,
    row_z: Vec<f64>,
    tau: f64,
    kappa: f64,
}

/// Nesterov-Todd scaling of one cone: W = size·[w0 w1ᵀ; w1 I + w1 w1ᵀ/(1+w0)], and λ = W z.
#[derive(Clone, Copy, Default, Debug)]
struct Scaling {
    size: f64,
    w: Vec3,
    lambda: Vec3,
}

#[inline]
fn dot3(a: &Vec3, b: &Vec3) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

/// Length of the last two entries.
#[inline]
pub(super) fn tail(a: &Vec3) -> f64 {
    (a[1] * a[1] + a[2] * a[2]).sqrt()
}

/// s0² − |s1|², written so that it keeps its digits near the surface of the cone.
#[inline]
fn minkowski(a: &Vec3) -> f64 {
    let t = tail(a);
    (a[0] - t) * (a[0] + t)
}

/// Jordan product.
#[inline]
fn jordan(a: &Vec3, b: &Vec3) -> Vec3 {
    [dot3(a, b), a[0] * b[1] + b[0] * a[1], a[0] * b[2] + b[0] * a[2]]
}

/// Solves `lambda ∘ u = r`.
#[inline]
fn jordan_solve(lambda: &Vec3, r: &Vec3) -> Vec3 {
    let head = (lambda[0] * r[0] - lambda[1] * r[1] - lambda[2] * r[2]) / minkowski(lambda);
    [head, (r[1] - head * lambda[1]) / lambda[0], (r[2] - head * lambda[2]) / lambda[0]]
}

impl Scaling {
    fn of(s: &Vec3, z: &Vec3) -> Self {
        let (sn, zn) = (minkowski(s).max(f64::MIN_POSITIVE).sqrt(), minkowski(z).max(f64::MIN_POSITIVE).sqrt());
        let gamma = ((1.0 + dot3(s, z) / (sn * zn)) / 2.0).sqrt();
        let k = 0.5 / gamma;
        let w1 = [k * (s[1] / sn - z[1] / zn), k * (s[2] / sn - z[2] / zn)];
        let w = [(1.0 + w1[0] * w1[0] + w1[1] * w1[1]).sqrt(), w1[0], w1[1]];
        let mut made = Self { size: (sn / zn).sqrt(), w, lambda: [0.0; 3] };
        made.lambda = made.times(z);
        made
    }

    /// W v.
    #[inline]
    fn times(&self, v: &Vec3) -> Vec3 {
        let along = self.w[1] * v[1] + self.w[2] * v[2];
        let k = v[0] + along / (1.0 + self.w[0]);
        [self.size * (self.w[0] * v[0] + along), self.size * (v[1] + k * self.w[1]), self.size * (v[2] + k * self.w[2])]
    }

    /// W⁻¹ v.
    #[inline]
    fn divides(&self, v: &Vec3) -> Vec3 {
        let flipped = Self { size: 1.0 / self.size, w: [self.w[0], -self.w[1], -self.w[2]], lambda: self.lambda };
        flipped.times(v)
    }

    /// W⁻¹ applied to the rows of a block.
    #[inline]
    fn divides_rows(&self, g: &[Vec6; 3]) -> [Vec6; 3] {
        let mut out = [[0.0; FREEDOMS]; 3];
        for j in 0..FREEDOMS {
            let column = self.divides(&[g[0][j], g[1][j], g[2][j]]);
            for k in 0..3 {
                out[k][j] = column[k];
            }
        }
        out
    }

    /// W⁻² v.
    #[inline]
    fn divides_twice(&self, v: &Vec3) -> Vec3 {
        let w = [self.w[0], -self.w[1], -self.w[2]];
        let k = 2.0 * dot3(&w, v);
        let size = 1.0 / (self.size * self.size);
        [size * (k * w[0] - v[0]), size * (k * w[1] + v[1]), size * (k * w[2] + v[2])]
    }
}

impl Block {
    /// rows·x, without the shift.
    #[inline]
    pub(super) fn map(&self, x: &Vec6) -> Vec3 {
        [dot(&self.rows[0], x), dot(&self.rows[1], x), dot(&self.rows[2], x)]
    }

    /// rows·x + shift.
    #[inline]
    pub(super) fn at(&self, x: &Vec6) -> Vec3 {
        let s = self.map(x);
        [s[0] + self.shift[0], s[1] + self.shift[1], s[2] + self.shift[2]]
    }

    /// `out += k·rowsᵀ v`.
    #[inline]
    pub(super) fn add_back(&self, out: &mut Vec6, k: f64, v: &Vec3) {
        for i in 0..3 {
            add_scaled(out, k * v[i], &self.rows[i]);
        }
    }
}

impl Row {
    /// row·x + shift.
    #[inline]
    pub(super) fn at(&self, x: &Vec6) -> f64 {
        dot(&self.row, x) + self.shift
    }
}

impl Program {
    /// Finds the directions that no constraint feels. `Err` with the direction if the cost falls along one.
    pub(super) fn free_directions(&mut self) -> Result<(), Vec6> {
        let mut gram = [[0.0; FREEDOMS]; FREEDOMS];
        for row in self.blocks.iter().flat_map(|b| &b.rows).chain(self.rows.iter().map(|r| &r.row)) {
            add_square(&mut gram, 1.0, row);
        }
        self.free = null_directions(&gram, 1e-13);
        let limit = 1e-9 * largest(&self.cost).max(f64::MIN_POSITIVE);
        for v in &self.free {
            let fall = dot(&self.cost, v);
            if fall.abs() > limit {
                return Err(v.map(|k| -k * fall.signum()));
            }
        }
        Ok(())
    }

    /// Does a motion show that the cost falls without end? It stays within every cone, and the fall is beyond what a lowest
    /// point that is good to [`ACCEPTED`] leaves to a motion: with Gᵀz = c to that, c·x >= z·Gx − 1e-6 Σ|x|.
    pub(super) fn falls_along(&self, x: &Vec6) -> bool {
        let fall = -dot(&self.cost, x);
        let within = |b: &Block| {
            let s = b.map(x);
            s[0] >= 0.0 && s[0] * s[0] >= s[1] * s[1] + s[2] * s[2]
        };
        fall > 10.0 * ACCEPTED * x.iter().map(|v| v.abs()).sum::<f64>()
            && self.blocks.iter().all(within)
            && self.rows.iter().all(|r| dot(&r.row, x) >= 0.0)
    }

    /// Gᵀz.
    fn back(&self, block_z: &[Vec3], row_z: &[f64]) -> Vec6 {
        let mut out = [0.0; FREEDOMS];
        for (b, z) in self.blocks.iter().zip(block_z) {
            b.add_back(&mut out, 1.0, z);
        }
        for (r, z) in self.rows.iter().zip(row_z) {
            add_scaled(&mut out, *z, &r.row);
        }
        out
    }

    /// h·z.
    fn shift_dot(&self, block_z: &[Vec3], row_z: &[f64]) -> f64 {
        let blocks: f64 = self.blocks.iter().zip(block_z).map(|(b, z)| dot3(&b.shift, z)).sum();
        let rows: f64 = self.rows.iter().zip(row_z).map(|(r, z)| r.shift * z).sum();
        blocks + rows
    }

    /// Number of cones: the degree of the barrier.
    fn degree(&self) -> f64 {
        (self.blocks.len() + self.rows.len()) as f64
    }
}

impl Direction {
    fn size_to(&mut self, p: &Program) {
        self.block_s.resize(p.blocks.len(), [0.0; 3]);
        self.block_z.resize(p.blocks.len(), [0.0; 3]);
        self.row_s.resize(p.rows.len(), 0.0);
        self.row_z.resize(p.rows.len(), 0.0);
    }
}

/// What is still wrong with the present point.
struct Residual {
    dual: Vec6,
    gap: f64,
    mu: f64,
}

/// Largest step in [0, 1] along `d` that stays inside one cone.
#[inline]
fn cone_step(s: &Vec3, d: &Vec3) -> f64 {
    let a = d[0] * d[0] - d[1] * d[1] - d[2] * d[2];
    let b = s[0] * d[0] - s[1] * d[1] - s[2] * d[2];
    let c = minkowski(s).max(0.0);
    let root = b * b - a * c;
    if root < -1e-12 * b * b {
        return 1.0; // never meets the surface
    }
    // a root of nought: straight through the apex
    let q = -(b + b.signum() * root.max(0.0).sqrt());
    [q / a, c / q].into_iter().filter(|t| *t > 0.0).fold(1.0, f64::min)
}

impl Workspace {
    /// Solves `p` until the scaled residuals and the gap are below `tolerance`. If rounding stops it
    /// earlier, the best point so far is taken, provided it is good to [`ACCEPTED`].
    pub(super) fn run(&mut self, p: &Program, tolerance: f64) -> Outcome {
        self.start(p);
        let mut best = f64::INFINITY;
        for iteration in 0..60 {
            self.iterations = iteration;
            let residual = self.residual(p);
            let worst = self.worst(p, &residual);
            if worst <= tolerance {
                return self.accept();
            }
            if let Some(outcome) = self.certificate(p, 1e-9) {
                return outcome;
            }
            if best <= ACCEPTED && worst > 10.0 * best || worst.is_nan() {
                break;
            }
            if worst < best {
                best = worst;
                self.remember(worst);
            }
            if !self.advance(p, &residual) {
                break;
            }
        }
        if best > ACCEPTED {
            return self.certificate(p, ACCEPTED).unwrap_or(Outcome::Stalled);
        }
        self.take_best()
    }

    /// Keeps a copy of a point worth coming back to.
    fn remember(&mut self, worst: f64) {
        if worst <= ACCEPTED {
            let mut best = std::mem::take(&mut self.best);
            best.x = self.x;
            best.tau = self.tau;
            best.block_s.clone_from(&self.block_s);
            best.block_z.clone_from(&self.block_z);
            best.row_s.clone_from(&self.row_s);
            best.row_z.clone_from(&self.row_z);
            self.best = best;
        }
    }

    fn take_best(&mut self) -> Outcome {
        (self.x, self.tau) = (self.best.x, self.best.tau);
        self.block_s.clone_from(&self.best.block_s);
        self.block_z.clone_from(&self.best.block_z);
        self.row_s.clone_from(&self.best.row_s);
        self.row_z.clone_from(&self.best.row_z);
        self.accept()
    }

    fn accept(&mut self) -> Outcome {
        self.rescale(1.0 / self.tau);
        Outcome::Lowest
    }

    fn start(&mut self, p: &Program) {
        self.x = [0.0; FREEDOMS];
        for list in [&mut self.block_s, &mut self.block_z] {
            list.clear();
            list.resize(p.blocks.len(), [1.0, 0.0, 0.0]);
        }
        for list in [&mut self.row_s, &mut self.row_z] {
            list.clear();
            list.resize(p.rows.len(), 1.0);
        }
        self.scalings.resize(p.blocks.len(), Scaling::default());
        (self.tau, self.kappa) = (1.0, 1.0);
        for d in [&mut self.constant, &mut self.affine, &mut self.step] {
            d.size_to(p);
        }
    }

    /// s·z.
    fn complementarity(&self) -> f64 {
        let blocks: f64 = self.block_s.iter().zip(&self.block_z).map(|(s, z)| dot3(s, z)).sum();
        let rows: f64 = self.row_s.iter().zip(&self.row_z).map(|(s, z)| s * z).sum();
        blocks + rows
    }

    fn residual(&self, p: &Program) -> Residual {
        let mut dual = p.back(&self.block_z, &self.row_z);
        add_scaled(&mut dual, -self.tau, &p.cost);
        let gap = self.kappa + dot(&p.cost, &self.x) + p.shift_dot(&self.block_z, &self.row_z);
        let mu = (self.complementarity() + self.kappa * self.tau) / (p.degree() + 1.0);
        Residual { dual, gap, mu }
    }

    /// s − G x − k h of block `i`.
    #[inline]
    fn block_residual(&self, p: &Program, i: usize, k: f64) -> Vec3 {
        let (s, g, h) = (&self.block_s[i], p.blocks[i].map(&self.x), &p.blocks[i].shift);
        [s[0] - g[0] - k * h[0], s[1] - g[1] - k * h[1], s[2] - g[2] - k * h[2]]
    }

    /// s − G x − k h of row `i`.
    #[inline]
    fn row_residual(&self, p: &Program, i: usize, k: f64) -> f64 {
        self.row_s[i] - dot(&p.rows[i].row, &self.x) - k * p.rows[i].shift
    }

    /// Largest entry of s − G x − k h.
    fn primal_residual(&self, p: &Program, k: f64) -> f64 {
        let blocks = (0..p.blocks.len()).map(|i| largest(&self.block_residual(p, i, k))).fold(0.0, f64::max);
        (0..p.rows.len()).map(|i| self.row_residual(p, i, k).abs()).fold(blocks, f64::max)
    }

    /// Largest of the scaled residuals and the gap; endless while τ is lost against κ.
    fn worst(&self, p: &Program, r: &Residual) -> f64 {
        let scale = 1.0 / self.tau;
        let residuals = largest(&r.dual).max(self.primal_residual(p, self.tau)) * scale;
        let worst = residuals.max(self.complementarity() * scale * scale);
        if self.tau > 1e-7 * self.kappa { worst } else { f64::INFINITY }
    }

    /// A direction of endless fall, or a proof that nothing fits.
    fn certificate(&mut self, p: &Program, tolerance: f64) -> Option<Outcome> {
        let fall = -dot(&p.cost, &self.x);
        if fall > 0.0 && self.tau < 1e-3 * self.kappa && self.primal_residual(p, 0.0) <= tolerance * fall {
            self.rescale(1.0 / fall);
            return Some(Outcome::Unbounded);
        }
        let proof = -p.shift_dot(&self.block_z, &self.row_z);
        let back = largest(&p.back(&self.block_z, &self.row_z));
        (proof > 0.0 && self.tau < 1e-3 * self.kappa && back <= tolerance * proof).then_some(Outcome::Infeasible)
    }

    fn rescale(&mut self, k: f64) {
        self.x.iter_mut().for_each(|v| *v *= k);
        for list in [&mut self.block_s, &mut self.block_z] {
            list.iter_mut().flatten().for_each(|v| *v *= k);
        }
        for list in [&mut self.row_s, &mut self.row_z] {
            list.iter_mut().for_each(|v| *v *= k);
        }
    }

    /// One predictor-corrector step; `false` if none could be made.
    fn advance(&mut self, p: &Program, r: &Residual) -> bool {
        let Some(normal) = self.normal_matrix(p) else { return false };
        self.constant_direction(p, &normal);
        let mut affine = std::mem::take(&mut self.affine);
        self.direction(p, &normal, r, 1.0, 0.0, None, &mut affine);
        let sigma = libm::pow(1.0 - self.step_length(&affine), 3.0);
        let mut step = std::mem::take(&mut self.step);
        self.direction(p, &normal, r, 1.0 - sigma, sigma * r.mu, Some(&affine), &mut step);
        let length = 0.99 * self.step_length(&step);
        self.take_step(&step, length);
        (self.affine, self.step) = (affine, step);
        length > 1e-8 && self.x.iter().all(|v| v.is_finite())
    }

    /// Scalings of all cones and the factored matrix GᵀW⁻²G.
    fn normal_matrix(&mut self, p: &Program) -> Option<Mat6> {
        let mut m = [[0.0; FREEDOMS]; FREEDOMS];
        for (i, b) in p.blocks.iter().enumerate() {
            let scaling = Scaling::of(&self.block_s[i], &self.block_z[i]);
            self.scalings[i] = scaling;
            for row in scaling.divides_rows(&b.rows) {
                add_square(&mut m, 1.0, &row);
            }
        }
        for (i, r) in p.rows.iter().enumerate() {
            add_square(&mut m, self.row_z[i] / self.row_s[i], &r.row);
        }
        let trace = (0..FREEDOMS).map(|i| m[i][i]).sum::<f64>() / FREEDOMS as f64;
        for v in &p.free {
            add_square(&mut m, trace, v);
        }
        for (i, row) in m.iter_mut().enumerate() {
            row[i] += 1e-15 * trace;
        }
        factor(&mut m).then_some(m)
    }

    /// The part of every direction that goes with dτ.
    fn constant_direction(&mut self, p: &Program, normal: &Mat6) {
        let mut rhs = p.cost;
        for (i, b) in p.blocks.iter().enumerate() {
            b.add_back(&mut rhs, 1.0, &self.scalings[i].divides_twice(&b.shift));
        }
        for (i, r) in p.rows.iter().enumerate() {
            add_scaled(&mut rhs, r.shift * self.row_z[i] / self.row_s[i], &r.row);
        }
        let x = solve(normal, &rhs);
        for (i, b) in p.blocks.iter().enumerate() {
            let g = b.map(&x);
            let rest = [b.shift[0] - g[0], b.shift[1] - g[1], b.shift[2] - g[2]];
            self.constant.block_z[i] = self.scalings[i].divides_twice(&rest);
        }
        for (i, r) in p.rows.iter().enumerate() {
            self.constant.row_z[i] = (r.shift - dot(&r.row, &x)) * self.row_z[i] / self.row_s[i];
        }
        self.constant.x = x;
    }

    /// Newton direction that takes the share `eta` of the residuals away and aims at the
    /// complementarity `target`, with the second-order term of `affine` if given.
    #[allow(clippy::too_many_arguments, reason = "one Newton system, its right-hand side in parts")]
    fn direction(
        &self,
        p: &Program,
        normal: &Mat6,
        r: &Residual,
        eta: f64,
        target: f64,
        affine: Option<&Direction>,
        out: &mut Direction,
    ) {
        let mut rhs = r.dual.map(|v| eta * v);
        for (i, b) in p.blocks.iter().enumerate() {
            let aim = self.scalings[i].times(&self.block_aim(i, target, affine));
            let res = self.block_residual(p, i, self.tau);
            out.block_s[i] = aim;
            out.block_z[i] = [aim[0] + eta * res[0], aim[1] + eta * res[1], aim[2] + eta * res[2]];
            b.add_back(&mut rhs, 1.0, &self.scalings[i].divides_twice(&out.block_z[i]));
        }
        for (i, row) in p.rows.iter().enumerate() {
            out.row_s[i] = self.row_aim(i, target, affine);
            out.row_z[i] = out.row_s[i] + eta * self.row_residual(p, i, self.tau);
            add_scaled(&mut rhs, out.row_z[i] * self.row_z[i] / self.row_s[i], &row.row);
        }
        out.x = solve(normal, &rhs);
        let cross = affine.map_or(0.0, |a| a.tau * a.kappa);
        let kappa_aim = (target - self.kappa * self.tau - cross) / self.tau;
        self.close_direction(p, eta, eta * r.gap + kappa_aim, kappa_aim, out);
    }

    /// W⁻¹ds + W dz wanted in block `i`.
    #[inline]
    fn block_aim(&self, i: usize, target: f64, affine: Option<&Direction>) -> Vec3 {
        let scaling = &self.scalings[i];
        let Some(a) = affine else { return scaling.lambda.map(|v| -v) };
        let square = jordan(&scaling.lambda, &scaling.lambda);
        let cross = jordan(&scaling.divides(&a.block_s[i]), &scaling.times(&a.block_z[i]));
        let r = [target - square[0] - cross[0], -square[1] - cross[1], -square[2] - cross[2]];
        jordan_solve(&scaling.lambda, &r)
    }

    /// ds + (s/z) dz wanted in row `i`.
    #[inline]
    fn row_aim(&self, i: usize, target: f64, affine: Option<&Direction>) -> f64 {
        let cross = affine.map_or(0.0, |a| a.row_s[i] * a.row_z[i]);
        (target - cross) / self.row_z[i] - self.row_s[i]
    }

    /// Finishes a direction: z from x, τ and κ, then s.
    fn close_direction(&self, p: &Program, eta: f64, top: f64, kappa_aim: f64, out: &mut Direction) {
        let c = &self.constant;
        for (i, b) in p.blocks.iter().enumerate() {
            let (g, v) = (b.map(&out.x), out.block_z[i]);
            out.block_z[i] = self.scalings[i].divides_twice(&[v[0] - g[0], v[1] - g[1], v[2] - g[2]]);
        }
        for (i, r) in p.rows.iter().enumerate() {
            out.row_z[i] = (out.row_z[i] - dot(&r.row, &out.x)) * self.row_z[i] / self.row_s[i];
        }
        let numerator = top + dot(&p.cost, &out.x) + p.shift_dot(&out.block_z, &out.row_z);
        let denominator = self.kappa / self.tau + dot(&p.cost, &c.x) + p.shift_dot(&c.block_z, &c.row_z);
        out.tau = numerator / denominator;
        out.kappa = kappa_aim - self.kappa * out.tau / self.tau;
        add_scaled(&mut out.x, -out.tau, &c.x);
        self.slack_direction(p, eta, out);
    }

    /// ds = G dx + h dτ − η (s − G x − h τ): keeps the primal side exact to rounding.
    fn slack_direction(&self, p: &Program, eta: f64, out: &mut Direction) {
        let tau = out.tau;
        for (i, b) in p.blocks.iter().enumerate() {
            let (g, r) = (b.map(&out.x), self.block_residual(p, i, self.tau));
            for k in 0..3 {
                out.block_z[i][k] -= tau * self.constant.block_z[i][k];
                out.block_s[i][k] = g[k] + tau * b.shift[k] - eta * r[k];
            }
        }
        for (i, r) in p.rows.iter().enumerate() {
            out.row_z[i] -= tau * self.constant.row_z[i];
            out.row_s[i] = dot(&r.row, &out.x) + tau * r.shift - eta * self.row_residual(p, i, self.tau);
        }
    }

    /// Largest step in [0, 1] that keeps everything inside its cone.
    fn step_length(&self, d: &Direction) -> f64 {
        let mut step: f64 = 1.0;
        for (s, ds) in self.block_s.iter().zip(&d.block_s).chain(self.block_z.iter().zip(&d.block_z)) {
            step = step.min(cone_step(s, ds));
        }
        let ends = [(self.tau, d.tau), (self.kappa, d.kappa)];
        let rows = self.row_s.iter().zip(&d.row_s).chain(self.row_z.iter().zip(&d.row_z)).map(|(s, ds)| (*s, *ds));
        for (s, ds) in rows.chain(ends) {
            if ds < 0.0 {
                step = step.min(-s / ds);
            }
        }
        step
    }

    fn take_step(&mut self, d: &Direction, length: f64) {
        add_scaled(&mut self.x, length, &d.x);
        let blocks = self.block_s.iter_mut().zip(&d.block_s).chain(self.block_z.iter_mut().zip(&d.block_z));
        for (s, ds) in blocks {
            for k in 0..3 {
                s[k] += length * ds[k];
            }
        }
        for (s, ds) in self.row_s.iter_mut().zip(&d.row_s).chain(self.row_z.iter_mut().zip(&d.row_z)) {
            *s += length * ds;
        }
        self.tau += length * d.tau;
        self.kappa += length * d.kappa;
    }
}
