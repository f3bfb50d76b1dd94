//! What the page shows of a station beside its sheet: handles, mast, pattern, ladder.

use super::handles;
use super::openings::openings;
use crate::office::{Assessed, Office};
use assess::figure::Stage;
use assess::proofs::transmission::{EmissionPath, StepKind};
use assess::said::{SaidFigure, Sheet, Shown};
use assess::say::{joined, show_number};
use assess::unit::Unit;
use quantity::Locale;
use server::view::{Bearing, FileCondition, FileState, Horizon, LadderStep, Mast, Ring, Tightest, View};
use station::place::MastKind;
use words::{Language, Message, said, say};

/// The view of an assessed station; token, file and history are the desk's.
pub fn view(office: &Office, assessed: &Assessed) -> View {
    let locale = language(assessed).locale();
    View {
        token: String::new(),
        draft: false,
        sheet: assessed.sheet.clone(),
        subtitle: subtitle(assessed, locale),
        file: FileState {
            name: String::new(),
            digest: String::new(),
            condition: FileCondition::Saved,
            why: None,
        },
        last: None,
        can_undo: false,
        can_redo: false,
        openings: openings(assessed, locale),
        handles: handles::handles(office, assessed, locale),
        mast: mast(office, assessed, locale),
        horizon: horizon(assessed, locale),
        ladder: ladder(assessed, locale),
        more: super::offers::more(assessed, language(assessed)),
    }
}

fn subtitle(assessed: &Assessed, locale: &Locale) -> String {
    let mut parts = Vec::new();
    if let Some(frequency) = assessed
        .station
        .emissions
        .first()
        .and_then(|e| e.frequency.value())
    {
        parts.push(joined(&show_number(frequency.mhz(), Unit::Megahertz, locale)));
    }
    let antenna = assessed
        .station
        .emissions
        .first()
        .and_then(|e| assessed.station.antenna(e.antenna.as_deref()?));
    if let Some(site) = antenna.and_then(|a| assessed.station.site(&a.site)) {
        parts.push(site.name.clone());
    }
    let name = parts.join(", ");
    match assessed.sheet.invented {
        true => said(
            &Message::new("assess-invented").text("name", name),
            language(assessed),
        ),
        false => name,
    }
}

/// The language a station is shown in.
pub fn language(assessed: &Assessed) -> Language {
    Language::from_tag(&assessed.sheet.language).unwrap_or_default()
}

/// What a change did to the headline figures, in words.
pub fn effect(before: &Sheet, after: &Sheet) -> Option<String> {
    let spoken = Language::from_tag(&after.language).unwrap_or_default();
    let watched = ["money.capital"];
    let listener = |s: &Sheet| {
        s.stages
            .iter()
            .find(|s| s.stage == Stage::Listener)
            .and_then(|s| s.level_figure.clone())
    };
    let of = |s: &Sheet, id: &str| s.figures.iter().find(|f| f.id == id).map(|f| joined(&f.value));
    let mut out = Vec::new();
    for id in listener(after).iter().map(String::as_str).chain(watched) {
        if let (Some(a), Some(b)) = (of(before, id), of(after, id))
            && a != b
        {
            let message = Message::new("change-effect").text("now", b).text("before", a);
            out.push(said(&message, spoken));
        }
    }
    let joint = said(&Message::new("words-semicolon"), spoken);
    (!out.is_empty()).then(|| out.join(&joint))
}

fn shelf_name(office: &Office, id: &str) -> String {
    office
        .shelf
        .get(id)
        .map_or_else(|| id.to_owned(), |s| s.name.clone())
}

