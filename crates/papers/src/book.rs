//! What a paper is made from.

use crate::map::Map;
use assess::Handover;
use assess::assessment::Costs;
use assess::said::Sheet;

/// An assessment as it was said, with what cannot be said in words.
#[derive(Debug, Clone, Copy)]
pub struct Book<'a> {
    /// Every figure, finding and price, finished.
    pub sheet: &'a Sheet,
    /// What is handed over with a signature: terms, rigging, what is measured on the day.
    pub handover: &'a Handover,
    /// The map, when something radiates.
    pub map: Option<&'a Map>,
    /// What the builder pays and earns. Only a builder's paper looks at it.
    pub costs: &'a Costs,
}
