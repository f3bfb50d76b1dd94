//! Whole hops: worked budgets [C], clearance by hand, refusals, and what must hold for any hop.

mod p1812;

use propagation::hop::{
    FadingInput, HopError, HopInput, HopSummary, MultipathOutage, ProfileInput, RadioInput, RainShare, hop,
};
use propagation::p526::{PathEnds, delta_bullington};
use propagation::p530::{ClearanceRule, Climate, MultipathForm, ObstacleShape};
use propagation::p838::Polarisation;
use proptest::prelude::*;

fn radio(tx_power_dbm: f64, line_db: f64, gain_dbi: f64, threshold_dbm: f64) -> RadioInput {
    RadioInput {
        tx_power_dbm,
        tx_line_loss_db: line_db,
        tx_gain_dbi: gain_dbi,
        rx_gain_dbi: gain_dbi,
        rx_line_loss_db: line_db,
        threshold_dbm,
        interference_allowance_db: 0.0,
        other_loss_db: 0.0,
    }
}

const FADING: FadingInput = FadingInput {
    form: MultipathForm::Quick17 { dn1_per_km: -250.0 },
    latitude_deg: 50.0,
    diversity: None,
};
const RAIN_MM_PER_H: f64 = 42.0;

/// Level ground at sea level, `points` points apart evenly.
fn level(path_km: f64, points: usize) -> (Vec<f64>, Vec<f64>) {
    let step = path_km / (points - 1) as f64;
    ((0..points).map(|i| i as f64 * step).collect(), vec![0.0; points])
}

fn prove(
    ground: &(Vec<f64>, Vec<f64>),
    agl_m: f64,
    freq_ghz: f64,
    radio: RadioInput,
) -> Result<HopSummary, HopError> {
    let profile = ProfileInput {
        distance_km: &ground.0,
        height_amsl_m: &ground.1,
        tx_agl_m: agl_m,
        rx_agl_m: agl_m,
        freq_ghz,
    };
    hop(&HopInput {
        profile,
        radio,
        fading: FADING,
        rain_mm_per_h: Some(RAIN_MM_PER_H),
        polarisation: Polarisation::Vertical,
        rule: ClearanceRule::Draft,
    })
}

fn near(what: &str, got: f64, expected: f64, tolerance: f64) {
    assert!(
        (got - expected).abs() <= tolerance,
        "{what}: got {got}, expected {expected} ± {tolerance}"
    );
}

/// Worked budget at 950 MHz over 20 km [C]: 10 W, 14.15 dBi each end, 1.5 dB line; −52.7 dBm before the gases' 0.1 dB.
#[test]
fn ref_budget_950_mhz() {
    let summary = prove(&level(20.0, 101), 120.0, 0.95, radio(40.0, 1.5, 14.15, -85.0)).unwrap();
    let levels = summary.median.levels;
    near("free space", levels.free_space_db, 118.03, 0.01);
    near("received", levels.received_dbm + levels.gas_db, -52.7, 0.05);
    assert_eq!(levels.diffraction_db, 0.0);
    assert_eq!(summary.availability.rain, RainShare::Neglected);
    assert!(matches!(
        summary.availability.multipath,
        MultipathOutage::Computed { .. }
    ));
}

/// Worked budget at 7.5 GHz over 30 km [C]: +20 dBm, 36.89 dBi, 1 dB feeds, threshold −72 dBm; −48.0 dBm and 24.0 dB.
#[test]
fn ref_budget_7_5_ghz() {
    let summary = prove(&level(30.0, 151), 150.0, 7.5, radio(20.0, 1.0, 36.89, -72.0)).unwrap();
    let levels = summary.median.levels;
    near("gas", levels.gas_db, 0.33, 0.005);
    near("received", levels.received_dbm, -48.0, 0.1);
    near("margin", levels.fade_margin_db, 24.0, 0.1);
    let MultipathOutage::Computed {
        fading,
        annual_pct,
        worst_month_pct,
        ..
    } = summary.availability.multipath
    else {
        panic!("30 km at 7.5 GHz is inside the method")
    };
    near(
        "year and month",
        worst_month_pct / annual_pct,
        10f64.powf(summary_conversion(&summary) / 10.0),
        1e-9,
    );
    assert!(fading.p0_pct > 0.0);
    near(
        "sum",
        summary.availability.outage_pct.unwrap(),
        annual_pct + summary.availability.rain.pct(),
        1e-12,
    );
    near(
        "minutes",
        summary.availability.minutes_per_year.unwrap(),
        summary.availability.outage_pct.unwrap() / 100.0 * 525_960.0,
        1e-9,
    );
}

