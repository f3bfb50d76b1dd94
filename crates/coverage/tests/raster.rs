//! The raster against point-to-point answers, and across the antimeridian.

mod ground;

use coverage::*;
use ground::{hilly_study, world};
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use terrain::Position;

fn percentile(sorted: &[f64], share: f64) -> f64 {
    sorted[((sorted.len() - 1) as f64 * share).round() as usize]
}

/// Issue 2.5: at 2 000 cell centres on hilly ground.
#[test]
fn cells_are_near_the_point_to_point_answer() {
    let erp = ErpTable::omni(0.5);
    let wanted = Wanted::bs412(Mode::Stereo, Situation::Roof);
    for id in ["coast", "rolling", "alpine"] {
        let study = hilly_study(id).within_km(20.0);
        let field = LossField::compute(world(id), &study, &Control::quiet()).unwrap();
        let raster = field.raster(&erp, &Paint::Field(Situation::Roof), 90.0).unwrap();
        let mut rng = ChaCha8Rng::seed_from_u64(25);
        let mut apart = Vec::new();
        while apart.len() < 2000 {
            let (col, row) = (
                rng.random_range(0..raster.grid.width()),
                rng.random_range(0..raster.grid.height()),
            );
            let Some(cell) = raster.value_db(col, row) else {
                continue;
            };
            let centre = raster.grid.position(col, row).unwrap();
            let Ok(at) = at_place(world(id), &study, centre, &erp, &wanted, None) else {
                continue;
            };
            apart.push((cell - at.field_dbuv_m).abs());
        }
        apart.sort_by(f64::total_cmp);
        println!(
            "{id}: raster against point, 2000 cells: median {:.2}, 90th {:.2}, 99th {:.2}, worst {:.2} dB",
            percentile(&apart, 0.5),
            percentile(&apart, 0.9),
            percentile(&apart, 0.99),
            apart[apart.len() - 1]
        );
        assert!(percentile(&apart, 0.5) < 1.0);
    }
}

/// Issue 2.5: the same ground moved onto the antimeridian gives the same map, without a seam.
#[test]
fn no_seam_at_the_antimeridian() {
    let flat = |lon_deg: f64| {
        let site = Position::new(10.0, lon_deg).unwrap();
        let ground = ground::flat_ground(lon_deg);
        let study = Study::new(site, 50.0, 98.0, propagation::p1812::Polarisation::Vertical)
            .within_km(15.0)
            .at_step_m(100.0);
        let field = LossField::compute(&ground, &study, &Control::quiet()).unwrap();
        assert_eq!(field.shares().missing, 0.0);
        field
            .raster(&ErpTable::omni(1.0), &Paint::AtPrediction, 100.0)
            .unwrap()
    };
    let (there, here) = (flat(180.0), flat(20.0));
    assert_eq!(there.grid.width(), here.grid.width());
    let mut worst = 0;
    for (a, b) in there.values_cdb.iter().zip(&here.values_cdb) {
        // A cell exactly on the rim may fall either way.
        if *a != NODATA && *b != NODATA {
            worst = worst.max((a - b).abs());
        }
    }
    println!("worst {worst} hundredths of a dB");
    assert!(worst <= 2);
    let east = there.at(Position::new(10.0, -179.95).unwrap()).unwrap();
    let west = there.at(Position::new(10.0, 179.95).unwrap()).unwrap();
    assert!((east - west).abs() < 0.05);
}

#[test]
fn a_receivers_own_position_gets_its_own_field() {
    let study = hilly_study("coast").within_km(10.0);
    let field = LossField::compute(world("coast"), &study, &Control::quiet()).unwrap();
    let erp = ErpTable::omni(1.0);
    let values = field.fields_dbuv_m(&erp);
    let lattice = field.lattice();
    for (radial, point) in [(0, 30), (32, 60), (64, 100)] {
        let index = lattice.index(radial, point).unwrap();
        let place = terrain::geodesic::destination(
            study.site,
            lattice.azimuth_deg(radial),
            f64::from(point) * study.step_m,
        );
        let corner = terrain::grid::Corner {
            x: place.lon_deg() - 0.0005,
            y: place.lat_deg() + 0.0005,
            step_x: 0.001,
            step_y: 0.001,
        };
        let grid = terrain::Grid::new(
            terrain::Crs::Geographic,
            corner,
            (1, 1),
            terrain::Registration::Area,
        )
        .unwrap();
        let one = field.raster_of(&values, grid).value_db(0, 0).unwrap();
        assert!(
            (one - f64::from(values[index])).abs() < 0.02,
            "{one} {}",
            values[index]
        );
    }
}

