//! Stations that no one would build: figures are numbers or "not known", every sentence can be said, nothing panics.

mod bench;

use assess::figure::{Figure, Spread, Value};
use bench::{Bench, Judged, sound};
use proptest::prelude::*;
use serde_json::json;

fn finite(value: &Value) -> bool {
    value.number().is_none_or(f64::is_finite)
}

fn sane(figure: &Figure) -> bool {
    let spread = match figure.spread {
        Some(Spread::Sigma(s)) => s.is_finite(),
        Some(Spread::Between(low, high)) => low.is_finite() && high.is_finite(),
        None => true,
    };
    let margin = figure
        .margin
        .as_ref()
        .is_none_or(|m| finite(&m.in_hand) && finite(&m.against));
    finite(&figure.value) && spread && margin
}

/// What is not a number, by id; and every text that shows one.
fn senseless(judged: &Judged) -> Vec<String> {
    let figures = judged
        .assessment
        .figures
        .iter()
        .filter(|f| !sane(f))
        .map(|f| f.id.clone());
    let curves = judged
        .assessment
        .curves
        .iter()
        .filter(|c| c.points.iter().any(|(x, y)| !x.is_finite() || !y.is_finite()))
        .map(|c| c.id.clone());
    let texts = judged
        .sheet
        .findings
        .iter()
        .map(|f| &f.says)
        .chain(judged.sheet.figures.iter().map(|f| &f.value.text));
    let odd = texts
        .filter(|t| t.contains("NaN") || t.contains("inf ") || *t == "inf")
        .cloned();
    figures.chain(curves).chain(odd).collect()
}

/// What is wrong with an answer to a hostile station; a station that cannot be read has its clear error.
fn fault(name: &str, bench: &Bench) -> Option<String> {
    if let Some(faults) = bench.faults() {
        return faults
            .is_empty()
            .then(|| format!("{name}: refused without a reason"));
    }
    match std::panic::catch_unwind(|| senseless(&bench.judge(false))) {
        Ok(odd) if odd.is_empty() => None,
        Ok(odd) => Some(format!("{name}: {odd:?}")),
        Err(_) => Some(format!("{name}: panicked, see above")),
    }
}

