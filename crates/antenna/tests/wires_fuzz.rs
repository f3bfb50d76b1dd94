//! Files of wires bent out of shape at random: each is answered with finite numbers or refused with a sentence, never a panic.

use antenna::wires::format::WireFile;
use rand::seq::IndexedRandom;
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use serde_json::{Value, json};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;

const MUTATIONS: u64 = 2_000;
const SEED: u64 = 0x5717;

/// A few wavelengths at the most, or beyond all reason: large antennas are computed as any, and take their time.
const FEW: std::ops::Range<i32> = -2..7;

/// Small antennas that use every key of the form.
fn own_files() -> Vec<Value> {
    let bay = |z: f64| {
        json!({"name": format!("bay at {z}"), "start_m": [0.8, 0.0, z - 0.71], "end_m": [0.8, 0.0, z + 0.71],
               "radius_m": 0.008, "segments": 21})
    };
    let pole =
        json!({"name": "pole", "start_m": [0.0, 0.0, -2.0], "end_m": [0.0, 0.0, 4.0], "radius_m": 0.03});
    let cuts = json!({
        "azimuth_cut": {"elevation_deg": 0.0, "azimuth_step_deg": 30.0},
        "elevation_cut": {"azimuth_deg": 0.0, "elevation_from_deg": -90.0, "elevation_step_deg": 15.0}
    });
    let both = json!([{"wire": 0}, {"wire": 1, "position": 0.5, "volts": [0.0, 1.0]}]);
    vec![
        json!({"id": "stack", "frequency_mhz": 98.0, "wires": [bay(0.0), bay(2.1), pole], "sources": both, "cuts": cuts,
               "loads": [{"wire": 2, "position": 0.25, "ohm": [10.0, -40.0]}],
               "feed": {"kind": "incident_waves", "z0_ohm": 50.0, "power_w": [1.0, 2.0], "phase_deg": [0.0, 20.0]}}),
        json!({"title": "two lines", "frequency_mhz": 92.4, "ends": "closed", "wires": [bay(0.0), bay(1.9)], "sources": both,
               "feed": {"kind": "common_node", "lines": [
                   {"z0_ohm": 75.0, "electrical_length_m": 2.0}, {"z0_ohm": 75.0, "electrical_length_m": 2.4}]}}),
        json!({"frequency_mhz": 98.0, "ground": "perfect", "conductor": "perfect", "cuts": cuts,
               "wires": [{"name": "mast", "start_m": [0.0, 0.0, 0.0], "end_m": [0.0, 0.0, 1.5], "radius_m": 0.006},
                         {"name": "arm", "start_m": [0.0, 0.0, 0.9], "end_m": [0.5, 0.1, 1.2], "radius_m": 0.004},
                         {"name": "stay", "start_m": [0.0, 0.0, 1.2], "end_m": [-0.8, 0.0, 0.0], "radius_m": 0.002}],
               "sources": [{"wire": 0, "position": 0.0, "volts": [1.0, 0.0]}],
               "loads": [{"wire": 2, "position": 1.0, "ohm": [100.0, 0.0]}]}),
    ]
}

/// The smaller of the reference cases beside the tree, where they are.
fn reference_files() -> Vec<Value> {
    let shared = std::env::var_os("STATIONWRIGHT_SHARED").map_or_else(
        || PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../../shared"),
        PathBuf::from,
    );
    let Ok(dir) = shared.join("validation/antenna").read_dir() else {
        return Vec::new();
    };
    let mut paths: Vec<PathBuf> = dir.flatten().map(|entry| entry.path()).collect();
    paths.sort();
    let read = |path: &PathBuf| -> Option<Value> {
        let mut file: Value = serde_json::from_str(&std::fs::read_to_string(path).ok()?).ok()?;
        let small = file["wires"].as_array().is_some_and(|wires| wires.len() <= 5);
        for answer in [
            "expected",
            "doubled_segments",
            "independent_check",
            "suggested_tolerance",
        ] {
            file.as_object_mut()?.remove(answer);
        }
        small.then_some(file)
    };
    paths.iter().filter_map(read).collect()
}

/// Every place in a tree, as a pointer.
fn places(value: &Value, at: &str, found: &mut Vec<String>) {
    found.push(at.to_owned());
    match value {
        Value::Array(list) => {
            for (i, inner) in list.iter().enumerate() {
                places(inner, &format!("{at}/{i}"), found);
            }
        }
        Value::Object(keys) => {
            for (key, inner) in keys {
                places(inner, &format!("{at}/{key}"), found);
            }
        }
        _ => {}
    }
}

fn number(rng: &mut ChaCha8Rng) -> Value {
    let odd = [
        0.0,
        -0.0,
        1.0,
        -1.0,
        0.5,
        2.0,
        1e-300,
        -1e-300,
        1e-12,
        1e-6,
        1e4,
        -1e4,
        1e9,
        1e15,
        1e300,
        -1e300,
        f64::MAX,
    ];
    match rng.random_range(0..4) {
        0 => json!(rng.random_range(FEW)),
        1 => json!(u64::MAX),
        2 => json!(rng.random_range(-3.0..3.0)),
        _ => json!(odd.choose(rng)),
    }
}

