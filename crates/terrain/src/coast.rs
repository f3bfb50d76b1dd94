//! Sea, coastal land and inland: the radio-climatic zones of P.1812 and the distance to the sea they rest on.

use crate::position::Position;

/// Radio-climatic zone of a point, with the code that profiles carry.
///
/// # Source
/// Rec. ITU-R P.1812, § 3.3: sea; land adjoining the sea, below 100 m above sea level and within 50 km of it; the rest [M].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[repr(u8)]
pub enum Zone {
    /// Sea and other large bodies of water.
    Sea = 1,
    /// Coastal land.
    CoastalLand = 3,
    /// Inland.
    Inland = 4,
}

/// Coastal land lies within this distance of the sea, km. Rec. ITU-R P.1812, § 3.3 [M].
pub const COASTAL_WITHIN_KM: f64 = 50.0;

/// Coastal land lies below this height above sea level, m. Rec. ITU-R P.1812, § 3.3 [M].
pub const COASTAL_BELOW_M: f64 = 100.0;

/// Zone of land from its height and its distance to the sea (`None`: none near).
pub fn land_zone(height_m: f64, sea_km: Option<f64>) -> Zone {
    match sea_km {
        Some(km) if km <= COASTAL_WITHIN_KM && height_m < COASTAL_BELOW_M => Zone::CoastalLand,
        _ => Zone::Inland,
    }
}

/// Over-land distance from each end of a path to the first sea on it: `dct` and `dcr` of P.1812.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoastAlongPath {
    /// From the start, km; 0 for a start at sea; `None` with no sea on the path.
    pub from_start_km: Option<f64>,
    /// From the end, km; 0 for an end at sea; `None` with no sea on the path.
    pub from_end_km: Option<f64>,
}

/// Distance to the nearest sea over an area, on cells of about a kilometre.
///
/// Good to about a cell and 2 %: enough to tell 50 km.
#[derive(Debug, Clone, PartialEq)]
pub struct CoastMap {
    west_deg: f64,
    north_deg: f64,
    step_lat_deg: f64,
    step_lon_deg: f64,
    width: usize,
    height: usize,
    sea_km: Vec<f32>,
}

/// Kilometres in a degree of latitude, near enough for cells (the spherical Earth's 111.2).
const KM_PER_DEG: f64 = 111.2;

impl CoastMap {
    /// Surveys a square round `centre`, `half_km` to each side, on cells of `cell_km`; `is_sea` is asked at their centres.
    ///
    /// Take `half_km` 50 km larger than the area whose zones are wanted.
    pub fn survey(
        centre: Position,
        half_km: f64,
        cell_km: f64,
        mut is_sea: impl FnMut(Position) -> bool,
    ) -> Self {
        let side = ((2.0 * half_km / cell_km).ceil() as usize).clamp(1, 4000);
        let step_lat_deg = 2.0 * half_km / KM_PER_DEG / side as f64;
        let shrink = centre.lat_deg().to_radians().cos().max(0.02);
        let step_lon_deg = (step_lat_deg / shrink).min(360.0 / side as f64);
        let mut map = Self {
            west_deg: centre.lon_deg() - 0.5 * side as f64 * step_lon_deg,
            north_deg: centre.lat_deg() + 0.5 * side as f64 * step_lat_deg,
            step_lat_deg,
            step_lon_deg,
            width: side,
            height: side,
            sea_km: vec![f32::INFINITY; side * side],
        };
        for row in 0..side {
            for col in 0..side {
                if is_sea(map.centre_of(col, row)) {
                    map.sea_km[row * side + col] = 0.0;
                }
            }
        }
        let cell = (step_lon_deg * KM_PER_DEG * shrink, step_lat_deg * KM_PER_DEG);
        distances(&mut map.sea_km, side, side, cell);
        map
    }

    fn centre_of(&self, col: usize, row: usize) -> Position {
        let lat = self.north_deg - (row as f64 + 0.5) * self.step_lat_deg;
        let lon = self.west_deg + (col as f64 + 0.5) * self.step_lon_deg;
        Position::from_computed(lat, lon)
    }

    /// True when the survey reaches this position.
    pub fn covers(&self, position: Position) -> bool {
        self.index(position).is_some()
    }

    /// Distance to the nearest sea, km; `None` outside the survey or where it found no sea at all.
    #[inline]
    pub fn sea_km(&self, position: Position) -> Option<f64> {
        let km = self.sea_km[self.index(position)?];
        km.is_finite().then_some(f64::from(km))
    }

