//! Prints what a receiver costs, in ns on one core: every radial walked once, none twice.
//!
//! `plain` surveys the profile anew for each receiver; `engine` walks outwards; `closed f64` is the closed form with all its terms, one
//! receiver at a time; `closed x8` what the engine itself runs, eight at a time with the terms left out that a bound shows not
//! to count. All four in one process, compiled alike.

mod ground;

use ground::{Ground, radial};
use propagation::lane::Numbers;
use propagation::p1812::spherical_earth::Surfaces;
use propagation::p1812::survey::{Antennas, survey};
use propagation::p1812::tail::{Geometry, closed_form};
use propagation::p1812::{Conditions, Polarisation};
use propagation::radial::block::{Study, complete_db, spherical_db, unducted_db};
use propagation::radial::engine::Walker;
use propagation::radial::{Radial, RadialSetup, plain};
use std::hint::black_box;
use std::time::Instant;

fn main() {
    println!("ns per receiver; engine/closed in two kinds");
    println!(
        "{:<34}{:>9}{:>9}{:>11}{:>11}{:>8}{:>8}{:>8}",
        "radial", "plain", "engine", "closed f64", "closed x8", "pl/eng", "eng/f64", "eng/x8"
    );
    let only = std::env::args().nth(1);
    if only.is_none() {
        for time_pct in [50.0, 10.0, 1.0] {
            for (points, step_km) in [(667, 0.09), (4000, 0.03)] {
                if time_pct != 50.0 && points == 4000 {
                    continue;
                }
                for kind in [Ground::Hilly, Ground::Flat, Ground::Sea] {
                    for clutter in [false, true] {
                        if !(clutter && kind == Ground::Sea) {
                            row(kind, clutter, points, step_km, time_pct);
                        }
                    }
                }
            }
        }
    }
    if only.as_deref() == Some("table") {
        return table();
    }
    for (kind, time_pct) in [
        (Ground::Hilly, 50.0),
        (Ground::Flat, 50.0),
        (Ground::Hilly, 10.0),
        (Ground::Hilly, 1.0),
    ] {
        if only
            .as_deref()
            .is_none_or(|only| only == "area" || format!("{kind:?} {time_pct}").starts_with(only))
        {
            area(kind, true, time_pct);
        }
    }
}

/// Processor time of this thread, ns: on a busy machine a better witness than the clock on the wall.
fn thread_ns() -> f64 {
    let mut time = libc::timespec {
        tv_sec: 0,
        tv_nsec: 0,
    };
    // SAFETY: the pointer is to a live timespec, which is all the call writes to.
    unsafe { libc::clock_gettime(libc::CLOCK_THREAD_CPUTIME_ID, &mut time) };
    time.tv_sec as f64 * 1e9 + time.tv_nsec as f64
}

fn setup(time_pct: f64) -> RadialSetup {
    let conditions = Conditions {
        time_pct,
        ..Conditions::median(98.0, Polarisation::Vertical)
    };
    RadialSetup::new(&conditions, 60.0).expect("a valid setup")
}

fn row(kind: Ground, clutter: bool, points: usize, step_km: f64, time_pct: f64) {
    let setup = setup(time_pct);
    let count = if points > 1000 { 12 } else { 40 };
    let radials: Vec<Radial> = (0..count)
        .map(|s| radial(kind, clutter, points, step_km, s))
        .collect();
    let rx = vec![10.0; points];
    let mut walker = Walker::default();
    let mut out = Vec::new();
    walker
        .walk(
            &radial(kind, clutter, points, step_km, 999),
            &setup,
            &rx,
            1..points,
            &mut out,
        )
        .expect("losses");

    let start = thread_ns();
    for radial in &radials {
        walker
            .walk(radial, &setup, &rx, 1..points, &mut out)
            .expect("losses");
        black_box(&out);
    }
    let engine = (thread_ns() - start) / (count as usize * (points - 1)) as f64;

    let every = if points > 1000 { 80 } else { 8 };
    let start = thread_ns();
    let mut receivers = 0;
    for radial in radials.iter().take(10) {
        for n in (5..points).step_by(every) {
            black_box(plain::at(radial, &setup, 10.0, n).expect("a prediction").loss_db);
            receivers += 1;
        }
    }
    let plain = (thread_ns() - start) / receivers as f64;
    let (scalar, lanes) = closed(&radials[..4], &setup, points);
    let name = format!(
        "{points} points, {kind:?}{}, {time_pct} %",
        if clutter { ", clutter" } else { "" }
    );
    println!(
        "{name:<34}{plain:>9.0}{engine:>9.1}{scalar:>11.1}{lanes:>11.1}{:>8.1}{:>8.2}{:>8.2}",
        plain / engine,
        engine / scalar,
        engine / lanes
    );
}

