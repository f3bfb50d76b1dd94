//! People at the receivers of a lattice.

use terrain::{Crs, People, Place, geodesic};

use crate::lattice::{Lattice, Polar};
use crate::world::World;

/// Where the people of a coverage came from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PeopleSource {
    /// A raster of counts.
    Cells,
    /// No raster: the counts of named places, each spread over a square of [`PEOPLE_PER_KM2`].
    Places,
    /// Neither: nobody can be counted.
    Nobody,
}

/// Density at which a place without a raster is spread, people per km². A small town's order of magnitude (mark I).
pub const PEOPLE_PER_KM2: f64 = 2000.0;

/// Who lives at which receiver. Inside + outside is the total of the cells given, to rounding.
#[derive(Debug, Clone, PartialEq)]
pub struct Listeners {
    pub(crate) source: PeopleSource,
    /// Receiver and people, by rising receiver.
    pub(crate) at: Vec<(u32, f32)>,
    pub(crate) inside: f64,
    pub(crate) outside: f64,
}

impl Listeners {
    pub(crate) fn nobody() -> Self {
        Self {
            source: PeopleSource::Nobody,
            at: Vec::new(),
            inside: 0.0,
            outside: 0.0,
        }
    }

    /// Where the counts came from.
    pub fn source(&self) -> PeopleSource {
        self.source
    }

    /// Receivers with people.
    pub fn len(&self) -> usize {
        self.at.len()
    }

    /// True with nobody inside.
    pub fn is_empty(&self) -> bool {
        self.at.is_empty()
    }

    /// People within the radius.
    pub fn inside(&self) -> f64 {
        self.inside
    }

    /// People of the same raster or places beyond the radius.
    pub fn outside(&self) -> f64 {
        self.outside
    }

    /// Receiver and people there, by rising receiver.
    pub fn iter(&self) -> impl Iterator<Item = (usize, f64)> + '_ {
        self.at.iter().map(|&(i, n)| (i as usize, f64::from(n)))
    }
}

/// A patch of ground with people on it.
struct Patch {
    count: f64,
    /// Middle and two sides, metres east and north of the site on the azimuthal equidistant plane.
    middle: (f64, f64),
    across: (f64, f64),
    down: (f64, f64),
}

/// People of a world at the receivers of a lattice.
///
/// A cell is cut into equal parts no wider than the study step, at most 12 × 12; each part belongs to the nearest receiver.
/// Nobody lives on water: a cell's people are on its parts on land, where it has any.
/// `wet` tells which receivers stand on water.
pub(crate) fn on_lattice(world: &dyn World, lattice: &Lattice, wet: impl Fn(usize) -> bool) -> Listeners {
    let mut out = match world.people() {
        Some(people) => spread(lattice, wet, cells(lattice, people), PeopleSource::Cells),
        None => spread(lattice, wet, towns(lattice, world.places()), PeopleSource::Places),
    };
    if out.inside + out.outside == 0.0 {
        out.source = PeopleSource::Nobody;
    }
    out
}

fn spread(
    lattice: &Lattice,
    wet: impl Fn(usize) -> bool,
    patches: impl Iterator<Item = Patch>,
    source: PeopleSource,
) -> Listeners {
    let mut found: Vec<(u32, f64)> = Vec::new();
    let (mut outside, mut parts) = (0.0, Vec::new());
    for patch in patches {
        parts_of(&patch, lattice, &mut parts);
        let dry = parts.iter().filter(|p| !p.is_some_and(&wet)).count();
        let each = patch.count / if dry > 0 { dry } else { parts.len() } as f64;
        for part in &parts {
            match part {
                Some(index) if dry > 0 && wet(*index) => {}
                Some(index) => found.push((*index as u32, each)),
                None => outside += each,
            }
        }
    }
    // Stable, so that sums come in the order of the cells whatever the machine.
    found.sort_by_key(|&(index, _)| index);
    let inside = found.iter().map(|&(_, n)| n).sum();
    Listeners {
        source,
        at: merged(&found),
        inside,
        outside,
    }
}

fn merged(found: &[(u32, f64)]) -> Vec<(u32, f32)> {
    found
        .chunk_by(|a, b| a.0 == b.0)
        .map(|same| (same[0].0, same.iter().map(|&(_, n)| n).sum::<f64>() as f32))
        .collect()
}

fn parts_of(patch: &Patch, lattice: &Lattice, out: &mut Vec<Option<usize>>) {
    let side_m = patch
        .across
        .0
        .hypot(patch.across.1)
        .max(patch.down.0.hypot(patch.down.1));
    let n = ((side_m / lattice.step_m()).ceil() as u32).clamp(1, 12);
    out.clear();
    for i in 0..n * n {
        let share = |k: u32| (f64::from(k) + 0.5) / f64::from(n) - 0.5;
        let (u, v) = (share(i % n), share(i / n));
        let x = patch.middle.0 + u * patch.across.0 + v * patch.down.0;
        let y = patch.middle.1 + u * patch.across.1 + v * patch.down.1;
        out.push(lattice.nearest(Polar {
            azimuth_deg: geodesic::compass_deg(x.atan2(y).to_degrees()),
            distance_m: x.hypot(y),
        }));
    }
}

fn cells<'a>(lattice: &'a Lattice, people: &'a People) -> impl Iterator<Item = Patch> + 'a {
    let grid = people.grid();
    let (step_x, step_y) = grid.steps();
    let width = grid.width() as usize;
    people
        .counts()
        .iter()
        .enumerate()
        .filter(|(_, count)| **count > 0.0)
        .filter_map(move |(index, &count)| {
            let (x, y) = grid.xy((index % width) as u32, (index / width) as u32);
            patch(lattice, grid.crs(), (x, y), (step_x, step_y), count)
        })
}

fn patch(lattice: &Lattice, crs: Crs, (x, y): (f64, f64), step: (f64, f64), count: f64) -> Option<Patch> {
    let at = |dx: f64, dy: f64| Some(lattice.plane(crs.unproject(x + dx * step.0, y + dy * step.1)?));
    let middle = at(0.0, 0.0)?;
    if middle.0.hypot(middle.1) > 1200.0 * lattice.radius_km() + 50_000.0 {
        // Far outside: its shape does not matter.
        return Some(Patch {
            count,
            middle,
            across: (0.0, 0.0),
            down: (0.0, 0.0),
        });
    }
    let (east, south) = (at(0.5, 0.0)?, at(0.0, -0.5)?);
    let side = |end: (f64, f64)| (2.0 * (end.0 - middle.0), 2.0 * (end.1 - middle.1));
    Some(Patch {
        count,
        middle,
        across: side(east),
        down: side(south),
    })
}

fn towns<'a>(lattice: &'a Lattice, places: &'a [Place]) -> impl Iterator<Item = Patch> + 'a {
    places.iter().filter_map(move |place| {
        let count = place.people.filter(|n| *n > 0.0)?;
        let side_m = (count / PEOPLE_PER_KM2).sqrt() * 1000.0;
        Some(Patch {
            count,
            middle: lattice.plane(place.position),
            across: (side_m, 0.0),
            down: (0.0, -side_m),
        })
    })
}
