//! The whole transmission part over the FM band: coupled stack, splitter, feeder, fold-back.
#![allow(clippy::unwrap_used, reason = "tests")]

use antenna::array::{ElementKind, StackPlan};
use antenna::chain::{Chain, FM_BAND_MHZ, FoldBack, Stage, sweep_mhz};
use antenna::feed::{Cable, Feed, Splitter};
use antenna::line::{LineConstants, Vswr};
use num_complex::Complex64 as C64;

#[test]
fn prop_a_tuned_stack_matches_at_its_channel_and_less_at_the_edges() {
    let stack = StackPlan {
        frequency_mhz: 98.0,
        bays: 4,
        spacing_m: 2.75,
        element: ElementKind::Vertical,
        bearing_deg: 0.0,
        pole_radius_m: Some(0.03),
        stand_off_m: 0.75,
    }
    .stack()
    .unwrap();
    let branch = LineConstants::new(0.4022, 0.000782, 0.85, 50.0).unwrap();
    let feed = Feed::equal(
        Splitter::quarter_wave(4, 98.0, 0.1),
        4,
        Cable {
            line: branch,
            length_m: 5.0,
        },
    );
    let line = LineConstants::new(0.1122, 0.000483, 0.89, 50.0).unwrap();
    let cable = Cable { line, length_m: 80.0 };
    let joint = || Stage::Loss { loss_db: 0.02 };
    let chain = Chain {
        z0_ohm: 50.0,
        stages: vec![
            joint(),
            Stage::Line {
                cable,
                conductor_c: 40.0,
            },
            joint(),
        ],
    };
    let freqs = sweep_mhz(FM_BAND_MHZ.0, FM_BAND_MHZ.1, 83);
    let load = |f: f64| feed.solve(&stack.at_frequency(f)).unwrap().input_ohm();
    let answers = chain.sweep(&freqs, 1000.0, load).unwrap();
    let at = |f: f64| answers.iter().find(|a| (a.freq_mhz - f).abs() < 0.13).unwrap();
    assert!(at(98.0).vswr.ratio() < 1.3, "{}", at(98.0).vswr.ratio());
    assert!(at(88.0).vswr > at(98.0).vswr && at(108.0).vswr > at(98.0).vswr);
    // Mismatch costs on top of the matched loss, and standing waves raise the voltage above √(2·P·Z0).
    for a in &answers {
        assert!(a.loss_db >= chain.matched_loss_db(a.freq_mhz).unwrap() - 1e-9);
        assert!(a.planes[0].worst_voltage_peak_v >= (2.0f64 * 1000.0 * 50.0).sqrt() - 1e-9);
        let net = a.planes[0].forward_w - a.planes[0].reflected_w;
        assert!((net - a.planes[0].net_w).abs() < 1e-9 * 1000.0);
        assert!((10.0 * (net / a.delivered_w).log10() - a.loss_db).abs() < 1e-9);
    }
    // A tuned antenna folds the transmitter back at both ends of the band and nowhere near its channel.
    let stretches = FoldBack {
        limit: Vswr::new(1.5).unwrap(),
    }
    .reduces_mhz(&answers);
    assert!(!stretches.is_empty());
    assert!(
        stretches.iter().all(|s| s.1 < 97.5 || s.0 > 98.5),
        "{stretches:?}"
    );
    // A matched dummy load in its place: nothing reflected, nothing folded back.
    let dummy = chain.sweep(&freqs, 1000.0, |_| C64::from(50.0)).unwrap();
    assert!(dummy.iter().all(|a| a.vswr.ratio() < 1.0 + 1e-9));
}
