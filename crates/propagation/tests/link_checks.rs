//! Free space, diffraction, fading, rain and height gain against computed check values of the standards.
//!
//! Each row names the clause. "C" marks values computed apart from this program from the published formula; where a general
//! library or the Study Group's code stands behind the figure, it says so.

use propagation::hop::{
    FlatReflector, dish_gain_dbi, flat_reflector, noise_dbm, parallel, receiver_threshold_dbm, series,
};
use propagation::p525;
use propagation::p526::{self, PathEnds, bullington};
use propagation::p530::{
    self, DiversityAerial, HopGeometry, MultipathError, MultipathForm, Rain, RainOutage,
    annual_conversion_db, multipath, rain_path, space_diversity_improvement,
};
use propagation::p676::gas_db_per_km;
use propagation::p838::{Polarisation, rain_coefficients};
use propagation::p2108::{Surroundings, height_gain_loss_db};
use propagation::p2109::{Building, entry_loss_db};
use propagation::refractivity::{K_MEDIAN, earth_bulge_m, effective_radius_factor};
use propagation::vegetation::foliage_loss_db;

fn near(what: &str, got: f64, expected: f64, tolerance: f64) {
    assert!(
        (got - expected).abs() <= tolerance,
        "{what}: got {got}, expected {expected} ± {tolerance}"
    );
}

fn within_pct(what: &str, got: f64, expected: f64, pct: f64) {
    near(what, got, expected, expected.abs() * pct / 100.0);
}

/// Rec. ITU-R P.525 [C].
#[test]
fn ref_p525_free_space_loss() {
    for (freq_ghz, path_km, loss_db) in [(0.95, 20.0, 118.03), (7.5, 30.0, 139.49), (5.8, 10.0, 127.72)] {
        near(
            "free space",
            p525::free_space_loss_db(freq_ghz, path_km),
            loss_db,
            0.01,
        );
    }
}

/// Rec. ITU-R P.525: 1 kW at 1 km; received power of a half-wave dipole; power density; antenna factor [C].
#[test]
fn ref_p525_field_and_power() {
    near(
        "1 kW ERP at 1 km",
        p525::field_from_erp_dbuv_m(30.0, 1.0),
        106.92,
        0.03,
    );
    near(
        "1 kW EIRP at 1 km",
        p525::field_from_eirp_dbuv_m(30.0, 1.0),
        104.77,
        0.01,
    );
    near(
        "dipole in 60 dB(µV/m)",
        p525::received_power_dbm(60.0, 2.15, 100.0),
        -55.06,
        0.05,
    );
    near("density", p525::power_density_dbw_m2(60.0), 60.0 - 145.76, 0.005);
    near(
        "antenna factor",
        p525::antenna_factor_50_ohm_db_per_m(0.0, 100.0),
        40.0 - 29.77,
        0.01,
    );
}

/// Rec. ITU-R P.530-18 § 2.2.1 [V form] and P.526 § 3: Fresnel radius, Earth bulge, average terrain.
#[test]
fn ref_p530_fresnel_and_bulge() {
    near("F1", p526::fresnel_radius_m(7.5, 15.0, 15.0), 17.30, 0.01);
    near(
        "F4 is twice F1",
        p526::fresnel_zone_radius_m(4, 7.5, 15.0, 15.0),
        34.60,
        0.02,
    );
    near("bulge", earth_bulge_m(15.0, 15.0, K_MEDIAN), 13.24, 0.02);
    assert_eq!(p526::average_terrain_obstruction_db(-1.0, 2.0), Some(20.0));
    assert_eq!(p526::average_terrain_obstruction_db(1.0, 2.0), None);
    near(
        "k of −39 N/km",
        effective_radius_factor(-39.0).unwrap(),
        1.3305,
        1e-4,
    );
    assert_eq!(effective_radius_factor(-157.0), None);
}

