//! Every rule: its finding appears with its cause, and vanishes without it and by its own remedy.

#![expect(
    clippy::unwrap_used,
    reason = "a test stops at the first thing that is not as it should be"
)]

mod bench;

use assess::finding::Severity;
use assess::rules;
use bench::{Bench, Land, sound};
use serde_json::json;
use std::collections::BTreeSet;

/// A way to break the sound station.
struct Cause {
    /// The rule that must notice.
    code: &'static str,
    /// What it must be about; `*` for anything.
    tag: &'static str,
    /// Breaks it.
    by: fn(Bench) -> Bench,
    /// Loss fields are needed to notice.
    fields: bool,
}

const fn cause(code: &'static str, tag: &'static str, by: fn(Bench) -> Bench) -> Cause {
    Cause {
        code,
        tag,
        by,
        fields: false,
    }
}

const fn heard(code: &'static str, tag: &'static str, by: fn(Bench) -> Bench) -> Cause {
    Cause {
        code,
        tag,
        by,
        fields: true,
    }
}

/// Cautions stand as long as there is an antenna or mains: [`cautions_stand_while_their_cause_does`] is their test.
const CAUTIONS: [&str; 5] = ["SA 03", "SA 04", "SA 05", "SA 06", "SA 07"];

/// Rules that no cause here reaches, and why.
const NOT_REACHED: [(&str, &str); 0] = [];

fn another_station(mhz: &str) -> serde_json::Value {
    json!([{ "tag": "O1", "name": "another station", "frequency": mhz }])
}

