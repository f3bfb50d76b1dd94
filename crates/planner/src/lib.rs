//! From a brief to the cheapest design that keeps it: choices, bounds, neighbours.
//!
//! The search is exact: every design has a rank that it cannot better, designs are looked at in that order, and it ends when
//! the next cannot beat the best found. Antennas are solved as the file asks for them, each distinct one once.

pub mod air;
pub mod answer;
pub mod course;
pub mod draft;
pub mod link;
mod missed;
pub mod money;
pub mod now;
pub mod options;
pub mod order;
pub mod plan;
pub mod presume;
pub mod resilience;
pub mod sample;
pub mod search;
pub mod studio;
pub mod tier;
pub mod trial;

pub use answer::{Budget, Neighbour, Now, Offer, Plan, Wish};
pub use draft::Draft;
pub use options::{AirChoice, Pick};
pub use plan::{PlanError, Task, exhaustive, plan};
pub use presume::presume;
pub use tier::Tier;
