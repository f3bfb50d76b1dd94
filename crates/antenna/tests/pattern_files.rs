//! Pattern files go out and come back.
#![allow(clippy::unwrap_used, reason = "tests")]

use antenna::array::{ElementKind, StackPlan};
use antenna::direction::Plane;
use antenna::feed::{Cable, Feed, Splitter};
use antenna::line::LineConstants;
use antenna::pattern::{CutKind, MeasuredPattern, Pattern, PatternFile, PatternForm};

fn pattern(element: ElementKind) -> Pattern {
    let stack = StackPlan {
        frequency_mhz: 98.0,
        bays: 4,
        spacing_m: 2.6,
        element,
        bearing_deg: 75.0,
        pole_radius_m: Some(0.03),
        stand_off_m: 0.75,
    }
    .stack()
    .unwrap();
    let cable = Cable {
        line: LineConstants::new(0.4022, 0.000782, 0.85, 50.0).unwrap(),
        length_m: 4.0,
    };
    Pattern::of(
        &stack,
        &Feed::equal(Splitter::quarter_wave(4, 98.0, 0.1), 4, cable),
    )
    .unwrap()
    .0
}

#[test]
fn prop_nsma_round_trip_keeps_every_value_within_a_hundredth() {
    let p = pattern(ElementKind::Slant { lean_deg: 45.0 });
    for plane in Plane::BOTH {
        let mut file = PatternFile::of(&p, &[plane], 0.25);
        file.maker = "Invented Aerials, Ltd".into();
        file.model = "X4".into();
        file.date = "20260101".into();
        let text = file.to_text();
        assert!(text.ends_with("ENDFIL:,EOF\r\n") && text.starts_with("REVNUM:,NSMA WG16.99.050\r\n"));
        let back = PatternFile::parse(&text).unwrap();
        assert_eq!(back.maker, "Invented Aerials  Ltd");
        assert_eq!(back.cuts.len(), 2);
        assert!((back.gain_dbd - file.gain_dbd).abs() < 0.01);
        for (a, b) in file.cuts.iter().zip(&back.cuts) {
            assert_eq!(
                (a.points.len(), &a.kind, &a.polarisation),
                (b.points.len(), &b.kind, &b.polarisation)
            );
            let worst = a
                .points
                .iter()
                .zip(&b.points)
                .map(|(p, q)| (p.1 - q.1).abs().max((p.0 - q.0).abs()));
            assert!(worst.fold(0.0, f64::max) < 0.01);
        }
        // And what goes out a second time is the same text.
        assert_eq!(
            PatternFile {
                maker: file.maker.replace(',', " "),
                ..back
            }
            .to_text(),
            text
        );
    }
}

#[test]
fn prop_pattern_from_its_own_cuts_meets_them() {
    let p = pattern(ElementKind::Vertical);
    let q = PatternFile::of(&p, &[Plane::Vertical], 0.25)
        .pattern(Plane::Vertical, 98.0)
        .unwrap();
    let peak = p.peak(Plane::Vertical);
    for bearing in 0..360 {
        let b = f64::from(bearing);
        let (x, y) = (
            p.gain_dbd(Plane::Vertical, b, peak.elev_deg),
            q.gain_dbd(Plane::Vertical, b, peak.elev_deg),
        );
        assert!((x - y).abs() < 0.03, "{b}: {x} {y}");
    }
    for elev in -80..80 {
        let e = f64::from(elev);
        let (x, y) = (
            p.gain_dbd(Plane::Vertical, peak.bearing_deg, e),
            q.gain_dbd(Plane::Vertical, peak.bearing_deg, e),
        );
        assert!((x - y).abs() < 0.05 || x < peak.gain_dbd - 25.0, "{e}: {x} {y}");
    }
    assert!(
        PatternFile::of(&p, &[Plane::Vertical], 1.0)
            .pattern(Plane::Horizontal, 98.0)
            .is_err()
    );
}

#[test]
fn reads_what_others_write() {
    // Angles −180…180, gain in dBi, lower-case kind, unknown tags, a third column (invented).
    let text = "REVNUM:,NSMA WG16.99.050\nANTMAN:,SOMEONE\nNEWTAG:,whatever\nGUNITS:,DBI/DBR\nMDGAIN:,5.15\nNUMCUT:,2\n\
        PATCUT:,az\nPOLARI:,V/V\nNUPOIN:,4\n-180,-20,0\n-90,-6,0\n0,0,0\n90,-6,0\n\
        PATCUT:,EL\nPOLARI:,V/V\nNUPOIN:,3\n-90,-40\n0,0\n90,-40\nENDFIL:,EOF\n";
    let file = PatternFile::parse(text).unwrap();
    assert!((file.gain_dbd - 3.0).abs() < 1e-9);
    let p = file.pattern(Plane::Vertical, 98.0).unwrap();
    for (b, want) in [(0.0, 3.0), (90.0, -3.0), (180.0, -17.0), (270.0, -3.0)] {
        assert!((p.gain_dbd(Plane::Vertical, b, 0.0) - want).abs() < 0.01);
    }
    // Between the points on linear field: (1 + 0.501)/2 at 45°.
    assert!((p.gain_dbd(Plane::Vertical, 45.0, 0.0) - 3.0 - 20.0 * 0.7506f64.log10()).abs() < 0.01);
    assert_eq!(p.gain_dbd(Plane::Horizontal, 0.0, 0.0), -100.0);
}

