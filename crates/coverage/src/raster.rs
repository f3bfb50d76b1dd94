//! A north-up raster from receivers along radials.
//!
//! The rule: a cell takes the straight-line mean, in dB, of the four receivers round its centre in azimuth and distance; where the
//! nearest one has no answer, neither has the cell. `tests/raster.rs` prints how far that lies from point-to-point answers.

use rayon::prelude::*;
use terrain::{Crs, Grid, People, Position, Registration, geodesic};

use crate::erp::ErpTable;
use crate::error::CoverageError;
use crate::lattice::Polar;
use crate::loss_field::LossField;
use crate::wanted::{Situation, Wanted};
use propagation::p1812::variability::inverse_normal;

/// What is painted, in hundredths of a dB.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Paint {
    /// Median field at the height of prediction, dB(µV/m).
    AtPrediction,
    /// Median field at a listener in a situation, dB(µV/m).
    Field(Situation),
    /// The field at a listener that this percentage of places and of the model's errors exceeds, dB(µV/m); 50 % is the median.
    FieldAt(Wanted, f64),
    /// What the field has in hand over the wanted one for this percentage of places and of the model's errors, dB; 50 % is the
    /// median.
    Margin(Wanted, f64),
}

/// Field or margin on a grid of latitude and longitude, rows from the north.
#[derive(Debug, Clone, PartialEq)]
pub struct FieldRaster {
    /// EPSG 4326, pixel is area. West of the antimeridian it may go on beyond 180°.
    pub grid: Grid,
    /// Hundredths of a dB; [`NODATA`] outside the rim and behind missing ground.
    pub values_cdb: Vec<i16>,
}

/// Value of a cell without an answer.
pub const NODATA: i16 = i16::MIN;

/// Most cells of a raster.
pub const MAX_CELLS: f64 = 100e6;

/// Cells between positions that are exact; between them straight lines, good to 0.1 m at 90 m cells.
const MESH: usize = 16;

/// Standard deviations that a median must have in hand for a percentage of places.
fn deviations(places_pct: f64) -> Result<f64, CoverageError> {
    if !(0.01..=99.99).contains(&places_pct) {
        return Err(CoverageError::Study {
            what: "places-percentage",
            value: places_pct,
        });
    }
    Ok(-inverse_normal::<f64>(places_pct / 100.0))
}

impl FieldRaster {
    /// People by class of the value where they live: below the first edge, then from each edge to the next. Those without an answer
    /// are in none.
    ///
    /// # Shape
    /// `edges_db`: rising
    pub fn people_by_class(&self, people: &People, edges_db: &[f64]) -> Vec<f64> {
        let mut out = vec![0.0; edges_db.len() + 1];
        for (at, count) in people.cells() {
            if let Some(value) = self.at(at) {
                out[edges_db.partition_point(|edge| *edge <= value)] += count;
            }
        }
        out
    }

    /// Value of a cell, dB; `None` without an answer.
    pub fn value_db(&self, col: u32, row: u32) -> Option<f64> {
        let index = row as usize * self.grid.width() as usize + col as usize;
        match self.values_cdb.get(index) {
            None | Some(&NODATA) => None,
            Some(&v) => Some(f64::from(v) / 100.0),
        }
    }

    /// Value of the cell that holds a position, dB.
    pub fn at(&self, position: Position) -> Option<f64> {
        let (col, row) = self.grid.locate(position)?;
        self.value_db(col.round() as u32, row.round() as u32)
    }
}

impl LossField {
    /// A grid of square cells of about `cell_m` that holds the whole radius.
    ///
    /// # Errors
    /// [`CoverageError::Study`] for cells that are no size, too many of them, or a radius that comes within 0.5° of a pole.
    pub fn raster_grid(&self, cell_m: f64) -> Result<Grid, CoverageError> {
        grid_round(self.lattice.site(), self.lattice.radius_km() * 1000.0, cell_m)
    }

    /// The field or margin of this antenna on a grid.
    ///
    /// # Errors
    /// As [`LossField::raster_grid`] and [`LossField::served`].
    pub fn raster(&self, erp: &ErpTable, paint: &Paint, cell_m: f64) -> Result<FieldRaster, CoverageError> {
        let grid = self.raster_grid(cell_m)?;
        let values = self.painted_db(erp, paint)?;
        Ok(self.raster_of(&values, grid))
    }

