//! The studio's signals as they can be wired with what is there: each seat and source on an input, each bus to who listens.

use super::{Count, LINE_UP_DBU, Need, Outcome, present};
use crate::case::Case;
use station::shelf::ItemKind;

/// Full scale above line-up, dB: 0 dBu is −18 dBFS, EBU R 68.
const LINE_UP_BELOW_FULL_SCALE_DB: f64 = 18.0;

/// Who or what gives a signal.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SourceKind {
    /// A host at a microphone.
    Host,
    /// A guest at a microphone.
    Guest,
    /// A playout workstation.
    Playout,
    /// A caller by telephone.
    Caller,
    /// A contributor by codec.
    Contributor,
    /// Whatever a guest brings along.
    Device,
}

impl SourceKind {
    /// Comes from outside, and must not hear itself.
    pub fn is_away(self) -> bool {
        matches!(self, SourceKind::Caller | SourceKind::Contributor)
    }

    /// Speaks into a microphone of the room.
    pub fn is_microphone(self) -> bool {
        matches!(self, SourceKind::Host | SourceKind::Guest)
    }
}

/// A level where one is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SourceLevel {
    /// At a balanced line, dBu.
    Dbu(f64),
    /// In figures, dB below full scale, negative.
    Dbfs(f64),
}

/// One source of the studio.
#[derive(Debug, Clone, PartialEq)]
pub struct Source {
    /// Who or what.
    pub kind: SourceKind,
    /// Which of its kind, from 1; `None` where there is one only.
    pub number: Option<u32>,
    /// What it gives.
    pub level: Option<SourceLevel>,
    /// Input of the console, from 1; `None` when none is left.
    pub input: Option<u32>,
    /// Gain from there to line-up, dB.
    pub gain_db: Option<f64>,
    /// Clean feed that it hears, from 1; `None` for sources of the room, and where none is left.
    pub clean_feed: Option<u32>,
    /// What it lacks, the first thing that stops it.
    pub lacks: Option<Need>,
}

/// How somebody hears a source.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hears {
    /// Hears it.
    Yes,
    /// Hears it while no microphone is open.
    WhileNoneIsOpen,
    /// Does not, as it is their own.
    NotTheirOwn,
    /// Hears themselves come back.
    TheirOwn,
    /// Hears nothing of it: it has no input.
    No,
}

/// The studio's signals.
#[derive(Debug, Clone, PartialEq)]
pub struct Flow {
    /// Sources in the order of the console's inputs.
    pub sources: Vec<Source>,
    /// Loudspeakers fall silent while a microphone is open: there is a control output for it.
    pub mutes: bool,
    /// An on-air light has a control output.
    pub light: bool,
}

impl Flow {
    /// Everybody who comes from outside, in order.
    pub fn away(&self) -> impl Iterator<Item = &Source> {
        self.sources.iter().filter(|s| s.kind.is_away())
    }

    /// How somebody outside hears a source.
    pub fn heard_by(&self, listener: &Source, source: &Source) -> Hears {
        let own = listener.kind == source.kind && listener.number == source.number;
        match (source.input, own, listener.clean_feed) {
            (None, _, _) => Hears::No,
            (_, true, Some(_)) => Hears::NotTheirOwn,
            (_, true, None) => Hears::TheirOwn,
            _ => Hears::Yes,
        }
    }

    /// How the room's loudspeakers give a source: microphones of the room never while open.
    pub fn on_loudspeakers(&self, source: &Source) -> Hears {
        match (source.input, source.kind.is_microphone() && self.mutes) {
            (None, _) => Hears::No,
            (_, true) => Hears::WhileNoneIsOpen,
            _ => Hears::Yes,
        }
    }
}

/// Hands out the things of one kind, one by one.
struct Stock {
    there: u32,
    given: u32,
}

impl Stock {
    /// What the studio rule counted; a missing rating lacks nothing, since it is not known.
    fn of(outcome: &Outcome, what: Need) -> Stock {
        let there = outcome
            .count(what)
            .map_or(0, |count: &Count| count.there.unwrap_or(u32::MAX));
        Stock { there, given: 0 }
    }

    fn next(&mut self) -> Option<u32> {
        (self.given < self.there).then(|| {
            self.given += 1;
            self.given
        })
    }
}