fn bend(file: &mut Value, rng: &mut ChaCha8Rng) {
    let mut all = Vec::new();
    places(file, "", &mut all);
    let numbers: Vec<&String> = all
        .iter()
        .filter(|p| file.pointer(p).is_some_and(Value::is_number))
        .collect();
    let any = all[1..].choose(rng).cloned().unwrap_or_default();
    let some_number = numbers.choose(rng).map(|p| p.to_string()).unwrap_or_default();
    let parent_and_key = |p: &str| p.rsplit_once('/').map(|(a, b)| (a.to_owned(), b.to_owned()));
    match rng.random_range(0..9) {
        0 => {
            if let Some((parent, key)) = parent_and_key(&any) {
                match file.pointer_mut(&parent) {
                    Some(Value::Object(keys)) => drop(keys.remove(&key)),
                    Some(Value::Array(list)) => drop(key.parse::<usize>().map(|i| list.remove(i))),
                    _ => {}
                }
            }
        }
        1 => {
            let odd = [
                json!(null),
                json!("thin"),
                json!([]),
                json!({}),
                json!(true),
                json!([1, 2, 3, 4]),
                number(rng),
            ];
            *file.pointer_mut(&any).expect("a place") = odd.choose(rng).expect("not empty").clone();
        }
        2 => {
            // An element twice: two wires on one another, two sources at one place.
            let lists: Vec<&String> = all
                .iter()
                .filter(|p| file.pointer(p).is_some_and(Value::is_array))
                .collect();
            if let Some(list) = lists
                .choose(rng)
                .and_then(|p| file.pointer_mut(p))
                .and_then(Value::as_array_mut)
                && let Some(one) = list.choose(rng).cloned()
            {
                list.push(one);
            }
        }
        3 => {
            // A key written wrong.
            if let Some((parent, key)) = parent_and_key(&any)
                && let Some(Value::Object(keys)) = file.pointer_mut(&parent)
                && let Some(value) = keys.remove(&key)
            {
                keys.insert(key.chars().rev().collect(), value);
            }
        }
        // A number that stands elsewhere: wires that meet, touch, cross, lie on the ground or on each other.
        4 | 5 => {
            let other = numbers.choose(rng).and_then(|p| file.pointer(p)).cloned();
            if let (Some(other), Some(place)) = (other, file.pointer_mut(&some_number)) {
                *place = other;
            }
        }
        6 => {
            if let Some(place) = file.pointer_mut(&some_number) {
                let factor = [0.5, 0.9, 1.1, 2.0, -1.0].choose(rng).expect("not empty");
                *place = json!(place.as_f64().unwrap_or(1.0) * factor);
            }
        }
        _ => {
            let value = number(rng);
            if let Some(place) = file.pointer_mut(&some_number) {
                *place = value;
            }
        }
    }
}

fn mutated(files: &[Value], seed: u64) -> String {
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    let mut file = files.choose(&mut rng).expect("files").clone();
    for _ in 0..rng.random_range(1..=3) {
        bend(&mut file, &mut rng);
    }
    let mut text = file.to_string();
    if rng.random_range(0..12) == 0 {
        let at = rng.random_range(0..text.len());
        if text.is_char_boundary(at) {
            match rng.random_range(0..3) {
                0 => text.truncate(at),
                1 => text.insert(
                    at,
                    *['{', ']', '"', '9', '-', 'e']
                        .choose(&mut rng)
                        .expect("not empty"),
                ),
                _ => drop(text.remove(at)),
            }
        }
    }
    text
}

#[test]
fn prop_two_thousand_bent_files_are_answered_or_refused() {
    let files = [own_files(), reference_files()].concat();
    for (index, file) in files.iter().enumerate() {
        let whole = WireFile::parse(&file.to_string()).and_then(|f| f.answer());
        assert!(whole.is_ok(), "file {index} unbent: {:?}", whole.err());
    }
    let (mut answered, mut refused) = (0, 0);
    for seed in SEED..SEED + MUTATIONS {
        let text = mutated(&files, seed);
        let answer = catch_unwind(AssertUnwindSafe(|| {
            WireFile::parse(&text).and_then(|file| file.answer())
        }));
        match answer.unwrap_or_else(|_| panic!("seed {seed} panics: {text}")) {
            Ok(answer) => {
                answered += 1;
                let json = answer.to_json();
                assert!(
                    !json.contains("null"),
                    "seed {seed}: no number in {json} of {text}"
                );
                assert!(
                    (0.8..=1.25).contains(&answer.power_balance),
                    "seed {seed}: {json}"
                );
            }
            Err(fault) => {
                refused += 1;
                let said = fault.to_string();
                assert!(said.len() > 10 && !said.contains("NaN"), "seed {seed}: {said}");
            }
        }
    }
    println!("{answered} answered, {refused} refused");
    assert!(
        answered > 200 && refused > 600,
        "{answered} answered, {refused} refused: bent too much or too little"
    );
}