fn summary_conversion(summary: &HopSummary) -> f64 {
    match summary.availability.multipath {
        MultipathOutage::Computed {
            annual_conversion_db, ..
        } => annual_conversion_db,
        _ => panic!("not computed"),
    }
}

/// Worked budget at 5.8 GHz over 10 km [C]: EIRP 36 dBm, 23 dBi, 0.5 dB; −69.2 dBm before 0.1 dB of gas.
#[test]
fn ref_budget_5_8_ghz() {
    let radio = RadioInput {
        tx_gain_dbi: 13.5,
        tx_power_dbm: 23.0,
        ..radio(0.0, 0.5, 23.0, -85.0)
    };
    let summary = prove(&level(10.0, 51), 60.0, 5.8, radio).unwrap();
    near("eirp", summary.median.levels.eirp_dbm, 36.0, 1e-9);
    near(
        "received",
        summary.median.levels.received_dbm + summary.median.levels.gas_db,
        -69.2,
        0.05,
    );
}

/// Clearance by hand: level ground, 30 km, aerials at 100 m, middle. Bulge 15·15/(12.74·4/3) = 13.246 m, F1 17.30 m.
#[test]
fn ref_clearance_in_the_middle() {
    let summary = prove(&level(30.0, 31), 100.0, 7.5, radio(20.0, 1.0, 36.89, -72.0)).unwrap();
    let middle = summary.median.clearance.points[14];
    near("distance", middle.distance_km, 15.0, 1e-12);
    near("bulge", middle.bulge_m, 13.246, 0.001);
    near("clearance", middle.clearance_m, 86.754, 0.001);
    near("F1", middle.first_zone_m, 17.30, 0.001);
    assert!(summary.median.clearance.clears_06_f1 && summary.clearance_met);
    // At k = 2/3 the bulge doubles.
    near("low k", summary.low.clearance.points[14].bulge_m, 26.491, 0.001);
}

/// A ridge standing 10 m into the ray at k = 4/3: obstructed, the shortfall is 0.6 F1 + 10 m, and the loss is Bullington's.
#[test]
fn ref_obstructed_hop_says_how_much_is_missing() {
    let mut ground = level(30.0, 31);
    ground.1[15] = 100.0 - 13.2457 + 10.0;
    let summary = prove(&ground, 100.0, 7.5, radio(20.0, 1.0, 36.89, -72.0)).unwrap();
    assert!(!summary.clearance_met && !summary.median.clearance.line_of_sight);
    assert_eq!(summary.median.clearance.worst.index, 15);
    near("worst", summary.median.clearance.worst.clearance_m, -10.0, 0.001);
    near("shortfall", summary.median.shortfall_m, 0.6 * 17.30 + 10.0, 0.01);
    near(
        "average terrain",
        summary.median.clearance.average_terrain_db.unwrap(),
        10.0 + 200.0 / 17.30,
        0.01,
    );
    assert!(summary.median.diffraction.loss_db > 6.0);
    assert_eq!(
        summary.median.diffraction.loss_db,
        summary.median.levels.diffraction_db
    );
    // Lower k, more bulge, more loss.
    assert!(summary.low.diffraction.loss_db > summary.median.diffraction.loss_db);
}

