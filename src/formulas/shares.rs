//! From which inputs a spread comes: shares of the variance.

/// Shares of the variance of a sum of independent parts, from the standard deviation that each gives it:
/// s_i = σ_i²/Σσ². For a figure that is linear in its inputs σ_i is |∂f/∂x_i| times the deviation of x_i. All nought where nothing
/// varies.
///
/// Source: JCGM 100:2008, 5.1.2, the law of propagation without correlation.
pub fn of_a_sum(deviations: &[f64]) -> Vec<f64> {
    let all: f64 = deviations.iter().map(|d| d * d).sum();
    deviations.iter().map(|d| if all > 0.0 { d * d / all } else { 0.0 }).collect()
}

/// First-order share of an input (or of several together) in the variance of an answer of one or more components: the variance of
/// what is expected when the input is known, over the variance of all.
///
/// Each pair holds two answers that have this input in common and all others drawn anew:
///
/// S = Σ_j (mean(y y') - m²) / Σ_j (mean((y² + y'²)/2) - m²),  m = mean((y + y')/2), over the components j.
///
/// Range: at least two pairs; 0 where nothing varies; a small share may come out a little under nought, which is its noise: it is cut
/// off there.
/// Source: from memory, unconfirmed: Janon, Klein, Lagnoux, Nodet and Prieur 2014 for one component; Gamboa, Janon, Klein and
/// Lagnoux 2014 for several. Held by the function of Ishigami and Homma, whose shares are known in closed form.
pub fn first_order<const N: usize>(pairs: &[([f64; N], [f64; N])]) -> f64 {
    let n = pairs.len() as f64;
    if pairs.len() < 2 {
        return 0.0;
    }
    let (mut of_input, mut of_all) = (0.0, 0.0);
    for j in 0..N {
        let component = || pairs.iter().filter_map(|(a, b)| Some((*a.get(j)?, *b.get(j)?)));
        let mean = component().map(|(a, b)| 0.5 * (a + b)).sum::<f64>() / n;
        // About the mean, so that nothing is lost where the spread is small beside it.
        of_input += component().map(|(a, b)| (a - mean) * (b - mean)).sum::<f64>() / n;
        of_all += component().map(|(a, b)| 0.5 * ((a - mean).powi(2) + (b - mean).powi(2))).sum::<f64>() / n;
    }
    if of_all > 0.0 { (of_input / of_all).clamp(0.0, 1.0) } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::formulas::random::SplitMix;

    /// Source: Ishigami and Homma 1990, a = 7, b = 0.1: V1 = (1 + b π⁴/5)²/2, V2 = a²/8, V = a²/8 + b π⁴/5 + b² π⁸/18 + 1/2;
    /// printed in textbooks as 0.3139, 0.4424 and 0 (from memory, unconfirmed; the closed forms give them).
    #[test]
    fn shares_of_a_function_whose_shares_are_known() {
        let pi = std::f64::consts::PI;
        let (a, b) = (7.0, 0.1);
        let f = |x: [f64; 3]| {
            let s = libm::sin(x[1]);
            [libm::sin(x[0]) + a * s * s + b * x[2].powi(4) * libm::sin(x[0])]
        };
        let v = a * a / 8.0 + b * pi.powi(4) / 5.0 + b * b * pi.powi(8) / 18.0 + 0.5;
        let expected = [0.5 * (1.0 + b * pi.powi(4) / 5.0).powi(2) / v, a * a / 8.0 / v, 0.0];
        assert!((expected[0] - 0.3139).abs() < 5e-5 && (expected[1] - 0.4424).abs() < 5e-5);
        let mut random = SplitMix::new(3);
        let mut point = || [0; 3].map(|_| pi * (2.0 * random.uniform() - 1.0));
        for (i, expected) in expected.into_iter().enumerate() {
            let pairs: Vec<([f64; 1], [f64; 1])> = (0..40_000)
                .map(|_| {
                    let (one, mut other) = (point(), point());
                    other[i] = one[i];
                    (f(one), f(other))
                })
                .collect();
            let share = first_order(&pairs);
            // Three deviations of the estimate of 40,000 pairs.
            assert!((share - expected).abs() < 0.02, "input {i}: {share} for {expected}");
        }
    }

    /// y = 3 x1 + 4 x2, both of deviation 1: 9/25 and 16/25; two components that are the same give the same.
    #[test]
    fn a_linear_chain_has_the_shares_of_its_squares() {
        assert_eq!(of_a_sum(&[3.0, -4.0]), [9.0 / 25.0, 16.0 / 25.0]);
        assert_eq!(of_a_sum(&[0.0, 0.0]), [0.0, 0.0]);
        let mut random = SplitMix::new(5);
        let pairs: Vec<([f64; 2], [f64; 2])> = (0..40_000)
            .map(|_| {
                let ([x, a], [b, _]) = (random.normals(), random.normals());
                let y = |other: f64| 3.0 * x + 4.0 * other;
                ([y(a), 2.0 * y(a)], [y(b), 2.0 * y(b)])
            })
            .collect();
        let share = first_order(&pairs);
        assert!((share - 0.36).abs() < 0.015, "{share}");
        assert_eq!(first_order::<1>(&[([2.0], [2.0]), ([2.0], [2.0])]), 0.0);
    }
}
