//! Designs, the best first: every design has a rank that it cannot better; designs are evaluated in the order of that bound, until
//! the next cannot beat the best found.

use crate::answer::LookedAt;
use crate::course::{Phase, Steps};
use crate::options::AirChoice;
use crate::plan::PlanError;
use crate::search::{Depth, Search};
use crate::trial::Trial;
use rayon::prelude::*;
use std::collections::BTreeSet;

/// Designs evaluated side by side.
const AT_ONCE: usize = 4;
/// Two designs that differ by less at a wish that none keeps are alike, dB.
const ALIKE_DB: f64 = 0.5;

/// What comes first: findings that forbid, wishes missed that others keep, tenths of a decibel under the licence, the
/// programme's way short, half decibels short of the nearest at wishes that none keeps, capital and cost over the years in
/// cents.
pub type Rank = (usize, usize, u64, u64, u64, i64, i64);

/// A design waiting to be evaluated, with the rank that it cannot better.
struct Waiting {
    bound: Rank,
    choice: AirChoice,
    sample: usize,
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
    steps: Steps<'s, 'a>,
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
            let trial = self.search.trial(
                &waiting.choice,
                &self.search.samples[waiting.sample],
                Depth::Whole,
            )?;
            if let Some(trial) = trial {
                let whole = rank(&trial, &self.impossible, &self.near);
                self.ready.insert((whole, at, true));
            }
        }
    }

    fn evaluate_some(&mut self) -> Result<(), PlanError> {
        let end = (self.next + AT_ONCE).min(self.queue.len());
        let search = self.search;
        // Every design whole, where every one is asked for.
        let depth = if self.bounded { Depth::Sketch } else { Depth::Whole };
        let tried: Vec<_> = self.queue[self.next..end]
            .par_iter()
            .map(|w| search.trial(&w.choice, &search.samples[w.sample], depth))
            .collect();
        for (at, trial) in (self.next..).zip(tried) {
            let Some(trial) = trial? else { continue };
            self.looked_at.evaluated += 1;
            self.ready
                .insert((rank(&trial, &self.impossible, &self.near), at, !self.bounded));
        }
        self.next = end;
        self.steps.at(self.next);
        Ok(())
    }
}

impl<'a> Search<'a> {
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
            steps: self.course.phase(Phase::Search, queue.len()),
            queue,
            next: 0,
            ready: BTreeSet::new(),
        }
    }
}

pub(crate) fn cents(money: f64) -> i64 {
    (money * 100.0).round() as i64
}

pub(crate) fn tenths(db: f64) -> u64 {
    (db * 10.0).ceil().max(0.0) as u64
}

/// Half decibels that margins stay behind the nearest that any design comes.
pub(crate) fn behind(near: &[Option<f64>], margins: impl Iterator<Item = Option<f64>>) -> u64 {
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
