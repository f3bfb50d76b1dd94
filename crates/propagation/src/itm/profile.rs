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
    #[error("{points} heights were given; a profile needs at least 2")]
    TooFewPoints {
        /// Heights given.
        points: usize,
    },
    /// A spacing that is not above 0.
    #[error("a spacing of {spacing_m} m was given; it must be above 0")]
    Spacing {
        /// Spacing given, m.
        spacing_m: f64,
    },
    /// A height that is not on Earth.
    #[error("height {index} is {height_m} m; heights lie between -500 and 9000 m")]
    Height {
        /// Position, from 0.
        index: usize,
        /// Height given, m.
        height_m: f64,
    },
}

/// Lowest and highest ground accepted, m.
const GROUND_M: std::ops::RangeInclusive<f64> = -500.0..=9000.0;

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
        // All at once first, without a branch for each; the culprit is looked for only when there is one.
        if height_m.iter().fold(true, |all, h| all & GROUND_M.contains(h)) {
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