/// P.530 § 2.2.2.1 [M]: whole F1 at k = 4/3; at the low k 0.3 F1 over extended ground in temperate climate.
#[test]
fn ref_clearance_rule_of_p530() {
    let ground = level(50.0, 51);
    let profile = ProfileInput {
        distance_km: &ground.0,
        height_amsl_m: &ground.1,
        tx_agl_m: 150.0,
        rx_agl_m: 150.0,
        freq_ghz: 7.5,
    };
    let rule = ClearanceRule::P530 {
        climate: Climate::Temperate,
        shape: ObstacleShape::Extended,
    };
    let input = HopInput {
        profile,
        radio: radio(20.0, 1.0, 36.89, -72.0),
        fading: FADING,
        rain_mm_per_h: Some(RAIN_MM_PER_H),
        polarisation: Polarisation::Vertical,
        rule,
    };
    let summary = hop(&input).unwrap();
    assert_eq!(summary.median.required_ratio, 1.0);
    assert_eq!(summary.low.required_ratio, 0.3);
    near("k_e", summary.low.clearance.k, 0.8, 1e-12);
}

/// Without a positive margin the hop is out of service, whatever the air does.
#[test]
fn ref_no_margin_is_out_all_the_time() {
    let summary = prove(&level(30.0, 31), 150.0, 7.5, radio(-10.0, 1.0, 36.89, -72.0)).unwrap();
    assert!(summary.median.levels.fade_margin_db < 0.0);
    assert_eq!(summary.availability.outage_pct, Some(100.0));
    assert_eq!(summary.availability.availability_pct, Some(0.0));
}

/// Short or low: multipath is not counted under 5 km and not told below 15/d GHz.
#[test]
fn ref_multipath_limits_are_said() {
    let short = prove(&level(4.0, 41), 60.0, 7.5, radio(20.0, 1.0, 30.0, -72.0)).unwrap();
    assert_eq!(short.availability.multipath, MultipathOutage::NotNeeded);
    let low = prove(&level(20.0, 41), 60.0, 0.4, radio(40.0, 1.0, 10.0, -92.0)).unwrap();
    assert_eq!(
        low.availability.multipath,
        MultipathOutage::OutsideMethod { least_ghz: 0.75 }
    );
    assert_eq!(low.availability.availability_pct, None);
}

#[test]
fn bad_hops_are_refused_with_the_reason() {
    let good = level(30.0, 31);
    let equipment = radio(20.0, 1.0, 36.89, -72.0);
    let mut turned = good.clone();
    turned.0[7] = turned.0[6];
    assert!(matches!(
        prove(&turned, 50.0, 7.5, equipment),
        Err(HopError::DistancesNotRising { index: 7, .. })
    ));
    let mut hole = good.clone();
    hole.1[9] = f64::NAN;
    assert_eq!(
        prove(&hole, 50.0, 7.5, equipment),
        Err(HopError::HeightNotFinite { index: 9 })
    );
    let two = (vec![0.0, 1.0], vec![0.0, 0.0]);
    assert_eq!(prove(&two, 50.0, 7.5, equipment), Err(HopError::TooFewPoints));
    assert!(matches!(
        prove(&good, 0.0, 7.5, equipment),
        Err(HopError::BadValue {
            quantity: "tx_agl_m",
            ..
        })
    ));
    assert!(matches!(
        prove(&good, 50.0, f64::NAN, equipment),
        Err(HopError::BadValue { .. })
    ));
    let mute = RadioInput {
        tx_power_dbm: f64::NAN,
        ..equipment
    };
    assert!(matches!(
        prove(&good, 50.0, 7.5, mute),
        Err(HopError::BadValue {
            quantity: "tx_power_dbm",
            ..
        })
    ));
    let profile = ProfileInput {
        distance_km: &good.0,
        height_amsl_m: &good.1,
        tx_agl_m: 50.0,
        rx_agl_m: 50.0,
        freq_ghz: 7.5,
    };
    let dry = HopInput {
        profile,
        radio: equipment,
        fading: FADING,
        rain_mm_per_h: None,
        polarisation: Polarisation::Vertical,
        rule: ClearanceRule::Draft,
    };
    assert_eq!(hop(&dry), Err(HopError::RainMissing { freq_ghz: 7.5 }));
}

