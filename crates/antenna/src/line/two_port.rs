//! Two-ports in chain (ABCD) form, and their scattering parameters.

use num_complex::Complex64 as C64;

const ONE: C64 = C64::new(1.0, 0.0);
const ZERO: C64 = C64::new(0.0, 0.0);

/// A linear two-port: V₁ = A·V₂ + B·I₂, I₁ = C·V₂ + D·I₂, with I₂ flowing on towards the load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoPort {
    /// Voltage ratio, open end.
    pub a: C64,
    /// Transfer impedance, ohm.
    pub b_ohm: C64,
    /// Transfer admittance, siemens.
    pub c_s: C64,
    /// Current ratio, shorted end.
    pub d: C64,
}

/// Scattering parameters against one real reference impedance at both ports.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scattering {
    /// Reflection at port 1.
    pub s11: C64,
    /// Transfer from port 2 to port 1.
    pub s12: C64,
    /// Transfer from port 1 to port 2.
    pub s21: C64,
    /// Reflection at port 2.
    pub s22: C64,
}

impl TwoPort {
    /// A through connection.
    pub const THROUGH: TwoPort = TwoPort {
        a: ONE,
        b_ohm: ZERO,
        c_s: ZERO,
        d: ONE,
    };

    /// A length of line: `z0_ohm`, γ per metre, metres.
    pub fn line(z0_ohm: f64, gamma_per_m: C64, length_m: f64) -> Self {
        let gl = gamma_per_m * length_m;
        let (ch, sh) = (gl.cosh(), gl.sinh());
        Self {
            a: ch,
            b_ohm: sh * z0_ohm,
            c_s: sh / z0_ohm,
            d: ch,
        }
    }

    /// An impedance in series, ohm.
    pub fn series(z_ohm: C64) -> Self {
        Self {
            b_ohm: z_ohm,
            ..Self::THROUGH
        }
    }

    /// An admittance across the line, siemens.
    pub fn shunt(y_s: C64) -> Self {
        Self {
            c_s: y_s,
            ..Self::THROUGH
        }
    }

    /// An ideal transformer, voltage at port 1 over voltage at port 2.
    pub fn transformer(ratio: f64) -> Self {
        Self {
            a: C64::from(ratio),
            b_ohm: ZERO,
            c_s: ZERO,
            d: C64::from(1.0 / ratio),
        }
    }

    /// A matched attenuation without phase, dB, in a system of `z0_ohm`: adapters, filters and splitters known by loss alone.
    pub fn attenuator(loss_db: f64, z0_ohm: f64) -> Self {
        Self::line(z0_ohm, C64::from(loss_db / super::attenuation::DB_PER_NEPER), 1.0)
    }

    /// This one, then `next` towards the load.
    pub fn then(self, next: TwoPort) -> Self {
        Self {
            a: self.a * next.a + self.b_ohm * next.c_s,
            b_ohm: self.a * next.b_ohm + self.b_ohm * next.d,
            c_s: self.c_s * next.a + self.d * next.c_s,
            d: self.c_s * next.b_ohm + self.d * next.d,
        }
    }

    /// Impedance seen at port 1 with `load_ohm` at port 2.
    pub fn input_ohm(&self, load_ohm: C64) -> C64 {
        (self.a * load_ohm + self.b_ohm) / (self.c_s * load_ohm + self.d)
    }

    /// Voltage and current at port 2 from those at port 1 (determinant AD − BC of any physical passive network is not 0).
    pub fn onward(&self, volts: C64, amperes: C64) -> (C64, C64) {
        let det = self.a * self.d - self.b_ohm * self.c_s;
        (
            (self.d * volts - self.b_ohm * amperes) / det,
            (self.a * amperes - self.c_s * volts) / det,
        )
    }

    /// Scattering parameters against a real reference impedance.
    pub fn scattering(&self, z0_ohm: f64) -> Scattering {
        let (a, b, c, d) = (self.a, self.b_ohm / z0_ohm, self.c_s * z0_ohm, self.d);
        let sum = a + b + c + d;
        Scattering {
            s11: (a + b - c - d) / sum,
            s12: (a * d - b * c) * 2.0 / sum,
            s21: C64::from(2.0) / sum,
            s22: (b + d - a - c) / sum,
        }
    }
}

