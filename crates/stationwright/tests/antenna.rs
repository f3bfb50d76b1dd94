//! `stationwright antenna` and `stationwright wires` through the program.

#[allow(dead_code, reason = "each test uses some of it")]
mod program;

use program::{root, stationwright, text};
use serde_json::Value as Json;
use tempfile::TempDir;

fn told(args: &[&str]) -> String {
    let out = stationwright(args);
    assert!(out.status.success(), "{args:?}: {}", text(&out.stderr));
    text(&out.stdout)
}

/// A copy of the demo in which less ground is looked at, so that a preview is quick.
fn small_demo() -> (TempDir, String) {
    let folder = tempfile::tempdir().expect("a folder is made");
    for entry in std::fs::read_dir(root().join("examples/orrenay")).expect("the demo is there") {
        let from = entry.expect("an entry").path();
        if from.is_file() {
            let name = from.file_name().expect("a name").to_owned();
            std::fs::copy(&from, folder.path().join(name)).expect("a file is copied");
        }
    }
    let dir = folder.path().display().to_string();
    (folder, dir)
}

#[test]
fn the_antenna_is_listed_and_its_pattern_goes_out_and_comes_back() {
    let (folder, dir) = small_demo();
    let listed = told(&["antenna", &dir]);
    for part in [
        "solved as wires on its mast",
        "Vertical plane:",
        "m above ground",
        "azimuth  vertical W",
        "47 CFR 73.313",
    ] {
        assert!(listed.contains(part), "`{part}` not in {listed}");
    }
    // Thirty-six rows of the licence annex: 0° to 350°.
    assert!(
        listed.contains("     0°") && listed.contains("   350°"),
        "{listed}"
    );
    for (name, allowed_db) in [("ant.nsma", 0.01), ("ant.csv", 0.2)] {
        let file = folder.path().join(name).display().to_string();
        let wrote = told(&["antenna", &dir, "--pattern", &file]);
        assert!(wrote.contains(&format!("The pattern is in {file}")), "{wrote}");
        let laid: Json =
            serde_json::from_str(&told(&["antenna", &dir, "--measured-pattern", &file, "--json"]))
                .expect("JSON");
        let cuts = laid["measured_less_computed"].as_array().expect("cuts");
        assert!(!cuts.is_empty(), "{laid}");
        for cut in cuts {
            assert!(
                cut["largest_db"].as_f64().expect("a number").abs() < allowed_db,
                "{name}: {cut}"
            );
            assert!(cut["points"].as_u64().expect("a count") > 30, "{name}: {cut}");
        }
    }
    // A gain that was measured 1 dB low is told as that.
    let nsma = folder.path().join("ant.nsma");
    let whole = std::fs::read_to_string(&nsma).expect("it was written");
    let gain = whole
        .lines()
        .find_map(|l| l.strip_prefix("MDGAIN:,"))
        .expect("a gain");
    let low = gain.trim().parse::<f64>().expect("a number") - 1.0;
    let low = whole.replace(&format!("MDGAIN:,{gain}"), &format!("MDGAIN:,{low:.3}"));
    std::fs::write(&nsma, low).expect("it is written again");
    let name = nsma.display().to_string();
    let told = told(&["antenna", &dir, "--measured-pattern", &name]);
    assert!(
        told.contains("laid over the computed pattern") && told.contains("mean −1.00"),
        "{told}"
    );
}

#[test]
fn bad_pattern_files_are_named() {
    let (folder, dir) = small_demo();
    let bad = folder.path().join("bad.nsma").display().to_string();
    std::fs::write(&bad, "MDGAIN:,five\n").expect("a file is written");
    for (args, parts) in [
        (
            ["--measured-pattern", bad.as_str()],
            ["bad.nsma: line 1", "decimal point"],
        ),
        (["--measured-pattern", "nowhere.csv"], ["nowhere.csv", ""]),
        (["--pattern", "antenna.pdf"], ["antenna.pdf", ".nsma"]),
        (["--emission", "E9"], ["E9", "nothing radiates"]),
    ] {
        let out = stationwright(&[&["antenna", dir.as_str()][..], &args[..]].concat());
        let said = text(&out.stderr);
        assert_eq!(out.status.code(), Some(2), "{args:?}: {said}");
        assert!(parts.iter().all(|p| said.contains(p)), "{args:?}: {said}");
    }
}

