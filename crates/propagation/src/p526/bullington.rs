//! A whole profile as one equivalent edge. Rec. ITU-R P.526-15 § 4.5.1.

use super::knife_edge::knife_edge_loss_db;
use crate::p525::wavelength_m;
use crate::p1812;
use crate::refractivity::EARTH_RADIUS_KM;

/// The two aerials over a profile.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PathEnds {
    /// Height of the transmitting aerial above sea level, m.
    pub tx_amsl_m: f64,
    /// Height of the receiving aerial above sea level, m.
    pub rx_amsl_m: f64,
    /// Frequency, GHz.
    pub freq_ghz: f64,
    /// Effective Earth radius factor.
    pub k: f64,
}

/// Bullington's equivalent edge over a profile, with its intermediates.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bullington {
    /// The ends see each other at this k.
    pub line_of_sight: bool,
    /// Place of the equivalent edge, km from the transmitter (on a clear path the point of greatest ν).
    pub edge_km: f64,
    /// Diffraction parameter of that edge.
    pub nu: f64,
    /// Knife-edge loss `J(ν)`, dB.
    pub knife_edge_db: f64,
    /// Loss with Bullington's correction, dB.
    pub loss_db: f64,
}

/// Diffraction loss of a profile by Bullington's construction; `None` when the profile has no point between its ends.
///
/// # Shape
/// `distance_km` and `height_amsl_m` of equal length, transmitter first, distances rising strictly from 0 to the receiver; the two
/// end heights are not used.
///
/// # Source
/// Rec. ITU-R P.526-15 § 4.5.1 [M], the same as the Bullington part of P.1812-7 § 4.3.1.
pub fn bullington(distance_km: &[f64], height_amsl_m: &[f64], ends: &PathEnds) -> Option<Bullington> {
    let last = distance_km.len().min(height_amsl_m.len()).checked_sub(1)?;
    if last < 2 {
        return None;
    }
    let path = Path {
        total_km: distance_km[last],
        ends,
        curvature_per_km: 1.0 / (EARTH_RADIUS_KM * ends.k),
    };
    let inner = || {
        distance_km[1..last]
            .iter()
            .zip(&height_amsl_m[1..last])
            .map(|(&x, &h)| (x, h))
    };

    let slope_to_tx = inner()
        .map(|p| path.slope_from_tx(p))
        .fold(f64::NEG_INFINITY, f64::max);
    let slope_direct = (ends.rx_amsl_m - ends.tx_amsl_m) / path.total_km;
    let line_of_sight = slope_to_tx < slope_direct;
    let (edge_km, nu) = if line_of_sight {
        inner()
            .map(|p| (p.0, path.nu_of_point(p)))
            .fold(
                (0.0, f64::NEG_INFINITY),
                |best, p| if p.1 > best.1 { p } else { best },
            )
    } else {
        let slope_to_rx = inner()
            .map(|p| path.slope_from_rx(p))
            .fold(f64::NEG_INFINITY, f64::max);
        let edge_km =
            (ends.rx_amsl_m - ends.tx_amsl_m + slope_to_rx * path.total_km) / (slope_to_tx + slope_to_rx);
        let edge_amsl_m = ends.tx_amsl_m + slope_to_tx * edge_km;
        (edge_km, path.nu(edge_km, edge_amsl_m - path.ray_amsl_m(edge_km)))
    };
    let knife_edge_db = knife_edge_loss_db(nu);
    Some(Bullington {
        line_of_sight,
        edge_km,
        nu,
        knife_edge_db,
        loss_db: p1812::bullington::loss_db(nu, path.total_km),
    })
}

struct Path<'a> {
    total_km: f64,
    ends: &'a PathEnds,
    curvature_per_km: f64,
}

impl Path<'_> {
    fn bulge_m(&self, x_km: f64) -> f64 {
        500.0 * self.curvature_per_km * x_km * (self.total_km - x_km)
    }

    fn slope_from_tx(&self, (x_km, h_m): (f64, f64)) -> f64 {
        (h_m + self.bulge_m(x_km) - self.ends.tx_amsl_m) / x_km
    }

    fn slope_from_rx(&self, (x_km, h_m): (f64, f64)) -> f64 {
        (h_m + self.bulge_m(x_km) - self.ends.rx_amsl_m) / (self.total_km - x_km)
    }

    fn ray_amsl_m(&self, x_km: f64) -> f64 {
        let PathEnds {
            tx_amsl_m, rx_amsl_m, ..
        } = *self.ends;
        (tx_amsl_m * (self.total_km - x_km) + rx_amsl_m * x_km) / self.total_km
    }

    fn nu_of_point(&self, (x_km, h_m): (f64, f64)) -> f64 {
        self.nu(x_km, h_m + self.bulge_m(x_km) - self.ray_amsl_m(x_km))
    }

    fn nu(&self, x_km: f64, above_ray_m: f64) -> f64 {
        let wavelength_m = wavelength_m(self.ends.freq_ghz * 1e3);
        above_ray_m * (0.002 * self.total_km / (wavelength_m * x_km * (self.total_km - x_km))).sqrt()
    }
}
