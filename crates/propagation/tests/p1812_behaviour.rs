//! How P.1812 behaves at the edges of its range.

use propagation::p1812::*;

fn level(points: usize, step_km: f64) -> Profile {
    let d = (0..points).map(|i| i as f64 * step_km).collect();
    Profile::new(
        d,
        vec![50.0; points],
        vec![0.0; points],
        vec![Zone::Inland; points],
    )
    .expect("a valid profile")
}

fn link() -> Link {
    Link {
        conditions: Conditions::median(98.0, Polarisation::Horizontal),
        antennas: Antennas {
            tx_agl_m: 30.0,
            rx_agl_m: 10.0,
        },
        bearing: Bearing::new(45.0, 0.0),
        coast: None,
    }
}

#[test]
fn short_path_is_free_space_and_says_so() {
    let answer = predict(&level(2, 0.2), &link()).expect("a prediction");
    assert_eq!(answer.basis, Basis::FreeSpace);
    // Rec. ITU-R P.525: 32.45 + 20 log f(MHz) + 20 log d(km), over the slant distance.
    let slant_km = 0.2_f64.hypot(0.02);
    let want = 32.45 + 20.0 * 98.0_f64.log10() + 20.0 * slant_km.log10();
    assert!(
        (answer.loss_db - want).abs() < 0.1,
        "{} for {want}",
        answer.loss_db
    );
}

#[test]
fn few_points_are_resampled_over_the_same_stretch_and_it_says_so() {
    let answer = predict(&level(3, 0.5), &link()).expect("a prediction");
    assert_eq!(answer.basis, Basis::Resampled { points: 5 });
    let dense = predict(&level(5, 0.25), &link()).expect("a prediction");
    assert_eq!(dense.basis, Basis::AsGiven);
    assert_eq!(answer.loss_db, dense.loss_db);
}

#[test]
fn inputs_outside_the_range_are_refused_by_name() {
    let refused = |change: &dyn Fn(&mut Link)| {
        let mut link = link();
        change(&mut link);
        predict(&level(9, 1.0), &link)
            .expect_err("out of range")
            .to_string()
    };
    assert_eq!(
        refused(&|l| l.conditions.time_pct = 0.5),
        "time percentage `0.5\u{a0}%`: the method wants 1 to 50\u{a0}%"
    );
    assert!(refused(&|l| l.conditions.freq_mhz = f64::NAN).starts_with("frequency `NaN MHz`"));
    assert!(refused(&|l| l.conditions.location_pct = 100.0).starts_with("location percentage"));
    assert!(refused(&|l| l.conditions.dn_per_km = 157.0).starts_with("lapse rate"));
    assert!(
        refused(&|l| l.antennas.rx_agl_m = 0.0)
            .starts_with("receiving antenna height above ground `0\u{a0}m`")
    );
    assert!(
        refused(&|l| l.antennas.tx_agl_m = f64::INFINITY)
            .starts_with("transmitting antenna height above ground `inf m`")
    );
}

#[test]
fn prop_more_time_means_more_loss() {
    let loss = |time_pct| {
        let mut link = link();
        link.conditions.time_pct = time_pct;
        predict(&level(201, 0.5), &link).expect("a prediction").loss_db
    };
    assert!(loss(1.0) < loss(10.0) && loss(10.0) < loss(50.0));
}