/// What `--write` puts into the file is what the program then reads: bays turned and phased, people and licence kept.
#[test]
fn shaped_bays_are_written_into_the_file_and_read_from_it() {
    let (folder, dir) = small_demo();
    let file = folder.path().join("station.toml");
    let before = std::fs::read_to_string(&file).expect("the file");
    let shaped = told(&["antenna", &dir, "--for-people", "--write", "--json"]);
    let shaped: Json = serde_json::from_str(&shaped).expect("JSON");
    let after = std::fs::read_to_string(&file).expect("the file");
    for edit in shaped["edits"].as_array().expect("edits") {
        let key = edit["path"]
            .as_str()
            .and_then(|p| p.rsplit('.').next())
            .expect("a key");
        assert!(after.contains(key), "{key} not in the file");
    }
    // Comments stay, and what is read again is what was shaped.
    assert_eq!(before.matches('#').count(), after.matches('#').count());
    let again: Json = serde_json::from_str(&told(&["antenna", &dir, "--json"])).expect("JSON");
    let (was, is) = (&shaped["bays"], &again["bays"]);
    assert_eq!(was.as_array().map(Vec::len), is.as_array().map(Vec::len));
    for (was, is) in was
        .as_array()
        .into_iter()
        .flatten()
        .zip(is.as_array().into_iter().flatten())
    {
        let turn = was["azimuth_deg"].as_f64().expect("deg") - is["bearing_deg"].as_f64().expect("deg");
        assert!(
            ((turn + 180.0).rem_euclid(360.0) - 180.0).abs() < 0.01,
            "{was} {is}"
        );
    }
}

#[test]
fn bent_files_of_wires_are_refused_with_a_reason() {
    let folder = tempfile::tempdir().expect("a folder is made");
    let file = folder.path().join("w.json");
    let name = file.display().to_string();
    let wire = |start: &str, end: &str| {
        format!(
            r#"{{"frequency_mhz": 98, "ground": "perfect", "wires": [{{"name": "rod", "start_m": {start}, "end_m": {end}, "radius_m": 0.008}}],
               "sources": [{{"wire": 0, "position": 0}}]}}"#
        )
    };
    std::fs::write(&file, wire("[0, 0, 0]", "[0, 0, 0.73]")).expect("a file is written");
    let answer: Json = serde_json::from_str(&told(&["wires", &name, "--json"])).expect("JSON");
    // A quarter wave on the ground: 5.16 dBi and about 36 Ω (Balanis, from memory).
    assert!(
        (answer["max_gain_dbi"].as_f64().expect("a gain") - 5.16).abs() < 0.05,
        "{answer}"
    );
    assert!(
        (answer["input_impedance_ohm"][0][0].as_f64().expect("ohm") - 36.0).abs() < 4.0,
        "{answer}"
    );
    for (bent, part) in [
        (wire("[0, 0, 0.002]", "[0, 0, 0.73]"), "`rod`"),
        (wire("[0, 0, 0]", "[0, 0, 0]"), "`rod`"),
        (wire("[0, 0, 0]", "[0, 0, 1e300]"), "unknowns"),
        (wire("[0, 0, 0]", "[0, 0]"), "line 1"),
        ("{}".to_owned(), "frequency_mhz"),
        (String::new(), "line 1"),
    ] {
        std::fs::write(&file, &bent).expect("a file is written");
        let out = stationwright(&["wires", &name]);
        let said = text(&out.stderr);
        assert_eq!(out.status.code(), Some(2), "{bent}: {said}");
        assert!(
            said.contains("w.json") && said.contains(part) && !said.contains("panicked"),
            "{said}"
        );
    }
}
