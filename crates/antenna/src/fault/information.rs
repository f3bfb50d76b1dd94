//! What a reading is expected to tell.

use super::FaultKind;

/// What one entry leads to expect of a reading.
pub(super) struct Expected {
    pub kind: FaultKind,
    pub probability: f64,
    pub dbw: f64,
    pub sigma_db: f64,
}

/// How much a reading is expected to tell of the kind, nats: entropy of what is expected of it altogether less that of what is expected
/// under each kind. Entries of one kind stand together.
pub(super) fn information(expected: &[Expected]) -> f64 {
    /// Steps of the densities in units of the narrowest deviation, and how far out they are followed.
    const STEP: f64 = 0.5;
    const OUT: f64 = 4.0;
    const MOST_STEPS: f64 = 400.0;
    let bound = |sign: f64| move |e: &Expected| sign * (e.dbw + sign * OUT * e.sigma_db);
    let high = expected.iter().map(bound(1.0)).fold(f64::NEG_INFINITY, f64::max);
    let low = -expected.iter().map(bound(-1.0)).fold(f64::NEG_INFINITY, f64::max);
    let narrowest = expected.iter().map(|e| e.sigma_db).fold(f64::INFINITY, f64::min);
    let step = (STEP * narrowest).max((high - low) / MOST_STEPS);
    let steps = ((high - low) / step).ceil().max(1.0) as usize + 1;
    let entropy = |density: &[f64], total: f64| -> f64 {
        let part = |d: &f64| {
            if *d > 0.0 {
                -d / total * (d / total / step).ln()
            } else {
                0.0
            }
        };
        density.iter().map(part).sum()
    };
    let mut all = vec![0.0; steps];
    let (mut under_kinds, mut total) = (0.0, 0.0);
    for of_kind in expected.chunk_by(|a, b| a.kind == b.kind) {
        let mut density = vec![0.0; steps];
        for e in of_kind {
            let seat = |dbw: f64| ((dbw - low) / step).round().clamp(0.0, steps as f64 - 1.0) as usize;
            let (from, to) = (seat(e.dbw - OUT * e.sigma_db), seat(e.dbw + OUT * e.sigma_db));
            let scale = e.probability * step / (e.sigma_db * std::f64::consts::TAU.sqrt());
            for (i, d) in density.iter_mut().enumerate().take(to + 1).skip(from) {
                let off = (low + step * i as f64 - e.dbw) / e.sigma_db;
                *d += scale * (-0.5 * off * off).exp();
            }
        }
        let weight: f64 = density.iter().sum();
        under_kinds += weight * entropy(&density, weight.max(f64::MIN_POSITIVE));
        total += weight;
        all.iter_mut().zip(&density).for_each(|(a, d)| *a += d);
    }
    if total > 0.0 {
        entropy(&all, total) - under_kinds / total
    } else {
        0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn verif_a_reading_tells_as_much_as_it_can() {
        let one = |kind, dbw| Expected {
            kind,
            probability: 0.5,
            dbw,
            sigma_db: 1.0,
        };
        let told = |apart_db| {
            information(&[
                one(FaultKind::Healthy, 0.0),
                one(FaultKind::WaterInFeeder, apart_db),
            ])
        };
        // Nothing where both lead to the same, all of one bit where they cannot be mistaken; in between as the integral says: two normal laws
        // two deviations apart tell 0.3368 nats (numerical integration).
        assert!(told(0.0).abs() < 1e-9);
        assert!((told(20.0) - std::f64::consts::LN_2).abs() < 1e-6);
        assert!((told(2.0) - 0.3368).abs() < 1e-3, "{}", told(2.0));
        // Two severities of one kind are not parted.
        assert!(information(&[one(FaultKind::Healthy, 0.0), one(FaultKind::Healthy, 20.0)]).abs() < 1e-9);
    }
}
