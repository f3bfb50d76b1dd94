//! The list of papers.

use crate::book::Book;
use crate::{acceptance, annex, bill, chain, map, offer, rigging};
use words::Message;

/// Who may see a paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Audience {
    /// Made to be sent: holds no cost price.
    Client,
    /// For the builder's eyes: its name says so.
    Builder,
}

/// One paper.
#[derive(Debug, Clone, Copy)]
pub struct Paper {
    /// File name.
    pub file: &'static str,
    /// Message code of its title.
    pub code: &'static str,
    /// Message code of a sentence on what is in it.
    pub says: &'static str,
    /// Format in words, such as `PDF`.
    pub format: &'static str,
    /// Media type.
    pub media_type: &'static str,
    /// Who may see it.
    pub audience: Audience,
    /// Makes it.
    pub make: fn(&Book) -> Result<Vec<u8>, PaperError>,
}

/// Why a paper could not be made.
#[derive(Debug, thiserror::Error)]
pub enum PaperError {
    /// Nothing radiates, so there is no map.
    NoMap,
    /// No antenna is chosen, so there is nothing to rig.
    NothingToRig,
    /// No antenna is chosen, so nothing radiates.
    NothingRadiates,
    /// Nothing that an instrument could read is promised.
    NothingToMeasure,
    /// The page could not be set.
    Typeset(Vec<String>),
    /// A sentence is missing: a fault of ours.
    Words(#[from] words::WordsError),
    /// The spreadsheet could not be written.
    Spreadsheet(#[from] rust_xlsxwriter::XlsxError),
    /// The spreadsheet's parts could not be packed.
    Pack(#[from] zip::result::ZipError),
    /// A part of the spreadsheet could not be read or written.
    Part(#[from] std::io::Error),
    /// A drawing could not be painted.
    Drawing(Message),
    /// The field could not be laid on a map.
    Coverage(#[from] coverage::CoverageError),
    /// A raster file could not be written.
    Tiff(#[from] tiff::TiffError),
    /// A file of outlines could not be written.
    Outlines(String),
}

impl From<&PaperError> for Message {
    fn from(error: &PaperError) -> Self {
        let foreign = |code: &'static str, why: &dyn std::fmt::Display| {
            Message::new(code).message("why", Message::foreign(why))
        };
        match error {
            PaperError::NoMap => Message::new("papers-no-map"),
            PaperError::NothingToRig => Message::new("papers-nothing-to-rig"),
            PaperError::NothingRadiates => Message::new("papers-nothing-radiates"),
            PaperError::NothingToMeasure => Message::new("papers-nothing-to-measure"),
            PaperError::Typeset(messages) => foreign("papers-not-set", &messages.join("; ")),
            PaperError::Words(error) => foreign("office-no-words", error),
            PaperError::Spreadsheet(error) => foreign("papers-no-spreadsheet", error),
            PaperError::Pack(error) => foreign("papers-not-packed", error),
            PaperError::Part(error) => foreign("papers-not-packed", error),
            PaperError::Drawing(why) => Message::new("papers-not-painted").message("why", why.clone()),
            PaperError::Coverage(error) => Message::new("papers-not-drawn").message("why", error),
            PaperError::Tiff(error) => foreign("papers-no-raster", error),
            PaperError::Outlines(why) => foreign("papers-no-outlines", why),
        }
    }
}

words::said_in_english!(PaperError);

impl PaperError {
    /// Whether the station is not far enough for this paper: it is left out, and nothing is wrong.
    pub fn is_not_yet(&self) -> bool {
        matches!(
            self,
            Self::NoMap | Self::NothingToRig | Self::NothingRadiates | Self::NothingToMeasure
        )
    }
}

/// Every paper, in the order they are handed over.
pub fn all() -> &'static [Paper] {
    const fn client(
        file: &'static str,
        (code, says): (&'static str, &'static str),
        format: &'static str,
        media_type: &'static str,
        make: fn(&Book) -> Result<Vec<u8>, PaperError>,
    ) -> Paper {
        Paper {
            file,
            code,
            says,
            format,
            media_type,
            audience: Audience::Client,
            make,
        }
    }
    const SHEET: &str = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";
    const ALL: &[Paper] = &[
        client(
            "offer.pdf",
            ("paper-offer", "paper-offer-says"),
            "PDF",
            "application/pdf",
            offer::pdf,
        ),
        client(
            "bill-of-materials.xlsx",
            ("paper-bill", "paper-bill-says"),
            "XLSX",
            SHEET,
            bill::client,
        ),
        client(
            "air-chain.svg",
            ("paper-chain", "paper-chain-says"),
            "SVG",
            "image/svg+xml",
            chain::file,
        ),
        client(
            "rigging.pdf",
            ("paper-rigging", "paper-rigging-says"),
            "PDF",
            "application/pdf",
            rigging::pdf,
        ),
        client(
            "licence-annex.pdf",
            ("paper-annex", "paper-annex-says"),
            "PDF",
            "application/pdf",
            annex::pdf,
        ),
        client(
            "acceptance.pdf",
            ("paper-acceptance", "paper-acceptance-says"),
            "PDF",
            "application/pdf",
            acceptance::pdf,
        ),
        client(
            "map.png",
            ("paper-map-png", "paper-map-png-says"),
            "PNG",
            "image/png",
            map::plate::png,
        ),
        client(
            "map.tif",
            ("paper-map-tif", "paper-map-tif-says"),
            "GeoTIFF",
            "image/tiff",
            map::geotiff::file,
        ),
        client(
            "map.geojson",
            ("paper-map-geojson", "paper-map-geojson-says"),
            "GeoJSON",
            "application/geo+json",
            map::outlines::geojson,
        ),
        client(
            "map.kml",
            ("paper-map-kml", "paper-map-kml-says"),
            "KML",
            "application/vnd.google-earth.kml+xml",
            map::kml::file,
        ),
        client(
            "places.csv",
            ("paper-places", "paper-places-says"),
            "CSV",
            "text/csv",
            map::places::csv,
        ),
        Paper {
            file: "builders-costs-not-for-the-client.xlsx",
            code: "paper-builder",
            says: "paper-builder-says",
            format: "XLSX",
            media_type: SHEET,
            audience: Audience::Builder,
            make: bill::builder,
        },
    ];
    ALL
}
