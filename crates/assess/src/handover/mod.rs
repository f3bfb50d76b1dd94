//! What is handed over with a signature: what one gets, on which terms, how the mast is rigged, what is measured on the day.
//!
//! Numbers come from the outcome and the assessment; everything here is finished text, so that papers only set it.

mod acceptance;
mod gets;
mod radiation;
mod rigging;
mod terms;

pub use acceptance::{Check, CheckGroup};
pub use gets::{Given, GivenItem};
pub use radiation::{Cut, Cuts, FedBay, Radiation, Row, Seen};
pub use rigging::{Harness, Rigging, RiggingBay};
pub use terms::Term;

use crate::assessment::Assessment;
use crate::case::Case;
use crate::naming;
use crate::outcome::Outcome;
use crate::pen::Pen;
use crate::said::{SaidAssumption, Sheet};
use serde::Serialize;
use words::{Language, WordsError};

/// Everything that is handed over, in a language.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Handover {
    /// What one gets, stage by stage, like things counted together.
    pub gets: Vec<Given>,
    /// What was assumed, like assumptions about several things in one line.
    pub assumptions: Vec<SaidAssumption>,
    /// The terms of the offer.
    pub terms: Vec<Term>,
    /// Who makes the offer, where the file says so.
    pub supplier: Option<String>,
    /// Every antenna as it is rigged.
    pub rigging: Vec<Rigging>,
    /// Every antenna as it radiates.
    pub radiation: Vec<Radiation>,
    /// What is measured on the day.
    pub acceptance: Vec<CheckGroup>,
}

/// Puts together what is handed over.
///
/// # Errors
/// [`WordsError`] for a message that does not exist or lacks an argument: a fault of ours, never of the station.
pub fn hand_over(
    case: &Case,
    outcome: &Outcome,
    assessment: &Assessment,
    sheet: &Sheet,
) -> Result<Handover, WordsError> {
    let pen = Pen::of(Language::from_tag(&sheet.language).unwrap_or_default());
    Ok(Handover {
        gets: gets::gets(assessment, pen)?,
        assumptions: grouped(case, sheet, pen)?,
        terms: terms::terms(case, pen)?,
        supplier: case.station.offer.supplier.clone(),
        rigging: rigging::rigging(case, outcome, pen)?,
        radiation: radiation::radiation(case, outcome, pen)?,
        acceptance: acceptance::acceptance(case, outcome, assessment, pen)?,
    })
}

/// Assumptions that differ only in whose they are, and that nothing hangs on, in one line.
fn grouped(case: &Case, sheet: &Sheet, pen: Pen) -> Result<Vec<SaidAssumption>, WordsError> {
    let mut groups: Vec<(SaidAssumption, Vec<&str>)> = Vec::new();
    let idle = |a: &SaidAssumption| a.field.is_none() && a.people.is_none() && a.money.is_none();
    for said in &sheet.assumptions {
        let like = |other: &SaidAssumption| {
            idle(said)
                && idle(other)
                && naming::code(&other.path) == naming::code(&said.path)
                && (&other.value, &other.between, &other.why) == (&said.value, &said.between, &said.why)
        };
        match groups.iter_mut().find(|(first, _)| like(first)) {
            Some((_, paths)) => paths.push(&said.path),
            None => groups.push((said.clone(), vec![&said.path])),
        }
    }
    groups
        .into_iter()
        .map(|(said, paths)| {
            Ok(SaidAssumption {
                label: naming::name_of_all(&paths, case.document, pen.language())?,
                ..said
            })
        })
        .collect()
}
