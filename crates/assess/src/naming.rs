//! Names of what a station file says, by its path: `sites.HILL.climate.wind` is "Basic wind at Harl Ridge".
//!
//! One place for every face: the page, the papers and the terminal name an assumption or a stated input by [`name`] and print what
//! it holds by [`value`]. The words are in `names.ftl`, one message for each key that can be assumed.

use quantity::Digits;
use serde_json::Value as Json;
use station::Node;
use station::read::join;
use words::{Language, Message, WordsError, say_best};

/// Lists of the model, by their path without tags: the step that follows is an item's tag.
pub const LISTS: &[&str] = &[
    "brief.wanted",
    "places",
    "sites",
    "sites.public_points",
    "sites.others",
    "emissions",
    "emissions.licence.masks",
    "emissions.licence.conditions",
    "antennas",
    "hops",
    "hops.obstacles",
    "rooms",
    "rooms.public_points",
    "items",
    "cables",
    "variants",
];

/// A path taken apart: its keys without tags, and where its innermost tag ends.
struct Parts {
    keys: String,
    item: Option<(String, String)>,
}

fn parts(path: &str) -> Parts {
    let (mut keys, mut so_far, mut tagged) = (String::new(), String::new(), false);
    let mut item = None;
    for step in path.split('.') {
        so_far = join(&so_far, step);
        if !tagged && LISTS.contains(&keys.as_str()) {
            item = Some((keys.clone(), so_far.clone()));
            tagged = true;
        } else {
            keys = join(&keys, step);
            tagged = false;
        }
    }
    Parts { keys, item }
}

/// The message code that names a path.
pub fn code(path: &str) -> String {
    format!("name-{}", kebab(&parts(path).keys))
}

fn kebab(text: &str) -> String {
    text.replace(['.', '_', ' '], "-").replace(',', "")
}

/// What a path is called in a language; the bare path where no message names it.
///
/// # Errors
/// [`WordsError`] for a message that lacks an argument: a fault of ours.
pub fn name(path: &str, document: &Node, language: Language) -> Result<String, WordsError> {
    let mut message = Message::new(code(path));
    if let Some((list, at)) = parts(path).item {
        message = message.text("of", whose(&list, &at, document, language)?);
    }
    Ok(said(&message, language)?.unwrap_or_else(|| path.replace('.', " · ").replace('_', " ")))
}

/// What several paths of one key are called together: "How people listen, Quellow and Thrannock".
///
/// # Errors
/// [`WordsError`] for a message that lacks an argument: a fault of ours.
pub fn name_of_all(paths: &[&str], document: &Node, language: Language) -> Result<String, WordsError> {
    let (Some(first), true) = (paths.first(), paths.len() > 1) else {
        return paths
            .first()
            .map_or_else(|| Ok(String::new()), |path| name(path, document, language));
    };
    let mut of = Vec::new();
    for path in paths {
        if let Some((list, at)) = parts(path).item {
            of.push(whose(&list, &at, document, language)?);
        }
    }
    let message = Message::new(code(first)).with("of", words::Arg::All(of));
    match said(&message, language)? {
        Some(text) => Ok(text),
        None => name(first, document, language),
    }
}

/// The item of a list as a client knows it: a site by its name, a wish by its place, a cable by its tag.
fn whose(list: &str, at: &str, document: &Node, language: Language) -> Result<String, WordsError> {
    let tag = at.rsplit_once('.').map_or(at, |(_, tag)| tag);
    let text = |path: &str| document.at(path).and_then(text_of);
    if list == "brief.wanted" {
        if let Some(place) = text(&format!("{at}.place")) {
            return Ok(text(&format!("places.{place}.name")).unwrap_or(place));
        }
        if let Some(radius) = text(&format!("{at}.within")) {
            let within = Message::new("name-of-within").text("radius", number_and_unit(&radius, language)?);
            return Ok(say_best(&within, language)?.text);
        }
    }
    let named = matches!(
        list,
        "sites" | "places" | "sites.public_points" | "sites.others" | "rooms.public_points"
    );
    Ok(named
        .then(|| text(&format!("{at}.name")))
        .flatten()
        .unwrap_or_else(|| tag.to_owned()))
}

fn text_of(node: &Node) -> Option<String> {
    match node.to_json() {
        Json::String(text) => Some(text),
        _ => None,
    }
}

