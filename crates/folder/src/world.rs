//! The ground a station stands on, its people and its places: one of the generated grounds, or the tiles of its folder.

use crate::reading::{open_failed, several};
use std::fs::File;
use std::path::{Path, PathBuf};
use words::Message;

use coverage::{CoverageError, GroundWorld, LossField, World};
use serde::Serialize;
use station::Station;
use station::brief::Surroundings;
use station::place::{ElevationModel, GeneratedGround};
use terrain::cover::CoverError;
use terrain::grid::Corner;
use terrain::people::PeopleError;
use terrain::places::CellError;
use terrain::{ClutterTable, Crs, Grid, Ground, HeightKind, MissingGround, People, Position, Registration};

use crate::cache::{Cache, Key};
use crate::save::Digest;
use crate::tiles::{DigestBook, TileError, TileFile, TileSet};

/// A station's ground, opened.
#[derive(Debug)]
pub struct OpenedWorld {
    /// The world that coverage asks.
    pub world: GroundWorld,
    /// What it was made of.
    pub made_of: MadeOf,
}

/// What a world was made of, for papers and the page.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct MadeOf {
    /// Key of the generated ground; none for tiles.
    pub generated: Option<&'static str>,
    /// Files of heights.
    pub heights: Vec<TileFile>,
    /// Files of land cover.
    pub land_cover: Vec<TileFile>,
    /// Files of people that reach the area.
    pub people: Vec<TileFile>,
    /// Files beside the tiles that are none.
    pub left_out: Vec<String>,
}

