//! Directions in the sky, and fields along them.

use num_complex::Complex64 as C64;
use serde::{Deserialize, Serialize};

/// East, north, up: metres for places, plain numbers for axes.
pub type Vec3 = [f64; 3];

/// Scalar product.
pub(crate) fn dot(a: Vec3, b: Vec3) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

/// Difference a − b.
pub(crate) fn minus(a: Vec3, b: Vec3) -> Vec3 {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

/// Length.
pub(crate) fn norm(a: Vec3) -> f64 {
    dot(a, a).sqrt()
}

/// A direction seen from the antenna.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Direction {
    /// Clockwise from true north, degrees.
    pub bearing_deg: f64,
    /// Above the horizon, degrees; a depression is negative.
    pub elev_deg: f64,
}

impl Direction {
    /// A direction by bearing and elevation, degrees.
    pub fn new(bearing_deg: f64, elev_deg: f64) -> Self {
        Self {
            bearing_deg,
            elev_deg,
        }
    }

    /// Unit vector east, north, up.
    pub fn unit(self) -> Vec3 {
        let (sb, cb) = self.bearing_deg.to_radians().sin_cos();
        let (se, ce) = self.elev_deg.to_radians().sin_cos();
        [ce * sb, ce * cb, se]
    }

    /// Unit vectors of the vertical (θ, downwards at the horizon) and horizontal (φ, anticlockwise from above) components.
    pub fn components(self) -> (Vec3, Vec3) {
        let (sb, cb) = self.bearing_deg.to_radians().sin_cos();
        let (se, ce) = self.elev_deg.to_radians().sin_cos();
        ([se * sb, se * cb, -ce], [-cb, sb, 0.0])
    }
}

/// A plane of polarisation.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Plane {
    /// The θ component.
    Vertical,
    /// The φ component.
    Horizontal,
}

impl Plane {
    /// Both planes.
    pub const BOTH: [Plane; 2] = [Plane::Vertical, Plane::Horizontal];
}

/// A far field's two components in some direction, or any pair of that kind.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Field {
    /// θ component.
    pub vertical: C64,
    /// φ component.
    pub horizontal: C64,
}

impl Field {
    /// The component of one plane.
    pub fn plane(&self, plane: Plane) -> C64 {
        match plane {
            Plane::Vertical => self.vertical,
            Plane::Horizontal => self.horizontal,
        }
    }

    /// Sum of the squares of both components.
    pub fn norm_sqr(&self) -> f64 {
        self.vertical.norm_sqr() + self.horizontal.norm_sqr()
    }

    /// Right- and left-hand circular components, sense of IEEE Std 145 for a receding wave.
    pub fn circular(&self) -> (C64, C64) {
        let j = C64::i() * self.horizontal;
        let half = std::f64::consts::FRAC_1_SQRT_2;
        ((self.vertical + j) * half, (self.vertical - j) * half)
    }

    /// Axial ratio, 1 (circular) to infinite (linear).
    pub fn axial_ratio(&self) -> f64 {
        let (r, l) = self.circular();
        (r.norm() + l.norm()) / (r.norm() - l.norm()).abs()
    }
}

impl std::ops::Add for Field {
    type Output = Field;
    fn add(self, o: Field) -> Field {
        Field {
            vertical: self.vertical + o.vertical,
            horizontal: self.horizontal + o.horizontal,
        }
    }
}

impl std::ops::Mul<C64> for Field {
    type Output = Field;
    fn mul(self, s: C64) -> Field {
        Field {
            vertical: self.vertical * s,
            horizontal: self.horizontal * s,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn verif_axes_are_right_handed() {
        // r × θ = φ at any direction.
        for (b, e) in [(0.0, 0.0), (37.0, 12.0), (250.0, -60.0)] {
            let d = Direction::new(b, e);
            let (r, (t, p)) = (d.unit(), d.components());
            let cross = [
                r[1] * t[2] - r[2] * t[1],
                r[2] * t[0] - r[0] * t[2],
                r[0] * t[1] - r[1] * t[0],
            ];
            assert!(norm(minus(cross, p)) < 1e-12);
        }
        assert!(norm(minus(Direction::new(90.0, 0.0).unit(), [1.0, 0.0, 0.0])) < 1e-12);
    }
}
