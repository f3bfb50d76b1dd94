//! How each sheet opens: one or two sentences that say how it stands, resting on figures.

use super::view::language;
use crate::office::Assessed;
use assess::figure::Stage;
use assess::finding::Severity;
use assess::said::{Piece, SaidFigure};
use assess::say::{joined, show_number};
use assess::unit::Unit;
use quantity::Locale;
use server::view::Opening;
use words::Message;

/// The first sentence of each sheet that has its own.
pub fn openings(assessed: &Assessed, locale: &Locale) -> Vec<Opening> {
    [
        studio_opening(assessed),
        link_opening(assessed, locale),
        antenna_opening(assessed, locale),
        coverage_opening(assessed, locale),
        sites_opening(assessed),
        money_opening(assessed),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// A sheet that opens with these pieces.
fn with(sheet: &str, sentence: Vec<Piece>) -> Opening {
    Opening {
        sheet: sheet.into(),
        sentence,
        lead: None,
    }
}

/// A message as a piece that rests on a figure.
fn piece(assessed: &Assessed, message: &Message, figure: Option<String>) -> Option<Piece> {
    let text = words::say_best(message, language(assessed)).ok()?.text;
    Some(Piece { text, figure })
}

/// The first error of some stages, as a second sentence.
fn worst(assessed: &Assessed, stages: &[Stage]) -> Option<Piece> {
    let findings = &assessed.sheet.findings;
    let worst = findings
        .iter()
        .find(|f| f.severity == Severity::Error && stages.contains(&f.stage))?;
    Some(Piece {
        text: format!(" {}", worst.says),
        figure: worst.figures.first().cloned(),
    })
}

/// How the studio's sheet opens: who talks, what is in hand, what is worst.
fn studio_opening(assessed: &Assessed) -> Option<Opening> {
    let studio = &assessed.outcome.studio;
    if !studio.has_studio {
        return None;
    }
    let speakers = i64::from(studio.speakers);
    let headroom = figure(assessed, "studio.console_level").filter(|_| studio.headroom_db.is_some());
    let first = match studio.headroom_db.zip(headroom) {
        Some((db, figure)) => {
            let headroom = joined(&show_number(db, Unit::Decibel, language(assessed).locale()));
            let message = Message::new("opening-studio-headroom")
                .count("speakers", speakers)
                .text("headroom", headroom);
            piece(assessed, &message, Some(figure.id.clone()))?
        }
        None => piece(
            assessed,
            &Message::new("opening-studio").count("speakers", speakers),
            None,
        )?,
    };
    let stages = [Stage::Microphones, Stage::Console, Stage::Processing];
    let sentence = std::iter::once(first).chain(worst(assessed, &stages));
    Some(with("studio", sentence.collect()))
}

/// How the link's sheet opens: how far, what is in hand, what a year loses.
fn link_opening(assessed: &Assessed, locale: &Locale) -> Option<Opening> {
    let hop = assessed.outcome.link.hops.iter().find(|h| !h.reserve)?;
    let id = |what: &str| Some(format!("link.{}.{what}", hop.tag));
    let shown = |n: f64, unit: Unit| joined(&show_number(n, unit, locale));
    let first = match &hop.radio {
        Some(Ok(radio)) => {
            let margin = radio.summary.median.levels.fade_margin_db;
            let minutes = radio.summary.availability.minutes_per_year;
            let code = match minutes {
                _ if margin < 0.0 => "opening-link-short",
                Some(_) => "opening-link-lost",
                None => "opening-link",
            };
            let mut message = Message::new(code)
                .text("path", shown(radio.summary.path_km, Unit::Kilometre))
                .text("frequency", shown(radio.freq_ghz, Unit::Gigahertz))
                .text("margin", shown(margin.abs(), Unit::Decibel));
            if let Some(minutes) = minutes.filter(|_| code == "opening-link-lost") {
                message = message.text("minutes", show_number(minutes, Unit::MinutePerYear, locale).text);
            }
            piece(assessed, &message, id("margin"))?
        }
        Some(Err(_)) => return None,
        None => {
            let message = Message::new("opening-link-line")
                .tag("way", hop.way?.variant())
                .text(
                    "availability",
                    shown(100.0 * hop.availability_ratio?, Unit::FinePercent),
                );
            piece(assessed, &message, id("availability"))?
        }
    };
    let sentence = std::iter::once(first).chain(worst(assessed, &[Stage::Link]));
    Some(with("link", sentence.collect()))
}

/// How the antenna's sheet opens: power in, power out, room within the licence.
fn antenna_opening(assessed: &Assessed, locale: &Locale) -> Option<Opening> {
    let path = assessed.outcome.transmission.emissions.first()?;
    let check = assessed.outcome.licence.emissions.first()?;
    let (power, erp, tight) = (path.power_w?, path.erp_w?, check.tightest?);
    let watts = |w: f64| joined(&show_number(w, Unit::Watt, locale));
    let margin = tight.margin_db();
    let code = if margin >= -0.005 {
        "opening-antenna"
    } else {
        "opening-antenna-over"
    };
    let message = Message::new(code)
        .text("power", watts(power))
        .text("erp", watts(erp))
        .text(
            "margin",
            joined(&show_number(margin.abs(), Unit::Decibel, locale)),
        );
    opening(
        assessed,
        "antenna",
        &message,
        &format!("transmission.{}.erp", path.tag),
    )
}

/// A figure of the sheet, by id.
fn figure<'a>(assessed: &'a Assessed, id: &str) -> Option<&'a SaidFigure> {
    assessed.sheet.figures.iter().find(|f| f.id == id)
}

