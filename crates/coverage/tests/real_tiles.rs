//! Coverage over real tiles: two that meet, and one full of voids. Skipped without them, unless `CI` is set.

use std::path::PathBuf;
use std::sync::Arc;

use coverage::*;
use propagation::p1812::Polarisation;
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use terrain::{Ground, HeightKind, Mosaic, Position, Tile};

fn tiles(names: &[&'static str]) -> Option<Mosaic> {
    let shared = std::env::var_os("STATIONWRIGHT_SHARED").map_or_else(
        || PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../../shared"),
        PathBuf::from,
    );
    let folder = shared.join("terrain");
    if !folder.is_dir() {
        assert!(
            std::env::var_os("CI").is_none(),
            "no tiles in {}",
            folder.display()
        );
        println!("skipped: no tiles in {}", folder.display());
        return None;
    }
    let tile = |name: &&'static str| {
        let path = folder.join(format!("{name}.hgt.gz"));
        let open = move || {
            Ok(Box::new(std::io::BufReader::new(std::fs::File::open(&path)?))
                as Box<dyn terrain::source::ReadSeek>)
        };
        Tile {
            name: (*name).into(),
            raster: Arc::new(
                terrain::hgt::raster(&format!("{name}.hgt.gz"), Arc::new(open)).expect("a tile"),
            ),
        }
    };
    Some(Mosaic::new(names.iter().map(tile).collect()))
}

/// Issue 2.5 on real ground: cells against point-to-point answers, and no seam where two tiles meet.
#[test]
fn cells_on_real_ground_are_near_the_point_to_point_answer() {
    for (names, lat, lon) in [
        (vec!["N49W123", "N49W124"], 49.5, -123.0),
        (vec!["N46E008"], 46.5, 8.5),
    ] {
        let Some(mosaic) = tiles(&names) else { return };
        let world = GroundWorld::new(Ground::new(mosaic, HeightKind::BareGround), names.concat());
        let site = Position::new(lat, lon).unwrap();
        let study = Study::new(site, 40.0, 98.0, Polarisation::Vertical).within_km(25.0);
        let field = LossField::compute(&world, &study, &Control::quiet()).unwrap();
        assert_eq!(field.shares().missing, 0.0);
        let erp = ErpTable::omni(1.0);
        let raster = field.raster(&erp, &Paint::AtPrediction, 90.0).unwrap();
        let wanted = Wanted::bs412(Mode::Stereo, Situation::Roof);
        let mut rng = ChaCha8Rng::seed_from_u64(5);
        let (mut all, mut at_the_join) = (Vec::new(), Vec::new());
        while all.len() < 2000 {
            let (col, row) = (
                rng.random_range(0..raster.grid.width()),
                rng.random_range(0..raster.grid.height()),
            );
            let Some(cell) = raster.value_db(col, row) else {
                continue;
            };
            let centre = raster.grid.position(col, row).unwrap();
            let Ok(at) = at_place(&world, &study, centre, &erp, &wanted, None) else {
                continue;
            };
            let apart = (cell - at.field_at_prediction_dbuv_m).abs();
            all.push(apart);
            if (centre.lon_deg() - lon).abs() < 0.02 {
                at_the_join.push(apart);
            }
        }
        all.sort_by(f64::total_cmp);
        at_the_join.sort_by(f64::total_cmp);
        println!(
            "{}: 2000 cells: median {:.2}, 99th {:.2}, worst {:.2} dB; within 0.02° of the meridian {lon}: median {:.2} of {}; voids {:.1} %",
            names.join(" + "),
            all[1000],
            all[1980],
            all[1999],
            at_the_join[at_the_join.len() / 2],
            at_the_join.len(),
            100.0 * field.shares().void
        );
        assert!(all[1000] < 0.5);
        assert!(at_the_join[at_the_join.len() / 2] < 0.5);
    }
}
