//! What the money that is there buys now: on the air first, then things in the order in which they are missed; and what the
//! next money buys.
//!
//! How much a thing is missed is what the whole design's findings say without it. What law, safety or the supply forbid to go without
//! is never put off: where the money does not buy it, nothing goes on the air.

use crate::air;
use crate::answer::{Now, Step};
use crate::course::{Phase, Steps};
use crate::draft::Draft;
use crate::missed::{Missed, ORDER, Part, draft_of, findings, parts, put_off};
use crate::options::AirChoice;
use crate::plan::PlanError;
use crate::sample::Sample;
use crate::search::{Depth, Search};
use crate::trial::{Text, Trial};
use assess::proofs::{energy, money, transmission};
use quantity::{Decimal, Money};
use station::shelf::ItemKind;

/// Smaller ways into the air that are evaluated where the chosen one costs more than there is.
const SMALLER_TRIED: usize = 60;

/// A way into the air without anything that may wait, with and without its reserve transmitter.
struct Bare {
    with: Draft,
    without: Draft,
}

/// The best station for a budget below the price of a design, and what the next money buys.
///
/// # Errors
/// [`PlanError`]: cancelled, or a document that cannot be changed.
pub fn now(
    search: &Search,
    choice: &AirChoice,
    chosen: &Trial,
    budget: Money,
) -> Result<Option<Now>, PlanError> {
    let of_choice = |s: &&Sample| s.bays == choice.bays && (s.height_m - choice.height_m).abs() < 1e-9;
    let Some(at) = search.samples.iter().find(of_choice) else {
        return Ok(None);
    };
    let parts = parts(search, choice, chosen, at)?;
    let steps = search.course.phase(Phase::Now, 2 * parts.len() + SMALLER_TRIED);
    let must: Vec<(Part, u32)> = parts
        .iter()
        .filter(|p| p.missed.0 == Missed::Forbidden)
        .map(|p| (p.clone(), p.count))
        .collect();
    let whole = priced(search, choice, at, &must)?;
    let (air, bare, mut spent) = match whole {
        Some((bare, price)) if !exceeds(price, budget) => (None, bare, price),
        too_dear => match smaller_air(search, choice, &must, budget, &steps)? {
            Ok((other, bare, price)) => (Some(other), bare, price),
            Err(least) => {
                let must = too_dear.map_or_else(Vec::new, |(bare, _)| bill(search, &bare, &must));
                return Ok(least.map(|least| Now::nothing(least, must)));
            }
        },
    };
    let mut taken = must;
    let mut bought = bill(search, &bare, &taken);
    let mut waiting = Vec::new();
    for part in parts.iter().filter(|p| p.missed.0 != Missed::Forbidden) {
        search.course.check()?;
        steps.one_more();
        // As many as the money still buys.
        let got = (1..=part.count).rev().find_map(|count| {
            let mut more = taken.clone();
            more.push((part.clone(), count));
            let price = price_of(search, &built(&bare, &more)?)?;
            (!exceeds(price, budget)).then_some((count, more, price))
        });
        let count = got.as_ref().map_or(0, |(count, ..)| *count);
        if let Some((count, more, price)) = got {
            bought.push(step(part, count, spent, price));
            (taken, spent) = (more, price);
        }
        if count < part.count {
            waiting.push((part.clone(), count));
        }
    }
    let Some(draft) = built(&bare, &taken) else {
        return Ok(None);
    };
    let next = next(search, &bare, &taken, waiting, &steps)?;
    let (found, whole) = (findings(search, &draft), findings(search, &draft_of(chosen)));
    Ok(Some(Now {
        price: spent,
        erp_w: found.as_ref().and_then(|f| f.erp_w),
        on_air: true,
        air,
        bought,
        next,
        breaks: found
            .zip(whole)
            .map(|(found, whole)| found.breaks(&whole))
            .unwrap_or_default(),
        edits: draft.edits,
    }))
}

/// Parts one after the other, each with what it adds.
fn bill(search: &Search, bare: &Bare, parts: &[(Part, u32)]) -> Vec<Step> {
    let price = |some: &[(Part, u32)]| built(bare, some).and_then(|draft| price_of(search, &draft));
    let mut steps = Vec::new();
    for (i, (part, count)) in parts.iter().enumerate() {
        if let (Some(before), Some(after)) = (price(&parts[..i]), price(&parts[..=i])) {
            steps.push(step(part, *count, before, after));
        }
    }
    steps
}

fn step(part: &Part, count: u32, before: Money, after: Money) -> Step {
    Step {
        id: part.tag.clone(),
        count,
        price: after.checked_sub(before).unwrap_or(after),
        total: after,
    }
}

