//! The ground round a site kept in memory, so that another antenna height or frequency walks it again without reading it again.

use std::sync::Arc;

use rayon::prelude::*;
use terrain::{ClutterMode, ClutterTable, Profile, Quality, Zone};

use crate::computing::radial_length_km;
use crate::control::{Control, Meter};
use crate::error::CoverageError;
use crate::lattice::Lattice;
use crate::listeners::{self, Listeners};
use crate::study::{Study, Walker};
use crate::world::World;

/// Most memory the samples of a survey take, bytes. At 14 bytes a sample, 60 km at 90 m take 32 MB, 120 km at 90 m 127 MB, 60 km
/// at 30 m 287 MB; 120 km at 30 m (1.1 GB) are refused.
pub const MAX_SURVEY_BYTES: usize = 512_000_000;

/// Height, clutter, cover code and flags.
const BYTES_PER_SAMPLE: usize = 8 + 4 + 1 + 1;

const ZONE_BITS: u8 = 0x03;
const WATER: u8 = 0x04;
const QUALITY_SHIFT: u8 = 4;

/// The ground along all radials of a study, with the people at its receivers.
///
/// It answers for any antenna height, frequency, percentage of time, climate and receiving rule from the same site with the same
/// radius, step and azimuths. It is a copy: a world that changes afterwards needs another survey
/// ([`Study::feed_survey_key`] tells them apart).
#[derive(Debug, Clone)]
pub struct Survey {
    study: Study,
    lattice: Lattice,
    table: ClutterTable,
    mode: ClutterMode,
    /// The same for all radials.
    distances_km: Vec<f64>,
    radials: Vec<Kept>,
    listeners: Arc<Listeners>,
}

/// One radial's samples, the site first.
#[derive(Debug, Clone)]
struct Kept {
    heights_m: Box<[f64]>,
    /// As a [`ClutterTable`] holds heights.
    clutter_m: Box<[f32]>,
    covers: Box<[u8]>,
    flags: Box<[u8]>,
}

impl Survey {
    /// Reads the ground along every radial of a study, and who lives at its receivers.
    ///
    /// # Errors
    /// [`CoverageError::SurveyTooLarge`] beyond [`MAX_SURVEY_BYTES`], before anything is read; [`CoverageError`] for numbers that
    /// make no study, damaged tiles, ground missing at the site itself, or [`CoverageError::Cancelled`].
    pub fn new(world: &dyn World, study: &Study, control: &Control<'_>) -> Result<Self, CoverageError> {
        let lattice = study.lattice()?;
        let samples = lattice.azimuths() as usize * (lattice.points() as usize + 1);
        let bytes = samples.saturating_mul(BYTES_PER_SAMPLE);
        if bytes > MAX_SURVEY_BYTES {
            let most = MAX_SURVEY_BYTES;
            return Err(CoverageError::SurveyTooLarge { bytes, most });
        }
        let meter = Meter::new(control, u64::from(lattice.azimuths()));
        let length_km = radial_length_km(lattice.radius_km());
        let read = |radial: u32, profile: &mut Profile| {
            control.check()?;
            let azimuth_deg = lattice.azimuth_deg(radial);
            world.radial_into(lattice.site(), azimuth_deg, length_km, lattice.step_m(), profile)?;
            if profile.usable_len() == 0 {
                return Err(CoverageError::MissingGround { from_km: 0.0 });
            }
            Ok(())
        };
        let mut first = Profile::default();
        read(0, &mut first)?;
        let radials = (0..lattice.azimuths())
            .into_par_iter()
            .map_init(Profile::default, |profile, radial| {
                read(radial, profile)?;
                meter.one_more();
                Ok(Kept::of(profile))
            })
            .collect::<Result<Vec<Kept>, CoverageError>>()?;
        control.check()?;
        let wet = wet(&lattice, &radials);
        let listeners = Arc::new(listeners::on_lattice(world, &lattice, |index| wet[index]));
        Ok(Self {
            study: *study,
            table: world.clutter_table().clone(),
            mode: world.clutter_mode(),
            distances_km: first.distances_km,
            lattice,
            radials,
            listeners,
        })
    }

    /// Whether it answers for a study: [`LossField::from_survey`](crate::LossField::from_survey) will not refuse it.
    pub fn fits(&self, study: &Study) -> bool {
        self.check(study).is_ok()
    }

    /// Where its receivers stand.
    pub fn lattice(&self) -> &Lattice {
        &self.lattice
    }

    /// Memory the samples and the people take, bytes.
    pub fn bytes(&self) -> usize {
        let samples: usize = self.radials.iter().map(|kept| kept.covers.len()).sum();
        samples * BYTES_PER_SAMPLE + self.distances_km.len() * 8 + self.listeners.len() * 8
    }

