//! Masts as wires: pole, tube, triangular and square lattice.

use serde::{Deserialize, Serialize};

use super::MountError;
use crate::array::within;
use crate::direction::Direction;
use crate::line::wavelength_m;
use crate::wires::{Wire, WireModel};

/// Radius in wavelengths up to which one wire stands for a pole; above it a cage does (found by comparing both).
const ONE_WIRE: f64 = 1.0 / 50.0;
/// Wires of a cage; 6 and 12 agree to 0.02 dB.
const CAGE: usize = 8;

/// What carries the bays.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "kind")]
pub enum Mast {
    /// Nothing.
    None,
    /// A round pole or tube.
    Pole {
        /// Radius, m.
        radius_m: f64,
    },
    /// A lattice of three or four legs, a horizontal at every node and one diagonal a panel and face, zigzag.
    Lattice {
        /// Legs: 3 or 4.
        legs: usize,
        /// Width of a face between leg axes, m.
        face_m: f64,
        /// Height of a panel, m.
        panel_m: f64,
        /// Radius of a leg, m (an angle with legs w counts as 0.4 w).
        leg_radius_m: f64,
        /// Radius of a horizontal, m.
        horizontal_radius_m: f64,
        /// Radius of a diagonal, m.
        diagonal_radius_m: f64,
        /// Where the middle of one face looks, degrees clockwise from true north.
        face_bearing_deg: f64,
    },
}

impl Mast {
    /// Largest distance of its conductors' surface from the axis, m.
    pub fn reach_m(&self) -> f64 {
        match *self {
            Mast::None => 0.0,
            Mast::Pole { radius_m } => radius_m,
            Mast::Lattice {
                legs,
                face_m,
                leg_radius_m,
                ..
            } => circumradius_m(legs, face_m) + leg_radius_m,
        }
    }

    /// Turn about its axis after which it looks the same, degrees; none for a mast that is round or absent.
    pub fn repeats_deg(&self) -> Option<f64> {
        match *self {
            Mast::Lattice { legs, .. } => Some(360.0 / legs as f64),
            _ => None,
        }
    }

    pub(crate) fn check(&self) -> Result<(), MountError> {
        match *self {
            Mast::None => {}
            Mast::Pole { radius_m } => {
                let ok = radius_m > 0.0 && radius_m < 2.0;
                within("radius-of-the-pole-in-m", radius_m, ok, "above-0-and-below-2")?;
            }
            Mast::Lattice {
                legs,
                face_m,
                panel_m,
                leg_radius_m,
                horizontal_radius_m,
                diagonal_radius_m,
                face_bearing_deg,
            } => {
                within(
                    "number-of-legs",
                    legs as f64,
                    legs == 3 || legs == 4,
                    "three-or-four",
                )?;
                within(
                    "face-of-the-lattice-in-m",
                    face_m,
                    face_m > 0.05 && face_m < 10.0,
                    "from-0-05-to-10",
                )?;
                within(
                    "panel-of-the-lattice-in-m",
                    panel_m,
                    panel_m > 0.05 && panel_m < 10.0,
                    "from-0-05-to-10",
                )?;
                within(
                    "bearing-of-the-face-in-degrees",
                    face_bearing_deg,
                    true,
                    "a-finite-bearing",
                )?;
                for (what, r) in [
                    ("radius-of-the-legs-in-m", leg_radius_m),
                    ("radius-of-the-horizontals-in-m", horizontal_radius_m),
                    ("radius-of-the-diagonals-in-m", diagonal_radius_m),
                ] {
                    within(
                        what,
                        r,
                        r > 0.0 && r < face_m / 4.0,
                        "above-0-and-below-a-quarter-of-the-face",
                    )?;
                }
            }
        }
        Ok(())
    }

