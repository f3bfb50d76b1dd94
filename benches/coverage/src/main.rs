//! Prints what a coverage costs, and what each change of it costs, on an invented ground.
//!
//!     cargo run --release -- [coast|rolling|alpine|island] [radius km] [step m]
//!     cargo run --release -- together [ground] [radius km] [step m] [channels]   # many channels, other heights: against as many runs
//!     cargo run --release -- table        # 30, 60, 120 km at 90 and 30 m, with the most memory held so far

use std::time::{Duration, Instant};

use coverage::*;
use propagation::p1812::Polarisation;
use terrain::Profile;

fn main() {
    let args: Vec<String> = std::env::args().skip(1).collect();
    if args.first().is_some_and(|a| a == "table") {
        return table();
    }
    if args.first().is_some_and(|a| a == "together") {
        return together(&args[1..]);
    }
    let id = args.first().map_or("rolling", String::as_str).to_owned();
    let number = |i: usize, usual: f64| args.get(i).and_then(|a| a.parse().ok()).unwrap_or(usual);
    let (radius_km, step_m) = (number(1, 60.0), number(2, 90.0));
    let Some(world) = GroundWorld::generated(&id) else {
        eprintln!("`{id}`: expected one of {:?}", terrain::generated::IDS);
        std::process::exit(2);
    };
    // Generated grounds are tiles of limited size: beyond them is sea.
    let world = world.with_ground(|g| g.with_missing(terrain::MissingGround::TreatAsSea));
    let made = terrain::generated::by_id(&id).expect("a generated ground");
    let site = made.site("mast").unwrap_or(&made.sites[0]).position;
    let study = Study::new(site, 30.0, 98.0, Polarisation::Vertical)
        .within_km(radius_km)
        .at_step_m(step_m);
    let lattice = study.lattice().expect("a sensible study");
    let cells = std::f64::consts::PI * (radius_km * 1000.0 / step_m).powi(2);
    println!(
        "{id}, {radius_km} km at {step_m} m: {} radials, {} receivers for {cells:.0} cells ({:.3}), {} threads",
        lattice.azimuths(),
        lattice.len(),
        lattice.len() as f64 / cells,
        std::thread::available_parallelism().map_or(1, usize::from)
    );
    // The invented ground is made on first use; real tiles are read once, too.
    let (_, first) = timed(|| compute(&world, &study.coarse(16)));
    println!("ground made on first use (every 16th radial): {first:.2?}");
    let (_, ground) = timed(|| walk_ground(&world, &lattice));
    println!("positions, heights, cover, zones alone (one thread): {ground:.2?}");
    let (field, whole) = timed(|| compute(&world, &study));
    let (again, second) = timed(|| compute(&world, &study));
    assert!(field == again);
    println!(
        "loss field, full P.1812, people counted: {whole:.2?}, again {second:.2?}; {:.0} ns a receiver; {:.0} MB held",
        second.as_secs_f64() * 1e9 / lattice.len() as f64,
        field.bytes() as f64 / 1e6
    );
    let (_, coarse) = timed(|| compute(&world, &study.coarse(6)));
    println!("every 6th radial first: {coarse:.2?}");
    answers(&field);
    search(&world, study, made);
}

