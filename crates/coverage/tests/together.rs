//! What changes cheaply: many studies in one walk, and other heights and frequencies from ground that was read once. Both are
//! held to separate computations from scratch.

mod ground;

use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

use coverage::*;
use ground::{flat_ground, hilly_study, mast, world};
use propagation::p1812::Polarisation;
use terrain::ground::GroundError;
use terrain::{ClutterMode, ClutterTable, HeightKind, People, Place, Position, Profile, Spot};

fn compute(world: &dyn World, study: &Study) -> LossField {
    LossField::compute(world, study, &Control::quiet()).expect("a loss field")
}

/// Channels across the band, both polarisations, four percentages of time, two climates.
fn channels(base: Study, count: u32) -> Vec<Study> {
    (0..count)
        .map(|i| {
            let mut study = base.for_time_pct([50.0, 10.0, 1.0, 30.0][i as usize % 4]);
            study.conditions.freq_mhz = 87.6 + 20.3 * f64::from(i) / f64::from(count);
            study.conditions.polarisation =
                [Polarisation::Vertical, Polarisation::Horizontal][i as usize / 2 % 2];
            study.conditions.n0 = if i % 3 == 0 { 325.0 } else { 340.0 };
            study
        })
        .collect()
}

/// Most that two fields' stored losses differ by, dB, and at how many receivers; all else must be equal.
fn difference(a: &LossField, b: &LossField) -> (f64, usize) {
    assert_eq!(
        (a.study(), a.lattice(), a.rows()),
        (b.study(), b.lattice(), b.rows())
    );
    assert_eq!((a.shares(), a.listeners()), (b.shares(), b.listeners()));
    let (mut worst, mut differing) = (0.0f64, 0);
    for i in 0..a.lattice().len() {
        assert_eq!(
            (a.elev_deg(i), a.is_water(i)),
            (b.elev_deg(i), b.is_water(i)),
            "receiver {i}"
        );
        match (a.loss_db(i), b.loss_db(i)) {
            (Some(one), Some(other)) if one != other => {
                worst = worst.max((one - other).abs());
                differing += 1;
            }
            (one, other) => assert_eq!(one, other, "receiver {i}"),
        }
    }
    (worst, differing)
}

#[test]
fn many_channels_in_one_walk_equal_as_many_runs() {
    for id in ["coast", "alpine"] {
        let studies = channels(hilly_study(id).within_km(12.0), 40);
        let together = LossField::compute_each(world(id), &studies, &Control::quiet()).unwrap();
        assert_eq!(together.len(), studies.len());
        let (mut worst, mut differing) = (0.0f64, 0);
        for (study, field) in studies.iter().zip(&together) {
            let alone = compute(world(id), study);
            let (db, count) = difference(field, &alone);
            worst = worst.max(db);
            differing += count;
        }
        let losses = studies.len() * together[0].lattice().len();
        println!("{id}: {losses} losses, {differing} stored otherwise, worst {worst:.4} dB");
        // Stored in hundredths: a difference in rounding may fall to the neighbouring one.
        assert!(worst <= 0.0101, "{id}: {worst} dB");
        assert!(differing * 100_000 <= losses, "{id}: {differing} of {losses}");
    }
}

#[test]
fn the_oracle_and_the_second_opinion_give_many_channels_too() {
    for walker in [Walker::Plain, Walker::Itm(5)] {
        let base = Study {
            walker,
            ..hilly_study("coast").within_km(5.0)
        };
        let studies = channels(base, 4);
        let together = LossField::compute_each(world("coast"), &studies, &Control::quiet()).unwrap();
        for (study, field) in studies.iter().zip(&together) {
            assert!(*field == compute(world("coast"), study), "{walker:?}");
        }
    }
    assert!(
        LossField::compute_each(world("coast"), &[], &Control::quiet())
            .unwrap()
            .is_empty()
    );
}

