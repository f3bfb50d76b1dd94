//! The readers on real tiles: Shuttle Radar Topography Mission (NASA / USGS, public domain), twins as .hgt and GeoTIFF.
//!
//! The figures below (void counts, lowest and highest height) come from the data set's own description, not from this crate.

use std::io::Cursor;
use std::path::PathBuf;
use std::sync::Arc;

use terrain::source::ReadSeek;
use terrain::{
    Ground, GroundError, HeightKind, MissingGround, Mosaic, Position, Quality, Raster, Registration, Tile,
    Zone, geotiff, hgt,
};

/// The folder of tiles; `None` (with a line said) where it is not there, a failure where `CI` is set.
fn tiles() -> Option<PathBuf> {
    let shared = std::env::var_os("STATIONWRIGHT_SHARED").map_or_else(
        || PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../../shared"),
        PathBuf::from,
    );
    let folder = shared.join("terrain");
    if folder.is_dir() {
        return Some(folder);
    }
    assert!(
        std::env::var_os("CI").is_none(),
        "no real tiles in {}",
        folder.display()
    );
    println!("skipped: no real tiles in {}", folder.display());
    None
}

fn opener(path: PathBuf) -> Arc<dyn terrain::source::OpenTile> {
    Arc::new(move || Ok(Box::new(std::io::BufReader::new(std::fs::File::open(&path)?)) as Box<dyn ReadSeek>))
}

fn from_hgt(folder: &std::path::Path, name: &str) -> Raster {
    let file = format!("{name}.hgt.gz");
    hgt::raster(&file, opener(folder.join(&file))).expect("a whole tile")
}

fn from_tiff(folder: &std::path::Path, name: &str) -> Raster {
    geotiff::raster(opener(folder.join(format!("{name}.tif.gz")))).expect("a whole tile")
}

fn at(lat_deg: f64, lon_deg: f64) -> Position {
    Position::new(lat_deg, lon_deg).expect("a place on Earth")
}

fn ground(rasters: Vec<(&str, Raster)>) -> Ground {
    let tile = |(name, raster): (&str, Raster)| Tile {
        name: name.into(),
        raster: Arc::new(raster),
    };
    Ground::new(
        Mosaic::new(rasters.into_iter().map(tile).collect()),
        HeightKind::Surface,
    )
}

/// Lowest and highest height and the number of voids, as the data set's description states them.
#[test]
fn ref_tiles_hold_what_their_description_says() {
    let Some(folder) = tiles() else { return };
    for (name, side, lowest, highest, voids) in [
        ("N49W123", 1201, -37.0, 2674.0, 34_926),
        ("N49W124", 1201, -26.0, 2630.0, 25_620),
        ("N46E008", 1201, 187.0, 4173.0, 103_743),
        ("S46W066", 3601, -3.0, 146.0, 0),
    ] {
        let raster = from_hgt(&folder, name);
        assert_eq!(raster.grid().width(), side, "{name}");
        let (mut low, mut high, mut void) = (f32::MAX, f32::MIN, 0);
        for i in 0..side * side {
            let height_m = raster.value(i % side, i / side).unwrap();
            if height_m.is_nan() {
                void += 1;
            } else {
                (low, high) = (low.min(height_m), high.max(height_m));
            }
        }
        assert_eq!((low, high, void), (lowest, highest, voids), "{name}");
    }
}

/// The twins: other bytes, other void value, other way to say where the samples lie; the same heights at the same places.
#[test]
fn ref_twins_agree_sample_by_sample_and_place_by_place() {
    let Some(folder) = tiles() else { return };
    for name in ["N49W123", "N49W124", "N46E008"] {
        let (a, b) = (from_hgt(&folder, name), from_tiff(&folder, name));
        assert_eq!(b.grid().registration(), Registration::Point);
        for i in 0..1201 * 1201 {
            let (x, y) = (
                a.value(i % 1201, i / 1201).unwrap(),
                b.value(i % 1201, i / 1201).unwrap(),
            );
            assert!(x == y || (x.is_nan() && y.is_nan()), "{name} sample {i}: {x} {y}");
        }
        for (col, row) in [(0, 0), (1200, 1200), (37, 911)] {
            let (p, q) = (
                a.grid().position(col, row).unwrap(),
                b.grid().position(col, row).unwrap(),
            );
            assert!(
                terrain::geodesic::span(p, q).length_m < 0.01,
                "{name}: {p:?} {q:?}"
            );
        }
    }
}

/// The same file said to be pixel-is-area: every sample lies half a step further south-east.
#[test]
fn ref_pixel_is_area_lies_half_a_sample_south_east() {
    let Some(folder) = tiles() else { return };
    let mut bytes = Vec::new();
    let packed = std::fs::read(folder.join("N46E008.tif.gz")).unwrap();
    std::io::Read::read_to_end(&mut flate2::read::GzDecoder::new(&packed[..]), &mut bytes).unwrap();
    // Key 1025 in place, one value, point (2): made area (1).
    let key = [1025u16, 0, 1, 2].map(u16::to_le_bytes).concat();
    let found = bytes
        .windows(8)
        .position(|w| w == key)
        .expect("a little-endian key directory");
    bytes[found + 6] = 1;
    let area = geotiff::raster(Arc::new(move || {
        Ok(Box::new(Cursor::new(bytes.clone())) as Box<dyn ReadSeek>)
    }));
    let (area, point) = (
        ground(vec![("area", area.unwrap())]),
        ground(vec![("point", from_tiff(&folder, "N46E008"))]),
    );
    let half = 0.5 / 1200.0;
    let mut compared = 0;
    for k in 0..500 {
        let (lat, lon) = (46.05 + 0.0017 * f64::from(k), 8.05 + 0.00171 * f64::from(k));
        let (Ok(a), Ok(p)) = (area.spot(at(lat - half, lon + half)), point.spot(at(lat, lon))) else {
            continue;
        };
        assert!((a.height_m - p.height_m).abs() < 0.01);
        compared += 1;
    }
    assert!(compared > 400);
}

