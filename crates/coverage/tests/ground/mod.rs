//! Invented grounds and the masts on them, for the tests.
#![allow(dead_code, reason = "each test uses some of it")]

use std::collections::HashMap;
use std::sync::{LazyLock, Mutex};

use coverage::{GroundWorld, Study, World};
use propagation::p1812::Polarisation;
use terrain::Position;

static WORLDS: LazyLock<Mutex<HashMap<&'static str, &'static GroundWorld>>> =
    LazyLock::new(|| Mutex::new(HashMap::new()));

/// A generated world, made once.
pub fn world(id: &'static str) -> &'static GroundWorld {
    WORLDS
        .lock()
        .expect("no test panics while it holds the lock")
        .entry(id)
        .or_insert_with(|| {
            Box::leak(Box::new(
                GroundWorld::generated(id).expect("a key of a generated ground"),
            ))
        })
}

/// A mast's place and ground.
pub struct Mast {
    pub position: Position,
    pub ground_m: f64,
}

/// The mast of a generated ground.
pub fn mast(id: &'static str) -> Mast {
    let made = terrain::generated::by_id(id).expect("a key of a generated ground");
    let site = made.site("mast").unwrap_or(&made.sites[0]);
    Mast {
        position: site.position,
        ground_m: world(id)
            .spot(site.position)
            .expect("a site on the ground")
            .height_m,
    }
}

/// A study from the mast of a ground: 30 m, 98 MHz, vertical, 20 km at 90 m.
pub fn hilly_study(id: &'static str) -> Study {
    Study::new(mast(id).position, 30.0, 98.0, Polarisation::Vertical).within_km(20.0)
}

/// Flat land at 50 m on two tiles that meet at a longitude, without cover or people.
pub fn flat_ground(lon_deg: f64) -> GroundWorld {
    use std::sync::Arc;
    use terrain::grid::Corner;
    use terrain::{Crs, Grid, Ground, HeightKind, Mosaic, Raster, Registration, Samples, Tile};
    let tile = |west: f64| {
        let west = (west + 540.0).rem_euclid(360.0) - 180.0;
        let corner = Corner {
            x: west,
            y: 10.5,
            step_x: 0.01,
            step_y: 0.01,
        };
        let grid = Grid::new(Crs::Geographic, corner, (51, 101), Registration::Point).expect("a small grid");
        Tile {
            name: format!("flat {west}"),
            raster: Arc::new(
                Raster::in_memory(grid, Samples::F32(vec![50.0; 51 * 101].into()))
                    .expect("a sample for each cell"),
            ),
        }
    };
    let mosaic = Mosaic::new(vec![tile(lon_deg - 0.5), tile(lon_deg)]);
    GroundWorld::new(Ground::new(mosaic, HeightKind::BareGround), "flat")
}
