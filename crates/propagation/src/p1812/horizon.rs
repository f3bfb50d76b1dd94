//! Horizons, path type and the angle between the horizon rays [3.8, Attachment 1].

use super::profile::Path;
use crate::lane::Lane;

/// Where the two antennas see their horizons, for the median radius of the Earth, over bare ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Horizon {
    /// Whether the antennas see each other (path type "line of sight").
    pub line_of_sight: bool,
    /// Transmitter's horizon angle, mrad, `θt`.
    pub theta_t_mrad: f64,
    /// Receiver's horizon angle, mrad, `θr`.
    pub theta_r_mrad: f64,
    /// Profile index of the transmitter's horizon, `lt`.
    pub tx_index: usize,
    /// Profile index of the receiver's horizon, `lr`.
    pub rx_index: usize,
    /// Distance to the transmitter's horizon, km, `dlt`.
    pub dlt_km: f64,
    /// Distance to the receiver's horizon, km, `dlr`.
    pub dlr_km: f64,
}

/// Elevation in mrad of a slope in m/km.
#[inline(always)]
pub fn elevation_mrad<L: Lane>(slope_m_per_km: L) -> L {
    L::splat(1000.0) * (slope_m_per_km * L::splat(1e-3)).atan()
}

/// Slope in m/km from one height to another at a distance, over an Earth of radius `ae_km`.
#[inline(always)]
pub fn slope_m_per_km(from_m: f64, to_m: f64, distance_km: f64, ae_km: f64) -> f64 {
    (to_m - from_m) / distance_km - 500.0 * distance_km / ae_km
}

/// The diffraction parameter of one point, at a wavelength of one metre: `ν √λ`.
///
/// The place of the greatest `ν` does not depend on the wavelength, so the geometry is kept free of it.
#[inline(always)]
pub fn nu_root_m<L: Lane>(clearance_m: L, d_km: L, path_km: L) -> L {
    clearance_m * (L::splat(0.002) * path_km / (d_km * (path_km - d_km))).sqrt()
}

/// Height of the ground, raised by the Earth's curvature, above the straight line between the antennas, m.
#[inline(always)]
pub fn above_line_m<L: Lane>(height_m: L, d_km: L, path_km: L, antennas_m: (L, L), ap_km: f64) -> L {
    let rest_km = path_km - d_km;
    height_m + L::splat(500.0) * d_km * rest_km / L::splat(ap_km)
        - (antennas_m.0 * rest_km + antennas_m.1 * d_km) / path_km
}

/// Horizons of a path with antennas `hts_m` and `hrs_m` above sea level.
///
/// Of equal maxima the transmitter takes the first, the receiver and the line-of-sight search take the last.
pub fn horizons(path: &Path<'_>, hts_m: f64, hrs_m: f64, ae_km: f64) -> Horizon {
    let (d, h, n, d_total) = (path.d_km, path.h_m, path.last(), path.length_km());
    let (mut steepest, mut lt) = (f64::NEG_INFINITY, 0);
    for i in 1..n {
        let slope = slope_m_per_km(hts_m, h[i], d[i], ae_km);
        if slope > steepest {
            (steepest, lt) = (slope, i);
        }
    }
    let to_receiver = slope_m_per_km(hts_m, hrs_m, d_total, ae_km);
    if steepest > to_receiver {
        let (mut back, mut lr) = (f64::NEG_INFINITY, 0);
        for i in 1..n {
            let slope = slope_m_per_km(hrs_m, h[i], d_total - d[i], ae_km);
            if slope >= back {
                (back, lr) = (slope, i);
            }
        }
        return Horizon {
            line_of_sight: false,
            theta_t_mrad: elevation_mrad(steepest),
            theta_r_mrad: elevation_mrad(back),
            tx_index: lt,
            rx_index: lr,
            dlt_km: d[lt],
            dlr_km: d_total - d[lr],
        };
    }
    let (mut greatest, mut at) = (f64::NEG_INFINITY, 0);
    for i in 1..n {
        let above = above_line_m(h[i], d[i], d_total, (hts_m, hrs_m), ae_km);
        let nu = nu_root_m(above, d[i], d_total);
        if nu >= greatest {
            (greatest, at) = (nu, i);
        }
    }
    Horizon {
        line_of_sight: true,
        theta_t_mrad: elevation_mrad(to_receiver),
        theta_r_mrad: elevation_mrad(slope_m_per_km(hrs_m, hts_m, d_total, ae_km)),
        tx_index: at,
        rx_index: at,
        dlt_km: d[at],
        dlr_km: d_total - d[at],
    }
}

/// Angle between the horizon rays at their crossing, mrad, `θ`.
#[inline(always)]
pub fn angular_distance_mrad<L: Lane>(path_km: L, ae_km: f64, theta_t_mrad: L, theta_r_mrad: L) -> L {
    L::splat(1000.0) * path_km / L::splat(ae_km) + theta_t_mrad + theta_r_mrad
}