/// What stands at a path, for a reader: numbers as the language writes them, with the key's own unit where they are bare,
/// choices and units in words.
///
/// # Errors
/// [`WordsError`] for a message that lacks an argument: a fault of ours.
pub fn value(path: &str, json: &Json, language: Language) -> Result<String, WordsError> {
    Ok(match json {
        Json::Bool(yes) => {
            say_best(
                &Message::new(if *yes { "value-yes" } else { "value-no" }),
                language,
            )?
            .text
        }
        Json::Number(number) => {
            let text = number
                .as_f64()
                .map_or_else(|| number.to_string(), |n| n.to_string());
            let bare = localised(&text, language).unwrap_or(text);
            match said(&Message::new(format!("{}.unit", code(path))), language)? {
                Some(unit) => format!("{bare}\u{a0}{unit}"),
                None => bare,
            }
        }
        Json::String(text) => match said(&Message::new(format!("value-{}", kebab(text))), language)? {
            Some(word) => word,
            None => number_and_unit(text, language)?,
        },
        other => other.to_string(),
    })
}

/// A number with its unit as the language writes both: `10 years` is `10 ans`.
fn number_and_unit(text: &str, language: Language) -> Result<String, WordsError> {
    let end = text
        .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '-' | '−' | '+')))
        .unwrap_or(text.len());
    let (number, unit) = text.split_at(end);
    let Some(number) = localised(number, language) else {
        return Ok(text.to_owned());
    };
    let apart = unit.starts_with(' ');
    let unit = self::unit(unit.trim_start(), language)?;
    Ok(match (unit.as_str(), apart) {
        ("", _) => number,
        (unit, true) => format!("{number}\u{a0}{unit}"),
        (unit, false) => format!("{number}{unit}"),
    })
}

/// A number of a file as the language writes it, with as many places.
fn localised(text: &str, language: Language) -> Option<String> {
    let number: f64 = text.replace('−', "-").parse().ok()?;
    let places = text
        .split_once('.')
        .map_or(0, |(_, after)| u8::try_from(after.len()).unwrap_or(u8::MAX));
    Some(language.locale().number(number, Digits::Decimals(places)))
}

/// A unit as the language says it: units that are words are translated, symbols stay.
///
/// # Errors
/// [`WordsError`] for a message that lacks an argument: a fault of ours.
pub fn unit(symbol: &str, language: Language) -> Result<String, WordsError> {
    let word = symbol.chars().all(char::is_alphabetic) && !symbol.is_empty();
    let code = format!("unit-{symbol}");
    let found = if word {
        said(&Message::new(code), language)?
    } else {
        None
    };
    Ok(found.unwrap_or_else(|| symbol.to_owned()))
}

