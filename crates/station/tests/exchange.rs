//! Prices in another currency: exchanged at the stated rate, or left as they are and out of what can be paid.
#![allow(clippy::unwrap_used, reason = "tests")]

use quantity::{Currency, Money};
use serde_json::json;
use station::exchange::{Exchange, exchanged};
use station::{Node, Station};

fn rates() -> Vec<Exchange> {
    vec![Exchange {
        tag: "EUR".into(),
        rate: 1.09,
        on: None,
    }]
}

/// By hand: 19.95 EUR × 1.09 = 21.7455 USD, to the cent 21.75; the yen has no cents (ISO 4217), 19.95 × 163.2 = 3 255.84.
#[test]
fn an_amount_is_exchanged_exactly_and_rounded_to_the_coin() {
    let price: Money = "19.95 EUR".parse().unwrap();
    let usd = Currency::from_code("USD").unwrap();
    assert_eq!(
        exchanged(price, usd, &rates()),
        Some("21.75 USD".parse().unwrap())
    );
    assert_eq!(exchanged(price, Currency::EUR, &rates()), Some(price));
    let yen = Currency::from_code("JPY").unwrap();
    assert_eq!(exchanged(price, yen, &[]), None);
    let to_yen = [Exchange {
        rate: 163.2,
        ..rates()[0].clone()
    }];
    assert_eq!(exchanged(price, yen, &to_yen), Some("3256 JPY".parse().unwrap()));
}

#[test]
fn a_rate_that_is_none_and_a_currency_that_is_none_are_named() {
    let read = |tag: &str, rate: f64| {
        let file = json!({"format": 1, "name": "X", "exchange": [{"tag": tag, "rate": rate}]});
        Station::read(&Node::from_json(&file))
    };
    assert!(read("EUR", 1.09).is_ok());
    for (tag, rate, named) in [("EUX", 1.0, "EUX"), ("EUR", 0.0, "0"), ("EUR", -2.5, "-2.5")] {
        let faults = read(tag, rate).unwrap_err();
        let told = words::said(&words::Message::from(&faults[0]), words::Language::English);
        assert_eq!(faults.len(), 1);
        assert!(told.contains(named), "{told}");
    }
}