    /// Any values of the receivers on a grid of latitude and longitude; NaN is no answer.
    ///
    /// # Shape
    /// - `values`: one for each receiver, in the lattice's order, in the unit whose hundredths are stored
    ///
    /// # Panics
    /// If there are fewer values than receivers.
    pub fn raster_of(&self, values: &[f32], grid: Grid) -> FieldRaster {
        assert!(values.len() >= self.lattice.len(), "a value for each receiver");
        let width = grid.width() as usize;
        let mut values_cdb = vec![NODATA; width * grid.height() as usize];
        values_cdb
            .par_chunks_mut(width * MESH)
            .enumerate()
            .for_each(|(band, cells)| self.band(values, &grid, band * MESH, cells));
        FieldRaster { grid, values_cdb }
    }

    /// What is painted at each receiver, dB; NaN behind missing ground.
    ///
    /// # Errors
    /// As [`LossField::served`].
    pub fn painted_db(&self, erp: &ErpTable, paint: &Paint) -> Result<Vec<f32>, CoverageError> {
        let less = self.less_by_row(paint)?;
        let mut values = self.fields_dbuv_m(erp);
        values
            .iter_mut()
            .enumerate()
            .for_each(|(index, value)| *value -= less[self.row_index(index)]);
        Ok(values)
    }

    /// What each row takes from the field at prediction.
    fn less_by_row(&self, paint: &Paint) -> Result<Vec<f32>, CoverageError> {
        let (rule, freq_mhz) = (self.study.receiving, self.study.conditions.freq_mhz);
        let rows = self.rows.rows().iter();
        match paint {
            Paint::AtPrediction => Ok(rows.map(|_| 0.0).collect()),
            Paint::Field(situation) => rows
                .map(|row| Ok(situation.loss_db(row, rule, freq_mhz)? as f32))
                .collect(),
            Paint::FieldAt(wanted, places_pct) => {
                let deviations = deviations(*places_pct)?;
                rows.map(|row| {
                    let threshold = wanted.threshold(row, rule, freq_mhz)?;
                    Ok((threshold.situation_db + deviations * threshold.spread_db) as f32)
                })
                .collect()
            }
            Paint::Margin(wanted, places_pct) => {
                let deviations = deviations(*places_pct)?;
                rows.map(|row| {
                    let threshold = wanted.threshold(row, rule, freq_mhz)?;
                    Ok((threshold.at_prediction_dbuv_m() + deviations * threshold.spread_db) as f32)
                })
                .collect()
            }
        }
    }

    /// Some rows of a raster, from `top` down.
    fn band(&self, values: &[f32], grid: &Grid, top: usize, cells: &mut [i16]) {
        let width = grid.width() as usize;
        let rows = cells.len() / width;
        let exact = |col: usize, row: usize| {
            let (lon, lat) = grid.xy(col as u32, row as u32);
            Position::new(lat.clamp(-90.0, 90.0), (lon + 540.0).rem_euclid(360.0) - 180.0)
                .map(|position| self.lattice.plane(position))
                .unwrap_or((f64::INFINITY, f64::INFINITY))
        };
        let bottom = top + MESH.min(rows.max(1));
        for left in (0..width).step_by(MESH) {
            let right = left + MESH;
            let corners = [
                exact(left, top),
                exact(right, top),
                exact(left, bottom),
                exact(right, bottom),
            ];
            let far = |p: &(f64, f64)| p.0.hypot(p.1) > self.lattice.radius_km() * 1000.0;
            if corners.iter().all(far) && !holds_site(&corners) && self.all_outside(&corners) {
                continue;
            }
            for row in 0..rows {
                let v = row as f64 / (bottom - top) as f64;
                for col in left..right.min(width) {
                    let u = (col - left) as f64 / MESH as f64;
                    let (x, y) = mixed(&corners, u, v);
                    cells[row * width + col] = self.cell(values, x, y);
                }
            }
        }
    }

    /// True when a block whose corners are outside the rim lies outside altogether: its middle is further out than half its
    /// diagonal.
    fn all_outside(&self, corners: &[(f64, f64); 4]) -> bool {
        let (x, y) = mixed(corners, 0.5, 0.5);
        let half = 0.5 * (corners[3].0 - corners[0].0).hypot(corners[3].1 - corners[0].1);
        x.hypot(y) - half > self.lattice.radius_km() * 1000.0
    }

