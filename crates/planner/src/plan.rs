//! A brief planned: base, search, neighbours, wishes, budget.

use crate::air;
use crate::answer::{Axis, Budget, Neighbour, Offer, Plan, Wish};
use crate::draft::Draft;
use crate::money::sell;
use crate::options::{AirChoice, BaysChoice, Pick};
use crate::search::{Sample, Search};
use crate::tier::Tier;
use crate::trial::{Text, Trial};
use crate::{link, presume, studio};
use assess::{Case, FieldStore};
use coverage::{Control, CoverageError};
use quantity::{Decimal, Money};
use station::edit::EditError;
use station::shelf::ItemKind;

/// What is asked of the planner.
#[derive(Clone, Copy)]
pub struct Task<'a> {
    /// The brief, with the shelf, the country and the world it is judged by.
    pub case: Case<'a>,
    /// Where loss fields come from.
    pub store: &'a dyn FieldStore,
    /// Progress and cancelling.
    pub control: &'a Control<'a>,
}

/// Why there is no plan.
#[derive(Debug, thiserror::Error)]
pub enum PlanError {
    /// The document is no station once assumptions are laid in.
    #[error("the document cannot be read as a station; assess it to see its faults")]
    NotAStation,
    /// A change did not fit the document.
    #[error(transparent)]
    Edit(#[from] EditError),
    /// No site, no frequency or no licensed power to plan with.
    #[error("nothing to choose from: {0}")]
    NothingToChoose(String),
    /// A coverage could not be computed.
    #[error(transparent)]
    Field(CoverageError),
    /// Cancelled.
    #[error("cancelled")]
    Cancelled,
}

/// Plans the first emission of a brief.
///
/// # Errors
/// [`PlanError`], naming what is missing.
pub fn plan(task: &Task) -> Result<Plan, PlanError> {
    answer(task, true)
}

/// The same by looking at every design: what the bounded search is held to.
///
/// # Errors
/// As [`plan`].
pub fn exhaustive(task: &Task) -> Result<Plan, PlanError> {
    answer(task, false)
}

fn answer(task: &Task, bounded: bool) -> Result<Plan, PlanError> {
    let mut draft = Draft::of(task.case.file);
    presume(&task.case, &mut draft)?;
    let presumed = draft.edits.clone();
    let text = Text::of(&draft).ok_or(PlanError::NotAStation)?;
    let case = text.case(&task.case);
    let tier = Tier::of(&text.station);
    air::clear(&case, &mut draft)?;
    studio::complete(&case, &mut draft, tier)?;
    studio::services(&case, &mut draft, tier)?;
    link::complete(&case, &mut draft)?;
    // What was cleared away must not be taken for kept.
    let base = Text::of(&draft).ok_or(PlanError::NotAStation)?;
    let case = base.case(&task.case);
    let search = Search::new(draft, case, tier, task.store, task.control)?;
    if search.samples.is_empty() {
        return Err(PlanError::NothingToChoose(missing(&case)));
    }
    let impossible = search.impossible();
    let (best, looked_at) = search.best(bounded)?;
    let Some((choice, sample, _)) = best else {
        return Err(PlanError::NothingToChoose(missing(&case)));
    };
    // The chosen one again, with its coverage field.
    let trial = search
        .trial(&choice, &search.samples[sample], true)?
        .ok_or(PlanError::NotAStation)?;
    let neighbours = neighbours(&search, &choice, &impossible)?;
    Ok(Plan {
        wishes: wishes(&search, &trial),
        budget: budget(&case, &trial),
        chosen: Offer {
            holds: trial.holds(&impossible),
            choice,
            trial,
        },
        neighbours,
        presumed,
        tier,
        looked_at,
    })
}

/// What an empty search lacked, in the words of the file.
fn missing(case: &Case) -> String {
    let Some(emission) = case.station.emissions.first() else {
        return "the file names no emission; add `[[emissions]]` with a frequency and a licence".to_owned();
    };
    if case.station.sites.is_empty() {
        return "the file names no site; add `[[sites]]` with a position and a mast".to_owned();
    }
    if emission.frequency.value().is_none() || emission.licence.erp.value().is_none() {
        return format!(
            "emission `{}` needs a frequency and a licensed power; `{{ assumed = .. }}` will do",
            emission.tag
        );
    }
    "no height fits the mast, or the shelf lacks a transmitter, feeder or bay with a price in the licence's plane; \
     give the site's mast a height above ground"
        .to_owned()
}

fn wishes(search: &Search, trial: &Trial) -> Vec<Wish> {
    let best = search.at_best_db();
    let checks = &trial.outcome.coverage.wanted;
    search
        .case
        .station
        .brief
        .wanted
        .iter()
        .zip(best)
        .zip(checks)
        .map(|((wish, (tag, at_best_db)), check)| Wish {
            kept: !trial.unmet.contains(&tag),
            tag,
            place: wish.place.clone(),
            margin_db: check.margin_db(),
            at_best_db,
            obstacle: check
                .place
                .as_ref()
                .and_then(|p| p.as_ref().ok())
                .and_then(|p| p.obstacle.as_ref())
                .map(|o| (o.distance_km, o.above_ray_m)),
        })
        .collect()
}

/// Kinds left for later when money is short, the least missed first.
const LATER: [ItemKind; 10] = [
    ItemKind::Spares,
    ItemKind::Acoustics,
    ItemKind::Rack,
    ItemKind::Furniture,
    ItemKind::RdsEncoder,
    ItemKind::Generator,
    ItemKind::Ups,
    ItemKind::Processor,
    ItemKind::Hybrid,
    ItemKind::Service,
];

fn budget(case: &Case, trial: &Trial) -> Option<Budget> {
    let asked = *case.station.brief.budget.value()?;
    let outcome = &trial.outcome.money;
    let missing = outcome
        .capital
        .checked_sub(asked)
        .filter(|m| m.amount > Decimal::ZERO);
    let mut later = Vec::new();
    let mut left = missing;
    for kind in LATER {
        for line in outcome.lines.iter().filter(|l| l.kind == kind) {
            let (Some(short), Some(price)) = (left, line.line) else {
                continue;
            };
            later.push((line.id.clone(), price));
            left = short
                .checked_sub(price)
                .filter(|m: &Money| m.amount > Decimal::ZERO);
        }
    }
    Some(Budget {
        asked,
        missing,
        later: left.is_none().then_some(later),
    })
}

/// The sample of a stack at a height.
fn sample_of<'a>(search: &'a Search, bays: &BaysChoice, height_m: f64) -> Option<&'a Sample> {
    search.samples.iter().filter(|s| s.bays == *bays).min_by(|a, b| {
        (a.height_m - height_m)
            .abs()
            .total_cmp(&(b.height_m - height_m).abs())
    })
}

