//! What the money that is there buys now: on the air first, then things in the order in which they are missed; and what the
//! next money buys.

use crate::air;
use crate::answer::{Now, Step};
use crate::draft::Draft;
use crate::options::AirChoice;
use crate::plan::PlanError;
use crate::search::Search;
use crate::trial::{Text, Trial};
use assess::proofs::{energy, money, transmission};
use quantity::{Decimal, Money};
use station::shelf::ItemKind;

/// Smaller ways into the air that are evaluated where the chosen one costs more than there is.
const SMALLER_TRIED: usize = 60;

/// What is missed first when it is not there (common practice, no source). What is not named belongs to the way into the air.
const MISSED: [ItemKind; 19] = [
    ItemKind::Console,
    ItemKind::Microphone,
    ItemKind::Headphones,
    ItemKind::AudioCable,
    ItemKind::Playout,
    ItemKind::HeadphoneAmplifier,
    ItemKind::Hybrid,
    ItemKind::Processor,
    ItemKind::Arm,
    ItemKind::OnAirLight,
    ItemKind::Loudspeaker,
    ItemKind::EmergencyPlayer,
    ItemKind::Ups,
    ItemKind::Generator,
    ItemKind::RdsEncoder,
    ItemKind::Rack,
    ItemKind::Furniture,
    ItemKind::Acoustics,
    ItemKind::Spares,
];

/// A thing of the studio, or one beside the way into the air, that can wait.
struct Part {
    tag: String,
    count: u32,
    table: serde_json::Value,
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
    let Some((mut draft, parts)) = bare(search, chosen)? else {
        return Ok(None);
    };
    let mut air = choice.clone();
    let Some(mut spent) = price_of(search, &draft) else {
        return Ok(None);
    };
    let mut smaller = false;
    if exceeds(spent, budget) {
        let Some((other, trial)) = smaller_air(search, choice, budget)? else {
            return Ok(Some(Now::nothing(spent)));
        };
        let Some((there, _)) = bare(search, &trial)? else {
            return Ok(None);
        };
        (draft, air, smaller) = (there, other, true);
        spent = price_of(search, &draft).unwrap_or(spent);
    }
    let mut bought = Vec::new();
    let mut waiting = Vec::new();
    for part in parts {
        // As many as the money still buys.
        let taken = (1..=part.count).rev().find_map(|count| {
            let with = with(&draft, &part, count)?;
            let price = price_of(search, &with)?;
            (!exceeds(price, budget)).then_some((count, with, price))
        });
        let got = taken.as_ref().map_or(0, |(count, ..)| *count);
        if let Some((count, with, price)) = taken {
            bought.push(Step {
                id: part.tag.clone(),
                count,
                price: price.checked_sub(spent).unwrap_or(price),
                total: price,
            });
            (draft, spent) = (with, price);
        }
        if got < part.count {
            waiting.push((part, got));
        }
    }
    let next = next(search, &draft, waiting);
    let erp_w = Text::draft(&draft).and_then(|text| {
        let outcome = transmission::evaluate(&text.case(&search.case));
        outcome.emissions.first()?.erp_w
    });
    Ok(Some(Now {
        price: spent,
        erp_w,
        on_air: true,
        air: smaller.then_some(air),
        bought,
        next,
        edits: draft.edits,
    }))
}

/// What is left to buy, most missed first, each with what it adds and what all costs with it.
fn next(search: &Search, draft: &Draft, waiting: Vec<(Part, u32)>) -> Vec<Step> {
    let mut all = draft.clone();
    let mut total = price_of(search, &all);
    let mut steps = Vec::new();
    for (part, got) in waiting {
        let Some(with) = with(&all, &part, part.count) else {
            continue;
        };
        let (Some(before), Some(after)) = (total, price_of(search, &with)) else {
            continue;
        };
        steps.push(Step {
            id: part.tag,
            count: part.count - got,
            price: after.checked_sub(before).unwrap_or(after),
            total: after,
        });
        (all, total) = (with, Some(after));
    }
    steps
}

/// A design without anything that can wait, and what was taken out, most missed first.
fn bare(search: &Search, trial: &Trial) -> Result<Option<(Draft, Vec<Part>)>, PlanError> {
    let mut draft = Draft {
        node: trial.text.file.clone(),
        edits: trial.edits.clone(),
    };
    let mut parts: Vec<(usize, Part)> = Vec::new();
    for item in &trial.text.station.items {
        let bought = item.status.is_none_or(|s| s.is_bought());
        let kind = search.case.shelf.get(&item.shelf).map(|s| s.kind);
        let Some(rank) = kind.and_then(|k| MISSED.iter().position(|m| *m == k)) else {
            continue;
        };
        let path = format!("items.{}", item.tag);
        let Some(table) = draft
            .node
            .at(&path)
            .map(station::Node::to_json)
            .filter(|_| bought)
        else {
            continue;
        };
        draft.remove(path)?;
        parts.push((
            rank,
            Part {
                tag: item.tag.clone(),
                count: item.count.unwrap_or(1),
                table,
            },
        ));
    }
    parts.sort_by_key(|(rank, _)| *rank);
    Ok(Some((draft, parts.into_iter().map(|(_, p)| p).collect())))
}

fn with(draft: &Draft, part: &Part, count: u32) -> Option<Draft> {
    let mut table = part.table.clone();
    let map = table.as_object_mut()?;
    map.remove("count");
    if count > 1 {
        map.insert("count".into(), count.into());
    }
    let mut with = draft.clone();
    let path = format!("items.{}", part.tag);
    with.set(path, table).ok()?;
    Some(with)
}

fn price_of(search: &Search, draft: &Draft) -> Option<Money> {
    let text = Text::draft(draft)?;
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

/// The way into the air that radiates most for the money, less than the licence allows.
fn smaller_air(
    search: &Search,
    choice: &AirChoice,
    budget: Money,
) -> Result<Option<(AirChoice, Trial)>, PlanError> {
    let mut all: Vec<(u64, f64, AirChoice, usize)> = search
        .designs()
        .into_iter()
        .filter(|(other, _)| other.link == choice.link)
        .filter_map(|(other, sample)| {
            let under = search.least_under(&other, &search.samples[sample])?;
            let price = air::least_price(&search.case, &other)?;
            (price <= budget.to_f64()).then_some((under, price, other, sample))
        })
        .collect();
    all.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    for (_, _, other, sample) in all.into_iter().take(SMALLER_TRIED) {
        let Some(trial) = search.trial(&other, &search.samples[sample])? else {
            continue;
        };
        // A transmitter smaller than the licence is what was asked for here.
        if trial.blocking.iter().any(|f| f.code != "TX 01") {
            continue;
        }
        let Some((draft, _)) = bare(search, &trial)? else {
            continue;
        };
        if price_of(search, &draft).is_some_and(|price| !exceeds(price, budget)) {
            return Ok(Some((other, trial)));
        }
    }
    Ok(None)
}