const CAUSES: &[Cause] = &[
    cause("BR 01", "", |b| b.remove("brief.wanted")),
    cause("BR 02", "", |b| b.remove("brief.budget")),
    cause("BR 03", "HILL", |b| {
        b.set("sites.HILL.mast.allowed_height", "25 m above ground")
    }),
    cause("BR 04", "E1", |b| {
        b.set(
            "emissions.E1.frequency",
            json!({"assumed": "97.4 MHz", "why": "a usual one", "mark": "invented"}),
        )
    }),
    cause("BR 05", "", |b| {
        b.remove("items")
            .remove("cables")
            .remove("antennas")
            .remove("hops")
            .remove("emissions.E1.antenna")
            .remove("emissions.E1.transmitter")
    }),
    cause("BR 06", "items.TX1.shelf", |b| b.set("items.TX1.shelf", "tx-301")),
    cause("BR 07", "language", |b| b.set("language", "de")),
    cause("ST 01", "", |b| b.set("items.MIC.count", 1)),
    cause("ST 02", "", |b| {
        b.shelf("console-10", "audio.microphone_inputs", 2)
    }),
    cause("ST 03", "", |b| b.shelf("console-10", "audio.line_inputs", 2)),
    cause("ST 04", "", |b| b.set("brief.seats.callers", 3)),
    cause("ST 05", "", |b| b.set("items.HYB.count", 1)),
    cause("ST 06", "", |b| b.set("items.HP.count", 2)),
    cause("ST 07", "", |b| b.set("brief.seats.guests", 8)),
    cause("ST 08", "", |b| b.set("items.ARM.count", 1)),
    cause("ST 09", "", |b| b.shelf("console-10", "audio.control_outputs", 0)),
    cause("ST 10", "", |b| b.remove("items.LIGHT1")),
    cause("ST 11", "", |b| b.remove("items.PLAY1").remove("items.PLAY2")),
    cause("ST 12", "", |b| b.remove("items.EMER1")),
    cause("ST 13", "", |b| {
        b.remove("items.PROC1")
            .shelf("tx-300", "transmitter.limiter", false)
    }),
    cause("ST 14", "", |b| b.shelf("desk-4", "audio.seats", 2)),
    cause("ST 15", "", |b| b.set("items.MON.count", 1)),
    cause("ST 16", "", |b| b.remove("items.PROC1")),
    cause("ST 16", "", |b| {
        b.shelve(
            "processor-fm",
            "processor-plain",
            &[("audio.mpx_power_control", json!(false))],
        )
        .set("items.PROC1.shelf", "processor-plain")
    }),
    cause("ST 17", "", |b| b.remove("items.RDS1")),
    cause("ST 18", "HILL", |b| b.remove("items.RACK2")),
    cause("ST 19", "", |b| b.shelf("console-10", "audio.gain", "60 dB")),
    cause("ST 20", "PLAY1", |b| b.set("items.PLAY1.shelf", "playout-used")),
    cause("LK 01", "", |b| b.remove("hops.L1")),
    // A way in reserve is none by itself.
    cause("LK 01", "", |b| b.set("hops.L1.role", "reserve")),
    cause("LK 02", "L1", |b| {
        b.set("hops.L1.to_height", "1 m above ground")
            .set("hops.L1.from_height", "1 m above ground")
    }),
    cause("LK 03", "L1", |b| {
        b.shelve("dish-7g5", "dish-small", &[("dish_gain", json!("14 dBi"))])
            .set("hops.L1.dish", "dish-small")
    }),
    cause("LK 04", "", |b| {
        b.set("hops.L1.way", "internet")
            .set("hops.L1.equipment", "codec-ip")
            .set("hops.L1.leased_availability", "98 %")
            .set("hops.L1.availability", "99.9 %")
    }),
    // Two ways over one network fail together: the reserve comes over another.
    cause("LK 04", "", |b| {
        b.set("hops.L1.way", "mobile data")
            .set("hops.L1.equipment", "modem-mobile")
            .set("hops.L1.leased_availability", "98 %")
            .set("hops.L1.availability", "99.9 %")
    }),
    cause("LK 05", "L1", |b| b.remove("hops.L1.dish")),
    cause("LK 06", "L1", |b| b.set("hops.L1.frequency", "5.8 GHz")),
    cause("LK 06", "L1", |b| {
        b.set("hops.L1.way", "fibre")
            .set("hops.L1.equipment", "modem-mobile")
            .set("hops.L1.leased_availability", "99.99 %")
    }),
    cause("LK 07", "", |b| {
        b.set("hops.L1.way", "internet")
            .set("hops.L1.equipment", "codec-ip")
    }),
    cause("LK 08", "", |b| b.set("brief.continuity.reserve_link", true)),
    cause("TX 01", "TX1", |b| {
        b.remove("emissions.E1.power")
            .set("emissions.E1.licence.erp", "3 kW ERP total")
    }),
    cause("TX 02", "TX1", |b| b.set("emissions.E1.power", "280 W")),
    cause("TX 03", "TX1", |b| {
        b.shelf("tx-300", "transmitter.fold_back_vswr", 1.01)
    }),
    cause("TX 04", "TX1", |b| b.set("emissions.E1.power", "20 W")),
    cause("TX 05", "E1", |b| b.set("emissions.E1.frequency", "87 MHz")),
    cause("TX 06", "E1", |b| b.set("emissions.E1.frequency", "97.45 MHz")),
    cause("TX 07", "TX1", |b| b.shelf("tx-300", "duty", "intermittent")),
    cause("TX 08", "TX1", |b| {
        b.shelf("tx-300", "transmitter.three_phase", true)
    }),
    cause("TX 09", "TX1", |b| {
        b.set("brief.continuity.reserve_transmitter", true)
    }),
    cause("FD 01", "F1", |b| {
        b.set("cables.F1.shelf", "rg-58")
            .set("emissions.E1.power", "280 W")
    }),
    cause("FD 02", "*", |b| {
        b.shelf("7-16-plug-7-8", "ports.0.power", "50 W")
    }),
    cause("FD 03", "*", |b| b.set("cables.F1.shelf", "foam-1-5-8")),
    cause("FD 04", "*", |b| b.set("cables.J1.shelf", "rg-213")),
    cause("FD 05", "F1", |b| b.set("cables.F1.shelf", "rg-58")),
    cause("FD 06", "E1", |b| b.remove("cables.F1")),
    cause("FD 07", "E1", |b| {
        b.remove("cables.J1")
            .remove("items.ARR1")
            .set("cables.F1.from", "TX1")
    }),
    cause("FD 08", "F1", |b| {
        b.shelf("foam-7-8", "line.power_100mhz", json!(null))
    }),
    cause("FD 09", "", |b| b.set("items.EARTH.count", 1)),
    cause("FD 10", "F1", |b| b.set("cables.F1.shelf", "rg-58")),
    cause("AN 01", "ANT1", |b| b.shelf("splitter-4", "splitter.ways", 6)),
    cause("AN 02", "ANT1", |b| {
        b.remove("cables.TAILS")
            .remove("antennas.ANT1.splitter")
            .remove("items.SP1")
            .set("cables.F1.to", "ANT1")
    }),
    cause("AN 03", "ANT1", |b| b.shelf("dipole-steel", "bay.power", "5 W")),
    cause("AN 04", "ANT1", |b| {
        b.set("antennas.ANT1.element", "dipole-aluminium")
    }),
    cause("AN 05", "ANT1", |b| {
        b.set("antennas.ANT1.inverted_bays", json!([1]))
    }),
    cause("AN 06", "ANT1", |b| {
        b.set("antennas.ANT1.height", "36 m above ground")
    }),
    cause("AN 07", "ANT1", |b| {
        b.set("emissions.E1.licence.polarisation", "horizontal")
    }),
    cause("AN 07", "ANT1", |b| {
        b.set("antennas.ANT1.element", "crossed-steel")
    }),
    cause("AN 08", "W1", |b| b.set("antennas.ANT1.tilt", "-13°")),
    cause("AN 09", "ANT1", |b| {
        b.set("sites.HILL.mast.kind", "guyed lattice")
            .set("study.antennas", "array")
    }),
    cause("AN 10", "E1", |b| b.remove("antennas.ANT1.element")),
    cause("AN 11", "ANT1", |b| b.set("sites.HILL.climate.ice", "20 mm")),
    cause("AN 13", "ANT1", |b| {
        b.set("sites.HILL.climate.ice", "20 mm")
            .set("brief.continuity.availability", "99.9 %")
    }),
    cause("AN 14", "ANT1", |b| {
        b.set(
            "antennas.ANT1.bay_shares",
            json!(["40 %", "20 %", "20 %", "20 %"]),
        )
    }),
    cause("AN 14", "ANT1", |b| b.set("antennas.ANT1.upper_half", "65 %")),
    cause("AN 14", "ANT1", |b| {
        let shares = json!(["40 %", "20 %", "20 %", "20 %"]);
        b.shelf(
            "splitter-4",
            "splitter",
            json!({"ways": 4, "excess": "0.1 dB", "shares": shares}),
        )
    }),
    cause("LI 01", "E1", |b| b.set("emissions.E1.power", "150 W")),
    cause("LI 02", "E1", |b| b.set("emissions.E1.power", "40 W")),
    cause("LI 03", "E1", |b| {
        b.set("emissions.E1.licence.height", "25 m above ground")
    }),
    cause("LI 04", "E1", |b| {
        b.set("emissions.E1.licence.position", "43.54° N 35.53710° W")
    }),
    cause("LI 05", "E1", |b| {
        b.set("emissions.E1.licence.conditions.0.below", "52 dBµV/m")
    }),
    cause("LI 06", "E1", |b| b.remove("emissions.E1.power")),
    cause("LI 07", "E1", |b| b.remove("emissions.E1.licence.polarisation")),
    cause("LI 08", "E1", |b| {
        b.set("emissions.E1.licence.erp_at_least", "490 W ERP total")
    }),
    cause("LI 09", "E1", |b| {
        b.set("emissions.E1.licence.until", "2027-03-01")
    }),
    cause("LI 10", "*", |b| {
        b.set("sites.HILL.others", another_station("107.9 MHz"))
    }),
    cause("CO 01", "W1", |b| b.set("brief.wanted.W1.field", "110 dBµV/m")),
    heard("CO 02", "W4", |b| b.set("brief.wanted.W4.share", "100 %")),
    heard("CO 03", "E1", |b| {
        b.land(Land::Edge)
            .set("study.radius", "100 km")
            .set("study.step", "500 m")
    }),
    heard("CO 04", "", |b| b.land(Land::Surface)),
    cause("CO 05", "W2", |b| b.set("study.radius", "6 km")),
    heard("CO 06", "E1", |b| {
        b.set("antennas.ANT1.height", "5 m above sea level")
    }),
    cause("CO 07", "E1", |b| b.set("study.step", "200 m")),
    cause("CO 08", "HILL", |b| {
        b.set("sites.HILL.position", "43.60° N 35.90° W")
    }),
    cause("SA 01", "PATH", |b| {
        b.set("sites.HILL.public_points.PATH.distance", "4 m")
            .set("sites.HILL.public_points.PATH.floor", "23.3 m above ground")
            .set("emissions.E1.power", "280 W")
    }),
    cause("SA 01", "PATH", |b| {
        b.set("sites.HILL.public_points.PATH.distance", "4 m")
            .set("sites.HILL.public_points.PATH.floor", "30 m above ground")
            .set("emissions.E1.power", "280 W")
    }),
    cause("SA 02", "PATH", |b| {
        b.set("sites.HILL.others", another_station("89 MHz"))
    }),
    cause("PW 01", "HILL", |b| b.set("sites.HILL.supply.capacity", "0.3 kW")),
    cause("PW 02", "HILL", |b| {
        b.set("sites.HILL.supply.mains", false).remove("items.UPS1")
    }),
    cause("PW 03", "HILL", |b| {
        b.set("brief.continuity.without_mains", "6 h")
    }),
    cause("PW 04", "PORT", |b| {
        b.set("sites.PORT.shelter.airflow_m3_h", 40.0)
    }),
    cause("PW 05", "DESK1", |b| b.shelf("console-10", "power", json!(null))),
    cause("PW 06", "HILL", |b| {
        b.shelf("ups-3000", "supply.output", "0.1 kW")
    }),
    cause("MO 01", "", |b| b.set("brief.budget", "20000 EUR")),
    cause("MO 02", "ARM", |b| b.shelf("mic-arm", "price", json!(null))),
    cause("MO 03", "", |b| b.today("2027-03-20")),
    cause("MO 04", "USD", |b| {
        b.shelf("mic-arm", "price.sell", "60 USD")
            .shelf("mic-arm", "price.cost", "40 USD")
    }),
    cause("MO 05", "*", |b| b.set("brief.delivery.case_mass", "50 kg")),
    cause("MO 06", "", |b| b.today("2027-06-01")),
];

