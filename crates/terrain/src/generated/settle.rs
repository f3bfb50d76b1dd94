//! People on an invented land: towns by their houses, the rest in scattered hamlets.

use super::land::Land;
use super::noise::{Noise, smooth};
use crate::cover;
use crate::crs::Crs;
use crate::grid::{Corner, Grid, Registration};
use crate::ground::Ground;
use crate::people::People;
use crate::raster::Raster;

/// Samples of the land in one cell of people, along each side.
const PER_CELL: u32 = 3;

/// Spacing of the lattice on which hamlets may lie, km.
const HAMLET_EVERY_KM: f64 = 1.3;

/// People of a land, on cells of 3 × 3 samples over its whole tile.
pub(super) fn people(land: &Land, ground: &Ground) -> People {
    let tile = &ground.heights().tiles()[0].raster;
    let grid = people_grid(tile.grid());
    let mut counts = vec![0.0; grid.width() as usize * grid.height() as usize];
    for (index, settlement) in land.settlements.iter().enumerate() {
        let cells = houses_near(land, ground, &grid, index);
        let weight: f64 = cells.iter().map(|(_, w)| w).sum();
        for (cell, w) in cells {
            counts[cell] += settlement.people * w / weight;
        }
    }
    scatter_hamlets(land, &grid, &mut counts);
    People::new(grid, counts).expect("counts made here are finite and not negative")
}

fn people_grid(tile: &Grid) -> Grid {
    let (west, _, _, north) = tile.edges();
    let (step_x, step_y) = tile.steps();
    let cell = f64::from(PER_CELL);
    let corner = Corner {
        x: west,
        y: north,
        step_x: step_x * cell,
        step_y: step_y * cell,
    };
    let size = (tile.width() / PER_CELL, tile.height() / PER_CELL);
    Grid::new(Crs::Geographic, corner, size, Registration::Area).expect("a part of a tile lies on the Earth")
}

/// Houses in a cell of people: samples built up; none where the middle of the cell is water, so that nobody is counted at sea.
fn houses_in(covers: &Raster, col: u32, row: u32) -> u32 {
    let code = |k: u32| covers.value(col * PER_CELL + k % PER_CELL, row * PER_CELL + k / PER_CELL);
    let is = |k: u32, wanted: u8| code(k).is_ok_and(|code| code == f32::from(wanted));
    if is(PER_CELL * PER_CELL / 2, cover::WATER) {
        return 0;
    }
    (0..PER_CELL * PER_CELL)
        .filter(|&k| is(k, cover::BUILT_UP))
        .count() as u32
}

/// Cells with houses round a settlement, weighted by houses and nearness; its middle cell where no house was built.
fn houses_near(land: &Land, ground: &Ground, grid: &Grid, index: usize) -> Vec<(usize, f64)> {
    let settlement = &land.settlements[index];
    let reach_km = 2.2 * settlement.radius_km;
    let (middle_col, middle_row) = cell_of(land, grid, settlement.x_km, settlement.y_km);
    let reach = (reach_km / 0.27).ceil() as i64;
    let mut cells = Vec::new();
    let covers = ground.covers().map(|mosaic| &mosaic.tiles()[0].raster);
    for row in middle_row - reach..=middle_row + reach {
        for col in middle_col - reach..=middle_col + reach {
            if row < 0 || col < 0 || row >= i64::from(grid.height()) || col >= i64::from(grid.width()) {
                continue;
            }
            let (lon_deg, lat_deg) = grid.xy(col as u32, row as u32);
            let (x_km, y_km) = land.frame.xy_of(lat_deg, lon_deg);
            let near = settlement.nearness(x_km, y_km);
            let houses = covers.map_or(0, |covers| houses_in(covers, col as u32, row as u32));
            if near > 0.05 && houses > 0 {
                cells.push((
                    (row * i64::from(grid.width()) + col) as usize,
                    near * f64::from(houses),
                ));
            }
        }
    }
    if cells.is_empty() {
        cells.push(((middle_row * i64::from(grid.width()) + middle_col) as usize, 1.0));
    }
    cells
}

fn cell_of(land: &Land, grid: &Grid, x_km: f64, y_km: f64) -> (i64, i64) {
    let at = grid.locate(land.frame.position(x_km, y_km));
    let (col, row) = at.unwrap_or((0.0, 0.0));
    (col.round() as i64, row.round() as i64)
}

/// Hamlets on a jittered lattice: more on low, gentle ground, in clusters; none in water, on rock or in a town.
fn scatter_hamlets(land: &Land, grid: &Grid, counts: &mut [f64]) {
    let dice = Noise::new(0x4841_4d4c);
    let lattice = &land.base.lattice;
    let across = (lattice.width as f64 * lattice.step_km / HAMLET_EVERY_KM) as i64;
    let down = (lattice.height as f64 * lattice.step_km / HAMLET_EVERY_KM) as i64;
    let mut found = Vec::new();
    for j in 0..down {
        for i in 0..across {
            let x_km = lattice.west_km + (i as f64 + dice.dice(i, j)) * HAMLET_EVERY_KM;
            let y_km = lattice.south_km + (j as f64 + dice.dice(i, j + 1_000_000)) * HAMLET_EVERY_KM;
            let Some((col, row)) = grid.locate(land.frame.position(x_km, y_km)) else {
                continue;
            };
            let wish = suits(land, x_km, y_km) * (0.1 + dice.dice(i + 1_000_000, j));
            if wish > 0.0 {
                let col = (col.round().max(0.0) as usize).min(grid.width() as usize - 1);
                let row = (row.round().max(0.0) as usize).min(grid.height() as usize - 1);
                found.push((row * grid.width() as usize + col, wish));
            }
        }
    }
    let weight: f64 = found.iter().map(|(_, w)| w).sum();
    for (cell, wish) in found {
        counts[cell] += land.scattered_people * wish / weight;
    }
}

fn suits(land: &Land, x_km: f64, y_km: f64) -> f64 {
    let height_m = land.height_m(x_km, y_km);
    if (land.has_sea && height_m <= 1.0) || land.in_lake(x_km, y_km) || land.houses(x_km, y_km) > 0.8 {
        return 0.0;
    }
    let rise_m = (land.height_m(x_km + 0.15, y_km) - height_m).abs()
        + (land.height_m(x_km, y_km + 0.15) - height_m).abs();
    let gentle = 1.0 - smooth(0.1, 0.45, rise_m / 150.0);
    let low = 1.0 - smooth(0.6, 1.0, height_m / land.growth.tree_line_m);
    let cluster = land.noise.octaves(x_km * 0.2 + 5.0, y_km * 0.2 - 3.0, 2, 0.5);
    (gentle * low * (0.5 + cluster).max(0.0)).max(0.0)
}
