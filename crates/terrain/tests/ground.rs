//! The rules that join heights, cover, water and missing tiles, on small grounds made here; and hostile paths.

use std::sync::Arc;

use proptest::prelude::*;
use terrain::grid::Corner;
use terrain::{
    ClutterMode, Crs, Grid, Ground, GroundError, HeightKind, MissingGround, Mosaic, Position, Profile,
    Quality, Raster, Registration, Samples, Tile, Zone, cover, geodesic,
};

/// Samples along each side of a test tile of 1°.
const SIDE: u32 = 101;

fn at(lat_deg: f64, lon_deg: f64) -> Position {
    Position::new(lat_deg, lon_deg).expect("a place on Earth")
}

/// A tile of 1° with its south-west corner at (`south`, `west`).
fn tile(south: f64, west: f64, samples: Samples) -> Tile {
    let step = 1.0 / f64::from(SIDE - 1);
    let corner = Corner {
        x: west,
        y: south + 1.0,
        step_x: step,
        step_y: step,
    };
    let grid =
        Grid::new(Crs::Geographic, corner, (SIDE, SIDE), Registration::Point).expect("a grid on Earth");
    let raster = Raster::in_memory(grid, samples).expect("one sample per place");
    Tile {
        name: format!("tile {south} {west}"),
        raster: Arc::new(raster),
    }
}

fn floats(value: impl Fn(u32, u32) -> f32) -> Samples {
    Samples::F32((0..SIDE * SIDE).map(|i| value(i % SIDE, i / SIDE)).collect())
}

fn classes(value: impl Fn(u32, u32) -> u8) -> Samples {
    Samples::U8((0..SIDE * SIDE).map(|i| value(i % SIDE, i / SIDE)).collect())
}

/// Land at 50 m in the west, sea at 0 m in the east half.
fn half_sea(kind: HeightKind) -> Ground {
    let heights = floats(|col, _| if col <= 50 { 50.0 } else { 0.0 });
    Ground::new(Mosaic::new(vec![tile(46.0, 8.0, heights)]), kind)
}

/// Clutter heights go onto bare ground only, never onto a surface model, never over water: issue rule, P.1812 § 3.2.
#[test]
fn clutter_is_added_to_bare_ground_only() {
    let forest = || {
        Mosaic::new(vec![tile(
            46.0,
            8.0,
            classes(|col, _| if col <= 50 { cover::TREES } else { cover::WATER }),
        )])
    };
    let (wood, sea) = (at(46.5, 8.2), at(46.5, 8.8));
    let bare = half_sea(HeightKind::BareGround).with_cover(forest());
    assert_eq!(bare.clutter_mode(), ClutterMode::AddedToBareGround);
    assert_eq!(bare.spot(wood).unwrap().clutter_m, 15.0);
    assert_eq!(bare.spot(sea).unwrap().clutter_m, 0.0);
    let surface = bare.clone().with_kind(HeightKind::Surface);
    assert_eq!(surface.clutter_mode(), ClutterMode::HeldBySurfaceModel);
    let path = surface.profile(wood, sea, 100.0).unwrap();
    assert!(path.clutter_m.iter().all(|&r| r == 0.0) && path.covers[0] == cover::TREES);
    assert_eq!(
        half_sea(HeightKind::BareGround).clutter_mode(),
        ClutterMode::NoLandCover
    );
    let centre = bare.table().clone().with_height(cover::TREES, 22.0).unwrap();
    assert_eq!(bare.with_table(centre).spot(wood).unwrap().clutter_m, 22.0);
}

