//! `stationwright ask` through the program.

#[allow(dead_code, reason = "each test uses some of it")]
mod program;

use program::{stationwright, text};
use serde_json::Value as Json;
use std::path::Path;
use std::process::{Command, Output, Stdio};

fn ask(args: &[&str]) -> Output {
    stationwright(&[&["ask"], args].concat())
}

fn json(args: &[&str]) -> Json {
    let out = ask(&[args, &["--json"]].concat());
    assert!(out.status.success(), "{}", text(&out.stderr));
    serde_json::from_slice(&out.stdout).expect("it prints JSON")
}

fn km(of: &Json) -> f64 {
    of.as_f64().expect("a distance")
}

/// Three arc-seconds of level land at 300 m, in the form of the radar mission: 1201 rows of 1201 heights, big-endian.
fn level_land(folder: &Path, name: &str) {
    let height = 300i16.to_be_bytes();
    let tile: Vec<u8> = height.iter().copied().cycle().take(1201 * 1201 * 2).collect();
    std::fs::write(folder.join(name), tile).expect("a tile is written");
}

/// Level land is alike in every direction, and a transmitter's power less 1 dB of line is its ERP on one dipole
/// (500 W × 10^−0.1 = 397.2 W).
#[test]
fn on_level_land_it_is_heard_alike_all_round() {
    let folder = tempfile::tempdir().expect("a folder is made");
    level_land(folder.path(), "N46E008.hgt");
    let tiles = folder.path().display().to_string();
    let answer = json(&[
        "--power",
        "500W",
        "--mast",
        "30m",
        "--at",
        "46.5 N 8.5 E",
        "--tiles",
        &tiles,
    ]);
    assert_eq!(answer["ground"], "tiles");
    assert!((answer["erp_w"].as_f64().expect("watts") - 397.164).abs() < 0.01);
    let distances = &answer["distances"];
    for service in ["stereo", "mono", "car"] {
        let band = &distances[service];
        let (low, likely, high) = (km(&band["low_km"]), km(&band["likely_km"]), km(&band["high_km"]));
        assert!(likely > 1.0, "{band}");
        // A tenth of an arc of steps of 3″, of which none is alike in both directions of the grid.
        assert!(high - low < 0.02 * likely, "{service}: {band}");
    }
    assert!(km(&distances["stereo"]["likely_km"]) < km(&distances["mono"]["likely_km"]));
    assert!(km(&distances["car"]["likely_km"]) < km(&distances["mono"]["likely_km"]));
}

/// What changes most comes first; nothing that changes nothing comes before something that does.
#[test]
fn what_changes_it_most_stands_first() {
    for ground in ["rolling", "alpine", "coast", "island"] {
        let answer = json(&["--power", "500W", "--mast", "30m", "--ground", ground]);
        let likely = km(&answer["distances"]["stereo"]["likely_km"]);
        let changes = answer["changes"].as_array().expect("changes");
        assert_eq!(changes.len(), 5);
        let moved: Vec<f64> = changes
            .iter()
            .map(|c| {
                let (low, high) = (km(&c["stereo_low_km"]), km(&c["stereo_high_km"]));
                (low - likely).abs().max((high - likely).abs())
            })
            .collect();
        assert!(moved.windows(2).all(|w| w[0] >= w[1]), "{ground}: {moved:?}");
        let of = |matter: &str| {
            let found = changes.iter().find(|c| c["matter"] == matter);
            found.unwrap_or_else(|| panic!("no {matter}"))
        };
        // More is never less.
        for either_way in ["power", "prediction", "direction"] {
            let change = of(either_way);
            assert!(km(&change["stereo_low_km"]) <= likely && likely <= km(&change["stereo_high_km"]));
        }
        assert!(
            km(&of("other_bays")["stereo_low_km"]) >= likely,
            "two bays are no less than one"
        );
    }
    let by_erp = json(&["--erp", "1kW", "--mast", "60m"]);
    assert_eq!(
        by_erp["changes"].as_array().map(Vec::len),
        Some(4),
        "no bays where the ERP was named"
    );
}

#[test]
fn a_question_without_an_answer_is_told_why() {
    let folder = tempfile::tempdir().expect("a folder is made");
    level_land(folder.path(), "N46E008.hgt");
    let tiles = folder.path().display().to_string();
    let cases: [(&[&str], &str); 8] = [
        (&["--power", "0W", "--mast", "30m"], "above 0 W"),
        (&["--power", "500W", "--mast", "0m"], "a height from 1 m to"),
        (&["--power", "500W", "--mast", "9km"], "a height from 1 m to"),
        (&["--power", "500", "--mast", "30m"], "needs its unit"),
        (&["--mast", "30m"], "--power"),
        (
            &["--power", "500W", "--mast", "30m", "--at", "46.5 N 8.5 E"],
            "outside the invented ground",
        ),
        (&["--power", "500W", "--mast", "30m", "--at", "95 N 8.5 E"], "95"),
        (
            &[
                "--power",
                "500W",
                "--mast",
                "30m",
                "--at",
                "40.5 N 8.5 E",
                "--tiles",
                &tiles,
            ],
            "40.5",
        ),
    ];
    for (args, named) in cases {
        let out = ask(args);
        assert_eq!(out.status.code(), Some(2), "{args:?}: {}", text(&out.stdout));
        assert!(
            text(&out.stderr).contains(named),
            "{args:?}: {}",
            text(&out.stderr)
        );
    }
}

#[test]
fn a_reader_that_goes_away_is_no_fault() {
    let mut child = Command::new(env!("CARGO_BIN_EXE_stationwright"))
        .args(["ask", "--power", "500W", "--mast", "30m"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    drop(child.stdout.take());
    let out = child.wait_with_output().expect("it ends");
    assert_eq!((out.status.code(), text(&out.stderr).as_str()), (Some(3), ""));
}
