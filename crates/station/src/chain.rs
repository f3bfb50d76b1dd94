//! The radio-frequency chain of one emission, walked as a graph from the transmitter to its antenna.

use crate::design::{Antenna, Cable, Emission, Item, ItemStatus};
use crate::model::Station;
use crate::shelf::{Connector, Direction, ItemKind, Port, Shelf, ShelfItem, Signal};

/// The chain, transmitter first, antenna last.
#[derive(Debug, Clone, PartialEq)]
pub struct Chain<'a> {
    /// What the power goes through, in order.
    pub links: Vec<Link<'a>>,
    /// Where two things are joined: one fewer than the links.
    pub joints: Vec<Joint<'a>>,
}

/// One thing the power goes through.
#[derive(Debug, Clone, PartialEq)]
pub struct Link<'a> {
    /// What it is.
    pub part: Part<'a>,
    /// Its shelf item; `None` when the shelf has none of that id.
    pub shelf: Option<&'a ShelfItem>,
}

/// What a link of the chain is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Part<'a> {
    /// The transmitter, a filter, an arrester, a splitter.
    Item(&'a Item),
    /// A feeder, a jumper, the tails to the bays.
    Cable(&'a Cable),
    /// The bays.
    Antenna(&'a Antenna),
}

impl Part<'_> {
    /// Its tag.
    pub fn tag(&self) -> &str {
        match self {
            Part::Item(item) => &item.tag,
            Part::Cable(cable) => &cable.tag,
            Part::Antenna(antenna) => &antenna.tag,
        }
    }
}

/// Where two links meet.
#[derive(Debug, Clone, PartialEq)]
pub struct Joint<'a> {
    /// How many alike: one, or as many as tails.
    pub count: u32,
    /// The connector of the side nearer the transmitter.
    pub near: Option<Connector>,
    /// The connector of the side nearer the antenna.
    pub far: Option<Connector>,
    /// How they are joined.
    pub mating: Mating<'a>,
}

/// How the two sides of a joint go together.
#[derive(Debug, Clone, PartialEq)]
pub enum Mating<'a> {
    /// They mate; what is fitted to a cable's end comes from the shelf.
    Direct {
        /// Connectors fitted to cable ends here.
        fitted: Vec<&'a ShelfItem>,
    },
    /// They mate through an adapter.
    Adapter {
        /// Connectors fitted to cable ends here.
        fitted: Vec<&'a ShelfItem>,
        /// The adapter.
        adapter: &'a ShelfItem,
    },
    /// Nothing on the shelf joins them.
    Impossible,
    /// A side does not say its connector.
    NotKnown,
}

/// Why a chain could not be walked.
#[derive(Debug, Clone, PartialEq)]
pub enum ChainFault {
    /// The emission names no transmitter.
    NoTransmitter {
        /// Tag of the emission.
        emission: String,
    },
    /// The emission names no antenna.
    NoAntenna {
        /// Tag of the emission.
        emission: String,
    },
    /// No cable leaves a thing.
    OpenEnd {
        /// Tag of the thing.
        tag: String,
    },
    /// Cables run in a circle.
    Circle {
        /// Tag where it was noticed.
        tag: String,
    },
    /// The cables end at an antenna that is not the emission's.
    OtherAntenna {
        /// Where they end.
        found: String,
        /// Where they should.
        expected: String,
    },
}

/// Walks the chain of an emission.
///
/// Removed items and cables do not count. Where an emission names a transmitter and antenna and a cable run joins
/// them, every joint is looked at: connectors that a cable end needs are taken from the shelf, adapters added.
///
/// # Errors
/// [`ChainFault`] when no whole run of cables leads to the emission's antenna.
pub fn walk<'a>(
    station: &'a Station,
    shelf: &'a Shelf,
    emission: &Emission,
) -> Result<Chain<'a>, ChainFault> {
    let fault = |make: fn(String) -> ChainFault| make(emission.tag.clone());
    let start = emission
        .transmitter
        .as_deref()
        .and_then(|tag| station.item(tag))
        .ok_or_else(|| fault(|emission| ChainFault::NoTransmitter { emission }))?;
    let goal = emission
        .antenna
        .as_deref()
        .and_then(|tag| station.antenna(tag))
        .ok_or_else(|| fault(|emission| ChainFault::NoAntenna { emission }))?;

    let mut links = vec![link(shelf, Part::Item(start), &start.shelf)];
    let mut seen = vec![start.tag.as_str()];
    loop {
        let here = *seen.last().expect("the walk starts with the transmitter");
        let cable = station
            .cables
            .iter()
            .filter(|c| c.status.unwrap_or(ItemStatus::New).is_present())
            .find(|c| end_tag(&c.from) == here && !leads_to_reserve(station, c))
            .ok_or_else(|| ChainFault::OpenEnd { tag: here.to_owned() })?;
        links.push(link(shelf, Part::Cable(cable), &cable.shelf));
        let next = end_tag(&cable.to);
        if let Some(antenna) = station.antenna(next) {
            if antenna.tag != goal.tag {
                return Err(ChainFault::OtherAntenna {
                    found: antenna.tag.clone(),
                    expected: goal.tag.clone(),
                });
            }
            links.push(link(
                shelf,
                Part::Antenna(antenna),
                antenna.element.as_deref().unwrap_or(""),
            ));
            break;
        }
        if seen.contains(&next) {
            return Err(ChainFault::Circle { tag: next.to_owned() });
        }
        let item = station
            .item(next)
            .ok_or_else(|| ChainFault::OpenEnd { tag: here.to_owned() })?;
        links.push(link(shelf, Part::Item(item), &item.shelf));
        seen.push(&item.tag);
    }
    let joints = (0..links.len() - 1)
        .map(|i| join(shelf, &links[i], &links[i + 1]))
        .collect();
    Ok(Chain { links, joints })
}

