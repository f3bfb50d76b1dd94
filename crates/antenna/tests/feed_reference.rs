//! Feeds against an independent engine's solutions, and patterns against the array model.
#![allow(clippy::unwrap_used, reason = "tests")]

mod shared;

use antenna::array::{ElementKind, Matrix, PortModel, Radiator, Stack, StackPlan};
use antenna::direction::{Direction, Plane};
use antenna::feed::synthesis::{first_null_deg, null_fill_by_halves, tilt_phases_deg, tilted_and_filled};
use antenna::feed::tolerance::Trials;
use antenna::feed::{Branch, Cable, End, Excitation, Feed, InputMatch, Splitter, tolerance_band, trimmed};
use antenna::line::{LineConstants, wavelength_m};
use antenna::pattern::Pattern;
use num_complex::Complex64 as C64;
use serde_json::Value;

fn case(name: &str) -> Option<Value> {
    let folder = shared::reference_folder()?;
    Some(serde_json::from_str(&std::fs::read_to_string(folder.join(name)).unwrap()).unwrap())
}

fn complex(v: &Value) -> C64 {
    C64::new(v[0].as_f64().unwrap(), v[1].as_f64().unwrap())
}

fn ports(v: &Value) -> Matrix {
    let z = &v["expected"]["port_impedance_matrix_ohm"];
    let n = z.as_array().unwrap().len();
    Matrix::from_fn(n, n, |i, j| complex(&z[i][j]))
}

fn lossless(z0_ohm: f64, length_m: f64) -> Cable {
    Cable {
        line: LineConstants::lossless(1.0, z0_ohm).unwrap(),
        length_m,
    }
}

fn stack(kind: ElementKind, bays: usize, spacing: f64) -> Stack {
    StackPlan {
        frequency_mhz: 98.0,
        bays,
        spacing_m: spacing * wavelength_m(98.0),
        element: kind,
        bearing_deg: 0.0,
        pole_radius_m: None,
        stand_off_m: 0.0,
    }
    .stack()
    .unwrap()
}

#[test]
fn val_isolated_splitter_with_unequal_shares() {
    // NEC-2 through PyNEC 2.3.4, its port matrix and its answer for a matched isolated 50 Ω splitter.
    let Some(v) = case("splitter-4-pole-unequal.json") else {
        return;
    };
    let phases = [0.0, 10.0, 20.0, 40.0];
    let wanted: Vec<Excitation> = phases
        .iter()
        .zip([1.0, 2.0, 2.0, 3.0])
        .map(|(&phase_deg, share)| Excitation { share, phase_deg })
        .collect();
    let line = LineConstants::lossless(1.0, 50.0).unwrap();
    let isolated = Splitter::Isolated { excess_loss_db: 0.0 };
    let feed = Feed::for_excitation(isolated, &wanted, line, 1.0, 98.0).unwrap();
    let fed = feed.solve_ports(&ports(&v), 98.0).unwrap();
    let expected = &v["expected"]["feed"];
    assert!((fed.returned_ratio() - expected["reflected_power_fraction"].as_f64().unwrap()).abs() < 2e-4);
    for (i, (z, i_a)) in fed.active_ohm().iter().zip(&fed.currents_a).enumerate() {
        let want = complex(&v["expected"]["input_impedance_ohm"][i]);
        assert!((z - want).norm() < 0.02, "bay {i}: {z} {want}");
        let w = expected["power_into_bay_w"][i].as_f64().unwrap();
        assert!(
            (fed.bay_w[i] * 8.0 - w).abs() < 5e-4,
            "bay {i}: {} {w}",
            fed.bay_w[i] * 8.0
        );
        let turn = i_a
            / fed.currents_a[0]
            / (complex(&v["expected"]["input_current_a"][i]) / complex(&v["expected"]["input_current_a"][0]));
        assert!((turn - 1.0).norm() < 1e-3);
    }
}

