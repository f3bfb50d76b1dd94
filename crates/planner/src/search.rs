//! What a search works with: every stack solved at every height it may have, the rank that no design can better, and a design
//! evaluated.

use crate::air;
use crate::course::{Course, Phase};
use crate::draft::Draft;
use crate::link;
use crate::options::{AirChoice, Axes, BaysChoice, Pick, antenna_site, axes, feeder_m, heights_m};
use crate::order::{Rank, behind, cents, tenths};
use crate::plan::PlanError;
use crate::sample::{Areas, Sample};
use crate::tier::Tier;
use crate::trial::{FULL_USE_DB, Text, Trial, judge, outcome_of};
use crate::{resilience, studio};
use assess::proofs::transmission::{self, line_constants};
use assess::proofs::{coverage as heard, energy, money};
use assess::{Case, FieldStore, Fields};
use coverage::Control;
use quantity::Power;
use rayon::prelude::*;
use station::brief::{Service, Situation};

/// A wish that no design keeps, but that some come this near, is worth coming near: one standard deviation of the
/// prediction, dB. One further away is not.
const NEAR_DB: f64 = 6.0;

/// Everything a search works with.
pub struct Search<'a> {
    /// The brief with studio and work laid in.
    pub base: Draft,
    /// The case of the brief.
    pub case: Case<'a>,
    /// Size of station.
    pub tier: Tier,
    /// Where loss fields come from.
    pub store: &'a dyn FieldStore,
    /// Progress and cancelling.
    pub course: &'a Course<'a>,
    /// Choices.
    pub axes: Axes,
    /// Stacks at heights.
    pub samples: Vec<Sample>,
    /// What the base costs.
    pub base_price: f64,
    areas: Areas,
}

/// How thoroughly a design is looked at.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Depth {
    /// Without people near the antennas: its rank can only fall.
    Sketch,
    /// Whole.
    Whole,
}

