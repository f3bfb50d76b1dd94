//! Figures and findings of the numbers: every one with its how.

pub mod curves;
pub mod methods;

mod coverage;
mod energy;
mod exposure;
mod licence;
mod link;
mod money;
mod points;
mod studio;
mod transmission;

pub use link::MARGIN_WANTED_DB;
pub use money::key as running_key;

use crate::assessment::{Assessment, BillLine, Head, RankedAssumption, StageLine};
use crate::case::Case;
use crate::figure::{Figure, Input, Stage};
use crate::outcome::Outcome;
use crate::proofs::money::{Added, Line};
use crate::proofs::transmission::EmissionPath;
use crate::rules::{self, Look};
use station::shelf::Per;
use std::collections::BTreeMap;
use words::Message;

/// Makes the assessment of the numbers. Remedies are not weighed and assumptions not ranked yet: see [`crate::weigh`].
pub fn explain(case: &Case, outcome: &Outcome, digest: &str) -> Assessment {
    let mut figures: Vec<Figure> = [
        studio::figures,
        link::figures,
        transmission::figures,
        licence::figures,
        coverage::figures,
        exposure::figures,
        energy::figures,
        money::figures,
    ]
    .into_iter()
    .flat_map(|of| of(case, outcome))
    .collect();
    settle(&mut figures);
    let findings = rules::run(&Look { case, outcome });
    let points = points::points(case, outcome);
    Assessment {
        head: head(case, digest),
        sentence: points::sentence(outcome, &points),
        lead: points::lead(case, &findings),
        stages: stages(outcome, &figures),
        points,
        findings,
        bill: outcome.money.lines.iter().map(|l| bill_line(case, l)).collect(),
        excluded: points::excluded(case, outcome),
        assumptions: station::assumptions::listed(case.document)
            .into_iter()
            .map(|assumption| RankedAssumption {
                assumption,
                field_db: None,
                people: None,
                money: None,
            })
            .collect(),
        questions: points::questions(case, outcome),
        curves: curves::curves(case, outcome),
        figures,
    }
}

fn head(case: &Case, digest: &str) -> Head {
    let station = case.station;
    Head {
        name: station.name.clone(),
        invented: station.invented == Some(true),
        client: station.client.clone(),
        revision: station.revision.unwrap_or(0),
        date: station.date.map(|d| d.to_string()),
        digest: digest.to_owned(),
        currency: station.currency.clone().unwrap_or_else(|| "EUR".into()),
        language: station.language.clone().unwrap_or_else(|| "en".into()),
    }
}

/// Drops inputs that name no figure, and lets every figure's mark be no better than its inputs'.
fn settle(figures: &mut [Figure]) {
    let known: BTreeMap<String, station::Mark> = figures.iter().map(|f| (f.id.clone(), f.mark)).collect();
    for figure in figures.iter_mut() {
        figure
            .inputs
            .retain(|i| !matches!(i, Input::Figure(id) if !known.contains_key(id)));
    }
    // Marks travel along the inputs until nothing changes: chains are short and hold no circle.
    for _ in 0..8 {
        let marks: BTreeMap<String, station::Mark> = figures.iter().map(|f| (f.id.clone(), f.mark)).collect();
        let mut changed = false;
        for figure in figures.iter_mut() {
            for input in &figure.inputs {
                let weaker = match input {
                    Input::Figure(id) => marks[id],
                    Input::Table { mark, .. } => *mark,
                    Input::Stated(_) | Input::Shelf { .. } => continue,
                };
                if weaker > figure.mark {
                    figure.mark = weaker;
                    changed = true;
                }
            }
        }
        if !changed {
            break;
        }
    }
}