#[test]
fn val_plain_tee_with_two_lines() {
    // The same engine; its node impedance was checked against its own transmission-line element to 0.01 Ω.
    let Some(v) = case("tee-2-lines.json") else { return };
    let branch = |length_m| Branch {
        cable: lossless(75.0, length_m),
        share: 1.0,
        end: End::Connected,
    };
    let feed = Feed {
        z0_ohm: 50.0,
        splitter: Splitter::Reactive {
            excess_loss_db: 0.0,
            input: InputMatch::Plain,
        },
        branches: vec![branch(1.53), branch(1.83)],
        conductor_c: 20.0,
    };
    let fed = feed.solve_ports(&ports(&v), 98.0).unwrap();
    let want = complex(&v["expected"]["feed"]["node_impedance_ohm"]);
    assert!(
        (fed.input_ohm() - want).norm() < 0.02,
        "{} {want}",
        fed.input_ohm()
    );
    for i in 0..2 {
        let share = v["expected"]["feed"]["power_into_bay_fraction"][i]
            .as_f64()
            .unwrap();
        assert!((fed.bay_w[i] / fed.radiated_w - share).abs() < 2e-4);
    }
    assert!((fed.efficiency_ratio() - 1.0).abs() < 1e-9);
}

#[test]
fn val_equal_voltages_give_unequal_currents() {
    // Wire models, 4 vertical tubes of 1.42 m at 0.7 λ, self-impedance 70.6 − j4.1 Ω: outer 75.9 − j10.1, inner 78.8 − j22.2 Ω,
    // currents 13.1 and 12.2 mA. The array model adds its own off-diagonal terms, so a few ohm of distance are allowed.
    let mut s = stack(ElementKind::Vertical, 4, 0.7);
    for bay in &mut s.bays {
        *bay = bay
            .clone()
            .with_tubes(0.71, 0.008)
            .with_port(PortModel::Known(C64::new(70.6, -4.1)));
    }
    // Half-wave lines from one node put the node's voltage on every bay.
    let half = Cable {
        line: LineConstants::lossless(1.0, 50.0).unwrap(),
        length_m: wavelength_m(98.0) / 2.0,
    };
    let plain = Splitter::Reactive {
        excess_loss_db: 0.0,
        input: InputMatch::Plain,
    };
    let fed = Feed::equal(plain, 4, half).solve(&s).unwrap();
    let z = fed.active_ohm();
    for (got, want) in z
        .iter()
        .zip([(75.9, -10.1), (78.8, -22.2), (78.8, -22.2), (75.9, -10.1)])
    {
        assert!((got - C64::new(want.0, want.1)).norm() < 4.5, "{got} {want:?}");
    }
    let taper = fed.currents_a[1].norm() / fed.currents_a[0].norm();
    assert!((taper - 12.2 / 13.1).abs() < 0.02, "{taper}");
}

#[test]
fn ref_tilt_of_twenty_degrees_a_bay() {
    // 4 × 0.9 λ, 20° a bay: nominal 3.54°, array model 3.41°; the horizon 0.65 dB below the peak.
    let s = stack(ElementKind::Vertical, 4, 0.9);
    let nominal = (20.0f64 / 360.0 / 0.9).asin().to_degrees();
    assert!((nominal - 3.54).abs() < 0.005);
    let heights: Vec<f64> = s.bays.iter().map(|b| b.position_m[2]).collect();
    let phases = tilt_phases_deg(&heights, 98.0, nominal).unwrap();
    let currents: Vec<C64> = phases
        .iter()
        .map(|p| C64::from_polar(1.0, p.to_radians()))
        .collect();
    let pattern = Pattern::with_currents(&s, &currents, 1.0).unwrap();
    let peak = pattern.peak(Plane::Vertical);
    assert!((peak.tilt_deg() - 3.41).abs() < 0.02, "{peak:?}");
    let horizon = pattern.gain_dbd(Plane::Vertical, 0.0, 0.0) - peak.gain_dbd;
    assert!((horizon + 0.65).abs() < 0.02, "{horizon}");
}

#[test]
fn ref_null_fill_of_unequal_halves() {
    // Computed: 4 bays 70/30, at the first null −17.1 dB with the element's own fall, gain from 6.36 to 6.17 dBd.
    let s = stack(ElementKind::Vertical, 4, 0.9);
    let heights: Vec<f64> = s.bays.iter().map(|b| b.position_m[2]).collect();
    let wanted = tilted_and_filled(&heights, 98.0, 0.0, 0.7).unwrap();
    let currents: Vec<C64> = wanted.iter().map(|e| C64::from(e.share.sqrt())).collect();
    let pattern = Pattern::with_currents(&s, &currents, 1.0).unwrap();
    let null = first_null_deg(4, 0.9 * wavelength_m(98.0), 98.0).unwrap();
    assert!((pattern.peak(Plane::Vertical).gain_dbd - 6.17).abs() < 0.05);
    let got = pattern.gain_dbd(Plane::Vertical, 0.0, -null) - pattern.peak(Plane::Vertical).gain_dbd;
    assert!((got + 17.1).abs() < 0.06, "{got}");
    // The closed form leaves out the element: cos(½π sin ε)/cos ε.
    let e = null.to_radians();
    let element_db = 20.0 * ((std::f64::consts::FRAC_PI_2 * e.sin()).cos() / e.cos()).log10();
    let fill = null_fill_by_halves(4, 0.7).unwrap();
    assert!((got - fill.fill_db - element_db).abs() < 0.05, "{got}");
}

