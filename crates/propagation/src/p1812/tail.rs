//! From a survey to a loss: the closed-form part of the method, for one receiver or several at once.

use super::combine::{self, Combination, Parts};
use super::conditions::Constants;
use super::diffraction::{self, Diffraction};
use super::ducting::{Ducted, Ducting};
use super::effective_earth::{self, Bearing, Incidence, RADIUS_BETA0_KM};
use super::free_space::LineOfSight;
use super::spherical_earth::{Smooth, Surfaces};
use super::survey::Survey;
use crate::lane::Lane;

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
    /// Line of sight.
    pub line_of_sight: LineOfSight<L>,
    /// Diffraction for the median radius.
    pub median: Diffraction<L>,
    /// Diffraction for the radius of β0 %.
    pub beta0: Diffraction<L>,
    /// Interpolation `Fi`.
    pub fi: L,
    /// Diffraction loss for p %, dB, `Ldp`.
    pub ldp_db: L,
    /// Free space and median diffraction, dB, `Lbd50`.
    pub lbd50_db: L,
    /// Line of sight and diffraction for p %, dB, `Lbd`.
    pub lbd_db: L,
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
    let s = L::splat;
    let centre_lat_deg = bearing.centre_lat_deg(g.path_km);
    let incidence = effective_earth::incidence(centre_lat_deg, g.land_km, g.inland_km);
    let ends = (g.path_km, g.antennas_m.0, g.antennas_m.1);
    let line_of_sight =
        k.free_space
            .line_of_sight(ends, g.horizon_km.0 + g.horizon_km.1, incidence.beta0_pct.ln());

    let smooth = Smooth {
        path_km: g.path_km,
        ht_m: g.smooth_m.0,
        hr_m: g.smooth_m.1,
        sea_ratio: g.sea_ratio,
    };
    let per_root = s(1.0 / k.lambda_m.sqrt());
    let ld = |nu_root_m: (L, L), ap_km: f64| {
        let edges = (nu_root_m.0 * per_root, nu_root_m.1 * per_root);
        diffraction::delta_bullington(&k.spherical_earth, edges, &smooth, ap_km, surfaces)
    };
    let median = ld(g.median_nu_root_m, k.ae_km);
    let beta0 = ld(g.beta0_nu_root_m, RADIUS_BETA0_KM);
    let fi = k.diffraction.interpolation(incidence.beta0_pct);
    let ldp_db = median.ld_db + fi * (beta0.ld_db - median.ld_db);
    let lbd50_db = line_of_sight.lbfs_db + median.ld_db;
    let lbd_db = line_of_sight.lb0p_db + ldp_db;

    let ducted = Ducted {
        path_km: g.path_km,
        antennas_m: g.antennas_m,
        effective_m: g.effective_m,
        theta_mrad: g.theta_t_r_mrad,
        horizon_km: g.horizon_km,
        roughness_m: g.roughness_m,
        sea_ratio: g.sea_ratio,
        coast_km: g.coast_km,
    };
    let ducting = k.ducting.loss(&ducted, &incidence);
    let lbs_db = k.troposcatter.loss_db(g.path_km, g.theta_mrad);
    let parts = Parts {
        lb0p_db: line_of_sight.lb0p_db,
        lb0b_db: line_of_sight.lb0b_db,
        lbd50_db,
        lbd_db,
        ldp_db,
        fi,
        lba_db: ducting.lba_db,
        lbs_db,
    };
    let below = k.diffraction.below(incidence.beta0_pct);
    let combination = combine::combine(&parts, below, g.path_km, g.theta_mrad, g.sea_ratio);
    let loss_db = line_of_sight.lb0p_db.max(combination.lbc_db + g.location_db);
    Closed {
        centre_lat_deg,
        incidence,
        line_of_sight,
        median,
        beta0,
        fi,
        ldp_db,
        lbd50_db,
        lbd_db,
        ducting,
        lbs_db,
        combination,
        loss_db,
    }
}
