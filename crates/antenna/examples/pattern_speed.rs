//! How long the array model takes: a whole pattern, and one question to it.
//!
//!     cargo run --release -q -p antenna --example pattern_speed

use std::hint::black_box;
use std::time::Instant;

use antenna::array::{ElementKind, StackPlan};
use antenna::direction::Plane;
use antenna::feed::{Cable, Feed, Splitter};
use antenna::line::LineConstants;
use antenna::pattern::Pattern;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let cable = Cable {
        line: LineConstants::new(0.4022, 0.000782, 0.85, 50.0)?,
        length_m: 4.0,
    };
    for bays in [1, 4, 8, 16] {
        for pole_radius_m in [None, Some(0.03)] {
            let plan = StackPlan {
                frequency_mhz: 98.0,
                bays,
                spacing_m: 2.75,
                element: ElementKind::Vertical,
                bearing_deg: 10.0,
                pole_radius_m,
                stand_off_m: 0.8,
            };
            let feed = Feed::equal(Splitter::quarter_wave(bays, 98.0, 0.1), bays, cable);
            let ms = best_of(20, || {
                let stack = plan.stack().expect("a valid plan");
                black_box(Pattern::of(&stack, &feed).expect("a valid feed"));
            });
            let feed_ms = best_of(20, || {
                black_box(
                    feed.solve(&plan.stack().expect("a valid plan"))
                        .expect("a valid feed"),
                );
            });
            println!(
                "{bays:2} bays, pole {pole_radius_m:?}: feed {feed_ms:.3} ms, feed and whole pattern {ms:.2} ms"
            );
        }
    }
    let pattern = Pattern::all_round(98.0, Plane::Vertical, 6.0);
    let elevs: Vec<f64> = (0..10_000).map(|i| -0.0015 * f64::from(i)).collect();
    let mut out = vec![0.0; elevs.len()];
    let ms = best_of(20, || {
        pattern.gains_dbd(Plane::Vertical, 123.4, black_box(&elevs), &mut out)
    });
    println!("one gain: {:.1} ns", ms * 1e6 / elevs.len() as f64);
    Ok(())
}

/// Shortest of several runs, ms.
fn best_of(runs: usize, mut job: impl FnMut()) -> f64 {
    let mut best = f64::INFINITY;
    for _ in 0..runs {
        let start = Instant::now();
        job();
        best = best.min(start.elapsed().as_secs_f64() * 1e3);
    }
    best
}
