//! The Irregular Terrain Model as the method of a coverage.

mod ground;

use coverage::*;
use ground::{hilly_study, world};
use propagation::itm;

#[test]
fn a_coverage_may_choose_the_irregular_terrain_model() {
    for id in ["rolling", "coast"] {
        let p1812 = hilly_study(id).within_km(15.0);
        let study = Study {
            walker: Walker::Itm(5),
            ..p1812
        };
        let world = world(id);
        let itm_field = LossField::compute(world, &study, &Control::quiet()).unwrap();
        assert!(LossField::from_bytes(&itm_field.to_bytes()).unwrap() == itm_field);
        let other = LossField::compute(world, &p1812, &Control::quiet()).unwrap();
        // Receiver by receiver it is the method's own answer for the path that ends there.
        let mut profile = terrain::Profile::default();
        let lattice = itm_field.lattice();
        for (radial, point) in [(0, 40), (64, 90), (128, 160)] {
            let sample = itm_field.sample(radial, point).unwrap();
            world
                .radial_into(study.site, sample.azimuth_deg, 15.0, study.step_m, &mut profile)
                .unwrap();
            let heights = &profile.heights_m[..=point as usize];
            let conditions = itm::Conditions {
                n0: 325.0,
                polarisation: study.conditions.polarisation,
                ..itm::Conditions::broadcast_median(98.0)
            };
            let constants = itm::Constants::new(&conditions).unwrap();
            let antennas = itm::Antennas {
                tx_agl_m: study.tx_agl_m,
                rx_agl_m: sample.row.reference_m,
            };
            let path = itm::Profile::new(lattice.step_m(), heights).unwrap();
            let alone = itm::predict_with(&path, &antennas, &constants).unwrap();
            assert!((alone.loss_db - sample.loss_db.unwrap()).abs() < 0.006);
        }
        let mut apart: Vec<f64> = (0..lattice.len())
            .filter_map(|i| Some(itm_field.loss_db(i)? - other.loss_db(i)?))
            .collect();
        apart.sort_by(f64::total_cmp);
        let at = |share: f64| apart[((apart.len() - 1) as f64 * share) as usize];
        println!(
            "{id}: ITM less P.1812: 10 % {:.1}, median {:.1}, 90 % {:.1} dB over {} receivers",
            at(0.1),
            at(0.5),
            at(0.9),
            apart.len()
        );
        assert!(apart.len() > lattice.len() * 9 / 10);
        // Mapped, it is the same: field of the one less field of the other, over land, by area.
        let found = other.differences(&itm_field).unwrap().unwrap();
        println!("{id}: P.1812 less ITM over land: {found:?}");
        assert!(found.tenth_db <= found.median_db && found.median_db <= found.ninetieth_db);
        let mut land: Vec<(f64, f64)> = Vec::new();
        for radial in 0..lattice.azimuths() {
            for (i, point) in lattice.radial_range(radial).zip(lattice.first_point(radial)..) {
                if let (false, Some(a), Some(b)) = (other.is_water(i), itm_field.loss_db(i), other.loss_db(i))
                {
                    land.push((a - b, lattice.area_m2(point)));
                }
            }
        }
        let all: f64 = land.iter().map(|l| l.1).sum();
        let up_to = |db: f64| land.iter().filter(|l| l.0 <= db).map(|l| l.1).sum::<f64>() / all;
        for (share, db) in [
            (0.1, found.tenth_db),
            (0.5, found.median_db),
            (0.9, found.ninetieth_db),
        ] {
            // Many receivers in plain sight are equally far apart.
            assert!(up_to(db + 1e-3) >= share - 1e-9 && up_to(db - 1e-3) <= share + 1e-9);
        }
        let turned = itm_field.differences(&other).unwrap().unwrap();
        assert_eq!(turned.worst_db, -found.worst_db);
        let elsewhere = LossField::compute(world, &p1812.within_km(14.0), &Control::quiet()).unwrap();
        assert!(matches!(
            elsewhere.differences(&other),
            Err(CoverageError::OtherLattice)
        ));
    }
    let bad = Study {
        walker: Walker::Itm(9),
        ..hilly_study("coast")
    };
    assert!(LossField::compute(world("coast"), &bad, &Control::quiet()).is_err());
}
