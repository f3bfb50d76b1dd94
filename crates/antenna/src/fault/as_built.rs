//! What is built is never quite what was drawn: how far readings of sound and faulty installations scatter by that alone.

use num_complex::Complex64 as C64;
use rand_chacha::ChaCha8Rng;
use rand_distr::{Distribution, StandardNormal};

use super::Installation;
use crate::chain::Stage;
use crate::feed::Cable;

/// Standard deviations between drawing and work, all normal and independent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AsBuilt {
    /// Length of each branch cable, m.
    pub cut_m: f64,
    /// Velocity of each branch cable, as a ratio of itself.
    pub velocity_ratio: f64,
    /// Resistance and reactance of each bay's connector, ohm.
    pub bay_ohm: f64,
    /// Share of the power on each way of the splitter, as a ratio of itself.
    pub share_ratio: f64,
    /// Loss of the line from transmitter to splitter, as a ratio of itself.
    pub loss_ratio: f64,
    /// Impedance of the line's cables, ohm.
    pub line_ohm: f64,
    /// Directivity of the coupler and depth of scatter, dB.
    pub leak_db: f64,
}

impl AsBuilt {
    /// As drawn.
    pub const EXACT: AsBuilt = AsBuilt {
        cut_m: 0.0,
        velocity_ratio: 0.0,
        bay_ohm: 0.0,
        share_ratio: 0.0,
        loss_ratio: 0.0,
        line_ohm: 0.0,
        leak_db: 0.0,
    };

    /// Careful work (common practice, no source): cables within a centimetre and half a per cent of velocity, bays that come back
    /// from the maker with some 26 dB of return loss, ways equal to 0.15 dB, line loss within its table's 5 %, cables of 50 ± 1 Ω.
    pub const USUAL: AsBuilt = AsBuilt {
        cut_m: 0.005,
        velocity_ratio: 0.005,
        bay_ohm: 3.5,
        share_ratio: 0.03,
        loss_ratio: 0.05,
        line_ohm: 0.5,
        leak_db: 2.0,
    };

    /// One installation of many built to the same drawing.
    pub fn drawn(&self, of: &Installation, dice: &mut ChaCha8Rng) -> Installation {
        let mut normal = |sigma: f64| -> f64 {
            let unit: f64 = StandardNormal.sample(dice);
            sigma * unit
        };
        let mut out = of.clone();
        let n = out.feed.branches.len();
        for bay in 0..n {
            let off = C64::new(normal(self.bay_ohm), normal(self.bay_ohm));
            out.aerial = out.aerial.shows_more(bay, off);
            let branch = &mut out.feed.branches[bay];
            branch.share *= (1.0 + normal(self.share_ratio)).max(0.0);
            branch.cable.length_m = (branch.cable.length_m + normal(self.cut_m)).max(0.0);
            let velocity = &mut branch.cable.line.velocity_ratio;
            *velocity = (*velocity * (1.0 + normal(self.velocity_ratio))).clamp(0.1, 1.0);
        }
        out.coupler_directivity_db += normal(self.leak_db);
        out.scatter_db += normal(self.leak_db);
        let lossier = (1.0 + normal(self.loss_ratio)).max(0.0);
        for stage in &mut out.line {
            match stage {
                Stage::Line {
                    cable: Cable { line, .. },
                    ..
                } => {
                    line.z0_ohm = (line.z0_ohm + normal(self.line_ohm)).max(1.0);
                    line.a_db_per_100m *= lossier;
                    line.b_db_per_100m *= lossier;
                }
                Stage::Loss { loss_db } => *loss_db *= lossier,
                Stage::Measured(_) | Stage::Fixed(_) => {}
            }
        }
        out
    }
}
