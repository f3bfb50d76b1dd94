//! The ground as the planner sees it: heights, what stands on them, where the water is, and what is missing.

use std::sync::Arc;

use crate::coast::{CoastMap, Zone, land_zone};
use crate::cover::{self, ClutterTable};
use crate::mosaic::{Cursor, Lookup, Mosaic};
use crate::position::Position;
use crate::profile::Quality;
use crate::raster::RasterError;

/// What the heights of a tile set are the heights of. Declared by whoever brings the tiles; no file says it reliably.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum HeightKind {
    /// The ground itself: clutter heights are added to it.
    BareGround,
    /// The top of what stands on the ground (a radar or lidar surface): nothing is added.
    Surface,
}

/// What to do where no tile lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum MissingGround {
    /// Say so; nothing is computed beyond.
    #[default]
    Report,
    /// Take it as open sea at height 0 and say so.
    TreatAsSea,
}

/// What became of the clutter heights: a figure of every answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ClutterMode {
    /// Heights are bare ground, land cover is there: clutter heights were added.
    AddedToBareGround,
    /// Heights are a surface model and hold what stands on the ground: nothing was added.
    HeldBySurfaceModel,
    /// Heights are bare ground but no land cover was given: nothing could be added.
    NoLandCover,
}

/// Why the ground gives no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum GroundError {
    /// A tile that cannot be read.
    Tile {
        /// Name of the tile.
        tile: String,
        /// What is wrong with it.
        error: RasterError,
    },
    /// A height that no place on Earth has.
    AbsurdHeight {
        /// The height, metres.
        height_m: f64,
        /// Latitude, degrees.
        lat_deg: f64,
        /// Longitude, degrees.
        lon_deg: f64,
    },
    /// No tile lies at this position.
    Missing {
        /// Latitude, degrees.
        lat_deg: f64,
        /// Longitude, degrees.
        lon_deg: f64,
    },
    /// Nothing but voids along the whole path, so nothing to fill them from.
    AllVoid,
    /// Two ends at one position.
    NoLength,
    /// A step, length or azimuth that makes no path.
    NoPath {
        /// Length asked for, km.
        length_km: f64,
        /// Azimuth asked for, degrees.
        azimuth_deg: f64,
        /// Step asked for, m.
        step_m: f64,
    },
}

/// Lowest believable height, metres: the deepest known ocean floor, for tiles that hold it.
pub const LOWEST_M: f64 = -11_500.0;

/// Highest believable height, metres.
pub const HIGHEST_M: f64 = 9_000.0;

/// Most samples of one path.
pub const MAX_SAMPLES: usize = 200_000;

/// Water between these heights is the sea (radar heights over sea are noisy); other water is a lake or river and counts as
/// inland. Our choice [P]: P.1812 § 3.3 counts lakes of about 100 km as sea too, which this rule does not.
pub const SEA_BETWEEN_M: (f64, f64) = (-40.0, 5.0);

/// Everything known at one position.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// Height of the ground (or surface) above sea level, metres.
    pub height_m: f64,
    /// Land-cover code, 0 where unknown.
    pub cover: u8,
    /// Clutter height added, metres above ground.
    pub clutter_m: f64,
    /// True over water.
    pub water: bool,
    /// Radio-climatic zone.
    pub zone: Zone,
    /// Where the height comes from.
    pub quality: Quality,
}

/// Heights, land cover and water of an area, with the rules that join them.
///
/// Cheap to clone (tiles are shared) and safe to read from many threads.
///
/// # Water
/// Land cover 80 is water. Where there is no land cover, a height of exactly 0 m is water (SRTM levels the sea to 0); land at
/// exactly 0 m is then taken for sea, which a land-cover tile mends. Missing ground treated as sea is water.
#[derive(Debug, Clone)]
pub struct Ground {
    pub(crate) heights: Mosaic,
    pub(crate) covers: Option<Mosaic>,
    kind: HeightKind,
    table: Arc<ClutterTable>,
    missing: MissingGround,
    coast: Option<Arc<CoastMap>>,
}

/// Positions remembered between look-ups of a walk.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Cursors {
    heights: Cursor,
    covers: Cursor,
}

/// What the tiles say at one position, before filling and zones.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Sounding {
    pub height_m: f64,
    pub cover: u8,
    pub water: bool,
    pub sea: bool,
    pub quality: Quality,
}

impl Ground {
    /// A ground from height tiles of the declared kind, without land cover.
    pub fn new(heights: Mosaic, kind: HeightKind) -> Self {
        Self {
            heights,
            covers: None,
            kind,
            table: Arc::new(ClutterTable::default()),
            missing: MissingGround::default(),
            coast: None,
        }
    }

    /// The same ground with land cover.
    pub fn with_cover(mut self, covers: Mosaic) -> Self {
        self.covers = Some(covers);
        self
    }

    /// The same ground with another table of clutter heights.
    pub fn with_table(mut self, table: ClutterTable) -> Self {
        self.table = Arc::new(table);
        self
    }

    /// The same ground with another rule for missing tiles.
    pub fn with_missing(mut self, missing: MissingGround) -> Self {
        self.missing = missing;
        self
    }

    /// The same ground with its heights declared otherwise: computing both ways gives the effect of the choice.
    pub fn with_kind(mut self, kind: HeightKind) -> Self {
        self.kind = kind;
        self
    }

    /// The same ground with a survey of its coast. Without one, coastal land is known only from sea on the path itself.
    pub fn with_coast(mut self, coast: CoastMap) -> Self {
        self.coast = Some(Arc::new(coast));
        self
    }

