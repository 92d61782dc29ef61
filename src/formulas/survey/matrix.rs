//! Symmetric matrices by rows: their triangles and what is solved with them.
#![allow(clippy::indexing_slicing, reason = "every row has as many columns as there are rows")]

/// Rows.
pub type Matrix = Vec<Vec<f64>>;

fn largest(m: &Matrix) -> f64 {
    m.iter().enumerate().map(|(i, r)| r[i]).fold(0.0, f64::max)
}

/// Lower Cholesky factor; `None` if a pivot is lost.
pub(super) fn cholesky(mut m: Matrix) -> Option<Matrix> {
    let least = 1e-10 * largest(&m);
    for i in 0..m.len() {
        let (done, rest) = m.split_at_mut(i);
        let row = &mut rest[0];
        for (j, above) in done.iter().enumerate() {
            let sum: f64 = row[..j].iter().zip(&above[..j]).map(|(a, b)| a * b).sum();
            row[j] = (row[j] - sum) / above[j];
        }
        let pivot = row[i] - row[..i].iter().map(|a| a * a).sum::<f64>();
        if pivot.is_nan() || pivot <= least {
            return None;
        }
        row[i] = pivot.sqrt();
    }
    Some(m)
}

/// The same where some motions have no variance: their columns are nought.
pub(super) fn semidefinite_factor(of: &Matrix) -> Matrix {
    let least = 1e-9 * largest(of);
    let mut l = vec![vec![0.0; of.len()]; of.len()];
    for i in 0..of.len() {
        for j in 0..=i {
            let sum: f64 = (0..j).map(|k| l[i][k] * l[j][k]).sum();
            let v = of[i][j] - sum;
            l[i][j] = match (i == j, l[j][j] > 0.0) {
                (true, _) => {
                    if v > least {
                        v.sqrt()
                    } else {
                        0.0
                    }
                }
                (false, true) => v / l[j][j],
                (false, false) => 0.0,
            };
        }
    }
    l
}

/// x with L Lᵀ x = b.
pub(super) fn solve(l: &Matrix, mut x: Vec<f64>) -> Vec<f64> {
    for i in 0..x.len() {
        let sum: f64 = l[i][..i].iter().zip(&x).map(|(a, b)| a * b).sum();
        x[i] = (x[i] - sum) / l[i][i];
    }
    for i in (0..x.len()).rev() {
        x[i] /= l[i][i];
        let done = x[i];
        x[..i].iter_mut().zip(&l[i]).for_each(|(x, a)| *x -= a * done);
    }
    x
}

/// (L Lᵀ)⁻¹.
pub(super) fn inverse(l: &Matrix) -> Matrix {
    let n = l.len();
    let unit = |j: usize| (0..n).map(|i| if i == j { 1.0 } else { 0.0 }).collect();
    (0..n).map(|j| solve(l, unit(j))).collect()
}
