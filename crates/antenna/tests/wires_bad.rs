//! Wires that cannot be computed are refused with the wire and the mend named.

use antenna::wires::format::WireFile;

fn refused(wires: &str, sources: &str, rest: &str) -> String {
    let text = format!(r#"{{"frequency_mhz": 98.0, "wires": [{wires}], "sources": [{sources}]{rest}}}"#);
    let answer = WireFile::parse(&text).and_then(|file| file.answer());
    answer
        .err()
        .unwrap_or_else(|| panic!("accepted: {text}"))
        .to_string()
}

fn says(message: &str, parts: &[&str]) {
    for part in parts {
        assert!(message.contains(part), "`{part}` not in: {message}");
    }
}

const BAY: &str = r#"{"name": "bay", "start_m": [0, 0, -0.71], "end_m": [0, 0, 0.71], "radius_m": 0.008}"#;
const MIDDLE: &str = r#"{"wire": 0, "position": 0.5, "volts": [1, 0]}"#;

#[test]
fn bad_crossing_wires() {
    let across = r#"{"name": "boom", "start_m": [-1, 0, 0.2], "end_m": [1, 0, 0.2], "radius_m": 0.01}"#;
    says(
        &refused(&format!("{BAY}, {across}"), MIDDLE, ""),
        &[
            "`bay`",
            "`boom`",
            "0.2000",
            "end both wires there",
            "0.0180 m apart",
        ],
    );
}

#[test]
fn bad_end_inside_another_wire() {
    let tee = r#"{"name": "stub", "start_m": [0, 0, 0.3], "end_m": [1, 0, 0.3], "radius_m": 0.01}"#;
    says(
        &refused(&format!("{BAY}, {tee}"), MIDDLE, ""),
        &["`bay`", "`stub`", "without a junction"],
    );
}

#[test]
fn bad_same_wire_twice() {
    let twin = BAY.replace("bay", "twin");
    says(
        &refused(&format!("{BAY}, {twin}"), MIDDLE, ""),
        &["`bay`", "`twin`", "lie on one another", "remove one"],
    );
}

#[test]
fn bad_zero_length() {
    let point = r#"{"name": "point", "start_m": [1, 2, 3], "end_m": [1, 2, 3], "radius_m": 0.01}"#;
    says(
        &refused(&format!("{BAY}, {point}"), MIDDLE, ""),
        &["`point`", "no length", "move one end"],
    );
}

#[test]
fn bad_radius_too_thick_for_the_segment() {
    let thick =
        r#"{"name": "stub", "start_m": [1, 0, 0], "end_m": [1, 0, 0.07], "radius_m": 0.05, "segments": 6}"#;
    says(
        &refused(&format!("{BAY}, {thick}"), MIDDLE, ""),
        &["`stub`", "0.05 m is too thick", "make it longer", "cage"],
    );
}

/// A count of segments is its writer's: a thick pole cut finer than this kernel bears is cut coarser, not refused; and what
/// else stands in the file is left aside.
#[test]
fn a_thick_pole_is_cut_as_fine_as_it_bears() {
    let pole = |segments| {
        format!(
            r#"{{"frequency_mhz": 98, "remarks": ["fine"], "sources": [{MIDDLE}], "wires": [{BAY},
            {{"start_m": [0.8, 0, -3], "end_m": [0.8, 0, 3], "radius_m": 0.05, "segments": {segments}}}]}}"#
        )
    };
    let gain = |segments| {
        WireFile::parse(&pole(segments))
            .unwrap()
            .answer()
            .unwrap()
            .max_gain_dbi
    };
    let (coarse, fine) = (gain(40), gain(150));
    assert!((coarse - fine).abs() < 0.05, "{coarse} dBi, {fine} dBi");
}

#[test]
fn bad_bay_inside_a_thick_mast() {
    let mast = r#"{"name": "mast", "start_m": [0.1, 0, -3], "end_m": [0.1, 0, 3], "radius_m": 0.2}"#;
    says(
        &refused(&format!("{BAY}, {mast}"), MIDDLE, ""),
        &["`bay`", "inside `mast`", "0.2080 m"],
    );
}

#[test]
fn bad_source_on_no_wire() {
    let elsewhere = r#"{"wire": 3, "volts": [1, 0]}"#;
    says(&refused(BAY, elsewhere, ""), &["source 0", "wire 3", "0 to 0"]);
    let off = r#"{"wire": 0, "position": 1.5}"#;
    says(&refused(BAY, off, ""), &["source 0", "`bay`", "1.5", "0 to 1"]);
    let end = r#"{"wire": 0, "position": 1.0}"#;
    says(
        &refused(BAY, end, ""),
        &["source 0", "free end", "`bay`", "move it along"],
    );
    says(&refused(BAY, "", ""), &["no source"]);
    says(
        &refused(BAY, &format!("{MIDDLE}, {MIDDLE}"), ""),
        &["sources 0 and 1", "same place", "`bay`"],
    );
    says(
        &refused(BAY, r#"{"wire": 0, "volts": [0, 0]}"#, ""),
        &["no power"],
    );
}

#[test]
fn bad_source_at_a_junction_of_three() {
    let star = |name: &str, x: f64, y: f64| {
        format!(r#"{{"name": "{name}", "start_m": [0, 0, 0], "end_m": [{x}, {y}, 0], "radius_m": 0.004}}"#)
    };
    let wires = [star("a", 1.0, 0.0), star("b", -0.5, 0.8), star("c", -0.5, -0.8)].join(", ");
    says(
        &refused(&wires, r#"{"wire": 1, "position": 0}"#, ""),
        &["source 0", "`b`", "2 others", "move it"],
    );
}

#[test]
fn bad_numbers() {
    says(
        &refused(BAY, MIDDLE, r#", "loads": [{"wire": 0, "ohm": [1e999, 0]}]"#),
        &["number out of range", "line 1"],
    );
    says(
        &refused(&BAY.replace("0.008", "-0.008"), MIDDLE, ""),
        &["`bay`", "radius -0.008 m", "positive"],
    );
    says(
        &refused(&BAY.replace("0.008", "\"thin\""), MIDDLE, ""),
        &["thin", "column"],
    );
    let text = format!(r#"{{"frequency_mhz": 0, "wires": [{BAY}], "sources": [{MIDDLE}]}}"#);
    says(
        &WireFile::parse(&text).unwrap().answer().unwrap_err().to_string(),
        &["frequency 0 MHz", "positive"],
    );
    let mut file = WireFile::parse(&text.replace(": 0,", ": 98,")).unwrap();
    file.wires[0].end_m[1] = f64::NAN;
    says(
        &file.answer().unwrap_err().to_string(),
        &["`bay`", "its end", "finite"],
    );
}

#[test]
fn bad_words_and_keys() {
    says(
        &refused(BAY, MIDDLE, r#", "ground": "wet""#),
        &["`ground`", "`wet`", "free_space"],
    );
    says(
        &refused(BAY, MIDDLE, r#", "lodes": []"#),
        &["`lodes` is not known", "`loads`"],
    );
    says(
        &refused(BAY, MIDDLE, r#", "ground": "perfect""#),
        &["`bay`", "-0.7100", "above"],
    );
    let cuts = r#", "cuts": {"azimuth_cut": {"elevation_deg": 0, "azimuth_step_deg": 0}}"#;
    says(&refused(BAY, MIDDLE, cuts), &["`cuts`", "step of 0"]);
    let feed = r#", "feed": {"kind": "common_node", "lines": []}"#;
    says(&refused(BAY, MIDDLE, feed), &["`feed`", "0 lines for 1 sources"]);
}
