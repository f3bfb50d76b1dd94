//! Beam tilt and null fill: shares and phases of the bays for a wanted lobe.

use serde::{Deserialize, Serialize};

use crate::array::element::wave_number;
use crate::array::{ArrayError, within};
use crate::line::wavelength_m;

/// What one bay is meant to get.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Excitation {
    /// Power share, in any scale.
    pub share: f64,
    /// Phase, degrees; positive leads.
    pub phase_deg: f64,
}

/// What filling the first null by unequal halves gives and costs, by closed form.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct NullFill {
    /// Field at the first null against the peak, ratio.
    pub fill_ratio: f64,
    /// The same as power, dB (negative).
    pub fill_db: f64,
    /// Loss of gain at the peak, dB, 0 or more.
    pub gain_cost_db: f64,
}

/// Phases that put the main lobe `tilt_deg` below the horizon: +k·z·sin τ, upper bays lead.
///
/// # Units
/// - `heights_m`: centre of each bay, any origin
/// - `tilt_deg`: depression, positive down
/// - returns: degrees, one a bay
///
/// # Errors
/// [`ArrayError::Range`] for a tilt beyond ±45°.
pub fn tilt_phases_deg(heights_m: &[f64], freq_mhz: f64, tilt_deg: f64) -> Result<Vec<f64>, ArrayError> {
    within(
        "beam-tilt-in-degrees",
        tilt_deg,
        tilt_deg.abs() <= 45.0,
        "minus-45-to-45",
    )?;
    let k = wave_number(freq_mhz);
    Ok(heights_m
        .iter()
        .map(|z| (k * z * tilt_deg.to_radians().sin()).to_degrees())
        .collect())
}

/// Shares and phases for a tilt with the first null filled by unequal halves: the upper half of the bays gets `upper_share` of
/// the power.
///
/// # Errors
/// As [`tilt_phases_deg`]; [`ArrayError::Range`] for a share outside 0–1 (both excluded); with an odd number of bays the middle
/// one counts half to each.
pub fn tilted_and_filled(
    heights_m: &[f64],
    freq_mhz: f64,
    tilt_deg: f64,
    upper_share: f64,
) -> Result<Vec<Excitation>, ArrayError> {
    let ok = upper_share > 0.0 && upper_share < 1.0;
    within("share-of-the-upper-half", upper_share, ok, "above-0-and-below-1")?;
    let phases = tilt_phases_deg(heights_m, freq_mhz, tilt_deg)?;
    let mut order: Vec<usize> = (0..heights_m.len()).collect();
    order.sort_by(|&a, &b| heights_m[a].total_cmp(&heights_m[b]));
    let n = heights_m.len();
    let mut out = vec![
        Excitation {
            share: 1.0,
            phase_deg: 0.0
        };
        n
    ];
    for (rank, &bay) in order.iter().enumerate() {
        let share = match (2 * rank + 1).cmp(&n) {
            std::cmp::Ordering::Less => 2.0 * (1.0 - upper_share),
            std::cmp::Ordering::Equal => 1.0,
            std::cmp::Ordering::Greater => 2.0 * upper_share,
        };
        out[bay] = Excitation {
            share,
            phase_deg: phases[bay],
        };
    }
    Ok(out)
}

/// Adds a phase that grows with the square of the distance from the middle: fills all nulls a little. `edge_deg` is the lag of
/// the outermost bays.
pub fn with_quadratic_phase(
    mut wanted: Vec<Excitation>,
    heights_m: &[f64],
    edge_deg: f64,
) -> Vec<Excitation> {
    let low = heights_m.iter().copied().fold(f64::INFINITY, f64::min);
    let high = heights_m.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let half = (high - low) / 2.0;
    if half > 0.0 {
        for (e, z) in wanted.iter_mut().zip(heights_m) {
            e.phase_deg -= edge_deg * ((z - low - half) / half).powi(2);
        }
    }
    wanted
}

/// Elevation of the first null of `bays` equal bays, degrees: arcsin(λ/(N·D)); none when the stack is too short to have one.
pub fn first_null_deg(bays: usize, spacing_m: f64, freq_mhz: f64) -> Option<f64> {
    let sine = wavelength_m(freq_mhz) / (bays as f64 * spacing_m);
    (bays > 1 && sine <= 1.0).then(|| sine.asin().to_degrees())
}

/// First null filled by giving one half of the bays `share` of the power, same phase.
///
/// # Source
/// Each half stands at H = 1/[(N/2)·sin(π/N)] of its peak there, in antiphase: fill H·|a−b|/(a+b), cost (a+b)²/2.
pub fn null_fill_by_halves(bays: usize, share: f64) -> Result<NullFill, ArrayError> {
    within(
        "share-of-one-half",
        share,
        share > 0.0 && share < 1.0,
        "above-0-and-below-1",
    )?;
    let ok = bays >= 2 && bays.is_multiple_of(2);
    within("number-of-bays-in-two-halves", bays as f64, ok, "an-even-number")?;
    let n = bays as f64;
    let height = 1.0 / (n / 2.0 * (std::f64::consts::PI / n).sin());
    let (a, b) = (share.sqrt(), (1.0 - share).sqrt());
    let fill_ratio = height * (a - b).abs() / (a + b);
    Ok(NullFill {
        fill_ratio,
        fill_db: 20.0 * fill_ratio.log10(),
        gain_cost_db: -10.0 * ((a + b).powi(2) / 2.0).log10(),
    })
}

/// Depression of the radio horizon from a height over smooth ground, 4/3 earth, degrees: 0.0278·√h.
pub fn horizon_dip_deg(height_m: f64) -> f64 {
    (2.0 * height_m.max(0.0) / (4.0 / 3.0 * 6_371_000.0))
        .sqrt()
        .to_degrees()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ref_phase_per_bay_for_one_degree() {
        // 360·0.9·sin 1° = 5.65° a bay (computed).
        let s = 0.9 * wavelength_m(98.0);
        let p = tilt_phases_deg(&[0.0, s, 2.0 * s], 98.0, 1.0).unwrap();
        assert!((p[1] - p[0] - 5.65).abs() < 0.02 && (p[2] - p[1] - 5.65).abs() < 0.02);
    }

    #[test]
    fn ref_null_fill_examples_of_eight_bays() {
        // Computed three times: 60/40 → 6.6 %, 0.04 dB; 70/30 → 13.6 %, 0.19 dB; 80/20 → 21.8 %, 0.46 dB.
        for (share, fill, db, cost) in [
            (0.6, 0.066, -23.6, 0.04),
            (0.7, 0.136, -17.3, 0.19),
            (0.8, 0.218, -13.2, 0.46),
        ] {
            let f = null_fill_by_halves(8, share).unwrap();
            assert!((f.fill_ratio - fill).abs() < 0.0006, "{share}: {f:?}");
            assert!(
                (f.fill_db - db).abs() < 0.06 && (f.gain_cost_db - cost).abs() < 0.006,
                "{share}: {f:?}"
            );
        }
    }

    #[test]
    fn ref_first_null_and_horizon() {
        let s = 0.9 * wavelength_m(98.0);
        assert!((first_null_deg(8, s, 98.0).unwrap() - 7.98).abs() < 0.005);
        assert!((first_null_deg(4, s, 98.0).unwrap() - 16.13).abs() < 0.005);
        assert!((horizon_dip_deg(100.0) - 0.278).abs() < 0.001);
        assert!(first_null_deg(1, s, 98.0).is_none());
    }
}
