//! How much each thing of a design is missed when it is not there: what the findings say without it.

use crate::draft::Draft;
use crate::options::AirChoice;
use crate::plan::PlanError;
use crate::sample::Sample;
use crate::search::{Depth, Search};
use crate::trial::{Text, Trial, outcome_of};
use assess::Fields;
use assess::finding::{Finding, Severity};
use assess::proofs::transmission;
use assess::rules::{self, Look};
use station::Mark;
use station::shelf::ItemKind;

/// Between things that are missed alike, which first (common practice, no source). What is not named belongs to the way into the air.
pub(crate) const ORDER: [ItemKind; 20] = [
    ItemKind::Console,
    ItemKind::Microphone,
    ItemKind::Headphones,
    ItemKind::AudioCable,
    ItemKind::Playout,
    ItemKind::HeadphoneAmplifier,
    ItemKind::Hybrid,
    ItemKind::Processor,
    ItemKind::Arm,
    ItemKind::OnAirLight,
    ItemKind::Loudspeaker,
    ItemKind::EmergencyPlayer,
    ItemKind::Ups,
    ItemKind::Generator,
    ItemKind::RdsEncoder,
    ItemKind::Transmitter,
    ItemKind::Rack,
    ItemKind::Furniture,
    ItemKind::Acoustics,
    ItemKind::Spares,
];

/// How much a thing is missed, most first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Missed {
    /// The station may not go on the air without it.
    Forbidden,
    /// An error: the brief, or a programme, cannot be kept without it.
    Error,
    /// Somebody will regret it.
    Warning,
    /// Nothing is found wrong without it.
    Comfort,
}

/// Something that may wait.
#[derive(Clone)]
pub(crate) struct Part {
    /// How much, and its place among those alike.
    pub missed: (Missed, usize),
    /// The item's tag in the whole design.
    pub tag: String,
    /// How many.
    pub count: u32,
    /// What the file says of it; none for the reserve transmitter, which comes with its change-over and lines.
    pub table: Option<serde_json::Value>,
}

/// The design's document.
pub(crate) fn draft_of(trial: &Trial) -> Draft {
    Draft {
        node: trial.text.file.clone(),
        edits: trial.edits.clone(),
    }
}

/// What is found wrong with a document, people near the antennas and coverage left aside: they rest on nothing that may wait.
pub(crate) struct Found {
    findings: Vec<Finding>,
    /// What it radiates, W.
    pub erp_w: Option<f64>,
}

impl Found {
    fn has(&self, finding: &Finding) -> bool {
        let same =
            |f: &&Finding| (f.code, &f.tag, f.severity) == (finding.code, &finding.tag, finding.severity);
        self.findings.iter().any(|f| same(&f))
    }

    /// Errors that another has not, but for a transmitter smaller than the licence, worst first.
    pub fn breaks(&self, whole: &Found) -> Vec<Finding> {
        let errors = self.findings.iter().filter(|f| f.severity == Severity::Error);
        errors
            .filter(|f| !whole.has(f) && f.code != "TX 01")
            .cloned()
            .collect()
    }

    /// How much is missed what this lacks of the whole.
    fn missed(&self, whole: &Found) -> Missed {
        let new = self.findings.iter().filter(|f| !whole.has(f));
        new.map(|f| match f.severity {
            Severity::Error if forbids(f) => Missed::Forbidden,
            Severity::Error => Missed::Error,
            Severity::Warning => Missed::Warning,
            Severity::Caution | Severity::Note => Missed::Comfort,
        })
        .min()
        .unwrap_or(Missed::Comfort)
    }
}

/// A rule of law, safety or the supply, not a wish of the brief and not good practice alone.
fn forbids(finding: &Finding) -> bool {
    !finding.is_of_the_brief() && finding.mark != Mark::Practice
}

pub(crate) fn findings(search: &Search, draft: &Draft) -> Option<Found> {
    let text = Text::of(draft)?;
    let case = text.case(&search.case);
    let outcome = outcome_of(&case, &Fields::default(), transmission::evaluate(&case), false);
    Some(Found {
        findings: rules::run(&Look {
            case: &case,
            outcome: &outcome,
        }),
        erp_w: outcome.transmission.emissions.first().and_then(|p| p.erp_w),
    })
}

/// Everything of a design that may wait, most missed first.
pub(crate) fn parts(
    search: &Search,
    choice: &AirChoice,
    chosen: &Trial,
    at: &Sample,
) -> Result<Vec<Part>, PlanError> {
    let design = draft_of(chosen);
    let Some(whole) = findings(search, &design) else {
        return Ok(Vec::new());
    };
    let mut parts = Vec::new();
    for item in &chosen.text.station.items {
        search.course.check()?;
        let bought = item.status.is_none_or(|s| s.is_bought());
        let kind = search.case.shelf.get(&item.shelf).map(|s| s.kind);
        let order = kind.and_then(|k| ORDER.iter().position(|o| *o == k));
        let path = format!("items.{}", item.tag);
        let (Some(order), Some(kind), Some(table), true) = (
            order,
            kind,
            design.node.at(&path).map(station::Node::to_json),
            bought,
        ) else {
            continue;
        };
        let reserve = kind == ItemKind::Transmitter;
        if reserve && item.reserve != Some(true) {
            continue;
        }
        let without = match reserve {
            true => search
                .trial(&put_off(choice), at, Depth::Sketch)?
                .map(|t| draft_of(&t)),
            false => {
                let mut without = design.clone();
                without.remove(path)?;
                Some(without)
            }
        };
        let Some(found) = without.and_then(|draft| findings(search, &draft)) else {
            continue;
        };
        parts.push(Part {
            missed: (found.missed(&whole), order),
            tag: item.tag.clone(),
            count: item.count.unwrap_or(1),
            table: (!reserve).then_some(table),
        });
    }
    parts.sort_by_key(|p| p.missed);
    Ok(parts)
}

/// The choice without its reserve transmitter.
pub(crate) fn put_off(choice: &AirChoice) -> AirChoice {
    AirChoice {
        reserve: false,
        ..choice.clone()
    }
}
