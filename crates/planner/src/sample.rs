//! A stack at a height, evaluated once with the licence used in full: what any transmitter and feeder must bring it, and what
//! no transmitter and feeder can better.

use crate::air;
use crate::course::{Course, Phase};
use crate::options::{AirChoice, Axes, BaysChoice, feeder_m};
use crate::plan::PlanError;
use crate::trial::{Text, kept};
use crate::{Draft, link};
use assess::proofs::{coverage as heard, licence, transmission};
use assess::{Case, Fields};
use coverage::{CoverageError, ErpTable, LossField, Study, Survey};
use std::sync::Arc;

/// A stack at a height, with the licence used in full.
#[derive(Debug, Clone)]
pub struct Sample {
    /// The bays.
    pub bays: BaysChoice,
    /// Height of their centre above ground, m.
    pub height_m: f64,
    /// Power into the antenna system that the licence allows, W; `None` when the stack cannot be computed.
    pub into_w: Option<f64>,
    /// By how much a condition of the licence cuts that power, dB.
    pub trim_db: f64,
    /// Each wish, in the order of the file: no design with this stack at this height does better.
    pub wishes: Vec<AtFull>,
    /// What its coverage is studied by.
    pub study: Option<Study>,
    table: Option<ErpTable>,
}

/// A wish with the licence used in full.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AtFull {
    /// Room in hand at its place, dB.
    pub margin_db: Option<f64>,
    /// The same if the whole licensed ERP went straight at the place, dB.
    pub at_best_db: Option<f64>,
    /// It is kept, or not known to be missed.
    pub kept: bool,
}

impl Sample {
    /// Evaluates a stack at a height, but for areas; nothing where it makes no station.
    pub fn of(case: &Case, base: &Draft, axes: &Axes, bays: BaysChoice, height_m: f64) -> Option<Sample> {
        // The largest transmitter on any feeder: only the stack and its feed are looked at.
        let rated = |pick| air::rated_w(case, pick).unwrap_or(0.0);
        let transmitter = axes
            .transmitters
            .iter()
            .max_by(|a, b| rated(a).total_cmp(&rated(b)))?;
        let choice = AirChoice {
            transmitter: transmitter.clone(),
            feeder: axes.feeders.first()?.clone(),
            feeder_m: feeder_m(case, height_m),
            bays: bays.clone(),
            height_m,
            reserve: true,
            link: 0,
        };
        let mut draft = base.clone();
        air::write(case, &mut draft, &choice).ok()?;
        link::write(case, &mut draft, axes.links.first()?, None).ok()?;
        let text = Text::of(&draft)?;
        let here = text.case(case);
        let mut transmission = transmission::evaluate(&here);
        let path = transmission.emissions.first_mut()?;
        let into_w = path.licence_w.map(|w| w * 10f64.powf(-path.loss_db() / 10.0));
        let full_w = path.licence_w.or(path.power_w);
        let trim_db = trim_db(&here, &transmission)?;
        let path = transmission.emissions.first_mut()?;
        path.power_w = full_w.map(|w| w * 10f64.powf(-trim_db / 10.0));
        let table = heard::erp_table(path);
        let emission = here.station.emissions.first()?;
        let licensed_kw = emission.licence.erp.value().map(|p| p.erp().w() / 1000.0);
        let wishes = heard::evaluate(&here, &Fields::default(), &transmission)
            .wanted
            .iter()
            .map(|check| AtFull {
                margin_db: check.margin_db(),
                at_best_db: at_best_db(check, licensed_kw),
                kept: table.is_none() || kept(check),
            })
            .collect();
        Some(Sample {
            study: heard::study(&here, emission),
            bays,
            height_m,
            into_w,
            trim_db,
            wishes,
            table,
        })
    }

    /// Looks at the wishes about areas too.
    pub fn look_at_areas(&mut self, case: &Case, areas: &Areas) {
        let (Some(study), Some(table)) = (&self.study, &self.table) else {
            return;
        };
        let Some(loss) = areas.field(study) else { return };
        for (wish, at_full) in case.station.brief.wanted.iter().zip(&mut self.wishes) {
            let area = heard::area(case, wish, table, loss);
            at_full.kept &=
                area.is_none_or(|a| a.wanted_ratio.is_none_or(|r| a.people >= r * a.people_total));
        }
    }
}

/// By how much conditions of the licence cut the power that its ERP alone allows, dB.
pub fn trim_db(here: &Case, transmission: &transmission::Outcome) -> Option<f64> {
    let mut full = transmission.clone();
    let path = full.emissions.first_mut()?;
    // Conditions are looked at with the licence used in full, whatever this transmitter gives.
    path.power_w = path.licence_w.or(path.power_w);
    let over = licence::evaluate(here, &full)
        .emissions
        .first()?
        .conditions
        .iter()
        .filter_map(|c| Some(c.field_dbuv_m? - c.below_dbuv_m))
        .fold(0.0, f64::max);
    Some(if over > 0.0 { over + 0.02 } else { 0.0 })
}

/// Room in hand at a place if the whole licensed ERP went straight at it.
fn at_best_db(check: &heard::WantedCheck, licensed_kw: Option<f64>) -> Option<f64> {
    let place = check.place.as_ref()?.as_ref().ok()?;
    Some(place.margin_db - place.erp_dbkw + 10.0 * licensed_kw?.log10())
}

/// Loss fields of the areas that wishes speak of, one for each height: the ground is read once, and no further out than
/// the largest area.
#[derive(Debug, Default)]
pub struct Areas {
    radius_km: f64,
    fields: Vec<(Study, Arc<LossField>)>,
}

impl Areas {
    /// Computes the fields of some studies, where a wish asks for a share of an area's people.
    ///
    /// # Errors
    /// [`PlanError`]: a coverage that cannot be computed, or cancelled.
    pub fn of<'s>(
        case: &Case,
        studies: impl Iterator<Item = &'s Study>,
        course: &Course,
    ) -> Result<Areas, PlanError> {
        let wanted = case.station.brief.wanted.iter().filter(|w| w.share.is_some());
        let Some(radius_km) = wanted.filter_map(|w| w.within).map(|r| r.km()).reduce(f64::max) else {
            return Ok(Areas::default());
        };
        let mut areas = Areas {
            radius_km,
            fields: Vec::new(),
        };
        let mut heights: Vec<Study> = Vec::new();
        for study in studies {
            let small = areas.small(study);
            if !heights.contains(&small) {
                heights.push(small);
            }
        }
        let steps = course.phase(Phase::Areas, 2 * heights.len());
        let mut survey: Option<Survey> = None;
        for small in heights {
            let ground = match &survey {
                Some(ground) if ground.fits(&small) => ground,
                _ => survey.insert(
                    steps
                        .step(|control| Survey::new(case.world, &small, control))
                        .map_err(refused)?,
                ),
            };
            let field = steps
                .step(|control| LossField::from_survey(ground, &small, control))
                .map_err(refused)?;
            areas.fields.push((small, Arc::new(field)));
        }
        Ok(areas)
    }

    fn small(&self, study: &Study) -> Study {
        study.within_km(study.radius_km.min(self.radius_km))
    }

    /// The field of a study's height, where a wish asks for one.
    pub fn field(&self, study: &Study) -> Option<&LossField> {
        let small = self.small(study);
        self.fields.iter().find(|(s, _)| *s == small).map(|(_, f)| &**f)
    }
}

fn refused(error: CoverageError) -> PlanError {
    match error {
        CoverageError::Cancelled => PlanError::Cancelled,
        other => PlanError::Field(other),
    }
}
