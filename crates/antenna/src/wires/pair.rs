//! One pair of segments: the four moments ∫∫ λλ′ G of its half-triangles, when the segments are near.
//!
//! The inner integral of 1/R is closed; what remains of e^(−jkR)/R is smooth. The outer integral clusters its points where
//! the inner one has its logarithm. Along one straight line of one radius the kernel of the tube is exact: its average over
//! the circumference is that of axis kernels with radius 2a·sin(ψ/2).
//!
//! # Source
//! Standard theory; the tube average is in Balanis, *Antenna Theory* (moment method, exact kernel), from memory.

use super::Complex;
use super::quadrature::gauss_01;
use super::vector::{add, dot, nearest_approach, scale, sub};
use std::sync::LazyLock;

/// How two segments lie to each other: everything the moments depend on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PairShape {
    /// Length of the first, metres.
    pub first_m: f64,
    /// Length of the second, metres.
    pub second_m: f64,
    /// Cosine of the angle between them.
    pub cosine: f64,
    /// From the second's start to the first's start, along the first, metres.
    pub along_first_m: f64,
    /// The same, along the second, metres.
    pub along_second_m: f64,
    /// The same, square of its length, m².
    pub square_m2: f64,
    /// Which kernel.
    pub kernel: Kernel,
    /// Whether the two touch or nearly so.
    pub touching: bool,
}

/// Kernel between two segments.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Kernel {
    /// One straight line of one radius (m): the tube's own.
    Tube(f64),
    /// Otherwise: axis to axis, with this added to R² (m²).
    Axis(f64),
}

/// One end of a segment pair.
#[derive(Clone, Copy, Debug)]
pub struct Piece {
    /// Start, metres.
    pub start_m: [f64; 3],
    /// Unit vector.
    pub direction: [f64; 3],
    /// Length, metres.
    pub length_m: f64,
    /// Radius, metres.
    pub radius_m: f64,
}

impl PairShape {
    /// The shape of two segments; `one_line` when they lie on one straight line of one radius.
    pub fn of(first: &Piece, second: &Piece, one_line: bool) -> Self {
        let d = sub(first.start_m, second.start_m);
        let ends = |p: &Piece| [p.start_m, add(p.start_m, scale(p.direction, p.length_m))];
        let (apart, _, _) = nearest_approach(ends(first), ends(second));
        let mean_square = 0.5 * (first.radius_m * first.radius_m + second.radius_m * second.radius_m);
        Self {
            first_m: first.length_m,
            second_m: second.length_m,
            cosine: dot(first.direction, second.direction),
            along_first_m: dot(d, first.direction),
            along_second_m: dot(d, second.direction),
            square_m2: dot(d, d),
            kernel: if one_line {
                Kernel::Tube(first.radius_m)
            } else {
                Kernel::Axis(mean_square)
            },
            touching: apart < 0.4 * first.length_m.max(second.length_m),
        }
    }

    /// A key that pairs of equal shape share, lengths to 2 µm (finer than any drawing).
    pub(crate) fn key(&self) -> [i64; 8] {
        let micro = |v: f64| (v * 5e5).round() as i64;
        let (kind, radius) = match self.kernel {
            Kernel::Tube(a) => (1, a),
            Kernel::Axis(square) => (0, square.sqrt()),
        };
        let lengths = [
            self.first_m,
            self.second_m,
            self.along_first_m,
            self.along_second_m,
            self.square_m2.sqrt(),
        ]
        .map(micro);
        let touching = i64::from(self.touching);
        let angle = (self.cosine * 1e6).round() as i64;
        [
            lengths[0],
            lengths[1],
            lengths[2],
            lengths[3],
            lengths[4],
            angle,
            (radius * 1e8) as i64,
            2 * kind + touching,
        ]
    }
}

