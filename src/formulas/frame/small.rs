//! Small dense algebra for the seating mechanics: six unknowns, so fixed arrays and no heap.
#![allow(clippy::indexing_slicing, reason = "indices run over fixed array sizes")]
#![allow(clippy::needless_range_loop, reason = "matrix algebra reads better with its indices")]

/// Number of freedoms of a rigid frame.
pub(super) const FREEDOMS: usize = 6;
/// A vector over the freedoms.
pub(super) type Vec6 = [f64; FREEDOMS];
/// A square matrix over the freedoms.
pub(super) type Mat6 = [[f64; FREEDOMS]; FREEDOMS];

/// Scalar product.
#[inline]
pub(super) fn dot(a: &Vec6, b: &Vec6) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

/// `y += k x`.
#[inline]
pub(super) fn add_scaled(y: &mut Vec6, k: f64, x: &Vec6) {
    for (a, b) in y.iter_mut().zip(x) {
        *a += k * b;
    }
}

/// Largest magnitude of any entry.
pub(super) fn largest(a: &[f64]) -> f64 {
    a.iter().fold(0.0, |m, x| m.max(x.abs()))
}

/// `m += k v vᵀ`, lower triangle only.
#[inline]
pub(super) fn add_square(m: &mut Mat6, k: f64, v: &Vec6) {
    for i in 0..FREEDOMS {
        let kv = k * v[i];
        for j in 0..=i {
            m[i][j] += kv * v[j];
        }
    }
}

/// Cholesky factor of the lower triangle of `m`, in place; the diagonal holds reciprocals.
/// `false` if a pivot is not positive.
#[inline]
pub(super) fn factor(m: &mut Mat6) -> bool {
    for j in 0..FREEDOMS {
        let mut pivot = m[j][j];
        for k in 0..j {
            pivot -= m[j][k] * m[j][k];
        }
        if pivot.is_nan() || pivot <= 0.0 {
            return false;
        }
        let reciprocal = 1.0 / pivot.sqrt();
        m[j][j] = reciprocal;
        for i in j + 1..FREEDOMS {
            let mut sum = m[i][j];
            for k in 0..j {
                sum -= m[i][k] * m[j][k];
            }
            m[i][j] = sum * reciprocal;
        }
    }
    true
}

/// Solves with a factor made by [`factor`].
#[inline]
pub(super) fn solve(l: &Mat6, b: &Vec6) -> Vec6 {
    let mut x = *b;
    for i in 0..FREEDOMS {
        for k in 0..i {
            x[i] -= l[i][k] * x[k];
        }
        x[i] *= l[i][i];
    }
    for i in (0..FREEDOMS).rev() {
        for k in i + 1..FREEDOMS {
            x[i] -= l[k][i] * x[k];
        }
        x[i] *= l[i][i];
    }
    x
}

/// Eigenvalues and eigenvectors (rows of the second result) of a symmetric matrix given by its
/// lower triangle: cyclic Jacobi rotations (Golub and Van Loan, Matrix Computations, section 8.5).
pub(super) fn eigen(lower: &Mat6) -> (Vec6, Mat6) {
    let mut a = *lower;
    for i in 0..FREEDOMS {
        for j in 0..i {
            a[j][i] = a[i][j];
        }
    }
    let mut v = [[0.0; FREEDOMS]; FREEDOMS];
    for (i, row) in v.iter_mut().enumerate() {
        row[i] = 1.0;
    }
    for _ in 0..30 {
        let mut off = 0.0;
        for p in 0..FREEDOMS {
            for q in p + 1..FREEDOMS {
                off += a[p][q] * a[p][q];
                rotate(&mut a, &mut v, p, q);
            }
        }
        if off == 0.0 {
            break;
        }
    }
    (std::array::from_fn(|i| a[i][i]), v)
}

/// One Jacobi rotation that clears `a[p][q]`.
fn rotate(a: &mut Mat6, v: &mut Mat6, p: usize, q: usize) {
    if a[p][q].abs() <= f64::MIN_POSITIVE {
        a[p][q] = 0.0;
        a[q][p] = 0.0;
        return;
    }
    let ratio = (a[q][q] - a[p][p]) / (2.0 * a[p][q]);
    let t = ratio.signum() / (ratio.abs() + (ratio * ratio + 1.0).sqrt());
    let c = 1.0 / (t * t + 1.0).sqrt();
    let s = t * c;
    for row in a.iter_mut() {
        (row[p], row[q]) = (c * row[p] - s * row[q], s * row[p] + c * row[q]);
    }
    for k in 0..FREEDOMS {
        (a[p][k], a[q][k]) = (c * a[p][k] - s * a[q][k], s * a[p][k] + c * a[q][k]);
        (v[p][k], v[q][k]) = (c * v[p][k] - s * v[q][k], s * v[p][k] + c * v[q][k]);
    }
    a[p][q] = 0.0;
    a[q][p] = 0.0;
}

/// Directions (unit vectors) in which the quadratic form given by its lower triangle vanishes:
/// eigenvalue below `relative` times the largest.
pub(super) fn null_directions(lower: &Mat6, relative: f64) -> Vec<Vec6> {
    let (values, vectors) = eigen(lower);
    let limit = relative * largest(&values).max(f64::MIN_POSITIVE);
    values.iter().zip(&vectors).filter(|(value, _)| **value <= limit).map(|(_, v)| *v).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn factor_and_solve_give_back_the_vector() {
        let mut m = [[0.0; 6]; 6];
        for k in 0..6 {
            let v: Vec6 = std::array::from_fn(|i| ((i * 7 + k * 5) % 11) as f64 - 4.0 + if i == k { 9.0 } else { 0.0 });
            add_square(&mut m, 1.0, &v);
        }
        let x = [1.0, -2.0, 3.0, 0.5, -0.25, 4.0];
        let b: Vec6 = std::array::from_fn(|i| (0..6).map(|j| if j <= i { m[i][j] } else { m[j][i] } * x[j]).sum());
        let mut l = m;
        assert!(factor(&mut l));
        for (got, want) in solve(&l, &b).iter().zip(x) {
            assert!((got - want).abs() < 1e-10, "{got} {want}");
        }
    }

    #[test]
    fn null_direction_of_a_rank_five_form() {
        let mut m = [[0.0; 6]; 6];
        let missing = [0.0, 0.6, 0.8, 0.0, 0.0, 0.0];
        for k in 0..6 {
            let mut v = [0.0; 6];
            v[k] = 1.0;
            let along = dot(&v, &missing);
            add_scaled(&mut v, -along, &missing);
            add_square(&mut m, 1.0 + k as f64, &v);
        }
        let found = null_directions(&m, 1e-12);
        assert_eq!(found.len(), 1);
        assert!((dot(&found[0], &missing).abs() - 1.0).abs() < 1e-12);
    }
}
