//! Where the mast should stand: what the station's file asks, put to the sweep of [`coverage::masts`].

use crate::case::Case;
use crate::proofs::coverage::{study, surroundings, wanted_field};
use crate::say::{joined, show_number};
use crate::unit::Unit;
use coverage::masts::MAX_TARGETS;
use coverage::{Control, CoverRows, CoverageError, Masts, Search, Study, Target, World, best_masts};
use propagation::p1812::Polarisation;
use quantity::Locale;
use station::Station;
use station::brief::{Service, Situation};
use station::value::{Counted, RadiatedPower};
use terrain::Position;
use words::Message;

/// What is asked; what is left open comes from the station.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct MastAsk {
    /// Places to be served: tags, names or positions; those the brief wants when empty.
    pub places: Vec<String>,
    /// ERP towards every place in the plane its receivers hear, W; the licence's when left out.
    pub erp_w: Option<f64>,
    /// Radiation centre above ground, m; the first antenna's when left out.
    pub mast_m: Option<f64>,
    /// Carrier, MHz; the first emission's when left out.
    pub freq_mhz: Option<f64>,
    /// How far from the middle the mast may stand, km; the study's radius when left out.
    pub radius_km: Option<f64>,
    /// Side of a cell, m; the study's step when left out.
    pub cell_m: Option<f64>,
    /// Hills nearer to each other than this are one, km; [`APART_KM`] when left out.
    pub apart_km: Option<f64>,
    /// Power to fall back on where there is no licence, W.
    pub usual_erp_w: Option<f64>,
}

/// Hills nearer to each other than this are one, km: a choice, so that ten answers are ten hills.
pub const APART_KM: f64 = 2.0;

/// People of a raster within this distance of a place are its people, where nobody says how many live there, km
/// (common practice, no source); each cell belongs to the nearest place sought.
pub const PLACE_KM: f64 = 2.0;

/// How many hills are named.
pub const BEST: usize = 10;

/// A place that a search looks at.
#[derive(Debug, Clone, PartialEq)]
pub struct Sought {
    /// Its name.
    pub name: String,
    /// Where.
    pub position: Position,
    /// People there; `None` where nobody says: it is counted as one.
    pub people: Option<f64>,
}

/// Cells and hills, with what was asked.
#[derive(Debug, Clone)]
pub struct Found {
    /// Places, in the order of each hill's margins.
    pub places: Vec<Sought>,
    /// What was searched.
    pub search: Search,
    /// What was found.
    pub masts: Masts,
    /// The station's study asks for another share of time than half.
    pub half_time: bool,
}

/// Why there is no answer.
#[derive(Debug)]
pub enum MastError {
    /// The question lacks something, or names what is not there.
    Asked(Message),
    /// It could not be computed.
    Coverage(CoverageError),
}

impl MastError {
    /// What it says.
    pub fn message(&self) -> Message {
        match self {
            MastError::Asked(message) => message.clone(),
            MastError::Coverage(CoverageError::Cancelled) => Message::new("masts-cancelled"),
            MastError::Coverage(error) => Message::new("masts-not-computed").message("why", error),
        }
    }
}

impl From<CoverageError> for MastError {
    fn from(error: CoverageError) -> Self {
        MastError::Coverage(error)
    }
}

/// Sweeps outwards from each place and names the best hills.
///
/// # Errors
/// [`MastError`]: an unknown place, no power, no height or no frequency, more than [`MAX_TARGETS`] places, or what
/// [`best_masts`] says, cancelled included.
pub fn find(case: &Case, ask: &MastAsk, control: &Control<'_>) -> Result<Found, MastError> {
    let asking = Asking {
        world: case.world,
        station: case.station,
        case: *case,
        ask,
    };
    let (places, wanted) = asking.places()?;
    let study = asking.study(&places)?;
    let targets = places
        .iter()
        .zip(wanted)
        .map(|(place, (around, wanted))| Target {
            position: place.position,
            people: place.people.unwrap_or(1.0),
            surroundings: around,
            wanted,
        })
        .collect();
    let search = Search {
        targets,
        study,
        erp_kw: asking.erp_w()? / 1000.0,
        cell_m: ask.cell_m.unwrap_or(study.step_m),
        best: BEST,
        apart_km: ask.apart_km.unwrap_or(APART_KM),
    };
    let masts = best_masts(case.world, &search, control)?;
    Ok(Found {
        places,
        search,
        masts,
        half_time: case.station.study.time.value().is_some_and(|t| t.pct() != 50.0),
    })
}

