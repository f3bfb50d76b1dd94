//! Prints what a station costs to work out: one evaluation, one explanation, one plan, one offer as PDF.
//!
//!     STATIONWRIGHT_WITHOUT_PAGE=1 cargo run --release -p station-bench [-- FOLDER...]
//!
//! Without a folder: the demo. Loss fields are computed once before the clock starts; a plan starts without any of the heights it
//! tries. The yardstick in the same run is one loss field, the slow part that all the rest is spared.

use coverage::{Control, CoverageError, LossField, Study, World};
use folder::StationFile;
use stationwright::office::{Office, read, today};
use std::path::Path;
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

const ROUNDS: usize = 9;

fn main() {
    let mut folders: Vec<String> = std::env::args().skip(1).collect();
    if folders.is_empty() {
        folders.push(concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples/orrenay").to_owned());
    }
    for folder in &folders {
        if let Err(why) = bench(Path::new(folder)) {
            eprintln!("{folder}: {why}");
            std::process::exit(2);
        }
    }
}

/// Fields in memory only, so that a plan pays for each height once.
#[derive(Default)]
struct Kept(Mutex<Vec<(Study, Arc<LossField>)>>);

impl assess::FieldStore for Kept {
    fn field(
        &self,
        world: &dyn World,
        study: &Study,
        control: &Control,
    ) -> Result<Arc<LossField>, CoverageError> {
        if let Some((_, field)) = self
            .0
            .lock()
            .expect("no thread died")
            .iter()
            .find(|(known, _)| known == study)
        {
            return Ok(field.clone());
        }
        let field = Arc::new(LossField::compute(world, study, control)?);
        self.0
            .lock()
            .expect("no thread died")
            .push((*study, field.clone()));
        Ok(field)
    }
}

fn bench(path: &Path) -> Result<(), Box<dyn std::error::Error>> {
    let file = StationFile::open(path)?;
    let document = read(&file)?;
    let office = Office::open(file.folder(), document, today())?;
    let filled = station::assumptions::fill(document);
    let model =
        station::Station::read(&filled).map_err(|_| "the station has faults; assess it to see them")?;
    let case = office.case(document, &filled, &model);
    println!("{}", model.name);

    let kept = Kept::default();
    let (fields, first) = timed(|| assess::Fields::prepare(&case, &kept, &Control::quiet()));
    let fields = fields?;
    println!("  loss fields, nothing cached      {first:>12.2?}   the yardstick");
    let evaluation = median(|| drop(std::hint::black_box(assess::evaluate(&case, &fields))));
    line("one evaluation", evaluation, first);
    let outcome = assess::evaluate(&case, &fields);
    let explanation = median(|| drop(std::hint::black_box(assess::explain(&case, &outcome, "bench"))));
    line("figures and findings of it", explanation, first);
    let (plan, planning) = timed(|| {
        planner::plan(&planner::Task {
            case,
            store: &Kept::default(),
            control: &Control::quiet(),
        })
    });
    match plan {
        Ok(plan) => {
            let counted = plan.looked_at;
            line("one plan, its fields included", planning, first);
            println!(
                "    {} designs, {} possible, {} evaluated in full",
                counted.designs, counted.possible, counted.evaluated
            );
        }
        Err(why) => println!("  no plan: {why}"),
    }
    let assessed = office.assess(document, "bench", &Control::quiet())?;
    let out = std::env::temp_dir().join(format!("station-bench-{}", std::process::id()));
    let pdf = |rounds| {
        (0..rounds)
            .map(|_| {
                let (written, time) = timed(|| {
                    stationwright::commands::papers::write(&office, &assessed, &out, |p| {
                        p.file == "offer.pdf"
                    })
                });
                written.map(|_| time)
            })
            .last()
            .expect("at least one round")
    };
    line("one offer as PDF, map drawn, first", pdf(1)?, first);
    line("the same again", pdf(3)?, first);
    std::fs::remove_dir_all(&out)?;
    Ok(())
}

fn line(what: &str, time: Duration, yardstick: Duration) {
    let ratio = time.as_secs_f64() / yardstick.as_secs_f64();
    println!("  {what:<33}{time:>12.2?}   {ratio:>8.4} of the yardstick");
}

fn timed<T>(work: impl FnOnce() -> T) -> (T, Duration) {
    let start = Instant::now();
    let done = work();
    (done, start.elapsed())
}

fn median(mut work: impl FnMut()) -> Duration {
    let mut times: Vec<Duration> = (0..ROUNDS).map(|_| timed(&mut work).1).collect();
    times.sort();
    times[ROUNDS / 2]
}