/// Water from land cover where there is one, else from heights of exactly 0; zones and coast distances follow.
#[test]
fn water_zones_and_coast_follow_from_cover_or_zero_heights() {
    let ground = half_sea(HeightKind::Surface);
    let path = ground.profile(at(46.5, 8.1), at(46.5, 8.9), 200.0).unwrap();
    let last = path.len() - 1;
    assert_eq!((path.zones[0], path.zones[last]), (Zone::CoastalLand, Zone::Sea));
    let coast = path.coast();
    let shore_km = geodesic::span(at(46.5, 8.1), at(46.5, 8.51)).length_m / 1000.0;
    assert!(
        (coast.from_start_km.unwrap() - shore_km).abs() < 0.8,
        "{coast:?} {shore_km}"
    );
    assert_eq!(coast.from_end_km, Some(0.0));
    assert!((path.shares().water - 0.49).abs() < 0.03);

    // A cover map that says grass wins over the zero.
    let polder = ground
        .clone()
        .with_cover(Mosaic::new(vec![tile(46.0, 8.0, classes(|_, _| cover::GRASS))]));
    let path = polder.profile(at(46.5, 8.1), at(46.5, 8.9), 200.0).unwrap();
    assert!(path.zones.iter().all(|&z| z == Zone::Inland) && path.coast().from_start_km.is_none());

    // A lake at 50 m is water and no sea.
    let lake = ground.with_cover(Mosaic::new(vec![tile(46.0, 8.0, classes(|_, _| cover::WATER))]));
    let spot = lake.spot(at(46.5, 8.1)).unwrap();
    assert!(spot.water && spot.zone == Zone::Inland && spot.height_m == 50.0);
}

#[test]
fn voids_are_filled_along_the_path_and_counted() {
    let heights = floats(|col, _| {
        if (30..=60).contains(&col) {
            f32::NAN
        } else {
            col as f32 * 10.0
        }
    });
    let ground = Ground::new(Mosaic::new(vec![tile(0.0, 8.0, heights)]), HeightKind::BareGround);
    let path = ground.profile(at(0.5, 8.1), at(0.5, 8.9), 500.0).unwrap();
    let void = path.quality.iter().filter(|&&q| q == Quality::Void).count();
    assert!((path.shares().void - 0.375).abs() < 0.03 && void > 0);
    for i in 0..path.len() {
        let plane_m = (path.positions[i].lon_deg() - 8.0) * 1000.0;
        // Within a sample of the void's rim the corners left outweigh; inside, the straight line is the plane.
        assert!(
            (path.heights_m[i] - plane_m).abs() < 11.0,
            "{i}: {} {plane_m}",
            path.heights_m[i]
        );
    }
    let nothing = Ground::new(
        Mosaic::new(vec![tile(0.0, 8.0, floats(|_, _| f32::NAN))]),
        HeightKind::BareGround,
    );
    assert_eq!(
        nothing.profile(at(0.2, 8.2), at(0.8, 8.8), 500.0),
        Err(GroundError::AllVoid)
    );
}

#[test]
fn missing_ground_stops_the_path_or_is_sea_by_choice() {
    let ground = half_sea(HeightKind::BareGround);
    let path = ground.radial(at(46.5, 8.1), 270.0, 40.0, 100.0).unwrap();
    let km = path.distances_km[path.usable_len() - 1];
    assert!((km - 7.68).abs() < 0.6, "{km}"); // 0.1° of longitude, and half a sample
    assert!(path.shares().missing > 0.7 && path.heights_m.iter().all(|h| h.is_finite()));
    assert!(matches!(
        ground.mean_ground_m(at(46.5, 8.1), 270.0, 3.0, 15.0, 100.0),
        Err(GroundError::Missing { .. })
    ));
    let sea = ground.with_missing(MissingGround::TreatAsSea);
    let path = sea.radial(at(46.5, 8.1), 270.0, 40.0, 100.0).unwrap();
    assert_eq!((path.usable_len(), path.shares().missing), (path.len(), 0.0));
    assert!(path.shares().sea_by_choice > 0.7);
}

#[test]
fn bad_paths_are_refused_by_reason() {
    let ground = half_sea(HeightKind::BareGround);
    let mast = at(46.5, 8.1);
    assert_eq!(ground.profile(mast, mast, 90.0), Err(GroundError::NoLength));
    for (azimuth, km, step) in [
        (f64::NAN, 10.0, 90.0),
        (0.0, f64::NAN, 90.0),
        (0.0, f64::INFINITY, 90.0),
        (0.0, 10.0, 0.0),
        (0.0, 10.0, -90.0),
        (0.0, 10.0, f64::NAN),
        (0.0, -5.0, 90.0),
        (0.0, 0.05, 90.0),
        (0.0, 20_000.0, 1e-6),
    ] {
        assert!(
            matches!(
                ground.radial(mast, azimuth, km, step),
                Err(GroundError::NoPath { .. })
            ),
            "{azimuth} {km} {step}"
        );
    }
    for step in [f64::NAN, 0.0, -90.0, f64::INFINITY] {
        assert!(
            matches!(
                ground.profile(mast, at(46.6, 8.1), step),
                Err(GroundError::NoPath { .. })
            ),
            "{step}"
        );
    }
    let absurd = Ground::new(
        Mosaic::new(vec![tile(46.0, 8.0, floats(|_, _| 32_000.0))]),
        HeightKind::BareGround,
    );
    let said = absurd.spot(mast).unwrap_err().to_string();
    assert!(
        said.contains("32,000\u{a0}m at 46.50000°, 8.10000°") && said.contains("void value"),
        "{said}"
    );
}

