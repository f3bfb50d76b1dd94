//! Where the mast should stand, for the page: hills with their places, and a plane of shares on the map's grid.

use super::picture::grid;
use super::view;
use crate::office::{Assessed, Office};
use assess::masts::{self, Found};
use assess::proofs::coverage::erp_table;
use assess::say::show_number;
use assess::say::signed;
use assess::unit::Unit;
use coverage::{Control, CoverageError, MastCell};
use server::desk::Refusal;
use server::masts::{MastAsk, MastHill, MastPicture, MastPlace, Masts, NO_SHARE};
use station::Edit;
use words::said;

fn typed<Q: std::str::FromStr<Err = quantity::QuantityError>>(
    text: Option<&str>,
) -> Result<Option<Q>, Refusal> {
    let Some(text) = text.map(str::trim).filter(|t| !t.is_empty()) else {
        return Ok(None);
    };
    let read = text.parse::<Q>();
    read.map(Some)
        .map_err(|error| Refusal::new("edit-refused", &error))
}

/// The question of the page as the search takes it: without a licence, the strongest ERP the station has.
fn question(assessed: &Assessed, ask: &MastAsk) -> Result<masts::MastAsk, Refusal> {
    let places = ask.places.as_deref().unwrap_or_default().split(';');
    let first = assessed.outcome.transmission.emissions.first();
    let strongest = || {
        let table = erp_table(first?)?;
        Some(1000.0 * 10f64.powf(table.strongest().2 / 10.0))
    };
    Ok(masts::MastAsk {
        places: places
            .map(|p| p.trim().to_owned())
            .filter(|p| !p.is_empty())
            .collect(),
        erp_w: typed::<quantity::Power>(ask.erp.as_deref())?.map(|p| p.w()),
        mast_m: typed::<quantity::Length>(ask.mast.as_deref())?.map(|m| m.m()),
        usual_erp_w: strongest(),
        ..masts::MastAsk::default()
    })
}

/// Looks for hills and lays the shares on the map's grid.
pub fn picture(
    office: &Office,
    assessed: &Assessed,
    ask: &MastAsk,
    token: &str,
    control: &Control<'_>,
) -> Result<MastPicture, Refusal> {
    let question = question(assessed, ask)?;
    let station = &assessed.station;
    let case = office.case(&assessed.file, &assessed.document, station);
    let found = masts::find(&case, &question, control).map_err(|error| {
        let code = match error {
            masts::MastError::Asked(_) => "not-found",
            masts::MastError::Coverage(CoverageError::Cancelled) => "not-ready",
            masts::MastError::Coverage(_) => "failed",
        };
        Refusal::new(code, error.message())
    })?;
    let emission = station.emissions.first().map(|e| e.tag.as_str());
    let of_map = emission.and_then(|tag| grid(assessed, tag).ok());
    let grid = of_map.unwrap_or(found.masts.grid);
    let language = view::language(assessed);
    let locale = language.locale();
    let (west, south, east, north) = grid.edges();
    let (width, height) = (grid.width() as usize, grid.height() as usize);
    let masts = Masts {
        token: token.to_owned(),
        says: said(&found.head(locale), language),
        notes: found.notes().iter().map(|note| said(note, language)).collect(),
        best: found
            .masts
            .best
            .iter()
            .enumerate()
            .map(|(i, hill)| told(assessed, &found, &grid, i, hill))
            .collect(),
        people: show_number(found.people_total(), Unit::People, locale),
        width,
        height,
        west_deg: west,
        north_deg: north,
        step_lon_deg: (east - west) / width as f64,
        step_lat_deg: (north - south) / height as f64,
        raster: address(ask, token),
    };
    Ok(MastPicture {
        share_hundredths: shares(&found, &grid),
        masts,
    })
}

/// The same question again, with the token so that no older answer is kept for it.
fn address(ask: &MastAsk, token: &str) -> String {
    let parts = [("places", &ask.places), ("erp", &ask.erp), ("mast", &ask.mast)];
    let mut out = String::from("api/masts/raster?");
    for (name, value) in parts {
        if let Some(value) = value {
            out += &format!("{name}={}&", escaped(value));
        }
    }
    out + "of=" + token
}

/// A value of a query: all but letters, digits and `-._~` by their bytes (RFC 3986, § 2.1).
fn escaped(text: &str) -> String {
    text.bytes()
        .map(|b| match b {
            b'A'..=b'Z' | b'a'..=b'z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' => char::from(b).to_string(),
            other => format!("%{other:02X}"),
        })
        .collect()
}

/// The share of the cell below the middle of each cell of the map.
fn shares(found: &Found, onto: &terrain::Grid) -> Vec<i16> {
    let total = found.people_total();
    let of = &found.masts;
    let share = |at: terrain::Position| {
        let (x, y) = of.grid.locate(at)?;
        let (col, row) = (x.round(), y.round());
        let inside =
            col >= 0.0 && row >= 0.0 && col < f64::from(of.grid.width()) && row < f64::from(of.grid.height());
        let people = inside.then(|| of.people[row as usize * of.grid.width() as usize + col as usize])?;
        (!people.is_nan() && total > 0.0).then(|| (1e4 * f64::from(people) / total).round() as i16)
    };
    let cells = (0..onto.height()).flat_map(|row| (0..onto.width()).map(move |col| (col, row)));
    cells
        .map(|(col, row)| onto.position(col, row).and_then(share).unwrap_or(NO_SHARE))
        .collect()
}

fn told(assessed: &Assessed, found: &Found, grid: &terrain::Grid, i: usize, hill: &MastCell) -> MastHill {
    let language = view::language(assessed);
    let locale = language.locale();
    let at = quantity::Position::from_deg(hill.position.lat_deg(), hill.position.lon_deg()).ok();
    let (x, y) = grid.locate(hill.position).unwrap_or((0.0, 0.0));
    let places = found.places.iter().zip(&hill.margin_db);
    MastHill {
        rank: i + 1,
        name: at.map(|at| at.show_degrees(4)).unwrap_or_default(),
        x,
        y,
        ground: show_number(hill.ground_m, Unit::Metre, locale),
        people: show_number(hill.people, Unit::People, locale),
        share: hill.people / found.people_total().max(f64::MIN_POSITIVE),
        reaches: said(&found.reaches(hill), language),
        places: places
            .map(|(place, margin_db)| MastPlace {
                name: place.name.clone(),
                in_hand: margin_db.map(|db| signed(db, Unit::Decibel, locale)),
                short: margin_db.is_none_or(|db| db < 0.0),
            })
            .collect(),
        edits: at.and_then(|at| moved(assessed, at)).into_iter().collect(),
    }
}

/// The edit that puts the site of the first emission's antenna elsewhere.
fn moved(assessed: &Assessed, to: quantity::Position) -> Option<Edit> {
    let station = &assessed.station;
    let antenna = station.antenna(station.emissions.first()?.antenna.as_deref()?)?;
    let site = station.site(&antenna.site)?;
    let path = format!("sites.{}.position", site.tag);
    Some(Edit::set(&assessed.file, path, to.show_degrees(5)))
}
