//! The ground under a path: distances, heights, clutter and zones, transmitter first [3.2, 3.3].

use thiserror::Error;

/// Radio-climatic zone of a profile point.
///
/// # Source
/// Rec. ITU-R P.1812-7, § 3.3.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Zone {
    /// The sea and other large bodies of water; code 1.
    Sea,
    /// Land beside the sea, low and within some 50 km of it; code 3.
    Coast,
    /// All other land; code 4.
    Inland,
}

impl Zone {
    /// The zone for the standard's code 1, 3 or 4; `None` for any other.
    pub fn from_code(code: u8) -> Option<Zone> {
        match code {
            1 => Some(Zone::Sea),
            3 => Some(Zone::Coast),
            4 => Some(Zone::Inland),
            _ => None,
        }
    }

    /// The standard's code: 1 sea, 3 coastal land, 4 inland.
    pub fn code(self) -> u8 {
        match self {
            Zone::Sea => 1,
            Zone::Coast => 3,
            Zone::Inland => 4,
        }
    }
}

/// Why four lists of numbers are not a profile.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum ProfileError {
    /// The lists differ in length.
    Lengths {
        /// Number of distances.
        distances: usize,
        /// Number of ground heights.
        heights: usize,
        /// Number of clutter heights.
        clutter: usize,
        /// Number of zones.
        zones: usize,
    },
    /// Fewer than two points.
    TooFew {
        /// Number of points given.
        points: usize,
    },
    /// The first distance is not zero.
    Start {
        /// The first distance.
        distance_km: f64,
    },
    /// A distance does not exceed the one before it.
    NotRising {
        /// Index of the point, from 0 at the transmitter.
        index: usize,
        /// Its distance.
        distance_km: f64,
        /// Distance of the point before.
        before_km: f64,
    },
    /// The path is longer than the method is meant for.
    TooLong {
        /// Length of the path.
        distance_km: f64,
    },
    /// A ground height that is not on this planet, or no number.
    Height {
        /// Index of the point.
        index: usize,
        /// The height given.
        height_m: f64,
    },
    /// A clutter height that cannot be.
    Clutter {
        /// Index of the point.
        index: usize,
        /// The height given.
        height_m: f64,
    },
}

/// A valid path profile, transmitter first.
///
/// It can only exist with at least two points, distances that rise strictly from 0, and plausible heights, so no step checks
/// them again.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    distance_km: Vec<f64>,
    ground_m: Vec<f64>,
    clutter_m: Vec<f64>,
    zone: Vec<Zone>,
}

impl Profile {
    /// Checks four lists of equal length and keeps them as a profile.
    ///
    /// # Units
    /// - `distance_km`: km from the transmitter, the first one 0
    /// - `ground_m`: bare ground above sea level, m (the sea's surface over water)
    /// - `clutter_m`: representative clutter height above ground, m; ignored at the two ends of a path
    ///
    /// # Errors
    /// [`ProfileError`] names the first point that cannot be right.
    pub fn new(
        distance_km: Vec<f64>,
        ground_m: Vec<f64>,
        clutter_m: Vec<f64>,
        zone: Vec<Zone>,
    ) -> Result<Profile, ProfileError> {
        let points = distance_km.len();
        if ground_m.len() != points || clutter_m.len() != points || zone.len() != points {
            return Err(ProfileError::Lengths {
                distances: points,
                heights: ground_m.len(),
                clutter: clutter_m.len(),
                zones: zone.len(),
            });
        }
        if points < 2 {
            return Err(ProfileError::TooFew { points });
        }
        check_distances(&distance_km)?;
        if let Some((index, &height_m)) = outside(&ground_m, -500.0, 9000.0) {
            return Err(ProfileError::Height { index, height_m });
        }
        if let Some((index, &height_m)) = outside(&clutter_m, 0.0, 200.0) {
            return Err(ProfileError::Clutter { index, height_m });
        }
        Ok(Profile {
            distance_km,
            ground_m,
            clutter_m,
            zone,
        })
    }

    /// The whole profile as borrowed lists.
    pub fn path(&self) -> Path<'_> {
        self.path_to(self.distance_km.len() - 1)
    }

    /// The path that ends at point `last`, as borrowed lists.
    ///
    /// # Panics
    /// If `last` is 0 or past the end of the profile.
    pub fn path_to(&self, last: usize) -> Path<'_> {
        assert!(last >= 1, "a path has at least two points");
        Path {
            d_km: &self.distance_km[..=last],
            h_m: &self.ground_m[..=last],
            clutter_m: &self.clutter_m[..=last],
            zone: &self.zone[..=last],
        }
    }

    /// Number of points.
    #[expect(clippy::len_without_is_empty, reason = "a profile is never empty")]
    pub fn len(&self) -> usize {
        self.distance_km.len()
    }
}