/// What another channel and another height cost, against runs from scratch: rounds alternating in one process, medians. Processor time
/// beside the clock's: on a busy machine it is the truer one.
fn together(args: &[String]) {
    const ROUNDS: usize = 3;
    let number = |i: usize, usual: f64| args.get(i).and_then(|a| a.parse().ok()).unwrap_or(usual);
    let id = args.first().map_or("rolling", String::as_str);
    let Some(world) = GroundWorld::generated(id) else {
        eprintln!("`{id}`: expected one of {:?}", terrain::generated::IDS);
        std::process::exit(2);
    };
    let world = world.with_ground(|g| g.with_missing(terrain::MissingGround::TreatAsSea));
    let made = terrain::generated::by_id(id).expect("a generated ground");
    let site = made.site("mast").unwrap_or(&made.sites[0]).position;
    let study = Study::new(site, 30.0, 98.0, Polarisation::Vertical)
        .within_km(number(1, 60.0))
        .at_step_m(number(2, 90.0));
    let channels = (number(3, 20.0) as u32).max(1);
    let receivers = study.lattice().expect("a sensible study").len();
    println!(
        "{id}, {} km at {} m: {receivers} receivers, {} threads, load {}",
        study.radius_km,
        study.step_m,
        std::thread::available_parallelism().map_or(1, usize::from),
        std::fs::read_to_string("/proc/loadavg")
            .unwrap_or_default()
            .trim()
    );
    compute(&world, &study.coarse(16));
    let higher = Study {
        tx_agl_m: 45.0,
        ..study
    };
    let (survey, read) = timed(|| Survey::new(&world, &study, &Control::quiet()).expect("a survey"));
    println!("survey: {read:.2?}, {:.0} MB", survey.bytes() as f64 / 1e6);
    for time_pct in [50.0, 10.0] {
        let at = |study: Study| study.for_time_pct(time_pct);
        let many: Vec<Study> = (0..channels)
            .map(|i| {
                let mut one = at(study);
                one.conditions.freq_mhz = 87.5 + 20.5 * f64::from(i) / f64::from(channels);
                one
            })
            .collect();
        let quiet = Control::quiet();
        let mut times: [Vec<Took>; 4] = Default::default();
        for _ in 0..ROUNDS {
            let (fresh, took) = clocked(|| compute(&world, &at(higher)));
            times[0].push(took);
            let (kept, took) =
                clocked(|| LossField::from_survey(&survey, &at(higher), &quiet).expect("a loss field"));
            times[1].push(took);
            assert!(fresh == kept);
            let each = || LossField::compute_each(&world, &many, &quiet).expect("loss fields");
            times[2].push(clocked(each).1);
            let each = || LossField::each_from_survey(&survey, &many, &quiet).expect("loss fields");
            times[3].push(clocked(each).1);
        }
        let [fresh, kept, all, all_kept] = times.map(median);
        println!(
            "{time_pct} % of time, medians of {ROUNDS} rounds (clock; processor; processor for a receiver and field; share):"
        );
        let line = |what: &str, took: Took, fields: f64| {
            println!(
                "  {what:38} {:7.3} s {:7.2} s {:5.0} ns  {:.2} of as many runs by the clock, {:.2} by the processor",
                took.clock_s,
                took.processor_s,
                took.processor_s * 1e9 / (receivers as f64 * fields),
                took.clock_s / (fields * fresh.clock_s),
                took.processor_s / (fields * fresh.processor_s),
            );
        };
        line("one height from scratch", fresh, 1.0);
        line("another height from the survey", kept, 1.0);
        line(&format!("{channels} channels together"), all, f64::from(channels));
        line(
            &format!("{channels} channels from the survey"),
            all_kept,
            f64::from(channels),
        );
    }
}

/// What some work took: by the clock, and of all processors together (NaN where the kernel does not tell).
#[derive(Clone, Copy)]
struct Took {
    clock_s: f64,
    processor_s: f64,
}

fn clocked<T>(work: impl FnOnce() -> T) -> (T, Took) {
    let before = processor_s();
    let (out, time) = timed(work);
    let took = Took {
        clock_s: time.as_secs_f64(),
        processor_s: processor_s() - before,
    };
    (out, took)
}

/// Processor time of all threads so far, s, in the kernel's ticks of 10 ms: fields 14 and 15 of /proc/self/stat, proc(5).
fn processor_s() -> f64 {
    let stat = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let after_name = stat.rsplit(')').next().unwrap_or_default();
    let ticks = |i: usize| -> f64 {
        let field = after_name.split_whitespace().nth(i);
        field.and_then(|t| t.parse().ok()).unwrap_or(f64::NAN)
    };
    (ticks(11) + ticks(12)) / 100.0
}

fn median(mut times: Vec<Took>) -> Took {
    let middle = times.len() / 2;
    times.sort_by(|a, b| a.processor_s.total_cmp(&b.processor_s));
    let processor_s = times[middle].processor_s;
    times.sort_by(|a, b| a.clock_s.total_cmp(&b.clock_s));
    Took {
        clock_s: times[middle].clock_s,
        processor_s,
    }
}

/// Loss fields by radius and step, the smaller ones first so that the memory is each one's own.
fn table() {
    let made = terrain::generated::rolling_plain();
    let world = GroundWorld::generated("rolling")
        .expect("a generated ground")
        .with_ground(|g| g.with_missing(terrain::MissingGround::TreatAsSea));
    let site = made.site("mast").unwrap_or(&made.sites[0]).position;
    let study = |radius_km, step_m| {
        Study::new(site, 30.0, 98.0, Polarisation::Vertical)
            .within_km(radius_km)
            .at_step_m(step_m)
    };
    compute(&world, &study(120.0, 90.0).coarse(16));
    println!("radius  step  receivers      time  ns/receiver  most memory so far");
    for (radius_km, step_m) in [
        (30.0, 90.0),
        (60.0, 90.0),
        (120.0, 90.0),
        (30.0, 30.0),
        (60.0, 30.0),
        (120.0, 30.0),
    ] {
        let (field, time) = timed(|| compute(&world, &study(radius_km, step_m)));
        let receivers = field.lattice().len();
        println!(
            "{radius_km:4} km  {step_m} m  {receivers:9}  {:7.3} s  {:11.0}  {}",
            time.as_secs_f64(),
            time.as_secs_f64() * 1e9 / receivers as f64,
            most_memory()
        );
    }
}

/// The most memory the process has held, as the kernel tells it; nothing where there is no such file.
fn most_memory() -> String {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find(|l| l.starts_with("VmHWM"));
    line.map_or("not known".into(), |l| l["VmHWM:".len()..].trim().to_owned())
}

