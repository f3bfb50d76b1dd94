//! Seeded stations with one fault or none, read with noise, and what the ranking makes of them. Truth is wires solved for each
//! station as it was built; the library is the drawing, as wires and then by the array model, to show what that costs.
//!
//!     cargo run --release -q -p antenna --example fault_bench [stations] [dB, of 1 and 2]

use std::collections::BTreeMap;

use antenna::fault::{Fault, FaultKind, Noise};
use rayon::prelude::*;

mod best;
#[path = "../../tests/shared/stations.rs"]
#[allow(dead_code, reason = "the tests use the rest")]
mod stations;

use best::{Class, Compared, compared};
use stations::{Case, Fallible, Known, Outcome, PART_AT, case_and_station, outcomes};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let count: u64 = std::env::args().nth(1).map_or(Ok(200), |a| a.parse())?;
    let only_db: Option<f64> = std::env::args().nth(2).map(|a| a.parse()).transpose()?;
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
        let plans: Vec<_> = plans
            .iter()
            .copied()
            .filter(|p| only_db.is_none_or(|db| p.0 == db))
            .collect();
        let driven: Vec<Driven> = (0..count)
            .into_par_iter()
            .map(|seed| driven(seed, known, &plans).map_err(|e| e.to_string()))
            .collect::<Result<_, _>>()?;
        for (at, (sigma_db, counts)) in plans.iter().enumerate() {
            let of_plan: Vec<&Vec<Outcome>> = driven.iter().map(|d| &d.outcomes[at]).collect();
            report(&of_plan, *sigma_db, counts);
        }
        if known == Known::Wires && plans.first().is_some_and(|p| p.0 == 1.0) {
            narrower(&driven);
        }
        for (at, points) in BEST_AT.into_iter().enumerate() {
            let compared: Vec<&Compared> = driven
                .iter()
                .filter_map(|d| d.compared.get(at))
                .flatten()
                .collect();
            best_of(&compared, points);
        }
        let bays: Vec<usize> = driven.iter().map(|d| d.bays).collect();
        for shown in [4, 8]
            .map(|n| bays.iter().position(|b| *b == n))
            .into_iter()
            .flatten()
        {
            if driven[shown].classes.is_empty() {
                continue;
            }
            println!("\non a station of {} bays no 8 points part at 1 dB:", bays[shown]);
            let several = driven[shown].classes.iter().filter(|c| c.0.len() > 1);
            several.for_each(|(kinds, _)| println!("  {kinds:?}"));
        }
        println!("\nafter {:.1} s", started.elapsed().as_secs_f64());
    }
    Ok(())
}

/// The first plan's first count by stricter rules: the kind itself, and fixed classes of which no two can be parted.
fn narrower(driven: &[Driven]) {
    let named = driven
        .iter()
        .filter(|d| d.outcomes[0][0].said == d.outcomes[0][0].truth)
        .count();
    let in_class = |d: &&Driven| {
        let o = &d.outcomes[0][0];
        let class = d.classes.iter().find(|c| c.1.contains(&o.first));
        class.is_some_and(|c| c.0.contains(&o.truth))
    };
    println!(
        "\nsigma 1 dB, 8 points: the true kind itself first {named}/{}; by fixed classes, of which no two can be parted {}/{}",
        driven.len(),
        driven.iter().filter(in_class).count(),
        driven.len()
    );
}

/// Points at 1 dB for which the best answer is sought.
const BEST_AT: [usize; 1] = [8];

/// What came of one station.
struct Driven {
    /// For each plan one for each count of points.
    outcomes: Vec<Vec<Outcome>>,
    compared: Vec<Vec<Compared>>,
    bays: usize,
    classes: Vec<Class>,
}

fn driven(seed: u64, known: Known, plans: &[(f64, &[usize])]) -> Fallible<Driven> {
    let (case, of) = case_and_station(seed, known)?;
    let outcomes = plans
        .iter()
        .map(|(sigma_db, counts)| outcomes(&case, *sigma_db, counts, seed))
        .collect();
    let classes = match known {
        Known::Wires => classes(&case),
        Known::Array => Vec::new(),
    };
    // On every other station: it takes as long as all the rest.
    let sought = known == Known::Wires && seed.is_multiple_of(2) && plans.iter().any(|p| p.0 == 1.0);
    let of_wires = BEST_AT.into_iter().filter(|_| sought);
    Ok(Driven {
        outcomes,
        compared: of_wires
            .map(|points| compared(&case, &of, 1.0, points, seed, &classes))
            .collect::<Fallible<_>>()?,
        bays: of.aerial.bays(),
        classes,
    })
}

/// Truths from the library's own model: ours and the best answer there is.
fn best_of(compared: &[&Compared], points: usize) {
    if compared.is_empty() {
        return;
    }
    let pct = |right: &dyn Fn(&Compared) -> bool, of: &dyn Fn(&Compared) -> bool| {
        let those: Vec<_> = compared.iter().filter(|c| of(c)).collect();
        100.0 * those.iter().filter(|c| right(c)).count() as f64 / those.len().max(1) as f64
    };
    let (any, faulty) = (|_: &Compared| true, |c: &Compared| c.truth != FaultKind::Healthy);
    println!(
        "\nsigma 1 dB, {points} points, {} truths drawn from the library's own model: ours right first {:.1} % (of the faulty {:.1} %), \
         best any ranking could do with these readings {:.1} % ({:.1} %); by fixed classes ours {:.1} %, best {:.1} %",
        compared.len(),
        pct(&|c| c.ours, &any),
        pct(&|c| c.ours, &faulty),
        pct(&|c| c.best, &any),
        pct(&|c| c.best, &faulty),
        pct(&|c| c.ours_by_class, &any),
        pct(&|c| c.best_by_class, &any),
    );
}

fn report(driven: &[&Vec<Outcome>], sigma_db: f64, counts: &[usize]) {
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
        "\nsigma {sigma_db} dB, {points} points: right first {right}/{} = {:.1} % (in {alone} of them no other \
         is listed with it); false alarms {}/{healthy}; faults that a reading can show {seen_right}/{seen} = {:.1} %; {hidden} drawn faults \
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

/// Kinds of fault in each class, and its members: any two of a class are such that no 8 points part them at 1 dB.
fn classes(case: &Case) -> Vec<Class> {
    let (library, noise) = (&case.library, Noise::even(1.0, case.library.points().len()));
    let of_class = |class: Vec<usize>| {
        let faults: Vec<Fault> = class.into_iter().map(|i| library.faults()[i]).collect();
        (faults.iter().map(Fault::kind).collect(), faults)
    };
    library
        .classes(8, &noise, PART_AT)
        .into_iter()
        .map(of_class)
        .collect()
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