/// A path taken from a valid profile: at least two points, the receiver at the last one.
#[derive(Debug, Clone, Copy)]
pub struct Path<'a> {
    /// Distances from the transmitter, km, `d_i`.
    pub d_km: &'a [f64],
    /// Bare ground above sea level, m, `h_i`.
    pub h_m: &'a [f64],
    /// Clutter above ground, m, `R_i`; not used at the two ends.
    pub clutter_m: &'a [f64],
    /// Zones.
    pub zone: &'a [Zone],
}

impl Path<'_> {
    /// Index of the receiver's point, `n`.
    pub fn last(&self) -> usize {
        self.d_km.len() - 1
    }

    /// Length of the path, km, `D`.
    pub fn length_km(&self) -> f64 {
        self.d_km[self.last()]
    }

    /// The same stretch with every step cut into `parts` equal pieces.
    ///
    /// Heights go straight from point to point; a new point takes the clutter and zone of the nearer neighbour, the one
    /// towards the transmitter where both are equally near, but never the clutter of the transmitter's own point.
    pub fn resampled(&self, parts: usize) -> Profile {
        let points = self.last() * parts + 1;
        let mut out = Profile {
            distance_km: Vec::with_capacity(points),
            ground_m: Vec::with_capacity(points),
            clutter_m: Vec::with_capacity(points),
            zone: Vec::with_capacity(points),
        };
        for i in 0..self.last() {
            for part in 0..parts {
                let share = part as f64 / parts as f64;
                let near = if 2 * part <= parts { i } else { i + 1 };
                out.distance_km
                    .push(self.d_km[i] + share * (self.d_km[i + 1] - self.d_km[i]));
                out.ground_m
                    .push(self.h_m[i] + share * (self.h_m[i + 1] - self.h_m[i]));
                out.clutter_m
                    .push(if near == 0 { 0.0 } else { self.clutter_m[near] });
                out.zone.push(self.zone[near]);
            }
        }
        let last = self.last();
        out.distance_km.push(self.d_km[last]);
        out.ground_m.push(self.h_m[last]);
        out.clutter_m.push(self.clutter_m[last]);
        out.zone.push(self.zone[last]);
        out
    }
}

fn check_distances(distance_km: &[f64]) -> Result<(), ProfileError> {
    if distance_km[0] != 0.0 {
        return Err(ProfileError::Start {
            distance_km: distance_km[0],
        });
    }
    for index in 1..distance_km.len() {
        let (before_km, here_km) = (distance_km[index - 1], distance_km[index]);
        if here_km.is_nan() || here_km <= before_km {
            return Err(ProfileError::NotRising {
                index,
                distance_km: here_km,
                before_km,
            });
        }
    }
    let longest = distance_km[distance_km.len() - 1];
    if longest > 3000.0 {
        return Err(ProfileError::TooLong { distance_km: longest });
    }
    Ok(())
}

fn outside(values: &[f64], least: f64, most: f64) -> Option<(usize, &f64)> {
    values
        .iter()
        .enumerate()
        .find(|(_, x)| !(least..=most).contains(*x))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn profile(d: &[f64], h: &[f64]) -> Result<Profile, ProfileError> {
        Profile::new(
            d.to_vec(),
            h.to_vec(),
            vec![0.0; d.len()],
            vec![Zone::Inland; d.len()],
        )
    }

    #[test]
    fn bad_profiles_are_refused_with_the_point_that_is_wrong() {
        assert_eq!(profile(&[0.0], &[1.0]), Err(ProfileError::TooFew { points: 1 }));
        assert_eq!(
            profile(&[0.1, 1.0], &[1.0, 1.0]),
            Err(ProfileError::Start { distance_km: 0.1 })
        );
        let twice = profile(&[0.0, 1.0, 1.0], &[1.0; 3]);
        assert_eq!(
            twice,
            Err(ProfileError::NotRising {
                index: 2,
                distance_km: 1.0,
                before_km: 1.0
            })
        );
        assert!(matches!(
            profile(&[0.0, f64::NAN], &[1.0; 2]),
            Err(ProfileError::NotRising { index: 1, .. })
        ));
        assert!(matches!(
            profile(&[0.0, f64::INFINITY], &[1.0; 2]),
            Err(ProfileError::TooLong { .. })
        ));
        let hole = profile(&[0.0, 1.0], &[1.0, f64::NAN]);
        assert!(matches!(hole, Err(ProfileError::Height { index: 1, .. })));
        assert!(matches!(
            profile(&[0.0, 1.0], &[1.0, -32768.0]),
            Err(ProfileError::Height { .. })
        ));
        assert!(matches!(
            profile(&[0.0, 1.0], &[1.0]),
            Err(ProfileError::Lengths { .. })
        ));
    }

    #[test]
    fn resampling_keeps_the_stretch_and_its_own_points() {
        let short = profile(&[0.0, 1.0, 3.0], &[0.0, 10.0, 30.0]).expect("valid");
        let fine = short.path().resampled(2);
        assert_eq!(fine.distance_km, [0.0, 0.5, 1.0, 2.0, 3.0]);
        assert_eq!(fine.ground_m, [0.0, 5.0, 10.0, 20.0, 30.0]);
    }
}
