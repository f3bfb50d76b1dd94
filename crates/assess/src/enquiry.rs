//! One enquiry: how far a power goes from a mast, before there is a brief.
//!
//! The band over the horizon, and what would change it most: every change is computed, and they stand in the order of what they do.

use coverage::{
    Control, CoverRows, CoverageError, ErpTable, LossField, Mode, ReceivingRule, Situation, Study, Threshold,
    Wanted, World,
};
use propagation::p1812::Polarisation;
use propagation::p2109::Building;
use quantity::{Digits, Length, Position};
use terrain::Surroundings;
use words::{Arg, Message};

/// Line and connectors between transmitter and bays of a small station, dB (common practice, no source).
pub const USUAL_LINE_DB: f64 = 1.0;
/// Gain of two vertical half-wave dipoles 0.9 wavelengths apart over one, dB (array formula, mutual impedance included).
const TWO_BAYS_DB: f64 = 3.2;
/// The middle of the band, MHz.
pub const MIDDLE_MHZ: f64 = 98.0;
/// Every n-th radial is walked: an enquiry needs a band, not a map.
const EVERY: u32 = 16;
/// Power is hardly ever known better than this on the telephone, dB (common practice, no source).
pub const POWER_DOUBT_DB: f64 = 3.0;
/// Heights of an antenna above ground that are no slip of the pen, m.
const MASTS_M: std::ops::RangeInclusive<f64> = 1.0..=1500.0;

/// What is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Enquiry {
    /// The power that is known.
    pub power: Known,
    /// Bays of the antenna, one or two.
    pub bays: u32,
    /// Height of the antenna above ground, m.
    pub mast_agl_m: f64,
    /// Carrier, MHz.
    pub freq_mhz: f64,
    /// Where the mast stands.
    pub site: terrain::Position,
}

/// The power that an enquiry names, W.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Known {
    /// At the transmitter: a usual line and the bays are laid over it.
    TransmitterW(f64),
    /// Radiated, over a half-wave dipole.
    ErpW(f64),
}

/// How far one service is heard over the horizon, km.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// `stereo`, `mono` or `car`.
    pub service: &'static str,
    /// One tenth of the horizon hears less far.
    pub low_km: f64,
    /// Half of the horizon.
    pub likely_km: f64,
    /// One tenth of the horizon hears further.
    pub high_km: f64,
    /// True when the furthest lies beyond what was computed.
    pub beyond: bool,
}

/// Something that would change the distance of stereo.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Matter {
    /// The direction one looks in.
    Direction,
    /// A mast twice as high.
    MastTwice,
    /// [`POWER_DOUBT_DB`] more or less power.
    Power,
    /// The other number of bays.
    OtherBays,
    /// One standard deviation of the prediction itself.
    Prediction,
}

/// One of them, with what it does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Change {
    /// What changes.
    pub matter: Matter,
    /// The change, dB, where it is one of level.
    pub db: Option<f64>,
    /// Shortest distance of stereo under it, over half of the horizon (of [`Matter::Direction`]: over one tenth), km.
    pub low_km: f64,
    /// Longest distance, km; a change one way only has the same twice.
    pub high_km: f64,
}

impl Change {
    /// The most by which it moves a distance, km.
    fn moves_km(&self, likely_km: f64) -> f64 {
        (self.low_km - likely_km)
            .abs()
            .max((self.high_km - likely_km).abs())
    }
}

/// The spread of the field for a listener, and what it is made of: the root of the sum of squares.
#[derive(Debug, Clone, PartialEq)]
pub struct SpreadAt {
    /// `open`, `houses` or `indoors`.
    pub listener: &'static str,
    /// The threshold with its spreads.
    pub threshold: Threshold,
    /// Error of the prediction, dB.
    pub model_db: f64,
}

/// Everything an enquiry is answered with.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// ERP that the distances are for, W.
    pub erp_w: f64,
    /// ERP with the other number of bays, W; none where the ERP itself was named.
    pub other_erp_w: Option<f64>,
    /// Stereo and mono on a roof aerial, mono in the car.
    pub bands: Vec<Band>,
    /// What changes stereo most, the greatest first.
    pub changes: Vec<Change>,
    /// Spreads in one place.
    pub spreads: Vec<SpreadAt>,
}

