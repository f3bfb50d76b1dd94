//! Electric field close to the stack: the sum over its dipoles, for exposure of people.

use std::f64::consts::FRAC_1_SQRT_2;

use num_complex::Complex64 as C64;
use serde::Serialize;

use super::element::wave_number;
use super::mutual::field_v_per_m;
use super::pole::PoleSeries;
use super::{ArrayError, ETA_OHM, Radiator, Stack, within};
use crate::direction::{Vec3, minus, norm};
use crate::line::wavelength_m;

/// Field at a place, rms.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct NearPoint {
    /// |Σ E|: the vector sum, in phase and direction, times the reflection factor, V/m.
    pub e_sum_v_per_m: f64,
    /// Σ |E|: every dipole in phase, times the reflection factor, V/m. The careful figure.
    pub e_careful_v_per_m: f64,
    /// Power density of the vector sum by E²/377, W/m².
    pub s_sum_w_per_m2: f64,
    /// Distance to the nearest conductor, m.
    pub nearest_m: f64,
}

/// Answer to "what is the field here".
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Exposure {
    /// Far enough from every bay to be computed.
    Computed(NearPoint),
    /// Within one wavelength of a bay: fence it, nothing is computed small here.
    Fenced {
        /// Distance to the nearest conductor, m.
        nearest_m: f64,
        /// Where computing begins: one wavelength, m.
        fence_m: f64,
    },
}

impl Stack {
    /// RMS field at a place for a power into the bays, V/m, bay by bay.
    ///
    /// The dipoles' fields are exact for sinusoidal currents; a pole multiplies the upright ones by its far azimuth factor,
    /// and the larger of with and without it is given. Ground enters by `field_factor` only.
    ///
    /// # Units
    /// - `currents_a`: port currents in any scale, one a bay
    /// - `radiated_w`: power radiated by all bays together, W
    /// - `at_m`: the place: east, north, up, in the stack's own axes
    /// - `field_factor`: factor on E for reflections: 1 none, 1.6 usual ground (OET-65), 2 perfect
    ///
    /// # Errors
    /// Those of [`Radiator::new`]; [`ArrayError::Range`] for a negative power or a factor below 1;
    /// [`ArrayError::Silent`] without currents.
    pub fn exposure_at(
        &self,
        currents_a: &[C64],
        radiated_w: f64,
        at_m: Vec3,
        field_factor: f64,
    ) -> Result<Exposure, ArrayError> {
        within("radiated-power-in-w", radiated_w, radiated_w >= 0.0, "from-0")?;
        within(
            "reflection-factor-on-the-field",
            field_factor,
            field_factor >= 1.0,
            "from-1",
        )?;
        within(
            "height-of-the-place-in-m",
            at_m[2],
            at_m.iter().all(|x| x.is_finite()),
            "a-finite-place",
        )?;
        let radiator = Radiator::new(self, currents_a)?;
        let unscaled_w = radiator.radiated_w();
        if !(unscaled_w > 0.0 && unscaled_w.is_finite()) {
            return Err(ArrayError::Silent);
        }
        let fence_m = wavelength_m(self.frequency_mhz);
        let nearest_m = self.nearest_m(at_m);
        if nearest_m < fence_m {
            return Ok(Exposure::Fenced { nearest_m, fence_m });
        }
        let scale = (radiated_w / unscaled_w).sqrt() * FRAC_1_SQRT_2 * field_factor;
        let (free, free_careful) = self.summed(currents_a, at_m, false);
        let (with, with_careful) = self.summed(currents_a, at_m, true);
        let e_sum_v_per_m = free.max(with) * scale;
        Ok(Exposure::Computed(NearPoint {
            e_sum_v_per_m,
            e_careful_v_per_m: free_careful.max(with_careful) * scale,
            s_sum_w_per_m2: e_sum_v_per_m * e_sum_v_per_m / ETA_OHM,
            nearest_m,
        }))
    }

    /// Distance from a place to the nearest conductor of any bay, m.
    pub fn nearest_m(&self, at_m: Vec3) -> f64 {
        let mut nearest = f64::INFINITY;
        for bay in &self.bays {
            let d = minus(at_m, bay.position_m);
            for arm in &bay.arms {
                let s = crate::direction::dot(d, arm.axis).clamp(-arm.half_m, arm.half_m);
                nearest = nearest.min(norm(std::array::from_fn(|i| d[i] - s * arm.axis[i])));
            }
        }
        nearest
    }

    /// |Σ E| and Σ|E|, peak V/m, for the currents as they are.
    fn summed(&self, currents_a: &[C64], at_m: Vec3, with_pole: bool) -> (f64, f64) {
        let k = wave_number(self.frequency_mhz);
        let mut sum = [C64::default(); 3];
        let mut careful = 0.0;
        for (bay, &amperes) in self.bays.iter().zip(currents_a) {
            let offset = minus(at_m, bay.position_m);
            let pole = if with_pole {
                self.pole_factor(bay.position_m, offset, k)
            } else {
                C64::from(1.0)
            };
            for arm in &bay.arms {
                let maximum = amperes * bay.turns() * arm.weight / (k * arm.half_m).sin();
                let upright = arm.axis[2].abs() > 0.5;
                let factor = if upright { pole * maximum } else { maximum };
                let e = field_v_per_m(&bay.filament(arm), offset, k).map(|x| x * factor);
                careful += e.iter().map(C64::norm_sqr).sum::<f64>().sqrt();
                for i in 0..3 {
                    sum[i] += e[i];
                }
            }
        }
        (sum.iter().map(C64::norm_sqr).sum::<f64>().sqrt(), careful)
    }

    /// The pole's factor on one bay's field, its phase referred to the bay.
    fn pole_factor(&self, bay_m: Vec3, offset: Vec3, k: f64) -> C64 {
        let Some(pole) = self.pole else {
            return C64::from(1.0);
        };
        let (east, north) = (bay_m[0] - pole.east_m, bay_m[1] - pole.north_m);
        let elev_deg = offset[2].atan2(offset[0].hypot(offset[1])).to_degrees();
        let turn = offset[0].atan2(offset[1]) - east.atan2(north);
        let b = east.hypot(north);
        let p = PoleSeries::new(k, elev_deg, b, pole.radius_m).at(turn);
        p * C64::from_polar(1.0, -k * b * elev_deg.to_radians().cos() * turn.cos())
    }
}
