//! From ground to losses, radial by radial: for one study, or for several that share the ground and everything geometric.

use std::ops::Range;
use std::sync::Arc;

use propagation::itm;
use propagation::radial::{Radial, RadialSetup};
use rayon::prelude::*;
use terrain::{Profile, Quality};

use crate::control::{Control, Meter};
use crate::cover_row::CoverRows;
use crate::error::CoverageError;
use crate::lattice::Lattice;
use crate::listeners::Listeners;
use crate::loss_field::{LossField, NO_LOSS, SEA, Shares, VOID, WATER};
use crate::study::{Study, Walker};
use crate::survey::Survey;
use crate::walk;
use crate::world::World;

/// Most losses computed together, all studies taken into account: 800 MB of them.
pub const MAX_LOSSES_TOGETHER: usize = 400_000_000;

/// Where the ground along the radials comes from.
#[derive(Clone, Copy)]
pub(crate) enum GroundFrom<'a> {
    /// Read now.
    World(&'a dyn World),
    /// Kept from an earlier reading.
    Survey(&'a Survey),
}

impl GroundFrom<'_> {
    fn rows(&self, study: &Study) -> Result<CoverRows, CoverageError> {
        let (table, mode) = match self {
            GroundFrom::World(world) => (world.clutter_table(), world.clutter_mode()),
            GroundFrom::Survey(survey) => survey.cover_rule(),
        };
        CoverRows::new(table, study.receiving, mode).ok_or(CoverageError::TooManyRows)
    }

    fn radial_into(
        &self,
        lattice: &Lattice,
        radial: u32,
        length_km: f64,
        profile: &mut Profile,
    ) -> Result<(), CoverageError> {
        match self {
            GroundFrom::World(world) => world.radial_into(
                lattice.site(),
                lattice.azimuth_deg(radial),
                length_km,
                lattice.step_m(),
                profile,
            )?,
            GroundFrom::Survey(survey) => survey.radial_into(radial, profile),
        }
        Ok(())
    }
}

/// Losses of studies that differ in frequency, polarisation, time percentage and N0 only; one field for each, in order, without
/// people. On each azimuth as far as `reach_km` wants them; nothing is computed beyond.
pub(crate) fn fields(
    ground: GroundFrom<'_>,
    studies: &[Study],
    reach_km: &(dyn Fn(f64) -> f64 + Sync),
    control: &Control<'_>,
) -> Result<Vec<LossField>, CoverageError> {
    let Some(first) = studies.first() else {
        return Ok(Vec::new());
    };
    for study in studies {
        study.check()?;
    }
    for other in &studies[1..] {
        first.check_together(other)?;
    }
    let lattice = first.lattice()?;
    let count = lattice.len();
    if studies.len() > 1 && count.saturating_mul(studies.len()) > MAX_LOSSES_TOGETHER {
        return Err(CoverageError::Study {
            what: "losses-together",
            value: count as f64 * studies.len() as f64,
        });
    }
    let setups = studies
        .iter()
        .map(|s| RadialSetup::new(&s.conditions, s.tx_agl_m))
        .collect::<Result<Vec<_>, _>>()?;
    let itm = match first.walker {
        Walker::Itm(climate) => studies
            .iter()
            .map(|study| walk::itm_constants(study, climate))
            .collect::<Result<Vec<_>, _>>()?,
        Walker::Plain | Walker::Engine => Vec::new(),
    };
    let rows = ground.rows(first)?;
    let mut losses_cdb: Vec<Vec<u16>> = studies.iter().map(|_| vec![NO_LOSS; count]).collect();
    let (mut elev_cdeg, mut cover) = (vec![0i16; count], vec![0u8; count]);
    let work = Work {
        ground,
        study: first,
        lattice: &lattice,
        rows: &rows,
        setups: &setups,
        itm: &itm,
        reach_km,
        control,
        meter: Meter::new(control, u64::from(lattice.azimuths())),
    };
    let counts = radials(&lattice, &mut losses_cdb, &mut elev_cdeg, &mut cover)
        .into_par_iter()
        .map_init(Buffers::default, |buffers, radial| work.radial(buffers, radial))
        .collect::<Result<Vec<Counts>, CoverageError>>()?;
    control.check()?;
    let shares = shares(&counts);
    let (elev_cdeg, cover) = (Arc::new(elev_cdeg), Arc::new(cover));
    let listeners = Arc::new(Listeners::nobody());
    let field = |(study, loss_cdb): (&Study, Vec<u16>)| LossField {
        study: *study,
        shares,
        listeners: Arc::clone(&listeners),
        lattice: lattice.clone(),
        rows: rows.clone(),
        loss_cdb,
        elev_cdeg: Arc::clone(&elev_cdeg),
        cover: Arc::clone(&cover),
    };
    Ok(studies.iter().zip(losses_cdb).map(field).collect())
}

