//! The acceptance sheet: what is measured on the day, what was promised, what is accepted, room for the reading and a signature.

use crate::book::Book;
use crate::frame;
use crate::paper::PaperError;
use crate::wording::Wording;
use serde_json::json;
use words::Message;

const TEMPLATE: &str = concat!(include_str!("style.typ"), include_str!("acceptance.typ"));

const WORDS: [(&str, &str); 16] = [
    ("lead", "paper-acceptance-lead"),
    ("caution", "severity-caution"),
    ("col_number", "paper-col-number"),
    ("col_what", "paper-col-what"),
    ("col_promised", "paper-col-promised"),
    ("col_accepted", "paper-col-accepted"),
    ("col_measured", "paper-col-measured"),
    ("col_initials", "paper-col-initials"),
    ("sign", "paper-acceptance-sign"),
    ("instruments", "paper-acceptance-instruments"),
    ("weather", "paper-acceptance-weather"),
    ("day", "paper-date"),
    ("sign_client", "paper-sign-client"),
    ("sign_supplier", "paper-sign-supplier"),
    ("sign_name", "paper-sign-name"),
    ("sign_signature", "paper-sign-signature"),
];

/// The file.
///
/// # Errors
/// [`PaperError::NothingToMeasure`] for a station that promises nothing yet; [`PaperError::Typeset`], [`PaperError::Words`].
pub fn pdf(book: &Book) -> Result<Vec<u8>, PaperError> {
    let (sheet, handover) = (book.sheet, book.handover);
    if handover.acceptance.is_empty() {
        return Err(PaperError::NothingToMeasure);
    }
    let covers = Message::new("paper-acceptance-covers")
        .text("revision", sheet.revision.to_string())
        .text("file", sheet.digest.get(..8).unwrap_or(&sheet.digest));
    let data = json!({
        "groups": handover.acceptance,
        "supplier": handover.supplier,
        "covers": Wording::of(&sheet.language).say(&covers)?,
    });
    frame::set(book, "paper-acceptance", TEMPLATE, &WORDS, data, Vec::new())
}
