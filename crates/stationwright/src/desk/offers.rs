//! Designs for the brief on the desk: worked out behind the page, set side by side, taken as one change.

use super::view::language;
use crate::commands::plan::sentences;
use crate::office::{Assessed, Office, OfficeError};
use assess::Fields;
use assess::said::Shown;
use assess::say::show_number;
use assess::say::signed;
use assess::unit::Unit;
use coverage::Control;
use folder::edit_text;
use planner::answer::Axis;
use planner::{Neighbour, Offer as Design, Plan, PlanError, Task};
use quantity::{Locale, Money};
use server::offers::{Offer, OfferPresent, OfferWish, OffersAnswer};
use server::view::Purchase;
use station::{Edit, Node, Station};
use words::{Language, Message, WordsError, say};

/// An answer with what it takes to choose from it.
#[derive(Clone)]
pub struct Worked {
    /// The text it was worked out for.
    pub base: String,
    /// What is shown.
    pub answer: OffersAnswer,
    /// The whole text of each design, by its id.
    pub texts: Vec<(String, String)>,
}

impl Worked {
    /// The design that a text is, by id.
    pub fn in_force(&self, text: &str) -> Option<&str> {
        self.texts
            .iter()
            .find(|(_, t)| t == text)
            .map(|(id, _)| id.as_str())
    }

    /// The answer holds for a text: the one it began from, or one of its designs.
    pub fn is_of(&self, text: &str) -> bool {
        self.base == text || self.in_force(text).is_some()
    }
}

/// Why nothing was worked out.
#[derive(Debug, thiserror::Error)]
pub enum OffersError {
    /// What the planner says.
    Plan(#[from] PlanError),
    /// What the office says.
    Office(#[from] OfficeError),
    /// A sentence is missing: a fault of ours.
    Words(#[from] WordsError),
}

impl From<&OffersError> for Message {
    fn from(error: &OffersError) -> Self {
        match error {
            OffersError::Plan(error) => error.into(),
            OffersError::Office(error) => error.into(),
            OffersError::Words(error) => Message::new("office-no-words").text("why", error.to_string()),
        }
    }
}

words::said_in_english!(OffersError);

/// Share of the work that is planning; the rest assesses the chosen design and its neighbours.
pub const PLANNING_SHARE: f64 = 0.75;

/// Works designs out for a text. `step` is told the share done.
///
/// # Errors
/// [`OffersError`]; cancelled included.
pub fn work_out(
    office: &Office,
    text: &str,
    file: &Node,
    control: &Control,
    step: &(dyn Fn(f64) + Sync),
) -> Result<Worked, OffersError> {
    let filled = station::assumptions::fill(file);
    let station = Station::read(&filled).map_err(|_| PlanError::NotAStation)?;
    let plan = planner::plan(&Task {
        case: office.case(file, &filled, &station),
        store: office.store(),
        control,
    })?;
    step(PLANNING_SHARE);
    let mut planned = file.clone();
    for edit in &plan.chosen.trial.edits {
        edit.apply(&mut planned).map_err(PlanError::from)?;
    }
    let assessed = office.assess(&planned, "", control)?;
    step(0.85);
    let lines = lines(office, &plan, control, step)?;
    let texts = texts(text, &plan);
    Ok(Worked {
        answer: answer(office, &plan, &assessed, lines, &texts)?,
        base: text.to_owned(),
        texts,
    })
}

/// A design's id, axis by axis.
fn id_of(neighbour: &Neighbour) -> String {
    let step = if neighbour.more { "more" } else { "less" };
    format!("{}-{step}", neighbour.axis.word())
}

/// The text of each design that can be written.
fn texts(text: &str, plan: &Plan) -> Vec<(String, String)> {
    let written = |id: String, edits: &[Edit]| edit_text(text, edits).ok().map(|t| (id, t));
    let beside = plan.neighbours.iter();
    written("chosen".into(), &plan.chosen.trial.edits)
        .into_iter()
        .chain(beside.filter_map(|n| written(id_of(n), &n.offer.trial.edits)))
        .collect()
}

/// A design with its people, before it is put into words.
struct Line<'a> {
    id: String,
    beside: Option<(Axis, bool)>,
    design: &'a Design,
    people: Option<f64>,
}

/// The designs with the people of each; a height of its own asks for a field of its own.
fn lines<'a>(
    office: &Office,
    plan: &'a Plan,
    control: &Control,
    step: &(dyn Fn(f64) + Sync),
) -> Result<Vec<Line<'a>>, OffersError> {
    let mut lines = vec![Line {
        id: "chosen".into(),
        beside: None,
        design: &plan.chosen,
        people: people(office, &plan.chosen, control)?,
    }];
    let count = plan.neighbours.len().max(1) as f64;
    for (i, neighbour) in plan.neighbours.iter().enumerate() {
        lines.push(Line {
            id: id_of(neighbour),
            beside: Some((neighbour.axis, neighbour.more)),
            design: &neighbour.offer,
            people: people(office, &neighbour.offer, control)?,
        });
        step(0.85 + 0.15 * (i + 1) as f64 / count);
    }
    Ok(lines)
}