fn neighbours(
    search: &Search,
    choice: &AirChoice,
    impossible: &[String],
) -> Result<Vec<Neighbour>, PlanError> {
    let mut all = Vec::new();
    for axis in [Axis::Transmitter, Axis::Feeder, Axis::Bays, Axis::Height] {
        for more in [false, true] {
            let Some(beside) = step(search, choice, axis, more) else {
                continue;
            };
            let Some(sample) = sample_of(search, &beside.bays, beside.height_m) else {
                continue;
            };
            let same_height = (sample.height_m - choice.height_m).abs() < 1e-9;
            let beside = AirChoice {
                height_m: sample.height_m,
                feeder_m: crate::options::feeder_m(&search.case, sample.height_m),
                ..beside
            };
            if let Some(trial) = search.trial(&beside, sample, same_height)? {
                all.push(Neighbour {
                    axis,
                    more,
                    offer: Offer {
                        holds: trial.holds(impossible),
                        choice: beside,
                        trial,
                    },
                });
            }
        }
    }
    Ok(all)
}

/// The choice one step along an axis, all else held.
fn step(search: &Search, choice: &AirChoice, axis: Axis, more: bool) -> Option<AirChoice> {
    let case = &search.case;
    let price = |pick: &Pick| match pick {
        Pick::Buy(id) => case.shelf.get(id).and_then(sell),
        Pick::Keep(_) => Some(0.0),
    };
    let beside = |picks: &[Pick], now: &Pick| -> Option<Pick> {
        let here = price(now)?;
        let others = picks
            .iter()
            .filter(|p| *p != now)
            .filter_map(|p| price(p).map(|c| (c, p)));
        if more {
            others
                .filter(|(c, _)| *c >= here)
                .min_by(|a, b| a.0.total_cmp(&b.0))
        } else {
            others
                .filter(|(c, _)| *c < here)
                .max_by(|a, b| a.0.total_cmp(&b.0))
        }
        .map(|(_, p)| p.clone())
    };
    let mut next = choice.clone();
    match axis {
        Axis::Transmitter => next.transmitter = beside(&search.axes.transmitters, &choice.transmitter)?,
        Axis::Feeder => next.feeder = beside(&search.axes.feeders, &choice.feeder)?,
        Axis::Bays => next.bays = other_bays(search, choice, more)?,
        Axis::Height => {
            let heights = search
                .samples
                .iter()
                .filter(|s| s.bays == choice.bays)
                .map(|s| s.height_m);
            next.height_m = if more {
                heights.filter(|h| *h > choice.height_m + 1e-9).reduce(f64::min)?
            } else {
                heights.filter(|h| *h < choice.height_m - 1e-9).reduce(f64::max)?
            };
        }
    }
    Some(next)
}

/// The next stack with fewer or more bays, the cheapest of those of the same bay, else of any.
fn other_bays(search: &Search, choice: &AirChoice, more: bool) -> Option<BaysChoice> {
    let now = choice.bays.bays;
    let others = || {
        search
            .samples
            .iter()
            .map(|s| &s.bays)
            .filter(|b| if more { b.bays > now } else { b.bays < now })
    };
    let count = if more {
        others().map(|b| b.bays).min()?
    } else {
        others().map(|b| b.bays).max()?
    };
    let cost = |b: &&BaysChoice| {
        let splitter = b
            .splitter
            .as_ref()
            .and_then(|s| search.case.shelf.get(s))
            .and_then(sell);
        let element = search.case.shelf.get(&b.element).and_then(sell).unwrap_or(0.0);
        (
            b.element != choice.bays.element,
            element * f64::from(b.bays) + splitter.unwrap_or(0.0),
        )
    };
    others()
        .filter(|b| b.bays == count)
        .min_by(|a, b| {
            let (a, b) = (cost(a), cost(b));
            a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
        })
        .cloned()
}
