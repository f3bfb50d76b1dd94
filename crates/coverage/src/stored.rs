//! A loss field as bytes and back.
//!
//! Little-endian throughout: a tag and format number, the study, the rows, shares, people, then the three arrays. Bytes of
//! another format or method are refused, never read as if they fitted.

use std::sync::Arc;

use propagation::p1812::{Conditions, Polarisation};
use terrain::{CoverCategory, Position};
use thiserror::Error;

use crate::cover_row::{CoverRow, CoverRows, MAX_ROWS, ReceivingRule};
use crate::lattice::Azimuths;
use crate::listeners::{Listeners, PeopleSource};
use crate::loss_field::{LossField, ROW_BITS, Shares};
use crate::study::{METHOD_REVISION, Study, Walker};

const TAG: &[u8; 8] = b"lossfld\n";
const FORMAT: u32 = 1;
/// Walkers from here on are the Irregular Terrain Model's climates.
const ITM_FROM: u8 = 16;

/// Why bytes are no loss field.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum StoredFieldError {
    /// Another file altogether.
    #[error("not a stored loss field")]
    OtherFile,
    /// Another format or revision of the method: compute again.
    #[error(
        "a loss field of format {format}, method {method}; this program has {FORMAT} and {METHOD_REVISION}: compute it again"
    )]
    OtherFormat {
        /// Format found.
        format: u32,
        /// Method revision found.
        method: u64,
    },
    /// The bytes end early, go on too long, or contradict themselves.
    #[error("damaged loss field: {what} at byte {at}")]
    Damaged {
        /// What does not fit.
        what: &'static str,
        /// Where.
        at: usize,
    },
}

impl LossField {
    /// The field as bytes: about five for each receiver.
    pub fn to_bytes(&self) -> Vec<u8> {
        let mut out = Vec::with_capacity(self.lattice.len() * 5 + self.listeners.len() * 8 + 1024);
        out.extend(TAG);
        out.extend(FORMAT.to_le_bytes());
        out.extend(METHOD_REVISION.to_le_bytes());
        put_study(&mut out, &self.study);
        put_rows(&mut out, &self.rows);
        let s = &self.shares;
        let l = &self.listeners;
        let numbers = [s.void, s.water, s.missing, s.sea_by_choice, l.inside, l.outside];
        numbers.iter().for_each(|v| out.extend(v.to_le_bytes()));
        out.push(match l.source {
            PeopleSource::Cells => 0,
            PeopleSource::Places => 1,
            PeopleSource::Nobody => 2,
        });
        out.extend((l.at.len() as u64).to_le_bytes());
        for &(index, count) in &l.at {
            out.extend(index.to_le_bytes());
            out.extend(count.to_le_bytes());
        }
        out.extend((self.lattice.len() as u64).to_le_bytes());
        self.loss_cdb.iter().for_each(|v| out.extend(v.to_le_bytes()));
        self.elev_cdeg.iter().for_each(|v| out.extend(v.to_le_bytes()));
        out.extend(self.cover.iter());
        out
    }

