//! Path centre [3.5], ducting incidence and effective radii of the Earth [3.6, 3.7].

use crate::lane::{LN_10, Lane};

/// Mean radius of the Earth, km.
pub const EARTH_RADIUS_KM: f64 = 6371.0;

/// Natural logarithm of the factor 4.17 beyond 70° of latitude.
const LN_4_17: f64 = 1.427_916_035_810_710_1;

/// Effective radius exceeded for β0 % of the time, km: three times the Earth's.
pub const RADIUS_BETA0_KM: f64 = 3.0 * EARTH_RADIUS_KM;

/// Median effective radius of the Earth, km, `ae`.
///
/// # Units
/// - `dn_per_km`: lapse rate of refractivity through the lowest kilometre, N-units/km, positive
///
/// # Source
/// Rec. ITU-R P.1812-7, § 3.7.
pub fn median_radius_km(dn_per_km: f64) -> f64 {
    EARTH_RADIUS_KM * 157.0 / (157.0 - dn_per_km)
}

/// A place on the ground, degrees, north and east positive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Latitude, degrees.
    pub lat_deg: f64,
    /// Longitude, degrees.
    pub lon_deg: f64,
}

/// Direction of a path on the sphere, kept so that the latitude half way along it is quick to find.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bearing {
    sin_lat: f64,
    cos_lat_cos_bearing: f64,
}

impl Bearing {
    /// A path that leaves latitude `lat_deg` at `azimuth_deg` clockwise from true north.
    pub fn new(lat_deg: f64, azimuth_deg: f64) -> Bearing {
        let (sin_lat, cos_lat) = lat_deg.to_radians().sin_cos();
        Bearing {
            sin_lat,
            cos_lat_cos_bearing: cos_lat * azimuth_deg.to_radians().cos(),
        }
    }

    /// A path between two places, along the great circle.
    pub fn between(tx: Place, rx: Place) -> Bearing {
        let (sin_t, cos_t) = tx.lat_deg.to_radians().sin_cos();
        let (sin_r, cos_r) = rx.lat_deg.to_radians().sin_cos();
        let (sin_l, cos_l) = (rx.lon_deg - tx.lon_deg).to_radians().sin_cos();
        let r = sin_t * sin_r + cos_t * cos_r * cos_l;
        let (y, x) = (cos_t * cos_r * sin_l, sin_r - r * sin_t);
        let bearing = if y.abs() < 1e-9 && x.abs() < 1e-9 {
            rx.lon_deg.to_radians()
        } else {
            y.atan2(x)
        };
        Bearing {
            sin_lat: sin_t,
            cos_lat_cos_bearing: cos_t * bearing.cos(),
        }
    }

    /// Latitude of the middle of a path of this length, degrees, `φ`.
    ///
    /// Half the *profile's* length is walked, whatever the distance of the coordinates.
    #[inline(always)]
    pub fn centre_lat_deg<L: Lane>(&self, path_km: L) -> L {
        let a = path_km * L::splat(0.5 / EARTH_RADIUS_KM);
        let sine =
            L::splat(self.sin_lat) * a.cos_small() + L::splat(self.cos_lat_cos_bearing) * a.sin_small();
        sine.max(L::splat(-1.0)).min(L::splat(1.0)).asin() * L::splat(180.0 / std::f64::consts::PI)
    }
}

/// How often ducting occurs along the path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Incidence<L> {
    /// `τ`, of the longest inland stretch.
    pub tau: L,
    /// `μ1`, of the longest stretch of land.
    pub mu1: L,
    /// `μ4`, of latitude.
    pub mu4: L,
    /// `β0`, per cent of the time.
    pub beta0_pct: L,
}

/// Time percentage for which lapse rates above 100 N-units/km occur, `β0`.
///
/// # Units
/// - `lat_deg`: latitude of the path's centre
/// - `dtm_km`, `dlm_km`: longest stretch of land, and of inland, km
///
/// # Source
/// Rec. ITU-R P.1812-7, § 3.6.
#[inline(always)]
pub fn incidence<L: Lane>(lat_deg: L, dtm_km: L, dlm_km: L) -> Incidence<L> {
    let s = L::splat;
    let one = s(1.0);
    // A thousandth of a millimetre of inland gives the same τ as none, and has a logarithm.
    let dlm_power = dlm_km.max(s(1e-6)).powf(s(2.41));
    let tau = one - (s(-4.12e-4) * dlm_power).exp();
    let land = (-dtm_km / (s(16.0) - s(6.6) * tau)).pow10();
    let inland = (s(-5.0) * (s(0.496) + s(0.354) * tau)).pow10();
    let ln_mu1 = ((land + inland).ln() * s(0.2)).min(s(0.0));
    let lat = lat_deg.abs();
    let within = s(70.0).ge(lat);
    let ln_mu4 = ln_mu1 * L::select(within, s(-0.935) + s(0.0176) * lat, s(0.3));
    let ln_scale = L::select(within, (s(1.67) - s(0.015) * lat) * s(LN_10), s(LN_4_17));
    Incidence {
        tau,
        mu1: ln_mu1.exp(),
        mu4: ln_mu4.exp(),
        beta0_pct: (ln_scale + ln_mu1 + ln_mu4).exp(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn verif_the_printed_logarithm_of_4_17_is_right() {
        let polar = incidence(80.0_f64, 0.0, 0.0);
        assert!((polar.beta0_pct - 4.17 * polar.mu1 * polar.mu4).abs() < 1e-14);
    }

    #[test]
    fn verif_standard_atmosphere_gives_four_thirds() {
        assert!((median_radius_km(39.25) / EARTH_RADIUS_KM - 4.0 / 3.0).abs() < 1e-12);
    }
}
