//! Reading of P.1812 validation cases: one JSON object a case.
#![allow(dead_code, reason = "each test uses a part of it")]

use propagation::p1812::*;
use serde_json::Value;
use std::path::{Path, PathBuf};

/// One published or computed case.
pub struct Case {
    pub id: String,
    pub profile: Profile,
    pub link: Link,
    pub erp_kw: f64,
    pub expected: Value,
    pub intermediates: Value,
}

/// The folder of reference data, or `None` with a printed line; in CI its absence is a failure.
pub fn reference_folder(part: &str) -> Option<PathBuf> {
    let beside = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../shared");
    let folder = std::env::var_os("STATIONWRIGHT_SHARED")
        .map(PathBuf::from)
        .unwrap_or(beside)
        .join(part);
    if folder.is_dir() {
        return Some(folder);
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

/// Every case in the reference folder, by name.
pub fn all_cases() -> Option<Vec<Case>> {
    Some(cases_in(&reference_folder("validation/p1812")?))
}

/// The cases kept beside the tests.
pub fn kept_cases() -> Vec<Case> {
    cases_in(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/p1812"))
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

/// One case file.
pub fn read(path: &Path) -> Case {
    let text = std::fs::read_to_string(path).expect("a readable case");
    let case: Value = serde_json::from_str(&text).expect("valid JSON");
    let list = |name: &str| -> Vec<f64> {
        let values = case["profile"][name].as_array().expect("an array");
        values.iter().map(|x| x.as_f64().expect("a number")).collect()
    };
    let input = |name: &str| {
        case["inputs"][name]
            .as_f64()
            .unwrap_or_else(|| panic!("{name} is a number"))
    };
    let zone = list("zone")
        .iter()
        .map(|z| Zone::from_code(*z as u8).expect("a zone"))
        .collect();
    let place = |end: &str| Place {
        lat_deg: input(&format!("{end}_lat_deg")),
        lon_deg: input(&format!("{end}_lon_deg")),
    };
    Case {
        id: case["id"].as_str().expect("an id").into(),
        profile: Profile::new(list("d_km"), list("h_m"), list("clutter_m"), zone).expect("a valid profile"),
        link: Link {
            conditions: Conditions {
                freq_mhz: input("f_ghz") * 1000.0,
                polarisation: match case["inputs"]["pol"].as_str() {
                    Some("v") => Polarisation::Vertical,
                    _ => Polarisation::Horizontal,
                },
                time_pct: input("p_time_pct"),
                location_pct: input("p_loc_pct"),
                location_spread_db: input("sigma_loc_db"),
                dn_per_km: input("dn_per_km"),
                n0: input("n0"),
            },
            antennas: Antennas {
                tx_agl_m: input("htg_m"),
                rx_agl_m: input("hrg_m"),
            },
            bearing: Bearing::between(place("tx"), place("rx")),
            coast: Some(ToCoast {
                tx_km: input("dct_km"),
                rx_km: input("dcr_km"),
            }),
        },
        erp_kw: input("erp_kw"),
        expected: case["expected"].clone(),
        intermediates: case["intermediates"].clone(),
    }
}

/// Every intermediate by the name the reference gives it.
pub fn named(steps: &Steps, constants: &Constants) -> Vec<(&'static str, f64)> {
    let (s, c) = (&steps.survey, &steps.closed);
    let yes = |b: bool| if b { 1.0 } else { 0.0 };
    let per_root = 1.0 / constants.lambda_m.sqrt();
    let mut list = vec![
        ("dct_km", s.coast.tx_km),
        ("dcr_km", s.coast.rx_km),
        ("lambda_m", constants.lambda_m),
        ("d_km", s.path_km),
        ("omega", s.zones.sea_ratio),
        ("dtm_km", s.zones.land_km),
        ("dlm_km", s.zones.inland_km),
        ("phi_path_deg", c.centre_lat_deg),
        ("tau", c.incidence.tau),
        ("mu1", c.incidence.mu1),
        ("mu4", c.incidence.mu4),
        ("beta0_pct", c.incidence.beta0_pct),
        ("ae_km", constants.ae_km),
        ("hts_m", s.hts_m),
        ("hrs_m", s.hrs_m),
        ("v1", s.fit.v1),
        ("v2", s.fit.v2),
        ("hst_fit_m", s.fit.tx_m),
        ("hsr_fit_m", s.fit.rx_m),
        ("hobs_m", s.obstruction.hobs_m),
        ("alpha_obt", s.obstruction.alpha_obt),
        ("alpha_obr", s.obstruction.alpha_obr),
        ("hstd_m", s.diffraction_surface.tx_m),
        ("hsrd_m", s.diffraction_surface.rx_m),
        ("hst_m", s.ducting_surface.tx_m),
        ("hsr_m", s.ducting_surface.rx_m),
        ("hte_m", s.hts_m - s.ducting_surface.tx_m),
        ("hre_m", s.hrs_m - s.ducting_surface.rx_m),
        ("i_lt", s.horizon.tx_index as f64),
        ("i_lr", s.horizon.rx_index as f64),
        ("dlt_km", s.horizon.dlt_km),
        ("dlr_km", s.horizon.dlr_km),
        ("theta_t_mrad", s.horizon.theta_t_mrad),
        ("theta_r_mrad", s.horizon.theta_r_mrad),
        ("theta_mrad", s.theta_mrad),
        ("hm_m", s.roughness_m),
        ("bull_a_los_50", yes(s.median.actual.line_of_sight)),
        ("bull_a_los_b", yes(s.beta0.actual.line_of_sight)),
        ("nu_a_50", s.median.actual.nu_root_m * per_root),
        ("nu_a_b", s.beta0.actual.nu_root_m * per_root),
        ("nu_s_50", s.median.smooth.nu_root_m * per_root),
        ("nu_s_b", s.beta0.smooth.nu_root_m * per_root),
    ];
    list.extend([
        ("Lbfs", c.direct.line_of_sight.lbfs_db),
        ("Esp", c.direct.line_of_sight.esp_db),
        ("Esb", c.direct.line_of_sight.esb_db),
        ("Lb0p", c.direct.line_of_sight.lb0p_db),
        ("Lb0b", c.direct.line_of_sight.lb0b_db),
        ("Lbulla_50", c.median.lbulla_db),
        ("Lbulls_50", c.median.lbulls_db),
        ("Ldsph_50", c.median.ldsph_db),
        ("Ld_50", c.median.ld_db),
        ("Lbulla_b", c.beta0.lbulla_db),
        ("Lbulls_b", c.beta0.lbulls_db),
        ("Ldsph_b", c.beta0.ldsph_db),
        ("Ld_b", c.beta0.ld_db),
        ("Fi", c.direct.fi),
        ("Ldp", c.direct.ldp_db),
        ("Lbd50", c.direct.lbd50_db),
        ("Lbd", c.direct.lbd_db),
        ("Alf", constants.ducting.alf_db),
        ("Ast", c.ducting.ast_db),
        ("Asr", c.ducting.asr_db),
        ("Act", c.ducting.act_db),
        ("Acr", c.ducting.acr_db),
        ("Af", c.ducting.af_db),
        ("gamma_d", constants.ducting.gamma_d),
        ("theta1_mrad", c.ducting.theta1_mrad),
        ("dI_km", c.ducting.di_km),
        ("mu3", c.ducting.mu3),
        ("alpha", c.ducting.alpha),
        ("mu2", c.ducting.mu2),
        ("beta_pct", c.ducting.beta_pct),
        ("Gamma", c.ducting.gamma),
        ("Ap", c.ducting.ap_db),
        ("Adp", c.ducting.adp_db),
        ("Lba", c.ducting.lba_db),
        ("Lminb0p", c.combination.lminb0p_db),
        ("Lminbap", c.combination.lminbap_db),
        ("Fk", c.combination.fk),
        ("Lbda", c.combination.lbda_db),
        ("Fj", c.combination.fj),
        ("Lbam", c.combination.lbam_db),
        ("Lf", constants.troposcatter.lf_db),
        ("Lbs", c.lbs_db),
        ("Lbc", c.combination.lbc_db),
        ("Lloc", if s.rx_at_sea { 0.0 } else { constants.location_db }),
    ]);
    list
}
