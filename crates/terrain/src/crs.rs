//! The coordinate systems a raster may be in, and the way from a position to its coordinates and back.
//!
//! Named by EPSG code (Mollweide by ESRI 54009). ETRS89 (4258) is taken as WGS 84: they differ by less than a metre,
//! a hundredth of a sample.

use proj4rs::Proj;
use proj4rs::adaptors::transform_xy;
use std::sync::LazyLock;

use crate::position::Position;

/// A coordinate system of a raster.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Crs {
    /// Latitude and longitude in degrees: EPSG 4326 (WGS 84) or 4258 (ETRS89). x is longitude.
    Geographic,
    /// Universal transverse Mercator on WGS 84 or ETRS89: EPSG 32601–32660, 32701–32760, 25828–25838. Metres.
    Utm {
        /// Zone, 1–60.
        zone: u8,
        /// True for the northern hemisphere's false northing of 0.
        north: bool,
    },
    /// Spherical Mercator of web maps: EPSG 3857. Metres.
    WebMercator,
    /// Mollweide's equal-area projection, sphere of radius 6 378 137 m: ESRI 54009. Metres.
    Mollweide,
}

impl Crs {
    /// The system with this EPSG (or, for 54009, ESRI) code; `None` for every other code.
    pub fn from_code(code: u32) -> Option<Self> {
        let utm = |zone: u32, north| {
            Some(Self::Utm {
                zone: zone as u8,
                north,
            })
        };
        match code {
            4326 | 4258 => Some(Self::Geographic),
            32601..=32660 => utm(code - 32600, true),
            32701..=32760 => utm(code - 32700, false),
            25828..=25838 => utm(code - 25800, true),
            3857 => Some(Self::WebMercator),
            54009 => Some(Self::Mollweide),
            _ => None,
        }
    }

    /// x and y of a position: degrees (longitude first) for [`Crs::Geographic`], else metres. `None` where the
    /// projection has no value (poles of Mercator, far outside a UTM zone).
    pub fn project(self, position: Position) -> Option<(f64, f64)> {
        let (lat_deg, lon_deg) = position.parts();
        let (geographic, projected) = match self {
            Self::Geographic => return Some((lon_deg, lat_deg)),
            Self::Utm { zone, north } => {
                let off_deg = crate::position::wrap_lon_deg(lon_deg - central_meridian_deg(zone));
                if off_deg.abs() > UTM_REACH_DEG {
                    return None;
                }
                (&*ELLIPSOID, utm(zone, north)?)
            }
            Self::WebMercator => {
                if lat_deg.abs() > MERCATOR_LIMIT_DEG {
                    return None;
                }
                (&*SPHERE, WEB_MERCATOR.as_ref()?)
            }
            Self::Mollweide => (&*SPHERE, MOLLWEIDE.as_ref()?),
        };
        let (x, y) = transform_xy(
            geographic.as_ref()?,
            projected,
            lon_deg.to_radians(),
            lat_deg.to_radians(),
        )
        .ok()?;
        (x.is_finite() && y.is_finite()).then_some((x, y))
    }

    /// The position at x and y; `None` outside the projection's world.
    pub fn unproject(self, x: f64, y: f64) -> Option<Position> {
        let (geographic, projected) = match self {
            Self::Geographic => return Position::new(y, crate::position::wrap_lon_deg(x)).ok(),
            Self::Utm { zone, north } => (&*ELLIPSOID, utm(zone, north)?),
            Self::WebMercator => (&*SPHERE, WEB_MERCATOR.as_ref()?),
            Self::Mollweide => (&*SPHERE, MOLLWEIDE.as_ref()?),
        };
        let (lon_rad, lat_rad) = transform_xy(projected, geographic.as_ref()?, x, y).ok()?;
        Position::new(lat_rad.to_degrees(), lon_rad.to_degrees()).ok()
    }
}

/// How far from its central meridian a UTM zone is used, degrees: the series is good to millimetres there.
const UTM_REACH_DEG: f64 = 9.0;

/// Latitude where web maps end, degrees: atan(sinh π).
const MERCATOR_LIMIT_DEG: f64 = 85.06;

