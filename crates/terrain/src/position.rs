//! A point on the Earth, in degrees on WGS 84.

/// A point on WGS 84: latitude −90…90°, longitude −180…180°.
///
/// It can only exist with finite, valid angles, so nothing behind it checks again. Longitudes outside the range are
/// wrapped (181° is −179°); latitudes outside it are refused, for they are swapped or mistyped pairs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Position {
    lat_deg: f64,
    lon_deg: f64,
}

/// Why two numbers are no position.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum PositionError {
    /// Latitude or longitude is NaN or infinite.
    NotFinite {
        /// Latitude as given, degrees.
        lat_deg: f64,
        /// Longitude as given, degrees.
        lon_deg: f64,
    },
    /// Latitude beyond a pole.
    LatitudeOutOfRange {
        /// Latitude as given, degrees.
        lat_deg: f64,
    },
    /// Longitude beyond a full turn in either direction.
    LongitudeOutOfRange {
        /// Longitude as given, degrees.
        lon_deg: f64,
    },
}

impl Position {
    /// A position from latitude and longitude in degrees; longitude is wrapped into −180 ≤ λ < 180.
    ///
    /// # Errors
    /// [`PositionError`] for NaN or infinite angles, latitudes beyond ±90°, longitudes beyond ±360°.
    ///
    /// # Example
    /// ```
    /// use terrain::Position;
    /// let east = Position::new(10.0, 181.5).unwrap();
    /// assert_eq!(east.lon_deg(), -178.5);
    /// assert!(Position::new(123.0, 49.0).is_err()); // swapped
    /// ```
    pub fn new(lat_deg: f64, lon_deg: f64) -> Result<Self, PositionError> {
        if !lat_deg.is_finite() || !lon_deg.is_finite() {
            return Err(PositionError::NotFinite { lat_deg, lon_deg });
        }
        if lat_deg.abs() > 90.0 {
            return Err(PositionError::LatitudeOutOfRange { lat_deg });
        }
        if lon_deg.abs() > 360.0 {
            return Err(PositionError::LongitudeOutOfRange { lon_deg });
        }
        Ok(Self {
            lat_deg,
            lon_deg: wrap_lon_deg(lon_deg),
        })
    }

    /// A position from angles a computation on the ellipsoid has just made; wraps the longitude, clamps rounding at the poles.
    pub(crate) fn from_computed(lat_deg: f64, lon_deg: f64) -> Self {
        Self {
            lat_deg: lat_deg.clamp(-90.0, 90.0),
            lon_deg: wrap_lon_deg(lon_deg),
        }
    }

    /// Latitude, degrees, north positive.
    #[inline]
    pub fn lat_deg(self) -> f64 {
        self.lat_deg
    }

    /// Longitude, degrees, east positive, −180 ≤ λ < 180.
    #[inline]
    pub fn lon_deg(self) -> f64 {
        self.lon_deg
    }

    /// Latitude and longitude, degrees, in that order.
    #[inline]
    pub fn parts(self) -> (f64, f64) {
        (self.lat_deg, self.lon_deg)
    }
}

/// Longitude wrapped into −180 ≤ λ < 180, degrees; values already inside are returned bit for bit.
#[inline]
pub(crate) fn wrap_lon_deg(lon_deg: f64) -> f64 {
    if (-180.0..180.0).contains(&lon_deg) {
        return lon_deg;
    }
    let wrapped = (lon_deg + 180.0).rem_euclid(360.0) - 180.0;
    if wrapped >= 180.0 { -180.0 } else { wrapped }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn bad_positions_are_refused_by_reason() {
        assert!(matches!(
            Position::new(f64::NAN, 0.0),
            Err(PositionError::NotFinite { .. })
        ));
        assert!(matches!(
            Position::new(0.0, f64::INFINITY),
            Err(PositionError::NotFinite { .. })
        ));
        assert!(matches!(
            Position::new(-123.0, 49.0),
            Err(PositionError::LatitudeOutOfRange { .. })
        ));
        assert!(matches!(
            Position::new(0.0, 361.0),
            Err(PositionError::LongitudeOutOfRange { .. })
        ));
    }

    proptest! {
        #[test]
        fn prop_longitude_is_wrapped_to_the_same_meridian(lat in -90.0..=90.0f64, lon in -360.0..=360.0f64) {
            let p = Position::new(lat, lon).unwrap();
            prop_assert!((-180.0..180.0).contains(&p.lon_deg()));
            let turns = (p.lon_deg() - lon) / 360.0;
            prop_assert!((turns - turns.round()).abs() < 1e-12);
        }
    }
}
