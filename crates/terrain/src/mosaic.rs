//! Many tiles as one surface: the nearest sample, or the bilinear height, at any position.

use std::sync::Arc;

use crate::grid::Grid;
use crate::position::Position;
use crate::raster::{Raster, RasterError};

/// A raster with the name its errors are told by (a file's name).
#[derive(Debug, Clone)]
pub struct Tile {
    /// Name to show to a person, such as `N46E008.hgt`.
    pub name: String,
    /// Its samples.
    pub raster: Arc<Raster>,
}

/// A set of tiles. Where they overlap the first in the list counts; neighbours supply the samples across a seam.
#[derive(Debug, Clone, Default)]
pub struct Mosaic {
    tiles: Vec<Tile>,
}

/// What a mosaic knows at a position.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Lookup<'a> {
    /// A value.
    Value(f64),
    /// A tile lies here, but holds no value.
    Void,
    /// No tile lies here.
    NoTile,
    /// The tile that lies here cannot be read.
    Damaged(&'a str, &'a RasterError),
}

/// Remembers the tile of the last look-up; neighbouring positions are then found at once.
#[derive(Debug, Clone, Copy, Default)]
pub struct Cursor {
    tile: usize,
}

impl Mosaic {
    /// A mosaic of these tiles, the first of overlapping ones counting.
    pub fn new(tiles: Vec<Tile>) -> Self {
        Self { tiles }
    }

    /// The tiles, in order.
    pub fn tiles(&self) -> &[Tile] {
        &self.tiles
    }

    /// The bilinear value at a position. Void corners are left out and the others weigh more; four void corners are
    /// [`Lookup::Void`]. At the outer edge of the set the last samples count unchanged for half a step.
    #[inline]
    pub fn bilinear(&self, cursor: &mut Cursor, position: Position) -> Lookup<'_> {
        let Some((tile, (col, row))) = self.find(cursor, position) else {
            return Lookup::NoTile;
        };
        let raster = &tile.raster;
        let grid = raster.grid();
        let inside = col >= 0.0
            && row >= 0.0
            && col < f64::from(grid.width() - 1)
            && row < f64::from(grid.height() - 1);
        if inside {
            let (col0, row0) = (col as u32, row as u32);
            return match raster.quad(col0, row0) {
                Ok(corners) => blend(corners, col - f64::from(col0), row - f64::from(row0)),
                Err(error) => Lookup::Damaged(&tile.name, error),
            };
        }
        let (col0, row0) = (col.floor(), row.floor());
        match self.seam_quad(cursor.tile, col0 as i64, row0 as i64) {
            Ok(corners) => blend(corners, col - col0, row - row0),
            Err(error) => Lookup::Damaged(&tile.name, error),
        }
    }

    /// The value of the sample nearest to a position.
    #[inline]
    pub fn nearest(&self, cursor: &mut Cursor, position: Position) -> Lookup<'_> {
        let Some((tile, (col, row))) = self.find(cursor, position) else {
            return Lookup::NoTile;
        };
        let grid = tile.raster.grid();
        // Half a cell outside at most, so adding a half and cutting rounds to the nearest.
        let col = ((col + 0.5).max(0.0) as u32).min(grid.width() - 1);
        let row = ((row + 0.5).max(0.0) as u32).min(grid.height() - 1);
        match tile.raster.value(col, row) {
            Ok(value) if value.is_nan() => Lookup::Void,
            Ok(value) => Lookup::Value(f64::from(value)),
            Err(error) => Lookup::Damaged(&tile.name, error),
        }
    }

    #[inline]
    fn find(&self, cursor: &mut Cursor, position: Position) -> Option<(&Tile, (f64, f64))> {
        if let Some(tile) = self.tiles.get(cursor.tile)
            && let Some(at) = tile.raster.grid().locate(position)
        {
            return Some((tile, at));
        }
        for (index, tile) in self.tiles.iter().enumerate() {
            if let Some(at) = tile.raster.grid().locate(position) {
                cursor.tile = index;
                return Some((tile, at));
            }
        }
        None
    }

    /// Four corners of which some lie beyond the tile: those come from whichever other tile has a sample there.
    #[cold]
    fn seam_quad(&self, home: usize, col0: i64, row0: i64) -> Result<[f32; 4], &RasterError> {
        let mut corners = [f32::NAN; 4];
        let raster = &self.tiles[home].raster;
        let grid = raster.grid();
        for (k, corner) in corners.iter_mut().enumerate() {
            let (col, row) = (col0 + (k as i64 & 1), row0 + (k as i64 >> 1));
            let (near_col, near_row) = (clamp_index(col, grid.width()), clamp_index(row, grid.height()));
            *corner = raster.value(near_col, near_row)?;
            if (i64::from(near_col), i64::from(near_row)) != (col, row)
                && let Some(value) = self.across_seam(home, grid, col, row)
            {
                *corner = value;
            }
        }
        Ok(corners)
    }

    fn across_seam(&self, home: usize, grid: &Grid, col: i64, row: i64) -> Option<f32> {
        let (x0, y0) = grid.xy(0, 0);
        let (step_x, step_y) = grid.steps();
        let there = grid
            .crs()
            .unproject(x0 + col as f64 * step_x, y0 - row as f64 * step_y)?;
        self.tiles
            .iter()
            .enumerate()
            .filter(|(index, _)| *index != home)
            .find_map(|(_, tile)| {
                let other = tile.raster.grid();
                let (col, row) = other.locate(there)?;
                let col = clamp_index(col.round() as i64, other.width());
                let row = clamp_index(row.round() as i64, other.height());
                tile.raster.value(col, row).ok()
            })
    }
}

