//! A path over the ground, sample by sample.

use crate::coast::{CoastAlongPath, CoastMap, Zone, land_zone};
use crate::geodesic::{self, Course};
use crate::ground::{Cursors, Ground, GroundError, MAX_SAMPLES};
use crate::position::Position;

/// Where the height of a sample comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Quality {
    /// From a tile.
    Measured,
    /// The tile holds no value here; filled along the path between the nearest measured samples.
    Void,
    /// No tile here and nothing assumed: the height is a filler of 0 m that no answer may rest on.
    Missing,
    /// No tile here; sea by the user's choice.
    SeaByChoice,
}

/// Samples along a geodesic, one vector per quantity, all of one length, the start first.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Profile {
    /// Azimuth at the start, degrees clockwise from true north.
    pub azimuth_deg: f64,
    /// Distance of the last sample, km.
    pub length_km: f64,
    /// Spacing of the samples, km.
    pub step_km: f64,
    /// Distance from the start, km; rises strictly from 0.
    pub distances_km: Vec<f64>,
    /// Positions.
    pub positions: Vec<Position>,
    /// Height of the ground (or surface) above sea level, m; finite everywhere; 0 over sea.
    pub heights_m: Vec<f64>,
    /// Land-cover codes, 0 where unknown.
    pub covers: Vec<u8>,
    /// Clutter height R added on top, m.
    pub clutter_m: Vec<f64>,
    /// True over water, sea or inland.
    pub water: Vec<bool>,
    /// Radio-climatic zones.
    pub zones: Vec<Zone>,
    /// Where each height comes from.
    pub quality: Vec<Quality>,
}

/// Shares of the samples of one or more paths, each 0…1.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Shares {
    /// Filled from neighbours because the tile holds no value.
    pub void: f64,
    /// Over water.
    pub water: f64,
    /// Without a tile, and nothing assumed.
    pub missing: f64,
    /// Without a tile, sea by choice.
    pub sea_by_choice: f64,
}

impl Profile {
    /// Number of samples.
    pub fn len(&self) -> usize {
        self.distances_km.len()
    }

    /// True without samples.
    pub fn is_empty(&self) -> bool {
        self.distances_km.is_empty()
    }

    /// Number of samples before the first one without a tile: no receiver beyond may be computed.
    pub fn usable_len(&self) -> usize {
        self.quality
            .iter()
            .position(|&q| q == Quality::Missing)
            .unwrap_or(self.len())
    }

    /// Shares of void, water and missing samples.
    pub fn shares(&self) -> Shares {
        let n = self.len().max(1) as f64;
        let of = |wanted| self.quality.iter().filter(|&&q| q == wanted).count() as f64 / n;
        Shares {
            void: of(Quality::Void),
            water: self.water.iter().filter(|&&w| w).count() as f64 / n,
            missing: of(Quality::Missing),
            sea_by_choice: of(Quality::SeaByChoice),
        }
    }

    /// Over-land distances from the two ends to the first sea on the path, to the first sea sample itself.
    pub fn coast(&self) -> CoastAlongPath {
        let at_sea = |&zone: &Zone| zone == Zone::Sea;
        let end_km = self.distances_km.last().copied().unwrap_or(0.0);
        CoastAlongPath {
            from_start_km: self.zones.iter().position(at_sea).map(|i| self.distances_km[i]),
            from_end_km: self
                .zones
                .iter()
                .rposition(at_sea)
                .map(|i| end_km - self.distances_km[i]),
        }
    }

    fn clear(&mut self) {
        self.distances_km.clear();
        self.positions.clear();
        self.heights_m.clear();
        self.covers.clear();
        self.clutter_m.clear();
        self.water.clear();
        self.zones.clear();
        self.quality.clear();
    }
}

