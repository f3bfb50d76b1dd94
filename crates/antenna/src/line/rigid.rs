//! Rigid coaxial line from its dimensions: impedance, loss, first higher mode.

use std::f64::consts::PI;

use super::{LIGHT_M_PER_S, LineError, within};

/// Conductivity of annealed copper, S/m (memory).
pub const COPPER_S_PER_M: f64 = 5.8e7;
/// Magnetic constant, H/m.
const MU0: f64 = 4e-7 * PI;
/// η/2π, ohm: factor of the logarithm in the impedance of a coaxial line.
const ETA_OVER_2PI_OHM: f64 = 59.958_491_6;

/// An air-spaced copper line by the two diameters that carry current.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RigidLine {
    /// Inner diameter of the outer conductor, mm.
    outer_mm: f64,
    /// Outer diameter of the inner conductor, mm.
    inner_mm: f64,
}

impl RigidLine {
    /// A line by its diameters in mm.
    ///
    /// # Errors
    /// [`LineError::Range`] unless 0 < inner < outer.
    pub fn new(outer_mm: f64, inner_mm: f64) -> Result<Self, LineError> {
        within(
            "outer-conductor-in-mm",
            outer_mm,
            outer_mm > 0.0,
            "a-diameter-above-0",
        )?;
        let ok = inner_mm > 0.0 && inner_mm < outer_mm;
        within(
            "inner-conductor-in-mm",
            inner_mm,
            ok,
            "a-diameter-above-0-and-below-the-outer-one",
        )?;
        Ok(Self { outer_mm, inner_mm })
    }

    /// Characteristic impedance, ohm: (η/2π)·ln(D/d).
    pub fn z0_ohm(&self) -> f64 {
        ETA_OVER_2PI_OHM * (self.outer_mm / self.inner_mm).ln()
    }

    /// Attenuation by skin effect, dB per 100 m, smooth copper at 20 °C, no allowance for flanges and finish (practice adds
    /// about a tenth).
    ///
    /// # Source
    /// α = R/(2·Z0), R = (Rs/π)(1/D + 1/d), Rs = √(πfμ/σ): standard theory of coaxial lines.
    pub fn attenuation_db_per_100m(&self, freq_mhz: f64) -> Result<f64, LineError> {
        within(
            "frequency-in-mhz",
            freq_mhz,
            freq_mhz > 0.0,
            "a-frequency-above-0",
        )?;
        let surface_ohm = (PI * freq_mhz * 1e6 * MU0 / COPPER_S_PER_M).sqrt();
        let r_ohm_per_m = surface_ohm / PI * (1e3 / self.outer_mm + 1e3 / self.inner_mm);
        Ok(super::attenuation::DB_PER_NEPER * 100.0 * r_ohm_per_m / (2.0 * self.z0_ohm()))
    }

    /// Cut-off of the first higher mode (TE11), MHz: 2c/(π(D+d)).
    pub fn te11_cutoff_mhz(&self) -> f64 {
        2.0 * LIGHT_M_PER_S / (PI * (self.outer_mm + self.inner_mm) * 1e-3) / 1e6
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Diameters of EIA RS-225 (memory): D, d, dB/100 m at 100 MHz by theory (computed, one row also by a general network library).
    const EIA: [(&str, f64, f64, f64); 3] = [
        ("7/8", 19.94, 8.66, 1.195),
        ("1-5/8", 38.79, 16.87, 0.614),
        ("3-1/8", 76.89, 33.40, 0.310),
    ];

    #[test]
    fn ref_eia_lines_by_theory() {
        for (name, outer, inner, want) in EIA {
            let line = RigidLine::new(outer, inner).unwrap();
            let got = line.attenuation_db_per_100m(100.0).unwrap();
            assert!((got - want).abs() < 0.001, "{name}: {got}");
            assert!((line.z0_ohm() - 50.0).abs() < 0.1, "{name}: {}", line.z0_ohm());
        }
    }

    #[test]
    fn ref_three_and_an_eighth_is_fifty_ohm() {
        let line = RigidLine::new(76.89, 33.40).unwrap();
        // The table's 50.00 is 59.96·ln(D/d) = 49.996 rounded; with the unrounded constant 49.995.
        assert!((line.z0_ohm() - 50.00).abs() < 0.006, "{}", line.z0_ohm());
        assert!((line.te11_cutoff_mhz() / 1e3 - 1.73).abs() < 0.005);
        assert!((RigidLine::new(38.79, 16.87).unwrap().te11_cutoff_mhz() / 1e3 - 3.43).abs() < 0.005);
    }

    #[test]
    fn bad_inner_wider_than_outer() {
        assert!(RigidLine::new(10.0, 12.0).is_err());
    }
}