fn people(office: &Office, design: &Design, control: &Control) -> Result<Option<f64>, OffersError> {
    if let Some(people) = design.trial.people() {
        return Ok(Some(people));
    }
    let text = &design.trial.text;
    let case = office.case(&text.file, &text.document, &text.station);
    let fields = Fields::prepare(&case, office.store(), control).map_err(|_| OfficeError::Cancelled)?;
    let outcome = assess::evaluate(&case, &fields);
    let first = outcome.coverage.emissions.first();
    Ok(first.and_then(|e| e.served.first()).map(|s| s.people))
}

fn money(amount: Money, locale: &Locale) -> Shown {
    let number = amount.to_f64();
    Shown {
        text: locale.number(number, quantity::Digits::Decimals(0)),
        unit: amount.currency.code().into(),
        number: Some(number),
    }
}

fn signed_money(amount: Money, locale: &Locale) -> Shown {
    let mut shown = money(amount, locale);
    shown.text = locale.signed(amount.to_f64(), quantity::Digits::Decimals(0));
    shown
}

fn answer(
    office: &Office,
    plan: &Plan,
    assessed: &Assessed,
    lines: Vec<Line>,
    texts: &[(String, String)],
) -> Result<OffersAnswer, WordsError> {
    let language = language(assessed);
    let locale = language.locale();
    let mut sorted: Vec<&Line> = lines.iter().collect();
    sorted.sort_by(|a, b| a.design.trial.capital().total_cmp(&b.design.trial.capital()));
    let offers = sorted
        .iter()
        .zip('A'..='Z')
        .map(|(line, letter)| {
            let can_choose = texts.iter().any(|(id, _)| *id == line.id);
            offer(office, assessed, &lines[0], line, letter, can_choose)
        })
        .collect::<Result<Vec<_>, _>>()?;
    let wishes = sentences::wishes_said(language, plan, &assessed.station)?
        .into_iter()
        .zip(&plan.wishes)
        .map(|(said, wish)| OfferWish {
            says: said.says,
            kept: wish.kept,
            unlock: said.unlock,
            obstacle: said.obstacle,
        })
        .collect();
    let mut budget = Vec::new();
    sentences::budget(language, plan, assessed, &office.shelf, &mut budget)?;
    let in_the_way = plan
        .chosen
        .trial
        .blocking
        .iter()
        .map(|f| &f.says)
        .chain(&plan.left_open)
        .map(|says| sentences::told(language, says))
        .collect::<Result<_, _>>()?;
    let questions = if plan.presumed.is_empty() {
        Vec::new()
    } else {
        let asked = sentences::QUESTIONS.iter();
        asked
            .map(|q| sentences::told(language, &Message::new(*q)))
            .collect::<Result<_, _>>()?
    };
    let moving = assessed.sheet.assumptions.iter();
    Ok(OffersAnswer {
        sentence: sentences::head(language, plan)?,
        holds: plan.chosen.holds,
        design: sentences::air(language, &plan.chosen, assessed, &office.shelf)?,
        looked: sentences::looked(language, plan)?,
        in_the_way,
        wishes,
        budget: budget.into_iter().map(|b| b.trim().to_owned()).collect(),
        budget_at: plan.budget.as_ref().map(|b| money(b.asked, locale)),
        offers,
        assumptions: moving
            .filter(|a| a.field.is_some() || a.people.is_some() || a.money.is_some())
            .take(12)
            .cloned()
            .collect(),
        presumed: plan.presumed.iter().map(|e| e.path.clone()).collect(),
        questions,
    })
}

