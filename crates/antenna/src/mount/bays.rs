//! Bays as wires: dipoles, crossed and slant, small yagis and panels, scaled to the frequency.

use std::f64::consts::FRAC_1_SQRT_2;
use std::ops::Range;

use num_complex::Complex64 as C64;
use serde::{Deserialize, Serialize};

use crate::array::ElementKind;
use crate::direction::{Direction, Vec3};
use crate::line::wavelength_m;
use crate::wires::{Port, Wire, WireModel};

/// What a bay is made of. Lengths scale with the wavelength; tubes are 16 mm (panel: 20 mm, rods 10 mm).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "kind")]
pub enum WireElement {
    /// An upright dipole.
    Vertical,
    /// A level dipole across the direction it faces.
    Horizontal,
    /// A dipole across the direction it faces, leaning from upright.
    Slant {
        /// Lean from upright, degrees, to the left as seen from behind.
        lean_deg: f64,
    },
    /// Upright and level dipole 50 mm apart, in quadrature.
    Crossed {
        /// Right-handed to the front.
        right_handed: bool,
    },
    /// Two level dipoles at right angles, 50 mm apart in height, in quadrature.
    Turnstile,
    /// Reflector, driven dipole and director.
    Yagi {
        /// Upright, else level.
        upright: bool,
    },
    /// Two upright dipoles one above the other before nine upright rods.
    Panel,
}

impl From<ElementKind> for WireElement {
    /// The same bay as wires.
    fn from(kind: ElementKind) -> Self {
        match kind {
            ElementKind::Vertical => Self::Vertical,
            ElementKind::Horizontal => Self::Horizontal,
            ElementKind::Slant { lean_deg } => Self::Slant { lean_deg },
            ElementKind::Crossed { right_handed } => Self::Crossed { right_handed },
            ElementKind::Turnstile => Self::Turnstile,
        }
    }
}

/// One bay of a plan.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct BayPlan {
    /// What it is.
    pub element: WireElement,
    /// Height of its middle from the middle of the stack, m.
    pub height_m: f64,
    /// On which side of the mast's axis it hangs, degrees clockwise from true north.
    pub bearing_deg: f64,
    /// Where it faces, degrees clockwise from true north: usually as it hangs.
    pub facing_deg: f64,
    /// Distance of its driven element from the mast's axis, m.
    pub stand_off_m: f64,
    /// It hangs upside down: its current runs the other way.
    #[serde(default)]
    pub inverted: bool,
}

/// A bay's own wires in the model, and its ports with their share of the bay's current.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct BayPorts {
    pub wires: Range<usize>,
    pub ports: Vec<(usize, C64)>,
}

/// Half a dipole of 16 mm tube, in wavelengths: 1.42 m at 98 MHz, just below resonance.
const HALF: f64 = 0.71 / 3.059_106;
const TUBE_M: f64 = 0.008;
/// Distance between the two dipoles of a crossed bay, m.
const CROSSING_M: f64 = 0.05;

impl WireElement {
    /// Whether anything of it lies level, so that a thick mast needs rings.
    pub(crate) fn has_level_parts(self) -> bool {
        !matches!(self, Self::Vertical | Self::Panel | Self::Yagi { upright: true })
    }

    /// Whether half a turn round the direction it faces lays its conductors on each other, so that upside down is the same
    /// metal with its current reversed. A turnstile's lower dipole comes to lie above, and only one of the two is reversed.
    pub fn turns_onto_itself(self) -> bool {
        !matches!(self, Self::Turnstile)
    }
}

