//! From text to a value in the base unit, by a quantity's definition.

use crate::error::{Kind, QuantityError};
use crate::number::{DecimalNumber, Source, leading_number};
use crate::print;
use crate::unit::{Definition, Law, Unit};

/// Reads `text` as the quantity that `definition` describes and returns the value in its base unit.
pub(crate) fn base_value(
    text: &str,
    definition: &'static Definition,
    source: Source,
) -> Result<f64, QuantityError> {
    let fail = |kind| refused(text, definition, kind);
    let plain = plain_text(text);
    if plain.is_empty() {
        return Err(fail(Kind::Empty));
    }
    let (number, rest) = leading_number(&plain, source).map_err(fail)?;
    let (name, reference) = split_reference(rest, definition);
    let amount = &plain[..plain.len() - rest.len() + name.len()];
    let unit = find_unit(name, amount, definition, source).map_err(fail)?;
    check_reference(reference, amount, definition).map_err(fail)?;
    let value = in_base(&number, unit.law);
    check(value, definition).map_err(fail)?;
    Ok(value)
}

/// The error for `text`.
pub(crate) fn refused(text: &str, definition: &'static Definition, kind: Kind) -> QuantityError {
    QuantityError {
        text: text.into(),
        quantity: definition.name,
        expected: definition.expected,
        examples: definition.examples,
        kind: Box::new(kind),
    }
}

/// Finite and inside the definition's range.
pub(crate) fn check(value: f64, definition: &Definition) -> Result<(), Kind> {
    if !value.is_finite() {
        return Err(Kind::NotFinite);
    }
    if definition.range.holds(value) {
        return Ok(());
    }
    let say = |limit: f64| match limit {
        f64::INFINITY => "∞".into(),
        f64::NEG_INFINITY => "−∞".into(),
        limit => print::file_form(limit, definition),
    };
    Err(Kind::OutOfRange {
        low: say(definition.range.low),
        high: say(definition.range.high),
    })
}

/// The base value of a written number: exact where the law is a power of ten.
pub(crate) fn in_base(number: &DecimalNumber, law: Law) -> f64 {
    match law {
        Law::Tens(tens) => number.shifted(tens),
        law => law.to_base(number.shifted(0)) + 0.0,
    }
}

/// Spaces, minus signs and the letter mu in their plain spelling.
pub(crate) fn plain_text(text: &str) -> String {
    text.trim()
        .chars()
        .map(|c| match c {
            '\u{2212}' => '-',
            '\u{a0}' | '\u{202f}' | '\u{2009}' => ' ',
            '\u{3bc}' => 'µ',
            '\u{2126}' => 'Ω',
            c => c,
        })
        .collect()
}

/// Every reference that any quantity writes behind its unit.
const REFERENCES: &[&str] = &[
    "above ground",
    "above sea",
    "effective",
    "AGL",
    "AMSL",
    "HAAT",
    "EIRP",
    "ERP",
];

/// The unit's name and the reference behind it (empty when there is none).
fn split_reference<'a>(rest: &'a str, definition: &Definition) -> (&'a str, &'a str) {
    let own = definition
        .suffix
        .iter()
        .flat_map(|s| std::iter::once(&s.name).chain(s.also));
    for reference in own.chain(REFERENCES) {
        if let Some(unit) = rest.strip_suffix(reference)
            && (unit.is_empty() || unit.ends_with(' '))
        {
            return (unit.trim_end(), &rest[rest.len() - reference.len()..]);
        }
    }
    (rest, "")
}

fn find_unit(
    name: &str,
    amount: &str,
    definition: &'static Definition,
    source: Source,
) -> Result<&'static Unit, Kind> {
    if let Some(unit) = definition.unit(name) {
        return Ok(unit);
    }
    if name.is_empty() {
        return Err(Kind::MissingUnit);
    }
    if definition.bare.contains(&name) {
        return Err(Kind::NoReference {
            amount: amount.into(),
            is_height: false,
        });
    }
    let same_letters: Vec<&'static Unit> = definition
        .units
        .iter()
        .filter(|u| {
            std::iter::once(&u.name)
                .chain(u.also)
                .any(|n| n.to_lowercase() == name.to_lowercase())
        })
        .collect();
    if let ([unit], Source::Field) = (same_letters.as_slice(), source) {
        return Ok(unit);
    }
    if let Some(unit) = same_letters.first() {
        return Err(Kind::UnknownUnit {
            unit: name.into(),
            nearest: Some(unit.name),
        });
    }
    let other = crate::ALL.iter().find(|d| d.unit(name).is_some());
    Err(match other {
        Some(other) => Kind::WrongUnit {
            unit: name.into(),
            belongs_to: other.name,
        },
        None => Kind::UnknownUnit {
            unit: name.into(),
            nearest: None,
        },
    })
}

fn check_reference(found: &str, amount: &str, definition: &Definition) -> Result<(), Kind> {
    match (&definition.suffix, found) {
        (Some(suffix), "") if suffix.required => Err(Kind::NoReference {
            amount: amount.into(),
            is_height: true,
        }),
        (_, "") => Ok(()),
        (Some(suffix), found) if suffix.name == found || suffix.also.contains(&found) => Ok(()),
        (_, found) => Err(Kind::WrongReference { found: found.into() }),
    }
}
