//! The closed form over eight surveyed receivers at a time.
//!
//! The steps are those of [`crate::p1812::tail`], in another lane. What is new here is only what may be left out: ducting where
//! [its floor](crate::p1812::ducting::Constants::floor_db) lies above the direct loss, and at 50 % of the time the Earth of
//! β0 %, which then counts for less than 10⁻⁶ dB.

use crate::lane::{Lane, Numbers, Vector, WIDTH, widest};
use crate::p1812::combine::with_troposcatter;
use crate::p1812::ducting::Floored;
use crate::p1812::effective_earth::{RADIUS_BETA0_KM, incidence};
use crate::p1812::spherical_earth::Surfaces;
use crate::p1812::tail::{self, Geometry};
use crate::p1812::{Bearing, Constants};

/// What is the same for all receivers of a block.
#[derive(Debug, Clone, Copy)]
pub struct Study<'a> {
    /// What follows from the conditions.
    pub constants: &'a Constants,
    /// Direction of the radial.
    pub bearing: &'a Bearing,
    /// Surfaces that any of the receivers' paths meets.
    pub surfaces: Surfaces,
    /// Whether the Earth of β0 % counts; not at 50 % of the time.
    pub both: bool,
}

widest! {
    /// Spherical-Earth losses for the two radii, dB; the second 0 where it does not count.
    pub fn spherical_db(study: &Study<'_>, block: &Geometry<Numbers>) -> (Numbers, Numbers) = spherical;

    /// Losses as if there were no ducting, dB, and whether ducting may matter to them.
    pub fn unducted_db(
        study: &Study<'_>,
        block: &Geometry<Numbers>,
        ldsph_db: &(Numbers, Numbers),
    ) -> (Numbers, [bool; WIDTH]) = unducted;

    /// Losses with every term, dB.
    pub fn complete_db(study: &Study<'_>, block: &Geometry<Numbers>) -> Numbers = complete;
}

#[inline(always)]
fn complete<V: Vector>(study: &Study<'_>, block: &Geometry<Numbers>) -> Numbers {
    tail::closed_form(study.constants, study.bearing, &block.load::<V>(), study.surfaces)
        .loss_db
        .store()
}

#[inline(always)]
fn spherical<V: Vector>(study: &Study<'_>, block: &Geometry<Numbers>) -> (Numbers, Numbers) {
    let g = block.load::<V>();
    let k = study.constants;
    let median = k.spherical_earth.loss_db(&g.smooth(), k.ae_km, study.surfaces);
    if !study.both {
        return (median.store(), [0.0; WIDTH]);
    }
    (
        median.store(),
        k.spherical_earth
            .loss_db(&g.smooth(), RADIUS_BETA0_KM, study.surfaces)
            .store(),
    )
}

#[inline(always)]
fn unducted<V: Vector>(
    study: &Study<'_>,
    block: &Geometry<Numbers>,
    ldsph_db: &(Numbers, Numbers),
) -> (Numbers, [bool; WIDTH]) {
    let ldsph_db = (V::load(&ldsph_db.0), V::load(&ldsph_db.1));
    let (loss_db, doubt) = without_ducting(study, &block.load::<V>(), ldsph_db);
    (loss_db.store(), V::truths(doubt))
}

#[inline(always)]
fn without_ducting<L: Lane>(study: &Study<'_>, g: &Geometry<L>, ldsph_db: (L, L)) -> (L, L::Mask) {
    let k = study.constants;
    let sea = study.surfaces.sea;
    let floored = Floored {
        path_km: g.path_km,
        theta_mrad: g.theta_t_r_mrad,
        horizons_km: g.horizon_km.0 + g.horizon_km.1,
    };
    let median = g.median(k, ldsph_db.0);
    if !study.both {
        let lbfs_db = k
            .free_space
            .free_space_db(g.path_km, g.antennas_m.0, g.antennas_m.1);
        let lbd_db = lbfs_db + median.ld_db;
        let lbs_db = k.troposcatter.loss_db(g.path_km, g.theta_mrad);
        let loss_db = lbfs_db.max(with_troposcatter(lbs_db, lbd_db) + g.location_db);
        let most = L::splat(LN_GREATEST_BETA0);
        let doubt = lbd_db.ge(k.ducting.floor_db(&floored, most, sea));
        if !L::any(doubt) {
            return (loss_db, doubt);
        }
        let beta0 = incidence(study.bearing.centre_lat_deg(g.path_km), g.land_km, g.inland_km).beta0_pct;
        return (
            loss_db,
            doubt & lbd_db.ge(k.ducting.floor_db(&floored, beta0.ln(), sea)),
        );
    }
    let beta0_pct = incidence(study.bearing.centre_lat_deg(g.path_km), g.land_km, g.inland_km).beta0_pct;
    let beta0 = g.beta0(k, ldsph_db.1);
    let direct = tail::direct(k, g, beta0_pct, (median.ld_db, beta0.ld_db));
    let doubt = direct
        .lbd_db
        .ge(k.ducting.floor_db(&floored, beta0_pct.ln(), sea));
    let (_, _, loss_db) = tail::combined(k, g, beta0_pct, &direct, L::splat(1e6));
    (loss_db, doubt)
}

/// Natural logarithm of the greatest `β0`, 10^1.67 %.
const LN_GREATEST_BETA0: f64 = 1.67 * crate::lane::LN_10;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lane::wide::Wide;
    use crate::p1812::{Conditions, Polarisation};
    use proptest::prelude::*;

    /// Any geometry a path could have, from numbers between 0 and 1.
    fn geometry(x: &[f64]) -> Geometry<f64> {
        let path_km = 0.3 + 200.0 * x[0] * x[0];
        let (dlt, dlr) = (path_km * (0.01 + 0.49 * x[1]), path_km * (0.01 + 0.49 * x[2]));
        Geometry {
            path_km,
            antennas_m: (20.0 + 2000.0 * x[3], 10.0 + 2000.0 * x[4]),
            smooth_m: (1.0 + 800.0 * x[5] * x[5], 1.0 + 300.0 * x[6] * x[6]),
            effective_m: (1.0 + 800.0 * x[5], 1.0 + 300.0 * x[6]),
            theta_t_r_mrad: (60.0 * x[7] - 20.0, 60.0 * x[8] - 20.0),
            theta_mrad: 120.0 * x[7] * x[8],
            horizon_km: (dlt, dlr),
            roughness_m: 500.0 * x[9],
            median_nu_root_m: (20.0 * x[10] - 5.0, 5.0 * x[11] - 4.0),
            beta0_nu_root_m: (20.0 * x[10] - 6.0, 5.0 * x[11] - 4.5),
            sea_ratio: (2.0 * x[12] - 0.5).clamp(0.0, 1.0),
            land_km: path_km * x[13],
            inland_km: path_km * x[13] * x[14],
            coast_km: (20.0 * x[15], 20.0 * x[16]),
            location_db: 10.0 * x[17],
        }
    }

    #[cfg(target_arch = "x86_64")]
    #[target_feature(enable = "avx2,fma")]
    fn complete_avx2(study: &Study<'_>, block: &Geometry<Numbers>) -> Numbers {
        complete::<crate::lane::x86::Avx2>(study, block)
    }

    proptest! {
        #[test]
        fn prop_every_kind_of_lane_gives_the_plain_closed_form(
            x in proptest::collection::vec(0.0f64..1.0, 18 * WIDTH),
            time_pct in 1.0f64..50.0,
            lat in -85.0f64..85.0,
        ) {
            let conditions = Conditions { time_pct, ..Conditions::median(98.0, Polarisation::Vertical) };
            let constants = Constants::new(&conditions).expect("valid conditions");
            let bearing = Bearing::new(lat, 33.0);
            let surfaces = Surfaces { land: true, sea: true };
            let study = Study { constants: &constants, bearing: &bearing, surfaces, both: true };
            let each: Vec<Geometry<f64>> = x.chunks(18).map(geometry).collect();
            let mut block = Geometry::filled([0.0; WIDTH]);
            for (lane, one) in each.iter().enumerate() {
                block.zip(one, |all, x| all[lane] = x);
            }
            let mut kinds = vec![("widest", complete_db(&study, &block)), ("portable", complete::<Wide>(&study, &block))];
            #[cfg(target_arch = "x86_64")]
            if std::is_x86_feature_detected!("avx2") && std::is_x86_feature_detected!("fma") {
                // SAFETY: the processor was just asked for these features.
                kinds.push(("avx2", unsafe { complete_avx2(&study, &block) }));
            }
            for (lane, one) in each.iter().enumerate() {
                let plain = tail::closed_form(&constants, &bearing, one, surfaces).loss_db;
                for (kind, ours) in &kinds {
                    prop_assert!((ours[lane] - plain).abs() < 1e-9, "{}: {} for {}", kind, ours[lane], plain);
                }
            }
        }

        #[test]
        fn prop_ducting_never_falls_below_its_floor(
            x in proptest::collection::vec(0.0f64..1.0, 18),
            time_pct in 1.0f64..50.0,
            freq_mhz in 30.0f64..6000.0,
            lat in -85.0f64..85.0,
        ) {
            let conditions = Conditions { time_pct, ..Conditions::median(freq_mhz, Polarisation::Vertical) };
            let k = Constants::new(&conditions).expect("valid conditions");
            let g = geometry(&x);
            let beta0 = incidence(lat, g.land_km, g.inland_km);
            let floored = Floored {
                path_km: g.path_km,
                theta_mrad: g.theta_t_r_mrad,
                horizons_km: g.horizon_km.0 + g.horizon_km.1,
            };
            let lba_db = k.ducting.loss(&g.ducted(), &beta0).lba_db;
            for most in [beta0.beta0_pct.ln(), LN_GREATEST_BETA0] {
                let floor_db = k.ducting.floor_db(&floored, most, g.sea_ratio > 0.0);
                prop_assert!(floor_db <= lba_db + 1e-9, "{} above {}", floor_db, lba_db);
            }
        }
    }
}