    #[inline]
    fn index(&self, position: Position) -> Option<usize> {
        let row = (self.north_deg - position.lat_deg()) / self.step_lat_deg;
        let mut east = position.lon_deg() - self.west_deg;
        if east < 0.0 {
            east += 360.0;
        } else if east >= 360.0 {
            east -= 360.0;
        }
        let col = east / self.step_lon_deg;
        let inside = row >= 0.0 && row < self.height as f64 && col < self.width as f64;
        inside.then(|| row as usize * self.width + col as usize)
    }
}

/// Turns 0 (sea) and ∞ (land) into distances between cell centres, exact on the lattice: lower envelopes of parabolas, first
/// along columns, then along rows.
///
/// # Source
/// P. Felzenszwalb, D. Huttenlocher, "Distance transforms of sampled functions", Theory of Computing 8 (2012).
fn distances(cells: &mut [f32], width: usize, height: usize, (cell_x, cell_y): (f64, f64)) {
    let mut squared: Vec<f64> = cells.iter().map(|&v| f64::from(v)).collect();
    let mut line = vec![0.0; width.max(height)];
    for col in 0..width {
        for row in 0..height {
            line[row] = squared[row * width + col];
        }
        let done = envelope(&line[..height], cell_y);
        for (row, value) in done.into_iter().enumerate() {
            squared[row * width + col] = value;
        }
    }
    for row in squared.chunks_mut(width) {
        let done = envelope(row, cell_x);
        row.copy_from_slice(&done);
    }
    for (cell, value) in cells.iter_mut().zip(squared) {
        *cell = value.sqrt() as f32;
    }
}

/// min over q of (step·(p − q))² + f(q), for every p.
fn envelope(f: &[f64], step: f64) -> Vec<f64> {
    let mut roots: Vec<(usize, f64)> = Vec::with_capacity(f.len());
    let weight = step * step;
    for (q, &value) in f.iter().enumerate().filter(|(_, v)| v.is_finite()) {
        let meets = |&(p, _): &(usize, f64)| {
            let (pf, qf) = (p as f64, q as f64);
            ((value - f[p]) / weight + qf * qf - pf * pf) / (2.0 * (qf - pf))
        };
        while roots.last().is_some_and(|last| meets(last) <= last.1) {
            roots.pop();
        }
        let start = roots.last().map_or(f64::NEG_INFINITY, meets);
        roots.push((q, start));
    }
    let mut k = 0;
    (0..f.len())
        .map(|p| {
            while k + 1 < roots.len() && roots[k + 1].1 <= p as f64 {
                k += 1;
            }
            roots.get(k).map_or(f64::INFINITY, |&(q, _)| {
                let d = p as f64 - q as f64;
                weight * d * d + f[q]
            })
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geodesic;

    /// Rec. ITU-R P.1812, § 3.3 [M].
    #[test]
    fn ref_zone_bounds() {
        assert_eq!(land_zone(99.9, Some(50.0)), Zone::CoastalLand);
        assert_eq!(land_zone(100.0, Some(10.0)), Zone::Inland);
        assert_eq!(land_zone(20.0, Some(50.1)), Zone::Inland);
        assert_eq!(land_zone(20.0, None), Zone::Inland);
        assert_eq!(
            (Zone::Sea as u8, Zone::CoastalLand as u8, Zone::Inland as u8),
            (1, 3, 4)
        );
    }

    #[test]
    fn distance_to_a_round_lake_shore_and_over_the_antimeridian() {
        let centre = Position::new(-17.0, 179.8).unwrap();
        let lake_m = 12_000.0;
        let map = CoastMap::survey(centre, 70.0, 1.0, |p| geodesic::span(centre, p).length_m < lake_m);
        for azimuth in [0.0, 37.0, 90.0, 200.0] {
            let p = geodesic::destination(centre, azimuth, 42_000.0);
            let km = map.sea_km(p).unwrap();
            assert!((km - 30.0).abs() < 1.7, "{azimuth}: {km}");
        }
        assert!(
            map.sea_km(geodesic::destination(centre, 10.0, 150_000.0))
                .is_none()
        );
    }

    #[test]
    fn no_sea_means_no_distance() {
        let centre = Position::new(47.0, 9.0).unwrap();
        let map = CoastMap::survey(centre, 60.0, 1.0, |_| false);
        assert!(map.covers(centre) && map.sea_km(centre).is_none());
    }
}
