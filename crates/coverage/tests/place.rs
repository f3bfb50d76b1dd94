//! One place: terms that add up, the field of the loss field, what stands in the way.

mod ground;

use coverage::*;
use ground::{hilly_study, mast, world};
use propagation::p2109::Building;
use terrain::{CoverCategory, geodesic};

fn stereo(situation: Situation) -> Wanted {
    Wanted::bs412(Mode::Stereo, situation)
}

#[test]
fn the_terms_add_up_to_the_field_in_every_situation() {
    let study = hilly_study("coast");
    let erp = ErpTable::omni(0.5);
    for situation in [
        Situation::Roof,
        Situation::Car,
        Situation::Indoors(Building::Traditional),
        Situation::Indoors(Building::ThermallyEfficient),
    ] {
        for (azimuth, km) in [
            (10.0, 3.0),
            (100.0, 9.0),
            (190.0, 0.2),
            (280.0, 18.0),
            (333.0, 0.09),
        ] {
            let place = geodesic::destination(study.site, azimuth, km * 1000.0);
            let at = at_place(world("coast"), &study, place, &erp, &stereo(situation), None).unwrap();
            let sum: f64 = at.terms.iter().map(|t| t.db).sum();
            assert!((sum - at.loss_db).abs() < 1e-9, "{situation:?} {azimuth} {km}");
            assert!((at.distance_km - km).abs() < 1e-6);
            // Rec. ITU-R P.1812 § 4.10 at 98 MHz: E = 199.36 + 20 log f − Lb + 10 log P, f in GHz, P in kW.
            let field = 199.36 + 20.0 * 0.098f64.log10() - at.loss_db + 10.0 * 0.5f64.log10();
            assert!((field - at.field_dbuv_m).abs() < 1e-9);
            assert!((at.margin_db - (at.field_dbuv_m - at.threshold.wanted_dbuv_m)).abs() < 1e-12);
            assert!((0.0..=1.0).contains(&at.probability));
            // Never more than free space: 106.9 dBµV/m for 1 kW at 1 km, Rec. ITU-R P.525.
            let free = 106.92 + 10.0 * 0.5f64.log10() - 20.0 * at.distance_km.log10();
            assert!(at.field_at_prediction_dbuv_m < free + 0.15, "{azimuth} {km}");
        }
    }
}

#[test]
fn a_receiver_of_the_field_and_the_place_agree_to_the_stored_digit() {
    let study = hilly_study("coast").within_km(14.0);
    let world = world("coast");
    let field = LossField::compute(world, &study, &Control::quiet()).unwrap();
    let lattice = field.lattice();
    let erp = ErpTable::omni(1.0);
    let mut worst = 0.0f64;
    for (radial, point) in [(0, 20), (64, 50), (128, 100), (320, 140), (16, 155)] {
        let sample = field.sample(radial, point).unwrap();
        let distance_m = f64::from(point) * lattice.step_m();
        let place = geodesic::destination(study.site, sample.azimuth_deg, distance_m);
        let at = at_place(world, &study, place, &erp, &stereo(Situation::Roof), None).unwrap();
        worst = worst.max((at.prediction.loss_db - sample.loss_db.unwrap()).abs());
        assert!((at.elev_deg - sample.elev_deg).abs() < 0.011);
        assert_eq!(at.row, *sample.row);
    }
    assert!(worst < 0.05, "{worst} dB");
    println!("worst {worst:.4} dB");
}

#[test]
fn an_obstacle_is_named_where_one_stands_and_only_there() {
    let study = hilly_study("alpine");
    let erp = ErpTable::omni(1.0);
    let (mut clear, mut blocked) = (0, 0);
    for azimuth in (0..360).step_by(10) {
        let place = geodesic::destination(study.site, f64::from(azimuth), 9000.0);
        let at = at_place(
            world("alpine"),
            &study,
            place,
            &erp,
            &stereo(Situation::Roof),
            None,
        )
        .unwrap();
        let obstacles_db = at
            .terms
            .iter()
            .find(|t| t.kind == TermKind::Obstacles)
            .unwrap()
            .db;
        match at.obstacle {
            Some(obstacle) => {
                assert!(obstacle.distance_km > 0.0 && obstacle.distance_km < at.distance_km);
                assert!(obstacle.knife_edge_db > 0.0 && obstacles_db > 0.0);
                let there =
                    geodesic::destination(study.site, f64::from(azimuth), obstacle.distance_km * 1000.0);
                assert!(geodesic::span(there, obstacle.position).length_m < 1.0);
                blocked += 1;
            }
            None => {
                assert!(
                    obstacles_db < 0.01,
                    "{azimuth}: {obstacles_db} dB of obstacles and none named"
                );
                clear += 1;
            }
        }
    }
    println!("{clear} clear, {blocked} with an obstacle");
    assert!(blocked > 5);
}

#[test]
fn places_without_a_path_are_refused() {
    let study = hilly_study("island");
    let erp = ErpTable::omni(1.0);
    let ask = |place| {
        at_place(
            world("island"),
            &study,
            place,
            &erp,
            &stereo(Situation::Roof),
            None,
        )
    };
    assert!(matches!(ask(study.site), Err(CoverageError::AtTheSite { .. })));
    let far = terrain::Position::new(-43.0, 144.0).unwrap();
    assert!(ask(far).is_err());
    let beyond = geodesic::destination(study.site, 90.0, 400_000.0);
    assert!(matches!(ask(beyond), Err(CoverageError::MissingGround { .. })));
    let low = Study {
        receiving: ReceivingRule::TrueHeight(1.5),
        ..study
    };
    let near = geodesic::destination(study.site, 90.0, 4_000.0);
    let roof = at_place(world("island"), &low, near, &erp, &stereo(Situation::Roof), None);
    assert!(matches!(roof, Err(CoverageError::OtherHeight { .. })));
    assert!(mast("island").ground_m > 0.0);
}

#[test]
fn a_listener_in_trees_is_predicted_at_the_tree_tops() {
    let erp = ErpTable::omni(1.0);
    let mut seen = 0;
    for id in ["alpine", "rolling"] {
        let study = hilly_study(id);
        for azimuth in 0..360 {
            let place = geodesic::destination(study.site, f64::from(azimuth), 6000.0);
            let at = at_place(world(id), &study, place, &erp, &stereo(Situation::Car), None).unwrap();
            let trees = at.row.category == CoverCategory::Trees;
            assert_eq!(at.prediction_agl_m, if trees { 15.0 } else { 10.0 });
            seen += usize::from(trees);
        }
    }
    println!("{seen} of 720 in trees");
    assert!(seen > 20);
}
