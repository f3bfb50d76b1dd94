//! A lane: the number a closed-form step is written in, one receiver or several at a time.
//!
//! Every closed-form step of P.1812 is written once, generic over [`Lane`]. With `f64` it is the plain method; with
//! [`Wide`](wide::Wide) the same lines of code work out eight receivers side by side.

use std::ops::{Add, BitAnd, BitOr, Div, Mul, Neg, Not, Sub};

pub mod wide;

/// Natural logarithm of ten, ln 10.
pub const LN_10: f64 = std::f64::consts::LN_10;

/// One or several real numbers that go through the same formula together.
///
/// Comparisons give a [`Mask`](Lane::Mask), and a step chooses between two results with [`select`](Lane::select): both are
/// evaluated, so a value that is not chosen may be infinite or not a number without harm.
pub trait Lane:
    Copy + Add<Output = Self> + Sub<Output = Self> + Mul<Output = Self> + Div<Output = Self> + Neg<Output = Self>
{
    /// One truth value for each number in the lane.
    type Mask: Copy + BitAnd<Output = Self::Mask> + BitOr<Output = Self::Mask> + Not<Output = Self::Mask>;

    /// The same number in every place.
    fn splat(x: f64) -> Self;
    /// Where `self < other`.
    fn lt(self, other: Self) -> Self::Mask;
    /// `yes` where the mask holds, else `no`.
    fn select(mask: Self::Mask, yes: Self, no: Self) -> Self;
    /// Whether the mask holds anywhere.
    fn any(mask: Self::Mask) -> bool;
    /// The larger of two.
    fn max(self, other: Self) -> Self;
    /// The smaller of two.
    fn min(self, other: Self) -> Self;
    /// Square root.
    fn sqrt(self) -> Self;
    /// Magnitude.
    fn abs(self) -> Self;
    /// Natural exponential; overflow saturates.
    fn exp(self) -> Self;
    /// Natural logarithm of a positive, normal number.
    fn ln(self) -> Self;
    /// Arc tangent, in radians.
    fn atan(self) -> Self;
    /// Sine of an angle within ±π/4 radians.
    fn sin_small(self) -> Self;
    /// Cosine of an angle within ±π/4 radians.
    fn cos_small(self) -> Self;

    /// Where `self >= other`.
    #[inline(always)]
    fn ge(self, other: Self) -> Self::Mask {
        !self.lt(other)
    }
    /// Logarithm to base ten of a positive, normal number.
    #[inline(always)]
    fn log10(self) -> Self {
        self.ln() * Self::splat(1.0 / LN_10)
    }
    /// Ten to this power.
    #[inline(always)]
    fn pow10(self) -> Self {
        (self * Self::splat(LN_10)).exp()
    }
    /// A positive, normal number to a real power.
    #[inline(always)]
    fn powf(self, power: Self) -> Self {
        (self.ln() * power).exp()
    }
    /// Hyperbolic tangent.
    #[inline(always)]
    fn tanh(self) -> Self {
        let one = Self::splat(1.0);
        one - Self::splat(2.0) / ((self + self).exp() + one)
    }
    /// Arc cosine of a number within ±1, in radians.
    #[inline(always)]
    fn acos(self) -> Self {
        let one = Self::splat(1.0);
        let tiny = Self::splat(f64::MIN_POSITIVE);
        let half = ((one - self).max(Self::splat(0.0)) / (one + self).max(tiny)).sqrt();
        half.atan() * Self::splat(2.0)
    }
    /// Arc sine of a number within ±1, in radians.
    #[inline(always)]
    fn asin(self) -> Self {
        let one = Self::splat(1.0);
        let cosine = ((one - self) * (one + self))
            .max(Self::splat(f64::MIN_POSITIVE))
            .sqrt();
        (self / cosine).atan()
    }
}

impl Lane for f64 {
    type Mask = bool;

    #[inline(always)]
    fn splat(x: f64) -> f64 {
        x
    }
    #[inline(always)]
    fn lt(self, other: f64) -> bool {
        self < other
    }
    #[inline(always)]
    fn select(mask: bool, yes: f64, no: f64) -> f64 {
        if mask { yes } else { no }
    }
    #[inline(always)]
    fn any(mask: bool) -> bool {
        mask
    }
    #[inline(always)]
    fn max(self, other: f64) -> f64 {
        if self > other { self } else { other }
    }
    #[inline(always)]
    fn min(self, other: f64) -> f64 {
        if self < other { self } else { other }
    }
    #[inline(always)]
    fn sqrt(self) -> f64 {
        self.sqrt()
    }
    #[inline(always)]
    fn abs(self) -> f64 {
        self.abs()
    }
    #[inline(always)]
    fn exp(self) -> f64 {
        self.exp()
    }
    #[inline(always)]
    fn ln(self) -> f64 {
        self.ln()
    }
    #[inline(always)]
    fn atan(self) -> f64 {
        self.atan()
    }
    #[inline(always)]
    fn sin_small(self) -> f64 {
        self.sin()
    }
    #[inline(always)]
    fn cos_small(self) -> f64 {
        self.cos()
    }
}
