//! Loss fields: walkers agree, threads and cancelling do not matter, bytes come back, people are conserved.

mod ground;

use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::time::{Duration, Instant};

use coverage::*;
use ground::{hilly_study, mast, world};
use propagation::p1812::Polarisation;

#[test]
fn the_fast_walker_gives_the_plain_walkers_field() {
    let study = hilly_study("coast").within_km(12.0);
    let plain = Study {
        walker: Walker::Plain,
        ..study
    };
    let world = world("coast");
    let fast = LossField::compute(world, &study, &Control::quiet()).unwrap();
    let slow = LossField::compute(world, &plain, &Control::quiet()).unwrap();
    let mut worst = 0.0f64;
    for index in 0..fast.lattice().len() {
        worst = worst.max((fast.loss_db(index).unwrap() - slow.loss_db(index).unwrap()).abs());
    }
    // Both are rounded to 0.01 dB, so equal values may fall to neighbouring hundredths.
    assert!(worst <= 0.0101, "{worst} dB");
    println!("{} receivers, worst {worst:.4} dB", fast.lattice().len());
}

#[test]
fn any_number_of_threads_gives_the_same_bits() {
    let study = hilly_study("coast").within_km(10.0);
    let on = |threads| {
        let pool = rayon::ThreadPoolBuilder::new()
            .num_threads(threads)
            .build()
            .unwrap();
        pool.install(|| {
            let field = LossField::compute(world("coast"), &study, &Control::quiet()).unwrap();
            let served = field
                .served(
                    &ErpTable::omni(0.05),
                    &Wanted::bs412(Mode::Stereo, Situation::Car),
                )
                .unwrap();
            (field.to_bytes(), served)
        })
    };
    let one = on(1);
    for threads in [2, 3, 7] {
        assert!(one == on(threads), "{threads} threads");
    }
}

#[test]
fn work_stops_within_a_tenth_of_a_second_and_tells_how_far_it_is() {
    // The invented ground is made on first use; that is not the work measured here.
    let warm = hilly_study("coast").within_km(60.0).coarse(8);
    LossField::compute(world("coast"), &warm, &Control::quiet()).unwrap();
    for (walker, radius_km) in [(Walker::Engine, 60.0), (Walker::Plain, 60.0)] {
        let study = Study {
            walker,
            ..hilly_study("coast").within_km(radius_km)
        };
        let cancel = AtomicBool::new(false);
        let told = AtomicU64::new(0);
        let progress = |p: Progress| {
            assert!(p.done <= p.total && p.left.is_some());
            told.fetch_add(1, Ordering::Relaxed);
        };
        let control = Control {
            progress: Some(&progress),
            cancel: Some(&cancel),
        };
        let (result, late) = std::thread::scope(|scope| {
            let work = scope.spawn(|| {
                let result = LossField::compute(world("coast"), &study, &control);
                (result, Instant::now())
            });
            std::thread::sleep(Duration::from_millis(100));
            let asked = Instant::now();
            cancel.store(true, Ordering::Relaxed);
            let (result, ended) = work.join().unwrap();
            (result, ended.saturating_duration_since(asked))
        });
        match result {
            Err(error) => assert_eq!(error, CoverageError::Cancelled),
            Ok(_) => assert_eq!(walker, Walker::Engine, "done before it was asked to stop"),
        }
        println!(
            "{walker:?}: stopped after {late:?}, {} told",
            told.load(Ordering::Relaxed)
        );
        assert!(late < Duration::from_millis(100), "{walker:?}: {late:?}");
    }
}

#[test]
fn bytes_come_back_as_the_same_field_and_damage_is_told() {
    let study = Study {
        receiving: ReceivingRule::TrueHeight(1.5),
        ..hilly_study("island").within_km(8.0)
    };
    let field = LossField::compute(world("island"), &study, &Control::quiet()).unwrap();
    let bytes = field.to_bytes();
    assert!(LossField::from_bytes(&bytes).unwrap() == field);
    assert!(bytes.len() < field.lattice().len() * 6 + 2000);
    for cut in [0, 7, 12, 100, bytes.len() / 2, bytes.len() - 1] {
        assert!(LossField::from_bytes(&bytes[..cut]).is_err(), "cut at {cut}");
    }
    let mut other = bytes.clone();
    other[12] ^= 1;
    assert!(matches!(
        LossField::from_bytes(&other),
        Err(StoredFieldError::OtherFormat { .. })
    ));
    let mut longer = bytes;
    longer.push(0);
    assert!(LossField::from_bytes(&longer).is_err());
}

