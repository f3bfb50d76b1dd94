//! What can be chosen for the way into the air, and which choices cannot work whatever else is chosen.

use crate::link::LinkChoice;
use crate::money::{cheapest, sell};
use antenna::line::wavelength_m;
use assess::Case;
use assess::proofs::transmission::{USUAL_SPACING_WAVELENGTHS, centre_agl_m, ground_amsl_m, line_constants};
use station::design::{Cable, ItemStatus};
use station::licence::Polarisation;
use station::place::MastStatus;
use station::shelf::{ItemKind, ShelfItem};

/// Line from the equipment to the foot of the mast, m (common practice, no source).
pub const RUN_INDOORS_M: f64 = 12.0;
/// Room between the top bay's tip and the top of the mast, m (common practice, no source).
pub const TOP_ROOM_M: f64 = 0.5;
/// Lines that lose more than this at 100 MHz, dB per 100 m, are no tails to bays (common practice, no source).
const TAIL_LOSS_AT_MOST: f64 = 5.0;
/// Share of a line's rating at 40 °C that is used outdoors in the sun (common practice, no source).
const LINE_USE: f64 = 0.5;

/// Something there already, or bought.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Pick {
    /// Stays, by tag.
    Keep(String),
    /// Bought, by shelf id.
    Buy(String),
}

/// The bays with what feeds them.
#[derive(Debug, Clone, PartialEq)]
pub struct BaysChoice {
    /// The antenna that is there stays; bays found upside down are turned over or not.
    pub keep: Option<Repair>,
    /// Shelf id of the bay.
    pub element: String,
    /// How many.
    pub bays: u32,
    /// Distance from bay to bay, m.
    pub spacing_m: f64,
    /// Shelf id of the splitter; none for one bay.
    pub splitter: Option<String>,
    /// Shelf id of the tails; none for one bay.
    pub tails: Option<String>,
}

/// What is done to an antenna that stays.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Repair {
    /// Nothing.
    AsItIs,
    /// Bays found upside down are turned over.
    TurnedOver,
}

/// One choice for everything between transmitter and air.
#[derive(Debug, Clone, PartialEq)]
pub struct AirChoice {
    /// The transmitter.
    pub transmitter: Pick,
    /// The feeder.
    pub feeder: Pick,
    /// The bays.
    pub bays: BaysChoice,
    /// Height of their centre above ground, m.
    pub height_m: f64,
    /// Length of the feeder, m.
    pub feeder_m: f64,
    /// A second transmitter waits, where the brief asks for one.
    pub reserve: bool,
    /// The programme's way there: its place among [`Axes::links`].
    pub link: usize,
}

impl BaysChoice {
    /// From the lowest bay's centre to the highest's, m.
    pub fn aperture_m(&self) -> f64 {
        self.spacing_m * f64::from(self.bays.saturating_sub(1))
    }
    /// Length of one tail, m.
    pub fn tail_m(&self) -> f64 {
        ((self.aperture_m() / 2.0 + 1.5) * 2.0).ceil() / 2.0
    }
}

/// Every way into the air that is looked at, axis by axis.
#[derive(Debug, Clone)]
pub struct Axes {
    /// Transmitters.
    pub transmitters: Vec<Pick>,
    /// Feeders.
    pub feeders: Vec<Pick>,
    /// Bays.
    pub bays: Vec<BaysChoice>,
    /// The programme's ways to the transmitter, cheapest first; never empty.
    pub links: Vec<LinkChoice>,
}

fn stays(status: Option<ItemStatus>) -> bool {
    matches!(
        status,
        Some(ItemStatus::Keep | ItemStatus::Move | ItemStatus::Used | ItemStatus::Lent)
    )
}

/// The kept feeder of the first emission's chain: the longest kept cable that is no tail.
pub fn kept_feeder<'a>(case: &Case<'a>) -> Option<&'a Cable> {
    case.station
        .cables
        .iter()
        .filter(|c| c.status == Some(ItemStatus::Keep) && c.count.unwrap_or(1) == 1)
        .max_by(|a, b| a.length.m().total_cmp(&b.length.m()))
}

