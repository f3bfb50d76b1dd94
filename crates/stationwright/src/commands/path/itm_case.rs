//! An Irregular Terrain Model path file: inputs, profile, answer.

use super::answer::{Answer, Figure, Refusal, check_erp, polarisation};
use propagation::itm::attenuation::Curve;
use propagation::itm::geometry::Basis;
use propagation::itm::{
    self, Antennas, Conditions, Ground, Mode, Prediction, Profile, Refused, Steps, Warning, predict,
};
use serde::Deserialize;
use serde_json::{Map, Value, json};
use std::path::Path;
use words::Message;

#[derive(Deserialize)]
struct Case {
    id: Option<String>,
    inputs: Inputs,
    #[serde(default)]
    profile: Terrain,
    profile_file: Option<String>,
}

#[derive(Deserialize)]
struct Inputs {
    h_tx_m: f64,
    h_rx_m: f64,
    climate: f64,
    n0: f64,
    f_mhz: f64,
    pol: String,
    epsilon_r: f64,
    sigma_s_per_m: f64,
    mdvar: f64,
    time_pct: f64,
    location_pct: f64,
    situation_pct: f64,
    /// A field strength is given too when there is one.
    erp_kw: Option<f64>,
}

#[derive(Deserialize, Default)]
struct Terrain {
    spacing_m: Option<f64>,
    h_m: Option<Vec<f64>>,
    profile_file: Option<String>,
}

/// Reads the file and predicts. `folder` is where a `profile_file` is looked for, there or in its `profiles`.
pub fn answer(text: &str, folder: &Path) -> Result<Answer, Refusal> {
    let Case {
        id,
        inputs,
        profile,
        profile_file,
    } = serde_json::from_str(text).map_err(Refusal::json)?;
    let (spacing_m, height_m) = read_terrain(profile, profile_file, folder)?;
    let profile = Profile::new(spacing_m, &height_m).map_err(|f| Refusal::because(&f))?;
    if let Some(erp_kw) = inputs.erp_kw {
        check_erp(erp_kw)?;
    }
    let antennas = Antennas {
        tx_agl_m: inputs.h_tx_m,
        rx_agl_m: inputs.h_rx_m,
    };
    let polarisation = polarisation(&inputs.pol).ok_or_else(|| Refusal {
        reason: Message::new("path-polarisation").text("pol", &inputs.pol),
        code: Some((itm::Refusal::Polarisation.code(), 0)),
    })?;
    let conditions = Conditions {
        climate: code(inputs.climate),
        n0: inputs.n0,
        freq_mhz: inputs.f_mhz,
        polarisation,
        ground: Ground {
            permittivity: inputs.epsilon_r,
            conductivity_s_per_m: inputs.sigma_s_per_m,
        },
        variability: code(inputs.mdvar),
        time_pct: inputs.time_pct,
        location_pct: inputs.location_pct,
        situation_pct: inputs.situation_pct,
    };
    let prediction =
        predict(&profile, &antennas, &conditions).map_err(|refused| refusal(refused, &inputs))?;
    Ok(told(id, &inputs, &prediction))
}

/// A whole code, or one that the method refuses.
fn code(value: f64) -> u8 {
    if value.fract() == 0.0 && (0.0..255.0).contains(&value) {
        value as u8
    } else {
        u8::MAX
    }
}

fn read_terrain(profile: Terrain, beside: Option<String>, folder: &Path) -> Result<(f64, Vec<f64>), Refusal> {
    let mut spacing_m = profile.spacing_m;
    let mut height_m = profile.h_m;
    if let (None, Some(name)) = (&height_m, profile.profile_file.or(beside)) {
        let terrain = read_profile_file(&name, folder)?;
        spacing_m = spacing_m.or(terrain.spacing_m);
        height_m = terrain.h_m;
    }
    let missing = |what: &str| Refusal::because(Message::new("path-no-key").text("key", what));
    Ok((
        spacing_m.ok_or_else(|| missing("spacing_m"))?,
        height_m.ok_or_else(|| missing("h_m"))?,
    ))
}

