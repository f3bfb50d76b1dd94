//! The search: every design has a rank that it cannot better; designs are evaluated in full in the order of that bound, until
//! the next cannot beat the best found.

use crate::air;
use crate::answer::LookedAt;
use crate::draft::Draft;
use crate::link;
use crate::options::{AirChoice, Axes, BaysChoice, Pick, antenna_site, axes, feeder_m, heights_m};
use crate::plan::PlanError;
use crate::sample::{Areas, Sample, trim_db};
use crate::tier::Tier;
use crate::trial::{FULL_USE_DB, Text, Trial, judge, outcome_of};
use crate::{resilience, studio};
use assess::proofs::transmission::{self, line_constants};
use assess::proofs::{coverage as heard, energy, money};
use assess::{Case, FieldStore, Fields};
use coverage::{Control, Progress};
use quantity::Power;
use rayon::prelude::*;
use station::brief::{Service, Situation};
use std::collections::BTreeSet;
use std::sync::atomic::Ordering;

/// Designs evaluated side by side.
const AT_ONCE: usize = 4;
/// A wish that no design keeps, but that some come this near, is worth coming near: one standard deviation of the
/// prediction, dB. One further away is not.
const NEAR_DB: f64 = 6.0;
/// Two designs that differ by less at such a wish are alike, dB.
const ALIKE_DB: f64 = 0.5;

/// What comes first: findings that forbid, wishes missed that others keep, tenths of a decibel under the licence, the
/// programme's way short, half decibels short of the nearest at wishes that none keeps, capital and cost over the years in
/// cents.
pub type Rank = (usize, usize, u64, u64, u64, i64, i64);

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
    pub control: &'a Control<'a>,
    /// Choices.
    pub axes: Axes,
    /// Stacks at heights.
    pub samples: Vec<Sample>,
    /// What the base costs.
    pub base_price: f64,
    areas: Areas,
}

/// A design waiting to be evaluated, with the rank that it cannot better.
struct Waiting {
    bound: Rank,
    choice: AirChoice,
    sample: usize,
}

/// How thoroughly a design is looked at.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Depth {
    /// By the array model, without people near the antennas: its rank can only fall.
    Sketch,
    /// By the array model.
    Draft,
    /// As the file asks for antennas.
    Proof,
    /// That, with people counted over the whole coverage.
    WithPeople,
}

/// Designs in the order of their rank, evaluated as far as that order needs.
pub struct InOrder<'s, 'a> {
    search: &'s Search<'a>,
    bounded: bool,
    impossible: Vec<String>,
    near: Vec<Option<f64>>,
    queue: Vec<Waiting>,
    next: usize,
    /// Looked at and not given yet: by rank, then place in the queue, and whether people near the antennas were looked at, too.
    ready: BTreeSet<(Rank, usize, bool)>,
    /// How many there are, how many were evaluated so far.
    pub looked_at: LookedAt,
}

impl InOrder<'_, '_> {
    /// The next best design: its choice, the place of its antenna among the samples, its rank.
    ///
    /// # Errors
    /// [`PlanError`]: cancelled, or a document that cannot be changed.
    pub fn next_best(&mut self) -> Result<Option<(AirChoice, usize, Rank)>, PlanError> {
        loop {
            while let Some(waiting) = self.queue.get(self.next) {
                let settled = |(rank, ..): &(Rank, usize, bool)| self.bounded && *rank < waiting.bound;
                if self.ready.first().is_some_and(settled) {
                    break;
                }
                self.evaluate_some()?;
            }
            let Some((found, at, whole)) = self.ready.pop_first() else {
                return Ok(None);
            };
            let waiting = &self.queue[at];
            if whole {
                return Ok(Some((waiting.choice.clone(), waiting.sample, found)));
            }
            // The best sketch, looked at whole, keeps its place or loses it.
            let trial = self
                .search
                .trial(&waiting.choice, &self.search.samples[waiting.sample])?;
            if let Some(trial) = trial {
                let whole = rank(&trial, &self.impossible, &self.near);
                self.ready.insert((whole, at, true));
            }
        }
    }

