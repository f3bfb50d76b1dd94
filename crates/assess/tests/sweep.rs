//! The chain over the band: the same as the proof at the carrier, and what a measurement laid over it says.

mod bench;

use antenna::chain::Touchstone;
use assess::sweep::{NoSweep, sweep};
use bench::sound;

/// The proof counts powers, the sweep carries waves through two-ports: on matched lines both must give the same VSWR at the
/// transmitter and the same power into the antenna (transmission-line theory; Γ at a distance of loss L is Γ·10^(−L/10)).
#[test]
fn waves_through_two_ports_agree_with_the_proof_at_the_carrier() {
    for antennas in ["array", "wires"] {
        let bench = sound()
            .set("study.antennas", antennas)
            .set("emissions.E1.power", "100 W");
        let judged = bench.judge(false);
        let path = &judged.outcome.transmission.emissions[0];
        let swept = bench.with_case(|case| sweep(case, "E1", 100.0, None)).unwrap();
        let at = swept.at_carrier().unwrap();
        let (_, at_transmitter) = path.vswr.unwrap();
        assert!(
            (at.vswr.ratio() - at_transmitter).abs() < 1e-6,
            "{antennas}: {} {at_transmitter}",
            at.vswr.ratio()
        );
        let delivered_w = 100.0 * 10f64.powf(-path.loss_db() / 10.0);
        assert!(
            (at.delivered_w / delivered_w - 1.0).abs() < 1e-6,
            "{antennas}: {} W {delivered_w} W",
            at.delivered_w
        );
        assert_eq!(swept.planes.len(), at.planes.len());
        // A stack is made for its channel: the ends of the band are worse, and the transmitter would fold back there only.
        let ends = [swept.answers.first().unwrap(), swept.answers.last().unwrap()];
        assert!(ends.iter().all(|e| e.vswr > at.vswr), "{antennas}");
        let carrier = swept.frequency_mhz;
        assert!(
            !swept
                .folds_back_mhz
                .iter()
                .any(|(from, to)| (*from..=*to).contains(&carrier)),
            "{antennas}"
        );
        assert!(swept.channel_vswr().unwrap() < 1.5);
    }
}

/// A measurement of the very chain lies on the prediction; one taken through a line longer by a quarter wave in phase does not,
/// though its return loss is the same.
#[test]
fn a_measurement_lies_on_the_prediction_it_belongs_to() {
    let bench = sound();
    let swept = bench.with_case(|case| sweep(case, "E1", 100.0, None)).unwrap();
    let text = |turn_deg: f64| {
        let rows = swept.answers.iter().map(|a| {
            let g = a.input_reflection;
            let (angle, size) = (g.arg().to_degrees() + turn_deg, g.norm());
            format!("{:.4} {size:.9} {angle:.6}", a.freq_mhz)
        });
        format!(
            "! made for a test\n# MHz S MA R 50\n{}\n",
            rows.collect::<Vec<_>>().join("\n")
        )
    };
    let laid = |turn_deg| {
        let measured = Touchstone::parse(&text(turn_deg), 1).unwrap();
        bench
            .with_case(|case| sweep(case, "E1", 100.0, Some(&measured)))
            .unwrap()
            .overlay
    };
    let same = laid(0.0);
    assert_eq!(same.len(), swept.answers.len());
    assert!(
        same.iter()
            .all(|o| o.distance < 1e-6 && (o.measured_db - o.predicted_db).abs() < 1e-3)
    );
    let turned = laid(180.0);
    assert!(
        turned
            .iter()
            .all(|o| (o.measured_db - o.predicted_db).abs() < 1e-3)
    );
    assert!(turned.iter().any(|o| o.distance > 0.1));
}

#[test]
fn bad_chains_are_told_by_what_is_missing() {
    let told =
        |bench: bench::Bench, tag: &str| bench.with_case(|case| sweep(case, tag, 100.0, None)).unwrap_err();
    assert!(matches!(told(sound(), "E9"), NoSweep::NoEmission(known) if known == ["E1"]));
    assert!(matches!(told(sound().remove("cables"), "E1"), NoSweep::Open(_)));
    assert!(matches!(
        told(sound().remove("emissions.E1.frequency"), "E1"),
        NoSweep::NotKnown("frequency")
    ));
}
