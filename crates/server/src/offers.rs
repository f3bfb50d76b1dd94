//! Designs for the same brief, worked out and set side by side, of which one can be taken.

use assess::said::{SaidAssumption, Shown};
use serde::Serialize;
use utoipa::ToSchema;

/// The offers as they stand.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Offers {
    /// How they stand.
    pub state: OffersState,
    /// Why there are none, or why they are old.
    pub why: Option<String>,
    /// What was worked out last.
    pub answer: Option<OffersAnswer>,
    /// The station as it stands, where it is none of the designs.
    pub present: Option<OfferPresent>,
}

/// The station as it stands, beside the designs.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct OfferPresent {
    /// Price to build.
    pub cost: Shown,
    /// People with stereo on the roof.
    pub people: Option<Shown>,
    /// ERP.
    pub erp: Option<Shown>,
    /// Least in hand at a wanted place.
    pub in_hand: Option<Shown>,
    /// Some wanted place is short.
    pub short: bool,
}

/// How the offers stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub enum OffersState {
    /// Never worked out in this sitting, or stopped.
    None,
    /// Being worked out.
    Working,
    /// Of the station as it stands.
    Ready,
    /// Of the station before its last change.
    Old,
}

/// A brief answered.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct OffersAnswer {
    /// The answer in a sentence.
    pub sentence: String,
    /// Some design keeps licence and every wish that can be kept.
    pub holds: bool,
    /// The chosen design's way into the air, in a sentence.
    pub design: String,
    /// How many designs there were and how many were assessed.
    pub looked: String,
    /// What stands in the way of the design that comes nearest.
    pub in_the_way: Vec<String>,
    /// Each wish, and what would unlock it where it cannot be kept.
    pub wishes: Vec<OfferWish>,
    /// The budget against the price, in sentences.
    pub budget: Vec<String>,
    /// The budget on the axis of cost.
    pub budget_at: Option<Shown>,
    /// Every design, the cheapest first.
    pub offers: Vec<Offer>,
    /// Assumptions of the chosen design, ranked by what each is worth.
    pub assumptions: Vec<SaidAssumption>,
    /// What the brief left open and the answer presumes, by path.
    pub presumed: Vec<String>,
    /// Questions to send back, where something was presumed.
    pub questions: Vec<String>,
}

/// One wish of the brief.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct OfferWish {
    /// How it fares.
    pub says: String,
    /// It is kept by the chosen design.
    pub kept: bool,
    /// Why no design keeps it and what would unlock it.
    pub unlock: Option<String>,
    /// The ground that stands in the way.
    pub obstacle: Option<String>,
}

/// One design.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Offer {
    /// Stable id, such as `chosen`, `bays-more`.
    pub id: String,
    /// Its letter on the drawing.
    pub letter: String,
    /// What it is called.
    pub title: String,
    /// What it is, or what it changes.
    pub says: String,
    /// It is the one chosen.
    pub chosen: bool,
    /// The station stands like this now.
    pub in_force: bool,
    /// It keeps licence and wishes.
    pub holds: bool,
    /// Why it would do, or why not.
    pub why: String,
    /// It can be taken.
    pub can_choose: bool,
    /// Price to build.
    pub cost: Shown,
    /// That price less the chosen one's.
    pub cost_against: Option<Shown>,
    /// Price with running costs over the horizon.
    pub over_years: Shown,
    /// People with stereo on the roof.
    pub people: Option<Shown>,
    /// Those people less the chosen one's.
    pub people_against: Option<Shown>,
    /// ERP.
    pub erp: Option<Shown>,
    /// Least in hand at a wanted place.
    pub in_hand: Option<Shown>,
    /// Some wanted place is short.
    pub short: bool,
}
