//! Wrong, missing and nonsense units: what is named.

use quantity::*;

#[test]
fn bad_power_names_what_was_expected() {
    for (text, code) in [
        ("", "quantity-empty"),
        ("500", "quantity-missing-unit"),
        ("2 kw/m", "quantity-unknown-unit"),
        ("500 mw", "quantity-unknown-unit-nearest"),
        ("500 kw", "quantity-unknown-unit-nearest"),
        ("500 m", "quantity-wrong-unit"),
        ("-5 W", "quantity-out-of-range"),
        ("NaN W", "quantity-not-finite"),
        ("inf W", "quantity-not-finite"),
        ("1e999 W", "quantity-not-finite"),
        ("1,5 kW", "quantity-comma"),
        ("five W", "quantity-not-a-number"),
        ("500 W EIRP", "quantity-wrong-reference"),
    ] {
        let fault = Erp::parse(text).unwrap_err();
        assert_eq!(fault.code(), code, "{text}");
        assert!(
            fault
                .to_string()
                .ends_with("expected a radiated power such as `500 W`, `2 kW` or `27 dBW`"),
            "{fault}"
        );
    }
    assert_eq!(Erp::parse("500 W ERP").unwrap(), Erp::from_w(500.0));
    assert_eq!(Erp::parse_field("0,5 kw").unwrap(), Erp::from_w(500.0));
    assert_eq!(
        Erp::parse_field("500 mw").unwrap_err().code(),
        "quantity-unknown-unit-nearest"
    );
}

#[test]
fn a_comma_before_three_digits_has_two_readings() {
    let fault = Erp::parse_field("1,234 W").unwrap_err();
    assert_eq!(
        *fault.kind,
        Kind::TwoReadings {
            decimal: "1.234".into(),
            thousands: "1234".into()
        }
    );
    assert_eq!(
        Frequency::parse_field("98,3 MHz").unwrap(),
        Frequency::parse("98.3 MHz").unwrap()
    );
    assert_eq!(
        Frequency::parse("98,3 MHz").unwrap_err().kind,
        Box::new(Kind::Comma)
    );
}

#[test]
fn references_are_never_guessed() {
    assert_eq!(
        GainDbd::parse("6 dB").unwrap_err().to_string(),
        "`6 dB`: 6 dB over what?: expected a gain over a dipole such as `6 dBd`"
    );
    assert_eq!(GainDbd::parse("6 dBi").unwrap_err().code(), "quantity-wrong-unit");
    assert_eq!(
        HeightAgl::parse("30 m").unwrap_err().code(),
        "quantity-above-what"
    );
    assert_eq!(
        HeightAgl::parse("30 m above sea").unwrap_err().code(),
        "quantity-wrong-reference"
    );
    assert_eq!(
        HeightAgl::parse("30").unwrap_err().code(),
        "quantity-missing-unit"
    );
    assert_eq!(
        FieldStrength::parse("54 dB").unwrap_err().code(),
        "quantity-over-what"
    );
}

#[test]
fn odd_spellings_are_read() {
    assert_eq!(Power::parse("500W").unwrap(), Power::from_w(500.0));
    assert_eq!(Power::parse(" −3\u{a0}dBW ").unwrap().dbw().round(), -3.0);
    assert_eq!(
        FieldStrength::parse("54 dBμV/m").unwrap(),
        FieldStrength::parse("54 dBuV/m").unwrap()
    );
    assert_eq!(Azimuth::parse("120deg").unwrap().file_form(), "120°");
    assert_eq!(Frequency::parse("9.83e7 Hz").unwrap().file_form(), "98.3 MHz");
    assert_eq!(Length::parse("7 ft").unwrap().file_form(), "2.1336 m");
    assert_eq!(Duration::parse("1 year").unwrap().file_form(), "1 year");
}