fn leads_to_reserve(station: &Station, cable: &Cable) -> bool {
    station
        .item(end_tag(&cable.to))
        .is_some_and(|i| i.reserve == Some(true))
}

/// The tag of a cable's end, without its port.
pub fn end_tag(end: &str) -> &str {
    end.split(':').next().unwrap_or(end)
}

fn port_name(end: &str) -> Option<&str> {
    end.split_once(':').map(|(_, port)| port)
}

fn link<'a>(shelf: &'a Shelf, part: Part<'a>, id: &str) -> Link<'a> {
    Link {
        part,
        shelf: shelf.get(id),
    }
}

/// The radio-frequency port of a thing on one side, by name where the cable names it.
fn rf_port<'a>(item: &'a ShelfItem, direction: Direction, name: Option<&str>) -> Option<&'a Port> {
    item.ports.iter().find(|p| {
        p.signal == Signal::Rf
            && match name {
                Some(name) => p.name == name,
                None => p.direction == direction || p.direction == Direction::Both,
            }
    })
}

fn join<'a>(shelf: &'a Shelf, near: &Link<'a>, far: &Link<'a>) -> Joint<'a> {
    match (near.part, far.part) {
        (Part::Cable(cable), _) => {
            let other = far
                .shelf
                .and_then(|s| rf_port(s, Direction::In, port_name(&cable.to)));
            let port = other.and_then(|p| p.connector.clone());
            let chosen = cable.to_connector.as_deref().and_then(|id| shelf.get(id));
            let (fitted, mating) = fit(shelf, near.shelf, chosen, port.as_ref());
            Joint {
                count: cable.count.unwrap_or(1),
                near: fitted,
                far: port,
                mating,
            }
        }
        (_, Part::Cable(cable)) => {
            let other = near
                .shelf
                .and_then(|s| rf_port(s, Direction::Out, port_name(&cable.from)));
            let port = other.and_then(|p| p.connector.clone());
            let chosen = cable.from_connector.as_deref().and_then(|id| shelf.get(id));
            let (fitted, mating) = fit(shelf, far.shelf, chosen, port.as_ref());
            Joint {
                count: cable.count.unwrap_or(1),
                near: port,
                far: fitted,
                mating,
            }
        }
        _ => Joint {
            count: 1,
            near: None,
            far: None,
            mating: Mating::NotKnown,
        },
    }
}

/// The connector of a connector item: the side that faces away from the cable.
fn face(connector: &ShelfItem) -> Option<&Connector> {
    connector.ports.iter().find_map(|p| p.connector.as_ref())
}

/// What goes on a cable's end so that it meets `port`, with an adapter where nothing mates directly.
fn fit<'a>(
    shelf: &'a Shelf,
    cable: Option<&'a ShelfItem>,
    chosen: Option<&'a ShelfItem>,
    port: Option<&Connector>,
) -> (Option<Connector>, Mating<'a>) {
    let Some(port) = port else {
        return (chosen.and_then(face).cloned(), Mating::NotKnown);
    };
    if let Some(chosen) = chosen {
        let Some(own) = face(chosen) else {
            return (None, Mating::NotKnown);
        };
        let mating = match (own.mates(port), adapter(shelf, own, port)) {
            (true, _) => Mating::Direct { fitted: vec![chosen] },
            (false, Some(adapter)) => Mating::Adapter {
                fitted: vec![chosen],
                adapter,
            },
            (false, None) => Mating::Impossible,
        };
        return (Some(own.clone()), mating);
    }
    let Some(line) = cable else {
        return (None, Mating::NotKnown);
    };
    let fitting: Vec<(&Connector, &ShelfItem)> = shelf
        .of(ItemKind::Connector)
        .filter(|c| c.for_lines.contains(&line.id))
        .filter_map(|c| face(c).map(|own| (own, c)))
        .collect();
    if let Some((own, item)) = fitting.iter().find(|(own, _)| own.mates(port)) {
        return (Some((*own).clone()), Mating::Direct { fitted: vec![item] });
    }
    for (own, item) in &fitting {
        if let Some(adapter) = adapter(shelf, own, port) {
            return (
                Some((*own).clone()),
                Mating::Adapter {
                    fitted: vec![item],
                    adapter,
                },
            );
        }
    }
    (fitting.first().map(|(own, _)| (*own).clone()), Mating::Impossible)
}

/// An adapter with one end for each side.
fn adapter<'a>(shelf: &'a Shelf, one: &Connector, other: &Connector) -> Option<&'a ShelfItem> {
    shelf.of(ItemKind::Adapter).find(|a| {
        let ends: Vec<&Connector> = a.ports.iter().filter_map(|p| p.connector.as_ref()).collect();
        matches!(ends[..], [x, y] if (x.mates(one) && y.mates(other)) || (y.mates(one) && x.mates(other)))
    })
}
