//! The studio by rule: seats and sources against inputs, buses, clean feeds, headphones, monitors, lights, racks.

pub mod flow;

use crate::case::Case;
use station::design::ItemStatus;
use station::shelf::{Duty, ItemKind, ShelfItem};

/// Level that the station lines up at, dBu: 0 dBu = −18 dBFS, EBU R 68.
pub const LINE_UP_DBU: f64 = 0.0;
/// Speech at a microphone in ordinary use, dB SPL (common practice, no source).
pub const SPEECH_DB_SPL: f64 = 80.0;
/// Room left above line-up for peaks, dB (common practice, no source).
pub const HEADROOM_WANTED_DB: f64 = 18.0;
/// Share of a rack that is filled, the rest left for air (common practice, no source).
pub const RACK_FILL: f64 = 0.8;

/// What the studio needs and has.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    /// People at microphones: hosts and guests.
    pub speakers: u32,
    /// Everyone who needs headphones.
    pub listeners: u32,
    /// What is needed and what is there, kind by kind.
    pub counts: Vec<Count>,
    /// Microphone gain to line-up, dB, and what the console gives.
    pub microphone_gain_db: Option<(f64, Option<f64>)>,
    /// Level of speech at the microphone, dBu.
    pub microphone_dbu: Option<f64>,
    /// Room between line-up and the console's clipping, dB.
    pub headroom_db: Option<f64>,
    /// Nominal output level of the console, dBu.
    pub console_dbu: Option<f64>,
    /// Open microphones' penalty, 10·log N, dB.
    pub open_microphones_db: f64,
    /// MPX power is held to the country's limit by somebody; `None` when there is no limit.
    pub mpx_limited: Option<bool>,
    /// Stereo coders in the chain.
    pub stereo_coders: u32,
    /// Radio data asked for and there.
    pub radio_data: (bool, bool),
    /// Racks by place: tag of the place, units used, units offered.
    pub racks: Vec<(String, u32, u32)>,
    /// Items not rated for continuous duty, by tag.
    pub not_continuous: Vec<String>,
    /// There is an on-air room at all.
    pub has_studio: bool,
}

/// One kind of thing: needed and there.
#[derive(Debug, Clone, PartialEq)]
pub struct Count {
    /// What is counted.
    pub what: Need,
    /// Needed by rule.
    pub needed: u32,
    /// There; `None` when a rating is missing.
    pub there: Option<u32>,
}

/// What the studio rule counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Need {
    /// Microphones: one a speaker.
    Microphones,
    /// Arms: one a microphone.
    Arms,
    /// Microphone inputs: one a microphone.
    MicrophoneInputs,
    /// Stereo inputs: playouts, callers, contributors, one for guests' devices.
    LineInputs,
    /// Clean feeds: one a caller or contributor.
    CleanFeeds,
    /// Hybrids: one a caller.
    Hybrids,
    /// Headphones: one a person.
    Headphones,
    /// Headphone outputs: one a person.
    HeadphoneOutputs,
    /// Monitor loudspeakers: a pair.
    Monitors,
    /// Control outputs: mute and light.
    ControlOutputs,
    /// On-air light: one a studio.
    OnAirLights,
    /// Playout workstations.
    Playouts,
    /// Emergency player, when asked for.
    EmergencyPlayers,
    /// Processors.
    Processors,
    /// Seats at the desk.
    DeskSeats,
}

impl Need {
    /// Its stable name.
    pub fn word(self) -> &'static str {
        match self {
            Self::Microphones => "microphones",
            Self::Arms => "arms",
            Self::MicrophoneInputs => "microphone_inputs",
            Self::LineInputs => "line_inputs",
            Self::CleanFeeds => "clean_feeds",
            Self::Hybrids => "hybrids",
            Self::Headphones => "headphones",
            Self::HeadphoneOutputs => "headphone_outputs",
            Self::Monitors => "monitors",
            Self::ControlOutputs => "control_outputs",
            Self::OnAirLights => "on_air_lights",
            Self::Playouts => "playouts",
            Self::EmergencyPlayers => "emergency_players",
            Self::Processors => "processors",
            Self::DeskSeats => "desk_seats",
        }
    }
}