fn read_profile_file(name: &str, folder: &Path) -> Result<Terrain, Refusal> {
    let places = [folder.join(name), folder.join("profiles").join(name)];
    let candidates = places
        .iter()
        .flat_map(|p| [p.clone(), p.with_added_extension("json")]);
    let Some(file) = candidates.into_iter().find(|p| p.is_file()) else {
        let looked = words::Arg::Choices(places.map(|p| p.display().to_string()).to_vec());
        return Err(Refusal::because(
            Message::new("path-no-profile")
                .text("name", name)
                .with("looked", looked),
        ));
    };
    let text = std::fs::read_to_string(&file).map_err(|fault| {
        Refusal::because(
            Message::new("open-failed")
                .text("path", file.display().to_string())
                .message("why", Message::foreign(fault)),
        )
    })?;
    serde_json::from_str(&text).map_err(Refusal::json)
}

fn refusal(refused: Refused, inputs: &Inputs) -> Refusal {
    use itm::Refusal as R;
    let number = |key, value| Message::new("path-is").text("key", key).given("value", value);
    let given = match refused.refusal {
        R::TxHeight => number("h_tx_m", inputs.h_tx_m),
        R::RxHeight => number("h_rx_m", inputs.h_rx_m),
        R::Climate => number("climate", inputs.climate),
        R::Time => number("time_pct", inputs.time_pct),
        R::Location => number("location_pct", inputs.location_pct),
        R::Situation => number("situation_pct", inputs.situation_pct),
        R::Refractivity => number("n0", inputs.n0),
        R::Frequency => number("f_mhz", inputs.f_mhz),
        R::Polarisation => Message::new("path-is")
            .text("key", "pol")
            .text("value", &inputs.pol),
        R::Permittivity => number("epsilon_r", inputs.epsilon_r),
        R::Conductivity => number("sigma_s_per_m", inputs.sigma_s_per_m),
        R::GroundImpedance => Message::new("path-ground")
            .given("permittivity", inputs.epsilon_r)
            .given("conductivity", inputs.sigma_s_per_m),
        R::Variability => number("mdvar", inputs.mdvar),
        R::EarthRadius | R::SurfaceRefractivityLow | R::SurfaceRefractivityHigh => {
            Message::new("path-over-profile").given("n0", inputs.n0)
        }
    };
    let reason = Message::new("path-itm-refused")
        .message("given", given)
        .message("why", &refused)
        .text("code", refused.refusal.code().to_string());
    Refusal {
        reason,
        code: Some((refused.refusal.code(), refused.warnings.bits())),
    }
}

fn told(id: Option<String>, inputs: &Inputs, prediction: &Prediction) -> Answer {
    let figure = |name, words, value, unit| Figure {
        name,
        words,
        value,
        unit,
    };
    let mut figures = vec![
        figure("a_db", "path-loss", prediction.loss_db, "dB"),
        figure("a_fs_db", "path-free-space", prediction.steps.free_space_db, "dB"),
    ];
    if let Some(erp_kw) = inputs.erp_kw {
        let field = prediction.field_dbuv_m(inputs.f_mhz, erp_kw);
        figures.push(figure("e_dbuvm", "path-field", field, "dB(µV/m)"));
    }
    Answer {
        model: "itm",
        id,
        figures,
        members: vec![
            ("code", json!(u8::from(!prediction.warnings.is_empty()))),
            ("warnings", json!(prediction.warnings.bits())),
            ("mode", json!(mode(prediction.mode))),
        ],
        warnings: prediction.warnings.iter().map(sentence).collect(),
        intermediates: intermediates(&prediction.steps),
    }
}

fn mode(mode: Mode) -> &'static str {
    match mode {
        Mode::LineOfSight => "line-of-sight",
        Mode::Diffraction => "diffraction",
        Mode::Troposcatter => "troposcatter",
    }
}

