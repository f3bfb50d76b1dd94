//! A brief planned: base, search, neighbours, wishes, budget.

use crate::air;
use crate::answer::{Axis, Budget, Neighbour, Offer, Plan, Wish};
use crate::course::{Course, Phase};
use crate::draft::Draft;
use crate::money::sell;
use crate::options::{AirChoice, BaysChoice, Pick, antenna_site};
use crate::sample::Sample;
use crate::search::{Depth, Search};
use crate::tier::Tier;
use crate::trial::{Text, Trial};
use crate::{link, now, presume, studio, trial};
use assess::proofs::transmission::ground_amsl_m;
use assess::{Case, FieldStore};
use coverage::{Control, CoverageError};
use quantity::{Currency, Decimal};
use station::Shelf;
use station::edit::EditError;
use station::shelf::ItemKind;
use words::Message;

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
    NotAStation,
    /// A change did not fit the document.
    Edit(#[from] EditError),
    /// No site, no frequency or no licensed power to plan with.
    NothingToChoose(Message),
    /// A coverage could not be computed.
    Field(CoverageError),
    /// Cancelled.
    Cancelled,
}

impl From<&PlanError> for Message {
    fn from(error: &PlanError) -> Self {
        match error {
            PlanError::NotAStation => Message::new("plan-not-a-station"),
            PlanError::Edit(error) => error.into(),
            PlanError::NothingToChoose(why) => {
                Message::new("plan-nothing-to-choose").message("why", why.clone())
            }
            PlanError::Field(error) => error.into(),
            PlanError::Cancelled => Message::new("plan-cancelled"),
        }
    }
}

words::said_in_english!(PlanError);

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
    let counted_in = task.case.station.counted_in();
    // A price that cannot be added to the others is none.
    let payable = task.case.shelf.clone().only_priced_in(counted_in);
    let given = Case {
        shelf: &payable,
        ..task.case
    };
    if let Some(from) = unpaid(task.case.shelf, &payable) {
        let why = Message::new("plan-no-exchange").text("from", from.code());
        return Err(PlanError::NothingToChoose(
            why.text("currency", counted_in.code()),
        ));
    }
    presume(&given, &mut draft)?;
    let presumed = draft.edits.clone();
    let text = Text::of(&draft).ok_or(PlanError::NotAStation)?;
    let case = text.case(&given);
    let tier = Tier::of(&text.station);
    air::clear(&case, &mut draft)?;
    studio::complete(&case, &mut draft, tier)?;
    studio::services(&case, &mut draft, tier)?;
    link::complete(&case, &mut draft)?;
    // What was cleared away must not be taken for kept.
    let base = Text::of(&draft).ok_or(PlanError::NotAStation)?;
    let case = base.case(&given);
    let course = Course::new(task.control);
    let search = Search::new(draft, case, tier, task.store, &course)?;
    if search.samples.is_empty() {
        return Err(PlanError::NothingToChoose(missing(&case)));
    }
    let impossible = search.impossible();
    let mut order = search.in_order(bounded);
    let (choice, at, _) = order
        .next_best()?
        .ok_or_else(|| PlanError::NothingToChoose(missing(&case)))?;
    let looked_at = order.looked_at;
    let mut trial = search
        .trial(&choice, &search.samples[at], Depth::Whole)?
        .ok_or(PlanError::NotAStation)?;
    let counting = course.phase(Phase::People, 1);
    counting.step(|control| search.count_people(&mut trial, control))?;
    let neighbours = neighbours(&search, &choice, &impossible)?;
    let plan = Plan {
        wishes: wishes(&search, &trial),
        budget: budget(&search, &choice, &trial)?,
        chosen: Offer {
            holds: trial.holds(&impossible),
            choice,
            trial,
        },
        neighbours,
        left_open: trial::left_open(task.case.station)
            .map(|e| Message::new("plan-left-open").text("tag", e.tag.as_str()))
            .collect(),
        presumed,
        tier,
        looked_at,
    };
    course.finished();
    Ok(plan)
}

/// The currency of the transmitters' prices, where none of them can be counted in the station's.
fn unpaid(shelf: &Shelf, payable: &Shelf) -> Option<Currency> {
    let prices = |shelf: &Shelf| -> Vec<Currency> {
        let of = shelf.of(ItemKind::Transmitter);
        of.filter_map(|t| Some(t.price.as_ref()?.sell.currency)).collect()
    };
    prices(shelf)
        .first()
        .copied()
        .filter(|_| prices(payable).is_empty())
}

