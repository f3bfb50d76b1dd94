//! Files made to hurt: large, deep, repetitive. A clear answer, and soon.

use std::time::{Duration, Instant};

use folder::{Reading, StationFile};

fn soon(text: String) -> Reading {
    let start = Instant::now();
    let reading = Reading::of("station.toml", text);
    assert!(start.elapsed() < Duration::from_secs(30), "{:?}", start.elapsed());
    reading
}

#[test]
fn bad_ten_megabytes_are_refused_with_a_reason() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("station.toml");
    std::fs::write(&path, "format = 1\n".repeat(1_000_000)).unwrap();
    let error = StationFile::open(&path).unwrap_err().to_string();
    assert!(error.contains("11,000,000 bytes; at most"), "{error}");
    assert!(soon("x".repeat(10_000_000)).faults[0].what.code == "file-too-large");
}

#[test]
fn a_file_just_under_the_limit_is_read_soon() {
    let mut text = "format = 1\nname = \"Large\"\n".to_owned();
    let mut n = 0;
    while text.len() < 3_900_000 {
        text.push_str(&format!(
            "[[items]]\ntag = \"T{n}\"\nshelf = \"x\"\nplace = \"P{n}\"\n"
        ));
        n += 1;
    }
    let reading = soon(text);
    assert!(reading.faults.len() > 1000, "every dangling place is told");
    assert!(reading.station.is_none());
}

#[test]
fn bad_a_line_of_megabytes_and_a_thousand_faults_are_told_soon() {
    let wide = soon(format!(
        "format = 1\nname = \"{}\"\nbad = [{}]\n",
        "µ".repeat(900_000),
        "1,".repeat(500_000)
    ));
    assert_eq!(wide.faults.len(), 1);
    let many = soon((0..20_000).map(|n| format!("bad{n} = \n")).collect());
    assert!(many.faults.len() >= 20_000);
}

#[test]
fn bad_bytes_are_named() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("station.toml");
    std::fs::write(&path, b"format = 1\nname = \"caf\xe9\"\n").unwrap();
    assert!(
        StationFile::open(folder.path())
            .unwrap_err()
            .to_string()
            .contains("byte 22")
    );
    assert!(
        StationFile::open(&folder.path().join("none"))
            .unwrap_err()
            .to_string()
            .contains("none")
    );
}

/// Values that no station has: each is refused with its place, none gets into the model.
#[test]
fn bad_values_are_refused_one_by_one() {
    for (line, part) in [
        (
            "sites = [{ tag = \"A\", name = \"A\", position = \"8.4, 146.6\" , x = nan }]",
            "`x` is not known",
        ),
        (
            "sites = [{ tag = \"A\", name = \"A\", position = \"146.6, 8.4\" }]",
            "swapped",
        ),
        (
            "sites = [{ tag = \"A\", name = \"A\", position = \"NaN, 8.4\" }]",
            "no number that can be used",
        ),
        ("study = { delta_n = nan }", "finite"),
        ("study = { delta_n = inf }", "finite"),
        ("study = { step = \"-90 m\" }", "beyond what is possible"),
        ("study = { step = \"1e999 m\" }", "no number that can be used"),
        (
            "emissions = [{ tag = \"E1\", frequency = \"0 MHz\" }]",
            "beyond what is possible",
        ),
        (
            "emissions = [{ tag = \"E1\", power = \"-5 W\" }]",
            "beyond what is possible",
        ),
        (
            "emissions = [{ tag = \"E1\", licence = { erp = \"-500 W ERP total\" } }]",
            "ERP",
        ),
        ("revision = 99999999999999999999", "too large"),
    ] {
        let reading = Reading::of("x", format!("format = 1\nname = \"x\"\n{line}\n"));
        assert!(reading.station.is_none(), "{line} was taken");
        assert!(
            reading
                .faults
                .iter()
                .any(|f| f.line == 3 && f.to_string().contains(part)),
            "{line}: {:?}",
            reading.faults
        );
    }
}
