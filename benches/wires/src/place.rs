//! Best place on a mast for a licence mask and two places to serve, against every place of a 10° × 5 cm grid: on a pole and on a
//! triangular lattice (invented station).
//!
//!     cargo run --release -q -p wires-bench place

use crate::processor_s;
use std::time::Instant;

use antenna::direction::{Direction, Plane};
use antenna::feed::{Cable, Feed, Splitter};
use antenna::line::{LineConstants, wavelength_m};
use antenna::mount::{
    Found, Grid, Mast, MastPlace, MountError, MountPlan, WireElement, Wish, best_place, brute_force,
};

pub fn run() -> Result<(), Box<dyn std::error::Error>> {
    let freq_mhz = 98.0;
    let lattice = Mast::Lattice {
        legs: 3,
        face_m: 0.40,
        panel_m: 0.40,
        leg_radius_m: 0.015,
        horizontal_radius_m: 0.006,
        diagonal_radius_m: 0.005,
        face_bearing_deg: 20.0,
    };
    for (name, mast, from_m) in [
        ("pole 60 mm", Mast::Pole { radius_m: 0.03 }, 0.35),
        ("lattice 0.40 m", lattice, 0.45),
    ] {
        let place = MastPlace {
            bearing_deg: 0.0,
            stand_off_m: 0.8,
        };
        let spacing_m = 0.9 * wavelength_m(freq_mhz);
        let plan = MountPlan::even(freq_mhz, 4, spacing_m, WireElement::Vertical, place, mast);
        let cable = Cable {
            line: LineConstants::new(0.4022, 0.000782, 0.85, 50.0)?,
            length_m: 4.0,
        };
        let feed = Feed::equal(Splitter::quarter_wave(4, freq_mhz, 0.1), 4, cable);
        let grid = Grid {
            bearing_step_deg: 10.0,
            from_m,
            to_m: 1.5,
            step_m: 0.05,
        };
        compare(name, &plan, &feed, &wish(), &grid)?;
    }
    Ok(())
}

/// 2 kW allowed all round, 500 W between 200° and 260°; a town and a valley to serve.
fn wish() -> Wish {
    let mut mask_dbw = vec![33.0; 36];
    mask_dbw[20..=26].fill(27.0);
    Wish {
        plane: Plane::Vertical,
        mask_dbw,
        power_dbw: 27.0,
        places: vec![Direction::new(35.0, -1.0), Direction::new(130.0, -0.5)],
    }
}

fn compare(name: &str, plan: &MountPlan, feed: &Feed, wish: &Wish, grid: &Grid) -> Result<(), MountError> {
    let timed = |run: &dyn Fn() -> Result<Found, MountError>| {
        let (clock, processor) = (Instant::now(), processor_s());
        let found = run()?;
        Ok::<_, MountError>((found, clock.elapsed().as_secs_f64(), processor_s() - processor))
    };
    let searched = timed(&|| best_place(plan, feed, wish, grid))?;
    let every = timed(&|| brute_force(plan, feed, wish, grid))?;
    println!("{name}");
    for (what, (f, clock_s, processor_s)) in [("search", &searched), ("grid", &every)] {
        println!(
            "  {what:6}: bearing {:5.1}°, stand-off {:.2} m: inside the mask by {:+.2} dB at full power, {:.2} dBW allowed, \
             worst place {:.3} dBW ERP; {} antennas solved in {clock_s:.2} s, {processor_s:.2} s of processors",
            f.place.bearing_deg,
            f.place.stand_off_m,
            f.mask_margin_db,
            f.power_dbw,
            f.worst_place_dbw,
            f.solved
        );
    }
    // What a grid costs that knows nothing: no mast kept, no turn seen as the same antenna.
    let one_s = from_nothing_s(plan, feed, wish)?;
    let places =
        (360.0 / grid.bearing_step_deg) * (((grid.to_m - grid.from_m) / grid.step_m + 1e-9).floor() + 1.0);
    println!(
        "  search {:+.3} dB against the grid, processor time 1 : {:.1}; against {places:.0} places each from nothing ({:.0} ms for one) 1 : {:.0}",
        searched.0.worst_place_dbw - every.0.worst_place_dbw,
        every.2 / searched.2,
        1e3 * one_s,
        places * one_s / searched.2,
    );
    Ok(())
}

/// Processor time of one place solved and judged by itself, the mean of eight.
fn from_nothing_s(plan: &MountPlan, feed: &Feed, wish: &Wish) -> Result<f64, MountError> {
    let before = processor_s();
    for i in 0..8 {
        let place = MastPlace {
            bearing_deg: 45.0 * f64::from(i),
            stand_off_m: 0.6 + 0.1 * f64::from(i),
        };
        let (pattern, _) = plan.at_place(place).solved()?.pattern(feed)?;
        std::hint::black_box(
            (0..360)
                .map(|b| pattern.strongest_dbd(wish.plane, f64::from(b)))
                .fold(0.0, f64::max),
        );
    }
    Ok((processor_s() - before) / 8.0)
}
