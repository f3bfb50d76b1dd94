//! The search: samples of each stack, bounds, full evaluation in the order of least price.

use crate::air;
use crate::answer::LookedAt;
use crate::draft::Draft;
use crate::options::{AirChoice, Axes, BaysChoice, Pick, axes, feeder_m, heights_m};
use crate::plan::PlanError;
use crate::tier::Tier;
use crate::trial::{FULL_USE_DB, Text, Trial, judge, outcome_of};
use crate::{resilience, studio};
use assess::proofs::transmission::{self, line_constants};
use assess::proofs::{coverage as heard, energy, licence, money};
use assess::{Case, FieldStore, Fields};
use coverage::{Control, CoverageError, ErpTable, at_place};
use quantity::Power;
use rayon::prelude::*;

/// Designs evaluated side by side.
const AT_ONCE: usize = 4;

/// A stack at a height, evaluated once: what any transmitter and feeder must bring it.
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
    /// Room in hand at each wish with the licensed ERP straight at it, dB.
    pub at_best_db: Vec<Option<f64>>,
}

/// A choice, the place of its antenna among the samples, and how it was judged.
pub type Chosen = (AirChoice, usize, Trial);

/// Everything a search works with.
pub struct Search<'a> {
    /// The brief with studio, link and work laid in.
    pub base: Draft,
    /// The case of the brief.
    pub case: Case<'a>,
    /// Size of station.
    pub tier: Tier,
    /// Where loss fields come from.
    pub store: &'a dyn FieldStore,
    /// Progress and cancelling.
    pub control: &'a Control<'a>,
    /// Choices.
    pub axes: Axes,
    /// Stacks at heights.
    pub samples: Vec<Sample>,
    /// What the base costs.
    pub base_price: f64,
}