/// Rec. ITU-R P.526 § 4.1 [form M, values C], beside the exact Fresnel integral.
#[test]
fn ref_p526_knife_edge() {
    // ν, formula, exact
    let rows = [
        (-0.7, 0.54, 0.47),
        (-0.5, 1.96, 1.86),
        (0.0, 6.03, 6.02),
        (0.5, 10.29, 10.23),
        (1.0, 13.93, 13.86),
        (2.0, 19.04, 19.09),
        (2.4, 20.54, 20.62),
        (3.0, 22.42, 22.52),
    ];
    for (nu, formula_db, exact_db) in rows {
        near("formula", p526::knife_edge_loss_db(nu), formula_db, 0.01);
        near("exact", p526::knife_edge_loss_db(nu), exact_db, 0.11);
    }
    assert_eq!(p526::knife_edge_loss_db(-0.78), 0.0);
    assert_eq!(p526::knife_edge_loss_db(-5.0), 0.0);
    // ν = h·√(2/λ·(1/d1 + 1/d2)): h = F1 gives √2 (F1² = λ·d1·d2/(d1 + d2)).
    let first_zone_m = (0.04_f64 * 15e3 * 15e3 / 30e3).sqrt();
    near(
        "ν at one F1",
        p526::knife_edge_nu(first_zone_m, 15e3, 15e3, 0.04),
        2f64.sqrt(),
        1e-12,
    );
}

fn ends(freq_ghz: f64) -> PathEnds {
    PathEnds {
        tx_amsl_m: 150.0,
        rx_amsl_m: 150.0,
        freq_ghz,
        k: K_MEDIAN,
    }
}

/// Rec. ITU-R P.526-15 § 4.5.1 [C]: obstructed by one ridge, by two, and clear.
#[test]
fn ref_p526_bullington() {
    let at = |freq_ghz, points: [(f64, f64); 3]| {
        let distance_km = [0.0, points[0].0, points[1].0, points[2].0, 20.0];
        let height_m = [0.0, points[0].1, points[1].1, points[2].1, 0.0];
        bullington(&distance_km, &height_m, &ends(freq_ghz)).unwrap()
    };
    let ridge = at(0.95, [(5.0, 120.0), (10.0, 200.0), (15.0, 120.0)]);
    near("ν", ridge.nu, 1.990, 0.02);
    near("J", ridge.knife_edge_db, 19.00, 0.02);
    near("loss", ridge.loss_db, 28.96, 0.02);

    let two = at(0.098, [(6.0, 190.0), (10.0, 120.0), (13.0, 180.0)]);
    near("edge", two.edge_km, 8.055, 0.02);
    near("ν", two.nu, 0.703, 0.02);
    near("J", two.knife_edge_db, 11.87, 0.02);
    near("loss", two.loss_db, 20.83, 0.02);

    let clear = at(0.95, [(5.0, 105.0), (10.0, 110.0), (15.0, 105.0)]);
    assert!(clear.line_of_sight);
    assert_eq!(clear.loss_db, 0.0);
    assert!(bullington(&[0.0, 1.0], &[0.0, 0.0], &ends(1.0)).is_none());
}

const HOP: HopGeometry = HopGeometry {
    path_km: 30.0,
    freq_ghz: 7.5,
    tx_amsl_m: 250.0,
    rx_amsl_m: 400.0,
};

/// Rec. ITU-R P.530-17 and -18 § 2.3.1: deep fades [C; detailed form and -18 after public code].
#[test]
fn ref_p530_multipath_tail() {
    let quick = multipath(&HOP, MultipathForm::Quick17 { dn1_per_km: -250.0 }).unwrap();
    within_pct("K quick", quick.geoclimatic_factor, 1.1885e-4, 1.0);
    within_pct("p quick", quick.tail_pct(30.0), 1.342e-3, 1.0);
    within_pct(
        "p of any depth joins the tail",
        quick.worst_month_pct(30.0),
        1.342e-3,
        1.0,
    );

    let form = MultipathForm::Detailed17 {
        dn1_per_km: -250.0,
        roughness_m: 30.0,
    };
    let detailed = multipath(&HOP, form).unwrap();
    within_pct("K detailed", detailed.geoclimatic_factor, 3.452e-5, 1.0);
    within_pct("p detailed", detailed.tail_pct(30.0), 1.857e-3, 1.0);

    let form = MultipathForm::Maps18 {
        log_k: -4.0,
        dn75: 60.0,
        mean_ground_amsl_m: 200.0,
    };
    let maps = multipath(&HOP, form).unwrap();
    near("h_c", maps.h_c_m.unwrap(), 116.2, 0.1);
    within_pct("p maps", maps.tail_pct(30.0), 2.572e-2, 1.0);
}

