//! The message files of all languages, held against each other and against what speaks.

use quantity::{ALL, AntennaGain, Decibels, Height, Money, Power, Quantity, QuantityError};
use words::{Language, Message, Words, say, say_best};

#[test]
fn every_file_is_read() {
    let words = Words::built_in().unwrap();
    assert!(words.codes(Language::English).count() > 15);
    assert!(words.codes(Language::French).count() >= 12);
}

#[test]
fn each_translation_takes_the_arguments_of_the_english_message() {
    let words = Words::built_in().unwrap();
    for language in Language::ALL.iter().copied().filter(|l| *l != Language::English) {
        for code in words.codes(language) {
            let english = words.arguments(code, Language::English);
            assert!(english.is_some(), "`{code}` exists in `{}` only", language.tag());
            assert_eq!(
                words.arguments(code, language),
                english,
                "`{code}` in `{}`",
                language.tag()
            );
        }
    }
}

/// Nothing falls back to English: what a language has begun, it has to the end.
#[test]
fn each_translation_has_every_message_of_english() {
    let words = Words::built_in().unwrap();
    for language in Language::ALL {
        let lacking: Vec<_> = words
            .codes(Language::English)
            .filter(|code| words.arguments(code, *language).is_none())
            .collect();
        assert!(lacking.is_empty(), "`{}` lacks {lacking:?}", language.tag());
    }
}

/// A variant that one language lacks would fall to the default there and say something else.
#[test]
fn each_translation_chooses_between_the_variants_of_the_english_message() {
    let words = Words::built_in().unwrap();
    let of_tags = |code: &str, language| {
        let plural = |key: &String| ["zero", "one", "two", "few", "many"].contains(&key.as_str());
        let all = words.selections(code, language).into_iter().flatten();
        // How many plurals a language has is its own affair, and so is where it chooses by a count alone.
        let tags = all.filter(|s| s.keys.iter().any(|k| !plural(k) && k != "other"));
        tags.map(|s| (s.argument.clone(), s.keys.clone()))
            .collect::<Vec<_>>()
    };
    for language in Language::ALL.iter().copied().filter(|l| *l != Language::English) {
        for code in words.codes(language) {
            for choice in of_tags(code, Language::English) {
                assert!(
                    of_tags(code, language).contains(&choice),
                    "`{code}` in `{}` does not choose by {choice:?}",
                    language.tag()
                );
            }
        }
    }
}

/// One refused text for every code a quantity can be refused with.
fn refusals() -> Vec<QuantityError> {
    let power = [
        "", "W", "NaN W", "500", "500 wats", "500 kw", "500 m", "1,5 kW", "1.2.3 W", "-1 W",
    ];
    let mut faults: Vec<QuantityError> = power.iter().filter_map(|t| Power::parse(t).err()).collect();
    faults.extend(Power::parse_field("1,234 W").err());
    faults.extend(Height::parse("30 m").err());
    faults.extend(quantity::HeightAgl::parse("30 m above sea").err());
    faults.extend(quantity::FieldStrength::parse("54 dB").err());
    faults.extend(AntennaGain::parse("6 dB").err());
    faults.extend(Money::parse("5 GOLD").err());
    faults.extend(quantity::Position::parse("147, 11").err());
    faults.extend(quantity::Position::parse("here").err());
    faults
}

#[test]
fn every_refused_quantity_can_be_said() {
    let faults = refusals();
    assert_eq!(faults.len(), 18);
    for fault in &faults {
        for language in Language::ALL {
            let said = say_best(&Message::from(fault), *language).unwrap();
            assert!(
                !said.text.contains("A quantity") && !said.text.contains("Une grandeur"),
                "{}",
                said.text
            );
        }
    }
}

#[test]
fn every_quantity_has_its_name_in_every_language() {
    for definition in ALL {
        for (language, other) in [
            (Language::English, "A quantity"),
            (Language::French, "Une grandeur"),
        ] {
            let said = say(
                &Message::new("a-quantity").tag("quantity", definition.name),
                language,
            )
            .unwrap();
            assert_ne!(
                said,
                other,
                "{} has no name in `{}`",
                definition.name,
                language.tag()
            );
        }
    }
}

