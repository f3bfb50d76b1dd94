//! A plan in sentences.

use crate::commands::assess::language_of;
use crate::office::Assessed;
use assess::naming;
use planner::answer::{Axis, Neighbour, Offer};
use planner::{AirChoice, Pick, Plan};
use quantity::{Currency, Decibels, Decimal, Digits, Erp, HeightAgl, Length, Money, Percent, Power};
use station::design::Way;
use station::{Shelf, Station};
use words::{Arg, Language, Message, WordsError, say};

/// A message in a language.
pub(crate) fn told(language: Language, message: &Message) -> Result<String, WordsError> {
    say(message, language)
}

/// A level difference with a tenth of a decibel.
fn db(value: f64) -> Arg {
    Arg::quantity_in(Decibels::from_db(value), "dB", Digits::Decimals(1))
}

fn percent(ratio: f64) -> Arg {
    Arg::quantity_in(Percent::from_pct(ratio * 100.0), "%", Digits::Decimals(0))
}

fn yes(flag: bool) -> &'static str {
    if flag { "yes" } else { "no" }
}

/// The whole answer.
///
/// # Errors
/// [`WordsError`] when a sentence is missing: a fault of ours.
pub fn text(plan: &Plan, assessed: &Assessed, shelf: &Shelf) -> Result<String, WordsError> {
    let language = language_of(&assessed.sheet);
    let mut lines = vec![
        assessed.sheet.name.clone(),
        head(language, plan)?,
        air(language, &plan.chosen, assessed, shelf)?,
    ];
    if let Some(way) = way(language, &plan.chosen, shelf)? {
        lines.push(told(language, &Message::new("plan-link").text("way", way))?);
    }
    lines.push(looked(language, plan)?);
    if plan.chosen.trial.link_short > 0 {
        lines.push(told(language, &Message::new("plan-link-short"))?);
    }
    for open in &plan.left_open {
        lines.push(told(language, open)?);
    }
    for blocked in &plan.chosen.trial.blocking {
        lines.push(told(
            language,
            &Message::new("plan-blocked").text("why", told(language, &blocked.says)?),
        )?);
    }
    if let Some(under) = plan.chosen.trial.under_db {
        lines.push(told(
            language,
            &Message::new("plan-under").with("under", db(under)),
        )?);
    }
    wishes(language, plan, assessed, &mut lines)?;
    budget(language, plan, assessed, shelf, &mut lines)?;
    if !plan.neighbours.is_empty() {
        lines.push(String::new());
        lines.push(told(language, &Message::new("plan-beside"))?);
    }
    for neighbour in &plan.neighbours {
        lines.push(format!("  {}", beside(language, neighbour, plan, shelf)?));
    }
    assumptions(language, assessed, &mut lines)?;
    if !plan.presumed.is_empty() {
        lines.push(String::new());
        lines.push(told(language, &Message::new("plan-presumed"))?);
        lines.extend(plan.presumed.iter().map(|e| format!("  {}", e.path)));
        lines.push(told(language, &Message::new("plan-questions"))?);
        for code in QUESTIONS {
            lines.push(format!("  {}", told(language, &Message::new(code))?));
        }
    }
    lines.push(String::new());
    Ok(lines.join("\n"))
}

/// The answer in one sentence.
pub(crate) fn head(language: Language, plan: &Plan) -> Result<String, WordsError> {
    let money = &plan.chosen.trial.outcome.money;
    told(
        language,
        &Message::new("plan-head")
            .tag("holds", holds(plan))
            .money("capital", money.capital.whole())
            .money("over", money.over_years.whole())
            .amount(
                "years",
                money.years,
                Digits::Decimals(0),
                naming::unit("years", language)?,
            ),
    )
}

/// Everything is kept, all but what no design keeps, or less.
fn holds(plan: &Plan) -> &'static str {
    match (plan.chosen.holds, plan.chosen.trial.unmet.is_empty()) {
        (true, true) => "yes",
        (true, false) => "part",
        (false, _) => "no",
    }
}

/// How much was looked at.
pub(crate) fn looked(language: Language, plan: &Plan) -> Result<String, WordsError> {
    let looked = &plan.looked_at;
    told(
        language,
        &Message::new("plan-looked")
            .count("designs", looked.designs as i64)
            .count("possible", looked.possible as i64)
            .count("evaluated", looked.evaluated as i64)
            .text("tier", plan.tier.letter()),
    )
}

/// Questions to send back where the brief left everything open.
pub(crate) const QUESTIONS: [&str; 5] = [
    "plan-q-licence",
    "plan-q-places",
    "plan-q-site",
    "plan-q-seats",
    "plan-q-money",
];

