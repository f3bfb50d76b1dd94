//! The proof: every figure and finding of one station.
//!
//! [`evaluate`] makes numbers, [`explain()`] makes figures and findings of them, [`said`] puts those into a language.

pub mod antenna_sheet;
pub mod assessment;
pub mod case;
pub mod diagnosis;
pub mod enquiry;
pub mod explain;
pub mod figure;
pub mod finding;
pub mod handover;
pub mod masts;
pub mod method;
pub mod naming;
pub mod outcome;
pub mod pattern_files;
pub mod pen;
pub mod proofs;
pub mod rules;
pub mod said;
pub mod say;
pub mod second_opinion;
pub mod section;
pub mod shaping;
pub mod sweep;
pub mod unit;
pub mod weigh;

pub use antenna_sheet::{AntennaSheet, antenna_sheets};
pub use assessment::Assessment;
pub use case::{Case, FieldStore, Fields, NoStore};
pub use explain::explain;
pub use handover::{Handover, hand_over};
pub use outcome::{Outcome, evaluate};
pub use pen::Pen;
pub use say::say;
pub use weigh::weigh;
