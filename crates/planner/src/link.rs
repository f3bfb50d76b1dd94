//! The programme's way to the transmitter: every radio and codec of the shelf, tried on the path; an axis of the search, as a
//! new mast's height moves its end and its watts and rack units are carried by batteries and racks.

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
use station::place::{MastStatus, Site};
use station::shelf::{ItemKind, ShelfItem};

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

/// A way that the search may choose.
#[derive(Debug, Clone, Default)]
pub struct LinkChoice {
    /// Tag of the hop and what to write there; `None` where no way is open.
    pub hop: Option<(String, Json)>,
    /// Its price.
    pub price: f64,
    /// How far it is from working as asked ([`Trial::link_short`](crate::trial::Trial::link_short)), where no choice of the
    /// way into the air can change that: no mast at its ends is new.
    pub short: Option<u64>,
    /// Heights of its ends that the file states: (from, to).
    stated: (bool, bool),
}

/// The ways that the search chooses from: those of the first hop that the file leaves open, or of the main one that is
/// missing.
/// There is always one, if only the one that writes nothing.
///
/// # Errors
/// [`EditError`] when the document is not as its station says.
pub fn ways(around: &Case, draft: &Draft) -> Result<Vec<LinkChoice>, EditError> {
    let nothing = || vec![LinkChoice::default()];
    let Some(text) = Text::of(draft) else {
        return Ok(nothing());
    };
    let case = text.case(around);
    let open = open_hops(&case);
    let (tag, way, from, to) = match open.into_iter().next() {
        Some(first) => first,
        None if case.station.main_hop().is_none() => match ends(&case) {
            Some((from, to)) => (draft.fresh("L1"), None, from.tag.clone(), to.tag.clone()),
            None => return Ok(nothing()),
        },
        None => return Ok(nothing()),
    };
    let (Some(from), Some(to)) = (case.station.site(&from), case.station.site(&to)) else {
        return Ok(nothing());
    };
    let all = choices(around, draft, &case, &tag, way, (from, to))?;
    Ok(if all.is_empty() { nothing() } else { all })
}

/// Tag, way and ends of each hop without equipment.
fn open_hops(case: &Case) -> Vec<(String, Option<Way>, String, String)> {
    let open = |h: &&station::design::Hop| h.equipment.is_none() && h.way.value() != Some(&Way::SameBuilding);
    let ends = |h: &station::design::Hop| {
        (
            h.tag.clone(),
            h.way.value().copied(),
            h.from.clone(),
            h.to.clone(),
        )
    };
    case.station.hops.iter().filter(open).map(ends).collect()
}

/// Completes the other ways that the file leaves open, each with the cheapest that works as long as is asked, and the
/// reserve. The first is the search's own axis: [`ways`].
///
/// # Errors
/// [`EditError`] when the document is not as its station says.
pub fn complete(around: &Case, draft: &mut Draft) -> Result<(), EditError> {
    let Some(text) = Text::of(draft) else {
        return Ok(());
    };
    let case = text.case(around);
    for (tag, way, from, to) in open_hops(&case).into_iter().skip(1) {
        if let (Some(from), Some(to)) = (case.station.site(&from), case.station.site(&to)) {
            let all = choices(around, draft, &case, &tag, way, (from, to))?;
            let best = all
                .into_iter()
                .min_by(|a, b| a.short.cmp(&b.short).then(a.price.total_cmp(&b.price)));
            if let Some((path, table)) = best.and_then(|b| b.hop) {
                draft.set(format!("hops.{path}"), table)?;
            }
        }
    }
    reserve(&case, draft)
}

fn choices(
    around: &Case,
    draft: &Draft,
    case: &Case,
    tag: &str,
    way: Option<Way>,
    (from, to): (&Site, &Site),
) -> Result<Vec<LinkChoice>, EditError> {
    let path = format!("hops.{tag}");
    let stated = draft.node.at(&path).map(station::Node::to_json);
    let states = |key| stated.as_ref().is_some_and(|s| s.get(key).is_some());
    let firm = [from, to].iter().all(|s| s.mast.status != Some(MastStatus::New));
    let mut all = Vec::new();
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
        all.push(LinkChoice {
            short: firm.then(|| short_of(hop, &checked)),
            stated: (states("from_height"), states("to_height")),
            hop: Some((tag.to_owned(), table)),
            price: candidate.price,
        });
    }
    Ok(all)
}

