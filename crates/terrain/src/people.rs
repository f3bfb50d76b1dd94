//! Who lives where: rasters of counts, cell by cell, whose totals survive every change of grid.

use crate::crs::Crs;
use crate::geodesic;
use crate::grid::Grid;
use crate::position::Position;
use crate::raster::{Raster, RasterError};

/// People per cell of a grid. A count belongs to its cell, not to its sample's point.
#[derive(Debug, Clone, PartialEq)]
pub struct People {
    grid: Grid,
    counts: Vec<f64>,
}

/// People on another grid, and those who live outside it.
#[derive(Debug, Clone, PartialEq)]
pub struct Resampled {
    /// People inside the new grid.
    pub people: People,
    /// People of the old grid outside the new one: inside + outside = the old total.
    pub outside: f64,
}

/// Why counts are no people.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PeopleError {
    /// Not one count per cell.
    Length {
        /// Counts given.
        found: usize,
        /// Cells of the grid.
        expected: usize,
    },
    /// A negative or infinite count.
    Count {
        /// The count.
        count: f64,
        /// Column of the cell.
        col: u32,
        /// Row of the cell.
        row: u32,
    },
    /// More cells than fit into memory in sensible time.
    TooMany {
        /// Number of cells.
        cells: u64,
    },
    /// The raster does not reach the area asked for.
    Elsewhere,
    /// The raster could not be read.
    Raster(#[from] RasterError),
}

/// Most cells of one [`People`].
pub const MAX_CELLS: u64 = 1 << 26;

impl People {
    /// People from one count per cell, row by row from the north-west.
    ///
    /// # Errors
    /// [`PeopleError::Length`], [`PeopleError::Count`] for a negative or infinite count. NaN (no data) counts as nobody.
    pub fn new(grid: Grid, mut counts: Vec<f64>) -> Result<Self, PeopleError> {
        let expected = grid.width() as usize * grid.height() as usize;
        if counts.len() != expected {
            return Err(PeopleError::Length {
                found: counts.len(),
                expected,
            });
        }
        for (index, count) in counts.iter_mut().enumerate() {
            if count.is_nan() {
                *count = 0.0;
            }
            if !(0.0..f64::INFINITY).contains(count) {
                let (col, row) = (index as u32 % grid.width(), index as u32 / grid.width());
                return Err(PeopleError::Count {
                    count: *count,
                    col,
                    row,
                });
            }
        }
        Ok(Self { grid, counts })
    }

    /// People of the part of a raster of counts round a site; void cells hold nobody. Only the blocks touched are read.
    ///
    /// # Errors
    /// [`PeopleError`]: unreadable blocks, negative counts, too many cells, a raster that lies elsewhere.
    pub fn within(raster: &Raster, centre: Position, radius_km: f64) -> Result<Self, PeopleError> {
        let window = window(raster.grid(), centre, radius_km).ok_or(PeopleError::Elsewhere)?;
        let cells = u64::from(window.width) * u64::from(window.height);
        if cells > MAX_CELLS {
            return Err(PeopleError::TooMany { cells });
        }
        let mut counts = Vec::with_capacity(cells as usize);
        for row in window.row..window.row + window.height {
            for col in window.col..window.col + window.width {
                counts.push(f64::from(raster.value(col, row).map_err(Clone::clone)?));
            }
        }
        let grid = raster
            .grid()
            .part((window.col, window.row), (window.width, window.height));
        Self::new(grid, counts)
    }

    /// The grid of the cells.
    pub fn grid(&self) -> &Grid {
        &self.grid
    }

    /// Counts, row by row from the north-west.
    pub fn counts(&self) -> &[f64] {
        &self.counts
    }

    /// Everybody.
    pub fn total(&self) -> f64 {
        self.counts.iter().sum()
    }

