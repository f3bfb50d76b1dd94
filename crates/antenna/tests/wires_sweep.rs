//! A band from few solutions is the band from all solutions.

use antenna::wires::sweep::sweep;
use antenna::wires::{Complex, Port, Wire, WireModel, solve};

/// Two bays beside a pole, the pole long enough to have resonances of its own in the band.
fn stack() -> WireModel {
    let bay = |z: f64| {
        Wire::new(
            format!("bay at {z}"),
            [0.75, 0.0, z - 0.71],
            [0.75, 0.0, z + 0.71],
            0.008,
        )
    };
    WireModel {
        wires: vec![
            bay(-1.4),
            bay(1.4),
            Wire::new("pole", [0.0, 0.0, -3.1], [0.0, 0.0, 3.1], 0.03),
        ],
        ports: [0, 1].map(|wire| Port { wire, position: 0.5 }).to_vec(),
        frequency_mhz: 98.0,
        ..Default::default()
    }
}

#[test]
fn prop_21_frequencies_from_under_half_as_many_solutions() {
    let frequencies: Vec<f64> = (0..21).map(|i| 87.5 + 20.5 * f64::from(i) / 20.0).collect();
    let model = stack();
    let swept = sweep(&model, &frequencies, 1e-3).unwrap();
    let solved = swept.solved.iter().filter(|s| **s).count();
    let fixed: Vec<usize> = (0..3)
        .map(|w| {
            swept.solutions[0]
                .mesh
                .segments
                .iter()
                .filter(|s| s.wire == w)
                .count()
        })
        .collect();
    let mut worst = 0.0f64;
    for (&frequency_mhz, quick) in frequencies.iter().zip(&swept.solutions) {
        let mut same_mesh = WireModel {
            frequency_mhz,
            ..model.clone()
        };
        same_mesh
            .wires
            .iter_mut()
            .zip(&fixed)
            .for_each(|(w, n)| w.segments = Some(*n));
        let plain = solve(&same_mesh).unwrap();
        let (a, b) = (quick.impedance().unwrap(), plain.impedance().unwrap());
        for (a, b) in a.iter().flatten().zip(b.iter().flatten()) {
            worst = worst.max((a - b).norm() / plain.impedance().unwrap()[0][0].norm());
        }
        let drive = quick.drive(&[Complex::ONE, Complex::ONE]);
        assert!(
            (quick.health(&drive).power_balance - 1.0).abs() < 0.002,
            "{frequency_mhz}"
        );
    }
    println!(
        "{solved} of 21 solved, check {:.1e}, worst impedance {worst:.1e} of |Z11|",
        swept.check
    );
    assert!(solved <= 9, "{solved} solved");
    assert!(worst < 1e-4, "{worst}");
}

#[test]
fn prop_a_short_list_is_simply_solved() {
    let swept = sweep(&stack(), &[97.0, 98.0], 1e-4).unwrap();
    assert!(swept.solved.iter().all(|s| *s));
}

#[test]
fn bad_frequencies_that_do_not_rise() {
    let fault = sweep(&stack(), &[98.0, 97.0], 1e-4).unwrap_err().to_string();
    assert!(fault.contains("97\u{a0}MHz"), "{fault}");
}