impl Scattering {
    /// The same network in chain form; none when nothing passes from port 1 to port 2.
    pub fn chain(&self, z0_ohm: f64) -> Option<TwoPort> {
        if self.s21.norm() < 1e-12 {
            return None;
        }
        let (s11, s12, s21, s22) = (self.s11, self.s12, self.s21, self.s22);
        let two = s21 * 2.0;
        Some(TwoPort {
            a: ((ONE + s11) * (ONE - s22) + s12 * s21) / two,
            b_ohm: ((ONE + s11) * (ONE + s22) - s12 * s21) / two * z0_ohm,
            c_s: ((ONE - s11) * (ONE - s22) - s12 * s21) / two / z0_ohm,
            d: ((ONE - s11) * (ONE + s22) + s12 * s21) / two,
        })
    }
}

/// Reflection coefficient of a load in a system of `z0_ohm`.
pub fn reflection(load_ohm: C64, z0_ohm: f64) -> C64 {
    (load_ohm - z0_ohm) / (load_ohm + z0_ohm)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::line::{LineConstants, Vswr, mismatch::total_loss_db};

    #[test]
    fn ref_quarter_wave_transformer_turns_25_into_50() {
        let line = LineConstants::lossless(1.0, 35.355).unwrap();
        let gamma = line.gamma_per_m(98.0, 20.0).unwrap();
        let z = TwoPort::line(35.355, gamma, line.quarter_wave_m(98.0)).input_ohm(C64::from(25.0));
        assert!((z - 50.0).norm() < 0.05, "{z}");
    }

    #[test]
    fn ref_half_wave_line_repeats_its_load() {
        let beta = C64::new(0.0, std::f64::consts::PI);
        let z = TwoPort::line(75.0, beta, 1.0).input_ohm(C64::new(30.0, -11.0));
        assert!((z - C64::new(30.0, -11.0)).norm() < 1e-9);
    }

    #[test]
    fn prop_closed_formula_agrees_with_the_two_port() {
        // Second route for the loss with mismatch: power in over power out, averaged over the phase of the load.
        let line = TwoPort::line(
            50.0,
            C64::new(1.0 / super::super::attenuation::DB_PER_NEPER, 40.0),
            1.0,
        );
        for phase_deg in 0..36 {
            let gamma = C64::from_polar(1.0 / 3.0, f64::from(phase_deg * 10).to_radians());
            let load = (ONE + gamma) / (ONE - gamma) * 50.0;
            let (v, i) = (ONE, ONE / line.input_ohm(load));
            let (v2, i2) = line.onward(v, i);
            let loss = 10.0 * ((v * i.conj()).re / (v2 * i2.conj()).re).log10();
            let want = total_loss_db(1.0, Vswr::new(2.0).unwrap()).unwrap();
            assert!((loss - want).abs() < 1e-9, "{loss} {want}");
        }
    }

    proptest! {
        #[test]
        fn prop_scattering_and_chain_are_inverse(z in 10.0..200.0f64, al in 0.001..1.0f64, be in 0.1..6.0f64, x in -50.0..50.0f64) {
            let net = TwoPort::line(z, C64::new(al, be), 1.0).then(TwoPort::series(C64::new(3.0, x)));
            let back = net.scattering(50.0).chain(50.0).unwrap();
            prop_assert!((back.b_ohm - net.b_ohm).norm() < 1e-6 * (1.0 + net.b_ohm.norm()));
            prop_assert!((back.a - net.a).norm() < 1e-9 * (1.0 + net.a.norm()));
            let s = net.scattering(50.0);
            prop_assert!((s.s12 - s.s21).norm() < 1e-9);
            prop_assert!(s.s11.norm_sqr() + s.s21.norm_sqr() <= 1.0 + 1e-9);
        }
    }
}
