//! Sines and cosines of eight arguments at once, branch-free so that the compiler can keep them in vector registers.

const SHIFT: f64 = 6_755_399_441_055_744.0;
const PI_HIGH: f64 = std::f64::consts::PI;
const PI_LOW: f64 = 1.224_646_799_147_353_2e-16;

#[inline(always)]
pub(crate) fn fma<const F: bool>(a: f64, b: f64, c: f64) -> f64 {
    if F { a.mul_add(b, c) } else { a * b + c }
}

/// Sine and cosine; |x| up to some thousands of radians, error below 1e-12.
#[inline(always)]
pub(crate) fn sin_cos<const F: bool>(x: f64) -> (f64, f64) {
    let t = fma::<F>(x, std::f64::consts::FRAC_1_PI, SHIFT);
    let n = t - SHIFT;
    let r = fma::<F>(n, -PI_LOW, fma::<F>(n, -PI_HIGH, x));
    let flip = t.to_bits() << 63;
    let z = r * r;
    let mut s = 2.811_457_254_345_520_6e-15;
    for c in [
        -7.647_163_731_819_816e-13,
        1.605_904_383_682_161_3e-10,
        -2.505_210_838_544_172e-8,
        2.755_731_922_398_589e-6,
        -1.984_126_984_126_984e-4,
        8.333_333_333_333_333e-3,
        -1.666_666_666_666_666_6e-1,
        1.0,
    ] {
        s = fma::<F>(s, z, c);
    }
    let mut c = -1.561_920_696_858_622_6e-16;
    for k in [
        4.779_477_332_387_385e-14,
        -1.147_074_559_772_972_5e-11,
        2.087_675_698_786_81e-9,
        -2.755_731_922_398_589e-7,
        2.480_158_730_158_73e-5,
        -1.388_888_888_888_889e-3,
        4.166_666_666_666_666_4e-2,
        -0.5,
        1.0,
    ] {
        c = fma::<F>(c, z, k);
    }
    (
        f64::from_bits((s * r).to_bits() ^ flip),
        f64::from_bits(c.to_bits() ^ flip),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn verif_against_the_standard_library() {
        for i in -20_000..20_000 {
            let x = f64::from(i) * 0.017_3;
            for (s, c) in [sin_cos::<true>(x), sin_cos::<false>(x)] {
                assert!((s - x.sin()).abs() < 1e-12 && (c - x.cos()).abs() < 1e-12, "{x}");
            }
        }
    }
}
