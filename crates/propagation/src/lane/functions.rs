//! Logarithm, exponential and angles for several numbers at once, without branches.
//!
//! Against the standard library over their working ranges: `exp`, `ln`, `atan`, `sin_small` and `cos_small` within 2 units in
//! the last place (tests below).

use super::Vector;
use std::f64::consts::{FRAC_PI_2, FRAC_PI_4, LOG2_E};

/// 1.5 · 2⁵²: adding it rounds to a whole number and leaves that number in the low bits.
pub const SHIFT: f64 = 6_755_399_441_055_744.0;
const LN_2_HIGH: f64 = 6.931_471_803_691_238e-1;
const LN_2_LOW: f64 = 1.908_214_929_270_587_7e-10;

/// `c[0] + c[1] x + …` by Horner's rule.
#[inline(always)]
fn polynomial<V: Vector, const N: usize>(x: V, c: [f64; N]) -> V {
    let mut sum = V::splat(c[N - 1]);
    let mut i = N - 1;
    while i > 0 {
        i -= 1;
        sum = sum.fma(x, V::splat(c[i]));
    }
    sum
}

/// `2ⁿ · e^r` with `|r| ≤ ½ ln 2`, by its Taylor series to the thirteenth power.
#[inline(always)]
pub fn exp<V: Vector>(x: V) -> V {
    let s = V::splat;
    let x = x.max(s(-708.0)).min(s(709.0));
    let t = x.fma(s(LOG2_E), s(SHIFT));
    let n = t - s(SHIFT);
    let r = n.fma(s(-LN_2_LOW), n.fma(s(-LN_2_HIGH), x));
    let r2 = r * r;
    let r4 = r2 * r2;
    let low = s(1.0 / 120.0)
        .fma(r, s(1.0 / 24.0))
        .fma(r2, s(1.0 / 6.0).fma(r, s(0.5)));
    let mid = s(1.0 / 362880.0)
        .fma(r, s(1.0 / 40320.0))
        .fma(r2, s(1.0 / 5040.0).fma(r, s(1.0 / 720.0)));
    let high = s(1.0 / 6227020800.0)
        .fma(r, s(1.0 / 479001600.0))
        .fma(r2, s(1.0 / 39916800.0).fma(r, s(1.0 / 3628800.0)));
    let series = high.fma(r4 * r4, mid.fma(r4, low));
    let scale = t.power_of_two();
    scale.fma(r2.fma(series, r), scale)
}

/// `k ln 2 + ln m` with `√½ ≤ m < √2`, by the series in `(m − 1)/(m + 1)`.
#[inline(always)]
pub fn ln<V: Vector>(x: V) -> V {
    let s = V::splat;
    let (k, m) = x.exponent_and_fraction();
    let f = m - s(1.0);
    let q = f / (s(2.0) + f);
    let z = q * q;
    let w = z * z;
    let even = w * polynomial(
        w,
        [
            3.999_999_999_940_942e-1,
            2.222_219_843_214_978_4e-1,
            1.531_383_769_920_937_3e-1,
        ],
    );
    let odd = z * polynomial(
        w,
        [
            6.666_666_666_666_735e-1,
            2.857_142_874_366_239e-1,
            1.818_357_216_161_805e-1,
            1.479_819_860_511_658_6e-1,
        ],
    );
    let h = s(0.5) * f * f;
    k.fma(s(LN_2_HIGH), f - (h - q.fma(h + even + odd, k * s(LN_2_LOW))))
}

