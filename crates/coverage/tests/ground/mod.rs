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
