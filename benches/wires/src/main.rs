//! Times the thin-wire solver: mesh, fill and solve, then the field on 91 × 181 directions.
//!
//! `cargo run --release -- FILE...` prints one line for each file; `--json` prints them for `tools/nec_bench.py`, which
//! times another engine on the same files in the same run. Threads: `RAYON_NUM_THREADS`. Every step is repeated and the
//! median printed. `--sweep` adds a sweep of 21 frequencies. `people` shapes stacks for people on seeded grounds.

mod people;
mod place;

use antenna::wires::format::WireFile;
use antenna::wires::grid::{FieldGrid, plain};
use antenna::wires::sweep::sweep;
use antenna::wires::{Complex, Solution, WireModel, directivity_dbi, fill, mesh, solve};
use std::time::Instant;

const ROUNDS: usize = 15;

struct Timing {
    solve_s: f64,
    pattern_s: f64,
    fill_s: f64,
    plain_pattern_s: f64,
    segments: usize,
    unknowns: usize,
    max_gain_dbi: f64,
}

fn median_s(mut work: impl FnMut()) -> f64 {
    let mut times: Vec<f64> = (0..ROUNDS)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed().as_secs_f64()
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times[ROUNDS / 2]
}

fn time(model: &WireModel, volts: &[Complex]) -> Timing {
    let elevations: Vec<f64> = (0..91).map(|i| -90.0 + 2.0 * f64::from(i)).collect();
    let azimuths: Vec<f64> = (0..181).map(|i| 2.0 * f64::from(i)).collect();
    let mut solution: Option<Solution> = None;
    let solve_s = median_s(|| solution = Some(solve(model).expect("a sound antenna")));
    let solution = solution.expect("solved above");
    let drive = solution.drive(volts);
    let mut grid = None;
    let pattern_s = median_s(|| {
        grid = Some(FieldGrid::of(
            &solution.far_field,
            &solution.drive(volts).currents,
            &elevations,
            &azimuths,
        ))
    });
    let grid = grid.expect("evaluated above");
    let cut = mesh::mesh(model).expect("a sound antenna");
    let fill_s = median_s(|| drop(std::hint::black_box(fill::fill(model, &cut))));
    let plain_pattern_s = median_s(|| {
        drop(std::hint::black_box(plain(
            &solution.far_field,
            &[&drive.currents],
            &elevations,
            &azimuths,
        )))
    });
    let gain = |f: &[Complex; 2]| {
        directivity_dbi(
            Complex::from((f[0].norm_sqr() + f[1].norm_sqr()).sqrt()),
            drive.input_power_w,
        )
    };
    let max_gain_dbi = grid.fields.iter().map(gain).fold(f64::NEG_INFINITY, f64::max);
    Timing {
        solve_s,
        pattern_s,
        fill_s,
        plain_pattern_s,
        segments: solution.mesh.segments.len(),
        unknowns: solution.mesh.unknowns.len(),
        max_gain_dbi,
    }
}

/// 21 frequencies from 87.5 to 108 MHz, swept and each by itself.
fn compare_sweep(path: &str, model: &WireModel) {
    let frequencies: Vec<f64> = (0..21).map(|i| 87.5 + 20.5 * f64::from(i) / 20.0).collect();
    let start = Instant::now();
    let swept = sweep(model, &frequencies, 1e-3).expect("a sound antenna");
    let swept_s = start.elapsed().as_secs_f64();
    let start = Instant::now();
    for &frequency_mhz in &frequencies {
        std::hint::black_box(
            solve(&WireModel {
                frequency_mhz,
                ..model.clone()
            })
            .expect("a sound antenna"),
        );
    }
    println!(
        "{path}: sweep of 21: {:.0} ms with {} solved, each by itself {:.0} ms; error of the last prediction {:.1e}",
        1e3 * swept_s,
        swept.solved.iter().filter(|s| **s).count(),
        1e3 * start.elapsed().as_secs_f64(),
        swept.check
    );
}

/// Processor time of this process so far, s: on a busy machine truer than the clock. NaN where the kernel does not tell.
fn processor_s() -> f64 {
    let stat = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let after_name = stat.rsplit_once(')').map_or("", |(_, rest)| rest);
    let ticks = |field: usize| {
        after_name
            .split_whitespace()
            .nth(field)
            .and_then(|t| t.parse::<f64>().ok())
    };
    // Fields 14 and 15 of the whole line, in hundredths.
    ticks(11)
        .zip(ticks(12))
        .map_or(f64::NAN, |(user, system)| (user + system) / 100.0)
}

fn main() {
    let (options, files): (Vec<String>, Vec<String>) =
        std::env::args().skip(1).partition(|a| a.starts_with("--"));
    let json = options.iter().any(|o| o == "--json");
    if files.first().is_some_and(|f| f == "people") {
        return people::run(
            files.get(1).and_then(|n| n.parse().ok()).unwrap_or(20),
            options.iter().any(|o| o == "--power"),
        );
    }
    if files.first().is_some_and(|f| f == "place") {
        return place::run().unwrap_or_else(|fault| panic!("{fault}"));
    }
    for path in files {
        let text = std::fs::read_to_string(&path).unwrap_or_else(|fault| panic!("{path}: {fault}"));
        let file = WireFile::parse(&text).unwrap_or_else(|fault| panic!("{path}: {fault}"));
        let volts: Vec<Complex> = file
            .sources
            .iter()
            .map(|s| Complex::new(s.volts[0], s.volts[1]))
            .collect();
        let t = time(&file.model(), &volts);
        if json {
            let row = serde_json::json!({
                "file": path, "segments": t.segments, "unknowns": t.unknowns, "solve_s": t.solve_s, "pattern_s": t.pattern_s,
                "max_gain_dbi": t.max_gain_dbi,
            });
            println!("{row}");
        } else {
            println!(
                "{path}: {} segments, {} unknowns: solve {:.2} ms (fill {:.2}), pattern {:.2} ms (each direction by itself {:.2}), {:.3} dBi",
                t.segments,
                t.unknowns,
                1e3 * t.solve_s,
                1e3 * t.fill_s,
                1e3 * t.pattern_s,
                1e3 * t.plain_pattern_s,
                t.max_gain_dbi
            );
        }
        if options.iter().any(|o| o == "--sweep") {
            compare_sweep(&path, &file.model());
        }
    }
}
