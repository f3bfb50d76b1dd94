//! The programme's way from studio to transmitter: clearance, diffraction, fade margin, hours it fails.

use crate::case::Case;
use crate::proofs::transmission::{centre_agl_m, ground_amsl_m};
use crate::section::{self, Section};
use propagation::hop::{
    FadingInput, HopAtK, HopError, HopInput, HopSummary, MINUTES_PER_YEAR, ProfileInput, RadioInput,
    parallel, series,
};
use propagation::p530::{ClearanceRule, MultipathForm};
use propagation::p1812::Polarisation;
use propagation::vegetation::foliage_loss_db;
use station::design::{Hop, ObstacleKind, Way};
use station::place::Site;

/// Refractivity gradient in the lowest 65 m not exceeded 1 % of the year, N/km: no map at hand. From memory of P.453 maps
/// (Europe −100 to −400).
const DN1_PER_KM: f64 = -250.0;
/// Distance between profile samples of a hop, m.
const STEP_M: f64 = 50.0;

/// The way from studio to transmitter.
#[derive(Debug, Clone)]
pub struct Outcome {
    /// One for each hop, in the order of the file.
    pub hops: Vec<HopCheck>,
    /// Share of the year asked of the whole, 0 to 1: the most that is asked of a hop of the main way.
    pub wanted_ratio: Option<f64>,
    /// Studio and transmitter stand on different sites and no main way joins them.
    pub missing: Option<Missing>,
    /// Share of the year the programme arrives, all ways together, 0 to 1.
    pub availability_ratio: Option<f64>,
    /// Studio to transmitter delay of the main way, s.
    pub delay_s: Option<f64>,
}

/// A main way that is not there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Missing {
    /// Tag of the studio's site.
    pub from: String,
    /// Tag of the transmitter's site.
    pub to: String,
    /// A way in reserve joins them: it stands in for nothing.
    pub reserve_joins: bool,
}

/// One hop.
#[derive(Debug, Clone)]
pub struct HopCheck {
    /// Its tag.
    pub tag: String,
    /// How the programme travels.
    pub way: Option<Way>,
    /// It waits in reserve.
    pub reserve: bool,
    /// Its equipment sends over this way; `None` where the shelf does not know the equipment, or a radio does it.
    pub sends: Option<bool>,
    /// The radio path.
    pub radio: Option<Result<RadioCheck, HopFault>>,
    /// Share of the year it works, 0 to 1.
    pub availability_ratio: Option<f64>,
    /// Share of the year asked of it, 0 to 1.
    pub wanted_ratio: Option<f64>,
    /// Delay, s.
    pub delay_s: Option<f64>,
}

/// A radio path.
#[derive(Debug, Clone)]
pub struct RadioCheck {
    /// Clearance, levels, availability.
    pub summary: HopSummary,
    /// The equipment it was computed with.
    pub equipment: RadioInput,
    /// Carrier, GHz.
    pub freq_ghz: f64,
    /// Profile: distance km, ground with what stands on it, m above the sea.
    pub profile: Vec<(f64, f64)>,
    /// Antenna heights above the sea at both ends, m.
    pub ends_amsl_m: (f64, f64),
    /// Loss in trees that the path runs through, dB.
    pub trees_db: f64,
    /// The most the band lets radiate, EIRP dBm.
    pub eirp_limit_dbm: Option<f64>,
    /// The equipment covers the frequency; `None` when it does not say.
    pub in_band: Option<bool>,
}

/// What takes a radio path away.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FadeCause {
    /// Several ways through the air that cancel.
    Multipath,
    /// Rain on the path.
    Rain,
}

impl Outcome {
    /// The hops as a reader wants them: the main way, then what waits in reserve.
    pub fn main_first(&self) -> impl Iterator<Item = &HopCheck> {
        let of_role = |reserve: bool| self.hops.iter().filter(move |h| h.reserve == reserve);
        of_role(false).chain(of_role(true))
    }
}