type Hostile = (&'static str, fn(Bench) -> Bench);

const HOSTILE: &[Hostile] = &[
    ("antenna under the ground", |b| {
        b.set("antennas.ANT1.height", "-5 m above ground")
    }),
    ("antenna under the hill", |b| {
        b.set("antennas.ANT1.height", "5 m above sea level")
    }),
    ("antenna on the ground", |b| {
        b.set("antennas.ANT1.height", "0 m above ground")
    }),
    ("antenna in space", |b| {
        b.set("antennas.ANT1.height", "900 km above ground")
    }),
    ("antenna very high", |b| {
        b.set("antennas.ANT1.height", "5000 m above ground")
    }),
    ("studio and mast at one point", |b| {
        b.set("sites.PORT.position", "43.54499° N 35.53710° W")
    }),
    ("a hop to itself", |b| b.set("hops.L1.to", "PORT")),
    ("hop ends under the ground", |b| {
        b.set("hops.L1.to_height", "-9 m above ground")
    }),
    ("a cable of no length", |b| b.set("cables.F1.length", "0 m")),
    ("a cable round the earth", |b| {
        b.set("cables.F1.length", "40000 km")
    }),
    ("the pole", |b| b.set("sites.HILL.position", "90° N 0° E")),
    ("the antimeridian", |b| {
        b.set("sites.HILL.position", "43.5° N 180° E")
    }),
    ("no bays", |b| b.set("antennas.ANT1.bays", 0)),
    ("one bay", |b| b.set("antennas.ANT1.bays", 1)),
    ("seventeen bays", |b| b.set("antennas.ANT1.bays", 17)),
    ("bays in one place", |b| b.set("antennas.ANT1.spacing", "0 m")),
    ("bays in the pole", |b| b.set("antennas.ANT1.stand_off", "0 m")),
    ("all power below", |b| b.set("antennas.ANT1.upper_half", "0 %")),
    ("a bay that is not there upside down", |b| {
        b.set("antennas.ANT1.inverted_bays", json!([0, 99]))
    }),
    ("no power", |b| b.set("emissions.E1.power", "0 W")),
    ("negative power", |b| b.set("emissions.E1.power", "-5 W")),
    ("licence for nothing", |b| {
        b.remove("emissions.E1.power")
            .set("emissions.E1.licence.erp", "0 W ERP total")
    }),
    ("no frequency to speak of", |b| {
        b.set("emissions.E1.frequency", "0 MHz")
    }),
    ("light", |b| b.set("emissions.E1.frequency", "500000 GHz")),
    ("no budget at all", |b| b.set("brief.budget", "0 EUR")),
    ("no years", |b| b.set("brief.horizon", "0 years")),
    ("interest of minus everything", |b| {
        b.set("brief.discount_rate", "-100 %")
    }),
    ("nobody", |b| {
        b.set("brief.seats.hosts", 0).set("brief.seats.guests", 0)
    }),
    ("everybody", |b| b.set("brief.seats.guests", 4_000_000_000u32)),
    ("a transmitter that is all heat", |b| {
        b.shelf("tx-300", "transmitter.efficiency", "0 %")
    }),
    ("a transmitter of no power", |b| {
        b.shelf("tx-300", "transmitter.output", "0 W")
    }),
    ("a deaf microphone", |b| {
        b.shelf("mic-dynamic", "audio.sensitivity_mv_pa", 0.0)
    }),
    ("no air", |b| b.set("sites.PORT.shelter.airflow_m3_h", 0.0)),
    ("cuts of no length", |b| {
        b.set("sites.HILL.supply.usual_cut", "0 min")
    }),
    ("a point in the bay", |b| {
        b.set("sites.HILL.public_points.PATH.distance", "0 m")
            .set("sites.HILL.public_points.PATH.floor", "28 m above ground")
    }),
    ("a mast of no width", |b| b.set("sites.HILL.mast.width", "0 m")),
    ("a lattice of no width", |b| {
        b.set("sites.HILL.mast.kind", "guyed lattice")
            .set("sites.HILL.mast.width", "0 m")
    }),
    ("many things", |b| {
        b.set("items.MIC.count", 4_000_000_000u32)
            .set("items.HPA1.count", 4_000_000_000u32)
    }),
];

#[test]
fn hostile_stations_get_numbers_or_not_known() {
    let faults: Vec<String> = HOSTILE
        .iter()
        .filter_map(|(name, by)| fault(name, &by(sound())))
        .collect();
    assert!(
        faults.is_empty(),
        "{} of {}:\n{}",
        faults.len(),
        HOSTILE.len(),
        faults.join("\n")
    );
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever a hand may set: figures are numbers or not known.
    #[test]
    fn prop_no_figure_is_ever_not_a_number(
        height_m in -50.0f64..4000.0,
        bays in 0u32..20,
        spacing_m in 0.0f64..30.0,
        power_w in 0.0f64..1e6,
        length_m in 0.0f64..5000.0,
        mhz in 10.0f64..1000.0,
        lat in -90.0f64..90.0,
        moved in proptest::bool::ANY,
    ) {
        let mut bench = sound()
            .set("antennas.ANT1.height", format!("{height_m:.2} m above ground"))
            .set("antennas.ANT1.bays", bays)
            .set("antennas.ANT1.spacing", format!("{spacing_m:.3} m"))
            .set("emissions.E1.power", format!("{power_w:.3} W"))
            .set("emissions.E1.frequency", format!("{mhz:.2} MHz"))
            .set("cables.F1.length", format!("{length_m:.2} m"));
        if moved {
            bench = bench.set("sites.HILL.position", format!("{:.4}° {} 35.5° W", lat.abs(), if lat < 0.0 { "S" } else { "N" }));
        }
        prop_assert_eq!(fault("random", &bench), None);
    }
}
