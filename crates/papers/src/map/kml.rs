//! Outlines and named points as KML (OGC 07-147r2).

use super::{Map, tint};
use crate::book::Book;
use crate::paper::PaperError;
use geo::LineString;
use quick_xml::Writer;
use std::fmt::Write;
use std::io;

/// The file.
///
/// # Errors
/// [`PaperError::NoMap`], [`PaperError::Outlines`].
pub fn file(book: &Book) -> Result<Vec<u8>, PaperError> {
    let map = Map::of(book)?;
    let mut out = Writer::new_with_indent(Vec::new(), b' ', 1);
    written(&mut out, map, &book.sheet.name).map_err(|e| PaperError::Outlines(e.to_string()))?;
    let mut bytes = b"<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n".to_vec();
    bytes.extend(out.into_inner());
    bytes.push(b'\n');
    Ok(bytes)
}

type Out = Writer<Vec<u8>>;

fn leaf(out: &mut Out, name: &str, text: &str) -> io::Result<()> {
    out.create_element(name)
        .write_text_content(quick_xml::events::BytesText::new(text))
        .map(|_| ())
}

fn written(out: &mut Out, map: &Map, name: &str) -> io::Result<()> {
    let root = out
        .create_element("kml")
        .with_attribute(("xmlns", "http://www.opengis.net/kml/2.2"));
    root.write_inner_content(|out| {
        out.create_element("Document").write_inner_content(|out| {
            leaf(out, "name", name)?;
            for class in 1..7 {
                style(out, class)?;
            }
            for contour in map.contours.iter().filter(|c| !c.area.0.is_empty()) {
                outline(out, contour)?;
            }
            for mark in &map.marks {
                out.create_element("Placemark").write_inner_content(|out| {
                    leaf(out, "name", &mark.name)?;
                    if let Some(note) = &mark.note {
                        leaf(out, "description", &assess::say::joined(note))?;
                    }
                    out.create_element("Point").write_inner_content(|out| {
                        leaf(
                            out,
                            "coordinates",
                            &format!("{:.6},{:.6}", mark.position.lon_deg(), mark.position.lat_deg()),
                        )
                    })?;
                    Ok(())
                })?;
            }
            Ok(())
        })?;
        Ok(())
    })?;
    Ok(())
}

/// Colours are alpha, blue, green, red.
fn style(out: &mut Out, class: usize) -> io::Result<()> {
    let hex = tint::hex(class);
    let (r, g, b) = (&hex[1..3], &hex[3..5], &hex[5..7]);
    let named = out
        .create_element("Style")
        .with_attribute(("id", format!("class{class}").as_str()));
    named.write_inner_content(|out| {
        out.create_element("LineStyle").write_inner_content(|out| {
            leaf(out, "color", &format!("ff{b}{g}{r}"))?;
            leaf(out, "width", "2")
        })?;
        out.create_element("PolyStyle")
            .write_inner_content(|out| leaf(out, "color", &format!("30{b}{g}{r}")))?;
        Ok(())
    })?;
    Ok(())
}

fn outline(out: &mut Out, contour: &coverage::Contour) -> io::Result<()> {
    let class = tint::class((contour.level_db * 100.0) as i16);
    out.create_element("Placemark").write_inner_content(|out| {
        leaf(out, "name", &format!("{:.0} dB(µV/m)", contour.level_db))?;
        leaf(out, "styleUrl", &format!("#class{class}"))?;
        out.create_element("MultiGeometry").write_inner_content(|out| {
            for polygon in &contour.cut_at_antimeridian().0 {
                out.create_element("Polygon").write_inner_content(|out| {
                    ring(out, "outerBoundaryIs", polygon.exterior())?;
                    polygon
                        .interiors()
                        .iter()
                        .try_for_each(|hole| ring(out, "innerBoundaryIs", hole))
                })?;
            }
            Ok(())
        })?;
        Ok(())
    })?;
    Ok(())
}

fn ring(out: &mut Out, name: &str, line: &LineString<f64>) -> io::Result<()> {
    let mut text = String::new();
    for at in &line.0 {
        let _ = write!(text, "{:.6},{:.6} ", at.x, at.y);
    }
    out.create_element(name).write_inner_content(|out| {
        out.create_element("LinearRing")
            .write_inner_content(|out| leaf(out, "coordinates", text.trim_end()))?;
        Ok(())
    })?;
    Ok(())
}