/// The seam at 123° W: the edge column is in both tiles, heights go on without a step, also when only one is .hgt.
#[test]
fn seams_between_tiles_are_smooth() {
    let Some(folder) = tiles() else { return };
    let both = ground(vec![
        ("west", from_hgt(&folder, "N49W124")),
        ("east", from_tiff(&folder, "N49W123")),
    ]);
    let other = ground(vec![
        ("east", from_tiff(&folder, "N49W123")),
        ("west", from_hgt(&folder, "N49W124")),
    ]);
    let edge = from_hgt(&folder, "N49W124");
    for k in 0..900 {
        let lat = 49.05 + 0.001 * f64::from(k);
        let row = ((50.0 - lat) * 1200.0) as u32;
        if edge.value(1200, row).unwrap().is_nan() || edge.value(1200, row + 1).unwrap().is_nan() {
            continue; // a void on the edge: each side is filled from its own next column
        }
        let eps = 1e-7;
        let here = |ground: &Ground, lon| ground.spot(at(lat, lon)).map(|s| s.height_m);
        let (west, east) = (here(&both, -123.0 - eps), here(&both, -123.0 + eps));
        if let (Ok(west), Ok(east)) = (west, east) {
            assert!((west - east).abs() < 0.1, "{lat}: {west} {east}");
        }
        if let (Ok(a), Ok(b)) = (here(&both, -123.0), here(&other, -123.0)) {
            assert!((a - b).abs() < 0.01);
        }
    }
}

/// A path over steep ground with voids, sea and a missing neighbour: filled, counted, stopped at the gap.
#[test]
fn paths_over_real_ground_say_what_they_rest_on() {
    let Some(folder) = tiles() else { return };
    let coast = ground(vec![
        ("N49W124", from_hgt(&folder, "N49W124")),
        ("N49W123", from_hgt(&folder, "N49W123")),
    ]);
    let strait = coast.radial(at(49.35, -123.2), 250.0, 40.0, 90.0).unwrap();
    assert!(
        strait.shares().water > 0.3 && strait.zones.contains(&Zone::Sea),
        "{:?}",
        strait.shares()
    );
    assert!(strait.heights_m.iter().all(|h| h.is_finite()));
    let mountains = coast.radial(at(49.6, -123.4), 60.0, 70.0, 90.0).unwrap();
    assert!(
        mountains.shares().void > 0.0 && mountains.quality.contains(&Quality::Void),
        "{:?}",
        mountains.shares()
    );
    assert!(mountains.heights_m.iter().all(|h| h.is_finite()));

    let north = coast.radial(at(49.9, -123.5), 0.0, 30.0, 90.0).unwrap();
    let usable_km = north.distances_km[north.usable_len() - 1];
    // From 49.9° to 50°: 11.1 km and half a sample.
    assert!((usable_km - 11.15).abs() < 0.15, "{usable_km}");
    assert!(matches!(
        coast.spot(at(50.1, -123.5)),
        Err(GroundError::Missing { .. })
    ));
    let mended = coast.clone().with_missing(MissingGround::TreatAsSea);
    let north = mended.radial(at(49.9, -123.5), 0.0, 30.0, 90.0).unwrap();
    assert_eq!(north.usable_len(), north.len());
    assert!(north.shares().sea_by_choice > 0.6 && north.zones[north.len() - 1] == Zone::Sea);
}

/// 36 % of the tile is sea at 0 m (the description): found as water, with coastal land round it.
#[test]
fn ref_water_share_of_the_strait() {
    let Some(folder) = tiles() else { return };
    let coast = ground(vec![("N49W124", from_hgt(&folder, "N49W124"))]);
    let (mut water, mut all) = (0, 0);
    for i in 0..200 {
        for j in 0..200 {
            let spot = coast.spot(at(
                49.0 + (f64::from(i) + 0.5) / 200.0,
                -124.0 + (f64::from(j) + 0.5) / 200.0,
            ));
            all += 1;
            water += usize::from(spot.is_ok_and(|s| s.water));
        }
    }
    let share = f64::from(water as u32) / f64::from(all);
    // Bilinear shore cells, with one corner of land, are land: a little less than the share of samples.
    assert!((0.30..0.365).contains(&share), "{share}");
    let surveyed = coast.surveyed(at(49.3, -123.3), 20.0);
    let flat = surveyed.spot(at(49.1, -123.05)).unwrap();
    assert_eq!(flat.zone, Zone::CoastalLand, "{flat:?}");
}
