//! Where the mast should stand: both directions lose the same, the best hills are the best, and how far sampling matters.

mod ground;

use coverage::masts::sweep_study;
use coverage::*;
use ground::{hilly_study, world};
use propagation::p1812::{Antennas, Bearing, Link, Profile as RadioProfile, Zone, predict};
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use terrain::{Position, Profile, Surroundings, geodesic};

fn search(id: &'static str, places: usize) -> Search {
    let mut towns: Vec<_> = world(id).places().to_vec();
    towns.sort_by(|a, b| b.people.unwrap_or(0.0).total_cmp(&a.people.unwrap_or(0.0)));
    Search {
        targets: towns
            .iter()
            .take(places)
            .map(|p| Target {
                position: p.position,
                people: p.people.unwrap_or(0.0),
                surroundings: p.surroundings,
                wanted: Wanted::bs412(Mode::Stereo, Situation::Roof),
            })
            .collect(),
        study: hilly_study(id).within_km(12.0),
        erp_kw: 0.1,
        cell_m: 200.0,
        best: 10,
        apart_km: 1.0,
    }
}

/// A profile turned round: the same samples, the other end first.
fn both_ways(profile: &Profile, len: usize) -> [RadioProfile; 2] {
    let zone = |z: &terrain::Zone| match z {
        terrain::Zone::Sea => Zone::Sea,
        terrain::Zone::CoastalLand => Zone::Coast,
        terrain::Zone::Inland => Zone::Inland,
    };
    let end_km = profile.distances_km[len - 1];
    let there = RadioProfile::new(
        profile.distances_km[..len].to_vec(),
        profile.heights_m[..len].to_vec(),
        profile.clutter_m[..len].to_vec(),
        profile.zones[..len].iter().map(zone).collect(),
    );
    let back = RadioProfile::new(
        profile.distances_km[..len]
            .iter()
            .rev()
            .map(|d| end_km - d)
            .collect(),
        profile.heights_m[..len].iter().rev().copied().collect(),
        profile.clutter_m[..len].iter().rev().copied().collect(),
        profile.zones[..len].iter().rev().map(zone).collect(),
    );
    [
        there.expect("valid in this test"),
        back.expect("valid in this test"),
    ]
}

/// Issue 2.7: 100 random cells of a sweep equal the forward computation on the same samples reversed, to 0.001 dB; against the
/// forward run's own sampling the median and the worst are printed.
#[test]
fn both_directions_lose_the_same() {
    for id in ["rolling", "alpine", "coast"] {
        let search = search(id, 1);
        let world = world(id);
        let target = &search.targets[0];
        let study = sweep_study(world, &search, target).unwrap();
        let field = LossField::compute(world, &study, &Control::quiet()).unwrap();
        let mut rng = ChaCha8Rng::seed_from_u64(27);
        let (mut worst, mut worst_stored, mut sampling, mut by_sea) = (0.0f64, 0.0f64, Vec::new(), 0.0f64);
        let (mut cells, mut profile) = (0, Profile::default());
        while cells < 100 {
            let radial = rng.random_range(0..field.lattice().azimuths());
            let point = rng.random_range(8..=field.lattice().points());
            let Some(sample) = field.sample(radial, point) else {
                continue;
            };
            let Some(stored_db) = sample.loss_db else { continue };
            world
                .radial_into(
                    study.site,
                    sample.azimuth_deg,
                    study.radius_km,
                    study.step_m,
                    &mut profile,
                )
                .unwrap();
            let len = point as usize + 1;
            let [out, back] = both_ways(&profile, len);
            let mast = profile.positions[point as usize];
            let link = |from: Position, azimuth_deg, tx_agl_m, rx_agl_m| Link {
                conditions: study.conditions,
                antennas: Antennas { tx_agl_m, rx_agl_m },
                bearing: Bearing::new(from.lat_deg(), azimuth_deg),
                coast: None,
            };
            let mast_m = search.study.tx_agl_m;
            let swept = predict(
                &out,
                &link(study.site, sample.azimuth_deg, study.tx_agl_m, mast_m),
            )
            .unwrap();
            let towards = geodesic::span(mast, study.site).azimuth_deg;
            let forward = predict(&back, &link(mast, towards, mast_m, study.tx_agl_m)).unwrap();
            let apart = (forward.loss_db - swept.loss_db).abs();
            if profile.zones[..len].contains(&terrain::Zone::Sea) {
                by_sea = by_sea.max(apart);
            } else {
                worst = worst.max(apart);
                cells += 1;
            }
            worst_stored = worst_stored.max((stored_db - swept.loss_db).abs());
            if sample.water || mast_on_void(world, mast) {
                continue;
            }
            // The forward run from that mast samples the path from its own end.
            let own = Study {
                site: mast,
                tx_agl_m: mast_m,
                receiving: ReceivingRule::ByCover,
                ..study
            };
            let erp = ErpTable::omni(1.0);
            if let Ok(at) = at_place(
                world,
                &own,
                study.site,
                &erp,
                &target.wanted,
                Some(Surroundings::Rural),
            ) {
                sampling.push((at.prediction.loss_db - swept.loss_db).abs());
            }
        }
        sampling.sort_by(f64::total_cmp);
        println!(
            "{id}: reversed, over land worst {worst:.6} dB, with sea on the way {by_sea:.6} dB; stored {worst_stored:.4} dB; own sampling median {:.3}, worst {:.2} dB",
            sampling[sampling.len() / 2],
            sampling[sampling.len() - 1]
        );
        assert!(worst < 0.001, "{id}: {worst} dB");
        assert!(worst_stored < 0.006);
    }
}