impl HopCheck {
    /// Minutes a year that it may fail.
    pub fn allowed_min_per_year(&self) -> Option<f64> {
        self.wanted_ratio.map(|wanted| (1.0 - wanted) * MINUTES_PER_YEAR)
    }
}

impl RadioCheck {
    /// Minutes a year that each cause takes; `None` where the method cannot tell.
    pub fn fades_min_per_year(&self) -> [(FadeCause, Option<f64>); 2] {
        let minutes = |pct: f64| pct / 100.0 * MINUTES_PER_YEAR;
        let availability = &self.summary.availability;
        [
            (
                FadeCause::Multipath,
                availability.multipath.annual_pct().map(minutes),
            ),
            (FadeCause::Rain, Some(minutes(availability.rain.pct()))),
        ]
    }

    /// The path as it is drawn, at the k of a summary's half.
    pub fn section(&self, at: &HopAtK) -> Section {
        let (distances_km, heights_m): (Vec<f64>, Vec<f64>) = self.profile.iter().copied().unzip();
        let (first, last) = (heights_m.first().copied(), heights_m.last().copied());
        let bare = vec![0.0; heights_m.len()];
        let worst = at.clearance.worst;
        let obstructed = worst.clearance_m < 0.0;
        Section::of(
            &section::Path {
                distances_km: &distances_km,
                heights_m: &heights_m,
                clutter_m: &bare,
                near_agl_m: self.ends_amsl_m.0 - first.unwrap_or(0.0),
                far_agl_m: self.ends_amsl_m.1 - last.unwrap_or(0.0),
                freq_mhz: self.freq_ghz * 1000.0,
                obstacle: obstructed.then(|| {
                    let top = worst.ray_amsl_m - worst.bulge_m - worst.clearance_m;
                    (worst.distance_km, top)
                }),
            },
            at.clearance.k,
        )
    }
}

/// Why a radio path was not computed.
#[derive(Debug, Clone, PartialEq)]
pub enum HopFault {
    /// An input is missing: its path in the file, or the shelf id and rating.
    NotKnown(String),
    /// The ground could not be read.
    Ground(terrain::GroundError),
    /// The method refuses.
    Refused(HopError),
}

/// Looks at every hop.
pub fn evaluate(case: &Case) -> Outcome {
    let hops: Vec<HopCheck> = case.station.hops.iter().map(|hop| check(case, hop)).collect();
    let main = hops.iter().find(|h| !h.reserve);
    let wanted = hops.iter().filter(|h| !h.reserve).filter_map(|h| h.wanted_ratio);
    Outcome {
        wanted_ratio: wanted.reduce(f64::max),
        missing: missing(case),
        availability_ratio: together(&hops),
        delay_s: main.and_then(|h| h.delay_s),
        hops,
    }
}

/// Hops of one role follow one another; the reserve stands beside the main way. Where both go over a network of one kind, what
/// takes the one away takes the other: the better of them is all there is.
fn together(hops: &[HopCheck]) -> Option<f64> {
    let way = |reserve: bool| -> Option<f64> {
        let each: Option<Vec<f64>> = hops
            .iter()
            .filter(|h| h.reserve == reserve)
            .map(|h| h.availability_ratio)
            .collect();
        each.filter(|e| !e.is_empty()).map(|e| series(&e))
    };
    match (way(false), way(true)) {
        (Some(main), Some(reserve)) if share_a_network(hops) => Some(main.max(reserve)),
        (Some(main), Some(reserve)) => Some(parallel(&[main, reserve])),
        (main, _) => main,
    }
}

/// Whether a leased network of one kind carries a hop of the main way and one in reserve.
fn share_a_network(hops: &[HopCheck]) -> bool {
    Way::LEASED.into_iter().any(|way| {
        let over = |reserve: bool| hops.iter().any(|h| h.reserve == reserve && h.way == Some(way));
        over(false) && over(true)
    })
}

