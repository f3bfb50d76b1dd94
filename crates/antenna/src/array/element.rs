//! Bays: what radiates, which way it faces, and what its connector shows.

use std::f64::consts::FRAC_1_SQRT_2;

use num_complex::Complex64 as C64;
use serde::{Deserialize, Serialize};

use super::mutual::{Filament, mutual_impedance_ohm};
use super::{ArrayError, within};
use crate::direction::{Direction, Field, Vec3, dot};

/// Kinds of bay the array model knows.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "kind")]
pub enum ElementKind {
    /// One upright dipole.
    Vertical,
    /// One level dipole across the direction the bay faces.
    Horizontal,
    /// One dipole across the direction the bay faces, leaning this far from upright (degrees, towards the left as seen from
    /// behind).
    Slant {
        /// Lean from upright, degrees.
        lean_deg: f64,
    },
    /// An upright and a level dipole in quadrature: circular towards the front and the back.
    Crossed {
        /// Whether the front is right-handed (IEEE Std 145).
        right_handed: bool,
    },
    /// Two level dipoles at right angles in quadrature: horizontal, all round.
    Turnstile,
}

/// One straight dipole of a bay.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arm {
    /// Unit vector along it.
    pub axis: Vec3,
    /// Half its length, m.
    pub half_m: f64,
    /// Radius of its tube, m.
    pub radius_m: f64,
    /// Its feed current for one ampere into the bay: a lossless divider and phasing inside the bay, so that power is kept.
    pub weight: C64,
}

/// What a bay shows at its connector.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PortModel {
    /// The bare terminals, self-impedance by the induced-EMF method: right in resistance only, near resonance.
    Bare,
    /// The bare terminals with a self-impedance known from elsewhere (wires, measurement), ohm.
    Known(C64),
    /// Matched by the maker: the lone bay shows `z0_ohm` where it is tuned; off tune its reactance turns by
    /// `slope_ohm_per_mhz` at the dipole (about 7.2 for 16 mm tube at 98 MHz, fitted to wire models).
    Tuned {
        /// Impedance of the connector, ohm.
        z0_ohm: f64,
        /// Where the lone bay is matched, MHz.
        tuned_mhz: f64,
        /// Reactance of the dipole per MHz off tune, ohm.
        slope_ohm_per_mhz: f64,
    },
}

/// Slope of a dipole of 16 mm tube at 98 MHz, ohm per MHz (fitted to wire models).
pub const SLOPE_16_MM_TUBE: f64 = 7.2;

/// One radiator of a stack.
#[derive(Debug, Clone, PartialEq)]
pub struct Bay {
    /// Centre: east, north, up, m.
    pub position_m: Vec3,
    /// Its dipoles, all centred there.
    pub arms: Vec<Arm>,
    /// What its connector shows.
    pub port: PortModel,
}

impl Bay {
    /// A bay of half-wave dipoles at `freq_mhz`, 16 mm tube, tuned and matched to 50 Ω there.
    ///
    /// # Units
    /// - `bearing_deg`: where it faces, clockwise from true north
    /// - `position_m`: east, north, up
    pub fn half_wave(kind: ElementKind, bearing_deg: f64, position_m: Vec3, freq_mhz: f64) -> Self {
        let half_m = crate::line::wavelength_m(freq_mhz) / 4.0;
        let port = PortModel::Tuned {
            z0_ohm: 50.0,
            tuned_mhz: freq_mhz,
            slope_ohm_per_mhz: SLOPE_16_MM_TUBE * 98.0 / freq_mhz,
        };
        Self {
            position_m,
            arms: arms(kind, bearing_deg, half_m, 0.008),
            port,
        }
    }

    /// The same bay with dipoles of another half-length and radius, m.
    pub fn with_tubes(mut self, half_m: f64, radius_m: f64) -> Self {
        for arm in &mut self.arms {
            (arm.half_m, arm.radius_m) = (half_m, radius_m);
        }
        self
    }

    /// The same bay with another port.
    pub fn with_port(self, port: PortModel) -> Self {
        Self { port, ..self }
    }

    /// The same bay mounted the wrong way up: its current is reversed.
    pub fn upside_down(mut self) -> Self {
        for arm in &mut self.arms {
            arm.axis = arm.axis.map(|x| -x);
        }
        self
    }

    /// Element field for one ampere into the bay, phase referred to its centre.
    pub fn field(&self, k_per_m: f64, towards: Direction) -> Field {
        arms_field(&self.arms, k_per_m, towards)
    }

    pub(crate) fn filament(&self, arm: &Arm) -> Filament {
        Filament {
            centre_m: self.position_m,
            axis: arm.axis,
            half_m: arm.half_m,
            radius_m: arm.radius_m,
        }
    }

    /// Turns ratio of the bay's match: dipole amperes per port ampere.
    pub(crate) fn turns(&self) -> f64 {
        match self.port {
            PortModel::Bare | PortModel::Known(_) => 1.0,
            PortModel::Tuned {
                z0_ohm, tuned_mhz, ..
            } => {
                let k = wave_number(tuned_mhz);
                (z0_ohm / self.lone_ohm(k).re).sqrt()
            }
        }
    }

    /// Impedance at the connector of the lone bay, ohm.
    pub(crate) fn self_impedance_ohm(&self, freq_mhz: f64) -> C64 {
        let k = wave_number(freq_mhz);
        match self.port {
            PortModel::Bare => self.lone_ohm(k),
            PortModel::Known(z) => z,
            PortModel::Tuned {
                tuned_mhz,
                slope_ohm_per_mhz,
                ..
            } => {
                let reactance = slope_ohm_per_mhz * (freq_mhz - tuned_mhz);
                C64::new(self.lone_ohm(k).re, reactance) * self.turns().powi(2)
            }
        }
    }