/// What a pick is called.
fn name(pick: &Pick, assessed: &Assessed, shelf: &Shelf) -> String {
    let id = match pick {
        Pick::Buy(id) => id.clone(),
        Pick::Keep(tag) => {
            let station = &assessed.station;
            let item = station.item(tag).map(|i| i.shelf.clone());
            let cable = station
                .cables
                .iter()
                .find(|c| c.tag == *tag)
                .map(|c| c.shelf.clone());
            item.or(cable).unwrap_or_default()
        }
    };
    shelf_name(&id, shelf)
}

fn shelf_name(id: &str, shelf: &Shelf) -> String {
    shelf.get(id).map_or_else(|| id.to_owned(), |s| s.name.clone())
}

/// The way into the air in one sentence.
pub(crate) fn air(
    language: Language,
    offer: &Offer,
    assessed: &Assessed,
    shelf: &Shelf,
) -> Result<String, WordsError> {
    let path = offer.trial.outcome.transmission.emissions.first();
    let Some((path, power, erp)) = path.and_then(|p| Some((p, p.power_w?, p.erp_w?))) else {
        return told(language, &Message::new("plan-no-air"));
    };
    let choice = &offer.choice;
    told(
        language,
        &Message::new("plan-air")
            .text("transmitter", name(&choice.transmitter, assessed, shelf))
            .quantity("power", Power::from_w(power))
            .quantity("length", Length::from_m(choice.feeder_m))
            .text("feeder", name(&choice.feeder, assessed, shelf))
            .count("bays", i64::from(choice.bays.bays))
            .text("element", shelf_name(&choice.bays.element, shelf))
            .quantity("height", HeightAgl::from_m(choice.height_m))
            .with("loss", db(path.loss_db()))
            .quantity("erp", Erp::from_w(erp)),
    )
}

/// One wish in words: how it fares, why it cannot be kept, what ground stands in the way.
pub(crate) struct WishSaid {
    pub says: String,
    pub unlock: Option<String>,
    pub obstacle: Option<String>,
}

/// The wishes in words, in their order.
pub(crate) fn wishes_said(
    language: Language,
    plan: &Plan,
    station: &Station,
) -> Result<Vec<WishSaid>, WordsError> {
    let mut all = Vec::new();
    for wish in &plan.wishes {
        let place = wish.place.as_deref().and_then(|t| station.place(t));
        let at = place.map_or(String::new(), |p| format!(" ({})", p.name));
        let code = match (wish.margin_db, wish.area) {
            (Some(_), _) => "plan-wish",
            (None, Some(_)) => "plan-wish-area",
            (None, None) => "plan-wish-no-figure",
        };
        let mut message = Message::new(code)
            .text("tag", wish.tag.as_str())
            .text("where", at)
            .tag("kept", yes(wish.kept));
        if let Some(margin) = wish.margin_db {
            message = message.with("margin", db(margin));
        } else if let Some((served, wanted, radius_km)) = wish.area {
            message = message
                .with("share", percent(served))
                .with("wanted", percent(wanted))
                .quantity("radius", Length::from_km(radius_km));
        }
        let unlock = (!wish.possible).then(|| {
            let beyond = wish.is_impossible();
            let best = if beyond { wish.at_best_db } else { wish.on_offer_db };
            let code = match (best, beyond) {
                (None, _) => "plan-impossible-area",
                (Some(_), true) => "plan-impossible",
                (Some(_), false) => "plan-impossible-offer",
            };
            let message = Message::new(code).text("tag", wish.tag.as_str());
            match best {
                Some(best) => told(language, &message.with("short", db(-best))),
                None => told(language, &message),
            }
        });
        let obstacle = wish
            .obstacle
            .filter(|(_, above_m)| !wish.kept && *above_m > 0.0)
            .map(|(distance_km, above_m)| {
                let message = Message::new("plan-obstacle")
                    .quantity("above", Length::from_m(above_m))
                    .quantity("distance", Length::from_km(distance_km));
                told(language, &message)
            });
        all.push(WishSaid {
            says: told(language, &message)?,
            unlock: unlock.transpose()?,
            obstacle: obstacle.transpose()?,
        });
    }
    Ok(all)
}

fn wishes(
    language: Language,
    plan: &Plan,
    assessed: &Assessed,
    lines: &mut Vec<String>,
) -> Result<(), WordsError> {
    for wish in wishes_said(language, plan, &assessed.station)? {
        lines.push(wish.says);
        let more = wish.unlock.into_iter().chain(wish.obstacle);
        lines.extend(more.map(|m| format!("  {m}")));
    }
    Ok(())
}