/// Rec. ITU-R P.530 § 2.3.2: the joint meets the tail without a step, and a deeper fade is never more frequent.
#[test]
fn prop_p530_small_fades_join_the_tail() {
    for dn1_per_km in [-100.0, -250.0, -400.0] {
        let fading = multipath(&HOP, MultipathForm::Quick17 { dn1_per_km }).unwrap();
        let joint_db = 25.0 + 1.2 * fading.p0_pct.log10();
        let (under, over) = (
            fading.worst_month_pct(joint_db - 1e-6),
            fading.worst_month_pct(joint_db + 1e-6),
        );
        assert!((under / over - 1.0).abs() < 1e-4, "{under} against {over}");
        let shares: Vec<f64> = (1..500)
            .map(|tenth| fading.worst_month_pct(f64::from(tenth) * 0.1))
            .collect();
        assert!(
            shares.windows(2).all(|w| w[1] <= w[0]),
            "not falling at dN1 {dn1_per_km}"
        );
        assert_eq!(fading.worst_month_pct(-1.0), 100.0);
    }
}

/// Rec. ITU-R P.530 § 2.3.1: 15/d GHz is the least frequency.
#[test]
fn bad_p530_frequency_under_the_method() {
    let low = HopGeometry { freq_ghz: 0.4, ..HOP };
    let refused = multipath(&low, MultipathForm::Quick17 { dn1_per_km: -250.0 });
    assert_eq!(
        refused,
        Err(MultipathError::FrequencyTooLow {
            freq_ghz: 0.4,
            least_ghz: 0.5
        })
    );
}

/// Rec. ITU-R P.530 § 2.3.4 [C].
#[test]
fn ref_p530_annual_conversion() {
    near("ΔG", annual_conversion_db(50.0, 30.0, 5.0), 8.36, 0.02);
    // The ceiling of 10.8 dB [M]: a steep short path in high latitude would give more.
    assert_eq!(annual_conversion_db(60.0, 5.0, 20.0), 10.8);
}

/// Rec. ITU-R P.530 § 6.2.1 [C].
#[test]
fn ref_p530_space_diversity() {
    let fading = multipath(&HOP, MultipathForm::Quick17 { dn1_per_km: -250.0 }).unwrap();
    let aerial = DiversityAerial {
        separation_m: 10.0,
        gain_difference_db: 0.0,
    };
    within_pct(
        "I",
        space_diversity_improvement(&HOP, &fading, aerial, 30.0).unwrap(),
        584.0,
        1.0,
    );
    let too_close = DiversityAerial {
        separation_m: 2.0,
        ..aerial
    };
    assert!(space_diversity_improvement(&HOP, &fading, too_close, 30.0).is_err());
}

/// Rec. ITU-R P.530 figure 2, three points [M].
#[test]
fn ref_p530_low_k() {
    for (path_km, k) in [(20.0, 0.6), (50.0, 0.8), (100.0, 0.9), (300.0, 0.9)] {
        near("k_e", p530::low_k(path_km), k, 1e-12);
    }
    assert!(p530::low_k(35.0) > 0.6 && p530::low_k(35.0) < 0.8);
    assert!(p530::low_k(12.0) < 0.6);
}

