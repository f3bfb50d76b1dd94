//! `stationwright path` as a user runs it: every validation file of both methods, and files that must be refused.
#![expect(
    clippy::unwrap_used,
    reason = "a test stops at the first thing that is not as it should be"
)]

use assert_cmd::Command;
use serde_json::Value;
use std::path::{Path, PathBuf};

/// Every case file of a method; `None` with a printed line where there is no reference data, which in CI is a failure.
fn cases(model: &str) -> Option<Vec<PathBuf>> {
    let beside = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../shared");
    let shared = std::env::var_os("STATIONWRIGHT_SHARED")
        .map(PathBuf::from)
        .unwrap_or(beside);
    let folder = shared.join("validation").join(model);
    if !folder.is_dir() {
        assert!(
            std::env::var_os("CI").is_none(),
            "no reference data at {}",
            folder.display()
        );
        println!(
            "skipped: no reference data at {} (set STATIONWRIGHT_SHARED)",
            folder.display()
        );
        return None;
    }
    let files = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path());
    Some(
        files
            .filter(|path| path.extension().is_some_and(|e| e == "json"))
            .collect(),
    )
}

/// Cases kept with the propagation crate, so that something runs everywhere.
fn kept(model: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../propagation/tests/reference")
        .join(model)
}

struct Run {
    code: i32,
    json: Value,
    stderr: String,
}

fn path(model: &str, file: &Path) -> Run {
    let output = Command::cargo_bin("stationwright")
        .unwrap()
        .args(["path", "--model", model, "--json", "--profile"])
        .arg(file)
        .output()
        .unwrap();
    Run {
        code: output.status.code().unwrap(),
        json: serde_json::from_slice(&output.stdout).unwrap_or(Value::Null),
        stderr: String::from_utf8(output.stderr).unwrap(),
    }
}

fn near(run: &Run, expected: &Value, name: &str, file: &Path) {
    let (got, wanted) = (run.json[name].as_f64().unwrap(), expected[name].as_f64().unwrap());
    assert!(
        (got - wanted).abs() <= 1e-3,
        "{}: {name} {got}, expected {wanted}",
        file.display()
    );
}

/// Study Group 3's cases and those of the same reference implementation.
#[test]
fn ref_p1812_every_case_through_the_command() {
    let Some(files) = cases("p1812") else { return };
    assert!(files.len() >= 60);
    for file in &files {
        let case: Value = serde_json::from_str(&std::fs::read_to_string(file).unwrap()).unwrap();
        let run = path("p1812", file);
        assert_eq!(run.code, 0, "{}: {}", file.display(), run.stderr);
        for name in ["lb_db", "e_1kw_dbuvm", "e_dbuvm"] {
            near(&run, &case["expected"], name, file);
        }
    }
}

/// Published examples of NTIA/ITS and cases of the same compiled implementation: losses, warnings, refusals.
#[test]
fn ref_itm_every_case_through_the_command() {
    let Some(files) = cases("itm") else { return };
    assert!(files.len() >= 40);
    for file in &files {
        let case: Value = serde_json::from_str(&std::fs::read_to_string(file).unwrap()).unwrap();
        let expected = &case["expected"];
        let run = path("itm", file);
        assert_eq!(run.json["code"], expected["code"], "{}", file.display());
        assert_eq!(run.json["warnings"], expected["warnings"], "{}", file.display());
        if expected["code"].as_u64().unwrap() >= 1000 {
            assert_eq!(run.code, 2);
            assert!(
                run.stderr.contains("expected"),
                "{}: no reason in `{}`",
                file.display(),
                run.stderr
            );
            continue;
        }
        assert_eq!(run.code, 0, "{}: {}", file.display(), run.stderr);
        near(&run, expected, "a_db", file);
        let said = run
            .stderr
            .lines()
            .filter(|line| line.starts_with("warning: "))
            .count() as u32;
        assert_eq!(
            said,
            expected["warnings"].as_u64().unwrap().count_ones(),
            "{}",
            file.display()
        );
    }
}

/// The method is taken from the file when it is not asked for, and text names the figures with their units.
#[test]
fn text_says_value_and_unit() {
    let file = kept("itm").join("ntia-1.json");
    let output = Command::cargo_bin("stationwright")
        .unwrap()
        .args(["path", "--profile"])
        .arg(&file)
        .output()
        .unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(
        text.contains("basic transmission loss") && text.contains("157.10 dB"),
        "{text}"
    );
}

