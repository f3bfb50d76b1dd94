//! Thin wires against physics that needs no other program: symmetry, reciprocity, energy, closed forms.

use antenna::wires::far_field::Direction;
use antenna::wires::grid::{FieldGrid, plain};
use antenna::wires::{
    Complex, Ground, Load, Port, Standing, Wire, WireModel, directivity_dbi, solve, solve_on,
};

const RADIUS_M: f64 = 0.008;

fn dipole(name: &str, middle: [f64; 3], along: [f64; 3]) -> Wire {
    let half = 0.71;
    let end = |sign: f64| [0, 1, 2].map(|i| middle[i] + sign * half * along[i]);
    Wire::new(name, end(-1.0), end(1.0), RADIUS_M)
}

fn model(wires: Vec<Wire>, fed: &[usize]) -> WireModel {
    let ports = fed
        .iter()
        .map(|wire| Port {
            wire: *wire,
            position: 0.5,
        })
        .collect();
    WireModel {
        wires,
        ports,
        frequency_mhz: 98.0,
        ..Default::default()
    }
}

/// Triangular lattice of `panels`, sides of 0.4 m, turned by `turn` about the z axis.
fn lattice(panels: usize, turn: f64) -> Vec<Wire> {
    let corner = |leg: usize, level: usize| {
        let (sin, cos) = (turn + std::f64::consts::TAU * (leg % 3) as f64 / 3.0).sin_cos();
        [
            0.2309401 * cos,
            0.2309401 * sin,
            0.4 * (level as f64 - 0.5 * panels as f64),
        ]
    };
    let mut wires = Vec::new();
    for level in 0..panels {
        for leg in 0..3 {
            let member = |name: &str, a, b, radius| Wire::new(format!("{name}{leg}.{level}"), a, b, radius);
            wires.push(member("leg", corner(leg, level), corner(leg, level + 1), 0.015));
            wires.push(member(
                "brace",
                corner(leg, level),
                corner(leg + 1, level + 1),
                0.005,
            ));
            // Every other member runs backwards: direction must not matter.
            let (a, b) = (corner(leg, level + 1), corner(leg + 1, level + 1));
            wires.push(if leg == 1 {
                member("bar", b, a, 0.006)
            } else {
                member("bar", a, b, 0.006)
            });
        }
    }
    for wire in &mut wires {
        wire.segments = Some(2);
    }
    wires
}

fn beside_lattice(turn: f64) -> WireModel {
    let mut wires = lattice(6, 0.0);
    let (sin, cos) = turn.sin_cos();
    wires.push(dipole("bay", [0.9 * cos, 0.9 * sin, 0.1], [0.0, 0.0, 1.0]));
    let bay = wires.len() - 1;
    model(wires, &[bay])
}

#[test]
fn verif_thin_half_wave_dipole_has_the_textbook_gain() {
    // 1.64 = 2.15 dBi, sinusoidal current on a half wave (Balanis, Kraus: from memory).
    let half = 0.25 * 299.792_458 / 98.0;
    let thin = Wire::new("thin", [0.0, 0.0, -half], [0.0, 0.0, half], 1e-5);
    let solution = solve(&model(vec![thin], &[0])).unwrap();
    let drive = solution.drive(&[Complex::ONE]);
    let field = solution.far_field.at(
        &drive.currents,
        &[Direction {
            azimuth_deg: 0.0,
            elevation_deg: 0.0,
        }],
    )[0];
    let gain = directivity_dbi(field[0], drive.input_power_w);
    assert!((gain - 2.15).abs() < 0.03, "{gain}");
}

#[test]
fn verif_moving_and_turning_everything_changes_nothing() {
    let bays = |turn: f64, shift: [f64; 3]| {
        let (sin, cos) = turn.sin_cos();
        let place = |x: f64, y: f64, z: f64| {
            [
                x * cos - y * sin + shift[0],
                x * sin + y * cos + shift[1],
                z + shift[2],
            ]
        };
        let wires = vec![
            dipole("a", place(0.8, 0.0, 0.0), [0.0, 0.0, 1.0]),
            dipole("b", place(0.8, 0.3, 2.1), [-0.6 * sin, 0.6 * cos, 0.8]),
            Wire::new("pole", place(0.0, 0.0, -2.0), place(0.0, 0.0, 4.0), 0.03),
        ];
        solve(&model(wires, &[0, 1])).unwrap().impedance().unwrap()
    };
    let (still, moved) = (bays(0.0, [0.0; 3]), bays(1.234, [10.3, -4.1, 7.7]));
    for (a, b) in still.iter().flatten().zip(moved.iter().flatten()) {
        assert!((a - b).norm() < 1e-9 * still[0][0].norm(), "{a} {b}");
    }
}