    fn cell(&self, values: &[f32], x: f64, y: f64) -> i16 {
        let polar = Polar {
            azimuth_deg: geodesic::compass_deg(x.atan2(y).to_degrees()),
            distance_m: x.hypot(y),
        };
        self.mixed_value(values, polar).map_or(NODATA, stored)
    }

    /// Values of the receivers at any position, by the rule of the raster; `None` outside the rim and behind missing ground.
    ///
    /// # Panics
    /// If there are fewer values than receivers.
    pub fn interpolated(&self, values: &[f32], position: Position) -> Option<f64> {
        self.mixed_value(values, self.lattice.polar(position))
    }

    pub(crate) fn mixed_value(&self, values: &[f32], polar: Polar) -> Option<f64> {
        let four = self.lattice.around(polar)?;
        let (mut sum, mut weight, mut nearest) = (0.0, 0.0, (0.0, f32::NAN));
        for (index, w) in four {
            let value = values[index];
            if w > nearest.0 {
                nearest = (w, value);
            }
            if !value.is_nan() {
                sum += w * f64::from(value);
                weight += w;
            }
        }
        (!nearest.1.is_nan() && weight > 0.0).then(|| sum / weight)
    }
}

/// A north-up grid of square cells of about `cell_m` that holds a circle.
pub(crate) fn grid_round(site: Position, radius_m: f64, cell_m: f64) -> Result<Grid, CoverageError> {
    let refuse = |what, value| CoverageError::Study { what, value };
    if !(1.0..=100_000.0).contains(&cell_m) {
        return Err(refuse("cell-side", cell_m));
    }
    let cells = (2.0 * radius_m / cell_m + 2.0).powi(2);
    if cells > MAX_CELLS {
        return Err(refuse("cells", cells.round()));
    }
    let rim = |azimuth| geodesic::destination(site, azimuth, radius_m);
    let reach_deg = 0.5 * (rim(0.0).lat_deg() - rim(180.0).lat_deg());
    if site.lat_deg().abs() + reach_deg.abs() > 89.5 {
        return Err(refuse("latitude", site.lat_deg()));
    }
    let half = (radius_m / cell_m).ceil().max(1.0);
    let step_lat = reach_deg / radius_m * cell_m;
    // The widest longitude of a circle lies a little poleward of its centre.
    let widest = (0..=12)
        .map(|k| {
            let azimuth = if site.lat_deg() >= 0.0 {
                90.0 - f64::from(k)
            } else {
                90.0 + f64::from(k)
            };
            let lon = rim(azimuth).lon_deg() - site.lon_deg();
            (lon + 540.0).rem_euclid(360.0) - 180.0
        })
        .fold(0.0, f64::max);
    let step_lon = step_lat / site.lat_deg().to_radians().cos();
    let half_lon = (widest / step_lon).ceil().max(1.0);
    let corner = terrain::grid::Corner {
        x: site.lon_deg() - half_lon * step_lon,
        y: site.lat_deg() + half * step_lat,
        step_x: step_lon,
        step_y: step_lat,
    };
    let size = (2 * half_lon as u32, 2 * half as u32);
    Grid::new(Crs::Geographic, corner, size, Registration::Area).map_err(|_| refuse("cell-grid", cell_m))
}

/// Hundredths of a dB; ±327 dB are as far as it goes.
fn stored(db: f64) -> i16 {
    (db * 100.0)
        .round()
        .clamp(f64::from(NODATA) + 1.0, f64::from(i16::MAX)) as i16
}

fn holds_site(corners: &[(f64, f64); 4]) -> bool {
    let (xs, ys) = (corners.map(|c| c.0), corners.map(|c| c.1));
    let around = |v: [f64; 4]| v.iter().any(|&c| c <= 0.0) && v.iter().any(|&c| c >= 0.0);
    around(xs) && around(ys)
}

fn mixed(corners: &[(f64, f64); 4], u: f64, v: f64) -> (f64, f64) {
    let [a, b, c, d] = corners;
    let at =
        |a: f64, b: f64, c: f64, d: f64| (1.0 - v) * ((1.0 - u) * a + u * b) + v * ((1.0 - u) * c + u * d);
    (at(a.0, b.0, c.0, d.0), at(a.1, b.1, c.1, d.1))
}