fn mast(office: &Office, assessed: &Assessed, locale: &Locale) -> Option<Mast> {
    let path = assessed.outcome.transmission.emissions.first()?;
    let radiating = path.radiating.as_ref().ok()?;
    let site = assessed.station.site(&radiating.site)?;
    let antenna = assessed.station.antenna(&radiating.tag)?;
    let top_m = site
        .mast
        .height
        .value()
        .map_or(radiating.centre_agl_m + 5.0, |h| h.m());
    let metres = |m: f64| joined(&show_number(m, Unit::Metre, locale));
    let middle = f64::from(radiating.bays - 1) / 2.0;
    let steps = path.steps.as_deref().unwrap_or(&[]);
    let feeder = steps
        .iter()
        .filter_map(|s| match s.kind {
            StepKind::Line { length_m } => Some((length_m, s)),
            _ => None,
        })
        .max_by(|a, b| a.0.total_cmp(&b.0));
    let splitter = antenna.splitter.as_deref().and_then(|t| assessed.station.item(t));
    let distance = assessed.outcome.exposure.emissions.first();
    let transmitter = assessed
        .station
        .emission(&path.tag)
        .and_then(|e| assessed.station.item(e.transmitter.as_deref()?))
        .map(|i| shelf_name(office, &i.shelf));
    Some(Mast {
        site: site.name.clone(),
        top_m,
        top_says: metres(top_m),
        foot_m: site.mast.roof.map_or(0.0, |r| r.m()),
        width_m: site.mast.width.value().map_or(0.3, |w| w.m()),
        lattice: !matches!(site.mast.kind.value(), Some(MastKind::Pole)),
        bays_m: (0..radiating.bays)
            .map(|i| radiating.centre_agl_m + (middle - f64::from(i)) * radiating.spacing_m)
            .collect(),
        bays_say: (0..radiating.bays)
            .map(|i| radiating.centre_agl_m + (middle - f64::from(i)) * radiating.spacing_m)
            .map(|m| joined(&show_number(m, Unit::FineMetre, locale)))
            .collect(),
        centre_m: radiating.centre_agl_m,
        centre_says: metres(radiating.centre_agl_m),
        spacing_says: (radiating.bays > 1)
            .then(|| joined(&show_number(radiating.spacing_m, Unit::FineMetre, locale))),
        element_m: antenna::line::wavelength_m(path.frequency_mhz?) / 2.0,
        upright: radiating.polarisation != station::licence::Polarisation::Horizontal,
        stand_off_m: antenna.stand_off.value().map_or(0.8, |s| s.m()),
        stand_off_says: antenna
            .stand_off
            .value()
            .map(|s| joined(&show_number(s.m(), Unit::FineMetre, locale))),
        elements_say: antenna
            .element
            .as_deref()
            .map(|id| vec![shelf_name(office, id)])
            .unwrap_or_default(),
        splitter_says: splitter
            .map(|i| vec![shelf_name(office, &i.shelf)])
            .unwrap_or_default(),
        feeder_says: feeder
            .map(|(m, step)| format!("{}, {}", metres(m), shelf_name(office, &step.shelf)))
            .unwrap_or_default(),
        transmitter_says: transmitter
            .into_iter()
            .chain(path.power_w.map(|w| joined(&show_number(w, Unit::Watt, locale))))
            .collect(),
        public_distance_m: distance.map(|d| d.public_printed_m()),
        public_says: distance
            .map(|d| {
                let id = format!("exposure.{}.public", path.tag);
                let figure = assessed.sheet.figures.iter().find(|f| f.id == id);
                let clause = figure.map_or(String::new(), |f| f.how.clause.clone());
                vec![metres(d.public_printed_m()), clause]
            })
            .unwrap_or_default(),
    })
}

fn horizon(assessed: &Assessed, locale: &Locale) -> Option<Horizon> {
    let check = assessed.outcome.licence.emissions.first()?;
    if check.round.is_empty() {
        return None;
    }
    let most = check
        .round
        .iter()
        .map(|d| d.radiated_w.max(d.allowed_w))
        .fold(0.0, f64::max);
    // Rings by field: half the power is seven tenths of the radius.
    let rings = [1.0, 0.5, 0.25, 0.1]
        .into_iter()
        .map(|part: f64| Ring {
            value: most * part,
            share: part.sqrt(),
            says: joined(&show_number(most * part, Unit::Watt, locale)),
        })
        .collect();
    let language = language(assessed);
    let tightest = check.tightest.map(|t| {
        let margin = joined(&show_number(t.margin_db().abs(), Unit::Decibel, locale));
        let at = format!("{:.0}°", t.azimuth_deg);
        let short = t.margin_db() < -0.005;
        let code = if short { "horizon-over" } else { "horizon-in-hand" };
        let says = say(
            &Message::new(code).text("margin", margin).text("at", at),
            language,
        )
        .unwrap_or_default();
        Tightest {
            az_deg: t.azimuth_deg,
            says: vec![says],
            short,
        }
    });
    let places = assessed
        .outcome
        .coverage
        .wanted
        .iter()
        .filter_map(|w| {
            let at = w.place.as_ref()?.as_ref().ok()?;
            let wish = assessed.station.brief.wanted.iter().find(|b| b.tag == w.tag)?;
            let place = assessed.station.place(wish.place.as_deref()?)?;
            let gain_dbd = gain_towards(assessed, at.azimuth_deg, at.elev_deg);
            let mut seen = joined(&show_number(-at.elev_deg, Unit::Degree, locale));
            if let Some(gain) = gain_dbd {
                seen = format!("{seen}, {}", joined(&show_number(gain, Unit::Dbd, locale)));
            }
            Some(Bearing {
                name: place.name.clone(),
                az_deg: at.azimuth_deg,
                depression_deg: -at.elev_deg,
                gain_dbd,
                seen,
            })
        })
        .collect();
    Some(Horizon {
        unit: "W".into(),
        erp: check
            .round
            .iter()
            .map(|d| (d.azimuth_deg, d.radiated_w))
            .collect(),
        allowed: check.round.iter().map(|d| (d.azimuth_deg, d.allowed_w)).collect(),
        rings,
        places,
        tightest,
    })
}

