//! Invented grounds, made by code from a seed: for the demo, for examples, for questions without tiles.
//!
//! Each is land carved by its own rivers, with cover, people, places and sites. Nothing on them is real: names,
//! counts and heights are invented (mark I), and they lie in the open ocean so that no one takes them for a country. They are the
//! same on every machine: heights use only operations that IEEE 754 fixes to the last bit. They are made lazily, block by block.

mod alpine;
mod coastal;
mod drainage;
mod island;
mod land;
mod lattice;
mod noise;
mod plain;
mod settle;

use std::sync::{Arc, LazyLock, OnceLock};

use crate::coast::CoastMap;
use crate::crs::Crs;
use crate::grid::{Corner, Grid, Registration};
use crate::ground::{Ground, HeightKind};
use crate::mosaic::{Mosaic, Tile};
use crate::people::People;
use crate::places::{Place, Surroundings};
use crate::position::Position;
use crate::raster::{BlockSource, Raster, RasterError, Samples};
use land::{KM_PER_DEG_LAT, Land, Settlement};

/// A place on an invented ground where something of a station may stand.
#[derive(Debug, Clone, PartialEq)]
pub struct Site {
    /// Stable key, such as `mast`.
    pub id: &'static str,
    /// Invented name.
    pub name: &'static str,
    /// Where.
    pub position: Position,
    /// What it is good for.
    pub note: &'static str,
}

/// An invented ground.
pub struct GeneratedGround {
    /// Stable key, such as `island`.
    pub id: &'static str,
    /// Invented name and kind, such as `Orrenay, an island`.
    pub title: &'static str,
    /// Heights (bare ground), land cover, coast; samples of about 95 m.
    pub ground: Ground,
    /// Masts, studios, hills.
    pub sites: Vec<Site>,
    /// Towns and villages.
    pub places: Vec<Place>,
    land: Arc<Land>,
    people: OnceLock<People>,
}

/// What a room of this module hands over for each ground.
struct Plan {
    id: &'static str,
    title: &'static str,
    land: Land,
    /// Half the height and width of the tile, degrees.
    half_deg: (f64, f64),
    sites: Vec<Site>,
    places: Vec<Place>,
}

/// Rows per degree: 3 arc-seconds, 93 m.
const ROWS_PER_DEG: f64 = 1200.0;

/// Columns per degree: 4.5 arc-seconds, 92 to 101 m at the latitudes of these grounds.
const COLUMNS_PER_DEG: f64 = 800.0;

/// Side of a block that is made at once, samples.
const BLOCK: u32 = 96;

static ISLAND: LazyLock<GeneratedGround> = LazyLock::new(|| GeneratedGround::build(island::plan()));
static PLAIN: LazyLock<GeneratedGround> = LazyLock::new(|| GeneratedGround::build(plain::plan()));
static ALPINE: LazyLock<GeneratedGround> = LazyLock::new(|| GeneratedGround::build(alpine::plan()));
static COASTAL: LazyLock<GeneratedGround> = LazyLock::new(|| GeneratedGround::build(coastal::plan()));

/// The demo island: a bay open to the south, a harbour town at its head, villages, a ridge with the mast.
pub fn demo_island() -> &'static GeneratedGround {
    &ISLAND
}

/// A rolling plain, 90 m between the height deciles.
pub fn rolling_plain() -> &'static GeneratedGround {
    &PLAIN
}

/// An alpine valley with a side valley, a lake and peaks.
pub fn alpine_valley() -> &'static GeneratedGround {
    &ALPINE
}

/// Hills that come down to an indented coast.
pub fn hill_coast() -> &'static GeneratedGround {
    &COASTAL
}

/// Keys of all generated grounds, for [`by_id`].
pub const IDS: [&str; 4] = ["island", "rolling", "alpine", "coast"];

/// The generated ground with this key.
pub fn by_id(id: &str) -> Option<&'static GeneratedGround> {
    match id {
        "island" => Some(demo_island()),
        "rolling" => Some(rolling_plain()),
        "alpine" => Some(alpine_valley()),
        "coast" => Some(hill_coast()),
        _ => None,
    }
}

impl GeneratedGround {
    fn build(plan: Plan) -> Self {
        let Plan {
            id,
            title,
            land,
            half_deg,
            sites,
            places,
        } = plan;
        let land = Arc::new(land);
        let grid = tile_grid(&land, half_deg);
        let heights = Arc::new(
            Raster::new(
                grid,
                (BLOCK, BLOCK),
                Box::new(HeightSource {
                    land: Arc::clone(&land),
                    grid,
                }),
            )
            .expect("a generated tile has few blocks"),
        );
        let covers = CoverSource {
            land: Arc::clone(&land),
            heights: Arc::clone(&heights),
            has_sea: land.has_sea,
        };
        let covers =
            Raster::new(grid, (BLOCK, BLOCK), Box::new(covers)).expect("a generated tile has few blocks");
        let tile = |raster| {
            Mosaic::new(vec![Tile {
                name: format!("generated:{id}"),
                raster,
            }])
        };
        let ground = Ground::new(tile(heights), HeightKind::BareGround)
            .with_cover(tile(Arc::new(covers)))
            .with_coast(coast(&land, half_deg.0 * KM_PER_DEG_LAT));
        Self {
            id,
            title,
            ground,
            sites,
            places,
            land,
            people: OnceLock::new(),
        }
    }

    /// The site with this key.
    pub fn site(&self, id: &str) -> Option<&Site> {
        self.sites.iter().find(|site| site.id == id)
    }

