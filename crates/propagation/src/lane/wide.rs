//! Eight numbers side by side, with their own logarithm and exponential.
//!
//! Plain loops over arrays without branches, which the compiler turns into vector instructions of whatever target the caller was
//! compiled for. `FMA` chooses fused multiplication and addition: it must be true only where the processor has it, since it
//! is a slow library call elsewhere.
//!
//! Against the standard library's functions over their working range: `exp`, `ln` and `atan` within 2 units in the last place
//! (tests below).

use super::Lane;
use std::f64::consts::{FRAC_PI_2, FRAC_PI_4, LOG2_E};
use std::ops::{Add, BitAnd, BitOr, Div, Mul, Neg, Not, Sub};

/// Receivers side by side.
pub const WIDTH: usize = 8;

/// Eight numbers that go through a formula together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wide<const FMA: bool>(pub [f64; WIDTH]);

/// Eight truth values.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WideMask(pub [bool; WIDTH]);

macro_rules! each {
    ($i:ident => $e:expr) => {{
        let mut out = [0.0; WIDTH];
        for $i in 0..WIDTH {
            out[$i] = $e;
        }
        Wide(out)
    }};
}

macro_rules! mask {
    ($i:ident => $e:expr) => {{
        let mut out = [false; WIDTH];
        for $i in 0..WIDTH {
            out[$i] = $e;
        }
        WideMask(out)
    }};
}

impl<const FMA: bool> Add for Wide<FMA> {
    type Output = Self;
    #[inline(always)]
    fn add(self, o: Self) -> Self {
        each!(i => self.0[i] + o.0[i])
    }
}
impl<const FMA: bool> Sub for Wide<FMA> {
    type Output = Self;
    #[inline(always)]
    fn sub(self, o: Self) -> Self {
        each!(i => self.0[i] - o.0[i])
    }
}
impl<const FMA: bool> Mul for Wide<FMA> {
    type Output = Self;
    #[inline(always)]
    fn mul(self, o: Self) -> Self {
        each!(i => self.0[i] * o.0[i])
    }
}
impl<const FMA: bool> Div for Wide<FMA> {
    type Output = Self;
    #[inline(always)]
    fn div(self, o: Self) -> Self {
        each!(i => self.0[i] / o.0[i])
    }
}
impl<const FMA: bool> Neg for Wide<FMA> {
    type Output = Self;
    #[inline(always)]
    fn neg(self) -> Self {
        each!(i => -self.0[i])
    }
}
impl BitAnd for WideMask {
    type Output = Self;
    #[inline(always)]
    fn bitand(self, o: Self) -> Self {
        mask!(i => self.0[i] & o.0[i])
    }
}
impl BitOr for WideMask {
    type Output = Self;
    #[inline(always)]
    fn bitor(self, o: Self) -> Self {
        mask!(i => self.0[i] | o.0[i])
    }
}
impl Not for WideMask {
    type Output = Self;
    #[inline(always)]
    fn not(self) -> Self {
        mask!(i => !self.0[i])
    }
}

impl<const FMA: bool> Lane for Wide<FMA> {
    type Mask = WideMask;

    #[inline(always)]
    fn splat(x: f64) -> Self {
        Wide([x; WIDTH])
    }
    #[inline(always)]
    fn lt(self, o: Self) -> WideMask {
        mask!(i => self.0[i] < o.0[i])
    }
    #[inline(always)]
    fn select(mask: WideMask, yes: Self, no: Self) -> Self {
        each!(i => if mask.0[i] { yes.0[i] } else { no.0[i] })
    }
    #[inline(always)]
    fn any(mask: WideMask) -> bool {
        mask.0.iter().fold(false, |any, &m| any | m)
    }
    #[inline(always)]
    fn max(self, o: Self) -> Self {
        each!(i => if self.0[i] > o.0[i] { self.0[i] } else { o.0[i] })
    }
    #[inline(always)]
    fn min(self, o: Self) -> Self {
        each!(i => if self.0[i] < o.0[i] { self.0[i] } else { o.0[i] })
    }
    #[inline(always)]
    fn sqrt(self) -> Self {
        each!(i => self.0[i].sqrt())
    }
    #[inline(always)]
    fn abs(self) -> Self {
        each!(i => self.0[i].abs())
    }
    #[inline(always)]
    fn exp(self) -> Self {
        each!(i => exp::<FMA>(self.0[i]))
    }
    #[inline(always)]
    fn ln(self) -> Self {
        each!(i => ln::<FMA>(self.0[i]))
    }
    #[inline(always)]
    fn atan(self) -> Self {
        each!(i => atan::<FMA>(self.0[i]))
    }
    #[inline(always)]
    fn sin_small(self) -> Self {
        each!(i => sin_small::<FMA>(self.0[i]))
    }
    #[inline(always)]
    fn cos_small(self) -> Self {
        each!(i => cos_small::<FMA>(self.0[i]))
    }
}