impl Ground {
    /// The path between two positions in equal steps of at most `step_m`; the last sample is `to` itself.
    ///
    /// # Errors
    /// [`GroundError::NoLength`], [`GroundError::NoPath`], and what [`Ground::radial_into`] gives.
    ///
    /// # Example
    /// ```
    /// let island = terrain::generated::demo_island();
    /// let (mast, studio) = (island.site("mast").unwrap(), island.site("studio").unwrap());
    /// let path = island.ground.profile(studio.position, mast.position, 90.0).unwrap();
    /// assert!(path.step_km <= 0.09 && path.heights_m.iter().all(|h| h.is_finite()));
    /// ```
    pub fn profile(&self, from: Position, to: Position, step_m: f64) -> Result<Profile, GroundError> {
        let span = geodesic::span(from, to);
        if span.length_m < 0.01 {
            return Err(GroundError::NoLength);
        }
        if !(step_m.is_finite() && step_m > 0.0) {
            let (length_km, azimuth_deg) = (span.length_m / 1000.0, span.azimuth_deg);
            return Err(GroundError::NoPath {
                length_km,
                azimuth_deg,
                step_m,
            });
        }
        let steps = (span.length_m / step_m - 1e-9).ceil().max(1.0);
        let mut profile = Profile::default();
        self.walk(
            from,
            span.azimuth_deg,
            span.length_m / steps,
            steps,
            Some(to),
            &mut profile,
        )?;
        Ok(profile)
    }

    /// The path that leaves `from` at `azimuth_deg` (clockwise from true north), samples at whole multiples of `step_m` up to
    /// `length_km`.
    ///
    /// # Errors
    /// As [`Ground::radial_into`].
    pub fn radial(
        &self,
        from: Position,
        azimuth_deg: f64,
        length_km: f64,
        step_m: f64,
    ) -> Result<Profile, GroundError> {
        let mut profile = Profile::default();
        self.radial_into(from, azimuth_deg, length_km, step_m, &mut profile)?;
        Ok(profile)
    }

    /// [`Ground::radial`] into a profile whose buffers are reused.
    ///
    /// # Errors
    /// [`GroundError::NoPath`] for steps, lengths or azimuths that make no path, [`GroundError::Tile`] for a damaged tile,
    /// [`GroundError::AbsurdHeight`], [`GroundError::AllVoid`]. A missing tile is no error: see [`Profile::usable_len`].
    pub fn radial_into(
        &self,
        from: Position,
        azimuth_deg: f64,
        length_km: f64,
        step_m: f64,
        profile: &mut Profile,
    ) -> Result<(), GroundError> {
        let steps = (length_km * 1000.0 / step_m + 1e-9).floor();
        self.walk(from, azimuth_deg, step_m, steps, None, profile)
    }

    /// Mean height of the ground between two distances along an azimuth (trapezium rule), metres above sea level: what the
    /// antenna's height is compared with for effective height (3 to 15 km) and height above average terrain (3 to 16 km).
    ///
    /// # Errors
    /// As [`Ground::radial_into`], and [`GroundError::Missing`] when a tile is missing in the stretch.
    pub fn mean_ground_m(
        &self,
        from: Position,
        azimuth_deg: f64,
        from_km: f64,
        to_km: f64,
        step_m: f64,
    ) -> Result<f64, GroundError> {
        let path = self.radial(from, azimuth_deg, to_km, step_m)?;
        let first = path.distances_km.partition_point(|&d| d < from_km - 1e-9);
        if path.usable_len() < path.len() {
            let (lat_deg, lon_deg) = path.positions[path.usable_len()].parts();
            return Err(GroundError::Missing { lat_deg, lon_deg });
        }
        let heights = &path.heights_m[first.min(path.len() - 1)..];
        let (Some(a), Some(b)) = (heights.first(), heights.last()) else {
            return Err(GroundError::NoLength);
        };
        if heights.len() == 1 {
            return Ok(*a);
        }
        Ok((heights.iter().sum::<f64>() - 0.5 * (a + b)) / (heights.len() - 1) as f64)
    }