/// The closed form alone, on receivers surveyed beforehand: plainly, and as the engine runs it.
fn closed(radials: &[Radial], setup: &RadialSetup, points: usize) -> (f64, f64) {
    let k = &setup.constants;
    let antennas = Antennas {
        tx_agl_m: setup.tx_agl_m,
        rx_agl_m: 10.0,
    };
    let every = if points > 1000 { 16 } else { 1 };
    let (mut scalar_ns, mut lanes_ns, mut receivers) = (0.0, 0.0, 0);
    for radial in radials {
        let surveyed: Vec<Geometry<f64>> = (5..points)
            .filter(|n| (n / 8) % every == 0)
            .map(|n| Geometry::of(&survey(&radial.profile.path_to(n), &antennas, k.ae_km, None), k))
            .collect();
        let sea = surveyed[0].sea_ratio > 0.0;
        let surfaces = Surfaces { land: !sea, sea };
        let start = thread_ns();
        for g in &surveyed {
            black_box(closed_form(k, &radial.bearing, black_box(g), surfaces).loss_db);
        }
        scalar_ns += thread_ns() - start;
        let blocks: Vec<Geometry<Numbers>> = surveyed.as_chunks::<8>().0.iter().map(block).collect();
        let study = Study {
            constants: k,
            bearing: &radial.bearing,
            surfaces,
            both: k.conditions.time_pct < 50.0,
        };
        let start = thread_ns();
        for block in &blocks {
            let ldsph_db = spherical_db(&study, block);
            let (loss_db, doubt) = unducted_db(&study, block, &ldsph_db);
            black_box(loss_db);
            if doubt.iter().any(|&d| d) {
                black_box(complete_db(&study, block));
            }
        }
        lanes_ns += thread_ns() - start;
        receivers += surveyed.len();
    }
    (scalar_ns / receivers as f64, lanes_ns / receivers as f64)
}

fn block(of: &[Geometry<f64>; 8]) -> Geometry<Numbers> {
    let mut all = Geometry::filled([0.0; 8]);
    for (lane, g) in of.iter().enumerate() {
        all.zip(g, |lanes, x| lanes[lane] = x);
    }
    all
}

/// Whole areas on one thread, from a few dozen radials walked again and again: radius, step, receivers, processor time.
fn table() {
    for (radius_km, step_km) in [
        (30.0, 0.09),
        (60.0, 0.09),
        (120.0, 0.09),
        (30.0, 0.03),
        (60.0, 0.03),
        (120.0, 0.03),
    ] {
        let points = (radius_km / step_km) as usize + 1;
        let azimuths = (std::f64::consts::TAU * radius_km / step_km) as u64;
        let radials: Vec<Radial> = (0..48)
            .map(|s| radial(Ground::Hilly, true, points, step_km, s))
            .collect();
        let (setup, rx) = (setup(50.0), vec![10.0; points]);
        let mut walker = Walker::default();
        let (mut out, mut receivers) = (Vec::new(), 0);
        let start = thread_ns();
        for k in 0..azimuths {
            let first = start_of(k, points);
            receivers += points - first;
            walker
                .walk(&radials[(k % 48) as usize], &setup, &rx, first..points, &mut out)
                .expect("losses");
            black_box(&out);
        }
        println!(
            "{radius_km:>4} km at {:>2.0} m: {azimuths:>6} azimuths, {receivers:>9} receivers, {:.2} s of processor",
            step_km * 1000.0,
            (thread_ns() - start) * 1e-9
        );
    }
}

/// Where an azimuth begins. Bit-reversed order spreads the azimuths that begin near the mast evenly, so receivers per ring grow
/// with its radius as cells do.
fn start_of(k: u64, points: usize) -> usize {
    1 + ((k.reverse_bits() >> 11) as f64 / (1u64 << 53) as f64 * (points - 1) as f64) as usize
}

/// A radius of 60 km at 90 m on two threads: each azimuth begins where the cells of the ring need it.
fn area(kind: Ground, clutter: bool, time_pct: f64) {
    let (points, azimuths) = (667, 4190);
    let radials: Vec<Radial> = (0..azimuths)
        .map(|s| radial(kind, clutter, points, 0.09, s))
        .collect();
    let setup = setup(time_pct);
    let rx = vec![10.0; points];
    let receivers: usize = (0..azimuths).map(|k| points - start_of(k, points)).sum();
    let half = |part: u64| {
        let start = thread_ns();
        let mut walker = Walker::default();
        let mut out = Vec::new();
        for k in (0..azimuths).filter(|k| k / 2 % 2 == part) {
            walker
                .walk(
                    &radials[k as usize],
                    &setup,
                    &rx,
                    start_of(k, points)..points,
                    &mut out,
                )
                .expect("losses");
            black_box(&out);
        }
        (thread_ns() - start) * 1e-9
    };
    let start = Instant::now();
    let (one_s, other_s) = std::thread::scope(|scope| {
        let other = scope.spawn(|| half(1));
        (half(0), other.join().expect("a finished thread"))
    });
    println!(
        "area 60 km at 90 m, {kind:?}{}, {time_pct} %: {receivers} receivers on two threads: {:.3} s by the clock, \
         {one_s:.3} and {other_s:.3} s of processor",
        if clutter { ", clutter" } else { "" },
        start.elapsed().as_secs_f64()
    );
}
