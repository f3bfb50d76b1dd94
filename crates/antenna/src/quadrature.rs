//! Gauss–Legendre points.

use std::f64::consts::PI;

/// Points and weights of the `n`-point Gauss–Legendre rule on −1…1, by Newton's iteration on the Legendre polynomial.
///
/// # Shape
/// `n` pairs (point, weight), points rising.
pub fn gauss_legendre(n: usize) -> Vec<(f64, f64)> {
    (1..=n)
        .rev()
        .map(|i| {
            let mut x = (PI * (i as f64 - 0.25) / (n as f64 + 0.5)).cos();
            let mut slope = 1.0;
            for _ in 0..100 {
                let (p, dp) = legendre(n, x);
                slope = dp;
                let step = p / dp;
                x -= step;
                if step.abs() < 1e-15 {
                    break;
                }
            }
            (x, 2.0 / ((1.0 - x * x) * slope * slope))
        })
        .collect()
}

/// The Legendre polynomial of degree `n` and its derivative at `x`, by recurrence.
fn legendre(n: usize, x: f64) -> (f64, f64) {
    let (mut before, mut now) = (1.0, x);
    if n == 0 {
        return (1.0, 0.0);
    }
    for k in 2..=n {
        let k = k as f64;
        (before, now) = (now, ((2.0 * k - 1.0) * x * now - (k - 1.0) * before) / k);
    }
    (now, n as f64 * (x * now - before) / (x * x - 1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ref_rule_is_exact_to_degree_2n_minus_1() {
        for n in [1, 2, 5, 24, 64] {
            let rule = gauss_legendre(n);
            assert!((rule.iter().map(|p| p.1).sum::<f64>() - 2.0).abs() < 1e-13);
            let degree = 2 * n as i32 - 2;
            let got: f64 = rule.iter().map(|(x, w)| w * x.powi(degree)).sum();
            assert!((got - 2.0 / f64::from(degree + 1)).abs() < 1e-13, "{n}");
            assert!(rule.windows(2).all(|p| p[0].0 < p[1].0));
        }
    }
}
