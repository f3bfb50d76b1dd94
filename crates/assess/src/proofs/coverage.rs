//! Who hears it: the wanted places one by one, people served, and what the field lacks.

use crate::case::{Case, Fields};
use crate::proofs::transmission::{self, EmissionPath, ground_amsl_m};
use antenna::direction::Direction;
use coverage::{
    AtPlace, CoverageError, ErpTable, LocationSpread, Mode, ReceiverPlane, ReceivingRule,
    Situation as Listening, Spread, Study, Wanted as WantedField, WantedFields, at_place,
};
use propagation::p1812::Polarisation as WavePolarisation;
use propagation::p2109::Building;
use station::brief::{FieldCondition, Service, Situation, Surroundings, Wanted};
use station::design::Emission;
use station::licence::Polarisation;
use station::place::Reception;

/// What the field is and who hears it.
#[derive(Debug, Clone)]
pub struct Outcome {
    /// One for each emission, in the order of the file.
    pub emissions: Vec<EmissionCoverage>,
    /// The brief's wishes, in the order of the file, each for the first emission.
    pub wanted: Vec<WantedCheck>,
}

/// One emission's coverage.
#[derive(Debug, Clone)]
pub struct EmissionCoverage {
    /// Tag of the emission.
    pub tag: String,
    /// The study.
    pub study: Option<Study>,
    /// Why there is no field.
    pub fault: Option<CoverageError>,
    /// Shares of samples that are void, water, missing, 0 to 1.
    pub shares: Option<coverage::Shares>,
    /// People in the study's circle.
    pub people_total: f64,
    /// People served by service and situation.
    pub served: Vec<ServedRow>,
}

/// People served in one service and situation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ServedRow {
    /// Mono or stereo.
    pub service: Service,
    /// How they listen.
    pub situation: Situation,
    /// Expected number of people served.
    pub people: f64,
    /// Land served, km².
    pub land_km2: f64,
}

/// One wish and its answer.
#[derive(Debug, Clone)]
pub struct WantedCheck {
    /// Its tag.
    pub tag: String,
    /// Service.
    pub service: Service,
    /// Situation.
    pub situation: Situation,
    /// Surroundings.
    pub surroundings: Surroundings,
    /// The field wanted, in the situation, dBµV/m.
    pub wanted_dbuv_m: Option<f64>,
    /// The answer at its place.
    pub place: Option<Result<AtPlace, CoverageError>>,
    /// The answer over its area.
    pub area: Option<AreaCheck>,
}

/// People of an area.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AreaCheck {
    /// Radius, km.
    pub radius_km: f64,
    /// People in it.
    pub people_total: f64,
    /// People served.
    pub people: f64,
    /// Share wanted, 0 to 1.
    pub wanted_ratio: Option<f64>,
}

impl WantedCheck {
    /// Room in hand at its place, dB.
    pub fn margin_db(&self) -> Option<f64> {
        self.place.as_ref()?.as_ref().ok().map(|p| p.margin_db)
    }
}

/// The study of an emission: from its antenna's place and height, the study's inputs, never its power.
pub fn study(case: &Case, emission: &Emission) -> Option<Study> {
    let frequency = emission.frequency.value()?;
    let antenna = case.station.antenna(emission.antenna.as_deref()?)?;
    let site = case.station.site(&antenna.site)?;
    let ground = ground_amsl_m(case, site)?;
    let centre = transmission::centre_agl_m(case, site, ground, *antenna.height.value()?)?;
    let at = terrain::Position::new(site.position.lat_deg(), site.position.lon_deg()).ok()?;
    let element = antenna
        .element
        .as_deref()
        .and_then(|id| case.shelf.get(id))
        .and_then(|s| s.bay.as_ref());
    let polarisation = match antenna.polarisation.or(element.map(|b| b.polarisation)) {
        Some(Polarisation::Horizontal) => WavePolarisation::Horizontal,
        _ => WavePolarisation::Vertical,
    };
    let inputs = &case.station.study;
    let mut study = Study::new(at, centre, frequency.mhz(), polarisation);
    study.radius_km = inputs.radius.value().map_or(study.radius_km, |r| r.km());
    study.step_m = inputs.step.value().map_or(study.step_m, |s| s.m());
    study.conditions.time_pct = inputs.time.value().map_or(50.0, |t| t.pct());
    study.conditions.dn_per_km = inputs
        .delta_n
        .value()
        .copied()
        .unwrap_or(study.conditions.dn_per_km);
    study.conditions.n0 = inputs.n0.value().copied().unwrap_or(study.conditions.n0);
    if inputs.reception == Some(Reception::TrueHeight) {
        study.receiving = ReceivingRule::TrueHeight(1.5);
    }
    Some(study)
}

