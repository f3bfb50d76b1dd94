//! From the transmitter to the splitter: what each part and joint loses, and what it may carry here.

use super::height::ground_amsl_m;
use super::{JointCheck, Step, StepKind};
use crate::case::Case;
use antenna::line::rating::{Conditions, Service, connector_rating_w, derated, line_rating_w};
use antenna::line::{LineConstants, Vswr};
use station::chain::{Chain, Mating, Part};
use station::design::Emission;
use station::shelf::ShelfItem;

/// Loss of one mated pair of connectors, dB. Common practice, no source; a good pair is below it.
pub const JOINT_LOSS_DB: f64 = 0.02;

/// Joints between transmitter and splitter; those beyond it are part of the tails.
pub(super) fn joints_before_splitter<'a>(
    chain: &Chain,
    joints: &'a [JointCheck],
) -> impl Iterator<Item = &'a JointCheck> {
    let splitter = chain
        .links
        .iter()
        .position(|l| l.shelf.is_some_and(|s| s.splitter.is_some()));
    joints.iter().take(splitter.unwrap_or(joints.len()))
}

/// Loss of a joint: the mated pair, and the adapter where one is needed, dB.
pub(super) fn joint_loss_db(mating: &Mating) -> f64 {
    let adapter_db = match mating {
        Mating::Adapter { adapter, .. } => adapter.inline.as_ref().map_or(0.0, |i| i.loss.db()),
        _ => 0.0,
    };
    JOINT_LOSS_DB + adapter_db
}

/// Losses of the joints from the transmitter to the splitter, or to the antenna where there is none, dB.
pub fn joints_to_splitter(chain: &Chain) -> Vec<f64> {
    let splitter = chain
        .links
        .iter()
        .position(|l| l.shelf.is_some_and(|s| s.splitter.is_some()));
    let joints = chain.joints.iter().take(splitter.unwrap_or(chain.joints.len()));
    joints.map(|j| joint_loss_db(&j.mating)).collect()
}

pub(super) fn conditions(case: &Case, emission: &Emission, vswr: Option<Vswr>) -> Conditions {
    let site = emission
        .antenna
        .as_deref()
        .and_then(|a| case.station.antenna(a))
        .and_then(|a| case.station.site(&a.site));
    let hottest = site
        .and_then(|s| s.climate.hottest.value())
        .map_or(40.0, |t| t.celsius());
    let altitude = site.and_then(|s| ground_amsl_m(case, s)).unwrap_or(0.0);
    Conditions {
        ambient_c: hottest.max(40.0),
        altitude_amsl_m: altitude,
        sunlit: true,
        vswr: vswr.unwrap_or(Vswr::ONE),
        service: Service::Continuous,
    }
}

pub(super) fn steps(chain: &Chain, frequency_mhz: Option<f64>, at: &Conditions) -> Vec<Step> {
    let mut steps = Vec::new();
    let mut beyond_splitter = false;
    for link in &chain.links[1..] {
        let shelf = link.shelf;
        let (kind, loss_db, rated_w) = match link.part {
            Part::Antenna(_) => continue,
            Part::Cable(cable) => {
                let temperature = cable.temperature.value().map_or(40.0, |t| t.celsius());
                let length_m = cable.length.m();
                let line = shelf.and_then(line_constants);
                let loss = line
                    .zip(frequency_mhz)
                    .and_then(|(l, f)| l.loss_db(f, length_m, temperature).ok());
                let rated = shelf
                    .zip(line)
                    .zip(frequency_mhz)
                    .and_then(|((s, l), f)| line_rated_w(s, &l, f));
                let kind = if beyond_splitter {
                    StepKind::Tails {
                        length_m,
                        count: cable.count.unwrap_or(1),
                    }
                } else {
                    StepKind::Line { length_m }
                };
                (kind, loss, rated)
            }
            Part::Item(_) => match shelf.and_then(|s| s.splitter.as_ref()) {
                Some(splitter) => {
                    beyond_splitter = true;
                    (
                        StepKind::Splitter,
                        Some(splitter.excess.db()),
                        splitter.power.map(|p| p.w()),
                    )
                }
                None => {
                    let inline = shelf.and_then(|s| s.inline.as_ref());
                    (
                        StepKind::Inline,
                        inline.map(|i| i.loss.db()),
                        inline.and_then(|i| i.power).map(|p| p.w()),
                    )
                }
            },
        };
        let allowed_w = match kind {
            // Lines get hot: derated for place, sun and standing waves. Boxes carry their maker's continuous rating.
            StepKind::Line { .. } | StepKind::Tails { .. } => {
                rated_w.and_then(|w| derated(w, at).ok()).map(|d| d.average_w)
            }
            _ => rated_w,
        };
        let shelf_id = shelf.map(|s| s.id.clone()).unwrap_or_default();
        steps.push(Step {
            tag: link.part.tag().to_owned(),
            shelf: shelf_id,
            kind,
            loss_db,
            power_in_w: None,
            allowed_w,
        });
    }
    steps
}

/// The line constants of a shelf item.
pub fn line_constants(shelf: &ShelfItem) -> Option<LineConstants> {
    let line = shelf.line.as_ref()?;
    LineConstants::new(line.a, line.b, line.velocity.unwrap_or(0.85), 50.0).ok()
}

pub(super) fn line_rated_w(shelf: &ShelfItem, line: &LineConstants, frequency_mhz: f64) -> Option<f64> {
    let at_100 = shelf.line.as_ref()?.power_100mhz?.w();
    let alpha_100 = line.attenuation_db_per_100m(100.0, 20.0).ok()?;
    let alpha = line.attenuation_db_per_100m(frequency_mhz, 20.0).ok()?;
    line_rating_w(at_100, alpha_100, alpha).ok()
}

pub(super) fn joints(chain: &Chain, frequency_mhz: Option<f64>, at: &Conditions) -> Vec<JointCheck> {
    chain
        .joints
        .iter()
        .enumerate()
        .map(|(i, joint)| {
            let (fitted, adapter): (&[&ShelfItem], Option<&ShelfItem>) = match &joint.mating {
                Mating::Direct { fitted } => (fitted, None),
                Mating::Adapter { fitted, adapter } => (fitted, Some(adapter)),
                Mating::Impossible | Mating::NotKnown => (&[], None),
            };
            let weakest = fitted
                .iter()
                .copied()
                .chain(adapter)
                .filter_map(|s| {
                    s.ports
                        .iter()
                        .filter_map(|p| p.power)
                        .map(|p| p.w())
                        .reduce(f64::min)
                })
                .reduce(f64::min);
            let ambient = Conditions {
                sunlit: false,
                service: Service::Intermittent,
                ..*at
            };
            let allowed_w = weakest
                .zip(frequency_mhz)
                .and_then(|(w, f)| connector_rating_w(w, f).ok())
                .and_then(|w| derated(w, &ambient).ok())
                .map(|d| d.average_w.min(d.hot_spot_w));
            JointCheck {
                between: (
                    chain.links[i].part.tag().to_owned(),
                    chain.links[i + 1].part.tag().to_owned(),
                ),
                count: joint.count,
                sides: (
                    joint.near.as_ref().map(|c| c.to_string()),
                    joint.far.as_ref().map(|c| c.to_string()),
                ),
                fitted: fitted.iter().map(|s| s.id.clone()).collect(),
                adapter: adapter.map(|s| s.id.clone()),
                impossible: joint.mating == Mating::Impossible,
                not_known: joint.mating == Mating::NotKnown,
                loss_db: joint_loss_db(&joint.mating),
                power_w: None,
                allowed_w,
            }
        })
        .collect()
}