#[test]
fn ref_beam_width_and_null_of_usual_stacks() {
    // Twice computed: N = 4 14.3° and 16.13°, N = 8 7.1°.
    for (n, width, gain) in [(4, 14.3, 6.36), (8, 7.1, 9.40)] {
        let s = stack(ElementKind::Vertical, n, 0.9);
        let pattern = Pattern::with_currents(&s, &vec![C64::from(1.0); n], 1.0).unwrap();
        let cut = pattern.vertical_cut(Plane::Vertical, 77.0, 3600);
        assert!((cut.half_power_width_deg().unwrap() - width).abs() < 0.1);
        assert!((cut.peak().1 - gain).abs() < 0.05);
        if n == 4 {
            let null = cut.nulls(25.0).into_iter().find(|n| n.angle_deg > 0.0).unwrap();
            assert!((null.angle_deg - 16.13).abs() < 0.2, "{null:?}");
        }
    }
}

#[test]
fn prop_sampled_pattern_is_the_array_model() {
    for (n, stand_off_m) in [(4, 0.8), (16, 1.4)] {
        let plan = StackPlan {
            frequency_mhz: 98.0,
            bays: n,
            spacing_m: 2.75,
            element: ElementKind::Slant { lean_deg: 45.0 },
            bearing_deg: 200.0,
            pole_radius_m: Some(0.05),
            stand_off_m,
        };
        let s = plan.stack().unwrap();
        let currents: Vec<C64> = (0..n).map(|i| C64::from_polar(1.0, 0.3 * i as f64)).collect();
        let pattern = Pattern::with_currents(&s, &currents, 1.0).unwrap();
        let r = Radiator::new(&s, &currents).unwrap();
        let scale = 4.0 * std::f64::consts::PI / r.sphere_integral() / antenna::array::HALF_WAVE_DIRECTIVITY;
        let peaks = Plane::BOTH.map(|p| pattern.peak(p).gain_dbd);
        let mut worst = 0.0f64;
        for i in 0..3000 {
            let d = Direction::new(f64::from(i) * 137.508 % 360.0, f64::from(i % 179) - 89.3);
            for plane in Plane::BOTH {
                let exact_dbd = 10.0 * (scale * r.field(d).plane(plane).norm_sqr()).log10();
                let peak = peaks[plane as usize];
                if exact_dbd > peak - 20.0 {
                    let error = (pattern.gain_dbd(plane, d.bearing_deg, d.elev_deg) - exact_dbd).abs();
                    worst = worst.max(error * if exact_dbd > peak - 10.0 { 1.0 } else { 0.3 });
                }
                assert!(pattern.strongest_dbd(plane, d.bearing_deg) > exact_dbd - 0.05);
            }
        }
        println!("{n} bays: worst distance {worst:.4} dB");
        assert!(worst < 0.05, "{n} bays: {worst}");
    }
}

#[test]
fn prop_power_is_kept_by_a_reactive_feed() {
    let s = stack(ElementKind::Vertical, 6, 0.85);
    for (f, loss) in [(98.0, 0.0), (92.0, 0.0), (104.0, 0.2)] {
        let feed = Feed::equal(Splitter::quarter_wave(6, 98.0, loss), 6, lossless(50.0, 4.2));
        let fed = feed.solve(&s.at_frequency(f)).unwrap();
        if loss == 0.0 {
            assert!((fed.radiated_w - fed.accepted_w()).abs() < 1e-9);
        } else {
            assert!(fed.radiated_w < fed.accepted_w());
        }
    }
}