/// Wires the brief's seats and sources to what is there, in the order of the desk: hosts, guests, players, callers, contributors,
/// a guest's device. What runs out first is lacking for the last.
pub fn flow(case: &Case, outcome: &Outcome) -> Flow {
    let seats = &case.station.brief.seats;
    let of = |known: &station::Known<u32>| known.value().copied().unwrap_or(0);
    let there = |what| outcome.count(what).and_then(|c| c.there);
    let mut stocks = Stocks {
        microphones: Stock::of(outcome, Need::Microphones),
        microphone_inputs: Stock::of(outcome, Need::MicrophoneInputs),
        line_inputs: Stock::of(outcome, Need::LineInputs),
        hybrids: Stock::of(outcome, Need::Hybrids),
        clean_feeds: Stock::of(outcome, Need::CleanFeeds),
        first_line: there(Need::MicrophoneInputs).unwrap_or(outcome.speakers),
        microphone: outcome.microphone_dbu,
    };
    let playouts = present(case)
        .filter(|(_, s, _)| s.kind == ItemKind::Playout)
        .map(|(_, _, n)| n)
        .sum();
    let mut sources = Vec::new();
    for (kind, count) in [
        (SourceKind::Host, of(&seats.hosts)),
        (SourceKind::Guest, of(&seats.guests)),
        (SourceKind::Playout, playouts),
        (SourceKind::Caller, of(&seats.callers)),
        (SourceKind::Contributor, of(&seats.contributors)),
        (SourceKind::Device, 1),
    ] {
        for number in 1..=count {
            sources.push(stocks.source(kind, (count > 1).then_some(number)));
        }
    }
    let control = there(Need::ControlOutputs).unwrap_or(0);
    Flow {
        sources,
        mutes: control >= 1,
        light: control >= 2 && there(Need::OnAirLights).is_some_and(|n| n > 0),
    }
}

struct Stocks {
    microphones: Stock,
    microphone_inputs: Stock,
    line_inputs: Stock,
    hybrids: Stock,
    clean_feeds: Stock,
    /// Line inputs are numbered after those for microphones.
    first_line: u32,
    microphone: Option<f64>,
}

impl Stocks {
    fn source(&mut self, kind: SourceKind, number: Option<u32>) -> Source {
        let (mut lacks, input, mut clean_feed) = (None, self.input(kind), None);
        if kind.is_microphone() && self.microphones.next().is_none() {
            lacks = Some(Need::Microphones);
        }
        if kind == SourceKind::Caller && self.hybrids.next().is_none() {
            lacks = Some(Need::Hybrids);
        }
        if input.is_none() {
            lacks = lacks.or(Some(match kind.is_microphone() {
                true => Need::MicrophoneInputs,
                false => Need::LineInputs,
            }));
        }
        if kind.is_away() {
            clean_feed = self.clean_feeds.next();
            if clean_feed.is_none() {
                lacks = lacks.or(Some(Need::CleanFeeds));
            }
        }
        let level = match kind {
            SourceKind::Host | SourceKind::Guest => self.microphone.map(SourceLevel::Dbu),
            SourceKind::Playout => Some(SourceLevel::Dbfs(-LINE_UP_BELOW_FULL_SCALE_DB)),
            _ => None,
        };
        let gain_db = match level {
            Some(SourceLevel::Dbu(dbu)) => Some(LINE_UP_DBU - dbu),
            Some(SourceLevel::Dbfs(dbfs)) => Some(-LINE_UP_BELOW_FULL_SCALE_DB - dbfs),
            None => None,
        };
        Source {
            kind,
            number,
            level,
            input,
            gain_db,
            clean_feed,
            lacks,
        }
    }

    fn input(&mut self, kind: SourceKind) -> Option<u32> {
        if kind.is_microphone() {
            self.microphone_inputs.next()
        } else {
            self.line_inputs.next().map(|n| self.first_line + n)
        }
    }
}

/// A rack: what stands in it, from the top, each with its units.
#[derive(Debug, Clone, PartialEq)]
pub struct Rack {
    /// Tag of its place.
    pub place: String,
    /// Units it offers.
    pub units: u32,
    /// Shelf id of what stands in it, with its units; those that find no place come last and reach beyond.
    pub items: Vec<(String, u32)>,
}

/// Every rack, as it would be filled in the order of the file.
pub fn racks(case: &Case, outcome: &Outcome) -> Vec<Rack> {
    let of = |place: &str| {
        present(case)
            .filter(|(item, _, _)| item.place.as_deref() == Some(place))
            .filter_map(|(_, shelf, n)| Some((shelf, shelf.rack_units.filter(|u| *u > 0)?, n)))
            .flat_map(|(shelf, units, n)| (0..n).map(move |_| (shelf.id.clone(), units)))
            .collect()
    };
    let offered = outcome.racks.iter().filter(|(_, _, units)| *units > 0);
    offered
        .map(|(place, _, units)| Rack {
            place: place.clone(),
            units: *units,
            items: of(place),
        })
        .collect()
}