/// Why an enquiry has no answer.
#[derive(Debug)]
pub enum EnquiryError {
    /// No power above zero.
    Power,
    /// A height that no antenna has.
    Mast(Length),
    /// The ground has no elevation at the mast.
    NoGround(Position),
    /// The coverage refused.
    Coverage(CoverageError),
}

impl From<CoverageError> for EnquiryError {
    fn from(error: CoverageError) -> Self {
        EnquiryError::Coverage(error)
    }
}

impl From<&EnquiryError> for Message {
    fn from(error: &EnquiryError) -> Message {
        match error {
            EnquiryError::Power => Message::new("ask-no-power"),
            EnquiryError::Mast(given) => {
                let metres = |m: f64| Arg::quantity_in(Length::from_m(m), "m", Digits::Decimals(0));
                Message::new("ask-no-mast")
                    .quantity("given", *given)
                    .with("least", metres(*MASTS_M.start()))
                    .with("most", metres(*MASTS_M.end()))
            }
            EnquiryError::NoGround(at) => Message::new("ask-no-ground").text("at", at.to_string()),
            EnquiryError::Coverage(error) => error.into(),
        }
    }
}

words::said_in_english!(EnquiryError);
impl std::error::Error for EnquiryError {}

/// Gain of the bays over a half-wave dipole, dB.
pub fn gain_db(bays: u32) -> f64 {
    if bays > 1 { TWO_BAYS_DB } else { 0.0 }
}

/// ERP, W: as named, or what a usual line and the bays make of a transmitter's power.
pub fn erp_w(power: Known, bays: u32) -> f64 {
    match power {
        Known::ErpW(erp) => erp,
        Known::TransmitterW(power) => power * 10f64.powf((gain_db(bays) - USUAL_LINE_DB) / 10.0),
    }
}

/// The other number of bays than this, of one and two.
pub fn other_bays(bays: u32) -> u32 {
    if bays > 1 { 1 } else { 2 }
}

/// Answers an enquiry on a ground.
///
/// # Errors
/// [`EnquiryError`]: a power or a height that makes no sense, no ground at the mast, or what the coverage refuses.
pub fn enquire(world: &dyn World, enquiry: &Enquiry) -> Result<Answer, EnquiryError> {
    let erp = erp_w(enquiry.power, enquiry.bays);
    if !(erp > 0.0 && erp.is_finite()) {
        return Err(EnquiryError::Power);
    }
    if !MASTS_M.contains(&enquiry.mast_agl_m) {
        return Err(EnquiryError::Mast(Length::from_m(enquiry.mast_agl_m)));
    }
    let field = |agl_m: f64| {
        let study = Study::new(enquiry.site, agl_m, enquiry.freq_mhz, Polarisation::Vertical)
            .within_km(radius_km(erp, enquiry.mast_agl_m))
            .coarse(EVERY);
        LossField::compute(world, &study, &Control::quiet()).map_err(|error| {
            let at = Position::from_deg(enquiry.site.lat_deg(), enquiry.site.lon_deg());
            match (error, at) {
                (CoverageError::MissingGround { .. }, Ok(at)) => EnquiryError::NoGround(at),
                (error, _) => EnquiryError::Coverage(error),
            }
        })
    };
    let (now, up) = (field(enquiry.mast_agl_m)?, field(2.0 * enquiry.mast_agl_m)?);
    let heard = |service, mode, situation| band(&now, erp, service, mode, situation, 0.0);
    let bands = vec![
        heard("stereo", Mode::Stereo, Situation::Roof)?,
        heard("mono", Mode::Mono, Situation::Roof)?,
        heard("car", Mode::Mono, Situation::Car)?,
    ];
    let stereo_km = |field: &LossField, plus_db| {
        band(field, erp, "stereo", Mode::Stereo, Situation::Roof, plus_db).map(|b| b.likely_km)
    };
    let either_way = |matter, db: f64| -> Result<Change, EnquiryError> {
        Ok(Change {
            matter,
            db: Some(db),
            low_km: stereo_km(&now, -db)?,
            high_km: stereo_km(&now, db)?,
        })
    };
    let stereo = bands[0];
    let model_db = Wanted::bs412(Mode::Stereo, Situation::Roof).spread.model_error_db;
    let mut changes = vec![
        Change {
            matter: Matter::Direction,
            db: None,
            low_km: stereo.low_km,
            high_km: stereo.high_km,
        },
        either_way(Matter::Power, POWER_DOUBT_DB)?,
        either_way(Matter::Prediction, model_db)?,
        one_way(Matter::MastTwice, None, stereo_km(&up, 0.0)?),
    ];
    let other_erp_w = match enquiry.power {
        Known::TransmitterW(_) => Some(erp_w(enquiry.power, other_bays(enquiry.bays))),
        Known::ErpW(_) => None,
    };
    if let Some(other) = other_erp_w {
        let db = 10.0 * (other / erp).log10();
        changes.push(one_way(Matter::OtherBays, Some(db), stereo_km(&now, db)?));
    }
    changes.sort_by(|a, b| {
        b.moves_km(stereo.likely_km)
            .total_cmp(&a.moves_km(stereo.likely_km))
    });
    Ok(Answer {
        erp_w: erp,
        other_erp_w,
        bands,
        changes,
        spreads: spreads(world, enquiry.freq_mhz)?,
    })
}

