//! The programme's way to the transmitter, hop by hop, in finished words: path, ladder, what takes it away in a year.

use super::view::language;
use crate::office::Assessed;
use assess::pen::Pen;
use assess::proofs::link::{FadeCause, HopCheck, RadioCheck};
use assess::said::Shown;
use assess::unit::Unit;
use server::link::{Fade, Hop, Nearest, RadioHop};
use server::probe::{Profile, Rung, Wanted};
use words::{Message, WordsError};

/// Every hop of the station.
///
/// # Errors
/// [`WordsError`] for a sentence that is missing: a fault of ours.
pub fn hops(assessed: &Assessed) -> Result<Vec<Hop>, WordsError> {
    let pen = Pen::of(language(assessed));
    let hops = assessed.outcome.link.main_first();
    hops.map(|check| hop(assessed, check, pen)).collect()
}

fn hop(assessed: &Assessed, check: &HopCheck, pen: Pen) -> Result<Hop, WordsError> {
    let stated = assessed.station.hops.iter().find(|h| h.tag == check.tag);
    let site = |tag: Option<&String>| {
        let site = tag.and_then(|tag| assessed.station.site(tag));
        site.map_or_else(String::new, |s| s.name.clone())
    };
    let title = Message::new("hop-title")
        .text("from", site(stated.map(|h| &h.from)))
        .text("to", site(stated.map(|h| &h.to)));
    let way = Message::new("hop-way").tag(
        "way",
        check.way.map_or_else(|| "unknown".to_owned(), |w| w.variant()),
    );
    let mut note = pen.text(&way)?;
    let mut out = Hop {
        tag: check.tag.clone(),
        title: pen.text(&title)?,
        note: String::new(),
        reserve: check.reserve,
        radio: None,
        why_not: None,
    };
    match &check.radio {
        Some(Ok(radio)) => {
            let along = Message::new("hop-radio")
                .text("path", pen.joined(radio.summary.path_km, Unit::Kilometre))
                .text("frequency", pen.joined(radio.freq_ghz, Unit::Gigahertz));
            note = pen.text(&along)?;
            out.radio = Some(radio_hop(check, radio, pen)?);
        }
        Some(Err(_)) => out.why_not = Some(pen.word("missing-hop")?),
        None => {}
    }
    out.note = note;
    Ok(out)
}

fn radio_hop(check: &HopCheck, radio: &RadioCheck, pen: Pen) -> Result<RadioHop, WordsError> {
    let (median, low) = (&radio.summary.median, &radio.summary.low);
    let section = radio.section(median);
    let levels = &median.levels;
    let above = |end_amsl_m: f64, at: Option<&(f64, f64)>| {
        pen.joined(end_amsl_m - at.map_or(0.0, |p| p.1), Unit::Metre)
    };
    let worst = &median.clearance.worst;
    let wanted_m = median.required_ratio * worst.first_zone_m;
    let nearest = Nearest {
        along: worst.distance_km,
        ray: worst.ray_amsl_m,
        ground: worst.ray_amsl_m - worst.clearance_m,
        says: pen.text(&match worst.clearance_m < 0.0 {
            true => Message::new("hop-blocked").text("over", pen.joined(-worst.clearance_m, Unit::Metre)),
            false => Message::new("hop-clear").text("clear", pen.joined(worst.clearance_m, Unit::Metre)),
        })?,
        note: pen.text(
            &Message::new("hop-clear-wanted")
                .text("wanted", pen.joined(wanted_m, Unit::Metre))
                .text("at", pen.joined(worst.distance_km, Unit::Kilometre)),
        )?,
        short: worst.clearance_m < wanted_m,
    };
    let k = |at: &propagation::hop::HopAtK| pen.joined(at.clearance.k, Unit::Ratio);
    let (fades, allowed) = fades(check, radio, pen)?;
    Ok(RadioHop {
        low_ground: radio.section(low).ground,
        low_says: pen.text(&Message::new("hop-low-k").text("k", k(low)))?,
        near_says: above(radio.ends_amsl_m.0, radio.profile.first()),
        profile: Profile {
            along_unit: Unit::Kilometre.symbol().into(),
            height_unit: Unit::Metre.symbol().into(),
            ground: section.ground,
            cover: section.cover,
            ray: section.ray,
            string: section.string,
            zone_above: section.zone_above,
            zone_below: section.zone_below,
            obstacle: None,
            far_says: above(radio.ends_amsl_m.1, radio.profile.last()),
        },
        nearest,
        rungs: rungs(radio, pen)?,
        unit: Unit::Dbm.symbol().into(),
        threshold: Wanted {
            value: radio.equipment.threshold_dbm,
            says: pen.joined(radio.equipment.threshold_dbm, Unit::Dbm),
        },
        in_hand: pen.signed(levels.fade_margin_db, Unit::Decibel),
        short: levels.fade_margin_db < 0.0,
        fades,
        allowed,
    })
}

/// From what is radiated to what arrives, term by term; terms of nothing are left out.
fn rungs(radio: &RadioCheck, pen: Pen) -> Result<Vec<Rung>, WordsError> {
    let levels = &radio.summary.median.levels;
    let level = |code, dbm: f64| -> Result<Rung, WordsError> {
        Ok(Rung {
            label: pen.word(code)?,
            change: pen.shown(dbm, Unit::Dbm),
            from: 0.0,
            to: dbm,
            level: true,
        })
    };
    let mut out = vec![level("hop-radiated", levels.eirp_dbm)?];
    let mut now = levels.eirp_dbm;
    for (code, change_db) in [
        ("rung-free-space", -levels.free_space_db),
        ("hop-air", -levels.gas_db),
        ("rung-obstacles", -levels.diffraction_db),
        ("hop-trees", -radio.equipment.other_loss_db),
        ("hop-far-dish", radio.equipment.rx_gain_dbi),
        ("hop-far-line", -radio.equipment.rx_line_loss_db),
    ] {
        if change_db.abs() < 0.05 {
            continue;
        }
        out.push(Rung {
            label: pen.word(code)?,
            change: pen.signed(change_db, Unit::Decibel),
            from: now,
            to: now + change_db,
            level: false,
        });
        now += change_db;
    }
    out.push(level("hop-received", levels.received_dbm)?);
    Ok(out)
}

/// Minutes a year by cause, and what may be lost, on one axis.
fn fades(check: &HopCheck, radio: &RadioCheck, pen: Pen) -> Result<(Vec<Fade>, Option<Fade>), WordsError> {
    let causes = radio.fades_min_per_year();
    let allowed = check.allowed_min_per_year();
    let most = causes
        .iter()
        .filter_map(|c| c.1)
        .chain(allowed)
        .fold(f64::MIN_POSITIVE, f64::max);
    let minutes = |m: f64| pen.shown(m, Unit::MinutePerYear);
    let fades = causes.iter().map(|(cause, lost)| -> Result<Fade, WordsError> {
        Ok(Fade {
            label: pen.word(match cause {
                FadeCause::Multipath => "hop-multipath",
                FadeCause::Rain => "hop-rain",
            })?,
            time: match lost {
                Some(m) => minutes(*m),
                None => Shown {
                    text: pen.word("missing-availability")?,
                    unit: String::new(),
                    number: None,
                },
            },
            share: lost.unwrap_or(0.0) / most,
        })
    });
    let fades = fades.collect::<Result<_, WordsError>>()?;
    let allowed = match allowed {
        Some(m) => Some(Fade {
            label: pen.word("hop-allowed")?,
            time: minutes(m),
            share: m / most,
        }),
        None => None,
    };
    Ok((fades, allowed))
}