#[test]
fn prop_a_dead_bay_carries_nothing_and_an_isolated_splitter_shields_the_rest() {
    let s = stack(ElementKind::Vertical, 4, 0.9);
    for end in [End::Open, End::Short] {
        let mut feed = Feed::equal(Splitter::Isolated { excess_loss_db: 0.0 }, 4, lossless(50.0, 3.0));
        let healthy = feed.solve(&s).unwrap();
        feed.branches[1].end = end;
        let fed = feed.solve(&s).unwrap();
        assert!(fed.bay_w[1].abs() < 1e-6);
        assert!((fed.branch_reflection[1].norm() - 1.0).abs() < 1e-6);
        assert!(fed.radiated_w < healthy.radiated_w * 0.8);
        // The in-phase part of what returns reaches the input: a quarter of the field here, coupling changes it a little.
        assert!(
            (fed.input_reflection.norm() - 0.25).abs() < 0.06,
            "{}",
            fed.input_reflection
        );
        let healthy_share = healthy.branch_forward_w[0];
        assert!(
            fed.branch_forward_w
                .iter()
                .all(|w| (w / healthy_share - 1.0).abs() < 1e-9)
        );
        if end == End::Open {
            assert!(fed.currents_a[1].norm() < 1e-6);
        }
        feed.splitter = Splitter::quarter_wave(4, 98.0, 0.0);
        let forward = feed.solve(&s).unwrap().branch_forward_w;
        assert!(
            (forward[0] / healthy_share - 1.0).abs() > 0.02,
            "a node passes the disturbance on"
        );
    }
}

#[test]
fn prop_trimmed_harness_gives_the_wanted_phases() {
    let s = stack(ElementKind::Horizontal, 6, 0.9);
    let heights: Vec<f64> = s.bays.iter().map(|b| b.position_m[2]).collect();
    let wanted = tilted_and_filled(&heights, 98.0, 2.0, 0.6).unwrap();
    let line = LineConstants::new(0.2109, 0.000611, 0.88, 50.0).unwrap();
    let isolated = Splitter::Isolated { excess_loss_db: 0.1 };
    let feed = Feed::for_excitation(isolated, &wanted, line, 4.0, 98.0).unwrap();
    let phases: Vec<f64> = wanted.iter().map(|e| e.phase_deg).collect();
    let (trimmed, left_deg) = trimmed(&feed, &s, &phases).unwrap();
    assert!(left_deg < 0.05, "{left_deg}");
    let moved = trimmed
        .branches
        .iter()
        .zip(&feed.branches)
        .map(|(a, b)| (a.cable.length_m - b.cable.length_m).abs());
    assert!(moved.fold(0.0, f64::max) > 0.005);
}

#[test]
fn prop_tolerance_band_holds_the_design_and_repeats() {
    let s = stack(ElementKind::Vertical, 4, 0.9);
    let feed = Feed::equal(Splitter::quarter_wave(4, 98.0, 0.1), 4, lossless(50.0, 4.0));
    let towards = [Direction::new(0.0, 0.0), Direction::new(0.0, -16.13)];
    let trials = Trials {
        sigma_mm: 20.0,
        count: 300,
        seed: 7,
    };
    let band = tolerance_band(&s, &feed, Plane::Vertical, &towards, trials).unwrap();
    assert_eq!(
        band,
        tolerance_band(&s, &feed, Plane::Vertical, &towards, trials).unwrap()
    );
    // Cutting errors can only take from a broadside peak, and fill a null.
    assert!(band[0].designed_dbd >= band[0].p95_dbd - 0.02 && band[0].p05_dbd > band[0].designed_dbd - 0.3);
    assert!(band[1].p50_dbd > band[1].designed_dbd);
}

#[test]
fn bad_feeds_are_named() {
    let s = stack(ElementKind::Vertical, 2, 0.9);
    let plain = Splitter::Reactive {
        excess_loss_db: 0.0,
        input: InputMatch::Plain,
    };
    assert!(
        Feed::equal(plain.clone(), 3, lossless(50.0, 1.0))
            .solve(&s)
            .unwrap_err()
            .to_string()
            .contains("3 entries")
    );
    assert!(
        Feed::equal(plain.clone(), 2, lossless(50.0, -1.0))
            .solve(&s)
            .is_err()
    );
    let mut silent = Feed::equal(plain, 2, lossless(50.0, 1.0));
    silent.branches.iter_mut().for_each(|b| b.share = 0.0);
    assert!(silent.solve(&s).unwrap_err().to_string().contains("share"));
    assert!(
        Pattern::with_currents(&s, &[C64::default(); 2], 1.0)
            .unwrap_err()
            .to_string()
            .contains("radiates")
    );
}
