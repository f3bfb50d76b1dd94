//! Figures from transmitter to bays.

use super::methods::*;
use super::{stated, tag_of};
use crate::case::Case;
use crate::figure::{Figure, Input, Stage, Value};
use crate::outcome::Outcome;
use crate::proofs::transmission::{EmissionPath, JointCheck, Step, StepKind};
use crate::unit::Unit;
use words::Message;

/// Figures of every emission.
pub fn figures(case: &Case, outcome: &Outcome) -> Vec<Figure> {
    outcome
        .transmission
        .emissions
        .iter()
        .flat_map(|path| emission(case, path))
        .collect()
}

fn emission(case: &Case, path: &EmissionPath) -> Vec<Figure> {
    let id = |what: &str| format!("transmission.{}.{what}", path.tag);
    let label = |code: &'static str| Message::new(code).text("tag", path.tag.as_str());
    let missing = || Value::NotKnown(Message::new("missing-transmission"));
    let watt = |w: Option<f64>| w.map_or_else(missing, |w| Value::of(w, Unit::Watt));
    let mut out = Vec::new();

    let mut power = Figure::new(
        id("power"),
        Stage::Transmitter,
        label("fig-power"),
        watt(path.power_w),
        &POWER_FROM_LICENCE,
    )
    .using(stated(&format!("emissions.{}.licence.erp", path.tag)))
    .using_all(["line_loss", "mismatch", "gain"].map(|w| Input::Figure(id(w))));
    if path.power_stated {
        power = power.using(stated(&format!("emissions.{}.power", path.tag)));
    }
    if let (Some(power_w), Some(rated_w)) = (path.power_w, path.rated_w) {
        power = power.margin(
            Value::of(10.0 * (rated_w / power_w).log10(), Unit::Decibel),
            Value::of(rated_w, Unit::Watt),
            Message::new("whose-rating").text("tag", tag_of(case, path)),
        );
    }
    out.push(power);
    out.push(
        Figure::new(
            id("rated"),
            Stage::Transmitter,
            label("fig-rated"),
            watt(path.rated_w),
            &INLINE_LOSS,
        )
        .using(Input::Shelf {
            id: shelf_of_transmitter(case, path),
            rating: "transmitter.output",
        }),
    );
    if path.licence_w.is_some() {
        out.push(
            Figure::new(
                id("licence_power"),
                Stage::Transmitter,
                label("fig-licence-power"),
                watt(path.licence_w),
                &POWER_FROM_LICENCE,
            )
            .using(stated(&format!("emissions.{}.licence.erp", path.tag)))
            .using_all(["line_loss", "mismatch", "gain"].map(|w| Input::Figure(id(w)))),
        );
    }
    let steps = path.steps.as_deref().unwrap_or(&[]);
    out.push(
        Figure::new(
            id("line_loss"),
            Stage::Feeder,
            label("fig-line-loss"),
            if path.steps.is_ok() {
                Value::of(path.line_loss_db, Unit::SmallDecibel)
            } else {
                missing()
            },
            &LINE_LOSS,
        )
        .using_all(
            steps
                .iter()
                .filter(|s| counts_before(s))
                .map(|s| Input::Figure(id(&format!("step.{}", s.tag)))),
        )
        .using_all(
            path.joints
                .iter()
                .enumerate()
                .map(|(i, _)| Input::Figure(id(&format!("joint.{}", i + 1)))),
        ),
    );
    out.extend(steps.iter().map(|s| step(case, path, s)));
    out.extend(path.joints.iter().enumerate().map(|(i, j)| joint(path, i, j)));
    out.push(Figure::new(
        id("mismatch"),
        Stage::Feeder,
        label("fig-mismatch"),
        if path.radiating.is_ok() {
            Value::of(path.mismatch_db, Unit::SmallDecibel)
        } else {
            missing()
        },
        &MISMATCH,
    ));
    if let Some((antenna, transmitter)) = path.vswr {
        out.push(Figure::new(
            id("vswr_antenna"),
            Stage::Antenna,
            label("fig-vswr-antenna"),
            Value::of(antenna, Unit::Ratio),
            gain_method(path),
        ));
        out.push(
            Figure::new(
                id("vswr_transmitter"),
                Stage::Transmitter,
                label("fig-vswr-transmitter"),
                Value::of(transmitter, Unit::Ratio),
                &MISMATCH,
            )
            .using(Input::Figure(id("vswr_antenna")))
            .using(Input::Figure(id("line_loss"))),
        );
    }
    if let Ok(radiating) = &path.radiating {
        let antenna = |key: &str| stated(&format!("antennas.{}.{key}", radiating.tag));
        let peak = path.planes.iter().map(|p| p.plane).next();
        let gain = peak.map(|plane| {
            radiating
                .pattern
                .peak(crate::proofs::transmission::wave_plane(plane))
                .gain_dbd
        });
        out.push(
            Figure::new(
                id("gain"),
                Stage::Antenna,
                label("fig-gain"),
                gain.map_or_else(missing, |g| Value::of(g, Unit::Dbd)),
                gain_method(path),
            )
            .using_all(["bays", "spacing", "element", "tilt", "stand_off"].map(antenna)),
        );
        out.push(Figure::new(
            id("feed_loss"),
            Stage::Antenna,
            label("fig-feed-loss"),
            Value::of(radiating.feed_loss_db, Unit::SmallDecibel),
            gain_method(path),
        ));
        out.push(
            Figure::new(
                id("height"),
                Stage::Antenna,
                label("fig-height"),
                Value::of(radiating.centre_agl_m, Unit::Metre),
                &BILL,
            )
            .using(antenna("height")),
        );
    }
    for plane in &path.planes {
        let word = plane.plane.word();
        out.push(
            Figure::new(
                id(&format!("erp_{word}")),
                Stage::Antenna,
                Message::new("fig-erp-plane")
                    .text("tag", path.tag.as_str())
                    .tag("plane", word),
                Value::of(plane.erp_w, Unit::Watt),
                &ERP_CHAIN,
            )
            .using_all(["power", "line_loss", "mismatch", "gain"].map(|w| Input::Figure(id(w)))),
        );
    }
    out.push(
        Figure::new(
            id("erp"),
            Stage::Antenna,
            label("fig-erp"),
            watt(path.erp_w),
            &ERP_CHAIN,
        )
        .using_all(
            path.planes
                .iter()
                .map(|p| Input::Figure(id(&format!("erp_{}", p.plane.word())))),
        ),
    );
    out
}