    /// What the connector shows more when the dipoles' resonance moves (ice, damage, a wrong length) and the match stays as
    /// built, ohm: their reactance turns by their slope.
    pub(crate) fn moved_ohm(&self, by_mhz: f64) -> C64 {
        let slope = match self.port {
            PortModel::Tuned {
                slope_ohm_per_mhz, ..
            } => slope_ohm_per_mhz,
            PortModel::Bare | PortModel::Known(_) => SLOPE_16_MM_TUBE,
        };
        C64::new(0.0, -slope * by_mhz * self.turns().powi(2))
    }

    /// Σ w* w Z over the bay's own dipoles, ohm.
    fn lone_ohm(&self, k_per_m: f64) -> C64 {
        let mut z = C64::default();
        for a in &self.arms {
            for b in &self.arms {
                let (fa, fb) = (self.filament(a), self.filament(b));
                z += a.weight * b.weight.conj() * mutual_impedance_ohm(&fa, &fb, k_per_m);
            }
        }
        z
    }

    pub(crate) fn check(&self, freq_mhz: f64) -> Result<(), ArrayError> {
        let k = wave_number(freq_mhz);
        for x in self.position_m {
            within(
                "a-bays-position-in-m",
                x,
                x.abs() < 1e4,
                "a-place-within-10-km-of-the-origin",
            )?;
        }
        for arm in &self.arms {
            let ok = arm.half_m > 0.0 && arm.half_m.is_finite();
            within("half-length-of-a-dipole-in-m", arm.half_m, ok, "a-length-above-0")?;
            let full = (k * arm.half_m).sin().abs() > 0.05 && k * arm.half_m < 4.0;
            let wanted = "clear-of-half-waves";
            within("half-length-of-a-dipole-in-m", arm.half_m, full, wanted)?;
            let thin = arm.radius_m > 0.0 && arm.radius_m < 0.2 * arm.half_m;
            within(
                "radius-of-a-dipole-in-m",
                arm.radius_m,
                thin,
                "a-radius-above-0-and-below-a-fifth-of-its-half-length",
            )?;
        }
        if let PortModel::Tuned {
            z0_ohm, tuned_mhz, ..
        } = self.port
        {
            within(
                "impedance-of-a-bay-in-ohm",
                z0_ohm,
                z0_ohm > 0.0,
                "a-figure-above-0",
            )?;
            within(
                "tuning-of-a-bay-in-mhz",
                tuned_mhz,
                tuned_mhz > 0.0,
                "a-frequency-above-0",
            )?;
        }
        Ok(())
    }
}

/// 2π/λ, 1/m.
pub fn wave_number(freq_mhz: f64) -> f64 {
    2.0 * std::f64::consts::PI / crate::line::wavelength_m(freq_mhz)
}

/// Field of dipoles with one centre, per ampere into the bay.
pub(crate) fn arms_field(arms: &[Arm], k_per_m: f64, towards: Direction) -> Field {
    let (vertical, rest) = arms_split_field(arms, k_per_m, towards);
    vertical + rest
}

/// The same, in two parts: from the upright share of each dipole (which an upright pole scatters), and the rest.
pub(crate) fn arms_split_field(arms: &[Arm], k_per_m: f64, towards: Direction) -> (Field, Field) {
    let (r, (theta, phi)) = (towards.unit(), towards.components());
    let (mut upright, mut rest) = (Field::default(), Field::default());
    for arm in arms {
        let g = shape(dot(arm.axis, r), k_per_m * arm.half_m);
        let up = arm.axis[2] * theta[2];
        upright.vertical += arm.weight * (g * up);
        rest.vertical += arm.weight * (g * (dot(arm.axis, theta) - up));
        rest.horizontal += arm.weight * (g * dot(arm.axis, phi));
    }
    (upright, rest)
}

/// [cos(kh·c) − cos kh]/(sin kh·(1 − c²)): pattern of a dipole of half-length h before projection, c = u·r.
fn shape(c: f64, kh: f64) -> f64 {
    let s2 = 1.0 - c * c;
    if s2 < 1e-12 {
        0.0
    } else {
        ((kh * c).cos() - kh.cos()) / (kh.sin() * s2)
    }
}

fn arms(kind: ElementKind, bearing_deg: f64, half_m: f64, radius_m: f64) -> Vec<Arm> {
    let (_, left) = Direction::new(bearing_deg, 0.0).components();
    let (_, ahead) = Direction::new(bearing_deg - 90.0, 0.0).components();
    let arm = |axis: Vec3, weight: C64| Arm {
        axis,
        half_m,
        radius_m,
        weight,
    };
    let (one, half) = (C64::from(1.0), C64::from(FRAC_1_SQRT_2));
    let up = [0.0, 0.0, 1.0];
    match kind {
        ElementKind::Vertical => vec![arm(up, one)],
        ElementKind::Horizontal => vec![arm(left, one)],
        ElementKind::Slant { lean_deg } => {
            let (s, c) = lean_deg.to_radians().sin_cos();
            vec![arm([s * left[0], s * left[1], c], one)]
        }
        ElementKind::Crossed { right_handed } => {
            let quarter = if right_handed { C64::i() } else { -C64::i() };
            vec![arm(up, half), arm(left, half * quarter)]
        }
        ElementKind::Turnstile => vec![arm(left, half), arm(ahead, half * C64::i())],
    }
}
