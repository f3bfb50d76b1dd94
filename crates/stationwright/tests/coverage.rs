//! `stationwright coverage` as a user runs it on the demo station: the best hills, another method, the difference of the two.
#![expect(
    clippy::unwrap_used,
    reason = "a test stops at the first thing that is not as it should be"
)]

use assert_cmd::Command;
use coverage::{ErpTable, Study, at_place};
use folder::StationFile;
use serde_json::Value;
use server::desk::Desk;
use server::masts::{MastAsk, NO_SHARE};
use station::Station;
use stationwright::commands::assess::assess_folder;
use stationwright::desk::StationDesk;
use stationwright::office::{Office, read, today};
use std::path::Path;

/// The demo's folder with a small study, so that a test takes seconds.
fn folder() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let text = include_str!("../../../examples/orrenay/station.toml");
    let small = text
        .replace("radius = \"30 km\"", "radius = \"9 km\"")
        .replace("within = \"25 km\"", "within = \"8 km\"")
        .replace("antennas = \"wires\"", "antennas = \"array\"");
    assert_ne!(small, text);
    std::fs::write(folder.path().join("station.toml"), small).unwrap();
    folder
}

fn coverage(folder: &Path, more: &[&str]) -> std::process::Output {
    Command::cargo_bin("stationwright")
        .unwrap()
        .arg("coverage")
        .arg(folder)
        .args(more)
        .output()
        .unwrap()
}

fn answered(folder: &Path, more: &[&str]) -> Value {
    let out = coverage(folder, more);
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
    serde_json::from_slice(&out.stdout).unwrap()
}

/// Issue 2.7: what the search says of its hills, a forward prediction from each of them says too.
#[test]
fn the_best_hills_are_named_and_a_forward_run_agrees() {
    let folder = folder();
    let found = answered(
        folder.path(),
        &["--where", "--erp", "100W", "--mast", "20m", "--json"],
    );
    let best = found["best"].as_array().unwrap();
    assert_eq!(best.len(), 10);
    assert_eq!(found["mast_agl_m"], 20.0);
    assert!((found["erp_kw"].as_f64().unwrap() - 0.1).abs() < 1e-12);
    let people = |hill: &Value| hill["people"].as_f64().unwrap();
    assert!(
        best.windows(2).all(|two| people(&two[0]) >= people(&two[1])),
        "best first"
    );
    assert!(people(&best[0]) <= found["people_total"].as_f64().unwrap() + 1e-6);

    let file = StationFile::open(folder.path()).unwrap();
    let document = read(&file).unwrap();
    let office = Office::open(folder.path(), document, today()).unwrap();
    let filled = station::assumptions::fill(document);
    let station = Station::read(&filled).unwrap();
    let case = office.case(document, &filled, &station);
    let own = assess::proofs::coverage::study(&case, &station.emissions[0]).unwrap();
    let mut apart = Vec::new();
    for hill in best {
        let at = |of: &Value, key: &str| of[key].as_f64().unwrap();
        let site = terrain::Position::new(at(hill, "lat_deg"), at(hill, "lon_deg")).unwrap();
        let spot = case.world.spot(site).unwrap();
        assert!(!spot.water && (spot.height_m - at(hill, "ground_m")).abs() < 0.5);
        for (place, swept) in found["places"]
            .as_array()
            .unwrap()
            .iter()
            .zip(hill["places"].as_array().unwrap())
        {
            let wish = station.brief.wanted.iter().find(|w| {
                let place_of = w.place.as_deref().and_then(|tag| station.place(tag));
                place_of.is_some_and(|p| p.name == place["name"].as_str().unwrap())
            });
            let wish = wish.unwrap();
            let wanted = assess::proofs::coverage::wanted_field(
                &case,
                wish.service,
                *wish.situation.value().unwrap(),
                None,
            );
            let to = terrain::Position::new(at(place, "lat_deg"), at(place, "lon_deg")).unwrap();
            let around = wish.surroundings.value().copied().or(station
                .place(wish.place.as_deref().unwrap())
                .unwrap()
                .surroundings);
            let study = Study {
                site,
                tx_agl_m: 20.0,
                ..own
            };
            let forward = at_place(
                case.world,
                &study,
                to,
                &ErpTable::omni(0.1),
                &wanted,
                around.map(assess::proofs::coverage::surroundings),
            )
            .unwrap();
            apart.push((forward.margin_db - swept["margin_db"].as_f64().unwrap()).abs());
        }
    }
    apart.sort_by(f64::total_cmp);
    let (median, worst) = (apart[apart.len() / 2], apart[apart.len() - 1]);
    println!(
        "swept against forward from {} paths: median {median:.2} dB, worst {worst:.2} dB",
        apart.len()
    );
    // Each run samples the path from its own end, and a cell takes its value from the receivers round it.
    assert!(median < 2.0, "{median}");
}

#[test]
fn hills_are_told_in_words_and_bad_questions_are_refused() {
    let folder = folder();
    let told = coverage(
        folder.path(),
        &["--where", "--place", "VESSABY", "--place", "43.5 N 35.5 W"],
    );
    let text = String::from_utf8(told.stdout).unwrap();
    assert!(told.status.success(), "{text}");
    assert!(
        text.contains("The best hills for 2 places") && text.contains("Vessaby"),
        "{text}"
    );
    assert!(
        text.contains("it counts as one") || text.contains("43.5"),
        "{text}"
    );
    for (bad, says) in [
        (vec!["--where", "--place", "Nowhere"], "There is no place Nowhere"),
        (vec!["--where", "--erp", "5 m"], "power"),
        (vec!["--erp", "5 W"], "--where"),
        (vec!["--where", "--model", "itm"], "--model"),
    ] {
        let out = coverage(folder.path(), &bad);
        assert_eq!(out.status.code(), Some(2), "{bad:?}");
        let why = String::from_utf8(out.stderr).unwrap();
        assert!(why.contains(says), "{bad:?}: {why}");
    }
    let faint = coverage(
        folder.path(),
        &[
            "--where",
            "--erp",
            "0.001 W",
            "--mast",
            "2 m",
            "--place",
            "43.2 N 35.5 W",
        ],
    );
    let text = String::from_utf8(faint.stdout).unwrap();
    assert_eq!(faint.status.code(), Some(1), "{text}");
    assert!(text.contains("No cell of the area serves anybody"), "{text}");
}

