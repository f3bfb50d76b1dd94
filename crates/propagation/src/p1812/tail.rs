//! From a survey to a loss: the closed-form part of the method, for one receiver or several at once.

use super::combine::{self, Combination, Parts};
use super::conditions::Constants;
use super::diffraction::{self, Diffraction};
use super::ducting::{Ducted, Ducting};
use super::effective_earth::{self, Bearing, Incidence, RADIUS_BETA0_KM};
use super::free_space::LineOfSight;
use super::spherical_earth::{Smooth, Surfaces};
use super::survey::Survey;
use crate::lane::{Lane, Numbers, Vector};

/// What the closed form needs of a surveyed path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Geometry<L> {
    /// Length, km.
    pub path_km: L,
    /// Antennas above sea level, m, `hts`, `hrs`.
    pub antennas_m: (L, L),
    /// Antennas above the smooth surface for diffraction, m.
    pub smooth_m: (L, L),
    /// Antennas above the smooth surface for ducting, m, `hte`, `hre`.
    pub effective_m: (L, L),
    /// Horizon angles, mrad.
    pub theta_t_r_mrad: (L, L),
    /// Angle between the horizon rays, mrad.
    pub theta_mrad: L,
    /// Horizon distances, km.
    pub horizon_km: (L, L),
    /// Terrain roughness, m.
    pub roughness_m: L,
    /// `ν √λ` for the median radius: actual and smooth path.
    pub median_nu_root_m: (L, L),
    /// `ν √λ` for the radius of β0 %: actual and smooth path.
    pub beta0_nu_root_m: (L, L),
    /// Share over sea.
    pub sea_ratio: L,
    /// Longest stretch of land, km.
    pub land_km: L,
    /// Longest inland stretch, km.
    pub inland_km: L,
    /// Distances to the coast, km.
    pub coast_km: (L, L),
    /// Loss for the location percentage at this receiver, dB; 0 at sea.
    pub location_db: L,
}

impl<L: Copy> Geometry<L> {
    /// The same value in every place.
    pub fn filled(x: L) -> Geometry<L> {
        Geometry {
            path_km: x,
            antennas_m: (x, x),
            smooth_m: (x, x),
            effective_m: (x, x),
            theta_t_r_mrad: (x, x),
            theta_mrad: x,
            horizon_km: (x, x),
            roughness_m: x,
            median_nu_root_m: (x, x),
            beta0_nu_root_m: (x, x),
            sea_ratio: x,
            land_km: x,
            inland_km: x,
            coast_km: (x, x),
            location_db: x,
        }
    }

    /// Meets another geometry number by number.
    #[inline(always)]
    pub fn zip<M: Copy>(&mut self, other: &Geometry<M>, f: impl Fn(&mut L, M)) {
        let two = |pair: &mut (L, L), with: (M, M)| {
            f(&mut pair.0, with.0);
            f(&mut pair.1, with.1);
        };
        f(&mut self.path_km, other.path_km);
        two(&mut self.antennas_m, other.antennas_m);
        two(&mut self.smooth_m, other.smooth_m);
        two(&mut self.effective_m, other.effective_m);
        two(&mut self.theta_t_r_mrad, other.theta_t_r_mrad);
        f(&mut self.theta_mrad, other.theta_mrad);
        two(&mut self.horizon_km, other.horizon_km);
        f(&mut self.roughness_m, other.roughness_m);
        two(&mut self.median_nu_root_m, other.median_nu_root_m);
        two(&mut self.beta0_nu_root_m, other.beta0_nu_root_m);
        f(&mut self.sea_ratio, other.sea_ratio);
        f(&mut self.land_km, other.land_km);
        f(&mut self.inland_km, other.inland_km);
        two(&mut self.coast_km, other.coast_km);
        f(&mut self.location_db, other.location_db);
    }
}

