//! Standing waves: VSWR, reflection, return loss, and what they cost on a lossy line.

use serde::{Deserialize, Serialize};

use super::{LineError, within};

/// A standing wave ratio: 1 or more, finite.
///
/// # Source
/// Γ = (S−1)/(S+1), return loss −20·log Γ, mismatch loss −10·log(1−Γ²): standard theory of lines.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct Vswr(f64);

impl Vswr {
    /// Perfect match.
    pub const ONE: Vswr = Vswr(1.0);

    /// From the ratio itself.
    ///
    /// # Errors
    /// [`LineError::Range`] below 1 or not finite.
    pub fn new(ratio: f64) -> Result<Self, LineError> {
        within("vswr", ratio, ratio >= 1.0, "a-ratio-of-1-or-more").map(Self)
    }

    /// From the size of a reflection coefficient, 0 to below 1. Errors as [`Self::new`].
    pub fn from_reflection(magnitude: f64) -> Result<Self, LineError> {
        let ok = (0.0..1.0).contains(&magnitude);
        within(
            "reflection-coefficient",
            magnitude,
            ok,
            "a-figure-from-0-to-below-1",
        )?;
        Ok(Self((1.0 + magnitude) / (1.0 - magnitude)))
    }

    /// From a return loss in dB, above 0. Errors as [`Self::new`].
    pub fn from_return_loss_db(db: f64) -> Result<Self, LineError> {
        within("return-loss-in-db", db, db > 0.0, "a-figure-above-0")?;
        Self::from_reflection(10f64.powf(-db / 20.0))
    }

    /// The ratio.
    pub fn ratio(self) -> f64 {
        self.0
    }

    /// Size of the reflection coefficient, 0–1.
    pub fn reflection(self) -> f64 {
        (self.0 - 1.0) / (self.0 + 1.0)
    }

    /// Return loss in dB; infinite at perfect match.
    pub fn return_loss_db(self) -> f64 {
        -20.0 * self.reflection().log10()
    }

    /// Share of the incident power that comes back, 0–1.
    pub fn reflected_ratio(self) -> f64 {
        self.reflection().powi(2)
    }

    /// Loss of power by the reflection alone, dB.
    pub fn mismatch_loss_db(self) -> f64 {
        -10.0 * (1.0 - self.reflected_ratio()).log10()
    }

    /// The VSWR seen at the input of a line of so much matched loss with this VSWR at its end.
    ///
    /// # Errors
    /// [`LineError::Range`] for a negative loss.
    pub fn seen_through(self, matched_loss_db: f64) -> Result<Self, LineError> {
        within(
            "matched-line-loss-in-db",
            matched_loss_db,
            matched_loss_db >= 0.0,
            "from-0",
        )?;
        Self::from_reflection(self.reflection() * 10f64.powf(-matched_loss_db / 10.0))
    }
}

impl TryFrom<f64> for Vswr {
    type Error = LineError;
    fn try_from(ratio: f64) -> Result<Self, LineError> {
        Self::new(ratio)
    }
}

impl From<Vswr> for f64 {
    fn from(v: Vswr) -> f64 {
        v.0
    }
}

/// Total loss of a line between the power that enters it and the power its load takes, dB.
///
/// # Units
/// - `matched_loss_db`: loss of the line into a matched load, dB, 0 or more
/// - `load`: VSWR of the load at the far end
///
/// # Source
/// 10·log((A² − Γ²)/(A(1 − Γ²))), A = 10^(M/10): standard theory of lossy lines, small loss per wavelength.
///
/// # Example
/// ```
/// use antenna::line::{Vswr, mismatch::total_loss_db};
/// // One dB of line and a load of VSWR 2: 0.196 dB more.
/// assert!((total_loss_db(1.0, Vswr::new(2.0)?)? - 1.196).abs() < 0.005);
/// # Ok::<(), antenna::line::LineError>(())
/// ```
pub fn total_loss_db(matched_loss_db: f64, load: Vswr) -> Result<f64, LineError> {
    within(
        "matched-line-loss-in-db",
        matched_loss_db,
        matched_loss_db >= 0.0,
        "from-0",
    )?;
    let a = 10f64.powf(matched_loss_db / 10.0);
    let g2 = load.reflected_ratio();
    Ok(10.0 * ((a * a - g2) / (a * (1.0 - g2))).log10())
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// VSWR, Γ, return loss dB, reflected %, mismatch dB (computed from the formulas; the first two columns stand in any handbook).
    const TABLE: [(f64, f64, f64, f64, f64); 8] = [
        (1.05, 0.0244, 32.26, 0.06, 0.003),
        (1.10, 0.0476, 26.44, 0.23, 0.010),
        (1.20, 0.0909, 20.83, 0.83, 0.036),
        (1.25, 0.1111, 19.08, 1.23, 0.054),
        (1.30, 0.1304, 17.69, 1.70, 0.075),
        (1.50, 0.2000, 13.98, 4.00, 0.177),
        (2.0, 0.3333, 9.54, 11.11, 0.512),
        (3.0, 0.5000, 6.02, 25.0, 1.249),
    ];

    #[test]
    fn ref_vswr_table() {
        for (s, gamma, rl, pct, loss) in TABLE {
            let v = Vswr::new(s).unwrap();
            assert!((v.reflection() - gamma).abs() < 5.1e-5, "{s}");
            assert!((v.return_loss_db() - rl).abs() < 0.0051, "{s}");
            assert!((v.reflected_ratio() * 100.0 - pct).abs() < 0.0051, "{s}");
            assert!((v.mismatch_loss_db() - loss).abs() < 5.1e-4, "{s}");
        }
    }

    #[test]
    fn ref_lossy_line_with_a_bad_load() {
        // Computed, and the same from a general network library.
        let two = Vswr::new(2.0).unwrap();
        assert!((total_loss_db(1.0, two).unwrap() - 1.196).abs() < 0.005);
        assert!((two.seen_through(1.0).unwrap().ratio() - 1.72).abs() < 0.005);
        assert!((total_loss_db(3.0, two).unwrap() - 3.389).abs() < 0.01);
        assert!((two.seen_through(3.0).unwrap().ratio() - 1.40).abs() < 0.01);
    }

    #[test]
    fn bad_vswr_below_one_or_infinite() {
        assert!(Vswr::new(0.9).is_err());
        assert!(Vswr::new(f64::INFINITY).is_err());
        assert!(Vswr::from_reflection(1.0).is_err());
        assert!(total_loss_db(-1.0, Vswr::ONE).is_err());
    }

    proptest! {
        #[test]
        fn prop_total_loss_is_never_below_matched_loss(m in 0.0..20.0f64, s in 1.0..50.0f64) {
            prop_assert!(total_loss_db(m, Vswr::new(s).unwrap()).unwrap() >= m - 1e-9);
        }

        #[test]
        fn prop_return_loss_and_vswr_are_inverse(s in 1.001..50.0f64) {
            let back = Vswr::from_return_loss_db(Vswr::new(s).unwrap().return_loss_db()).unwrap();
            prop_assert!((back.ratio() - s).abs() < 1e-9 * s);
        }
    }
}
