//! Floors never point up: a crate knows only crates of the floors below its own.

use std::path::Path;
use std::process::Command;

/// Every crate of the workspace with its floor (ARCHITECTURE.md, "Floors").
const FLOORS: &[(&str, u8)] = &[
    ("quantity", 1),
    ("words", 1),
    ("terrain", 2),
    ("propagation", 2),
    ("antenna", 2),
    ("coverage", 3),
    ("station", 3),
    ("assess", 4),
    ("folder", 4),
    ("planner", 5),
    ("papers", 5),
    ("server", 6),
    ("stationwright", 6),
    ("house", 7),
    ("coverage-bench", 7),
    ("itm-bench", 7),
    ("propagation-bench", 7),
    ("station-bench", 7),
    ("wires-bench", 7),
];

/// The arrows within one floor that are meant, each with its reason. None may close a circle.
const LEVEL_ARROWS: &[(&str, &str, &str)] = &[
    (
        "words",
        "quantity",
        "a sentence shows a quantity, and numbers are written by locale",
    ),
    ("stationwright", "server", "the binary starts the server"),
];

/// One dependency of one crate upon another of ours.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Arrow {
    from: String,
    to: String,
    for_tests: bool,
}

fn floor(name: &str) -> Option<u8> {
    FLOORS
        .iter()
        .find(|(known, _)| *known == name)
        .map(|(_, floor)| *floor)
}

fn level_reason(arrow: &Arrow) -> Option<&'static str> {
    LEVEL_ARROWS
        .iter()
        .find(|(from, to, _)| *from == arrow.from && *to == arrow.to)
        .map(|(_, _, reason)| *reason)
}

/// What is wrong with an arrow, in words.
fn complaint(arrow: &Arrow) -> Option<String> {
    let (Some(from), Some(to)) = (floor(&arrow.from), floor(&arrow.to)) else {
        let stranger = if floor(&arrow.from).is_none() {
            &arrow.from
        } else {
            &arrow.to
        };
        return Some(format!(
            "`{stranger}` has no floor: name it in FLOORS of crates/house/tests/floors.rs"
        ));
    };
    if from > to || level_reason(arrow).is_some() {
        return None;
    }
    let tests = if arrow.for_tests {
        ", not in its tests either"
    } else {
        ""
    };
    Some(format!(
        "`{}` (floor {from}) may not know `{}` (floor {to}){tests}",
        arrow.from, arrow.to
    ))
}

/// The crates of the workspace and the arrows between them, as cargo itself reads them.
fn workspace() -> (Vec<String>, Vec<Arrow>) {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let output = Command::new(env!("CARGO"))
        .args(["metadata", "--no-deps", "--offline", "--format-version", "1"])
        .current_dir(root)
        .output()
        .expect("cargo starts");
    assert!(
        output.status.success(),
        "cargo metadata: {}",
        String::from_utf8_lossy(&output.stderr)
    );
    let metadata: serde_json::Value = serde_json::from_slice(&output.stdout).expect("cargo prints JSON");
    let text = |value: &serde_json::Value| value.as_str().expect("cargo prints names").to_owned();
    let packages = metadata["packages"].as_array().expect("cargo lists packages");
    let names: Vec<String> = packages.iter().map(|package| text(&package["name"])).collect();
    let mut arrows = Vec::new();
    for package in packages {
        for dependency in package["dependencies"]
            .as_array()
            .expect("cargo lists dependencies")
        {
            let to = text(&dependency["name"]);
            if names.contains(&to) {
                let for_tests = dependency["kind"] == "dev";
                arrows.push(Arrow {
                    from: text(&package["name"]),
                    to,
                    for_tests,
                });
            }
        }
    }
    (names, arrows)
}

#[test]
fn floors_never_point_up() {
    let (names, arrows) = workspace();
    assert!(
        arrows.len() > 15,
        "only {} arrows found: is this the workspace?",
        arrows.len()
    );
    let mut complaints: Vec<String> = arrows.iter().filter_map(complaint).collect();
    for name in names.iter().filter(|name| floor(name).is_none()) {
        complaints.push(format!(
            "`{name}` has no floor: name it in FLOORS of crates/house/tests/floors.rs"
        ));
    }
    assert!(complaints.is_empty(), "\n{}", complaints.join("\n"));
}

#[test]
fn the_list_of_floors_names_only_crates_and_arrows_that_exist() {
    let (names, arrows) = workspace();
    for (name, _) in FLOORS {
        assert!(
            names.iter().any(|known| known == name),
            "FLOORS names `{name}`, which is no crate here"
        );
    }
    for (from, to, _) in LEVEL_ARROWS {
        assert_eq!(floor(from), floor(to), "`{from}` and `{to}` are not on one floor");
        assert!(
            arrows.iter().any(|a| a.from == *from && a.to == *to),
            "LEVEL_ARROWS allows `{from}` to know `{to}`, and nobody uses it: take it out"
        );
    }
}

#[test]
fn an_arrow_upwards_is_named_in_words() {
    let arrow = |from: &str, to: &str, for_tests| Arrow {
        from: from.into(),
        to: to.into(),
        for_tests,
    };
    assert_eq!(
        complaint(&arrow("terrain", "station", false)).as_deref(),
        Some("`terrain` (floor 2) may not know `station` (floor 3)")
    );
    assert_eq!(
        complaint(&arrow("assess", "folder", true)).as_deref(),
        Some("`assess` (floor 4) may not know `folder` (floor 4), not in its tests either")
    );
    assert_eq!(
        complaint(&arrow("quantity", "words", false)).map(|c| c.contains("may not know")),
        Some(true)
    );
    assert_eq!(complaint(&arrow("words", "quantity", false)), None);
    assert_eq!(complaint(&arrow("papers", "assess", false)), None);
    assert!(
        complaint(&arrow("attic", "quantity", false)).is_some_and(|c| c.contains("`attic` has no floor"))
    );
}
