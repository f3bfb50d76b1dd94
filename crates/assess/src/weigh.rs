//! What a remedy would change, and what each assumption is worth: the station evaluated again with an edit applied.

use crate::assessment::{Assessment, RankedAssumption};
use crate::case::{Case, Fields};
use crate::figure::Value;
use crate::finding::{Effect, Finding, Remedy};
use crate::outcome::{Outcome, evaluate};
use crate::proofs::coverage::study;
use crate::rules::shelf_moves::budget_gap;
use crate::rules::{self, Look};
use crate::unit::Unit;
use coverage::{Control, CoverageError, Progress};
use quantity::Decimal;
use rayon::prelude::*;
use station::{Edit, Node, Station};
use std::sync::atomic::{AtomicU64, Ordering};

/// Weighs the remedies of every finding and ranks the assumptions, worst first. The watcher is told after each remedy and
/// assumption.
///
/// # Errors
/// [`CoverageError::Cancelled`]: stopped; what was weighed so far stands, the rest is unknown.
pub fn weigh(
    case: &Case,
    fields: &Fields,
    outcome: &Outcome,
    assessment: &mut Assessment,
    control: &Control,
) -> Result<(), CoverageError> {
    let remedies: usize = assessment.findings.iter().map(|f| f.remedies.len()).sum();
    let pieces = Pieces {
        control,
        total: (remedies + assessment.assumptions.len()) as u64,
        done: AtomicU64::new(0),
    };
    assessment.findings.par_iter_mut().for_each(|finding| {
        let (code, tag) = (finding.code, finding.tag.clone());
        for remedy in &mut finding.remedies {
            pieces.one(|| remedy.effect = effect(case, fields, outcome, code, &tag, remedy));
        }
    });
    assessment
        .assumptions
        .par_iter_mut()
        .for_each(|ranked| pieces.one(|| rank(case, fields, ranked)));
    assessment
        .assumptions
        .sort_by(|a, b| worth(b).total_cmp(&worth(a)));
    if pieces.stopped() {
        return Err(CoverageError::Cancelled);
    }
    Ok(())
}

/// Evaluations one by one, each told when it is done, none begun once they are stopped.
struct Pieces<'a> {
    control: &'a Control<'a>,
    total: u64,
    done: AtomicU64,
}

impl Pieces<'_> {
    fn stopped(&self) -> bool {
        self.control
            .cancel
            .is_some_and(|flag| flag.load(Ordering::Relaxed))
    }

    fn one(&self, piece: impl FnOnce()) {
        if self.stopped() {
            return;
        }
        piece();
        let done = self.done.fetch_add(1, Ordering::Relaxed) + 1;
        if let Some(tell) = self.control.progress {
            tell(Progress {
                done,
                total: self.total,
                left: None,
            });
        }
    }
}

/// A station with edits applied, read again with its assumptions.
pub(crate) fn edited(case: &Case, edits: &[Edit]) -> Option<(Node, Node, Station)> {
    let mut file = case.file.clone();
    for edit in edits {
        edit.apply(&mut file).ok()?;
    }
    let document = station::assumptions::fill(&file);
    let station = Station::read(&document).ok()?;
    Some((file, document, station))
}

/// Evaluates an edited station. Loss fields are kept where the edit leaves their study alone; where it does not, the
/// people it serves stay unknown, as a field takes too long for a guess.
fn again(case: &Case, fields: &Fields, edits: &[Edit]) -> Option<(Outcome, Vec<Finding>, bool)> {
    let (file, document, station) = edited(case, edits)?;
    let other = Case {
        file: &file,
        document: &document,
        station: &station,
        ..*case
    };
    let mut kept = Fields::default();
    let mut whole = true;
    for emission in &station.emissions {
        let before = case.station.emission(&emission.tag).and_then(|e| study(case, e));
        match fields.by_emission.get(&emission.tag) {
            Some(field) if before == study(&other, emission) => {
                kept.by_emission.insert(emission.tag.clone(), field.clone());
            }
            _ => whole = false,
        }
    }
    let outcome = evaluate(&other, &kept);
    let findings = rules::run(&Look {
        case: &other,
        outcome: &outcome,
    });
    Some((outcome, findings, whole))
}

fn effect(
    case: &Case,
    fields: &Fields,
    outcome: &Outcome,
    code: &str,
    tag: &str,
    remedy: &Remedy,
) -> Option<Effect> {
    let (after, findings, whole) = again(case, fields, &remedy.edits)?;
    let price = after
        .money
        .capital
        .checked_sub(outcome.money.capital)
        .map(Value::Money);
    let people = (whole && !fields.by_emission.is_empty())
        .then(|| Some(Value::of(people(&after)? - people(outcome)?, Unit::People)))
        .flatten();
    let dearer = after.money.capital.amount > outcome.money.capital.amount;
    let over_budget = after
        .money
        .budget
        .filter(|(_, left)| dearer && left.amount < Decimal::ZERO)
        .map(|(_, left)| Value::Money(budget_gap(left)));
    Some(Effect {
        price,
        over_budget,
        people,
        mends: !findings.iter().any(|f| f.code == code && f.tag == tag),
    })
}

/// People with stereo on the roof, first emission.
fn people(outcome: &Outcome) -> Option<f64> {
    outcome
        .coverage
        .emissions
        .first()?
        .served
        .first()
        .map(|row| row.people)
}

/// Least margin of the wanted places, dB.
fn worst_margin(outcome: &Outcome) -> Option<f64> {
    outcome
        .coverage
        .wanted
        .iter()
        .filter_map(|w| w.margin_db())
        .reduce(f64::min)
}

fn rank(case: &Case, fields: &Fields, ranked: &mut RankedAssumption) {
    let assumption = &ranked.assumption;
    let (Some(low), Some(high)) = (&assumption.low, &assumption.high) else {
        return;
    };
    let at = |value: &serde_json::Value| {
        again(case, fields, &[case.set(assumption.path.clone(), value.clone())])
            .map(|(outcome, _, _)| outcome)
    };
    let (Some(low), Some(high)) = (at(low), at(high)) else {
        return;
    };
    let real = |d: f64| (d.abs() > 1e-9).then_some(d);
    ranked.field_db = worst_margin(&high)
        .zip(worst_margin(&low))
        .map(|(h, l)| h - l)
        .and_then(real);
    ranked.people = people(&high).zip(people(&low)).map(|(h, l)| h - l).and_then(real);
    let worth = |o: &Outcome| o.money.over_years.to_f64();
    ranked.money = real(worth(&high) - worth(&low));
}

/// One number to rank by: a decibel, a hundredth of the people served and a thousand of money weigh alike.
fn worth(ranked: &RankedAssumption) -> f64 {
    ranked.field_db.map_or(0.0, f64::abs)
        + ranked.people.map_or(0.0, |p| p.abs() / 100.0)
        + ranked.money.map_or(0.0, |m| m.abs() / 1000.0)
}
