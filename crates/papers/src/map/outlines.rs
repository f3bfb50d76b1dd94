//! Outlines of equal field and named points as GeoJSON (RFC 7946).

use super::{Map, Mark, MarkKind};
use crate::book::Book;
use crate::paper::PaperError;
use geojson::{Feature, FeatureCollection, GeoJson, Geometry, JsonObject, JsonValue};

/// The file.
///
/// # Errors
/// [`PaperError::NoMap`].
pub fn geojson(book: &Book) -> Result<Vec<u8>, PaperError> {
    let map = Map::of(book)?;
    let outlines = map
        .contours
        .iter()
        .filter(|c| !c.area.0.is_empty())
        .map(|contour| {
            let area = contour.cut_at_antimeridian();
            feature(
                Geometry::from(&area),
                [
                    ("kind", JsonValue::from("field at least")),
                    ("field_dbuv_m", JsonValue::from(contour.level_db)),
                    (
                        "area_km2_with_sea",
                        JsonValue::from((contour.area_km2 * 10.0).round() / 10.0),
                    ),
                    ("emission", JsonValue::from(map.emission.as_str())),
                ],
            )
        });
    let points = map.marks.iter().map(|mark| {
        let at = geo::Point::new(mark.position.lon_deg(), mark.position.lat_deg());
        feature(
            Geometry::from(&at),
            [
                ("kind", JsonValue::from(kind_of(mark))),
                ("name", JsonValue::from(mark.name.as_str())),
                (
                    "says",
                    JsonValue::from(mark.note.as_ref().map(assess::say::joined)),
                ),
                (
                    "in_hand",
                    JsonValue::from(mark.in_hand.as_ref().map(assess::say::joined)),
                ),
            ],
        )
    });
    let collection = FeatureCollection {
        bbox: None,
        features: outlines.chain(points).collect(),
        foreign_members: None,
    };
    Ok((GeoJson::from(collection).to_string() + "\n").into_bytes())
}

fn feature(geometry: Geometry, properties: [(&str, JsonValue); 4]) -> Feature {
    let properties: JsonObject = properties.into_iter().map(|(k, v)| (k.to_owned(), v)).collect();
    Feature {
        bbox: None,
        geometry: Some(geometry),
        id: None,
        properties: Some(properties),
        foreign_members: None,
    }
}

pub(super) fn kind_of(mark: &Mark) -> &'static str {
    match mark.kind {
        MarkKind::Mast => "mast",
        MarkKind::Studio => "studio",
        MarkKind::Place => "place",
    }
}