fn central_meridian_deg(zone: u8) -> f64 {
    f64::from(zone) * 6.0 - 183.0
}

type Projection = LazyLock<Option<Proj>>;

static ELLIPSOID: Projection = LazyLock::new(|| proj("+proj=longlat +ellps=WGS84 +no_defs"));
static SPHERE: Projection = LazyLock::new(|| proj("+proj=longlat +a=6378137 +b=6378137 +no_defs"));
static WEB_MERCATOR: Projection =
    LazyLock::new(|| proj("+proj=merc +a=6378137 +b=6378137 +lon_0=0 +x_0=0 +y_0=0 +units=m +no_defs"));
static MOLLWEIDE: Projection =
    LazyLock::new(|| proj("+proj=moll +lon_0=0 +x_0=0 +y_0=0 +a=6378137 +b=6378137 +units=m +no_defs"));
static UTM: LazyLock<Vec<Option<Proj>>> = LazyLock::new(|| {
    (0..120)
        .map(|i| {
            let south = if i >= 60 { " +south" } else { "" };
            proj(&format!(
                "+proj=utm +zone={}{south} +ellps=WGS84 +units=m +no_defs",
                i % 60 + 1
            ))
        })
        .collect()
});

fn proj(definition: &str) -> Option<Proj> {
    Proj::from_proj_string(definition).ok()
}

fn utm(zone: u8, north: bool) -> Option<&'static Proj> {
    let index = usize::from(zone).checked_sub(1)? + if north { 0 } else { 60 };
    UTM.get(index)?.as_ref()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const ALL: [Crs; 5] = [
        Crs::Geographic,
        Crs::Utm {
            zone: 32,
            north: true,
        },
        Crs::Utm {
            zone: 19,
            north: false,
        },
        Crs::WebMercator,
        Crs::Mollweide,
    ];

    /// Snyder, "Map Projections: A Working Manual" (USGS PP 1395), Mollweide's definition: the pole is at y = √2·R, the
    /// equator's end at x = 2√2·R [M].
    #[test]
    fn ref_mollweide_ends_of_the_axes() {
        let r_m = 6_378_137.0;
        let (_, y) = Crs::Mollweide.project(Position::new(90.0, 0.0).unwrap()).unwrap();
        let (x, _) = Crs::Mollweide
            .project(Position::new(0.0, -180.0).unwrap())
            .unwrap();
        assert!((y - 2f64.sqrt() * r_m).abs() < 1e-3, "{y}");
        assert!((x.abs() - 2.0 * 2f64.sqrt() * r_m).abs() < 1e-3, "{x}");
    }

    /// UTM definition: central meridian has easting 500 000 m, and 0.9996 of the meridian arc (equator to 45°: 4 984 944.378 m
    /// on WGS 84 [M]) as northing.
    #[test]
    fn ref_utm_central_meridian() {
        let (x, y) = Crs::from_code(32632)
            .unwrap()
            .project(Position::new(45.0, 9.0).unwrap())
            .unwrap();
        assert!((x - 500_000.0).abs() < 1e-6, "{x}");
        assert!((y - 0.9996 * 4_984_944.378).abs() < 0.01, "{y}");
    }

    #[test]
    fn codes_that_are_not_read_are_none() {
        for code in [2056, 27700, 32600, 32661, 4269, 0, 32767] {
            assert_eq!(Crs::from_code(code), None, "{code}");
        }
        assert_eq!(
            Crs::from_code(25833),
            Some(Crs::Utm {
                zone: 33,
                north: true
            })
        );
    }

    proptest! {
        #[test]
        fn prop_there_and_back(lat in -80.0..80.0f64, off in -5.0..5.0f64, which in 0usize..5) {
            let crs = ALL[which];
            let centre = match crs { Crs::Utm { zone, .. } => central_meridian_deg(zone), _ => 40.0 };
            let p = Position::new(lat, centre + off).unwrap();
            let (x, y) = crs.project(p).unwrap();
            let back = crs.unproject(x, y).unwrap();
            prop_assert!(crate::geodesic::span(p, back).length_m < 0.01, "{crs:?} {p:?} {back:?}");
        }
    }
}