    /// Surveys the coast round a site, 50 km beyond `radius_km`, on cells of 1 km. Tiles that are missing or damaged count as
    /// land here (treated as sea where that is the rule).
    pub fn surveyed(self, centre: Position, radius_km: f64) -> Self {
        let mut cursors = Cursors::default();
        let half_km = radius_km + crate::coast::COASTAL_WITHIN_KM;
        let coast = CoastMap::survey(centre, half_km, 1.0, |p| {
            self.sound(&mut cursors, p).is_ok_and(|sounding| sounding.sea)
        });
        self.with_coast(coast)
    }

    /// What the heights are declared to be.
    pub fn kind(&self) -> HeightKind {
        self.kind
    }

    /// The rule for missing tiles.
    pub fn missing(&self) -> MissingGround {
        self.missing
    }

    /// The table of clutter heights in use.
    pub fn table(&self) -> &ClutterTable {
        &self.table
    }

    /// The height tiles.
    pub fn heights(&self) -> &Mosaic {
        &self.heights
    }

    /// The land-cover tiles, if any.
    pub fn covers(&self) -> Option<&Mosaic> {
        self.covers.as_ref()
    }

    /// The survey of the coast, if one was made.
    pub fn coast(&self) -> Option<&CoastMap> {
        self.coast.as_deref()
    }

    /// What becomes of clutter heights on this ground.
    pub fn clutter_mode(&self) -> ClutterMode {
        match (self.kind, &self.covers) {
            (HeightKind::Surface, _) => ClutterMode::HeldBySurfaceModel,
            (HeightKind::BareGround, Some(_)) => ClutterMode::AddedToBareGround,
            (HeightKind::BareGround, None) => ClutterMode::NoLandCover,
        }
    }

    /// Everything known at one position.
    ///
    /// # Errors
    /// [`GroundError::Missing`] without a tile, [`GroundError::AllVoid`] in a void, [`GroundError::Tile`] for a damaged tile.
    pub fn spot(&self, position: Position) -> Result<Spot, GroundError> {
        let sounding = self.sound(&mut Cursors::default(), position)?;
        match sounding.quality {
            Quality::Missing => {
                let (lat_deg, lon_deg) = position.parts();
                return Err(GroundError::Missing { lat_deg, lon_deg });
            }
            Quality::Void => return Err(GroundError::AllVoid),
            Quality::Measured | Quality::SeaByChoice => {}
        }
        let sea_km = self.coast.as_ref().and_then(|coast| coast.sea_km(position));
        let zone = if sounding.sea {
            Zone::Sea
        } else {
            land_zone(sounding.height_m, sea_km)
        };
        Ok(Spot {
            height_m: sounding.height_m,
            cover: sounding.cover,
            clutter_m: self.clutter_at(&sounding),
            water: sounding.water,
            zone,
            quality: sounding.quality,
        })
    }

    /// Clutter height to add at a sounding, metres.
    #[inline]
    pub(crate) fn clutter_at(&self, sounding: &Sounding) -> f64 {
        if self.kind == HeightKind::Surface || sounding.water {
            return 0.0;
        }
        self.table.clutter_m(sounding.cover)
    }

    /// Asks the tiles at one position.
    #[inline]
    pub(crate) fn sound(&self, cursors: &mut Cursors, position: Position) -> Result<Sounding, GroundError> {
        let cover = match &self.covers {
            None => cover::NO_DATA,
            Some(covers) => match covers.nearest(&mut cursors.covers, position) {
                Lookup::Value(code) => code as u8,
                Lookup::Void | Lookup::NoTile => cover::NO_DATA,
                Lookup::Damaged(tile, error) => return Err(tile_error(tile, error)),
            },
        };
        match self.heights.bilinear(&mut cursors.heights, position) {
            Lookup::Value(height_m) => measured(height_m, cover, position),
            Lookup::Void => {
                let water = cover == cover::WATER;
                Ok(Sounding {
                    height_m: f64::NAN,
                    cover,
                    water,
                    sea: false,
                    quality: Quality::Void,
                })
            }
            Lookup::NoTile => Ok(self.without_tile(cover)),
            Lookup::Damaged(tile, error) => Err(tile_error(tile, error)),
        }
    }

    fn without_tile(&self, cover: u8) -> Sounding {
        match self.missing {
            MissingGround::TreatAsSea => Sounding {
                height_m: 0.0,
                cover: cover::WATER,
                water: true,
                sea: true,
                quality: Quality::SeaByChoice,
            },
            MissingGround::Report => Sounding {
                height_m: 0.0,
                cover,
                water: false,
                sea: false,
                quality: Quality::Missing,
            },
        }
    }
}

#[inline]
fn measured(height_m: f64, cover: u8, position: Position) -> Result<Sounding, GroundError> {
    if !(LOWEST_M..=HIGHEST_M).contains(&height_m) {
        let (lat_deg, lon_deg) = position.parts();
        return Err(GroundError::AbsurdHeight {
            height_m,
            lat_deg,
            lon_deg,
        });
    }
    let water = cover == cover::WATER || (cover == cover::NO_DATA && height_m == 0.0);
    let sea = water && height_m > SEA_BETWEEN_M.0 && height_m < SEA_BETWEEN_M.1;
    let height_m = if sea { 0.0 } else { height_m };
    Ok(Sounding {
        height_m,
        cover,
        water,
        sea,
        quality: Quality::Measured,
    })
}

#[cold]
fn tile_error(tile: &str, error: &RasterError) -> GroundError {
    GroundError::Tile {
        tile: tile.to_owned(),
        error: error.clone(),
    }
}
