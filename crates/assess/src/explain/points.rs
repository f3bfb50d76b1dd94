//! The brief, point by point; the answer in one sentence; what is left out of the price; what to ask back.

use crate::assessment::Point;
use crate::case::Case;
use crate::figure::Value;
use crate::finding::{Finding, Severity};
use crate::outcome::Outcome;
use crate::proofs::studio::Need;
use crate::unit::Unit;
use station::shelf::ItemKind;
use words::Message;

/// The brief's points in the order a client would ask them.
pub fn points(case: &Case, outcome: &Outcome) -> Vec<Point> {
    let mut out = Vec::new();
    for check in &outcome.coverage.wanted {
        if let Some(Ok(at)) = &check.place {
            let name = case
                .station
                .brief
                .wanted
                .iter()
                .find(|w| w.tag == check.tag)
                .and_then(|w| case.station.place(w.place.as_deref()?))
                .map_or(check.tag.as_str(), |p| p.name.as_str());
            out.push(Point {
                label: Message::new("point-place")
                    .text("place", name)
                    .tag("service", check.service.word())
                    .tag("situation", check.situation.word().replace([' ', ','], "-")),
                asked: Value::of(at.threshold.wanted_dbuv_m, Unit::DbuvPerMetre),
                figure: format!("coverage.{}.field", check.tag),
                in_hand: Some(Value::of(at.margin_db, Unit::Decibel)),
                kept: at.margin_db >= 0.0,
            });
        }
        if let Some(area) = &check.area {
            let asked = area.wanted_ratio.unwrap_or(0.0) * area.people_total;
            out.push(Point {
                label: Message::new("point-area")
                    .quantity("radius", quantity::Length::from_km(area.radius_km))
                    .tag("service", check.service.word()),
                asked: Value::of(asked, Unit::People),
                figure: format!("coverage.{}.people", check.tag),
                in_hand: Some(Value::of(area.people - asked, Unit::People)),
                kept: area.people >= asked,
            });
        }
    }
    for check in &outcome.licence.emissions {
        if let (Some(tight), Some(erp)) = (check.tightest, check.erp_w) {
            out.push(Point {
                label: Message::new("point-erp").text("tag", check.tag.as_str()),
                asked: Value::of(erp, Unit::Watt),
                figure: format!("transmission.{}.erp", check.tag),
                in_hand: Some(Value::of(tight.margin_db(), Unit::Decibel)),
                kept: tight.margin_db() >= -crate::rules::LICENCE_TOLERANCE_DB,
            });
        }
    }
    if outcome.studio.has_studio {
        for (need, code) in [
            (Need::Microphones, "point-seats"),
            (Need::CleanFeeds, "point-callers"),
        ] {
            if let Some(count) = outcome.studio.count(need)
                && let Some(there) = count.there
                && count.needed > 0
            {
                out.push(Point {
                    label: Message::new(code),
                    asked: Value::of(f64::from(count.needed), Unit::Count),
                    figure: format!("studio.{}", need.word()),
                    in_hand: Some(Value::of(f64::from(there) - f64::from(count.needed), Unit::Count)),
                    kept: there >= count.needed,
                });
            }
        }
    }
    if let Some(least) = outcome
        .energy
        .sites
        .iter()
        .min_by(|a, b| a.reserve_h.total_cmp(&b.reserve_h))
        && let Some(wanted) = least.wanted_h
        && wanted > 0.0
    {
        out.push(Point {
            label: Message::new("point-without-mains").text("site", least.tag.as_str()),
            asked: Value::of(wanted, Unit::Hour),
            figure: format!("energy.{}.reserve", least.tag),
            in_hand: Some(Value::of(least.reserve_h - wanted, Unit::Hour)),
            kept: least.reserve_h >= wanted,
        });
    }
    if let Some((budget, left)) = outcome.money.budget {
        out.push(Point {
            label: Message::new("point-price"),
            asked: Value::Money(budget),
            figure: "money.capital".into(),
            in_hand: Some(Value::Money(left)),
            kept: left.to_f64() >= 0.0,
        });
    }
    if !case.station.has_design() {
        // Asked, and not answered yet: nothing is in hand and nothing short.
        for point in &mut out {
            (point.in_hand, point.kept) = (None, false);
        }
    }
    out
}