fn answers(field: &LossField) {
    let erp = ErpTable::omni(0.5);
    let wanted = Wanted::bs412(Mode::Stereo, Situation::Car);
    let (served, full) = timed(|| field.served(&erp, &wanted).expect("served"));
    println!(
        "people and land served, full sum: {full:.2?} ({:.0} of {:.0} people, {:.0} km²)",
        served.people, served.people_total, served.land_km2
    );
    let (index, made) = timed(|| CoverageIndex::new(field, &wanted).expect("index"));
    let aim = index.aim(&erp);
    let (again, sum) = quickest(|k| index.people_at(&aim, f64::from(k) * 0.01));
    let louder: Vec<ErpTable> = (0..8)
        .map(|k| ErpTable::from_fn(|a, e| 0.01 * f64::from(k) * a.cos() - e.abs()))
        .collect();
    let (other, _) = quickest(|k| index.people(&louder[k as usize % 8]));
    println!(
        "index: made in {made:.2?}, {} directions; a sum at another power {again:.2?}, with another pattern {other:.2?} ({:.4} of the full sum) [{sum:.0}]",
        index.directions(),
        index.people(&erp) / served.people
    );
    let (raster, painted) = timed(|| {
        field
            .raster(&erp, &Paint::Field(Situation::Roof), field.lattice().step_m())
            .expect("raster")
    });
    let (_, outlined) = timed(|| contours(&raster, &[48.0, 54.0, 60.0, 66.0]).expect("contours"));
    println!(
        "raster of {} × {}: {painted:.2?}; four outlines: {outlined:.2?}",
        raster.grid.width(),
        raster.grid.height()
    );
    let (bytes, written) = timed(|| field.to_bytes());
    let (_, read) = timed(|| LossField::from_bytes(&bytes).expect("bytes"));
    println!(
        "stored: {:.1} MB, written {written:.2?}, read {read:.2?}",
        bytes.len() as f64 / 1e6
    );
}

fn search(world: &GroundWorld, study: Study, made: &terrain::generated::GeneratedGround) {
    let mut targets: Vec<Target> = made
        .places
        .iter()
        .map(|p| Target {
            position: p.position,
            people: p.people.unwrap_or(100.0),
            surroundings: p.surroundings,
            wanted: Wanted::bs412(Mode::Stereo, Situation::Roof),
        })
        .collect();
    // Up to 20: hamlets between the named places, by a stated rule, so that the count is the promise's.
    let mut k = 0.0;
    while targets.len() < 20 {
        let position = terrain::geodesic::destination(study.site, k * 137.5, 2000.0 + 700.0 * k);
        targets.push(Target {
            position,
            people: 50.0,
            surroundings: terrain::Surroundings::Rural,
            wanted: Wanted::bs412(Mode::Stereo, Situation::Roof),
        });
        k += 1.0;
    }
    targets.truncate(20);
    let search = Search {
        targets,
        study,
        erp_kw: 0.5,
        cell_m: study.step_m,
        best: 10,
        apart_km: 2.0,
    };
    let (found, time) = timed(|| best_masts(world, &search, &Control::quiet()).expect("masts"));
    let cells = found.people.iter().filter(|p| !p.is_nan()).count();
    println!(
        "where: {} places, {cells} cells on land of {}: {time:.2?}; best {:.0} people from {:.0} m",
        search.targets.len(),
        found.people.len(),
        found.best.first().map_or(0.0, |b| b.people),
        found.best.first().map_or(0.0, |b| b.ground_m)
    );
}

fn compute(world: &dyn World, study: &Study) -> LossField {
    LossField::compute(world, study, &Control::quiet()).expect("a loss field")
}

fn walk_ground(world: &dyn World, lattice: &Lattice) -> f64 {
    let mut profile = Profile::default();
    let mut sum = 0.0;
    for radial in 0..lattice.azimuths() {
        world
            .radial_into(
                lattice.site(),
                lattice.azimuth_deg(radial),
                lattice.radius_km() + 1e-6,
                lattice.step_m(),
                &mut profile,
            )
            .expect("a radial");
        sum += profile.heights_m.iter().sum::<f64>();
    }
    sum
}

/// Time of one call: the quickest of 40 batches of 100, which other work on the machine disturbs least.
fn quickest(work: impl Fn(u32) -> f64) -> (Duration, f64) {
    let mut sum = 0.0;
    let batch = |sum: &mut f64| timed(|| *sum += (0..100).map(&work).sum::<f64>()).1 / 100;
    let best = (0..40).map(|_| batch(&mut sum)).min().unwrap_or_default();
    (best, sum)
}

fn timed<T>(work: impl FnOnce() -> T) -> (T, Duration) {
    let start = Instant::now();
    let out = std::hint::black_box(work());
    (out, start.elapsed())
}
