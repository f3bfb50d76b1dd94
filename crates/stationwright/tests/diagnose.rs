//! `stationwright diagnose` through the program.

#[allow(dead_code, reason = "each test uses some of it")]
mod program;

use program::{stationwright, text};
use serde_json::Value as Json;

fn json(args: &[&str]) -> Json {
    let out = stationwright(args);
    serde_json::from_slice(&out.stdout).unwrap_or_else(|e| panic!("{e}: {}", text(&out.stderr)))
}

const READINGS: &str = "examples/tremarine/readings.toml";

#[test]
fn little_comes_back_and_the_field_is_poor_so_a_bay_hangs_upside_down() {
    let told = stationwright(&["diagnose", "examples/tremarine", "--readings", READINGS]);
    assert_eq!(told.status.code(), Some(1), "{}", text(&told.stderr));
    let told = text(&told.stdout);
    let first = told.lines().find(|l| l.contains('%')).expect("causes are told");
    assert!(first.contains("hangs upside down"), "{told}");
    assert!(told.contains("Measure next at"), "{told}");
    let found = json(&["diagnose", "examples/tremarine", "--readings", READINGS, "--json"]);
    assert_eq!(found["causes"][0]["suspects"][0]["fault"]["fault"], "upside-down");
    let sum: f64 = found["causes"]
        .as_array()
        .expect("causes")
        .iter()
        .filter_map(|c| c["probability"].as_f64())
        .sum();
    assert!((0.8..=1.0 + 1e-9).contains(&sum), "{sum}");
}

#[test]
fn healthy_readings_are_called_well() {
    // What a healthy station gives is read back as it was predicted.
    let plan = json(&["diagnose", "examples/tremarine", "--json"]);
    assert_eq!(plan["causes"].as_array().map(Vec::len), Some(0));
    let points = plan["points"].as_array().expect("points");
    let measure = plan["measure"].as_array().expect("an order");
    assert!(measure.len() >= 8, "{measure:?}");
    let mut file = format!(
        "[meters]\nforward = \"{} W\"\nreflected = \"{} W\"\n",
        plan["forward_w"],
        plan["reflected_w"].as_f64().expect("a power").max(0.1)
    );
    for index in measure {
        let point = &points[index.as_u64().expect("an index") as usize];
        file += &format!(
            "[[points]]\nazimuth = \"{}°\"\ndistance = \"{} km\"\nfield = \"{} dBµV/m\"\n",
            point["azimuth_deg"], point["distance_km"], point["field_dbuv_m"]
        );
    }
    let folder = tempfile::tempdir().expect("a folder is made");
    let path = folder.path().join("well.toml");
    std::fs::write(&path, file).expect("a file is written");
    let told = stationwright(&[
        "diagnose",
        "examples/tremarine",
        "--readings",
        &path.display().to_string(),
    ]);
    assert_eq!(
        told.status.code(),
        Some(0),
        "{}{}",
        text(&told.stdout),
        text(&told.stderr)
    );
    let first = text(&told.stdout);
    let first = first.lines().find(|l| l.contains('%')).expect("causes are told");
    assert!(first.contains("nothing is wrong"), "{first}");
}

#[test]
fn the_readings_of_a_healthy_station_are_those_of_the_proof() {
    let plan = json(&["diagnose", "examples/orrenay", "--json"]);
    let sheet = json(&["assess", "examples/orrenay", "--json"]);
    let id = format!("transmission.{}.power", plan["emission"].as_str().expect("a tag"));
    let figures = sheet["figures"].as_array().expect("figures");
    let power = figures
        .iter()
        .find(|f| f["id"] == *id)
        .expect("its power is a figure");
    let (said, read) = (&power["value"]["number"], &plan["forward_w"]);
    let apart = said.as_f64().expect("a number") - read.as_f64().expect("a power");
    assert!(apart.abs() < 1e-6, "{said} {read}");
}

#[test]
fn bad_readings_are_named_with_their_line() {
    let folder = tempfile::tempdir().expect("a folder is made");
    for (content, said) in [
        ("[meters]\nforward = \"-5 W\"\n", "readings.toml:2:11"),
        (
            "[meters]\nforward = \"100 W\"\nreflected = \"200 W\"\n",
            "no more can come back",
        ),
        (
            "[meters]\nforward = \"100 W\"\naccuracy = \"0 dB\"\n",
            "readings.toml:3:12",
        ),
        ("[[points]]\nfield = \"50 dBµV/m\"\n", "a point needs a `place`"),
        (
            "[[points]]\nplace = \"NOWHERE\"\nfield = \"50 dBµV/m\"\n",
            "NOWHERE",
        ),
        (
            "[[points]]\nplace = \"POLLAVERN\"\nfield = \"50\"\n",
            "readings.toml:3:9",
        ),
        ("[[point]]\n", "did you mean `points`?"),
        ("", "the file holds no reading"),
    ] {
        let path = folder.path().join("readings.toml");
        std::fs::write(&path, content).expect("a file is written");
        let told = stationwright(&[
            "diagnose",
            "examples/tremarine",
            "--readings",
            &path.display().to_string(),
        ]);
        assert_eq!(told.status.code(), Some(2), "{content}");
        assert!(
            text(&told.stderr).contains(said),
            "{content}: {}",
            text(&told.stderr)
        );
    }
    let told = stationwright(&["diagnose", "examples/tremarine", "--emission", "E7"]);
    assert_eq!(told.status.code(), Some(2));
    assert!(text(&told.stderr).contains("E7"), "{}", text(&told.stderr));
}