struct Asking<'a> {
    case: Case<'a>,
    world: &'a dyn World,
    station: &'a Station,
    ask: &'a MastAsk,
}

/// Surroundings of a place and what counts as served there.
type Need = (terrain::Surroundings, coverage::Wanted);

impl Asking<'_> {
    fn places(&self) -> Result<(Vec<Sought>, Vec<Need>), MastError> {
        let tags: Vec<String> = if self.ask.places.is_empty() {
            let mut tags: Vec<String> = Vec::new();
            for place in self.station.brief.wanted.iter().filter_map(|w| w.place.clone()) {
                if !tags.contains(&place) {
                    tags.push(place);
                }
            }
            tags
        } else {
            self.ask.places.clone()
        };
        if tags.is_empty() {
            return Err(MastError::Asked(Message::new("masts-no-places")));
        }
        if tags.len() > MAX_TARGETS {
            return Err(MastError::Asked(
                Message::new("masts-too-many").count("count", tags.len() as i64),
            ));
        }
        let found: Vec<(Sought, Need)> = tags.iter().map(|t| self.place(t)).collect::<Result<_, _>>()?;
        let (mut places, needs): (Vec<Sought>, Vec<Need>) = found.into_iter().unzip();
        self.count(&mut places);
        Ok((places, needs))
    }

    /// People of the raster for places of which nobody says how many live there.
    fn count(&self, places: &mut [Sought]) {
        let Some(people) = self.world.people() else { return };
        let mut counted = vec![0.0; places.len()];
        for (at, count) in people.cells() {
            let apart = |p: &Sought| terrain::geodesic::span(p.position, at).length_m;
            // A degree of latitude is 111 km: most cells are far from every place.
            let near = |p: &Sought| (p.position.lat_deg() - at.lat_deg()).abs() < PLACE_KM / 100.0;
            let nearest = places
                .iter()
                .enumerate()
                .filter(|(_, p)| near(p))
                .map(|(i, p)| (i, apart(p)))
                .min_by(|a, b| a.1.total_cmp(&b.1));
            if let Some((i, _)) = nearest.filter(|(_, m)| *m <= 1000.0 * PLACE_KM) {
                counted[i] += count;
            }
        }
        for (place, counted) in places.iter_mut().zip(counted) {
            if place.people.is_none() && counted > 0.0 {
                place.people = Some(counted);
            }
        }
    }

    /// A place of the file by tag or name, one of the world by name, or a position.
    fn place(&self, typed: &str) -> Result<(Sought, Need), MastError> {
        let unknown = || MastError::Asked(Message::new("masts-unknown-place").text("place", typed));
        let of_file = self
            .station
            .places
            .iter()
            .find(|p| p.tag == typed || p.name.eq_ignore_ascii_case(typed));
        if let Some(place) = of_file {
            let position =
                Position::new(place.position.lat_deg(), place.position.lon_deg()).map_err(|_| unknown())?;
            let sought = Sought {
                name: place.name.clone(),
                position,
                people: place.people.map(f64::from).or_else(|| self.people(&place.name)),
            };
            let need = self.strictest(&place.tag, place.surroundings.map(surroundings), position)?;
            return Ok((sought, need));
        }
        let of_world = self
            .world
            .places()
            .iter()
            .find(|p| p.name.eq_ignore_ascii_case(typed));
        if let Some(place) = of_world {
            let sought = Sought {
                name: place.name.clone(),
                position: place.position,
                people: place.people,
            };
            return Ok((sought, (place.surroundings, self.usual_need())));
        }
        let at: quantity::Position = typed.parse().map_err(|_| unknown())?;
        let position = Position::new(at.lat_deg(), at.lon_deg()).map_err(|_| unknown())?;
        let sought = Sought {
            name: at.show_degrees(4),
            position,
            people: None,
        };
        Ok((sought, (terrain::Surroundings::Rural, self.usual_need())))
    }

    fn people(&self, name: &str) -> Option<f64> {
        let named = |p: &&terrain::Place| p.name == name && p.people.is_some();
        self.world.places().iter().find(named)?.people
    }

    /// Stereo on the roof: what a place is taken to want where the brief does not speak of it.
    fn usual_need(&self) -> coverage::Wanted {
        wanted_field(&self.case, Service::Stereo, Situation::Roof, None)
    }

    /// The wish for a place that takes the strongest field; stereo on the roof where there is none.
    fn strictest(
        &self,
        tag: &str,
        around: Option<terrain::Surroundings>,
        at: Position,
    ) -> Result<Need, MastError> {
        let mut strictest: Option<(f64, Need)> = None;
        for wish in &self.station.brief.wanted {
            if wish.place.as_deref() != Some(tag) {
                continue;
            }
            let situation = wish.situation.value().copied().unwrap_or(Situation::Roof);
            let own = wish.field.map(|f| f.dbuv_m());
            let wanted = wanted_field(&self.case, wish.service, situation, own);
            let stated = wish.surroundings.value().copied().map(surroundings);
            let around = stated.or(around).unwrap_or(terrain::Surroundings::Rural);
            let field = self.field_wanted(&wanted, around, at)?;
            if strictest.as_ref().is_none_or(|(most, _)| field > *most) {
                strictest = Some((field, (around, wanted)));
            }
        }
        let usual = || (around.unwrap_or(terrain::Surroundings::Rural), self.usual_need());
        Ok(strictest.map_or_else(usual, |(_, need)| need))
    }

    /// Field wanted at the height of prediction at a place, dBµV/m.
    fn field_wanted(
        &self,
        wanted: &coverage::Wanted,
        around: terrain::Surroundings,
        at: Position,
    ) -> Result<f64, MastError> {
        let rule = coverage::ReceivingRule::ByCover;
        let rows = CoverRows::new(self.world.clutter_table(), rule, self.world.clutter_mode())
            .ok_or(CoverageError::TooManyRows)?;
        let cover = self.world.spot(at).map_err(CoverageError::from)?.cover;
        let threshold = wanted.threshold_in(rows.of_code(cover), around, rule, self.freq_mhz()?)?;
        Ok(threshold.at_prediction_dbuv_m())
    }

    fn freq_mhz(&self) -> Result<f64, MastError> {
        let of_file = || Some(self.station.emissions.first()?.frequency.value()?.mhz());
        let missing = || MastError::Asked(Message::new("masts-no-frequency"));
        self.ask.freq_mhz.or_else(of_file).ok_or_else(missing)
    }

    fn erp_w(&self) -> Result<f64, MastError> {
        let licensed = || self.station.emissions.first()?.licence.erp.value();
        let missing = || MastError::Asked(Message::new("masts-no-power"));
        self.ask
            .erp_w
            .or_else(|| licensed().map(|power| self.in_one_plane_w(power)))
            .or(self.ask.usual_erp_w)
            .ok_or_else(missing)
    }

    /// Licensed ERP in the plane that a receiver hears, W: half of a total that two planes share.
    fn in_one_plane_w(&self, licensed: &RadiatedPower) -> f64 {
        use station::licence::Polarisation::Mixed;
        let emission = self.station.emissions.first();
        let mixed = emission.is_some_and(|e| {
            let antenna = e.antenna.as_deref().and_then(|tag| self.station.antenna(tag));
            antenna
                .and_then(|a| a.polarisation)
                .or(e.licence.polarisation.value().copied())
                == Some(Mixed)
        });
        let share = if mixed && licensed.counted == Counted::Total {
            0.5
        } else {
            1.0
        };
        licensed.erp().w() * share
    }

    /// The station's own study where it has one, moved to half of the time; else one round the middle of the places.
    fn study(&self, places: &[Sought]) -> Result<Study, MastError> {
        let own = self.station.emissions.first().and_then(|e| study(&self.case, e));
        let freq_mhz = self.freq_mhz()?;
        let mut found = match (own, self.ask.mast_m) {
            (Some(own), _) => own,
            (None, Some(mast_m)) => Study::new(middle(places)?, mast_m, freq_mhz, Polarisation::Vertical),
            (None, None) => return Err(MastError::Asked(Message::new("masts-no-height"))),
        };
        if own.is_none() {
            let inputs = &self.station.study;
            found.radius_km = inputs.radius.value().map_or(found.radius_km, |r| r.km());
            found.step_m = inputs.step.value().map_or(found.step_m, |s| s.m());
        }
        // Only at half of the time do both directions lose the same, by either rule for the listener's height.
        found.conditions.time_pct = 50.0;
        found.conditions.freq_mhz = freq_mhz;
        found.tx_agl_m = self.ask.mast_m.unwrap_or(found.tx_agl_m);
        found.radius_km = self.ask.radius_km.unwrap_or(found.radius_km);
        found.walker = coverage::study::Walker::Engine;
        Ok(found)
    }
}