fn counts_before(step: &Step) -> bool {
    !matches!(step.kind, StepKind::Splitter | StepKind::Tails { .. })
}

fn shelf_of_transmitter(case: &Case, path: &EmissionPath) -> String {
    case.station
        .emission(&path.tag)
        .and_then(|e| case.station.item(e.transmitter.as_deref()?))
        .map(|i| i.shelf.clone())
        .unwrap_or_default()
}

fn step(case: &Case, path: &EmissionPath, step: &Step) -> Figure {
    let name = case
        .shelf
        .get(&step.shelf)
        .map_or(step.shelf.as_str(), |s| s.name.as_str());
    let base = Message::new(match step.kind {
        StepKind::Line { .. } => "fig-step-line",
        StepKind::Inline => "fig-step-inline",
        StepKind::Splitter => "fig-step-splitter",
        StepKind::Tails { .. } => "fig-step-tails",
    })
    .text("tag", step.tag.as_str())
    .text("name", name);
    let label = match step.kind {
        StepKind::Line { length_m } => base.quantity("length", quantity::Length::from_m(length_m)),
        StepKind::Tails { length_m, count } => base
            .quantity("length", quantity::Length::from_m(length_m))
            .count("count", i64::from(count)),
        _ => base,
    };
    let value = match step.loss_db {
        Some(db) => Value::of(db, Unit::SmallDecibel),
        None => Value::NotKnown(Message::new("missing-rating").text("item", name)),
    };
    let method = if matches!(step.kind, StepKind::Line { .. } | StepKind::Tails { .. }) {
        &LINE_LOSS
    } else {
        &INLINE_LOSS
    };
    let mut figure = Figure::new(
        format!("transmission.{}.step.{}", path.tag, step.tag),
        Stage::Feeder,
        label,
        value,
        method,
    )
    .using(Input::Shelf {
        id: step.shelf.clone(),
        rating: "loss",
    });
    if matches!(step.kind, StepKind::Line { .. } | StepKind::Tails { .. }) {
        figure = figure
            .using(stated(&format!("cables.{}.length", step.tag)))
            .using(stated(&format!("cables.{}.temperature", step.tag)));
    }
    if let Some(shelf) = case.shelf.get(&step.shelf) {
        figure = figure.marked(shelf.mark.unwrap_or(station::Mark::Practice));
    }
    if let (Some(power), Some(allowed)) = (step.power_in_w, step.allowed_w) {
        figure = figure.margin(
            Value::of(10.0 * (allowed / power).log10(), Unit::Decibel),
            Value::of(allowed, Unit::Watt),
            Message::new("whose-rating").text("tag", step.tag.as_str()),
        );
    }
    figure
}

fn joint(path: &EmissionPath, index: usize, joint: &JointCheck) -> Figure {
    let label = Message::new("fig-joint")
        .text("near", joint.between.0.as_str())
        .text("far", joint.between.1.as_str())
        .count("count", i64::from(joint.count));
    let mut figure = Figure::new(
        format!("transmission.{}.joint.{}", path.tag, index + 1),
        Stage::Feeder,
        label,
        Value::of(joint.loss_db, Unit::SmallDecibel),
        &JOINT_LOSS,
    );
    if let (Some(power), Some(allowed)) = (joint.power_w, joint.allowed_w) {
        figure = figure.margin(
            Value::of(10.0 * (allowed / power).log10(), Unit::Decibel),
            Value::of(allowed, Unit::Watt),
            Message::new("whose-connector"),
        );
    }
    figure
}

/// How an emission's antenna was computed.
fn gain_method(path: &EmissionPath) -> &'static crate::method::Method {
    match &path.radiating {
        Ok(radiating) if radiating.wires => &WIRES_GAIN,
        _ => &ARRAY_GAIN,
    }
}
