//! The way into the air, written into a draft: transmitter, change-over, arrester, feeder, splitter, tails, bays, mast.

use crate::draft::Draft;
use crate::money::{cheapest, sell};
use crate::options::{AirChoice, Pick, Repair, TOP_ROOM_M, antenna_site, jumper};
use assess::Case;
use quantity::{Height, HeightAgl, Length};
use serde_json::{Value as Json, json};
use station::Shelf;
use station::chain::end_tag;
use station::design::ItemStatus;
use station::edit::EditError;
use station::place::MastStatus;
use station::shelf::{ItemKind, ShelfItem};

/// Length of a jumper inside a rack, m (common practice, no source).
const JUMPER_M: f64 = 2.0;
/// Distance between hangers on a mast, m (common practice, no source).
const HANGER_EVERY_M: f64 = 1.0;

/// A length as the file writes it.
pub fn length(m: f64) -> Json {
    Length::from_m((m * 1000.0).round() / 1000.0).to_string().into()
}

fn above_ground(m: f64) -> Json {
    let m = (m * 1000.0).round() / 1000.0;
    Height::AboveGround(HeightAgl::from_m(m)).file_form().into()
}

/// Kinds that belong to the way into the air and are chosen afresh where they do not stay.
fn is_air(kind: ItemKind) -> bool {
    use ItemKind::*;
    matches!(
        kind,
        Transmitter | ChangeOver | Arrester | Splitter | FeederFitting | Mast | Adapter | Connector
    )
}

fn bought(status: Option<ItemStatus>) -> bool {
    status.unwrap_or(ItemStatus::New) == ItemStatus::New
}

/// Takes away what a plan chose before: new things of the way into the air, new batteries and generators.
///
/// # Errors
/// [`EditError`] when the document is not as its station says.
pub fn clear(case: &Case, draft: &mut Draft) -> Result<(), EditError> {
    for cable in case.station.cables.iter().filter(|c| bought(c.status)) {
        draft.remove(format!("cables.{}", cable.tag))?;
    }
    for item in case.station.items.iter().filter(|i| bought(i.status)) {
        let kind = case.shelf.get(&item.shelf).map(|s| s.kind);
        if kind
            .is_some_and(|k| is_air(k) || matches!(k, ItemKind::Ups | ItemKind::Generator | ItemKind::Solar))
        {
            draft.remove(format!("items.{}", item.tag))?;
        }
    }
    let antenna = case.station.emissions.first().and_then(|e| e.antenna.as_deref());
    if let Some(antenna) = antenna
        .and_then(|t| case.station.antenna(t))
        .filter(|a| bought(a.status))
    {
        draft.remove(format!("antennas.{}.element", antenna.tag))?;
        draft.remove(format!("antennas.{}.splitter", antenna.tag))?;
    }
    if let Some(emission) = case.station.emissions.first() {
        let kept = emission.transmitter.as_deref().and_then(|t| case.station.item(t));
        if kept.is_none_or(|i| bought(i.status)) {
            draft.remove(format!("emissions.{}.transmitter", emission.tag))?;
        }
    }
    Ok(())
}

/// A radio-frequency run being laid: where it has got to.
struct Run<'a> {
    draft: &'a mut Draft,
    here: String,
    jumper: Option<String>,
}

impl Run<'_> {
    /// Joins the end of the run to a thing by a jumper.
    fn jump(&mut self, to: &str) -> Result<(), EditError> {
        if let Some(shelf) = self.jumper.clone() {
            let tag = self.draft.fresh("J1");
            self.cable(&tag, &shelf, to, JUMPER_M, 1)?;
        }
        Ok(())
    }

    fn cable(&mut self, tag: &str, shelf: &str, to: &str, m: f64, count: u32) -> Result<(), EditError> {
        let mut table = json!({ "shelf": shelf, "from": self.here, "to": to, "length": length(m) });
        if count > 1 {
            table["count"] = count.into();
        }
        self.draft.set(format!("cables.{tag}"), table)?;
        self.here = to.to_owned();
        Ok(())
    }
}

/// Rated output of a transmitter, W.
pub fn rated_w(case: &Case, pick: &Pick) -> Option<f64> {
    let id = match pick {
        Pick::Buy(id) => id.as_str(),
        Pick::Keep(tag) => &case.station.item(tag)?.shelf,
    };
    Some(case.shelf.get(id)?.transmitter.as_ref()?.output.w())
}