/// Arc tangent by reduction to `|y| ≤ tan(π/8)` and its Taylor series in `y²`; the first term left out is below 2·10⁻¹⁷.
#[inline(always)]
pub fn atan<V: Vector>(x: V) -> V {
    let s = V::splat;
    let a = x.abs();
    let steep = s(1.0).lt(a);
    let inner = V::select(steep, s(1.0), a) / V::select(steep, a, s(1.0));
    let middle = s(0.414_213_562_373_095).lt(inner);
    let y = V::select(middle, inner - s(1.0), inner) / V::select(middle, inner + s(1.0), s(1.0));
    let z = y * y;
    let z2 = z * z;
    // Even and odd terms side by side halve the chain.
    let even = polynomial(
        z2,
        [
            -1.0 / 3.0,
            -1.0 / 7.0,
            -1.0 / 11.0,
            -1.0 / 15.0,
            -1.0 / 19.0,
            -1.0 / 23.0,
            -1.0 / 27.0,
            -1.0 / 31.0,
            -1.0 / 35.0,
            -1.0 / 39.0,
        ],
    );
    let odd = polynomial(
        z2,
        [
            1.0 / 5.0,
            1.0 / 9.0,
            1.0 / 13.0,
            1.0 / 17.0,
            1.0 / 21.0,
            1.0 / 25.0,
            1.0 / 29.0,
            1.0 / 33.0,
            1.0 / 37.0,
            1.0 / 41.0,
        ],
    );
    let small = (z * odd.fma(z, even)).fma(y, y);
    let in_octant = V::select(middle, small + s(FRAC_PI_4), small);
    let angle = V::select(steep, s(FRAC_PI_2) - in_octant, in_octant);
    V::select(x.lt(s(0.0)), -angle, angle)
}

/// Sine within ±π/4, by its Taylor series.
#[inline(always)]
pub fn sin_small<V: Vector>(x: V) -> V {
    let z = x * x;
    let tail = polynomial(
        z,
        [
            -1.0 / 6.0,
            1.0 / 120.0,
            -1.0 / 5040.0,
            1.0 / 362880.0,
            -1.0 / 39916800.0,
            1.0 / 6227020800.0,
            -1.0 / 1307674368000.0,
        ],
    );
    (tail * z).fma(x, x)
}

/// Cosine within ±π/4, by its Taylor series.
#[inline(always)]
pub fn cos_small<V: Vector>(x: V) -> V {
    polynomial(
        x * x,
        [
            1.0,
            -0.5,
            1.0 / 24.0,
            -1.0 / 720.0,
            1.0 / 40320.0,
            -1.0 / 3628800.0,
            1.0 / 479001600.0,
            -1.0 / 87178291200.0,
            1.0 / 20922789888000.0,
        ],
    )
}

#[cfg(test)]
mod tests {
    use super::super::wide::Wide;
    use super::super::{Numbers, Vector, WIDTH, widest};

    widest! {
        /// All five functions of eight numbers.
        fn five(x: &Numbers) -> [Numbers; 5] = five_lanes;
    }

    #[inline(always)]
    fn five_lanes<V: Vector>(x: &Numbers) -> [Numbers; 5] {
        let x = V::load(x);
        [x.exp(), x.abs().ln(), x.atan(), x.sin_small(), x.cos_small()].map(Vector::store)
    }

    #[test]
    fn verif_functions_against_the_standard_library() {
        let theirs: [fn(f64) -> f64; 5] = [f64::exp, |x| x.abs().ln(), f64::atan, f64::sin, f64::cos];
        let spans = [
            (-300.0, 300.0),
            (1e-3, 1e6),
            (-20.0, 20.0),
            (-0.78, 0.78),
            (-0.78, 0.78),
        ];
        for (which, name) in ["exp", "ln", "atan", "sin", "cos"].iter().enumerate() {
            let (from, to) = spans[which];
            for (kind, ours) in [
                ("widest", five as fn(&Numbers) -> _),
                ("portable", five_lanes::<Wide>),
            ] {
                let mut worst_ulp: f64 = 0.0;
                for i in 0..25_000 {
                    let x: Numbers = std::array::from_fn(|lane| {
                        from + (to - from) * ((i * WIDTH + lane) as f64 / 200_000.0)
                    });
                    let y: [Numbers; 5] = ours(&x);
                    for (x, y) in x.iter().zip(y[which]) {
                        let want = theirs[which](*x);
                        worst_ulp = worst_ulp.max((y - want).abs() / (want.abs().max(1e-300) * f64::EPSILON));
                    }
                }
                println!("{name}, {kind}: {worst_ulp:.2} units in the last place");
                assert!(worst_ulp <= 2.0, "{name}, {kind}: {worst_ulp}");
            }
        }
    }
}
