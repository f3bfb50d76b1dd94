//! Attenuation of a coaxial feeder by frequency, length and temperature.

use num_complex::Complex64 as C64;
use serde::{Deserialize, Serialize};

use super::{LIGHT_M_PER_S, LineError, within};

/// Temperature coefficient of the resistance of copper near 20 °C, per kelvin (common practice, no source).
const COPPER_PER_KELVIN: f64 = 0.0039;
/// Decibels in one neper.
pub const DB_PER_NEPER: f64 = 8.685_889_638_065_037;

/// What a line is, electrically: the two constants of its attenuation, its velocity and its impedance.
///
/// α(f) = a·√f + b·f in dB per 100 m at 20 °C and matched load, f in MHz: the first term is conductor loss, the second
/// dielectric loss. The usual two-term form; fitted constants lie within about 10 % of published tables, so a data sheet
/// decides.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct LineConstants {
    /// Conductor term a, dB per 100 m per √MHz.
    pub a_db_per_100m: f64,
    /// Dielectric term b, dB per 100 m per MHz.
    pub b_db_per_100m: f64,
    /// Velocity against light, above 0, at most 1.
    pub velocity_ratio: f64,
    /// Characteristic impedance, ohm.
    pub z0_ohm: f64,
}

impl LineConstants {
    /// A line, checked.
    ///
    /// # Errors
    /// [`LineError::Range`] for a negative or infinite constant, a velocity outside 0–1 or an impedance not above 0.
    pub fn new(
        a_db_per_100m: f64,
        b_db_per_100m: f64,
        velocity_ratio: f64,
        z0_ohm: f64,
    ) -> Result<Self, LineError> {
        within(
            "conductor-loss-constant-a",
            a_db_per_100m,
            a_db_per_100m >= 0.0,
            "from-0",
        )?;
        within(
            "dielectric-loss-constant-b",
            b_db_per_100m,
            b_db_per_100m >= 0.0,
            "from-0",
        )?;
        let ok = velocity_ratio > 0.0 && velocity_ratio <= 1.0;
        within(
            "velocity-factor",
            velocity_ratio,
            ok,
            "a-figure-above-0-and-at-most-1",
        )?;
        within(
            "characteristic-impedance-in-ohm",
            z0_ohm,
            z0_ohm > 0.0,
            "a-figure-above-0",
        )?;
        Ok(Self {
            a_db_per_100m,
            b_db_per_100m,
            velocity_ratio,
            z0_ohm,
        })
    }

    /// A line without loss.
    pub fn lossless(velocity_ratio: f64, z0_ohm: f64) -> Result<Self, LineError> {
        Self::new(0.0, 0.0, velocity_ratio, z0_ohm)
    }

    /// Attenuation at a frequency and conductor temperature, matched load.
    ///
    /// # Units
    /// - `freq_mhz`: MHz, above 0
    /// - `conductor_c`: °C, of the conductor, not of the air
    /// - returns: dB per 100 m
    ///
    /// # Errors
    /// [`LineError::Range`] for a frequency not above 0 or a temperature outside −80…200 °C.
    ///
    /// # Example
    /// ```
    /// // A 1/2 inch foam line of class-typical constants loses 2.15 dB in 100 m at 98 MHz.
    /// let line = antenna::line::LineConstants::new(0.2109, 0.000611, 0.88, 50.0)?;
    /// assert!((line.attenuation_db_per_100m(98.0, 20.0)? - 2.15).abs() < 0.02);
    /// # Ok::<(), antenna::line::LineError>(())
    /// ```
    pub fn attenuation_db_per_100m(&self, freq_mhz: f64, conductor_c: f64) -> Result<f64, LineError> {
        within(
            "frequency-in-mhz",
            freq_mhz,
            freq_mhz > 0.0,
            "a-frequency-above-0",
        )?;
        let cold = self.a_db_per_100m * freq_mhz.sqrt() + self.b_db_per_100m * freq_mhz;
        Ok(cold * temperature_ratio(conductor_c)?)
    }

    /// Loss of a length into a matched load, dB. Errors as [`Self::attenuation_db_per_100m`], and for a negative length.
    pub fn loss_db(&self, freq_mhz: f64, length_m: f64, conductor_c: f64) -> Result<f64, LineError> {
        within("line-length-in-m", length_m, length_m >= 0.0, "from-0")?;
        Ok(self.attenuation_db_per_100m(freq_mhz, conductor_c)? * length_m / 100.0)
    }

    /// Propagation constant γ = α + jβ, per metre, from the same loss and the velocity. Errors as
    /// [`Self::attenuation_db_per_100m`].
    pub fn gamma_per_m(&self, freq_mhz: f64, conductor_c: f64) -> Result<C64, LineError> {
        let alpha = self.attenuation_db_per_100m(freq_mhz, conductor_c)? / 100.0 / DB_PER_NEPER;
        Ok(C64::new(alpha, self.phase_deg_per_m(freq_mhz).to_radians()))
    }

    /// Phase lag per metre, degrees.
    pub fn phase_deg_per_m(&self, freq_mhz: f64) -> f64 {
        360.0 * freq_mhz * 1e6 / (LIGHT_M_PER_S * self.velocity_ratio)
    }

    /// Cut length of one quarter wave, m.
    pub fn quarter_wave_m(&self, freq_mhz: f64) -> f64 {
        90.0 / self.phase_deg_per_m(freq_mhz)
    }
}