/// The cheapest thing of a kind in the line that bears a power.
fn inline(shelf: &Shelf, kind: ItemKind, power_w: f64) -> Option<&ShelfItem> {
    cheapest(shelf.of(kind).filter(|s| {
        s.inline
            .as_ref()
            .and_then(|i| i.power)
            .is_some_and(|p| p.w() >= power_w)
    }))
}

/// The change-over of a choice: a second transmitter is asked for, it is not put off, and the shelf has one that bears the first.
/// A shelf that has none leaves the brief's wish to be found missing (TX 09).
pub fn reserve<'a>(case: &Case<'a>, choice: &AirChoice) -> Option<&'a ShelfItem> {
    if !choice.reserve || case.station.brief.continuity.reserve_transmitter != Some(true) {
        return None;
    }
    let shelf: &'a Shelf = case.shelf;
    inline(shelf, ItemKind::ChangeOver, rated_w(case, &choice.transmitter)?)
}

/// The surge arrester for a transmitter.
pub fn arrester<'a>(case: &Case<'a>, pick: &Pick) -> Option<&'a ShelfItem> {
    let shelf: &'a Shelf = case.shelf;
    inline(shelf, ItemKind::Arrester, rated_w(case, pick)?)
}

/// Writes a choice into a draft that [`clear`] has been over. Returns the transmitter's tag.
///
/// # Errors
/// [`EditError`] when the document is not as its station says.
pub fn write(case: &Case, draft: &mut Draft, choice: &AirChoice) -> Result<(), EditError> {
    let (Some(emission), Some(site)) = (case.station.emissions.first(), antenna_site(case)) else {
        return Ok(());
    };
    let antenna = emission.antenna.clone().unwrap_or_else(|| draft.fresh("ANT1"));
    write_antenna(case, draft, choice, &antenna, &site.tag)?;
    let at = format!("emissions.{}", emission.tag);
    draft.set(format!("{at}.antenna"), antenna.as_str())?;
    draft.remove(format!("{at}.power"))?;

    let tx = match &choice.transmitter {
        Pick::Keep(tag) => tag.clone(),
        Pick::Buy(id) => {
            retire(case, draft)?;
            let tag = draft.fresh("TX1");
            draft.set(format!("items.{tag}"), json!({ "shelf": id, "place": site.tag }))?;
            tag
        }
    };
    draft.set(format!("{at}.transmitter"), tx.as_str())?;
    let jumper = jumper(case, rated_w(case, &choice.transmitter).unwrap_or(0.0)).map(|s| s.id.clone());
    let mut run = Run {
        draft,
        here: tx,
        jumper,
    };
    if let Some(change_over) = reserve(case, choice) {
        let shelf = match &choice.transmitter {
            Pick::Buy(id) => id.clone(),
            Pick::Keep(tag) => case
                .station
                .item(tag)
                .map(|i| i.shelf.clone())
                .unwrap_or_default(),
        };
        let spare = run.draft.fresh("TX2");
        run.draft.set(
            format!("items.{spare}"),
            json!({ "shelf": shelf, "place": site.tag, "reserve": true }),
        )?;
        let tag = run.draft.fresh("CO1");
        run.draft.set(
            format!("items.{tag}"),
            json!({ "shelf": change_over.id, "place": site.tag }),
        )?;
        run.jump(&tag)?;
    }
    if let Some(arrester) = arrester(case, &choice.transmitter) {
        let tag = run.draft.fresh("ARR1");
        run.draft.set(
            format!("items.{tag}"),
            json!({ "shelf": arrester.id, "place": site.tag }),
        )?;
        run.jump(&tag)?;
    }
    lay_feeder(case, &mut run, choice, &antenna, &site.tag)?;
    fittings(case, draft, choice, &site.tag)?;
    mast(case, draft, choice, site)
}

/// A kept transmitter that is replaced is taken away.
fn retire(case: &Case, draft: &mut Draft) -> Result<(), EditError> {
    let old = case
        .station
        .emissions
        .first()
        .and_then(|e| e.transmitter.as_deref());
    if let Some(item) = old
        .and_then(|t| case.station.item(t))
        .filter(|i| !bought(i.status))
    {
        draft.set(format!("items.{}.status", item.tag), "remove")?;
    }
    Ok(())
}

