//! A lane: the number a closed-form step is written in, one receiver or several at a time.
//!
//! Every closed-form step of P.1812 is written once, generic over [`Lane`]. With `f64` it is the plain method; with a [`Vector`]
//! the same lines of code work out eight receivers side by side. Which vector is found out at run time: the widest the
//! processor has, and plain arrays elsewhere.

use std::ops::{Add, BitAnd, BitOr, Div, Mul, Neg, Not, Sub};

mod functions;
pub mod wide;
#[cfg(target_arch = "x86_64")]
pub(crate) mod x86;

/// Receivers side by side in a [`Vector`].
pub const WIDTH: usize = 8;

/// One number for each receiver of a [`Vector`].
pub type Numbers = [f64; WIDTH];

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

/// A lane of [`WIDTH`] numbers.
pub trait Vector: Lane {
    /// From memory.
    fn load(from: &Numbers) -> Self;
    /// To memory.
    fn store(self) -> Numbers;
    /// The mask's truth values.
    fn truths(mask: Self::Mask) -> [bool; WIDTH];
    /// `self · factor + addend`, fused where the processor does that quickly.
    fn fma(self, factor: Self, addend: Self) -> Self;
    /// Two to the power of the whole number in the low bits, for numbers that had 1.5 · 2⁵² added.
    fn power_of_two(self) -> Self;
    /// `(k, m)` with `self = 2ᵏ m` and `√½ ≤ m < √2`.
    fn exponent_and_fraction(self) -> (Self, Self);
}

/// Defines a function that runs its generic twin in the widest vector the processor has.
///
/// `fn name(arguments) -> output = twin;`: the twin takes the vector type as its only generic parameter.
macro_rules! widest {
    ($($(#[$meta:meta])* $seen:vis fn $name:ident($($argument:ident: $kind:ty),* $(,)?) -> $output:ty = $twin:ident;)*) => {$(
        $(#[$meta])*
        #[multiversion::multiversion(targets("x86_64+avx512f+avx512dq+avx2+fma", "x86_64+avx2+fma"))]
        $seen fn $name($($argument: $kind),*) -> $output {
            #[cfg(target_arch = "x86_64")]
            if multiversion::target::target_cfg_f!(target_feature = "avx512dq") {
                return $twin::<$crate::lane::x86::Avx512>($($argument),*);
            } else if multiversion::target::target_cfg_f!(target_feature = "avx2") {
                return $twin::<$crate::lane::x86::Avx2>($($argument),*);
            }
            $twin::<$crate::lane::wide::Wide>($($argument),*)
        }
    )*};
}
pub(crate) use widest;

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