/// Why a cause did not do what it should.
fn fault(cause: &Cause) -> Option<String> {
    let name = format!("{} {}", cause.code, cause.tag);
    let before = sound().judge(cause.fields);
    if before.found(cause.code, cause.tag).is_some() {
        return Some(format!("{name}: is there without its cause"));
    }
    let broken = (cause.by)(sound());
    let with = broken.judge(cause.fields);
    let Some(finding) = with.found(cause.code, cause.tag) else {
        let there: Vec<_> = with
            .findings
            .iter()
            .map(|f| format!("{} {}", f.code, f.tag))
            .collect();
        return Some(format!("{name}: did not appear; there are {there:?}"));
    };
    let said = with
        .sheet
        .findings
        .iter()
        .find(|f| f.code == cause.code && f.tag == finding.tag);
    let says = said.map_or("", |f| f.says.as_str());
    let rule = rules::all().find(|r| r.code == cause.code).unwrap();
    assert_eq!((finding.severity, finding.clause), (rule.severity, rule.clause));
    for remedy in &finding.remedies {
        println!(
            "{name}: {says}\n    {:?}",
            remedy.edits.iter().map(|e| (&e.path, &e.to)).collect::<Vec<_>>()
        );
    }
    if finding.remedies.is_empty() {
        println!("{name}: {says}");
    }
    for (i, remedy) in finding.remedies.iter().enumerate() {
        let mended = broken.clone().edited(&remedy.edits);
        if let Some(faults) = mended.faults() {
            return Some(format!(
                "{name}: remedy {i} {:?} leaves faults {faults:?}",
                remedy.edits
            ));
        }
        let after = mended.judge(cause.fields);
        if let Some(still) = after.found(cause.code, &finding.tag) {
            return Some(format!(
                "{name}: remedy {i} {:?} does not mend: {:?}",
                remedy.edits, still.says
            ));
        }
        // A remedy is one step in a list of changes: taken back, the finding is there again.
        let back: Vec<_> = remedy.edits.iter().rev().map(station::Edit::inverse).collect();
        let again = mended.edited(&back);
        if again.file.to_json() != broken.file.to_json() {
            return Some(format!("{name}: remedy {i} taken back leaves another file"));
        }
    }
    None
}

