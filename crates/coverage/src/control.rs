//! Long work: how far it is, and how to stop it.

use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::time::{Duration, Instant};

use crate::error::CoverageError;

/// How far long work has come.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Progress {
    /// Units done (radials, for a coverage).
    pub done: u64,
    /// Units in all.
    pub total: u64,
    /// Time left at the mean pace so far; `None` before the first unit is done.
    pub left: Option<Duration>,
}

/// Who watches long work, and the flag that stops it.
#[derive(Default, Clone, Copy)]
pub struct Control<'a> {
    /// Called after each unit, from any thread.
    pub progress: Option<&'a (dyn Fn(Progress) + Sync)>,
    /// Set to stop; looked at several times within 100 ms.
    pub cancel: Option<&'a AtomicBool>,
}

impl Control<'_> {
    /// Nobody watches, nothing stops it.
    pub fn quiet() -> Self {
        Self::default()
    }

    /// An error once the flag is set.
    pub(crate) fn check(&self) -> Result<(), CoverageError> {
        match self.cancel {
            Some(flag) if flag.load(Ordering::Relaxed) => Err(CoverageError::Cancelled),
            _ => Ok(()),
        }
    }
}

/// Counts units and tells the watcher.
pub(crate) struct Meter<'a> {
    control: Control<'a>,
    total: u64,
    done: AtomicU64,
    start: Instant,
}

impl<'a> Meter<'a> {
    pub fn new(control: &Control<'a>, total: u64) -> Self {
        Self {
            control: *control,
            total,
            done: AtomicU64::new(0),
            start: Instant::now(),
        }
    }

    pub fn one_more(&self) {
        let done = self.done.fetch_add(1, Ordering::Relaxed) + 1;
        if let Some(tell) = self.control.progress {
            let each = self.start.elapsed().as_secs_f64() / done as f64;
            let left = Duration::from_secs_f64(each * self.total.saturating_sub(done) as f64);
            tell(Progress {
                done,
                total: self.total,
                left: Some(left),
            });
        }
    }
}
