//! The studio's signals in finished words: sources, crossbar, who listens, who hears whom, racks.

use super::view::language;
use crate::office::{Assessed, Office};
use assess::pen::Pen;
use assess::proofs::studio::Need;
use assess::proofs::studio::flow::{self, Flow, Hears, Source, SourceKind, SourceLevel};
use assess::unit::Unit;
use server::studio::{
    Hearing, HearsRow, HearsTable, RackItem, Studio, StudioBus, StudioOutput, StudioRack, StudioSource,
    StudioSymbol, StudioWire,
};
use station::shelf::ItemKind;
use words::{Message, WordsError};

/// Bus of the programme, as a place in the list.
const PROGRAMME: usize = 0;
/// Bus of the monitors.
const MONITOR: usize = 1;
/// The first clean feed; the others follow.
const CLEAN_FEEDS: usize = 2;

fn lacking(pen: Pen, need: Need) -> Result<String, WordsError> {
    let what = need.word().replace('_', "-");
    pen.text(&Message::new("studio-lacks").tag("what", what))
}

/// The studio of a station.
///
/// # Errors
/// [`WordsError`] for a sentence that is missing: a fault of ours.
pub fn studio(office: &Office, assessed: &Assessed) -> Result<Studio, WordsError> {
    let pen = Pen::of(language(assessed));
    let case = office.case(&assessed.file, &assessed.document, &assessed.station);
    let flow = flow::flow(&case, &assessed.outcome.studio);
    Ok(Studio {
        console: console(office, assessed, pen)?,
        sources: flow
            .sources
            .iter()
            .map(|s| source(&flow, s, pen))
            .collect::<Result<_, _>>()?,
        buses: buses(&flow, pen)?,
        outputs: outputs(&flow, assessed, pen)?,
        hears: hears(&flow, pen)?,
        racks: flow::racks(&case, &assessed.outcome.studio)
            .iter()
            .map(|r| rack(office, assessed, r, pen))
            .collect::<Result<_, _>>()?,
    })
}

fn shelf_name(office: &Office, id: &str) -> String {
    office
        .shelf
        .get(id)
        .map_or_else(|| id.to_owned(), |s| s.name.clone())
}

fn console(office: &Office, assessed: &Assessed, pen: Pen) -> Result<String, WordsError> {
    let items = assessed.station.items.iter();
    let names = items.filter_map(|i| office.shelf.get(&i.shelf));
    let name = names
        .filter(|s| s.kind == ItemKind::Console)
        .map(|s| s.name.clone())
        .next();
    name.map_or_else(|| pen.word("studio-no-console"), Ok)
}

fn name(source: &Source, pen: Pen) -> Result<String, WordsError> {
    let kind = match source.kind {
        SourceKind::Host => "host",
        SourceKind::Guest => "guest",
        SourceKind::Playout => "playout",
        SourceKind::Caller => "caller",
        SourceKind::Contributor => "contributor",
        SourceKind::Device => "device",
    };
    let message = match source.number {
        Some(number) => Message::new("studio-source-of").count("number", i64::from(number)),
        None => Message::new("studio-source"),
    };
    pen.text(&message.tag("kind", kind))
}

fn source(flow: &Flow, source: &Source, pen: Pen) -> Result<StudioSource, WordsError> {
    let level = source.level.map(|level| match level {
        SourceLevel::Dbu(dbu) => pen.joined(dbu, Unit::Dbu),
        SourceLevel::Dbfs(dbfs) => pen.joined(dbfs, Unit::Dbfs),
    });
    let lacking = source.lacks.map(|need| lacking(pen, need)).transpose()?;
    let on_feeds: Vec<(usize, bool)> = flow
        .away()
        .filter_map(|listener| {
            let bus = CLEAN_FEEDS + listener.clean_feed? as usize - 1;
            match flow.heard_by(listener, source) {
                Hears::Yes => Some((bus, true)),
                Hears::NotTheirOwn => Some((bus, false)),
                _ => None,
            }
        })
        .collect();
    let wired = source.input.is_some();
    let of = |routed: bool| on_feeds.iter().filter(move |f| f.1 == routed).map(|f| f.0);
    Ok(StudioSource {
        name: name(source, pen)?,
        note: lacking.or(level),
        symbol: match source.kind {
            SourceKind::Host | SourceKind::Guest => StudioSymbol::Microphone,
            SourceKind::Playout => StudioSymbol::Player,
            SourceKind::Caller => StudioSymbol::Telephone,
            SourceKind::Contributor => StudioSymbol::Codec,
            SourceKind::Device => StudioSymbol::Socket,
        },
        wire: match source.kind {
            SourceKind::Playout | SourceKind::Contributor => StudioWire::Digital,
            _ => StudioWire::Balanced,
        },
        input: source.input.map(|n| n.to_string()),
        gain: source.gain_db.map(|db| {
            let shown = pen.signed(db, Unit::Decibel);
            shown.text
        }),
        routed: [PROGRAMME, MONITOR]
            .into_iter()
            .filter(|_| wired)
            .chain(of(true))
            .collect(),
        left_out: of(false).collect(),
        short: source.lacks.is_some(),
    })
}

fn buses(flow: &Flow, pen: Pen) -> Result<Vec<StudioBus>, WordsError> {
    let mut out = vec![
        StudioBus {
            letter: pen.word("studio-bus-programme-letter")?,
            says: pen.word("studio-bus-programme")?,
        },
        StudioBus {
            letter: pen.word("studio-bus-monitor-letter")?,
            says: pen.word("studio-bus-monitor")?,
        },
    ];
    for number in flow.away().filter_map(|a| a.clean_feed) {
        let with = |code| Message::new(code).count("number", i64::from(number));
        out.push(StudioBus {
            letter: pen.text(&with("studio-bus-clean-letter"))?,
            says: pen.text(&with("studio-bus-clean"))?,
        });
    }
    Ok(out)
}

