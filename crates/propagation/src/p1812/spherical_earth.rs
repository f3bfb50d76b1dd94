//! Diffraction over a smooth spherical Earth [4.3.2, 4.3.3].

use crate::lane::Lane;

/// Plane of polarisation; it enters through the electrical surface of the smooth Earth only.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Polarisation {
    /// Horizontal.
    Horizontal,
    /// Vertical.
    Vertical,
}

/// Electrical constants of a surface: relative permittivity and conductivity in S/m.
const LAND: (f64, f64) = (22.0, 0.003);
const SEA: (f64, f64) = (80.0, 5.0);

/// Which of the two surfaces a path, or any of several, meets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Surfaces {
    /// Some of it is land.
    pub land: bool,
    /// Some of it is sea.
    pub sea: bool,
}

/// What of the spherical Earth depends on frequency, polarisation and wavelength only.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Constants {
    /// `K · a^(1/3)` over land and over sea.
    k_land: f64,
    k_sea: f64,
    /// `f^(1/3)`.
    f_third: f64,
    lambda_m: f64,
}

impl Constants {
    /// For a frequency in GHz and a polarisation.
    pub fn new(freq_ghz: f64, polarisation: Polarisation) -> Constants {
        let surface = |(permittivity, conductivity): (f64, f64)| {
            let loss = 18.0 * conductivity / freq_ghz;
            let horizontal =
                0.036 * freq_ghz.powf(-1.0 / 3.0) * ((permittivity - 1.0).powi(2) + loss * loss).powf(-0.25);
            match polarisation {
                Polarisation::Horizontal => horizontal,
                Polarisation::Vertical => horizontal * (permittivity * permittivity + loss * loss).sqrt(),
            }
        };
        Constants {
            k_land: surface(LAND),
            k_sea: surface(SEA),
            f_third: freq_ghz.powf(1.0 / 3.0),
            lambda_m: super::free_space::wavelength_m(freq_ghz),
        }
    }

    /// Spherical-Earth diffraction loss, dB, `Ldsph`, never negative in the line-of-sight part.
    ///
    /// # Units
    /// - `ht_m`, `hr_m`: heights above the smooth surface, positive
    /// - `ap_km`: effective radius; `sea_ratio`: share of the path over sea
    /// - `surfaces`: the surfaces that occur; those that do not are not worked out
    ///
    /// # Source
    /// Rec. ITU-R P.1812-7, § 4.3.2.
    #[inline(always)]
    pub fn loss_db<L: Lane>(&self, path: &Smooth<L>, ap_km: f64, surfaces: Surfaces) -> L {
        let s = L::splat;
        let (root_t, root_r) = (path.ht_m.sqrt(), path.hr_m.sqrt());
        let dlos_km = s((2.0 * ap_km * 0.001).sqrt()) * (root_t + root_r);
        let beyond = path.path_km.ge(dlos_km);
        let clearance = self.clearance(path, ap_km);
        let closer = path.path_km / (root_t + root_r);
        let radius_km = L::select(beyond, s(ap_km), s(500.0) * closer * closer);
        let first_term = self.first_term_db(path, radius_km, surfaces);
        let within = L::select(
            clearance.required_m.lt(clearance.least_m),
            s(0.0),
            (s(1.0) - clearance.least_m / clearance.required_m) * first_term.max(s(0.0)),
        );
        L::select(beyond, first_term, within)
    }