fn missing(case: &Case) -> Option<Missing> {
    let studio = case
        .station
        .rooms
        .iter()
        .find(|r| r.kind == station::design::RoomKind::OnAir)?;
    let antenna = case
        .station
        .emissions
        .iter()
        .find_map(|e| case.station.antenna(e.antenna.as_deref()?))?;
    if studio.site == antenna.site {
        return None;
    }
    let joined = |with_reserve: bool| {
        let hops = &case.station.hops;
        joins(
            (&studio.site, &antenna.site),
            hops.iter().filter(|h| with_reserve || h.is_main()),
        )
    };
    (!joined(false)).then(|| Missing {
        from: studio.site.clone(),
        to: antenna.site.clone(),
        reserve_joins: joined(true),
    })
}

/// Whether hops lead from one site to another.
fn joins<'a>((from, to): (&str, &str), hops: impl Iterator<Item = &'a Hop> + Clone) -> bool {
    let mut reached = vec![from];
    while let Some(hop) = hops
        .clone()
        .find(|h| reached.contains(&h.from.as_str()) && !reached.contains(&h.to.as_str()))
    {
        reached.push(&hop.to);
    }
    reached.contains(&to)
}

fn check(case: &Case, hop: &Hop) -> HopCheck {
    let way = hop.way.value().copied();
    let equipment = hop
        .equipment
        .as_deref()
        .and_then(|id| case.shelf.get(id))
        .and_then(|s| s.link.as_ref());
    let radio = (way == Some(Way::Radio)).then(|| radio(case, hop));
    let path = match (&radio, way) {
        (Some(Ok(r)), _) => r.summary.availability.availability_pct.map(|p| p / 100.0),
        (Some(Err(_)), _) | (None, None) => None,
        (None, Some(Way::SameBuilding)) => Some(1.0),
        (None, Some(_)) => hop.leased_availability.value().map(|p| p.pct() / 100.0),
    };
    HopCheck {
        tag: hop.tag.clone(),
        way,
        reserve: !hop.is_main(),
        sends: way
            .filter(|w| w.is_leased())
            .zip(equipment)
            .map(|(way, link)| link.sends_over(way)),
        availability_ratio: path,
        wanted_ratio: hop.availability.value().map(|p| p.pct() / 100.0),
        delay_s: equipment
            .and_then(|e| e.delay)
            .map(|d| d.s())
            .or((way == Some(Way::SameBuilding)).then_some(0.0)),
        radio,
    }
}

fn antenna_agl_m(case: &Case, site: &Site, ground: f64, height: Option<&quantity::Height>) -> Option<f64> {
    centre_agl_m(case, site, ground, *height?)
}