proptest! {
    /// Turning the hop round changes neither clearance nor diffraction; rounding leaves 1e-9.
    #[test]
    fn prop_hop_is_reciprocal(
        heights in prop::collection::vec(0.0..400.0f64, 12..40),
        tx in 5.0..120.0f64,
        rx in 5.0..120.0f64,
        path_km in 6.0..50.0f64,
    ) {
        let step = path_km / (heights.len() - 1) as f64;
        let mut distance_km: Vec<f64> = (0..heights.len()).map(|i| i as f64 * step).collect();
        *distance_km.last_mut().unwrap() = path_km;
        let turned: Vec<f64> = heights.iter().rev().copied().collect();
        let run = |h: &[f64], tx_agl_m, rx_agl_m| {
            let profile = ProfileInput { distance_km: &distance_km, height_amsl_m: h, tx_agl_m, rx_agl_m, freq_ghz: 7.5 };
            hop(&HopInput {
                profile,
                radio: radio(30.0, 1.0, 36.0, -72.0),
                fading: FADING,
                rain_mm_per_h: Some(RAIN_MM_PER_H),
        polarisation: Polarisation::Vertical,
                rule: ClearanceRule::Draft,
            })
            .unwrap()
        };
        let (there, back) = (run(&heights, tx, rx), run(&turned, rx, tx));
        let loss = |s: &HopSummary| s.median.diffraction.loss_db;
        prop_assert!((loss(&there) - loss(&back)).abs() < 1e-6, "{} {}", loss(&there), loss(&back));
        let worst = |s: &HopSummary| s.low.clearance.worst.clearance_ratio;
        prop_assert!((worst(&there) - worst(&back)).abs() < 1e-6);
        prop_assert_eq!(there.clearance_met, back.clearance_met);
    }

    /// Higher aerials never lose: clearance grows, diffraction does not.
    #[test]
    fn prop_higher_aerials_clear_more(
        heights in prop::collection::vec(0.0..300.0f64, 12..40),
        agl in 5.0..100.0f64,
        more in 1.0..50.0f64,
    ) {
        let points = heights.len();
        let (distance_km, _) = level(25.0, points);
        let ground = (distance_km, heights);
        let low = prove(&ground, agl, 7.5, radio(30.0, 1.0, 36.0, -72.0)).unwrap();
        let high = prove(&ground, agl + more, 7.5, radio(30.0, 1.0, 36.0, -72.0)).unwrap();
        prop_assert!(high.median.clearance.worst.clearance_ratio >= low.median.clearance.worst.clearance_ratio);
        prop_assert!(high.median.shortfall_m <= low.median.shortfall_m);
    }
}

/// Delta-Bullington at any k is that of P.1812 at its median radius: `Ld_50` of every inland validation case without clutter.
/// The speed of light is rounded there (2.998e8), hence the tolerance.
#[test]
fn ref_delta_bullington_of_the_inland_cases() {
    let cases = p1812::all_cases().unwrap_or_else(p1812::kept_cases);
    let mut compared = 0;
    for case in &cases {
        let path = case.profile.path();
        let bare = path.clutter_m[1..path.last()].iter().all(|c| *c == 0.0);
        let inland = path.zone.iter().all(|z| *z != propagation::p1812::Zone::Sea);
        let Some(expected_db) = case.intermediates["Ld_50"].as_f64().filter(|_| bare && inland) else {
            continue;
        };
        let antennas = case.link.antennas;
        let ends = PathEnds {
            tx_amsl_m: path.h_m[0] + antennas.tx_agl_m,
            rx_amsl_m: path.h_m[path.last()] + antennas.rx_agl_m,
            freq_ghz: case.link.conditions.freq_mhz / 1e3,
            k: case.intermediates["ae_km"].as_f64().unwrap() / 6371.0,
        };
        let polarisation = case.link.conditions.polarisation;
        let found = delta_bullington(path.d_km, path.h_m, &ends, polarisation).unwrap();
        near(&case.id, found.loss_db, expected_db, 0.002);
        compared += 1;
    }
    println!("delta-Bullington: {compared} cases");
    assert!(
        compared >= 1 && (cases.len() < 60 || compared >= 20),
        "only {compared} cases were inland and bare"
    );
}