    /// Middle and count of every inhabited cell.
    pub fn cells(&self) -> impl Iterator<Item = (Position, f64)> + '_ {
        let width = self.grid.width();
        self.counts
            .iter()
            .enumerate()
            .filter(|(_, count)| **count > 0.0)
            .filter_map(move |(index, &count)| {
                let position = self.grid.position(index as u32 % width, index as u32 / width)?;
                Some((position, count))
            })
    }

    /// The people of these cells spread over the cells of another grid by the area they share.
    ///
    /// In one coordinate system the shares are exact. Between two, each cell is cut into 6 × 6 equal parts that go where
    /// their middles lie. Either way inside + outside is the old total to rounding.
    pub fn resample(&self, onto: &Grid) -> Resampled {
        let mut counts = vec![0.0; onto.width() as usize * onto.height() as usize];
        let outside = if self.grid.crs() == onto.crs() {
            self.spread_exactly(onto, &mut counts)
        } else {
            self.spread_by_parts(onto, &mut counts)
        };
        Resampled {
            people: Self { grid: *onto, counts },
            outside,
        }
    }

    fn spread_exactly(&self, onto: &Grid, counts: &mut [f64]) -> f64 {
        let (west, _, _, north) = self.grid.edges();
        let (onto_west, _, _, onto_north) = onto.edges();
        let turn = if onto.crs() == Crs::Geographic {
            ((onto_west - west) / 360.0).round() * 360.0
        } else {
            0.0
        };
        let (step_x, step_y) = self.grid.steps();
        let (onto_x, onto_y) = onto.steps();
        let across = Overlaps::new(
            (west + turn - onto_west) / onto_x,
            step_x / onto_x,
            self.grid.width(),
            onto.width(),
        );
        let down = Overlaps::new(
            (onto_north - north) / onto_y,
            step_y / onto_y,
            self.grid.height(),
            onto.height(),
        );
        let (from_width, to_width) = (self.grid.width() as usize, onto.width() as usize);
        let mut outside = 0.0;
        for (index, &count) in self.counts.iter().enumerate().filter(|(_, count)| **count > 0.0) {
            let mut inside = 0.0;
            for &(row, share_y) in down.of(index / from_width) {
                for &(col, share_x) in across.of(index % from_width) {
                    counts[row as usize * to_width + col as usize] += count * share_x * share_y;
                    inside += share_x * share_y;
                }
            }
            outside += count * (1.0 - inside).max(0.0);
        }
        outside
    }

    fn spread_by_parts(&self, onto: &Grid, counts: &mut [f64]) -> f64 {
        const PARTS: u32 = 6;
        let (step_x, step_y) = self.grid.steps();
        let width = self.grid.width();
        let offset = |k: u32| (f64::from(k) + 0.5) / f64::from(PARTS) - 0.5;
        let mut outside = 0.0;
        for (index, &count) in self.counts.iter().enumerate().filter(|(_, count)| **count > 0.0) {
            let (x, y) = self.grid.xy(index as u32 % width, index as u32 / width);
            let part = count / f64::from(PARTS * PARTS);
            for k in 0..PARTS * PARTS {
                let (px, py) = (x + offset(k % PARTS) * step_x, y + offset(k / PARTS) * step_y);
                let cell = self.grid.crs().unproject(px, py).and_then(|p| onto.locate(p));
                match cell {
                    Some((col, row)) => {
                        let col = (col.round().max(0.0) as usize).min(onto.width() as usize - 1);
                        let row = (row.round().max(0.0) as usize).min(onto.height() as usize - 1);
                        counts[row * onto.width() as usize + col] += part;
                    }
                    None => outside += part,
                }
            }
        }
        outside
    }
}

/// For every old cell along one axis: the new cells it overlaps, and the share of the old cell in each.
struct Overlaps {
    starts: Vec<u32>,
    shares: Vec<(u32, f64)>,
}

impl Overlaps {
    /// `first` is the old axis' start and `step` the old cell, both in new cells from the new axis' start.
    fn new(first: f64, step: f64, old: u32, new: u32) -> Self {
        let (mut starts, mut shares) = (vec![0], Vec::new());
        for k in 0..old {
            let (from, to) = (first + f64::from(k) * step, first + f64::from(k + 1) * step);
            let mut cell = from.floor().clamp(0.0, f64::from(new)) as u32;
            while cell < new && f64::from(cell) < to {
                let part = to.min(f64::from(cell) + 1.0) - from.max(f64::from(cell));
                if part > 0.0 {
                    shares.push((cell, part / (to - from)));
                }
                cell += 1;
            }
            starts.push(shares.len() as u32);
        }
        Self { starts, shares }
    }

    fn of(&self, k: usize) -> &[(u32, f64)] {
        &self.shares[self.starts[k] as usize..self.starts[k + 1] as usize]
    }
}

struct Window {
    col: u32,
    row: u32,
    width: u32,
    height: u32,
}

