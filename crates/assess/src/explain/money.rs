//! Figures of money.

use super::methods::*;
use super::stated;
use crate::case::Case;
use crate::figure::{Figure, Input, Stage, Value};
use crate::outcome::Outcome;
use crate::proofs::money::Running;
use crate::unit::Unit;
use words::Message;

/// The stable name of a part of the running cost.
pub fn key(running: Running) -> &'static str {
    match running {
        Running::Energy => "energy",
        Running::Rent => "rent",
        Running::Ways => "ways",
        Running::Maintenance => "maintenance",
        Running::Insurance => "insurance",
        Running::LicenceFee => "licence_fee",
        Running::MusicRights => "music_rights",
        Running::Staff => "staff",
    }
}

/// Capital, running cost, their worth over the years.
pub fn figures(_: &Case, outcome: &Outcome) -> Vec<Figure> {
    let money = &outcome.money;
    let figure = |id: &str, code: &'static str, value: quantity::Money, method| {
        Figure::new(
            format!("money.{id}"),
            Stage::Money,
            Message::new(code),
            Value::Money(value),
            method,
        )
        .marked(
            money
                .lines
                .iter()
                .map(|l| l.mark)
                .max()
                .unwrap_or(station::Mark::Computed),
        )
    };
    let mut capital = figure("capital", "fig-capital", money.capital, &BILL)
        .using_all(["goods", "freight", "duty"].map(|w| Input::Figure(format!("money.{w}"))));
    if let Some((budget, left)) = money.budget {
        capital = capital.using(stated("brief.budget")).margin(
            Value::Money(left),
            Value::Money(budget),
            Message::new("whose-budget"),
        );
    }
    let mut out = vec![
        capital,
        figure("goods", "fig-goods", money.goods, &BILL),
        figure("work", "fig-work", money.work, &BILL),
    ];
    if let Some(freight) = money.freight {
        out.push(figure("freight", "fig-freight", freight, &BILL).using(stated("brief.delivery.freight")));
    }
    if let Some(duty) = money.duty {
        out.push(figure("duty", "fig-duty", duty, &BILL).using(stated("brief.delivery.duty")));
    }
    if let Some(tax) = money.value_added_tax {
        out.push(
            figure("value_added_tax", "fig-value-added-tax", tax, &BILL)
                .using(stated("brief.delivery.value_added_tax")),
        );
    }
    let mut by_part: Vec<(&'static str, quantity::Money)> = Vec::new();
    for (part, amount) in &money.running {
        match by_part.iter_mut().find(|p| p.0 == key(*part)) {
            Some(found) => found.1 = found.1.checked_add(*amount).unwrap_or(found.1),
            None => by_part.push((key(*part), *amount)),
        }
    }
    for (part, amount) in &by_part {
        let label = Message::new("fig-running").tag("part", part.replace('_', "-"));
        out.push(Figure::new(
            format!("money.running.{part}"),
            Stage::Money,
            label,
            Value::Money(*amount),
            &RUNNING,
        ));
    }
    out.push(
        figure("yearly", "fig-yearly", money.yearly, &RUNNING).using_all(
            by_part
                .iter()
                .map(|(part, _)| Input::Figure(format!("money.running.{part}"))),
        ),
    );
    out.push(
        figure("over_years", "fig-over-years", money.over_years, &PRESENT_VALUE)
            .using_all(["capital", "yearly"].map(|w| Input::Figure(format!("money.{w}"))))
            .using(stated("brief.horizon"))
            .using(stated("brief.discount_rate")),
    );
    out.push(
        Figure::new(
            "money.years",
            Stage::Money,
            Message::new("fig-years"),
            Value::of(money.years, Unit::Year),
            &PRESENT_VALUE,
        )
        .using(stated("brief.horizon")),
    );
    if money.mass_kg.0 > 0.0 {
        out.push(Figure::new(
            "money.mass",
            Stage::Money,
            Message::new("fig-mass"),
            Value::of(money.mass_kg.0, Unit::Kilogram),
            &BILL,
        ));
    }
    out
}
