//! What is wrong with an antenna, from readings: forward and reflected power at the transmitter, the field at points.
//!
//! The antenna is solved once as it was meant, as wires on its mast; every fault is an edit of that answer ([`antenna::fault`]). The
//! readings of a healthy station are those of the acceptance sheet: the same power, reflection and predicted fields. A field is read
//! against its prediction, whose spread then counts as an error of the reading; or against a reading of the same set at the same
//! point while the antenna was well, and then the path drops out.

mod points;
mod says;

pub use points::TestPoint;
pub use says::{NoDiagnosis, suspected};

use crate::case::Case;
use crate::proofs::coverage::{erp_table, study};
use crate::proofs::transmission::{self, EmissionPath, Radiating};
use crate::sweep::two_ports;
use antenna::chain::FoldBack;
use antenna::fault::{Aerial, AsBuilt, Fault, FieldPoint, Installation, Library, Log, Noise, Reading};
use antenna::line::Vswr;
use points::Ring;
use serde::Serialize;
use station::Station;
use station::readings::FieldTest;
use words::Message;

/// Two faults closer than this over all readings together, in units of their noise, are not parted: likelier by a factor of 1.6 at most.
const PART_AT: f64 = 1.0;
/// Error of power meters where nothing is said, dB. Common practice, no source: 10 %.
const METERS_DB: f64 = 0.5;
/// Error of a measuring set's calibration where nothing is said, dB. Common practice, no source.
const SET_DB: f64 = 2.0;
/// How far readings at one point differ where nothing is said, dB: the mean of three spots. Common practice, no source.
const REPEAT_DB: f64 = 1.5;
/// Directivity of the coupler behind the transmitter's meters, dB. Common practice, no source.
const DIRECTIVITY_DB: f64 = 30.0;
/// Field that reaches any place by scatter against the strongest direction, dB. Common practice, no source.
const SCATTER_DB: f64 = -30.0;
/// Points that a field test has at least. Common practice, no source.
const POINTS: usize = 8;
/// Causes below this probability are left out.
const SHOWN: f64 = 0.01;

/// The answer.
#[derive(Debug, Clone, Serialize)]
pub struct Diagnosis {
    /// Tag of the emission.
    pub emission: String,
    /// Tag of its antenna.
    pub antenna: String,
    /// Number of its bays.
    pub bays: usize,
    /// Forward power the transmitter is set to, W.
    pub forward_w: f64,
    /// Reflected power of a healthy station at that, W.
    pub reflected_w: f64,
    /// What the power meters said, W: forward and reflected.
    pub read_w: (Option<f64>, Option<f64>),
    /// Points of the test: those read, the station's places, a ring round the mast.
    pub points: Vec<TestPoint>,
    /// Points to measure, by index, the one that tells most first; those read are left out.
    pub measure: Vec<usize>,
    /// What was read at points.
    pub fields: Vec<FieldRead>,
    /// Causes, most probable first; none without readings.
    pub causes: Vec<Cause>,
    /// Where to measure next, and what is expected there.
    pub next: Option<Next>,
    /// What a reader must know beside the answer.
    #[serde(skip)]
    pub notes: Vec<Message>,
}

/// One field reading.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FieldRead {
    /// Index of its point.
    pub point: usize,
    /// The field read, dBµV/m.
    pub field_dbuv_m: f64,
    /// The field of a healthy station there: as read before, else as predicted, dBµV/m.
    pub healthy_dbuv_m: f64,
    /// It was read before.
    pub before: bool,
    /// The field read, over that of a healthy station, dB.
    pub off_db: f64,
}

/// Faults that these readings cannot part, weighed together.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Cause {
    /// Probability after the readings, 0–1.
    pub probability: f64,
    /// Each of them, most probable first.
    pub suspects: Vec<Suspect>,
}

/// One kind of fault at its most probable severity. Bays count from the bottom here, from 0.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Suspect {
    /// The fault.
    pub fault: Fault,
    /// Probability of the kind in any severity, 0–1.
    pub probability: f64,
    /// Field at each point of the test if it is so, dBµV/m.
    #[serde(skip)]
    pub fields_dbuv_m: Vec<f64>,
}

/// Where to measure next.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Next {
    /// Index of the point.
    pub point: usize,
    /// For each cause, the field expected there, dBµV/m.
    pub expected_dbuv_m: Vec<f64>,
}

impl Diagnosis {
    /// The readings speak for an antenna that is well.
    pub fn is_well(&self) -> bool {
        let healthy = |s: &Suspect| s.fault == Fault::Healthy;
        self.causes.first().is_none_or(|c| c.suspects.iter().any(healthy))
    }
}