/// The columns and rows that hold a circle: bounded by 72 points on its rim and its middle.
fn window(grid: &Grid, centre: Position, radius_km: f64) -> Option<Window> {
    let rim = (0..72).map(|k| geodesic::destination(centre, f64::from(k) * 5.0, radius_km * 1010.0));
    let (mut west, mut east, mut north, mut south) = (f64::MAX, f64::MIN, f64::MAX, f64::MIN);
    for position in rim.chain([centre]) {
        let Some((col, row)) = grid.locate_unbounded(position, centre) else {
            continue;
        };
        (west, east) = (west.min(col), east.max(col));
        (north, south) = (north.min(row), south.max(row));
    }
    let bound = |v: f64, n: u32| v.clamp(-1.0, f64::from(n)) as i64;
    let (w, h) = (i64::from(grid.width()), i64::from(grid.height()));
    let (col, row) = (
        bound(west.floor(), grid.width()).max(0),
        bound(north.floor(), grid.height()).max(0),
    );
    let (last_col, last_row) = (
        bound(east.ceil(), grid.width()).min(w - 1),
        bound(south.ceil(), grid.height()).min(h - 1),
    );
    (last_col >= col && last_row >= row && west <= east).then(|| Window {
        col: col as u32,
        row: row as u32,
        width: (last_col - col + 1) as u32,
        height: (last_row - row + 1) as u32,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::grid::{Corner, Registration};
    use proptest::prelude::*;

    fn grid(crs: Crs, x: f64, y: f64, step_x: f64, step_y: f64, n: (u32, u32)) -> Grid {
        Grid::new(crs, Corner { x, y, step_x, step_y }, n, Registration::Area).unwrap()
    }

    proptest! {
        /// Totals are conserved to 1e-6 under any shift and coarsening.
        #[test]
        fn prop_total_survives_shift_and_coarsening(
            shift_x in -0.05..0.05f64, shift_y in -0.05..0.05f64, coarser in 0.3..7.0f64,
            counts in proptest::collection::vec(0.0..900.0f64, 600), turn in -1i32..=1,
        ) {
            let old = People::new(grid(Crs::Geographic, 179.9, 47.0, 0.01, 0.01, (30, 20)), counts).unwrap();
            let west = 179.9 + shift_x + 360.0 * f64::from(turn.min(0));
            let new = grid(Crs::Geographic, west, 47.0 + shift_y, 0.01 * coarser, 0.008 * coarser, (40, 30));
            let moved = old.resample(&new);
            let sum = moved.people.total() + moved.outside;
            prop_assert!((sum / old.total() - 1.0).abs() < 1e-6, "{sum} of {}", old.total());
        }

        #[test]
        fn prop_total_survives_another_projection(counts in proptest::collection::vec(0.0..900.0f64, 100)) {
            let old = People::new(grid(Crs::Mollweide, 1_000_000.0, 5_500_000.0, 1000.0, 1000.0, (10, 10)), counts).unwrap();
            let moved = old.resample(&grid(Crs::Geographic, 12.0, 49.0, 0.01, 0.01, (400, 300)));
            prop_assert!(((moved.people.total() + moved.outside) / old.total() - 1.0).abs() < 1e-6);
        }
    }

    #[test]
    fn a_cell_split_down_the_middle_goes_half_each_way() {
        let old = People::new(
            grid(Crs::WebMercator, 0.0, 100.0, 100.0, 100.0, (1, 1)),
            vec![80.0],
        )
        .unwrap();
        let new = old.resample(&grid(Crs::WebMercator, -50.0, 125.0, 100.0, 50.0, (2, 3)));
        assert_eq!(new.people.counts(), [10.0, 10.0, 20.0, 20.0, 10.0, 10.0]);
        assert_eq!(new.outside, 0.0);
    }

    #[test]
    fn only_the_window_round_a_site_is_taken() {
        let area = grid(Crs::Geographic, 0.0, 10.0, 0.01, 0.01, (1000, 1000));
        let raster =
            Raster::in_memory(area, crate::raster::Samples::F32(vec![1.0; 1_000_000].into())).unwrap();
        let centre = Position::new(5.0, 5.0).unwrap();
        let near = People::within(&raster, centre, 20.0).unwrap();
        // 40.4 km across in cells of 1.109 × 1.106 km, and the cells the rim cuts: 37 to 39 each way.
        assert!(
            (37.0 * 37.0..=39.0 * 39.0).contains(&near.total()),
            "{}",
            near.total()
        );
        assert!(
            near.cells()
                .all(|(p, _)| geodesic::span(p, centre).length_m < 30_500.0)
        );
        let elsewhere = Position::new(-50.0, 5.0).unwrap();
        assert_eq!(
            People::within(&raster, elsewhere, 20.0),
            Err(PeopleError::Elsewhere)
        );
    }

    #[test]
    fn bad_counts_are_refused_with_their_cell() {
        let one = grid(Crs::WebMercator, 0.0, 0.0, 1.0, 1.0, (2, 1));
        assert_eq!(People::new(one, vec![3.0, f64::NAN]).unwrap().total(), 3.0);
        assert_eq!(
            People::new(one, vec![3.0, -200.0]),
            Err(PeopleError::Count {
                count: -200.0,
                col: 1,
                row: 0
            })
        );
        assert!(People::new(one, vec![1.0]).is_err());
    }
}