/// Tiles on both sides of 180°: a path over the seam is as smooth as any other.
#[test]
fn the_antimeridian_is_no_seam() {
    let height =
        |west: f64| move |col: u32, _: u32| ((west + f64::from(col) / 100.0 + 360.0) % 360.0 * 10.0) as f32;
    let tiles = vec![
        tile(-17.0, 179.0, floats(height(179.0))),
        tile(-17.0, -180.0, floats(height(-180.0))),
    ];
    let ground = Ground::new(Mosaic::new(tiles), HeightKind::BareGround);
    let path = ground
        .profile(at(-16.5, 179.3), at(-16.4, -179.2), 300.0)
        .unwrap();
    assert_eq!(path.usable_len(), path.len());
    assert!(
        path.heights_m
            .windows(2)
            .all(|w| w[1] > w[0] && w[1] - w[0] < 0.04),
        "{:?}",
        path.heights_m
    );
}

/// Trapezium mean of a plane is the plane at the middle.
#[test]
fn mean_ground_of_a_slope_is_its_middle() {
    let slope = floats(|_, row| (100 - row) as f32 * 10.0);
    let ground = Ground::new(Mosaic::new(vec![tile(0.0, 8.0, slope)]), HeightKind::BareGround);
    let mean_m = ground.mean_ground_m(at(0.1, 8.5), 0.0, 3.0, 15.0, 100.0).unwrap();
    let middle = geodesic::destination(at(0.1, 8.5), 0.0, 9_000.0);
    assert!((mean_m - middle.lat_deg() * 1000.0).abs() < 0.1, "{mean_m}");
}

proptest! {
    /// Anywhere, poles and antimeridian included: an answer with finite numbers and rising distances, or a reason.
    #[test]
    fn prop_paths_anywhere_hold_no_nan(lat in -90.0..=90.0f64, lon in -180.0..180.0f64, azimuth in -720.0..720.0f64,
        km in 0.01..300.0f64, step in 1.0..5000.0f64, sea in any::<bool>()) {
        let missing = if sea { MissingGround::TreatAsSea } else { MissingGround::Report };
        let ground = half_sea(HeightKind::BareGround).with_missing(missing);
        let mut path = Profile::default();
        if ground.radial_into(at(lat, lon), azimuth, km, step, &mut path).is_ok() {
            let n = path.len();
            prop_assert_eq!([path.positions.len(), path.heights_m.len(), path.clutter_m.len(), path.zones.len()], [n; 4]);
            prop_assert!(path.heights_m.iter().chain(&path.clutter_m).chain(&path.distances_km).all(|v| v.is_finite()));
            prop_assert!(path.distances_km.windows(2).all(|w| w[1] > w[0]));
            prop_assert!(path.distances_km[n - 1] <= km + 1e-9);
        }
    }

    /// A path and its reverse see the same ground.
    #[test]
    fn prop_a_path_and_its_reverse_agree(a in 46.02..46.98f64, b in 8.02..8.98f64, c in 46.02..46.98f64, d in 8.02..8.98f64) {
        let ramp = floats(|col, row| col as f32 * 3.0 + row as f32 * 7.0);
        let ground = Ground::new(Mosaic::new(vec![tile(46.0, 8.0, ramp)]), HeightKind::BareGround);
        if let (Ok(there), Ok(back)) = (ground.profile(at(a, b), at(c, d), 250.0), ground.profile(at(c, d), at(a, b), 250.0)) {
            prop_assert_eq!(there.len(), back.len());
            for (x, y) in there.heights_m.iter().zip(back.heights_m.iter().rev()) {
                prop_assert!((x - y).abs() < 0.01, "{} {}", x, y);
            }
        }
    }
}