impl Geometry<Numbers> {
    /// Eight receivers into a vector.
    #[inline(always)]
    pub fn load<V: Vector>(&self) -> Geometry<V> {
        Geometry {
            path_km: V::load(&self.path_km),
            antennas_m: (V::load(&self.antennas_m.0), V::load(&self.antennas_m.1)),
            smooth_m: (V::load(&self.smooth_m.0), V::load(&self.smooth_m.1)),
            effective_m: (V::load(&self.effective_m.0), V::load(&self.effective_m.1)),
            theta_t_r_mrad: (V::load(&self.theta_t_r_mrad.0), V::load(&self.theta_t_r_mrad.1)),
            theta_mrad: V::load(&self.theta_mrad),
            horizon_km: (V::load(&self.horizon_km.0), V::load(&self.horizon_km.1)),
            roughness_m: V::load(&self.roughness_m),
            median_nu_root_m: (
                V::load(&self.median_nu_root_m.0),
                V::load(&self.median_nu_root_m.1),
            ),
            beta0_nu_root_m: (V::load(&self.beta0_nu_root_m.0), V::load(&self.beta0_nu_root_m.1)),
            sea_ratio: V::load(&self.sea_ratio),
            land_km: V::load(&self.land_km),
            inland_km: V::load(&self.inland_km),
            coast_km: (V::load(&self.coast_km.0), V::load(&self.coast_km.1)),
            location_db: V::load(&self.location_db),
        }
    }
}

impl Geometry<f64> {
    /// The numbers of one survey.
    pub fn of(survey: &Survey, constants: &Constants) -> Geometry<f64> {
        let s = survey;
        let above = |surface: &super::smooth_earth::Surface| (s.hts_m - surface.tx_m, s.hrs_m - surface.rx_m);
        Geometry {
            path_km: s.path_km,
            antennas_m: (s.hts_m, s.hrs_m),
            smooth_m: above(&s.diffraction_surface),
            effective_m: above(&s.ducting_surface),
            theta_t_r_mrad: (s.horizon.theta_t_mrad, s.horizon.theta_r_mrad),
            theta_mrad: s.theta_mrad,
            horizon_km: (s.horizon.dlt_km, s.horizon.dlr_km),
            roughness_m: s.roughness_m,
            median_nu_root_m: (s.median.actual.nu_root_m, s.median.smooth.nu_root_m),
            beta0_nu_root_m: (s.beta0.actual.nu_root_m, s.beta0.smooth.nu_root_m),
            sea_ratio: s.zones.sea_ratio,
            land_km: s.zones.land_km,
            inland_km: s.zones.inland_km,
            coast_km: (s.coast.tx_km, s.coast.rx_km),
            location_db: if s.rx_at_sea { 0.0 } else { constants.location_db },
        }
    }
}

/// Every closed-form intermediate, in the order of the standard.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Closed<L> {
    /// Latitude of the path's centre, degrees, `φ`.
    pub centre_lat_deg: L,
    /// Incidence of ducting.
    pub incidence: Incidence<L>,
    /// Diffraction for the median radius.
    pub median: Diffraction<L>,
    /// Diffraction for the radius of β0 %.
    pub beta0: Diffraction<L>,
    /// Line of sight and diffraction for p %.
    pub direct: Direct<L>,
    /// Ducting.
    pub ducting: Ducting<L>,
    /// Troposcatter, dB, `Lbs`.
    pub lbs_db: L,
    /// Combination.
    pub combination: Combination<L>,
    /// Basic transmission loss for p % of time and pL % of places, dB, `Lb`.
    pub loss_db: L,
}

/// The whole closed form: every step, with what it passes on.
///
/// # Source
/// Rec. ITU-R P.1812-7, §§ 4.2 to 4.9.
#[inline(always)]
pub fn closed_form<L: Lane>(
    k: &Constants,
    bearing: &Bearing,
    g: &Geometry<L>,
    surfaces: Surfaces,
) -> Closed<L> {
    let centre_lat_deg = bearing.centre_lat_deg(g.path_km);
    let incidence = effective_earth::incidence(centre_lat_deg, g.land_km, g.inland_km);
    let smooth = g.smooth();
    let median = g.median(k, k.spherical_earth.loss_db(&smooth, k.ae_km, surfaces));
    let beta0 = g.beta0(k, k.spherical_earth.loss_db(&smooth, RADIUS_BETA0_KM, surfaces));
    let direct = direct(k, g, incidence.beta0_pct, (median.ld_db, beta0.ld_db));
    let ducting = k.ducting.loss(&g.ducted(), &incidence);
    let (lbs_db, combination, loss_db) = combined(k, g, incidence.beta0_pct, &direct, ducting.lba_db);
    Closed {
        centre_lat_deg,
        incidence,
        median,
        beta0,
        direct,
        ducting,
        lbs_db,
        combination,
        loss_db,
    }
}

