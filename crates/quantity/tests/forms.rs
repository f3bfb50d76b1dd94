//! Properties of the written forms, over every quantity.

use proptest::prelude::*;
use quantity::*;

/// A value of any size inside a range: magnitudes from 1e-9 to 1e12.
fn inside(range: Range) -> impl Strategy<Value = f64> {
    (-9.0..12.0f64, any::<bool>(), 0.0..1.0f64).prop_map(move |(order, negative, part)| {
        let wide = 10f64.powf(order) * if negative { -1.0 } else { 1.0 };
        let spread = range.low.max(-1e12) + part * (range.high.min(1e12) - range.low.max(-1e12));
        if range.holds(wide) { wide } else { spread }
    })
}

/// The number of a displayed text, and half of its last digit.
fn shown_number(text: &str, locale: &Locale) -> (f64, f64) {
    let plain = text.replace('\u{2212}', "-");
    let plain = if locale.group.is_empty() {
        plain
    } else {
        plain.replace(locale.group, "")
    };
    let end = plain
        .find(|c: char| !c.is_ascii_digit() && c != '-' && c != locale.decimal)
        .unwrap_or(plain.len());
    let number = plain[..end].replace(locale.decimal, ".");
    let decimals = number.split_once('.').map_or(0, |(_, fraction)| fraction.len());
    (
        number.parse().expect("a shown number is a number"),
        0.5 * 10f64.powi(-(decimals as i32)),
    )
}

fn file_form_is_exact<Q: Quantity + std::fmt::Debug + PartialEq>(value: f64) -> Result<(), TestCaseError> {
    let q = Q::from_base(value);
    let text = q.file_form();
    prop_assert_eq!(
        Q::parse(&text)
            .map_err(|e| TestCaseError::fail(e.to_string()))?
            .base()
            .to_bits(),
        value.to_bits(),
        "{}",
        text
    );
    Ok(())
}

fn display_is_within_half_a_digit<Q: Quantity + std::fmt::Debug>(
    value: f64,
    locale: &Locale,
) -> Result<(), TestCaseError> {
    let q = Q::from_base(value);
    for unit in Q::DEFINITION.units {
        for digits in [
            Q::DEFINITION.digits,
            Digits::Decimals(2),
            Digits::Significant(4),
            Digits::AtMost(1),
        ] {
            let x = unit.law.from_base(value);
            if !x.is_finite() {
                continue;
            }
            let text = q
                .show_in(unit.name, digits, locale)
                .expect("the unit is the quantity's own");
            let (number, half) = shown_number(&text, locale);
            prop_assert!(
                (number - x).abs() <= half * (1.0 + 1e-9) + x.abs() * 1e-12,
                "{text} for {x}"
            );
            prop_assert!(text.contains(unit.name_for("1")), "{text}");
            prop_assert!(
                !text.starts_with('-') && !text.starts_with("\u{2212}0\u{a0}"),
                "{text}"
            );
        }
    }
    let text = q.show(locale);
    let unit = Q::DEFINITION
        .units
        .iter()
        .filter(|u| Q::DEFINITION.shown.contains(&u.name));
    let fits = unit.into_iter().any(|u| {
        let (number, half) = shown_number(&text, locale);
        let x = u.law.from_base(value);
        (number - x).abs() <= half * (1.0 + 1e-9) + x.abs() * 1e-12
    });
    prop_assert!(fits, "{text} for {value}");
    Ok(())
}

macro_rules! for_each_quantity {
    ($($name:ident $type:ident),+ $(,)?) => {
        proptest! {
            #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]
            $(#[test]
            fn $name(value in inside($type::DEFINITION.range)) {
                file_form_is_exact::<$type>(value)?;
                display_is_within_half_a_digit::<$type>(value, &Locale::ENGLISH)?;
                display_is_within_half_a_digit::<$type>(value, &Locale::FRENCH)?;
            })+
        }
        #[test]
        fn prop_every_quantity_is_tested() {
            let tested = [$($type::DEFINITION.name),+];
            for definition in ALL {
                assert!(tested.contains(&definition.name), "{} has no property test", definition.name);
            }
        }
    };
}

