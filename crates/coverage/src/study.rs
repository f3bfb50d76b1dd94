//! What a coverage is asked for: the site, the antenna's height, the conditions and how finely to look.

use propagation::p1812::{Conditions, Polarisation};
use terrain::Position;

use crate::cover_row::{ReceivingRule, feed_rule};
use crate::error::CoverageError;
use crate::feed::{Feed, Named};
use crate::lattice::{Azimuths, Lattice};
use crate::world::World;

/// Revision of the method: rises whenever the same inputs may give other losses, so that no older answer is served.
pub const METHOD_REVISION: u64 = 2;

/// Which method reads the radials, and how.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Walker {
    /// P.1812, every receiver on its own: slow, the oracle.
    Plain,
    /// P.1812, everything shared along the radial: equal to the plain walker to 0.001 dB.
    Engine,
    /// The Irregular Terrain Model along the radial, for one of its climates (1 to 7; 5 is continental temperate), over average
    /// ground. It knows no clutter; N0 is the study's, ΔN is its own. A second opinion: [`at_place`](crate::at_place) stays with
    /// P.1812.
    Itm(u8),
}

/// A coverage to be computed. Power and pattern are no part of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Study {
    /// Where the antenna stands.
    pub site: Position,
    /// Radiation centre above ground, m, 1 to 3000.
    pub tx_agl_m: f64,
    /// Frequency, polarisation, time percentage, climate. Location percentage and spread stay at 50 % and 0: places are
    /// counted by probability afterwards.
    pub conditions: Conditions,
    /// Out to this distance, km.
    pub radius_km: f64,
    /// The study step, m: spacing of profile samples and receivers along each radial. P.1812's answer depends on it.
    pub step_m: f64,
    /// How many radials.
    pub azimuths: Azimuths,
    /// Take only every n-th of those radials (1: all): a coarse answer first. The step stays.
    pub every_azimuth: u32,
    /// At which height fields are predicted.
    pub receiving: ReceivingRule,
    /// Which walker.
    pub walker: Walker,
}

/// Furthest a coverage may reach, km.
pub const MAX_RADIUS_KM: f64 = 300.0;

/// Most receivers of one coverage.
pub const MAX_RECEIVERS: usize = 120_000_000;

impl Study {
    /// 60 km at 90 m, half of the time, the temperate climate ΔN 45, N0 325, radials by rule, receiving by cover.
    pub fn new(site: Position, tx_agl_m: f64, freq_mhz: f64, polarisation: Polarisation) -> Self {
        Self {
            site,
            tx_agl_m,
            conditions: Conditions::median(freq_mhz, polarisation),
            radius_km: 60.0,
            step_m: 90.0,
            azimuths: Azimuths::Rule,
            every_azimuth: 1,
            receiving: ReceivingRule::ByCover,
            walker: Walker::Engine,
        }
    }

    /// The same study out to another distance.
    pub fn within_km(mut self, radius_km: f64) -> Self {
        self.radius_km = radius_km;
        self
    }

    /// The same study at another step.
    pub fn at_step_m(mut self, step_m: f64) -> Self {
        self.step_m = step_m;
        self
    }

    /// The same study for another percentage of time, 1 to 50.
    pub fn for_time_pct(mut self, time_pct: f64) -> Self {
        self.conditions.time_pct = time_pct;
        self
    }

    /// The same study on every `every`-th radial: a preview thins azimuths, never the step.
    pub fn coarse(mut self, every: u32) -> Self {
        self.every_azimuth = every.max(1);
        self
    }

    /// Where the receivers stand.
    ///
    /// # Errors
    /// [`CoverageError::Study`] for a radius or step that makes no lattice, or more than [`MAX_RECEIVERS`] receivers.
    pub fn lattice(&self) -> Result<Lattice, CoverageError> {
        let refuse = |what, value| CoverageError::Study { what, value };
        if !(1.0..=10_000.0).contains(&self.step_m) {
            return Err(refuse("step", self.step_m));
        }
        if !(0.1..=MAX_RADIUS_KM).contains(&self.radius_km) || self.radius_km * 1000.0 < 2.0 * self.step_m {
            return Err(refuse("radius", self.radius_km));
        }
        if let Azimuths::Count(count) = self.azimuths
            && !(1..=1_000_000).contains(&count)
        {
            return Err(refuse("azimuths", f64::from(count)));
        }
        let cells = std::f64::consts::PI * (self.radius_km * 1000.0 / self.step_m).powi(2);
        if cells > MAX_RECEIVERS as f64 / 1.1 {
            return Err(refuse("receivers", cells.round()));
        }
        let full = Lattice::new(self.site, self.radius_km, self.step_m, self.azimuths);
        Ok(if self.every_azimuth > 1 {
            full.coarser(self.every_azimuth)
        } else {
            full
        })
    }