fn stages(outcome: &Outcome, figures: &[Figure]) -> Vec<StageLine> {
    let first = outcome
        .transmission
        .emissions
        .first()
        .map_or("", |e| e.tag.as_str());
    let main_hop = outcome
        .link
        .hops
        .iter()
        .find(|h| !h.reserve)
        .map_or("", |h| h.tag.as_str());
    let worst_place = outcome
        .coverage
        .wanted
        .iter()
        .filter_map(|w| Some((w.margin_db()?, w)))
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, w)| format!("coverage.{}.field", w.tag));
    let area = outcome
        .coverage
        .wanted
        .iter()
        .find(|w| w.area.is_some())
        .map(|w| format!("coverage.{}.people", w.tag));
    let listener = format!("coverage.{first}.people_stereo_roof");
    let level = |stage: Stage| -> Option<String> {
        Some(match stage {
            Stage::Microphones => "studio.microphone_level".to_owned(),
            Stage::Console => "studio.console_level".to_owned(),
            Stage::Processing => "studio.mpx_power".to_owned(),
            Stage::Link => format!("link.{main_hop}.received"),
            Stage::Transmitter => format!("transmission.{first}.power"),
            Stage::Feeder => format!("transmission.{first}.line_loss"),
            Stage::Antenna => format!("transmission.{first}.erp"),
            Stage::Field => worst_place.clone()?,
            Stage::Listener => listener.clone(),
            Stage::Sites => "energy.load".to_owned(),
            Stage::Money => "money.capital".to_owned(),
            Stage::Brief => return None,
        })
    };
    let margin = |stage: Stage| -> Option<String> {
        match stage {
            Stage::Antenna => Some(format!("licence.{first}.margin")),
            Stage::Feeder => least_margin(figures, |f| {
                f.id.starts_with(&format!("transmission.{first}.step"))
                    || f.id.starts_with(&format!("transmission.{first}.joint"))
            }),
            Stage::Listener => area.clone(),
            other => level(other),
        }
    };
    let there = |id: Option<String>| id.filter(|id| figures.iter().any(|f| f.id == *id));
    let with_margin =
        |id: Option<String>| id.filter(|id| figures.iter().any(|f| f.id == *id && f.margin.is_some()));
    Stage::CHAIN
        .into_iter()
        .chain([Stage::Sites, Stage::Money])
        .map(|stage| StageLine {
            stage,
            level: there(level(stage)),
            margin: with_margin(margin(stage)),
        })
        .collect()
}

/// The figure with the least room among some.
fn least_margin(figures: &[Figure], among: impl Fn(&Figure) -> bool) -> Option<String> {
    figures
        .iter()
        .filter(|f| among(f))
        .filter_map(|f| Some((f.margin.as_ref()?.in_hand.number()?, f)))
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, f)| f.id.clone())
}

fn bill_line(case: &Case, line: &Line) -> BillLine {
    BillLine {
        id: line.id.clone(),
        stage: line.stage,
        shelf: line.shelf.clone(),
        name: case
            .shelf
            .get(&line.shelf)
            .map_or_else(|| line.shelf.clone(), |s| s.name.clone()),
        quantity: f64::try_from(line.quantity).unwrap_or(0.0),
        per: Message::new(match line.per {
            Per::Each => "per-each",
            Per::Metre => "per-metre",
            Per::SquareMetre => "per-square-metre",
            Per::Day => "per-day",
            Per::Job => "per-job",
        }),
        each: line.each,
        line: line.line,
        cost: line.cost,
        mass_kg: line.mass_kg,
        why: line.added.map(|added| {
            Message::new(match added {
                Added::Connector => "added-connector",
                Added::Adapter => "added-adapter",
                Added::MastFoundation => "added-foundation",
            })
        }),
        mark: line.mark,
    }
}

/// An input that the file states.
fn stated(path: &str) -> Input {
    Input::Stated(path.to_owned())
}

/// Tag of an emission's transmitter.
fn tag_of(case: &Case, path: &EmissionPath) -> String {
    case.station
        .emission(&path.tag)
        .and_then(|e| e.transmitter.clone())
        .unwrap_or_else(|| path.tag.clone())
}
