//! Decodes raster files for a comparison with another reader: `decode FILE POINTS` prints, for every line `lat lon` of POINTS, the
//! nearest sample, the bilinear value, and x and y in the file's coordinate system; `-` where there is none.

use std::io::BufReader;
use std::sync::Arc;

use terrain::mosaic::{Cursor, Lookup};
use terrain::source::ReadSeek;
use terrain::{Mosaic, Position, Tile, geotiff, hgt};

fn main() -> std::process::ExitCode {
    match decode() {
        Ok(()) => std::process::ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            std::process::ExitCode::from(2)
        }
    }
}

fn decode() -> Result<(), Box<dyn std::error::Error>> {
    let mut args = std::env::args().skip(1);
    let (Some(path), Some(points)) = (args.next(), args.next()) else {
        return Err("expected a raster file and a file of points".into());
    };
    let file = path.clone();
    let open: Arc<dyn terrain::source::OpenTile> =
        Arc::new(move || Ok(Box::new(BufReader::new(std::fs::File::open(&file)?)) as Box<dyn ReadSeek>));
    let raster = if path.contains(".hgt") {
        hgt::raster(&path, open)?
    } else {
        geotiff::raster(open)?
    };
    let crs = raster.grid().crs();
    let mosaic = Mosaic::new(vec![Tile {
        name: path,
        raster: Arc::new(raster),
    }]);
    let mut cursor = Cursor::default();
    for line in std::fs::read_to_string(points)?.lines() {
        let (lat, lon) = line.split_once(' ').ok_or("expected `lat lon`")?;
        let position = Position::new(lat.parse()?, lon.parse()?)?;
        let said = |lookup: Lookup| match lookup {
            Lookup::Value(value) => Ok(format!("{value:.6}")),
            Lookup::Void => Ok("void".to_owned()),
            Lookup::NoTile => Ok("-".to_owned()),
            Lookup::Damaged(tile, error) => Err(format!("{tile}: {error}")),
        };
        let nearest = said(mosaic.nearest(&mut cursor, position))?;
        let bilinear = said(mosaic.bilinear(&mut cursor, position))?;
        let xy = crs
            .project(position)
            .map_or("- -".to_owned(), |(x, y)| format!("{x:.9} {y:.9}"));
        println!("{nearest} {bilinear} {xy}");
    }
    Ok(())
}