    /// Least clearance of the ray over the smooth Earth, and the clearance that makes diffraction vanish.
    #[inline(always)]
    fn clearance<L: Lane>(&self, path: &Smooth<L>, ap_km: f64) -> Clearance<L> {
        let s = L::splat;
        let one = s(1.0);
        let sum = path.ht_m + path.hr_m;
        let c = (path.ht_m - path.hr_m) / sum;
        let m = s(250.0 / ap_km) * path.path_km * path.path_km / sum;
        let m1 = m + one;
        let argument = s(1.5) * c * (s(3.0) * m / (m1 * m1 * m1)).sqrt();
        let angle = argument.max(s(-1.0)).min(one).acos() * s(1.0 / 3.0);
        // cos(π/3 + x) is −sin(x − π/6), and x − π/6 lies within ±π/6.
        let cosine = -(angle - s(std::f64::consts::FRAC_PI_6)).sin_small();
        let b = s(2.0) * (m1 / (s(3.0) * m)).sqrt() * cosine;
        let d1 = s(0.5) * path.path_km * (one + b);
        let d2 = path.path_km - d1;
        let bulge = s(500.0 / ap_km);
        let least_m =
            ((path.ht_m - bulge * d1 * d1) * d2 + (path.hr_m - bulge * d2 * d2) * d1) / path.path_km;
        let required_m = s(17.456) * (d1 * d2 * s(self.lambda_m) / path.path_km).sqrt();
        Clearance { least_m, required_m }
    }

    /// First term of the residue series, dB, `Ldft`, land and sea mixed.
    #[inline(always)]
    fn first_term_db<L: Lane>(&self, path: &Smooth<L>, a_km: L, surfaces: Surfaces) -> L {
        let s = L::splat;
        let a_third = (a_km.ln() * s(1.0 / 3.0)).exp();
        let (k_land, k_sea) = (s(self.k_land) / a_third, s(self.k_sea) / a_third);
        match surfaces {
            Surfaces { sea: false, .. } => self.first_term_over_db(path, a_third, k_land),
            Surfaces { land: false, .. } => self.first_term_over_db(path, a_third, k_sea),
            _ => {
                path.sea_ratio * self.first_term_over_db(path, a_third, k_sea)
                    + (s(1.0) - path.sea_ratio) * self.first_term_over_db(path, a_third, k_land)
            }
        }
    }

    /// [4.3.3] over one surface of normalised admittance `k`.
    #[inline(always)]
    fn first_term_over_db<L: Lane>(&self, path: &Smooth<L>, a_third: L, k: L) -> L {
        let s = L::splat;
        let k2 = k * k;
        let beta = (s(1.0) + k2 * (s(1.6) + s(0.67) * k2)) / (s(1.0) + k2 * (s(4.5) + s(1.53) * k2));
        let x = s(21.88 * self.f_third) * beta * path.path_km / (a_third * a_third);
        let height = s(0.9575 * self.f_third * self.f_third) * beta * beta / a_third;
        let floor = s(2.0) + s(20.0) * k.log10();
        let gain_t = height_gain_db(height * path.ht_m).max(floor);
        let gain_r = height_gain_db(height * path.hr_m).max(floor);
        -distance_gain_db(x) - gain_t - gain_r
    }
}

/// A smooth path: its length, the antennas' heights above the surface and the share of sea.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Smooth<L> {
    /// Length, km.
    pub path_km: L,
    /// Transmitting antenna above the smooth surface, m, positive.
    pub ht_m: L,
    /// Receiving antenna above the smooth surface, m, positive.
    pub hr_m: L,
    /// Share over sea, 0 to 1.
    pub sea_ratio: L,
}

struct Clearance<L> {
    least_m: L,
    required_m: L,
}

/// `F(X)`, dB.
#[inline(always)]
fn distance_gain_db<L: Lane>(x: L) -> L {
    let s = L::splat;
    let ln_x = x.ln();
    let log_x = ln_x * s(1.0 / crate::lane::LN_10);
    let far = s(11.0) + s(10.0) * log_x - s(17.6) * x;
    let near = s(-20.0) * log_x - s(5.6488) * (ln_x * s(1.425)).exp();
    L::select(x.lt(s(1.6)), near, far)
}

/// `G(Y)` of `B = βY`, dB, before its lower bound.
#[inline(always)]
fn height_gain_db<L: Lane>(b: L) -> L {
    let s = L::splat;
    let high = s(2.0).lt(b);
    let above = b - s(1.1);
    let log = L::select(high, above, b + s(0.1) * b * b * b).log10();
    L::select(
        high,
        s(17.6) * above.max(s(0.0)).sqrt() - s(5.0) * log - s(8.0),
        s(20.0) * log,
    )
}