#[test]
fn bad_cells_are_refused() {
    let field = LossField::compute(
        world("island"),
        &hilly_study("island").within_km(5.0).coarse(4),
        &Control::quiet(),
    )
    .unwrap();
    for cell_m in [f64::NAN, 0.0, -1.0, 1e-9, 1e9] {
        assert!(field.raster_grid(cell_m).is_err());
    }
    let wanted = Wanted::bs412(Mode::Mono, Situation::Car);
    let erp = ErpTable::omni(1.0);
    assert!(field.painted_db(&erp, &Paint::Margin(wanted, 100.0)).is_err());
    let median = field.painted_db(&erp, &Paint::Margin(wanted, 50.0)).unwrap();
    let sure = field.painted_db(&erp, &Paint::Margin(wanted, 90.0)).unwrap();
    // 1.2816 standard deviations of at least the model error's 6 dB (tables of the normal distribution).
    assert!(
        median
            .iter()
            .zip(&sure)
            .all(|(m, s)| m.is_nan() || m - s > 1.28 * 6.0)
    );
}

/// What a listener gets at nine places of ten, less what is in hand there, is what they want: the same at any percentage. Half of the
/// places is the median.
#[test]
fn the_field_of_most_places_is_what_is_wanted_and_what_is_in_hand() {
    let study = hilly_study("island").within_km(8.0).coarse(4);
    let field = LossField::compute(world("island"), &study, &Control::quiet()).unwrap();
    let (wanted, erp) = (Wanted::bs412(Mode::Stereo, Situation::Roof), ErpTable::omni(0.5));
    let painted = |paint: &Paint| field.painted_db(&erp, paint).unwrap();
    let at = |pct| painted(&Paint::FieldAt(wanted, pct));
    let in_hand = |pct| painted(&Paint::Margin(wanted, pct));
    let (half, most) = (at(50.0), at(95.0));
    let median = painted(&Paint::Field(Situation::Roof));
    let (half_in_hand, most_in_hand) = (in_hand(50.0), in_hand(95.0));
    for i in (0..half.len()).filter(|&i| median[i].is_finite()) {
        assert!((half[i] - median[i]).abs() < 1e-3);
        assert!(((most[i] - most_in_hand[i]) - (half[i] - half_in_hand[i])).abs() < 1e-3);
        // 1.6449 standard deviations of at least the model error's 6 dB (tables of the normal distribution).
        assert!(half[i] - most[i] > 1.644 * 6.0);
    }
    assert!(field.painted_db(&erp, &Paint::FieldAt(wanted, 0.0)).is_err());
}

/// Nobody is counted twice, nobody with an answer is left out, and an edge belongs to the class above it.
#[test]
fn people_are_counted_in_the_class_they_live_in() {
    let study = hilly_study("island").within_km(8.0);
    let field = LossField::compute(world("island"), &study, &Control::quiet()).unwrap();
    let raster = field
        .raster(&ErpTable::omni(0.5), &Paint::Field(Situation::Roof), 200.0)
        .unwrap();
    let people = world("island").people().unwrap();
    let classes = raster.people_by_class(people, &[48.0, 54.0, 66.0]);
    let answered = |at: &(terrain::Position, f64)| raster.at(at.0);
    let all: f64 = people
        .cells()
        .filter(|c| answered(c).is_some())
        .map(|c| c.1)
        .sum();
    let stereo: f64 = people
        .cells()
        .filter(|c| answered(c).is_some_and(|v| v >= 66.0))
        .map(|c| c.1)
        .sum();
    assert_eq!(classes.len(), 4);
    assert!(all > 0.0 && (classes.iter().sum::<f64>() - all).abs() < 1e-6 * all);
    assert!((classes[3] - stereo).abs() < 1e-6 * all);
}
