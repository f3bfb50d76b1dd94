//! The programme's way to the transmitter: every radio and codec of the shelf tried on the path, cheapest that holds.

use crate::draft::Draft;
use crate::money::{cheapest, sell};
use crate::options::antenna_site;
use crate::trial::Text;
use assess::Case;
use assess::proofs::link;
use quantity::{Frequency, HeightAgl};
use serde_json::{Value as Json, json};
use station::design::{RoomKind, Way};
use station::edit::EditError;
use station::place::Site;
use station::shelf::ItemKind;

/// A link antenna hangs this far below the top of its mast, m (common practice, no source).
const BELOW_TOP_M: f64 = 1.0;
/// Share of the transmitter mast's height at which the link antenna hangs, clear of the bays (common practice).
const SHARE_OF_MAST: f64 = 0.6;

/// Sites of the on-air room and of the antenna, where they differ.
fn ends<'a>(case: &Case<'a>) -> Option<(&'a Site, &'a Site)> {
    let station: &'a station::Station = case.station;
    let room = station.rooms.iter().find(|r| r.kind == RoomKind::OnAir)?;
    let (from, to) = (station.site(&room.site)?, antenna_site(case)?);
    (from.tag != to.tag).then_some((from, to))
}

/// One way that could be taken: what to write for it, and its price.
struct Candidate {
    table: Json,
    price: f64,
}

/// Completes the ways that the file leaves open, or adds the one that is missing: the cheapest that works as long as is
/// asked, else the one that works longest.
///
/// # Errors
/// [`EditError`] when the document is not as its station says.
pub fn complete(around: &Case, draft: &mut Draft) -> Result<(), EditError> {
    let Some(text) = Text::of(draft) else {
        return Ok(());
    };
    let case = text.case(around);
    let open: Vec<_> = case
        .station
        .hops
        .iter()
        .filter(|h| h.equipment.is_none() && h.way.value() != Some(&Way::SameBuilding))
        .map(|h| {
            (
                h.tag.clone(),
                h.way.value().copied(),
                h.from.clone(),
                h.to.clone(),
            )
        })
        .collect();
    for (tag, way, from, to) in open {
        if let (Some(from), Some(to)) = (case.station.site(&from), case.station.site(&to)) {
            choose(around, draft, &case, &tag, way, (from, to))?;
        }
    }
    if case.station.hops.is_empty()
        && let Some((from, to)) = ends(&case)
    {
        let tag = draft.fresh("L1");
        choose(around, draft, &case, &tag, None, (from, to))?;
    }
    reserve(&case, draft)
}

fn choose(
    around: &Case,
    draft: &mut Draft,
    case: &Case,
    tag: &str,
    way: Option<Way>,
    (from, to): (&Site, &Site),
) -> Result<(), EditError> {
    let path = format!("hops.{tag}");
    let stated = draft.node.at(&path).map(station::Node::to_json);
    let mut best: Option<(bool, f64, f64, Json)> = None;
    for candidate in candidates(case, way, from, to) {
        let mut table = json!({ "from": from.tag, "to": to.tag });
        for part in [Some(&candidate.table), stated.as_ref()].into_iter().flatten() {
            for (key, value) in part.as_object().into_iter().flatten() {
                table[key.as_str()] = value.clone();
            }
        }
        let mut trial = Draft::of(&draft.node);
        trial.set(path.clone(), table.clone())?;
        let Some(text) = Text::of(&trial) else { continue };
        let checked = link::evaluate(&text.case(around));
        let Some(hop) = checked.hops.iter().find(|h| h.tag == tag) else {
            continue;
        };
        let works = hop.availability_ratio.unwrap_or(0.0);
        let clear = !matches!(&hop.radio, Some(Ok(r)) if !clears(r));
        let holds = clear && works >= hop.wanted_ratio.unwrap_or(0.999);
        let better = best.as_ref().is_none_or(|(h, w, p, _)| match (holds, h) {
            (true, true) => candidate.price < *p,
            (false, false) => works > *w,
            (now, _) => now,
        });
        if better {
            best = Some((holds, works, candidate.price, table));
        }
    }
    match best {
        Some((.., table)) => draft.set(path, table),
        None => Ok(()),
    }
}

fn clears(radio: &link::RadioCheck) -> bool {
    radio.summary.clearance_met
}

fn agl(m: f64) -> Json {
    quantity::Height::AboveGround(HeightAgl::from_m((m * 10.0).round() / 10.0))
        .file_form()
        .into()
}

fn candidates(case: &Case, way: Option<Way>, from: &Site, to: &Site) -> Vec<Candidate> {
    let mut all = Vec::new();
    if way.is_none_or(|w| w == Way::Radio) {
        let top = |site: &Site, share: f64| {
            let height = site.mast.height.value().map_or(10.0, |h| h.m());
            let roof = site.mast.roof.map_or(0.0, |r| r.m());
            agl((height * share - BELOW_TOP_M).max(roof + 1.0).max(2.0))
        };
        for radio in case.shelf.of(ItemKind::LinkRadio) {
            let Some((low, high)) = radio.link.as_ref().and_then(|l| l.from.zip(l.to)) else {
                continue;
            };
            let carrier = Frequency::from_ghz(((low.ghz() + high.ghz()) / 2.0 * 1000.0).round() / 1000.0);
            for dish in case.shelf.of(ItemKind::LinkAntenna) {
                let fits = dish
                    .link
                    .as_ref()
                    .and_then(|l| l.from.zip(l.to))
                    .is_some_and(|(a, b)| (a.ghz()..=b.ghz()).contains(&carrier.ghz()));
                let (Some(each), Some(dishes), true) = (sell(radio), sell(dish), fits) else {
                    continue;
                };
                all.push(Candidate {
                    price: each + 2.0 * dishes,
                    table: json!({
                        "way": "radio", "frequency": carrier.to_string(), "equipment": radio.id, "dish": dish.id,
                        "from_height": top(from, 1.0), "to_height": top(to, SHARE_OF_MAST), "line_loss": "0.5 dB",
                    }),
                });
            }
        }
    }
    let leased = match way {
        None => Some(Way::Internet),
        Some(w @ (Way::Internet | Way::Fibre | Way::MobileData)) => Some(w),
        Some(_) => None,
    };
    for codec in leased.into_iter().flat_map(|_| case.shelf.of(ItemKind::Codec)) {
        let word = leased.map_or("internet", |w| w.word());
        all.extend(sell(codec).map(|price| Candidate {
            price,
            table: json!({ "way": word, "equipment": codec.id }),
        }));
    }
    all
}

/// A second way, when one is asked for and none is there: the cheapest codec over mobile data.
fn reserve(case: &Case, draft: &mut Draft) -> Result<(), EditError> {
    let asked = case.station.brief.continuity.reserve_link == Some(true);
    let there = case
        .station
        .hops
        .iter()
        .any(|h| h.role == Some(station::design::Role::Reserve));
    let (Some((from, to)), true, false) = (ends(case), asked, there) else {
        return Ok(());
    };
    let Some(codec) = cheapest(case.shelf.of(ItemKind::Codec)) else {
        return Ok(());
    };
    let tag = draft.fresh("L2");
    draft.set(
        format!("hops.{tag}"),
        json!({ "from": from.tag, "to": to.tag, "way": "mobile data", "role": "reserve", "equipment": codec.id }),
    )
}
