//! The antenna sheet against the numbers it is made of, and against what currents and powers must obey.

mod bench;

use assess::antenna_sheets;
use bench::sound;
use serde_json::json;

#[test]
fn the_sheet_of_a_full_answer_adds_up() {
    sound().with_case(|case| {
        let outcome = assess::evaluate(case, &assess::Fields::default());
        let sheets = antenna_sheets(case, &outcome);
        let (sheet, path) = (&sheets[0], &outcome.transmission.emissions[0]);
        assert!(sheet.full && sheet.draft_apart_db.is_some_and(|d| d > 0.0 && d < 6.0));
        // Power: what the bays take is what goes into the splitter less reflection and the feed's loss.
        let Ok(radiating) = &path.radiating else {
            panic!("no pattern")
        };
        let into = path.power_w.unwrap_or(0.0) * 10f64.powf(-path.loss_db() / 10.0);
        let bays: f64 = sheet.bays.iter().filter_map(|b| b.power_w).sum();
        let kept = 10f64.powf(-radiating.feed_loss_db / 10.0);
        assert!((bays / (into * kept) - 1.0).abs() < 1e-6, "{bays} W, {into} W in");
        // Currents: none at a free end, continuous along the wire.
        let bay = sheet
            .wires
            .iter()
            .find(|w| w.name.starts_with("bay1"))
            .unwrap_or(&sheet.wires[0]);
        let most = bay.current.iter().map(|c| c.1).fold(0.0, f64::max);
        assert!(bay.current[0].1 < 1e-9 && bay.current[bay.current.len() - 1].1 < 1e-9);
        assert!(
            bay.current
                .windows(2)
                .all(|w| w[1].0 > w[0].0 && (w[1].1 - w[0].1).abs() < 0.25 * most)
        );
        // The annex is the licence's own round; HAAT is the mean of its radials (47 CFR 73.313(d)).
        assert_eq!(sheet.annex.len(), 36);
        for row in &sheet.annex {
            let strongest = path.strongest_erp_w(station::licence::Plane::Vertical, row.azimuth_deg);
            assert_eq!(row.vertical_w, strongest);
            assert!(
                row.effective_height_m.is_some_and(f64::is_finite)
                    && row.margin_db.is_some_and(|m| m > -1e-6)
            );
        }
        let mean = sheet.haat_radials.iter().map(|r| r.1).sum::<f64>() / 8.0;
        assert!(sheet.haat_m.is_some_and(|h| (h - mean).abs() < 1e-9));
        // The strongest of the unrolled pattern is near the peak, and every wish with a place is on it.
        let plane = &sheet.planes[0];
        let unrolled = plane
            .unrolled
            .gain_dbd
            .iter()
            .flatten()
            .copied()
            .fold(-99.0, f64::max);
        assert!(unrolled <= plane.gain_dbd + 0.01 && unrolled > plane.gain_dbd - 0.2);
        assert_eq!(sheet.harness.len(), sheet.bays.len());
    });
}

#[test]
fn a_draft_says_so_and_bays_may_hang_each_its_own_way() {
    let draft = sound().set("study.antennas", "array");
    draft.with_case(|case| {
        let sheets = antenna_sheets(case, &assess::evaluate(case, &assess::Fields::default()));
        assert!(!sheets[0].full && sheets[0].draft_apart_db.is_none() && sheets[0].wires.is_empty());
    });
    let count = sound().with_case(|case| case.station.antennas[0].bays.value().copied().unwrap_or(0));
    let list = |value: &str| json!(vec![value; count as usize]);
    let mut phases = vec!["0°"; count as usize];
    phases[0] = "-90°";
    let own = sound()
        .set("antennas.ANT1.bay_azimuths", list("200°"))
        .set("antennas.ANT1.bay_phases", json!(phases));
    own.with_case(|case| {
        let sheets = antenna_sheets(case, &assess::evaluate(case, &assess::Fields::default()));
        let sheet = &sheets[0];
        assert!(sheet.bays.iter().all(|b| b.bearing_deg == 200.0));
        // The topmost lags by a quarter: its cable is longer by a quarter of a wave in it.
        let (top, next) = (&sheet.harness[0], &sheet.harness[1]);
        let quarter_mm = 1e3 * 0.25 * antenna::line::wavelength_m(sheet.frequency_mhz) * top.velocity_ratio;
        assert!(
            (top.longer_mm - next.longer_mm - quarter_mm).abs() < 0.01
                && (next.phase_deg - 90.0).abs() < 1e-6
        );
    });
    // One bay too few is refused, not guessed.
    let short = sound().set("antennas.ANT1.bay_phases", json!(["0°"]));
    if count > 1 {
        short.with_case(|case| {
            let outcome = assess::evaluate(case, &assess::Fields::default());
            assert!(outcome.transmission.emissions[0].radiating.is_err());
        });
    }
}