/// What an empty search lacked, in the words of the file.
fn missing(case: &Case) -> Message {
    let Some(emission) = case.station.emissions.first() else {
        return Message::new("plan-no-emission");
    };
    if case.station.sites.is_empty() {
        return Message::new("plan-no-site");
    }
    if emission.frequency.value().is_none() || emission.licence.erp.value().is_none() {
        return Message::new("plan-not-licensed").text("tag", &emission.tag);
    }
    if let Some(site) = antenna_site(case)
        && ground_amsl_m(case, site).is_none()
    {
        return Message::new("plan-no-ground").text("site", &site.tag);
    }
    Message::new("plan-no-design")
}

fn wishes(search: &Search, trial: &Trial) -> Vec<Wish> {
    let (best, offered) = (search.at_best_db(), search.on_offer_db());
    let impossible = search.impossible();
    let checks = &trial.outcome.coverage.wanted;
    let wanted = search.case.station.brief.wanted.iter();
    wanted
        .zip(best.into_iter().zip(offered))
        .zip(checks)
        .map(|((wish, (at_best_db, on_offer_db)), check)| Wish {
            kept: !trial.unmet.contains(&wish.tag),
            possible: !impossible.contains(&wish.tag),
            tag: wish.tag.clone(),
            place: wish.place.clone(),
            margin_db: check.margin_db(),
            at_best_db,
            on_offer_db,
            area: check.area.and_then(|a| {
                Some((
                    a.people / a.people_total.max(f64::MIN_POSITIVE),
                    a.wanted_ratio?,
                    a.radius_km,
                ))
            }),
            obstacle: check
                .place
                .as_ref()
                .and_then(|p| p.as_ref().ok())
                .and_then(|p| p.obstacle.as_ref())
                .map(|o| (o.distance_km, o.above_ray_m)),
        })
        .collect()
}

fn budget(search: &Search, choice: &AirChoice, trial: &Trial) -> Result<Option<Budget>, PlanError> {
    let Some(asked) = search.case.station.brief.budget.value().copied() else {
        return Ok(None);
    };
    let missing = trial
        .outcome
        .money
        .capital
        .checked_sub(asked)
        .filter(|m| m.amount > Decimal::ZERO);
    let now = match missing {
        Some(_) => now::now(search, choice, trial, asked)?,
        None => None,
    };
    Ok(Some(Budget { asked, missing, now }))
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
    let steps = search.course.phase(Phase::Neighbours, 2 * AXES.len());
    for (axis, more) in AXES.iter().flat_map(|axis| [(*axis, false), (*axis, true)]) {
        let found = steps.step(|control| neighbour(search, choice, impossible, (axis, more), control))?;
        all.extend(found);
    }
    Ok(all)
}

const AXES: [Axis; 5] = [
    Axis::Transmitter,
    Axis::Feeder,
    Axis::Bays,
    Axis::Height,
    Axis::Link,
];

fn neighbour(
    search: &Search,
    choice: &AirChoice,
    impossible: &[String],
    (axis, more): (Axis, bool),
    control: &Control,
) -> Result<Option<Neighbour>, PlanError> {
    let Some(beside) = step(search, choice, axis, more) else {
        return Ok(None);
    };
    let Some(sample) = sample_of(search, &beside.bays, beside.height_m) else {
        return Ok(None);
    };
    let same_height = (sample.height_m - choice.height_m).abs() < 1e-9;
    let beside = AirChoice {
        height_m: sample.height_m,
        feeder_m: crate::options::feeder_m(&search.case, sample.height_m),
        ..beside
    };
    let Some(mut trial) = search.trial(&beside, sample, Depth::Whole)? else {
        return Ok(None);
    };
    // Another height asks for a field of its own, which takes as long as the rest of the plan.
    if same_height {
        search.count_people(&mut trial, control)?;
    }
    Ok(Some(Neighbour {
        axis,
        more,
        offer: Offer {
            holds: trial.holds(impossible),
            choice: beside,
            trial,
        },
    }))
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
        Axis::Link => next.link = other_link(search, choice.link, more)?,
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

/// The way of the programme that is next cheaper or dearer; ways that cannot work as asked stand aside where others can.
fn other_link(search: &Search, now: usize, more: bool) -> Option<usize> {
    let links = &search.axes.links;
    let here = links.get(now)?.price;
    let works = |i: &usize| links[*i].short.unwrap_or(0) == 0;
    let dearer = |i: &usize| links[*i].price > here;
    let cheaper = |i: &usize| links[*i].price < here;
    // Links stand cheapest first.
    if more {
        (0..links.len()).filter(dearer).find(works)
    } else {
        (0..links.len()).rev().find(cheaper)
    }
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
