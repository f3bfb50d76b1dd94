//! Sums over many directions, and the power at which enough people are reached.

use num_complex::Complex64 as C64;

/// Fields of one bay towards many directions.
pub(super) struct Parts {
    pub(super) re: Vec<f32>,
    pub(super) im: Vec<f32>,
}

/// The least power, dBW, with which enough people are reached, and how many those are; `high` is one that reaches them. People grow
/// with power: a bracket and false positions (Illinois).
pub(super) fn least_dbw(people_at: &mut impl FnMut(f64) -> f64, enough: f64, high: (f64, f64)) -> (f64, f64) {
    const TO_DB: f64 = 0.002;
    let (mut high, mut step) = (high, 0.5);
    let mut low = loop {
        let dbw = high.0 - step;
        let people = people_at(dbw);
        if people < enough {
            break (dbw, people);
        }
        high = (dbw, people);
        step *= 2.0;
        // A millionth of a millionth of the power still reaches them: they need none.
        if step > 128.0 {
            return high;
        }
    };
    // Excess of people as it is weighed: an end that stays twice counts half.
    let (mut under, mut over) = (low.1 - enough, high.1 - enough);
    let mut last = 0;
    while high.0 - low.0 > TO_DB {
        let straight = low.0 + (high.0 - low.0) * under / (under - over);
        let dbw = straight.clamp(low.0 + 0.25 * TO_DB, high.0 - 0.25 * TO_DB);
        let people = people_at(dbw);
        if people < enough {
            low = (dbw, people);
            under = people - enough;
            over *= if last < 0 { 0.5 } else { 1.0 };
            last = -1;
        } else {
            high = (dbw, people);
            over = people - enough;
            under *= if last > 0 { 0.5 } else { 1.0 };
            last = 1;
        }
    }
    high
}

/// The peak of equal steps, by a parabola through the strongest and its neighbours.
pub(super) fn strongest(powers: &[f32]) -> f32 {
    let most = powers.iter().copied().fold(0.0, f32::max);
    let top = powers.iter().position(|w| *w == most).unwrap_or(0);
    if top == 0 || top + 1 >= powers.len() {
        return most;
    }
    let (below, above) = (powers[top - 1], powers[top + 1]);
    let bend = below - 2.0 * most + above;
    if bend < 0.0 {
        most - (below - above) * (below - above) / (8.0 * bend)
    } else {
        most
    }
}

/// |Σ I f|² towards every direction.
pub(super) fn powers(bays: &[Parts], currents: &[C64]) -> Vec<f32> {
    let n = bays.first().map_or(0, |p| p.re.len());
    let (mut re, mut im) = (vec![0.0f32; n], vec![0.0f32; n]);
    for (parts, current) in bays.iter().zip(currents) {
        add_product(&mut re, &mut im, parts, (current.re as f32, current.im as f32));
    }
    re.iter_mut().zip(&im).for_each(|(x, y)| *x = *x * *x + y * y);
    re
}

#[multiversion::multiversion(targets("x86_64+avx2+fma", "aarch64+neon"))]
fn add_product(re: &mut [f32], im: &mut [f32], parts: &Parts, (a, b): (f32, f32)) {
    for (((re, im), x), y) in re.iter_mut().zip(im).zip(&parts.re).zip(&parts.im) {
        *re += a * x - b * y;
        *im += a * y + b * x;
    }
}

/// Powers to decibels, each to 1e-4 dB, those below 1e-16 as that: exponent by its bits, mantissa m by 2 artanh((m − 1)/(m + 1)).
#[multiversion::multiversion(targets("x86_64+avx2+fma", "aarch64+neon"))]
pub(super) fn to_db(powers: &mut [f32]) {
    const DB_PER_DOUBLING: f32 = 3.010_3;
    const PER_ARTANH: f32 = 2.0 * std::f32::consts::LOG2_E;
    for w in powers {
        let bits = w.max(1e-16).to_bits();
        let exponent = (bits >> 23) as i32 - 127;
        let m = f32::from_bits((bits & 0x007f_ffff) | 0x3f80_0000);
        let t = (m - 1.0) / (m + 1.0);
        let z = t * t;
        let artanh = t * (1.0 + z * (1.0 / 3.0 + z * (0.2 + z * (1.0 / 7.0 + z * (1.0 / 9.0)))));
        *w = DB_PER_DOUBLING * (exponent as f32 + PER_ARTANH * artanh);
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn prop_decibels_are_those_of_the_logarithm() {
        let values: Vec<f32> = (0..20_000)
            .map(|i| 1e-15 * 1.004f32.powi(i))
            .filter(|w| w.is_finite())
            .collect();
        let mut got = values.clone();
        super::to_db(&mut got);
        for (w, db) in values.iter().zip(&got) {
            let want = 10.0 * f64::from(*w).log10();
            assert!((f64::from(*db) - want).abs() < 1e-4, "{w}: {db} {want}");
        }
        let mut nothing = [0.0, -1.0];
        super::to_db(&mut nothing);
        assert!(nothing.iter().all(|db| (db + 160.0).abs() < 1e-3), "{nothing:?}");
    }
}
