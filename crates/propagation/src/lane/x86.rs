//! Eight numbers side by side in the vector registers of x86-64 processors.
//!
//! The types stay inside the crate and are named in one place only, the [`widest`](super::widest) macro, in functions compiled
//! for the features these instructions need and entered after the processor was asked for them. That is what each
//! `unsafe` below rests on.
#![allow(clippy::undocumented_unsafe_blocks, reason = "one reason for all, above")]

use super::functions::{self, SHIFT};
use super::wide::SQRT_HALF_BITS;
use super::{Lane, Numbers, Vector, WIDTH};
use std::arch::x86_64::*;
use std::ops::{Add, BitAnd, BitOr, Div, Mul, Neg, Not, Sub};

/// One register of AVX-512.
#[derive(Debug, Clone, Copy)]
pub struct Avx512(__m512d);

/// Eight truth values in a mask register.
#[derive(Debug, Clone, Copy)]
pub struct Mask512(u8);

/// Two registers of AVX2.
#[derive(Debug, Clone, Copy)]
pub struct Avx2(__m256d, __m256d);

/// Eight truth values, all bits of a number set or none.
#[derive(Debug, Clone, Copy)]
pub struct Mask2(__m256d, __m256d);

macro_rules! operators {
    ($kind:ident: $($trait:ident $function:ident $in512:ident $in256:ident),*) => {$(
        impl $trait for Avx512 {
            type Output = Self;
            #[inline(always)]
            fn $function(self, o: Self) -> Self {
                Avx512(unsafe { $in512(self.0, o.0) })
            }
        }
        impl $trait for Avx2 {
            type Output = Self;
            #[inline(always)]
            fn $function(self, o: Self) -> Self {
                unsafe { Avx2($in256(self.0, o.0), $in256(self.1, o.1)) }
            }
        }
    )*};
}

operators!(numbers:
    Add add _mm512_add_pd _mm256_add_pd,
    Sub sub _mm512_sub_pd _mm256_sub_pd,
    Mul mul _mm512_mul_pd _mm256_mul_pd,
    Div div _mm512_div_pd _mm256_div_pd
);

impl Neg for Avx512 {
    type Output = Self;
    #[inline(always)]
    fn neg(self) -> Self {
        Avx512(unsafe { _mm512_xor_pd(self.0, _mm512_set1_pd(-0.0)) })
    }
}

impl Neg for Avx2 {
    type Output = Self;
    #[inline(always)]
    fn neg(self) -> Self {
        unsafe {
            let sign = _mm256_set1_pd(-0.0);
            Avx2(_mm256_xor_pd(self.0, sign), _mm256_xor_pd(self.1, sign))
        }
    }
}

impl BitAnd for Mask512 {
    type Output = Self;
    #[inline(always)]
    fn bitand(self, o: Self) -> Self {
        Mask512(self.0 & o.0)
    }
}

impl BitOr for Mask512 {
    type Output = Self;
    #[inline(always)]
    fn bitor(self, o: Self) -> Self {
        Mask512(self.0 | o.0)
    }
}

impl Not for Mask512 {
    type Output = Self;
    #[inline(always)]
    fn not(self) -> Self {
        Mask512(!self.0)
    }
}

impl BitAnd for Mask2 {
    type Output = Self;
    #[inline(always)]
    fn bitand(self, o: Self) -> Self {
        unsafe { Mask2(_mm256_and_pd(self.0, o.0), _mm256_and_pd(self.1, o.1)) }
    }
}

impl BitOr for Mask2 {
    type Output = Self;
    #[inline(always)]
    fn bitor(self, o: Self) -> Self {
        unsafe { Mask2(_mm256_or_pd(self.0, o.0), _mm256_or_pd(self.1, o.1)) }
    }
}

impl Not for Mask2 {
    type Output = Self;
    #[inline(always)]
    fn not(self) -> Self {
        unsafe {
            let all = _mm256_castsi256_pd(_mm256_set1_epi64x(-1));
            Mask2(_mm256_xor_pd(self.0, all), _mm256_xor_pd(self.1, all))
        }
    }
}

