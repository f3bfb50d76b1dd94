//! Eight numbers side by side on any processor: plain loops over an array.

use super::functions::{self, SHIFT};
use super::{Lane, Numbers, Vector, WIDTH};
use std::ops::{Add, BitAnd, BitOr, Div, Mul, Neg, Not, Sub};

/// Eight numbers that go through a formula together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wide(pub Numbers);

/// Eight truth values.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WideMask([bool; WIDTH]);

macro_rules! operator {
    ($trait:ident, $function:ident, $kind:ident, $op:tt) => {
        impl $trait for $kind {
            type Output = Self;
            #[inline(always)]
            fn $function(self, o: Self) -> Self {
                $kind(std::array::from_fn(|i| self.0[i] $op o.0[i]))
            }
        }
    };
}

operator!(Add, add, Wide, +);
operator!(Sub, sub, Wide, -);
operator!(Mul, mul, Wide, *);
operator!(Div, div, Wide, /);
operator!(BitAnd, bitand, WideMask, &);
operator!(BitOr, bitor, WideMask, |);

impl Neg for Wide {
    type Output = Self;
    #[inline(always)]
    fn neg(self) -> Self {
        Wide(self.0.map(|x| -x))
    }
}
impl Not for WideMask {
    type Output = Self;
    #[inline(always)]
    fn not(self) -> Self {
        WideMask(self.0.map(|b| !b))
    }
}

impl Lane for Wide {
    type Mask = WideMask;

    #[inline(always)]
    fn splat(x: f64) -> Self {
        Wide([x; WIDTH])
    }
    #[inline(always)]
    fn lt(self, o: Self) -> WideMask {
        WideMask(std::array::from_fn(|i| self.0[i] < o.0[i]))
    }
    #[inline(always)]
    fn select(mask: WideMask, yes: Self, no: Self) -> Self {
        Wide(std::array::from_fn(
            |i| if mask.0[i] { yes.0[i] } else { no.0[i] },
        ))
    }
    #[inline(always)]
    fn any(mask: WideMask) -> bool {
        mask.0.contains(&true)
    }
    #[inline(always)]
    fn max(self, o: Self) -> Self {
        Wide(std::array::from_fn(|i| {
            if self.0[i] > o.0[i] { self.0[i] } else { o.0[i] }
        }))
    }
    #[inline(always)]
    fn min(self, o: Self) -> Self {
        Wide(std::array::from_fn(|i| {
            if self.0[i] < o.0[i] { self.0[i] } else { o.0[i] }
        }))
    }
    #[inline(always)]
    fn sqrt(self) -> Self {
        Wide(self.0.map(f64::sqrt))
    }
    #[inline(always)]
    fn abs(self) -> Self {
        Wide(self.0.map(f64::abs))
    }
    #[inline(always)]
    fn exp(self) -> Self {
        functions::exp(self)
    }
    #[inline(always)]
    fn ln(self) -> Self {
        functions::ln(self)
    }
    #[inline(always)]
    fn atan(self) -> Self {
        functions::atan(self)
    }
    #[inline(always)]
    fn sin_small(self) -> Self {
        functions::sin_small(self)
    }
    #[inline(always)]
    fn cos_small(self) -> Self {
        functions::cos_small(self)
    }
}

impl Vector for Wide {
    #[inline(always)]
    fn load(from: &Numbers) -> Self {
        Wide(*from)
    }
    #[inline(always)]
    fn store(self) -> Numbers {
        self.0
    }
    #[inline(always)]
    fn truths(mask: WideMask) -> [bool; WIDTH] {
        mask.0
    }
    /// Multiplication and addition one after the other: fused ones are slow where the processor has none.
    #[inline(always)]
    fn fma(self, factor: Self, addend: Self) -> Self {
        self * factor + addend
    }
    #[inline(always)]
    fn power_of_two(self) -> Self {
        Wide(
            self.0
                .map(|t| f64::from_bits((t.to_bits() << 52).wrapping_add(1023 << 52))),
        )
    }
    #[inline(always)]
    fn exponent_and_fraction(self) -> (Self, Self) {
        let bits = self.0.map(|x| x.to_bits().wrapping_sub(SQRT_HALF_BITS));
        let exponent =
            bits.map(|b| f64::from_bits(((b as i64 >> 52) as u64).wrapping_add(0x4338 << 48)) - SHIFT);
        let fraction = std::array::from_fn(|i| {
            f64::from_bits(self.0[i].to_bits().wrapping_sub(bits[i] & (0xfff << 52)))
        });
        (Wide(exponent), Wide(fraction))
    }
}

/// Bits of √½, so that the fraction lies from √½ to √2.
pub const SQRT_HALF_BITS: u64 = 0x3fe6_a09e_667f_3bcd;
