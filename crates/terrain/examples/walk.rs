//! Times the making of a ground and the walking of one coverage: 4 200 radials of 60 km in steps of 90 m, on all cores.
//! `cargo run --release -p terrain --example walk`

use rayon::prelude::*;
use std::time::Instant;
use terrain::geodesic::Course;
use terrain::{Profile, generated};

/// Processor time of this process so far, ms (0 where the system does not tell).
fn cpu_ms() -> f64 {
    let stat = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let fields: Vec<&str> = stat.rsplit(')').next().unwrap_or("").split_whitespace().collect();
    let ticks = |k: usize| fields.get(k).and_then(|t| t.parse::<f64>().ok()).unwrap_or(0.0);
    (ticks(11) + ticks(12)) * 10.0
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let azimuths: Vec<f64> = (0..4200).map(|k| f64::from(k) * 360.0 / 4200.0).collect();
    for id in generated::IDS {
        let (start, cpu) = (Instant::now(), cpu_ms());
        let made = generated::by_id(id).ok_or("unknown ground")?;
        let mast = made.site("mast").ok_or("no mast")?.position;
        let carved_ms = start.elapsed().as_secs_f64() * 1e3;
        let carved_cpu_ms = cpu_ms() - cpu;
        let mut walks_ms = Vec::new();
        for _ in 0..4 {
            let (start, cpu) = (Instant::now(), cpu_ms());
            azimuths
                .par_iter()
                .try_for_each_init(Profile::default, |profile, &azimuth_deg| {
                    made.ground.radial_into(mast, azimuth_deg, 60.0, 90.0, profile)
                })?;
            walks_ms.push(format!(
                "{:.0} (cpu {:.0})",
                start.elapsed().as_secs_f64() * 1e3,
                cpu_ms() - cpu
            ));
        }
        let (start, cpu) = (Instant::now(), cpu_ms());
        let samples: usize = azimuths
            .par_iter()
            .map_init(Vec::new, |positions, &azimuth_deg| {
                positions.clear();
                Course::new(mast, azimuth_deg)
                    .positions_into((0..667).map(|k| f64::from(k) * 90.0), positions);
                std::hint::black_box(positions.len())
            })
            .sum();
        let positions_ms = start.elapsed().as_secs_f64() * 1e3;
        let positions_cpu_ms = cpu_ms() - cpu;
        let start = Instant::now();
        let people = made.people().total();
        let people_ms = start.elapsed().as_secs_f64() * 1e3;
        println!(
            "{id:8} carved {carved_ms:.0} ms (cpu {carved_cpu_ms:.0}); walks {} ms (first one makes the blocks); {samples} positions alone {positions_ms:.0} ms (cpu {positions_cpu_ms:.0}); {people:.0} people {people_ms:.0} ms",
            walks_ms.join(", ")
        );
    }
    Ok(())
}