    /// The field that [`LossField::to_bytes`] wrote.
    ///
    /// # Errors
    /// [`StoredFieldError`]: another file, format or method, or damaged bytes.
    pub fn from_bytes(bytes: &[u8]) -> Result<Self, StoredFieldError> {
        let mut from = Reader { bytes, at: 0 };
        if from.take(8).ok() != Some(TAG.as_slice()) {
            return Err(StoredFieldError::OtherFile);
        }
        let (format, method) = (from.u32()?, from.u64()?);
        if (format, method) != (FORMAT, METHOD_REVISION) {
            return Err(StoredFieldError::OtherFormat { format, method });
        }
        let study = study(&mut from)?;
        let lattice = study.lattice().map_err(|_| from.damaged("study"))?;
        let rows = rows(&mut from)?;
        let shares = Shares {
            void: from.f64()?,
            water: from.f64()?,
            missing: from.f64()?,
            sea_by_choice: from.f64()?,
        };
        let listeners = listeners(&mut from, lattice.len())?;
        if from.u64()? != lattice.len() as u64 {
            return Err(from.damaged("number of receivers"));
        }
        let loss_cdb = from.pairs(lattice.len())?.map(u16::from_le_bytes).collect();
        let elev_cdeg = from.pairs(lattice.len())?.map(i16::from_le_bytes).collect();
        let cover = from.take(lattice.len())?.to_vec();
        if cover
            .iter()
            .any(|c| usize::from(c & ROW_BITS) >= rows.rows().len())
        {
            return Err(from.damaged("row of a receiver"));
        }
        if from.at != bytes.len() {
            return Err(from.damaged("bytes after the end"));
        }
        Ok(Self {
            study,
            lattice,
            rows,
            loss_cdb,
            elev_cdeg: Arc::new(elev_cdeg),
            cover: Arc::new(cover),
            listeners: Arc::new(listeners),
            shares,
        })
    }
}

fn put_study(out: &mut Vec<u8>, study: &Study) {
    let c = &study.conditions;
    let numbers = [
        study.site.lat_deg(),
        study.site.lon_deg(),
        study.tx_agl_m,
        c.freq_mhz,
        c.time_pct,
        c.location_pct,
        c.location_spread_db,
        c.dn_per_km,
        c.n0,
        study.radius_km,
        study.step_m,
        match study.receiving {
            ReceivingRule::ByCover => -1.0,
            ReceivingRule::TrueHeight(height_m) => height_m,
        },
    ];
    numbers.iter().for_each(|v| out.extend(v.to_le_bytes()));
    out.push(u8::from(c.polarisation == Polarisation::Vertical));
    out.push(match study.walker {
        Walker::Plain => 0,
        Walker::Engine => 1,
        Walker::Itm(climate) => climate.saturating_add(ITM_FROM),
    });
    let count = match study.azimuths {
        Azimuths::Rule => 0,
        Azimuths::Count(count) => count,
    };
    out.extend(count.to_le_bytes());
    out.extend(study.every_azimuth.to_le_bytes());
}

fn study(from: &mut Reader<'_>) -> Result<Study, StoredFieldError> {
    let mut n = [0.0; 12];
    for value in &mut n {
        *value = from.f64()?;
    }
    let [
        lat,
        lon,
        tx_agl_m,
        freq_mhz,
        time_pct,
        location_pct,
        location_spread_db,
        dn_per_km,
        n0,
        radius_km,
        step_m,
        rx,
    ] = n;
    let polarisation = if from.u8()? == 1 {
        Polarisation::Vertical
    } else {
        Polarisation::Horizontal
    };
    let walker = match from.u8()? {
        0 => Walker::Plain,
        1 => Walker::Engine,
        climate @ ITM_FROM.. => Walker::Itm(climate - ITM_FROM),
        _ => return Err(from.damaged("walker")),
    };
    let (count, every_azimuth) = (from.u32()?, from.u32()?);
    Ok(Study {
        site: Position::new(lat, lon).map_err(|_| from.damaged("position of the site"))?,
        tx_agl_m,
        conditions: Conditions {
            freq_mhz,
            polarisation,
            time_pct,
            location_pct,
            location_spread_db,
            dn_per_km,
            n0,
        },
        radius_km,
        step_m,
        azimuths: match count {
            0 => Azimuths::Rule,
            count => Azimuths::Count(count),
        },
        every_azimuth,
        receiving: if rx < 0.0 {
            ReceivingRule::ByCover
        } else {
            ReceivingRule::TrueHeight(rx)
        },
        walker,
    })
}

const CATEGORIES: [CoverCategory; 6] = [
    CoverCategory::Water,
    CoverCategory::Open,
    CoverCategory::Suburban,
    CoverCategory::Urban,
    CoverCategory::Trees,
    CoverCategory::DenseUrban,
];

