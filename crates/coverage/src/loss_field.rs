//! The loss from one site to every receiver round it: the slow part of a coverage, computed once.

use std::sync::Arc;

use crate::computing::{self, GroundFrom};
use crate::control::Control;
use crate::cover_row::{CoverRow, CoverRows};
use crate::error::CoverageError;
use crate::lattice::Lattice;
use crate::listeners::{self, Listeners};
use crate::study::{Study, Walker};
use crate::survey::Survey;
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
    // What does not depend on the frequency is held once by fields computed together.
    pub(crate) elev_cdeg: Arc<Vec<i16>>,
    pub(crate) cover: Arc<Vec<u8>>,
    pub(crate) listeners: Arc<Listeners>,
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
        Self::compute_each(world, std::slice::from_ref(study), control).map(one)
    }

    /// Losses of studies that differ in frequency, polarisation, time percentage and N0 only: one field for each, in order,
    /// equal to [`LossField::compute`] of each, for far less than as many runs. Ground, zones, hulls, elevations and people are
    /// worked out once and, where they are kept, held once.
    ///
    /// # Memory
    /// Two bytes for each receiver and study, and three for each receiver.
    ///
    /// # Errors
    /// [`CoverageError::NotTogether`] for studies that differ in anything else, [`CoverageError::Study`] for more than
    /// [`MAX_LOSSES_TOGETHER`](crate::computing::MAX_LOSSES_TOGETHER) losses; else as [`LossField::compute`].
    pub fn compute_each(
        world: &dyn World,
        studies: &[Study],
        control: &Control<'_>,
    ) -> Result<Vec<Self>, CoverageError> {
        let everywhere = |_| f64::INFINITY;
        let mut fields = computing::fields(GroundFrom::World(world), studies, &everywhere, control)?;
        let mut known: Option<Arc<Listeners>> = None;
        for field in &mut fields {
            let listeners = match known.take() {
                // P.1812 gives every receiver on known ground a loss, so all have the same people; the other method refuses some.
                Some(listeners) if !matches!(field.study.walker, Walker::Itm(_)) => listeners,
                _ => Arc::new(field.listeners_of(world)),
            };
            field.listeners = Arc::clone(&listeners);
            known = Some(listeners);
        }
        Ok(fields)
    }

    /// Losses over ground that was read before: another antenna height, frequency, percentage, climate or receiving rule from the
    /// same site, equal to [`LossField::compute`] over the world that was surveyed. No tile is read and nobody counted again.
    ///
    /// # Errors
    /// [`CoverageError::OtherSurvey`] for another site, radius, step or azimuths, and for the Irregular Terrain Model; else as
    /// [`LossField::compute`].
    pub fn from_survey(survey: &Survey, study: &Study, control: &Control<'_>) -> Result<Self, CoverageError> {
        Self::each_from_survey(survey, std::slice::from_ref(study), control).map(one)
    }

    /// [`LossField::compute_each`] over ground that was read before.
    ///
    /// # Errors
    /// As [`LossField::compute_each`] and [`LossField::from_survey`].
    pub fn each_from_survey(
        survey: &Survey,
        studies: &[Study],
        control: &Control<'_>,
    ) -> Result<Vec<Self>, CoverageError> {
        for study in studies {
            survey.check(study)?;
        }
        let everywhere = |_| f64::INFINITY;
        let mut fields = computing::fields(GroundFrom::Survey(survey), studies, &everywhere, control)?;
        for field in &mut fields {
            field.listeners = survey.listeners();
        }
        Ok(fields)
    }

    /// The losses alone, on each azimuth as far as `reach_km` wants them; nothing is computed beyond.
    pub(crate) fn without_people(
        world: &dyn World,
        study: &Study,
        reach_km: &(dyn Fn(f64) -> f64 + Sync),
        control: &Control<'_>,
    ) -> Result<Self, CoverageError> {
        let studies = std::slice::from_ref(study);
        computing::fields(GroundFrom::World(world), studies, reach_km, control).map(one)
    }

    fn listeners_of(&self, world: &dyn World) -> Listeners {
        listeners::on_lattice(world, &self.lattice, |i| {
            self.cover[i] & WATER != 0 && self.loss_cdb[i] != NO_LOSS
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

    /// Memory the receivers take, bytes. Fields computed together hold all but the losses (two bytes each) once.
    pub fn bytes(&self) -> usize {
        self.loss_cdb.len() * 5 + self.listeners.len() * 8
    }
}

/// The only field of a list.
fn one(mut fields: Vec<LossField>) -> LossField {
    fields.pop().expect("as many fields as studies")
}