#[test]
fn prop_csv_round_trip_keeps_every_value_within_a_hundredth() {
    let p = pattern(ElementKind::Crossed { right_handed: true });
    let text = p.to_csv(2.0, 1.0);
    let q = Pattern::from_csv(&text, 98.0).unwrap();
    for line in text.lines().skip(1) {
        let v: Vec<f64> = line.split(',').map(|w| w.parse().unwrap()).collect();
        for (plane, want) in Plane::BOTH.into_iter().zip([v[2], v[3]]) {
            let got = q.gain_dbd(plane, v[0], v[1]);
            assert!((got - want).abs() < 0.01, "{line}: {got}");
        }
    }
    assert_eq!(q.to_csv(2.0, 1.0).lines().count(), text.lines().count());
}

#[test]
fn bad_files_name_line_and_cure() {
    let words = |t: &str| PatternFile::parse(t).unwrap_err().to_string();
    assert!(words("MDGAIN:,five\n").contains("line 1"));
    assert!(words("GUNITS:,DBQ/DBR\n").contains("DBI or DBD"));
    assert!(words("MDGAIN:,5\n").contains("cut with points"));
    assert!(words("PATCUT:,AZ\nNUPOIN:,3\n0,0\n10,-1\n").contains("3 points announced"));
    assert!(words("PATCUT:,AZ\nNUPOIN:,1\n0,7\n").contains("line 3"));
    assert!(words("NUPOIN:,1\n0,0\n").contains("PATCUT"));
    let csv = |t: &str| Pattern::from_csv(t, 98.0).unwrap_err().to_string();
    assert!(csv("bearing_deg,elev_deg,vertical_gain_dbd\n").contains("horizontal_gain_dbd"));
    let head = "bearing_deg,elev_deg,vertical_gain_dbd,horizontal_gain_dbd\n";
    assert!(csv(&format!("{head}0,-90,0,0\n0,0,x,0\n")).contains("line 3"));
    assert!(csv(&format!("{head}0,-90,0,0\n0,0,0,0\n0,90,0,0\n90,-90,0,0\n")).contains("full grid"));
    assert!(csv(head).contains("0 rows"));
}

#[test]
fn prop_a_pattern_laid_over_itself_lies_on_it() {
    let p = pattern(ElementKind::Slant { lean_deg: 45.0 });
    // A table of 2° by 1° is interpolated between its rows, so it may miss a narrow lobe's side by a little.
    for (form, allowed_db) in [(PatternForm::Nsma, 0.002), (PatternForm::Csv, 0.15)] {
        let text = form.text(&p, &Plane::BOTH, "A1", "invented");
        let apart = MeasuredPattern::parse(&text, form, 98.0)
            .unwrap()
            .over(&p, &Plane::BOTH, 0.0)
            .unwrap();
        assert_eq!(apart.len(), 4, "{form:?}");
        for cut in apart {
            assert!(
                cut.largest_db.abs() < allowed_db && cut.points > 30,
                "{form:?}: {cut:?}"
            );
        }
    }
}

/// A measurement bent by known amounts: a gain short by 1 dB, a bump of 3 dB on one bearing, a turned zero.
#[test]
fn verif_what_was_bent_is_what_is_found() {
    let p = pattern(ElementKind::Vertical);
    let planes = [Plane::Vertical];
    let mut file = PatternFile::of(&p, &planes, 0.5);
    let over = |file: &PatternFile, zero_deg| {
        MeasuredPattern::Cuts(file.clone())
            .over(&p, &planes, zero_deg)
            .unwrap()
    };
    file.gain_dbd -= 1.0;
    for cut in over(&file, 0.0) {
        for (what, db) in [
            ("mean", cut.mean_db),
            ("largest", cut.largest_db),
            ("rms", -cut.rms_db),
        ] {
            assert!((db + 1.0).abs() < 1e-3, "{what}: {cut:?}");
        }
    }
    file.gain_dbd += 1.0;
    let at = p.peak(Plane::Vertical).bearing_deg.round() as usize % 360;
    file.cuts[0].points[at].1 += 3.0;
    let [round, up] = over(&file, 0.0)[..] else {
        panic!("two cuts")
    };
    assert_eq!((round.kind, up.kind), (CutKind::Azimuth, CutKind::Elevation));
    assert!((round.largest_db - 3.0).abs() < 1e-3 && (round.largest_at_deg - at as f64).abs() < 1e-9);
    assert!(
        (round.rms_db - 3.0 / (round.points as f64).sqrt()).abs() < 1e-3,
        "{round:?}"
    );
    assert!(up.largest_db.abs() < 1e-3);
    file.cuts[0].points[at].1 -= 3.0;
    // The same cut counted from a zero that looks to 30°.
    for point in &mut file.cuts[0].points {
        point.0 = (point.0 - 30.0).rem_euclid(360.0);
    }
    assert!(over(&file, 30.0)[0].rms_db < 1e-3 && over(&file, 0.0)[0].rms_db > 0.1);
}

#[test]
fn bad_measurement_of_another_plane() {
    let p = pattern(ElementKind::Vertical);
    let file = PatternFile::of(&p, &[Plane::Horizontal], 1.0);
    let fault = MeasuredPattern::Cuts(file)
        .over(&p, &[Plane::Vertical], 0.0)
        .unwrap_err();
    assert!(fault.to_string().contains("plane the antenna has"), "{fault}");
    assert_eq!(PatternForm::of_extension("CSV"), Some(PatternForm::Csv));
    assert_eq!(PatternForm::of_extension("pdf"), None);
}