fn put_rows(out: &mut Vec<u8>, rows: &CoverRows) {
    out.push(rows.rows().len() as u8);
    for row in rows.rows() {
        out.push(CATEGORIES.iter().position(|c| *c == row.category).unwrap_or(1) as u8);
        out.extend(row.clutter_top_m.to_le_bytes());
        out.extend(row.reference_m.to_le_bytes());
    }
    out.extend(rows.codes());
}

fn rows(from: &mut Reader<'_>) -> Result<CoverRows, StoredFieldError> {
    let count = usize::from(from.u8()?);
    if !(1..=MAX_ROWS).contains(&count) {
        return Err(from.damaged("number of rows"));
    }
    let mut rows = Vec::with_capacity(count);
    for _ in 0..count {
        let category = usize::from(from.u8()?);
        rows.push(CoverRow {
            category: *CATEGORIES.get(category).ok_or(from.damaged("category"))?,
            clutter_top_m: from.f64()?,
            reference_m: from.f64()?,
        });
    }
    let mut by_code = [0; 256];
    by_code.copy_from_slice(from.take(256)?);
    if by_code.iter().any(|&row| usize::from(row) >= count) {
        return Err(from.damaged("row of a code"));
    }
    Ok(CoverRows::from_parts(rows, by_code))
}

fn listeners(from: &mut Reader<'_>, receivers: usize) -> Result<Listeners, StoredFieldError> {
    let (inside, outside) = (from.f64()?, from.f64()?);
    let source = match from.u8()? {
        0 => PeopleSource::Cells,
        1 => PeopleSource::Places,
        2 => PeopleSource::Nobody,
        _ => return Err(from.damaged("source of people")),
    };
    let count = from.u64()? as usize;
    if count > receivers {
        return Err(from.damaged("number of receivers with people"));
    }
    let mut at: Vec<(u32, f32)> = Vec::with_capacity(count);
    for _ in 0..count {
        let (index, people) = (from.u32()?, f32::from_bits(from.u32()?));
        let rising = at.last().is_none_or(|last| last.0 < index);
        if index as usize >= receivers || !rising || !people.is_finite() || people < 0.0 {
            return Err(from.damaged("people"));
        }
        at.push((index, people));
    }
    Ok(Listeners {
        source,
        at,
        inside,
        outside,
    })
}

struct Reader<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl<'a> Reader<'a> {
    fn damaged(&self, what: &'static str) -> StoredFieldError {
        StoredFieldError::Damaged { what, at: self.at }
    }

    fn take(&mut self, len: usize) -> Result<&'a [u8], StoredFieldError> {
        let end = self.at.checked_add(len).filter(|&end| end <= self.bytes.len());
        let end = end.ok_or(self.damaged("ends early"))?;
        let here = &self.bytes[self.at..end];
        self.at = end;
        Ok(here)
    }

    fn array<const N: usize>(&mut self) -> Result<[u8; N], StoredFieldError> {
        let mut out = [0; N];
        out.copy_from_slice(self.take(N)?);
        Ok(out)
    }

    fn pairs(&mut self, count: usize) -> Result<impl Iterator<Item = [u8; 2]> + 'a, StoredFieldError> {
        let bytes = self.take(count.saturating_mul(2))?;
        Ok(bytes.as_chunks::<2>().0.iter().copied())
    }

    fn u8(&mut self) -> Result<u8, StoredFieldError> {
        Ok(self.array::<1>()?[0])
    }

    fn u32(&mut self) -> Result<u32, StoredFieldError> {
        Ok(u32::from_le_bytes(self.array()?))
    }

    fn u64(&mut self) -> Result<u64, StoredFieldError> {
        Ok(u64::from_le_bytes(self.array()?))
    }

    fn f64(&mut self) -> Result<f64, StoredFieldError> {
        Ok(f64::from_le_bytes(self.array()?))
    }
}