    /// Checks what the lattice does not.
    pub(crate) fn check(&self) -> Result<(), CoverageError> {
        if let ReceivingRule::TrueHeight(height_m) = self.receiving
            && !(1.0..=3000.0).contains(&height_m)
        {
            return Err(CoverageError::Study {
                what: "receiving-height",
                value: height_m,
            });
        }
        if self.conditions.location_pct != 50.0 {
            return Err(CoverageError::Study {
                what: "location-percentage",
                value: self.conditions.location_pct,
            });
        }
        Ok(())
    }

    /// Checks that another study shares all that is computed once for both.
    pub(crate) fn check_together(&self, other: &Study) -> Result<(), CoverageError> {
        let differs = |what| Err(CoverageError::NotTogether { what });
        if let Some(what) = self.other_receivers(other) {
            return differs(what);
        }
        if self.tx_agl_m != other.tx_agl_m {
            return differs("antenna-height");
        }
        if self.conditions.dn_per_km != other.conditions.dn_per_km {
            return differs("lapse-rate");
        }
        if self.receiving != other.receiving {
            return differs("receiving-rule");
        }
        if self.walker != other.walker {
            return differs("walker");
        }
        Ok(())
    }

    /// What gives another study other receivers, if anything does.
    pub(crate) fn other_receivers(&self, other: &Study) -> Option<&'static str> {
        [
            ("site", self.site != other.site),
            ("radius", self.radius_km != other.radius_km),
            ("step", self.step_m != other.step_m),
            (
                "azimuths",
                (self.azimuths, self.every_azimuth) != (other.azimuths, other.every_azimuth),
            ),
        ]
        .into_iter()
        .find_map(|(what, differs)| differs.then_some(what))
    }

    /// Feeds everything a [`Survey`](crate::Survey) of this study's ground rests on: site, radius, step, azimuths and the world's
    /// content. Studies that share a survey feed the same.
    pub fn feed_survey_key(&self, world: &dyn World, feed: &mut dyn Feed) {
        let mut named = Named(feed);
        named.bytes("kind", b"survey");
        named.count("method", METHOD_REVISION);
        self.feed_site(&mut named);
        self.feed_lattice(&mut named);
        world.feed_content(feed);
    }

    /// Feeds everything a loss field of this study rests on: parameters, the world's content, the method's revision.
    pub fn feed_key(&self, world: &dyn World, feed: &mut dyn Feed) {
        let mut named = Named(feed);
        named.bytes("kind", b"loss field");
        named.count("method", METHOD_REVISION);
        self.feed(&mut named);
        world.feed_content(feed);
    }

    fn feed(&self, named: &mut Named<'_>) {
        self.feed_site(named);
        named.number("tx_agl_m", self.tx_agl_m);
        let c = &self.conditions;
        named.number("freq_mhz", c.freq_mhz);
        named.bytes("polarisation", format!("{:?}", c.polarisation).as_bytes());
        named.number("time_pct", c.time_pct);
        named.number("location_pct", c.location_pct);
        named.number("location_spread_db", c.location_spread_db);
        named.number("dn_per_km", c.dn_per_km);
        named.number("n0", c.n0);
        self.feed_lattice(named);
        feed_rule(named, self.receiving);
        named.bytes("walker", format!("{:?}", self.walker).as_bytes());
    }

    fn feed_site(&self, named: &mut Named<'_>) {
        named.number("lat", self.site.lat_deg());
        named.number("lon", self.site.lon_deg());
    }

    fn feed_lattice(&self, named: &mut Named<'_>) {
        named.number("radius_km", self.radius_km);
        named.number("step_m", self.step_m);
        match self.azimuths {
            Azimuths::Rule => named.bytes("azimuths", b"rule"),
            Azimuths::Count(count) => named.count("azimuths", u64::from(count)),
        }
        named.count("every azimuth", u64::from(self.every_azimuth));
    }
}
