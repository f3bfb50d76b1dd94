//! A P.1812 path file: inputs, profile, answer.

use super::answer::{Answer, Figure, Refusal, check_erp, polarisation};
use propagation::p1812::{
    Antennas, Basis, Bearing, Conditions, Constants, Link, Place, Prediction, Profile, ToCoast, Zone, predict,
};
use serde::Deserialize;
use serde_json::{Map, Value, json};
use words::Message;

#[derive(Deserialize)]
struct Case {
    id: Option<String>,
    inputs: Inputs,
    profile: Lists,
}

#[derive(Deserialize)]
struct Inputs {
    f_ghz: f64,
    p_time_pct: f64,
    p_loc_pct: f64,
    sigma_loc_db: f64,
    pol: String,
    htg_m: f64,
    hrg_m: f64,
    tx_lat_deg: f64,
    tx_lon_deg: f64,
    rx_lat_deg: f64,
    rx_lon_deg: f64,
    dn_per_km: f64,
    n0: f64,
    /// Measured along the profile when absent.
    dct_km: Option<f64>,
    dcr_km: Option<f64>,
    erp_kw: f64,
}

#[derive(Deserialize)]
struct Lists {
    d_km: Vec<f64>,
    h_m: Vec<f64>,
    clutter_m: Vec<f64>,
    zone: Vec<i64>,
}

/// Reads the file and predicts.
pub fn answer(text: &str) -> Result<Answer, Refusal> {
    let Case { id, inputs, profile } = serde_json::from_str(text).map_err(Refusal::json)?;
    check_erp(inputs.erp_kw)?;
    let profile = read_profile(profile)?;
    let link = read_link(&inputs)?;
    let refused = |fault: propagation::p1812::InputError| Refusal::because(&fault);
    let prediction = predict(&profile, &link).map_err(refused)?;
    let constants = Constants::new(&link.conditions).map_err(refused)?;
    let figure = |name, words, value, unit| Figure {
        name,
        words,
        value,
        unit,
    };
    Ok(Answer {
        model: "p1812",
        id,
        figures: vec![
            figure("lb_db", "path-loss", prediction.loss_db, "dB"),
            figure(
                "e_1kw_dbuvm",
                "path-field-1kw",
                prediction.field_1kw_dbuv_m,
                "dB(µV/m)",
            ),
            figure(
                "e_dbuvm",
                "path-field",
                prediction.field_dbuv_m(inputs.erp_kw),
                "dB(µV/m)",
            ),
        ],
        members: vec![
            ("erp_kw", json!(inputs.erp_kw)),
            ("basis", basis(prediction.basis)),
        ],
        warnings: warnings(prediction.basis),
        intermediates: intermediates(&prediction, &constants),
    })
}

fn read_profile(lists: Lists) -> Result<Profile, Refusal> {
    let mut zones = Vec::with_capacity(lists.zone.len());
    for (index, code) in lists.zone.iter().enumerate() {
        let zone = u8::try_from(*code).ok().and_then(Zone::from_code);
        zones.push(zone.ok_or_else(|| {
            Refusal::because(
                Message::new("path-zone")
                    .count("point", index as i64)
                    .count("zone", *code),
            )
        })?);
    }
    Profile::new(lists.d_km, lists.h_m, lists.clutter_m, zones).map_err(|fault| Refusal::because(&fault))
}

fn read_link(inputs: &Inputs) -> Result<Link, Refusal> {
    let polarisation = polarisation(&inputs.pol)
        .ok_or_else(|| Refusal::because(Message::new("path-polarisation").text("pol", &inputs.pol)))?;
    let coast = match (inputs.dct_km, inputs.dcr_km) {
        (Some(tx_km), Some(rx_km)) if tx_km >= 0.0 && rx_km >= 0.0 => Some(ToCoast { tx_km, rx_km }),
        (None, None) => None,
        _ => {
            return Err(Refusal::because(Message::new("path-coast")));
        }
    };
    Ok(Link {
        conditions: Conditions {
            freq_mhz: inputs.f_ghz * 1000.0,
            polarisation,
            time_pct: inputs.p_time_pct,
            location_pct: inputs.p_loc_pct,
            location_spread_db: inputs.sigma_loc_db,
            dn_per_km: inputs.dn_per_km,
            n0: inputs.n0,
        },
        antennas: Antennas {
            tx_agl_m: inputs.htg_m,
            rx_agl_m: inputs.hrg_m,
        },
        bearing: Bearing::between(
            place("tx", inputs.tx_lat_deg, inputs.tx_lon_deg)?,
            place("rx", inputs.rx_lat_deg, inputs.rx_lon_deg)?,
        ),
        coast,
    })
}

fn place(end: &str, lat_deg: f64, lon_deg: f64) -> Result<Place, Refusal> {
    if (-90.0..=90.0).contains(&lat_deg) && (-360.0..=360.0).contains(&lon_deg) {
        return Ok(Place { lat_deg, lon_deg });
    }
    let reason = Message::new("path-place")
        .text("end", end)
        .given("lat", lat_deg)
        .given("lon", lon_deg);
    Err(Refusal::because(reason))
}

fn basis(basis: Basis) -> Value {
    match basis {
        Basis::AsGiven => json!("as given"),
        Basis::Resampled { points } => json!({ "resampled_points": points }),
        Basis::FreeSpace => json!("free space"),
    }
}

fn warnings(basis: Basis) -> Vec<Message> {
    match basis {
        Basis::AsGiven => vec![],
        Basis::Resampled { .. } => {
            vec![Message::new("path-resampled")]
        }
        Basis::FreeSpace => {
            vec![Message::new("path-short")]
        }
    }
}

/// What the terminal user may want to follow, by the Recommendation's names.
fn intermediates(prediction: &Prediction, constants: &Constants) -> Map<String, Value> {
    let Some(steps) = &prediction.steps else {
        return Map::new();
    };
    let (s, c) = (&steps.survey, &steps.closed);
    let pairs = [
        ("d_km", json!(s.path_km)),
        ("omega", json!(s.zones.sea_ratio)),
        ("dtm_km", json!(s.zones.land_km)),
        ("dlm_km", json!(s.zones.inland_km)),
        ("phi_path_deg", json!(c.centre_lat_deg)),
        ("ae_km", json!(constants.ae_km)),
        ("hts_m", json!(s.hts_m)),
        ("hrs_m", json!(s.hrs_m)),
        (
            "path",
            json!(if s.horizon.line_of_sight {
                "los"
            } else {
                "trans-horizon"
            }),
        ),
        ("theta_t_mrad", json!(s.horizon.theta_t_mrad)),
        ("theta_r_mrad", json!(s.horizon.theta_r_mrad)),
        ("theta_mrad", json!(s.theta_mrad)),
        ("hstd_m", json!(s.diffraction_surface.tx_m)),
        ("hsrd_m", json!(s.diffraction_surface.rx_m)),
        ("hm_m", json!(s.roughness_m)),
        ("beta0_pct", json!(c.incidence.beta0_pct)),
    ];
    pairs
        .into_iter()
        .map(|(name, value)| (name.to_owned(), value))
        .collect()
}
