//! Briefs on the invented island and short shelves, for the tests of the search.
#![allow(dead_code, reason = "each test takes what it needs")]

use assess::{Case, NoStore};
use coverage::{Control, GroundWorld};
use planner::{Plan, PlanError, Task};
use serde_json::{Value as Json, json};
use station::country::CountryProfile;
use station::{Node, Shelf, Station};

/// A short shelf on which the way into the air has a choice on every axis, and connectors and adapters to join them.
pub const THIRTY: [&str; 30] = [
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

/// A short shelf on which the programme has six ways to the transmitter.
pub const THIRTY_WITH_LINKS: [&str; 30] = [
    "tx-100",
    "tx-300",
    "tx-1000",
    "rg-213",
    "foam-1-2",
    "n-plug-rg213",
    "n-plug-1-2",
    "7-16-plug-1-2",
    "adapter-n-jack-7-16-plug",
    "adapter-7-16-jack-n-plug",
    "splitter-2",
    "dipole-steel",
    "arrester-7-16",
    "arrester-n",
    "earth-kit",
    "hanger",
    "fan",
    "mast-guyed",
    "radio-5g8",
    "radio-7g5",
    "dish-24",
    "dish-29",
    "dish-7g5",
    "codec-ip",
    "modem-mobile",
    "ups-1500",
    "ups-3000",
    "rack-24",
    "rigger-day",
    "commissioning",
];

/// A brief for a mast that stands on a hill, with nothing but a transmitter to put there.
pub fn on_the_hill() -> Json {
    json!({
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
    })
}

/// A brief with what it is judged by.
pub struct Asked {
    file: Node,
    document: Node,
    station: Station,
    country: CountryProfile,
    world: GroundWorld,
    shelf: Shelf,
}

impl Asked {
    /// A brief on a short shelf, one thing of it taken away.
    pub fn of(brief: Json, things: &[&str], without: Option<&str>) -> Asked {
        let mut shelf = folder::shelf::built_in().unwrap();
        shelf
            .items
            .retain(|i| things.contains(&i.id.as_str()) && Some(i.id.as_str()) != without);
        assert_eq!(shelf.items.len(), things.len() - usize::from(without.is_some()));
        Asked::on(Node::from_json(&brief), shelf, "island")
    }

    /// An example on the whole shelf, on ground by its key, with another budget.
    pub fn example(name: &str, ground: &str, budget: &str) -> Asked {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("../../examples")
            .join(name);
        let mut file = folder::StationFile::open(&folder).unwrap().reading.document;
        let budget = station::Edit::set(&file, "brief.budget", budget);
        budget.apply(&mut file).unwrap();
        Asked::on(file, folder::shelf::built_in().unwrap(), ground)
    }

    fn on(file: Node, shelf: Shelf, ground: &str) -> Asked {
        let document = station::assumptions::fill(&file);
        let station = Station::read(&document).unwrap();
        Asked {
            country: folder::country::find(station.country.as_deref().unwrap(), None).unwrap(),
            world: GroundWorld::generated(ground).unwrap(),
            file,
            document,
            station,
            shelf,
        }
    }

    /// What is found wrong with the brief once some edits are made, coverage and people near the antennas left aside.
    pub fn found(&self, edits: &[station::Edit]) -> Vec<assess::finding::Finding> {
        let mut file = self.file.clone();
        for edit in edits {
            edit.apply(&mut file).unwrap();
        }
        let document = station::assumptions::fill(&file);
        let station = Station::read(&document).unwrap();
        let case = Case {
            file: &file,
            document: &document,
            station: &station,
            ..self.case()
        };
        let outcome = assess::evaluate(&case, &assess::Fields::default());
        assess::rules::run(&assess::rules::Look {
            case: &case,
            outcome: &outcome,
        })
    }

    fn case(&self) -> Case<'_> {
        Case {
            file: &self.file,
            document: &self.document,
            station: &self.station,
            shelf: &self.shelf,
            country: &self.country,
            world: &self.world,
            today: station::value::Date::from_unix_days(20_000),
        }
    }

    /// Answered, somebody watching.
    pub fn answered_under(
        &self,
        how: fn(&Task) -> Result<Plan, PlanError>,
        control: &Control,
    ) -> Result<Plan, PlanError> {
        how(&Task {
            case: self.case(),
            store: &NoStore,
            control,
        })
    }

    /// Answered.
    pub fn answered(&self, how: fn(&Task) -> Result<Plan, PlanError>) -> Plan {
        self.answered_under(how, &Control::quiet()).unwrap()
    }
}
