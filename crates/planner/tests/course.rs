//! How far a plan is: one measure that never goes back and ends at its whole, through every phase; and a stop at any of them.
#![allow(clippy::unwrap_used, reason = "a test stops where its ground gives way")]

mod shared;

use coverage::{Control, Progress};
use planner::{PlanError, plan};
use shared::{Asked, on_the_hill};
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

/// A brief that takes a plan through every phase: an area to be served, a studio elsewhere, a budget that is too small.
fn every_phase() -> Asked {
    let mut brief = on_the_hill();
    brief["brief"]["budget"] = "6000 EUR".into();
    brief["brief"]["wanted"] = serde_json::json!([
        { "tag": "W1", "place": "VESSABY", "service": "mono" },
        { "tag": "W2", "within": "4 km", "service": "mono", "share": "20 %", "surroundings": "rural" },
    ]);
    Asked::of(brief, &shared::THIRTY, None)
}

#[test]
fn progress_never_goes_back_and_reaches_the_whole() {
    let asked = every_phase();
    let heard = Mutex::new(Vec::<Progress>::new());
    let show = |p: Progress| heard.lock().unwrap().push(p);
    let control = Control {
        progress: Some(&show),
        cancel: None,
    };
    asked.answered_under(plan, &control).unwrap();
    let heard = heard.into_inner().unwrap();
    assert!(heard.windows(2).all(|w| w[0].done < w[1].done), "{heard:?}");
    assert!(heard.iter().all(|p| p.total == planner::course::WHOLE));
    assert_eq!(heard.last().unwrap().done, planner::course::WHOLE);
    // Every phase is heard of: nothing jumps over a fifth of the way.
    let steps = heard.windows(2).map(|w| w[1].done - w[0].done);
    assert!(steps.max().unwrap() <= planner::course::WHOLE / 5, "{heard:?}");
}

/// After the flag is set, work under way on other threads may still come in; nothing else does.
#[test]
fn a_plan_stops_at_any_phase() {
    let asked = every_phase();
    for share in [1, 250, 450, 550, 700, 800, 960] {
        let stop = AtomicBool::new(false);
        let after = AtomicUsize::new(0);
        let show = |p: Progress| {
            if stop.load(Ordering::SeqCst) {
                after.fetch_add(1, Ordering::SeqCst);
            }
            if p.done >= share {
                stop.store(true, Ordering::SeqCst);
            }
        };
        let control = Control {
            progress: Some(&show),
            cancel: Some(&stop),
        };
        let answer = asked.answered_under(plan, &control);
        assert!(matches!(answer, Err(PlanError::Cancelled)), "at {share}");
        let after = after.into_inner();
        assert!(
            after <= 2 * rayon::current_num_threads(),
            "at {share}: {after} more"
        );
    }
}
