//! The smooth Earth that fits the ground, and heights above it [3.8, Attachment 1].

use super::profile::Path;
use crate::lane::Lane;

/// Heights above sea level of the straight line fitted to the ground by least squares, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit<L = f64> {
    /// `v1`, km·m.
    pub v1: L,
    /// `v2`, km²·m.
    pub v2: L,
    /// At the transmitter, `hst⁰`.
    pub tx_m: L,
    /// At the receiver, `hsr⁰`.
    pub rx_m: L,
}

impl<L: Lane> Fit<L> {
    /// The fit from its two sums over a path of `path_km`.
    #[inline(always)]
    pub fn from_sums(v1: L, v2: L, path_km: L) -> Fit<L> {
        let d2 = path_km * path_km;
        Fit {
            v1,
            v2,
            tx_m: (L::splat(2.0) * v1 * path_km - v2) / d2,
            rx_m: (v2 - v1 * path_km) / d2,
        }
    }
}

/// The part of `v1` and `v2` that the step from one point to the next adds.
#[inline(always)]
pub fn step_sums(from: (f64, f64), to: (f64, f64)) -> (f64, f64) {
    let ((d0, h0), (d1, h1)) = (from, to);
    let step = d1 - d0;
    (
        step * (h1 + h0),
        step * (h1 * (2.0 * d1 + d0) + h0 * (d1 + 2.0 * d0)),
    )
}

/// Least-squares smooth Earth of a path.
///
/// # Source
/// Rec. ITU-R P.1812-7, Attachment 1 to Annex 1, § 5.6.1.
pub fn fit(path: &Path<'_>) -> Fit {
    let (mut v1, mut v2) = (0.0, 0.0);
    for i in 1..path.d_km.len() {
        let (a, b) = step_sums((path.d_km[i - 1], path.h_m[i - 1]), (path.d_km[i], path.h_m[i]));
        v1 += a;
        v2 += b;
    }
    Fit::from_sums(v1, v2, path.length_km())
}

/// The highest obstruction above the straight line between the antennas, no curvature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Obstruction<L = f64> {
    /// Greatest height above the line, m, `hobs`.
    pub hobs_m: L,
    /// Greatest slope above the line from the transmitter, m/km, `αobt`.
    pub alpha_obt: L,
    /// Greatest slope above the line from the receiver, m/km, `αobr`.
    pub alpha_obr: L,
}

/// Obstruction heights of a path with antennas `hts_m` and `hrs_m` above sea level.
pub fn obstruction(path: &Path<'_>, hts_m: f64, hrs_m: f64) -> Obstruction {
    let d_total = path.length_km();
    let mut most = Obstruction {
        hobs_m: f64::NEG_INFINITY,
        alpha_obt: f64::NEG_INFINITY,
        alpha_obr: f64::NEG_INFINITY,
    };
    for i in 1..path.last() {
        let d = path.d_km[i];
        let above = path.h_m[i] - (hts_m * (d_total - d) + hrs_m * d) / d_total;
        most.hobs_m = most.hobs_m.max(above);
        most.alpha_obt = most.alpha_obt.max(above / d);
        most.alpha_obr = most.alpha_obr.max(above / (d_total - d));
    }
    most
}

/// Heights of the smooth surface under the two ends, m above sea level, for one purpose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surface<L = f64> {
    /// Under the transmitter.
    pub tx_m: L,
    /// Under the receiver.
    pub rx_m: L,
}

/// Smooth-surface heights for diffraction, `hstd` and `hsrd`, never above the ground at the ends.
#[inline(always)]
pub fn surface_for_diffraction<L: Lane>(fit: &Fit<L>, most: &Obstruction<L>, ends_m: (L, L)) -> Surface<L> {
    let obstructed = L::splat(0.0).lt(most.hobs_m);
    let both = most.alpha_obt + most.alpha_obr;
    let tx_m = fit.tx_m - most.hobs_m * most.alpha_obt / both;
    let rx_m = fit.rx_m - most.hobs_m * most.alpha_obr / both;
    Surface {
        tx_m: L::select(obstructed, tx_m, fit.tx_m).min(ends_m.0),
        rx_m: L::select(obstructed, rx_m, fit.rx_m).min(ends_m.1),
    }
}

/// Smooth-surface heights for ducting, `hst` and `hsr`, never above the ground at the ends.
#[inline(always)]
pub fn surface_for_ducting<L: Lane>(fit: &Fit<L>, ends_m: (L, L)) -> Surface<L> {
    Surface {
        tx_m: fit.tx_m.min(ends_m.0),
        rx_m: fit.rx_m.min(ends_m.1),
    }
}

/// Terrain roughness between the horizons, m, `hm`: the greatest height over the ducting surface.
pub fn roughness_m(path: &Path<'_>, surface: &Surface, horizons: (usize, usize)) -> f64 {
    let slope = (surface.rx_m - surface.tx_m) / path.length_km();
    let (first, last) = horizons;
    (first..=last)
        .map(|i| path.h_m[i] - (surface.tx_m + slope * path.d_km[i]))
        .fold(f64::NEG_INFINITY, f64::max)
}