impl<'a> Search<'a> {
    /// Samples every stack at every height it may have.
    ///
    /// # Errors
    /// [`PlanError`] when the base is no station.
    pub fn new(
        base: Draft,
        case: Case<'a>,
        tier: Tier,
        store: &'a dyn FieldStore,
        control: &'a Control<'a>,
    ) -> Result<Search<'a>, PlanError> {
        let text = Text::of(&base).ok_or(PlanError::NotAStation)?;
        let here = text.case(&case);
        let transmission = transmission::evaluate(&here);
        let energy = energy::evaluate(&here, &transmission);
        let base_price = money::evaluate(&here, &transmission, &energy).capital.to_f64();
        let axes = axes(&case);
        let mut search = Search {
            base,
            case,
            tier,
            store,
            control,
            axes,
            samples: Vec::new(),
            base_price,
        };
        let stacks: Vec<(BaysChoice, f64)> = search
            .axes
            .bays
            .iter()
            .flat_map(|b| heights_m(&case, b).into_iter().map(|h| (b.clone(), h)))
            .collect();
        search.samples = stacks
            .into_par_iter()
            .filter_map(|(bays, height)| search.sample(bays, height))
            .collect();
        Ok(search)
    }

    fn sample(&self, bays: BaysChoice, height_m: f64) -> Option<Sample> {
        // The largest transmitter on the shortest loss: only the stack and its feed are looked at.
        let transmitter = self.axes.transmitters.iter().max_by(|a, b| {
            air::rated_w(&self.case, a)
                .unwrap_or(0.0)
                .total_cmp(&air::rated_w(&self.case, b).unwrap_or(0.0))
        })?;
        let choice = AirChoice {
            transmitter: transmitter.clone(),
            feeder: self.axes.feeders.first()?.clone(),
            feeder_m: feeder_m(&self.case, height_m),
            bays: bays.clone(),
            height_m,
        };
        let mut draft = self.base.clone();
        air::write(&self.case, &mut draft, &choice).ok()?;
        let text = Text::of(&draft)?;
        let case = text.case(&self.case);
        let mut transmission = transmission::evaluate(&case);
        let path = transmission.emissions.first_mut()?;
        let into_w = path.licence_w.map(|w| w * 10f64.powf(-path.loss_db() / 10.0));
        // Conditions are looked at with the licence used in full, whatever this transmitter gives.
        path.power_w = path.licence_w.or(path.power_w);
        let trim_db = licence::evaluate(&case, &transmission)
            .emissions
            .first()?
            .conditions
            .iter()
            .filter_map(|c| Some(c.field_dbuv_m? - c.below_dbuv_m))
            .fold(0.0, f64::max);
        Some(Sample {
            at_best_db: self.at_best(&case),
            bays,
            height_m,
            into_w,
            trim_db: if trim_db > 0.0 { trim_db + 0.02 } else { 0.0 },
        })
    }

    /// Room in hand at each wish's place if the whole licensed ERP went straight at it.
    fn at_best(&self, case: &Case) -> Vec<Option<f64>> {
        let emission = case.station.emissions.first();
        let study = emission.and_then(|e| heard::study(case, e));
        let erp_kw = emission.and_then(|e| e.licence.erp.value().map(|p| p.erp().w() / 1000.0));
        let Some((study, erp_kw)) = study.zip(erp_kw) else {
            return vec![None; case.station.brief.wanted.len()];
        };
        let table = ErpTable::omni(erp_kw);
        let margin = |wish: &station::brief::Wanted| {
            let place = case.station.place(wish.place.as_deref()?)?;
            let to = terrain::Position::new(place.position.lat_deg(), place.position.lon_deg()).ok()?;
            let around = wish
                .surroundings
                .value()
                .copied()
                .or(place.surroundings)
                .unwrap_or(station::brief::Surroundings::Rural);
            let situation = wish
                .situation
                .value()
                .copied()
                .unwrap_or(station::brief::Situation::Roof);
            let field = heard::wanted_field(case, wish.service, situation, wish.field.map(|f| f.dbuv_m()));
            at_place(
                case.world,
                &study,
                to,
                &table,
                &field,
                Some(heard::surroundings(around)),
            )
            .ok()
            .map(|p| p.margin_db)
        };
        case.station.brief.wanted.iter().map(margin).collect()
    }

    /// Tags of wishes that no design within the licence keeps, and the best room in hand at each.
    pub fn at_best_db(&self) -> Vec<(String, Option<f64>)> {
        self.case
            .station
            .brief
            .wanted
            .iter()
            .enumerate()
            .map(|(i, wish)| {
                let best = self
                    .samples
                    .iter()
                    .filter_map(|s| s.at_best_db[i])
                    .reduce(f64::max);
                (wish.tag.clone(), best)
            })
            .collect()
    }

    /// Tags of wishes that no design within the licence keeps.
    pub fn impossible(&self) -> Vec<String> {
        let all = self.at_best_db();
        all.into_iter()
            .filter(|(_, db)| db.is_some_and(|db| db < 0.0))
            .map(|(tag, _)| tag)
            .collect()
    }

    /// Every design: transmitter × feeder × stack × height.
    pub fn designs(&self) -> Vec<(AirChoice, usize)> {
        let mut all = Vec::new();
        for (i, sample) in self.samples.iter().enumerate() {
            for feeder in &self.axes.feeders {
                for transmitter in &self.axes.transmitters {
                    let choice = AirChoice {
                        transmitter: transmitter.clone(),
                        feeder: feeder.clone(),
                        bays: sample.bays.clone(),
                        height_m: sample.height_m,
                        feeder_m: feeder_m(&self.case, sample.height_m),
                    };
                    all.push((choice, i));
                }
            }
        }
        all
    }

    /// Less than the licence that still counts as using it, dB.
    pub fn allowed_under_db(&self) -> f64 {
        let licence = self.case.station.emissions.first().map(|e| &e.licence);
        licence
            .and_then(|l| l.erp_at_least.zip(l.erp.value()))
            .map_or(FULL_USE_DB, |(least, full)| {
                10.0 * (full.erp().w() / least.erp().w()).log10()
            })
    }

    /// Whether a design can reach the licensed power at all: its feeder alone counted as loss, so none is ruled out wrongly.
    fn reaches(&self, choice: &AirChoice, sample: &Sample) -> bool {
        let Some(into_w) = sample.into_w else { return false };
        let Some(rated_w) = air::rated_w(&self.case, &choice.transmitter) else {
            return false;
        };
        let id = match &choice.feeder {
            Pick::Buy(id) => Some(id.as_str()),
            Pick::Keep(tag) => crate::options::kept_feeder(&self.case)
                .filter(|c| c.tag == *tag)
                .map(|c| c.shelf.as_str()),
        };
        let frequency = self
            .case
            .station
            .emissions
            .first()
            .and_then(|e| e.frequency.value());
        let loss_db = id
            .and_then(|id| self.case.shelf.get(id))
            .and_then(line_constants)
            .zip(frequency)
            // Cold lines lose least: no assumption about heat may rule a design out.
            .and_then(|(line, f)| line.loss_db(f.mhz(), choice.feeder_m, 20.0).ok())
            .unwrap_or(0.0);
        rated_w >= into_w * 10f64.powf((loss_db - sample.trim_db - self.allowed_under_db()) / 10.0) * 0.999
    }

    /// Evaluates a design in full; the coverage field only where an area was wished for.
    pub fn trial(
        &self,
        choice: &AirChoice,
        sample: &Sample,
        with_fields: bool,
    ) -> Result<Option<Trial>, PlanError> {
        let mut draft = self.base.clone();
        air::write(&self.case, &mut draft, choice)?;
        studio::racks(&self.case, &mut draft, self.tier)?;
        let Some(mut text) = Text::of(&draft) else {
            return Ok(None);
        };
        let mut transmission = transmission::evaluate(&text.case(&self.case));
        if sample.trim_db > 0.0
            && let Some(path) = transmission.emissions.first()
            && let (Some(full), Some(rated)) = (path.licence_w, path.rated_w)
        {
            let wanted = full * 10f64.powf(-sample.trim_db / 10.0);
            let set = (wanted.min(rated) * 100.0).floor() / 100.0;
            if let Some(emission) = self.case.station.emissions.first() {
                let path = format!("emissions.{}.power", emission.tag);
                draft.set(path, Power::from_w(set).to_string())?;
            }
            let Some(trimmed) = Text::of(&draft) else {
                return Ok(None);
            };
            text = trimmed;
            transmission = transmission::evaluate(&text.case(&self.case));
        }
        resilience::complete(&self.case, &mut draft, &text, &transmission)?;
        studio::racks(&self.case, &mut draft, self.tier)?;
        let Some(text) = Text::of(&draft) else {
            return Ok(None);
        };
        let case = text.case(&self.case);
        let area = case.station.brief.wanted.iter().any(|w| w.share.is_some());
        let fields = if with_fields || area {
            Fields::prepare(&case, self.store, self.control).map_err(|e| match e {
                CoverageError::Cancelled => PlanError::Cancelled,
                other => PlanError::Field(other),
            })?
        } else {
            Fields::default()
        };
        let outcome = outcome_of(&case, &fields, transmission);
        Ok(Some(judge(
            &self.case,
            draft,
            text,
            outcome,
            (sample.trim_db, self.allowed_under_db()),
        )))
    }

    /// The cheapest design that holds; where none does, the one that fails least, then cheapest.
    ///
    /// # Errors
    /// [`PlanError`]: cancelled, or a document that cannot be changed.
    pub fn best(&self, bounded: bool) -> Result<(Option<Chosen>, LookedAt), PlanError> {
        let impossible = self.impossible();
        let designs = self.designs();
        let mut looked_at = LookedAt {
            designs: designs.len(),
            possible: 0,
            evaluated: 0,
        };
        let mut queue: Vec<(f64, AirChoice, usize)> = designs
            .iter()
            .filter(|(choice, i)| !bounded || self.reaches(choice, &self.samples[*i]))
            .filter_map(|(choice, i)| {
                Some((
                    air::least_price(&self.case, choice)? + self.base_price,
                    choice.clone(),
                    *i,
                ))
            })
            .collect();
        looked_at.possible = queue.len();
        queue.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut best: Option<(AirChoice, usize, Trial)> = None;
        for some in queue.chunks(AT_ONCE) {
            if bounded
                && let Some((.., found)) = &best
                && found.holds(&impossible)
                && some[0].0 > found.capital()
            {
                break;
            }
            let tried: Vec<_> = some
                .par_iter()
                .map(|(_, choice, i)| self.trial(choice, &self.samples[*i], false))
                .collect();
            for ((_, choice, i), trial) in some.iter().zip(tried) {
                let Some(trial) = trial? else { continue };
                looked_at.evaluated += 1;
                let better = best
                    .as_ref()
                    .is_none_or(|(.., found)| rank(&trial, &impossible) < rank(found, &impossible));
                if better {
                    best = Some((choice.clone(), *i, trial));
                }
            }
        }
        Ok((best, looked_at))
    }
}

/// What comes first: nothing forbidden, wishes kept, the licence used, then the price. Prices compare exactly in cents.
fn rank(trial: &Trial, impossible: &[String]) -> (usize, usize, u64, i64, i64) {
    let unmet = trial.unmet.iter().filter(|t| !impossible.contains(t)).count();
    let cents = |money: f64| (money * 100.0).round() as i64;
    let (capital, over_years) = trial.price();
    let under = trial.under_db.map_or(0, |db| (db * 10.0).ceil().max(0.0) as u64);
    (
        trial.blocking.len(),
        unmet,
        under,
        cents(capital),
        cents(over_years),
    )
}