fn one_way(matter: Matter, db: Option<f64>, then_km: f64) -> Change {
    Change {
        matter,
        db,
        low_km: then_km,
        high_km: then_km,
    }
}

/// Spreads at a roof aerial in the open, at one among houses, and indoors among houses.
fn spreads(world: &dyn World, freq_mhz: f64) -> Result<Vec<SpreadAt>, CoverageError> {
    let rule = ReceivingRule::ByCover;
    let rows = CoverRows::new(world.clutter_table(), rule, world.clutter_mode());
    let rows = rows.as_ref().map(CoverRows::rows).unwrap_or_default();
    let open = rows.iter().find(|r| !r.in_clutter());
    let houses = rows
        .iter()
        .find(|r| r.in_clutter() && r.surroundings() == Surroundings::Urban);
    let indoors = Situation::Indoors(Building::Traditional);
    let listeners = [
        ("open", Situation::Roof, open, Surroundings::Rural),
        ("houses", Situation::Roof, houses, Surroundings::Urban),
        ("indoors", indoors, houses, Surroundings::Urban),
    ];
    let mut all = Vec::new();
    for (listener, situation, row, around) in listeners {
        let Some(row) = row else { continue };
        let wanted = Wanted::bs412(Mode::Mono, situation);
        let threshold = wanted.threshold_in(row, around, rule, freq_mhz)?;
        all.push(SpreadAt {
            listener,
            threshold,
            model_db: wanted.spread.model_error_db,
        });
    }
    Ok(all)
}

/// As far as the field of mono could go over a smooth earth, with room, km.
fn radius_km(erp_w: f64, mast_m: f64) -> f64 {
    let horizon = 4.12 * ((2.0 * mast_m).sqrt() + 10f64.sqrt());
    (horizon + 12.0 * (erp_w / 10.0).max(1.0).log10()).clamp(15.0, 120.0)
}

fn band(
    field: &LossField,
    erp_w: f64,
    service: &'static str,
    mode: Mode,
    situation: Situation,
    plus_db: f64,
) -> Result<Band, CoverageError> {
    let table = ErpTable::omni(erp_w / 1000.0).plus_db(plus_db);
    let towards = field.distances(&table, &Wanted::bs412(mode, situation), true)?;
    let mut km: Vec<f64> = towards.iter().map(|d| d.served_km).collect();
    km.sort_by(f64::total_cmp);
    let at = |share: f64| {
        km.get(((km.len().max(1) - 1) as f64 * share).round() as usize)
            .copied()
            .unwrap_or(0.0)
    };
    Ok(Band {
        service,
        low_km: at(0.1),
        likely_km: at(0.5),
        high_km: at(0.9),
        beyond: towards.iter().any(|d| !d.ends_inside),
    })
}
