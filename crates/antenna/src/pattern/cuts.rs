//! Cuts through a pattern, and what is read off them: width, nulls, tilt.

use serde::Serialize;

use super::Pattern;
use crate::direction::Plane;

/// Where a plane is strongest.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Peak {
    /// Gain, dBd.
    pub gain_dbd: f64,
    /// Bearing, degrees clockwise from true north.
    pub bearing_deg: f64,
    /// Elevation, degrees above the horizon.
    pub elev_deg: f64,
}

impl Peak {
    /// Beam tilt: depression of the strongest direction, degrees, positive down.
    pub fn tilt_deg(&self) -> f64 {
        -self.elev_deg
    }
}

/// Gain along one line through the pattern.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Cut {
    /// Bearings (0 to below 360) or elevations (−90 to 90), rising, degrees.
    pub angle_deg: Vec<f64>,
    /// Gain at each, dBd.
    pub gain_dbd: Vec<f64>,
}

/// A minimum between two lobes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Null {
    /// Where, degrees.
    pub angle_deg: f64,
    /// Gain there, dBd.
    pub gain_dbd: f64,
    /// Against the cut's maximum, dB, negative: null fill as power.
    pub below_peak_db: f64,
}

impl Pattern {
    /// Round the horizon or a cone: gain by bearing at one elevation. `count` equal steps from north.
    pub fn horizontal_cut(&self, plane: Plane, elev_deg: f64, count: usize) -> Cut {
        let angle_deg: Vec<f64> = (0..count).map(|i| 360.0 * i as f64 / count as f64).collect();
        let gain_dbd = angle_deg
            .iter()
            .map(|&b| self.gain_dbd(plane, b, elev_deg))
            .collect();
        Cut { angle_deg, gain_dbd }
    }

    /// The strongest of all elevations by bearing, `count` equal steps from north.
    pub fn strongest_cut(&self, plane: Plane, count: usize) -> Cut {
        let angle_deg: Vec<f64> = (0..count).map(|i| 360.0 * i as f64 / count as f64).collect();
        let gain_dbd = angle_deg.iter().map(|&b| self.strongest_dbd(plane, b)).collect();
        Cut { angle_deg, gain_dbd }
    }

    /// Up and down on one bearing, −90° to 90°, `intervals` equal steps.
    pub fn vertical_cut(&self, plane: Plane, bearing_deg: f64, intervals: usize) -> Cut {
        let angle_deg: Vec<f64> = (0..=intervals)
            .map(|i| -90.0 + 180.0 * i as f64 / intervals.max(1) as f64)
            .collect();
        let mut gain_dbd = vec![0.0; angle_deg.len()];
        self.gains_dbd(plane, bearing_deg, &angle_deg, &mut gain_dbd);
        Cut { angle_deg, gain_dbd }
    }
}

impl Cut {
    /// Strongest point: angle and gain.
    pub fn peak(&self) -> (f64, f64) {
        let mut best = (0.0, f64::NEG_INFINITY);
        for (&a, &g) in self.angle_deg.iter().zip(&self.gain_dbd) {
            if g > best.1 {
                best = (a, g);
            }
        }
        best
    }

    /// Width between the points 3.01 dB below the maximum, around it, degrees; none when the lobe does not fall that far.
    pub fn half_power_width_deg(&self) -> Option<f64> {
        let (_, top) = self.peak();
        let centre = self.gain_dbd.iter().position(|&g| g == top)?;
        let level = top - 10.0 * 2f64.log10();
        let right = self.crossing(centre, 1, level)?;
        let left = self.crossing(centre, -1, level)?;
        Some(right - left)
    }

    /// Minima at least `depth_db` below the cut's maximum, by rising angle.
    pub fn nulls(&self, depth_db: f64) -> Vec<Null> {
        let (_, top) = self.peak();
        let deep = |i: &usize| {
            let g = &self.gain_dbd;
            g[*i] < g[i - 1] && g[*i] <= g[i + 1] && g[*i] < top - depth_db
        };
        (1..self.gain_dbd.len().saturating_sub(1))
            .filter(deep)
            .map(|i| Null {
                angle_deg: self.angle_deg[i],
                gain_dbd: self.gain_dbd[i],
                below_peak_db: self.gain_dbd[i] - top,
            })
            .collect()
    }

    fn crossing(&self, from: usize, step: isize, level: f64) -> Option<f64> {
        let mut i = from;
        loop {
            let next = i.checked_add_signed(step).filter(|n| *n < self.gain_dbd.len())?;
            let (g, h) = (self.gain_dbd[i], self.gain_dbd[next]);
            if h <= level {
                let t = (g - level) / (g - h);
                return Some(self.angle_deg[i] + t * (self.angle_deg[next] - self.angle_deg[i]));
            }
            i = next;
        }
    }
}
