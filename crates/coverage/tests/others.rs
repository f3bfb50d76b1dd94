//! Interference over a coverage, heights over the ground around, distances.

mod ground;

use coverage::interference::{Deviation, Interferer, Sum, usable_field};
use coverage::*;
use ground::{flat_ground, hilly_study, mast, world};
use terrain::{Position, geodesic};

fn stereo() -> Wanted {
    Wanted::bs412(Mode::Stereo, Situation::Roof)
}

fn flat_study(site: Position) -> Study {
    Study::new(site, 50.0, 98.0, propagation::p1812::Polarisation::Vertical)
        .within_km(15.0)
        .at_step_m(150.0)
}

#[test]
fn an_equal_station_takes_away_its_half_and_a_distant_channel_nothing() {
    let ground = flat_ground(20.0);
    let (here, there) = (
        Position::new(10.0, 20.0).unwrap(),
        Position::new(10.0, 20.1).unwrap(),
    );
    let field = |site, pct| {
        let study = flat_study(site).within_km(30.0).for_time_pct(pct);
        LossField::compute(&ground, &study, &Control::quiet()).unwrap()
    };
    let ours = LossField::compute(&ground, &flat_study(here), &Control::quiet()).unwrap();
    let (half, hundredth) = (field(there, 50.0), field(there, 1.0));
    let erp = ErpTable::omni(1.0);
    let usable = |spacing_khz, sum| {
        let other = Interferer {
            half: &half,
            hundredth: &hundredth,
            erp: &erp,
            spacing_khz,
        };
        usable_field(&ours, &[other], Deviation::Khz75, Mode::Stereo, sum).unwrap()
    };
    let alone = ours.served(&erp, &stereo()).unwrap();
    let far = usable(500.0, Sum::Power);
    assert!(far.field_dbuv_m.iter().all(|f| *f == f32::NEG_INFINITY));
    assert_eq!(
        ours.served_against(&erp, &stereo(), &far.field_dbuv_m).unwrap(),
        alone
    );
    let adjacent = usable(200.0, Sum::Power);
    let co = usable(0.0, Sum::Multiplication);
    assert_eq!(co.beyond, 0.0);
    let served = |u: &Usable| {
        ours.served_against(&erp, &stereo(), &u.field_dbuv_m)
            .unwrap()
            .land_km2
    };
    println!(
        "land served: alone {:.0}, 200 kHz away {:.0}, same channel {:.0} km²",
        alone.land_km2,
        served(&adjacent),
        served(&co)
    );
    assert!(served(&adjacent) < alone.land_km2 && served(&co) < served(&adjacent));
    // Midway both fields are equal, so the usable field lies one protection ratio above ours: 45 dB, BS.412 Table 3.
    let middle = geodesic::destination(here, 90.0, geodesic::span(here, there).length_m / 2.0);
    let at = ours.interpolated(&ours.fields_dbuv_m(&erp), middle).unwrap();
    let need = ours.interpolated(&co.field_dbuv_m, middle).unwrap();
    assert!((need - at - 45.0).abs() < 0.2, "{need} {at}");
    // The station's fields must be for half and for a hundredth of the time.
    let wrong = Interferer {
        half: &half,
        hundredth: &half,
        erp: &erp,
        spacing_khz: 0.0,
    };
    assert!(usable_field(&ours, &[wrong], Deviation::Khz75, Mode::Stereo, Sum::Power).is_err());
    assert_eq!(
        ours.served_against(&erp, &stereo(), &[0.0; 3]),
        Err(CoverageError::OtherLattice)
    );
}

#[test]
fn heights_over_flat_ground_are_the_height_above_it() {
    let ground = flat_ground(20.0);
    let site = Position::new(10.0, 20.0).unwrap();
    for height in effective_heights(&ground, site, 170.0).unwrap() {
        assert!((height.height_m - 120.0).abs() < 1e-9 && height.unsure == 0.0);
    }
    assert!((haat(&ground, site, 170.0).unwrap().height_m - 120.0).abs() < 1e-9);
}

#[test]
fn heights_on_hills_are_the_mean_of_the_stretch() {
    let (world, mast) = (world("rolling"), mast("rolling"));
    let centre = mast.ground_m + 40.0;
    let heights = effective_heights(world, mast.position, centre).unwrap();
    for row in [&heights[0], &heights[7], &heights[35]] {
        let mean = world
            .ground()
            .mean_ground_m(mast.position, row.azimuth_deg, 3.0, 15.0, 100.0)
            .unwrap();
        assert!(
            (row.mean_ground_m - mean).abs() < 0.01,
            "{} {mean}",
            row.mean_ground_m
        );
        assert_eq!(row.height_m, centre - row.mean_ground_m);
    }
    // A short path: the mean from 0.2 of the way to its end.
    let short = effective_height_to(world, mast.position, centre, 70.0, 10.0).unwrap();
    let mean = world
        .ground()
        .mean_ground_m(mast.position, 70.0, 2.0, 10.0, 20.0)
        .unwrap();
    assert!((short.mean_ground_m - mean).abs() < 1.0);
    let haat = haat(world, mast.position, centre).unwrap();
    let mean = haat.radials.iter().map(|r| r.height_m).sum::<f64>() / 8.0;
    assert!((haat.height_m - mean).abs() < 1e-9);
    let nowhere = Position::new(0.0, 0.0).unwrap();
    assert!(effective_heights(world, nowhere, centre).is_err());
}

#[test]
fn distances_on_flat_ground_are_the_radius_of_the_outline() {
    let ground = flat_ground(20.0);
    let site = Position::new(10.0, 20.0).unwrap();
    let field = LossField::compute(&ground, &flat_study(site), &Control::quiet()).unwrap();
    let erp = ErpTable::omni(0.002);
    let distances = field.distances(&erp, &stereo(), false).unwrap();
    assert!(distances.len() >= 32);
    for d in &distances {
        let edge = geodesic::destination(site, d.azimuth_deg, d.furthest_km * 1000.0);
        let at = at_place(&ground, field.study(), edge, &erp, &stereo(), None).unwrap();
        assert!(at.margin_db > -0.01 && at.margin_db < 0.6, "{}", at.margin_db);
        assert!((d.served_km - d.furthest_km).abs() < 1e-9 && d.ends_inside);
        assert!((d.unbroken_km - d.furthest_km).abs() < 1e-9);
    }
}

/// More power, a lower wanted field, a better aerial: never fewer served.
#[test]
fn prop_served_moves_the_right_way() {
    let field = LossField::compute(
        world("rolling"),
        &hilly_study("rolling").coarse(4),
        &Control::quiet(),
    )
    .unwrap();
    let served = |kw: f64, mode, situation| {
        field
            .served(&ErpTable::omni(kw), &Wanted::bs412(mode, situation))
            .unwrap()
    };
    let base = served(0.1, Mode::Stereo, Situation::Car);
    for better in [
        served(0.2, Mode::Stereo, Situation::Car),
        served(0.1, Mode::Mono, Situation::Car),
        served(0.1, Mode::Stereo, Situation::Roof),
    ] {
        assert!(better.people > base.people && better.land_km2 > base.land_km2);
        assert_eq!(better.people_total, base.people_total);
    }
    let parts: f64 = base.by_surroundings.iter().map(|p| p.people).sum();
    assert!((parts - base.people).abs() < 1e-6);
    let disc = std::f64::consts::PI * field.lattice().radius_km().powi(2);
    assert!(base.land_total_km2 <= disc * 1.0001 && base.land_total_km2 > 0.3 * disc);
    assert!((0.0..=1.0).contains(&base.people_share().unwrap()));
}