/// What is left to buy, most missed first, each with what it adds and what all costs with it.
fn next(
    search: &Search,
    bare: &Bare,
    taken: &[(Part, u32)],
    waiting: Vec<(Part, u32)>,
    steps: &Steps,
) -> Result<Vec<Step>, PlanError> {
    let mut all = taken.to_vec();
    let price = |all: &[(Part, u32)]| built(bare, all).and_then(|draft| price_of(search, &draft));
    let Some(mut total) = price(&all) else {
        return Ok(Vec::new());
    };
    let mut out = Vec::new();
    for (part, got) in waiting {
        search.course.check()?;
        steps.one_more();
        all.retain(|(p, _)| p.tag != part.tag);
        all.push((part.clone(), part.count));
        let Some(after) = price(&all) else { continue };
        out.push(step(&part, part.count - got, total, after));
        total = after;
    }
    Ok(out)
}

/// A way into the air without anything that may wait; nothing where it makes no station, or one that may not be built.
fn bare(search: &Search, choice: &AirChoice, at: &Sample) -> Result<Option<Bare>, PlanError> {
    let stripped = |choice: &AirChoice| -> Result<Option<Draft>, PlanError> {
        let Some(trial) = search.trial(choice, at, Depth::Sketch)? else {
            return Ok(None);
        };
        // A transmitter smaller than the licence, and no second one, is what is looked for here.
        if trial
            .blocking
            .iter()
            .any(|f| !["TX 01", "TX 09"].contains(&f.code))
        {
            return Ok(None);
        }
        let mut draft = draft_of(&trial);
        for item in &trial.text.station.items {
            let bought = item.status.is_none_or(|s| s.is_bought());
            let kind = search.case.shelf.get(&item.shelf).map(|s| s.kind);
            if bought && kind.is_some_and(|k| k != ItemKind::Transmitter && ORDER.contains(&k)) {
                draft.remove(format!("items.{}", item.tag))?;
            }
        }
        Ok(Some(draft))
    };
    let (Some(with), Some(without)) = (stripped(choice)?, stripped(&put_off(choice))?) else {
        return Ok(None);
    };
    Ok(Some(Bare { with, without }))
}

/// A bare way into the air with some parts, so many of each.
fn built(bare: &Bare, parts: &[(Part, u32)]) -> Option<Draft> {
    let reserve = parts.iter().any(|(part, _)| part.table.is_none());
    let mut draft = if reserve { &bare.with } else { &bare.without }.clone();
    for (part, count) in parts {
        let Some(mut table) = part.table.clone() else {
            continue;
        };
        let map = table.as_object_mut()?;
        map.remove("count");
        if *count > 1 {
            map.insert("count".into(), (*count).into());
        }
        draft.set(format!("items.{}", part.tag), table).ok()?;
    }
    Some(draft)
}

fn price_of(search: &Search, draft: &Draft) -> Option<Money> {
    let text = Text::of(draft)?;
    let case = text.case(&search.case);
    let transmission = transmission::evaluate(&case);
    let energy = energy::evaluate(&case, &transmission);
    Some(money::evaluate(&case, &transmission, &energy).capital)
}

fn exceeds(price: Money, budget: Money) -> bool {
    price
        .checked_sub(budget)
        .is_some_and(|over| over.amount > Decimal::ZERO)
}

/// A way into the air, bare, and its price with what it may not go without.
fn priced(
    search: &Search,
    choice: &AirChoice,
    at: &Sample,
    must: &[(Part, u32)],
) -> Result<Option<(Bare, Money)>, PlanError> {
    let there = bare(search, choice, at)?;
    Ok(there.and_then(|there| {
        let price = price_of(search, &built(&there, must)?)?;
        Some((there, price))
    }))
}

/// A smaller way into the air, bare, and its price with what it may not go without.
type Smaller = (AirChoice, Bare, Money);

/// The way into the air that radiates most for the money, less than the licence allows; where none is that cheap, what the cheapest
/// costs.
fn smaller_air(
    search: &Search,
    choice: &AirChoice,
    must: &[(Part, u32)],
    budget: Money,
    steps: &Steps,
) -> Result<Result<Smaller, Option<Money>>, PlanError> {
    let mut all: Vec<(u64, f64, AirChoice, usize)> = search
        .designs()
        .into_iter()
        .filter(|(other, _)| other.link == choice.link)
        .filter_map(|(other, sample)| {
            let under = search.least_under(&other, &search.samples[sample])?;
            let price = air::least_price(&search.case, &put_off(&other))?;
            Some((under, price, other, sample))
        })
        .collect();
    all.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let within = all.iter().filter(|(_, price, ..)| *price <= budget.to_f64());
    for (_, _, other, sample) in within.take(SMALLER_TRIED) {
        steps.one_more();
        if let Some((there, price)) = priced(search, other, &search.samples[*sample], must)?
            && !exceeds(price, budget)
        {
            return Ok(Ok((other.clone(), there, price)));
        }
    }
    // None does: the cheapest of all, looked for in the order of a price that none can better.
    all.sort_by(|a, b| a.1.total_cmp(&b.1));
    let mut least: Option<Money> = None;
    for (_, bound, other, sample) in &all {
        if least.is_some_and(|least| least.to_f64() <= *bound) {
            break;
        }
        if let Some((_, price)) = priced(search, other, &search.samples[*sample], must)?
            && least.is_none_or(|least| exceeds(least, price))
        {
            least = Some(price);
        }
    }
    Ok(Err(least))
}
