//! From a value in the base unit to text: exact for files, rounded for people.

use crate::locale::{Digits, Locale};
use crate::number::DecimalNumber;
use crate::read::in_base;
use crate::unit::{Definition, Law, Unit};

/// The exact form: the shortest number over the written units that reads back as `value`; the first unit wins ties.
///
/// `value` must be finite; anything else is written as Rust writes it and does not read back.
pub(crate) fn file_form(value: f64, definition: &Definition) -> String {
    if !value.is_finite() {
        return format!("{value} {}", definition.units[0].name);
    }
    let mut best: Option<(String, &Unit)> = None;
    for unit in definition.units.iter().filter(|u| u.written) {
        if let Some(text) = exact_number(value, unit.law)
            && best
                .as_ref()
                .is_none_or(|(shortest, _)| text.len() < shortest.len())
        {
            best = Some((text, unit));
        }
    }
    let (number, unit) = best.expect("every definition has a written unit whose law is a power of ten");
    let space = if unit.is_tight() { "" } else { " " };
    let suffix = definition
        .suffix
        .filter(|s| s.written)
        .map(|s| format!(" {}", s.name))
        .unwrap_or_default();
    format!("{number}{space}{}{suffix}", unit.name_for(&number))
}

/// The shortest number that reads back as `value` under `law`, if there is one.
fn exact_number(value: f64, law: Law) -> Option<String> {
    if let Law::Tens(tens) = law {
        return Some(DecimalNumber::shortest(value).text(-tens));
    }
    let x = law.from_base(value);
    if !x.is_finite() {
        return None;
    }
    (1..=17)
        .map(|significant| DecimalNumber::rounded(x, significant))
        .find(|n| in_base(n, law) == value)
        .map(|n| n.text(0))
}

/// The display form in the unit that suits the size of `value`.
pub(crate) fn shown(value: f64, definition: &Definition, digits: Digits, locale: &Locale) -> String {
    shown_in(
        value,
        unit_by_size(value, definition, digits),
        definition,
        digits,
        locale,
    )
}

/// The display form in one unit.
pub(crate) fn shown_in(
    value: f64,
    unit: &Unit,
    definition: &Definition,
    digits: Digits,
    locale: &Locale,
) -> String {
    let suffix = definition
        .suffix
        .filter(|s| s.written)
        .map(|s| format!(" {}", s.name))
        .unwrap_or_default();
    format!("{}{suffix}", amount_in(value, unit, digits, locale))
}

/// Number and unit without the reference behind it.
fn amount_in(value: f64, unit: &Unit, digits: Digits, locale: &Locale) -> String {
    let number = locale.number(unit.law.from_base(value), digits);
    let space = if unit.is_tight() { "" } else { locale.unit_space };
    format!("{number}{space}{}", unit.name_for(&number))
}

/// Number and unit without the reference behind it, in `unit` or in the one that suits the size of `value`.
pub(crate) fn amount(
    value: f64,
    unit: Option<&Unit>,
    definition: &Definition,
    digits: Digits,
    locale: &Locale,
) -> String {
    let unit = unit.unwrap_or_else(|| unit_by_size(value, definition, digits));
    amount_in(value, unit, digits, locale)
}

/// The largest shown unit in which the rounded value is 1 or more; the smallest one where none is.
fn unit_by_size(value: f64, definition: &Definition, digits: Digits) -> &'static Unit {
    let units: Vec<&'static Unit> = definition
        .shown
        .iter()
        .filter_map(|name| definition.unit(name))
        .collect();
    let is_one_or_more = |unit: &&&'static Unit| {
        let x = unit.law.from_base(value).abs();
        let finest = match digits {
            Digits::Significant(n) => 10f64.powi(-i32::from(n.max(1))), // below 1 the digits start one place later
            Digits::Decimals(n) | Digits::AtMost(n) => 10f64.powi(-i32::from(n)),
        };
        x + finest / 2.0 >= 1.0
    };
    let named_zero = if value == 0.0 {
        definition
            .units
            .iter()
            .find(|u| definition.shown.contains(&u.name))
    } else {
        None
    };
    named_zero
        .or_else(|| units.iter().rev().find(is_one_or_more).copied())
        .or_else(|| units.first().copied())
        .unwrap_or(&definition.units[0])
}