/// The budget in words.
pub(crate) fn budget(
    language: Language,
    plan: &Plan,
    assessed: &Assessed,
    shelf: &Shelf,
    lines: &mut Vec<String>,
) -> Result<(), WordsError> {
    let Some(budget) = &plan.budget else { return Ok(()) };
    let capital = plan.chosen.trial.outcome.money.capital;
    let Some(missing) = budget.missing else {
        let left = budget.asked.checked_sub(capital).unwrap_or(budget.asked);
        let message = Message::new("plan-budget-kept").money("budget", budget.asked.whole());
        lines.push(told(language, &message.money("left", left.whole()))?);
        return Ok(());
    };
    let message = Message::new("plan-budget-short").money("budget", budget.asked.whole());
    lines.push(told(language, &message.money("missing", missing.whole()))?);
    let Some(now) = &budget.now else { return Ok(()) };
    let station = &assessed.station;
    let named = |step: &planner::answer::Step| -> Result<String, WordsError> {
        let item = station.item(&step.id);
        let name = shelf_name(item.map_or(&step.id, |i| &i.shelf), shelf);
        let message = match item.is_some_and(|i| i.reserve == Some(true)) {
            true => Message::new("plan-now-reserve"),
            false => Message::new("plan-now-thing").count("count", i64::from(step.count)),
        };
        told(language, &message.text("name", name))
    };
    if !now.on_air {
        let message = Message::new("plan-now-none").money("least", now.price.whole());
        lines.push(format!("  {}", told(language, &message)?));
        let must = |step: &planner::answer::Step| {
            let thing = Message::new("plan-now-must-thing").text("thing", named(step)?);
            told(language, &thing.money("price", step.price.whole()))
        };
        let things = now
            .bought
            .iter()
            .map(must)
            .collect::<Result<Vec<_>, WordsError>>()?;
        if !things.is_empty() {
            let message = Message::new("plan-now-must").with("things", Arg::All(things));
            lines.push(format!("  {}", told(language, &message)?));
        }
        return Ok(());
    }
    let bought = now.bought.iter().map(&named).collect::<Result<Vec<_>, _>>()?;
    let left = budget.asked.checked_sub(now.price).unwrap_or(budget.asked);
    let message = Message::new("plan-now")
        .quantity("erp", Erp::from_w(now.erp_w.unwrap_or(0.0)))
        .with("things", Arg::All(bought))
        .money("price", now.price.whole())
        .money("left", left.whole());
    lines.push(format!("  {}", told(language, &message)?));
    if let Some(air) = &now.air {
        let message = Message::new("plan-now-air")
            .text("transmitter", name(&air.transmitter, assessed, shelf))
            .text("feeder", name(&air.feeder, assessed, shelf))
            .count("bays", i64::from(air.bays.bays));
        lines.push(format!("  {}", told(language, &message)?));
    }
    if !now.breaks.is_empty() {
        lines.push(format!("  {}", told(language, &Message::new("plan-now-breaks"))?));
    }
    for finding in &now.breaks {
        lines.push(format!("    {}", told(language, &finding.says)?));
    }
    if !now.next.is_empty() {
        lines.push(format!("  {}", told(language, &Message::new("plan-next"))?));
    }
    for step in &now.next {
        let message = Message::new("plan-next-step")
            .text("thing", named(step)?)
            .money("price", step.price.whole())
            .money("total", step.total.whole());
        lines.push(format!("    {}", told(language, &message)?));
    }
    Ok(())
}

fn beside(
    language: Language,
    neighbour: &Neighbour,
    plan: &Plan,
    shelf: &Shelf,
) -> Result<String, WordsError> {
    let offer = &neighbour.offer;
    let outcome = &offer.trial.outcome;
    let price = outcome
        .money
        .capital
        .checked_sub(plan.chosen.trial.outcome.money.capital)
        .unwrap_or(outcome.money.capital);
    let locale = language.locale();
    let signed = if price.to_f64() > 0.0 {
        format!("+{}", price.show_whole(locale))
    } else {
        price.show_whole(locale)
    };
    let erp = outcome.transmission.emissions.first().and_then(|p| p.erp_w);
    let margin = match offer.trial.least_margin_db() {
        Some(margin) => told(
            language,
            &Message::new("plan-neighbour-margin").with("margin", db(margin)),
        )?,
        None => String::new(),
    };
    let people = match offer.trial.people() {
        Some(people) => told(
            language,
            &Message::new("plan-neighbour-people").count("people", people.round() as i64),
        )?,
        None => String::new(),
    };
    let message = Message::new("plan-neighbour")
        .tag("axis", neighbour.axis.word())
        .text("what", what(language, neighbour.axis, offer, shelf)?)
        .text("price", signed)
        .text("margin", margin)
        .text("people", people)
        .text("why", why_of(language, offer)?)
        .quantity("erp", Erp::from_w(erp.unwrap_or(0.0)));
    told(language, &message)
}

