//! The whole station.

use crate::brief::Brief;
use crate::design::{Antenna, Cable, Emission, Hop, Item, ItemStatus, Room, Variant};
use crate::document::Node;
use crate::exchange::Exchange;
use crate::offer::Terms;
use crate::place::{Ground, Place, Site, Study};
use crate::read::{Fault, Faults, FromNode};
use crate::value::Date;
use quantity::Currency;

crate::record! {
    /// A station: what is wanted, where it stands, what is chosen. One with nothing chosen is a brief.
    pub struct Station {
        /// Version of this file's form; 1.
        pub format: u32,
        /// Its name.
        pub name: String,
        /// Everything in it is invented.
        pub invented: Option<bool>,
        /// The client.
        pub client: Option<String>,
        /// The country profile: `generic-50us` or `generic-75us`, or one of your own.
        pub country: Option<String>,
        /// Three-letter currency of its prices, ISO 4217.
        pub currency: Option<String>,
        /// What other currencies are worth in it, for price lists that are in them.
        pub exchange: Vec<Exchange>,
        /// Language of its papers.
        pub language: Option<String>,
        /// Revision of the design.
        pub revision: Option<u32>,
        /// The day of this revision.
        pub date: Option<Date>,
        /// The terms on which it is offered.
        pub offer: Terms,
        /// The ground everything stands on.
        pub ground: Ground,
        /// How coverage is studied.
        pub study: Study,
        /// What is wanted.
        pub brief: Brief,
        /// Places that may be wanted.
        pub places: Vec<Place>,
        /// Sites.
        pub sites: Vec<Site>,
        /// Programmes on their frequencies.
        pub emissions: Vec<Emission>,
        /// Antennas.
        pub antennas: Vec<Antenna>,
        /// The way from studio to transmitter.
        pub hops: Vec<Hop>,
        /// Rooms.
        pub rooms: Vec<Room>,
        /// Things.
        pub items: Vec<Item>,
        /// Cables.
        pub cables: Vec<Cable>,
        /// Other designs, as changes to this one.
        pub variants: Vec<Variant>,
    }
}

impl Station {
    /// Reads a station from a document: all complaints at once.
    ///
    /// # Errors
    /// Every fault found, in the order of the file.
    pub fn read(document: &Node) -> Result<Station, Vec<Fault>> {
        let mut faults = Faults::default();
        let station = Station::from_node(document, "", &mut faults);
        crate::references::check(document, &mut faults);
        crate::exchange::check(document, &mut faults);
        faults.0.sort_by_key(|f| f.span.start);
        match station {
            Some(station) if faults.0.is_empty() => Ok(station),
            _ => Err(faults.0),
        }
    }

    /// The currency everything is counted in: as stated, else the budget's, else the euro.
    pub fn counted_in(&self) -> Currency {
        let stated = self.currency.as_deref().and_then(Currency::from_code);
        let budget = self.brief.budget.value().map(|b| b.currency);
        stated.or(budget).unwrap_or(Currency::EUR)
    }

    /// The site with a tag.
    pub fn site(&self, tag: &str) -> Option<&Site> {
        self.sites.iter().find(|s| s.tag == tag)
    }
    /// The first hop of the programme's main way.
    pub fn main_hop(&self) -> Option<&Hop> {
        self.hops.iter().find(|h| h.is_main())
    }
    /// The antenna with a tag.
    pub fn antenna(&self, tag: &str) -> Option<&Antenna> {
        self.antennas.iter().find(|a| a.tag == tag)
    }
    /// The emission with a tag.
    pub fn emission(&self, tag: &str) -> Option<&Emission> {
        self.emissions.iter().find(|e| e.tag == tag)
    }
    /// The item with a tag.
    pub fn item(&self, tag: &str) -> Option<&Item> {
        self.items.iter().find(|i| i.tag == tag)
    }
    /// The place with a tag.
    pub fn place(&self, tag: &str) -> Option<&Place> {
        self.places.iter().find(|p| p.tag == tag)
    }
    /// The room with a tag.
    pub fn room(&self, tag: &str) -> Option<&Room> {
        self.rooms.iter().find(|r| r.tag == tag)
    }
    /// Whether anything is chosen yet. What is only to be taken away is no design.
    pub fn has_design(&self) -> bool {
        let stays = |status: Option<ItemStatus>| status.is_none_or(|s| s.is_present());
        self.items.iter().any(|i| stays(i.status)) || self.cables.iter().any(|c| stays(c.status))
    }

    /// The JSON Schema of the station file.
    pub fn schema() -> serde_json::Value {
        let schema = schemars::generate::SchemaSettings::draft2020_12()
            .into_generator()
            .into_root_schema_for::<Station>();
        schema.to_value()
    }
}
