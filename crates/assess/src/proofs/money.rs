//! Money: the bill line by line, cost and sell price apart; capital and running cost over the years.

use crate::case::Case;
use crate::figure::Stage;
use crate::proofs::{energy, transmission};
use quantity::{Currency, Decimal, Money};
use station::Mark;
use station::design::ItemStatus;
use station::exchange::{Exchange, exchanged};
use station::shelf::{ItemKind, Per, Price, ShelfItem};

/// What it costs.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    /// The currency everything is counted in.
    pub currency: Currency,
    /// The bill.
    pub lines: Vec<Line>,
    /// Sum of the lines' sell prices.
    pub goods: Money,
    /// The part of it that is work.
    pub work: Money,
    /// Freight, where known.
    pub freight: Option<Money>,
    /// Import duty on goods, where known.
    pub duty: Option<Money>,
    /// What the client pays to have it built: goods, work, freight, duty. Without value-added tax.
    pub capital: Money,
    /// Value-added tax on it, where a rate is known.
    pub value_added_tax: Option<Money>,
    /// The same at cost prices: for the builder only.
    pub cost: Option<Money>,
    /// Budget, and what is left of it.
    pub budget: Option<(Money, Money)>,
    /// Running cost a year, part by part.
    pub running: Vec<(Running, Money)>,
    /// Running cost a year.
    pub yearly: Money,
    /// Years counted over.
    pub years: f64,
    /// Present value of capital and running cost over the years.
    pub over_years: Money,
    /// What is in a currency without a rate, and so in no sum: the line or the key, and its currency.
    pub other_currency: Vec<(String, Currency)>,
    /// Mass of all goods packed, kg, and whether every line says its mass.
    pub mass_kg: (f64, bool),
}

/// One line of the bill.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// The item's or cable's tag, with what belongs to it behind a dot.
    pub id: String,
    /// Shelf id.
    pub shelf: String,
    /// Stage of the chain.
    pub stage: Stage,
    /// Kind of thing.
    pub kind: ItemKind,
    /// How many, metres, days.
    pub quantity: Decimal,
    /// By what it is counted.
    pub per: Per,
    /// What the client pays for one.
    pub each: Option<Money>,
    /// What the client pays.
    pub line: Option<Money>,
    /// What it costs the builder.
    pub cost: Option<Money>,
    /// Mass, packed where known, kg.
    pub mass_kg: Option<f64>,
    /// Why it is there.
    pub added: Option<Added>,
    /// Age of its price in days.
    pub price_age_days: Option<i64>,
    /// How good its price is.
    pub mark: Mark,
}

/// Why a line was added by rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Added {
    /// Fitted to a cable's end.
    Connector,
    /// Two sides do not mate.
    Adapter,
    /// What stands under the mast before its first metre.
    MastFoundation,
}

/// A part of the running cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Running {
    /// Electrical energy.
    Energy,
    /// Rent of sites.
    Rent,
    /// Leased ways.
    Ways,
    /// Upkeep.
    Maintenance,
    /// Insurance.
    Insurance,
    /// Licence fee.
    LicenceFee,
    /// Music rights.
    MusicRights,
    /// Staff.
    Staff,
}

/// Where on the chain a kind of thing is priced.
pub fn stage_of(kind: ItemKind) -> Stage {
    use ItemKind::*;
    match kind {
        Microphone | Arm | Headphones | HeadphoneAmplifier | Loudspeaker | OnAirLight | Furniture
        | Acoustics => Stage::Microphones,
        Console | Hybrid | Playout | EmergencyPlayer | Rack | AudioCable => Stage::Console,
        Processor | RdsEncoder => Stage::Processing,
        LinkRadio | LinkAntenna | Codec => Stage::Link,
        Transmitter | ChangeOver | Filter => Stage::Transmitter,
        Feeder | Connector | Adapter | Arrester | FeederFitting => Stage::Feeder,
        Splitter | Bay => Stage::Antenna,
        Mast | Ups | Generator | Solar | Cooling => Stage::Sites,
        Service | Spares => Stage::Money,
    }
}