fn write_antenna(
    case: &Case,
    draft: &mut Draft,
    choice: &AirChoice,
    tag: &str,
    site: &str,
) -> Result<(), EditError> {
    let at = format!("antennas.{tag}");
    if let Some(repair) = choice.bays.keep {
        if repair == Repair::TurnedOver {
            draft.remove(format!("{at}.inverted_bays"))?;
        }
        return Ok(());
    }
    let bays = &choice.bays;
    let mut table = draft
        .node
        .at(&at)
        .map_or_else(|| json!({ "site": site }), station::Node::to_json);
    // Whatever told how known the old values were goes with them.
    table["height"] = above_ground(choice.height_m);
    table["bays"] = bays.bays.into();
    table["element"] = bays.element.as_str().into();
    let map = table.as_object_mut().expect("an antenna is a table");
    for gone in ["inverted_bays", "splitter", "status", "spacing", "polarisation"] {
        map.remove(gone);
    }
    if bays.bays > 1 {
        map.insert("spacing".into(), length(bays.spacing_m));
    }
    let licence = case
        .station
        .emissions
        .first()
        .and_then(|e| e.licence.polarisation.value().copied());
    let made = case
        .shelf
        .get(&bays.element)
        .and_then(|s| s.bay.as_ref())
        .map(|b| b.polarisation);
    if let (Some(wanted), Some(made)) = (licence, made)
        && wanted != made
    {
        map.insert("polarisation".into(), wanted.word().into());
    }
    draft.set(at, table)
}

fn lay_feeder(
    case: &Case,
    run: &mut Run,
    choice: &AirChoice,
    antenna: &str,
    site: &str,
) -> Result<(), EditError> {
    // A stack that stays keeps its splitter and tails: the feeder ends where the old one did.
    let old_end = crate::options::kept_feeder(case).map(|c| end_tag(&c.to).to_owned());
    let end = match (&choice.bays.keep, &choice.bays.splitter) {
        (Some(_), _) => old_end.unwrap_or_else(|| antenna.to_owned()),
        (None, Some(splitter)) => {
            let tag = run.draft.fresh("SP1");
            run.draft.set(
                format!("items.{tag}"),
                json!({ "shelf": splitter, "place": site }),
            )?;
            tag
        }
        (None, None) => antenna.to_owned(),
    };
    let kept = crate::options::kept_feeder(case).map(|c| c.tag.clone());
    match &choice.feeder {
        Pick::Keep(tag) => {
            run.draft.set(format!("cables.{tag}.from"), run.here.as_str())?;
            run.draft.set(format!("cables.{tag}.to"), end.as_str())?;
            run.here = end.clone();
        }
        Pick::Buy(id) => {
            if let Some(old) = kept {
                run.draft.set(format!("cables.{old}.status"), "remove")?;
            }
            let tag = run.draft.fresh("F1");
            run.cable(&tag, id, &end, choice.feeder_m, 1)?;
        }
    }
    if let (None, Some(tails)) = (&choice.bays.keep, &choice.bays.tails) {
        let at = format!("antennas.{antenna}.splitter");
        run.draft.set(at, end.as_str())?;
        let tag = run.draft.fresh("TAILS");
        run.cable(&tag, tails, antenna, choice.bays.tail_m(), choice.bays.bays)?;
    }
    Ok(())
}

/// Earth kits and hangers for a new feeder.
fn fittings(case: &Case, draft: &mut Draft, choice: &AirChoice, site: &str) -> Result<(), EditError> {
    let Pick::Buy(feeder) = &choice.feeder else {
        return Ok(());
    };
    for (tag, id, count) in fitting_list(case, feeder, choice.feeder_m) {
        draft.item(tag, &id, Some(site), count)?;
    }
    Ok(())
}