impl<'a> Search<'a> {
    /// Samples every stack at every height it may have.
    ///
    /// # Errors
    /// [`PlanError`] when the base is no station, a coverage cannot be computed, or cancelled.
    pub fn new(
        base: Draft,
        case: Case<'a>,
        tier: Tier,
        store: &'a dyn FieldStore,
        course: &'a Course<'a>,
    ) -> Result<Search<'a>, PlanError> {
        let text = Text::of(&base).ok_or(PlanError::NotAStation)?;
        let here = text.case(&case);
        let transmission = transmission::evaluate(&here);
        let energy = energy::evaluate(&here, &transmission);
        let base_price = money::evaluate(&here, &transmission, &energy).capital.to_f64();
        let axes = axes(&case, link::ways(&case, &base)?);
        let mut samples = sampled(&case, &base, &axes, course)?;
        let areas = Areas::of(&case, samples.iter().filter_map(|s| s.study.as_ref()), course)?;
        samples
            .par_iter_mut()
            .for_each(|sample| sample.look_at_areas(&case, &areas));
        Ok(Search {
            base,
            case,
            tier,
            store,
            course,
            axes,
            samples,
            base_price,
            areas,
        })
    }

    fn over_samples(&self, of: impl Fn(&crate::sample::AtFull) -> Option<f64>) -> Vec<Option<f64>> {
        (0..self.case.station.brief.wanted.len())
            .map(|i| {
                let each = self.samples.iter().filter_map(|s| of(s.wishes.get(i)?));
                each.reduce(f64::max)
            })
            .collect()
    }

    /// Best room in hand at each wish's place with all the licensed power straight at it, dB.
    pub fn at_best_db(&self) -> Vec<Option<f64>> {
        self.over_samples(|w| w.at_best_db)
    }

    /// Best room in hand at each wish's place by any antenna on offer, dB.
    pub fn on_offer_db(&self) -> Vec<Option<f64>> {
        self.over_samples(|w| w.margin_db)
    }

    /// Tags of wishes that no antenna on offer keeps at any height, the licence used in full.
    pub fn impossible(&self) -> Vec<String> {
        let wanted = self.case.station.brief.wanted.iter().enumerate();
        wanted
            .filter(|(i, _)| {
                !self
                    .samples
                    .iter()
                    .any(|s| s.wishes.get(*i).is_none_or(|w| w.kept))
            })
            .map(|(_, wish)| wish.tag.clone())
            .collect()
    }

    /// Every design: transmitter × feeder × stack × height × way of the programme.
    pub fn designs(&self) -> Vec<(AirChoice, usize)> {
        let mut all = Vec::new();
        for (i, sample) in self.samples.iter().enumerate() {
            for feeder in &self.axes.feeders {
                for transmitter in &self.axes.transmitters {
                    for link in 0..self.axes.links.len() {
                        let choice = AirChoice {
                            transmitter: transmitter.clone(),
                            feeder: feeder.clone(),
                            bays: sample.bays.clone(),
                            height_m: sample.height_m,
                            feeder_m: feeder_m(&self.case, sample.height_m),
                            reserve: true,
                            link,
                        };
                        all.push((choice, i));
                    }
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

    /// Tenths of a decibel that a design stays under the licence at least: its feeder alone counted as loss, so that none is
    /// put behind wrongly.
    pub fn least_under(&self, choice: &AirChoice, sample: &Sample) -> Option<u64> {
        let into_w = sample.into_w?;
        let rated_w = air::rated_w(&self.case, &choice.transmitter)?;
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
            // Cold lines lose least: no assumption about heat may put a design behind.
            .and_then(|(line, f)| line.loss_db(f.mhz(), choice.feeder_m, 20.0).ok())
            .unwrap_or(0.0);
        let under_db = 10.0 * (into_w / rated_w).log10() + loss_db - sample.trim_db - 0.01;
        Some(if under_db > self.allowed_under_db() {
            tenths(under_db)
        } else {
            0
        })
    }

    /// The rank that a design cannot better; nothing for one that cannot be built.
    pub(crate) fn bound(
        &self,
        choice: &AirChoice,
        sample: &Sample,
        impossible: &[String],
        near: &[Option<f64>],
    ) -> Option<Rank> {
        let wanted = &self.case.station.brief.wanted;
        let missed = wanted
            .iter()
            .zip(&sample.wishes)
            .filter(|(wish, at)| !at.kept && !impossible.contains(&wish.tag))
            .count();
        let margins = sample.wishes.iter().map(|w| w.margin_db);
        let link = &self.axes.links[choice.link];
        let price = self.base_price + air::least_price(&self.case, choice)? + link.price;
        Some((
            0,
            missed,
            self.least_under(choice, sample)?,
            link.short.unwrap_or(0),
            behind(near, margins),
            // A cent for what rounding may do.
            cents(price) - 1,
            i64::MIN,
        ))
    }

    /// The most that wishes which no design keeps can be given, where that is nearly enough, dB.
    pub(crate) fn near(&self, impossible: &[String]) -> Vec<Option<f64>> {
        let wanted = &self.case.station.brief.wanted;
        let nearly = |db: &f64| (-NEAR_DB..0.0).contains(db);
        self.on_offer_db()
            .into_iter()
            .zip(wanted)
            .map(|(db, wish)| db.filter(nearly).filter(|_| impossible.contains(&wish.tag)))
            .collect()
    }

    /// Evaluates a design with antennas as the file asks for them, and with the field of the areas wished for; nothing where it
    /// makes no station.
    ///
    /// # Errors
    /// [`PlanError`]: cancelled, or a document that cannot be changed.
    pub fn trial(
        &self,
        choice: &AirChoice,
        sample: &Sample,
        depth: Depth,
    ) -> Result<Option<Trial>, PlanError> {
        self.course.check()?;
        let mut draft = self.base.clone();
        air::write(&self.case, &mut draft, choice)?;
        let link = &self.axes.links[choice.link];
        let mast = antenna_site(&self.case)
            .and_then(|site| Some((site.tag.as_str(), air::new_mast(&self.case, choice, site)?.2)));
        link::write(&self.case, &mut draft, link, mast)?;
        studio::racks(&self.case, &mut draft, self.tier)?;
        let Some(mut text) = Text::of(&draft) else {
            return Ok(None);
        };
        let mut transmission = transmission::evaluate(&text.case(&self.case));
        let trim_db = sample.trim_db;
        if trim_db > 0.0
            && let Some(path) = transmission.emissions.first()
            && let (Some(full), Some(rated)) = (path.licence_w, path.rated_w)
        {
            let wanted = full * 10f64.powf(-trim_db / 10.0);
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
        let mut outcome = outcome_of(&case, &Fields::default(), transmission, depth == Depth::Whole);
        self.areas_of(&case, sample, &mut outcome);
        Ok(Some(judge(
            &self.case,
            draft,
            text,
            outcome,
            (trim_db, self.allowed_under_db()),
            link.hop.as_ref().map(|(tag, _)| tag.as_str()),
        )))
    }

    /// Counts the people with stereo on the roof over the whole coverage of a design, where its field can be had.
    ///
    /// # Errors
    /// [`PlanError::Cancelled`].
    pub fn count_people(&self, trial: &mut Trial, control: &Control) -> Result<(), PlanError> {
        trial.people = self.people(&trial.text.case(&self.case), &trial.outcome, control)?;
        Ok(())
    }

    fn people(
        &self,
        case: &Case,
        outcome: &assess::Outcome,
        control: &Control,
    ) -> Result<Option<f64>, PlanError> {
        let fields = Fields::prepare(case, self.store, control).map_err(|_| PlanError::Cancelled)?;
        let Some(emission) = case.station.emissions.first() else {
            return Ok(None);
        };
        let path = outcome.transmission.emissions.first();
        let (Some(Ok(loss)), Some(table)) = (
            fields.by_emission.get(&emission.tag),
            path.and_then(heard::erp_table),
        ) else {
            return Ok(None);
        };
        let wanted = heard::wanted_field(case, Service::Stereo, Situation::Roof, None);
        Ok(loss.served(&table, &wanted).ok().map(|s| s.people))
    }

    /// The wishes about areas, answered over the fields computed ahead.
    fn areas_of(&self, case: &Case, sample: &Sample, outcome: &mut assess::Outcome) {
        let loss = sample.study.as_ref().and_then(|s| self.areas.field(s));
        let path = outcome.transmission.emissions.first();
        let (Some(loss), Some(table)) = (loss, path.and_then(heard::erp_table)) else {
            return;
        };
        for (wish, check) in case.station.brief.wanted.iter().zip(&mut outcome.coverage.wanted) {
            check.area = heard::area(case, wish, &table, loss);
        }
    }
}

/// Every stack at every height it may have. Stacks of as many bays of one kind share a solution: one of each is solved first.
fn sampled(case: &Case, base: &Draft, axes: &Axes, course: &Course) -> Result<Vec<Sample>, PlanError> {
    let stacks: Vec<(&BaysChoice, f64)> = axes
        .bays
        .iter()
        .flat_map(|b| heights_m(case, b).into_iter().map(move |h| (b, h)))
        .collect();
    let mut alike: Vec<&BaysChoice> = Vec::new();
    let (first, rest): (Vec<_>, Vec<_>) = stacks.iter().enumerate().partition(|(_, (bays, _))| {
        let new = !alike.iter().any(|other| one_solution(case, other, bays));
        if new {
            alike.push(*bays);
        }
        new
    });
    let steps = course.phase(Phase::Stacks, stacks.len());
    let mut found = Vec::new();
    for some in [first, rest] {
        let more: Vec<_> = some
            .into_par_iter()
            .map(|(at, (bays, height_m))| {
                course.check()?;
                let sample = Sample::of(case, base, axes, (*bays).clone(), *height_m);
                steps.one_more();
                Ok((at, sample))
            })
            .collect::<Result<_, PlanError>>()?;
        found.extend(more);
    }
    found.sort_by_key(|(at, _)| *at);
    Ok(found.into_iter().filter_map(|(_, sample)| sample).collect())
}

/// Whether two stacks have the same wires, whatever feeds them.
fn one_solution(case: &Case, one: &BaysChoice, other: &BaysChoice) -> bool {
    let plane = |b: &BaysChoice| {
        let bay = case.shelf.get(&b.element).and_then(|s| s.bay.as_ref());
        bay.map(|b| b.polarisation)
    };
    one.keep == other.keep
        && one.bays == other.bays
        && one.spacing_m == other.spacing_m
        && plane(one) == plane(other)
}
