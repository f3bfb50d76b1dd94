//! Prices in one currency: exchange rates, and a shelf counted in the station's.

use crate::document::{Node, Value};
use crate::read::Faults;
use crate::shelf::{Price, Shelf};
use crate::value::Date;
use quantity::{Currency, Decimal, Money};
use words::Message;

crate::record! {
    /// What a currency is worth in the station's.
    pub struct Exchange {
        /// The currency, ISO 4217, such as `EUR`.
        pub tag: String,
        /// Units of the station's currency for one of it.
        pub rate: f64,
        /// The day of the rate.
        pub on: Option<Date>,
    }
}

/// Complains of rates from no currency and of rates that are none.
pub(crate) fn check(document: &Node, faults: &mut Faults) {
    let Some(Node {
        value: Value::List(rates),
        ..
    }) = document.get("exchange")
    else {
        return;
    };
    for rate in rates {
        if let Some(node) = rate.get("tag")
            && let Value::Text(tag) = &node.value
            && Currency::from_code(tag).is_none()
        {
            let what = Message::new("file-no-currency").text("given", tag);
            faults.add(node.span, "exchange", what, None);
        }
        let Some(node) = rate.get("rate") else { continue };
        let given = match node.value {
            Value::Integer(given) => given as f64,
            Value::Float(given) => given,
            _ => continue,
        };
        if given <= 0.0 {
            let what = Message::new("file-no-rate").text("given", given.to_string());
            faults.add(node.span, "exchange", what, None);
        }
    }
}

/// An amount in `currency`, rounded to its smallest coin where it had to be exchanged; none without a rate.
pub fn exchanged(money: Money, currency: Currency, rates: &[Exchange]) -> Option<Money> {
    if money.currency == currency {
        return Some(money);
    }
    let rate = rates.iter().find(|r| r.tag == money.currency.code())?;
    // As the file writes it, not as the nearest binary fraction.
    let exact = Decimal::from_str_exact(&rate.rate.to_string()).ok()?;
    let worth = money.checked_mul(exact)?;
    Some(Money { currency, ..worth }.rounded())
}

impl Shelf {
    /// The shelf with every price in `currency` for which there is a rate. A price without one stays as its list gave it.
    pub fn priced_in(mut self, currency: Currency, rates: &[Exchange]) -> Shelf {
        let here = |money: Money| exchanged(money, currency, rates).unwrap_or(money);
        let priced = |price: &mut Price| {
            price.sell = here(price.sell);
            price.cost = price.cost.map(here);
        };
        for item in &mut self.items {
            item.price.iter_mut().for_each(&priced);
            if let Some(mast) = &mut item.mast {
                mast.fixed.iter_mut().for_each(&priced);
            }
        }
        self
    }

    /// The shelf without the prices that are in another currency than this one.
    pub fn only_priced_in(mut self, currency: Currency) -> Shelf {
        let foreign = |price: &Option<Price>| price.as_ref().is_some_and(|p| p.sell.currency != currency);
        for item in &mut self.items {
            if foreign(&item.price) {
                item.price = None;
            }
            if let Some(mast) = &mut item.mast
                && foreign(&mast.fixed)
            {
                mast.fixed = None;
            }
        }
        self
    }
}