fn offer(
    office: &Office,
    assessed: &Assessed,
    chosen: &Line,
    line: &Line,
    letter: char,
    can_choose: bool,
) -> Result<Offer, WordsError> {
    let language = language(assessed);
    let locale = language.locale();
    let trial = &line.design.trial;
    let bill = &trial.outcome.money;
    let is_chosen = line.beside.is_none();
    let against = bill
        .capital
        .checked_sub(chosen.design.trial.outcome.money.capital);
    let margin = trial.least_margin_db();
    let erp_w = trial.outcome.transmission.emissions.first().and_then(|p| p.erp_w);
    let (title, says, why) = match line.beside {
        None => (
            sentences::told(
                language,
                &Message::new(if trial.unmet.is_empty() {
                    "offer-chosen"
                } else {
                    "offer-chosen-nearly"
                }),
            )?,
            sentences::air(language, line.design, assessed, &office.shelf)?,
            String::new(),
        ),
        Some((axis, more)) => (
            sentences::told(
                language,
                &Message::new("offer-beside")
                    .tag("axis", axis.word())
                    .tag("more", if more { "yes" } else { "no" }),
            )?,
            sentences::what(language, axis, line.design, &office.shelf)?,
            sentences::why_of(language, line.design)?,
        ),
    };
    Ok(Offer {
        id: line.id.clone(),
        letter: letter.into(),
        title,
        says,
        chosen: is_chosen,
        in_force: false,
        holds: line.design.holds,
        why,
        can_choose: can_choose && (is_chosen || trial.blocking.is_empty()),
        cost: money(bill.capital, locale),
        cost_against: against.filter(|_| !is_chosen).map(|m| signed_money(m, locale)),
        over_years: money(bill.over_years, locale),
        people: line.people.map(|n| show_number(n, Unit::People, locale)),
        people_against: line
            .people
            .zip(chosen.people)
            .filter(|_| !is_chosen)
            .map(|(n, c)| signed(n - c, Unit::People, locale)),
        erp: erp_w.map(|w| show_number(w, Unit::Watt, locale)),
        in_hand: margin.map(|db| signed(db, Unit::Decibel, locale)),
        short: margin.is_some_and(|db| db < -0.05),
    })
}

/// The station as it stands, in the terms of an offer.
pub fn present(assessed: &Assessed) -> OfferPresent {
    let locale = language(assessed).locale();
    let outcome = &assessed.outcome;
    let margins = outcome.coverage.wanted.iter().filter_map(|w| w.margin_db());
    let margin = margins.reduce(f64::min);
    let erp_w = outcome.transmission.emissions.first().and_then(|p| p.erp_w);
    let served = outcome.coverage.emissions.first().and_then(|e| e.served.first());
    OfferPresent {
        cost: money(outcome.money.capital, locale),
        people: served.map(|s| show_number(s.people, Unit::People, locale)),
        erp: erp_w.map(|w| show_number(w, Unit::Watt, locale)),
        in_hand: margin.map(|db| signed(db, Unit::Decibel, locale)),
        short: margin.is_some_and(|db| db < -0.05),
    }
}

/// What a little more would buy: remedies that cost something and mend or serve somebody, and, where the offers are of this
/// station, designs that cost more and serve more. The cheapest first.
pub fn more(assessed: &Assessed, language: Language) -> Vec<Purchase> {
    let locale = language.locale();
    let currency = &assessed.sheet.currency;
    let mut all = Vec::new();
    for (finding, said) in assessed.assessment.findings.iter().zip(&assessed.sheet.findings) {
        for (remedy, said_remedy) in finding.remedies.iter().zip(&said.remedies) {
            let Some(effect) = &remedy.effect else { continue };
            let price = effect.price.as_ref().and_then(|v| match v {
                assess::figure::Value::Money(m) => Some(m.to_f64()),
                _ => None,
            });
            let people = effect.people.as_ref().and_then(assess::figure::Value::number);
            let (Some(price), true) = (price.filter(|p| *p > 0.0), effect.mends) else {
                continue;
            };
            let message = match people.filter(|n| *n >= 5.0) {
                Some(n) => Message::new("more-people").text(
                    "people",
                    locale.signed((n / 10.0).round() * 10.0, quantity::Digits::Decimals(0)),
                ),
                None => Message::new("more-mends").text("code", said.code.clone()),
            };
            all.push((
                price,
                Purchase {
                    says: said_remedy.does.clone(),
                    gives: say(&message, language).unwrap_or_default(),
                    price: Some(Shown {
                        text: locale.signed(price, quantity::Digits::Decimals(0)),
                        unit: currency.clone(),
                        number: Some(price),
                    }),
                    edits: said_remedy.edits.clone(),
                },
            ));
        }
    }
    all.sort_by(|a, b| a.0.total_cmp(&b.0));
    all.dedup_by(|a, b| a.1.says == b.1.says);
    all.into_iter().map(|(_, p)| p).take(6).collect()
}