/// The functions that do not depend on the register.
macro_rules! shared_functions {
    () => {
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
    };
}

impl Lane for Avx512 {
    type Mask = Mask512;

    #[inline(always)]
    fn splat(x: f64) -> Self {
        Avx512(unsafe { _mm512_set1_pd(x) })
    }
    #[inline(always)]
    fn lt(self, o: Self) -> Mask512 {
        Mask512(unsafe { _mm512_cmp_pd_mask::<_CMP_LT_OQ>(self.0, o.0) })
    }
    #[inline(always)]
    fn select(mask: Mask512, yes: Self, no: Self) -> Self {
        Avx512(unsafe { _mm512_mask_blend_pd(mask.0, no.0, yes.0) })
    }
    #[inline(always)]
    fn any(mask: Mask512) -> bool {
        mask.0 != 0
    }
    #[inline(always)]
    fn max(self, o: Self) -> Self {
        Avx512(unsafe { _mm512_max_pd(self.0, o.0) })
    }
    #[inline(always)]
    fn min(self, o: Self) -> Self {
        Avx512(unsafe { _mm512_min_pd(self.0, o.0) })
    }
    #[inline(always)]
    fn sqrt(self) -> Self {
        Avx512(unsafe { _mm512_sqrt_pd(self.0) })
    }
    #[inline(always)]
    fn abs(self) -> Self {
        Avx512(unsafe { _mm512_abs_pd(self.0) })
    }
    shared_functions!();
}

impl Vector for Avx512 {
    #[inline(always)]
    fn load(from: &Numbers) -> Self {
        Avx512(unsafe { _mm512_loadu_pd(from.as_ptr()) })
    }
    #[inline(always)]
    fn store(self) -> Numbers {
        let mut to = [0.0; WIDTH];
        unsafe { _mm512_storeu_pd(to.as_mut_ptr(), self.0) };
        to
    }
    #[inline(always)]
    fn truths(mask: Mask512) -> [bool; WIDTH] {
        std::array::from_fn(|lane| mask.0 >> lane & 1 == 1)
    }
    #[inline(always)]
    fn fma(self, factor: Self, addend: Self) -> Self {
        Avx512(unsafe { _mm512_fmadd_pd(self.0, factor.0, addend.0) })
    }
    #[inline(always)]
    fn power_of_two(self) -> Self {
        unsafe {
            let shifted = _mm512_slli_epi64::<52>(_mm512_castpd_si512(self.0));
            Avx512(_mm512_castsi512_pd(_mm512_add_epi64(
                shifted,
                _mm512_set1_epi64(1023 << 52),
            )))
        }
    }
    #[inline(always)]
    fn exponent_and_fraction(self) -> (Self, Self) {
        unsafe {
            let x = _mm512_castpd_si512(self.0);
            let bits = _mm512_sub_epi64(x, _mm512_set1_epi64(SQRT_HALF_BITS as i64));
            let k = _mm512_cvtepi64_pd(_mm512_srai_epi64::<52>(bits));
            let whole = _mm512_and_si512(bits, _mm512_set1_epi64(0xfff << 52));
            (Avx512(k), Avx512(_mm512_castsi512_pd(_mm512_sub_epi64(x, whole))))
        }
    }
}

impl Lane for Avx2 {
    type Mask = Mask2;