/// One radial's receivers in the arrays of the fields.
struct RadialSlots<'a> {
    radial: u32,
    /// One list for each study.
    losses_cdb: Vec<&'a mut [u16]>,
    elev_cdeg: &'a mut [i16],
    cover: &'a mut [u8],
}

fn radials<'a>(
    lattice: &Lattice,
    losses: &'a mut [Vec<u16>],
    mut elev: &'a mut [i16],
    mut cover: &'a mut [u8],
) -> Vec<RadialSlots<'a>> {
    let mut losses: Vec<&'a mut [u16]> = losses.iter_mut().map(Vec::as_mut_slice).collect();
    (0..lattice.azimuths())
        .map(|radial| {
            let len = lattice.radial_range(radial).len();
            RadialSlots {
                radial,
                losses_cdb: losses.iter_mut().map(|list| take_front(list, len)).collect(),
                elev_cdeg: take_front(&mut elev, len),
                cover: take_front(&mut cover, len),
            }
        })
        .collect()
}

/// The first `len` of a list, which loses them.
fn take_front<'a, T>(list: &mut &'a mut [T], len: usize) -> &'a mut [T] {
    let (front, rest) = std::mem::take(list).split_at_mut(len);
    *list = rest;
    front
}

#[derive(Default)]
struct Buffers {
    profile: Profile,
    rx_agl_m: Vec<f64>,
    engine: walk::Engine,
}

#[derive(Default, Clone, Copy)]
struct Counts {
    samples: u64,
    void: u64,
    water: u64,
    missing: u64,
    sea_by_choice: u64,
}

struct Work<'a> {
    ground: GroundFrom<'a>,
    /// What all studies share is taken from this one.
    study: &'a Study,
    lattice: &'a Lattice,
    rows: &'a CoverRows,
    setups: &'a [RadialSetup],
    itm: &'a [itm::Constants],
    reach_km: &'a (dyn Fn(f64) -> f64 + Sync),
    control: &'a Control<'a>,
    meter: Meter<'a>,
}

