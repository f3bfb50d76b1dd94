//! From a brief to the cheapest design that keeps it: choices, bounds, neighbours.
//!
//! The search is exact: designs are looked at in the order of a price that none of them can fall below, and it ends when
//! the next cannot be cheaper than the best found.

pub mod air;
pub mod answer;
pub mod draft;
pub mod link;
pub mod money;
pub mod options;
pub mod plan;
pub mod presume;
pub mod resilience;
pub mod search;
pub mod studio;
pub mod tier;
pub mod trial;

pub use answer::{Budget, Neighbour, Offer, Plan, Wish};
pub use options::{AirChoice, Pick};
pub use plan::{PlanError, Task, exhaustive, plan};
pub use presume::presume;
pub use tier::Tier;