/// The spread of prediction: location and model, two named inputs.
pub fn spread(case: &Case) -> Spread {
    let inputs = &case.station.study;
    let location = match inputs.location_spread.value() {
        Some(db) => LocationSpread::Fixed(db.db()),
        None => LocationSpread::Square(coverage::SQUARE_M),
    };
    Spread {
        location,
        model_error_db: inputs.model_error.value().map_or(6.0, |e| e.db()),
    }
}

fn listening(situation: Situation) -> Listening {
    match situation {
        Situation::Roof => Listening::Roof,
        Situation::Car => Listening::Car,
        Situation::Indoors => Listening::Indoors(Building::Traditional),
        Situation::IndoorsEfficient => Listening::Indoors(Building::ThermallyEfficient),
    }
}

fn mode(service: Service) -> Mode {
    match service {
        Service::Mono => Mode::Mono,
        Service::Stereo => Mode::Stereo,
    }
}

/// Surroundings as the coverage crate names them.
pub fn surroundings(surroundings: Surroundings) -> terrain::Surroundings {
    match surroundings {
        Surroundings::Rural => terrain::Surroundings::Rural,
        Surroundings::Urban => terrain::Surroundings::Urban,
        Surroundings::LargeCity => terrain::Surroundings::LargeCity,
    }
}

/// The wanted field of a service and situation, by BS.412-9 Table 1 with the situation's loss, or as the brief says.
pub fn wanted_field(case: &Case, service: Service, situation: Situation, own: Option<f64>) -> WantedField {
    let mut wanted = WantedField::bs412(mode(service), listening(situation));
    if let Some(field) = own {
        wanted.fields = WantedFields::everywhere(field);
    }
    wanted.spread = spread(case);
    wanted
}

/// Radiated power by direction, in the plane that a receiver of this polarisation hears.
pub fn erp_table(path: &EmissionPath) -> Option<ErpTable> {
    let radiating = path.radiating.as_ref().ok()?;
    let into_kw = path.power_w? * 10f64.powf(-path.loss_db() / 10.0) / 1000.0;
    let plane = match radiating.polarisation {
        Polarisation::Vertical => ReceiverPlane::Vertical,
        Polarisation::Horizontal => ReceiverPlane::Horizontal,
        Polarisation::Mixed => ReceiverPlane::Stronger,
    };
    Some(ErpTable::of_pattern(&radiating.pattern, into_kw, plane))
}

/// Services and situations that every coverage counts people for.
const COUNTED: [(Service, Situation); 5] = [
    (Service::Stereo, Situation::Roof),
    (Service::Mono, Situation::Roof),
    (Service::Stereo, Situation::Car),
    (Service::Mono, Situation::Car),
    (Service::Mono, Situation::Indoors),
];

/// Computes who hears it.
pub fn evaluate(case: &Case, fields: &Fields, transmission: &transmission::Outcome) -> Outcome {
    let emissions = case
        .station
        .emissions
        .iter()
        .zip(&transmission.emissions)
        .map(|(emission, path)| covered(case, fields, emission, path))
        .collect();
    let first = case.station.emissions.first().zip(transmission.emissions.first());
    let wanted = case
        .station
        .brief
        .wanted
        .iter()
        .map(|w| answer(case, fields, w, first))
        .collect();
    Outcome { emissions, wanted }
}

fn covered(case: &Case, fields: &Fields, emission: &Emission, path: &EmissionPath) -> EmissionCoverage {
    let mut out = EmissionCoverage {
        tag: emission.tag.clone(),
        study: study(case, emission),
        fault: None,
        shares: None,
        people_total: 0.0,
        served: Vec::new(),
    };
    match fields.by_emission.get(&emission.tag) {
        Some(Ok(field)) => {
            out.shares = Some(*field.shares());
            out.people_total = field.listeners().inside();
            let Some(table) = erp_table(path) else { return out };
            let wanted = COUNTED.map(|(service, situation)| wanted_field(case, service, situation, None));
            match field.served_each(&table, &wanted) {
                Ok(each) => {
                    out.served = COUNTED
                        .into_iter()
                        .zip(each)
                        .map(|((service, situation), served)| ServedRow {
                            service,
                            situation,
                            people: served.people,
                            land_km2: served.land_km2,
                        })
                        .collect();
                }
                Err(_) => one_by_one(&mut out, field, &table, &wanted),
            }
        }
        Some(Err(fault)) => out.fault = Some(fault.clone()),
        None => {}
    }
    out
}

