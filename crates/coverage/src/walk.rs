//! From a radial of ground to losses: the one place that chooses the walker.

use std::ops::Range;

use propagation::itm;
use propagation::p1812::{self, Profile as RadioProfile};
use propagation::radial::{Radial, RadialSetup, engine, plain};
use terrain::Profile;

use crate::control::Control;
use crate::error::CoverageError;
use crate::study::{Study, Walker};

/// Receivers between two looks at the cancel flag: the plain walker needs about 50 µs for the furthest ones of 4 000 points.
const PLAIN_CHUNK: usize = 256;

/// Setups walked together, so that a cancel is seen in time whatever their number: 32 on 4 000 points take some 30 ms.
const SETUPS_TOGETHER: usize = 32;

/// Losses for each setup to a range of receivers of a radial, dB, handed on as (setup, point, loss). All setups have the same
/// antenna height and lapse rate.
#[expect(clippy::too_many_arguments, reason = "one call, from one place")]
pub(crate) fn walk_each(
    walker: Walker,
    engine: &mut Engine,
    radial: &Radial,
    setups: &[RadialSetup],
    rx_agl_m: &[f64],
    receivers: Range<usize>,
    control: &Control<'_>,
    mut put: impl FnMut(usize, usize, f64),
) -> Result<(), CoverageError> {
    if walker == Walker::Plain {
        for (i, setup) in setups.iter().enumerate() {
            let put = |k, loss_db| put(i, k, loss_db);
            walk_plain(radial, setup, rx_agl_m, receivers.clone(), control, put)?;
        }
        return Ok(());
    }
    let first = receivers.start;
    engine
        .losses_db
        .resize_with(setups.len().min(SETUPS_TOGETHER), Vec::new);
    for (chunk, setups) in setups.chunks(SETUPS_TOGETHER).enumerate() {
        control.check()?;
        let lists = &mut engine.losses_db[..setups.len()];
        engine
            .walker
            .walk_each(radial, setups, rx_agl_m, receivers.clone(), lists)?;
        for (i, list) in lists.iter().enumerate() {
            for (k, &loss_db) in list.iter().enumerate() {
                put(chunk * SETUPS_TOGETHER + i, first + k, loss_db);
            }
        }
    }
    Ok(())
}

fn walk_plain(
    radial: &Radial,
    setup: &RadialSetup,
    rx_agl_m: &[f64],
    receivers: Range<usize>,
    control: &Control<'_>,
    mut put: impl FnMut(usize, f64),
) -> Result<(), CoverageError> {
    let mut start = receivers.start;
    while start < receivers.end {
        control.check()?;
        let end = (start + PLAIN_CHUNK).min(receivers.end);
        let losses = plain::walk(radial, setup, rx_agl_m, start..end)?;
        for (i, loss_db) in losses.into_iter().enumerate() {
            put(start + i, loss_db);
        }
        start = end;
    }
    Ok(())
}

/// The fast walker's workspace.
#[derive(Default)]
pub(crate) struct Engine {
    walker: engine::Walker,
    losses_db: Vec<Vec<f64>>,
}

/// Losses by the Irregular Terrain Model to a range of receivers, dB, handed on as (point, loss), height by height. Receivers
/// that the method refuses (too near, too far) get none.
pub(crate) fn walk_itm(
    profile: &Profile,
    constants: &itm::Constants,
    tx_agl_m: f64,
    rx_agl_m: &[f64],
    receivers: Range<usize>,
    control: &Control<'_>,
    mut put: impl FnMut(usize, f64),
) -> Result<(), CoverageError> {
    let radial = itm::radial::Radial::new(profile.step_km * 1000.0, &profile.heights_m[..receivers.end])?;
    let mut heights_m: Vec<f64> = rx_agl_m[receivers.clone()].to_vec();
    heights_m.sort_by(f64::total_cmp);
    heights_m.dedup();
    for height_m in heights_m {
        control.check()?;
        let antennas = itm::Antennas {
            tx_agl_m,
            rx_agl_m: height_m,
        };
        let losses = itm::radial::walk(&radial, constants, &antennas, receivers.clone())?;
        for (k, loss) in receivers.clone().zip(losses) {
            if let (true, Ok(loss_db)) = (rx_agl_m[k] == height_m, loss) {
                put(k, loss_db);
            }
        }
    }
    Ok(())
}

/// What the Irregular Terrain Model takes from a study.
///
/// # Errors
/// [`CoverageError::Itm`] for conditions the method refuses.
pub(crate) fn itm_constants(study: &Study, climate: u8) -> Result<itm::Constants, CoverageError> {
    let c = &study.conditions;
    Ok(itm::Constants::new(&itm::Conditions {
        climate,
        n0: c.n0,
        polarisation: c.polarisation,
        time_pct: c.time_pct,
        ..itm::Conditions::broadcast_median(c.freq_mhz)
    })?)
}

/// The first `len` samples of a path as P.1812 wants them.
///
/// # Errors
/// [`CoverageError::Profile`] for heights or clutter that P.1812 does not take.
pub(crate) fn radio_profile(profile: &Profile, len: usize) -> Result<RadioProfile, CoverageError> {
    let zones = profile.zones[..len]
        .iter()
        .map(|&zone| radio_zone(zone))
        .collect();
    Ok(RadioProfile::new(
        profile.distances_km[..len].to_vec(),
        profile.heights_m[..len].to_vec(),
        profile.clutter_m[..len].to_vec(),
        zones,
    )?)
}

fn radio_zone(zone: terrain::Zone) -> p1812::Zone {
    match zone {
        terrain::Zone::Sea => p1812::Zone::Sea,
        terrain::Zone::CoastalLand => p1812::Zone::Coast,
        terrain::Zone::Inland => p1812::Zone::Inland,
    }
}

/// Elevation at which a ray leaves towards height `target_m` above sea at distance `d_km`, radians, over the median Earth.
#[inline]
pub(crate) fn elevation_rad(antenna_m: f64, target_m: f64, d_km: f64, ae_km: f64) -> f64 {
    ((target_m - antenna_m) / (1000.0 * d_km) - d_km / (2.0 * ae_km)).atan()
}
