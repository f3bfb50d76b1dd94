//! Antennas solved on their masts, each distinct one once: kept by content, as a plan's figures depend on nothing else.

use antenna::feed::{Fed, Feed};
use antenna::mount::{MountError, MountPlan};
use antenna::pattern::Pattern;
use std::sync::{Arc, Mutex, PoisonError};

/// A pattern and what flows into it.
pub type Solved = Arc<(Arc<Pattern>, Arc<Fed>)>;

/// Antennas kept: a brief has tens.
const MOST_KEPT: usize = 64;

static KEPT: Mutex<Vec<(MountPlan, Feed, Solved)>> = Mutex::new(Vec::new());

/// Solves a plan with its feed, or fetches the answer where the same was solved before.
///
/// # Errors
/// [`MountError`]: a plan that cannot be built or solved, naming the bay or the wire.
pub fn solved(plan: &MountPlan, feed: &Feed) -> Result<Solved, MountError> {
    let kept = || KEPT.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some((_, _, solved)) = kept().iter().find(|(p, f, _)| p == plan && f == feed) {
        return Ok(solved.clone());
    }
    let (pattern, fed) = plan.solved()?.pattern(feed)?;
    let solved: Solved = Arc::new((Arc::new(pattern), Arc::new(fed)));
    let mut kept = kept();
    if kept.len() >= MOST_KEPT {
        kept.remove(0);
    }
    kept.push((plan.clone(), feed.clone(), solved.clone()));
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
        let first = solved(&plan(2.75), &feed).unwrap();
        assert!(Arc::ptr_eq(&first, &solved(&plan(2.75), &feed).unwrap()));
        let other = solved(&plan(2.2), &feed).unwrap();
        assert!(!Arc::ptr_eq(&first, &other));
        // A pole behind the bays sends more forward than back.
        let gain = |bearing| first.0.gain_dbd(Plane::Vertical, bearing, 0.0);
        assert!(gain(90.0) > gain(270.0) + 1.0, "{} {}", gain(90.0), gain(270.0));
    }
}
