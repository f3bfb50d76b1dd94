//! Tags that name nothing: every one a complaint with its place.

use crate::document::{Node, Span};
use crate::model::Station;
use crate::read::{Faults, nearest};

/// Checks that each tag a station mentions is there.
pub fn check(station: &Station, document: &Node, faults: &mut Faults) {
    if station.format != 1 {
        let what = format!("`{}`: this program reads format 1", station.format);
        faults.add(
            span(document, "format"),
            "format",
            what,
            Some("write `format = 1`".into()),
        );
    }
    let mut look = Look { document, faults };
    let sites: Vec<&str> = station.sites.iter().map(|s| s.tag.as_str()).collect();
    let rooms: Vec<&str> = station.rooms.iter().map(|r| r.tag.as_str()).collect();
    let places: Vec<&str> = station.places.iter().map(|p| p.tag.as_str()).collect();
    let antennas: Vec<&str> = station.antennas.iter().map(|a| a.tag.as_str()).collect();
    let items: Vec<&str> = station.items.iter().map(|i| i.tag.as_str()).collect();
    let somewhere: Vec<&str> = sites.iter().chain(&rooms).copied().collect();
    let ends: Vec<&str> = items.iter().chain(&antennas).copied().collect();

    for wanted in &station.brief.wanted {
        if let Some(place) = &wanted.place {
            look.up(
                place,
                &places,
                "place",
                format!("brief.wanted.{}.place", wanted.tag),
            );
        }
    }
    for emission in &station.emissions {
        if let Some(antenna) = &emission.antenna {
            look.up(
                antenna,
                &antennas,
                "antenna",
                format!("emissions.{}.antenna", emission.tag),
            );
        }
        if let Some(transmitter) = &emission.transmitter {
            look.up(
                transmitter,
                &items,
                "item",
                format!("emissions.{}.transmitter", emission.tag),
            );
        }
        for (i, condition) in emission.licence.conditions.iter().enumerate() {
            if let Some(place) = &condition.place {
                let path = format!("emissions.{}.licence.conditions.{i}.place", emission.tag);
                look.up(place, &places, "place", path);
            }
        }
    }
    for antenna in &station.antennas {
        look.up(
            &antenna.site,
            &sites,
            "site",
            format!("antennas.{}.site", antenna.tag),
        );
        if let Some(splitter) = &antenna.splitter {
            look.up(
                splitter,
                &items,
                "item",
                format!("antennas.{}.splitter", antenna.tag),
            );
        }
    }
    for hop in &station.hops {
        look.up(&hop.from, &sites, "site", format!("hops.{}.from", hop.tag));
        look.up(&hop.to, &sites, "site", format!("hops.{}.to", hop.tag));
    }
    for room in &station.rooms {
        look.up(&room.site, &sites, "site", format!("rooms.{}.site", room.tag));
    }
    for item in &station.items {
        if let Some(place) = &item.place {
            look.up(
                place,
                &somewhere,
                "site or room",
                format!("items.{}.place", item.tag),
            );
        }
    }
    for cable in &station.cables {
        for (key, end) in [("from", &cable.from), ("to", &cable.to)] {
            let tag = end.split(':').next().unwrap_or(end);
            look.up(
                tag,
                &ends,
                "item or antenna",
                format!("cables.{}.{key}", cable.tag),
            );
        }
    }
}

struct Look<'a> {
    document: &'a Node,
    faults: &'a mut Faults,
}

impl Look<'_> {
    fn up(&mut self, tag: &str, known: &[&str], what: &str, path: String) {
        if known.contains(&tag) {
            return;
        }
        let help = match nearest(tag, known) {
            Some(near) => format!("did you mean `{near}`?"),
            None if known.is_empty() => format!("the file has no {what} yet"),
            None => format!("known are {}", known.join(", ")),
        };
        self.faults.add(
            span(self.document, &path),
            &path,
            format!("no {what} has the tag `{tag}`"),
            Some(help),
        );
    }
}

fn span(document: &Node, path: &str) -> Span {
    document.at(path).map(|n| n.span).unwrap_or_default()
}
