//! The equivalent edge over a smooth Earth, seen at the sample distances, without looking at most of them.
//!
//! Over a smooth Earth both slopes and `ν` have a single top along the path, so the greatest sample stands beside it.

use super::found::Edge;
use super::peak::peak;

/// A receiver over the smooth path: its sample distances and the heights of the antennas above the surface.
#[derive(Debug, Clone, Copy)]
pub struct SmoothPath<'a> {
    /// Distances, transmitter first, receiver last, km.
    pub d_km: &'a [f64],
    /// Samples per kilometre, about: where the search for a distance begins.
    pub per_km: f64,
    /// Antennas above the smooth surface, m.
    pub antennas_m: (f64, f64),
    /// Effective radius, km.
    pub ap_km: f64,
}

/// The smooth path's edge; `back` guesses how many points before the receiver it lies, and is corrected.
#[inline(always)]
pub fn edge(path: &SmoothPath<'_>, back: &mut usize) -> Edge {
    let (ht, hr) = path.antennas_m;
    let d = path.d_km;
    let n = d.len() - 1;
    let total = d[n];
    let (bulge, flat) = (500.0 / path.ap_km, path.ap_km / 500.0);
    let per_total = 1.0 / total;
    let slope_t = |i: usize| bulge * (total - d[i]) - ht / d[i];
    let near_t = last_up_to(path, n, (ht * flat).sqrt());
    let stim = greater_beside(near_t, n, slope_t);
    if stim < (hr - ht) * per_total {
        let ratio_parts = |i: usize| {
            let rest = total - d[i];
            let clear = (ht * rest + hr * d[i]) * per_total - bulge * d[i] * rest;
            (clear * clear, d[i] * rest)
        };
        let at = peak(n.saturating_sub(*back), 1, n - 1, |i| {
            let ((c0, w0), (c1, w1)) = (ratio_parts(i), ratio_parts(i + 1));
            c1 * w0 <= c0 * w1
        });
        *back = n - at;
        return Edge::Sight {
            height_m: 0.0,
            d_km: d[at],
        };
    }
    let slope_r = |i: usize| bulge * d[i] - hr / (total - d[i]);
    let near_r = last_up_to(path, n, total - (hr * flat).sqrt());
    Edge::Beyond {
        stim,
        rise_m: greater_beside(near_r, n, slope_r),
        back_km: 1.0,
    }
}

/// The last point not beyond a distance, kept between the first and the last interior point.
#[inline(always)]
fn last_up_to(path: &SmoothPath<'_>, n: usize, distance_km: f64) -> usize {
    let guess = (distance_km * path.per_km).max(0.0) as usize;
    peak(guess, 1, n - 1, |i| path.d_km[i + 1] <= distance_km)
}

/// The greater value of two neighbouring interior points.
#[inline(always)]
fn greater_beside(i: usize, n: usize, value: impl Fn(usize) -> f64) -> f64 {
    let next = (i + 1).min(n - 1);
    value(i).max(value(next))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::p1812::bullington::crossing_nu_root_m;
    use crate::p1812::horizon::{above_line_m, nu_root_m};
    use crate::p1812::{Profile, Zone, bullington};
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn prop_smooth_edge_equals_the_plain_reading(
            steps in proptest::collection::vec(0.02f64..2.0, 5..90),
            even in any::<bool>(),
            ht in 0.5f64..900.0,
            hr in 0.5f64..300.0,
            guess in 0usize..100,
        ) {
            let mut d = vec![0.0];
            for step in &steps {
                d.push(d[d.len() - 1] + if even { steps[0] } else { *step });
            }
            let points = d.len();
            let profile =
                Profile::new(d.clone(), vec![0.0; points], vec![0.0; points], vec![Zone::Inland; points]).expect("valid");
            for ap_km in [8930.8, 19113.0] {
                let plain = bullington::smooth_edge(&profile.path(), (ht, hr), ap_km).nu_root_m;
                let path = SmoothPath { d_km: &d, per_km: 1.0 / steps[0], antennas_m: (ht, hr), ap_km };
                let total = d[d.len() - 1];
                let ours = match edge(&path, &mut guess.clone()) {
                    Edge::Clear => unreachable!("a smooth edge is always found"),
                    Edge::Sight { d_km, .. } => {
                        nu_root_m(above_line_m(0.0, d_km, total, (ht, hr), ap_km), d_km, total)
                    }
                    Edge::Beyond { stim, rise_m, back_km } => {
                        crossing_nu_root_m(total, (ht, hr), stim, rise_m / back_km)
                    }
                };
                prop_assert!((ours - plain).abs() <= 1e-9 * plain.abs().max(1.0), "{} for {}", ours, plain);
            }
        }
    }
}