/// A changed copy of a kept case, as the program meets it.
fn changed(model: &str, name: &str, change: impl FnOnce(&mut Value)) -> Run {
    let mut case: Value =
        serde_json::from_str(&std::fs::read_to_string(kept(model).join(name)).unwrap()).unwrap();
    change(&mut case);
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("case.json");
    std::fs::write(&file, case.to_string()).unwrap();
    path(model, &file)
}

fn refused(run: &Run, words: &str) {
    assert_eq!(run.code, 2, "{}", run.stderr);
    assert!(run.stderr.contains(words), "`{words}` is not in `{}`", run.stderr);
    assert!(run.json["error"].is_string());
}

#[test]
fn bad_p1812_files_are_refused_with_the_reason() {
    let sea = "sea9-50km-p01.json";
    let p = |change: fn(&mut Value)| changed("p1812", sea, change);
    refused(&p(|c| c["inputs"]["f_ghz"] = 9.0.into()), "9,000");
    refused(&p(|c| c["inputs"]["p_time_pct"] = 60.into()), "60");
    refused(&p(|c| c["inputs"]["htg_m"] = 0.into()), "height");
    refused(&p(|c| c["inputs"]["pol"] = "x".into()), "`pol` is `x`");
    refused(&p(|c| c["inputs"]["erp_kw"] = 0.into()), "erp_kw");
    refused(&p(|c| c["inputs"]["tx_lat_deg"] = 95.into()), "latitude");
    refused(&p(|c| c["profile"]["zone"][3] = 2.into()), "point 3: zone `2`");
    refused(&p(|c| c["profile"]["d_km"][2] = 0.01.into()), "rise strictly");
    refused(&p(|c| c["profile"]["h_m"][2] = Value::Null), "line 1");
    refused(
        &p(|c| drop(c["profile"]["h_m"].as_array_mut().unwrap().pop())),
        "heights",
    );
    refused(
        &p(|c| drop(c["inputs"].as_object_mut().unwrap().remove("n0"))),
        "`n0`",
    );
    refused(&p(|c| c["format"] = "itm-p2p-case/1".into()), "itm-p2p-case/1");
}

#[test]
fn bad_itm_files_are_refused_with_the_reason() {
    let p = |change: fn(&mut Value)| changed("itm", "ntia-1.json", change);
    refused(&p(|c| c["inputs"]["climate"] = 5.5.into()), "`climate` is 5.5");
    refused(&p(|c| c["inputs"]["mdvar"] = 4.into()), "`mdvar` is 4");
    refused(&p(|c| c["inputs"]["n0"] = 200.into()), "`n0` is 200");
    refused(&p(|c| c["inputs"]["location_pct"] = 0.into()), "(code 1004)");
    refused(&p(|c| c["inputs"]["pol"] = "left".into()), "`pol` is `left`");
    refused(&p(|c| c["profile"]["spacing_m"] = 0.into()), "spacing");
    refused(
        &p(|c| c["profile"]["h_m"] = serde_json::json!([1.0])),
        "at least 2",
    );
    refused(&p(|c| c["profile"]["h_m"][4] = 1e9.into()), "height 4");
    refused(
        &p(|c| drop(c["profile"].as_object_mut().unwrap().remove("h_m"))),
        "no `h_m`",
    );
}

/// A profile may stand in a file of its own, beside the case or in `profiles`.
#[test]
fn a_profile_file_is_read_beside_the_case() {
    let mut case: Value =
        serde_json::from_str(&std::fs::read_to_string(kept("itm").join("ntia-1.json")).unwrap()).unwrap();
    let folder = tempfile::tempdir().unwrap();
    std::fs::create_dir(folder.path().join("profiles")).unwrap();
    std::fs::write(
        folder.path().join("profiles/hill.json"),
        case["profile"].to_string(),
    )
    .unwrap();
    case["profile"] = serde_json::json!({ "profile_file": "hill" });
    let file = folder.path().join("case.json");
    std::fs::write(&file, case.to_string()).unwrap();
    let run = path("itm", &file);
    assert_eq!(run.code, 0, "{}", run.stderr);
    near(&run, &case["expected"], "a_db", &file);
    case["profile"] = serde_json::json!({ "profile_file": "missing" });
    std::fs::write(&file, case.to_string()).unwrap();
    refused(&path("itm", &file), "missing");
}

#[test]
fn bad_files_that_are_no_path_files() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("broken.json");
    std::fs::write(&file, "{ \"inputs\": ").unwrap();
    refused(&path("p1812", &file), "not a path file");
    refused(
        &path("itm", &folder.path().join("nowhere.json")),
        "cannot be read",
    );
}
