//! The loss from one site to every receiver round it: the slow part of a coverage, computed once.

use std::ops::Range;

use propagation::radial::{Radial, RadialSetup};
use rayon::prelude::*;
use terrain::{Profile, Quality};

use crate::control::{Control, Meter};
use crate::cover_row::{CoverRow, CoverRows};
use crate::error::CoverageError;
use crate::lattice::Lattice;
use crate::listeners::{self, Listeners};
use crate::study::{Study, Walker};
use crate::walk;
use crate::world::World;

/// Basic transmission loss from a site to receivers along radials, with what stands round each receiver and who lives there.
///
/// Independent of power and pattern. Stored in hundredths of a dB and of a degree: five bytes a receiver. The same inputs give
/// the same bits for any number of threads.
#[derive(Debug, Clone, PartialEq)]
pub struct LossField {
    pub(crate) study: Study,
    pub(crate) lattice: Lattice,
    pub(crate) rows: CoverRows,
    pub(crate) loss_cdb: Vec<u16>,
    pub(crate) elev_cdeg: Vec<i16>,
    pub(crate) cover: Vec<u8>,
    pub(crate) listeners: Listeners,
    pub(crate) shares: Shares,
}

/// Shares of the samples of all radials, 0…1.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Shares {
    /// Filled from neighbours because a tile holds no value.
    pub void: f64,
    /// Over water.
    pub water: f64,
    /// Behind missing tiles, where nothing was computed.
    pub missing: f64,
    /// Without a tile, sea by choice.
    pub sea_by_choice: f64,
}

/// Loss stored where none was computed.
pub(crate) const NO_LOSS: u16 = u16::MAX;

/// Flags beside the row in a receiver's cover byte.
pub(crate) const ROW_BITS: u8 = 0x1f;
pub(crate) const SEA: u8 = 0x20;
pub(crate) const WATER: u8 = 0x40;
pub(crate) const VOID: u8 = 0x80;

/// One receiver.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample<'a> {
    /// Azimuth from the site, degrees clockwise from true north.
    pub azimuth_deg: f64,
    /// Distance index on the radial.
    pub point: u32,
    /// Basic transmission loss at the row's height of prediction, dB; `None` behind missing ground.
    pub loss_db: Option<f64>,
    /// Elevation at which the ray leaves the antenna: towards the receiver, or towards the highest ground before it where
    /// that stands higher; degrees, a depression is negative. Rounded to 0.01°.
    pub elev_deg: f64,
    /// What stands round it.
    pub row: &'a CoverRow,
    /// Over the sea.
    pub sea: bool,
    /// Over any water.
    pub water: bool,
    /// Its own height was filled from neighbours.
    pub void: bool,
}

impl LossField {
    /// Losses from the study's site over a world.
    ///
    /// # Errors
    /// [`CoverageError`]: numbers that make no study, damaged tiles, conditions outside P.1812, ground missing at the site
    /// itself, or [`CoverageError::Cancelled`]. Tiles missing further out are no error: see [`Shares::missing`].
    pub fn compute(world: &dyn World, study: &Study, control: &Control<'_>) -> Result<Self, CoverageError> {
        let mut field = Self::without_people(world, study, &|_| f64::INFINITY, control)?;
        field.listeners = listeners::on_lattice(world, &field.lattice, &field.cover, &field.loss_cdb);
        Ok(field)
    }

    /// The losses alone, on each azimuth as far as `reach_km` wants them; nothing is computed beyond.
    pub(crate) fn without_people(
        world: &dyn World,
        study: &Study,
        reach_km: &(dyn Fn(f64) -> f64 + Sync),
        control: &Control<'_>,
    ) -> Result<Self, CoverageError> {
        study.check()?;
        let lattice = study.lattice()?;
        let setup = RadialSetup::new(&study.conditions, study.tx_agl_m)?;
        let itm = match study.walker {
            Walker::Itm(climate) => Some(walk::itm_constants(study, climate)?),
            Walker::Plain | Walker::Engine => None,
        };
        let rows = CoverRows::new(world.clutter_table(), study.receiving, world.clutter_mode())
            .ok_or(CoverageError::TooManyRows)?;
        let count = lattice.len();
        let (mut loss_cdb, mut elev_cdeg, mut cover) =
            (vec![NO_LOSS; count], vec![0i16; count], vec![0u8; count]);
        let work = Work {
            world,
            study,
            lattice: &lattice,
            rows: &rows,
            setup: &setup,
            itm: itm.as_ref(),
            reach_km,
            control,
            meter: Meter::new(control, u64::from(lattice.azimuths())),
        };
        let counts = radials(&lattice, &mut loss_cdb, &mut elev_cdeg, &mut cover)
            .into_par_iter()
            .map_init(Buffers::default, |buffers, radial| work.radial(buffers, radial))
            .collect::<Result<Vec<Counts>, CoverageError>>()?;
        control.check()?;
        Ok(Self {
            study: *study,
            shares: shares(&counts),
            listeners: Listeners::nobody(),
            lattice,
            rows,
            loss_cdb,
            elev_cdeg,
            cover,
        })
    }

    /// The study it answers.
    pub fn study(&self) -> &Study {
        &self.study
    }

    /// Where its receivers stand.
    pub fn lattice(&self) -> &Lattice {
        &self.lattice
    }

    /// The kinds of surroundings its receivers stand in.
    pub fn rows(&self) -> &CoverRows {
        &self.rows
    }