/// Earth kits at both ends and the mast's foot, a hanger every metre outdoors.
pub fn fitting_list(case: &Case, feeder: &str, feeder_m: f64) -> Vec<(&'static str, String, u32)> {
    let fits = |s: &&ShelfItem| s.for_lines.iter().any(|l| l == feeder);
    let by_use = |earth: bool| {
        cheapest(
            case.shelf
                .of(ItemKind::FeederFitting)
                .filter(fits)
                .filter(|s| s.name.to_lowercase().contains("earth") == earth),
        )
    };
    let outdoors = (feeder_m - crate::options::RUN_INDOORS_M).max(1.0);
    let mut list = Vec::new();
    if let Some(kit) = by_use(true) {
        list.push(("EARTH", kit.id.clone(), 3));
    }
    if let Some(hanger) = by_use(false) {
        list.push((
            "HANG",
            hanger.id.clone(),
            (outdoors / HANGER_EVERY_M).ceil() as u32,
        ));
    }
    list
}

/// The mast that is bought: shelf id, metres of it, its top above ground.
pub fn new_mast<'a>(
    case: &Case<'a>,
    choice: &AirChoice,
    site: &station::place::Site,
) -> Option<(&'a ShelfItem, u32, f64)> {
    if site.mast.status != Some(MastStatus::New) {
        return None;
    }
    let roof = site.mast.roof.map_or(0.0, |r| r.m());
    let top = choice.height_m + choice.bays.aperture_m() / 2.0 + TOP_ROOM_M;
    let shelf: &'a Shelf = case.shelf;
    let kind = site.mast.kind.value().copied();
    shelf
        .of(ItemKind::Mast)
        .filter_map(|s| {
            let ratings = s.mast.as_ref()?;
            if kind.is_some_and(|k| k != ratings.kind) {
                return None;
            }
            let metres = (top - roof).max(ratings.lowest.map_or(0.0, |l| l.m())).ceil();
            let tall = ratings.tallest.is_none_or(|t| metres <= t.m());
            let fixed = ratings.fixed.as_ref().map_or(0.0, |f| f.sell.to_f64());
            tall.then(|| Some((sell(s)? * metres + fixed, s, metres)))
                .flatten()
        })
        .min_by(|a, b| a.0.total_cmp(&b.0).then_with(|| a.1.id.cmp(&b.1.id)))
        .map(|(_, s, metres)| (s, metres as u32, roof + metres))
}

fn mast(
    case: &Case,
    draft: &mut Draft,
    choice: &AirChoice,
    site: &station::place::Site,
) -> Result<(), EditError> {
    let Some((shelf, metres, top)) = new_mast(case, choice, site) else {
        return Ok(());
    };
    let at = format!("sites.{}.mast", site.tag);
    draft.set(
        format!("{at}.height"),
        Json::from(HeightAgl::from_m(top).to_string()),
    )?;
    if let Some(ratings) = &shelf.mast {
        draft.set(format!("{at}.kind"), ratings.kind.word())?;
        if let Some(width) = ratings.width {
            draft.set(format!("{at}.width"), length(width.m()))?;
        }
    }
    draft.item("MAST1", &shelf.id, Some(&site.tag), metres)
}

/// Sell price of what a choice buys, without connectors, fittings and all that follows from it: no design with this
/// choice costs less.
pub fn least_price(case: &Case, choice: &AirChoice) -> Option<f64> {
    let price = |id: &str| case.shelf.get(id).and_then(sell);
    let mut sum = 0.0;
    if let Pick::Buy(id) = &choice.transmitter {
        sum += price(id)?;
    }
    if let Some(change_over) = reserve(case, choice) {
        let spare = match &choice.transmitter {
            Pick::Buy(id) => price(id),
            Pick::Keep(tag) => case.station.item(tag).and_then(|i| price(&i.shelf)),
        };
        sum += sell(change_over)? + spare.unwrap_or(0.0);
    }
    if let Some(arrester) = arrester(case, &choice.transmitter) {
        sum += sell(arrester)?;
    }
    if let Pick::Buy(id) = &choice.feeder {
        sum += price(id)? * choice.feeder_m;
    }
    if choice.bays.keep.is_none() {
        let bays = f64::from(choice.bays.bays);
        sum += price(&choice.bays.element)? * bays;
        if let Some(splitter) = &choice.bays.splitter {
            sum += price(splitter)?;
        }
        if let Some(tails) = &choice.bays.tails {
            sum += price(tails)? * choice.bays.tail_m() * bays;
        }
    }
    if let Some(site) = antenna_site(case)
        && let Some((shelf, metres, _)) = new_mast(case, choice, site)
    {
        sum += sell(shelf)? * f64::from(metres);
    }
    Some(sum)
}