#[test]
fn what_a_rule_rests_on_is_told_in_every_language() {
    for rule in rules::all() {
        let clause = assess::finding::clause_message(rule.clause);
        for language in words::Language::ALL {
            let told = words::say(&clause, *language);
            assert!(
                rule.clause.starts_with("clause-") && told.is_ok(),
                "{}: {}",
                rule.code,
                rule.clause
            );
        }
    }
}

#[test]
fn every_finding_comes_with_its_cause_and_goes_with_its_remedy() {
    let faults: Vec<String> = CAUSES
        .iter()
        .filter_map(|c| match std::panic::catch_unwind(|| fault(c)) {
            Ok(fault) => fault,
            Err(_) => Some(format!("{} {}: panicked, see above", c.code, c.tag)),
        })
        .collect();
    assert!(
        faults.is_empty(),
        "{} faults:\n{}",
        faults.len(),
        faults.join("\n")
    );
}

#[test]
fn every_rule_is_reached() {
    let reached: BTreeSet<&str> = CAUSES.iter().map(|c| c.code).chain(CAUTIONS).collect();
    let excused: BTreeSet<&str> = NOT_REACHED.iter().map(|(code, _)| *code).collect();
    assert!(reached.is_disjoint(&excused));
    let all: BTreeSet<&str> = rules::all().map(|r| r.code).collect();
    assert_eq!(all.len(), rules::all().count(), "a code stands twice");
    assert_eq!(all, &reached | &excused);
    println!("{} rules, {} reached by a cause", all.len(), reached.len());
}

