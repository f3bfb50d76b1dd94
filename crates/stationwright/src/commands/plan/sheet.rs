//! A plan as JSON: stable keys, every number with its unit in its key.

use crate::office::Assessed;
use planner::answer::{Neighbour, Now, Offer, Step};
use planner::{Pick, Plan};
use serde_json::{Value, json};

fn pick(pick: &Pick) -> Value {
    match pick {
        Pick::Keep(tag) => json!({ "keep": tag }),
        Pick::Buy(id) => json!({ "buy": id }),
    }
}

fn offer(offer: &Offer) -> Value {
    let outcome = &offer.trial.outcome;
    let path = outcome.transmission.emissions.first();
    let choice = &offer.choice;
    json!({
        "holds": offer.holds,
        "transmitter": pick(&choice.transmitter),
        "feeder": pick(&choice.feeder),
        "feeder_m": choice.feeder_m,
        "element": choice.bays.element,
        "bays": choice.bays.bays,
        "splitter": choice.bays.splitter,
        "height_agl_m": choice.height_m,
        "transmitter_w": path.and_then(|p| p.power_w),
        "erp_w": path.and_then(|p| p.erp_w),
        "line_loss_db": path.map(|p| p.loss_db()),
        "antenna_feed_loss_db": path.and_then(|p| p.radiating.as_ref().ok()).map(|r| r.feed_loss_db),
        "exposure_public_screening_m": outcome.exposure.emissions.first().map(|e| e.public_m),
        "exposure_public_m": outcome.exposure.emissions.first().map(|e| e.public_printed_m()),
        "link_margin_db": outcome.link.hops.iter().filter(|h| !h.reserve).find_map(|h| Some(h.radio.as_ref()?.as_ref().ok()?.summary.median.levels.fade_margin_db)),
        "least_margin_db": offer.trial.least_margin_db(),
        "people_stereo": offer.trial.people(),
        "capital": outcome.money.capital.file_form(),
        "over_years": outcome.money.over_years.file_form(),
        "years": outcome.money.years,
        "under_licence_db": offer.trial.under_db,
        "blocking": offer.trial.blocking.iter().map(|f| f.code).collect::<Vec<_>>(),
        "wishes_missed": offer.trial.unmet,
    })
}

fn neighbour(one: &Neighbour) -> Value {
    let mut value = offer(&one.offer);
    value["axis"] = one.axis.word().into();
    value["step"] = if one.more { "more" } else { "less" }.into();
    value
}

fn now(now: &Now) -> Value {
    let steps = |steps: &[Step]| -> Vec<Value> {
        let one = |s: &Step| json!({ "id": s.id, "count": s.count, "price": s.price.file_form(), "total": s.total.file_form() });
        steps.iter().map(one).collect()
    };
    json!({
        "on_air": now.on_air,
        "price": now.price.file_form(),
        "erp_w": now.erp_w,
        "bought": steps(&now.bought),
        "next": steps(&now.next),
        "breaks": now.breaks.iter().map(|f| f.code).collect::<Vec<_>>(),
        "edits": now.edits,
    })
}

/// The whole answer.
pub fn sheet(plan: &Plan, assessed: &Assessed) -> Value {
    json!({
        "name": assessed.sheet.name,
        "tier": plan.tier.letter(),
        "chosen": offer(&plan.chosen),
        "neighbours": plan.neighbours.iter().map(neighbour).collect::<Vec<_>>(),
        "wishes": plan.wishes.iter().map(|w| json!({
            "tag": w.tag, "kept": w.kept, "margin_db": w.margin_db, "at_best_db": w.at_best_db,
            "on_offer_db": w.on_offer_db, "impossible": !w.possible,
            "area": w.area.map(|(served, wanted, km)| json!({ "served_ratio": served, "wanted_ratio": wanted, "radius_km": km })),
        })).collect::<Vec<_>>(),
        "budget": plan.budget.as_ref().map(|b| json!({
            "asked": b.asked.file_form(),
            "missing": b.missing.map(|m| m.file_form()),
            "now": b.now.as_ref().map(now),
        })),
        "presumed": plan.presumed,
        "edits": plan.chosen.trial.edits,
        "assumptions": assessed.assessment.assumptions,
        "designs": plan.looked_at.designs,
        "designs_possible": plan.looked_at.possible,
        "designs_evaluated": plan.looked_at.evaluated,
    })
}