#[test]
fn the_page_gets_the_same_hills_on_the_grid_of_its_map() {
    let folder = folder();
    let (office, assessed) = assess_folder(folder.path()).unwrap();
    let desk = StationDesk::new(StationFile::open(folder.path()).unwrap(), office, assessed);
    let ask = MastAsk {
        erp: Some("100 W".into()),
        mast: Some("20 m".into()),
        ..MastAsk::default()
    };
    let picture = desk.masts(&ask).unwrap();
    let map = desk
        .field(&server::map::FieldAsk {
            emission: None,
            heard: server::map::Heard::Roof,
            places: 50,
        })
        .unwrap();
    assert_eq!(
        (picture.masts.width, picture.masts.height),
        (map.legend.width, map.legend.height)
    );
    assert_eq!(picture.share_hundredths.len(), map.field_hundredths.len());
    let shares = picture.share_hundredths.iter().filter(|s| **s != NO_SHARE);
    assert!(shares.clone().count() > 1000 && shares.clone().all(|s| (0..=10_000).contains(s)));
    let found = answered(
        folder.path(),
        &["--where", "--erp", "100W", "--mast", "20m", "--json"],
    );
    for (hill, same) in picture.masts.best.iter().zip(found["best"].as_array().unwrap()) {
        assert!((hill.people.number.unwrap() - same["people"].as_f64().unwrap()).abs() < 1e-6);
        assert_eq!(hill.edits.len(), 1, "the site can be put there");
    }
    let view = desk.draft(&picture.masts.best[0].edits).unwrap();
    assert!(view.draft, "the edit fits the file");
    let lost = desk.masts(&MastAsk {
        places: Some("Nowhere".into()),
        ..ask
    });
    assert_eq!(lost.unwrap_err().code, "not-found");
}

/// Issue 2.3: a coverage may choose the Irregular Terrain Model, and the difference of the two is mapped.
#[test]
fn the_second_method_draws_its_map_and_the_difference_is_mapped() {
    let folder = folder();
    let out = folder.path().join("second");
    let to = out.to_str().unwrap();
    let by_itm = answered(folder.path(), &["--model", "itm", "--out", to, "--json"]);
    for file in ["map.png", "map.tif", "map.geojson", "map.kml"] {
        assert!(out.join(file).exists(), "{file}");
    }
    for row in by_itm["people"].as_array().unwrap() {
        assert!(row["itm"].as_f64().unwrap() > 0.0 && row["p1812"].as_f64().unwrap() > 0.0);
    }
    let apart = answered(folder.path(), &["--difference", "--out", to, "--json"]);
    let of = |key: &str| apart["difference"][key].as_f64().unwrap();
    assert!(of("tenth_db") <= of("median_db") && of("median_db") <= of("ninetieth_db"));
    let csv = std::fs::read_to_string(out.join("difference.csv")).unwrap();
    let rows: Vec<Vec<f64>> = csv
        .lines()
        .skip(1)
        .map(|line| line.split(',').map(|cell| cell.parse().unwrap()).collect())
        .collect();
    assert!(rows.len() > 10_000, "{} cells", rows.len());
    // Cells are mixed of receivers; the mixed difference is the difference of the mixed, to rounding.
    for row in &rows {
        assert!((row[2] - row[3] - row[4]).abs() < 0.03, "{row:?}");
    }
    assert!(out.join("difference.tif").metadata().unwrap().len() > 1000);
    let told = coverage(folder.path(), &["--difference", "--out", to]);
    let text = String::from_utf8(told.stdout).unwrap();
    assert!(
        text.contains("Field by P.1812 less field by the Irregular Terrain Model"),
        "{text}"
    );
    let bad = coverage(folder.path(), &["--model", "itm", "--climate", "9"]);
    assert_eq!(bad.status.code(), Some(2));
}

/// Issue 2.6: long work can be stopped.
#[cfg(unix)]
#[test]
fn ctrl_c_stops_the_search_for_hills() {
    let folder = folder();
    let mut search = std::process::Command::new(assert_cmd::cargo::cargo_bin("stationwright"))
        .arg("coverage")
        .arg(folder.path())
        .args(["--where", "--radius", "200km"])
        .stdout(std::process::Stdio::piped())
        .stderr(std::process::Stdio::piped())
        .spawn()
        .unwrap();
    std::thread::sleep(std::time::Duration::from_secs(2));
    let sent = std::process::Command::new("kill")
        .args(["-INT", &search.id().to_string()])
        .status()
        .unwrap();
    assert!(sent.success());
    let begun = std::time::Instant::now();
    let code = search.wait().unwrap().code();
    println!("stopped after {:.0} ms", begun.elapsed().as_secs_f64() * 1e3);
    let said = std::io::read_to_string(search.stderr.take().unwrap()).unwrap();
    assert_eq!(code, Some(3), "{said}");
    assert!(said.contains("Stopped"), "{said}");
}