impl BayPlan {
    /// Puts the bay's wires and ports into a model.
    pub(crate) fn add_to(&self, model: &mut WireModel, number: usize, freq_mhz: f64) -> BayPorts {
        let first = model.wires.len();
        let frame = Frame::new(self, wavelength_m(freq_mhz));
        let one = C64::from(1.0);
        let mut bay = BayPorts {
            wires: first..first,
            ports: Vec::new(),
        };
        let name = |what: &str| {
            if what.is_empty() {
                format!("bay{number}")
            } else {
                format!("bay{number}.{what}")
            }
        };
        let up = [0.0, 0.0, 1.0];
        let mut driven = |model: &mut WireModel,
                          what: &str,
                          ahead: f64,
                          height: f64,
                          axis: Vec3,
                          half: f64,
                          radius: f64,
                          weight| {
            frame.rod(model, name(what), (ahead, 0.0, height), axis, half, radius);
            model.ports.push(Port {
                wire: model.wires.len() - 1,
                position: 0.5,
            });
            bay.ports.push((model.ports.len() - 1, weight));
        };
        match self.element {
            WireElement::Vertical => driven(model, "", 0.0, 0.0, up, HALF, TUBE_M, one),
            WireElement::Horizontal => driven(model, "", 0.0, 0.0, frame.left, HALF, TUBE_M, one),
            WireElement::Slant { lean_deg } => {
                let (s, c) = lean_deg.to_radians().sin_cos();
                let axis = [s * frame.left[0], s * frame.left[1], c];
                driven(model, "", 0.0, 0.0, axis, HALF, TUBE_M, one);
            }
            WireElement::Crossed { right_handed } => {
                let quarter = if right_handed { C64::i() } else { -C64::i() };
                // The level dipole stands a little ahead; its phase makes up for it to the front.
                let ahead = CROSSING_M / frame.wavelength_m;
                let back = C64::from_polar(1.0, -std::f64::consts::TAU * ahead);
                driven(model, "upright", 0.0, 0.0, up, HALF, TUBE_M, FRAC_1_SQRT_2.into());
                driven(
                    model,
                    "level",
                    ahead,
                    0.0,
                    frame.left,
                    HALF,
                    TUBE_M,
                    quarter * back * FRAC_1_SQRT_2,
                );
            }
            WireElement::Turnstile => {
                let above = CROSSING_M / frame.wavelength_m;
                driven(
                    model,
                    "across",
                    0.0,
                    0.0,
                    frame.left,
                    HALF,
                    TUBE_M,
                    FRAC_1_SQRT_2.into(),
                );
                driven(
                    model,
                    "along",
                    0.0,
                    above,
                    frame.ahead,
                    HALF,
                    TUBE_M,
                    C64::i() * FRAC_1_SQRT_2,
                );
            }
            WireElement::Yagi { upright } => {
                let axis = if upright { up } else { frame.left };
                driven(model, "driven", 0.0, 0.0, axis, 0.2337, TUBE_M, one);
                frame.rod(
                    model,
                    name("reflector"),
                    (-0.1994, 0.0, 0.0),
                    axis,
                    0.2484,
                    TUBE_M,
                );
                frame.rod(model, name("director"), (0.1635, 0.0, 0.0), axis, 0.2157, TUBE_M);
            }
            WireElement::Panel => {
                for (what, height) in [("lower", -0.2779), ("upper", 0.2779)] {
                    driven(model, what, 0.0, height, up, 0.2223, 0.01, FRAC_1_SQRT_2.into());
                }
                for i in 0..9 {
                    let aside = 0.0654 * (f64::from(i) - 4.0);
                    frame.rod(
                        model,
                        name(&format!("rod{}", i + 1)),
                        (-0.2452, aside, 0.0),
                        up,
                        0.5557,
                        0.005,
                    );
                }
            }
        }
        bay.wires.end = model.wires.len();
        if self.inverted {
            bay.ports.iter_mut().for_each(|(_, weight)| *weight = -*weight);
        }
        bay
    }
}

/// A bay's own axes.
struct Frame {
    centre_m: Vec3,
    ahead: Vec3,
    left: Vec3,
    wavelength_m: f64,
}

impl Frame {
    fn new(bay: &BayPlan, wavelength_m: f64) -> Self {
        let out = Direction::new(bay.bearing_deg, 0.0).unit();
        let facing = Direction::new(bay.facing_deg, 0.0);
        Self {
            centre_m: [out[0] * bay.stand_off_m, out[1] * bay.stand_off_m, bay.height_m],
            ahead: facing.unit(),
            left: facing.components().1,
            wavelength_m,
        }
    }

    /// A straight rod by its middle (ahead, left, up) and half-length, all in wavelengths; radius in m.
    fn rod(
        &self,
        model: &mut WireModel,
        name: String,
        at: (f64, f64, f64),
        axis: Vec3,
        half: f64,
        radius_m: f64,
    ) {
        let point = |side: f64| -> Vec3 {
            std::array::from_fn(|i| {
                let level = if i == 2 {
                    at.2
                } else {
                    at.0 * self.ahead[i] + at.1 * self.left[i]
                };
                self.centre_m[i] + self.wavelength_m * (level + side * half * axis[i])
            })
        };
        model
            .wires
            .push(Wire::new(name, point(-1.0), point(1.0), radius_m));
    }
}
