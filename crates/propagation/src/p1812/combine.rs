//! The losses put together [4.6].

use crate::lane::{LN_10, Lane};

/// The partial losses that meet in the combination, dB.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parts<L> {
    /// Line of sight for p %, `Lb0p`.
    pub lb0p_db: L,
    /// Line of sight for β0 %, `Lb0β`.
    pub lb0b_db: L,
    /// Free space and median diffraction, `Lbd50`.
    pub lbd50_db: L,
    /// Line of sight and diffraction for p %, `Lbd`.
    pub lbd_db: L,
    /// Diffraction for p %, `Ldp`.
    pub ldp_db: L,
    /// Interpolation `Fi`.
    pub fi: L,
    /// Ducting, `Lba`.
    pub lba_db: L,
    /// Troposcatter, `Lbs`.
    pub lbs_db: L,
}

/// The combination and what it passes through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Combination<L> {
    /// Notional minimum of line of sight and over-sea diffraction, dB, `Lminb0p`.
    pub lminb0p_db: L,
    /// Notional minimum of line of sight and ducting, dB, `Lminbap`.
    pub lminbap_db: L,
    /// Distance interpolation, `Fk`.
    pub fk: L,
    /// Diffraction modified by ducting, dB, `Lbda`.
    pub lbda_db: L,
    /// Angular interpolation, `Fj`.
    pub fj: L,
    /// Modified by the line of sight, dB, `Lbam`.
    pub lbam_db: L,
    /// All of it with troposcatter, dB, `Lbc`.
    pub lbc_db: L,
}

/// Combines the partial losses of a path.
///
/// # Units
/// - `below`: whether the time percentage is below β0
///
/// # Source
/// Rec. ITU-R P.1812-7, § 4.6.
#[inline(always)]
pub fn combine<L: Lane>(
    parts: &Parts<L>,
    below: L::Mask,
    path_km: L,
    theta_mrad: L,
    sea_ratio: L,
) -> Combination<L> {
    let s = L::splat;
    let over_sea = (s(1.0) - sea_ratio) * parts.ldp_db;
    let lminb0p_db = L::select(
        below,
        parts.lb0p_db + over_sea,
        parts.lbd50_db + (parts.lb0b_db + over_sea - parts.lbd50_db) * parts.fi,
    );
    let apart = (parts.lba_db - parts.lb0p_db).abs();
    let lminbap_db = parts.lba_db.max(parts.lb0p_db) + s(2.5) * ((apart * s(-1.0 / 2.5)).exp() + s(1.0)).ln();
    let fk = step_down(s(3.0 * 0.5 / 20.0) * (path_km - s(20.0)));
    let lbda_db = L::select(
        parts.lbd_db.lt(lminbap_db),
        parts.lbd_db,
        lminbap_db + (parts.lbd_db - lminbap_db) * fk,
    );
    let fj = step_down(s(3.0 * 0.8 / 0.3) * (theta_mrad - s(0.3)));
    let lbam_db = lbda_db + (lminb0p_db - lbda_db) * fj;
    let lbc_db = with_troposcatter(parts.lbs_db, lbam_db);
    Combination {
        lminb0p_db,
        lminbap_db,
        fk,
        lbda_db,
        fj,
        lbam_db,
        lbc_db,
    }
}

/// Troposcatter and all else added as powers of their fields' fifth parts, dB, `Lbc`.
#[inline(always)]
pub fn with_troposcatter<L: Lane>(lbs_db: L, lbam_db: L) -> L {
    let s = L::splat;
    let between = (lbs_db - lbam_db).abs();
    lbs_db.min(lbam_db) - s(5.0 / LN_10) * ((between * s(-0.2 * LN_10)).exp() + s(1.0)).ln()
}

/// `1 − ½[1 + tanh x]`, from 1 down to 0.
#[inline(always)]
fn step_down<L: Lane>(x: L) -> L {
    let one = L::splat(1.0);
    one / ((x + x).exp() + one)
}