/// Weighs readings of an emission, or says which to take.
///
/// # Errors
/// [`NoDiagnosis`]: an emission, antenna or line that cannot be computed, a place nobody knows, a point without a prediction.
pub fn diagnose(case: &Case, tag: &str, test: Option<&FieldTest>) -> Result<Diagnosis, NoDiagnosis> {
    let meant = as_meant(case.station);
    let healthy = Case {
        station: &meant,
        ..*case
    };
    let emission = healthy
        .station
        .emission(tag)
        .ok_or_else(|| NoDiagnosis::NoEmission {
            known: healthy.station.emissions.iter().map(|e| e.tag.clone()).collect(),
        })?;
    let outcome = transmission::evaluate(&healthy);
    let path = outcome
        .emissions
        .into_iter()
        .find(|p| p.tag == tag)
        .ok_or(NoDiagnosis::NothingRadiates)?;
    let radiating = path.radiating.clone().map_err(NoDiagnosis::Antenna)?;
    let design_w = path
        .power_w
        .filter(|w| *w > 0.0)
        .ok_or(NoDiagnosis::NothingRadiates)?;
    let forward_w = test.and_then(|t| t.meters.set).map_or(design_w, |set| set.w());
    let installation = installation(&healthy, &path, &radiating, forward_w)?;
    let ring = Ring {
        case: &healthy,
        study: study(&healthy, emission).ok_or(NoDiagnosis::NothingRadiates)?,
        table: erp_table(&path).ok_or(NoDiagnosis::NothingRadiates)?,
        radiating: &radiating,
        level_db: 10.0 * (forward_w / design_w).log10(),
    };
    let (points, read) = ring.points(test)?;
    let field_points: Vec<FieldPoint> = points.iter().map(TestPoint::field_point).collect();
    let library =
        Library::new(&installation, &field_points, &AsBuilt::USUAL).map_err(NoDiagnosis::Installation)?;
    let errors = Errors::of(test);
    let weighing = Weighing {
        library: &library,
        points: &points,
        noise: errors.noise(&points),
        errors,
    };
    let fields: Vec<FieldRead> = test.map_or_else(Vec::new, |t| weighing.fields(t, &read));
    let log = weighing.log(test, &fields);
    let causes = match test {
        Some(_) => weighing.causes(&log),
        None => Vec::new(),
    };
    let measure = weighing.measure(&log, forward_w, &path);
    let next = test.and(measure.first()).map(|&point| Next {
        point,
        expected_dbuv_m: causes
            .iter()
            .map(|c| c.suspects[0].fields_dbuv_m[point])
            .collect(),
    });
    Ok(Diagnosis {
        emission: tag.to_owned(),
        antenna: radiating.tag.clone(),
        bays: radiating.bays as usize,
        forward_w,
        reflected_w: forward_w * reflected_ratio(&path),
        read_w: test.map_or((None, None), |t| {
            (t.meters.forward.map(|p| p.w()), t.meters.reflected.map(|p| p.w()))
        }),
        notes: says::notes(
            case.station,
            &radiating.tag,
            test,
            &fields,
            &errors,
            design_w,
            forward_w,
        ),
        points,
        measure,
        fields,
        causes,
        next,
    })
}

/// The station as it was meant: what is known to hang upside down is among the faults to be found, not among what is drawn.
fn as_meant(station: &Station) -> Station {
    let mut meant = station.clone();
    for antenna in &mut meant.antennas {
        antenna.inverted_bays.clear();
    }
    meant
}

/// Share of the forward power that comes back to the transmitter of a healthy station: that of the acceptance sheet.
fn reflected_ratio(path: &EmissionPath) -> f64 {
    let at_transmitter = path.vswr.and_then(|(_, at)| Vswr::new(at).ok());
    at_transmitter.map_or(0.0, Vswr::reflected_ratio)
}

fn installation(
    case: &Case,
    path: &EmissionPath,
    radiating: &Radiating,
    forward_w: f64,
) -> Result<Installation, NoDiagnosis> {
    let emission = case
        .station
        .emission(&path.tag)
        .ok_or(NoDiagnosis::NothingRadiates)?;
    let (line, _, fold_back_vswr) = two_ports(case, emission).map_err(NoDiagnosis::Line)?;
    let plan = (*radiating.mount).clone();
    let at_mhz = path.frequency_mhz.unwrap_or(plan.frequency_mhz);
    let tuned = plan.solved().map_err(|e| NoDiagnosis::Installation(e.into()))?;
    // Bays keep the matching of the frequency they were cut for.
    let mounted = if at_mhz == plan.frequency_mhz {
        tuned
    } else {
        plan.solved_with(at_mhz, tuned.matching())
            .map_err(|e| NoDiagnosis::Installation(e.into()))?
    };
    Ok(Installation {
        aerial: Aerial::solved(plan, mounted),
        feed: (*radiating.feed).clone(),
        line,
        wet: None,
        forward_w,
        fold_back: fold_back_vswr
            .and_then(|limit| Vswr::new(limit).ok())
            .map(|limit| FoldBack { limit }),
        coupler_directivity_db: DIRECTIVITY_DB,
        scatter_db: SCATTER_DB,
    })
}

/// Errors of the instruments, dB: standard deviations.
#[derive(Debug, Clone, Copy)]
struct Errors {
    meters_db: f64,
    set_db: f64,
    repeat_db: f64,
}