/// Two programmes on one antenna: each at its own frequency, powers and peak voltages added at every connector.
#[test]
fn two_programmes_share_an_antenna_cut_for_the_first() {
    let one = sound();
    let second = one.with_case(|case| {
        let mut e = case
            .file
            .at("emissions.E1")
            .map(|n| n.to_json())
            .unwrap_or_default();
        e["tag"] = "E2".into();
        e["frequency"] = "104.3 MHz".into();
        e
    });
    let alone =
        one.with_case(|case| antenna_sheets(case, &assess::evaluate(case, &assess::Fields::default())));
    let both = one.set("emissions.E2", second);
    both.with_case(|case| {
        let sheets = antenna_sheets(case, &assess::evaluate(case, &assess::Fields::default()));
        assert_eq!(sheets.len(), 2);
        assert_eq!(
            (sheets[0].frequency_mhz, sheets[1].frequency_mhz),
            (alone[0].frequency_mhz, 104.3)
        );
        // The first is what it was alone; the second is not matched as well by bays that are cut for the first.
        assert_eq!(sheets[0].planes, alone[0].planes);
        assert!(sheets[1].vswr > sheets[0].vswr);
        assert_eq!(sheets[0].harness.len(), sheets[1].harness.len());
        assert!(
            sheets[0]
                .harness
                .iter()
                .zip(&sheets[1].harness)
                .all(|(a, b)| a.cut_m == b.cut_m)
        );
        for (i, sum) in sheets[0].together.iter().enumerate() {
            let volts: f64 = sheets.iter().filter_map(|s| s.bays[i].peak_v).sum();
            let watts: f64 = sheets.iter().filter_map(|s| s.bays[i].power_w).sum();
            assert!(volts > 0.0 && (sum.peak_v - volts).abs() < 1e-9 && (sum.power_w - watts).abs() < 1e-9);
        }
        assert_eq!(sheets[1].shares_with, ["E1"]);
    });
}

/// Panels and tubes of a lattice that the file does not state are assumptions with bounds, and what they are worth is the
/// antenna's: the gain towards the strongest direction moves by tenths of a decibel from bound to bound, never by nothing.
#[test]
fn the_proportions_of_a_lattice_are_assumed_and_worth_something() {
    let lattice = || {
        sound()
            .set("sites.HILL.mast.kind", "guyed lattice")
            .set("sites.HILL.mast.width", "0.4 m")
    };
    let judged = lattice().judge(false);
    let gain_dbd = |bench: bench::Bench| {
        bench.with_case(|case| {
            let outcome = assess::evaluate(case, &assess::Fields::default());
            let radiating = outcome.transmission.emissions[0].radiating.as_ref().ok();
            radiating.map(|r| r.pattern.gain_dbd(antenna::direction::Plane::Vertical, 90.0, 0.0))
        })
    };
    for key in ["panel", "leg", "bracing"] {
        let path = format!("sites.HILL.mast.{key}");
        let ranked = judged
            .assessment
            .assumptions
            .iter()
            .find(|a| a.assumption.path == path);
        let assumed = &ranked
            .unwrap_or_else(|| panic!("{path} is not listed"))
            .assumption;
        let at = |bound: &Option<serde_json::Value>| {
            gain_dbd(lattice().set(&path, bound.clone().unwrap_or_default())).unwrap_or(f64::NAN)
        };
        let moved_db = at(&assumed.high) - at(&assumed.low);
        println!("{key}: {moved_db:+.3} dB towards 90°");
        assert!(
            moved_db.abs() > 1e-4 && moved_db.abs() < 2.0,
            "{key}: {moved_db} dB"
        );
    }
}