/// The services one at a time, where one of them cannot be answered: the others still are.
fn one_by_one(
    out: &mut EmissionCoverage,
    field: &coverage::LossField,
    table: &ErpTable,
    wanted: &[WantedField],
) {
    for ((service, situation), wanted) in COUNTED.into_iter().zip(wanted) {
        match field.served(table, wanted) {
            Ok(served) => out.served.push(ServedRow {
                service,
                situation,
                people: served.people,
                land_km2: served.land_km2,
            }),
            Err(fault) => out.fault = Some(fault),
        }
    }
}

fn answer(
    case: &Case,
    fields: &Fields,
    wanted: &Wanted,
    first: Option<(&Emission, &EmissionPath)>,
) -> WantedCheck {
    let place = wanted.place.as_deref().and_then(|tag| case.station.place(tag));
    let around = wanted
        .surroundings
        .value()
        .copied()
        .or(place.and_then(|p| p.surroundings))
        .unwrap_or(Surroundings::Rural);
    let situation = wanted.situation.value().copied().unwrap_or(Situation::Roof);
    let field = wanted_field(case, wanted.service, situation, wanted.field.map(|f| f.dbuv_m()));
    let mut out = WantedCheck {
        tag: wanted.tag.clone(),
        service: wanted.service,
        situation,
        surroundings: around,
        wanted_dbuv_m: None,
        place: None,
        area: None,
    };
    let Some((emission, path)) = first else { return out };
    let (Some(study), Some(table)) = (study(case, emission), erp_table(path)) else {
        return out;
    };
    if let Some(place) = place {
        let to = terrain::Position::new(place.position.lat_deg(), place.position.lon_deg());
        out.place = to
            .ok()
            .map(|to| at_place(case.world, &study, to, &table, &field, Some(surroundings(around))));
        out.wanted_dbuv_m = out
            .place
            .as_ref()
            .and_then(|p| p.as_ref().ok())
            .map(|p| p.threshold.wanted_dbuv_m);
    }
    if let Some(Ok(loss)) = fields.by_emission.get(&emission.tag) {
        out.area = area(case, wanted, &table, loss);
    }
    out
}

/// People of a wish's area that a radiated power serves, over a loss field that holds the area; nothing for a wish about a
/// place alone.
pub fn area(case: &Case, wanted: &Wanted, table: &ErpTable, loss: &coverage::LossField) -> Option<AreaCheck> {
    let within = wanted.within?;
    let situation = wanted.situation.value().copied().unwrap_or(Situation::Roof);
    let field = wanted_field(case, wanted.service, situation, wanted.field.map(|f| f.dbuv_m()));
    let served = loss.served_within(table, &field, within.km()).ok()?;
    Some(AreaCheck {
        radius_km: within.km(),
        people_total: served.people_total,
        people: served.people,
        wanted_ratio: wanted.share.map(|s| s.pct() / 100.0),
    })
}

/// The fields where a licence's condition looks: azimuth in degrees, distance in km, median at 10 m in dBµV/m.
pub fn condition_points(
    case: &Case,
    path: &EmissionPath,
    condition: &FieldCondition,
) -> Option<Vec<(f64, f64, f64)>> {
    let emission = case.station.emission(&path.tag)?;
    let study = study(case, emission)?;
    let table = erp_table(path)?;
    let wanted = wanted_field(case, Service::Stereo, Situation::Roof, None);
    let field = |to: terrain::Position| {
        let at = at_place(
            case.world,
            &study,
            to,
            &table,
            &wanted,
            Some(terrain::Surroundings::Rural),
        )
        .ok()?;
        Some((at.azimuth_deg, at.distance_km, at.field_at_prediction_dbuv_m))
    };
    if let Some(place) = condition.place.as_deref().and_then(|tag| case.station.place(tag)) {
        let to = terrain::Position::new(place.position.lat_deg(), place.position.lon_deg()).ok()?;
        return Some(field(to).into_iter().collect());
    }
    let distance_m = condition.at?.m();
    let azimuths: Vec<f64> = match condition.azimuth {
        Some(azimuth) => vec![azimuth.deg()],
        None => (0..36).map(|i| f64::from(i) * 10.0).collect(),
    };
    let towards = |az: f64| terrain::geodesic::destination(study.site, az, distance_m);
    Some(azimuths.into_iter().filter_map(|az| field(towards(az))).collect())
}

/// Radiated power towards a direction, dB over 1 kW: for tests and drawings.
pub fn erp_dbkw(table: &ErpTable, towards: Direction) -> f64 {
    table.erp_dbkw(towards.bearing_deg, towards.elev_deg)
}