    /// Puts the mast between two heights into a model; a lattice is built of whole panels about the middle. `level` says whether
    /// anything before it is level, so that a cage needs rings all along.
    pub(crate) fn add_to(&self, model: &mut WireModel, low_m: f64, high_m: f64, level: bool) {
        match *self {
            Mast::None => {}
            Mast::Pole { radius_m } if radius_m <= ONE_WIRE * wavelength_m(model.frequency_mhz) => {
                model
                    .wires
                    .push(Wire::new("pole", [0.0, 0.0, low_m], [0.0, 0.0, high_m], radius_m));
            }
            Mast::Pole { radius_m } => cage(model, radius_m, low_m, high_m, level),
            Mast::Lattice { .. } => self.lattice(model, low_m, high_m),
        }
    }

    fn lattice(&self, model: &mut WireModel, low_m: f64, high_m: f64) {
        let Mast::Lattice {
            legs,
            face_m,
            panel_m,
            leg_radius_m,
            horizontal_radius_m,
            diagonal_radius_m,
            face_bearing_deg,
        } = *self
        else {
            return;
        };
        let panels = ((high_m - low_m) / panel_m - 1e-6).ceil().max(1.0) as usize;
        let (middle, out) = ((low_m + high_m) / 2.0, circumradius_m(legs, face_m));
        let node = |leg: usize, level: usize| {
            let turn = (0.5 - (leg % legs) as f64) * 360.0 / legs as f64 - 360.0 / legs as f64;
            let d = Direction::new(face_bearing_deg + turn, 0.0).unit();
            [
                out * d[0],
                out * d[1],
                middle + (level as f64 - panels as f64 / 2.0) * panel_m,
            ]
        };
        let mut add = |what: &str, leg: usize, level: usize, from, to, radius_m| {
            model.wires.push(Wire::new(
                format!("{what}{}.{level}", leg + 1),
                from,
                to,
                radius_m,
            ));
        };
        for level in 0..=panels {
            for leg in 0..legs {
                if level < panels {
                    add(
                        "leg",
                        leg,
                        level + 1,
                        node(leg, level),
                        node(leg, level + 1),
                        leg_radius_m,
                    );
                    // Diagonals zigzag: each starts where the one below ends.
                    let (foot, head) = if level % 2 == 0 {
                        (leg, leg + 1)
                    } else {
                        (leg + 1, leg)
                    };
                    add(
                        "diag",
                        leg,
                        level + 1,
                        node(foot, level),
                        node(head, level + 1),
                        diagonal_radius_m,
                    );
                }
                add(
                    "horiz",
                    leg,
                    level,
                    node(leg, level),
                    node(leg + 1, level),
                    horizontal_radius_m,
                );
            }
        }
    }
}

/// Distance of a leg's axis from the mast's, m.
fn circumradius_m(legs: usize, face_m: f64) -> f64 {
    face_m / (2.0 * (std::f64::consts::PI / legs as f64).sin())
}

/// A thick tube as upright wires on its circle, each of radius ρ/n (rule of equal surface, common practice), with rings at both
/// ends, and every tenth of a wavelength where something level stands before it.
fn cage(model: &mut WireModel, radius_m: f64, low_m: f64, high_m: f64, level: bool) {
    let wire_m = radius_m / CAGE as f64;
    let pitch_m = if level {
        wavelength_m(model.frequency_mhz) / 10.0
    } else {
        high_m - low_m
    };
    let rings = ((high_m - low_m) / pitch_m).round().max(1.0) as usize;
    let node = |i: usize, ring: usize| {
        let a = std::f64::consts::TAU * (i % CAGE) as f64 / CAGE as f64;
        [
            radius_m * a.cos(),
            radius_m * a.sin(),
            low_m + (high_m - low_m) * ring as f64 / rings as f64,
        ]
    };
    for ring in 0..=rings {
        for i in 0..CAGE {
            let name = |what: &str| format!("tube.{what}{}.{ring}", i + 1);
            if ring < rings {
                model
                    .wires
                    .push(Wire::new(name("wire"), node(i, ring), node(i, ring + 1), wire_m));
            }
            model
                .wires
                .push(Wire::new(name("ring"), node(i, ring), node(i + 1, ring), wire_m));
        }
    }
}