    /// Shares of void, water and missing samples.
    pub fn shares(&self) -> &Shares {
        &self.shares
    }

    /// Who lives at its receivers.
    pub fn listeners(&self) -> &Listeners {
        &self.listeners
    }

    /// One receiver by its index.
    ///
    /// # Panics
    /// If there is no such receiver.
    pub fn sample(&self, radial: u32, point: u32) -> Option<Sample<'_>> {
        let index = self.lattice.index(radial, point)?;
        let cover = self.cover[index];
        Some(Sample {
            azimuth_deg: self.lattice.azimuth_deg(radial),
            point,
            loss_db: self.loss_db(index),
            elev_deg: self.elev_deg(index),
            row: &self.rows.rows()[usize::from(cover & ROW_BITS)],
            sea: cover & SEA != 0,
            water: cover & WATER != 0,
            void: cover & VOID != 0,
        })
    }

    /// Loss of a receiver, dB; `None` behind missing ground.
    #[inline]
    pub fn loss_db(&self, index: usize) -> Option<f64> {
        match self.loss_cdb[index] {
            NO_LOSS => None,
            cdb => Some(f64::from(cdb) / 100.0),
        }
    }

    /// Elevation at which the ray to a receiver leaves, degrees.
    #[inline]
    pub fn elev_deg(&self, index: usize) -> f64 {
        f64::from(self.elev_cdeg[index]) / 100.0
    }

    /// Index of a receiver's row.
    #[inline]
    pub(crate) fn row_index(&self, index: usize) -> usize {
        usize::from(self.cover[index] & ROW_BITS)
    }

    /// Whether a receiver stands over water.
    pub fn is_water(&self, index: usize) -> bool {
        self.cover[index] & WATER != 0
    }

    /// Loss of every receiver, dB; NaN behind missing ground.
    ///
    /// # Shape
    /// One for each receiver, in the lattice's order.
    pub fn losses_db(&self) -> Vec<f32> {
        let decode = |cdb: &u16| match *cdb {
            NO_LOSS => f32::NAN,
            cdb => f32::from(cdb) / 100.0,
        };
        self.loss_cdb.iter().map(decode).collect()
    }

    /// Receivers with people: radial, receiver and count, by rising receiver.
    pub(crate) fn people_on_radials(&self) -> impl Iterator<Item = (u32, usize, f64)> + '_ {
        let mut radial = 0;
        self.listeners.iter().map(move |(index, count)| {
            while index >= self.lattice.radial_range(radial).end {
                radial += 1;
            }
            (radial, index, count)
        })
    }

    /// Memory the receivers take, bytes.
    pub fn bytes(&self) -> usize {
        self.loss_cdb.len() * 5 + self.listeners.len() * 8
    }
}

/// One radial's receivers in the arrays of a field.
struct RadialSlots<'a> {
    radial: u32,
    loss_cdb: &'a mut [u16],
    elev_cdeg: &'a mut [i16],
    cover: &'a mut [u8],
}

fn radials<'a>(
    lattice: &Lattice,
    mut loss: &'a mut [u16],
    mut elev: &'a mut [i16],
    mut cover: &'a mut [u8],
) -> Vec<RadialSlots<'a>> {
    (0..lattice.azimuths())
        .map(|radial| {
            let len = lattice.radial_range(radial).len();
            let (loss_cdb, elev_cdeg, cover_here);
            (loss_cdb, loss) = std::mem::take(&mut loss).split_at_mut(len);
            (elev_cdeg, elev) = std::mem::take(&mut elev).split_at_mut(len);
            (cover_here, cover) = std::mem::take(&mut cover).split_at_mut(len);
            RadialSlots {
                radial,
                loss_cdb,
                elev_cdeg,
                cover: cover_here,
            }
        })
        .collect()
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
    world: &'a dyn World,
    study: &'a Study,
    lattice: &'a Lattice,
    rows: &'a CoverRows,
    setup: &'a RadialSetup,
    itm: Option<&'a propagation::itm::Constants>,
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
        // Half a millimetre more, so that rounding does not lose the last sample.
        let length_km = lattice.radius_km().min((self.reach_km)(azimuth_deg)) + 5e-7;
        if length_km * 1000.0 < lattice.step_m() {
            self.meter.one_more();
            return Ok(Counts::default());
        }
        self.world
            .radial_into(lattice.site(), azimuth_deg, length_km, lattice.step_m(), profile)?;
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
            self.lose(buffers, azimuth_deg, first..usable, slots.loss_cdb)?;
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
        let ae_km = self.setup.constants.ae_km;
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
        loss_cdb: &mut [u16],
    ) -> Result<(), CoverageError> {
        let first = receivers.start;
        let put = |k: usize, loss_db: f64| loss_cdb[k - first] = stored_loss(loss_db);
        if let Some(constants) = self.itm {
            let (profile, tx_agl_m) = (&buffers.profile, self.study.tx_agl_m);
            return walk::walk_itm(
                profile,
                constants,
                tx_agl_m,
                &buffers.rx_agl_m,
                receivers,
                self.control,
                put,
            );
        }
        let profile = walk::radio_profile(&buffers.profile, receivers.end)?;
        let radial = Radial::new(profile, self.lattice.site().lat_deg(), azimuth_deg);
        walk::walk(
            self.study.walker,
            &mut buffers.engine,
            &radial,
            self.setup,
            &buffers.rx_agl_m,
            receivers,
            self.control,
            put,
        )
    }
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