    #[inline(always)]
    fn splat(x: f64) -> Self {
        unsafe { Avx2(_mm256_set1_pd(x), _mm256_set1_pd(x)) }
    }
    #[inline(always)]
    fn lt(self, o: Self) -> Mask2 {
        unsafe {
            Mask2(
                _mm256_cmp_pd::<_CMP_LT_OQ>(self.0, o.0),
                _mm256_cmp_pd::<_CMP_LT_OQ>(self.1, o.1),
            )
        }
    }
    #[inline(always)]
    fn select(mask: Mask2, yes: Self, no: Self) -> Self {
        unsafe {
            Avx2(
                _mm256_blendv_pd(no.0, yes.0, mask.0),
                _mm256_blendv_pd(no.1, yes.1, mask.1),
            )
        }
    }
    #[inline(always)]
    fn any(mask: Mask2) -> bool {
        unsafe { _mm256_movemask_pd(_mm256_or_pd(mask.0, mask.1)) != 0 }
    }
    #[inline(always)]
    fn max(self, o: Self) -> Self {
        unsafe { Avx2(_mm256_max_pd(self.0, o.0), _mm256_max_pd(self.1, o.1)) }
    }
    #[inline(always)]
    fn min(self, o: Self) -> Self {
        unsafe { Avx2(_mm256_min_pd(self.0, o.0), _mm256_min_pd(self.1, o.1)) }
    }
    #[inline(always)]
    fn sqrt(self) -> Self {
        unsafe { Avx2(_mm256_sqrt_pd(self.0), _mm256_sqrt_pd(self.1)) }
    }
    #[inline(always)]
    fn abs(self) -> Self {
        unsafe {
            let sign = _mm256_set1_pd(-0.0);
            Avx2(_mm256_andnot_pd(sign, self.0), _mm256_andnot_pd(sign, self.1))
        }
    }
    shared_functions!();
}

impl Vector for Avx2 {
    #[inline(always)]
    fn load(from: &Numbers) -> Self {
        unsafe {
            Avx2(
                _mm256_loadu_pd(from.as_ptr()),
                _mm256_loadu_pd(from[4..].as_ptr()),
            )
        }
    }
    #[inline(always)]
    fn store(self) -> Numbers {
        let mut to = [0.0; WIDTH];
        unsafe {
            _mm256_storeu_pd(to.as_mut_ptr(), self.0);
            _mm256_storeu_pd(to[4..].as_mut_ptr(), self.1);
        }
        to
    }
    #[inline(always)]
    fn truths(mask: Mask2) -> [bool; WIDTH] {
        let bits = unsafe { _mm256_movemask_pd(mask.0) | _mm256_movemask_pd(mask.1) << 4 };
        std::array::from_fn(|lane| bits >> lane & 1 == 1)
    }
    #[inline(always)]
    fn fma(self, factor: Self, addend: Self) -> Self {
        unsafe {
            Avx2(
                _mm256_fmadd_pd(self.0, factor.0, addend.0),
                _mm256_fmadd_pd(self.1, factor.1, addend.1),
            )
        }
    }
    #[inline(always)]
    fn power_of_two(self) -> Self {
        unsafe { Avx2(power_of_two(self.0), power_of_two(self.1)) }
    }
    #[inline(always)]
    fn exponent_and_fraction(self) -> (Self, Self) {
        unsafe {
            let (k0, m0) = exponent_and_fraction(self.0);
            let (k1, m1) = exponent_and_fraction(self.1);
            (Avx2(k0, k1), Avx2(m0, m1))
        }
    }
}

#[inline(always)]
unsafe fn power_of_two(t: __m256d) -> __m256d {
    unsafe {
        let shifted = _mm256_slli_epi64::<52>(_mm256_castpd_si256(t));
        _mm256_castsi256_pd(_mm256_add_epi64(shifted, _mm256_set1_epi64x(1023 << 52)))
    }
}

/// AVX2 has neither an arithmetic shift of 64-bit numbers nor their conversion: the exponent is moved to the low bits of a
/// number near 1.5 · 2⁵² instead.
#[inline(always)]
unsafe fn exponent_and_fraction(x: __m256d) -> (__m256d, __m256d) {
    unsafe {
        let x = _mm256_castpd_si256(x);
        let bits = _mm256_sub_epi64(x, _mm256_set1_epi64x(SQRT_HALF_BITS as i64));
        // 2048 keeps the exponent positive through the logical shift.
        let raised = _mm256_add_epi64(bits, _mm256_set1_epi64x(i64::MIN));
        let k = _mm256_add_epi64(_mm256_srli_epi64::<52>(raised), _mm256_set1_epi64x(0x4338 << 48));
        let k = _mm256_sub_pd(_mm256_castsi256_pd(k), _mm256_set1_pd(SHIFT + 2048.0));
        let whole = _mm256_and_si256(bits, _mm256_set1_epi64x(0xfff << 52));
        (k, _mm256_castsi256_pd(_mm256_sub_epi64(x, whole)))
    }
}
