//! The field at one place with each loss term, and the path to it.

use super::picture;
use super::{view, words_of};
use crate::office::{Assessed, Office};
use assess::proofs::coverage::{erp_table, study, wanted_field};
use assess::say::{joined, show_number};
use assess::section::{self, Section};
use assess::unit::Unit;
use coverage::{AtPlace, Study, TermKind, at_place};
use quantity::Locale;
use server::desk::Refusal;
use server::map::Heard;
use server::probe::{Obstacle, Probe, ProbeAsk, Profile, Rung, Wanted};
use station::brief::{Service, Situation};
use words::{Language, Message};

/// How a listener is named on the map, as the brief names situations.
pub fn situation(heard: Heard) -> Situation {
    match heard {
        Heard::Roof => Situation::Roof,
        Heard::Indoors => Situation::Indoors,
        Heard::Car => Situation::Car,
    }
}

/// Answers a probe.
pub fn probe(office: &Office, assessed: &Assessed, ask: &ProbeAsk) -> Result<Probe, Refusal> {
    let language = view::language(assessed);
    let locale = language.locale();
    let case = office.case(&assessed.file, &assessed.document, &assessed.station);
    let not_ready = || Refusal::new("not-ready", Message::new("probe-nothing-radiates"));
    let emission = match &ask.emission {
        Some(tag) => assessed.station.emission(tag),
        None => assessed.station.emissions.first(),
    }
    .ok_or_else(not_ready)?;
    let path = assessed
        .outcome
        .transmission
        .emissions
        .iter()
        .find(|p| p.tag == emission.tag)
        .ok_or_else(not_ready)?;
    let (study, table) = study(&case, emission)
        .zip(erp_table(path))
        .ok_or_else(not_ready)?;
    let grid = picture::grid(assessed, &emission.tag)?;
    let (to, name, around) = place(assessed, ask, &grid)?;
    // A place that the brief names is held to what the brief wants there, where it is asked for in that situation.
    let wish = assessed.station.brief.wanted.iter().find(|w| {
        let named = w.place.as_deref().and_then(|tag| assessed.station.place(tag));
        named.is_some_and(|p| p.name == name)
            && w.situation.value().is_none_or(|s| *s == situation(ask.heard))
    });
    let service = wish.map_or(Service::Stereo, |w| w.service);
    let own = wish.and_then(|w| w.field).map(|f| f.dbuv_m());
    let wanted = wanted_field(&case, service, situation(ask.heard), own);
    let at = at_place(case.world, &study, to, &table, &wanted, around)
        .map_err(|e| Refusal::new("not-found", &e))?;
    let (x, y) = grid.locate(to).unwrap_or((0.0, 0.0));
    let unit = |n: f64, u: Unit| show_number(n, u, locale);
    let site = case
        .station
        .antenna(emission.antenna.as_deref().unwrap_or(""))
        .and_then(|a| case.station.site(&a.site));
    Ok(Probe {
        title: format!("{} → {}", site.map_or("", |s| s.name.as_str()), name),
        note: format!(
            "{}, {}, k = 4/3",
            joined(&unit(at.azimuth_deg, Unit::Degree)),
            joined(&unit(at.distance_km, Unit::Kilometre))
        ),
        name,
        x,
        y,
        field: unit(at.field_dbuv_m, Unit::DbuvPerMetre),
        in_hand: Some(assess::say::signed(at.margin_db, Unit::Decibel, locale)),
        short: at.margin_db < 0.0,
        wanted: Some(Wanted {
            value: at.threshold.wanted_dbuv_m,
            says: joined(&unit(at.threshold.wanted_dbuv_m, Unit::DbuvPerMetre)),
        }),
        rungs: rungs(&at, language),
        unit: Unit::DbuvPerMetre.symbol().into(),
        profile: profile(&at, &study, &grid, locale),
        second: assess::second_opinion::at_place(&study, &at).map(|second| {
            let message = Message::new("probe-second")
                .text("field", joined(&unit(second.field_dbuv_m, Unit::DbuvPerMetre)))
                .text(
                    "more",
                    joined(&assess::say::signed(second.more_db, Unit::Decibel, locale)),
                );
            words::said(&message, language)
        }),
    })
}

