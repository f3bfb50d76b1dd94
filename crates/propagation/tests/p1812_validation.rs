//! P.1812 against the validation cases of ITU-R Study Group 3 and further cases of the same reference implementation.

mod p1812;

use p1812::{Case, all_cases, kept_cases, named};
use propagation::p1812::{Constants, predict};
use serde_json::Value;

const LOSS_TOLERANCE_DB: f64 = 1e-3;
const INTERMEDIATE_TOLERANCE: f64 = 1e-6;

#[test]
fn ref_p1812_every_validation_case() {
    let Some(cases) = all_cases() else { return };
    assert!(cases.len() >= 65, "only {} cases were found", cases.len());
    losses_agree(&cases);
    intermediates_agree(&cases);
}

#[test]
fn ref_p1812_cases_kept_beside_the_tests() {
    let cases = kept_cases();
    assert_eq!(cases.len(), 5);
    losses_agree(&cases);
    intermediates_agree(&cases);
}

fn losses_agree(cases: &[Case]) {
    let mut differences: Vec<(f64, &str)> = cases
        .iter()
        .map(|case| (loss_difference_db(case), &*case.id))
        .collect();
    differences.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (worst_db, worst_id) = differences[differences.len() - 1];
    println!(
        "P.1812 loss and field: {} cases, median {:.1e} dB, worst {worst_db:.1e} dB ({worst_id})",
        differences.len(),
        differences[differences.len() / 2].0
    );
    assert!(
        worst_db <= LOSS_TOLERANCE_DB,
        "{worst_id} differs by {worst_db} dB"
    );
}

fn intermediates_agree(cases: &[Case]) {
    let mut differences = Vec::new();
    let mut wrong = Vec::new();
    for case in cases {
        let constants = Constants::new(&case.link.conditions).expect("valid conditions");
        let answer = predict(&case.profile, &case.link).expect("a prediction");
        let steps = answer.steps.expect("intermediates");
        assert_eq!(
            steps.survey.horizon.line_of_sight,
            case.intermediates["path"] == "los",
            "{}",
            case.id
        );
        for (name, value) in named(&steps, &constants) {
            let Some(want) = number(&case.intermediates[name]) else {
                continue;
            };
            // 1e-6 relative, 1e-6 absolute near zero.
            let difference = (value - want).abs() / want.abs().max(1.0);
            differences.push(difference);
            if difference > INTERMEDIATE_TOLERANCE {
                wrong.push(format!("{} {name}: {value} for {want}", case.id));
            }
        }
    }
    differences.sort_by(f64::total_cmp);
    println!(
        "P.1812 intermediates: {} values, median {:.1e}, worst {:.1e} (relative; absolute under 1)",
        differences.len(),
        differences[differences.len() / 2],
        differences[differences.len() - 1]
    );
    assert!(wrong.is_empty(), "{} differ:\n{}", wrong.len(), wrong.join("\n"));
}

fn loss_difference_db(case: &Case) -> f64 {
    let answer = predict(&case.profile, &case.link).expect("a prediction");
    let want = |name: &str| case.expected[name].as_f64().expect("a number");
    let loss = (answer.loss_db - want("lb_db")).abs();
    let field_1kw = (answer.field_1kw_dbuv_m - want("e_1kw_dbuvm")).abs();
    let field = (answer.field_dbuv_m(case.erp_kw) - want("e_dbuvm")).abs();
    loss.max(field_1kw).max(field)
}

fn number(value: &Value) -> Option<f64> {
    value
        .as_bool()
        .map(|b| if b { 1.0 } else { 0.0 })
        .or(value.as_f64())
}
