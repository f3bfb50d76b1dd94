//! The Irregular Terrain Model against the published examples of NTIA/ITS and further cases of the same compiled implementation.

mod itm;

use itm::{Case, all_cases, kept_cases, named};
use propagation::itm::{Mode, geometry::Basis};
use serde_json::Value;

const LOSS_TOLERANCE_DB: f64 = 1e-3;
/// The published losses are printed with two decimals.
const PUBLISHED_TOLERANCE_DB: f64 = 0.01;
/// Relative, or absolute near 0: the reference prints twelve figures.
const INTERMEDIATE_TOLERANCE: f64 = 1e-6;

#[test]
fn ref_itm_every_validation_case() {
    let Some(cases) = all_cases() else { return };
    assert!(cases.len() >= 40, "only {} cases were found", cases.len());
    agree(&cases);
}

#[test]
fn ref_itm_cases_kept_beside_the_tests() {
    let cases = kept_cases();
    assert_eq!(cases.len(), 7);
    agree(&cases);
}

fn agree(cases: &[Case]) {
    let mut losses = Vec::new();
    let mut intermediates = Vec::new();
    let mut refused = 0;
    for case in cases {
        let (code, warnings) = (&case.expected["code"], &case.expected["warnings"]);
        match case.answer() {
            Err(refusal) => {
                assert_eq!(*code, refusal.refusal.code(), "{}: code", case.id);
                assert_eq!(*warnings, refusal.warnings.bits(), "{}: warnings", case.id);
                refused += 1;
            }
            Ok(answer) => {
                assert_eq!(*code, u16::from(!answer.warnings.is_empty()), "{}: code", case.id);
                assert_eq!(*warnings, answer.warnings.bits(), "{}: warnings", case.id);
                let expected_db = case.expected["a_db"].as_f64().expect("a loss");
                losses.push(((answer.loss_db - expected_db).abs(), case.id.clone()));
                if let Some(published_db) = case.expected["published_a_db"].as_f64() {
                    assert!(
                        (answer.loss_db - published_db).abs() <= PUBLISHED_TOLERANCE_DB,
                        "{}",
                        case.id
                    );
                }
                labels_agree(case, &answer);
                for (name, values) in named(&answer) {
                    intermediates.extend(difference(case, name, &values));
                }
            }
        }
    }
    report("loss, dB", &mut losses, LOSS_TOLERANCE_DB);
    report(
        "intermediates, relative",
        &mut intermediates,
        INTERMEDIATE_TOLERANCE,
    );
    println!("{refused} refused with the method's code");
}

fn labels_agree(case: &Case, answer: &propagation::itm::Prediction) {
    let mode = match answer.mode {
        Mode::LineOfSight => "line-of-sight",
        Mode::Diffraction => "diffraction",
        Mode::Troposcatter => "troposcatter",
    };
    assert_eq!(case.intermediates["mode"], mode, "{}", case.id);
    let basis = match answer.steps.geometry.basis {
        Basis::Horizons => "horizon-fits",
        Basis::WellInside => "well-inside-los",
    };
    assert_eq!(case.intermediates["geometry"], basis, "{}", case.id);
}

fn difference(case: &Case, name: &str, values: &[f64]) -> Option<(f64, String)> {
    let wanted: Vec<f64> = match &case.intermediates[name] {
        Value::Array(list) => list.iter().filter_map(Value::as_f64).collect(),
        Value::Number(one) => one.as_f64().into_iter().collect(),
        _ => return None,
    };
    assert_eq!(values.len(), wanted.len(), "{}: {name}", case.id);
    let worst = values
        .iter()
        .zip(&wanted)
        .map(|(a, b)| (a - b).abs() / b.abs().max(1.0))
        .fold(0.0, f64::max);
    // Small quantities are compared with themselves.
    let worst = match wanted.as_slice() {
        [w] if w.abs() < 1.0 && w.abs() > 1e-5 => worst.max((values[0] - w).abs() / w.abs()),
        _ => worst,
    };
    Some((worst, format!("{} {name}: {values:?} for {wanted:?}", case.id)))
}

fn report(what: &str, differences: &mut [(f64, String)], tolerance: f64) {
    differences.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (worst, label) = &differences[differences.len() - 1];
    let median = differences[differences.len() / 2].0;
    println!(
        "ITM {what}: {} compared, median {median:.1e}, worst {worst:.1e} ({label})",
        differences.len()
    );
    let wrong: Vec<&String> = differences
        .iter()
        .filter(|d| d.0.is_nan() || d.0 > tolerance)
        .map(|d| &d.1)
        .collect();
    assert!(wrong.is_empty(), "{what}: {wrong:#?}");
}