/// Points (fraction, weight) for the outer integral, clustered at both ends.
static CLUSTERED: LazyLock<Vec<(f64, f64)>> = LazyLock::new(|| {
    let cluster = |(x, w): (f64, f64)| {
        (
            x * x * x * (10.0 - 15.0 * x + 6.0 * x * x),
            w * 30.0 * (x * (1.0 - x)).powi(2),
        )
    };
    gauss_01(14).into_iter().map(cluster).collect()
});
static OUTER: LazyLock<Vec<(f64, f64)>> = LazyLock::new(|| gauss_01(6));
static INNER: LazyLock<Vec<(f64, f64)>> = LazyLock::new(|| gauss_01(4));
/// (2 sin ψ/2, weight) for the average round the tube, ψ = πx³ to take up the logarithm at ψ = 0.
static ROUND: LazyLock<Vec<(f64, f64)>> = LazyLock::new(|| {
    let turn = |(x, w): (f64, f64)| {
        (
            2.0 * (0.5 * std::f64::consts::PI * x * x * x).sin(),
            w * 3.0 * x * x,
        )
    };
    gauss_01(10).into_iter().map(turn).collect()
});

/// Moments `[e][e′]` = ∫∫ λ_e(s) λ_e′(t) e^(−jkR)/(4πR) dt ds over the first and the second segment, in metres.
///
/// λ₀ falls from 1 at the start to 0 at the end, λ₁ rises. `wave_number` in 1/m.
pub fn moments(shape: &PairShape, wave_number: f64) -> [[Complex; 2]; 2] {
    let mut sum = [[Complex::ZERO; 2]; 2];
    let outer = if shape.touching { &*CLUSTERED } else { &*OUTER };
    for &(x, w) in outer {
        let inner = inner_moments(shape, x * shape.first_m, wave_number);
        for (e, rising) in [(0, 1.0 - x), (1, x)] {
            for (f, value) in inner.iter().enumerate() {
                sum[e][f] += value * (w * rising);
            }
        }
    }
    let scale = shape.first_m / (4.0 * std::f64::consts::PI);
    sum.map(|row| row.map(|v| v * scale))
}

/// ∫ λ_e′(t) e^(−jkR)/R dt seen from `s` metres along the first segment.
fn inner_moments(shape: &PairShape, s: f64, k: f64) -> [Complex; 2] {
    let length = shape.second_m;
    let foot = shape.along_second_m + s * shape.cosine;
    let away = shape.square_m2 + s * (s + 2.0 * shape.along_first_m);
    let off_axis = match shape.kernel {
        Kernel::Tube(_) => 0.0,
        Kernel::Axis(_) => (away - foot * foot).max(0.0),
    };
    let (still, smooth_square) = match shape.kernel {
        Kernel::Axis(square) => (
            inverse_distance(foot, length, off_axis + square),
            off_axis + square,
        ),
        Kernel::Tube(a) => {
            let mut mean = [0.0; 2];
            for &(chord, w) in ROUND.iter() {
                let [i0, i1] = inverse_distance(foot, length, (a * chord).powi(2));
                mean = [mean[0] + w * i0, mean[1] + w * i1];
            }
            (mean, 2.0 * a * a)
        }
    };
    let mut whole = Complex::from(still[0]);
    let mut rising = Complex::from(still[1] / length);
    for &(y, w) in INNER.iter() {
        let r = ((y * length - foot).powi(2) + smooth_square).sqrt();
        let rest = remainder(k, r) * (w * length);
        whole += rest;
        rising += rest * y;
    }
    [whole - rising, rising]
}

/// [∫ dt/R, ∫ t dt/R] over 0..length with R² = (t − foot)² + square.
fn inverse_distance(foot: f64, length: f64, square: f64) -> [f64; 2] {
    let rho = square.sqrt();
    let i0 = ((length - foot) / rho).asinh() + (foot / rho).asinh();
    let i1 = ((length - foot).powi(2) + square).sqrt() - (foot * foot + square).sqrt() + foot * i0;
    [i0, i1]
}

/// (e^(−jkR) − 1)/R.
fn remainder(k: f64, r: f64) -> Complex {
    let x = k * r;
    if x < 1e-4 {
        return Complex::new(-0.5 * k * x, -k);
    }
    let (sin, cos) = (0.5 * x).sin_cos();
    // cos x − 1 = −2 sin²(x/2) keeps its digits for small x.
    Complex::new(-2.0 * sin * sin, -2.0 * sin * cos) / r
}

