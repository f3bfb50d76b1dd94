//! Seeded stations with one fault or none, read with noise, and what the ranking makes of them. Truth is wires solved for each
//! station as it was built; the library is the drawing, as wires and then by the array model, to show what that costs.
//!
//!     cargo run --release -q -p antenna --example fault_bench [stations]

use std::collections::BTreeMap;

use antenna::fault::{Fault, FaultKind, Noise};

#[path = "../tests/shared/stations.rs"]
#[allow(dead_code, reason = "the tests use the rest")]
mod stations;

use stations::{Case, Known, Outcome, PART_AT, case, outcomes};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let count = std::env::args().nth(1).map_or(Ok(200), |a| a.parse())?;
    let started = std::time::Instant::now();
    for (known, what) in [
        (Known::Wires, "the drawing as wires"),
        (Known::Array, "the drawing by the array model"),
    ] {
        println!("== library: {what}; {count} stations (invented, seeded)");
        // The array model's cost shows at 1 dB.
        let plans: &[(f64, &[usize])] = match known {
            Known::Wires => &[(1.0, &[8, 16]), (2.0, &[8, 16, 24, 32, 48, 64])],
            Known::Array => &[(1.0, &[8, 16])],
        };
        let mut driven: Vec<Vec<Vec<Outcome>>> = plans.iter().map(|_| Vec::new()).collect();
        let mut shown = Vec::new();
        for seed in 0..count {
            let case = case(seed, known)?;
            for ((sigma_db, counts), driven) in plans.iter().zip(&mut driven) {
                driven.push(outcomes(&case, *sigma_db, counts, seed));
            }
            if known == Known::Wires {
                classes_of_example(&case, &mut shown);
            }
        }
        for ((sigma_db, counts), driven) in plans.iter().zip(&driven) {
            report(driven, *sigma_db, counts);
        }
        println!("\nafter {:.1} s", started.elapsed().as_secs_f64());
    }
    Ok(())
}

fn report(driven: &[Vec<Outcome>], sigma_db: f64, counts: &[usize]) {
    for (at, points) in counts.iter().enumerate() {
        let outcomes: Vec<&Outcome> = driven.iter().map(|d| &d[at]).collect();
        figures(&outcomes, sigma_db, *points);
        if at == 0 {
            confusion(&outcomes);
        }
    }
}

fn figures(outcomes: &[&Outcome], sigma_db: f64, points: usize) {
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
        outcomes.len(),
        100.0 * right as f64 / outcomes.len() as f64,
        count(&|o| o.truth == FaultKind::Healthy && !o.right),
        100.0 * seen_right as f64 / seen.max(1) as f64,
    );
}

fn confusion(outcomes: &[&Outcome]) {
    let mut table: BTreeMap<(&str, String), usize> = BTreeMap::new();
    for o in outcomes {
        let said = if o.right {
            "right".to_owned()
        } else if name(&o.said) == name(&o.truth) {
            format!("{} (other place)", name(&o.said))
        } else {
            name(&o.said).to_owned()
        };
        *table.entry((name(&o.truth), said)).or_default() += 1;
    }
    println!("  true             -> said first");
    for ((truth, said), count) in table {
        println!("  {truth:16} -> {said:32} {count}");
    }
}

/// What no reading parts on the first station of four bays and on the first of eight.
fn classes_of_example(case: &Case, shown: &mut Vec<usize>) {
    let inverted = |f: &&Fault| matches!(f, Fault::UpsideDown { .. });
    let bays = case.library.faults().iter().filter(inverted).count();
    if shown.contains(&bays) || ![4, 8].contains(&bays) {
        return;
    }
    shown.push(bays);
    println!("\nclasses of a station of {bays} bays that no 8 points part at 1 dB:");
    let noise = Noise::even(1.0, case.library.points().len());
    for class in case.library.classes(8, &noise, PART_AT) {
        let kinds: std::collections::BTreeSet<FaultKind> =
            class.iter().map(|&i| case.library.faults()[i].kind()).collect();
        if kinds.len() > 1 {
            println!("  {kinds:?}");
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