/// What a neighbour takes instead.
pub(crate) fn what(
    language: Language,
    axis: Axis,
    offer: &Offer,
    shelf: &Shelf,
) -> Result<String, WordsError> {
    let choice: &AirChoice = &offer.choice;
    let bought = |pick: &Pick| match pick {
        Pick::Buy(id) => shelf_name(id, shelf),
        Pick::Keep(tag) => tag.clone(),
    };
    Ok(match axis {
        Axis::Transmitter => bought(&choice.transmitter),
        Axis::Feeder => bought(&choice.feeder),
        Axis::Bays => told(
            language,
            &Message::new("plan-bays-of")
                .count("bays", i64::from(choice.bays.bays))
                .text("element", shelf_name(&choice.bays.element, shelf)),
        )?,
        Axis::Link => way(language, offer, shelf)?.unwrap_or_default(),
        Axis::Height => told(
            language,
            &Message::new("plan-at-height").quantity("height", HeightAgl::from_m(choice.height_m)),
        )?,
    })
}

/// The programme's way that was chosen, in words.
fn way(language: Language, offer: &Offer, shelf: &Shelf) -> Result<Option<String>, WordsError> {
    let tag = offer.trial.hop.as_deref();
    let hop = offer
        .trial
        .text
        .station
        .hops
        .iter()
        .find(|h| Some(h.tag.as_str()) == tag);
    let Some((hop, equipment)) = hop.and_then(|h| Some((h, h.equipment.as_deref()?))) else {
        return Ok(None);
    };
    let over = hop.way.value().copied().unwrap_or(Way::Radio);
    let message = Message::new("plan-way")
        .text("equipment", shelf_name(equipment, shelf))
        .message("over", Message::new("plan-over").tag("way", over.variant()))
        .tag("dish", yes(hop.dish.is_some()))
        .text(
            "dishes",
            hop.dish
                .as_deref()
                .map_or(String::new(), |d| shelf_name(d, shelf)),
        );
    told(language, &message).map(Some)
}

/// Why a design would do, or not.
pub(crate) fn why_of(language: Language, offer: &Offer) -> Result<String, WordsError> {
    let trial = &offer.trial;
    if let Some(blocked) = trial.blocking.first() {
        return told(
            language,
            &Message::new("plan-why-blocked").text("why", told(language, &blocked.says)?),
        );
    }
    if let Some(under) = trial.under_db {
        return told(language, &Message::new("plan-why-under").with("under", db(under)));
    }
    if !offer.holds && trial.link_short > 0 {
        return told(language, &Message::new("plan-why-link"));
    }
    if !offer.holds {
        return told(
            language,
            &Message::new("plan-why-unmet").with("wishes", Arg::All(trial.unmet.clone())),
        );
    }
    told(language, &Message::new("plan-why-holds"))
}

/// Whole units of money.
fn money_of(amount: f64, currency: Currency) -> Option<Money> {
    Some(Money::new(Decimal::from_f64_retain(amount.round())?, currency))
}

/// The assumptions that move something, the first dozen.
fn assumptions(language: Language, assessed: &Assessed, lines: &mut Vec<String>) -> Result<(), WordsError> {
    let moving = |a: &&assess::assessment::RankedAssumption| {
        a.field_db.is_some() || a.money.is_some() || a.people.is_some()
    };
    let ranked: Vec<_> = assessed
        .assessment
        .assumptions
        .iter()
        .filter(moving)
        .take(12)
        .collect();
    if ranked.is_empty() {
        return Ok(());
    }
    lines.push(String::new());
    lines.push(told(language, &Message::new("plan-assumptions"))?);
    let currency = assessed.outcome.money.currency;
    for ranked in ranked {
        let field = match ranked.field_db {
            Some(value) => told(
                language,
                &Message::new("plan-assumption-db").with("db", db(value.abs())),
            )?,
            None => String::new(),
        };
        let money = match ranked.money.and_then(|m| money_of(m.abs(), currency)) {
            Some(money) => told(
                language,
                &Message::new("plan-assumption-money").money("money", money),
            )?,
            None => String::new(),
        };
        let assumed = &ranked.assumption;
        let value = naming::value(&assumed.path, &assumed.value, language)?;
        let message = Message::new("plan-assumption")
            .text("path", naming::name(&assumed.path, &assessed.document, language)?)
            .text("value", value)
            .text("db", field)
            .text("money", money)
            .message("why", ranked.assumption.reason());
        lines.push(format!("  {}", told(language, &message)?));
    }
    Ok(())
}
