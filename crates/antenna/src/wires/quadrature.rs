//! Gauss–Legendre points on 0..1.

/// Points and weights of the `n`-point rule on 0..1, points rising. Exact for polynomials up to degree 2n − 1.
///
/// Newton's method on the Legendre recurrence (Abramowitz & Stegun 25.4.29, from memory).
pub(crate) fn gauss_01(n: usize) -> Vec<(f64, f64)> {
    (0..n)
        .map(|i| {
            let mut x = -(std::f64::consts::PI * (i as f64 + 0.75) / (n as f64 + 0.5)).cos();
            let mut slope = 1.0;
            for _ in 0..100 {
                let (p, d) = legendre(n, x);
                slope = d;
                let step = p / d;
                x -= step;
                if step.abs() < 1e-15 {
                    slope = legendre(n, x).1;
                    break;
                }
            }
            (0.5 + 0.5 * x, 1.0 / ((1.0 - x * x) * slope * slope))
        })
        .collect()
}

fn legendre(n: usize, x: f64) -> (f64, f64) {
    let (mut before, mut p) = (1.0, x);
    if n == 0 {
        return (1.0, 0.0);
    }
    for j in 2..=n {
        let j = j as f64;
        (before, p) = (p, ((2.0 * j - 1.0) * x * p - (j - 1.0) * before) / j);
    }
    (p, n as f64 * (x * p - before) / (x * x - 1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn verif_rule_integrates_its_polynomials() {
        for n in [1, 2, 3, 4, 6, 10, 14, 48] {
            for degree in [0, 1, 2 * n - 1] {
                let sum: f64 = gauss_01(n).iter().map(|(x, w)| w * x.powi(degree as i32)).sum();
                assert!(
                    (sum * (degree as f64 + 1.0) - 1.0).abs() < 1e-12,
                    "{n} {degree} {sum}"
                );
            }
        }
    }
}