    pub(crate) fn check(&self, study: &Study) -> Result<(), CoverageError> {
        if let Some(what) = self.study.other_receivers(study) {
            return Err(CoverageError::OtherSurvey { what });
        }
        match study.walker {
            // It refuses some receivers, so that who lives where would have to be counted anew.
            Walker::Itm(_) => Err(CoverageError::OtherSurvey { what: "method" }),
            Walker::Plain | Walker::Engine => Ok(()),
        }
    }

    pub(crate) fn cover_rule(&self) -> (&ClutterTable, ClutterMode) {
        (&self.table, self.mode)
    }

    pub(crate) fn listeners(&self) -> Arc<Listeners> {
        Arc::clone(&self.listeners)
    }

    /// A radial as it was read, without positions.
    pub(crate) fn radial_into(&self, radial: u32, profile: &mut Profile) {
        let kept = &self.radials[radial as usize];
        let distances_km = &self.distances_km[..kept.covers.len()];
        profile.azimuth_deg = self.lattice.azimuth_deg(radial);
        profile.length_km = distances_km.last().copied().unwrap_or(0.0);
        profile.step_km = self.lattice.step_m() / 1000.0;
        profile.positions.clear();
        refill(&mut profile.distances_km, distances_km.iter().copied());
        refill(&mut profile.heights_m, kept.heights_m.iter().copied());
        refill(
            &mut profile.clutter_m,
            kept.clutter_m.iter().map(|&r| f64::from(r)),
        );
        refill(&mut profile.covers, kept.covers.iter().copied());
        refill(&mut profile.water, kept.flags.iter().map(|f| f & WATER != 0));
        refill(&mut profile.zones, kept.flags.iter().map(|&f| zone(f)));
        refill(&mut profile.quality, kept.flags.iter().map(|&f| quality(f)));
    }
}

impl Kept {
    fn of(profile: &Profile) -> Self {
        let flags = |k: usize| flags(profile.zones[k], profile.water[k], profile.quality[k]);
        Self {
            heights_m: profile.heights_m.as_slice().into(),
            clutter_m: profile.clutter_m.iter().map(|&r| r as f32).collect(),
            covers: profile.covers.as_slice().into(),
            flags: (0..profile.len()).map(flags).collect(),
        }
    }

    fn usable_len(&self) -> usize {
        let missing = |&f: &u8| quality(f) == Quality::Missing;
        self.flags.iter().position(missing).unwrap_or(self.flags.len())
    }
}

/// Which receivers stand on water, by receiver.
fn wet(lattice: &Lattice, radials: &[Kept]) -> Vec<bool> {
    let mut wet = Vec::with_capacity(lattice.len());
    for (radial, kept) in (0..lattice.azimuths()).zip(radials) {
        let usable = kept.usable_len();
        let on_water = |k: usize| k < usable && kept.flags[k] & WATER != 0;
        let receivers = lattice.first_point(radial) as usize..=lattice.points() as usize;
        wet.extend(receivers.map(on_water));
    }
    wet
}

fn refill<T>(list: &mut Vec<T>, values: impl Iterator<Item = T>) {
    list.clear();
    list.extend(values);
}

fn flags(zone: Zone, water: bool, quality: Quality) -> u8 {
    let zone = match zone {
        Zone::Sea => 0,
        Zone::CoastalLand => 1,
        Zone::Inland => 2,
    };
    let quality = match quality {
        Quality::Measured => 0,
        Quality::Void => 1,
        Quality::Missing => 2,
        Quality::SeaByChoice => 3,
    };
    zone | if water { WATER } else { 0 } | quality << QUALITY_SHIFT
}

fn zone(flags: u8) -> Zone {
    match flags & ZONE_BITS {
        0 => Zone::Sea,
        1 => Zone::CoastalLand,
        _ => Zone::Inland,
    }
}

fn quality(flags: u8) -> Quality {
    match flags >> QUALITY_SHIFT {
        0 => Quality::Measured,
        1 => Quality::Void,
        2 => Quality::Missing,
        _ => Quality::SeaByChoice,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn flags_come_back() {
        for z in [Zone::Sea, Zone::CoastalLand, Zone::Inland] {
            for q in [
                Quality::Measured,
                Quality::Void,
                Quality::Missing,
                Quality::SeaByChoice,
            ] {
                for water in [false, true] {
                    let f = flags(z, water, q);
                    assert_eq!((zone(f), f & WATER != 0, quality(f)), (z, water, q));
                }
            }
        }
    }
}
