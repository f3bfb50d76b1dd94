//! What is handed over: how the antennas are rigged, what is measured on the day.

use assess::handover::{CheckGroup, Rigging};
use serde::Serialize;
use utoipa::ToSchema;

/// What is handed over with a signature, of the station as it stands.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Handover {
    /// Every antenna as it is rigged.
    pub rigging: Vec<Rigging>,
    /// What is measured on the day, trade by trade.
    pub acceptance: Vec<CheckGroup>,
}
