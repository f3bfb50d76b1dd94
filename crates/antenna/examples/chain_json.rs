//! Prints lines, chains and rigid lines as JSON for the comparison in `tools/witness/lines.py`.
//!
//!     cargo run -q -p antenna --example chain_json | python3 tools/witness/lines.py

use antenna::chain::{Chain, Stage, sweep_mhz};
use antenna::feed::Cable;
use antenna::line::{LineConstants, RigidLine, TwoPort};
use num_complex::Complex64 as C64;
use serde_json::{Value, json};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut chains = Vec::new();
    let loads = [
        (50.0, 0.0),
        (100.0, 0.0),
        (30.0, 25.0),
        (70.0, -40.0),
        (12.0, 3.0),
    ];
    let lines = [
        (0.1122, 0.000483, 0.89, 50.0),
        (0.5894, 0.008062, 0.66, 50.0),
        (0.1, 0.0, 0.8, 75.0),
    ];
    for (a, b, velocity, z0) in lines {
        let line = LineConstants::new(a, b, velocity, z0)?;
        for (r, x) in loads {
            chains.push(chain_case(line, C64::new(r, x))?);
        }
    }
    let rigid: Vec<Value> = [(19.94, 8.66), (38.79, 16.87), (76.89, 33.40)]
        .into_iter()
        .map(|(outer_mm, inner_mm)| {
            let line = RigidLine::new(outer_mm, inner_mm)?;
            Ok(json!({
                "outer_mm": outer_mm, "inner_mm": inner_mm, "freq_mhz": 100.0,
                "z0_ohm": line.z0_ohm(), "db_per_100m": line.attenuation_db_per_100m(100.0)?,
            }))
        })
        .collect::<Result<_, antenna::line::LineError>>()?;
    println!("{}", json!({ "chains": chains, "rigid": rigid }));
    Ok(())
}

/// A feeder of 43 m, a lumped reactance, a loss of 0.1 dB and a jumper of another impedance, over the band.
fn chain_case(line: LineConstants, load_ohm: C64) -> Result<Value, Box<dyn std::error::Error>> {
    let jumper = LineConstants::new(0.2, 0.0006, 0.7, 60.0)?;
    let feeder = |line, length_m, conductor_c| Stage::Line {
        cable: Cable { line, length_m },
        conductor_c,
    };
    let chain = Chain {
        z0_ohm: 50.0,
        stages: vec![
            feeder(line, 43.0, 35.0),
            Stage::Fixed(TwoPort::shunt(C64::new(0.0, 0.002))),
            Stage::Loss { loss_db: 0.1 },
            feeder(jumper, 2.3, 20.0),
        ],
    };
    let answers = chain.sweep(&sweep_mhz(87.5, 108.0, 42), 1000.0, |_| load_ohm)?;
    let constants = |l: LineConstants, length_m: f64, conductor_c: f64| {
        json!({ "a": l.a_db_per_100m, "b": l.b_db_per_100m, "velocity": l.velocity_ratio, "z0": l.z0_ohm,
                "length_m": length_m, "conductor_c": conductor_c })
    };
    Ok(json!({
        "feeder": constants(line, 43.0, 35.0), "jumper": constants(jumper, 2.3, 20.0),
        "load_ohm": [load_ohm.re, load_ohm.im], "answers": answers,
    }))
}
