//! The terms of the offer: what the file says, and "to be agreed" where it says nothing.

use crate::case::Case;
use crate::pen::Pen;
use serde::Serialize;
use words::{Message, WordsError};

/// One term.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Term {
    /// What it is about.
    pub label: String,
    /// What is agreed.
    pub text: String,
    /// Whether the file says it; else it is still to be agreed.
    pub known: bool,
}

pub(super) fn terms(case: &Case, pen: Pen) -> Result<Vec<Term>, WordsError> {
    let (offer, brief) = (&case.station.offer, &case.station.brief);
    let day = |day: &Option<station::value::Date>| day.map(|d| d.to_string());
    let rows = [
        ("term-valid", day(&offer.valid_until)),
        ("term-delivery", day(&offer.delivery)),
        ("term-on-air", day(&brief.deadline)),
        ("term-payment", offer.payment.clone()),
        ("term-warranty", offer.warranty.clone()),
        (
            "term-installation",
            brief
                .installation
                .map(|who| pen.text(&Message::new("installed-by").tag("who", who.word())))
                .transpose()?,
        ),
    ];
    rows.into_iter()
        .map(|(code, text)| {
            Ok(Term {
                label: pen.word(code)?,
                known: text.is_some(),
                text: match text {
                    Some(text) => text,
                    None => pen.word("term-open")?,
                },
            })
        })
        .collect()
}
