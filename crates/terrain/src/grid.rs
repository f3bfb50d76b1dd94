//! Where the samples of a raster lie.

use crate::crs::Crs;
use crate::position::Position;

/// What a sample stands for, which decides where it lies relative to the corner a file names.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Registration {
    /// The value at a point: a named corner is the first sample itself (SRTM).
    Point,
    /// The value of a cell: a named corner is the outer corner of the first cell, its sample half a step inside.
    Area,
}

/// The lattice of a raster: rows run north to south, columns west to east.
///
/// Held as the centre of the first sample, so that both registrations are read the same way after construction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grid {
    crs: Crs,
    first_x: f64,
    first_y: f64,
    step_x: f64,
    step_y: f64,
    width: u32,
    height: u32,
    registration: Registration,
}

/// Why numbers make no grid.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum GridError {
    /// No samples, or more than [`MAX_SIDE`] along one side.
    Size {
        /// Samples along x.
        width: u32,
        /// Samples along y.
        height: u32,
    },
    /// A step that is not a positive finite number.
    Step {
        /// Spacing along x, in units of the coordinate system.
        step_x: f64,
        /// Spacing along y.
        step_y: f64,
    },
    /// A grid that leaves the Earth: usually latitude and longitude are swapped.
    BeyondPole {
        /// Southernmost sample, degrees.
        south: f64,
        /// Northernmost sample, degrees.
        north: f64,
    },
    /// A grid that goes round the Earth more than once, or a corner that is no longitude.
    TooWide {
        /// Westernmost sample, degrees.
        west: f64,
        /// Easternmost sample, degrees.
        east: f64,
    },
    /// Coordinates that are NaN, infinite or further from the origin than any projection puts the Earth.
    Corner {
        /// x of the named corner.
        x: f64,
        /// y of the named corner.
        y: f64,
        /// The coordinate system.
        crs: Crs,
    },
}

/// Most samples along one side of a raster.
pub const MAX_SIDE: u32 = 500_000;

/// Largest believable projected coordinate, metres (the equator is 40 075 km long).
const FARTHEST_M: f64 = 4.1e7;

/// North-west corner as a file names it, and spacing, in units of the coordinate system.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Corner {
    /// x of the corner (longitude for [`Crs::Geographic`]).
    pub x: f64,
    /// y of the corner (latitude for [`Crs::Geographic`]).
    pub y: f64,
    /// Spacing of columns, positive eastward.
    pub step_x: f64,
    /// Spacing of rows, positive southward.
    pub step_y: f64,
}

impl Grid {
    /// A grid from its north-west corner: the first sample for [`Registration::Point`], the outer corner of the first cell
    /// for [`Registration::Area`].
    ///
    /// # Errors
    /// [`GridError`]: sizes, steps or corners that are no place on Earth.
    pub fn new(
        crs: Crs,
        corner: Corner,
        (width, height): (u32, u32),
        registration: Registration,
    ) -> Result<Self, GridError> {
        let Corner { x, y, step_x, step_y } = corner;
        if width == 0 || height == 0 || width > MAX_SIDE || height > MAX_SIDE {
            return Err(GridError::Size { width, height });
        }
        if !(step_x.is_finite() && step_y.is_finite() && step_x > 0.0 && step_y > 0.0) {
            return Err(GridError::Step { step_x, step_y });
        }
        let inset = if registration == Registration::Area {
            0.5
        } else {
            0.0
        };
        let grid = Self {
            crs,
            first_x: x + inset * step_x,
            first_y: y - inset * step_y,
            step_x,
            step_y,
            width,
            height,
            registration,
        };
        grid.check_on_earth(x, y).map(|()| grid)
    }

    fn check_on_earth(&self, x: f64, y: f64) -> Result<(), GridError> {
        let last_x = self.first_x + f64::from(self.width - 1) * self.step_x;
        let last_y = self.first_y - f64::from(self.height - 1) * self.step_y;
        let corner = || GridError::Corner { x, y, crs: self.crs };
        if ![x, y, last_x, last_y].iter().all(|v| v.is_finite()) {
            return Err(corner());
        }
        if self.crs == Crs::Geographic {
            let slack = 1e-6;
            if self.first_y > 90.0 + slack || last_y < -90.0 - slack {
                return Err(GridError::BeyondPole {
                    south: last_y,
                    north: self.first_y,
                });
            }
            if last_x - self.first_x > 360.0 + slack || self.first_x < -360.0 || last_x > 720.0 {
                return Err(GridError::TooWide {
                    west: self.first_x,
                    east: last_x,
                });
            }
        } else if [x, y, last_x, last_y].iter().any(|v| v.abs() > FARTHEST_M) {
            return Err(corner());
        }
        Ok(())
    }

    /// The coordinate system of x and y.
    pub fn crs(&self) -> Crs {
        self.crs
    }

    /// Samples along x.
    pub fn width(&self) -> u32 {
        self.width
    }

    /// Samples along y.
    pub fn height(&self) -> u32 {
        self.height
    }

    /// Spacing of columns and of rows, in units of the coordinate system, both positive.
    pub fn steps(&self) -> (f64, f64) {
        (self.step_x, self.step_y)
    }

    /// How the file named its corner.
    pub fn registration(&self) -> Registration {
        self.registration
    }

    /// x and y of the sample at a column and row.
    pub fn xy(&self, col: u32, row: u32) -> (f64, f64) {
        (
            self.first_x + f64::from(col) * self.step_x,
            self.first_y - f64::from(row) * self.step_y,
        )
    }

    /// Position of the sample at a column and row; `None` where the projection has no place (the corners of Mollweide's oval).
    pub fn position(&self, col: u32, row: u32) -> Option<Position> {
        let (x, y) = self.xy(col, row);
        self.crs.unproject(x, y)
    }