/// The middle of places, by their mean directions from the earth's centre.
fn middle(places: &[Sought]) -> Result<Position, MastError> {
    let (mut x, mut y, mut z) = (0.0, 0.0, 0.0);
    for place in places {
        let (lat, lon) = (
            place.position.lat_deg().to_radians(),
            place.position.lon_deg().to_radians(),
        );
        x += lat.cos() * lon.cos();
        y += lat.cos() * lon.sin();
        z += lat.sin();
    }
    let (lat, lon) = (z.atan2(x.hypot(y)).to_degrees(), y.atan2(x).to_degrees());
    Position::new(lat, lon).map_err(|_| MastError::Asked(Message::new("masts-no-places")))
}

impl Found {
    /// People of all places; a place whose people nobody knows counts as one.
    pub fn people_total(&self) -> f64 {
        self.search.targets.iter().map(|t| t.people).sum()
    }

    /// Cells that a mast could stand on.
    pub fn cells_on_land(&self) -> usize {
        self.masts.people.iter().filter(|p| !p.is_nan()).count()
    }

    /// The question in a sentence.
    pub fn head(&self, locale: &Locale) -> Message {
        let study = &self.search.study;
        let shown = |number: f64, unit: Unit| joined(&show_number(number, unit, locale));
        Message::new("masts-head")
            .count("places", self.places.len() as i64)
            .text("people", shown(self.people_total(), Unit::People))
            .text("erp", shown(self.search.erp_kw * 1000.0, Unit::Watt))
            .text("height", shown(study.tx_agl_m, Unit::Metre))
            .text("frequency", shown(study.conditions.freq_mhz, Unit::Megahertz))
            .text("radius", shown(study.radius_km, Unit::Kilometre))
            .text("middle", text_of(study.site))
    }