fn mast_on_void(world: &dyn World, mast: Position) -> bool {
    world.spot(mast).is_err()
}

#[test]
fn the_best_cells_are_the_best_and_apart() {
    let search = search("alpine", 3);
    let found = best_masts(world("alpine"), &search, &Control::quiet()).unwrap();
    assert_eq!(found.best.len(), 10);
    let most = found
        .people
        .iter()
        .copied()
        .filter(|p| !p.is_nan())
        .fold(0.0, f32::max);
    assert_eq!(found.best[0].people, f64::from(most));
    for (i, cell) in found.best.iter().enumerate() {
        println!(
            "{:2}. {:.0} people from {:.0} m, margins {:?}",
            i + 1,
            cell.people,
            cell.ground_m,
            cell.margin_db
                .iter()
                .map(|m| m.map(|m| m.round()))
                .collect::<Vec<_>>()
        );
        assert_eq!(cell.margin_db.len(), 3);
        for other in &found.best[..i] {
            assert!(other.people >= cell.people);
            assert!(geodesic::span(other.position, cell.position).length_m >= 1000.0);
        }
        let spot = world("alpine").spot(cell.position).unwrap();
        assert!(!spot.water);
    }
    // What the search says of the best cell, a forward computation from there says too.
    let best = &found.best[0];
    for (target, margin) in search.targets.iter().zip(&best.margin_db) {
        let own = Study {
            site: best.position,
            ..search.study
        };
        let erp = ErpTable::omni(search.erp_kw);
        let at = at_place(
            world("alpine"),
            &own,
            target.position,
            &erp,
            &target.wanted,
            Some(target.surroundings),
        )
        .unwrap();
        let margin = margin.unwrap();
        println!("forward {:.1} dB, swept {margin:.1} dB", at.margin_db);
        // Cells are interpolated and sampled from the other end.
        assert!((at.margin_db - margin).abs() < 6.0);
    }
}

#[test]
fn searches_that_make_no_sense_are_refused() {
    let good = search("alpine", 2);
    let ask = |search: &Search| best_masts(world("alpine"), search, &Control::quiet()).unwrap_err();
    ask(&Search {
        targets: Vec::new(),
        ..good.clone()
    });
    ask(&Search {
        study: good.study.for_time_pct(10.0),
        ..good.clone()
    });
    ask(&Search {
        erp_kw: f64::NAN,
        ..good.clone()
    });
    ask(&Search {
        cell_m: 0.0,
        ..good.clone()
    });
    let mut negative = good;
    negative.targets[1].people = -5.0;
    ask(&negative);
}
