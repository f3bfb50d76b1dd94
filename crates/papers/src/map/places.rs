//! Named points as CSV.

use super::{Map, outlines::kind_of};
use crate::book::Book;
use crate::paper::PaperError;
use quantity::Locale;
use words::Language;

/// The file: kind, name, latitude, longitude, field, in hand.
///
/// # Errors
/// [`PaperError::NoMap`], [`PaperError::Outlines`].
pub fn csv(book: &Book) -> Result<Vec<u8>, PaperError> {
    let map = Map::of(book)?;
    let locale = Language::from_tag(&book.sheet.language)
        .unwrap_or_default()
        .locale();
    let mut out = csv::Writer::from_writer(Vec::new());
    let broken = |e: csv::Error| PaperError::Outlines(e.to_string());
    out.write_record([
        "kind",
        "name",
        "lat_deg",
        "lon_deg",
        "field",
        "field_unit",
        "in_hand",
        "in_hand_unit",
    ])
    .map_err(broken)?;
    for mark in &map.marks {
        let number = |shown: &Option<assess::said::Shown>| {
            let text = shown.as_ref().map(|s| plain(&s.text, locale));
            (
                text.unwrap_or_default(),
                shown.as_ref().map(|s| s.unit.clone()).unwrap_or_default(),
            )
        };
        let ((field, field_unit), (hand, hand_unit)) = (number(&mark.note), number(&mark.in_hand));
        let at = (
            format!("{:.6}", mark.position.lat_deg()),
            format!("{:.6}", mark.position.lon_deg()),
        );
        out.write_record([
            kind_of(mark),
            &mark.name,
            &at.0,
            &at.1,
            &field,
            &field_unit,
            &hand,
            &hand_unit,
        ])
        .map_err(broken)?;
    }
    out.into_inner().map_err(|e| PaperError::Outlines(e.to_string()))
}

/// A number as every program reads it: a point, a hyphen for minus, no groups and no plus.
fn plain(text: &str, locale: &Locale) -> String {
    let whole = text.replace(locale.group, "").replace('+', "");
    whole.replace(locale.decimal, ".").replace('−', "-")
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::Digits;

    #[test]
    fn numbers_of_every_language_are_read_alike() {
        for language in Language::ALL {
            let locale = language.locale();
            let shown = |value: f64| plain(&locale.signed(value, Digits::Decimals(1)), locale);
            assert_eq!((shown(-9.94), shown(1234.56)), ("-9.9".into(), "1234.6".into()));
        }
    }
}