/// Gain of the first emission's antenna in a direction, in the plane that is strongest there.
fn gain_towards(assessed: &Assessed, azimuth_deg: f64, elev_deg: f64) -> Option<f64> {
    let path = assessed.outcome.transmission.emissions.first()?;
    let radiating = path.radiating.as_ref().ok()?;
    let planes = path.planes.iter();
    planes
        .map(|p| {
            let plane = assess::proofs::transmission::wave_plane(p.plane);
            radiating.pattern.gain_dbd(plane, azimuth_deg, elev_deg)
        })
        .reduce(f64::max)
}

fn ladder(assessed: &Assessed, locale: &Locale) -> Vec<LadderStep> {
    let Some(path) = assessed.outcome.transmission.emissions.first() else {
        return Vec::new();
    };
    let (Some(power), Ok(radiating)) = (path.power_w, &path.radiating) else {
        return Vec::new();
    };
    let figure = |what: &str| {
        assessed
            .sheet
            .figures
            .iter()
            .find(|f| f.id == format!("transmission.{}.{what}", path.tag))
    };
    let mut now = power;
    let mut out = Vec::new();
    let mut step = |figure: Option<&SaidFigure>, label: String, change_db: Option<f64>, now: f64| {
        let shown = |n: f64, u: Unit| -> Option<Shown> { Some(show_number(n, u, locale)) };
        out.push(LadderStep {
            label: figure.map_or(label, |f| f.label.clone()),
            change: change_db.and_then(|db| shown(db, Unit::SmallDecibel)),
            level: shown(10.0 * now.log10(), Unit::DbWatt),
            power: shown(now, Unit::Watt),
            figure: figure.map(|f| f.id.clone()),
        });
    };
    step(figure("power"), String::new(), None, now);
    for (label, db) in in_line(path, language(assessed)) {
        now *= 10f64.powf(-db / 10.0);
        step(figure(&label), label.clone(), Some(-db), now);
    }
    now *= 10f64.powf(-path.mismatch_db / 10.0);
    step(figure("mismatch"), String::new(), Some(-path.mismatch_db), now);
    let gain = path
        .planes
        .first()
        .map(|p| {
            radiating
                .pattern
                .peak(assess::proofs::transmission::wave_plane(p.plane))
                .gain_dbd
        })
        .unwrap_or(0.0);
    now *= 10f64.powf(gain / 10.0);
    step(figure("gain"), String::new(), Some(gain), now);
    step(figure("erp"), String::new(), None, path.erp_w.unwrap_or(now));
    out
}

/// Losses from transmitter to splitter: each step by its figure's name, then the joints together.
fn in_line(path: &EmissionPath, language: Language) -> Vec<(String, f64)> {
    let steps = path.steps.as_deref().unwrap_or(&[]);
    let mut out: Vec<(String, f64)> = steps
        .iter()
        .take_while(|s| !matches!(s.kind, StepKind::Splitter | StepKind::Tails { .. }))
        .filter_map(|s| Some((format!("step.{}", s.tag), s.loss_db?)))
        .collect();
    let own: f64 = out.iter().map(|(_, db)| db).sum();
    let joints = path.line_loss_db - own;
    if joints > 1e-6 {
        out.push((super::words_of("ladder-joints", language), joints));
    }
    out
}