/// Rec. ITU-R P.838-3, computed with a general library [C]; 11.2 GHz also in an unrelated public exercise [V].
#[test]
fn ref_p838_coefficients() {
    // f, k_H, α_H, k_V, α_V
    let rows = [
        (5.8, 0.000560, 1.6142, 0.000401, 1.5851),
        (7.5, 0.002875, 1.4339, 0.002291, 1.4265),
        (8.4, 0.005329, 1.3586, 0.004593, 1.3426),
        (10.5, 0.014851, 1.2339, 0.014129, 1.1865),
        (11.2, 0.018908, 1.2069, 0.018668, 1.1528),
        (13.0, 0.030413, 1.1586, 0.032656, 1.0901),
        (18.0, 0.070784, 1.0818, 0.077076, 1.0025),
        (23.0, 0.128642, 1.0214, 0.128363, 0.9630),
        (38.0, 0.400108, 0.8816, 0.384403, 0.8552),
    ];
    for (freq_ghz, k_h, alpha_h, k_v, alpha_v) in rows {
        let h = rain_coefficients(freq_ghz, Polarisation::Horizontal).unwrap();
        let v = rain_coefficients(freq_ghz, Polarisation::Vertical).unwrap();
        near("k_H", h.k, k_h, 6e-7);
        near("α_H", h.alpha, alpha_h, 6e-5);
        near("k_V", v.k, k_v, 6e-7);
        near("α_V", v.alpha, alpha_v, 6e-5);
    }
    let heavy = rain_coefficients(23.0, Polarisation::Horizontal).unwrap();
    near(
        "γ at 42 mm/h",
        heavy.specific_attenuation_db_per_km(42.0),
        5.85,
        0.01,
    );
    assert!(rain_coefficients(0.5, Polarisation::Vertical).is_err());
}

fn rain(freq_ghz: f64, path_km: f64) -> Rain {
    Rain {
        path_km,
        freq_ghz,
        polarisation: Polarisation::Vertical,
        rate_mm_per_h: 42.0,
    }
}

/// Rec. ITU-R P.530-18 § 2.4.1 [C, and a general library: 10.44 dB on the first row].
#[test]
fn ref_p530_rain_path() {
    let longer = rain_path(&rain(11.2, 12.0)).unwrap();
    near("r", longer.distance_ratio, 0.628, 0.001);
    within_pct("A0.01", longer.exceeded_001_pct_db, 10.46, 1.0);
    within_pct("A0.001", longer.exceeded_db(0.001).unwrap(), 21.2, 1.0);
    let shorter = rain_path(&rain(18.0, 5.0)).unwrap();
    near("r", shorter.distance_ratio, 0.780, 0.001);
    within_pct("A0.01", shorter.exceeded_001_pct_db, 12.74, 1.0);
    within_pct("A0.001", shorter.exceeded_db(0.001).unwrap(), 25.2, 1.0);
    assert!(rain_path(&rain(11.2, 61.0)).is_err());
    assert!(longer.exceeded_db(2.0).is_err());
}

/// Outage is the attenuation formula solved for the share of the year; outside it a bound is given and said.
#[test]
fn prop_p530_rain_outage_inverts_the_formula() {
    let path = rain_path(&rain(18.0, 5.0)).unwrap();
    for share_pct in [0.002, 0.01, 0.05, 0.3, 0.9] {
        let RainOutage::Exact { pct } = path.outage(path.exceeded_db(share_pct).unwrap()) else {
            panic!("{share_pct} % should be inside the method")
        };
        within_pct("share", pct, share_pct, 1e-6);
    }
    assert_eq!(path.outage(60.0), RainOutage::AtMost { pct: 0.001 });
    assert_eq!(path.outage(0.1), RainOutage::AtLeast { pct: 1.0 });
}