#[test]
fn the_sound_station_has_only_cautions() {
    let judged = sound().judge(true);
    let codes: BTreeSet<&str> = judged.findings.iter().map(|f| f.code).collect();
    assert_eq!(codes, BTreeSet::from(CAUTIONS), "{:#?}", judged.sheet.findings);
}

/// Where a condition is met sooner than the licensed ERP, it is the condition that says how much more may be radiated: nobody is told
/// to break it.
#[test]
fn no_more_power_is_asked_for_than_the_conditions_allow() {
    let weak = sound().set("emissions.E1.power", "40 W");
    let field = |bench: &Bench| {
        let licence = bench.judge(true).outcome.licence;
        licence.emissions[0].conditions[0].field_dbuv_m.unwrap()
    };
    let there = field(&weak);
    let below = |room_db: f64| {
        let limit = format!("{:.3} dBµV/m", there + room_db);
        weak.clone().set("emissions.E1.licence.conditions.0.below", limit)
    };
    // Half a decibel is no room worth a word.
    assert!(below(0.5).judge(true).found("LI 02", "E1").is_none());
    let judged = below(3.0).judge(true);
    let finding = judged.found("LI 02", "E1").unwrap();
    let mended = below(3.0).edited(&finding.remedies[0].edits);
    // The set power is written to a tenth of a watt: within 0.02 dB at 80 W.
    assert!((field(&mended) - (there + 2.9)).abs() < 0.02);
    assert!(mended.judge(true).found("LI 05", "E1").is_none());
}

/// Cautions have no remedy and no edit hides them; only what they warn of does.
#[test]
fn cautions_stand_while_their_cause_does() {
    let judged = sound().judge(false);
    for code in CAUTIONS {
        let finding = judged.found(code, "*").unwrap();
        assert_eq!(finding.severity, Severity::Caution);
        assert!(finding.remedies.is_empty());
    }
    let dark = sound()
        .remove("items")
        .remove("cables")
        .remove("antennas")
        .remove("hops")
        .remove("emissions.E1.antenna")
        .remove("emissions.E1.transmitter")
        .judge(false);
    for code in CAUTIONS {
        assert!(dark.found(code, "*").is_none(), "{code}");
    }
    // Whatever else is broken, they stay; all but the two that end with their own cause.
    for cause in CAUSES.iter().filter(|c| !["BR 05", "AN 10"].contains(&c.code)) {
        let judged = (cause.by)(sound()).judge(false);
        for code in CAUTIONS {
            assert!(
                judged.found(code, "*").is_some(),
                "{code} is gone with {}",
                cause.code
            );
        }
    }
}