impl Outcome {
    /// The count of one need.
    pub fn count(&self, what: Need) -> Option<&Count> {
        self.counts.iter().find(|c| c.what == what)
    }
}

/// Things present, with their shelf items and how many.
fn present<'a>(case: &Case<'a>) -> impl Iterator<Item = (&'a station::design::Item, &'a ShelfItem, u32)> {
    let (station, shelf) = (case.station, case.shelf);
    station
        .items
        .iter()
        .filter(|i| i.status.unwrap_or(ItemStatus::New).is_present())
        .filter_map(move |i| Some((i, shelf.get(&i.shelf)?, i.count.unwrap_or(1))))
}

/// Applies the studio rule.
pub fn evaluate(case: &Case) -> Outcome {
    let seats = &case.station.brief.seats;
    let of = |known: &station::Known<u32>| known.value().copied().unwrap_or(0);
    let (hosts, guests, operators) = (of(&seats.hosts), of(&seats.guests), of(&seats.operators));
    let (callers, contributors) = (of(&seats.callers), of(&seats.contributors));
    let (speakers, listeners) = (hosts + guests, hosts + guests + operators);
    let continuity = &case.station.brief.continuity;

    let number = |kind: ItemKind| {
        present(case)
            .filter(|(_, s, _)| s.kind == kind)
            .map(|(_, _, n)| n)
            .sum::<u32>()
    };
    let audio = |kind, rating: fn(&station::shelf::AudioRatings) -> Option<u32>| -> Option<u32> {
        present(case)
            .filter(|(_, s, _)| s.kind == kind)
            .map(|(_, s, n)| Some(rating(s.audio.as_ref()?)? * n))
            .sum()
    };
    let playouts = number(ItemKind::Playout);
    let headphone_outputs = audio(ItemKind::Console, |a| a.headphone_outputs)
        .zip(audio(ItemKind::HeadphoneAmplifier, |a| a.headphone_outputs))
        .map(|(console, amplifier)| console + amplifier);
    let count = |what, needed, there| Count { what, needed, there };
    let counts = vec![
        count(Need::Microphones, speakers, Some(number(ItemKind::Microphone))),
        count(Need::Arms, speakers, Some(number(ItemKind::Arm))),
        count(
            Need::MicrophoneInputs,
            speakers,
            audio(ItemKind::Console, |a| a.microphone_inputs),
        ),
        count(
            Need::LineInputs,
            playouts + callers + contributors + 1,
            audio(ItemKind::Console, |a| a.line_inputs),
        ),
        count(
            Need::CleanFeeds,
            callers + contributors,
            audio(ItemKind::Console, |a| a.clean_feeds),
        ),
        count(Need::Hybrids, callers, Some(number(ItemKind::Hybrid))),
        count(Need::Headphones, listeners, Some(number(ItemKind::Headphones))),
        count(Need::HeadphoneOutputs, listeners, headphone_outputs),
        count(Need::Monitors, 2, Some(number(ItemKind::Loudspeaker))),
        count(
            Need::ControlOutputs,
            2,
            audio(ItemKind::Console, |a| a.control_outputs),
        ),
        count(Need::OnAirLights, 1, Some(number(ItemKind::OnAirLight))),
        count(Need::Playouts, 1, Some(playouts)),
        count(
            Need::EmergencyPlayers,
            u32::from(continuity.emergency_player == Some(true)),
            Some(number(ItemKind::EmergencyPlayer)),
        ),
        count(
            Need::Processors,
            1,
            Some(number(ItemKind::Processor) + limiters(case)),
        ),
        count(
            Need::DeskSeats,
            listeners,
            audio(ItemKind::Furniture, |a| a.seats),
        ),
    ];

    let console = present(case)
        .find(|(_, s, _)| s.kind == ItemKind::Console)
        .and_then(|(_, s, _)| s.audio.as_ref());
    let sensitivity = present(case)
        .filter(|(_, s, _)| s.kind == ItemKind::Microphone)
        .find_map(|(_, s, _)| s.audio.as_ref()?.sensitivity_mv_pa);
    let microphone_dbu = sensitivity
        .filter(|s| *s > 0.0)
        .map(|s| microphone_level_dbu(s, SPEECH_DB_SPL));
    Outcome {
        speakers,
        listeners,
        counts,
        microphone_gain_db: microphone_dbu
            .map(|m| (LINE_UP_DBU - m, console.and_then(|c| c.gain).map(|g| g.db()))),
        microphone_dbu,
        headroom_db: console.and_then(|c| c.clip).map(|c| c.dbu() - LINE_UP_DBU),
        console_dbu: console.and_then(|c| c.nominal).map(|n| n.dbu()),
        open_microphones_db: 10.0 * f64::from(speakers.max(1)).log10(),
        mpx_limited: case.country.mpx_power.as_ref().map(|_| {
            present(case).any(|(_, s, _)| s.audio.as_ref().and_then(|a| a.mpx_power_control) == Some(true))
        }),
        stereo_coders: stereo_coders(case),
        radio_data: (
            case.station.emissions.iter().any(|e| e.radio_data == Some(true)),
            present(case).any(|(_, s, _)| s.audio.as_ref().and_then(|a| a.radio_data) == Some(true)),
        ),
        racks: racks(case),
        not_continuous: present(case)
            .filter(|(_, s, _)| s.duty == Some(Duty::Intermittent))
            .map(|(i, _, _)| i.tag.clone())
            .collect(),
        has_studio: case
            .station
            .rooms
            .iter()
            .any(|r| r.kind == station::design::RoomKind::OnAir),
    }
}

