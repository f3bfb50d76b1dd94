//! The bounded search is held to the exhaustive one, on a shelf of thirty things.
#![allow(clippy::unwrap_used, reason = "a test stops where its ground gives way")]

use assess::{Case, NoStore};
use coverage::{Control, GroundWorld};
use planner::{Pick, Plan, Task, exhaustive, plan};
use serde_json::json;
use station::{Node, Shelf, Station};

/// The things on the short shelf: every axis has a choice, and connectors and adapters to join them.
const THIRTY: [&str; 30] = [
    "tx-100",
    "tx-300",
    "tx-1000",
    "rg-213",
    "foam-1-4",
    "foam-1-2",
    "foam-7-8",
    "n-plug-rg213",
    "n-plug-1-4",
    "7-16-plug-1-4",
    "n-plug-1-2",
    "7-16-plug-1-2",
    "7-16-plug-7-8",
    "adapter-n-jack-7-16-plug",
    "adapter-7-16-jack-n-plug",
    "splitter-2",
    "splitter-4",
    "dipole-steel",
    "dipole-aluminium",
    "arrester-7-16",
    "arrester-n",
    "earth-kit",
    "hanger",
    "ups-1500",
    "ups-3000",
    "rigger-day",
    "install-day",
    "commissioning",
    "spares-small",
    "training",
];

fn shelf(without: Option<&str>) -> Shelf {
    let whole = folder::shelf::built_in().unwrap();
    let mut shelf = Shelf { items: Vec::new() };
    shelf.items = whole
        .items
        .into_iter()
        .filter(|i| THIRTY.contains(&i.id.as_str()) && Some(i.id.as_str()) != without)
        .collect();
    assert_eq!(shelf.items.len(), 30 - usize::from(without.is_some()));
    shelf
}

fn brief() -> Node {
    Node::from_json(&json!({
        "format": 1, "name": "On thirty things", "country": "generic-50us",
        "ground": { "generated": "demo island" },
        "brief": { "budget": "30000 EUR", "wanted": [{ "tag": "W1", "place": "VESSABY", "service": "mono" }] },
        "places": [{ "tag": "VESSABY", "name": "Vessaby", "position": "43.42123° N 35.37035° W", "surroundings": "rural" }],
        "sites": [{
            "tag": "HILL", "name": "Hill", "position": "43.43881° N 35.64098° W",
            "mast": { "status": "existing", "kind": "guyed lattice", "height": "48 m above ground", "width": "0.3 m" },
        }],
        "emissions": [{
            "tag": "E1", "frequency": "104.4 MHz",
            "licence": { "erp": "400 W ERP total", "polarisation": "vertical", "height": "42 m above ground" },
        }],
    }))
}

fn answered(shelf: &Shelf, how: fn(&Task) -> Result<Plan, planner::PlanError>) -> Plan {
    let file = brief();
    let document = station::assumptions::fill(&file);
    let station = Station::read(&document).unwrap();
    let country = folder::country::find("generic-50us", None).unwrap();
    let world = GroundWorld::generated("island").unwrap();
    let control = Control::quiet();
    let task = Task {
        case: Case {
            file: &file,
            document: &document,
            station: &station,
            shelf,
            country: &country,
            world: &world,
            today: station::value::Date::from_unix_days(20_000),
        },
        store: &NoStore,
        control: &control,
    };
    how(&task).unwrap()
}

/// The definition of exactness: no outside source is needed, every design was looked at.
#[test]
fn the_choice_equals_exhaustive_assessment_and_moves_when_the_winner_is_gone() {
    let whole = shelf(None);
    let (quick, slow) = (answered(&whole, plan), answered(&whole, exhaustive));
    assert_eq!(quick.looked_at.designs, slow.looked_at.evaluated);
    assert!(quick.looked_at.evaluated < slow.looked_at.evaluated);
    assert!(quick.chosen.holds);
    assert_eq!(quick.chosen.choice, slow.chosen.choice);
    assert_eq!(quick.chosen.trial.price(), slow.chosen.trial.price());

    let Pick::Buy(winner) = &quick.chosen.choice.transmitter else {
        panic!("nothing was there to keep");
    };
    let moved = answered(&shelf(Some(winner)), plan);
    assert_ne!(moved.chosen.choice.transmitter, quick.chosen.choice.transmitter);
    assert!(moved.chosen.trial.capital() > quick.chosen.trial.capital());
}