#[test]
fn a_survey_answers_every_height_and_frequency_as_a_run_from_scratch() {
    for (id, base) in [
        ("coast", hilly_study("coast").within_km(60.0).coarse(16)),
        ("island", hilly_study("island").within_km(15.0)),
        ("alpine", hilly_study("alpine").within_km(10.0)),
    ] {
        let survey = Survey::new(world(id), &base, &Control::quiet()).unwrap();
        assert!(survey.bytes() > 0 && survey.lattice() == &base.lattice().unwrap());
        let mut other_climate = base.for_time_pct(1.0);
        other_climate.conditions.dn_per_km = 60.0;
        other_climate.conditions.freq_mhz = 107.9;
        let studies = [
            base,
            Study {
                tx_agl_m: 12.0,
                ..base
            },
            Study {
                tx_agl_m: 80.5,
                ..base
            },
            other_climate,
            Study {
                receiving: ReceivingRule::TrueHeight(1.5),
                ..base
            },
            Study {
                walker: Walker::Plain,
                ..base.within_km(base.radius_km)
            },
        ];
        for study in &studies[..if id == "coast" { 5 } else { 6 }] {
            assert!(survey.fits(study));
            let kept = LossField::from_survey(&survey, study, &Control::quiet()).unwrap();
            assert!(kept == compute(world(id), study), "{id}: {study:?}");
        }
        let many = channels(base, 5);
        let from_kept = LossField::each_from_survey(&survey, &many, &Control::quiet()).unwrap();
        let from_world = LossField::compute_each(world(id), &many, &Control::quiet()).unwrap();
        assert!(from_kept == from_world, "{id}");
        println!(
            "{id}: {} receivers, {:.1} MB",
            survey.lattice().len(),
            survey.bytes() as f64 / 1e6
        );
    }
}

#[test]
fn a_survey_across_the_antimeridian_and_the_end_of_the_tiles_is_the_same_ground() {
    let world = flat_ground(180.0);
    let site = Position::new(10.45, 179.98).unwrap();
    let study = Study::new(site, 40.0, 98.0, Polarisation::Horizontal).within_km(10.0);
    let survey = Survey::new(&world, &study, &Control::quiet()).unwrap();
    let higher = Study {
        tx_agl_m: 55.0,
        ..study
    };
    let kept = LossField::from_survey(&survey, &higher, &Control::quiet()).unwrap();
    assert!(kept == compute(&world, &higher));
    assert!(kept.shares().missing > 0.05, "the tiles end 5 km to the north");
}

/// A world that counts how often it is asked for ground.
struct Counted<'a>(&'a GroundWorld, AtomicUsize);

impl World for Counted<'_> {
    fn radial_into(
        &self,
        from: Position,
        azimuth_deg: f64,
        length_km: f64,
        step_m: f64,
        profile: &mut Profile,
    ) -> Result<(), GroundError> {
        self.1.fetch_add(1, Ordering::Relaxed);
        self.0.radial_into(from, azimuth_deg, length_km, step_m, profile)
    }

    fn path(&self, from: Position, to: Position, step_m: f64) -> Result<Profile, GroundError> {
        self.0.path(from, to, step_m)
    }

    fn spot(&self, at: Position) -> Result<Spot, GroundError> {
        self.0.spot(at)
    }

    fn clutter_table(&self) -> &ClutterTable {
        self.0.clutter_table()
    }

    fn clutter_mode(&self) -> ClutterMode {
        self.0.clutter_mode()
    }

    fn height_kind(&self) -> HeightKind {
        self.0.height_kind()
    }

    fn people(&self) -> Option<&People> {
        self.0.people()
    }

    fn places(&self) -> &[Place] {
        self.0.places()
    }

    fn feed_content(&self, feed: &mut dyn Feed) {
        self.0.feed_content(feed);
    }
}

#[test]
fn the_ground_is_read_once_for_any_number_of_channels() {
    let counted = Counted(world("rolling"), AtomicUsize::new(0));
    let study = hilly_study("rolling").within_km(5.0);
    let radials = study.lattice().unwrap().azimuths() as usize;
    LossField::compute_each(&counted, &channels(study, 7), &Control::quiet()).unwrap();
    assert_eq!(counted.1.swap(0, Ordering::Relaxed), radials);
    Survey::new(&counted, &study, &Control::quiet()).unwrap();
    // The first radial twice: its distances are everyone's.
    assert_eq!(counted.1.load(Ordering::Relaxed), radials + 1);
}

#[test]
fn any_number_of_threads_gives_the_same_bits() {
    let studies = channels(hilly_study("coast").within_km(8.0), 35);
    let on = |threads| {
        let pool = rayon::ThreadPoolBuilder::new()
            .num_threads(threads)
            .build()
            .unwrap();
        pool.install(|| {
            let survey = Survey::new(world("coast"), &studies[0], &Control::quiet()).unwrap();
            LossField::each_from_survey(&survey, &studies, &Control::quiet()).unwrap()
        })
    };
    let one = on(1);
    assert!(one == on(2) && one == on(5));
}