#[test]
fn every_unit_can_be_told_whose_it_is() {
    for definition in ALL {
        for unit in definition.units {
            let owner = ALL
                .iter()
                .find(|d| d.unit(unit.name).is_some())
                .map_or("", |d| d.name);
            let said = say(
                &Message::new("of-quantity").tag("belongs", owner),
                Language::English,
            )
            .unwrap();
            assert_ne!(said, "of something else", "{} of {owner}", unit.name);
        }
    }
}

#[test]
fn a_height_says_what_it_is_above_in_each_language() {
    let fault = Message::new("quantity-over-what")
        .tag("quantity", "ratio")
        .text("examples", "");
    let message = fault.quantity("amount", quantity::HeightAgl::from_m(30.5));
    assert!(
        say(&message, Language::English)
            .unwrap()
            .starts_with("30.5\u{a0}m above ground over")
    );
    assert!(
        say(&message, Language::French)
            .unwrap()
            .starts_with("30,5\u{a0}m au-dessus du sol par rapport")
    );
    for definition in ALL.iter().filter(|d| d.suffix.is_some_and(|s| s.written)) {
        let arg = words::Arg::Quantity {
            quantity: definition.name.into(),
            base: 1.0,
            unit: None,
            digits: None,
        };
        let fault = Message::new("quantity-over-what")
            .tag("quantity", "ratio")
            .text("examples", "")
            .with("amount", arg);
        let said = say(&fault, Language::English).unwrap();
        let suffix = definition.suffix.map_or("", |s| s.name);
        assert!(said.contains(suffix), "{said} does not say `{suffix}`");
    }
}

/// The model sentences of the look: § 7, column "errors".
#[test]
fn the_model_sentences_come_out() {
    let said = |fault: QuantityError, language| say(&Message::from(&fault), language).unwrap();
    let en = Language::English;
    assert_eq!(
        said(Power::parse("500").unwrap_err(), en),
        "A power needs its unit: 500 W, 0.5 kW or 27 dBW."
    );
    assert_eq!(
        said(AntennaGain::parse("6 dB").unwrap_err(), en),
        "6 dB over what? Write 6 dBd (over a dipole) or 8.15 dBi."
    );
    assert_eq!(
        said(Height::parse("30 m").unwrap_err(), en),
        "30 m above what? Ground, sea, or the land around."
    );
    assert_eq!(
        said(Power::parse("500").unwrap_err(), Language::French),
        "Une puissance demande son unité\u{a0}: 500 W, 0.5 kW ou 27 dBW."
    );
}

#[test]
fn a_message_of_no_language_is_an_error_in_each() {
    for language in Language::ALL {
        assert!(say_best(&Message::new("no-such-message"), *language).is_err());
    }
    let said = say_best(
        &Message::from(&Power::parse("500 m").unwrap_err()),
        Language::French,
    )
    .unwrap();
    assert_eq!(said.language, Language::French);
    assert_eq!(
        said.text,
        "«\u{a0}m\u{a0}» est une unité de longueur. Une puissance se donne 500 W, 0.5 kW ou 27 dBW."
    );
}

/// Print of French sets a space before these marks that no line may break at (Lexique des règles typographiques en usage à
/// l'Imprimerie nationale, from memory).
#[test]
fn french_marks_stand_behind_a_space_that_does_not_break() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("messages/fr");
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let text = std::fs::read_to_string(&path).unwrap();
        let lines = text.lines().filter(|line| !line.starts_with('#'));
        let wrong: Vec<&str> = lines
            .filter(|line| {
                [" : ", " ; ", " ?", " !", " »", "« "]
                    .iter()
                    .any(|mark| line.contains(mark))
            })
            .collect();
        assert!(wrong.is_empty(), "{}: {wrong:#?}", path.display());
    }
}

#[test]
fn messages_travel_as_json() {
    let message = Message::new("x")
        .quantity("short", Decibels::from_db(3.7))
        .count("people", 4)
        .text("place", "Skerrow");
    let text = serde_json::to_string(&message).unwrap();
    assert_eq!(serde_json::from_str::<Message>(&text).unwrap(), message);
}
