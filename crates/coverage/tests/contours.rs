//! Outlines: areas, holes, rings, the antimeridian.

mod ground;

use coverage::*;
use geo::{Contains, Point, Validation, Winding};
use ground::{hilly_study, world};
use terrain::{Crs, Grid, Position, Registration, geodesic};

fn flat_raster(lon_deg: f64) -> (LossField, FieldRaster) {
    let site = Position::new(10.0, lon_deg).expect("valid in this test");
    let study = Study::new(site, 50.0, 98.0, propagation::p1812::Polarisation::Vertical)
        .within_km(20.0)
        .at_step_m(100.0);
    let field = LossField::compute(&ground::flat_ground(lon_deg), &study, &Control::quiet())
        .expect("valid in this test");
    let raster = field
        .raster(&ErpTable::omni(0.001), &Paint::AtPrediction, 100.0)
        .expect("valid in this test");
    (field, raster)
}

/// On flat ground an outline is a circle: its area is π r², and the field on it is the level.
#[test]
fn verif_the_outline_on_flat_ground_is_a_circle() {
    let (field, raster) = flat_raster(20.0);
    let found = contours(&raster, &[54.0, 40.0]).unwrap();
    assert!(found[1].area_km2 > found[0].area_km2);
    for contour in &found {
        let radius_km = (contour.area_km2 / std::f64::consts::PI).sqrt();
        let erp = ErpTable::omni(0.001);
        let wanted = Wanted {
            fields: WantedFields::everywhere(contour.level_db),
            ..Wanted::bs412(Mode::Mono, Situation::Roof)
        };
        let edge = geodesic::destination(field.study().site, 45.0, radius_km * 1000.0);
        let at = at_place(
            &ground::flat_ground(20.0),
            field.study(),
            edge,
            &erp,
            &wanted,
            None,
        )
        .unwrap();
        println!(
            "{} dBµV/m: {radius_km:.3} km, field there {:.2}",
            contour.level_db, at.field_dbuv_m
        );
        assert!((at.field_dbuv_m - contour.level_db).abs() < 0.15);
        assert_eq!(contour.area.0.len(), 1);
        assert!(contour.area.is_valid());
    }
}

#[test]
fn outlines_on_hills_hold_exactly_the_cells_above_the_level() {
    let field = LossField::compute(
        world("alpine"),
        &hilly_study("alpine").within_km(12.0),
        &Control::quiet(),
    )
    .unwrap();
    let raster = field
        .raster(&ErpTable::omni(0.1), &Paint::Field(Situation::Roof), 150.0)
        .unwrap();
    let contour = &contours(&raster, &[60.0]).unwrap()[0];
    assert!(contour.area.is_valid());
    for polygon in &contour.area {
        assert!(polygon.exterior().is_ccw());
        assert!(polygon.interiors().iter().all(Winding::is_cw));
    }
    let (mut same, mut all) = (0, 0);
    for row in (0..raster.grid.height()).step_by(3) {
        for col in (0..raster.grid.width()).step_by(3) {
            let Some(value) = raster.value_db(col, row) else {
                continue;
            };
            let (x, y) = raster.grid.xy(col, row);
            same += i32::from(contour.area.contains(&Point::new(x, y)) == (value >= 60.0));
            all += 1;
        }
    }
    println!("{same} of {all} cells on their side");
    // The rest lie within half a cell of the outline, which is simplified by that much.
    assert!(f64::from(same) > 0.97 * f64::from(all));
}

#[test]
fn the_antimeridian_cuts_an_outline_without_loss() {
    let (_, there) = flat_raster(180.0);
    let (_, here) = flat_raster(20.0);
    let area = |raster: &FieldRaster| contours(raster, &[54.0]).unwrap()[0].clone();
    let (there, here) = (area(&there), area(&here));
    assert!((there.area_km2 / here.area_km2 - 1.0).abs() < 1e-3);
    let cut = there.cut_at_antimeridian();
    assert_eq!(cut.0.len(), 2);
    assert!(
        cut.iter()
            .all(|p| p.exterior().coords().all(|c| c.x.abs() <= 180.0))
    );
    let km2 = geo::GeodesicArea::geodesic_area_unsigned(&cut) * 1e-6;
    assert!((km2 / there.area_km2 - 1.0).abs() < 1e-4);
    assert_eq!(here.cut_at_antimeridian(), here.area);
}

#[test]
fn empty_full_and_impossible_levels() {
    let corner = terrain::grid::Corner {
        x: 5.0,
        y: 5.0,
        step_x: 0.01,
        step_y: 0.01,
    };
    let grid = Grid::new(Crs::Geographic, corner, (8, 8), Registration::Area).unwrap();
    let raster = |value| FieldRaster {
        grid,
        values_cdb: vec![value; 64],
    };
    assert!(contours(&raster(NODATA), &[54.0]).unwrap()[0].area.0.is_empty());
    assert!(contours(&raster(3000), &[54.0]).unwrap()[0].area.0.is_empty());
    // Every cell equal to the level: the whole raster counts.
    let full = &contours(&raster(5400), &[54.0]).unwrap()[0];
    let km2 = 0.0064 * 111.32 * 110.57;
    assert!(
        (full.area_km2 / km2 - 1.0).abs() < 0.3,
        "{} of {km2}",
        full.area_km2
    );
    for level in [f64::NAN, f64::INFINITY, 1e6] {
        assert!(contours(&raster(5400), &[level]).is_err());
    }
}

/// Rings of rough ground, simplified, neither cross themselves nor one another (OGC 06-103r4 § 6.1.11: a valid polygon).
#[test]
fn outlines_of_a_rough_raster_are_valid() {
    let (wide, high) = (160_u32, 160_u32);
    let corner = terrain::grid::Corner {
        x: 8.0,
        y: 47.0,
        step_x: 0.001,
        step_y: 0.001,
    };
    let grid = Grid::new(Crs::Geographic, corner, (wide, high), Registration::Area).unwrap();
    let rough = |col: u32, row: u32| {
        let (x, y) = (f64::from(col), f64::from(row));
        let mixed = u64::from(col).wrapping_mul(0x9E37_79B9) ^ u64::from(row).wrapping_mul(0x85EB_CA6B);
        let noise = (mixed.wrapping_mul(0xC2B2_AE3D_27D4_EB4F) >> 52) as f64 / 4096.0;
        ((50.0 + 12.0 * (x / 11.0).sin() * (y / 7.0).cos() + 8.0 * noise) * 100.0) as i16
    };
    let values_cdb = (0..high)
        .flat_map(|row| (0..wide).map(move |col| rough(col, row)))
        .collect();
    let found = contours(&FieldRaster { grid, values_cdb }, &[42.0, 48.0, 54.0, 60.0]).unwrap();
    assert_eq!(found.len(), 4);
    for contour in found {
        assert!(
            contour.area_km2 > 10.0,
            "{}: {} km²",
            contour.level_db,
            contour.area_km2
        );
        assert!(contour.area.is_valid(), "{} dBµV/m", contour.level_db);
    }
}
