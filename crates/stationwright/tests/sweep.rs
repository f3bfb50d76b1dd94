//! `stationwright sweep` through the program.

#[allow(dead_code, reason = "each test uses some of it")]
mod program;

use program::{stationwright, text};
use serde_json::Value as Json;

#[test]
fn the_demo_is_swept_and_its_own_prediction_laid_over_it() {
    let folder = tempfile::tempdir().expect("a folder is made");
    let swept = stationwright(&["sweep", "examples/orrenay", "--json"]);
    assert!(swept.status.success(), "{}", text(&swept.stderr));
    let swept: Json = serde_json::from_slice(&swept.stdout).expect("it prints JSON");
    let answers = swept["answers"].as_array().expect("there are answers");
    assert!(answers.len() > 40);
    let rows = answers.iter().map(|a| {
        let (re, im) = (&a["input_reflection"][0], &a["input_reflection"][1]);
        format!("{} {re} {im}", a["freq_mhz"])
    });
    let file = folder.path().join("line.s1p");
    let rows = rows.collect::<Vec<_>>().join("\n");
    std::fs::write(&file, format!("# MHz S RI R 50\n{rows}\n")).expect("a file is written");
    let file = file.display().to_string();
    let laid = stationwright(&["sweep", "examples/orrenay", "--measured", &file]);
    let told = text(&laid.stdout);
    assert!(laid.status.success(), "{}", text(&laid.stderr));
    assert!(told.contains("line.s1p lies 0.000 from the prediction"), "{told}");
    assert!(
        told.contains("measured dB") && told.contains("folds back"),
        "{told}"
    );
}

#[test]
fn bad_emissions_and_measurements_are_named() {
    let told = stationwright(&["sweep", "examples/orrenay", "--emission", "E7"]);
    assert_eq!(told.status.code(), Some(2));
    assert!(
        text(&told.stderr).contains("no emission `E7`; it has E1"),
        "{}",
        text(&told.stderr)
    );
    let told = stationwright(&["sweep", "examples/orrenay", "--measured", "README.md"]);
    assert_eq!(told.status.code(), Some(2));
    assert!(
        text(&told.stderr).contains("README.md: line 1"),
        "{}",
        text(&told.stderr)
    );
    let told = stationwright(&["sweep", "examples/quadrangle"]);
    assert_eq!(told.status.code(), Some(2));
    assert!(text(&told.stderr).contains("names no"), "{}", text(&told.stderr));
}