/// A message, where there is one.
fn said(message: &Message, language: Language) -> Result<Option<String>, WordsError> {
    match say_best(message, language) {
        Ok(said) => Ok(Some(said.text)),
        Err(WordsError::NoMessage { .. }) => Ok(None),
        Err(fault) => Err(fault),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;
    use station::Station;
    use std::collections::BTreeSet;

    /// Every key of the schema that can be assumed, by its path without tags; every list; every word a choice may be.
    #[derive(Default)]
    struct Model {
        known: Vec<String>,
        lists: BTreeSet<String>,
        choices: BTreeSet<String>,
    }

    impl Model {
        fn of(schema: &Json) -> Self {
            let mut model = Self::default();
            model.walk(schema, schema, "");
            model
        }

        fn walk(&mut self, root: &Json, node: &Json, path: &str) {
            if let Some(target) = node.get("$ref").and_then(Json::as_str) {
                let name = target.rsplit('/').next().unwrap();
                let target = &root["$defs"][name];
                if name.starts_with("Known_") {
                    self.known.push(path.to_owned());
                    self.words(root, target);
                } else {
                    self.walk(root, target, path);
                }
            }
            for one in ["anyOf", "oneOf", "allOf"]
                .iter()
                .filter_map(|k| node.get(*k)?.as_array())
                .flatten()
            {
                self.walk(root, one, path);
            }
            if let Some(items) = node.get("items")
                && items.get("$ref").is_some()
            {
                self.lists.insert(path.to_owned());
                self.walk(root, items, path);
            }
            for (key, inner) in node
                .get("properties")
                .and_then(Json::as_object)
                .into_iter()
                .flatten()
            {
                self.walk(root, inner, &join(path, key));
            }
        }

        /// Words of a choice that a known value may be.
        fn words(&mut self, root: &Json, known: &Json) {
            let Some(plain) = known["anyOf"][0].get("$ref").and_then(Json::as_str) else {
                return;
            };
            let choice = root["$defs"][plain.rsplit('/').next().unwrap()].to_string();
            let found: Json = serde_json::from_str(&choice).unwrap();
            let lists = [found.get("enum").cloned(), found.get("oneOf").cloned()];
            for word in lists.iter().flatten().filter_map(Json::as_array).flatten() {
                let word = word.as_str().or_else(|| word.get("const")?.as_str());
                self.choices.extend(word.map(str::to_owned));
            }
        }
    }

    fn model() -> Model {
        Model::of(&Station::schema())
    }

    #[test]
    fn everything_that_can_be_assumed_has_a_name_in_every_language() {
        let model = model();
        assert!(model.known.len() > 70, "{}", model.known.len());
        for language in Language::ALL {
            let codes: BTreeSet<&str> = words::words().codes(*language).collect();
            let nameless: Vec<_> = model
                .known
                .iter()
                .map(|k| format!("name-{}", kebab(k)))
                .filter(|code| !codes.contains(code.as_str()))
                .collect();
            assert!(nameless.is_empty(), "{}: {nameless:?}", language.tag());
        }
    }

    #[test]
    fn every_word_a_known_value_may_be_is_said_in_every_language() {
        let choices = model().choices;
        assert!(choices.len() > 15, "{choices:?}");
        for language in Language::ALL {
            let codes: BTreeSet<&str> = words::words().codes(*language).collect();
            for word in &choices {
                assert!(
                    codes.contains(format!("value-{}", kebab(word)).as_str()),
                    "{}: {word}",
                    language.tag()
                );
            }
        }
    }

    #[test]
    fn the_lists_are_the_models() {
        let model = model();
        for list in LISTS {
            assert!(model.lists.contains(*list), "{list} is no list of the model");
        }
        for known in &model.known {
            for list in model.lists.iter().filter(|l| known.starts_with(&format!("{l}."))) {
                assert!(LISTS.contains(&list.as_str()), "{list}, which holds {known}");
            }
        }
    }

    /// The bounds and units of the program's own assumptions come out in words, and nothing looks like a path.
    #[test]
    fn names_and_values_read_like_sentences() {
        let document = Node::from_json(&json!({
            "brief": { "wanted": [{ "tag": "W1", "place": "ORREN" }, { "tag": "W2", "within": "12.5 km" }] },
            "places": [{ "tag": "ORREN", "name": "Port Orren" }],
            "sites": [{ "tag": "HILL", "name": "Harl Ridge" }],
        }));
        let (en, fr) = (Language::English, Language::French);
        let of = |path: &str, language| name(path, &document, language).unwrap();
        assert_eq!(
            of("sites.HILL.climate.flashes_per_km2_year", en),
            "Lightning at Harl Ridge, flashes per km² and year"
        );
        assert_eq!(
            of("brief.wanted.W1.situation", en),
            "How people listen, Port Orren"
        );
        assert_eq!(
            of("brief.wanted.W2.situation", fr),
            "Comment on écoute, à moins de 12,5\u{a0}km"
        );
        assert_eq!(of("cables.F1.temperature", en), "Temperature of cable F1 at work");
        let shown = |path: &str, json: Json, language| value(path, &json, language).unwrap();
        assert_eq!(shown("study.delta_n", json!(45.0), en), "45\u{a0}N-units");
        assert_eq!(shown("brief.horizon", json!("10 years"), fr), "10\u{a0}ans");
        assert_eq!(shown("brief.discount_rate", json!("5.5 %"), fr), "5,5\u{a0}%");
        assert_eq!(shown("antennas.A.tilt", json!("0°"), en), "0°");
        assert_eq!(shown("sites.HILL.climate.ice", json!("0 mm"), en), "0\u{a0}mm");
        assert_eq!(shown("ground.model", json!("bare ground"), fr), "sol nu");
        assert_eq!(shown("sites.HILL.climate.sea_air", json!(false), en), "no");
    }
}