for_each_quantity! {
    prop_frequency Frequency, prop_deviation Deviation, prop_power Power, prop_erp Erp, prop_eirp Eirp,
    prop_gain_dbd GainDbd, prop_gain_dbi GainDbi, prop_decibels Decibels, prop_field FieldStrength,
    prop_density PowerDensity, prop_attenuation AttenuationRate, prop_vswr Vswr, prop_length Length,
    prop_agl HeightAgl, prop_amsl HeightAmsl, prop_effective EffectiveHeight, prop_area Area, prop_volume Volume,
    prop_angle Angle, prop_azimuth Azimuth, prop_elevation Elevation, prop_tilt Tilt, prop_temperature Temperature,
    prop_duration Duration, prop_time_constant TimeConstant, prop_mass Mass, prop_force Force, prop_speed Speed,
    prop_bitrate Bitrate, prop_percent Percent, prop_voltage Voltage, prop_current Current,
    prop_resistance Resistance, prop_apparent ApparentPower, prop_energy Energy, prop_charge Charge,
    prop_dbu LevelDbu, prop_dbfs LevelDbfs, prop_dbr LevelDbr, prop_loudness Loudness, prop_sound SoundLevel,
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn prop_position_file_form_is_exact(lat in -90.0..90.0f64, lon in -180.0..180.0f64) {
        let there = Position::from_deg(lat, lon).unwrap();
        prop_assert_eq!(Position::parse(&there.file_form()).unwrap(), there);
    }

    #[test]
    fn prop_position_dms_is_within_half_its_last_digit(lat in -90.0..90.0f64, lon in -180.0..180.0f64) {
        let there = Position::from_deg(lat, lon).unwrap();
        let again = Position::parse(&there.show_dms()).unwrap();
        prop_assert!((again.lat_deg() - lat).abs() <= 0.050_000_1 / 3600.0);
        prop_assert!((again.lon_deg() - lon).abs() <= 0.050_000_1 / 3600.0);
    }

    #[test]
    fn prop_money_file_form_is_exact(mantissa in any::<i64>(), scale in 0u32..12) {
        let price = Money::new(Decimal::new(mantissa, scale), Currency::EUR);
        prop_assert_eq!(Money::parse(&price.file_form()).unwrap(), price);
        let energy = EnergyPrice { per_kwh: price };
        prop_assert_eq!(EnergyPrice::parse(&energy.file_form()).unwrap(), energy);
    }

    #[test]
    fn prop_any_text_is_read_or_refused_without_panic(text in "\\PC{0,24}") {
        let _ = (Frequency::parse(&text), Height::parse_field(&text), AntennaGain::parse(&text), Money::parse(&text),
                 Money::parse_field(&text), EnergyPrice::parse(&text), Position::parse(&text), FieldStrength::parse_field(&text));
    }

    #[test]
    fn prop_any_number_with_any_unit_is_read_or_refused(number in "[-+−]?[0-9]{0,4}[.,]?[0-9]{0,4}(e[-+]?[0-9]{0,4})?",
                                                        unit in "( ?)(W|kW|dBW|dBm|MHz|m|m above ground|dBd|dB|EUR|EUR/kWh|°|N|)") {
        let text = format!("{number}{unit}");
        let results = [Power::parse(&text).map(|q| q.base()), FieldStrength::parse(&text).map(|q| q.base()),
                       HeightAgl::parse_field(&text).map(|q| q.base()), GainDbd::parse(&text).map(|q| q.base())];
        for value in results.into_iter().flatten() {
            prop_assert!(value.is_finite());
        }
        let _ = (Money::parse(&text), Position::parse(&text));
    }
}

#[test]
fn examples_of_every_definition_are_accepted() {
    macro_rules! accept { ($($type:ident),+) => { $(for text in $type::DEFINITION.examples {
        $type::parse(text).unwrap_or_else(|e| panic!("{}: {e}", stringify!($type)));
    })+ } }
    accept!(
        Frequency,
        Deviation,
        Power,
        Erp,
        Eirp,
        GainDbd,
        GainDbi,
        Decibels,
        FieldStrength,
        PowerDensity,
        AttenuationRate
    );
    accept!(
        Vswr,
        Length,
        HeightAgl,
        HeightAmsl,
        EffectiveHeight,
        Area,
        Volume,
        Angle,
        Azimuth,
        Elevation,
        Tilt,
        Temperature
    );
    accept!(
        Duration,
        TimeConstant,
        Mass,
        Force,
        Speed,
        Bitrate,
        Percent,
        Voltage,
        Current,
        Resistance,
        ApparentPower,
        Energy
    );
    accept!(Charge, LevelDbu, LevelDbfs, LevelDbr, Loudness, SoundLevel);
}

#[test]
fn serde_and_schema_follow_the_file_form() {
    let erp: Erp = serde_json::from_str("\"27 dBW\"").unwrap();
    assert!((erp.w() - 501.187).abs() < 0.001);
    assert_eq!(serde_json::to_string(&erp).unwrap(), "\"27 dBW\"");
    let fault = serde_json::from_str::<Erp>("500").unwrap_err().to_string();
    assert!(fault.starts_with("`500`: the unit is missing"), "{fault}");
    assert!(serde_json::to_string(&Erp::from_w(f64::NAN)).is_err());
    let schema = serde_json::to_value(schemars::schema_for!(HeightAgl)).unwrap();
    assert_eq!(schema["type"], "string");
    assert_eq!(schema["examples"][0], "30 m above ground");
}
