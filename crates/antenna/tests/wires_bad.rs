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

/// Looks for words, whatever spaces, minus and apostrophe the language sets.
fn says(message: &str, parts: &[&str]) {
    let message = message
        .replace('\u{a0}', " ")
        .replace('\u{2212}', "-")
        .replace('’', "'");
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
            "end one of them on the other's axis there",
            "0.0180 m apart",
        ],
    );
}

/// Ended on the axis it is a junction; ended on the skin of a thicker tube, or a little short of it, it is neither joined nor clear.
#[test]
fn bad_end_beside_another_wire() {
    let tee = |x: f64| {
        format!(r#"{{"name": "stub", "start_m": [{x}, 0, 0.35], "end_m": [1, 0, 0.35], "radius_m": 0.004}}"#)
    };
    let wires = |x: f64| format!("{BAY}, {}", tee(x));
    let accepted = format!(
        r#"{{"frequency_mhz": 98.0, "wires": [{}], "sources": [{MIDDLE}]}}"#,
        wires(0.003)
    );
    assert!(WireFile::parse(&accepted).unwrap().answer().is_ok());
    for x in [0.005, 0.008, 0.0119] {
        says(
            &refused(&wires(x), MIDDLE, ""),
            &[
                "`bay`",
                "`stub`",
                "without a junction",
                "the other's axis",
                "0.0120 m apart",
            ],
        );
    }
}

#[test]
fn bad_joint_too_near_an_end_or_a_source() {
    let tee = |z: f64| {
        format!(r#"{{"name": "stub", "start_m": [0, 0, {z}], "end_m": [1, 0, {z}], "radius_m": 0.004}}"#)
    };
    for z in [0.700, 0.0075] {
        says(
            &refused(&format!("{BAY}, {}", tee(z)), MIDDLE, ""),
            &["`bay`", "other wires' ends", "at one place", "0.0120 m apart"],
        );
    }
    says(
        &refused(&format!("{BAY}, {}", tee(0.0)), MIDDLE, ""),
        &["source 0", "`bay`", "meets 2 others", "move it a little"],
    );
}

#[test]
fn bad_end_led_along_the_wire_it_meets() {
    let along = r#"{"name": "stub", "start_m": [0, 0, 0.2], "end_m": [0.012, 0, 0.6], "radius_m": 0.008}"#;
    says(
        &refused(&format!("{BAY}, {along}"), MIDDLE, ""),
        &["`bay`", "`stub`", "lie on one another", "turn it away"],
    );
    let both = r#"{"name": "strap", "start_m": [0, 0, 0.2], "end_m": [0, 0, 0.5], "radius_m": 0.008}"#;
    says(
        &refused(&format!("{BAY}, {both}"), MIDDLE, ""),
        &["`bay`", "`strap`", "lie on one another"],
    );
}

#[test]
fn bad_feet() {
    let over = r#", "ground": "perfect""#;
    let rod = |low: &str, high: &str| {
        format!(
            r#"{{"name": "rod", "start_m": [0, 0, {low}], "end_m": [0.3, 0, {high}], "radius_m": 0.008}}"#
        )
    };
    for (low, high) in [
        ("0.001", "0.7"),
        ("-0.2", "0.7"),
        ("0.7", "-0.0005"),
        ("0", "0.01"),
    ] {
        says(
            &refused(&rod(low, high), r#"{"wire": 0}"#, over),
            &["`rod`", "reaches z =", "0.0160 m", "end at z = 0"],
        );
    }
    says(
        &refused(&rod("0", "0"), r#"{"wire": 0}"#, over),
        &["`rod`", "lies along the ground", "lift its other end"],
    );
    let foot = r#"{"wire": 0, "position": 0}"#;
    let two = format!(
        "{}, {}",
        rod("0", "0.7"),
        rod("0", "0.7").replace("0.3", "-0.3").replace("rod", "other")
    );
    says(
        &refused(&two, foot, over),
        &["source 0", "`rod`", "meets 2 others", "move it a little"],
    );
}

#[test]
fn bad_sizes_beyond_all_reason() {
    let far = r#"{"name": "far", "start_m": [1e7, 0, 0], "end_m": [1e7, 0, 1], "radius_m": 0.01}"#;
    says(
        &refused(&format!("{BAY}, {far}"), MIDDLE, ""),
        &["wavelengths from the middle", "at most 200"],
    );
    let long = r#"{"name": "long", "start_m": [1, 0, 0], "end_m": [1, 0, 1e300], "radius_m": 0.01}"#;
    says(
        &refused(&format!("{BAY}, {long}"), MIDDLE, ""),
        &["unknowns", "fewer or coarser"],
    );
    let hair = BAY.replace("0.008", "1e-13, \"segments\": 900000000000");
    says(&refused(&hair, MIDDLE, ""), &["unknowns", "fewer or coarser"]);
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
