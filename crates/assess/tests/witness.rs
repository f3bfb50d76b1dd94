//! Figures found another way, and marks that never flatter.

mod bench;

use assess::figure::{Figure, Input};
use assess::proofs::transmission::StepKind;
use bench::{Judged, sound};
use station::Mark;

fn number(judged: &Judged, id: &str) -> f64 {
    judged
        .assessment
        .figure(id)
        .and_then(|f| f.value.number())
        .unwrap_or(f64::NAN)
}

/// ERP from watts: what each step and joint keeps, what the antenna's input keeps, times the gain in its best direction.
/// By the definition of ERP (ITU Radio Regulations, No. 1.162): power to the antenna times its gain over a half-wave dipole.
#[test]
fn erp_is_what_is_left_after_every_step() {
    for power in ["80 W", "120 W", "250 W"] {
        let judged = sound().set("emissions.E1.power", power).judge(false);
        let path = &judged.outcome.transmission.emissions[0];
        let steps = path.steps.as_ref().map_or(&[][..], Vec::as_slice);
        let mut watts = path.power_w.unwrap_or(f64::NAN);
        let before = steps
            .iter()
            .take_while(|s| !matches!(s.kind, StepKind::Splitter))
            .count();
        for step in &steps[..before] {
            watts -= watts * (1.0 - 1.0 / 10f64.powf(step.loss_db.unwrap_or(f64::NAN) / 10.0));
        }
        // One joint before each step, one more into the splitter.
        for joint in &path.joints[..=before] {
            watts /= 10f64.powf(joint.loss_db / 10.0);
        }
        // Power reflected at a VSWR of s is ((s−1)/(s+1))² of what arrives: by definition of the reflection coefficient.
        let (at_antenna, _) = path.vswr.unwrap_or((f64::NAN, f64::NAN));
        watts *= 1.0 - ((at_antenna - 1.0) / (at_antenna + 1.0)).powi(2);
        let Ok(radiating) = &path.radiating else {
            panic!("no pattern")
        };
        let best = (0..360)
            .map(|az| {
                radiating
                    .pattern
                    .strongest_dbd(antenna::direction::Plane::Vertical, f64::from(az))
            })
            .fold(f64::NEG_INFINITY, f64::max);
        let erp = watts * 10f64.powf(best / 10.0);
        let figure = number(&judged, "transmission.E1.erp");
        assert!(
            (erp / figure - 1.0).abs() < 1e-3,
            "{power}: {erp} W by steps, {figure} W in the figure"
        );
    }
}

/// Two independent ways both fail as often as the product of their shares says (probability of independent events); two over one
/// kind of network are not independent.
#[test]
fn a_reserve_helps_as_far_as_it_is_independent() {
    let main = |way: &str, works: &str| {
        sound()
            .set("hops.L1.way", way)
            .set("hops.L1.equipment", "codec-ip")
            .set("hops.L1.leased_availability", works)
            .set(
                "hops.L2",
                serde_json::json!({ "from": "PORT", "to": "HILL", "way": "mobile data", "role": "reserve",
                    "equipment": "modem-mobile", "leased_availability": "98 %" }),
            )
            .judge(false)
    };
    let by_line = number(&main("internet", "99.5 %"), "link.availability");
    assert!((by_line - 100.0 * (1.0 - 0.005 * 0.02)).abs() < 1e-9, "{by_line}");
    let by_mobile = number(&main("mobile data", "97 %"), "link.availability");
    assert!((by_mobile - 98.0).abs() < 1e-9, "{by_mobile}");
}

/// Power and field go together: four times the power is 6.02 dB more field everywhere (definition of the decibel).
#[test]
fn four_times_the_power_is_six_decibels_more_field() {
    let field = |power: &str| {
        number(
            &sound().set("emissions.E1.power", power).judge(false),
            "coverage.W1.field",
        )
    };
    let more = field("160 W") - field("40 W");
    assert!((more - 20.0 * 2f64.log10()).abs() < 1e-6, "{more} dB");
}

/// A figure is no better than what went into it: its mark is the weakest of its inputs' or weaker.
#[test]
fn no_mark_is_better_than_its_inputs() {
    let judged = sound().judge(true);
    let mut seen = 0;
    for figure in &judged.assessment.figures {
        for input in &figure.inputs {
            let mark: Option<Mark> = match input {
                Input::Figure(id) => judged.assessment.figure(id).map(|f: &Figure| f.mark),
                Input::Table { mark, .. } => Some(*mark),
                Input::Stated(_) | Input::Shelf { .. } => None,
            };
            if let Some(mark) = mark {
                seen += 1;
                assert_eq!(
                    figure.mark.weaker(mark),
                    figure.mark,
                    "{} rests on {input:?}",
                    figure.id
                );
            }
        }
    }
    assert!(seen > 50, "{seen} inputs with a mark");
}

/// Every figure that another one or a finding rests on is there.
#[test]
fn nothing_rests_on_a_figure_that_is_not_there() {
    let judged = sound()
        .set("brief.seats.callers", 3)
        .set("emissions.E1.power", "150 W")
        .judge(true);
    let there = |id: &str| judged.assessment.figure(id).is_some();
    for figure in &judged.assessment.figures {
        for input in &figure.inputs {
            if let Input::Figure(id) = input {
                assert!(there(id), "{} rests on {id}", figure.id);
            }
        }
    }
    for finding in &judged.assessment.findings {
        for id in &finding.figures {
            assert!(there(id), "{} rests on {id}", finding.code);
        }
    }
}