    /// The place with this name.
    pub fn place(&self, name: &str) -> Option<&Place> {
        self.places.iter().find(|place| place.name == name)
    }

    /// The people who live there, on cells of about 280 m; made on first use and kept.
    pub fn people(&self) -> &People {
        self.people
            .get_or_init(|| settle::people(&self.land, &self.ground))
    }

    /// Middle of the ground.
    pub fn centre(&self) -> Position {
        self.land.frame.position(0.0, 0.0)
    }
}

fn tile_grid(land: &Land, (half_lat_deg, half_lon_deg): (f64, f64)) -> Grid {
    let count = |half: f64, per_deg: f64| (2.0 * half * per_deg).round() as u32 + 1;
    let corner = Corner {
        x: land.frame.lon_deg - half_lon_deg,
        y: land.frame.lat_deg + half_lat_deg,
        step_x: 1.0 / COLUMNS_PER_DEG,
        step_y: 1.0 / ROWS_PER_DEG,
    };
    Grid::new(
        Crs::Geographic,
        corner,
        (
            count(half_lon_deg, COLUMNS_PER_DEG),
            count(half_lat_deg, ROWS_PER_DEG),
        ),
        Registration::Point,
    )
    .expect("a generated tile lies on the Earth")
}

fn coast(land: &Land, half_km: f64) -> CoastMap {
    let centre = land.frame.position(0.0, 0.0);
    CoastMap::survey(centre, half_km, 1.2, |position| {
        let (x_km, y_km) = land.frame.xy_km(position);
        land.has_sea && land.height_m(x_km, y_km) <= 0.0
    })
}

struct HeightSource {
    land: Arc<Land>,
    grid: Grid,
}

impl BlockSource for HeightSource {
    fn load(&self, block_col: u32, block_row: u32) -> Result<Samples, RasterError> {
        let samples = samples_of(&self.grid, block_col, block_row, |col, row| {
            let (lon_deg, lat_deg) = self.grid.xy(col, row);
            let (x_km, y_km) = self.land.frame.xy_of(lat_deg, lon_deg);
            self.land.height_m(x_km, y_km) as f32
        });
        Ok(Samples::F32(samples))
    }
}

struct CoverSource {
    land: Arc<Land>,
    heights: Arc<Raster>,
    has_sea: bool,
}

impl BlockSource for CoverSource {
    fn load(&self, block_col: u32, block_row: u32) -> Result<Samples, RasterError> {
        let grid = *self.heights.grid();
        let mut failed = None;
        let samples = samples_of(&grid, block_col, block_row, |col, row| {
            self.cover(&grid, col, row).unwrap_or_else(|error| {
                failed = Some(error.clone());
                crate::cover::NO_DATA
            })
        });
        failed.map_or(Ok(Samples::U8(samples)), Err)
    }
}

impl CoverSource {
    fn cover(&self, grid: &Grid, col: u32, row: u32) -> Result<u8, &RasterError> {
        let height_m = self.heights.value(col, row)?;
        if self.has_sea && height_m <= 0.0 {
            return Ok(crate::cover::WATER);
        }
        let (lon_deg, lat_deg) = grid.xy(col, row);
        let (x_km, y_km) = self.land.frame.xy_of(lat_deg, lon_deg);
        let east = self.heights.value((col + 1).min(grid.width() - 1), row)?;
        let south = self.heights.value(col, (row + 1).min(grid.height() - 1))?;
        let run_x_m = 1000.0 * self.land.frame.km_per_deg_lon / COLUMNS_PER_DEG;
        let run_y_m = 1000.0 * KM_PER_DEG_LAT / ROWS_PER_DEG;
        let (gx, gy) = (
            f64::from(east - height_m) / run_x_m,
            f64::from(south - height_m) / run_y_m,
        );
        Ok(self
            .land
            .cover(x_km, y_km, f64::from(height_m), (gx * gx + gy * gy).sqrt()))
    }
}

/// The samples of one block, row by row.
fn samples_of<T>(
    grid: &Grid,
    block_col: u32,
    block_row: u32,
    mut sample: impl FnMut(u32, u32) -> T,
) -> Box<[T]> {
    let (col, row) = (block_col * BLOCK, block_row * BLOCK);
    let (last_col, last_row) = ((col + BLOCK).min(grid.width()), (row + BLOCK).min(grid.height()));
    let mut samples = Vec::with_capacity((BLOCK * BLOCK) as usize);
    for row in row..last_row {
        for col in col..last_col {
            samples.push(sample(col, row));
        }
    }
    samples.into()
}

/// A settlement whose place on the ground is still to be found.
fn town(name: &'static str, people: f64, radius_km: f64) -> Settlement {
    Settlement {
        name,
        x_km: 0.0,
        y_km: 0.0,
        people,
        radius_km,
    }
}

/// Settlements as places: more people than this live in a town.
fn places(settled: &[(Settlement, Position)]) -> Vec<Place> {
    let around = |people: f64| match people > 5000.0 {
        true => Surroundings::Urban,
        false => Surroundings::Rural,
    };
    settled
        .iter()
        .map(|(s, at)| place(s, *at, around(s.people)))
        .collect()
}

fn place(settlement: &Settlement, position: Position, surroundings: Surroundings) -> Place {
    Place {
        name: settlement.name.into(),
        position,
        people: Some(settlement.people),
        surroundings,
    }
}

#[cfg(test)]
mod tests;
