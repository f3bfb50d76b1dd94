//! Conversions between quantities that are easily confused: each is written out by name.

use crate::radio::{Decibels, Eirp, Erp, FieldStrength, GainDbd, GainDbi, Power, PowerDensity, Vswr};

/// Gain of a half-wave dipole over an isotrope, in dB (×1.6406).
///
/// The trade's rounded figure: EIRP(dBW) = ERP(dBW) + 2.15 (the exact dipole has 2.151 dB, ×1.6409).
pub const DIPOLE_OVER_ISOTROPE_DB: f64 = 2.15;

/// Impedance of free space in Ω: 376.730 313 412 (CODATA 2022, μ0·c) [M].
pub const FREE_SPACE_IMPEDANCE_OHM: f64 = 376.730_313_412;

impl Erp {
    /// The same radiation over an isotrope: + 2.15 dB.
    pub fn to_eirp(self) -> Eirp {
        Eirp::from_w(self.w() * 10f64.powf(DIPOLE_OVER_ISOTROPE_DB / 10.0))
    }

    /// Raised by `level`.
    pub fn plus(self, level: Decibels) -> Erp {
        Erp::from_w(self.w() * 10f64.powf(level.db() / 10.0))
    }

    /// How far this power stands above `other`.
    pub fn over(self, other: Erp) -> Decibels {
        Decibels::from_db(10.0 * (self.w() / other.w()).log10())
    }
}

impl Eirp {
    /// The same radiation over a half-wave dipole: − 2.15 dB.
    pub fn to_erp(self) -> Erp {
        Erp::from_w(self.w() / 10f64.powf(DIPOLE_OVER_ISOTROPE_DB / 10.0))
    }
}

impl GainDbd {
    /// The same gain over an isotrope: + 2.15 dB.
    pub fn to_dbi(self) -> GainDbi {
        GainDbi::from_dbi(self.dbd() + DIPOLE_OVER_ISOTROPE_DB)
    }
}

impl GainDbi {
    /// The same gain over a half-wave dipole: − 2.15 dB.
    pub fn to_dbd(self) -> GainDbd {
        GainDbd::from_dbd(self.dbi() - DIPOLE_OVER_ISOTROPE_DB)
    }
}

impl Power {
    /// Raised by `level`.
    pub fn plus(self, level: Decibels) -> Power {
        Power::from_w(self.w() * 10f64.powf(level.db() / 10.0))
    }

    /// What a chain with this net gain over a dipole radiates from this power.
    pub fn radiated(self, net_gain: GainDbd) -> Erp {
        Erp::from_w(self.w() * 10f64.powf(net_gain.dbd() / 10.0))
    }
}

impl FieldStrength {
    /// Power density of a plane wave with this field: S = E² / Z0.
    ///
    /// # Source
    /// S(W/m²) = E²/376.73, the impedance of free space (definition).
    pub fn power_density(self) -> PowerDensity {
        PowerDensity::from_w_m2(self.v_m().powi(2) / FREE_SPACE_IMPEDANCE_OHM)
    }
}

impl PowerDensity {
    /// Field of a plane wave with this density: E = √(S · Z0).
    pub fn field(self) -> FieldStrength {
        FieldStrength::from_v_m((self.w_m2() * FREE_SPACE_IMPEDANCE_OHM).sqrt())
    }
}

impl Vswr {
    /// Return loss of this standing wave ratio; infinite at 1:1.
    pub fn return_loss_db(self) -> f64 {
        -20.0 * ((self.ratio() - 1.0) / (self.ratio() + 1.0)).log10()
    }

    /// The standing wave ratio of a return loss above 0 dB.
    pub fn from_return_loss_db(loss_db: f64) -> Vswr {
        let reflected = 10f64.powf(-loss_db / 20.0);
        Vswr::from_ratio((1.0 + reflected) / (1.0 - reflected))
    }
}