/// Why there is no ground to compute on.
#[derive(Debug, thiserror::Error)]
pub enum WorldError {
    /// Neither generated nor tiles.
    NoGround,
    /// Both generated and tiles.
    TwoGrounds,
    /// Tiles, and nothing says what their heights measure.
    NoModel,
    /// Tiles, and no site to look at them from.
    NoSite,
    /// Tiles that cannot be used.
    Tiles(#[from] TileError),
    /// A position that is none.
    Position(#[from] terrain::PositionError),
    /// People that cannot be read.
    People {
        /// The raster.
        file: String,
        /// What is wrong.
        error: PeopleError,
    },
    /// Rasters of people, none of which reaches the area.
    PeopleElsewhere {
        /// Their folder.
        folder: PathBuf,
    },
    /// Places that cannot be read.
    Places {
        /// The file.
        file: PathBuf,
        /// Every cell that is wrong.
        errors: Vec<CellError>,
    },
    /// A table of clutter heights that cannot be read.
    Clutter {
        /// The file.
        file: PathBuf,
        /// What is wrong.
        error: CoverError,
    },
    /// A file that cannot be opened.
    Open {
        /// The file.
        file: PathBuf,
        /// The system's words.
        source: std::io::Error,
    },
}

impl From<&WorldError> for Message {
    fn from(error: &WorldError) -> Self {
        match error {
            WorldError::NoGround => Message::new("ground-none"),
            WorldError::TwoGrounds => Message::new("ground-two"),
            WorldError::NoModel => Message::new("ground-no-model"),
            WorldError::NoSite => Message::new("ground-no-site"),
            WorldError::Tiles(error) => error.into(),
            WorldError::Position(error) => error.into(),
            WorldError::People { file, error } => Message::new("open-failed")
                .text("path", file)
                .message("why", error),
            WorldError::PeopleElsewhere { folder } => {
                Message::new("people-elsewhere").text("path", folder.display().to_string())
            }
            WorldError::Places { file, errors } => {
                let line = |cell: &CellError| {
                    Message::new("open-cell")
                        .text("path", file.display().to_string())
                        .message("what", cell)
                };
                several(errors.iter().map(line))
            }
            WorldError::Clutter { file, error } => Message::new("open-failed")
                .text("path", file.display().to_string())
                .message("why", error),
            WorldError::Open { file, source } => open_failed(file, source),
        }
    }
}

words::said_in_english!(WorldError);

/// Radius that people and coast are looked up in where the study names none, km [P].
const USUAL_RADIUS_KM: f64 = 60.0;

/// Side of the cells that people of several rasters are joined on, degrees: about 280 m.
const JOINED_CELL_DEG: f64 = 0.0025;

impl OpenedWorld {
    /// Opens the ground of a station whose folder is `folder`; give it the station with its assumptions filled in.
    ///
    /// # Errors
    /// [`WorldError`]: no ground, two grounds, tiles or tables that are refused, each by name.
    pub fn of(station: &Station, folder: &Path) -> Result<Self, WorldError> {
        let mut book = DigestBook::of_folder(folder);
        let opened = match (station.ground.generated.value(), &station.ground.tiles) {
            (Some(_), Some(_)) => Err(WorldError::TwoGrounds),
            (None, None) => Err(WorldError::NoGround),
            (Some(generated), None) => Ok(of_generated(*generated)),
            (None, Some(tiles)) => of_tiles(station, folder, tiles, &mut book),
        };
        book.keep(folder);
        let OpenedWorld { world, made_of } = opened?;
        let places = places(station, folder, world.places())?;
        Ok(Self {
            world: world.with_places(places),
            made_of,
        })
    }
}

/// The key of a generated ground in `terrain`.
pub fn generated_id(ground: GeneratedGround) -> &'static str {
    match ground {
        GeneratedGround::DemoIsland => "island",
        GeneratedGround::RollingPlain => "rolling",
        GeneratedGround::AlpineValley => "alpine",
        GeneratedGround::HillCoast => "coast",
    }
}

fn of_generated(ground: GeneratedGround) -> OpenedWorld {
    let id = generated_id(ground);
    let world =
        GroundWorld::generated(id).expect("every generated ground of the model exists: a test asks for each");
    OpenedWorld {
        world,
        made_of: MadeOf {
            generated: Some(id),
            ..MadeOf::default()
        },
    }
}

fn of_tiles(
    station: &Station,
    folder: &Path,
    tiles: &str,
    book: &mut DigestBook,
) -> Result<OpenedWorld, WorldError> {
    let (centre, radius_km) = area(station)?;
    let kind = match station.ground.model.value() {
        Some(ElevationModel::BareGround) => HeightKind::BareGround,
        Some(ElevationModel::Surface) => HeightKind::Surface,
        None => return Err(WorldError::NoModel),
    };
    let heights = TileSet::open(&folder.join(tiles), book)?;
    let mut content = heights.content();
    let mut made_of = MadeOf {
        heights: heights.files,
        left_out: heights.left_out,
        ..MadeOf::default()
    };
    let mut ground = Ground::new(heights.mosaic, kind);
    if let Some(covers) = &station.ground.land_cover {
        let covers_folder = folder.join(covers);
        let covers = TileSet::open(&covers_folder, book)?;
        content.extend(b"land cover\0".iter().copied().chain(covers.content()));
        made_of.land_cover = covers.files;
        made_of
            .left_out
            .extend(covers.left_out.into_iter().filter(|name| name != CLUTTER));
        ground = ground.with_cover(covers.mosaic);
        if let Some(table) = clutter_table(&covers_folder)? {
            ground = ground.with_table(table);
        }
    }
    if station.ground.missing_is_sea == Some(true) {
        ground = ground.with_missing(MissingGround::TreatAsSea);
    }
    let mut world = GroundWorld::new(ground.surveyed(centre, radius_km), content);
    if let Some(people) = &station.ground.people {
        let (people, files) = people_within(&folder.join(people), centre, radius_km, book)?;
        made_of.people = files;
        world = world.with_people(people);
    }
    Ok(OpenedWorld { world, made_of })
}

/// Where and how far round the station looks: its first antenna's site, else its first site.
fn area(station: &Station) -> Result<(Position, f64), WorldError> {
    let tag = station.antennas.first().map(|a| a.site.as_str());
    let site = tag
        .and_then(|tag| station.site(tag))
        .or(station.sites.first())
        .ok_or(WorldError::NoSite)?;
    let centre = position(site.position)?;
    let radius_km = station.study.radius.value().map_or(USUAL_RADIUS_KM, |r| r.km());
    Ok((centre, radius_km))
}

fn position(at: quantity::Position) -> Result<Position, WorldError> {
    Ok(Position::new(at.lat_deg(), at.lon_deg())?)
}

/// A user's own table of clutter heights, beside the land cover.
const CLUTTER: &str = "clutter.csv";

fn clutter_table(covers: &Path) -> Result<Option<ClutterTable>, WorldError> {
    let file = covers.join(CLUTTER);
    if !file.is_file() {
        return Ok(None);
    }
    let opened = File::open(&file).map_err(|source| WorldError::Open {
        file: file.clone(),
        source,
    })?;
    let table = ClutterTable::read_csv(opened).map_err(|error| WorldError::Clutter { file, error })?;
    Ok(Some(table))
}

/// People of every raster that reaches the area; those of several are joined on one grid, totals kept.
fn people_within(
    folder: &Path,
    centre: Position,
    radius_km: f64,
    book: &mut DigestBook,
) -> Result<(People, Vec<TileFile>), WorldError> {
    let set = TileSet::open(folder, book)?;
    let (mut found, mut files) = (Vec::new(), Vec::new());
    for (tile, file) in set.mosaic.tiles().iter().zip(&set.files) {
        match People::within(&tile.raster, centre, radius_km) {
            Ok(people) => {
                found.push(people);
                files.push(file.clone());
            }
            Err(PeopleError::Elsewhere) => {}
            Err(error) => {
                return Err(WorldError::People {
                    file: tile.name.clone(),
                    error,
                });
            }
        }
    }
    let people = match found.len() {
        0 => {
            return Err(WorldError::PeopleElsewhere {
                folder: folder.into(),
            });
        }
        1 => found.swap_remove(0),
        _ => joined(&found, centre, radius_km).map_err(|error| WorldError::People {
            file: folder.display().to_string(),
            error,
        })?,
    };
    Ok((people, files))
}

/// The people of several rasters on one geographic grid round the site.
fn joined(found: &[People], centre: Position, radius_km: f64) -> Result<People, PeopleError> {
    // A degree of latitude is 110.6 km at least; a degree of longitude shrinks with the cosine, taken no smaller than at 85°.
    let half_lat_deg = radius_km / 110.5;
    let half_lon_deg = half_lat_deg / centre.lat_deg().to_radians().cos().max(0.087);
    let cells = |half_deg: f64| ((2.0 * half_deg / JOINED_CELL_DEG).ceil() as u32).max(1);
    let corner = Corner {
        x: centre.lon_deg() - half_lon_deg,
        y: (centre.lat_deg() + half_lat_deg).min(90.0),
        step_x: JOINED_CELL_DEG,
        step_y: JOINED_CELL_DEG,
    };
    let size = (cells(half_lon_deg), cells(half_lat_deg));
    let grid =
        Grid::new(Crs::Geographic, corner, size, Registration::Area).map_err(|_| PeopleError::Elsewhere)?;
    let mut total = vec![0.0; size.0 as usize * size.1 as usize];
    for people in found {
        let onto = people.resample(&grid).people;
        total
            .iter_mut()
            .zip(onto.counts())
            .for_each(|(sum, count)| *sum += count);
    }
    People::new(grid, total)
}

/// The world's own places, those of the station's CSV, and those of the station file; a name is taken once, the file's first.
fn places(
    station: &Station,
    folder: &Path,
    own: &[terrain::Place],
) -> Result<Vec<terrain::Place>, WorldError> {
    let mut places = Vec::new();
    for place in &station.places {
        places.push(terrain::Place {
            name: place.name.clone(),
            position: position(place.position)?,
            people: place.people.map(f64::from),
            surroundings: match place.surroundings {
                Some(Surroundings::Urban) => terrain::Surroundings::Urban,
                Some(Surroundings::LargeCity) => terrain::Surroundings::LargeCity,
                Some(Surroundings::Rural) => terrain::Surroundings::Rural,
                None => usual_surroundings(place.people),
            },
        });
    }
    if let Some(csv) = &station.ground.places {
        let file = folder.join(csv);
        let opened = File::open(&file).map_err(|source| WorldError::Open {
            file: file.clone(),
            source,
        })?;
        let more = terrain::places::read_csv(opened).map_err(|errors| WorldError::Places { file, errors })?;
        add_new(&mut places, &more);
    }
    add_new(&mut places, own);
    Ok(places)
}

/// Urban from 5,000 people on: common practice, no source; the same as for places from a CSV.
fn usual_surroundings(people: Option<u32>) -> terrain::Surroundings {
    if people.is_some_and(|n| n >= 5_000) {
        terrain::Surroundings::Urban
    } else {
        terrain::Surroundings::Rural
    }
}

fn add_new(places: &mut Vec<terrain::Place>, more: &[terrain::Place]) {
    for place in more {
        if !places.iter().any(|known| known.name == place.name) {
            places.push(place.clone());
        }
    }
}

/// The key of a study's losses over a world.
pub fn loss_key(world: &dyn World, study: &coverage::Study) -> Digest {
    let mut key = Key::new();
    study.feed_key(world, &mut key);
    key.digest()
}

/// The losses of a study: from the cache, or computed and kept.
///
/// # Errors
/// [`CoverageError`] of the computation. A cache that cannot be read or written costs time only.
pub fn loss_field(
    cache: &Cache,
    world: &dyn World,
    study: &coverage::Study,
    control: &coverage::Control<'_>,
) -> Result<LossField, CoverageError> {
    let key = loss_key(world, study);
    if let Some(field) = cache
        .load(key)
        .and_then(|bytes| LossField::from_bytes(&bytes).ok())
    {
        return Ok(field);
    }
    let field = LossField::compute(world, study, control)?;
    let _ = cache.store(key, &field.to_bytes()); // without room on the disk the answer is the same
    Ok(field)
}