#[test]
fn people_are_conserved_and_live_on_land() {
    for id in ["island", "coast", "rolling"] {
        let field = LossField::compute(
            world(id),
            &hilly_study(id).within_km(15.0).coarse(4),
            &Control::quiet(),
        )
        .unwrap();
        let listeners = field.listeners();
        let total = world(id).people().unwrap().total();
        let sum: f64 = listeners.iter().map(|(_, n)| n).sum();
        assert!(((listeners.inside() + listeners.outside()) / total - 1.0).abs() < 1e-9);
        assert!((sum / listeners.inside() - 1.0).abs() < 1e-6, "{id}");
        println!(
            "{id}: {:.0} of {total:.0} people within 15 km",
            listeners.inside()
        );
        assert!(listeners.inside() > 0.0, "{id}");
    }
}

#[test]
fn several_services_in_one_pass_are_the_services_one_by_one() {
    let study = hilly_study("island").within_km(15.0).coarse(4);
    let field = LossField::compute(world("island"), &study, &Control::quiet()).unwrap();
    let erp = ErpTable::omni(0.5);
    let wanted = [
        Wanted::bs412(Mode::Stereo, Situation::Roof),
        Wanted::bs412(Mode::Mono, Situation::Car),
        Wanted::bs412(Mode::Mono, Situation::Roof),
    ];
    let each = field.served_each(&erp, &wanted).unwrap();
    assert_eq!(each.len(), wanted.len());
    for (together, wanted) in each.iter().zip(&wanted) {
        assert_eq!(*together, field.served(&erp, wanted).unwrap());
    }
    assert!(
        each[0].people < each[2].people,
        "mono reaches further than stereo"
    );
}

#[test]
fn the_key_of_a_cache_follows_everything_an_answer_rests_on() {
    let key = |world: &dyn World, study: &Study| {
        let mut bytes = Vec::new();
        study.feed_key(world, &mut bytes);
        bytes
    };
    let study = hilly_study("island");
    let island = world("island");
    let base = key(island, &study);
    assert!(base == key(island, &study));
    let mut conditions = [study.conditions; 6];
    conditions[0].freq_mhz += 0.1;
    conditions[1].time_pct = 10.0;
    conditions[2].dn_per_km = 46.0;
    conditions[3].n0 = 326.0;
    conditions[4].location_spread_db = 1.0;
    conditions[5].polarisation = Polarisation::Horizontal;
    let mut changed: Vec<Study> = conditions
        .map(|conditions| Study { conditions, ..study })
        .to_vec();
    let elsewhere = terrain::geodesic::destination(study.site, 0.0, 1.0);
    changed.extend([
        Study {
            site: elsewhere,
            ..study
        },
        Study {
            tx_agl_m: study.tx_agl_m + 0.5,
            ..study
        },
        study.within_km(21.0),
        study.at_step_m(91.0),
        study.coarse(2),
        Study {
            azimuths: Azimuths::Count(360),
            ..study
        },
        Study {
            receiving: ReceivingRule::TrueHeight(10.0),
            ..study
        },
        Study {
            walker: Walker::Plain,
            ..study
        },
    ]);
    for study in &changed {
        assert!(key(island, study) != base, "{study:?}");
    }
    let table = || {
        let ground = island.ground().clone();
        let table = ground.table().clone().with_height(50, 20.0).unwrap();
        ground.with_table(table)
    };
    let ground = island.ground();
    let worlds = [
        GroundWorld::generated("coast").unwrap(),
        GroundWorld::new(ground.clone(), "another tile"),
        island.clone().with_ground(|_| table()),
        island
            .clone()
            .with_ground(|g| g.with_kind(terrain::HeightKind::Surface)),
        island
            .clone()
            .with_ground(|g| g.with_missing(terrain::MissingGround::TreatAsSea)),
        island.clone().with_places(Vec::new()),
    ];
    let mut keys: Vec<Vec<u8>> = worlds.iter().map(|w| key(w, &study)).collect();
    keys.push(base);
    keys.sort();
    keys.dedup();
    assert_eq!(keys.len(), worlds.len() + 1);
}

#[test]
fn impossible_studies_are_refused_without_panic() {
    let good = hilly_study("island");
    let compute = |study: Study| LossField::compute(world("island"), &study, &Control::quiet()).unwrap_err();
    for step_m in [f64::NAN, 0.0, -90.0, f64::INFINITY] {
        compute(good.at_step_m(step_m));
    }
    for radius_km in [f64::NAN, 0.0, -1.0, 1e9, 0.1] {
        compute(good.within_km(radius_km));
    }
    for tx_agl_m in [f64::NAN, -10.0, 0.0, 1e6] {
        compute(Study { tx_agl_m, ..good });
    }
    compute(Study {
        azimuths: Azimuths::Count(0),
        ..good
    });
    compute(Study {
        receiving: ReceivingRule::TrueHeight(-1.0),
        ..good
    });
    compute(good.for_time_pct(80.0));
    let nowhere = terrain::Position::new(0.0, 0.0).unwrap();
    assert_eq!(
        compute(Study {
            site: nowhere,
            ..good
        }),
        CoverageError::MissingGround { from_km: 0.0 }
    );
    assert!(mast("island").ground_m.is_finite());
}