/// The axes of the first emission.
pub fn axes(case: &Case, mut links: Vec<LinkChoice>) -> Axes {
    links.sort_by(|a, b| a.price.total_cmp(&b.price));
    let emission = case.station.emissions.first();
    let mut transmitters: Vec<Pick> = Vec::new();
    let kept = emission
        .and_then(|e| e.transmitter.as_deref())
        .and_then(|t| case.station.item(t))
        .filter(|i| stays(i.status));
    transmitters.extend(kept.map(|i| Pick::Keep(i.tag.clone())));
    transmitters.extend(priced(case, ItemKind::Transmitter));
    let mut feeders: Vec<Pick> = kept_feeder(case)
        .map(|c| Pick::Keep(c.tag.clone()))
        .into_iter()
        .collect();
    feeders.extend(priced(case, ItemKind::Feeder));
    Axes {
        transmitters,
        feeders,
        bays: bays(case),
        links,
    }
}

fn priced(case: &Case, kind: ItemKind) -> Vec<Pick> {
    case.shelf
        .of(kind)
        .filter(|s| sell(s).is_some())
        .map(|s| Pick::Buy(s.id.clone()))
        .collect()
}

/// The antenna that stays, if one does, and every stack that the shelf can make in the licence's planes.
fn bays(case: &Case) -> Vec<BaysChoice> {
    let Some(emission) = case.station.emissions.first() else {
        return Vec::new();
    };
    let antenna = emission.antenna.as_deref().and_then(|t| case.station.antenna(t));
    let spacing_m = emission.frequency.value().map_or(2.7, |f| {
        (USUAL_SPACING_WAVELENGTHS * wavelength_m(f.mhz()) * 100.0).round() / 100.0
    });
    let mut all = Vec::new();
    if let Some(antenna) = antenna.filter(|a| stays(a.status))
        && let Some(element) = &antenna.element
    {
        let repairs: &[Repair] = match antenna.inverted_bays.is_empty() {
            true => &[Repair::AsItIs],
            false => &[Repair::AsItIs, Repair::TurnedOver],
        };
        all.extend(repairs.iter().map(|repair| BaysChoice {
            keep: Some(*repair),
            element: element.clone(),
            bays: antenna.bays.value().copied().unwrap_or(1),
            spacing_m: antenna.spacing.value().map_or(spacing_m, |s| s.m()),
            splitter: None,
            tails: None,
        }));
    }
    let wanted = emission.licence.polarisation.value().copied();
    let site = antenna_site(case);
    let salt = site.and_then(|s| s.climate.sea_air.value().copied()) == Some(true);
    for element in case.shelf.of(ItemKind::Bay).filter(|s| sell(s).is_some()) {
        let Some(ratings) = &element.bay else { continue };
        let fits = match (wanted, ratings.polarisation) {
            (None, _) => true,
            // A dipole is mounted as the licence wants it.
            (Some(Polarisation::Mixed), made) => made == Polarisation::Mixed,
            (Some(_), made) => made != Polarisation::Mixed,
        };
        if !fits || (salt && element.sea_air == Some(false)) {
            continue;
        }
        all.push(BaysChoice {
            keep: None,
            element: element.id.clone(),
            bays: 1,
            spacing_m,
            splitter: None,
            tails: None,
        });
        for splitter in case.shelf.of(ItemKind::Splitter).filter(|s| sell(s).is_some()) {
            let Some(ways) = splitter.splitter.as_ref().map(|s| s.ways) else {
                continue;
            };
            let branch_w = splitter
                .splitter
                .as_ref()
                .and_then(|s| s.branch_power)
                .map_or(0.0, |p| p.w());
            let tails = tail_line(case, branch_w.min(ratings.power.map_or(f64::MAX, |p| p.w())));
            all.push(BaysChoice {
                keep: None,
                element: element.id.clone(),
                bays: ways,
                spacing_m,
                splitter: Some(splitter.id.clone()),
                tails: tails.map(|t| t.id.clone()),
            });
        }
    }
    all
}