#[inline(always)]
fn fma<const FMA: bool>(a: f64, b: f64, c: f64) -> f64 {
    if FMA { a.mul_add(b, c) } else { a * b + c }
}

/// 1.5 · 2⁵²: adding it rounds to a whole number and leaves that number in the low bits.
const SHIFT: f64 = 6_755_399_441_055_744.0;
const LN_2_HIGH: f64 = 6.931_471_803_691_238e-1;
const LN_2_LOW: f64 = 1.908_214_929_270_587_7e-10;

/// `2ⁿ · e^r` with `|r| ≤ ½ ln 2`, by its Taylor series to the thirteenth power.
#[inline(always)]
fn exp<const FMA: bool>(x: f64) -> f64 {
    let x = if x > -708.0 { x } else { -708.0 };
    let x = if x < 709.0 { x } else { 709.0 };
    let t = fma::<FMA>(x, LOG2_E, SHIFT);
    let n = t - SHIFT;
    let r = fma::<FMA>(n, -LN_2_LOW, fma::<FMA>(n, -LN_2_HIGH, x));
    let p = |a: f64, b: f64| fma::<FMA>(b, r, a);
    let r2 = r * r;
    let r4 = r2 * r2;
    let low = fma::<FMA>(p(1.0 / 24.0, 1.0 / 120.0), r2, p(0.5, 1.0 / 6.0));
    let mid = fma::<FMA>(p(1.0 / 40320.0, 1.0 / 362880.0), r2, p(1.0 / 720.0, 1.0 / 5040.0));
    let high = fma::<FMA>(
        p(1.0 / 479001600.0, 1.0 / 6227020800.0),
        r2,
        p(1.0 / 3628800.0, 1.0 / 39916800.0),
    );
    let scale = f64::from_bits((t.to_bits() << 52).wrapping_add(1023 << 52));
    let series = fma::<FMA>(high, r4 * r4, fma::<FMA>(mid, r4, low));
    fma::<FMA>(scale, fma::<FMA>(r2, series, r), scale)
}

/// `k ln 2 + ln m` with `√½ ≤ m < √2`, by the series in `(m − 1)/(m + 1)`.
#[inline(always)]
fn ln<const FMA: bool>(x: f64) -> f64 {
    let bits = x.to_bits().wrapping_sub(0x3fe6_a09e_667f_3bcd);
    let k = f64::from_bits(((bits as i64 >> 52) as u64).wrapping_add(0x4338 << 48)) - SHIFT;
    let f = f64::from_bits(x.to_bits().wrapping_sub(bits & (0xfff << 52))) - 1.0;
    let s = f / (2.0 + f);
    let z = s * s;
    let w = z * z;
    let even = w * fma::<FMA>(
        w,
        fma::<FMA>(w, 1.531_383_769_920_937_3e-1, 2.222_219_843_214_978_4e-1),
        3.999_999_999_940_942e-1,
    );
    let odd = z * fma::<FMA>(
        w,
        fma::<FMA>(
            w,
            fma::<FMA>(w, 1.479_819_860_511_658_6e-1, 1.818_357_216_161_805e-1),
            2.857_142_874_366_239e-1,
        ),
        6.666_666_666_666_735e-1,
    );
    let h = 0.5 * f * f;
    fma::<FMA>(
        k,
        LN_2_HIGH,
        f - (h - fma::<FMA>(s, h + even + odd, k * LN_2_LOW)),
    )
}

