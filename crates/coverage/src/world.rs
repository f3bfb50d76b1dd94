//! The ground, its people and its places, as the coverage of a station wants to ask for them.

use terrain::ground::GroundError;
use terrain::{ClutterMode, ClutterTable, Ground, HeightKind, People, Place, Position, Profile, Spot};

use crate::feed::{Feed, Named};

/// Everything outside the station that decides who hears it: heights, water, land cover, people, places.
///
/// Asked from many threads at once.
pub trait World: Send + Sync {
    /// Samples at whole multiples of `step_m` along the geodesic that leaves `from` at `azimuth_deg`, into reused buffers.
    ///
    /// # Errors
    /// [`GroundError`]; a missing tile is no error here: see [`Profile::usable_len`].
    fn radial_into(
        &self,
        from: Position,
        azimuth_deg: f64,
        length_km: f64,
        step_m: f64,
        profile: &mut Profile,
    ) -> Result<(), GroundError>;

    /// The path between two positions in equal steps of at most `step_m`.
    ///
    /// # Errors
    /// [`GroundError`].
    fn path(&self, from: Position, to: Position, step_m: f64) -> Result<Profile, GroundError>;

    /// Everything known at one position.
    ///
    /// # Errors
    /// [`GroundError`].
    fn spot(&self, at: Position) -> Result<Spot, GroundError>;

    /// Land-cover classes and their clutter heights.
    fn clutter_table(&self) -> &ClutterTable;

    /// What becomes of clutter heights.
    fn clutter_mode(&self) -> ClutterMode;

    /// What the heights are declared to be the heights of.
    fn height_kind(&self) -> HeightKind;

    /// People by cells, if known.
    fn people(&self) -> Option<&People>;

    /// Named places.
    fn places(&self) -> &[Place];

    /// Feeds digests of all of the above: tiles, land cover, clutter table, water, coast, people, places. Two worlds that
    /// could give different answers must feed different bytes.
    fn feed_content(&self, feed: &mut dyn Feed);
}

/// A [`World`] of one [`Ground`], with people and places laid over it.
#[derive(Debug, Clone)]
pub struct GroundWorld {
    ground: Ground,
    people: Option<People>,
    places: Vec<Place>,
    content: Vec<u8>,
}

impl GroundWorld {
    /// A world of this ground. `content` identifies the tiles: a digest of their bytes, or a generator's name and revision.
    /// Everything else (rules, clutter table, people, places) is fed from the values themselves.
    pub fn new(ground: Ground, content: impl Into<Vec<u8>>) -> Self {
        Self {
            ground,
            people: None,
            places: Vec::new(),
            content: content.into(),
        }
    }

    /// One of the invented grounds by its key (see [`terrain::generated::IDS`]), with its people and places.
    pub fn generated(id: &str) -> Option<Self> {
        let made = terrain::generated::by_id(id)?;
        let mut content = format!("generated {} {}", made.id, made.title).into_bytes();
        // Sampled, so that another generator under the same name is another world.
        let sites = made.sites.iter().map(|site| site.position);
        for position in sites.chain(made.places.iter().map(|place| place.position)) {
            if let Ok(spot) = made.ground.spot(position) {
                content.extend(spot.height_m.to_bits().to_le_bytes());
                content.push(spot.cover);
            }
        }
        Some(
            Self::new(made.ground.clone(), content)
                .with_people(made.people().clone())
                .with_places(made.places.clone()),
        )
    }

    /// The same world with people.
    pub fn with_people(mut self, people: People) -> Self {
        self.people = Some(people);
        self
    }

    /// The same world with places.
    pub fn with_places(mut self, places: Vec<Place>) -> Self {
        self.places = places;
        self
    }

    /// The ground.
    pub fn ground(&self) -> &Ground {
        &self.ground
    }

    /// The same world over an altered ground: another rule for missing tiles, another clutter table, another height kind.
    pub fn with_ground(mut self, alter: impl FnOnce(Ground) -> Ground) -> Self {
        self.ground = alter(self.ground);
        self
    }
}

impl World for GroundWorld {
    fn radial_into(
        &self,
        from: Position,
        azimuth_deg: f64,
        length_km: f64,
        step_m: f64,
        profile: &mut Profile,
    ) -> Result<(), GroundError> {
        self.ground
            .radial_into(from, azimuth_deg, length_km, step_m, profile)
    }

    fn path(&self, from: Position, to: Position, step_m: f64) -> Result<Profile, GroundError> {
        self.ground.profile(from, to, step_m)
    }

    fn spot(&self, at: Position) -> Result<Spot, GroundError> {
        self.ground.spot(at)
    }

    fn clutter_table(&self) -> &ClutterTable {
        self.ground.table()
    }

    fn clutter_mode(&self) -> ClutterMode {
        self.ground.clutter_mode()
    }

    fn height_kind(&self) -> HeightKind {
        self.ground.kind()
    }

    fn people(&self) -> Option<&People> {
        self.people.as_ref()
    }

    fn places(&self) -> &[Place] {
        &self.places
    }

    fn feed_content(&self, feed: &mut dyn Feed) {
        let mut named = Named(feed);
        named.bytes("tiles", &self.content);
        named.bytes("heights", format!("{:?}", self.ground.kind()).as_bytes());
        named.bytes("missing", format!("{:?}", self.ground.missing()).as_bytes());
        named.bytes("land cover", &[u8::from(self.ground.covers().is_some())]);
        feed_table(&mut named, self.ground.table());
        if let Some(coast) = self.ground.coast() {
            named.bytes("coast", format!("{coast:?}").as_bytes());
        }
        if let Some(people) = &self.people {
            named.bytes("people grid", format!("{:?}", people.grid()).as_bytes());
            let counts: Vec<u8> = people.counts().iter().flat_map(|c| c.to_le_bytes()).collect();
            named.bytes("people", &counts);
        }
        for place in &self.places {
            named.bytes("place", format!("{place:?}").as_bytes());
        }
    }
}

/// Feeds a clutter table: whatever changes an answer.
pub(crate) fn feed_table(named: &mut Named<'_>, table: &ClutterTable) {
    for class in table.classes() {
        named.count("class", u64::from(class.code));
        named.bytes("category", format!("{:?}", class.category).as_bytes());
        named.number("clutter_m", class.clutter_m);
    }
}