impl Work<'_> {
    fn radial(&self, buffers: &mut Buffers, slots: RadialSlots<'_>) -> Result<Counts, CoverageError> {
        self.control.check()?;
        let lattice = self.lattice;
        let azimuth_deg = lattice.azimuth_deg(slots.radial);
        let profile = &mut buffers.profile;
        let length_km = radial_length_km(lattice.radius_km().min((self.reach_km)(azimuth_deg)));
        if length_km * 1000.0 < lattice.step_m() {
            self.meter.one_more();
            return Ok(Counts::default());
        }
        self.ground
            .radial_into(lattice, slots.radial, length_km, profile)?;
        let usable = profile.usable_len();
        if usable == 0 {
            return Err(CoverageError::MissingGround { from_km: 0.0 });
        }
        buffers.rx_agl_m.clear();
        buffers.rx_agl_m.extend(
            profile.covers[..usable]
                .iter()
                .map(|&c| self.rows.of_code(c).reference_m),
        );
        let first = (lattice.first_point(slots.radial) as usize).min(usable);
        self.describe(profile, first..usable, slots.cover);
        self.aim(buffers, first..usable, slots.elev_cdeg);
        if first < usable {
            self.lose(buffers, azimuth_deg, first..usable, slots.losses_cdb)?;
        }
        self.meter.one_more();
        Ok(counts(&buffers.profile))
    }

    /// Rows and flags of the receivers.
    fn describe(&self, profile: &Profile, receivers: Range<usize>, cover: &mut [u8]) {
        for (slot, k) in cover.iter_mut().zip(receivers) {
            let flag = |on: bool, bit: u8| if on { bit } else { 0 };
            *slot = self.rows.index_of(profile.covers[k]) as u8
                | flag(profile.zones[k] == terrain::Zone::Sea, SEA)
                | flag(profile.water[k], WATER)
                | flag(profile.quality[k] == Quality::Void, VOID);
        }
    }

    /// Elevations at which the rays leave: towards the receiver or the highest ground before it, whichever is higher.
    fn aim(&self, buffers: &Buffers, receivers: Range<usize>, elev_cdeg: &mut [i16]) {
        let profile = &buffers.profile;
        let antenna_m = profile.heights_m[0] + self.study.tx_agl_m;
        // The same for all setups: it follows from ΔN.
        let ae_km = self.setups[0].constants.ae_km;
        let towards = |k: usize, height_m: f64| {
            walk::elevation_rad(antenna_m, height_m, profile.distances_km[k], ae_km)
        };
        let ground = |k: usize| towards(k, profile.heights_m[k]);
        let mut horizon_rad = (1..receivers.start).map(ground).fold(f64::NEG_INFINITY, f64::max);
        for (slot, k) in elev_cdeg.iter_mut().zip(receivers) {
            let rad = towards(k, profile.heights_m[k] + buffers.rx_agl_m[k]).max(horizon_rad);
            *slot = (rad.to_degrees() * 100.0).round() as i16;
            horizon_rad = horizon_rad.max(ground(k));
        }
    }

    fn lose(
        &self,
        buffers: &mut Buffers,
        azimuth_deg: f64,
        receivers: Range<usize>,
        mut losses_cdb: Vec<&mut [u16]>,
    ) -> Result<(), CoverageError> {
        let first = receivers.start;
        let mut put = |setup: usize, k: usize, loss_db: f64| {
            losses_cdb[setup][k - first] = stored_loss(loss_db);
        };
        if let Walker::Itm(_) = self.study.walker {
            for (setup, constants) in self.itm.iter().enumerate() {
                walk::walk_itm(
                    &buffers.profile,
                    constants,
                    self.study.tx_agl_m,
                    &buffers.rx_agl_m,
                    receivers.clone(),
                    self.control,
                    |k, loss_db| put(setup, k, loss_db),
                )?;
            }
            return Ok(());
        }
        let profile = walk::radio_profile(&buffers.profile, receivers.end)?;
        let radial = Radial::new(profile, self.lattice.site().lat_deg(), azimuth_deg);
        walk::walk_each(
            self.study.walker,
            &mut buffers.engine,
            &radial,
            self.setups,
            &buffers.rx_agl_m,
            receivers,
            self.control,
            put,
        )
    }
}

/// Half a millimetre more, so that rounding does not lose the last sample.
pub(crate) fn radial_length_km(length_km: f64) -> f64 {
    length_km + 5e-7
}

/// Hundredths of a dB; losses from 655.34 dB are stored as that (nothing is heard there by any power).
fn stored_loss(loss_db: f64) -> u16 {
    (loss_db * 100.0).round().clamp(0.0, f64::from(NO_LOSS - 1)) as u16
}

fn counts(profile: &Profile) -> Counts {
    let usable = profile.usable_len();
    let of = |wanted| {
        let quality = &profile.quality[..usable];
        quality.iter().filter(|&&q| q == wanted).count() as u64
    };
    Counts {
        samples: profile.len() as u64,
        void: of(Quality::Void),
        water: profile.water[..usable].iter().filter(|&&w| w).count() as u64,
        missing: (profile.len() - usable) as u64,
        sea_by_choice: of(Quality::SeaByChoice),
    }
}

fn shares(counts: &[Counts]) -> Shares {
    let sum = |part: fn(&Counts) -> u64| counts.iter().map(part).sum::<u64>() as f64;
    let samples = sum(|c| c.samples).max(1.0);
    Shares {
        void: sum(|c| c.void) / samples,
        water: sum(|c| c.water) / samples,
        missing: sum(|c| c.missing) / samples,
        sea_by_choice: sum(|c| c.sea_by_choice) / samples,
    }
}