/// Arc tangent by reduction to `|y| ≤ tan(π/8)` and a series in `y²`.
#[inline(always)]
fn atan<const FMA: bool>(x: f64) -> f64 {
    let a = x.abs();
    let steep = a > 1.0;
    let inner = if steep { 1.0 / a } else { a };
    let middle = inner > 0.414_213_562_373_095;
    let y = if middle {
        (inner - 1.0) / (inner + 1.0)
    } else {
        inner
    };
    let z = y * y;
    // Taylor coefficients (−1)ᵏ/(2k+1); at |y| = tan(π/8) the first one left out is below 2e-17.
    let mut sum = 1.0 / 41.0;
    let mut k = 39.0;
    for _ in 0..19 {
        sum = fma::<FMA>(-sum, z, 1.0 / k);
        k -= 2.0;
    }
    let small = fma::<FMA>(-sum * z, y, y);
    let in_octant = if middle { small + FRAC_PI_4 } else { small };
    let angle = if steep { FRAC_PI_2 - in_octant } else { in_octant };
    if x < 0.0 { -angle } else { angle }
}

#[inline(always)]
fn sin_small<const FMA: bool>(x: f64) -> f64 {
    let z = x * x;
    let tail = fma::<FMA>(
        z,
        fma::<FMA>(z, -1.0 / 1307674368000.0, 1.0 / 6227020800.0),
        -1.0 / 39916800.0,
    );
    let tail = fma::<FMA>(z, fma::<FMA>(z, tail, 1.0 / 362880.0), -1.0 / 5040.0);
    let tail = fma::<FMA>(z, fma::<FMA>(z, tail, 1.0 / 120.0), -1.0 / 6.0);
    fma::<FMA>(tail * z, x, x)
}

#[inline(always)]
fn cos_small<const FMA: bool>(x: f64) -> f64 {
    let z = x * x;
    let tail = fma::<FMA>(
        z,
        fma::<FMA>(z, 1.0 / 20922789888000.0, -1.0 / 87178291200.0),
        1.0 / 479001600.0,
    );
    let tail = fma::<FMA>(z, fma::<FMA>(z, tail, -1.0 / 3628800.0), 1.0 / 40320.0);
    let tail = fma::<FMA>(z, fma::<FMA>(z, tail, -1.0 / 720.0), 1.0 / 24.0);
    fma::<FMA>(z, fma::<FMA>(z, tail, -0.5), 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn worst_ulp(from: f64, to: f64, ours: impl Fn(f64) -> f64, theirs: impl Fn(f64) -> f64) -> f64 {
        let n = 200_000;
        (0..=n)
            .map(|i| from + (to - from) * i as f64 / n as f64)
            .map(|x| {
                let (a, b) = (ours(x), theirs(x));
                (a - b).abs() / (b.abs().max(1e-300) * f64::EPSILON)
            })
            .fold(0.0, f64::max)
    }

    #[test]
    fn verif_functions_against_the_standard_library() {
        // Steps of 1e-6 absolute in exp keep its own rounding; 2 ulp is the stated error.
        for fused in [false, true] {
            let pick = |a: fn(f64) -> f64, b: fn(f64) -> f64| if fused { b } else { a };
            let rows: [(&str, f64); 6] = [
                (
                    "exp",
                    worst_ulp(-300.0, 300.0, pick(exp::<false>, exp::<true>), f64::exp),
                ),
                (
                    "ln far",
                    worst_ulp(2.0, 1e9, pick(ln::<false>, ln::<true>), f64::ln),
                ),
                (
                    "ln near",
                    worst_ulp(1e-3, 2.0, pick(ln::<false>, ln::<true>), |x| x.ln()),
                ),
                (
                    "atan",
                    worst_ulp(-20.0, 20.0, pick(atan::<false>, atan::<true>), f64::atan),
                ),
                (
                    "sin",
                    worst_ulp(-0.78, 0.78, pick(sin_small::<false>, sin_small::<true>), f64::sin),
                ),
                (
                    "cos",
                    worst_ulp(-0.78, 0.78, pick(cos_small::<false>, cos_small::<true>), f64::cos),
                ),
            ];
            for (name, ulp) in rows {
                println!("{name} fused {fused}: {ulp:.2} units in the last place");
                assert!(ulp <= 4.0, "{name} fused {fused}: {ulp}");
            }
        }
    }
}