#[inline]
fn clamp_index(index: i64, length: u32) -> u32 {
    index.clamp(0, i64::from(length) - 1) as u32
}

/// Bilinear blend of north-west, north-east, south-west, south-east; voids (NaN) are left out.
#[inline]
fn blend<'a>(corners: [f32; 4], u: f64, v: f64) -> Lookup<'a> {
    let [nw, ne, sw, se] = corners.map(f64::from);
    let north = nw + u * (ne - nw);
    let south = sw + u * (se - sw);
    let value = north + v * (south - north);
    if value.is_nan() {
        blend_with_voids(corners, u, v)
    } else {
        Lookup::Value(value)
    }
}

#[cold]
fn blend_with_voids<'a>(corners: [f32; 4], u: f64, v: f64) -> Lookup<'a> {
    let weights = [(1.0 - u) * (1.0 - v), u * (1.0 - v), (1.0 - u) * v, u * v];
    let (mut sum, mut weight) = (0.0, 0.0);
    for (corner, w) in corners.iter().zip(weights) {
        if !corner.is_nan() {
            sum += w * f64::from(*corner);
            weight += w;
        }
    }
    if weight > 1e-9 {
        Lookup::Value(sum / weight)
    } else {
        Lookup::Void
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::crs::Crs;
    use crate::grid::{Corner, Registration};
    use crate::raster::Samples;

    /// A plane z = 10·lon + 3·lat (bilinear heights of a plane are exact), one tile per degree.
    fn plane(west: f64, north: f64, registration: Registration, n: u32) -> Tile {
        let step = 1.0
            / f64::from(if registration == Registration::Point {
                n - 1
            } else {
                n
            });
        let corner = Corner {
            x: west,
            y: north,
            step_x: step,
            step_y: step,
        };
        let grid = Grid::new(Crs::Geographic, corner, (n, n), registration).unwrap();
        let z = (0..n * n).map(|i| {
            let (x, y) = grid.xy(i % n, i / n);
            (10.0 * x + 3.0 * y) as f32
        });
        let raster = Raster::in_memory(grid, Samples::F32(z.collect())).unwrap();
        Tile {
            name: format!("{west} {north}"),
            raster: Arc::new(raster),
        }
    }

    #[test]
    fn seams_of_either_registration_leave_no_trace() {
        for registration in [Registration::Point, Registration::Area] {
            let mosaic = Mosaic::new(vec![
                plane(8.0, 47.0, registration, 11),
                plane(9.0, 47.0, registration, 11),
            ]);
            let mut cursor = Cursor::default();
            for i in 0..400 {
                let lon = 8.1 + f64::from(i) * 0.0045;
                let at = Position::new(46.51, lon).unwrap();
                let Lookup::Value(z) = mosaic.bilinear(&mut cursor, at) else {
                    panic!("no value at {lon}")
                };
                assert!(
                    (z - (10.0 * lon + 3.0 * 46.51)).abs() < 1e-4,
                    "{registration:?} {lon}: {z}"
                );
            }
        }
    }

    #[test]
    fn voids_are_left_out_and_four_of_them_are_void() {
        assert_eq!(
            blend([f32::NAN, 8.0, 4.0, f32::NAN], 0.5, 0.5),
            Lookup::Value(6.0)
        );
        assert_eq!(blend([f32::NAN; 4], 0.5, 0.5), Lookup::Void);
        assert_eq!(
            Mosaic::default().nearest(&mut Cursor::default(), Position::new(0.0, 0.0).unwrap()),
            Lookup::NoTile
        );
    }
}