/// How far a hop is from working as asked, by itself or with the reserve beside the way: 0 when it does; else a step for each tenth
/// of a percent of the year that it lacks, and ten for a path that is not clear.
pub fn short_of(hop: &link::HopCheck, whole: &link::Outcome) -> u64 {
    let wanted = hop.wanted_ratio.unwrap_or(0.999);
    let alone = hop.availability_ratio.unwrap_or(0.0);
    let beside_it = whole.hops.iter().any(|h| h.reserve != hop.reserve);
    let works = match whole.availability_ratio.filter(|_| beside_it) {
        Some(together) => alone.max(together),
        None => alone,
    };
    let blocked = matches!(&hop.radio, Some(Ok(r)) if !clears(r));
    let lacks = ((wanted - works) * 1000.0).ceil().max(0.0) as u64;
    lacks + if blocked { 10 } else { 0 }
}

/// Writes a way into a draft. `top_m` is the height above ground of the new mast at a site, where one is built.
///
/// # Errors
/// [`EditError`] when the document is not as its station says.
pub fn write(
    case: &Case,
    draft: &mut Draft,
    link: &LinkChoice,
    new_mast: Option<(&str, f64)>,
) -> Result<(), EditError> {
    let Some((tag, table)) = &link.hop else {
        return Ok(());
    };
    let mut table = table.clone();
    if let Some((site, top_m)) = new_mast
        && table["way"] == "radio"
    {
        let roof = case
            .station
            .site(site)
            .and_then(|s| s.mast.roof)
            .map_or(0.0, |r| r.m());
        let hung = |share: f64| agl((top_m * share - BELOW_TOP_M).max(roof + 1.0).max(2.0));
        if table["from"] == site && !link.stated.0 {
            table["from_height"] = hung(1.0);
        }
        if table["to"] == site && !link.stated.1 {
            table["to_height"] = hung(SHARE_OF_MAST);
        }
    }
    draft.set(format!("hops.{tag}"), table)
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
    // A fibre is there or it is not: only where the file says so. The other two can be had.
    let leased = match way {
        None => vec![Way::Internet, Way::MobileData],
        Some(stated) => vec![stated].into_iter().filter(|w| w.is_leased()).collect(),
    };
    for over in leased {
        all.extend(codecs(case, over).filter_map(|codec| {
            Some(Candidate {
                price: sell(codec)?,
                table: json!({ "way": over.word(), "equipment": codec.id }),
            })
        }));
    }
    all
}

/// Codecs of the shelf that send over a leased way.
fn codecs<'a>(case: &Case<'a>, over: Way) -> impl Iterator<Item = &'a ShelfItem> {
    let sends = move |s: &&ShelfItem| s.link.as_ref().is_some_and(|l| l.sends_over(over));
    let shelf: &'a station::Shelf = case.shelf;
    shelf.of(ItemKind::Codec).filter(sends)
}

/// A second way, when one is asked for and none is there: the cheapest codec over mobile data, or over the internet where the file
/// says that the main way goes over mobile data itself, as two ways over one network fail together.
fn reserve(case: &Case, draft: &mut Draft) -> Result<(), EditError> {
    let asked = case.station.brief.continuity.reserve_link == Some(true);
    let there = case.station.hops.iter().any(|h| !h.is_main());
    let (Some((from, to)), true, false) = (ends(case), asked, there) else {
        return Ok(());
    };
    let mobile = |h: &station::design::Hop| h.is_main() && h.way.value() == Some(&Way::MobileData);
    let over = match case.station.hops.iter().any(mobile) {
        true => Way::Internet,
        false => Way::MobileData,
    };
    let Some(codec) = cheapest(codecs(case, over)) else {
        return Ok(());
    };
    let tag = draft.fresh("L2");
    draft.set(
        format!("hops.{tag}"),
        json!({ "from": from.tag, "to": to.tag, "way": over.word(), "role": "reserve", "equipment": codec.id }),
    )
}
