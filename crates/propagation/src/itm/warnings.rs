//! What the method warns of without refusing.

use super::geometry::Geometry;
use std::ops::BitOr;

/// One warning of the method.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(u16)]
pub enum Warning {
    /// Transmitting aerial outside 1 to 1000 m.
    TxHeight = 0x0001,
    /// Receiving aerial outside 1 to 1000 m.
    RxHeight = 0x0002,
    /// Frequency outside 40 MHz to 10 GHz.
    Frequency = 0x0004,
    /// Path longer than 1000 km.
    PathOver1000Km = 0x0008,
    /// Path longer than 2000 km.
    PathOver2000Km = 0x0010,
    /// Path so short that the effective heights make it steep.
    PathSteep = 0x0020,
    /// Path shorter than 1 km.
    PathUnder1Km = 0x0040,
    /// Transmitter's horizon above 0.2 rad.
    TxHorizonAngle = 0x0080,
    /// Receiver's horizon above 0.2 rad.
    RxHorizonAngle = 0x0100,
    /// Transmitter's horizon nearer than a tenth of the smooth-Earth horizon.
    TxHorizonNear = 0x0200,
    /// Receiver's horizon nearer than a tenth of the smooth-Earth horizon.
    RxHorizonNear = 0x0400,
    /// Transmitter's horizon farther than three times the smooth-Earth horizon.
    TxHorizonFar = 0x0800,
    /// Receiver's horizon farther than three times the smooth-Earth horizon.
    RxHorizonFar = 0x1000,
    /// A percentage so near 0 or 100 that its deviate exceeds 3.1.
    ExtremePercentage = 0x2000,
    /// Surface refractivity under 250 N-units.
    Refractivity = 0x4000,
}

impl Warning {
    /// Every warning, by rising bit.
    pub const ALL: [Self; 15] = [
        Self::TxHeight,
        Self::RxHeight,
        Self::Frequency,
        Self::PathOver1000Km,
        Self::PathOver2000Km,
        Self::PathSteep,
        Self::PathUnder1Km,
        Self::TxHorizonAngle,
        Self::RxHorizonAngle,
        Self::TxHorizonNear,
        Self::RxHorizonNear,
        Self::TxHorizonFar,
        Self::RxHorizonFar,
        Self::ExtremePercentage,
        Self::Refractivity,
    ];
}

/// A set of warnings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Warnings(u16);

impl Warnings {
    /// None.
    pub const NONE: Self = Self(0);

    /// The method's bit mask.
    pub fn bits(self) -> u16 {
        self.0
    }

    /// Nothing to warn of.
    pub fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// The warnings in the set, by rising bit.
    pub fn iter(self) -> impl Iterator<Item = Warning> {
        Warning::ALL.into_iter().filter(move |w| self.0 & *w as u16 != 0)
    }

    pub(super) fn when(holds: bool, warning: Warning) -> Self {
        Self(u16::from(holds) * warning as u16)
    }
}

impl BitOr for Warnings {
    type Output = Self;

    fn bitor(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }
}

const STEEPEST_HORIZON_RAD: f64 = 0.2;

/// Warnings of a path, once its geometry is known.
pub(super) fn of_path(distance_m: f64, geometry: &Geometry, n_s: f64) -> Warnings {
    use Warning as W;
    let Geometry {
        theta_rad,
        horizon_m,
        smooth_horizon_m,
        effective_m,
        ..
    } = geometry;
    let when = Warnings::when;
    when(theta_rad[0].abs() > STEEPEST_HORIZON_RAD, W::TxHorizonAngle)
        | when(theta_rad[1].abs() > STEEPEST_HORIZON_RAD, W::RxHorizonAngle)
        | when(horizon_m[0] < 0.1 * smooth_horizon_m[0], W::TxHorizonNear)
        | when(horizon_m[1] < 0.1 * smooth_horizon_m[1], W::RxHorizonNear)
        | when(horizon_m[0] > 3.0 * smooth_horizon_m[0], W::TxHorizonFar)
        | when(horizon_m[1] > 3.0 * smooth_horizon_m[1], W::RxHorizonFar)
        | when(n_s < 250.0, W::Refractivity)
        | when(
            distance_m < (effective_m[0] - effective_m[1]).abs() / 0.2,
            W::PathSteep,
        )
        | when(distance_m < 1e3, W::PathUnder1Km)
        | when(distance_m > 1e6, W::PathOver1000Km)
        | when(distance_m > 2e6, W::PathOver2000Km)
}
