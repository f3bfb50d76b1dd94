//! Antennas solved on their masts, each distinct one once: kept by content, as a plan's figures depend on nothing else.

use antenna::feed::Feed;
use antenna::mount::{Answered, MountError, MountPlan, Mounted};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, RwLock};

/// Antennas kept in memory: a brief has tens.
const MOST_KEPT: usize = 64;

/// Solutions kept in memory, each of which answers for any feed: the stacks of a brief.
const MOST_SOLUTIONS: usize = 12;

type Kept = (MountPlan, Feed, f64, Arc<Answered>);

static KEPT: Mutex<Vec<Kept>> = Mutex::new(Vec::new());

static SOLUTIONS: Mutex<Vec<(MountPlan, Arc<Mounted>)>> = Mutex::new(Vec::new());

static STORE: RwLock<Option<Arc<dyn AnswerStore>>> = RwLock::new(None);

/// Where answers outlive a run: a folder's cache, say. An answer rests on its content alone, so any store serves any station.
pub trait AnswerStore: Send + Sync {
    /// Bytes kept under a content.
    fn load(&self, content: &[u8]) -> Option<Vec<u8>>;
    /// Keeps bytes under a content; failing costs time, never an answer.
    fn store(&self, content: &[u8], bytes: &[u8]);
}

/// From now on answers are kept in this store, too, for the whole process.
pub fn keep_in(store: Arc<dyn AnswerStore>) {
    *STORE.write().unwrap_or_else(PoisonError::into_inner) = Some(store);
}

fn kept() -> MutexGuard<'static, Vec<Kept>> {
    KEPT.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Solves a plan with its feed at a frequency, or fetches the answer where the same was solved before.
///
/// The bays are cut and matched for the plan's own frequency; at another they are what they are.
///
/// # Errors
/// [`MountError`]: a plan that cannot be built or solved, naming the bay or the wire.
pub fn solved(plan: &MountPlan, feed: &Feed, freq_mhz: f64) -> Result<Arc<Answered>, MountError> {
    let same = |k: &&Kept| k.0 == *plan && k.1 == *feed && k.2 == freq_mhz;
    if let Some(found) = kept().iter().find(same) {
        return Ok(found.3.clone());
    }
    let store = STORE.read().unwrap_or_else(PoisonError::into_inner).clone();
    // Numbers are written so that they read back the same: the text is the content.
    let content = format!("antenna at {freq_mhz:?} {plan:?} {feed:?}");
    let stored = store
        .as_ref()
        .and_then(|s| s.load(content.as_bytes()))
        .and_then(|bytes| Answered::from_bytes(&bytes));
    let answered = match stored {
        Some(answered) => answered,
        None => {
            let tuned = tuned(plan)?;
            let answered = if freq_mhz == plan.frequency_mhz {
                tuned.answered(feed)?
            } else {
                plan.solved_with(freq_mhz, tuned.matching())?.answered(feed)?
            };
            if let Some(store) = &store {
                store.store(content.as_bytes(), &answered.to_bytes());
            }
            answered
        }
    };
    let answered = Arc::new(answered);
    let mut kept = kept();
    if kept.len() >= MOST_KEPT {
        kept.remove(0);
    }
    kept.push((plan.clone(), feed.clone(), freq_mhz, answered.clone()));
    Ok(answered)
}

/// The bays on their mast at their own frequency, whatever feeds them. No lock is held while it is solved: two that ask at once
/// solve it twice.
fn tuned(plan: &MountPlan) -> Result<Arc<Mounted>, MountError> {
    let solutions = || SOLUTIONS.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some((_, found)) = solutions().iter().find(|(p, _)| p == plan) {
        return Ok(found.clone());
    }
    let solved = Arc::new(plan.solved()?);
    let mut solutions = solutions();
    if solutions.len() >= MOST_SOLUTIONS {
        solutions.remove(0);
    }
    solutions.push((plan.clone(), solved.clone()));
    Ok(solved)
}

#[cfg(test)]
mod tests {
    use super::*;
    use antenna::array::{ElementKind, StackPlan};
    use antenna::direction::Plane;
    use antenna::feed::{Cable, Splitter};
    use antenna::line::LineConstants;

    #[test]
    fn the_same_antenna_is_solved_once_and_another_is_not_mistaken_for_it() {
        let plan = |spacing_m| {
            let draft = StackPlan {
                frequency_mhz: 98.0,
                bays: 2,
                spacing_m,
                element: ElementKind::Vertical,
                bearing_deg: 90.0,
                pole_radius_m: Some(0.03),
                stand_off_m: 0.75,
            };
            MountPlan::proof_of(&draft, None)
        };
        let cable = Cable {
            line: LineConstants::lossless(0.85, 50.0).unwrap(),
            length_m: 2.0,
        };
        let feed = Feed::equal(Splitter::quarter_wave(2, 98.0, 0.05), 2, cable);
        let first = solved(&plan(2.75), &feed, 98.0).unwrap();
        assert!(Arc::ptr_eq(&first, &solved(&plan(2.75), &feed, 98.0).unwrap()));
        let other = solved(&plan(2.2), &feed, 98.0).unwrap();
        assert!(!Arc::ptr_eq(&first, &other));
        // The same bays 3 MHz lower are not what they are tuned for: more comes back.
        let lower = solved(&plan(2.75), &feed, 95.0).unwrap();
        assert!(lower.fed.input_reflection.norm() > first.fed.input_reflection.norm() + 0.02);
        // A pole behind the bays sends more forward than back.
        let gain = |bearing| first.pattern.gain_dbd(Plane::Vertical, bearing, 0.0);
        assert!(gain(90.0) > gain(270.0) + 1.0, "{} {}", gain(90.0), gain(270.0));
    }
}
