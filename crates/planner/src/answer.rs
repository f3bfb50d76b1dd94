//! What a plan says.

use crate::options::AirChoice;
use crate::tier::Tier;
use crate::trial::Trial;
use assess::finding::Finding;
use quantity::Money;
use station::Edit;
use words::Message;

/// A brief answered.
#[derive(Debug, Clone)]
pub struct Plan {
    /// The design chosen.
    pub chosen: Offer,
    /// One step away from it, axis by axis.
    pub neighbours: Vec<Neighbour>,
    /// The wishes, in the order of the file.
    pub wishes: Vec<Wish>,
    /// The budget, where there is one.
    pub budget: Option<Budget>,
    /// Edits that filled a brief without site, emission or wish; part of the chosen edits as well.
    pub presumed: Vec<Edit>,
    /// What the brief asks and this plan does not answer.
    pub left_open: Vec<Message>,
    /// Size of station.
    pub tier: Tier,
    /// How many designs there were, and how many were looked at in full.
    pub looked_at: LookedAt,
}

/// A design offered.
#[derive(Debug, Clone)]
pub struct Offer {
    /// What was chosen for the way into the air.
    pub choice: AirChoice,
    /// The whole of it: edits, numbers, what forbids it.
    pub trial: Trial,
    /// It keeps licence, ratings and every wish that can be kept.
    pub holds: bool,
}

/// What is varied.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Axis {
    /// The transmitter.
    Transmitter,
    /// The feeder.
    Feeder,
    /// The number of bays.
    Bays,
    /// The height of the antenna.
    Height,
    /// The programme's way to the transmitter.
    Link,
}

impl Axis {
    /// Its word in messages and JSON.
    pub fn word(self) -> &'static str {
        match self {
            Axis::Transmitter => "transmitter",
            Axis::Feeder => "feeder",
            Axis::Bays => "bays",
            Axis::Height => "height",
            Axis::Link => "link",
        }
    }
}

/// A design one step away.
#[derive(Debug, Clone)]
pub struct Neighbour {
    /// What differs.
    pub axis: Axis,
    /// One step more rather than less.
    pub more: bool,
    /// The design.
    pub offer: Offer,
}

/// One wish, and what any design within the licence could do for it.
#[derive(Debug, Clone, PartialEq)]
pub struct Wish {
    /// Its tag.
    pub tag: String,
    /// Tag of its place, where it names one.
    pub place: Option<String>,
    /// Room in hand with the design chosen, dB.
    pub margin_db: Option<f64>,
    /// Room in hand with all the licensed power straight at it from the best height, dB: no design does better.
    pub at_best_db: Option<f64>,
    /// Room in hand with the antenna on offer that does best, the licence used in full, dB.
    pub on_offer_db: Option<f64>,
    /// Share of people served in its area, share wanted (0 to 1), and the area's radius in km, where it asks for a share.
    pub area: Option<(f64, f64, f64)>,
    /// It is kept.
    pub kept: bool,
    /// Some antenna on offer keeps it, the licence used in full.
    pub possible: bool,
    /// What stands in the way, when something does: distance in km and how far it rises above the ray in m.
    pub obstacle: Option<(f64, f64)>,
}

impl Wish {
    /// No design within the licence keeps it.
    pub fn is_impossible(&self) -> bool {
        self.at_best_db.is_some_and(|db| db < 0.0)
    }
}

/// The budget against the price.
#[derive(Debug, Clone, PartialEq)]
pub struct Budget {
    /// What there is.
    pub asked: Money,
    /// What is missing, when something is.
    pub missing: Option<Money>,
    /// What it buys now, where it does not buy everything.
    pub now: Option<Now>,
}

/// The best station for the money that is there. Whatever law, safety or the supply forbid to go without is in it.
#[derive(Debug, Clone, PartialEq)]
pub struct Now {
    /// What it costs; where nothing goes on the air for the budget, the least that does.
    pub price: Money,
    /// It goes on the air.
    pub on_air: bool,
    /// What it radiates, W.
    pub erp_w: Option<f64>,
    /// The way into the air, where it is a smaller one than that of the whole design.
    pub air: Option<AirChoice>,
    /// What the money buys beside the way into the air, most needed first; where nothing goes on the air, what may not be left out.
    pub bought: Vec<Step>,
    /// What the next money buys, most needed first.
    pub next: Vec<Step>,
    /// What is wrong with it that is not wrong with the whole design: errors, worst first.
    pub breaks: Vec<Finding>,
    /// Edits from the brief to it.
    pub edits: Vec<Edit>,
}

impl Now {
    /// Nothing goes on the air for the budget; the least that does costs this much, with what may not be left out.
    pub fn nothing(least: Money, must: Vec<Step>) -> Now {
        Now {
            price: least,
            on_air: false,
            erp_w: None,
            air: None,
            bought: must,
            next: Vec::new(),
            breaks: Vec::new(),
            edits: Vec::new(),
        }
    }
}

/// One thing bought.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// The item's tag in the whole design; the reserve transmitter's for it and its change-over.
    pub id: String,
    /// How many.
    pub count: u32,
    /// What it adds to the price, duty included.
    pub price: Money,
    /// What all costs with it.
    pub total: Money,
}

/// The size of the search.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LookedAt {
    /// Designs in all.
    pub designs: usize,
    /// Those that a bound did not rule out.
    pub possible: usize,
    /// Those evaluated in full.
    pub evaluated: usize,
}