#[test]
fn what_cannot_be_shared_is_refused_by_name() {
    let base = hilly_study("island").within_km(5.0);
    let mut lapse = base;
    lapse.conditions.dn_per_km = 60.0;
    let elsewhere = terrain::geodesic::destination(base.site, 0.0, 100.0);
    let lattice = [
        (
            "site",
            Study {
                site: elsewhere,
                ..base
            },
        ),
        ("radius", base.within_km(6.0)),
        ("step", base.at_step_m(100.0)),
        ("azimuths", base.coarse(2)),
        (
            "azimuths",
            Study {
                azimuths: Azimuths::Count(90),
                ..base
            },
        ),
    ];
    let geometry = [
        (
            "antenna-height",
            Study {
                tx_agl_m: 31.0,
                ..base
            },
        ),
        ("lapse-rate", lapse),
        (
            "receiving-rule",
            Study {
                receiving: ReceivingRule::TrueHeight(10.0),
                ..base
            },
        ),
        (
            "walker",
            Study {
                walker: Walker::Plain,
                ..base
            },
        ),
    ];
    let survey = Survey::new(world("island"), &base, &Control::quiet()).unwrap();
    for (what, other) in lattice.iter().chain(&geometry) {
        let refused = LossField::compute_each(world("island"), &[base, *other], &Control::quiet());
        assert_eq!(refused.unwrap_err(), CoverageError::NotTogether { what });
    }
    for (what, other) in &lattice {
        assert!(!survey.fits(other));
        let refused = LossField::from_survey(&survey, other, &Control::quiet());
        assert_eq!(refused.unwrap_err(), CoverageError::OtherSurvey { what });
    }
    let itm = Study {
        walker: Walker::Itm(5),
        ..base
    };
    assert!(!survey.fits(&itm) && LossField::from_survey(&survey, &itm, &Control::quiet()).is_err());
    let impossible = Study {
        tx_agl_m: f64::NAN,
        ..base
    };
    assert!(matches!(
        LossField::from_survey(&survey, &impossible, &Control::quiet()),
        Err(CoverageError::Input(_))
    ));
}

#[test]
fn too_much_to_keep_is_refused_before_anything_is_read() {
    let counted = Counted(world("island"), AtomicUsize::new(0));
    let fine = hilly_study("island").within_km(120.0).at_step_m(30.0);
    let refused = Survey::new(&counted, &fine, &Control::quiet()).unwrap_err();
    assert!(
        matches!(refused, CoverageError::SurveyTooLarge { bytes, most } if bytes > most),
        "{refused}"
    );
    let many = channels(fine.within_km(60.0), 40);
    let refused = LossField::compute_each(&counted, &many, &Control::quiet()).unwrap_err();
    assert!(matches!(refused, CoverageError::Study { .. }), "{refused}");
    assert_eq!(counted.1.load(Ordering::Relaxed), 0);
}

#[test]
fn stopped_work_is_cancelled() {
    let base = hilly_study("rolling").within_km(5.0);
    let survey = Survey::new(world("rolling"), &base, &Control::quiet()).unwrap();
    let flag = AtomicBool::new(true);
    let control = Control {
        progress: None,
        cancel: Some(&flag),
    };
    assert_eq!(
        Survey::new(world("rolling"), &base, &control).unwrap_err(),
        CoverageError::Cancelled
    );
    let many = channels(base, 3);
    let stopped = [
        LossField::each_from_survey(&survey, &many, &control),
        LossField::compute_each(world("rolling"), &many, &control),
    ];
    for result in stopped {
        assert_eq!(result.unwrap_err(), CoverageError::Cancelled);
    }
}

#[test]
fn the_key_of_a_survey_follows_the_ground_and_the_receivers_only() {
    let key = |world: &dyn World, study: &Study| {
        let mut bytes = Vec::new();
        study.feed_survey_key(world, &mut bytes);
        bytes
    };
    let base = hilly_study("island");
    let same = Study {
        tx_agl_m: 44.0,
        receiving: ReceivingRule::TrueHeight(2.0),
        ..base.for_time_pct(1.0)
    };
    let own = key(world("island"), &base);
    assert!(own == key(world("island"), &same));
    for other in [
        base.within_km(21.0),
        base.at_step_m(91.0),
        base.coarse(2),
        Study {
            site: mast("coast").position,
            ..base
        },
    ] {
        assert!(own != key(world("island"), &other));
    }
    assert!(own != key(world("coast"), &base));
}