    fn walk(
        &self,
        from: Position,
        azimuth_deg: f64,
        step_m: f64,
        steps: f64,
        to: Option<Position>,
        profile: &mut Profile,
    ) -> Result<(), GroundError> {
        let sensible = step_m.is_finite() && step_m > 0.0 && azimuth_deg.is_finite();
        if !sensible || !(1.0..MAX_SAMPLES as f64).contains(&steps) {
            return Err(GroundError::NoPath {
                length_km: steps * step_m / 1000.0,
                azimuth_deg,
                step_m,
            });
        }
        profile.clear();
        profile.azimuth_deg = geodesic::compass_deg(azimuth_deg);
        profile.step_km = step_m / 1000.0;
        let count = steps as usize;
        let course = Course::new(from, azimuth_deg);
        course.positions_into((0..=count).map(|k| k as f64 * step_m), &mut profile.positions);
        if let (Some(to), Some(last)) = (to, profile.positions.last_mut()) {
            *last = to;
        }
        profile
            .distances_km
            .extend((0..=count).map(|k| k as f64 * step_m / 1000.0));
        profile.length_km = count as f64 * step_m / 1000.0;
        self.sound_all(profile)?;
        fill_voids(profile)?;
        set_zones(profile, self.coast());
        Ok(())
    }

    fn sound_all(&self, profile: &mut Profile) -> Result<(), GroundError> {
        let mut cursors = Cursors::default();
        for &position in &profile.positions {
            let sounding = self.sound(&mut cursors, position)?;
            profile.heights_m.push(sounding.height_m);
            profile.covers.push(sounding.cover);
            profile.clutter_m.push(self.clutter_at(&sounding));
            profile.water.push(sounding.water);
            profile
                .zones
                .push(if sounding.sea { Zone::Sea } else { Zone::Inland });
            profile.quality.push(sounding.quality);
        }
        Ok(())
    }
}

/// Replaces the NaN of voids by the straight line between the nearest samples that have a height.
fn fill_voids(profile: &mut Profile) -> Result<(), GroundError> {
    if !profile.quality.contains(&Quality::Void) {
        return Ok(());
    }
    let has_height = |i: &usize| matches!(profile.quality[*i], Quality::Measured | Quality::SeaByChoice);
    let known: Vec<usize> = (0..profile.len()).filter(has_height).collect();
    let (Some(&first), Some(&last)) = (known.first(), known.last()) else {
        return Err(GroundError::AllVoid);
    };
    let heights = &mut profile.heights_m;
    let (at_first, at_last) = (heights[first], heights[last]);
    heights[..first].fill(at_first);
    heights[last..].fill(at_last);
    for pair in known.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let (from, rise) = (heights[a], heights[b] - heights[a]);
        for (k, height_m) in heights[a..b].iter_mut().enumerate().skip(1) {
            *height_m = from + rise * k as f64 / (b - a) as f64;
        }
    }
    for (height_m, _) in heights
        .iter_mut()
        .zip(&profile.quality)
        .filter(|(_, q)| **q == Quality::Missing)
    {
        *height_m = 0.0;
    }
    Ok(())
}

/// Splits land into coastal and inland: by the survey where it reaches, else by the sea on the path itself.
fn set_zones(profile: &mut Profile, coast: Option<&CoastMap>) {
    let along_km = if coast.is_some_and(|map| profile.positions.iter().all(|&p| map.covers(p))) {
        Vec::new()
    } else {
        sea_along_path_km(profile)
    };
    for i in 0..profile.len() {
        if profile.zones[i] == Zone::Sea {
            continue;
        }
        let position = profile.positions[i];
        let sea_km = match coast {
            Some(map) if map.covers(position) => map.sea_km(position),
            _ => along_km.get(i).copied().filter(|km| km.is_finite()),
        };
        profile.zones[i] = land_zone(profile.heights_m[i], sea_km);
    }
}

/// Distance of every sample to the nearest sea sample of the path, km; ∞ without one.
fn sea_along_path_km(profile: &Profile) -> Vec<f64> {
    let sea: Vec<f64> = (0..profile.len())
        .filter(|&i| profile.zones[i] == Zone::Sea)
        .map(|i| profile.distances_km[i])
        .collect();
    let nearest = |&d: &f64| {
        let next = sea.partition_point(|&s| s < d);
        let around = [next.checked_sub(1), Some(next)];
        let gaps = around
            .iter()
            .filter_map(|k| sea.get((*k)?))
            .map(|s| (s - d).abs());
        gaps.fold(f64::INFINITY, f64::min)
    };
    profile.distances_km.iter().map(nearest).collect()
}