#[cfg(test)]
mod tests {
    use super::*;

    fn piece(start_m: [f64; 3], direction: [f64; 3], length_m: f64) -> Piece {
        let size = dot(direction, direction).sqrt();
        Piece {
            start_m,
            direction: scale(direction, 1.0 / size),
            length_m,
            radius_m: 0.006,
        }
    }

    /// Plain double Gauss rule of many points, for pairs that do not touch.
    fn plain(a: &Piece, b: &Piece, k: f64) -> [[Complex; 2]; 2] {
        let points = gauss_01(60);
        let mut sum = [[Complex::ZERO; 2]; 2];
        for (x, wx) in &points {
            for (y, wy) in &points {
                let d = sub(
                    add(a.start_m, scale(a.direction, x * a.length_m)),
                    add(b.start_m, scale(b.direction, y * b.length_m)),
                );
                let r = (dot(d, d) + 0.006f64.powi(2)).sqrt();
                let g = Complex::from_polar(
                    wx * wy * a.length_m * b.length_m / (4.0 * std::f64::consts::PI * r),
                    -k * r,
                );
                for (e, u) in [(0, 1.0 - x), (1, *x)] {
                    for (f, v) in [(0, 1.0 - y), (1, *y)] {
                        sum[e][f] += g * (u * v);
                    }
                }
            }
        }
        sum
    }

    #[test]
    fn verif_skew_pairs_against_a_plain_rule() {
        let a = piece([0.0; 3], [1.0, 0.2, 0.1], 0.13);
        for b in [
            piece([0.05, 0.09, -0.03], [-0.2, 1.0, 0.4], 0.2),
            piece([0.2, 0.0, 0.1], [0.0, 0.0, 1.0], 0.08),
        ] {
            let (fine, ours) = (plain(&a, &b, 2.05), moments(&PairShape::of(&a, &b, false), 2.05));
            for e in 0..2 {
                for f in 0..2 {
                    assert!(
                        (fine[e][f] - ours[e][f]).norm() < 2e-5 * fine[e][f].norm(),
                        "{} {}",
                        fine[e][f],
                        ours[e][f]
                    );
                }
            }
        }
    }

    #[test]
    fn verif_both_orders_of_integration_agree() {
        // Bent neighbours and neighbours on one line: the two orders use different analytic halves.
        let a = piece([0.0; 3], [0.0, 0.0, 1.0], 0.07);
        for (b, line) in [
            (piece([0.0, 0.0, 0.07], [1.0, 0.0, 1.0], 0.09), false),
            (piece([0.0, 0.0, 0.07], [0.0, 0.0, 1.0], 0.07), true),
        ] {
            let one = moments(&PairShape::of(&a, &b, line), 2.05);
            let other = moments(&PairShape::of(&b, &a, line), 2.05);
            for e in 0..2 {
                for f in 0..2 {
                    assert!(
                        (one[e][f] - other[f][e]).norm() < 3e-5 * one[e][f].norm(),
                        "{e}{f} {} {}",
                        one[e][f],
                        other[f][e]
                    );
                }
            }
        }
    }

    #[test]
    fn verif_tube_of_a_short_segment_against_its_series() {
        // ∫∫ of the static tube kernel over one segment, L ≫ a: 2L(ln(2L/a) − 1)/(4π), leading term (standard result).
        let a = Piece {
            radius_m: 1e-6,
            ..piece([0.0; 3], [0.0, 0.0, 1.0], 0.1)
        };
        let m = moments(&PairShape::of(&a, &a, true), 1e-6);
        let total: f64 = m.iter().flatten().map(|v| v.re).sum();
        let expected = 2.0 * 0.1 * ((0.2f64 / 1e-6).ln() - 1.0) / (4.0 * std::f64::consts::PI);
        assert!((total / expected - 1.0).abs() < 1e-5, "{total} {expected}");
    }
}