    /// West, south, east and north of the outer edges of the cells, in units of the coordinate system.
    pub fn edges(&self) -> (f64, f64, f64, f64) {
        let west = self.first_x - 0.5 * self.step_x;
        let north = self.first_y + 0.5 * self.step_y;
        let (w, h) = (f64::from(self.width), f64::from(self.height));
        (west, north - h * self.step_y, west + w * self.step_x, north)
    }

    /// Column and row of a position as fractions (sample centres on whole numbers); `None` if it lies outside the cells.
    ///
    /// A cell reaches half a step round its sample in both registrations, so tiles that share no edge leave no gap.
    #[inline]
    pub fn locate(&self, position: Position) -> Option<(f64, f64)> {
        let (mut x, y) = if self.crs == Crs::Geographic {
            (position.lon_deg(), position.lat_deg())
        } else {
            self.crs.project(position)?
        };
        if self.crs == Crs::Geographic {
            let west = self.first_x - 0.5 * self.step_x;
            while x < west - 1e-12 {
                x += 360.0;
            }
            while x - 360.0 >= west {
                x -= 360.0;
            }
        }
        self.locate_xy(x, y)
    }

    /// The grid of some columns and rows of this one, from the sample at (`col`, `row`).
    pub(crate) fn part(&self, (col, row): (u32, u32), (width, height): (u32, u32)) -> Self {
        let (first_x, first_y) = self.xy(col, row);
        Self {
            first_x,
            first_y,
            width,
            height,
            ..*self
        }
    }

    /// Column and row of a position, also outside the grid; longitudes are taken on the side of the seam where `near` falls
    /// into (or next to) the grid.
    pub(crate) fn locate_unbounded(&self, position: Position, near: Position) -> Option<(f64, f64)> {
        let (mut x, y) = self.crs.project(position)?;
        if self.crs == Crs::Geographic {
            let middle = self.first_x + 0.5 * f64::from(self.width) * self.step_x;
            let near_x = middle + crate::position::wrap_lon_deg(near.lon_deg() - middle);
            x = near_x + crate::position::wrap_lon_deg(x - near.lon_deg());
        }
        Some(((x - self.first_x) / self.step_x, (self.first_y - y) / self.step_y))
    }

    /// Column and row of x and y as fractions; `None` outside the cells.
    #[inline]
    pub fn locate_xy(&self, x: f64, y: f64) -> Option<(f64, f64)> {
        let col = (x - self.first_x) / self.step_x;
        let row = (self.first_y - y) / self.step_y;
        let inside = col >= -HALF
            && row >= -HALF
            && col <= f64::from(self.width) - 1.0 + HALF
            && row <= f64::from(self.height) - 1.0 + HALF;
        inside.then_some((col, row))
    }
}

/// Half a cell, with room for rounding, so that the line between two cells belongs to at least one.
const HALF: f64 = 0.5 + 1e-7;

#[cfg(test)]
mod tests {
    use super::*;

    fn geographic(x: f64, y: f64, step: f64, n: u32, registration: Registration) -> Result<Grid, GridError> {
        Grid::new(
            Crs::Geographic,
            Corner {
                x,
                y,
                step_x: step,
                step_y: step,
            },
            (n, n),
            registration,
        )
    }

    #[test]
    fn both_registrations_put_the_same_sample_at_the_same_place() {
        let step = 1.0 / 1200.0;
        let point = geographic(8.0, 47.0, step, 1201, Registration::Point).unwrap();
        let area = geographic(
            8.0 - step / 2.0,
            47.0 + step / 2.0,
            step,
            1201,
            Registration::Area,
        )
        .unwrap();
        let here = Position::new(46.5, 8.25).unwrap();
        let (a, b) = (point.locate(here).unwrap(), area.locate(here).unwrap());
        assert!((a.0 - 300.0).abs() < 1e-6 && (a.1 - 600.0).abs() < 1e-6);
        assert!((a.0 - b.0).abs() < 1e-6 && (a.1 - b.1).abs() < 1e-6);
    }

    #[test]
    fn a_grid_over_the_antimeridian_finds_both_sides() {
        let grid = geographic(179.0, 1.0, 0.01, 201, Registration::Point).unwrap();
        assert!(grid.locate(Position::new(0.5, 179.5).unwrap()).is_some());
        let (col, _) = grid.locate(Position::new(0.5, -179.5).unwrap()).unwrap();
        assert!((col - 150.0).abs() < 1e-6);
        assert!(grid.locate(Position::new(0.5, -178.0).unwrap()).is_none());
    }

    #[test]
    fn bad_grids_are_refused_by_reason() {
        let make = |x, y, step, n| geographic(x, y, step, n, Registration::Point);
        assert!(matches!(
            make(8.0, 123.0, 0.01, 10),
            Err(GridError::BeyondPole { .. })
        ));
        assert!(matches!(make(0.0, 47.0, -0.01, 10), Err(GridError::Step { .. })));
        assert!(matches!(
            make(0.0, 47.0, f64::NAN, 10),
            Err(GridError::Step { .. })
        ));
        assert!(matches!(make(0.0, 47.0, 0.01, 0), Err(GridError::Size { .. })));
        assert!(matches!(
            make(0.0, 47.0, 0.01, u32::MAX),
            Err(GridError::Size { .. })
        ));
        assert!(matches!(
            make(f64::NAN, 47.0, 0.01, 9),
            Err(GridError::Corner { .. })
        ));
        assert!(matches!(
            make(0.0, 80.0, 1.0, 100),
            Err(GridError::TooWide { .. }) | Ok(_)
        ));
    }
}
