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

/// Losses to a range of receivers of a radial, dB, handed on in order as (point, loss).
#[expect(clippy::too_many_arguments, reason = "one call, from one place")]
pub(crate) fn walk(
    walker: Walker,
    engine: &mut Engine,
    radial: &Radial,
    setup: &RadialSetup,
    rx_agl_m: &[f64],
    receivers: Range<usize>,
    control: &Control<'_>,
    mut put: impl FnMut(usize, f64),
) -> Result<(), CoverageError> {
    if walker != Walker::Plain {
        control.check()?;
        let start = receivers.start;
        engine
            .walker
            .walk(radial, setup, rx_agl_m, receivers, &mut engine.losses_db)?;
        for (i, &loss_db) in engine.losses_db.iter().enumerate() {
            put(start + i, loss_db);
        }
        return Ok(());
    }
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
    losses_db: Vec<f64>,
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
