//! How far a plan has come: one measure over all its phases, which never goes back, and the flag that stops it.

use crate::plan::PlanError;
use coverage::{Control, Progress};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};

/// The whole of a plan, in the units that progress is told in.
pub const WHOLE: u64 = 1000;

/// What a plan does, in order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Phase {
    /// Every stack solved, at every height.
    Stacks,
    /// The fields of the areas wished for.
    Areas,
    /// Designs looked at in the order of their bound.
    Search,
    /// The people of the chosen one.
    People,
    /// Designs one step away.
    Neighbours,
    /// What the budget buys now.
    Now,
}

impl Phase {
    /// From where to where it moves the measure: what the phases of the briefs that come with the program took, roughly.
    fn span(self) -> (u64, u64) {
        match self {
            Phase::Stacks => (0, 400),
            Phase::Areas => (400, 500),
            Phase::Search => (500, 650),
            Phase::People => (650, 750),
            Phase::Neighbours => (750, 950),
            Phase::Now => (950, WHOLE),
        }
    }
}

/// A watcher told of one measure.
pub struct Course<'a> {
    control: Control<'a>,
    told: Mutex<u64>,
}

impl<'a> Course<'a> {
    /// Nothing done yet.
    pub fn new(control: &Control<'a>) -> Course<'a> {
        Course {
            control: *control,
            told: Mutex::new(0),
        }
    }

    /// An error once the work is to stop.
    ///
    /// # Errors
    /// [`PlanError::Cancelled`].
    pub fn check(&self) -> Result<(), PlanError> {
        match self
            .control
            .cancel
            .is_some_and(|flag| flag.load(Ordering::Relaxed))
        {
            true => Err(PlanError::Cancelled),
            false => Ok(()),
        }
    }

    /// A phase with so many steps.
    pub fn phase(&self, phase: Phase, steps: usize) -> Steps<'_, 'a> {
        Steps {
            course: self,
            span: phase.span(),
            steps: steps.max(1),
            done: AtomicUsize::new(0),
        }
    }

    /// The plan is answered.
    pub fn finished(&self) {
        self.tell(WHOLE);
    }

    fn tell(&self, done: u64) {
        let Some(progress) = self.control.progress else {
            return;
        };
        // Held while the watcher is told, so that it hears of steps in their order.
        let mut told = self.told.lock().unwrap_or_else(PoisonError::into_inner);
        if done > *told {
            *told = done;
            progress(Progress {
                done,
                total: WHOLE,
                left: None,
            });
        }
    }
}

/// The steps of a phase, taken from any thread.
pub struct Steps<'c, 'a> {
    course: &'c Course<'a>,
    span: (u64, u64),
    steps: usize,
    done: AtomicUsize,
}

impl Steps<'_, '_> {
    /// One more is done.
    pub fn one_more(&self) {
        let done = self.done.fetch_add(1, Ordering::Relaxed) + 1;
        self.reached(done as f64);
    }

    /// So many are done.
    pub fn at(&self, done: usize) {
        self.done.store(done, Ordering::Relaxed);
        self.reached(done as f64);
    }

    fn reached(&self, done: f64) {
        let (from, to) = self.span;
        let share = (done / self.steps as f64).min(1.0);
        self.course.tell(from + ((to - from) as f64 * share) as u64);
    }

    /// Does the next step, whose own progress moves the measure within it.
    pub fn step<T>(&self, work: impl FnOnce(&Control) -> T) -> T {
        let before = self.done.load(Ordering::Relaxed) as f64;
        let show = |p: Progress| self.reached(before + p.done as f64 / p.total.max(1) as f64);
        let out = work(&Control {
            progress: Some(&show),
            cancel: self.course.control.cancel,
        });
        self.one_more();
        out
    }
}