fn sentence(warning: Warning) -> Message {
    let what = match warning {
        Warning::TxHeight => "tx-height",
        Warning::RxHeight => "rx-height",
        Warning::Frequency => "frequency",
        Warning::PathOver1000Km => "over-1000-km",
        Warning::PathOver2000Km => "over-2000-km",
        Warning::PathSteep => "steep",
        Warning::PathUnder1Km => "under-1-km",
        Warning::TxHorizonAngle => "tx-horizon-angle",
        Warning::RxHorizonAngle => "rx-horizon-angle",
        Warning::TxHorizonNear => "tx-horizon-near",
        Warning::RxHorizonNear => "rx-horizon-near",
        Warning::TxHorizonFar => "tx-horizon-far",
        Warning::RxHorizonFar => "rx-horizon-far",
        Warning::ExtremePercentage => "percentage",
        Warning::Refractivity => "refractivity",
    };
    Message::new("path-itm-warning").tag("what", what)
}

/// Intermediates by the method's names.
fn intermediates(steps: &Steps) -> Map<String, Value> {
    let Steps {
        preparation: p,
        geometry: g,
        reference: r,
        variability: v,
        ..
    } = steps;
    let line = &r.diffraction;
    let mut pairs = vec![
        ("h_sys_m", json!(p.h_sys_m)),
        ("N_s", json!(p.n_s)),
        ("gamma_e", json!(p.gamma_e_per_m)),
        ("a_e_m", json!(p.a_e_m)),
        ("Zg_re", json!(p.impedance[0])),
        ("Zg_im", json!(p.impedance[1])),
        ("horizon_theta_rad", json!(g.found.theta_rad)),
        ("horizon_d_m", json!(g.found.distance_m)),
        ("x_start_m", json!(g.x_start_m)),
        ("x_end_m", json!(g.x_end_m)),
        ("delta_h_m", json!(g.delta_h_m)),
        (
            "geometry",
            json!(if g.basis == Basis::Horizons {
                "horizon-fits"
            } else {
                "well-inside-los"
            }),
        ),
        ("fit_y_m", json!(g.fit_m)),
        ("h_e_m", json!(g.effective_m)),
        ("d_hzn_m", json!(g.horizon_m)),
        ("theta_hzn_rad", json!(g.theta_rad)),
        ("d_sML_m", json!(r.d_sml_m)),
        ("d_ML_m", json!(r.d_ml_m)),
        ("theta_los_rad", json!(r.theta_los_rad)),
        ("A_3", json!(line.near.loss_db)),
        ("A_4", json!(line.far.loss_db)),
        ("M_d", json!(line.slope_db_per_m)),
        ("A_d0", json!(line.intercept_db)),
        ("A_ref", json!(r.a_ref_db)),
        ("sigma_S", json!(v.sigma_s_db)),
        ("sigma_L", json!(v.sigma_l_db)),
        ("sigma_T", json!(v.sigma_t_db)),
        ("V_med", json!(v.v_med_db)),
        ("Y_T", json!(v.y_t_db)),
        ("Y_L", json!(v.y_l_db)),
        ("Y_R", json!(v.y_r_db)),
        ("Y_S", json!(v.y_s_db)),
        ("A_var", json!(v.uncompressed_db)),
    ];
    match r.curve {
        Curve::LineOfSight(c) => pairs.extend([
            ("A_sML", json!(c.at_horizon_db)),
            ("k1", json!(c.k1_db_per_m)),
            ("k2", json!(c.k2_db)),
        ]),
        Curve::Beyond(s) => pairs.extend([
            ("M_s", json!(s.slope_db_per_m)),
            ("A_s0", json!(s.intercept_db)),
            ("d_x_m", json!(s.change_m)),
        ]),
    }
    pairs
        .into_iter()
        .map(|(name, value)| (name.to_owned(), value))
        .collect()
}
