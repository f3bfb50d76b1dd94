//! The terrain profile: heights at a constant spacing.

use super::line_fit::sum;

/// Heights above sea level at a constant spacing, transmitter first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Profile<'a> {
    spacing_m: f64,
    height_m: &'a [f64],
}

/// A profile that cannot be used.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum ProfileError {
    /// Fewer than two heights.
    TooFewPoints {
        /// Heights given.
        points: usize,
    },
    /// A spacing that is not above 0.
    Spacing {
        /// Spacing given, m.
        spacing_m: f64,
    },
    /// A height that is not on Earth.
    Height {
        /// Position, from 0.
        index: usize,
        /// Height given, m.
        height_m: f64,
    },
}

/// Lowest and highest ground accepted, m.
const GROUND_M: std::ops::RangeInclusive<f64> = -500.0..=9000.0;

/// All heights at once, without a branch for each: farthest from the middle of the range, and whether any is no number.
fn all_on_earth(height_m: &[f64]) -> bool {
    const LANES: usize = 8;
    let middle_m = 0.5 * (GROUND_M.start() + GROUND_M.end());
    let (mut farthest, mut taint) = ([0.0; LANES], [0.0; LANES]);
    let (blocks, rest) = height_m.as_chunks::<LANES>();
    for block in blocks {
        for i in 0..LANES {
            let off_m = (block[i] - middle_m).abs();
            farthest[i] = if off_m > farthest[i] { off_m } else { farthest[i] };
            // 0 for a number; infinity and what is no number stay none.
            taint[i] += off_m * 0.0;
        }
    }
    let blocks_hold =
        farthest.iter().all(|f| *f <= GROUND_M.end() - middle_m) && taint.iter().all(|t| *t == 0.0);
    blocks_hold && rest.iter().all(|h| GROUND_M.contains(h))
}

impl<'a> Profile<'a> {
    /// A profile of heights above sea level at a constant spacing.
    ///
    /// # Shape
    /// Transmitter first, receiver last; at least two heights.
    ///
    /// # Errors
    /// [`ProfileError`]: too few heights, a spacing that is not above 0, a height outside −500 to 9000 m or not a number.
    pub fn new(spacing_m: f64, height_m: &'a [f64]) -> Result<Self, ProfileError> {
        if height_m.len() < 2 {
            return Err(ProfileError::TooFewPoints {
                points: height_m.len(),
            });
        }
        if !(spacing_m > 0.0 && spacing_m.is_finite()) {
            return Err(ProfileError::Spacing { spacing_m });
        }
        if all_on_earth(height_m) {
            return Ok(Self { spacing_m, height_m });
        }
        let index = height_m.iter().position(|h| !GROUND_M.contains(h)).unwrap_or(0);
        Err(ProfileError::Height {
            index,
            height_m: height_m[index],
        })
    }

    /// Distance between neighbouring heights, m.
    pub fn spacing_m(&self) -> f64 {
        self.spacing_m
    }

    /// The heights, m.
    pub fn height_m(&self) -> &'a [f64] {
        self.height_m
    }

    /// Number of intervals: one less than heights.
    pub fn intervals(&self) -> usize {
        self.height_m.len() - 1
    }

    /// Length, m.
    pub fn distance_m(&self) -> f64 {
        self.intervals() as f64 * self.spacing_m
    }

    /// Mean height of the middle eight tenths, m.
    #[inline(always)]
    pub(super) fn mean_height_m(&self) -> f64 {
        let tenth = (0.1 * self.intervals() as f64) as usize;
        let middle = &self.height_m[tenth..=self.intervals() - tenth];
        sum(middle) / middle.len() as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Wherever it stands, one height that is not on Earth is found and named.
    #[test]
    fn bad_heights_are_named() {
        for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 9000.1, -500.1] {
            for place in [0, 3, 8, 15, 16, 19] {
                let mut heights_m = [100.0; 20];
                heights_m[place] = bad;
                let refused = Profile::new(100.0, &heights_m);
                assert!(
                    matches!(refused, Err(ProfileError::Height { index, .. }) if index == place),
                    "{bad}"
                );
            }
        }
        assert!(Profile::new(100.0, &[-500.0, 9000.0]).is_ok());
        assert!(Profile::new(f64::NAN, &[0.0, 0.0]).is_err());
        assert!(Profile::new(100.0, &[0.0]).is_err());
    }
}
