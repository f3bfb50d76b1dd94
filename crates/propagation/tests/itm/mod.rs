//! Reading of ITM validation cases: one JSON object a case.
#![allow(dead_code, reason = "each test uses a part of it")]

use propagation::itm::attenuation::Curve;
use propagation::itm::*;
use propagation::p1812::Polarisation;
use serde_json::Value;
use std::path::{Path, PathBuf};

/// One published or computed case.
pub struct Case {
    pub id: String,
    pub spacing_m: f64,
    pub height_m: Vec<f64>,
    pub antennas: Antennas,
    pub conditions: Conditions,
    pub expected: Value,
    pub intermediates: Value,
}

impl Case {
    pub fn profile(&self) -> Profile<'_> {
        Profile::new(self.spacing_m, &self.height_m).expect("a valid profile")
    }

    pub fn answer(&self) -> Result<Prediction, Refused> {
        predict(&self.profile(), &self.antennas, &self.conditions)
    }
}

/// Every case in the reference folder, by name; `None` with a printed line where there is none, which in CI is a failure.
pub fn all_cases() -> Option<Vec<Case>> {
    let beside = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../shared");
    let folder = std::env::var_os("STATIONWRIGHT_SHARED")
        .map(PathBuf::from)
        .unwrap_or(beside)
        .join("validation/itm");
    if folder.is_dir() {
        return Some(cases_in(&folder));
    }
    assert!(
        std::env::var_os("CI").is_none(),
        "no reference data at {}: set STATIONWRIGHT_SHARED",
        folder.display()
    );
    println!(
        "skipped: no reference data at {} (set STATIONWRIGHT_SHARED)",
        folder.display()
    );
    None
}

/// The cases kept beside the tests.
pub fn kept_cases() -> Vec<Case> {
    cases_in(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/itm"))
}

fn cases_in(folder: &Path) -> Vec<Case> {
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)
        .expect("a readable folder")
        .map(|entry| entry.expect("a readable entry").path())
        .filter(|path| path.extension().is_some_and(|e| e == "json"))
        .collect();
    files.sort();
    files.iter().map(|path| read(path)).collect()
}

fn read(path: &Path) -> Case {
    let text = std::fs::read_to_string(path).expect("a readable case");
    let case: Value = serde_json::from_str(&text).expect("valid JSON");
    let input = |name: &str| {
        case["inputs"][name]
            .as_f64()
            .unwrap_or_else(|| panic!("{name} is a number"))
    };
    Case {
        id: case["id"].as_str().expect("an id").into(),
        spacing_m: case["profile"]["spacing_m"].as_f64().expect("a spacing"),
        height_m: case["profile"]["h_m"]
            .as_array()
            .expect("heights")
            .iter()
            .map(|h| h.as_f64().expect("a height"))
            .collect(),
        antennas: Antennas {
            tx_agl_m: input("h_tx_m"),
            rx_agl_m: input("h_rx_m"),
        },
        conditions: Conditions {
            climate: input("climate") as u8,
            n0: input("n0"),
            freq_mhz: input("f_mhz"),
            polarisation: match case["inputs"]["pol"].as_str() {
                Some("v") => Polarisation::Vertical,
                _ => Polarisation::Horizontal,
            },
            ground: Ground {
                permittivity: input("epsilon_r"),
                conductivity_s_per_m: input("sigma_s_per_m"),
            },
            variability: input("mdvar") as u8,
            time_pct: input("time_pct"),
            location_pct: input("location_pct"),
            situation_pct: input("situation_pct"),
        },
        expected: case["expected"].clone(),
        intermediates: case["intermediates"].clone(),
    }
}

/// Every intermediate by the name the reference gives it.
pub fn named(answer: &Prediction) -> Vec<(&'static str, Vec<f64>)> {
    let Steps {
        preparation: p,
        geometry: g,
        reference: r,
        variability: v,
        free_space_db,
    } = &answer.steps;
    let line = &r.diffraction;
    let mut list = vec![
        ("h_sys_m", vec![p.h_sys_m]),
        ("N_s", vec![p.n_s]),
        ("gamma_e", vec![p.gamma_e_per_m]),
        ("a_e_m", vec![p.a_e_m]),
        ("Zg_re", vec![p.impedance[0]]),
        ("Zg_im", vec![p.impedance[1]]),
        ("horizon_theta_rad", g.found.theta_rad.to_vec()),
        ("horizon_d_m", g.found.distance_m.to_vec()),
        ("x_start_m", vec![g.x_start_m]),
        ("x_end_m", vec![g.x_end_m]),
        ("delta_h_m", vec![g.delta_h_m]),
        ("fit_y_m", g.fit_m.to_vec()),
        ("h_e_m", g.effective_m.to_vec()),
        ("d_hzn_m", g.horizon_m.to_vec()),
        ("theta_hzn_rad", g.theta_rad.to_vec()),
        ("d_sML_m", vec![r.d_sml_m]),
        ("d_ML_m", vec![r.d_ml_m]),
        ("theta_los_rad", vec![r.theta_los_rad]),
        ("d3_x_m", vec![line.near.distance_m]),
        ("d3_A_k", vec![line.near.knife_edges_db]),
        ("d3_A_se", vec![line.near.smooth_earth_db]),
        ("d3_A_fo", vec![line.near.clutter_db]),
        ("d3_w", vec![line.near.weight]),
        ("d4_x_m", vec![line.far.distance_m]),
        ("d4_A_k", vec![line.far.knife_edges_db]),
        ("d4_A_se", vec![line.far.smooth_earth_db]),
        ("d4_A_fo", vec![line.far.clutter_db]),
        ("d4_w", vec![line.far.weight]),
        ("A_3", vec![line.near.loss_db]),
        ("A_4", vec![line.far.loss_db]),
        ("M_d", vec![line.slope_db_per_m]),
        ("A_d0", vec![line.intercept_db]),
        ("A_ref", vec![r.a_ref_db]),
        ("A_fs", vec![*free_space_db]),
        ("z_T", vec![v.z[0]]),
        ("z_L", vec![v.z[1]]),
        ("z_S", vec![v.z[2]]),
        ("d_ex_m", vec![v.d_ex_m]),
        ("d_e_m", vec![v.d_e_m]),
        ("sigma_S", vec![v.sigma_s_db]),
        ("V_med", vec![v.v_med_db]),
        ("sigma_L", vec![v.sigma_l_db]),
        ("sigma_T", vec![v.sigma_t_db]),
        ("Y_T", vec![v.y_t_db]),
        ("Y_L", vec![v.y_l_db]),
        ("Y_R", vec![v.y_r_db]),
        ("Y_S", vec![v.y_s_db]),
        ("A_var", vec![v.uncompressed_db]),
    ];
    match r.curve {
        Curve::LineOfSight(c) => list.extend([
            ("A_sML", vec![c.at_horizon_db]),
            ("d_1_m", vec![c.d1_m]),
            ("A_1", vec![c.a1_db]),
            ("k1", vec![c.k1_db_per_m]),
            ("k2", vec![c.k2_db]),
            ("d_0_m", c.d0_m.into_iter().collect()),
            ("A_0", c.a0_db.into_iter().collect()),
        ]),
        Curve::Beyond(s) => list.extend([
            ("H0_d6", vec![s.far.h0_db]),
            ("H0_d5", vec![s.near.h0_db]),
            ("A_5", vec![s.near.loss_db]),
            ("A_6", vec![s.far.loss_db]),
            ("M_s", vec![s.slope_db_per_m]),
            ("A_s0", vec![s.intercept_db]),
            ("d_x_m", vec![s.change_m]),
        ]),
    }
    list
}