#[test]
fn verif_turning_a_wire_round_flips_the_sign_of_its_source_only() {
    let one = dipole("a", [0.0; 3], [0.0, 0.0, 1.0]);
    let two = dipole("b", [0.7, 0.2, 0.5], [0.0, 0.6, 0.8]);
    let back = Wire {
        start_m: two.end_m,
        end_m: two.start_m,
        ..two.clone()
    };
    let y = |second| {
        solve(&model(vec![one.clone(), second], &[0, 1]))
            .unwrap()
            .admittance
    };
    let (plus, minus) = (y(two), y(back));
    let allowed = 1e-7 * plus[0][0].norm();
    assert!((plus[0][0] - minus[0][0]).norm() < allowed && (plus[1][1] - minus[1][1]).norm() < allowed);
    assert!((plus[0][1] + minus[0][1]).norm() < allowed);
}

#[test]
fn verif_splitting_a_wire_where_two_segments_meet_changes_nothing() {
    let whole = Wire {
        segments: Some(40),
        ..Wire::new("pole", [0.0, 0.0, -3.0], [0.0, 0.0, 3.0], 0.03)
    };
    let halves = [(-3.0, 0.0), (0.0, 3.0)].map(|(a, b)| Wire {
        segments: Some(20),
        ..Wire::new(format!("pole from {a}"), [0.0, 0.0, a], [0.0, 0.0, b], 0.03)
    });
    let bay = dipole("bay", [0.75, 0.0, 0.2], [0.0, 0.0, 1.0]);
    let z = |mut wires: Vec<Wire>| {
        wires.insert(0, bay.clone());
        solve(&model(wires, &[0])).unwrap().impedance().unwrap()[0][0]
    };
    let (one, two) = (z(vec![whole]), z(halves.to_vec()));
    assert!((one - two).norm() < 1e-9 * one.norm(), "{one} {two}");
}

#[test]
fn verif_a_pole_twenty_wavelengths_away_hardly_matters() {
    let bay = dipole("bay", [0.0; 3], [0.0, 0.0, 1.0]);
    let far = 20.0 * 299.792_458 / 98.0;
    let pole = Wire::new("pole", [far, 0.0, -3.0], [far, 0.0, 3.0], 0.03);
    let z = |wires| solve(&model(wires, &[0])).unwrap().impedance().unwrap()[0][0];
    let (alone, beside) = (z(vec![bay.clone()]), z(vec![bay, pole]));
    assert!((alone - beside).norm() < 0.01 * alone.norm());
}

#[test]
fn prop_reciprocity_passivity_and_power_balance_beside_a_lattice() {
    let mut wires = lattice(6, 0.2);
    wires.push(dipole("a", [0.9, 0.0, -0.9], [0.0, 0.0, 1.0]));
    wires.push(dipole("b", [0.0, 1.0, 0.9], [0.8, 0.0, 0.6]));
    let ports = [wires.len() - 2, wires.len() - 1];
    let solution = solve(&model(wires, &ports)).unwrap();
    assert_eq!(
        solution.mesh.rotation.order, 3,
        "the lattice repeats every third of a turn"
    );
    let health = solution.health(&solution.drive(&[Complex::ONE, Complex::new(0.3, -0.8)]));
    assert!(health.asymmetry < 1e-10, "{health:?}");
    assert!(health.passive, "{health:?}");
    assert!((health.power_balance - 1.0).abs() < 0.001, "{health:?}");
}

#[test]
fn prop_the_repeating_mast_gives_what_the_plain_matrix_gives() {
    let with = beside_lattice(0.4);
    // A load of nothing in one member forbids the short cut and changes no physics.
    let mut without = with.clone();
    without.loads.push(Load {
        wire: 7,
        position: 0.5,
        ohm: Complex::ZERO,
    });
    let (a, b) = (solve(&with).unwrap(), solve(&without).unwrap());
    assert_eq!((a.mesh.rotation.order, b.mesh.rotation.order), (3, 0));
    let (za, zb) = (a.impedance().unwrap()[0][0], b.impedance().unwrap()[0][0]);
    assert!((za - zb).norm() < 2e-5 * za.norm(), "{za} {zb}");
    let directions: Vec<_> = (0..36)
        .map(|i| Direction {
            azimuth_deg: 10.0 * f64::from(i),
            elevation_deg: 5.0,
        })
        .collect();
    let (fa, fb) = (
        a.far_field.at(&a.embedded[0], &directions),
        b.far_field.at(&b.embedded[0], &directions),
    );
    let largest = fa.iter().map(|f| f[0].norm()).fold(0.0, f64::max);
    for (x, y) in fa.iter().flatten().zip(fb.iter().flatten()) {
        assert!((x - y).norm() < 1e-4 * largest, "{x} {y}");
    }
}