/// Adds everything up.
pub fn evaluate(case: &Case, transmission: &transmission::Outcome, energy: &energy::Outcome) -> Outcome {
    let currency = case.station.counted_in();
    let mut purse = Purse {
        currency,
        rates: &case.station.exchange,
        other: Vec::new(),
    };
    let lines = lines(case, transmission, &mut purse);
    let zero = Money::zero(currency);
    let sum = |lines: &mut dyn Iterator<Item = &Line>| {
        lines
            .filter_map(|l| l.line)
            .fold(zero, |total, m| total.checked_add(m).unwrap_or(total))
    };
    let is_work = |l: &&Line| l.kind == ItemKind::Service;
    let goods = sum(&mut lines.iter());
    let work = sum(&mut lines.iter().filter(is_work));
    let delivery = &case.station.brief.delivery;
    let freight = purse.known("brief.delivery.freight", &delivery.freight);
    let share = |of: Money, pct: f64| of.checked_mul(decimal(pct / 100.0)).map(Money::rounded);
    let duty = delivery
        .duty
        .value()
        .and_then(|rate| share(goods.checked_sub(work).unwrap_or(goods), rate.pct()));
    let capital = [freight, duty]
        .into_iter()
        .flatten()
        .fold(goods, |t, m| t.checked_add(m).unwrap_or(t));
    let cost = lines
        .iter()
        .filter(|l| l.line.is_some())
        .map(|l| l.cost)
        .try_fold(zero, |t, m| m.and_then(|m| t.checked_add(m)));
    let budget = purse.known("brief.budget", &case.station.brief.budget);
    let budget = budget.and_then(|b| Some((b, b.checked_sub(capital)?)));
    let running = running(case, energy, capital, &mut purse);
    let yearly = running
        .iter()
        .fold(zero, |t, (_, m)| t.checked_add(*m).unwrap_or(t));
    let years = case.station.brief.horizon.value().map_or(10.0, |h| h.years());
    let rate = case
        .station
        .brief
        .discount_rate
        .value()
        .map_or(0.05, |r| r.pct() / 100.0);
    let over_years = yearly
        .checked_mul(decimal(annuity_factor(rate, years)))
        .map(Money::rounded)
        .and_then(|m| m.checked_add(capital))
        .unwrap_or(capital);
    Outcome {
        value_added_tax: delivery
            .value_added_tax
            .value()
            .and_then(|rate| share(capital, rate.pct())),
        other_currency: purse.other,
        mass_kg: (
            lines.iter().filter_map(|l| l.mass_kg).sum(),
            lines
                .iter()
                .filter(|l| l.kind != ItemKind::Service)
                .all(|l| l.mass_kg.is_some()),
        ),
        currency,
        lines,
        goods,
        work,
        freight,
        duty,
        capital,
        cost,
        budget,
        running,
        yearly,
        years,
        over_years,
    }
}

/// Present value of one unit a year over some years: (1 − (1+r)^−n)/r, n at no interest.
pub fn annuity_factor(rate_ratio: f64, years: f64) -> f64 {
    if rate_ratio.abs() < 1e-12 {
        years
    } else {
        (1.0 - (1.0 + rate_ratio).powf(-years)) / rate_ratio
    }
}

fn decimal(value: f64) -> Decimal {
    Decimal::from_f64_retain(value).unwrap_or_default()
}

/// Counts in one currency, by the rates that the file states.
struct Purse<'a> {
    currency: Currency,
    rates: &'a [Exchange],
    other: Vec<(String, Currency)>,
}

impl Purse<'_> {
    /// An amount in the purse's currency; one without a rate is noted and left out.
    fn take(&mut self, what: &str, money: Money) -> Option<Money> {
        let taken = exchanged(money, self.currency, self.rates);
        if taken.is_none() {
            self.other.push((what.to_owned(), money.currency));
        }
        taken
    }

    fn known(&mut self, what: &str, money: &station::Known<Money>) -> Option<Money> {
        money.value().and_then(|m| self.take(what, *m))
    }
}

fn lines(case: &Case, transmission: &transmission::Outcome, purse: &mut Purse) -> Vec<Line> {
    let mut lines = Vec::new();
    for item in &case.station.items {
        let Some(shelf) = case.shelf.get(&item.shelf) else {
            continue;
        };
        if !item.status.unwrap_or(ItemStatus::New).is_bought() {
            continue;
        }
        lines.push(line(
            case,
            item.tag.clone(),
            shelf,
            Decimal::from(item.count.unwrap_or(1)),
            None,
        ));
        if let Some(fixed) = shelf.mast.as_ref().and_then(|m| m.fixed.as_ref()) {
            let id = format!("{}.foundation", item.tag);
            lines.push(priced(
                case,
                id,
                shelf,
                Some(fixed),
                Decimal::ONE,
                Some(Added::MastFoundation),
            ));
        }
    }
    for antenna in &case.station.antennas {
        let shelf = antenna.element.as_deref().and_then(|id| case.shelf.get(id));
        let (Some(shelf), Some(bays)) = (shelf, antenna.bays.value()) else {
            continue;
        };
        if antenna.status.unwrap_or(ItemStatus::New).is_bought() {
            lines.push(line(case, antenna.tag.clone(), shelf, Decimal::from(*bays), None));
        }
    }
    for hop in &case.station.hops {
        for (what, id, count) in [("radio", &hop.equipment, 1), ("dishes", &hop.dish, 2)] {
            if let Some(shelf) = id.as_deref().and_then(|id| case.shelf.get(id)) {
                lines.push(line(
                    case,
                    format!("{}.{what}", hop.tag),
                    shelf,
                    Decimal::from(count),
                    None,
                ));
            }
        }
    }
    for cable in &case.station.cables {
        let Some(shelf) = case.shelf.get(&cable.shelf) else {
            continue;
        };
        if cable.status.unwrap_or(ItemStatus::New).is_bought() {
            let metres = decimal(cable.length.m()).round_dp(3) * Decimal::from(cable.count.unwrap_or(1));
            lines.push(line(case, cable.tag.clone(), shelf, metres, None));
        }
    }
    joints(case, transmission, &mut lines);
    for line in &mut lines {
        let Some(each) = line.each.filter(|m| m.currency != purse.currency) else {
            continue;
        };
        let each = purse.take(&line.id, each);
        let here = |money: Option<Money>| exchanged(money?, purse.currency, purse.rates);
        line.each = each.or(line.each);
        (line.line, line.cost) = (here(line.line), here(line.cost));
    }
    lines.sort_by_key(|l| l.stage);
    lines
}

