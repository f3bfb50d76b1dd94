//! Seeded stations with one fault or none, read with noise, and what the ranking makes of them.
//!
//!     cargo run --release -q -p antenna --example fault_bench [stations]

use std::collections::BTreeMap;

use antenna::fault::{Fault, FaultKind};

#[path = "../tests/shared/stations.rs"]
mod stations;

use stations::{Case, Outcome, PART_AT, case, outcome};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let stations = std::env::args().nth(1).map_or(Ok(200), |a| a.parse())?;
    let started = std::time::Instant::now();
    let cases: Vec<Case> = (0..stations).map(case).collect::<Result<_, _>>()?;
    println!(
        "{stations} stations (invented, seeded), libraries made in {:.1} s",
        started.elapsed().as_secs_f64()
    );
    for (sigma_db, counts) in [(1.0, vec![8, 16]), (2.0, vec![8, 16, 24, 32, 48, 64])] {
        for points in counts {
            report(&cases, sigma_db, points);
        }
    }
    classes_of_example(&cases);
    println!("in {:.1} s", started.elapsed().as_secs_f64());
    Ok(())
}

fn report(cases: &[Case], sigma_db: f64, points: usize) {
    let outcomes: Vec<Outcome> = cases
        .iter()
        .enumerate()
        .map(|(i, c)| outcome(c, sigma_db, points, i as u64))
        .collect();
    let count = |test: &dyn Fn(&Outcome) -> bool| outcomes.iter().filter(|o| test(o)).count();
    let healthy = count(&|o| o.truth == FaultKind::Healthy);
    let hidden = count(&|o| o.truth != FaultKind::Healthy && o.hidden);
    let seen = count(&|o| o.truth != FaultKind::Healthy && !o.hidden);
    let seen_right = count(&|o| o.truth != FaultKind::Healthy && !o.hidden && o.right);
    let alone = count(&|o| o.right && o.class_kinds == 1);
    let right = count(&|o| o.right);
    println!(
        "\nsigma {sigma_db} dB, {points} points: right class first {right}/{} = {:.1} % (in {alone} of them the class is one \
         fault); false alarms {}/{healthy}; faults that a reading can show {seen_right}/{seen} = {:.1} %; {hidden} drawn faults \
         no reading parts from healthy",
        cases.len(),
        100.0 * right as f64 / cases.len() as f64,
        count(&|o| o.truth == FaultKind::Healthy && !o.right),
        100.0 * seen_right as f64 / seen.max(1) as f64,
    );
    if points != 8 {
        return;
    }
    let mut confusion: BTreeMap<(&str, String), usize> = BTreeMap::new();
    for o in &outcomes {
        let said = if o.right {
            "right".to_owned()
        } else if name(&o.said) == name(&o.truth) {
            format!("{} (other place)", name(&o.said))
        } else {
            name(&o.said).to_owned()
        };
        *confusion.entry((name(&o.truth), said)).or_default() += 1;
    }
    println!("  true             -> said first");
    for ((truth, said), count) in confusion {
        println!("  {truth:16} -> {said:32} {count}");
    }
}

fn classes_of_example(cases: &[Case]) {
    for bays in [4usize, 8] {
        let kinds_of = |c: &Case| {
            c.library
                .faults()
                .iter()
                .filter(|f| matches!(f, Fault::UpsideDown { .. }))
                .count()
        };
        let Some(case) = cases.iter().find(|c| kinds_of(c) == bays) else {
            continue;
        };
        println!("\nclasses of a station of {bays} bays that no 8 points part at 1 dB:");
        for class in case.library.classes(8, 1.0, PART_AT) {
            let kinds: std::collections::BTreeSet<FaultKind> =
                class.iter().map(|&i| case.library.faults()[i].kind()).collect();
            if kinds.len() > 1 {
                println!("  {kinds:?}");
            }
        }
    }
}

fn name(kind: &FaultKind) -> &'static str {
    match kind {
        FaultKind::Healthy => "healthy",
        FaultKind::UpsideDown(_) => "upside down",
        FaultKind::DeadBay(_) => "dead bay",
        FaultKind::Swapped(..) => "swapped cables",
        FaultKind::WrongVelocity(_) => "wrong velocity",
        FaultKind::WaterInFeeder => "water in feeder",
        FaultKind::WaterInBranch(_) => "water in branch",
        FaultKind::Detuned(_) => "detuned",
    }
}