#[test]
fn prop_a_third_of_a_turn_of_the_bay_changes_nothing() {
    let third = std::f64::consts::TAU / 3.0;
    let z = |turn| solve(&beside_lattice(turn)).unwrap().impedance().unwrap()[0][0];
    let (a, b) = (z(0.4), z(0.4 + third));
    assert!((a - b).norm() < 1e-6 * a.norm(), "{a} {b}");
}

#[test]
fn prop_the_interpolated_pattern_is_the_plain_one() {
    for (ground, lift) in [(Ground::FreeSpace, 0.0), (Ground::Perfect, 9.0)] {
        let mut lifted = beside_lattice(0.4);
        lifted
            .wires
            .push(dipole("second", [1.1, 0.2, 1.6], [0.0, 0.6, 0.8]));
        lifted.ports.push(Port {
            wire: lifted.wires.len() - 1,
            position: 0.5,
        });
        lifted.ground = ground;
        for wire in &mut lifted.wires {
            wire.start_m[2] += lift;
            wire.end_m[2] += lift;
        }
        let solution = solve(&lifted).unwrap();
        let elevations: Vec<f64> = (-45..=45).map(|i| 2.0 * f64::from(i)).collect();
        let azimuths: Vec<f64> = (0..181).map(|i| 2.0 * f64::from(i)).collect();
        let sets: Vec<_> = solution.embedded.iter().collect();
        let quick = FieldGrid::of_all(&solution.far_field, &sets, &elevations, &azimuths);
        let slow = plain(&solution.far_field, &sets, &elevations, &azimuths);
        for (quick, slow) in quick.iter().zip(&slow) {
            let largest = slow.fields.iter().flatten().map(|f| f.norm()).fold(0.0, f64::max);
            let worst = quick
                .fields
                .iter()
                .flatten()
                .zip(slow.fields.iter().flatten())
                .map(|(a, b)| (a - b).norm() / largest);
            let worst = worst.fold(0.0, f64::max);
            assert!(worst < 1e-5, "{ground:?}: {worst}");
        }
    }
}

#[test]
fn verif_loads_take_their_share_of_the_power() {
    let wire = dipole("a", [0.0; 3], [0.0, 0.0, 1.0]);
    let mut loaded = model(vec![wire], &[0]);
    let bare = solve(&loaded).unwrap().impedance().unwrap()[0][0];
    // A resistor beside the source, in series with it: the impedance grows by just that.
    loaded.loads.push(Load {
        wire: 0,
        position: 0.5,
        ohm: Complex::new(25.0, 10.0),
    });
    let solution = solve(&loaded).unwrap();
    let z = solution.impedance().unwrap()[0][0];
    assert!((z - bare - Complex::new(25.0, 10.0)).norm() < 1e-9);
    let drive = solution.drive(&[Complex::ONE]);
    assert!((drive.load_loss_w / drive.input_power_w - 25.0 / z.re).abs() < 1e-9);
    assert!((solution.health(&drive).power_balance - 1.0).abs() < 1e-3);
}

#[test]
fn prop_a_mast_kept_factored_gives_the_same_antenna() {
    let pole = |turn: f64| {
        let bay = dipole("bay", [0.8 * turn.cos(), 0.8 * turn.sin(), 0.1], [0.0, 0.0, 1.0]);
        model(
            vec![bay, Wire::new("pole", [0.0, 0.0, -3.0], [0.0, 0.0, 3.0], 0.03)],
            &[0],
        )
    };
    for build in [beside_lattice, pole] {
        let standing = Standing::default();
        for turn in [0.0, 0.4, 1.7, 1.7] {
            let model = build(turn);
            let (plain, kept) = (solve(&model).unwrap(), solve_on(&model, &standing).unwrap());
            let (a, b) = (plain.impedance().unwrap()[0][0], kept.impedance().unwrap()[0][0]);
            assert!((a - b).norm() < 1e-7 * a.norm(), "{turn}: {a} {b}");
        }
        // Another frequency is another matrix: the kept one must not serve it.
        let other = WireModel {
            frequency_mhz: 101.0,
            ..build(0.4)
        };
        let (plain, kept) = (solve(&other).unwrap(), solve_on(&other, &standing).unwrap());
        let (a, b) = (plain.impedance().unwrap()[0][0], kept.impedance().unwrap()[0][0]);
        assert!((a - b).norm() < 1e-7 * a.norm(), "{a} {b}");
    }
}