/// The cheapest low-loss line that bears what a branch may carry.
fn tail_line<'a>(case: &Case<'a>, branch_w: f64) -> Option<&'a ShelfItem> {
    let shelf: &'a station::Shelf = case.shelf;
    cheapest(shelf.of(ItemKind::Feeder).filter(|s| {
        let loss = line_constants(s).and_then(|l| l.attenuation_db_per_100m(100.0, 20.0).ok());
        loss.is_some_and(|l| l <= TAIL_LOSS_AT_MOST) && bears(s, branch_w)
    }))
}

fn bears(line: &ShelfItem, power_w: f64) -> bool {
    line.line
        .as_ref()
        .and_then(|l| l.power_100mhz)
        .is_some_and(|p| p.w() * LINE_USE >= power_w)
}

/// The cheapest line that bears a transmitter's rating, for the jumpers inside.
pub fn jumper<'a>(case: &Case<'a>, rated_w: f64) -> Option<&'a ShelfItem> {
    let shelf: &'a station::Shelf = case.shelf;
    cheapest(shelf.of(ItemKind::Feeder).filter(|s| {
        let loss = line_constants(s).and_then(|l| l.attenuation_db_per_100m(100.0, 20.0).ok());
        loss.is_some_and(|l| l <= TAIL_LOSS_AT_MOST) && bears(s, rated_w)
    }))
}

/// The site of the first emission's antenna: as stated, else the first site with a mast, else the first.
pub fn antenna_site<'a>(case: &Case<'a>) -> Option<&'a station::place::Site> {
    let station: &'a station::Station = case.station;
    station
        .emissions
        .first()
        .and_then(|e| e.antenna.as_deref())
        .and_then(|t| station.antenna(t))
        .and_then(|a| station.site(&a.site))
        .or_else(|| station.sites.iter().find(|s| s.mast.status.is_some()))
        .or_else(|| station.sites.first())
}

/// Heights of the centre above ground that a stack may have, m, highest first: what the file states, else what licence
/// and mast allow, three quarters and half of it.
pub fn heights_m(case: &Case, choice: &BaysChoice) -> Vec<f64> {
    let (Some(emission), Some(site)) = (case.station.emissions.first(), antenna_site(case)) else {
        return Vec::new();
    };
    let ground = ground_amsl_m(case, site).unwrap_or(0.0);
    let antenna = emission.antenna.as_deref().and_then(|t| case.station.antenna(t));
    let stated = antenna
        .and_then(|a| a.height.value())
        .and_then(|h| centre_agl_m(case, site, ground, *h));
    if let Some(height) = stated {
        return vec![height];
    }
    let half = choice.aperture_m() / 2.0;
    let roof = site.mast.roof.map_or(0.0, |r| r.m());
    let top = match site.mast.status {
        Some(MastStatus::New) => site.mast.allowed_height.map(|h| h.m()).or(site
            .mast
            .height
            .value()
            .map(|h| h.m())),
        _ => site.mast.height.value().map(|h| h.m()),
    };
    let licence = emission
        .licence
        .height
        .and_then(|height| centre_agl_m(case, site, ground, height));
    let by_mast = top.map(|t| t - half - TOP_ROOM_M);
    let Some(most) = [by_mast, licence].into_iter().flatten().reduce(f64::min) else {
        return Vec::new();
    };
    // The lowest bay stays clear of the roof, or of people's heads.
    let least = roof + half + 2.0;
    let over = most - roof;
    let mut heights: Vec<f64> = [1.0, 0.75, 0.5]
        .iter()
        .map(|part| ((roof + over * part) * 10.0).floor() / 10.0)
        .filter(|h| *h >= least)
        .collect();
    heights.dedup();
    heights
}

/// Length of the feeder, m: the kept one's, else from the equipment up to the bays.
pub fn feeder_m(case: &Case, height_m: f64) -> f64 {
    let roof = antenna_site(case)
        .and_then(|s| s.mast.roof)
        .map_or(0.0, |r| r.m());
    kept_feeder(case).map_or((height_m - roof + RUN_INDOORS_M).ceil(), |c| c.length.m())
}