    fn evaluate_some(&mut self) -> Result<(), PlanError> {
        if cancelled(self.search.control) {
            return Err(PlanError::Cancelled);
        }
        let end = (self.next + AT_ONCE).min(self.queue.len());
        let search = self.search;
        // Every design whole, where every one is asked for.
        let depth = if self.bounded { Depth::Sketch } else { Depth::Draft };
        let tried: Vec<_> = self.queue[self.next..end]
            .par_iter()
            .map(|w| search.tried(&w.choice, &search.samples[w.sample], depth))
            .collect();
        for (at, trial) in (self.next..).zip(tried) {
            let Some(trial) = trial? else { continue };
            self.looked_at.evaluated += 1;
            self.ready
                .insert((rank(&trial, &self.impossible, &self.near), at, !self.bounded));
        }
        self.next = end;
        self.search.tell(self.next, self.queue.len());
        Ok(())
    }
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
        control: &'a Control<'a>,
    ) -> Result<Search<'a>, PlanError> {
        let text = Text::draft(&base).ok_or(PlanError::NotAStation)?;
        let here = text.case(&case);
        let transmission = transmission::evaluate(&here);
        let energy = energy::evaluate(&here, &transmission);
        let base_price = money::evaluate(&here, &transmission, &energy).capital.to_f64();
        let axes = axes(&case, link::ways(&case, &base)?);
        let stacks: Vec<(BaysChoice, f64)> = axes
            .bays
            .iter()
            .flat_map(|b| heights_m(&case, b).into_iter().map(|h| (b.clone(), h)))
            .collect();
        let mut samples: Vec<Sample> = stacks
            .into_par_iter()
            .filter(|_| !cancelled(control))
            .filter_map(|(bays, height)| Sample::of(&case, &base, &axes, bays, height))
            .collect();
        if cancelled(control) {
            return Err(PlanError::Cancelled);
        }
        let areas = Areas::of(&case, samples.iter().filter_map(|s| s.study.as_ref()), control)?;
        samples
            .par_iter_mut()
            .for_each(|sample| sample.look_at_areas(&case, &areas));
        Ok(Search {
            base,
            case,
            tier,
            store,
            control,
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
    fn bound(
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
    fn near(&self, impossible: &[String]) -> Vec<Option<f64>> {
        let wanted = &self.case.station.brief.wanted;
        let nearly = |db: &f64| (-NEAR_DB..0.0).contains(db);
        self.on_offer_db()
            .into_iter()
            .zip(wanted)
            .map(|(db, wish)| db.filter(nearly).filter(|_| impossible.contains(&wish.tag)))
            .collect()
    }

    /// Evaluates a design in full with antennas by the array model, and with the field of the areas wished for.
    ///
    /// # Errors
    /// [`PlanError`]: cancelled, a coverage that cannot be computed, or a document that cannot be changed.
    pub fn trial(&self, choice: &AirChoice, sample: &Sample) -> Result<Option<Trial>, PlanError> {
        self.tried(choice, sample, Depth::Draft)
    }

    /// The same with antennas as the file asks for them; with people counted over the whole coverage where that is asked.
    ///
    /// # Errors
    /// As [`Search::trial`].
    pub fn proof(
        &self,
        choice: &AirChoice,
        sample: &Sample,
        with_people: bool,
    ) -> Result<Option<Trial>, PlanError> {
        let depth = if with_people {
            Depth::WithPeople
        } else {
            Depth::Proof
        };
        self.tried(choice, sample, depth)
    }

    fn tried(&self, choice: &AirChoice, sample: &Sample, depth: Depth) -> Result<Option<Trial>, PlanError> {
        let proving = matches!(depth, Depth::Proof | Depth::WithPeople);
        let read = if proving { Text::of } else { Text::draft };
        let mut draft = self.base.clone();
        air::write(&self.case, &mut draft, choice)?;
        let link = &self.axes.links[choice.link];
        let mast = antenna_site(&self.case)
            .and_then(|site| Some((site.tag.as_str(), air::new_mast(&self.case, choice, site)?.2)));
        link::write(&self.case, &mut draft, link, mast)?;
        studio::racks(&self.case, &mut draft, self.tier)?;
        let Some(mut text) = read(&draft) else {
            return Ok(None);
        };
        let mut transmission = transmission::evaluate(&text.case(&self.case));
        let trim_db = match proving {
            true => trim_db(&text.case(&self.case), &transmission).unwrap_or(sample.trim_db),
            false => sample.trim_db,
        };
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
            let Some(trimmed) = read(&draft) else {
                return Ok(None);
            };
            text = trimmed;
            transmission = transmission::evaluate(&text.case(&self.case));
        }
        resilience::complete(&self.case, &mut draft, &text, &transmission)?;
        studio::racks(&self.case, &mut draft, self.tier)?;
        let Some(text) = read(&draft) else {
            return Ok(None);
        };
        let case = text.case(&self.case);
        let mut outcome = outcome_of(&case, &Fields::default(), transmission, depth != Depth::Sketch);
        self.areas_of(&case, sample, &mut outcome);
        let people = match depth == Depth::WithPeople {
            true => self.people(&case, &mut outcome)?,
            false => None,
        };
        Ok(Some(judge(
            &self.case,
            draft,
            text,
            outcome,
            (trim_db, self.allowed_under_db()),
            link.hop.as_ref().map(|(tag, _)| tag.as_str()),
        ))
        .map(|trial| Trial { people, ..trial }))
    }

    /// People with stereo on the roof, over the whole coverage; the areas wished for are answered by it, too.
    fn people(&self, case: &Case, outcome: &mut assess::Outcome) -> Result<Option<f64>, PlanError> {
        let fields = Fields::prepare(case, self.store, self.control).map_err(|_| PlanError::Cancelled)?;
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
        for (wish, check) in case.station.brief.wanted.iter().zip(&mut outcome.coverage.wanted) {
            check.area = heard::area(case, wish, &table, loss);
        }
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

    /// Every design, the best first: the cheapest that holds; where none does, the one that fails least, then cheapest. With
    /// `bounded` false every design is evaluated before the first is given.
    pub fn in_order(&self, bounded: bool) -> InOrder<'_, 'a> {
        let impossible = self.impossible();
        let near = self.near(&impossible);
        let designs = self.designs();
        let count = designs.len();
        let mut queue: Vec<Waiting> = designs
            .into_iter()
            .filter_map(|(choice, sample)| {
                let bound = self.bound(&choice, &self.samples[sample], &impossible, &near)?;
                Some(Waiting {
                    bound,
                    choice,
                    sample,
                })
            })
            .collect();
        queue.sort_by_key(|w| w.bound);
        InOrder {
            looked_at: LookedAt {
                designs: count,
                possible: queue.iter().filter(|w| w.bound.2 == 0).count(),
                evaluated: 0,
            },
            search: self,
            bounded,
            impossible,
            near,
            queue,
            next: 0,
            ready: BTreeSet::new(),
        }
    }

    fn tell(&self, done: usize, total: usize) {
        if let Some(progress) = self.control.progress {
            progress(Progress {
                done: done as u64,
                total: total as u64,
                left: None,
            });
        }
    }
}

fn cancelled(control: &Control) -> bool {
    control.cancel.is_some_and(|flag| flag.load(Ordering::Relaxed))
}

fn cents(money: f64) -> i64 {
    (money * 100.0).round() as i64
}

fn tenths(db: f64) -> u64 {
    (db * 10.0).ceil().max(0.0) as u64
}

/// Half decibels that margins stay behind the nearest that any design comes.
fn behind(near: &[Option<f64>], margins: impl Iterator<Item = Option<f64>>) -> u64 {
    near.iter()
        .zip(margins)
        .filter_map(|(near, margin)| Some((*near)? - margin?))
        .map(|db| ((db - 0.01) / ALIKE_DB).floor().max(0.0) as u64)
        .sum()
}

fn rank(trial: &Trial, impossible: &[String], near: &[Option<f64>]) -> Rank {
    let unmet = trial.unmet.iter().filter(|t| !impossible.contains(t)).count();
    let (capital, over_years) = trial.price();
    let margins = trial.outcome.coverage.wanted.iter().map(|w| w.margin_db());
    (
        trial.blocking.len(),
        unmet,
        trial.under_db.map_or(0, tenths),
        trial.link_short,
        behind(near, margins),
        cents(capital),
        cents(over_years),
    )
}