fn radio(case: &Case, hop: &Hop) -> Result<RadioCheck, HopFault> {
    let unknown = |key: &str| HopFault::NotKnown(format!("hops.{}.{key}", hop.tag));
    let from = case.station.site(&hop.from).ok_or_else(|| unknown("from"))?;
    let to = case.station.site(&hop.to).ok_or_else(|| unknown("to"))?;
    let shelf = hop
        .equipment
        .as_deref()
        .and_then(|id| case.shelf.get(id))
        .ok_or_else(|| unknown("equipment"))?;
    let link = shelf.link.as_ref().ok_or_else(|| unknown("equipment"))?;
    let rating = |name: &str| HopFault::NotKnown(format!("{}: {name}", shelf.id));
    let dish = hop
        .dish
        .as_deref()
        .and_then(|id| case.shelf.get(id))
        .ok_or_else(|| unknown("dish"))?;
    let gain_dbi = match dish
        .dish_gain
        .ok_or_else(|| HopFault::NotKnown(format!("{}: dish_gain", dish.id)))?
    {
        quantity::AntennaGain::OverIsotrope(gain) => gain.dbi(),
        quantity::AntennaGain::OverDipole(gain) => gain.to_dbi().dbi(),
    };
    let freq_ghz = hop.frequency.ok_or_else(|| unknown("frequency"))?.ghz();
    let ground_from =
        ground_amsl_m(case, from).ok_or_else(|| HopFault::NotKnown(format!("sites.{}.ground", from.tag)))?;
    let ground_to =
        ground_amsl_m(case, to).ok_or_else(|| HopFault::NotKnown(format!("sites.{}.ground", to.tag)))?;
    let tx_agl_m = antenna_agl_m(case, from, ground_from, hop.from_height.value())
        .ok_or_else(|| unknown("from_height"))?;
    let rx_agl_m =
        antenna_agl_m(case, to, ground_to, hop.to_height.value()).ok_or_else(|| unknown("to_height"))?;

    let position = |p: quantity::Position| terrain::Position::new(p.lat_deg(), p.lon_deg());
    let (a, b) = (
        position(from.position).map_err(|_| unknown("from"))?,
        position(to.position).map_err(|_| unknown("to"))?,
    );
    let ground = case.world.path(a, b, STEP_M).map_err(HopFault::Ground)?;
    let mut heights: Vec<f64> = ground
        .heights_m
        .iter()
        .zip(&ground.clutter_m)
        .map(|(h, c)| h + c)
        .collect();
    // The ends stand on the ground itself.
    if let (Some(first), Some(last)) = (heights.first_mut(), ground.heights_m.first()) {
        *first = *last;
    }
    if let (Some(end), Some(bare)) = (heights.last_mut(), ground.heights_m.last()) {
        *end = *bare;
    }
    let mut trees_db = 0.0;
    for obstacle in &hop.obstacles {
        let at = nearest(&ground.distances_km, obstacle.distance.km());
        heights[at] = heights[at].max(ground.heights_m[at] + obstacle.height.m());
        if let (ObstacleKind::Trees, Some(depth)) = (obstacle.kind, obstacle.depth) {
            trees_db += foliage_loss_db(freq_ghz, depth.m()).unwrap_or(0.0);
        }
    }
    let line_loss = hop.line_loss.value().map_or(0.0, |l| l.db());
    let tx_power_dbm = link.power.ok_or_else(|| rating("power"))?.dbm();
    let limit = link.eirp_at_most.map(|e| e.dbm());
    // Equipment in a band with a ceiling is turned down to it.
    let tx_power_dbm = limit.map_or(tx_power_dbm, |l| tx_power_dbm.min(l - gain_dbi + line_loss / 2.0));
    let input = HopInput {
        profile: ProfileInput {
            distance_km: &ground.distances_km,
            height_amsl_m: &heights,
            tx_agl_m,
            rx_agl_m,
            freq_ghz,
        },
        radio: RadioInput {
            tx_power_dbm,
            tx_line_loss_db: line_loss / 2.0,
            tx_gain_dbi: gain_dbi,
            rx_gain_dbi: gain_dbi,
            rx_line_loss_db: line_loss / 2.0,
            threshold_dbm: link.threshold.ok_or_else(|| rating("threshold"))?.dbm(),
            interference_allowance_db: 0.0,
            other_loss_db: trees_db,
        },
        fading: FadingInput {
            form: MultipathForm::Quick17 {
                dn1_per_km: DN1_PER_KM,
            },
            latitude_deg: 0.5 * (a.lat_deg() + b.lat_deg()),
            diversity: None,
        },
        rain_mm_per_h: from.climate.rain_mm_per_h.value().copied(),
        polarisation: Polarisation::Vertical,
        rule: ClearanceRule::Draft,
    };
    let summary = propagation::hop::hop(&input).map_err(HopFault::Refused)?;
    let in_band = link
        .from
        .zip(link.to)
        .map(|(low, high)| (low.ghz()..=high.ghz()).contains(&freq_ghz));
    Ok(RadioCheck {
        summary,
        equipment: input.radio,
        freq_ghz,
        profile: ground.distances_km.iter().copied().zip(heights).collect(),
        ends_amsl_m: (ground_from + tx_agl_m, ground_to + rx_agl_m),
        trees_db,
        eirp_limit_dbm: limit,
        in_band,
    })
}

fn nearest(distances_km: &[f64], km: f64) -> usize {
    distances_km
        .iter()
        .enumerate()
        .min_by(|a, b| (a.1 - km).abs().total_cmp(&(b.1 - km).abs()))
        .map_or(0, |(i, _)| i)
}