/// Factor on attenuation at a conductor temperature against 20 °C: √(1 + 0.0039·(T − 20)).
///
/// # Errors
/// [`LineError::Range`] outside −80…200 °C, where the linear coefficient no longer holds.
pub fn temperature_ratio(conductor_c: f64) -> Result<f64, LineError> {
    let ok = (-80.0..=200.0).contains(&conductor_c);
    within(
        "conductor-temperature-in-c",
        conductor_c,
        ok,
        "between-minus-80-and-200-c",
    )?;
    Ok((1.0 + COPPER_PER_KELVIN * (conductor_c - 20.0)).sqrt())
}

/// Impedance of a quarter-wave transformer between two resistances, ohm: √(Z_a·Z_b).
pub fn quarter_wave_transformer_ohm(source_ohm: f64, load_ohm: f64) -> Result<f64, LineError> {
    within(
        "source-resistance-in-ohm",
        source_ohm,
        source_ohm > 0.0,
        "a-figure-above-0",
    )?;
    within(
        "load-resistance-in-ohm",
        load_ohm,
        load_ohm > 0.0,
        "a-figure-above-0",
    )?;
    Ok((source_ohm * load_ohm).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Class-typical figures at 100, 450 and 950 MHz (memory), constants fitted to them (computed): name, a, b, α98, α100, α450, α950.
    const CLASS_TYPICAL: [(&str, f64, f64, f64, f64, f64, f64); 9] = [
        ("RG-58 C/U", 1.3016, 0.02984, 15.81, 16.0, 41.0, 68.5),
        ("RG-213/U", 0.5894, 0.008062, 6.63, 6.7, 16.1, 25.8),
        ("10 mm low-loss foam", 0.4022, 0.000782, 4.06, 4.10, 8.9, 13.1),
        ("1/4 inch foam", 0.4212, 0.000881, 4.26, 4.30, 9.3, 13.8),
        ("1/2 inch foam", 0.2109, 0.000611, 2.15, 2.17, 4.75, 7.08),
        ("7/8 inch foam", 0.1122, 0.000483, 1.158, 1.17, 2.60, 3.92),
        ("1-5/8 inch foam", 0.0661, 0.000350, 0.689, 0.696, 1.56, 2.37),
        ("7/8 inch air", 0.1150, 0.000305, 1.168, 1.18, 2.58, 3.83),
        ("1-5/8 inch air", 0.0614, 0.000318, 0.639, 0.646, 1.45, 2.20),
    ];

    #[test]
    fn ref_two_constants_return_the_class_typical_table() {
        for (name, a, b, a98, a100, a450, a950) in CLASS_TYPICAL {
            let line = LineConstants::new(a, b, 0.88, 50.0).unwrap();
            for (f, want) in [(98.0, a98), (100.0, a100), (450.0, a450), (950.0, a950)] {
                let got = line.attenuation_db_per_100m(f, 20.0).unwrap();
                assert!(
                    (got / want - 1.0).abs() < 0.008,
                    "{name} at {f} MHz: {got} against {want}"
                );
            }
        }
    }

    #[test]
    fn ref_losses_of_usual_runs() {
        let half = LineConstants::new(0.2109, 0.000611, 0.88, 50.0).unwrap();
        assert!((half.loss_db(98.0, 100.0, 20.0).unwrap() - 2.15).abs() < 0.02);
        let seven = LineConstants::new(0.1122, 0.000483, 0.89, 50.0).unwrap();
        assert!((seven.loss_db(98.0, 40.0, 20.0).unwrap() - 0.463).abs() < 0.005);
    }

    #[test]
    fn ref_forty_degrees_cost_four_per_cent() {
        // √(1 + 0.0039·20) = 1.038: common practice, no source.
        assert!((temperature_ratio(40.0).unwrap() - 1.038).abs() < 0.0005);
    }

    #[test]
    fn ref_phase_of_branch_cable() {
        // 98 MHz, velocity 0.88: 133.7° a metre, 1.34° per 10 mm (computed from c).
        let cable = LineConstants::lossless(0.88, 50.0).unwrap();
        assert!((cable.phase_deg_per_m(98.0) - 133.7).abs() < 0.05);
        assert!((LineConstants::lossless(1.0, 50.0).unwrap().quarter_wave_m(98.0) - 0.765).abs() < 0.0005);
    }

    #[test]
    fn ref_quarter_wave_for_two_ways() {
        assert!((quarter_wave_transformer_ohm(50.0, 25.0).unwrap() - 35.36).abs() < 0.01);
    }

    #[test]
    fn bad_lines_are_named() {
        let words = |r: Result<LineConstants, LineError>| r.unwrap_err().to_string();
        assert!(words(LineConstants::new(-1.0, 0.0, 0.9, 50.0)).contains("conductor loss"));
        assert!(words(LineConstants::new(0.1, 0.0, 1.2, 50.0)).contains("velocity factor"));
        assert!(words(LineConstants::new(0.1, f64::NAN, 0.9, 50.0)).contains("dielectric"));
        let line = LineConstants::new(0.2, 0.0, 0.9, 50.0).unwrap();
        assert!(line.loss_db(98.0, -3.0, 20.0).is_err());
        assert!(line.loss_db(0.0, 3.0, 20.0).is_err());
        assert!(line.loss_db(98.0, 3.0, 900.0).is_err());
    }
}
