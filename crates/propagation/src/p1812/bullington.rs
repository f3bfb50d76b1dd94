//! Diffraction by the Bullington construction [4.3.1], over the actual path and over the smooth one.

use super::horizon::{above_line_m, nu_root_m};
use super::profile::Path;
use crate::lane::Lane;

/// What the Bullington construction finds on a path, before frequency enters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edge {
    /// Whether the construction saw a line of sight.
    pub line_of_sight: bool,
    /// Diffraction parameter at a wavelength of 1 m, `ν √λ`.
    pub nu_root_m: f64,
}

/// The single edge equivalent to the ground and clutter of a path.
///
/// # Units
/// - `antennas_m`: `hts`, `hrs` above sea level, m
/// - `ap_km`: effective radius of the Earth
///
/// # Source
/// Rec. ITU-R P.1812-7, § 4.3.1.
pub fn edge(path: &Path<'_>, antennas_m: (f64, f64), ap_km: f64) -> Edge {
    sampled(path.d_km, |i| path.h_m[i] + path.clutter_m[i], antennas_m, ap_km)
}

/// The single edge equivalent to a smooth Earth, seen at the same sample distances.
///
/// # Units
/// - `antennas_m`: heights above the smooth surface, m
pub fn smooth_edge(path: &Path<'_>, antennas_m: (f64, f64), ap_km: f64) -> Edge {
    sampled(path.d_km, |_| 0.0, antennas_m, ap_km)
}

fn sampled(d_km: &[f64], height_m: impl Fn(usize) -> f64, antennas_m: (f64, f64), ap_km: f64) -> Edge {
    let (ht, hr) = antennas_m;
    let last = d_km.len() - 1;
    let d_total = d_km[last];
    let bulge = |i: usize| 500.0 * d_km[i] * (d_total - d_km[i]) / ap_km;
    let stim = (1..last)
        .map(|i| (height_m(i) + bulge(i) - ht) / d_km[i])
        .fold(f64::NEG_INFINITY, f64::max);
    if stim < (hr - ht) / d_total {
        let nu = (1..last)
            .map(|i| {
                nu_root_m(
                    above_line_m(height_m(i), d_km[i], d_total, antennas_m, ap_km),
                    d_km[i],
                    d_total,
                )
            })
            .fold(f64::NEG_INFINITY, f64::max);
        return Edge {
            line_of_sight: true,
            nu_root_m: nu,
        };
    }
    let srim = (1..last)
        .map(|i| (height_m(i) + bulge(i) - hr) / (d_total - d_km[i]))
        .fold(f64::NEG_INFINITY, f64::max);
    Edge {
        line_of_sight: false,
        nu_root_m: crossing_nu_root_m(d_total, antennas_m, stim, srim),
    }
}

/// `ν √λ` of the point where the two horizon rays cross.
///
/// # Units
/// - `stim`, `srim`: steepest slopes seen from the transmitter and the receiver, m/km
#[inline(always)]
pub fn crossing_nu_root_m<L: Lane>(path_km: L, antennas_m: (L, L), stim: L, srim: L) -> L {
    let (ht, hr) = antennas_m;
    let db = (hr - ht + srim * path_km) / (stim + srim);
    let above = ht + stim * db - (ht * (path_km - db) + hr * db) / path_km;
    nu_root_m(above, db, path_km)
}

/// The edge's parameter under which its loss is nothing.
pub const CLEAR_NU: f64 = -0.78;

/// Loss over a single knife edge, dB, `J(ν)`.
#[inline(always)]
pub fn knife_edge_db<L: Lane>(nu: L) -> L {
    let s = L::splat;
    let x = nu - s(0.1);
    let root = (x * x + s(1.0)).sqrt() + x;
    L::select(s(CLEAR_NU).lt(nu), s(6.9) + s(20.0) * root.log10(), s(0.0))
}

/// Bullington loss of an edge, dB: the knife edge and the empirical part that grows with distance.
#[inline(always)]
pub fn loss_db<L: Lane>(nu: L, path_km: L) -> L {
    let s = L::splat;
    let luc = knife_edge_db(nu);
    luc + (s(1.0) - (luc * s(-1.0 / 6.0)).exp()) * (s(10.0) + s(0.02) * path_km)
}