fn outputs(flow: &Flow, assessed: &Assessed, pen: Pen) -> Result<Vec<StudioOutput>, WordsError> {
    let studio = &assessed.outcome.studio;
    let counted = |need: Need| {
        let count = studio.count(need)?;
        let message = Message::new("studio-of-needed")
            .text(
                "there",
                count.there.map_or_else(|| "?".to_owned(), |n| n.to_string()),
            )
            .text("needed", count.needed.to_string());
        Some((pen.text(&message), count.there.is_some_and(|t| t < count.needed)))
    };
    let counted = |need| match counted(need) {
        Some((text, short)) => text.map(|t| (Some(t), short)),
        None => Ok((None, false)),
    };
    let (headphones, headphones_short) = counted(Need::HeadphoneOutputs)?;
    let (_, monitors_short) = counted(Need::Monitors)?;
    let output = |code, note, symbol, bus, short| -> Result<StudioOutput, WordsError> {
        Ok(StudioOutput {
            name: pen.word(code)?,
            note,
            symbol,
            wire: match bus {
                Some(_) => StudioWire::Balanced,
                None => StudioWire::Logic,
            },
            bus,
            short,
        })
    };
    let level = studio.console_dbu.map(|dbu| pen.joined(dbu, Unit::Dbu));
    let muted = match flow.mutes {
        true => pen.word("studio-muted")?,
        false => pen.word("studio-not-muted")?,
    };
    let mut out = vec![
        output(
            "studio-to-air",
            level,
            StudioSymbol::Processing,
            Some(PROGRAMME),
            false,
        )?,
        output(
            "studio-headphones",
            headphones,
            StudioSymbol::Headphones,
            Some(MONITOR),
            headphones_short,
        )?,
        output(
            "studio-loudspeakers",
            Some(muted),
            StudioSymbol::Loudspeaker,
            Some(MONITOR),
            monitors_short || !flow.mutes,
        )?,
    ];
    for listener in flow.away() {
        let who = name(listener, pen)?;
        let (bus, says) = match listener.clean_feed {
            Some(feed) => (CLEAN_FEEDS + feed as usize - 1, "studio-hears-all-but"),
            None => (PROGRAMME, "studio-hears-own"),
        };
        let symbol = match listener.kind {
            SourceKind::Contributor => StudioSymbol::Codec,
            _ => StudioSymbol::Telephone,
        };
        out.push(StudioOutput {
            name: pen.text(&Message::new("studio-listener").text("who", who))?,
            note: Some(pen.word(says)?),
            symbol,
            wire: StudioWire::Balanced,
            bus: Some(bus),
            short: listener.clean_feed.is_none(),
        });
    }
    let light = pen.word(if flow.light {
        "studio-light"
    } else {
        "studio-no-light"
    })?;
    out.push(output(
        "studio-on-air-light",
        Some(light),
        StudioSymbol::Lamp,
        None,
        !flow.light,
    )?);
    Ok(out)
}

fn hears(flow: &Flow, pen: Pen) -> Result<HearsTable, WordsError> {
    let cells = |hears: &dyn Fn(&Source) -> Hears| -> Vec<Hearing> {
        flow.sources.iter().map(|s| hearing(hears(s))).collect()
    };
    let on_air = |s: &Source| match s.input {
        Some(_) => Hears::Yes,
        None => Hears::No,
    };
    let row = |name, cells: Vec<Hearing>| HearsRow {
        short: cells.iter().any(|c| matches!(c, Hearing::Own)),
        name,
        cells,
    };
    let mut rows = vec![
        row(pen.word("studio-at-the-desk")?, cells(&on_air)),
        row(
            pen.word("studio-loudspeakers")?,
            cells(&|s| flow.on_loudspeakers(s)),
        ),
    ];
    for listener in flow.away() {
        rows.push(row(name(listener, pen)?, cells(&|s| flow.heard_by(listener, s))));
    }
    rows.push(row(pen.word("studio-on-air")?, cells(&on_air)));
    Ok(HearsTable {
        columns: flow
            .sources
            .iter()
            .map(|s| name(s, pen))
            .collect::<Result<_, _>>()?,
        rows,
    })
}

fn hearing(hears: Hears) -> Hearing {
    match hears {
        Hears::Yes => Hearing::Yes,
        Hears::WhileNoneIsOpen => Hearing::Silent,
        Hears::NotTheirOwn => Hearing::NotOwn,
        Hears::TheirOwn => Hearing::Own,
        Hears::No => Hearing::No,
    }
}

fn rack(office: &Office, assessed: &Assessed, rack: &flow::Rack, pen: Pen) -> Result<StudioRack, WordsError> {
    let station = &assessed.station;
    let room = station.rooms.iter().find(|r| r.tag == rack.place);
    let site = station.site(room.map_or(rack.place.as_str(), |r| r.site.as_str()));
    let title = Message::new("studio-rack")
        .text(
            "place",
            site.map_or_else(|| rack.place.clone(), |s| s.name.clone()),
        )
        .text("units", pen.joined(f64::from(rack.units), Unit::RackUnit));
    let mut used = 0;
    Ok(StudioRack {
        title: pen.text(&title)?,
        units: rack.units,
        items: rack
            .items
            .iter()
            .map(|(shelf, units)| {
                used += units;
                RackItem {
                    name: shelf_name(office, shelf),
                    units: *units,
                    over: used > rack.units,
                }
            })
            .collect(),
    })
}