/// Where a probe points: cells of the map, a place of the file or the world, or a position as typed.
fn place(
    assessed: &Assessed,
    ask: &ProbeAsk,
    grid: &terrain::Grid,
) -> Result<(terrain::Position, String, Option<terrain::Surroundings>), Refusal> {
    let off = || Refusal::new("not-found", Message::new("probe-off-the-map"));
    if let Some(typed) = ask.at.as_deref().map(str::trim).filter(|t| !t.is_empty()) {
        let known = assessed
            .station
            .places
            .iter()
            .find(|p| p.name.eq_ignore_ascii_case(typed) || p.tag == typed);
        if let Some(known) = known {
            let at = terrain::Position::new(known.position.lat_deg(), known.position.lon_deg())
                .map_err(|_| off())?;
            return Ok((
                at,
                known.name.clone(),
                known.surroundings.map(assess::proofs::coverage::surroundings),
            ));
        }
        let position: quantity::Position = typed
            .parse()
            .map_err(|e: quantity::QuantityError| Refusal::new("not-found", &e))?;
        let at = terrain::Position::new(position.lat_deg(), position.lon_deg()).map_err(|_| off())?;
        return Ok((at, position.show_degrees(4), None));
    }
    let (Some(x), Some(y)) = (ask.x, ask.y) else {
        return Err(Refusal::new("not-found", Message::new("probe-ask")));
    };
    if !(x.is_finite() && y.is_finite())
        || x < 0.0
        || y < 0.0
        || x >= f64::from(grid.width())
        || y >= f64::from(grid.height())
    {
        return Err(off());
    }
    let at = grid
        .position(x.round() as u32, y.round() as u32)
        .ok_or_else(off)?;
    let near = assessed.station.places.iter().find(|p| {
        terrain::Position::new(p.position.lat_deg(), p.position.lon_deg())
            .is_ok_and(|there| terrain::geodesic::span(there, at).length_m < 150.0)
    });
    let name = match near {
        Some(place) => place.name.clone(),
        None => quantity::Position::from_deg(at.lat_deg(), at.lon_deg())
            .map(|p| p.show_degrees(4))
            .unwrap_or_default(),
    };
    Ok((
        at,
        name,
        near.and_then(|p| p.surroundings)
            .map(assess::proofs::coverage::surroundings),
    ))
}

/// From the field of free space down to the listener, term by term.
fn rungs(at: &AtPlace, language: Language) -> Vec<Rung> {
    let locale = language.locale();
    let losses: f64 = at
        .terms
        .iter()
        .filter(|t| t.kind != TermKind::FreeSpace)
        .map(|t| t.db)
        .sum();
    let mut level = at.field_dbuv_m + losses;
    let mut out = vec![Rung {
        label: words_of("rung-free-space", language),
        change: show_number(level, Unit::DbuvPerMetre, locale),
        from: 0.0,
        to: level,
        level: true,
    }];
    for term in at
        .terms
        .iter()
        .filter(|t| t.kind != TermKind::FreeSpace && t.db.abs() >= 0.05)
    {
        let from = level;
        level -= term.db;
        out.push(Rung {
            label: words_of(
                match term.kind {
                    TermKind::FreeSpace => "rung-free-space",
                    TermKind::Obstacles => "rung-obstacles",
                    TermKind::CurvedEarth => "rung-curved-earth",
                    TermKind::OtherWays => "rung-other-ways",
                    TermKind::Height => "rung-height",
                    TermKind::Walls => "rung-walls",
                },
                language,
            ),
            change: show_number(-term.db, Unit::Decibel, locale),
            from,
            to: level,
            level: false,
        });
    }
    out.push(Rung {
        label: words_of("rung-field", language),
        change: show_number(at.field_dbuv_m, Unit::DbuvPerMetre, locale),
        from: 0.0,
        to: at.field_dbuv_m,
        level: true,
    });
    out
}

fn profile(at: &AtPlace, study: &Study, grid: &terrain::Grid, locale: &Locale) -> Profile {
    let p = &at.profile;
    let in_the_way = at.obstacle.as_ref().filter(|o| o.knife_edge_db > 0.5);
    let section = Section::of(
        &section::Path {
            distances_km: &p.distances_km,
            heights_m: &p.heights_m,
            clutter_m: &p.clutter_m,
            near_agl_m: study.tx_agl_m,
            far_agl_m: at.prediction_agl_m,
            freq_mhz: study.conditions.freq_mhz,
            obstacle: in_the_way.map(|o| (o.distance_km, o.top_amsl_m)),
        },
        section::DRAWN_K,
    );
    let obstacle = in_the_way.zip(section.obstacle).map(|(o, (along, height))| {
        let (x, y) = grid.locate(o.position).unwrap_or((0.0, 0.0));
        Obstacle {
            along,
            height,
            x,
            y,
            title: joined(&show_number(o.distance_km, Unit::Kilometre, locale)),
            note: format!(
                "{}, {}",
                joined(&show_number(o.above_ray_m, Unit::Metre, locale)),
                joined(&show_number(o.knife_edge_db, Unit::Decibel, locale))
            ),
        }
    });
    Profile {
        along_unit: "km".into(),
        height_unit: "m".into(),
        ground: section.ground,
        cover: section.cover,
        ray: section.ray,
        string: section.string,
        zone_above: section.zone_above,
        zone_below: section.zone_below,
        obstacle,
        far_says: joined(&show_number(at.prediction_agl_m, Unit::Metre, locale)),
    }
}