/// Rec. ITU-R P.676 rows [C], and the statement that 30 km below 10 GHz lose under 0.5 dB.
#[test]
fn ref_p676_rows() {
    for (freq_ghz, db_per_km) in [(0.95, 0.0053), (7.5, 0.0109), (11.2, 0.0164), (23.0, 0.194)] {
        near("gas", gas_db_per_km(freq_ghz).unwrap(), db_per_km, 1e-12);
    }
    near("half way", gas_db_per_km(6.65).unwrap(), 0.0101, 1e-9);
    assert!(gas_db_per_km(24.0).is_err());
}

/// Rec. ITU-R P.2108-1 § 3.1 at 98 MHz and 1.5 m [C]: R 10 open, R 10, 15 and 20 built-up or trees.
#[test]
fn ref_p2108_height_gain() {
    use Surroundings::{BuiltUpOrTrees, Open};
    let rows = [
        (10.0, Open, 12.81),
        (10.0, BuiltUpOrTrees, 9.72),
        (15.0, BuiltUpOrTrees, 13.12),
        (20.0, BuiltUpOrTrees, 15.50),
    ];
    for (top_m, surroundings, loss_db) in rows {
        near(
            "loss",
            height_gain_loss_db(0.098, 1.5, top_m, surroundings).unwrap(),
            loss_db,
            0.02,
        );
    }
    assert_eq!(height_gain_loss_db(0.098, 12.0, 10.0, Open), Ok(0.0));
    assert!(height_gain_loss_db(0.098, 0.0, 10.0, Open).is_err());
    assert!(height_gain_loss_db(5.0, 1.5, 10.0, Open).is_err());
}

/// Rec. ITU-R P.2109-2 at 98 MHz, 10, 50 and 90 % [C].
#[test]
fn ref_p2109_entry_loss() {
    let rows = [
        (Building::Traditional, [5.93, 14.23, 23.07]),
        (Building::ThermallyEfficient, [27.76, 40.35, 53.07]),
    ];
    for (building, losses_db) in rows {
        for (share_pct, loss_db) in [10.0, 50.0, 90.0].into_iter().zip(losses_db) {
            near(
                "entry",
                entry_loss_db(0.098, share_pct, 0.0, building).unwrap(),
                loss_db,
                0.05,
            );
        }
    }
    assert!(entry_loss_db(0.098, 100.0, 0.0, Building::Traditional).is_err());
    assert!(entry_loss_db(0.07, 50.0, 0.0, Building::Traditional).is_err());
}

/// Thermal noise, dish and reflector [C]; foliage [C from a form of mark M].
#[test]
fn ref_noise_dish_reflector_trees() {
    near("noise", noise_dbm(7e6, 5.0), -100.55, 0.05);
    near(
        "threshold",
        receiver_threshold_dbm(-100.55, 22.0, 2.5),
        -76.05,
        1e-9,
    );
    near(
        "1.2 m dish at 7.5 GHz",
        dish_gain_dbi(7.5, 1.2, 0.55),
        36.89,
        0.01,
    );

    let reflector = FlatReflector {
        width_m: 4.0,
        height_m: 4.0,
        half_angle_deg: 30.0,
        leg1_km: 28.0,
        leg2_km: 2.0,
        freq_ghz: 7.5,
    };
    let gain = flat_reflector(&reflector).unwrap();
    near("reflector gain", gain.gain_db, 100.7, 0.1);
    near("reflector loss", gain.path_loss_db, 154.1, 0.1);
    near("far field", gain.far_field_km, 0.80, 0.01);
    assert!(gain.in_far_field);

    near("trees 0.95 GHz", foliage_loss_db(0.95, 30.0).unwrap(), 9.7, 0.1);
    near("trees 7.5 GHz", foliage_loss_db(7.5, 30.0).unwrap(), 17.4, 0.1);
    assert!(foliage_loss_db(7.5, 500.0).is_err());
}

/// Chances multiply: a chain works when all work, ways side by side fail when all fail.
#[test]
fn ref_series_and_parallel() {
    near("series", series(&[0.999, 0.99]), 0.98901, 1e-12);
    near("parallel", parallel(&[0.999, 0.99]), 0.99999, 1e-12);
}