/// A sheet that opens with one sentence, which rests on one figure.
fn opening(assessed: &Assessed, sheet: &str, message: &Message, figure: &str) -> Option<Opening> {
    Some(with(
        sheet,
        vec![piece(assessed, message, Some(figure.to_owned()))?],
    ))
}

/// How the sites' sheet opens: what they draw, and how far the public stays.
fn sites_opening(assessed: &Assessed) -> Option<Opening> {
    let stage = assessed.sheet.stages.iter().find(|s| s.stage == Stage::Sites)?;
    let drawn = stage.level_figure.as_deref()?;
    let tag = &assessed.outcome.transmission.emissions.first()?.tag;
    let public = figure(assessed, &format!("exposure.{tag}.public"))?;
    let message = Message::new("opening-sites")
        .text("drawn", joined(stage.level.as_ref()?))
        .text("public", joined(&public.value));
    opening(assessed, "sites", &message, drawn)
}

/// How the money's sheet opens: to build and each year.
fn money_opening(assessed: &Assessed) -> Option<Opening> {
    let value = |id: &str| figure(assessed, id).map(|f| joined(&f.value));
    let message = Message::new("opening-money")
        .text("capital", value("money.capital")?)
        .text("yearly", value("money.yearly")?)
        .text("over", value("money.over_years")?);
    opening(assessed, "money", &message, "money.capital")
}

/// How the coverage sheet opens: who hears it, and the place that is worst off.
fn coverage_opening(assessed: &Assessed, locale: &Locale) -> Option<Opening> {
    let outcome = &assessed.outcome.coverage;
    let tag = &assessed.outcome.transmission.emissions.first()?.tag;
    let served = outcome.emissions.first()?.served.first()?;
    let worst = outcome
        .wanted
        .iter()
        .filter_map(|w| Some((w, w.place.as_ref()?.as_ref().ok()?)))
        .min_by(|a, b| a.1.margin_db.total_cmp(&b.1.margin_db));
    let people = joined(&show_number(served.people, Unit::People, locale));
    let hears = Message::new("opening-coverage").text("people", people);
    let mut sentence = vec![piece(
        assessed,
        &hears,
        Some(format!("coverage.{tag}.people_stereo_roof")),
    )?];
    if let Some((wish, at)) = worst {
        let wanted = assessed.station.brief.wanted.iter().find(|w| w.tag == wish.tag);
        let place = wanted.and_then(|w| assessed.station.place(w.place.as_deref()?));
        let code = if at.margin_db < 0.0 {
            "opening-coverage-short"
        } else {
            "opening-coverage-in-hand"
        };
        let message = Message::new(code)
            .text(
                "place",
                place.map_or_else(|| wish.tag.clone(), |p| p.name.clone()),
            )
            .text(
                "field",
                joined(&show_number(at.field_dbuv_m, Unit::DbuvPerMetre, locale)),
            )
            .text(
                "margin",
                joined(&show_number(at.margin_db.abs(), Unit::Decibel, locale)),
            );
        let second = piece(assessed, &message, Some(format!("coverage.{}.field", wish.tag)))?;
        sentence.push(Piece {
            text: format!(" {}", second.text),
            ..second
        });
    }
    Some(with("coverage", sentence))
}