/// Connectors and adapters that the chains need, gathered by what they are.
fn joints(case: &Case, transmission: &transmission::Outcome, lines: &mut Vec<Line>) {
    let mut gathered: Vec<(&str, u32, Added)> = Vec::new();
    for path in &transmission.emissions {
        for joint in &path.joints {
            let parts = joint
                .fitted
                .iter()
                .map(|id| (id.as_str(), Added::Connector))
                .chain(joint.adapter.as_deref().map(|id| (id, Added::Adapter)));
            for (id, added) in parts {
                match gathered.iter_mut().find(|g| g.0 == id) {
                    Some(found) => found.1 += joint.count,
                    None => gathered.push((id, joint.count, added)),
                }
            }
        }
    }
    for (id, count, added) in gathered {
        if let Some(shelf) = case.shelf.get(id) {
            lines.push(line(
                case,
                format!("joint.{id}"),
                shelf,
                Decimal::from(count),
                Some(added),
            ));
        }
    }
}

fn line(case: &Case, id: String, shelf: &ShelfItem, quantity: Decimal, added: Option<Added>) -> Line {
    priced(case, id, shelf, shelf.price.as_ref(), quantity, added)
}

fn priced(
    case: &Case,
    id: String,
    shelf: &ShelfItem,
    price: Option<&Price>,
    quantity: Decimal,
    added: Option<Added>,
) -> Line {
    let times = |m: Money| m.checked_mul(quantity).map(Money::rounded);
    let each_kg = shelf.packed.or(shelf.mass).map(|m| m.kg());
    Line {
        stage: stage_of(shelf.kind),
        kind: shelf.kind,
        per: price.and_then(|p| p.per).unwrap_or(Per::Each),
        each: price.map(|p| p.sell),
        line: price.and_then(|p| times(p.sell)),
        cost: price.and_then(|p| p.cost).and_then(times),
        mass_kg: each_kg.map(|kg| kg * f64::try_from(quantity).unwrap_or(0.0)),
        price_age_days: price
            .and_then(|p| p.date)
            .map(|d| case.today.day_number() - d.day_number()),
        mark: shelf.mark.unwrap_or(Mark::Practice),
        shelf: shelf.id.clone(),
        quantity,
        added,
        id,
    }
}

fn running(
    case: &Case,
    energy: &energy::Outcome,
    capital: Money,
    purse: &mut Purse,
) -> Vec<(Running, Money)> {
    let brief = &case.station.brief;
    let mut parts = Vec::new();
    let mut add = |what, money: Option<Money>| {
        if let Some(money) = money {
            parts.push((what, money.rounded()));
        }
    };
    let price = brief.energy_price.value();
    let energy = price.and_then(|p| p.per_kwh.checked_mul(decimal(energy.kwh_per_year)));
    add(
        Running::Energy,
        energy.and_then(|m| purse.take("brief.energy_price", m)),
    );
    for site in &case.station.sites {
        add(
            Running::Rent,
            purse.known(&format!("sites.{}.rent", site.tag), &site.rent),
        );
    }
    for hop in &case.station.hops {
        add(
            Running::Ways,
            purse.known(&format!("hops.{}.fee", hop.tag), &hop.fee),
        );
    }
    let share = |known: &station::Known<quantity::Percent>| {
        known
            .value()
            .and_then(|p| capital.checked_mul(decimal(p.pct() / 100.0)))
    };
    add(Running::Maintenance, share(&brief.running.maintenance));
    add(Running::Insurance, share(&brief.running.insurance));
    for (what, key, money) in [
        (Running::LicenceFee, "licence_fee", &brief.running.licence_fee),
        (Running::MusicRights, "music_rights", &brief.running.music_rights),
        (Running::Staff, "staff", &brief.running.staff),
    ] {
        add(what, purse.known(&format!("brief.running.{key}"), money));
    }
    parts
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 5 % over 10 years: 7.7217; 12 000 a year then and 60 000 at once are worth 152 661 (the annuity formula by hand).
    #[test]
    fn ref_present_value_of_a_level_cost() {
        let factor = annuity_factor(0.05, 10.0);
        assert!((factor - 7.7217).abs() < 5e-5);
        assert!((60_000.0 + 12_000.0 * factor - 152_661.0).abs() < 1.0);
        assert!((annuity_factor(0.0, 10.0) - 10.0).abs() < 1e-12);
    }
}