impl Errors {
    fn of(test: Option<&FieldTest>) -> Self {
        let set = test.map(|t| &t.measuring_set);
        Self {
            meters_db: test.and_then(|t| t.meters.accuracy).map_or(METERS_DB, |e| e.db()),
            set_db: set.and_then(|s| s.accuracy).map_or(SET_DB, |e| e.db()),
            repeat_db: set.and_then(|s| s.repeat).map_or(REPEAT_DB, |e| e.db()),
        }
    }

    /// Of readings still to be taken, against predictions.
    fn noise(&self, points: &[TestPoint]) -> Noise {
        Noise {
            meters_db: self.meters_db,
            points_db: points.iter().map(|p| self.repeat_db.hypot(p.spread_db)).collect(),
            common_db: self.set_db,
        }
    }
}

struct Weighing<'a> {
    library: &'a Library,
    points: &'a [TestPoint],
    noise: Noise,
    errors: Errors,
}

impl Weighing<'_> {
    /// Field at a point if an entry of the library is the truth, dBµV/m.
    fn field_if(&self, entry: usize, point: usize) -> f64 {
        self.points[point].field_dbuv_m + self.library.row(entry)[point + 2] - self.library.row(0)[point + 2]
    }

    fn fields(&self, test: &FieldTest, read: &[usize]) -> Vec<FieldRead> {
        let of = |(reading, &point): (&station::readings::PointReading, &usize)| {
            let field_dbuv_m = reading.field.dbuv_m();
            let before = reading.before.map(|b| b.dbuv_m());
            let healthy_dbuv_m = before.unwrap_or(self.points[point].field_dbuv_m);
            FieldRead {
                point,
                field_dbuv_m,
                healthy_dbuv_m,
                before: before.is_some(),
                off_db: field_dbuv_m - healthy_dbuv_m,
            }
        };
        test.points.iter().zip(read).map(of).collect()
    }

    fn log(&self, test: Option<&FieldTest>, fields: &[FieldRead]) -> Log {
        let errors = &self.errors;
        let meter = |power: quantity::Power| Reading::alone(10.0 * power.w().log10(), errors.meters_db);
        let field = |f: &FieldRead| {
            let dbw = self.library.row(0)[f.point + 2] + f.off_db;
            let reading = if f.before {
                Reading::alone(dbw, std::f64::consts::SQRT_2 * errors.repeat_db)
            } else {
                Reading {
                    dbw,
                    sigma_db: errors.repeat_db.hypot(self.points[f.point].spread_db),
                    common_db: errors.set_db,
                }
            };
            (f.point, reading)
        };
        Log {
            forward: test.and_then(|t| t.meters.forward).map(meter),
            reflected: test.and_then(|t| t.meters.reflected).map(meter),
            fields: fields.iter().map(field).collect(),
        }
    }

    /// Kinds of fault by probability, those that these readings cannot part put together.
    fn causes(&self, log: &Log) -> Vec<Cause> {
        let posterior = self.library.posterior(log);
        let mut left: Vec<(f64, usize)> = self.library.kinds(&posterior);
        left.retain(|k| k.0 >= SHOWN);
        let mut out = Vec::new();
        while let Some(&(_, first)) = left.first() {
            let (together, apart): (Vec<_>, Vec<_>) = left
                .into_iter()
                .partition(|&(_, i)| i == first || self.library.unparted(i, first, log, PART_AT));
            left = apart;
            let suspect = |&(probability, i): &(f64, usize)| Suspect {
                fault: self.library.faults()[i],
                probability,
                fields_dbuv_m: (0..self.points.len()).map(|p| self.field_if(i, p)).collect(),
            };
            out.push(Cause {
                probability: together.iter().map(|k| k.0).sum(),
                suspects: together.iter().map(suspect).collect(),
            });
        }
        out.sort_by(|a, b| b.probability.total_cmp(&a.probability));
        out
    }

    /// Points not read yet, the one that tells most first, each chosen as if those before it had shown what is most probable now.
    fn measure(&self, log: &Log, forward_w: f64, path: &EmissionPath) -> Vec<usize> {
        let mut log = log.clone();
        let dbw = |watts: f64| Reading::alone(10.0 * watts.max(1e-6).log10(), self.errors.meters_db);
        let floor_w = forward_w * 10f64.powf(-DIRECTIVITY_DB / 10.0);
        log.forward.get_or_insert(dbw(forward_w));
        log.reflected
            .get_or_insert(dbw((forward_w * reflected_ratio(path)).max(floor_w)));
        let posterior = self.library.posterior(&log);
        let top = (0..posterior.len())
            .max_by(|a, b| posterior[*a].total_cmp(&posterior[*b]))
            .unwrap_or(0);
        let mut out = Vec::new();
        while out.len() < POINTS
            && let Some(p) = self.library.next_point(&log, &self.noise)
        {
            let reading = Reading {
                dbw: self.library.row(top)[p + 2],
                sigma_db: self.noise.points_db[p],
                common_db: self.noise.common_db,
            };
            log.fields.push((p, reading));
            out.push(p);
        }
        out
    }
}