/// Line of sight and diffraction for p % of the time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Direct<L> {
    /// Line of sight.
    pub line_of_sight: LineOfSight<L>,
    /// Interpolation `Fi`.
    pub fi: L,
    /// Diffraction loss for p %, dB, `Ldp`.
    pub ldp_db: L,
    /// Free space and median diffraction, dB, `Lbd50`.
    pub lbd50_db: L,
    /// Line of sight and diffraction for p %, dB, `Lbd`.
    pub lbd_db: L,
}

/// Line of sight and diffraction for p %, from the diffraction losses for the two radii.
#[inline(always)]
pub fn direct<L: Lane>(k: &Constants, g: &Geometry<L>, beta0_pct: L, ld_db: (L, L)) -> Direct<L> {
    let ends = (g.path_km, g.antennas_m.0, g.antennas_m.1);
    let horizons_km = g.horizon_km.0 + g.horizon_km.1;
    let line_of_sight = k.free_space.line_of_sight(ends, horizons_km, beta0_pct.ln());
    let fi = k.diffraction.interpolation(beta0_pct);
    let ldp_db = ld_db.0 + fi * (ld_db.1 - ld_db.0);
    Direct {
        line_of_sight,
        fi,
        ldp_db,
        lbd50_db: line_of_sight.lbfs_db + ld_db.0,
        lbd_db: line_of_sight.lb0p_db + ldp_db,
    }
}

/// Troposcatter, the combination and the loss, from the direct losses and ducting.
#[inline(always)]
pub fn combined<L: Lane>(
    k: &Constants,
    g: &Geometry<L>,
    beta0_pct: L,
    direct: &Direct<L>,
    lba_db: L,
) -> (L, Combination<L>, L) {
    let lbs_db = k.troposcatter.loss_db(g.path_km, g.theta_mrad);
    let parts = Parts {
        lb0p_db: direct.line_of_sight.lb0p_db,
        lb0b_db: direct.line_of_sight.lb0b_db,
        lbd50_db: direct.lbd50_db,
        lbd_db: direct.lbd_db,
        ldp_db: direct.ldp_db,
        fi: direct.fi,
        lba_db,
        lbs_db,
    };
    let below = k.diffraction.below(beta0_pct);
    let combination = combine::combine(&parts, below, g.path_km, g.theta_mrad, g.sea_ratio);
    (
        lbs_db,
        combination,
        parts.lb0p_db.max(combination.lbc_db + g.location_db),
    )
}

impl<L: Lane> Geometry<L> {
    /// The smooth path of the spherical-Earth part.
    #[inline(always)]
    pub fn smooth(&self) -> Smooth<L> {
        let (ht_m, hr_m) = self.smooth_m;
        Smooth {
            path_km: self.path_km,
            ht_m,
            hr_m,
            sea_ratio: self.sea_ratio,
        }
    }

    /// Diffraction for the median radius, given its spherical-Earth loss.
    #[inline(always)]
    pub fn median(&self, k: &Constants, ldsph_db: L) -> Diffraction<L> {
        diffraction::delta_bullington(scaled(k, self.median_nu_root_m), self.path_km, ldsph_db)
    }

    /// Diffraction for the radius of β0 %, given its spherical-Earth loss.
    #[inline(always)]
    pub fn beta0(&self, k: &Constants, ldsph_db: L) -> Diffraction<L> {
        diffraction::delta_bullington(scaled(k, self.beta0_nu_root_m), self.path_km, ldsph_db)
    }

    /// What ducting needs.
    #[inline(always)]
    pub fn ducted(&self) -> Ducted<L> {
        Ducted {
            path_km: self.path_km,
            antennas_m: self.antennas_m,
            effective_m: self.effective_m,
            theta_mrad: self.theta_t_r_mrad,
            horizon_km: self.horizon_km,
            roughness_m: self.roughness_m,
            sea_ratio: self.sea_ratio,
            coast_km: self.coast_km,
        }
    }
}

/// Edge parameters at the wavelength of the conditions.
#[inline(always)]
fn scaled<L: Lane>(k: &Constants, nu_root_m: (L, L)) -> (L, L) {
    let per_root = L::splat(1.0 / k.lambda_m.sqrt());
    (nu_root_m.0 * per_root, nu_root_m.1 * per_root)
}
