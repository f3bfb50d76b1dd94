//! One design tried: read, evaluated, judged.

use crate::draft::Draft;
use assess::finding::{Finding, Severity};
use assess::proofs::{coverage, energy, exposure, licence, link, money, studio, transmission};
use assess::rules::{self, Look};
use assess::{Case, Fields, Outcome};
use station::design::Emission;
use station::{Edit, Node, Station};

/// The licence is what the client has: this much below it counts as using it in full, dB (common practice, no source).
pub const FULL_USE_DB: f64 = 0.25;

/// A document read, with its assumptions.
#[derive(Debug, Clone)]
pub struct Text {
    /// As the file would have it.
    pub file: Node,
    /// With assumptions laid in.
    pub document: Node,
    /// Read.
    pub station: Station,
}

impl Text {
    /// Reads a draft; `None` when it is no station, which no draft of ours should be.
    pub fn of(draft: &Draft) -> Option<Text> {
        let document = station::assumptions::fill(&draft.node);
        let station = Station::read(&document).ok()?;
        Some(Text {
            file: draft.node.clone(),
            document,
            station,
        })
    }

    /// The case of this text in the surroundings of another.
    pub fn case<'a>(&'a self, around: &Case<'a>) -> Case<'a> {
        Case {
            file: &self.file,
            document: &self.document,
            station: &self.station,
            ..*around
        }
    }
}

/// A design with its numbers and findings.
#[derive(Debug, Clone)]
pub struct Trial {
    /// Edits from the brief to it.
    pub edits: Vec<Edit>,
    /// Its text.
    pub text: Text,
    /// Its numbers.
    pub outcome: Outcome,
    /// Findings that forbid it: errors of transmitter, feeder, antenna, licence and people's safety, and a programme that no way
    /// brings. Not those of emissions that are left open.
    pub blocking: Vec<Finding>,
    /// Tags of wishes that are not kept.
    pub unmet: Vec<String>,
    /// It radiates less than the licence by more than [`FULL_USE_DB`], dB.
    pub under_db: Option<f64>,
    /// How far the programme's way, where it was chosen, is from working as asked
    /// ([`link::short_of`](crate::link::short_of)); 0 when it does.
    pub link_short: u64,
    /// Tag of the hop that was chosen with the rest, where one was.
    pub hop: Option<String>,
    /// People served in stereo on the roof, where they were counted.
    pub people: Option<f64>,
}

impl Trial {
    /// Nothing forbids it, every wish that can be kept is kept, the programme arrives, the licence is used.
    pub fn holds(&self, impossible: &[String]) -> bool {
        self.blocking.is_empty()
            && self.under_db.is_none()
            && self.link_short == 0
            && self.unmet.iter().all(|t| impossible.contains(t))
    }

    /// What it costs to build.
    pub fn capital(&self) -> f64 {
        self.outcome.money.capital.to_f64()
    }

    /// What designs are chosen by: capital, then cost over the years.
    pub fn price(&self) -> (f64, f64) {
        (self.capital(), self.outcome.money.over_years.to_f64())
    }

    /// Least room in hand at a wanted place, dB.
    pub fn least_margin_db(&self) -> Option<f64> {
        let margins = self.outcome.coverage.wanted.iter().filter_map(|w| w.margin_db());
        margins.reduce(f64::min)
    }

    /// People served in stereo on the roof by the first emission, where they were counted.
    pub fn people(&self) -> Option<f64> {
        self.people
    }
}

/// Evaluates a case whose transmission is known already; people near the antennas, the costly part, only where that is asked.
pub fn outcome_of(
    case: &Case,
    fields: &Fields,
    transmission: transmission::Outcome,
    with_exposure: bool,
) -> Outcome {
    let energy = energy::evaluate(case, &transmission);
    let nobody = exposure::Outcome {
        emissions: Vec::new(),
        points: Vec::new(),
    };
    Outcome {
        exposure: match with_exposure {
            true => exposure::evaluate(case, &transmission),
            false => nobody,
        },
        licence: licence::evaluate(case, &transmission),
        coverage: coverage::evaluate(case, fields, &transmission),
        link: link::evaluate(case),
        studio: studio::evaluate(case),
        money: money::evaluate(case, &transmission, &energy),
        energy,
        transmission,
    }
}

/// Judges a design. `power_db` is what conditions of the licence cut, and how much less than the rest still counts as full
/// use, dB.
pub fn judge(
    around: &Case,
    draft: Draft,
    text: Text,
    outcome: Outcome,
    power_db: (f64, f64),
    hop: Option<&str>,
) -> Trial {
    let link_short = outcome
        .link
        .hops
        .iter()
        .find(|h| Some(h.tag.as_str()) == hop)
        .map_or(0, |h| crate::link::short_of(h, &outcome.link));
    let case = text.case(around);
    let findings = rules::run(&Look {
        case: &case,
        outcome: &outcome,
    });
    let blocking = findings
        .into_iter()
        .filter(|f| {
            f.severity == Severity::Error
                && left_open(case.station).all(|e| e.tag != f.tag)
                && ["TX", "FD", "AN", "LI", "SA", "LK 01"]
                    .iter()
                    .any(|c| f.code.starts_with(c))
        })
        .collect();
    let unmet = outcome
        .coverage
        .wanted
        .iter()
        .filter(|w| !kept(w))
        .map(|w| w.tag.clone())
        .collect();
    let under_db = under_db(&outcome, power_db);
    Trial {
        edits: draft.edits,
        blocking,
        unmet,
        under_db,
        link_short,
        people: None,
        hop: hop.map(str::to_owned),
        outcome,
        text,
    }
}

/// Emissions after the first that have no way into the air yet: it is not chosen here.
pub fn left_open(station: &Station) -> impl Iterator<Item = &Emission> {
    let without = |e: &&Emission| e.antenna.is_none() || e.transmitter.is_none();
    station.emissions.iter().skip(1).filter(without)
}

/// A wish is kept at its place and over its area; an area whose field is not there yet is not judged.
pub fn kept(wish: &coverage::WantedCheck) -> bool {
    let place = wish
        .place
        .as_ref()
        .is_none_or(|p| p.as_ref().is_ok_and(|p| p.margin_db >= 0.0));
    let area = wish
        .area
        .is_none_or(|a| a.wanted_ratio.is_none_or(|r| a.people >= r * a.people_total));
    place && area
}

fn under_db(outcome: &Outcome, (trim_db, allowed_db): (f64, f64)) -> Option<f64> {
    let path = outcome.transmission.emissions.first()?;
    let (power, wanted) = (path.power_w?, path.licence_w?);
    let short = 10.0 * (wanted / power).log10() - trim_db;
    (short > allowed_db + 1e-3).then_some(short)
}