    /// What a reader must know beside the answer.
    pub fn notes(&self) -> Vec<Message> {
        let unknown = |p: &&Sought| p.people.is_none();
        let of = |p: &Sought| Message::new("masts-people-unknown").text("place", p.name.clone());
        let mut notes: Vec<Message> = self.places.iter().filter(unknown).map(of).collect();
        if self.half_time {
            notes.push(Message::new("masts-half-time"));
        }
        if self.nobody() {
            notes.push(Message::new("masts-none"));
        }
        notes
    }

    /// No cell serves anybody.
    pub fn nobody(&self) -> bool {
        self.masts.best.first().is_none_or(|best| best.people < 0.5)
    }

    /// How many places a hill reaches, in words.
    pub fn reaches(&self, hill: &coverage::MastCell) -> Message {
        Message::new("masts-reaches")
            .count("reached", self.reached(hill).count() as i64)
            .count("places", self.places.len() as i64)
    }

    /// Places whose median field is enough with the mast on a hill.
    pub fn reached<'a>(&'a self, hill: &'a coverage::MastCell) -> impl Iterator<Item = &'a Sought> {
        let enough = |m: &Option<f64>| m.is_some_and(|db| db >= 0.0);
        self.places
            .iter()
            .zip(&hill.margin_db)
            .filter(move |(_, m)| enough(m))
            .map(|(place, _)| place)
    }
}

/// A position, said.
pub fn text_of(at: Position) -> String {
    quantity::Position::from_deg(at.lat_deg(), at.lon_deg())
        .map(|p| p.show_degrees(5))
        .unwrap_or_default()
}
