//! Bays put together against bays solved together.
#![allow(clippy::unwrap_used, reason = "tests")]

use super::super::solved::Solved;
use super::super::{Heard, Mask};
use super::*;
use crate::direction::Direction;
use crate::line::wavelength_m;
use crate::mount::{Mast, MastPlace, WireElement};

struct All;

impl Audience for All {
    fn directions(&self) -> &[Direction] {
        &[]
    }
    fn heard(&self) -> Heard {
        Heard::Stronger
    }
    fn people(&self, _: &[f32]) -> f64 {
        0.0
    }
    fn people_behind(&self, _: usize, _: f32) -> f64 {
        0.0
    }
}

/// Largest difference of impedances against the largest of them, and of fields against the strongest.
fn differs(element: WireElement, mast: Mast, bearings_deg: &[f64]) -> (f64, f64) {
    let place = MastPlace {
        bearing_deg: 0.0,
        stand_off_m: 0.9,
    };
    let bays = bearings_deg.len();
    let mut plan = MountPlan::even(98.0, bays, 0.9 * wavelength_m(98.0), element, place, mast);
    for (bay, bearing) in plan.bays.iter_mut().zip(bearings_deg) {
        (bay.bearing_deg, bay.facing_deg) = (*bearing, *bearing);
    }
    let bounds = Bounds {
        masks: vec![Mask {
            plane: None,
            dbw: vec![30.0],
        }],
        power_w: 1.0,
        bay_w: None,
        stand_off_m: (0.5, 1.4),
        share_spread_db: 10.0,
    };
    let mut apart = Apart::new(&plan, &All, &bounds);
    apart.prepare(std::slice::from_ref(&plan));
    let (ohm, alone) = apart.together(&plan).unwrap().unwrap();
    let mounted = plan.solved().unwrap();
    let full = Solved::new(plan.clone(), &mounted, &bounds);
    let want = mounted.ports_ohm();
    let (mut most_ohm, mut off_ohm) = (0.0f64, 0.0f64);
    for i in 0..bays {
        for j in 0..bays {
            most_ohm = most_ohm.max(want[(i, j)].norm());
            off_ohm = off_ohm.max((want[(i, j)] - ohm[(i, j)]).norm());
        }
    }
    let (mut strongest, mut off) = (0.0f32, 0.0f32);
    for (a, b) in alone.iter().zip(full.alone()) {
        for (x, y) in a.cells.iter().flatten().zip(b.cells.iter().flatten()) {
            strongest = strongest.max(y.norm());
            off = off.max((x - y).norm());
        }
    }
    (off_ohm / most_ohm, f64::from(off / strongest))
}

#[test]
fn verif_bays_put_together_are_those_solved_together() {
    let lattice = Mast::Lattice {
        legs: 3,
        face_m: 0.4,
        panel_m: 0.48,
        leg_radius_m: 0.017,
        horizontal_radius_m: 0.008,
        diagonal_radius_m: 0.008,
        face_bearing_deg: 20.0,
    };
    let pole = Mast::Pole { radius_m: 0.045 };
    let tube = Mast::Pole { radius_m: 0.15 };
    let crossed = WireElement::Crossed { right_handed: true };
    let yagi = WireElement::Yagi { upright: true };
    // A yagi's rods answer their neighbours in more shapes than that of an even field.
    for (what, element, mast, bearings_deg, field_limit) in [
        (
            "upright, lattice",
            WireElement::Vertical,
            lattice,
            &[0.0, 130.0, 250.0][..],
            0.005,
        ),
        (
            "upright, pole",
            WireElement::Vertical,
            pole,
            &[10.0, 35.0, 240.0],
            0.005,
        ),
        (
            "upright, tube",
            WireElement::Vertical,
            tube,
            &[10.0, 140.0],
            0.005,
        ),
        (
            "level, lattice",
            WireElement::Horizontal,
            lattice,
            &[300.0, 60.0],
            0.005,
        ),
        ("crossed, lattice", crossed, lattice, &[40.0, 160.0], 0.005),
        ("yagi, pole", yagi, pole, &[40.0, 160.0], 0.04),
    ] {
        let (ohm, field) = differs(element, mast, bearings_deg);
        println!(
            "{what}: {:.3} % of the impedance, {:.2} % of the field",
            100.0 * ohm,
            100.0 * field
        );
        assert!(ohm < 0.001 && field < field_limit, "{what}: {ohm} {field}");
    }
}