/// Level a microphone gives at a sound pressure, dBu: V = S·10^((SPL−94)/20), 0 dBu = 0.7746 V.
pub fn microphone_level_dbu(sensitivity_mv_pa: f64, sound_db_spl: f64) -> f64 {
    let volts = sensitivity_mv_pa / 1000.0 * 10f64.powf((sound_db_spl - 94.0) / 20.0);
    20.0 * (volts / 0.6f64.sqrt()).log10()
}

/// A limiter inside a transmitter does for a processor in the smallest stations.
fn limiters(case: &Case) -> u32 {
    present(case)
        .filter(|(i, s, _)| {
            i.reserve != Some(true) && s.transmitter.as_ref().and_then(|t| t.limiter) == Some(true)
        })
        .map(|(_, _, n)| n)
        .sum()
}

fn stereo_coders(case: &Case) -> u32 {
    present(case)
        .filter(|(i, s, _)| {
            i.reserve != Some(true)
                && (s.audio.as_ref().and_then(|a| a.stereo_coder) == Some(true)
                    || s.transmitter.as_ref().and_then(|t| t.stereo_coder) == Some(true))
        })
        .map(|(_, _, n)| n)
        .sum()
}

fn racks(case: &Case) -> Vec<(String, u32, u32)> {
    let mut places: Vec<&str> = present(case).filter_map(|(i, _, _)| i.place.as_deref()).collect();
    places.sort_unstable();
    places.dedup();
    places
        .into_iter()
        .filter_map(|place| {
            let here = || present(case).filter(|(i, _, _)| i.place.as_deref() == Some(place));
            let used: u32 = here().filter_map(|(_, s, n)| Some(s.rack_units? * n)).sum();
            let offered: u32 = here()
                .filter_map(|(_, s, n)| Some(s.audio.as_ref()?.rack_space? * n))
                .sum();
            (used > 0).then(|| (place.to_owned(), used, offered))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 2 mV/Pa at 74 dB SPL needs 71.8 dB to 0 dBu; at 80 dB SPL 65.8 dB: from the definitions of dBu and pascal.
    #[test]
    fn ref_microphone_gain_to_line_up() {
        assert!((-microphone_level_dbu(2.0, 74.0) - 71.8).abs() < 0.1);
        assert!((-microphone_level_dbu(2.0, 80.0) - 65.8).abs() < 0.1);
        assert!((-microphone_level_dbu(20.0, 74.0) - 51.8).abs() < 0.1);
    }
}