/// Who hears it, what it costs, what it keeps: one sentence.
pub fn sentence(outcome: &Outcome, points: &[Point]) -> Message {
    let kept = points.iter().filter(|p| p.kept).count() as i64;
    let Some(covered) = outcome
        .coverage
        .emissions
        .first()
        .filter(|c| !c.served.is_empty())
    else {
        return Message::new("sentence-brief").count("points", points.len() as i64);
    };
    let tens = |people: f64| ((people / 10.0).round() * 10.0) as i64;
    let money = &outcome.money;
    let whole = match money.other_currency.is_empty() {
        true => "sentence-station",
        false => "sentence-station-in-part",
    };
    Message::new(whole)
        .count("people", tens(covered.served[0].people))
        .count("total", tens(covered.people_total))
        .amount(
            "price",
            money.capital.to_f64(),
            quantity::Digits::Decimals(0),
            money.currency.code(),
        )
        .count("kept", kept)
        .count("points", points.len() as i64)
}

/// What stands before a signature; before there is a design, what answers the brief.
pub fn lead(case: &Case, findings: &[Finding]) -> Message {
    if !case.station.has_design() {
        return Message::new("lead-no-design");
    }
    let of = |severity| findings.iter().filter(|f| f.severity == severity).count() as i64;
    Message::new("lead")
        .count("errors", of(Severity::Error))
        .count("warnings", of(Severity::Warning))
}

/// What is not in the price, from what is absent.
pub fn excluded(case: &Case, outcome: &Outcome) -> Vec<Message> {
    let mut out = Vec::new();
    let brief = &case.station.brief;
    let has = |kind: ItemKind| outcome.money.lines.iter().any(|l| l.kind == kind);
    let mut absent = |code: &'static str, is: bool| {
        if is {
            out.push(Message::new(code));
        }
    };
    absent("excluded-tax", outcome.money.value_added_tax.is_none());
    absent("excluded-freight", outcome.money.freight.is_none());
    absent("excluded-duty", outcome.money.duty.is_none());
    absent(
        "excluded-licence-fee",
        brief.running.licence_fee.value().is_none(),
    );
    absent(
        "excluded-music-rights",
        brief.running.music_rights.value().is_none(),
    );
    absent("excluded-staff", brief.running.staff.value().is_none());
    absent("excluded-mast", !has(ItemKind::Mast));
    absent("excluded-installation", !has(ItemKind::Service));
    absent("excluded-spares", !has(ItemKind::Spares));
    absent(
        "excluded-acoustics",
        !has(ItemKind::Acoustics) && outcome.studio.has_studio,
    );
    absent(
        "excluded-furniture",
        !has(ItemKind::Furniture) && outcome.studio.has_studio,
    );
    absent("excluded-generator", !has(ItemKind::Generator));
    absent(
        "excluded-reserve",
        !outcome.money.lines.iter().any(|l| l.kind == ItemKind::ChangeOver),
    );
    absent("excluded-building", true);
    absent("excluded-contingency", true);
    out.extend(
        outcome
            .money
            .lines
            .iter()
            .filter(|l| l.line.is_none())
            .map(|l| Message::new("excluded-no-price").text("id", l.id.as_str())),
    );
    out
}

/// Questions to send back: what is assumed and matters, what is not known.
pub fn questions(case: &Case, outcome: &Outcome) -> Vec<Message> {
    let brief = &case.station.brief;
    let mut out = Vec::new();
    let mut ask = |code: &'static str, is: bool| {
        if is {
            out.push(Message::new(code));
        }
    };
    let emission = case.station.emissions.first();
    ask(
        "question-frequency",
        emission.is_none_or(|e| !matches!(e.frequency, station::Known::Stated(_))),
    );
    ask(
        "question-licence",
        emission.is_none_or(|e| !matches!(e.licence.erp, station::Known::Stated(_))),
    );
    ask("question-where", brief.wanted.is_empty());
    ask("question-site", case.station.sites.is_empty());
    ask("question-budget", brief.budget.value().is_none());
    ask(
        "question-seats",
        matches!(brief.seats.guests, station::Known::Assumed(_)),
    );
    ask(
        "question-callers",
        matches!(brief.seats.callers, station::Known::Assumed(_)),
    );
    ask(
        "question-cuts",
        matches!(brief.continuity.without_mains, station::Known::Assumed(_)),
    );
    ask(
        "question-existing",
        case.station
            .items
            .iter()
            .all(|i| i.status.is_none_or(|s| s == station::design::ItemStatus::New)),
    );
    ask("question-exposure", outcome.exposure.points.is_empty());
    out
}
