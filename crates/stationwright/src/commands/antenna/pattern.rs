//! The pattern as a file, and a measured one laid over it.

use super::words;
use antenna::pattern::laid::COMPARED_DB;
use antenna::pattern::{CutApart, CutKind, PatternForm};
use assess::Outcome;
use assess::pattern_files::{lay_over, pattern_text};
use folder::{Expected, save};
use quantity::{Decibels, Digits};
use std::path::Path;
use words::Message;

/// Writes the pattern of an emission to a file in the form its name says.
pub fn write(outcome: &Outcome, tag: &str, antenna: &str, path: &Path) -> Result<(), Message> {
    let form = form_of(path)?;
    let description = words(
        &Message::new("pattern-description")
            .text("antenna", antenna)
            .text("tag", tag),
    );
    let text = pattern_text(outcome, tag, form, &description)
        .ok_or_else(|| Message::new("mounted-nothing").text("tag", tag))?;
    save(path, text.as_bytes(), Expected::Anything).map_err(|e| Message::from(&e))?;
    Ok(())
}

/// Lays a measured pattern over the computed one, its azimuth 0 at a true bearing.
pub fn laid(outcome: &Outcome, tag: &str, path: &Path, zero_deg: f64) -> Result<Vec<CutApart>, Message> {
    let form = form_of(path)?;
    let refusal = |why: Message| {
        Message::new("pattern-refused")
            .text("path", path.display().to_string())
            .message("why", why)
    };
    let text = std::fs::read_to_string(path).map_err(|e| refusal(Message::foreign(e)))?;
    lay_over(outcome, tag, (&text, form), zero_deg)
        .ok_or_else(|| Message::new("mounted-nothing").text("tag", tag))?
        .map_err(|e| refusal((&e).into()))
}

fn form_of(path: &Path) -> Result<PatternForm, Message> {
    path.extension()
        .and_then(|e| PatternForm::of_extension(&e.to_string_lossy()))
        .ok_or_else(|| Message::new("pattern-form").text("path", path.display().to_string()))
}

/// The comparison, a line for each cut.
pub fn shown(path: &Path, cuts: &[CutApart]) -> String {
    let mut lines = vec![words(
        &Message::new("pattern-laid")
            .text("path", path.display().to_string())
            .quantity("within", Decibels::from_db(COMPARED_DB)),
    )];
    lines.extend(cuts.iter().map(|cut| {
        let kind = match cut.kind {
            CutKind::Azimuth => "azimuth",
            CutKind::Elevation => "elevation",
        };
        let plane = match cut.plane {
            antenna::direction::Plane::Vertical => "vertical",
            antenna::direction::Plane::Horizontal => "horizontal",
        };
        words(
            &Message::new("pattern-cut")
                .tag("plane", plane)
                .tag("kind", kind)
                .number("at", cut.at_deg, Digits::Decimals(1))
                .amount("largest", cut.largest_db, Digits::Decimals(2), "dB")
                .number("angle", cut.largest_at_deg, Digits::Decimals(1))
                .amount("rms", cut.rms_db, Digits::Decimals(2), "dB")
                .amount("mean", cut.mean_db, Digits::Decimals(2), "dB")
                .count("points", cut.points as i64),
        )
    }));
    lines.join("\n") + "\n"
}
